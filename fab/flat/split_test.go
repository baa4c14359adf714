package flat

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/written"
)

// forked is the text of a wide taper with a branch on its side.
func forked(from, to, seam, toward float64) string {
	return written.Metric + fmt.Sprintf(`base pad { plate 900 by 900, metal slab }
post mast on pad { at (5, -7), diameter %v to %v, length 1600, seam toward %v rad, head open, metal skin }
post twig on mast { at 700 toward %v rad, diameter 90, length 500, lean %v rad toward %v rad, head open, metal skin }
`, from, to, seam, toward, math.Atan2(1, 0.4), toward)
}

// TestTaperSplitToSheet splits tapers to the shop's sheets, or the usual ones
// where it has none, folds the pieces up side by side, and measures: their edges
// meet, and the line where a branch stands, on whichever pieces it runs, lies on
// the branch's outside, all round.
func TestTaperSplitToSheet(t *testing.T) {
	for _, c := range []struct {
		name          string
		width, length float64 // of the shop's sheet; 0 for no shop
		least         int     // pieces
	}{
		{"usual sheet", 0, 0, 2},
		{"large sheet", 5000, 5000, 1},
		{"small sheet", 1000, 2000, 2},
		{"strips", 500, 2000, 4},
	} {
		for n, toward := range []float64{0, 1.5708, 3.1, 4.7} {
			text := forked(560, 380, 0.4*float64(n), toward)
			if n%2 == 1 {
				text = forked(380, 560, 0.4*float64(n), toward)
			}
			width, length := 1219.2, 2438.4 // 4 by 8 ft
			if c.width > 0 {
				width, length = c.width, c.length
				text += fmt.Sprintf("shop { sheet skin { size %v by %v } }\n", width, length)
			}
			d := written.Design(t, text)
			mast, twig := d.Part("mast"), d.Part("twig")
			made := all(t, d)
			list := made["mast"].Blanks
			if len(list) < c.least || c.least == 1 && len(list) > 1 {
				t.Errorf("%s: %d pieces, want %d", c.name, len(list), c.least)
			}
			var marked float64
			fold := func(k int, q r2.Vec, out float64) r3.Vec {
				p := *mast.Post
				p.Seam += 2 * math.Pi * float64(k) / float64(len(list))
				return wallAt(&design.Part{Name: mast.Name, Metal: mast.Metal, Post: &p}, &list[k], q, out)
			}
			for k := range list {
				b := &list[k]
				checkOutline(t, *b)
				if max(b.Width, b.Length) > length || min(b.Width, b.Length) > width {
					t.Errorf("%s: piece %d is %v by %v", c.name, k, b.Width, b.Length)
				}
				// The lower right corner of this piece and the lower left of the next.
				next := (k + 1) % len(list)
				if gap := r3.Norm(r3.Sub(fold(k, corner(b, 1), 0), fold(next, corner(&list[next], -1), 0))); gap > 1e-6 {
					t.Errorf("%s: pieces %d and %d are %v apart", c.name, k, next, gap)
				}
				for _, m := range b.Marks {
					if m.Kind != Standing {
						continue
					}
					for i, q := range m.Path {
						x := fold(k, q, mast.Metal.Thickness/2)
						rel := r3.Sub(x, twig.Post.Ends[design.Foot].At)
						u := twig.Post.Direction
						if off := r3.Norm(r3.Sub(rel, r3.Scale(r3.Dot(rel, u), u))) - 45; math.Abs(off) > atMostOff {
							t.Fatalf("%s: the mark at %v of piece %d is %v off the branch", c.name, q, k, off)
						}
						if i > 0 {
							marked += r3.Norm(r3.Sub(x, fold(k, m.Path[i-1], mast.Metal.Thickness/2)))
						}
					}
				}
			}
			if whole := girdle(made["twig"].Toes[0]); math.Abs(marked/whole-1) > 1e-4 {
				t.Errorf("%s: marks of %v in %d pieces, the toe is %v", c.name, marked, len(list), whole)
			}
		}
	}
}

// corner returns the lowest corner of a sector on its right or left.
func corner(b *Blank, side float64) r2.Vec {
	n := len(b.Outline)
	for i, q := range b.Outline {
		if r2.Norm(r2.Sub(q, b.Fan.Apex)) < b.Fan.Small-1e-9 {
			continue
		}
		// The foot's edge comes first, from left to right.
		next := b.Outline[(i+1)%n]
		if side > 0 && math.Abs(angleAbout(b, q)-angleAbout(b, next)) < 1e-9 {
			return q
		}
		if side < 0 {
			return b.Outline[0]
		}
	}
	return b.Outline[0]
}

func angleAbout(b *Blank, q r2.Vec) float64 {
	rel := r2.Sub(q, b.Fan.Apex)
	return math.Atan2(rel.X, math.Abs(rel.Y))
}

// TestThreadOnSplitRings looks at holes in rings that are cut in several pieces.
func TestThreadOnSplitRings(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	split := 0
	for n := range 24 {
		d := written.Design(t, threaded(
			fmt.Sprintf("diameter %v, lean %v", 30+50*rng.Float64(), anyTilt(rng, 1)),
			made(design.Zones, 3+n%6)+poled(design.Zones, anyTilt(rng, 1.5), 0.3),
		)+fmt.Sprintf("shop { sheet skin { size 350 by %v } }\n", 350+100*rng.Float64()))
		post, ball := d.Part("mast"), d.Part("moon")
		found, edges := checkHoles(t, post, ball, d.Shop.Sheets...)
		if t.Failed() {
			t.Fatalf("%d: %+v", n, *ball.Ball)
		}
		if edges < 40 {
			t.Errorf("%d: only %d places on edges, %+v", n, edges, found)
		}
		for _, b := range all(t, d)["moon"].Blanks {
			checkOutline(t, b)
			if slices.ContainsFunc(b.Notes, func(n finding.Fact) bool { _, ok := n.(RingPieces); return ok }) {
				split++
			}
		}
	}
	if split < 24 {
		t.Errorf("only %d blanks of split rings", split)
	}
}

// TestSeatsRolledUp folds the marks of balls that rest on balls back onto them:
// what is marked on each lies on the true outside of the other, lobes and rings
// included.
func TestSeatsRolledUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	builds := []design.Construction{design.Halves, design.DomedGores, design.RolledGores, design.Zones}
	worst, points := 0.0, 0
	for n := range 320 {
		ball := func(build design.Construction) string {
			return made(build, 6+rng.IntN(12)) + poled(build, anyTilt(rng, 3), 7*rng.Float64())
		}
		ra, rb := 80+150*rng.Float64(), 60+100*rng.Float64()
		seat := (0.3 + 0.4*rng.Float64()) * min(ra, rb)
		apart := math.Sqrt(ra*ra-seat*seat) + math.Sqrt(rb*rb-seat*seat)
		whole := written.Design(t, written.Metric+fmt.Sprintf(`base pad { plate 900 by 900, metal slab }
ball moon on pad { at (10, 20), diameter %v, %s, metal skin }
ball star on moon { diameter %v, seat %v, offset %v toward %v rad, %s, metal skin }
`, 2*ra, ball(builds[n%4]), 2*rb, 2*seat, apart*math.Sin(1.5*rng.Float64()), 7*rng.Float64(), ball(builds[n/4%4])))
		lower, upper := whole.Part("moon"), whole.Part("star")
		developed := all(t, whole)
		for i, p := range []*design.Part{lower, upper} {
			other := []*design.Part{upper, lower}[i]
			count := 0
			for k := range developed[p.Name].Blanks {
				b := &developed[p.Name].Blanks[k]
				for _, m := range b.Marks {
					if m.Kind != Standing {
						continue
					}
					for _, q := range m.Path {
						count++
						x := placed(p, &piece{blank: k, number: m.Piece, level: m.Piece - 1}, b, q, p.Metal.Thickness/2)
						off := outside(other, x)
						if other.Ball.Build == design.Zones {
							off = outsideZones(other.Ball, x)
						}
						worst = max(worst, math.Abs(off))
						if math.Abs(off) > Chord {
							t.Fatalf("%d: the mark at %v on piece %d of a ball of %v is %v off a ball of %v", n, q, m.Piece, p.Ball.Build, off, other.Ball.Build)
						}
					}
				}
			}
			points += count
			if opened, _ := design.SeatOpens(lower, upper); opened == (i == 0) {
				if count > 0 {
					t.Errorf("%d: %d points are marked on a ball that is cut there", n, count)
				}
			} else if count < 40 {
				t.Errorf("%d: %d points are marked on a ball of %v", n, count, p.Ball.Build)
			}
		}
	}
	t.Logf("%d points, the worst %.4f mm off", points, worst)
}

// TestTaperTooLongForSheet leaves a taper whole that no number of pieces side by
// side would bring onto a sheet, whatever its head meets and however wide its
// seam's gap, and weighs it against the frustum of the middle of its wall.
func TestTaperTooLongForSheet(t *testing.T) {
	const inch = 25.4
	for _, gap := range []float64{0, inch / 64, inch / 16, 3} {
		for _, end := range []string{"closed", "open", "ball"} {
			text := fmt.Sprintf(`units inch
metal rind { alloy low-carbon-steel, thickness 0.0478 }
base yard { feet }
post spire on yard { diameter 4 to 1/2, length 96, gap %v mm, head %s, metal rind }
`, gap, map[string]string{"closed": "disc", "open": "open", "ball": "open"}[end])
			if end == "ball" {
				text += "ball moon on spire { diameter 6, gores 8, metal rind }\n"
			}
			spire := all(t, written.Design(t, text))["spire"]
			b := spire.Blanks[0]
			if b.Shape != Sector || b.Name != "spire" || len(spire.Blanks) > 2 {
				t.Fatalf("gap %v, %s: %d blanks, the first %q", gap, end, len(spire.Blanks), b.Name)
			}
			checkOutline(t, b)
			fall := 3.5 * inch / 2
			slant := math.Hypot(96*inch, fall)
			mean := (4*inch+inch/2)/4 - 0.0478*inch/2*96*inch/slant
			area := 2*math.Pi*mean*slant - gap*slant
			if end != "ball" && math.Abs(b.Area/area-1) > 1e-3 {
				t.Errorf("gap %v, %s: %v mm2, want %v", gap, end, b.Area, area)
			}
			if end == "ball" && math.Abs(b.Area/area-1) > 0.01 {
				t.Errorf("gap %v, %s: %v mm2, want about %v", gap, end, b.Area, area)
			}
		}
	}
}

// TestTaperOfAnyGapAndSheet answers every taper and gap, on whatever sheet, with
// blanks or with what is wrong.
func TestTaperOfAnyGapAndSheet(t *testing.T) {
	random := rand.New(rand.NewPCG(20, 1))
	split, refused := 0, 0
	for range 300 {
		text := fmt.Sprintf(`units mm
metal thin { alloy low-carbon-steel, thickness 1.2 }
base yard { feet }
post mast on yard { diameter %v to %v, length %v, gap %v, head open, metal thin }
shop { sheet thin { size %v by %v } }
`, 20+200*random.Float64(), 6+200*random.Float64(), 100+3000*random.Float64(), math.Pow(10, 3*random.Float64()-1.5),
			50+1000*random.Float64(), 1000+2000*random.Float64())
		d, wrong := param.Evaluate(source.NewFile("taper.stabile", text), param.Options{})
		if wrong.Err() != nil {
			refused++
			continue
		}
		made, wrong := All(d)
		if wrong.Err() != nil {
			continue
		}
		if len(made[0].Blanks) == 0 {
			t.Fatalf("no blanks and no error of\n%s", text)
		}
		if len(made[0].Blanks) > 1 {
			split++
			for _, b := range made[0].Blanks {
				if w := d.Shop.Sheets[0]; max(b.Width, b.Length) > w.Length || min(b.Width, b.Length) > w.Width {
					t.Errorf("a piece of %v by %v for a sheet of %v by %v", b.Width, b.Length, w.Width, w.Length)
				}
			}
		}
	}
	t.Logf("%d tapers were split, %d refused by the language", split, refused)
	if split < 10 {
		t.Errorf("%d tapers were split, want more", split)
	}
}
