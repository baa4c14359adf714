package ground

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/check"
)

// A Hold is what anchors in concrete hold by one method, each mode with its design strength
// in N and its use, 1 the limit.
type Hold struct {
	Source string

	Steel, SteelUse   float64 // of one anchor in tension
	Cone              Cone
	Breakout          float64 // of the group in tension
	BreakoutUse       float64
	PullOut           float64 // of one anchor; 0 where PullOutOpen
	PullOutUse        float64
	PullOutOpen       bool    // the anchor's own approval decides: not checked
	ShearSteel        float64 // of the anchors that share it
	ShearSteelUse     float64
	Sharing           int // how many anchors carry the shear: two, as holes have play
	Wedge             Wedge
	EdgeNear          bool // an edge is near enough to break; else Wedge is empty
	Edge              float64
	EdgeUse           float64
	PryOut, PryOutUse float64

	Tension, Shear float64 // the greatest use of each
	Interaction    float64 // interaction, 1 the limit
}

// sharing is how many anchors carry shear at most: with play in the holes two touch first,
// AISC Design Guide 1, 3.5 (from memory).
const sharing = 2

// ACI returns what anchors hold by ACI 318-19 chapter 17, in its SI constants, for loads at
// strength level:
//
//	steel      phi A_se f_uta, f_uta at most 1.9 f_ya and 860 MPa, phi 0.75
//	breakout   phi A_Nc / (9 h_ef2) psi_ed psi_ec psi_c k_c sqrt(f'c) h_ef^1.5, phi 0.70,
//	           k_c 10 cast in, 7 post-installed (from memory), psi_c 1.25 without cracks
//	pull-out   phi 8 A_brg f'c, or 0.9 f'c e_h d_a of a hook, x 1.4 without cracks, phi 0.70
//	           (from memory)
//	shear      phi 0.6 A_se f_uta, x 0.8 on grout, phi 0.65
//	edge       phi A_Vc / (4.5 c_a12) psi_ed psi_h psi_c V_b, phi 0.70, psi_c 1.4 without
//	           cracks, V_b = min(0.6 (l_e/d_a)^0.2 sqrt(d_a), 3.7) sqrt(f'c) c_a1^1.5
//	pry-out    phi k_cp N_cbg, k_cp 1 under 65 mm, else 2, phi 0.70
//
// l_e is h_ef, at most 8 d_a. Interaction N + V <= 1.2, where both are above 0.2 (from memory).
// Concrete counts with 70 MPa at most (from memory). Blowout at the side of a deep head and
// splitting are not checked.
func ACI(a Anchor, c Concrete, p Loads) (Hold, error) {
	if err := valid(a, &c, p); err != nil {
		return Hold{}, fmt.Errorf("anchors: %w", err)
	}
	const (
		phiSteel, phiShear, phiConcrete = 0.75, 0.65, 0.70
		mostConcrete                    = 70
	)
	fc := min(c.Strength, mostConcrete)
	root := math.Sqrt(fc)
	ultimate := min(a.Ultimate, 1.9*a.Yield, 860)
	h := Hold{Source: "ACI 318-19 chapter 17"}
	h.Steel = phiSteel * a.Stress * ultimate

	kc, whole := 10.0, 1.25
	if a.Kind == PostInstalled {
		kc, whole = 7, 1.4
	}
	psi := func(uncracked float64) float64 {
		if c.Cracked {
			return 1
		}
		return uncracked
	}
	h.Cone = cone(a, c, p, func(depth float64) float64 { return kc * root * math.Pow(depth, 1.5) }, psi(whole))
	h.Breakout = phiConcrete * h.Cone.Nominal
	switch a.Kind {
	case Headed:
		h.PullOut = phiConcrete * 8 * a.Bearing * fc * psi(1.4)
	case Hooked:
		// A hook counts with 3 to 4.5 diameters, 17.6.3.2.2 (b).
		h.PullOut = phiConcrete * 0.9 * fc * min(a.Hook, 4.5*a.Diameter) * a.Diameter * psi(1.4)
		if a.Hook < 3*a.Diameter {
			h.PullOut = 0
		}
	}

	h.Sharing = min(sharing, len(p.At))
	h.ShearSteel = phiShear * 0.6 * a.Stress * ultimate * float64(h.Sharing)
	if c.Grout {
		h.ShearSteel *= 0.8
	}
	length := min(a.Embedment, 8*a.Diameter)
	stiff := min(0.6*math.Pow(length/a.Diameter, 0.2)*math.Sqrt(a.Diameter), 3.7)
	list := wedges(a, c, p, func(away float64) float64 { return stiff * root * math.Pow(away, 1.5) }, psi(1.4))
	kcp := 2.0
	if a.Embedment < 65 {
		kcp = 1
	}
	h.PryOut = phiConcrete * kcp * pry(a, c, p, func(depth float64) float64 { return kc * root * math.Pow(depth, 1.5) }, psi(whole))
	h.use(a, p, list, phiConcrete)
	h.Interaction = max(h.Tension, h.Shear)
	if h.Tension > 0.2 && h.Shear > 0.2 {
		h.Interaction = max(h.Interaction, (h.Tension+h.Shear)/1.2)
	}
	return h, nil
}

// pry returns the breakout of all anchors, as they would share a pull.
func pry(a Anchor, c Concrete, p Loads, basic func(float64) float64, factor float64) float64 {
	p.Tension = make([]float64, len(p.At))
	return cone(a, c, p, basic, factor).Nominal
}

// use works out the uses of all modes but the interaction.
func (h *Hold) use(a Anchor, p Loads, list []Wedge, phi float64) {
	most, sum := 0.0, 0.0
	for _, n := range p.Tension {
		most, sum = max(most, n), sum+max(0, n)
	}
	shear := r2.Norm(p.Shear)
	h.SteelUse, h.BreakoutUse = check.Share(most, h.Steel), check.Share(sum, h.Breakout)
	h.PullOutOpen = a.Kind == PostInstalled
	if !h.PullOutOpen {
		h.PullOutUse = check.Share(most, h.PullOut)
	}
	h.ShearSteelUse, h.PryOutUse = check.Share(shear, h.ShearSteel), check.Share(shear, h.PryOut)
	if h.Wedge, _, h.EdgeNear = worst(list); h.EdgeNear {
		h.Edge = phi * h.Wedge.Nominal
		h.EdgeUse = check.Share(h.Wedge.Shear, h.Edge)
	}
	h.Tension = max(h.SteelUse, h.BreakoutUse, h.PullOutUse)
	h.Shear = max(h.ShearSteelUse, h.EdgeUse, h.PryOutUse)
}
