package flat

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// A piece is one piece of a ball's shell in its place. Its chart takes a point
// in space, near the piece or on its continuation, to coordinates in which the
// piece is outlined; lay takes those to the flat. They are the flat itself
// where that is not wound about the pole.
type piece struct {
	blank   int // of the part's blanks
	level   int // of a piece of a ring: which ring, from the lower pole
	turn    int // and which of its pieces
	number  int // gores from the prime direction on, rings from the lower pole on, discs upper and lower: from 1
	surface func(out float64) solid.Surface
	chart   func(x r3.Vec) r2.Vec
	lay     func(q r2.Vec) r2.Vec              // nil for the flat itself
	space   func(q r2.Vec, out float64) r3.Vec // where a point of the chart is, at a distance out from the middle of the sheet
	period  float64                            // of the chart's first coordinate, wound about the pole; 0 for none
	behind  float64                            // of its second coordinate, which is cut open behind the ball; 0 for none
	sweep   func(q r2.Vec) moment              // what Green's theorem takes round an outline: see measure
	outline []r2.Vec                           // in the chart
	trimmed []r2.Vec                           // the outline once the allowance is trimmed off; nil without one
	middle  r2.Vec                             // of the piece, in the chart
	normal  r3.Vec                             // out of the ball at the middle
	lobes   int                                // how many it has that meet in ridges from the chart's origin on; 0 for none
	ring    bool                               // goes all round the pole, or nearly
	formed  bool                               // it is stretched when it is formed, and so would be what is cut in it before
	pole    r3.Vec                             // toward which the second coordinate of a chart with a period grows
	wedge   *wedge                             // that a gore lies in; nil for the others
}

// A wedge is the space between the two planes through the pole that bound a
// gore.
type wedge struct {
	center  r3.Vec
	out, on r3.Vec  // to the gore's middle and across it
	slope   float64 // tangent of half the angle between the planes
}

// misses reports whether a point lies outside of the wedge by more than a
// margin in mm.
func (w *wedge) misses(x r3.Vec, margin float64) bool {
	x = r3.Sub(x, w.center)
	out := r3.Dot(x, w.out)
	return math.Abs(r3.Dot(x, w.on)) > max(0, out)*w.slope+margin || out < -margin
}

// onFlat takes points of the chart to the flat.
func (p *piece) onFlat(points []r2.Vec) []r2.Vec {
	if p.lay == nil {
		return points
	}
	out := make([]r2.Vec, len(points))
	for i, q := range points {
		out[i] = p.lay(q)
	}
	return out
}

// pieces returns the pieces of a ball, whose blanks are made.
func (d *developer) pieces() []piece {
	b := d.part.Ball
	mean := b.Radius - d.part.Metal.Thickness/2
	var list []piece
	switch b.Build {
	case design.Halves:
		if b.IsEgg() {
			return append(list, d.eggDisc(0, design.UpperPole), d.eggDisc(0, design.LowerPole))
		}
		if b.Bowl {
			return append(list, d.disc(0, design.LowerPole, mean, nil))
		}
		list = d.discs(list, 0, mean, nil)
	case design.Zones:
		list = d.rings(mean)
		flat := b.Polar() - d.part.Metal.Thickness/2
		list = d.discs(list, len(d.Blanks)-1, mean, &flat)
	case design.RolledGores, design.DomedGores:
		s, _ := d.segment()
		for k := range b.Gores {
			if b.IsEgg() {
				list = append(list, d.eggPiece(s, k))
			} else if b.Build == design.RolledGores {
				list = append(list, d.rolledPiece(s, k))
			} else {
				list = append(list, d.domedPiece(s, k))
			}
		}
		if b.Caps > 0 {
			list = d.caps(list, s)
		}
	}
	return list
}

// caps appends the caps of a ball of gores, upper and lower.
func (d *developer) caps(list []piece, s segmented) []piece {
	b := d.part.Ball
	for k, pole := range poles(b) {
		blank := 1
		if b.CapsDiffer() {
			blank += k
		}
		switch {
		case s.CapFlat[pole]:
			height := math.Sqrt(s.Mean*s.Mean - s.CapEdge[pole]*s.CapEdge[pole])
			if b.IsEgg() {
				_, height = s.At(s.End[pole])
			}
			list = append(list, d.disc(blank, pole, s.Mean, &height))
		case b.IsEgg() && !b.Straight:
			list = append(list, d.eggDisc(blank, pole))
		case b.Straight:
			list = append(list, d.lobedCap(blank, pole, s))
		default:
			list = append(list, d.disc(blank, pole, s.Mean, nil))
		}
	}
	return list
}

// goreAxes returns the directions to the middle of gore k and onward from it.
func goreAxes(b *design.Ball, k int) (out, on r3.Vec) {
	sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(b.Gores))
	across := r3.Cross(b.Pole, b.Prime)
	out = r3.Add(r3.Scale(cos, b.Prime), r3.Scale(sin, across))
	return out, r3.Cross(b.Pole, out)
}

// rolledPiece is a gore on its cylinder: straight across, and along it the angle
// from the equator.
func (d *developer) rolledPiece(s segmented, k int) piece {
	b := d.part.Ball
	out, on := goreAxes(b, k)
	return piece{
		number:  k + 1,
		outline: d.Blanks[0].Outline,
		behind:  2 * math.Pi * s.Mean,
		normal:  out,
		wedge:   &wedge{center: b.Center, out: out, on: on, slope: math.Tan(math.Pi / float64(b.Gores))},
		surface: func(w float64) solid.Surface {
			return solid.Cylinder{Point: b.Center, Axis: on, Radius: s.Mean + w}
		},
		chart: func(x r3.Vec) r2.Vec {
			x = r3.Sub(x, b.Center)
			return r2.Vec{X: r3.Dot(x, on), Y: s.Mean * math.Atan2(r3.Dot(x, b.Pole), r3.Dot(x, out))}
		},
		space: func(q r2.Vec, w float64) r3.Vec {
			sin, cos := math.Sincos(q.Y / s.Mean)
			x := r3.Add(b.Center, r3.Scale(q.X, on))
			return r3.Add(x, r3.Add(r3.Scale((s.Mean+w)*cos, out), r3.Scale((s.Mean+w)*sin, b.Pole)))
		},
		sweep: func(q r2.Vec) moment {
			sin, cos := math.Sincos(q.Y / s.Mean)
			return momentOf(q.X, s.Mean*cos*q.X, q.X*q.X/2, s.Mean*sin*q.X, out, on, b.Pole)
		},
	}
}

// domedPiece is a gore on the sphere, charted by length along the parallel as it
// would be at the equator, and along the meridian.
func (d *developer) domedPiece(s segmented, k int) piece {
	b := d.part.Ball
	out, on := goreAxes(b, k)
	outline := make([]r2.Vec, len(d.Blanks[0].Outline))
	for i, q := range d.Blanks[0].Outline {
		outline[i] = r2.Vec{X: math.Copysign(s.width(q.Y)/math.Cos(q.Y/s.Mean), q.X), Y: q.Y}
	}
	return piece{
		number:  k + 1,
		outline: outline,
		normal:  out,
		formed:  true,
		period:  2 * math.Pi * s.Mean,
		pole:    b.Pole,
		wedge:   &wedge{center: b.Center, out: out, on: on, slope: math.Tan(math.Pi / float64(b.Gores))},
		surface: func(w float64) solid.Surface {
			return solid.Sphere{Center: b.Center, Radius: s.Mean + w}
		},
		chart: func(x r3.Vec) r2.Vec {
			x = r3.Sub(x, b.Center)
			z, east, north := r3.Dot(x, b.Pole), r3.Dot(x, out), r3.Dot(x, on)
			return r2.Vec{X: s.Mean * math.Atan2(north, east), Y: s.Mean * math.Atan2(z, math.Hypot(east, north))}
		},
		lay: func(q r2.Vec) r2.Vec { return r2.Vec{X: q.X * math.Cos(q.Y/s.Mean), Y: q.Y} },
		space: func(q r2.Vec, w float64) r3.Vec {
			sin, cos := math.Sincos(q.Y / s.Mean)
			east, north := math.Cos(q.X/s.Mean), math.Sin(q.X/s.Mean)
			x := r3.Add(r3.Scale(cos*east, out), r3.Scale(cos*north, on))
			return r3.Add(b.Center, r3.Scale(s.Mean+w, r3.Add(x, r3.Scale(sin, b.Pole))))
		},
		sweep: func(q r2.Vec) moment {
			sin, cos := math.Sincos(q.Y / s.Mean)
			north, east := math.Sincos(q.X / s.Mean)
			level := s.Mean * s.Mean * cos * cos
			return momentOf(q.X*cos, level*north, -level*east, s.Mean*sin*cos*q.X, out, on, b.Pole)
		},
	}
}

// ringGapSteps is the number of steps of the edge of a ring beside the gap of its seam.
const ringGapSteps = 16

// rings returns the rings of a ball of zones, charted by the angle from the seam
// and along the slant.
func (d *developer) rings(mean float64) []piece {
	b := d.part.Ball
	n := b.Zones
	var list []piece
	for k := range n {
		// The blanks run from the equator to the poles, each for two rings.
		upper := max(k, n-1-k)
		blank := upper - n/2
		f := d.frustum(upper)
		count := d.ringPieces(f)
		turn := 2 * math.Pi / float64(count)
		t, angle := d.around(f, count)
		// A ring below the equator is the upper one turned over about a level
		// line: its angles run the other way.
		pole, sense := b.Pole, 1.0
		if k != upper {
			pole, sense = r3.Scale(-1, b.Pole), -1
		}
		sinL, cosL := math.Sincos(b.RingLatitude(upper))
		// at returns how far the middle of the ring's width is from the axis, and its height.
		at := func(w float64) (radius, height float64) { return (mean + w) * cosL, (mean + w) * sinL }
		if b.IsEgg() {
			_, low := d.eggRing(upper)
			at = func(w float64) (radius, height float64) {
				return (f.lower+f.upper)/2 + w*cosL, low + f.slant/2*cosL + w*sinL
			}
		}
		// Of a round ball the line square to the middle passes the centre.
		middle := f.slant / 2
		if b.IsEgg() {
			radius, height := at(0)
			middle += radius*sinL - height*cosL
		}
		zero := b.Prime
		across := r3.Scale(sense, r3.Cross(b.Pole, b.Prime))
		outline := make([]r2.Vec, 0, len(d.Blanks[blank].Outline))
		half := len(d.Blanks[blank].Outline) / 2
		low, high := t.edgeAt(angle, 0, t.gap), t.edgeAt(angle, t.length, t.gap)
		for i := range half {
			outline = append(outline, r2.Vec{X: low * float64(i) / float64(half-1)})
		}
		if t.gap > 0 { // straight on the flat, its edge bends in the chart
			for i := 1; i < ringGapSteps; i++ {
				y := f.slant * float64(i) / ringGapSteps
				outline = append(outline, r2.Vec{X: t.edgeAt(angle, y, t.gap), Y: y})
			}
		}
		for i := half - 1; i >= 0; i-- {
			outline = append(outline, r2.Vec{X: high * float64(i) / float64(half-1), Y: f.slant})
		}
		for part := range count {
			seam := sense*ringSeam(k) + turn*float64(part)
			sin, cos := math.Sincos(seam + angle/2)
			list = append(list, piece{
				blank: blank, number: len(list) + 1, level: k, turn: part,
				outline: outline,
				normal:  r3.Add(r3.Scale(sinL, pole), r3.Scale(cosL, r3.Add(r3.Scale(cos, zero), r3.Scale(sin, across)))),
				period:  2 * math.Pi,
				ring:    true,
				pole:    pole,
				middle:  r2.Vec{X: angle / 2, Y: f.slant / 2},
				surface: func(w float64) solid.Surface {
					radius, height := at(w)
					return solid.Cone{Point: b.Center, Axis: pole, Radius: radius + height*sinL/cosL, Slope: -sinL / cosL}
				},
				chart: func(x r3.Vec) r2.Vec {
					x = r3.Sub(x, b.Center)
					z, east, north := r3.Dot(x, pole), r3.Dot(x, zero), r3.Dot(x, across)
					turn := math.Mod(math.Atan2(north, east)-seam, 2*math.Pi)
					return r2.Vec{
						X: nearTo(turn, angle/2, 2*math.Pi),
						Y: z*cosL - math.Hypot(east, north)*sinL + middle,
					}
				},
				lay: func(q r2.Vec) r2.Vec { return t.lay(q.X, q.Y, angle/2) },
				space: func(q r2.Vec, w float64) r3.Vec {
					sin, cos := math.Sincos(seam + q.X)
					along := q.Y - f.slant/2
					radius, height := at(w)
					x := r3.Scale(radius-along*sinL, r3.Add(r3.Scale(cos, zero), r3.Scale(sin, across)))
					return r3.Add(b.Center, r3.Add(x, r3.Scale(height+along*cosL, pole)))
				},
				sweep: func(q r2.Vec) moment {
					sin, cos := math.Sincos(seam + q.X)
					along := q.Y - f.slant/2
					radius, height := at(0)
					level := radius - along*sinL
					return momentOf(level*q.X, level*level*sin, -level*level*cos, level*(height+along*cosL)*q.X, zero, across, pole)
				},
			})
		}
	}
	return list
}

// discs appends the two round pieces of a blank, upper and lower.
func (d *developer) discs(list []piece, blank int, mean float64, flat *float64) []piece {
	return append(list, d.disc(blank, design.UpperPole, mean, flat), d.disc(blank, design.LowerPole, mean, flat))
}

// disc returns the round piece at a pole: a flat one at a height above the centre, or one
// dished to the sphere at equal area, so that a point is as far from the middle as its
// chord from the pole.
func (d *developer) disc(blank, toward int, mean float64, flat *float64) piece {
	b := d.part.Ball
	pole, across := b.Pole, r3.Cross(b.Pole, b.Prime)
	if toward == design.LowerPole {
		pole, across = r3.Scale(-1, pole), r3.Scale(-1, across)
	}
	p := piece{blank: blank, number: poleCount(b) - toward, outline: d.Blanks[blank].Outline, normal: pole, formed: flat == nil}
	if flat != nil {
		height := *flat
		p.surface = func(w float64) solid.Surface {
			return solid.Plane{Normal: pole, Height: r3.Dot(pole, b.Center) + height + w}
		}
		p.chart = func(x r3.Vec) r2.Vec {
			x = r3.Sub(x, b.Center)
			q := r2.Vec{X: r3.Dot(x, b.Prime), Y: r3.Dot(x, across)}
			// What lies below is pushed out, so that the far side of the ball
			// does not fall on the disc.
			below := max(0, height-d.part.Metal.Thickness-r3.Dot(x, pole))
			if level := r2.Norm(q); level > 0 {
				return r2.Scale(1+below/level, q)
			}
			return r2.Vec{X: below}
		}
		p.space = func(q r2.Vec, w float64) r3.Vec {
			x := r3.Add(b.Center, r3.Scale(height+w, pole))
			return r3.Add(x, r3.Add(r3.Scale(q.X, b.Prime), r3.Scale(q.Y, across)))
		}
		p.sweep = func(q r2.Vec) moment {
			return momentOf(q.X, q.X*q.X/2, q.X*q.Y, q.X*height, b.Prime, across, pole)
		}
	} else {
		p.surface = func(w float64) solid.Surface {
			return solid.Sphere{Center: b.Center, Radius: mean + w}
		}
		p.chart = func(x r3.Vec) r2.Vec {
			x = r3.Sub(x, b.Center)
			z, east, north := r3.Dot(x, pole), r3.Dot(x, b.Prime), r3.Dot(x, across)
			level := math.Hypot(east, north)
			if level == 0 {
				return r2.Vec{}
			}
			chord := 2 * mean * math.Sin(math.Atan2(level, z)/2)
			return r2.Vec{X: chord * east / level, Y: chord * north / level}
		}
		p.space = func(q r2.Vec, w float64) r3.Vec {
			chord := r2.Norm(q)
			sin, cos := math.Sincos(2 * math.Asin(min(1, chord/(2*mean))))
			x := r3.Add(b.Center, r3.Scale((mean+w)*cos, pole))
			if chord == 0 {
				return x
			}
			return r3.Add(x, r3.Scale((mean+w)*sin/chord, r3.Add(r3.Scale(q.X, b.Prime), r3.Scale(q.Y, across))))
		}
		p.sweep = func(q r2.Vec) moment { return dished(q, mean, b.Prime, across, pole) }
	}
	if made := &d.Blanks[blank]; made.Allowance > 0 {
		radius := made.Diameter/2 - made.Allowance
		p.trimmed = circle(r2.Vec{}, radius, roundPoints(radius))
	}
	return p
}

// far is a coordinate outside of any piece.
const far = 10 * largest

// lobedCap returns the dished cap with straight sides at a pole. It carries the lobes on to
// the pole at equal area: what lies at a colatitude on the middle line of a lobe is as far
// from the middle of the flat as its chord from the pole, and across the lobe lines stay in
// the proportion of their lengths.
func (d *developer) lobedCap(blank, toward int, s segmented) piece {
	b := d.part.Ball
	step := 2 * math.Pi / float64(b.Gores)
	pole, across := b.Pole, r3.Cross(b.Pole, b.Prime)
	if toward == design.LowerPole {
		pole, across = r3.Scale(-1, pole), r3.Scale(-1, across)
	}
	// lobe returns the direction to the middle of the lobe that a direction is of.
	lobe := func(angle float64) (sin, cos float64) { return math.Sincos(step * math.Round(angle/step)) }
	p := piece{blank: blank, number: poleCount(b) - toward, outline: d.Blanks[blank].Outline, normal: pole, lobes: b.Gores, formed: true}
	p.surface = func(w float64) solid.Surface {
		return solid.NewLobed(b.Center, s.Mean+w, b.Gores, b.Pole, b.Prime)
	}
	// reach returns how far from the middle of the flat a point on the middle line of a lobe
	// is, by its distance from the axis and its height, and onto where such a point is in space.
	reach := func(out, z float64) float64 { return 2 * s.Mean * math.Sin(math.Atan2(out, z)/2) }
	onto := func(chord, w float64) (out, z float64) {
		sin, cos := math.Sincos(2 * math.Asin(min(1, chord/(2*s.Mean))))
		return (s.Mean + w) * sin, (s.Mean + w) * cos
	}
	if b.IsEgg() {
		profile, depth := b.Profile(), d.part.Metal.Thickness/2
		reach = func(out, z float64) float64 {
			latitude, _ := profile.Nearest(max(0, out), z)
			return profile.Dish(latitude, depth)
		}
		onto = func(chord, w float64) (out, z float64) {
			return profile.At(profile.Dished(max(0, chord), depth), depth-w)
		}
	}
	p.chart = func(x r3.Vec) r2.Vec {
		x = r3.Sub(x, b.Center)
		z, east, north := r3.Dot(x, pole), r3.Dot(x, b.Prime), r3.Dot(x, across)
		sin, cos := lobe(math.Atan2(north, east))
		out, side := east*cos+north*sin, north*cos-east*sin
		if out == 0 {
			return r2.Vec{}
		}
		chord := reach(out, z)
		side *= chord / out
		return r2.Vec{X: chord*cos - side*sin, Y: chord*sin + side*cos}
	}
	p.space = func(q r2.Vec, w float64) r3.Vec {
		sin, cos := lobe(math.Atan2(q.Y, q.X))
		chord, side := q.X*cos+q.Y*sin, q.Y*cos-q.X*sin
		out, z := onto(chord, w)
		if chord > 0 {
			middle, _ := onto(chord, 0)
			side *= middle / chord
		}
		// Within, the sheet ends at the plane of the crease between two lobes.
		if most := out * math.Tan(step/2); w < 0 {
			side = max(-most, min(most, side))
		}
		x := r3.Add(b.Center, r3.Scale(z, pole))
		return r3.Add(x, r3.Add(r3.Scale(out*cos-side*sin, b.Prime), r3.Scale(out*sin+side*cos, across)))
	}
	p.sweep = func(q r2.Vec) moment {
		// Along the line from the middle of the flat to the point, lobe by lobe: area
		// is that of the flat.
		stops := []float64{0, q.X}
		for k := range b.Gores {
			if tan := math.Tan(step * (float64(k) + 0.5)); tan != 0 {
				if x := q.Y / tan; (x > 0) == (q.X > 0) && math.Abs(x) < math.Abs(q.X) {
					stops = append(stops, x)
				}
			}
		}
		slices.SortFunc(stops, func(a, b float64) int { return cmp.Compare(math.Abs(a), math.Abs(b)) })
		first := r3.Vec{}
		at, weight := gauss()
		for k, to := range stops[1:] {
			from := stops[k]
			for g, u := range at {
				x := p.space(r2.Vec{X: from + (to-from)*u, Y: q.Y}, 0)
				first = r3.Add(first, r3.Scale(weight[g]*(to-from), r3.Sub(x, b.Center)))
			}
		}
		return moment{q.X, first}
	}
	return p
}
