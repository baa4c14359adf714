package fab

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/sample"
)

var wholes = flag.Int("masses", 25, "how many random sculptures to integrate")

var threadedBalls = flag.Int("threaded", 60, "how many random threaded balls to integrate")

// massRoom is the share by which a mass may differ from what is integrated in
// space: 0.05 per cent.
const massRoom = 5e-4

// balanceRoom is how far, in mm, a centre of gravity may be from one that is
// integrated in space.
const balanceRoom = 0.1

// fineCells is the number of cells along a meridian of a ball: what they are off by is
// less than half of massRoom.
const fineCells = 500

// weighWall integrates the wall of a post, course by course and bearing by bearing: what the inside,
// the outside or anything between must lose to what the ends meet, all of the
// wall loses.
func weighWall(p *Part) (mass float64, cg r3.Vec) {
	w := wallOf(p.Part)
	post := p.Post
	middle := w.mean + w.slant/2*w.sin
	gap := post.Gap / middle // of the whole turn
	const around = 240
	var moment r3.Vec
	area := 0.0
	clear := func(i int, bearing, height, layer float64) float64 {
		if e := post.Ends[i].Meets; post.Bought != nil && (e == design.OnPlate || e == design.OnHead) {
			return outsideBy(p.Part, i, w.at(bearing, height, layer))
		}
		return w.clearance(i, bearing, height)
	}
	// wall integrates a course between its round seams, infinite at the post's own ends.
	// What is bought is taken in layers, share by share of the wall: along a plane it is
	// sawn through, layer by layer, and elsewhere cut square like sheet.
	layers := []float64{0}
	if post.Bought != nil {
		layers = []float64{-0.4, -0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3, 0.4}
		for k := range layers {
			layers[k] *= p.Metal.Thickness / 0.9
		}
	}
	wall := func(n int, seam, low, up, layer float64) {
		bearing := seam + (2*math.Pi-gap)*(float64(n)+0.5)/around
		limit := [2]float64{low + post.Gap/2, min(w.slant, up-post.Gap/2)}
		if math.IsInf(low, 0) {
			limit[0] = 0
		}
		for i, e := range post.Ends {
			if e.Meets == design.Free || e.Meets == design.OnHead && post.Ends[i].Diameter > headOf(p.Part, i) || !math.IsInf([2]float64{low, up}[i], 0) {
				continue
			}
			// Down from the middle by no more than what is clear, then halve.
			way := float64(2*i - 1)
			in, out := w.slant/2, w.slant/2
			for {
				c := clear(i, bearing, out, layer)
				if c < 0 || math.Abs(out) > 10*w.slant {
					break
				}
				in = out
				out += way * max(c, 0.01)
			}
			for range 20 {
				if m := (in + out) / 2; clear(i, bearing, m, layer) >= 0 {
					in = m
				} else {
					out = m
				}
			}
			limit[i] = in
		}
		lo, hi := limit[0], limit[1]
		rows := 50
		if post.Ends[design.Head].Diameter == 0 {
			rows = 200 // its rows differ most
		}
		for k := range rows {
			height := lo + (hi-lo)*(float64(k)+0.5)/float64(rows)
			radius := w.mean + height*w.sin
			turn := 2*math.Pi - post.Gap/radius // the gap is as wide all along
			cell := (radius + layer) * (hi - lo) / float64(rows) * turn / around / float64(len(layers))
			area += cell
			moment = r3.Add(moment, r3.Scale(cell, w.at(seam+turn*(float64(n)+0.5)/around, height, layer)))
		}
	}
	done := map[int]bool{}
	for _, r := range coursesOf(p) {
		if done[r.course] {
			continue // another piece of it
		}
		done[r.course] = true
		for n := range around {
			for _, out := range layers {
				wall(n, r.seam, r.low, r.up, out)
			}
		}
	}
	for i := range p.Openings {
		o := &p.Openings[i]
		if o.Hole.Disc {
			continue
		}
		// A fine net about the hole, layer by layer of what is bought.
		const net = 300
		reach := (o.Hole.Width + o.Hole.Height) / 2
		zero, right := post.Bearings()
		bearing := math.Atan2(r3.Dot(o.Way, right), r3.Dot(o.Way, zero))
		level := (r3.Dot(r3.Sub(o.Hole.At, post.Ends[design.Foot].At), post.Direction) - w.start) / w.cos
		for _, layer := range layers {
			turn := math.Pi / 2
			if s := 1.1 * reach / (w.mean + level*w.sin); s < 1 {
				turn = math.Asin(s)
			}
			for a := range net {
				at := bearing + turn*(2*(float64(a)+0.5)/net-1)
				for b := range net {
					height := level + reach*(2*(float64(b)+0.5)/net-1)
					x := w.at(at, height, layer)
					cell := (w.mean + layer + height*w.sin) * 2 * turn / net * 2 * reach / net / float64(len(layers))
					share := max(0, min(1, 0.5-beside(p.Part, o.Hole, o.Far, x)/math.Sqrt(4*turn*w.mean/net*reach/net)))
					area -= share * cell
					moment = r3.Sub(moment, r3.Scale(share*cell, x))
				}
			}
		}
	}
	return area * p.Metal.Thickness * p.Metal.Density * 1e-9, r3.Scale(1/area, moment)
}

// weighShell integrates the shell of a ball in the middle of its sheet, cell by
// cell, less those of which any of the thickness lies in the post that it is
// threaded on, and its vent. Cells is the number of them along a meridian.
func weighShell(p *design.Part, sits []sitting, cells int) (mass float64, cg r3.Vec) {
	b := p.Ball
	if b.Build == design.Bought && len(p.Holes) == 0 {
		return b.BoughtMass, b.Center
	}
	mean, thick := b.Radius-p.Metal.Thickness/2, p.Metal.Thickness
	third := r3.Cross(b.Pole, b.Prime)
	// clear returns the share of a cell that is clear of the post: where its edge
	// runs through the cell, as much as its middle lies off it.
	clear := func(x, normal r3.Vec, cell float64) float64 {
		room := math.Inf(1)
		for _, s := range sits {
			for k := range 7 {
				if k == 6 || !s.through {
					room = min(room, outsideBall(s.in, r3.Add(x, r3.Scale(thick*(float64(k)/6-0.5), normal))))
				}
			}
		}
		for _, h := range p.Holes {
			room = min(room, beside(p, h, false, x))
			if h.Through {
				room = min(room, beside(p, h, true, x))
			}
		}
		if b.Around == nil {
			return max(0, min(1, 0.5+room/math.Sqrt(cell)))
		}
		q := b.Around.Post
		slope := (q.Ends[design.Head].Diameter - q.Ends[design.Foot].Diameter) / 2 / q.Length
		for k := range 7 {
			rel := r3.Sub(r3.Add(x, r3.Scale(thick*(float64(k)/6-0.5), normal)), q.Ends[design.Foot].At)
			s := r3.Dot(rel, q.Direction)
			room = min(room, r3.Norm(r3.Sub(rel, r3.Scale(s, q.Direction)))-q.Ends[design.Foot].Diameter/2-slope*s)
		}
		return max(0, min(1, 0.5+room/math.Sqrt(cell)))
	}
	at := func(longitude, across, along float64) r3.Vec {
		sin, cos := math.Sincos(longitude)
		return r3.Add(b.Center, r3.Add(r3.Scale(across*cos, b.Prime), r3.Add(r3.Scale(across*sin, third), r3.Scale(along, b.Pole))))
	}
	area, first := 0.0, r3.Vec{}
	add := func(cell float64, x r3.Vec) {
		area += cell
		first = r3.Add(first, r3.Scale(cell, r3.Sub(x, b.Center)))
	}
	open := 0.0 // mm, of each turn, that seams are open
	// turned integrates a surface of revolution, or its share of each turn.
	turned := func(from, to float64, point func(v float64) (across, along float64), normal func(v float64) (across, along float64)) {
		turns := cells / 2
		for i := range cells {
			v0, v1 := from+(to-from)*float64(i)/float64(cells), from+(to-from)*float64(i+1)/float64(cells)
			a0, z0 := point(v0)
			a1, z1 := point(v1)
			ring := (math.Pi*(a0+a1) - open) * math.Hypot(a1-a0, z1-z0)
			if b.Around == nil && sits == nil && p.Holes == nil {
				add(ring, at(0, 0, (z0+z1)/2))
				continue
			}
			na, nz := normal((v0 + v1) / 2)
			for k := range turns {
				longitude := 2 * math.Pi * (float64(k) + 0.5) / float64(turns)
				n := r3.Sub(at(longitude, na, nz), b.Center)
				x := at(longitude, (a0+a1)/2, (z0+z1)/2)
				add(ring/float64(turns)*clear(x, n, ring/float64(turns)), x)
			}
		}
	}
	sphere := func(v float64) (float64, float64) { return mean * math.Cos(v), mean * math.Sin(v) }
	outward := func(v float64) (float64, float64) { return math.Cos(v), math.Sin(v) }
	flatAt := func(up, height, radius float64) {
		turned(0, radius, func(v float64) (float64, float64) { return v, up * height }, func(float64) (float64, float64) { return 0, up })
	}
	// Square edges meet by their inner corners.
	meet := mean
	if !b.EdgeMid {
		meet -= thick / 2
	}
	rows, across := cells, cells/8
	if b.Around == nil && sits == nil && p.Holes == nil {
		across = 2 // nothing is cut out: straight across, cells are alike
	}
	// lobes integrates the stretch between two latitudes of what is straight across, lobe by lobe.
	lobes := func(from, to, half, gap float64) {
		for i := range rows {
			v := from + (to-from)*(float64(i)+0.5)/float64(rows)
			sin, cos := math.Sincos(v)
			w := half*cos - gap/2
			cell := mean * (to - from) / float64(rows) * 2 * w / float64(across)
			for g := range b.Gores {
				middle := 2 * math.Pi * float64(g) / float64(b.Gores)
				n := r3.Sub(at(middle, cos, sin), b.Center)
				for k := range across {
					x := w * (2*(float64(k)+0.5)/float64(across) - 1)
					q := at(middle+math.Atan2(x, mean*cos), math.Hypot(x, mean*cos), mean*sin)
					add(cell*clear(q, n, cell), q)
				}
			}
		}
	}
	// sided integrates a flat cap with straight sides.
	sided := func(up, height, radius float64) {
		for i := range rows {
			u := radius * (float64(i) + 0.5) / float64(rows)
			w := u * math.Tan(math.Pi/float64(b.Gores))
			cell := radius / float64(rows) * 2 * w / float64(across)
			for g := range b.Gores {
				for k := range across {
					x := w * (2*(float64(k)+0.5)/float64(across) - 1)
					q := at(2*math.Pi*float64(g)/float64(b.Gores)+math.Atan2(x, u), math.Hypot(x, u), up*height)
					add(cell*clear(q, r3.Scale(up, b.Pole), cell), q)
				}
			}
		}
	}
	ends := [2]float64{math.Pi / 2, math.Pi / 2} // below and above
	if b.Bowl {
		ends[1] = b.Rim
	}
	switch b.Build {
	case design.Zones:
		step := math.Pi / float64(b.Zones+1)
		for k := range b.Zones {
			sin, cos := math.Sincos(float64(k+1)*step - math.Pi/2)
			reach := meet*math.Tan(step/2) - b.Gap/2
			turned(-reach, reach, func(v float64) (float64, float64) { return mean*cos - v*sin, mean*sin + v*cos },
				func(float64) (float64, float64) { return cos, sin })
			// The gap of its own seam, before that in the sense in which it is rolled.
			seam, sense := flat.RingTurns()[k%2], 1.0
			if sin < -1e-9 {
				sense = -1
			}
			const steps = 16
			for i := range steps {
				v := reach * (2*(float64(i)+0.5)/steps - 1)
				add(-b.Gap*2*reach/steps, at(seam-sense*b.Gap/2/(mean*cos), mean*cos-v*sin, mean*sin+v*cos))
			}
		}
		flatAt(1, mean, meet*math.Tan(step/2)-b.Gap/2)
		flatAt(-1, mean, meet*math.Tan(step/2)-b.Gap/2)
	case design.RolledGores, design.DomedGores:
		half := meet * math.Tan(math.Pi/float64(b.Gores))
		if b.Build == design.DomedGores {
			half = mean * math.Pi / float64(b.Gores)
		}
		for k, up := range design.Poles {
			if b.Bowl && k == design.UpperPole {
				break // its rim
			}
			if b.Caps == 0 {
				ends[k] = math.Acos(1.5 / half)
				continue
			}
			across := b.CapAt(k)
			end := math.Acos(across / 2 / mean)
			ends[k] = end
			height := mean * math.Sin(end)
			edge := across/2 - b.Gap // of a flat cap
			if !b.EdgeMid {
				edge -= thick / 2 * math.Cos(end)
			}
			turn := math.Pi / float64(b.Gores)
			// zone goes between two latitudes, or the same below.
			zone := func(do func(from, to float64), from, to float64) { do(min(up*from, up*to), max(up*from, up*to)) }
			switch {
			case b.Straight && mean-height <= thick:
				sided(up, height, edge)
			case b.Straight:
				chord := 2*mean*math.Sin((math.Pi/2-end)/2) - b.Gap
				if !b.EdgeMid {
					chord -= thick * math.Pow(math.Sin(turn), 2) * math.Sin(end) * math.Cos(end)
				}
				zone(func(from, to float64) { lobes(from, to, mean*math.Tan(turn), 0) }, math.Pi/2-2*math.Asin(chord/2/mean), math.Pi/2)
			case mean-height <= thick:
				flatAt(up, height, edge)
			default:
				zone(func(from, to float64) { turned(from, to, sphere, outward) }, math.Pi/2-2*math.Asin(math.Sin((math.Pi/2-end)/2)-b.Gap/2/mean), math.Pi/2)
			}
		}
		if b.Build == design.DomedGores {
			open = float64(b.Gores) * b.Gap
			turned(-ends[0], ends[1], sphere, outward)
			break
		}
		lobes(-ends[0], ends[1], half, b.Gap/math.Cos(math.Pi/float64(b.Gores)))
	default:
		if b.Bowl { // dished
			turned(-ends[0], ends[1], sphere, outward)
			break
		}
		for _, up := range [2]float64{-1, 1} {
			from, to := up*b.Gap/2/mean, up*math.Pi/2
			turned(min(from, to), max(from, to), sphere, outward)
		}
	}
	if b.RimFlat {
		// What the plane of the rim takes off the square end of the sheet.
		round := 2 * math.Pi * mean * math.Cos(b.Rim)
		if b.Build == design.RolledGores {
			round = 2 * float64(b.Gores) * meet * math.Tan(math.Pi/float64(b.Gores)) * math.Cos(b.Rim)
		}
		off := round * thick / 2 * math.Tan(-b.Rim)
		add(-off, r3.Add(b.Center, r3.Scale(b.Radius*math.Sin(b.Rim)+thick/3*math.Sin(-b.Rim), b.Pole)))
	}
	cg = r3.Add(b.Center, r3.Scale(1/area, first))
	if b.Build == design.Bought {
		return b.BoughtMass * area / (4 * math.Pi * mean * mean), cg
	}
	return (area - math.Pi/4*(b.Vent*b.Vent+b.Drain*b.Drain)) * thick * p.Metal.Density * 1e-9, cg
}

// A sitting is a ball that sits in another, which is cut open there; through reports that
// it is by the outer edge of the sheet alone.
type sitting struct {
	in      *design.Part
	through bool
}

// sitsIn returns the balls for which one is cut open.
func sitsIn(d *design.Design, p *design.Part) (list []sitting) {
	for _, q := range d.Parts {
		if q.Ball == nil || q.Ball.On == nil || q.Ball.On.Ball == nil {
			continue
		}
		lower := q.Ball.On
		smaller := q
		if lower.Ball.Radius < q.Ball.Radius || q.Ball.Build == design.Bought {
			smaller = lower
		}
		switch through := q.Ball.Through; {
		case p.Ball.Build == design.Bought:
		case p == q && (through || smaller == q):
			list = append(list, sitting{lower, through})
		case p == lower && (through || smaller == lower):
			list = append(list, sitting{q, through})
		}
	}
	return list
}

// leftToDrill returns the mass, in kg, of the vents and drains of a part for which there is
// no room, and which are left to the maker.
func leftToDrill(j *Job, p *Part) (mass float64) {
	for _, f := range j.Findings {
		if no, ok := f.Fact.(flat.NoVent); ok && slices.Contains(f.Parts, p.Name) {
			mass += math.Pi / 4 * no.Vent * no.Vent * p.Metal.Thickness * p.Metal.Density * 1e-9
		}
	}
	return mass
}

// checkMasses integrates every post and ball of a job, balls in a number of cells along
// a meridian.
func checkMasses(t *testing.T, j *Job, cells int) (most float64) {
	t.Helper()
	total, said := 0.0, 0.0
	for i := range j.Parts {
		p := &j.Parts[i]
		var mass float64
		switch {
		case p.Post != nil:
			var cg r3.Vec
			mass, cg = weighWall(p)
			tube, drilled := 0.0, 0.0 // kg
			for _, size := range [2]float64{p.Post.Vent, p.Post.Drain} {
				drilled += math.Pi / 4 * size * size * p.Metal.Thickness * p.Metal.Density * 1e-9
			}
			mass -= drilled - leftToDrill(j, p)
			for _, b := range p.Blanks {
				if b.Shape == flat.Disc { // of a free head
					mass += b.Area * b.Metal.Thickness * b.Metal.Density * 1e-9
				} else {
					tube += b.Mass
				}
			}
			if off := r3.Norm(r3.Sub(p.CG, cg)); tube == p.Mass && p.Post.Vent+p.Post.Drain == 0 && off > 0.02 {
				t.Errorf("%s: its centre of gravity is %.3f mm from that of its wall", p.Name, off)
			}
		case p.Ball != nil:
			var cg r3.Vec
			mass, cg = weighShell(p.Part, sitsIn(j.Design, p.Part), cells)
			// What has much cut out of it asks for smaller cells.
			if left := leftToDrill(j, p); math.Abs(p.Mass/(mass+left)-1) > massRoom || r3.Norm(r3.Sub(p.CG, cg)) > balanceRoom {
				mass, cg = weighShell(p.Part, sitsIn(j.Design, p.Part), 3*cells)
			}
			mass += leftToDrill(j, p)
			for _, b := range p.Fills { // filled with weld, which is no part's
				mass -= enclosed(b.Outline) * p.Metal.Thickness * p.Metal.Density * 1e-9
			}
			if off := r3.Norm(r3.Sub(p.CG, cg)); p.Ball.Vent == 0 && p.Ball.Drain == 0 && off > balanceRoom {
				t.Errorf("%s: its centre of gravity is %.3f mm from that of its shell", p.Name, off)
			}
		case p.Base != nil:
			mass = p.Base.Width * p.Base.Depth
			if p.Base.Shape == design.Disc {
				mass *= math.Pi / 4
			}
			for _, h := range p.Holes {
				mass -= h.Area()
			}
			mass -= float64(p.Base.Anchors) * math.Pi / 4 * p.Base.AnchorDiameter * p.Base.AnchorDiameter
			mass *= p.Metal.Thickness * p.Metal.Density * 1e-9
		}
		off := math.Abs(p.Mass/mass - 1)
		most = max(most, off)
		if off > massRoom {
			t.Errorf("%s weighs %.6f kg, integrated %.6f kg: %.3f %% off", p.Name, p.Mass, mass, 100*off)
		}
		total += mass
		said += p.Mass
	}
	if off := math.Abs(said/total - 1); off > massRoom || math.Abs(said-(j.Mass.Total-j.Mass.Weld)) > 1e-9*said {
		t.Errorf("the parts weigh %.6f kg, said %.6f kg without welds, integrated %.6f kg", said, j.Mass.Total-j.Mass.Weld, total)
	}
	return most
}

// TestMassOfExamples integrates the examples, TestMassOfEveryKind a design with
// every kind of part and joint.
func TestMassOfExamples(t *testing.T) {
	most := 0.0
	eachExample(t, func(t *testing.T, j *Job) { most = max(most, checkMasses(t, j, fineCells)) })
	t.Logf("at most %.4f %% off", 100*most)
}

func TestMassOfEveryKind(t *testing.T) {
	j := buildWith(t, company, Everything)
	t.Logf("at most %.4f %% off", 100*checkMasses(t, j, fineCells))
}

// TestMassOfThreaded integrates balls of every build, opened for a post that runs
// through them at a slant, with a vent.
func TestMassOfThreaded(t *testing.T) {
	most := 0.0
	for _, made := range []string{"gores 8", "gores 12, caps 60", "gores 10, bend domed", "gores 9, bend domed, caps 30", "zones 7", "halves"} {
		j := build(t, shop+`
post a on pad { at (0, 0), diameter 50, length 400, lean 12 deg toward 40 deg, metal skin }
ball b around a { height 200, diameter 180, `+made+`, vent 9, metal skin }`)
		most = max(most, checkMasses(t, j, fineCells))
	}
	t.Logf("at most %.4f %% off", 100*most)
}

// TestMassOfRandomThreaded integrates random balls of every build, threaded on
// tubes and tapers that run through them any way: along the pole, across the
// equator seam of halves, over the seams of rings.
func TestMassOfRandomThreaded(t *testing.T) {
	rnd := rand.New(rand.NewPCG(15, 500))
	count := *threadedBalls
	most, built := 0.0, 0
	for n := 0; built < count && n < 4*count; n++ {
		around := 120 + 400*rnd.Float64()
		through := around * (0.12 + 0.4*rnd.Float64())
		to := ""
		if n%3 == 0 {
			to = fmt.Sprintf(" to %.3f", through*(0.7+0.5*rnd.Float64()))
		}
		made := []string{
			fmt.Sprintf("gores %d", 4+rnd.IntN(14)),
			fmt.Sprintf("gores %d, caps %.3f%s %s", 4+rnd.IntN(14), around*(0.1+0.4*rnd.Float64()),
				[]string{"", fmt.Sprintf(", %.3f", around*(0.05+0.5*rnd.Float64()))}[rnd.IntN(2)], []string{"polygon", "round", "round, edge mid"}[rnd.IntN(3)]),
			fmt.Sprintf("gores %d, bend domed", 4+rnd.IntN(14)),
			fmt.Sprintf("zones %d", 1+rnd.IntN(9)),
			"halves",
		}[n%5]
		j := ifSound(shop + fmt.Sprintf(`
post a on pad { at (0, 0), diameter %.3f%s, length 1500, metal skin }
ball b around a { height 800, diameter %.3f, %s, pole %.3f deg toward %.3f deg, metal skin }`,
			through, to, around, made, 180*rnd.Float64(), 360*rnd.Float64()))
		if j == nil {
			continue
		}
		built++
		most = max(most, checkMasses(t, j, 400))
		if t.Failed() {
			t.Fatalf("%d: a post of %.3f%s through a ball of %.3f, %s", n, through, to, around, made)
		}
	}
	t.Logf("%d balls, at most %.4f %% off", built, 100*most)
	if built < count {
		t.Errorf("%d balls built, want %d", built, count)
	}
}

// TestMassOfRandom integrates random sculptures whole: every other with frames, pipe and
// balls that are bought, and every other with tapers, courses, branches, ties, threaded
// balls, and balls in balls.
func TestMassOfRandom(t *testing.T) {
	rnd, more := rand.New(rand.NewPCG(51, 52)), rand.New(rand.NewPCG(51, 53))
	most, built := 0.0, 0
	for n := 0; built < *wholes && n < 20**wholes; n++ {
		text := sample.Text(rnd)
		if n%2 == 1 {
			text = anyWhole(rnd, more)
		}
		j := ifSound(text)
		if j == nil {
			continue
		}
		built++
		most = max(most, checkMasses(t, j, fineCells))
		if t.Failed() {
			t.Fatalf("%d:\n%s", n, text)
		}
	}
	t.Logf("%d sculptures, at most %.4f %% off in any part", built, 100*most)
	if built < *wholes {
		t.Errorf("%d sculptures built, want %d", built, *wholes)
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
	j := build(t, shop+"ball b on pad { diameter 300, gores 7, edge mid, metal skin }")
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
	// The discs at the poles stay flat.
	if want := area * 1.5 * 7850e-9; math.Abs(p.Mass-want) > 1e-3*want {
		t.Errorf("the ball weighs %v kg, by triangles %v", p.Mass, want)
	}
}

// enclosed returns the area of a polygon.
func enclosed(polygon []r2.Vec) (area float64) {
	for i, a := range polygon {
		area += r2.Cross(a, polygon[(i+1)%len(polygon)]) / 2
	}
	return math.Abs(area)
}
