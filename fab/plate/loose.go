package plate

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// A Give is how stiff a loose plate is under a post.
type Give struct {
	K      float64 // N mm/rad over E t3: a plain number
	Spring float64 // N mm/rad

	// Beyond means that the figures were worked out for another plate.
	Beyond bool
}

// Loose returns the spring of a plate that lies free on rigid ground, as a share of the moment
// at which it tips lifts it: E t3 times 1.17 up to 30 % of that moment, 0.51 at 60 %, linear
// between, and 0.30 above. One plate of 600 x 400 x 10 mm under a post of 67 mm by unilateral
// contact (case K16): other plates are Beyond. On soil it is softer, and no rule is given.
func Loose(thickness, modulus, share float64) (Give, error) {
	if err := domain.Check(domain.Length("thickness", thickness), domain.Stress("modulus", modulus), domain.Ratio("share of the tipping moment", share)); err != nil {
		return Give{}, fmt.Errorf("plate: %w", err)
	}
	const firm, half, least = 1.17, 0.51, 0.30
	g := Give{K: least, Beyond: true}
	switch {
	case share <= 0.3:
		g.K = firm
	case share <= 0.6:
		g.K = firm + (half-firm)*(share-0.3)/0.3
	}
	g.Spring = g.K * modulus * math.Pow(thickness, 3)
	return g, nil
}
