package vector

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"time"
	"unicode/utf16"

	"stabile/render/ink"
)

// The library ends every document with its catalogue, its information and its
// list of pages, objects 1 to 3, and then the table of where each object
// begins. It writes the clock's time there, in the local zone, and knows no
// bookmarks. finish keeps the other objects, but for the time in the typefaces,
// and rewrites that tail. What it finds of the library's layout it checks,
// and gives up rather than guess.

var errTail = errors.New("the document does not end as it should")

var (
	reference = regexp.MustCompile(`(\d+) 0 R`)
	kidsList  = regexp.MustCompile(`/Kids\[([^\]]*)\]`)
	fontFile  = regexp.MustCompile(`/FontFile2 (\d+) 0 R`)
)

// Fixed places in the library's documents.
const (
	catalogue = 1
	about     = 2
	pageTree  = 3
	entrySize = len("0000000000 00000 n \n")
)

// finish returns the library's document with a tail of our own.
func finish(document []byte, sheets []*ink.Sheet, info Info) ([]byte, error) {
	offsets, table, err := crossReference(document)
	if err != nil {
		return nil, err
	}
	end := offsets[catalogue]
	for object, at := range offsets {
		if object > pageTree && at >= end {
			return nil, errTail
		}
	}
	if !(end < offsets[about] && offsets[about] < offsets[pageTree] && offsets[pageTree] < table) {
		return nil, errTail
	}
	kids := kidsList.FindSubmatch(document[offsets[pageTree]:table])
	if kids == nil {
		return nil, errTail
	}
	pages := reference.FindAllString(string(kids[1]), -1)
	if len(pages) != len(sheets) {
		return nil, errTail
	}

	t := &tail{offsets: make([]int, len(offsets))}
	if err := t.body(document, offsets); err != nil {
		return nil, err
	}
	outlines := len(offsets) // the bookmarks follow the last of the library's objects
	t.object(catalogue, fmt.Sprintf("<</Type/Catalog/Pages %d 0 R/Lang(en)/Outlines %d 0 R/PageMode/%s"+
		"/ViewerPreferences<</PrintScaling/None/DisplayDocTitle true>>>>", pageTree, outlines, pageMode(sheets)))
	t.object(about, information(info))
	t.object(pageTree, fmt.Sprintf("<</Type/Pages/Kids[%s]/Count %d>>", kids[1], len(pages)))
	t.bookmarks(outlines, pages, sheets)
	t.close()
	return t.Bytes(), nil
}

// crossReference returns where each object of the document begins, by its
// number, and where the table that says so begins.
func crossReference(document []byte) (offsets []int, table int, err error) {
	const word = "startxref\n"
	at := bytes.LastIndex(document, []byte(word))
	if at < 0 {
		return nil, 0, errTail
	}
	number, _, _ := bytes.Cut(document[at+len(word):], []byte("\n"))
	if table, err = strconv.Atoi(string(number)); err != nil || table < 0 || table >= len(document) {
		return nil, 0, errTail
	}
	var count int
	if _, err := fmt.Sscanf(string(document[table:min(table+40, len(document))]), "xref\n0 %d\n", &count); err != nil || count <= pageTree {
		return nil, 0, errTail
	}
	entries := document[table+len(fmt.Sprintf("xref\n0 %d\n", count)):]
	if len(entries) < count*entrySize {
		return nil, 0, errTail
	}
	offsets = make([]int, count)
	for i := 1; i < count; i++ {
		entry := entries[i*entrySize : (i+1)*entrySize]
		if offsets[i], err = strconv.Atoi(string(entry[:10])); err != nil || offsets[i] >= len(document) {
			return nil, 0, errTail
		}
		if !bytes.HasPrefix(document[offsets[i]:], fmt.Appendf(nil, "%d 0 obj\n", i)) {
			return nil, 0, errTail
		}
	}
	return offsets, table, nil
}

func pageMode(sheets []*ink.Sheet) string {
	if len(sheets) > 1 {
		return "UseOutlines"
	}
	return "UseNone"
}

func information(info Info) string {
	s := "<</Producer(tdewolff/canvas)/Creator(stabile)"
	if info.Title != "" {
		s += "/Title" + textString(info.Title)
	}
	if info.Subject != "" {
		s += "/Subject" + textString(info.Subject)
	}
	if !info.Date.IsZero() {
		s += fmt.Sprintf("/CreationDate(%s)", date(info.Date))
	}
	return s + ">>"
}

// date returns a time as PDF writes it, in universal time so that the zone of
// the machine does not show.
func date(t time.Time) string { return t.UTC().Format("D:20060102150405Z") }

// textString returns a string in PDF's own UTF-16, as hexadecimal digits, which
// need no escapes.
func textString(s string) string {
	b := []byte("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		b = fmt.Appendf(b, "%04X", u)
	}
	return string(append(b, '>'))
}

// tail writes numbered objects and keeps where each begins.
type tail struct {
	bytes.Buffer
	offsets []int // by object number; 0 is unused
}

// body copies what comes before the tail of the library's document: its first
// lines and the objects of the pages and the typefaces, in their order.
func (t *tail) body(document []byte, offsets []int) error {
	var order []int
	for object := pageTree + 1; object < len(offsets); object++ {
		order = append(order, object)
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(offsets[a], offsets[b]) })

	objects := make(map[int][]byte)
	programs := make(map[int]bool)
	end := offsets[catalogue]
	for _, object := range slices.Backward(order) {
		objects[object] = document[offsets[object]:end]
		end = offsets[object]
		if bytes.Contains(objects[object], []byte("stream\n")) {
			continue // what looks like a reference in there is chance
		}
		for _, match := range fontFile.FindAllSubmatch(objects[object], -1) {
			program, _ := strconv.Atoi(string(match[1])) // digits
			programs[program] = true
		}
	}
	t.Write(document[:end])
	var p packer
	for _, object := range order {
		text := objects[object]
		t.offsets[object] = t.Len()
		s, ok := streamOf(text)
		switch {
		case programs[object]:
			program, err := s.unpacked()
			if err == nil {
				err = restamp(program)
			}
			if err != nil {
				return fmt.Errorf("font program: %w", err)
			}
			text = p.pack(s.number, program)
		case ok && !s.packed:
			text = p.pack(s.number, s.data)
		}
		t.Write(text)
	}
	return nil
}

func (t *tail) object(number int, value string) {
	for len(t.offsets) <= number {
		t.offsets = append(t.offsets, 0)
	}
	t.offsets[number] = t.Len()
	fmt.Fprintf(t, "%d 0 obj\n%s\nendobj\n", number, value)
}

// bookmarks writes a flat list of bookmarks, one for each page, from the given
// object number on.
func (t *tail) bookmarks(root int, pages []string, sheets []*ink.Sheet) {
	last := root + len(pages)
	t.object(root, fmt.Sprintf("<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>", root+1, last, len(pages)))
	for i, page := range pages {
		title := sheets[i].Title
		if title == "" {
			title = sheets[i].Name
		}
		number := root + 1 + i
		value := fmt.Sprintf("<</Title%s/Parent %d 0 R/Dest[%s/Fit]", textString(title), root, page)
		if i > 0 {
			value += fmt.Sprintf("/Prev %d 0 R", number-1)
		}
		if number < last {
			value += fmt.Sprintf("/Next %d 0 R", number+1)
		}
		t.object(number, value+">>")
	}
}

// close writes the table of objects and the trailer. The document's identifier
// is drawn from its contents: equal documents have equal ones.
func (t *tail) close() {
	sum := sha256.Sum256(t.Bytes())
	table := t.Len()
	fmt.Fprintf(t, "xref\n0 %d\n0000000000 65535 f \n", len(t.offsets))
	for _, at := range t.offsets[1:] {
		fmt.Fprintf(t, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(t, "trailer\n<</Root %d 0 R/Info %d 0 R/Size %d/ID[<%x><%x>]>>\nstartxref\n%d\n%%%%EOF\n",
		catalogue, about, len(t.offsets), sum[:16], sum[:16], table)
}
