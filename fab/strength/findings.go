package strength

import (
	"fmt"
	"strings"

	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
)

const (
	// rigid is the frequency in Hz from which ASCE 7 and EN 1991-1-4 take a
	// structure as stiff in the gusts of the wind, ASCE 7 26.2.
	rigid = 1.0

	// told is how many parts a finding names before it counts the rest, and for
	// how many posts over their limit it is worked out what helps.
	told = 4
)

// Findings returns what there is to say, in the given units. For the worst posts that
// are over their limit it works out what would help, which takes some milliseconds
// a post.
func (s *Strength) Findings(in Input, units quantity.System) ([]finding.Finding, error) {
	var list []finding.Finding
	add := func(level finding.Level, p *design.Part, format string, args ...any) {
		f := finding.Finding{Level: level, Text: fmt.Sprintf(format, args...)}
		if p != nil {
			f.Part = p.Name
		}
		list = append(list, f)
	}
	for _, p := range s.over(in) {
		where, load, ratio := s.worstOf(p.part)
		help := "; what helps was worked out for the worst alone: mend those first"
		if p.worst < told {
			remedies, err := Remedies(in, p.part, step(units))
			if err != nil {
				return nil, err
			}
			help = say(remedies, units)
		}
		add(finding.Fault, p.part, "%s: %s of its limit in %s%s", where, Over(ratio), load, help)
	}
	if s.Buckling <= 1 {
		add(finding.Fault, nil, "buckles under its own weight and loads: they are %s of what it bears without going over sideways", Over(1/s.Buckling))
	}
	if p := s.Plate; p != nil && p.Ratio > 1 {
		add(finding.Fault, in.Design.Base(), "bends: %s of its limit beside %s (%s); a thicker plate, or ribs from the post out, help", Over(p.Ratio), p.Post.Name, p.How)
	}
	if a := s.Anchors; a != nil && a.Tension > 0 {
		add(finding.Note, in.Design.Base(), "an anchor is pulled by up to %s in %s, prying not included; it needs an anchor rated for that in its ground", units.Force(a.Tension), a.Case)
	}
	if len(s.Modes) > 0 && s.Modes[0].Frequency < rigid && in.Wind != nil {
		add(finding.Caution, nil, "swings at %s Hz: below 1 Hz gusts work it up and the wind's gust factor is too low; make it stiffer, or have an engineer work out the gusts", quantity.Decimal(s.Modes[0].Frequency, 2))
	}
	s.hum(units, add)
	if !s.Complete {
		add(finding.Caution, nil, "a lower frequency than the ones given may have been missed")
	}
	for i := range s.Gaps {
		add(finding.Caution, nil, "not checked, since no rule here covers it: %s", s.Gaps[i].say(2*told))
	}
	add(finding.Note, nil, "strength, sway and wind are aids to judgement; a licensed engineer and the local code decide for anything that people can reach")
	return list, nil
}

// A culprit is a post over its limit, and how many are over it by more.
type culprit struct {
	part  *design.Part
	worst int
}

// over returns the posts that are over their limit, in source order.
func (s *Strength) over(in Input) []culprit {
	var list []culprit
	var ratios []float64
	for _, it := range in.Items {
		if it.Part.Post == nil {
			continue
		}
		if _, _, ratio := s.worstOf(it.Part); ratio > 1 {
			list, ratios = append(list, culprit{part: it.Part}), append(ratios, ratio)
		}
	}
	for i := range list {
		for k, r := range ratios {
			if r > ratios[i] || r == ratios[i] && k < i {
				list[i].worst++
			}
		}
	}
	return list
}

// hum adds what there is to say of eddies.
func (s *Strength) hum(units quantity.System, add func(finding.Level, *design.Part, string, ...any)) {
	var names []string
	var least *Shedding
	for i := range s.Shedding {
		sh := &s.Shedding[i]
		if sh.Design == 0 || sh.Of > SheddingLimit {
			continue
		}
		names = append(names, sh.Part.Name)
		if least == nil || sh.Critical < least.Critical {
			least = sh
		}
	}
	if least == nil {
		return
	}
	if more := len(names) - told; more > 0 {
		names = append(names[:told], fmt.Sprintf("%d more", more))
	}
	add(finding.Caution, nil, "may hum and swing in a steady wind, which wears at the welds: %s. The first is %s, at %s. A wider or stiffer post, sand inside, or a tie to a neighbour helps; how far it swings was not worked out",
		strings.Join(names, ", "), least.Part.Name, units.Speed(least.Critical))
}

// worstOf returns where a post is worked hardest, in what case, and by how much
// of its limit.
func (s *Strength) worstOf(p *design.Part) (where, load string, ratio float64) {
	for _, m := range s.Members {
		if m.Part == p && m.Ratio > ratio {
			where, load, ratio = place(m), m.Case, m.Ratio
		}
	}
	for _, w := range s.Welds {
		if w.Part == p && w.Ratio > ratio {
			where, load, ratio = "the weld at its "+w.Where, w.Case, w.Ratio
		}
	}
	return where, load, ratio
}

// place says where on a post a member is.
func place(m Member) string {
	switch m.Where {
	case "foot", "head":
		return "at its " + m.Where
	case "inside":
		return "between its ends"
	}
	return m.Where
}

// Over returns a ratio to a hundredth, rounded up, so that one that is over its
// limit never reads as within it.
func Over(ratio float64) string {
	if near := quantity.Decimal(ratio, 2); quantity.Decimal(ratio, 9) == near {
		return near
	}
	return quantity.Decimal(ratio+0.005, 2)
}

// say returns what remedies bring, in words.
func say(list []Remedy, units quantity.System) string {
	var words []string
	for _, r := range list {
		switch {
		case r.Gauge > 0:
			words = append(words, fmt.Sprintf("%d gauge brings %s", r.Gauge, Over(r.Ratio)))
		case r.Thickness > 0:
			words = append(words, fmt.Sprintf("%s thick brings %s", units.Exact(r.Thickness), Over(r.Ratio)))
		default:
			words = append(words, fmt.Sprintf("%s across brings %s", units.Exact(r.Diameter), Over(r.Ratio)))
		}
	}
	if len(words) == 0 {
		return "; shorten it, or bring down the weight and the wind that it bears"
	}
	return "; " + strings.Join(words, ", ")
}

// step returns by how much a post is widened at a time, in mm.
func step(units quantity.System) float64 {
	if units == quantity.Inch {
		return 12.7
	}
	return 10
}
