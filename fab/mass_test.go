package fab

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// TestTubeByCells adds up the wall of a leaning, offset tube between two balls
// cell by cell, a cell being 0.25 mm long.
func TestTubeByCells(t *testing.T) {
	j := build(t, shop+`
post a on pad { at (-50, 20), diameter 60, length 300, lean 9 deg toward 40 deg, metal skin }
ball b on a { diameter 220, halves, metal skin }
post c on b { diameter 50, length 260, offset 35 toward 200 deg, lean 14 deg toward 170 deg, metal skin }
ball d on c { diameter 150, offset 12 toward 80 deg, halves, metal thin }`)
	for _, name := range []string{"a", "c"} {
		p := j.Parts[indexOf(j, name)]
		post := p.Post
		x, y := design.Tilt(post.Direction)
		t0, ro := p.Metal.Thickness, post.Diameter[0]/2
		keep := func(at r3.Vec, s float64) bool {
			for i, e := range []design.End{post.FootEnd, post.HeadEnd} {
				switch {
				case e.Meets == design.OnPlate && at.Z < e.With.Base.Top:
					return false
				case e.Meets == design.OnBall:
					mid := r3.Dot(r3.Sub(e.With.Ball.Center, post.Foot), post.Direction)
					if i == 0 && s < mid || i == 1 && s > mid || r3.Norm(r3.Sub(at, e.With.Ball.Center)) < e.With.Ball.Radius {
						return false
					}
				}
			}
			return true
		}
		const around, through, ds, from, to = 90, 8, 0.25, -60.0, 340.0
		var mass float64
		var moment r3.Vec
		for i := range around {
			sin, cos := math.Sincos((float64(i) + 0.5) * 2 * math.Pi / around)
			out := r3.Add(r3.Scale(cos, x), r3.Scale(sin, y))
			for s := from; s < to; s += ds {
				at := func(r float64) r3.Vec {
					return r3.Add(post.Foot, r3.Add(r3.Scale(s, post.Direction), r3.Scale(r, out)))
				}
				// The cut is square to the sheet: what the inside, the outside
				// or anything between must lose, all of the wall loses.
				kept := true
				for k := range through + 1 {
					kept = kept && keep(at(ro-t0+float64(k)*t0/through), s)
				}
				if kept {
					mid := ro - t0/2
					cell := mid * 2 * math.Pi / around * t0 * ds * p.Metal.Density * 1e-9
					mass += cell
					moment = r3.Add(moment, r3.Scale(cell, at(mid)))
				}
			}
		}
		if math.Abs(p.Mass-mass) > 5e-4*mass {
			t.Errorf("%s weighs %v kg, cell by cell %v", name, p.Mass, mass)
		}
		if off := r3.Norm(r3.Sub(p.CG, r3.Scale(1/mass, moment))); off > 0.1 {
			t.Errorf("%s: centre of gravity %v is %v mm from that of the cells", name, p.CG, off)
		}
	}
}

func indexOf(j *Job, name string) int {
	for i, p := range j.Parts {
		if p.Name == name {
			return i
		}
	}
	return -1
}

// TestLobedBallBySurface adds up a lobed ball's middle surface triangle by
// triangle, between its ridges as points in space.
func TestLobedBallBySurface(t *testing.T) {
	j := build(t, shop+"ball b on pad { diameter 300, gores 7, metal skin }")
	p := j.Parts[indexOf(j, "b")]
	mean, n := 150-0.75, 7.0
	ridge := func(k, latitude float64) r3.Vec {
		out := mean / math.Cos(math.Pi/n) * math.Cos(latitude)
		sin, cos := math.Sincos((k + 0.5) * 2 * math.Pi / n)
		return r3.Vec{X: out * cos, Y: out * sin, Z: mean * math.Sin(latitude)}
	}
	const rows = 2000
	area := 0.0
	for i := range rows {
		a, b := (float64(i)/rows-0.5)*math.Pi, (float64(i+1)/rows-0.5)*math.Pi
		for k := range 7 {
			p, q, r, s := ridge(float64(k), a), ridge(float64(k+1), a), ridge(float64(k+1), b), ridge(float64(k), b)
			area += r3.Norm(r3.Cross(r3.Sub(q, p), r3.Sub(r, p)))/2 + r3.Norm(r3.Cross(r3.Sub(r, p), r3.Sub(s, p)))/2
		}
	}
	// The blunt ends of the gores leave out two holes 3 mm wide at each gore.
	if want := area * 1.5 * 7850e-9; math.Abs(p.Mass-want) > 1e-3*want || p.Mass > want {
		t.Errorf("the ball weighs %v kg, by triangles %v", p.Mass, want)
	}
}
