package fab

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/flat"
	"stabile/fab/rolling"
	"stabile/fab/sheets"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

var coursedPosts = flag.Int("courses", 40, "how many random posts in courses to roll up")

// courseOf returns the numbers of the courses that are cut as a blank, from 1 at the
// foot; none where its post is in one length.
func courseOf(b *flat.Blank) (list []int) {
	if b.Courses < 2 {
		return nil
	}
	for _, text := range b.Numbers {
		n, err := strconv.Atoi(text)
		if err != nil {
			panic("no number: " + text)
		}
		list = append(list, n)
	}
	if len(list) == 0 { // a piece of one: "mast course 2 1 of 3"
		fields := strings.Fields(b.Name)
		n, err := strconv.Atoi(fields[len(fields)-4])
		if err != nil {
			panic("no number: " + b.Name)
		}
		list = []int{n}
	}
	return list
}

// rolled is a blank of a post at one of its courses.
type rolled struct {
	*flat.Blank
	course  int     // from 0
	seam    float64 // rad
	lifted  float64 // mm, by which it stands higher than its flat says, being one of several alike
	low, up float64 // mm, heights of its square ends; infinite at the post's own
}

// coursesOf returns the blanks of a post, each as often as it is cut, with where they
// stand: round seams are square to the axis, and every other seam is turned.
func coursesOf(p *Part) (list []rolled) {
	w := wallOf(p.Part)
	height := func(k int) float64 { // of the round seam above course k, from 0
		switch {
		case k < 0:
			return math.Inf(-1)
		case k >= len(p.Rounds):
			return math.Inf(1)
		}
		return (p.Rounds[k] - w.start) / w.cos
	}
	for i := range p.Blanks {
		b := &p.Blanks[i]
		if b.Shape == flat.Disc {
			continue
		}
		numbers := courseOf(b)
		if len(numbers) == 0 {
			list = append(list, rolled{Blank: b, seam: p.Post.Seam, low: math.Inf(-1), up: math.Inf(1)})
		}
		for _, n := range numbers {
			r := rolled{Blank: b, course: n - 1, seam: p.Post.Seam + float64((n-1)%2)*p.Post.Stagger}
			r.low, r.up = height(n-2), height(n-1)
			if n != numbers[0] {
				r.lifted = r.low - height(numbers[0]-2)
			}
			list = append(list, r)
		}
	}
	return list
}

// off returns the bearing and the height of a point of the flat.
func (r *rolled) off(w *wall, q r2.Vec) (bearing, height float64) {
	bearing, height = w.offFlat(r.Blank, q)
	return bearing - w.part.Post.Seam + r.seam, height + r.lifted
}

// anyCourses writes a post in courses with what it stands on and what stands on it, as
// a pattern for its courses.
func anyCourses(rnd *rand.Rand) (text, courses string) {
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	var b strings.Builder
	b.WriteString("units mm\nmetal skin { alloy low-carbon-steel, thickness " + []string{"1 mm", "1.5 mm", "3 mm"}[rnd.IntN(3)] + " }\nmetal slab { alloy low-carbon-steel, thickness 10 mm }\nbase pad { plate 3000 by 3000, metal slab }\n")
	diameter := between(60, 220)
	size := fmt.Sprintf("diameter %.3f", diameter)
	if rnd.IntN(2) == 0 {
		size += fmt.Sprintf(" to %.3f", diameter*between(0.6, 1.2))
	}
	length := between(900, 2600)
	on := "pad"
	if rnd.IntN(3) == 0 {
		fmt.Fprintf(&b, "ball under on pad { diameter %.3f, %s, metal skin }\n", diameter*between(1.8, 2.6), []string{"halves", "gores 9", "zones 4"}[rnd.IntN(3)])
		on = "under"
	}
	fmt.Fprintf(&b, "post p on %s { %s, length %.3f, lean %.3f deg toward %.2f deg, %%s metal skin }\n", on, size, length, between(0, 12), between(0, 360))
	if rnd.IntN(2) == 0 {
		fmt.Fprintf(&b, "post arm on p { at %.2f toward %.2f deg, diameter %.3f, length 200, lean %.2f deg, metal skin }\n", length*between(0.3, 0.7), between(0, 360), diameter*between(0.2, 0.5), between(60, 120))
	}
	if rnd.IntN(3) == 0 {
		fmt.Fprintf(&b, "ball bead around p { height %.2f, diameter %.3f, gores 8, metal skin }\n", length*between(0.75, 0.85), diameter*between(1.6, 2))
	}
	courses = fmt.Sprintf("courses %d, ", 2+rnd.IntN(5))
	if rnd.IntN(3) == 0 {
		courses = fmt.Sprintf("courses %.2f mm, ", length*between(0.2, 0.6))
	}
	if rnd.IntN(2) == 0 {
		courses += fmt.Sprintf("stagger %.1f deg, ", between(20, 180))
	}
	return b.String(), courses
}

// TestCoursesAreTheirPost cuts random posts in one length and in courses and rolls both
// up: the courses weigh and balance as the whole does and together cover it, their trimmed ends
// lie where they must, their square ends meet, their seams stand apart, and what is marked
// on them is where it is on the whole.
func TestCoursesAreTheirPost(t *testing.T) {
	rnd := rand.New(rand.NewPCG(15, 4))
	built, blanks, corners, marks, alike := 0, 0, 0, 0, 0
	worst := 0.0
	for n := 0; built < *coursedPosts && n < 40**coursedPosts; n++ {
		pattern, courses := anyCourses(rnd)
		text := fmt.Sprintf(pattern, courses)
		j, whole := ifSound(text), ifSound(fmt.Sprintf(pattern, ""))
		if (j == nil) != (whole == nil) {
			t.Fatalf("%d: in courses %v, in one %v\n%s", n, j != nil, whole != nil, text)
		}
		if j == nil {
			continue
		}
		built++
		p, one := &j.Parts[indexOf(j, "p")], &whole.Parts[indexOf(whole, "p")]
		if math.Abs(p.Mass-one.Mass) > 1e-6*one.Mass || r3.Norm(r3.Sub(p.CG, one.CG)) > 1e-3 {
			t.Errorf("%d: %v kg at %v in courses, %v kg at %v in one\n%s", n, p.Mass, p.CG, one.Mass, one.CG, text)
		}
		w := wallOf(p.Part)
		list := coursesOf(p)
		if len(p.Rounds) == 0 {
			t.Fatalf("%d: no courses\n%s", n, text)
		}
		seen := map[int]bool{}
		for i := range list {
			r := &list[i]
			blanks++
			seen[r.course] = true
			if r.lifted != 0 {
				alike++
			}
			if most := p.Post.CourseLength; most > 0 && r.Fan == nil && r.Length > most+1e-6 {
				t.Errorf("%d: a course %v long, at most %v\n%s", n, r.Length, most, text)
			}
			for k, q := range r.Outline {
				next := r.Outline[(k+1)%len(r.Outline)]
				for _, u := range [...]float64{0, 0.5} {
					bearing, height := r.off(&w, r2.Add(q, r2.Scale(u, r2.Sub(next, q))))
					_, other := r.off(&w, next)
					if u > 0 && math.Abs(other-height) > r.Length/4 {
						continue // along the seam
					}
					corners++
					low, up := math.Abs(height-r.low), math.Abs(height-r.up)
					if min(low, up) < r.Length/4 {
						if worst = max(worst, min(low, up)); min(low, up) > nearEnough {
							t.Errorf("%d: course %d: an edge is %v mm off its round seam\n%s", n, r.course+1, min(low, up), text)
						}
						continue
					}
					end := 0
					if height > w.slant/2 {
						end = 1
					}
					if p.Post.Ends[end].Meets == design.Free {
						continue
					}
					if gap := w.clearance(end, bearing, height); gap < -insideBy || gap > nearEnough {
						t.Errorf("%d: course %d: its edge is %v mm off what it must meet\n%s", n, r.course+1, gap, text)
					}
				}
			}
			if k := slices.IndexFunc(p.Seams, func(s flat.Seam) bool { return s.Kind == flat.TubeSeam && s.Course == r.course }); k < 0 {
				t.Errorf("%d: course %d has no seam", n, r.course+1)
			} else if off := math.Remainder(p.Seams[k].Bearing-r.seam, 2*math.Pi); math.Abs(off) > 1e-9 {
				t.Errorf("%d: the seam of course %d is %v rad off", n, r.course+1, off)
			}
		}
		if len(seen) != len(p.Rounds)+1 {
			t.Errorf("%d: %d courses for %d round seams", n, len(seen), len(p.Rounds))
		}
		// A place on the wall is on one blank and on one alone.
		for range 200 {
			bearing, height := 2*math.Pi*rnd.Float64(), w.slant*rnd.Float64()
			holds := func(list []rolled) (count int) {
				for i := range list {
					r := &list[i]
					outline := pointsOf(len(r.Outline), func(k int) r2.Vec {
						b, h := r.off(&w, r.Outline[k])
						return r2.Vec{X: b - r.seam, Y: h}
					})
					for turn := -1.0; turn <= 1; turn++ {
						if odd(r2.Vec{X: math.Mod(bearing-r.seam+8*math.Pi, 2*math.Pi) + 2*math.Pi*turn, Y: height}, outline) {
							count++
						}
					}
				}
				return count
			}
			if in, all := holds(list), holds(coursesOf(one)); in != all {
				t.Errorf("%d: bearing %v, height %v is on %d blanks in courses, on %d in one\n%s", n, bearing, height, in, all, text)
			}
		}
		// Marks of what stands on it are as long and lie as they do on the whole.
		length := map[string]float64{}
		for _, r := range list {
			for _, m := range r.Marks {
				if m.Kind == flat.Standing {
					length[m.Part] += lengthOf(m.Path)
				}
			}
		}
		for _, r := range coursesOf(one) {
			for _, m := range r.Marks {
				if m.Kind == flat.Standing {
					length[m.Part] -= lengthOf(m.Path)
					marks++
				}
			}
		}
		for name, off := range length {
			if math.Abs(off) > 0.05 {
				t.Errorf("%d: marks of %s are %v mm longer in courses\n%s", n, name, off, text)
			}
		}
	}
	t.Logf("%d posts, %d blanks, %d of them alike, %d corners, at most %.4f mm off round seams, %d marks", built, blanks, alike, corners, worst, marks)
	if built < *coursedPosts || alike == 0 || marks == 0 {
		t.Errorf("%d posts, %d alike, %d marks", built, alike, marks)
	}
}

func pointsOf(n int, at func(k int) r2.Vec) []r2.Vec {
	list := make([]r2.Vec, n)
	for k := range list {
		list[k] = at(k)
	}
	return list
}

func lengthOf(path []r2.Vec) (length float64) {
	for k := 1; k < len(path); k++ {
		length += r2.Norm(r2.Sub(path[k], path[k-1]))
	}
	return length
}

// TestTooLongNamesCourses: a post that is too long for the sheet or the rolls is not slit;
// the cure names how many courses it needs, and with those, and no fewer, it passes.
func TestTooLongNamesCourses(t *testing.T) {
	named := func(j *Job) (sheet, rolls int) {
		for _, f := range j.Findings {
			switch f := f.Fact.(type) {
			case sheets.TooLarge:
				sheet = max(sheet, f.Courses)
			case sheets.TooLong:
				sheet = max(sheet, f.Courses)
			case rolling.Refused:
				for _, way := range f.Ways {
					if s, ok := way.(rolling.Split); ok {
						rolls = max(rolls, s.OfPost)
					}
				}
			}
		}
		return sheet, rolls
	}
	for _, post := range []string{
		"diameter 9 in to 8.5 in, length 129 in", "diameter 6 in, length 200 in", "diameter 12 in to 4 in, length 150 in, lean 5 deg toward 20 deg",
	} {
		text := func(courses int) string {
			return fmt.Sprintf(`
units inch
metal skin { alloy low-carbon-steel, gauge 16 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
base pad { plate 60 in by 60 in, metal slab }
post p on pad { %s, courses %d, metal skin }
shop {
  sheet skin { size 48 in by 96 in }
  shear { width 52 in, alloy low-carbon-steel, gauge 14 }
  rolls { width 50 in, alloy low-carbon-steel, gauge 14 }
}
`, post, courses)
		}
		j := planned(t, text(1))
		p := &j.Parts[indexOf(j, "p")]
		if n := len(p.Blanks); n != 2 {
			t.Errorf("%s: %d blanks, want the post whole and its disc", post, n)
		}
		sheet, rolls := named(j)
		if sheet < 2 || rolls < 2 {
			t.Fatalf("%s: %d courses for the sheet, %d for the rolls", post, sheet, rolls)
		}
		most := max(sheet, rolls)
		if s, r := named(planned(t, text(most))); s+r > 0 {
			t.Errorf("%s in %d courses: %d more for the sheet, %d for the rolls", post, most, s, r)
		}
		if s, r := named(planned(t, text(most-1))); s+r == 0 {
			t.Errorf("%s: %d courses would do, not %d", post, most-1, most)
		}
	}
}

// planned is build with the shop's plan.
func planned(t *testing.T, text string) *Job {
	t.Helper()
	d, wrong := param.Evaluate(source.NewFile("long.stabile", text), param.Options{})
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	j, wrong := Build(d, WithPlan)
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	return j
}

// TestCoursesForAll: a taper too long for sheets and rolls is told one number of courses,
// with which neither refuses it.
func TestCoursesForAll(t *testing.T) {
	const text = `units inch
metal skin { alloy low-carbon-steel, gauge 16 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
base pad { plate 36 in by 36 in, metal slab }
post p on pad { diameter 9 in to 8.5 in, length 129 in, metal skin }
`
	counts := func(j *Job) (list []int) {
		for _, f := range j.Plan.Findings {
			switch fact := f.Fact.(type) {
			case sheets.TooLarge:
				list = append(list, fact.Courses)
			case rolling.Refused:
				for _, way := range fact.Ways {
					if split, ok := way.(rolling.Split); ok {
						list = append(list, split.OfPost)
					}
				}
			}
		}
		return list
	}
	got := counts(buildWith(t, text, Everything))
	if len(got) != 2 || got[0] != got[1] {
		t.Fatalf("told to roll it in %v courses", got)
	}
	cured := strings.Replace(text, "129 in,", fmt.Sprintf("129 in, courses %d,", got[0]), 1)
	if left := counts(buildWith(t, cured, Everything)); len(left) > 0 {
		t.Errorf("in %d courses it is told to roll it in %v", got[0], left)
	}
}
