package fab

import (
	"fmt"
	"testing"

	"stabile/fab/sheets"
	workshop "stabile/fab/shop"
)

// BenchmarkPlan is the whole of the shop's plan of a grove of parts.
func BenchmarkPlan(b *testing.B) {
	for _, n := range []int{31, 221} {
		d := grove(b, n)
		j, wrong := Build(d)
		if len(wrong) > 0 {
			b.Fatal(wrong.Err())
		}
		b.Run(fmt.Sprint(len(d.Parts)), func(b *testing.B) {
			for b.Loop() {
				j.plan = nil
				j.Plan()
			}
			pieces := 0
			for _, blank := range j.plan.Sheets.Blanks {
				pieces += blank.Quantity
			}
			b.ReportMetric(float64(pieces), "pieces")
			b.ReportMetric(float64(j.plan.Sheets.Count()), "sheets")
			b.ReportMetric(float64(j.plan.Sheets.Bound()), "bound")
		})
	}
}

// BenchmarkSheets is the layouts alone.
func BenchmarkSheets(b *testing.B) {
	for _, n := range []int{31, 221} {
		j, wrong := Build(grove(b, n))
		if len(wrong) > 0 {
			b.Fatal(wrong.Err())
		}
		in := sheets.Input{Units: j.Design.Units}
		in.Shop, _ = workshop.For(j.Design)
		for i := range j.Parts {
			for k := range j.Parts[i].Blanks {
				in.Blanks = append(in.Blanks, &j.Parts[i].Blanks[k])
			}
		}
		b.Run(fmt.Sprint(len(j.Parts)), func(b *testing.B) {
			for b.Loop() {
				sheets.Make(in)
			}
		})
	}
}
