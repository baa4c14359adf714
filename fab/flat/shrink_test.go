package flat

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/written"
)

// TestShrinkage adds for each seam what it draws its edges together: the edges of a gore
// move out by half of it all along, a tube is so much wider round, and a course so much
// longer between two others. Holes stay where they are.
func TestShrinkage(t *testing.T) {
	const shrink = 0.6
	const text = `
base pad { plate 900 by 900, metal slab }
post mast on pad { diameter 80, length 900, courses 3, lean 6 deg toward 20 deg, gap 1, metal skin }
post cone on pad { at (250, 0), diameter 120 to 60, length 500, metal skin }
ball round around mast { height 600, diameter 260, gores 8, metal skin }
ball moon on pad { at (-250, 0), diameter 300, gores 9, metal skin }
ball dome on pad { at (0, 320), diameter 200, gores 10, bend domed, vent 8, metal skin }
ball tied on pad { at (0, -320), diameter 240, gores 7, bend domed, caps 60, metal skin }
`
	make := func(shop string) []Developed {
		d := written.Design(t, written.Metric+text+shop)
		all, wrong := All(d)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		return all
	}
	plain, more := make(""), make("shop { welding { process tig, shrink 0.6 mm } }")
	told := 0
	for i := range plain {
		if len(plain[i].Blanks) != len(more[i].Blanks) {
			t.Fatalf("part %d: %d blanks, without %d", i, len(more[i].Blanks), len(plain[i].Blanks))
		}
		for k := range plain[i].Blanks {
			a, b := &plain[i].Blanks[k], &more[i].Blanks[k]
			wide, long := 0.0, 0.0
			switch {
			case a.Shape == Gore:
				wide = shrink
				if a.Part == "round" {
					long = b.Length - a.Length // where the opening meets the edge
				}
			case a.Shape == Tube:
				wide = shrink
				long = map[string]float64{"1": shrink / 2, "2": shrink, "3": shrink / 2}[a.Numbers[0]]
			case a.Shape == Sector:
				wide = b.Width - a.Width // it is so much wider half way up
				middle := a.Forming.MeanRadius
				if got := (b.Fan.Angle - a.Fan.Angle) / math.Abs(math.Sin(math.Atan(30.0/500))) * middle; math.Abs(got-shrink) > 1e-9 {
					t.Errorf("%s is %v wider half way up, want %v", a.Name, got, shrink)
				}
				long = b.Length - a.Length
			}
			if math.Abs(b.Width-a.Width-wide) > 2e-3 || math.Abs(b.Length-a.Length-long) > 2e-3 {
				t.Errorf("%s is %v wider and %v longer, want %v and %v", a.Name, b.Width-a.Width, b.Length-a.Length, wide, long)
			}
			for _, n := range b.Notes {
				if f, ok := n.(Shrinks); ok {
					told++
					if f.Width != shrink || a.Shape == Tube && math.Abs(f.Length-long) > 1e-12 {
						t.Errorf("%s is told %+v", a.Name, f)
					}
				}
			}
			if a.Shape == Gore && a.Part != "round" && len(a.Outline) == len(b.Outline) && len(a.Holes) == 0 {
				for n := range a.Outline {
					if off := math.Abs(b.Outline[n].X) - math.Abs(a.Outline[n].X); a.Outline[n].Y == b.Outline[n].Y && math.Abs(off-shrink/2) > 1e-9 {
						t.Errorf("%s: an edge moves out by %v", a.Name, off)
					}
				}
			}
			for n := range min(len(a.Holes), len(b.Holes)) {
				if off := r3.Norm(r3.Vec{X: a.Holes[n].Center.X - b.Holes[n].Center.X, Y: a.Holes[n].Center.Y - b.Holes[n].Center.Y}); off > 1e-6 {
					t.Errorf("%s: a hole moves by %v", a.Name, off)
				}
			}
		}
		if off := r3.Norm(r3.Sub(plain[i].CG, more[i].CG)); off > 0.2 {
			t.Errorf("part %d: its balance moves by %v", i, off)
		}
		// Seams are as long as without.
		if math.Abs(plain[i].Seam-more[i].Seam) > 0.1+1e-3*plain[i].Seam || math.Abs(plain[i].Welds[0]-more[i].Welds[0]) > 0.01 || math.Abs(plain[i].Welds[1]-more[i].Welds[1]) > 0.01 {
			t.Errorf("part %d: seams of %v and joints of %v, without %v and %v", i, more[i].Seam, more[i].Welds, plain[i].Seam, plain[i].Welds)
		}
	}
	if told < 8 {
		t.Errorf("%d blanks say what is added", told)
	}
}

// TestShrinkageOfRings adds what seams shrink to rings both ways, and trims halves so much
// beyond the equator; a root gap goes the other way.
func TestShrinkageOfRings(t *testing.T) {
	const shrink, mean = 0.6, 150 - 0.75
	make := func(ball, shop string) Developed {
		d := written.Design(t, written.Metric+"base pad { plate 600 by 600, metal slab }\nball b on pad { diameter 300, "+ball+", metal skin }\n"+shop)
		all, wrong := All(d)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		return all[1]
	}
	const welding = "shop { welding { process tig, shrink 0.6 mm } }"
	for _, tt := range []struct {
		more string
		shop string
		wide float64 // mm, that is added
	}{{"", welding, shrink}, {", gap 0.8", "", -0.8}} {
		plain, more := make("zones 5", ""), make("zones 5"+tt.more, tt.shop)
		if len(plain.Blanks) != 4 || len(more.Blanks) != 4 {
			t.Fatalf("%d blanks and %d, want 3 kinds of ring and discs", len(plain.Blanks), len(more.Blanks))
		}
		for k := range 3 {
			a, b := &plain.Blanks[k], &more.Blanks[k]
			round, long := b.Width-a.Width, b.Length-a.Length
			if a.Fan != nil {
				sin := (a.Forming.Radii[0] - a.Forming.Radii[1]) / (a.Fan.Large - a.Fan.Small)
				round = (b.Fan.Angle-a.Fan.Angle)/sin*a.Forming.MeanRadius - b.Fan.Gap
				long = b.Fan.Large - b.Fan.Small - a.Fan.Large + a.Fan.Small
			}
			if math.Abs(round-tt.wide) > 1e-6 || math.Abs(long-tt.wide) > 1e-9 {
				t.Errorf("%s is %v wider round and %v along, want %v", a.Name, round, long, tt.wide)
			}
		}
		half := make("halves"+tt.more, tt.shop).Blanks[0]
		// The chord from the middle to the edge, and how deep that lies.
		turn := math.Pi/2 + tt.wide/2/mean
		if want := 4*mean*math.Sin(turn/2) + 2*halfTrim; math.Abs(half.Diameter-want) > 1e-9 {
			t.Errorf("a half is cut %v across, want %v", half.Diameter, want)
		}
		if want := mean * (1 - math.Cos(turn)); math.Abs(half.Forming.Depth-want) > 1e-9 {
			t.Errorf("a half is dished %v deep, want %v", half.Forming.Depth, want)
		}
	}
}
