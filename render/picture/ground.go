package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/render/picture/cast"
)

// backdrop returns what is seen at a place of the picture along a ray that meets
// no part: the stage, or the sky. pixel is the tangent that a pixel covers. even
// is how bright it is without the pattern of its surface, which is all that
// neighbours are compared by.
func (w *worker) backdrop(x, y float64, r *cast.Ray, at *scenery, pixel float64) (c rgb, even float64) {
	s := w.Scene
	across := pixel * at.t
	if w.win.parallel {
		across = pixel
	}
	switch at.what {
	case theSky:
		return s.above(r.Along), 0
	case theWall:
		if s.wall != nil {
			c, even = s.faced(at.p, across)
			if s.place == Yard {
				c = s.bricks(c, at.p, across)
			}
			return c, even
		}
		c = w.hung(x, y)
		if s.place == Yard {
			c = s.bricks(c, at.p, across)
		}
		return c, 0
	case theSide:
		return s.flank(at.p, across)
	}
	dip := max(-r.Along.Z, 1e-4)
	light := w.fall(at, w.grid.at(w, x, y, at), across)
	even = light.luminance()
	c = light.times(s.laid(at, across, across/dip))
	if at.what == theGround {
		c = s.recede(c, at.p)
	}
	return c, even
}

// recede lets the ground pass into what stands behind it.
func (s *Scene) recede(c rgb, p r3.Vec) rgb {
	st := &s.stage
	x, y := st.own(p)
	if s.wall != nil {
		return c.scale(1 - 0.30*smooth(260, 0, st.far-y) - 0.15*smooth(90, 0, st.far-y))
	}
	switch st.place {
	case Plain:
		// The sheet is hung in a wide bend: no line is seen where it rises.
		if f := smooth(0.15*st.far, st.far, y); f > 0 {
			return c.mix(s.sheet(x, 0), f)
		}
		if st.far <= 0 {
			return c
		}
	case Lawn:
		// Shade under the trees.
		return c.scale(1 - 0.72*smooth(0.35*st.far, 0.97*st.far, y))
	case Yard:
		return c.scale(1 - 0.35*smooth(0.55*st.far, st.far, y) - 0.25*smooth(140, 0, st.far-y))
	default:
		return c.scale(1 - 0.30*smooth(0.3*st.far, st.far, y) - 0.25*smooth(90, 0, st.far-y))
	}
	return c
}

// A patch is the ground that a tile shows.
type patch struct {
	only   bool    // the whole tile shows one surface of the stage, but for what stands on it
	known  bool    // and that is the ground, or a table or plinth
	what   int32   // that surface
	before []int32 // the solids that may stand before the sun
	base   bool    // the base plate is near
}

// spread finds what may shade the ground in a tile.
func (w *worker) spread(x, y int) {
	w.patch.only, w.patch.known, w.patch.base = false, false, w.base >= 0 && w.wall == nil
	var corners [4]r3.Vec
	var middle r3.Vec
	for i := range corners {
		r := w.win.ray(float64(x+i&1*tile)-0.5, float64(y+i>>1*tile)-0.5)
		var at scenery
		w.stage.meet(&r, &at)
		if i > 0 && at.what != w.patch.what {
			return
		}
		w.patch.what = at.what
		corners[i] = at.p
		middle = r3.Add(middle, r3.Scale(0.25, corners[i]))
	}
	// The edges between floor, wall and table are straight, so that what shows at
	// all corners shows everywhere; a plinth may stand between them.
	w.patch.only = w.stage.block == nil
	if w.patch.what != theGround && w.patch.what != theTop {
		return
	}
	radius := 0.0
	for _, c := range corners {
		radius = max(radius, norm(r3.Sub(c, middle)))
	}
	l := &w.Scene.light
	w.patch.known = true
	if w.base >= 0 && w.wall == nil {
		b := &w.world.Solids[w.base]
		w.patch.base = norm(r3.Sub(middle, b.Middle)) < radius+b.Hull+12*b.High.Z
	}
	w.patch.before = w.world.Before(middle, radius, l.sun, l.spread, w.patch.before[:0])
}

// fall returns the light that falls on the ground, or on a table or plinth, at a
// place, given the openness of the sky over it.
func (w *worker) fall(at *scenery, open, across float64) rgb {
	s, l, p := w.Scene, &w.Scene.light, at.p
	sun := 0.0
	if w.patch.known && w.patch.what == at.what {
		sun = s.world.OpenAmong(p, l.sun, l.spread, w.patch.before)
	} else {
		sun = s.world.Open(p, l.sun, l.spread, -1)
	}
	if b := s.stage.block; b != nil && at.what == theGround {
		if sun > 0 {
			sun *= 1 - b.Cover(p, l.sun, l.spread)
		}
		open *= 1 - b.Hides(p, r3.Vec{Z: 1})
	}
	touch := 1.0
	if w.patch.base && p.Z == 0 {
		open *= 1 - s.world.Solids[s.base].Hides(p, r3.Vec{Z: 1})
		touch = 1 - s.crevice(p, across)
	}
	if s.figure != nil && at.what == theGround {
		if sun > 0 {
			sun *= 1 - s.figure.shade(p, l)
		}
		open *= 1 - s.figure.stand(p)
	}
	return l.open.scale(rebound(open, l.albedo.luminance())).add(l.level.scale(sun)).scale(touch)
}

// crevice returns how much darker the ground is close to the base plate, which
// does not lie on it everywhere.
func (s *Scene) crevice(p r3.Vec, pixel float64) float64 {
	gap := min(9.0, 0.02*s.size) // mm
	wide := max(gap, pixel)
	away := s.world.Solids[s.base].Away(p)
	return gap / wide * (0.62*(1-smooth(0, 1.4*wide, away)) + 0.26*(1-smooth(0, 5*wide, away)))
}

// laid returns the albedo of the ground, or of a table or plinth, at a place,
// given what a pixel covers across and along the line of sight.
func (s *Scene) laid(at *scenery, across, along float64) rgb {
	st := &s.stage
	pixel := max(across, 0.5*along)
	x, y := st.own(at.p)
	if at.what == theTop {
		if st.block != nil {
			return st.palette.top.scale(1 + s.mottle(at.p, pixel))
		}
		return s.wood(x, y, across, along, &board{width: 180, color: st.palette.top, along: true})
	}
	switch st.place {
	case Lawn:
		return s.grass(x, y, across, along)
	case Room, Plinth:
		return s.wood(x, y, across, along, &board{width: 140, gap: 2.5, color: st.palette.ground})
	case Plain:
		return st.palette.ground
	}
	return s.paved(x, y, pixel)
}

// mottle is the unevenness of a smooth painted or cast face.
func (s *Scene) mottle(p r3.Vec, pixel float64) float64 {
	m := 0.0
	if v := seen(160, pixel); v > 0 {
		m += 0.05 * v * noise(p.X*(1.0/160), p.Y*(1.0/160), p.Z*(1.0/160), s.seed+15)
	}
	if v := seen(9, pixel); v > 0 {
		m += 0.05 * v * noise(p.X*(1.0/9), p.Y*(1.0/9), p.Z*(1.0/9), s.seed+16)
	}
	return m
}

// Flags of a yard, in mm: courses of one width, cut to lengths.
const (
	flagWide = 450.0
	flagLong = 700.0
)

// paved is worn stone flags in courses, each of its own shade, with open joints.
func (s *Scene) paved(x, y, pixel float64) rgb {
	st := &s.stage
	// A turn, so that the courses lead the eye in.
	x, y = 0.92*x+0.39*y+100, -0.39*x+0.92*y+100
	row := math.Floor(y * (1 / flagWide))
	shift := uniform(hash(uint32(int64(row)), 1, 3, s.seed))
	u := x*(1/flagLong) + shift
	k := math.Floor(u)
	h := hash(uint32(int64(k)), uint32(int64(row)), 0, s.seed)
	dx := flagLong * (0.5 - math.Abs(u-k-0.5))
	dy := flagWide * (0.5 - math.Abs(y*(1/flagWide)-row-0.5))
	tone := 1 + 0.30*(uniform(h)-0.5)*seen(2*flagWide, pixel)
	wobble := 0.0
	if v := seen(240, pixel); v > 0 {
		n := noise2(x*(1.0/240), y*(1.0/240), s.seed+11)
		tone += 0.13 * v * n
		wobble = 2.5 * n
	}
	if v := seen(46, pixel); v > 0 {
		tone += 0.12 * v * noise2(x*(1.0/46), y*(1.0/46), s.seed+12)
	}
	if v := seen(9, pixel); v > 0 {
		tone += 0.13 * v * noise2(x*(1.0/9), y*(1.0/9), s.seed+13)
	}
	c := st.palette.ground.mix(st.palette.ground.times(rgb{1.14, 0.98, 0.84}), uniform(h*0x9e3779b1))
	const joint, worn = 5.0, 22.0 // mm, half the width of a joint, and of the rounded edge
	edge := min(dx, dy) + wobble
	wide := max(joint, 0.8*pixel)
	tone *= 1 - 0.14*smooth(worn+wide, joint, edge)
	return c.scale(tone).mix(st.palette.second, joint/wide*0.85*(1-smooth(0.7*wide, 1.5*wide, edge)))
}

// grass is a mown lawn: tufts and blades near by, and farther on the bands of the
// mower and the unevenness of the ground.
func (s *Scene) grass(x, y, across, along float64) rgb {
	st := &s.stage
	pixel := max(across, 0.35*along)
	tone, dry := 1.0, 0.0
	tone += 0.12 * noise2(x*(1.0/2300), y*(1.0/2300), s.seed+21)
	if v := seen(1000, pixel); v > 0 {
		// To and fro: leaves that lean away are paler.
		band := math.Sin((0.8*x + 0.6*y) * (math.Pi / 520))
		tone += 0.09 * v * band / (0.25 + math.Abs(band))
	}
	if v := seen(300, pixel); v > 0 {
		n := noise2(x*(1.0/300), y*(1.0/300), s.seed+22)
		tone += 0.16 * v * n
		dry += 0.4 * v * max(n, 0)
	}
	if v := seen(64, pixel); v > 0 {
		tone += 0.26 * v * noise2(x*(1.0/64), y*(1.0/90), s.seed+23)
	}
	// Blades stand up: they are drawn out along the line of sight.
	if v := seen(19, across); v > 0 {
		n := noise2(x*(1.0/19), y*(1.0/60)+0.25*noise2(x*(1.0/70), y*(1.0/70), s.seed+26), s.seed+24)
		tone += 0.42 * v * n
		dry += 0.3 * v * smooth(0.35, 0.8, n)
	}
	if v := seen(6, across); v > 0 {
		tone += 0.50 * v * noise2(x*(1.0/6), y*(1.0/34), s.seed+25)
	}
	return st.palette.ground.mix(st.palette.second, min(0.30+dry, 0.85)).scale(max(tone, 0.15))
}

// A board is how wood is laid: its width and the gap between two, in mm.
type board struct {
	width, gap float64
	color      rgb
	along      bool // it runs to the right, not away
}

// wood is boards with their grain.
func (s *Scene) wood(x, y, across, along float64, b *board) rgb {
	fx, fy := across, along // what a pixel covers across the boards and along them
	if b.along {
		x, y, fx, fy = y, x, along, across
	}
	u := x / b.width
	k := math.Floor(u)
	h := hash(uint32(int64(k)), 2, 4, s.seed)
	// Boards end where another begins.
	const length = 1900.0
	w := y/length + uniform(h)
	m := math.Floor(w)
	h = hash(uint32(int64(k)), uint32(int64(m)), 4, s.seed)
	tone := 1 + 0.34*(uniform(h)-0.5)*seen(2*b.width, fx)
	// Grain, which drifts to the side as it runs.
	shift := 400 * uniform(h*0x9e3779b1)
	gx := x + shift + 9*noise2(y*(1.0/420), x*(1.0/90)+shift, s.seed+17)
	if v := seen(26, fx); v > 0 {
		tone += 0.16 * v * noise2(gx*(1.0/26), y*(1.0/700)+shift, s.seed+18)
	}
	if v := seen(5, fx); v > 0 {
		tone += 0.15 * v * noise2(gx*(1.0/5), y*(1.0/160)+shift, s.seed+19)
	}
	if v := seen(1.5, fx); v > 0 {
		tone += 0.12 * v * noise2(gx*(1.0/1.5), y*(1.0/60)+shift, s.seed+20)
	}
	edge := b.width * (0.5 - math.Abs(u-k-0.5))
	gap := max(b.gap/2, 0.6)
	wide := max(gap, 0.8*fx)
	tone *= 1 - 0.62*gap/wide*(1-smooth(0.6*wide, 1.5*wide, edge))
	end := length * (0.5 - math.Abs(w-m-0.5))
	wide = max(gap, 0.8*fy)
	tone *= 1 - 0.5*gap/wide*(1-smooth(0.6*wide, 1.5*wide, end))
	return b.color.times(rgb{1, 0.985, 0.96}.mix(rgb{1.02, 1, 1}, uniform(h*0x85ebca77))).scale(max(tone, 0.1))
}

// flank returns the light of the side of a plinth.
func (s *Scene) flank(p r3.Vec, pixel float64) (c rgb, even float64) {
	b, l := s.stage.block, &s.light
	n := r3.Vec{X: 1}
	switch dx, dy := (p.X-b.Center.X)/b.Half.X, (p.Y-b.Center.Y)/b.Half.Y; {
	case math.Abs(dx) > math.Abs(dy):
		n.X = math.Copysign(1, dx)
	default:
		n = r3.Vec{Y: math.Copysign(1, dy)}
	}
	light := l.around(n, p.Z-s.stage.floor)
	if nl := r3.Dot(n, l.sun); nl > 0 {
		light = light.add(l.direct.scale(nl * s.world.Open(p, l.sun, l.spread, -1)))
	}
	// A shadow gap under its foot.
	z := p.Z - s.stage.floor
	wide := max(12, pixel)
	light = light.scale(1 - 0.75*smooth(1.5*wide, 0.5*wide, z)*min(12/wide, 1))
	return light.times(s.stage.palette.top.scale(1 + s.mottle(p, pixel))), light.luminance()
}
