package strength

import (
	"slices"

	"stabile/fab/check"
	"stabile/fab/finding"
)

// The sources of the checks.
const (
	wallSource     = "EN 13445-3 16.4, its constants from memory, confirmed by finite elements"
	singleSource   = "EN 13445-3 16.5 (from memory), as of a cylinder, confirmed by finite elements"
	sideSource     = "EN 13445-3 16.5 (from memory)"
	seamSource     = "; beside a seam z 0.7, EN 13445-3 5.6 (from memory)"
	memberSource   = "AISC 360 H1.1, H3.2, round tubes by F8"
	netSource      = "; at holes the net section, elastic, and the strips between them (derived)"
	weldSource     = "AISC 360 J2.4, J4.2; weld as a line"
	plateSource    = "AISC 360 F11; strips by AISC Design Guide 1, 3.4; between posts common practice, no source"
	anchorSource   = "AISC 360 J3.6, J3.7, J3.10; no prying, AISC Manual part 9 (from memory)"
	bucklingSource = "linear buckling of the frame"
	gustSource     = "ASCE 7 26.2"
	stockySource   = "EN 1991-1-4 E.1.2 (1), from memory"
	eddySource     = "EN 1991-1-4 E.1.2"
	tiringSource   = "EN 1991-1-4 E.1.5.2; EN 1993-1-9, detail 36 (from memory), for walls under 4 mm common practice"
)

// gapCheck is the check that a gap leaves undecided.
var gapCheck = map[Gap]check.ID{
	SlenderWall: check.Post, RigidPost: check.Post, LooseFeet: check.Post,
	WallRidges: check.BallWall, WallPole: check.BallWall, WallFlatCap: check.BallWall,
	WallRange: check.BallWall, WallCrossed: check.BallWall, WallOblique: check.BallWall, WallRim: check.BallWall, WallHoled: check.BallWall, WallUnknown: check.BallWall,
	SeatWeld: check.Weld, ThreadWeld: check.Weld, RestWeld: check.Weld,
	PostWallAtJoint: check.PostWall,
	PlateAtAnchor:   check.Plate, PlateWithoutPost: check.Plate,
	Prying: check.AnchorSteel,
}

// Checks returns the checks of strength: of each post and weld, the wall of each ball
// and post at a joint, the plate, the anchors, buckling of the whole, and of how it
// sways. What no rule covers is undecided.
func (s *Strength) Checks(in Input) []check.Check {
	most := len(in.Items) + len(s.Welds) + len(s.Shells) + len(s.Shedding) + 16 // and a few of the whole
	c := checks{s: s, in: in, list: make([]check.Check, 0, most)}
	c.posts()
	c.welds()
	c.walls()
	c.gaps()
	if p := s.Plate; p != nil {
		c.judge(check.Check{ID: check.Plate, Part: baseName(in), With: p.Post.Name, Found: p.Ratio, Limit: 1, Case: p.Case, Source: plateSource})
	}
	c.anchors()
	c.padChecks()
	c.sunkChecks()
	// Of an infinite factor the inverse is 0.
	c.judge(check.Check{ID: check.Buckling, Found: 1 / s.Buckling, Limit: 1, Source: bucklingSource})
	c.frequency()
	c.shedding()
	return c.list
}

// checks is the list of checks so far.
type checks struct {
	s    *Strength
	in   Input
	list []check.Check
}

func (c *checks) judge(k check.Check) { c.add(k.Judge()) }

func (c *checks) add(k check.Check) {
	k.Concern = finding.Life
	c.list = append(c.list, k)
}

// unless judges a check by its figures, but leaves undecided for a reason, nil for
// none, what would hold.
func (c *checks) unless(why finding.Fact, k check.Check) {
	if k = k.Judge(); why != nil && k.Verdict == check.Holds {
		k.Verdict, k.Why = check.Undecided, why
	}
	c.add(k)
}

// vibrates returns how a post vibrates.
func vibrates(in Input, part string, t *Tiring) Vibrates {
	return Vibrates{
		Least: t.Critical, Most: t.Critical, First: part, Last: part, Range: t.Fatigue.Range,
		Cutoff: t.Fatigue.Cutoff / partialOf(in.Design), Amplitude: t.Amplitude, At: t.At.Name, Windless: in.Wind == nil,
	}
}

// feet returns why nothing is decided of a piece on feet that are not fixed; nil for
// other pieces.
func (c *checks) feet() finding.Fact {
	if c.in.loose() {
		return Unchecked{Gap: LooseFeet}
	}
	return nil
}

func (c *checks) posts() {
	gaps := make(map[string]finding.Fact) // by the names of posts
	for _, u := range c.s.Unchecked {
		if u.Gap == SlenderWall || u.Gap == RigidPost {
			for _, p := range u.Places {
				gaps[p.Part] = Unchecked{u.Gap, []Place{p}}
			}
		}
	}
	for _, it := range c.in.Items {
		if it.Part.Post == nil {
			continue
		}
		why := gaps[it.Part.Name]
		if why == nil {
			why = c.feet()
		}
		k := check.Check{ID: check.Post, Part: it.Part.Name, Limit: 1, Source: memberSource}
		members, _ := c.s.of(it.Part)
		if slices.ContainsFunc(members, func(m Member) bool { return m.Net != nil }) {
			k.Source += netSource
		}
		for _, m := range members {
			if m.Ratio > k.Found {
				k.Found, k.Case = m.Ratio, m.Case
			}
		}
		c.unless(why, k)
	}
}

func (c *checks) welds() {
	for _, w := range c.s.Welds {
		c.unless(c.feet(), check.Check{ID: check.Weld, Part: w.Part.Name, With: w.With, Found: w.Ratio, Limit: 1, Case: w.Case, Source: weldSource})
	}
}

// walls decides the wall of each ball at each joint. What the rule does not reach is
// undecided.
func (c *checks) walls() {
	for i := range c.s.Shells {
		sh := &c.s.Shells[i]
		k := check.Check{ID: sh.id(), Part: sh.Ball.Name, With: sh.With.Name, Found: sh.Ratio, Limit: 1, Case: sh.Case, Source: sh.source()}
		why := c.feet()
		if sh.Gap != "" {
			why = Unchecked{sh.Gap, []Place{sh.place()}}
		}
		if sh.Gap.fails() {
			c.unless(why, k)
			continue
		}
		k.Verdict, k.Why = check.Undecided, why
		c.add(k)
	}
}

// id is what check the wall is of.
func (s *Shell) id() check.ID {
	if s.Ball.Post != nil {
		return check.PostWall
	}
	return check.BallWall
}

// fails reports whether a wall that is over its limit fails although the gap leaves it
// undecided where it is within: the gap can only make it weaker.
func (g Gap) fails() bool {
	return g == "" || g == WallCrossed || g == WallOblique || g == WallHoled
}

// gaps leaves undecided what no rule covers, besides posts.
func (c *checks) gaps() {
	for _, u := range c.s.Unchecked {
		id := gapCheck[u.Gap]
		if id == check.Post || id == check.BallWall || id == check.PostWall {
			continue
		}
		for _, p := range u.Places {
			c.add(check.Check{ID: id, Part: p.Part, With: p.With, Verdict: check.Undecided, Why: Unchecked{u.Gap, []Place{p}}})
		}
	}
}

func (c *checks) anchors() {
	a := c.s.Anchors
	if a == nil {
		return
	}
	steel := check.Check{ID: check.AnchorSteel, Part: baseName(c.in), Found: a.Worst(), Limit: 1, Case: a.WorstCase(), Source: anchorSource}
	loaded := a.ForTarget > 0 || a.ShearForTarget > 0
	switch {
	case loaded && a.Allowed == 0:
		steel.Verdict, steel.Why = check.Undecided, NoHoles{}
		c.add(steel)
	default:
		c.judge(steel)
	}
	c.grips()
}

// frequency decides whether the piece is stiff enough for the gust factor. One that
// is not is undecided: its answer to gusts is not worked out.
func (c *checks) frequency() {
	s := c.s
	if c.in.Wind == nil {
		return
	}
	if g := c.in.Wind.Swayed; g != nil {
		// The factor in use is that of the frequency found: nothing is left to decide.
		k := check.Check{ID: check.Gust, Found: g.Factor, Source: g.Source(), Verdict: check.Holds}
		if why := c.feet(); why != nil {
			k.Verdict, k.Why = check.Undecided, why
		}
		c.add(k)
		if g.ASCE == nil || g.Frequency < rigid {
			return
		}
	}
	k := check.Check{ID: check.Frequency, Limit: rigid, Unit: check.Hertz, AtLeast: true, Source: gustSource}
	switch {
	case c.in.Still:
		k.Verdict, k.Why = check.Undecided, NotSwung{}
	case len(s.Modes) == 0:
		return // nothing stands that could sway
	case s.Modes[0].Frequency < rigid:
		k.Found, k.Verdict, k.Why = s.Modes[0].Frequency, check.Undecided, SlowSway{Frequency: s.Modes[0].Frequency, Limit: rigid}
	case !s.Complete:
		k.Verdict, k.Why = check.Undecided, ModeMissed{}
	default:
		k.Found = s.Modes[0].Frequency
		c.unless(c.feet(), k)
		return
	}
	c.add(k)
}

// shedding decides whether posts that vibrate in a steady wind, within reach of the design
// wind, tire the welds. Balls have no rule: the wind in which they would is given as advice.
func (c *checks) shedding() {
	if c.in.Still {
		if c.in.Wind == nil {
			return
		}
		c.add(check.Check{ID: check.Shedding, Verdict: check.Undecided, Why: NotSwung{}})
		return
	}
	for _, sh := range c.s.Shedding {
		if sh.Part.Post == nil {
			continue // no rule requires it: the speed is advice
		}
		k := check.Check{ID: check.Shedding, Part: sh.Part.Name, Case: check.Case{Kind: check.WindLoad, Around: true, Speed: sh.Critical}}
		switch t := sh.Tiring; {
		case t != nil:
			k.Found, k.Limit, k.Source, k.Case.Speed = t.Use(), 1, tiringSource, t.Critical
		case sh.Stocky():
			k.Found, k.Limit, k.Source = sh.Slender, StockyLimit, stockySource
		case sh.Design > 0:
			k.Found, k.Limit, k.Unit, k.AtLeast, k.Source = sh.Critical, SheddingLimit*sh.Design, check.MPerS, true, eddySource
		default:
			continue
		}
		if t := sh.Tiring; t != nil && sh.Design == 0 && !t.Fatigue.Harmless() {
			// How often such a wind blows there is not known: the worst that there can be is
			// harmful, the site's own may not be.
			k.Found, k.Limit = 0, 0
			k.Verdict, k.Why = check.Undecided, vibrates(c.in, sh.Part.Name, t)
			c.add(k)
			continue
		}
		if k.Unit == check.MPerS && k.Found < k.Limit {
			k.Verdict, k.Why = check.Undecided, NotSwung{}
			c.add(k)
			continue
		}
		c.unless(c.feet(), k)
	}
}
