package stock

import (
	_ "embed"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

//go:embed testdata/pipe-weights.txt
var pipeWeights string

// TestPipeTable holds every size of which the printed weight is at hand against it: a
// wall that stands in the wrong column shows, or is off by two thousandths of an inch. The
// formula of the older printing, 10.68 lb/ft for each in2, is taken; what the newer one's
// 10.69 is more and the rounding of the last figure are let pass.
func TestPipeTable(t *testing.T) {
	const pound, foot = 0.45359237, 0.3048
	seen := 0
	for line := range strings.Lines(pipeWeights) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		f := strings.Fields(line)
		want, err := strconv.ParseFloat(f[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		p, ok := PipeOf(nominal(f[0]), f[1])
		if !ok {
			t.Errorf("there is no NPS %s schedule %s", f[0], f[1])
			continue
		}
		seen++
		printed := 10.68 * (p.Outside - p.Wall) / inch * p.Wall / inch
		if math.Abs(printed-want) > 0.007+1.5e-3*want {
			t.Errorf("NPS %s schedule %s weighs %.3f lb/ft, printed %.2f", f[0], f[1], printed, want)
		}
		if by := p.Weight() / pound * foot; math.Abs(by/printed-1) > 1.2e-3 {
			t.Errorf("NPS %s schedule %s weighs %.3f lb/ft by 7850 kg/m3, %.3f by the formula", f[0], f[1], by, printed)
		}
	}
	if seen < 160 {
		t.Errorf("%d sizes were seen", seen)
	}
}

// TestPipeWalls checks that along a size the schedules get heavier but where the standard
// itself has them another way, and that stainless 40S and 80S are the standard and the extra
// strong wall.
func TestPipeWalls(t *testing.T) {
	numbers := []string{"5", "10", "20", "30", "40", "60", "80", "100", "120", "140", "160"}
	for i := range sizes {
		s := &sizes[i]
		last := 0.0
		for k, schedule := range wroughtSchedules {
			if !slices.Contains(numbers, schedule) || s.wrought[k] == 0 {
				continue
			}
			if s.wrought[k] <= last {
				t.Errorf("NPS %s schedule %s is no heavier than the one before", s.nps, schedule)
			}
			last = s.wrought[k]
		}
		for k, same := range map[int]string{2: "STD", 3: "XS"} {
			if p, ok := PipeOf(nominal(s.nps), same); s.stainless[k] > 0 && (!ok || math.Abs(p.Wall/inch-s.stainless[k]) > 1e-9) {
				t.Errorf("NPS %s schedule %s is not %s", s.nps, stainlessSchedules[k], same)
			}
		}
	}
	if n := nominal("1-1/4"); n != 1.25 {
		t.Errorf("1-1/4 is %v", n)
	}
	if p, _ := PipeOf(2, "10S"); p.Standard() != "ASME B36.19M" {
		t.Error(p.Standard())
	}
	if p, _ := PipeOf(2, "XXS"); p.Standard() != "ASME B36.10M" {
		t.Error(p.Standard())
	}
}
