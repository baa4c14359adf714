package picture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
)

// An Animation is a picture that moves, in the making: frames of one size that go
// round without end. Each is packed by image/png; the chunks that make an animation
// of them are those of PNG, third edition (W3C, 2025), section 11.3.6. Of a frame
// only the box in which it differs from what is shown before it is kept, and in that
// only the pixels that do.
type Animation struct {
	frames, added int
	delay         uint16 // of each frame, in thousandths of a second
	sequence      uint32
	shown         *image.RGBA // by the frames so far
	out           bytes.Buffer
}

// NewAnimation returns an animation of a number of frames that take a number of
// seconds together.
func NewAnimation(frames int, seconds float64) (*Animation, error) {
	delay := math.Round(1000 * seconds / float64(frames))
	if frames < 1 || !(delay >= 0 && delay <= math.MaxUint16) {
		return nil, errors.New("an animation needs a frame, and up to a minute for each")
	}
	return &Animation{frames: frames, delay: uint16(delay)}, nil
}

// Add adds the next frame.
func (a *Animation) Add(f *image.RGBA) error {
	box := f.Bounds()
	switch {
	case a.added == a.frames:
		return errors.New("an animation was given more frames than announced")
	case box.Empty() || a.shown != nil && a.shown.Bounds() != box:
		return errors.New("the frames of an animation must be of one size")
	}
	var shown image.Image = opaque{f}
	over := byte(0)
	if a.shown != nil {
		box, shown = changes(a.shown, f)
		over = 1
	}
	data, err := packed(shown)
	if err != nil {
		return err
	}
	if a.shown == nil {
		a.out.WriteString("\x89PNG\r\n\x1a\n")
		chunk(&a.out, "IHDR", data["IHDR"])
		chunk(&a.out, "acTL", binary.BigEndian.AppendUint32(nil, uint32(a.frames)), make([]byte, 4))
	}
	var control []byte
	corner := box.Min.Sub(f.Bounds().Min)
	for _, v := range [4]int{box.Dx(), box.Dy(), corner.X, corner.Y} {
		control = binary.BigEndian.AppendUint32(control, uint32(v))
	}
	control = binary.BigEndian.AppendUint16(control, a.delay)
	control = binary.BigEndian.AppendUint16(control, 1000)
	chunk(&a.out, "fcTL", a.number(), append(control, 0, over))
	if a.shown == nil {
		chunk(&a.out, "IDAT", data["IDAT"])
	} else {
		chunk(&a.out, "fdAT", a.number(), data["IDAT"])
	}
	if a.shown == nil {
		a.shown = image.NewRGBA(box)
		draw.Draw(a.shown, box, f, box.Min, draw.Src)
	}
	a.added++
	return nil
}

// number returns the next of the numbers that the chunks of frames bear.
func (a *Animation) number() []byte {
	a.sequence++
	return binary.BigEndian.AppendUint32(nil, a.sequence-1)
}

// APNG returns the file of an animation that has all of its frames.
func (a *Animation) APNG() ([]byte, error) {
	if a.added != a.frames {
		return nil, fmt.Errorf("an animation of %d frames has %d", a.frames, a.added)
	}
	chunk(&a.out, "IEND")
	return a.out.Bytes(), nil
}

// An opaque is a picture that is packed with an alpha channel all the same, as all
// frames of an animation must be packed in one way.
type opaque struct{ *image.RGBA }

// Opaque hides from the encoder that no pixel is transparent.
func (opaque) Opaque() bool { return false }

// ColorModel is that of a picture with alpha.
func (opaque) ColorModel() color.Model { return color.NRGBAModel }

// alikeSteps is how many of the 256 steps of a primary a pixel may be off what it
// was for it to be left as it is, which no eye sees.
const alikeSteps = 2

// changes returns the box in which a frame differs from what is shown before it, of
// one pixel at least, and the frame in it, see-through where it does not differ. It
// brings what is shown up to date.
func changes(before, after *image.RGBA) (image.Rectangle, image.Image) {
	b := after.Bounds()
	var box image.Rectangle
	differ := func(x, y int) bool {
		i, j := before.PixOffset(x, y), after.PixOffset(x, y)
		for k := range 3 {
			if p, q := before.Pix[i+k], after.Pix[j+k]; max(p, q)-min(p, q) > alikeSteps {
				return true
			}
		}
		return false
	}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if differ(x, y) {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	if box.Empty() {
		box = image.Rect(b.Min.X, b.Min.Y, b.Min.X+1, b.Min.Y+1)
	}
	// The layout of pixels must not hang on what is in the box.
	part := opaque{image.NewRGBA(box)}
	draw.Draw(part.RGBA, box, after, box.Min, draw.Src)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if !differ(x, y) {
				clear(part.Pix[part.PixOffset(x, y):][:4])
				continue
			}
			copy(before.Pix[before.PixOffset(x, y):][:4], after.Pix[after.PixOffset(x, y):])
		}
	}
	return box, part
}

// packed returns the chunks of a picture as image/png packs it, those of one name
// in one.
func packed(img image.Image) (map[string][]byte, error) {
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestCompression}
	if err := e.Encode(&b, img); err != nil {
		return nil, fmt.Errorf("writing the animation: %w", err)
	}
	list := make(map[string][]byte)
	for rest := b.Bytes()[8:]; len(rest) >= 12; {
		n := binary.BigEndian.Uint32(rest)
		list[string(rest[4:8])] = append(list[string(rest[4:8])], rest[8:8+n]...)
		rest = rest[12+n:]
	}
	return list, nil
}

// chunk appends a chunk with its length and check sum.
func chunk(out *bytes.Buffer, name string, data ...[]byte) {
	body := append([]byte(name), bytes.Join(data, nil)...)
	out.Write(binary.BigEndian.AppendUint32(nil, uint32(len(body)-len(name))))
	out.Write(body)
	out.Write(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(body)))
}
