package shell_test

import (
	"fmt"

	"stabile/fab/shell"
)

// A tube of 60 mm stands on a ball of 300 mm, both of 1.5 mm steel of 250 MPa.
// lambda is 60 / sqrt(150 x 1.5) = 4, kappa 2 sqrt(1.5 / 60) = 0.316, so that a
// moment of 166.7 x 2.25 x 15 x (4.90 + 2.0 x 1.147 x 4 + 0.91 x 0.316 x 16) = 105 N m
// is the limit.
func ExampleJoint_Capacity() {
	j := shell.Joint{Radius: 150, Wall: 1.5, Diameter: 60, Tube: 1.5, Strength: 250 / shell.Safety}
	c, err := j.Capacity()
	if err != nil {
		fmt.Println(err)
		return
	}
	use := c.Use(shell.Load{Force: -1000, Moment: 60e3})
	fmt.Printf("%.1f N m, %.0f N, use %.2f\n", c.Moment/1e3, c.Inward, use.Interaction)
	// Output: 105.1 N m, 6539 N, use 0.72
}

// The same joint has G = sqrt(1.56^2 + 2.76^2) x (1 - 0.04)^-1.08 = 3.31, and turns by
// a radian under 200000 x 2.25 x 3600 / 150 x 3.31.
func ExampleJoint_Springs() {
	s, err := shell.Joint{Radius: 150, Wall: 1.5, Diameter: 60, Tube: 1.5}.Springs(200e3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kN m/rad\n", s.Rotational/1e6)
	// Output: 35.8 kN m/rad
}
