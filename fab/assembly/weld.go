package assembly

import (
	"stabile/fab/flat"
	"stabile/param/design"
)

// A Kind is a kind of seam or joint.
type Kind int

// The kinds of seam, as the flats have them.
const (
	TubeSeam = Kind(flat.TubeSeam) // the butt seam along a tube, a taper or its pieces
	DiscEdge = Kind(flat.DiscEdge) // round the disc that closes a head
	GoreSeam = Kind(flat.GoreSeam) // gore to gore
	CapEdge  = Kind(flat.CapEdge)  // gores to a cap
	RingSeam = Kind(flat.RingSeam) // the seam of a ball's ring
	RingEdge = Kind(flat.RingEdge) // ring to ring
	PoleEdge = Kind(flat.PoleEdge) // ring to the disc at a pole
	Equator  = Kind(flat.Equator)  // half to half

	CourseSeam = Kind(flat.CourseSeam) // round a post, from one course to the next
	PointFill  = Kind(flat.PointFill)  // the point of a cone, built up with weld

	DoublerEdge = Kind(flat.DoublerEdge) // round a disc that doubles the wall of a ball
)

// The kinds of joint, which follow on the seams.
const (
	PostJoint Kind = iota + DoublerEdge + 1 // a post's end to another part
	RestJoint                               // a ball to the base
	SeatJoint                               // a ball to a ball
	Thread                                  // a ball to the post that goes through it, on both sides
	LieJoint                                // a tube of a ring along the base, on both sides of the line in which it lies
)

// String names the kind as the shop does.
func (k Kind) String() string {
	return [...]string{
		TubeSeam: "tube seam", DiscEdge: "disc edge", GoreSeam: "gore to gore", CapEdge: "gores to cap",
		RingSeam: "ring seam", RingEdge: "ring to ring", PoleEdge: "ring to disc", Equator: "half to half",
		CourseSeam: "round seam", PointFill: "point", DoublerEdge: "doubler edge",
		PostJoint: "ring joint", RestJoint: "ball on base", SeatJoint: "ball on ball", Thread: "ball round post", LieJoint: "tube along base",
	}[k]
}

// within reports whether the weld lies within one part: a butt.
func (k Kind) within() bool { return k < PostJoint }

// A Weld is a seam within a part or a joint of two, or several that are alike.
type Weld struct {
	Number    int // from 1, as the papers call it
	Kind      Kind
	Part      string  // the part that it is listed with
	With      string  // of a joint the other part, else ""
	At        string  // of a joint "foot", "head", "rest", "seat", "thread" or "lies", else ""
	Count     int     // how many are alike
	Length    float64 // mm, of one, along the outside
	Bearing   float64 // rad: of a tube's seam; of a joint on a post's end, that of the tube's seam, from which its tacks are set off; else 0
	Arc       bool    // of an edge that goes round: an opening takes the rest of it
	Thickness float64 // mm, of the part's metal: the throat that is wanted
	Joint     int     // index in the design's joints; -1 for a seam
	Process   design.WeldProcess
	Rod       float64 // mm, diameter of the filler
	Section   float64 // mm2, of the bead
	Volume    float64 // mm3, of the weld metal that builds up a point; 0 for a bead
	Filler    float64 // kg, of weld metal in all that are alike
	Tacks     Tacks   // of one
	Root      float64 // mm, the gap at its root
	Top       float64 // mm, how much wider it is at the outside, at most
	Edges     int     // that are cleaned along the length of one
	Faces     int     // bands that are cleaned along the length of one
	Band      float64 // mm, the width that is cleaned from the edge
	Dress     float64 // mm, dressed in all that are alike
}

// Total returns the length in mm of all that are alike.
func (w *Weld) Total() float64 { return float64(w.Count) * w.Length }

// Plug reports whether the weld takes no tacks and no fitting of its own: that which builds
// up a point, or goes round a disc at a pole that is so small that tacks round it would run
// into each other, so that it is set in and run round at once. Common practice, no source.
func (w *Weld) Plug() bool {
	return w.Kind == PointFill || w.Kind == CapEdge && w.Length < ringTacks*leastTack
}

// weld lists the welds, numbers them and adds them up.
func (m *maker) weld() {
	m.seams = make([][]int, len(m.in.Items))
	for i := range m.in.Items {
		it := &m.in.Items[i]
		if it.Part.Metal != nil {
			for _, s := range it.Seams {
				m.seams[i] = append(m.seams[i], m.add(it, Weld{
					Kind: Kind(s.Kind), Count: s.Count, Length: s.Length, Arc: s.Arc, Bearing: s.Bearing, Volume: s.Volume, Joint: -1,
					Root: s.Root, Top: s.Top,
				}))
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
		if w.Plug() {
			t.Plugs += w.Count
		}
		t.Tacks += w.Count * w.Tacks.Number()
		t.Weld += w.Total()
		t.Edge += n * float64(w.Edges) * w.Length
		t.Faces += n * float64(w.Faces) * w.Length
		t.Dress += w.Dress
		t.Filler += w.Filler
	}
}

// joint adds the joint of an item, and ties it to its link.
func (m *maker) joint(it *Item, j Joint) {
	kind := PostJoint
	switch j.At {
	case "rest":
		kind = RestJoint
	case "seat":
		kind = SeatJoint
	case "lies":
		kind = LieJoint
	case "thread":
		kind = Thread
	}
	w := Weld{Kind: kind, With: j.With, At: j.At, Count: 1, Length: j.Length, Joint: -1}
	if kind == Thread || kind == LieJoint {
		w.Count, w.Length = 2, j.Length/2
	}
	if p := it.Part.Post; p != nil {
		w.Bearing = p.Seam
	}
	if it.Part.Metal == nil {
		return
	}
	for _, k := range m.touches[m.at[it.Part]] {
		if l := &m.links[k]; l.weld < 0 && m.is(l, it.Part, j) {
			w.Joint, l.weld = l.Joint, len(m.plan.Welds)
			break
		}
	}
	m.add(it, w)
}

// add completes a weld and appends it.
func (m *maker) add(it *Item, w Weld) int {
	metal := it.Part.Metal
	if w.Kind.within() {
		metal = it.Part.Sheet()
	}
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
	if w.Volume > 0 {
		w.Section = w.Volume / w.Length
	}
	w.Filler = w.Section * w.Total() * metal.Density * 1e-9
	w.Dress = w.Total()
	if !w.Plug() {
		w.Tacks = tacks(w, spacing(m.in.Welding, metal.Thickness))
	}
	m.plan.Welds = append(m.plan.Welds, w)
	return len(m.plan.Welds) - 1
}
