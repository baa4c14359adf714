// Package rolling plans how blanks are rolled on slip rolls: whether the machine
// can, how far each pass must go so that the sheet springs back to the wanted
// radius, how to set the back roll for it, and what to measure afterwards.
//
// NewPlan does it for a design's blanks. Beneath it lie Strip, the sheet in
// bending, and Machine, the three rolls, each with the derivation of its
// formulas.
//
// What the sums leave out: hardening of the metal, friction, the bow of the
// rolls under load (given apart as Batch.Sag), and play in the screws. The yield
// of sheet as bought lies within Scatter of the one taken. So a setting
// is where to start: one piece is rolled first and measured, and each pass has
// the dimension that it should show.
//
// Lengths are in mm, curvatures in 1/mm, angles in rad, stresses in MPa, forces
// in N. Radii are to the middle of the sheet unless they say otherwise.
package rolling
