package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
)

// A setting is what the parts of a design know of each other.
type setting struct {
	units    quantity.System
	sheets   []design.Sheet
	surfaces map[*design.Part]solid.Surface // the outsides of balls, as far as asked for
	standing map[*design.Part][]standing    // what stands on a part
	threaded map[*design.Part][]thread      // the balls that a post goes through

	// Room for the curves of a post's two ends and for its outline, used again
	// from one post to the next.
	curves  [2][]point
	outline []r2.Vec
}

// A standing is a closed line on the outside of a part where another meets it.
type standing struct {
	part *design.Part // the other
	line []r3.Vec
}

// A thread is a ball on a post, with the two lines in which the outside of the
// post comes out of it.
type thread struct {
	ball  *design.Part
	lines [2][]r3.Vec
}

func newSetting(units quantity.System, sheets []design.Sheet) *setting {
	return &setting{units: units, sheets: sheets}
}

// outside returns the outside of a ball, worked out once.
func (s *setting) outside(p *design.Part) solid.Surface {
	if made, ok := s.surfaces[p]; ok {
		return made
	}
	if s.surfaces == nil {
		s.surfaces = make(map[*design.Part]solid.Surface)
	}
	made := Outside(p)
	s.surfaces[p] = made
	return made
}

// stand enters a post with the parts that its ends stand on.
func (s *setting) stand(p *design.Part, made *Developed) {
	for i, end := range [2]design.End{p.Post.FootEnd, p.Post.HeadEnd} {
		if len(made.Toes[i]) > 0 {
			s.meet(end.With, standing{p, made.Toes[i]})
		}
	}
}

func (s *setting) meet(host *design.Part, with standing) {
	if s.standing == nil {
		s.standing = make(map[*design.Part][]standing)
	}
	s.standing[host] = append(s.standing[host], with)
}

// seatPoints is the number of points of the circle in which two balls are
// welded.
const seatPoints = 96

// seats enters the circles in which balls rest on balls. Of a pair that is
// lobed or zoned it is the circle of their spheres.
func (s *setting) seats(joints []design.Joint) {
	for _, j := range joints {
		if j.A == nil || j.B == nil || j.A.Ball == nil || j.B.Ball == nil {
			continue
		}
		center, radius, normal := SeatCircle(j.A.Ball, j.B.Ball)
		if !(radius > 0) {
			continue
		}
		x, y := design.Tilt(normal)
		line := make([]r3.Vec, seatPoints)
		for i := range line {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / seatPoints)
			line[i] = r3.Add(center, r3.Add(r3.Scale(radius*cos, x), r3.Scale(radius*sin, y)))
		}
		s.meet(j.A, standing{j.B, line})
		s.meet(j.B, standing{j.A, line})
	}
}

// SeatCircle returns the circle in which the spheres of two balls cut each
// other, with the unit vector square to it from the first to the second. Its
// radius in mm is 0 where they do not.
func SeatCircle(a, b *design.Ball) (center r3.Vec, radius float64, normal r3.Vec) {
	between := r3.Sub(b.Center, a.Center)
	d := r3.Norm(between)
	if d == 0 {
		return a.Center, 0, design.Upright
	}
	normal = r3.Scale(1/d, between)
	along := (d*d + (a.Radius-b.Radius)*(a.Radius+b.Radius)) / (2 * d)
	square := (a.Radius - along) * (a.Radius + along)
	return r3.Add(a.Center, r3.Scale(along, normal)), math.Sqrt(max(0, square)), normal
}

// length writes a length in both of the shop's systems, that of the design
// first.
func (s *setting) length(mm float64) string {
	first, second := quantity.Millimetre, quantity.Inch
	if s.units == quantity.Inch {
		first, second = second, first
	}
	return first.Exact(mm) + " (" + second.Exact(mm) + ")"
}

// fits reports whether a blank fits one of the sheets of its metal, or none is
// known.
func (s *setting) fits(m *design.Metal, width, length float64) bool {
	known := false
	for i := range s.sheets {
		sheet := &s.sheets[i]
		if sheet.Metal != m && (sheet.Metal == nil || m == nil || sheet.Metal.Name != m.Name) {
			continue
		}
		known = true
		w, l := sheet.Width-2*sheet.Trim, sheet.Length-2*sheet.Trim
		if width <= w && length <= l || sheet.Turn && width <= l && length <= w {
			return true
		}
	}
	return !known
}
