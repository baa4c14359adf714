package ground

import (
	"fmt"
	"math"

	"stabile/fab/check"
	"stabile/fab/internal/domain"
	"stabile/param/quantity"
)

// ConcreteDensity is that of plain concrete in kg/m3.
const ConcreteDensity = 2400

// A Footing is a block of concrete on the ground, in plan as long as the load tips it and so
// wide across.
type Footing struct {
	Length, Width, Depth float64
}

// Weight returns the footing's own weight in N.
func (f Footing) Weight() float64 {
	return f.Length * f.Width * f.Depth * 1e-9 * ConcreteDensity * quantity.Gravity
}

// A Soil is what a footing stands on: IBC Tables 1806.2, presumed values.
type Soil struct {
	Name       string
	Bearing    float64 // kPa, allowed
	Lateral    float64 // kPa for each metre of depth; 0: none is given
	Friction   float64 // coefficient; 0: Cohesion instead
	FromMemory bool
}

const (
	psf    = 0.04788025898 // kPa
	psfPer = psf / 0.3048  // kPa/m
)

// Soils are those of IBC Table 1806.2: the row of sand is confirmed for the lateral value, the
// rest is from memory. Clay holds by cohesion (130 psf), which stands here as no friction.
var Soils = []Soil{
	{"crystalline bedrock", 12000 * psf, 1200 * psfPer, 0.70, true},
	{"sedimentary rock", 4000 * psf, 400 * psfPer, 0.35, true},
	{"gravel", 3000 * psf, 200 * psfPer, 0.35, true},
	{"sand", 2000 * psf, 150 * psfPer, 0.25, true},
	{"clay", 1500 * psf, 100 * psfPer, 0, true},
}

// The least factors of a footing against tipping and sliding, unfactored: practice for
// retaining walls, IBC 1807.2.3 has 1.5 for both.
const (
	LeastTipping = 2.0
	LeastSliding = 1.5
)

// A Press is how a footing presses on the ground.
type Press struct {
	Weight      float64 // N, with the footing's own
	Moment      float64 // N mm, at its underside
	Off         float64 // mm, e: of the resultant from the middle
	Kern        float64 // mm, up to which all of it presses
	Contact     float64 // mm, the length that presses; 0 where it tips
	Pressure    float64 // kPa, the greatest; 0 where it tips
	Tips        bool    // the resultant is outside: it falls
	Factor      float64 // against tipping: weight x half the length over moment; check.Never without a moment
	Sliding     float64 // use of friction times LeastSliding, 1 the limit
	Bearing     float64 // use of the soil's bearing, 1 the limit; check.Never where it tips
	TippingUse  float64 // LeastTipping over Factor
	Driving     float64 // N, level
	Frictional  float64 // N, that friction holds
	SlidingOpen bool    // the soil has no friction value: not checked
}

// Press returns how the footing presses on the ground, under a weight in N on it, a level force
// in N and a moment in N mm at its top: linear pressure, no tension.
//
//	e <= L/6:  q = W / (L B) (1 + 6 e / L)
//	else:      q = 2 W / (3 B (L/2 - e))
func (f Footing) Press(soil Soil, weight, force, moment float64) (Press, error) {
	if err := domain.Check(domain.Length("length", f.Length), domain.Length("width", f.Width), domain.Length("depth", f.Depth), domain.Weight("weight", weight),
		domain.Force("force", force), domain.Force("moment", moment), domain.Value{Name: "bearing", X: soil.Bearing, Least: 1e-3, Most: 1e6},
		domain.Value{Name: "friction", X: soil.Friction, Most: 10}); err != nil {
		return Press{}, fmt.Errorf("footing: %w", err)
	}
	p := Press{Weight: weight + f.Weight(), Kern: f.Length / 6, Driving: math.Abs(force), Factor: check.Never, SlidingOpen: soil.Friction == 0}
	p.Moment = math.Abs(moment) + p.Driving*f.Depth
	p.Frictional = soil.Friction * p.Weight
	if !p.SlidingOpen {
		p.Sliding = LeastSliding * check.Share(p.Driving, p.Frictional)
	}
	p.Off = p.Moment / p.Weight
	hold := p.Weight * f.Length / 2
	p.TippingUse = LeastTipping * check.Share(p.Moment, hold)
	if p.Moment > hold/check.Never {
		p.Factor = hold / p.Moment
	}
	const mega = 1e3 // kPa in MPa
	switch {
	case p.Off >= f.Length/2*(1-1e-9):
		p.Tips, p.Bearing = true, check.Never
		return p, nil
	case p.Off <= p.Kern:
		p.Contact = f.Length
		p.Pressure = mega * p.Weight / (f.Length * f.Width) * (1 + 6*p.Off/f.Length)
	default:
		p.Contact = 3 * (f.Length/2 - p.Off)
		p.Pressure = mega * 2 * p.Weight / (p.Contact * f.Width)
	}
	p.Bearing = check.Share(p.Pressure, soil.Bearing)
	return p, nil
}
