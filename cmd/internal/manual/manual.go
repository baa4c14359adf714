// Package manual writes help texts as a manual page.
package manual

import (
	"fmt"
	"strings"
)

// A Chapter is the help of one command, or what a page begins with.
type Chapter struct{ Title, Text string }

// Page returns the manual page of a program in the macros of man(7): what it is in a
// line, and its chapters. What a text indents stands as it is.
func Page(program, summary, version string, chapters []Chapter) string {
	var b strings.Builder
	fmt.Fprintf(&b, ".TH %s 1 \"\" \"%s\"\n.SH NAME\n%s \\- %s\n", strings.ToUpper(program), escaped(version), program, escaped(summary))
	for _, c := range chapters {
		fmt.Fprintf(&b, ".SH %s\n", escaped(strings.ToUpper(c.Title)))
		body(&b, strings.TrimSpace(c.Text))
	}
	return b.String()
}

// body writes a text: paragraphs, and between them what is indented.
func body(b *strings.Builder, text string) {
	verbatim, blank := false, false
	for line := range strings.SplitSeq(text, "\n") {
		if strings.TrimSpace(line) == "" {
			blank = true
			continue
		}
		indented := strings.HasPrefix(line, " ")
		switch {
		case indented && !verbatim:
			b.WriteString(".PP\n.nf\n")
		case !indented && verbatim:
			b.WriteString(".fi\n.PP\n")
		case blank && verbatim:
			b.WriteString(".sp\n")
		case blank:
			b.WriteString(".PP\n")
		}
		verbatim, blank = indented, false
		b.WriteString(escaped(line) + "\n")
	}
	if verbatim {
		b.WriteString(".fi\n")
	}
}

// escaped makes a line stand for itself in roff.
func escaped(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`, "`", `\(ga`, "^", `\(ha`, "~", `\(ti`, `"`, `\(dq`).Replace(s)
	if strings.HasPrefix(s, ".") {
		s = `\&` + s
	}
	return s
}
