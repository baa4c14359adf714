package pack

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// A flatDrawing is the drawing of one blank.
type flatDrawing struct {
	*pack
	blank  *flat.Blank
	draw   *draft.Drawing
	scale  float64
	origin r2.Vec
	lo, hi r2.Vec // corners of the rectangle about the flat, in its own frame
	box    r2.Box // of that rectangle on paper
	place  r2.Box // what the flat and its dimensions have of the sheet
	cut    stretch
	family bool // it stands for several: without what is its own
}

func (f *flatDrawing) at(q r2.Vec) r2.Vec {
	p := r2.Add(f.origin, r2.Scale(f.scale, q))
	if c := f.cut; c.length() > 0 && q.Y > c.from {
		p.Y += c.gap*min((q.Y-c.from)/c.length(), 1) - f.scale*min(q.Y-c.from, c.length())
	}
	return p
}

func (f *flatDrawing) path(qs []r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(qs))
	for i, q := range qs {
		out[i] = f.at(q)
	}
	return out
}

// Groups of strokes that a cutting table tells apart.
const (
	cutGroup  = "cut"
	markGroup = "mark"
)

func (f *flatDrawing) all() {
	f.outline()
	f.breakLines()
	f.cutHoles()
	f.standings()
	f.marks()
	f.feet()
	switch f.blank.Shape {
	case flat.Disc:
		f.roundPlate()
	case flat.Plate:
		f.plate()
	case flat.Sector:
		f.stations()
		f.sector()
	default:
		f.stations()
		f.overall()
	}
	f.standingNames()
}

// outline draws the cut edge, and the rectangle to shear where it is another.
func (f *flatDrawing) outline() {
	c := f.blank
	if c.Diameter > 0 {
		a := ink.Circle(ink.Outline, f.at(r2.Vec{}), c.Diameter/2*f.scale)
		a.Group = cutGroup
		f.draw.Put(a)
		return
	}
	if c.Area > 0 && c.Width*c.Length > c.Area*(1+1e-6) && c.Shape == flat.Tube || isSided(c) {
		b := f.box
		f.draw.Put(&ink.Stroke{Line: ink.Phantom, Path: []r2.Vec{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}, Closed: true, Group: markGroup})
	}
	f.draw.Put(&ink.Stroke{Line: ink.Outline, Path: f.path(c.Outline), Closed: true, Group: cutGroup})
}

// marks draws the lines that are laid out on the flat but not cut. Bearings
// are written over a tube.
func (f *flatDrawing) marks() {
	c := f.blank
	var over []label
	for _, m := range c.Marks {
		if f.family && m.Kind == flat.Witness {
			continue
		}
		a, b := f.at(m.From), f.at(m.To)
		switch m.Kind {
		case flat.Witness:
			f.draw.Put(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{a, b}, Group: markGroup})
			over = append(over, label{b.X, bearing(m.Bearing)})
		case flat.CentreLine:
			u := r2.Unit(r2.Sub(b, a))
			f.draw.Put(&ink.Stroke{Line: ink.Centre, Path: []r2.Vec{r2.Sub(a, r2.Scale(3, u)), r2.Add(b, r2.Scale(3, u))}, Group: markGroup})
		case flat.BendLine:
			if c.Shape == flat.Gore {
				break // its stations lie along the rolls
			}
			f.draw.Put(&ink.Stroke{Line: ink.BendLines, Path: []r2.Vec{a, b}, Group: markGroup})
		}
	}
	if c.Fan != nil {
		f.fanBearings()
		return
	}
	if len(over) > 0 && c.Around() > 0 {
		// Bearings grow to the right: x = mean radius times the angle from the seam.
		m := c.Marks[slices.IndexFunc(c.Marks, func(m flat.Mark) bool { return m.Kind == flat.Witness })]
		seam := bearing(m.Bearing - m.From.X/c.Around())
		over = append(over, label{f.box.Min.X, seam}, label{f.box.Max.X, seam})
	}
	f.bearings(over)
	f.rolls()
}

// A label is a text over a place of the flat.
type label struct {
	x    float64
	text string
}

// bearings writes bearings over a flat, upright where they would not fit
// level. Of a tube too narrow for all, the ends come first, then the middle.
func (f *flatDrawing) bearings(labels []label) {
	middle := (f.box.Min.X + f.box.Max.X) / 2
	slices.SortStableFunc(labels, func(a, b label) int {
		rank := func(l label) int {
			switch d := math.Abs(l.x - middle); {
			case d > (f.box.Max.X-f.box.Min.X)*0.49:
				return 0
			case d < 0.01:
				return 1
			}
			return 2
		}
		return rank(a) - rank(b)
	})
	upright := (f.box.Max.X-f.box.Min.X)/4 < 11
	apart := 10.0
	if upright {
		apart = sheet.Small + 0.8
	}
	var taken []float64
	for _, l := range labels {
		if slices.ContainsFunc(taken, func(x float64) bool { return math.Abs(x-l.x) < apart }) {
			continue
		}
		taken = append(taken, l.x)
		t := &ink.Text{At: r2.Vec{X: l.x, Y: f.box.Max.Y + 2.2}, Height: sheet.Small, Anchor: ink.Middle, Text: l.text}
		if upright {
			t.At, t.Anchor, t.Angle = r2.Vec{X: l.x + sheet.Small/2, Y: f.box.Max.Y + 2}, ink.Start, math.Pi/2
		}
		f.draw.Put(t)
	}
}

// rolls draws, beside a tube's flat, the line along which the rolls lie.
func (f *flatDrawing) rolls() {
	if !showsRolls(f.blank) {
		return // the bend lines of a gore show it
	}
	x, y := f.box.Max.X+5, (f.box.Min.Y+f.box.Max.Y)/2
	half := rollsHalf(f.box.Max.Y - f.box.Min.Y)
	f.draw.Arrow(r2.Vec{X: x, Y: y - half}, r2.Vec{X: x, Y: y + half})
	f.draw.Put(&ink.Text{At: r2.Vec{X: x + 1 + sheet.Small, Y: y}, Height: sheet.Small, Angle: math.Pi / 2, Anchor: ink.Middle, Text: rollsText})
}

const rollsText = "rolls lie along this line"

// showsRolls reports whether the line of the rolls is drawn beside a flat.
func showsRolls(b *flat.Blank) bool { return b.Forming.How == "roll" && b.Forming.Axis == "y" }

// rollsHalf is half of the length of that line beside a flat that is so tall on paper.
func rollsHalf(tall float64) float64 {
	return max(ink.Width(rollsText, sheet.Small, ink.Regular)/2, tall*0.3)
}

// overall draws the dimensions of the rectangle about the flat: its width
// below and its length at the left.
func (f *flatDrawing) overall() {
	b := f.box
	below := b.Min.Y
	if f.blank.Shape == flat.Tube && len(f.blank.Ordinates) > 0 {
		below -= 6
	}
	f.draw.Stack(draft.Below, below, []draft.Dim{{From: r2.Vec{X: b.Min.X, Y: below}, To: r2.Vec{X: b.Max.X, Y: below}, Text: f.dim(f.hi.X - f.lo.X), Under: true}})
	f.draw.Stack(draft.Left, b.Min.X, []draft.Dim{{From: b.Min, To: r2.Vec{X: b.Min.X, Y: b.Max.Y}, Text: f.long(), Under: true}})
}

// long is what the length of a flat is dimensioned with.
func (f *flatDrawing) long() string {
	if f.family {
		return "L"
	}
	return f.dim(f.hi.Y - f.lo.Y)
}
