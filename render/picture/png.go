package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
)

// PNG returns a picture as a PNG file.
func PNG(img image.Image) ([]byte, error) {
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := e.Encode(&b, img); err != nil {
		return nil, fmt.Errorf("writing the picture: %w", err)
	}
	return b.Bytes(), nil
}
