package flat

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
)

// forked makes a wide taper with a branch on its side.
func forked(from, to, seam, toward float64) (mast, twig *design.Part) {
	const length = 1600.0
	mast = newPost(from, 1.5, length, r3.Vec{X: 5, Y: -7, Z: 3}, design.Upright)
	mast.Post.Ends[design.Foot].Diameter, mast.Post.Ends[design.Head].Diameter = from, to
	mast.Post.Seam = seam
	out := design.Toward(design.Upright, toward)
	u := r3.Unit(r3.Add(out, r3.Vec{Z: 0.4}))
	at := r3.Add(mast.Post.Ends[design.Foot].At, r3.Add(r3.Scale((from+(to-from)*700/length)/2, out), r3.Vec{Z: 700}))
	twig = newPost(90, 1.5, 500, at, u)
	twig.Name = "twig"
	twig.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnSide, With: mast}
	return mast, twig
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
			mast, twig := forked(560, 380, 0.4*float64(n), toward)
			if n%2 == 1 {
				mast, twig = forked(380, 560, 0.4*float64(n), toward)
			}
			twig.Metal = mast.Metal
			d := &design.Design{Parts: []*design.Part{mast, twig}, Units: quantity.Millimetre}
			width, length := 1219.2, 2438.4 // 4 by 8 ft
			if c.width > 0 {
				width, length = c.width, c.length
				d.Shop = &design.Shop{Sheets: []design.Sheet{{Metal: mast.Metal, Width: width, Length: length, Turn: true}}}
			}
			made, wrong := All(d)
			if wrong.Err() != nil {
				t.Fatal(wrong.Err())
			}
			list := made[0].Blanks
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
			if whole := girdle(made[1].Toes[0]); math.Abs(marked/whole-1) > 1e-4 {
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
		along := design.Leaning(rng.Float64(), 7*rng.Float64())
		post, ball := threadedBall(design.Zones, 3+n%6, 30+50*rng.Float64(), along, design.Leaning(1.5*rng.Float64(), 7*rng.Float64()))
		post.Metal = ball.Metal
		sheet := design.Sheet{Metal: ball.Metal, Width: 350, Length: 350 + 100*rng.Float64(), Turn: true}
		found, edges := checkHoles(t, post, ball, sheet)
		if t.Failed() {
			t.Fatalf("%d: %+v", n, *ball.Ball)
		}
		if edges < 40 {
			t.Errorf("%d: only %d places on edges, %+v", n, edges, found)
		}
		d := &design.Design{Parts: []*design.Part{post, ball}, Shop: &design.Shop{Sheets: []design.Sheet{sheet}}}
		made, wrong := All(d)
		if wrong.Err() != nil {
			t.Fatal(wrong.Err())
		}
		for _, b := range made[1].Blanks {
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
		make1 := func(build design.Construction, name string, radius float64, at r3.Vec) *design.Part {
			count := 6 + rng.IntN(12)
			p := newBall(2*radius, 1.5, build, count, at)
			if build == design.Zones {
				p.Ball.Gores, p.Ball.Zones = 0, count
			}
			p.Name = name
			p.Ball.Pole = design.Leaning(3*rng.Float64(), 7*rng.Float64())
			p.Ball.Prime = design.Toward(p.Ball.Pole, 7*rng.Float64())
			return p
		}
		ra, rb := 80+150*rng.Float64(), 60+100*rng.Float64()
		seat := (0.3 + 0.4*rng.Float64()) * min(ra, rb)
		u := design.Leaning(1.5*rng.Float64(), 7*rng.Float64())
		apart := math.Sqrt(ra*ra-seat*seat) + math.Sqrt(rb*rb-seat*seat)
		lower := make1(builds[n%4], "moon", ra, r3.Vec{X: 10, Y: 20, Z: 200})
		upper := make1(builds[n/4%4], "star", rb, r3.Add(lower.Ball.Center, r3.Scale(apart, u)))
		upper.Ball.Seat, upper.Ball.On = 2*seat, lower
		whole := &design.Design{
			Parts:  []*design.Part{lower, upper},
			Joints: []design.Joint{{Kind: design.SeatJoint, A: lower, B: upper}},
		}
		made, wrong := All(whole)
		if wrong.Err() != nil {
			t.Fatal(wrong.Err())
		}
		MarkStanding(whole, made)
		for i, p := range whole.Parts {
			other := whole.Parts[1-i]
			count := 0
			for k := range made[i].Blanks {
				b := &made[i].Blanks[k]
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
			spire := newPost(4*inch, 0.0478*inch, 96*inch, r3.Vec{}, design.Upright)
			spire.Post.Ends[design.Head].Diameter, spire.Post.Gap = inch/2, gap
			spire.Post.Ends[design.Head].Disc = end == "closed"
			d := &design.Design{Parts: []*design.Part{spire}, Units: quantity.Inch}
			if end == "ball" {
				ball := newBall(6*inch, 0.0478*inch, design.RolledGores, 8, r3.Vec{Z: 96*inch + 2.99*inch})
				spire.Post.Ends[design.Head].Contact = onBall(ball)
				d.Parts = append(d.Parts, ball)
			}
			made, wrong := All(d)
			if err := wrong.Err(); err != nil {
				t.Errorf("gap %v, %s: %v", gap, end, err)
				continue
			}
			b := made[0].Blanks[0]
			if b.Shape != Sector || b.Name != spire.Name || len(made[0].Blanks) > 2 {
				t.Fatalf("gap %v, %s: %d blanks, the first %q", gap, end, len(made[0].Blanks), b.Name)
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
	split := 0
	for range 300 {
		p := newPost(20+200*random.Float64(), 1.2, 100+3000*random.Float64(), r3.Vec{}, design.Upright)
		p.Post.Ends[design.Head].Diameter = 6 + 200*random.Float64()
		p.Post.Gap = math.Pow(10, 3*random.Float64()-1.5)
		d := &design.Design{Parts: []*design.Part{p}, Units: quantity.Millimetre, Shop: &design.Shop{Sheets: []design.Sheet{
			{Metal: p.Metal, Width: 50 + 1000*random.Float64(), Length: 1000 + 2000*random.Float64(), Turn: true},
		}}}
		made, wrong := All(d)
		if wrong.Err() != nil {
			continue
		}
		if len(made[0].Blanks) == 0 {
			t.Fatalf("%+v: no blanks and no error", *p.Post)
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
	if split < 10 {
		t.Errorf("%d tapers were split, want more", split)
	}
}
