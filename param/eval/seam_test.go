package eval

import (
	"fmt"
	"math"
	"testing"

	"stabile/param/design"
)

// TestSeamsKeepApart: seams at the back of a post would fall on those of 6, 10 and 14
// gores, and tubes that are mitred would have theirs in line.
func TestSeamsKeepApart(t *testing.T) {
	const least = design.SeamThicknesses * 1.2141
	read := func(text string) *design.Design {
		t.Helper()
		d, wrong := evaluate(`units inch
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
base pad { plate 40 by 40, metal slab }
`+text, Options{})
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		return d
	}
	for _, gores := range []int{6, 8, 10, 14} {
		d := read(fmt.Sprintf(`
ball b on pad { at (8, 8), diameter 10, gores %d, metal skin }
post p on b { diameter 3, length 20, metal skin }
post q on p { diameter 3, length 10, lean 20 deg toward 0 deg, metal skin }
`, gores))
		for _, name := range []string{"p", "q"} {
			p := d.Part(name)
			if room, with := p.SeamRoom(p.Post.Seam, nil); room < least {
				t.Errorf("%d gores: the seam of %s is %.2f mm from one of %s", gores, name, room, with.Name)
			}
			if front := math.Cos(p.Post.Seam - math.Pi/2); front < -1e-9 {
				t.Errorf("%d gores: the seam of %s faces the viewer, at %v", gores, name, p.Post.Seam)
			}
		}
	}
	// What is said holds, wherever it falls.
	d := read(`
ball b on pad { at (8, 8), diameter 10, gores 10, seam toward 30 deg, metal skin }
post p on b { diameter 3, length 20, seam toward 30 deg, metal skin }
`)
	p := d.Part("p")
	if room, with := p.SeamRoom(p.Post.Seam, nil); room > 1e-6 || with != d.Part("b") {
		t.Errorf("a seam set on another is %v mm off", room)
	}
}
