package picture

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/quantity"
	"stabile/render/picture/cast"
)

// A Scene is a piece where it stands, ready to be looked at. It may be used by
// several goroutines at once.
type Scene struct {
	world     *cast.World
	looks     []material // of each solid
	joins     [][]int32  // of each solid, those that it is welded to
	seams     []seaming  // of each solid
	base      int32      // the solid of the base; -1 for none
	holes     []hole     // in the base, from above
	light     light
	figure    *figure
	shape     *shape // of the figure
	caption   string
	units     quantity.System
	view      view
	seed      uint32
	sketch    bool
	bearing   float64 // at which the viewer stands
	options   Options
	middle    r3.Vec
	distance  float64
	size      float64 // mm, of the piece, for what fades with it
	toneTable *tones
}

// A hole is round, in the base.
type hole struct{ x, y, radius float64 }

// fromBearing is where the viewer stands when nothing is said: in front and to
// the right, so that both elevations are seen.
const fromBearing = 300 * math.Pi / 180

// sunAside is how far round from the viewer the sun stands, to the left.
const sunAside = -62 * math.Pi / 180

// New returns the scene of a job. It is an error where there is nothing to be
// seen, or where the eye would stand in the piece.
func New(j *fab.Job, o Options) (*Scene, error) {
	s := &Scene{
		world: cast.NewWorld(cast.Solids(j.Parts)), options: o,
		seed: uint32(o.Seed) ^ uint32(o.Seed>>32), sketch: o.Sketch, toneTable: newTones(),
	}
	low, high, ok := s.world.Box()
	if !ok {
		return nil, errors.New("there is nothing to be seen: the design has no ball, post or base plate")
	}
	for _, v := range [...]float64{low.X, low.Y, low.Z, high.X, high.Y, high.Z, o.Eye, o.Distance, o.Person} {
		if math.IsNaN(v) || math.Abs(v) > largest {
			return nil, errors.New("a size is out of all bounds")
		}
	}
	if o.Eye < 0 || o.Distance < 0 || o.Person < 0 {
		return nil, errors.New("the eye's height and distance, and the height of a person, cannot be less than nothing")
	}
	for _, b := range [...]*float64{o.From, o.Sun} {
		if b != nil && !(math.Abs(*b) < mostTurn) {
			return nil, errors.New("a bearing is out of all bounds")
		}
	}
	if o.Frame != (r3.Box{}) {
		low, high = o.Frame.Min, o.Frame.Max
	}
	s.size = max(high.X-low.X, high.Y-low.Y, high.Z-low.Z)
	s.middle = r3.Vec{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2, Z: (low.Z + high.Z) / 2}
	s.bearing = fromBearing
	if o.From != nil {
		s.bearing = *o.From
	}
	s.dress(j)
	s.units = o.Units
	if s.units == quantity.NoSystem {
		s.units = j.Design.Units
	}
	if o.Person > 0 {
		s.shape = newShape()
	}
	s.caption = heightText(o.Person, s.units)
	if err := s.stand(); err != nil {
		return nil, err
	}
	return s, nil
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
	if err := t.stand(); err != nil {
		return nil, err
	}
	return &t, nil
}

// stand puts the viewer, the figure and the sun in their places.
func (s *Scene) stand() error {
	o := &s.options
	var backdrop *rgb
	if o.Backdrop != nil {
		c := linear(o.Backdrop)
		backdrop = &c
	}
	sun := s.bearing + sunAside
	if o.Sun != nil {
		sun = *o.Sun
	}
	s.light = newLight(sun, backdrop)

	piece := s.blobs()
	height, wide := 0.0, 0.0
	for _, b := range piece {
		height = max(height, b.at.Z+b.radius)
		wide = max(wide, math.Hypot(b.at.X-s.middle.X, b.at.Y-s.middle.Y)+b.radius)
	}
	all := piece
	if o.Person > 0 {
		s.figure = s.beside(piece)
		all = append(all[:len(all):len(all)], s.figureBlobs()...)
		height = max(height, o.Person)
		wide += figureWidth * o.Person
	}
	if o.Round {
		all = s.allRound(all)
	}
	eye := o.Eye
	if eye == 0 {
		eye = min(eyeHeight, 1.3*height)
	}
	s.distance = o.Distance
	if s.distance == 0 {
		s.distance = 2.7*max(height, 1.3*wide) + wide
	}
	v, ok := look(s.middle, s.bearing, s.distance, eye, all)
	if !ok {
		return fmt.Errorf("the eye would stand in the piece or too near to it: stand farther than %s from its middle",
			s.units.Length(1.2*wide, quantity.Coarse))
	}
	s.view = v
	return nil
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
	for i := range s.world.Solids {
		switch b := &s.world.Solids[i]; b.Kind {
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

// beside returns the figure, to the right of the piece as the viewer sees it.
func (s *Scene) beside(piece []blob) *figure {
	sin, cos := math.Sincos(s.bearing)
	back := r3.Vec{X: -cos, Y: -sin}
	right := r3.Vec{X: -sin, Y: cos}
	h := s.options.Person
	reach := 0.0
	for _, b := range piece {
		if b.at.Z-b.radius > h {
			continue // over the figure's head
		}
		out := r3.Dot(r3.Sub(b.at, s.middle), right) + b.radius
		if s.options.Round {
			out = math.Hypot(b.at.X-s.middle.X, b.at.Y-s.middle.Y) + b.radius
		}
		reach = max(reach, out)
	}
	out := reach + 0.24*h
	foot := r3.Add(s.middle, r3.Scale(out, right))
	foot.Z = 0
	return newFigure(s.shape, foot, h, right, back, s.light.sun)
}

// figureBlobs returns what must be seen of the figure, with room for its height
// over its head.
func (s *Scene) figureBlobs() []blob {
	f := s.figure
	var list []blob
	for _, x := range [2]float64{-figureWidth, figureWidth} {
		for _, z := range [2]float64{-0.005, 1.075} {
			at := r3.Add(f.foot, r3.Scale(x*f.height, f.right))
			at.Z = z * f.height
			list = append(list, blob{at: at})
		}
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
	solids := s.world.Solids
	s.base = -1
	s.looks = make([]material, len(solids))
	s.joins = make([][]int32, len(solids))
	s.seams = make([]seaming, len(solids))
	of := make(map[string]int32, len(solids)) // by the part's name
	for i := range solids {
		p := &j.Parts[solids[i].Part]
		s.looks[i] = materialOf(p, j.Design.Finish, paint)
		of[p.Name] = int32(i)
		s.seams[i] = seamingOf(&solids[i], p.Part)
		if p.Base == nil {
			continue
		}
		s.base = int32(i)
		for _, b := range p.Blanks {
			for _, h := range b.Holes {
				if h.Diameter > 0 {
					s.holes = append(s.holes, hole{h.Center.X, h.Center.Y, h.Diameter / 2})
				}
			}
		}
	}
	for _, joint := range j.Design.Joints {
		if joint.A == nil || joint.B == nil {
			continue
		}
		a, okA := of[joint.A.Name]
		b, okB := of[joint.B.Name]
		if okA && okB {
			s.joins[a] = append(s.joins[a], b)
			s.joins[b] = append(s.joins[b], a)
		}
	}
}
