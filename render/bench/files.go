package bench

import (
	"context"
	"errors"
	"io/fs"
	"net/http"
	"path/filepath"
	"regexp"
	"strings"

	"stabile/examples"
	"stabile/param/edit"
)

// A beginning is what a page begins with.
type beginning struct {
	Folder   string                 `json:"folder"` // its last name
	Files    []string               `json:"files"`
	Examples []example              `json:"examples"`
	Sealed   bool                   `json:"sealed"`
	Drafts   bool                   `json:"drafts"`
	Words    map[edit.Sort][]string `json:"words"` // of the language, by their sort, to colour them
}

// An example is a design to begin from.
type example struct {
	Name  string `json:"name"`
	About string `json:"about"`
}

func (s *Server) start(w http.ResponseWriter, _ *http.Request) {
	dir, err := filepath.Abs(s.folder.dir)
	if err != nil {
		dir = s.folder.dir
	}
	b := beginning{
		Folder: filepath.Base(dir), Files: s.folder.list(), Sealed: s.options.Sealed, Drafts: s.drafts != nil,
		Words: edit.Vocabulary(),
	}
	names, _ := fs.Glob(examples.Files, "*"+Extension)
	for _, n := range names {
		text, _ := fs.ReadFile(examples.Files, n)
		b.Examples = append(b.Examples, example{n, about(string(text))})
	}
	reply(w, http.StatusOK, b)
}

// about returns the comment with which a design begins.
func about(text string) string {
	var says []string
	for line := range strings.Lines(text) {
		more, ok := strings.CutPrefix(strings.TrimSpace(line), "#")
		if !ok {
			break
		}
		says = append(says, strings.TrimSpace(more))
	}
	return strings.Join(says, " ")
}

// A fileQuestion asks for a design of the folder.
type fileQuestion struct {
	File string `json:"file"`
}

// An opened is the text of a design. Its lines end in one way on the page; Ends
// says in which they do in the file.
type opened struct {
	File  string `json:"file"`
	Text  string `json:"text"`
	Mark  string `json:"mark"`
	Draft string `json:"draft,omitempty"` // a text that was not saved
	Stale bool   `json:"stale,omitempty"` // the file was changed after the draft began
}

func (s *Server) read(_ context.Context, q fileQuestion) (*opened, error) {
	text, err := s.folder.read(q.File)
	if err != nil {
		return nil, err
	}
	o := &opened{File: q.File, Text: onPage(text), Mark: mark(text)}
	if d := s.drafts.find(q.File); d != nil && d.Text != o.Text {
		o.Draft, o.Stale = d.Text, d.Mark != o.Mark
	}
	return o, nil
}

const byteOrderMark = "\ufeff"

// onPage returns a text as a field of a page has it: lines end in line feeds, and
// no byte order mark is in front.
func onPage(text string) string {
	text = strings.TrimPrefix(text, byteOrderMark)
	return strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
}

// inFile returns a text of the page as it stands in a file that had another text:
// with its line ends and its byte order mark.
func inFile(text, before string) string {
	if strings.Contains(before, "\r\n") {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	if strings.HasPrefix(before, byteOrderMark) {
		text = byteOrderMark + text
	}
	return text
}

// A saving asks to save a text.
type saving struct {
	File string `json:"file"`
	Text string `json:"text"`
	Mark string `json:"mark"` // of the file as the page knows it; "" for a new one
}

// A saved says which text is now in the file.
type saved struct {
	Mark string `json:"mark"`
}

// A conflict is the answer to saving over a file that was changed meanwhile.
type conflict struct {
	Wrong string `json:"wrong"`
	Text  string `json:"text"`
	Mark  string `json:"mark"`
}

func (s *Server) save(_ context.Context, q saving) (*saved, error) {
	before, err := s.folder.read(q.File)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	text := inFile(q.Text, before)
	if err := s.folder.save(q.File, text, q.Mark); err != nil {
		if errors.Is(err, errChanged) {
			return nil, &refusal{status: http.StatusConflict, text: err.Error(), body: conflict{err.Error(), onPage(before), mark(before)}}
		}
		return nil, err
	}
	_ = s.drafts.keep(q.File, nil)
	return &saved{mark(text)}, nil
}

func (s *Server) draft(_ context.Context, q saving) (struct{}, error) {
	if err := named(q.File); err != nil {
		return struct{}{}, err
	}
	if q.Text == "" {
		return struct{}{}, s.drafts.keep(q.File, nil)
	}
	return struct{}{}, s.drafts.keep(q.File, &unsaved{q.Text, q.Mark})
}

// A begun asks for a new design: a copy of an example, or an empty one.
type begun struct {
	File    string `json:"file"`
	Example string `json:"example"`
	Units   string `json:"units"`
}

// fresh is what a new design may be called, so that it can be on any system.
var fresh = regexp.MustCompile(`^[\pL\pN_][\pL\pN _-]{0,80}\.stabile$`)

// devices are names that Windows keeps for itself.
var devices = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9]|lpt[0-9])\.`)

func (s *Server) begin(_ context.Context, q begun) (*opened, error) {
	if !strings.HasSuffix(q.File, Extension) {
		q.File += Extension
	}
	if !fresh.MatchString(q.File) || devices.MatchString(q.File) {
		return nil, refuse(http.StatusUnprocessableEntity, "name it with letters, digits, hyphens and spaces")
	}
	files := Empty(strings.TrimSuffix(q.File, Extension), q.Units)
	if q.Example != "" {
		var err error
		if files, err = copied(q.Example, q.File); err != nil {
			return nil, err
		}
	}
	if _, err := s.folder.root.Lstat(filepath.FromSlash(q.File)); err == nil {
		return nil, refuse(http.StatusConflict, "there is a design of this name already")
	}
	for _, f := range files {
		if dir := filepath.Dir(filepath.FromSlash(f.Name)); dir != "." && named(f.Name) == nil && !s.options.Sealed {
			if err := s.folder.root.MkdirAll(dir, 0o777); err != nil {
				return nil, cause(err)
			}
		}
		err := s.folder.save(f.Name, f.Text, "")
		if err != nil && (f.Name == q.File || !errors.Is(err, errChanged)) { // a shop that is there stays
			return nil, err
		}
	}
	return s.read(context.Background(), fileQuestion{q.File})
}

// copied returns an example under another name, with what it brings.
func copied(name, as string) ([]NewFile, error) {
	text, err := fs.ReadFile(examples.Files, name)
	if err != nil || strings.Contains(name, "/") {
		return nil, refuse(http.StatusNotFound, "there is no such example")
	}
	files := []NewFile{{as, string(text)}}
	for _, b := range edit.Read(name, string(text), edit.Options{}).Brings() {
		if brought, err := fs.ReadFile(examples.Files, b); err == nil {
			files = append(files, NewFile{b, string(brought)})
		}
	}
	return files, nil
}
