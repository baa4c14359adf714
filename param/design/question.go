package design

import (
	"stabile/param/quantity"
	"stabile/param/source"
)

// A Question is an expression that is asked of a design from outside of its
// text, such as a condition that a variation must hold to be kept, or a number
// by which variations are sorted. It is read with the text and answered when
// the results are known.
type Question struct {
	Text string // as asked
	Span source.Span
	Dim  quantity.Dimension // of a number

	// Answer works the question out with the given results. A mistake in the
	// question itself has been reported when it was read.
	Answer func(Results) Answer
}

// An Answer is what a question came to.
type Answer struct {
	Holds     bool              // of a condition
	Number    quantity.Quantity // of a number
	Sides     []Side            // the number, or what the compared sides that depend on the results came to
	Unchecked bool              // a result was not worked out
	Why       string            // of one that is unchecked
}

// A Sweep is the values that an adjustable name is to take, as asked from
// outside of the text: Count of them, each Step after the one before it, or
// spread evenly from From to To where Step is zero.
type Sweep struct {
	Name           string
	From, To, Step quantity.Quantity
	Count          int
}

// At returns the value of the given number, from 0 on.
func (s Sweep) At(i int) quantity.Quantity {
	q := s.From
	switch {
	case s.Step.Number > 0:
		q.Number += float64(i) * s.Step.Number
	case s.Count > 1:
		q.Number += (s.To.Number - s.From.Number) * float64(i) / float64(s.Count-1)
	}
	return q
}
