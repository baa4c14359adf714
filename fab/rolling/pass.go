package rolling

import (
	"math"

	"stabile/param/design"
	"stabile/param/quantity"
)

// A Pass is one setting of the back roll. Every piece of the batch goes through
// it before the rolls are moved, from both ends (a cone: in and back out).
type Pass struct {
	Edges  [2]Edge  // of a cone the sheet's narrow and its wide edge; of a cylinder alike
	Screws [2]Screw // of a cone that at the end where the narrow edge runs, and the other; of a cylinder alike
	Lead   float64  // mm, left flat where the sheet goes in; 0 where settings are not known
}

// An Edge is what a pass does to the sheet.
type Edge struct {
	Loaded   float64 // mm, radius under the rolls
	Released float64 // mm, radius after it has sprung back
	Lift     float64 // mm, of the back roll, upright from where it touches the flat sheet; 0 where settings are not known
	Check    Check
}

// A Screw is where one end of the back roll is set.
type Screw struct {
	Travel float64 // mm from zero, along the way of the back roll; 0 where settings are not known
	Turns  Turns   // from zero, the nearest that can be set
	Change Turns   // from the pass before
}

// passes returns in how many passes a sheet is rolled. At the machine's full
// rating it is six for a wide curve to ten for the tightest that the rolls make,
// light work two or three: common practice, no source. Between, the number grows
// with the share of the rating, and with the curvature as a share of the
// tightest.
func passes(share, tight float64) int {
	const least, gentle, sharp = 2, 4, 4
	if share == 0 {
		share = 1 // not known: as if it were heavy
	}
	return int(math.Round(least + min(share, 1)*(gentle+sharp*min(tight, 1))))
}

// A machining is a batch on the shop's rolls.
type machining struct {
	Machine
	strip Strip
	pitch float64 // mm of travel a turn; 0 where not known
	width float64 // mm, usable, of the rolls
	of    int     // parts of a turn
}

// change returns the share by which the finished radius changes for a mm of
// travel, near a setting.
func (m *machining) change(last Setting) float64 {
	// Half a thousandth off the setting, to the side that is surely in reach.
	near, err := m.Set(m.strip, last.Released*(1-1e-3))
	if err != nil || last.Travel <= near.Travel {
		return 0
	}
	return (last.Released/near.Released - 1) / (last.Travel - near.Travel)
}

// schedule returns the passes of a cylinder: equal steps of the curvature that is
// left, each but the last moved to the nearest part of a turn, so that what is to
// be measured agrees with what is set. Passes that fall on one part are one.
func (m *machining) schedule(last Setting, n int) []Setting {
	list := make([]Setting, 0, n)
	flat, err := m.Set(m.strip, 0)
	if err != nil {
		return []Setting{last}
	}
	before := flat.Travel
	for i := 1; i < n; i++ {
		set, err := m.Set(m.strip, last.Released*float64(i)/float64(n))
		if err != nil {
			continue
		}
		if m.of > 0 {
			travel := turns(set.Travel, m.pitch, m.of).Turns() * m.pitch
			if travel <= before+settled || travel >= last.Travel {
				continue
			}
			if set, err = m.At(m.strip, travel, set); err != nil || set.Released <= 0 || set.Released >= last.Released {
				continue
			}
		}
		before = set.Travel
		list = append(list, set)
	}
	return append(list, last)
}

// steps returns the settings of each pass at both edges of a piece.
func (m *machining) steps(p *Piece, last [2]Setting, n int) ([][2]Setting, error) {
	if !p.IsCone() {
		list := m.schedule(last[0], n)
		both := make([][2]Setting, len(list))
		for i, s := range list {
			both[i] = [2]Setting{s, s}
		}
		return both, nil
	}
	both := make([][2]Setting, n)
	for i := range both {
		for e := range both[i] {
			if i == n-1 {
				both[i][e] = last[e]
				continue
			}
			var err error
			if both[i][e], err = m.Set(m.strip, last[e].Released*float64(i+1)/float64(n)); err != nil {
				return nil, err
			}
		}
	}
	return both, nil
}

// radii returns passes of which only the curvatures are known.
func (m *machining) radii(edges [2]float64, n int) [][2]Setting {
	both := make([][2]Setting, n)
	for i := range both {
		for e, r := range edges {
			released := float64(i+1) / float64(n) / r
			both[i][e] = Setting{Released: released, Loaded: m.strip.Loaded(released)}
		}
	}
	return both
}

// pass returns a pass of a batch at the given settings of its edges.
func (m *machining) pass(b *Batch, s [2]Setting, around float64, units quantity.System) Pass {
	p := Pass{Lead: max(s[0].Lead, s[1].Lead)}
	travel := screws([2]float64{s[0].Travel, s[1].Travel}, b.Pieces[0].Across, m.width)
	for e := range p.Edges {
		radius := 1 / s[e].Released
		p.Edges[e] = Edge{
			Loaded: 1 / s[e].Loaded, Released: radius, Lift: s[e].Lift,
			Check: measured(radius, m.strip.Thickness, around, units),
		}
		p.Screws[e].Travel = travel[e]
		if m.of > 0 {
			p.Screws[e].Turns = turns(travel[e], m.pitch, m.of)
		}
	}
	return p
}

// effort fills in what depends on the settings: what the machine has to carry, and
// how sure the result is.
func (b *Batch) effort(m *machining, steps [][2]Setting, widest *Piece, rolls *design.Rolls) {
	force, before := 0.0, 0.0
	for _, s := range steps {
		force = max(force, s[0].Force, s[1].Force)
		// The sheet that goes in is as bent as the pass before left it.
		work := max(s[0].Torque, s[1].Torque)
		b.Torque = max(b.Torque, (work-before)*widest.Across)
		before = work
	}
	b.Force = force * widest.Across
	last := steps[len(steps)-1]
	b.Lead.Flat = max(last[0].Lead, last[1].Lead)
	b.Sag = bow(rolls, m.Back, widest.Across, force)
	b.Barrel = b.Sag * m.change(last[0]) * (2*b.Radius + m.strip.Thickness)
	for i, y := range [2]float64{1 - Scatter, 1 + Scatter} {
		other := m.strip
		other.Yield *= y
		near, err := m.Set(other, last[0].Released)
		if err != nil {
			continue
		}
		if got, err := m.At(other, last[0].Travel, near); err == nil && got.Released > 0 {
			b.Spread[i] = 1 / got.Released
		}
	}
	if b.Cone != nil {
		ends := screws([2]float64{last[0].Lift, last[1].Lift}, widest.Across, m.width)
		b.Cone.Tilt = math.Atan2(ends[0]-ends[1], max(m.width, widest.Across))
	}
}
