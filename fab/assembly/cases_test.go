package assembly_test

import (
	"math"
	"testing"

	"stabile/fab/assembly"
	"stabile/fab/internal/worked"
)

// sixFigures is the precision of the worked cases, which have six figures.
const sixFigures = 1e-5

// TestWeldLengths holds the welds of four balls of twelve domed gores and three
// posts on a plate against worked case J2. The case carries the gores to a point
// at the poles; ours are cut blunt at 3 mm, so that a seam is shorter there by the
// meridian on which half a gore is narrower than 1.5 mm.
func TestWeldLengths(t *testing.T) {
	var want struct {
		Gores   map[string]float64 `json:"gore_seams_mm"`
		Tubes   map[string]float64 `json:"tube_seams_mm"`
		Rings   map[string]float64 `json:"rings_mm"`
		Total   float64            `json:"total_m"`
		Fillet3 float64            `json:"fillet3_kg_per_m"`
	}
	worked.Read(t, "J2", nil, &want)
	j := build(t, `
units mm
metal thick { alloy low-carbon-steel, thickness 1.5, density 7850 kg/m3 }
metal thin { alloy low-carbon-steel, thickness 1.2, density 7850 kg/m3 }
metal slab { alloy low-carbon-steel, thickness 10, density 7850 kg/m3 }
base plate { plate 600 by 400, metal slab }
ball B1 at (0, 0, 600) { diameter 240, gores 12, bend domed, metal thick }
ball B2 at (220, 80, 1150) { diameter 180, gores 12, bend domed, metal thin }
ball B3 at (-180, 120, 1300) { diameter 150, gores 12, bend domed, pole 60 deg toward 90 deg, metal thin }
ball B4 on plate { at (180, -120), diameter 160, gores 12, bend domed, metal thin }
post P1 from plate to B1 { at (0, 0), diameter 60, metal thick }
post P2 from B1 to B2 { diameter 48, metal thick }
post P3 from B1 to B3 { diameter 42, metal thin }
`)
	p := assembly.Make(input(j))
	total, rings := 0.0, map[string]int{}
	for _, w := range p.Welds {
		switch w.Kind {
		case assembly.GoreSeam:
			ball := j.Design.Part(w.Part)
			mean := ball.Ball.Radius - ball.Metal.Thickness/2
			tip := 2 * mean * math.Asin(1.5/(mean*math.Pi/12)) // both poles
			got := w.Total() + 12*tip
			within(t, w.Part+" gore seams", got, want.Gores[w.Part])
			total += got
		case assembly.TubeSeam:
			within(t, w.Part+" seam", w.Length, want.Tubes[w.Part])
			total += w.Length
		case assembly.PostJoint:
			within(t, w.Part+" "+w.At, w.Length, want.Rings[w.Part])
			if rings[w.Part]++; rings[w.Part] == 1 {
				total += w.Length // the case counts one ring for each post
			}
		}
	}
	// The total of the case counts both rings of each post.
	for part, n := range rings {
		total += float64(n-1) * want.Rings[part]
	}
	within(t, "total, m", total/1e3, want.Total)
	within(t, "a fillet of 3 mm, kg/m", assembly.FilletBead(3)*7850e-6, want.Fillet3)
}

func within(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= sixFigures*math.Abs(want)) {
		t.Errorf("%s = %v, want %v", what, got, want)
	}
}

// TestSealedPressure holds the pressure of heated air against worked case J1.
func TestSealedPressure(t *testing.T) {
	var want struct {
		Gauge []float64 `json:"gauge_kPa"`
	}
	worked.Read(t, "J1", nil, &want)
	for i, celsius := range []float64{100, 200, 450} {
		within(t, "pressure, kPa", assembly.SealedPressure(celsius), want.Gauge[i])
	}
}
