// Package draft draws parts as a draughtsman does: it projects them to the
// views of a drawing with hidden lines left out, and places dimensions,
// leaders and balloons where they are read at a glance.
//
// Space is in mm with X to the right, Y away from the viewer and Z up; paper
// is in mm with the origin at the lower left. Sizes of arrowheads, gaps and
// line kinds follow ISO 128 and ISO 129-1.
package draft
