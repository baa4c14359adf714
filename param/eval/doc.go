// Package eval works out what a text says: it takes the tree of a design and
// gives the design, with every part placed in space, or the list of what is
// wrong with the text.
//
// What may be written stands in one table (see Declarations); the rest of the
// package reads a declaration's body against it, works out its values, and
// places the parts one after another in the order of the text.
//
// A mistake is reported once. What could not be worked out is known as failed, and
// all that leans on it stays silent.
package eval
