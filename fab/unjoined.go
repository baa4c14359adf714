package fab

import (
	"stabile/fab/check"
	"stabile/fab/clash"
	"stabile/fab/finding"
	"stabile/param/design"
)

// Unjoined: a free end of a post ends on another part and is not joined to it.
type Unjoined struct {
	End  string // "foot" or "head"
	With string // kind and name of the part, such as "ball 'moon'"
	From string // the part that the post stands on; "" for the ground
	To   string // the part as a clause names it, such as "moon" or "left.head"
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
		f := Unjoined{End: [...]string{"foot", "head"}[t.End], With: with.Kind() + " '" + with.Name + "'", To: with.Name}
		if t.AtHead {
			f.To += ".head"
		}
		if host := p.Host(); host != nil {
			f.From = host.Name
			if host.Post != nil && p.Post.Ends[design.Foot].Meets == design.OnHead {
				f.From += ".head"
			}
		}
		b.made = append(b.made, finding.Finding{Level: finding.Fault, Concern: finding.Work, Parts: []string{p.Name}, Check: string(check.Making), Fact: f})
		b.making = append(b.making, check.Check{
			ID: check.Making, Part: p.Name, With: with.Name, Verdict: check.Fails, Why: f, Source: unjoinedSource, Concern: finding.Work,
		})
	}
}
