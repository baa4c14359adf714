package inspect

import (
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
	"stabile/render/ink"
)

// darkShade is below what an area counts as a mark, on which nothing can be read;
// lighter ones are grounds that are written on.
const darkShade = 0.5

// boxDepth is by how much, in mm, a line may reach into a text's box in the model:
// the box is as wide as the letters' advances, which have some air.
const boxDepth = 0.1

// readModel finds what is on a sheet of the drawing model.
func readModel(s *ink.Sheet) *page {
	p := &page{width: s.Width, height: s.Height, depth: boxDepth, exact: 1e-6}
	for _, item := range s.Items {
		switch it := item.(type) {
		case *ink.Text:
			if strings.TrimSpace(it.Text) == "" {
				continue
			}
			shape := it.Box()
			p.texts = append(p.texts, text{label: it.Text, shape: shape, box: design.Bounds(shape), height: it.Height, lacks: ink.Missing(it.Text)})
		case *ink.Stroke:
			path := it.Path
			if it.Closed && len(path) > 0 {
				path = append(path[:len(path):len(path)], path[0])
			}
			p.addLine(path, it.Line.Width(), len(it.Line.Dashes()))
		case *ink.Arc:
			if it.Whole() {
				p.addCircle(it.Center, it.Radius, it.Line.Width(), len(it.Line.Dashes()))
				continue
			}
			path := make([]r2.Vec, chords+1)
			for i := range path {
				path[i] = it.At(it.From + (it.To-it.From)*float64(i)/chords)
			}
			p.addLine(path, it.Line.Width(), len(it.Line.Dashes()))
		case *ink.Fill:
			if it.Shade < darkShade && len(it.Path) > 0 {
				p.marks = append(p.marks, it.Path)
			}
		case *ink.Image:
			p.pictures = append(p.pictures, it.Box)
		}
	}
	return p
}
