package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/draw"
	"image/png"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// played reads an animation back by a walk over its chunks, each frame decoded by
// image/png as a file of its own, and returns what a viewer shows after each.
func played(t *testing.T, data []byte) (list []*image.NRGBA, seconds float64) {
	t.Helper()
	require.Equal(t, "\x89PNG\r\n\x1a\n", string(data[:8]))
	var head, control, body []byte
	var canvas *image.NRGBA
	frames, sequence := uint32(0), uint32(0)
	show := func() {
		if control == nil {
			return
		}
		w, h := binary.BigEndian.Uint32(control), binary.BigEndian.Uint32(control[4:])
		x, y := binary.BigEndian.Uint32(control[8:]), binary.BigEndian.Uint32(control[12:])
		seconds += float64(binary.BigEndian.Uint16(control[16:])) / float64(binary.BigEndian.Uint16(control[18:]))
		var file bytes.Buffer
		file.WriteString("\x89PNG\r\n\x1a\n")
		own := bytes.Clone(head)
		binary.BigEndian.PutUint32(own, w)
		binary.BigEndian.PutUint32(own[4:], h)
		chunk(&file, "IHDR", own)
		chunk(&file, "IDAT", body)
		chunk(&file, "IEND")
		img, err := png.Decode(&file)
		require.NoError(t, err)
		box := image.Rect(int(x), int(y), int(x+w), int(y+h))
		require.True(t, box.In(canvas.Rect), "a frame lies out of the picture: %v", box)
		require.Zero(t, control[20], "how a frame is put away")
		op := draw.Src
		if control[21] == 1 {
			op = draw.Over
		}
		draw.Draw(canvas, box, img, image.Point{}, op)
		list = append(list, &image.NRGBA{Pix: bytes.Clone(canvas.Pix), Stride: canvas.Stride, Rect: canvas.Rect})
		control, body = nil, nil
	}
	next := func(b []byte) []byte {
		require.Equal(t, sequence, binary.BigEndian.Uint32(b), "the numbers of chunks go up by one")
		sequence++
		return b[4:]
	}
	for rest := data[8:]; ; {
		n := binary.BigEndian.Uint32(rest)
		name, b := string(rest[4:8]), rest[8:8+n]
		require.Equal(t, crc32.ChecksumIEEE(rest[4:8+n]), binary.BigEndian.Uint32(rest[8+n:]), name)
		rest = rest[12+n:]
		switch name {
		case "IHDR":
			head = b
			canvas = image.NewNRGBA(image.Rect(0, 0, int(binary.BigEndian.Uint32(b)), int(binary.BigEndian.Uint32(b[4:]))))
		case "acTL":
			frames = binary.BigEndian.Uint32(b)
			require.Zero(t, binary.BigEndian.Uint32(b[4:]), "it goes round without end")
		case "fcTL":
			show()
			control = next(b)
		case "IDAT":
			body = append(body, b...)
		case "fdAT":
			body = append(body, next(b)...)
		case "IEND":
			show()
			require.Empty(t, rest)
			require.Len(t, list, int(frames))
			return list, seconds
		default:
			t.Fatalf("an unknown chunk %q", name)
		}
	}
}

// An animation reads back frame for frame as it was made, to within what no eye
// sees, and a reader that knows
// no animation sees its first frame.
func TestAPNG(t *testing.T) {
	s := scene(t, job(t, "../../examples", "slow-tide"), Options{Round: true, Beside: Person}).Plainly()
	const n = 5
	a, err := NewAnimation(n, 4)
	require.NoError(t, err)
	var made []*image.RGBA
	for i := range n {
		turned, err := s.Turned(2 * math.Pi * float64(i/2) / n) // two alike follow each other
		require.NoError(t, err)
		made = append(made, turned.Render(90, 120))
		require.NoError(t, a.Add(made[i]))
	}
	data, err := a.APNG()
	require.NoError(t, err)
	list, seconds := played(t, data)
	require.InDelta(t, 4, seconds, 1e-9)
	for i := range list {
		for k, v := range made[i].Pix {
			if w := list[i].Pix[k]; max(v, w)-min(v, w) > alikeSteps {
				t.Fatalf("frame %d: %d, want %d to within %d", i+1, w, v, alikeSteps)
			}
		}
	}
	first, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	for y := range 120 {
		for x := range 90 {
			r, g, b, _ := first.At(x, y).RGBA()
			R, G, B, _ := made[0].At(x, y).RGBA()
			if r != R || g != G || b != B {
				t.Fatalf("a plain reader sees another first frame at %d, %d", x, y)
			}
		}
	}
}

// What is no animation is not made one.
func TestAPNGWrong(t *testing.T) {
	for _, tt := range []struct {
		frames  int
		seconds float64
	}{{0, 1}, {-1, 1}, {1, -1}, {1, 1e9}, {2, math.NaN()}} {
		if _, err := NewAnimation(tt.frames, tt.seconds); err == nil {
			t.Errorf("%d frames in %v seconds make an animation", tt.frames, tt.seconds)
		}
	}
	a, err := NewAnimation(2, 1)
	require.NoError(t, err)
	require.Error(t, a.Add(image.NewRGBA(image.Rectangle{})))
	require.NoError(t, a.Add(image.NewRGBA(image.Rect(0, 0, 3, 2))))
	require.Error(t, a.Add(image.NewRGBA(image.Rect(0, 0, 2, 3))))
	_, err = a.APNG()
	require.ErrorContains(t, err, "has 1")
	require.NoError(t, a.Add(image.NewRGBA(image.Rect(0, 0, 3, 2))))
	require.Error(t, a.Add(image.NewRGBA(image.Rect(0, 0, 3, 2))))
	_, err = a.APNG()
	require.NoError(t, err)
}
