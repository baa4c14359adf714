package assembly

import (
	"slices"

	"stabile/param/design"
)

// write writes the steps: every part by itself, what is put together on the
// bench, what is set in its place, and what is done to the whole.
func (m *maker) write() {
	w := writer{maker: m, closed: make([]int, len(m.plan.Spaces))}
	for i := range m.in.Items {
		switch r := m.ringOf(i); {
		case r == nil:
			w.making(i)
		case r.Tubes[0] == m.part(i):
			w.makingRing(r)
		}
	}
	for _, p := range m.order {
		done := map[*design.Ring]bool{}
		for _, k := range m.units[p.unit].inner {
			r := m.inRing(k)
			if r == nil {
				w.bench(k)
				continue
			}
			if !done[r] {
				done[r] = true
				w.benchRing(r, slices.DeleteFunc(slices.Clone(m.units[p.unit].inner), func(o int) bool { return m.inRing(o) != r }))
			}
		}
	}
	stands := site{maker: m, of: make([]*body, len(m.units))}
	for _, p := range m.order {
		w.place(&p, &stands)
	}
	w.close()
	w.finish(&stands)
	w.weigh()
}

// A writer writes the steps of a plan.
type writer struct {
	*maker
	closed []int // of each space, the step that made its last joint
}

// add numbers a step and appends it.
func (w *writer) add(s Step) *Step {
	s.Number = len(w.plan.Steps) + 1
	w.plan.Steps = append(w.plan.Steps, s)
	return &w.plan.Steps[len(w.plan.Steps)-1]
}

// touch enters that a step closes an opening of an item's hollow.
func (w *writer) touch(item int, s *Step) {
	if k := w.space[item]; k >= 0 {
		w.closed[k] = max(w.closed[k], s.Number)
	}
}

// join enters the joints that a step makes.
func (w *writer) join(s *Step, links ...int) {
	for _, k := range links {
		l := &w.links[k]
		s.Joints = append(s.Joints, l.Joint)
		if l.weld >= 0 {
			s.Welds = append(s.Welds, l.weld)
		}
		if i := w.shuts(l); i >= 0 {
			w.touch(i, s)
		}
	}
}

// making writes how an item is made.
func (w *writer) making(i int) {
	w.touch(i, w.add(Step{
		Work: MakePart, Parts: w.names([]int{i}), Welds: slices.Clone(w.seams[i]), Do: w.make(i), Notes: w.makeNotes(i),
	}))
}

// bench writes how a joint is made on the bench.
func (w *writer) bench(k int) {
	l := &w.links[k]
	host, guest := w.hostOf(k)
	if l.Kind == design.ThreadJoint {
		host, guest = l.Post, l.Other(l.Post)
	}
	group := w.together(guest)
	s := w.add(Step{Work: Bench, Parts: w.names(group), To: w.names([]int{host}), Do: w.onBench(k, host, guest)})
	w.join(s, k)
	var sum weight
	for _, i := range group {
		w.addItem(&sum, i)
		if i != guest && w.ringOf(i) == nil {
			w.addLink(&sum, w.between(i, guest))
		}
	}
	if r := w.ringOf(guest); r != nil {
		for _, o := range w.ringLinks() {
			if w.inRing(o) == r {
				w.addLink(&sum, o)
			}
		}
	}
	s.Lift = w.lift(sum, nil)
}

// place writes how a unit is set in its place.
func (w *writer) place(p *placing, stands *site) {
	u := &w.units[p.unit]
	var sum weight
	for _, i := range u.items {
		w.addItem(&sum, i)
	}
	for _, k := range u.inner {
		w.addLink(&sum, k)
	}
	stands.set(p, sum)
	s := w.add(Step{Work: Place, Parts: w.names(u.items), To: w.hosts(p), Do: w.inPlace(p)})
	w.join(s, p.links...)
	s.Lift = w.lift(sum, p.links)
	s.Stage = stands.stage()
	s.Notes = w.placeNotes(p, s)
}

// close enters in the steps the spaces that they close.
func (w *writer) close() {
	for k, number := range w.closed {
		if number == 0 {
			continue
		}
		s := &w.plan.Steps[number-1]
		w.plan.Spaces[k].Step = number
		s.Closes = append(s.Closes, k)
		s.Notes = append(s.Notes, w.closeNote(s, k))
	}
}

// finish writes what is done to the whole.
func (w *writer) finish(stands *site) {
	var all []string
	for i := range w.in.Items {
		all = append(all, w.part(i).Name)
	}
	s := w.add(Step{Work: Finish, Parts: all, Do: w.finishAll(), Notes: w.finishNotes()})
	s.Lift = w.lift(stands.whole, nil)
}

// weigh counts the lifts, and warns of those that are too heavy for one.
func (w *writer) weigh() {
	for i := range w.plan.Steps {
		s := &w.plan.Steps[i]
		if s.Lift == nil {
			continue
		}
		if s.Work != Finish {
			w.plan.Totals.Lifts++
		}
		if s.Lift.Heavy {
			s.Notes = append(s.Notes, HeavyLift{s.Work == Finish, s.Lift.High})
		}
	}
}

// shuts returns the item of whose hollow a link closes an opening: a post whose
// end it is, a ball whose holes the post through it fills; -1 for none. What
// stands on a ball, on a side or on a disc shuts nothing of that.
func (m *maker) shuts(l *link) int {
	switch {
	case l.Post < 0:
		return -1
	case l.Kind == design.ThreadJoint:
		return l.Other(l.Post)
	}
	return l.Post
}

// withThreads returns an item with the balls that are threaded on it.
func (m *maker) withThreads(i int) []int {
	list := []int{i}
	if m.part(i).Post != nil {
		for _, k := range m.touches[i] {
			if l := &m.links[k]; l.Kind == design.ThreadJoint && l.Post == i {
				list = append(list, l.Other(i))
			}
		}
	}
	return list
}

// together returns an item with the balls that are threaded on it, or the ring of which it is
// a tube.
func (m *maker) together(i int) []int {
	r := m.ringOf(i)
	if r == nil {
		return m.withThreads(i)
	}
	list := m.withThreads(i)
	for _, k := range m.ringItems(r) {
		if k != i {
			list = append(list, k)
		}
	}
	return list
}

// between returns the link of two items.
func (m *maker) between(i, j int) int {
	for _, k := range m.touches[i] {
		if m.links[k].Other(i) == j {
			return k
		}
	}
	return -1
}

// hosts returns the parts that a unit is set on.
func (m *maker) hosts(p *placing) []string {
	var list []string
	for _, k := range p.links {
		_, host := m.sides(p, k)
		if p := m.part(host); p != nil && !slices.Contains(list, p.Name) {
			list = append(list, p.Name)
		}
	}
	return list
}

// sides returns the item of the unit at a link, and the one that it meets.
func (m *maker) sides(p *placing, k int) (mine, host int) {
	l := &m.links[k]
	if m.unitOf[l.A] == p.unit {
		return l.A, l.B
	}
	return l.B, l.A
}

func (m *maker) names(items []int) []string {
	list := make([]string, len(items))
	for i, k := range items {
		list[i] = m.part(k).Name
	}
	return list
}
