package flat

import (
	"fmt"
	"testing"

	"stabile/param/written"
)

// TestThroughPoles holds when a post along the axis of a ball of gores fills what the
// gores leave open at the poles, and when the hole is reported. Twelve gores that
// end 12 mm wide leave 12 / tan 15 deg = 44.785 mm across where they are rolled. A
// domed gore is 1/12 of the way round and 12 / (pi / 12) = 45.837 mm is left.
func TestThroughPoles(t *testing.T) {
	for _, tt := range []struct {
		post, ball string
		open       bool
	}{
		{"diameter 30", "", true}, // twice the tips, and not as wide as the hole
		{"diameter 44.7", "", true},
		{"diameter 44.9", "", false},
		{"diameter 45.7", "bend domed,", true},
		{"diameter 46", "bend domed,", false},
		{"diameter 80", "", false},
		{"diameter 80", "pole 20 deg toward 0 deg,", true}, // beside the poles
		// A taper is as wide as half way up, where the ball is.
		{"diameter 60 to 29", "", true},
		{"diameter 60 to 31", "", false},
		{"diameter 29 to 60", "", true},
		{"diameter 31 to 60", "", false},
	} {
		d := written.Design(t, written.Metric+fmt.Sprintf(`
base pad { plate 600 by 600, metal slab }
post mast on pad { %s, length 800, metal skin }
ball moon around mast { height 400, diameter 300, gores 12, %s metal skin }
shop { welding { process tig, narrow 12 } }
`, tt.post, tt.ball))
		made, wrong := All(d)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		if list := made[2].Findings; tt.open != (len(list) == 1) || len(list) > 1 {
			t.Errorf("a ball, %s, about a post, %s: %v, want a hole %v", tt.ball, tt.post, list, tt.open)
		}
	}
	// A ball that stands on a post has it through neither pole.
	d := written.Design(t, written.Metric+`
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter 80, length 800, metal skin }
ball moon on mast { diameter 300, gores 12, metal skin }
shop { welding { process tig, narrow 12 } }
`)
	made, wrong := All(d)
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	if list := made[2].Findings; len(list) != 1 {
		t.Errorf("a ball on a post: %v, want a hole", list)
	}
}
