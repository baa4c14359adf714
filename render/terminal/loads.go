package terminal

import (
	"fmt"
	"math"
	"strings"

	"stabile/fab/check"
	"stabile/fab/strength"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/words"
)

// wind tells the wind on the whole and on each part, from the bearing that tips
// it most.
func (r *report) wind() {
	w := r.Wind
	if w == nil || len(w.Bearings) == 0 {
		return
	}
	u, b := r.Design.Units, w.Bearings[w.Worst]
	r.heading("Wind")
	facts := table{columns: []column{{}, {}}}
	ground := "exposure "
	if w.Method == design.EN1991 {
		ground = "terrain category "
	}
	facts.add(false, "method", fmt.Sprintf("%s, %s%s, %s", w.Edition, ground, w.Ground, u.Speed(w.Speed)))
	most := "tips it most: " + u.Moment(math.Hypot(b.Moment.X, b.Moment.Y)) + " about the ground"
	if r.Design.Wall() != nil {
		most = "turns it most about its plate"
	}
	facts.add(false, "force", fmt.Sprintf("%s, %s up, from %s, which %s",
		u.Force(math.Hypot(b.Force.X, b.Force.Y)), u.Length(b.Center, quantity.Coarse), quantity.Bearing(b.From), most))
	if b.Force.Z > 0 {
		facts.add(false, "lift", u.Force(b.Force.Z))
	}
	if b.Scale > 1 {
		facts.add(false, "least", fmt.Sprintf("%s is the least to design for by the standard: tipping and strength are checked with it",
			u.Force(b.Scale*math.Hypot(b.Force.X, b.Force.Y))))
	}
	r.table(facts)
	r.blank()
	rows := table{columns: []column{{"Part", false}, {"Height", true}, {"Pressure", true}, {"Coefficient", true}, {"Force", true}}}
	for _, it := range w.Items {
		rows.add(false, it.Part.Name, u.Length(it.Height, quantity.Coarse), u.Pressure(it.Pressure),
			words.Coefficient(it.Coefficient), u.Force(it.Force))
	}
	r.table(rows)
}

// strength writes how much of their limits the parts use, and how the whole sways.
func (r *report) strength() {
	s := r.Strength
	if s == nil {
		return
	}
	u := r.Design.Units
	r.heading("Strength")
	facts := table{columns: []column{{}, {}}}
	if len(s.Members) > 0 {
		facts.add(r.failing(check.Post, check.Weld, check.Plate, check.AnchorSteel), "worst", fmt.Sprintf("%s of its limit: %s", words.Use(s.Worst), r.words().Spot(s.WorstAt)))
	} else {
		facts.add(false, "worst", "there is no post to check")
	}
	if p := s.Plate; p != nil {
		facts.add(r.failing(check.Plate), "plate", fmt.Sprintf("%s of its limit beside %s: %s", words.Use(p.Ratio), p.Post.Name, r.words().Fact(p.How)))
	}
	if a := s.Anchors; a != nil {
		facts.add(r.failing(check.AnchorSteel), "anchors", r.tension(a))
		if a.ShearForTarget > 0 {
			facts.add(r.failing(check.AnchorSteel), "shear", r.shear(a))
		}
	}
	if !math.IsInf(s.Buckling, 0) {
		facts.add(r.failing(check.Buckling), "buckles", buckles(s.Buckling))
	}
	switch w := s.Sway; {
	case w.Part == nil:
	case w.Case.Kind == check.NoLoad:
		facts.add(false, "sways", "not worked out: the site gives no wind and no push that sways it")
	default:
		facts.add(false, "sways", fmt.Sprintf("%s at %s in %s", u.Exact(w.Moved), w.Part.Name, r.words().Case(w.Case)))
	}
	if len(s.Modes) > 0 {
		facts.add(false, "frequency", frequencies(s))
	}
	if sh := first(s.Shedding); sh != nil {
		text := fmt.Sprintf("%s first, in a steady wind of %s", sh.Part.Name, u.Speed(sh.Critical))
		if sh.Of > 0 {
			text += fmt.Sprintf(", %s times the design wind", words.Coefficient(sh.Of))
		}
		facts.add(false, "vibrates", text)
	}
	if n := len(s.Unchecked); n > 0 {
		facts.add(false, "not covered", fmt.Sprintf("%s, see the findings", words.Count(n, "thing")))
	}
	r.table(facts)
	r.posts(s)
}

// posts is the table of each post at its worst station.
func (r *report) posts(s *strength.Strength) {
	if len(s.Members) == 0 {
		return
	}
	u := r.Design.Units
	r.blank()
	rows := table{columns: []column{
		{"Post", false}, {"Where", false}, {"D/t", true}, {"Stress", true}, {"Limit", true}, {"Used", true}, {"Worst case", false},
	}}
	for i := 0; i < len(s.Members); {
		worst := &s.Members[i]
		for p := worst.Part; i < len(s.Members) && s.Members[i].Part == p; i++ {
			if s.Members[i].Ratio > worst.Ratio {
				worst = &s.Members[i]
			}
		}
		rows.add(r.failingPart(check.Post, worst.Part.Name), worst.Part.Name, words.Place(worst.Where, worst.Joint), quantity.Decimal(worst.Section.Slenderness(), 0),
			u.Stress(worst.Stress), u.Stress(worst.Limit), words.Use(worst.Ratio), r.words().Case(worst.Case))
	}
	r.table(rows)
	if len(s.Unpushed) > 0 {
		var names []string
		for _, p := range s.Unpushed {
			names = append(names, p.Name)
		}
		alone := "own weight alone"
		if r.Wind != nil {
			alone = "own weight and wind alone"
		}
		r.faint(margin, "Not reached by the push, checked for "+alone+": "+strings.Join(names, ", ")+".")
	}
}

// tension says what tension the anchors carry.
func (r *report) tension(a *strength.Anchors) string {
	u := r.Design.Units
	text := "no tension: the weight holds it down"
	if r.Design.Wall() != nil {
		text = "no tension"
	}
	if a.Tension > 0 {
		text = "tension per anchor up to " + u.Force(a.Tension) + ", prying not included, in " + r.words().Case(a.Case)
	}
	if a.ForTarget > 0 {
		if r.Design.Wall() == nil {
			text += "; at the target factor " + u.Force(a.ForTarget)
		}
		if a.Allowed > 0 {
			text += fmt.Sprintf(", %s of what the steel of a bolt of %s carries", words.Use(a.Ratio), u.Exact(a.Bolt))
		}
		text += r.notGripped(a)
	}
	return text
}

// shear says what shear the anchors carry, and what tension and shear come to.
func (r *report) shear(a *strength.Anchors) string {
	u := r.Design.Units
	at := " at the target factor"
	if r.Design.Wall() != nil {
		at = ""
	}
	text := "shear per anchor" + at + ": " + u.Force(a.ShearForTarget) + ", without friction, in " + r.words().Case(a.ShearCase)
	if a.Allowed == 0 {
		return text + "; its bolt not checked"
	}
	text += fmt.Sprintf(", %s of what the steel of a bolt of %s carries", words.Use(a.ShearRatio), u.Exact(a.Bolt))
	if a.ForTarget > 0 {
		text += fmt.Sprintf("; tension and shear together %s", words.Use(a.Interaction))
	}
	return text + r.notGripped(a)
}

// notGripped says where it is so that what the anchors hold in was not checked.
func (r *report) notGripped(a *strength.Anchors) string {
	switch {
	case a.Grip != nil:
		return ""
	case r.Design.Wall() != nil:
		return "; hold in the wall not checked"
	}
	return "; hold in the ground not checked"
}

// buckles says when the frame buckles, rounded down.
func buckles(factor float64) string {
	switch {
	case factor <= 1:
		return "under its own loads"
	case factor >= 1000:
		return "at more than 1000 times its loads"
	}
	return "at " + quantity.Decimal(math.Floor(factor*10)/10, 1) + " times its loads"
}

// frequencies lists the natural frequencies.
func frequencies(s *strength.Strength) string {
	var list []string
	for _, m := range s.Modes {
		list = append(list, words.Coefficient(m.Frequency))
	}
	text := strings.Join(list, ", ") + " Hz"
	if !s.Complete {
		text += "; a lower one may have been missed"
	}
	return text
}

// first returns the part that vibrates in the least wind, or nil.
func first(list []strength.Shedding) *strength.Shedding {
	var least *strength.Shedding
	for i := range list {
		if least == nil || list[i].Critical < least.Critical {
			least = &list[i]
		}
	}
	return least
}
