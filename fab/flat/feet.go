package flat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// A Foot is where a part stands on a base plate, in the plate's own frame.
type Foot struct {
	Part    string
	At      r2.Vec   // of a post, where its axis meets the plate; of a ball, where it rests; the middle of a ring that lies, or of the line on which it stands
	Outline []r2.Vec // of a post's outside on the plate, or the line on which a ring lies; nil for a ball
	Turned  bool     // it has a seam, or of what is bought a line where its template met, to turn it by
	Seam    r2.Vec   // where that meets the plate, on its outside
	Bearing float64  // rad, of that, in plan
}

// markFeet marks on the blanks of base plates where posts and balls stand on them.
func markFeet(d *design.Design, made []Developed) {
	for i, base := range d.Parts {
		if base.Base == nil || len(made[i].Blanks) == 0 {
			continue
		}
		b := &made[i].Blanks[0]
		for k, p := range d.Parts {
			f := Foot{Part: p.Name}
			switch {
			case p.Post != nil && p.Post.Ends[design.Foot].Meets == design.OnPlate && p.Post.Ends[design.Foot].With == base:
				own := func(q r3.Vec) r2.Vec { return r2.Sub(design.Plan(base.Base.Own(q)), base.Base.At) }
				f.At = own(p.Post.Ends[design.Foot].At)
				for _, q := range made[k].Rims[design.Foot] {
					f.Outline = append(f.Outline, own(q))
				}
				if len(f.Outline) == 0 {
					continue
				}
				// A rim begins at the seam.
				f.Seam, f.Turned = f.Outline[0], p.Post.Bought == nil || templated(&made[k])
				v := r2.Sub(f.Seam, f.At)
				f.Bearing = bearingOf(math.Atan2(v.Y, v.X))
				first := f.Outline[0]
				path := append(f.Outline[:len(f.Outline):len(f.Outline)], first)
				b.Marks = append(b.Marks, Mark{Kind: Standing, From: first, To: first, Path: path, Part: p.Name, Bearing: f.Bearing})
			case p.Post != nil && p.Post.Lies && p.Post.Ring.On == base:
				if p.Post.Ring.Flat && p != p.Post.Ring.Tubes[0] {
					continue // with the first of its ring
				}
				f.lie(p, base)
				path := f.Outline
				if p.Post.Ring.Flat {
					path = append(path[:len(path):len(path)], path[0])
				}
				b.Marks = append(b.Marks, Mark{Kind: Standing, From: path[0], To: path[len(path)-1], Path: path, Part: f.Part})
			case p.Ball != nil && p.Ball.On == base:
				f.At = r2.Vec{X: p.Ball.Center.X, Y: p.Ball.Center.Y}
			default:
				continue
			}
			b.Feet = append(b.Feet, f)
		}
	}
}

// lie sets where a ring lies on a base: by the line of the tube that it stands on, or by those
// of all of its tubes, which close.
func (f *Foot) lie(p, base *design.Part) {
	on := func(x r3.Vec) r2.Vec { return r2.Sub(design.Plan(x), base.Base.At) }
	r := p.Post.Ring
	if r.Flat {
		f.Part, f.At = r.Name, on(r.Center)
		for _, q := range r.Tubes {
			f.Outline = append(f.Outline, on(q.Post.LyingLine()[0]))
		}
		return
	}
	line := p.Post.LyingLine()
	f.Outline = []r2.Vec{on(line[0]), on(line[1])}
	f.At = r2.Scale(0.5, r2.Add(f.Outline[0], f.Outline[1]))
}

// templated reports whether a template is wrapped round what is bought: one that is sawn
// square at both ends has none.
func templated(made *Developed) bool {
	return slices.ContainsFunc(made.Blanks, func(b Blank) bool {
		return slices.ContainsFunc(b.Notes, func(f finding.Fact) bool { _, ok := f.(WrapTemplate); return ok })
	})
}
