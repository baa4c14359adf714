package cli

import (
	"bytes"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/finding"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/render/pack"
	"stabile/render/terminal"
	"stabile/render/words"
)

// odd is a design whose sizes read otherwise in another step than that of flats, and
// whose blanks the shop's machines do not take, so that findings give their sizes too.
const odd = `units mm
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 6 mm }
base pad { plate 701.2 mm by 502.3 mm, metal slab }
post mast on pad { diameter 62.3 mm, length 2601.2 mm, metal skin }
ball moon on mast { diameter 187.7 mm, halves, metal skin }
post spur on moon { diameter 31.2 mm, length 201.3 mm, metal skin }
`

// TestOneSizeOneText: the sizes of parts and of blanks read the same in the report, its
// findings, the arrangement, the parts list, the list of cuts and the layouts, in the
// examples and in a design whose sizes read otherwise in the step of general work.
func TestOneSizeOneText(t *testing.T) {
	jobs := map[string]*fab.Job{}
	d, wrong := param.Evaluate(source.NewFile("odd.stabile", odd), param.Options{})
	require.NoError(t, wrong.Err())
	jobs["odd"], wrong = fab.Build(d, fab.Everything)
	require.NoError(t, wrong.Err())
	for _, name := range []string{"lamp-thorn", "reed-bed", "slow-tide", "winter-orchard"} {
		d, err := param.Load(os.DirFS("../../../examples"), name+".stabile", param.Options{})
		require.NoError(t, err)
		jobs[name], wrong = fab.Build(d, fab.Everything)
		require.NoError(t, wrong.Err())
	}
	for name, j := range jobs {
		u := j.Design.Units
		fine := func(mm float64) string { return u.Rule(mm, quantity.Fine) }
		var whole bytes.Buffer
		require.NoError(t, terminal.Report(&whole, j, terminal.Style{}, terminal.Sections[:]...))
		text := bare(whole.String())
		drawn := sheetText(pack.Sheets(j, pack.Options{}))
		for i := range j.Parts {
			inReport, onSheet := partSizes(&j.Parts[i], fine)
			require.Contains(t, text, inReport, "%s: report of %s", name, j.Parts[i].Name)
			// In the parts list and the arrangement; of copies a drawing says it once.
			least := 1
			if name == "odd" {
				least = 2
			}
			require.GreaterOrEqual(t, strings.Count(drawn, letters(onSheet)), least, "%s: sheets of %s: %s", name, j.Parts[i].Name, onSheet)
		}
		for _, c := range j.Cuts {
			w, l := c.Blank.Width, c.Blank.Length
			require.Contains(t, text, u.Length(w, quantity.Fine)+" "+u.Length(l, quantity.Fine), "%s: pieces to cut", name)
			onePiece := strings.Contains(drawn, letters(fine(w)+" × "+fine(l))) || strings.Contains(drawn, letters(fine(l)+" × "+fine(w)))
			require.True(t, onePiece, "%s: layouts of %s", name, c.Blank.Name)
		}
		if name != "odd" {
			continue
		}
		for _, mm := range []float64{701.2, 502.3, 62.3, 187.7, 31.2, 201.3} {
			coarse := regexp.QuoteMeta(u.Rule(mm, quantity.Coarse))
			require.NotEqual(t, fine(mm), u.Rule(mm, quantity.Coarse))
			for _, line := range strings.Split(whole.String(), "\n") {
				if !strings.Contains(line, " wide") { // the whole, to the step of general work
					require.NotRegexp(t, `(^|[^\d.])`+coarse+`($|[^\d.])`, line)
				}
			}
			require.NotRegexp(t, "ø"+coarse+`($|[^\d.])`, drawn)
		}
		for _, f := range j.Findings {
			said := words.In(u).Finding(f)
			for _, c := range j.Cuts {
				for _, mm := range []float64{c.Blank.Width, c.Blank.Length} {
					if coarse := u.Rule(mm, quantity.Coarse); coarse != fine(mm) {
						require.NotRegexp(t, `(^|[^\d.])`+regexp.QuoteMeta(coarse)+` (mm|by)`, said)
					}
				}
			}
		}
		require.True(t, slices.ContainsFunc(j.Findings, func(f finding.Finding) bool {
			return strings.Contains(words.In(u).Finding(f), fine(2601.2)+" mm")
		}), "no finding gives the length of a blank")
	}
}

// partSizes returns the size of a part as a report and as a sheet write it.
func partSizes(p *fab.Part, fine func(float64) string) (inReport, onSheet string) {
	switch {
	case p.Base != nil && p.Base.Shape == design.Disc:
		return "dia " + fine(p.Base.Width), "Ø" + fine(p.Base.Width)
	case p.Base != nil:
		return fine(p.Base.Width) + " x " + fine(p.Base.Depth), fine(p.Base.Width) + " × " + fine(p.Base.Depth)
	case p.Ball != nil:
		return "dia " + fine(2*p.Ball.Radius), "Ø" + fine(2*p.Ball.Radius)
	}
	from, to := p.Post.Ends[design.Foot].Diameter, p.Post.Ends[design.Head].Diameter
	if p.Post.IsTaper() {
		return "dia " + fine(from) + " to " + fine(to) + " x " + fine(p.Post.Length), fine(p.Post.Length)
	}
	return "dia " + fine(from) + " x " + fine(p.Post.Length), "Ø" + fine(from)
}
