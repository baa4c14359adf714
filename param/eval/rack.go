package eval

import "stabile/param/design"

// A rack is the sheet of a shop: what it buys and what it has at hand.
type rack struct {
	sheets  []design.Sheet
	offcuts []design.Offcut
	sold    map[rackSize]bool // the sizes of the sheets before
	left    map[rackSize]bool // and of the offcuts
}

// A rackSize is a size in which there is sheet of a metal.
type rackSize struct {
	metal         *design.Metal
	width, length float64 // mm
}

// add puts a sheet or an offcut on the rack, and reports whether it is sound.
func (r *rack) add(g given) bool {
	b := g.body
	if b.failed || g.args[0].value.kind == failed {
		return false // which has been reported
	}
	of := b.find("size").args
	size := rackSize{g.args[0].value.metal.Metal, of[0].value.q.Number, of[1].value.q.Number}
	if g.Word == "offcut" {
		r.offcuts = append(r.offcuts, design.Offcut{
			Metal: size.metal, Width: size.width, Length: size.length, Number: max(int(b.number("number")), 1),
		})
		return b.once(&r.left, size, "keep one of the two, and say in 'number' how many there are")
	}
	return r.addSheet(b, size) && b.once(&r.sold, size, "keep one of the two")
}

// once reports whether a size is new, and tells if it is not.
func (b *body) once(known *map[rackSize]bool, size rackSize, hint string) bool {
	if *known == nil {
		*known = map[rackSize]bool{}
	}
	n := len(*known)
	(*known)[size] = true
	if len(*known) > n {
		return true
	}
	b.report(b.spanOf("size"), hint, "%s of '%s' of %s by %s is given twice", b.table.Keyword, size.metal.Name, b.mm(size.width), b.mm(size.length))
	return false
}

// addSheet adds a sheet to buy, and tells if its trim leaves nothing.
func (r *rack) addSheet(b *body, size rackSize) bool {
	sheet := design.Sheet{
		Metal: size.metal, Width: size.width, Length: size.length,
		Price: b.number("price"), Trim: b.number("trim"), Turn: b.wordOf("turn") != "no",
		Stock: int(b.number("stock")), Stocked: b.has("stock"),
	}
	if least := min(sheet.Width, sheet.Length); 2*sheet.Trim >= least {
		b.report(b.spanOf("trim"), "make it less than "+b.down(least/2), "a trim of %s all round leaves nothing of a sheet of %s by %s",
			b.mm(sheet.Trim), b.mm(sheet.Width), b.mm(sheet.Length))
		return false
	}
	r.sheets = append(r.sheets, sheet)
	return true
}
