package terminal

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/quantity"
)

// TestLoads compares the report of designs in the wind with the ones kept.
func TestLoads(t *testing.T) {
	for _, name := range []string{"vane-inch", "vane-mm"} {
		d, err := param.Load(os.DirFS("testdata"), name+".stabile", param.Options{})
		require.NoError(t, err)
		d.Revision = "0a1b2c3d" // it changes with any word of the text
		j, wrong := fab.Build(d, fab.Everything)
		require.NoError(t, wrong.Err())
		var got bytes.Buffer
		require.NoError(t, Report(&got, j, Style{}))
		golden := filepath.Join("testdata", name+".txt")
		if *update {
			require.NoError(t, os.WriteFile(golden, got.Bytes(), 0o644))
		}
		want, err := os.ReadFile(golden)
		require.NoError(t, err)
		require.Equal(t, string(want), got.String(), golden)
		for line := range strings.Lines(got.String()) {
			if n := width(strings.TrimSuffix(line, "\n")); n > columns {
				t.Errorf("%s: line of %d columns: %q", name, n, line)
			}
		}
	}
}

// A sway that was not worked out is no sway of nothing.
func TestNoSway(t *testing.T) {
	j := lamp(quantity.Inch)
	j.Strength = &strength.Strength{Buckling: 5, Sway: strength.Sway{Part: j.Parts[2].Part}}
	var got bytes.Buffer
	require.NoError(t, Report(&got, j, Style{}))
	require.Contains(t, got.String(), "sways    not worked out: the site gives no wind and no push that sways it\n")
	j.Strength.Sway.Case, j.Strength.Sway.Moved = check.Case{Kind: check.Push, Part: "moon"}, 2.54
	got.Reset()
	require.NoError(t, Report(&got, j, Style{}))
	require.Contains(t, got.String(), "sways    0.1 in at moon in a push on moon from 0 deg\n")
}

// What was not checked of wind and strength is said, never passed over.
func TestVerdictOfLoads(t *testing.T) {
	post := []strength.Member{{Part: &design.Part{Name: "mast"}}}
	for _, tt := range []struct {
		job  fab.Job
		want string
	}{
		{fab.Job{}, "wind and strength not checked"},
		{fab.Job{Wind: &wind.Wind{}}, "strength not checked"},
		{fab.Job{Strength: &strength.Strength{Worst: 0.4512, Members: post}}, "worst part at 0.46 of its limit; wind not checked"},
		{fab.Job{Wind: &wind.Wind{}, Strength: &strength.Strength{Worst: 1.0001, Members: post}}, "worst part at 1.01 of its limit"},
		{fab.Job{Wind: &wind.Wind{}, Strength: &strength.Strength{}}, "no post to check for strength"},
	} {
		if got := strings.Join(loads(&tt.job), "; "); got != tt.want {
			t.Errorf("loads = %q, want %q", got, tt.want)
		}
	}
}
