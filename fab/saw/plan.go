// Package saw plans how the pipe and tube that is bought is cut: which lengths to buy,
// and what is sawn from each. It is cutting stock in one dimension, with as few lengths
// as can be, and a bound below which no plan goes.
//
// A piece takes its length from tip to tip, whatever its ends are cut like: two mitres
// are not laid into each other. Lengths are in mm, angles in rad.
package saw

import (
	"math"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/stock"
)

// Kerf is what a cut of the saw takes away, in mm, where the shop does not say: a band saw
// takes half of it, an abrasive one all. Common practice, no source.
const Kerf = 3.0

// A Plan is how bought pipe and tube is cut.
type Plan struct {
	Kerf     float64
	Stacks   []Stack
	Checks   []check.Check
	Findings []finding.Finding
}

// A Stack is all that is cut from one size of pipe or tube.
type Stack struct {
	Size   Size
	Length float64 // mm, in which it is bought
	Price  float64 // money for each mm; 0 where none is given
	Pieces []Piece // in source order
	Bars   []Bar   // the lengths that are cut up, the fullest first
	Bound  int     // lengths that are needed at least
	Long   []int   // pieces that are longer than what is bought, by their index
}

// Proven reports whether no plan does with fewer lengths.
func (s *Stack) Proven() bool { return len(s.Bars) == s.Bound }

// Cut returns the length of all pieces together.
func (s *Stack) Cut() float64 {
	sum := 0.0
	for _, p := range s.Pieces {
		sum += p.Length
	}
	return sum
}

// Weight returns the weight in kg of one length as it is bought.
func (s *Stack) Weight() float64 {
	return math.Pi * (s.Size.Outside - s.Size.Wall) * s.Size.Wall * s.Length * s.Size.Metal.Density * 1e-9
}

// A Size is what a pipe or tube is ordered by.
type Size struct {
	Pipe          stock.Pipe // zero for a tube
	Outside, Wall float64    // mm
	Metal         *design.Metal
}

// A Piece is what is sawn off.
type Piece struct {
	Part   string
	Length float64 // mm, from tip to tip
	Ends   [2]End  // foot and head
}

// An End is how an end of a piece is cut.
type End struct {
	Angle float64 // rad, from square, that it is sawn at; 0 for square
	Coped bool    // along a template
	Filed float64 // mm, by which a square end is off what it fits, and is filed
	Girth float64 // mm, round the outside, that is coped
}

// A Bar is one length, cut up.
type Bar struct {
	Pieces []int   // by their index, in the order of the cuts
	Rest   float64 // mm, that is left over, its last kerf off
}

// An Item is a part that is cut from what is bought.
type Item struct {
	Part  *design.Part
	Blank *flat.Blank
}

// Make plans the cuts of a shop's saw, nil where it does not say. It returns nil where nothing
// is bought. A price that one part gives is that of all like it that give none.
func Make(items []Item, with *design.Saw) *Plan {
	if len(items) == 0 {
		return nil
	}
	plan := &Plan{Kerf: Kerf}
	if with != nil {
		plan.Kerf = with.Kerf
	}
	type key struct {
		pipe                        stock.Pipe
		outside, wall, length, cost float64
		alloy                       string
	}
	keyOf := func(p *design.Part) key {
		b, m := p.Post.Bought, p.Metal
		return key{b.Pipe, p.Post.Ends[design.Foot].Diameter, m.Thickness, b.Length, b.Price, m.Alloy}
	}
	priced := map[key]float64{} // by the key without a price
	for _, it := range items {
		k := keyOf(it.Part)
		cost := k.cost
		if k.cost = 0; cost > 0 && priced[k] == 0 {
			priced[k] = cost
		}
	}
	at := map[key]int{}
	for _, it := range items {
		k := keyOf(it.Part)
		if k.cost == 0 {
			k.cost = priced[k]
		}
		i, ok := at[k]
		if !ok {
			i = len(plan.Stacks)
			at[k] = i
			plan.Stacks = append(plan.Stacks, Stack{Size: Size{k.pipe, k.outside, k.wall, it.Part.Metal}, Length: k.length, Price: k.cost})
		}
		s := &plan.Stacks[i]
		s.Pieces = append(s.Pieces, piece(it))
		plan.look(s, len(s.Pieces)-1)
	}
	for i := range plan.Stacks {
		plan.Stacks[i].cut(plan.Kerf)
	}
	return plan
}

// piece returns what is sawn for a part.
func piece(it Item) Piece {
	p := Piece{Part: it.Part.Name, Length: it.Blank.Length}
	for _, note := range it.Blank.Notes {
		switch n := note.(type) {
		case flat.SawnEnd:
			p.end(n.End).Angle = n.Angle
		case flat.FiledEnd:
			p.end(n.End).Filed = n.Off
		case flat.CopedEnd:
			*p.end(n.End) = End{Coped: true, Girth: it.Blank.Width}
		}
	}
	return p
}

func (p *Piece) end(name string) *End {
	if name == "foot" {
		return &p.Ends[design.Foot]
	}
	return &p.Ends[design.Head]
}

const stockSource = "a piece is no longer than the length that is bought"

// look checks that a piece comes out of a length.
func (p *Plan) look(s *Stack, i int) {
	q := &s.Pieces[i]
	c := check.Check{
		ID: check.Saw, Part: q.Part, Found: q.Length, Limit: s.Length, Unit: check.Millimetre,
		Source: stockSource, Concern: finding.Work,
	}.Judge()
	p.Checks = append(p.Checks, c)
	if c.Verdict == check.Fails {
		s.Long = append(s.Long, i)
		p.Findings = append(p.Findings, finding.Finding{
			Level: finding.Fault, Concern: finding.Work, Parts: []string{q.Part}, Check: string(check.Saw),
			Fact: TooLong{Length: q.Length, Stock: s.Length},
		})
	}
}

// cut packs the pieces of a stack into lengths. Each takes a kerf besides; the last of a
// length may do without.
func (s *Stack) cut(kerf float64) {
	var sizes []float64
	var of []int
	long := map[int]bool{}
	for _, i := range s.Long {
		long[i] = true
	}
	for i, p := range s.Pieces {
		if !long[i] {
			sizes = append(sizes, p.Length+kerf)
			of = append(of, i)
		}
	}
	bins, bound := pack(sizes, s.Length+kerf)
	s.Bound = bound
	for _, bin := range bins {
		bar := Bar{Rest: s.Length}
		for _, k := range bin {
			bar.Pieces = append(bar.Pieces, of[k])
			bar.Rest -= sizes[k]
		}
		bar.Rest = max(0, bar.Rest)
		s.Bars = append(s.Bars, bar)
	}
}

// Cuts returns how many cuts of the saw all pieces take: one to part each off, and one
// more at each end that is mitred.
func (p *Plan) Cuts() int {
	n := 0
	for i := range p.Stacks {
		s := &p.Stacks[i]
		for _, b := range s.Bars {
			for _, k := range b.Pieces {
				n++
				for _, e := range s.Pieces[k].Ends {
					if e.Angle > 0 {
						n++
					}
				}
			}
		}
	}
	return n
}

// Coped returns the length in mm of the edges that are coped.
func (p *Plan) Coped() float64 {
	sum := 0.0
	for i := range p.Stacks {
		for _, q := range p.Stacks[i].Pieces {
			for _, e := range q.Ends {
				sum += e.Girth
			}
		}
	}
	return sum
}
