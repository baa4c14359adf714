package rolling

import (
	"errors"
	"math"
	"strings"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/shop"
	"stabile/param/stock"
)

// say adds a finding on a part, or on the whole where it is "".
func (pl *planner) say(level finding.Level, part string, fact finding.Fact) {
	if level == finding.Fault && pl.Modest {
		// What a modest shop cannot do is no fault of a design that gives no rolls.
		level = finding.Caution
	}
	f := finding.Finding{Level: level, Concern: finding.Work, Check: string(check.Rolls), Fact: fact}
	if part != "" {
		f.Parts = []string{part}
	}
	pl.Findings = append(pl.Findings, f)
}

// ofPart returns what a piece is of its part, such as "gore": "" where it is all of
// it.
func (p *Piece) ofPart() string {
	switch {
	case p.Name == p.Part:
		return ""
	case p.Courses > 1:
		return "courses" // it is the same for all of them, or nearly
	}
	return strings.TrimPrefix(p.Name, p.Part+" ")
}

// usable reports whether anything can be planned for the rolls, and says what
// cannot.
func (pl *planner) usable(pieces []Piece) bool {
	switch r := pl.Rolls; {
	case r == nil:
		count := 0
		for i := range pieces {
			count += pieces[i].Quantity
		}
		pl.say(finding.Caution, "", NoRolls{count})
		return false
	case pl.known && !pl.machine.Meet():
		pl.say(finding.Fault, "", RollsClash{pl.machine.Distance, 2 * math.Sqrt(pl.machine.Back*pl.machine.Pinch)})
		pl.known = false
	case !pl.known:
		pl.say(finding.Note, "", NoSettings{mostSlant})
	case !positive(r.ScrewPitch):
		pl.say(finding.Note, "", NoTurns{})
	}
	if !isRated(pl.Rolls.Capacity) {
		pl.say(finding.Caution, "", NoRating{})
	}
	return true
}

// refuse returns why the rolls do not take a piece, and what else can be done; nil
// if they do. ByHand says that it is light enough to be bent without them.
func (pl *planner) refuse(p *Piece) (why *Refused, byHand bool) {
	if !p.sound() {
		return &Refused{Piece: p.ofPart(), Why: []finding.Fact{NotSound{}}}, false
	}
	why = pl.tight(p)
	if over := pl.overload(p); over != nil && (why == nil || 2*p.edges()[0]+p.Metal.Thickness >= Least(pl.Rolls, stripOf(p), p.Closed)*(1-hair)) {
		return over, false // else courses and thinner sheet would not come off either
	}
	return why, true
}

// tight returns why the rolls cannot be set to a piece; nil if they can.
func (pl *planner) tight(p *Piece) *Refused {
	strip := stripOf(p)
	outside := 2*p.edges()[0] + p.Metal.Thickness
	refused := func(why finding.Fact, ways ...finding.Fact) *Refused {
		return &Refused{p.ofPart(), []finding.Fact{why}, pl.others(p, ways...)}
	}
	if least := Least(pl.Rolls, strip, p.Closed); outside < least*(1-hair) {
		if math.IsInf(least, 1) {
			least = 0
		}
		return refused(TooTight{outside, p.IsCone(), least}, pl.former(p))
	}
	if !pl.known {
		return nil
	}
	var travel [2]float64
	var lead float64
	for e, r := range p.edges() {
		set, err := pl.machine.Set(strip, 1/r)
		if err != nil {
			f := BeyondReach{Radius: r, Wraps: errors.Is(err, errWrap)}
			if tightest := pl.machine.tightest(strip); !math.IsInf(tightest, 1) {
				f.Tightest = tightest
			}
			return refused(f, pl.former(p))
		}
		travel[e], lead = set.Travel, max(lead, set.Lead)
	}
	if p.Around <= lead {
		return refused(TooShort{p.Around, lead}, pl.former(p))
	}
	if p.IsCone() && dropped(screws(travel, p.Across, pl.Rolls.Width)[1], pl.machine) {
		return refused(TooSteep{p.Across, p.Edges[1] - p.Edges[0], pl.machine.flattest(strip, p, pl.Rolls.Width)}, OverCone{})
	}
	return nil
}

// overload returns why a sheet is too wide or too heavy; nil if it is not.
func (pl *planner) overload(p *Piece) *Refused {
	c := pl.Rolls.For(p.Metal)
	if !isRated(c) || takes(c, p.Metal, p.Across) {
		return nil
	}
	r := &Refused{Piece: p.ofPart()}
	if p.Across > c.Width*(1+hair) {
		r.Why = append(r.Why, TooLong{p.Across, c.Width})
	}
	if p.Metal.Thickness > shop.Thickest*c.Thickness*(1+hair) {
		r.Why = append(r.Why, TooThick{p.Metal.Thickness, shop.Thickest * c.Thickness})
	} else if load := share(c, p.Metal, p.Across); load > 1+hair {
		r.Why = append(r.Why, Overload{load})
	}
	if n := courses(c, p.Metal, p.Across); n > 1 {
		each := p.Across / float64(n)
		r.Ways = append(r.Ways, Split{n, each, share(c, p.Metal, each), n * p.Courses})
	}
	if g, t := thinner(c, p.Metal, p.Across); g > 0 {
		r.Ways = append(r.Ways, Thinner{g, t})
	} else if t > 0 {
		// The limit is rounded down so that what is said does pass.
		r.Ways = append(r.Ways, Thinner{0, t - 0.02})
	}
	r.Ways = pl.others(p, r.Ways...)
	return r
}

// others joins ways to do without the rolls to those given.
func (pl *planner) others(p *Piece, ways ...finding.Fact) []finding.Fact {
	if way := pl.folds(p); way != nil {
		ways = append(ways, way)
	}
	return append(ways, bought(p))
}

// former is bending by hand.
func (pl *planner) former(p *Piece) finding.Fact {
	t := p.Metal.Thickness
	over := 2*stripOf(p).LoadedRadius(p.edges()[0]) - t
	if !(over > t) {
		return OverStake{}
	}
	return OverPipe{over}
}

// facet is the depth in mm that folds may leave between them and a curve.
const facet = 0.25

// folds is the brake, if the shop has one that takes the piece: folds so near that
// the flats between them, s wide, are s^2 / 8 R deep. Else nil.
func (pl *planner) folds(p *Piece) finding.Fact {
	if pl.Brake == nil || !isRated(pl.Brake.Capacity) || !takes(pl.Brake.Capacity, p.Metal, p.Across) {
		return nil
	}
	apart := math.Sqrt(8 * facet * p.edges()[0])
	n := math.Ceil(p.Around/apart) - 1
	if !(n >= 1 && n < 1e4) {
		return nil
	}
	return Folds{int(n), p.Around / (n + 1)}
}

// pipeNear is the share by which bought pipe may differ in diameter to be worth
// naming.
const pipeNear = 0.05

// bought is what to order elsewhere.
func bought(p *Piece) finding.Fact {
	outside := 2*p.Radius + p.Metal.Thickness
	if p.Metal.Is().Pipe && p.Closed && !p.IsCone() {
		if pipe := stock.NearestPipe(outside); math.Abs(pipe.Outside-outside) <= pipeNear*outside {
			return BuyPipe{pipe.NPS, pipe.Outside}
		}
	}
	return BuyRolled{p.Metal.Thickness, p.Across, outside}
}

// tightest returns the smallest radius left, in mm, that the machine can be set
// to, found by halving the curvature.
func (m Machine) tightest(s Strip) float64 {
	low, high := 0.0, 1/(m.Pinch+s.Thickness/2)
	for range 40 {
		middle := (low + high) / 2
		if _, err := m.Set(s, middle); err == nil {
			low = middle
		} else {
			high = middle
		}
	}
	return 1 / low
}

// remark says what to take care of in a batch.
func (pl *planner) remark(b *Batch, widest *Piece) {
	outside := 2*b.Radius + b.Metal.Thickness
	if b.Barrel > barrelled*outside {
		f := Bows{Piece: widest.ofPart(), Sag: b.Sag, Barrel: b.Barrel}
		for n := 2; n <= mostCourses; n++ {
			across := widest.Across / float64(n)
			if sag := bow(pl.Rolls, pl.machine.Back, across, b.Force/widest.Across); b.Barrel*sag/b.Sag <= barrelled*outside {
				f.Courses, f.Each, f.OfPost = n, across, n*widest.Courses
				break
			}
		}
		pl.say(finding.Caution, widest.Part, f)
	}
	for i := range b.Pieces {
		p := &b.Pieces[i]
		if own := 2*p.edges()[0] + b.Metal.Thickness; p.Closed && own < easy(pl.Rolls, b.Metal.Thickness, b.Share) {
			pl.say(finding.Caution, p.Part, Tight{p.ofPart(), own, pl.Rolls.PinchDiameter, easy(pl.Rolls, b.Metal.Thickness, b.Share)})
		}
		if p.Around < 3*b.Lead.Flat {
			pl.say(finding.Caution, p.Part, ShortRun{p.ofPart(), p.Around, b.Lead.Flat, b.Lead.Former})
		}
	}
}
