package draft

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/written"
	"stabile/render/ink"
)

// stood returns the design of a text whose parts stand on a plate 10 mm thick.
func stood(t *testing.T, text string) *design.Design {
	t.Helper()
	return written.Design(t, written.Metric+"base pad { plate 900 by 900, metal slab }\n"+text)
}

// TestMeetingOfSpheres checks the circle of two balls against its closed form:
// radii 5 and 4 with centres 6 apart meet on a circle of radius sqrt(25 -
// (45/12)^2) at 45/12 from the larger one's centre.
func TestMeetingOfSpheres(t *testing.T) {
	d := stood(t, fmt.Sprintf(`ball low on pad { diameter 100, halves, metal skin }
ball high on low { diameter 80, seat %.9f, halves, metal skin }`, 2*math.Sqrt(2500-37.5*37.5)))
	low, high := d.Part("low"), d.Part("high")
	cs := meetings(high)
	if len(cs) != 1 {
		t.Fatalf("%d lines, want 1", len(cs))
	}
	for _, q := range cs[0].path {
		if r, z := math.Hypot(q.X, q.Y), q.Z; math.Abs(r-math.Sqrt(2500-37.5*37.5)) > 1e-6 || math.Abs(z-60-37.5) > 1e-6 {
			t.Fatalf("the circle passes %v", q)
		}
	}
	// Seen edge on, its near half is a line between the outlines.
	s := NewScene([]fab.Part{{Part: low, Body: solid.New(low, [2][]r3.Vec{})}, {Part: high, Body: solid.New(high, [2][]r3.Vec{})}})
	shown := 0.0
	for _, l := range s.Lines(View{Projection: Front, Scale: 0.5}) {
		if l.Part == 1 && l.Kind == ink.Outline && !l.Hidden && math.Abs(l.Path[0].Y-48.75) < 1e-3 && math.Abs(l.Path[len(l.Path)-1].Y-48.75) < 1e-3 {
			shown = max(shown, math.Abs(l.Path[0].X-l.Path[len(l.Path)-1].X))
		}
	}
	if want := math.Sqrt(2500 - 37.5*37.5); math.Abs(shown-want) > 1 {
		t.Errorf("the line is %.2f mm long on paper, want %.2f", shown, want)
	}
}

// TestThreaded looks for both mouths of a ball on a post.
func TestThreaded(t *testing.T) {
	// The ball of gores lies across the post: at its poles discs cut it off.
	for _, build := range []string{"halves", "gores 8, pole 90 deg toward left", "zones 7"} {
		p := stood(t, `post mast on pad { diameter 60, length 500, metal skin }
ball moon around mast { height 200, diameter 170, `+build+`, metal skin }`).Part("moon")
		cs := meetings(p)
		if len(cs) != 2 {
			t.Fatalf("%s: %d mouths, want 2", build, len(cs))
		}
		for _, c := range cs {
			for _, q := range c.path {
				// On the tube, and on a shell that is nowhere within the sphere.
				if math.Abs(math.Hypot(q.X, q.Y)-30) > 1e-6 || r3.Norm(r3.Sub(q, p.Ball.Center)) < 85-1e-6 {
					t.Fatalf("%s: the mouth passes %v", build, q)
				}
			}
		}
	}
}

// TestZones checks that rings touch the sphere and that its body is convex
// about it.
func TestZones(t *testing.T) {
	b := stood(t, "ball moon on pad { diameter 200, zones 7, metal skin }").Part("moon")
	body := solid.New(b, [2][]r3.Vec{})
	for i := range 181 {
		sin, cos := math.Sincos(float64(i)*math.Pi/180 - math.Pi/2)
		_, leave, ok := body.Span(b.Ball.Center, r3.Vec{X: cos, Z: sin})
		if !ok || leave < 100-1e-9 || leave > 100/math.Cos(math.Pi/16)+1e-9 {
			t.Errorf("at latitude %d the shell is %v from the centre", i-90, leave)
		}
	}
	if n := len(ballSeams(b)); n != 8 {
		t.Errorf("%d level seams, want 8: between 7 rings and two discs", n)
	}
}
