package terminal

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/finding"
	"stabile/fab/study"
	"stabile/param/design"
	"stabile/param/quantity"
)

// tried is a value of "n" that was tried, with what a condition came to.
func tried(n string, a design.Answer) study.Result {
	return study.Result{
		Trial:   study.Trial{Set: []study.Setting{{Name: "n", Value: n}}},
		Answers: []design.Answer{a},
	}
}

// said returns what is written of a solution, in one line.
func said(t *testing.T, s *study.Solution, condition string) string {
	t.Helper()
	var b bytes.Buffer
	w := Solution{Solution: s, Name: "n", Condition: condition, Units: quantity.Millimetre}
	require.NoError(t, w.Write(&b, Style{}))
	return strings.Join(strings.Fields(b.String()), " ")
}

// A condition that could not be checked is not told as one that does not hold.
func TestSolutionNotChecked(t *testing.T) {
	none := design.Answer{Unchecked: true, Text: "there is no price for pearl"}
	s := &study.Solution{Scanned: []study.Result{tried("1", none), tried("2", none)}, Tried: 2}
	got := said(t, s, "cost <= 4")
	require.Contains(t, got, "Not known: whether cost <= 4 could not be checked with any n from 1 to 2.")
	require.Contains(t, got, "could not be checked with 2 values: there is no price for pearl")
	require.NotContains(t, got, "There is no")

	s.Scanned[1] = tried("2", design.Answer{Text: "5"})
	got = said(t, s, "cost <= 4")
	require.Contains(t, got, "There is no n from 1 to 2 with which cost <= 4, of those with which it could be checked.")
	require.Contains(t, got, "could not be checked with 1 value: there is no price for pearl")

	s.Scanned = []study.Result{{Trial: s.Scanned[0].Trial, Err: errors.New("too thin")}}
	got = said(t, s, "cost <= 4")
	require.Contains(t, got, "with which it can be made.")
	require.Contains(t, got, "cannot be made with 1 value: too thin")
}

// What is wrong with the design at the answer stands beside it.
func TestSolutionFaults(t *testing.T) {
	s := &study.Solution{Found: true, Bound: true, Scanned: []study.Result{tried("1", design.Answer{Holds: true, Text: "0.288"})}, Tried: 1}
	s.Trial = s.Scanned[0]
	s.Value = s.Trial.Set[0]
	require.NotContains(t, said(t, s, "strength <= 1"), "fault")
	s.Trial.Faults = []finding.Finding{{Text: "pad bends: 22.41 of its limit"}}
	s.Trial.Blank = []string{"wind"}
	got := said(t, s, "strength <= 1")
	require.Contains(t, got, "n = 1 is the largest with which strength <= 1 (0.288); but the design then has 1 fault, see below.")
	require.Contains(t, got, "With n=1 the condition holds, but the design does not do fault pad bends: 22.41 of its limit Not checked: wind.")
}

// Two values that decide never read alike.
func TestSolutionDigits(t *testing.T) {
	at := func(n string, kg float64, holds bool) study.Result {
		r := tried(n, design.Answer{Holds: holds, Text: "107 kg"})
		r.Mass = fab.Mass{Total: kg}
		return r
	}
	for _, tt := range []struct {
		condition string
		good, bad float64
		want      string
	}{
		{"weight <= 107 kg", 106.84, 107.31, "n = 6 is the largest with which weight <= 107 kg (106.84 kg). With 7 it does not hold any more: it comes to 107.31 kg."},
		{"weight<=107 kg", 106.9999, 107.0001, "(106.9999 kg). With 7 it does not hold any more: it comes to 107.0001 kg."},
		{"weight / 2 <= 107 kg", 106.84, 107.31, "(107 kg). With 7 it does not hold any more. "},
	} {
		s := &study.Solution{Found: true, Scanned: []study.Result{at("6", tt.good, true), at("7", tt.bad, false)}, Tried: 2}
		s.Trial, s.Beyond = s.Scanned[0], s.Scanned[1]
		s.Value, s.Fails = s.Trial.Set[0], s.Beyond.Set[0]
		require.Contains(t, said(t, s, tt.condition), tt.want)
	}
	s := &study.Solution{Found: true, Scanned: []study.Result{at("6", 1, true), {Trial: at("7", 1, false).Trial, Err: errors.New("too thin")}}, Tried: 2}
	s.Trial, s.Beyond = s.Scanned[0], s.Scanned[1]
	s.Value, s.Fails = s.Trial.Set[0], s.Beyond.Set[0]
	require.Contains(t, said(t, s, "weight <= 107 kg"), "With 7: it cannot be made, too thin.")
}

// The faults that a table counts are named under it, those that differ in figures
// alone once.
func TestVariationsNameFaults(t *testing.T) {
	list := []study.Result{
		{Number: 1, Trial: study.Trial{Variation: "a"}, Faults: []finding.Finding{{Text: "mast is 1100 mm long"}}},
		{Number: 2, Trial: study.Trial{Variation: "b"}, Faults: []finding.Finding{{Check: "requirement", Text: "does not hold: require x"}, {Text: "mast is 1104.5 mm long"}}, Failed: []string{"x"}},
		{Number: 3, Trial: study.Trial{Variation: "c"}, OK: true},
		{Number: 4, Trial: study.Trial{Variation: "d"}, Faults: []finding.Finding{{Text: "pad bends"}}},
	}
	v := Variations{Design: &design.Design{Title: "T", Units: quantity.Millimetre}, Tried: 4, Kept: 4, Results: list}
	var b bytes.Buffer
	require.NoError(t, v.Write(&b, Style{}))
	require.Contains(t, b.String(), "\nFaults\n  1, 2: mast is 1100 to 1104.5 mm long\n  4: pad bends\n")
	require.NotContains(t, b.String(), "require x\n")
}
