package eval

import "stabile/param/design"

// double takes the doubling disc of an end of a post on a ball, and checks that it reaches
// beyond the tube and lies on the ball.
func (b *body) double(post *design.Post, end int, ball *design.Part, what string) bool {
	g := b.find("doubler")
	if g == nil || ball.Ball == nil {
		return true
	}
	wide, tube := b.number("doubler"), post.Ends[end].Diameter
	switch build := ball.Ball.Build; {
	case ball.Ball.IsEgg():
		b.report(g.at, "leave it out, or make the ball round: leave its 'tall' out", "a doubling disc is dished to a ball, and %s is an egg, which bends otherwise at each place", what)
	case build != design.DomedGores && build != design.Halves:
		b.report(g.at, "make the ball of domed gores or of halves, or leave it out", "a doubling disc is dished to a round wall, and %s is not dished", what)
	case ball.Metal == nil:
		b.report(g.at, "leave it out", "%s is bought, and its sheet is not known", what)
	case wide <= tube:
		b.report(g.at, "make it more than "+b.up(tube), "a doubling disc of %s is no wider than the post on it, %s across", b.mm(wide), b.mm(tube))
	case wide > design.MostDoubled*2*ball.Ball.Radius:
		b.report(g.at, "make it "+b.down(design.MostDoubled*2*ball.Ball.Radius)+" or less", "a doubling disc of %s is too wide to be dished to %s, %s across", b.mm(wide), what, b.mm(2*ball.Ball.Radius))
	default:
		post.Ends[end].Doubler = wide
		return true
	}
	return false
}

// doubleBetween takes the doubling discs of a post between two parts: at each end that meets a
// ball.
func (b *body) doubleBetween(post *design.Post, h *hold) bool {
	g := b.find("doubler")
	if g == nil {
		return true
	}
	found := false
	for i, host := range h.to {
		if host.kind() != OnBall || h.head[i] {
			continue
		}
		found = true
		if !b.double(post, i, host.part, host.what) {
			return false
		}
	}
	if !found {
		b.report(g.at, g.Instead, "neither end of %s meets a ball", b.what)
	}
	return found
}
