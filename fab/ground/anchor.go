// Package ground works out what holds a piece to the ground: anchors in concrete, a footing
// under it, a post set in concrete in the earth.
//
// Lengths are in mm, forces in N, moments in N mm, strengths in MPa, pressures on the
// ground in kPa. Loads come with their factors where the method has strength-level loads.
package ground

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/internal/domain"
)

// A Kind is how an anchor holds in concrete.
type Kind int

// The kinds.
const (
	Headed        Kind = iota // cast in, with a head or a nut and plate
	Hooked                    // cast in, with a hook; only ACI 318 has a rule for it
	PostInstalled             // set in a drilled hole. Its own approval decides about pull-out
)

// An Anchor is one of a group that are all alike.
type Anchor struct {
	Kind      Kind
	Diameter  float64 // d_a
	Stress    float64 // A_se, the area of the thread in mm2
	Ultimate  float64 // f_uta
	Yield     float64 // f_ya
	Embedment float64 // h_ef
	Bearing   float64 // A_brg in mm2, of a head, less the shank
	Hook      float64 // e_h, the inside of a hook
}

// Concrete is what they are set in.
type Concrete struct {
	Strength float64 // f'c, or f_ck, of cylinders
	Cracked  bool    // the safe side where it is not known
	Depth    float64 // h_a
	// Min and Max are the corners of the block in plan. Both zero: no edge is near.
	Min, Max r2.Vec
	// Grout means that the plate stands on a bed of grout.
	Grout bool
}

// Loads are what a group of anchors must carry.
type Loads struct {
	At      []r2.Vec  // the anchors in plan
	Tension []float64 // N, on each; below 0 counts as 0
	Shear   r2.Vec    // N, on the whole group, from no twist
}

// far stands for an edge that is not near.
const far = 1e7

func valid(a Anchor, c *Concrete, p Loads) error {
	values := []domain.Value{
		domain.Length("anchor diameter", a.Diameter), {Name: "stress area", X: a.Stress, Least: 1e-3, Most: 1e7},
		domain.Stress("ultimate strength", a.Ultimate), domain.Stress("yield strength", a.Yield), domain.Length("embedment", a.Embedment),
		domain.Value{Name: "bearing area", X: a.Bearing, Most: 1e8}, domain.Distance("hook", a.Hook),
		domain.Stress("concrete strength", c.Strength), domain.Length("depth of the concrete", c.Depth),
		domain.Force("shear", p.Shear.X), domain.Force("shear", p.Shear.Y),
	}
	for _, q := range p.At {
		values = append(values, domain.Offset("place of an anchor", q.X), domain.Offset("place of an anchor", q.Y))
	}
	for _, x := range p.Tension {
		values = append(values, domain.Force("tension", x))
	}
	if err := domain.Check(values...); err != nil {
		return err
	}
	const most = 200
	switch {
	case len(p.At) == 0 || len(p.At) > most:
		return fmt.Errorf("%d anchors: there must be 1 to %d", len(p.At), most)
	case len(p.At) != len(p.Tension):
		return fmt.Errorf("%d anchors, but tension on %d", len(p.At), len(p.Tension))
	case a.Embedment >= c.Depth:
		return fmt.Errorf("embedment of %.6g is not less than the concrete's depth of %.6g", a.Embedment, c.Depth)
	case a.Kind < Headed || a.Kind > PostInstalled:
		return fmt.Errorf("kind %d of anchor is not known", a.Kind)
	}
	if c.Min == c.Max {
		c.Min, c.Max = r2.Vec{X: -far, Y: -far}, r2.Vec{X: far, Y: far}
	}
	if err := domain.Check(domain.Value{Name: "corner of the concrete", X: c.Min.X, Least: -far, Most: far}, domain.Value{Name: "corner of the concrete", X: c.Min.Y, Least: -far, Most: far},
		domain.Value{Name: "corner of the concrete", X: c.Max.X, Least: -far, Most: far}, domain.Value{Name: "corner of the concrete", X: c.Max.Y, Least: -far, Most: far}); err != nil {
		return err
	}
	for i, q := range p.At {
		if least(c.edges(q)) < 1 {
			return fmt.Errorf("anchor %d is not within the concrete", i+1)
		}
	}
	return nil
}

// edges returns how far a point is from each edge of the concrete: left, right, near, away.
func (c *Concrete) edges(q r2.Vec) [4]float64 {
	return [4]float64{q.X - c.Min.X, c.Max.X - q.X, q.Y - c.Min.Y, c.Max.Y - q.Y}
}

func least(e [4]float64) float64 { return min(e[0], e[1], e[2], e[3]) }

// A Cone is the breakout of a group in tension from the concrete, with its terms.
type Cone struct {
	Anchors   int     // in tension
	Embedment float64 // h_ef, less than the anchor's where three edges or more are near
	Area      float64 // A_Nc, mm2: squares about the anchors, cut at the edges, as one
	One       float64 // A_Nc0, mm2, of one anchor: 9 h_ef2
	Edge      float64 // psi_ed: edges near by
	Off       float64 // psi_ec: the pull is off the middle of the group
	Basic     float64 // N, of one anchor
	Nominal   float64 // N, of the group
}

// cone works out the breakout, given the basic strength for an embedment and a factor for
// concrete without cracks.
func cone(a Anchor, c Concrete, p Loads, basic func(depth float64) float64, factor float64) Cone {
	var pulled []r2.Vec
	var all, middle r2.Vec
	sum := 0.0
	for i, q := range p.At {
		if n := p.Tension[i]; n > 0 {
			pulled = append(pulled, q)
			middle = r2.Add(middle, q)
			all = r2.Add(all, r2.Scale(n, q))
			sum += n
		}
	}
	if len(pulled) == 0 {
		pulled = p.At // as they would hold a pull that all share
		for _, q := range p.At {
			middle = r2.Add(middle, q)
		}
		all, sum = middle, float64(len(pulled))
	}
	k := Cone{Anchors: len(pulled), Embedment: a.Embedment, Edge: 1, Off: 1}
	middle = r2.Scale(1/float64(len(pulled)), middle)
	k.Embedment = shallow(c, pulled, a.Embedment)
	h := k.Embedment
	k.One = 9 * h * h
	k.Area = union(pulled, 1.5*h, c)
	near := math.Inf(1)
	for _, q := range pulled {
		near = min(near, least(c.edges(q)))
	}
	if near < 1.5*h {
		k.Edge = 0.7 + 0.3*near/(1.5*h)
	}
	off := r2.Sub(r2.Scale(1/sum, all), middle)
	for _, e := range [2]float64{off.X, off.Y} {
		k.Off /= 1 + 2*math.Abs(e)/(3*h)
	}
	k.Basic = basic(h)
	k.Nominal = k.Area / k.One * k.Edge * k.Off * factor * k.Basic
	return k
}

// shallow returns the embedment that counts where three edges or more are nearer than 1.5
// h_ef: the greater of the farthest of them over 1.5 and a third of the widest spacing, ACI
// 318-19 17.6.2.1.2 and EN 1992-4 7.2.1.4 (8), from memory.
func shallow(c Concrete, at []r2.Vec, h float64) float64 {
	count, farthest := 0, 0.0
	for side := range 4 {
		near := math.Inf(1)
		for _, q := range at {
			near = min(near, c.edges(q)[side])
		}
		if near < 1.5*h {
			count++
			farthest = max(farthest, near)
		}
	}
	if count < 3 {
		return h
	}
	return min(h, max(farthest/1.5, widest(at)/3))
}

// widest returns the widest spacing of neighbours in rows along either axis.
func widest(at []r2.Vec) (most float64) {
	for axis := range 2 {
		var list []float64
		for _, q := range at {
			list = append(list, [2]float64{q.X, q.Y}[axis])
		}
		slices.Sort(list)
		for i := 1; i < len(list); i++ {
			most = max(most, list[i]-list[i-1])
		}
	}
	return most
}

// union returns the area in mm2 that squares of a half side about points cover, within the
// concrete.
func union(at []r2.Vec, half float64, c Concrete) float64 {
	var xs []float64
	for _, q := range at {
		xs = append(xs, max(q.X-half, c.Min.X), min(q.X+half, c.Max.X))
	}
	slices.Sort(xs)
	sum := 0.0
	for i := 1; i < len(xs); i++ {
		wide := xs[i] - xs[i-1]
		if !(wide > 0) {
			continue
		}
		middle := (xs[i] + xs[i-1]) / 2
		var spans [][2]float64
		for _, q := range at {
			if math.Abs(middle-q.X) < half {
				spans = append(spans, [2]float64{max(q.Y-half, c.Min.Y), min(q.Y+half, c.Max.Y)})
			}
		}
		sum += wide * covered(spans)
	}
	return sum
}

// covered returns the length that spans cover.
func covered(spans [][2]float64) (sum float64) {
	slices.SortFunc(spans, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	end := math.Inf(-1)
	for _, s := range spans {
		if s[1] > end {
			sum += s[1] - max(s[0], end)
			end = s[1]
		}
	}
	return sum
}
