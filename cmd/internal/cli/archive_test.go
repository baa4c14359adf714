package cli

import (
	"bytes"
	"fmt"
	"strings"
)

// An archive is a text that holds files, in the txtar form: what comes first is
// a comment, and each line of the form "-- NAME --" starts a file.
type archive struct {
	comment string
	files   []archived
}

type archived struct {
	name, text string
}

func parseArchive(text string) archive {
	var a archive
	into := &a.comment
	for line := range strings.Lines(text) {
		name, ok := strings.CutPrefix(strings.TrimRight(line, "\r\n"), "-- ")
		if ok {
			name, ok = strings.CutSuffix(name, " --")
		}
		if ok {
			a.files = append(a.files, archived{name: strings.TrimSpace(name)})
			into = &a.files[len(a.files)-1].text
			continue
		}
		*into += line
	}
	return a
}

func (a archive) String() string {
	var b bytes.Buffer
	b.WriteString(a.comment)
	for _, f := range a.files {
		fmt.Fprintf(&b, "-- %s --\n%s", f.name, f.text)
		if f.text != "" && !strings.HasSuffix(f.text, "\n") {
			b.WriteByte('\n')
		}
	}
	return b.String()
}

// get returns the text of a file, "" where there is none.
func (a archive) get(name string) string {
	for _, f := range a.files {
		if f.name == name {
			return f.text
		}
	}
	return ""
}

// set gives a file a text; one that becomes empty is taken out.
func (a *archive) set(name, text string) {
	kept := a.files[:0]
	done := text == ""
	for _, f := range a.files {
		if f.name == name {
			if done {
				continue
			}
			f.text, done = text, true
		}
		kept = append(kept, f)
	}
	if !done {
		kept = append(kept, archived{name, text})
	}
	a.files = kept
}
