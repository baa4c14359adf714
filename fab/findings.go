package fab

import (
	"slices"

	"stabile/fab/assembly"
	"stabile/fab/check"
	"stabile/fab/corrosion"
	"stabile/fab/finding"
	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/stock"
)

// find gathers what there is to say: the gravest first, each level in the order in
// which they came up.
func (b *builder) find() {
	j := b.Job
	var list []finding.Finding
	add := func(level finding.Level, concern finding.Concern, id check.ID, fact finding.Fact, parts ...string) {
		list = append(list, finding.Finding{Level: level, Concern: concern, Parts: parts, Check: string(id), Fact: fact})
	}
	for i := range j.Requirements {
		switch r := &j.Requirements[i]; {
		case r.Verdict == check.Fails:
			add(finding.Fault, finding.Wish, check.Require, RequirementFails{r.Text, r.Why, r.Sides})
		case r.Missing != nil:
			add(finding.Caution, finding.Wish, check.Require, RequirementUndecided{r.Text, r.Why, r.Missing})
		case r.Verdict == check.Undecided:
			add(finding.Caution, finding.Wish, check.Require, RequirementUndecided{r.Text, r.Why, RestsOn{r.Open}})
		}
	}
	list = append(list, j.Tipping.Findings(j.weight(), j.Design.Site)...)
	if j.Wind != nil {
		list = append(list, j.Wind.Findings()...)
	} else {
		add(finding.Caution, finding.Life, check.Wind, wind.NoWind{})
	}
	if b.checked {
		list = append(list, b.strong...)
	} else {
		add(finding.Caution, finding.Life, check.Post, StrengthNotChecked{})
	}
	list = append(list, b.trapped...)
	for _, f := range b.sited {
		var parts []string
		if f.Check.Part != "" {
			parts = []string{f.Check.Part}
		}
		add(finding.Danger, finding.Life, f.Of, f, parts...)
	}
	j.lifts(add)
	b.hollows(add)
	j.wet(add)
	j.fumes(add)
	if p := j.Design.Base(); p != nil && p.Metal != nil && p.Base.Anchors > 0 {
		if pair := corrosion.Bolted(corrosion.Of(p.Metal.Is())); pair.Contact != corrosion.Sound {
			add(finding.Caution, finding.Work, check.Metal, AnchorsCorrode{p.Metal.Alloy, pair}, p.Name)
		}
	}
	list = append(list, b.made...)
	list = append(list, b.shop.Findings...)
	for _, n := range j.Design.Notes {
		var parts []string
		if n.Part != nil {
			parts = []string{n.Part.Name}
		}
		add(finding.Note, finding.Wish, "", DesignNote{n.Text}, parts...)
	}
	if j.Mass.Weld > 0 {
		add(finding.Note, finding.Work, "", WeldEstimate{j.Mass.Weld})
	}
	j.Findings = finding.Gather(list)
}

type adder func(level finding.Level, concern finding.Concern, id check.ID, fact finding.Fact, parts ...string)

// lifts cautions of what one person should not lift.
func (j *Job) lifts(add adder) {
	for _, p := range j.Parts {
		if p.High > assembly.OneLift {
			add(finding.Caution, finding.Life, check.Lift, Heavy{Mass: p.Mass}, p.Name)
		}
	}
	if len(j.Parts) > 1 && j.Mass.High > assembly.OneLift {
		add(finding.Caution, finding.Life, check.Lift, WholeHeavy{j.Mass.Total})
	}
}

// hollows cautions of the closed spaces that welding makes. Whether holes open a part is
// known from the plan of its assembly.
func (b *builder) hollows(add adder) {
	var names []string
	holed := slices.ContainsFunc(b.Parts, func(p Part) bool { return len(p.Holes) > 0 })
	for _, p := range b.Parts {
		if holed && b.shop != nil && b.shop.Assembly != nil && !b.shop.Assembly.Closes(p.Name) {
			continue
		}
		if p.Ball != nil && !p.Ball.Bowl && !(p.Ball.Vent > 0 || p.Ball.Drain > 0) || p.Post != nil && closed(p.Post) {
			names = append(names, p.Name)
		}
	}
	if len(names) > 0 {
		add(finding.Danger, finding.Life, check.Hollow, Closed{}, names...)
	}
}

// lowEnough is how far above the lowest point of a hollow, as a share of its height, the
// lowest hole may be that still drains it. Common practice, no source.
const lowEnough = 0.15

// wet cautions of parts out of doors into which rain runs by holes, and out of which none
// runs.
func (j *Job) wet(add adder) {
	if s := j.Design.Site; s == nil || s.Wind == 0 {
		return
	}
	var names []string
	for _, p := range j.Parts {
		if p.Base != nil || !slices.ContainsFunc(p.Holes, func(h *design.Hole) bool { return h.Joint == nil }) {
			continue
		}
		low, high := 0.0, 0.0
		drained := false
		if b := p.Ball; b != nil {
			low, high = b.Bottom().Z, p.Top()
			drained = b.Vent > 0 || b.Drain > 0
		} else {
			foot, head := p.Post.Ends[design.Foot], p.Post.Ends[design.Head]
			low, high = min(foot.At.Z, head.At.Z), max(foot.At.Z, head.At.Z)
			drained = p.Post.Vent > 0 || p.Post.Drain > 0 || foot.With == nil || foot.Meets == design.OnHead
		}
		for i := range p.Openings {
			for _, x := range p.Openings[i].Edge {
				drained = drained || x.Z <= low+lowEnough*(high-low)
			}
		}
		// A way for a cable in a plate drains the post on it.
		for _, q := range j.Parts {
			drained = drained || slices.ContainsFunc(q.Holes, func(h *design.Hole) bool { return h.Joint == p.Part && q.Base != nil })
		}
		if !drained {
			names = append(names, p.Name)
		}
	}
	if len(names) > 0 {
		add(finding.Note, finding.Work, check.Making, RainStands{}, names...)
	}
}

// fumes cautions of metals that give poisonous fumes when they are welded or ground.
func (j *Job) fumes(add adder) {
	if names := j.metalNames(stock.ZincFumes); len(names) > 0 {
		add(finding.Caution, finding.Life, check.Metal, ZincFumes{names})
	}
	if names := j.metalNames(stock.ChromiumFumes); len(names) > 0 {
		add(finding.Danger, finding.Life, check.Metal, ChromiumFumes{names})
	}
	for _, m := range j.Metals(func(a stock.Alloy) bool { return a.Fumes >= stock.CopperFumes }) {
		a := m.Is()
		add(finding.Caution, finding.Life, check.Metal, CopperFumes{Metal: m.Name, Alloy: a.Name, Fumes: a.Fumes})
	}
	if f := j.Design.Finish; f != nil && f.Kind == design.Paint {
		add(finding.Note, finding.Life, check.Metal, PaintFumes{})
	}
}

// metalNames returns the names of the metals that give fumes, as Metals has them.
func (j *Job) metalNames(fumes stock.Fumes) []string {
	var names []string
	for _, m := range j.Metals(func(a stock.Alloy) bool { return a.Fumes == fumes }) {
		names = append(names, m.Name)
	}
	return names
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
	return !(p.Vent > 0 || p.Drain > 0) && p.Ends[design.Foot].With != nil && (p.Ends[design.Head].Meets != design.Free || p.Shut())
}
