package picture

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/internal/sample"
)

// finished returns a job in another alloy and finish.
func finished(j *fab.Job, alloy string, f *design.Finish) *fab.Job {
	d := *j.Design
	d.Finish = f
	k := *j
	k.Design = &d
	k.Parts = make([]fab.Part, len(j.Parts))
	copy(k.Parts, j.Parts)
	for i := range k.Parts {
		if m := k.Parts[i].Metal; m != nil {
			p, metal := *k.Parts[i].Part, *m
			metal.Alloy = alloy
			p.Metal = &metal
			k.Parts[i].Part = &p
		}
	}
	return &k
}

// looks are metals and finishes that a smith tells apart at a glance.
var looks = []struct {
	name, alloy string
	finish      *design.Finish
}{
	{"mill scale", "low-carbon-steel", nil},
	{"ground", "low-carbon-steel", &design.Finish{Kind: design.Brushed}},
	{"brushed stainless", "stainless-304", &design.Finish{Kind: design.Brushed}},
	{"copper", "copper", nil},
	{"bronze", "silicon-bronze", nil},
	{"brass", "brass", nil},
	{"rust", "weathering-steel", nil},
	{"blue paint", "low-carbon-steel", &design.Finish{Name: "blue", Kind: design.Paint}},
	{"zinc", "low-carbon-steel", &design.Finish{Kind: design.Galvanize}},
}

// Each metal and finish differs from each other on the piece itself: in colour, or
// in how it is patterned, by several times what can just be distinguished.
func TestMetalsDiffer(t *testing.T) {
	j := job(t, "../../examples", "slow-tide")
	const w, h = 150, 200
	images := make([]image.Image, len(looks))
	var what []int32
	for i, l := range looks {
		s := scene(t, finished(j, l.alloy, l.finish), Options{Place: Plain})
		images[i] = s.Render(w, h)
		what = ids(s, w, h)
	}
	for a := range looks {
		for b := range a {
			sum, n := 0.0, 0
			for i, id := range what {
				if id >= 0 {
					p, q := lab(images[a], i%w, i/w, 1), lab(images[b], i%w, i/w, 1)
					sum += math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
					n++
				}
			}
			if d := sum / float64(n); d < 6 {
				t.Errorf("%s and %s differ by %.1f, want 6 (CIELAB)", looks[a].name, looks[b].name, d)
			}
		}
	}
}

// Each place and each light makes another picture of what is about the piece.
func TestPlacesDiffer(t *testing.T) {
	j := job(t, "../../examples", "slow-tide")
	images := make(map[string]image.Image)
	for _, p := range Places() {
		for _, l := range Lights() {
			images[string(p)+", "+string(l)] = scene(t, j, Options{Place: p, Light: l}).Render(96, 128)
		}
	}
	for a, x := range images {
		for b, y := range images {
			if a < b {
				if mean, _ := difference(t, x, y); mean < 3 {
					t.Errorf("%s and %s differ by %.1f in the mean, want 3 (CIELAB)", a, b, mean)
				}
			}
		}
	}
}

// The piece wins the eye: what is about it is darker than it, or warmer, or both,
// and there is no fog: nothing about the piece is as bright as the brightest of it.
func TestPieceWinsTheEye(t *testing.T) {
	for name, j := range examples(t) {
		for _, l := range looks {
			for _, place := range Places() {
				k := finished(j, l.alloy, l.finish)
				if l.name == "mill scale" && name == "every-kind" {
					continue // has a finish of its own
				}
				s := scene(t, k, Options{Place: place})
				const w, h = 96, 72
				img := s.Render(w, h)
				var piece, about rgb
				var most float64
				n, m := 0.0, 0.0
				for i, id := range ids(s, w, h) {
					c := linear(img.At(i%w, i/w))
					if id >= 0 {
						piece, n = piece.add(c), n+1
						most = max(most, c.luminance())
					} else {
						about, m = about.add(c), m+1
					}
				}
				piece, about = piece.scale(1/n), about.scale(1/m)
				darker := about.luminance() < 0.85*piece.luminance()
				warmer := about.r/about.b > 1.25*piece.r/piece.b
				cooler := piece.r/piece.b > 1.25*about.r/about.b
				if !darker && !warmer && !cooler {
					t.Errorf("%s in %s, %s: the piece has a light of %.3f (red to blue %.2f), what is about it %.3f (%.2f)",
						name, l.name, place, piece.luminance(), piece.r/piece.b, about.luminance(), about.r/about.b)
				}
				if l := about.luminance(); l > 0.20 || l > 0.6*most {
					t.Errorf("%s in %s, %s: fog: what is about the piece has a light of %.3f, the brightest of it %.3f", name, looks[0].name, place, l, most)
				}
			}
		}
	}
}

// Under the foot of a piece it is dark, in every place and light, also where the
// sun does not throw its shadow: at the edge of the base plate less than 0.7 of the
// light a plate's width away.
func TestContactShadow(t *testing.T) {
	b := sample.New("Foot", quantity.Millimetre, 600, 600)
	b.OnBase("mast", 0, 0, 90, 1500, 0, 0)
	j := sample.Job(b.Design)
	for _, place := range Places() {
		for _, light := range Lights() {
			s := scene(t, j, Options{Place: place, Light: light, From: new(1.5 * math.Pi)})
			img := image.NewRGBA(image.Rect(0, 0, 16, 16))
			win := s.view.window(16, 16)
			w := &worker{frame: newFrame(s, &win, img)}
			w.patch.base = true
			at := func(x, y float64) float64 {
				p := r3.Vec{X: x, Y: y}
				what := theGround
				if s.stage.block != nil {
					what = theTop
				}
				c := w.fall(&scenery{what: what, p: p}, s.world.Sky(p, r3.Vec{Z: 1}, s.base), 1)
				return c.luminance()
			}
			// In front of the plate, where no shadow falls.
			if near, far := at(-150, -301), at(-150, -380); near > 0.7*far {
				t.Errorf("%s, %s: at the edge of the plate the light is %.3f, farther off %.3f", place, light, near, far)
			}
		}
	}
}

// A tall piece is upright, a wide one is not.
func TestUpright(t *testing.T) {
	for _, tt := range []struct {
		tall, wide float64
		want       bool
	}{{2600, 400, true}, {900, 3200, false}} {
		b := sample.New("Size", quantity.Millimetre, tt.wide, 400)
		b.OnBase("mast", 0, 0, 60, tt.tall, 0, 0)
		j := sample.Job(b.Design)
		for _, place := range Places() {
			for _, beside := range []Measure{Nothing, Fitting} {
				if s := scene(t, j, Options{Place: place, Beside: beside, From: new(1.5 * math.Pi)}); s.Upright() != tt.want {
					t.Errorf("a piece %v mm tall and %v wide, %s: upright %v", tt.tall, tt.wide, place, s.Upright())
				}
			}
		}
	}
}

// Where fab has a seam, the picture shows one: on the middle of the seam of a tube
// the distance from it is nothing, and on the other side of the tube it is half
// the way round.
func TestTubeSeamIsFabs(t *testing.T) {
	for name, j := range examples(t) {
		s := scene(t, j, Options{})
		for i := range s.solids {
			p := &j.Parts[s.solids[i].Part]
			if p.Post == nil || len(p.Seams) == 0 || p.Post.Length < 20 {
				continue
			}

			middle := r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(p.Post.Length/2, p.Post.Direction))
			radius := p.Post.DiameterAt(p.Post.Length/2) / 2
			for _, seam := range p.Seams {
				if seam.Kind != 0 {
					continue
				}
				d := p.Post.Facing(seam.Bearing)
				for _, side := range [2]float64{1, -1} {
					at := r3.Add(middle, r3.Scale(side*radius, d))
					got := s.seam(&spot{p: at, n: d, solid: int32(i), face: 0, pixel: 1}, 3)
					if side > 0 && got > 0.1 {
						t.Errorf("%s, %s: on its seam the distance from it is %.2f mm", name, p.Name, got)
					}
					ends := p.Post.Length / 2 // to the nearest weld at an end
					for end := range p.Post.Ends {
						if met := solid.Met(p.Part, end); met != nil {
							ends = min(ends, math.Abs(met.Distance(at)))
						}
					}
					if side < 0 && len(p.Seams) == 1 && ends > math.Pi*radius && math.Abs(got-math.Pi*radius) > 0.1 {
						t.Errorf("%s, %s: half round from its seam the distance is %.2f mm, want %.2f", name, p.Name, got, math.Pi*radius)
					}
				}

			}
		}
	}
}

// A ball that is bought in, of no named metal, looks like what carries it.
func TestBoughtBall(t *testing.T) {
	j := job(t, "../../examples", "reed-bed")
	s := scene(t, j, Options{})
	for i := range s.solids {
		if p := &j.Parts[s.solids[i].Part]; p.Metal == nil && s.looks[i].surface != rusted {
			t.Errorf("%s is not of the metal of what carries it", p.Name)
		}
	}
	require.NotEmpty(t, s.solids)
}
