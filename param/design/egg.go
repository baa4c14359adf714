package design

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/spatial/r3"
)

// The limits of an egg: how tall it may be as a share of its diameter. A flatter one bends
// at its equator, and a longer one at its poles, to less than an eighth of its diameter.
const (
	FlattestEgg = 0.5
	LongestEgg  = 2.0
)

// IsEgg reports whether a ball is an egg: an ellipsoid of revolution about its pole.
func (b *Ball) IsEgg() bool { return b.Tall > 0 }

// Polar returns how far in mm the poles of a ball are from its centre, outside.
func (b *Ball) Polar() float64 {
	if b.IsEgg() {
		return b.Tall / 2
	}
	return b.Radius
}

// Profile returns the outside of a ball in a plane through its poles.
func (b *Ball) Profile() Profile { return Profile{Across: b.Radius, Along: b.Polar()} }

// parts returns how much of a vector lies along the pole of a ball, and the rest of it.
func (b *Ball) parts(v r3.Vec) (up float64, level r3.Vec) {
	up = r3.Dot(v, b.Pole)
	return up, r3.Sub(v, r3.Scale(up, b.Pole))
}

// From returns how far in mm the outside of a ball lies from its centre along a unit vector,
// taken as the sphere or the egg that its flats touch.
func (b *Ball) From(way r3.Vec) float64 {
	if !b.IsEgg() {
		return b.Radius
	}
	up := r3.Dot(way, b.Pole)
	return 1 / math.Sqrt((1-up*up)/(b.Radius*b.Radius)+up*up/(b.Polar()*b.Polar()))
}

// Reach returns how far in mm a ball reaches from its centre along a unit vector, taken as
// the sphere or the egg that its flats touch.
func (b *Ball) Reach(way r3.Vec) float64 {
	if !b.IsEgg() {
		return b.Radius
	}
	up := r3.Dot(way, b.Pole)
	return math.Sqrt((1-up*up)*b.Radius*b.Radius + up*up*b.Polar()*b.Polar())
}

// Far returns the point, from the centre in mm, of the sphere or egg that the flats of a ball
// touch that lies farthest along a unit vector.
func (b *Ball) Far(way r3.Vec) r3.Vec {
	if !b.IsEgg() {
		return r3.Scale(b.Radius, way)
	}
	up, level := b.parts(way)
	x := r3.Add(r3.Scale(b.Radius*b.Radius, level), r3.Scale(up*b.Polar()*b.Polar(), b.Pole))
	return r3.Scale(1/b.Reach(way), x)
}

// Bottom returns the lowest point of the sphere or egg that the flats of a ball touch.
func (b *Ball) Bottom() r3.Vec { return r3.Add(b.Center, b.Far(r3.Vec{Z: -1})) }

// Beside returns the least half width in mm of what is seen of a ball along a unit vector:
// a thinner tube along it, toward the centre, meets the ball all round.
func (b *Ball) Beside(way r3.Vec) float64 {
	if !b.IsEgg() {
		return b.Radius
	}
	up := r3.Dot(way, b.Pole)
	return min(b.Radius, math.Sqrt(up*up*b.Radius*b.Radius+(1-up*up)*b.Polar()*b.Polar()))
}

// Leave returns where a line, by a point and a unit vector, leaves the sphere or egg that the
// flats of a ball touch, as a distance in mm from the point. It reports false where it misses.
func (b *Ball) Leave(o, d r3.Vec) (float64, bool) {
	o = r3.Sub(o, b.Center)
	if b.IsEgg() {
		o, d = b.squash(o), b.squash(d)
	}
	square, half := r3.Norm2(d), r3.Dot(o, d)
	disc := half*half - square*(r3.Norm2(o)-b.Radius*b.Radius)
	if disc < 0 {
		return 0, false
	}
	return (math.Sqrt(disc) - half) / square, true
}

// Outline returns how far in mm the outline of a ball, seen along a unit vector, is from its
// centre along another that is square to that.
func (b *Ball) Outline(way, sight r3.Vec) float64 {
	if !b.IsEgg() {
		return b.Radius
	}
	way, sight = b.squash(way), b.squash(sight)
	return b.Radius * r3.Norm(sight) / r3.Norm(r3.Cross(way, sight))
}

// Normal returns the direction square to the sphere or egg that the flats of a ball touch, where
// a line from the centre through a point meets it; not of unit length.
func (b *Ball) Normal(rel r3.Vec) r3.Vec {
	if !b.IsEgg() {
		return rel
	}
	return b.squash(b.squash(rel))
}

// squash takes a vector into the space in which an egg is a sphere of its Radius.
func (b *Ball) squash(v r3.Vec) r3.Vec {
	return r3.Add(v, r3.Scale((b.Radius/b.Polar()-1)*r3.Dot(v, b.Pole), b.Pole))
}

// Chord returns how far in mm from the centre of a ball the plane is, square to its pole if it
// is an egg, that cuts it in a circle of the given diameter.
func (b *Ball) Chord(circle float64) float64 {
	chord := math.Sqrt((b.Radius - circle/2) * (b.Radius + circle/2))
	if b.IsEgg() {
		chord *= b.Polar() / b.Radius
	}
	return chord
}

// Surface returns the area of the outside of a ball, in mm2.
func (b *Ball) Surface() float64 { return 2 * b.Profile().Cap(0, 0) }

// Volume returns what a ball takes up, in mm3.
func (b *Ball) Volume() float64 { return 4 * math.Pi / 3 * b.Radius * b.Radius * b.Polar() }

// Shadow returns the area in mm2 of what is seen of a ball along a unit vector.
func (b *Ball) Shadow(way r3.Vec) float64 {
	if !b.IsEgg() {
		return math.Pi * b.Radius * b.Radius
	}
	up := r3.Dot(way, b.Pole)
	return math.Pi * b.Radius * math.Sqrt(up*up*b.Radius*b.Radius+(1-up*up)*b.Polar()*b.Polar())
}

// A Profile is the ellipse in which a plane through its poles cuts the outside of an egg, by
// its half axes in mm; of a ball the two are alike. A place on it goes by its latitude, in rad:
// how far the line square to it there leans up from the equator's plane. What lies below the
// outside by a depth is square to the same line.
type Profile struct{ Across, Along float64 }

// Round reports whether the profile is a circle.
func (p Profile) Round() bool { return p.Across == p.Along }

// At returns the place at a latitude and a depth: how far it is from the axis, and its height
// from the middle.
func (p Profile) At(latitude, depth float64) (radius, height float64) {
	sin, cos := math.Sincos(latitude)
	if p.Round() {
		return (p.Across - depth) * cos, (p.Across - depth) * sin
	}
	w := p.support(sin, cos)
	return (p.Across*p.Across/w - depth) * cos, (p.Along*p.Along/w - depth) * sin
}

func (p Profile) support(sin, cos float64) float64 { return math.Hypot(p.Across*cos, p.Along*sin) }

// Drawn returns the angle by which the ellipse is drawn to a latitude: its point is Across times
// the cosine from the axis, and Along times the sine up.
func (p Profile) Drawn(latitude float64) float64 {
	if p.Round() {
		return latitude
	}
	sin, cos := math.Sincos(latitude)
	return math.Atan2(p.Along*sin, p.Across*cos)
}

// Bends returns the radii to which the outside is bent at a latitude: along the meridian, and
// square to that.
func (p Profile) Bends(latitude float64) (along, across float64) {
	if p.Round() {
		return p.Across, p.Across
	}
	sin, cos := math.Sincos(latitude)
	w := p.support(sin, cos)
	a, c := p.Across*p.Across, p.Along*p.Along
	return a * c / (w * w * w), a / w
}

// Tightest returns the least radius to which the outside is bent anywhere, and Flattest the
// greatest.
func (p Profile) Tightest() float64 {
	return min(p.Along*p.Along/p.Across, p.Across*p.Across/p.Along, p.Across)
}

// Flattest returns the greatest radius to which the outside is bent anywhere.
func (p Profile) Flattest() float64 {
	return max(p.Along*p.Along/p.Across, p.Across*p.Across/p.Along, p.Across)
}

// Arc returns the length of the meridian, at a depth, from the equator to a latitude:
// that of the ellipse, an elliptic integral of the second kind, less what a curve beside it
// is shorter by, the depth times the angle turned.
func (p Profile) Arc(latitude, depth float64) float64 {
	if p.Round() {
		return (p.Across - depth) * latitude
	}
	turn := p.Drawn(math.Abs(latitude))
	var arc float64
	if q := p.Across / p.Along; q < 1 {
		arc = p.Along * mathext.EllipticE(turn, 1-q*q)
	} else {
		m := 1 - 1/(q*q)
		arc = p.Across * (mathext.EllipticE(math.Pi/2, m) - mathext.EllipticE(math.Pi/2-turn, m))
	}
	return math.Copysign(arc, latitude) - depth*latitude
}

// Latitude returns the latitude to which the meridian, at a depth, has the given length from
// the equator.
func (p Profile) Latitude(arc, depth float64) float64 {
	if p.Round() {
		return arc / (p.Across - depth)
	}
	low, high := 0.0, math.Pi/2
	long, most := math.Abs(arc), p.Arc(high, depth)
	if long >= most { // beyond the pole as on a circle
		bend, _ := p.Bends(high)
		return math.Copysign(high+(long-most)/(bend-depth), arc)
	}
	at := high * long / most
	for range 60 {
		off := p.Arc(at, depth) - long
		if off < 0 {
			low = at
		} else {
			high = at
		}
		if math.Abs(off) < 1e-13*most {
			break
		}
		bend, _ := p.Bends(at)
		if at -= off / (bend - depth); !(at > low && at < high) {
			at = (low + high) / 2
		}
	}
	return math.Copysign(at, arc)
}

// AtRadius returns the latitude, without its sign, at which the profile at a depth is a
// distance from the axis.
func (p Profile) AtRadius(radius, depth float64) float64 {
	if p.Round() {
		return math.Acos(min(1, radius/(p.Across-depth)))
	}
	low, high := 0.0, math.Pi/2
	for range 60 {
		middle := (low + high) / 2
		if r, _ := p.At(middle, depth); r > radius {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// Nearest returns the latitude of the place on the outside that is nearest to a point, by its
// distance from the axis and its height, and how far the point is outside; negative within.
//
// With the half axes a and c the place is (a2 r / (t + a2), c2 z / (t + c2)) where t makes
// that a point of the ellipse. What t must be the root of falls and is convex from the greater
// of a r - a2 and c z - c2 on, so that Newton's steps from there do not pass it.
func (p Profile) Nearest(radius, height float64) (latitude, out float64) {
	z := math.Abs(height)
	if p.Round() {
		return math.Atan2(height, radius), math.Hypot(radius, height) - p.Across
	}
	a, c := p.Across*p.Across, p.Along*p.Along
	t := max(p.Across*radius-a, p.Along*z-c)
	for range 100 {
		u, v := p.Across*radius/(t+a), p.Along*z/(t+c)
		off := u*u + v*v - 1
		slope := 2 * (u*u/(t+a) + v*v/(t+c))
		if !(off > 1e-15) || !(slope > 0) {
			break
		}
		t += off / slope
	}
	if !(t > -min(a, c)) {
		// On the axis or in the equator's plane, deep within: there are more than one as near.
		r, h := 0.0, 0.0
		if c > a {
			h = c * z / (c - a)
			r = p.Across * math.Sqrt(max(0, 1-h*h/c))
		} else {
			r = a * radius / (a - c)
			h = p.Along * math.Sqrt(max(0, 1-r*r/a))
		}
		return math.Copysign(math.Atan2(h-z, r-radius), height), -math.Hypot(r-radius, h-z)
	}
	latitude = math.Atan2(z/(t+c), radius/(t+a))
	r, h := p.At(latitude, 0)
	sin, cos := math.Sincos(latitude)
	return math.Copysign(latitude, height), (radius-r)*cos + (z-h)*sin
}

// Cap returns the area, at a depth, from a latitude to the upper pole. With M and N the radii
// to which the outside is bent and d the depth it is the integral over the sine of the latitude
// of 2 pi (M - d) (N - d), which comes out in closed form.
func (p Profile) Cap(latitude, depth float64) float64 {
	if p.Round() {
		return 2 * math.Pi * (p.Across - depth) * (p.Across - depth) * (1 - math.Sin(latitude))
	}
	a, c := p.Across*p.Across, p.Along*p.Along
	e := c - a
	q := math.Sqrt(math.Abs(e) / a)
	// With w2 = a + e s2: root is the integral of 1 / w, square that of 1 / w2.
	to := func(s float64) float64 {
		w2 := a + e*s*s
		root, square := math.Asinh(s*q), math.Atan(s*q)
		if e < 0 {
			root, square = math.Asin(s*q), math.Atanh(s*q)
		}
		root, square = root/(q*p.Across), square/(q*a)
		return a*c/2*(s/w2+square) - depth*(c*s/math.Sqrt(w2)+a*root) + depth*depth*s
	}
	return 2 * math.Pi * (to(1) - to(math.Sin(latitude)))
}

// Dish returns the radius in mm of the disc that has the area of Cap.
func (p Profile) Dish(latitude, depth float64) float64 {
	if p.Round() { // the chord, without cancelling
		return 2 * (p.Across - depth) * math.Sin((math.Pi/2-latitude)/2)
	}
	return math.Sqrt(max(0, p.Cap(latitude, depth)) / math.Pi)
}

// Dished returns the latitude to which Dish is a radius; that of the lower pole where it is more.
func (p Profile) Dished(radius, depth float64) float64 {
	low, high := -math.Pi/2, math.Pi/2
	want := math.Pi * radius * radius
	if want >= p.Cap(low, depth) {
		return low
	}
	at := max(low, high-radius/(p.Across-depth))
	for range 80 {
		off := p.Cap(at, depth) - want
		if off > 0 {
			low = at
		} else {
			high = at
		}
		r, _ := p.At(at, depth)
		bend, _ := p.Bends(at)
		next := at + off/(2*math.Pi*r*(bend-depth))
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-at) < 1e-15 {
			break
		}
		at = next
	}
	return at
}

// RingLatitude returns the latitude in rad of the line square to ring k of a ball of zones,
// from the lowest, 0; -1 and Zones are the discs at the poles.
func (b *Ball) RingLatitude(k int) float64 {
	middle := b.ZoneStep()*float64(k+1) - math.Pi/2
	if !b.IsEgg() || k < 0 || k >= b.Zones {
		return middle
	}
	sin, cos := math.Sincos(middle)
	return math.Atan2(b.Radius*sin, b.Polar()*cos)
}

// RingCorner returns edge k of the rings of a ball of zones at a depth under their outside, in
// a plane through the poles: where the lines meet that lie as deep under those of the two
// rings, or of a ring and a disc.
func (b *Ball) RingCorner(k int, depth float64) (radius, height float64) {
	radius, height = b.RingEdge(k)
	below, above := b.RingLatitude(k-1), b.RingLatitude(k)
	in := depth / math.Cos((above-below)/2)
	sin, cos := math.Sincos((above + below) / 2)
	return radius - in*cos, height - in*sin
}

// RingTurn returns the angle in rad by which a ring of a ball of zones leans to the next, or to
// a disc: of an egg the greatest.
func (b *Ball) RingTurn() float64 {
	if !b.IsEgg() {
		return b.ZoneStep()
	}
	most := 0.0
	for k := range b.Zones + 1 {
		most = max(most, b.RingLatitude(k)-b.RingLatitude(k-1))
	}
	return most
}
