package layout

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"
)

// shopProblem makes a problem such as a shop's: mixed pieces, several sizes of
// sheet, some trimmed, with and without kerf and a limit of the shear.
func shopProblem(rnd *rand.Rand, pieces int) *Problem {
	sizes := [][2]float64{{1000, 2000}, {1250, 2500}, {2438.4, 1219.2}, {900, 900}}
	p := &Problem{Aim: Aim(rnd.IntN(2))}
	if rnd.IntN(2) == 0 {
		p.Kerf = float64(rnd.IntN(9)) / 2
	}
	if rnd.IntN(2) == 0 {
		p.Shear = []float64{1000, 1270, 1300, 700, 2500}[rnd.IntN(5)]
	}
	if p.Kerf == 0 && rnd.IntN(2) == 0 {
		p.Grip = float64(rnd.IntN(400))
	}
	for range 1 + rnd.IntN(3) {
		size := sizes[rnd.IntN(len(sizes))]
		s := Sheet{Width: size[0], Height: size[1], Price: float64(rnd.IntN(200)), Count: rnd.IntN(4)}
		if rnd.IntN(3) > 0 {
			s.Trim = Trim{float64(rnd.IntN(3)) * 5, float64(rnd.IntN(2)) * 6.35, float64(rnd.IntN(3)) * 5, 0}
		}
		if rnd.IntN(3) == 0 {
			s.Width, s.Height = float64(100+rnd.IntN(900)), float64(100+rnd.IntN(900))
			s.Offcut, s.Count = true, 1+rnd.IntN(2)
		} else if rnd.IntN(4) > 0 {
			s.Count = 0
		}
		p.Sheets = append(p.Sheets, s)
	}
	turn := rnd.IntN(3)
	for range pieces {
		c := Piece{
			Width:  float64(rnd.IntN(1400000)) / 1000 * rnd.Float64(),
			Height: float64(10 + rnd.IntN(800)),
			Count:  1 + rnd.IntN(4),
			Turn:   turn == 0 || turn == 1 && rnd.IntN(2) == 0,
		}
		c.Width = max(c.Width, 0.5)
		p.Pieces = append(p.Pieces, c)
	}
	return p
}

func TestRandom(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for n := range 400 {
		p := shopProblem(rnd, 1+rnd.IntN(15))
		plan, err := Solve(p, Options{Steps: 20_000})
		if err != nil {
			t.Fatalf("%d: %v", n, err)
		}
		if f := fault(p, plan); f != "" {
			t.Fatalf("%d: %s\n%+v", n, f, p)
		}
		if f := gripFault(p, plan); f != "" {
			t.Fatalf("%d: %s\n%+v", n, f, p)
		}
		if again, _ := Solve(p, Options{Steps: 20_000}); n%8 == 0 && !reflect.DeepEqual(plan, again) {
			t.Fatalf("%d: two plans of the same problem differ", n)
		}
	}
}

// gripFault reports a cut that holds less than the grip though the part in hand
// is large enough for it to hold what drops. The last of several cuts side by
// side is the one that matters: it may hold less only if both its parts do.
func gripFault(p *Problem, plan *Plan) string {
	for n, l := range plan.Layouts {
		for i, c := range l.Cuts {
			if c.Trim || c.Held() >= p.Grip-fine {
				continue
			}
			if c.Stop >= p.Grip+fine {
				return fmt.Sprintf("layout %d: cut %d holds %g and drops %g", n, i, c.Held(), c.Stop)
			}
		}
	}
	return ""
}
