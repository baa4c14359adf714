package draft_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/written"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/internal/sample"
)

func views(scale float64) []draft.View {
	return []draft.View{
		{Projection: draft.Front, Scale: scale},
		{Projection: draft.Side, Scale: scale},
		{Projection: draft.Plan, Scale: scale},
		{Projection: draft.FromLeft, Scale: scale},
	}
}

func TestViewAt(t *testing.T) {
	p := r3.Vec{X: 10, Y: 20, Z: 30}
	for _, tt := range []struct {
		projection draft.Projection
		want       r2.Vec
	}{
		{draft.Front, r2.Vec{X: 105, Y: 215}},
		{draft.Side, r2.Vec{X: 110, Y: 215}}, // from the right, what is away from the front is at the right
		{draft.Plan, r2.Vec{X: 105, Y: 210}},
		{draft.FromLeft, r2.Vec{X: 90, Y: 215}}, // from the left, what is away from the front is at the left
	} {
		v := draft.View{Projection: tt.projection, Scale: 0.5, Origin: r2.Vec{X: 100, Y: 200}}
		if got := v.At(p); got != tt.want {
			t.Errorf("%v.At(%v) = %v, want %v", tt.projection, p, got, tt.want)
		}
	}
}

// bodied returns a part of a design as a job has it.
func bodied(p *design.Part) fab.Part {
	return fab.Part{Part: p, Body: solid.New(p, [2][]r3.Vec{})}
}

// TestPairOfBalls works by hand: of two equal balls one behind the other and
// half a radius to the side, the front one is seen whole; of the other's circle
// the part inside the first is hidden. The circles cross at plus and minus
// 75.52 deg (the half angle whose cosine is a quarter) from the line of the
// centres, so that 151.04 of 360 deg are hidden.
func TestPairOfBalls(t *testing.T) {
	d := written.Design(t, written.Metric+`base yard { feet }
ball near on yard { diameter 200, bought 1 kg }
ball far on yard { at (50, 400), diameter 200, bought 1 kg }
`)
	s := draft.NewScene([]fab.Part{bodied(d.Part("near")), bodied(d.Part("far"))})
	seen := make([]float64, 2)
	for _, l := range s.Lines(draft.View{Projection: draft.Front, Scale: 0.2}) {
		if l.Hidden {
			continue
		}
		path := l.Path
		if l.Closed {
			path = append(path, path[0])
		}
		for i := 1; i < len(path); i++ {
			seen[l.Part] += r2.Norm(r2.Sub(path[i], path[i-1]))
		}
	}
	girth := 2 * math.Pi * 20
	if got := seen[0] / girth; math.Abs(got-1) > 0.002 {
		t.Errorf("the near ball shows %.4f of its circle, want all", got)
	}
	want := 1 - math.Acos(0.25)/math.Pi
	if got := seen[1] / girth; math.Abs(got-want) > 0.002 {
		t.Errorf("the far ball shows %.4f of its circle, want %.4f", got, want)
	}
}

// TestOutlineOfGores compares the outline of a ball of rolled gores with its
// closed form: seen along the pole it is a regular polygon about the sphere's
// circle; seen from the side its height is the sphere's.
func TestOutlineOfGores(t *testing.T) {
	const n, radius = 8, 100.0
	p := bodied(written.Design(t, written.Metric+fmt.Sprintf(`base yard { feet }
ball moon at (0, 0, 300) { diameter %v, gores %d, metal skin }
post stem from yard to moon { diameter 20, metal skin }
`, 2*radius, n)).Part("moon"))
	s := draft.NewScene([]fab.Part{p})
	for _, v := range views(1) {
		for _, l := range s.Lines(v) {
			if l.Kind != ink.Outline {
				continue
			}
			var far, top float64
			for _, q := range l.Path {
				far = max(far, math.Abs(q.X))
				top = max(top, q.Y)
			}
			ridge := radius / math.Cos(math.Pi/n)
			switch v.Projection {
			case draft.Plan:
				// The flats face 0 and 90 deg.
				if math.Abs(far-radius) > 0.01 || math.Abs(top-radius) > 0.01 {
					t.Errorf("plan reaches %v and %v, want %v", far, top, radius)
				}
				if got := r2.Norm(l.Path[0]); math.Abs(got-ridge) > 0.01 {
					t.Errorf("a corner of the plan is %v from the centre, want %v", got, ridge)
				}
			default:
				if math.Abs(top-300-radius) > 0.1 || math.Abs(far-radius) > 0.1 {
					t.Errorf("%v reaches %v aside and %v up, want %v and %v", v.Projection, far, top, radius, 300+radius)
				}
			}
		}
	}
}

// TestNothingSeenInsideAnother takes random trees, and for every point of a
// line that is drawn as seen marches toward the viewer through the true parts,
// by the definition of each, without the code under test.
func TestNothingSeenInsideAnother(t *testing.T) {
	tried, wrong := 0, 0
	for seed := range uint64(12) {
		parts := sample.Job(sample.Random(seed, 8, quantity.Millimetre)).Parts
		for i := range parts {
			if b := parts[i].Ball; b != nil {
				b.Build = design.Bought // a sphere: what within means is then plain
				parts[i].Body = solid.New(parts[i].Part, [2][]r3.Vec{})
			}
		}
		s := draft.NewScene(parts)
		for _, v := range views(0.1) {
			for _, l := range s.Lines(v) {
				if l.Hidden || parts[l.Part].Ball == nil || l.Radius == 0 {
					continue
				}
				ball := parts[l.Part].Ball
				for _, q := range l.Path {
					tried++
					if covered(parts, v, ball, q) {
						wrong++
					}
				}
			}
		}
	}
	if tried < 1000 {
		t.Fatalf("only %d points tried", tried)
	}
	// A place where a line goes behind is found to an eighth of the step of
	// 0.8 mm halved: the point at it may be a hair inside.
	if share := float64(wrong) / float64(tried); share > 0.002 {
		t.Errorf("%d of %d points that are drawn as seen are behind another part", wrong, tried)
	}
}

// covered marches from the outline of a ball at q toward the viewer and
// reports whether it comes more than 1 mm deep into another part.
func covered(parts []fab.Part, v draft.View, self *design.Ball, q r2.Vec) bool {
	at := r2.Scale(1/v.Scale, q)
	var p, toward r3.Vec
	switch v.Projection {
	case draft.Front:
		p, toward = r3.Vec{X: at.X, Y: self.Center.Y, Z: at.Y}, r3.Vec{Y: -1}
	case draft.Side:
		p, toward = r3.Vec{X: self.Center.X, Y: at.X, Z: at.Y}, r3.Vec{X: 1}
	case draft.FromLeft:
		p, toward = r3.Vec{X: self.Center.X, Y: -at.X, Z: at.Y}, r3.Vec{X: -1}
	default:
		p, toward = r3.Vec{X: at.X, Y: at.Y, Z: self.Center.Z}, r3.Vec{Z: 1}
	}
	const deep = 1.0
	for k := range 1500 {
		p = r3.Add(p, r3.Scale(2, toward))
		_ = k
		for i := range parts {
			switch o := &parts[i]; {
			case o.Ball == self:
			case o.Ball != nil:
				if r3.Norm(r3.Sub(p, o.Ball.Center)) < o.Ball.Radius-deep {
					return true
				}
			case o.Post != nil:
				rel := r3.Sub(p, o.Post.Ends[design.Foot].At)
				s := r3.Dot(rel, o.Post.Direction)
				if s > deep && s < o.Post.Length-deep && r3.Norm(r3.Sub(rel, r3.Scale(s, o.Post.Direction))) < o.Post.Ends[design.Foot].Diameter/2-deep {
					return true
				}
			}
		}
	}
	return false
}

func BenchmarkLines(b *testing.B) {
	s := draft.NewScene(sample.Job(sample.Random(3, 30, quantity.Millimetre)).Parts)
	for b.Loop() {
		for _, v := range views(0.1) {
			s.Lines(v)
		}
	}
}
