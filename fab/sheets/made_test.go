package sheets

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/param/design"
)

// lens is a gore: two arcs of a cosine.
func lens(w, l float64) []r2.Vec {
	const n = 40
	var out []r2.Vec
	for i := range n {
		y := l * (float64(i)/n - 0.5)
		out = append(out, r2.Vec{X: w / 2 * math.Cos(math.Pi*y/l), Y: y})
	}
	for i := range n {
		y := l * (0.5 - float64(i)/n)
		out = append(out, r2.Vec{X: -w / 2 * math.Cos(math.Pi*y/l), Y: y})
	}
	return out
}

func disc(d float64) []r2.Vec {
	const n = 90
	var out []r2.Vec
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		out = append(out, r2.Vec{X: d / 2 * cos, Y: d / 2 * sin})
	}
	return out
}

func rect(w, l float64) []r2.Vec {
	return []r2.Vec{{}, {X: w}, {X: w, Y: l}, {Y: l}}
}

// tube is a rolled tube with a head that is cut at a slant, by depth from its highest
// to its lowest point.
func tube(w, l, depth float64) []r2.Vec {
	const n = 48
	out := []r2.Vec{{}, {X: w}}
	for i := range n {
		x := w * (1 - float64(i)/n)
		out = append(out, r2.Vec{X: x, Y: l - depth*(1-math.Cos(2*math.Pi*x/w))/2})
	}
	return append(out, r2.Vec{Y: l})
}

// aslant is the same with its seam at the side, half way up.
func aslant(w, l, depth float64) []r2.Vec {
	const n = 48
	out := []r2.Vec{{}, {X: w}}
	for i := range n + 1 {
		x := w * (1 - float64(i)/n)
		out = append(out, r2.Vec{X: x, Y: l - depth*(1-math.Sin(2*math.Pi*x/w))/2})
	}
	return out
}

// sector is an annular sector about the y axis.
func sector(small, large, angle float64) []r2.Vec {
	const n = 40
	var out []r2.Vec
	arc := func(r, from, to float64) {
		for i := range n + 1 {
			sin, cos := math.Sincos(from + (to-from)*float64(i)/n)
			out = append(out, r2.Vec{X: r * sin, Y: r * cos})
		}
	}
	arc(large, angle/2, -angle/2)
	arc(small, -angle/2, angle/2)
	return out
}

// bar is a straight strip that lies at an angle in its flat.
func bar(w, l, angle float64) []r2.Vec { return pose{angle: angle}.all(rect(w, l)) }

func blank(name string, m *design.Metal, n int, outline []r2.Vec) *flat.Blank {
	b := design.Bounds(outline)
	return &flat.Blank{Name: name, Part: name, Metal: m, Quantity: n, Outline: outline, Width: b.Max.X - b.Min.X, Length: b.Max.Y - b.Min.Y}
}

const inch = 25.4

func mild(name string, thickness float64) *design.Metal {
	return &design.Metal{Name: name, Alloy: "low-carbon-steel", Thickness: thickness, Yield: 140, Density: 7850}
}

// hand is a shop with a shear of 54 in and sheets of 48 by 96 in of each metal.
func hand(metals ...*design.Metal) design.Shop {
	s := design.Shop{Shear: &design.Shear{
		Capacity: design.Capacity{Width: 54 * inch, Alloy: "low-carbon-steel", Gauge: 16, Thickness: 1.51892, Yield: 140},
		Least:    0.75 * inch,
	}}
	for _, m := range metals {
		s.Sheets = append(s.Sheets, design.Sheet{Metal: m, Width: 48 * inch, Length: 96 * inch, Turn: true})
	}
	return s
}

// anyInput makes blanks of many shapes and a shop for them at random.
func anyInput(rnd *rand.Rand, blanks int) Input {
	skin, wrap, slab := mild("skin", 1.2), mild("wrap", 1.5), mild("slab", 8)
	metals := []*design.Metal{skin, wrap, slab}
	in := Input{Shop: hand(skin, wrap, slab)}
	rnd.IntN(2) // keeps the designs that follow
	if rnd.IntN(2) == 0 {
		in.Modest = metals
	}
	s := &in.Shop
	for i := range s.Sheets {
		h := &s.Sheets[i]
		h.Turn = rnd.IntN(3) > 0
		h.Trim = float64(rnd.IntN(3)) * 5
		if rnd.IntN(2) == 0 {
			h.Price = float64(40 + rnd.IntN(200))
		}
		if rnd.IntN(6) == 0 {
			h.Stocked, h.Stock = true, rnd.IntN(3)
		}
	}
	if rnd.IntN(2) == 0 {
		s.Sheets = append(s.Sheets, design.Sheet{Metal: skin, Width: 1000, Length: 2000, Turn: true, Price: float64(rnd.IntN(2) * 70)})
	}
	if rnd.IntN(2) == 0 {
		s.Cutter = &design.Cutter{Kerf: float64(rnd.IntN(5)), Thickness: 12 * float64(rnd.IntN(2)), Width: 1300 * float64(rnd.IntN(2)), Length: 2500 * float64(rnd.IntN(2))}
	}
	switch rnd.IntN(6) {
	case 0:
		s.Shear.Width = 700 + 600*rnd.Float64()
	case 1:
		if s.Cutter != nil {
			s.Shear = nil
		}
	}
	for range rnd.IntN(3) {
		s.Offcuts = append(s.Offcuts, design.Offcut{Metal: metals[rnd.IntN(2)], Width: 100 + 500*rnd.Float64(), Length: 200 + 900*rnd.Float64(), Number: 1 + rnd.IntN(2)})
	}
	for i := range blanks {
		m := metals[min(rnd.IntN(7)/3, 2)]
		size := func(lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64()*rnd.Float64() }
		var o []r2.Vec
		n := 1
		switch rnd.IntN(7) {
		case 0:
			o, n = lens(size(20, 150), size(100, 700)), 6+rnd.IntN(12)
		case 1:
			o, n = disc(size(30, 500)), 1+rnd.IntN(8)
		case 2:
			o = rect(size(15, 700), size(50, 1500))
		case 3:
			w := size(60, 500)
			o, n = []func(w, l, depth float64) []r2.Vec{tube, aslant}[rnd.IntN(2)](w, size(100, 1500)+w, w*rnd.Float64()), 1+rnd.IntN(3)
		case 4:
			r := size(100, 600)
			o, n = sector(r, r+size(20, 200), 0.3+5.5*rnd.Float64()), 1+rnd.IntN(5)
		case 5:
			o, n = bar(size(20, 80), size(100, 600), 2*rnd.Float64()), 1+rnd.IntN(3)
		case 6:
			if i > 0 {
				last := in.Blanks[len(in.Blanks)-1]
				o, m = last.Outline, last.Metal // of another part, cut alike
			} else {
				o = rect(100, 200)
			}
		}
		in.Blanks = append(in.Blanks, blank(fmt.Sprint("part ", i), m, n, o))
	}
	return in
}
