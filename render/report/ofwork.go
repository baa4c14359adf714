package report

import (
	"stabile/fab"
	"stabile/fab/estimate"
	"stabile/fab/rolling"
	"stabile/render/words"
)

// workOf writes down what is done to the blanks after they are cut, and what
// it takes.
func workOf(say words.Writer, p *fab.Plan, out *Shop) {
	for i := range p.Rolling.Batches {
		out.Rolling = append(out.Rolling, batchOf(say, &p.Rolling.Batches[i]))
	}
	for _, h := range p.Rolling.Hand {
		out.Hand = append(out.Hand, Handwork{
			Quantity: Quantity{h.Name, h.Part, h.Quantity}, How: h.How, Radius: six(h.Radius), Crown: six(h.Crown),
		})
	}
	for i := range p.Assembly.Welds {
		w := &p.Assembly.Welds[i]
		out.Welds = append(out.Welds, Seam{
			Number: w.Number, Kind: w.Kind.String(), Part: w.Part, With: w.With, At: w.At, Count: w.Count, Length: six(w.Length),
			Tacks: w.Tacks.Number(), Spacing: six(w.Tacks.Spacing), Filler: six(w.Filler), Rod: six(w.Rod),
		})
	}
	for _, s := range p.Assembly.Steps {
		step := Step{Number: s.Number, Work: s.Work.String(), Parts: append([]string{}, s.Parts...), Text: say.Fact(s.Do) + ".", Notes: say.Notes(s.Notes)}
		if s.Lift != nil {
			step.Lift, step.Heavy, step.Prop = pointer(s.Lift.Mass), s.Lift.Heavy, s.Lift.Prop
		}
		out.Steps = append(out.Steps, step)
	}
	for _, s := range p.Assembly.Spaces {
		out.Spaces = append(out.Spaces, Space{
			Parts: append([]string{}, s.Parts...), Volume: six(s.Volume), Holes: s.Holes, Vent: six(s.Vent), Dip: six(s.Dip), Step: s.Step,
		})
	}
	for _, l := range p.Estimate.Work {
		w := Work{
			Operation: string(l.Operation), Each: six(l.Each), Speed: six(l.Speed), Own: l.Own,
			Hours: six(l.Hours.Likely), Low: six(l.Hours.Low), High: six(l.Hours.High),
		}
		switch l.Unit {
		case estimate.Length:
			w.Length = pointer(l.Quantity)
		case estimate.Area:
			w.Area = pointer(l.Quantity)
		case estimate.Weight:
			w.Mass = pointer(l.Quantity)
		default:
			w.Count = pointer(l.Quantity)
		}
		out.Work = append(out.Work, w)
	}
	out.Cost = costOf(say, p.Estimate.Money)
	for i := range p.Pipes.Posts {
		out.Pipes = append(out.Pipes, tubePipeOf(&p.Pipes.Posts[i]))
	}
	for i := range p.Rolled.Posts {
		out.Instead = append(out.Instead, tubePipeOf(&p.Rolled.Posts[i]))
	}
}

func tubePipeOf(c *estimate.Comparison) TubePipe {
	r := TubePipe{Part: c.Part, Mass: six(c.Mass), PipeMass: six(c.PipeMass), Saved: six(c.Saved), Outside: six(c.Outside + c.Off)}
	if c.Pipe.NPS != "" {
		r.Pipe = words.Pipe(c.Pipe)
	}
	if c.Sheet > 0 {
		r.Sheet = pointer(c.Sheet)
	}
	if c.Pipes > 0 {
		r.Money = pointer(c.Pipes)
	}
	return r
}

func batchOf(w words.Writer, b *rolling.Batch) Batch {
	out := Batch{
		Metal: b.Metal.Name, Pieces: []Quantity{}, Radius: six(b.Radius), Load: six(b.Share),
		Passes: []Pass{}, Flat: six(b.Lead.Flat), Notes: w.Notes(b.Notes),
	}
	if b.Cone != nil {
		out.Edges = &Point2{six(b.Edges[0]), six(b.Edges[1])}
	}
	for _, p := range b.Pieces {
		out.Pieces = append(out.Pieces, Quantity{p.Name, p.Part, p.Quantity})
	}
	for _, p := range b.Passes {
		pass := Pass{Chord: six(p.Edges[0].Check.Chord), Rise: six(p.Edges[0].Check.Rise)}
		for e := range p.Edges {
			pass.Loaded[e], pass.Released[e] = six(p.Edges[e].Loaded), six(p.Edges[e].Released)
			pass.Lift[e], pass.Turns[e] = six(p.Edges[e].Lift), six(p.Screws[e].Turns.Turns())
		}
		out.Passes = append(out.Passes, pass)
	}
	return out
}

func costOf(w words.Writer, m *estimate.Money) *Cost {
	if m == nil {
		return nil
	}
	out := &Cost{
		Currency: m.Currency, Lines: []Charge{}, Unpriced: w.UnpricedOf(m.Unpriced), Outside: w.OutsideOf(m.Outside),
	}
	if m.Priced() {
		out.Total, out.Low, out.High = pointer(m.Total.Likely), pointer(m.Total.Low), pointer(m.Total.High)
	}
	for _, c := range m.Lines {
		out.Lines = append(out.Lines, Charge{
			Name: w.Fact(c.Item), Quantity: six(c.Quantity), Unit: c.Unit, Rate: six(c.Rate),
			Money: six(c.Money.Likely), Low: six(c.Money.Low), High: six(c.Money.High),
		})
	}
	return out
}
