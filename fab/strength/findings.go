package strength

import (
	"math"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
)

const (
	// rigid is the frequency in Hz from which ASCE 7 and EN 1991-1-4 take a
	// structure as stiff in gusts, ASCE 7 26.2.
	rigid = 1.0

	// mostAdvised is for how many posts over their limit it is worked out what
	// helps, the worst first.
	mostAdvised = 4
)

// Findings returns what there is to say. What would help the posts that are over
// their limit is left to Advise.
func (s *Strength) Findings(in Input) []finding.Finding {
	list, _ := s.findings(in, nil)
	return list
}

// Advise returns the findings with what would help: for the worst posts that are
// over their limit the design is worked out again with thicker and wider ones, which
// takes some milliseconds a post.
func (s *Strength) Advise(in Input) ([]finding.Finding, error) {
	return s.findings(in, func(p *design.Part) ([]Remedy, error) { return s.Remedies(in, p, step(in.Design.Units)) })
}

// Fails reports whether anything is over its limit for which it can be worked out what helps.
func (s *Strength) Fails() bool {
	for i := range s.Shedding {
		if t := s.Shedding[i].Tiring; t != nil && s.Shedding[i].Design > 0 && !t.Fatigue.Harmless() {
			return true
		}
	}
	return s.Worst > 1
}

// A found is the findings so far.
type found struct{ list []finding.Finding }

func (f *found) add(level finding.Level, id check.ID, fact finding.Fact, parts ...string) {
	f.list = append(f.list, finding.Finding{Level: level, Concern: finding.Life, Parts: parts, Check: string(id), Fact: fact})
}

// bends adds that a plate, which may be nil, is bent beyond its limit.
func (f *found) bends(p *Plate, name string, cure func(check.Check) (Advice, []Cure, error)) error {
	if p == nil || !(p.Ratio > 1) {
		return nil
	}
	fact := PlateBends{Ratio: p.Ratio, Post: p.Post.Name, How: p.How}
	var err error
	if fact.Advice, fact.Cures, err = cure(check.Check{ID: check.Plate, Part: name}); err != nil {
		return err
	}
	f.add(finding.Danger, check.Plate, fact, name)
	return nil
}

func (s *Strength) findings(in Input, remedies func(*design.Part) ([]Remedy, error)) ([]finding.Finding, error) {
	var f found
	for _, p := range s.over(in) {
		fact := s.worstOf(p.part)
		switch {
		case remedies == nil:
		case p.worse >= mostAdvised:
			fact.Advice = WorseFirst
		case tries(len(in.Items)) == 0:
			fact.Advice = TooManyParts
		default:
			tried, err := remedies(p.part)
			if err != nil {
				return nil, err
			}
			fact.Advice = Advised
			for _, r := range tried {
				if r.Ratio > 1 {
					continue // it helps, and not enough
				}
				fact.Cures = append(fact.Cures, Cure{Gauge: r.Gauge, Pipe: r.Pipe, Thickness: r.Thickness, Diameter: r.Diameter, Ratio: r.Ratio})
			}
		}
		id := check.Post
		if fact.Weld {
			id = check.Weld
		}
		f.add(finding.Danger, id, fact, p.part.Name)
	}
	if s.Buckling < 1 {
		f.add(finding.Danger, check.Buckling, Buckles{Ratio: 1 / s.Buckling})
	}
	cure := func(k check.Check) (Advice, []Cure, error) {
		switch {
		case remedies == nil:
			return NoAdvice, nil, nil
		case tries(len(in.Items)) == 0:
			return TooManyParts, nil, nil
		}
		list, err := s.Cures(in, k)
		return Advised, list, err
	}
	walls := 0
	for i := range s.Shells {
		sh := &s.Shells[i]
		if !sh.Gap.fails() || !(sh.Ratio > 1) {
			continue
		}
		fact := WallBreaks{Ratio: sh.Ratio, With: sh.With.Name, Where: sh.Where, Case: sh.Case, Side: sh.Ball.Post != nil}
		var err error
		if walls++; walls <= mostAdvised || remedies == nil {
			fact.Advice, fact.Cures, err = cure(check.Check{ID: sh.id(), Part: sh.Ball.Name, With: sh.With.Name})
		} else {
			fact.Advice = WorseFirst
		}
		if err != nil {
			return nil, err
		}
		f.add(finding.Danger, sh.id(), fact, sh.Ball.Name)
	}
	if err := f.bends(s.Plate, baseName(in), cure); err != nil {
		return nil, err
	}
	s.held(in, &f)
	if err := s.padFindings(in, &f, cure); err != nil {
		return nil, err
	}
	s.sunkFindings(&f)
	if len(s.Modes) > 0 && s.Modes[0].Frequency < rigid && in.Wind != nil && in.Wind.Swayed == nil {
		f.add(finding.Caution, check.Frequency, SlowSway{Frequency: s.Modes[0].Frequency, Limit: rigid})
	}
	if err := s.shedding(in, &f, cure); err != nil {
		return nil, err
	}
	if !s.Complete && !in.Still {
		f.add(finding.Caution, check.Frequency, ModeMissed{})
	}
	s.unpushed(in, &f)
	for _, u := range s.Unchecked {
		f.add(finding.Caution, gapCheck[u.Gap], u, u.parts()...)
	}
	f.add(finding.Note, "", Aid{})
	return f.list, nil
}

// held adds what there is to say of anchors: the tension that they are checked for
// is that with which the target against tipping is reached, and the shear that of
// the loads times the same target.
func (s *Strength) held(in Input, f *found) {
	a := s.Anchors
	if a == nil {
		return
	}
	base, target := baseName(in), max(1, in.Target)
	wall := in.Design.Wall() != nil
	if g := a.Grip; g != nil && g.Use > 1 {
		f.add(finding.Danger, check.AnchorGround, GripFails{g.Use, g.Case, wall}, base)
	}
	if b := a.Bed; b != nil && b.Use > 1 {
		f.add(finding.Danger, check.Footing, BedFails{b.Use, b.Case, b.Tips}, base)
	}
	level := func(ratio float64) finding.Level {
		if ratio > 1 {
			return finding.Danger
		}
		if a.Grip != nil {
			return finding.Note // the bolts and their hold are decided: the figure is for whoever chooses them
		}
		return finding.Caution
	}
	if a.ForTarget > 0 {
		f.add(level(a.Ratio), check.AnchorSteel, AnchorTension{
			Tension: a.Tension, Case: a.Case, ForTarget: a.ForTarget, Target: target, Bolt: a.Bolt, Ratio: a.Ratio, Over: a.Ratio > 1,
			Gripped: a.Grip != nil, Wall: wall,
		}, base)
	}
	shear := AnchorShear{Shear: a.ShearForTarget, Case: a.ShearCase, Target: target, Sharing: a.Sharing, Bolt: a.Bolt, Ratio: a.ShearRatio, Over: a.ShearRatio > 1, Wall: wall}
	switch {
	case a.ShearForTarget == 0:
	case a.Allowed == 0 && a.ForTarget == 0, a.ShearRatio > 1:
		f.add(level(a.ShearRatio), check.AnchorSteel, shear, base)
	case a.Interaction > 1 && a.Ratio <= 1:
		f.add(finding.Danger, check.AnchorSteel, AnchorInteraction{Case: a.InteractionCase, Ratio: a.Interaction, Bolt: a.Bolt}, base)
	}
}

// A culprit is a post over its limit, and how many are over it by more.
type culprit struct {
	part  *design.Part
	worse int
}

// over returns the posts that are over their limit, in source order.
func (s *Strength) over(in Input) []culprit {
	var list []culprit
	var ratios []float64
	for _, it := range in.Items {
		if it.Part.Post == nil {
			continue
		}
		if ratio := s.worstOf(it.Part).Ratio; ratio > 1 {
			list, ratios = append(list, culprit{part: it.Part}), append(ratios, ratio)
		}
	}
	for i := range list {
		for k, r := range ratios {
			if r > ratios[i] || r == ratios[i] && k < i {
				list[i].worse++
			}
		}
	}
	return list
}

// shedding adds what there is to say of eddies: one finding, with all posts whose
// vibration tires the welds.
func (s *Strength) shedding(in Input, f *found, cure func(check.Check) (Advice, []Cure, error)) error {
	fact := Vibrates{Least: math.Inf(1), Windless: in.Wind == nil}
	var parts []string
	worst := 0.0
	for i := range s.Shedding {
		t := s.Shedding[i].Tiring
		if t == nil || t.Fatigue.Harmless() {
			continue
		}
		name := s.Shedding[i].Part.Name
		if t.Use() > worst {
			worst, fact.Worst = t.Use(), name
		}
		parts = append(parts, name)
		if t.Critical < fact.Least {
			fact.Least, fact.First = t.Critical, name
		}
		if t.Critical > fact.Most {
			fact.Most, fact.Last = t.Critical, name
		}
		if t.Fatigue.Range > fact.Range {
			fact.Range, fact.Cutoff, fact.Amplitude, fact.At = t.Fatigue.Range, t.Fatigue.Cutoff/partialOf(in.Design), t.Amplitude, t.At.Name
		}
	}
	if len(parts) == 0 {
		return nil
	}
	level := finding.Danger
	if fact.Windless {
		level = finding.Caution
	} else {
		var err error
		if fact.Advice, fact.Cures, err = cure(check.Check{ID: check.Shedding, Part: fact.Worst}); err != nil {
			return err
		}
	}
	f.add(level, check.Shedding, fact, parts...)
	return nil
}

// unpushed adds what there is to say of posts that no push reaches.
func (s *Strength) unpushed(in Input, f *found) {
	site := siteOf(in.Design)
	var names []string
	for _, p := range s.Unpushed {
		names = append(names, p.Name)
	}
	switch {
	case !(site.Push > 0):
	case len(pushes(in)) == 0:
		f.add(finding.Caution, check.Post, NothingPushed{Height: site.PushHeight, Wind: in.Wind != nil}, names...)
	case len(names) > 0:
		f.add(finding.Note, check.Post, NotPushed{Wind: in.Wind != nil}, names...)
	}
}

// worstOf returns where a post is used most, in what case, and how much of its
// limit.
func (s *Strength) worstOf(p *design.Part) OverLimit {
	var worst OverLimit
	members, welds := s.of(p)
	for _, m := range members {
		if m.Ratio > worst.Ratio {
			worst = OverLimit{Where: m.Where, Joint: m.Joint, Case: m.Case, Ratio: m.Ratio}
		}
	}
	for _, w := range welds {
		if w.Ratio > worst.Ratio {
			worst = OverLimit{Where: w.Where, Weld: true, Case: w.Case, Ratio: w.Ratio}
		}
	}
	return worst
}

// step returns by how much a post is widened at a time, in mm: a step of a rule in
// the design's units.
func step(units quantity.System) float64 {
	if units == quantity.Inch {
		return 12.7
	}
	return 10
}
