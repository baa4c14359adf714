package wind_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/fab/wind"
)

// TestEgg holds what the wind takes of eggs, by either method: a bound on what is seen of them,
// lifted where they are not alike above and below or stand near the ground.
func TestEgg(t *testing.T) {
	for _, site := range []string{"method en1991, terrain II", "method asce7, exposure C"} {
		for _, tt := range []struct {
			height, pole string
			drag, lift   float64
		}{
			{"600", "", 1.2, 0},
			{"600", "pole toward 30 deg, ", 1.2, 0},
			{"600", "pole 90 deg toward 30 deg, ", 1.2, 0},
			{"600", "pole 40 deg toward 30 deg, ", 1.2, 1},
			{"299", "", 1.6 * 1.2, 0.6},
			{"301", "", 1.2, 0},
			{"299", "pole 40 deg toward 30 deg, ", 1.2, 1}, // its lowest point is higher
			{"210", "pole 40 deg toward 30 deg, ", 1.6 * 1.2, 1},
		} {
			egg := blown(t, `
base pad { plate 600 by 600, metal slab }
ball egg at (0, 0, `+tt.height+`) { diameter 200, tall 300, `+tt.pole+`halves, metal skin }
post stem from pad to egg { diameter 40, metal skin }
site { wind 26 m/s, `+site+" }\n")["egg"]
			if !near(egg.Coefficient, tt.drag, 1e-12) || egg.Lift != tt.lift || egg.Rule.Kind != wind.EggBound {
				t.Errorf("%s, at %s mm, %s has %v and lift %v (%+v), want %v and %v", site, tt.height, tt.pole, egg.Coefficient, egg.Lift, egg.Rule, tt.drag, tt.lift)
			}
			// By its silhouette: pi times the half axes that are seen.
			b := egg.Part.Ball
			lean := math.Acos(min(1, b.Pole.Z))
			above := math.Pi * 100 * math.Hypot(100*math.Cos(lean), 150*math.Sin(lean))
			if want := egg.Pressure * egg.Gust * 1e-6 * tt.lift * above; !near(egg.Uplift, want, 1e-9) {
				t.Errorf("%s, %s is lifted by %v, want %v", site, tt.pole, egg.Uplift, want)
			}
			if side, _ := solid.New(egg.Part, [2][]r3.Vec{}).Areas(r3.Vec{X: 1}); lean == 0 && !near(side, math.Pi*100*150, 1e-9) {
				t.Errorf("shows %v", side)
			}
		}
	}
}
