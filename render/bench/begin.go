package bench

import (
	_ "embed"
	"path"
	"strings"
	"unicode"
)

// The empty design and its shop, in either units.
var (
	//go:embed begin/design-inch.stabile
	emptyInch string
	//go:embed begin/design-mm.stabile
	emptyMM string
	//go:embed begin/shop-inch.stabile
	shopInch string
	//go:embed begin/shop-mm.stabile
	shopMM string
)

// shopFile is what the shop of an empty design is called. Other designs of the
// folder bring it too.
const shopFile = "shop" + Extension

// A NewFile is a file to be written where there is none of its name.
type NewFile struct{ Name, Text string }

// Empty returns an empty, commented design of a name, and the shop that it
// brings. The units are "inch" or "mm".
func Empty(name, units string) []NewFile {
	design, shop := emptyInch, shopInch
	if units == "mm" {
		design, shop = emptyMM, shopMM
	}
	design = strings.ReplaceAll(design, "TITLE", title(path.Base(name)))
	return []NewFile{{name + Extension, design}, {path.Join(path.Dir(name), shopFile), shop}}
}

// title makes a title of the name of a file: "gate-post" is "Gate Post".
func title(name string) string {
	words := strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for i, w := range words {
		r := []rune(w)
		r[0] = unicode.ToUpper(r[0])
		words[i] = string(r)
	}
	if len(words) == 0 {
		return "New Piece"
	}
	return strings.Join(words, " ")
}
