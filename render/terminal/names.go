package terminal

import (
	"fmt"
	"strings"

	"stabile/render/words"
)

// shown is how many names a line lists.
const shown = 6

// some joins names, the first of many.
func some(names []string) string {
	if n := len(names) - shown; n > 0 {
		return strings.Join(names[:shown], ", ") + fmt.Sprintf(" and %d more", n)
	}
	return strings.Join(names, ", ")
}

// kinds counts blanks by kind and by piece.
type kinds struct {
	names  []string // of each kind
	each   map[string]int
	pieces int
}

func (k *kinds) add(name string, pieces int) {
	if k.each == nil {
		k.each = map[string]int{}
	}
	if k.each[name] == 0 {
		k.names = append(k.names, name)
	}
	k.each[name] += pieces
	k.pieces += pieces
}

// counted says how many there are: "16 pieces of 6 kinds".
func (k *kinds) counted() string {
	text := words.Count(k.pieces, "piece")
	if n := len(k.names); n > 1 && n < k.pieces {
		text += fmt.Sprintf(" of %d kinds", n)
	}
	return text
}

// listed lists the kinds, each with how many pieces it has where they are several:
// "head gore (11), leg[1] to leg[3]".
func (k *kinds) listed() string {
	var list []string
	for i := 0; i < len(k.names); {
		j := i + 1
		for j < len(k.names) && k.each[k.names[j]] == k.each[k.names[i]] {
			j++
		}
		for _, name := range words.Copies(k.names[i:j]) {
			if n := k.each[k.names[i]]; n > 1 {
				name += fmt.Sprintf(" (%d", n)
				if strings.Contains(name, "] to ") {
					name += " each"
				}
				name += ")"
			}
			list = append(list, name)
		}
		i = j
	}
	return some(list)
}
