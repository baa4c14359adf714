package eval

import (
	"strings"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/stock"
	"stabile/param/syntax"
)

// The lengths in which pipe and tube are bought where a post does not say, in mm: 20 ft
// and 6 m. Common practice, no source.
const (
	stockInches = 20 * 304.8
	stockMetric = 6000
)

// nominal takes a nominal size: a plain number, or one such as 1-1/2, which is a length
// anywhere else. Inches may be written after it.
func (b *body) nominal(p *Property, want *Argument, x syntax.Expression, s *scope) value {
	if lit, ok := x.(*syntax.Literal); ok && len(lit.Terms) == 1 && lit.Terms[0].Unit.Text == "" {
		return plain(lit.Terms[0].Number)
	}
	v := b.eval(x, s)
	switch {
	case v.kind == failed:
		return v
	case v.is(quantity.Length):
		return plain(v.q.Number / 25.4)
	case v.is(quantity.Number):
		return v
	}
	b.report(x.Span(), b.hint(p, want), "'%s' needs %s, and this is %s", p.Word, want.noun(), v)
	return value{}
}

// pipe returns the pipe that a post is of; zero for none. It reports one that there is
// not, whatever else is wrong with the post.
func (b *body) pipe() (p stock.Pipe, ok bool) {
	g := b.find("bought pipe")
	if g == nil {
		return p, true
	}
	size, schedule := g.args[0], g.args[1]
	if size.value.kind == failed || schedule.value.kind == failed {
		return p, false
	}
	if p, ok = stock.PipeOf(size.value.q.Number, schedule.value.text); !ok {
		b.noPipe(size, schedule)
	}
	return p, ok
}

// buy settles what a post is cut from that is not rolled. It reports false where that
// cannot be.
func (b *body) buy(p *design.Part, size stock.Pipe) bool {
	pipe, tube := b.find("bought pipe"), b.find("bought tube")
	if pipe == nil && tube == nil {
		return true
	}
	post := p.Post
	sound := true
	leave := func(word, why string) {
		if g := b.find(word); g != nil {
			b.report(g.word, "leave '"+word+"' out", "%s", why)
			sound = false
		}
	}
	if pipe != nil && tube != nil {
		note(b.report(tube.word, "keep one of the two", "%s is of one or the other", b.what), pipe.word, "first given here")
		return false
	}
	bought := &design.BoughtTube{Sheet: p.Metal, Length: b.number("stock"), Price: b.number("price")}
	wall := *p.Metal
	wall.Gauge, wall.Ounces, wall.GaugeTable = 0, 0, ""
	wall.Price, wall.LengthPrice, wall.SheetPrice = 0, 0, 0
	if pipe != nil {
		leave("diameter", "the diameter of a pipe follows from its size")
		bought.Pipe, wall.Thickness = size, size.Wall
		for i := range post.Ends {
			post.Ends[i].Diameter = size.Outside
		}
	} else {
		wall.Thickness = b.number("wall")
		if g := b.find("diameter"); g.args[1].isGiven() {
			b.report(g.args[1].at, "leave it out, or roll the post from its metal", "a tube that is bought has one diameter, and no taper")
			return false
		}
	}
	leave("seam", b.what+" is bought, and has no seam of the shop's")
	leave("gap", b.what+" is bought, and has no seam of the shop's")
	leave("courses", b.what+" is bought, and is not rolled in courses")
	leave("stagger", b.what+" is bought, and is not rolled in courses")
	if bought.Length == 0 {
		if bought.Length = stockMetric; b.design.Units == quantity.Inch {
			bought.Length = stockInches
		}
	}
	wall.Name = bought.Pipe.String()
	if !bought.IsPipe() {
		u := b.design.Units
		wall.Name = "tube " + u.Exact(post.Ends[design.Foot].Diameter) + " by " + u.Exact(wall.Thickness)
	}
	wall.Tolerance = stock.PipeTolerance * wall.Thickness
	p.Metal, post.Bought = &wall, bought
	return sound
}

// noPipe reports a size of pipe that the standards have not, with those that they have.
func (b *body) noPipe(size, schedule argument) {
	n, word := size.value.q.Number, schedule.value.text
	walls := stock.PipeWalls(n)
	if len(walls) > 0 {
		var words []string
		for _, p := range walls {
			words = append(words, p.Schedule)
		}
		b.report(schedule.at, "NPS "+walls[0].NPS+" has "+list(words, "and"), "there is no NPS %s of schedule %s", walls[0].NPS, word)
		return
	}
	sizes := stock.PipeSizes(word)
	hint := "schedule " + word + " has " + list(sizes, "and")
	for _, p := range stock.Pipes() {
		if float64(p.DN) == n && p.Schedule == word {
			hint = "DN " + strings.TrimSpace(size.at.Text()) + " is bought pipe " + p.NPS + " schedule " + p.Schedule
		}
	}
	b.report(size.at, hint, "there is no pipe of nominal size %s", size.at.Text())
}
