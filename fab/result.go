package fab

import (
	"strings"

	"stabile/fab/estimate"
	"stabile/fab/finding"
	"stabile/fab/stand"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/quantity"
)

// Result returns a result by the name that requirements know it by, or why it is
// not there. What was not wanted of the job is not there.
func (j *Job) Result(name string) (quantity.Quantity, finding.Fact) {
	none := quantity.Quantity{}
	length := func(mm float64) (quantity.Quantity, finding.Fact) {
		return quantity.Quantity{Number: mm, Dim: quantity.Length}, nil
	}
	mass := func(kg float64) (quantity.Quantity, finding.Fact) {
		return quantity.Quantity{Number: kg, Dim: quantity.Mass}, nil
	}
	switch name {
	case "weight":
		return mass(j.Mass.Total)
	case "height":
		return length(j.Size.Height)
	case "width":
		return length(j.Size.Width)
	case "depth":
		return length(j.Size.Depth)
	case "tipping":
		switch {
		case j.Tipping.Sunk:
			return none, stand.InGround{}
		case j.Tipping.Hung:
			return none, stand.OnWall{}
		case len(j.Tipping.Edges) == 0:
			return none, stand.NoFootprint{}
		case !j.Tipping.Loaded:
			return none, stand.NoLoads{}
		}
		return quantity.Quantity{Number: j.Tipping.Factor}, nil
	case "sliding":
		switch s := j.Tipping.Sliding; {
		case j.Tipping.Sunk:
			return none, stand.InGround{}
		case j.Tipping.Hung:
			return none, stand.OnWall{}
		case len(j.Tipping.Edges) == 0:
			return none, stand.NoFootprint{}
		case s == nil:
			return none, stand.NoLoads{}
		default:
			return quantity.Quantity{Number: s.Factor}, nil
		}
	case "wind":
		if j.Wind == nil {
			return none, wind.NoWind{}
		}
		return quantity.Quantity{Number: j.Wind.Greatest() * 1e3, Dim: quantity.Force}, nil
	case "sheets":
		return j.sheetsResult()
	case "cost":
		return j.costResult()
	case "strength", "frequency":
		return j.strengthResult(name == "frequency")
	}
	if part, ok := strings.CutSuffix(name, ".weight"); ok {
		for i := range j.Parts {
			if j.Parts[i].Name == part {
				return mass(j.Parts[i].Mass)
			}
		}
	}
	return none, NotWorkedOut{Result: name}
}

// strengthResult is the greatest share used, or the lowest frequency.
func (j *Job) strengthResult(frequency bool) (q quantity.Quantity, why finding.Fact) {
	s := j.Strength
	switch {
	case s == nil:
		return q, StrengthNotChecked{}
	case !frequency && len(s.Members) == 0:
		return q, NoPost{}
	case j.Design.Base() == nil && !j.Design.Planted():
		return q, strength.Unchecked{Gap: strength.LooseFeet}
	case !frequency:
		return quantity.Quantity{Number: s.Worst}, nil
	case len(s.Modes) == 0:
		return q, NoPost{}
	case !s.Complete:
		return q, strength.ModeMissed{}
	}
	return quantity.Quantity{Number: s.Modes[0].Frequency, Dim: quantity.Rate}, nil
}

// sheetsResult is the number of sheets.
func (j *Job) sheetsResult() (q quantity.Quantity, why finding.Fact) {
	switch p := j.Plan; {
	case p == nil:
		return q, NotWorkedOut{Result: "sheets"}
	case !p.Sheets.Complete():
		return q, estimate.NoPlace{}
	}
	return quantity.Quantity{Number: float64(j.Plan.Sheets.Count())}, nil
}

// costResult is the likely cost.
func (j *Job) costResult() (q quantity.Quantity, why finding.Fact) {
	p := j.Plan
	if p == nil {
		return q, NotWorkedOut{Result: "cost"}
	}
	switch m := p.Estimate.Money; {
	case !p.Sheets.Complete():
		return q, estimate.NoPlace{}
	case m == nil:
		return q, estimate.NoPrices{}
	case !m.Priced():
		return q, estimate.Unpriced{Items: m.Unpriced}
	}
	return quantity.Quantity{Number: p.Estimate.Money.Total.Likely}, nil
}
