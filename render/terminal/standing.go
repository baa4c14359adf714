package terminal

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"stabile/fab/check"
	"stabile/fab/stand"
	"stabile/param/quantity"
	"stabile/render/words"
)

// manyEdges is the number of edges of a footprint up to which all are shown. A
// plate has four; a round base is a polygon of many, of which the worst few
// tell all.
const (
	manyEdges = 8
	worstFew  = 3
)

// standing reports how the whole stands against tipping.
func (r *report) standing() {
	t := r.Tipping
	if t == nil || len(t.Edges) == 0 {
		return
	}
	r.heading("Standing")
	facts := table{columns: []column{{}, {}}}
	if t.Loaded && t.WorstEdge < len(t.Edges) {
		what := "against tipping"
		if t.Anchors > 0 {
			what += " without its anchors"
		}
		facts.add(r.failing(check.Tipping), "factor", fmt.Sprintf("%s %s, %s needed; worst toward %s under %s",
			words.Factor(t.Factor), what, words.Factor(t.Target), side(t.Edges[t.WorstEdge]), r.words().Case(t.WorstCase)))
		if r.Mass.Ballast > 0 {
			facts.add(t.Bare.Factor < stand.LeastFactor && t.Anchors == 0, "bare", fmt.Sprintf("%s without its ballast, under %s", words.Factor(t.Bare.Factor), r.words().Case(t.Bare.Case)))
		}
		if t.Short() {
			facts.add(false, "minimum", fmt.Sprintf("%s by %s (%s)", words.Use(t.Method.LeastFactor()), t.Method.Source, t.Method.Name))
		}
	} else {
		facts.add(false, "factor", "not worked out: the design's site gives no push, no slope and no wind")
	}
	if t.Bare.TipEdge < len(t.Edges) {
		switch e := t.Edges[t.Bare.TipEdge]; {
		case t.Bare.TipAngle > 0:
			text := fmt.Sprintf("a tilt of %s by its own weight alone, toward %s", r.words().Degrees(t.Bare.TipAngle), side(e))
			if r.Mass.Ballast > 0 {
				text += "; " + r.words().Degrees(t.TipAngle) + " with its ballast"
			}
			facts.add(false, "tips at", text)
		case t.TipAngle > 0:
			facts.add(true, "tips at", fmt.Sprintf("once without its ballast, toward %s; at a tilt of %s with it", side(e), r.words().Degrees(t.TipAngle)))
		default:
			facts.add(true, "tips at", fmt.Sprintf("once: its weight lies outside the footprint, toward %s", side(e)))
		}
	}
	if text := r.words().TipsInWind(r.Job); text != "" {
		facts.add(false, "wind", text)
	}
	if s := t.Sliding; s != nil {
		facts.add(false, "slides", fmt.Sprintf("factor %s by friction alone, %s of the weight; worst under %s",
			words.Factor(s.Factor), quantity.Decimal(stand.Friction, 2), r.words().Case(s.Case)))
	}
	switch {
	case t.BallastFails:
		facts.add(true, "ballast", "none would reach the target")
	case t.Ballast > 0:
		facts.add(false, "ballast", r.words().Need(t.Ballast)+" at the middle of the footprint would reach the target")
	}
	r.table(facts)
	r.blank()
	r.edges(t)
}

// edges is the table of edges, or of the worst of many.
func (r *report) edges(t *stand.Tipping) {
	u := r.Design.Units
	order := make([]int, len(t.Edges))
	for i := range order {
		order[i] = i
	}
	if len(order) > manyEdges {
		slices.SortStableFunc(order, func(a, b int) int {
			ea, eb := t.Edges[a], t.Edges[b]
			if t.Loaded {
				return cmp.Compare(worth(ea), worth(eb))
			}
			return cmp.Compare(ea.TipAngle, eb.TipAngle)
		})
		order = order[:worstFew]
	}
	rows := table{columns: []column{
		{"Edge", true}, {"Toward", false}, {"Lever", true}, {"Tips at", true},
		{"Restoring", true}, {"Overturning", true}, {"Factor", true}, {"Worst case", false},
	}}
	for _, i := range order {
		e := t.Edges[i]
		over, f := "none", "-"
		if e.Overturning > 0 {
			over, f = u.Moment(e.Overturning), words.Factor(e.Factor)
		}
		rows.add(t.Loaded && i == t.WorstEdge, strconv.Itoa(i+1), side(e), u.Length(e.Lever, quantity.Coarse),
			quantity.Degrees(e.TipAngle), u.Moment(e.Restoring), over, f, r.words().Case(e.Case))
	}
	r.table(rows)
	if n := len(t.Edges); n > len(order) {
		r.faint(margin, fmt.Sprintf("The worst %d of %d edges.", len(order), n))
	}
}

// worth orders edges from the worst: by factor, those without an overturning
// moment last.
func worth(e stand.Edge) float64 {
	if e.Overturning > 0 {
		return e.Factor
	}
	return math.Inf(1)
}

// side says where an edge of the footprint lies as seen from its middle: by the
// name of the side where it faces one squarely, else by its bearing.
func side(e stand.Edge) string {
	out := math.Atan2(e.From.X-e.To.X, e.To.Y-e.From.Y) // outward of a counter-clockwise polygon
	names := [...]string{"the right", "the back", "the left", "the front"}
	quarter := out / (math.Pi / 2)
	const square = 1e-6 // quarter turns: far under what a bearing is shown to
	if q := math.Round(quarter); math.Abs(quarter-q) < square {
		return names[(int(q)+4)%4]
	}
	return quantity.Bearing(out)
}
