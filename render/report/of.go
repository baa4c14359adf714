package report

import (
	"cmp"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/flat"
	"stabile/fab/stand"
	"stabile/param/design"
	"stabile/render/words"
)

// Of returns a job as a document. Numbers are rounded to six decimals of
// their unit, a nanometre or a milligram, which hides what is left of rounding
// in the arithmetic; the job itself keeps them whole.
//
// The shop's plan is part of it where the design describes a shop, and where the
// plan has been asked for.
func Of(j *fab.Job) *Document {
	r := withoutParts(j)
	w := words.In(j.Design.Units)
	for i := range j.Parts {
		r.Parts = append(r.Parts, partOf(w, &j.Parts[i]))
	}
	return r
}

func withoutParts(j *fab.Job) *Document {
	d := j.Design
	w := words.In(d.Units)
	r := &Document{
		Report: 2, Design: d.Title, Revision: d.Fingerprint, Variation: d.Variation,
		Variations:   append([]string{}, d.Variations...),
		Adjust:       []Adjust{},
		Size:         sizeOf(j.Size),
		Mass:         massOf(j.Mass),
		CG:           point3(j.CG),
		Parts:        []Part{},
		Requirements: []Requirement{},
		Findings:     []Finding{},
		Checks:       []Check{},
		Verdict:      string(j.Verdict),
		VerdictText:  w.LastWord(j),
	}
	if d.Source != nil {
		r.Source = d.Source.Name
	}
	for _, ring := range d.Rings {
		out := Ring{Name: ring.Name, Center: point3(ring.Center), Axis: point3(ring.Axis), Across: six(ring.Across), Corner: six(ring.Corner())}
		for _, p := range ring.Tubes {
			out.Tubes = append(out.Tubes, p.Name)
		}
		r.Rings = append(r.Rings, out)
	}
	for _, v := range d.Revisions {
		r.Revisions = append(r.Revisions, Revision(v))
	}
	for _, a := range d.Adjust {
		r.Adjust = append(r.Adjust, AdjustOf(a))
	}
	if len(j.Tipping.Edges) > 0 {
		r.Tipping = tippingOf(w, j.Tipping)
		if s := j.Strength; s != nil && s.Anchors != nil {
			r.Tipping.AnchorTension = pointer(s.Anchors.Tension)
		}
	}
	if j.Wind != nil {
		r.Wind = windOf(w, j.Wind)
	}
	if j.Strength != nil {
		r.Strength = strengthOf(w, j.Strength)
	}
	if j.Plan != nil {
		r.Shop = shopOf(w, j.Plan)
	}
	for i := range j.Checks {
		r.Checks = append(r.Checks, checkOf(w, &j.Checks[i]))
	}
	for i := range j.Requirements {
		r.Requirements = append(r.Requirements, requirementOf(w, &j.Requirements[i]))
	}
	for _, f := range j.Findings {
		r.Findings = append(r.Findings, Finding{
			Level: string(f.Level), Concern: string(f.Concern), Parts: append([]string{}, f.Parts...), Check: f.Check, Text: w.Finding(f),
		})
	}
	return r
}

func partOf(w words.Writer, p *fab.Part) Part {
	out := Part{
		Name: p.Name, Kind: p.Kind(),
		Mass: six(p.Mass), Low: six(p.Low), High: six(p.High), CG: point3(p.CG),
		Seam: six(p.Seam), Joints: []Joint{}, Blanks: []Blank{},
	}
	if m := p.Metal; m != nil {
		out.Metal, out.Alloy, out.Thickness = m.Name, m.Alloy, six(m.Thickness)
	}
	switch {
	case p.Post != nil:
		foot, head := point3(p.Post.Ends[design.Foot].At), point3(p.Post.Ends[design.Head].At)
		out.Foot, out.Head = &foot, &head
		out.Sunk, out.Pier = six(p.Post.Sunk), six(p.Post.Pier)
		for _, along := range p.Rounds {
			out.Rounds = append(out.Rounds, six(along))
		}
		out.Diameter = &[2]float64{six(p.Post.Ends[design.Foot].Diameter), six(p.Post.Ends[design.Head].Diameter)}
	case p.Ball != nil:
		center, radius := point3(p.Ball.Center), six(p.Ball.Radius)
		out.Center, out.Radius = &center, &radius
		if b := p.Ball; b.IsEgg() {
			pole := point3(b.Pole)
			out.Tall, out.Pole = six(b.Tall), &pole
		}
		if b := p.Ball; b.Bowl {
			rim, depth, mouth := six(2*b.RimRadius()), six(b.Depth()), point3(b.Mouth())
			out.Rim, out.Depth, out.Mouth = &rim, &depth, &mouth
		}
		if r := p.Round; r != nil {
			out.Roundness = &Roundness{Greatest: six(r.Greatest), Mean: six(r.Mean)}
		}
	case p.Base != nil:
		out.Shape = p.Base.Shape.String()
		out.Size = &Point2{six(p.Base.Width), six(p.Base.Depth)}
		out.Wall = six(p.Base.Wall)
		out.Block, out.Footing = blockBelow(p.Base.Block), blockBelow(p.Base.Footing)
	}
	for _, w := range p.Welds {
		out.Joints = append(out.Joints, Joint{With: w.With, At: w.At, Weld: six(w.Length)})
	}
	for i := range p.Blanks {
		out.Blanks = append(out.Blanks, blankOf(w, &p.Blanks[i]))
	}
	return out
}

// shorten leaves out what only a drawing or a cutting table needs.
func (p *Part) shorten() {
	for i := range p.Blanks {
		b := &p.Blanks[i]
		b.Outline, b.Holes, b.Marks, b.Ordinates = nil, nil, nil, nil
	}
}

func blankOf(w words.Writer, b *flat.Blank) Blank {
	out := Blank{
		Name:     b.Name,
		Shape:    [...]string{flat.Tube: "tube", flat.Gore: "gore", flat.Disc: "disc", flat.Plate: "plate", flat.Sector: "sector"}[b.Shape],
		Quantity: b.Quantity, Width: six(b.Width), Length: six(b.Length), Area: six(b.Area), Mass: six(b.Mass),
		Face: "outside", Outline: points(b.Outline), Holes: [][]Point2{}, Chord: flat.Chord,
		Diameter: six(b.Diameter), Allowance: six(b.Allowance),
		Forming: Forming{
			How: b.Forming.How, Axis: b.Forming.Axis, MeanRadius: six(b.Forming.MeanRadius),
			Crown: six(b.Forming.Crown), Stretch: six(b.Forming.Stretch), Bow: six(b.Forming.Bow),
		},
		Notes: w.Notes(b.Notes),
	}
	out.Template = b.Bought != nil
	if f := &b.Forming; f.Egg[0] > 0 {
		out.Forming.Egg, out.Forming.Bends = &Point2{six(f.Egg[0]), six(f.Egg[1])}, &Point2{six(f.Bends[0]), six(f.Bends[1])}
	}
	if b.Shape == flat.Plate {
		out.Face = "top"
	}
	if b.Metal != nil {
		out.Thickness = six(b.Metal.Thickness)
	}
	if f := b.Fan; f != nil {
		out.Sector = &Sector{
			Apex: point2(f.Apex), Small: six(f.Small), Large: six(f.Large), Angle: *degrees(f.Angle), Chord: six(f.Chord), Gap: six(f.Gap),
		}
		if l := f.Long; l != nil {
			c := Chords{Large: six(l.Large.Chord), Small: six(l.Small.Chord), Apart: six(l.Apart), Step: six(l.Step)}
			for _, h := range l.Large.Heights {
				c.OfLarge = append(c.OfLarge, six(h))
			}
			for _, h := range l.Small.Heights {
				c.OfSmall = append(c.OfSmall, six(h))
			}
			out.Sector.Chords = &c
		}
		out.Forming.Radii = &Point2{six(b.Forming.Radii[0]), six(b.Forming.Radii[1])}
	}
	for _, h := range b.Holes {
		out.Holes = append(out.Holes, points(h.Outline))
	}
	for _, m := range b.Marks {
		mark := Mark{
			Kind: [...]string{flat.Witness: "witness", flat.CentreLine: "centre", flat.BendLine: "bend", flat.Standing: "standing"}[m.Kind],
			From: point2(m.From), To: point2(m.To), Label: w.Mark(&m), Piece: m.Piece,
		}
		if m.Path != nil {
			mark.Path = points(m.Path)
		}
		if m.Kind == flat.Witness {
			mark.Bearing = degrees(m.Bearing)
		}
		out.Marks = append(out.Marks, mark)
	}
	for _, o := range b.Ordinates {
		table := Ordinates{Edge: string(o.Edge), Along: words.Station(o.From), Measured: words.Ordinate(o.From), Pitch: six(o.Pitch), Stations: []Point2{}}
		for _, s := range o.Stations {
			table.Stations = append(table.Stations, Point2{six(s.At), six(s.Ordinate)})
		}
		out.Ordinates = append(out.Ordinates, table)
	}
	return out
}

// findingOf returns a finding. Its part is the first of those that it is about.

func tippingOf(w words.Writer, t *stand.Tipping) *Tipping {
	out := &Tipping{
		Target: six(t.Target), TipAngle: *degrees(t.Bare.TipAngle), TipEdge: t.Bare.TipEdge, Ballasted: *degrees(t.TipAngle),
		Edges: []Edge{}, BallastFails: t.BallastFails,
	}
	if t.WindToTip > 0 {
		out.WindToTip = pointer(t.WindToTip)
	}
	if t.Loaded {
		out.Bare, out.Minimum, out.MinimumOf = pointer(t.Bare.Factor), pointer(t.Method.LeastFactor()), t.Method.Source
		edge := t.WorstEdge
		out.Factor, out.WorstEdge, out.WorstCase = pointer(t.Factor), &edge, w.Case(t.WorstCase)
		if !t.BallastFails {
			out.Ballast = pointer(t.Ballast)
		}
	}
	if s := t.Sliding; s != nil {
		out.Sliding = &Sliding{
			Factor: six(s.Factor), Friction: stand.Friction, Holding: six(s.Holding), Driving: six(s.Driving), Case: w.Case(s.Case),
		}
	}
	for _, e := range t.Edges {
		edge := Edge{
			From: point2(e.From), To: point2(e.To), Lever: six(e.Lever),
			TipAngle: *degrees(e.TipAngle), Restoring: six(e.Restoring / 1e3), Case: w.Case(e.Case),
		}
		if e.Case.Kind != check.NoLoad {
			edge.Overturning, edge.Factor = pointer(e.Overturning/1e3), pointer(e.Factor)
		}
		out.Edges = append(out.Edges, edge)
	}
	return out
}

// sizeOf returns the size as the report has it.
func sizeOf(s fab.Size) Size {
	return Size{Width: six(s.Width), Depth: six(s.Depth), Height: six(s.Height)}
}

// blockBelow returns the block that a plate is bolted to; nil for none.
func blockBelow(k design.Block) *Block {
	if !k.Given() {
		return nil
	}
	return &Block{Of: string(cmp.Or(k.Of, design.Concrete)), Size: Point3{six(k.Width), six(k.Depth), six(k.Height)}, Mass: six(k.Mass())}
}

// massOf returns the mass as the report has it.
func massOf(m fab.Mass) Mass {
	return Mass{Total: six(m.Total), Low: six(m.Low), High: six(m.High), Weld: six(m.Weld), Ballast: six(m.Ballast), Block: six(m.Block)}
}

// AdjustOf gives an adjustable value in the units of the report.
func AdjustOf(a design.Adjustable) Adjust {
	unit, scale := unitOf(a.Value.Dim)
	return Adjust{
		Name: a.Name, Unit: unit,
		Value: six(a.Value.Number / scale), From: six(a.From.Number / scale), To: six(a.To.Number / scale), Step: six(a.Step.Number / scale),
	}
}

// Rounded returns a number as the report has it, to six decimals.
func Rounded(x float64) float64 { return six(x) }

// six rounds to six decimals. Numbers too large to have any are left alone.
func six(x float64) float64 {
	if math.Abs(x) < 1e9 {
		x = math.Round(x*1e6) / 1e6
	}
	return x + 0 // makes a negative zero plain
}

func pointer(x float64) *float64 { x = six(x); return &x }

func degrees(rad float64) *float64 { return pointer(rad * 180 / math.Pi) }

func point2(p r2.Vec) Point2 { return Point2{six(p.X), six(p.Y)} }
func point3(p r3.Vec) Point3 { return Point3{six(p.X), six(p.Y), six(p.Z)} }

func points(list []r2.Vec) []Point2 {
	out := make([]Point2, len(list))
	for i, p := range list {
		out[i] = point2(p)
	}
	return out
}
