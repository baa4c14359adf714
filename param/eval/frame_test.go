package eval

import (
	"fmt"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A post between two heads closes a frame: its axis runs from middle to middle, and
// every end lies in the plane that halves the angle there.
func TestClosedFrame(t *testing.T) {
	d := mustEvaluate(t, stackHead+`post left on ground { at (-300, 0), diameter 60, length 500, lean 5 deg toward 20 deg, metal skin }
post right on ground { at (300, 0), diameter 60, length 700, lean 10 deg toward 180 deg, metal skin }
post lintel from left.head to right.head { diameter 60, metal skin }`)
	left, right, lintel := part(t, d, "left"), part(t, d, "right"), part(t, d, "lintel")
	l := lintel.Post
	for end, host := range [2]*design.Part{left, right} {
		h := host.Post
		if !close3(l.Ends[end].At, h.Ends[design.Head].At) {
			t.Errorf("end %d lies at %v, the head at %v", end, l.Ends[end].At, h.Ends[design.Head].At)
		}
		if l.Ends[end].Contact != (design.Contact{Meets: design.OnHead, With: host}) || h.Ends[design.Head].Contact != (design.Contact{Meets: design.OnHead, With: lintel}) || h.Ends[design.Head].Disc {
			t.Errorf("end %d: %+v and %+v", end, l.Ends[end].Contact, h.Ends[design.Head].Contact)
		}
		j := d.Joints[len(d.Joints)-2+end]
		if j.Kind != design.EndJoint || j.A != host || j.B != lintel || j.Post != lintel || j.End != end {
			t.Errorf("joint %+v", j)
		}
	}
	if !l.Between || l.Length != r3.Norm(r3.Sub(left.Post.Ends[design.Head].At, right.Post.Ends[design.Head].At)) {
		t.Errorf("%+v", *l)
	}
}

// A post comes down from a head to the base, up to a head from it, and to a ball.
func TestFromHead(t *testing.T) {
	d := mustEvaluate(t, stackHead+`post mast on ground { diameter 60, length 500, lean 20 deg toward 0 deg, metal skin }
post leg from mast.head to ground { at (400, 0), diameter 60, metal skin }
repeat i from 1 to 1 { post pole[i] on ground { at (0, 900), diameter 60, length 800, metal skin } }
post strut from ground to pole[1].head { at (0, 500), diameter 60, metal skin }
ball moon on ground { at (900, 900), diameter 200, halves, metal skin }
post rod on ground { at (400, 900), diameter 40, length 600, metal skin }
post arm from rod.head to moon { diameter 40, metal skin }`)
	mast, leg, strut := part(t, d, "mast").Post, part(t, d, "leg").Post, part(t, d, "strut").Post
	if !close3(leg.Ends[design.Foot].At, mast.Ends[design.Head].At) || !close3(leg.Ends[design.Head].At, r3.Vec{X: 400}) || leg.Ends[design.Head].Meets != design.OnPlate {
		t.Errorf("leg %+v", *leg)
	}
	if !close3(strut.Ends[design.Foot].At, r3.Vec{Y: 500}) || strut.Ends[design.Head].Meets != design.OnHead {
		t.Errorf("strut %+v", *strut)
	}
	if arm := part(t, d, "arm").Post; arm.Ends[design.Foot].Meets != design.OnHead || arm.Ends[design.Head].Meets != design.OnBall {
		t.Errorf("arm %+v", *arm)
	}
}

// A smaller tube stands on the disc of a head, at either of its ends.
func TestFrameOnDiscs(t *testing.T) {
	d := mustEvaluate(t, stackHead+`post a on ground { at (-200, 0), diameter 90, length 500, lean 60 deg toward 0 deg, metal skin }
post b on ground { at (900, 0), diameter 90, length 500, lean 60 deg toward 180 deg, metal skin }
post bar from a.head to b.head { diameter 30, metal skin }`)
	for _, name := range []string{"a", "b"} {
		if h := part(t, d, name).Post.Ends[design.Head]; h.Meets != design.Free || !h.Disc {
			t.Errorf("the head of %s: %+v", name, h)
		}
	}
}

func TestFrameMistakes(t *testing.T) {
	const pair = stage + `post p1 on pad { at (-8, 0), diameter 2, length 9, metal skin }
post p2 on pad { at (-3, 6), diameter 2, length 9, metal skin }
`
	for _, tt := range []struct {
		name string
		text string
		want []wrong
	}{
		{"head of a ball", pair + "post p3 from p1.head to «moon.head» { diameter 2, metal skin }",
			[]wrong{{"only a post has a head, and moon is a ball", "leave '.head' out"}}},
		{"on a head by name", pair + "post p3 on «p1.head» { diameter 2, length 4, metal skin }",
			[]wrong{{"'on' leads to a part, and this is a point in space", "write 'on p1'"}}},
		{"foot", pair + "post p3 from «p1.foot» to p2.head { diameter 2, metal skin }",
			[]wrong{{"'from' leads to a part, and this is a point in space", "post NAME from A to B"}}},
		{"head of nothing", pair + "post p3 from p1.head to «p9».head { diameter 2, metal skin }",
			[]wrong{{"there is no 'p9'", "did you mean 'p1'?"}}},
		{"to itself", pair + "post p3 from p1.head to «p1.head» { diameter 2, metal skin }",
			[]wrong{{"post 'p3' runs from post 'p1' to itself", "two different parts"}}},
		{"taken", pair + "post p3 from p1.head to p2.head { diameter 2, metal skin }\nball nub at (0, 8, 15) { diameter 3, halves, metal skin }\npost «p4» from p1.head to nub { diameter 2, metal skin }",
			[]wrong{{"two parts stand on the head of post 'p1'", "something else"}}},
		{"thicker", pair + "post p3 from p1.head to p2.head { «diameter 3», metal skin }",
			[]wrong{{"post 'p3' of 3 in makes no mitre with post 'p1' of 2 in: the two must have the same diameter", "make the two 2 in"}}},
		{"taper", pair + "post «p3» from p1.head to p2.head { diameter 2 to 1, metal skin }",
			[]wrong{{"a mitre joins straight tubes, and post 'p3' is a taper", "make it a straight tube"}}},
		{"a height of no post", pair + "post p3 from p1 at 4 to moon at «3» { diameter 1, metal skin }",
			[]wrong{{"'at' says how far up a post an end lies, and moon is no post", "leave 'at' out"}}},
		{"a height of a head", pair + "post p3 from p1.head at «4» to p2.head { diameter 2, metal skin }",
			[]wrong{{"'at' says how far up a post an end lies, and p1.head is no post", "leave 'at' out"}}},
		{"a height beyond the head", pair + "post p3 from p1 at 4 to p2 at «9.5» { diameter 1, metal skin }",
			[]wrong{{"post 'p2' is 9 in long, and this is 9-1/2 in", "within its length"}}},
		{"a height of a weight", pair + "post p3 from p1 at «3 lb» to p2 { diameter 1, metal skin }",
			[]wrong{{"'at' needs a length, and this is a weight", "from p1 at 12 in"}}},
		{"a height twice", pair + "post p3 from p1 at 3 «at» 4 to p2 { diameter 1, metal skin }",
			[]wrong{{"a post has no 'at' before its braces", "post NAME"}}},
		{"a height alone", pair + "post p3 «from p1» at 3 { diameter 1, metal skin }",
			[]wrong{{"post 'p3' lacks 'to'", "from A to B"}}},
		{"over the edge", pair + "post «p3» from p1.head to p2.head { diameter 1, metal skin }",
			[]wrong{{"post 'p3' runs into post 'p1' instead of away from it", "end it on a ball"}}},
		{"head is open", pair + "post q on pad { at (-8, 5), diameter 3, length 6, head open, metal skin }\npost «p3» from q.head to moon { diameter 1, metal skin }",
			[]wrong{{"post 'p3' has nothing to stand on: the head of post 'q' is open", "close that head"}}},
	} {
		t.Run(tt.name, func(t *testing.T) { checkMistakes(t, tt.text, Options{}, tt.want) })
	}
}

// Rungs and braces end on the sides of posts where 'at' says: their axes meet there.
func TestRungs(t *testing.T) {
	d := mustEvaluate(t, stage+`post p1 on pad { at (-8, 0), diameter 2, length 20, lean 5 deg toward 40 deg, metal skin }
post p2 on pad { at (-3, 7), diameter 2, length 20, metal skin }
post rung from p1 at 6 to p2 at 15/2 { diameter 1, metal skin }
post brace from p2 at 14 to moon { diameter 1, metal skin }
`)
	p1, p2 := part(t, d, "p1").Post, part(t, d, "p2").Post
	up := func(p *design.Post, mm float64) r3.Vec {
		return r3.Add(p.Ends[design.Foot].At, r3.Scale(mm, p.Direction))
	}
	off := func(name string, at r3.Vec) float64 {
		p := d.Part(name).Post
		return r3.Norm(r3.Cross(r3.Sub(at, p.Ends[design.Foot].At), p.Direction))
	}
	for _, tt := range []struct {
		name string
		at   r3.Vec
	}{{"rung", up(p1, 6*25.4)}, {"rung", up(p2, 7.5*25.4)}, {"brace", up(p2, 14*25.4)}, {"brace", d.Part("moon").Ball.Center}} {
		if o := off(tt.name, tt.at); o > 1e-9 {
			t.Errorf("the axis of %s misses a point by %v mm", tt.name, o)
		}
	}
	if r := d.Part("rung").Post; r.Ends[design.Foot].Meets != design.OnSide || r.Ends[design.Foot].With != d.Part("p1") || r.Ends[design.Head].With != d.Part("p2") {
		t.Error("the rung does not end on the sides of the two")
	}
}

// Frames at random are made, or refused for a reason.
func TestRandomFrames(t *testing.T) {
	made := 0
	for i := range 300 {
		x := float64(i%17)*20 - 160
		lean, turn := float64(i%7)*6, float64(i*53%360)
		_, wrong := evaluate(stackHead+fmt.Sprintf(`post a on ground { at (-300, 0), diameter 50, length %v, lean %v deg toward %v deg, metal skin }
post b on ground { at (300, %v), diameter %v, length 600, lean %v deg toward %v deg, metal skin }
post c from a.head to b.head { diameter 50, metal skin }`, 300+float64(i), lean, turn, x, 50+float64(i%3), 42-lean, 360-turn), Options{})
		if len(wrong) == 0 {
			made++
		}
	}
	if made < 90 {
		t.Errorf("only %d of 300 could be made", made)
	}
}

// A shape follows a plain number as it does one with a unit.
func TestShapeAfterPlainNumber(t *testing.T) {
	d := mustEvaluate(t, stackHead+`ball a on ground { diameter 200, gores 8, caps 50 round, metal skin }
ball b on ground { at (300, 0), diameter 200, gores 8, caps 50 polygon, metal skin }`)
	if a, b := part(t, d, "a").Ball, part(t, d, "b").Ball; a.Caps != 50 || a.Straight || b.Caps != 50 || !b.Straight {
		t.Errorf("%+v and %+v", a, b)
	}
}

// Two sizes of caps are that of the lower and that of the upper, each of its own unit.
func TestCapsThatDiffer(t *testing.T) {
	d := mustEvaluate(t, stackHead+`let wide = 40
ball a on ground { diameter 200, gores 8, caps 50, 3 cm round, gap 1, metal skin }
ball b on ground { at (300, 0), diameter 200, gores 8, bend domed, caps wide, (wide / 2), metal skin }
ball c on ground { at (0, 300), diameter 200, gores 8, caps 50, 50, metal skin }`)
	for _, tt := range []struct {
		name         string
		lower, upper float64
		straight     bool
	}{{"a", 50, 30, false}, {"b", 40, 20, false}, {"c", 50, 50, true}} {
		b := part(t, d, tt.name).Ball
		if b.CapAt(design.LowerPole) != tt.lower || b.CapAt(design.UpperPole) != tt.upper || b.Straight != tt.straight || b.CapsDiffer() != (tt.lower != tt.upper) {
			t.Errorf("%s: %+v", tt.name, b)
		}
	}
	if a := part(t, d, "a").Ball; a.Gap != 1 {
		t.Errorf("a root gap of %v", a.Gap)
	}
}
