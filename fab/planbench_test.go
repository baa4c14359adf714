package fab

import (
	"fmt"
	"testing"

	"stabile/fab/sheets"
	workshop "stabile/fab/shop"
	"stabile/param/source"
)

// BenchmarkPlan is a grove of parts with the whole of the shop's plan.
func BenchmarkPlan(b *testing.B) {
	for _, n := range []int{31, 221} {
		d := grove(b, n)
		b.Run(fmt.Sprint(len(d.Parts)), func(b *testing.B) {
			var j *Job
			for b.Loop() {
				var wrong source.List
				if j, wrong = Build(d, WithPlan); len(wrong) > 0 {
					b.Fatal(wrong.Err())
				}
			}
			pieces := 0
			for _, blank := range j.Plan.Sheets.Blanks {
				pieces += blank.Quantity
			}
			b.ReportMetric(float64(pieces), "pieces")
			b.ReportMetric(float64(j.Plan.Sheets.Count()), "sheets")
			b.ReportMetric(float64(j.Plan.Sheets.Bound()), "bound")
		})
	}
}

// BenchmarkSheets is the layouts alone.
func BenchmarkSheets(b *testing.B) {
	for _, n := range []int{31, 221} {
		j, wrong := Build(grove(b, n), 0)
		if len(wrong) > 0 {
			b.Fatal(wrong.Err())
		}
		in := sheets.Input{}
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
