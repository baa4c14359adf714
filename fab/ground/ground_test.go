package ground_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/check"
	"stabile/fab/ground"
	"stabile/fab/internal/worked"
)

// digits is the relative error of a value printed to six significant digits.
const digits = 5.1e-6

func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

// bolt is that of worked case K33, and slab its concrete, whose one edge is on the right.
var (
	bolt = ground.Anchor{Diameter: 16, Stress: 157, Ultimate: 400, Yield: 240, Embedment: 100, Bearing: 300}
	slab = ground.Concrete{Strength: 25, Cracked: true, Depth: 150, Min: r2.Vec{X: -5000, Y: -5000}, Max: r2.Vec{X: 120, Y: 5000}}
	row  = []r2.Vec{{Y: -120}, {Y: 120}}
)

// TestAnchors holds ACI 318 and EN 1992-4 against worked case K33: a row of two in tension, along
// an edge, with shear toward it.
func TestAnchors(t *testing.T) {
	var in struct {
		Tension float64 `json:"N_ua_group"`
		Shear   float64 `json:"V_ua_group"`
	}
	var out struct {
		Area   float64 `json:"A_Nc"`
		One    float64 `json:"A_Nco"`
		Ed     float64 `json:"psi_ed"`
		Nb     float64 `json:"N_b"`
		Ncbg   float64 `json:"N_cbg"`
		Nsa    float64 `json:"N_sa_each"`
		Npn    float64 `json:"N_pn_each"`
		Vb     float64 `json:"V_b"`
		AVc    float64 `json:"A_Vc"`
		PsiH   float64 `json:"psi_h"`
		Vcbg   float64 `json:"V_cbg"`
		PhiN   float64
		PhiV   float64
		UseN   float64 `json:"use_N"`
		UseV   float64 `json:"use_V"`
		Both   float64 `json:"interaction_trilinear"`
		EN0    float64 `json:"EN_N0_Rkc"`
		EN     float64 `json:"EN_N_Rkc"`
		Design float64 `json:"EN_N_Rdc"`
	}
	worked.Read(t, "K33", &in, &out)
	p := ground.Loads{At: row, Tension: []float64{in.Tension / 2, in.Tension / 2}, Shear: r2.Vec{X: in.Shear}}
	h, err := ground.ACI(bolt, slab, p)
	require.NoError(t, err)
	require.True(t, h.EdgeNear)
	e, err := ground.EN(bolt, slab, p)
	require.NoError(t, err)
	for i, v := range [][2]float64{
		{h.Cone.Area, out.Area}, {h.Cone.One, out.One}, {h.Cone.Edge, out.Ed}, {h.Cone.Basic, out.Nb}, {h.Cone.Nominal, out.Ncbg},
		{h.Steel, 0.75 * out.Nsa}, {h.PullOut, 0.70 * out.Npn}, {h.Wedge.Basic, out.Vb}, {h.Wedge.Area, out.AVc}, {h.Wedge.Thin, out.PsiH},
		{h.Wedge.Nominal, out.Vcbg}, {h.Breakout, out.PhiN}, {h.Edge, out.PhiV}, {h.Tension, out.UseN}, {h.Shear, out.UseV}, {h.Interaction, out.Both},
		{e.Cone.Basic, out.EN0}, {e.Cone.Nominal, out.EN}, {e.Breakout, out.Design}, {h.Cone.Off, 1}, {h.Wedge.Side, 1}, {h.Wedge.Away, 120},
	} {
		if !near(v[0], v[1], digits) {
			t.Errorf("term %d: %v, want %v", i, v[0], v[1])
		}
	}
}

// TestConeArea holds the area of the cones against a raster of it, for groups of any shape
// beside edges.
func TestConeArea(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 18))
	for range 20 {
		c := ground.Concrete{Strength: 25, Depth: 300, Min: r2.Vec{X: -200, Y: -5000}, Max: r2.Vec{X: 5000, Y: 250 + 300*rng.Float64()}}
		var p ground.Loads
		for range 1 + rng.IntN(5) {
			p.At = append(p.At, r2.Vec{X: -150 + 400*rng.Float64(), Y: -150 + 300*rng.Float64()})
			p.Tension = append(p.Tension, 1000)
		}
		a := bolt
		a.Embedment = 60 + 100*rng.Float64()
		h, err := ground.ACI(a, c, p)
		require.NoError(t, err)
		const step = 1.0
		reach, area := 1.5*h.Cone.Embedment, 0.0
		for x := c.Min.X + step/2; x < 700; x += step {
			for y := -700 + step/2; y < c.Max.Y; y += step {
				for _, q := range p.At {
					if math.Abs(x-q.X) < reach && math.Abs(y-q.Y) < reach {
						area += step * step
						break
					}
				}
			}
		}
		if !near(h.Cone.Area, area, 0.01) {
			t.Errorf("%v: %v, by raster %v", p.At, h.Cone.Area, area)
		}
	}
}

// TestACIByPounds holds the breakouts against the constants in pounds and inches: 24 sqrt(f'c)
// h_ef^1.5 and 9 sqrt(f'c) c_a1^1.5, 0.5 and 3.3 % from those in SI (the check of K33).
func TestACIByPounds(t *testing.T) {
	var check struct {
		Nb float64 `json:"N_b_US_constants"`
		Vb float64 `json:"V_b_US_constants"`
	}
	worked.ReadCheck(t, "K33", nil, nil, &check)
	h, err := ground.ACI(bolt, slab, ground.Loads{At: row, Tension: []float64{1, 1}, Shear: r2.Vec{X: 1}})
	require.NoError(t, err)
	if !near(h.Cone.Basic, check.Nb, 0.005) || !near(h.Wedge.Basic, check.Vb, 0.033) {
		t.Errorf("%v and %v, in pounds %+v", h.Cone.Basic, h.Wedge.Basic, check)
	}
}

// TestAnchorCases: what each thing does, by hand.
func TestAnchorCases(t *testing.T) {
	wide := ground.Concrete{Strength: 25, Cracked: true, Depth: 300}
	one := ground.Loads{At: []r2.Vec{{}}, Tension: []float64{1000}, Shear: r2.Vec{X: 500}}
	h, err := ground.ACI(bolt, wide, one)
	require.NoError(t, err)
	if h.EdgeNear || h.Cone.Area != h.Cone.One || h.Sharing != 1 || !near(h.ShearSteel, 0.65*0.6*157*400, 1e-12) || !near(h.PryOut, 2*0.7*50000, 1e-12) {
		t.Errorf("one anchor far from edges: %+v", h)
	}
	// On grout, without cracks, by a hook, in a drilled hole.
	whole := wide
	whole.Cracked, whole.Grout = false, true
	w, err := ground.ACI(bolt, whole, one)
	require.NoError(t, err)
	if !near(w.Breakout, 1.25*h.Breakout, 1e-12) || !near(w.PullOut, 1.4*h.PullOut, 1e-12) || !near(w.ShearSteel, 0.8*h.ShearSteel, 1e-12) {
		t.Errorf("without cracks, on grout: %+v", w)
	}
	hook := bolt
	hook.Kind, hook.Hook = ground.Hooked, 64
	k, err := ground.ACI(hook, wide, one)
	require.NoError(t, err)
	hook.Hook = 40
	short, err := ground.ACI(hook, wide, one)
	require.NoError(t, err)
	if !near(k.PullOut, 0.7*0.9*25*64*16, 1e-12) || short.PullOut != 0 || short.Interaction != check.Never {
		t.Errorf("hooks: %+v and %+v", k, short)
	}
	drilled := bolt
	drilled.Kind = ground.PostInstalled
	d, err := ground.ACI(drilled, wide, one)
	require.NoError(t, err)
	if !d.PullOutOpen || !near(d.Breakout, 0.7*h.Breakout, 1e-12) {
		t.Errorf("drilled: %+v", d)
	}
	// All pull on one of two anchors: one cone, as if the other were not there.
	off, err := ground.ACI(bolt, wide, ground.Loads{At: row, Tension: []float64{1000, 0}})
	require.NoError(t, err)
	if off.Cone.Anchors != 1 || !near(off.Breakout, h.Breakout, 1e-12) {
		t.Errorf("one of two: %+v", off)
	}
	// Three to one: e = 60 of a spacing of 240: 1 / (1 + 2 x 60 / 300).
	uneven, err := ground.ACI(bolt, wide, ground.Loads{At: row, Tension: []float64{3000, 1000}})
	require.NoError(t, err)
	if !near(uneven.Cone.Off, 1/1.4, 1e-12) {
		t.Errorf("three to one: %+v", uneven.Cone)
	}
	// Shear along an edge counts half.
	along, err := ground.ACI(bolt, slab, ground.Loads{At: row, Tension: []float64{0, 0}, Shear: r2.Vec{Y: 4000}})
	require.NoError(t, err)
	toward, err := ground.ACI(bolt, slab, ground.Loads{At: row, Tension: []float64{0, 0}, Shear: r2.Vec{X: 2000}})
	require.NoError(t, err)
	away, err := ground.ACI(bolt, slab, ground.Loads{At: row, Tension: []float64{0, 0}, Shear: r2.Vec{X: -2000}})
	require.NoError(t, err)
	if !near(along.EdgeUse, toward.EdgeUse, 1e-12) || away.EdgeUse != 0 {
		t.Errorf("along %v, toward %v, away %v", along.EdgeUse, toward.EdgeUse, away.EdgeUse)
	}
}

// TestAnchorErrors: what is no group of anchors is an error.
func TestAnchorErrors(t *testing.T) {
	good := ground.Loads{At: row, Tension: []float64{1, 1}}
	for name, try := range map[string]func() error{
		"none": func() error { _, err := ground.ACI(bolt, slab, ground.Loads{}); return err },
		"outside": func() error {
			_, err := ground.ACI(bolt, slab, ground.Loads{At: []r2.Vec{{X: 130}}, Tension: []float64{1}})
			return err
		},
		"one short": func() error {
			_, err := ground.ACI(bolt, slab, ground.Loads{At: row, Tension: []float64{1}})
			return err
		},
		"too deep":   func() error { a := bolt; a.Embedment = 150; _, err := ground.EN(a, slab, good); return err },
		"no yield":   func() error { a := bolt; a.Yield = 0; _, err := ground.ACI(a, slab, good); return err },
		"nan":        func() error { c := slab; c.Strength = math.NaN(); _, err := ground.ACI(bolt, c, good); return err },
		"kind":       func() error { a := bolt; a.Kind = 9; _, err := ground.ACI(a, slab, good); return err },
		"hook by EN": func() error { a := bolt; a.Kind = ground.Hooked; _, err := ground.EN(a, slab, good); return err },
	} {
		if try() == nil {
			t.Errorf("%s passes", name)
		}
	}
}

// group returns anchors of any kind in any block of concrete.
func group(rng *rand.Rand) (ground.Anchor, ground.Concrete, ground.Loads) {
	a := bolt
	a.Kind = ground.Kind(rng.IntN(2) * 2)
	a.Embedment = 50 + 150*rng.Float64()
	c := ground.Concrete{Strength: 15 + 30*rng.Float64(), Cracked: rng.IntN(2) == 0, Depth: 220 + 300*rng.Float64()}
	if rng.IntN(3) > 0 {
		c.Min = r2.Vec{X: -150 - 400*rng.Float64(), Y: -150 - 400*rng.Float64()}
		c.Max = r2.Vec{X: 150 + 400*rng.Float64(), Y: 150 + 400*rng.Float64()}
	}
	p := ground.Loads{Shear: r2.Vec{X: 5000 * rng.NormFloat64(), Y: 5000 * rng.NormFloat64()}}
	s := 40 + 80*rng.Float64()
	for _, q := range []r2.Vec{{X: s, Y: s}, {X: -s, Y: s}, {X: -s, Y: -s}, {X: s, Y: -s}} {
		p.At, p.Tension = append(p.At, q), append(p.Tension, 8000*rng.NormFloat64())
	}
	return a, c, p
}

// TestAnchorsMonotone: more load is never less use; stronger concrete, a deeper block or farther
// edges never more.
func TestAnchorsMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 20))
	for name, hold := range map[string]func(ground.Anchor, ground.Concrete, ground.Loads) (ground.Hold, error){"ACI": ground.ACI, "EN": ground.EN} {
		for range 2000 {
			a, c, p := group(rng)
			was, err := hold(a, c, p)
			require.NoError(t, err)
			more := p
			more.Shear = r2.Scale(1.2, p.Shear)
			more.Tension = nil
			for _, n := range p.Tension {
				more.Tension = append(more.Tension, 1.2*n)
			}
			strong := c
			strong.Strength *= 1.2
			for what, pair := range map[string][2]func() (ground.Hold, error){
				"load":     {func() (ground.Hold, error) { return hold(a, c, p) }, func() (ground.Hold, error) { return hold(a, c, more) }},
				"concrete": {func() (ground.Hold, error) { return hold(a, strong, p) }, func() (ground.Hold, error) { return hold(a, c, p) }},
			} {
				low, err := pair[0]()
				require.NoError(t, err)
				high, err := pair[1]()
				require.NoError(t, err)
				if high.Interaction < low.Interaction*(1-1e-9) || high.Tension < low.Tension*(1-1e-9) || high.Shear < low.Shear*(1-1e-9) {
					t.Errorf("%s, %s: %+v after %+v", name, what, high, low)
				}
			}
			if was.Interaction < max(was.Tension, was.Shear) {
				t.Errorf("%s: together %v under %v and %v", name, was.Interaction, was.Tension, was.Shear)
			}
		}
	}
}

// TestFooting holds pressure and overturning against worked cases K34 and K35, whose g is 9.81:
// a pressure and a factor are 0.03 % off for that.
func TestFooting(t *testing.T) {
	for _, id := range []string{"K34", "K35"} {
		var in struct {
			P     float64 `json:"P_N"`
			M     float64 `json:"M_Nm"`
			H     float64 `json:"H_N"`
			B     float64 `json:"B_m"`
			L     float64 `json:"L_m"`
			Deep  float64 `json:"h_m"`
			Allow float64 `json:"q_allow_kPa"`
		}
		var out struct {
			W       float64 `json:"W_N"`
			M       float64 `json:"M_base"`
			E       float64 `json:"e_m"`
			Kern    float64 `json:"kern_m"`
			Contact float64 `json:"contact_m"`
			Q       float64 `json:"q_max_kPa"`
			Factor  float64 `json:"stab_ratio"`
			Use     float64 `json:"use_bearing"`
		}
		worked.Read(t, id, &in, &out)
		f := ground.Footing{Length: 1e3 * in.B, Width: 1e3 * in.L, Depth: 1e3 * in.Deep}
		p, err := f.Press(ground.Soil{Bearing: in.Allow}, in.P, in.H, 1e3*in.M)
		require.NoError(t, err)
		const gravity = 3.5e-4
		for i, v := range []struct{ got, want, tolerance float64 }{
			{p.Weight, out.W, gravity}, {p.Moment / 1e3, out.M, digits}, {p.Off / 1e3, out.E, gravity}, {p.Kern / 1e3, out.Kern, digits},
			{p.Contact / 1e3, out.Contact, gravity}, {p.Pressure, out.Q, 2 * gravity}, {p.Factor, out.Factor, gravity}, {p.Bearing, out.Use, 2 * gravity},
		} {
			if !near(v.got, v.want, v.tolerance) {
				t.Errorf("%s, term %d: %v, want %v", id, i, v.got, v.want)
			}
		}
	}
}

// TestPressure holds the pressure against its own balance: what it adds up to is the weight, and
// about the middle the moment; it is the same from either side of the kern, and there is none
// where it tips.
func TestPressure(t *testing.T) {
	f := ground.Footing{Length: 800, Width: 500, Depth: 300}
	soil := ground.Soil{Bearing: 100, Friction: 0.3}
	whole := f.Weight() + 1000
	for _, e := range []float64{0, 50, 800. / 6 * (1 - 1e-9), 800. / 6 * (1 + 1e-9), 200, 350, 399} {
		p, err := f.Press(soil, 1000, 0, whole*e)
		require.NoError(t, err)
		force, moment := 0.0, 0.0
		const parts = 200000
		for i := range parts {
			x := f.Length * (float64(i) + 0.5) / parts // from the edge that presses most
			q := p.Pressure * (1 - x/p.Contact)
			if e <= p.Kern {
				q = p.Pressure + (2*whole/(f.Length*f.Width)*1e3-2*p.Pressure)*x/f.Length
			}
			force += max(0, q) / 1e3 * f.Width * f.Length / parts
			moment += max(0, q) / 1e3 * f.Width * f.Length / parts * (f.Length/2 - x)
		}
		if !near(force, whole, 1e-5) || math.Abs(moment-whole*e) > 1e-5*whole*f.Length {
			t.Errorf("e %v: %+v adds up to %v and %v, want %v and %v", e, p, force, moment, whole, whole*e)
		}
	}
	p, err := f.Press(soil, 1000, 0, whole*401)
	require.NoError(t, err)
	if !p.Tips || p.Bearing != check.Never || p.TippingUse < 2 {
		t.Errorf("past its edge: %+v", p)
	}
	p, err = f.Press(soil, 1000, 0.3*whole/1.5, 0)
	require.NoError(t, err)
	if !near(p.Sliding, 1, 1e-12) {
		t.Errorf("at the limit of sliding: %+v", p)
	}
	if clay, err := f.Press(ground.Soils[4], 0, 100, 0); err != nil || !clay.SlidingOpen || clay.Sliding != 0 {
		t.Errorf("on clay: %+v, %v", clay, err)
	}
}

// TestPost holds a post in the ground against worked case K36, in pounds and feet.
func TestPost(t *testing.T) {
	var in struct {
		P float64 `json:"P_lb"`
		H float64 `json:"h_ft"`
		B float64 `json:"b_ft"`
	}
	var out struct {
		D    float64 `json:"d_m"`
		Held float64 `json:"d_constrained_ft"`
	}
	worked.Read(t, "K36", &in, &out)
	sand := ground.Soils[3]
	const foot, pound = 304.8, 4.4482216152605
	s := ground.Set{Width: foot * in.B}
	d, err := s.Depth(sand, pound*in.P, foot*in.H)
	require.NoError(t, err)
	s.Held = true
	held, err := s.Depth(sand, pound*in.P, foot*in.H)
	require.NoError(t, err)
	if !near(d/1e3, out.D, digits) || !near(held/foot, out.Held, digits) {
		t.Errorf("%v and %v, want %+v", d, held, out)
	}
	// The cubic by hand: d3 = 7.02 P (d + 1.09 h) / (s b), and of a held one d3 = 4.25 P h / (s b).
	grow := sand.Lateral * 1e-6 * foot * in.B
	if want := 7.02 * pound * in.P * (d + 1.09*foot*in.H) / grow; !near(d*d*d, want, 1e-8) {
		t.Errorf("d3 is %v, want %v", d*d*d, want)
	}
	// Twice the lateral value: as half the force.
	twice, err := ground.Set{Width: foot, Isolated: true}.Depth(sand, 200, 1000)
	require.NoError(t, err)
	half, err := ground.Set{Width: foot}.Depth(sand, 100, 1000)
	require.NoError(t, err)
	if !near(twice, half, 1e-8) {
		t.Errorf("isolated %v, want %v", twice, half)
	}
	if _, err := s.Depth(ground.Soil{Bearing: 100}, 1, 1); err == nil {
		t.Error("a soil without a lateral value passes")
	}
}

// TestPostMonotone: more force or a higher one never needs less depth, wider concrete never more.
func TestPostMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	for range 1000 {
		s := ground.Set{Width: 100 + 500*rng.Float64(), Held: rng.IntN(2) == 0}
		soil, force, height := ground.Soils[rng.IntN(5)], 10*math.Exp(9*rng.Float64()), 5000*rng.Float64()
		was, err := s.Depth(soil, force, height)
		require.NoError(t, err)
		more, err := s.Depth(soil, 1.1*force, height)
		require.NoError(t, err)
		higher, err := s.Depth(soil, force, height+100)
		require.NoError(t, err)
		s.Width *= 1.1
		wider, err := s.Depth(soil, force, height)
		require.NoError(t, err)
		if more < was || higher < was || wider > was {
			t.Errorf("%+v: %v, more %v, higher %v, wider %v", s, was, more, higher, wider)
		}
	}
}

// FuzzGround: nothing gives a number that is not one.
func FuzzGround(f *testing.F) {
	f.Add(16., 157., 400., 100., 25., 150., 120., 1000., 500., uint8(0))
	f.Add(1e-3, 1e-3, 1e7, 1e-3, 1e-3, 1e6, 1e6, 1e15, -1e15, uint8(7))
	f.Fuzz(func(t *testing.T, d, area, strength, depth, fc, deep, edge, n, v float64, bits uint8) {
		a := ground.Anchor{Kind: ground.Kind(bits % 3), Diameter: d, Stress: area, Ultimate: strength, Yield: fc, Embedment: depth, Bearing: area, Hook: d}
		c := ground.Concrete{Strength: fc, Cracked: bits&4 != 0, Depth: deep, Grout: bits&8 != 0}
		if bits&16 != 0 {
			c.Min, c.Max = r2.Vec{X: -edge, Y: -edge}, r2.Vec{X: edge, Y: 2 * edge}
		}
		p := ground.Loads{At: []r2.Vec{{X: d}, {X: -d}, {Y: edge / 2}}, Tension: []float64{n, v, 0}, Shear: r2.Vec{X: v, Y: n}}
		if h, err := ground.ACI(a, c, p); err == nil {
			worked.Finite(t, h)
		}
		if h, err := ground.EN(a, c, p); err == nil {
			worked.Finite(t, h)
		}
		if p, err := (ground.Footing{Length: d, Width: depth, Depth: deep}).Press(ground.Soil{Bearing: fc, Friction: edge}, n, v, strength); err == nil {
			worked.Finite(t, p)
		}
		if x, err := (ground.Set{Width: d, Held: bits&1 != 0}).Depth(ground.Soil{Lateral: fc}, n, edge); err == nil {
			worked.Finite(t, x)
		}
	})
}

// A block of 600 x 600 x 300 mm weighs 2542 N; with 300 N on it, 250 N m and 200 N it is 310 N m
// at its underside: 2842 x 0.3 / 310 = 2.75 against tipping, pressing past the kern of 100 mm.
func ExampleFooting_Press() {
	p, err := ground.Footing{Length: 600, Width: 600, Depth: 300}.Press(ground.Soils[4], 300, 200, 250e3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("factor %.2f, e %.0f mm, %.1f kPa\n", p.Factor, p.Off, p.Pressure)
	// Output: factor 2.75, e 109 mm, 16.5 kPa
}

// Two headed anchors of 16 mm, 100 mm deep, 120 mm from an edge and 240 mm apart: cones of 270
// x 540 mm over 300 x 300, 0.94 for the edge, 50 kN each: 76 kN, x 0.70.
func ExampleACI() {
	h, err := ground.ACI(bolt, slab, ground.Loads{At: row, Tension: []float64{7500, 7500}, Shear: r2.Vec{X: 4000}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kN, use %.2f\n", h.Breakout/1e3, h.Interaction)
	// Output: 53.3 kN, use 0.28
}
