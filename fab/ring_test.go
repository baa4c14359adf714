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

	"stabile/fab/check"
	"stabile/fab/flat"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

var randomRings = flag.Int("rings", 150, "how many random rings to roll up")

// randomRing writes a design with a ring, and returns how many tubes that has.
func randomRing(rnd *rand.Rand) (text string, n int) {
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	var b strings.Builder
	b.WriteString("units mm\nmetal skin { alloy low-carbon-steel, gauge 16 }\nmetal slab { alloy low-carbon-steel, thickness 10 mm }\nbase pad { plate 4000 by 4000, metal slab }\n")
	thick := between(30, 120)
	n = 3 + rnd.IntN(22)
	across := thick * between(5, 16)
	body := fmt.Sprintf("across %.3f, segments %d, facing %.2f deg, metal skin", across, n, between(0, 360))
	switch rnd.IntN(4) {
	case 0:
		body += fmt.Sprintf(", diameter %.3f, bought tube, wall %.2f", thick, between(1.5, 5))
	case 1:
		body += fmt.Sprintf(", diameter %.3f, gap %.2f", thick, between(0.2, 1.5))
	default:
		body += fmt.Sprintf(", diameter %.3f", thick)
	}
	flatly := rnd.IntN(2) == 0
	if flatly {
		body += ", flat"
	}
	// What holds it fits under a tube, however short that is.
	long := (across - thick) * math.Tan(math.Pi/float64(n))
	leg := min(0.8*thick, 0.5*long)
	switch rnd.IntN(3) {
	case 0:
		fmt.Fprintf(&b, "ring hoop on pad { %s, at (%.2f, %.2f) }\n", body, between(-300, 300), between(-300, 300))
	case 1:
		fmt.Fprintf(&b, "post stem on pad { diameter %.3f, length %.2f, metal skin }\nring hoop on stem { %s }\n", leg, between(150, 500), body)
	default:
		fmt.Fprintf(&b, "ring hoop at (%.2f, %.2f, %.2f) { %s }\npost stem from pad to hoop[1] { diameter %.3f, metal skin }\n",
			between(-300, 300), between(-300, 300), across/2+between(150, 500), body, leg)
	}
	return b.String(), n
}

// TestRingsClose: random rings are rolled up from their flats with geometry written here. All
// edges lie on the planes between neighbours, halfway round the turn from one to the next, so
// that ends meet and none runs into the other; the whole closes; the corners stand out as far
// as is said; tubes weigh what their walls come to; and the blanks are one where none is marked.
func TestRingsClose(t *testing.T) {
	var worst, over, heaviest float64
	rings, points, alone := 0, 0, 0
	for seed := range uint64(*randomRings) {
		text, n := randomRing(rand.New(rand.NewPCG(seed, 77)))
		d, err := param.Evaluate(source.NewFile("ring", text), param.Options{})
		if len(err) > 0 {
			t.Fatalf("%v\n%s", err.Err(), text)
		}
		j, wrong := Build(d, WithMarks)
		if len(wrong) > 0 {
			t.Fatalf("%v\n%s", wrong.Err(), text)
		}
		rings++
		r := d.Rings[0]
		if len(r.Tubes) != n {
			t.Fatalf("%d tubes, want %d", len(r.Tubes), n)
		}
		farthest, sum := 0.0, r3.Vec{}
		for k, p := range r.Tubes {
			next := r.Tubes[(k+1)%n].Post
			sum = r3.Add(sum, r3.Scale(p.Post.Length, p.Post.Direction))
			if off := r3.Norm(r3.Sub(p.Post.Ends[design.Head].At, next.Ends[design.Foot].At)); off > 1e-9 {
				t.Fatalf("head of %s is %g mm from the next foot\n%s", p.Name, off, text)
			}
			if turn := math.Acos(r3.Dot(p.Post.Direction, next.Direction)); math.Abs(turn-2*math.Pi/float64(n)) > 1e-9 {
				t.Fatalf("%s turns by %g", p.Name, turn)
			}
			tube := tubeOf(j, r, k)
			w, o, far, count := tube.measure(t)
			worst, over, farthest, points = max(worst, w), max(over, o), max(farthest, far), points+count
			if w > nearEnough || o > insideBy {
				t.Fatalf("seed %d: %s misses its planes by %g mm and runs over them by %g\n%s", seed, p.Name, w, o, text)
			}
			wrongBy := math.Abs(tube.weighs()/tube.part.Mass - 1)
			if heaviest = max(heaviest, wrongBy); wrongBy > 2e-4 {
				t.Fatalf("seed %d: %s weighs %g kg, not %g\n%s", seed, p.Name, tube.weighs(), tube.part.Mass, text)
			}
		}
		if r3.Norm(sum) > 1e-9*r.Across {
			t.Fatalf("it fails to close by %g mm", r3.Norm(sum))
		}
		// A rolled wall touches there with its inside, and a groove outside is left for the weld.
		reach := r.Across/2 + r.Corner()
		if p := r.Tubes[0]; p.Post.Bought == nil {
			reach = math.Hypot(r.Across/2, (r.Across/2-p.Metal.Thickness)*math.Tan(math.Pi/float64(n)))
		}
		if off := math.Abs(farthest - reach); off > nearEnough {
			t.Fatalf("seed %d: corners reach %g mm, not %g\n%s", seed, farthest, reach, text)
		}
		kinds := 0
		for _, c := range j.Cuts {
			if c.Blank.Part != "stem" && c.Blank.Part != "pad" {
				kinds++
			}
		}
		most := 2 // one of its own is that on which something stands
		if n%2 == 1 && r.Tubes[0].Post.Bought == nil {
			most++ // and the last
		}
		if kinds > most {
			t.Fatalf("seed %d: %d kinds of blank, want %d at most\n%s", seed, kinds, most, text)
		}
		if kinds == 1 {
			alone++
		}
	}
	if alone == 0 {
		t.Error("no ring has all its blanks alike")
	}
	t.Logf("%d rings, %d edge points: at most %.4f mm off their planes and %.1g mm over; masses within %.1g; %d of one blank", rings, points, worst, over, heaviest, alone)
}

// A ringTube is a tube of a ring with the planes that it must end at.
type ringTube struct {
	part         *Part
	foot         r3.Vec
	along        r3.Vec
	out, right   r3.Vec // of bearings 0 and 90 deg
	center, axis r3.Vec
	normal       [2]r3.Vec // of the planes at its ends, into the tube; both go through the axis of the ring
	inner, outer float64   // mm, radii
}

// tubeOf works a tube's place out from the ring's centre and axis and its number alone.
func tubeOf(j *Job, r *design.Ring, k int) ringTube {
	n := len(r.Tubes)
	t := ringTube{center: r.Center, axis: r.Axis}
	for i := range j.Parts {
		if j.Parts[i].Part == r.Tubes[k] {
			t.part = &j.Parts[i]
		}
	}
	first := r3.Vec{Z: -1}
	if r.Flat {
		first = r.First
	}
	radial := func(turns float64) r3.Vec { // Rodrigues, of a vector square to the axis
		sin, cos := math.Sincos(2 * math.Pi * turns / float64(n))
		return r3.Add(r3.Scale(cos, first), r3.Scale(sin, r3.Cross(r.Axis, first)))
	}
	t.out = radial(float64(k))
	t.along = r3.Cross(r.Axis, t.out)
	t.right = r3.Cross(t.along, t.out)
	t.outer = t.part.Post.Ends[design.Foot].Diameter / 2
	t.inner = t.outer - t.part.Metal.Thickness
	middle := r.Across/2 - t.outer
	half := middle * math.Tan(math.Pi/float64(n))
	t.foot = r3.Add(r.Center, r3.Sub(r3.Scale(middle, t.out), r3.Scale(half, t.along)))
	t.normal[0] = r3.Cross(r.Axis, radial(float64(k)-0.5))
	t.normal[1] = r3.Scale(-1, r3.Cross(r.Axis, radial(float64(k)+0.5)))
	return t
}

// at returns the point of the rolled tube at a bearing, a height and a radius.
func (t *ringTube) at(bearing, y, radius float64) r3.Vec {
	sin, cos := math.Sincos(bearing)
	p := r3.Add(t.foot, r3.Scale(y, t.along))
	return r3.Add(p, r3.Scale(radius, r3.Add(r3.Scale(cos, t.out), r3.Scale(sin, t.right))))
}

// measure rolls the tube's flat up and returns how far its edges are from their planes at
// most, how far they run over them, and how far from the ring's axis its outside reaches. A
// rolled wall, square through the sheet, touches with one of its faces; one that is sawn lies
// in the plane with both, and its template gives the outer.
func (t *ringTube) measure(test *testing.T) (worst, over, farthest float64, points int) {
	b := &t.part.Blanks[0]
	bought := t.part.Post.Bought != nil
	wrapped := (t.inner + t.outer) / 2
	if bought {
		wrapped = t.outer
	}
	edge := func(q r2.Vec) {
		bearing := t.part.Post.Seam + q.X/wrapped
		end := 0
		if q.Y > t.part.Post.Length/2 {
			end = 1
		}
		outer := t.at(bearing, q.Y, t.outer)
		d := r3.Dot(r3.Sub(outer, t.center), t.normal[end])
		if !bought {
			d = min(d, r3.Dot(r3.Sub(t.at(bearing, q.Y, t.inner), t.center), t.normal[end]))
		}
		worst, over = max(worst, math.Abs(d)), max(over, -d)
		rel := r3.Sub(outer, t.center)
		farthest = max(farthest, r3.Norm(r3.Sub(rel, r3.Scale(r3.Dot(rel, t.axis), t.axis))))
		points++
	}
	for _, q := range b.Outline {
		edge(q)
	}
	if points < 16 {
		test.Fatalf("a flat of %d points", points)
	}
	return worst, over, farthest, points
}

// weighs returns the mass in kg of the tube's wall between the planes, by midpoints in
// bearing.
func (t *ringTube) weighs() float64 {
	const steps = 4000
	volume, bought := 0.0, t.part.Post.Bought != nil
	// How far along the axis from the foot a line of the wall meets a plane.
	meets := func(end int, bearing, radius float64) float64 {
		from := r3.Sub(t.at(bearing, 0, radius), t.center)
		return -r3.Dot(from, t.normal[end]) / r3.Dot(t.along, t.normal[end])
	}
	// From one edge of the seam to the other; the gap between them is left out.
	mean := (t.inner + t.outer) / 2
	turn := 2*math.Pi - t.part.Post.Gap/mean
	for k := range steps {
		bearing := t.part.Post.Seam + turn*(float64(k)+0.5)/steps
		if bought {
			// Sawn flat: each fibre has its own length; the mean over the wall by Simpson's rule, weighted by radius.
			sum := 0.0
			for i, w := range [3]float64{1, 4, 1} {
				radius := t.inner + (t.outer-t.inner)*float64(i)/2
				sum += w / 6 * radius * (meets(1, bearing, radius) - meets(0, bearing, radius))
			}
			volume += sum * (t.outer - t.inner) * turn / steps
			continue
		}
		low := max(meets(0, bearing, t.inner), meets(0, bearing, t.outer))
		high := min(meets(1, bearing, t.inner), meets(1, bearing, t.outer))
		volume += (high - low) * mean * (t.outer - t.inner) * turn / steps
	}
	return volume * t.part.Metal.Density * 1e-9
}

// TestRingTurned: the blanks of a ring of an even number are one, and every other one of its
// tubes is it turned end for end.
func TestRingTurned(t *testing.T) {
	const text = `units mm
metal skin { alloy low-carbon-steel, gauge 16 }
base pad { plate 900 by 900, metal skin }
ring hoop on pad { across 700, diameter 60, segments 10, gap 1, flat, metal skin }
`
	d, err := param.Evaluate(source.NewFile("ring", text), param.Options{})
	if len(err) > 0 {
		t.Fatal(err.Err())
	}
	j, wrong := Build(d, WithMarks)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	for _, c := range j.Cuts {
		if c.Blank.Shape != flat.Tube {
			continue
		}
		if c.Quantity != 10 || len(c.Turned) != 5 || c.Turned[0] != "hoop[2]" {
			t.Errorf("%d alike, of which %v are turned", c.Quantity, c.Turned)
		}
	}
	if n := len(j.Cuts); n != 2 {
		t.Errorf("%d kinds of blank, want the plate and the tube", n)
	}
}

// TestRingOpening: the opening of a ring is one gap, which traps a head where a torso goes
// through and a head does not, and no more where it is wide.
func TestRingOpening(t *testing.T) {
	traps := func(across float64) (list []check.Check) {
		text := shop + fmt.Sprintf("post stem on pad { diameter 40, length 300, metal skin }\nring hoop on stem { across %g, diameter 50, metal skin }\nsite { people leaning }\n", across)
		for _, c := range checksOf(buildWith(t, text, Everything), check.Entrapment) {
			if c.Verdict == check.Fails {
				list = append(list, c)
			}
		}
		return list
	}
	if list := traps(300); len(list) != 1 || list[0].Part != "hoop[1]" || list[0].With != "hoop[7]" {
		t.Errorf("an opening of 200 mm: %+v", list)
	}
	if list := traps(400); len(list) != 0 {
		t.Errorf("an opening of 300 mm: %+v", list)
	}
}
