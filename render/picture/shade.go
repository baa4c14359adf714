package picture

import (
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/render/picture/cast"
)

// shade returns the light that a spot sends to the eye, and how bright that would be
// without the pattern of its surface. open is the share of the sky over it that
// other parts leave free.
func (s *Scene) shade(sp *spot, open float64) (c rgb, even float64) {
	b := &s.world.Solids[sp.solid]
	flat := sp.n
	k := s.skin(sp)
	l := &s.light
	if sp.face == cast.Bore {
		c = s.inside(sp, b, &k)
		return c, c.luminance()
	}
	nv := r3.Dot(sp.n, sp.v)
	if nv < 0.02 {
		// A normal that was turned may look away at the edge.
		sp.n = unit(r3.Add(sp.n, r3.Scale(0.02-nv, sp.v)))
		nv = 0.02
	}
	nl := r3.Dot(sp.n, l.sun)
	// The sun sets over the true surface, softly as its disc does.
	sun := smooth(-l.spread, l.spread, r3.Dot(flat, l.sun))
	if nl > 0 && sun > 0 {
		sun *= s.world.Open(sp.p, l.sun, l.spread, sp.solid)
		if s.figure != nil && sun > 0 {
			sun *= 1 - s.figure.shade(sp.p, l)
		}
	} else {
		sun = 0
	}
	light := l.around(sp.n, sp.p.Z).scale(rebound(open, k.albedo.luminance()+0.7*k.mirror.luminance()))
	if sun > 0 {
		light = light.add(l.direct.scale(nl * sun))
	}
	out := k.albedo.times(light)

	// What is mirrored: more of it at a slant (Schlick), less on rough skins.
	f := 1 - nv
	f *= f * f * f * f
	polish := 1 - min(k.rough, 1)
	slant := f * polish * polish
	mirror := k.mirror.mix(rgb{1, 1, 1}, slant)
	if k.rough < 0.8 {
		seen := s.mirrored(sp, nv, k.rough)
		out = out.add(mirror.times(seen).scale(0.35 + 0.65*open))
	}
	if sun > 0 {
		out = out.add(mirror.times(l.direct).scale(sun * nl * s.glint(sp, &k, nl, nv)))
	}
	out = s.pierced(sp, b, out)
	m := &s.looks[sp.solid]
	pattern := k.albedo.add(k.mirror).luminance() / m.albedo.add(m.mirror).luminance()
	return out, out.luminance() / max(pattern, 0.05)
}

// rebound returns the share of the light that falls in a corner which leaves a
// share of the sky open, when what comes in is thrown to and fro between
// surfaces that send back a share of it.
func rebound(open, back float64) float64 { return open / (1 - back*(1-open)) }

// glint returns how strongly the sun is mirrored: the distribution of Trowbridge
// and Reitz, drawn out across the grain, with the visibility of Kelemen.
func (s *Scene) glint(sp *spot, k *skin, nl, nv float64) float64 {
	h := unit(r3.Add(sp.v, s.light.sun))
	nh, lh := r3.Dot(sp.n, h), r3.Dot(s.light.sun, h)
	if nh <= 0 || lh <= 0 {
		return 0
	}
	a := max(0.85*k.rough, 0.03)
	along, across := a, a
	q := nh * nh
	if k.grain != (r3.Vec{}) {
		along, across = 0.7*a, 1.5*a
		g := r3.Dot(k.grain, h)
		c := r3.Dot(r3.Cross(sp.n, k.grain), h)
		q += g*g/(along*along) + c*c/(across*across)
	} else {
		q += (1 - nh*nh) / (a * a)
	}
	return 1 / (along * across * q * q) / (4 * lh * lh)
}

// mirrored returns the light that a spot mirrors to the eye: of the other parts,
// of the ground with the piece's shadow on it, and of the sky, all blurred by
// the roughness.
func (s *Scene) mirrored(sp *spot, nv, rough float64) rgb {
	r := r3.Sub(r3.Scale(2*nv, sp.n), sp.v)
	l := &s.light
	var out rgb
	rest := 1.0
	s.world.Covers(sp.p, r, rough, sp.solid, func(i int32, share float64) bool {
		out = out.add(s.body(i, r).scale(rest * share))
		rest *= 1 - share
		return rest > 0.02
	})
	if rest <= 0.02 {
		return out
	}
	w := 0.02 + 0.7*rough
	down := smooth(-w, w, -r.Z)
	var rear rgb
	if down < 1 {
		rear = l.mirrored(r, rough)
	}
	if down > 0 {
		rear = rear.mix(s.floor(sp, r, rough), down)
	}
	return out.add(rear.scale(rest))
}

// body returns about how bright another part is that is mirrored along r.
func (s *Scene) body(i int32, r r3.Vec) rgb {
	n := r3.Scale(-1, r)
	light := s.light.around(n, s.world.Solids[i].Middle.Z).scale(0.85)
	if d := r3.Dot(n, s.light.sun); d > 0 {
		light = light.add(s.light.direct.scale(0.8 * d))
	}
	return s.looks[i].body.times(light)
}

// floor returns the light of the ground that is mirrored along r, with the
// piece's shadow on it.
func (s *Scene) floor(sp *spot, r r3.Vec, rough float64) rgb {
	l := &s.light
	dip := max(-r.Z, 0.02+0.3*rough)
	t := sp.p.Z / dip
	if t > 30*s.size {
		return l.ground.mix(l.band, 0.5)
	}
	g := r3.Add(sp.p, r3.Scale(t, r))
	g.Z = 0
	blur := l.spread + rough*0.5
	// Over a wide patch of ground there is some shadow and much sun.
	sun := 0.85
	if wide := smooth(0, 0.12*s.size, t*rough); wide < 1 {
		sun = lerp(s.world.Open(g, l.sun, blur, s.base), sun, wide)
	}
	light := l.level.scale(sun).add(l.open.scale(0.35 + 0.55*lit(sp.p.Z)))
	return light.times(l.albedo).mix(l.band, smooth(0.12, 0, dip)*0.4)
}

// inside returns the light in the bore of an open tube, or in what has holes: what comes in by
// its end and by those.
func (s *Scene) inside(sp *spot, b *cast.Solid, k *skin) rgb {
	deep := 1e9
	for i := range b.Ends {
		if b.Open[i] {
			deep = min(deep, b.Ends[i].Height-r3.Dot(b.Ends[i].Normal, sp.p))
		}
	}
	q := deep / max(b.Radius, 1e-9)
	c := k.albedo.add(k.mirror.scale(0.5)).times(s.light.open.mix(s.light.ground, 0.4))
	light := 0.6 / (1 + 1.6*q*q)
	if len(b.Bites) > 0 {
		light = max(light, 0.6*b.Lit(sp.p, sp.n, min(0.9, k.albedo.luminance()+0.5*k.mirror.luminance())))
	}
	return c.scale(light)
}

// pierced darkens what the holes of the base leave of its top.
func (s *Scene) pierced(sp *spot, b *cast.Solid, c rgb) rgb {
	if len(s.holes) == 0 || b.Kind != cast.Box && b.Kind != cast.Tube || s.seams[sp.solid].rolled {
		return c
	}
	at, on := sp.p, sp.n.Z >= 0.9 && sp.p.Z >= b.High.Z-0.01
	if s.wall != nil {
		at, on = s.wall.Own(sp.p), sp.solid == s.base && sp.n.Y <= -0.9
	}
	if !on {
		return c
	}
	for i := range s.holes {
		h := &s.holes[i]
		x, y := at.X-h.x, at.Y-h.y
		if n := h.halfX*h.halfX + h.halfY*h.halfY; n > 0 {
			u := max(-1, min(1, (x*h.halfX+y*h.halfY)/n))
			x, y = x-u*h.halfX, y-u*h.halfY
		}
		d := norm2(x, y) - h.radius
		if d < sp.pixel {
			return c.scale(1 - 0.93*smooth(sp.pixel, -sp.pixel, d))
		}
	}
	return c
}
