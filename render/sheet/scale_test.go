package sheet

import (
	"fmt"
	"math"
	"testing"

	"stabile/param/quantity"
)

func TestChooseScale(t *testing.T) {
	const mm, in = quantity.Millimetre, quantity.Inch
	for _, tt := range []struct {
		w, h, areaWidth, areaHeight float64
		system                      quantity.System
		want                        string
	}{
		{100, 100, 200, 200, mm, "2:1"},
		{100, 100, 199, 300, mm, "1:1"},
		{200, 100, 200, 200, mm, "1:1"},
		{200.1, 100, 200, 200, mm, "1:2"},
		{100, 900, 300, 200, mm, "1:5"},
		{1800, 1000, 300, 200, mm, "1:10"},
		{1800, 2500, 300, 200, mm, "1:20"},
		{12000, 100, 300, 200, mm, "1:50"},
		{25000, 100, 300, 200, mm, "1:100"},
		{1800, 2500, 300, 200, in, "1:16"},
		{900, 700, 300, 200, in, "1:4"},
		{5, 5, 300, 200, in, "8:1"},
		{5, 5, 300, 200, mm, "10:1"},
		{0, 0, 300, 200, mm, "10:1"},
		{0, 100, 300, 200, mm, "2:1"},
	} {
		got := ChooseScale(tt.w, tt.h, tt.areaWidth, tt.areaHeight, tt.system)
		if got.Name != tt.want {
			t.Errorf("ChooseScale(%v, %v, %v, %v, %v) = %v, want %v", tt.w, tt.h, tt.areaWidth, tt.areaHeight, tt.system, got, tt.want)
		}
		var over, under float64
		if _, err := fmt.Sscanf(got.Name, "%f:%f", &over, &under); err != nil || math.Abs(got.Factor-over/under) > 1e-15 {
			t.Errorf("scale %s has the factor %v", got.Name, got.Factor)
		}
	}
}

// There is an answer even where there is no room.
func TestChooseScaleNoRoom(t *testing.T) {
	for _, area := range []float64{0, -5, math.NaN()} {
		for _, system := range []quantity.System{quantity.Millimetre, quantity.Inch} {
			if got := ChooseScale(100, 100, area, area, system); !(got.Factor > 0) || math.IsInf(got.Factor, 0) {
				t.Errorf("ChooseScale into %v = %v", area, got)
			}
		}
	}
}

func ExampleChooseScale() {
	// A piece 72 in high and 40 in wide, in an area of 230 x 190 mm.
	s := ChooseScale(40*25.4, 72*25.4, 230, 190, quantity.Inch)
	fmt.Println(s.Name, s.Factor)
	// Output: 1:12 0.08333333333333333
}
