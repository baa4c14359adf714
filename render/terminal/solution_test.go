package terminal

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/estimate"
	"stabile/fab/finding"
	"stabile/fab/study"
	"stabile/param/design"
	"stabile/param/quantity"
)

// tried is a value of "n" that was tried, with what a condition came to.
func tried(n string, a fab.Answer) study.Result {
	return study.Result{
		Trial:   study.Trial{Set: []study.Setting{{Name: "n", Value: n}}},
		Answers: []fab.Answer{a},
	}
}

// came is a condition that came to a result.
func came(result string, q quantity.Quantity, v check.Verdict) fab.Answer {
	return fab.Answer{Answer: design.Answer{Sides: []design.Side{{Result: result, Quantity: q}}}, Condition: fab.Condition{Verdict: v}}
}

// said returns what is written of a solution, in one line.
func said(t *testing.T, s *study.Solution, condition string) string {
	t.Helper()
	var b bytes.Buffer
	w := Solution{Solution: s, Name: "n", Condition: condition, Units: quantity.Millimetre}
	require.NoError(t, w.Write(&b, Style{}))
	return strings.Join(strings.Fields(b.String()), " ")
}

// A condition that could not be checked is not reported as one that does not hold.
func TestSolutionNotChecked(t *testing.T) {
	none := fab.Answer{Answer: design.Answer{Unchecked: true}, Condition: fab.Condition{Verdict: check.Undecided, Missing: estimate.Unpriced{Items: []finding.Fact{estimate.BoughtBall{Part: "pearl"}}}}}
	s := &study.Solution{Scanned: []study.Result{tried("1", none), tried("2", none)}, Tried: 2}
	got := said(t, s, "cost <= 4")
	require.Contains(t, got, "Not known: whether cost <= 4 could not be checked with any n from 1 to 2.")
	require.Contains(t, got, "could not be checked with 2 values: no price for pearl, bought")
	require.NotContains(t, got, "There is no")

	s.Scanned[1] = tried("2", came("cost", quantity.Quantity{Number: 5}, check.Fails))
	got = said(t, s, "cost <= 4")
	require.Contains(t, got, "There is no n from 1 to 2 with which cost <= 4, of those with which it could be checked.")
	require.Contains(t, got, "could not be checked with 1 value: no price for pearl, bought")

	s.Scanned = []study.Result{{Trial: s.Scanned[0].Trial, Err: errors.New("too thin")}}
	got = said(t, s, "cost <= 4")
	require.Contains(t, got, "with which it can be made.")
	require.Contains(t, got, "cannot be made with 1 value: too thin")
}

// The last word on the design at the answer stands beside it.
func TestSolutionLastWord(t *testing.T) {
	s := &study.Solution{Found: true, Bound: true, Scanned: []study.Result{tried("1", came("strength", quantity.Quantity{Number: 0.288}, check.Holds))}, Tried: 1}
	s.Trial = s.Scanned[0]
	s.Trial.Verdict = check.Holds
	s.Value = s.Trial.Set[0]
	require.Contains(t, said(t, s, "strength <= 1"), "n = 1 is the largest with which strength <= 1 (0.29).")
	s.Trial.Verdict = check.Fails
	s.Trial.Reasons = check.Groups([]check.Check{{ID: check.Plate, Verdict: check.Fails, Found: 22.41, Limit: 1}})
	got := said(t, s, "strength <= 1")
	require.Contains(t, got, "(0.29); but the design then fails, see below.")
	require.Contains(t, got, "Fails: the base plate (22.5 of its limit).")
}

// Two values that decide never read alike.
func TestSolutionDigits(t *testing.T) {
	at := func(n string, kg float64, holds, half bool) study.Result {
		v := check.Fails
		if holds {
			v = check.Holds
		}
		result := "weight"
		if half {
			result, kg = "", kg/2
		}
		r := tried(n, came(result, quantity.Quantity{Number: kg, Dim: quantity.Mass}, v))
		return r
	}
	for _, tt := range []struct {
		condition string
		good, bad float64
		want      string
	}{
		{"weight <= 107 kg", 106.84, 107.31, "n = 6 is the largest with which weight <= 107 kg (106.84 kg). At 7 it fails: it comes to 107.31 kg."},
		{"weight<=107 kg", 106.9999, 107.0001, "(106.9999 kg). At 7 it fails: it comes to 107.0001 kg."},
		{"weight / 2 <= 107 kg", 106.84, 107.31, "(53.4 kg). At 7 it fails: it comes to 53.7 kg."},
	} {
		s := &study.Solution{Found: true, Scanned: []study.Result{at("6", tt.good, true, strings.Contains(tt.condition, "/")), at("7", tt.bad, false, strings.Contains(tt.condition, "/"))}, Tried: 2}
		s.Trial, s.Beyond = s.Scanned[0], s.Scanned[1]
		s.Value, s.Fails = s.Trial.Set[0], s.Beyond.Set[0]
		require.Contains(t, said(t, s, tt.condition), tt.want)
	}
	s := &study.Solution{Found: true, Scanned: []study.Result{at("6", 1, true, false), {Trial: at("7", 1, false, false).Trial, Err: errors.New("too thin")}}, Tried: 2}
	s.Trial, s.Beyond = s.Scanned[0], s.Scanned[1]
	s.Value, s.Fails = s.Trial.Set[0], s.Beyond.Set[0]
	require.Contains(t, said(t, s, "weight <= 107 kg"), "With 7: it cannot be made, too thin.")
}
