package flat

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/written"
)

// A drawnEgg is the meridian of an egg, drawn in chords: the middle of its sheet.
type drawnEgg struct {
	r, z, nr, nz []float64 // points, and directions square to the sheet, from pole to pole
	long         []float64 // along the meridian, from the equator
	area         []float64 // from the lower pole
	a, c, thick  float64
}

const eggChords = 40000

func drawEgg(p *design.Part) *drawnEgg {
	e := &drawnEgg{a: p.Ball.Radius, c: p.Ball.Tall / 2, thick: p.Metal.Thickness}
	for k := range eggChords + 1 {
		sin, cos := math.Sincos(math.Pi * (float64(k)/eggChords - 0.5))
		nr, nz := cos/e.a, sin/e.c
		n := math.Hypot(nr, nz)
		e.nr, e.nz = append(e.nr, nr/n), append(e.nz, nz/n)
		e.r, e.z = append(e.r, e.a*cos-e.thick/2*nr/n), append(e.z, e.c*sin-e.thick/2*nz/n)
		long, area := 0.0, 0.0
		if k > 0 {
			chord := math.Hypot(e.r[k]-e.r[k-1], e.z[k]-e.z[k-1])
			long, area = e.long[k-1]+chord, e.area[k-1]+math.Pi*(e.r[k]+e.r[k-1])*chord
		}
		e.long, e.area = append(e.long, long), append(e.area, area)
	}
	middle := e.long[eggChords/2]
	for k := range e.long {
		e.long[k] -= middle
	}
	return e
}

// at returns the place at a length from the equator, and a distance out.
func (e *drawnEgg) at(long, out float64) (r, z float64) { return e.on(e.long, long, out) }

func (e *drawnEgg) on(by []float64, to, out float64) (r, z float64) {
	k := min(max(sort.SearchFloat64s(by, to), 1), eggChords)
	u := (to - by[k-1]) / (by[k] - by[k-1])
	mix := func(list []float64) float64 { return list[k-1] + u*(list[k]-list[k-1]) }
	return mix(e.r) + out*mix(e.nr), mix(e.z) + out*mix(e.nz)
}

// equation returns how far a point is from the outside, near there.
func (e *drawnEgg) equation(r, z float64) float64 {
	return ((r/e.a)*(r/e.a) + (z/e.c)*(z/e.c) - 1) / (2 * math.Hypot(r/e.a/e.a, z/e.c/e.c))
}

// randomEgg returns the text of a random egg on a plate.
func randomEgg(rnd *rand.Rand, built string) string {
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	wide := between(100, 900)
	tall := wide * math.Exp(between(math.Log(0.51), math.Log(1.99)))
	return fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness %.4f }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 3000 by 3000, metal slab }
ball egg on pad { diameter %.5f, tall %.5f, %s, pole %.3f deg toward %.3f deg, metal skin }
`, between(0.6, 2.5), wide, tall, built, max(0, between(-20, 170)), between(0, 360))
}

func eggOn(t *testing.T, text string) (*design.Part, *Developed) {
	t.Helper()
	d := written.Design(t, text)
	made, wrong := All(d)
	if err := wrong.Err(); err != nil {
		t.Fatal(err, text)
	}
	return d.Part("egg"), &made[1]
}

// TestEggGoresRollUp bends the gores of random eggs back, onto an ellipse drawn in chords, and
// measures: edges that meet touch each other all along, and what they touch is the outside of
// the egg; the chords of outlines lie on the curve within the chord that is allowed; the area
// of the blank is what its outline encloses.
func TestEggGoresRollUp(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 6))
	var apart, off, strayed, farOff float64
	for n := range 200 {
		built := []string{"gores %d", "gores %d, bend domed", "gores %d, caps 60", "gores %d, bend domed, caps 50", "gores %d, caps 40, 60", "gores %d, edge mid"}[n%6]
		p, made := eggOn(t, randomEgg(rnd, fmt.Sprintf(built, 5+rnd.IntN(16))))
		b, e := p.Ball, drawEgg(p)
		gore := made.Blanks[0]
		domed := b.Build == design.DomedGores
		at := func(k int, q r2.Vec, out float64) r3.Vec {
			r, z := e.at(q.Y, out)
			middle := 2 * math.Pi * float64(k) / float64(b.Gores)
			turn, level := middle+math.Atan2(q.X, r), math.Hypot(r, q.X)
			if domed {
				on, _ := e.at(q.Y, 0)
				turn, level = middle+q.X/on, r
			}
			return r3.Vec{X: level * math.Cos(turn), Y: level * math.Sin(turn), Z: z}
		}
		half := p.Metal.Thickness / 2
		out := -half
		if b.EdgeMid || domed {
			out = 0
		}
		for i, q := range gore.Outline {
			if q.X > 0 {
				apart = max(apart, r3.Norm(r3.Sub(at(0, q, out), at(1, r2.Vec{X: -q.X, Y: q.Y}, out))))
			}
			r, z := e.at(q.Y, half)
			off = max(off, math.Abs(e.equation(r, z)))
			next := gore.Outline[(i+1)%len(gore.Outline)]
			if math.Abs(q.Y-next.Y) < 1e-9 {
				continue // an end
			}
			m := r2.Scale(0.5, r2.Add(q, next))
			// Where the edge should be: in the plane between two gores, where they meet.
			r, _ = e.at(m.Y, out)
			wide := r * math.Tan(math.Pi/float64(b.Gores))
			if domed {
				wide = r * math.Pi / float64(b.Gores)
			}
			strayed = max(strayed, math.Abs(math.Abs(m.X)-wide))
		}
		// What lies between chords and curve, at either side.
		farOff = max(farOff, math.Abs(gore.Area-enclosed(gore.Outline))/(2*gore.Length))
		checkOutline(t, gore)
		if apart > 1e-3 || off > 1e-4 || strayed > Chord/2 || farOff > smooth {
			t.Fatalf("%d: edges %v apart, %v off the outside, chords %v off the edge, areas differ by %v mm of width at either edge:\n%+v", n, apart, off, strayed, farOff, *b)
		}
	}
	t.Logf("edges that meet at most %.6f mm apart, %.6f mm off the outside, chords at most %.4f mm off the edge, areas at most %.4f mm of width apart at either edge", apart, off, strayed, farOff)
}

// TestEggCapsAndHalves measures that what is dished keeps its area, and is as deep as it is.
func TestEggCapsAndHalves(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 7))
	for n := range 60 {
		built := []string{"halves", "gores 9, bend domed, caps 70", "gores 9, caps 70 round", "gores 8, caps 70"}[n%4]
		if n%4 == 2 {
			continue
		}
		p, made := eggOn(t, randomEgg(rnd, built))
		e := drawEgg(p)
		whole := e.area[eggChords]
		piece := made.Blanks[len(made.Blanks)-1]
		if piece.Forming.How == "flat" {
			continue
		}
		want, low := whole/2, 0.0
		if n%4 != 0 {
			k := eggChords / 2
			for e.r[k] > 35 {
				k++
			}
			u := (e.r[k-1] - 35) / (e.r[k-1] - e.r[k])
			want, low = whole-e.area[k-1]-u*(e.area[k]-e.area[k-1]), e.z[k-1]+u*(e.z[k]-e.z[k-1])
		}
		if p.Ball.IsLobed() {
			// A lobe is N tan(pi / N) / pi times as wide as what it touches. Within it is cut
			// back so that the lobes clear its corners.
			turn := math.Pi / float64(p.Ball.Gores)
			want *= math.Tan(turn) / turn
			if piece.Area > want || piece.Area < want*0.97 {
				t.Errorf("%d: an area of %v, want a little less than %v", n, piece.Area, want)
			}
		} else if math.Abs(piece.Area/want-1) > 1e-4 {
			t.Errorf("%d: an area of %v, want %v", n, piece.Area, want)
		}
		if deep := e.c - e.thick/2 - low; math.Abs(piece.Forming.Depth-deep) > 0.05 {
			t.Errorf("%d: %v deep, want %v", n, piece.Forming.Depth, deep)
		}
	}
}

// TestEggRings puts the rings of random eggs together: each lies as deep under the plane that
// touches the egg as half of its thickness, its square edges meet those of the next by their
// inner corners or their middles, and the rows of the rings end at the discs.
func TestEggRings(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 8))
	var apart, off float64
	for n := range 100 {
		built := []string{"zones %d", "zones %d, edge mid"}[n%2]
		p, made := eggOn(t, randomEgg(rnd, fmt.Sprintf(built, 3+rnd.IntN(9))))
		b, thick := p.Ball, p.Metal.Thickness
		a, c := b.Radius, b.Tall/2
		// By the ring's own radii at its edges: where it touches the ellipse, square to that.
		place := func(k int, lower, upper, slant float64) (low, high, normal r2.Vec) {
			sin, cos := math.Sincos(math.Pi*float64(k+1)/float64(b.Zones+1) - math.Pi/2)
			nr, nz := cos/a, sin/c
			l := math.Hypot(nr, nz)
			normal = r2.Vec{X: nr / l, Y: nz / l}
			touch := r2.Sub(r2.Vec{X: a * cos, Y: c * sin}, r2.Scale(thick/2, normal))
			way := r2.Vec{X: -normal.Y, Y: normal.X}
			up := func(radius float64) r2.Vec {
				if math.Abs(way.X) < 1e-9 {
					return touch
				}
				return r2.Add(touch, r2.Scale((radius-touch.X)/way.X, way))
			}
			low, high = up(lower), up(upper)
			if math.Abs(way.X) < 1e-9 { // a cylinder, alike above and below
				low, high = r2.Sub(touch, r2.Scale(slant/2, way)), r2.Add(touch, r2.Scale(slant/2, way))
			}
			return low, high, normal
		}
		var last r2.Vec
		for k := range b.Zones {
			upper := max(k, b.Zones-1-k)
			blank := made.Blanks[upper-b.Zones/2]
			radii := [2]float64{blank.Forming.MeanRadius, blank.Forming.MeanRadius}
			slant := blank.Length
			if blank.Fan != nil {
				radii = blank.Forming.Radii
				slant = blank.Fan.Large - blank.Fan.Small
			}
			if k != upper {
				radii[0], radii[1] = radii[1], radii[0]
			}
			low, high, normal := place(k, radii[0], radii[1], slant)
			off = max(off, math.Abs(r2.Norm(r2.Sub(high, low))-slant))
			in := thick / 2
			if b.EdgeMid {
				in = 0
			}
			low, high = r2.Sub(low, r2.Scale(in, normal)), r2.Sub(high, r2.Scale(in, normal))
			if k > 0 {
				apart = max(apart, r2.Norm(r2.Sub(low, last)))
			} else if disc := made.Blanks[len(made.Blanks)-1]; math.Abs(disc.Diameter/2-low.X) > 1e-6 || math.Abs(low.Y+c-thick/2-in) > 1e-6 {
				t.Errorf("%d: the disc of %v ends at %v beside the lowest ring", n, disc.Diameter/2, low)
			}
			last = high
		}
		if apart > 1e-6 || off > 1e-6 {
			t.Fatalf("%d: edges %v apart, a slant %v off:\n%+v", n, apart, off, *b)
		}
	}
	t.Logf("edges at most %g mm apart, slants at most %g mm off", apart, off)
}

// nearEllipse returns how far a point is from the ellipse with the half axes a and c: from the
// nearest of its points, which is sought about the one that is drawn by the point's own angle.
func nearEllipse(a, c, r, z float64) float64 {
	far := func(angle float64) float64 { return math.Hypot(r-a*math.Cos(angle), z-c*math.Sin(angle)) }
	low := math.Atan2(z*a, r*c) - 0.4
	high := low + 0.8
	for range 60 {
		third := (high - low) / 3
		if far(low+third) < far(high-third) {
			high -= third
		} else {
			low += third
		}
	}
	return far((low + high) / 2)
}

// TestEggRound looks from many points of the outside how far the true egg is.
func TestEggRound(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 9))
	for n := range 24 {
		built := []string{"zones %d", "gores %d", "gores %d, caps 60", "gores %d, bend domed"}[n%4]
		p, made := eggOn(t, randomEgg(rnd, fmt.Sprintf(built, 5+rnd.IntN(6))))
		b := p.Ball
		body := (&setting{}).body(p).Outside()
		most, sum, area := 0.0, 0.0, 0.0
		off := func(drawn, turn float64) (far, part float64) {
			sin, cos := math.Sincos(drawn)
			way := r3.Unit(r3.Add(r3.Scale(b.Radius*cos, b.Meridian(turn)), r3.Scale(b.Tall/2*sin, b.Pole)))
			x := r3.Scale(body.From(way), way)
			z := r3.Dot(x, b.Pole)
			return nearEllipse(b.Radius, b.Tall/2, r3.Norm(r3.Sub(x, r3.Scale(z, b.Pole))), z), cos * math.Hypot(b.Radius*sin, b.Tall/2*cos)
		}
		const steps = 150
		for i := range steps {
			for k := range steps {
				far, part := off(math.Pi*((float64(i)+0.5)/steps-0.5), 2*math.Pi*float64(k)/steps)
				sum, area = sum+part*far, area+part
			}
		}
		// It is farthest along a ridge, or at an edge or the middle of a flat.
		for i := range 4001 {
			for _, turn := range [2]float64{0, math.Pi / float64(max(1, b.Gores))} {
				far, _ := off(math.Pi*(float64(i)/4000-0.5), turn)
				most = max(most, far)
			}
		}
		if got := made.Round; got.Greatest > most*1.002+0.001 || got.Greatest < most*0.999-0.001 || math.Abs(got.Mean-sum/area) > 0.01*sum/area+0.001 {
			t.Errorf("%d, %s: %+v, want %v and %v", n, built, *got, most, sum/area)
		}
	}
}
