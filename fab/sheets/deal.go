package sheets

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/layout"
	"stabile/param/design"
)

// A dealer writes the layouts of a stack down and deals the blanks of each kind
// out to the places that the kind has.
type dealer struct {
	m      *maker
	st     *Stack
	supply supply
	best   solved
	dealt  map[*kind][]int // of each batch of a kind, the pieces dealt so far
	used   float64         // mm2
	sheets float64
}

func (d *dealer) deal() {
	for i := range d.best.plan.Layouts {
		l := &d.best.plan.Layouts[i]
		for left := l.Copies; left > 0; {
			n := left
			if !d.suffices(l, n) {
				n = 1
			}
			d.sheet(l, n)
			left -= n
		}
	}
	if d.sheets > 0 {
		d.st.Used = d.used / d.sheets
	}
}

// suffices reports whether a number of copies of a layout can carry the same blanks
// at the same places.
func (d *dealer) suffices(l *layout.Layout, copies int) bool {
	if copies == 1 {
		return true
	}
	want := map[*kind]int{}
	for _, c := range l.Pieces {
		b := d.best.bundles[c.Piece]
		want[b.kind] += len(b.block.pieces)
	}
	for k, n := range want {
		for i, batch := range k.many {
			n -= (batch.count - d.of(k)[i]) / copies
		}
		if n > 0 {
			return false
		}
	}
	return true
}

func (d *dealer) of(k *kind) []int {
	if d.dealt[k] == nil {
		d.dealt[k] = make([]int, len(k.many))
	}
	return d.dealt[k]
}

// next returns the blank of the next piece of a kind, of which so many are cut
// alike.
func (d *dealer) next(k *kind, copies int) int {
	dealt := d.of(k)
	for i, batch := range k.many {
		if batch.count-dealt[i] >= copies {
			dealt[i] += copies
			return batch.blank
		}
	}
	return k.many[0].blank // not reached: places and pieces are of one number
}

func (d *dealer) sheet(l *layout.Layout, copies int) {
	size := &d.supply.list[l.Sheet]
	s := Sheet{
		Name:   fmt.Sprintf("%s %d", d.st.Metal.Name, d.number()),
		Length: size.Width, Width: size.Height, Trim: size.Trim.Left,
		Price: size.Price, Offcut: size.Offcut, Copies: copies, Left: l.Offcuts,
	}
	var used float64
	for _, c := range l.Pieces {
		b := d.best.bundles[c.Piece]
		s.Blocks = append(s.Blocks, d.block(b, c, copies))
		used += b.kind.area * float64(len(b.block.pieces))
	}
	s.Used = used / (s.Length * s.Width)
	for i, c := range l.Cuts {
		cut := Cut{Number: i + 1, Cut: c}
		if d.st.Way == ByShear {
			reach := d.m.in.Shop.Shear.Reach
			cut.Sliver, cut.Scribed = isSliver(c.Stop, d.st.Metal), reach > 0 && c.Stop > reach+fine
		}
		for k := range s.Blocks {
			if alikeRects(s.Blocks[k].Rect, c.Drop) || alikeRects(s.Blocks[k].Rect, c.Keep) {
				cut.Frees = append(cut.Frees, k)
			}
		}
		for k, r := range s.Left {
			if alikeRects(r, c.Drop) || alikeRects(r, c.Keep) {
				cut.Leaves = append(cut.Leaves, k)
			}
		}
		if d.st.Way == ByShear && !c.Trim && c.Held() < d.m.in.Shop.Shear.Least-fine {
			d.m.sayNarrow(&s, &cut)
		}
		s.Cuts = append(s.Cuts, cut)
	}
	d.st.Sheets = append(d.st.Sheets, s)
	d.used += used * float64(copies)
	d.sheets += s.Length * s.Width * float64(copies)
	if s.Offcut {
		d.st.Offcuts += copies
		d.m.gone[d.supply.offcut[l.Sheet]] += copies
	} else {
		d.st.Count += copies
		d.st.Money += s.Price * float64(copies)
		d.m.taken[d.supply.sheet[l.Sheet]] += copies
	}
	d.st.Priced = d.priced()
}

// number is that of the next layout of the stack's metal.
func (d *dealer) number() int {
	n := 1 + len(d.st.Sheets)
	for i := range d.m.plan.Stacks {
		if s := &d.m.plan.Stacks[i]; s.Metal == d.st.Metal {
			n += len(s.Sheets)
		}
	}
	return n
}

// priced reports whether all sheets of the stack so far have a price.
func (d *dealer) priced() bool {
	for _, s := range d.st.Sheets {
		if !s.Offcut && s.Price == 0 {
			return false
		}
	}
	return true
}

func alikeRects(a, b layout.Rect) bool {
	return same(a.X, b.X) && same(a.Y, b.Y) && same(a.Width, b.Width) && same(a.Height, b.Height)
}

// block puts a block with its pieces where the layout has it.
func (d *dealer) block(b bundle, c layout.Placed, copies int) Block {
	out := Block{Rect: c.Rect}
	there := pose{at: r2.Vec{X: c.X, Y: c.Y}}
	if c.Turned {
		there = pose{math.Pi / 2, r2.Vec{X: c.X + c.Width, Y: c.Y}}
	}
	for _, q := range b.block.pieces {
		at := b.kind.lie.then(q).then(there)
		blank := d.next(b.kind, copies)
		of := d.m.in.Blanks[blank]
		_, cos := sincos(at.angle)
		p := Piece{
			Blank: blank, Name: of.Name, Part: of.Part, Angle: at.angle, At: at.at,
			Turned: cos*cos > 0.5,
		}
		outline := p.Laid(b.kind.outline)
		p.Box = rectOf(design.Bounds(outline))
		out.Pieces = append(out.Pieces, p)
		if !b.kind.sheared {
			out.Curved += offSides(outline, c.Rect)
		}
	}
	return out
}

// offSides returns the length of an outline that does not lie on a side of the
// rectangle.
func offSides(outline []r2.Vec, r layout.Rect) (mm float64) {
	q := outline[len(outline)-1]
	for _, p := range outline {
		on := func(a, b, side float64) bool { return math.Abs(a-side) <= alike && math.Abs(b-side) <= alike }
		if !on(p.X, q.X, r.X) && !on(p.X, q.X, r.X+r.Width) && !on(p.Y, q.Y, r.Y) && !on(p.Y, q.Y, r.Y+r.Height) {
			mm += math.Sqrt(r2.Norm2(r2.Sub(p, q)))
		}
		q = p
	}
	return mm
}
