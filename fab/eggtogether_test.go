package fab

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sort"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/flat"
	"stabile/param/design"
)

// A meridian is that of an egg, drawn in chords by the angle of its ellipse: what is worked out
// for the blanks is not used here.
type meridian struct {
	a, c, half float64   // half axes outside, and half of the thickness
	long       []float64 // along the middle of the sheet, from the equator
	area       []float64 // of it, from the lower pole
}

const meridianChords = 6000

func meridianOf(p *design.Part) *meridian {
	m := &meridian{a: p.Ball.Radius, c: p.Ball.Tall / 2, half: p.Metal.Thickness / 2}
	r0, z0 := m.point(-math.Pi/2, 0)
	long, area := 0.0, 0.0
	for k := range meridianChords + 1 {
		r, z := m.point(math.Pi*(float64(k)/meridianChords-0.5), 0)
		chord := math.Hypot(r-r0, z-z0)
		long, area = long+chord, area+math.Pi*(r+r0)*chord
		m.long, m.area = append(m.long, long), append(m.area, area)
		r0, z0 = r, z
	}
	middle := m.long[meridianChords/2]
	for k := range m.long {
		m.long[k] -= middle
	}
	return m
}

// normal returns the direction out of the ellipse at an angle.
func (m *meridian) normal(angle float64) (r, z float64) {
	sin, cos := math.Sincos(angle)
	r, z = cos/m.a, sin/m.c
	n := math.Hypot(r, z)
	return r / n, z / n
}

// point returns the place at an angle, out from the middle of the sheet.
func (m *meridian) point(angle, out float64) (r, z float64) {
	sin, cos := math.Sincos(angle)
	nr, nz := m.normal(angle)
	return m.a*cos + (out-m.half)*nr, m.c*sin + (out-m.half)*nz
}

// angle returns the angle of the place to which a point is nearest, and how far out from the
// middle of the sheet that is.
func (m *meridian) angle(r, z float64) (angle, out float64) {
	angle = math.Atan2(z/m.c, r/m.a)
	for range 12 {
		sin, cos := math.Sincos(angle)
		dr, dz := r-m.a*cos, z-m.c*sin
		off := -dr*m.a*sin + dz*m.c*cos
		slope := -dr*m.a*cos - dz*m.c*sin - m.a*m.a*sin*sin - m.c*m.c*cos*cos
		angle -= max(-0.2, min(0.2, off/slope))
	}
	sin, cos := math.Sincos(angle)
	nr, nz := m.normal(angle)
	return angle, (r-m.a*cos)*nr + (z-m.c*sin)*nz + m.half
}

// to returns the angle to which a table, of which the values rise, has a value.
func (m *meridian) to(table []float64, value float64) float64 {
	k := min(max(sort.SearchFloat64s(table, value), 1), meridianChords)
	u := (value - table[k-1]) / (table[k] - table[k-1])
	return math.Pi * ((float64(k-1)+u)/meridianChords - 0.5)
}

// of returns the value of a table at an angle.
func (m *meridian) of(table []float64, angle float64) float64 {
	at := (angle/math.Pi + 0.5) * meridianChords
	k := min(max(int(at), 0), meridianChords-1)
	return table[k] + (at-float64(k))*(table[k+1]-table[k])
}

// reach returns how far from the middle of a disc, dished at equal area, the place at an angle
// from the equator toward its pole is; and reached undoes it.
func (m *meridian) reach(angle float64) float64 {
	return math.Sqrt(max(0, m.of(m.area, -angle)) / math.Pi)
}
func (m *meridian) reached(radius float64) float64 {
	return -m.to(m.area, min(math.Pi*radius*radius, m.area[meridianChords]))
}

// edge returns the angle at which the middle of the sheet is a distance from the axis.
func (m *meridian) edge(radius float64) float64 {
	low, high := 0.0, math.Pi/2
	for range 60 {
		middle := (low + high) / 2
		if r, _ := m.point(middle, 0); r > radius {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// eggPlaques bends an egg's pieces.
func eggPlaques(p *Part) (list []plaque) {
	b, m := p.Ball, meridianOf(p.Part)
	across := r3.Cross(b.Pole, b.Prime)
	at := func(lon float64, r, z float64) r3.Vec {
		sin, cos := math.Sincos(lon)
		return r3.Add(b.Center, r3.Add(r3.Scale(z, b.Pole), r3.Add(r3.Scale(r*cos, b.Prime), r3.Scale(r*sin, across))))
	}
	local := func(x r3.Vec) (east, north, z float64) {
		x = r3.Sub(x, b.Center)
		return r3.Dot(x, b.Prime), r3.Dot(x, across), r3.Dot(x, b.Pole)
	}
	blanks := slices.Concat(p.Blanks, p.Fills)
	for i := range blanks {
		blank := &blanks[i]
		if blank.Shape != flat.Gore && blank.Shape != flat.Disc {
			continue
		}
		for _, n := range numbersOf(blank) {
			q := plaque{name: fmt.Sprintf("%s (%d)", blank.Name, n), outline: blank.Outline, holes: blank.Holes}
			q.open = func(q r2.Vec) bool { return onVent(blank.Holes, q) }
			middle := 2 * math.Pi * float64(n-1) / float64(b.Gores)
			sin, cos := math.Sincos(middle)
			switch {
			case blank.Shape == flat.Gore && b.Build == design.RolledGores:
				q.space = func(q r2.Vec, out float64) r3.Vec {
					r, z := m.point(m.to(m.long, q.Y), out)
					return at(middle+math.Atan2(q.X, r), math.Hypot(r, q.X), z)
				}
				q.flat = func(x r3.Vec) (r2.Vec, float64) {
					east, north, z := local(x)
					r, side := east*cos+north*sin, north*cos-east*sin
					angle, out := m.angle(r, z)
					return r2.Vec{X: side, Y: m.of(m.long, angle)}, out
				}
			case blank.Shape == flat.Gore:
				q.space = func(q r2.Vec, out float64) r3.Vec {
					angle := m.to(m.long, q.Y)
					on, _ := m.point(angle, 0)
					r, z := m.point(angle, out)
					return at(middle+q.X/on, r, z)
				}
				q.flat = func(x r3.Vec) (r2.Vec, float64) {
					east, north, z := local(x)
					angle, out := m.angle(math.Hypot(east, north), z)
					on, _ := m.point(angle, 0)
					return r2.Vec{X: on * math.Remainder(math.Atan2(north, east)-middle, 2*math.Pi), Y: m.of(m.long, angle)}, out
				}
			default:
				eggDisc(&q, p, m, blank, n, at, local)
			}
			if b.Build == design.Halves {
				q.trim = m.reach(0)
			}
			list = append(list, q)
		}
	}
	if b.Build == design.Zones {
		list = append(list, eggRings(p, m, at, local)...)
	}
	return list
}

// eggDisc places a round piece of an egg: the upper is 1, the lower 2.
func eggDisc(q *plaque, p *Part, m *meridian, blank *flat.Blank, n int, at func(lon, r, z float64) r3.Vec, local func(x r3.Vec) (east, north, z float64)) {
	b, way := p.Ball, float64(3-2*n)
	height := 0.0
	switch {
	case b.Build == design.Zones:
		height = m.c - m.half
	case blank.Forming.How == "flat":
		_, height = m.point(m.edge(b.CapAt(2-n)/2), 0)
	}
	step := 0.0
	if b.Straight && height == 0 {
		step = 2 * math.Pi / float64(b.Gores)
	}
	lobe := func(lon float64) float64 {
		if step == 0 {
			return lon
		}
		return step * math.Round(lon/step)
	}
	q.space = func(q r2.Vec, out float64) r3.Vec {
		lon, r := way*math.Atan2(q.Y, q.X), r2.Norm(q)
		if height > 0 {
			return at(lon, r, way*(height+out))
		}
		middle := lobe(lon)
		chord, side := r*math.Cos(lon-middle), r*math.Sin(lon-middle)
		angle := m.reached(chord)
		level, z := m.point(angle, out)
		if on, _ := m.point(angle, 0); chord > 0 {
			side *= on / chord
		}
		if step > 0 { // within, it ends at the plane of the crease
			side = math.Copysign(min(math.Abs(side), level*math.Tan(step/2)), side)
		}
		return at(middle+math.Atan2(side, level), math.Hypot(level, side), way*z)
	}
	q.flat = func(x r3.Vec) (r2.Vec, float64) {
		east, north, z := local(x)
		lon, r := math.Atan2(north, east), math.Hypot(east, north)
		if height > 0 {
			sin, cos := math.Sincos(way * lon)
			return r2.Vec{X: r * cos, Y: r * sin}, way*z - height
		}
		middle := lobe(lon)
		level, side := r*math.Cos(lon-middle), r*math.Sin(lon-middle)
		angle, out := m.angle(level, way*z)
		chord := m.reach(angle)
		if on, _ := m.point(angle, 0); on > 0 {
			side *= chord / on
		}
		sin, cos := math.Sincos(way * (middle + math.Atan2(side, chord)))
		r = math.Hypot(chord, side)
		return r2.Vec{X: r * cos, Y: r * sin}, out
	}
}

// eggRings rolls the rings of an egg: each touches it where the ellipse is drawn by an even
// part of the angle.
func eggRings(p *Part, m *meridian, at func(lon, r, z float64) r3.Vec, local func(x r3.Vec) (east, north, z float64)) (list []plaque) {
	b := p.Ball
	seams := flat.RingTurns()
	blanks := slices.Concat(p.Blanks, p.Fills)
	for i := range blanks {
		blank := &blanks[i]
		if blank.Shape == flat.Disc {
			continue
		}
		for _, ring := range numbersOf(blank) {
			drawn, sign := math.Pi*(float64(ring)/float64(b.Zones+1)-0.5), 1.0
			if drawn < -1e-9 {
				sign = -1
			}
			cos, sin := m.normal(sign * drawn)
			r0, z0 := m.point(sign*drawn, 0)
			low, high := span(blank.Outline)
			seam := sign * seams[(ring-1)%2]
			toFlat := func(turn, along float64) r2.Vec {
				if blank.Fan == nil {
					return r2.Vec{X: turn * r0, Y: along + (low+high)/2}
				}
				r := r0/sin - along
				sn, cs := math.Sincos((turn - math.Pi) * sin)
				return r2.Add(blank.Fan.Apex, r2.Vec{X: r * sn, Y: -r * cs})
			}
			offFlat := func(q r2.Vec) (turn, along float64) {
				if blank.Fan == nil {
					return q.X / r0, q.Y - (low+high)/2
				}
				rel := r2.Sub(q, blank.Fan.Apex)
				return math.Pi + math.Atan2(rel.X, -rel.Y)/sin, r0/sin - r2.Norm(rel)
			}
			list = append(list, plaque{
				name: fmt.Sprintf("%s (%d)", blank.Name, ring), outline: blank.Outline, holes: blank.Holes,
				space: func(q r2.Vec, out float64) r3.Vec {
					turn, along := offFlat(q)
					return at(sign*(seam+turn), r0+out*cos-along*sin, sign*(z0+out*sin+along*cos))
				},
				flat: func(x r3.Vec) (r2.Vec, float64) {
					east, north, z := local(x)
					level := math.Hypot(east, north)
					z *= sign
					turn := math.Mod(sign*math.Atan2(north, east)-seam+6*math.Pi, 2*math.Pi)
					return toFlat(turn, (z-z0)*cos-(level-r0)*sin), (level-r0)*cos + (z-z0)*sin
				},
				open: func(q r2.Vec) bool {
					turn, along := offFlat(q)
					if r := r0 - along*sin; turn*r < 1e-3 || (2*math.Pi-turn)*r < b.Gap*1.1+1e-3 {
						return true // the seam itself
					}
					return onVent(blank.Holes, q)
				},
			})
		}
	}
	return list
}

// eggLeans returns the latitudes of the lines square to the rings of an egg and its discs, from
// the lower up.
func eggLeans(p *design.Part) (list []float64) {
	b, m := p.Ball, meridianOf(p)
	for k := range b.Zones + 2 {
		r, z := m.normal(math.Pi * (float64(k)/float64(b.Zones+1) - 0.5))
		list = append(list, math.Atan2(z, r))
	}
	return list
}

// eggGroovesOf is groovesOf of an egg.
func eggGroovesOf(p *design.Part) (list []groove) {
	b, t, m := p.Ball, p.Metal.Thickness, meridianOf(p)
	local := func(x r3.Vec) (lon, level, z float64) {
		x = r3.Sub(x, b.Center)
		east, north := r3.Dot(x, b.Prime), r3.Dot(x, r3.Cross(b.Pole, b.Prime))
		return math.Atan2(north, east), math.Hypot(east, north), r3.Dot(x, b.Pole)
	}
	share := 2.0
	if b.EdgeMid {
		share = 1
	}
	// cone is the surface square to the sheet at a place, which seen from the pole is level.
	cone := func(r, z, latitude, wide float64) {
		list = append(list, groove{wide, func(x r3.Vec) float64 {
			_, level, up := local(x)
			return math.Abs((up-z)*math.Cos(latitude) - (level-r)*math.Sin(latitude))
		}})
	}
	switch b.Build {
	case design.Halves:
		cone(m.a, 0, 0, b.Gap)
		return list
	case design.Zones:
		leans := eggLeans(p)
		for k := range b.Zones + 1 {
			drawn := math.Pi * ((float64(k)+0.5)/float64(b.Zones+1) - 0.5)
			wide := 1 / math.Cos(math.Pi/2/float64(b.Zones+1))
			cone(wide*m.a*math.Cos(drawn), wide*m.c*math.Sin(drawn), (leans[k]+leans[k+1])/2, b.Gap+share*t*math.Sin((leans[k+1]-leans[k])/2))
		}
		return append(list, groove{b.Gap, func(x r3.Vec) float64 { // of its own seam
			lon, level, z := local(x)
			ring := int(math.Round((math.Atan2(z/m.c, level/m.a)/math.Pi+0.5)*float64(b.Zones+1))) - 1
			return level * math.Abs(math.Remainder(lon-flat.RingTurns()[(ring+2)%2], 2*math.Pi))
		}})
	}
	lean, seam := 0.0, b.Gap
	if b.Build == design.RolledGores {
		lean = math.Pi / float64(b.Gores)
		seam += share * t * math.Sin(lean)
	}
	step := 2 * math.Pi / float64(b.Gores)
	list = append(list, groove{seam, func(x r3.Vec) float64 {
		lon, level, _ := local(x)
		return level * math.Abs(math.Sin(math.Remainder(lon-step/2, step)))
	}})
	for k, up := range design.Poles {
		across := b.CapAt(k)
		if across == 0 {
			continue
		}
		angle := m.edge(across / 2)
		r, z := m.point(angle, 0)
		nr, nz := m.normal(angle)
		wide := 0.0
		switch {
		case m.c-m.half-z <= t: // flat
			wide = t * nr
		case b.Straight && !b.EdgeMid:
			wide = t * nz * nr * math.Pow(math.Sin(lean), 2)
		}
		if b.Build == design.RolledGores { // gores end level
			list = append(list, groove{b.Gap + wide, func(x r3.Vec) float64 {
				_, _, at := local(x)
				return math.Abs(at - up*z)
			}})
		} else {
			cone(r, up*z, up*math.Atan2(nz, nr), b.Gap+wide)
		}
	}
	return list
}

// eggBuilt returns how an egg is built, at random.
func eggBuilt(rnd *rand.Rand, wide float64) string {
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	gap := []string{"", "", fmt.Sprintf(", gap %.2f", between(0.2, 1))}[rnd.IntN(3)]
	edge := []string{"", "", ", edge mid"}[rnd.IntN(3)]
	return []string{
		"halves" + gap,
		fmt.Sprintf("zones %d%s%s", 3+rnd.IntN(5), edge, gap),
		fmt.Sprintf("gores %d, bend domed%s", 5+rnd.IntN(9), gap),
		fmt.Sprintf("gores %d, bend domed, caps %.2f", 5+rnd.IntN(9), wide*between(0.15, 0.4)),
		fmt.Sprintf("gores %d, caps %.2f", 5+rnd.IntN(9), wide*between(0.15, 0.4)),
		fmt.Sprintf("gores %d%s%s", 4+rnd.IntN(12), edge, gap),
	}[rnd.IntN(6)]
}

// eggSculpture writes a design with eggs of every kind on posts, under them, on the base and
// seated on balls.
func eggSculpture(rnd *rand.Rand) string {
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	text := shop
	wide := between(120, 350)
	tall := wide * math.Exp(between(math.Log(0.52), math.Log(1.95)))
	least := min(wide, tall*tall/wide)
	pole := fmt.Sprintf("pole %.2f deg toward %.2f deg, ", between(0, 170)*float64(rnd.IntN(2)), between(0, 360))
	bores := []string{"", "vent 6, ", "vent 8 toward 70 deg, drain 6, "}[rnd.IntN(3)]
	text += fmt.Sprintf("post p on pad { at (0, 0), diameter %.3f, length 900, metal skin }\nball b on p { diameter %.3f, tall %.3f, %s%s%s, metal skin }\n",
		least*between(0.1, 0.3), wide, tall, pole, bores, eggBuilt(rnd, wide))
	text += fmt.Sprintf("post q on b { diameter %.3f, length %.2f, offset %.3f toward %.2f deg, lean %.2f deg toward %.2f deg, metal skin }\n",
		least*between(0.08, 0.2), between(80, 300), least*0.15*rnd.Float64(), between(0, 360), between(0, 20), between(0, 360))
	low, high := between(120, 300), between(80, 260)
	through := []string{"", "through, "}[rnd.IntN(2)]
	text += fmt.Sprintf("ball c on pad { at (-200, -90), diameter %.3f, tall %.3f, %s, metal skin }\n", low, low*between(0.55, 1.9), eggBuilt(rnd, low))
	next := []string{"", fmt.Sprintf("tall %.3f, ", high*between(0.55, 1.9))}[rnd.IntN(2)]
	text += fmt.Sprintf("ball d on c { diameter %.3f, %sseat %.3f, %s%s, metal skin }\n", high, next, between(0.2, 0.7)*min(low, high), through, eggBuilt(rnd, high))
	return text
}

// TestTogetherEggs puts random sculptures with eggs together.
func TestTogetherEggs(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 66))
	putAllTogether(t, *sculptures/3, 12, func() string { return eggSculpture(rnd) })
}

// TestEggMasses adds up, point by point of their flats, what the pieces of eggs weigh in their
// places, and where.
func TestEggMasses(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 67))
	checked := 0
	for checked < 40 {
		j := ifSound(eggSculpture(rnd))
		if j == nil {
			continue
		}
		for i := range j.Parts {
			p := &j.Parts[i]
			if p.Ball == nil || !p.Ball.IsEgg() {
				continue
			}
			checked++
			area, first := 0.0, r3.Vec{}
			for _, q := range eggPlaques(p) {
				if m := meridianOf(p.Part); q.trim > 0 { // half of the root gap is left at the equator
					q.trim = m.reach(m.to(m.long, p.Ball.Gap/2))
				}
				low, high := span2(q.outline)
				const steps = 200
				cell := r2.Vec{X: (high.X - low.X) / steps, Y: (high.Y - low.Y) / steps}
				for a := range steps {
					for b := range steps {
						at := r2.Vec{X: low.X + (float64(a)+0.5)*cell.X, Y: low.Y + (float64(b)+0.5)*cell.Y}
						if !odd(at, q.outline) || q.trim > 0 && r2.Norm(at) > q.trim || slices.ContainsFunc(q.holes, func(h flat.Hole) bool { return odd(at, h.Outline) }) {
							continue
						}
						area += cell.X * cell.Y
						first = r3.Add(first, r3.Scale(cell.X*cell.Y, r3.Sub(q.space(at, 0), p.Ball.Center)))
					}
				}
			}
			mass := area * p.Metal.Thickness * p.Metal.Density * 1e-9
			fills := 0.0
			for _, b := range p.Fills {
				fills += b.Area * p.Metal.Thickness * p.Metal.Density * 1e-9
			}
			if math.Abs(mass-fills-p.Mass) > 2e-3*mass {
				t.Errorf("%s weighs %v, want %v\n%s", p.Name, p.Mass, mass-fills, j.Design.Source.Text)
			}
			if off := r3.Norm(r3.Sub(p.CG, r3.Add(p.Ball.Center, r3.Scale(1/area, first)))); off > 0.3 {
				t.Errorf("%s: the centre of gravity is %v off\n%s", p.Name, off, j.Design.Source.Text)
			}
		}
	}
}

// span2 returns the corners of the box about a polygon.
func span2(polygon []r2.Vec) (low, high r2.Vec) {
	low, high = polygon[0], polygon[0]
	for _, q := range polygon {
		low = r2.Vec{X: min(low.X, q.X), Y: min(low.Y, q.Y)}
		high = r2.Vec{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
	}
	return low, high
}
