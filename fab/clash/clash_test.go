package clash

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/written"
)

const deg = math.Pi / 180

// find looks for clashes in a design.
func find(d *design.Design) source.List { return Find(d, d.Ties(), solid.Bodies(d)) }

const pad = written.Metric + "base pad { plate 600 by 600, metal slab }\n"

func TestFind(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       []string // a part of each diagnostic, in order
	}{
		{"a post and a ball on a plate", pad + `
post mast on pad { diameter 60, length 500, metal skin }
ball moon on mast { diameter 200, gores 8, bend domed, metal skin }
`, nil},
		{"leaning, offset, three high", pad + `
post p on pad { diameter 90, length 500, lean 6 deg toward right, metal skin }
ball a on p { diameter 300, offset 15 toward left, gores 8, bend domed, metal skin }
post q on a { diameter 50, length 250, offset 36 toward 56 deg, lean 20 deg toward 1 rad, metal skin }
ball b on q { diameter 160, offset 10 toward 2 rad, gores 8, bend domed, metal skin }
post r on b { diameter 40, length 200, offset 20.6 toward 166 deg, lean 15 deg toward 4 rad, metal skin }
ball c on r { diameter 120, gores 8, bend domed, metal skin }
`, nil},
		{"two crossing posts", pad + `
post p on pad { at (-100, 0), diameter 40, length 500, lean 25 deg toward right, metal skin }
post q on pad { at (100, 0), diameter 40, length 500, lean 25 deg toward left, metal skin }
`, []string{"post 'q' runs into post 'p': they overlap by 40 mm"}},
		{"two posts that pass close", pad + `
post p on pad { at (-100, -20.1), diameter 40, length 500, lean 25 deg toward right, metal skin }
post q on pad { at (100, 20.1), diameter 40, length 500, lean 25 deg toward left, metal skin }
`, nil},
		{"two posts that touch", pad + `
post p on pad { at (-20, 0), diameter 40, length 900, metal skin }
post q on pad { at (20, 0), diameter 40, length 900, metal skin }
`, nil},
		{"two posts a little too near", pad + `
post p on pad { at (-20, 0), diameter 40, length 900, metal skin }
post q on pad { at (19.8, 0), diameter 40, length 900, metal skin }
`, []string{"they overlap by 0.2 mm"}},
		{"eggs on posts, leaning and seated on each other", pad + `
post p on pad { at (-150, 0), diameter 60, length 500, metal skin }
ball a on p { diameter 200, tall 320, pole 30 deg toward right, gores 9, metal skin }
post q on a { diameter 30, length 200, offset 30 toward right, lean 20 deg toward right, metal skin }
ball b on pad { at (150, 0), diameter 200, tall 120, zones 6, metal skin }
ball c on b { diameter 120, tall 200, seat 50, halves, metal skin }
`, nil},
		{"two eggs on end, pole into pole", pad + `
ball a at (0, 0, 200) { diameter 100, tall 200, halves, metal skin }
ball b at (0, 0, 390) { diameter 100, tall 200, halves, metal skin }
post p from pad to a { diameter 20, metal skin }
post side on pad { at (200, 0), diameter 30, length 600, metal skin }
post r from side at 400 to b { diameter 20, metal skin }
`, []string{"ball 'b' runs into ball 'a': they overlap by 10 mm"}},
		{"a post beside an egg, within the ball about it", pad + `
ball a at (0, 0, 200) { diameter 100, tall 200, gores 8, bend domed, metal skin }
post p from pad to a { diameter 20, metal skin }
post q on pad { at (61, 0), diameter 20, length 400, metal skin }
`, nil},
		{"a thin post through a ball", pad + `
post p on pad { diameter 60, length 300, metal skin }
ball moon on p { diameter 240, gores 8, bend domed, metal skin }
post wire on pad { at (80, 0), diameter 6, length 900, metal skin }
`, []string{"post 'wire' runs into ball 'moon': they overlap by 6 mm"}},
		{"sibling balls that touch", siblings(-50, 50, "gores 8, bend domed"), nil},
		{"sibling balls too near", siblings(-50, 49, "gores 8, bend domed"),
			[]string{"ball 'b' runs into ball 'a': they overlap by 1 mm about (-0.5 mm, 0 mm, "}},
		// Ridge to ridge: 50 / cos(22.5 deg) = 54.12 each.
		{"sibling balls whose ridges meet", siblings(-50.5, 50.5, "gores 8, seam toward 0 deg"), []string{"ball 'b' runs into ball 'a'"}},
		{"sibling balls flat to flat", siblings(-50.05, 50.05, "gores 8"), nil},
		{"a ball on a short post against the ball below", pad + `
post p on pad { diameter 60, length 300, metal skin }
ball a on p { diameter 200, gores 8, bend domed, metal skin }
post q on a { diameter 60, length 4, metal skin }
ball b on q { diameter 200, offset 20 toward right, gores 8, bend domed, metal skin }
`, []string{"ball 'b' runs into ball 'a'"}},
		{"a ball that rests on the plate", pad + "ball b on pad { at (20, 20), diameter 120, gores 8, bend domed, metal skin }", nil},
		{"a ball that rests on the ground on a ridge", ridge, nil},
		{"a loop", pad + `
post p on pad { at (-150, 0), diameter 40, length 300, metal skin }
ball a on p { diameter 120, gores 8, bend domed, metal skin }
post q on pad { at (150, 0), diameter 40, length 350, metal skin }
ball b on q { diameter 120, gores 8, bend domed, metal skin }
post tie from a to b { diameter 30, metal skin }
`, nil},
	} {
		expect(t, tt.name, written.Design(t, tt.text), tt.want...)
	}
	expect(t, "an empty design", &design.Design{})
}

// ridge is a ball that lies on the ground on one of its ridges.
const ridge = written.Metric + `base yard { feet }
ball b on yard { diameter 120, gores 6, pole 90 deg toward 90 deg, seam toward 90 deg, metal skin }
`

// siblings are two balls on posts side by side, at two places along x.
func siblings(x, y float64, made string) string {
	text := pad
	for i, at := range []float64{x, y} {
		text += fmt.Sprintf("post %c on pad { at (%v, 0), diameter 30, length 300, metal skin }\n", 'p'+i, at)
		text += fmt.Sprintf("ball %c on %c { diameter 100, %s, metal skin }\n", 'a'+i, 'p'+i, made)
	}
	return text
}

// expect holds what is found in a design against a part of each diagnostic, in order.
func expect(t *testing.T, name string, d *design.Design, want ...string) {
	t.Helper()
	got := find(d)
	ok := len(got) == len(want)
	for i := range min(len(got), len(want)) {
		ok = ok && strings.Contains(got[i].Text, want[i])
	}
	if !ok {
		t.Errorf("%s: got %v, want %q", name, got.Err(), want)
	}
}

// TestFindRefused takes what the language refuses, made by hand from what it takes.
func TestFindRefused(t *testing.T) {
	d := written.Design(t, ridge)
	d.Part("b").Ball.Center.Z = 60
	expect(t, "a ball that rests on the ground by the sphere within its ridges", d, "ball 'b' goes 9.28 mm below")

	// cut takes a design's last part away, with what joins it.
	cut := func(d *design.Design) *design.Design {
		last := d.Parts[len(d.Parts)-1]
		d.Parts = d.Parts[:len(d.Parts)-1]
		d.Joints = slices.DeleteFunc(d.Joints, func(j design.Joint) bool { return j.A == last || j.B == last })
		return d
	}
	d = cut(written.Design(t, pad+`
ball moon at (0, 0, 500) { diameter 100, halves, metal skin }
post stem from pad to moon { diameter 30, metal skin }
`))
	expect(t, "a ball tied to nothing", d, "ball 'moon' is not joined to anything")
	d = cut(written.Design(t, pad+`
ball a at (0, 0, 500) { diameter 100, halves, metal skin }
ball b at (0, 0, 800) { diameter 100, halves, metal skin }
post p from a to b { diameter 30, metal skin }
post stem from pad to a { diameter 30, metal skin }
`))
	expect(t, "two tied to each other alone", d, "ball 'a', with the parts joined to it (3 in all), is not joined to anything")

	// bend leans a post further, with what is on its head.
	bend := func(d *design.Design, name string, lean, toward float64) {
		p := d.Part(name).Post
		head := p.Ends[design.Head].At
		p.Lean, p.LeanBearing, p.Direction = lean, toward, design.Leaning(lean, toward)
		p.Ends[design.Head].At = r3.Add(p.Ends[design.Foot].At, r3.Scale(p.Length, p.Direction))
		if with := p.Ends[design.Head].With; with != nil {
			up := r3.Norm(r3.Sub(with.Ball.Center, head))
			with.Ball.Center = r3.Add(p.Ends[design.Head].At, r3.Scale(up, p.Direction))
		}
	}
	const thick = "units mm\nmetal skin { alloy low-carbon-steel, thickness 1.5 }\nmetal slab { alloy low-carbon-steel, thickness %v }\nbase pad { plate 300 by 300, metal slab }\n"
	d = written.Design(t, fmt.Sprintf(thick, 20)+"post p on pad { at (100, 0), diameter 40, length 220, metal skin }\nball a on p { diameter 150, halves, metal skin }")
	bend(d, "p", 80*deg, 0)
	expect(t, "a ball beside the plate, under its top", d, "ball 'a' goes 4.18 mm below")

	d = written.Design(t, fmt.Sprintf(thick, 8)+"post p on pad { diameter 100, length 100, metal skin }")
	bend(d, "p", 80*deg, 0)
	expect(t, "a head below the plate", d, "the head of post 'p' reaches 31.88 mm below the top of base 'pad'")

	d = written.Design(t, fmt.Sprintf(thick, 8)+"ball a on pad { diameter 200, gores 8, bend domed, metal skin }\npost p on a { diameter 20, length 300, offset 60 toward right, metal skin }")
	bend(d, "p", 120*deg, math.Pi)
	expect(t, "a post into the ball that it stands on", d, "post 'p' runs into ball 'a' that it is joined to")
}

// TestNeighboursOnBall is worked case B11: posts P2 and P3 of the assembly of
// case D3 stand on one ball, 35.8 deg apart, with 29.8 mm between their feet.
// As cylinders they cross within the ball; outside of it they are clear until
// the angle comes down to 21.6 deg.
func TestNeighboursOnBall(t *testing.T) {
	if got := find(written.Design(t, pad+`
post P1 on pad { diameter 60, length 473.433, metal skin }
ball B1 on P1 { diameter 240, gores 8, bend domed, metal skin }
ball B2 at (220, 80, 1150) { diameter 180, gores 8, bend domed, metal skin }
ball B3 at (-180, 120, 1300) { diameter 150, gores 8, bend domed, metal skin }
ball B4 on pad { at (180, -120), diameter 160, gores 8, bend domed, metal skin }
post P2 from B1 to B2 { diameter 48, metal skin }
post P3 from B1 to B3 { diameter 42, metal skin }
`)); len(got) > 0 {
		t.Errorf("the assembly clashes: %v", got.Err())
	}
	// 24 mm and 21 mm of half width on a radius of 120 mm.
	least := math.Asin(24.0/120) + math.Asin(21.0/120)
	if got := least / deg; math.Abs(got-21.6156) > 1e-4 {
		t.Fatalf("least angle %v, want 21.6156", got)
	}
	for _, tt := range []struct {
		angle float64
		clash bool
	}{{least + 0.5*deg, false}, {least + 0.02*deg, false}, {least - 0.1*deg, true}, {least - 1*deg, true}} {
		text := pad + "ball B1 on pad { diameter 240, halves, metal skin }\n"
		for i, d := range []float64{48, 42} {
			far := r3.Add(r3.Vec{Z: 10 + 120}, r3.Scale(900+float64(i)*400, design.Leaning(float64(i)*tt.angle, 0)))
			text += fmt.Sprintf("ball far%d at (%.12f, 0, %.12f) { diameter 60, halves, metal skin }\n", i, far.X, far.Z)
			text += fmt.Sprintf("post P%d from B1 to far%d { diameter %v, metal skin }\n", i, i, d)
		}
		if got := find(written.Design(t, text)); (len(got) > 0) != tt.clash {
			t.Errorf("posts %v deg apart: %v, want a clash: %v", tt.angle/deg, got.Err(), tt.clash)
		}
	}
}

// TestMany holds that a heap of clashes is reported briefly.
func TestMany(t *testing.T) {
	got := find(written.Design(t, pad+"repeat i from 1 to 2000 { post p[i] on pad { diameter 60, length 500, metal skin } }"))
	if len(got) != most+1 || !strings.Contains(got[most].Text, "not reported") {
		t.Errorf("%d diagnostics, want %d", len(got), most+1)
	}
}

// field makes a design of n parts: posts with balls on them on a large plate,
// far enough apart, each a little different.
func field(t testing.TB, n int) *design.Design {
	side := int(math.Ceil(math.Sqrt(float64(n) / 2)))
	var b strings.Builder
	fmt.Fprintf(&b, "%sbase pad { plate %d by %d, metal slab }\n", written.Metric, side*400+200, side*400+200)
	for i := 0; 2*i+1 < n; i++ {
		fmt.Fprintf(&b, "post p%d on pad { at (%d, %d), diameter %d, length %d, lean %d deg toward %d rad, metal skin }\n",
			i, (i%side-side/2)*400, (i/side-side/2)*400, 40+i%7, 300+i%11*20, i%5*2, i)
		if 2*i+2 < n {
			fmt.Fprintf(&b, "ball b%d on p%d { diameter %d, offset 5 toward %d rad, gores 8, metal skin }\n", i, i, 120+i%13*5, i)
		}
	}
	return written.Design(t, b.String())
}

func TestField(t *testing.T) {
	d := field(t, 2000)
	if got := find(d); len(got) > 0 {
		t.Errorf("a field of posts clashes: %v", got[0])
	}
}

func BenchmarkFind(b *testing.B) {
	for _, n := range []int{10, 100, 500, 1000, 2000} {
		d := field(b, n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				Find(d, d.Ties(), solid.Bodies(d))
			}
		})
	}
}
