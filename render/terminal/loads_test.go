package terminal

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/param"
	"stabile/param/golden"
)

// TestLoads compares the report of designs in the wind with the ones kept.
func TestLoads(t *testing.T) {
	for _, name := range []string{"vane-inch", "vane-mm"} {
		d, err := param.Load(os.DirFS("testdata"), name+".stabile", param.Options{})
		require.NoError(t, err)
		d.Fingerprint = "0a1b2c3d" // it changes with any word of the text
		j, wrong := fab.Build(d, fab.Everything)
		require.NoError(t, wrong.Err())
		got := all(t, j, Style{})
		golden.Text(t, "testdata/"+name+".txt", got)
		for line := range strings.Lines(got) {
			if n := width(strings.TrimSuffix(line, "\n")); n > columns {
				t.Errorf("%s: line of %d columns: %q", name, n, line)
			}
		}
	}
}

// TestNoSway: a sway that was not worked out is no sway of nothing.
func TestNoSway(t *testing.T) {
	text := strings.Replace(lamp, "site { push 220 N at 1200 mm, slope 1 deg }", "site { slope 1 deg }", 1)
	require.Contains(t, all(t, built(t, "mm", text), Style{}), "not worked out: the site gives no wind and no push that sways it")
	require.Contains(t, all(t, built(t, "mm", lamp), Style{}), " at moon in a push on moon")
}
