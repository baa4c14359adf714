package wind

import "stabile/param/stock"

// A Rule is where a force coefficient comes from.
type Rule struct {
	Kind       RuleKind
	Covering   Covering // of a cylinder by EN 1991-1-4; "" for others
	NearGround bool     // raised for a ball near the ground
	NearWall   bool     // raised for a ball near the wall that the piece is on
}

// A RuleKind is a row of a table, or what stands in for one.
type RuleKind string

// The kinds of rule.
const (
	ASCEEdge   RuleKind = "asce-plate-edge"
	ASCEBall   RuleKind = "asce-ball"
	ASCESmooth RuleKind = "asce-post-below" // D sqrt(q) up to the limit between the rows
	ASCERough  RuleKind = "asce-post-above"
	ASCEHeld   RuleKind = "asce-post-between" // above it, where the force up to the limit was more
	OpenBowl   RuleKind = "open-bowl"
	EggBound   RuleKind = "egg"
	WallPlate  RuleKind = "wall-plate"
	ENEdge     RuleKind = "en-plate-edge"
	ENSphere   RuleKind = "en-sphere"
	ENCylinder RuleKind = "en-cylinder"
)

// A Covering is what a part's surface counts as.
type Covering string

// The surfaces.
const (
	SprayPaint  Covering = "spray paint"
	Galvanised  Covering = Covering(stock.Zinced)
	Rust        Covering = Covering(stock.Rusted)
	BrightMetal Covering = Covering(stock.Bright)
	RustAssumed Covering = "rust, assumed" // neither metal nor finish is given
)

// Source returns the clause.
func (r Rule) Source() string {
	source := map[RuleKind]string{
		ASCEEdge: asceTable, ASCEBall: asceTable, ASCESmooth: asceTable, ASCERough: asceTable, ASCEHeld: asceTable + ", read so that the force never falls as the wind rises",
		OpenBowl: "Hoerner, Fluid-Dynamic Drag, 3-17 (from memory), a bound", EggBound: "a disc across the wind, Hoerner, Fluid-Dynamic Drag, 3-16, and a cylinder, EN 1991-1-4 Fig. 7.28 (both from memory), a bound", WallPlate: "assumed, a bound: EN 1991-1-4 Table 7.1 has -1.4 at the corners of a wall (from memory)", ENEdge: "assumed, not in EN 1991-1-4", ENSphere: "EN 1991-1-4 Fig. 7.30", ENCylinder: "EN 1991-1-4 Fig. 7.28",
	}[r.Kind]
	if r.NearGround || r.NearWall {
		source += "; EN 1991-1-4 7.11 (2)"
	}
	return source
}

const asceTable = "ASCE 7 Fig. 29.4-1"
