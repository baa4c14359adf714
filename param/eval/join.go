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
	if p.part != nil && p.part.Post != nil {
		return "a post goes on from it"
	}
	return "a ball rests on it"
}

// join returns the joint that a tie makes, and sets the ends that meet there.
func (t tie) join(p *placed) design.Joint {
	j := design.Joint{Kind: t.kind, End: t.end, A: t.with.part, B: p.part, At: t.at}
	switch host := t.with.part; {
	case t.kind == design.ThreadJoint:
		j.Post = host
	case t.kind != design.EndJoint:
	case p.part.Ball != nil:
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
	index := make(map[*design.Part]int, len(e.placed))
	for i, p := range e.placed {
		if p.part == nil {
			return // it may have been the one that ties them
		}
		index[p.part] = i
	}
	group := design.NewSets(len(e.placed))
	ties := make([]int, len(e.placed))
	for _, j := range e.design.Joints {
		a, b := index[j.A], index[j.B]
		group.Join(a, b)
		ties[a]++
		ties[b]++
	}
	done := map[int]bool{}
	for i, p := range e.placed {
		g := group.Root(i)
		if p.outright.IsZero() || done[g] || e.base != nil && g == group.Root(index[e.base.part]) {
			continue
		}
		done[g] = true
		wording := "no post reaches it"
		if ties[i] > 0 {
			wording = "nothing joined to it leads to the base"
		}
		e.report(p.at, "run a post to it: post NAME from A to "+p.name+" { … }", "%s is tied to nothing: %s", p.what, wording)
	}
}
