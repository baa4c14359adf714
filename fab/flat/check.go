package flat

import (
	"stabile/fab/check"
	"stabile/fab/finding"
)

const makingSource = "the narrowest point that the shop welds, and ends that stand on their hosts all round: common practice, no source"

// check adds the check of whether the part comes out as drawn, by what was found of
// it.
func (d *developer) check() {
	c := check.Check{ID: check.Making, Part: d.part.Name, Unit: check.Millimetre, Source: makingSource, Concern: finding.Work, Verdict: check.Holds}
	for _, f := range d.Findings {
		one := c
		switch f := f.Fact.(type) {
		case Overhangs:
			one.With, one.Found = f.Post, f.By
		case NarrowGores:
			one.Found, one.Limit, one.AtLeast = f.Width, f.Least, true
		case NotDeveloped:
			one.Verdict, one.Why = check.Undecided, f
			d.Checks = append(d.Checks, one)
			continue
		default:
			continue
		}
		d.Checks = append(d.Checks, one.Judge())
	}
	if len(d.Checks) == 0 {
		d.Checks = append(d.Checks, c)
	}
}
