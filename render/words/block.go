package words

import (
	"stabile/param/design"
	"stabile/param/quantity"
)

// Block says what a block is of, and its size along x, along y and high: "granite block, 20
// × 18 × 12 in".
func (w Writer) Block(k design.Block) string {
	return string(k.Of) + " block, " + w.BlockSize(k)
}

// BlockSize returns the sizes of a block along x, along y and high.
func (w Writer) BlockSize(k design.Block) string {
	return w.Units.Rule(k.Width, quantity.Coarse) + " × " + w.Units.Rule(k.Depth, quantity.Coarse) + " × " + w.Units.Length(k.Height, quantity.Coarse)
}

// SetIn says how a post is set in concrete: "36 in deep in concrete 18 in across".
func (w Writer) SetIn(p *design.Post) string {
	return w.Long(p.Sunk) + " deep in concrete " + w.Long(p.Pier) + " across"
}
