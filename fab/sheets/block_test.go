package sheets

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/param/design"
)

// kindOf returns the kind of an outline, laid as it is drawn.
func kindOf(outline []r2.Vec, n int) *kind {
	return gather([]*flat.Blank{blank("a", mild("skin", 1), n, outline)}, func(*design.Metal) bool { return false })[0]
}

// TestTogether looks at every block that is offered: its pieces lie within it, a
// gap apart, and some no farther; and it takes less than its pieces alone.
func TestTogether(t *testing.T) {
	for _, tt := range []struct {
		name    string
		outline []r2.Vec
		n       int
	}{
		{"gores", lens(95, 480), 16},
		{"slim gores", lens(40, 480), 24},
		{"discs", disc(200), 20},
		{"sectors", sector(300, 380, 1.6), 8},
		{"wide sectors", sector(120, 300, 3), 6},
		{"sectors of little turn", sector(200, 900, 0.4), 8},
		{"tubes cut aslant", aslant(300, 700, 280), 4},
		{"triangles", []r2.Vec{{}, {X: 200}, {X: 100, Y: 300}}, 9},
	} {
		k := kindOf(tt.outline, tt.n)
		blocks := k.together(HandGap, 1320, 1320, tt.n)
		if len(blocks) == 0 {
			t.Errorf("%s: no block", tt.name)
		}
		best := 1.0
		for i := range blocks {
			b := &blocks[i]
			if !newChecker(k, HandGap).sound(b) {
				t.Errorf("%s: a block of %d is not sound", tt.name, len(b.pieces))
			}
			share := b.w * b.h / (float64(len(b.pieces)) * k.w * k.h)
			if best = min(best, share); share > 1-worth+1e-9 {
				t.Errorf("%s: a block of %d takes %.3f of its pieces alone", tt.name, len(b.pieces), share)
			}
			var at [][]r2.Vec
			for _, q := range b.pieces {
				at = append(at, q.all(k.laid))
			}
			near := math.Inf(1)
			for i, o := range at {
				box := design.Bounds(o)
				if box.Min.X < -1e-9 || box.Min.Y < -1e-9 || box.Max.X > b.w+1e-9 || box.Max.Y > b.h+1e-9 {
					t.Errorf("%s: piece %d at %v leaves its block of %g by %g", tt.name, i, box, b.w, b.h)
				}
				for _, p := range at[:i] {
					near = min(near, distance(o, p))
				}
			}
			if math.Abs(near-HandGap) > 2*within {
				t.Errorf("%s: the nearest pieces in a block of %d are %g apart, want %g", tt.name, len(b.pieces), near, HandGap)
			}
		}
		t.Logf("%s: %d blocks, the best takes %.3f of its pieces alone", tt.name, len(blocks), best)
	}
}

// TestDiscs holds blocks of discs against the closest rows that there are: those
// of one row lie between those of the next, so that a row rises by the root of
// three quarters of the distance of two discs.
func TestDiscs(t *testing.T) {
	const d, gap = 200, 1e-3
	k := kindOf(disc(d), 24)
	rise := (d + gap) * math.Sqrt(3) / 2
	want := map[int]float64{} // by number, the least area of rows upright
	for rows := 2; rows <= 8; rows++ {
		for across := 1; across <= 10; across++ {
			// Rows of one length need half a disc more, those of one less do not.
			for less, w := range []float64{(float64(across) + 0.5) * d, float64(across) * d} {
				h := d + float64(rows-1)*rise
				if n := rows*across - less*(rows/2); w <= 2000 && h <= 2000 && (want[n] == 0 || w*h < want[n]) {
					want[n] = w * h
				}
			}
		}
	}
	found := k.together(gap, 2000, 2000, 24)
	for _, b := range found {
		// The discs here are polygons of 90 sides, which come a little closer.
		if got, want := b.w*b.h, want[len(b.pieces)]; math.Abs(got/want-1) > 2e-3 {
			t.Errorf("%d discs take %g by %g, %g mm2, want %g", len(b.pieces), b.w, b.h, got, want)
		}
	}
	if len(found) < 3 {
		t.Errorf("only %d blocks were found", len(found))
	}
}

// TestSectorsNest: a sector pushed along its middle line after another comes to
// rest on the corners of its inner arc: at half the chord x of that, the outer
// arc is sqrt(R2 - x2) up and the inner sqrt(r2 - x2).
func TestSectorsNest(t *testing.T) {
	for _, s := range [][3]float64{{300, 380, 1.6}, {120, 300, 2.5}, {900, 1000, 0.5}} {
		k := kindOf(sector(s[0], s[1], s[2]), 2)
		x := s[0] * math.Sin(s[2]/2)
		want := math.Sqrt(s[1]*s[1]-x*x) - s[0]*math.Cos(s[2]/2)
		// The arcs here are chords of a fortieth of the angle, flat by r a2/8.
		slack := s[1] * math.Pow(s[2]/40, 2) / 8
		if got := newNest(k, 1e-9, false).set(0, 0, 0); math.Abs(got-want) > slack {
			t.Errorf("sectors of %v come to rest %g apart, want %g", s, got, want)
		}
	}
}

// TestSpaced moves outlines by what spaced returns: there they are the gap
// apart, and nearer they are not.
func TestSpaced(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	any := func() []r2.Vec {
		switch rnd.IntN(5) {
		case 0:
			return lens(20+100*rnd.Float64(), 50+400*rnd.Float64())
		case 1:
			return disc(20 + 200*rnd.Float64())
		case 2:
			return sector(100, 130+100*rnd.Float64(), 0.2+3*rnd.Float64())
		case 3:
			return bar(20+40*rnd.Float64(), 100+100*rnd.Float64(), 3*rnd.Float64())
		}
		return tube(100, 150+100*rnd.Float64(), 100*rnd.Float64())
	}
	for n := range 300 {
		a, b := any(), any()
		gap := 0.5 + 5*rnd.Float64()
		d := 300 * (rnd.Float64() - 0.5)
		right, left := rightEdge(a), leftEdge(b)
		x := spaced(&right, &left, d, gap)
		ba, bb := design.Bounds(a), design.Bounds(b)
		if math.IsInf(x, -1) {
			if bb.Min.Y+d < ba.Max.Y+gap-1e-9 && bb.Max.Y+d > ba.Min.Y-gap+1e-9 {
				t.Fatalf("%d: outlines side by side do not meet", n)
			}
			continue
		}
		at := func(x float64) float64 { return distance(a, pose{at: r2.Vec{X: x, Y: d}}.all(b)) }
		if got := at(x); got < gap-1e-9 {
			t.Fatalf("%d: set %g away they are %g apart, want %g", n, x, got, gap)
		}
		// A touch nearer they are too close, but for a corner that is level with
		// the gap's end.
		if got := at(x - 0.01); got > gap && bb.Min.Y+d < ba.Max.Y-1 && bb.Max.Y+d > ba.Min.Y+1 {
			if at(x-2) > gap {
				t.Fatalf("%d: they could be set nearer than %g", n, x)
			}
		}
	}
}

// TestSmallest: a bar that lies askew in its flat comes to lie along its sides.
func TestSmallest(t *testing.T) {
	for _, angle := range []float64{0.1, 0.8, 2, -0.5} {
		q, w, h := smallest(bar(40, 300, angle))
		if math.Abs(w-300) > 1e-9 || math.Abs(h-40) > 1e-9 {
			t.Errorf("a bar of 40 by 300 at %g rad takes %g by %g", angle, w, h)
		}
		if b := design.Bounds(q.all(bar(40, 300, angle))); math.Abs(b.Min.X) > 1e-9 || math.Abs(b.Min.Y) > 1e-9 {
			t.Errorf("its corner is at %v", b.Min)
		}
	}
}

// TestCore: what a tube's bound rests on is its straight part.
func TestCore(t *testing.T) {
	k := kindOf(tube(300, 700, 200), 1)
	if w, h := k.core(); math.Abs(w-500) > 0.02 || math.Abs(h-300) > 0.02 {
		t.Errorf("core = %g by %g, want 500 by 300", w, h)
	}
	if w, h := kindOf(aslant(300, 700, 200), 1).core(); math.Abs(w-500) > 0.5 || math.Abs(h-300) > 0.02 {
		t.Errorf("core = %g by %g, want 500 by 300", w, h)
	}
	for _, o := range [][]r2.Vec{disc(100), lens(50, 300)} {
		if w, h := kindOf(o, 1).core(); w > 10 && h > 10 && w*h > 0.2*area(o) {
			t.Errorf("core = %g by %g of an outline without straight sides", w, h)
		}
	}
}

func BenchmarkTogether(b *testing.B) {
	k := kindOf(lens(95, 480), 16)
	for b.Loop() {
		k.together(HandGap, 1320, 1320, 16)
	}
}

// TestCoreOfNotch: long sides that come inside count with all of their height.
func TestCoreOfNotch(t *testing.T) {
	// 300 wide and 700 high, with a notch from the top down to 100.
	notched := []r2.Vec{{}, {X: 300}, {X: 300, Y: 700}, {X: 160, Y: 100}, {X: 140, Y: 700}, {Y: 700}}
	if w, h := kindOf(notched, 1).core(); w*h > 140*700 {
		t.Errorf("core = %g by %g, larger than any rectangle beside the notch or below it", w, h)
	}
}

// TestSound: a block whose pieces overlap or come too close is distinguished from one
// whose pieces do not.
func TestSound(t *testing.T) {
	k := kindOf(lens(90, 480), 2)
	c := newChecker(k, HandGap)
	for _, tt := range []struct {
		at   pose
		want bool
	}{
		{pose{at: r2.Vec{Y: 90 + HandGap}}, true},
		{pose{at: r2.Vec{Y: 90 + HandGap - 0.1}}, false},
		{pose{at: r2.Vec{X: 240, Y: 40}}, false},
		{pose{at: r2.Vec{X: 480 + HandGap}}, true},
		{pose{math.Pi, r2.Vec{X: 480, Y: 180 + HandGap}}, true},
		{pose{math.Pi, r2.Vec{X: 480, Y: 180}}, false},
	} {
		if got := c.sound(&block{1000, 1000, []pose{{}, tt.at}}); got != tt.want {
			t.Errorf("sound with the second piece at %v = %v, want %v", tt.at, got, tt.want)
		}
	}
}

// The smallest rectangle is no larger than that on any side of the hull, whatever the
// outline, and holds it.
func TestSmallestOfAll(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	for range 2000 {
		outline := make([]r2.Vec, 3+r.IntN(60))
		long := 10 * r.Float64()
		for i := range outline {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(outline)))
			outline[i] = r2.Vec{X: long * cos * (1 + 0.3*r.Float64()), Y: sin * (1 + 0.3*r.Float64())}
		}
		hull := design.Hull(outline)
		least := math.Inf(1)
		for i, p := range hull {
			u := r2.Unit(r2.Sub(hull[(i+1)%len(hull)], p))
			low, high, top := math.Inf(1), math.Inf(-1), 0.0
			for _, q := range hull {
				rel := r2.Sub(q, p)
				low, high, top = min(low, r2.Dot(rel, u)), max(high, r2.Dot(rel, u)), max(top, r2.Cross(u, rel))
			}
			least = min(least, (high-low)*top)
		}
		if _, w, h := smallest(outline); math.Abs(w*h/least-1) > 1e-8 {
			t.Fatalf("smallest(%v) is %v by %v, of %v; the least is %v", outline, w, h, w*h, least)
		}
	}
}
