package layout

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// strips are three strips of a sheet, each cut at the same two settings, in the order in
// which each strip is finished before the next.
func strips() []Cut {
	var cuts []Cut
	hand := Rect{0, 0, 90, 60}
	for i := range 3 {
		y := float64(20 * i)
		strip, rest := Rect{0, y, 90, 20}, Rect{0, y + 20, 90, 40 - y}
		cuts = append(cuts, Cut{Hand: hand, Drop: strip, Keep: rest, Stop: 20})
		a, b := Rect{0, y, 50, 20}, Rect{50, y, 40, 20}
		cuts = append(cuts, Cut{Hand: strip, Drop: a, Keep: b, Stop: 50},
			Cut{Hand: b, Drop: Rect{50, y, 30, 20}, Keep: Rect{80, y, 10, 20}, Stop: 30})
		hand = rest
	}
	return cuts
}

// TestGrouped: each setting is made once where the strips allow it.
func TestGrouped(t *testing.T) {
	cuts := strips()
	got := grouped(cuts)
	if before, after := Settings(cuts), Settings(got); before != 9 || after != 3 {
		t.Errorf("the stop is set %d times, in the order of the strips %d; want 3 and 9", after, before)
	}
	wholeOrder(t, cuts, got)
}

// wholeOrder reports cuts that are lost, made twice, or made before what they cut is there.
func wholeOrder(t *testing.T, cuts, order []Cut) {
	t.Helper()
	if len(order) != len(cuts) {
		t.Fatalf("%d cuts of %d", len(order), len(cuts))
	}
	there := map[Rect]bool{cuts[0].Hand: true}
	for i, c := range order {
		if !there[c.Hand] {
			t.Errorf("cut %d is of what is not there", i+1)
		}
		delete(there, c.Hand)
		there[c.Drop], there[c.Keep] = true, true
		if !slices.Contains(cuts, c) {
			t.Errorf("cut %d is none of those given", i+1)
		}
	}
}

// TestGroupedKeepsCuts: of random sheets every cut is made, after the one that makes what
// it cuts, and the stop is set no more often than when one strip is finished after the
// other.
func TestGroupedKeepsCuts(t *testing.T) {
	rnd := rand.New(rand.NewPCG(17, 6))
	before, after := 0, 0
	for range 300 {
		cuts := randomCuts(rnd, Rect{0, 0, 2000, 1000}, 4)
		if len(cuts) == 0 {
			continue
		}
		got := grouped(cuts)
		wholeOrder(t, cuts, got)
		before, after = before+Settings(cuts), after+Settings(got)
	}
	if after > before*2/3 {
		t.Errorf("the stop is set %d times, want at most two thirds of %d", after, before)
	}
	t.Logf("%d settings, one strip after the other %d", after, before)
}

// randomCuts cuts a rectangle up at a few settings, each part that drops before the rest.
func randomCuts(rnd *rand.Rand, hand Rect, depth int) (cuts []Cut) {
	for depth > 0 {
		stop := 50 * float64(1+rnd.IntN(5))
		c := Cut{Upright: depth%2 == 0, Hand: hand, Drop: hand, Keep: hand, Stop: stop}
		if c.Upright {
			c.Drop.Width, c.Keep.X, c.Keep.Width = stop, hand.X+stop, hand.Width-stop
		} else {
			c.Drop.Height, c.Keep.Y, c.Keep.Height = stop, hand.Y+stop, hand.Height-stop
		}
		if min(c.Keep.Width, c.Keep.Height) <= 0 {
			break
		}
		cuts = append(cuts, c)
		cuts = append(cuts, randomCuts(rnd, c.Drop, depth-1)...)
		hand = c.Keep
		if rnd.IntN(4) == 0 {
			break
		}
	}
	return cuts
}
