package design

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// onWall is a plate on a wall.
func onWall() *Base { return &Base{Shape: Plate, Width: 300, Depth: 400, Wall: 1500, Top: 10} }

// TestOwnFrame: a plate's own frame is square and right-handed, and leads there and back.
func TestOwnFrame(t *testing.T) {
	b, rnd := onWall(), rand.New(rand.NewPCG(7, 7))
	random := func() r3.Vec {
		return r3.Vec{X: rnd.NormFloat64() * 500, Y: rnd.NormFloat64() * 500, Z: rnd.NormFloat64() * 500}
	}
	for range 200 {
		p, q := random(), random()
		if back := b.InSpace(b.Own(p)); r3.Norm(r3.Sub(back, p)) > 1e-9 {
			t.Fatalf("%v comes back as %v", p, back)
		}
		if d := r3.Norm(r3.Sub(b.Own(p), b.Own(q))) - r3.Norm(r3.Sub(p, q)); math.Abs(d) > 1e-9 {
			t.Fatalf("%v and %v are farther apart by %v", p, q, d)
		}
		if v := r3.Sub(b.OwnWay(r3.Cross(p, q)), r3.Cross(b.OwnWay(p), b.OwnWay(q))); r3.Norm(v) > 1e-6 {
			t.Fatalf("the frame is mirrored: %v", v)
		}
	}
	if at, want := b.Face(20, 30), (r3.Vec{X: 20, Y: -10, Z: 1530}); at != want {
		t.Errorf("right and up on the face is %v, want %v", at, want)
	}
	if out := b.OwnWay(b.Out()); out != (r3.Vec{Z: 1}) {
		t.Errorf("out of the face is %v", out)
	}
	floor := &Base{Width: 300, Depth: 400, Top: 10}
	if p := (r3.Vec{X: 1, Y: 2, Z: 3}); floor.Own(p) != p || floor.InSpace(p) != p || floor.OwnWay(p) != p || floor.Out() != Upright {
		t.Error("a plate on the ground has another frame than the whole")
	}
}

// TestLaid: what lies on the bench is as it was but for where it lies, and its bearings say the
// same ways.
func TestLaid(t *testing.T) {
	b := onWall()
	plate := &Part{Name: "plate", Base: b}
	dir := Leaning(1.1, 4.9)
	arm := &Post{Direction: dir, Length: 300, Seam: 1.3, Lean: 1.1, LeanBearing: 4.9}
	arm.Ends[Foot] = End{At: b.Face(10, 20), Diameter: 40, Contact: Contact{Meets: OnPlate, With: plate}}
	arm.Ends[Head] = End{At: r3.Add(b.Face(10, 20), r3.Scale(300, dir)), Diameter: 40}
	armPart := &Part{Name: "arm", Post: arm}
	side := Toward(dir, 0.7)
	twig := &Post{Direction: side, Length: 100, Seam: 2.2, Along: 150, AlongBear: 0.7}
	twig.Ends[Foot] = End{At: r3.Add(arm.Ends[Foot].At, r3.Add(r3.Scale(150, dir), r3.Scale(20, side))), Diameter: 20, Contact: Contact{Meets: OnSide, With: armPart}}
	twig.Ends[Head] = End{At: r3.Add(twig.Ends[Foot].At, r3.Scale(100, side)), Diameter: 20}
	twigPart := &Part{Name: "twig", Post: twig}
	d := &Design{Parts: []*Part{plate, armPart, twigPart}, Joints: []Joint{{Post: armPart, A: plate, B: armPart, At: arm.Ends[Foot].At}}}
	laid := d.Laid()
	if laid.Wall() != nil || laid.Base().Base.Top != 10 || d.Wall() == nil {
		t.Fatal("it is not laid down, or the design itself is")
	}
	a, w := laid.Parts[1].Post, laid.Parts[2].Post
	if a.Ends[Foot].At != (r3.Vec{X: 10, Y: 20, Z: 10}) || a.Ends[Foot].With != laid.Parts[0] || w.Ends[Foot].With != laid.Parts[1] {
		t.Errorf("the arm stands at %v on %v", a.Ends[Foot].At, a.Ends[Foot].With.Name)
	}
	if v := Leaning(a.Lean, a.LeanBearing); r3.Norm(r3.Sub(v, a.Direction)) > 1e-12 || r3.Norm(r3.Sub(a.Direction, b.OwnWay(dir))) > 1e-12 {
		t.Errorf("it leans %v toward %v along %v", a.Lean, a.LeanBearing, a.Direction)
	}
	for _, c := range []struct {
		name           string
		was, is        r3.Vec
		before, behind float64
	}{
		{"the seam of the arm", dir, a.Direction, arm.Seam, a.Seam},
		{"the seam of the twig", side, w.Direction, twig.Seam, w.Seam},
		{"the root of the twig", dir, a.Direction, twig.AlongBear, w.AlongBear},
	} {
		if off := r3.Norm(r3.Sub(b.OwnWay(Toward(c.was, c.before)), Toward(c.is, c.behind))); off > 1e-9 {
			t.Errorf("%s faces another way, by %v", c.name, off)
		}
	}
	if laid.Joints[0].A != laid.Parts[0] || laid.Joints[0].At != a.Ends[Foot].At {
		t.Errorf("its joint is at %v", laid.Joints[0].At)
	}
}
