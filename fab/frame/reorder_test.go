package frame_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/frame/trial"
	"stabile/param/design"
)

// TestFence holds that a long fence, which is numbered from one end to the other since
// elimination would take too long depth first, moves under a force on its middle post
// as one of 50 does, numbered depth first: what a force does dies away, to 3e-5 within
// 20 fields and so to 2e-6 within 25. And that what the ground carries is the force.
func TestFence(t *testing.T) {
	middle := func(fields int) r3.Vec {
		b := trial.New(1.5)
		plate := b.Plate(1000, 1000, 10)
		var balls []*design.Part
		for i := range fields + 1 {
			x := 140 * float64(i-fields/2)
			ball := b.Ball(fmt.Sprint("ball", i), r3.Vec{X: x, Z: 1000}, 40)
			b.Tie(fmt.Sprint("post", i), plate, ball, r3.Vec{X: x, Z: 10}, r3.Vec{}, 40)
			if i > 0 {
				b.Tie(fmt.Sprint("rail", i), balls[i-1], ball, r3.Vec{}, r3.Vec{}, 20)
			}
			balls = append(balls, ball)
		}
		f, err := frame.New(b.Items())
		require.NoError(t, err)
		if c := f.Cost(); fields == 160 && c > frame.MuchWork/10 || fields == 50 && c < frame.MuchWork/2 {
			t.Errorf("%d fields take %v", fields, c)
		}
		at := balls[fields/2]
		l := f.NewLoads(1)
		l.At(0, at, at.Ball.Center, r3.Vec{Y: 100})
		s := f.Solve(l)
		w := s.Reaction(0)
		if math.Abs(w.Force.Y+100) > 1e-6 || math.Abs(w.Moment.X-100*1000) > 1e-3 {
			t.Errorf("%d fields: the ground bears %v", fields, w)
		}
		return s.Moved(at, at.Ball.Center, 0)
	}
	few, many := middle(50), middle(160)
	if d := r3.Norm(r3.Sub(few, many)); d > 1e-5*few.Y {
		t.Errorf("in 160 fields it moves by %v, in 50 by %v", many, few)
	}
}
