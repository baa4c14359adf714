package layout

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestScales fills lengths at random, in every way that a scale must stand: the
// scaled lengths of what fits together still do.
func TestScales(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for range 300 {
		c := int32(2 + rnd.IntN(200))
		lengths := make([]int32, 1+rnd.IntN(12))
		for i := range lengths {
			lengths[i] = int32(1 + rnd.IntN(int(c)))
		}
		slices.Sort(lengths)
		fs := map[string]scaler{"straight": straight(c)}
		if c > 3 {
			k := int32(1 + rnd.IntN(int(c/2)))
			fs["rounding"] = rounding(c, k)
			fs["counting"] = counting(c, k)
			if f := fitting(c, k, lengths); f != nil {
				fs["fitting"] = f
			}
		}
		fs["stepping"] = stepping(c, int64(1+rnd.IntN(20)))
		for name, f := range fs {
			for range 100 {
				var real int32
				var scaled float64
				for _, i := range rnd.Perm(len(lengths)) {
					if x := lengths[i]; real+x <= c {
						real += x
						scaled += f(x)
					}
				}
				if scaled > 1+guard {
					t.Fatalf("%s: lengths of %v that fit into %d scale to %v of it", name, lengths, c, scaled)
				}
			}
			if name == "fitting" {
				continue // stands for the lengths of the pieces only
			}
			for range 100 { // any lengths at all
				var scaled float64
				for room := c; room > 0; {
					x := int32(1 + rnd.IntN(int(room)))
					room -= x
					scaled += f(x)
				}
				if scaled > 1+guard {
					t.Fatalf("%s: lengths that fit into %d scale to %v of it", name, c, scaled)
				}
			}
		}
	}
}

func TestBound(t *testing.T) {
	sheet := []Sheet{{Width: 100, Height: 100, Price: 10}}
	for _, tt := range []struct {
		name   string
		pieces []Piece
		sheets []Sheet
		want   int
		money  float64
	}{
		{"more than half both ways, no two go together", []Piece{{51, 51, 7, true}}, sheet, 7, 70},
		{"the area alone", []Piece{{10, 10, 101, true}}, sheet, 2, 20},
		{"long ones lie beside each other, two to a sheet", []Piece{{40, 90, 9, true}}, sheet, 5, 50},
		{"four quarters and one", []Piece{{50, 50, 4, true}, {1, 1, 1, false}}, sheet, 2, 20},
		{"turned, three to a sheet", []Piece{{40, 60, 3, true}}, []Sheet{{Width: 120, Height: 60, Price: 10}}, 1, 10},
		{"nothing", nil, sheet, 0, 0},
		{"the offcut takes its area", []Piece{{50, 100, 3, true}}, append(sheet, Sheet{Width: 50, Height: 100, Offcut: true, Count: 1}), 1, 10},
		{"the cheaper sheet by area", []Piece{{50, 50, 8, true}}, append(sheet, Sheet{Width: 100, Height: 50, Price: 4}), 2, 16},
	} {
		p := &Problem{Pieces: tt.pieces, Sheets: tt.sheets}
		list := stocks(p)
		all, _ := rects(p, list)
		got := newSearch(all, list).floor(p, 1000, 1_000_000)
		if got.sheets != tt.want || got.money != tt.money {
			t.Errorf("%s: floor = %d sheets, %g money, want %d, %g", tt.name, got.sheets, got.money, tt.want, tt.money)
		}
	}
}

// TestMetalBound: the bound of pieces that are no rectangles, by the rectangles in
// them and by their metal.
func TestMetalBound(t *testing.T) {
	sheet := []Sheet{{Width: 100, Height: 100, Price: 10}}
	for _, tt := range []struct {
		name   string
		pieces []Piece
		metal  float64
		sheets []Sheet
		want   int
		money  float64
	}{
		{"by their metal alone", nil, 25_000, sheet, 3, 30},
		{"a sheet filled to the last", nil, 10_000, sheet, 1, 10},
		{"by the rectangles in them", []Piece{{51, 51, 4, true}}, 11_000, sheet, 4, 40},
		{"offcuts are free", nil, 25_000, []Sheet{sheet[0], {Width: 100, Height: 60, Offcut: true, Count: 1}}, 2, 20},
		{"the cheaper sheet", nil, 9_000, []Sheet{sheet[0], {Width: 50, Height: 100, Price: 4}}, 1, 7.2},
		{"nothing", nil, 0, sheet, 0, 0},
	} {
		n, money, err := Bound(&Problem{Pieces: tt.pieces, Sheets: tt.sheets}, tt.metal)
		if err != nil || n != tt.want || money < tt.money*(1-1e-6) || money > tt.money*(1+1e-6) {
			t.Errorf("%s: Bound = %d, %g, %v, want %d, %g", tt.name, n, money, err, tt.want, tt.money)
		}
	}
	if _, _, err := Bound(&Problem{}, 1); err == nil {
		t.Error("Bound without a sheet is no error")
	}
}

func TestHolds(t *testing.T) {
	p := &Problem{Sheets: []Sheet{{Width: 200, Height: 100}, {Width: 60, Height: 300, Trim: Trim{Left: 5}}}, Shear: 150}
	for _, tt := range []struct {
		c    Piece
		want bool
	}{
		{Piece{Width: 100, Height: 100}, true},
		{Piece{Width: 180, Height: 90}, false}, // a longer cut than the shear takes
		{Piece{Width: 180, Height: 100}, true}, // as high as the sheet
		{Piece{Width: 50, Height: 140}, true},
		{Piece{Width: 140, Height: 50, Turn: true}, true},
		{Piece{Width: 210, Height: 10}, false},
		{Piece{}, false},
	} {
		if got := p.Holds(tt.c); got != tt.want {
			t.Errorf("Holds(%+v) = %v, want %v", tt.c, got, tt.want)
		}
	}
}
