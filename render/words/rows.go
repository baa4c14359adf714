package words

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"stabile/fab/check"
	"stabile/fab/finding"
)

// A Row is one line of a table of checks.
type Row struct {
	Verdict check.Verdict
	What    string // the subject
	Found   string // "" without figures
	Needed  string // "" without a limit
	Limit   string // the limit by itself, for a column that is called needed; "" without one
	Case    string // "" without a load
	Brief   string // the load in the few words of a narrow cell
	Why     string // of what is not decided, or has no figures
}

// Text returns what stands beside the subject: the figures and their load, or why
// it is not decided.
func (r Row) Text() string {
	if r.Why != "" {
		return r.Why
	}
	var says []string
	for _, text := range []string{r.Found, r.Needed} {
		if text != "" {
			says = append(says, text)
		}
	}
	if r.Case != "" {
		says = append(says, "under "+r.Case)
	}
	return strings.Join(says, ", ")
}

// Rows returns checks for a table: of each kind one row for all that hold, with the
// one that comes nearest to its limit, and then each that does not.
func (w Writer) Rows(list []check.Check) []Row {
	var rows []Row
	for _, group := range byKind(list) {
		var worst check.Check
		n := 0
		for _, c := range group {
			if c.Verdict != check.Holds {
				continue
			}
			if n++; n == 1 || c.Graver(worst) {
				worst = c
			}
		}
		if n > 0 {
			r := w.Row(worst)
			switch many := topics[worst.ID].many; {
			case n == 1:
			case r.Found == "" && many != "":
				r.What = fmt.Sprintf(many, n)
			default:
				r.What = fmt.Sprintf("%s: the worst of %d", r.What, n)
			}
			rows = append(rows, r)
		}
		for _, c := range group {
			if c.Verdict != check.Holds {
				rows = append(rows, w.Row(c))
			}
		}
	}
	return rows
}

// Row returns the row of one check.
func (w Writer) Row(c check.Check) Row {
	r := Row{Verdict: c.Verdict, What: w.Subject(c), Case: w.Case(c.Case), Brief: w.BriefCase(c.Case)}
	if c.Why != nil {
		r.Why = w.Fact(c.Why)
	}
	if c.Verdict == check.Undecided || r.Why != "" {
		r.Case, r.Brief = "", ""
		return r
	}
	r.Found, r.Needed, r.Limit = w.found(c), w.needed(c), w.limit(c)
	if c.Held {
		r.Limit += ": " + held
	}
	return r
}

// Summary returns checks for a page: as Rows, but of one kind those together that are
// not decided for the like reason.
func (w Writer) Summary(list []check.Check) []Row {
	var rows []Row
	for _, group := range byKind(list) {
		var rest []check.Check
		for _, c := range group {
			if n := len(rest) - 1; n >= 0 && c.Verdict == check.Undecided && rest[n].Verdict == check.Undecided {
				if j, ok := rest[n].Why.(finding.Joiner); ok {
					if both, ok := j.Join(c.Why); ok {
						rest[n].Why = both
						rest[n].Part = w.Subject(rest[n]) + "; " + w.Subject(c)
						rest[n].With, rest[n].ID = "", joined
						continue
					}
				}
			}
			rest = append(rest, c)
		}
		rows = append(rows, w.Rows(rest)...)
	}
	return rows
}

// joined is the kind of several checks that are reported together: their subjects are in
// the place of the part.
const joined check.ID = "joined"

// byKind gathers checks by their kind, each requirement by itself.
func byKind(list []check.Check) [][]check.Check {
	var groups [][]check.Check
	for _, kind := range check.ByKind(list) {
		if kind[0].ID == check.Require {
			groups = slices.AppendSeq(groups, slices.Chunk(kind, 1))
		} else {
			groups = append(groups, kind)
		}
	}
	return groups
}

// A Line says in one line how the checks of a kind came out.
type Line struct {
	Kind  string
	Fails bool
	Text  string
}

// Lines returns a line for each kind of checks, in the order of kinds, with the check of it
// that comes nearest to its limit, or past it, or is not decided, and how many there are. A
// reason that is also that of the line above is not repeated.
func (w Writer) Lines(list []check.Check, kinds ...check.ID) []Line {
	var lines []Line
	var before check.Check
	for _, kind := range kinds {
		var of []check.Check
		for _, c := range list {
			if c.ID == kind {
				of = append(of, c)
			}
		}
		if len(of) == 0 {
			continue
		}
		worst := of[0]
		for _, c := range of[1:] {
			if c.Graver(worst) {
				worst = c
			}
		}
		text := w.Row(worst).Text()
		switch {
		case worst.Verdict != check.Undecided:
		case before.Verdict == check.Undecided && reflect.DeepEqual(worst.Why, before.Why):
			text = "not decided, for the same reason"
		default:
			text = "not decided: " + text
		}
		if len(of) > 1 {
			text = fmt.Sprintf("worst of %d, %s: %s", len(of), w.Subject(worst), text)
		}
		lines = append(lines, Line{w.Kind(kind), check.Worst(of) == check.Fails, text})
		before = worst
	}
	return lines
}
