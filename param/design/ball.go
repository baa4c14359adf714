package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// IsLobed reports whether a ball is of rolled gores, straight across, so that it
// has ridges.
func (b *Ball) IsLobed() bool { return b.Build == RolledGores && b.Gores >= 3 }

// IsZoned reports whether a ball is of rings, each a frustum of a cone.
func (b *Ball) IsZoned() bool { return b.Build == Zones && b.Zones > 0 }

// Meridian returns the unit vector square to the ball's pole at a longitude in rad
// from the middle of its first gore.
func (b *Ball) Meridian(longitude float64) r3.Vec {
	sin, cos := math.Sincos(longitude)
	return r3.Add(r3.Scale(cos, b.Prime), r3.Scale(sin, r3.Cross(b.Pole, b.Prime)))
}

// Ridge returns how far in mm from the axis through its poles the ridges of a
// lobed ball stand at the equator. A ridge is an ellipse of this half axis, and
// of that along the pole.
func (b *Ball) Ridge() float64 { return b.Radius / math.Cos(math.Pi/float64(b.Gores)) }

// ZoneStep returns the latitude, in rad, that each ring of a ball of zones takes
// up; the two discs at the poles take up as much together.
func (b *Ball) ZoneStep() float64 { return math.Pi / float64(b.Zones+1) }

// RingEdge returns the radius of edge k of the rings of a ball of zones, from the
// lower pole up, and its height along the pole from the centre: in a plane through
// the poles, the corners of the regular polygon about the circle. That of an egg is
// stretched along the pole.
func (b *Ball) RingEdge(k int) (radius, height float64) {
	sin, cos := math.Sincos(b.ZoneStep()*(float64(k)+0.5) - math.Pi/2)
	wide := b.Radius / math.Cos(b.ZoneStep()/2)
	return wide * cos, wide * sin * (b.Polar() / b.Radius)
}

// Hull returns the radius of the sphere about the ball's centre that holds all of it.
func (b *Ball) Hull() float64 {
	switch {
	case b.IsZoned():
		return max(b.Radius, b.Polar()) / math.Cos(b.ZoneStep()/2)
	case b.IsLobed():
		return max(b.Ridge(), b.Polar())
	}
	return max(b.Radius, b.Polar())
}

// The poles of a ball, as its caps are counted. The upper is the one that Pole points to.
const (
	LowerPole = iota
	UpperPole
)

// Poles are the ways from a ball's centre to its poles along Pole.
var Poles = [2]float64{LowerPole: -1, UpperPole: 1}

// PoleAt returns the pole on whose side a height lies, along the pole from the centre.
func PoleAt(height float64) int {
	if height < 0 {
		return LowerPole
	}
	return UpperPole
}

// CapAt returns the finished diameter, in mm, of the cap at a pole; 0 for none.
func (b *Ball) CapAt(pole int) float64 {
	if pole == UpperPole && b.UpperCap > 0 {
		return b.UpperCap
	}
	return b.Caps
}

// CapsDiffer reports whether the caps of a ball are of two sizes.
func (b *Ball) CapsDiffer() bool { return b.UpperCap > 0 && b.UpperCap != b.Caps }

// CapLatitude returns the latitude, in rad without its sign, at which the gores of a ball
// end toward a pole and the cap begins: that of the pole where it has none. Caps are the
// diameters of their edges at the middle of the sheet.
func (p *Part) CapLatitude(pole int) float64 {
	b := p.Ball
	if b.Caps <= 0 || p.Metal == nil {
		return math.Pi / 2
	}
	return b.Profile().AtRadius(b.CapAt(pole)/2, p.Metal.Thickness/2)
}

// CapIsFlat reports whether the cap at a pole of a ball of gores stays flat, since dished
// it would rise by no more than the thickness.
func (p *Part) CapIsFlat(pole int) bool {
	if p.Ball.Caps <= 0 || p.Metal == nil {
		return false
	}
	if p.Ball.IsEgg() {
		_, edge := p.Ball.Profile().At(p.CapLatitude(pole), p.Metal.Thickness/2)
		return p.Ball.Polar()-p.Metal.Thickness/2-edge <= p.Metal.Thickness
	}
	sin := math.Sin((math.Pi/2 - p.CapLatitude(pole)) / 2)
	return 2*(p.Ball.Radius-p.Metal.Thickness/2)*sin*sin <= p.Metal.Thickness
}

// RidgeLatitude returns the angle, in rad without its sign, by which the ridges of a lobed
// ball are drawn, as ellipses about its centre, to where they end toward a pole: of a round
// ball the latitude. A dished cap with straight sides carries them on to the pole.
func (p *Part) RidgeLatitude(pole int) float64 {
	b := p.Ball
	switch {
	case !b.Straight:
		return b.Profile().Drawn(p.CapLatitude(pole))
	case p.CapIsFlat(pole):
		_, edge := b.Profile().At(p.CapLatitude(pole), p.Metal.Thickness/2)
		return math.Asin(min(1, (edge+p.Metal.Thickness/2)/b.Polar()))
	}
	return math.Pi / 2
}

// Narrowest is the width, in mm, under which a point of sheet is not worth welding
// where the shop does not say. Common practice, no source.
const Narrowest = 3.0

// EndsBlunt returns how wide, in mm at the middle of the sheet, the hole is that gores
// leave at the poles which end where they are as narrow as can be welded; 0 where none
// are that wide.
func (p *Part) EndsBlunt() float64 {
	b := p.Ball
	narrow := b.Narrow
	if narrow == 0 {
		narrow = Narrowest
	}
	mean, half := b.Radius-p.Metal.Thickness/2, p.GoreHalf()
	narrow += p.GoreGap()
	if b.Gores < 3 || 2*half <= narrow {
		return 0
	}
	if b.IsEgg() {
		radius, _ := b.Profile().At(p.GoreEnd(narrow/2), p.Metal.Thickness/2)
		return 2 * radius
	}
	return mean * narrow / half
}

// GoreMeet returns the depth in mm under the outside of a ball at which its gores are as wide
// as the planes between them leave room for.
func (p *Part) GoreMeet() float64 {
	if b := p.Ball; b.Build == DomedGores || b.EdgeMid {
		return p.Metal.Thickness / 2
	}
	return p.Metal.Thickness
}

// GoreEnd returns the latitude, in rad without its sign, at which the gores of a ball are half
// as wide as given, in mm.
func (p *Part) GoreEnd(half float64) float64 {
	meet := p.GoreMeet()
	return p.Ball.Profile().AtRadius((p.Ball.Radius-meet)*half/p.GoreHalf(), meet)
}

// GoreGap returns how much narrower a gore is, in mm across, for the root gap of the two
// seams beside it. The edges of rolled ones lie at a slant to the plane between two.
func (p *Part) GoreGap() float64 {
	if b := p.Ball; b.Build == RolledGores {
		return b.Gap / math.Cos(math.Pi/float64(b.Gores))
	}
	return p.Ball.Gap
}

// GoreHalf returns half of the width of a gore at the equator, at the middle of its
// sheet. A rolled gore lies on a cylinder and ends at the planes between it and its
// neighbours: at the middle of the sheet R tan(pi/N). Cut square there, the edges of
// two would run into each other within, by t sin(pi/N): they meet by their inner
// corners where the radius is that of the inside. The edges of domed gores lie in those
// planes, and each is the N-th part of the sphere's parallel.
func (p *Part) GoreHalf() float64 {
	b := p.Ball
	mean, turn := b.Radius-p.Metal.Thickness/2, math.Pi/float64(b.Gores)
	switch {
	case b.Build == DomedGores:
		return mean * turn
	case b.EdgeMid:
		return mean * math.Tan(turn)
	}
	return (mean - p.Metal.Thickness/2) * math.Tan(turn)
}

// Farthest returns the point of a ball that lies farthest along a unit vector,
// from the ball's centre in mm: the middle of all such points where there are
// several, as on the edge between two that are level.
//
// Across a rolled gore the surface is straight, so that the farthest point of a
// lobed ball is on a ridge or on a cap; caps cut the ridges off at their edge.
// Where blunt ends cut off the very poles the sphere is taken all the same.
func (p *Part) Farthest(way r3.Vec) r3.Vec {
	b := p.Ball
	f := farthest{way: way, alike: b.Radius * 1e-9}
	pole := r3.Dot(way, b.Pole)
	level := r3.Sub(way, r3.Scale(pole, b.Pole))
	out := r3.Vec{} // along the pole there is no one direction
	if n := r3.Norm(level); n > 1e-9 {
		out = r3.Scale(1/n, level)
	}
	if b.IsZoned() {
		for k := range b.Zones + 1 {
			radius, height := b.RingEdge(k)
			f.add(r3.Add(r3.Scale(radius, out), r3.Scale(height, b.Pole)))
		}
		return f.middle()
	}
	if b.IsEgg() && !b.IsLobed() && !p.CapIsFlat(PoleAt(pole)) {
		return b.Far(way)
	}
	if b.Bowl {
		p.rims(&f, out)
	}
	gored := b.Build == RolledGores || b.Build == DomedGores
	toward := PoleAt(pole)
	if gored && p.CapIsFlat(toward) && !(b.Bowl && pole > math.Sin(b.Rim)) {
		latitude := p.CapLatitude(toward)
		if !b.IsLobed() && math.Abs(pole) < math.Sin(latitude) {
			return b.Far(way)
		}
		_, edge := b.Profile().At(latitude, p.Metal.Thickness/2)
		wide, _ := b.Profile().At(latitude, 0)
		height := math.Copysign(min(b.Polar(), edge+p.Metal.Thickness/2), pole)
		f.add(r3.Add(r3.Scale(wide, out), r3.Scale(height, b.Pole)))
	} else if !(b.Bowl && pole > math.Sin(b.Rim)) {
		f.add(b.Far(way))
	}
	if !b.IsLobed() {
		return f.middle()
	}
	low, high, ridge := -p.RidgeLatitude(LowerPole), p.RidgeLatitude(UpperPole), b.Ridge()
	if b.Bowl {
		high = b.Rim
	}
	for k := range b.Gores {
		side := b.Meridian((2*float64(k) + 1) * math.Pi / float64(b.Gores))
		latitude := max(low, min(high, math.Atan2(b.Polar()*pole, ridge*r3.Dot(way, side))))
		sin, cos := math.Sincos(latitude)
		f.add(r3.Add(r3.Scale(ridge*cos, side), r3.Scale(b.Polar()*sin, b.Pole)))
	}
	return f.middle()
}

// RimRadius returns the radius in mm of the outer edge of a bowl's rim, to the middles of
// its flats; of a ball its own.
func (b *Ball) RimRadius() float64 { return b.Radius * math.Cos(b.Rim) }

// RimHeight returns the height in mm along the pole, from the centre, of the outer edge of
// a bowl's rim.
func (b *Ball) RimHeight() float64 { return b.Radius * math.Sin(b.Rim) }

// Depth returns the depth in mm of a bowl, outside, from the outer edge of its rim.
func (b *Ball) Depth() float64 { return b.Radius + b.RimHeight() }

// Middle returns the middle of a ball; of a bowl that of what it encloses, as of a cap of
// a sphere of radius R that is h deep: 3 (2 R - h)2 / 4 (3 R - h) from its centre.
func (b *Ball) Middle() r3.Vec {
	if !b.Bowl {
		return b.Center
	}
	r, h := b.Radius, b.Depth()
	return r3.Sub(b.Center, r3.Scale(3*(2*r-h)*(2*r-h)/(4*(3*r-h)), b.Pole))
}

// Mouth returns the middle of a bowl's rim; of a ball its centre.
func (b *Ball) Mouth() r3.Vec { return r3.Add(b.Center, r3.Scale(b.RimHeight(), b.Pole)) }

// RimClear returns how far in mm, along the outside of a bowl, its rim lies beyond a ring
// about a unit vector out of its ball's centre, of which half takes up an angle in rad.
func (b *Ball) RimClear(out r3.Vec, half float64) float64 {
	return b.Radius * (math.Pi/2 + b.Rim - math.Acos(max(-1, min(1, -r3.Dot(out, b.Pole)))) - half)
}

// Proud returns how far in mm the inner edge of a bowl's rim, cut square through its
// sheet, stands above the outer edge.
func (p *Part) Proud() float64 {
	if p.Ball.RimFlat || p.Metal == nil {
		return 0
	}
	return -p.Metal.Thickness * math.Sin(p.Ball.Rim)
}

// rims adds the farthest points of the rim of a bowl, of whose plane out is the direction
// nearest to the way: of its outer edge and of the inner one, which may stand higher.
func (p *Part) rims(f *farthest, out r3.Vec) {
	b := p.Ball
	wide, height := b.RimRadius(), b.RimHeight()
	f.add(r3.Add(r3.Scale(wide, out), r3.Scale(height, b.Pole)))
	if proud := p.Proud(); proud > 0 {
		wide -= p.Metal.Thickness * math.Cos(b.Rim)
		f.add(r3.Add(r3.Scale(wide, out), r3.Scale(height+proud, b.Pole)))
	}
}

// Touch is the greatest height, in mm, at which a point still counts as standing
// on the ground: the fineness to which trimmed edges are drawn.
const Touch = 0.05

// Lowest returns the lowest point of a ball. It lies on the ground up to Touch.
func (p *Part) Lowest() r3.Vec { return r3.Add(p.Ball.Center, p.Farthest(r3.Vec{Z: -1})) }

// A farthest gathers the points that lie farthest along a way.
type farthest struct {
	way   r3.Vec
	alike float64 // mm, within which points lie as far
	most  float64
	sum   r3.Vec
	count float64
}

func (f *farthest) add(x r3.Vec) {
	switch far := r3.Dot(x, f.way); {
	case f.count == 0 || far > f.most+f.alike:
		f.most, f.sum, f.count = far, x, 1
	case far > f.most-f.alike:
		f.sum = r3.Add(f.sum, x)
		f.count++
	}
}

func (f *farthest) middle() r3.Vec { return r3.Scale(1/f.count, f.sum) }

// SeatOpens reports which of two balls that are welded to each other is cut open where
// the other sits in it, of which the upper rests on the lower: the smaller, or of two
// alike the upper; both where they are open to each other. A bought ball has no blank
// that could be cut.
func SeatOpens(lower, upper *Part) (under, over bool) {
	cut := func(p *Part) bool { return p.Ball.Build != Bought }
	switch {
	case upper.Ball.Through:
		return cut(lower), cut(upper)
	case !cut(upper) || cut(lower) && lower.Ball.Radius < upper.Ball.Radius:
		return cut(lower), false
	}
	return false, true
}
