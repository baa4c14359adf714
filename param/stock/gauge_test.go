package stock

import (
	"errors"
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"stabile/param/external"
)

// unitsTable returns what GNU units says of gauges first to last of one of its
// sheet gauge tables, in inches.
func unitsTable(t *testing.T, table string, first, last int) map[int]float64 {
	t.Helper()
	units := external.Tool(t, "units")
	var in strings.Builder
	for n := first; n <= last; n++ {
		fmt.Fprintf(&in, "%s(%d)\nin\n", table, n)
	}
	cmd := exec.Command(units, "--terse", "--quiet", "--digits", "12")
	cmd.Stdin = strings.NewReader(in.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("units: %v", err)
	}
	lines := strings.Fields(string(out))
	if len(lines) != last-first+1 {
		t.Fatalf("units gives %d numbers for gauges %d to %d: %s", len(lines), first, last, out)
	}
	inches := map[int]float64{}
	for i, l := range lines {
		x, err := strconv.ParseFloat(l, 64)
		if err != nil {
			t.Fatalf("units: %v", err)
		}
		inches[first+i] = x
	}
	return inches
}

func TestThicknessAgainstUnits(t *testing.T) {
	// half is half a unit of the fourth decimal of an inch, to which steel
	// sheet is listed; a hair more for the rounding of the test's own sums.
	const half, exact = 0.00005 + 1e-12, 1e-9
	for _, tt := range []struct {
		family Family
		table  string
		zinc   float64 // in, what the family adds to the table
		within float64 // in
	}{
		{Steel, "stdgauge", 0, half},
		// There is no galvanized table: it is bare sheet with 0.0037 in of
		// zinc and allowance, in lists that round each by itself.
		{Galvanized, "stdgauge", 0.0037, 0.0001},
		{Stainless, "plategauge", 0, exact},
		{Aluminium, "wiregauge", 0, exact},
		{Copper, "wiregauge", 0, exact},
	} {
		first, last := tt.family.Gauges()
		for n, in := range unitsTable(t, tt.table, first, last) {
			mm, err := tt.family.Thickness(n)
			if err != nil {
				t.Errorf("%s gauge %d: %v", tt.table, n, err)
				continue
			}
			if got, want := mm/25.4, in+tt.zinc; math.Abs(got-want) > tt.within {
				t.Errorf("family %d: Thickness(%d) = %.6f in, want %.6f in (%s)", tt.family, n, got, want, tt.table)
			}
		}
	}
}

// The published lists in inches: the Manufacturers' Standard, and galvanized
// sheet, of gauges 8 to 26.
func TestThicknessListed(t *testing.T) {
	for _, tt := range []struct {
		gauge            int
		steel, galvanize float64
	}{
		{8, .1644, .1681}, {9, .1495, .1532}, {10, .1345, .1382}, {11, .1196, .1233},
		{12, .1046, .1084}, {13, .0897, .0934}, {14, .0747, .0785}, {15, .0673, .0710},
		{16, .0598, .0635}, {17, .0538, .0575}, {18, .0478, .0516}, {19, .0418, .0456},
		{20, .0359, .0396}, {21, .0329, .0366}, {22, .0299, .0336}, {23, .0269, .0306},
		{24, .0239, .0276}, {25, .0209, .0247}, {26, .0179, .0217},
	} {
		for _, c := range []struct {
			family Family
			want   float64
		}{{Steel, tt.steel}, {Galvanized, tt.galvanize}} {
			mm, err := c.family.Thickness(tt.gauge)
			if err != nil || math.Abs(mm/25.4-c.want) > 1e-9 {
				t.Errorf("family %d: Thickness(%d) = %.5f in, %v, want %.4f in", c.family, tt.gauge, mm/25.4, err, c.want)
			}
		}
	}
}

func TestThicknessNoGauge(t *testing.T) {
	for _, tt := range []struct {
		family Family
		gauge  int
		near   [2]int
		said   string
	}{
		{Steel, 2, [2]int{3, 4}, "gauges 3 to 30, not 2: gauge 3 is 0.2391 in (6.073 mm), gauge 4 is 0.2242 in (5.695 mm)"},
		{Steel, 31, [2]int{29, 30}, "gauge 30 is 0.0120 in (0.305 mm)"},
		{Galvanized, 7, [2]int{8, 9}, "galvanized sheet table has gauges 8 to 30"},
		{Stainless, -4, [2]int{3, 4}, "US Standard of 1893"},
		{Aluminium, 1000, [2]int{29, 30}, "Brown & Sharpe"},
	} {
		mm, err := tt.family.Thickness(tt.gauge)
		var g *GaugeError
		if !errors.As(err, &g) || mm != 0 {
			t.Errorf("family %d: Thickness(%d) = %v, %v, want a GaugeError", tt.family, tt.gauge, mm, err)
			continue
		}
		if g.Near != tt.near || !strings.Contains(err.Error(), tt.said) {
			t.Errorf("family %d: Thickness(%d): %v (near %v), want %q (near %v)", tt.family, tt.gauge, err, g.Near, tt.said, tt.near)
		}
	}
}

func ExampleFamily_Thickness() {
	a, _ := LookupAlloy("low-carbon-steel")
	t, _ := a.Family.Thickness(18) // 2 lb/ft2 over 41.82 lb/ft2 for an inch: 0.0478 in
	fmt.Printf("%.4f mm\n", t)
	// Output: 1.2141 mm
}
