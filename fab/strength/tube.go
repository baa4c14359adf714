package strength

import (
	"math"

	"stabile/fab/frame"
	"stabile/param/design"
)

// omega is the factor of safety of AISC 360 on the strength of members, in
// tension (D2), compression (E1), bending (F1), shear (G1) and twist (H3.1).
const omega = 1.67

// The constants of AISC 360 for round tubes.
const (
	// Table B4.1b case 20 and F8: D/t over E/Fy.
	compactWall  = 0.07
	slenderWall  = 0.31
	thinnestWall = 0.45

	// F8: bending of noncompact and of slender walls.
	noncompactBending = 0.021
	slenderBending    = 0.33

	// E3: the base of the column curve, the share of the elastic stress, and the
	// Fy/Fe above which that applies.
	columnBase    = 0.658
	columnElastic = 0.877
	columnSlender = 2.25

	// E7.2: D/t over E/Fy up to which the whole area counts, and above it.
	wholeArea = 0.11
	areaSlope = 0.038
	areaLeast = 2.0 / 3

	// G5 and H3.1: the critical stresses of shear and twist, for long and short
	// tubes, and the share of the yield that they do not exceed.
	shearLong  = 1.6
	shearShort = 0.78
	twistLong  = 1.23
	twistShort = 0.6
	shearYield = 0.6

	// H1.1 and H3.2: the shares of their limits from which axial force counts in
	// full, and twist at all.
	axialCounts = 0.2
	// bendingShare is what bending counts with from there on, (H1-1a).
	bendingShare = 8.0 / 9
	twistCounts  = 0.2

	// allowableGrowth is alpha of Appendix 8 for allowable stresses.
	allowableGrowth = 1.6
)

// A Class is how a tube's wall stands up to bending, AISC 360 Table B4.1b case
// 20.
type Class string

// The classes of a wall.
const (
	Compact    Class = "compact"
	Noncompact Class = "noncompact"
	Slender    Class = "slender"
	Outside    Class = "outside F8" // thinner than the rule covers
)

// Walls returns the slenderness D/t at which a wall is no longer compact (0.07
// E/Fy), at which it is slender (0.31 E/Fy), and at which the rules end (0.45
// E/Fy): AISC 360 Table B4.1b case 20 and F8.
func Walls(yield, modulus float64) (compact, slender, most float64) {
	e := modulus / yield
	return compactWall * e, slenderWall * e, thinnestWall * e
}

// Bending returns the nominal moment of a tube in N mm and its class, AISC 360
// F8: the plastic moment Fy Z, no more than (0.021 E / (D/t) + Fy) S where the
// wall is noncompact and 0.33 E / (D/t) S where it is slender. Outside the rule
// the last is still returned, as a figure to go by and not a strength.
func Bending(s frame.Section, yield, modulus float64) (moment float64, class Class) {
	compact, slender, most := Walls(yield, modulus)
	ratio := s.Slenderness()
	plastic := yield * s.Plastic
	switch {
	case ratio <= compact:
		return plastic, Compact
	case ratio <= slender:
		return min(plastic, (noncompactBending*modulus/ratio+yield)*s.Elastic), Noncompact
	case ratio < most:
		return min(plastic, slenderBending*modulus/ratio*s.Elastic), Slender
	}
	return min(plastic, slenderBending*modulus/ratio*s.Elastic), Outside
}

// ColumnStress returns the nominal stress of a column whose elastic buckling
// stress is given, AISC 360 E3: 0.658^(Fy/Fe) Fy, or 0.877 Fe where Fy/Fe is
// above 2.25.
func ColumnStress(yield, elastic float64) float64 {
	switch {
	case math.IsInf(elastic, 1):
		return yield
	case !(elastic > 0):
		return 0
	case yield/elastic <= columnSlender:
		return math.Pow(columnBase, yield/elastic) * yield
	}
	return columnElastic * elastic
}

// EffectiveArea returns the area of a tube that carries compression in spite of
// local buckling, AISC 360-16 E7.2: all of it up to D/t of 0.11 E/Fy, then (0.038
// E / (Fy D/t) + 2/3) of it.
func EffectiveArea(s frame.Section, yield, modulus float64) float64 {
	ratio := s.Slenderness()
	if ratio <= wholeArea*modulus/yield {
		return s.Area
	}
	return s.Area * min(1, areaSlope*modulus/(yield*ratio)+areaLeast)
}

// Shear returns the nominal shear of a tube, AISC 360 G5: the critical stress
// times half the area. The stress is the greater of 1.60 E / (sqrt(L/D)
// (D/t)^(5/4)) and 0.78 E / (D/t)^(3/2), and not above 0.6 Fy.
func Shear(s frame.Section, yield, modulus, length float64) float64 {
	ratio := s.Slenderness()
	stress := max(shearLong*modulus/(math.Sqrt(length/s.Diameter)*math.Pow(ratio, 1.25)), shearShort*modulus/math.Pow(ratio, 1.5))
	return min(stress, shearYield*yield) * s.Area / 2
}

// Twist returns the nominal torsioning moment of a tube, AISC 360 H3.1: the
// critical stress times pi (D - t)2 t / 2. The stress is the greater of 1.23 E /
// (sqrt(L/D) (D/t)^(5/4)) and 0.60 E / (D/t)^(3/2), and not above 0.6 Fy.
func Twist(s frame.Section, yield, modulus, length float64) float64 {
	ratio := s.Slenderness()
	stress := max(twistLong*modulus/(math.Sqrt(length/s.Diameter)*math.Pow(ratio, 1.25)), twistShort*modulus/math.Pow(ratio, 1.5))
	d := s.Diameter - s.Thickness
	return min(stress, shearYield*yield) * math.Pi * d * d * s.Thickness / 2
}

// Allowable is what a tube may carry: its nominal strengths over 1.67.
type Allowable struct {
	Class                                       Class
	Tension, Compression, Bending, Shear, Twist float64 // N and N mm
	Column                                      float64 // MPa, the nominal stress F_n behind Compression

	// Of a section at holes: the stress in MPa that the strips between them may carry, and the
	// shares of it that they use for each N of shear and each N mm of twist; else 0.
	Strip, ShearBends, TwistBends float64
}

// allow returns what a section may carry, given its elastic buckling stress and
// the length of its post.
func allow(s frame.Section, yield, modulus, elastic, length float64) Allowable {
	moment, class := Bending(s, yield, modulus)
	column := ColumnStress(yield, elastic)
	return Allowable{
		Class: class, Column: column,
		Tension:     yield * s.Area / omega,
		Compression: column * EffectiveArea(s, yield, modulus) / omega,
		Bending:     moment / omega,
		Shear:       Shear(s, yield, modulus, length) / omega,
		Twist:       Twist(s, yield, modulus, length) / omega,
	}
}

// Ratio returns how much of what it may carry a section carries, AISC 360 H1.1 and,
// where the twist is above a fifth of its own limit, H3.2. Shear and twist alone
// count too. Axial is negative for compression; the rest are not negative.
func (a *Allowable) Ratio(axial, shear, bending, twist float64) float64 {
	p := axial / a.Tension
	if axial < 0 {
		p = -axial / a.Compression
	}
	m, v := bending/a.Bending+shear*a.ShearBends+twist*a.TwistBends, shear/a.Shear+twist/a.Twist
	r := p/2 + m
	if p >= axialCounts {
		r = p + bendingShare*m
	}
	if twist > twistCounts*a.Twist {
		r = max(r, p+m+v*v)
	}
	return max(r, v)
}

// Yield returns the yield stress in MPa by which a part is checked, and whether it
// is that of soft sheet beside a weld. Every tube has a welded seam, beside which
// sheet that is hard by rolling or by heat treatment falls back to that of soft sheet
// (stock.Alloy.Soft), whatever yield it was bought with.
func Yield(m *design.Metal) (stress float64, soft bool) {
	if alloy := m.Is(); alloy.Soft > 0 && alloy.Soft < m.Yield {
		return alloy.Soft, true
	}
	return m.Yield, false
}

// Buckled stands for the growth of bending in a frame that buckles: no figure,
// but one that fails every check.
const Buckled = 1000

// amplification returns what bending grows by because the frame gives way under
// its compressions: AISC 360 Appendix 8, eq. (A-8-6), 1 / (1 - 1.6 / factor), with the
// frame's own buckling factor. It is Buckled where that is more or the frame
// would buckle.
func amplification(factor float64) float64 {
	if factor <= allowableGrowth*Buckled/(Buckled-1) {
		return Buckled
	}
	return 1 / (1 - allowableGrowth/factor)
}
