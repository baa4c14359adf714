package cli

import (
	"errors"
	"fmt"
	"image/color"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"stabile/param"
	"stabile/param/design"
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
	mostArea  = 64 << 20 // which takes about a gigabyte while it is made
)

// Set takes a size such as "1600x1200".
func (p *pixels) Set(text string) error {
	w, h, ok := strings.Cut(strings.ToLower(strings.ReplaceAll(text, "×", "x")), "x")
	width, err1 := strconv.Atoi(strings.TrimSpace(w))
	height, err2 := strconv.Atoi(strings.TrimSpace(h))
	switch {
	case !ok || err1 != nil || err2 != nil:
		return errors.New("write it as width x height in pixels, such as 1600x1200")
	case min(width, height) < leastSide:
		return fmt.Errorf("the least side is %d pixels", leastSide)
	case max(width, height) > mostSide || width*height > mostArea:
		return fmt.Errorf("a side is at most %d pixels, and the whole at most %d million", mostSide, mostArea>>20)
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
	var err error
	value := func(name, text, from, to string) (quantity.Quantity, bool) {
		if err != nil || !flags.Changed(name) {
			return quantity.Quantity{}, false
		}
		var q quantity.Quantity
		q, err = measure(name, text, from, to, units)
		return q, err == nil
	}
	if q, ok := value("from", s.from, "-360 deg", "360 deg"); ok {
		o.From = new(q.Radians())
	}
	if q, ok := value("sun", s.sun, "-360 deg", "360 deg"); ok {
		o.Sun = new(q.Radians())
	}
	if q, ok := value("eye", s.eye, "10 mm", "1000 m"); ok {
		o.Eye = q.Millimetres()
	}
	if q, ok := value("distance", s.distance, "10 mm", "10000 m"); ok {
		o.Distance = q.Millimetres()
	}
	if strings.TrimSpace(s.person) == "none" {
		o.Person = 0
		return err
	}
	if q, ok := value("person", s.person, "300 mm", "3 m"); ok {
		o.Person = q.Millimetres()
	}
	return err
}

// measure reads the value of a flag as the language does: as that of an
// adjustable name, with its range, in a design of nothing but a plate.
func measure(name, text, from, to string, units quantity.System) (quantity.Quantity, error) {
	d, list := param.Evaluate(source.NewFile("flags", fmt.Sprintf(`sculpture "Flags"
units %s
metal sheet { alloy low-carbon-steel, thickness 3 mm }
base plate { plate 1 m by 1 m, metal sheet }
adjust %s = %s from %[3]s to %[4]s
`, units, flagWord(name), from, to)), param.Options{Set: []string{flagWord(name) + "=" + text}})
	if len(list) == 0 {
		return valueOf(d, flagWord(name)), nil
	}
	if strings.TrimSpace(text) == "" {
		return quantity.Quantity{}, misuse(fmt.Sprintf("as in --%s %s", name, quoted(to)), "--%s wants a value after it", name)
	}
	said := list[0].Text
	// The range of a flag cannot be widened.
	if hint, _, _ := strings.Cut(list[0].Hint, ", or widen "); hint != "" {
		said += ": " + hint
	}
	return quantity.Quantity{}, misuse(strings.ReplaceAll(said, "'"+flagWord(name)+"'", "--"+name), "--%s cannot be '%s'", name, text)
}

// quoted returns a value as it is written on the command line.
func quoted(value string) string { return `"` + value + `"` }

// flagWord is a name for a flag that no word of the language is taken for.
func flagWord(name string) string { return "flag_" + name }

func valueOf(d *design.Design, name string) quantity.Quantity {
	for _, a := range d.Adjust {
		if a.Name == name {
			return a.Value
		}
	}
	return quantity.Quantity{}
}
