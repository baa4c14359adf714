package frame_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/frame/trial"
	"stabile/param/design"
)

// sprung returns an upright post of 1 m with a heavy ball on it, and springs at its ends.
func sprung(give [2]frame.Spring) (*trial.Builder, []frame.Item) {
	b := trial.New(1.5)
	plate := b.Plate(600, 600, 10)
	foot := r3.Vec{Z: 10}
	post := b.Stand("mast", plate, foot, r3.Vec{Z: 1010}, 60, 60)
	b.Tip("moon", post, 150, r3.Vec{})
	items := b.Items()
	for i := range items {
		if items[i].Part == post {
			items[i].Give = give
		}
	}
	return b, items
}

// TestSpringClosedForm: what springs add to how a cantilever moves at its head, and turns,
// is by statics: the moment at the spring over its stiffness; also of a load that is
// spread along the post.
func TestSpringClosedForm(t *testing.T) {
	const turn, push = 3e7, 4e3
	_, stiff := sprung([2]frame.Spring{})
	for _, c := range []struct {
		name  string
		give  [2]frame.Spring
		level float64 // mm that the head of the post moves more, of F over the ball's middle and q
	}{
		// The force acts at the ball's middle, h over the foot, and q on the post of length l.
		{"foot", [2]frame.Spring{{Rotational: turn, Axial: push}, {}}, 1},
		{"head", [2]frame.Spring{{}, {Rotational: turn, Axial: push}}, 0},
		{"both", [2]frame.Spring{{Rotational: turn, Axial: push}, {Rotational: turn, Axial: push}}, 1},
	} {
		const force, spread, down, l = 100.0, 60.0, -500.0, 1000.0
		move := func(items []frame.Item) (head, ball r3.Vec, foot frame.Wrench) {
			f, err := frame.New(items)
			require.NoError(t, err)
			var mast, moon *design.Part
			for _, it := range items {
				switch it.Part.Name {
				case "mast":
					mast = it.Part
				case "moon":
					moon = it.Part
				}
			}
			loads := f.NewLoads(1)
			loads.Along(0, moon, r3.Vec{X: force, Z: down})
			loads.Along(0, mast, r3.Vec{X: spread, Z: -70})
			s := f.Solve(loads)
			return s.Moved(mast, r3.Vec{Z: 1010}, 0), s.Moved(moon, moon.Ball.Center, 0), s.Foot(mast, 0)
		}
		_, was, stood := move(stiff)
		_, items := sprung(c.give)
		_, is, stands := move(items)
		var moon *design.Part
		for _, it := range items {
			if it.Part.Ball != nil {
				moon = it.Part
			}
		}
		arm := moon.Ball.Center.Z - 10
		want, sink := 0.0, 0.0
		if c.give[0].Rotational > 0 {
			want += (force*arm + spread*l/2) / turn * arm
			sink += (down - 70) / push
		}
		if c.give[1].Rotational > 0 {
			want += force * (arm - l) / turn * (arm - l)
			sink += down / push
		}
		require.InEpsilon(t, want, is.X-was.X, 1e-6, c.name)
		require.InEpsilon(t, sink, is.Z-was.Z, 1e-6, c.name)
		// Statics at the foot does not change.
		require.InDelta(t, 0, r3.Norm(r3.Sub(stands.Force, stood.Force)), 1e-6)
		require.InDelta(t, 0, r3.Norm(r3.Sub(stands.Moment, stood.Moment)), 1e-3)
	}
}

// TestSpringFrequency: a stiff short post on a soft spring swings as a rigid body on it,
// f = sqrt(K / I) / 2 pi, with I about the foot.
func TestSpringFrequency(t *testing.T) {
	b := trial.New(6)
	plate := b.Plate(600, 600, 10)
	post := b.Stand("mast", plate, r3.Vec{Z: 10}, r3.Vec{Z: 610}, 150, 150)
	b.Tip("moon", post, 120, r3.Vec{})
	items := b.Items()
	const turn = 2e6
	inertia := 0.0
	for i := range items {
		it := &items[i]
		switch {
		case it.Part == post:
			it.Give[0] = frame.Spring{Rotational: turn}
			inertia += it.Mass * (600*600/3 + (150*150+138*138)/16.0)
		case it.Part.Ball != nil:
			h, r := it.Part.Ball.Center.Z-10, it.Part.Ball.Radius-it.Part.Metal.Thickness/2
			inertia += it.Mass * (h*h + 2./3*r*r)
		}
	}
	f, err := frame.New(items)
	require.NoError(t, err)
	modes, _, err := f.Modes(1)
	require.NoError(t, err)
	require.InEpsilon(t, math.Sqrt(1000*turn/inertia)/(2*math.Pi), modes[0].Frequency, 0.005)
}

// TestSeat: a ball on a ball on a soft seat turns on it, and its beam carries what the
// upper ball weighs.
func TestSeat(t *testing.T) {
	b := trial.New(1.5)
	plate := b.Plate(600, 600, 10)
	post := b.Stand("mast", plate, r3.Vec{Z: 10}, r3.Vec{Z: 610}, 60, 60)
	moon := b.Tip("moon", post, 120, r3.Vec{})
	upper := b.Ball("star", r3.Add(moon.Ball.Center, r3.Vec{Z: moon.Ball.Radius + 80}), 80)
	b.Rest(upper, moon)
	items := b.Items()
	const turn, push = 5e6, 2e3
	move := func(seat *frame.Seat) (r3.Vec, []frame.SectionForces) {
		var star *design.Part
		for i := range items {
			if items[i].Part.Name == "star" {
				items[i].Seat, star = seat, items[i].Part
			}
		}
		f, err := frame.New(items)
		require.NoError(t, err)
		l := f.NewLoads(1)
		l.Along(0, star, r3.Vec{X: 50, Z: -30})
		s := f.Solve(l)
		moved := s.Moved(star, star.Ball.Center, 0)
		if beam, ok := f.Seat(star); ok {
			return moved, s.SectionForces(beam, 0, nil)
		}
		return moved, nil
	}
	was, _ := move(nil)
	at := r3.Add(moon.Ball.Center, r3.Vec{Z: moon.Ball.Radius})
	is, forces := move(&frame.Seat{At: at, Axis: r3.Vec{Z: 1}, Ring: frame.Tube(40, 1.5), Length: 3, Modulus: 200e3, Spring: frame.Spring{Rotational: turn, Axial: push}})
	require.Len(t, forces, 1)
	require.InEpsilon(t, -30, forces[0].Axial, 1e-9)
	axial, shear, bending, _ := forces[0].Resultants()
	require.InEpsilon(t, 50, shear, 1e-9)
	require.Less(t, axial, 0.0)
	arm := 80.0 // of the force over the seat
	require.InEpsilon(t, 50*(arm+1.5), bending, 1e-9)
	require.InEpsilon(t, 50*arm*arm/turn, is.X-was.X, 0.05) // and what the ring itself gives
	require.InEpsilon(t, -30/push, is.Z-was.Z, 0.01)
}
