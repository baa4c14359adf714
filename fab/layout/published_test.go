package layout

import (
	"fmt"
	"math/rand/v2"
)

// published makes a problem by the rules of its class: 1 to 6 by Berkey and
// Wang, "Two-dimensional finite bin-packing algorithms", Journal of the
// Operational Research Society 38 (1987); 7 to 10 by Martello and Vigo, "Exact
// solution of the two-dimensional finite bin packing problem", Management
// Science 44 (1998).
func published(class, pieces int, seed uint64) cuttingInstance {
	rnd := rand.New(rand.NewPCG(uint64(class), seed))
	between := func(low, high int) int { return low + rnd.IntN(high-low+1) }
	in := cuttingInstance{Name: fmt.Sprintf("made%02d_%03d_%02d", class, pieces, seed)}
	sheets := []int{10, 30, 40, 100, 100, 300, 100, 100, 100, 100}
	sizes := []int{10, 10, 35, 35, 100, 100}
	c := sheets[class-1]
	in.Sheet = [2]int{c, c}
	for range pieces {
		var w, h int
		if class <= 6 {
			w, h = between(1, sizes[class-1]), between(1, sizes[class-1])
		} else {
			kind := class - 7
			if rnd.IntN(10) >= 7 { // the other kinds, a tenth each
				kind = (kind + 1 + rnd.IntN(3)) % 4
			}
			switch kind {
			case 0:
				w, h = between((2*c+2)/3, c), between(1, c/2)
			case 1:
				w, h = between(1, c/2), between((2*c+2)/3, c)
			case 2:
				w, h = between(c/2, c), between(c/2, c)
			default:
				w, h = between(1, c/2), between(1, c/2)
			}
		}
		in.Items = append(in.Items, [3]int{w, h, 1})
	}
	return in
}
