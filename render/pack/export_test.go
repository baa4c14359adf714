package pack

// ByMeasures is byMeasures for tests from outside.
var ByMeasures = byMeasures
