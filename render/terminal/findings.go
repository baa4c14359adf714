package terminal

import (
	"fmt"
	"io"
	"strings"

	"stabile/fab"
	"stabile/fab/finding"
	"stabile/fab/stand"
)

// findings lists what there is to say, the gravest first. What is said of
// several parts in the same words is said once.
func (r *report) findings() {
	if len(r.Findings) == 0 {
		return
	}
	type remark struct {
		level finding.Level
		text  string
	}
	parts := make(map[remark][]string)
	var order []remark
	for _, f := range r.Findings {
		k := remark{f.Level, f.Text}
		if _, said := parts[k]; !said {
			order = append(order, k)
			parts[k] = nil
		}
		if f.Part != "" {
			parts[k] = append(parts[k], f.Part)
		}
	}
	r.heading("Findings")
	for _, level := range []finding.Level{finding.Fault, finding.Caution, finding.Note} {
		code := ""
		if level == finding.Fault {
			code = bold
		}
		for _, k := range order {
			if k.level != level {
				continue
			}
			text := k.text
			if p := parts[k]; len(p) > 0 {
				text = strings.Join(p, ", ") + ": " + text
			}
			r.lines(code, margin, fmt.Sprintf("%-9s", level), text)
		}
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
	if t := j.Tipping; t != nil && t.Loaded {
		says = append(says, "factor "+stand.Factor(t.Factor)+" against tipping")
	} else {
		says = append(says, "tipping not checked under load")
	}
	// No job has these yet, and silence would read as a pass.
	says = append(says, "wind and strength not checked")
	if faults > 0 {
		says = append(says, count(faults, "fault"))
	}
	if cautions > 0 {
		says = append(says, count(cautions, "caution")+" to read")
	}
	word := "Holds as far as it is checked: "
	if !j.OK() {
		word = "Not well: "
	}
	return word + strings.Join(says, "; ") + "."
}
