package assembly

import (
	"math"

	"stabile/fab/flat"
	"stabile/param/design"
)

// A Kind is a kind of seam or joint.
type Kind int

// The kinds of seam and joint.
const (
	TubeSeam  Kind = iota // the butt seam along a tube, a taper or its pieces
	DiscEdge              // round the disc that closes a head
	GoreSeam              // gore to gore
	CapEdge               // gores to a cap
	RingSeam              // the seam of a ball's ring
	RingEdge              // ring to ring, or ring to the disc at a pole
	Equator               // half to half
	PostJoint             // a post's end to another part
	RestJoint             // a ball to the base
	SeatJoint             // a ball to a ball
	Thread                // a ball to the post that goes through it, on both sides
)

// String names the kind as the shop does.
func (k Kind) String() string {
	return [...]string{
		TubeSeam: "tube seam", DiscEdge: "disc edge", GoreSeam: "gore to gore", CapEdge: "gores to cap",
		RingSeam: "ring seam", RingEdge: "ring to ring", Equator: "half to half",
		PostJoint: "ring joint", RestJoint: "ball on base", SeatJoint: "ball on ball", Thread: "ball round post",
	}[k]
}

// within reports whether the weld lies within one part: a butt.
func (k Kind) within() bool { return k < PostJoint }

// A Weld is a seam within a part or a joint of two, or several that are alike.
type Weld struct {
	Number    int // from 1, as the papers call it
	Kind      Kind
	Part      string  // the part that it is told with
	With      string  // of a joint the other part, else ""
	At        string  // of a joint "foot", "head", "rest", "seat" or "thread", else ""
	Count     int     // how many are alike
	Length    float64 // mm, of one, along the outside
	Bearing   float64 // rad: of a tube's seam; of a joint on a post's end, that of the tube's seam, from which its tacks are set off; else 0
	Thickness float64 // mm, of the part's metal: the throat that is wanted
	Joint     int     // index in the design's joints; -1 for a seam
	Process   design.WeldProcess
	Rod       float64 // mm, diameter of the filler
	Section   float64 // mm2, of the bead
	Filler    float64 // kg, of weld metal in all that are alike
	Tacks     Tacks   // of one
	Edges     int     // that are cleaned along the length of one
	Faces     int     // bands that are cleaned along the length of one
	Band      float64 // mm, the width that is cleaned from the edge
	Dress     float64 // mm, dressed in all that are alike
}

// Total returns the length in mm of all that are alike.
func (w *Weld) Total() float64 { return float64(w.Count) * w.Length }

// weld lists the welds, numbers them and adds them up.
func (m *maker) weld() {
	m.seams = make([][]int, len(m.in.Items))
	for i := range m.in.Items {
		it := &m.in.Items[i]
		if it.Part.Metal != nil {
			for _, w := range seams(it) {
				m.seams[i] = append(m.seams[i], m.add(it, w))
			}
		}
		for _, j := range it.Joints {
			m.joint(it, j)
		}
	}
	t := &m.plan.Totals
	for i := range m.plan.Welds {
		w := &m.plan.Welds[i]
		n := float64(w.Count)
		t.Fits += w.Count
		t.Tacks += w.Count * w.Tacks.Number()
		t.Weld += w.Total()
		t.Edge += n * float64(w.Edges) * w.Length
		t.Faces += n * float64(w.Faces) * w.Length
		t.Dress += w.Dress
		t.Filler += w.Filler
	}
}

// joint adds the joint of an item that it tells, and ties it to its link.
func (m *maker) joint(it *Item, j Joint) {
	kind := PostJoint
	switch j.At {
	case "rest":
		kind = RestJoint
	case "seat":
		kind = SeatJoint
	case "thread":
		kind = Thread
	}
	w := Weld{Kind: kind, With: j.With, At: j.At, Count: 1, Length: j.Length, Joint: -1}
	if kind == Thread {
		w.Count, w.Length = 2, j.Length/2
	}
	if p := it.Part.Post; p != nil {
		w.Bearing = p.Seam
	}
	if it.Part.Metal == nil {
		return
	}
	for _, k := range m.touches[m.at[it.Part]] {
		if l := &m.links[k]; l.weld < 0 && m.tells(l, it.Part, j) {
			w.Joint, l.weld = l.joint, len(m.plan.Welds)
			break
		}
	}
	m.add(it, w)
}

// add completes a weld and appends it.
func (m *maker) add(it *Item, w Weld) int {
	metal := it.Part.Metal
	w.Number, w.Part, w.Thickness = len(m.plan.Welds)+1, it.Part.Name, metal.Thickness
	w.Length = max(0, w.Length)
	w.Process, w.Rod = process(m.in.Welding, metal.Thickness)
	w.Edges, w.Faces, w.Band = 2, 4, CleanBand
	w.Section = ButtBead(metal.Thickness)
	if !w.Kind.within() {
		w.Section = FilletBead(metal.Thickness)
		// The edge of the one on both its faces, and the toe on the face of the
		// other, which has no edge there.
		w.Edges, w.Faces = 1, 3
		if w.Kind != PostJoint {
			w.Edges, w.Faces = 0, 2
		}
	}
	w.Filler = w.Section * w.Total() * metal.Density * 1e-9
	w.Dress = w.Total()
	w.Tacks = tacks(w, spacing(m.in.Welding, metal.Thickness))
	m.plan.Welds = append(m.plan.Welds, w)
	return len(m.plan.Welds) - 1
}

// seams lists what is welded within a part. The lengths add up to the item's
// Seam, of which they are shares.
func seams(it *Item) []Weld {
	p := it.Part
	at := func(kind Kind, count int, length float64) Weld {
		return Weld{Kind: kind, Count: count, Length: length, Joint: -1}
	}
	switch {
	case !(it.Seam > 0):
	case p.Post != nil:
		return tubeSeams(it)
	case p.Ball == nil:
	case p.Ball.Build == design.Halves:
		return []Weld{at(Equator, 1, it.Seam)}
	case p.Ball.Build == design.Zones && p.Ball.Zones > 0:
		return zoneSeams(it)
	case p.Ball.Gores > 0:
		n := p.Ball.Gores
		if p.Ball.Caps > 0 {
			edge := math.Pi * p.Ball.Caps
			return []Weld{at(GoreSeam, n, (it.Seam-2*edge)/float64(n)), at(CapEdge, 2, edge)}
		}
		return []Weld{at(GoreSeam, n, it.Seam/float64(n))}
	}
	return nil
}

// tubeSeams lists the seams of a post, one for each piece of its wall, and the
// edge of its head disc. What the disc leaves of the item's seam is shared out as
// the left edges of the pieces are long.
func tubeSeams(it *Item) []Weld {
	post := it.Part.Post
	var walls, discs []Weld
	rest, sum := it.Seam, 0.0
	for i := range it.Blanks {
		b := &it.Blanks[i]
		switch {
		case b.Shape == flat.Disc:
			w := Weld{Kind: DiscEdge, Count: b.Quantity, Length: math.Pi * b.Diameter, Bearing: post.Seam, Joint: -1}
			rest -= w.Total()
			discs = append(discs, w)
		case len(b.Outline) > 1:
			first, last := b.Outline[0], b.Outline[len(b.Outline)-1]
			w := Weld{Kind: TubeSeam, Count: 1, Length: math.Hypot(last.X-first.X, last.Y-first.Y), Joint: -1}
			sum += w.Length
			walls = append(walls, w)
		}
	}
	for i := range walls {
		w := &walls[i]
		w.Bearing = turned(post.Seam + 2*math.Pi*float64(i)/float64(len(walls)))
		if sum > 0 {
			w.Length *= max(0, rest) / sum
		}
	}
	return append(walls, discs...)
}

// zoneSeams lists the seams of a ball of zones: in each ring as many as it has
// pieces, all as long as a ring is wide, and the edges between rings and of the
// discs at the poles, from the equator out.
//
// In a plane through the poles the rings are sides of the regular polygon about
// the circle of the mean radius, each pi / (n + 1) of latitude wide.
func zoneSeams(it *Item) []Weld {
	b := it.Part.Ball
	n := b.Zones
	mean := b.Radius - it.Part.Metal.Thickness/2
	step := math.Pi / float64(n+1)
	wide := 2 * mean * math.Tan(step/2)
	corner := mean / math.Cos(step/2)
	var edges []Weld
	rest := it.Seam
	for k := n % 2; k <= n; k += 2 {
		// Edges at the latitudes of -k/2 and k/2 steps are alike.
		w := Weld{Kind: RingEdge, Count: 2, Length: 2 * math.Pi * corner * math.Cos(float64(k)*step/2), Joint: -1}
		if k == 0 {
			w.Count = 1
		}
		edges = append(edges, w)
		rest -= w.Total()
	}
	pieces := max(1, int(math.Round(rest/wide)))
	return append([]Weld{{Kind: RingSeam, Count: pieces, Length: rest / float64(pieces), Joint: -1}}, edges...)
}
