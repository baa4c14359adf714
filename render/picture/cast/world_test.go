package cast

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/fab/solid"
	"stabile/param"
	"stabile/param/design"
)

// jobs returns the examples and a design of every kind of solid, worked out.
func jobs(t testing.TB) map[string]*fab.Job {
	t.Helper()
	all := make(map[string]*fab.Job)
	for name, dir := range map[string]string{
		"every-kind": "testdata", "slow-tide": "../../../examples", "winter-orchard": "../../../examples", "reed-bed": "../../../examples",
	} {
		d, err := param.Load(os.DirFS(dir), name+".stabile", param.Options{})
		require.NoError(t, err)
		j, wrong := fab.Build(d, 0)
		require.NoError(t, wrong.Err())
		all[name] = j
	}
	return all
}

// The mesh test would see a solid that is another: a lobed ball is no sphere,
// and not even one turned by half a gore.
func TestMeshSees(t *testing.T) {
	f := tilted()
	m := lobedMesh(f, 150, 12, 150, false)
	turned := unit(r3.Add(r3.Scale(math.Cos(math.Pi/12), f.x), r3.Scale(math.Sin(math.Pi/12), f.y)))
	for name, s := range map[string]Solid{
		"sphere": NewBall(0, f.o, 150, f.z, f.x), "turned": NewLobed(0, f.o, 150, 12, f.z, turned), "small": NewLobed(0, f.o, 149.5, 12, f.z, f.x),
	} {
		rng := rand.New(rand.NewPCG(3, 4))
		wrong := 0
		for range 500 {
			r := toward(rng, &s)
			if _, ok := agree(&s, m, &r); !ok {
				wrong++
			}
		}
		if wrong < 50 {
			t.Errorf("a ball that is %s agrees with the mesh of a lobed one on all but %d of 500 rays", name, wrong)
		}
	}
}

// A ball is met where package flat has its outside, to which tubes are trimmed:
// a ray comes in where the ray turned round goes out.
func TestMeetIsTheOutside(t *testing.T) {
	for name, j := range jobs(t) {
		for _, s := range Solids(j.Parts) {
			p := j.Parts[s.Part].Part
			if p.Ball == nil {
				continue
			}
			outside := solid.Outside(p)
			rng := rand.New(rand.NewPCG(5, 6))
			missed := 0
			for range 1000 {
				r := toward(rng, &s)
				want, wantHit := outside.Leave(r.From, r3.Scale(-1, r.Along))
				got, _, hit := s.Meet(&r)
				if hit != wantHit {
					missed++ // by a hair, where the two count a touch otherwise
					continue
				}
				if hit && math.Abs(got+want) > 1e-6 {
					t.Fatalf("%s: %s: Meet(%v) = %v, want %v", name, p.Name, r, got, -want)
				}
			}
			if missed > 1 {
				t.Errorf("%s: %s: %d of 1000 rays meet one and not the other", name, p.Name, missed)
			}
		}
	}
}

func TestWorldMeetsTheNearest(t *testing.T) {
	for name, j := range jobs(t) {
		w := NewWorld(Solids(j.Parts))
		low, high, _ := w.Box()
		about := NewBox(0, low, high)
		rng := rand.New(rand.NewPCG(7, 8))
		for range 3000 {
			r := toward(rng, &about)
			want := Hit{T: far, Solid: -1}
			for i := range w.Solids {
				w.try(&r, int32(i), &want)
			}
			if got := w.Meet(&r); got != want {
				t.Fatalf("%s: Meet(%v) = %v, want %v", name, r, got, want)
			}
			cone := Cone{From: r.From, Along: unit(r3.Add(r.Along, r3.Vec{X: 0.01 * rng.NormFloat64(), Y: 0.01 * rng.NormFloat64()}))}
			cone.Cos = r3.Dot(cone.Along, r.Along)
			cone.Sin = math.Sqrt(max(0, 1-cone.Cos*cone.Cos)) + 1e-9
			if got := w.MeetAmong(&r, w.Among(&cone, nil)); got != want {
				t.Fatalf("%s: among those of a cone about %v: %v, want %v", name, r, got, want)
			}
		}
	}
}

// A ray along any of a tube's ends within the outside of what it meets sees no
// end: it is trimmed by the union.
func TestEndsAreWithin(t *testing.T) {
	for name, j := range jobs(t) {
		list := Solids(j.Parts)
		of := make(map[string]*Solid)
		for i := range list {
			of[j.Parts[list[i].Part].Name] = &list[i]
		}
		for i := range list {
			p := j.Parts[list[i].Part].Part
			if p.Post == nil {
				continue
			}
			for e, end := range p.Post.Ends {
				if end.Meets != design.OnBall && end.Meets != design.OnSide {
					continue
				}
				s, host := &list[i], of[end.With.Name]
				x, y := design.Tilt(s.Axis)
				for k := range 90 {
					sin, cos := math.Sincos(2 * math.Pi * float64(k) / 90)
					r := s.Radius + s.Slope*s.Reach[e]
					q := r3.Add(r3.Add(s.Center, r3.Scale(s.Reach[e], s.Axis)), r3.Add(r3.Scale(r*cos, x), r3.Scale(r*sin, y)))
					if away := host.Away(q); away > 1e-6 {
						t.Errorf("%s: the end of %s is %.3f mm outside of %s", name, p.Name, away, end.With.Name)
						break
					}
				}
			}
		}
	}
}

// The trimmed edges that package flat has found for the blanks lie where the
// picture's solids meet, to within the thickness of the wall, by which a square
// cut edge may stand off.
func TestRimsLieOnTheUnion(t *testing.T) {
	for name, j := range jobs(t) {
		list := Solids(j.Parts)
		for i := range list {
			s := &list[i]
			p := &j.Parts[s.Part]
			for e, rim := range p.Body.Rims {
				for _, q := range rim {
					// On the tube's own side.
					z := r3.Dot(r3.Sub(q, s.Center), s.Axis)
					rho := norm(r3.Sub(r3.Sub(q, s.Center), r3.Scale(z, s.Axis)))
					if d := math.Abs(rho - s.Radius - s.Slope*z); d > flat.Chord {
						t.Fatalf("%s: a rim of %s is %.3f mm off its side", name, p.Name, d)
					}
					nearest := math.Inf(1)
					for k := range list {
						if k != i {
							nearest = min(nearest, math.Abs(list[k].Away(q)))
						}
					}
					for _, end := range s.Ends {
						nearest = min(nearest, math.Abs(end.Height-r3.Dot(end.Normal, q)))
					}
					if nearest > 2*s.Wall {
						t.Fatalf("%s: end %d of %s has a rim %.3f mm from what it meets", name, e, p.Name, nearest)
					}
				}
			}
		}
	}
}

// samples of a cone, evenly over the disc that it is on a plane.
func covered(s *Solid, p, d r3.Vec, tan float64) float64 {
	x, y := design.Tilt(d)
	n, hits := 24, 0
	total := 0
	for i := range n {
		for k := range n {
			a, b := 2*(float64(i)+0.5)/float64(n)-1, 2*(float64(k)+0.5)/float64(n)-1
			if a*a+b*b > 1 {
				continue
			}
			total++
			r := Ray{p, unit(r3.Add(d, r3.Scale(tan, r3.Add(r3.Scale(a, x), r3.Scale(b, y)))))}
			if _, _, ok := s.Meet(&r); ok {
				hits++
			}
		}
	}
	return float64(hits) / float64(total)
}

// A shadow on the ground is that of rays cast to all of the sun's disc: none
// where no ray meets, and else as near as the eye can tell in a soft edge. The
// smooth step differs from a disc cut by a straight edge by 0.02; at the corners
// of a plate and the ends of a tube two such steps stand for one shape. A tube
// that is open or cut on a slant is taken as closed and square at its farthest,
// and is held to the mean alone.
func TestCoverAgainstRays(t *testing.T) {
	const (
		tan       = 0.02
		tolerance = 0.30
		mean      = 0.06
	)
	for name, j := range jobs(t) {
		for _, s := range Solids(j.Parts) {
			rng := rand.New(rand.NewPCG(9, 10))
			part := j.Parts[s.Part].Name
			var sum, worst float64
			n := 0
			for range 300 {
				sun := design.Leaning(47*math.Pi/180, 2*math.Pi*rng.Float64())
				at := toward(rng, &s)
				q := at.At(-r3.Dot(r3.Sub(at.From, s.Middle), at.Along))
				p := r3.Add(q, r3.Scale(-q.Z/sun.Z, sun))
				got, want := s.Cover(p, sun, tan), covered(&s, p, sun, tan)
				if q.Z < 1 || s.Away(p) < 1 || beneath(&s, p) || want == 0 && got < 0.01 || want == 1 && got > 0.99 {
					continue
				}
				n++
				off := math.Abs(got - want)
				sum += off
				worst = max(worst, off)
			}
			if square := s.Kind != Tube || !s.Open[0] && !s.Open[1] && !slanted(&s); n > 5 && (square && worst > tolerance || sum/float64(n) > mean) {
				t.Errorf("%s: %s: shadow off by %.3f at the most and %.3f in the mean of %d places", name, part, worst, sum/float64(n), n)
			}
		}
	}
}

// slanted reports whether a tube has an end that is not square to it.
func slanted(s *Solid) bool {
	return math.Abs(r3.Dot(s.Ends[0].Normal, s.Axis)) < 0.999 || math.Abs(r3.Dot(s.Ends[1].Normal, s.Axis)) < 0.999
}

// beneath reports whether a place on the ground is under a plate or the foot of
// a tube, where nothing is seen.
func beneath(s *Solid, p r3.Vec) bool {
	switch q := r3.Sub(p, s.Center); s.Kind {
	case Tube:
		z := r3.Dot(q, s.Axis)
		return norm(r3.Sub(q, r3.Scale(z, s.Axis))) < s.Radius+max(0, s.Slope*z)+1
	case Box:
		return max(math.Abs(q.X)-s.Half.X, math.Abs(q.Y)-s.Half.Y) < 1
	}
	return false
}

// hidden samples the hemisphere over a surface, evenly by cosine.
func hidden(s *Solid, p, n r3.Vec) float64 {
	x, y := design.Tilt(n)
	const m = 40
	hits := 0
	for i := range m {
		for k := range m {
			r2, a := (float64(i)+0.5)/m, 2*math.Pi*(float64(k)+0.5)/m
			rho := math.Sqrt(r2)
			d := r3.Add(r3.Add(r3.Scale(rho*math.Cos(a), x), r3.Scale(rho*math.Sin(a), y)), r3.Scale(math.Sqrt(1-r2), n))
			r := Ray{p, unit(d)}
			if _, _, ok := s.Meet(&r); ok {
				hits++
			}
		}
	}
	return float64(hits) / (m * m)
}

// The light that a part keeps from the ground is the form factor, found by
// rays over the hemisphere, to within a sixth of the whole beside a wide tube,
// where it is no strip, and a fortieth on average.
func TestHidesAgainstRays(t *testing.T) {
	for name, j := range jobs(t) {
		for _, s := range Solids(j.Parts) {
			if s.Kind == Box || j.Parts[s.Part].Base != nil {
				continue
			}
			rng := rand.New(rand.NewPCG(11, 12))
			part := j.Parts[s.Part].Name
			var sum, worst float64
			const n = 80
			for range n {
				a := 2 * math.Pi * rng.Float64()
				out := s.Hull * (0.1 + 3*rng.Float64())
				p := r3.Vec{X: s.Middle.X + out*math.Cos(a), Y: s.Middle.Y + out*math.Sin(a), Z: min(0, s.Low.Z)}
				if beneath(&s, p) {
					continue
				}
				off := math.Abs(s.Hides(p, design.Upright) - hidden(&s, p, design.Upright))
				sum += off
				worst = max(worst, off)
			}
			if worst > 0.16 || sum/n > 0.025 {
				t.Errorf("%s: %s: ambient light off by %.3f at the most and %.4f in the mean", name, part, worst, sum/n)
			}
		}
	}
}

func TestEmptyWorld(t *testing.T) {
	w := NewWorld(nil)
	r := Ray{From: r3.Vec{Z: 10}, Along: r3.Vec{Z: -1}}
	if hit := w.Meet(&r); hit.Solid != -1 {
		t.Errorf("Meet in an empty world = %v, want nothing", hit)
	}
	if got := w.Open(r.From, r.Along, 0.1, -1); got != 1 {
		t.Errorf("Open = %v, want 1", got)
	}
	if got := w.Sky(r.From, design.Upright, -1); got != 1 {
		t.Errorf("Sky = %v, want 1", got)
	}
	if _, _, ok := w.Box(); ok {
		t.Error("Box of an empty world is one")
	}
}

func TestArctan(t *testing.T) {
	for y := 0.0; y < 3; y += 0.01 {
		for _, x := range []float64{-2, -1, -0.3, 0, 1e-9, 0.5, 1, 7} {
			if got, want := arctan(y, x), math.Atan2(y, x); math.Abs(got-want) > 2e-4 {
				t.Fatalf("arctan(%v, %v) = %v, want %v", y, x, got, want)
			}
		}
	}
}

func BenchmarkMeet(b *testing.B) {
	w := NewWorld(Solids(jobs(b)["slow-tide"].Parts))
	low, high, _ := w.Box()
	about := NewBox(0, low, high)
	rng := rand.New(rand.NewPCG(7, 8))
	rays := make([]Ray, 1024)
	for i := range rays {
		rays[i] = toward(rng, &about)
	}
	i := 0
	for b.Loop() {
		w.Meet(&rays[i&1023])
		i++
	}
}
