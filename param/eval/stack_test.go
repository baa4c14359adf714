package eval

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

const stackHead = `units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
base ground { feet }
`

// toPlane returns where a line meets the plane through a point.
func toPlane(from, u, through, normal r3.Vec) r3.Vec {
	return r3.Add(from, r3.Scale(r3.Dot(r3.Sub(through, from), normal)/r3.Dot(u, normal), u))
}

// A mitre is where both tubes meet: each line of the one's outside, run to the
// plane between them, is there on the outside of the other.
func TestMitre(t *testing.T) {
	for _, tt := range []struct{ lean, toward, lean2, toward2 float64 }{
		{0, 0, 40, 10}, {30, 200, 0, 0}, {30, 200, 60, 90}, {10, 0, 100, 180}, {20, 50, 20, 50},
	} {
		d := mustEvaluate(t, stackHead+fmt.Sprintf(`post mast on ground { diameter 60, length 500, lean %v deg toward %v deg, metal skin }
post bough on mast { diameter 60, length 400, lean %v deg toward %v deg, metal skin }`, tt.lean, tt.toward, tt.lean2, tt.toward2))
		mast, bough := part(t, d, "mast"), part(t, d, "bough")
		a, b := mast.Post, bough.Post
		if !close3(b.Ends[design.Foot].At, a.Ends[design.Head].At) || !close3(b.Direction, design.Leaning(tt.lean2*degree, tt.toward2*degree)) || !close3(b.Ends[design.Head].At, r3.Add(b.Ends[design.Foot].At, r3.Scale(400, b.Direction))) {
			t.Errorf("%+v: %+v", tt, *b)
		}
		if a.Ends[design.Head].Contact != (design.Contact{Meets: design.OnHead, With: bough}) || b.Ends[design.Foot].Contact != (design.Contact{Meets: design.OnHead, With: mast}) || a.Ends[design.Head].Disc || !b.Ends[design.Head].Disc {
			t.Errorf("%+v: ends %+v and %+v, disc %v", tt, a.Ends[design.Head].Contact, b.Ends[design.Foot].Contact, a.Ends[design.Head].Disc)
		}
		normal := r3.Unit(r3.Add(a.Direction, b.Direction))
		for i := range stations {
			angle := 2 * math.Pi * float64(i) / stations
			up := toPlane(ring(a, a.Ends[design.Head].At, 30, angle), a.Direction, a.Ends[design.Head].At, normal)
			if _, away := wallRadius(b, up); math.Abs(away-30) > 1e-9 {
				t.Errorf("%+v: at station %d the mitre is %v mm from the other axis", tt, i, away)
				break
			}
			down := toPlane(ring(b, b.Ends[design.Foot].At, 30, angle), b.Direction, b.Ends[design.Foot].At, normal)
			if _, away := wallRadius(a, down); math.Abs(away-30) > 1e-9 {
				t.Errorf("%+v: at station %d the mitre is %v mm from the axis below", tt, i, away)
				break
			}
		}
		j := d.Joints[len(d.Joints)-1]
		if j.Kind != design.EndJoint || j.A != mast || j.B != bough || j.Post != bough || j.End != design.Foot || j.At != a.Ends[design.Head].At {
			t.Errorf("%+v: joint %+v", tt, j)
		}
	}
}

// A post on a head goes on the way of the post below, also a taper and a row.
func TestStack(t *testing.T) {
	d := mustEvaluate(t, stackHead+`post mast[0] on ground { diameter 80, length 300, lean 12 deg toward 40 deg, metal skin }
repeat i from 1 to 3 { post mast[i] on mast[i - 1] { diameter 80 - 10 * (i - 1) to 80 - 10 * i, length 300, metal skin } }
ball tip on mast[3] { diameter 120, halves, metal skin }`)
	first, last := part(t, d, "mast[0]").Post, part(t, d, "mast[3]").Post
	if !close3(last.Ends[design.Head].At, r3.Add(first.Ends[design.Foot].At, r3.Scale(1200, first.Direction))) || last.Lean != first.Lean || last.LeanBearing != first.LeanBearing {
		t.Errorf("the last ends at %v, leaning %v", last.Ends[design.Head].At, last.Lean)
	}
	if part(t, d, "mast[1]").Post.Direction != first.Direction {
		t.Errorf("the butt is not square")
	}
}

// A smaller tube stands on the disc of a larger head as long as the ring in
// which it cuts the head's plane is within the disc; the larger keeps its disc
// and is cut square.
func TestOnDisc(t *testing.T) {
	const hair = 1e-4 // mm
	for _, tt := range []struct{ lean, toward, lean2, toward2 float64 }{{0, 0, 0, 0}, {0, 0, 40, 10}, {30, 200, 50, 90}} {
		u, v := design.Leaning(tt.lean*degree, tt.toward*degree), design.Leaning(tt.lean2*degree, tt.toward2*degree)
		far := 0.0
		tube := &design.Post{Direction: v}
		const fine = 200_000
		for i := range fine {
			far = max(far, r3.Norm(toPlane(ring(tube, r3.Vec{}, 20, 2*math.Pi*float64(i)/fine), v, r3.Vec{}, u)))
		}
		text := func(edge float64) string {
			return stackHead + fmt.Sprintf(`post mast on ground { diameter %v, length 500, lean %v deg toward %v deg, metal skin }
post bough on mast { diameter 40, length 400, lean %v deg toward %v deg, metal skin }`, 2*edge, tt.lean, tt.toward, tt.lean2, tt.toward2)
		}
		d := mustEvaluate(t, text(far+hair))
		mast, bough := part(t, d, "mast"), part(t, d, "bough")
		if mast.Post.Ends[design.Head].Meets != design.Free || !mast.Post.Ends[design.Head].Disc || bough.Post.Ends[design.Foot].Contact != (design.Contact{Meets: design.OnHead, With: mast}) ||
			!close3(bough.Post.Ends[design.Foot].At, mast.Post.Ends[design.Head].At) {
			t.Errorf("%+v: %+v on %+v", tt, *bough.Post, *mast.Post)
		}
		if far > 20+hair { // else it would be a tube of the same diameter
			if _, list := evaluate(text(far-hair), Options{}); len(list) != 1 {
				t.Errorf("%+v: a hair too small a disc has %d mistakes, want 1", tt, len(list))
			}
		}
	}
}
