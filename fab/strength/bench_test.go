package strength_test

import (
	"fmt"
	"testing"
	"time"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame/trial"
	"stabile/fab/solid"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/design"
)

// thirty returns a sculpture of 30 parts, the wind on it and a push.
func thirty() *trial.Builder {
	b := trial.New(1.5)
	plate := b.Plate(1000, 800, 12)
	for i := range 3 {
		foot := r3.Vec{X: -300 + 300*float64(i), Y: 50 * float64(i%2), Z: 12}
		head := r3.Add(foot, r3.Scale(800+100*float64(i), design.Leaning(0.08*float64(i), 1)))
		mast := b.Stand(fmt.Sprint("mast", i), plate, foot, head, 76, 76)
		ball := b.Tip(fmt.Sprint("moon", i), mast, 130, r3.Vec{X: 10})
		for k := range 3 {
			u := design.Leaning(0.5, 2.1*float64(k)+float64(i))
			foot := r3.Add(ball.Ball.Center, r3.Scale(130, u))
			twig := b.Stand(fmt.Sprint("twig", i, k), ball, foot, r3.Add(foot, r3.Scale(300, u)), 32, 32)
			b.Tip(fmt.Sprint("star", i, k), twig, 50, r3.Vec{})
		}
		if i == 2 {
			continue
		}
		u := design.Leaning(0.7, 3)
		foot = r3.Add(ball.Ball.Center, r3.Scale(130, u))
		b.Stand(fmt.Sprint("spike", i), ball, foot, r3.Add(foot, r3.Scale(200, u)), 25, 25)
	}
	reed := b.Stand("reed", plate, r3.Vec{X: 400, Y: -300, Z: 12}, r3.Vec{X: 400, Y: -300, Z: 700}, 40, 40)
	b.Tip("seed", reed, 60, r3.Vec{})
	b.Stand("stub", plate, r3.Vec{X: -400, Y: -300, Z: 12}, r3.Vec{X: -400, Y: -300, Z: 300}, 40, 40)
	b.Design.Site = &design.Site{Wind: 40, Method: design.ASCE7, Exposure: "C"}
	return b
}

func BenchmarkCheck(b *testing.B) {
	a := thirty()
	items := a.Items()
	for _, bench := range []struct {
		name string
		site design.Site
	}{
		{"wind", design.Site{Wind: 40, Method: design.ASCE7, Exposure: "C"}},
		{"wind, push and slope", design.Site{Wind: 40, Method: design.ASCE7, Exposure: "C", Push: 200, PushHeight: 600, Slope: 0.02}},
	} {
		b.Run(bench.name, func(b *testing.B) {
			a.Design.Site = &bench.site
			b.ReportMetric(float64(len(items)), "parts")
			// The least of all runs is what the work takes when nothing else is in
			// the way, of the machine or of the collector.
			least := time.Hour
			defer func() { b.ReportMetric(float64(least.Microseconds())/1e3, "least-ms") }()
			for b.Loop() {
				start := time.Now()
				w, err := wind.On(&a.Design, solid.Bodies(&a.Design), wind.Options{})
				if err != nil {
					b.Fatal(err)
				}
				if _, err := strength.Check(strength.Input{Design: &a.Design, Items: items, Wind: w, Footprint: rectangle(1000, 800)}); err != nil {
					b.Fatal(err)
				}
				least = min(least, time.Since(start))
			}
		})
	}
}
