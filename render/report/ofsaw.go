package report

import (
	"stabile/fab"
	"stabile/fab/saw"
	"stabile/param/design"
)

// lengthsOf writes down what is sawn from pipe and tube that is bought.
func lengthsOf(p *fab.Plan) []SawStack {
	list := []SawStack{}
	if p.Saw == nil {
		return list
	}
	for i := range p.Saw.Stacks {
		s := &p.Saw.Stacks[i]
		out := SawStack{
			Size: s.Size.Metal.Name, Alloy: s.Size.Metal.Alloy, Outside: six(s.Size.Outside), Wall: six(s.Size.Wall),
			Length: six(s.Length), Count: len(s.Bars), Bound: s.Bound, Kerf: six(p.Saw.Kerf), Mass: six(s.Weight()),
			Bars: []Bar{}, TooLong: []string{},
		}
		for _, b := range s.Bars {
			bar := Bar{Pieces: []SawPiece{}, Rest: six(b.Rest)}
			for _, k := range b.Pieces {
				q := &s.Pieces[k]
				bar.Pieces = append(bar.Pieces, SawPiece{q.Part, six(q.Length), sawEndOf(q.Ends[design.Foot]), sawEndOf(q.Ends[design.Head])})
			}
			out.Bars = append(out.Bars, bar)
		}
		for _, k := range s.Long {
			out.TooLong = append(out.TooLong, s.Pieces[k].Part)
		}
		list = append(list, out)
	}
	return list
}

func sawEndOf(e saw.End) SawEnd { return SawEnd{*degrees(e.Angle), e.Coped, six(e.Filed)} }
