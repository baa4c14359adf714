package cli

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"stabile/cmd/internal/file"
	"stabile/fab"
	"stabile/fab/workers"
	"stabile/render/ink"
	"stabile/render/list"
	"stabile/render/pack"
	"stabile/render/vector"
)

// patternFolder is the folder, in that of the pack, of the files for a cutting
// table.
const patternFolder = "patterns"

// A writer gathers the files of a pack and writes them, all or none.
type writer struct {
	target
	title string
	files []file.File
	note  []string // what is said of each file
	err   error    // the first
}

// add adds a file in the target's folder.
func (w *writer) add(name, note string, data []byte, err error) {
	if err != nil && w.err == nil {
		w.err = err
	}
	path := filepath.Join(w.dir, name)
	w.files = append(w.files, file.File{Path: path, Data: data})
	w.note = append(w.note, note)
}

// document adds sheets as one PDF.
func (w *writer) document(name, subject string, sheets []*ink.Sheet) {
	data, err := w.book(subject, sheets)
	w.addBook(name, len(sheets), data, err)
}

// book returns sheets as one PDF.
func (w *writer) book(subject string, sheets []*ink.Sheet) ([]byte, error) {
	return vector.PDF(sheets, vector.Info{Title: w.title, Subject: subject})
}

// addBook adds a PDF of so many sheets.
func (w *writer) addBook(name string, sheets int, data []byte, err error) {
	note := fmt.Sprintf(", %d sheets", sheets)
	if sheets == 1 {
		note = ", 1 sheet"
	}
	w.add(name, note, data, err)
}

// pack adds the shop drawings: in a folder each book as a PDF, and an SVG for each
// sheet, with the cut list for a spreadsheet; else all as one PDF.
func (w *writer) pack(j *fab.Job, books []pack.Book) {
	if w.only {
		var all []*ink.Sheet
		for _, b := range books {
			all = append(all, b.Sheets...)
		}
		w.document(w.name, "shop drawings", all)
		return
	}
	// Files are made side by side, the longest first, and added in their order.
	type made struct {
		data []byte
		err  error
	}
	var sheets []*ink.Sheet
	for _, b := range books {
		sheets = append(sheets, b.Sheets...)
	}
	all := make([]made, len(books)+len(sheets))
	workers.Each(len(all), func(i int) {
		if i < len(books) {
			all[i].data, all[i].err = w.book("shop drawings: "+string(books[i].Name), books[i].Sheets)
		} else {
			all[i].data, all[i].err = vector.SVG(sheets[i-len(books)])
		}
	})
	for i, b := range books {
		w.addBook(w.name+"-"+string(b.Name)+".pdf", len(b.Sheets), all[i].data, all[i].err)
	}
	for i, s := range sheets {
		f := &all[len(books)+i]
		w.add(s.Name+".svg", "", f.data, f.err)
	}
	var cuts bytes.Buffer
	err := list.CSV(&cuts, list.Cuts(j.Plan.Sheets, j.Plan.Saw, j.Design.Units))
	w.add(w.name+"-cut-list.csv", ", for a spreadsheet", cuts.Bytes(), err)
}

// patterns adds the full-size patterns: as one PDF, and in a folder as an SVG
// for a cutting table for each blank.
func (w *writer) patterns(j *fab.Job, o pack.PatternOptions) {
	const subject = "full-size patterns"
	sheets, err := pack.Patterns(j, o)
	if err != nil {
		w.err = cmp.Or(w.err, err)
		return
	}
	if w.only {
		w.document(w.name, subject, sheets)
		return
	}
	w.document(w.name+"-full-size.pdf", subject, sheets)
	for _, s := range pack.CutFiles(j, o) {
		data, err := vector.Plain(s)
		w.add(filepath.Join(patternFolder, s.Name+".svg"), "", data, err)
	}
}

// set is what is to be written. A PDF alone has a folder of its own only where
// that is missing.
func (w *writer) set() file.Set {
	s := file.Set{Files: w.files, Folder: filepath.Clean(w.dir), Named: w.named}
	if _, err := os.Stat(s.Folder); w.only && err == nil {
		s.Folder = ""
	}
	return s
}

// tell says what was written and which sheets lie beside it from before.
func (w *writer) tell(to io.Writer) error {
	var b strings.Builder
	for i, f := range w.files {
		lead := "     "
		if w.note[i] != "" {
			lead = "wrote"
		}
		fmt.Fprintf(&b, "%s %s%s\n", lead, printable(f.Path), w.note[i])
	}
	if before := w.before(); len(before) > 0 {
		fmt.Fprintf(&b, "\nAlso in this folder, but not part of this pack; do not cut from them:\n")
		for _, path := range before {
			fmt.Fprintf(&b, "      %s\n", printable(path))
		}
	}
	b.WriteByte('\n')
	_, err := io.WriteString(to, b.String())
	return err
}

// before returns the sheets and patterns that lie beside what was written from
// before.
func (w *writer) before() []string {
	if w.only {
		return nil
	}
	wrote := make([]string, len(w.files))
	for i, f := range w.files {
		wrote[i] = f.Path
	}
	return append(olderSheets(w.dir, wrote), olderSheets(filepath.Join(w.dir, patternFolder), wrote)...)
}
