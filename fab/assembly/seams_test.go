package assembly_test

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/assembly"
	"stabile/fab/flat"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

// The welds are held here against the outlines of the flats alone, by a walk of
// the tests' own along them: which stretches are seam is distinguished from how gores, rings
// and discs are laid out, not from what the flats say of their seams.

// A tally counts what was compared: stretches and sums of edges, the welds that fall
// short of them, and the balls of which a hole grazes a seam, which it takes from the
// one gore far before it touches the other.
type tally struct {
	compared, short int
	grazed          []string
}

func total(lengths []float64) float64 {
	sum := 0.0
	for _, l := range lengths {
		sum += l
	}
	return sum
}

// seamsAgree holds the seams within the parts of a plan against the outlines, and
// counts what was compared.
//
// A hole is cut square to each sheet, so that of two edges that meet at an angle the
// one ends before the other, by up to a thickness over the sine of the angle at which
// the hole crosses them. The weld is what both have: no longer than either edge, and
// shorter by that where a hole grazes the edge of a disc or a cap.
func seamsAgree(t *testing.T, j *fab.Job) (n tally) {
	t.Helper()
	p := assembly.Make(input(j))
	for i := range j.Parts {
		part := &j.Parts[i]
		if part.Metal == nil || part.Base != nil {
			continue
		}
		lists := map[assembly.Kind][]float64{}
		sums := map[assembly.Kind]float64{}
		for _, w := range p.Welds {
			if w.Part != part.Name || w.With != "" {
				continue
			}
			sums[w.Kind] += w.Total()
			for range 2 * w.Count {
				if w.Length > leastStretch {
					lists[w.Kind] = append(lists[w.Kind], w.Length)
				}
			}
		}
		if part.Post != nil {
			n.compared += postSeamsAgree(t, part, lists)
			continue
		}
		if part.Ball.Build == design.Bought {
			if len(lists) > 0 {
				t.Errorf("bought ball '%s' has seams %v", part.Name, lists)
			}
			continue
		}
		e := edgesOf(part)
		for _, kind := range []assembly.Kind{assembly.GoreSeam, assembly.RingSeam} {
			want, got := e.stretches[kind], lists[kind]
			for _, list := range [][]float64{want, got} {
				slices.SortFunc(list, func(a, b float64) int { return cmp.Compare(b, a) })
			}
			wrong := ""
			for k := range max(len(want), len(got)) {
				edge, weld := leastStretch, leastStretch // what is shorter is not listed
				if k < len(want) {
					edge = want[k]
				}
				if k < len(got) {
					weld = got[k]
				}
				slack, apart := seamShare*edge+seamSlack, 0.0
				if part.Ball.Around != nil {
					apart = 4 * part.Metal.Thickness
				}
				n.compared++
				if weld < edge-slack {
					n.short++
				}
				if wrong == "" && (weld > edge+slack || weld < edge-slack-apart) {
					wrong = fmt.Sprintf("'%s', %s: edge %d is %v long, its weld %v:\n%.2f\n%.2f", part.Name, kind, k, edge, weld, want, got)
				}
			}
			switch {
			case wrong == "":
			case part.Ball.Around != nil && total(got) <= total(want):
				n.grazed = append(n.grazed, wrong)
			default:
				t.Error(wrong)
			}
		}
		for _, pair := range [][3]float64{
			{e.sum[assembly.CapEdge], 2 * sums[assembly.CapEdge]},
			{e.sum[assembly.RingEdge] + e.sum[assembly.PoleEdge], 2*sums[assembly.RingEdge] + 2*sums[assembly.PoleEdge]},
			{e.sum[assembly.PoleEdge], sums[assembly.PoleEdge]},
			{e.sum[assembly.Equator], 2 * sums[assembly.Equator]},
		} {
			if pair[0] == 0 && pair[1] == 0 {
				continue
			}
			n.compared++
			slack := seamShare*pair[0] + seamSlack + 2*math.Pi*part.Ball.Radius/1000 // and a point of four thousand at either end
			if pair[1] < pair[0]-slack {
				n.short++
			}
			if pair[1] > pair[0]+slack || pair[1] < pair[0]-slack && part.Ball.Around == nil {
				t.Errorf("'%s', round edges: the blanks have %v, the welds %v (%v, %v)", part.Name, pair[0], pair[1], e.sum, sums)
			}
		}
	}
	return n
}

// postSeamsAgree holds the seams of a post against the left edges of its blanks,
// and of one without a taper against its right edge, and the rims of its discs.
func postSeamsAgree(t *testing.T, part *fab.Part, lists map[assembly.Kind][]float64) int {
	t.Helper()
	var want, disc []float64
	for i := range part.Blanks {
		b := &part.Blanks[i]
		if b.Shape == flat.Disc {
			disc = append(disc, math.Pi*b.Diameter, math.Pi*b.Diameter)
			continue
		}
		if part.Post.Bought != nil {
			continue // it has no seam that is welded
		}
		left := r2.Norm(r2.Sub(b.Outline[0], b.Outline[len(b.Outline)-1]))
		want = append(want, left, left)
		if b.Shape == flat.Tube {
			low, high := math.Inf(1), math.Inf(-1)
			for _, q := range b.Outline {
				if b.Width-q.X < 1e-6 {
					low, high = min(low, q.Y), max(high, q.Y)
				}
			}
			if part.Post.Gap == 0 && math.Abs(high-low-left) > onSeam {
				t.Errorf("'%s' is %v long at its left edge and %v at its right", part.Name, left, high-low)
			}
		}
	}
	for _, pair := range [][2][]float64{{want, lists[assembly.TubeSeam]}, {disc, lists[assembly.DiscEdge]}} {
		slices.Sort(pair[0])
		slices.Sort(pair[1])
		if !slices.EqualFunc(pair[0], pair[1], func(a, b float64) bool { return math.Abs(a-b) <= seamShare*a }) {
			t.Errorf("'%s': edges %v, welds %v", part.Name, pair[0], pair[1])
		}
	}
	return len(want) + len(disc)
}

const threaded = metals + `
base pad { disc 900, metal slab }
post mast on pad { diameter 127, length 762, metal skin }
ball domed around mast { height 200, diameter 228.6, gores 8, bend domed, metal skin }
ball capped around mast { height 450, diameter 228.6, gores 8, bend domed, caps 50.8, metal skin }
ball rolled around mast { height 670, diameter 200, gores 8, metal skin }
post pole on pad { at (300, 0), diameter 100, length 800, metal skin }
ball rings around pole { height 200, diameter 200, zones 6, metal skin }
ball half around pole { height 450, diameter 160, halves, metal skin }
ball wide around pole { height 660, diameter 200, gores 6, caps 130, metal skin }
`

// TestSeamsOfThreadedBalls walks round balls that are opened for a post.
func TestSeamsOfThreadedBalls(t *testing.T) {
	j := build(t, threaded)
	if n := seamsAgree(t, j); n.compared < 50 || n.short > 0 || n.grazed != nil {
		t.Errorf("%+v compared, want 50 or more and none short", n)
	}
	p := assembly.Make(input(j))
	kinds := map[string]int{}
	for _, w := range p.Welds {
		if w.Kind == assembly.CapEdge || w.Kind == assembly.PoleEdge {
			kinds[w.Part] += w.Count
		}
		// The middle of the sheet leaves the post at asin(63.5 / 113.55) from the
		// pole; the rest of the meridian is 2 * 113.55 * acos(63.5 / 113.55). The hole
		// is cut square to the sheet and clears the post, by less than a thickness.
		if w.Part == "domed" && w.Kind == assembly.GoreSeam {
			if want := 2 * 113.55 * math.Acos(63.5/113.55); w.Count != 8 || !(want-6 < w.Length && w.Length < want) {
				t.Errorf("%d seams of %v, want 8 of a little less than %v", w.Count, w.Length, want)
			}
		}
	}
	if kinds["wide"] != 2 || len(kinds) != 1 {
		t.Errorf("caps and discs are welded on %v, want the two of 'wide' alone", kinds)
	}
	for _, s := range p.Steps {
		if s.Work == assembly.MakePart && (s.Parts[0] == "capped" || s.Parts[0] == "rings") {
			g, _ := s.Do.(assembly.MakeGores)
			r, _ := s.Do.(assembly.RollRings)
			if len(g.Caps)+len(r.Poles) > 0 {
				t.Errorf("'%s' has neither caps nor discs: %+v", s.Parts[0], s.Do)
			}
		}
	}
	reported := 0
	for _, f := range j.Findings {
		if _, ok := f.Fact.(flat.CapsGone); ok {
			reported++
			if !slices.Equal(f.Parts, []string{"capped"}) {
				t.Errorf("%v: %+v", f.Parts, f.Fact)
			}
		}
	}
	if reported != 1 {
		t.Errorf("%d findings of caps that do nothing, want 1", reported)
	}
}

// TestSeamsOfExamples walks round the parts of the examples.
func TestSeamsOfExamples(t *testing.T) {
	for name, j := range examples(t) {
		t.Run(name, func(t *testing.T) {
			if n := seamsAgree(t, j); n.compared < 4 || n.short > 0 || n.grazed != nil {
				t.Errorf("%+v compared", n)
			}
		})
	}
	t.Run("every", func(t *testing.T) { seamsAgree(t, build(t, every)) })
}

// TestSeamsBehind walks round balls whose post crosses the gores slantwise, so that it
// leaves the continuation of a gore's cylinder behind the ball: no hole may run from
// there straight over the gore.
func TestSeamsBehind(t *testing.T) {
	for _, ball := range []string{
		"diameter 182.17, pole 80.6 deg toward 85.0 deg, gores 5",
		"diameter 172.53, pole 83.3 deg toward 193.8 deg, gores 6, caps 90.2",
		"diameter 191.03, pole 67.7 deg toward 31.7 deg, gores 10",
	} {
		j := build(t, metals+`
base pad { disc 900, metal slab }
post mast on pad { diameter 96.2, length 1000, lean 10.7 deg toward 20 deg, metal skin }
ball bead around mast { height 500, `+ball+`, metal skin }`)
		if n := seamsAgree(t, j); n.compared < 10 || n.grazed != nil {
			t.Errorf("%s: %+v", ball, n)
		}
	}
}

// TestSeamsAslant walks round balls whose poles lean, so that the post takes some of
// the edges that go round, from the prime direction on and another way about below.
func TestSeamsAslant(t *testing.T) {
	for _, ball := range []string{
		"diameter 200, pole 75 deg toward 130 deg, halves",
		"diameter 220, pole 30 deg toward 130 deg, gores 10, bend domed, caps 150",
		"diameter 220, pole 40 deg toward 70 deg, zones 5",
		"diameter 240, pole 65 deg toward 200 deg, zones 6",
	} {
		j := build(t, metals+`
base pad { disc 900, metal slab }
post mast on pad { diameter 70, length 1000, lean 10 deg toward 20 deg, metal skin }
ball bead around mast { height 500, `+ball+`, metal skin }`)
		n := seamsAgree(t, j)
		arcs := 0
		for _, s := range j.Parts[2].Seams {
			if s.Arc {
				arcs += s.Count
			}
		}
		if n.short > 0 || n.grazed != nil || arcs == 0 {
			t.Errorf("%s: %+v, %d arcs, want some and none short", ball, n, arcs)
		}
	}
}

// threadedText draws a design of balls round a post, of every construction and
// attitude, a third of them with sheets so small that rings are cut in pieces.
func threadedText(rnd *rand.Rand) string {
	var b strings.Builder
	b.WriteString(metals)
	if rnd.IntN(3) == 0 {
		b.WriteString("shop { sheet skin { size 300 by 500 } }\n")
	}
	foot, head := 20+100*rnd.Float64(), 20+100*rnd.Float64()
	if rnd.IntN(2) == 0 {
		head = foot
	}
	fmt.Fprintf(&b, "base pad { disc 900, metal slab }\npost mast on pad { diameter %.2f to %.2f, length 1800, lean %.1f deg toward 20 deg, metal skin }\n",
		foot, head, 20*rnd.Float64())
	for k := range 3 {
		wide := max(foot, head)*1.15 + 250*rnd.Float64()
		pole := ""
		if rnd.IntN(2) == 0 {
			pole = fmt.Sprintf("pole %.1f deg toward %.1f deg, ", 90*rnd.Float64(), 360*rnd.Float64())
		}
		how := [...]string{
			fmt.Sprintf("gores %d", 5+rnd.IntN(12)),
			fmt.Sprintf("gores %d, bend domed", 5+rnd.IntN(12)),
			fmt.Sprintf("gores %d, caps %.1f", 5+rnd.IntN(12), wide*(0.1+0.6*rnd.Float64())),
			fmt.Sprintf("gores %d, bend domed, caps %.1f", 5+rnd.IntN(12), wide*(0.1+0.6*rnd.Float64())),
			fmt.Sprintf("zones %d", 3+rnd.IntN(7)),
			"halves",
		}[rnd.IntN(6)]
		fmt.Fprintf(&b, "ball bead[%d] around mast { height %d, diameter %.2f, %s%s, metal skin }\n", k+1, 300+550*k, wide, pole, how)
	}
	return b.String()
}

// TestSeamsOfRandomDesigns walks round the balls of 200 random designs.
func TestSeamsOfRandomDesigns(t *testing.T) {
	rnd := rand.New(rand.NewPCG(61, 62))
	built := 0
	var sum tally
	for n := 0; built < 200 && n < 2000; n++ {
		text := threadedText(rnd)
		d, wrong := param.Evaluate(source.NewFile("any.stabile", text), param.Options{})
		if len(wrong) > 0 {
			continue
		}
		j, wrong := fab.Build(d, fab.WithMarks)
		if len(wrong) > 0 {
			continue
		}
		built++
		c := seamsAgree(t, j)
		sum = tally{sum.compared + c.compared, sum.short + c.short, append(sum.grazed, c.grazed...)}
		if t.Failed() {
			t.Fatalf("in design %d:\n%s", n, text)
		}
	}
	t.Logf("%d designs, %d edges, %d welds short, %d balls grazed:\n%s", built, sum.compared, sum.short, len(sum.grazed), strings.Join(sum.grazed, "\n"))
	if built < 200 || sum.compared < 5000 || sum.short*20 > sum.compared || len(sum.grazed) > 6 {
		t.Errorf("want 200 designs, 5000 edges, a twentieth of the welds short and one ball in a hundred grazed at most")
	}
}
