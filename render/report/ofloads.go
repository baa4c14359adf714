package report

import (
	"math"

	"stabile/fab/calculation"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/render/words"
)

func windOf(say words.Writer, w *wind.Wind) *Wind {
	out := &Wind{
		Method: string(w.Method), Edition: string(w.Edition), Ground: w.Ground, Speed: six(w.Speed), Gust: six(w.Gust),
		LeastFactor: 1, Greatest: six(w.Greatest()),
		Items: []WindItem{}, Pressures: []Pressure{}, Lines: linesOf(say, w.Lines()), Assumptions: assumptionsOf(say, w.Assumptions()),
	}
	if len(w.Bearings) > 0 {
		b := &w.Bearings[w.Worst]
		out.Force, out.Lift = six(math.Hypot(b.Force.X, b.Force.Y)), six(b.Force.Z)
		out.Moment, out.CenterHeight = six(math.Hypot(b.Moment.X, b.Moment.Y)/1e3), six(b.Center)
		out.WorstBearing, out.LeastFactor = *degrees(b.From), six(b.Scale)
	}
	for i := range w.Items {
		it := &w.Items[i]
		item := WindItem{
			Part: it.Part.Name, Area: six(it.Area), Height: six(it.Height), Pressure: six(it.Pressure),
			Coefficient: six(it.Coefficient), Rule: say.Rule(it.Rule), Force: six(it.Force), Uplift: six(it.Uplift),
		}
		if len(w.Bearings) > 0 && w.Bearings[w.Worst].Cap[i] > 0 {
			item.CapCoefficient = six(it.CapCoefficient)
		}
		out.Items = append(out.Items, item)
	}
	for _, p := range w.Heights {
		out.Pressures = append(out.Pressures, Pressure{Height: six(p.Height), Pressure: six(p.Pressure)})
	}
	return out
}

func strengthOf(say words.Writer, s *strength.Strength) *Strength {
	out := &Strength{
		WorstRatio: six(s.Worst), WorstAt: say.Spot(s.WorstAt), Sway: six(s.Sway.Moved), SwayCase: say.Case(s.Sway.Case),
		Frequencies: []float64{}, Shapes: []string{}, Complete: s.Complete, Cases: s.Cases,
		Members: []Member{}, Welds: []Weld{}, Shells: []Shell{}, Shedding: []Shedding{},
		NotPushed: []string{}, NotCovered: []string{}, Lines: linesOf(say, s.Lines()), Assumptions: assumptionsOf(say, s.Assumptions()),
	}
	for _, u := range s.Unchecked {
		out.NotCovered = append(out.NotCovered, say.Unchecked(u))
	}
	for _, p := range s.Unpushed {
		out.NotPushed = append(out.NotPushed, p.Name)
	}
	if s.Sway.Part != nil {
		out.SwayPart = s.Sway.Part.Name
	}
	for i := range s.Modes {
		m := &s.Modes[i]
		out.Frequencies, out.Shapes = append(out.Frequencies, six(m.Frequency)), append(out.Shapes, say.Fact(s.Shape(m)))
	}
	if len(s.Modes) > 0 {
		out.Frequency = pointer(s.Modes[0].Frequency)
	}
	if !math.IsInf(s.Buckling, 0) {
		out.Buckling = pointer(s.Buckling)
	}
	for i := range s.Members {
		m := &s.Members[i]
		out.Members = append(out.Members, Member{
			Part: m.Part.Name, Where: words.Where(m.Where, m.Joint), Along: six(m.Along), Case: say.Case(m.Case),
			Axial: six(m.Axial), Shear: six(m.Shear), Bending: six(m.Bending / 1e3), Twist: six(m.Twist / 1e3),
			Stress: six(m.Stress), Limit: six(m.Limit), Ratio: six(m.Ratio),
			Slenderness: six(m.Section.Slenderness()), Class: string(m.Class),
		})
	}
	for _, w := range s.Welds {
		out.Welds = append(out.Welds, Weld{
			Part: w.Part.Name, With: w.With, Where: string(w.Where), Case: say.Case(w.Case),
			Line: six(w.Line), Throat: six(w.Throat), Stress: six(w.Stress), Allowed: six(w.Allowed), Ratio: six(w.Ratio),
		})
	}
	if p := s.Plate; p != nil {
		out.Plate = &Plate{
			Post: p.Post.Name, Case: say.Case(p.Case), How: say.Fact(p.How), Force: six(p.Force), Lever: six(p.Lever), Width: six(p.Width),
			Moment: six(p.Moment / 1e3), Stress: six(p.Stress), Ratio: six(p.Ratio),
		}
	}
	if a := s.Anchors; a != nil {
		out.Anchors = &Anchors{Tension: six(a.Tension), Shear: six(a.Shear), Case: say.Case(a.Case), Ignoring: say.Fact(strength.AnchorsLeaveOut)}
		if a.Allowed > 0 {
			out.Anchors.Bolt = pointer(a.Bolt)
		}
		if a.ForTarget > 0 {
			out.Anchors.ForTarget, out.Anchors.ForCase = pointer(a.ForTarget), say.Case(a.ForCase)
			if a.Allowed > 0 {
				out.Anchors.BoltRatio = pointer(a.Ratio)
			}
		}
		if a.ShearForTarget > 0 {
			out.Anchors.ShearForTarget, out.Anchors.ShearCase, out.Anchors.Sharing = pointer(a.ShearForTarget), say.Case(a.ShearCase), a.Sharing
			if a.Allowed > 0 {
				out.Anchors.ShearRatio = pointer(a.ShearRatio)
				out.Anchors.TogetherRatio, out.Anchors.TogetherCase = pointer(a.Interaction), say.Case(a.InteractionCase)
			}
		}
	}
	for _, sh := range s.Shells {
		e := Shell{
			Ball: sh.Ball.Name, With: sh.With.Name, Where: string(sh.Where), Force: six(sh.Load.Force), Moment: six(sh.Load.Moment / 1e3),
			Near: sh.Near, Case: say.Case(sh.Case),
		}
		if sh.Ruled() {
			e.ForceLimit, e.MomentLimit, e.Ratio = pointer(sh.Axial()), pointer(sh.Capacity.Moment/1e3), pointer(sh.Ratio)
		}
		out.Shells = append(out.Shells, e)
	}
	for _, sh := range s.Shedding {
		e := Shedding{Part: sh.Part.Name, Frequency: six(sh.Frequency), Estimated: sh.Estimated, Critical: six(sh.Critical)}
		if sh.Design > 0 {
			e.Of = pointer(sh.Of)
		}
		out.Shedding = append(out.Shedding, e)
	}
	return out
}

func assumptionsOf(say words.Writer, list []calculation.Assumption) []string {
	out := []string{}
	for _, a := range list {
		out = append(out, say.Fact(a))
	}
	return out
}

func linesOf(say words.Writer, list []calculation.Line) []Line {
	out := []Line{}
	for _, l := range list {
		r := Line{Symbol: l.Symbol, Name: say.Fact(l.Name), Formula: l.Formula, Unit: l.Unit, Source: l.Source}
		value := l.Value
		if l.Unit == "N mm" {
			r.Unit, value = "N m", value/1e3
		}
		if !l.Varies {
			r.Value = pointer(value)
		}
		out = append(out, r)
	}
	return out
}
