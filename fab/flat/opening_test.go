package flat

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/written"
)

// A tilt is how far something leans from upright, and which way, in rad.
type tilt struct{ lean, toward float64 }

func (l tilt) String() string { return fmt.Sprintf("%.12f rad toward %.12f rad", l.lean, l.toward) }

func (l tilt) way() r3.Vec { return design.Leaning(l.lean, l.toward) }

// anyTilt returns a direction up to a lean.
func anyTilt(rng *rand.Rand, most float64) tilt {
	return tilt{most * rng.Float64(), 2 * math.Pi * rng.Float64()}
}

// made returns how a ball of n gores or rings is made, as a text has it.
func made(build design.Construction, n int) string {
	switch build {
	case design.RolledGores:
		return fmt.Sprintf("gores %d", n)
	case design.DomedGores:
		return fmt.Sprintf("gores %d, bend domed", n)
	case design.Zones:
		return fmt.Sprintf("zones %d", n)
	case design.Bought:
		return "bought 1 kg"
	}
	return "halves"
}

// capped returns how a ball is made with round caps of a width: 0 for none but the small
// discs at the poles, and for a build that has none.
func capped(build design.Construction, n int, width float64) string {
	if width > 0 && (build == design.RolledGores || build == design.DomedGores) {
		return fmt.Sprintf("%s, caps %v mm round", made(build, n), width)
	}
	return made(build, n)
}

// poled returns the attitude of a ball as a text has it, with edges that meet where they
// are measured.
func poled(build design.Construction, pole tilt, seam float64) string {
	switch build {
	case design.Bought:
		return ""
	case design.Halves:
		return fmt.Sprintf(", pole %v", pole)
	}
	return fmt.Sprintf(", edge mid, pole %v, seam toward %.12f rad", pole, seam)
}

// threaded returns the text of a ball "moon" of 300 mm round a post "mast", about the
// point at 300 mm along it. Both texts are lists of properties.
func threaded(post, ball string) string {
	return written.Metric + `base pad { plate 4000 by 4000, metal slab }
post mast on pad { at (3, -2), length 700, head open, metal skin, ` + post + ` }
ball moon around mast { height 300, diameter 300, metal skin, ` + ball + ` }
`
}

// all works out a design, with all that is marked.
func all(t testing.TB, d *design.Design) map[string]Developed {
	t.Helper()
	list, wrong := All(d)
	if wrong.Err() != nil {
		t.Fatal(wrong.Err())
	}
	MarkStanding(d, list)
	of := make(map[string]Developed, len(list))
	for i, p := range d.Parts {
		of[p.Name] = list[i]
	}
	return of
}

// inShell returns, for a piece of the finished ball, the point at a distance out
// from the middle of the sheet above a point of its chart.
func inShell(p *piece, center r3.Vec, q r2.Vec, out float64) r3.Vec {
	x := p.space(q, 0)
	// The normal from neighbours on the piece.
	const h = 1e-4
	a := r3.Sub(p.space(r2.Add(q, r2.Vec{X: h}), 0), x)
	b := r3.Sub(p.space(r2.Add(q, r2.Vec{Y: h}), 0), x)
	n := r3.Unit(r3.Cross(a, b))
	if r3.Dot(n, r3.Sub(x, center)) < 0 {
		n = r3.Scale(-1, n)
	}
	return r3.Add(x, r3.Scale(out, n))
}

// TestChart takes points of every kind of piece to space and back.
func TestChart(t *testing.T) {
	for n, build := range []design.Construction{design.RolledGores, design.DomedGores, design.Zones, design.Halves, design.RolledGores, design.DomedGores, design.Zones, design.Halves} {
		for _, caps := range []float64{0, 40, 120} {
			if caps > 0 && (build == design.Halves || build == design.Zones) {
				continue
			}
			tall, made := "", capped(build, 7, caps)
			if n >= 4 {
				made = strings.Replace(made, " round", "", 1)
				tall = fmt.Sprintf(", tall %v", 200+3*caps)
			}
			ball := written.Design(t, written.Metric+`base pad { plate 900 by 900, metal slab }
ball moon on pad { diameter 300, metal skin, `+made+poled(build, tilt{0.7, 2}, 0.3)+tall+` }
`).Part("moon")
			d := developer{part: ball, setting: newSetting(quantity.Millimetre, nil)}
			d.ball()
			for _, p := range d.pieces() {
				low, high := bounds(p.outline)
				for i := range 5 {
					q := r2.Vec{X: low.X + (high.X-low.X)*(float64(i)+0.5)/5, Y: low.Y + (high.Y-low.Y)*(float64(i)+0.7)/6}
					if back := p.chart(p.space(q, 0)); r2.Norm(r2.Sub(back, q)) > 1e-6 {
						t.Errorf("%v, caps %v, piece %d of blank %d: %v comes back as %v", build, caps, p.number, p.blank, q, back)
					}
				}
				flat := p.onFlat(p.outline)
				for i, q := range d.Blanks[p.blank].Outline {
					if r2.Norm(r2.Sub(flat[i], q)) > 1e-6 {
						t.Fatalf("%v, caps %v, piece %d of blank %d: corner %d at %v, want %v", build, caps, p.number, p.blank, i, flat[i], q)
					}
				}
			}
		}
	}
}

// TestThread looks at the edges of the holes for a post, through the sheet: none
// lies within the post, and the nearest touches it.
func TestThread(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	most := make(map[design.Construction]*reached)
	for n := range 160 {
		build := []design.Construction{design.RolledGores, design.DomedGores, design.Zones, design.Halves}[n%4]
		along, pole := anyTilt(rng, 1), anyTilt(rng, 1.5)
		if n%3 == 0 {
			pole = along
		}
		foot := 30 + 50*rng.Float64()
		head, caps := foot, 0.0
		if rng.IntN(3) == 0 {
			head *= 0.5 + 0.8*rng.Float64() // a taper
		}
		if rng.IntN(2) == 0 {
			caps = 30 + 120*rng.Float64()
		}
		as := capped(build, 5+rng.IntN(12), caps) + poled(build, pole, 7*rng.Float64())
		whole := written.Design(t, threaded(fmt.Sprintf("diameter %v to %v, lean %v", foot, head, along), as))
		post, ball := whole.Part("mast"), whole.Part("moon")
		before := develop(t, bare(ball))
		made := all(t, whole)["moon"]

		count := 0
		for _, b := range made.Blanks {
			checkOutline(t, b)
			count += b.Quantity
		}
		was := 0
		for _, b := range before.Blanks {
			was += b.Quantity
		}
		if count < was-2 {
			t.Errorf("%d: %d pieces, want %d or a few more", n, count, was)
		}
		// The metal taken out is that of two holes of about the post's section.
		across := post.Post.DiameterAt(ball.Ball.Along)
		section := math.Pi / 4 * across * across * 1.5 * 7850e-9
		if gone := before.Mass - made.Mass; gone < 1.7*section || gone > 3.2*section {
			t.Errorf("%d: %v with poles %v: %v kg taken out, the post's section is %v", n, build, pole, gone, section)
		}
		if made.Thread < 2*math.Pi*across*0.99 {
			t.Errorf("%d: welded over %v, two rings are %v", n, made.Thread, 2*math.Pi*across)
		}

		found, edges := checkHoles(t, post, ball)
		if t.Failed() {
			t.Fatalf("%d: %v of %+v on %+v", n, build, *ball.Ball, *post.Post)
		}
		if edges < 40 {
			t.Errorf("%d: only %d places on edges", n, edges)
		}
		if m := most[build]; m == nil {
			most[build] = &found
		} else {
			m.in, m.out = max(m.in, found.in), max(m.out, found.out)
		}
	}
	for _, build := range []design.Construction{design.RolledGores, design.DomedGores, design.Zones, design.Halves} {
		t.Logf("%v: the edges of holes lie at most %.4f mm inside the post and %.4f mm off it", build, most[build].in, most[build].out)
	}
}

// bare returns a ball as it is before it is opened for the post that it is threaded on.
func bare(ball *design.Part) *design.Part {
	p, whole := *ball, *ball.Ball
	whole.Around, p.Ball = nil, &whole
	return &p
}

// checkHoles bends the pieces of a threaded ball and looks along the edges of
// their holes, through the sheet: none may lie within the post, and the nearest
// must touch it.
func checkHoles(t *testing.T, post, ball *design.Part, sheets ...design.Sheet) (all reached, edges int) {
	t.Helper()
	d := developer{part: bare(ball), setting: newSetting(quantity.Millimetre, sheets)}
	d.ball()
	d.part = ball
	list := d.pieces()
	cuts := make([]cutOut, len(list))
	for i := range list {
		cuts[i].outlines = [][]r2.Vec{list[i].outline}
	}
	d.thread(list, cuts)
	if d.wrong.Err() != nil {
		return all, 0
	}
	q := post.Post
	u, slope := q.Direction, (q.Ends[design.Head].Diameter-q.Ends[design.Foot].Diameter)/2/q.Length
	for i := range list {
		p := &list[i]
		look := func(at r2.Vec) {
			least := math.Inf(1)
			const layers = 13
			for k := range layers {
				x := r3.Sub(placed(ball, p, &d.Blanks[p.blank], at, ball.Metal.Thickness*(float64(k)/(layers-1)-0.5)), q.Ends[design.Foot].At)
				s := r3.Dot(x, u)
				off := r3.Norm(r3.Sub(x, r3.Scale(s, u))) - q.Ends[design.Foot].Diameter/2 - slope*s
				least = min(least, off/math.Hypot(1, slope))
			}
			edges++
			all.add(least)
			if least < -nowhereInside || least > atMostOff {
				t.Errorf("the edge of piece %d of blank %d at %v is %v from the post", p.number, p.blank, at, least)
			}
		}
		for _, edge := range append(cuts[i].holes, cuts[i].outlines...) {
			flat := p.onFlat(edge)
			for k := range edge {
				next := (k + 1) % len(edge)
				if onOutline(r2.Scale(0.5, r2.Add(edge[k], edge[next])), p.outline) {
					continue
				}
				a, b := flat[k], flat[next]
				for _, share := range [...]float64{0, 0.25, 0.5, 0.75, 1} {
					look(r2.Add(a, r2.Scale(share, r2.Sub(b, a))))
				}
			}
		}
	}
	return all, edges
}

// placed returns where a point of the flat of a piece comes to lie on the ball,
// at a distance out from the middle of the sheet, by the geometry of each build.
func placed(ball *design.Part, p *piece, b *Blank, q r2.Vec, out float64) r3.Vec {
	c := ball.Ball
	mean := c.Radius - ball.Metal.Thickness/2
	third := r3.Cross(c.Pole, c.Prime)
	at := func(longitude, across, along float64) r3.Vec { // from the pole's axis, and along it
		sin, cos := math.Sincos(longitude)
		v := r3.Add(r3.Scale(across*cos, c.Prime), r3.Scale(across*sin, third))
		return r3.Add(c.Center, r3.Add(v, r3.Scale(along, c.Pole)))
	}
	up := 1.0 // the lower of two discs, and the rings below the equator
	switch {
	case b.Shape == Gore:
		sin, cos := math.Sincos(q.Y / mean)
		middle := 2 * math.Pi * float64(p.number-1) / float64(c.Gores)
		if c.Build == design.DomedGores {
			return at(middle+q.X/(mean*cos), (mean+out)*cos, (mean+out)*sin)
		}
		return at(middle+math.Atan2(q.X, (mean+out)*cos), math.Hypot(q.X, (mean+out)*cos), (mean+out)*sin)
	case b.Shape == Disc:
		if p.number == 2 {
			up = -1
		}
		r, longitude := r2.Norm(q), up*math.Atan2(q.Y, q.X)
		if b.Forming.How == "flat" {
			height := mean // of a ball of zones
			if c.Caps > 0 {
				height = math.Sqrt(mean*mean - c.Caps*c.Caps/4)
			}
			return at(longitude, r, up*(height+out))
		}
		sin, cos := math.Sincos(2 * math.Asin(r/(2*mean)))
		return at(longitude, (mean+out)*sin, up*(mean+out)*cos)
	}
	// A ring in one piece or several, whose middle line touches the sphere. Two
	// rings have like pieces, but for that at the equator.
	count := b.Quantity
	if p.blank > 0 || c.Zones%2 == 0 {
		count /= 2
	}
	k, step := p.level, math.Pi/float64(c.Zones+1)
	piece := 2 * math.Pi / float64(count)
	latitude := float64(k+1)*step - math.Pi/2
	if latitude < -1e-9 {
		up, latitude = -1, -latitude
	}
	sin, cos := math.Sincos(latitude)
	around, slant := q.X/mean, q.Y-mean*math.Tan(step/2)
	if b.Fan != nil {
		// About its apex, which is where the cone's side comes to the axis.
		rel := r2.Sub(b.Fan.Apex, q)
		around = math.Atan2(-rel.X, rel.Y)/sin + piece/2
		slant = mean*cos/sin - r2.Norm(rel)
	}
	seam := math.Pi/3*float64(1+k%2) + up*piece*float64(p.turn)
	return at(seam+up*around, (mean+out)*cos-slant*sin, up*((mean+out)*sin+slant*cos))
}

func onOutline(q r2.Vec, outline []r2.Vec) bool {
	for i, a := range outline {
		if toSegment(q, a, outline[(i+1)%len(outline)]) < 1e-5 {
			return true
		}
	}
	return false
}

// TestThreadAlongPole has a post run through both poles: all gores are alike.
func TestThreadAlongPole(t *testing.T) {
	for _, build := range []design.Construction{design.RolledGores, design.DomedGores} {
		u := tilt{0.2, 1}
		whole := written.Design(t, threaded(fmt.Sprintf("diameter 60, lean %v", u), made(build, 12)+poled(build, u, 0.3)))
		ball, made := whole.Part("moon"), all(t, whole)["moon"]
		if len(made.Blanks) != 1 || made.Blanks[0].Quantity != 12 || made.Blanks[0].Name != "moon gore" {
			for _, b := range made.Blanks {
				t.Errorf("%v: blank %q of %d pieces, want all 12 alike", build, b.Name, b.Quantity)
			}
			continue
		}
		// Each tip ends where the inside of the sheet comes to the post.
		b := made.Blanks[0]
		// Rolled gores are widest from the axis at their seams.
		want := 2 * 149.25 * math.Acos(30/148.5)
		if build == design.RolledGores {
			want = 2 * 149.25 * math.Acos(30/148.5*math.Cos(math.Pi/12))
		}
		if math.Abs(b.Length-want) > 0.6 {
			t.Errorf("%v: %v long, want about %v", build, b.Length, want)
		}
		if off := r3.Norm(r3.Sub(made.CG, ball.Ball.Center)); off > 1e-3 {
			t.Errorf("%v: centre of gravity %v beside the centre", build, off)
		}
		// The table ends where the metal does, by the outline's farthest corner.
		var tip r2.Vec
		for _, q := range b.Outline {
			if q.Y > tip.Y-1e-3 && (q.Y > tip.Y+1e-3 || q.X > tip.X) {
				tip = q
			}
		}
		stations := b.Ordinates[0].Stations
		last := stations[len(stations)-1]
		if math.Abs(last.At-tip.Y) > 1e-3 || math.Abs(last.Ordinate-math.Abs(tip.X)) > atMostOff {
			t.Errorf("%v: the table ends with %v half wide at %v, the metal at %v", build, last.Ordinate, last.At, tip)
		}
		for i := 1; i < len(stations); i++ {
			if stations[i].At <= stations[i-1].At {
				t.Errorf("%v: station %d at %v comes after %v", build, i, stations[i].At, stations[i-1].At)
			}
		}
	}
}

// TestVent drills one hole, clear of seams and joints.
func TestVent(t *testing.T) {
	for _, build := range []design.Construction{design.RolledGores, design.DomedGores, design.Zones, design.Halves} {
		as := made(build, 9) + poled(build, tilt{}, 0.3)
		before := all(t, written.Design(t, threaded("diameter 60", as+", vent 10")))["moon"]
		holes, pieces := 0, 0
		for _, b := range before.Blanks {
			pieces += b.Quantity
			for _, h := range b.Holes {
				if h.Diameter != 10 {
					continue
				}
				holes += b.Quantity
				if b.Quantity != 1 || !slices.Contains(b.Notes, finding.Fact(DrillVent{10, false})) {
					t.Errorf("%v: blank %q of %d with notes %v", build, b.Name, b.Quantity, b.Notes)
				}
				for _, q := range h.Outline {
					if !within(q, b.Outline) {
						t.Errorf("%v: the vent at %v runs out of the blank", build, h.Center)
						break
					}
				}
			}
		}
		if holes != 1 {
			t.Errorf("%v: %d vents in %d pieces, want 1", build, holes, pieces)
		}
		if less := all(t, written.Design(t, threaded("diameter 60", as)))["moon"].Mass - before.Mass; !near(less/(math.Pi*25*1.5*7850e-9), 1) {
			t.Errorf("%v: the vent takes out %v kg", build, less)
		}
	}
}
