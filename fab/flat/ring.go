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
// It is cut as wide as it is at another radius, meet: cut square, the edges of two meet
// there. At the middle of the sheet they would run into each other within, by the
// thickness times sin(step / 2).
func ring(k, n int, radius, meet float64) frustum {
	step := math.Pi / float64(n+1)
	sin, cos := math.Sincos(float64(k+1)*step - math.Pi/2)
	half := meet * math.Tan(step/2)
	return frustum{lower: radius*cos + half*sin, upper: radius*cos - half*sin, slant: 2 * half}
}

// meet returns the radius at which the edges of a ball's rings meet: that of its inside,
// or of the middle of its sheet.
func (d *developer) meet() float64 {
	if t := d.part.Metal.Thickness; !d.part.Ball.EdgeMid {
		return d.part.Ball.Radius - t
	}
	return d.part.Ball.Radius - d.part.Metal.Thickness/2
}

// zones develops a ball of zones with its two discs.
func (d *developer) zones() {
	b := d.part.Ball
	mean := b.Radius - d.part.Metal.Thickness/2
	n := b.Zones
	if n < 1 || n > mostZones {
		d.fail("zones", fmt.Sprintf("take 5 to 12; the most is %d", mostZones), "cannot be made of %d zones", n)
		return
	}
	if slant, narrow := ring(0, n, mean, d.meet()).slant, shop.Narrowest(b.Narrow); slant <= narrow {
		d.fail("zones", "take fewer zones or a larger ball",
			"has zones %s wide, narrower than the %s that can be welded", d.length(slant), d.length(narrow))
		return
	}
	for k := (n - 1) / 2; k >= 0; k-- {
		// The rings above and below the equator are alike, turned over.
		d.ring(n-1-k, k, n, mean)
	}
	edge := d.meet() * math.Tan(math.Pi/float64(n+1)/2)
	c := disc(d.part.Name+" pole", 2*edge, 0)
	c.Quantity = 2
	c.Forming = Forming{How: "flat"}
	d.add(c)
}

// ringPieces returns the number of pieces that a ring is cut in so that they
// fit the sheet.
func (d *developer) ringPieces(f frustum) int {
	if len(d.sheets) == 0 {
		return 1
	}
	for _, n := range pieces() {
		low, high := bounds(ringOutline(f.wall(), 2*math.Pi/float64(n)))
		if d.fits(d.part.Metal, high.X-low.X, high.Y-low.Y) {
			return n
		}
	}
	return 1
}

// ringOutline returns the outline of the first angle of a ring.
func ringOutline(t tube, angle float64) []r2.Vec {
	n := max(1, math.Ceil(angle*math.Sqrt(max(t.girth(0), t.girth(t.length))*math.Abs(t.sin)/(8*smooth))))
	outline := make([]r2.Vec, 0, 2*int(n)+2)
	for k := range int(n) + 1 {
		outline = append(outline, t.lay(angle*float64(k)/n, 0, angle/2))
	}
	for k := n; k >= 0; k-- {
		outline = append(outline, t.lay(angle*k/n, t.length, angle/2))
	}
	return outline
}

// ring adds the blank of a ring and of its like below the equator, which is the
// same at the middle of an odd number.
func (d *developer) ring(k, mirror, n int, mean float64) {
	f := ring(k, n, mean, d.meet())
	t := f.wall()
	count := d.ringPieces(f)
	angle := 2 * math.Pi / float64(count)
	b := Blank{
		Name: fmt.Sprintf("%s zone %d", d.part.Name, k+1), Label: d.part.Name + " zone", Shape: Tube, Quantity: count,
		Outline: ringOutline(t, angle),
		Area:    f.area() / float64(count),
	}
	if k != mirror {
		b.Name = fmt.Sprintf("%s zone %d or %d", d.part.Name, mirror+1, k+1)
		b.Quantity = 2 * count
	}
	if t.flare == 0 {
		b.Width, b.Length = t.mean*angle, f.slant
		b.Forming = Forming{How: "roll", Axis: "y", MeanRadius: t.mean}
	} else {
		t.fan(&b, 0, angle, 0, t.length)
		b.Notes = append(b.Notes, b.Fan.note(), ConeRing{f.lower, f.upper})
	}
	if count > 1 {
		b.Notes = append(b.Notes, RingPieces{count})
	}
	b.Marks = []Mark{{
		Kind: CentreLine, From: t.lay(angle/2, 0, angle/2), To: t.lay(angle/2, t.length, angle/2),
		FromSeam: angle / 2,
	}}
	d.add(b)
}
