package fab

import "stabile/fab/finding"

// A Price is what the client pays for the whole.
type Price struct {
	Amount   float64 // money
	Currency string  // "" where the shop names none
	Agreed   bool    // the design's own, of its job; else the likely cost by the estimate
	Deposit  float64 // money, due with the order; 0 for none
}

// Price returns the price of the job: the one that its design gives, else the likely
// cost, or why there is none. It is worked out once, and is the cost of every report.
func (j *Job) Price() (Price, finding.Fact) {
	var p Price
	job := j.Design.Job
	if s := j.Design.Shop; s != nil {
		p.Currency = s.Currency
	}
	if job != nil && job.Price > 0 {
		p.Amount, p.Agreed = job.Price, true
	} else {
		cost, why := j.costResult()
		if why != nil {
			return Price{}, why
		}
		p.Amount = cost.Number
	}
	if job != nil {
		p.Deposit = job.Deposit * p.Amount
	}
	return p, nil
}
