package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/render/picture/cast"
)

// A skin is a material at one spot.
type skin struct {
	albedo, mirror rgb
	rough          float64
	grain          r3.Vec // the direction of grinding; zero for none
}

// skin returns what the surface is like at a spot, whose normal it may turn.
func (s *Scene) skin(sp *spot) skin {
	m := &s.looks[sp.solid]
	k := skin{albedo: m.albedo, mirror: m.mirror, rough: m.rough}
	b := &s.world.Solids[sp.solid]
	seed := s.seed + uint32(b.Part)*0x9e37
	weld := none
	if m.weld > 0 && sp.face != cast.Bore && sp.face > cast.Rim {
		weld = min(s.seam(sp, m.weld), s.joint(sp, m.weld))
	}
	switch m.surface {
	case scaled:
		s.mill(sp, b, m, &k, weld, seed)
		heat(&k, weld, m, sp.pixel)
	case ground:
		s.ground(sp, b, &k, seed)
		heat(&k, weld, m, sp.pixel)
	case brushed, sheeted:
		s.worked(sp, b, m, &k, seed)
		heat(&k, weld, m, sp.pixel)
	case galvanized:
		s.zinc(sp, b, &k, seed)
		bead(&k, weld, m.weld, sp.pixel, 0.12)
	case rusted:
		s.rust(sp, b, &k, seed)
		bead(&k, weld, m.weld, sp.pixel, 0.30)
	default:
		// Paint is a little uneven, as sprayed paint is.
		f := 1 + 0.02*noise(sp.p.X/70, sp.p.Y/70, sp.p.Z/70, seed)*seen(70, sp.pixel)
		k.albedo = k.albedo.scale(f)
		bead(&k, weld, m.weld, sp.pixel, 0.10)
	}
	return k
}

// own returns a place in the solid's own axes.
func own(b *cast.Solid, p r3.Vec) r3.Vec {
	rel := r3.Sub(p, b.Center)
	return r3.Vec{X: r3.Dot(rel, b.Zero), Y: r3.Dot(rel, b.Right), Z: r3.Dot(rel, b.Axis)}
}

// bright is how far on either side of a weld the scale is ground off, in mm.
// Common practice, no source.
const bright = 11.0

// mill is hot rolled sheet with its scale on: blue grey and smooth, clouded, with
// paler flakes where it has sprung off in rolling, and bright where it was ground
// off for welding.
func (s *Scene) mill(sp *spot, b *cast.Solid, m *material, k *skin, weld float64, seed uint32) {
	q := own(b, sp.p)
	cloud := noise(q.X*(1.0/75), q.Y*(1.0/75), q.Z*(1.0/130), seed)
	wide := max(3, sp.pixel)
	edge := m.weld + bright
	if v := seen(23, sp.pixel); v > 0 && weld < edge+12 {
		edge += 3.2 * v * noise(q.X*(1.0/23), q.Y*(1.0/23), q.Z*(1.0/23), seed+4)
	}
	clean := smooth(edge+wide, edge-wide, weld)
	tone := 1 + 0.22*cloud
	flake := 0.0
	if v := seen(15, sp.pixel); v > 0 {
		n := noise(q.X*(1.0/15), q.Y*(1.0/15), q.Z*(1.0/42), seed+1)
		tone += 0.16 * v * n
		flake = 0.30 * v * smooth(0.42, 0.62, n+0.3*cloud)
	}
	if v := seen(3.5, sp.pixel); v > 0 {
		tone += 0.10 * v * noise(q.X*(1.0/3.5), q.Y*(1.0/3.5), q.Z*(1.0/9), seed+2)
	}
	blue := rgb{0.138, 0.149, 0.172}.mix(rgb{0.140, 0.131, 0.126}, smooth(0.1, 0.8, cloud))
	scale := blue.scale(tone).mix(rgb{0.26, 0.26, 0.26}, flake)
	k.rough *= 1 + 0.25*cloud
	if clean > 0 {
		steel := skin{mirror: m.mirror.scale(1.05), rough: m.rough}
		s.ground(sp, b, &steel, seed)
		scale = scale.mix(steel.mirror, clean)
		if clean > 0.5 {
			k.grain = steel.grain
		}
	}
	k.mirror = scale
}

// ground is steel under the flap disc: short arcs of scratches that cross each
// other, patch by patch.
func (s *Scene) ground(sp *spot, b *cast.Solid, k *skin, seed uint32) {
	q := own(b, sp.p)
	cloud := noise(q.X*(1.0/80), q.Y*(1.0/80), q.Z*(1.0/80), seed+8)
	tone := 1 + 0.06*cloud
	k.rough *= 1 + 0.22*cloud
	// Patches of strokes, each in a direction of its own.
	if v := seen(6, sp.pixel); v > 0 {
		n := noise(q.X*(1.0/34), q.Y*(1.0/34), q.Z*(1.0/34), seed+9)
		a := (q.X + q.Y + 0.6*q.Z) * (1.0 / 3.0)
		c := (q.X - q.Y - 0.8*q.Z) * (1.0 / 3.0)
		l := (q.Z + 0.4*q.X) * (1.0 / 26)
		f := smooth(-0.25, 0.25, n)
		tone += 0.22 * v * lerp(noise2(a, l, seed+10), noise2(c, l, seed+11), f)
	}
	// Each patch throws the light its own way.
	if v := seen(27, sp.pixel); v > 0 {
		tone += 0.20 * v * noise((q.X+0.5*q.Z)*(1.0/27), (q.Y-0.4*q.Z)*(1.0/27), q.Z*(1.0/46), seed+12)
	}
	k.mirror = k.mirror.scale(tone)
}

// worked is bare metal without scale, as it comes from the mill or brushed: a
// grain round tubes and across gores, clouds where hands and rags have been, and
// the patches that air makes on metals that tarnish.
func (s *Scene) worked(sp *spot, b *cast.Solid, m *material, k *skin, seed uint32) {
	q := own(b, sp.p)
	cloud := noise(q.X*(1.0/90), q.Y*(1.0/90), q.Z*(1.0/90), seed)
	tone := 1 + 0.04*cloud
	k.rough *= 1 + 0.16*cloud
	if m.tarnish.b < 0.99 {
		f := cloud + 0.5*noise(q.X*(1.0/31), q.Y*(1.0/31), q.Z*(1.0/50), seed+3)
		low := 0.35 * max(-sp.n.Z, 0) // it lasts longest where rain does not wash
		f = smooth(-0.45, 0.95, f+low)
		k.mirror = k.mirror.times(rgb{1, 1, 1}.mix(m.tarnish, f))
		k.rough *= 1 + 0.5*f
	}
	strong := 0.55
	if m.surface == brushed {
		strong = 1.5
	}
	const fine, coarse = 2.4, 14.0 // mm across the grain
	round := math.Atan2(q.Y, q.X) * b.Radius * (1.0 / 110)
	if v := seen(fine, sp.pixel); v > 0 {
		tone += 0.08 * strong * v * noise2(q.Z*(1/fine), round, seed+1)
	}
	if v := seen(coarse, sp.pixel); v > 0 {
		tone += 0.04 * strong * v * noise2(q.Z*(1/coarse), 0.6*round, seed+2)
	}
	k.mirror = k.mirror.scale(tone)
	if b.Kind != cast.Box {
		g := r3.Cross(b.Axis, sp.n)
		if l := norm(g); l > 0.2 {
			k.grain = r3.Scale(1/l, g)
		}
	}
}

// zinc is a dipped skin, matt and mottled with the flowers of its crystals.
func (s *Scene) zinc(sp *spot, b *cast.Solid, k *skin, seed uint32) {
	q := own(b, sp.p)
	tone := 1 + 0.06*noise(q.X/160, q.Y/160, q.Z/160, seed)
	if v := seen(spangle, sp.pixel); v > 0 {
		// Turned, so that no face of a part lies along the mesh.
		q = r3.Scale(1/spangle, r3.Vec{
			X: 0.36*q.X + 0.48*q.Y - 0.80*q.Z,
			Y: -0.80*q.X + 0.60*q.Y,
			Z: 0.48*q.X + 0.64*q.Y + 0.60*q.Z,
		})
		tone += 0.17 * v * flower(q.X, q.Y, q.Z, seed)
	}
	k.albedo, k.mirror = k.albedo.scale(0.4+0.6*tone), k.mirror.scale(max(2*tone-1, 0.2))
}

// spangle is the size, in mm, of the crystals of a zinc skin. Common practice, no
// source.
const spangle = 15.0

// flower returns a value between -1 and 1 that is one for each cell about
// scattered points.
func flower(x, y, z float64, seed uint32) float64 {
	fx, fy, fz := math.Floor(x), math.Floor(y), math.Floor(z)
	best, value := math.Inf(1), 0.0
	for c := range 8 {
		// The eight cells nearest to it, which nearly always have its own.
		i := fx + math.Round(x-fx) - 1 + float64(c&1)
		j := fy + math.Round(y-fy) - 1 + float64(c>>1&1)
		l := fz + math.Round(z-fz) - 1 + float64(c>>2&1)
		h := hash(uint32(int64(i)), uint32(int64(j)), uint32(int64(l)), seed)
		dx := i + 0.1 + 0.8*uniform(h) - x
		dy := j + 0.1 + 0.8*uniform(h*0x9e3779b1) - y
		dz := l + 0.1 + 0.8*uniform(h*0x85ebca77) - z
		if d := dx*dx + dy*dy + dz*dz; d < best {
			best, value = d, 2*uniform(h*0xc2b2ae3d)-1
		}
	}
	return value
}

// rust is a weathered skin: patches of orange on brown, streaks that run down with
// the rain, and darker where it stays wet: below, and near the ground.
func (s *Scene) rust(sp *spot, b *cast.Solid, k *skin, seed uint32) {
	q := sp.p
	big := noise(q.X*(1.0/170), q.Y*(1.0/170), q.Z*(1.0/300), seed)
	mid := noise(q.X*(1.0/46), q.Y*(1.0/46), q.Z*(1.0/90), seed+1)
	tone := 0.45*big + 0.32*mid
	if v := seen(8, sp.pixel); v > 0 {
		tone += 0.34 * v * noise(q.X*(1.0/8), q.Y*(1.0/8), q.Z*(1.0/8), seed+2)
	}
	// Runs: narrow across, long down, and only where water runs down.
	steep := 1 - sp.n.Z*sp.n.Z
	if v := seen(15, sp.pixel) * steep; v > 0 {
		n := noise(q.X*(1.0/15), q.Y*(1.0/15), q.Z*(1.0/420), seed+3) + 0.4*big
		run := smooth(0.18, 0.55, n)
		tone += v * (0.55*run - 0.75*smooth(-0.22, -0.55, n))
	}
	wet := smooth(0.15, -0.9, sp.n.Z)
	if b.Kind != cast.Box {
		wet = max(wet, 0.75*smooth(0.16*s.size, 0, q.Z+0.05*s.size*mid))
	}
	tone -= 0.75 * wet
	pale, dark := rgb{0.40, 0.160, 0.048}, rgb{0.058, 0.029, 0.021}
	switch {
	case tone > 0:
		k.albedo = k.albedo.mix(pale, min(tone, 1))
	default:
		k.albedo = k.albedo.mix(dark, min(-1.1*tone, 1))
	}
	// The sheet's own unevenness.
	if v := seen(14, sp.pixel); v > 0 {
		a := 0.05 * v
		sp.n = unit(r3.Add(sp.n, r3.Vec{
			X: a * noise(q.X/14, q.Y/14, q.Z/14, seed+5),
			Y: a * noise(q.X/14, q.Y/14, q.Z/14, seed+6),
			Z: a * noise(q.X/14, q.Y/14, q.Z/14, seed+7),
		}))
	}
}

// bead darkens a dressed weld under a skin.
func bead(k *skin, weld, half, pixel, strength float64) {
	if half <= 0 {
		return
	}
	wide := max(half, 0.8*pixel)
	if weld > 1.3*wide {
		return
	}
	f := 1 - strength*half/wide*(1-smooth(0.5*wide, 1.3*wide, weld))
	k.albedo = k.albedo.scale(f)
	k.mirror = k.mirror.scale(f)
}

// heat colours bare metal beside a weld: the bead itself duller, then the blue,
// purple and straw of the oxide that grows with the heat (temper colours), of
// which dressing leaves some.
func heat(k *skin, weld float64, m *material, pixel float64) {
	half := m.weld
	if half <= 0 {
		return
	}
	wide := max(half, 0.8*pixel)
	x := weld / wide
	if x > 5 {
		return
	}
	strength := m.tint * half / wide
	straw, purple, blue, dull := rgb{1.0, 0.78, 0.44}, rgb{0.66, 0.42, 0.52}, rgb{0.40, 0.53, 0.86}, rgb{0.62, 0.61, 0.60}
	var c rgb
	switch {
	case x < 1:
		c = dull.mix(blue, smooth(0.5, 1, x))
	case x < 1.9:
		c = blue.mix(purple, (x-1)/0.9)
	case x < 2.8:
		c = purple.mix(straw, (x-1.9)/0.9)
	default:
		c = straw.mix(rgb{1, 1, 1}, smooth(2.8, 5, x))
	}
	k.mirror = k.mirror.times(rgb{1, 1, 1}.mix(c, strength))
	k.rough *= 1 + 0.3*strength*(1-smooth(0.8, 1.6, x))
}
