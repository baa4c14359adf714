package picture

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/internal/sample"
	"stabile/render/picture/cast"
)

// parallel turns a scene to the line of sight of an elevation, with no
// perspective: a unit of the picture plane is a mm, and its origin that of
// space.
func parallel(s *Scene, proj draft.Projection, box r2.Box) {
	v := view{parallel: true, left: box.Min.X, rightmost: box.Max.X, bottom: box.Min.Y, top: box.Max.Y}
	const away = 1e5
	if proj == draft.Front {
		v.right, v.up, v.ahead = r3.Vec{X: 1}, r3.Vec{Z: 1}, r3.Vec{Y: 1}
	} else {
		v.right, v.up, v.ahead = r3.Vec{Y: 1}, r3.Vec{Z: 1}, r3.Vec{X: -1}
	}
	v.eye = r3.Scale(-away, v.ahead)
	s.view, s.figure = v, nil
}

// The silhouette in the picture is the outline in the elevation: every edge
// between the piece and what is behind it lies within a pixel of an outline
// drawn, and every outline drawn that is on the edge of the whole lies within a
// pixel of an edge in the picture.
func TestSilhouetteIsTheElevation(t *testing.T) {
	all := examples(t)
	all["stack"] = sample.Job(sample.Stack(quantity.Millimetre))
	for seed := range uint64(6) {
		j := sample.Job(sample.Random(seed, 12, quantity.Millimetre))
		all[j.Design.Title] = j
	}
	for name, j := range all {
		for _, proj := range []draft.Projection{draft.Front, draft.Side} {
			checkSilhouette(t, name+", "+proj.String(), j, proj)
		}
	}
}

const sideways, upright = 420, 560

func checkSilhouette(t *testing.T, name string, j *fab.Job, proj draft.Projection) {
	t.Helper()
	s := scene(t, j, Options{})
	low, high, _ := s.world.Box()
	a, b := proj.Flat(low), proj.Flat(high)
	parallel(s, proj, r2.Box{Min: a, Max: b})
	win := s.view.window(sideways, upright)
	piece := make([]bool, sideways*upright)
	for i, what := range ids(s, sideways, upright) {
		piece[i] = what >= 0
	}
	at := func(x, y int) bool {
		return x >= 0 && y >= 0 && x < sideways && y < upright && piece[y*sideways+x]
	}
	// A place of the drawing in pixels.
	pixel := func(q r2.Vec) r2.Vec { return r2.Vec{X: (q.X - win.x0) / win.pixel, Y: (win.y0 - q.Y) / win.pixel} }

	// What is drawn, at full size, as points half a pixel apart; marked on the
	// pixels that are within one of them.
	near := make([]bool, sideways*upright)
	mark := func(q r2.Vec) {
		// The middle of an edge between two pixels is half a pixel from each.
		const reach = 1.5
		for y := int(math.Floor(q.Y - reach)); float64(y) <= q.Y+reach; y++ {
			for x := int(math.Floor(q.X - reach)); float64(x) <= q.X+reach; x++ {
				if x >= 0 && y >= 0 && x < sideways && y < upright && math.Hypot(float64(x)-q.X, float64(y)-q.Y) <= reach {
					near[y*sideways+x] = true
				}
			}
		}
	}
	var drawn []r2.Vec
	for _, l := range draft.NewScene(j.Parts).Lines(draft.View{Projection: proj, Scale: 1}) {
		if l.Kind != ink.Outline || l.Hidden {
			continue
		}
		path := l.Path
		if l.Closed {
			path = append(path[:len(path):len(path)], path[0])
		}
		for i := 1; i < len(path); i++ {
			from, to := pixel(path[i-1]), pixel(path[i])
			n := int(2*r2.Norm(r2.Sub(to, from))) + 1
			for k := range n {
				q := r2.Add(from, r2.Scale((float64(k)+0.5)/float64(n), r2.Sub(to, from)))
				drawn = append(drawn, q)
				mark(q)
			}
		}
	}
	// The elevation goes straight across a dished cap, which stands out from
	// there on the ball's sphere.
	for i := range s.world.Solids {
		b := &s.world.Solids[i]
		if b.Dome >= b.Radius || b.Kind != cast.Lobed {
			continue
		}
		for k := range 2000 {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / 2000)
			if math.Abs(sin)*b.Radius < b.Dome || math.Abs(b.Axis.Z) < 1 {
				continue
			}
			mark(r2.Add(pixel(proj.Flat(b.Center)), r2.Vec{X: cos * b.Radius / win.pixel, Y: sin * b.Radius / win.pixel}))
		}
	}
	edges, stray := 0, 0
	for y := range upright {
		for x := range sideways {
			if !at(x, y) || at(x-1, y) && at(x+1, y) && at(x, y-1) && at(x, y+1) {
				continue
			}
			edges++
			if !near[y*sideways+x] {
				stray++
				if stray < 4 {
					t.Logf("%s: an edge at %d, %d is not drawn", name, x, y)
				}
			}
		}
	}
	missing, outer := 0, 0
	for _, q := range drawn {
		x, y := int(math.Round(q.X)), int(math.Round(q.Y))
		// On the edge of the whole, for a solid of the drawing is at one side alone.
		inside, outside := false, false
		for dy := -2; dy <= 2; dy++ {
			for dx := -2; dx <= 2; dx++ {
				if at(x+dx, y+dy) {
					inside = true
				} else {
					outside = true
				}
			}
		}
		if !inside {
			missing++ // drawn where the picture has nothing
			if missing < 4 {
				t.Logf("%s: drawn at %v, where nothing is seen", name, q)
			}
		}
		if inside && outside {
			outer++
		}
	}
	if stray > 0 || missing > 0 || edges < 200 || outer < 200 {
		t.Errorf("%s: %d of %d edges are not drawn, %d of %d places drawn are not seen (%d on the outside)", name, stray, edges, missing, len(drawn), outer)
	}
}

// The test sees a silhouette that is off: a ball that is larger by two pixels
// than the drawing has it.
func TestSilhouetteSees(t *testing.T) {
	j := sample.Job(sample.Stack(quantity.Millimetre))
	s := scene(t, j, Options{})
	low, high, _ := s.world.Box()
	parallel(s, draft.Front, r2.Box{Min: draft.Front.Flat(low), Max: draft.Front.Flat(high)})
	before := ids(s, sideways, upright)
	wide := *j
	wide.Parts = append([]fab.Part(nil), j.Parts...)
	for i := range wide.Parts {
		if p := wide.Parts[i].Part; p.Ball != nil {
			q, b := *p, *p.Ball
			b.Radius += 2 * s.view.window(sideways, upright).pixel
			q.Ball = &b
			wide.Parts[i] = fab.Part{Part: &q, Rims: wide.Parts[i].Rims}
			break
		}
	}
	u := scene(t, &wide, Options{})
	u.view, u.figure = s.view, nil
	changed := 0
	for i, what := range ids(u, sideways, upright) {
		if (what >= 0) != (before[i] >= 0) {
			changed++
		}
	}
	if changed < 100 {
		t.Errorf("a ball larger by two pixels changes only %d pixels of the silhouette", changed)
	}
}
