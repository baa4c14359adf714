package fab

import (
	"fmt"
	"slices"
	"strings"

	"stabile/fab/assembly"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/stock"
)

// namesShown is the number of names that a finding lists in full.
const namesShown = 8

// find gathers what there is to say: faults first, then cautions, then
// notes, each in the order in which they came up.
func (b *builder) find() {
	j := b.Job
	var list []finding.Finding
	add := func(level finding.Level, part, format string, args ...any) {
		list = append(list, finding.Finding{Level: level, Part: part, Text: fmt.Sprintf(format, args...)})
	}
	for _, r := range j.Requirements {
		why := ""
		if r.Why != "" {
			why = " (" + r.Why + ")"
		}
		switch {
		case r.Outcome.Unchecked:
			add(finding.Caution, "", "not checked: require %s%s: %s", r.Text, why, r.Outcome.Value)
		case !r.Outcome.Holds:
			add(finding.Fault, "", "does not hold: require %s%s: it comes to %s", r.Text, why, r.Outcome.Value)
		}
	}
	list = append(list, j.Tipping.Findings(j.weight(), j.Design.Site, j.Design.Units)...)
	if j.Wind != nil {
		list = append(list, j.Wind.Findings(j.Design.Units)...)
	} else {
		add(finding.Caution, "", "wind was not checked, since the site gives none: out of doors a licensed engineer and the local code decide on it; to work it out write a site, such as %s", windExample(j.Design.Units))
	}
	if b.checked {
		list = append(list, b.strong...)
	} else {
		add(finding.Caution, "", "strength and sway were not worked out: a licensed engineer decides on them, and the local code on anything that the public can reach")
	}
	j.lifts(add)
	j.vessels(add)
	j.fumes(add)
	list = append(list, b.made...)
	if j.Plan != nil {
		list = append(list, j.Plan.Findings...)
	}
	for _, n := range j.Design.Notes {
		name := ""
		if n.Part != nil {
			name = n.Part.Name
		}
		add(finding.Note, name, "%s", n.Text)
	}
	if j.Mass.Weld > 0 {
		add(finding.Note, "", "weld metal of %s is an estimate by common practice: seams as a bead of 1.5 times the thickness squared, joints as a fillet with a leg of the thickness",
			j.Design.Units.Weight(j.Mass.Weld))
	}
	slices.SortStableFunc(list, func(a, b finding.Finding) int { return rank(a.Level) - rank(b.Level) })
	j.Findings = list
}

// windExample is how a design gives the wind, in its own units.
func windExample(units quantity.System) string {
	if units == quantity.Inch {
		return "site { wind 100 mph, method asce7, exposure C }"
	}
	return "site { wind 26 m/s, method en1991, terrain II }"
}

func rank(l finding.Level) int {
	return slices.Index([]finding.Level{finding.Fault, finding.Caution, finding.Note}, l)
}

type adder func(level finding.Level, part, format string, args ...any)

// lifts cautions of what one person should not lift.
func (j *Job) lifts(add adder) {
	units := j.Design.Units
	for _, p := range j.Parts {
		if p.High > assembly.OneLift {
			add(finding.Caution, p.Name, "weighs %s: above %s it is no lift for one person", units.Weight(p.Mass), assembly.LiftLimit(units))
		}
	}
	if len(j.Parts) > 1 && j.Mass.High > assembly.OneLift {
		add(finding.Caution, "", "the whole weighs %s without ballast: above %s it is no lift for one person", units.Weight(j.Mass.Total), assembly.LiftLimit(units))
	}
}

// vessels cautions of the closed spaces that welding makes.
func (j *Job) vessels(add adder) {
	var names []string
	for _, p := range j.Parts {
		if p.Ball != nil && !(p.Ball.Vent > 0) || p.Post != nil && closed(p.Post) {
			names = append(names, p.Name)
		}
	}
	if len(names) == 0 {
		return
	}
	shown := names[:min(len(names), namesShown)]
	more := ""
	if n := len(names) - len(shown); n > 0 {
		more = fmt.Sprintf(" and %d more", n)
	}
	add(finding.Caution, "", "closed when welded: %s%s; drill a vent into each before it is welded shut, heated or dipped, since air and water shut in burst it",
		strings.Join(shown, ", "), more)
}

// fumes cautions of metals that poison when they are welded or ground.
func (j *Job) fumes(add adder) {
	for _, f := range []struct {
		fumes stock.Fumes
		text  string
	}{
		{stock.ZincFumes, "a zinc coat gives fumes that cause fever when it is welded or ground; strip it well back from every seam, both faces, and draw the fumes off"},
		{stock.ChromiumFumes, "stainless gives chromium fumes that cause cancer when it is welded or ground; local exhaust and a fitted respirator"},
	} {
		var metals []string
		for _, m := range j.Metals(func(a stock.Alloy) bool { return a.Fumes == f.fumes }) {
			metals = append(metals, "'"+m.Name+"'")
		}
		if len(metals) > 0 {
			add(finding.Caution, "", "metal %s: %s", strings.Join(metals, ", "), f.text)
		}
	}
}

// Metals returns the metals of which parts are made whose alloys are of some kind,
// each name once, in the order of the parts.
func (j *Job) Metals(of func(stock.Alloy) bool) []*design.Metal {
	var metals []*design.Metal
	for i := range j.Parts {
		m := j.Parts[i].Metal
		if m == nil || slices.ContainsFunc(metals, func(o *design.Metal) bool { return o.Name == m.Name }) {
			continue
		}
		if of(m.Is()) {
			metals = append(metals, m)
		}
	}
	return metals
}

// closed reports whether a post is shut at both of its ends. One that stands on
// the ground itself is open there.
func closed(p *design.Post) bool {
	foot := p.Ends[design.Foot].With != nil && !isFeet(p.Ends[design.Foot].With)
	return foot && (p.Ends[design.Head].Meets != design.Free || p.Ends[design.Head].Disc)
}
