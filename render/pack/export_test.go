package pack

// For tests from outside.
var (
	ByMeasures   = byMeasures
	MarkedPieces = markedPieces
)
