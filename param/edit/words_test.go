package edit

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/source"
)

const adjustable = `sculpture "A"
units inch
bring "shop.stabile"
adjust rise = 30 in from 20 in to 42 in step 1 in
adjust tip = 5 deg from 0 deg to 10 deg
let tall = rise * 2
base pad { plate 32 in by 28 in, metal slab }
post mast on pad { at (2 in, -1-1/2 in), diameter 5 in to 4 in, length rise, lean tip toward 180 deg, metal skin }
ball moon on mast { diamter 14 in, gores 12, metal skin }
ball eye at (1 in, 2 in, 60 in) { diameter 4 in, gores 8, metal skin }
variation "tall" { rise = 40 in }
`

// A number of a name is set at its definition, in range, on its step, in the
// variation in force.
func TestSetNamed(t *testing.T) {
	for _, tt := range []struct {
		name, variation string
		want            quantity.Quantity
		has             string
	}{
		{"rise", "", in(33.2), "adjust rise = 33 in from"},
		{"rise", "", in(99), "adjust rise = 42 in from"},
		{"rise", "tall", in(22), "{ rise = 22 in }"},
		{"tip", "", deg(7.26), "adjust tip = 7-1/2 deg"},
		{"tall", "", in(64), "adjust rise = 32 in from"},
	} {
		text := Read("a", adjustable, Options{Variation: tt.variation})
		set, err := text.SetNamed(tt.name, tt.want, 0)
		require.NoError(t, err, tt.name)
		if !strings.Contains(set.Text, strings.Replace(tt.has, "7-1/2", "7.5", 1)) {
			t.Errorf("SetNamed(%s, %v) gives\n%s\nwant %q in it", tt.name, tt.want, set.Text, tt.has)
		}
		back, err := set.Undo.Apply(set.Text)
		require.NoError(t, err)
		require.Equal(t, adjustable, back)
	}
	_, err := Read("a", adjustable, Options{}).SetNamed("none", in(1), 0)
	require.Error(t, err)
}

func TestNumbersOf(t *testing.T) {
	text := Read("a", adjustable, Options{})
	says := func(part string) string {
		list, err := text.NumbersOf(part)
		require.NoError(t, err)
		var b []string
		for _, g := range list {
			b = append(b, g.Label+"="+g.Text)
		}
		return strings.Join(b, "; ")
	}
	require.Equal(t, "plate=32 in; plate by=28 in", says("pad"))
	require.Equal(t, "at x=2 in; at y=-1-1/2 in; diameter=5 in; diameter to=4 in; length=rise; lean=tip; lean toward=180 deg", says("mast"))
	require.Equal(t, "at x=1 in; at y=2 in; at z=60 in; diameter=4 in; gores=8", says("eye"))
	// Each can be asked for again as it stands: a wish for it leaves the text alone.
	for _, part := range []string{"pad", "eye"} {
		list, err := text.NumbersOf(part)
		require.NoError(t, err)
		for _, g := range list {
			q := quantity.Quantity{Number: 25.4 * 20, Dim: g.Dim}
			if g.Dim == quantity.Number {
				q.Number = 10
			}
			_, err := text.Set(Wish{Place: g.Place, Value: q})
			require.NoError(t, err, g.Label)
		}
	}
	_, err := text.NumbersOf("none")
	require.Error(t, err)
}

// The word that was meant is one that may stand there.
func TestMeant(t *testing.T) {
	text := Read("a", adjustable, Options{})
	at := func(word string) source.Span {
		i := strings.Index(adjustable, word)
		return source.Span{File: text.tree.Source, From: i, To: i + len(word)}
	}
	meant, ok := text.Meant(at("diamter"))
	require.True(t, ok)
	require.Equal(t, "diameter", meant)
	for _, word := range []string{"gores", "30 in", "\n"} {
		if meant, ok := text.Meant(at(word)); ok {
			t.Errorf("Meant(%q) = %q, want none", word, meant)
		}
	}
}

func TestVocabulary(t *testing.T) {
	v := Vocabulary()
	for sort, words := range map[Sort][]string{
		Keyword: {"post", "ball", "adjust", "on", "require"}, Property: {"diameter", "gores", "push"}, Link: {"toward", "by"}, UnitName: {"in", "mm", "deg"}, Function: {"round", "polar"}, Result: {"tipping"},
	} {
		for _, w := range words {
			if !slices.Contains(v[sort], w) {
				t.Errorf("Vocabulary()[%s] lacks %q", sort, w)
			}
		}
		require.True(t, slices.IsSorted(v[sort]))
	}
	require.NotContains(t, v[Link], "")
	for _, d := range eval.Declarations() {
		require.Contains(t, v[Keyword], d.Keyword)
	}
}

func TestOfText(t *testing.T) {
	text := Read("a", "\ufeff"+adjustable, Options{})
	require.Equal(t, []string{"shop.stabile"}, text.Brings())
	require.Equal(t, quantity.Inch, text.Units())
	for _, p := range text.Parts() {
		require.True(t, strings.HasPrefix(("\ufeff" + adjustable)[p.From:p.To], p.Keyword+" "+p.Name), p.Name)
	}
	for name, want := range map[string]quantity.Dimension{"rise": quantity.Length, "tip": quantity.Angle, "tall": quantity.Length} {
		got, ok := text.Dimension(name)
		require.True(t, ok)
		require.Equal(t, want, got, name)
	}
	if _, ok := text.Dimension("none"); ok {
		t.Error("a name that is not there has a dimension")
	}
}
