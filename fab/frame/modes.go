package frame

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A Mode is a way in which the sculpture swings by itself.
type Mode struct {
	Frequency float64 // Hz
	// Shape has how each body moves and turns, three and three, in the order of
	// Frame.Bodies; the longest movement of a body is 1.
	Shape [][2]r3.Vec
}

// Modes returns the n lowest modes, at most four, lowest first: fewer where the
// frame has fewer. Checked reports that the count of frequencies under the highest of
// them, by the signs of the pivots of K - w2 M (Sturm), is the number found there, so
// that none was missed.
func (f *Frame) Modes(n int) (modes []Mode, checked bool, err error) {
	n = min(n, f.Unknowns, mostModes)
	if n == 0 || !f.heavy() {
		return nil, true, nil
	}
	// Where one was missed, waiting for more of them to settle finds it.
	for _, settling := range []int{n, min(n+2, block, f.Unknowns)} {
		found, err := f.lowest(f.mass, settling, settled)
		if err != nil {
			return nil, false, err
		}
		found = found[:min(n, len(found))]
		if light := slices.IndexFunc(found, func(e eigen) bool { return !(e.value > 0) }); light >= 0 {
			found = found[:light] // no mass moves
		}
		modes = nil
		for _, e := range found {
			// Stiffness is in N/mm, which is 1000 kg/s2.
			modes = append(modes, Mode{Frequency: math.Sqrt(1000/e.value) / (2 * math.Pi), Shape: f.shape(e)})
		}
		if len(modes) == 0 || f.counted(found) {
			return modes, true, nil
		}
	}
	return modes, false, nil
}

// counted reports whether there are as many frequencies under the last, but for what
// is as good as the same, as were found there: whether none was missed.
func (f *Frame) counted(list []eigen) bool {
	last, found := list[len(list)-1].value, 0
	for _, e := range list {
		if e.value*(1-sturmGap) > last {
			found++
		}
	}
	return f.sturm(last) == found
}

// heavy reports whether anything that can move has mass.
func (f *Frame) heavy() bool {
	return slices.ContainsFunc(f.mass.value, func(m float64) bool { return m != 0 })
}

// sturmGap is how far under the highest frequency, as a share of its square, the
// count is taken: frequencies nearer to each other are as good as the same.
const sturmGap = 1e-4

// sturm returns how many squares of frequencies lie under a little less than 1/v.
func (f *Frame) sturm(v float64) int {
	s := f.mass.alike()
	shift := -(1 - sturmGap) / v
	for i, m := range f.mass.value {
		s.value[i] = f.stiff.value[i] + shift*m
	}
	negative, bad := s.factor()
	if bad >= 0 {
		return -1
	}
	return negative
}

// shape returns the movement of all bodies.
func (f *Frame) shape(e eigen) [][2]r3.Vec {
	list := make([][2]r3.Vec, len(f.Bodies))
	longest := 0.0
	for i, b := range f.Bodies {
		if b.First < e.from || b.First >= e.from+len(e.vector) {
			continue
		}
		v := e.vector[b.First-e.from:]
		list[i] = [2]r3.Vec{{X: v[0], Y: v[1], Z: v[2]}, {X: v[3], Y: v[4], Z: v[5]}}
		longest = max(longest, r3.Norm(list[i][0]))
	}
	if longest > 0 {
		for i := range list {
			list[i] = [2]r3.Vec{r3.Scale(1/longest, list[i][0]), r3.Scale(1/longest, list[i][1])}
		}
	}
	return list
}

// owner returns the part of the body that an unknown belongs to.
func (f *Frame) owner(unknown int) *design.Part {
	for _, b := range f.Bodies {
		if b.First >= 0 && b.First <= unknown && unknown < b.First+6 {
			return b.Part
		}
	}
	return nil
}
