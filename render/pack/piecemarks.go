package pack

import (
	"fmt"
	"strings"

	"stabile/fab/flat"
)

// mostTold is the number of pieces of which each mark is given by its measures; of more the
// files of the pieces have them.
const mostTold = 12

// marksOfPieces says where the marks are that single pieces of a gore or a disc have: how
// far they reach across from the centre line, and along from the middle, so that a rule
// finds them.
func (b *blankPanel) marksOfPieces() string {
	if b.Shape != flat.Gore && b.Shape != flat.Disc {
		return ""
	}
	var says []string
	for _, piece := range markedPieces(b.Blank) {
		for i := range b.Marks {
			m := &b.Marks[i]
			if m.Piece != piece || m.Kind != flat.Standing {
				continue
			}
			lo, hi := bounds(markPath(m))
			says = append(says, fmt.Sprintf("%d: %s, across %s to %s, along %s to %s", piece, m.Part, b.signed(lo.X), b.signed(hi.X), b.signed(lo.Y), b.signed(hi.Y)))
		}
	}
	if len(says) == 0 {
		return ""
	}
	text := "Marks by piece, across from the centre line (right +), along from the middle (up +). "
	if len(says) > mostTold {
		return text + "They are many: take them from the files of the single pieces for the cutting table, which have each piece's own."
	}
	return text + strings.Join(says, "; ") + "."
}

// signed returns a length of a flat with its sign, which stands apart from the hyphen of a
// mixed number.
func (k *pack) signed(mm float64) string {
	text := k.fine(max(mm, -mm))
	switch {
	case text == "0":
		return text
	case mm < 0:
		return "− " + text
	}
	return "+ " + text
}
