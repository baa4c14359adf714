package fab

import (
	"stabile/fab/check"
	"stabile/fab/corrosion"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/stock"
)

// NotWorkedOut: a result, by the name that requirements know it by, was not worked
// out.
type NotWorkedOut struct{ Result string }

// NoPost: nothing stands whose strength or sway could be worked out.
type NoPost struct{}

// Unread: a condition could not be evaluated, for a reason in words.
type Unread struct{ Reason string }

// RestsOn: a requirement that holds by its figures rests on checks that are not
// decided.
type RestsOn struct{ Checks []check.Check }

// RequirementFails: a requirement of the design does not hold.
type RequirementFails struct {
	Text, Why string        // as written; Why may be ""
	Sides     []design.Side // what its compared sides come to
}

// RequirementUndecided: a requirement of the design is not decided.
type RequirementUndecided struct {
	Text, Why string       // as written; Why may be ""
	Reason    finding.Fact // why it is not
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

// RainStands: rain runs into parts by their holes and stands there.
type RainStands struct{}

// ZincFumes: metals have a zinc coat, whose fumes cause fever.
type ZincFumes struct{ Metals []string }

// ChromiumFumes: metals are stainless, whose fumes cause cancer.
type ChromiumFumes struct{ Metals []string }

// CopperFumes: a metal is copper or an alloy of it, whose fumes cause fever and, by what
// is in it, poison.
type CopperFumes struct {
	Metal, Alloy string
	Fumes        stock.Fumes
}

// AnchorsCorrode: galvanized anchors and the plate do not get on where rain wets both.
type AnchorsCorrode struct {
	Alloy string
	Pair  corrosion.Pairing
}

// PaintFumes: the piece is painted, and paint poisons when it is sprayed and when it is
// burnt.
type PaintFumes struct{}

// Fact marks the facts.
func (AnchorsCorrode) Fact() {}
func (CopperFumes) Fact()    {}
func (PaintFumes) Fact()     {}

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
func (NotWorkedOut) Fact()         {}
func (NoPost) Fact()               {}
func (Unread) Fact()               {}
func (RestsOn) Fact()              {}
func (RequirementFails) Fact()     {}
func (RequirementUndecided) Fact() {}
func (StrengthNotChecked) Fact()   {}
func (Heavy) Fact()                {}
func (WholeHeavy) Fact()           {}
func (Closed) Fact()               {}
func (RainStands) Fact()           {}
func (ZincFumes) Fact()            {}
func (ChromiumFumes) Fact()        {}
func (DesignNote) Fact()           {}
func (WeldEstimate) Fact()         {}
