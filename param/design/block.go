package design

// A Block is a block that a plate is bolted down to: along x, along y and high, in mm. Its
// middle lies under the origin. The zero Block is none.
type Block struct {
	Width, Depth, Height float64
	Of                   Stone // what it is of; "" counts as concrete
}

// Given reports whether there is a block.
func (k Block) Given() bool { return k.Width > 0 && k.Depth > 0 && k.Height > 0 }

// Outline returns the outline of the block in plan.
func (k Block) Outline() Outline {
	return (&Base{Shape: Plate, Width: k.Width, Depth: k.Depth}).Outline()
}

// Mass returns what the block weighs, in kg.
func (k Block) Mass() float64 { return k.Width * k.Depth * k.Height * 1e-9 * k.Of.Density() }

// A Stone is what a block is of, by its name in the language.
type Stone string

// The stones.
const (
	Concrete  Stone = "concrete"
	Granite   Stone = "granite"
	Basalt    Stone = "basalt"
	Limestone Stone = "limestone"
	Sandstone Stone = "sandstone"
)

// Stones are the names of what a block may be of.
var Stones = []Stone{Concrete, Granite, Basalt, Limestone, Sandstone}

// Density returns the density in kg/m3: of the range of EN 1991-1-1 Tables A.1 and A.2
// (from memory) the least, since the weight of the block holds the piece up.
func (s Stone) Density() float64 {
	switch s {
	case Granite, Basalt:
		return 2700
	case Limestone:
		return 2000
	case Sandstone:
		return 2100
	}
	return 2400
}
