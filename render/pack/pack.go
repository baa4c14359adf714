// Package pack makes the print pack of a job: three books of sheets, for the
// bench, for the engineer and for the office, and full-size patterns. It works
// nothing out: every number is read from the job.
package pack

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/fab/sheets"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// Options are the choices of whoever prints. The zero Options are of use.
type Options struct {
	// Arrangement and Bench are the papers of the arrangement and of the
	// sheets for the bench. The zero Paper lets the job choose: A3 or ANSI B,
	// larger where the piece needs it, and A4 or ANSI A.
	Arrangement, Bench sheet.Paper

	Date string // of issue, as it is to read; "" for none

	Books        []BookName // that are wanted; none for all
	Only         []string   // names of parts: the bench book is of their blanks, cutting and rolling alone
	SkipReadyCut bool       // no blanks of what is bought cut to size
}

// crowded is the number of parts beyond which sizes go from notes in the views
// to a table.
const crowded = 10

// A BookName is one of the three books of a pack.
type BookName string

// The books, each for whom it is.
const (
	Bench    BookName = "bench"    // who makes it: arrangement, parts, blanks, cutting, rolling, welding, assembly
	Engineer BookName = "engineer" // who checks it: what was checked, loads, calculation
	Office   BookName = "office"   // who buys and charges: shopping, hours and money
)

// BookNames returns the books in their order.
func BookNames() []BookName { return []BookName{Bench, Engineer, Office} }

// A Book is the sheets of one book. A sheet's name begins with that of its book and
// its number in it.
type Book struct {
	Name   BookName
	Sheets []*ink.Sheet
}

// Books returns the books of the pack that are wanted, in their order. One that has
// nothing to say is left out.
func Books(j *fab.Job, o Options) []Book {
	var books []Book
	for _, name := range BookNames() {
		if len(o.Books) > 0 && !slices.Contains(o.Books, name) || len(o.Only) > 0 && name != Bench {
			continue
		}
		if list := newPack(j, o).book(name); len(list) > 0 {
			books = append(books, Book{name, list})
		}
	}
	return books
}

// Sheets returns the sheets of all books that are wanted, one book after the other.
func Sheets(j *fab.Job, o Options) []*ink.Sheet {
	var list []*ink.Sheet
	for _, b := range Books(j, o) {
		list = append(list, b.Sheets...)
	}
	return list
}

// book draws one book.
func (k *pack) book(name BookName) []*ink.Sheet {
	k.name = string(name)
	switch name {
	case Bench:
		k.benchBook()
	case Engineer:
		k.engineerBook()
	case Office:
		k.officeBook()
	}
	return k.finish()
}

// benchBook draws the sheets for the bench. The bench page says on which sheet each
// blank is, so that it is drawn when all others are and then put in its place; the first
// blanks stand on what it leaves of its last sheet.
func (k *pack) benchBook() {
	if k.some() {
		blanks := k.blanks()
		k.act("blanks", func() { blanks.draw(blanks.shareOut(0)) })
		k.workActs()
		return
	}
	k.generalArrangement()
	front := len(k.pages)
	blanks := k.blanks()
	k.workActs()
	ahead, others := k.pages[:front:front], k.pages[front:]
	left := 0.0
	draw := func(pages []*blankPage) {
		k.pages = ahead
		k.act("blanks", func() { blanks.draw(pages) })
		k.host = nil
		if !pages[0].empty() {
			k.host = &sheet.Page{}
			blanks.on(pages[0], k.host)
			k.acts["blanks"] = append([]*sheet.Page{k.host}, k.acts["blanks"]...)
		}
		k.pages = append(k.pages, others...)
		k.insert(front, func() { left = k.benchPage() })
	}
	// What the bench page leaves is seen with all blanks on one page that is not drawn.
	k.pages = ahead
	k.act("blanks", func() {
		blanks.on(&blankPage{panels: blanks.panels, bare: true}, k.page(k.bench(), "", k.blankBlock()))
	})
	k.pages = append(k.pages, others...)
	k.insert(front, func() { left = k.benchPage() })
	room := left - benchSlack
	pages := blanks.shareOut(room)
	if draw(pages); left < room {
		pages = blanks.shareOut(0)
		draw(pages)
	}
	if k.host != nil {
		blanks.drawBeside(pages[0], k.pages[front+k.offset-1])
	}
}

// benchSlack is by how much, in mm, the bench page may grow when it says on which sheets
// the blanks are: a line of a table.
const benchSlack = 4.0

// workActs draws the sheets by which the blanks are cut, formed and joined.
func (k *pack) workActs() {
	k.act("layouts", k.layouts)
	f := &actFlow{pack: k}
	k.act("saw", func() { k.sawList(f) })
	k.act("rolling", func() { k.rollingCards(f) })
	if !k.some() {
		k.act("welds", func() { k.welding(f) })
	}
}

// officeBook draws what is bought and what it comes to.
func (k *pack) officeBook() {
	plan := k.job.Plan
	if len(plan.Sheets.Stacks)+len(plan.Sheets.Orders)+len(plan.Estimate.Work) == 0 && plan.Estimate.Money == nil && len(plan.Pipes.Posts) == 0 && plan.Saw == nil {
		return
	}
	k.indexed(func(index *sheet.Table) []entry {
		f := k.shopFlow("office", sheet.Block{Subtitle: "Shopping and estimate", Document: "Estimate"})
		if index != nil {
			f.Table(index)
		}
		list := []entry{{"What to buy", len(k.pages)}}
		k.buying(f, plan.Sheets)
		f.Table(k.lengthsTable(plan.Saw))
		list = append(list, entry{"Estimate of hours and money", len(k.pages)})
		k.estimate(f)
		return list
	})
}

// act draws the sheets of one act of the work, and keeps where they are.
func (k *pack) act(name string, draw func()) {
	from := len(k.pages)
	k.shared = false
	draw()
	if k.acts == nil {
		k.acts = map[string][]*sheet.Page{}
	}
	if k.shared {
		from-- // it begins on the sheet of the act before it
	}
	k.acts[name] = k.pages[from:len(k.pages):len(k.pages)]
}

// insert draws pages before those from a place on. What they write of the sheets
// after them counts how many they are themselves: they are drawn once more where
// they turn out to be several.
func (k *pack) insert(at int, draw func()) {
	before := k.pages[:at:at]
	k.later, k.from = k.pages[at:], at
	for n := 1; ; n = len(k.pages) - at {
		k.pages, k.offset = before, n
		draw()
		if len(k.pages)-at <= n {
			break
		}
	}
	k.pages = append(k.pages, k.later...)
	k.later = nil
}

// number returns the number that a page will have in its book, while pages are
// inserted before it.
func (k *pack) number(p *sheet.Page) int {
	if p == k.host {
		return k.from + k.offset
	}
	if i := slices.Index(k.later, p); i >= 0 {
		return k.from + k.offset + i + 1
	}
	return slices.Index(k.pages, p) + 1
}

// finish numbers and names the sheets: after the book and the number, in as many
// digits as all of them need, so that a folder lists them in order.
func (k *pack) finish() []*ink.Sheet {
	digits := max(leastDigits, len(strconv.Itoa(len(k.pages))))
	for i, p := range k.pages {
		p.Name = fmt.Sprintf("%s-%0*d-%s", k.name, digits, i+1, p.Name)
	}
	return sheet.Finish(k.pages)
}

// leastDigits is in how many digits the sheets of a small book are numbered.
const leastDigits = 2

func newPack(j *fab.Job, o Options) *pack {
	k := &pack{job: j, options: o, units: j.Design.Units, style: draft.Millimetre(), sheetOf: map[string]*sheet.Page{}}
	if k.units == quantity.NoSystem {
		k.units = quantity.Millimetre
	}
	if k.units == quantity.Inch {
		k.style = draft.Inch()
	}
	return k
}

// A pack is a book in the making.
type pack struct {
	job     *fab.Job
	options Options
	units   quantity.System
	style   draft.Style
	name    string // of the book
	pages   []*sheet.Page

	acts    map[string][]*sheet.Page
	shared  bool                   // the act in hand begins on the sheet of the one before it
	sheetOf map[string]*sheet.Page // of what is written on a piece, the page of its blank

	// While pages are inserted before others:
	later        []*sheet.Page // those
	from, offset int           // where they are inserted, and how many
	host         *sheet.Page   // stands for the last of those inserted, where blanks are on it
}

// some reports whether the book is of some parts only.
func (k *pack) some() bool { return len(k.options.Only) > 0 }

// wants reports whether a blank belongs in the book.
func (k *pack) wants(c *fab.Cut) bool {
	if k.options.SkipReadyCut && k.readyCut(c) {
		return false
	}
	return !k.some() || slices.ContainsFunc(c.Parts, k.wantsPart)
}

// wantsPart reports whether a part belongs in the book.
func (k *pack) wantsPart(name string) bool { return !k.some() || slices.Contains(k.options.Only, name) }

// wantsPiece reports whether what is written on a piece belongs in the book.
func (k *pack) wantsPiece(name string) bool {
	return !k.some() || slices.ContainsFunc(k.job.Parts, func(p fab.Part) bool {
		return k.wantsPart(p.Name) && slices.ContainsFunc(p.Blanks, func(b flat.Blank) bool { return b.Name == name })
	})
}

// readyCut reports whether all of a blank's pieces are bought cut to size.
func (k *pack) readyCut(c *fab.Cut) bool {
	if k.job.Plan == nil || k.job.Plan.Sheets == nil {
		return false
	}
	return !slices.ContainsFunc(c.Names, func(name string) bool {
		return !slices.ContainsFunc(k.job.Plan.Sheets.Orders, func(o sheets.Order) bool { return o.Name == name })
	})
}

// onSheet keeps on which page a blank is drawn.
func (k *pack) onSheet(c *fab.Cut, p *sheet.Page) {
	for _, n := range c.Names {
		k.sheetOf[n] = p
	}
}

// page adds a page to the book.
func (k *pack) page(paper sheet.Paper, slug string, b sheet.Block) *sheet.Page {
	p := k.newPage(paper, slug, b)
	k.pages = append(k.pages, p)
	return p
}

// newPage returns a page with what all title blocks have in common. The first of a
// book has the whole block, those after it a strip.
func (k *pack) newPage(paper sheet.Paper, slug string, b sheet.Block) *sheet.Page {
	d := k.job.Design
	b.Title = d.Title
	if d.Variation != "" {
		b.Title += ", " + d.Variation
	}
	if len(d.Set) > 0 {
		b.Title += ", " + strings.Join(d.Set, ", ")
	}
	b.Units = k.unit()
	b.Revision, b.Date = d.Revision(), cmp.Or(k.options.Date, d.Issued())
	b.Owner = d.Owner()
	if job := d.Job; job != nil {
		b.Job, b.Drawn, b.Approved = job.Number, job.Drawn, job.Approved
	}
	b.Strip = len(k.pages) > 0
	if !b.Strip {
		b.Finish = k.say().Finish(d.Finish)
	}
	return sheet.NewPage(paper, slug, b)
}

// unit returns the unit of lengths.
func (k *pack) unit() string {
	if k.units == quantity.Inch {
		return "in"
	}
	return "mm"
}

// paper returns a paper of the pack's system by the ISO or the ANSI name.
func (k *pack) paper(iso, ansi string) sheet.Paper {
	name := iso
	if k.units == quantity.Inch {
		name = ansi
	}
	p, _ := sheet.LookupPaper(name)
	return p
}

// bench returns the paper of the sheets for the bench, upright.
func (k *pack) bench() sheet.Paper {
	if k.options.Bench.Width > 0 {
		return k.options.Bench
	}
	return k.paper("A4", "ANSI A").Portrait()
}

// rule returns a length in general work, without its unit.
func (k *pack) rule(mm float64) string { return k.units.Rule(mm, quantity.Coarse) }

// fine returns a length of a flat, without its unit.
func (k *pack) fine(mm float64) string { return k.units.Rule(mm, quantity.Fine) }
