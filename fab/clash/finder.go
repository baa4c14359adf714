package clash

import (
	"fmt"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
)

// A pair is two parts by their index, the earlier first.
type pair struct{ earlier, later int }

// A finder has the parts of a design as solids, and which of them are joined.
type finder struct {
	parts    []*design.Part
	units    quantity.System
	solids   []body // nil for a base of feet
	joined   map[pair]bool
	grounded []bool      // stands on the ground, or is a base
	group    design.Sets // of parts that are joined
}

func newFinder(d *design.Design) *finder {
	n := len(d.Parts)
	f := &finder{
		parts: d.Parts, units: d.Units, solids: make([]body, n),
		joined: make(map[pair]bool, 2*n), grounded: make([]bool, n), group: design.NewSets(n),
	}
	index := make(map[*design.Part]int, n)
	spheres := make(map[*design.Part]*sphere, n)
	for i, p := range d.Parts {
		index[p] = i
		switch {
		case p.Ball != nil:
			s := newSphere(p)
			spheres[p], f.solids[i] = s, s
		case p.Base != nil:
			f.grounded[i] = true
			if b := p.Base; b.Shape != design.Feet {
				f.solids[i] = &slab{outline: b.Outline(), top: b.Top}
			}
		}
	}
	join := func(p, q *design.Part) {
		i, ok := index[p]
		if !ok {
			return
		}
		j, ok := index[q]
		if !ok {
			f.grounded[i] = true // q is nil: the ground
			return
		}
		if isFeet(p) || isFeet(q) {
			f.grounded[i], f.grounded[j] = true, true
		}
		f.joined[pair{min(i, j), max(i, j)}] = true
		f.group.Join(i, j)
	}
	for i, p := range d.Parts {
		if p.Post == nil {
			continue
		}
		f.solids[i] = newTube(p.Post, spheres[p.Post.Ends[design.Foot].With], spheres[p.Post.Ends[design.Head].With])
		for _, e := range p.Post.Ends {
			if e.Meets != design.Free {
				join(p, e.With)
			}
		}
	}
	for _, j := range d.Joints {
		if j.A == nil {
			join(j.B, j.A)
		} else {
			join(j.A, j.B)
		}
	}
	return f
}

// loose reports each set of parts of which none stands on the ground.
func (f *finder) loose() source.List {
	var list source.List
	stands := make([]bool, len(f.parts))
	size := make([]int, len(f.parts))
	for i := range f.parts {
		size[f.group.Root(i)]++
		stands[f.group.Root(i)] = stands[f.group.Root(i)] || f.grounded[i]
	}
	for i, p := range f.parts {
		r := f.group.Root(i)
		if stands[r] {
			continue
		}
		stands[r] = true // reported once
		with := ""
		if size[r] > 1 {
			with = fmt.Sprintf(", with the parts joined to it (%d in all),", size[r])
		}
		list.Add(p.Span, "join it to a part that stands on the base or the ground",
			"%s '%s'%s is not joined to anything that stands on the ground", p.Kind(), p.Name, with)
	}
	return list
}

// isFeet reports whether a part is a base of feet, so that what is joined to
// it stands on the ground.
func isFeet(p *design.Part) bool { return p.Base != nil && p.Base.Shape == design.Feet }
