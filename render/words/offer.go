package words

import (
	"fmt"
	"slices"

	"stabile/fab"
	"stabile/param/design"
	"stabile/param/stock"
)

// Included says what the price of a piece covers.
func (w Writer) Included(j *fab.Job) []string {
	list := []string{"all metal, cutting, rolling, welding and dressing"}
	if slices.ContainsFunc(j.Parts, func(p fab.Part) bool { return p.Ball != nil && p.Ball.Build == design.Bought }) {
		list = append(list, "the balls that are bought")
	}
	if f := j.Design.Finish; f != nil {
		list = append(list, map[design.FinishKind]string{
			design.Paint: "painting", design.Galvanize: "hot-dip galvanising",
			design.Weather: "cleaning, ready to rust", design.Brushed: "brushing",
		}[f.Kind])
	}
	return append(list, "wrapping and loading at the shop")
}

// Finish names what is done to the surface of a finished piece; "" for nothing.
func (w Writer) Finish(f *design.Finish) string {
	if f == nil {
		return ""
	}
	return map[design.FinishKind]string{
		design.Paint: "painted", design.Galvanize: "hot-dip galvanised",
		design.Weather: "bare, to rust", design.Brushed: "brushed",
	}[f.Kind]
}

// Excluded says what a client sees to, or pays for, apart from the price.
func (w Writer) Excluded(j *fab.Job) []string {
	var list []string
	switch b := j.Design.Base(); {
	case j.Design.Sunk():
		list = append(list, "digging and concrete")
	case j.Design.Planted():
		list = append(list, "the footings and their anchors")
	case b != nil && b.Base.OnWall():
		list = append(list, "the wall and its anchors")
	case b != nil && b.Base.Block.Given():
		list = append(list, "the block and its anchors")
	case b != nil && b.Base.Anchors > 0:
		list = append(list, "the footing and its anchors")
	case j.Reach() != fab.TableTop:
		list = append(list, "preparing the ground")
	}
	if j.Mass.Ballast > 0 {
		list = append(list, "ballast")
	}
	if j.Design.Wired() {
		list = append(list, "lamps and their wiring")
	}
	list = append(list, "carriage")
	if j.Reach() == fab.TableTop {
		return append(list, "tax")
	}
	return append(list, "setting up", "permits and an engineer's approval", "tax")
}

// Care says how to look after a piece, by its finish and metals. Common practice, no
// source.
func (w Writer) Care(j *fab.Job) []string {
	var list []string
	if f := j.Design.Finish; f != nil {
		list = append(list, map[design.FinishKind]string{
			design.Paint:     "Wash it with water and mild soap once or twice a year. Touch up scratches before they rust.",
			design.Galvanize: "It needs no more than water. It dulls to grey in its first year. Touch up scratches with zinc paint.",
			design.Weather:   "It rusts to a brown skin over a year or two; until then rain carries rust onto what is below. Keep soil and leaves off its foot.",
			design.Brushed:   "Wipe along the brushing, never across, and never with steel wool.",
		}[f.Kind])
		if f.Kind == design.Paint || f.Kind == design.Galvanize {
			return list
		}
	}
	has := map[stock.Care]bool{}
	for i := range j.Parts {
		if m := j.Parts[i].Metal; m != nil {
			has[m.Is().Care] = true
		}
	}
	weather := j.Design.Finish != nil && j.Design.Finish.Kind == design.Weather
	switch {
	case weather:
	case has[stock.Rusts]:
		list = append(list, "Bare steel rusts within days out of doors: agree on a finish, or wax it twice a year and keep it under a roof.")
	case has[stock.RustSkin]:
		list = append(list, "The steel rusts to a brown skin; until then rain carries rust onto what is below. Keep soil and leaves off its foot.")
	}
	if has[stock.TeaStains] {
		list = append(list, "Rinse stainless steel with fresh water, near the sea every month.")
	}
	if has[stock.Patina] {
		list = append(list, "Copper and its alloys turn brown, and green over the years; wax keeps them bright.")
	}
	if has[stock.Dulls] {
		list = append(list, "Rinse aluminium with water; it dulls to a pale grey.")
	}
	return list
}

// ClientCautions are what a client and the public must know of a piece of this size.
func (w Writer) ClientCautions(j *fab.Job) []string {
	switch j.Reach() {
	case fab.TableTop:
		return []string{"Set it where it cannot be knocked down; it is not a toy.", "Made by hand: it will differ a little from this drawing."}
	case fab.Low:
		return []string{
			"Not to be climbed, sat on or pulled at.", "Lift it by its base" + w.byTwo(j) + ", in gloves.",
			"Where the public can reach it, a licensed engineer and the local code decide how it must stand.",
			"Made by hand: it will differ a little from this drawing.",
		}
	}
	return []string{
		"Not to be climbed, pulled at or hung from.",
		"A licensed engineer and the local code decide how it must stand.",
		"Lift and set it up with people and gear rated for its weight; keep clear until it is fixed.",
		"Made by hand: it will differ a little from this drawing.",
	}
}

// byTwo says that it takes more than one person to lift a piece, where it does.
func (w Writer) byTwo(j *fab.Job) string {
	for _, f := range j.Findings {
		if _, ok := f.Fact.(fab.WholeHeavy); ok {
			return ", with two people or more"
		}
	}
	return ""
}

// Price says what the piece costs and what is due with the order.
func (w Writer) Price(p fab.Price) []string {
	list := []string{Money(p.Amount, p.Currency) + ", without tax."}
	if !p.Agreed {
		list[0] = Money(p.Amount, p.Currency) + ", an " + Estimate + ", without tax."
	}
	if p.Deposit > 0 {
		list = append(list, fmt.Sprintf("%s of it is due with the order.", Money(p.Deposit, p.Currency)))
	}
	return list
}
