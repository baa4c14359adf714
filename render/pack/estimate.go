package pack

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stabile/fab/estimate"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// estimate writes hours and money, and the posts beside pipe.
func (k *pack) estimate(f *sheet.Flow) {
	plan, w := k.job.Plan, k.say()
	e := plan.Estimate
	if len(e.Work) == 0 && e.Money == nil && len(plan.Pipes.Posts)+len(plan.Rolled.Posts) == 0 {
		return
	}
	if len(e.Work) > 0 {
		f.Heading(fmt.Sprintf("About %s hours, between %s and %s: an %s", words.Hours(e.Hours.Likely), words.Hours(e.Hours.Low), words.Hours(e.Hours.High), words.Estimate))
		f.Table(k.workTable(e))
	}
	if m := e.Money; m != nil {
		total := fmt.Sprintf("About %s, between %s and %s: an %s", words.Money(m.Total.Likely, m.Currency), words.Money(m.Total.Low, ""), words.Money(m.Total.High, ""), words.Estimate)
		if !m.Priced() {
			total = "No price for the whole: some items have none"
		}
		f.Heading(total)
		f.Table(k.chargeTable(m))
		if len(m.Unpriced) > 0 {
			k.list(f, "Needed, and without a price here:", []string{w.Unpriced(m.Unpriced)})
		}
		k.list(f, "Not included:", w.OutsideOf(m.Outside))
	} else {
		f.Paragraph("The shop gives no prices: no money is worked out.")
		k.list(f, "Not included, since no rate is given:", w.Facts(e.Left))
	}
	k.pipes(f, &plan.Pipes)
	k.instead(f, &plan.Rolled)
	f.Heading("How it is worked out")
	var rules []string
	for _, r := range e.Rules {
		rules = append(rules, k.sentence(r))
	}
	if plan.Filled.Whole {
		rules = append(rules, "The design describes no shop: machines and times are a modest built-in shop's.")
	} else if len(plan.Filled.Missing) > 0 {
		rules = append(rules, "Of a modest built-in shop: "+words.Missing(plan.Filled.Missing)+".")
	}
	f.Paragraph(strings.Join(rules, " "))
}

// list writes things after a lead; nothing where there are none.
func (k *pack) list(f *sheet.Flow, lead string, things []string) {
	if len(things) > 0 {
		f.Paragraph(lead + " " + strings.Join(things, "; ") + ".")
	}
}

func (k *pack) workTable(e *estimate.Estimate) *sheet.Table {
	end := func(header string) sheet.Column { return sheet.Column{Header: header, Align: ink.End} }
	t := &sheet.Table{Tight: true, Columns: []sheet.Column{{Header: "Work", Wrap: true}, end("How much"), end("Rate"), {Header: "Rate from"}, end("Hours"), end("Low"), end("High")}}
	w := k.say()
	for i := range e.Work {
		l := &e.Work[i]
		whose := "built in"
		if l.Own {
			whose = "the shop's"
		}
		t.Rows = append(t.Rows, []string{words.Capital(string(l.Operation)), unitSign(w.Amount(l)), unitSign(w.Rate(l)), whose, words.Tenths(l.Hours.Likely), words.Tenths(l.Hours.Low), words.Tenths(l.Hours.High)})
	}
	t.Foot = [][]string{{"Total", "", "", "", words.Tenths(e.Hours.Likely), words.Tenths(e.Hours.Low), words.Tenths(e.Hours.High)}}
	return t
}

// tenth writes hours in a column.

func (k *pack) chargeTable(m *estimate.Money) *sheet.Table {
	end := func(header string) sheet.Column { return sheet.Column{Header: header, Align: ink.End} }
	money := "Money"
	if m.Currency != "" {
		money += ", " + m.Currency
	}
	t := &sheet.Table{Tight: true, Columns: []sheet.Column{{Header: "For", Wrap: true}, end("How much"), end("At"), end(money), end("Low"), end("High")}}
	amounts, rates := sums{m.Total.Likely}, sums{}
	for i := range m.Lines {
		amounts = append(amounts, m.Lines[i].Money.Likely)
		if _, rate := k.charged(&m.Lines[i]); m.Lines[i].Unit != ofTheSum {
			rates = append(rates, rate)
		}
	}
	for i := range m.Lines {
		l := &m.Lines[i]
		amount, each := k.charged(l)
		rate := rates.write(each)
		if l.Unit == ofTheSum {
			rate = k.say().Percent(each)
		}
		t.Rows = append(t.Rows, []string{words.Capital(k.say().Fact(l.Item)), amount, rate, amounts.write(l.Money.Likely), amounts.write(l.Money.Low), amounts.write(l.Money.High)})
	}
	if !m.Priced() {
		return t
	}
	t.Foot = [][]string{{"Total", "", "", amounts.write(m.Total.Likely), amounts.write(m.Total.Low), amounts.write(m.Total.High)}}
	return t
}

// charged returns how much there is of what is charged, and the money for each, in
// the units of the job.
func (k *pack) charged(l *estimate.Charge) (amount string, each float64) {
	n, unit, each := l.Quantity, l.Unit, l.Rate
	switch {
	case unit == "sheets" && n == math.Trunc(n):
		return words.Count(int(n), "sheet"), each
	case unit == ofTheSum:
		return words.Money(n, ""), each
	case unit == "kg" && k.units == quantity.Inch:
		lb, _ := quantity.LookupUnit("lb")
		n, unit, each = n/lb.Scale, "lb", each*lb.Scale
	case unit == "m2" && k.units == quantity.Inch:
		ft, _ := quantity.LookupUnit("ft")
		square := ft.Scale * ft.Scale / 1e6 // m2, of a scale in mm
		n, unit, each = n/square, "ft2", each*square
	}
	return quantity.Decimal(n, 2) + " " + unitSign(unit), each
}

// sums are amounts of money that stand in one column, or in several beside each
// other, with as many decimals in each.
type sums []float64

// write writes an amount with the decimals of its column: none where all are whole, or
// so large that hundredths are lost in them.
func (c sums) write(money float64) string {
	whole := !slices.ContainsFunc(c, func(m float64) bool { return m != math.Round(m) })
	large := len(c) > 0 && slices.Max(c) >= largeSum && slices.Min(c) >= 1
	if whole || large {
		return quantity.Decimal(money, 0)
	}
	return fmt.Sprintf("%.2f", money)
}

// largeSum is from where on an estimate is given in whole units of money.
const largeSum = 1000

// ofTheSum is the unit of a charge that is a share of the others.
const ofTheSum = "of the sum"

// unitSign writes a unit as print has it.
func unitSign(s string) string {
	return strings.NewReplacer("m2", "m²", "ft2", "ft²").Replace(s)
}

// pipes sets the posts beside standard pipe.
func (k *pack) pipes(f *sheet.Flow, c *estimate.Comparisons) {
	if len(c.Posts)+len(c.None) == 0 {
		return
	}
	_, box := f.Rest()
	f.Need(wordsHeight(box.Max.X-box.Min.X, func(g *sheet.Flow) { k.pipeWords(g, c) }))
	k.pipeWords(f, c)
}

// instead sets bought posts beside the same rolled.
func (k *pack) instead(f *sheet.Flow, c *estimate.Comparisons) {
	if len(c.Posts) == 0 {
		return
	}
	_, box := f.Rest()
	f.Need(wordsHeight(box.Max.X-box.Min.X, func(g *sheet.Flow) { k.insteadWords(g, c) }))
	k.insteadWords(f, c)
}

func (k *pack) insteadWords(f *sheet.Flow, c *estimate.Comparisons) {
	f.Heading("Bought posts compared with the same rolled")
	end := func(header string) sheet.Column { return sheet.Column{Header: header, Align: ink.End} }
	t := &sheet.Table{Tight: true, Columns: []sheet.Column{{Header: "Post", Wrap: true}, end("Outside,\n" + k.unit()), {Header: "Bought", Wrap: true}, end("Weight"), end("Rolled"), end("Saved by\nrolling")}}
	for i := range c.Posts {
		p := &c.Posts[i]
		bought := "tube"
		if p.Pipe.NPS != "" {
			bought = words.Pipe(p.Pipe)
		}
		t.Rows = append(t.Rows, []string{p.Part, k.fine(p.Outside), bought, k.units.Weight(p.PipeMass), k.units.Weight(p.Mass), k.units.Weight(p.Saved)})
	}
	t.Foot = [][]string{{"Total", "", "", k.units.Weight(c.PipeMass), k.units.Weight(c.Mass), k.units.Weight(c.Saved)}}
	f.Table(t)
	f.Paragraph("Rolled is a tube as wide and as long from the sheet of the post's metal. Neither includes labour.")
}

func (k *pack) pipeWords(f *sheet.Flow, c *estimate.Comparisons) {
	f.Heading("Rolled posts compared with standard pipe")
	if len(c.Posts) > 0 {
		f.Table(k.pipeTable(c))
	}
	k.list(f, "No standard pipe is near in size to:", c.None)
	f.Paragraph("Pipe is plain steel of the nearest outside diameter, as long as the post. Neither includes labour.")
}

func (k *pack) pipeTable(c *estimate.Comparisons) *sheet.Table {
	end := func(header string) sheet.Column { return sheet.Column{Header: header, Align: ink.End} }
	t := &sheet.Table{Tight: true, Columns: []sheet.Column{{Header: "Post", Wrap: true}, end("Outside,\n" + k.unit()), end("Rolled"), {Header: "Nearest pipe", Wrap: true}, end("Outside,\n" + k.unit()), end("Pipe"), end("Saved")}}
	priced := c.Pipes > 0
	var money sums
	if priced {
		t.Columns = append(t.Columns, end("Sheet\ncosts"), end("Pipe\ncosts"))
		for i := range c.Posts {
			money = append(money, c.Posts[i].Pipes)
			if c.Posts[i].Sheet > 0 {
				money = append(money, c.Posts[i].Sheet)
			}
		}
	}
	for i := range c.Posts {
		p := &c.Posts[i]
		row := []string{p.Part, k.fine(p.Outside), k.units.Weight(p.Mass), words.Pipe(p.Pipe), k.fine(p.Pipe.Outside), k.units.Weight(p.PipeMass), k.units.Weight(p.Saved)}
		if priced {
			sheetMoney := "–"
			if p.Sheet > 0 {
				sheetMoney = money.write(p.Sheet)
			}
			row = append(row, sheetMoney, money.write(p.Pipes))
		}
		t.Rows = append(t.Rows, row)
	}
	foot := []string{"Total", "", k.units.Weight(c.Mass), "", "", k.units.Weight(c.PipeMass), k.units.Weight(c.Saved)}
	if priced {
		foot = append(foot, "", money.write(c.Pipes))
	}
	t.Foot = [][]string{foot}
	return t
}
