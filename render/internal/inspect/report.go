package inspect

import (
	"fmt"
	"slices"

	"stabile/render/ink"
	"stabile/render/vector"
)

// A Kind is a kind of fault.
type Kind int

// The kinds of fault.
const (
	Overlap      Kind = iota // writing over other writing
	Outside                  // writing, a line or a picture outside the frame
	Small                    // writing under the least height
	Missing                  // letters that the typefaces lack
	OnWide                   // writing on a wide or dashed line, which are those of the object
	OnNarrow                 // writing on another line
	OnMark                   // writing on an arrowhead or another dark area
	OnPicture                // writing on a picture
	LeadersCross             // two leaders of balloons cross
	Garbled                  // a number that is none, a unit twice, a verb of a format
	BrokenWord               // a word or a number that goes on in the next line
)

// String returns the kind in words.
func (k Kind) String() string {
	return [...]string{
		"writing over writing", "outside the frame", "too small", "letters missing", "writing on a wide line",
		"writing on a narrow line", "writing on a mark", "writing on a picture", "leaders cross",
		"garbled", "a broken word",
	}[k]
}

// A Fault is one thing that is wrong with a sheet.
type Fault struct {
	Kind    Kind
	Sheet   string
	Written bool // found in the SVG, not in the model
	Words   string
}

// String describes the fault on one line.
func (f Fault) String() string {
	if f.Written {
		return f.Sheet + " as written: " + f.Words
	}
	return f.Sheet + ": " + f.Words
}

// A Report is what was found on sheets.
type Report struct {
	Faults    []Fault
	Texts     int // how many were looked at, each in the model or in an SVG
	Bytes     int // of SVG
	Crossings Crossings
	Thin      []string // sheets of which less than a third is used
	CutShort  []string // writing that ends in an ellipsis within a word
}

// Add adds what was found on other sheets.
func (r *Report) Add(o Report) {
	r.Faults = append(r.Faults, o.Faults...)
	r.Texts += o.Texts
	r.Bytes += o.Bytes
	r.Crossings.add(o.Crossings)
	r.Thin = append(r.Thin, o.Thin...)
	r.CutShort = append(r.CutShort, o.CutShort...)
}

// Count returns how many faults there are of some kinds.
func (r *Report) Count(kinds ...Kind) int {
	n := 0
	for _, f := range r.Faults {
		if slices.Contains(kinds, f.Kind) {
			n++
		}
	}
	return n
}

// Model looks at a sheet as it stands in the drawing model.
func Model(s *ink.Sheet) Report {
	p := readModel(s)
	r := p.look(s.Name, false)
	r.Crossings = p.crossings()
	r.CutShort = p.cutShort()
	if used, ok := p.used(); ok && used < thin {
		r.Thin = append(r.Thin, s.Name)
	}
	return r
}

// SVG looks at a sheet as it is written. It fails at an SVG that has what sheets
// do not: other elements, transforms, other kinds of curve.
func SVG(name string, data []byte) (Report, error) {
	p, err := readSVG(data)
	if err != nil {
		return Report{}, fmt.Errorf("%s as written: %w", name, err)
	}
	r := p.look(name, true)
	r.Bytes = len(data)
	return r, nil
}

// Sheets looks at sheets twice, in the model and as they are written.
func Sheets(sheets ...*ink.Sheet) (Report, error) {
	var r Report
	for _, s := range sheets {
		r.Add(Model(s))
		data, err := vector.SVG(s)
		if err != nil {
			return r, err
		}
		written, err := SVG(s.Name, data)
		if err != nil {
			return r, err
		}
		r.Add(written)
	}
	return r, nil
}
