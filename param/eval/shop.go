package eval

import (
	"stabile/param/design"
	"stabile/param/stock"
)

func (b *body) shop() {
	s := &design.Shop{Name: b.wordOf("name"), Currency: b.wordOf("currency"), Paper: b.wordOf("paper")}
	ok := true
	for i := range b.given {
		g := &b.given[i]
		var sound bool
		switch in := g.body; g.Word {
		case "sheet":
			sound = in.sheet(s, g)
		case "shear":
			s.Shear = &design.Shear{Least: in.number("least")}
			sound = in.capacity(&s.Shear.Capacity)
		case "rolls":
			s.Rolls = in.rolls()
			sound = in.capacity(&s.Rolls.Capacity) && in.rollsSound(s.Rolls)
		case "brake":
			s.Brake = &design.Brake{}
			sound = in.capacity(&s.Brake.Capacity)
		case "welding":
			s.Welding = &design.Welding{
				Process: design.WeldProcess(in.wordOf("process")),
				Filler:  in.number("filler"), Tack: in.number("tack"), Narrow: in.number("narrow"),
			}
			sound = true
		case "printer":
			s.Printer = &design.Printer{
				Paper:  in.wordOf("paper"),
				Margin: in.number("margin"), Overlap: in.number("overlap"), Roll: in.number("roll"),
			}
			sound = true
		case "rates":
			s.Rates = in.rates()
			sound = true
		default:
			sound = true
		}
		ok = ok && sound
	}
	if ok {
		b.design.Shop = s
	}
}

// sheet adds a size of sheet, and tells if its trim leaves nothing.
func (b *body) sheet(s *design.Shop, g *given) bool {
	size := b.find("size")
	sheet := design.Sheet{
		Metal: g.args[0].value.metal.Metal,
		Width: size.args[0].value.q.Number, Length: size.args[1].value.q.Number,
		Price: b.number("price"), Trim: b.number("trim"), Turn: b.wordOf("turn") != "no",
		Stock: int(b.number("stock")), Stocked: b.has("stock"),
	}
	if least := min(sheet.Width, sheet.Length); 2*sheet.Trim >= least {
		b.report(b.spanOf("trim"), "make it less than "+b.down(least/2), "a trim of %s all round leaves nothing of a sheet of %s by %s",
			b.mm(sheet.Trim), b.mm(sheet.Width), b.mm(sheet.Length))
		return false
	}
	for _, other := range s.Sheets {
		if other.Metal == sheet.Metal && other.Width == sheet.Width && other.Length == sheet.Length {
			b.report(size.at, "keep one of the two", "sheet of '%s' of %s by %s is given twice", sheet.Metal.Name, b.mm(sheet.Width), b.mm(sheet.Length))
			return false
		}
	}
	s.Sheets = append(s.Sheets, sheet)
	return true
}

// capacity takes the heaviest sheet of a machine, and tells of a gauge that the
// alloy has not.
func (b *body) capacity(c *design.Capacity) bool {
	alloy, _ := stock.LookupAlloy(b.wordOf("alloy"))
	*c = design.Capacity{Width: b.number("width"), Alloy: alloy.Name, Yield: alloy.Yield, Thickness: b.number("thickness")}
	if g := b.find("gauge"); g != nil {
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
	b.report(b.spanOf("least"), "make it "+pinch+" or more", "no tube of %s comes off a roll of %s", least, pinch)
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
		Gas:    b.number("gas") * hour,
		Markup: b.number("markup"),
	}
}
