package bench

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/estimate"
	"stabile/param/quantity"
	"stabile/render/words"
)

// A blank is a flat piece to cut, drawn in mm, y down.
type blank struct {
	Name     string     `json:"name"`
	Part     string     `json:"part"`
	Quantity int        `json:"quantity"`
	Size     string     `json:"size"`
	Metal    string     `json:"metal"`
	Weight   string     `json:"weight"` // of one
	Path     string     `json:"path"`
	Box      [4]float64 `json:"box"`
}

// blanks returns every different blank once.
func blanks(j *fab.Job, w words.Writer) []blank {
	list := []blank{}
	for i := range j.Cuts {
		c := &j.Cuts[i]
		b := &c.Blank
		if len(b.Outline) == 0 {
			continue
		}
		p := pen{scale: 1}
		p.path(thinnedTo(b.Outline), true)
		lo, hi := b.Outline[0], b.Outline[0]
		for _, q := range b.Outline {
			lo = r2.Vec{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}
			hi = r2.Vec{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
		}
		for _, h := range b.Holes {
			p.path(thinnedTo(h.Outline), true)
		}
		part := b.Part
		if len(c.Parts) > 0 {
			part = c.Parts[0]
		}
		list = append(list, blank{
			Name: words.Names(c.Names), Part: part, Quantity: c.Quantity, Metal: w.Gauge(b.Metal), Weight: w.Weight(b.Mass),
			Size: w.Units.Rule(b.Width, quantity.Fine) + " x " + w.Fine(b.Length), Path: p.String(),
			Box: [4]float64{tenth(lo.X), tenth(-hi.Y), tenth(hi.X - lo.X), tenth(hi.Y - lo.Y)},
		})
	}
	return list
}

// thinnedTo thins an outline to what can be seen on a page, a quarter of a mm.
func thinnedTo(path []r2.Vec) []r2.Vec {
	if len(path) < 3 {
		return path
	}
	scaled := make([]r2.Vec, len(path))
	for i, p := range path {
		scaled[i] = r2.Scale(0.1, p)
	}
	out := thinned(scaled)
	for i := range out {
		out[i] = r2.Scale(10, out[i])
	}
	return out
}

// A shop is what the job takes of the workshop.
type shop struct {
	Rows  []row  `json:"rows"`
	Work  []line `json:"work"`
	Money []line `json:"money"`
	Note  string `json:"note,omitempty"`
}

type row struct {
	Name string `json:"name"`
	Text string `json:"text"`
}

// A line is one of a bill: what, how much, at what rate, and what it comes to.
type line struct {
	What   string `json:"what"`
	Amount string `json:"amount"`
	Rate   string `json:"rate"`
	Comes  string `json:"comes"`
}

func shopOf(j *fab.Job, w words.Writer) *shop {
	p := j.Plan
	if p == nil {
		return nil
	}
	s := &shop{Rows: []row{}, Work: []line{}, Money: []line{}}
	add := func(name, format string, args ...any) {
		s.Rows = append(s.Rows, row{name, fmt.Sprintf(format, args...)})
	}
	for i := range p.Sheets.Stacks {
		st := &p.Sheets.Stacks[i]
		text := words.Count(st.Count, "sheet")
		if st.Offcuts > 0 {
			text += " and " + words.Count(st.Offcuts, "offcut") + " at hand"
		}
		if st.Fewest() {
			text += ", the fewest possible"
		}
		add(st.Metal.Name, "%s, %s used", text, w.Percent(st.Used))
	}
	if p.Saw != nil {
		for i := range p.Saw.Stacks {
			s := &p.Saw.Stacks[i]
			add(s.Size.Metal.Name, "%s, for %s", w.Lengths(s), words.Count(len(s.Pieces), "piece"))
		}
	}
	for _, o := range p.Sheets.Orders {
		add("buy", "%s, cut to size: %d", o.Name, o.Quantity)
	}
	if r := p.Rolling; len(r.Batches) > 0 {
		add("rolls", "%s, %s, %s", words.Count(len(r.Batches), "batch", "batches"), words.Count(r.Settings, "setting"), words.Count(r.Runs, "pass", "passes"))
	}
	if t := &p.Assembly.Totals; t.Fits > 0 {
		add("welds", "%s in %s; %s of filler", w.Run(t.Weld), words.Count(t.Fits, "seam or joint", "seams and joints"), w.Weight(t.Filler))
	}
	e := p.Estimate
	if len(e.Work) > 0 {
		add("hours", "about %s, between %s and %s, an %s", words.Hours(e.Hours.Likely), words.Hours(e.Hours.Low), words.Hours(e.Hours.High), words.Estimate)
	}
	for i := range e.Work {
		l := &e.Work[i]
		s.Work = append(s.Work, line{string(l.Operation), w.Amount(l), w.Rate(l), words.Hours(l.Hours.Likely) + " h"})
	}
	switch m := e.Money; {
	case m == nil:
		add("money", "not worked out: %s", w.Fact(estimate.NoPrices{}))
	case !m.Priced():
		add("money", "not worked out: no price for %s", w.Unpriced(m.Unpriced))
	default:
		add("money", "about %s, between %s and %s, an %s", words.Money(m.Total.Likely, m.Currency), words.Money(m.Total.Low, ""), words.Money(m.Total.High, ""), words.Estimate)
	}
	if m := e.Money; m != nil {
		for i := range m.Lines {
			c := &m.Lines[i]
			amount := quantity.Decimal(c.Quantity, 1) + " " + c.Unit
			if c.Unit == "kg" {
				amount = w.Weight(c.Quantity)
			}
			s.Money = append(s.Money, line{w.Fact(c.Item), amount, "", words.Money(c.Money.Likely, m.Currency)})
		}
	}
	if f := &p.Filled; f.Whole {
		s.Note = "The design describes no shop: machines, sheets and times are those of a modest one."
	} else if len(f.Missing) > 0 {
		s.Note = "Not given by this shop, so from a modest one: " + words.Missing(f.Missing) + "."
	}
	return s
}
