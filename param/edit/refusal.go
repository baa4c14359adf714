package edit

import (
	"fmt"
	"strings"

	"stabile/param/source"
)

// A Reason is why a text is not edited.
type Reason int

// The reasons.
const (
	NoPart     Reason = iota // there is no such part in the text
	NoProperty               // a part like this one has no such property
	NotANumber               // the property takes a word there, or points at a part
	Several                  // more than one number decides, as in a + b
	NotLinear                // the number goes through a function, or is not its only cause
	FromPart                 // it is read from another part, as in moon.radius
	InRow                    // it depends on the index of a row
	Elsewhere                // it is given in a file that the text brings
	Missing                  // another number must be given beside it
	Conflict                 // two of the numbers given come from one
	Mistakes                 // the text has mistakes that hide what it depends on
	Unreadable               // the edited text would not be sound
	OneBase                  // the text has its base already
)

// String returns the reason in words.
func (r Reason) String() string {
	return [...]string{
		NoPart:     "there is no such part in the text",
		NoProperty: "the part has no such property",
		NotANumber: "there is no number there",
		Several:    "more than one number decides it",
		NotLinear:  "it does not follow one number in proportion",
		FromPart:   "it follows another part",
		InRow:      "it depends on the index of the row",
		Elsewhere:  "it is given in another file",
		Missing:    "something else must be given beside it",
		Conflict:   "two of the numbers come from one",
		Mistakes:   "the text has mistakes that must be mended first",
		Unreadable: "the text would not be sound",
		OneBase:    "the text has a base already",
	}[r]
}

// A Refusal is the error of an edit that cannot be made.
type Refusal struct {
	Reason Reason
	On     []string    // what it depends on: names, and numbers as they are written
	At     source.Span // where that stands; zero where no text is to blame
}

// Error returns the reason and what it depends on.
func (r *Refusal) Error() string {
	if len(r.On) == 0 {
		return r.Reason.String()
	}
	return fmt.Sprintf("%v: %s", r.Reason, strings.Join(r.On, ", "))
}

func refuse(r Reason, at source.Span, on ...string) error {
	return &Refusal{Reason: r, On: on, At: at}
}
