package pack

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

func box(x0, y0, x1, y1 float64) r2.Box {
	return r2.Box{Min: r2.Vec{X: x0, Y: y0}, Max: r2.Vec{X: x1, Y: y1}}
}

func TestClipPath(t *testing.T) {
	window := box(0, 0, 10, 10)
	square := []r2.Vec{{X: 5, Y: 5}, {X: 15, Y: 5}, {X: 15, Y: 15}, {X: 5, Y: 15}}
	for _, tt := range []struct {
		name   string
		path   []r2.Vec
		closed bool
		want   [][]r2.Vec
		whole  bool
	}{
		{"within", square, true, [][]r2.Vec{square}, true},
		{"across", []r2.Vec{{X: -5, Y: 5}, {X: 15, Y: 5}}, false, [][]r2.Vec{{{X: 0, Y: 5}, {X: 10, Y: 5}}}, false},
		{"beside", []r2.Vec{{X: -5, Y: 5}, {X: -5, Y: 15}}, false, nil, false},
		{"a touch at the corner", []r2.Vec{{X: -5, Y: 5}, {X: 5, Y: -5}}, false, nil, false},
		{"along the edge", []r2.Vec{{X: -5}, {X: 15}}, false, [][]r2.Vec{{{}, {X: 10}}}, false},
		{"a corner within, where the path starts", square, true, [][]r2.Vec{{{X: 5, Y: 10}, {X: 5, Y: 5}, {X: 10, Y: 5}}}, false},
		{"in and out", []r2.Vec{{X: 5, Y: 5}, {X: 15, Y: 5}, {X: 15, Y: 8}, {X: 5, Y: 8}}, false,
			[][]r2.Vec{{{X: 5, Y: 5}, {X: 10, Y: 5}}, {{X: 10, Y: 8}, {X: 5, Y: 8}}}, false},
	} {
		w := window
		if tt.name == "within" {
			w = box(0, 0, 20, 20)
		}
		got, whole := clipPath(tt.path, tt.closed, w)
		if whole != tt.whole || len(got) != len(tt.want) {
			t.Errorf("%s: clipPath = %v, %v, want %v, %v", tt.name, got, whole, tt.want, tt.whole)
			continue
		}
		for i := range got {
			if len(got[i]) != len(tt.want[i]) {
				t.Errorf("%s: clipPath = %v, want %v", tt.name, got, tt.want)
				break
			}
			for j := range got[i] {
				if r2.Norm(r2.Sub(got[i][j], tt.want[i][j])) > 1e-12 {
					t.Errorf("%s: clipPath = %v, want %v", tt.name, got, tt.want)
				}
			}
		}
	}
}

func length(items []ink.Item) float64 {
	total := 0.0
	for _, item := range items {
		switch it := item.(type) {
		case *ink.Stroke:
			for i := 1; i < len(it.Path); i++ {
				total += r2.Norm(r2.Sub(it.Path[i], it.Path[i-1]))
			}
			if it.Closed {
				total += r2.Norm(r2.Sub(it.Path[0], it.Path[len(it.Path)-1]))
			}
		case *ink.Arc:
			total += it.Radius * (it.To - it.From)
		}
	}
	return total
}

// Windows side by side share a drawing out without loss or gain, and nothing
// of a share is outside its window.
func TestClipSharesOut(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		var path []r2.Vec
		for range 3 + rng.IntN(40) {
			path = append(path, r2.Vec{X: 100 * rng.Float64(), Y: 100 * rng.Float64()})
		}
		from := 7*rng.Float64() - 3
		items := []ink.Item{
			&ink.Stroke{Path: path, Closed: rng.IntN(2) == 0},
			ink.Circle(ink.Edge, r2.Vec{X: 30 + 40*rng.Float64(), Y: 30 + 40*rng.Float64()}, 1+29*rng.Float64()),
			&ink.Arc{Center: r2.Vec{X: 50, Y: 50}, Radius: 50 * rng.Float64(), From: from, To: from + 6*rng.Float64()},
		}
		x, y := 100*rng.Float64(), 100*rng.Float64()
		for _, item := range items {
			got, want := 0.0, length([]ink.Item{item})
			for _, w := range []r2.Box{box(-1, -1, x, y), box(x, -1, 101, y), box(-1, y, x, 101), box(x, y, 101, 101)} {
				parts := clipped(item, w)
				got += length(parts)
				for _, part := range parts {
					for _, q := range sampled(part) {
						if !within(q, r2.Box{Min: r2.Sub(w.Min, r2.Vec{X: 1e-9, Y: 1e-9}), Max: r2.Add(w.Max, r2.Vec{X: 1e-9, Y: 1e-9})}) {
							t.Fatalf("%v clipped to %v has %v", item, w, q)
						}
					}
				}
			}
			if math.Abs(got-want) > 1e-7*(1+want) {
				t.Fatalf("%v shared at %v, %v: %v mm in all, want %v", item, x, y, got, want)
			}
		}
	}
}

func sampled(item ink.Item) []r2.Vec {
	switch it := item.(type) {
	case *ink.Stroke:
		return it.Path
	case *ink.Arc:
		var out []r2.Vec
		for i := range 65 {
			out = append(out, it.At(it.From+(it.To-it.From)*float64(i)/64))
		}
		return out
	}
	return nil
}

func TestTileName(t *testing.T) {
	for _, tt := range []struct {
		row, column int
		want        string
	}{{0, 0, "A1"}, {1, 2, "B3"}, {25, 9, "Z10"}, {26, 0, "AA1"}, {27, 0, "AB1"}, {701, 0, "ZZ1"}} {
		if got := tileName(tt.row, tt.column); got != tt.want {
			t.Errorf("tileName(%d, %d) = %q, want %q", tt.row, tt.column, got, tt.want)
		}
	}
}
