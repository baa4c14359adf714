package rolling

import (
	"reflect"
	"slices"

	"stabile/fab/finding"
)

// What is said of rolls for which nothing, or not all, can be planned.
type (
	// NoRolls says that the shop has none.
	NoRolls struct {
		Pieces int // to be rolled elsewhere
	}

	// RollsClash says that the measurements of the rolls contradict each other.
	RollsClash struct {
		Distance float64 // mm, of the back roll from the pinch, as given
		Least    float64 // mm, at which it would just touch the lower pinch roll
	}

	// NoSettings says that settings of the back roll need measurements that the shop
	// does not give.
	NoSettings struct {
		Slant float64 // rad, the greatest that can be worked with
	}

	// NoTurns says that turns of the screws need the lift for one turn.
	NoTurns struct{}

	// NoRating says that the strength of the rolls was not checked, since they have no
	// rating.
	NoRating struct{}
)

// A Refused says that the rolls do not take a piece, why, and what else can be done.
type Refused struct {
	Piece string // what the piece is of its part, such as "gore"; "" where it is all of it
	Why   []finding.Fact
	Ways  []finding.Fact // any one of them will do
}

// Why the rolls do not take a piece.
type (
	// NotSound says that a size of the piece or its metal is not a number.
	NotSound struct{}

	// TooTight says that a piece is smaller than comes off the rolls.
	TooTight struct {
		Outside float64 // mm, diameter, of a cone at its narrow edge
		Cone    bool
		Least   float64 // mm, that comes off them in this metal; 0 where they make none of it
	}

	// BeyondReach says that the rolls cannot be set to a radius.
	BeyondReach struct {
		Radius   float64 // mm, to the middle of the sheet
		Tightest float64 // mm, to which they can be set; 0 where they leave this sheet flat
		Wraps    bool    // the sheet would lie tighter than the roll, else the back roll does not reach so far round
	}

	// TooShort says that nothing would bend a piece, since it does not reach from the
	// pinch to the back roll.
	TooShort struct {
		Around, Lead float64 // mm
	}

	// TooSteep says that the back roll cannot be slanted enough for a cone.
	TooSteep struct {
		Slant            float64 // mm, of the cone
		Differ, Settable float64 // mm, by which the radii of its edges differ, and may
	}

	// TooLong says that a piece is longer along the rolls than they are.
	TooLong struct {
		Across, Width float64 // mm
	}

	// TooThick says that a sheet is thicker than the rolls take, however narrow.
	TooThick struct {
		Thickness, Most float64 // mm
	}

	// Overload says that a piece is over the rating of the rolls.
	Overload struct {
		Share float64 // of the rating
	}
)

// What can be done where the rolls do not take a piece.
type (
	// Split it into courses along the rolls.
	Split struct {
		Courses int
		Each    float64 // mm
		Share   float64 // of the rating, of each
		OfPost  int     // in how many courses its post is to be rolled for that; 0 for other parts
	}

	// Thinner is to take thinner sheet.
	Thinner struct {
		Gauge     int     // 0 where the metal does not go by gauge
		Thickness float64 // mm, at most
	}

	// OverStake is to shape it by hand over a stake.
	OverStake struct{}

	// OverPipe is to bend it by mallet over a pipe or bar.
	OverPipe struct {
		Outside float64 // mm, of the pipe
	}

	// OverCone is to bend a cone over a cone or two pipes, line by line.
	OverCone struct{}

	// Folds are small folds on the brake.
	Folds struct {
		Count int
		Apart float64 // mm
	}

	// BuyPipe is to buy standard pipe.
	BuyPipe struct {
		NPS     string
		Outside float64 // mm
	}

	// BuyRolled is to have it rolled elsewhere.
	BuyRolled struct {
		Thickness, Across, Outside float64 // mm
	}
)

// What to take care of in a batch.
type (
	// Bows says that a piece bows the back roll, if that is a solid bar on two
	// bearings.
	Bows struct {
		Piece   string  // as in Refused
		Sag     float64 // mm
		Barrel  float64 // mm, by which the middle comes out larger in diameter than the ends
		Courses int     // into which it may be split so that it comes out well; 0 for none
		Each    float64 // mm, of a course
		OfPost  int     // in how many courses its post is to be rolled for that; 0 for other parts
	}

	// Tight says that a piece is hard to close and to slip off.
	Tight struct {
		Piece               string
		Outside, Roll, Easy float64 // mm, diameters: of the piece, of the roll, from which work is easy
	}

	// ShortRun says that much of a piece stays flat at its ends.
	ShortRun struct {
		Piece        string
		Around, Flat float64 // mm
		Former       float64 // mm, outside diameter of pipe to bend the ends over
	}
)

// A Care is a rule for work at the rolls that has no figures. All of them are
// common practice, no source.
type Care int

// The cares.
const (
	HandsOff   Care = iota // rolls draw in
	BurrsOff               // edges of fresh sheet cut
	PinchAlike             // how hard to pinch
	WipeRolls              // scale is pressed in
	ZeroIs                 // where turns and lifts are counted from
	GrindFirst             // clean edges before rolling
	FaceDown               // the outside face goes down
	TipFirst               // how a gore is fed
	TurnTips               // run it from both tips
	SeamSquare             // how a tube is fed
	TurnEnds               // run it from both ends
	TryByCheck             // one piece first, where settings are not known
	RunDown                // what less than nothing means
	InAndOut               // how a cone is run
)

// Notes on a card that have figures. What to do is common practice, no source.
type (
	// RunsOff says that a narrow piece needs a fence.
	RunsOff struct {
		Across float64 // mm
	}

	// FlatEnds says how the ends of a piece come round.
	FlatEnds struct {
		Flat   float64 // mm, that each run leaves; 0 where it is not known
		Former float64 // mm, outside diameter of pipe to bend them over; 0 for none
		Cone   bool    // which is not turned end for end
	}

	// Notches says what a part of a turn changes.
	Notches struct {
		Of       int     // parts of a turn
		PerNotch float64 // mm, on the diameter
		Between  bool    // the last pass is set between marks
	}

	// TryFirst says what one piece that is rolled first may come out at.
	TryFirst struct {
		Scatter    float64 // the share by which sheet may be softer or harder
		Soft, Hard float64 // mm, outside diameters; 0 where it would come out far off
	}

	// CloseIt says how a tube is closed and slipped off.
	CloseIt struct {
		Over, Gap float64 // mm
		PerNotch  float64 // mm, that a part of a turn moves the edges; 0 where not known
	}

	// BitesOf says how a sector is rolled bite by bite.
	BitesOf struct {
		Count  int
		Radial float64 // mm, along the wide edge
	}

	// HoldBack says how the narrow edge of a cone is held back.
	HoldBack struct {
		Speed float64 // as a share of the wide edge's
		Back  float64 // mm
	}

	// Slant says how far the back roll is slanted in the last pass.
	Slant struct {
		Tilt float64 // rad
	}
)

// What is done by hand.
type (
	// DomeIt says how a gore is raised.
	DomeIt struct {
		Crown, Along float64 // mm, across its widest place and from tip to tip
		Inside       float64 // mm, radius of the template, both ways
	}

	// EggIt says how a blank of an egg is worked by hand.
	EggIt struct {
		How          string  // as of a Handwork
		Crown        float64 // mm, of a gore across its widest place; of a disc, deep
		Along        float64 // mm, of a gore from tip to tip
		Trim         float64 // mm, left on all round a disc; 0 for none
		Across, Tall float64 // mm, of the ellipse that its template is cut out to
		Equator, End float64 // mm, to which the middle of its sheet bends along the meridian
	}

	// DishIt says how a disc is dished.
	DishIt struct {
		Crown  float64 // mm deep
		Inside float64 // mm, radius of the template
		Trim   float64 // mm, left on all round; 0 for none
	}
)

// Fact marks the type.
func (NoRolls) Fact() {}

// Fact marks the type.
func (RollsClash) Fact() {}

// Fact marks the type.
func (NoSettings) Fact() {}

// Fact marks the type.
func (NoTurns) Fact() {}

// Fact marks the type.
func (NoRating) Fact() {}

// Fact marks the type.
func (Refused) Fact() {}

// Fact marks the type.
func (NotSound) Fact() {}

// Fact marks the type.
func (TooTight) Fact() {}

// Fact marks the type.
func (BeyondReach) Fact() {}

// Fact marks the type.
func (TooShort) Fact() {}

// Fact marks the type.
func (TooSteep) Fact() {}

// Fact marks the type.
func (TooLong) Fact() {}

// Fact marks the type.
func (TooThick) Fact() {}

// Fact marks the type.
func (Overload) Fact() {}

// Fact marks the type.
func (Split) Fact() {}

// Fact marks the type.
func (Thinner) Fact() {}

// Fact marks the type.
func (OverStake) Fact() {}

// Fact marks the type.
func (OverPipe) Fact() {}

// Fact marks the type.
func (OverCone) Fact() {}

// Fact marks the type.
func (Folds) Fact() {}

// Fact marks the type.
func (BuyPipe) Fact() {}

// Fact marks the type.
func (BuyRolled) Fact() {}

// Fact marks the type.
func (Bows) Fact() {}

// Fact marks the type.
func (Tight) Fact() {}

// Fact marks the type.
func (ShortRun) Fact() {}

// Fact marks the type.
func (Care) Fact() {}

// Fact marks the type.
func (RunsOff) Fact() {}

// Fact marks the type.
func (FlatEnds) Fact() {}

// Fact marks the type.
func (Notches) Fact() {}

// Fact marks the type.
func (TryFirst) Fact() {}

// Fact marks the type.
func (CloseIt) Fact() {}

// Fact marks the type.
func (BitesOf) Fact() {}

// Fact marks the type.
func (HoldBack) Fact() {}

// Fact marks the type.
func (Slant) Fact() {}

// Fact marks the type.
func (DomeIt) Fact() {}

// Fact marks the type.
func (DishIt) Fact() {}

// Fact marks the type.
func (EggIt) Fact() {}

// Join implements finding.Joiner: the tightest of pieces alike.
func (t Tight) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(Tight)
	if !ok || o.Piece != t.Piece || o.Roll != t.Roll {
		return nil, false
	}
	t.Outside, t.Easy = min(t.Outside, o.Outside), max(t.Easy, o.Easy)
	return t, true
}

// Join implements finding.Joiner: the shortest piece and the longest flat of
// pieces alike.
func (s ShortRun) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(ShortRun)
	if !ok || o.Piece != s.Piece {
		return nil, false
	}
	s.Around, s.Flat, s.Former = min(s.Around, o.Around), max(s.Flat, o.Flat), min(s.Former, o.Former)
	return s, true
}

// Join implements finding.Joiner: courses of one post, by what the worst of them comes to.
func (b Bows) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(Bows)
	if !ok || o.Piece != b.Piece || o.OfPost != b.OfPost || b.OfPost == 0 || o.Courses != b.Courses {
		return nil, false
	}
	b.Sag, b.Barrel, b.Each = max(b.Sag, o.Sag), max(b.Barrel, o.Barrel), max(b.Each, o.Each)
	return b, true
}

// Join implements finding.Joiner: pieces refused for the same reason and with the same
// ways out, but for how wide they are, at the widest.
func (r Refused) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(Refused)
	if !ok || o.Piece != r.Piece || len(o.Ways) != len(r.Ways) || !reflect.DeepEqual(o.Why, r.Why) {
		return nil, false
	}
	joined := r
	joined.Ways = slices.Clone(r.Ways)
	for i, way := range r.Ways {
		a, roll := way.(BuyRolled)
		b, too := o.Ways[i].(BuyRolled)
		switch {
		case roll && too && a.Thickness == b.Thickness && a.Outside == b.Outside:
			a.Across = max(a.Across, b.Across)
			joined.Ways[i] = a
		case !reflect.DeepEqual(way, o.Ways[i]):
			return nil, false
		}
	}
	return joined, true
}
