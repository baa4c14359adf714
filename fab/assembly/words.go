package assembly

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
)

// call names a part by what it is.
func call(p *design.Part) string { return p.Kind() + " '" + p.Name + "'" }

func (m *maker) mm(x float64) string { return m.system.Length(x, quantity.Coarse) }

// fine writes a small length, such as of a hole or a gap.
func (m *maker) fine(x float64) string { return m.system.Length(x, quantity.Fine) }

// atLeast writes a length that must not be fallen short of: rounded up to the
// next step of a rule.
func (m *maker) atLeast(x float64) string {
	step := 1.0
	if m.system == quantity.Inch {
		step = 25.4 / 16
	}
	return m.mm(math.Ceil(x/step-1e-9) * step)
}

// kiloPascals writes a pressure given in kPa as a gauge reads it.
func (m *maker) kiloPascals(p float64) string {
	if m.system == quantity.Inch {
		return quantity.Decimal(p/6.894757, 0) + " psi"
	}
	return quantity.Decimal(p, 0) + " kPa"
}

// weldRefs refers to welds by their numbers.
func weldRefs(numbers []int) string {
	switch len(numbers) {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf(" (weld %d)", numbers[0])
	}
	list := make([]string, len(numbers))
	for i, n := range numbers {
		list[i] = fmt.Sprint(n)
	}
	return " (welds " + strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1] + ")"
}

// ref refers to the weld of a link.
func (m *maker) ref(k int) string {
	if w := m.links[k].weld; w >= 0 {
		return weldRefs([]int{m.plan.Welds[w].Number})
	}
	return ""
}

// seamRef refers to the welds of a kind within an item.
func (m *maker) seamRef(i int, kind Kind) string {
	var numbers []int
	for _, k := range m.seams[i] {
		if w := &m.plan.Welds[k]; w.Kind == kind {
			numbers = append(numbers, w.Number)
		}
	}
	return weldRefs(numbers)
}

// leaning says how a post stands.
func leaning(p *design.Post) string {
	switch {
	case p.Direction.Z >= 1-1e-12:
		return "upright"
	case p.Direction.Z <= -1+1e-12:
		return "straight down"
	}
	lean := math.Acos(min(1, max(-1, p.Direction.Z)))
	return "leaning " + quantity.Degrees(lean) + " toward " + quantity.Bearing(design.BearingOf(p.Direction))
}

// place writes a place in plan.
func (m *maker) place(at r3.Vec) string {
	return fmt.Sprintf("(%s, %s)", m.mm(at.X), m.mm(at.Y))
}

// unitName names what is set in its place: the part by which it stands, and what
// is on it.
func (m *maker) unitName(u *unit) string {
	name := call(m.part(u.items[0]))
	if len(u.items) == 1 {
		return name
	}
	var rest []string
	for _, i := range u.items[1:] {
		rest = append(rest, call(m.part(i)))
	}
	return name + ", with " + and(rest) + " on it,"
}

// and strings words together.
func and(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
