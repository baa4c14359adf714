package flat

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// upright returns a post along +Z whose foot stands on the side of a level post
// along +X, beside its axis by e.
func upright(diameter, host, e float64) *design.Part {
	main := newPost(host, 1.5, 1000, r3.Vec{X: -500}, r3.Vec{X: 1})
	main.Name = "main"
	r := host / 2
	p := newPost(diameter, 1.5, 300, r3.Vec{Y: e, Z: math.Sqrt(max(0, r*r-e*e))}, design.Upright)
	p.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnSide, With: main}
	return p
}

// TestEqualDiametersSquare has two tubes of one diameter meet at 90 deg. The
// inside of the wall touches first all round, at sqrt(R^2 - (ri sin)^2): the
// classic tee, whose two corners are as sharp as the wall is thin.
func TestEqualDiametersSquare(t *testing.T) {
	p := upright(60, 60, 0)
	d := develop(t, p)
	b := &d.Blanks[0]
	foot, _ := curves(*b)
	checkEnd(t, p, b, 0, foot)
	checkOutline(t, *b)
	deepest := 0.0
	for _, q := range foot {
		deepest = min(deepest, q.Y)
	}
	if want := math.Sqrt(30*30-28.5*28.5) - 30; math.Abs(deepest-want) > 1e-3 {
		t.Errorf("the cope is %v deep, want %v", deepest, want)
	}
	// The outside meets the other's along two half ellipses of half axes 30 and
	// 30 sqrt 2: twice half of an ellipse's perimeter by Ramanujan's formula.
	a, c := 30.0, 30*math.Sqrt2
	h := (a - c) * (a - c) / ((a + c) * (a + c))
	want := math.Pi * (a + c) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
	if math.Abs(d.Welds[0]/want-1) > 5e-3 {
		t.Errorf("weld %v, two half ellipses are %v", d.Welds[0], want)
	}
}

// TestGrazing brings branches and posts to where they just miss.
func TestGrazing(t *testing.T) {
	for _, tt := range []struct {
		name string
		part *design.Part
		want string // part of the reason, or "" where it can be made
	}{
		{"beside, within", upright(40, 100, 29.999), ""},
		{"beside, past", upright(40, 100, 30.01), "runs past the side of post 'main'"},
		{"wider than its host", upright(60.01, 60, 0), "runs past the side"},
		{"along its host", func() *design.Part {
			p := upright(40, 100, 0)
			p.Post.Direction = r3.Vec{X: 1}
			return p
		}(), "runs along post 'main'"},
		{"at a slant of 3 deg", func() *design.Part {
			p := upright(40, 100, 0)
			p.Post.Length = 3000
			p.Post.Ends[design.Foot].With.Post.Ends[design.Foot].At.X, p.Post.Ends[design.Foot].With.Post.Length = -3000, 6000
			sin, cos := math.Sincos(3 * math.Pi / 180)
			p.Post.Direction = r3.Vec{X: cos, Z: sin}
			return p
		}(), ""},
		{"r + e close to R", func() *design.Part {
			p := newPost(60, 1.5, 500, r3.Vec{X: 69.9999, Z: math.Sqrt(1e4 - 69.9999*69.9999)}, design.Upright)
			p.Post.Ends[design.Foot].Contact = onBall(newBall(200, 1.5, design.Halves, 0, r3.Vec{}))
			return p
		}(), ""},
		{"folded back", func() *design.Part {
			p := newPost(60, 1.5, 500, r3.Vec{}, r3.Unit(r3.Vec{X: 0.001, Z: -1}))
			host := newPost(60, 1.5, 500, r3.Vec{Z: -500}, design.Upright)
			p.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnHead, With: host}
			return p
		}(), "folds back"},
		{"level on a wide head", func() *design.Part {
			p := newPost(40, 1.5, 500, r3.Vec{}, r3.Vec{X: 1})
			host := newPost(100, 1.5, 500, r3.Vec{Z: -500}, design.Upright)
			p.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnHead, With: host}
			return p
		}(), "lies along the head"},
		{"needle of a taper", func() *design.Part {
			p := newPost(100, 1, 500, r3.Vec{}, design.Upright)
			p.Post.Ends[design.Head].Diameter = 2.1
			return p
		}(), ""},
		{"flat cone", func() *design.Part {
			p := newPost(400, 1, 30, r3.Vec{}, design.Upright)
			p.Post.Ends[design.Head].Diameter = 60
			return p
		}(), ""},
	} {
		d, wrong := Develop(tt.part)
		if err := wrong.Err(); tt.want != "" {
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("%s: %v, want %q", tt.name, err, tt.want)
			}
			continue
		} else if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		b := &d.Blanks[0]
		checkOutline(t, *b)
		foot, _ := ends(b)
		if tt.part.Post.Ends[design.Foot].Meets != design.Free {
			checkEnd(t, tt.part, b, 0, foot)
		}
		if len(b.Outline) > 2000 {
			t.Errorf("%s: outline of %d points", tt.name, len(b.Outline))
		}
	}
}

// TestTinyCapAndNeedles closes balls by what is hardly there.
func TestTinyCapAndNeedles(t *testing.T) {
	for _, build := range []design.Construction{design.RolledGores, design.DomedGores} {
		p := newBall(300, 1.5, build, 12, r3.Vec{})
		p.Ball.Caps = 2
		d := develop(t, p)
		said := false
		for _, f := range d.Findings {
			n, ok := f.Fact.(NarrowGores)
			said = said || ok && f.Level == finding.Caution && n.Width < n.Least
		}
		if !said {
			t.Errorf("%v: no caution of points as narrow as a cap of 2 mm leaves: %v", build, d.Findings)
		}
		for _, b := range d.Blanks {
			checkOutline(t, b)
		}
		p.Ball.Caps = 0
		b := develop(t, p).Blanks[0]
		if w := b.Outline[0].X * 2; math.Abs(w-leastTip) > 1e-9 {
			t.Errorf("%v: tips %v wide, want them blunt at %v", build, w, leastTip)
		}
	}
}

// TestMitre fits two posts at every angle: their cut ends, turned about the
// joint's plane, are each other's mirror image.
func TestMitre(t *testing.T) {
	for _, deg := range []float64{0, 1, 20, 45, 90, 120} {
		lower := newPost(80, 2, 500, r3.Vec{}, design.Upright)
		lower.Name = "lower"
		u := design.Leaning(deg*math.Pi/180, 0.4)
		upper := newPost(80, 2, 600, lower.Post.Ends[design.Head].At, u)
		lower.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnHead, With: upper}
		upper.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnHead, With: lower}
		below, above := develop(t, lower), develop(t, upper)
		n := r3.Unit(r3.Add(design.Upright, u))
		for i, d := range []Developed{below, above} {
			rim := d.Rims[1-i]
			most, least := math.Inf(-1), math.Inf(1)
			for _, x := range rim {
				s := r3.Dot(r3.Sub(x, lower.Post.Ends[design.Head].At), n)
				most, least = max(most, s), min(least, s)
			}
			// The outside edge touches the plane on one side and hangs off it on
			// the other, where the inside touches.
			if i == 0 && most > 1e-9 || i == 1 && least < -1e-9 {
				t.Errorf("%v deg: post %d goes through the plane of the mitre: %v to %v", deg, i, least, most)
			}
			if deg == 0 && (len(d.Blanks[0].Outline) != 4 || len(d.Blanks[0].Ordinates) > 0) {
				t.Errorf("in line: an end that is not square")
			}
		}
		// Their longest sides: half the tube's width goes to either side.
		if want := 500 + 39*math.Tan(deg*math.Pi/360); deg > 0 && math.Abs(below.Blanks[0].Length-want) > 2.1*math.Tan(deg*math.Pi/360) {
			t.Errorf("%v deg: the lower post is %v long, want about %v", deg, below.Blanks[0].Length, want)
		}
	}
}

// simplified returns the least number of points of a curve whose chords stay
// near it, by the Douglas-Peucker algorithm on a dense sampling.
func simplified(curve []r2.Vec, room float64) int {
	var keep func(from, to int) int
	keep = func(from, to int) int {
		far, at := room, -1
		for i := from + 1; i < to; i++ {
			if d := toSegment(curve[i], curve[from], curve[to]); d > far {
				far, at = d, i
			}
		}
		if at < 0 {
			return 1
		}
		return keep(from, at) + keep(at, to)
	}
	return keep(0, len(curve)-1) + 1
}

// TestPointsNearTheLeast compares the number of corners of trimmed edges with
// what Douglas and Peucker's algorithm (1973) keeps of a dense curve at the same
// distance, although its chords may run on either side.
func TestPointsNearTheLeast(t *testing.T) {
	ours, least := 0, 0
	for n, kind := range jointKinds() {
		rng := rand.New(rand.NewPCG(21, uint64(n)))
		mine, theirs := 0, 0
		for range 60 {
			p, i := randomJoint(rng, kind)
			if p.Post.IsTaper() {
				continue
			}
			d := developer{part: p, setting: newSetting(0, nil)}
			tube, _ := d.tube()
			e := &trim{tube: &tube, head: i == 1}
			surface, _ := d.surface(i)
			on := e.meet(surface)
			round := tube.round()
			if !e.run(&on, &round) {
				t.Fatal("misses")
			}
			if e.square {
				continue
			}
			const dense = 3000
			curve := make([]r2.Vec, dense+1)
			for k := range curve {
				c := e.cut(&on, tube.turn*float64(k)/dense)
				curve[k] = r2.Vec{X: tube.mean * c.angle, Y: c.y}
			}
			mine += len(e.edge(nil, 0, tube.turn, tube.turn/2))
			theirs += simplified(curve, edgeRoom)
		}
		t.Logf("%s: %d corners, %d would do: %.2f", kind.name, mine, theirs, float64(mine)/float64(theirs))
		ours += mine
		least += theirs
	}
	ratio := float64(ours) / float64(least)
	t.Logf("%d corners where %d would do: %.2f", ours, least, ratio)
	if ratio > 1.5 {
		t.Errorf("%d corners, %.2f times what a simplified dense curve keeps", ours, ratio)
	}
}
