package fab

import (
	"math"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/people"
	"stabile/fab/quake"
	"stabile/fab/solid"
	"stabile/fab/stand"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/quantity"
)

// PeopleUnknown: what people can do to the piece is not given, and they reach it.
type PeopleUnknown struct {
	Part   string  // the first within reach
	Climbs bool    // it is a foothold; else it can be leant on
	Reach  float64 // mm
}

// QuakeUnknown: the site does not say what earthquake it has.
type QuakeUnknown struct{}

// QuakeStrong: the level force is too near the weight for the method.
type QuakeStrong struct{ Share float64 } // of the weight

// IceUnknown: the site does not say what ice it has.
type IceUnknown struct{}

// NoneHere: the site says that there is none of what a check is about, so that nothing
// was worked out. Such a check holds as long as that is so.
type NoneHere struct{}

// LoadFails: the piece does not carry a load of its site.
type LoadFails struct {
	Of    check.ID    // People, Earthquake or Ice
	Check check.Check // that fails under it
	Held  bool        // there are anchors
	Block bool        // it is bolted to a block that stands free
	Tried bool        // it was worked out what helps
	Cures []strength.Cure
}

// Fact marks the facts.
func (PeopleUnknown) Fact() {}
func (QuakeUnknown) Fact()  {}
func (QuakeStrong) Fact()   {}
func (IceUnknown) Fact()    {}
func (NoneHere) Fact()      {}
func (LoadFails) Fact()     {}

// surroundings decides what people, an earthquake and ice do to the piece.
func (b *builder) surroundings() {
	for _, c := range []check.Check{b.people(), b.quake(), b.ice()} {
		c.Concern = finding.Life
		b.Checks = append(b.Checks, c)
	}
}

// site returns the site of the design, zero for none.
func (j *Job) site() design.Site {
	if j.Design.Site == nil {
		return design.Site{}
	}
	return *j.Design.Site
}

// people decides on leaning and climbing, one load at a time, without wind.
func (b *builder) people() check.Check {
	j, site := b.Job, b.site()
	in := j.strengthInput()
	loads := crowd(site, in.Method())
	c := check.Check{ID: check.People}
	for i, l := range loads {
		if i > 0 {
			c.Source += "; "
		}
		c.Source += l.Source
	}
	places := strength.Places(in, loads)
	switch {
	case site.People == design.NoPeople:
		c.Verdict, c.Why = check.Holds, NoneHere{}
		return c
	case len(places) == 0:
		c.Verdict = check.Holds
		return c
	case site.People == design.UnknownPeople:
		c.Verdict, c.Why = check.Undecided, j.foothold(places)
		return c
	}
	tips := check.Check{ID: check.Tipping, Limit: 1, Source: c.Source}
	for _, p := range places {
		for _, l := range p.Loads {
			if use, from := j.tippedBy(p.At.X, p.At.Y, p.At.Z, l.Level, l.Vertical); use > tips.Found {
				tips.Found = use
				tips.Case = check.Case{Kind: check.PeopleLoad, Part: p.Part, Bearing: from, Around: l.Level == 0}
			}
		}
	}
	return b.under(c, in.Crowded(loads), tips)
}

// crowd returns the loads of people that a site gives; all of them where it gives none.
func crowd(site design.Site, m design.WindMethod) []people.Load {
	loads := people.Loads(m, people.ManyPeople)
	if site.People == design.PeopleLeaning {
		return loads[:1]
	}
	if n := site.Crowd; n > 1 {
		if many, _, err := people.Children(n); err == nil {
			loads[len(loads)-1] = many
		}
	}
	return loads
}

// foothold returns why people are not decided: a part to stand on or to hang from before
// one to lean on.
func (j *Job) foothold(places []strength.Loaded) finding.Fact {
	fact := PeopleUnknown{Part: places[0].Part, Reach: people.Reach}
	for _, p := range places {
		part := j.Design.Part(p.Part)
		level := part.Post != nil && math.Hypot(part.Post.Direction.X, part.Post.Direction.Y) > math.Abs(part.Post.Direction.Z)
		if part.Ball != nil || level {
			fact.Part, fact.Climbs = p.Part, true
			break
		}
	}
	return fact
}

// tippedBy returns how much of the factor against tipping that is needed, 1 the limit, a
// load at a point uses, and the bearing that it then comes from.
func (j *Job) tippedBy(x, y, z, level, down float64) (use, from float64) {
	const most = 1e9
	t := j.Tipping
	w := j.weight()
	weight := quantity.Gravity * (w.Mass + w.Ballast)
	for _, e := range t.Edges {
		side := math.Hypot(e.To.X-e.From.X, e.To.Y-e.From.Y)
		// How far the point is within the edge, which has the inside on its left.
		within := ((e.To.X-e.From.X)*(y-e.From.Y) - (e.To.Y-e.From.Y)*(x-e.From.X)) / side
		over := level*z + down*max(0, -within)
		hold := weight*e.Lever + down*max(0, within)
		one := 0.0
		if over > 0 {
			one = most
			if hold > over/most {
				one = max(t.Target, stand.LeastFactor) * over / hold
			}
		}
		if one > use {
			use, from = one, math.Mod(e.Bearing()+math.Pi, 2*math.Pi)
		}
	}
	return use, from
}

// under decides a check by what the piece carries of its loads: tipping, which anchors may
// hold, and all that strength knows.
func (b *builder) under(c check.Check, in strength.Input, tips check.Check) check.Check {
	j := b.Job
	if !b.checked || j.Strength == nil {
		c.Verdict, c.Why = check.Undecided, StrengthNotChecked{}
		return c
	}
	s, err := strength.Check(in)
	if err != nil {
		c.Verdict, c.Why = check.Undecided, strength.Failed{Reason: err.Error()}
		return c
	}
	list := s.Checks(in)
	tips = tips.Judge()
	if tips.Verdict == check.Holds || j.Tipping.Anchors == 0 || !j.Tipping.Stable() {
		list = append(list, tips)
	}
	var worst check.Check
	var open []check.Check
	for _, k := range list {
		k.Concern = finding.Life
		if k.ID == check.Frequency || k.ID == check.Shedding || k.ID == check.Gust {
			continue // is decided by itself
		}
		if k.Verdict == check.Undecided {
			open = append(open, k)
			continue
		}
		if worst.ID == "" || k.Use() > worst.Use() {
			worst = k
		}
	}
	c.Found, c.Limit, c.Case = worst.Use(), 1, worst.Case
	c.Part, c.With = worst.Part, ""
	switch {
	case worst.Verdict == check.Fails:
		c.Verdict = check.Fails
		fails := LoadFails{Of: c.ID, Check: worst, Held: j.Tipping.Anchors > 0, Block: j.Mass.Block > 0}
		if b.want&WithCures != 0 {
			if cures, err := s.Cures(in, worst); err == nil {
				fails.Tried, fails.Cures = true, cures
			}
		}
		b.sited = append(b.sited, fails)
	case len(open) > 0:
		c.Verdict, c.Why = check.Undecided, RestsOn{open}
	default:
		c.Verdict = check.Holds
	}
	return c
}

// importance returns I_e by risk category, ASCE 7 Table 1.5-2, which stands for gamma_a of
// EN 1998-1 too.
func importance(risk int) float64 {
	switch risk {
	case 3:
		return 1.25
	case 4:
		return 1.5
	}
	return 1
}

// mostHung is the greatest level force on what a building carries, as a share of its weight
// for each unit of S_DS of ASCE 7 13.3.1, or of a_g S of EN 1998-1 4.3.5.2 where it swings with
// the top of the building: how high up it hangs, and how the building swings, is not known.
var mostHung = map[design.WindMethod]float64{design.ASCE7: 1.6, design.EN1991: 5.5}

// quake decides on an earthquake. Members are checked with 0.7 of the force, ASCE 7 2.4.5,
// since their limits are allowable stresses; tipping and anchors with all of it, anchors
// with twice it (overstrength of ASCE 7 Table 15.4-2, all others).
func (b *builder) quake() check.Check {
	j, site := b.Job, b.site()
	in := j.strengthInput()
	c := check.Check{ID: check.Earthquake, Source: "ASCE 7-16 15.4, all others: R 1.25"}
	if in.Method() == design.EN1991 {
		c.Source = "EN 1998-1 4.3.5, q_a 1"
	}
	if j.Tipping.Hung {
		c.Source = map[design.WindMethod]string{
			design.ASCE7:  "ASCE 7-16 13.3.1 (from memory), the most for what a building carries: 1.6 S_DS I_p",
			design.EN1991: "EN 1998-1 4.3.5 (from memory), the most for what a building carries: 5.5 a_g S",
		}[in.Method()]
	}
	switch {
	case !site.SeismicGiven:
		c.Verdict, c.Why = check.Undecided, QuakeUnknown{}
		return c
	case site.Seismic == 0:
		c.Verdict, c.Why = check.Holds, NoneHere{}
		return c
	}
	share, dead := 0.0, 1.0
	if j.Tipping.Hung {
		share = mostHung[in.Method()] * site.Seismic * importance(site.Risk)
	} else if in.Method() == design.EN1991 {
		f, err := quake.European{Ground: site.Seismic, Soil: 1}.Force(0, 1, 1, importance(site.Risk), quake.Cantilever)
		if err != nil {
			c.Verdict, c.Why = check.Undecided, strength.Failed{Reason: err.Error()}
			return c
		}
		share = f
	} else {
		at := quake.Site{Short: site.Seismic, Importance: importance(site.Risk)}
		period := 1.0 // not stiff, the safe side where it is not known
		if s := j.Strength; s != nil && s.Complete && len(s.Modes) > 0 {
			period = 1 / s.Modes[0].Frequency
		}
		v, err := at.Base(1, period, quake.Other)
		if err != nil {
			c.Verdict, c.Why = check.Undecided, strength.Failed{Reason: err.Error()}
			return c
		}
		share, dead = v.Cs, at.Dead()
	}
	const allowable, most = 0.7, 0.9
	if allowable*share > most {
		c.Verdict, c.Why = check.Undecided, QuakeStrong{share}
		return c
	}
	tips := check.Check{ID: check.Tipping, Limit: 1, Source: c.Source, Case: check.Case{Kind: check.QuakeLoad, Around: true}}
	w := j.weight()
	height := (w.Mass*w.CG.Z + w.Ballast*w.Lies) / (w.Mass + w.Ballast)
	for _, e := range j.Tipping.Edges {
		use := math.Inf(1)
		if e.Lever > 0 && dead > 0 {
			use = share * height / (dead * e.Lever)
		}
		tips.Found = max(tips.Found, min(use, check.Never))
	}
	stands := !j.Tipping.Sunk && !j.Tipping.Hung
	if len(j.Tipping.Edges) == 0 && stands {
		tips.Found = check.Never
	}
	if j.Tipping.Anchors == 0 && stands {
		if slides := share / (max(dead, 1e-9) * stand.Friction); slides > tips.Found {
			tips.ID, tips.Found = check.Sliding, slides
		}
	}
	in.Target = 1
	const overstrength = 2
	c = b.under(c, in.Shaken(allowable*share, overstrength/allowable), tips)
	c.Case = check.Case{Kind: check.QuakeLoad, Around: true}
	return c
}

// ice decides on ice from freezing rain: its weight, and the wind that blows meanwhile on
// what it makes wider. The map's gusts with ice are 30 to 80 mph (ASCE 7 10.5); the greatest
// of them is taken, or the site's own wind where that is less.
func (b *builder) ice() check.Check {
	j, site := b.Job, b.site()
	c := check.Check{ID: check.Ice, Source: "ASCE 7 chapter 10"}
	switch {
	case !site.IceGiven:
		c.Verdict, c.Why = check.Undecided, IceUnknown{}
		return c
	case site.Ice == 0:
		c.Verdict, c.Why = check.Holds, NoneHere{}
		return c
	}
	failed := func(err error) check.Check {
		c.Verdict, c.Why = check.Undecided, strength.Failed{Reason: err.Error()}
		return c
	}
	risk := site.Risk
	if risk == 0 {
		risk = 2
	}
	factor, err := wind.IceImportance(risk)
	if err != nil {
		return failed(err)
	}
	// At the top of the piece it is thickest.
	thick, err := wind.Ice{Nominal: site.Ice, Importance: factor, Hill: site.Hill}.Thickness(j.Size.Max.Z)
	if err != nil {
		return failed(err)
	}
	in := j.strengthInput()
	d := *j.Design
	still := site
	still.Push = 0
	const mph = 0.44704
	still.Wind = min(still.Wind, 80*mph)
	d.Site = &still
	fat := d
	fat.Parts = make([]*design.Part, len(d.Parts))
	same := map[*design.Part]*design.Part{}
	mass := j.weight()
	moment := mass.Mass * mass.CG.Z
	for i, p := range d.Parts {
		q := *p
		kg := 0.0
		switch {
		case p.Post != nil:
			post := *p.Post
			perM, _ := wind.IceOnTube(max(post.Ends[0].Diameter, post.Ends[1].Diameter), thick)
			kg = perM * post.Length / 1e3
			post.Ends[0].Diameter += 2 * thick
			post.Ends[1].Diameter += 2 * thick
			q.Post = &post
		case p.Ball != nil:
			ball := *p.Ball
			kg, _ = wind.IceOnBall(max(ball.Radius, ball.Polar()), thick) // of an egg as of the ball about it
			ball.Radius += thick
			if ball.IsEgg() {
				ball.Tall += 2 * thick
			}
			q.Ball = &ball
		}
		fat.Parts[i], same[&q] = &q, p
		in.Items[i].Mass += kg
		mass.Mass += kg
		moment += kg * in.Items[i].CG.Z
	}
	mass.CG.Z = moment / mass.Mass
	in.Design, in.Wind, in.Still = &d, nil, true
	if still.Wind > 0 {
		if in.Wind, err = wind.On(&fat, solid.Bodies(&fat), wind.Options{}); err != nil {
			return failed(err)
		}
		for i := range in.Wind.Items {
			in.Wind.Items[i].Part = same[in.Wind.Items[i].Part]
		}
	}
	// Ice that has fallen off one side does not hold: its weight does not count for standing.
	t := stand.TipInWind(j.footprint(), j.weight(), &still, in.Wind, j.Tipping.Target)
	tips := check.Check{ID: check.Tipping, Limit: 1, Source: c.Source, Case: t.WorstCase}
	if t.Loaded {
		tips.Found = check.Never
		if t.Factor > 0 {
			tips.Found = max(t.Target, stand.LeastFactor) / t.Factor
		}
	}
	c = b.under(c, in, tips)
	c.Case.Kind = check.IceLoad
	return c
}
