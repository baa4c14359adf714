package rolling

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"stabile/param/design"
)

// A Machine is the rolls as geometry. Two rolls one above the other pinch the
// sheet; the back roll, behind them and below the sheet, lifts and turns it up
// around the upper one. Zero is where it just touches the flat sheet.
//
// The sheet leaves the pinch level. The back roll can push only square to the
// sheet (friction left out), with the force F where it touches. At a distance x
// before that, measured along the tangent there, the moment is F x: greatest in
// the pinch, where x = d. There alone the sheet yields, at the curvature k;
// behind it springs back elastically in step with the moment, to k' where the
// back roll touches:
//
//	curvature(x) = k' + (k - k') x/d .
//
// The slope p against the tangent at the back roll grows by the curvature along
// the arc, and dx is cos p of the arc, so that
//
//	sin p(x) = k' x + (k - k') x^2 / 2d ,
//	sin P = d (k + k') / 2   in the pinch,
//
// and the sheet's middle line lies off that tangent by Y = integral of tan p dx
// at the pinch. With q = back roll's radius + t/2 the centre of the back roll,
// seen from the middle of the sheet in the pinch, is at
//
//	level    d cos P + (Y + q) sin P ,
//	upright  d sin P - (Y + q) cos P   (-q at zero),
//
// and d is such that this lies on the way of the back roll, which leans by Slant
// toward the pinch. An arc held at one radius R is the case k = k': there the
// lift is r - sqrt(r^2 - c^2) with r = R + q, the common rule of geometry, which
// lifts too far if R is the radius in the pinch and not far enough if it is the
// one wanted.
type Machine struct {
	Pinch    float64 // mm, radius of the pinch rolls
	Back     float64 // mm, radius of the back roll
	Distance float64 // mm, level, from the pinch to the back roll's centre at zero
	Slant    float64 // rad from upright, toward the pinch, of the back roll's way
}

// MachineOf returns the geometry of a shop's rolls, and reports whether the shop
// gave all of it. A back roll of no given size is taken to be like the others.
func MachineOf(r *design.Rolls) (Machine, bool) {
	if r == nil {
		return Machine{}, false
	}
	m := Machine{Pinch: r.PinchDiameter / 2, Back: r.BackDiameter / 2, Distance: r.BackDistance, Slant: r.Slant}
	if m.Back == 0 {
		m.Back = m.Pinch
	}
	return m, positive(m.Pinch, m.Back, m.Distance) && m.Slant >= 0 && m.Slant <= mostSlant
}

const (
	// mostSlant is the slant, in rad, up to which a way still lifts more than it
	// draws near.
	mostSlant = math.Pi / 4

	// steepest is the sine of the steepest angle, 74 degrees, by which the sheet
	// is taken to turn between pinch and back roll. Near a right angle the back
	// roll would stand beside the sheet.
	steepest = 0.96

	// settled is the error in mm to which a setting is solved: far under what any
	// screw can be set to.
	settled = 1e-9
)

// errReach says that the rolls cannot hold sheet so tight.
var errReach = errors.New("the back roll cannot reach so far round")

// errWrap says that the sheet would have to be tighter than the upper roll.
var errWrap = errors.New("the sheet would lie tighter than the roll that it is bent around")

// Meet reports whether the back roll can touch a flat sheet without meeting the
// lower pinch roll; if not, the measurements of the rolls do not go together.
func (m Machine) Meet() bool {
	return math.Hypot(m.Distance, m.Back-m.Pinch) >= m.Back+m.Pinch
}

// A Setting is how the back roll stands for one radius, and what that takes.
type Setting struct {
	Released float64 // 1/mm, curvature that is left
	Loaded   float64 // 1/mm, curvature in the pinch
	Lift     float64 // mm upright from zero
	Travel   float64 // mm from zero along the way of the back roll
	Turn     float64 // rad, of the sheet from the pinch to the back roll
	Lead     float64 // mm of sheet from the pinch to the back roll: what is left flat at the end that goes in first
	Force    float64 // N per mm of width, of the back roll on the sheet
	Torque   float64 // N mm per mm of width, to turn the pinch rolls for sheet that goes in flat, friction left out
}

// Set returns the setting after which a strip is left with the given curvature;
// 0 is the setting that the sheet just springs back from. It fails where the
// sheet would be tighter than the pinch roll, or the back roll cannot reach.
func (m Machine) Set(s Strip, released float64) (Setting, error) {
	loaded := s.Loaded(released)
	if !s.sound() || !positive(loaded) || released < 0 {
		return Setting{}, errReach
	}
	if loaded*(m.Pinch+s.Thickness/2) > 1 {
		return Setting{}, errWrap
	}
	b := bend{loaded: loaded, released: released, roll: m.Back + s.Thickness/2}
	tan := math.Tan(m.Slant)
	off := func(d float64) float64 {
		level, upright := b.centre(d)
		return level + tan*upright - m.Distance
	}
	// The level distance of an arc of the mean curvature is near the root.
	mean := (loaded + released) / 2
	most := steepest / mean
	if !(off(most) >= 0) {
		return Setting{}, errReach
	}
	d := root(off, 0, most, m.Distance/(1+b.roll*mean))
	_, lift := b.centre(d)
	moment := s.Moment(loaded)
	// The work of a mm of sheet is what bending took less what springs back.
	work := s.plasticWork(loaded)
	return Setting{
		Released: released, Loaded: loaded,
		Lift: lift, Travel: lift / math.Cos(m.Slant),
		Turn:   math.Asin(d * mean),
		Lead:   b.arc(d),
		Force:  moment / d,
		Torque: work * m.Pinch,
	}, nil
}

// At returns the setting of a strip at the given travel of the back roll, near to
// the one given. Where the strip springs back flat from it, Released is 0.
func (m Machine) At(s Strip, travel float64, near Setting) (Setting, error) {
	flat, err := m.Set(s, 0)
	if err != nil || travel <= flat.Travel {
		flat.Travel, flat.Lift = travel, travel*math.Cos(m.Slant)
		return flat, err
	}
	// Travel grows with curvature: secants from the setting nearby.
	a, b := flat, near
	if b.Released <= 0 {
		return Setting{}, errReach
	}
	for range 40 {
		rise := b.Travel - a.Travel
		if math.Abs(b.Travel-travel) < settled || rise == 0 {
			break
		}
		next := b.Released + (travel-b.Travel)/rise*(b.Released-a.Released)
		got, err := m.Set(s, max(next, b.Released/2))
		if err != nil {
			return Setting{}, err
		}
		a, b = b, got
	}
	return b, nil
}

// plasticWork returns the work in N mm per mm2 of sheet that bending it from
// flat to the given curvature and letting it spring back takes: the integral of
// Moment less what comes back.
func (s Strip) plasticWork(loaded float64) float64 {
	k0, m := s.elastic(), s.PlasticMoment()
	if loaded <= k0 {
		return 0
	}
	last := s.Moment(loaded)
	bent := m*k0/3 + m*((loaded-k0)+k0*k0/3*(1/loaded-1/k0)) // elastic part, 2/3 m k0 / 2, and the rest
	return bent - last*last/(2*s.stiffness())
}

// A bend is the sheet between the pinch and the back roll.
type bend struct {
	loaded, released float64 // 1/mm, in the pinch and at the back roll
	roll             float64 // mm, from the back roll's centre to the middle of the sheet
}

// The points and weights of the Gauss-Legendre rule on [0, 1]. With sin p up to
// steepest, 16 points err by less than 1e-9 of the length.
var gaussAt, gaussWeight = gauss()

func gauss() (at, weight [16]float64) {
	quad.Legendre{}.FixedLocations(at[:], weight[:], 0, 1)
	return at, weight
}

// sine returns the sine of the sheet's slope at the share u of the distance d
// before the back roll.
func (b bend) sine(d, u float64) float64 {
	return d * u * (b.released + (b.loaded-b.released)*u/2)
}

// centre returns where the back roll's centre is for a distance d between the
// pinch and the back roll's line of push: level from the pinch, and above zero.
func (b bend) centre(d float64) (level, lift float64) {
	off := 0.0
	for i, u := range gaussAt {
		sin := b.sine(d, u)
		off += gaussWeight[i] * sin / math.Sqrt(1-sin*sin)
	}
	off = off*d + b.roll
	sin := b.sine(d, 1)
	cos := math.Sqrt(1 - sin*sin)
	// roll (1 - cos), without cancelling.
	return d*cos + off*sin, d*sin - (off-b.roll)*cos + b.roll*sin*sin/(1+cos)
}

// arc returns the length of sheet between the pinch and the back roll.
func (b bend) arc(d float64) float64 {
	sum := 0.0
	for i, u := range gaussAt {
		sin := b.sine(d, u)
		sum += gaussWeight[i] / math.Sqrt(1-sin*sin)
	}
	return sum * d
}

// root returns where the growing function f is nought between low and high, from
// a first guess: secants, and halving where they would lead outside.
func root(f func(float64) float64, low, high, guess float64) float64 {
	x, last, before := guess, math.NaN(), math.NaN()
	for range 100 {
		if !(x > low && x < high) {
			x = (low + high) / 2
		}
		y := f(x)
		if math.Abs(y) < settled {
			return x
		}
		if y > 0 {
			high = x
		} else {
			low = x
		}
		next := (low + high) / 2
		if !math.IsNaN(last) && y != before {
			next = x - y*(x-last)/(y-before)
		}
		last, before = x, y
		if next == x {
			return x
		}
		x = next
	}
	return x
}
