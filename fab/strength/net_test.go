package strength

import (
	"fmt"
	"math"
	"testing"

	"stabile/fab/frame"
	"stabile/param/written"
)

const netShop = `units mm
metal skin { alloy low-carbon-steel, thickness 2 }
base pad { plate 600 by 600, metal skin }
post p on pad { diameter 102, length 1000, metal skin }
`

// within reports whether two values are within a share of each other.
func within(a, b, share float64) bool { return math.Abs(a-b) <= share*math.Abs(b) }

// TestNetOfTwoHoles holds the section at two opposite holes to the integrals of what is left
// of a thin ring: with each hole taking 2 a of it, A = t r (2 pi - 4 a), the lesser second
// moment about the line square to that through the holes t r3 (pi - 2 a - sin 2 a), the
// greater with + sin 2 a, and the most stress at the edges of the holes, from the worst way.
// The two strips, 90 degrees from the holes, carry twist by bending: each of T / 2r, over
// w2 t / 6.
func TestNetOfTwoHoles(t *testing.T) {
	d := written.Design(t, netShop+"hole h in p { at 500 toward 0 deg, slot 50 by 80, through }\n")
	p := d.Part("p")
	net, ok := NetAt(p, 500)
	if !ok {
		t.Fatal("no net section at the holes")
	}
	r, thick := 50.0, 2.0
	a := math.Asin(25 / r)
	w := r * (math.Pi - 2*a)
	inertia := thick * r * r * r * (math.Pi - 2*a - math.Sin(2*a))
	other := thick * r * r * r * (math.Pi - 2*a + math.Sin(2*a))
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"area", net.Area, thick * r * (2*math.Pi - 4*a)},
		{"inertia", net.Inertia, inertia},
		{"modulus", net.Elastic, 1 / ((r + thick/2) * math.Hypot(math.Cos(a)/inertia, math.Sin(a)/other))},
		{"share of the girth", net.Left, 1 - 2*a/math.Pi},
		{"height", net.High, 80},
		{"stress by twist", net.PerTwist, (1 / (2 * r)) * 80 / 2 / (thick * w * w / 6)},
	} {
		if !within(c.got, c.want, 2e-3) {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	if net.Shift > 1e-9 {
		t.Errorf("the centre of two opposite holes is %v off the axis", net.Shift)
	}
	if _, ok := NetAt(p, 300); ok {
		t.Error("there is a net section where no hole is")
	}
}

// TestNetByParts holds sections at random holes to sums over ten thousand parts of the ring.
func TestNetByParts(t *testing.T) {
	for k, holes := range [][]float64{{0}, {0, 90}, {10, 100, 250}, {0, 72, 144, 216, 288}, {0, 20}} {
		text := netShop
		for i, at := range holes {
			text += fmt.Sprintf("hole h%d in p { at %d toward %v deg, diameter 22 }\n", i, 500+8*(i%2)*(k%2), at)
		}
		d := written.Design(t, text)
		net, ok := NetAt(d.Part("p"), 500)
		if !ok {
			t.Fatal("no net section")
		}
		const parts = 10000
		r, thick := 50.0, 2.0
		var area, x, y, xx, yy, xy float64
		for i := range parts {
			at := 2 * math.Pi * (float64(i) + 0.5) / parts
			gone := false
			for _, h := range holes {
				gone = gone || math.Abs(math.Remainder(at-h*math.Pi/180, 2*math.Pi)) < math.Asin(11/r)
			}
			if gone {
				continue
			}
			cell := 2 * math.Pi * r * thick / parts
			sin, cos := math.Sincos(at)
			area += cell
			x, y = x+cell*r*cos, y+cell*r*sin
			xx, yy, xy = xx+cell*r*r*cos*cos, yy+cell*r*r*sin*sin, xy+cell*r*r*sin*cos
		}
		x, y = x/area, y/area
		xx, yy, xy = xx-area*x*x, yy-area*y*y, xy-area*x*y
		least := (xx+yy)/2 - math.Hypot((xx-yy)/2, xy)
		if !within(net.Area, area, 1e-3) || !within(net.Inertia, least, 2e-3) || math.Abs(net.Shift-math.Hypot(x, y)) > 0.02 {
			t.Errorf("%v: area %v, inertia %v, shift %v; by parts %v, %v, %v", holes, net.Area, net.Inertia, net.Shift, area, least, math.Hypot(x, y))
		}
	}
}

// TestNetCarriesLess: a section at holes carries less of everything than the whole tube, the
// less the wider they are, and without end less as nothing is left.
func TestNetCarriesLess(t *testing.T) {
	before := allow(frame.Tube(102, 2), 250, 2e5, 400, 1000)
	for _, wide := range []int{10, 20, 40, 60, 80} {
		d := written.Design(t, netShop+fmt.Sprintf("hole h in p { at 500 toward 0 deg, slot %d by 80, through }\n", wide))
		net, _ := NetAt(d.Part("p"), 500)
		a := net.allow(250, 2e5, 400, 1000)
		if !(a.Tension < before.Tension && a.Compression < before.Compression && a.Bending < before.Bending && a.Shear < before.Shear && a.Twist < before.Twist) {
			t.Errorf("a slot %d wide carries %+v, a narrower one or none %+v", wide, a, before)
		}
		if !(a.ShearBends > before.ShearBends && a.TwistBends > before.TwistBends) {
			t.Errorf("a slot %d wide bends its strips by %v and %v, a narrower one by %v and %v", wide, a.ShearBends, a.TwistBends, before.ShearBends, before.TwistBends)
		}
		before = a
	}
}
