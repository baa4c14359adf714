package terminal

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"stabile/fab"
)

// A Section is a part of the report.
type Section string

// The sections, in their order.
const (
	Parts    Section = "parts"
	Standing Section = "standing"
	Strength Section = "strength"
	Shop     Section = "shop"
	Cuts     Section = "cuts"
	Findings Section = "findings"
)

// Sections are all sections, in their order.
var Sections = [...]Section{Parts, Standing, Strength, Shop, Cuts, Findings}

// ParseSection returns the section of a name; the error lists the names.
func ParseSection(name string) (Section, error) {
	if s := Section(name); slices.Contains(Sections[:], s) {
		return s, nil
	}
	var names []string
	for _, s := range Sections {
		names = append(names, string(s))
	}
	return "", fmt.Errorf("there is no section '%s'; there are %s", name, strings.Join(names, ", "))
}

// Report writes sections of the report of a job to w, with its title and the last
// word. It is written in one piece; the error is that of w.
func Report(w io.Writer, j *fab.Job, style Style, sections ...Section) error {
	r := &report{Job: j, page: page{style: style}}
	r.title()
	for _, s := range sections {
		r.section(s)
	}
	r.heading(r.words().LastWord(j))
	_, err := w.Write(r.buf.Bytes())
	return err
}

func (r *report) section(s Section) {
	switch s {
	case Parts:
		r.parts()
		r.weight()
		r.metals()
		r.adjustables()
	case Standing:
		r.standing()
		r.wind()
		r.requirements()
	case Strength:
		r.strength()
	case Shop:
		r.shop()
	case Cuts:
		r.blanks()
	case Findings:
		r.checks()
		r.findings()
	}
}
