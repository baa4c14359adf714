package picture

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/render/picture/cast"
)

// A Place is where a piece is shown.
type Place string

// The places. All are made by formula; none shows a place that exists.
const (
	Yard   Place = "yard"   // on paving, before a garden wall
	Lawn   Place = "lawn"   // on grass, before trees
	Room   Place = "room"   // on boards, before a plastered wall
	Plinth Place = "plinth" // raised, in a room
	Plain  Place = "plain"  // before a sheet of one tone
)

// Places returns the names of all places.
func Places() []Place { return []Place{Yard, Lawn, Room, Plinth, Plain} }

// indoors reports whether light comes by a window.
func (p Place) indoors() bool { return p == Room || p == Plinth }

// Sizes of pieces, in mm, from which on a chair and then a person show how large
// they are, and up to which a piece stands on a table.
const (
	chairFrom  = 400.0
	personFrom = 1200.0
)

// A stage is what a piece stands on and before, seen from the viewer's side: it
// keeps its place in the picture when the piece is turned.
type stage struct {
	place       Place
	middle      r3.Vec // under the piece, at the height 0
	right, back r3.Vec // level, to the viewer's right and away from the viewer; along a wall that the piece is on and into it
	floor       float64
	block       *cast.Solid // the plinth; its top is at the height 0
	table       float64     // how far behind the middle a table ends; 0 for no table
	far         float64     // how far behind the middle the wall or the trees are
	wall        float64     // height of the top of a wall, where trees and sky begin
	trees       float64     // height of the trees
	palette     palette
}

// A palette is the colours of a place, as albedos.
type palette struct {
	ground, second rgb // of the floor, and what varies it: joints, dry grass
	wall           rgb
	top            rgb // of the table or plinth
}

// newStage returns the stage for a piece of a size and colour.
func newStage(s *Scene, right, back r3.Vec) stage {
	st := stage{place: s.place, middle: s.middle, right: right, back: back}
	st.middle.Z = 0
	if s.wall != nil {
		st.right, st.back = r3.Vec{X: 1}, r3.Vec{Y: 1}
		st.far = -st.middle.Y
		st.wall = math.Inf(1)
		st.palette = paletteOf(s)
		return st
	}
	size := s.size
	behind := size + s.depth(back)
	switch {
	case s.place == Plinth:
		high, wide := plinthSize(s.low, s.high, s.beside == Cup)
		st.floor = -high
		b := cast.NewBox(-1,
			r3.Vec{X: st.middle.X - wide.X, Y: st.middle.Y - wide.Y, Z: -high},
			r3.Vec{X: st.middle.X + wide.X, Y: st.middle.Y + wide.Y})
		st.block = &b
	case size < chairFrom && s.place != Plain:
		st.floor = -tableHeight
		st.table = 0.55*behind + 60
	}
	switch s.place {
	case Yard:
		st.far = 1.1*behind + 2200
		st.wall = st.floor + min(max(1.15*size, 1300), 2400)
		st.trees = st.floor + 2.2*(st.far+behind)
	case Lawn:
		st.far = 2.2*behind + 5000
		st.trees = st.floor + 0.75*(st.far+2*behind)
	case Plain:
		st.far = 1.6*behind + 400
	default:
		st.far = 0.75*behind + 900
	}
	if st.table > 0 {
		st.far = max(st.table+300, 1.6*behind)
	}
	st.palette = paletteOf(s)
	return st
}

const tableHeight = 740.0 // mm

// depth returns how far the piece reaches behind its middle.
func (s *Scene) depth(back r3.Vec) float64 {
	dx, dy := (s.high.X-s.low.X)/2, (s.high.Y-s.low.Y)/2
	return math.Abs(back.X)*dx + math.Abs(back.Y)*dy
}

// plinthSize returns the height of a plinth that brings the middle of a piece to
// about the height of the eye, and half of its sides.
func plinthSize(low, high r3.Vec, cup bool) (height float64, half r3.Vec) {
	height = min(max(1350-(high.Z-low.Z)*0.55, 180), 1050)
	edge := 60 + 0.06*max(high.X-low.X, high.Y-low.Y)
	if cup {
		edge += 100
	}
	least := 0.16 * height
	return height, r3.Vec{X: max((high.X-low.X)/2+edge, least), Y: max((high.Y-low.Y)/2+edge, least)}
}

// paletteOf returns the colours of a place that set a piece off: warm about cold
// metal and cold about warm, and paler about a piece that is nearly black.
func paletteOf(s *Scene) palette {
	body := s.tone()
	warm := body.r > 1.35*body.b
	pick := func(beside, against rgb) rgb {
		if warm {
			return against
		}
		return beside
	}
	var p palette
	switch s.place {
	case Lawn:
		p.ground, p.second = rgb{0.036, 0.060, 0.016}, rgb{0.085, 0.088, 0.030}
		p.wall = rgb{0.022, 0.034, 0.014}
	case Room, Plinth:
		p.ground = pick(rgb{0.098, 0.061, 0.038}, rgb{0.058, 0.050, 0.045})
		p.second = p.ground.scale(0.55)
		p.wall = pick(rgb{0.150, 0.118, 0.088}, rgb{0.072, 0.084, 0.098})
	case Plain:
		p.ground = pick(rgb{0.105, 0.086, 0.070}, rgb{0.062, 0.068, 0.077})
		p.second, p.wall = p.ground, p.ground
	default:
		p.ground = pick(rgb{0.120, 0.096, 0.074}, rgb{0.074, 0.076, 0.080})
		p.second = p.ground.scale(0.4)
		p.wall = pick(rgb{0.105, 0.056, 0.038}, rgb{0.062, 0.064, 0.066})
	}
	p.top = rgb{0.120, 0.064, 0.032}
	if warm {
		p.top = rgb{0.075, 0.050, 0.034}
	}
	if s.place == Plinth {
		p.top = pick(rgb{0.085, 0.078, 0.070}, rgb{0.060, 0.060, 0.062})
	}
	if b := s.options.Backdrop; b != nil {
		c := linear(b).scale(0.55)
		p.ground, p.second, p.wall = c, c, c
	} else if l := body.luminance(); l < 0.075 {
		f := 1 + 1.5*(1-l/0.075)
		p.ground, p.second, p.wall, p.top = p.ground.scale(f), p.second.scale(f), p.wall.scale(f), p.top.scale(f)
	}
	return p
}

// tone returns the colour of the piece on average over what is seen of it.
func (s *Scene) tone() rgb {
	var sum rgb
	total := 0.0
	for i := range s.solids {
		b := &s.solids[i]
		area := b.Hull * b.Hull
		switch b.Kind {
		case cast.Tube:
			area = 2 * b.Radius * b.Length
		case cast.Box:
			area = 0.3 * b.Half.X * b.Half.Y
		}
		sum, total = sum.add(s.looks[i].body.scale(area)), total+area
	}
	return sum.scale(1 / max(total, 1e-300))
}

// A scenery is what a ray sees of the stage.
type scenery struct {
	t    float64
	what int32
	p    r3.Vec
}

// meet finds what a ray sees of the stage where no part of the piece is in the way:
// how far, and which of its surfaces.
func (st *stage) meet(r *cast.Ray, at *scenery) {
	const level = 1e-4
	down := r.Along.Z < -level
	if down && r.From.Z > 0 && st.floor < 0 {
		if st.meetOnly(r, theTop, at); st.holds(at.p) {
			return
		}
	}
	if st.block != nil {
		if t, face, ok := st.block.Meet(r); ok {
			*at = scenery{t, theSide, r.At(t)}
			if face == 5 {
				at.what, at.p.Z = theTop, 0
			}
			return
		}
	}
	near, what := math.Inf(1), theSky
	if down && r.From.Z > st.floor {
		near, what = (st.floor-r.From.Z)/r.Along.Z, theGround
	}
	if ahead := r3.Dot(r.Along, st.back); ahead > level {
		if t := st.toWall(r); t > 0 && t < near {
			what = theWall
		}
	}
	st.meetOnly(r, what, at)
}

// toWall returns how far along a ray the plane of what stands behind the piece is.
func (st *stage) toWall(r *cast.Ray) float64 {
	return (st.far - r3.Dot(r3.Sub(r.From, st.middle), st.back)) / r3.Dot(r.Along, st.back)
}

// meetOnly finds where a ray meets one surface, which it is known to meet.
func (st *stage) meetOnly(r *cast.Ray, what int32, at *scenery) {
	at.what = what
	switch what {
	case theGround, theTop:
		z := st.floor
		if what == theTop {
			z = 0
		}
		at.t = (z - r.From.Z) / r.Along.Z
		at.p = r.At(at.t)
		at.p.Z = z
	case theWall:
		at.t = st.toWall(r)
		at.p = r.At(at.t)
	default:
		at.t, at.p = math.Inf(1), r3.Vec{}
	}
}

// holds reports whether a table or plinth reaches under a place.
func (st *stage) holds(p r3.Vec) bool {
	if st.block != nil {
		return p.X >= st.block.Low.X && p.X <= st.block.High.X && p.Y >= st.block.Low.Y && p.Y <= st.block.High.Y
	}
	return r3.Dot(r3.Sub(p, st.middle), st.back) < st.table
}

// own returns a place in the stage's own measures: to the right and away.
func (st *stage) own(p r3.Vec) (x, y float64) {
	dx, dy := p.X-st.middle.X, p.Y-st.middle.Y
	return dx*st.right.X + dy*st.right.Y, dx*st.back.X + dy*st.back.Y
}

// LookupPlace returns the place of a name.
func LookupPlace(name string) (Place, bool) {
	p := Place(name)
	return p, slices.Contains(Places(), p)
}
