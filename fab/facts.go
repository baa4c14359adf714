package fab

import "stabile/fab/finding"

// RequirementFails: a requirement of the design does not hold.
type RequirementFails struct {
	Text, Why string // as written; Why may be ""
	Value     string // what it comes to
}

// RequirementUndecided: a requirement of the design could not be checked.
type RequirementUndecided struct {
	Text, Why string // as written; Why may be ""
	Reason    string
}

// StrengthNotChecked: strength was not worked out, since it was not wanted.
type StrengthNotChecked struct{}

// Heavy: a part is more than one person may lift.
type Heavy struct {
	Mass    float64 // kg, the greatest where Several
	Several bool    // it is said of several parts
}

// WholeHeavy: the whole, without ballast, is more than one person may lift.
type WholeHeavy struct{ Mass float64 } // kg

// Closed: parts are closed when they are welded.
type Closed struct{}

// ZincFumes: metals have a zinc coat, whose fumes cause fever.
type ZincFumes struct{ Metals []string }

// ChromiumFumes: metals are stainless, whose fumes cause cancer.
type ChromiumFumes struct{ Metals []string }

// DesignNote is a note of the design, in its own words.
type DesignNote struct{ Text string }

// WeldEstimate: the mass of weld metal is an estimate.
type WeldEstimate struct{ Mass float64 } // kg

// Join returns the greater of two masses.
func (h Heavy) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(Heavy)
	return Heavy{max(h.Mass, o.Mass), true}, ok
}

// Fact marks the facts.
func (RequirementFails) Fact()     {}
func (RequirementUndecided) Fact() {}
func (StrengthNotChecked) Fact()   {}
func (Heavy) Fact()                {}
func (WholeHeavy) Fact()           {}
func (Closed) Fact()               {}
func (ZincFumes) Fact()            {}
func (ChromiumFumes) Fact()        {}
func (DesignNote) Fact()           {}
func (WeldEstimate) Fact()         {}
