package design

import (
	"stabile/param/quantity"
	"stabile/param/source"
)

// A Requirement is a condition that the finished design must hold. It is read
// with the text and checked when the results are known.
type Requirement struct {
	Text string // the condition as written
	Why  string // the reason given, or ""
	Span source.Span

	// Check evaluates the condition with the given results. A mistake in the
	// condition itself has been reported when the text was read; what remains
	// is a result that was not worked out, which Outcome tells.
	Check func(Results) Outcome
}

// Results gives a requirement the results of the whole, and "PART.weight" for
// each part: "weight", a mass; "height", "width" and "depth", lengths; "tipping",
// the factor against it; "wind", the greatest force on the whole; "strength", the
// greatest share used of what a section carries; "frequency", the lowest at which
// the whole sways; "sheets", how many; "cost", in the shop's currency. It reports
// false, with the reason in words, for one that was not worked out.
type Results func(name string) (value quantity.Quantity, reason string, ok bool)

// An Outcome is what a requirement came to.
type Outcome struct {
	Holds bool
	Sides []Side // what the compared sides that depend on results came to
	// Unchecked reports that a result was not worked out, or that the condition
	// cannot be evaluated with the results at hand. Holds is then false.
	Unchecked bool
	Why       string // of one that is unchecked: the reason that was given for the result, or what is wrong
}

// A Side is what one side of a comparison came to.
type Side struct {
	Result   string // the name of the result that it is, such as "tipping"; "" for an expression
	Quantity quantity.Quantity
}
