package cli

import (
	"errors"
	"strings"

	"stabile/render/sheet"
)

// A paper is the value of a flag that names a size of sheet.
type paper sheet.Paper

// Set takes a name such as "A3", "letter" or "ANSI B".
func (p *paper) Set(name string) error {
	found, ok := sheet.LookupPaper(name)
	if !ok {
		var names []string
		for _, known := range sheet.Papers() {
			names = append(names, known.Name)
		}
		return errors.New("the papers are " + strings.Join(names, ", ") + ", letter and tabloid")
	}
	*p = paper(found.Portrait())
	return nil
}

func (p *paper) String() string { return p.Name }

// Type is what the flag's value is called.
func (*paper) Type() string { return "paper" }
