package cli

import (
	"errors"
	"strings"

	"stabile/param/design"
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

// orShop is the paper that was asked for, or else the size that the design's shop
// has its papers in; none where neither says.
func (p paper) orShop(d *design.Design) sheet.Paper {
	if p.Name == "" && d.Shop != nil {
		found, _ := sheet.LookupPaper(d.Shop.Paper)
		return found
	}
	return sheet.Paper(p)
}

// A printer is the value of a flag that names the paper of the shop's printer.
type printer sheet.Paper

// printerPapers are the sizes that desk and shop printers take.
func printerPapers() []string { return []string{"letter", "A4", "tabloid", "A3"} }

// Set takes the name of a paper that printers take, or its other name.
func (p *printer) Set(name string) error {
	found, ok := sheet.LookupPaper(name)
	for _, known := range printerPapers() {
		if paper, _ := sheet.LookupPaper(known); ok && paper == found {
			*p = printer(found.Portrait())
			return nil
		}
	}
	return errors.New("the papers of printers are letter, A4, tabloid and A3")
}

func (p *printer) String() string { return p.Name }

// Type is what the flag's value is called.
func (*printer) Type() string { return "paper" }
