package rolling

import (
	"testing"

	"stabile/fab/flat"
	"stabile/param/quantity"
)

// thirty are the blanks of a sculpture of 30 parts.
func thirty() []flat.Blank {
	var blanks []flat.Blank
	m, thin := metal("low-carbon-steel", 16, 0), metal("stainless-304", 20, 0)
	for i := range 10 {
		d := 90 + 23*float64(i)
		blanks = append(blanks, tube("post", m, d, 300+60*float64(i)), gore("ball", thin, d, 8+i), taper("horn", thin, d, d+30, 600))
	}
	return blanks
}

func BenchmarkPlan30(b *testing.B) {
	blanks := thirty()
	b.ReportAllocs()
	for b.Loop() {
		p := NewPlan(blanks, &design2in, Options{Units: quantity.Inch})
		if len(p.Batches) < 20 {
			b.Fatal(len(p.Batches), p.Findings)
		}
	}
}

func BenchmarkSet(b *testing.B) {
	m, s := handRolls(0.3), mild()
	for b.Loop() {
		if _, err := m.Set(s, 1./60); err != nil {
			b.Fatal(err)
		}
	}
}
