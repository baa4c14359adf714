package rolling

import (
	"cmp"
	"math"
	"slices"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
)

// A Plan is how the blanks of a design are rolled. It is plain data.
type Plan struct {
	Rolls    *design.Rolls  // nil for none
	Batches  []Batch        // metal by metal, each from the widest radius to the tightest
	Refused  []Piece        // that the rolls do not take; a finding of each says why, and what else to do
	Hand     []Handwork     // that is not for the rolls
	Settings int            // of the back roll, in all batches
	Runs     int            // of a piece through the rolls, in all
	Notes    []finding.Fact // for every card
	Checks   []check.Check  // one for each part that is rolled
	Findings []finding.Finding
}

// A Batch is pieces that go through every pass together.
type Batch struct {
	Metal  *design.Metal
	Pieces []Piece
	Count  int        // pieces in all
	Radius float64    // mm, wanted, to the middle of the sheet; of a cone half way between its edges
	Edges  [2]float64 // mm, the same at the narrow and the wide edge of a cone; of a cylinder both alike
	Along  Along      // what lies along the rolls
	Least  float64    // mm, the smallest outside diameter that the rolls make of it; 0 where not known

	Share  float64 // of the machine's rating that the widest piece uses: thickness^2 x width x yield; 0 where it is not known
	Passes []Pass  // none where the sheet is to be had flat from them
	Runs   int     // of a piece through the rolls, two for each piece and pass

	// What follows is nought where the settings are not known, since the shop
	// does not give the measurements that they need.
	Set      bool       // lifts are known
	Of       int        // parts of a turn that the screws are set by; 0 where turns are not known
	PerNotch float64    // mm by which one such part changes the finished diameter; tighter for more lift
	Spread   [2]float64 // mm, radii left where the sheet's yield is under or over the one taken by Scatter
	Force    float64    // N, of the back roll on the widest piece, at most
	Torque   float64    // N mm, to turn the pinch rolls at most, friction left out
	Sag      float64    // mm that the back roll bows under the middle of the widest piece, at most
	Barrel   float64    // mm by which the middle of that piece comes out larger in diameter for it

	Lead    Lead
	Closing *Closing       // of pieces that close on themselves; else nil
	Cone    *Cone          // of cones; else nil
	Notes   []finding.Fact // for the batch's card
}

// An Along is what of a piece lies along the rolls as it goes in, its outside face
// down.
type Along int

// What lies along the rolls.
const (
	AlongAxis  Along = iota // of a tube
	AlongBends              // the bend lines of a gore
	AlongApex               // the lines of a sector that point to its apex
)

// A Lead is the flat that rolling leaves at the end of a sheet that goes in
// first, since bending starts in the pinch when the sheet has come to the back
// roll; and ways to be rid of it.
type Lead struct {
	Flat   float64 // mm left where a piece is run from one end alone, and what to leave on at each end to cut off after; 0 where settings are not known
	Former float64 // mm, outside diameter of pipe to bend the ends over by mallet: they spring back from it to the wanted radius
}

// A Closing is how a piece that goes all the way round comes to its seam.
type Closing struct {
	Gap      float64 // mm, between the edges at the middle of the sheet, as the blank is cut
	PerNotch float64 // mm that one part of a turn opens or closes it; 0 where not known
	Over     float64 // mm by which the edges should spring past each other before they are drawn apart to tack
}

// Options are what a plan needs to know beside the rolls.
type Options struct {
	Units quantity.System // of the rules and straight-edges at the bench
	Brake *design.Brake   // what else could bend a piece; nil for none
	// Modest says that the rolls are not the design's own: what they do not take is
	// then no fault of it.
	Modest bool
}

// alike is the share by which radii in a batch may differ: half of it, from the
// middle, is a quarter of what setting the screws may cost.
const alike = 0.005

// NewPlan plans the rolling of blanks. Without rolls all is refused.
func NewPlan(blanks []flat.Blank, rolls *design.Rolls, o Options) *Plan {
	pl := planner{Plan: Plan{Rolls: rolls}, Options: o}
	if rolls != nil {
		pl.machine, pl.known = MachineOf(rolls)
	}
	var pieces []Piece
	for i := range blanks {
		if h, ok := handwork(&blanks[i]); ok {
			h.Note = handNote(&h, blanks[i].Metal)
			pl.Hand = append(pl.Hand, h)
		} else if p, ok := PieceOf(&blanks[i]); ok {
			pieces = append(pieces, p)
		}
	}
	if len(pieces) == 0 {
		return &pl.Plan
	}
	if !pl.usable(pieces) {
		pl.Refused = pieces
		pl.checks(pieces)
		return &pl.Plan
	}
	for _, group := range pl.group(pieces) {
		b := pl.batch(group)
		pl.Settings += len(b.Passes)
		pl.Runs += b.Runs
		pl.Batches = append(pl.Batches, b)
	}
	if len(pl.Batches) > 0 {
		pl.Notes = pl.always()
	}
	pl.checks(pieces)
	return &pl.Plan
}

type planner struct {
	Plan
	Options
	machine Machine
	known   bool    // the machine's geometry is
	beyond  []Piece // of those refused, what cannot be bent by hand either
}

// group sorts what the rolls take into batches.
func (pl *planner) group(pieces []Piece) [][]Piece {
	type key struct {
		alloy string
		strip Strip
		cone  bool
	}
	type ranked struct {
		rank int // of what is alike but for its radius, in the order in which it comes up
		Piece
	}
	order := make(map[key]int)
	taken := make([]ranked, 0, len(pieces))
	for _, p := range pieces {
		if why, byHand := pl.refuse(&p); why != nil {
			pl.Refused = append(pl.Refused, p)
			level := finding.Fault
			if byHand {
				level = finding.Caution
			} else {
				pl.beyond = append(pl.beyond, p)
			}
			pl.say(level, p.Part, *why)
			continue
		}
		k := key{p.Metal.Alloy, stripOf(&p), p.IsCone()}
		rank, ok := order[k]
		if !ok {
			rank = len(order)
			order[k] = rank
		}
		taken = append(taken, ranked{rank, p})
	}
	slices.SortStableFunc(taken, func(a, b ranked) int {
		return cmp.Or(a.rank-b.rank, cmp.Compare(b.Radius, a.Radius), cmp.Compare(b.Edges[0], a.Edges[0]))
	})
	var groups [][]Piece
	for i := range taken {
		p := &taken[i]
		if n := len(groups); n > 0 && taken[i-1].rank == p.rank && same(&groups[n-1][0], &p.Piece) {
			groups[n-1] = append(groups[n-1], p.Piece)
			continue
		}
		groups = append(groups, []Piece{p.Piece})
	}
	return groups
}

// same reports whether two pieces of like metal are rolled at the same settings.
func same(a, b *Piece) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) <= alike*min(x, y) }
	ea, eb := a.edges(), b.edges()
	return near(ea[0], eb[0]) && near(ea[1], eb[1]) && (!a.IsCone() || near(a.Across, b.Across))
}

// batch works out one batch.
func (pl *planner) batch(pieces []Piece) Batch {
	first := &pieces[0]
	b := Batch{Metal: first.Metal, Pieces: pieces, Cone: coneOf(first)}
	low, high := first.edges(), first.edges()
	widest, shortest := first, first
	for i := range pieces {
		p := &pieces[i]
		b.Count += p.Quantity
		for e, r := range p.edges() {
			low[e], high[e] = min(low[e], r), max(high[e], r)
		}
		if p.Across > widest.Across {
			widest = p
		}
		if p.Around < shortest.Around {
			shortest = p
		}
	}
	for e := range b.Edges {
		b.Edges[e] = (low[e] + high[e]) / 2
	}
	b.Radius = (b.Edges[0] + b.Edges[1]) / 2
	switch {
	case b.Cone != nil:
		b.Along = AlongApex
	case first.Strip:
		b.Along = AlongBends
	}
	b.Share = share(pl.Rolls.Capacity, b.Metal, widest.Across)
	b.schedule(pl, widest, shortest.Around)
	b.Runs = 2 * len(b.Passes) * b.Count
	pl.remark(&b, widest)
	b.Notes = pl.notes(&b)
	return b
}

// schedule fills in the passes, and all that depends on settings. Checks must
// have room on the shortest piece, around mm long.
func (b *Batch) schedule(pl *planner, widest *Piece, around float64) {
	m := machining{Machine: pl.machine, strip: stripOf(widest), pitch: pl.Rolls.ScrewPitch, width: pl.Rolls.Width}
	closed := slices.ContainsFunc(b.Pieces, func(p Piece) bool { return p.Closed })
	t := b.Metal.Thickness
	b.Least = Least(pl.Rolls, m.strip, closed)
	tight := 0.5 // where the tightest is not known
	if floor := Least(pl.Rolls, m.strip, false); floor > 0 {
		tight = floor / (2*b.Edges[0] + t)
	}
	n := passes(b.Share, tight)
	b.Lead.Former = max(2*m.strip.LoadedRadius(b.Radius)-t, 0)
	var last [2]Setting
	if b.Set = pl.known; b.Set {
		for e, r := range b.Edges {
			set, err := m.Set(m.strip, 1/r)
			b.Set = b.Set && err == nil // refused before, but for radii that the batch averages
			last[e] = set
		}
	}
	if b.Set && positive(m.pitch) {
		change := m.change(last[0])
		m.of = notch(change * m.pitch)
		b.Of = m.of
		b.PerNotch = change * m.pitch / float64(m.of) * (2*b.Edges[0] + t)
	}
	var steps [][2]Setting
	if b.Set {
		var err error
		steps, err = m.steps(widest, last, n)
		b.Set = err == nil
	}
	if !b.Set {
		b.Of, b.PerNotch = 0, 0
		steps = m.radii(b.Edges, n)
	}
	for i, s := range steps {
		b.Passes = append(b.Passes, m.pass(b, s, around, pl.Units))
		if i > 0 {
			before, now := &b.Passes[i-1], &b.Passes[i]
			for e := range now.Screws {
				now.Screws[e].Change = Turns{now.Screws[e].Turns.Parts - before.Screws[e].Turns.Parts, now.Screws[e].Turns.Of}
			}
		} else {
			for e := range b.Passes[0].Screws {
				b.Passes[0].Screws[e].Change = b.Passes[0].Screws[e].Turns
			}
		}
	}
	if closed && b.Cone == nil {
		b.Closing = &Closing{Gap: max(0, 2*math.Pi*b.Radius-widest.Around), PerNotch: math.Pi * b.PerNotch, Over: t}
	}
	if b.Set {
		b.effort(&m, steps, widest, pl.Rolls)
	}
}
