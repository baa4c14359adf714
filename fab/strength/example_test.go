package strength_test

import (
	"fmt"

	"stabile/fab/frame"
	"stabile/fab/strength"
)

// A tube of 60 mm by 1.5 mm of 230 MPa steel has D/t = 40, below 0.07 E/Fy = 60.9:
// it is compact, and carries Fy Z = 230 x (60^3 - 57^3) / 6 before it gives way.
func ExampleBending() {
	moment, class := strength.Bending(frame.Tube(60, 1.5), 230, 200e3)
	fmt.Printf("%s: %.0f N m, allowable %.0f N m\n", class, moment/1e3, moment/1670)
	// Output: compact: 1181 N m, allowable 707 N m
}
