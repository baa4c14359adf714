package sheet

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

func TestWrap(t *testing.T) {
	width := ink.Width("seven balls", Small, ink.Regular) + 1e-9
	for _, tt := range []struct {
		text  string
		width float64
		want  []string
	}{
		{"", width, []string{""}},
		{"seven balls", width, []string{"seven balls"}},
		{"seven balls on a post", width, []string{"seven balls", "on a post"}},
		{"seven  balls ", width, []string{"seven balls"}},
		{"a\n\nb", width, []string{"a", "", "b"}},
		{"seven\u00a0balls on", ink.Width("seven\u00a0balls", Small, ink.Regular) + 1e-9, []string{"seven\u00a0balls", "on"}},
		{"crown\u00a04.888888889\u00a0in", ink.Width("4.888888889\u00a0in", Small, ink.Regular) + 1e-9, []string{"crown", "4.888888889\u00a0in"}},
		{"ab", 0, []string{"a", "b"}},
		{"ab", -1, []string{"a", "b"}},
	} {
		if got := Wrap(tt.text, tt.width, Small, ink.Regular); !slices.Equal(got, tt.want) {
			t.Errorf("Wrap(%q, %.2f) = %q, want %q", tt.text, tt.width, got, tt.want)
		}
	}
}

// Nothing is lost in breaking, and no line is too wide but a single letter.
func FuzzWrap(f *testing.F) {
	f.Add("seven balls on a leaning post", 20.0)
	f.Add("Donaudampfschifffahrtsgesellschaft\n\nx", 5.0)
	f.Add("\xff\xfe é 中央", 0.0)
	f.Fuzz(func(t *testing.T, text string, width float64) {
		lines := Wrap(text, width, Small, ink.Regular)
		squeeze := strings.NewReplacer(" ", "", "\n", "").Replace
		if got := squeeze(strings.Join(lines, "")); got != squeeze(text) {
			t.Errorf("Wrap(%q, %v) = %q", text, width, lines)
		}
		for _, line := range lines {
			const slack = 1e-6
			if ink.Width(line, Small, ink.Regular) > width+slack && len([]rune(line)) > 1 {
				t.Errorf("Wrap(%q, %v) has the line %q", text, width, line)
			}
		}
	})
}

func TestElide(t *testing.T) {
	for _, tt := range []struct {
		text  string
		width float64
		want  string
	}{
		{"Harbour Lights", 100, "Harbour Lights"},
		{"Harbour Lights", ink.Width("Harbour …", Small, ink.Regular), "Harbour…"},
		{"Harbour Lights", 0, ""},
		{"", 0, ""},
	} {
		if got := Elide(tt.text, tt.width, Small, ink.Regular); got != tt.want {
			t.Errorf("Elide(%q, %v) = %q, want %q", tt.text, tt.width, got, tt.want)
		}
	}
}

// flow returns a flow over boxes of a size and the sheets that it comes to.
func flow(width, height float64) (*Flow, *[]*ink.Sheet) {
	var sheets []*ink.Sheet
	f := NewFlow(func() (*ink.Sheet, r2.Box) {
		s := &ink.Sheet{Name: fmt.Sprint("sheet ", len(sheets)+1), Width: width, Height: height}
		sheets = append(sheets, s)
		return s, Box(0, 0, width, height)
	})
	return f, &sheets
}

func TestFlow(t *testing.T) {
	f, sheets := flow(150, 100)
	for i := range 4 {
		f.Heading(fmt.Sprintf("Step %d", i+1))
		f.Paragraph("Roll the flat until its edges meet, in many small passes, and tack it from the middle out.")
		f.Item("1.", ink.Bold, strings.Repeat("Dress the seam flush on the outside. ", 6))
		f.Item("Caution", ink.Bold, "Edges are sharp.")
		f.Table(parts(3))
		f.Gap(5)
	}
	if err := f.Err(); err != nil {
		t.Fatal(err)
	}
	if len(*sheets) < 2 {
		t.Fatalf("%d sheets, want more than one", len(*sheets))
	}
	for _, s := range *sheets {
		checkWriting(t, s, raised(Box(0, 0, s.Width, s.Height)))
		// A heading is never the last thing on its sheet.
		last := s.Items[len(s.Items)-1]
		if text, ok := last.(*ink.Text); ok && text.Face == ink.Bold && text.Height == Medium {
			t.Errorf("%s ends with the heading %q", s.Name, text.Text)
		}
	}
}

func TestFlowNoRoom(t *testing.T) {
	for name, write := range map[string]func(*Flow){
		"paragraph": func(f *Flow) { f.Paragraph("words") },
		"heading":   func(f *Flow) { f.Heading("words") },
		"item":      func(f *Flow) { f.Item("1.", ink.Regular, "words") },
		"table":     func(f *Flow) { f.Table(parts(2)) },
	} {
		f, _ := flow(50, 2)
		write(f)
		if f.Err() == nil {
			t.Errorf("%s in a box too low for it: no error", name)
		}
	}
	f, _ := flow(50, 50)
	f.Paragraph("words")
	if err := f.Err(); err != nil {
		t.Error(err)
	}
}
