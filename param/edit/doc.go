// Package edit changes the text of a design for somebody who works on its
// drawing: it sets the number that a part's size or place comes from, adds a
// part, takes one away, and says what may be written at a place.
//
// An edit is a few stretches of bytes with what comes in their place. All other
// bytes stay as they are: comments, alignment and the notation of every other
// number. Each edit comes with the one that undoes it.
//
// # Which number is set
//
// A number that stands in its place is changed there: 12 in becomes 12-1/2 in,
// 5 ft 3 in becomes 5 ft 3-1/2 in, 2.50 mm becomes 3.00 mm. A name leads to its
// definition. An adjustable name is changed within its range and on its step,
// in the variation in force where that gives it a value.
//
// In an expression the nearest number that decides it alone and linearly is
// solved for. The nearest are the measures that stand in the expression itself:
// of tip + 3 deg it is 3 deg. A plain number that a measure is multiplied with or
// divided by is a proportion and stays: of rise * 0.6 it is rise, wherever that
// comes from. Where two decide, or one does not do so linearly, the number is not
// changed, and a Refusal says on what it depends.
//
// A part of a row, such as reed[2], is changed with all of the row, and only
// through numbers that do not depend on the index.
package edit
