package flat

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
)

// halfTrim is what is left on all round, in mm, on the blank of a dished half,
// to be trimmed to the equator. Common practice, no source.
const halfTrim = 6.0

// ball develops a ball by its construction. Its centre of gravity is its centre, since
// every construction is alike above and below, and all round, but for caps that differ
// and what is cut out.
func (d *developer) ball() {
	b := d.part.Ball
	d.CG = b.Center
	if !d.bounded("diameter", b.Radius) || !d.bounded("caps", b.Caps) {
		return
	}
	if !quantity.Finite(b.Center.X, b.Center.Y, b.Center.Z, b.BoughtMass) || !(b.Radius > 0) {
		d.fail("diameter", "", "has a size that is not a positive number")
		return
	}
	if b.Bowl {
		d.rain()
	}
	if b.Build == design.Bought {
		d.Mass = b.BoughtMass
		if !(b.BoughtMass >= 0) {
			d.fail("bought", "", "cannot weigh less than 0")
		}
		d.openByHand()
		d.drillBought()
		return
	}
	thick, ok := d.sheet()
	if !ok {
		return
	}
	if thick >= b.Radius {
		d.fail("metal", "take a larger diameter or a thinner metal",
			"of %s across has no hollow with a wall of %s", d.length(2*b.Radius), d.length(thick))
		return
	}
	if bend := b.Profile().Tightest(); b.IsEgg() && !(bend > 2*thick && b.Tall >= design.FlattestEgg*2*b.Radius*(1-onEdge) && b.Tall <= design.LongestEgg*2*b.Radius*(1+onEdge)) {
		d.fail("tall", "take from half to twice its diameter, and a thinner metal where it bends to less than twice its thickness",
			"of %s across and %s along its pole bends to a radius of %s", d.length(2*b.Radius), d.length(b.Tall), d.length(bend))
		return
	}
	switch b.Build {
	case design.Halves:
		d.halves()
	case design.RolledGores, design.DomedGores:
		d.gores()
	case design.Zones:
		d.zones()
	default:
		d.fail("ball", "", "is to be made in a way that is not known")
	}
	if len(d.wrong) > 0 {
		return
	}
	d.Round = roundness(d.part)
	d.number()
	if b.Bowl {
		d.bowl()
	}
	d.openings()
	d.reportFills()
	d.reportCaps()
}

// number numbers the pieces of the ball as pieces does: gores from the prime direction
// on in the sense of growing bearing, rings from the lower pole up, of two discs the
// upper first.
func (d *developer) number() {
	b := d.part.Ball
	next := func(blank, from, n int) {
		for k := range n {
			d.Blanks[blank].Numbers = append(d.Blanks[blank].Numbers, strconv.Itoa(from+k))
		}
	}
	last := len(d.Blanks) - 1
	switch b.Build {
	case design.Zones:
		at := 1
		for k := range b.Zones {
			blank := max(k, b.Zones-1-k) - b.Zones/2
			count := d.Blanks[blank].Quantity
			if k != b.Zones-1-k {
				count /= 2 // the blank is of two rings
			}
			next(blank, at, count)
			at += count
		}
		next(last, 1, 2)
	case design.Halves:
		next(0, 1, poleCount(b))
	default:
		next(0, 1, b.Gores)
		switch {
		case b.Bowl && b.Caps > 0 && last > 0:
			next(last, 1, 1)
		case b.CapsDiffer() && last > 1:
			next(last-1, 1, 1)
			next(last, 2, 1)
		case b.Caps > 0 && last > 0:
			next(last, 1, 2)
		}
	}
}

// poleCount returns how many poles a ball has, of which a bowl has the lower.
func poleCount(b *design.Ball) int {
	if b.Bowl {
		return 1
	}
	return 2
}

// poles returns the poles of a ball at which there may be a cap, the upper first.
func poles(b *design.Ball) []int {
	return []int{design.UpperPole, design.LowerPole}[2-poleCount(b):]
}

// halves develops two dished halves. A disc that is dished without growing
// thinner keeps its area, which for a hemisphere is that of a disc of
// 2 sqrt(2) times its radius across, and for less of the sphere that of one whose radius
// is the chord from the middle to the edge.
func (d *developer) halves() {
	mean := d.part.Ball.Radius - d.part.Metal.Thickness/2
	if d.part.Ball.Bowl {
		d.dished(mean)
		return
	}
	// Along the meridian it ends short of the equator by half of the root gap, and goes
	// beyond it by half of what the seam shrinks.
	short := (d.part.Ball.Gap - d.shrink) / 2
	if d.part.Ball.IsEgg() {
		d.eggHalves(short)
		return
	}
	b := disc(d.part.Name+" half", 4*mean*math.Sin((math.Pi/2-short/mean)/2), halfTrim)
	b.Quantity = 2
	b.Forming = Forming{How: "dish", MeanRadius: mean, Depth: mean * (1 - math.Sin(short/mean))}
	b.Notes = []finding.Fact{DishHalf{b.Forming.Depth}, TrimHalf{halfTrim, short}}
	d.add(b)
}

// dished develops a bowl that is dished from one disc: at equal area its radius is the
// chord from the bottom to the rim.
func (d *developer) dished(mean float64) {
	sin := math.Sin((math.Pi/2 + d.part.Ball.Rim) / 2)
	deep := 2 * mean * sin * sin // mean (1 + sin(rim)), without cancelling
	b := disc(d.part.Name+" disc", 4*mean*sin, halfTrim)
	b.Quantity = 1
	b.Forming = Forming{How: "dish", MeanRadius: mean, Depth: deep}
	b.Notes = []finding.Fact{DishBowl{deep}, TrimBowl{halfTrim}}
	d.add(b)
}

// A segmented is a ball of gores at the middle of its sheet.
type segmented struct {
	solid.Gored
	more   float64 // mm, added to the width for the two seams beside a gore: what they shrink, less their root gap
	egg    bool    // it is of an egg
	across float64 // half of the width between the planes that part the gores, as a share of the mean radius
}

// segment works out the gores of a ball, as solid.GoredOf.
func segment(p *design.Part) (segmented, bool) {
	g, ok := solid.GoredOf(p)
	s := segmented{Gored: g, egg: p.Ball.IsEgg()}
	s.across = s.ridge(p) / s.Mean
	return s, ok
}

// segment works out the gores of the ball, with what is added for its seams.
func (d *developer) segment() (segmented, bool) {
	s, ok := segment(d.part)
	s.more = d.shrink - d.part.GoreGap()
	return s, ok
}

// gores develops a ball of gores with their caps.
func (d *developer) gores() {
	b := d.part.Ball
	s, ok := d.segment()
	switch {
	case ok:
	case b.Gores < 3:
		d.fail("gores", "take 6 or more", "cannot be closed by %d gores", b.Gores)
	case b.Caps < 0 || max(b.Caps, b.UpperCap)/2 >= s.Mean:
		d.fail("caps", "", "has caps of %s, as wide as the ball itself: it is %s across at the middle of its sheet",
			d.length(max(b.Caps, b.UpperCap)), d.length(2*s.Mean))
	default:
		d.fail("gores", "take fewer gores or a larger ball",
			"has gores %s wide at the most, narrower than the %s that can be welded", d.length(2*s.Half-d.part.GoreGap()), d.length(s.Narrow))
	}
	if !ok {
		return
	}
	d.add(d.gore(s))
	switch {
	case b.Bowl && b.Caps > 0:
		d.cap(s, design.LowerPole, 1)
	case b.CapsDiffer():
		d.cap(s, design.UpperPole, 1)
		d.cap(s, design.LowerPole, 1)
		d.balance()
	case b.Caps > 0:
		d.cap(s, design.UpperPole, 2)
	}
}

// balance finds the centre of gravity of a ball that is not alike above and below.
func (d *developer) balance() {
	for _, p := range d.pieces() {
		d.whole = r3.Add(d.whole, p.measure(p.finished()).first)
	}
	d.CG = r3.Add(d.part.Ball.Center, r3.Scale(d.weigh(1)/d.Mass, d.whole))
}

// cap adds a disc that closes a ball of gores at a pole, or one for both.
func (d *developer) cap(s segmented, pole, count int) {
	b := d.part.Ball
	label := d.part.Name + " cap"
	if b.PoleDiscs {
		label = d.part.Name + " pole"
	}
	name := label
	if count == 1 && !b.Bowl {
		name += [...]string{design.LowerPole: " 2", design.UpperPole: " 1"}[pole]
	}
	reach, edge, rise := s.capReach(d.part, pole), s.CapEdge[pole], s.CapRise[pole]
	c := disc(name, 2*reach, 0)
	if b.Straight {
		c = polygon(name, b.Gores, reach)
		c.Notes = append(c.Notes, Sided{b.Gores, 2 * reach * math.Tan(math.Pi/float64(b.Gores)), reach / math.Cos(math.Pi/float64(b.Gores))})
	}
	if s.CapFlat[pole] {
		c.Forming = Forming{How: "flat"}
		c.Notes = append(c.Notes, FlatCap{rise})
	} else {
		c.Forming = Forming{How: "dish", MeanRadius: s.Mean, Depth: rise}
		c.Notes = append(c.Notes, DishCap{2 * edge, rise})
		if b.IsEgg() {
			c.Forming.Egg = [2]float64{2 * b.Radius, b.Tall}
			c.Forming.Bends = bends(b, d.part.Metal.Thickness/2, s.Latitude(s.End[pole]), math.Pi/2)
		}
	}
	if b.PoleDiscs {
		c.Notes = append(c.Notes, PoleDisc{s.Narrow, 2*reach <= smallDisc})
	}
	if g, ok := s.capGroove(d.part, pole); ok {
		c.Notes = append(c.Notes, g)
	}
	c.Quantity = count
	if count == 1 && !b.Bowl {
		c.Label = label
	}
	if b.Build == design.RolledGores && !b.Straight {
		corner := edge * (b.Ridge()/b.Radius - 1)
		f := Slivers{b.Gores, corner}
		c.Notes = append(c.Notes, f)
		if edge == max(s.CapEdge[0], s.CapEdge[1]) {
			d.ofCaps = append(d.ofCaps, d.finding(finding.Note, f))
		}
	}
	d.add(c)
	if edge > min(s.CapEdge[0], s.CapEdge[1]) {
		return // the other leaves narrower tips
	}
	if tip := 2 * s.Wide(s.End[pole]); tip < s.Narrow*(1-1e-9) && !b.PoleDiscs {
		d.ofCaps = append(d.ofCaps, d.finding(finding.Caution, NarrowGores{tip, s.Narrow}))
	}
}

// capReach returns how far it is, on the flat, from the middle of a cap to its edge, or
// to the middle of a straight side.
//
// A dished cap's area is that of the disc whose radius is the chord from its middle to
// its edge, 2 mean sin(colatitude / 2); with straight sides, on which it carries the
// lobes on, it is that of the polygon about this disc. A flat cap stands within ends of
// gores that lean in, being cut square: its side meets their inner corners, which is
// cos(latitude) of half of its thickness short of their middles.
func (s *segmented) capReach(p *design.Part, pole int) float64 {
	switch {
	case !s.CapFlat[pole]:
		chord := math.Hypot(s.CapEdge[pole], s.CapRise[pole]) - p.Ball.Gap
		if s.egg {
			chord = p.Ball.Profile().Dish(s.Latitude(s.End[pole]), p.Metal.Thickness/2) - p.Ball.Gap
		}
		if p.Ball.Straight && !p.Ball.EdgeMid {
			// At its corners the inside of a lobe reaches into the ends of the gores
			// of the next, that much along the meridian.
			turn := math.Sin(math.Pi / float64(p.Ball.Gores))
			sin, cos := math.Sincos(s.Latitude(s.End[pole]))
			chord -= p.Metal.Thickness * turn * turn * sin * cos
		}
		return chord
	case p.Ball.EdgeMid:
		return s.CapEdge[pole] - p.Ball.Gap
	}
	return s.CapEdge[pole] - p.Ball.Gap - p.Metal.Thickness/2*math.Cos(s.Latitude(s.End[pole]))
}

// ridge returns half of the width that the gores have between the planes that part them,
// at the equator and at the middle of the sheet. Those of rolled ones are cut narrower.
func (s *segmented) ridge(p *design.Part) float64 {
	if p.Ball.Build == design.DomedGores {
		return s.Half
	}
	return s.Mean * math.Tan(math.Pi/float64(p.Ball.Gores))
}

// stretch returns the mean stretch of a domed gore, as a share of length: how
// much the fibres along the meridian are stretched in the middle of the gore
// and shrunk at its edges, without regard to sign, averaged over its area.
//
// To lie on the sphere a flat strip of half width w must change the length of
// its fibres by (w^2 / 2 mean^2) (1/3 - (x/w)^2), so that none is left over in
// sum: the middle stretches by a third of w^2 / 2 mean^2 and the edges shrink
// by two thirds. The mean of |1/3 - u^2| over u from 0 to 1 is 4 / (9 sqrt 3),
// and that of cos^2 over an area that goes with cos, between latitudes of sines p and q
// below and above the equator, is 1 - (p^2 - p q + q^2) / 3.
func (s segmented) stretch() float64 {
	p, q := math.Sin(s.End[design.LowerPole]/s.Mean), math.Sin(s.End[design.UpperPole]/s.Mean)
	w := s.Half / s.Mean
	return w * w / 2 * 4 / (9 * math.Sqrt(3)) * (1 - (p*p-p*q+q*q)/3)
}

// opening says how wide, in mm, the hole is that blunt gores leave at a pole.
func (s segmented) opening() float64 {
	radius, _ := s.At(s.End[design.UpperPole])
	return 2 * radius
}
