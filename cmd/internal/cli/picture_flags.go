package cli

import (
	"errors"
	"fmt"
	"image/color"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"stabile/param"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/render/picture"
)

// A pixels is the value of a flag that gives the size of a picture.
type pixels struct{ width, height int }

// The sides of a picture, in pixels.
const (
	leastSide = 16
	mostSide  = 12000
	mostArea  = 64_000_000 // which takes about 1.3 GB while it is made
)

// Set takes a size such as "1600x1200".
func (p *pixels) Set(text string) error {
	w, h, ok := strings.Cut(strings.ToLower(strings.ReplaceAll(text, "×", "x")), "x")
	width, err1 := strconv.Atoi(strings.TrimSpace(w))
	height, err2 := strconv.Atoi(strings.TrimSpace(h))
	switch {
	case !ok || err1 != nil || err2 != nil:
		return errors.New("write it as width x height in pixels, such as 1600x1200")
	case max(width, height) > mostSide || width > 0 && height > 0 && width*height > mostArea:
		return fmt.Errorf("a side is at most %d pixels, and the whole at most %d million", mostSide, mostArea/1_000_000)
	case min(width, height) < leastSide:
		return fmt.Errorf("a side is at least %d pixels", leastSide)
	}
	*p = pixels{width, height}
	return nil
}

func (p *pixels) String() string { return fmt.Sprintf("%dx%d", p.width, p.height) }

// Type is what the flag's value is called.
func (*pixels) Type() string { return "size" }

// or returns the size, or without one long by short pixels, upright where that
// suits what is shown.
func (p pixels) or(s *picture.Scene, long, short int) pixels {
	switch {
	case p.width > 0:
		return p
	case s.Upright():
		return pixels{short, long}
	}
	return pixels{long, short}
}

// A tint is the value of a flag that names a colour.
type tint struct{ to *color.Color }

// Set takes a colour such as "#dcd6cc" or "cream".
func (t *tint) Set(text string) error {
	c, ok := picture.LookupColor(text)
	if !ok {
		return errors.New("write it as #rrggbb, or as one of " + strings.Join(picture.ColorNames(), ", "))
	}
	*t.to = c
	return nil
}

func (*tint) String() string { return "" }

// Type is what the flag's value is called.
func (*tint) Type() string { return "colour" }

// A look is what the flags say about the place, the light, the viewer and what
// stands beside the piece, as given: lengths are read when the design's units are
// known.
type look struct {
	place, light, from, eye, beside string
	paint                           color.Color
}

func (l *look) flags(f *pflag.FlagSet) {
	f.StringVar(&l.place, "place", "", "")
	f.StringVar(&l.light, "light", "", "")
	f.StringVar(&l.from, "from", "", "")
	f.StringVar(&l.eye, "eye", "", "")
	f.StringVar(&l.beside, "beside", "", "")
	f.Var(&tint{&l.paint}, "paint", "")
}

// read reads what is given into the options of a picture.
func (l *look) read(flags *pflag.FlagSet, units quantity.System, o *picture.Options) error {
	o.Paint = l.paint
	if err := readPlace(l.place, o); flags.Changed("place") && err != nil {
		return err
	}
	turn := quantity.Quantity{Number: 2 * math.Pi, Dim: quantity.Angle}
	back := turn
	back.Number *= -1
	bearing := limits{back, turn, "240 deg"}
	if flags.Changed("from") {
		q, err := measure("from", l.from, bearing, units)
		if err != nil {
			return err
		}
		o.From = new(q.Radians())
	}
	if flags.Changed("light") {
		if kind, ok := picture.LookupLight(strings.TrimSpace(l.light)); ok {
			o.Light = kind
		} else {
			q, err := measure("light", l.light, bearing, units)
			if err != nil {
				return misuse("take low, high or soft, or the bearing from which a low light comes, such as \"200 deg\"", "--light cannot be '%s'", l.light)
			}
			o.Sun = new(q.Radians())
		}
	}
	if flags.Changed("eye") {
		q, err := measure("eye", l.eye, lengths(10, 1e6, "1.6 m"), units)
		if err != nil {
			return err
		}
		o.Eye = q.Millimetres()
	}
	o.Beside = picture.Fitting
	if !flags.Changed("beside") {
		return nil
	}
	if m, ok := measures[strings.TrimSpace(l.beside)]; ok {
		o.Beside = m
		return nil
	}
	person := lengths(300, 3_000, "1.75 m")
	if units == quantity.Inch {
		person = lengths(12*25.4, 108*25.4, "5 ft 9 in")
	}
	q, err := measure("beside", l.beside, person, units)
	if err != nil {
		var wrong *usageError
		if errors.As(err, &wrong) {
			wrong.hint = fmt.Sprintf("take person, chair, cup or none, or a person's height from 300 mm to 3 m, such as %q", person.example)
		}
		return err
	}
	o.Beside, o.Person = picture.Person, q.Millimetres()
	return nil
}

var measures = map[string]picture.Measure{
	"person": picture.Person, "chair": picture.Chair, "cup": picture.Cup, "none": picture.Nothing,
}

// readPlace reads a place, or a colour for a plain one.
func readPlace(text string, o *picture.Options) error {
	var ok bool
	if o.Place, ok = picture.LookupPlace(strings.TrimSpace(text)); ok {
		return nil
	}
	if o.Backdrop, ok = picture.LookupColor(text); ok {
		o.Place = picture.Plain
		return nil
	}
	names := make([]string, 0, 5)
	for _, p := range picture.Places() {
		names = append(names, string(p))
	}
	return misuse("take "+strings.Join(names, ", ")+", or a colour for a plain one, as #rrggbb or a name such as cream",
		"--place cannot be '%s'", text)
}

// limits are the least and the greatest value of a flag, and one that could be
// meant.
type limits struct {
	from, to quantity.Quantity
	example  string
}

func lengths(from, to float64, example string) limits {
	mm := func(x float64) quantity.Quantity { return quantity.Quantity{Number: x, Dim: quantity.Length} }
	return limits{mm(from), mm(to), example}
}

// measure reads the value of a flag as the language does.
func measure(name, text string, l limits, units quantity.System) (quantity.Quantity, error) {
	if strings.TrimSpace(text) == "" {
		return quantity.Quantity{}, misuse(fmt.Sprintf("as in --%s %q", name, l.example), "--%s needs a value after it", name)
	}
	q, err := param.Measure(text, "--"+name, units, l.from, l.to)
	var wrong *source.Error
	if errors.As(err, &wrong) {
		wording := wrong.List[0].Text
		if hint := wrong.List[0].Hint; hint != "" {
			wording += ": " + hint
		}
		return q, misuse(strings.ReplaceAll(wording, "'--"+name+"'", "--"+name), "--%s cannot be '%s'", name, text)
	}
	return q, err
}
