package assembly_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/assembly"
	"stabile/fab/flat"
	"stabile/fab/frame/trial"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
)

// checkOrder holds a plan to what an order must be: every part is made before it
// is joined; every joint is made once; what is moved hangs together, and is
// joined to what stands in its place already, or on the bench to what is not in
// its place yet; a ball is threaded on a bare post; everything comes to its place
// once. The tubes of a ring are put together as one, each to the next.
func checkOrder(t *testing.T, in assembly.Input, p *assembly.Plan) {
	t.Helper()
	of := make(map[string]string) // leads from a part to the one that stands for all that it is joined to
	for _, it := range in.Items {
		of[it.Part.Name] = it.Part.Name
	}
	find := func(name string) string {
		for of[name] != name {
			name = of[name]
		}
		return name
	}
	made, placed, joints := map[string]bool{}, map[string]bool{}, map[int]bool{}
	ends := map[string]int{} // joints made on a post but those of balls threaded on it
	for n, s := range p.Steps {
		if s.Number != n+1 {
			t.Errorf("step %d has the number %d", n+1, s.Number)
		}
		if text := fmt.Sprintf("%+v", s.Do); s.Do == nil || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
			t.Errorf("step %d: %s", s.Number, text)
		}
		if s.Work == assembly.MakePart {
			for _, name := range s.Parts {
				if made[name] || len(s.Joints) > 0 {
					t.Errorf("step %d makes '%s' again, or joins in the making", s.Number, name)
				}
				made[name] = true
			}
			continue
		}
		if s.Work == assembly.Finish {
			continue
		}
		_, ring := s.Do.(assembly.CloseRing)
		if ring {
			if s.Work == assembly.Place || len(s.Joints) != len(s.Parts) {
				t.Errorf("step %d makes %d joints of a ring of %d tubes", s.Number, len(s.Joints), len(s.Parts))
			}
			for _, k := range s.Joints { // they are joined side by side
				of[find(in.Design.Joints[k].A.Name)] = find(in.Design.Joints[k].B.Name)
			}
		}
		for _, name := range s.Parts[1:] {
			if find(name) != find(s.Parts[0]) {
				t.Errorf("step %d moves '%s', which is not joined to '%s'", s.Number, name, s.Parts[0])
			}
		}
		for _, name := range s.Parts {
			if s.Work == assembly.Place && placed[name] {
				t.Errorf("step %d sets '%s' in its place again", s.Number, name)
			}
		}
		if s.Work == assembly.Place && len(s.Joints) == 0 && len(placed) > 0 {
			t.Errorf("step %d sets %v on nothing", s.Number, s.Parts)
		}
		for _, k := range s.Joints {
			if joints[k] {
				t.Errorf("step %d makes joint %d again", s.Number, k)
			}
			joints[k] = true
			j := in.Design.Joints[k]
			a, b := "", j.B.Name // the ground
			if j.A != nil {
				a = j.A.Name
			}
			if slices.Contains(s.Parts, b) {
				a, b = b, a
			}
			if !slices.Contains(s.Parts, a) || slices.Contains(s.Parts, b) != ring {
				t.Errorf("step %d moves %v to join '%s' to '%s'", s.Number, s.Parts, a, b)
			}
			if (s.Work == assembly.Place) != (placed[b] || b == "") {
				t.Errorf("step %d (%s) joins '%s' to '%s', which is in its place: %v", s.Number, s.Work, a, b, placed[b])
			}
			for _, part := range []*design.Part{j.A, j.B} {
				if part == nil {
					continue
				}
				if !made[part.Name] && part.Base == nil {
					t.Errorf("step %d joins '%s' before it is made", s.Number, part.Name)
				}
				if j.Kind == design.ThreadJoint && part == j.Post && ends[part.Name] > 0 {
					t.Errorf("step %d threads a ball on '%s', which has something on it already", s.Number, part.Name)
				}
				if j.Kind != design.ThreadJoint {
					ends[part.Name]++
				}
			}
			if !ring {
				of[find(a)] = find(b)
			}
		}
		if s.Work == assembly.Place {
			for _, name := range s.Parts {
				placed[name] = true
			}
		}
	}
	for k, j := range in.Design.Joints {
		if !joints[k] {
			t.Errorf("joint %d of %+v is never made", k, j)
		}
	}
	for _, it := range in.Items {
		if !placed[it.Part.Name] {
			t.Errorf("'%s' never comes to its place", it.Part.Name)
		}
	}
	checkNumbers(t, p)
	checkSpaces(t, in, p)
}

// checkSpaces holds the step that closes each space to the last one in which a
// part of it is made, a post of it is joined at an end, or a ball of it is filled
// by the post through it.
func checkSpaces(t *testing.T, in assembly.Input, p *assembly.Plan) {
	t.Helper()
	for k, space := range p.Spaces {
		last := 0
		for _, s := range p.Steps {
			shuts := s.Work == assembly.MakePart && slices.Contains(space.Parts, s.Parts[0])
			for _, n := range s.Joints {
				j := in.Design.Joints[n]
				switch {
				case j.Kind == design.EndJoint && j.Post != nil:
					shuts = shuts || slices.Contains(space.Parts, j.Post.Name)
				case j.Kind == design.ThreadJoint:
					ball := j.A
					if ball == j.Post {
						ball = j.B
					}
					shuts = shuts || slices.Contains(space.Parts, ball.Name)
				}
			}
			if shuts {
				last = s.Number
			}
			if slices.Contains(s.Closes, k) != (s.Number == space.Step) {
				t.Errorf("step %d closes %v: %v, but its step is %d", s.Number, space.Parts, s.Closes, space.Step)
			}
		}
		if space.Step != last {
			t.Errorf("the space of %v is closed by step %d, want %d", space.Parts, space.Step, last)
		}
	}
}

// checkNumbers looks for numbers that are none, and for welds that are made in no
// step or twice.
func checkNumbers(t *testing.T, p *assembly.Plan) {
	t.Helper()
	count := make([]int, len(p.Welds))
	for _, s := range p.Steps {
		for _, w := range s.Welds {
			count[w]++
		}
		if l := s.Lift; l != nil {
			for _, x := range []float64{l.Mass, l.Low, l.High, l.CG.X, l.CG.Y, l.CG.Z, l.Over, l.Toward, l.Tips} {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Errorf("step %d: lift %+v", s.Number, *l)
				}
			}
			if !(l.Low <= l.Mass && l.Mass <= l.High) || l.Heavy != (l.High > assembly.OneLift) {
				t.Errorf("step %d: lift of %v (%v to %v), heavy %v", s.Number, l.Mass, l.Low, l.High, l.Heavy)
			}
		}
	}
	for i, w := range p.Welds {
		if count[i] != 1 {
			t.Errorf("weld %d, %s of '%s', is made in %d steps", w.Number, w.Kind, w.Part, count[i])
		}
		for _, x := range append([]float64{w.Length, w.Filler, w.Dress, w.Section, w.Tacks.Spacing, w.Bearing}, w.Tacks.At...) {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("weld %d: %+v", w.Number, w)
			}
		}
	}
	for _, s := range p.Spaces {
		if s.Step == 0 || !(s.Volume > 0) {
			t.Errorf("the space of %v is closed by step %d, volume %v", s.Parts, s.Step, s.Volume)
		}
	}
}

// TestOrder checks the orders of the examples, of the design with every joint,
// and of random designs of the language.
func TestOrder(t *testing.T) {
	for name, j := range examples(t) {
		t.Run(name, func(t *testing.T) { checkOrder(t, input(j), assembly.Make(input(j))) })
	}
	t.Run("every", func(t *testing.T) {
		j := build(t, every)
		checkOrder(t, input(j), assembly.Make(input(j)))
	})
	rnd := rand.New(rand.NewPCG(5, 6))
	built, loops, threads := 0, 0, 0
	for n := 0; built < 150 && n < 4000; n++ {
		text := someText(rnd)
		d, wrong := param.Evaluate(source.NewFile("any.stabile", text), param.Options{})
		if len(wrong) > 0 {
			continue
		}
		j, wrong := fab.Build(d, fab.WithMarks)
		if len(wrong) > 0 {
			continue
		}
		built++
		in := input(j)
		p := assembly.Make(in)
		checkOrder(t, in, p)
		checkMass(t, j, p)
		for _, s := range p.Steps {
			if len(s.Joints) > 1 {
				loops++
			}
			if _, ok := s.Do.(assembly.ThreadBall); ok {
				threads++
			}
		}
		if t.Failed() {
			t.Fatalf("in\n%s", text)
		}
	}
	if built < 150 || loops < 20 || threads < 20 {
		t.Errorf("%d designs with %d loops and %d threaded balls, want 150 with 20 and 20", built, loops, threads)
	}
}

// someText writes a design that has a fair chance to be sound, with threaded
// balls, branches and posts between parts.
func someText(rnd *rand.Rand) string {
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	pick := func(list ...string) string { return list[rnd.IntN(len(list))] }
	var b strings.Builder
	fmt.Fprintf(&b, "units %s\n", pick("mm", "inch"))
	b.WriteString("metal skin { alloy low-carbon-steel, gauge 18 }\nmetal slab { alloy low-carbon-steel, thickness 8 mm }\n")
	fmt.Fprintf(&b, "base pad { %s }\n", pick("plate 900 mm by 500 mm, metal slab", "disc 700 mm, metal slab", "feet"))
	build := func() string {
		return pick("halves", "gores 6", "gores 8, bend domed", "gores 12, caps 30 mm", "bought 2 kg", "zones 5", "halves, vent 6 mm")
	}
	var tops []string
	for i := range 2 + rnd.IntN(2) {
		x := float64(i)*260 - 260
		top := between(200, 500)
		fmt.Fprintf(&b, "post p%d on pad { at (%.3f mm, %.3f mm), diameter %.2f mm, length %.2f mm, lean %.2f deg toward %.2f deg, metal skin }\n",
			i, x, between(-60, 60), between(35, 60), top, max(0, between(-10, 8)), between(0, 360))
		on := fmt.Sprintf("p%d", i)
		for k, at := 0, 110.0; k < 2 && at < top-110 && rnd.IntN(2) == 0; k, at = k+1, at+115 {
			fmt.Fprintf(&b, "ball t%d%d around p%d { height %.2f mm, diameter %.2f mm, %s, metal skin }\n", i, k, i, at, between(80, 105), pick("halves", "gores 6", "zones 5"))
		}
		if rnd.IntN(3) == 0 {
			fmt.Fprintf(&b, "post k%d on p%d { at %.2f mm toward %.2f deg, diameter 22 mm, length 90 mm, metal skin }\n", i, i, top-40, between(60, 120))
		}
		if rnd.IntN(3) == 0 {
			fmt.Fprintf(&b, "post u%d on %s { length %.2f mm, diameter 30 mm, metal skin }\n", i, on, between(60, 200))
			on = fmt.Sprintf("u%d", i)
		}
		fmt.Fprintf(&b, "ball b%d on %s { diameter %.2f mm, offset %.2f mm toward %.2f deg, %s, metal skin }\n", i, on, between(120, 160), max(0, between(-5, 10)), between(0, 360), build())
		tops = append(tops, fmt.Sprintf("b%d", i))
		if rnd.IntN(4) == 0 {
			fmt.Fprintf(&b, "ball s%d on b%d { diameter 70 mm, %s, metal skin }\n", i, i, build())
		}
	}
	for i := range len(tops) - 1 {
		if rnd.IntN(3) > 0 {
			fmt.Fprintf(&b, "post tie%d from %s to %s { diameter %.2f mm, metal skin }\n", i, tops[i], tops[i+1], between(15, 30))
		}
	}
	if rnd.IntN(4) == 0 {
		fmt.Fprintf(&b, "ball low on pad { at (120 mm, -190 mm), diameter 80 mm, %s, metal skin }\n", build())
	}
	fmt.Fprint(&b, pick("", "finish coat { paint }\n", "finish bath { galvanize }\n"))
	return b.String()
}

// trialInput takes a design that was put together by hand, with a joint of 100 mm
// for each of its joints.
func trialInput(b *trial.Builder) assembly.Input {
	in := assembly.Input{Design: &b.Design, Ties: b.Design.Ties()}
	at := map[*design.Part]int{}
	for i, it := range b.Items() {
		at[it.Part] = i
		in.Items = append(in.Items, assembly.Item{Part: it.Part, Mass: it.Mass, Low: 0.9 * it.Mass, High: 1.1 * it.Mass, CG: it.CG, Seams: []flat.Seam{{Kind: flat.TubeSeam, Count: 1, Length: 100}}})
	}
	for _, j := range b.Design.Joints {
		teller, with, where := j.B, j.A, "rest"
		switch {
		case j.Kind == design.ThreadJoint:
			where = "thread"
		case j.Kind == design.SeatJoint:
			where = "seat"
		case j.Post != nil:
			teller, where = j.Post, "head"
			if j.End == design.Foot {
				where = "foot"
			}
			if with == teller {
				with = j.B
			}
		}
		it := &in.Items[at[teller]]
		it.Joints = append(it.Joints, assembly.Joint{With: with.Name, At: where, Length: 100})
	}
	return in
}

// TestRandomTrees checks the orders of large random sculptures, whose parts may
// run into each other.
func TestRandomTrees(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 8))
	for n := range 60 {
		b := trial.Random(rnd, 5+n)
		in := trialInput(b)
		checkOrder(t, in, assembly.Make(in))
		if t.Failed() {
			t.Fatalf("in tree %d", n)
		}
	}
	if in := trialInput(trial.Assembly()); true {
		checkOrder(t, in, assembly.Make(in))
	}
}

func FuzzMake(f *testing.F) {
	f.Add(uint64(1), 1.5, 40.0, uint8(20))
	f.Add(uint64(2), 0.5, 0.001, uint8(60))
	f.Add(uint64(3), 30.0, 1e300, uint8(3))
	f.Fuzz(func(t *testing.T, seed uint64, thickness, tack float64, size uint8) {
		if !(thickness > 0.01 && thickness < 100) || math.IsNaN(tack) {
			return
		}
		b := trial.Random(rand.New(rand.NewPCG(seed, 1)), 2+int(size)%80)
		for _, p := range b.Design.Parts {
			p.Metal.Thickness = thickness
		}
		in := trialInput(b)
		in.Welding = &design.Welding{Tack: tack}
		for _, it := range in.Items {
			if math.IsNaN(it.Mass) || math.IsNaN(r3.Norm(it.CG)) || !(it.Mass >= 0) {
				return // thicker than the parts
			}
		}
		in.Design.Units = quantity.System(seed % 3)
		checkOrder(t, in, assembly.Make(in))
	})
}
