package cast

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A mesh is triangles. Those below are written from how the parts are made, not
// from how a ray meets them: a gore bent one way, a ring rolled to a cone, a
// sheet rolled to a tube.
type mesh [][3]r3.Vec

// quad adds the two triangles of a patch.
func (m *mesh) quad(a, b, c, d r3.Vec) { *m = append(*m, [3]r3.Vec{a, b, c}, [3]r3.Vec{a, c, d}) }

// grid adds patches over a function of two parameters in [0, 1].
func (m *mesh) grid(nu, nv int, f func(u, v float64) r3.Vec) {
	for i := range nu {
		for j := range nv {
			at := func(i, j int) r3.Vec { return f(float64(i)/float64(nu), float64(j)/float64(nv)) }
			m.quad(at(i, j), at(i+1, j), at(i+1, j+1), at(i, j+1))
		}
	}
}

// meet returns the distance along a ray to the nearest triangle in front, by
// solving for the three barycentric coordinates (Moeller and Trumbore).
func (m mesh) meet(r *Ray) (float64, bool) {
	best, ok := math.Inf(1), false
	for i := range m {
		a, b, c := m[i][0], m[i][1], m[i][2]
		e1, e2 := r3.Sub(b, a), r3.Sub(c, a)
		p := r3.Cross(r.Along, e2)
		det := r3.Dot(e1, p)
		if math.Abs(det) < 1e-15 {
			continue
		}
		s := r3.Sub(r.From, a)
		u := r3.Dot(s, p) / det
		if u < -1e-9 || u > 1+1e-9 {
			continue
		}
		q := r3.Cross(s, e1)
		v := r3.Dot(r.Along, q) / det
		if v < -1e-9 || u+v > 1+1e-9 {
			continue
		}
		if t := r3.Dot(e2, q) / det; t > 1e-6 && t < best {
			best, ok = t, true
		}
	}
	return best, ok
}

type frame struct{ o, x, y, z r3.Vec }

func (f frame) at(x, y, z float64) r3.Vec {
	return r3.Add(f.o, r3.Add(r3.Scale(x, f.x), r3.Add(r3.Scale(y, f.y), r3.Scale(z, f.z))))
}

// tilted is a frame that stands skew to all axes.
func tilted() frame {
	z := unit(r3.Vec{X: 0.3, Y: -0.2, Z: 0.9})
	x, y := design.Tilt(z)
	return frame{r3.Vec{X: 40, Y: -25, Z: 310}, x, y, z}
}

func sphereMesh(f frame, radius, flat float64) mesh {
	var m mesh
	end := math.Asin(min(1, flat/radius))
	m.grid(160, 80, func(u, v float64) r3.Vec {
		lat, lon := end*(2*v-1), 2*math.Pi*u
		return f.at(radius*math.Cos(lat)*math.Cos(lon), radius*math.Cos(lat)*math.Sin(lon), radius*math.Sin(lat))
	})
	if flat < radius {
		edge := math.Sqrt(radius*radius - flat*flat)
		for _, z := range []float64{-flat, flat} {
			m.grid(160, 1, func(u, v float64) r3.Vec {
				return f.at(edge*v*math.Cos(2*math.Pi*u), edge*v*math.Sin(2*math.Pi*u), z)
			})
		}
	}
	return m
}

// lobedMesh bends n gores: along the meridian on a circle, straight across to
// the seam. Above the end there is a flat of the corners, or a dished cap.
func lobedMesh(f frame, radius float64, n int, end float64, dished bool) mesh {
	var m mesh
	lat := math.Asin(min(1, end/radius))
	tan := math.Tan(math.Pi / float64(n))
	for k := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		on := func(a, across, z float64) r3.Vec { return f.at(a*cos-across*sin, a*sin+across*cos, z) }
		m.grid(8, 120, func(u, v float64) r3.Vec {
			s := lat * (2*v - 1)
			a := radius * math.Cos(s)
			return on(a, a*tan*(2*u-1), radius*math.Sin(s))
		})
		if end < radius {
			a := radius * math.Cos(lat)
			for _, z := range []float64{-end, end} {
				m.grid(8, 1, func(u, v float64) r3.Vec { return on(a*v, a*v*tan*(2*u-1), z) })
			}
		}
	}
	if dished {
		for _, sign := range []float64{-1, 1} {
			m.grid(120, 24, func(u, v float64) r3.Vec {
				s := lat + (math.Pi/2-lat)*v
				return f.at(radius*math.Cos(s)*math.Cos(2*math.Pi*u), radius*math.Cos(s)*math.Sin(2*math.Pi*u), sign*radius*math.Sin(s))
			})
		}
	}
	return m
}

// zonedMesh turns the regular polygon of 2 (n + 1) sides about the circle.
func zonedMesh(f frame, radius float64, n int) mesh {
	var m mesh
	step := math.Pi / float64(n+1)
	corner := radius / math.Cos(step/2)
	at := func(k int) (rho, z float64) {
		a := -math.Pi/2 + step*(float64(k)-0.5)
		return corner * math.Cos(a), corner * math.Sin(a)
	}
	for k := 0; k <= n+1; k++ {
		r0, z0 := at(k)
		r1, z1 := at(k + 1)
		if k == 0 {
			r0, z0 = 0, -radius
		}
		if k == n+1 {
			r1, z1 = 0, radius
		}
		m.grid(240, 1, func(u, v float64) r3.Vec {
			r, z := r0+v*(r1-r0), z0+v*(z1-z0)
			return f.at(r*math.Cos(2*math.Pi*u), r*math.Sin(2*math.Pi*u), z)
		})
	}
	return m
}

// tubeMesh rolls a tube or taper between two planes; an open end shows the
// bore.
func tubeMesh(f frame, length, r0, r1, wall float64, ends [2]Plane, open [2]bool) mesh {
	var m mesh
	slope := (r1 - r0) / length
	// Where the line at an angle on the outside, or wall inside of it, meets the plane.
	edge := func(i int, angle, in float64) r3.Vec {
		sin, cos := math.Sincos(angle)
		d := in * math.Sqrt(1+slope*slope)
		from := f.at((r0-d)*cos, (r0-d)*sin, 0)
		way := r3.Add(f.z, r3.Scale(slope, r3.Add(r3.Scale(cos, f.x), r3.Scale(sin, f.y))))
		p := ends[i]
		return r3.Add(from, r3.Scale((p.Height-r3.Dot(p.Normal, from))/r3.Dot(p.Normal, way), way))
	}
	between := func(a, b r3.Vec, v float64) r3.Vec { return r3.Add(a, r3.Scale(v, r3.Sub(b, a))) }
	const n = 360
	m.grid(n, 1, func(u, v float64) r3.Vec { return between(edge(0, 2*math.Pi*u, 0), edge(1, 2*math.Pi*u, 0), v) })
	for i := range ends {
		middle := between(edge(i, 0, 0), edge(i, math.Pi, 0), 0.5)
		m.grid(n, 1, func(u, v float64) r3.Vec {
			out := edge(i, 2*math.Pi*u, 0)
			if open[i] {
				return between(edge(i, 2*math.Pi*u, wall), out, v)
			}
			return between(middle, out, v)
		})
	}
	if open[0] || open[1] {
		m.grid(n, 1, func(u, v float64) r3.Vec { return between(edge(0, 2*math.Pi*u, wall), edge(1, 2*math.Pi*u, wall), v) })
	}
	return m
}

func boxMesh(low, high r3.Vec) mesh {
	var m mesh
	c := func(i int) r3.Vec {
		v := low
		if i&1 != 0 {
			v.X = high.X
		}
		if i&2 != 0 {
			v.Y = high.Y
		}
		if i&4 != 0 {
			v.Z = high.Z
		}
		return v
	}
	for _, q := range [][4]int{{0, 1, 3, 2}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 3, 7, 6}, {0, 2, 6, 4}, {1, 3, 7, 5}} {
		m.quad(c(q[0]), c(q[1]), c(q[2]), c(q[3]))
	}
	return m
}

// sagitta is how far, in mm, a mesh may lie within the true surface: at 160
// steps round a radius of 150 the chord leaves the circle by 150 (1 - cos(pi /
// 160)) = 0.03, in both directions of a patch.
const sagitta = 0.06

// A ray that leaves the surface by a slant s is longer by sagitta / s, and near
// an edge it may meet one and miss the other: then one of eight rays beside it,
// no farther than sideways, must agree.
const sideways = 2.5 * sagitta

func agree(s *Solid, m mesh, r *Ray) (met, ok bool) {
	want, wantHit := m.meet(r)
	try := func(r *Ray) bool {
		t, face, hit := s.Meet(r)
		if hit != wantHit {
			return false
		}
		if !hit {
			return true
		}
		slant := math.Abs(r3.Dot(s.Normal(r.At(t), face), r.Along))
		return math.Abs(t-want)*slant <= sagitta+1e-9
	}
	if try(r) {
		return wantHit, true
	}
	x, y := design.Tilt(r.Along)
	for k := range 16 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 8)
		by := sideways / float64(1+k/8)
		beside := Ray{r3.Add(r.From, r3.Add(r3.Scale(by*cos, x), r3.Scale(by*sin, y))), r.Along}
		if try(&beside) {
			return wantHit, true
		}
	}
	return wantHit, false
}

func TestMeetAgainstMesh(t *testing.T) {
	f := tilted()
	square := func(length float64) [2]Plane {
		return [2]Plane{{r3.Scale(-1, f.z), -r3.Dot(f.z, f.o)}, {f.z, r3.Dot(f.z, f.o) + length}}
	}
	slanted := square(400)
	slanted[0] = Plane{r3.Vec{Z: -1}, -f.o.Z}
	n := unit(r3.Add(f.z, r3.Scale(0.4, f.x)))
	slanted[1] = Plane{n, r3.Dot(n, r3.Add(f.o, r3.Scale(400, f.z)))}
	tube := func(r0, r1, wall float64, ends [2]Plane, open [2]bool) Solid {
		s := NewTube(0, f.o, f.z, 400, r0, r1)
		// The mesh turns about any two directions square to the axis.
		s.Zero, s.Right = f.x, f.y
		s.End(0, ends[0])
		s.End(1, ends[1])
		s.Wall, s.Open = wall, open
		return s
	}
	flat := func(s Solid, h float64) Solid { s.Flat = [2]float64{h, h}; return s }
	dome := func(s Solid, h float64) Solid { s.Dome = [2]float64{h, h}; return s }
	low, high := r3.Vec{X: -200, Y: -150, Z: 3}, r3.Vec{X: 180, Y: 150, Z: 15}
	for _, tt := range []struct {
		name string
		s    Solid
		m    mesh
	}{
		{"sphere", NewBall(0, f.o, 150, f.z, f.x), sphereMesh(f, 150, 150)},
		{"sphere with flats", flat(NewBall(0, f.o, 150, f.z, f.x), 140), sphereMesh(f, 150, 140)},
		{"8 lobes", NewLobed(0, f.o, 150, 8, f.z, f.x), lobedMesh(f, 150, 8, 150, false)},
		{"5 lobes", NewLobed(0, f.o, 150, 5, f.z, f.x), lobedMesh(f, 150, 5, 150, false)},
		{"3 lobes", NewLobed(0, f.o, 150, 3, f.z, f.x), lobedMesh(f, 150, 3, 150, false)},
		{"12 lobes with flats", flat(NewLobed(0, f.o, 150, 12, f.z, f.x), 138), lobedMesh(f, 150, 12, 138, false)},
		{"10 lobes with dished caps", dome(NewLobed(0, f.o, 150, 10, f.z, f.x), 130), lobedMesh(f, 150, 10, 130, true)},
		{"7 zones", NewZoned(0, f.o, 150, 7, f.z, f.x), zonedMesh(f, 150, 7)},
		{"1 zone", NewZoned(0, f.o, 150, 1, f.z, f.x), zonedMesh(f, 150, 1)},
		{"tube", tube(60, 60, 2, square(400), [2]bool{}), tubeMesh(f, 400, 60, 60, 2, square(400), [2]bool{})},
		{"tube, slanted ends", tube(60, 60, 2, slanted, [2]bool{}), tubeMesh(f, 400, 60, 60, 2, slanted, [2]bool{})},
		{"tube, open above", tube(60, 60, 5, slanted, [2]bool{false, true}), tubeMesh(f, 400, 60, 60, 5, slanted, [2]bool{false, true})},
		{"tube, open at both ends", tube(60, 60, 5, square(400), [2]bool{true, true}), tubeMesh(f, 400, 60, 60, 5, square(400), [2]bool{true, true})},
		{"taper", tube(80, 30, 2, slanted, [2]bool{}), tubeMesh(f, 400, 80, 30, 2, slanted, [2]bool{})},
		{"taper, open above", tube(30, 90, 4, square(400), [2]bool{false, true}), tubeMesh(f, 400, 30, 90, 4, square(400), [2]bool{false, true})},
		{"steep taper", tube(150, 20, 4, square(400), [2]bool{false, true}), tubeMesh(f, 400, 150, 20, 4, square(400), [2]bool{false, true})},
		{"box", NewBox(0, low, high), boxMesh(low, high)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(1, 2))
			const rays = 2000
			met := 0
			for range rays {
				r := toward(rng, &tt.s)
				hit, ok := agree(&tt.s, tt.m, &r)
				if hit {
					met++
				}
				if !ok {
					got, face, gotHit := tt.s.Meet(&r)
					want, wantHit := tt.m.meet(&r)
					t.Fatalf("Meet(%v) = %v, face %d, %v, want %v, %v", r, got, face, gotHit, want, wantHit)
				}
			}
			if met < rays/5 || met == rays {
				t.Errorf("%d of %d rays met: the test is not one of both hits and misses", met, rays)
			}
		})
	}
}

// toward returns a ray from outside of a solid toward its neighbourhood.
func toward(rng *rand.Rand, s *Solid) Ray {
	somewhere := func(r float64) r3.Vec {
		return r3.Scale(r, unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}))
	}
	from := r3.Add(s.Middle, somewhere(s.Hull*(1.5+4*rng.Float64())))
	// A place within the box, which a thin part fills better than its sphere.
	at := r3.Vec{
		X: lerp(s.Low.X, s.High.X, 1.3*rng.Float64()-0.15),
		Y: lerp(s.Low.Y, s.High.Y, 1.3*rng.Float64()-0.15),
		Z: lerp(s.Low.Z, s.High.Z, 1.3*rng.Float64()-0.15),
	}
	return Ray{from, unit(r3.Sub(at, from))}
}

func lerp(a, b, f float64) float64 { return a + f*(b-a) }
