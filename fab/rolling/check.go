package rolling

import (
	"slices"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/shop"
)

// handSource is that of pieces that are bent by hand in place of the rolls.
const handSource = "bent by hand, by mallet or in folds: common practice, no source"

const rollsSource = "rolls take a sheet by its thickness squared times its width and yield; common practice, no source"

// checks works out, part by part, whether the rolls take its pieces. What the
// modest shop's rolls do not take is not decided.
func (pl *planner) checks(pieces []Piece) {
	var parts []string
	for i := range pieces {
		if !slices.Contains(parts, pieces[i].Part) {
			parts = append(parts, pieces[i].Part)
		}
	}
	for _, part := range parts {
		c := check.Check{ID: check.Rolls, Part: part, Verdict: check.Undecided, Source: rollsSource, Concern: finding.Work}
		switch {
		case pl.Rolls == nil:
			c.Why = NoRolls{count(pieces, part)}
		case pl.Modest && count(pl.beyond, part) > 0:
			c.Why = shop.NotDescribed{Missing: shop.Missing{Item: shop.Rolls}}
		case count(pl.Refused, part) > 0 && count(pl.beyond, part) == 0:
			c.Verdict, c.Source = check.Holds, handSource
		case count(pl.Refused, part) > 0:
			c.Found, c.Limit, c.AtLeast, c.Unit = pl.over(part)
			c.Verdict = check.Fails
		case !isRated(pl.Rolls.Capacity):
			c.Why = NoRating{}
		default:
			for i := range pieces {
				if p := &pieces[i]; p.Part == part {
					c.Found = max(c.Found, share(pl.Rolls.Capacity, p.Metal, p.Across))
				}
			}
			c.Limit = 1 + hair
			c = c.Judge()
			c.Limit = 1
		}
		pl.Checks = append(pl.Checks, c)
	}
}

// count returns how many pieces of a part there are.
func count(pieces []Piece, part string) int {
	n := 0
	for i := range pieces {
		if pieces[i].Part == part {
			n += pieces[i].Quantity
		}
	}
	return n
}

// over returns the figure of the first reason why a piece of a part is refused, and
// its limit.
func (pl *planner) over(part string) (found, limit float64, atLeast bool, unit check.Unit) {
	for _, f := range pl.Findings {
		r, ok := f.Fact.(Refused)
		if !ok || !slices.Contains(f.Parts, part) {
			continue
		}
		switch why := r.Why[0].(type) {
		case TooTight:
			return why.Outside, why.Least, true, check.Millimetre
		case BeyondReach:
			return why.Radius, why.Tightest, true, check.Millimetre
		case TooShort:
			return why.Around, why.Lead, true, check.Millimetre
		case TooSteep:
			return why.Differ, why.Settable, false, check.Millimetre
		case TooLong:
			return why.Across, why.Width, false, check.Millimetre
		case TooThick:
			return why.Thickness, why.Most, false, check.Millimetre
		case Overload:
			return why.Share, 1, false, check.Ratio
		}
	}
	return float64(count(pl.Refused, part)), 0, false, check.Ratio
}
