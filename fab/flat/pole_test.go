package flat

import (
	"fmt"
	"testing"

	"stabile/param/written"
)

// TestThroughPoles holds when a post along the axis of a ball of gores takes away the
// discs that close the poles, and when rings of them are left about it. Twelve gores
// that end 12 mm wide by an inside of 148.5 mm leave 12 / tan 15 deg * 149.25 / 148.5 =
// 45.01 mm across where they are rolled; a ring of less than 12 mm is not left. A domed
// gore is 1/12 of the way round, and 12 / (pi / 12) = 45.84 mm is left.
func TestThroughPoles(t *testing.T) {
	for _, tt := range []struct {
		post, ball string
		open       bool
	}{
		{"diameter 20.9", "", true},
		{"diameter 21.1", "", false}, // the gores run on to it
		{"diameter 44.7", "", false},
		{"diameter 44.9", "", false},
		{"diameter 21.7", "bend domed,", true},
		{"diameter 46", "bend domed,", false},
		{"diameter 80", "", false},
		{"diameter 80", "pole 20 deg toward 0 deg,", true}, // beside the poles
		// A taper is as wide as half way up, where the ball is.
		{"diameter 30 to 11", "", true},
		{"diameter 60 to 31", "", false},
		{"diameter 11 to 30", "", true},
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
		if n := discs(made[2]); tt.open != (n == 2) || n == 1 {
			t.Errorf("a ball, %s, about a post, %s: %d discs, want some %v", tt.ball, tt.post, n, tt.open)
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
	if n := discs(made[2]); n != 2 {
		t.Errorf("a ball on a post: %d discs", n)
	}
}

// discs counts the round pieces of a part.
func discs(d Developed) (n int) {
	for _, b := range d.Blanks {
		if b.Shape == Disc {
			n += b.Quantity
		}
	}
	return n
}
