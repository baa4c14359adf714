package eval

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

const metric = `units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 600 by 400, metal slab }
`

func close3(a, b r3.Vec) bool { return near(a.X, b.X) && near(a.Y, b.Y) && near(a.Z, b.Z) }

// stations is how many places round a tube are tried.
const stations = 720

// ring returns a point of a circle about a point of a post's axis, square to
// it, at an angle from bearing 0.
func ring(p *design.Post, at r3.Vec, radius, angle float64) r3.Vec {
	return r3.Add(at, r3.Scale(radius, design.Toward(p.Direction, angle)))
}

// The ball rests on the inside edge of the tube's end: of all points of that
// circle exactly the one away from the offset lies on the ball, and the others
// lie within it, where the tube will be trimmed.
func TestBallRestsOnEdge(t *testing.T) {
	for _, tt := range []struct{ lean, bearing, offset, toward float64 }{
		{0, 0, 0, 0}, {0, 0, 20, 180}, {12, 30, 0, 0}, {12, 30, 25, 77}, {40, 200, 45, 310}, {89, 90, 30, 90},
	} {
		d := mustEvaluate(t, fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
base ground { feet }
post mast on ground { diameter 60, length 900, metal skin, lean %v deg toward %v deg }
ball moon on mast { diameter 240, offset %v toward %v deg, gores 12, metal skin }
`, tt.lean, tt.bearing, tt.offset, tt.toward))
		post, ball := part(t, d, "mast").Post, part(t, d, "moon").Ball
		inside := post.Ends[design.Head].Diameter/2 - 1.5
		worst, where := math.Inf(-1), 0.0
		for i := range stations {
			a := 2 * math.Pi * float64(i) / stations
			if out := r3.Norm(r3.Sub(ring(post, post.Ends[design.Head].At, inside, a), ball.Center)) - ball.Radius; out > worst+1e-9 {
				worst, where = out, a
			}
		}
		away := (tt.toward + 180) * degree
		if far := r3.Norm(r3.Sub(ring(post, post.Ends[design.Head].At, inside, away), ball.Center)) - ball.Radius; math.Abs(far) > 1e-9 {
			t.Errorf("%+v: the edge away from the offset is %v mm off the ball", tt, far)
		}
		if worst > 1e-9 {
			t.Errorf("%+v: the edge at %v deg stands %v mm out of the ball", tt, where/degree, worst)
		}
		if e := r3.Sub(ball.Center, post.Ends[design.Head].At); !near(r3.Norm(r3.Sub(e, r3.Scale(r3.Dot(e, post.Direction), post.Direction))), tt.offset) {
			t.Errorf("%+v: the centre is not %v mm off the axis", tt, tt.offset)
		}
	}
}

// The longest side of a tube that is trimmed to the ball is as long as the
// text says. Each line along the tube, at radii from inside to outside, is run
// up from the foot until it meets the ball; the wall is cut where the first of
// its lines meets; the longest wall is the tube's length.
func TestLengthIsLongestSide(t *testing.T) {
	const layers = 50
	for _, tt := range []struct{ lean, offset, toward float64 }{{0, 0, 0}, {0, 30, 0}, {20, 29, 135}, {35, 80, 300}} {
		d := mustEvaluate(t, metric+fmt.Sprintf(`
post mast on pad { diameter 60, length 900, metal skin, lean %v deg toward 45 deg }
ball moon on mast { diameter 240, offset %v toward %v deg, gores 12, metal skin }
`, tt.lean, tt.offset, tt.toward))
		post, ball := part(t, d, "mast").Post, part(t, d, "moon").Ball
		longest := 0.0
		for i := range stations {
			cut := math.Inf(1)
			for k := range layers + 1 {
				r := 28.5 + 1.5*float64(k)/layers
				from := ring(post, post.Ends[design.Foot].At, r, 2*math.Pi*float64(i)/stations)
				// Where the line from + s u meets the ball first.
				c := r3.Sub(ball.Center, from)
				along := r3.Dot(c, post.Direction)
				half := ball.Radius*ball.Radius - r3.Dot(c, c) + along*along
				cut = min(cut, along-math.Sqrt(half))
			}
			longest = max(longest, cut)
		}
		if math.Abs(longest-900) > 1e-9*900 {
			t.Errorf("%+v: the longest side is %v mm, want 900", tt, longest)
		}
	}
}

// A post on a ball starts on the ball's skin at the offset, its axis leaves the
// ball, and every line of its wall meets the ball.
func TestPostOnBall(t *testing.T) {
	for _, tt := range []struct{ offset, toward, lean, bearing float64 }{
		{0, 0, 0, 0}, {50, 90, 0, 0}, {50, 90, 15, 90}, {70, 200, 30, 180}, {0, 0, 45, 33},
	} {
		d := mustEvaluate(t, metric+fmt.Sprintf(`
post mast on pad { diameter 60, length 500, metal skin }
ball moon on mast { diameter 240, gores 12, metal skin }
post spur on moon { diameter 40, length 300, offset %v toward %v deg, lean %v deg toward %v deg, metal skin }
`, tt.offset, tt.toward, tt.lean, tt.bearing))
		ball, spur := part(t, d, "moon").Ball, part(t, d, "spur").Post
		out := r3.Sub(spur.Ends[design.Foot].At, ball.Center)
		sin, cos := math.Sincos(tt.toward * degree)
		if !near(r3.Norm(out), 120) || !near(out.X, tt.offset*cos) || !near(out.Y, tt.offset*sin) || out.Z <= 0 {
			t.Errorf("%+v: the foot is at %v from the centre", tt, out)
		}
		lean := r3.Vec{
			X: math.Sin(tt.lean*degree) * math.Cos(tt.bearing*degree),
			Y: math.Sin(tt.lean*degree) * math.Sin(tt.bearing*degree),
			Z: math.Cos(tt.lean * degree),
		}
		if !close3(spur.Direction, lean) || !close3(spur.Ends[design.Head].At, r3.Add(spur.Ends[design.Foot].At, r3.Scale(300, lean))) {
			t.Errorf("%+v: Direction %v, Head %v", tt, spur.Direction, spur.Ends[design.Head].At)
		}
		for i := range stations {
			c := r3.Sub(ball.Center, ring(spur, spur.Ends[design.Foot].At, 20, 2*math.Pi*float64(i)/stations))
			along := r3.Dot(c, spur.Direction)
			if miss := math.Sqrt(r3.Dot(c, c) - along*along); miss >= ball.Radius {
				t.Errorf("%+v: the wall passes the ball by %v mm", tt, miss-ball.Radius)
				break
			}
		}
	}
}

// A leaning foot just fits its plate, and no longer does with a hair less. The
// ring of the foot is found by cutting lines of the tube with the plate.
func TestFootOnPlate(t *testing.T) {
	for _, tt := range []struct{ x, y, lean, bearing float64 }{
		{200, -100, 0, 0}, {100, 50, 30, 0}, {-150, 20, 50, 70}, {20, -130, 65, 215}, {0, 0, 80, 45},
	} {
		post := fmt.Sprintf("post mast on pad { at (%v, %v), diameter 60, length 500, metal skin, lean %v deg toward %v deg }", tt.x, tt.y, tt.lean, tt.bearing)
		u := design.Leaning(tt.lean*degree, tt.bearing*degree)
		var wide, deep, far float64
		const fine = 200_000
		for i := range fine {
			v := r3.Scale(30, design.Toward(u, 2*math.Pi*float64(i)/fine))
			v = r3.Sub(v, r3.Scale(v.Z/u.Z, u)) // down the tube to the plate
			x, y := tt.x+v.X, tt.y+v.Y
			wide, deep, far = max(wide, math.Abs(x)), max(deep, math.Abs(y)), max(far, math.Hypot(x, y))
		}
		for _, base := range []string{
			"plate %[1]v by 9999", "plate 9999 by %[2]v", "disc %[3]v",
		} {
			const hair = 1e-4 // mm
			head := "units mm\nmetal skin { alloy copper, thickness 1.5 }\n"
			fits := fmt.Sprintf(base+"%[4]s", 2*wide+hair, 2*deep+hair, 2*far+hair, "")
			mustEvaluate(t, head+"base pad { metal skin, "+fits+" }\n"+post)
			tight := fmt.Sprintf(base+"%[4]s", 2*wide-hair, 2*deep-hair, 2*far-hair, "")
			if _, list := evaluate(head+"base pad { metal skin, "+tight+" }\n"+post, Options{}); len(list) != 1 {
				t.Errorf("%+v: %s has %d mistakes, want 1", tt, tight, len(list))
			}
		}
	}
}

func TestPlacement(t *testing.T) {
	d := mustEvaluate(t, metric+`
post mast on pad { at (-50, 20), diameter 60, length 900, metal skin, lean 30 deg toward (50, 20) }
post spar on pad { at (200, 120), diameter 40, length 300, metal skin, seam toward mast, lean 0 deg, gap 2, head open }
post pole on pad { at (200, -120), diameter 40, length 300, metal skin, seam -315 deg, head disc }
ball moon on mast { diameter 240, offset 30 toward spar, bend domed, gores 12, caps 50, metal skin, pole 90 deg toward 0 deg }
ball stone on pad { at (0, 150), diameter 80, halves, metal skin, pole toward 90 deg }
ball bead on spar { diameter 80, bought 1.5 kg }
site { push 300 N at 1.5 m, slope 3 deg }
require weight <= 100 kg "one person must lift it"
`)
	mast, spar, pole := part(t, d, "mast").Post, part(t, d, "spar").Post, part(t, d, "pole").Post
	moon, stone, bead := part(t, d, "moon"), part(t, d, "stone"), part(t, d, "bead")

	if want := (r3.Vec{X: 400, Y: 20, Z: 10 + 900*math.Sqrt(3)/2}); !close3(mast.Ends[design.Head].At, want) {
		t.Errorf("mast.Head = %v, want %v", mast.Ends[design.Head].At, want)
	}
	// The middle of the mast is at (175, 20): seen from (200, 120) that is
	// 25 to the left and 100 nearer.
	if want := math.Atan2(-100, -25) + 2*math.Pi; !near(spar.Seam, want) {
		t.Errorf("spar.Seam = %v, want %v", spar.Seam, want)
	}
	if !near(pole.Seam, math.Pi/4) || !near(mast.Seam, math.Pi/2) || spar.Gap != 2 {
		t.Errorf("seams %v and %v, gap %v", pole.Seam, mast.Seam, spar.Gap)
	}
	for _, tt := range []struct {
		name string
		post *design.Post
		disc bool
		with *design.Part
	}{{"mast", mast, false, moon}, {"spar", spar, false, bead}, {"pole", pole, true, nil}} {
		meets := design.Free
		if tt.with != nil {
			meets = design.OnBall
		}
		if p := tt.post; p.Ends[design.Head].Disc != tt.disc || p.Ends[design.Head].Contact != (design.Contact{Meets: meets, With: tt.with}) ||
			p.Ends[design.Foot].Contact != (design.Contact{Meets: design.OnPlate, With: d.Base()}) {
			t.Errorf("%s: HeadDisc %v, HeadEnd %v, FootEnd %v", tt.name, p.Ends[design.Head].Disc, p.Ends[design.Head].Contact, p.Ends[design.Foot].Contact)
		}
	}
	if b := moon.Ball; b.Build != design.DomedGores || b.Gores != 12 || b.Caps != 50 ||
		!close3(b.Pole, r3.Vec{X: 1}) || !near(r3.Dot(b.Pole, b.Prime), 0) || !near(b.OffsetBear, design.BearingOf(r3.Sub(r3.Vec{X: 200, Y: 120}, mast.Ends[design.Head].At))) {
		t.Errorf("moon = %+v", *b)
	}
	if b := stone.Ball; b.Build != design.Halves || !close3(b.Center, r3.Vec{Y: 150, Z: 50}) || !close3(b.Pole, r3.Vec{Y: 1}) {
		t.Errorf("stone = %+v", *b)
	}
	if b := bead.Ball; b.Build != design.Bought || b.BoughtMass != 1.5 || bead.Metal != nil || b.Prime != (r3.Vec{X: 1}) {
		t.Errorf("bead = %+v", *b)
	}
	if s := d.Site; s == nil || s.Push != 300 || s.PushHeight != 1500 || !near(s.Slope, 3*degree) {
		t.Errorf("Site = %+v", d.Site)
	}
	if r := d.Require; len(r) != 1 || r[0].Text != "weight <= 100 kg" || r[0].Why != "one person must lift it" {
		t.Errorf("Require = %+v", d.Require)
	}
	want := []struct {
		post string
		foot bool
		a, b string
		at   r3.Vec
	}{
		{"mast", true, "pad", "mast", mast.Ends[design.Foot].At}, {"spar", true, "pad", "spar", spar.Ends[design.Foot].At}, {"pole", true, "pad", "pole", pole.Ends[design.Foot].At},
		{"mast", false, "mast", "moon", mast.Ends[design.Head].At}, {"", false, "pad", "stone", r3.Vec{Y: 150, Z: 10}}, {"spar", false, "spar", "bead", spar.Ends[design.Head].At},
	}
	if len(d.Joints) != len(want) {
		t.Fatalf("%d joints, want %d", len(d.Joints), len(want))
	}
	for i, j := range d.Joints {
		w, post, foot := want[i], "", j.Kind == design.EndJoint && j.End == design.Foot
		if j.Post != nil {
			post = j.Post.Name
		}
		if post != w.post || foot != w.foot || j.A.Name != w.a || j.B.Name != w.b || !close3(j.At, w.at) {
			t.Errorf("joint %d ties %s to %s at %v, post %q, foot %v; want %+v", i, j.A.Name, j.B.Name, j.At, post, foot, w)
		}
	}
	if p := moon; p.Span.Text() != "moon" || p.At("offset").Text() != "offset 30 toward spar" || p.At("seat") != p.Span {
		t.Errorf("moon stands at %q, its offset at %q", p.Span.Text(), p.At("offset").Text())
	}
}

// What stands on feet stands on the ground: they are no part.
func TestFeet(t *testing.T) {
	d := mustEvaluate(t, `units mm
metal skin { alloy copper, gauge 14 }
base ground { feet }
post leg on ground { at (5000, 0), diameter 60, length 900, metal skin }
ball stone on ground { diameter 80, halves, metal skin }`)
	leg := part(t, d, "leg").Post
	if leg.Ends[design.Foot].At != (r3.Vec{X: 5000}) || leg.Ends[design.Foot].Contact != (design.Contact{Meets: design.OnPlate}) || d.Base() != nil || len(d.Parts) != 2 {
		t.Errorf("leg stands at %v on %+v", leg.Ends[design.Foot].At, leg.Ends[design.Foot].Contact)
	}
	if b := part(t, d, "stone").Ball; b.Center != (r3.Vec{Z: 40}) || b.On != nil {
		t.Errorf("stone.Center = %v, on %v", b.Center, b.On)
	}
	if ties := d.Ties(); len(ties.Of[ties.Ground]) != 2 {
		t.Errorf("on the ground: %v, want both", ties.Of[ties.Ground])
	}
}
