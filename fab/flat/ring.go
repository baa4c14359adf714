package flat

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/shop"
	"stabile/param/design"
)

// mostZones is the largest number of zones that a ball is made of.
const mostZones = 48

// ringSeam returns the angle about the pole, in rad from the ball's prime
// direction, where the seam of a ring lies: away from the viewer for a ball that
// stands upright, and off those of its neighbours.
func ringSeam(k int) float64 { return design.RingSeam * float64(1+k%2) }

// A frustum is a ring of a ball of zones, at the middle of its sheet: a cone's
// side between two edges, or a cylinder's.
type frustum struct {
	lower, upper float64 // mm, radii of the edges, the lower being that away from the pole that Pole points to
	slant        float64 // mm, from edge to edge
}

// wall returns the ring as a tube that stands on its lower edge.
func (f frustum) wall() tube {
	t := tube{mean: f.lower, lie: f.lower, length: f.slant, turn: 2 * math.Pi, cos: 1}
	if rise := (f.upper - f.lower) / f.slant; math.Abs(rise) > cylindrical {
		t.flare = math.Asin(rise)
		t.sin, t.cos = math.Sincos(t.flare)
	}
	return t
}

// cylindrical is the slope under which a ring is a cylinder: what is left of
// rounding at the equator.
const cylindrical = 1e-9

// area returns the area of the ring.
func (f frustum) area() float64 { return math.Pi * (f.lower + f.upper) * f.slant }

// ring returns ring k of a ball of n zones that touches the sphere of the given
// radius, counted from the lower pole. In a plane through the poles the rings
// are sides of the regular polygon about the circle whose sides take up pi /
// (n + 1) of latitude each, so that a disc is left at each pole.
//
// Half is half of its slant: see reach.
func ring(k, n int, radius, half float64) frustum {
	step := math.Pi / float64(n+1)
	sin, cos := math.Sincos(float64(k+1)*step - math.Pi/2)
	return frustum{lower: radius*cos + half*sin, upper: radius*cos - half*sin, slant: 2 * half}
}

// reach returns half of the slant of a ball's rings. They are cut as wide as they are at
// the inside: cut square, the edges of two meet there; at the middle of the sheet they
// would run into each other within, by the thickness times sin(step / 2). Half of what a
// seam shrinks is added at either edge, and half of its root gap taken off.
func (d *developer) reach() float64 { return d.discReach() + d.shrink/2 }

// frustum returns ring k of the ball, from the lowest, as it is cut.
func (d *developer) frustum(k int) frustum {
	if d.part.Ball.IsEgg() {
		f, _ := d.eggRing(k)
		return f
	}
	return ring(k, d.part.Ball.Zones, d.part.Ball.Radius-d.part.Metal.Thickness/2, d.reach())
}

// narrowestRing returns the slant of the narrowest ring of the ball.
func (d *developer) narrowestRing() float64 {
	least := d.frustum(0).slant
	for k := range d.part.Ball.Zones {
		least = min(least, d.frustum(k).slant)
	}
	return least
}

// discReach returns the radius of the discs at the poles of a ball of zones, to which
// nothing is added.
func (d *developer) discReach() float64 {
	b := d.part.Ball
	if b.IsEgg() {
		radius, _ := b.RingCorner(0, d.meet())
		return radius - b.Gap/2
	}
	meet := b.Radius - d.part.Metal.Thickness
	if b.EdgeMid {
		meet = b.Radius - d.part.Metal.Thickness/2
	}
	return meet*math.Tan(b.ZoneStep()/2) - b.Gap/2
}

// around returns a ring as a tube, its seam with its root gap, and the angle that it takes
// up on the flat before the gap is taken off, if it is cut in a number of pieces. What the
// seam shrinks is added half way up.
func (d *developer) around(f frustum, count int) (t tube, angle float64) {
	t = f.wall()
	t.gap = d.part.Ball.Gap
	return t, 2*math.Pi/float64(count) + d.shrink/((f.lower+f.upper)/2)
}

// zones develops a ball of zones with its two discs.
func (d *developer) zones() {
	b := d.part.Ball
	n := b.Zones
	if n < 1 || n > mostZones {
		d.fail("zones", fmt.Sprintf("take 5 to 12; the most is %d", mostZones), "cannot be made of %d zones", n)
		return
	}
	if slant, narrow := d.narrowestRing(), shop.Narrowest(b.Narrow); slant <= narrow {
		d.fail("zones", "take fewer zones or a larger ball",
			"has zones %s wide, narrower than the %s that can be welded", d.length(slant), d.length(narrow))
		return
	}
	for k := (n - 1) / 2; k >= 0; k-- {
		// The rings above and below the equator are alike, turned over.
		d.ring(n-1-k, k)
	}
	c := disc(d.part.Name+" pole", 2*d.discReach(), 0)
	c.Quantity = 2
	c.Forming = Forming{How: "flat"}
	d.add(c)
	if b.Gap > 0 || d.shrink > 0 {
		d.balance() // seams are not all round
	}
}

// ringPieces returns the number of pieces that a ring is cut in so that they
// fit the sheet.
func (d *developer) ringPieces(f frustum) int {
	if len(d.sheets) == 0 {
		return 1
	}
	for _, n := range pieces() {
		low, high := bounds(ringOutline(d.around(f, n)))
		if d.fits(d.part.Metal, high.X-low.X, high.Y-low.Y) {
			return n
		}
	}
	return 1
}

// ringOutline returns the outline of the first angle of a ring, less the gap of its seam.
func ringOutline(t tube, angle float64) []r2.Vec {
	n := max(1, math.Ceil(angle*math.Sqrt(max(t.girth(0), t.girth(t.length))*math.Abs(t.sin)/(8*smooth))))
	outline := make([]r2.Vec, 0, 2*int(n)+2)
	low, high := t.edgeAt(angle, 0, t.gap), t.edgeAt(angle, t.length, t.gap)
	for k := range int(n) + 1 {
		outline = append(outline, t.lay(low*float64(k)/n, 0, angle/2))
	}
	for k := n; k >= 0; k-- {
		outline = append(outline, t.lay(high*k/n, t.length, angle/2))
	}
	return outline
}

// ring adds the blank of a ring and of its like below the equator, which is the
// same at the middle of an odd number.
func (d *developer) ring(k, mirror int) {
	f := d.frustum(k)
	count := d.ringPieces(f)
	t, angle := d.around(f, count)
	b := Blank{
		Name: fmt.Sprintf("%s zone %d", d.part.Name, k+1), Label: d.part.Name + " zone", Shape: Tube, Quantity: count,
		Outline: ringOutline(t, angle),
		Area:    f.area()/float64(count) + (d.shrink-t.gap)*f.slant,
	}
	if k != mirror {
		b.Name = fmt.Sprintf("%s zone %d or %d", d.part.Name, mirror+1, k+1)
		b.Quantity = 2 * count
	}
	if t.flare == 0 {
		b.Width, b.Length = t.mean*angle-t.gap, f.slant
		b.Forming = Forming{How: "roll", Axis: "y", MeanRadius: t.mean}
	} else {
		t.fan(&b, 0, angle, 0, t.length)
		b.Notes = append(b.Notes, b.Fan.note(), ConeRing{f.lower, f.upper})
		if t.gap > 0 {
			b.Notes = append(b.Notes, GapOff{t.gap})
		}
	}
	if d.shrink > 0 {
		b.Notes = append(b.Notes, Shrinks{d.shrink, d.shrink})
	}
	if t.gap > 0 {
		b.Notes = append(b.Notes, SeamGaps{t.gap})
	}
	b.Notes = append(b.Notes, groove(d.part, d.part.Ball.RingTurn()/2))
	if count > 1 {
		b.Notes = append(b.Notes, RingPieces{count})
	}
	b.Marks = []Mark{{
		Kind: CentreLine, From: t.lay(angle/2, 0, angle/2), To: t.lay(angle/2, t.length, angle/2),
		FromSeam: angle / 2,
	}}
	d.add(b)
}
