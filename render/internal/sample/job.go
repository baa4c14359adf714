package sample

import (
	"fmt"

	"stabile/fab"
	"stabile/param/design"
)

// Job works a design out although its parts run into each other, as those of the
// random designs of this package do. What strength takes is left out.
func Job(d *design.Design) *fab.Job {
	j, wrong := fab.Build(d, fab.WithPlan|fab.WithMarks|fab.AllowClashes)
	if len(wrong) > 0 {
		panic(fmt.Sprintf("sample: %v", wrong.Err()))
	}
	return j
}
