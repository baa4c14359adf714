package edit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A Change puts New in the place of Old, the bytes of a text from From up to but
// not including To.
type Change struct {
	From, To int
	Old, New string
}

// An Edit is changes of one text in order, none of which overlap. Their places
// are those of the text before the edit.
type Edit []Change

// Apply returns the text with the changes made. A text that does not have the
// old bytes in their places is an error.
func (e Edit) Apply(text string) (string, error) {
	var b strings.Builder
	at := 0
	for _, c := range e {
		if c.From < at || c.To < c.From || c.To > len(text) || text[c.From:c.To] != c.Old {
			return "", fmt.Errorf("the text is not the one that the edit was made for: no %q at byte %d", c.Old, c.From)
		}
		b.WriteString(text[at:c.From])
		b.WriteString(c.New)
		at = c.To
	}
	b.WriteString(text[at:])
	return b.String(), nil
}

// Inverse returns the edit that takes the changes back, of the text after the
// edit.
func (e Edit) Inverse() Edit {
	back := make(Edit, len(e))
	moved := 0
	for i, c := range e {
		from := c.From + moved
		back[i] = Change{From: from, To: from + len(c.New), Old: c.New, New: c.Old}
		moved += len(c.New) - len(c.Old)
	}
	return back
}

// sorted puts changes in order and drops those that are made twice. It reports
// false where two disagree on the same bytes.
func sorted(list []Change) (Edit, bool) {
	slices.SortStableFunc(list, func(a, b Change) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To)) })
	list = slices.Compact(list)
	for i := 1; i < len(list); i++ {
		if a, b := list[i-1], list[i]; b.From < a.To || a.From == b.From {
			return nil, false
		}
	}
	return list, true
}
