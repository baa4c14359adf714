package rolling

import (
	"math"
	"slices"

	"stabile/fab/finding"
)

// always returns what holds for every card.
func (pl *planner) always() []finding.Fact {
	list := []finding.Fact{HandsOff, BurrsOff, PinchAlike, WipeRolls}
	if slices.ContainsFunc(pl.Batches, func(b Batch) bool { return b.Set }) {
		list = append(list, ZeroIs)
	}
	return list
}

// notes returns what the card of a batch must say beside its table.
func (pl *planner) notes(b *Batch) []finding.Fact {
	list := []finding.Fact{GrindFirst, FaceDown}
	say := func(facts ...finding.Fact) { list = append(list, facts...) }
	first := &b.Pieces[0]
	switch c := b.Cone; {
	case c != nil:
		say(BitesOf{c.Bites, c.Radial}, HoldBack{c.Speed, c.Back})
		if c.Tilt != 0 {
			say(Slant{math.Abs(c.Tilt)})
		}
		if slices.ContainsFunc(b.Passes, func(p Pass) bool { return p.Screws[1].Travel < 0 }) {
			say(RunDown)
		}
		say(InAndOut)
	case first.Strip:
		say(TipFirst, TurnTips)
	default:
		say(SeamSquare, TurnEnds)
	}
	if strip := narrowest(b); strip.Across < narrow*strip.Around && b.Cone == nil {
		say(RunsOff{strip.Across})
	}
	say(FlatEnds{b.Lead.Flat, b.Lead.Former, b.Cone != nil})
	if b.Of > 0 {
		say(Notches{b.Of, b.PerNotch, b.PerNotch/2 > fine*(2*b.Radius+b.Metal.Thickness)})
	}
	if lo, hi := b.Spread[0], b.Spread[1]; b.Set {
		f := TryFirst{Scatter: Scatter}
		if t := b.Metal.Thickness; lo > 0 && hi > 0 {
			f.Soft, f.Hard = 2*lo+t, 2*hi+t
		}
		say(f)
	} else {
		say(TryByCheck)
	}
	if c := b.Closing; c != nil {
		f := CloseIt{Over: c.Over, PerNotch: c.PerNotch}
		if c.Gap > settled {
			f.Gap = c.Gap
		}
		say(f)
	}
	return list
}

// narrow is the width of a piece, as a share of its length through the rolls,
// under which it does not find its way straight by itself; common practice, no
// source.
const narrow = 0.25

func narrowest(b *Batch) *Piece {
	least := &b.Pieces[0]
	for i := range b.Pieces {
		if p := &b.Pieces[i]; p.Across/p.Around < least.Across/least.Around {
			least = p
		}
	}
	return least
}
