// Package study works out many variations of one design: those that the text
// names, sweeps through adjustable values, and random sets; and it looks for the
// largest or least value of a name with which a condition holds.
//
// Each variation is worked out from the text just as a report with the same
// settings would be, so that every figure is equal to the last digit.
package study
