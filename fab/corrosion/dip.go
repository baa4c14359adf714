package corrosion

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// A Hollow is a closed space that is dipped in zinc at 450 C. Sealed, it bursts there.
type Hollow int

// The hollows.
const (
	TubeEnd Hollow = iota // one end of a tube
	Ball
)

// A Dip is the holes that a hollow needs before it is dipped.
type Dip struct {
	Vents, Drains int     // how many of each: vents high, drains low as it hangs, opposite each other
	Diameter      float64 // mm, of each
	Source        string

	// ByTable, ByQuarter and ByVessel are the diameters by each rule; 0 where it does
	// not speak of the hollow.
	ByTable, ByQuarter, ByVessel float64
}

// MostFromWeld is how far in mm a vent lies from the weld at the closed end at most, and
// LeastVent the least diameter of one: ASTM A385, of rails.
const (
	MostFromWeld = 12.0
	LeastVent    = 9.5
)

// VentByTable returns the diameter in mm of the hole in each closed end of a tube by its
// outside diameter: 12 to 50 mm, 16 to 100, 20 to 150, 25 above; a steel maker's handbook of
// hollow sections.
func VentByTable(outside float64) float64 {
	switch {
	case outside <= 50:
		return 12
	case outside <= 100:
		return 16
	case outside <= 150:
		return 20
	}
	return 25
}

// VentByQuarter returns a quarter of the section's diameter, 10 mm at least: galvanisers'
// design manuals. Several holes of the same area do as well: see Split.
func VentByQuarter(outside float64) float64 { return max(10, outside/4) }

// VesselHole is the diameter in mm of the vent and of the drain of a vessel, one of each for
// every 0.5 m3 begun, and VesselVolume those 0.5 m3 in mm3: galvanisers' design manuals.
const (
	VesselHole   = 50.0
	VesselVolume = 0.5e9
)

// Holes returns the holes of a hollow by its outside diameter and its volume.
//
// A tube has a vent and a drain, one at each end, opposite each other: the greater of the
// table and the quarter. A ball has a vent and a drain of a vessel. A quarter of a ball under
// 200 mm is less than a vessel's 50 mm and is taken in its place, which no manual says of
// balls (derived).
func (h Hollow) Holes(outside, volume float64) (Dip, error) {
	if err := domain.Check(domain.Length("diameter", outside), domain.Value{Name: "volume", X: volume, Least: 1e-3, Most: 1e18}); err != nil {
		return Dip{}, fmt.Errorf("holes for dipping: %w", err)
	}
	d := Dip{ByQuarter: VentByQuarter(outside)}
	switch h {
	case TubeEnd:
		d.ByTable = VentByTable(outside)
		d.Vents, d.Drains, d.Diameter = 1, 1, max(d.ByTable, d.ByQuarter)
		d.Source = "hollow sections handbook; a quarter of the section, galvanisers' manuals (as ISO 14713-2, from memory)"
	case Ball:
		d.ByVessel = VesselHole
		n := int(min(1e6, max(1, math.Ceil(volume/VesselVolume))))
		d.Vents, d.Drains, d.Diameter = n, n, min(d.ByVessel, d.ByQuarter)
		d.Source = "vessels, galvanisers' manuals (as ISO 14713-2, from memory)"
	default:
		return Dip{}, fmt.Errorf("holes for dipping: hollow %d is not known", h)
	}
	return d, nil
}

// Split returns the diameter of each of n holes that have the area of one.
func Split(diameter float64, n int) float64 {
	return diameter / math.Sqrt(float64(max(1, n)))
}
