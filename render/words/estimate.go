package words

import (
	"fmt"
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
	case estimate.HoursRule:
		return "Hours: quantity by rate, line by line. A rate that the shop does not give is a built-in one: common practice, no source", true
	case estimate.RangeRule:
		return "Range: cuts on the shear and settings " + spread(f.Steady) + "; what the metal decides, which is raising, fitting, dressing and lifting, " +
			spread(f.Loose) + "; all other work " + spread(f.Usual) + "; materials " + spread(f.Bought) + ", filler " + spread(f.Filler) +
			", a finish by area " + spread(f.Sent) + ". Lows add up to the low and highs to the high, as if all went well or ill together. Common practice, no source", true
	case estimate.NoPrices:
		return "the shop gives no prices: write those of sheet and labour in a shop", true
	case estimate.NoPlace:
		return "some blanks have no place on the shop's sheets", true
	case estimate.Unpriced:
		return "there is no price for " + w.Unpriced(f.Items), true
	}
	return "", false
}

// Unpriced lists what has no price. Blanks bought cut to size from one metal are
// one entry.
func (w Writer) Unpriced(list []finding.Fact) string {
	var items []string
	at := map[string]int{}          // of a metal in items
	blanks := map[string][]string{} // of a metal
	for _, f := range list {
		c, ok := f.(estimate.CutToSize)
		switch {
		case f == nil:
			continue
		case !ok:
			items = append(items, w.Fact(f))
			continue
		}
		if len(blanks[c.Metal]) == 0 {
			at[c.Metal] = len(items)
			items = append(items, "")
		}
		blanks[c.Metal] = append(blanks[c.Metal], c.Blank)
		items[at[c.Metal]] = And(blanks[c.Metal]) + ", cut to size from '" + c.Metal + "'"
	}
	return strings.Join(items, "; ")
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
		texts[i] = capital(texts[i])
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

func spread(s estimate.Spread) string {
	return "-" + quantity.Decimal(100*s.Down, 0) + " % and +" + quantity.Decimal(100*s.Up, 0) + " %"
}

// Money returns a sum of money with its currency, in whole units from 100 on and in
// hundredths below.
func Money(sum float64, currency string) string {
	decimals := 0
	if sum < 100 {
		decimals = 2
	}
	text := quantity.Decimal(sum, decimals)
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
	case l.Unit == estimate.Area && inch:
		return quantity.Decimal(l.Each/60*foot*foot/1e6, 1) + " min/ft2"
	case l.Unit == estimate.Area:
		return quantity.Decimal(l.Each/60, 1) + " min/m2"
	}
	return quantity.Decimal(l.Each/60, 1) + " min each"
}

// Run returns a long length in mm, such as of all welds: to a tenth of a foot or of
// a metre.
func (w Writer) Run(mm float64) string {
	if w.Units == quantity.Inch {
		return quantity.Decimal(mm/304.8, 1) + " ft"
	}
	return quantity.Decimal(mm/1e3, 1) + " m"
}

// Pipe names the size of a standard pipe.
func Pipe(p stock.Pipe) string {
	if p.Schedule == "STD" {
		return "NPS " + p.NPS + " STD"
	}
	return "NPS " + p.NPS + " schedule " + p.Schedule
}
