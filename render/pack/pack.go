// Package pack makes the print pack of a job: the general arrangement, the
// parts list with what there is to say, and a sheet for each different flat
// blank. It works nothing out: every number is read from the job.
package pack

import (
	"fmt"
	"strconv"
	"strings"

	"stabile/fab"
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
}

// crowded is the number of parts beyond which sizes go from notes in the views
// to a table.
const crowded = 10

// Sheets returns the sheets of the pack in order.
func Sheets(j *fab.Job, o Options) []*ink.Sheet {
	return numbered(func(digits int) []*sheet.Page {
		k := newPack(j, o)
		k.digits = digits
		k.generalArrangement()
		k.partsList()
		k.blanks()
		k.layouts()
		k.rollingCards()
		k.welding()
		k.calculation()
		k.estimate()
		k.cautionsSheet()
		return k.pages
	})
}

// numbered draws sheets whose names begin with their number in as many digits as
// all of them need, so that a folder lists them in order. Two digits do for most;
// how many there are is known only when they are drawn.
func numbered(draw func(digits int) []*sheet.Page) []*ink.Sheet {
	pages := draw(leastDigits)
	if digits := len(strconv.Itoa(len(pages))); digits > leastDigits {
		pages = draw(digits)
	}
	return sheet.Finish(pages)
}

// leastDigits is in how many digits the sheets of a small pack are numbered.
const leastDigits = 2

// numberedName is a name after the number of the sheet that follows the others.
func (k *pack) numberedName(slug string) string {
	return fmt.Sprintf("%0*d-%s", k.digits, len(k.pages)+1, slug)
}

func newPack(j *fab.Job, o Options) *pack {
	k := &pack{job: j, options: o, units: j.Design.Units, style: draft.Millimetre(), digits: leastDigits}
	if k.units == quantity.NoSystem {
		k.units = quantity.Millimetre
	}
	if k.units == quantity.Inch {
		k.style = draft.Inch()
	}
	return k
}

// A pack is the set of sheets in the making.
type pack struct {
	job     *fab.Job
	options Options
	units   quantity.System
	style   draft.Style
	digits  int // of the numbers of sheets
	pages   []*sheet.Page
}

// page adds a page to the pack, named by its place in it.
func (k *pack) page(paper sheet.Paper, slug string, b sheet.Block) *sheet.Page {
	p := k.newPage(paper, slug, b)
	k.pages = append(k.pages, p)
	return p
}

// newPage returns a page with what all title blocks have in common.
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
	b.Revision, b.Date = d.Revision, k.options.Date
	b.Owner = d.Owner()
	return sheet.NewPage(paper, k.numberedName(slug), b)
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
