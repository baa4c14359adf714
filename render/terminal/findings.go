package terminal

import (
	"fmt"
	"strings"

	"stabile/fab"
	"stabile/fab/finding"
)

// findings lists what there is to say, the gravest first.
func (r *report) findings() {
	if len(r.Findings) == 0 {
		return
	}
	r.heading("Findings")
	for _, level := range []finding.Level{finding.Fault, finding.Caution, finding.Note} {
		for _, f := range r.Findings {
			if f.Level != level {
				continue
			}
			text := f.Text
			if f.Part != "" {
				text = f.Part + ": " + text
			}
			code := ""
			if level == finding.Fault {
				code = bold
			}
			r.lines(code, margin, fmt.Sprintf("%-9s", level), text)
		}
	}
}

// Verdict says in one line how the job came out: whether what is asked for
// holds, what was not checked, and how many faults and cautions there are.
func Verdict(j *fab.Job) string {
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
		case finding.Fault:
			faults++
		case finding.Caution:
			cautions++
		}
	}
	var says []string
	switch n := len(j.Requirements); {
	case n == 0:
		says = append(says, "nothing is required")
	case fails == 0 && unchecked == 0:
		says = append(says, fmt.Sprintf("%d of %s hold", n, count(n, "requirement")))
	default:
		if fails > 0 {
			says = append(says, fmt.Sprintf("%d of %s not met", fails, count(n, "requirement")))
		}
		if unchecked > 0 {
			says = append(says, fmt.Sprintf("%d of %s not checked", unchecked, count(n, "requirement")))
		}
	}
	if t := j.Tipping; t != nil && t.Loaded {
		says = append(says, "factor "+factor(t.Factor)+" against tipping")
	} else {
		says = append(says, "tipping not checked under load")
	}
	if faults > 0 {
		says = append(says, count(faults, "fault"))
	}
	if cautions > 0 {
		says = append(says, count(cautions, "caution")+" to read")
	}
	word := "All well: "
	switch {
	case !j.OK():
		word = "Not well: "
	case len(j.Requirements) == 0 || unchecked > 0 || j.Tipping == nil || !j.Tipping.Loaded:
		word = "Nothing fails, but not all is checked: "
	}
	return word + strings.Join(says, "; ") + "."
}
