package design

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/source"
)

// A Part is one thing to be made. Exactly one of Base, Post and Ball is not
// nil.
type Part struct {
	Name  string
	Metal *Metal // nil for a base of feet and for a bought ball without one
	Span  source.Span
	Props map[string]source.Span // where each given property stands

	Base *Base
	Post *Post
	Ball *Ball
}

// Kind returns "base", "post" or "ball".
func (p *Part) Kind() string {
	switch {
	case p.Base != nil:
		return "base"
	case p.Post != nil:
		return "post"
	}
	return "ball"
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
	Gauge      int     // 0 where a thickness is given instead
	Thickness  float64 // mm, nominal
	Tolerance  float64 // mm, plus and minus, on the thickness
	Density    float64 // kg/m3
	Yield      float64 // MPa
	Modulus    float64 // MPa
	GaugeTable string  // the name of the gauge's table; "" without a gauge
}

// A BaseShape is how the sculpture stands on the ground.
type BaseShape int

// The shapes of base.
const (
	Plate BaseShape = iota // a rectangle of Width along x by Depth along y
	Disc                   // a round of diameter Width
	Feet                   // nothing: the parts that stand on the ground are the footprint
)

// A Base is what the sculpture stands on. Its centre in plan is the origin and
// its underside is the ground.
type Base struct {
	Shape          BaseShape
	Width, Depth   float64 // mm; equal for a disc
	Ballast        float64 // kg, laid on the base about its centre
	Anchors        int     // number of anchor holes
	AnchorDiameter float64 // mm
	AnchorEdge     float64 // mm, from the edge to the centre of a hole
	Top            float64 // mm, height of the upper face: the thickness, or 0 for feet
}

// A Post is a rolled tube, straight from its foot to its head.
type Post struct {
	Foot, Head   r3.Vec     // mm, on the axis
	Direction    r3.Vec     // unit vector from foot to head
	Length       float64    // mm, from foot to head along the axis
	Diameter     [2]float64 // mm, outside, at foot and head; equal for a tube
	Seam         float64    // rad, the bearing of the seam, of the tube standing upright
	Gap          float64    // mm, root gap of the seam
	FootEnd      End
	HeadEnd      End
	HeadDisc     bool    // a free head is closed by a disc
	Lean         float64 // rad from upright
	LeanBearing  float64 // rad; meaningless where Lean is 0
	Offset       float64 // mm, foot from the centre of the ball it stands on
	OffsetBear   float64 // rad; meaningless where Offset is 0
}

// An End is what an end of a post meets. The zero End is free: a square cut.
type End struct {
	Meets Meeting
	With  *Part // what it meets; nil for the ground or a free end
}

// A Meeting is a kind of surface that an end of a post is trimmed to.
type Meeting int

// The kinds of meeting.
const (
	Free     Meeting = iota // meets nothing: cut square
	OnPlate                 // stands on the upper face of the base, or on the ground
	OnBall                  // meets the outside of a ball
)

// A Construction is how a ball is made.
type Construction int

// The constructions of a ball.
const (
	RolledGores Construction = iota // gores bent one way, along the meridian
	DomedGores                      // gores stretched both ways
	Halves                          // two dished halves
	Bought                          // not made here
)

// A Ball is a hollow ball.
type Ball struct {
	Center     r3.Vec  // mm
	Radius     float64 // mm, outside, of the sphere that its flats touch
	Build      Construction
	Gores      int     // number of gores; 0 for halves and bought
	Caps       float64 // mm, finished diameter of the polar caps; 0 for none
	BoughtMass float64 // kg; only of a bought ball
	Pole       r3.Vec  // unit vector along the axis through its poles
	Prime      r3.Vec  // unit vector, square to Pole, to the middle of gore 1
	Offset     float64 // mm, of the centre from the axis of what it rests on
	OffsetBear float64 // rad; meaningless where Offset is 0
}

// A Joint is where two parts are welded to each other.
type Joint struct {
	Post *Part // the post whose end is welded; nil where a ball rests on the base
	Foot bool  // the post's foot, else its head
	A, B *Part // the two parts, in source order
	At   r3.Vec
}

// Plan returns the plan view (x, y) of a point.
func Plan(p r3.Vec) r2.Vec { return r2.Vec{X: p.X, Y: p.Y} }
