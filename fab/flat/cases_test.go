package flat

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/internal/worked"
	"stabile/param/design"
	"stabile/param/quantity"
)

// Figures are those of a worked case, to six digits.
type figures struct {
	ID            string
	Input, Output map[string]any
}

func loadCase(t *testing.T, id string) figures {
	t.Helper()
	c := figures{ID: id}
	worked.Read(t, id, &c.Input, &c.Output)
	return c
}

func (w figures) in(key string) float64  { return w.Input[key].(float64) }
func (w figures) out(key string) float64 { return w.Output[key].(float64) }

func (w figures) list(key string) []float64 {
	var xs []float64
	for _, v := range w.Output[key].([]any) {
		xs = append(xs, v.(float64))
	}
	return xs
}

// check compares a result with a case to six digits.
func (w figures) check(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !near(got, want) {
		t.Errorf("%s: %s = %.6g, want %.6g", w.ID, what, got, want)
	}
}

func TestWorkedTubes(t *testing.T) {
	for _, id := range []string{"A2", "A3"} {
		c := loadCase(t, id)
		d := develop(t, newPost(c.in("OD"), c.in("t"), c.in("L"), r3.Vec{}, design.Upright))
		c.check(t, "width", d.Blanks[0].Width, c.out("blank_width"))
		c.check(t, "area", d.Blanks[0].Area, c.out("blank_area_mm2"))
		c.check(t, "mass", d.Mass, c.out("mass_kg_7850"))
		c.check(t, "length", d.Blanks[0].Length, c.in("L"))
	}
	c := loadCase(t, "A5")
	d := develop(t, newPost(c.in("OD"), c.in("t"), 500, r3.Vec{}, design.Upright))
	c.check(t, "width", d.Blanks[0].Width, c.out("K050"))
}

// TestPipe weighs a metre of tube of the sizes of standard pipe.
func TestPipe(t *testing.T) {
	c := loadCase(t, "D1")
	const inch = 25.4
	perMetre, table := c.list("kg_m_at_7850"), c.list("table")
	for i, row := range c.Input["rows"].([]any) {
		size := row.([]any)
		d := develop(t, newPost(size[1].(float64)*inch, size[2].(float64)*inch, 1000, r3.Vec{}, design.Upright))
		c.check(t, size[0].(string)+" kg/m", d.Mass, perMetre[i])
		// The printed table is in lb/ft to a hundredth, by a density that is
		// 0.06 % apart from 7850 kg/m3.
		if poundsPerFoot := d.Mass / 0.45359237 * 0.3048; math.Abs(poundsPerFoot/table[i]-1) > 0.003 {
			t.Errorf("pipe %s weighs %.4g lb/ft, printed %v", size[0], poundsPerFoot, table[i])
		}
	}
}

// TestWorkedPlane develops a post that leans by the tilt of B1. It stands above
// the plane where the case's tube hangs below it, so that its heights are the
// case's, turned over.
func TestWorkedPlane(t *testing.T) {
	c := loadCase(t, "B1")
	p := newPost(c.in("OD"), c.in("t"), 400, r3.Vec{}, design.Leaning(c.in("tilt_deg")*math.Pi/180, math.Pi))
	p.Post.Ends[design.Foot].Contact = ground
	d := develop(t, p)
	foot, _ := curves(d.Blanks[0])
	c.check(t, "pitch of 16", d.Blanks[0].Width/16, c.out("station_pitch_mid"))
	low := 0.0
	for _, q := range foot {
		low = min(low, q.Y)
	}
	// Sixteenths that are stations too.
	cut := c.list("z_envelope_low")
	table := d.Blanks[0].Ordinates[0].Stations
	for k := 0; k < 16; k++ {
		if k*(len(table)-1)%16 != 0 {
			continue
		}
		s := table[k*(len(table)-1)/16]
		c.check(t, "bearing", s.Bearing, float64(k)*math.Pi/8)
		c.check(t, "cut", s.Ordinate+low, -cut[k])
	}
	e := footTrim(p)
	for k := range cut {
		bearing := float64(k) * math.Pi / 8
		touch, _ := e.contour.Touch(math.Sin(bearing), math.Cos(bearing))
		c.check(t, "touch", touch.At, -cut[k])
		c.check(t, "outer", touch.Toe, -c.list("z_outer")[k])
	}
}

func TestWorkedBallFoot(t *testing.T) {
	for _, id := range []string{"B2", "B3"} {
		c, b3 := loadCase(t, id), loadCase(t, "B3")
		ball := newBall(b3.in("ball_OD"), 1.5, design.Halves, 0, r3.Vec{})
		e := 0.0
		if id == "B3" {
			e = c.in("e")
		}
		start := math.Sqrt(150*150 - e*e)
		p := newPost(c.in("OD"), c.in("t"), 500, r3.Vec{X: -e, Z: start}, design.Upright)
		p.Post.Ends[design.Foot].Contact = onBall(ball)
		d := develop(t, p)
		if id == "B2" {
			foot, _ := curves(d.Blanks[0])
			if len(foot) != 2 || len(d.Blanks[0].Ordinates) != 0 {
				t.Errorf("B2: foot of %d points and %d tables, want a square cut", len(foot), len(d.Blanks[0].Ordinates))
			}
			c.check(t, "cut", foot[0].Y+start, c.out("z_inner"))
			c.check(t, "cut", foot[1].Y+start, c.out("z_inner"))
			c.check(t, "sagitta", -foot[0].Y, c.out("sagitta_inner"))
			continue
		}
		table := d.Blanks[0].Ordinates[0]
		// The case has 24 stations; the table has as many as its curve needs.
		stride := 24 / (len(table.Stations) - 1)
		c.check(t, "pitch", table.Pitch/float64(stride), c.out("station_pitch_mid"))
		bottom := 500 - d.Blanks[0].Length
		end := footTrim(p)
		for k, want := range c.list("z_cut") {
			if k%stride == 0 {
				c.check(t, "cut", table.Stations[k/stride].Ordinate+bottom+start, want)
			}
			touch, _ := end.contour.Touch(math.Sincos(float64(k) * math.Pi / 12))
			c.check(t, "outer", touch.Toe+start, c.list("z_outer")[k])
			c.check(t, "touch radius", touch.Radius, c.list("touch_radius")[k])
		}
		c9 := loadCase(t, "B9")
		c9.check(t, "weld", d.Welds[0], c9.out("length"))
	}
}

// footTrim returns what the foot of a post meets, ready to be looked at point by point.
func footTrim(p *design.Part) meeting {
	d := developer{part: p, setting: newSetting(quantity.Millimetre, nil)}
	tube, _ := d.tube()
	e := &trim{tube: &tube}
	surface, _ := d.surface(0)
	return e.meet(surface)
}

func TestWorkedDividers(t *testing.T) {
	c := loadCase(t, "B10")
	c.check(t, "dividers", dividers(c.in("R"), c.in("ro")), c.out("divider_setting"))
}

func TestWorkedDomedGores(t *testing.T) {
	for _, id := range []string{"C1", "C2"} {
		c := loadCase(t, id)
		n := c.in("n")
		p := newBall(c.in("OD"), c.in("t"), design.DomedGores, int(n), r3.Vec{})
		s, ok := segment(p)
		if !ok {
			t.Fatalf("%s: no gores", id)
		}
		d := develop(t, p)
		b := d.Blanks[0]
		c.check(t, "width", b.Width, c.out("max_width"))
		c.check(t, "crown", b.Forming.Crown, c.out("doming_sagitta_equator"))
		for i, latitude := range c.list("lat") {
			// The case goes to the point, ours ends blunt.
			along := s.Mean * latitude * math.Pi / 180
			c.check(t, "meridian", along, c.list("meridian_s")[i])
			c.check(t, "half width", s.width(along), c.list("half_width_arc")[i])
		}
		end := s.Mean * math.Pi / 2
		s.End = [2]float64{end, end}
		c.check(t, "length", 2*end, c.out("length"))
		c.check(t, "area", s.area(), c.out("gore_area"))
		c.check(t, "seams", n*2*s.seam(design.DomedGores, end), c.out("seam_total"))
		rolled, _ := segment(newBall(c.in("OD"), c.in("t"), design.RolledGores, int(n), r3.Vec{}))
		c.check(t, "polygonal half width", rolled.Half, c.out("half_width_polygonal_equator"))
	}
}

func TestWorkedCaps(t *testing.T) {
	c := loadCase(t, "C5")
	p := newBall(c.in("OD"), c.in("t"), design.DomedGores, int(c.in("n")), r3.Vec{})
	p.Ball.Caps = 2 * 149.25 * math.Sin(10*math.Pi/180)
	d := develop(t, p)
	c.check(t, "gore length", d.Blanks[0].Length, c.out("gore_length"))
	table := d.Blanks[0].Ordinates[0].Stations
	last := table[len(table)-1]
	c.check(t, "half width at trim", last.Ordinate, c.out("half_width_at_trim"))
	c.check(t, "cap", d.Blanks[1].Diameter/2, c.out("cap_equal_area_blank_radius"))
	s, _ := segment(p)
	c.check(t, "cap edge", s.CapEdge[0], c.out("cap_chord_radius"))
	c.check(t, "cap rise", s.CapRise[0], c.out("cap_rise"))

	c = loadCase(t, "C8")
	d = develop(t, newBall(300, 1.5, design.Halves, 0, r3.Vec{}))
	b := d.Blanks[0]
	c.check(t, "half", b.Diameter-2*b.Allowance, c.out("hemi_disc_dia"))
	if b.Quantity != 2 || b.Allowance != halfTrim {
		t.Errorf("C8: %d halves with %v left on, want 2 with %v", b.Quantity, b.Allowance, halfTrim)
	}
	p = newBall(2*c.out("cap_sphere_R")+1.5, 1.5, design.DomedGores, 12, r3.Vec{})
	p.Ball.Caps = 200
	d = develop(t, p)
	c.check(t, "cap", d.Blanks[1].Diameter, c.out("cap_disc_dia"))
}

func TestWorkedRolledGores(t *testing.T) {
	c := loadCase(t, "C6")
	p := newBall(300, 1.5, design.RolledGores, int(c.in("n")), r3.Vec{})
	s, _ := segment(p)
	c.check(t, "half width", s.Half, c.out("half_width_equator"))
	c.check(t, "ridge radius", math.Hypot(s.Mean, s.Half), c.out("ridge_radius_equator"))
	c.check(t, "seam", 2*s.seam(design.RolledGores, s.Mean*math.Pi/2), c.out("seam_3d"))
}

func TestWorkedBallMass(t *testing.T) {
	c := loadCase(t, "D2")
	d := develop(t, newBall(c.in("OD"), c.in("t"), design.Halves, 0, r3.Vec{}))
	c.check(t, "mass", d.Mass, c.out("midsurface_kg"))
}

// TestWorkedTwoPosts measures the least way over a ball between the toes of two
// posts that stand on it.
func TestWorkedTwoPosts(t *testing.T) {
	c := loadCase(t, "B11")
	vec := func(v any) r3.Vec {
		x := v.([]any)
		return r3.Vec{X: x[0].(float64), Y: x[1].(float64), Z: x[2].(float64)}
	}
	ball := newBall(2*c.in("R"), 1.5, design.Halves, 0, vec(c.Input["center"]))
	var toes [2][]r3.Vec
	var sum float64
	for i := range toes {
		wide := c.Input["OD"].([]any)[i].(float64)
		u := r3.Unit(r3.Sub(vec(c.Input["toward"].([]any)[i]), ball.Ball.Center))
		p := newPost(wide, c.in("t"), 400, r3.Add(ball.Ball.Center, r3.Scale(c.in("R"), u)), u)
		p.Post.Ends[design.Foot].Contact = onBall(ball)
		toes[i] = develop(t, p).Toes[0]
		sum += math.Asin(wide / 2 / c.in("R"))
	}
	least := math.Inf(1)
	for _, a := range toes[0] {
		for _, b := range toes[1] {
			cos := r3.Cos(r3.Sub(a, ball.Ball.Center), r3.Sub(b, ball.Ball.Center))
			least = min(least, c.in("R")*math.Acos(cos))
		}
	}
	c.check(t, "least angle", sum*180/math.Pi, c.out("min_angle_no_overlap_deg"))
	// The toes are polygons of some 96 points: at most half a step beside the
	// nearest, which comes to less than 0.05 mm in the gap.
	if want := c.out("surface_gap_mm"); least < want-1e-3 || least > want+Chord {
		t.Errorf("B11: a gap of %v, want %v", least, want)
	}
}
