package words

import (
	"strings"

	"stabile/fab/check"
	"stabile/fab/finding"
)

// Check returns what a check is of, in a word or two: "tipping", "ball wall".
func Check(id check.ID) string {
	switch id {
	case check.Balance:
		return "own weight"
	case check.Buckling:
		return "buckling of the whole"
	case check.AnchorSteel:
		return "anchors"
	case check.AnchorGround:
		return "anchors in the ground"
	}
	return strings.ReplaceAll(string(id), "-", " ")
}

// Briefly returns findings where there is little room: what each is of, with its
// parts, each once. One that belongs to no check is written in full.
func (w Writer) Briefly(list []finding.Finding) []string {
	var texts []string
	seen := map[string]bool{}
	for _, f := range list {
		text := w.Named([]finding.Finding{f})[0]
		if f.Check != "" {
			if text = Check(check.ID(f.Check)); len(f.Parts) > 0 {
				text += " of " + Names(f.Parts)
			}
		}
		if !seen[text] {
			seen[text] = true
			texts = append(texts, text)
		}
	}
	return texts
}
