package ink

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
)

// String lists the sheet for goldens: a line for each item, to a hundredth of
// a millimetre and a tenth of a degree.
func (s *Sheet) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "sheet %s %q %s x %s\n", s.Name, s.Title, number(s.Width), number(s.Height))
	for _, item := range s.Items {
		fmt.Fprintln(&b, item)
	}
	return b.String()
}

// String describes the stroke on one line.
func (s *Stroke) String() string {
	end := ""
	if s.Closed {
		end = " closed"
	}
	return fmt.Sprintf("%s%s %s%s", s.Line, group(s.Group), points(s.Path), end)
}

// String describes the arc on one line.
func (a *Arc) String() string {
	span := "circle"
	if !a.Whole() {
		span = fmt.Sprintf("arc %s..%s deg", degrees(a.From), degrees(a.To))
	}
	return fmt.Sprintf("%s%s %s %s r %s", a.Line, group(a.Group), span, point(a.Center), number(a.Radius))
}

// String describes the fill on one line.
func (f *Fill) String() string {
	return fmt.Sprintf("fill %s %s", number(f.Shade), points(f.Path))
}

// String describes the text on one line.
func (t *Text) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "text %s %s", point(t.At), number(t.Height))
	if t.Face != Regular {
		fmt.Fprintf(&b, " %s", t.Face)
	}
	switch t.Anchor {
	case Middle:
		b.WriteString(" middle")
	case End:
		b.WriteString(" end")
	}
	if t.Angle != 0 {
		fmt.Fprintf(&b, " %s deg", degrees(t.Angle))
	}
	if t.Halo {
		b.WriteString(" halo")
	}
	fmt.Fprintf(&b, " %q", t.Text)
	return b.String()
}

func group(name string) string {
	if name == "" {
		return ""
	}
	return " [" + name + "]"
}

func points(path []r2.Vec) string {
	list := make([]string, len(path))
	for i, p := range path {
		list[i] = point(p)
	}
	return strings.Join(list, " ")
}

func point(p r2.Vec) string { return number(p.X) + "," + number(p.Y) }

func degrees(rad float64) string {
	return decimal(rad*180/math.Pi, 1)
}

func number(x float64) string { return decimal(x, 2) }

func decimal(x float64, digits int) string {
	s := strconv.FormatFloat(x, 'f', digits, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
