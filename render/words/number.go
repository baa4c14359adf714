package words

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"stabile/param/design"
	"stabile/param/quantity"
)

// Each kind of figure is written in one way everywhere, to a stated step.

// Long returns a length in mm in the step of general work, 1/16 in or 0.5 mm,
// with its unit.
func (w Writer) Long(mm float64) string { return w.Units.Length(mm, quantity.Coarse) }

// Fine returns a length in mm in the step of flats, 1/32 in or 0.1 mm, with its
// unit.
func (w Writer) Fine(mm float64) string { return w.Units.Length(mm, quantity.Fine) }

// AtLeast returns a length in mm that must not be fallen short of: rounded up to
// the next step of a rule, 1/16 in or 1 mm.
func (w Writer) AtLeast(mm float64) string {
	step := 1.0
	if w.Units == quantity.Inch {
		step = w.Units.Step(quantity.Coarse)
	}
	return w.Long(math.Ceil(mm/step-1e-9) * step)
}

// Thickness returns the thickness of sheet in mm as it is bought: a fraction of an
// inch where it is a whole number of 1/64 in, else a decimal to 0.0001 in, in which
// gauges differ, or to 0.01 mm; with its unit.
func (w Writer) Thickness(mm float64) string {
	if w.Units == quantity.Inch {
		return w.BareThickness(mm) + " in"
	}
	return w.BareThickness(mm) + " mm"
}

// BareThickness is Thickness without the unit, for places where it is given once.
func (w Writer) BareThickness(mm float64) string {
	const same = 1e-3 // mm: far under what the decimal resolves
	if w.Units != quantity.Inch {
		return quantity.Decimal(mm, 2)
	}
	if n := mm / 25.4 * 64; math.Abs(n-math.Round(n))*25.4/64 < same {
		return quantity.Fraction(mm/25.4, 64)
	}
	return quantity.Decimal(mm/25.4, 4)
}

// Gauge returns a metal's gauge with its thickness, "18 gauge (0.0478 in)", or its
// thickness where it has no gauge. It is "" without a metal.
func (w Writer) Gauge(m *design.Metal) string {
	switch {
	case m == nil:
		return ""
	case m.Gauge != 0:
		return fmt.Sprintf("%d gauge (%s)", m.Gauge, w.Thickness(m.Thickness))
	case m.Ounces != 0:
		return fmt.Sprintf("%d oz (%s)", m.Ounces, w.Thickness(m.Thickness))
	}
	return w.Thickness(m.Thickness)
}

// Sheet returns a metal's gauge, or its thickness where it has none: "18 gauge",
// "3/8 in". It is "" without a metal.
func (w Writer) Sheet(m *design.Metal) string {
	switch {
	case m == nil:
		return ""
	case m.Gauge != 0:
		return fmt.Sprintf("%d gauge", m.Gauge)
	case m.Ounces != 0:
		return fmt.Sprintf("%d oz", m.Ounces)
	}
	return w.Thickness(m.Thickness)
}

// Weight returns a mass in kg to three significant figures, with its unit.
func (w Writer) Weight(kg float64) string { return w.Units.Weight(kg) }

// Need returns a mass in kg that must not be fallen short of: rounded up to the
// next whole pound or kilogram.
func (w Writer) Need(kg float64) string {
	u, _ := w.Units.UnitOf(quantity.Mass)
	return w.Weight(math.Ceil(kg/u.Scale-1e-9) * u.Scale)
}

// Force returns a force in N to three significant figures, with its unit.
func (w Writer) Force(n float64) string { return w.Units.Force(n) }

// Speed returns a speed in m/s to a whole mph or a tenth of m/s, with its unit.
func (w Writer) Speed(mps float64) string { return w.Units.Speed(mps) }

// Factor returns a factor of safety to a hundredth, rounded down, so that one
// that falls short never reads as reached.
func Factor(x float64) string {
	if quantity.Decimal(x, 9) != quantity.Decimal(x, 2) {
		x = max(0, math.Floor(x*100)/100) // not a whole number of hundredths but for rounding
	}
	return strconv.FormatFloat(x, 'f', 2, 64)
}

// Use returns the share of a limit that is used to a hundredth, rounded up, so
// that one over its limit never reads as within it. From ten on it goes by tenths, and
// beyond a hundred it says no more than that: there nobody asks how far.
func Use(x float64) string {
	places, step := 2, 100.0
	switch {
	case x > 100:
		return "over 100"
	case x >= 10:
		places, step = 1, 10
	}
	if quantity.Decimal(x, 9) != quantity.Decimal(x, places) {
		x = math.Ceil(x*step) / step
	}
	return strconv.FormatFloat(x, 'f', places, 64)
}

// Bearing returns an angle in rad as a bearing, in whole degrees or to a tenth.
func (w Writer) Bearing(rad float64) string {
	return w.deg(strings.TrimSuffix(quantity.Bearing(rad), " deg"))
}

// Degrees returns an angle in rad to a tenth of a degree.
func (w Writer) Degrees(rad float64) string {
	return w.deg(strings.TrimSuffix(quantity.Degrees(rad), " deg"))
}

// deg writes a number of degrees: with the sign on paper, with the unit of the
// language elsewhere.
func (w Writer) deg(number string) string {
	if w.paper {
		return number + "°"
	}
	return number + " deg"
}

// Run returns a long length in mm, such as of all welds, to a tenth of a foot or of a
// metre, with its unit.
func (w Writer) Run(mm float64) string { return w.Units.Run(mm) }

// Hours returns a number of hours, to a tenth under ten.
func Hours(h float64) string {
	if h < mostTenths {
		return Tenths(h)
	}
	return quantity.Decimal(h, 0)
}

// mostTenths is the number of hours from which tenths say nothing: an estimate is
// less sure than that.
const mostTenths = 10 - 0.05 // what rounds to 10.0

// Tenths returns a plain figure to a tenth, with its zero.
func Tenths(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }

// Percent returns a share in whole percent, and PercentTenths in tenths of a percent.
func (w Writer) Percent(share float64) string { return w.percent(quantity.Decimal(100*share, 0)) }

func (w Writer) PercentTenths(share float64) string { return w.percent(quantity.Decimal(100*share, 1)) }

// UsedUp returns the share of a limit that is used in whole percent, rounded up so
// that none over 100 reads as 100.
func (w Writer) UsedUp(share float64) string {
	return w.percent(quantity.Decimal(math.Ceil(share*100-1e-6), 0))
}

// percent writes a number of percent; on paper no line ends before the sign.
func (w Writer) percent(number string) string {
	if w.paper {
		return number + "\u00a0%"
	}
	return number + " %"
}

// Laid returns an angle in rad as it is laid out on a flat, to a thousandth of a
// degree: 0.02 mm on an arc of 1 m.
func (w Writer) Laid(rad float64) string { return w.deg(quantity.Decimal(rad*180/math.Pi, 3)) }

// Hertz returns a frequency in Hz to a hundredth, with its unit.
func Hertz(f float64) string { return Coefficient(f) + " Hz" }

// Coefficient returns a plain figure to a hundredth, with its zeros, so that figures
// stand under each other.
func Coefficient(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }
