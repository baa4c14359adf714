package bench

import (
	"strings"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/edit"
	"stabile/render/words"
)

// An answer is all that the page shows of a design. Every number in it is
// written out: the page puts it in its place.
type answer struct {
	ID        string    `json:"id"` // of the design as it was worked out, for pictures
	Title     string    `json:"title"`
	Units     string    `json:"units"`
	Whole     bool      `json:"whole"` // all is worked out; else the rest is still to come
	Empty     bool      `json:"empty"` // there is no part yet
	Wrong     []mistake `json:"wrong"`
	Drawing   *drawing  `json:"drawing,omitempty"`
	Same      bool      `json:"same,omitempty"` // the drawing is the one that the page has
	Upright   bool      `json:"upright"`        // the picture is taller than it is wide
	Verdict   verdict   `json:"verdict"`
	Figures   []figure  `json:"figures"`
	Grave     []remark  `json:"grave"` // dangers and faults, never hidden
	Parts     []part    `json:"parts"`
	Adjust    []slider  `json:"adjust"`
	Variation []string  `json:"variations"`
	Checks    []tested  `json:"checks,omitempty"`
	Remarks   []remark  `json:"remarks,omitempty"`
	Blanks    []blank   `json:"blanks,omitempty"`
	Shop      *shop     `json:"shop,omitempty"`
	Changed   *dragged  `json:"changed,omitempty"` // by a drag
}

// A mistake is a diagnostic. The places are in units of UTF-16.
type mistake struct {
	File  string `json:"file,omitempty"` // where it is not the design itself
	From  int    `json:"from"`
	To    int    `json:"to"`
	Line  int    `json:"line"`
	Text  string `json:"text"`
	Hint  string `json:"hint,omitempty"`
	Cure  *cure  `json:"cure,omitempty"`
	Notes []note `json:"notes,omitempty"`
}

// A cure is what may be put in the place of words: nothing to leave them out.
type cure struct {
	From  int    `json:"from"`
	To    int    `json:"to"`
	Words string `json:"words"`
}

// A note is another place that matters.
type note struct {
	From int    `json:"from"`
	To   int    `json:"to"`
	Line int    `json:"line"`
	Text string `json:"text"`
}

// A verdict is the last word. State is "holds", "fails", "undecided", "mistakes",
// "empty", or "pending" while checks are being made.
type verdict struct {
	State string `json:"state"`
	Text  string `json:"text"`
}

// A figure is one of the numbers that are always in sight. Check is the one that
// it belongs to, by its place among the checks, or -1.
type figure struct {
	Name  string `json:"name"`
	Text  string `json:"text"`
	State string `json:"state"` // as of a check, or ""
	Check int    `json:"check"`
}

// A remark is a finding.
type remark struct {
	Level string   `json:"level"`
	Parts []string `json:"parts"`
	Text  string   `json:"text"`
}

// A part is a line of the parts list, and where the text declares it.
type part struct {
	Name   string `json:"name"`
	Kind   string `json:"kind"`
	Size   string `json:"size"`
	Metal  string `json:"metal"`
	Weight string `json:"weight"`
	From   int    `json:"from"`
	To     int    `json:"to"`
}

// A slider is an adjustable value.
type slider struct {
	Name string  `json:"name"`
	Text string  `json:"text"` // the value
	Low  string  `json:"low"`  // its least
	High string  `json:"high"` // its greatest
	At   float64 `json:"at"`   // as a share of the range
	Step float64 `json:"step"` // likewise; 0 where it moves freely
}

// A tested is a check.
type tested struct {
	ID     string   `json:"id"`
	Part   string   `json:"part,omitempty"`
	State  string   `json:"state"`
	What   string   `json:"what"`
	Found  string   `json:"found,omitempty"`
	Needed string   `json:"needed,omitempty"`
	Case   string   `json:"case,omitempty"`
	Why    string   `json:"why,omitempty"` // of one that is not decided
	Rule   string   `json:"rule,omitempty"`
	Cures  []string `json:"cures,omitempty"`
}

// answer puts a result into words.
func (s *Server) answer(r *result) *answer {
	a := &answer{
		ID: r.id, Whole: r.whole, Wrong: s.mistakes(r), Figures: []figure{}, Grave: []remark{}, Parts: []part{}, Adjust: []slider{}, Variation: []string{},
	}
	j := r.seen()
	if len(r.wrong) > 0 {
		a.Verdict = verdict{"mistakes", words.Count(len(r.wrong), "mistake") + " in the text."}
		a.Whole = true
	}
	if j == nil {
		if len(a.Wrong) == 1 && r.wrong[0].Text == noPart {
			a.Empty, a.Verdict = true, verdict{"empty", "No part yet."}
		}
		return a
	}
	a.Title, a.Units = j.Design.Title, j.Design.Units.String()
	a.Drawing = r.drawing()
	a.Upright = j.Size.Height > max(j.Size.Width, j.Size.Depth)
	w := words.In(j.Design.Units)
	a.Parts = s.parts(r, j, w)
	a.Adjust = sliders(j.Design, w)
	a.Variation = append(a.Variation, j.Design.Variations...)
	if r.job == nil {
		return a
	}
	a.Verdict = verdict{string(j.Verdict), w.LastWord(j)}
	if !r.whole && j.Verdict != check.Fails {
		a.Verdict = verdict{"pending", "Checking the rest."}
	}
	a.Figures = figures(j, w, r.whole)
	a.Grave = remarks(j, w, true)
	if r.whole {
		a.Checks = checks(j, w)
		a.Remarks = remarks(j, w, false)
		a.Blanks = blanks(j, w)
		a.Shop = shopOf(j, w)
	}
	return a
}

// noPart is the one mistake of a design that is only begun.
const noPart = "the design has no part"

// mistakes returns the diagnostics, with what may be put in the place of a word
// that is not one.
func (s *Server) mistakes(r *result) []mistake {
	list := []mistake{}
	if len(r.wrong) == 0 {
		return list
	}
	at := &ruler{text: r.Text}
	text := s.reader(&r.state)
	for _, d := range r.wrong {
		m := mistake{Text: d.Text, Hint: d.Hint}
		if f := d.Span.File; f != nil {
			m.Line = d.Span.Start().Line
			if f.Name == r.File {
				m.From, m.To = at.units(d.Span.From), at.units(d.Span.To)
				if word, ok := text.Meant(d.Span); ok {
					m.Cure = &cure{m.From, m.To, word}
				}
				if c := d.Cure; c != nil && c.Span.File == f {
					m.Cure = &cure{at.units(c.Span.From), at.units(c.Span.To), c.Words}
				}
			} else {
				m.File = f.Name
			}
		}
		for _, n := range d.Note {
			if n.Span.File != nil && n.Span.File.Name == r.File {
				m.Notes = append(m.Notes, note{at.units(n.Span.From), at.units(n.Span.To), n.Span.Start().Line, n.Text})
			}
		}
		list = append(list, m)
	}
	return list
}

// figures are the numbers that are always in sight.
func figures(j *fab.Job, w words.Writer, whole bool) []figure {
	list := []figure{
		{Name: "weight", Text: w.Weight(j.Mass.Total), Check: -1},
		{Name: "height", Text: w.Long(j.Size.Height), Check: -1},
	}
	if t := j.Tipping; t != nil && t.Hung {
		list = append(list, hold(j, w))
	} else if t != nil && t.Loaded {
		list = append(list, figure{Name: "against tipping", Text: words.Factor(t.Factor), Check: -1})
		if i := gravest(j.Checks, func(c *check.Check) bool { return c.ID == check.Tipping }); i >= 0 {
			last := &list[len(list)-1]
			last.State, last.Check = string(j.Checks[i].Verdict), i
			if j.Checks[i].Held {
				last.Text += ", anchored"
			}
		}
	} else {
		list = append(list, figure{Name: "against tipping", Text: "no load given", State: string(check.Undecided), Check: -1})
	}
	if i := gravest(j.Checks, isStrength); i >= 0 {
		f := figure{Name: "worst use", Text: "not decided", State: string(j.Checks[i].Verdict), Check: i}
		if k := gravest(j.Checks, isUsed); k >= 0 {
			f.Text = w.UsedUp(j.Checks[k].Use())
		}
		list = append(list, f)
	}
	if !whole {
		return list
	}
	p, why := j.Price()
	money := figure{Name: "money", Check: gravest(j.Checks, func(c *check.Check) bool { return c.ID == check.Cost })}
	if why == nil {
		money.Text = words.Money(p.Amount, p.Currency)
	} else {
		money.Text, money.State = "no price", string(check.Undecided)
	}
	return append(list, money)
}

// hold is how much of what the anchors hold a piece on a wall uses.
func hold(j *fab.Job, w words.Writer) figure {
	f := figure{Name: "hold in the wall", Text: "not decided", State: string(check.Undecided), Check: -1}
	anchors := func(c *check.Check) bool { return c.ID == check.AnchorSteel || c.ID == check.AnchorGround }
	i := gravest(j.Checks, anchors)
	if i < 0 {
		return f
	}
	f.Check, f.State = i, string(j.Checks[i].Verdict)
	if j.Checks[i].Verdict != check.Undecided {
		f.Text = w.UsedUp(j.Checks[i].Use())
	}
	return f
}

// isStrength reports whether a check says how much of what metal or ground
// carries is used.
func isStrength(c *check.Check) bool {
	switch c.ID {
	case check.Post, check.Weld, check.BallWall, check.PostWall, check.Plate, check.Buckling, check.AnchorSteel, check.AnchorGround, check.Footing:
		return true
	}
	return false
}

// isUsed reports whether a check of strength was decided.
func isUsed(c *check.Check) bool { return isStrength(c) && c.Verdict != check.Undecided }

// gravest returns which check of a kind matters most, or -1.
func gravest(list []check.Check, is func(*check.Check) bool) int {
	worst := -1
	for i := range list {
		if is(&list[i]) && (worst < 0 || list[i].Graver(list[worst])) {
			worst = i
		}
	}
	return worst
}

// remarks returns findings: dangers and faults, or the others.
func remarks(j *fab.Job, w words.Writer, grave bool) []remark {
	list := []remark{}
	for _, f := range j.Findings {
		if is := f.Level == finding.Danger || f.Level == finding.Fault; is == grave {
			list = append(list, remark{string(f.Level), append([]string{}, f.Parts...), w.Finding(f)})
		}
	}
	return list
}

func checks(j *fab.Job, w words.Writer) []tested {
	list := []tested{}
	for i := range j.Checks {
		c := &j.Checks[i]
		row := w.Row(*c)
		t := tested{
			ID: string(c.ID), Part: c.Part, State: string(c.Verdict), What: row.What, Found: row.Found, Needed: row.Needed,
			Case: row.Case, Why: row.Why, Rule: c.Source,
		}
		if c.Verdict != check.Holds {
			for _, f := range j.Findings {
				if f.Check == string(c.ID) && (c.Part == "" || len(f.Parts) == 0 || contains(f.Parts, c.Part)) {
					t.Cures = append(t.Cures, w.Finding(f))
				}
			}
		}
		list = append(list, t)
	}
	return list
}

func contains(list []string, s string) bool {
	for _, t := range list {
		if t == s {
			return true
		}
	}
	return false
}

// parts lists the parts, with where the text declares them.
func (s *Server) parts(r *result, j *fab.Job, w words.Writer) []part {
	declared := map[int]edit.Declared{} // by the place of the name
	names := map[string]edit.Declared{}
	for _, d := range s.reader(&r.state).Parts() {
		declared[d.Named] = d
		names[d.Name] = d
	}
	at := &ruler{text: r.Text}
	list := make([]part, 0, len(j.Parts))
	for i := range j.Parts {
		p := &j.Parts[i]
		line := part{Name: p.Name, Kind: p.Kind(), Size: w.Size(p.Part), Metal: w.Sheet(p.Metal)}
		if p.Mass > 0 {
			line.Weight = w.Weight(p.Mass)
		}
		d, ok := declared[p.Span.From]
		if !ok {
			family, _, _ := strings.Cut(p.Name, "[")
			d, ok = names[family]
		}
		if ok && p.Span.File != nil && p.Span.File.Name == r.File {
			line.From, line.To = at.units(d.From), at.units(d.To)
		}
		list = append(list, line)
	}
	return list
}

// sliders returns the adjustable values.
func sliders(d *design.Design, w words.Writer) []slider {
	list := []slider{}
	for _, a := range d.Adjust {
		wide := a.To.Number - a.From.Number
		s := slider{Name: a.Name, Text: w.Value(a.Value), Low: w.Value(a.From), High: w.Value(a.To)}
		if wide > 0 {
			s.At, s.Step = (a.Value.Number-a.From.Number)/wide, a.Step.Number/wide
		}
		list = append(list, s)
	}
	return list
}
