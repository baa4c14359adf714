package words

import "stabile/fab/finding"

// A Remark is a finding in words.
type Remark struct {
	Level finding.Level
	Parts []string // empty for the whole
	Text  string
}

// Remarks returns findings for reading, in the order of finding.Gather.
func (w Writer) Remarks(list []finding.Finding) []Remark {
	var remarks []Remark
	for _, f := range finding.Gather(list) {
		remarks = append(remarks, Remark{f.Level, f.Parts, w.Finding(f)})
	}
	return remarks
}

// Named returns the texts of findings, each with the parts that it is about before it.
func (w Writer) Named(list []finding.Finding) []string {
	var texts []string
	for _, f := range list {
		texts = append(texts, w.named(f))
	}
	return texts
}

func (w Writer) named(f finding.Finding) string {
	if len(f.Parts) == 0 {
		return w.Finding(f)
	}
	return Names(f.Parts) + ": " + w.Finding(f)
}
