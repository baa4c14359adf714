package pack

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"stabile/fab/assembly"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
)

const weldingCaution = "Arc light burns eyes and skin; fumes poison; a closed hollow bursts when heated: vent it. Nobody under a lift."

// welding makes the sheets of seams and joints, and of putting together step by
// step.
func (k *pack) welding(f *actFlow) {
	plan := k.job.Plan.Assembly
	if len(plan.Welds)+len(plan.Steps) == 0 {
		return
	}
	f.act("welds", sheet.Block{Subtitle: "Welds: seams, joints and tacks", Document: "Weld list", Caution: weldingCaution, DoNotScale: true})
	if len(plan.Welds) > 0 {
		f.Heading(k.weldTotals(&plan.Totals))
		if first := &plan.Welds[0]; sameRod(plan.Welds) {
			f.Paragraph(fmt.Sprintf("All %s filler. A band to clean is %s wide along an edge, on one face.", k.rod(first), k.length(first.Band)))
		} else {
			f.Paragraph(fmt.Sprintf("A band to clean is %s wide along an edge, on one face.", k.length(first.Band)))
		}
		f.Table(k.weldTable(plan))
		if slices.ContainsFunc(plan.Welds, func(w assembly.Weld) bool { return w.Plug() && w.Kind != assembly.PointFill }) {
			f.Paragraph("Run round: too small for tacks; hold the disc in its hole and weld round at once.")
		}
		k.jointDetails(f.Flow)
		f.Table(k.tackTable(plan))
	}
	f.Table(k.spaceTable(plan))
	f.Heading("How the welds are planned")
	for _, r := range plan.Rules {
		f.Item("–", ink.Regular, k.sentence(r))
	}
	if len(plan.Steps) == 0 {
		return
	}
	f.act("assembly", sheet.Block{Subtitle: "Putting together, step by step", Document: "Assembly steps", Caution: weldingCaution, DoNotScale: true})
	f.Table(k.findingsTable("While it is put together", plan.Findings))
	for i, n := range oftenNoted(plan) {
		f.Item(noteMark(i), ink.Bold, k.sentence(n))
	}
	f.Gap(sheet.Small)
	f.Table(k.stepTable(plan))
}

// noteOften is at how many steps a note stands that is written once, before all.
const noteOften = 3

// oftenNoted returns the notes that many steps have in common, in their order. What
// bursts where it is not heeded stands at its step, however many there are.
func oftenNoted(plan *assembly.Plan) (list []finding.Fact) {
	count := map[finding.Fact]int{}
	for i := range plan.Steps {
		for _, n := range plan.Steps[i].Notes {
			if _, closes := n.(assembly.ClosesHollow); closes {
				continue
			}
			if count[n]++; count[n] == noteOften {
				list = append(list, n)
			}
		}
	}
	return list
}

// indexOf returns where a note is in a list, or -1.
func indexOf(list []finding.Fact, n finding.Fact) int {
	if _, closes := n.(assembly.ClosesHollow); closes {
		return -1 // it has a list of parts and is in none
	}
	return slices.Index(list, n)
}

// noteMark is how the table of steps names such a note.
func noteMark(i int) string { return "NOTE " + letters(i) }

// weldTotals says how much there is to weld.
func (k *pack) weldTotals(t *assembly.Totals) string {
	return fmt.Sprintf("%s to weld, %s of edge to clean, %s of filler", k.say().Run(t.Weld), k.say().Run(t.Edge), k.units.Weight(t.Filler))
}

// weldTable lists the seams and joints. What is alike for all of them, as the
// filler mostly is, stands over it.
func (k *pack) weldTable(plan *assembly.Plan) *sheet.Table {
	same := sameRod(plan.Welds)
	t := &sheet.Table{Tight: true, Columns: []sheet.Column{
		{Header: "Weld", Align: ink.End}, {Header: "Kind"}, {Header: "Where", Wrap: true}, {Header: "Count", Align: ink.End},
		{Header: "Each,\n" + k.unit(), Align: ink.End}, {Header: "Tacks", Align: ink.End}, {Header: "Every,\n" + k.unit(), Align: ink.End},
		{Header: "Clean\nbands", Align: ink.End}, {Header: "Filler,\n" + k.fillerUnit(), Align: ink.End},
	}}
	open := slices.ContainsFunc(plan.Welds, func(w assembly.Weld) bool { return w.Root > 0 || w.Top > 0 })
	if open {
		t.Columns = append(t.Columns, sheet.Column{Header: "Groove,\n" + k.unit(), Align: ink.End})
	}
	if !same {
		t.Columns = append(t.Columns, sheet.Column{Header: "Rod"})
	}
	tacked := 0 // in all rows
	for i := range plan.Welds {
		w := &plan.Welds[i]
		tacks, every := strconv.Itoa(w.Tacks.Number()), k.rule(w.Tacks.Spacing)
		tacked += w.Count * w.Tacks.Number()
		switch {
		case w.Kind == assembly.PointFill:
			tacks, every = "–", "built up"
		case w.Plug():
			tacks, every = "–", "run round"
		}
		row := []string{
			strconv.Itoa(w.Number), w.Kind.String(), where(w), strconv.Itoa(w.Count), k.rule(w.Length),
			tacks, every, strconv.Itoa(w.Faces), k.filler(w.Filler),
		}
		if open {
			row = append(row, k.groove(w))
		}
		if !same {
			row = append(row, k.rod(w))
		}
		t.Rows = append(t.Rows, row)
	}
	s := &plan.Totals
	t.Foot = [][]string{{"", "Total", "", strconv.Itoa(s.Fits), k.say().Run(s.Weld), strconv.Itoa(tacked), "", k.say().Run(s.Faces), k.filler(s.Filler)}}
	return t
}

// groove writes how wide a weld is open at its root and at the outside.
func (k *pack) groove(w *assembly.Weld) string {
	switch {
	case w.Top > 0:
		return k.fine(w.Root) + " to " + k.fine(w.Root+w.Top)
	case w.Root > 0:
		return k.fine(w.Root)
	}
	return "–"
}

// rod writes the process and the filler of a weld.
func (k *pack) rod(w *assembly.Weld) string {
	return fmt.Sprintf("%s, Ø%s", processName(w.Process), k.units.Length(w.Rod, quantity.Fine))
}

// processName names a process as the trade writes it.
func processName(p design.WeldProcess) string {
	if p == design.TIG || p == design.MIG {
		return strings.ToUpper(string(p))
	}
	return string(p)
}

// sameRod reports whether all welds are made alike.
func sameRod(welds []assembly.Weld) bool {
	return !slices.ContainsFunc(welds, func(w assembly.Weld) bool {
		return w.Process != welds[0].Process || w.Rod != welds[0].Rod
	})
}

// fillerUnit is the unit of weld metal, which is little.
func (k *pack) fillerUnit() string {
	if k.units == quantity.Inch {
		return "lb"
	}
	return "g"
}

// filler writes a mass of weld metal given in kg, without its unit.
func (k *pack) filler(kg float64) string {
	u, _ := quantity.LookupUnit(k.fillerUnit())
	if k.units == quantity.Inch {
		return fmt.Sprintf("%.3f", kg/u.Scale)
	}
	return fmt.Sprintf("%.1f", kg/u.Scale)
}

// where names the parts that a weld joins.
func where(w *assembly.Weld) string {
	if w.With == "" {
		return w.Part
	}
	if w.At == "foot" || w.At == "head" {
		return w.Part + " " + w.At + " – " + w.With
	}
	return w.Part + " – " + w.With
}

// listedTacks is how many places of tacks are written out: the rest lie half way
// between those.
const listedTacks = 8

// tackTable lists where welds are tacked, in order. Welds that are tacked alike
// share a line.
func (k *pack) tackTable(plan *assembly.Plan) *sheet.Table {
	t := &sheet.Table{Tight: true, Title: "Tacks, in order", Columns: []sheet.Column{
		{Header: "Weld", Wrap: true}, {Header: "Measured"}, {Header: "Places, in the order of tacking", Wrap: true},
	}}
	for i := range plan.Welds {
		w := &plan.Welds[i]
		if w.Tacks.Number() == 0 {
			continue
		}
		from, places, number := w.Tacks.From.String(), k.tacks(&w.Tacks), strconv.Itoa(w.Number)
		if n := slices.IndexFunc(t.Rows, func(r []string) bool { return r[1] == from && r[2] == places }); n >= 0 {
			t.Rows[n][0] += ", " + number
			continue
		}
		t.Rows = append(t.Rows, []string{number, from, places})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return t
}

// tacks writes the places of tacks.
func (k *pack) tacks(t *assembly.Tacks) string {
	var list []string
	for _, at := range t.At[:min(len(t.At), listedTacks)] {
		if t.From.Angles() {
			list = append(list, quantity.Decimal(at*180/math.Pi, 0)+"°")
		} else {
			list = append(list, k.rule(at))
		}
	}
	s := strings.Join(list, ", ")
	if n := len(t.At) - listedTacks; n > 0 {
		s += fmt.Sprintf(", then %d half way between", n)
	}
	return s
}

// spaceTable lists the hollows that are closed when all is welded; nil for none.
func (k *pack) spaceTable(plan *assembly.Plan) *sheet.Table {
	if len(plan.Spaces) == 0 {
		return nil
	}
	t := &sheet.Table{Tight: true, Halved: true, Title: "Closed hollows: VENT before they close", Columns: []sheet.Column{
		{Header: "Hollow", Wrap: true}, {Header: "Closed\nby step", Align: ink.End}, {Header: "Vents\ndrawn", Align: ink.End}, {Header: "Holes to\ndrill first", Wrap: true},
	}}
	for i := range plan.Spaces {
		s := &plan.Spaces[i]
		step, vents := "–", "none"
		if s.Step > 0 {
			step = strconv.Itoa(s.Step)
		}
		if s.Holes > 0 {
			vents = fmt.Sprintf("%d of Ø%s", s.Holes, k.fine(s.Vent))
		}
		drill := "as drawn"
		switch {
		case s.Dip > 0:
			drill = fmt.Sprintf("vent and drain, Ø%s or more each", k.units.Length(s.Dip, quantity.Fine))
		case s.Holes == 0:
			drill = fmt.Sprintf("one of Ø%s or more", k.units.Length(assembly.WeldVent, quantity.Fine))
		}
		t.Rows = append(t.Rows, []string{strings.Join(s.Parts, ", "), step, vents, drill})
	}
	return t
}

// stepTable lists the steps of putting together, with what is lifted and what
// needs care at a glance, and where the notes are heeded that are written before.
func (k *pack) stepTable(plan *assembly.Plan) *sheet.Table {
	t := &sheet.Table{Tight: true, Columns: []sheet.Column{
		{Header: "Step", Align: ink.End}, {Header: "Do this", Wrap: true}, {Header: "Lift", Align: ink.End}, {Header: "Care"},
	}}
	often := oftenNoted(plan)
	for i := range plan.Steps {
		s := &plan.Steps[i]
		lift := ""
		var care []string
		if s.Lift != nil {
			lift = k.units.Weight(s.Lift.High)
			if s.Lift.Heavy {
				care = append(care, "HEAVY")
			}
			if s.Lift.Prop {
				care = append(care, "HOLD")
			}
		}
		if len(s.Closes) > 0 {
			care = append(care, "VENT")
		}
		text := k.sentence(s.Do)
		for _, n := range s.Notes {
			if i := indexOf(often, n); i >= 0 {
				care = append(care, noteMark(i))
				continue
			}
			text += "\n– " + k.sentence(n)
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(s.Number), text, lift, strings.Join(care, "\n")})
	}
	return t
}
