package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// above returns the sky in a direction.
func (s *Scene) above(d r3.Vec) rgb {
	st := &s.stage
	if st.place.indoors() || st.place == Plain {
		return st.palette.wall.times(s.light.open).scale(0.9)
	}
	return s.light.air(d.Z, 0).scale(0.75)
}

// A curtain is the light of what stands behind the piece, on a square mesh of
// places of a tile: it is out of focus and changes slowly, but for the bricks of a
// wall, which are laid over it.
type curtain struct {
	known [(tile/mesh + 1) * (tile/mesh + 1)]bool
	light [(tile/mesh + 1) * (tile/mesh + 1)]rgb
}

// hung returns the light of what stands behind the piece at a place of the picture.
func (w *worker) hung(x, y float64) rgb {
	fx, fy := (x-float64(w.grid.x0)+0.5)/mesh, (y-float64(w.grid.y0)+0.5)/mesh
	i, j := min(max(int(fx), 0), tile/mesh-1), min(max(int(fy), 0), tile/mesh-1)
	fx, fy = fx-float64(i), fy-float64(j)
	a := w.hung1(i, j).mix(w.hung1(i+1, j), fx)
	return a.mix(w.hung1(i, j+1).mix(w.hung1(i+1, j+1), fx), fy)
}

// hung1 returns the same at a corner of the mesh.
func (w *worker) hung1(i, j int) rgb {
	g := &w.curtain
	k := j*(tile/mesh+1) + i
	if !g.known[k] {
		st := &w.stage
		r := w.win.ray(float64(w.grid.x0+i*mesh)-0.5, float64(w.grid.y0+j*mesh)-0.5)
		t := st.toWall(&r)
		pixel := w.win.pixel
		if !w.win.parallel {
			pixel *= t
		}
		g.known[k], g.light[k] = true, w.standing(r.At(t), mesh*pixel)
	}
	return g.light[k]
}

// standing returns the light of what stands behind the piece, a wall or trees, at
// a place on it, of which what is smaller than a length in mm is not seen.
func (s *Scene) standing(p r3.Vec, least float64) rgb {
	st := &s.stage
	x, _ := st.own(p)
	z := max(p.Z-st.floor, 0)
	switch st.place {
	case Plain:
		return s.sheet(x, z)
	case Room, Plinth:
		return s.plaster(p, x, z, least)
	case Yard:
		high := st.wall - st.floor
		soft := max(0.7*least, 12.0)
		up := smooth(-soft, soft, z-high)
		if up <= 0 {
			return s.masonry(x, z, least)
		}
		c := s.foliage(x, z, 0.16*(st.trees-st.floor), least)
		if up < 1 {
			c = s.masonry(x, z, least).mix(c, up)
		}
		return c
	}
	return s.foliage(x, z, (st.trees-st.floor)*0.30, least)
}

// reachOf is how wide the middle of a backdrop is, that light falls on.
func (st *stage) reachOf() float64 { return 1.3*st.far + 200 }

// sheet is a paper or cloth that is hung behind and rolled out under a piece: the
// tone of the ground, falling off to the sides and above.
func (s *Scene) sheet(x, z float64) rgb {
	st := &s.stage
	w := st.reachOf()
	q := (x*x*0.5 + (z-0.25*w)*(z-0.25*w)) / (w * w)
	light := s.light.open.scale(0.62).add(s.light.level.scale(0.42))
	return st.palette.wall.times(light).scale(0.45 + 0.85/(1+2.4*q))
}

// plaster is the wall of a room, with a skirting board, in light that falls off
// away from the window.
func (s *Scene) plaster(p r3.Vec, x, z, pixel float64) rgb {
	st, l := &s.stage, &s.light
	w := st.reachOf()
	aside := r3.Dot(l.sun, st.right) // less than 0 for a window to the left
	q := ((x-0.35*w*aside)*(x-0.35*w*aside)*0.6 + (z-0.42*w)*(z-0.42*w)) / (w * w)
	glow := 0.22 + 1.0/(1+3.2*q)
	tone := 1.0
	if v := seen(900, pixel); v > 0 {
		tone += 0.05 * v * noise2(x*(1.0/900), z*(1.0/700), s.seed+31)
		tone += 0.035 * v * noise2(x*(1.0/240), z*(1.0/260), s.seed+32)
	}
	c := st.palette.wall
	const board, lip = 110.0, 6.0
	edge := max(lip, pixel)
	if st.table == 0 && z < board+edge {
		c = c.scale(lerp(0.72, 1, smooth(board-edge, board+edge, z)))
		c = c.scale(1 - 0.45*smooth(1.5*edge, 0, z) - 0.25*smooth(edge, 0, math.Abs(z-board)))
	}
	light := l.open.scale(0.55 * glow)
	if nl := -r3.Dot(l.sun, st.back); nl > 0 {
		sun := s.world.Open(p, l.sun, l.spread, -1)
		light = light.add(l.direct.scale(0.5 * nl * sun * glow))
	} else {
		light = light.add(l.direct.scale(0.12 * glow))
	}
	// Less light gets into the corner with the floor.
	light = light.scale(1 - 0.35*math.Exp(-z/(0.12*w)))
	return c.times(light).scale(tone)
}

// Bricks of a garden wall, in mm, with their joints.
const (
	course = 75.0
	brick  = 225.0
)

// masonry is a garden wall without its bricks: its colour, damp from the ground up,
// and the light on it.
func (s *Scene) masonry(x, z, least float64) rgb {
	st, l := &s.stage, &s.light
	high := st.wall - st.floor
	c := st.palette.wall
	tone := 1 + 0.16*noise2(x*(1.0/1100), z*(1.0/700), s.seed+33)
	damp := smooth(0.35*high, 0, z+120*noise2(x*(1.0/330), 0, s.seed+34))
	c = c.mix(rgb{0.030, 0.034, 0.022}, 0.6*damp)
	const coping = 65.0
	edge := max(0.5*least, 4)
	c = c.mix(st.palette.ground.scale(1.35), 0.85*smooth(high-coping-edge, high-coping+edge, z))
	if z < high-coping {
		tone *= 1 - 0.4*smooth(high-coping-60, high-coping, z)
	}
	light := l.open.scale(0.55)
	if nl := -r3.Dot(l.sun, st.back); nl > 0 {
		light = light.add(l.direct.scale(0.55 * nl * s.dapple(x, z)))
	} else {
		light = light.add(l.direct.scale(0.06))
	}
	light = light.scale(1 - 0.5*math.Exp(-z*(1.0/160)))
	return c.times(light).scale(max(tone, 0.1))
}

// bricks lays the bricks over the light of a wall.
func (s *Scene) bricks(c rgb, p r3.Vec, pixel float64) rgb {
	st := &s.stage
	z := p.Z - st.floor
	v := seen(2.5*course, 2*pixel)
	if v <= 0 || z < 0 || z > st.wall-st.floor-65 {
		return c
	}
	x, _ := st.own(p)
	k := int32(z * (1 / course))
	u := x*(1/brick) + 0.5*float64(k&1)
	i := math.Floor(u)
	tone := 1 + 0.34*v*(uniform(scatter(uint32(int64(i))*0x8da6b343^uint32(k)*0xd8163841+s.seed))-0.5)
	const joint = 9.0
	soft := max(0.6*joint, 1.2*pixel)
	dz := course * (0.5 - math.Abs(z*(1/course)-float64(k)-0.5))
	dx := brick * (0.5 - math.Abs(u-i-0.5))
	d := min(dx, dz)
	if d >= joint/2+soft {
		return c.scale(tone)
	}
	return c.scale(tone * (1 + 0.42*v*smooth(joint/2+soft, joint/2-soft, d)))
}

// dapple is the sun through leaves, on a wall that trees stand by.
func (s *Scene) dapple(x, z float64) float64 {
	v := noise2(x*(1.0/620)+z*(1.0/1300), z*(1.0/420)-x*(1.0/1900), s.seed+35)
	v += 0.8*noise2(x*(1.0/170)+z*(1.0/300), z*(1.0/150), s.seed+36) + 0.5*noise2(x*(1.0/60), z*(1.0/55)+x*(1.0/200), s.seed+37)
	return 0.42 + 0.58*smooth(-0.7, 0.8, v)
}

// foliage is trees that are out of focus, of which one is about tall: lumps of
// leaves in light and shade, points of sky between them, and the sky over them.
// Points that are smaller than what is seen are left out.
func (s *Scene) foliage(x, z, tall, least float64) rgb {
	st, l := &s.stage, &s.light
	u, v := x/tall, z/tall
	// Turned and bent, so that no lump lies along the mesh.
	p, q := 0.80*u+0.60*v, -0.60*u+0.80*v
	a := noise2(1.3*p, 1.3*q, s.seed+41)
	p, q = p+0.30*a, q-0.22*a
	b := noise2(3.4*q+9, 3.4*p, s.seed+42)
	d := noise2(7.9*p+2*b, 7.9*q, s.seed+43)
	e := noise2(17*q, 17*p+d, s.seed+44)
	lump := 0.42*a + 0.36*b + 0.24*d + 0.16*e
	leaf := rgb{0.020, 0.032, 0.013}.mix(rgb{0.046, 0.054, 0.017}, smooth(-0.5, 0.6, b+0.5*d))
	sunny := smooth(-0.30, 0.62, lump) * smooth(-0.1, 1.1, v)
	c := leaf.times(l.open.scale(0.95).add(l.direct.scale(0.10 + 0.95*sunny)))
	c = c.scale(0.55 + 0.45*smooth(0, 0.7, v)) // darker below
	// Points of light between the leaves, as discs.
	gap := smooth(0.25, 1.1, v) * smooth(0.35, -0.25, a+0.3*b) * smooth(1, 3, 0.03*tall/least)
	if gap > 0 {
		glow := 0.7*s.discs(u, v, 7) + 0.5*s.discs(0.8*u-0.6*v, 0.6*u+0.8*v, 11)
		c = c.add(l.horizon.mix(l.direct, 0.55).times(rgb{0.9, 1, 0.72}).scale(0.16 * gap * glow))
	}
	// The sky over them.
	top := 2.1 + 0.65*noise2(0.7*u, 0.3, s.seed+45) + 0.28*b
	if up := smooth(top-0.32, top+0.30, v+0.15*d); up > 0 && st.place == Lawn {
		c = c.mix(l.horizon.mix(l.direct, 0.10).scale(0.70), up)
	}
	return c
}

// discs is a pattern of soft discs, scattered, between 0 and 1.
func (s *Scene) discs(u, v, cells float64) float64 {
	u, v = cells*u, cells*v
	i, j := math.Floor(u), math.Floor(v)
	h := hash(uint32(int64(i)), uint32(int64(j)), uint32(cells), s.seed)
	r := 0.12 + 0.24*uniform(h*0x9e3779b1)
	dx, dy := u-i-r-(1-2*r)*uniform(h), v-j-r-(1-2*r)*uniform(h*0x85ebca77)
	strong := uniform(h * 0xc2b2ae3d)
	return strong * strong * smooth(r, 0.62*r, math.Sqrt(dx*dx+dy*dy))
}
