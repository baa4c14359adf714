package flat

import (
	"math"

	"stabile/fab/finding"
	"stabile/param/design"
)

// A cone with a point is of sheet up to where its inside closes: beyond there the square
// edges of its seam would run into each other. The rest is built up with weld and dressed
// to the point.

// gapsAway is how many times the gap of its seam the sheet of a cone with a point ends from
// where it would come to a point, at the least: nearer, an edge parallel to the seam is
// no edge along it.
const gapsAway = 2

// blunt returns the height along the wall at which the sheet of a cone with a point ends:
// where its inside comes to nothing, or before that where what is left beside the gap of
// the seam is as narrow as can be welded.
func (t *tube) blunt(thick, gap, narrow float64) float64 {
	end := max(thick/2*t.cos, (narrow+gap)/(2*math.Pi), gapsAway*gap*-t.sin)
	return (t.mean - end) / -t.sin
}

// point adds the weld that closes a cone at its point, and says so.
func (d *developer) point(t *tube) {
	p := d.part.Post
	bore, skin := t.girth(t.length)-(t.outer-t.mean)*t.cos, t.skin(t.length)
	high := skin / math.Abs(t.sin) * t.cos // from the outer edge of the sheet's end to the point
	// The cone above the outer edge, and that within the edge, which is square through
	// the sheet: down to the inner edge it is a frustum.
	deep := (t.outer - t.inner) * math.Abs(t.sin)
	volume := math.Pi / 3 * (skin*skin*high + deep*(skin*skin+skin*bore+bore*bore))
	d.sew(Seam{Kind: PointFill, Count: 1, Length: 2 * math.Pi * t.girth(t.length), Bearing: t.seam, Volume: volume})
	b := &d.Blanks[len(d.Blanks)-1]
	b.Notes = append(b.Notes, BuildPoint{Height: high, Across: 2 * skin})
	d.Findings = append(d.Findings, finding.Finding{
		Level: finding.Caution, Concern: finding.Life, Parts: []string{d.part.Name}, Fact: SharpPoint{p.Ends[design.Head].At.Z},
	})
}
