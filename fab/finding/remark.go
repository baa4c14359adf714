package finding

import "slices"

// A Remark is what is said in the same words of the whole or of several parts.
type Remark struct {
	Level Level
	Parts []string // in the order of the findings; empty for the whole
	Text  string
}

// Remarks returns the findings for reading: the gravest first, and what is said
// of several parts once.
func Remarks(list []Finding) []Remark {
	var remarks []Remark
	for _, level := range []Level{Fault, Caution, Note} {
		first := len(remarks)
		at := make(map[string]int)
		for _, f := range list {
			if f.Level != level {
				continue
			}
			i, said := at[f.Text]
			if !said {
				i = len(remarks) - first
				at[f.Text] = i
				remarks = append(remarks, Remark{Level: level, Text: f.Text})
			}
			if r := &remarks[first+i]; f.Part != "" && !slices.Contains(r.Parts, f.Part) {
				r.Parts = append(r.Parts, f.Part)
			}
		}
	}
	return remarks
}
