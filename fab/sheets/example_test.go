package sheets

import (
	"fmt"

	"stabile/fab/flat"
	"stabile/param/quantity"
)

func ExampleMake() {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Sheets[0].Price = 92
	p := Make(Input{
		Blanks: []*flat.Blank{blank("mast", skin, 1, rect(12*inch, 30*inch)), blank("reed", skin, 3, rect(6*inch, 20*inch))},
		Shop:   s,
	})
	money, _ := p.Money()
	fmt.Printf("%d sheet, proven least %d, for %.0f\n", p.Count(), p.Bound(), money)
	for _, l := range p.CutList() {
		fmt.Printf("cut %d, stop at %s, %s %s: %s by %s\n", l.Cut, quantity.Inch.Length(l.Stop, quantity.Fine), l.What, l.Name,
			quantity.Inch.Rule(l.SizeX, quantity.Fine), quantity.Inch.Length(l.SizeY, quantity.Fine))
	}
	// Output:
	// 1 sheet, proven least 1, for 92
	// cut 1, stop at 20 in, strip : 20 by 48 in
	// cut 1, stop at 20 in, offcut : 76 by 48 in
	// cut 2, stop at 40 in, strip : 20 by 40 in
	// cut 3, stop at 12 in, strip : 12 by 40 in
	// cut 4, stop at 6 in, strip : 6 by 40 in
	// cut 4, stop at 6 in, offcut : 2 by 40 in
	// cut 5, stop at 6 in, piece reed: 20 by 6 in
	// cut 5, stop at 6 in, offcut : 20 by 2 in
	// cut 6, stop at 30 in, piece mast: 12 by 30 in
	// cut 6, stop at 30 in, offcut : 12 by 10 in
	// cut 7, stop at 20 in, piece reed: 6 by 20 in
	// cut 7, stop at 20 in, piece reed: 6 by 20 in
}
