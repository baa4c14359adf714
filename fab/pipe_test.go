package fab_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/strength"
	"stabile/param/stock"
	"stabile/param/written"
)

// pole is a post of pipe that people push.
func pole(made string) string {
	return written.Metric + "base pad { plate 600 by 600, metal slab }\n" +
		"post pole on pad { " + made + ", length 1500, metal skin }\n" +
		"post twin on pad { " + made + ", at (200, 0), length 4600, metal skin }\n" +
		"site { push 900 N at 1.5 m }\n"
}

// TestPipeCures holds that a post of pipe that fails is told of heavier walls of its size
// and of larger sizes of its schedule, and that what they are said to bring is what a
// design with them comes to.
func TestPipeCures(t *testing.T) {
	ratio := func(made string) (float64, *fab.Job) {
		j, list := fab.Build(written.Design(t, pole(made)), fab.WithStrength|fab.WithCures)
		if err := list.Err(); err != nil {
			t.Fatal(err)
		}
		r, _ := j.Strength.OfPart("pole")
		return r, j
	}
	r, j := ratio("bought pipe 1 schedule 40")
	if r <= 1 {
		t.Fatalf("the pole is at %v of its limit", r)
	}
	seen := 0
	for _, f := range j.Findings {
		over, ok := f.Fact.(strength.OverLimit)
		if !ok || len(f.Parts) != 1 || f.Parts[0] != "pole" {
			continue
		}
		for _, c := range over.Cures {
			if c.Pipe.NPS == "" || c.Gauge != 0 {
				t.Errorf("a cure of pipe is %+v", c)
				continue
			}
			seen++
			// The twin stays as it is.
			text := strings.Replace(pole("bought pipe 1 schedule 40"), "bought pipe 1 schedule 40", fmt.Sprintf("bought pipe %s schedule %s", c.Pipe.NPS, c.Pipe.Schedule), 1)
			k, list := fab.Build(written.Design(t, text), fab.WithStrength)
			if err := list.Err(); err != nil {
				t.Fatal(err)
			}
			// What carries less leans on it less: its joints weigh what they weigh.
			if want, _ := k.Strength.OfPart("pole"); math.Abs(c.Ratio/want-1) > 0.02 {
				t.Errorf("%v is said to bring %v, and brings %v", c.Pipe, c.Ratio, want)
			}
		}
	}
	if seen == 0 {
		t.Error("no cure of pipe")
	}
}

// TestPipePlan follows two posts of pipe through the shop's plan: they are sawn from one
// length, no sheet and no roll is asked for them, their weight is that of the table, and
// their price that of the lengths.
func TestPipePlan(t *testing.T) {
	text := written.Metric + `
base pad { plate 600 by 600, metal slab }
post one on pad { bought pipe 2 schedule 40, length 1500, head open, price 20 / 1 m, metal skin }
post two on pad { at (200, 0), bought pipe 2 schedule 40, length 4490, head open, price 20 / 1 m, metal skin }
post long on pad { at (-200, 0), bought tube, diameter 50, wall 3, length 2500, stock 2 m, head open, metal skin }
site { push 90 N at 1.5 m }
`
	j, list := fab.Build(written.Design(t, text), fab.WithPlan)
	if err := list.Err(); err != nil {
		t.Fatal(err)
	}
	p := j.Plan
	for _, b := range p.Sheets.Blanks {
		if b.Part != "pad" {
			t.Errorf("%s is cut from sheet", b.Name)
		}
	}
	if len(p.Rolling.Batches)+len(p.Rolling.Refused) > 0 {
		t.Error("something is rolled")
	}
	if len(p.Saw.Stacks) != 2 {
		t.Fatalf("%d stacks", len(p.Saw.Stacks))
	}
	// 1500 + 3 + 4490 is under 6000: one length does.
	s := &p.Saw.Stacks[0]
	if len(s.Bars) != 1 || !s.Proven() || math.Abs(s.Bars[0].Rest-(6000-1500-4490-2*p.Saw.Kerf)) > 1e-6 {
		t.Errorf("%+v", s.Bars)
	}
	if long := &p.Saw.Stacks[1]; len(long.Long) != 1 || len(long.Bars) != 0 {
		t.Errorf("a piece of 2500 comes out of %+v", long)
	}
	fails := 0
	for _, c := range p.Checks {
		if c.ID == check.Saw && c.Verdict == check.Fails {
			fails++
			if c.Part != "long" || c.Found != 2500 || c.Limit != 2000 {
				t.Errorf("%+v", c)
			}
		}
	}
	if fails != 1 {
		t.Errorf("%d pieces are too long", fails)
	}
	pipe, _ := stock.PipeOf(2, "40")
	for i := range j.Parts {
		q := &j.Parts[i]
		if q.Name != "one" && q.Name != "two" {
			continue
		}
		want := pipe.Weight() * q.Post.Length / 1e3 * q.Metal.Density / 7850
		if math.Abs(q.Mass/want-1) > 1e-9 {
			t.Errorf("%s weighs %v, by the table %v", q.Name, q.Mass, want)
		}
		if math.Abs(q.High/q.Mass-1-stock.PipeTolerance) > 1e-9 {
			t.Errorf("%s weighs up to %v", q.Name, q.High)
		}
		if q.Seam != 0 {
			t.Errorf("%s has %v of seam", q.Name, q.Seam)
		}
	}
	price := 0.0
	for _, m := range p.Estimate.Money.Lines {
		if math.Abs(m.Rate-20*6) < 1e-9 {
			price += m.Money.Likely
		}
	}
	if math.Abs(price-120) > 1e-9 {
		t.Errorf("the pipe costs %v, one length of 6 m at 20 a metre", price)
	}
}

// A price that one post gives is that of all pipe like it, which is bought as one.
func TestPipeSharesPrice(t *testing.T) {
	d := written.Design(t, `units inch
metal steel { alloy low-carbon-steel, thickness 1/8 in }
base ground { feet }
post a on ground { bought pipe 2 schedule 40, length 30 in, metal steel }
post b on ground { at (9 in, 0 in), bought pipe 2 schedule 40, length 30 in, metal steel, price 9 / 1 ft }
post c on ground { at (0 in, 9 in), bought pipe 2 schedule 40, length 30 in, metal steel, price 8 / 1 ft }
post d on ground { at (9 in, 9 in), bought pipe 1-1/2 schedule 40, length 30 in, metal steel }`)
	j, wrong := fab.Build(d, fab.Everything)
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, s := range j.Plan.Saw.Stacks {
		for _, p := range s.Pieces {
			got = append(got, fmt.Sprintf("%s %.0f", p.Part, s.Price*304.8))
		}
	}
	if want := []string{"a 9", "b 9", "c 8", "d 0"}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
