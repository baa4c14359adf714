package bench

import (
	"fmt"
	"testing"

	"stabile/fab"
	"stabile/param"
	"stabile/param/source"
)

// BenchmarkDrawing is the lines of a design in all views, and BenchmarkQuick what is
// worked out for each change of it.
func BenchmarkDrawing(b *testing.B) {
	for _, parts := range []int{30, 300} {
		b.Run(fmt.Sprint(parts), func(b *testing.B) {
			j := rowJob(b, parts)
			for b.Loop() {
				drawingOf(j)
			}
		})
	}
}

func BenchmarkQuick(b *testing.B) {
	for _, parts := range []int{30, 300} {
		b.Run(fmt.Sprint(parts), func(b *testing.B) {
			for b.Loop() {
				rowJob(b, parts)
			}
		})
	}
}

func rowJob(b *testing.B, parts int) *fab.Job {
	d, wrong := param.Evaluate(source.NewFile("row.stabile", rowOf(parts)), param.Options{})
	if len(wrong) > 0 {
		b.Fatal(wrong.Err())
	}
	j, wrong := fab.Build(d, quick)
	if len(wrong) > 0 {
		b.Fatal(wrong.Err())
	}
	return j
}
