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
		return fmt.Errorf("the least side is %d pixels", leastSide)
	}
	*p = pixels{width, height}
	return nil
}

func (p *pixels) String() string { return fmt.Sprintf("%dx%d", p.width, p.height) }

// Type is what the flag's value is called.
func (*pixels) Type() string { return "size" }

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

// A standpoint is what the flags say about where the viewer, the figure and the
// sun stand, as given: it is read when the design's units are known.
type standpoint struct {
	from, eye, distance, person, sun string
}

func (s *standpoint) flags(f *pflag.FlagSet) {
	f.StringVar(&s.from, "from", "", "")
	f.StringVar(&s.eye, "eye", "", "")
	f.StringVar(&s.distance, "distance", "", "")
	f.StringVar(&s.person, "person", "", "")
	f.StringVar(&s.sun, "sun", "", "")
}

// read reads what is given into the options of a picture.
func (s *standpoint) read(flags *pflag.FlagSet, units quantity.System, o *picture.Options) error {
	o.Person = picture.Adult(units)
	person := lengths(300, 3_000, "1.75 m")
	if units == quantity.Inch {
		person = lengths(12*25.4, 108*25.4, "5 ft 9 in")
	}
	turn := quantity.Quantity{Number: 2 * math.Pi, Dim: quantity.Angle}
	back := turn
	back.Number *= -1
	bearing := limits{back, turn, "240 deg"}
	var err error
	value := func(name, text string, l limits) (quantity.Quantity, bool) {
		if err != nil || !flags.Changed(name) {
			return quantity.Quantity{}, false
		}
		var q quantity.Quantity
		q, err = measure(name, text, l, units)
		return q, err == nil
	}
	if q, ok := value("from", s.from, bearing); ok {
		o.From = new(q.Radians())
	}
	if q, ok := value("sun", s.sun, bearing); ok {
		o.Sun = new(q.Radians())
	}
	if q, ok := value("eye", s.eye, lengths(10, 1e6, "1.6 m")); ok {
		o.Eye = q.Millimetres()
	}
	if q, ok := value("distance", s.distance, lengths(10, 1e7, "4 m")); ok {
		o.Distance = q.Millimetres()
	}
	if strings.TrimSpace(s.person) == "none" {
		o.Person = 0
		return err
	}
	if q, ok := value("person", s.person, person); ok {
		o.Person = q.Millimetres()
	}
	return err
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
		return quantity.Quantity{}, misuse(fmt.Sprintf("as in --%s %q", name, l.example), "--%s wants a value after it", name)
	}
	q, err := param.Measure(text, "--"+name, units, l.from, l.to)
	var wrong *source.Error
	if errors.As(err, &wrong) {
		said := wrong.List[0].Text
		if hint := wrong.List[0].Hint; hint != "" {
			said += ": " + hint
		}
		return q, misuse(strings.ReplaceAll(said, "'--"+name+"'", "--"+name), "--%s cannot be '%s'", name, text)
	}
	return q, err
}
