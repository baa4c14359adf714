package inspect

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// TestRefuses: what the reader does not know is reported, not passed over.
func TestRefuses(t *testing.T) {
	const head = `<svg width="100mm" height="80mm" viewBox="0 0 100 80">`
	for in, want := range map[string]string{
		head + `<rect x="0"/>`:            "not expected",
		head + `<g transform="scale(2)">`: "transform",
		head + `</g>`:                     "did not begin",
		`<svg width="100mm" height="80mm" viewBox="0 0 200 160">`:                              "view box",
		`<svg width="wide" height="80mm" viewBox="0 0 1 80">`:                                  "width",
		head + `<path d="M0 0C1 1 2 2 3 3"/>`:                                                  "command",
		head + `<path d="M0 0A5 4 0 0 0 3 3"/>`:                                                "unknown kind",
		head + `<path d="M0 0L1 x"/>`:                                                          "no number",
		head + `<path d="M0 0L1"/>`:                                                            "no number",
		head + `<path d="M0 0L1 1.1234567890123456789"/>`:                                      "no number",
		head + `<g fill="#zzzzzz">`:                                                            "invalid syntax",
		head + `<circle cx="1" cy="2" r=""/>`:                                                  "invalid syntax",
		head + `<g aria-label="a"><use xlink:href="#l1" x="1" y="2"/></g>`:                     "not defined",
		head + `<defs><path id="l1" d="m1 2l3 4z"/></defs><use xlink:href="#l1" x="1" y="2"/>`: "of no text",
		head + `<defs><path id="l1" d="m1 2z"/><path id="l1" d="m1 2z"/></defs>`:               "name of its own",
		head + `<g stroke-width="thick"><path d="M0 0L1 1"/></g>`:                              "invalid syntax",
	} {
		if _, err := readSVG([]byte(in)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("readSVG(%q) fails with %v, want %q", in, err, want)
		}
	}
}

// TestPathData reads pieces, curves and arcs.
func TestPathData(t *testing.T) {
	d := pathData{rest: "M1 2L-3.5 4 5,6Zm1 1q1 0 1-1l.5.25M0 10A10 10 0 0 0 10 0"}
	got, err := d.read()
	if err != nil {
		t.Fatal(err)
	}
	want := [][]r2.Vec{
		{{X: 1, Y: 2}, {X: -3.5, Y: 4}, {X: 5, Y: 6}, {X: 1, Y: 2}},
		{{X: 2, Y: 3}, {X: 3, Y: 3}, {X: 3, Y: 2}, {X: 3.5, Y: 2.25}},
	}
	if len(got) != 3 || len(got[2]) != arcPieces+1 {
		t.Fatalf("read() = %v, want 3 pieces", got)
	}
	for i, piece := range want {
		if len(got[i]) != len(piece) {
			t.Fatalf("piece %d is %v, want %v", i, got[i], piece)
		}
		for k := range piece {
			if got[i][k] != piece[k] {
				t.Errorf("piece %d is %v, want %v", i, got[i], piece)
				break
			}
		}
	}
	for _, p := range got[2] {
		if math.Abs(r2.Norm(p)-10) > 1e-9 && math.Abs(r2.Norm(r2.Sub(p, r2.Vec{X: 10, Y: 10}))-10) > 1e-9 {
			t.Errorf("%v is off the arc", p)
		}
	}
}
