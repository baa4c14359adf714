package frame_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/frame/trial"
	"stabile/param/design"
)

// A tube of 60 mm by 1.5 mm, a metre long and clamped at its foot, is pushed with
// 100 N at its head: P L3 / 3 E I = 100 x 10^9 / (3 x 200000 x 118006) = 1.412 mm, and
// shear adds 100 x 1000 / (0.531 x 76923 x 275.7) = 0.009 mm.
func ExampleFrame_Solve() {
	b := trial.New(1.5)
	post := b.Stand("mast", b.Plate(300, 300, 10), r3.Vec{Z: 10}, r3.Vec{Z: 1010}, 60, 60)
	f, err := frame.New(b.Items())
	if err != nil {
		fmt.Println(err)
		return
	}
	loads := f.NewLoads(1)
	loads.At(0, post, post.Post.Ends[design.Head].At, r3.Vec{X: 100})
	s := f.Solve(loads)
	fmt.Printf("%.3f mm, %.0f N m about the ground\n", s.Moved(post, post.Post.Ends[design.Head].At, 0).X, s.Reaction(0).Moment.Y/-1e3)
	// Output: 1.421 mm, 101 N m about the ground
}
