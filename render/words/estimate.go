package words

import (
	"fmt"
	"strconv"
	"strings"

	"stabile/fab/estimate"
	"stabile/fab/finding"
	"stabile/param/quantity"
	"stabile/param/stock"
)

// Estimate is what every total of time and money is called.
const Estimate = "estimate"

// estimate says facts of package estimate.
func (w Writer) estimate(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case estimate.SheetsOf:
		return fmt.Sprintf("sheets of '%s', %s by %s", f.Metal, w.bare(f.Width), w.Long(f.Length)), true
	case estimate.CutToSize:
		return f.Blank + ", cut to size from '" + f.Metal + "'", true
	case estimate.LengthsOf:
		return f.Metal + ", in lengths of " + w.StockLength(f.Length), true
	case estimate.BoughtBall:
		return f.Part + ", bought", true
	case estimate.Item:
		return [...]string{
			estimate.Filler: "filler", estimate.Gas: "gas, by the hour of welding", estimate.Labour: "labour",
			estimate.FinishFor: "finish, by area", estimate.Markup: "markup",
		}[f], true
	case estimate.Lacking:
		if f.Operation == "" {
			return "hours for the finish '" + string(f.Finish) + "', which is sent out", true
		}
		return "hours for " + string(f.Operation) + ": no rate", true
	case estimate.Outside:
		return [...]string{
			estimate.Drawing: "drawing and design", estimate.AnchorsAndBallast: "anchors and ballast",
			estimate.Stores: "grinding discs, solvents and other small stores", estimate.Transport: "transport, setting up where it will stand and its footing",
			estimate.Engineer: "a licensed engineer's work", estimate.Tax: "tax",
		}[f], true
	case estimate.DressRule:
		return "Dressing at the built-in rate, 150 mm (6 in) of weld a minute: ground flush with a flap disc and blended to the sheet about it. A mirror finish takes two or three times as long, a weld that is not dressed takes none. Common practice, no source", true
	case estimate.HoursRule:
		return "Hours: quantity by rate, line by line. A rate that the shop does not give is a built-in one: common practice, no source", true
	case estimate.RangeRule:
		return "Range: cuts on the shear and settings " + w.spread(f.Steady) + "; what the metal decides, which is raising, fitting, dressing and lifting, " +
			w.spread(f.Loose) + "; all other work " + w.spread(f.Usual) + "; materials " + w.spread(f.Bought) + ", filler " + w.spread(f.Filler) +
			", a finish by area " + w.spread(f.Sent) + ". A line at the shop's own rate keeps " + w.Percent(f.Own) + " of that. What the lines may be out by adds up as independent errors do (square root of the sum of squares, JCGM 100), not all lows or all highs. The shares are common practice, no source", true
	case estimate.NoPrices:
		return "the shop gives no prices: write " + w.priceOf(estimate.Labour) + " and, for each metal, " + w.priceOf(estimate.SheetsOf{Metal: "skin"}), true
	case estimate.NoPlace:
		return "some blanks do not fit on the shop's sheets", true
	case estimate.Unpriced:
		return "no price for " + w.Unpriced(f.Items), true
	}
	return "", false
}

// priceOf returns the line of a design that gives a thing its price, with an
// example of a figure; "" for what has none.
func (w Writer) priceOf(f finding.Fact) string {
	weight, area := "1 kg", "(1 m * 1 m)"
	if w.Units == quantity.Inch {
		weight, area = "1 lb", "(1 ft * 1 ft)"
	}
	switch f := f.(type) {
	case estimate.SheetsOf:
		return "metal " + f.Metal + " { price 2 / " + weight + " }"
	case estimate.CutToSize:
		return "metal " + f.Metal + " { price 2 / " + weight + " }"
	case estimate.LengthsOf:
		if w.Units == quantity.Inch {
			return "price 9 / 1 ft in its posts"
		}
		return "price 20 / 1 m in its posts"
	case estimate.BoughtBall:
		return "ball " + f.Part + " { bought " + w.Weight(f.Mass) + ", price 40 }"
	case estimate.Lacking:
		return map[estimate.Operation]string{
			estimate.ShearSetting: "rates { setup 3 min }", estimate.RollSetting: "rates { setup 3 min }",
			estimate.ShearCut: "rates { cut 2 min }", estimate.Pass: "rates { pass 1 min }", estimate.Fit: "rates { fit 10 min }",
			estimate.Clean: "rates { clean 1 m / 1 min }", estimate.Weld: "rates { weld 75 mm / 1 min }", estimate.Dress: "rates { dress 150 mm / 1 min }",
		}[f.Operation]
	case estimate.Item:
		switch f {
		case estimate.Filler:
			return "rates { filler 20 / " + weight + " }"
		case estimate.Gas:
			return "rates { gas 14 / 1 hr }"
		case estimate.Labour:
			return "rates { labour 55 / 1 hr }"
		case estimate.FinishFor:
			return "price 40 / " + area + " in the finish"
		}
	}
	return ""
}

// Unpriced lists what has no price, each with the line that gives it one. Blanks
// bought cut to size from one metal are one entry.
func (w Writer) Unpriced(list []finding.Fact) string { return strings.Join(w.UnpricedOf(list), "; ") }

// UnpricedOf is Unpriced, as a list.
func (w Writer) UnpricedOf(list []finding.Fact) []string {
	items := []string{}
	at := map[string]int{}          // of a metal in items
	blanks := map[string][]string{} // of a metal
	for _, f := range list {
		c, ok := f.(estimate.CutToSize)
		switch {
		case f == nil:
			continue
		case !ok:
			text := w.Fact(f)
			if f == (estimate.NoPlace{}) {
				text = "blanks that do not fit on the shop's sheets"
			}
			if line := w.priceOf(f); line != "" {
				text += " (" + line + ")"
			}
			items = append(items, text)
			continue
		}
		if len(blanks[c.Metal]) == 0 {
			at[c.Metal] = len(items)
			items = append(items, "")
		}
		blanks[c.Metal] = append(blanks[c.Metal], c.Blank)
		items[at[c.Metal]] = And(blanks[c.Metal]) + ", cut to size from '" + c.Metal + "' (" + w.priceOf(c) + ")"
	}
	return items
}

// Facts returns the sentences of facts.
func (w Writer) Facts(list []finding.Fact) []string {
	texts := make([]string, len(list))
	for i, f := range list {
		texts[i] = w.Fact(f)
	}
	return texts
}

// Notes returns the sentences of notes, each with a capital letter.
func (w Writer) Notes(list []finding.Fact) []string {
	texts := w.Facts(list)
	for i := range texts {
		texts[i] = Capital(texts[i])
	}
	return texts
}

// OutsideOf lists what no plan knows of.
func (w Writer) OutsideOf(list []estimate.Outside) []string {
	texts := make([]string, len(list))
	for i, f := range list {
		texts[i] = w.Fact(f)
	}
	return texts
}

func (w Writer) spread(s estimate.Spread) string {
	return "-" + w.Percent(s.Down) + " and +" + w.Percent(s.Up)
}

// Money returns a sum of money with its currency, in whole units from 100 on and in
// hundredths below.
func Money(sum float64, currency string) string {
	text := quantity.Decimal(sum, 0)
	if sum < 99.995 && quantity.Decimal(sum, 2) != text {
		text = strconv.FormatFloat(sum, 'f', 2, 64)
	}
	if currency == "" {
		return text
	}
	return text + " " + currency
}

// Amount returns how much there is to do of an operation, in shop units.
func (w Writer) Amount(l *estimate.Line) string {
	const foot = 304.8
	x := l.Quantity
	switch {
	case l.Unit == estimate.Count:
		return quantity.Decimal(x, 0)
	case l.Unit == estimate.Length:
		return w.Run(x)
	case l.Unit == estimate.Weight:
		return w.Weight(x)
	case w.Units == quantity.Inch:
		return quantity.Decimal(x/(foot*foot), 1) + " ft2"
	}
	return quantity.Decimal(x/1e6, 2) + " m2"
}

// Rate returns the rate of an operation in shop units.
func (w Writer) Rate(l *estimate.Line) string {
	const foot = 304.8
	switch inch := w.Units == quantity.Inch; {
	case l.Unit == estimate.Length && inch:
		return quantity.Decimal(l.Speed*60e3/25.4, 1) + " in/min"
	case l.Unit == estimate.Length:
		return quantity.Decimal(l.Speed*60e3, 0) + " mm/min"
	case l.Unit == estimate.Weight && inch:
		return quantity.Decimal(l.Each/60*0.45359237, 2) + " min/lb"
	case l.Unit == estimate.Weight:
		return quantity.Decimal(l.Each/60, 2) + " min/kg"
	case l.Unit == estimate.Area && inch:
		return quantity.Decimal(l.Each/60*foot*foot/1e6, 1) + " min/ft2"
	case l.Unit == estimate.Area:
		return quantity.Decimal(l.Each/60, 1) + " min/m2"
	}
	return quantity.Decimal(l.Each/60, 1) + " min each"
}

// Pipe names the size of a standard pipe.
func Pipe(p stock.Pipe) string { return p.String() }
