package words

import (
	"slices"

	"stabile/fab/finding"
)

// A Remark is what is said in the same words of the whole or of several parts.
type Remark struct {
	Level finding.Level
	Parts []string // in the order of the findings; empty for the whole
	Text  string
}

// Remarks returns the findings for reading: the gravest first, and what is said of
// several parts once.
func (w Writer) Remarks(list []finding.Finding) []Remark {
	var remarks []Remark
	list = finding.Gather(list)
	for _, level := range finding.Levels {
		at := make(map[string]int)
		for _, f := range list {
			if f.Level != level {
				continue
			}
			text := w.Finding(f)
			i, said := at[text]
			if !said {
				i = len(remarks)
				at[text] = i
				remarks = append(remarks, Remark{Level: level, Text: text})
			}
			parts := f.Parts
			if f.Part != "" {
				parts = append(slices.Clone(parts), f.Part)
			}
			for _, p := range parts {
				if r := &remarks[i]; !slices.Contains(r.Parts, p) {
					r.Parts = append(r.Parts, p)
				}
			}
		}
	}
	return remarks
}

// Named returns the texts of findings, each with the parts that it is about before it.
func (w Writer) Named(list []finding.Finding) []string {
	var texts []string
	for _, f := range list {
		parts := f.Parts
		if f.Part != "" {
			parts = []string{f.Part}
		}
		text := w.Finding(f)
		if len(parts) > 0 {
			text = Names(parts) + ": " + text
		}
		texts = append(texts, text)
	}
	return texts
}
