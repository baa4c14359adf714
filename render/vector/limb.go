package vector

import (
	"image/color"
	"math"

	"github.com/tdewolff/canvas"

	"stabile/render/ink"
)

// A limb is how a line ends and turns, in the words of SVG.
type limb struct{ cap, join string }

// limbOf returns how a kind of line ends and turns. Dashed lines end square, or
// their gaps would close by a width. The frame and rules have sharp corners;
// outlines turn round, which suits curves drawn as polylines and does not
// lengthen the points of gores.
func limbOf(l ink.Line) limb {
	switch {
	case l.Dashes() != nil:
		return limb{"butt", "round"}
	case l == ink.Frame || l == ink.Rule:
		return limb{"butt", "miter"}
	}
	return limb{"round", "round"}
}

func (l limb) capper() canvas.Capper {
	if l.cap == "butt" {
		return canvas.ButtCap
	}
	return canvas.RoundCap
}

func (l limb) joiner() canvas.Joiner {
	if l.join == "miter" {
		return canvas.MiterJoin
	}
	return canvas.RoundJoin
}

// grey returns a shade as one of the 256 levels that both formats have.
func grey(shade float64) uint8 { return uint8(math.Round(shade * 255)) }

func greyPaint(shade float64) canvas.Paint {
	g := grey(shade)
	return canvas.Paint{Color: color.RGBA{R: g, G: g, B: g, A: 255}}
}
