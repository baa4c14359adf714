package picture

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// mesh is the number of pixels between the places of a tile at which the
// openness of the sky over the ground is worked out.
const mesh = 4

// uneven is the greatest difference in openness, over the corners of a mesh,
// that is taken to be even between them: less than an eye tells on the ground.
const uneven = 0.02

// A cell is what a square of the mesh has at its corners.
type cell struct {
	i, j       int
	what       int32
	a, b, c, d float64
	even       bool
}

// A grid is the openness of the sky over the ground on a square mesh of places
// of a tile, worked out where it is wanted. The light from all round hardly
// changes from one pixel to the next, but for the corners under the piece. The
// base plate is left out: it is low, and darkens a line along its edge alone.
type grid struct {
	x0, y0 int
	cell   cell // the last that was asked for
	known  [(tile/mesh + 1) * (tile/mesh + 1)]bool
	what   [(tile/mesh + 1) * (tile/mesh + 1)]int32
	open   [(tile/mesh + 1) * (tile/mesh + 1)]float64 // where that is ground
}

func (g *grid) clear(x0, y0 int) {
	g.x0, g.y0 = x0, y0
	g.known, g.cell.i = [len(g.known)]bool{}, -1
}

// at returns the openness at a place of the picture, which shows the ground, or
// the top of a table or plinth.
func (g *grid) at(w *worker, x, y float64, seen *scenery) float64 {
	fx, fy := (x-float64(g.x0)+0.5)/mesh, (y-float64(g.y0)+0.5)/mesh
	i, j := min(max(int(fx), 0), tile/mesh-1), min(max(int(fy), 0), tile/mesh-1)
	c := &g.cell
	if c.i != i || c.j != j {
		*c = cell{i: i, j: j, even: true}
		var ground [4]int32
		ground[0], c.a = g.corner(w, i, j)
		ground[1], c.b = g.corner(w, i+1, j)
		ground[2], c.c = g.corner(w, i, j+1)
		ground[3], c.d = g.corner(w, i+1, j+1)
		c.what = ground[0]
		for _, what := range ground {
			c.even = c.even && what == c.what
		}
		c.even = c.even && max(c.a, c.b, c.c, c.d)-min(c.a, c.b, c.c, c.d) <= uneven
	}
	if !c.even || c.what != seen.what {
		return w.world.Sky(seen.p, r3.Vec{Z: 1}, w.base)
	}
	fx, fy = fx-float64(i), fy-float64(j)
	return lerp(lerp(c.a, c.b, fx), lerp(c.c, c.d, fx), fy)
}

// corner returns what is seen at a corner of the mesh, and its openness.
func (g *grid) corner(w *worker, i, j int) (what int32, open float64) {
	k := j*(tile/mesh+1) + i
	if !g.known[k] {
		r := w.win.ray(float64(g.x0+i*mesh)-0.5, float64(g.y0+j*mesh)-0.5)
		var at scenery
		w.stage.meet(&r, &at)
		g.known[k], g.what[k] = true, at.what
		if at.what == theGround || at.what == theTop {
			g.open[k] = w.world.Sky(at.p, r3.Vec{Z: 1}, w.base)
		}
	}
	return g.what[k], g.open[k]
}
