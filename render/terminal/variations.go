package terminal

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"stabile/fab/study"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/words"
)

// A Variations is a study to be shown: what was tried, and what is left of it in
// the order to be shown in.
type Variations struct {
	Design  *design.Design
	Tried   int
	Kept    int            // of those tried, those that hold all conditions
	Keep    []string       // the conditions
	By      string         // what they are sorted by, such as "least weight"; "" for the order of trial
	ByAt    int            // the question that gives its number
	Results []study.Result // those to be shown
}

// Write writes a study as a table.
func (v *Variations) Write(w io.Writer, style Style) error {
	p := page{style: style}
	p.strong(0, v.Design.Title)
	p.faint(0, v.Said())
	if len(v.Results) > 0 {
		p.blank()
		p.table(v.table())
	}
	v.wrong(&p)
	_, err := w.Write(p.buf.Bytes())
	return err
}

// Said tells in a sentence what was tried.
func (v *Variations) Said() string {
	s := fmt.Sprintf("%s tried", words.Count(v.Tried, "variation"))
	if len(v.Keep) > 0 {
		s += fmt.Sprintf(", %d with %s", v.Kept, strings.Join(v.Keep, " and "))
	}
	if v.By != "" {
		s += ", the " + v.By + " first"
	}
	if n := len(v.Results); n < v.Kept {
		s += fmt.Sprintf(", %d shown", n)
	}
	return s + "."
}

// table lists the results with the names that were changed.
func (v *Variations) table() table {
	var t table
	col := func(head string, right bool) { t.columns = append(t.columns, column{head, right}) }
	col("No", true)
	first := &v.Results[0]
	named := len(first.Set) == 0
	if named {
		col("Variation", false)
	}
	for _, s := range first.Set {
		col(s.Name, true)
	}
	col("Weight", true)
	col("Tipping", true)
	col("Strength", true)
	tuned := slices.ContainsFunc(v.Results, func(r study.Result) bool { return r.Frequency.Known })
	if tuned {
		col("Frequency", true)
	}
	col("Height", true)
	planned := slices.ContainsFunc(v.Results, func(r study.Result) bool { return r.Sheets.Known || r.Cost.Known })
	if planned {
		col("Sheets", true)
		col("Cost", true)
	}
	own := v.By != "" && !tabled(v.By)
	if own {
		col(strings.TrimPrefix(strings.TrimPrefix(v.By, "least "), "most "), true)
	}
	col("", false)
	u := v.Design.Units
	for i := range v.Results {
		r := &v.Results[i]
		cells := []string{strconv.Itoa(r.Number)}
		if named {
			cells = append(cells, r.Label())
		}
		for _, s := range r.Set {
			cells = append(cells, s.Value)
		}
		if r.Err != nil {
			for len(cells) < len(t.columns)-1 {
				cells = append(cells, "")
			}
			t.add(false, append(cells, "cannot be made")...)
			continue
		}
		cells = append(cells, u.Weight(r.Mass.Total), figure(r.Tipping, words.Factor), figure(r.Strength, words.Use))
		if tuned {
			cells = append(cells, figure(r.Frequency, words.Hertz))
		}
		cells = append(cells, u.Length(r.Size.Height, quantity.Coarse))
		if planned {
			cells = append(cells, figure(r.Sheets, whole), figure(r.Cost, cost))
		}
		if own {
			cells = append(cells, words.In(u).Sides(r.Answers[v.ByAt].Sides))
		}
		t.add(false, append(cells, words.In(u).Verdict(r.Verdict, r.Reasons))...)
	}
	return t
}

// tabled reports whether the table has a column for what it is sorted by.
func tabled(by string) bool {
	for _, name := range []string{"weight", "tipping", "strength", "frequency", "height"} {
		if by == "least "+name || by == "most "+name {
			return true
		}
	}
	return false
}

func figure(f study.Figure, write func(float64) string) string {
	if !f.Known {
		return "–"
	}
	return write(f.Value)
}

func whole(x float64) string { return strconv.FormatFloat(x, 'f', 0, 64) }
func cost(x float64) string  { return words.Money(x, "") }

// mostWrong is how many different reasons are given why variations cannot be made.
const mostWrong = 5

// wrong says why variations cannot be made, each reason with the numbers of those
// that it holds for.
func (v *Variations) wrong(p *page) {
	var reasons []string
	at := map[string][]int{}
	for i := range v.Results {
		r := &v.Results[i]
		if r.Err == nil {
			continue
		}
		why := study.Why(r.Err)
		if at[why] == nil {
			reasons = append(reasons, why)
		}
		at[why] = append(at[why], r.Number)
	}
	if len(reasons) == 0 {
		return
	}
	p.heading("Cannot be made")
	for _, why := range reasons[:min(mostWrong, len(reasons))] {
		p.hanging(margin, "", words.Runs(at[why])+": "+why)
	}
	if n := len(reasons) - mostWrong; n > 0 {
		p.hanging(margin, "", "and for "+words.Count(n, "other reason"))
	}
}
