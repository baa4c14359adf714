package design

import "stabile/param/stock"

// A BoughtTube is the pipe or tube that a post is cut from. The part's Metal then has the
// wall of it as its thickness.
type BoughtTube struct {
	Pipe   stock.Pipe // its size; zero for a tube that goes by its diameter and wall
	Sheet  *Metal     // as declared: what the disc in its head is cut from
	Length float64    // mm, of the stock that it is cut from
	Price  float64    // money for each mm; 0 where none is given
}

// Sheet returns the metal that a part's own sheet is of: of a bought post that of the disc
// in its head, not its wall.
func (p *Part) Sheet() *Metal {
	if p.Post != nil && p.Post.Bought != nil {
		return p.Post.Bought.Sheet
	}
	return p.Metal
}

// IsPipe reports whether it is of a standard size.
func (b *BoughtTube) IsPipe() bool { return b.Pipe.NPS != "" }
