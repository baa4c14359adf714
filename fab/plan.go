package fab

import (
	"slices"

	assemble "stabile/fab/assembly"
	"stabile/fab/check"
	"stabile/fab/estimate"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/rolling"
	"stabile/fab/saw"
	"stabile/fab/sheets"
	workshop "stabile/fab/shop"
	"stabile/param/design"
)

// A Plan is how the shop makes the job: what it is cut from and in what order,
// how it is rolled, welded and put together, and what that takes. It is plain
// data.
type Plan struct {
	Shop     design.Shop     // the design's, filled up
	Filled   workshop.Filled // what of it is not the design's own
	Sheets   *sheets.Plan
	Rolling  *rolling.Plan
	Saw      *saw.Plan // of pipe and tube that is bought; nil where none is
	Assembly *assemble.Plan
	Estimate *estimate.Estimate
	Pipes    estimate.Comparisons // the rolled posts beside standard pipe
	Rolled   estimate.Comparisons // the bought posts beside as long a tube, rolled from their metal
	Checks   []check.Check        // of all of them
	Findings []finding.Finding    // likewise
}

// plan works out the shop's plan, if that has not been done. Unless it is wanted
// whole, only its checks and findings are good: the layouts on sheets, which take
// longest of all, are the first that come, and there is no estimate.
func (b *builder) plan(whole bool) {
	if b.Plan != nil || b.shop != nil && !whole {
		return
	}
	j := b.Job
	d := j.Design
	p := &Plan{}
	p.Shop, p.Filled = workshop.For(d)
	count := 0
	for i := range j.Parts {
		count += len(j.Parts[i].Blanks)
	}
	blanks, rolled := make([]*flat.Blank, 0, count), make([]flat.Blank, 0, count)
	var sawn []saw.Item
	items := make([]assemble.Item, len(j.Parts))
	for i := range j.Parts {
		q := &j.Parts[i]
		for k := range q.Blanks {
			if q.Blanks[k].Bought != nil {
				sawn = append(sawn, saw.Item{Part: q.Part, Blank: &q.Blanks[k]})
				continue
			}
			blanks = append(blanks, &q.Blanks[k])
			rolled = append(rolled, q.Blanks[k])
		}
		items[i] = assemble.Item{
			Part: q.Part, Mass: q.Mass, Low: q.Low, High: q.High, CG: q.CG, Seams: q.Seams, Blanks: q.Blanks, Rims: q.Body.Rims,
		}
		for _, w := range q.Welds {
			items[i].Joints = append(items[i].Joints, assemble.Joint{With: w.With, At: w.At, Length: w.Length})
		}
	}
	p.Sheets = sheets.Make(sheets.Input{Blanks: blanks, Shop: p.Shop, Modest: p.Filled.Sheets, ModestShear: p.Filled.Shear, Places: !whole})
	p.Rolling = rolling.NewPlan(rolled, p.Shop.Rolls, rolling.Options{Units: d.Units, Brake: p.Shop.Brake, Modest: p.Filled.Rolls})
	p.Saw = saw.Make(sawn, p.Shop.Saw)
	p.Assembly = assemble.Make(assemble.Input{Design: d, Ties: j.Ties, Items: items, Welding: p.Shop.Welding})
	if !whole {
		p.find()
		b.shop = p
		return
	}
	in := estimate.Input{Quantities: j.quantities(p), Rates: p.Shop.Rates, Currency: p.Shop.Currency, Finish: d.Finish}
	if d.Shop != nil {
		in.Own = d.Shop.Rates
	}
	if w := p.Shop.Welding; w != nil {
		in.Process = w.Process
	}
	p.Estimate = estimate.Make(in)
	rolledTubes, bought := j.tubes()
	p.Pipes = estimate.Compare(rolledTubes, p.Shop.Rates.Pipe)
	p.Rolled = estimate.CompareBought(bought)
	p.find()
	j.Plan, b.shop = p, p
}

// quantities gathers how much there is to do.
func (j *Job) quantities(p *Plan) estimate.Quantities {
	t := &p.Assembly.Totals
	q := estimate.Quantities{
		ShearSettings: p.Sheets.Settings(),
		ShearCuts:     p.Sheets.Cuts(sheets.ByShear),
		HandCut:       p.Sheets.Curved(sheets.ByShear),
		CutterCut:     p.Sheets.CutterLength() + p.Sheets.Curved(sheets.ByCutter),
		LaidOut:       p.Sheets.Scribed(),
		Clean:         t.Faces,
		RollSettings:  p.Rolling.Settings,
		Passes:        p.Rolling.Runs,
		Fits:          t.Fits - t.Plugs,
		Weld:          t.Weld,
		Dress:         t.Dress,
		Lifts:         t.Lifts,
		Filler:        t.Filler,
		Load:          j.Mass.Total,
		Unplaced:      !p.Sheets.Complete(),
		Materials:     j.materials(p),
	}
	for i := range j.Parts {
		templates, pieces, holes := estimate.LayingOut(j.Parts[i].Blanks)
		q.Templates += templates
		q.LaidOut += pieces
		q.Holes += holes
		q.Raised += estimate.Raised(j.Parts[i].Blanks)
		q.Surface += estimate.Surface(j.Parts[i].Part, j.Parts[i].Blanks)
	}
	if p.Saw != nil {
		q.SawCuts, q.Coped = p.Saw.Cuts(), p.Saw.Coped()
	}
	for i := range p.Rolling.Refused {
		q.Formed += p.Rolling.Refused[i].Quantity
	}
	for i := range p.Rolling.Hand {
		if h := &p.Rolling.Hand[i]; h.How == "bend" {
			q.Formed += h.Quantity
		}
	}
	return q
}

// materials returns what is bought: sheets, size by size, blanks cut to size, and
// bought balls.
func (j *Job) materials(p *Plan) []estimate.Material {
	var list []estimate.Material
	for _, t := range p.Sheets.Taken() {
		list = append(list, estimate.Material{Item: estimate.SheetsOf{Metal: t.Metal.Name, Width: t.Width, Length: t.Length}, Quantity: float64(t.Count), Unit: "sheets", Price: t.Price})
	}
	for _, o := range p.Sheets.Orders {
		list = append(list, estimate.Material{
			Item: estimate.CutToSize{Blank: o.Name, Metal: o.Metal.Name}, Quantity: float64(o.Quantity), Unit: "pieces", Price: o.Money / float64(o.Quantity),
		})
	}
	if p.Saw != nil {
		for i := range p.Saw.Stacks {
			s := &p.Saw.Stacks[i]
			item := estimate.LengthsOf{Pipe: s.Size.Pipe, Outside: s.Size.Outside, Wall: s.Size.Wall, Metal: s.Size.Metal.Name, Length: s.Length}
			price := s.Price * s.Length
			if price == 0 && s.Size.Pipe.NPS != "" {
				price = p.Shop.Rates.Pipe * s.Weight()
			}
			list = append(list, estimate.Material{Item: item, Quantity: float64(len(s.Bars)), Unit: "lengths", Price: price})
		}
	}
	for i := range j.Parts {
		if b := j.Parts[i].Ball; b != nil && b.Build == design.Bought {
			list = append(list, estimate.Material{Item: estimate.BoughtBall{Part: j.Parts[i].Name, Mass: b.BoughtMass}, Quantity: 1, Unit: "pieces", Price: b.Price})
		}
	}
	return list
}

// tubes returns the walls of the posts: those that are rolled, and those of bought ones as
// they would be if they were rolled from their metal.
func (j *Job) tubes() (rolled []estimate.Tube, bought []estimate.BoughtTube) {
	for i := range j.Parts {
		p := &j.Parts[i]
		t, ok := estimate.TubeOf(p.Part, p.Blanks)
		switch {
		case !ok:
		case p.Post.Bought != nil:
			bought = append(bought, estimate.Instead(p.Part, t))
		default:
			rolled = append(rolled, t)
		}
	}
	return rolled, bought
}

// find gathers the checks of the plan and what there is to say of it.
func (p *Plan) find() {
	p.Checks = slices.Concat(p.Sheets.Checks, p.sawn().Checks, p.Rolling.Checks, p.Assembly.Checks, []check.Check{p.costCheck()})
	p.Findings = slices.Concat(p.Sheets.Findings, p.sawn().Findings, p.Rolling.Findings, p.Assembly.Findings)
	switch {
	case p.Filled.Whole:
		p.note(workshop.Modest{
			Shear: p.Shop.Shear.Width, Rolls: p.Shop.Rolls.Width, ShearGauge: p.Shop.Shear.Gauge, RollsGauge: p.Shop.Rolls.Gauge,
		})
	case len(p.Filled.Missing) > 0:
		p.note(workshop.FilledUp{Missing: p.Filled.Missing})
	}
}

// sawn returns the plan of what is sawn, an empty one for none.
func (p *Plan) sawn() *saw.Plan {
	if p.Saw == nil {
		return &saw.Plan{}
	}
	return p.Saw
}

// note adds a note on the shop.
func (p *Plan) note(fact finding.Fact) {
	p.Findings = append(p.Findings, finding.Finding{Level: finding.Note, Concern: finding.Work, Fact: fact})
}

// costCheck checks whether the whole has a price: the likely cost and the highest
// that it may well come to.
func (p *Plan) costCheck() check.Check {
	c := check.Check{ID: check.Cost, Verdict: check.Undecided, Unit: check.Money, Source: "quantity by price, line by line", Concern: finding.Money}
	var m *estimate.Money
	if p.Estimate != nil {
		m = p.Estimate.Money
	}
	switch {
	case !p.Sheets.Complete():
		c.Why = estimate.NoPlace{}
	case p.Estimate == nil:
		c.Why = NotWorkedOut{Result: "cost"}
	case m == nil:
		c.Why = estimate.NoPrices{}
	case !m.Priced():
		c.Why = estimate.Unpriced{Items: m.Unpriced}
	default:
		c.Found, c.Limit = m.Total.Likely, m.Total.High
		c = c.Judge()
	}
	return c
}
