package layout

import "math/bits"

// A random source after Vigna's splitmix64: small, and the same on every
// machine and in every release of Go.
type random uint64

func (r *random) next() uint64 {
	*r += 0x9e3779b97f4a7c15
	z := uint64(*r)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below returns a number from 0 to n-1.
func (r *random) below(n int) int {
	hi, _ := bits.Mul64(r.next(), uint64(n))
	return int(hi)
}

// unit returns a number from 0 to less than 1.
func (r *random) unit() float64 {
	return float64(r.next()>>11) / (1 << 53)
}
