package cast

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// A Kind is the family of a solid.
type Kind uint8

// The kinds of solid.
const (
	Sphere Kind = iota // a ball, cut off flat at Flat from the centre at both poles
	Lobed              // a ball of rolled gores: cylinders that cut each other off
	Zoned              // a ball of rings, each a frustum of a cone
	Tube               // a tube, taper or round plate between two planes
	Box                // a plate square to the axes, or within it by its Sides
)

// A Solid is a body of one of the kinds. Which fields count depends on the
// kind. It is plain data of one type, so that the inner loops switch on Kind and
// call nothing through an interface.
type Solid struct {
	Kind Kind
	Part int // the part that it stands for, by its place in the job

	Stone design.Stone // of a block under a plate, what it is of; "" for metal

	// Center is the middle of a ball or box, and the foot of a tube's axis. Axis
	// points to a ball's pole or along a tube; Zero and Right are square to it:
	// toward the middle of gore 1 or the bearing 0 of a tube, and a quarter turn
	// on.
	Center, Axis, Zero, Right r3.Vec

	Radius float64 // of a ball, that its flats touch; of a tube at its foot, outside
	Hull   float64 // of the sphere about Middle that holds all of it
	Middle r3.Vec

	// Of balls.
	Bowl bool    // open above Rim, a thickness Wall thick
	Rim  float64 // height of the rim's plane along the axis, from the centre

	// Of an egg, which is a ball stretched along its pole: all else of it but Hull is of the ball
	// before that.
	Stretch float64 // how tall it is for each of what the ball is; 0 for what is no egg
	Round   float64 // of the sphere about Middle that holds all of the ball

	// Of balls, the first two toward the lower pole and the upper.
	Flat  [2]float64 // distance from the centre of a flat end; Radius for none
	Dome  [2]float64 // height above which a dished cap takes over; Radius for none
	Lobes []r2.Vec   // of a lobed ball, the direction to the middle of each gore in Zero and Right
	Rings []r2.Vec   // of a zoned ball, the normal of each face across the axis (X) and along it (Y), from below

	// Of tubes.
	Length float64    // of the axis
	Slope  float64    // radius for each mm along the axis
	Ends   [2]Plane   // what bounds it at foot and head; normals point out
	Open   [2]bool    // an end is not closed: the bore is seen
	Wall   float64    // thickness
	Reach  [2]float64 // along the axis, the farthest that the cut ends leave of it

	Half  r3.Vec  // of a box
	Sides []Plane // upright, of a plate with other sides than those of the box about it

	// Of what is hollow and has holes.
	Bites []Bite
	Sheet float64 // mm, of its wall

	Low, High r3.Vec // the corners of a box about it
}

// A Plane bounds a solid, which lies where Normal . p is at most Height.
type Plane struct {
	Normal r3.Vec
	Height float64
}

// A Ray starts at From and goes along the unit vector Along.
type Ray struct{ From, Along r3.Vec }

// At returns the point at a distance along the ray.
func (r *Ray) At(t float64) r3.Vec {
	return r3.Vec{X: r.From.X + t*r.Along.X, Y: r.From.Y + t*r.Along.Y, Z: r.From.Z + t*r.Along.Z}
}

// NewBall returns a true sphere.
func NewBall(part int, center r3.Vec, radius float64, pole, prime r3.Vec) Solid {
	s := Solid{
		Kind: Sphere, Part: part, Center: center, Radius: radius, Flat: [2]float64{radius, radius}, Dome: [2]float64{radius, radius},
		Axis: pole, Zero: prime, Right: r3.Cross(pole, prime),
	}
	s.bound(center, radius)
	return s
}

// NewLobed returns a ball of n rolled gores that the sphere of the given radius
// touches, the first toward prime.
func NewLobed(part int, center r3.Vec, radius float64, n int, pole, prime r3.Vec) Solid {
	s := NewBall(part, center, radius, pole, prime)
	s.Kind = Lobed
	s.Lobes = make([]r2.Vec, n)
	for k := range s.Lobes {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		s.Lobes[k] = r2.Vec{X: cos, Y: sin}
	}
	s.bound(center, radius/math.Cos(math.Pi/float64(n)))
	return s
}

// NewZoned returns a ball of n rings, with a disc at each pole, that the sphere
// of the given radius touches.
func NewZoned(part int, center r3.Vec, radius float64, n int, pole, prime r3.Vec) Solid {
	s := NewBall(part, center, radius, pole, prime)
	s.Kind = Zoned
	step := math.Pi / float64(n+1)
	s.Rings = make([]r2.Vec, n+2)
	for k := range s.Rings {
		sin, cos := math.Sincos(float64(k)*step - math.Pi/2)
		s.Rings[k] = r2.Vec{X: cos, Y: sin}
	}
	s.Rings[0], s.Rings[n+1] = r2.Vec{Y: -1}, r2.Vec{Y: 1}
	s.bound(center, radius/math.Cos(step/2))
	return s
}

// NewTube returns a tube, or taper, along the unit vector axis, cut square and
// closed at both ends.
func NewTube(part int, foot, axis r3.Vec, length, radius, radiusAtHead float64) Solid {
	s := Solid{Kind: Tube, Part: part, Center: foot, Axis: axis, Length: length, Radius: radius, Slope: (radiusAtHead - radius) / length}
	s.Zero, s.Right = design.Tilt(axis)
	s.End(0, Plane{r3.Scale(-1, axis), -r3.Dot(axis, foot)})
	s.End(1, Plane{axis, r3.Dot(axis, foot) + length})
	return s
}

// steepest is the least cosine between a tube and the normal of the plane that
// it is cut to: at less the cut would run along the tube.
const steepest = 0.02

// End cuts an end of a tube, 0 the foot and 1 the head, by a plane.
func (s *Solid) End(i int, p Plane) {
	if sign := float64(2*i - 1); sign*r3.Dot(p.Normal, s.Axis) < steepest {
		return
	}
	s.Ends[i] = p
	// The plane crosses the axis at a height and leaves it by the tangent of
	// the angle to either side.
	cos := r3.Dot(p.Normal, s.Axis)
	along := (p.Height - r3.Dot(p.Normal, s.Center)) / cos
	wide := max(0, s.Radius+s.Slope*along)
	tan := math.Sqrt(max(0, 1-cos*cos)) / math.Abs(cos)
	over := wide * tan
	if s.Slope != 0 {
		over /= max(0.1, 1-math.Abs(s.Slope)*tan)
	}
	s.Reach[i] = along + float64(2*i-1)*over
	s.boundTube()
}

func (s *Solid) boundTube() {
	var ends [2]r3.Vec
	var radii [2]float64
	for i, along := range s.Reach {
		ends[i], radii[i] = r3.Add(s.Center, r3.Scale(along, s.Axis)), max(0, s.Radius+s.Slope*along)
	}
	box := solid.Frustum(ends, s.Axis, radii)
	s.Low, s.High = box.Min, box.Max
	from, to := s.Reach[0], s.Reach[1]
	s.Middle = r3.Add(s.Center, r3.Scale((from+to)/2, s.Axis))
	s.Hull = math.Hypot((to-from)/2, max(radii[0], radii[1]))
}

// NewBox returns a plate square to the axes with the given corners.
func NewBox(part int, low, high r3.Vec) Solid {
	s := Solid{
		Kind: Box, Part: part, Center: r3.Scale(0.5, r3.Add(low, high)), Half: r3.Scale(0.5, r3.Sub(high, low)),
		Zero: r3.Vec{X: 1}, Right: r3.Vec{Y: 1}, Axis: r3.Vec{Z: 1},
		Low: low, High: high,
	}
	s.Middle, s.Hull = s.Center, norm(s.Half)
	return s
}

// NewPrism returns a level plate with straight sides, between two heights.
func NewPrism(part int, o design.Outline, bottom, top float64) Solid {
	b := o.Box()
	s := NewBox(part, r3.Vec{X: b.Min.X, Y: b.Min.Y, Z: bottom}, r3.Vec{X: b.Max.X, Y: b.Max.Y, Z: top})
	for from, out := range o.Sides {
		s.Sides = append(s.Sides, Plane{r3.Vec{X: out.X, Y: out.Y}, r2.Dot(from, out)})
	}
	return s
}

// bound sets what holds the solid to a sphere.
func (s *Solid) bound(center r3.Vec, radius float64) {
	s.Middle, s.Hull = center, radius
	reach := r3.Vec{X: radius, Y: radius, Z: radius}
	s.Low, s.High = r3.Sub(center, reach), r3.Add(center, reach)
}

// local returns a direction in the solid's own axes.
func (s *Solid) local(v r3.Vec) r3.Vec {
	return r3.Vec{X: r3.Dot(v, s.Zero), Y: r3.Dot(v, s.Right), Z: r3.Dot(v, s.Axis)}
}

// global returns a direction given in the solid's own axes.
func (s *Solid) global(v r3.Vec) r3.Vec {
	return r3.Vec{
		X: v.X*s.Zero.X + v.Y*s.Right.X + v.Z*s.Axis.X,
		Y: v.X*s.Zero.Y + v.Y*s.Right.Y + v.Z*s.Axis.Y,
		Z: v.X*s.Zero.Z + v.Y*s.Right.Z + v.Z*s.Axis.Z,
	}
}

// norm is r3.Norm without its care for numbers near the ends of the range.
func norm(v r3.Vec) float64 { return math.Sqrt(v.X*v.X + v.Y*v.Y + v.Z*v.Z) }

func unit(v r3.Vec) r3.Vec { return r3.Scale(1/norm(v), v) }
