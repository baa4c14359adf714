package pack

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/render/words"
)

// ringOf returns the ring of which a part is a tube, nil for others, and whether it is the
// first of them, which stands for the ring where parts are listed.
func ringOf(p *fab.Part) (r *design.Ring, first bool) {
	if p.Post == nil || p.Post.Ring == nil {
		return nil, false
	}
	return p.Post.Ring, p.Post.Ring.Tubes[0] == p.Part
}

// listed returns how many things the lists of parts have: a ring is one.
func (k *pack) listed() int {
	n := 0
	for i := range k.job.Parts {
		if r, first := ringOf(&k.job.Parts[i]); r == nil || first {
			n++
		}
	}
	return n
}

// ringSize returns what a ring measures, in the words of a note beside it.
func (k *pack) ringSize(r *design.Ring) []string {
	post := r.Tubes[0].Post
	way := "facing " + bearing(design.BearingOf(r.Axis))
	if r.Flat {
		way = "level, tube 1 toward " + bearing(design.BearingOf(r.First))
	}
	return []string{
		fmt.Sprintf("ring of %d, Ø%s × %s", len(r.Tubes), k.fine(post.Ends[design.Foot].Diameter), k.fine(post.Length)),
		k.fine(r.Across) + " across, corners " + k.fine(r.Corner()) + " out of round", way,
	}
}

// ringSetting returns what the table for setting out has of a ring: its centre.
func (k *pack) ringSetting(r *design.Ring) (at r3.Vec, point, across, length, cell string) {
	post := r.Tubes[0].Post
	across, length = k.diameters(post), k.fine(post.Length)
	return r.Center, "centre", across, length, r.Name + ", " + k.fine(r.Across) + " across\n" + fmt.Sprintf("%d × Ø%s × %s", len(r.Tubes), across, length)
}

// ringRow returns the row of a ring in the list of parts; part i is its first tube.
func (k *pack) ringRow(i int, r *design.Ring, metal string) []string {
	var numbers []int
	var names []string
	var parts []*fab.Part
	mass := 0.0
	for n := range k.job.Parts {
		p := &k.job.Parts[n]
		if of, _ := ringOf(p); of == r {
			numbers, names, parts, mass = append(numbers, n+1), append(names, p.Name), append(parts, p), mass+p.Mass
		}
	}
	blanks, sheets := k.blanksOf(parts...)
	return []string{
		words.Runs(numbers), words.Names(names), what(&k.job.Parts[i]), metal, strings.Join(k.ringSize(r), ", "),
		k.units.Weight(mass), blanks, sheets,
	}
}
