package fab

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/flat"
	"stabile/fab/workers"
	"stabile/param/design"
)

// These tests put whole sculptures together from their flats: every piece is bent
// back to its place with its wall, by geometry that is written here alone, and each
// pair of pieces is measured. No metal may run through metal, and every edge that is
// welded must lie against another piece.

var sculptures = flag.Int("together", 40, "how many random sculptures to put together")
var first = flag.Uint64("seed", 7, "which random sculptures to put together")

const (
	overlapRoom = 0.05 // mm, that one piece may reach into another
	gapRoom     = 0.1  // mm, that an edge may lie off what it is welded to, beyond a stated gap or groove
)

// A plaque is a piece in its place: its flat, and the way from there to space and
// back. Out is the distance from the middle of the sheet.
type plaque struct {
	part    *design.Part
	name    string
	half    float64 // mm, of the thickness
	outline []r2.Vec
	holes   []flat.Hole
	space   func(q r2.Vec, out float64) r3.Vec
	flat    func(x r3.Vec) (q r2.Vec, out float64)
	open    func(q r2.Vec) bool    // on an edge that is welded to nothing
	beside  func(q r2.Vec) float64 // mm, from the edges of the holes that the design has in the part
	box     r3.Box
	sides   *net    // of the outline
	edges   []*net  // of the holes
	gap     float64 // mm, root gap of a post
	grooves []groove
	filed   float64                  // mm, that is filed off the inner corners of an edge that meets at the middle
	over    func(q r2.Vec) [2]r2.Vec // where a point lies too, over the seam of what goes all round; nil for other pieces
	trim    float64                  // radius, in mm, to which a dished half is trimmed; 0 for none
}

// rim returns points of the edge to which a dished half is trimmed.
func (p *plaque) rim() (list []r2.Vec) {
	const around = 720
	for k := range around {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / around)
		if q := (r2.Vec{X: p.trim * cos, Y: p.trim * sin}); p.trim > 0 && p.has(q) {
			list = append(list, q)
		}
	}
	return list
}

// depth returns how deep a point lies in the metal of the piece, negative outside:
// there it is the distance, or nearly.
func (p *plaque) depth(x r3.Vec) float64 {
	if x.X < p.box.Min.X || x.Y < p.box.Min.Y || x.Z < p.box.Min.Z || x.X > p.box.Max.X || x.Y > p.box.Max.Y || x.Z > p.box.Max.Z {
		return math.Inf(-1)
	}
	q, out := p.flat(x)
	through := p.half - math.Abs(out)
	if through < -1 {
		return through
	}
	in, edge := p.sides.odd(q), p.sides.nearest(q)
	if p.over != nil {
		for _, q := range p.over(q) {
			edge = min(edge, p.sides.nearest(q))
			for _, h := range p.edges {
				edge = min(edge, h.nearest(q))
			}
		}
	}
	if p.trim > 0 {
		in = in && r2.Norm(q) <= p.trim
		edge = min(edge, math.Abs(p.trim-r2.Norm(q)))
	}
	for _, h := range p.edges {
		if h.odd(q) {
			in = false
		}
		edge = min(edge, h.nearest(q))
	}
	switch {
	case in:
		return min(through, edge)
	case through > 0:
		return -edge
	}
	return -math.Hypot(edge, through)
}

// odd reports whether a point lies in a polygon.
func odd(q r2.Vec, polygon []r2.Vec) (in bool) {
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// nearest returns how far a point is from a polygon's sides.
func nearest(q r2.Vec, polygon []r2.Vec) float64 {
	least := math.Inf(1)
	for i, a := range polygon {
		d := r2.Sub(polygon[(i+1)%len(polygon)], a)
		u := 0.0
		if n := r2.Norm2(d); n > 0 {
			u = max(0, min(1, r2.Dot(r2.Sub(q, a), d)/n))
		}
		least = min(least, r2.Norm2(r2.Sub(q, r2.Add(a, r2.Scale(u, d)))))
	}
	return math.Sqrt(least)
}

// numbersOf returns the numbers of the pieces that are cut as a blank. Of one in parts each
// part has the number with a letter.
func numbersOf(b *flat.Blank) (list []int) {
	for _, text := range b.Numbers {
		n, err := strconv.Atoi(strings.TrimRight(text, "abcdefgh"))
		if err != nil {
			panic("no number: " + text)
		}
		list = append(list, n)
	}
	return list
}

// plaques puts the pieces of a part in their places.
func plaques(j *Job, p *Part) (list []plaque) {
	switch {
	case p.Post != nil:
		for i := range p.Blanks {
			if p.Blanks[i].Shape == flat.Disc {
				list = append(list, headPlaque(p, &p.Blanks[i]))
			}
		}
		for _, r := range coursesOf(p) {
			list = append(list, postPlaque(p, &r))
		}
	case p.Ball != nil:
		list = ballPlaques(j, p)
	case p.Base != nil && len(p.Blanks) > 0:
		b := p.Base
		half := p.Metal.Thickness / 2
		list = append(list, plaque{
			outline: p.Blanks[0].Outline, holes: p.Blanks[0].Holes,
			space: func(q r2.Vec, out float64) r3.Vec { return r3.Vec{X: q.X, Y: q.Y, Z: b.Top - half + out} },
			flat:  func(x r3.Vec) (r2.Vec, float64) { return r2.Vec{X: x.X, Y: x.Y}, x.Z - b.Top + half },
			open:  func(r2.Vec) bool { return true },
			name:  p.Name,
		})
	}
	for i := range list {
		q := &list[i]
		q.part, q.half = p.Part, p.Metal.Thickness/2
		q.sides = netOf(q.outline)
		for _, h := range q.holes {
			q.edges = append(q.edges, netOf(h.Outline))
		}
		q.beside = func(at r2.Vec) float64 {
			off := math.Inf(1)
			for _, o := range p.Openings {
				off = min(off, math.Abs(beside(p.Part, o.Hole, o.Far, q.space(at, holeLevel(p)))))
			}
			return off
		}
		if b := p.Ball; b != nil {
			q.grooves = groovesOf(p.Part)
			if b.EdgeMid {
				q.filed = p.Metal.Thickness * math.Sin(leanOf(b))
			}
		}
		q.box = r3.Box{Min: r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, Max: r3.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}}
		grow := func(x r3.Vec) {
			q.box.Min = r3.Vec{X: min(q.box.Min.X, x.X), Y: min(q.box.Min.Y, x.Y), Z: min(q.box.Min.Z, x.Z)}
			q.box.Max = r3.Vec{X: max(q.box.Max.X, x.X), Y: max(q.box.Max.Y, x.Y), Z: max(q.box.Max.Z, x.Z)}
		}
		q.each(func(at r2.Vec) { grow(q.space(at, -q.half)); grow(q.space(at, q.half)) })
		bulge := 8.0 // between the points, and what is to be filled
		for _, g := range q.grooves {
			bulge = max(bulge, 8+g.wide)
		}
		more := r3.Vec{X: bulge, Y: bulge, Z: bulge}
		q.box.Min, q.box.Max = r3.Sub(q.box.Min, more), r3.Add(q.box.Max, more)
	}
	return list
}

// has reports whether a point lies on the piece as it is cut.
func (p *plaque) has(q r2.Vec) bool {
	return p.sides.odd(q) && !slices.ContainsFunc(p.edges, func(h *net) bool { return h.odd(q) })
}

// onVent reports whether a point lies on the edge of a hole that is drilled.
func onVent(holes []flat.Hole, q r2.Vec) bool {
	return slices.ContainsFunc(holes, func(h flat.Hole) bool { return h.Diameter > 0 && nearest(q, h.Outline) < 1e-3 })
}

// longSide is how long, in mm, a side may be of which the ends alone are looked at.
const longSide = 20

// each goes over a net of points of the flat within the outline, and the edge.
func (p *plaque) each(do func(q r2.Vec)) {
	low, high := p.outline[0], p.outline[0]
	const net = 14
	for k, q := range p.outline {
		low = r2.Vec{X: min(low.X, q.X), Y: min(low.Y, q.Y)}
		high = r2.Vec{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
		do(q)
		if way := r2.Sub(p.outline[(k+1)%len(p.outline)], q); r2.Norm(way) > longSide {
			for i := 1; i < net; i++ {
				do(r2.Add(q, r2.Scale(float64(i)/net, way)))
			}
		}
	}
	for _, h := range p.holes {
		for _, q := range h.Outline {
			do(q)
		}
	}
	for i := range net {
		for j := range net {
			q := r2.Vec{X: low.X + (high.X-low.X)*(float64(i)+0.5)/net, Y: low.Y + (high.Y-low.Y)*(float64(j)+0.5)/net}
			if p.has(q) {
				do(q)
			}
		}
	}
}

// headPlaque lets the disc of a post's head in.
func headPlaque(p *Part, b *flat.Blank) plaque {
	u := p.Post.Direction
	half := p.Metal.Thickness / 2
	x := r3.Unit(r3.Cross(u, r3.Vec{X: 0.3, Y: 0.5, Z: 0.8124}))
	y := r3.Cross(u, x)
	mid := r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(p.Post.Length-half, u))
	return plaque{
		name: b.Name, outline: b.Outline, holes: b.Holes,
		space: func(q r2.Vec, out float64) r3.Vec {
			return r3.Add(mid, r3.Add(r3.Scale(out, u), r3.Add(r3.Scale(q.X, x), r3.Scale(q.Y, y))))
		},
		flat: func(v r3.Vec) (r2.Vec, float64) {
			v = r3.Sub(v, mid)
			return r2.Vec{X: r3.Dot(v, x), Y: r3.Dot(v, y)}, r3.Dot(v, u)
		},
		open: func(q r2.Vec) bool { return onVent(b.Holes, q) },
	}
}

// straight is how long, in mm, a line on the flat of a taper may be to count as straight
// in bearings and heights.
const straight = 4

// postPlaque rolls a post's flat up, where its course is.
func postPlaque(p *Part, b *rolled) plaque {
	w := wallOf(p.Part)
	u := p.Post.Direction
	// Bearings are of the post standing upright, turned over by the shortest way.
	zero, right := p.Post.Bearings()
	low, high := b.Outline[0].Y, b.Outline[0].Y
	for _, q := range b.Outline {
		low, high = min(low, q.Y), max(high, q.Y)
	}
	var outline []r2.Vec // in bearing times the mean radius half way, and height
	scale := w.mean + w.slant/2*w.sin
	for i, q := range b.Outline {
		way, parts := r2.Sub(b.Outline[(i+1)%len(b.Outline)], q), 1.0
		if b.Fan != nil { // in which a straight line bows
			parts = math.Ceil(r2.Norm(way) / straight)
		}
		for k := range int(parts) {
			bearing, height := b.off(&w, r2.Add(q, r2.Scale(float64(k)/parts, way)))
			outline = append(outline, r2.Vec{X: (bearing - b.seam) * scale, Y: height})
		}
	}
	var holes []flat.Hole
	for _, h := range b.Holes {
		edge := make([]r2.Vec, len(h.Outline))
		for i, q := range h.Outline {
			bearing, height := b.off(&w, q)
			edge[i] = r2.Vec{X: (bearing - b.seam) * scale, Y: height}
		}
		holes = append(holes, flat.Hole{Name: h.Name, Diameter: h.Diameter, Outline: edge})
	}
	return plaque{
		name: fmt.Sprintf("%s (%d)", b.Name, b.course+1), outline: outline, holes: holes, gap: p.Post.Gap,
		over: func(q r2.Vec) [2]r2.Vec {
			round := 2 * math.Pi * scale
			return [2]r2.Vec{{X: q.X - round, Y: q.Y}, {X: q.X + round, Y: q.Y}}
		},
		space: func(q r2.Vec, out float64) r3.Vec { return w.at(b.seam+q.X/scale, q.Y, out) },
		flat: func(v r3.Vec) (r2.Vec, float64) {
			v = r3.Sub(v, p.Post.Ends[design.Foot].At)
			east, north, up := r3.Dot(v, zero), r3.Dot(v, right), r3.Dot(v, u)-w.start
			turn := math.Mod(math.Atan2(north, east)-b.seam+8*math.Pi, 2*math.Pi)
			r := math.Hypot(east, north) - w.mean
			return r2.Vec{X: turn * scale, Y: up*w.cos + r*w.sin}, r*w.cos - up*w.sin
		},
		open: func(q r2.Vec) bool {
			if around := (2*math.Pi - q.X/scale) * (w.mean + q.Y*w.sin); q.X < 1e-6 || around < p.Post.Gap*1.1+1e-6 {
				return true // the seam itself
			}
			if onVent(holes, q) {
				return true
			}
			if min(math.Abs(q.Y-b.low), math.Abs(q.Y-b.up)) < b.Length/4 {
				return false // against the next course
			}
			end := p.Post.Ends[design.Foot]
			if q.Y > w.slant/2 {
				end = p.Post.Ends[design.Head]
			}
			return end.Meets == design.Free || end.With == nil
		},
	}
}

// ballPlaques bends a ball's pieces.
func ballPlaques(j *Job, p *Part) (list []plaque) {
	b := p.Ball
	if b.IsEgg() {
		return eggPlaques(p)
	}
	mean := b.Radius - p.Metal.Thickness/2
	across := r3.Cross(b.Pole, b.Prime)
	at := func(lon float64, r, z float64) r3.Vec {
		sin, cos := math.Sincos(lon)
		return r3.Add(b.Center, r3.Add(r3.Scale(z, b.Pole), r3.Add(r3.Scale(r*cos, b.Prime), r3.Scale(r*sin, across))))
	}
	local := func(x r3.Vec) (east, north, z float64) {
		x = r3.Sub(x, b.Center)
		return r3.Dot(x, b.Prime), r3.Dot(x, across), r3.Dot(x, b.Pole)
	}
	add := func(blank *flat.Blank, number int, space func(q r2.Vec, out float64) r3.Vec, back func(x r3.Vec) (r2.Vec, float64)) {
		vents := func(q r2.Vec) bool {
			rim := b.Bowl && (b.Build == design.Halves || blank.Shape == flat.Gore && q.Y > mean*b.Rim-1e-3)
			return rim || onVent(blank.Holes, q)
		}
		q := plaque{
			name: fmt.Sprintf("%s (%d)", blank.Name, number), outline: blank.Outline, holes: blank.Holes,
			space: space, flat: back, open: vents,
		}
		if b.Build == design.Halves {
			q.trim = 2 * mean * math.Sin((math.Pi/2+b.Rim)/2)
		}
		list = append(list, q)
	}
	// What is filled with weld stands where its sliver would.
	blanks := slices.Concat(p.Blanks, p.Fills)
	for i := range blanks {
		blank := &blanks[i]
		if blank.Shape != flat.Gore && blank.Shape != flat.Disc {
			continue
		}
		numbers := numbersOf(blank)
		if len(numbers) != blank.Quantity {
			panic(fmt.Sprintf("%s: %d pieces for %v: %s", blank.Name, blank.Quantity, numbers, j.Design.Source.Text))
		}
		for _, n := range numbers {
			if b.Bowl && blank.Shape == flat.Disc {
				n = 2 // it has the lower pole alone
			}
			switch {
			case blank.Shape == flat.Gore && b.Build == design.RolledGores:
				sin, cos := math.Sincos(2 * math.Pi * float64(n-1) / float64(b.Gores))
				add(blank, n, func(q r2.Vec, out float64) r3.Vec {
					r, z := (mean+out)*math.Cos(q.Y/mean), (mean+out)*math.Sin(q.Y/mean)
					return at(2*math.Pi*float64(n-1)/float64(b.Gores)+math.Atan2(q.X, r), math.Hypot(r, q.X), z)
				}, func(x r3.Vec) (r2.Vec, float64) {
					east, north, z := local(x)
					r, side := east*cos+north*sin, north*cos-east*sin
					return r2.Vec{X: side, Y: mean * math.Atan2(z, r)}, math.Hypot(r, z) - mean
				})
			case blank.Shape == flat.Gore:
				middle := 2 * math.Pi * float64(n-1) / float64(b.Gores)
				add(blank, n, func(q r2.Vec, out float64) r3.Vec {
					sin, cos := math.Sincos(q.Y / mean)
					return at(middle+q.X/(mean*cos), (mean+out)*cos, (mean+out)*sin)
				}, func(x r3.Vec) (r2.Vec, float64) {
					east, north, z := local(x)
					level := math.Hypot(east, north)
					turn := math.Remainder(math.Atan2(north, east)-middle, 2*math.Pi)
					lat := math.Atan2(z, level)
					return r2.Vec{X: turn * mean * math.Cos(lat), Y: mean * lat}, math.Hypot(level, z) - mean
				})
			default:
				add(blank, n, discSpace(p, blank, n, at), discFlat(p, blank, n, local))
			}
		}
	}
	if b.Build == design.Zones {
		list = append(list, ringPlaques(p, at, local)...)
	}
	return list
}

// discHeight returns the height of a flat disc at a pole, of which the upper is 1, or 0
// for one that is dished.
func discHeight(p *Part, blank *flat.Blank, n int) float64 {
	b := p.Ball
	mean := b.Radius - p.Metal.Thickness/2
	switch {
	case b.Build == design.Zones:
		return mean
	case blank.Forming.How == "flat":
		pole := design.LowerPole
		if n == 1 {
			pole = design.UpperPole
		}
		across := b.CapAt(pole)
		return math.Sqrt(mean*mean - across*across/4)
	}
	return 0
}

// lobeStep returns the angle that a lobe of a dished cap with straight sides takes up, 0
// for other caps.
func lobeStep(p *Part, height float64) float64 {
	if !p.Ball.Straight || height > 0 {
		return 0
	}
	return 2 * math.Pi / float64(p.Ball.Gores)
}

// discSpace and discFlat place a round piece: the upper is 1, the lower 2.
func discSpace(p *Part, blank *flat.Blank, n int, at func(lon, r, z float64) r3.Vec) func(q r2.Vec, out float64) r3.Vec {
	mean := p.Ball.Radius - p.Metal.Thickness/2
	height := discHeight(p, blank, n)
	way := float64(3 - 2*n)
	step := lobeStep(p, height)
	return func(q r2.Vec, out float64) r3.Vec {
		lon, r := way*math.Atan2(q.Y, q.X), r2.Norm(q)
		if step > 0 {
			// Lobe by lobe: along its middle as a dished cap, and across in proportion.
			turn := lon - step*math.Round(lon/step)
			chord := r * math.Cos(turn)
			level := (mean + out) * math.Sin(2*math.Asin(chord/2/mean))
			side := 0.0
			if chord > 0 {
				side = r * math.Sin(turn) / chord * mean * math.Sin(2*math.Asin(chord/2/mean))
			}
			// Within, a sheet that is creased ends at the plane of the crease.
			side = math.Copysign(min(math.Abs(side), level*math.Tan(step/2)), side)
			return at(lon-turn+math.Atan2(side, level), math.Hypot(level, side), way*(mean+out)*math.Cos(2*math.Asin(chord/2/mean)))
		}
		if height > 0 {
			return at(lon, r, way*(height+out))
		}
		colat := 2 * math.Asin(min(1, r/2/mean))
		return at(lon, (mean+out)*math.Sin(colat), way*(mean+out)*math.Cos(colat))
	}
}

func discFlat(p *Part, blank *flat.Blank, n int, local func(x r3.Vec) (east, north, z float64)) func(x r3.Vec) (r2.Vec, float64) {
	mean := p.Ball.Radius - p.Metal.Thickness/2
	height := discHeight(p, blank, n)
	way := float64(3 - 2*n)
	step := lobeStep(p, height)
	return func(x r3.Vec) (r2.Vec, float64) {
		east, north, z := local(x)
		if step > 0 {
			lon := math.Atan2(north, east)
			middle := step * math.Round(lon/step)
			r := math.Hypot(east, north)
			level, side := r*math.Cos(lon-middle), r*math.Sin(lon-middle)
			colat := math.Atan2(level, way*z)
			chord := 2 * mean * math.Sin(colat/2)
			if colat > 0 {
				side *= chord / (mean * math.Sin(colat))
			}
			turn := way * (middle + math.Atan2(side, chord))
			sin, cos := math.Sincos(turn)
			r = math.Hypot(chord, side)
			return r2.Vec{X: r * cos, Y: r * sin}, math.Hypot(level, z) - mean
		}
		lon, level := way*math.Atan2(north, east), math.Hypot(east, north)
		z *= way
		sin, cos := math.Sincos(lon)
		if height > 0 {
			return r2.Vec{X: level * cos, Y: level * sin}, z - height
		}
		r := 2 * mean * math.Sin(math.Atan2(level, z)/2)
		return r2.Vec{X: r * cos, Y: r * sin}, math.Hypot(level, z) - mean
	}
}

// ringPlaques rolls the rings of a ball of zones, seams at 60 and 120 deg by turns.
func ringPlaques(p *Part, at func(lon, r, z float64) r3.Vec, local func(x r3.Vec) (east, north, z float64)) (list []plaque) {
	b := p.Ball
	mean := b.Radius - p.Metal.Thickness/2
	step := math.Pi / float64(b.Zones+1)
	seams := flat.RingTurns()
	of := map[int][]*flat.Blank{} // by ring, counted from 1 at the lower pole
	blanks := slices.Concat(p.Blanks, p.Fills)
	for i := range blanks {
		if blank := &blanks[i]; blank.Shape != flat.Disc {
			for _, n := range numbersOf(blank) {
				of[n] = append(of[n], blank)
			}
		}
	}
	for ring := 1; ring <= b.Zones; ring++ {
		lat := float64(ring)*step - math.Pi/2
		sign := 1.0
		if lat < -1e-9 {
			sign = -1
		}
		sin, cos := math.Sincos(sign * lat)
		slant := 2 * mean * math.Tan(step/2)
		if !b.EdgeMid {
			slant -= p.Metal.Thickness * math.Tan(step/2)
		}
		slant -= b.Gap
		for _, blank := range of[ring] {
			// The middle line of the ring lies half of its slant above its lower edge, which is 0
			// for a part of it that does not reach there too.
			seam := sign * seams[(ring-1)%2]
			toFlat := func(turn, along float64) r2.Vec {
				if blank.Fan == nil {
					return r2.Vec{X: turn * mean, Y: along + slant/2}
				}
				r := mean*cos/sin - along
				sn, cs := math.Sincos((turn - math.Pi) * sin)
				return r2.Add(blank.Fan.Apex, r2.Vec{X: r * sn, Y: -r * cs})
			}
			offFlat := func(q r2.Vec) (turn, along float64) {
				if blank.Fan == nil {
					return q.X / mean, q.Y - slant/2
				}
				rel := r2.Sub(q, blank.Fan.Apex)
				return math.Pi + math.Atan2(rel.X, -rel.Y)/sin, mean*cos/sin - r2.Norm(rel)
			}
			list = append(list, plaque{
				name: fmt.Sprintf("%s (%d)", blank.Name, ring), outline: blank.Outline, holes: blank.Holes,
				space: func(q r2.Vec, out float64) r3.Vec {
					turn, along := offFlat(q)
					return at(sign*(seam+turn), (mean+out)*cos-along*sin, sign*((mean+out)*sin+along*cos))
				},
				flat: func(x r3.Vec) (r2.Vec, float64) {
					east, north, z := local(x)
					level := math.Hypot(east, north)
					z *= sign
					turn := math.Mod(sign*math.Atan2(north, east)-seam+6*math.Pi, 2*math.Pi)
					return toFlat(turn, z*cos-level*sin), level*cos + z*sin - mean
				},
				over: func(q r2.Vec) [2]r2.Vec {
					turn, along := offFlat(q)
					return [2]r2.Vec{toFlat(turn-2*math.Pi, along), toFlat(turn+2*math.Pi, along)}
				},
				open: func(q r2.Vec) bool {
					turn, along := offFlat(q)
					if r := mean*cos - along*sin; turn*r < 1e-3 || (2*math.Pi-turn)*r < b.Gap*1.1+1e-3 {
						return true // the seam itself
					}
					return onVent(blank.Holes, q)
				},
			})
		}
	}
	return list
}

// A misfit is where pieces do not go together.
type misfit struct {
	a, b *plaque
	by   float64 // mm
	at   r3.Vec
}

// levels are the places through the wall at which it is looked at, as shares of half
// its thickness.
var levels = []float64{-1, -0.5, 0, 0.5, 1}

// putTogether puts a job together and returns the deepest overlap, the widest gap, and of
// which share of all edges it is more than gapRoom.
func putTogether(j *Job) (overlap, gap misfit, open float64, points int) {
	edgePoints, loose := 0, 0
	var all []plaque
	for i := range j.Parts {
		if p := &j.Parts[i]; p.Ball == nil || p.Ball.Build != design.Bought {
			all = append(all, plaques(j, p)...)
		}
	}
	for i := range all {
		a := &all[i]
		var near []*plaque
		for k := range all {
			if k != i && a.box.Min.X < all[k].box.Max.X && a.box.Max.X > all[k].box.Min.X && a.box.Min.Y < all[k].box.Max.Y &&
				a.box.Max.Y > all[k].box.Min.Y && a.box.Min.Z < all[k].box.Max.Z && a.box.Max.Z > all[k].box.Min.Z {
				near = append(near, &all[k])
			}
		}
		look := func(q r2.Vec) (best float64) { // how far it lies off
			if a.trim > 0 && r2.Norm(q) > a.trim+1e-9 {
				return 0 // trimmed off
			}
			best = math.Inf(1)
			for _, l := range levels {
				x := a.space(q, l*a.half)
				points++
				for _, b := range near {
					d := b.depth(x)
					best = min(best, max(0, -d))
					if a.part == b.part {
						d -= a.filed
					}
					if d > overlap.by {
						overlap = misfit{a, b, d, x}
					}
				}
			}
			return best
		}
		// beyond takes from that the groove that is to be filled there, where it matters.
		beyond := func(q r2.Vec, off float64) float64 {
			if off <= min(gap.by, gapRoom) {
				return off
			}
			room := room(a, near, q)
			if a.beside(q) < nearEnough+room {
				return 0 // over there is the hole
			}
			return max(0, off-room)
		}
		a.each(func(q r2.Vec) { look(q) })
		for _, q := range a.rim() {
			if a.part.Ball.Bowl {
				break // open
			}
			if off := beyond(q, look(q)); off > gap.by {
				gap = misfit{a, nil, off, a.space(q, 0)}
			}
		}
		edges := [][]r2.Vec{a.outline}
		for _, h := range a.holes {
			edges = append(edges, h.Outline)
		}
		for _, edge := range edges {
			for k, q := range edge {
				next := edge[(k+1)%len(edge)]
				steps := int(min(12, 1+r2.Norm(r2.Sub(next, q))/3))
				for s := range steps {
					at := r2.Add(q, r2.Scale((float64(s)+0.5)/float64(steps), r2.Sub(next, q)))
					off := look(at)
					if a.open(at) {
						continue
					}
					edgePoints++
					off = beyond(at, off)
					if off > gapRoom {
						loose++
					}
					if off > gap.by {
						gap = misfit{a, nil, off, a.space(at, 0)}
					}
				}
			}
		}
	}
	return overlap, gap, float64(loose) / float64(max(1, edgePoints)), points
}

// A groove is a seam of a ball that is open, at its root or at the outside.
type groove struct {
	wide float64                // mm, at the outside
	off  func(x r3.Vec) float64 // mm, from the surface between the two edges
}

// leanOf returns the angle, in rad, by which the square edges of a ball's gores or rings lean
// from the surface between two.
func leanOf(b *design.Ball) float64 {
	switch b.Build {
	case design.RolledGores:
		return math.Pi / float64(b.Gores)
	case design.Zones:
		return math.Pi / float64(b.Zones+1) / 2
	}
	return 0
}

// groovesOf returns the open seams of a ball: by their geometry, not by what its blanks say.
func groovesOf(p *design.Part) (list []groove) {
	b, t := p.Ball, p.Metal.Thickness
	if b.IsEgg() {
		return eggGroovesOf(p)
	}
	lean := leanOf(b)
	local := func(x r3.Vec) (lon, level, z float64) {
		x = r3.Sub(x, b.Center)
		east, north := r3.Dot(x, b.Prime), r3.Dot(x, r3.Cross(b.Pole, b.Prime))
		return math.Atan2(north, east), math.Hypot(east, north), r3.Dot(x, b.Pole)
	}
	share := 2.0 // of the two edges, at the outside
	if b.EdgeMid {
		share = 1
	}
	seam := b.Gap + share*t*math.Sin(lean)
	// cone is the surface at a latitude, which seen from the pole is level.
	cone := func(latitude, wide float64) {
		list = append(list, groove{wide, func(x r3.Vec) float64 {
			_, level, z := local(x)
			return math.Abs(z*math.Cos(latitude) - level*math.Sin(latitude))
		}})
	}
	switch b.Build {
	case design.Halves:
		cone(0, b.Gap)
	case design.Zones:
		for k := range b.Zones + 1 {
			cone((float64(k)+0.5)*2*lean-math.Pi/2, seam)
		}
		list = append(list, groove{b.Gap, func(x r3.Vec) float64 { // of its own seam
			lon, level, z := local(x)
			ring := int(math.Round((math.Atan2(z, level)+math.Pi/2)/(2*lean))) - 1
			return level * math.Abs(math.Remainder(lon-flat.RingTurns()[(ring+2)%2], 2*math.Pi))
		}})
	default:
		step := 2 * math.Pi / float64(b.Gores)
		list = append(list, groove{seam, func(x r3.Vec) float64 {
			lon, level, _ := local(x)
			return level * math.Abs(math.Sin(math.Remainder(lon-step/2, step)))
		}})
		for k, up := range design.Poles {
			across := b.CapAt(k)
			mean := b.Radius - t/2
			latitude := math.Acos(across / 2 / mean)
			sin, cos := math.Sincos(latitude)
			wide := 0.0
			switch {
			case mean*(1-sin) <= t: // flat
				wide = t * cos
			case b.Straight && !b.EdgeMid:
				wide = t * sin * cos * math.Pow(math.Sin(lean), 2)
			}
			if b.Build == design.RolledGores && !b.Straight {
				wide += across / 2 * (1/math.Cos(lean) - 1) // a sliver
			}
			switch {
			case across == 0:
			case b.Build == design.RolledGores: // gores end level
				list = append(list, groove{b.Gap + wide, func(x r3.Vec) float64 {
					_, _, z := local(x)
					return math.Abs(z - up*mean*sin)
				}})
			default:
				cone(up*latitude, b.Gap+wide)
			}
		}
	}
	return list
}

// room returns how far an edge may lie off at a point of its flat, since a stated gap or
// groove is there: that of its own seam, and that of one that it crosses.
func room(a *plaque, near []*plaque, q r2.Vec) float64 {
	var wide [2]float64 // of its own part and of others
	for _, out := range [3]float64{-a.half, 0, a.half} {
		x := a.space(q, out)
		for _, b := range append(near, a) {
			w := &wide[0]
			if b.part != a.part {
				w = &wide[1]
			}
			*w = max(*w, b.gap)
			for _, g := range b.grooves {
				if g.wide > *w && g.off(x) < g.wide+b.half {
					*w = g.wide
				}
			}
		}
	}
	return wide[0] + wide[1]
}

// ajar reports whether edges do not lie against each other, beyond stated gaps.
func ajar(gap misfit) bool { return gap.by > gapRoom }

// TestTogether puts random sculptures together.
func TestTogether(t *testing.T) {
	rnd, more := rand.New(rand.NewPCG(15, 3)), rand.New(rand.NewPCG(15, 5))
	putAllTogether(t, *sculptures, 6, func() string { return anySculpture(rnd, more) })
}

// TestTogetherWhole puts random sculptures with every kind of part together.
func TestTogetherWhole(t *testing.T) {
	rnd, more := rand.New(rand.NewPCG(15, *first)), rand.New(rand.NewPCG(16, *first))
	putAllTogether(t, *sculptures, 8, func() string { return anyWhole(rnd, more) })
}

// putAllTogether puts sculptures together that are drawn at random, as many as are wanted,
// of so many times as many texts at most.
func putAllTogether(t *testing.T, want, times int, draw func() string) {
	t.Helper()
	type sculpture struct {
		text         string
		job          *Job
		overlap, gap misfit
		open         float64
		points       int
	}
	var all []sculpture
	for n := 0; len(all) < want && n < times*want; n++ {
		text := draw()
		if j := ifSound(text); j != nil {
			all = append(all, sculpture{text: text, job: j})
		}
	}
	workers.Each(len(all), func(i int) {
		s := &all[i]
		s.overlap, s.gap, s.open, s.points = putTogether(s.job)
		s.job = nil
	})
	points := 0
	var most, widest, wide float64
	for n, s := range all {
		points += s.points
		wide = max(wide, s.open)
		most, widest = max(most, s.overlap.by), max(widest, s.gap.by)
		if ajar(s.gap) {
			t.Errorf("%d: an edge of %s lies %.3f mm off at %.2f, and %.2f %% of all do\n%s", n, s.gap.a.name, s.gap.by, s.gap.at, 100*s.open, s.text)
		}
		if s.overlap.by > overlapRoom {
			t.Errorf("%d: %s runs %.3f mm into %s at %.2f\n%s", n, s.overlap.a.name, s.overlap.by, s.overlap.b.name, s.overlap.at, s.text)
		}
	}
	t.Logf("%d sculptures, %d points: at most %.3f mm of overlap, %.3f mm of gap, over %.2f %% of edges more than %v mm", len(all), points, most, widest, 100*wide, gapRoom)
	if len(all) < want {
		t.Errorf("%d sculptures built, want %d", len(all), want)
	}
}

// TestTogetherFinds plants what was once wrong, and wants each to be found.
func TestTogetherFinds(t *testing.T) {
	const text = shop + `
post p on pad { at (0, 0), diameter 40, length 500, courses 3, metal skin }
ball b on p { diameter 300, gores 36, metal skin }
ball c on b { diameter 160, seat 60, zones 5, metal skin }
ball r around p { height 250, diameter 160, gores 8, metal skin }
`
	j := build(t, text)
	if overlap, gap, open, _ := putTogether(j); overlap.by > overlapRoom || ajar(gap) {
		t.Fatalf("%.3f mm of overlap, %.3f mm of gap over %.4f of all edges", overlap.by, gap.by, open)
	}
	whole := func(text string) *Job { return build(t, text) }
	for _, tt := range []struct {
		name  string
		spoil func(j *Job)
	}{
		{"a ball that is not cut where it sits", func(j *Job) {
			other := whole(strings.Replace(text, "ball c on b { diameter 160, seat 60,", "ball c on pad { at (200, 0), diameter 160,", 1))
			j.Parts[indexOf(j, "c")].Blanks = other.Parts[indexOf(other, "c")].Blanks
		}},
		{"a pole left open", func(j *Job) {
			p := &j.Parts[indexOf(j, "b")]
			p.Blanks = slices.DeleteFunc(slices.Clone(p.Blanks), func(b flat.Blank) bool { return b.Shape == flat.Disc })
		}},
		{"gores as wide as at the middle of their sheet", func(j *Job) {
			other := whole(strings.Replace(text, "gores 8,", "gores 8, edge mid,", 1))
			j.Parts[indexOf(j, "r")].Blanks = other.Parts[indexOf(other, "r")].Blanks
		}},
		{"rings as wide as at the middle of their sheet", func(j *Job) {
			other := whole(strings.Replace(text, "zones 5,", "zones 5, edge mid,", 1))
			j.Parts[indexOf(j, "c")].Blanks = other.Parts[indexOf(other, "c")].Blanks
		}},
		{"a ball threaded on a thinner post", func(j *Job) {
			other := whole(strings.Replace(text, "diameter 40, length", "diameter 38, length", 1))
			j.Parts[indexOf(j, "r")].Blanks = other.Parts[indexOf(other, "r")].Blanks
		}},
		{"a ball threaded on a thicker post", func(j *Job) {
			other := whole(strings.Replace(text, "diameter 40, length", "diameter 42, length", 1))
			j.Parts[indexOf(j, "r")].Blanks = other.Parts[indexOf(other, "r")].Blanks
		}},
		{"a course cut too short", func(j *Job) {
			p := &j.Parts[indexOf(j, "p")]
			p.Blanks = slices.Clone(p.Blanks)
			for i := range p.Blanks {
				if courses := courseOf(&p.Blanks[i]); len(courses) == 1 && courses[0] == 2 {
					b := &p.Blanks[i]
					b.Outline = slices.Clone(b.Outline)
					low, _ := span(b.Outline)
					for k := range b.Outline {
						if b.Outline[k].Y > low+1 {
							b.Outline[k].Y -= 1
						}
					}
				}
			}
		}},
		{"a seat cut for another", func(j *Job) {
			other := whole(strings.Replace(text, "seat 60", "seat 62", 1))
			j.Parts[indexOf(j, "c")].Blanks = other.Parts[indexOf(other, "c")].Blanks
		}},
	} {
		j := build(t, text)
		tt.spoil(j)
		if overlap, gap, open, _ := putTogether(j); overlap.by <= overlapRoom && !ajar(gap) {
			t.Errorf("%s is not found: %.3f mm of overlap, %.3f mm of gap over %.4f of all edges", tt.name, overlap.by, gap.by, open)
		}
	}
}
