package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// doubler adds the disc on which an end of the post meets a ball: of the ball's sheet, dished
// to the outside of the ball, of as much area as it has then.
func (d *developer) doubler(end int) {
	p := d.part.Post
	e := &p.Ends[end]
	outer, ok := e.Doubled()
	if !ok {
		return
	}
	ball := e.With
	mean := outer - ball.Metal.Thickness/2
	half := math.Asin(min(1, e.Doubler/2/mean)) // of the angle that it takes up
	rise := mean * (1 - math.Cos(half))
	b := disc(d.part.Name+" doubler", 4*mean*math.Sin(half/2), 0)
	if end == design.Head && p.Ends[design.Foot].Doubler > 0 {
		b.Name = d.part.Name + " head doubler"
	}
	b.Forming = Forming{How: "dish", MeanRadius: mean, Depth: rise}
	b.Notes = []finding.Fact{DishCap{e.Doubler, rise}, Doubles{ball.Name, endName(end)}}
	mass, cg := d.Mass, d.CG
	d.addOf(ball.Metal, b)
	_, out, _ := p.DoublerEdge(end)
	// The middle of a dished cap lies half of its rise below its top.
	at := r3.Add(ball.Ball.Center, r3.Scale(mean-rise/2, out))
	d.CG = balanced(mass, cg, d.Mass-mass, at)
	d.sew(Seam{Kind: DoublerEdge, Count: 1, Length: math.Pi * e.Doubler})
}
