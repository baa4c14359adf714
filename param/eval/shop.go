package eval

import (
	"stabile/param/design"
	"stabile/param/syntax"
)

// shop takes the shop, with what is on its rack.
func (b *body) shop(r *rack) {
	s := &design.Shop{
		Name: b.wordOf("name"), Currency: b.wordOf("currency"), Paper: b.wordOf("paper"),
		Sheets: r.sheets, Offcuts: r.offcuts,
	}
	ok := true
	for i := range b.given {
		g := &b.given[i]
		switch in := g.body; g.Word {
		case "shear":
			s.Shear = &design.Shear{Least: in.number("least"), Reach: in.number("reach")}
			ok = in.capacity(&s.Shear.Capacity) && ok
		case "cutter":
			s.Cutter = &design.Cutter{
				Kerf: in.number("kerf"), Width: in.number("width"), Length: in.number("length"), Thickness: in.number("thickness"),
			}
		case "saw":
			s.Saw = &design.Saw{Kerf: in.number("kerf")}
		case "rolls":
			s.Rolls = in.rolls()
			ok = in.capacity(&s.Rolls.Capacity) && in.rollsSound(s.Rolls) && ok
		case "brake":
			s.Brake = &design.Brake{}
			ok = in.capacity(&s.Brake.Capacity) && ok
		case "welding":
			s.Welding = &design.Welding{
				Process: design.WeldProcess(in.wordOf("process")),
				Filler:  in.number("filler"), Tack: in.number("tack"), Narrow: in.number("narrow"), Shrink: in.number("shrink"),
			}
		case "printer":
			s.Printer = &design.Printer{
				Paper:  in.wordOf("paper"),
				Margin: design.PrinterMargin, Overlap: design.PrinterOverlap, Roll: in.number("roll"),
			}
			if in.has("margin") {
				s.Printer.Margin = in.number("margin")
			}
			if in.has("overlap") {
				s.Printer.Overlap = in.number("overlap")
			}
		case "rates":
			s.Rates = in.rates()
		}
	}
	if ok {
		b.design.Shop = s
	}
}

// readNarrow reads ahead what the narrowest point is that the shop can weld, since the
// gores of balls end there wherever in the text the shop stands. What is wrong with it
// is reported with the shop.
func (e *evaluator) readNarrow() {
	table := lookupDeclaration("shop")
	for _, f := range e.files {
		for _, s := range e.taken(f) {
			d, ok := s.(*syntax.Declaration)
			if !ok || d.Keyword.Text != "shop" {
				continue
			}
			for _, p := range d.Body {
				if p.Word.Text != "welding" {
					continue
				}
				for _, q := range p.Body {
					if q.Word.Text != "narrow" || len(q.Arguments) != 1 || isBad(q.Arguments[0].Value) {
						continue
					}
					prop := table.property("welding", "").Body.property("narrow", "")
					in := body{evaluator: e, table: table, what: "the welding", at: q.Word.At}
					if v := in.argument(prop, &prop.Arguments[0], q.Arguments[0].Value, nil, e.top); v.kind != failed {
						e.narrow = v.q.Number
					}
				}
			}
		}
	}
}

// weldable gives balls and posts the narrowest point that the shop can weld: where the
// shop stands in the text does not matter.
func (e *evaluator) weldable() {
	if s := e.design.Shop; s != nil && s.Welding != nil {
		for _, p := range e.design.Parts {
			switch {
			case p.Ball != nil:
				p.Ball.Narrow = s.Welding.Narrow
			case p.Post != nil:
				p.Post.Narrow = s.Welding.Narrow
			}
		}
	}
}

// capacity takes the heaviest sheet of a machine in each alloy that it is rated in,
// and reports a gauge that the alloy has not.
func (b *body) capacity(c *design.Capacity) bool {
	if !b.rating(c, "alloy", "gauge", "thickness") {
		return false
	}
	second := b.find("second_alloy")
	if second == nil {
		return true
	}
	gauge, thickness := b.find("second_gauge"), b.find("second_thickness")
	switch {
	case gauge == nil && thickness == nil:
		b.missing(second.at, "add a line such as second_gauge 18", "'second_alloy' also needs 'second_gauge' or 'second_thickness'")
		return false
	case gauge != nil && thickness != nil:
		note(b.report(thickness.word, "keep one of the two", "'second_gauge' and 'second_thickness' both say how thick it may be"), gauge.word, "the other is given here")
		return false
	case b.wordOf("second_alloy") == c.Alloy:
		b.report(second.args[0].at, "name another alloy, or leave the second rating out", "the machine is rated twice in %s", c.Alloy)
		return false
	}
	c.Second = &design.Capacity{}
	return b.rating(c.Second, "second_alloy", "second_gauge", "second_thickness")
}

// rating takes one rating of a machine, from the properties of the given words.
func (b *body) rating(c *design.Capacity, alloyWord, gauge, thickness string) bool {
	alloy, own := b.lookupAlloy(b.wordOf(alloyWord))
	*c = design.Capacity{Width: b.number("width"), Alloy: alloy.Name, Yield: alloy.Yield, Thickness: b.number(thickness), Stock: own}
	if g := b.find(gauge); g != nil {
		c.Gauge = int(g.args[0].value.q.Number)
		t, err := alloy.Family.Thickness(c.Gauge)
		if err != nil {
			b.noGauge(g.args[0].at, alloy, err)
			return false
		}
		c.Thickness = t
	}
	return true
}

func (b *body) rolls() *design.Rolls {
	return &design.Rolls{
		PinchDiameter: b.number("pinch_diameter"),
		BackDiameter:  b.number("back_diameter"),
		BackDistance:  b.number("back_distance"),
		ScrewPitch:    b.number("screw_pitch"),
		Slant:         b.number("slant"),
		Least:         b.number("least"),
	}
}

// rollsSound checks that nothing is smaller than the roll that it is bent
// around.
func (b *body) rollsSound(r *design.Rolls) bool {
	if !b.has("least") || r.Least >= r.PinchDiameter {
		return true
	}
	least, pinch := b.mms(r.Least, r.PinchDiameter)
	b.report(b.spanOf("least"), "make it "+pinch+" or more", "a tube of %s cannot be rolled on a roll of %s", least, pinch)
	return false
}

func (b *body) rates() design.Rates {
	const hour = 3600 // s
	return design.Rates{
		Labour: b.number("labour") * hour,
		Setup:  b.number("setup"),
		Cut:    b.number("cut"),
		Pass:   b.number("pass"),
		Fit:    b.number("fit"),
		Clean:  b.number("clean") / 1e3, // mm/s to m/s
		Weld:   b.number("weld") / 1e3,
		Dress:  b.number("dress") / 1e3,
		Filler: b.number("filler"),
		Pipe:   b.number("pipe"),
		Gas:    b.number("gas") * hour,
		Markup: b.number("markup"),

		ShearSetup: b.number("shear_setup"),
		RollSetup:  b.number("rolls_setup"),
	}
}
