package vector

import (
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

func TestPlain(t *testing.T) {
	s := &ink.Sheet{Name: "piece", Width: 100, Height: 50}
	hole := ink.Circle(ink.Edge, r2.Vec{X: 20, Y: 20}, 5)
	hole.Group = "cut"
	s.Add(
		&ink.Stroke{Line: ink.Edge, Path: []r2.Vec{{X: 10, Y: 10}, {X: 90, Y: 10}, {X: 90, Y: 40.125}}, Closed: true, Group: "cut"},
		&ink.Stroke{Line: ink.Centre, Path: []r2.Vec{{X: 50, Y: 10}, {X: 50, Y: 30}}, Group: "mark"},
		hole,
	)
	data, err := Plain(s)
	if err != nil {
		t.Fatal(err)
	}
	const want = `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50" role="img" aria-labelledby="title">
<title id="title">piece</title>
<g id="mark" fill="none" stroke="#0000ff" stroke-width="0.1">
<path d="M50 40L50 20"/>
</g>
<g id="cut" fill="none" stroke="#000000" stroke-width="0.1">
<path d="M10 40L90 40 90 9.875Z"/>
<circle cx="20" cy="30" r="5"/>
</g>
</svg>
`
	if string(data) != want {
		t.Errorf("Plain gives\n%s\nwant\n%s", data, want)
	}
	run(t, data, ".svg", "xmllint", "--noout")
}

func TestPlainRefuses(t *testing.T) {
	for _, item := range []ink.Item{
		&ink.Stroke{Path: []r2.Vec{{}, {X: 1}}},
		&ink.Stroke{Path: []r2.Vec{{}, {X: 1}}, Group: "register"},
		&ink.Fill{Path: []r2.Vec{{}, {X: 1}, {Y: 1}}},
		&ink.Text{Text: "a", Height: 3},
	} {
		if _, err := Plain(&ink.Sheet{Width: 10, Height: 10, Items: []ink.Item{item}}); err == nil || !strings.Contains(err.Error(), "no place") {
			t.Errorf("Plain(%v) fails with %v", item, err)
		}
	}
}
