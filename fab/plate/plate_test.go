package plate_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/internal/worked"
	"stabile/fab/plate"
)

// digits is the relative error of a value printed to six significant digits.
const digits = 5.1e-6

func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

// TestAnnulus holds the round plate against worked case K13, which agrees with Roark's table
// within 0.6 % and with radial elements to 2e-5.
func TestAnnulus(t *testing.T) {
	var out struct {
		Rows [][5]float64 `json:"rows_ba_alphaSS_betaSS_alphaFix_betaFix"`
	}
	worked.Read(t, "K13", nil, &out)
	require.Len(t, out.Rows, 7)
	for _, row := range out.Rows {
		alpha, beta, err := plate.Annulus(row[0], false)
		require.NoError(t, err)
		alphaFix, betaFix, err := plate.Annulus(row[0], true)
		require.NoError(t, err)
		for i, got := range []float64{alpha, beta, alphaFix, betaFix} {
			if !near(got, row[i+1], digits) {
				t.Errorf("b/a %v, term %d: %v, want %v", row[0], i, got, row[i+1])
			}
		}
	}
	if _, _, err := plate.Annulus(1, false); err == nil {
		t.Error("a post as wide as its plate passes")
	}
}

// TestLoose holds the loose plate within 2 % of worked case K16.
func TestLoose(t *testing.T) {
	var in struct {
		Share []float64 `json:"M_fraction"`
	}
	var out struct {
		K []float64 `json:"k_secant"`
	}
	worked.Read(t, "K16", &in, &out)
	was := math.Inf(1)
	for i, share := range in.Share {
		g, err := plate.Loose(10, 200e3, share)
		require.NoError(t, err)
		if !near(g.K, out.K[i], 0.02) || g.K > was {
			t.Errorf("at %v: %v, want %v", share, g.K, out.K[i])
		}
		was = g.K
	}
}

// TestCorner holds the corner against worked case K17, and against a scan of lines at other
// angles through the same point of the diagonal, none of which is shorter.
func TestCorner(t *testing.T) {
	var in struct {
		T     float64 `json:"T_N"`
		E     float64 `json:"e_anchor_to_post_face"`
		Inset float64 `json:"anchor_inset"`
		Fy    float64
	}
	var out struct {
		Length float64 `json:"line_length"`
		Moment float64 `json:"m_demand_N"`
		Needed float64 `json:"t_required"`
	}
	worked.Read(t, "K17", &in, &out)
	l, err := plate.Corner(in.T, in.E, in.Inset, 0, 5, in.Fy)
	require.NoError(t, err)
	if !near(l.Length, out.Length, digits) || !near(l.Moment, out.Moment, digits) || !near(l.Needed, out.Needed, digits) || !near(l.Use, math.Pow(out.Needed/5, 2), 2*digits) {
		t.Errorf("%+v, want %+v", l, out)
	}
	for angle := 0.05; angle < math.Pi/2; angle += 0.01 {
		// A line through the point of the diagonal at a distance from the corner; its
		// length over its distance from the anchor is least at 45 degrees.
		far := in.E + math.Sqrt2*in.Inset
		sin, cos := math.Sincos(angle)
		out := far / math.Sqrt2 * (sin + cos) // how far the line is from the corner
		length := out/sin*cos + out/cos*sin
		arm := out - in.Inset*(sin+cos)
		if length/arm < l.Length/in.E*(1-1e-9) {
			t.Errorf("at %v the line is %v, arm %v", angle, length, arm)
		}
	}
	if cut, err := plate.Corner(in.T, in.E, in.Inset, 100, 5, in.Fy); err != nil || cut.Length != 100 || cut.Use < l.Use {
		t.Errorf("cut short: %+v, %v", cut, err)
	}
}

// TestBetween: 60 N m on a strip of 48 + 30 + 50 = 128 mm is 469 N, and 10 mm of 250 MPa carry
// 25000 / 6.68 = 3743.
func TestBetween(t *testing.T) {
	l, err := plate.Between(60e3, 48, 30, 50, 400, 10, 250)
	require.NoError(t, err)
	if l.Length != 128 || !near(l.Moment, 468.75, 1e-12) || !near(l.Allowed, 3742.515, 1e-6) || !near(l.Use, 0.12525, 1e-5) {
		t.Errorf("%+v", l)
	}
	if l, _ := plate.Between(60e3, 48, 300, 500, 400, 10, 250); l.Length != 400 {
		t.Errorf("wider than the plate: %+v", l)
	}
}

// FuzzPlate: nothing gives a number that is not one.
func FuzzPlate(f *testing.F) {
	f.Add(400., 10., 20., 30., 200e3, 0.2)
	f.Add(1e6, 1e6, 0., 1e-3, 1e7, 0.95)
	f.Add(1e-3, 1e-3, 1e-4, 1e-4, 1e-3, 1e-4)
	f.Fuzz(func(t *testing.T, side, thick, inset, radius, modulus, ratio float64) {
		if alpha, beta, err := plate.Annulus(ratio, side > thick); err == nil {
			worked.Finite(t, [2]float64{alpha, beta})
		}
		if g, err := plate.Loose(thick, modulus, ratio); err == nil {
			worked.Finite(t, g)
		}
		if l, err := plate.Corner(side, radius, inset, side, thick, modulus); err == nil {
			worked.Finite(t, l)
		}
		if l, err := plate.Between(side, radius, inset, inset, side, thick, modulus); err == nil {
			worked.Finite(t, l)
		}
	})
}

// A plate of 400 x 400 x 10 mm on four anchors 25 mm in, under a post of 50 mm: the table of worked
// case K14 has 0.536 x 200000 x 1000 = 1.07e8 N mm for each rad; solid bricks about 1.15e8.
func ExamplePlate_Springs() {
	box := func(x float64) []r2.Vec { return []r2.Vec{{X: -x, Y: -x}, {X: x, Y: -x}, {X: x, Y: x}, {X: -x, Y: x}} }
	s, err := plate.Plate{Outline: box(200), Anchors: box(175), Posts: []plate.Post{{Radius: 25}}, Thickness: 10, Modulus: 200e3}.Springs()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f kN m/rad\n", s[0].Rotational[0]/1e6)
	// Output: 111 kN m/rad
}
