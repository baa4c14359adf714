package pack

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/assembly"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/stock"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// findingsTable returns a table of findings under a title; nil for none.
func (k *pack) findingsTable(title string, list []finding.Finding) *sheet.Table {
	if len(list) == 0 {
		return nil
	}
	t := &sheet.Table{Tight: true, Title: title, Columns: []sheet.Column{{Header: "Level"}, {Header: "Part", Wrap: true}, {Header: "Finding", Wrap: true}}}
	for _, r := range k.say().Remarks(list) {
		t.Rows = append(t.Rows, []string{string(r.Level), shortNames(r.Parts), words.Capital(r.Text) + "."})
	}
	return t
}

// A caution is a danger with what to do about it.
type caution struct {
	danger string
	items  []string
}

// cautions writes the cautions that fit the work in hand. SAFETY.md says them at
// length.
func (k *pack) cautions(f *sheet.Flow) {
	f.Heading("Dangers: read before the work begins")
	for _, c := range k.dangers() {
		items := func(f *sheet.Flow) {
			f.Paragraph(strings.Join(c.items, " "))
		}
		_, rest := f.Rest()
		lines := sheet.Wrap(c.danger, dangerColumn-4, sheet.Small, ink.Bold)
		height := max(wordsHeight(rest.Max.X-rest.Min.X-dangerColumn, items), float64(len(lines))*sheet.LineHeight(sheet.Small))
		f.Need(height)
		s, box := f.Rest()
		for i, line := range lines {
			at := r2.Vec{X: box.Min.X, Y: box.Max.Y - sheet.Small - float64(i)*sheet.LineHeight(sheet.Small)}
			s.Add(&ink.Text{At: at, Height: sheet.Small, Face: ink.Bold, Text: line})
		}
		box.Min.X += dangerColumn
		write(s, box, items)
		f.Take(height)
		f.Gap(1)
	}
}

// dangerColumn is the width of the column of dangers, in mm.
const dangerColumn = 27.0

// dangers are the cautions that fit the job.
func (k *pack) dangers() []caution {
	plan := k.job.Plan.Assembly
	list := []caution{
		{"These figures", []string{
			"They aid judgement. A licensed engineer and the local code decide for anything that the public can reach; the machine's handbook decides at the bench.",
			"What is listed as not checked was not checked. Measure one printed length against its figure; try one blank in scrap.",
		}},
		{"Sheet, shear and rolls", []string{
			"Sheared edges and burrs cut to the bone: gloves to carry, every edge broken before rolling. Points of gores are needles.",
			"No gloves, sleeves or loose hair near turning rolls, drills or wheels. Fingers behind the guard and out of the nip; one person controls the machine.",
		}},
		{"Grinding", []string{
			"Face shield over glasses, hearing protection, a respirator. Guard on, right speed, stand aside at start-up.",
			"Sparks fly ten metres and more: clear away what burns, and watch for an hour after the last one.",
		}},
		{"Arc and fumes", k.fumes()},
	}
	if len(plan.Spaces) > 0 {
		list = append(list, caution{"Closed hollows burst", k.hollows(plan)})
	}
	if items := k.lifting(plan); len(items) > 0 {
		list = append(list, caution{"Lifting and propping", items})
	}
	if k.job.Design.Wired() {
		list = append(list, caution{"Lamps and cables", []string{
			"Take the burrs off every hole that a cable goes through, and put a grommet in it.",
			"A licensed electrician fits the lamps, protects the circuit and bonds the metal to earth. No water stands where a cable is.",
		}})
	}
	return append(list, caution{"Where it will stand", []string{
		"People hang, climb and swing in groups. If they can reach it, anchor it, and keep the lowest foothold above reach or fence it.",
		"Anchors in the ground, people, earthquake and ice are worked out only where the first sheet says so; no figure includes banners.",
		"A named person inspects ballast and anchors: a month after it is set up, each year and after each storm.",
		"Look over welds, anchors and drains once a year and after each storm. Rust from the inside shows last.",
	}})
}

// fumes are the cautions of the arc that fit the metals.
func (k *pack) fumes() []string {
	items := []string{"Helmet of the right shade, skin covered, screens up: the arc burns eyes and skin, those of passers-by too."}
	has := func(of func(stock.Alloy) bool) bool { return len(k.job.Metals(of)) > 0 }
	give := func(f stock.Fumes) func(stock.Alloy) bool { return func(a stock.Alloy) bool { return a.Fumes == f } }
	if has(give(stock.ZincFumes)) {
		items = append(items, "Zinc is on this sheet: its fumes give fever. Strip the coat well back from every seam, both faces, and draw the fumes off.")
	}
	if has(give(stock.ChromiumFumes)) {
		items = append(items, "Stainless gives off chromium fumes that cause cancer: local exhaust and a fitted respirator, also when grinding.")
	}
	if has(give(stock.CopperFumes)) {
		items = append(items, "Copper alloys may hold lead, beryllium or zinc: know which one it is, and draw the fumes off.")
	}
	if has(func(a stock.Alloy) bool { return a.Dust }) {
		items = append(items, "Never grind aluminium and steel on the same dusty bench: the dust burns.")
	}
	return append(items,
		"Local exhaust at the seam, and no paint, plating or degreaser on the metal: near an arc they give poisonous gas.",
		"Dry gloves and boots, sound cables: a welding set can kill. Pacemakers stay away from high-frequency start. Cylinders are chained upright.",
		"Hot metal is marked HOT. No thoriated tungsten is ground without extraction. Pickling acid and isocyanate paint need what SAFETY.md says.",
		"Shielding gas sinks and takes the place of air: keep your head out of purged vessels and pits.")
}

// hollows are the cautions of closed spaces.
func (k *pack) hollows(plan *assembly.Plan) []string {
	items := []string{
		fmt.Sprintf("%s closed when welded. The weld list gives the hole of each: drill it before the last seam and before heat or a bath.", hollowsAre(len(plan.Spaces))),
		"Never weld on anything closed unless you know what is inside: water or oil in it becomes steam.",
	}
	if f := k.job.Design.Finish; f != nil {
		switch f.Kind {
		case design.Galvanize:
			items = append(items, fmt.Sprintf("The zinc bath is near %.0f °C: a sealed or wet hollow can explode in it. Vents and drains by the galvaniser's rules, at the highest and the lowest point of every hollow.", assembly.ZincBath))
		case design.Paint:
			items = append(items, "Every vent stays open if the paint is baked.")
		}
	}
	return append(items, "Out of doors a sealed ball still draws water in. Leave a drain open at its lowest point.")
}

func hollowsAre(n int) string {
	if n == 1 {
		return "1 hollow is"
	}
	return fmt.Sprintf("%d hollows are", n)
}

// lifting are the cautions of what is lifted, with the weights.
func (k *pack) lifting(plan *assembly.Plan) []string {
	var items []string
	heavy, held := 0, 0
	most := 0.0
	for i := range plan.Steps {
		s := &plan.Steps[i]
		if s.Lift == nil {
			continue
		}
		most = max(most, s.Lift.High)
		if s.Lift.Heavy {
			heavy++
		}
		if s.Lift.Prop {
			held++
		}
	}
	if most > 0 {
		items = append(items, fmt.Sprintf("The heaviest lift is %s. Rig for more; nobody under a load. Balls offer no grip: plan slings before welding.", k.units.Weight(most)))
	}
	if heavy > 0 {
		items = append(items, fmt.Sprintf("%s too heavy for one person: marked HEAVY in the steps.", liftsAre(heavy)))
	}
	if held > 0 {
		items = append(items, fmt.Sprintf("%s until welded: see the steps marked HOLD. What balances on the drawing does not balance half welded.", partsFall(held)))
	}
	if plan.HoldFrom > 0 {
		end := "to the end, with ballast or anchors"
		if plan.HoldUntil > 0 {
			end = fmt.Sprintf("until step %d is welded", plan.HoldUntil)
		}
		items = append(items, fmt.Sprintf("Half built the whole does not stand by itself: hold it down from step %d %s.", plan.HoldFrom, end))
	}
	return items
}

func liftsAre(n int) string {
	if n == 1 {
		return "1 lift is"
	}
	return fmt.Sprintf("%d lifts are", n)
}

func partsFall(n int) string {
	if n == 1 {
		return "1 part falls unless it is held or propped"
	}
	return fmt.Sprintf("%d parts fall unless they are held or propped", n)
}
