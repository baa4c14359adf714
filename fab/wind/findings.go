package wind

import (
	"stabile/fab/check"
	"stabile/fab/finding"
)

// Findings returns what there is to say of the wind.
func (w *Wind) Findings() []finding.Finding {
	var list []finding.Finding
	if len(w.Bearings) == 0 || len(w.Items) == 0 {
		return nil
	}
	add := func(level finding.Level, parts []string, fact finding.Fact) {
		list = append(list, finding.Finding{Level: level, Concern: finding.Life, Parts: parts, Check: string(check.Wind), Fact: fact})
	}
	if height := w.tooHigh(); height > 0 {
		add(finding.Caution, nil, TooHigh{Height: height, Edition: w.Edition})
	}
	scaled, most := 0, 1.0
	for _, b := range w.Bearings {
		if b.Scale > 1 {
			scaled, most = scaled+1, max(most, b.Scale)
		}
	}
	if scaled > 0 {
		add(finding.Note, nil, LeastForce{Bearings: scaled, Of: len(w.Bearings), Greatest: most, Pressure: w.Least, Edition: w.Edition})
	}
	for i := range w.Items {
		if it := &w.Items[i]; it.Lift > 0 {
			add(finding.Note, []string{it.Part.Name}, Lifted{Uplift: it.lift(), Bowl: it.isBowl(), Egg: it.isEgg()})
		}
	}
	return list
}

// tooHigh returns the height in mm of a piece that is too high for the gust factor
// of its method; 0 for others.
func (w *Wind) tooHigh() float64 {
	most := 0.0
	if w.Edition == EN2005 && w.Swayed == nil {
		for i := range w.Items {
			most = max(most, w.Items[i].Part.Top())
		}
	}
	if most < euHigh {
		return 0
	}
	return most
}

// Check returns whether the wind is known; the wind may be nil.
func Check(w *Wind) check.Check {
	c := check.Check{ID: check.Wind, Verdict: check.Undecided, Concern: finding.Life}
	if w == nil {
		c.Why = NoWind{}
		return c
	}
	c.Source = string(w.Edition)
	if len(w.Bearings) > 0 {
		c.Case = check.Case{Kind: check.WindLoad, Bearing: w.Bearings[w.Worst].From, Speed: w.Speed, Least: w.Bearings[w.Worst].Scale > 1}
	}
	if height := w.tooHigh(); height > 0 {
		c.Why = TooHigh{Height: height, Edition: w.Edition}
		return c
	}
	c.Verdict = check.Holds
	return c
}

// NoWind: the site gives no wind.
type NoWind struct{}

// LeastForce: the least design force of the standard is more than the speed comes
// to.
type LeastForce struct {
	Bearings, Of int     // from how many bearings, of how many
	Greatest     float64 // how many times more, at most
	Pressure     float64 // Pa, the least, on what the wind meets
	Edition      Edition
}

// Lifted: a ball is so near the ground that the wind lifts it too, or a bowl is lifted by
// its mouth, or an egg since its pole leans.
type Lifted struct {
	Uplift float64 // N
	Bowl   bool
	Egg    bool
}

// TooHigh: the gust factor of the standard is not for a piece so high.
type TooHigh struct {
	Height  float64 // mm
	Edition Edition
}

// Join returns the greater of two uplifts.
func (l Lifted) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(Lifted)
	return Lifted{max(l.Uplift, o.Uplift), l.Bowl, l.Egg}, ok && l.Bowl == o.Bowl && l.Egg == o.Egg
}

// Fact marks the facts.
func (NoWind) Fact()     {}
func (LeastForce) Fact() {}
func (Lifted) Fact()     {}
func (TooHigh) Fact()    {}
