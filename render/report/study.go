package report

import (
	"io"

	"stabile/fab/study"
	"stabile/param/design"
	"stabile/render/words"
)

// Variations are a study as one document, by the rules of Document.
type Variations struct {
	Form     int    `json:"variations"` // the version of this form: 2
	Design   string `json:"design"`
	Source   string `json:"source"`
	Revision string `json:"revision,omitempty"`

	Tried   int      `json:"tried"`   // variations worked out
	Keep    []string `json:"keep"`    // the conditions that those kept hold
	Sort    string   `json:"sort"`    // "least X" or "most X"; "" for the order of the trials
	Results []Trial  `json:"results"` // those kept, in order
}

// A Trial is one variation. What was not worked out is left out.
type Trial struct {
	Number    int      `json:"number"`    // from 1, in the order in which they were tried
	Variation string   `json:"variation"` // a named one, or ""
	Set       []string `json:"set"`       // the settings with which a report gives the same, such as "rise=36 in"
	Wrong     string   `json:"wrong,omitempty"`

	Adjust      []Adjust `json:"adjust,omitempty"`
	Size        *Size    `json:"size,omitempty"`
	Mass        *Mass    `json:"mass,omitempty"`
	Tipping     *float64 `json:"tipping_factor,omitempty"`
	Wind        *float64 `json:"wind_force_n,omitempty"`
	Strength    *float64 `json:"strength_ratio,omitempty"`
	Frequency   *float64 `json:"frequency_hz,omitempty"`
	Sheets      *float64 `json:"sheets,omitempty"` // of metal; with the shop's plan alone
	Cost        *float64 `json:"cost,omitempty"`   // likely, in the currency; with the shop's plan alone
	Currency    string   `json:"currency,omitempty"`
	Verdict     string   `json:"verdict,omitempty"` // as a report has it
	VerdictText string   `json:"verdict_text,omitempty"`
	Grave       []string `json:"dangers_and_faults,omitempty"`
}

// OfVariations returns results as a document.
func OfVariations(d *design.Design, tried int, keep []string, sort string, results []study.Result) *Variations {
	r := &Variations{
		Form: 2, Design: d.Title, Revision: d.Fingerprint, Tried: tried,
		Keep: append([]string{}, keep...), Sort: sort, Results: []Trial{},
	}
	if d.Source != nil {
		r.Source = d.Source.Name
	}
	for i := range results {
		r.Results = append(r.Results, trialOf(words.In(d.Units), &results[i]))
	}
	return r
}

// WriteJSON writes the document as indented JSON.
func (r *Variations) WriteJSON(w io.Writer) error { return WriteJSON(w, r.Design, r) }

func trialOf(w words.Writer, r *study.Result) Trial {
	out := Trial{Number: r.Number, Variation: r.Variation, Set: []string{}}
	for _, s := range r.Set {
		out.Set = append(out.Set, s.String())
	}
	if r.Err != nil {
		out.Wrong = study.Why(r.Err)
		return out
	}
	for _, a := range r.Adjust {
		out.Adjust = append(out.Adjust, AdjustOf(a))
	}
	size, mass := sizeOf(r.Size), massOf(r.Mass)
	out.Size, out.Mass = &size, &mass
	out.Tipping, out.Wind = figure(r.Tipping), figure(r.Wind)
	out.Strength, out.Frequency = figure(r.Strength), figure(r.Frequency)
	out.Sheets, out.Cost = figure(r.Sheets), figure(r.Cost)
	if r.Cost.Known {
		out.Currency = r.Currency
	}
	out.Verdict, out.VerdictText, out.Grave = string(r.Verdict), w.Verdict(r.Verdict, r.Reasons), w.Named(r.Grave)
	return out
}

func figure(f study.Figure) *float64 {
	if !f.Known {
		return nil
	}
	x := Rounded(f.Value)
	return &x
}

// A Solution is a search as one document, by the rules of Document.
type Solution struct {
	Form      int    `json:"solution"` // the version of this form: 2
	Design    string `json:"design"`
	Source    string `json:"source"`
	Revision  string `json:"revision,omitempty"`
	Condition string `json:"condition"`
	Sought    string `json:"sought"` // "largest" or "least"

	Found     bool        `json:"found"`
	Value     string      `json:"value,omitempty"` // the setting that gives it, such as "rise=36 in"
	Fails     string      `json:"fails,omitempty"` // the nearest one tried beyond it; left out where the range ends first
	Trial     *Trial      `json:"trial,omitempty"` // what it comes to
	Stretches [][2]string `json:"stretches"`       // of scanned values with which the condition holds
	Unchecked int         `json:"unchecked"`       // of the scanned values, those with which the condition could not be checked
	Why       []string    `json:"why,omitempty"`   // it could not
	Every     bool        `json:"every_step"`      // nothing lies between the values that were scanned
	Tried     int         `json:"tried"`           // values worked out
}

// OfSolution returns a search as a document.
func OfSolution(d *design.Design, s *study.Solution, condition string, least bool) *Solution {
	r := &Solution{
		Form: 2, Design: d.Title, Revision: d.Fingerprint, Condition: condition, Sought: "largest",
		Found: s.Found, Stretches: [][2]string{}, Every: s.Whole, Tried: s.Tried,
	}
	if d.Source != nil {
		r.Source = d.Source.Name
	}
	if least {
		r.Sought = "least"
	}
	for _, x := range s.Unanswered() {
		r.Unchecked += x.Values
		r.Why = append(r.Why, words.In(d.Units).Fact(x.Fact))
	}
	for _, x := range s.Stretches {
		r.Stretches = append(r.Stretches, [2]string{x[0].String(), x[1].String()})
	}
	if s.Found {
		t := trialOf(words.In(d.Units), &s.Trial)
		r.Trial, r.Value = &t, s.Value.String()
		if !s.Bound {
			r.Fails = s.Fails.String()
		}
	}
	return r
}

// WriteJSON writes the document as indented JSON.
func (r *Solution) WriteJSON(w io.Writer) error { return WriteJSON(w, r.Design, r) }
