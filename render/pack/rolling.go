package pack

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stabile/fab/finding"
	"stabile/fab/rolling"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

const rollingCaution = "Rolls draw in fingers, gloves, sleeves and hair. Hands off a hand's width before the pinch; one person cranks."

// rollingCards makes the sheets for the rolls: what holds for all work, a card
// for each batch, and what is worked by hand or elsewhere.
func (k *pack) rollingCards(f *actFlow) {
	plan := k.job.Plan.Rolling
	if len(plan.Batches)+len(plan.Hand)+len(plan.Refused) == 0 {
		return
	}
	f.act("rolling", sheet.Block{Subtitle: "Rolling cards", Document: "Rolling cards", Caution: rollingCaution, DoNotScale: true})
	r := newRollingSheet(k, plan)
	r.first(f.Flow)
	var cards []int
	for i := range plan.Batches {
		if slices.ContainsFunc(plan.Batches[i].Pieces, func(p rolling.Piece) bool { return k.wantsPiece(p.Name) }) {
			cards = append(cards, i)
		}
	}
	r.cards(f.Flow, cards)
	f.Table(r.handTable())
	f.Table(r.refusedTable())
	f.Table(k.findingsTable("Before rolling", plan.Findings))
}

// A rollingSheet is the cards in the making.
type rollingSheet struct {
	*pack
	plan    *rolling.Plan
	printed map[finding.Fact]bool // notes that the first sheet has for all cards of a kind
}

func newRollingSheet(k *pack, plan *rolling.Plan) *rollingSheet {
	return &rollingSheet{pack: k, plan: plan, printed: map[finding.Fact]bool{}}
}

// first writes what holds for all cards, and for all of a kind.
func (r *rollingSheet) first(f *sheet.Flow) {
	if len(r.plan.Batches) == 0 {
		return
	}
	f.Heading("Before the first piece: common practice, no source")
	r.rollsSketch(f)
	for _, n := range r.plan.Notes {
		f.Item("–", ink.Regular, r.sentence(n))
	}
	for _, n := range r.shared(func(*rolling.Batch) bool { return true }) {
		f.Item("–", ink.Regular, r.sentence(n))
	}
	for _, kind := range [...]string{tubes, gores, cones} {
		notes := r.shared(func(b *rolling.Batch) bool { return kindOf(b) == kind })
		if len(notes) == 0 {
			continue
		}
		f.Heading("All " + kind)
		for _, n := range notes {
			f.Item("–", ink.Regular, r.sentence(n))
		}
	}
	r.legend(f)
}

// The kinds of batches, in the plural.
const (
	tubes = "tubes"
	gores = "gores"
	cones = "cones"
)

// kindOf names what a batch is, in the plural.
func kindOf(b *rolling.Batch) string {
	switch {
	case b.Cone != nil:
		return cones
	case b.Pieces[0].Strip:
		return gores
	}
	return tubes
}

// shared returns the notes that all batches of a kind have in common, if there
// are several, and marks them as said.
func (r *rollingSheet) shared(of func(*rolling.Batch) bool) []finding.Fact {
	var notes []finding.Fact
	n := 0
	for i := range r.plan.Batches {
		b := &r.plan.Batches[i]
		if !of(b) {
			continue
		}
		if n++; n == 1 {
			notes = slices.Clone(b.Notes)
		}
		notes = slices.DeleteFunc(notes, func(s finding.Fact) bool { return !slices.Contains(b.Notes, s) || r.printed[s] || inFigures(s) })
	}
	if n < 2 {
		return nil
	}
	for _, s := range notes {
		r.printed[s] = true
	}
	return notes
}

// sentence returns a note as a sentence of a sheet.
func sentence(s string) string { return words.Capital(strings.TrimSuffix(s, ".")) + "." }

// cards writes the cards of batches: what is rolled to which size, with the figures that
// the first sheet explains; then the passes of all, tubes and strips in one table and cones
// in another.
func (r *rollingSheet) cards(f *sheet.Flow, cards []int) {
	if len(cards) == 0 {
		return
	}
	for len(cards) > 0 {
		alike := func(i int) bool { return r.measured(i) == r.measured(cards[0]) }
		var same, others []int
		for _, i := range cards {
			if alike(i) {
				same = append(same, i)
			} else {
				others = append(others, i)
			}
		}
		f.Heading("Cards, " + r.unit() + ": the outside faces down")
		for some := range slices.Chunk(same, mostCards) {
			f.Table(r.cardTable(some))
		}
		f.Table(r.passTable(same))
		r.cardNotes(f, same)
		cards = others
	}
}

// cardNotes writes what single cards have besides.
func (r *rollingSheet) cardNotes(f *sheet.Flow, cards []int) {
	for _, i := range cards {
		b := &r.plan.Batches[i]
		for _, n := range b.Notes {
			if !r.printed[n] && !inFigures(n) {
				f.Item("–", ink.Regular, fmt.Sprintf("Card %d: %s", i+1, r.sentence(n)))
			}
		}
	}
}

// A measures is by what a batch's passes are set.
type measures struct{ cone, turns, lift bool }

func (r *rollingSheet) measured(i int) measures {
	b := &r.plan.Batches[i]
	return measures{b.Cone != nil, b.Of > 0, b.Set}
}

// namesOf lists what is written on pieces, with how many there are.
func namesOf(pieces []rolling.Piece) string {
	var list []string
	for i := range pieces {
		list = append(list, fmt.Sprintf("%d × %s", pieces[i].Quantity, pieces[i].Name))
	}
	return strings.Join(list, ", ")
}

// wanted says what a batch is rolled to.
func (r *rollingSheet) wanted(b *rolling.Batch) string {
	if len(b.Passes) == 0 {
		return "left flat"
	}
	last := &b.Passes[len(b.Passes)-1]
	narrow, wide := last.Edges[0].Check.Outside, last.Edges[1].Check.Outside
	switch {
	case b.Cone != nil:
		return fmt.Sprintf("cone, Ø%s to Ø%s", r.fine(2*narrow), r.fine(2*wide))
	case b.Pieces[0].Strip:
		return "radius " + r.fine(narrow)
	}
	return "Ø" + r.fine(2*narrow)
}

// effort is what the rolls have to carry of what they are rated for, where that is known.
func (r *rollingSheet) effort(b *rolling.Batch) string {
	if b.Share == 0 {
		return ""
	}
	return r.say().UsedUp(b.Share)
}

// passTable lists the passes of batches that are set by the same measures: how to set the
// rolls, and what to measure.
func (r *rollingSheet) passTable(cards []int) *sheet.Table {
	t := &sheet.Table{Tight: true, Abreast: true, Title: "Passes, " + r.unit(), Columns: []sheet.Column{{Header: "Card", Align: ink.End}, {Header: "Pass", Align: ink.End}}}
	m := r.measured(cards[0])
	sides := []string{""}
	if m.cone {
		t.Title = "Passes of cones, " + r.unit()
		sides = []string{"narrow\n", "wide\n"}
	}
	head := func(s string) { t.Columns = append(t.Columns, sheet.Column{Header: s, Align: ink.End}) }
	for _, side := range sides {
		if m.turns {
			head(words.Capital(side + "turns"))
			if !m.cone {
				head("More\nby")
			}
		}
		if m.lift {
			head(words.Capital(side + "lift"))
		}
	}
	for _, side := range sides {
		head(words.Capital(side + "chord"))
		head(words.Capital(side + "rise"))
		if !m.cone {
			head("Inside\nR")
		}
	}
	for _, i := range cards {
		b := &r.plan.Batches[i]
		for p := range b.Passes {
			t.Rows = append(t.Rows, append([]string{strconv.Itoa(i + 1), strconv.Itoa(p + 1)}, r.pass(b, &b.Passes[p], sides)...))
		}
	}
	return t
}

// pass returns the cells of a pass.
func (r *rollingSheet) pass(b *rolling.Batch, p *rolling.Pass, sides []string) (row []string) {
	for e := range sides {
		if b.Of > 0 {
			row = append(row, turned(p.Screws[e].Turns))
			if b.Cone == nil {
				row = append(row, signed(p.Screws[e].Change))
			}
		}
		if b.Set {
			row = append(row, r.fine(p.Edges[e].Lift))
		}
	}
	for e := range sides {
		c := &p.Edges[e].Check
		rule, rise := "–", "–"
		if c.Chord > 0 {
			rule, rise = r.rule(c.Chord), r.fine(c.Rise)
		}
		row = append(row, rule, rise)
		if b.Cone == nil {
			row = append(row, r.fine(c.Inside))
		}
	}
	return row
}

// signed writes turns that are added to those before.
func signed(t rolling.Turns) string {
	if t.Parts > 0 {
		return "+" + t.String()
	}
	return t.String()
}

// turned writes turns from zero: those below it as such, since a minus is lost
// among the strokes of fractions.
func turned(t rolling.Turns) string {
	if s, down := strings.CutPrefix(t.String(), "-"); down {
		return "down " + s
	}
	return t.String()
}

// handTable lists what is domed or dished; nil for nothing.
func (r *rollingSheet) handTable() *sheet.Table {
	if len(r.plan.Hand) == 0 {
		return nil
	}
	t := &sheet.Table{Tight: true, Title: "By hand: not for the rolls", Columns: []sheet.Column{
		{Header: "Pieces", Align: ink.End}, {Header: "Written on them", Wrap: true}, {Header: "Work"},
		{Header: "Radius,\n" + r.unit(), Align: ink.End}, {Header: "Raise,\n" + r.unit(), Align: ink.End}, {Header: "How", Wrap: true},
	}}
	for i := range r.plan.Hand {
		h := &r.plan.Hand[i]
		radius, raise := r.fine(h.Radius), r.fine(h.Crown)
		if h.Egg[0] > 0 {
			radius = "–" // another at each place
		}
		if h.Crown == 0 {
			raise = "–"
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(h.Quantity), h.Name, h.How, radius, raise, r.sentence(h.Note)})
	}
	return t
}

// refusedTable lists what the rolls do not take; nil for nothing. The findings
// say why, and what else to do.
func (r *rollingSheet) refusedTable() *sheet.Table {
	if len(r.plan.Refused) == 0 {
		return nil
	}
	t := &sheet.Table{Tight: true, Title: "NOT for these rolls", Columns: []sheet.Column{
		{Header: "Pieces", Align: ink.End}, {Header: "Written on them", Wrap: true}, {Header: "Metal"},
		{Header: "Along, " + r.unit(), Align: ink.End}, {Header: "Around, " + r.unit(), Align: ink.End}, {Header: "Mean radius, " + r.unit(), Align: ink.End},
	}}
	for i := range r.plan.Refused {
		p := &r.plan.Refused[i]
		t.Rows = append(t.Rows, []string{strconv.Itoa(p.Quantity), p.Name, p.Metal.Name, r.fine(p.Across), r.fine(p.Around), r.fine(p.Radius)})
	}
	return t
}
