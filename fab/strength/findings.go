package strength

import (
	"fmt"
	"strconv"
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

// Findings returns what there is to say, in the given units. What would help the
// posts that are over their limit is left to Advise.
func (s *Strength) Findings(in Input, units quantity.System) []finding.Finding {
	list, _ := s.findings(in, units, nil)
	return list
}

// Advise returns the findings with what would help: for the worst posts that are
// over their limit the design is worked out anew with thicker and wider ones, which
// takes some milliseconds a post.
func (s *Strength) Advise(in Input, units quantity.System) ([]finding.Finding, error) {
	return s.findings(in, units, func(p *design.Part) ([]Remedy, error) { return s.Remedies(in, p, step(units)) })
}

func (s *Strength) findings(in Input, units quantity.System, remedies func(*design.Part) ([]Remedy, error)) ([]finding.Finding, error) {
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
		help := ""
		switch {
		case remedies == nil:
		case p.worst >= told:
			help = "; what helps was worked out for the worst alone: mend those first"
		case untried(len(in.Items)) != "":
			help = untried(len(in.Items))
		default:
			tried, err := remedies(p.part)
			if err != nil {
				return nil, err
			}
			help = say(tried, units)
		}
		add(finding.Fault, p.part, "%s: %s of its limit in %s%s", where, Over(ratio), load, help)
	}
	if s.Buckling <= 1 {
		add(finding.Fault, nil, "buckles under its own weight and loads: they are %s of what it bears without going over sideways", Over(1/s.Buckling))
	}
	if p := s.Plate; p != nil && p.Ratio > 1 {
		add(finding.Fault, in.Design.Base(), "bends: %s of its limit beside %s (%s); a thicker plate, or ribs from the post out, help", Over(p.Ratio), p.Post.Name, p.How)
	}
	s.held(in, units, add)
	if len(s.Modes) > 0 && s.Modes[0].Frequency < rigid && in.Wind != nil {
		add(finding.Caution, nil, "swings at %s Hz: below 1 Hz gusts work it up and the wind's gust factor is too low; make it stiffer, or have an engineer work out the gusts", Fixed(s.Modes[0].Frequency))
	}
	s.hum(units, add)
	if !s.Complete {
		add(finding.Caution, nil, "a lower frequency than the ones given may have been missed")
	}
	s.unpushed(in, units, add)
	for i := range s.Gaps {
		add(finding.Caution, nil, "not checked, since no rule here covers it: %s", s.Gaps[i].say(2*told))
	}
	add(finding.Note, nil, "strength, sway and wind are aids to judgement; a licensed engineer and the local code decide for anything that people can reach")
	return list, nil
}

// held adds what there is to say of anchors: the pull that they are checked for is
// that with which the target against tipping is reached, and the shear that of the
// loads times the same target.
func (s *Strength) held(in Input, units quantity.System, add func(finding.Level, *design.Part, string, ...any)) {
	a := s.Anchors
	if a == nil {
		return
	}
	const weakest = "the weakest in use, A307 or 4.6"
	base, target := in.Design.Base(), Fixed(max(1, in.Target))
	if a.ForTarget > 0 {
		pull := "is pulled by nothing under the loads as they are"
		if a.Tension > 0 {
			pull = fmt.Sprintf("is pulled by up to %s in %s", units.Force(a.Tension), a.Case)
		}
		text := fmt.Sprintf("an anchor %s; it must hold %s for a factor of %s against tipping", pull, units.Force(a.ForTarget), target)
		level := finding.Caution
		switch {
		case a.Allowed == 0:
			text += "; its bolt was not checked"
		case a.Ratio > 1:
			level = finding.Fault
			text += fmt.Sprintf(", which is %s of what the steel of a bolt of %s bears (%s): more or wider anchors, or more weight", Over(a.Ratio), units.Exact(a.Bolt), weakest)
		default:
			text += fmt.Sprintf(", %s of what the steel of a bolt of %s bears (%s)", Over(a.Ratio), units.Exact(a.Bolt), weakest)
		}
		add(level, base, "%s. Not checked: the anchor's hold in its ground, prying, and the plate at it. Have the anchors chosen for it", text)
	}
	play := ""
	if a.Sharing > 1 {
		play = fmt.Sprintf(", and since holes with play let only %d of the anchors touch", a.Sharing)
	}
	sideways := fmt.Sprintf("%s in %s (for a factor of %s, without friction%s)", units.Force(a.ShearForTarget), a.ShearCase, target, play)
	switch {
	case a.ShearForTarget == 0:
	case a.Allowed == 0 && a.ForTarget == 0:
		add(finding.Caution, base, "the anchors hold it against sliding: one must bear %s; its bolt was not checked, and neither was its hold in its ground", sideways)
	case a.ShearRatio > 1:
		add(finding.Fault, base, "the anchors would be sheared off: one must bear %s, which is %s of what the steel of a bolt of %s bears in shear (%s): wider anchors, or a stop that keeps the plate from sliding",
			sideways, Over(a.ShearRatio), units.Exact(a.Bolt), weakest)
	case a.Interaction > 1 && a.Ratio <= 1:
		add(finding.Fault, base, "the anchors are pulled and sheared at once in %s: both together are %s of what the steel of a bolt of %s bears (%s), though either alone is within it; wider anchors, or more weight",
			a.InteractionCase, Over(a.Interaction), units.Exact(a.Bolt), weakest)
	}
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

// hum adds what there is to say of eddies: one finding for the posts and one for
// the balls, with all that hum in the design wind or within SheddingLimit of it.
func (s *Strength) hum(units quantity.System, add func(finding.Level, *design.Part, string, ...any)) {
	for _, kind := range []struct {
		post             bool
		one, many, helps string
	}{
		{true, "post", "posts", "a wider or stiffer post hums only in more wind, sand inside or a tie to a neighbour takes the swing out of it"},
		{false, "ball", "balls", "a stiffer post below lets it hum only in more wind"},
	} {
		var parts []*design.Part
		var least, most *Shedding
		for i := range s.Shedding {
			sh := &s.Shedding[i]
			if sh.Design == 0 || sh.Of > SheddingLimit || (sh.Part.Post != nil) != kind.post {
				continue
			}
			parts = append(parts, sh.Part)
			if least == nil || sh.Critical < least.Critical {
				least = sh
			}
			if most == nil || sh.Critical > most.Critical {
				most = sh
			}
		}
		if least == nil {
			continue
		}
		of, at := kind.many, units.Speed(least.Critical)
		if len(parts) == 1 {
			of = kind.one
		} else if other := units.Speed(most.Critical); other != at {
			at = fmt.Sprintf("%s (%s) to %s (%s)", at, least.Part.Name, other, most.Part.Name)
		}
		add(finding.Caution, nil, "may hum and swing in a steady wind of %s, which wears at the welds: %s %s. The design wind is %s; %s. How far it swings was not worked out",
			at, of, enumerate(parts), units.Speed(least.Design), kind.helps)
	}
}

// enumerate lists the names of parts. Copies that follow each other, such as a[1],
// a[2] and a[3], are told by the first and the last.
func enumerate(parts []*design.Part) string {
	var words []string
	for i := 0; i < len(parts); {
		base, n, ok := numbered(parts[i].Name)
		j := i + 1
		for ok && j < len(parts) {
			if b, m, again := numbered(parts[j].Name); !again || b != base || m != n+j-i {
				break
			}
			j++
		}
		if j-i > 2 {
			words = append(words, parts[i].Name+" to "+parts[j-1].Name)
		} else {
			for _, p := range parts[i:j] {
				words = append(words, p.Name)
			}
		}
		i = j
	}
	return strings.Join(words, ", ")
}

// numbered takes apart the name of a copy, such as "reed[3]".
func numbered(name string) (base string, number int, ok bool) {
	base, rest, ok := strings.Cut(name, "[")
	if !ok || !strings.HasSuffix(rest, "]") {
		return name, 0, false
	}
	number, err := strconv.Atoi(strings.TrimSuffix(rest, "]"))
	return base, number, err == nil
}

// worstOf returns where a post is worked hardest, in what case, and by how much
// of its limit.
func (s *Strength) worstOf(p *design.Part) (where, load string, ratio float64) {
	members, welds := s.of(p)
	for _, m := range members {
		if m.Ratio > ratio {
			where, load, ratio = place(m), m.Case, m.Ratio
		}
	}
	for _, w := range welds {
		if w.Ratio > ratio {
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
	if quantity.Decimal(ratio, 9) == quantity.Decimal(ratio, 2) {
		return Fixed(ratio)
	}
	return Fixed(ratio + 0.005)
}

// Fixed returns a figure to a hundredth, with its zeros, so that figures stand
// under each other.
func Fixed(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }

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
