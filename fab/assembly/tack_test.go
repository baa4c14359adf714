package assembly

import (
	"math"
	"slices"
	"testing"

	"stabile/param/design"
)

func TestTacks(t *testing.T) {
	const deg = math.Pi / 180
	for _, tt := range []struct {
		name  string
		weld  Weld
		apart float64
		from  From
		want  []float64
	}{
		{"a seam, ends first", Weld{Kind: TubeSeam, Length: 160}, 40, FromFoot, []float64{0, 160, 80, 40, 120}},
		{"a short seam", Weld{Kind: TubeSeam, Length: 30}, 40, FromFoot, []float64{0, 30}},
		{"an arc, middle first", Weld{Kind: RingEdge, Arc: true, Length: 160}, 40, FromMiddle, []float64{0, 80, -80, 40, -40}},
		{"a gore, middle first", Weld{Kind: GoreSeam, Length: 160}, 40, FromMiddle, []float64{0, 80, -80, 40, -40}},
		{"a ring, opposite points, off the seam", Weld{Kind: PostJoint, Length: 160, Bearing: 90 * deg}, 40, RoundPost,
			[]float64{135 * deg, 315 * deg, 225 * deg, 45 * deg}},
		{"a small ring has four", Weld{Kind: DiscEdge, Length: 20}, 40, RoundPost,
			[]float64{45 * deg, 225 * deg, 135 * deg, 315 * deg}},
		{"an odd number goes up to the next pair", Weld{Kind: RestJoint, Length: 170}, 40, RoundUp,
			[]float64{30 * deg, 210 * deg, 90 * deg, 270 * deg, 150 * deg, 330 * deg}},
		{"nothing to weld", Weld{Kind: PostJoint}, 40, FromFoot, nil},
	} {
		got := tacks(tt.weld, tt.apart)
		same := len(got.At) == len(tt.want) && got.From == tt.from
		for i := range tt.want {
			same = same && math.Abs(got.At[i]-tt.want[i]) < 1e-9
		}
		if !same {
			t.Errorf("%s: tacks(%v mm, %v) = %v %v, want %v %v", tt.name, tt.weld.Length, tt.apart, got.From, got.At, tt.from, tt.want)
		}
	}
}

// TestTacksAll checks on many lengths that tacks are spread evenly, none twice,
// no further apart than was asked, and that round a ring each second one is
// opposite to the one before.
func TestTacksAll(t *testing.T) {
	for _, kind := range []Kind{TubeSeam, DiscEdge, GoreSeam, CapEdge, RingSeam, RingEdge, PoleEdge, Equator, PostJoint, RestJoint, SeatJoint, Thread} {
		for length := 1.0; length < 3000; length *= 1.37 {
			got := tacks(Weld{Kind: kind, Length: length, Bearing: 1}, 37)
			if got.Spacing > 37+1e-9 {
				t.Errorf("%v of %v mm: tacks %v apart, want 37 at most", kind, length, got.Spacing)
			}
			at := slices.Clone(got.At)
			round := 0.0
			if got.From.Angles() {
				round = length / (2 * math.Pi)
				for i := range at {
					at[i] *= round
				}
				for i := 1; i < len(got.At); i += 2 {
					if d := math.Abs(got.At[i] - got.At[i-1]); math.Abs(d-math.Pi) > 1e-9 {
						t.Errorf("%v of %v mm: tack %d is not opposite to the one before: %v", kind, length, i+1, got.At)
					}
				}
			}
			slices.Sort(at)
			for i := 1; i < len(at); i++ {
				if d := at[i] - at[i-1]; math.Abs(d-got.Spacing) > 1e-6 {
					t.Errorf("%v of %v mm: gap of %v between tacks that are %v apart", kind, length, d, got.Spacing)
				}
			}
		}
	}
}

func TestSpacing(t *testing.T) {
	for _, tt := range []struct {
		shop, thickness, want float64
	}{
		{0, 3, 40},      // no shop
		{38.1, 3, 38.1}, // the shop's
		{38.1, 1.2, 30}, // closer in thin sheet
		{38.1, 0.3, 10}, // but not closer than that
		{5, 3, leastTack},
	} {
		if got := spacing(&design.Welding{Tack: tt.shop}, tt.thickness); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("spacing(%v, %v) = %v, want %v", tt.shop, tt.thickness, got, tt.want)
		}
	}
	if got := spacing(nil, 3); got != tackDistance {
		t.Errorf("spacing(nil, 3) = %v, want %v", got, tackDistance)
	}
}

func TestProcess(t *testing.T) {
	for _, tt := range []struct {
		shop      *design.Welding
		thickness float64
		how       design.WeldProcess
		rod       float64
	}{
		{nil, 1.2, design.TIG, 1.6},
		{nil, 2, design.TIG, 2.4},
		{nil, 4, design.TIG, 3.2},
		{&design.Welding{Process: design.MIG, Filler: 0.8}, 4, design.MIG, 0.8},
	} {
		if how, rod := process(tt.shop, tt.thickness); how != tt.how || rod != tt.rod {
			t.Errorf("process(%v, %v) = %v, %v, want %v, %v", tt.shop, tt.thickness, how, rod, tt.how, tt.rod)
		}
	}
}
