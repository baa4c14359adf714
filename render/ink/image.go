package ink

import (
	"fmt"
	"image"

	"gonum.org/v1/gonum/spatial/r2"
)

// An Image is a picture of dots that fills a box, upright.
type Image struct {
	Box   r2.Box
	Image image.Image
	Words string // what it shows, for those who cannot see it
}

func (*Image) item() {}

// String describes the image on one line, without its dots.
func (m *Image) String() string {
	size := m.Image.Bounds().Size()
	return fmt.Sprintf("image %s %s of %dx%d %q", point(m.Box.Min), point(m.Box.Max), size.X, size.Y, m.Words)
}
