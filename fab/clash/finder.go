package clash

import (
	"fmt"

	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
)

// A pair is two parts by their index, the earlier first.
type pair struct{ earlier, later int }

// A finder has the parts of a design with their bodies, and which of them are joined.
type finder struct {
	parts  []*design.Part
	units  quantity.System
	bodies []*solid.Body // of the parts
	joined map[pair]bool
	ties   *design.Ties
	onWall bool
}

func newFinder(d *design.Design, ties *design.Ties, bodies []*solid.Body) *finder {
	f := &finder{parts: d.Parts, units: d.Units, bodies: bodies, joined: make(map[pair]bool, len(ties.List)), ties: ties, onWall: d.Wall() != nil}
	for i := range ties.List {
		t := &ties.List[i]
		f.joined[pair{min(t.A, t.B), max(t.A, t.B)}] = true
	}
	return f
}

// loose reports each set of parts of which none stands on the ground.
func (f *finder) loose() source.List {
	var list source.List
	group := f.ties.Groups()
	size := make([]int, f.ties.Ground+1)
	for i := range f.parts {
		size[group.Root(i)]++
	}
	done := map[int]bool{group.Root(f.ties.Ground): true}
	for i, p := range f.parts {
		r := group.Root(i)
		if done[r] {
			continue
		}
		done[r] = true
		with := ""
		if size[r] > 1 {
			with = fmt.Sprintf(", with the parts joined to it (%d in all),", size[r])
		}
		list.Add(p.Span, "join it to a part that stands on the base or the ground",
			"%s '%s'%s is not joined to anything that stands on the ground", p.Kind(), p.Name, with)
	}
	return list
}
