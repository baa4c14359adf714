package fab

import (
	"slices"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
)

// A Condition is something asked of the results of a job, and what came of it.
type Condition struct {
	// Verdict is whether it holds. It is undecided where a result that it reads was
	// not worked out, and where it holds but rests on checks that are not decided.
	Verdict check.Verdict
	Missing finding.Fact  // why a result is not there; nil where all are
	Open    []check.Check // on which it rests and that are not decided
}

// Meets reports whether the condition is met as far as it is decided: its figures
// are there and within what is asked.
func (c *Condition) Meets() bool { return c.Verdict != check.Fails && c.Missing == nil }

// A Requirement is a condition that the design itself sets.
type Requirement struct {
	Text  string        // as written
	Why   string        // the reason given, or ""
	Sides []design.Side // what the compared sides came to; nil where a result is missing
	Condition
}

// An Answer is what a question of the design came to.
type Answer struct {
	design.Answer
	Condition // of a question that is one
}

// require evaluates the requirements of the design and answers its questions, as
// far as their figures go.
func (b *builder) require() {
	for _, r := range b.Design.Require {
		var read reading
		out := r.Check(b.results(&read))
		q := Requirement{Text: r.Text, Why: r.Why, Sides: out.Sides, Condition: read.condition(out.Holds, out.Unchecked, out.Why)}
		b.Requirements, b.required = append(b.Requirements, q), append(b.required, read)
	}
	for _, q := range b.Design.Questions {
		var read reading
		a := q.Answer(b.results(&read))
		b.Answers = append(b.Answers, Answer{Answer: a, Condition: read.condition(a.Holds, a.Unchecked, a.Why)})
		b.asked = append(b.asked, read)
	}
}

// A reading is what a condition read.
type reading struct {
	names   []string
	missing finding.Fact // why the first result that is not there is not
}

// condition returns the condition by its figures alone.
func (r *reading) condition(holds, unchecked bool, why string) Condition {
	c := Condition{Verdict: check.Fails}
	switch {
	case unchecked:
		c.Verdict, c.Missing = check.Undecided, r.missing
		if c.Missing == nil {
			c.Missing = Unread{why}
		}
	case holds:
		c.Verdict = check.Holds
	}
	return c
}

// results returns the results of the job as conditions read them. What one takes is
// worked out, if that has not been done.
func (b *builder) results(read *reading) design.Results {
	return func(name string) (quantity.Quantity, string, bool) {
		if !slices.Contains(read.names, name) {
			read.names = append(read.names, name)
		}
		switch name {
		case "sheets", "cost":
			b.plan(true)
		case "strength":
			b.strength(b.want&WithModes != 0)
		case "frequency":
			b.strength(true)
		}
		q, why := b.Result(name)
		if why != nil && read.missing == nil {
			read.missing = why
		}
		return q, "", why == nil
	}
}

// rests are the checks on which a result rests, by the name that conditions know
// it by: a condition is no more decided than they are.
var rests = map[string][]check.ID{
	"strength": {
		check.Post, check.Weld, check.BallWall, check.PostWall, check.Plate, check.Buckling, check.AnchorSteel,
	},
	"frequency": {check.Frequency},
	"tipping":   {check.Gust, check.Frequency}, // by which the gust factor is chosen
	"sliding":   {check.Gust, check.Frequency},
	"wind":      {check.Gust, check.Frequency},
	"cost":      {check.Cost},
}

// decide leaves conditions undecided that rest on checks that are, and adds the
// requirements to the checks.
func (b *builder) decide() {
	for i := range b.Answers {
		b.Answers[i].rest(b.Checks, b.asked[i].names)
	}
	list := b.Checks
	for i := range b.Requirements {
		r := &b.Requirements[i]
		r.rest(list, b.required[i].names)
		c := check.Check{ID: check.Require, Concern: finding.Wish, Of: r.Text, Verdict: r.Verdict}
		switch {
		case r.Missing != nil:
			c.Why = r.Missing
		case len(r.Open) > 0:
			c.Why = RestsOn{r.Open}
		}
		b.Checks = append(b.Checks, c)
	}
}

// rest leaves a condition that holds undecided where what it rests on is.
func (c *Condition) rest(list []check.Check, names []string) {
	if c.Verdict != check.Holds {
		return
	}
	for _, o := range list {
		if o.Verdict == check.Undecided && slices.ContainsFunc(names, func(name string) bool { return slices.Contains(rests[name], o.ID) }) {
			c.Open = append(c.Open, o)
		}
	}
	if len(c.Open) > 0 {
		c.Verdict = check.Undecided
	}
}
