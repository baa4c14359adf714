package eval

import (
	"slices"

	"stabile/param/design"
)

// join ties the parts to each other once all are known: what each end of a post
// meets, which heads are free, and the joints.
func (e *evaluator) join() {
	for _, p := range e.placed {
		for _, t := range p.ties {
			if p.part != nil && t.with.part != nil {
				e.design.Joints = append(e.design.Joints, t.join(p))
			}
		}
	}
	for _, p := range e.placed {
		if p.load == nil || p.part == nil || p.carries {
			continue
		}
		p.part.Post.Ends[design.Head].Disc = false
		if !p.headDisc.IsZero() {
			note(e.report(p.headDisc, "leave 'head' out", "the head of %s is not free: %s", p.what, p.load.on()), p.load.at, "that is declared here")
		}
	}
}

// on says how a part takes up the head that it is on.
func (p *placed) on() string {
	switch {
	case p.part != nil && p.part.Post != nil && p.part.Post.Ring != nil:
		return "a ring rests on it"
	case p.part != nil && p.part.Post != nil:
		return "a post goes on from it"
	}
	return "a ball rests on it"
}

// join returns the joint that a tie makes, and sets the ends that meet there.
func (t tie) join(p *placed) design.Joint {
	host := t.with.onto()
	j := design.Joint{Kind: t.kind, End: t.end, A: host, B: p.part, At: t.at}
	switch {
	case t.kind == design.ThreadJoint:
		j.Post = host
	case t.kind != design.EndJoint:
	case t.closes:
		j.End, j.Post = design.Foot, host
		host.Post.Ends[design.Foot].Contact = design.Contact{Meets: t.meets, With: p.part}
		p.part.Post.Ends[design.Head].Contact = design.Contact{Meets: t.meets, With: host}
	case p.part.Ball != nil || t.under:
		j.Post = host
		host.Post.Ends[design.Head].Contact = design.Contact{Meets: t.meets, With: p.part}
	default:
		j.Post = p.part
		p.part.Post.Ends[t.end].Contact = design.Contact{Meets: t.meets, With: host}
		if t.meets == design.OnHead && !t.with.carries {
			host.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnHead, With: p.part}
		}
	}
	return j
}

// checkTied checks that all parts hang together with the base. Only a ball that
// is placed outright can leave some that do not: all others are declared on what
// they stand on.
func (e *evaluator) checkTied() {
	if !slices.ContainsFunc(e.placed, func(p *placed) bool { return !p.outright.IsZero() }) {
		return
	}
	if slices.ContainsFunc(e.placed, func(p *placed) bool { return p.part == nil }) {
		return // it may have been the one that ties them
	}
	index := make(map[*design.Part]int, len(e.design.Parts))
	for i, p := range e.design.Parts {
		index[p] = i
	}
	ties := e.design.Ties()
	group := ties.Groups()
	done := map[int]bool{group.Root(ties.Ground): true}
	for _, p := range e.placed {
		if p.outright.IsZero() || done[group.Root(index[p.part])] {
			continue
		}
		done[group.Root(index[p.part])] = true
		wording := "no post reaches it"
		if len(ties.Of[index[p.part]]) > 0 {
			wording = "nothing joined to it leads to the base"
		}
		e.report(p.at, "run a post to it: post NAME from A to "+p.name+" { … }", "%s is tied to nothing: %s", p.what, wording)
	}
}
