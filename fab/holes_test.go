package fab

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// These tests bend flats with holes back to their places and look along each hole: its edge
// must be the true one.

var pierced = flag.Int("pierced", 16, "how many random sculptures with holes to look through")

// beside returns how far, in mm, a point lies beside the true edge of a hole, looked at along
// its axis, negative within: about the line between the middles of its ends. Far is infinite
// for a point that is not on the side of the part through which it comes.
func beside(p *design.Part, h *design.Hole, far bool, x r3.Vec) float64 {
	way := h.Way
	if far {
		way = r3.Scale(-1, way)
	}
	middle := r3.Vec{}
	switch {
	case p.Ball != nil:
		middle = p.Ball.Center
	case p.Post != nil && !h.Disc:
		middle = p.Post.Ends[design.Foot].At
	}
	if p.Base == nil && !h.Disc && r3.Dot(r3.Sub(x, middle), way) <= 0 {
		return math.Inf(1)
	}
	if h.Disc && r3.Dot(r3.Sub(x, h.At), h.Way) < -2*p.Sheet().Thickness {
		return math.Inf(1)
	}
	return besideAxis(h, r3.Sub(x, h.At))
}

// besideAxis is beside for a point given from the hole's axis.
func besideAxis(h *design.Hole, rel r3.Vec) float64 {
	rel = r3.Sub(rel, r3.Scale(r3.Dot(rel, h.Way), h.Way))
	along, across := r3.Dot(rel, h.Up), r3.Norm(r3.Sub(rel, r3.Scale(r3.Dot(rel, h.Up), h.Up)))
	long, short := h.Height, h.Width
	if long < short {
		long, short = short, long
		along, across = across, along
	}
	return math.Hypot(max(0, math.Abs(along)-(long-short)/2), across) - short/2
}

// anyHoles writes a sculpture with holes everywhere.
func anyHoles(rnd *rand.Rand) string {
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	pick := func(list ...string) string { return list[rnd.IntN(len(list))] }
	size := func(most float64) string {
		if rnd.IntN(2) == 0 {
			return fmt.Sprintf("diameter %.3f", between(4, most))
		}
		return fmt.Sprintf("slot %.3f by %.3f%s", between(3, most), between(3, most), pick("", "", fmt.Sprintf(", turn %.2f deg", between(-90, 90))))
	}
	var b strings.Builder
	b.WriteString(shop)
	wide := between(50, 110)
	made := pick("", "courses 2, ", "courses 3, stagger 120 deg, gap 1, ", fmt.Sprintf("bought tube, wall %.2f, ", between(1.5, 8)), "", fmt.Sprintf("seam toward %.1f deg, ", between(0, 360)))
	to := ""
	if made == "" && rnd.IntN(2) == 0 {
		to = fmt.Sprintf(" to %.3f", wide*between(0.6, 1.2))
	}
	fmt.Fprintf(&b, "post p on pad { diameter %.3f%s, length %.2f, lean %.2f deg toward %.2f deg, %smetal skin }\n", wide, to, between(300, 700), max(0, between(-10, 12)), between(0, 360), made)
	build := pick("gores 8", "gores 12, caps 60", "gores 7, caps 50 round", "gores 9, bend domed", "gores 10, bend domed, caps 60", "zones 5", "halves", "gores 6, edge mid")
	diameter := between(180, 420)
	fmt.Fprintf(&b, "ball b on p { diameter %.3f, pole %.2f deg toward %.2f deg, %s, metal thin }\n", diameter, pickOf(rnd, 0, between(0, 90)), between(0, 360), build)
	fmt.Fprintf(&b, "post q on b { diameter 50, length 120, offset %.2f toward %.2f deg, metal skin }\n", between(0, 30), between(0, 360))
	fmt.Fprintf(&b, "post r on q { diameter 30, length 60, metal skin }\n")
	fmt.Fprintf(&b, "hole way in b { joint q, diameter %.2f }\nhole cable in r { at 30 toward 10 deg, diameter 8, through }\nhole wire in q { joint r, diameter 12 }\n", between(6, 38))
	fmt.Fprintf(&b, "hole drop in pad { at (-200, %.2f), %s }\nhole duct in pad { joint p, diameter 12 }\n", between(-100, 100), size(40))
	for i := range 3 {
		fmt.Fprintf(&b, "hole h%d in p { at %.2f toward %.2f deg, %s%s }\n", i, between(60, 250), between(0, 360), size(wide*0.5), pick("", ", through"))
		fmt.Fprintf(&b, "hole e%d in b { toward %.2f deg, up %.2f deg, %s%s }\n", i, between(0, 360), between(-50, 50), size(diameter*0.3), pick("", "", ", through"))
	}
	return b.String()
}

func pickOf(rnd *rand.Rand, list ...float64) float64 { return list[rnd.IntN(len(list))] }

// TestHolesComeOutTrue looks at each hole of random sculptures, bent back from their flats,
// along its axis: on the flats the edges of holes lie on the true edge, no metal lies within
// it, and all round just beside it there is metal, but for where a seam has its groove.
func TestHolesComeOutTrue(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 4))
	built, edges, rays, open := 0, 0, 0, 0
	worst, heavy := 0.0, 0.0
	for n := 0; built < *pierced && n < 60**pierced; n++ {
		text := anyHoles(rnd)
		j := ifSound(text)
		if j == nil {
			continue
		}
		built++
		for i := range j.Parts {
			p := &j.Parts[i]
			e, r, o, w := lookThrough(t, j, p)
			edges, rays, open, worst = edges+e, rays+r, open+o, max(worst, w)
		}
		heavy = max(heavy, checkMasses(t, j, 400))
		if t.Failed() {
			t.Fatalf("%d:\n%s", n, text)
		}
	}
	t.Logf("%d sculptures: %d points of edges at most %.4f mm off, %d rays, %d of them at seams; masses at most %.4f %% off", built, edges, worst, rays, open, 100*heavy)
	if built < *pierced || open > rays/20 {
		t.Errorf("%d sculptures built, want %d; %d of %d rays beside holes meet no metal", built, *pierced, open, rays)
	}
}

// holeLevel returns how far, in mm, the level of the sheet at which holes are true lies
// outside of its middle.
func holeLevel(p *Part) float64 {
	if p.Post != nil && p.Post.Bought != nil {
		return p.Metal.Thickness / 2
	}
	return 0
}

// lookThrough looks at the holes of a part. It returns how many points of edges and how many
// rays were looked at, how many of these miss the metal that should be beside a hole, and how
// far edges are off.
func lookThrough(t *testing.T, j *Job, p *Part) (edges, rays, open int, worst float64) {
	t.Helper()
	list := plaques(j, p)
	level := holeLevel(p)
	least := func(x r3.Vec) (s float64) {
		s = math.Inf(1)
		for i := range p.Openings {
			o := &p.Openings[i]
			s = min(s, beside(p.Part, o.Hole, o.Far, x))
		}
		return s
	}
	for i := range list {
		q := &list[i]
		for _, h := range q.holes {
			for k, a := range h.Outline {
				b := h.Outline[(k+1)%len(h.Outline)]
				for _, u := range [2]float64{0, 0.5} {
					at := r2.Add(a, r2.Scale(u, r2.Sub(b, a)))
					if h.Name == "" || q.trim > 0 && r2.Norm(at) > q.trim {
						continue // an opening for another part, or what is trimmed off
					}
					off := least(q.space(at, level))
					edges++
					if worst = max(worst, math.Abs(off)); math.Abs(off) > nearEnough {
						t.Errorf("%s: the edge of hole %s at %.2f lies %.4f mm off", q.name, h.Name, a, off)
						return
					}
				}
			}
		}
		for k, a := range q.outline {
			b := q.outline[(k+1)%len(q.outline)]
			for _, u := range [4]float64{0, 0.25, 0.5, 0.75} {
				at := r2.Add(a, r2.Scale(u, r2.Sub(b, a)))
				if off := least(q.space(at, level)); off < -nearEnough && !(q.trim > 0 && r2.Norm(at) > q.trim) {
					t.Errorf("%s: its outline at %.2f runs %.4f mm into a hole", q.name, a, -off)
					return
				}
			}
		}
	}
	for i := range p.Openings {
		o := &p.Openings[i]
		h := o.Hole
		way := o.Way
		const around = 90
		for k := range 2 * around {
			// Just within the true edge and just beside it.
			in := k < around
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / around)
			out := r3.Add(r3.Scale(cos, r3.Cross(h.Way, h.Up)), r3.Scale(sin, h.Up))
			want := 0.1
			if in {
				want = -nearEnough
			}
			lo, hi := 0.0, h.Width+h.Height
			at := func(u float64) r3.Vec { return r3.Add(h.At, r3.Scale(u, out)) }
			for range 50 {
				if m := (lo + hi) / 2; besideAxis(h, r3.Scale(m, out)) < want {
					lo = m
				} else {
					hi = m
				}
			}
			metal := false
			for q := range list {
				metal = metal || meets(&list[q], p.Part, o.Way, at(lo), level)
			}
			rays++
			switch {
			case in && metal:
				t.Errorf("%s: there is metal within hole %s, along %.3f at %.2f", p.Name, h.Name, way, at(lo))
				return
			case !in && !metal:
				open++
			}
		}
	}
	return edges, rays, open, worst
}

// meets reports whether a line along a hole comes through the metal of a piece, at a level
// of its sheet.
func meets(q *plaque, p *design.Part, way, from r3.Vec, level float64) bool {
	// From the side of the part's middle outward.
	middle := from
	far := 0.0
	switch {
	case p.Ball != nil:
		middle, far = p.Ball.Center, 1.3*p.Ball.Radius
	case p.Post != nil:
		middle, far = p.Post.Ends[design.Foot].At, 1.3*max(p.Post.Ends[0].Diameter, p.Post.Ends[1].Diameter)
	}
	start := r3.Sub(from, r3.Scale(r3.Dot(r3.Sub(from, middle), way), way))
	if strings.HasSuffix(q.name, "head disc") || p.Base != nil {
		start, far = r3.Sub(from, r3.Scale(15, way)), 30
		level = 0
	}
	out := func(s float64) float64 {
		_, o := q.flat(r3.Add(start, r3.Scale(s, way)))
		return o - level
	}
	const steps = 64
	for k := range steps {
		a, b := far*float64(k)/steps, far*float64(k+1)/steps
		fa, fb := out(a), out(b)
		if !(fa < 0 && fb >= 0) {
			continue
		}
		for range 40 {
			if m := (a + b) / 2; out(m) < 0 {
				a = m
			} else {
				b = m
			}
		}
		at, off := q.flat(r3.Add(start, r3.Scale(b, way)))
		if math.Abs(off-level) < 1e-6 && q.has(at) {
			return true
		}
	}
	return false
}
