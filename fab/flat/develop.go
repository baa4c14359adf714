package flat

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/shop"
	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
)

// Developed is what a part comes to when its blanks are worked out.
type Developed struct {
	Body   *solid.Body // of a post, with its trimmed edges
	Blanks []Blank
	Mass   float64 // kg, at nominal thickness
	CG     r3.Vec

	// Rims are a post's trimmed edges at foot and head, on the outside of the
	// tube, each closed without repeating its first point, from the seam on in
	// the direction of growing bearing.
	Rims [2][]r3.Vec

	// Toes are the lines in which the outside of a post meets the ball or the
	// post that its foot and head stand on, closed and in order as Rims are;
	// empty for other ends, and on balls where no marks are wanted.
	Toes [2][]r3.Vec

	// Rounds are where along a post's axis, in mm from its foot, its courses are welded
	// round to each other, from the foot up; nil for a post in one length.
	Rounds []float64

	// Fills are slivers of a ball's pieces that are left out of its blanks, since they
	// are too narrow to be cut and handled: they are filled with weld. Each is as the
	// blank that it would be.
	Fills []Blank

	// Welds are the lengths in mm, at a post's foot and head, of the line in
	// which the outside of the tube meets what the end stands on: the toe of
	// the weld, all round. 0 for a free end.
	Welds [2]float64

	// Openings are where the design's holes come through the walls of the part.
	Openings []Opening

	// Thread is the length in mm of the two lines in which the outside of the
	// post that a ball is threaded on comes out of it; 0 for other parts.
	Thread float64

	// Seam is the length in mm of what is welded within the part: tube seam
	// and head disc; gore seams and cap edges; ring seams and the edges between
	// rings; the equator of two halves.
	Seam float64

	// Seams are those, kind by kind; Seam is their sum.
	Seams []Seam

	// Round is how near a ball comes to the true sphere; nil for other parts.
	Round *Roundness

	Findings []finding.Finding
	Checks   []check.Check // of whether the part comes out as drawn

	walls []wall // of a post, as its blanks have them before those alike are counted together
}

// Develop works out the blanks of a part by itself: of its neighbours it knows
// those that its ends meet. What it reports is a part that cannot be made; then
// Developed has what could be worked out all the same, and is not to be relied
// on. Sizes in its texts read in mm first.
func Develop(p *design.Part) (Developed, source.List) {
	made, wrong := workOut(p, newSetting(quantity.Millimetre, nil))
	gatherCourses(&made)
	return made, wrong
}

// All works out the blanks of every part of a design, in its order, with what
// parts ask of each other: the marks of what stands on a part, and the openings
// for what goes through it. What it reports are parts that cannot be made.
func All(d *design.Design) ([]Developed, source.List) { return settingOf(d, sheetsFor(d)).all(d) }

// Unmarked is All for a design that MarkStanding is not asked for: most variations of a
// design are never drawn.
func Unmarked(d *design.Design) ([]Developed, source.List) {
	s := settingOf(d, sheetsFor(d))
	s.unmarked = true
	return s.all(d)
}

func (s *setting) all(d *design.Design) ([]Developed, source.List) {
	made := make([]Developed, len(d.Parts))
	var wrong source.List
	work := func(i int) {
		var list source.List
		made[i], list = workOut(d.Parts[i], s)
		wrong = append(wrong, list...)
	}
	// Posts come first: the lines in which they meet other parts are marked on
	// those.
	for i, p := range d.Parts {
		if p.Post != nil {
			work(i)
			s.stand(p, &made[i])
		}
	}
	s.seats(d.Joints)
	for i, p := range d.Parts {
		if p.Post == nil {
			work(i)
		}
	}
	for i, p := range d.Parts {
		if p.Post != nil && (len(s.standing[p]) > 0 || len(s.threaded[p]) > 0) {
			markPost(&made[i], p, s)
		}
		gatherCourses(&made[i])
	}
	wrong = append(wrong, roomForHoles(d, made, s)...)
	return made, wrong
}

// sheetsFor returns the sheets that the design is cut from: those of its shop,
// and the usual ones of metals for which that has none. It is nil where no part
// would be split to fit.
func sheetsFor(d *design.Design) []design.Sheet {
	for _, p := range d.Parts {
		if p.Post != nil && p.Post.IsTaper() || p.Ball != nil && p.Ball.Build == design.Zones {
			s, _ := shop.For(d)
			return s.Sheets
		}
	}
	return nil
}

func workOut(p *design.Part, s *setting) (Developed, source.List) {
	d := developer{part: p, setting: s}
	switch {
	case p.Post != nil:
		d.post()
	case p.Ball != nil:
		d.ball()
	case p.Base != nil:
		d.base()
	}
	if len(d.wrong) > 0 {
		return Developed{}, d.wrong
	}
	if d.check(); p.Post != nil {
		d.Body = solid.New(p, d.Rims)
	} else {
		d.Body = s.body(p)
	}
	return d.Developed, nil
}

// A developer gathers what a part comes to.
type developer struct {
	Developed
	*setting
	part   *design.Part
	wrong  source.List
	whole  r3.Vec            // mm3, first moment of the area of a ball about its centre, before it is cut open
	ofCaps []finding.Finding // of a ball's caps, to be reported where some are left
}

// fail reports that the part cannot be made, at the place of one of its
// properties. The text goes on from the part's name.
func (d *developer) fail(property, hint, format string, args ...any) {
	d.wrong.Add(d.part.At(property), hint, "%s '%s' %s", d.part.Kind(), d.part.Name, fmt.Sprintf(format, args...))
}

// finding returns a finding about the part.
func (d *developer) finding(level finding.Level, fact finding.Fact) finding.Finding {
	return finding.Finding{Level: level, Concern: finding.Work, Parts: []string{d.part.Name}, Check: string(check.Making), Fact: fact}
}

// note adds a finding about the part.
func (d *developer) note(level finding.Level, fact finding.Fact) {
	d.Findings = append(d.Findings, d.finding(level, fact))
}

// sheet returns the thickness of the part's metal. It reports and returns false
// where there is none to speak of.
func (d *developer) sheet() (float64, bool) {
	m := d.part.Metal
	switch {
	case m == nil:
		d.fail("metal", "say which metal it is made of: 'metal NAME'", "has no metal")
	case !(m.Thickness > 0) || math.IsInf(m.Thickness, 0):
		d.fail("metal", "give the metal a 'thickness' or a 'gauge'", "is of a metal without thickness")
	case !(m.Density > 0) || math.IsInf(m.Density, 0):
		d.fail("metal", "give the metal a 'density'", "is of a metal without density")
	default:
		return m.Thickness, true
	}
	return 0, false
}

// later notes that a blank cannot be developed yet.
func (d *developer) later(end string) {
	d.note(finding.Caution, NotDeveloped{end})
}

// weigh returns the mass in kg of an area in mm2 of the part's metal.
func (d *developer) weigh(area float64) float64 {
	return area * d.part.Metal.Thickness * d.part.Metal.Density * 1e-9
}

// add adds a blank with its mass.
func (d *developer) add(b Blank) { d.addOf(d.part.Metal, b) }

// addOf adds a blank of a metal with its mass.
func (d *developer) addOf(m *design.Metal, b Blank) {
	b.Part, b.Metal = d.part.Name, m
	if b.Fan != nil {
		b.Fan.Long = b.Fan.ByChords(d.units)
	}
	b.Mass = b.Area * m.Thickness * m.Density * 1e-9
	d.Blanks = append(d.Blanks, b)
	d.Mass += float64(b.Quantity) * b.Mass
}

// largest is the greatest size, in mm, of a part that is accepted as intended: a
// hundred metres.
const largest = 1e5

// bounded reports whether the sizes, which belong to one property, are numbers
// and no larger than anything that would be made of sheet.
func (d *developer) bounded(property string, sizes ...float64) bool {
	for _, x := range sizes {
		if !(math.Abs(x) <= largest) {
			d.fail(property, "", "has a size of %s; the most is %s", d.length(x), d.length(largest))
			return false
		}
	}
	return true
}
