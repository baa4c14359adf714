// Package wind works out the wind on a sculpture by two published methods: ASCE
// 7 and EN 1991-1-4. Each part that the wind meets has its projected area, the
// velocity pressure at its height and a force coefficient; no part shelters
// another. Lengths are in mm, areas in mm2, forces in N, moments in N mm,
// pressures in Pa, speeds in m/s, angles in rad.
//
// The standards give coefficients for chimneys, cylinders and spheres that
// stand by themselves. Where they do not cover a part of a sculpture,
// Wind.Assumptions has what is assumed instead. Values marked "not confirmed" in a
// source are from secondary texts; the standard itself decides.
package wind

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/calculation"
	"stabile/fab/solid"
	"stabile/param/design"
)

// An Edition is a published standard.
type Edition string

// The editions.
const (
	ASCE716 Edition = "ASCE 7-16"
	ASCE722 Edition = "ASCE 7-22"
	EN2005  Edition = "EN 1991-1-4:2005"
)

// Step is the angle between the bearings from which the wind is tried.
const Step = 5 * math.Pi / 180

// mostBearings bounds how many bearings are tried: a tenth of a degree apart.
const mostBearings = 3600

// Options changes how the wind is worked out. The zero value is what a design
// gets.
type Options struct {
	// Edition of ASCE 7; "" is ASCE716. Of EN 1991-1-4 there is one.
	Edition Edition
	// Step between bearings in rad; 0 is Step. It must divide half a turn.
	Step float64
	// Gust is the gust factor, G or c_s c_d; 0 is that of a stiff structure.
	Gust float64
	// Free leaves out the least design force of a standard.
	Free bool
}

// A Wind is the wind on the whole.
type Wind struct {
	Method   design.WindMethod
	Edition  Edition
	Speed    float64    // m/s, as given: of 3 s gusts (ASCE 7) or the mean of 10 min (EN 1991-1-4)
	Ground   string     // exposure or terrain category
	Gust     float64    // the gust factor G, or c_s c_d
	Heights  []Pressure // at each reference height in use, lowest first
	Items    []Item     // each part that the wind meets, in source order
	Bearings []Bearing  // evenly spaced, from 0
	Worst    int        // the bearing of the greatest moment about the ground, or about the plate on a wall

	// Least is the least pressure in Pa, on the whole projected area, for which
	// the standard lets a structure be designed; 0 where it sets none.
	Least float64

	// Swayed is where Gust comes from, where the frequency is known; else nil.
	Swayed *Swayed

	by    method
	hilly bool         // the site gives by how much a hill raises the wind
	wall  *design.Base // that holds the piece to a wall; nil for none
}

// Lines returns the terms of the method and the coefficients in use.
func (w *Wind) Lines() []calculation.Line {
	list := w.by.lines()
	if w.Swayed != nil {
		for i := range list {
			if list[i].Name == calculation.Term(TermGust) || list[i].Name == calculation.Term(TermStructural) {
				list[i].Value, list[i].Source = w.Gust, w.Swayed.Source()
			}
		}
		list = append(list, w.Swayed.Lines()...)
	}
	return append(list, coefficientLines(w.Items)...)
}

// Assumptions returns what is assumed where the method does not cover the piece,
// and what is assumed besides.
func (w *Wind) Assumptions() []calculation.Assumption {
	list := append(w.by.assumptions(w), NoShelter, AlongWind)
	if !w.hilly {
		list = append(list, LevelSite)
	}
	if w.wall != nil {
		list = append(list, BesideWall)
	}
	return append(list, StiffClear)
}

// A Pressure is the velocity pressure at a height.
type Pressure struct {
	Height   float64 // mm above the ground
	Exposure float64 // K_z of ASCE 7; 0 for EN 1991-1-4
	// Roughness, Turbulence and Mean are c_r, I_v and v_m of EN 1991-1-4, the
	// last in m/s; 0 for ASCE 7.
	Roughness, Turbulence, Mean float64
	Pressure                    float64 // Pa, q_z or q_p
}

// Speed returns the speed in m/s that goes with the pressure in air of the given
// density in kg/m3.
func (p Pressure) Speed(density float64) float64 { return math.Sqrt(2 * p.Pressure / density) }

// A Bearing is the wind from one bearing. The forces on the items are in the
// order of Wind.Items; all are along the wind, but for Lift, which is up.
type Bearing struct {
	From      float64   // rad
	Direction r3.Vec    // unit vector along the wind
	Side      []float64 // N, on an item's body: a post's side, a ball, a plate's edge
	Cap       []float64 // N, on the closed free head of a post
	Area      float64   // mm2, projected, of all items
	Force     r3.Vec    // N, of all items; Z is lift
	Moment    r3.Vec    // N mm, about the middle of the base at the ground
	Center    float64   // mm, height of the resultant along the wind

	// Scale is what the forces must be multiplied by to reach the least design
	// force of the standard; 1 where they are above it.
	Scale float64
}

// About returns the moment in N mm, of the forces as they stand, that tips over
// the level line at ground level from one point to another: positive where it
// tips to the right of the way from the first to the second, which is outward
// for a side of a footprint that is listed counter-clockwise.
func (b Bearing) About(from, to r3.Vec) float64 {
	way := r3.Unit(r3.Sub(to, from))
	moment := r3.Sub(b.Moment, r3.Cross(from, b.Force))
	return r3.Dot(moment, way)
}

// Greatest returns the greatest level force in N on the whole from any bearing,
// brought up to the least design force where the standard sets one.
func (w *Wind) Greatest() float64 {
	most := 0.0
	for _, b := range w.Bearings {
		most = max(most, b.Scale*math.Hypot(b.Force.X, b.Force.Y))
	}
	return most
}

// On works out the wind on a design, of whose parts it takes the bodies. It is nil, without an error, for a design
// whose site has no wind; an unknown method, exposure or terrain is an error.
func On(d *design.Design, bodies []*solid.Body, opt Options) (*Wind, error) {
	if d.Site == nil || !(d.Site.Wind > 0) {
		return nil, nil
	}
	m, err := newMethod(d.Site, opt)
	if err != nil {
		return nil, fmt.Errorf("wind: %w", err)
	}
	w := &Wind{
		Method: d.Site.Method, Edition: m.edition(), Speed: d.Site.Wind, Ground: m.ground(),
		Gust: m.gust(), Least: m.least(), by: m, hilly: d.Site.Hill > 0, wall: d.Wall(),
	}
	if opt.Gust > 0 {
		w.Gust = opt.Gust
	}
	if opt.Free {
		w.Least = 0
	}
	w.Items = make([]Item, 0, len(d.Parts))
	for i, p := range d.Parts {
		it := Item{Part: p, body: bodies[i], Height: bodies[i].Middle().Z, wall: w.wall != nil}
		m.load(&it, d.Finish)
		it.Gust = w.Gust
		w.Items = append(w.Items, it)
	}
	step := opt.Step
	if step == 0 {
		step = Step
	}
	n := int(math.Round(2 * math.Pi / step))
	if n < 2 || n%2 != 0 || n > mostBearings {
		return nil, fmt.Errorf("wind: a step of %v rad does not divide half a turn", step)
	}
	w.turn(n)
	w.Heights = heights(m, w.Items)
	return w, nil
}

// hillSource is where a topographic factor is from.
func hillSource(hill float64, clause string) string {
	if hill > 1 {
		return "given; " + clause
	}
	return "assumed; " + clause
}

// A method is a published way to find the wind's force.
type method interface {
	edition() Edition
	ground() string
	gust() float64
	least() float64
	pressure(height float64) Pressure
	// load gives an item its reference height, pressure and coefficients.
	load(it *Item, finish *design.Finish)
	lines() []calculation.Line
	assumptions(w *Wind) []calculation.Assumption
}

func newMethod(site *design.Site, opt Options) (method, error) {
	switch site.Method {
	case design.ASCE7:
		e := opt.Edition
		if e == "" {
			e = ASCE716
		}
		a, err := newASCE(e, site.Exposure, site.Wind)
		if err != nil {
			return nil, err
		}
		a.hill, a.risk = max(1, site.Hill), site.Risk
		return a, nil
	case design.EN1991:
		e, err := newEurocode(site.Terrain, site.Wind)
		if err != nil {
			return nil, err
		}
		e.hill, e.risk = max(1, site.Hill), consequence(site.Risk)
		return e, nil
	}
	return nil, fmt.Errorf("method %q is not known; there are asce7 and en1991", string(site.Method))
}
