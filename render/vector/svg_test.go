package vector

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/golden"
	"stabile/render/ink"
)

func trialSVG(t *testing.T) []byte {
	t.Helper()
	data, err := SVG(trial())
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestSVGGolden(t *testing.T) {
	got := trialSVG(t)
	golden.Text(t, "testdata/trial.svg", string(got))
}

func TestSVGWellFormed(t *testing.T) {
	data := trialSVG(t)
	depth := 0
	for d := xml.NewDecoder(bytes.NewReader(data)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token.(type) {
		case xml.StartElement:
			depth++
		case xml.EndElement:
			depth--
		}
	}
	if depth != 0 {
		t.Errorf("%d elements left open", depth)
	}
	run(t, data, ".svg", "xmllint", "--noout")
}

// svgDocument is as much of a sheet's SVG as is measured.
type svgDocument struct {
	Width   string  `xml:"width,attr"`
	Height  string  `xml:"height,attr"`
	ViewBox string  `xml:"viewBox,attr"`
	Title   string  `xml:"title"`
	Letters []path  `xml:"defs>path"`
	Groups  []group `xml:"g"`
}

type group struct {
	ID      string  `xml:"id,attr"`
	Label   string  `xml:"aria-label,attr"`
	Width   string  `xml:"stroke-width,attr"`
	Dashes  string  `xml:"stroke-dasharray,attr"`
	Groups  []group `xml:"g"`
	Paths   []path  `xml:"path"`
	Circles []struct {
		X      float64 `xml:"cx,attr"`
		Y      float64 `xml:"cy,attr"`
		Radius float64 `xml:"r,attr"`
	} `xml:"circle"`
	Letters []struct {
		Of string  `xml:"http://www.w3.org/1999/xlink href,attr"`
		X  float64 `xml:"x,attr"`
		Y  float64 `xml:"y,attr"`
	} `xml:"use"`
}

type path struct {
	ID   string `xml:"id,attr"`
	Data string `xml:"d,attr"`
}

func parseSVG(t *testing.T, data []byte) svgDocument {
	t.Helper()
	var doc svgDocument
	if err := xml.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

var pathToken = regexp.MustCompile(`[A-Za-z]|-?[0-9]*\.?[0-9]+`)

// trace returns the end points of the pieces of an SVG path, by the grammar of
// SVG 1.1 for the commands that are in use, and the radii of its arcs.
func trace(t *testing.T, data string) (points []r2.Vec, radii []float64) {
	t.Helper()
	tokens := pathToken.FindAllString(data, -1)
	var at, start r2.Vec
	var command byte
	next := func() float64 {
		x, err := strconv.ParseFloat(tokens[0], 64)
		if err != nil {
			t.Fatalf("path %q: %v", data, err)
		}
		tokens = tokens[1:]
		return x
	}
	pair := func(relative bool) r2.Vec {
		p := r2.Vec{X: next(), Y: next()}
		if relative {
			p = r2.Add(at, p)
		}
		return p
	}
	for len(tokens) > 0 {
		if c := tokens[0][0]; c >= 'A' && c != '-' {
			command, tokens = c, tokens[1:]
		}
		switch command {
		case 'M', 'm':
			at = pair(command == 'm')
			start = at
			points = append(points, at)
			continue
		case 'L', 'l':
			at = pair(command == 'l')
		case 'q':
			pair(true)
			at = pair(true)
		case 'A':
			radii = append(radii, next(), next())
			next()
			next()
			next()
			at = pair(false)
		case 'Z', 'z':
			at = start
			continue
		default:
			t.Fatalf("path %q: command %c", data, command)
		}
		points = append(points, at)
	}
	return points, radii
}

func TestSVGTrueMillimetres(t *testing.T) {
	doc := parseSVG(t, trialSVG(t))
	if doc.Width != "210mm" || doc.Height != "148mm" || doc.ViewBox != "0 0 210 148" {
		t.Errorf("the sheet is %s x %s with a viewBox of %q", doc.Width, doc.Height, doc.ViewBox)
	}
	if doc.Title != "Trial <sheet> & more" {
		t.Errorf("title is %q", doc.Title)
	}
	cut := find(t, doc, "cut")
	points, _ := trace(t, cut.Groups[0].Paths[0].Data)
	want := []r2.Vec{{X: 20, Y: 118}, {X: 120.5, Y: 118}, {X: 120.5, Y: 77.75}, {X: 20, Y: 77.75}}
	if len(points) != 4 {
		t.Fatalf("the rectangle has corners %v, want %v", points, want)
	}
	for i := range want {
		if points[i] != want[i] {
			t.Errorf("corner %d is at %v, want %v", i, points[i], want[i])
		}
	}
	if n := len(cut.Groups[0].Circles); n != 1 {
		t.Errorf("group cut has %d circles, want the one", n)
	}
	if mark := find(t, doc, "mark"); len(mark.Groups) != 1 || len(mark.Groups[0].Paths) != 1 || mark.Groups[0].Width != "0.25" {
		t.Errorf("group mark is %+v, want one narrow line", mark)
	}
}

func find(t *testing.T, doc svgDocument, id string) group {
	t.Helper()
	var found []group
	for _, g := range doc.Groups {
		if g.ID == id {
			found = append(found, g)
		}
	}
	if len(found) != 1 {
		t.Fatalf("%d groups %q, want one", len(found), id)
	}
	return found[0]
}

func TestSVGArcs(t *testing.T) {
	doc := parseSVG(t, trialSVG(t))
	var arcs int
	for _, g := range doc.Groups {
		for _, p := range g.Paths {
			points, radii := trace(t, p.Data)
			if len(radii) == 0 {
				continue
			}
			arcs++
			for _, q := range points {
				if d := r2.Norm(r2.Sub(q, r2.Vec{X: 160, Y: 68})); math.Abs(d-radii[0]) > 0.001 {
					t.Errorf("a point of an arc of radius %v is %v from its centre", radii[0], d)
				}
			}
			// No piece may reach half a turn, where its centre is lost.
			for i := 1; i < len(points); i++ {
				if chord := r2.Norm(r2.Sub(points[i], points[i-1])); chord > 1.4143*radii[0] {
					t.Errorf("a piece of an arc of radius %v has a chord of %v", radii[0], chord)
				}
			}
		}
	}
	if arcs != 2 {
		t.Errorf("%d arcs, want 2", arcs)
	}
}

// The outlines of each text lie in its box and reach its sides, and carry its
// words.
func TestSVGText(t *testing.T) {
	doc := parseSVG(t, trialSVG(t))
	letters := make(map[string][]r2.Vec)
	for _, l := range doc.Letters {
		if letters[l.ID] != nil {
			t.Errorf("letter %q is defined twice", l.ID)
		}
		letters[l.ID], _ = trace(t, l.Data)
	}
	outlines := make(map[string][]r2.Vec)
	for _, g := range doc.Groups {
		for _, words := range g.Groups {
			for _, l := range words.Letters {
				outline := letters[strings.TrimPrefix(l.Of, "#")]
				if len(outline) == 0 {
					t.Errorf("%q takes a letter %q that is not there", words.Label, l.Of)
				}
				for _, p := range outline {
					outlines[words.Label] = append(outlines[words.Label], r2.Add(p, r2.Vec{X: l.X, Y: l.Y}))
				}
			}
		}
	}
	sheet := trial()
	for _, item := range sheet.Items {
		text, ok := item.(*ink.Text)
		if !ok {
			continue
		}
		points, ok := outlines[text.Text]
		if !ok {
			t.Errorf("no outlines of %q", text.Text)
			continue
		}
		low, high := bounds(points)
		box := text.Box()
		for i := range box {
			box[i].Y = sheet.Height - box[i].Y
		}
		wantLow, wantHigh := bounds(box)
		const hundredth = 0.011       // of a mm, to which outlines are drawn
		bearing := 0.15 * text.Height // more than the room at the sides of a letter
		if low.X < wantLow.X-hundredth || low.Y < wantLow.Y-hundredth || high.X > wantHigh.X+hundredth || high.Y > wantHigh.Y+hundredth {
			t.Errorf("outlines of %q reach from %v to %v, out of its box from %v to %v", text.Text, low, high, wantLow, wantHigh)
		}
		if low.X > wantLow.X+bearing || low.Y > wantLow.Y+bearing || high.X < wantHigh.X-bearing || high.Y < wantHigh.Y-bearing {
			t.Errorf("outlines of %q reach from %v to %v, short of its box from %v to %v", text.Text, low, high, wantLow, wantHigh)
		}
	}
}

func bounds(points []r2.Vec) (low, high r2.Vec) {
	low, high = points[0], points[0]
	for _, p := range points {
		low = r2.Vec{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
		high = r2.Vec{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
	}
	return low, high
}

func TestAppendMillimetres(t *testing.T) {
	for _, tt := range []struct {
		mm   float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {-0.0001, "0"}, {1, "1"}, {-2.5, "-2.5"},
		{0.1 + 0.2, "0.3"}, {1189.0004, "1189"}, {1e-3, "0.001"}, {123456.7894, "123456.789"},
	} {
		if got := millimetres(tt.mm); got != tt.want {
			t.Errorf("millimetres(%v) = %s, want %s", tt.mm, got, tt.want)
		}
	}
}

func TestHundredths(t *testing.T) {
	for n := -1234; n <= 1234; n++ {
		text := string(appendHundredths(nil, n))
		got, err := strconv.ParseFloat(text, 64)
		if err != nil || int(math.Round(got*100)) != n {
			t.Errorf("appendHundredths(nil, %d) = %q", n, text)
		}
	}
}

func ExampleSVG() {
	s := &ink.Sheet{Name: "plate", Width: 100, Height: 60}
	s.Add(&ink.Stroke{Line: ink.Outline, Closed: true, Group: "cut", Path: rectangle(10, 10, 90, 50)})
	data, err := SVG(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strings.Join(strings.Split(string(data), "\n")[3:], "\n"))
	// Output:
	// <g id="cut">
	// <g fill="none" stroke="#000" stroke-width="0.5" stroke-linecap="round" stroke-linejoin="round">
	// <path d="M10 50L90 50 90 10 10 10Z"/>
	// </g>
	// </g>
	// </svg>
}
