package eval

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// lastCrossing returns where a line leaves the outside of a post for good: it is
// walked back from far out in small steps until it is within, and then halved.
func lastCrossing(host *design.Post, from, u r3.Vec, far float64) (at r3.Vec, ok bool) {
	out := func(s float64) float64 {
		radius, away := wallRadius(host, r3.Add(from, r3.Scale(s, u)))
		return away - radius
	}
	const step = 0.5 // mm
	s := far
	for ; out(s) > 0; s -= step {
		if s < -far {
			return at, false
		}
	}
	lo, hi := s, s+step
	for range 60 {
		if mid := (lo + hi) / 2; out(mid) > 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	return r3.Add(from, r3.Scale(lo, u)), true
}

var branches = []string{
	"at 400 toward 0 deg, diameter 60",
	"at 400 toward 130 deg, diameter 60, lean 45 deg",
	"at 300 toward 250 deg, diameter 40, lean 110 deg",
	"at 350 toward 20 deg, diameter 30, lean 60 deg toward 45 deg",
	"at 350 toward 20 deg, diameter 30, lean 60 deg toward 345 deg",
	"at 500 toward horn, diameter 50 to 20",
	"at 500 toward (5000, 5000), diameter 50 to 70, lean 50 deg",
}

var branchHosts = []string{
	"diameter 120, lean 20 deg toward 70 deg", "diameter 110, lean 3 deg toward 200 deg", "diameter 150 to 100, lean 25 deg toward 300 deg",
}

// A branch starts on the side of its host, at the length and on the side that
// are given; straight out it is square to the host's axis; and its saddle is as
// far along the host as each line of its wall, walked in until it meets the
// host, says.
func TestBranch(t *testing.T) {
	const head = `units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
base ground { feet }
post horn on ground { at (3000, 0), diameter 60, length 500, metal skin }
`
	for _, on := range branchHosts {
		for _, how := range branches {
			name := on + "; " + how
			d := mustEvaluate(t, head+fmt.Sprintf(`post mast on ground { %s, length 900, metal skin }
post arm on mast { %s, length 300, metal skin }`, on, how))
			mast, arm := part(t, d, "mast"), part(t, d, "arm").Post
			if radius, away := wallRadius(mast.Post, arm.Ends[design.Foot].At); math.Abs(radius-away) > 1e-9 {
				t.Errorf("%s: the foot is %v mm off the side", name, away-radius)
			}
			if z := r3.Dot(r3.Sub(arm.Ends[design.Foot].At, mast.Post.Ends[design.Foot].At), mast.Post.Direction); !near(z, arm.Along) {
				t.Errorf("%s: the foot is %v mm along, want %v", name, z, arm.Along)
			}
			// The bearing is that of the host standing upright: tilt it back.
			out := r3.Sub(arm.Ends[design.Foot].At, r3.Add(mast.Post.Ends[design.Foot].At, r3.Scale(arm.Along, mast.Post.Direction)))
			axis := r3.Cross(mast.Post.Direction, r3.Vec{Z: 1})
			if r3.Norm(axis) > 0 {
				out = r3.NewRotation(mast.Post.Lean, r3.Unit(axis)).Rotate(out)
			}
			if off := math.Remainder(math.Atan2(out.Y, out.X)-arm.AlongBear, 2*math.Pi); math.Abs(off) > 1e-9 || math.Abs(out.Z) > 1e-9 {
				t.Errorf("%s: the root is %v rad off its bearing, %v mm off the level", name, off, out.Z)
			}
			if !strings.Contains(how, "lean") && math.Abs(r3.Dot(arm.Direction, mast.Post.Direction)) > 1e-12 {
				t.Errorf("%s: straight out is %v", name, arm.Direction)
			}
			if strings.Count(how, "toward") < 2 {
				// By itself a branch keeps to the middle: the axes meet.
				if off := r3.Dot(r3.Sub(arm.Ends[design.Foot].At, mast.Post.Ends[design.Foot].At), r3.Unit(r3.Cross(arm.Direction, mast.Post.Direction))); math.Abs(off) > 1e-9 {
					t.Errorf("%s: the axes pass each other by %v mm", name, off)
				}
			}
			if i := strings.Index(how, "lean "); i >= 0 {
				var want float64
				fmt.Sscanf(how[i:], "lean %f deg", &want)
				if got := math.Acos(min(1, arm.Direction.Z)); math.Abs(got-want*degree) > 1e-7 {
					t.Errorf("%s: it leans by %v", name, got/degree)
				}
			}
			if !close3(arm.Ends[design.Head].At, r3.Add(arm.Ends[design.Foot].At, r3.Scale(300, arm.Direction))) || arm.Ends[design.Foot].Contact != (design.Contact{Meets: design.OnSide, With: mast}) || arm.Ends[design.Head].Meets != design.Free || !arm.Ends[design.Head].Disc {
				t.Errorf("%s: %+v", name, *arm)
			}
			if j := d.Joints[len(d.Joints)-1]; j.Kind != design.EndJoint || j.End != design.Foot || j.A != mast || j.Post.Name != "arm" || j.At != arm.Ends[design.Foot].At {
				t.Errorf("%s: joint %+v", name, j)
			}
			w, ok := sideOf(mast.Post).saddle(arm.Ends[design.Foot].At, arm.Direction, arm.Ends[design.Foot].Diameter/2)
			lo, hi := math.Inf(1), math.Inf(-1)
			const stations = 240
			for i := range stations {
				from := ring(arm, arm.Ends[design.Foot].At, arm.Ends[design.Foot].Diameter/2, 2*math.Pi*float64(i)/stations)
				at, ok := lastCrossing(mast.Post, from, arm.Direction, 1000)
				if !ok {
					t.Fatalf("%s: a line of the wall misses the host", name)
				}
				z := r3.Dot(r3.Sub(at, mast.Post.Ends[design.Foot].At), mast.Post.Direction)
				lo, hi = min(lo, z), max(hi, z)
			}
			// Between stations a curve rises by about height x (pi / 240)2 / 2.
			const between = 2e-2
			if !ok || w.lo > lo+1e-6 || w.lo < lo-between || w.hi < hi-1e-6 || w.hi > hi+between {
				t.Errorf("%s: the saddle is from %v to %v, walked in %v to %v", name, w.lo, w.hi, lo, hi)
			}
			if w.foot > 1e-6 {
				t.Errorf("%s: the axis leaves at %v", name, w.foot)
			}
		}
	}
}

// On a tube the saddle has a closed form: with the tube's radius R, the branch's
// r and the angle phi between the axes, the wall of a branch whose axis meets
// the tube's leaves it between (R cos(phi) -/+ r) / sin(phi) from there.
func TestSaddleClosedForm(t *testing.T) {
	for _, phi := range []float64{20, 60, 90, 140} {
		for _, r := range []float64{5, 30, 49.999, 50} {
			c := side{axis: r3.Vec{Z: 1}, radius: 50, length: 2000}
			sin, cos := math.Sincos(phi * degree)
			w, ok := c.saddle(r3.Vec{Z: 1000}, r3.Vec{X: sin, Z: cos}, r)
			lo, hi := 1000+(50*cos-r)/sin, 1000+(50*cos+r)/sin
			if !ok || math.Abs(w.lo-lo) > 1e-6 || math.Abs(w.hi-hi) > 1e-6 || !near(w.foot, 50/sin) {
				t.Errorf("phi %v, r %v: %+v, %v, want %v to %v from %v", phi, r, w, ok, lo, hi, 50/sin)
			}
		}
	}
}

// A branch just fits at the ends of its host, and no longer does a hair past
// them; and just fits its width.
func TestBranchJustFits(t *testing.T) {
	const hair = 1e-4 // mm
	text := func(at, diameter, past float64) string {
		return fmt.Sprintf(`units mm
metal skin { alloy copper, thickness 1.5 }
base ground { feet }
post mast on ground { diameter 100, length 900, metal skin }
post arm on mast { at %v toward 30 deg, diameter %v, length 300, lean 90 deg toward %v deg, metal skin }`, at, diameter, 30+past)
	}
	for _, tt := range []struct {
		at, diameter, past float64 // past the axis, in degrees
		sound              bool
	}{
		{20 + hair, 40, 0, true}, {20 - hair, 40, 0, false}, {880 - hair, 40, 0, true}, {880 + hair, 40, 0, false},
		{450, 100, 0, true}, {450, 100 + hair, 0, false},
		// The axis passes the host's by 50 sin(past), which with 20 makes 50.
		{450, 40, math.Asin(0.6)/degree - hair, true}, {450, 40, math.Asin(0.6)/degree + hair, false},
	} {
		if _, list := evaluate(text(tt.at, tt.diameter, tt.past), Options{}); (len(list) == 0) != tt.sound {
			t.Errorf("%+v: %v", tt, list.Err())
		}
	}
}
