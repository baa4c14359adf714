package cli

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"stabile/fab"
	"stabile/fab/study"
	"stabile/render/contact"
	"stabile/render/ink"
	"stabile/render/list"
	"stabile/render/picture"
	"stabile/render/report"
	"stabile/render/terminal"
	"stabile/render/vector"
)

// mostEntries is the greatest number of variations on one contact sheet; more are
// not looked at.
const mostEntries = 240

// contactDPI is how many dots an inch a contact sheet or a plot has as a PNG: one
// that reads well on a screen.
const contactDPI = 110

// The size of the picture of one variation on a contact sheet, in dots.
const (
	entryLong  = 400
	entryShort = 300
)

// variationEndings are the endings of files that variations can be written to.
func variationEndings() []string { return []string{".pdf", ".svg", ".png", ".csv", ".json"} }

// writeVariations writes variations to a file, in the form that its ending asks
// for: a contact sheet or a plot, or a list.
func (c *call) writeVariations(ctx context.Context, out string, w *wish, s *study.Study, v *terminal.Variations) error {
	ending := strings.ToLower(filepath.Ext(out))
	var data bytes.Buffer
	switch ending {
	case ".csv":
		if err := list.CSV(&data, list.Variations(v.Results, v.Design.Units)); err != nil {
			return err
		}
		return c.save(ctx, named(out, data.Bytes()))
	case ".json":
		if err := report.OfVariations(v.Design, v.Tried, v.Keep, v.By, v.Results).WriteJSON(&data); err != nil {
			return err
		}
		return c.save(ctx, named(out, data.Bytes()))
	case ".pdf", ".svg", ".png":
	default:
		return misuse("end its name in "+strings.Join(variationEndings(), ", "), "-o cannot write '%s'", out)
	}
	if len(v.Results) == 0 {
		return misuse("relax --keep", "none of %d variations meets --keep: there is nothing to draw", v.Tried)
	}
	o := contact.Options{Date: w.date, Said: v.Said(), One: ending != ".pdf", Paper: w.paper.orShop(v.Design).Landscape()}
	sheets, err := c.variationSheets(ctx, w, s, v, o)
	if err != nil {
		return err
	}
	var bytes []byte
	switch ending {
	case ".pdf":
		bytes, err = vector.PDF(sheets, vector.Info{Title: v.Design.Title, Subject: "variations"})
	case ".svg":
		bytes, err = vector.SVG(sheets[0])
	case ".png":
		bytes, err = vector.PNG(sheets[0], contactDPI)
	}
	if err != nil {
		return err
	}
	return c.save(ctx, named(out, bytes))
}

// variationSheets draws the plot that was asked for, or the contact sheet.
func (c *call) variationSheets(ctx context.Context, w *wish, s *study.Study, v *terminal.Variations, o contact.Options) ([]*ink.Sheet, error) {
	if w.plot != "" {
		names := w.axes()
		at := len(w.ask()) - len(names)
		y, x := contact.NewAxis(v.Design, at), contact.NewAxis(v.Design, at+1)
		one, err := contact.Plot(v.Design, v.Results, x, y, o)
		return []*ink.Sheet{one}, err
	}
	if n := len(v.Results); n > mostEntries {
		return nil, misuse(fmt.Sprintf("add --first %d, or a stricter --keep", mostEntries), "a contact sheet has room for %d variations, not %d", mostEntries, n)
	}
	entries := make([]contact.Entry, len(v.Results))
	for i, r := range v.Results {
		entries[i].Result = r
		if r.Err != nil {
			continue
		}
		j, err := s.Job(r.Trial, fab.WithPlan)
		if err != nil {
			return nil, err
		}
		entries[i].Job, entries[i].Result = j, study.Of(r.Trial, r.Number, j)
	}
	if w.picture {
		if err := contact.Picture(ctx, entries, entryLong, entryShort, picture.Options{Sketch: true}); err != nil {
			return nil, err
		}
	}
	return contact.Sheets(v.Design, entries, o)
}
