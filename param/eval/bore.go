package eval

import "gonum.org/v1/gonum/spatial/r3"

// bore takes the size of a vent or a drain and where it is drilled: away from the viewer
// unless it says another way.
func (b *body) bore(word string, from r3.Vec, point string) (size, bearing float64, ok bool) {
	g := b.find(word)
	if g == nil {
		return 0, seamBearing, true
	}
	bearing, ok = seamBearing, true
	if g.args[1].isGiven() {
		bearing, ok = b.bearing(g.args[1], from, point, b.what)
	}
	return g.args[0].value.q.Number, bearing, ok
}
