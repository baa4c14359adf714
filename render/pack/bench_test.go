package pack_test

import (
	"testing"

	"stabile/param/quantity"
	"stabile/render/internal/sample"
	"stabile/render/pack"
)

func BenchmarkSheets(b *testing.B) {
	for _, c := range []struct {
		name  string
		parts int
	}{{"10", 10}, {"30", 30}, {"100", 100}} {
		j := sample.Job(sample.Random(4, c.parts, quantity.Millimetre))
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				pack.Sheets(j, pack.Options{})
			}
		})
	}
}
