package layout

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestSolve(t *testing.T) {
	full := Sheet{Width: 2500, Height: 1250, Price: 100}
	small := Sheet{Width: 1250, Height: 625, Price: 20}
	for _, tt := range []struct {
		name            string
		p               Problem
		sheets, offcuts int
		money           float64
		left            string
	}{
		{"four quarters fill a sheet", Problem{Pieces: []Piece{{1250, 625, 4, false}}, Sheets: []Sheet{full}}, 1, 0, 100, "[]"},
		{"with a kerf they do not", Problem{Pieces: []Piece{{1250, 625, 4, false}}, Sheets: []Sheet{full}, Kerf: 3}, 4, 0, 400, "[]"},
		{"nor with a trim", Problem{Pieces: []Piece{{1250, 625, 4, false}}, Sheets: []Sheet{{2500, 1250, Trim{Left: 5}, 100, 0, false}}}, 2, 0, 200, "[]"},
		{"fewest sheets", Problem{Pieces: []Piece{{1250, 625, 3, false}}, Sheets: []Sheet{full, small}}, 1, 0, 100, "[]"},
		{"least money", Problem{Pieces: []Piece{{1250, 625, 3, false}}, Sheets: []Sheet{full, small}, Aim: LeastMoney}, 3, 0, 60, "[]"},
		{"an offcut first", Problem{Pieces: []Piece{{600, 400, 2, true}}, Sheets: []Sheet{full, {410, 1250, Trim{}, 0, 1, true}}}, 0, 1, 0, "[]"},
		{"one sheet on hand", Problem{Pieces: []Piece{{1250, 1250, 3, false}}, Sheets: []Sheet{{2500, 1250, Trim{}, 100, 1, false}}}, 1, 0, 100, "[{0 1 2}]"},
		{"too large", Problem{Pieces: []Piece{{2501, 10, 1, true}, {10, 10, 1, true}}, Sheets: []Sheet{full}}, 1, 0, 100, "[{0 1 0}]"},
		{"must be turned", Problem{Pieces: []Piece{{1250, 2500, 1, true}}, Sheets: []Sheet{full}}, 1, 0, 100, "[]"},
		{"must not be turned", Problem{Pieces: []Piece{{1250, 2500, 1, false}}, Sheets: []Sheet{full}}, 0, 0, 0, "[{0 1 0}]"},
		{"across the sheet, the shear suffices", Problem{Pieces: []Piece{{500, 1250, 5, false}}, Sheets: []Sheet{full}, Shear: 1250}, 1, 0, 100, "[]"},
		{"along the sheet, it does not", Problem{Pieces: []Piece{{2000, 600, 2, false}}, Sheets: []Sheet{full}, Shear: 1250}, 0, 0, 0, "[{0 2 1}]"},
		{"a piece as high as the sheet needs no long cut", Problem{Pieces: []Piece{{2000, 1250, 1, false}}, Sheets: []Sheet{full}, Shear: 1250}, 1, 0, 100, "[]"},
		{"no sheet of another kind would do", Problem{Pieces: []Piece{{600, 600, 1, true}, {1300, 1200, 1, true}}, Sheets: []Sheet{small, full}, Aim: LeastMoney}, 1, 0, 100, "[]"},
	} {
		plan, err := Solve(&tt.p, Options{})
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if f := fault(&tt.p, plan); f != "" {
			t.Errorf("%s: %s", tt.name, f)
		}
		left := fmt.Sprint(plan.Left)
		if plan.Sheets != tt.sheets || plan.Offcuts != tt.offcuts || plan.Money != tt.money || left != tt.left {
			t.Errorf("%s: Solve = %d sheets, %d offcuts, %g money, left %s, want %d, %d, %g, %s",
				tt.name, plan.Sheets, plan.Offcuts, plan.Money, left, tt.sheets, tt.offcuts, tt.money, tt.left)
		}
	}
}

// TestOffcut holds the largest offcut against what is plainly left.
func TestOffcut(t *testing.T) {
	sheet := []Sheet{{Width: 2000, Height: 1000}}
	for _, tt := range []struct {
		name   string
		pieces []Piece
		want   float64 // mm2
	}{
		{"one small piece", []Piece{{300, 100, 1, true}}, 2000*1000 - 100*2000},
		{"a strip of one height", []Piece{{500, 250, 4, false}}, 2000 * 750},
		{"a column of one width", []Piece{{250, 500, 2, false}, {250, 100, 10, false}}, 1500 * 1000},
		{"from a nearly empty second sheet", []Piece{{1000, 1000, 2, false}, {100, 50, 4, true}}, 2000*1000 - 50*2000 + 0},
	} {
		p := &Problem{Pieces: tt.pieces, Sheets: sheet}
		plan, err := Solve(p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if f := fault(p, plan); f != "" {
			t.Errorf("%s: %s", tt.name, f)
		}
		got := 0.0
		for _, l := range plan.Layouts {
			if len(l.Offcuts) > 0 {
				got = max(got, l.Offcuts[0].Area())
			}
		}
		if got < tt.want {
			t.Errorf("%s: the largest offcut is %g mm2, want %g", tt.name, got, tt.want)
		}
	}
}

func TestErr(t *testing.T) {
	sheet := []Sheet{{Width: 100, Height: 100}}
	for _, tt := range []struct {
		p    Problem
		want string
	}{
		{Problem{}, "no sheet"},
		{Problem{Sheets: sheet, Pieces: []Piece{{0, 1, 1, true}}}, "piece 0: 0 x 1 mm is not a size"},
		{Problem{Sheets: sheet, Pieces: []Piece{{math.NaN(), 1, 1, true}}}, "piece 0: NaN x 1 mm is not a size"},
		{Problem{Sheets: sheet, Pieces: []Piece{{1, 1, -1, true}}}, "cannot cut -1"},
		{Problem{Sheets: sheet, Pieces: []Piece{{1, 1, most, true}, {1, 1, 1, true}}}, "more than"},
		{Problem{Sheets: sheet, Kerf: -1}, "kerf"},
		{Problem{Sheets: sheet, Shear: math.Inf(1)}, "shear"},
		{Problem{Sheets: []Sheet{{Width: 10, Height: 10, Trim: Trim{Left: 5, Right: 5}}}}, "nothing is left"},
		{Problem{Sheets: []Sheet{{Width: 10, Height: 10, Offcut: true}}}, "0 on hand"},
		{Problem{Sheets: []Sheet{{Width: 10, Height: 10, Price: math.NaN()}}}, "price"},
	} {
		plan, err := Solve(&tt.p, Options{})
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("Solve(%+v) = %v, %v, want an error with %q", tt.p, plan, err, tt.want)
		}
	}
}

func ExampleSolve() {
	p := &Problem{
		Pieces: []Piece{
			{Width: 1225, Height: 800, Count: 3, Turn: true},
		},
		Sheets: []Sheet{{Width: 2500, Height: 1250, Trim: Trim{Left: 10}}},
		Shear:  1270,
	}
	plan, err := Solve(p, Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d sheet, proven least %d\n", plan.Sheets, plan.SheetBound)
	for i, c := range plan.Layouts[0].Cuts {
		fmt.Printf("%d: stop at %g, a cut of %g\n", i+1, c.Stop, c.Length())
	}
	fmt.Println("largest offcut:", plan.Layouts[0].Offcuts[0])
	// Output:
	// 1 sheet, proven least 1
	// 1: stop at 10, a cut of 1250
	// 2: stop at 800, a cut of 1250
	// 3: stop at 800, a cut of 1250
	// 4: stop at 800, a cut of 1250
	// 5: stop at 1225, a cut of 800
	// 6: stop at 1225, a cut of 800
	// 7: stop at 1225, a cut of 800
	// largest offcut: {2410 0 90 1250}
}

func FuzzSolve(f *testing.F) {
	f.Add(uint64(1), uint8(5), 2.0, 1270.0)
	f.Add(uint64(7), uint8(30), 0.0, 0.0)
	f.Add(uint64(9), uint8(1), 1e5, 0.001)
	f.Fuzz(func(t *testing.T, seed uint64, pieces uint8, kerf, shear float64) {
		p := shopProblem(rand.New(rand.NewPCG(seed, 1)), int(pieces%40))
		p.Kerf, p.Shear = kerf, shear
		if p.Err() != nil {
			t.Skip()
		}
		plan, err := Solve(p, Options{Steps: 5_000})
		if err != nil {
			t.Fatal(err)
		}
		if f := fault(p, plan); f != "" {
			t.Fatalf("%s\n%+v", f, p)
		}
	})
}

func BenchmarkSolve(b *testing.B) {
	for _, parts := range []int{30, 100, 1000} {
		b.Run(fmt.Sprint(parts), func(b *testing.B) {
			rnd := rand.New(rand.NewPCG(1, uint64(parts)))
			p := &Problem{Sheets: []Sheet{{Width: 2500, Height: 1250}, {Width: 2000, Height: 1000}}, Shear: 1270}
			for range parts {
				p.Pieces = append(p.Pieces, Piece{float64(100 + rnd.IntN(800)), float64(40 + rnd.IntN(600)), 1, true})
			}
			for b.Loop() {
				plan, err := Solve(p, Options{})
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(plan.Sheets), "sheets")
				b.ReportMetric(float64(plan.Steps), "steps")
			}
		})
	}
}
