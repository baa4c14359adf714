package words

import (
	"fmt"
	"math"

	"stabile/fab/finding"
	"stabile/fab/saw"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/stock"
)

// saw says facts of package saw.
func (w Writer) saw(f finding.Fact) (string, bool) {
	if f, ok := f.(saw.TooLong); ok {
		return fmt.Sprintf("%s long, and what it is cut from is %s: buy longer lengths and say so, as in stock %s, or weld it up from two",
			w.Fine(f.Length), w.Long(f.Stock), w.AtLeast(f.Length)), true
	}
	return "", false
}

// bought names pipe or tube.
func bought(p stock.Pipe) string {
	if p.NPS == "" {
		return "tube"
	}
	return Pipe(p)
}

// Bought says what a post is cut from that is not rolled: "bought pipe"; "" for a rolled
// one.
func Bought(p *design.Post) string {
	switch {
	case p.Bought == nil:
		return ""
	case p.Bought.IsPipe():
		return "bought pipe"
	}
	return "bought tube"
}

// SawEnd says how an end of a piece is cut: "square", "23.5° off square", "coped" or
// "square: file to fit within 0.011 in".
func (w Writer) SawEnd(e saw.End) string {
	switch {
	case e.Coped:
		return "coped"
	case e.Angle > 0:
		return w.Degrees(e.Angle) + " off square"
	case e.Filed > 0:
		return "square: file to fit within " + w.Units.Exact(e.Filed)
	}
	return "square"
}

// Lengths says how many lengths of a size to buy: "2 lengths of 20 ft, proven fewest".
func (w Writer) Lengths(s *saw.Stack) string {
	return Count(len(s.Bars), "length") + " of " + w.StockLength(s.Length) + ", " + fewest(s)
}

func fewest(s *saw.Stack) string {
	if s.Proven() {
		return "proven fewest"
	}
	return fmt.Sprintf("at least %d needed", s.Bound)
}

// StockLength returns a length in which pipe is bought, in whole feet or metres where it
// is so long.
func (w Writer) StockLength(mm float64) string {
	size, unit := 1000.0, " m"
	if w.Units == quantity.Inch {
		size, unit = 304.8, " ft"
	}
	if n := mm / size; n >= 1 && math.Abs(n-math.Round(2*n)/2) < 1e-6 {
		return quantity.Decimal(n, 1) + unit
	}
	return w.Long(mm)
}

// Weighs says that one thing or several weigh so much.
func Weighs(n int, weight string) string {
	if n == 1 {
		return "weighs " + weight
	}
	return "weigh " + weight
}
