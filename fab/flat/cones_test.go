package flat

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/written"
)

// TestWorkedFrustum lays out a taper of the mean radii and height of A6. Its
// wall is thin, so that its free ends, cut square through the sheet, are those
// of the case.
func TestWorkedFrustum(t *testing.T) {
	c := loadCase(t, "A6")
	mast := written.Design(t, written.Metric+fmt.Sprintf(`base yard { feet }
post mast on yard { diameter %v to %v, length %v, head open, metal skin }
`, 2*c.in("r1"), 2*c.in("r2"), c.in("h"))).Part("mast")
	mast.Metal.Thickness = 1e-6 // by hand: the language takes none so thin
	b := develop(t, mast).Blanks[0]
	if b.Shape != Sector || b.Fan == nil || b.Forming.How != "cone" {
		t.Fatalf("A6: a blank of shape %v, formed %q", b.Shape, b.Forming.How)
	}
	c.check(t, "large radius", b.Fan.Large, c.out("apex_radius_large"))
	c.check(t, "small radius", b.Fan.Small, c.out("apex_radius_small"))
	c.check(t, "slant", b.Fan.Large-b.Fan.Small, c.out("slant"))
	c.check(t, "included angle", b.Fan.Angle*180/math.Pi, c.out("sector_deg"))
	c.check(t, "area", b.Area, math.Pi*(c.in("r1")+c.in("r2"))*c.out("slant"))
	c.check(t, "chord", b.Fan.Chord, 2*c.out("apex_radius_large")*math.Sin(c.out("sector_deg")/2*math.Pi/180))
}

// sideBranch makes the branch of B6 on the post of B6, by hand: the axis of a branch
// that is written meets that of its post, and this one passes it.
func sideBranch(c figures) (host, branch *design.Part) {
	main := newPost(c.in("main_OD"), 1.5, 2000, r3.Vec{X: -1000}, r3.Vec{X: 1})
	main.Name = "main"
	gamma, e, r := c.in("angle_deg")*math.Pi/180, c.in("offset"), c.in("main_OD")/2
	way := r3.Vec{X: math.Cos(gamma), Z: math.Sin(gamma)}
	foot := r3.Add(r3.Vec{Y: e}, r3.Scale(math.Sqrt(r*r-e*e)/math.Sin(gamma), way))
	branch = newPost(c.in("branch_OD"), c.in("branch_t"), 500, foot, way)
	branch.Name = "branch"
	branch.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnSide, With: main}
	return main, branch
}

// TestWorkedBranch follows the cope of B6 at the case's own 16 stations, whose
// zero is toward the acute side.
func TestWorkedBranch(t *testing.T) {
	c := loadCase(t, "B6")
	_, p := sideBranch(c)
	end := footTrim(p)
	gamma := c.in("angle_deg") * math.Pi / 180
	acute := r3.Vec{X: math.Sin(gamma), Z: -math.Cos(gamma)}
	x, y := design.Tilt(p.Post.Direction)
	start := math.Atan2(r3.Dot(acute, y), r3.Dot(acute, x))
	// The case measures from the point of the axis next to the main's.
	from := r3.Norm(r3.Sub(p.Post.Ends[design.Foot].At, r3.Vec{Y: c.in("offset")}))
	cut, outer, radius := c.list("s_cut"), c.list("s_outer"), c.list("touch_radius")
	for k := range cut {
		touch, ok := end.contour.Touch(math.Sincos(start + float64(k)*math.Pi/8))
		if !ok {
			t.Fatalf("B6: misses at station %d", k)
		}
		c.check(t, "cut", touch.At+from, cut[k])
		c.check(t, "outer", touch.Toe+from, outer[k])
		c.check(t, "touch radius", touch.Radius, radius[k])
	}
	b := develop(t, p).Blanks[0]
	c.check(t, "pitch of 16", b.Width/16, c.out("station_pitch_mid"))
}

// TestWorkedFootprint finds the footprint of B7 in the mark that the branch
// leaves on the main's flat.
func TestWorkedFootprint(t *testing.T) {
	c := loadCase(t, "B7")
	main, branch := sideBranch(loadCase(t, "B6"))
	x, y := design.Tilt(main.Post.Direction)
	top := math.Atan2(y.Z, x.Z) // the bearing of the main's top, +Z
	main.Post.Seam = top + math.Pi
	made, wrong := All(&design.Design{Parts: []*design.Part{main, branch}, Units: quantity.Millimetre})
	if wrong.Err() != nil {
		t.Fatal(wrong.Err())
	}
	var mark Mark
	for _, m := range made[0].Blanks[0].Marks {
		if m.Kind == Standing {
			mark = m
		}
	}
	if mark.Part != "branch" || len(mark.Path) < 48 || mark.From != mark.To {
		t.Fatalf("B7: a mark %q of %d points from %v to %v", mark.Part, len(mark.Path), mark.From, mark.To)
	}
	along, arc := c.list("x"), c.list("arc")
	mean := 60 - 0.75
	for k := range along {
		// Arc grows toward +Y, seen from outside with x along the main.
		side := math.Copysign(1, r3.Dot(r3.Cross(r3.Vec{Z: 1}, r3.Vec{Y: 1}), main.Post.Direction))
		want := r2.Vec{
			X: mean * bearingOf(top-main.Post.Seam+side*arc[k]/60),
			Y: along[k] + 1000,
		}
		least := math.Inf(1)
		for i := 1; i < len(mark.Path); i++ {
			least = min(least, toSegment(want, mark.Path[i-1], mark.Path[i]))
		}
		if least > 0.06 {
			t.Errorf("B7: station %d at %v lies %v beside the mark", k, want, least)
		}
	}
	// The mark lies on the case's stations; its middle is told from the lower edge.
	low, high := bounds(mark.Path)
	edge, _ := bounds(made[0].Blanks[0].Outline)
	up := (low.Y+high.Y)/2 - edge.Y
	for _, n := range made[0].Blanks[0].Notes {
		if here, ok := n.(StandsHere); ok && math.Abs(here.Up-up) < 1e-3 {
			return
		}
	}
	t.Errorf("B7: no branch stands %v up: %+v", up, made[0].Blanks[0].Notes)
}

func toSegment(p, a, b r2.Vec) float64 {
	side := r2.Sub(b, a)
	u := min(max(r2.Dot(r2.Sub(p, a), side)/r2.Norm2(side), 0), 1)
	return r2.Norm(r2.Sub(p, r2.Add(a, r2.Scale(u, side))))
}

// TestWorkedZones lays out the rings of C7, which are chords of the sphere where
// ours touch it: a ball whose edges lie on the case's sphere. The case's polar
// cones are discs here.
func TestWorkedZones(t *testing.T) {
	c := loadCase(t, "C7")
	half := c.in("step") / 2 * math.Pi / 180
	touching := c.in("R_mid") * math.Cos(half)
	for _, v := range c.Output["zones"].([]any) {
		zone := v.(map[string]any)
		lat := zone["lat"].([]any)
		from, to := lat[0].(float64)*math.Pi/180, lat[1].(float64)*math.Pi/180
		f := frustum{
			lower: c.in("R_mid") * math.Cos(from), upper: c.in("R_mid") * math.Cos(to),
			slant: 2 * touching * math.Tan(half),
		}
		c.check(t, "slant", f.slant, zone["slant"].(float64))
		w := f.wall()
		if zone["kind"] == "cylinder" {
			c.check(t, "width", 2*math.Pi*w.mean, zone["width"].(float64))
			continue
		}
		var b Blank
		w.fan(&Blank{Outline: ringOutline(w, 2*math.Pi)}, 0, 2*math.Pi, 0, w.length)
		b.Outline = ringOutline(w, 2*math.Pi)
		w.fan(&b, 0, 2*math.Pi, 0, w.length)
		c.check(t, "large radius", b.Fan.Large, zone["rho_large"].(float64))
		if small := zone["rho_small"].(float64); math.Abs(b.Fan.Small-small) > 1e-3 {
			t.Errorf("C7: small radius %v, want %v", b.Fan.Small, small)
		}
		c.check(t, "included angle", b.Fan.Angle*180/math.Pi, zone["sector_deg"].(float64))
	}
	c.check(t, "inset", c.in("R_mid")-touching, c.out("chord_inset"))
	area := 0.0
	for lat := -80.0; lat < 90; lat += 20 {
		f := frustum{
			lower: c.in("R_mid") * math.Cos((lat-10)*math.Pi/180), upper: c.in("R_mid") * math.Cos((lat+10)*math.Pi/180),
			slant: 2 * touching * math.Tan(half),
		}
		area += f.area()
	}
	c.check(t, "area ratio", area/(4*math.Pi*c.in("R_mid")*c.in("R_mid")), c.out("area_ratio"))
}

// TestZones sums up a ball of zones: its rings and discs close, and touch the
// sphere by their middles.
func TestZones(t *testing.T) {
	for _, n := range []int{1, 2, 3, 7, 8, 48} {
		p := written.Design(t, written.Metric+fmt.Sprintf(`base pad { plate 900 by 900, metal slab }
ball moon on pad { at (1, 2), diameter 300, zones %d, edge mid, metal skin }
`, max(n, 2))).Part("moon")
		p.Ball.Zones = n // of one ring by hand: the language wants two
		d := develop(t, p)
		mean, area, rings := 149.25, 0.0, 0
		for _, b := range d.Blanks {
			checkOutline(t, b)
			area += float64(b.Quantity) * b.Area
			if b.Forming.How != "flat" {
				rings += b.Quantity
			}
		}
		if rings != n {
			t.Errorf("%d zones: blanks for %d rings", n, rings)
		}
		// A polygon about the circle, revolved: its rings at the middles of
		// their sides (Pappus), and its two discs.
		step := math.Pi / float64(n+1)
		side := 2 * mean * math.Tan(step/2)
		want := 2 * math.Pi * side * side / 4
		for k := range n {
			want += 2 * math.Pi * mean * math.Cos(float64(k+1)*step-math.Pi/2) * side
		}
		if !near(area, want) || !near(d.Mass, want*1.5*7850e-9) || d.CG != p.Ball.Center {
			t.Errorf("%d zones: area %v, want %v; mass %v about %v", n, area, want, d.Mass, d.CG)
		}
		if d.Round.Greatest <= d.Round.Mean || !near(d.Round.Greatest, 150*(1/math.Cos(step/2)-1)) {
			t.Errorf("%d zones: roundness %+v", n, *d.Round)
		}
	}
}

// TestRoundness measures balls by brute force, point by point over the outside.
func TestRoundness(t *testing.T) {
	for _, tt := range []string{"gores 8", "gores 12, caps 80", "gores 5, caps 12", "gores 12, bend domed, caps 40", "zones 7", "halves"} {
		p := written.Design(t, written.Metric+`base pad { plate 900 by 900, metal slab }
ball moon on pad { diameter 300, `+tt+`, metal skin }
`).Part("moon")
		got := develop(t, p).Round
		most, sum, area := 0.0, 0.0, 0.0
		surface := solid.Outside(p)
		const rows, turns = 901, 720
		for i := range rows {
			z := 2*float64(i)/(rows-1) - 1
			for k := range turns {
				sin, cos := math.Sincos(float64(k) * 2 * math.Pi / turns)
				q := math.Sqrt(1 - z*z)
				way := r3.Vec{X: q * cos, Y: q * sin, Z: z}
				r, ok := surface.Leave(p.Ball.Center, way)
				if !ok {
					t.Fatal("no outside")
				}
				off := math.Abs(r - 150)
				most = max(most, off)
				// Solid angle is even; area goes with r^2 over the cosine of the
				// surface's tilt, which on all of these is 150 / r.
				weight := r * r * r
				if i == 0 || i == rows-1 {
					weight /= 2
				}
				sum += off * weight
				area += weight
			}
		}
		if math.Abs(got.Greatest-most) > 0.001*most+1e-6 || math.Abs(got.Mean-sum/area) > 0.01*sum/area+1e-6 {
			t.Errorf("%s: roundness %+v, by points %v and %v", tt, *got, most, sum/area)
		}
	}
}
