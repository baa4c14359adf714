package offer

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"stabile/fab"
	"stabile/fab/estimate"
	"stabile/render/words"
)

// Price returns in words what a job is estimated to cost, as a range in round
// figures. It fails where the shop gives no prices, or not all of those that the
// job needs: half a price is none.
func Price(j *fab.Job) (string, error) {
	m := j.Plan.Estimate.Money
	switch {
	case m == nil:
		return "", errors.New(words.In(j.Design.Units).Fact(estimate.NoPrices{}))
	case len(m.Unpriced) > 0:
		return "", fmt.Errorf("no price for the whole, since the shop gives none for: %s", words.In(j.Design.Units).Unpriced(m.Unpriced))
	}
	step := math.Pow(10, math.Floor(math.Log10(max(m.Total.High, 1)))-1)
	low, high := math.Floor(m.Total.Low/step)*step, math.Ceil(m.Total.High/step)*step
	return strings.TrimSpace(fmt.Sprintf("about %s to %s %s", thousands(low), thousands(high), m.Currency)) + ", an estimate", nil
}

// thousands writes a whole number in groups of three digits.
func thousands(x float64) string {
	s := strconv.FormatFloat(x, 'f', 0, 64)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
