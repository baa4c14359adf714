package frame

import (
	"math"

	"stabile/param/design"
)

// A Section is the section of a tube, in mm and its powers.
type Section struct {
	Diameter, Thickness float64 // mm, outside, and of the wall
	Area                float64 // mm2
	Inertia             float64 // mm4, second moment about a diameter
	Torsion             float64 // mm4, twice Inertia
	Elastic             float64 // mm3, Inertia over the outside radius
	Plastic             float64 // mm3
}

// Tube returns the section of a tube of the given outside diameter and wall in
// mm; its values are those of the ring, not of a thin line.
func Tube(diameter, thickness float64) Section {
	d, b := diameter, max(0, diameter-2*thickness)
	i := math.Pi / 64 * (d*d*d*d - b*b*b*b)
	return Section{
		Diameter: d, Thickness: thickness,
		Area: math.Pi / 4 * (d*d - b*b), Inertia: i, Torsion: 2 * i,
		Elastic: 2 * i / d, Plastic: (d*d*d - b*b*b) / 6,
	}
}

// SectionAt returns the section of a post at a length in mm along its axis from the foot.
// At a point, which is built up with weld, it is that of a rod as thick as two walls.
func SectionAt(p *design.Part, along float64) Section {
	t := p.Metal.Thickness
	return Tube(max(p.Post.DiameterAt(along), 2*t), t)
}

// Gyration returns the radius of gyration in mm.
func (s Section) Gyration() float64 { return math.Sqrt(s.Inertia / s.Area) }

// Slenderness returns the diameter over the wall.
func (s Section) Slenderness() float64 { return s.Diameter / s.Thickness }

const (
	// poisson is Poisson's ratio, of steel; that of aluminium and copper alloys
	// is 0.33 to 0.34, which changes the shear modulus by 3 %.
	poisson = 0.3

	// shearShare is the share of a thin tube's area that carries shear: Cowper
	// (1966), 2 (1 + v) / (4 + 3 v).
	shearShare = 2 * (1 + poisson) / (4 + 3*poisson)
)
