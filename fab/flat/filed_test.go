package flat

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
)

// TestFiledWhereAsGoodAsSquare has tubes and pipes of random joints of every kind, half of
// them nearly square: an end has a table of ordinates where its curve, as the outline has
// it, rises by as much as a hand cuts to, and else none; then the blank says by how much it
// is filed, and its outline still has the curve.
func TestFiledWhereAsGoodAsSquare(t *testing.T) {
	hand := ByHand(quantity.Millimetre).Trim
	filed, laid := 0, 0
	for n, kind := range append(jointKinds(), nearlySquare()) {
		rng := rand.New(rand.NewPCG(53, uint64(n)))
		for range 150 {
			p, i := randomJoint(rng, kind)
			if p.Post.IsTaper() {
				continue // its arcs hide the rise from the outline
			}
			if rng.IntN(2) == 0 {
				buy(p, p.Metal.Thickness)
			}
			d, wrong := Develop(p)
			if wrong.Err() != nil {
				t.Fatalf("%s: %v", kind.name, wrong.Err())
			}
			b := &d.Blanks[0]
			foot, head := curves(*b)
			low, high := math.Inf(1), math.Inf(-1)
			for _, q := range [2][]r2.Vec{foot, head}[i] {
				low, high = min(low, q.Y), max(high, q.Y)
			}
			rise := high - low
			table := slices.ContainsFunc(b.Ordinates, func(o Ordinates) bool { return o.Edge == edgeOf(i) })
			if math.Abs(rise-hand) > edgeRoom && table != (rise > hand) {
				t.Errorf("%s: an end that rises by %v has a table of ordinates: %v", kind.name, rise, table)
			}
			if table {
				laid++
			}
			for _, note := range b.Notes {
				f, ok := note.(FiledEnd)
				if !ok {
					continue
				}
				filed++
				if f.End != endName(i) || math.Abs(f.Off-rise) > edgeRoom || table {
					t.Errorf("%s: %+v of an end that rises by %v, with a table: %v", kind.name, f, rise, table)
				}
			}
		}
	}
	if filed < 20 || laid < 200 {
		t.Errorf("%d ends are filed and %d laid out: too few to say anything", filed, laid)
	}
}

// nearlySquare is a joint with a plate that an end meets within 1.5 deg of square.
func nearlySquare() jointKind {
	return jointKind{"nearly square", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
		way := design.Leaning(rng.Float64()*1.5*math.Pi/180, 7*rng.Float64())
		return design.Contact{Meets: design.OnPlate, With: &design.Part{Name: "pad", Base: &design.Base{Top: 9.5}}}, r3.Vec{X: 5, Z: 9}, way
	}}
}

// TestFiledPipeHasNoTemplate sets a pipe on a ball of many lobes, whose valleys are not as
// deep as a hand cuts: it is sawn square and filed, without a template.
func TestFiledPipeHasNoTemplate(t *testing.T) {
	u := design.Leaning(0, 0)
	p := newPost(80, 1.5, 640, r3.Vec{Z: 10}, u)
	ball := newBall(400, 1.5, design.RolledGores, 24, r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(640+math.Sqrt(200*200-38.5*38.5), u)))
	ball.Ball.Pole, ball.Ball.Prime = u, design.Toward(u, 0)
	p.Post.Ends[design.Head].Contact = onBall(ball)
	buy(p, 1.5)
	b := develop(t, p).Blanks[0]
	if len(b.Ordinates) != 0 || len(b.Outline) == 4 {
		t.Fatalf("%d tables and %d corners, want no table and the curve", len(b.Ordinates), len(b.Outline))
	}
	// The lobes' valleys are lower than their ridges by what 38.5 mm loses by the cosine of
	// half their angle.
	c := math.Cos(math.Pi / 24)
	want := math.Sqrt(200*200-38.5*38.5*c*c) - math.Sqrt(200*200-38.5*38.5)
	at := slices.IndexFunc(b.Notes, func(n finding.Fact) bool { _, ok := n.(FiledEnd); return ok })
	if at < 0 || math.Abs(b.Notes[at].(FiledEnd).Off-want) > edgeRoom {
		t.Errorf("notes %+v, want the head filed within %v", b.Notes, want)
	}
	if slices.ContainsFunc(b.Notes, func(n finding.Fact) bool { _, ok := n.(WrapTemplate); return ok }) {
		t.Errorf("notes %+v have a template that is wrapped round", b.Notes)
	}
}
