// Package fab takes a design to metal: the blanks of every part, what each part
// and the whole weighs, whether it stands, and what there is to say of it. It
// knows nothing of drawing.
package fab

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/clash"
	"stabile/fab/flat"
	"stabile/fab/solid"
	"stabile/fab/stand"
	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/source"
)

// Build works out a design, with what is wanted. The job is nil when the list,
// which is sorted, is not empty: parts that cannot be made, that run into each
// other or that are tied to nothing.
func Build(d *design.Design, want Want) (*Job, source.List) {
	if len(d.Parts) == 0 {
		var wrong source.List
		wrong.Add(source.Span{File: d.Source}, "declare a base, a post or a ball", "the design has no part")
		return nil, wrong
	}
	j := &Job{Design: d, Parts: make([]Part, len(d.Parts)), Ties: d.Ties()}
	b := builder{Job: j, want: want}
	develop := flat.Unmarked
	if want&WithMarks != 0 {
		develop = flat.All
	}
	made, wrong := develop(d)
	b.bodies = make([]*solid.Body, len(d.Parts))
	if len(wrong) > 0 { // a part that cannot be made has no shape to run into others with
		wrong.Sort()
		return nil, wrong
	}
	for i := range made {
		b.bodies[i] = made[i].Body
		j.Parts[i] = part(made[i])
		b.made = append(b.made, made[i].Findings...)
		b.making = append(b.making, made[i].Checks...)
	}
	if want&AllowClashes == 0 {
		if wrong = clash.Find(d, j.Ties, b.bodies); len(wrong) > 0 {
			wrong.Sort()
			return nil, wrong
		}
	}
	b.unjoined()
	if want&WithMarks != 0 {
		flat.MarkStanding(d, made)
	}
	j.join()
	j.weigh()
	j.measure()
	var err error
	if j.Wind, err = wind.On(d, b.bodies, wind.Options{}); err != nil {
		wrong.Add(source.Span{File: d.Source}, "give the site a method with its exposure or terrain", "%v", err)
		return nil, wrong
	}
	tipping := stand.TipInWind(j.footprint(), j.weight(), d.Site, j.Wind, d.TippingTarget)
	j.ballast(&tipping)
	j.Tipping = &tipping
	if want&WithGale != 0 {
		if tipping.WindToTip, tipping.WindBy, err = stand.WindToTip(d, b.bodies, j.footprint(), j.weight()); err != nil {
			wrong.Add(source.Span{File: d.Source}, "give the site a method with its exposure or terrain", "%v", err)
			return nil, wrong
		}
	}
	b.finish()
	return j, nil
}

// part returns a part with its mass between the bounds of its thickness.
func part(dev flat.Developed) Part {
	p := dev.Body.Part
	out := Part{
		Part: p, Body: dev.Body, Mass: dev.Mass, Low: dev.Mass, High: dev.Mass,
		CG: dev.CG, Seam: dev.Seam, Seams: dev.Seams, Blanks: dev.Blanks, Round: dev.Round, Rounds: dev.Rounds, Fills: dev.Fills, Openings: dev.Openings,
	}
	// A bought ball weighs what it weighs.
	bought := p.Ball != nil && p.Ball.Build == design.Bought
	if m := p.Metal; m != nil && m.Thickness > 0 && !bought {
		out.Low = dev.Mass * max(0, m.Thickness-m.Tolerance) / m.Thickness
		out.High = dev.Mass * (m.Thickness + m.Tolerance) / m.Thickness
	}
	if p.Post != nil {
		for i, end := range p.Post.Ends {
			if end.Meets == design.Free || end.With == nil {
				continue // free, or standing on the ground without a weld
			}
			if i == design.Head && end.Meets == design.OnHead && !p.Post.Between {
				continue // reported at the end of the other
			}
			out.Welds = append(out.Welds, Weld{With: end.With.Name, At: [...]string{"foot", "head"}[i], Length: dev.Welds[i]})
		}
	}
	if p.Ball != nil && p.Ball.Around != nil {
		out.Welds = append(out.Welds, Weld{With: p.Ball.Around.Name, At: "thread", Length: dev.Thread})
	}
	return out
}

// weight returns what holds the whole down.
func (j *Job) weight() stand.Weight {
	w := stand.Weight{Mass: j.Mass.Total, CG: j.CG, Top: j.Size.Max.Z, Ballast: j.Mass.Ballast}
	b := j.Design.Base()
	if b == nil {
		w.Feet, w.Sunk = true, j.Design.Sunk()
		if j.Design.Planted() {
			for _, p := range j.Design.Pads() {
				w.Anchors += p.Base.Anchors
			}
		}
		return w
	}
	w.Lies, w.Anchors, w.Hung = b.Base.Top, b.Base.Anchors, b.Base.OnWall()
	if j.Mass.Block > 0 {
		// The anchors hold the plate to the block, and nothing holds that to the ground.
		w.Anchors, w.Block = 0, true
		w.Mass += j.Mass.Block
		at := r3.Vec{Z: b.Base.Under() / 2}
		w.CG = centroid(r3.Add(r3.Scale(j.Mass.Total, j.CG), r3.Scale(j.Mass.Block, at)), w.Mass)
	}
	return w
}

// footprint returns what the whole stands on: the outline of the plate or disc,
// else the hull of the feet of the posts that stand on the ground, of the points in
// which balls touch it and of the lines in which rings lie on it. It is nil for a piece that is
// set in concrete in the ground, and for one on a wall.
func (j *Job) footprint() []r2.Vec {
	if b := j.Design.Base(); b != nil {
		if b.Base.OnWall() {
			return nil
		}
		if k := b.Base.Block; k.Given() {
			return k.Outline().Corners
		}
		return stand.Plate(b.Base)
	}
	if j.Design.Sunk() {
		return nil
	}
	var points []r2.Vec
	for _, p := range j.Parts {
		switch {
		case p.Base != nil:
			points = append(points, stand.Plate(p.Base)...)
		case p.Post != nil:
			for i, end := range p.Post.Ends {
				if end.Meets == design.OnPlate && end.With == nil {
					points = append(points, stand.Ring(p.Post, p.Metal.Thickness, p.Body.Rims[i])...)
				}
			}
			if p.Post.Lies {
				line := p.Post.LyingLine()
				points = append(points, design.Plan(line[0]), design.Plan(line[1]))
			}
		case p.Ball != nil:
			if at := p.Lowest(); at.Z <= design.Touch {
				points = append(points, design.Plan(at))
			}
		}
	}
	return stand.Hull(points)
}

// centroid returns the centre of gravity of masses; the origin for none.
func centroid(sum r3.Vec, mass float64) r3.Vec {
	if !(mass > 0) {
		return r3.Vec{}
	}
	return r3.Scale(1/mass, sum)
}
