package estimate

import (
	"stabile/fab/finding"
	"stabile/param/design"
)

// A Charge is one line of money: so much of it, at a price.
type Charge struct {
	Item     finding.Fact // a Material's, or an Item
	Quantity float64
	Unit     string  // "sheets", "kg", "h", "m2", or "of the sum" for a share
	Rate     float64 // money for each unit; of a share the share
	Money    Range
}

// charge works out the money; none where nothing has a price.
func (e *Estimate) charge(in *Input) {
	q, r := &in.Quantities, &in.Rates
	m := &Money{Currency: in.Currency, Outside: []Outside{Drawing, AnchorsAndBallast, Stores, Transport, Engineer, Tax}}
	add := func(item finding.Fact, n float64, unit string, price float64, of Range) {
		switch {
		case !good(n):
		case !good(price) || !good(of.High*price):
			m.Unpriced = append(m.Unpriced, item)
		default:
			m.Lines = append(m.Lines, Charge{Item: item, Quantity: n, Unit: unit, Rate: price, Money: of.times(price)})
		}
	}
	for _, b := range q.Materials {
		add(b.Item, b.Quantity, b.Unit, b.Price, bought.about(b.Quantity))
	}
	add(Filler, q.Filler, "kg", r.Filler, fed.about(q.Filler))
	if arc := e.hours(Weld); good(arc.Likely) && in.Process != design.Stick {
		add(Gas, arc.Likely, "h", r.Gas, arc)
	}
	add(Labour, e.Hours.Likely, "h", r.Labour, e.Hours)
	if f := in.Finish; f != nil {
		area := q.Surface / 1e6
		// Where the shop does it by itself its hours are in the labour.
		if good(f.Price) || e.hours(Finish) == (Range{}) {
			add(FinishFor, area, "m2", f.Price, sent.about(area))
		}
	}
	for _, f := range e.Left {
		if l, ok := f.(Lacking); !ok || l.Operation != "" { // a finish that is sent out is in already
			m.Unpriced = append(m.Unpriced, f)
		}
	}
	if q.Unplaced {
		m.Unpriced = append(m.Unpriced, NoPlace{})
	}
	if len(m.Lines) == 0 {
		return
	}
	e.Money = m
	if !m.Priced() {
		return
	}
	m.Total = e.total(m.Lines)
	if good(r.Markup) && good(m.Total.High*r.Markup) {
		m.Lines = append(m.Lines, Charge{Item: Markup, Quantity: m.Total.Likely, Unit: "of the sum", Rate: r.Markup, Money: m.Total.times(r.Markup)})
		m.Total = m.Total.times(1 + r.Markup)
	}
}

// total adds up the lines of money. Labour and gas both go by the hours of welding:
// what those may come out at counts once, at the price of both together.
func (e *Estimate) total(lines []Charge) Range {
	list := e.times(func(*Line) float64 { return 0 })
	for _, c := range lines {
		switch c.Item {
		case Labour, Gas:
		default:
			list = append(list, c.Money)
			continue
		}
		for i := range e.Work {
			if h := e.Work[i].Hours; c.Item == Labour || e.Work[i].Operation == Weld {
				list[i] = Range{list[i].Low + c.Rate*h.Low, list[i].Likely + c.Rate*h.Likely, list[i].High + c.Rate*h.High}
			}
		}
	}
	return sum(list)
}

// hours returns the hours of an operation.
func (e *Estimate) hours(op Operation) Range {
	for _, l := range e.Work {
		if l.Operation == op {
			return l.Hours
		}
	}
	return Range{}
}

// Priced reports whether the total is a price for the whole: nothing that the
// design needs is left out for want of a price or a rate.
func (m *Money) Priced() bool { return m != nil && len(m.Unpriced) == 0 }
