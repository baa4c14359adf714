package edit

import (
	"slices"
	"strings"
	"testing"
)

func TestComplete(t *testing.T) {
	for _, tt := range []struct {
		text string // with a | at the place
		want string // words that are among those offered
		not  string // words that are not
	}{
		{"|", "units metal post require", "diameter"},
		{"po|", "post", "ball"},
		{stack + "post a on moon { | }", "diameter length offset lean metal", "at gores"},
		{stack + "post a on mast { diameter 2 in, | }", "length at lean", "diameter offset"},
		{stack + "post a on mast {\n  diameter 2 in # wide\n  le|\n}", "length lean", "diameter"},
		{stack + "post a on mast { metal | }", "skin slab", "moon rise"},
		{stack + "post a on mast { diameter 2 | }", "in mm", "deg skin"},
		{stack + "post a on mast { diameter 2 in | }", "to", "toward"},
		{stack + "post a on mast { lean 5 deg | }", "toward", "to"},
		{stack + "post a on mast { lean 5 deg toward | }", "moon pebble", "skin toward"},
		{stack + "post a on mast { length | }", "rise round", "skin"},
		{stack + "ball a on mast { bend | }", "rolled domed", "rise"},
		{stack + "ball a |", "on around at", "from"},
		{stack + "ball a on |", "mast moon pad", "skin"},
		{stack + "ball a around |", "mast spur", "moon pad"},
		{stack + "post a from moon |", "to", "diameter"},
		{stack + "metal x { alloy low-|", "low-carbon-steel", "in"},
		{stack + "require |", "weight tipping moon", "skin"},
		{stack + "require moon.|", "top diameter weight", "length"},
		{stack + "let a = mast.|", "length head foot", "weight"},
		{stack + "repeat k from 1 to 2 { let a = | }", "rise", "adjust"},
		{stack + "repeat k from 1 to 2 { | }", "post let when", "units adjust shop"},
		{stack + "shop { shear { | } }", "width gauge", "sheet"},
		{stack + "shop { sheet | { } }", "skin slab", "width"},
		{stack + "variation \"x\" { | }", "rise", "spot moon"},
		{"units |", "inch mm", "post"},
		{"# po|", "", "post"},
		{"sculpture \"po|", "", "post"},
	} {
		at := strings.LastIndexByte(tt.text, '|')
		text := tt.text[:at] + tt.text[at+1:]
		from, to, words := Read("a", text, Options{}).Complete(at)
		var got []string
		for _, w := range words {
			got = append(got, w.Text)
		}
		if from > at || to < at {
			t.Errorf("%s: takes the place of [%d, %d), not of %d", tt.text, from, to, at)
		}
		for _, w := range strings.Fields(tt.want) {
			if !slices.Contains(got, w) {
				t.Errorf("%s: %s is not among %v", tt.text[max(0, at-40):], w, got)
			}
		}
		for _, w := range strings.Fields(tt.not) {
			if slices.Contains(got, w) {
				t.Errorf("%s: %s is among %v", tt.text[max(0, at-40):], w, got)
			}
		}
	}
}

func TestAbout(t *testing.T) {
	read := Read("a", stack, Options{})
	for _, tt := range []struct {
		before, word string // the word, and what stands right before it
		sort         Sort
		meaning      string
	}{
		{"  ", "diameter 5 in to", Property, "outside diameter"},
		{"", "post mast", Keyword, "rolled tube"},
		{"post mast ", "on pad", Link, "stands on"},
		{"post mast on ", "pad", PartName, ""},
		{"5 ", "in to", UnitName, "a length"},
		{"length   ", "rise", Named, ""},
		{"alloy ", "low-carbon-steel", AlloyOf, ""},
		{"offset 0, metal ", "skin", MetalOf, ""},
		{"6 in ", "toward 90", Link, ""},
		{"at ", "polar(", Function, "radius"},
		{"", "variation", Keyword, "adjustable"},
	} {
		i := strings.Index(stack, tt.before+tt.word)
		if i < 0 {
			t.Fatalf("no %q", tt.before+tt.word)
		}
		i += len(tt.before)
		w, from, to, ok := read.About(i + 1)
		if !ok || w.Sort != tt.sort || !strings.Contains(w.Meaning, tt.meaning) || from != i || to <= i {
			t.Errorf("%s%s: got %+v at [%d, %d), %v", tt.before, tt.word, w, from, to, ok)
		}
	}
}
