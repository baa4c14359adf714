package sheets

import (
	"iter"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/layout"
	"stabile/param/design"
)

// A Plan is how all blanks of a piece are come by.
type Plan struct {
	Blanks   []*flat.Blank // those of the input
	Stacks   []Stack       // in the order in which the blanks first need them
	Orders   []Order       // what is to be bought cut to size, in the order of the blanks
	Checks   []check.Check // of stock and of cutting, part by part
	Findings []finding.Finding
}

// A Way is a way to cut a sheet up.
type Way string

// The ways.
const (
	ByShear  Way = "shear"
	ByCutter Way = "cutter"
)

// A Stack is the sheets of one metal that are cut in one way.
type Stack struct {
	Metal *design.Metal
	Way   Way
	Kerf  float64 // mm
	Aim   layout.Aim

	Sheets  []Sheet // layouts, offcuts at hand first
	Count   int     // sheets taken, offcuts at hand not counted
	Offcuts int     // offcuts at hand that are used
	Used    float64 // the area of the blanks as a share of that of all sheets and offcuts used

	// Bound is proven: no way to lay the blanks, sides along the sheets', takes
	// fewer sheets. MoneyBound is the same of money; it is 0 where not all sizes
	// have a price.
	Bound      int
	Money      float64 // the prices of the sheets; meaningless unless Priced
	MoneyBound float64
	Priced     bool // every sheet that is taken has a price

	Left []Left // what has no place, which the findings name too
}

// A Left is pieces of a blank that no sheet has a place for.
type Left struct {
	Blank int // its index in Plan.Blanks
	Count int
	Why   layout.Reason
}

// A Sheet is one layout: a sheet, or several cut alike.
type Sheet struct {
	Name          string  // such as "skin 1"
	Length, Width float64 // mm, along x and along y
	Trim          float64
	Price         float64 // money for one; 0 for an offcut at hand and where none is known
	Offcut        bool    // it is one that was at hand
	Copies        int
	Used          float64 // the area of the blanks as a share of its own
	Blocks        []Block
	Cuts          []Cut
	Left          []layout.Rect // what is left whole, the largest first
}

// A Block is a rectangle that the cuts free, with the pieces in it: one, or
// several of one shape that are parted by hand.
type Block struct {
	layout.Rect
	Pieces []Piece
	// Curved is the length of edge to cut by hand that does not lie on a side of
	// the block.
	Curved float64
}

// A Piece is a blank where it lies on a sheet. A point p of the blank's own flat
// is at p turned by Angle about the origin and moved by At.
type Piece struct {
	Blank  int // its index in Plan.Blanks
	Name   string
	Part   string
	Angle  float64
	At     r2.Vec
	Turned bool        // the blank's y lies across the sheet's length
	Box    layout.Rect // of its outline on the sheet
}

// Laid returns points of the blank's flat, such as its outline, where they lie
// on the sheet.
func (p *Piece) Laid(points []r2.Vec) []r2.Vec { return pose{p.Angle, p.At}.all(points) }

// A Cut is one cut of a sheet, counted from 1 within its layout.
type Cut struct {
	Number int
	layout.Cut
	// Frees are the blocks, by index, that this cut brings to size, and Leaves
	// says if an offcut, by index in Sheet.Left, comes free.
	Frees  []int
	Leaves []int

	// Sliver says that what drops is too narrow for a shear to part: it is
	// pinched and bent between the blades. The sheet is brought back to the line
	// by hand.
	Sliver bool

	// Scribed says that the stop of the shear does not go so far: what drops is
	// measured, and cut to a scribed line.
	Scribed bool
}

// What a shear does not part, as common practice has it, without a source: less
// than 2 mm, or than twice the thickness.
const (
	sliver          = 2.0 // mm
	sliverThickness = 2.0
)

// isSliver reports whether a shear does not part a strip of a width, in mm.
func isSliver(width float64, metal *design.Metal) bool {
	return width < max(sliver, sliverThickness*metal.Thickness)-fine
}

// An Order is a blank that the shop cannot cut and is to be bought cut to size.
type Order struct {
	Blank         int // its index in Plan.Blanks
	Name          string
	Part          string
	Metal         *design.Metal
	Quantity      int
	Width, Length float64 // mm, of its rectangle, as its flat is drawn
	Money         float64 // by the price of the metal by weight; 0 where it has none
	Why           TooThick
}

// Count returns the number of sheets, offcuts at hand not counted.
func (p *Plan) Count() (n int) {
	for i := range p.Stacks {
		n += p.Stacks[i].Count
	}
	return n
}

// Bound returns a proven least number of sheets.
func (p *Plan) Bound() (n int) {
	for i := range p.Stacks {
		n += p.Stacks[i].Bound
	}
	return n
}

// Money returns what the sheets and what is bought cut to size cost, and reports
// whether all of it has a price.
func (p *Plan) Money() (money float64, priced bool) {
	priced = true
	for i := range p.Stacks {
		money += p.Stacks[i].Money
		priced = priced && p.Stacks[i].Priced
	}
	for _, o := range p.Orders {
		money += o.Money
		priced = priced && o.Money > 0
	}
	return money, priced
}

// Aim returns what the layouts make least: "sheets", "money", "mixed" where it is
// not the same for all metals, and "" without a layout.
func (p *Plan) Aim() (aim string) {
	for i := range p.Stacks {
		of := "sheets"
		if p.Stacks[i].Aim == layout.LeastMoney {
			of = "money"
		}
		if aim != "" && aim != of {
			return "mixed"
		}
		aim = of
	}
	return aim
}

// Complete reports whether every blank has a place or is ordered.
func (p *Plan) Complete() bool {
	for i := range p.Stacks {
		if len(p.Stacks[i].Left) > 0 {
			return false
		}
	}
	return true
}

// cutBy goes through the sheets of the stacks that are cut up by a way.
func (p *Plan) cutBy(way Way) iter.Seq[*Sheet] {
	return func(yield func(*Sheet) bool) {
		for i := range p.Stacks {
			for k := range p.Stacks[i].Sheets {
				if p.Stacks[i].Way == way && !yield(&p.Stacks[i].Sheets[k]) {
					return
				}
			}
		}
	}
}

// Cuts returns how many cuts are made by a way, all copies counted.
func (p *Plan) Cuts(way Way) (n int) {
	for s := range p.cutBy(way) {
		n += s.Copies * len(s.Cuts)
	}
	return n
}

// Settings returns how often the shear's stop is set again: at each cut whose
// stop is not that of the cut before it. Sheets that are cut alike go through
// each setting together. Cuts to a scribed line leave the stop as it is.
func (p *Plan) Settings() (n int) {
	for s := range p.cutBy(ByShear) {
		at := math.Inf(-1)
		for _, c := range s.Cuts {
			if c.Scribed {
				continue
			}
			if !same(c.Stop, at) {
				n++
			}
			at = c.Stop
		}
	}
	return n
}

// Scribed returns how many cuts of all sheets are made to a scribed line.
func (p *Plan) Scribed() (n int) {
	for s := range p.cutBy(ByShear) {
		for _, c := range s.Cuts {
			if c.Scribed {
				n += s.Copies
			}
		}
	}
	return n
}

// Curved returns the length in mm of edges within the blocks of stacks that are
// cut up by a way: by hand where that is the shear, else with the cutter.
func (p *Plan) Curved(way Way) (mm float64) {
	for s := range p.cutBy(way) {
		for _, b := range s.Blocks {
			mm += float64(s.Copies) * b.Curved
		}
	}
	return mm
}

// A Taken is how many sheets of one size are taken.
type Taken struct {
	Metal         *design.Metal
	Width, Length float64 // mm
	Offcut        bool    // at hand
	Price         float64 // money for one; 0 where none is known and for an offcut
	Count         int
}

// Taken returns the sheets to buy, size by size in the order in which they are
// cut, offcuts left out.
func (p *Plan) Taken() []Taken {
	return slices.DeleteFunc(p.taken(), func(t Taken) bool { return t.Offcut })
}

func (p *Plan) taken() (list []Taken) {
	for i := range p.Stacks {
		st := &p.Stacks[i]
		for _, s := range st.Sheets {
			t := Taken{Metal: st.Metal, Width: s.Width, Length: s.Length, Offcut: s.Offcut, Price: s.Price}
			k := slices.IndexFunc(list, func(o Taken) bool { o.Count = 0; return o == t })
			if k < 0 {
				k = len(list)
				list = append(list, t)
			}
			list[k].Count += s.Copies
		}
	}
	return list
}

// CutterLength returns the length in mm of the cuts that the cutter makes from
// edge to edge.
func (p *Plan) CutterLength() (mm float64) {
	for s := range p.cutBy(ByCutter) {
		for _, c := range s.Cuts {
			mm += float64(s.Copies) * c.Length()
		}
	}
	return mm
}

// Fewest reports whether no way to lay the blanks, sides along the sheets', takes
// fewer sheets.
func (s *Stack) Fewest() bool { return s.Count == s.Bound }
