package flat

import (
	"math"

	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
)

// onEdge is how near the seam's edge, in mm, a witness mark counts as on it.
const onEdge = 1e-6

// witness returns the lines at the four quarter bearings that fall inside the
// flat, from cut to cut, between two angles from the seam; on that of a taper the
// radial line at the angle middle is upright.
func (d *developer) witness(ends *[2]trim, on *[2]meeting, from, to, middle float64) []Mark {
	t := ends[0].tube
	marks := make([]Mark, 0, 4)
	for quarter := range 4 {
		bearing := float64(quarter) * math.Pi / 2
		angle := bearingOf(bearing - t.seam)
		if t.mean*(angle-from) <= onEdge || t.mean*(to-angle) <= onEdge {
			continue
		}
		marks = append(marks, Mark{
			Kind:    Witness,
			From:    t.lay(angle, ends[0].height(&on[0], angle), middle),
			To:      t.lay(angle, ends[1].height(&on[1], angle), middle),
			Label:   quantity.Bearing(bearing),
			Bearing: bearing,
		})
	}
	return marks
}

// height returns the height of the curve at an angle from the seam.
func (e *trim) height(on *meeting, angle float64) float64 {
	if e.square {
		return e.curve[0].y
	}
	return e.cut(on, angle).y
}

// ordinates returns the tables from which the trimmed ends are laid out: the
// blank's width in 24 equal spaces, with a station at both ends of each.
func ordinates(foot, head *trim, bottom, top float64) []Ordinates {
	tables := make([]Ordinates, 0, 2)
	for i, e := range [2]*trim{foot, head} {
		if e.square {
			continue
		}
		table := Ordinates{
			Edge:     endName(i),
			Along:    "across the blank from its left edge, the seam",
			Measured: [2]string{"up from the bottom edge of the rectangle", "down from the top edge of the rectangle"}[i],
			Pitch:    e.mean * e.turn / stations,
			Stations: make([]Station, stations+1),
		}
		for k := range table.Stations {
			c := e.even[k*perPitch]
			s := Station{At: e.mean * c.angle, Bearing: bearingOf(e.seam + c.angle), Ordinate: max(0, c.y-bottom)}
			if e.head {
				s.Ordinate = max(0, top-c.y)
			}
			table.Stations[k] = s
		}
		tables = append(tables, table)
	}
	return tables
}

// bearingOf brings an angle into [0, 2 pi).
func bearingOf(angle float64) float64 {
	b := math.Mod(angle, 2*math.Pi)
	if b < 0 {
		b += 2 * math.Pi
	}
	if b >= 2*math.Pi {
		b = 0
	}
	return b
}

// tubeNotes says what the bench must know of a tube's blank.
func (d *developer) tubeNotes(foot, head *trim, bottom, top float64) []string {
	p := d.part.Post
	t := foot.tube
	notes := make([]string, 0, 6)
	notes = append(notes, "Left edge is the seam at bearing "+quantity.Bearing(t.seam)+
		"; outside face up and head up, bearings grow to the right")
	if p.Gap > 0 && t.flare == 0 {
		notes = append(notes, "Width leaves "+d.length(p.Gap)+" of root gap at the seam")
	}
	for i, e := range [2]*trim{foot, head} {
		end := p.Ends[i]
		switch {
		case e.square && t.flare != 0:
			notes = append(notes, "Cut the "+endName(i)+" along its arc")
		case e.square:
			notes = append(notes, "Cut the "+endName(i)+" square")
		default:
			notes = append(notes, "Cut the "+endName(i)+" square through the sheet along its curve, which fits "+
				meetsName(end)+" where the wall touches first")
			if e.scallop >= scallopWorth {
				text := "the " + endName(i) + " follows the lobes of ball '" + end.With.Name +
					"': scallops up to " + d.length(e.scallop) + " deeper than a round ball would ask"
				notes = append(notes, capital(text))
				d.note(finding.Note, text)
			}
		}
	}
	if below := -bottom; below > square {
		notes = append(notes, "Foot reaches "+d.length(below)+" below the point where the axis meets "+meetsName(p.Ends[design.Foot]))
	}
	if b := p.Ends[design.Foot]; b.Meets == design.OnBall && foot.square {
		notes = append(notes, "To mark where it stands, set dividers to "+d.length(dividers(b.With.Ball.Radius, t.outer))+
			" from the middle of the foot on the ball")
	}
	if more := top - t.length; more > square {
		notes = append(notes, "Head reaches "+d.length(more)+" beyond the post's length")
	}
	return notes
}

// dividers returns the opening of dividers that strikes, on a sphere, the
// circle in which a tube of the given radius meets it: the chord from the
// circle's middle on the sphere to the circle.
func dividers(sphere, radius float64) float64 {
	return 2 * sphere * math.Sin(math.Asin(radius/sphere)/2)
}

// meetsName says what an end meets.
func meetsName(end design.End) string {
	switch {
	case end.With != nil && end.Meets == design.OnSide:
		return "the side of post '" + end.With.Name + "'"
	case end.With != nil && end.Meets == design.OnHead:
		return "the end of post '" + end.With.Name + "'"
	case end.With != nil:
		return end.With.Kind() + " '" + end.With.Name + "'"
	case end.Meets == design.OnPlate:
		return "the ground"
	}
	return "nothing"
}

// scallopWorth is the least depth of scallop, in mm, that is worth telling:
// what a steel rule reads.
const scallopWorth = 0.1
