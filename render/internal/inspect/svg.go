package inspect

import (
	"errors"
	"fmt"
	"html"
	"iter"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
)

// inkDepth is by how much, in mm, a line may reach into the convex hull of a
// text's ink.
const inkDepth = 0.05

// writtenExact is within what, in mm, written points are the same: they are
// rounded to a micrometre each way.
const writtenExact = 0.003

// A style is how a group draws.
type style struct {
	width      float64
	dashes     int
	fill, tint bool // a tint is a light fill, on which writing may stand
}

// readSVG finds what is on a sheet as it is written. It knows the elements that
// sheets have, and fails at any other and at any transform.
func readSVG(data []byte) (*page, error) {
	p := &page{depth: inkDepth, exact: writtenExact}
	open := []style{{}}
	letters := map[string]letter{}
	defining := false
	var words *text // of the group that is open
	var at attributes
	for tag := range tags(string(data)) {
		at.read(tag)
		var err error
		switch name, _, _ := strings.Cut(tag, " "); name {
		case "?xml", "title", "/title", "/svg":
		case "/g":
			if len(open) < 2 {
				return nil, errors.New("a group ends that did not begin")
			}
			open = open[:len(open)-1]
			p.addWritten(words)
			words = nil
		case "g":
			open = append(open, at.style(open[len(open)-1]))
			if label, ok := at.lookup("aria-label"); ok {
				words = &text{label: html.UnescapeString(label)}
			}
		case "defs", "/defs":
			defining = name == "defs"
		case "use":
			err = words.put(letters, &at)
		case "svg":
			err = p.size(&at)
		case "circle":
			now := open[len(open)-1]
			p.addCircle(r2.Vec{X: at.number("cx"), Y: at.number("cy")}, at.number("r"), now.width, now.dashes)
		case "image":
			from := r2.Vec{X: at.number("x"), Y: at.number("y")}
			p.pictures = append(p.pictures, r2.Box{Min: from, Max: r2.Add(from, r2.Vec{X: at.number("width"), Y: at.number("height")})})
		case "path":
			if defining {
				err = at.define(letters)
			} else {
				err = p.path(&at, open[len(open)-1])
			}
		default:
			err = errors.New("an element that was not expected")
		}
		if at.get("transform") != "" {
			err = errors.New("a transform")
		}
		if err = errors.Join(err, at.err); err != nil {
			return nil, fmt.Errorf("%.80q: %w", tag, err)
		}
	}
	return p, nil
}

// size takes the size of the sheet, whose view box is to be in mm.
func (p *page) size(at *attributes) error {
	p.width, p.height = at.number("width"), at.number("height")
	want := "0 0 " + strings.TrimSuffix(at.get("width"), "mm") + " " + strings.TrimSuffix(at.get("height"), "mm")
	if got := at.get("viewBox"); got != want {
		return fmt.Errorf("the view box is %q, want %q", got, want)
	}
	return nil
}

// path takes a path: a text, a mark or lines.
func (p *page) path(at *attributes, now style) error {
	d := pathData{rest: at.get("d")}
	paths, err := d.read()
	if err != nil {
		return err
	}
	label, isText := at.lookup("aria-label")
	switch {
	case isText:
		p.addWritten(&text{label: html.UnescapeString(label), ink: d.points, sum: d.sum})
	case now.fill && now.tint:
	case now.fill:
		p.marks = append(p.marks, paths...)
	default:
		for _, path := range paths {
			p.addLine(path, now.width, now.dashes)
		}
	}
	return nil
}

// A letter is the outline of a letter, from its own start.
type letter struct {
	points []r2.Vec
	sum    outline
}

// define takes the outline of a letter.
func (a *attributes) define(letters map[string]letter) error {
	id, d := a.get("id"), pathData{rest: a.get("d")}
	_, err := d.read()
	if _, twice := letters[id]; twice || id == "" {
		return errors.New("a letter without a name of its own")
	}
	letters[id] = letter{d.points, d.sum}
	return err
}

// put adds a letter to a text, at its place.
func (t *text) put(letters map[string]letter, at *attributes) error {
	l, ok := letters[strings.TrimPrefix(at.get("xlink:href"), "#")]
	if t == nil || !ok {
		return errors.New("a letter of no text, or one that is not defined")
	}
	by := r2.Vec{X: at.number("x"), Y: at.number("y")}
	for _, p := range l.points {
		t.ink = append(t.ink, r2.Add(p, by))
	}
	t.sum.length, t.sum.area = t.sum.length+l.sum.length, t.sum.area+l.sum.area
	return nil
}

// addWritten takes a text of which the ink and the outlines are known; nil and
// spaces are none.
func (p *page) addWritten(t *text) {
	if t == nil || len(t.ink) == 0 {
		return
	}
	t.box, t.height, t.lacks = design.Bounds(t.ink), heightOf(t.label, t.sum), lacking(t.label)
	p.texts = append(p.texts, *t)
}

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

// attributes are those of one tag.
type attributes struct {
	list [][2]string
	err  error
}

func (a *attributes) read(tag string) {
	a.list, a.err = a.list[:0], nil
	for {
		before, rest, found := strings.Cut(tag, `="`)
		value, after, closed := strings.Cut(rest, `"`)
		if !found || !closed {
			return
		}
		a.list = append(a.list, [2]string{before[strings.LastIndexByte(before, ' ')+1:], value})
		tag = after
	}
}

func (a *attributes) lookup(key string) (string, bool) {
	for _, kv := range a.list {
		if kv[0] == key {
			return kv[1], true
		}
	}
	return "", false
}

func (a *attributes) get(key string) string {
	value, _ := a.lookup(key)
	return value
}

// number returns a length in mm.
func (a *attributes) number(key string) float64 {
	x, err := strconv.ParseFloat(strings.TrimSuffix(a.get(key), "mm"), 64)
	if err != nil {
		a.err = fmt.Errorf("%s: %w", key, err)
	}
	return x
}

// style returns how a group draws that is within another.
func (a *attributes) style(outer style) style {
	if a.get("stroke-width") != "" {
		outer.width = a.number("stroke-width")
	}
	if d := a.get("stroke-dasharray"); d != "" {
		outer.dashes = len(strings.Fields(d))
	}
	if fill := a.get("fill"); strings.HasPrefix(fill, "#") && len(fill) == 7 {
		grey, err := strconv.ParseUint(fill[1:3], 16, 8)
		if err != nil {
			a.err = err
		}
		outer.fill, outer.tint = true, float64(grey) >= darkShade*255
	}
	return outer
}
