package ground

import (
	"fmt"
	"math"

	"stabile/fab/check"
)

// EN returns what anchors hold by EN 1992-4 (all but the constants 7.7, 11.0 and the spacing of
// 3 h_ef from memory), for loads with their partial factors:
//
//	steel     A_s f_uk / gamma, gamma 1.2 f_uk / f_yk, at least 1.4
//	cone      A_c / (9 h_ef2) psi_s psi_ec k_1 sqrt(f_ck) h_ef^1.5 / 1.5, k_1 8.9 headed and
//	          7.7 post-installed in cracked concrete, 12.7 and 11.0 in whole
//	pull-out  k_2 A_h f_ck / 1.5, k_2 7.5 cracked, 10.5 whole
//	shear     k_6 A_s f_uk / gamma, k_6 0.6 up to 500 MPa, else 0.5; gamma f_uk / f_yk, at
//	          least 1.25, and 1.5 above 800 MPa or a ratio above 0.8
//	edge      A_c / (4.5 c_12) psi_s psi_h k_9 d^a l_f^b sqrt(f_ck) c_1^1.5 / 1.5, k_9 1.7
//	          cracked, 2.4 whole, a = 0.1 (l_f / c_1)^0.5, b = 0.1 (d / c_1)^0.2
//	pry-out   k_8 times the cone, k_8 1 under 60 mm, else 2
//
// In interaction the squares of the uses of steel, and the powers 1.5 of those of concrete, come to
// 1 at most. A bolt in an oversized hole carries no shear by EN 1993-1-8: that is for the
// caller. A hook has no rule here and is an error.
func EN(a Anchor, c Concrete, p Loads) (Hold, error) {
	if err := valid(a, &c, p); err != nil {
		return Hold{}, fmt.Errorf("anchors: %w", err)
	}
	if a.Kind == Hooked {
		return Hold{}, fmt.Errorf("anchors: EN 1992-4 has no rule for a hook")
	}
	const gamma = 1.5
	ratio := a.Ultimate / a.Yield
	root := math.Sqrt(c.Strength)
	of := func(cracked, whole float64) float64 {
		if c.Cracked {
			return cracked
		}
		return whole
	}
	h := Hold{Source: "EN 1992-4"}
	h.Steel = a.Stress * a.Ultimate / max(1.4, 1.2*ratio)
	k1 := of(8.9, 12.7)
	if a.Kind == PostInstalled {
		k1 = of(7.7, 11.0)
	}
	basic := func(depth float64) float64 { return k1 * root * math.Pow(depth, 1.5) }
	h.Cone = cone(a, c, p, basic, 1)
	h.Breakout = h.Cone.Nominal / gamma
	if a.Kind == Headed {
		h.PullOut = of(7.5, 10.5) * a.Bearing * c.Strength / gamma
	}
	h.Sharing = min(sharing, len(p.At))
	k6, partial := 0.6, max(1.25, ratio)
	if a.Ultimate > 500 {
		k6 = 0.5
	}
	if a.Ultimate > 800 || a.Yield > 0.8*a.Ultimate {
		partial = 1.5
	}
	h.ShearSteel = k6 * a.Stress * a.Ultimate / partial * float64(h.Sharing)
	if c.Grout {
		h.ShearSteel *= 0.8
	}
	length := min(a.Embedment, 12*a.Diameter)
	list := wedges(a, c, p, func(away float64) float64 {
		alpha, beta := 0.1*math.Sqrt(length/away), 0.1*math.Pow(a.Diameter/away, 0.2)
		return of(1.7, 2.4) * math.Pow(a.Diameter, alpha) * math.Pow(length, beta) * root * math.Pow(away, 1.5)
	}, 1)
	k8 := 2.0
	if a.Embedment < 60 {
		k8 = 1
	}
	h.PryOut = k8 * pry(a, c, p, basic, 1) / gamma
	h.use(a, p, list, 1/gamma)
	steel := math.Hypot(h.SteelUse, h.ShearSteelUse)
	n, v := max(h.BreakoutUse, h.PullOutUse), max(h.EdgeUse, h.PryOutUse)
	concrete := check.Never
	if n < check.Never && v < check.Never {
		concrete = math.Pow(math.Pow(n, 1.5)+math.Pow(v, 1.5), 2./3)
	}
	h.Interaction = max(h.Tension, h.Shear, steel, concrete)
	return h, nil
}
