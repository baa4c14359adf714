package picture

import "math"

// hash mixes its arguments to 32 bits that look random (the finisher of
// MurmurHash3 after each, from memory).
func hash(a, b, c, seed uint32) uint32 {
	h := seed ^ 0x9e3779b9
	for _, v := range [3]uint32{a, b, c} {
		h = (h ^ v) * 0x85ebca6b
		h ^= h >> 13
		h *= 0xc2b2ae35
		h ^= h >> 16
	}
	return h
}

// uniform returns a hash as a number in [0, 1).
func uniform(h uint32) float64 { return float64(h) * 0x1p-32 }

// noise returns a smooth number about 0, between -1 and 1, that varies over
// lengths of 1: values at whole places, blended.
func noise(x, y, z float64, seed uint32) float64 {
	fx, fy, fz := math.Floor(x), math.Floor(y), math.Floor(z)
	i, j, k := uint32(int64(fx)), uint32(int64(fy)), uint32(int64(fz))
	x, y, z = x-fx, y-fy, z-fz
	x, y, z = x*x*(3-2*x), y*y*(3-2*y), z*z*(3-2*z)
	// One multiplication for each coordinate, then one mix for each corner.
	i, j, k = i*0x8da6b343, j*0xd8163841, k*0xcb1ab31f+seed
	i1, j1, k1 := i+0x8da6b343, j+0xd8163841, k+0xcb1ab31f
	a := lerp(lerp(corner(i^j^k), corner(i1^j^k), x), lerp(corner(i^j1^k), corner(i1^j1^k), x), y)
	b := lerp(lerp(corner(i^j^k1), corner(i1^j^k1), x), lerp(corner(i^j1^k1), corner(i1^j1^k1), x), y)
	return lerp(a, b, z)
}

// noise2 is noise in a plane.
func noise2(x, y float64, seed uint32) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	i, j := uint32(int64(fx))*0x8da6b343, uint32(int64(fy))*0xd8163841+seed
	x, y = x-fx, y-fy
	x, y = x*x*(3-2*x), y*y*(3-2*y)
	i1, j1 := i+0x8da6b343, j+0xd8163841
	return lerp(lerp(corner(i^j), corner(i1^j), x), lerp(corner(i^j1), corner(i1^j1), x), y)
}

func corner(h uint32) float64 { return float64(int32(scatter(h))) * 0x1p-31 }

// scatter mixes one number to 32 bits that look random.
func scatter(h uint32) uint32 {
	h = (h ^ h>>15) * 0x2c1b3c6d
	h = (h ^ h>>12) * 0x297a2d39
	return h ^ h>>15
}

func lerp(a, b, f float64) float64 { return a + f*(b-a) }

// smooth rises from 0 at a to 1 at b.
func smooth(a, b, x float64) float64 {
	x = min(max((x-a)/(b-a), 0), 1)
	return x * x * (3 - 2*x)
}

// seen returns how much of a pattern of the given wavelength is left when it is
// averaged over a pixel.
func seen(wavelength, pixel float64) float64 {
	const all, none = 0.25, 0.8 // pixels to a wavelength
	q := pixel * (1 / wavelength)
	if q <= all {
		return 1
	}
	if q >= none {
		return 0
	}
	return 1 - smooth(all, none, q)
}
