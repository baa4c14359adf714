package inspect

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A pathData reads the data of a path: the commands M, L, A and Z in either case,
// and q, as sheets have them.
type pathData struct {
	rest    string
	command byte
	at      r2.Vec

	points []r2.Vec // of all pieces, one after the other
	sum    outline  // what the pieces' polygons come to
	err    error
}

// read returns the pieces of the path, closed ones ending where they began. The
// control points of curves are kept: the curve lies within them.
func (d *pathData) read() ([][]r2.Vec, error) {
	var ends []int // in points, where the pieces end
	begin := 0
	flush := func() {
		if len(d.points) > begin+1 {
			ends = append(ends, len(d.points))
		} else {
			d.points = d.points[:begin]
		}
		begin = len(d.points)
	}
	d.points = make([]r2.Vec, 0, len(d.rest)/5+2) // a point takes more than that many letters, as a rule
	var start r2.Vec
	for len(d.rest) > 0 && d.err == nil {
		if c := d.rest[0]; c >= 'A' {
			d.command, d.rest = c, d.rest[1:]
		}
		switch d.command {
		case 'M', 'm':
			flush()
			d.at = d.point()
			d.points, start = append(d.points, d.at), d.at
			d.command-- // what follows without a letter is a line
		case 'L', 'l':
			d.to(d.point())
		case 'q':
			c := d.point()
			end := d.point()
			d.to(c)
			d.to(end)
		case 'A':
			d.arc()
		case 'Z', 'z':
			d.to(start)
			flush()
			d.points = append(d.points, d.at)
		default:
			return nil, fmt.Errorf("path command %q", d.command)
		}
	}
	flush()
	pieces := make([][]r2.Vec, len(ends))
	begin = 0
	for i, end := range ends {
		pieces[i], begin = d.points[begin:end:end], end
	}
	return pieces, d.err
}

// to draws a side.
func (d *pathData) to(p r2.Vec) {
	d.sum.to(d.at, p)
	d.points, d.at = append(d.points, p), p
}

// point reads a point. A small command counts from where the pen is.
func (d *pathData) point() r2.Vec {
	p := r2.Vec{X: d.number(), Y: d.number()}
	if d.command >= 'a' {
		p.X, p.Y = p.X+d.at.X, p.Y+d.at.Y
	}
	return p
}

// number reads a decimal number. Its digits make a whole number that a float64
// holds exactly, and so does the power of ten that divides it.
func (d *pathData) number() float64 {
	s, n := d.rest, 0
	for n < len(s) && (s[n] == ' ' || s[n] == ',') {
		n++
	}
	negative := n < len(s) && s[n] == '-'
	if negative {
		n++
	}
	whole, power, digits, point := 0.0, 1.0, 0, false
	for ; n < len(s); n++ {
		switch c := s[n]; {
		case c >= '0' && c <= '9':
			whole = 10*whole + float64(c-'0')
			digits++
			if point {
				power *= 10
			}
			continue
		case c == '.' && !point:
			point = true
			continue
		}
		break
	}
	if digits == 0 || digits > 15 {
		d.err = fmt.Errorf("no number in path data at %.20q", s)
	}
	d.rest = s[n:]
	if negative {
		whole = -whole
	}
	return whole / power
}

// arcPieces is the number of chords in which an arc of a path is looked at.
const arcPieces = 24

// arc reads an arc of at most half a turn that is drawn against the sense of the
// angles of SVG.
func (d *pathData) arc() {
	r := d.number()
	for _, want := range [...]float64{r, 0, 0, 0} {
		if d.number() != want && d.err == nil {
			d.err = fmt.Errorf("an arc of an unknown kind before %.20q", d.rest)
		}
	}
	from, to := d.at, d.point()
	half := r2.Scale(0.5, r2.Sub(to, from))
	l := r2.Norm(half)
	h := math.Sqrt(max(r*r-l*l, 0))
	center := r2.Add(r2.Add(from, half), r2.Scale(h/max(l, 1e-9), r2.Vec{X: half.Y, Y: -half.X}))
	a := math.Atan2(from.Y-center.Y, from.X-center.X)
	b := math.Atan2(to.Y-center.Y, to.X-center.X)
	for b > a {
		b -= 2 * math.Pi
	}
	for i := 1; i <= arcPieces; i++ {
		sin, cos := math.Sincos(a + (b-a)*float64(i)/arcPieces)
		d.points = append(d.points, r2.Vec{X: center.X + r*cos, Y: center.Y + r*sin})
	}
	d.at = to
}
