package shop

import (
	"slices"

	"stabile/param/design"
	"stabile/param/quantity"
)

// Filled says what of a shop is not the design's own but the modest shop's.
type Filled struct {
	Whole bool // the design describes no shop: all of it
	Shear bool // the shear is the modest shop's
	Rolls bool // the rolls are the modest shop's

	// Sheets are the metals whose sheets are the modest shop's.
	Sheets  []*design.Metal
	Missing []Missing // all that was filled in, in a fixed order
}

// For returns the shop of a design, filled up from the modest one, and reports
// what was filled in. The design is left as it is.
//
// A machine that is not described is filled in, but for a brake and a cutter: a
// shop has none of those unless it says so. One with a cutter needs no shear.
// Every metal that is cut has a sheet to be cut from. A sheet without a price
// has that of its metal, a sheet, by length or by weight. Prices, wages
// and a markup that are not given stay 0.
func For(d *design.Design) (design.Shop, Filled) {
	f := Filled{Whole: d.Shop == nil}
	var s design.Shop
	if d.Shop != nil {
		s = *d.Shop
	}
	f.machines(&s)
	f.welding(&s)
	f.sheets(&s, d)
	f.papers(&s, d)
	f.rates(&s.Rates)
	return s, f
}

func (f *Filled) add(item Item) { f.Missing = append(f.Missing, Missing{Item: item}) }

// fill sets what was not given and reports whether it had to.
func fill(field *float64, value float64) bool {
	if *field > 0 {
		return false
	}
	*field = value
	return true
}

func (f *Filled) machines(s *design.Shop) {
	if s.Shear == nil && s.Cutter == nil {
		s.Shear = &design.Shear{Capacity: capacity(shearWidth, shearGauge), Least: shearLeast}
		f.Shear = true
		f.add(Shear)
	}
	if s.Rolls == nil {
		s.Rolls = &design.Rolls{Capacity: capacity(rollsWidth, rollsGauge)}
		complete(s.Rolls)
		f.Rolls = true
		f.add(Rolls)
		return
	}
	r := *s.Rolls
	if complete(&r) {
		f.add(RollsMeasures)
	}
	s.Rolls = &r
}

// complete fills in the measures of rolls of which only the width and what they
// bend need be given, and reports whether one was missing.
func complete(r *design.Rolls) bool {
	some := fill(&r.PinchDiameter, rollsRoll)
	some = fill(&r.BackDiameter, r.PinchDiameter) || some
	some = fill(&r.BackDistance, (r.PinchDiameter+r.BackDiameter)/2+rollsClear) || some
	some = fill(&r.ScrewPitch, rollsPitch) || some
	return fill(&r.Least, rollsLeast*r.PinchDiameter) || some
}

func (f *Filled) welding(s *design.Shop) {
	var w design.Welding
	if s.Welding != nil {
		w = *s.Welding
	} else {
		w.Process = design.TIG
	}
	some := fill(&w.Filler, fillerRod)
	some = fill(&w.Tack, tackEvery) || some
	fill(&w.Narrow, design.Narrowest) // reported where it is used
	switch {
	case s.Welding == nil:
		f.add(Welding)
	case some:
		f.add(WeldingMeasures)
	}
	s.Welding = &w
}

// sheets sees to it that every metal that is cut has a sheet.
func (f *Filled) sheets(s *design.Shop, d *design.Design) {
	s.Sheets = slices.Clone(s.Sheets)
	for i := range s.Sheets {
		price(&s.Sheets[i])
	}
	for _, m := range Cut(d) {
		if slices.ContainsFunc(s.Sheets, func(h design.Sheet) bool { return h.Metal == m }) {
			continue
		}
		sheet := design.Sheet{Metal: m, Width: sheetWidth, Length: sheetLength, Turn: true}
		price(&sheet)
		s.Sheets = append(s.Sheets, sheet)
		f.Sheets = append(f.Sheets, m)
		f.Missing = append(f.Missing, Missing{Sheets, m.Name})
	}
}

// price gives a sheet without a price that of its metal: a sheet, by length or by
// weight.
func price(s *design.Sheet) {
	if s.Price > 0 {
		return
	}
	switch m := s.Metal; {
	case m.SheetPrice > 0:
		s.Price = m.SheetPrice
	case m.LengthPrice > 0:
		s.Price = m.LengthPrice * s.Length
	default:
		s.Price = s.Width * s.Length * m.Thickness * m.Density * 1e-9 * m.Price
	}
}

// Cut returns the metals that parts of the design are cut from, each once, in
// the order of the parts.
func Cut(d *design.Design) []*design.Metal {
	var list []*design.Metal
	for _, p := range d.Parts {
		bought := p.Ball != nil && p.Ball.Build == design.Bought
		if p.Metal != nil && !bought && !slices.Contains(list, p.Metal) {
			list = append(list, p.Metal)
		}
	}
	return list
}

// Narrowest returns the width in mm under which a point of a part's sheet is not
// worth welding: what the design's shop says of it, else that of the modest one.
func Narrowest(says float64) float64 {
	if says > 0 {
		return says
	}
	return design.Narrowest
}

// papers fills in the size of the papers and what patterns are printed on, by
// the design's units.
func (f *Filled) papers(s *design.Shop, d *design.Design) {
	paper, page := "tabloid", "letter"
	if d.Units != quantity.Inch {
		paper, page = "A3", "A4"
	}
	if s.Paper == "" {
		s.Paper = paper
		f.add(Paper)
	}
	if s.Printer == nil {
		s.Printer = &design.Printer{Paper: page, Margin: design.PrinterMargin, Overlap: design.PrinterOverlap}
		f.add(Printer)
	}
}

// rates fills in the times, which are reported as invented.
func (f *Filled) rates(r *design.Rates) {
	t := Times()
	for _, it := range []struct {
		field *float64
		value float64
		item  Item
	}{
		{&r.Setup, t.Setup, SetupTime},
		{&r.Cut, t.Cut, CutTime},
		{&r.Pass, t.Pass, PassTime},
		{&r.Fit, t.Fit, FitTime},
		{&r.Clean, t.Clean, CleanSpeed},
		{&r.Weld, t.Weld, WeldSpeed},
		{&r.Dress, t.Dress, DressSpeed},
	} {
		apart := it.item == SetupTime && r.ShearSetup > 0 && r.RollSetup > 0 // no machine needs the common one
		if fill(it.field, it.value) && !apart {
			f.add(it.item)
		}
	}
}
