package pack_test

import (
	"html"
	"iter"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/vector"
)

// A written is what is found on a sheet as it stands in its SVG, read without
// the drawing model: the ink of each text, every line and every filled shape.
type written struct {
	width, height float64 // mm
	frame         []r2.Vec
	texts         []writtenText
	lines         []writtenLine
	fills         [][]r2.Vec
}

type writtenText struct {
	label  string
	hull   []r2.Vec // of its ink
	lo, hi r2.Vec
	height float64 // mm, of a capital, measured from the outlines
}

type writtenLine struct {
	width  float64
	dashed bool
	path   []r2.Vec
}

// Widths of line, in mm, by which the written lines are told apart.
const (
	wideLine  = 0.35 // of lines of the object, the least of them
	frameLine = 0.7
)

// tags yields the tags of a document, without their angle brackets.
func tags(document string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for {
			_, rest, found := strings.Cut(document, "<")
			tag, after, closed := strings.Cut(rest, ">")
			if !found || !closed || !yield(tag) {
				return
			}
			document = after
		}
	}
}

// attributes returns the attributes of a tag.
func attributes(tag string) map[string]string {
	at := map[string]string{}
	for {
		before, rest, found := strings.Cut(tag, `="`)
		value, after, closed := strings.Cut(rest, `"`)
		if !found || !closed {
			return at
		}
		at[before[strings.LastIndexByte(before, ' ')+1:]] = value
		tag = after
	}
}

// readSVG reads a sheet. It knows the elements svg, title, g, path and circle,
// as the sheets have them, and fails at any other and at any transform.
func readSVG(t *testing.T, data []byte) *written {
	t.Helper()
	w := &written{}
	type style struct {
		width        float64
		dashed, fill bool
		tint         bool // the fill is a light one, on which writing may stand
	}
	open := []style{{}}
	for tag := range tags(string(data)) {
		at := attributes(tag)
		if at["transform"] != "" {
			t.Fatalf("%q is transformed", tag)
		}
		number := func(key string) float64 {
			x, err := strconv.ParseFloat(strings.TrimSuffix(at[key], "mm"), 64)
			if err != nil {
				t.Fatalf("%.80q: %s: %v", tag, key, err)
			}
			return x
		}
		now := open[len(open)-1]
		switch name, _, _ := strings.Cut(tag, " "); name {
		case "?xml", "title", "/title", "/svg":
		case "/g":
			open = open[:len(open)-1]
		case "svg":
			w.width, w.height = number("width"), number("height")
			if want := "0 0 " + strings.TrimSuffix(at["width"], "mm") + " " + strings.TrimSuffix(at["height"], "mm"); at["viewBox"] != want {
				t.Fatalf("the view box is %q, want %q", at["viewBox"], want)
			}
		case "g":
			if at["stroke-width"] != "" {
				now.width = number("stroke-width")
			}
			now.dashed = now.dashed || at["stroke-dasharray"] != ""
			if fill := at["fill"]; strings.HasPrefix(fill, "#") {
				now.fill, now.tint = true, fill[1] >= 'c'
			}
			open = append(open, now)
		case "circle":
			c, r := r2.Vec{X: number("cx"), Y: number("cy")}, number("r")
			var path []r2.Vec
			for i := range 65 {
				sin, cos := math.Sincos(2 * math.Pi * float64(i) / 64)
				path = append(path, r2.Vec{X: c.X + r*cos, Y: c.Y + r*sin})
			}
			w.lines = append(w.lines, writtenLine{now.width, now.dashed, path})
		case "path":
			paths, sum := readPath(t, at["d"])
			switch label, isText := at["aria-label"]; {
			case isText:
				w.texts = append(w.texts, newWrittenText(html.UnescapeString(label), paths, sum))
			case now.fill && now.tint:
			case now.fill:
				w.fills = append(w.fills, paths...)
			default:
				for _, p := range paths {
					w.lines = append(w.lines, writtenLine{now.width, now.dashed, p})
				}
				if now.width == frameLine && len(paths[0]) == 5 {
					w.frame = paths[0]
				}
			}
		default:
			t.Fatalf("the element %q was not expected", name)
		}
	}
	return w
}

// readPath returns the pieces of a path, closed ones ending where they began,
// and what its control polygons come to.
func readPath(t *testing.T, d string) (paths [][]r2.Vec, sum outline) {
	t.Helper()
	var at, start r2.Vec
	var path []r2.Vec
	var command byte
	number := func() float64 {
		for len(d) > 0 && (d[0] == ' ' || d[0] == ',') {
			d = d[1:]
		}
		n := 0
		for n < len(d) && (d[n] >= '0' && d[n] <= '9' || d[n] == '.' || n == 0 && d[n] == '-') {
			n++
		}
		x, err := strconv.ParseFloat(d[:n], 64)
		if err != nil {
			t.Fatalf("path data at %.20q: %v", d, err)
		}
		d = d[n:]
		return x
	}
	point := func() r2.Vec {
		p := r2.Vec{X: number(), Y: number()}
		if command >= 'a' {
			p = r2.Add(p, at)
		}
		return p
	}
	to := func(p r2.Vec) {
		sum.to(at, p)
		path, at = append(path, p), p
	}
	flush := func() {
		if len(path) > 1 {
			paths = append(paths, path)
		}
		path = nil
	}
	for len(d) > 0 {
		if c := d[0]; c >= 'A' {
			command, d = c, d[1:]
		}
		switch command {
		case 'M', 'm':
			flush()
			at = point()
			path, start = []r2.Vec{at}, at
			command-- // what follows without a letter is a line
		case 'L', 'l':
			to(point())
		case 'q':
			c := point()
			end := point()
			to(c)
			to(end) // the control point is kept: the curve is within
		case 'A':
			r := number()
			for _, want := range [...]float64{r, 0, 0, 0} {
				if number() != want {
					t.Fatalf("an arc of an unknown kind before %.20q", d)
				}
			}
			end := point()
			path = append(path, arcTo(at, end, r)...)
			at = end
		case 'Z', 'z':
			to(start)
			flush()
			path = []r2.Vec{at}
		default:
			t.Fatalf("path command %c", command)
		}
	}
	flush()
	return paths, sum
}

// arcTo returns points along an arc of at most half a turn that is drawn against
// the sense of the angles of SVG.
func arcTo(from, to r2.Vec, r float64) []r2.Vec {
	half := r2.Scale(0.5, r2.Sub(to, from))
	l := r2.Norm(half)
	h := math.Sqrt(max(r*r-l*l, 0))
	center := r2.Add(r2.Add(from, half), r2.Scale(h/max(l, 1e-9), r2.Vec{X: half.Y, Y: -half.X}))
	a := math.Atan2(from.Y-center.Y, from.X-center.X)
	b := math.Atan2(to.Y-center.Y, to.X-center.X)
	for b > a {
		b -= 2 * math.Pi
	}
	var path []r2.Vec
	const pieces = 24
	for i := 1; i <= pieces; i++ {
		sin, cos := math.Sincos(a + (b-a)*float64(i)/pieces)
		path = append(path, r2.Vec{X: center.X + r*cos, Y: center.Y + r*sin})
	}
	return path
}

func newWrittenText(label string, paths [][]r2.Vec, sum outline) writtenText {
	var all []r2.Vec
	for _, p := range paths {
		all = append(all, p...)
	}
	w := writtenText{label: label, hull: hull(all)}
	w.lo, w.hi = extent(w.hull)
	// The length of its outlines tells how high a text is, however it is turned.
	// Of the two faces the one was used that has as much ink for its length.
	best := math.Inf(1)
	for _, m := range measures() {
		unit := m.of(label)
		height := sum.length / unit.length
		if off := math.Abs(math.Abs(sum.area/unit.area)/(height*height) - 1); off < best {
			w.height, best = height, off
		}
	}
	return w
}

// hull returns the convex hull (Andrew's monotone chain).
func hull(points []r2.Vec) []r2.Vec {
	points = slices.Clone(points)
	slices.SortFunc(points, func(a, b r2.Vec) int {
		if a.X < b.X || a.X == b.X && a.Y < b.Y {
			return -1
		}
		return 1
	})
	var out []r2.Vec
	half := func(base int, p r2.Vec) {
		for len(out) >= base+2 && r2.Cross(r2.Sub(out[len(out)-1], out[len(out)-2]), r2.Sub(p, out[len(out)-1])) <= 0 {
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	for _, p := range points {
		half(0, p)
	}
	base := len(out) - 1
	for _, p := range slices.Backward(points[:len(points)-1]) {
		half(base, p)
	}
	return out[:len(out)-1]
}

// Tolerances of what is written, in mm.
const (
	touching    = 0.05 // by which ink may reach over other ink's convex hull, or a line
	heightError = 0.03 // of a height measured from outlines that are rounded to 0.01 mm
)

// checkWritten writes a sheet and looks at what was written.
func (f *flaws) checkWritten(t *testing.T, s *ink.Sheet) {
	t.Helper()
	data, err := vector.SVG(s)
	if err != nil {
		t.Fatal(err)
	}
	f.bytes += len(data)
	w := readSVG(t, data)
	f.texts += len(w.texts)
	framed := len(w.frame) > 0
	lo, hi := r2.Vec{X: printer, Y: printer}, r2.Vec{X: w.width - printer, Y: w.height - printer}
	if framed {
		lo, hi = extent(w.frame)
	}
	for i := range w.texts {
		a := &w.texts[i]
		inside := a.lo.X >= lo.X && a.lo.Y >= lo.Y && a.hi.X <= hi.X && a.hi.Y <= hi.Y
		border := framed && (a.hi.X <= lo.X || a.lo.X >= hi.X || a.hi.Y <= lo.Y || a.lo.Y >= hi.Y) && a.lo.X >= 0 && a.lo.Y >= 0 && a.hi.X <= w.width && a.hi.Y <= w.height
		if !inside && !border {
			f.outside++
			f.add("%s as written: %q leaves the frame", s.Name, a.label)
		}
		// Dots and strokes alone are too small to be measured.
		if strings.ContainsFunc(a.label, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) && a.height < smallest-heightError {
			f.small++
			f.add("%s as written: %q is %.2f mm high", s.Name, a.label, a.height)
		}
		for k := range w.texts[:i] {
			b := &w.texts[k]
			if !far([2]r2.Vec{a.lo, a.hi}, [2]r2.Vec{b.lo, b.hi}) && apart(a.hull, b.hull) < -touching {
				f.overlaps++
				f.add("%s as written: %q overlaps %q", s.Name, a.label, b.label)
			}
		}
		for _, shape := range w.fills {
			l, h := extent(shape)
			if !far([2]r2.Vec{a.lo, a.hi}, [2]r2.Vec{l, h}) && apart(a.hull, shape) < -touching {
				f.onThin++
				f.add("%s as written: %q lies on an arrowhead or mark", s.Name, a.label)
			}
		}
	}
	for i := range w.lines {
		f.checkLine(s.Name, w, &w.lines[i])
	}
}

func (f *flaws) checkLine(sheet string, w *written, l *writtenLine) {
	lo, hi := extent(l.path)
	for i := range w.texts {
		a := &w.texts[i]
		if far([2]r2.Vec{a.lo, a.hi}, [2]r2.Vec{lo, hi}) {
			continue
		}
		for k := 1; k < len(l.path); k++ {
			if far([2]r2.Vec{a.lo, a.hi}, segmentExtent(l.path[k-1], l.path[k])) || apart(a.hull, l.path[k-1:k+1]) > -touching {
				continue
			}
			if l.width >= wideLine || l.dashed {
				f.onObject++
			} else {
				f.onThin++
			}
			f.add("%s as written: %q lies on a line %.2f wide at %.1f, %.1f", sheet, a.label, l.width, a.lo.X, a.lo.Y)
			break
		}
	}
}

func segmentExtent(p, q r2.Vec) [2]r2.Vec {
	return [2]r2.Vec{{X: min(p.X, q.X), Y: min(p.Y, q.Y)}, {X: max(p.X, q.X), Y: max(p.Y, q.Y)}}
}
