package terminal

import (
	"fmt"
	"io"
	"strings"

	"stabile/fab"
	"stabile/fab/finding"
	"stabile/render/words"
)

// findings lists what there is to say, the gravest first. What is said of
// several parts in the same words is said once, of copies also where the figures
// alone differ.
func (r *report) findings() {
	if len(r.Findings) == 0 {
		return
	}
	r.heading("Findings")
	for _, k := range alike(words.In(r.Design.Units).Remarks(r.Findings)) {
		code := ""
		if k.Level.Fails() {
			code = bold
		}
		text := k.Text
		if len(k.Parts) > 0 {
			text = strings.Join(enumerate(k.Parts), ", ") + ": " + plural(text, len(k.Parts))
		}
		r.lines(code, margin, fmt.Sprintf("%-9s", k.Level), text)
	}
}

// Verdict writes in one sentence, broken to the width of the report, how the job
// came out: whether what is asked for holds, what was not checked, and how many
// faults and cautions there are. The error is that of w.
func Verdict(w io.Writer, j *fab.Job, style Style) error {
	p := page{style: style}
	p.strong(0, verdict(j))
	_, err := w.Write(p.buf.Bytes())
	return err
}

func verdict(j *fab.Job) string {
	var fails, unchecked, faults, cautions int
	for _, q := range j.Requirements {
		switch {
		case q.Outcome.Unchecked:
			unchecked++
		case !q.Outcome.Holds:
			fails++
		}
	}
	for _, f := range j.Findings {
		switch f.Level {
		case finding.Danger, finding.Fault:
			faults++
		case finding.Caution:
			cautions++
		}
	}
	var says []string
	switch n := len(j.Requirements); {
	case n == 0:
		says = append(says, "nothing is required")
	case n == 1 && fails == 1:
		says = append(says, "the requirement is not met")
	case n == 1 && unchecked == 1:
		says = append(says, "the requirement is not checked")
	case n == 1:
		says = append(says, "the requirement is met")
	case fails == 0 && unchecked == 0:
		says = append(says, fmt.Sprintf("all %d requirements met", n))
	default:
		if fails > 0 {
			says = append(says, fmt.Sprintf("%d of %d requirements not met", fails, n))
		}
		if unchecked > 0 {
			says = append(says, fmt.Sprintf("%d of %d requirements not checked", unchecked, n))
		}
	}
	switch t := j.Tipping; {
	case t == nil || !t.Loaded:
		says = append(says, "tipping not checked under load")
	case slopeAlone(j):
		says = append(says, "factor "+words.Factor(t.Factor)+" against tipping on the slope alone, without a push")
	default:
		says = append(says, "factor "+words.Factor(t.Factor)+" against tipping")
	}
	says = append(says, loads(j)...)
	if faults > 0 {
		says = append(says, count(faults, "fault"))
	}
	if cautions > 0 {
		says = append(says, count(cautions, "caution")+" to read")
	}
	switch {
	case j.Plan != nil:
	case faults+cautions > 0:
		says[len(says)-1] += ", those of the shop's plan not looked for"
	default:
		says = append(says, "the shop's plan not looked into")
	}
	word := "Holds as far as it is checked: "
	if !j.OK() {
		word = "Not well: "
	}
	return word + strings.Join(says, "; ") + "."
}

// slopeAlone reports whether all that the standing was tried with is the slope of
// the ground.
func slopeAlone(j *fab.Job) bool {
	if j.Design == nil || j.Design.Site == nil || j.Tipping == nil || !j.Tipping.Loaded {
		return false
	}
	s := j.Design.Site
	return s.Slope > 0 && j.Wind == nil && !(s.Push > 0 && s.PushHeight > 0)
}

// loads says what came of wind and strength. Silence would read as a pass.
func loads(j *fab.Job) []string {
	s := j.Strength
	switch {
	case j.Wind == nil && s == nil:
		return []string{"wind and strength not checked"}
	case s == nil:
		return []string{"strength not checked"}
	}
	says := "worst part at " + words.Use(s.Worst) + " of its limit"
	if len(s.Members) == 0 {
		says = "no post to check for strength"
	}
	list := []string{says}
	if j.Wind == nil {
		list = append(list, "wind not checked")
	}
	return list
}
