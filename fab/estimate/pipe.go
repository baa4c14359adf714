package estimate

import (
	"math"

	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/stock"
)

// A Tube is a post's rolled wall, without the disc in its head.
type Tube struct {
	Part    string
	Outside float64 // mm; of a taper half way between its ends
	Taper   bool
	Length  float64 // mm, of its wall on average
	Mass    float64 // kg
	Price   float64 // money for each kg of its sheet; 0 where none is given
}

// TubeOf returns the rolled wall of a post from its blanks; false for other parts
// and for a post without blanks.
func TubeOf(p *design.Part, blanks []flat.Blank) (Tube, bool) {
	if p.Post == nil || p.Metal == nil {
		return Tube{}, false
	}
	t := Tube{Part: p.Name, Outside: (p.Post.Ends[design.Foot].Diameter + p.Post.Ends[design.Head].Diameter) / 2, Taper: p.Post.IsTaper(), Price: p.Metal.Price}
	area := 0.0
	for i := range blanks {
		if b := &blanks[i]; b.Shape == flat.Tube || b.Shape == flat.Sector {
			area += float64(b.Quantity) * b.Area
			t.Mass += float64(b.Quantity) * b.Mass
		}
	}
	if p.Post.Bought != nil {
		t.Price = 0
	}
	t.Length = area / (math.Pi*(t.Outside-p.Metal.Thickness) - p.Post.Gap)
	return t, good(t.Length) && good(t.Mass)
}

// A Comparison is a rolled tube beside the standard pipe nearest to it.
type Comparison struct {
	Tube
	Pipe     stock.Pipe
	Off      float64 // mm, the pipe's outside diameter less the tube's
	PipeMass float64 // kg, of as long a pipe, which is of plain steel whatever the tube's metal
	Saved    float64 // kg, that the tube is lighter; negative where it is heavier
	Sheet    float64 // money, of the tube's sheet by weight; 0 where it has no price by weight
	Pipes    float64 // money, of the pipe by weight; 0 where the shop gives no price for pipe
}

// Comparisons are all posts beside standard pipe.
type Comparisons struct {
	Posts []Comparison
	None  []string // posts of which no standard pipe of the table comes near
	// Mass, PipeMass and Saved are sums over Posts, in kg; Pipes of money, 0 where
	// the shop gives no price for pipe. The labour of rolling and of cutting pipe
	// is in none of them.
	Mass, PipeMass, Saved, Pipes float64
}

// farPipe is how far the outside diameter of a pipe may be from the tube's, as a
// share of it, and still stand for it. The widest step of the table, from NPS 6 to
// 8, leaves a tube half way between them 13.1 % from either.
const farPipe = 0.132

// Compare sets tubes beside the standard pipe nearest in outside diameter, at a
// price of money for each kg of pipe; 0 for none.
func Compare(tubes []Tube, price float64) Comparisons {
	var all Comparisons
	for _, t := range tubes {
		pipe := stock.NearestPipe(t.Outside)
		off := pipe.Outside - t.Outside
		if !(math.Abs(off) <= farPipe*t.Outside) || !good(t.Length) {
			all.None = append(all.None, t.Part)
			continue
		}
		c := Comparison{Tube: t, Pipe: pipe, Off: off, PipeMass: pipe.Weight() * t.Length / 1e3}
		c.Saved = c.PipeMass - c.Mass
		if good(t.Price) {
			c.Sheet = t.Price * t.Mass
		}
		if good(price) {
			c.Pipes = price * c.PipeMass
		}
		all.Posts = append(all.Posts, c)
		all.Mass += c.Mass
		all.PipeMass += c.PipeMass
		all.Saved += c.Saved
		all.Pipes += c.Pipes
	}
	return all
}

// A BoughtTube is a post that is bought, and the tube that it would be if it were rolled
// from its metal: as wide outside and as long.
type BoughtTube struct {
	Tube
	Pipe stock.Pipe // zero for a tube
	Mass float64    // kg, as it is bought
}

// Instead returns a bought post beside itself rolled, of which the wall as it is bought is
// given.
func Instead(p *design.Part, t Tube) BoughtTube {
	b := BoughtTube{Tube: t, Pipe: p.Post.Bought.Pipe, Mass: t.Mass}
	sheet := p.Post.Bought.Sheet
	b.Tube.Mass = math.Pi * (t.Outside - sheet.Thickness) * sheet.Thickness * t.Length * sheet.Density * 1e-9
	b.Tube.Price = sheet.Price
	return b
}

// CompareBought sets bought posts beside tubes that are rolled from their metal.
func CompareBought(list []BoughtTube) Comparisons {
	var all Comparisons
	for _, t := range list {
		c := Comparison{Tube: t.Tube, Pipe: t.Pipe, PipeMass: t.Mass, Saved: t.Mass - t.Tube.Mass}
		if good(t.Price) {
			c.Sheet = t.Price * t.Tube.Mass
		}
		all.Posts = append(all.Posts, c)
		all.Mass += t.Tube.Mass
		all.PipeMass += t.Mass
		all.Saved += c.Saved
	}
	return all
}

// Surface returns the area in mm2 that a finish covers on a part: the outside of
// a post and of a ball, both faces of a plate.
func Surface(p *design.Part, blanks []flat.Blank) float64 {
	if p.Ball != nil && p.Ball.Build == design.Bought {
		return p.Ball.Surface()
	}
	area := 0.0
	for i := range blanks {
		a := float64(blanks[i].Quantity) * blanks[i].Area
		if blanks[i].Bought != nil {
			outside := p.Post.Ends[design.Foot].Diameter
			a *= outside / (outside - p.Metal.Thickness) // its wall is thick
		}
		area += a
	}
	if p.Base != nil {
		area *= 2
	}
	return area
}

// Raised returns the area in mm2 of the sheet that is domed or dished for a part.
func Raised(blanks []flat.Blank) float64 {
	area := 0.0
	for i := range blanks {
		if how := blanks[i].Forming.How; how == "dome" || how == "dish" {
			area += float64(blanks[i].Quantity) * blanks[i].Area
		}
	}
	return area
}

// LayingOut returns how many templates the blanks of a part need, how many pieces
// are laid out, and how many holes are drilled in them. A rectangle is sheared to
// size from measures, and a round is scribed with dividers: neither needs a
// template, nor does a piece that is alone, which is laid out by itself.
func LayingOut(blanks []flat.Blank) (templates, pieces, holes int) {
	for i := range blanks {
		b := &blanks[i]
		holes += b.Quantity * len(b.Holes)
		if b.Bought != nil { // laid out as it is sawn; a trimmed end needs its template of paper
			if len(b.Ordinates) > 0 {
				templates++
			}
			continue
		}
		pieces += b.Quantity
		if b.Quantity > 1 && b.Diameter == 0 && len(b.Outline) > 4 {
			templates++
		}
	}
	return templates, pieces, holes
}
