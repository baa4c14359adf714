package eval

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// Two balls welded in a seat share that circle: every point of it is on both,
// and it is as wide as the seat.
func TestBallOnBall(t *testing.T) {
	for _, tt := range []struct {
		diameter, offset, toward float64
		seat                     string
		want                     float64
	}{
		{200, 0, 0, "", 50}, {200, 60, 70, "", 50}, {600, 150, 250, "", 75}, {200, 40, 10, "seat 170, ", 170}, {200, 200, 5, "seat 3, ", 3},
	} {
		d := mustEvaluate(t, stackHead+fmt.Sprintf(`ball moon on ground { at (100, 50), diameter 300, halves, metal skin }
ball star on moon { diameter %v, offset %v toward %v deg, %shalves, metal skin }`, tt.diameter, tt.offset, tt.toward, tt.seat))
		moon, star := part(t, d, "moon"), part(t, d, "star")
		a, b := moon.Ball, star.Ball
		off := r3.Sub(b.Center, a.Center)
		sin, cos := math.Sincos(tt.toward * degree)
		if math.Abs(off.X-tt.offset*cos) > 1e-9 || math.Abs(off.Y-tt.offset*sin) > 1e-9 || off.Z <= 0 {
			t.Errorf("%+v: the centre is at %v from the other", tt, off)
		}
		j := d.Joints[len(d.Joints)-1]
		if j.Kind != design.SeatJoint || j.A != moon || j.B != star || j.Post != nil || b.On != moon || a.On != d.Base() || !near(b.Seat, tt.want) || a.Seat != 0 {
			t.Errorf("%+v: joint %+v, ball %+v", tt, j, *b)
		}
		around := &design.Post{Direction: r3.Unit(off)}
		for i := range stations {
			at := ring(around, j.At, b.Seat/2, 2*math.Pi*float64(i)/stations)
			if one, two := r3.Norm(r3.Sub(at, a.Center))-a.Radius, r3.Norm(r3.Sub(at, b.Center))-b.Radius; math.Abs(one) > 1e-9 || math.Abs(two) > 1e-9 {
				t.Errorf("%+v: a point of the seat is %v and %v mm off the balls", tt, one, two)
				break
			}
		}
	}
}

// A ball rests on the square end of a taper: of the edge outside and the edge
// inside, which is the outer one moved a thickness square to the wall, one point
// touches it and none is within.
func TestBallOnTaper(t *testing.T) {
	for _, tt := range []struct{ from, to, length, thick, diameter, offset float64 }{
		{80, 50, 400, 1.5, 120, 0}, {50, 80, 400, 1.5, 120, 0}, {200, 60, 150, 6, 150, 20}, {60, 200, 150, 6, 300, 30},
		{60, 200, 50, 8, 210, 1}, {200, 60, 40, 8, 62, 0},
	} {
		d := mustEvaluate(t, fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness %v }
base ground { feet }
post horn on ground { diameter %v to %v, length %v, lean 15 deg toward 100 deg, metal skin }
ball moon on horn { diameter %v, offset %v toward 40 deg, bought 1 kg }`, tt.thick, tt.from, tt.to, tt.length, tt.diameter, tt.offset))
		horn, moon := part(t, d, "horn").Post, part(t, d, "moon").Ball
		// In the plane of the axis: up the wall, and square to it inward.
		wall := math.Atan2((tt.to-tt.from)/2, tt.length)
		inRadius, inAlong := tt.to/2-tt.thick*math.Cos(wall), tt.thick*math.Sin(wall)
		least := math.Inf(1)
		for i := range stations {
			// One station faces away from the offset.
			angle := 40*degree + math.Pi + 2*math.Pi*float64(i)/stations
			inside := r3.Add(horn.Ends[design.Head].At, r3.Scale(inAlong, horn.Direction))
			for _, at := range []r3.Vec{ring(horn, horn.Ends[design.Head].At, tt.to/2, angle), ring(horn, inside, inRadius, angle)} {
				least = min(least, r3.Norm(r3.Sub(at, moon.Center))-moon.Radius)
			}
		}
		// A point of the near edge may lie within where the end is trimmed to the
		// ball; away from the offset, where it rests, none does.
		if tt.offset == 0 && math.Abs(least) > 1e-9 {
			t.Errorf("%+v: the nearest edge is %v mm off the ball", tt, least)
		}
		away := 40*degree + math.Pi
		inside := r3.Add(horn.Ends[design.Head].At, r3.Scale(inAlong, horn.Direction))
		outer := r3.Norm(r3.Sub(ring(horn, horn.Ends[design.Head].At, tt.to/2, away), moon.Center)) - moon.Radius
		inner := r3.Norm(r3.Sub(ring(horn, inside, inRadius, away), moon.Center)) - moon.Radius
		if math.Abs(min(outer, inner)) > 1e-9 {
			t.Errorf("%+v: away from the offset the edges are %v and %v mm off the ball", tt, outer, inner)
		}
	}
}

// A ball around a post has its centre on the axis, and carries posts as any
// ball.
func TestBallAround(t *testing.T) {
	d := mustEvaluate(t, stackHead+`post mast on ground { diameter 60 to 30, length 900, lean 25 deg toward 200 deg, metal skin }
ball bead around mast { height 600, diameter 200, zones 8, pole 25 deg toward 200 deg, metal skin }
post spur on bead { offset 70 toward 30 deg, diameter 20, length 300, metal skin }
post tie from bead to ground { at (-900, 0), diameter 20, metal skin }`)
	mast, bead := part(t, d, "mast"), part(t, d, "bead")
	if off := r3.Sub(bead.Ball.Center, mast.Post.Ends[design.Foot].At); !near(r3.Norm(off), 600) || r3.Norm(r3.Cross(off, mast.Post.Direction)) > 1e-9 {
		t.Errorf("the centre is at %v from the foot", off)
	}
	if b := bead.Ball; b.Around != mast || b.Along != 600 || b.On != nil || !close3(b.Pole, mast.Post.Direction) {
		t.Errorf("bead = %+v", *b)
	}
	j := d.Joints[1]
	if j.Kind != design.ThreadJoint || j.Post != mast || j.A != mast || j.B != bead || !close3(j.At, bead.Ball.Center) {
		t.Errorf("joint %+v", j)
	}
	if mast.Post.Ends[design.Head].Meets != design.Free || !mast.Post.Ends[design.Head].Disc {
		t.Errorf("the head of the mast is %+v, disc %v", mast.Post.Ends[design.Head].Contact, mast.Post.Ends[design.Head].Disc)
	}
	if tie := part(t, d, "tie").Post; tie.Direction.Z >= 0 || tie.Ends[design.Head].Contact != (design.Contact{Meets: design.OnPlate, With: d.Base()}) || tie.Ends[design.Head].At != (r3.Vec{X: -900}) {
		t.Errorf("tie = %+v", *tie)
	}
}
