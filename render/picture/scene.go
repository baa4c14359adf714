package picture

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/picture/cast"
)

// A Scene is a piece where it stands, ready to be looked at. It may be used by
// several goroutines at once.
type Scene struct {
	solids    []cast.Solid // of the piece
	world     *cast.World  // the piece, with what stands beside it
	looks     []material   // of each solid
	joins     [][]int32    // of each solid, those that it is welded to
	seams     []seaming    // of each solid
	base      int32        // the solid of the base; -1 for none
	holes     []hole       // in the base, from above, or in a plate on a wall from its front
	wall      *design.Base // the plate on a wall; nil for a piece on the ground
	place     Place
	stage     stage
	light     light
	beside    Measure
	figure    *figure // a person
	caption   string
	captionAt r3.Vec  // where it stands, over the middle of what it belongs to
	tall      float64 // mm, of what it belongs to
	units     quantity.System
	view      view
	seed      uint32
	sketch    bool
	bearing   float64 // at which the viewer stands
	right     r3.Vec  // level, to the viewer's right
	back      r3.Vec  // level, away from the viewer
	options   Options
	middle    r3.Vec
	low, high r3.Vec // the corners of the box about the piece
	distance  float64
	size      float64 // mm, of the piece, for what fades with it
	toneTable *tones
}

// A hole is in the base: round, or with round ends whose middles are half a line off its own.
type hole struct{ x, y, radius, halfX, halfY float64 }

// fromBearing is where the viewer stands when nothing is said: in front and to
// the right, so that both elevations are seen.
const fromBearing = 300 * math.Pi / 180

// New returns the scene of a job. It is an error where there is nothing to be
// seen, or where the eye would stand in the piece.
func New(j *fab.Job, o Options) (*Scene, error) {
	s := &Scene{
		solids: cast.Solids(j.Parts), options: o,
		wall: j.Design.Wall(), seed: uint32(o.Seed) ^ uint32(o.Seed>>32), sketch: o.Sketch, toneTable: newTones(),
	}
	low, high, ok := cast.NewWorld(s.solids).Box()
	if !ok {
		return nil, errors.New("there is nothing to see: the design has no ball, post or base plate")
	}
	for _, v := range [...]float64{low.X, low.Y, low.Z, high.X, high.Y, high.Z, o.Eye, o.Distance, o.Person} {
		if math.IsNaN(v) || math.Abs(v) > largest {
			return nil, errors.New("a size is out of range")
		}
	}
	if o.Eye < 0 || o.Distance < 0 || o.Person < 0 {
		return nil, errors.New("the eye's height and distance, and the height of a person, cannot be less than 0")
	}
	for _, b := range [...]*float64{o.From, o.Sun} {
		if b != nil && !(math.Abs(*b) < mostTurn) {
			return nil, errors.New("a bearing is out of range")
		}
	}
	if o.Frame != (r3.Box{}) {
		low, high = o.Frame.Min, o.Frame.Max
	}
	s.low, s.high = low, high
	s.size = max(high.X-low.X, high.Y-low.Y, high.Z-low.Z)
	s.middle = r3.Vec{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2, Z: (low.Z + high.Z) / 2}
	s.bearing = fromBearing
	if o.From != nil {
		s.bearing = *o.From
	}
	s.units = o.Units
	if s.units == quantity.NoSystem {
		s.units = j.Design.Units
	}
	if err := s.onWall(); err != nil {
		return nil, err
	}
	s.choose()
	s.dress(j)
	if err := s.stand(); err != nil {
		return nil, err
	}
	return s, nil
}

// choose settles what the options leave open.
func (s *Scene) choose() {
	o := &s.options
	if s.place = o.Place; s.place == "" {
		s.place = Yard
		if s.size < chairFrom || s.wall != nil {
			s.place = Room
		}
	}
	if o.Light == "" {
		o.Light = Low
	}
	if o.Person == 0 {
		o.Person = Adult(s.units)
	}
	if s.beside = o.Beside; s.beside == Fitting {
		switch {
		case s.wall != nil:
			s.beside = Person // which shows how high it hangs too
		case s.size < chairFrom:
			s.beside = Cup
		case s.size < personFrom:
			s.beside = Chair
		default:
			s.beside = Person
		}
	}
}

// largest is the size, in mm, from which on nothing is a picture: a hundred
// kilometres.
const largest = 1e8

// mostTurn bounds a bearing, in rad, to what still has a direction.
const mostTurn = 1e6

// Turned returns the scene as it is seen from a bearing that is further on by an
// angle, in rad. The distance stays; with Options.Round so does the frame.
func (s *Scene) Turned(angle float64) (*Scene, error) {
	t := *s
	t.bearing += angle
	if err := t.onWall(); err != nil {
		return nil, err
	}
	if err := t.stand(); err != nil {
		return nil, err
	}
	return &t, nil
}

// stand puts the viewer, the stage, the light and what shows the size in their
// places.
func (s *Scene) stand() error {
	o := &s.options
	sin, cos := math.Sincos(s.bearing)
	back, right := r3.Vec{X: -cos, Y: -sin}, r3.Vec{X: -sin, Y: cos}
	s.right, s.back = right, back
	s.stage = newStage(s, right, back)
	sun := s.beforeWall(s.bearing + sunAside)
	if o.Sun != nil {
		sun = *o.Sun
	}
	s.light = newLight(o.Light, s.place, sun, back, &s.stage.palette)

	piece := s.blobs()
	height, wide := 0.0, 0.0
	for _, b := range piece {
		height = max(height, b.at.Z+b.radius)
		wide = max(wide, math.Hypot(b.at.X-s.middle.X, b.at.Y-s.middle.Y)+b.radius)
	}
	beside := s.measure(piece)
	all := append(piece[:len(piece):len(piece)], s.footing()...)
	if s.beside == Person {
		height = max(height, o.Person+s.stage.floor)
		wide += 0.2 * o.Person
	}
	if o.Round {
		all = s.allRound(all)
	}
	all = append(all, beside...) // which keeps its place
	eye := o.Eye
	if eye == 0 {
		eye = min(eyeHeight, 1.3*height)
		if s.stage.block != nil {
			eye = min(max(eyeHeight+s.stage.floor, 0.5*height), 1.6*height)
		}
	}
	if s.stage.block != nil && s.beside != Cup {
		height -= s.stage.floor
	}
	s.distance = o.Distance
	if s.distance == 0 {
		s.distance = 2.7*max(height, 1.3*wide) + wide
	}
	v, ok := look(s.middle, s.bearing, s.distance, eye, all)
	if !ok {
		return fmt.Errorf("the eye is inside the piece or too near to it: put it farther than %s from its middle",
			s.units.Length(1.2*wide, quantity.Coarse))
	}
	s.view = v
	return nil
}

// Upright reports whether a picture that is higher than wide suits the piece.
func (s *Scene) Upright() bool {
	return s.view.top-s.view.bottom > 1.02*(s.view.rightmost-s.view.left)
}

// footing returns what must be seen of a plinth.
func (s *Scene) footing() []blob {
	b := s.stage.block
	if b == nil {
		return nil
	}
	foot := b.Low.Z
	if s.beside == Cup || s.beside == Nothing && s.size < chairFrom {
		// Some of it tells the rest.
		return []blob{{at: r3.Add(s.stage.middle, r3.Vec{Z: -0.45 * s.size})}}
	}
	var list []blob
	for i := range 8 {
		c := r3.Vec{X: b.Low.X, Y: b.Low.Y, Z: foot}
		if i&1 != 0 {
			c.X = b.High.X
		}
		if i&2 != 0 {
			c.Y = b.High.Y
		}
		if i&4 != 0 {
			c.Z = b.High.Z
		}
		list = append(list, blob{at: c})
	}
	return list
}

// eyeHeight is the height of the eye of a standing viewer, in mm.
const eyeHeight = 1600

// blobs returns what must be seen of the piece, or the corners of the box that is
// to be framed.
func (s *Scene) blobs() []blob {
	var list []blob
	if f := s.options.Frame; f != (r3.Box{}) {
		for i := range 8 {
			c := f.Min
			if i&1 != 0 {
				c.X = f.Max.X
			}
			if i&2 != 0 {
				c.Y = f.Max.Y
			}
			if i&4 != 0 {
				c.Z = f.Max.Z
			}
			list = append(list, blob{at: c})
		}
		return list
	}
	for i := range s.solids {
		switch b := &s.solids[i]; b.Kind {
		case cast.Tube:
			for _, along := range b.Reach {
				at := r3.Add(b.Center, r3.Scale(along, b.Axis))
				r := max(0, b.Radius+b.Slope*along)
				list = append(list, rim(at, b.Axis, r)...)
			}
		case cast.Box:
			for k := range 4 {
				c := b.Low
				if k&1 != 0 {
					c.X = b.High.X
				}
				if k&2 != 0 {
					c.Y = b.High.Y
				}
				list = append(list, blob{at: c})
			}
		default:
			list = append(list, blob{b.Middle, b.Hull})
		}
	}
	for i := range list {
		list[i].at.Z = max(list[i].at.Z, 0)
	}
	return list
}

// rim returns points round a circle.
func rim(center, axis r3.Vec, radius float64) []blob {
	x := r3.Vec{X: 1}
	if math.Abs(axis.X) > 0.9 {
		x = r3.Vec{Y: 1}
	}
	x = unit(r3.Cross(axis, x))
	y := r3.Cross(axis, x)
	list := make([]blob, 12)
	for i := range list {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(list)))
		list[i].at = r3.Add(center, r3.Add(r3.Scale(radius*cos, x), r3.Scale(radius*sin, y)))
	}
	return list
}

// allRound returns blobs turned about the upright line through the middle.
func (s *Scene) allRound(list []blob) []blob {
	const steps = 24
	out := make([]blob, 0, steps*len(list))
	for i := range steps {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / steps)
		for _, b := range list {
			x, y := b.at.X-s.middle.X, b.at.Y-s.middle.Y
			b.at.X, b.at.Y = s.middle.X+cos*x-sin*y, s.middle.Y+sin*x+cos*y
			out = append(out, b)
		}
	}
	return out
}

// dress gives every solid its material, the seams that are seen on it and what
// it is welded to.
func (s *Scene) dress(j *fab.Job) {
	var paint *rgb
	if s.options.Paint != nil {
		c := linear(s.options.Paint)
		paint = &c
	}
	solids := s.solids
	s.base = -1
	s.looks = make([]material, len(solids))
	s.joins = make([][]int32, len(solids))
	s.seams = make([]seaming, len(solids))
	of := make([]int32, len(j.Parts)) // of each part, one more than the place of its solid
	for i := range solids {
		p := &j.Parts[solids[i].Part]
		s.looks[i] = materialOf(p, j.Design.Finish, paint)
		if of := solids[i].Stone; of != "" {
			s.looks[i] = stoneLook(of)
		}
		of[solids[i].Part] = int32(i) + 1
		s.seams[i] = seamingOf(&solids[i], p)
		if p.Base == nil {
			continue
		}
		if s.base < 0 {
			s.base = int32(i) // what lies on the ground
		}
		if solids[i].Stone != "" {
			continue
		}
		for _, b := range p.Blanks {
			for _, h := range b.Holes {
				if h.Diameter > 0 && h.Name == "" {
					s.holes = append(s.holes, hole{x: p.Base.At.X + h.Center.X, y: p.Base.At.Y + h.Center.Y, radius: h.Diameter / 2})
				}
			}
		}
		for _, h := range p.Holes {
			half, radius := h.Core()
			at, way := p.Base.Own(h.At), p.Base.OwnWay(half)
			s.holes = append(s.holes, hole{at.X, at.Y, radius, way.X, way.Y})
		}
	}
	for _, t := range j.Ties.List {
		if t.A == j.Ties.Ground {
			continue
		}
		if a, b := of[t.A]-1, of[t.B]-1; a >= 0 && b >= 0 {
			s.joins[a] = append(s.joins[a], b)
			s.joins[b] = append(s.joins[b], a)
		}
	}
	// A ball that is bought in, of a metal that the design does not name, is shown
	// in that of what carries it.
	for i := range solids {
		if p := &j.Parts[solids[i].Part]; p.Metal == nil && len(s.joins[i]) > 0 {
			weld := s.looks[i].weld
			s.looks[i] = s.looks[s.joins[i][0]]
			s.looks[i].weld = weld
		}
	}
}

// Plainly returns the scene without dither, which packs better in an animation.
func (s *Scene) Plainly() *Scene {
	t := *s
	t.options.Even = true
	return &t
}
