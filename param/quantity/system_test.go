package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
)

func TestFraction(t *testing.T) {
	for _, tt := range []struct {
		x    float64
		den  int
		want string
	}{
		{5.25, 16, "5-1/4"},
		{0.375, 16, "3/8"},
		{12, 16, "12"},
		{-0.5, 16, "-1/2"},
		{-1.5, 16, "-1-1/2"},
		{0, 16, "0"},
		{-0.01, 16, "0"},
		{0.03125, 16, "1/16"}, // halfway goes up
		{0.03124, 16, "0"},
		{0.03125, 32, "1/32"},
		{11.97, 16, "12"}, // carries into the whole
		{11.96, 16, "11-15/16"},
		{3, 1, "3"},
		{2.6, 1, "3"},
		{1e17, 16, "100000000000000000"},
	} {
		if got := Fraction(tt.x, tt.den); got != tt.want {
			t.Errorf("Fraction(%v, %d) = %q, want %q", tt.x, tt.den, got, tt.want)
		}
	}
}

// readFraction reads back what Fraction writes, and checks that it is in lowest
// terms.
func readFraction(t *testing.T, s string) float64 {
	t.Helper()
	sign, rest := 1.0, s
	if strings.HasPrefix(rest, "-") {
		sign, rest = -1, rest[1:]
	}
	var whole, over, under int
	switch {
	case strings.Contains(rest, "-"):
		if _, err := fmt.Sscanf(rest, "%d-%d/%d", &whole, &over, &under); err != nil {
			t.Fatalf("%q: %v", s, err)
		}
	case strings.Contains(rest, "/"):
		if _, err := fmt.Sscanf(rest, "%d/%d", &over, &under); err != nil {
			t.Fatalf("%q: %v", s, err)
		}
	default:
		f, err := strconv.ParseFloat(rest, 64)
		if err != nil {
			t.Fatalf("%q: %v", s, err)
		}
		return sign * f
	}
	if over%2 == 0 || over >= under {
		t.Errorf("%q is not in lowest terms", s)
	}
	return sign * (float64(whole) + float64(over)/float64(under))
}

func FuzzFraction(f *testing.F) {
	for _, x := range []float64{0, 1.03125, -7.3, 1e15, 4.9e-324, math.MaxFloat64} {
		f.Add(x)
	}
	f.Fuzz(func(t *testing.T, x float64) {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return
		}
		for _, den := range []int{1, 2, 16, 32, 64} {
			s := Fraction(x, den)
			back := readFraction(t, s)
			step := 1 / float64(den)
			if math.Abs(x) >= maxWhole*step {
				step = 1
			}
			// Half a step, and half a unit in the last place of x.
			if math.Abs(back-x) > step/2+math.Abs(x)*0x1p-53 {
				t.Errorf("Fraction(%v, %d) = %q, which is %v", x, den, s, back)
			}
		}
	})
}

func TestSystem(t *testing.T) {
	for _, tt := range []struct{ got, want string }{
		{Inch.Length(133.35, Coarse), "5-1/4 in"},
		{Inch.Length(25.4/32, Coarse), "1/16 in"},
		{Inch.Length(25.4/32, Fine), "1/32 in"},
		{Inch.Rule(304.8, Coarse), "12"},
		{Millimetre.Length(133.35, Coarse), "133.5 mm"},
		{Millimetre.Length(133.2, Coarse), "133 mm"},
		{Millimetre.Length(133.25, Fine), "133.2 mm"},
		{Millimetre.Rule(-0.01, Fine), "0"},
		{Inch.Exact(133.35), "5.25 in"},
		{Millimetre.Exact(133.354), "133.35 mm"},
		{Inch.Weight(0.45359237), "1.00 lb"},
		{Millimetre.Weight(12.34), "12.3 kg"},
		{Millimetre.Weight(0.014), "0.01 kg"},
		{Millimetre.Weight(1234.5), "1234 kg"},
		{Inch.Force(222.411080763025), "50.0 lbf"},
		{Millimetre.Force(222.4), "222 N"},
		{Inch.Moment(1355.8179483), "1.00 ft lbf"},
		{Millimetre.Moment(79260), "79.3 N m"},
		{Bearing(0), "0 deg"},
		{Bearing(-math.Pi / 2), "270 deg"},
		{Bearing(2 * math.Pi), "0 deg"},
		{Bearing(-1e-9), "0 deg"},
		{Bearing(5 * math.Pi), "180 deg"},
		{Degrees(-0.1), "-5.7 deg"},
		{Decimal(-0.001, 2), "0"},
		{Decimal(1.50, 2), "1.5"},
		{Decimal(100, 0), "100"},
		{Inch.String(), "inch"},
		{Millimetre.String(), "mm"},
		{NoSystem.String(), "none"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
	for s, want := range map[System]string{Inch: "in", Millimetre: "mm", NoSystem: ""} {
		u, ok := s.Unit()
		if u.Name != want || ok != (want != "") {
			t.Errorf("%v.Unit() = %v, %v, want %q", s, u, ok, want)
		}
	}
}

func ExampleSystem_Length() {
	const mm = 107.95
	fmt.Println(Inch.Length(mm, Coarse))
	fmt.Println(Millimetre.Length(mm, Coarse))
	// Output:
	// 4-1/4 in
	// 108 mm
}

func ExampleFraction() {
	fmt.Println(Fraction(5.26, 16), Fraction(5.26, 32), Fraction(-0.5, 16))
	// Output: 5-1/4 5-1/4 -1/2
}

// TestLoads checks speeds, pressures and stresses against GNU units: 1 mph =
// 0.44704 m/s, 1 lbf/ft2 = 47.8803 Pa, 1 ksi = 6.89476 MPa.
func TestLoads(t *testing.T) {
	for _, tt := range []struct{ got, want string }{
		{Inch.Speed(44.704), "100 mph"},
		{Millimetre.Speed(26.04), "26 m/s"},
		{Inch.Pressure(16 * 47.88025898), "16.0 lbf/ft2"},
		{Millimetre.Pressure(766.08), "766 Pa"},
		{Inch.Stress(36 * 6.894757293), "36.0 ksi"},
		{Millimetre.Stress(250.04), "250 MPa"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}
