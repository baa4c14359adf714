// Package sheets plans how the blanks of a piece are cut from sheets: which
// sheets to buy, where each blank lies, and the cuts in order, each from edge to
// edge of the part in hand.
//
// Each blank lies in a rectangle that the shear frees. Curved flats of one shape
// may share a rectangle, set off against each other or head to tail, where that
// takes less metal; they are then parted by hand. Rectangles go through package
// layout, one problem for each metal.
//
// On a sheet x runs along its length, which is the direction in which the metal
// was rolled, and the origin is the lower left corner. A blank lies with its own
// y along x unless it is turned. Blanks are only turned, never turned over: the
// outside face is up. Lengths are in mm, areas in mm2, angles in rad.
package sheets
