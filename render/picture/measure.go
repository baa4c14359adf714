package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/quantity"
	"stabile/render/picture/cast"
)

// Heights of what shows the size of a piece, in mm. Common practice, no source.
const (
	chairHeight = 840.0 // and 33 in
	cupHeight   = 95.0
)

// measure puts what shows the size of the piece beside it, and returns what must
// be seen of that. It makes the world of the piece and of what stands by it.
func (s *Scene) measure(piece []blob) []blob {
	st := &s.stage
	s.figure = nil
	var props []cast.Solid
	var list []blob
	switch s.beside {
	case Person:
		s.tall = s.options.Person
		foot := s.apart(piece, 0.24*s.tall, 0.62*s.tall)
		s.figure = newFigure(foot, s.tall, s.right, s.back, s.light.sun, s.pale())
		for _, x := range [2]float64{-figureWidth, figureWidth} {
			for _, z := range [2]float64{-0.005, 1.06} {
				at := r3.Add(foot, r3.Scale(x*s.tall, s.right))
				at.Z += z * s.tall
				list = append(list, blob{at: at})
			}
		}
		s.captionAt = r3.Add(foot, r3.Vec{Z: 1.02 * s.tall})
	case Chair:
		s.tall = chairHeight
		foot := s.apart(piece, 380, 240)
		props = chair(foot, st.right, st.back)
		for _, x := range [2]float64{-230, 230} {
			for _, z := range [2]float64{0, 1.08 * chairHeight} {
				at := r3.Add(foot, r3.Scale(x, st.right))
				at.Z += z
				list = append(list, blob{at: at})
			}
		}
		s.captionAt = r3.Add(foot, r3.Add(r3.Vec{Z: 1.04 * chairHeight}, r3.Scale(140, st.back)))
	case Cup:
		s.tall = cupHeight
		foot := s.apart(piece, 62, 0)
		props = cup(foot, st.right, st.back)
		list = append(list, blob{r3.Add(foot, r3.Vec{Z: cupHeight / 2}), 0.85 * cupHeight})
		s.captionAt = r3.Add(foot, r3.Add(r3.Vec{Z: 1.12 * cupHeight}, r3.Scale(45, st.back)))
	}
	shown := s.tall
	if s.beside == Chair && s.units == quantity.Inch {
		shown = 33 * 25.4 // 2 mm less
	}
	s.caption = heightText(shown, s.units)
	n := len(s.solids)
	s.world = cast.NewWorld(append(s.solids[:n:n], props...))
	s.looks, s.joins, s.seams = s.looks[:n:n], s.joins[:n:n], s.seams[:n:n]
	for range props {
		s.looks = append(s.looks, s.glaze())
		s.joins = append(s.joins, nil)
		s.seams = append(s.seams, seaming{})
	}
	return list
}

// wallClear is how far from the wall that a piece is on what shows its size stands, in mm.
const wallClear = 420.0

// apart returns a place on the ground to the right of the piece, as the viewer sees
// it, a distance from its outside and a distance farther back than its middle.
func (s *Scene) apart(piece []blob, aside, behind float64) r3.Vec {
	st := &s.stage
	ground, reach := st.floor, 0.0
	if s.beside == Cup {
		ground = 0
	}
	for _, b := range piece {
		if b.at.Z-b.radius > s.tall+ground {
			continue // over the head
		}
		out := r3.Dot(r3.Sub(b.at, s.middle), st.right) + b.radius
		if s.options.Round {
			out = math.Hypot(b.at.X-s.middle.X, b.at.Y-s.middle.Y) + b.radius
		}
		reach = max(reach, out)
	}
	if b := st.block; b != nil && s.beside != Cup {
		reach = max(reach, math.Abs(st.right.X)*b.Half.X+math.Abs(st.right.Y)*b.Half.Y)
	}
	if s.wall != nil {
		// Before the wall, and far enough aside for the shadow of the piece on it.
		aside, behind = aside+0.2*s.tall, min(behind, st.far-wallClear)
	}
	at := r3.Add(st.middle, r3.Add(r3.Scale(reach+aside, st.right), r3.Scale(behind, st.back)))
	at.Z = ground
	return at
}

// pale is the tone of a person: a little brighter than what is behind, and darker
// than that before a bright sheet.
func (s *Scene) pale() rgb {
	p := &s.stage.palette
	l := p.wall.mix(p.ground, 0.5).luminance()
	if l > 0.25 {
		return rgb{1, 1, 1}.scale(0.45 * l)
	}
	return rgb{0.46, 0.44, 0.41}
}

// glaze is the surface of a cup or a chair: pale, and smooth.
func (s *Scene) glaze() material {
	m := material{surface: painted, albedo: rgb{0.36, 0.335, 0.30}, mirror: rgb{0.04, 0.04, 0.04}, rough: 0.30}
	if s.beside == Cup {
		m.albedo, m.rough = rgb{0.42, 0.40, 0.37}, 0.12
	}
	m.body = m.albedo
	return m
}

// rod appends round bars along a line through points, with balls where they meet.
func rod(list []cast.Solid, radius float64, points ...r3.Vec) []cast.Solid {
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := norm(r3.Sub(b, a))
		list = append(list, cast.NewTube(-1, a, r3.Scale(1/length, r3.Sub(b, a)), length, radius, radius))
		if i+1 < len(points) {
			list = append(list, cast.NewBall(-1, b, radius, r3.Vec{Z: 1}, r3.Vec{X: 1}))
		}
	}
	return list
}

// chair is a plain chair with a round seat, turned a little to the piece.
func chair(foot, right, back r3.Vec) []cast.Solid {
	sin, cos := math.Sincos(0.62)
	x := r3.Sub(r3.Scale(cos, right), r3.Scale(sin, back))
	y := r3.Add(r3.Scale(sin, right), r3.Scale(cos, back))
	at := func(u, v, z float64) r3.Vec {
		return r3.Add(foot, r3.Add(r3.Add(r3.Scale(u, x), r3.Scale(v, y)), r3.Vec{Z: z}))
	}
	const seat, leg = 445.0, 12.0
	list := []cast.Solid{cast.NewTube(-1, at(0, 0, seat-22), r3.Vec{Z: 1}, 22, 205, 205)}
	for _, u := range [2]float64{-1, 1} {
		list = rod(list, leg, at(175*u, -165, 0), at(135*u, -125, seat-22))
		// The legs behind go on into the back, and bend over it to each other.
		list = rod(list, leg, at(180*u, 205, 0), at(150*u, 150, seat-60), at(172*u, 205, 700), at(140*u, 222, 800), at(60*u, 232, chairHeight-leg), at(0, 233, chairHeight-leg))
		list = rod(list, 8, at(95*u, 178, seat-10), at(100*u, 224, 795))
	}
	return list
}

// cup is a plain cup with its handle to the right.
func cup(foot, right, back r3.Vec) []cast.Solid {
	body := cast.NewTube(-1, foot, r3.Vec{Z: 1}, cupHeight, 36, 41)
	body.Wall, body.Open[1] = 3.5, true
	list := []cast.Solid{body}
	x := r3.Sub(r3.Scale(0.94, right), r3.Scale(0.34, back))
	var points []r3.Vec
	for i := range 13 {
		sin, cos := math.Sincos((-78 + 156*float64(i)/12) * math.Pi / 180)
		points = append(points, r3.Add(foot, r3.Add(r3.Scale(35+27*cos, x), r3.Vec{Z: 49 + 29*sin})))
	}
	return rod(list, 5, points...)
}
