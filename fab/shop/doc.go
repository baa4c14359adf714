// Package shop has what a plan for the bench needs to know of a workshop: the
// one that the design describes, filled up from a modest one that is worked by
// hand, and how much of a machine a sheet uses.
//
// Lengths are in mm, stresses in MPa, times in s; money is in the shop's own
// currency and is never made up.
package shop
