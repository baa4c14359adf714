package fab

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

// TestTieToPlate runs posts down to a plate and to the ground: the same as those
// that run up from there.
func TestTieToPlate(t *testing.T) {
	for _, base := range []string{"", "feet"} {
		text := shop
		if base != "" {
			text = strings.Replace(shop, "plate 600 by 400, metal slab", "feet", 1)
		}
		for _, way := range []string{"from pad to bead", "from bead to pad"} {
			j := build(t, text+`
post mast on pad { at (0, 0), diameter 30, length 500, metal skin }
ball bead on mast { diameter 200, halves, metal skin }
post left on pad { at (-150, 60), diameter 30, length 200, metal skin }
post tie `+way+` { at (260, 60), diameter 20 to 24, metal skin }`)
			if base != "" && len(j.footprint()) < 6 {
				t.Errorf("%s: a footprint of %v", way, j.footprint())
			}
		}
	}
}

// TestBallRestsOnLowest sets balls down with their poles leaning any way: the
// lowest of a dense sample of points on the outside is at the plate.
func TestBallRestsOnLowest(t *testing.T) {
	rnd := rand.New(rand.NewPCG(15, 3))
	for n := range 60 {
		made := []string{"gores 4", "gores 5, caps 60", "gores 9, caps 20", "zones 5", "zones 2", "gores 6, bend domed, caps 30", "halves"}[n%7]
		lean := 180 * rnd.Float64()
		if n < 14 {
			lean = 0
		}
		text := shop + "ball b on pad { diameter 300, " + made + ", pole " + degrees(lean) + " toward " + degrees(360*rnd.Float64()) + ", metal skin }"
		j := build(t, text)
		p := j.Parts[indexOf(j, "b")].Part
		top := j.Design.Base().Base.Top
		surface := solid.Outside(p)
		low := math.Inf(1)
		for range 40000 {
			way := r3.Unit(r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: rnd.NormFloat64()})
			if far, ok := surface.Leave(p.Ball.Center, way); ok {
				low = min(low, p.Ball.Center.Z+far*way.Z)
			}
		}
		if low < top-1e-6 || low > top+0.8 {
			t.Errorf("%s: its lowest point is %.3f mm over the plate", text[len(shop):], low-top)
		}
		for _, joint := range j.Design.Joints {
			if joint.Kind == design.RestJoint && math.Abs(r3.Norm(r3.Sub(joint.At, p.Ball.Center))-(p.Ball.Center.Z-top)) > p.Ball.Hull() {
				t.Errorf("%s: it touches at %v", text[len(shop):], joint.At)
			}
		}
	}
	build(t, strings.Replace(shop, "thickness 10", "thickness 6", 1)+"ball b on pad { diameter 600, zones 5, metal skin }")
}

// TestNamesOfPieces looks for two blanks of one name, as of a ring cut in two.
func TestNamesOfPieces(t *testing.T) {
	j := build(t, shop+`
post p on pad { diameter 257.93, length 1500, metal skin }
ball b around p { height 800, diameter 400, zones 3, pole 90 deg toward 322.76 deg, metal skin }`)
	seen := map[string]bool{}
	for _, p := range j.Parts {
		for _, b := range p.Blanks {
			if seen[b.Name] {
				t.Errorf("two blanks are named %q", b.Name)
			}
			seen[b.Name] = true
		}
	}
}

// TestTaperPastBall reads how far from a ball's centre a taper's wall passes that
// misses the ball: farther than the ball's radius.
func TestTaperPastBall(t *testing.T) {
	d, wrong := param.Evaluate(source.NewFile("horn.stabile", shop+`
post mast on pad { at (0, 0), diameter 40, length 500, metal skin }
ball moon on mast { diameter 200, gores 8, metal skin }
post horn on moon { diameter 60 to 12, length 70, offset 65 toward 0 deg, metal skin }`), param.Options{})
	if len(wrong) == 0 {
		_, wrong = Build(d, 0)
	}
	if len(wrong) != 1 {
		t.Fatalf("%d mistakes: %v", len(wrong), wrong.Err())
	}
	said := regexp.MustCompile(`its outside ([\d.]+) mm .*radius is ([\d.]+) mm`).FindStringSubmatch(wrong.Err().Error())
	if said == nil {
		t.Fatal(wrong.Err())
	}
	outside, _ := strconv.ParseFloat(said[1], 64)
	radius, _ := strconv.ParseFloat(said[2], 64)
	if !(outside > radius) || radius != 100 {
		t.Errorf("its outside passes at %v, the radius is %v", outside, radius)
	}
}

func degrees(x float64) string { return fmt.Sprintf("%.4f deg", x) }
