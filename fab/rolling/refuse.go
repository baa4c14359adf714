package rolling

import (
	"fmt"
	"math"
	"strings"

	"stabile/fab/finding"
	"stabile/fab/shop"
	"stabile/param/quantity"
	"stabile/param/stock"
)

func (pl *planner) find(level finding.Level, part, format string, args ...any) {
	pl.Findings = append(pl.Findings, finding.Finding{Level: level, Part: part, Text: fmt.Sprintf(format, args...)})
}

func (pl *planner) length(mm float64) string { return pl.Units.Length(mm, quantity.Coarse) }

func (pl *planner) fine(mm float64) string { return pl.Units.Length(mm, quantity.Fine) }

// name returns how a finding on its part speaks of a piece, with a space after: not
// at all where the part is that piece.
func (p *Piece) name() string {
	if p.Name == p.Part {
		return ""
	}
	return strings.TrimPrefix(p.Name, p.Part+" ") + " "
}

// percent writes a share in whole percent, rounded up so that none over 100 reads
// as 100.
func percent(x float64) string { return quantity.Decimal(math.Ceil(x*100-1e-6), 0) + " %" }

// usable tells of rolls that nothing can be planned for.
func (pl *planner) usable(pieces []Piece) bool {
	switch r := pl.Rolls; {
	case r == nil:
		count := 0
		for i := range pieces {
			count += pieces[i].Quantity
		}
		pl.find(finding.Caution, "", "the shop has no rolls: %d pieces are to be rolled elsewhere", count)
		return false
	case pl.known && !pl.machine.Meet():
		pl.find(finding.Fault, "", "the measurements of the rolls do not go together: %s from the pinch the back roll would run into the lower pinch roll, which takes %s or more; measure again, level, with the back roll just touching a flat sheet. Settings of the back roll are left out",
			pl.length(pl.machine.Distance), pl.length(2*math.Sqrt(pl.machine.Back*pl.machine.Pinch)))
		pl.known = false
	case !pl.known:
		pl.find(finding.Note, "", "settings of the back roll are left out: they need the rolls' diameters and the distance of the back roll from the pinch, with a slant up to %s", quantity.Degrees(mostSlant))
	case !positive(r.ScrewPitch):
		pl.find(finding.Note, "", "turns of the screws are left out: they need the lift of the back roll for one turn")
	}
	if !isRated(pl.Rolls.Capacity) {
		pl.find(finding.Caution, "", "whether the rolls are strong enough was not checked: they have no rating")
	}
	return true
}

// refuse returns why the rolls do not take a piece, and what else can be done;
// "" if they do. ByHand tells that it is light enough to be bent without them.
func (pl *planner) refuse(p *Piece) (why string, byHand bool) {
	if !p.sound() {
		return "cannot be rolled as given: a size or its metal comes to no number", false
	}
	why = pl.tight(p)
	if over := pl.overload(p); over != "" && (why == "" || 2*p.edges()[0]+p.Metal.Thickness >= Least(pl.Rolls, stripOf(p), p.Closed)*(1-hair)) {
		return over, false // else courses and thinner sheet would not come off either
	}
	return why, true
}

// tight returns why the rolls cannot be set to what a piece asks; "" if they can.
func (pl *planner) tight(p *Piece) string {
	strip := stripOf(p)
	outside := 2*p.edges()[0] + p.Metal.Thickness
	if least := Least(pl.Rolls, strip, p.Closed); outside < least*(1-hair) {
		where := "outside"
		if p.IsCone() {
			where = "outside at its narrow edge"
		}
		what := "the rolls make none of this metal"
		if !math.IsInf(least, 1) {
			what = "the least that comes off the rolls in this metal is " + pl.fine(least)
		}
		return fmt.Sprintf("%sis %s %s: %s; %s", p.name(), pl.fine(outside), where, what, pl.others(p, pl.former(p)))
	}
	if !pl.known {
		return ""
	}
	var travel [2]float64
	var lead float64
	for e, r := range p.edges() {
		set, err := pl.machine.Set(strip, 1/r)
		if err != nil {
			reach := "set as far as they go they leave this sheet flat"
			if tightest := pl.machine.tightest(strip); !math.IsInf(tightest, 1) {
				reach = "the tightest that they can be set to is " + pl.fine(tightest)
			}
			return fmt.Sprintf("%sis too tight for the rolls with a radius of %s to the middle of the sheet: %s; %s; %s",
				p.name(), pl.fine(r), err, reach, pl.others(p, pl.former(p)))
		}
		travel[e], lead = set.Travel, max(lead, set.Lead)
	}
	if p.Around <= lead {
		return fmt.Sprintf("%sis %s long the way it is rolled, less than the %s from the pinch to the back roll, so that nothing would bend it; %s",
			p.name(), pl.length(p.Around), pl.length(lead), pl.others(p, pl.former(p)))
	}
	if p.IsCone() && dropped(screws(travel, p.Across, pl.Rolls.Width)[1], pl.machine) {
		return fmt.Sprintf("%sis too steep a cone for its slant of %s: its edges' radii differ by %s, and the back roll can be set aslant for %s; %s",
			p.name(), pl.length(p.Across), pl.length(p.Edges[1]-p.Edges[0]),
			pl.length(pl.machine.flattest(strip, p, pl.Rolls.Width)), pl.others(p, "bend it over a cone or two pipes, line by line, the lines being those to the apex"))
	}
	return ""
}

// overload tells of a sheet that is too wide or too heavy.
func (pl *planner) overload(p *Piece) string {
	c := pl.Rolls.Capacity
	if !isRated(c) || takes(c, p.Metal, p.Across) {
		return ""
	}
	var why []string
	if p.Across > c.Width*(1+hair) {
		why = append(why, fmt.Sprintf("is %s along the rolls, which are %s wide", pl.length(p.Across), pl.length(c.Width)))
	}
	if p.Metal.Thickness > shop.Thickest*c.Thickness*(1+hair) {
		why = append(why, fmt.Sprintf("is %s thick: over %s the rolls take none, however narrow", pl.Units.Exact(p.Metal.Thickness), pl.Units.Exact(shop.Thickest*c.Thickness)))
	} else if load := share(c, p.Metal, p.Across); load > 1+hair {
		why = append(why, fmt.Sprintf("asks %s of what the rolls are rated for", percent(load)))
	}
	var ways []string
	if n := courses(c, p.Metal, p.Across); n > 1 {
		each := p.Across / float64(n)
		ways = append(ways, fmt.Sprintf("split it into %d courses of %s along the rolls, %s of the rating each", n, pl.length(each), percent(share(c, p.Metal, each))))
	}
	if g, t := thinner(c, p.Metal, p.Across); g > 0 {
		ways = append(ways, fmt.Sprintf("take %d gauge (%s) or thinner", g, pl.Units.Exact(t)))
	} else if t > 0 {
		// The limit is rounded down so that what is said does pass.
		ways = append(ways, fmt.Sprintf("take sheet of %s or thinner", pl.Units.Exact(t-0.02)))
	}
	return p.name() + strings.Join(why, ", and ") + "; " + pl.others(p, ways...)
}

// others joins ways to do without the rolls to those given.
func (pl *planner) others(p *Piece, ways ...string) string {
	if way := pl.folds(p); way != "" {
		ways = append(ways, way)
	}
	return strings.Join(append(ways, pl.bought(p)), "; or ")
}

// former tells of bending by hand.
func (pl *planner) former(p *Piece) string {
	t := p.Metal.Thickness
	over := 2*stripOf(p).LoadedRadius(p.edges()[0]) - t
	if !(over > t) {
		return "shape it by hand over a stake"
	}
	return fmt.Sprintf("bend it by mallet over a pipe or bar of %s outside, from which it springs back", pl.length(over))
}

// facet is the depth in mm that folds may leave between them and a curve.
const facet = 0.25

// folds tells of the brake, if the shop has one that takes the piece: folds so
// near that the flats between them, s wide, are s^2 / 8 R deep.
func (pl *planner) folds(p *Piece) string {
	if pl.Brake == nil || !isRated(pl.Brake.Capacity) || !takes(pl.Brake.Capacity, p.Metal, p.Across) {
		return ""
	}
	apart := math.Sqrt(8 * facet * p.edges()[0])
	n := math.Ceil(p.Around/apart) - 1
	if !(n >= 1 && n < 1e4) {
		return ""
	}
	return fmt.Sprintf("make %d small folds on the brake, one every %s", int(n), pl.length(p.Around/(n+1)))
}

// pipeNear is the share by which bought pipe may differ in diameter to be worth
// telling.
const pipeNear = 0.05

// bought tells what to ask for elsewhere.
func (pl *planner) bought(p *Piece) string {
	outside := 2*p.Radius + p.Metal.Thickness
	if p.Metal.Is().Pipe && p.Closed && !p.IsCone() {
		if pipe := stock.NearestPipe(outside); math.Abs(pipe.Outside-outside) <= pipeNear*outside {
			return fmt.Sprintf("buy it in: standard pipe NPS %s is %s outside", pipe.NPS, pl.Units.Exact(pipe.Outside))
		}
	}
	return fmt.Sprintf("buy it in, rolled where sheet of %s is rolled %s wide to %s outside", pl.Units.Exact(p.Metal.Thickness), pl.length(p.Across), pl.fine(outside))
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

// remark tells what to take care of in a batch.
func (pl *planner) remark(b *Batch, widest *Piece) {
	outside := 2*b.Radius + b.Metal.Thickness
	if b.Barrel > barrelled*outside {
		narrower := ""
		for n := 2; n <= mostCourses; n++ {
			across := widest.Across / float64(n)
			if sag := bow(pl.Rolls, pl.machine.Back, across, b.Force/widest.Across); b.Barrel*sag/b.Sag <= barrelled*outside {
				narrower = fmt.Sprintf(", or roll it in %d courses of %s", n, pl.length(across))
				break
			}
		}
		pl.find(finding.Caution, widest.Part, "%sbows the back roll by %s if that is a solid bar on two bearings, and comes out some %s larger in diameter in the middle than at its ends; pack the middle with strips of card or thin sheet between back roll and sheet%s",
			widest.name(), pl.Units.Exact(b.Sag), pl.length(b.Barrel), narrower)
	}
	for i := range b.Pieces {
		p := &b.Pieces[i]
		if own := 2*p.edges()[0] + b.Metal.Thickness; p.Closed && own < easy(pl.Rolls, b.Metal.Thickness, b.Share) {
			pl.find(finding.Caution, p.Part, "%sis %s outside: tight for rolls of %s, on which work under %s is hard to close and to slip off",
				p.name(), pl.fine(own), pl.length(pl.Rolls.PinchDiameter), pl.length(easy(pl.Rolls, b.Metal.Thickness, b.Share)))
		}
		if p.Around < 3*b.Lead.Flat {
			pl.find(finding.Caution, p.Part, "%sis only %s long the way it is rolled, and each run leaves %s of it flat at the end that goes in: bend its ends first over a pipe of %s outside",
				p.name(), pl.length(p.Around), pl.length(b.Lead.Flat), pl.length(b.Lead.Former))
		}
	}
}
