package fab

import (
	"stabile/fab/check"
	"stabile/fab/clash"
	"stabile/fab/finding"
	"stabile/param/design"
)

// Unjoined: a free end of a post ends on another part and is not joined to it.
type Unjoined struct {
	End      int    // of the post: design.Foot or design.Head
	Kind     string // of the part that it ends on, such as "ball"
	With     string // its name
	AtHead   bool   // whether it ends at that post's head
	From     string // the part that the post stands on; "" for the ground
	FromHead bool   // whether it stands on that post's head
}

// Fact marks the fact.
func (Unjoined) Fact() {}

const unjoinedSource = "an end as near to another part as its sheet is thick looks joined: common practice, no source"

// unjoined finds the posts that end on a part without being joined to it: strength,
// trims and welds all take such an end as free.
func (b *builder) unjoined() {
	d := b.Design
	for _, t := range clash.Touching(d, b.Ties, b.bodies) {
		p, with := d.Parts[t.Post], d.Parts[t.With]
		f := Unjoined{End: t.End, Kind: with.Kind(), With: with.Name, AtHead: t.AtHead}
		if host := p.Host(); host != nil {
			f.From = host.Name
			f.FromHead = host.Post != nil && p.Post.Ends[design.Foot].Meets == design.OnHead
		}
		b.made = append(b.made, finding.Finding{Level: finding.Fault, Concern: finding.Work, Parts: []string{p.Name}, Check: string(check.Making), Fact: f})
		b.making = append(b.making, check.Check{
			ID: check.Making, Part: p.Name, With: with.Name, Verdict: check.Fails, Why: f, Source: unjoinedSource, Concern: finding.Work,
		})
	}
}
