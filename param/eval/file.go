package eval

import (
	"path"
	"slices"
	"strings"

	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// taken returns the statements of a file that the design consists of: of a used
// file, what it lets, adjusts and declares beside parts.
func (e *evaluator) taken(f *syntax.File) []syntax.Statement {
	if f == e.file {
		return f.Statements
	}
	var list []syntax.Statement
	for _, st := range f.Statements {
		switch st := st.(type) {
		case *syntax.Let, *syntax.Adjust:
			list = append(list, st)
		case *syntax.Declaration:
			if k := st.Keyword.Text; !isPart(k) && k != "hole" && k != "revision" {
				list = append(list, st)
			}
		}
	}
	return list
}

func isPart(keyword string) bool {
	return slices.Contains([]string{"base", "post", "ball", "bowl", "ring"}, keyword)
}

// readSettings takes the title and the units from the top of a file, wherever
// in it they stand. The title of a used file is its own.
func (e *evaluator) readSettings(f *syntax.File) {
	given := map[string]source.Span{}
	for _, s := range f.Statements {
		set, ok := s.(*syntax.Setting)
		if !ok {
			e.noteElsewhere(f, s)
			continue
		}
		word := set.Keyword.Text
		if first, twice := given[word]; twice && word != "bring" {
			note(e.report(set.Keyword.At, "keep one of the two", "'%s' is given twice", word), first, "first given here")
			continue
		}
		given[word] = set.Keyword.At
		switch word {
		case "sculpture":
			if t, ok := set.Value.(*syntax.String); ok && f == e.file {
				e.design.Title = t.Text
			}
		case "units":
			e.readUnits(f.Source, set.Value)
		case "bring":
		default:
			e.unknownKeyword(set.Keyword)
		}
	}
	if f != e.file {
		return
	}
	e.design.Units = e.units[f.Source]
	if e.design.Title == "" {
		e.design.Title = strings.TrimSuffix(path.Base(f.Source.Name), ".stabile")
	}
}

// noteElsewhere notes the name of a part that a used file declares at its top.
func (e *evaluator) noteElsewhere(f *syntax.File, s syntax.Statement) {
	if d, ok := s.(*syntax.Declaration); ok && f != e.file && isPart(d.Keyword.Text) {
		e.elsewhere[d.Name.Text] = d.Name.At
	}
}

func (e *evaluator) readUnits(f *source.File, x syntax.Expression) {
	if isBad(x) {
		return
	}
	word, _ := syntax.Word(x)
	switch word {
	case "inch":
		e.units[f] = quantity.Inch
	case "mm":
		e.units[f] = quantity.Millimetre
	default:
		e.report(x.Span(), "write 'units inch' or 'units mm'", "the units are inch or mm, not '%s'", x.Span().Text())
		e.bare[f] = true // the units are there; that they are wrong has been reported
	}
}

// unitsAt returns the units of a plain number at a place: those of its file.
// What comes from outside of all files is in the units of the design's own.
func (e *evaluator) unitsAt(at source.Span) (quantity.Unit, *source.File, bool) {
	f := at.File
	if !e.reads(f) {
		f = e.file.Source
	}
	u, ok := e.units[f].Unit()
	return u, f, ok
}

// unitsDiffer reports whether plain numbers at two places are in different
// units.
func (e *evaluator) unitsDiffer(a, b source.Span) bool {
	if a.File == b.File {
		return false
	}
	u, _, _ := e.unitsAt(a)
	v, _, _ := e.unitsAt(b)
	return u != v
}

func (e *evaluator) reads(f *source.File) bool {
	for _, g := range e.files {
		if g.Source == f {
			return true
		}
	}
	return false
}
