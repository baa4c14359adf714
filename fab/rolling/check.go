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
	of := make(map[string][]int, len(pieces)) // the pieces of each part
	var parts []string
	for i := range pieces {
		part := pieces[i].Part
		if of[part] == nil {
			parts = append(parts, part)
		}
		of[part] = append(of[part], i)
	}
	refused, beyond := quantities(pl.Refused), quantities(pl.beyond)
	pl.Checks = make([]check.Check, 0, len(parts))
	for _, part := range parts {
		c := check.Check{ID: check.Rolls, Part: part, Verdict: check.Undecided, Source: rollsSource, Concern: finding.Work}
		switch {
		case pl.Rolls == nil:
			n := 0
			for _, i := range of[part] {
				n += pieces[i].Quantity
			}
			c.Why = NoRolls{n}
		case pl.Modest && beyond[part] > 0:
			c.Why = shop.NotDescribed{Missing: shop.Missing{Item: shop.Rolls}}
		case refused[part] > 0 && beyond[part] == 0:
			c.Verdict, c.Source = check.Holds, handSource
		case refused[part] > 0:
			c.Found, c.Limit, c.AtLeast, c.Unit = pl.over(part, refused[part])
			c.Verdict = check.Fails
		case !isRated(pl.Rolls.Capacity):
			c.Why = NoRating{}
		default:
			for _, i := range of[part] {
				p := &pieces[i]
				c.Found = max(c.Found, share(pl.Rolls.Capacity, p.Metal, p.Across))
			}
			c.Limit = 1 + hair
			c = c.Judge()
			c.Limit = 1
		}
		pl.Checks = append(pl.Checks, c)
	}
}

// quantities returns how many pieces there are of each part.
func quantities(pieces []Piece) map[string]int {
	n := make(map[string]int, len(pieces))
	for i := range pieces {
		n[pieces[i].Part] += pieces[i].Quantity
	}
	return n
}

// over returns the figure of the first reason why a piece of a part is refused, and
// its limit; else how many pieces are.
func (pl *planner) over(part string, refused int) (found, limit float64, atLeast bool, unit check.Unit) {
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
	return float64(refused), 0, false, check.Ratio
}
