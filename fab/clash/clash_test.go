package clash

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

const deg = math.Pi / 180

func TestFind(t *testing.T) {
	for _, tt := range []struct {
		name string
		make func(m *maker)
		want []string // a part of each diagnostic, in order
	}{
		{"an empty design", func(m *maker) {}, nil},
		{"a post and a ball on a plate", func(m *maker) {
			pad := m.plate(400, 400, 8)
			m.ball("moon", m.post("mast", pad, 0, 0, 60, 500, 0, 0), 200, 0, 0)
		}, nil},
		{"leaning, offset, three high", func(m *maker) {
			pad := m.plate(600, 600, 8)
			a := m.ball("a", m.post("p", pad, 0, 0, 90, 500, 6*deg, 0), 300, 15, math.Pi)
			b := m.ball("b", m.post("q", a, 20, 30, 50, 250, 20*deg, 1), 160, 10, 2)
			m.ball("c", m.post("r", b, -20, 5, 40, 200, 15*deg, 4), 120, 0, 0)
		}, nil},
		{"two crossing posts", func(m *maker) {
			pad := m.plate(600, 600, 8)
			m.post("p", pad, -100, 0, 40, 500, 25*deg, 0)
			m.post("q", pad, 100, 0, 40, 500, 25*deg, math.Pi)
		}, []string{"post 'q' runs into post 'p': they overlap by 40 mm"}},
		{"two posts that pass close", func(m *maker) {
			pad := m.plate(600, 600, 8)
			m.post("p", pad, -100, -20.1, 40, 500, 25*deg, 0)
			m.post("q", pad, 100, 20.1, 40, 500, 25*deg, math.Pi)
		}, nil},
		{"two posts that touch", func(m *maker) {
			pad := m.plate(600, 600, 8)
			m.post("p", pad, -20, 0, 40, 900, 0, 0)
			m.post("q", pad, 20, 0, 40, 900, 0, 0)
		}, nil},
		{"two posts a little too near", func(m *maker) {
			pad := m.plate(600, 600, 8)
			m.post("p", pad, -20, 0, 40, 900, 0, 0)
			m.post("q", pad, 19.8, 0, 40, 900, 0, 0)
		}, []string{"they overlap by 0.2 mm"}},
		{"a thin post through a ball", func(m *maker) {
			pad := m.plate(600, 600, 8)
			m.ball("moon", m.post("p", pad, 0, 0, 60, 300, 0, 0), 240, 0, 0)
			m.post("wire", pad, 80, 0, 6, 900, 0, 0)
		}, []string{"post 'wire' runs into ball 'moon': they overlap by 6 mm"}},
		{"sibling balls that touch", func(m *maker) {
			pad := m.plate(600, 600, 8)
			m.ball("a", m.post("p", pad, -50, 0, 30, 300, 0, 0), 100, 0, 0)
			m.ball("b", m.post("q", pad, 50, 0, 30, 300, 0, 0), 100, 0, 0)
		}, nil},
		{"sibling balls too near", func(m *maker) {
			pad := m.plate(600, 600, 8)
			m.ball("a", m.post("p", pad, -50, 0, 30, 300, 0, 0), 100, 0, 0)
			m.ball("b", m.post("q", pad, 49, 0, 30, 300, 0, 0), 100, 0, 0)
		}, []string{"ball 'b' runs into ball 'a': they overlap by 1 mm about (-0.5 mm, 0 mm, "}},
		{"sibling balls whose ridges meet", func(m *maker) {
			pad := m.plate(600, 600, 8)
			a := m.ball("a", m.post("p", pad, -50.5, 0, 30, 300, 0, 0), 100, 0, 0)
			b := m.ball("b", m.post("q", pad, 50.5, 0, 30, 300, 0, 0), 100, 0, 0)
			// Ridge to ridge: 50 / cos(22.5 deg) = 54.12 each.
			turn := r3.Vec{X: math.Cos(22.5 * deg), Y: math.Sin(22.5 * deg)}
			lobe(a, 8, r3.Vec{Z: 1}, turn)
			lobe(b, 8, r3.Vec{Z: 1}, turn)
		}, []string{"ball 'b' runs into ball 'a'"}},
		{"sibling balls flat to flat", func(m *maker) {
			pad := m.plate(600, 600, 8)
			a := m.ball("a", m.post("p", pad, -50.05, 0, 30, 300, 0, 0), 100, 0, 0)
			b := m.ball("b", m.post("q", pad, 50.05, 0, 30, 300, 0, 0), 100, 0, 0)
			lobe(a, 8, r3.Vec{Z: 1}, r3.Vec{X: 1})
			lobe(b, 8, r3.Vec{Z: 1}, r3.Vec{X: 1})
		}, nil},
		{"a ball on a short post against the ball below", func(m *maker) {
			pad := m.plate(600, 600, 8)
			a := m.ball("a", m.post("p", pad, 0, 0, 60, 300, 0, 0), 200, 0, 0)
			m.ball("b", m.post("q", a, 0, 0, 60, 4, 0, 0), 200, 20, 0)
		}, []string{"ball 'b' runs into ball 'a'"}},
		{"a ball that rests on the plate", func(m *maker) {
			m.rest("b", m.plate(300, 300, 8), 20, 20, 120)
		}, nil},
		{"a ball that rests on the ground on a ridge", func(m *maker) {
			b := m.rest("b", nil, 0, 0, 120)
			lobe(b, 6, r3.Vec{Y: 1}, r3.Vec{X: 1})
			b.Ball.Center.Z = -b.Farthest(r3.Vec{Z: -1}).Z
		}, nil},
		{"a ball that rests on the ground by the sphere within its ridges", func(m *maker) {
			lobe(m.rest("b", nil, 0, 0, 120), 6, r3.Vec{Y: 1}, r3.Vec{X: 1})
		}, []string{"ball 'b' goes 9.28 mm below"}},
		{"a ball beside the plate, under its top", func(m *maker) {
			pad := m.plate(300, 300, 20)
			m.ball("a", m.post("p", pad, 100, 0, 40, 220, 80*deg, 0), 150, 0, 0)
		}, []string{"ball 'a' goes 4.18 mm below"}},
		{"a head below the plate", func(m *maker) {
			m.post("p", m.plate(300, 300, 8), 0, 0, 100, 100, 80*deg, 0)
		}, []string{"the head of post 'p' reaches 31.88 mm below the top of base 'pad'"}},
		{"a post into the ball that it stands on", func(m *maker) {
			a := m.rest("a", m.plate(300, 300, 8), 0, 0, 200)
			m.post("p", a, 60, 0, 20, 300, 120*deg, math.Pi)
		}, []string{"post 'p' runs into ball 'a' that it is joined to"}},
		{"a ball tied to nothing", func(m *maker) {
			m.plate(300, 300, 8)
			m.ballAt("moon", r3.Vec{Z: 500}, 100)
		}, []string{"ball 'moon' is not joined to anything"}},
		{"two tied to each other alone", func(m *maker) {
			m.plate(300, 300, 8)
			a, b := m.ballAt("a", r3.Vec{Z: 500}, 100), m.ballAt("b", r3.Vec{Z: 800}, 100)
			m.between("p", a, b, 30)
		}, []string{"ball 'a', with the parts joined to it (3 in all), is not joined to anything"}},
		{"a loop", func(m *maker) {
			pad := m.plate(900, 300, 8)
			a := m.ball("a", m.post("p", pad, -150, 0, 40, 300, 0, 0), 120, 0, 0)
			b := m.ball("b", m.post("q", pad, 150, 0, 40, 350, 0, 0), 120, 0, 0)
			m.between("tie", a, b, 30)
		}, nil},
	} {
		m := newMaker()
		tt.make(m)
		got := Find(&m.Design, m.Ties(), solid.Bodies(&m.Design))
		ok := len(got) == len(tt.want)
		for i := range min(len(got), len(tt.want)) {
			ok = ok && strings.Contains(got[i].Text, tt.want[i])
		}
		if !ok {
			t.Errorf("%s: got %v, want %q", tt.name, got.Err(), tt.want)
		}
	}
}

// TestNeighboursOnBall is worked case B11: posts P2 and P3 of the assembly of
// case D3 stand on one ball, 35.8 deg apart, with 29.8 mm between their feet.
// As cylinders they cross within the ball; outside of it they are clear until
// the angle comes down to 21.6 deg.
func TestNeighboursOnBall(t *testing.T) {
	m := newMaker()
	pad := m.plate(600, 400, 10)
	b1 := m.ball("B1", m.post("P1", pad, 0, 0, 60, 473.433, 0, 0), 240, 0, 0)
	b2 := m.ballAt("B2", r3.Vec{X: 220, Y: 80, Z: 1150}, 180)
	b3 := m.ballAt("B3", r3.Vec{X: -180, Y: 120, Z: 1300}, 150)
	m.rest("B4", pad, 180, -120, 160)
	m.between("P2", b1, b2, 48)
	m.between("P3", b1, b3, 42)
	if got := Find(&m.Design, m.Ties(), solid.Bodies(&m.Design)); len(got) > 0 {
		t.Errorf("the assembly clashes: %v", got.Err())
	}
	// 24 mm and 21 mm of half width on a radius of 120 mm.
	least := math.Asin(24.0/120) + math.Asin(21.0/120)
	if got := least / deg; math.Abs(got-21.6156) > 1e-4 {
		t.Fatalf("least angle %v, want 21.6156", got)
	}
	for _, tt := range []struct {
		angle float64
		clash bool
	}{{least + 0.5*deg, false}, {least + 0.02*deg, false}, {least - 0.1*deg, true}, {least - 1*deg, true}} {
		m := newMaker()
		ball := m.rest("B1", m.plate(600, 400, 10), 0, 0, 240)
		c := ball.Ball.Center
		for i, d := range []float64{48, 42} {
			u := design.Leaning(float64(i)*tt.angle, 0)
			far := m.ballAt(fmt.Sprint("far", i), r3.Add(c, r3.Scale(900+float64(i)*400, u)), 60)
			m.between(fmt.Sprint("P", i), ball, far, d)
		}
		if got := Find(&m.Design, m.Ties(), solid.Bodies(&m.Design)); (len(got) > 0) != tt.clash {
			t.Errorf("posts %v deg apart: %v, want a clash: %v", tt.angle/deg, got.Err(), tt.clash)
		}
	}
}

// TestMany holds that a heap of clashes is reported briefly.
func TestMany(t *testing.T) {
	m := newMaker()
	pad := m.plate(600, 600, 8)
	for i := range 2000 {
		m.post(fmt.Sprint("p", i), pad, 0, 0, 60, 500, 0, 0)
	}
	got := Find(&m.Design, m.Ties(), solid.Bodies(&m.Design))
	if len(got) != most+1 || !strings.Contains(got[most].Text, "not reported") {
		t.Errorf("%d diagnostics, want %d", len(got), most+1)
	}
}

// field makes a design of n parts: posts with balls on them on a large plate,
// far enough apart, each a little different.
func field(n int) *design.Design {
	m := newMaker()
	side := int(math.Ceil(math.Sqrt(float64(n) / 2)))
	pad := m.plate(float64(side)*400+200, float64(side)*400+200, 10)
	for i := 0; len(m.Parts) < n; i++ {
		x, y := float64(i%side-side/2)*400, float64(i/side-side/2)*400
		p := m.post(fmt.Sprint("p", i), pad, x, y, 40+float64(i%7), 300+float64(i%11)*20, float64(i%5)*2*deg, float64(i))
		if len(m.Parts) < n {
			lobe(m.ball(fmt.Sprint("b", i), p, 120+float64(i%13)*5, 5, float64(i)), 8, r3.Vec{Z: 1}, r3.Vec{X: 1})
		}
	}
	return &m.Design
}

func TestField(t *testing.T) {
	d := field(2000)
	if got := Find(d, d.Ties(), solid.Bodies(d)); len(got) > 0 {
		t.Errorf("a field of posts clashes: %v", got[0])
	}
}

func BenchmarkFind(b *testing.B) {
	for _, n := range []int{10, 100, 500, 1000, 2000} {
		d := field(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				Find(d, d.Ties(), solid.Bodies(d))
			}
		})
	}
}
