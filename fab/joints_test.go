package fab

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
)

// company makes a design with every kind of joint: a taper on a plate, a butt and
// a mitre, a branch from a side, a ball of zones, a ball on a ball, a ball
// threaded on a post.
func company() *design.Design {
	metal := &design.Metal{Name: "skin", Thickness: 1.2, Tolerance: 0.05, Density: 7850}
	d := &design.Design{Title: "All", Units: quantity.Inch}
	add := func(p *design.Part) *design.Part {
		p.Metal = metal
		d.Parts = append(d.Parts, p)
		return p
	}
	post := func(name string, foot, u r3.Vec, length, from, to float64) *design.Part {
		return add(&design.Part{Name: name, Post: &design.Post{
			Ends:      [2]design.End{{At: foot, Diameter: from}, {At: r3.Add(foot, r3.Scale(length, u)), Diameter: to}},
			Direction: u, Length: length, Seam: math.Pi / 2,
		}})
	}
	ball := func(name string, center r3.Vec, radius float64, b design.Ball) *design.Part {
		b.Center, b.Radius, b.Pole, b.Prime = center, radius, r3.Vec{Z: 1}, r3.Vec{X: 1}
		return add(&design.Part{Name: name, Ball: &b})
	}
	joint := func(kind design.JointKind, post, a, b *design.Part, end int, at r3.Vec) {
		d.Joints = append(d.Joints, design.Joint{Kind: kind, Post: post, End: end, A: a, B: b, At: at})
	}
	pad := add(&design.Part{Name: "pad", Base: &design.Base{Shape: design.Plate, Width: 600, Depth: 600, Top: 1.2}})

	mast := post("mast", r3.Vec{Z: 1.2}, design.Upright, 500, 120, 80)
	mast.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnPlate, With: pad}
	joint(design.EndJoint, mast, pad, mast, design.Foot, mast.Post.Ends[design.Foot].At)

	mid := post("mid", mast.Post.Ends[design.Head].At, design.Upright, 200, 80, 80)
	mid.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnHead, With: mast}
	mast.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnHead, With: mid}
	joint(design.EndJoint, mid, mast, mid, design.Foot, mid.Post.Ends[design.Foot].At)

	bent := post("bent", mid.Post.Ends[design.Head].At, design.Leaning(0.6, 0), 300, 80, 80)
	bent.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnHead, With: mid}
	mid.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnHead, With: bent}
	joint(design.EndJoint, bent, mid, bent, design.Foot, bent.Post.Ends[design.Foot].At)

	u := design.Leaning(1, 1.5*math.Pi)
	twig := post("twig", r3.Vec{Y: -50, Z: 250}, u, 200, 30, 30)
	twig.Post.Ends[design.Foot].At.Y = -(60 - 20*(250-1.2)/500)
	twig.Post.Ends[design.Head].At = r3.Add(twig.Post.Ends[design.Foot].At, r3.Scale(200, u))
	twig.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnSide, With: mast}
	joint(design.EndJoint, twig, mast, twig, design.Foot, twig.Post.Ends[design.Foot].At)

	w := bent.Post.Direction
	moon := ball("moon", r3.Add(bent.Post.Ends[design.Head].At, r3.Scale(math.Sqrt(120*120-38.8*38.8), w)), 120, design.Ball{Build: design.Zones, Zones: 6})
	bent.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnBall, With: moon}
	joint(design.EndJoint, bent, bent, moon, design.Head, bent.Post.Ends[design.Head].At)

	up := math.Sqrt(120*120-15*15) + math.Sqrt(60*60-15*15)
	star := ball("star", r3.Add(moon.Ball.Center, r3.Vec{Z: up}), 60, design.Ball{Build: design.DomedGores, Gores: 8, Seat: 30, On: moon})
	joint(design.SeatJoint, nil, moon, star, design.Head, r3.Vec{})

	ring := ball("ring", r3.Vec{Z: 501.2 + 90}, 70, design.Ball{Build: design.RolledGores, Gores: 8, Around: mid, Along: 90, Vent: 8})
	joint(design.ThreadJoint, mid, mid, ring, design.Head, ring.Ball.Center)

	bowl := ball("bowl", r3.Vec{X: 200, Z: 81.2}, 80, design.Ball{Build: design.Halves, Vent: 8})
	joint(design.SeatJoint, nil, pad, bowl, design.Head, r3.Vec{X: 200, Z: 1.2})
	egg := ball("egg", r3.Vec{X: -200, Z: 81.2}, 80, design.Ball{Build: design.DomedGores, Gores: 10, Caps: 50, Vent: 8})
	joint(design.SeatJoint, nil, pad, egg, design.Head, r3.Vec{X: -200, Z: 1.2})
	pod := ball("pod", r3.Vec{Y: 200, Z: 81.2}, 80, design.Ball{Build: design.RolledGores, Gores: 9})
	joint(design.SeatJoint, nil, pad, pod, design.Head, r3.Vec{Y: 200, Z: 1.2})
	return d
}

// TestCompany builds every kind of joint on the whole way to the report.
func TestCompany(t *testing.T) {
	j, wrong := Build(company(), Everything)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	welds := map[string][]string{
		"mast": {"pad at foot"}, "mid": {"mast at foot"}, "bent": {"mid at foot", "moon at head"},
		"twig": {"mast at foot"}, "star": {"moon at seat"}, "ring": {"mid at thread"},
		"bowl": {"pad at rest"}, "egg": {"pad at rest"}, "pod": {"pad at rest"},
	}
	for _, p := range j.Parts {
		var got []string
		for _, w := range p.Welds {
			got = append(got, w.With+" at "+w.At)
			if !(w.Length > 0) {
				t.Errorf("%s: a weld to %s of %v mm", p.Name, w.With, w.Length)
			}
		}
		if strings.Join(got, ", ") != strings.Join(welds[p.Name], ", ") {
			t.Errorf("%s is welded to %v, want %v", p.Name, got, welds[p.Name])
		}
		if p.Mass <= 0 || len(p.Blanks) == 0 {
			t.Errorf("%s: %v kg in %d blanks", p.Name, p.Mass, len(p.Blanks))
		}
		if (p.Round != nil) != (p.Ball != nil) {
			t.Errorf("%s: roundness %v", p.Name, p.Round)
		}
	}
	standing := map[string]string{"mast": "twig", "moon": "star", "mid": "ring"}
	for name, other := range standing {
		found := false
		for _, p := range j.Parts {
			for _, b := range p.Blanks {
				for _, m := range b.Marks {
					found = found || p.Name == name && m.Kind == flat.Standing && m.Part == other
				}
			}
		}
		if !found {
			t.Errorf("where '%s' stands is not marked on '%s'", other, name)
		}
	}
	for i := range j.Parts {
		switch p := &j.Parts[i]; p.Name {
		case "mast":
			if f := p.Blanks[0].Fan; p.Blanks[0].Shape != flat.Sector || f == nil || f.Large <= f.Small || f.Angle <= 0 {
				t.Errorf("mast: %+v", p.Blanks[0])
			}
		case "moon":
			if p.Round == nil || p.Round.Greatest <= p.Round.Mean {
				t.Errorf("moon: roundness %+v", p.Round)
			}
		}
	}
	for _, f := range j.Findings {
		if _, ok := f.Fact.(flat.NotDeveloped); ok {
			t.Errorf("%v: %+v", f.Parts, f.Fact)
		}
	}
}

// TestLater keeps what it cannot develop from being silently wrong.
func TestLater(t *testing.T) {
	d := company()
	d.Parts[1].Post.Ends[design.Head].Contact = design.Contact{Meets: design.Meeting(99), With: d.Parts[2]}
	d.Parts[1].Post.Ends[design.Head].Disc = false
	j, wrong := Build(d, 0)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	said := false
	for _, f := range j.Findings {
		said = said || slices.Equal(f.Parts, []string{"mast"}) && f.Level == finding.Caution && f.Fact == flat.NotDeveloped{End: "head"}
	}
	if !said || j.Parts[1].Mass <= 0 {
		t.Errorf("a meeting that is not known: mass %v, findings %v", j.Parts[1].Mass, j.Findings)
	}
}
