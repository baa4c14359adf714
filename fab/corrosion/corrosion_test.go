package corrosion_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/corrosion"
	"stabile/fab/internal/worked"
)

// TestHoles holds the holes for dipping against worked case K41.
func TestHoles(t *testing.T) {
	var in struct {
		Tube []float64 `json:"tube_OD"`
		Ball float64   `json:"ball_OD"`
	}
	var out struct {
		Table   []float64 `json:"table_mm"`
		Quarter []float64 `json:"quarter_mm"`
		Volume  float64   `json:"ball_volume_m3"`
		Ball    float64   `json:"ball_quarter_mm"`
		Vessel  float64   `json:"vessel_rule_dia_mm"`
	}
	var check struct {
		Area  float64 `json:"area_two_holes_25"`
		Equal float64 `json:"two_holes_equal_to_one"`
	}
	worked.ReadCheck(t, "K41", &in, &out, &check)
	for i, od := range in.Tube {
		d, err := corrosion.TubeEnd.Holes(od, 1e6)
		require.NoError(t, err)
		if d.ByTable != out.Table[i] || d.ByQuarter != out.Quarter[i] || d.Diameter != max(out.Table[i], out.Quarter[i]) || d.Vents+d.Drains != 2 {
			t.Errorf("tube of %v: %+v", od, d)
		}
	}
	volume := math.Pi / 6 * math.Pow(in.Ball, 3)
	d, err := corrosion.Ball.Holes(in.Ball, volume)
	require.NoError(t, err)
	const digits = 5e-6
	if math.Abs(volume/1e9-out.Volume) > digits*out.Volume || d.ByQuarter != out.Ball || d.ByVessel != out.Vessel || d.Diameter != out.Vessel || d.Vents != 1 || d.Drains != 1 {
		t.Errorf("ball: %+v, want %+v", d, out)
	}
	if two := 2 * math.Pi / 4 * 25 * 25; math.Abs(two-check.Area) > digits*two {
		t.Errorf("two holes of 25: %v, want %v", two, check.Area)
	}
	if one := corrosion.Split(50, 2); math.Abs(one-check.Equal) > digits*one {
		t.Errorf("two for one of 50: %v, want %v", one, check.Equal)
	}
}

// TestHolesGrow: a larger hollow never needs less hole.
func TestHolesGrow(t *testing.T) {
	for _, h := range []corrosion.Hollow{corrosion.TubeEnd, corrosion.Ball} {
		was := 0.0
		for od := 10.0; od < 3000; od += 7 {
			d, err := h.Holes(od, math.Pi/6*od*od*od)
			require.NoError(t, err)
			area := float64(d.Vents) * d.Diameter * d.Diameter
			if area < was || d.Diameter < corrosion.LeastVent {
				t.Errorf("hollow %d of %v: %+v after %v", h, od, d, was)
			}
			was = area
		}
	}
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if d, err := corrosion.Ball.Holes(bad, 1e6); err == nil {
			t.Errorf("a ball of %v has %+v", bad, d)
		}
	}
	if d, err := corrosion.Hollow(7).Holes(100, 1e6); err == nil {
		t.Errorf("an unknown hollow has %+v", d)
	}
}

// TestPairs: each pair is in the table, the same in either order; copper eats zinc and
// aluminium by its run-off.
func TestPairs(t *testing.T) {
	for a := corrosion.Zinc; a <= corrosion.Copper; a++ {
		for b := corrosion.Zinc; b <= corrosion.Copper; b++ {
			p := corrosion.Pair(a, b)
			if p != corrosion.Pair(b, a) || p.Eaten != min(a, b) {
				t.Errorf("%d on %d: %+v", a, b, p)
			}
			if a == b && p.Contact != corrosion.Sound {
				t.Errorf("%d on itself: %+v", a, p)
			}
			if a < b && b == corrosion.Copper && a < corrosion.Carbon && !p.RunOff {
				t.Errorf("copper over %d: %+v", a, p)
			}
		}
	}
	for _, c := range []struct {
		a, b corrosion.Metal
		want corrosion.Contact
	}{
		{corrosion.Aluminium, corrosion.Carbon, corrosion.Isolate}, {corrosion.Aluminium, corrosion.Copper, corrosion.Never},
		{corrosion.Stainless, corrosion.Carbon, corrosion.Small}, {corrosion.Stainless, corrosion.Copper, corrosion.Sound},
		{corrosion.Weathering, corrosion.Zinc, corrosion.Isolate}, {corrosion.Zinc, corrosion.Aluminium, corrosion.Sound},
		{corrosion.Metal(99), corrosion.Zinc, corrosion.Never}, {corrosion.Zinc, corrosion.Metal(-1), corrosion.Never},
	} {
		if got := corrosion.Pair(c.a, c.b).Contact; got != c.want {
			t.Errorf("%d on %d: %v, want %v", c.a, c.b, got, c.want)
		}
	}
}

// A ball of 300 mm needs a vent and a drain of 50 mm, a tube of 60 mm one of 16 at each end.
func ExampleHollow_Holes() {
	ball, err := corrosion.Ball.Holes(300, 14.1e6)
	if err != nil {
		fmt.Println(err)
		return
	}
	tube, err := corrosion.TubeEnd.Holes(60, 2.6e6)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(ball.Diameter, tube.Diameter)
	// Output: 50 16
}
