package eval

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/syntax"
)

var revisionDeclaration = Declaration{
	Keyword: "revision", Top: true, Form: `revision "B" { … }`,
	Meaning: "an issue of the drawings, one declaration for each, in order; the last is written on the papers",
	Properties: []Property{
		{Word: "date", Arguments: []Argument{{Kind: Text}},
			Meaning: "when it was issued: year, month and day", Default: "none", Example: `date "2026-11-30"`},
		{Word: "note", Arguments: []Argument{{Kind: Text}},
			Meaning: "what changed", Default: "none", Example: `note "moon raised 2 in"`},
	},
}

// mostLetters is the greatest number of letters in the name of a revision: as many as
// a title block has room for beside the fingerprint.
const mostLetters = 4

// issue is how dates are written, as of ISO 8601.
const issue = "2006-01-02"

// revise takes an issue of the drawings. Those of a file that is brought are not of
// this design (see taken).
func (e *evaluator) revise(d *syntax.Declaration, table *Declaration, s *scope) {
	e.noClauses(d)
	b := e.newBody(d, table, "the revision")
	defer b.done()
	if d.Title != nil {
		b.at = d.Title.Span()
		b.what = fmt.Sprintf("revision '%s'", d.Title.Text)
	}
	named := d.Title != nil && b.lettered(strings.TrimSpace(d.Title.Text))
	if b.readAll(d.Body, s); b.failed || !named {
		return
	}
	r := &e.revisions[len(e.revisions)-1]
	r.Date, r.Note = b.wordOf("date"), b.wordOf("note")
	if b.dated(r) {
		e.design.Revisions = append(e.design.Revisions, r.Revision)
	}
}

// lettered enters a revision by its letter, or reports what is wrong with that.
func (b *body) lettered(letter string) bool {
	i := slices.IndexFunc(b.revisions, func(r revised) bool { return r.Letter == letter })
	switch n := len([]rune(letter)); {
	case n == 0:
		b.report(b.at, `write it as revision "B" { … }`, "a revision needs a letter")
		return false
	case n > mostLetters:
		b.report(b.at, "put what changed into its note", "the letter of a revision has at most %d characters", mostLetters)
		return false
	case i >= 0:
		note(b.report(b.at, "give the later one the next letter", "there are two revisions '%s'", letter), b.revisions[i].at, "first given here")
		return false
	}
	b.revisions = append(b.revisions, revised{Revision: design.Revision{Letter: letter}, at: b.at})
	return true
}

// dated reports whether the date of a revision, which is the last, is one and is not
// before that of another; what is wrong with it is reported, and the date dropped.
func (b *body) dated(r *revised) bool {
	g := b.find("date")
	if g == nil {
		return true
	}
	if _, err := time.Parse(issue, r.Date); err != nil {
		b.report(g.args[0].at, `write it as date "2026-11-30"`, "this is not a date: year, month and day")
		r.Date = ""
		return false
	}
	for _, before := range b.revisions {
		if before.Date > r.Date {
			note(b.report(g.args[0].at, "put revisions in the order of their dates", "revision '%s' is dated before revision '%s'", r.Letter, before.Letter), before.at, "declared here")
			r.Date = ""
			return false
		}
	}
	return true
}

// A revised is a revision with its place in the text.
type revised struct {
	design.Revision
	at source.Span
}
