package pack

import (
	"testing"

	"stabile/param/quantity"
	"stabile/render/internal/sample"
)

// BenchmarkShop makes the sheets of the shop's plan of 30 parts, the plan itself
// left out.
func BenchmarkShop(b *testing.B) {
	j := sample.Job(sample.Random(4, 30, quantity.Millimetre))
	for _, c := range []struct {
		name string
		make func(*pack)
	}{
		{"layouts", (*pack).layouts},
		{"rolling", func(k *pack) { k.rollingCards(&actFlow{pack: k}) }},
		{"welding", func(k *pack) { k.welding(&actFlow{pack: k}) }},
		{"office", (*pack).officeBook},
		{"bench page", func(k *pack) { k.benchPage() }},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				c.make(newPack(j, Options{}))
			}
		})
	}
}
