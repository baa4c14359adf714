package strength

import (
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/param/stock"
)

// OverLimit: a post, or the weld at its end, is over its limit.
type OverLimit struct {
	Weld    bool
	Where   check.Where
	Joint   string // the part that is fastened there, where it is a joint
	Case    check.Case
	Ratio   float64 // the greatest, where Several
	Several bool    // it is said of several posts
	Advice  Advice
	Cures   []Cure // that help, of Advised; empty where none of those tried does
}

// Advice is what is known of what helps.
type Advice string

// The advice.
const (
	NoAdvice     Advice = ""
	Advised      Advice = "advised"
	WorseFirst   Advice = "worse-first"    // only worked out for the worst posts
	TooManyParts Advice = "too-many-parts" // not worked out for so large a piece
)

// A Cure is a thicker or a wider part, and the ratio that it brings.
type Cure struct {
	Of                  string     // the part; "" for that which is spoken of
	Gauge               int        // of the thickness; 0 where it has none
	Pipe                stock.Pipe // that a post is then cut from; zero for others
	Thickness, Diameter float64    // mm; 0 for as it is
	Build               Build      // of a ball
	Doubler             float64    // mm, of a disc under the post that doubles the ball's wall; 0 for none
	Ratio               float64
}

// Buckles: the loads are more than the frame carries without buckling.
type Buckles struct{ Ratio float64 }

// WallBreaks: the wall of a ball is over its limit at a joint.
type WallBreaks struct {
	Ratio  float64
	With   string      // what is welded to it there
	Where  check.Where // the end of a post, or Seat
	Case   check.Case
	Side   bool // it is the wall of a post, not of a ball
	Advice Advice
	Cures  []Cure // that bring it within its limit, of Advised
}

// PlateBends: the base plate is over its limit beside a post.
type PlateBends struct {
	Ratio  float64
	Post   string
	How    PlateBending
	Advice Advice
	Cures  []Cure // that bring it within its limit, of Advised
}

// AnchorTension is what an anchor must hold down.
type AnchorTension struct {
	Tension   float64 // N, under the loads; 0 for none
	Case      check.Case
	ForTarget float64 // N, to reach Target against tipping
	Target    float64
	Bolt      float64 // mm; 0 where the bolt is not known
	Ratio     float64 // of what the steel of the bolt carries
	Over      bool    // that is more than it may
	Gripped   bool    // what the ground holds of it is checked
	Wall      bool    // they are in a wall: there is no factor against tipping
}

// AnchorShear is what an anchor must hold sideways.
type AnchorShear struct {
	Shear   float64 // N, under the loads times Target, without friction
	Case    check.Case
	Target  float64
	Sharing int     // how many anchors carry the shear
	Bolt    float64 // mm; 0 where the bolt is not known
	Ratio   float64 // of what the steel of the bolt carries
	Over    bool    // that is more than it may
	Wall    bool    // they are in a wall
}

// AnchorInteraction: tension and shear together are over the limit, either alone is
// not.
type AnchorInteraction struct {
	Case        check.Case
	Ratio, Bolt float64 // mm
}

// SlowSway: the lowest frequency is under the limit of the gust factor.
type SlowSway struct{ Frequency, Limit float64 } // Hz

// ModeMissed: a frequency lower than those found may have been missed.
type ModeMissed struct{}

// Vibrates: posts vibrate in a steady wind, so that the welds tire.
type Vibrates struct {
	Least, Most   float64 // m/s, the critical speeds
	First, Last   string  // the parts that have them
	Range, Cutoff float64 // MPa, the greatest stress range, and that below which nothing tires
	Amplitude     float64 // mm
	At            string  // the post in which it is
	Windless      bool    // the site gives no wind: how often it blows so is not known
	Advice        Advice
	Worst         string // the part that Cures are for
	Cures         []Cure // that bring it within its limit, of Advised
}

// NothingPushed: no post or ball stands at the height of the push.
type NothingPushed struct {
	Height float64 // mm
	Wind   bool    // the posts are checked for wind besides their weight
}

// NotPushed: the push does not reach the posts.
type NotPushed struct{ Wind bool } // they are checked for wind besides their weight

// Aid: the results are aids to judgement.
type Aid struct{}

// NoHoles: the diameter of the anchor holes, and so of the bolts, is not given.
type NoHoles struct{}

// GroundUnknown: what the ground holds of an anchor is not known.
type GroundUnknown struct {
	Tension, Shear  float64 // N, that one anchor must hold
	Depth, Concrete bool    // whether these are given
	Wall            bool    // they are in a wall
}

// NotSwung: the natural frequencies were not worked out.
type NotSwung struct{}

// FreeToMove: nothing ties the part to the ground.
type FreeToMove struct{}

// Failed: strength could not be worked out.
type Failed struct{ Reason string }

// Join returns the greater of two ratios at the same place, where nothing is said of
// what helps that would differ.
func (o OverLimit) Join(other finding.Fact) (finding.Fact, bool) {
	p, ok := other.(OverLimit)
	if !ok || o.Weld != p.Weld || o.Where != p.Where || o.Joint != p.Joint || o.Advice != p.Advice || o.Advice == Advised {
		return nil, false
	}
	if p.Ratio > o.Ratio {
		o.Ratio, o.Case = p.Ratio, p.Case
	}
	o.Several = true
	return o, true
}

// Fact marks the facts.
func (OverLimit) Fact()         {}
func (Buckles) Fact()           {}
func (WallBreaks) Fact()        {}
func (PlateBends) Fact()        {}
func (AnchorTension) Fact()     {}
func (AnchorShear) Fact()       {}
func (AnchorInteraction) Fact() {}
func (SlowSway) Fact()          {}
func (ModeMissed) Fact()        {}
func (Vibrates) Fact()          {}
func (NothingPushed) Fact()     {}
func (NotPushed) Fact()         {}
func (Aid) Fact()               {}
func (NoHoles) Fact()           {}
func (GroundUnknown) Fact()     {}
func (NotSwung) Fact()          {}
func (FreeToMove) Fact()        {}
func (Failed) Fact()            {}
