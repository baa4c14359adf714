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
	if m.weld > 0 && sp.face != cast.Bore {
		weld = min(s.seam(sp, m.weld), s.joint(sp, m.weld))
	}
	switch m.surface {
	case bare, brushed:
		s.worked(sp, b, m, &k, seed)
		heat(&k, weld, m.weld, sp.pixel)
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

// worked is bare metal, ground and wiped: a grain round tubes and across gores,
// and clouds where hands and rags have been.
func (s *Scene) worked(sp *spot, b *cast.Solid, m *material, k *skin, seed uint32) {
	q := own(b, sp.p)
	cloud := noise(q.X/90, q.Y/90, q.Z/90, seed)
	tone := 1 + 0.045*cloud
	k.rough *= 1 + 0.16*cloud
	const fine, coarse = 3.5, 17.0 // mm across the grain
	if v := seen(fine, sp.pixel); v > 0 {
		tone += 0.07 * v * noise2(q.Z/fine, 0.35*math.Atan2(q.Y, q.X)*b.Radius/40, seed+1)
	}
	if v := seen(coarse, sp.pixel); v > 0 {
		tone += 0.045 * v * noise2(q.Z/coarse, 0.2*math.Atan2(q.Y, q.X)*b.Radius/40, seed+2)
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
		tone += 0.085 * v * flower(q.X, q.Y, q.Z, seed)
	}
	k.albedo, k.mirror = k.albedo.scale(tone), k.mirror.scale(2*tone-1)
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

// rust is a weathered skin: patches of orange on brown that run down with the
// rain.
func (s *Scene) rust(sp *spot, b *cast.Solid, k *skin, seed uint32) {
	q := sp.p
	big := noise(q.X/190, q.Y/190, q.Z/330, seed)
	mid := noise(q.X/52, q.Y/52, q.Z/110, seed+1)
	tone := 0.55*big + 0.35*mid
	if v := seen(9, sp.pixel); v > 0 {
		tone += 0.30 * v * noise(q.X/9, q.Y/9, q.Z/9, seed+2)
	}
	pale, dark := rgb{0.36, 0.150, 0.062}, rgb{0.125, 0.057, 0.034}
	switch {
	case tone > 0:
		k.albedo = k.albedo.mix(pale, min(tone, 1))
	default:
		k.albedo = k.albedo.mix(dark, min(-1.2*tone, 1))
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
// purple and straw of the oxide that grows with the heat (temper colours), most
// of which dressing takes off.
func heat(k *skin, weld, half, pixel float64) {
	if half <= 0 {
		return
	}
	wide := max(half, 0.8*pixel)
	x := weld / wide
	if x > 5 {
		return
	}
	strength := 0.55 * half / wide
	straw, purple, blue, dull := rgb{0.98, 0.84, 0.62}, rgb{0.74, 0.60, 0.70}, rgb{0.62, 0.70, 0.86}, rgb{0.62, 0.61, 0.60}
	var c rgb
	switch {
	case x < 1:
		c = dull.mix(blue, x)
	case x < 2:
		c = blue.mix(purple, x-1)
	case x < 3:
		c = purple.mix(straw, x-2)
	default:
		c = straw.mix(rgb{1, 1, 1}, (x-3)/2)
	}
	k.mirror = k.mirror.times(rgb{1, 1, 1}.mix(c, strength))
	k.rough *= 1 + 0.3*strength*(1-smooth(0.8, 1.6, x))
}
