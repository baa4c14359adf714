package wind

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// IceDensity is the least density in kg/m3 that ASCE 7 10.4.1 lets ice be taken with
// (56 lb/ft3).
const IceDensity = 900

// An Ice is ice from freezing rain by ASCE 7 chapter 10.
type Ice struct {
	Nominal    float64 // mm, of the map, at 33 ft
	Importance float64 // I_i on the thickness, by risk category (IceImportance)
	Hill       float64 // K_zt; 0 is 1
}

// IceImportance returns I_i by risk category 1 to 4: 0.80, 1.00, 1.25 and 1.25, ASCE 7
// Table 1.5-2 (from memory; some editions have 1.15 in III).
func IceImportance(category int) (float64, error) {
	if category < 1 || category > 4 {
		return 0, fmt.Errorf("risk category %d is not known; there are 1 to 4", category)
	}
	return [...]float64{0.80, 1.00, 1.25, 1.25}[category-1], nil
}

// Thickness returns the design thickness in mm at a height in mm: t_d = t I_i f_z
// K_zt^0.35 with f_z = (z / 33 ft)^0.10, at most 1.4, ASCE 7 (10.4-4) and (10.4-5), from
// memory.
func (i Ice) Thickness(height float64) (float64, error) {
	hill := i.Hill
	if hill == 0 {
		hill = 1
	}
	if err := domain.Check(domain.Value{Name: "ice", X: i.Nominal, Most: 1e3}, domain.Value{Name: "importance", X: i.Importance, Least: 0.1, Most: 10},
		domain.Value{Name: "hill factor", X: hill, Least: 1, Most: 100}, domain.Distance("height", height)); err != nil {
		return 0, fmt.Errorf("ice: %w", err)
	}
	rise := min(1.4, math.Pow(height/(33*foot), 0.10))
	return i.Nominal * i.Importance * rise * math.Pow(hill, 0.35), nil
}

// IceOnTube returns the ice of the given thickness on a tube of an outside diameter, in
// mm: its mass in kg/m, A_i = pi t_d (D + t_d), ASCE 7 (10.4-1), from memory, and the
// width in mm that the wind meets. Negative lengths count as 0.
func IceOnTube(diameter, thickness float64) (mass, width float64) {
	d, t := max(0, diameter), max(0, thickness)
	return math.Pi * t * (d + t) * IceDensity * 1e-6, d + 2*t
}

// IceOnBall returns the mass in kg of the ice of the given thickness all round a ball
// of an outside radius, in mm, and the width that the wind meets. ASCE 7 (10.4-2) has pi
// t_d times the projected area pi R2 (from memory); a full shell is half as heavy again
// or more, and is taken here. Negative lengths count as 0.
func IceOnBall(radius, thickness float64) (mass, width float64) {
	r, t := max(0, radius), max(0, thickness)
	shell := 4 * math.Pi / 3 * t * (3*r*r + 3*r*t + t*t)
	return shell * IceDensity * 1e-9, 2 * (r + t)
}
