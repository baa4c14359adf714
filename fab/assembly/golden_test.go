package assembly_test

import (
	"bytes"
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/fab/assembly"
	"stabile/fab/finding"
	"stabile/param/golden"
	"stabile/param/quantity"
	"stabile/param/written"
)

// every has one joint of every kind.
const every = written.EveryJoint

// TestGolden compares the plans of a design with every joint, and of an example,
// with those that are kept.
func TestGolden(t *testing.T) {
	for name, j := range map[string]*fab.Job{
		"every.txt":     build(t, every),
		"slow-tide.txt": examples(t)["slow-tide.stabile"],
	} {
		var got bytes.Buffer
		write(&got, assembly.Make(input(j)), j.Design.Units)
		golden.Text(t, filepath.Join("testdata", name), got.String())
	}
}

// write writes a plan for reading.
func write(b *bytes.Buffer, p *assembly.Plan, units quantity.System) {
	for _, s := range p.Steps {
		fmt.Fprintf(b, "%d. [%s] %s\n", s.Number, s.Work, data(s.Do))
		if l := s.Lift; l != nil {
			fmt.Fprintf(b, "   lift %s (%s to %s), centre of gravity (%s, %s, %s)\n", units.Weight(l.Mass), units.Weight(l.Low), units.Weight(l.High),
				units.Length(l.CG.X, quantity.Coarse), units.Length(l.CG.Y, quantity.Coarse), units.Length(l.CG.Z, quantity.Coarse))
		}
		if g := s.Stage; g != nil {
			fmt.Fprintf(b, "   stands %v, tips at %s\n", g.Stands, quantity.Degrees(g.Tips))
		}
		for _, n := range s.Notes {
			fmt.Fprintf(b, "   ! %s\n", data(n))
		}
	}
	b.WriteString("\n")
	for _, w := range p.Welds {
		fmt.Fprintf(b, "weld %d: %s, %s", w.Number, w.Kind, w.Part)
		if w.With != "" {
			fmt.Fprintf(b, " %s to %s", w.At, w.With)
		}
		fmt.Fprintf(b, ", %d x %s, %s rod %s, %.1f g\n   %d tacks %s apart, %s:", w.Count, units.Length(w.Length, quantity.Coarse), w.Process, units.Length(w.Rod, quantity.Fine),
			1000*w.Filler, w.Tacks.Number(), units.Length(w.Tacks.Spacing, quantity.Coarse), w.Tacks.From)
		for i, a := range w.Tacks.At {
			if i == 8 {
				b.WriteString(" ...")
				break
			}
			if w.Tacks.From.Angles() {
				b.WriteString(" " + strings.TrimSuffix(quantity.Bearing(a), " deg"))
			} else {
				b.WriteString(" " + units.Rule(a, quantity.Coarse))
			}
		}
		b.WriteString("\n")
	}
	b.WriteString("\n")
	for _, s := range p.Spaces {
		fmt.Fprintf(b, "space %v: %.2f l, vent %v, dip %v, closed by step %d\n", s.Parts, s.Volume/1e6, s.Vent, s.Dip, s.Step)
	}
	t := p.Totals
	fmt.Fprintf(b, "\nfits %d, tacks %d, lifts %d, weld %.0f mm, edge %.0f mm, faces %.0f mm, dress %.0f mm, filler %.3f kg\n\n",
		t.Fits, t.Tacks, t.Lifts, t.Weld, t.Edge, t.Faces, t.Dress, t.Filler)
	for _, f := range p.Findings {
		fmt.Fprintf(b, "%s %s %v: %s\n", f.Level, f.Concern, f.Parts, data(f.Fact))
	}
	for _, c := range p.Checks {
		fmt.Fprintf(b, "check %s %q %q: %s %.4g of %.4g %s %s\n", c.ID, c.Part, c.With, c.Verdict, c.Found, c.Limit, c.Unit, data(c.Why))
	}
	for _, r := range p.Rules {
		fmt.Fprintf(b, "rule: %s\n", data(r))
	}
}

// figure matches a number with more decimals than are kept.
var figure = regexp.MustCompile(`-?[0-9]+\.[0-9]{5,}(e[-+][0-9]+)?`)

// data writes a fact with its type, figures to four decimals.
func data(f finding.Fact) string {
	if f == nil {
		return ""
	}
	text := strings.TrimPrefix(fmt.Sprintf("%T%+v", f, f), "assembly.")
	return figure.ReplaceAllStringFunc(text, func(s string) string {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return s
		}
		return quantity.Decimal(x, 4)
	})
}
