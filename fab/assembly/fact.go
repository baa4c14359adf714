package assembly

import (
	"stabile/fab/corrosion"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/stock"
)

// A Named is a part with what it is: "post", "ball" or "base". The ground is the zero
// Named.
type Named struct{ Kind, Name string }

func named(p *design.Part) Named {
	if p == nil {
		return Named{}
	}
	return Named{p.Kind(), p.Name}
}

// What is found of the plan as a whole.
type (
	// ClosesLoop says that a part closes a loop and cannot be brought in with all that
	// it meets fixed.
	ClosesLoop struct {
		Hosts []string // one of them is left only tacked
	}

	// Topples says from which step on the work does not stand by itself.
	Topples struct {
		From, Until int  // numbers of steps; Until is 0 where it never does again without ballast or anchors
		Base        bool // there is a base to clamp or anchor
	}

	// UnlikeMetals says that a part is joined to another of a metal that it is not
	// welded to as to its own.
	UnlikeMetals struct {
		Alloy     string
		Host      Named
		HostAlloy string
		Joint     stock.Joint
		Apart     stock.Group       // of those that do not fuse, the one that does not fuse with the other
		Zinc      bool              // one of them alone has a coat of zinc
		Contact   corrosion.Contact // of those that do not fuse, how they get on where they are bolted
	}

	// NoVents says that a hollow that is hot dipped has no vent and drain large enough.
	NoVents struct {
		Holes    int      // that the design gives it
		Vent     float64  // mm, the largest of them
		Dip      float64  // mm, the least for its vent and its drain
		With     []string // parts that are one space with it
		Celsius  float64  // of the bath
		Pressure float64  // kPa, of the air shut in
	}

	// Baked says what the air in hollows does where paint is baked.
	Baked struct {
		Celsius  float64 // of the oven
		Pressure float64 // kPa, of the air shut in
	}

	// NoDip says that a metal may not be hot dipped.
	NoDip struct {
		Alloy string
		Dip   stock.Dip
	}

	// ThinDip says that sheet may buckle in the zinc bath.
	ThinDip struct {
		Least float64 // mm, from which it does not
	}
)

// How a part is made from its blanks. Numbers are those of welds.
type (
	// CutBase is to cut a plate or disc and mark on it where everything stands.
	CutBase struct {
		Base    Named
		Anchors int // holes to drill
	}

	// RollTube is to roll a post and close it.
	RollTube struct {
		Post   Named
		Taper  bool
		Pieces int     // of its wall
		Gap    float64 // mm, root gap of its seams
		Seams  []int
		Disc   []int // of the disc let into its head; none without one
		Point  []int // of the weld that builds up its point; none without one

		Courses int     // that it is rolled in; 0 where it is in one length
		Stagger float64 // rad, by which the seams of every other course are turned
		Rounds  []int   // the welds round it, from course to course

		Ring int // tubes of a ring that Post names, all made so; 0 for a post
	}

	// CutTube is to saw a post from pipe or tube that is bought, and trim its ends.
	CutTube struct {
		Post   Named
		Pipe   stock.Pipe // zero for a tube
		Square bool       // both of its ends are cut square, and need no template
		Filed  bool       // one of them or both are then filed to fit
		Disc   []int      // of the disc let into its head; none without one
		Ring   int        // tubes of a ring that Post names, all made so; 0 for a post
	}

	// DishHalves is to dish the halves of a ball and join them.
	DishHalves struct {
		Ball    Named
		Equator []int
		Bowl    bool // one piece, open
	}

	// HaveBall is to measure and weigh a bought ball.
	HaveBall struct{ Ball Named }

	// RollRings is to roll the rings of a ball and join them.
	RollRings struct {
		Ball                Named
		Rings               int // 0 where an opening may leave fewer
		Seams, Edges, Poles []int
	}

	// MakeGores is to form the gores of a ball and join them.
	MakeGores struct {
		Ball        Named
		Domed       bool
		Egg         bool
		Bowl        bool // open, with one cap or none
		Gores       int
		Seams, Caps []int
	}
)

// How parts are put together.
type (
	// ThreadBall is to thread a ball on a post over an end.
	ThreadBall struct {
		Ball, Post Named
		End        string  // "foot" or "head"
		Along      float64 // mm, of its centre from the foot
		Facing     Facing
		Weld       []int
	}

	// SetOnBench is to set what is held together already on another part.
	SetOnBench struct {
		Unit    []Named // the part by which it stands first
		Meeting Meeting
		Weld    []int
	}

	// CloseRing is to put the tubes of a ring together, lying.
	CloseRing struct {
		Ring   Named
		Tubes  int
		Across float64 // mm
		Turned bool    // every other tube is turned end for end
		Weld   []int
	}

	// LayBase is to lay a plate or disc.
	LayBase struct {
		Base Named
		Wall bool // it goes on a wall, and lies flat until all is welded
	}

	// StandUnit is to set in its place what the rest will stand on.
	StandUnit struct{ Unit []Named }

	// SetUnit is to set something on what stands already.
	SetUnit struct {
		Unit    []Named
		By      Named // the part of it by which it stands
		Meeting Meeting
		Also    []Also
		Weld    []int
		Top     Top // to check
	}

	// FinishAll is what is done when all is welded.
	FinishAll struct {
		Ballast float64 // kg, to lay; 0 for none
		Anchors bool    // to fix
		Wall    float64 // mm, how high over the floor the middle of the plate goes on a wall; 0 for none
	}
)

// An Also is another part that is met at the same time, and the part of the unit
// that meets it.
type Also struct {
	Host, By Named
}

// A Top is how high the top part of a unit comes.
type Top struct {
	Part Named   // the centre of a ball or a ring, the middle of the head of a post
	X, Y float64 // mm, in plan
	Z    float64 // mm above the ground, or above the bench
	Flat bool    // it is above the bench: the plate, which goes on a wall, lies flat
}

// A Meets is a kind of meeting of a part with what it is set on.
type Meets int

// The kinds of meeting.
const (
	Against      Meets = iota // touching it
	EndOnGround               // a post's end on the ground
	EndOnBase                 // on a plate or disc
	EndOnBall                 // over the outline marked on a ball
	EndOnDisc                 // on the disc in the head of a post
	EndMitred                 // to the head of a post, mitre to mitre
	EndOnEnd                  // edge to edge on the head of a post
	EndOnSide                 // over the outline marked on the side of a post
	BallOnEnd                 // a ball on the end of the post it rests on
	BallAtEnd                 // a ball against the end of a post that was set to it
	BallOnBall                // seated on a ball
	BallOnGround              // on the ground
	BallOnBase                // on a plate or disc
	EndInGround               // a post's end in concrete in the ground
	PadOnGround               // the pad of a post on the ground
	RingOnEnd                 // a tube of a ring in the saddle of the head of a post
	RingOnBase                // a ring along the lines in which it lies on a plate or on the ground
)

// A Meeting is where a part meets what it is set on. Fields that a kind does not
// use are 0.
type Meeting struct {
	Kind   Meets
	Host   Named
	End    string  // "foot" or "head": of the post that is set, or that the ball sits on
	X, Y   float64 // mm in plan, from the middle of a base
	Deep   float64 // mm, how far an end goes into the ground
	Offset float64 // mm: of a ball's centre to the side, of a foot's middle from a ball's middle
	Toward float64 // rad, the bearing of the offset
	Along  float64 // mm along a host post from its foot; with AlongAt its bearing, where Placed
	At     float64 // rad
	Placed bool    // Along is given
	Sided  bool    // At is given
	Seat   float64 // mm, diameter of the circle on which a ball is seated on a ball
	Lean   Lean    // of a post
	Seam   float64 // rad, the bearing of a post's seam, or of the line where its template met
	Bought bool    // the post is sawn from what is bought, and has no seam
	Plain  bool    // nor a template: it may be turned any way
	Facing Facing  // of a ball
	Level  bool    // a ring lies; Toward is then the bearing of the middle of its tube 1, else of its axis
}

// A Lean is how a post stands: Angle in rad from upright toward a bearing in rad.
type Lean struct{ Angle, Toward float64 }

// A Turning is what of a ball is turned to a bearing.
type Turning int

// What is turned.
const (
	AnyWay    Turning = iota
	FirstGore         // the middle of gore 1
	RingSeam1         // the seam of the only ring
	RingSeams         // the seams of the rings, by turns
	LeastSeen         // turned so that the seam of its halves shows least
)

// A Facing is how a ball is turned.
type Facing struct {
	Turning     Turning
	First, Then float64 // rad, bearings
	Several     bool    // rings are of several pieces: one seam of each
	Pole        Lean    // of the pole; upright for an Angle of 0
	Mouth       bool    // the pole leads out of the mouth of a bowl
}

// Notes on a step.
type (
	// LoopWay says how a part is brought in that closes a loop.
	LoopWay struct {
		Tight  bool    // it cannot be slid in: one joint of its neighbours is left tacked
		Toward float64 // rad, bearing of the way
		Slope  float64 // rad, of the way; negative downward
	}

	// HoldIt says how what is set is held until it is joined.
	HoldIt struct {
		Hold   Hold
		Over   float64 // mm, by which its centre of gravity lies outside of the joint
		Toward float64 // rad, the bearing to which it would fall
		Tips   float64 // rad, the lean at which it falls
		Tied   bool    // until it is tied to the rest, else welded all round
	}

	// TipsThen says that the work tips easily when the step is done.
	TipsThen struct {
		Lean float64 // rad
	}

	// ClosesHollow says which hollow a step closes, and what to drill first.
	ClosesHollow struct {
		Parts  []string // none for the part that is made
		Bought bool     // a bought ball, which may be closed already
		Holes  int      // that the design gives it
		Vent   float64  // mm, the largest of them
		Dip    float64  // mm, the least for vent and drain where it is hot dipped, else 0
		Least  float64  // mm, of the hole to drill else
	}

	// HeavyLift says that more than one person should lift.
	HeavyLift struct {
		Whole bool
		Mass  float64 // kg, at most
	}

	// ZincOff says how far zinc is taken off before any heat.
	ZincOff struct {
		Band float64 // mm
	}
)

// A Hold is how something is held.
type Hold int

// The ways to hold.
const (
	Chock    Hold = iota // it rolls
	Outside              // its centre of gravity lies outside of the joint
	OverEdge             // over the very edge of it
	Tippy                // it falls when it leans a little
	JustHold
)

// A Care is a note without figures.
type Care int

// The cares.
const (
	BackPurge      Care = iota // argon on the back of stainless seams
	ShowGalvanizer             // every vent and drain
	OpenInOven                 // every vent
	CloseCold                  // holes that must go
)

// The rules by which welds were planned.
type (
	// TackRule says how far apart tacks are, and in which order.
	TackRule struct {
		Thicknesses float64 // of the sheet, at most from tack to tack
		Ring        int     // at least on a ring
	}

	// CleanRule says what is cleaned.
	CleanRule struct {
		Band float64 // mm
	}

	// FillerRule says how filler is worked out.
	FillerRule struct{}

	// HollowRule says what a closed hollow does when it is heated.
	HollowRule struct {
		Shop, Oven, Bath           float64 // °C
		OvenPressure, BathPressure float64 // kPa
	}

	// RunsRule says how to weld.
	RunsRule struct{}
)

// HeavyPart says why a lift is not decided: it is too much for one person, and how
// many or what gear there is the design does not say.
type HeavyPart struct {
	Mass, Limit float64 // kg
}

// NotClosed says why a hollow is not decided: no step of the plan closes it.
type NotClosed struct{}

// Fact marks the type.
func (ClosesLoop) Fact() {}

// Fact marks the type.
func (Topples) Fact() {}

// Fact marks the type.
func (UnlikeMetals) Fact() {}

// Fact marks the type.
func (NoVents) Fact() {}

// Fact marks the type.
func (Baked) Fact() {}

// Fact marks the type.
func (NoDip) Fact() {}

// Fact marks the type.
func (ThinDip) Fact() {}

// Fact marks the type.
func (CutBase) Fact() {}

// Fact marks the type.
func (RollTube) Fact() {}

// Fact marks the type.
func (CutTube) Fact() {}

// Fact marks the type.
func (DishHalves) Fact() {}

// Fact marks the type.
func (HaveBall) Fact() {}

// Fact marks the type.
func (RollRings) Fact() {}

// Fact marks the type.
func (MakeGores) Fact() {}

// Fact marks the type.
func (ThreadBall) Fact() {}

// Fact marks the type.
func (SetOnBench) Fact() {}

// Fact marks the fact.
func (CloseRing) Fact() {}

// Fact marks the type.
func (LayBase) Fact() {}

// Fact marks the type.
func (StandUnit) Fact() {}

// Fact marks the type.
func (SetUnit) Fact() {}

// Fact marks the type.
func (FinishAll) Fact() {}

// Fact marks the type.
func (LoopWay) Fact() {}

// Fact marks the type.
func (HoldIt) Fact() {}

// Fact marks the type.
func (TipsThen) Fact() {}

// Fact marks the type.
func (ClosesHollow) Fact() {}

// Fact marks the type.
func (HeavyLift) Fact() {}

// Fact marks the type.
func (ZincOff) Fact() {}

// Fact marks the type.
func (Care) Fact() {}

// Fact marks the type.
func (TackRule) Fact() {}

// Fact marks the type.
func (CleanRule) Fact() {}

// Fact marks the type.
func (FillerRule) Fact() {}

// Fact marks the type.
func (HollowRule) Fact() {}

// Fact marks the type.
func (RunsRule) Fact() {}

// Fact marks the type.
func (HeavyPart) Fact() {}

// Fact marks the type.
func (NotClosed) Fact() {}

// Join implements finding.Joiner: the larger vent of hollows that stand alone.
func (n NoVents) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(NoVents)
	if !ok || o.Holes != n.Holes || o.Vent != n.Vent || len(n.With)+len(o.With) > 0 {
		return nil, false
	}
	n.Dip = max(n.Dip, o.Dip)
	return n, true
}
