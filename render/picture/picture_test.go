package picture

import (
	"image"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/solid"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/internal/sample"
)

// job loads and works out a design.
func job(t testing.TB, dir, name string) *fab.Job {
	t.Helper()
	d, err := param.Load(os.DirFS(dir), name+".stabile", param.Options{})
	require.NoError(t, err)
	j, wrong := fab.Build(d, 0)
	require.NoError(t, wrong.Err())
	return j
}

// examples returns the designs of the examples folder and one of every kind of
// solid.
func examples(t testing.TB) map[string]*fab.Job {
	t.Helper()
	paths, err := filepath.Glob("../../examples/*.stabile")
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	all := map[string]*fab.Job{"every-kind": job(t, "cast/testdata", "every-kind")}
	for _, p := range paths {
		name := strings.TrimSuffix(filepath.Base(p), ".stabile")
		all[name] = job(t, filepath.Dir(p), name)
	}
	return all
}

func scene(t testing.TB, j *fab.Job, o Options) *Scene {
	t.Helper()
	s, err := New(j, o)
	require.NoError(t, err)
	return s
}

// The same picture comes out on one core and on several, and again.
func TestSameOnAnyCores(t *testing.T) {
	for name, j := range examples(t) {
		s := scene(t, j, Options{Beside: Person, Person: 1750, Seed: 7})
		var first *image.RGBA
		for _, cores := range []int{1, 2, 2, 5} {
			before := runtime.GOMAXPROCS(cores)
			img := s.Render(170, 130)
			runtime.GOMAXPROCS(before)
			if first == nil {
				first = img
			}
			require.Equal(t, first.Pix, img.Pix, "%s on %d cores", name, cores)
		}
		other := scene(t, j, Options{Beside: Person, Person: 1750, Seed: 8}).Render(170, 130)
		if string(other.Pix) == string(first.Pix) {
			t.Errorf("%s: another seed gives the same picture", name)
		}
	}
}

// checkLight renders a scene and sees that all light in it is a number, not
// negative and not without end, and that the picture is opaque.
func checkLight(t *testing.T, name string, s *Scene, w, h int) {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	win := s.view.window(w, h)
	f := newFrame(s, &win, img)
	f.each((*worker).look)
	f.each((*worker).finish)
	for i, p := range f.light {
		for _, v := range [3]float32{p.r, p.g, p.b} {
			if !(v >= 0 && v < 200) {
				t.Fatalf("%s: light %v at %d, %d", name, p, i%w, i/w)
			}
		}
		if img.Pix[4*i+3] != 255 {
			t.Fatalf("%s: %d, %d is not opaque", name, i%w, i/w)
		}
	}
}

func TestLightIsFinite(t *testing.T) {
	for name, j := range examples(t) {
		for i := range 6 {
			o := Options{From: new(float64(i)), Sun: new(2 * float64(i)), Seed: uint64(i)}
			if i%2 == 1 {
				o.Person = 1700
			}
			if i == 5 {
				o.Eye = 6000 // from above
			}
			for _, f := range []*design.Finish{nil, {Kind: design.Paint, Name: "dark_green"}, {Kind: design.Galvanize}, {Kind: design.Weather}, {Kind: design.Brushed}} {
				d := *j.Design
				d.Finish = f
				k := *j
				k.Design = &d
				checkLight(t, name, scene(t, &k, o), 60, 45)
			}
		}
	}
	for seed := range uint64(12) {
		j := sample.Job(sample.Random(seed, 3+int(seed)*3, quantity.Millimetre))
		checkLight(t, j.Design.Title, scene(t, j, Options{Beside: Person, Person: 1750, Seed: seed}), 64, 48)
	}
}

// resized returns a job of the given size, as the picture sees it.
func resized(j *fab.Job, f float64) *fab.Job {
	d := *j.Design
	d.Finish = nil
	k := &fab.Job{Design: &d, Parts: make([]fab.Part, len(j.Parts)), Ties: j.Ties}
	of := make(map[*design.Part]*design.Part)
	for i := range j.Parts {
		p := *j.Parts[i].Part
		switch {
		case p.Base != nil:
			b := *p.Base
			b.Width, b.Depth, b.Top = f*b.Width, f*b.Depth, f*b.Top
			p.Base = &b
		case p.Post != nil:
			b := *p.Post
			b.Ends[design.Foot].At, b.Ends[design.Head].At, b.Length = r3.Scale(f, b.Ends[design.Foot].At), r3.Scale(f, b.Ends[design.Head].At), f*b.Length
			b.Ends[design.Foot].Diameter, b.Ends[design.Head].Diameter = f*b.Ends[design.Foot].Diameter, f*b.Ends[design.Head].Diameter
			p.Post = &b
		case p.Ball != nil:
			b := *p.Ball
			b.Center, b.Radius, b.Caps = r3.Scale(f, b.Center), f*b.Radius, f*b.Caps
			p.Ball = &b
		}
		if p.Metal != nil {
			m := *p.Metal
			m.Thickness *= f
			p.Metal = &m
		}
		k.Parts[i] = fab.Part{Part: &p}
		of[j.Parts[i].Part] = &p
	}
	for i := range k.Parts {
		if p := k.Parts[i].Post; p != nil {
			p.Ends[design.Foot].With, p.Ends[design.Head].With = of[p.Ends[design.Foot].With], of[p.Ends[design.Head].With]
		}
		k.Parts[i].Body = solid.New(k.Parts[i].Part, [2][]r3.Vec{})
	}
	return k
}

// Pieces as small as a bead and as large as a mountain are framed like any.
func TestSizes(t *testing.T) {
	j := job(t, "../../examples", "slow-tide")
	for _, f := range []float64{1e-4, 1e-2, 1, 100, 1e4} {
		s := scene(t, resized(j, f), Options{})
		checkLight(t, "scaled", s, 80, 60)
		if share := pieceShare(s, 80, 60); share < 0.02 || share > 0.6 {
			t.Errorf("at %v times its size the piece takes %.3f of the picture", f, share)
		}
	}
	if _, err := New(resized(j, 1e6), Options{}); err == nil {
		t.Error("a piece of a thousand kilometres has a picture")
	}
}

// pieceShare returns the share of a picture that shows the piece.
func pieceShare(s *Scene, w, h int) float64 {
	n := 0
	for _, what := range ids(s, w, h) {
		if what >= 0 {
			n++
		}
	}
	return float64(n) / float64(w*h)
}

// ids returns what the middle of each pixel shows.
func ids(s *Scene, w, h int) []int32 {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	win := s.view.window(w, h)
	f := newFrame(s, &win, img)
	f.each((*worker).look)
	out := make([]int32, len(f.light))
	for i := range f.light {
		out[i] = f.light[i].what
	}
	return out
}

func TestNothingToSee(t *testing.T) {
	if _, err := New(&fab.Job{Design: &design.Design{}}, Options{}); err == nil {
		t.Error("a design of no part has a picture")
	}
}

// Neither the piece nor the figure is cut off by the edge, from anywhere, and
// the two fill the picture one way or the other.
func TestFraming(t *testing.T) {
	for name, j := range examples(t) {
		for i := range 8 {
			for _, o := range []Options{{}, {Beside: Person, Person: 1750}, {Beside: Person, Person: 1750, Distance: 2500}, {Eye: 5000}, {Round: true, Beside: Person, Person: 1750}} {
				o.From = new(float64(i) * math.Pi / 4)
				s, err := New(j, o)
				if err != nil {
					continue // the eye would stand in the piece
				}
				const w, h = 120, 90
				left, right, top, bottom := w, -1, h, -1
				win := s.view.window(w, h)
				var figure *mask
				if s.figure != nil {
					figure = s.figure.mask(&win, image.Rect(0, 0, w, h))
				}
				for k, what := range ids(s, w, h) {
					if what < 0 && figure.at(k%w, k/w) == 0 {
						continue
					}
					x, y := k%w, k/w
					left, right, top, bottom = min(left, x), max(right, x), min(top, y), max(bottom, y)
				}
				if left < 2 || right > w-3 || top < 2 || bottom > h-3 {
					t.Errorf("%s %+v: cut off: columns %d to %d, rows %d to %d", name, o, left, right, top, bottom)
				}
				if !o.Round && right-left < w*6/10 && bottom-top < h*6/10 {
					t.Errorf("%s %+v: lost in the picture: columns %d to %d, rows %d to %d", name, o, left, right, top, bottom)
				}
			}
		}
	}
}

// Turning by nothing changes nothing, and a full turn comes back.
func TestTurned(t *testing.T) {
	s := scene(t, job(t, "../../examples", "slow-tide"), Options{Round: true, Beside: Person, Person: 1750})
	same, err := s.Turned(0)
	require.NoError(t, err)
	require.Equal(t, s.Render(80, 60).Pix, same.Render(80, 60).Pix)
	other, err := s.Turned(math.Pi)
	require.NoError(t, err)
	if string(other.Render(80, 60).Pix) == string(s.Render(80, 60).Pix) {
		t.Error("turned half round it looks the same")
	}
	// The frame stays to within rounding.
	a, b := s.view.window(80, 60), other.view.window(80, 60)
	if math.Abs(a.pixel/b.pixel-1) > 0.002 || math.Abs(a.y0-b.y0) > a.pixel/4 {
		t.Errorf("the frame moves as the piece is turned: %v, then %v", a, b)
	}
}

func TestEyeInThePiece(t *testing.T) {
	_, err := New(job(t, "../../examples", "slow-tide"), Options{Distance: 100})
	require.ErrorContains(t, err, "farther")
}

// No place to stand, and no light, brings a panic or light that is no number.
func FuzzOptions(f *testing.F) {
	j := job(f, "cast/testdata", "every-kind")
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, uint64(0))
	f.Add(4.0, 1600.0, 3000.0, 1750.0, 1.0, uint64(1))
	f.Add(-1.0, 0.1, 700.0, 300.0, 1e5, uint64(2))
	f.Add(math.Pi/2, 1e7, 1.0, 3000.0, math.Pi, uint64(3))
	f.Add(math.Inf(1), math.NaN(), -1.0, 1e300, math.NaN(), uint64(4))
	f.Fuzz(func(t *testing.T, from, eye, distance, person, sun float64, seed uint64) {
		o := Options{From: &from, Eye: eye, Distance: distance, Person: person, Sun: &sun, Seed: seed}
		o.Place, o.Light = Places()[seed%5], Lights()[seed/5%3]
		o.Beside = Measure(seed / 15 % 5)
		s, err := New(j, o)
		if err != nil {
			return
		}
		checkLight(t, "fuzzed", s, 24, 18)
	})
}

func TestHeightText(t *testing.T) {
	for _, tt := range []struct {
		mm   float64
		s    quantity.System
		want string
	}{
		{1752.6, quantity.Inch, "5 ft 9 in"},
		{1750, quantity.Millimetre, "1.75 m"},
		{1800, quantity.Millimetre, "1.8 m"},
		{1828.8, quantity.Inch, "6 ft"},
		{1828.7, quantity.Inch, "6 ft"}, // carries into the feet
		{1835.15, quantity.Inch, "6 ft 1/4 in"},
		{304.7, quantity.Inch, "12 in"},
		{838.2, quantity.Inch, "33 in"},
		{95, quantity.Millimetre, "95 mm"},
		{1000, quantity.Millimetre, "1 m"},
		{300, quantity.Inch, "11-3/4 in"},
	} {
		if got := heightText(tt.mm, tt.s); got != tt.want {
			t.Errorf("heightText(%v, %v) = %q, want %q", tt.mm, tt.s, got, tt.want)
		}
	}
}

func TestLookupColor(t *testing.T) {
	for _, tt := range []struct {
		text string
		want rgb
		ok   bool
	}{
		{"#ffffff", rgb{1, 1, 1}, true},
		{"#000", rgb{}, true},
		{"gray", linear(paints[4].color), true},
		{" Cream ", linear(paints[1].color), true},
		{"#12345", rgb{}, false},
		{"#12345g", rgb{}, false},
		{"#-12345", rgb{}, false},
		{"mauve", rgb{}, false},
		{"", rgb{}, false},
	} {
		c, ok := LookupColor(tt.text)
		if ok != tt.ok || ok && linear(c) != tt.want {
			t.Errorf("LookupColor(%q) = %v, %v, want %v, %v", tt.text, c, ok, tt.want, tt.ok)
		}
	}
}

// The table of tones is the film and the screen, to a fifth of one of the 256
// steps.
func TestTones(t *testing.T) {
	table := newTones()
	for x := 0.0; x < 14; x += 0.0007 {
		if got, want := float64(table.of(x)), screen(film(min(x, brightest))); math.Abs(got-want) > 0.2/255 {
			t.Fatalf("tone of %v = %v, want %v", x, got, want)
		}
	}
	if got := table.of(math.NaN()); got != table.of(0) {
		t.Errorf("tone of no number = %v", got)
	}
}

func BenchmarkPicture(b *testing.B) {
	for _, name := range []string{"slow-tide", "reed-bed", "winter-orchard"} {
		s := scene(b, job(b, "../../examples", name), Options{Beside: Person, Person: 1750})
		b.Run(name+"/1600x1200", func(b *testing.B) {
			for b.Loop() {
				s.Render(1600, 1200)
			}
		})
		b.Run(name+"/480x360", func(b *testing.B) {
			for b.Loop() {
				s.Render(480, 360)
			}
		})
	}
}

func BenchmarkNew(b *testing.B) {
	j := job(b, "../../examples", "reed-bed")
	for b.Loop() {
		if _, err := New(j, Options{Beside: Person, Person: 1750}); err != nil {
			b.Fatal(err)
		}
	}
}

// A rod thinner than a pixel is seen as an even grey line, not as dashes: all
// along it the sheet behind is changed by about as much.
func TestThinRods(t *testing.T) {
	b := sample.New("Rod", quantity.Millimetre, 300, 300)
	bare := sample.Job(b.Design)
	b.OnBase("rod", 0, 0, 6, 2000, 0.3, 0)
	d := b.Design
	d.Finish = &design.Finish{Kind: design.Paint, Name: "white"}
	s := scene(t, sample.Job(d), Options{From: new(1.5 * math.Pi), Place: Plain})
	const w, h = 160, 120
	win := s.view.window(w, h)
	if wide := 6 / (win.pixel * s.distance); wide > 0.5 {
		t.Fatalf("the rod is %.2f pixels wide, which is not thin", wide)
	}
	without := scene(t, bare, Options{From: new(1.5 * math.Pi), Place: Plain})
	without.view, without.stage, without.light = s.view, s.stage, s.light
	img, empty := s.Render(w, h), without.Render(w, h)
	least, most := math.Inf(1), 0.0
	for y := h / 6; y < h/3; y++ { // the rod before the sheet
		change := 0.0
		for x := range w {
			change += 1 - linear(img.At(x, y)).luminance()/linear(empty.At(x, y)).luminance()
		}
		least, most = min(least, math.Abs(change)), max(most, math.Abs(change))
	}
	if least < 0.05 || least < most/4 {
		t.Errorf("the rod changes from %.2f to %.2f of a pixel's light, row by row", least, most)
	}
}
