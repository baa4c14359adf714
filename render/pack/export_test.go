package pack

// For tests from outside.
var (
	ByMeasures   = byMeasures
	MarkedPieces = markedPieces
)

// LeftOutBand is how wide, in mm, the band is that stands for what is left out of a
// pattern.
const LeftOutBand = leftOutBand
