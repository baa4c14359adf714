package sheets

import (
	"stabile/fab/layout"
)

// A What is what comes free at a line of a cut list.
type What string

// What comes free.
const (
	APiece  What = "piece"  // a blank, or several in one rectangle that are then parted by hand
	AStrip  What = "strip"  // to be cut further
	AnEdge  What = "trim"   // a trimmed edge of the sheet, waste
	ARest   What = "offcut" // left whole
	ByHand  What = "by hand"
	Ordered What = "ordered" // to be had ready cut
)

// A Line is one line of a cut list: what one cut sets free. A cut that brings
// two things to size has two lines.
type Line struct {
	Sheet    string  // such as "skin 1"; the metal's name where it is ordered
	Metal    string  // its name
	Length   float64 // mm, of the sheet
	Width    float64
	Copies   int     // sheets that are cut alike
	Cut      int     // counted from 1 within the sheet; 0 for what no cut from edge to edge makes
	Stop     float64 // mm, the setting of the stop; of an edge to edge cut
	Scribed  bool    // the stop does not go so far: the cut is made to a line
	Reach    float64 // mm, the length of the cut; of one by hand, of the edge to cut
	What     What
	Name     string // of a piece, as it is written on it; else ""
	Part     string
	SizeX    float64 // mm, of what comes free, along the sheet's length and across it
	SizeY    float64
	Quantity int // of it, on all copies together
}

// CutList returns the plan as lines in the order of the work: for each sheet its
// cuts, then what is parted by hand, then what is ordered ready cut.
func (p *Plan) CutList() []Line {
	var list []Line
	for i := range p.Stacks {
		st := &p.Stacks[i]
		for k := range st.Sheets {
			list = append(list, st.Sheets[k].lines(st.Metal.Name)...)
		}
	}
	for _, o := range p.Orders {
		list = append(list, Line{
			Sheet: o.Metal.Name, Metal: o.Metal.Name, What: Ordered, Name: o.Name, Part: o.Part,
			SizeX: o.Length, SizeY: o.Width, Quantity: o.Quantity,
		})
	}
	return list
}

func (s *Sheet) lines(metal string) (list []Line) {
	blank := Line{Sheet: s.Name, Metal: metal, Length: s.Length, Width: s.Width, Copies: s.Copies}
	free := func(c *Cut, r layout.Rect, what What) {
		l := blank
		if c != nil {
			l.Cut, l.Stop, l.Scribed, l.Reach = c.Number, c.Stop, c.Scribed, c.Cut.Length()
		}
		l.What, l.SizeX, l.SizeY, l.Quantity = what, r.Width, r.Height, s.Copies
		if what != APiece {
			list = append(list, l)
			return
		}
		b := s.block(r)
		for i := 0; i < len(b.Pieces); { // those of one name on one line
			n := i
			for n < len(b.Pieces) && b.Pieces[n].Name == b.Pieces[i].Name {
				n++
			}
			l.Name, l.Part, l.Quantity = b.Pieces[i].Name, b.Pieces[i].Part, s.Copies*(n-i)
			list = append(list, l)
			i = n
		}
	}
	for i := range s.Cuts {
		c := &s.Cuts[i]
		for _, r := range []layout.Rect{c.Drop, c.Keep} {
			switch {
			case s.block(r) != nil:
				free(c, r, APiece)
			case c.Trim && r == c.Drop:
				free(c, r, AnEdge)
			case s.left(r):
				free(c, r, ARest)
			case r == c.Drop:
				free(c, r, AStrip)
			}
		}
	}
	if len(s.Cuts) == 0 {
		for i := range s.Blocks {
			free(nil, s.Blocks[i].Rect, APiece)
		}
	}
	for i := range s.Blocks {
		b := &s.Blocks[i]
		if b.Curved == 0 {
			continue
		}
		l := blank
		l.What, l.Reach, l.Quantity = ByHand, b.Curved, s.Copies*len(b.Pieces)
		l.Name, l.Part = b.Pieces[0].Name, b.Pieces[0].Part
		l.SizeX, l.SizeY = b.Width, b.Height
		list = append(list, l)
	}
	return list
}

// block returns the block that is the rectangle, or nil.
func (s *Sheet) block(r layout.Rect) *Block {
	for i := range s.Blocks {
		if alikeRects(s.Blocks[i].Rect, r) {
			return &s.Blocks[i]
		}
	}
	return nil
}

func (s *Sheet) left(r layout.Rect) bool {
	for _, l := range s.Left {
		if alikeRects(l, r) {
			return true
		}
	}
	return false
}
