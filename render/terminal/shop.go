package terminal

import (
	"fmt"
	"slices"

	"stabile/fab"
	"stabile/fab/estimate"
	"stabile/fab/rolling"
	"stabile/fab/sheets"
	"stabile/param/quantity"
	"stabile/render/words"
)

// shop reports what the job needs of the shop: sheets, rolls, welds, hours and
// money; nothing where no plan was asked for.
func (r *report) shop() {
	p := r.Plan
	if p == nil {
		return
	}
	r.heading("Shop")
	t := table{columns: []column{{}, {}}}
	for i := range p.Sheets.Stacks {
		r.sheets(&t, &p.Sheets.Stacks[i])
	}
	var bought kinds
	for _, o := range p.Sheets.Orders {
		bought.add(o.Name, o.Quantity)
	}
	if bought.pieces > 0 {
		t.add(false, "buy", bought.counted()+" cut to size: "+bought.listed())
	}
	if p.Saw != nil {
		for i := range p.Saw.Stacks {
			s := &p.Saw.Stacks[i]
			t.add(len(s.Long) > 0, s.Size.Metal.Name, fmt.Sprintf("%s: %s, %s", r.words().Lengths(s), words.Count(len(s.Pieces), "piece"), r.words().Run(s.Cut())))
		}
	}
	if n := len(p.Rolling.Batches); n > 0 {
		t.add(false, "rolls", fmt.Sprintf("%s, %s of the rolls, %s", words.Count(n, "batch", "batches"), words.Count(p.Rolling.Settings, "setting"), words.Count(p.Rolling.Runs, "pass", "passes")))
	}
	var refused, hand kinds
	for i := range p.Rolling.Refused {
		refused.add(p.Rolling.Refused[i].Name, p.Rolling.Refused[i].Quantity)
	}
	for i := range p.Rolling.Hand {
		hand.add(p.Rolling.Hand[i].Name, p.Rolling.Hand[i].Quantity)
	}
	if refused.pieces > 0 {
		t.add(true, "", refused.counted()+" that these rolls do not take: see the findings")
	}
	if hand.pieces > 0 {
		work := " domed or dished"
		if slices.ContainsFunc(p.Rolling.Hand, func(h rolling.Handwork) bool { return h.How == "bend" }) {
			work = " domed, dished or bent"
		}
		t.add(false, "by hand", hand.counted()+work)
	}
	a := &p.Assembly.Totals
	if a.Fits > 0 {
		t.add(false, "welds", fmt.Sprintf("%s in %s, %s of filler; %s of edge to clean", r.words().Run(a.Weld), words.Count(a.Fits, "seam or joint", "seams and joints"), r.Design.Units.Weight(a.Filler), r.words().Run(a.Edge)))
	}
	r.estimate(&t, p)
	if c := &p.Pipes; len(c.Posts) > 0 {
		u := r.Design.Units
		t.add(false, "pipe", fmt.Sprintf("standard pipe for %s would weigh %s, rolled %s: %s saved", words.Count(len(c.Posts), "post"), u.Weight(c.PipeMass), u.Weight(c.Mass), u.Weight(c.Saved)))
	}
	if c := &p.Rolled; len(c.Posts) > 0 {
		u := r.Design.Units
		t.add(false, "bought", fmt.Sprintf("%s of pipe or tube %s, rolled from sheet %s", words.Count(len(c.Posts), "post"), words.Weighs(len(c.Posts), u.Weight(c.PipeMass)), u.Weight(c.Mass)))
	}
	r.table(t)
	switch f := &p.Filled; {
	case f.Whole:
		r.faint(margin, "The design describes no shop: machines, sheets and times are those of a modest one.")
	case len(f.Missing) > 0:
		r.faint(margin, "Not given by this shop, so from a modest one: "+words.Missing(f.Missing)+".")
	}
}

// sheets reports what is taken of a metal.
func (r *report) sheets(t *table, st *sheets.Stack) {
	take := words.Count(st.Count, "sheet")
	if st.Offcuts > 0 {
		take += " and " + words.Count(st.Offcuts, "offcut") + " at hand"
	}
	text := take
	if st.Bound > 0 {
		text += fewest(st)
	}
	text += ", " + r.words().Percent(st.Used) + " used"
	if st.Way == sheets.ByCutter {
		text += ", by the cutter"
	}
	if left := r.largest(st); left != "" {
		text += "; largest offcut " + left
	}
	t.add(false, "'"+st.Metal.Name+"'", text)
	if len(st.Left) > 0 {
		n := 0
		for _, l := range st.Left {
			n += l.Count
		}
		t.add(true, "", words.Count(n, "piece has", "pieces have")+" no place: see the findings")
	}
}

// largest writes the largest offcut of a stack, or nothing.
func (r *report) largest(st *sheets.Stack) string {
	u := r.Design.Units
	text, most := "", 0.0
	for i := range st.Sheets {
		if left := st.Sheets[i].Left; len(left) > 0 && left[0].Area() > most {
			most = left[0].Area()
			text = u.Rule(left[0].Height, quantity.Coarse) + " by " + u.Length(left[0].Width, quantity.Coarse)
		}
	}
	return text
}

// estimate tells hours and money.
func (r *report) estimate(t *table, p *fab.Plan) {
	e := p.Estimate
	if len(e.Work) > 0 {
		h := e.Hours
		t.add(false, "hours", fmt.Sprintf("about %s, between %s and %s, an %s", words.Hours(h.Likely), words.Hours(h.Low), words.Hours(h.High), words.Estimate))
	}
	m := e.Money
	if m == nil {
		t.add(false, "cost", "not worked out: "+r.words().Fact(estimate.NoPrices{}))
		return
	}
	if !m.Priced() {
		t.add(false, "cost", "not worked out: no price for "+r.words().Unpriced(m.Unpriced))
		return
	}
	text := fmt.Sprintf("about %s, between %s and %s, an %s", words.Money(m.Total.Likely, m.Currency), words.Money(m.Total.Low, ""), words.Money(m.Total.High, ""), words.Estimate)
	if m.Currency == "" {
		text += "; the shop names no currency"
	}
	t.add(false, "cost", text)
}

// fewest says of a stack how few sheets could do, as far as that is proven.
func fewest(st *sheets.Stack) string {
	if st.Fewest() {
		return ", the fewest possible"
	}
	return fmt.Sprintf("; at least %d are needed", st.Bound)
}

// words returns the writer of the report's units.
func (r *report) words() words.Writer { return words.In(r.Design.Units) }
