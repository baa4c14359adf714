package eval

import (
	"fmt"

	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/syntax"
)

// declareOnce does what a design has only one of beside its parts: the site,
// the shop, the finish, the job.
func (e *evaluator) declareOnce(d *syntax.Declaration, table *Declaration, s *scope) {
	word := table.Keyword
	if first, twice := e.settings[word]; twice && !(word == "finish" && e.isOwn(d.Keyword.At) && !e.isOwn(first)) {
		note(e.report(d.Keyword.At, "keep one of the two", "'%s' is given twice", word), first, "first given here")
		return
	}
	e.settings[word] = d.Keyword.At
	e.noClauses(d)
	what := "the " + word
	switch {
	case table.Named && d.Name.Text == "":
		e.missing(d.Keyword.At, "write it as "+table.Form, "a %s needs a name", word)
	case table.Named:
		what = fmt.Sprintf("%s '%s'", word, d.Name.Text)
	case d.Name.Text != "":
		e.report(d.Name.At, "write it as "+table.Form, "a %s has no name", word)
	}
	if d.Index != nil {
		e.report(d.Index.Span(), "leave the index out", "a %s takes no index", word)
	}
	b := e.newBody(d, table, what)
	defer b.done()
	var r rack
	b.each = r.add
	if b.readAll(d.Body, s); b.failed {
		return
	}
	switch word {
	case "site":
		b.site()
	case "shop":
		b.shop(&r)
	case "finish":
		b.finish(d.Name.Text)
	case "job":
		b.job()
	}
}

// isOwn reports whether a place is in the design's own file. What the design says of
// its finish goes over what it brings.
func (e *evaluator) isOwn(at source.Span) bool { return at.File == e.file.Source }

func (b *body) site() {
	site := &design.Site{
		Slope:    b.number("slope"),
		Exposure: b.wordOf("exposure"),
		Terrain:  b.wordOf("terrain"),
	}
	if g := b.find("slope"); g != nil && site.Slope != 0 {
		b.slopeAt = g.at
	}
	if g := b.find("push"); g != nil {
		site.Push, site.PushHeight = g.args[0].value.q.Newtons(), g.args[1].value.q.Number
	}
	if g := b.find("wind"); g != nil {
		site.Wind = g.args[0].value.q.MetresPerSecond()
		var ok bool
		if site.Method, ok = b.windMethod(); !ok {
			return
		}
	}
	if !b.surroundings(site) {
		return
	}
	b.design.Site = site
}

// windMethod returns the standard by which the wind is worked out: the one that
// is named, or the one that the lie of the country is given by.
func (b *body) windMethod() (design.WindMethod, bool) {
	method := design.WindMethod(b.wordOf("method"))
	exposure, terrain := b.find("exposure"), b.find("terrain")
	if method == design.NoMethod {
		switch {
		case exposure == nil && terrain == nil:
			b.missing(b.spanOf("wind"), "add method asce7 and exposure C, or method en1991 and terrain II", "'wind' also needs a method")
			return method, false
		case exposure != nil && terrain != nil:
			note(b.report(terrain.word, "keep one of the two", "'exposure' is for asce7 and 'terrain' for en1991; the site gives both"),
				exposure.word, "the other is given here")
			return method, false
		case exposure != nil:
			return design.ASCE7, true
		}
		return design.EN1991, true
	}
	word, own, other := "exposure", exposure, terrain
	if method == design.EN1991 {
		word, own, other = "terrain", terrain, exposure
	}
	switch {
	case other != nil:
		b.report(other.word, "give '"+word+"' instead", "'%s' is not for %s", other.Word, method)
		return method, false
	case own == nil:
		b.missing(b.spanOf("method"), "add a line such as "+b.example(b.table.property(word, "").Example), "%s also needs '%s'", method, word)
		return method, false
	}
	return method, true
}

// finishes are the words that say how a piece is finished.
var finishes = [...]design.FinishKind{design.Paint, design.Galvanize, design.Weather, design.Brushed}

func (b *body) finish(name string) {
	f := &design.Finish{Name: name, Price: b.number("price") * 1e6} // a mm2 to a m2
	for _, k := range finishes {
		if b.has(string(k)) {
			f.Kind = k
		}
	}
	b.design.Finish = f
}
