package picture

import (
	"image/color"
	"strconv"
	"strings"
)

// paints are the colours that have a name: of a backdrop, and of a painted
// finish by the words in its own name. They are those of the screen.
var paints = [...]struct {
	name  string
	color color.RGBA
}{
	{"white", color.RGBA{223, 221, 217, 255}},
	{"cream", color.RGBA{217, 207, 182, 255}},
	{"black", color.RGBA{36, 36, 37, 255}},
	{"graphite", color.RGBA{59, 61, 65, 255}},
	{"grey", color.RGBA{131, 133, 136, 255}},
	{"silver", color.RGBA{173, 175, 177, 255}},
	{"red", color.RGBA{181, 48, 40, 255}},
	{"orange", color.RGBA{206, 111, 36, 255}},
	{"ochre", color.RGBA{181, 134, 63, 255}},
	{"yellow", color.RGBA{217, 174, 44, 255}},
	{"green", color.RGBA{60, 115, 75, 255}},
	{"teal", color.RGBA{39, 115, 118, 255}},
	{"blue", color.RGBA{40, 82, 151, 255}},
	{"purple", color.RGBA{101, 52, 124, 255}},
	{"brown", color.RGBA{97, 64, 44, 255}},
}

// anyPaint is the colour of a finish whose name tells none.
const anyPaint = "red"

// ColorNames returns the names of colours that LookupColor knows.
func ColorNames() []string {
	names := make([]string, len(paints))
	for i, p := range paints {
		names[i] = p.name
	}
	return names
}

// LookupColor returns the colour of a name, or of a code such as "#dcd6cc" or
// "#fff".
func LookupColor(text string) (color.Color, bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	if code, ok := strings.CutPrefix(text, "#"); ok {
		if len(code) == 3 {
			code = string([]byte{code[0], code[0], code[1], code[1], code[2], code[2]})
		}
		v, err := strconv.ParseUint(code, 16, 32)
		if err != nil || len(code) != 6 {
			return nil, false
		}
		return color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}, true
	}
	if text == "gray" {
		text = "grey"
	}
	for _, p := range paints {
		if p.name == text {
			return p.color, true
		}
	}
	return nil, false
}

// paintColor returns the colour of a painted finish: the one that is given, or
// that which its name tells, such as "dark_red" or "Grey 7".
func paintColor(finish string, given *rgb) rgb {
	if given != nil {
		return *given
	}
	finish = strings.ReplaceAll(strings.ToLower(finish), "gray", "grey")
	for _, p := range paints {
		if strings.Contains(finish, p.name) {
			return linear(p.color)
		}
	}
	c, _ := LookupColor(anyPaint)
	return linear(c)
}
