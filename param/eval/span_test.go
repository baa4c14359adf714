package eval

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// yard has parts of each kind to run posts between. The leaning post and the
// taper have their middles in the air.
const yard = `units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 3000 by 3000, metal slab }
post mast on pad { at (-600, 100), diameter 120, length 1500, lean 20 deg toward 70 deg, metal skin }
post horn on pad { at (700, -300), diameter 160 to 90, length 1100, lean 10 deg toward 200 deg, metal skin }
post stub on pad { at (-300, -700), diameter 100, length 500, metal skin }
ball moon on stub { diameter 400, gores 12, metal skin }
post peg on pad { at (600, 900), diameter 60, length 900, metal skin }
ball star on peg { diameter 200, offset 20 toward 33 deg, halves, metal skin }
`

// wallRadius returns the outside radius of a post at a point's height along it,
// and how far the point is from its axis.
func wallRadius(p *design.Post, at r3.Vec) (radius, away float64) {
	d := r3.Sub(at, p.Ends[design.Foot].At)
	z := r3.Dot(d, p.Direction)
	return p.Ends[design.Foot].Diameter/2 + (p.Ends[design.Head].Diameter-p.Ends[design.Foot].Diameter)/2*z/p.Length, r3.Norm(r3.Cross(d, p.Direction))
}

// onSurface returns how far a point is off the surface that a post's end is to
// meet.
func onSurface(host *design.Part, at r3.Vec) float64 {
	switch {
	case host.Base != nil:
		return at.Z - host.Base.Top
	case host.Ball != nil:
		return r3.Norm(r3.Sub(at, host.Ball.Center)) - host.Ball.Radius
	}
	radius, away := wallRadius(host.Post, at)
	return away - radius
}

// centreOf returns the point that the axis is to run to.
func centreOf(p *design.Part) r3.Vec {
	if p.Ball != nil {
		return p.Ball.Center
	}
	return r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(p.Post.Length/2, p.Post.Direction))
}

// The axis of a post between two parts passes through both centres, its ends
// are on their outer surfaces, and nothing of it within them.
func TestSpan(t *testing.T) {
	for _, tt := range []struct {
		from, to, more string
		meets          [2]design.Meeting
	}{
		{"moon", "star", "", [2]design.Meeting{design.OnBall, design.OnBall}},
		{"star", "mast", "", [2]design.Meeting{design.OnBall, design.OnSide}},
		{"mast", "horn", "", [2]design.Meeting{design.OnSide, design.OnSide}},
		{"horn", "moon", "", [2]design.Meeting{design.OnSide, design.OnBall}},
		{"pad", "moon", "at (400, -900), ", [2]design.Meeting{design.OnPlate, design.OnBall}},
		{"mast", "pad", "at (200, 800), ", [2]design.Meeting{design.OnSide, design.OnPlate}},
	} {
		name := tt.from + " to " + tt.to
		d := mustEvaluate(t, yard+fmt.Sprintf("post spar from %s to %s { %sdiameter 40, metal skin }", tt.from, tt.to, tt.more))
		spar := part(t, d, "spar").Post
		hosts := [2]*design.Part{part(t, d, tt.from), part(t, d, tt.to)}
		for i, end := range spar.Ends {
			at := end.At
			if end.Contact != (design.Contact{Meets: tt.meets[i], With: hosts[i]}) {
				t.Errorf("%s: end %d is %+v", name, i, end)
			}
			if off := onSurface(hosts[i], at); math.Abs(off) > 1e-9 {
				t.Errorf("%s: end %d is %v mm off the surface", name, i, off)
			}
			if hosts[i].Base != nil {
				continue
			}
			if off := r3.Norm(r3.Cross(r3.Sub(centreOf(hosts[i]), spar.Ends[design.Foot].At), spar.Direction)); off > 1e-9 {
				t.Errorf("%s: the axis passes the centre of end %d by %v mm", name, i, off)
			}
			for k := 1; k < stations; k++ {
				on := r3.Add(spar.Ends[design.Foot].At, r3.Scale(spar.Length*float64(k)/stations, spar.Direction))
				if onSurface(hosts[i], on) <= 0 {
					t.Errorf("%s: the axis is within %s at station %d", name, hosts[i].Name, k)
					break
				}
			}
		}
		if !close3(spar.Ends[design.Head].At, r3.Add(spar.Ends[design.Foot].At, r3.Scale(spar.Length, spar.Direction))) || !near(r3.Norm(spar.Direction), 1) || !spar.Between || spar.Ends[design.Head].Disc {
			t.Errorf("%s: %+v", name, *spar)
		}
		if u := spar.Direction; !near(math.Cos(spar.Lean), u.Z) || math.Abs(math.Sin(spar.Lean)*math.Cos(spar.LeanBearing)-u.X) > 1e-12 {
			t.Errorf("%s: Lean %v toward %v, but Direction %v", name, spar.Lean, spar.LeanBearing, u)
		}
		n := len(d.Joints)
		for i, j := range d.Joints[n-2:] {
			if j.Kind != design.EndJoint || j.Post.Name != "spar" || j.End == design.Foot != (i == 0) || j.A != hosts[i] || j.B.Name != "spar" {
				t.Errorf("%s: joint %d is %+v", name, i, j)
			}
		}
	}
}

// Without 'at' a post from the base is straight under the other part, and can
// be read as any other.
func TestSpanUpright(t *testing.T) {
	d := mustEvaluate(t, yard+`
post prop from pad to star { diameter 40, metal skin }
let long = prop.length
post twin on pad { at (-1000, 0), diameter 40, length long, metal skin }
ball far at (prop.head.x, prop.head.y, prop.foot.z + 2000) { diameter 100, halves, metal skin }
post reach from star to far { diameter 20, metal skin }`)
	prop, star, twin := part(t, d, "prop").Post, part(t, d, "star").Ball, part(t, d, "twin").Post
	if prop.Ends[design.Foot].At != (r3.Vec{X: star.Center.X, Y: star.Center.Y, Z: 10}) || prop.Lean != 0 || !near(prop.Length, star.Center.Z-110) {
		t.Errorf("prop = %+v", *prop)
	}
	if twin.Length != prop.Length {
		t.Errorf("prop.length is read as %v, want %v", twin.Length, prop.Length)
	}
}

// Posts close a loop, and balls placed outright hang in it.
func TestLoop(t *testing.T) {
	d := mustEvaluate(t, `units mm
metal skin { alloy copper, thickness 1.5 }
base ground { feet }
ball node[1] at (400, 0, 600) { diameter 120, gores 8, metal skin }
ball node[2] at (-200, 300, 600) { diameter 120, gores 8, metal skin }
ball node[3] at (-200, -300, 800) { diameter 120, zones 6, vent 6, metal skin }
post ring[1] from node[1] to node[2] { diameter 30, metal skin }
post ring[2] from node[2] to node[3] { diameter 30, metal skin }
post ring[3] from node[3] to node[1] { diameter 30, metal skin }
post leg from ground to node[2] { diameter 40 to 30, metal skin }
post horn on node[3] { diameter 20, length 200, metal skin }
`)
	if len(d.Joints) != 9 {
		t.Errorf("%d joints, want 9", len(d.Joints))
	}
	if b := part(t, d, "node[3]").Ball; b.Build != design.Zones || b.Zones != 6 || b.Vent != 6 || b.On != nil || b.Center != (r3.Vec{X: -200, Y: -300, Z: 800}) {
		t.Errorf("node[3] = %+v", *b)
	}
	if p := part(t, d, "leg").Post; !p.IsTaper() || p.Ends[design.Foot].Diameter != 40 || p.Ends[design.Head].Diameter != 30 || p.Ends[design.Foot].At.Z != 0 || p.Ends[design.Foot].With != d.Base() {
		t.Errorf("leg = %+v", *p)
	}
}
