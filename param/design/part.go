package design

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/source"
	"stabile/param/stock"
)

// A Part is one thing to be made. Exactly one of Base, Post and Ball is not
// nil.
type Part struct {
	Name  string
	Metal *Metal // nil for a bought ball without one
	Span  source.Span
	Props map[string]source.Span // where each given property stands

	Base *Base
	Post *Post
	Ball *Ball

	Holes []*Hole // that are cut through its wall, in source order
}

// Kind returns "base", "post", "ball" or "bowl".
func (p *Part) Kind() string {
	switch {
	case p.Base != nil:
		return "base"
	case p.Post != nil:
		return "post"
	case p.Ball.Bowl:
		return "bowl"
	}
	return "ball"
}

// Host returns the part that this one stands on or is threaded on: that at the foot
// of a post, under a ball or a ring, or through it. It is nil for the ground, for a base, and
// for a ball or a ring that is placed outright and held by posts that run to it.
func (p *Part) Host() *Part {
	switch {
	case p.Post != nil && p.Post.Ring != nil:
		return p.Post.Ring.On
	case p.Post != nil:
		return p.Post.Ends[Foot].With
	case p.Ball == nil:
		return nil
	case p.Ball.Around != nil:
		return p.Ball.Around
	}
	return p.Ball.On
}

// Top returns the height in mm of the highest point of a part, the ends of a post
// being cut square: on a leaning one that is on the side away from its lean.
func (p *Part) Top() float64 {
	switch {
	case p.Post != nil:
		return max(p.Post.Reach(Foot, Upright), p.Post.Reach(Head, Upright))
	case p.Ball != nil && p.Ball.Bowl:
		return p.Ball.Center.Z + p.Farthest(Upright).Z
	case p.Ball != nil:
		return p.Ball.Center.Z + p.Ball.Reach(Upright)
	}
	if p.Base.OnWall() {
		return p.Base.Wall + p.Base.Depth/2
	}
	return p.Base.Top
}

// At returns where the given property of the part stands in the text, or the
// part's own place where the property is not given.
func (p *Part) At(property string) source.Span {
	if s, ok := p.Props[property]; ok {
		return s
	}
	return p.Span
}

// A Metal is a sheet metal of one thickness.
type Metal struct {
	Name       string
	Alloy      string  // the alloy's name in package stock
	Gauge      int     // 0 where it goes by thickness or by weight
	Ounces     int     // for each square foot; 0 where it does not go by weight
	Thickness  float64 // mm, nominal
	Tolerance  float64 // mm, plus and minus, on the thickness
	Density    float64 // kg/m3
	Yield      float64 // MPa
	Modulus    float64 // MPa
	GaugeTable string  // the name of the gauge's table; "" without a gauge
	Price      float64 // money for each kg; 0 where none is given

	// LengthPrice is money for each mm of length of a sheet off a roll, SheetPrice
	// money a sheet; 0 where none is given.
	LengthPrice, SheetPrice float64

	// Stock is the alloy itself where it is of a table of the caller's own, nil
	// for one of the house: see Is.
	Stock *stock.Alloy
}

// Is returns the alloy that the metal is of, with all that is decided by it.
func (m *Metal) Is() stock.Alloy { return alloyOf(m.Stock, m.Alloy) }

func alloyOf(own *stock.Alloy, name string) stock.Alloy {
	if own != nil {
		return *own
	}
	if a, ok := stock.LookupAlloy(name); ok {
		return a
	}
	return stock.Unknown(name)
}

// A BaseShape is the outline of a base.
type BaseShape int

// The shapes of base.
const (
	Plate   BaseShape = iota // a rectangle of Width along x by Depth along y
	Disc                     // a round of diameter Width
	Polygon                  // a convex plate of Corners
)

// String returns the shape's name in the reports: "plate", "disc" or "polygon".
func (s BaseShape) String() string {
	return [...]string{Plate: "plate", Disc: "disc", Polygon: "polygon"}[s]
}

// A Base is the plate that the sculpture stands on, or the pad of one of its posts, or the plate
// that holds it to a wall (see Own). Its underside is the ground, or the top of the block that it
// is bolted to. The centre in plan of a rectangle
// or a disc is the origin, but for a pad; the corners of a polygon are measured from there.
type Base struct {
	Shape          BaseShape
	Pad            bool     // under one post alone, on the ground
	At             r2.Vec   // mm, of a pad, where the middle of its plate lies in plan
	Width, Depth   float64  // mm, along x and y; equal for a disc
	Corners        []r2.Vec // mm, of a polygon, counter-clockwise; nil for others
	Ballast        float64  // kg, laid on the base about the middle of its area
	Anchors        int      // number of anchor holes
	AnchorDiameter float64  // mm
	AnchorEdge     float64  // mm, from the edge to the centre of a hole
	AnchorDepth    float64  // mm, that the anchors hold in the concrete; 0 where it is not known
	AnchorsDrilled bool     // they are set in drilled holes, not cast in with a head
	Concrete       float64  // MPa, cylinder strength of what they are set in; 0 where it is not known
	Footing        Block    // in the ground under the plate; zero for none
	Block          Block    // on the ground under the plate, which is bolted to it; zero for none
	Ground         float64  // kPa, that the ground under the footing may bear; 0 where it is not known
	Wall           float64  // mm, height over the floor of the middle of a plate on a wall; 0 for others
	Top            float64  // mm, height of the upper face; of a plate on a wall, how far that is out from the wall
}

// Under returns the height in mm of the plate's underside: that of the block under it.
func (b *Base) Under() float64 { return b.Block.Height }

// Thick returns how thick the plate is, in mm.
func (b *Base) Thick() float64 { return b.Top - b.Under() }

// The ends of a post, as they are counted in Post.Ends.
const (
	Foot = 0
	Head = 1
)

// A Post is a rolled tube, straight from its foot to its head. Where the two
// diameters differ it is a taper, a frustum of a cone.
//
// A post between two parts has its axis on the line through their centres, and
// its foot and head where that line meets their outer surfaces. Its foot meets
// the part named first.
type Post struct {
	Ends         [2]End      // its Foot and its Head
	Direction    r3.Vec      // unit vector from foot to head
	Length       float64     // mm, from foot to head along the axis
	Seam         float64     // rad, the bearing of the seam, of the tube standing upright
	Sunk         float64     // mm, how deep its tube goes on into concrete in the ground, under its foot; 0 for none
	Pier         float64     // mm, the diameter of that concrete
	Gap          float64     // mm, root gap of its seams
	Courses      int         // that it is rolled in, one above the other and welded round; 0 where it is in one or CourseLength says
	CourseLength float64     // mm, that the blank of a course is long at most; 0 where Courses says
	Stagger      float64     // rad, by which the seam of every other course is turned
	Narrow       float64     // mm, the narrowest point of sheet that the shop can weld; 0 where it does not say
	Vent         float64     // mm, diameter of the hole that vents it, and drains it where it is the only one; 0 for none
	Drain        float64     // mm, diameter of the hole that drains it; 0 for none
	VentBear     float64     // rad, of its vent, of the tube standing upright
	DrainBear    float64     // rad, of its drain
	Lean         float64     // rad from upright
	LeanBearing  float64     // rad; meaningless where Lean is 0
	Offset       float64     // mm, foot from the centre of the ball it stands on
	OffsetBear   float64     // rad; meaningless where Offset is 0
	Between      bool        // given by the two parts that it joins
	Bought       *BoughtTube // what it is cut from; nil for one that is rolled
	Ring         *Ring       // whose tube it is; nil for none
	Lies         bool        // of a ring: its side lies on the base or on the ground
	Along        float64     // mm along the host's axis, from its foot, to where a branch's axis leaves it
	AlongBear    float64     // rad, of the branch's root on the host standing upright
}

// PierAt returns the middle in plan, in mm, of the concrete that the foot of the post is set
// in: under the middle of the length that is in it.
func (p *Post) PierAt() r2.Vec {
	return r2.Sub(Plan(p.Ends[Foot].At), r2.Scale(p.Sunk/2/p.Direction.Z, Plan(p.Direction)))
}

// Reach returns how far, in mm from the origin, an end of the post reaches along a
// unit vector if it is cut square.
func (p *Post) Reach(end int, way r3.Vec) float64 {
	e := &p.Ends[end]
	return r3.Dot(e.At, way) + e.Diameter/2*CircleReach(p.Direction, way)
}

// IsTaper reports whether the post is wider at one end than at the other.
func (p *Post) IsTaper() bool { return p.Ends[Foot].Diameter != p.Ends[Head].Diameter }

// IsPointed reports whether the post is a cone whose head is a point.
func (p *Post) IsPointed() bool { return p.Ends[Head].Diameter == 0 }

// Shut reports whether the head is closed: by a disc, or since it is a point.
func (p *Post) Shut() bool { return p.Ends[Head].Disc || p.IsPointed() }

// Narrowest returns the lesser of the diameters at the ends in mm; of a cone with a point,
// that at its foot.
func (p *Post) Narrowest() float64 {
	if p.IsPointed() {
		return p.Ends[Foot].Diameter
	}
	return min(p.Ends[Foot].Diameter, p.Ends[Head].Diameter)
}

// DiameterAt returns the outside diameter in mm at a length in mm along the
// axis from the foot.
func (p *Post) DiameterAt(along float64) float64 {
	foot := p.Ends[Foot].Diameter
	if !p.IsTaper() {
		return foot
	}
	return foot + (p.Ends[Head].Diameter-foot)*along/p.Length
}

// InCourses reports whether the post is rolled in courses that are welded round.
func (p *Post) InCourses() bool { return p.Courses > 1 || p.CourseLength > 0 }

// CourseSeam returns the bearing of the seam of a course, counted from 0 at the foot.
func (p *Post) CourseSeam(course int) float64 {
	if course%2 == 1 {
		return p.Seam + p.Stagger
	}
	return p.Seam
}

// endSeams returns the bearings that the seam may have at an end; more than one where it
// hangs on how many courses there are.
func (p *Post) endSeams(end int) []float64 {
	switch {
	case end == Foot || !p.InCourses():
		return []float64{p.Seam}
	case p.Courses > 0:
		return []float64{p.CourseSeam(p.Courses - 1)}
	}
	return []float64{p.CourseSeam(0), p.CourseSeam(1)}
}

// seams returns the bearings of all seams along the post.
func (p *Post) seams() []float64 {
	if p.InCourses() {
		return []float64{p.CourseSeam(0), p.CourseSeam(1)}
	}
	return []float64{p.Seam}
}

// Slope returns by how much the radius grows for each mm along the axis from the
// foot; 0 for a tube.
func (p *Post) Slope() float64 {
	if !p.IsTaper() {
		return 0
	}
	return (p.Ends[Head].Diameter - p.Ends[Foot].Diameter) / 2 / p.Length
}

// Inward returns the unit vector along the axis from an end into the post.
func (p *Post) Inward(end int) r3.Vec {
	if end == Head {
		return r3.Scale(-1, p.Direction)
	}
	return p.Direction
}

// EndBy returns by which of its ends a post is joined to another whose end is at
// a point: that which is With the other, else the nearer.
func (p *Post) EndBy(other *Part, at r3.Vec) int {
	for _, end := range [...]int{Head, Foot} {
		if p.Ends[end].With == other {
			return end
		}
	}
	if r3.Norm(r3.Sub(p.Ends[Head].At, at)) < r3.Norm(r3.Sub(p.Ends[Foot].At, at)) {
		return Head
	}
	return Foot
}

// An End is one of the two ends of a post.
type End struct {
	At       r3.Vec  // mm, on the axis
	Diameter float64 // mm, outside; equal at both ends of a tube
	Disc     bool    // closed by a disc where it is free
	Doubler  float64 // mm, finished diameter of the disc that doubles the wall of the ball that it meets; 0 for none
	Contact
}

// A Contact is what an end of a post meets. The zero Contact is none: the end is
// free, a square cut.
//
// A post that stands on another's head has OnHead at its foot, With the other,
// and is trimmed there to their mitre. The other has OnHead at its head, With it,
// and is trimmed to the same plane; but where it carries a smaller tube its head
// stays free, and is closed by the disc on which that tube stands.
type Contact struct {
	Meets Meeting
	With  *Part // what it meets; nil for the ground or a free end
}

// A Meeting is a kind of surface that an end of a post is trimmed to.
type Meeting int

// The kinds of meeting.
const (
	Free    Meeting = iota // meets nothing: cut square
	OnPlate                // stands on the upper face of the base, or on the ground
	OnBall                 // meets the outside of a ball
	OnHead                 // meets another post's head, or a post that stands on this one's: see End
	OnSide                 // meets the outside of another post's side
)

// A Construction is how a ball is made.
type Construction int

// The constructions of a ball.
const (
	RolledGores Construction = iota // gores bent one way, along the meridian
	DomedGores                      // gores stretched both ways
	Halves                          // two dished halves
	Bought                          // not made here
	Zones                           // rings, each a frustum of a cone, with a disc at each pole
)

// A Ball is a hollow ball, or a bowl: the part of one that lies below its rim.
type Ball struct {
	Center     r3.Vec  // mm
	Radius     float64 // mm, outside, of the sphere that its flats touch
	Tall       float64 // mm, outside, along the pole of an egg, of which Radius is half of the width across; 0 for a ball that is round
	Build      Construction
	Gores      int     // number of gores; 0 where it is not built of gores
	Zones      int     // number of zones; 0 where it is not built of zones
	Caps       float64 // mm, finished diameter of the caps at the poles; 0 for none
	UpperCap   float64 // mm, that of the upper cap where it is another; else 0
	Straight   bool    // caps follow the lobes with straight sides; Caps is then from side to opposite side of an even number
	PoleDiscs  bool    // Caps was not asked for: the discs close what blunt gores leave open
	Gap        float64 // mm, root gap of its seams
	EdgeMid    bool    // gores and rings meet at the middle of the sheet, not by their inner corners
	BoughtMass float64 // kg; only of a bought ball
	Price      float64 // money, of a bought ball; 0 where none is given
	Bowl       bool    // it is open: of a ball it has what lies below Rim
	Rim        float64 // rad, latitude of the outer edge of a bowl's rim, at most 0; 0 of a ball
	RimFlat    bool    // the rim is ground flat, not left square through its sheet
	Pole       r3.Vec  // unit vector along the axis through its poles; of a bowl, out of its mouth
	Prime      r3.Vec  // unit vector, square to Pole, to the middle of gore 1
	Offset     float64 // mm, of the centre from the axis of what it rests on
	OffsetBear float64 // rad; meaningless where Offset is 0
	Vent       float64 // mm, diameter of the hole that vents it, and drains it where it is the only one; 0 for none
	Drain      float64 // mm, diameter of the hole that drains it; 0 for none
	VentBear   float64 // rad, toward which its vent is drilled
	DrainBear  float64 // rad, toward which its drain is drilled
	Narrow     float64 // mm, the narrowest point of sheet that the shop can weld; 0 where it does not say
	Seat       float64 // mm, diameter of the circle where it is welded to the ball it rests on; 0 without one
	Through    bool    // it is open to the ball that it rests on
	On         *Part   // the post, ball or base it rests on; nil for the ground, and where it is threaded or placed outright
	Around     *Part   // the post it is threaded on, or nil
	Along      float64 // mm, of its centre along the axis of Around, from that post's foot
}

// A Joint is where two parts are welded to each other.
type Joint struct {
	Kind JointKind
	Post *Part  // the post whose end is welded, or that goes through a ball; else nil
	End  int    // which of the post's ends is welded: Foot or Head
	A, B *Part  // the two parts, in source order; A is nil for the ground
	At   r3.Vec // mm: on the axis at the end that is welded; the middle of a seat; a threaded ball's centre
}

// A JointKind is how two parts meet.
type JointKind int

// The kinds of joint.
const (
	EndJoint    JointKind = iota // the end of a post against another part
	RestJoint                    // a ball, or a tube of a ring along its side, on the base or on the ground
	SeatJoint                    // a ball on a ball
	ThreadJoint                  // a ball around a post
)

// Plan returns the plan view (x, y) of a point.
func Plan(p r3.Vec) r2.Vec { return r2.Vec{X: p.X, Y: p.Y} }
