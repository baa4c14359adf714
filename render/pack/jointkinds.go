package pack

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"stabile/fab/assembly"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/words"
)

// A shape is what a joint looks like in section.
type shape int

// The shapes of joints and seams.
const (
	tubeToBall shape = iota
	tubeToTube
	tubeToDisc
	tubeToPlate
	ballToPlate
	tubeAlongPlate
	ballToBall
	ballRoundTube
	tubeToEnd
	discInTube
	tubeSeam
	ballSeam
)

// A jointKind is welds that are made in one way: one detail shows them all.
type jointKind struct {
	shape  shape
	opened bool      // the wall under it is cut away
	welds  []int     // their numbers
	legs   []float64 // mm, of fillets each once; of butts the thicknesses
}

// jointKinds returns the kinds of joint of the job, in the order of their shapes.
func (k *pack) jointKinds() []jointKind {
	var list []jointKind
	plan := k.job.Plan.Assembly
	for i := range plan.Welds {
		w := &plan.Welds[i]
		is, ok := k.shapeOf(w)
		if !ok {
			continue
		}
		kind := jointKind{shape: is, opened: k.opens(w)}
		n := slices.IndexFunc(list, func(o jointKind) bool { return o.shape == kind.shape && o.opened == kind.opened })
		if n < 0 {
			n = len(list)
			list = append(list, kind)
		}
		list[n].welds = append(list[n].welds, w.Number)
		if leg := k.leg(w, is); !slices.ContainsFunc(list[n].legs, func(o float64) bool { return math.Abs(o-leg) < 1e-6 }) {
			list[n].legs = append(list[n].legs, leg)
		}
	}
	slices.SortStableFunc(list, func(a, b jointKind) int { return cmp.Compare(a.shape, b.shape) })
	for i := range list {
		slices.Sort(list[i].legs)
	}
	return list
}

// shapeOf returns what a weld looks like in section.
func (k *pack) shapeOf(w *assembly.Weld) (shape, bool) {
	switch w.Kind {
	case assembly.TubeSeam, assembly.RingSeam, assembly.CourseSeam:
		return tubeSeam, true
	case assembly.DoublerEdge:
		return 0, false // an edge weld, as its card says
	case assembly.DiscEdge:
		return discInTube, true
	case assembly.GoreSeam, assembly.CapEdge, assembly.RingEdge, assembly.PoleEdge, assembly.Equator:
		return ballSeam, true
	case assembly.RestJoint:
		return ballToPlate, true
	case assembly.LieJoint:
		return tubeAlongPlate, true
	case assembly.SeatJoint:
		return ballToBall, true
	case assembly.Thread:
		return ballRoundTube, true
	case assembly.PostJoint:
		for i := range k.job.Parts {
			if p := &k.job.Parts[i]; p.Name == w.With {
				switch {
				case p.Ball != nil:
					return tubeToBall, true
				case p.Post != nil:
					return k.tubeOn(w), true
				case p.Base != nil:
					return tubeToPlate, true
				}
			}
		}
	}
	return 0, false
}

// tubeOn returns what the weld of a tube on another one looks like: on its side, at its
// head mitre to mitre, or on the disc that closes its head.
func (k *pack) tubeOn(w *assembly.Weld) shape {
	part := k.job.Design.Part(w.Part)
	end := &part.Post.Ends[design.Foot]
	if w.At == "head" {
		end = &part.Post.Ends[design.Head]
	}
	switch {
	case end.Meets != design.OnHead:
		return tubeToTube
	case end.With.Post.Ends[design.Head].With == part:
		return tubeToEnd
	}
	return tubeToDisc
}

// opens reports whether the wall on which a part is welded is cut away under it.
func (k *pack) opens(w *assembly.Weld) bool {
	for i := range k.job.Parts {
		p := &k.job.Parts[i]
		if p.Name != w.With && p.Name != w.Part || w.With == "" {
			continue
		}
		other := w.Part
		if p.Name == w.Part {
			other = w.With
		}
		for b := range p.Blanks {
			for _, n := range p.Blanks[b].Notes {
				switch n := n.(type) {
				case flat.OpenedFor:
					if n.Post == other {
						return true
					}
				case flat.SitsIn:
					if n.Ball == other {
						return true
					}
				}
			}
		}
	}
	return false
}

// leg returns the leg of the fillet of a joint, in mm, as the check of strength takes it
// where it was made; of a butt the thickness that is welded through.
func (k *pack) leg(w *assembly.Weld, is shape) float64 {
	if s := k.job.Strength; s != nil && is.isFillet() {
		for i := range s.Welds {
			if c := &s.Welds[i]; c.Part.Name == w.Part && c.With == w.With && w.With != "" {
				return c.Throat * math.Sqrt2
			}
		}
	}
	return w.Thickness
}

// isJoint reports whether two parts are joined, not the edges of one.
func (s shape) isJoint() bool { return s < tubeSeam }

// allRound reports whether a joint is welded round a tube or a point of rest.
func (s shape) allRound() bool { return s.isJoint() && s != tubeAlongPlate }

// isFillet reports whether a joint is welded in a corner.
func (s shape) isFillet() bool { return s < tubeToEnd }

// title names a kind of joint.
func (j *jointKind) title() string {
	return [...]string{
		tubeToBall: "Tube to ball", tubeToTube: "Tube to tube", tubeToEnd: "Tube end to tube end", discInTube: "Disc in a head", tubeToDisc: "Tube on a disc", tubeToPlate: "Tube to plate", ballToPlate: "Ball to plate", tubeAlongPlate: "Tube along plate",
		ballToBall: "Ball to ball", ballRoundTube: "Ball round tube", tubeSeam: "Seam of a tube", ballSeam: "Seam of a ball",
	}[j.shape]
}

// trim says how the edges are cut for a kind of joint.
func (j *jointKind) trim() string {
	switch j.shape {
	case tubeToBall, tubeToTube:
		return "The tube's end is cut square through the sheet to its blank's line: the wall touches with one edge; the rest is gap."
	case tubeToEnd:
		return "Both ends are cut to their blanks' lines: they meet all round in one plane. The root is fused through."
	case discInTube:
		return "The disc is let in flush; its edge is fused to the tube's all round."
	case tubeToDisc:
		return "The disc lies flush in the larger tube; the smaller one's end is cut to its blank's line and stands on it."
	case tubeToPlate:
		return "The tube's end is cut to its blank's line and stands on the plate's face."
	case tubeAlongPlate:
		return "Nothing is trimmed but the mitres: the weld fills the corner on both sides of the line in which it lies."
	case ballToPlate, ballToBall:
		return "Nothing is trimmed but what the blanks show: the weld fills the corner about the point of rest."
	case ballRoundTube:
		return "The ball is opened to the tube's outside, on both sides."
	}
	return "Both edges are square, without a gap; the root is fused through."
}

// under says whether the wall under a joint is cut.
func (j *jointKind) under() string {
	switch {
	case !j.shape.isFillet() || j.shape == ballRoundTube || j.shape == tubeToPlate || j.shape == tubeToDisc || j.shape == ballToPlate || j.shape == tubeAlongPlate:
		return ""
	case j.opened:
		return "The wall under it is cut away as its blank shows."
	}
	return "The wall under it stays whole."
}

// sizes says how large the welds are.
func (k *pack) sizes(j *jointKind) string {
	lo, hi := j.legs[0], j.legs[len(j.legs)-1]
	span := func(of func(float64) string) string {
		if a, b := of(lo), of(hi); a != b {
			return a + " to " + b
		}
		return of(lo)
	}
	if !j.shape.isFillet() {
		return "Butt, welded through " + span(k.units.Exact)
	}
	where := "all round"
	if j.shape == tubeAlongPlate {
		where = "on both sides"
	}
	text := "Fillet " + where + ", leg " + span(k.units.Exact) + ", throat " + span(func(leg float64) string { return k.units.Exact(leg / math.Sqrt2) })
	if len(j.legs) > 1 {
		text += ": the leg is the thinner sheet"
	}
	return text
}

// symbolSize is what stands before the weld symbol: z and the leg by ISO 2553, the leg
// alone by AWS A2.4; nothing before a butt that is welded through, or where legs differ.
func (k *pack) symbolSize(j *jointKind) string {
	if !j.shape.isFillet() {
		return ""
	}
	size := ""
	if len(j.legs) == 1 {
		size = k.legSize(j.legs[0])
	}
	if k.units == quantity.Inch {
		return size
	}
	return "z" + size
}

// legSize writes a leg without its unit, as a rule or a gauge reads it.
func (k *pack) legSize(leg float64) string {
	if k.units == quantity.Inch {
		return k.fine(leg)
	}
	return strconv.FormatFloat(math.Round(leg*10)/10, 'f', -1, 64)
}

// caption is what stands under the detail of a kind of joint.
func (k *pack) caption(j *jointKind) string {
	says := []string{words.Capital(weldsNamed(j.welds)) + ". " + k.sizes(j) + "."}
	for _, text := range []string{j.trim(), j.under()} {
		if text != "" {
			says = append(says, text)
		}
	}
	return strings.Join(says, " ")
}

// weldsNamed names welds by their numbers.
func weldsNamed(list []int) string {
	if len(list) == 1 {
		return "weld " + words.Runs(list)
	}
	return "welds " + words.Runs(list)
}
