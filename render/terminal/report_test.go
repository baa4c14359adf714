package terminal

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/finding"
	"stabile/param/golden"
	"stabile/param/written"
)

var sgr = regexp.MustCompile("\x1b\\[[0-9]*m")

// lamp is a design with something of everything that a report can say: a round
// plate, copies that are cut alike, requirements that hold, that fail and that are
// not decided.
const lamp = `sculpture "Lamp"
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 9.525 mm }
adjust rise = 914.4 mm from 609.6 mm to 1524 mm step 25.4 mm
adjust lean = 6 deg from 0 deg to 15 deg
base pad { disc 640 mm, metal slab, ballast 18 kg, anchors 4, anchor_diameter 14 mm, anchor_edge 40 mm }
post mast on pad { at (0 mm, 0 mm), diameter 127 mm, length rise, lean lean toward 180 deg, metal skin }
ball moon on mast { diameter 304.8 mm, gores 10, metal skin }
repeat i from 1 to 3 {
  post bud[i] on pad { at polar(220 mm, 120 deg * i), diameter 80 mm, length 200 mm, metal skin }
}
variation "tall" { rise = 1524 mm }
site { push 220 N at 1200 mm, slope 1 deg }
require weight <= 63 kg
require tipping >= 9 "children lean on it"
require strength <= 1
require wind <= 1 kN
`

// built works a text out in a system of units.
func built(t testing.TB, units, text string) *fab.Job {
	t.Helper()
	d := written.Design(t, strings.Replace(text, "\n", "\nunits "+units+"\n", 1))
	d.Fingerprint = "0a1b2c3d" // it changes with any word of the text
	j, wrong := fab.Build(d, fab.Everything)
	require.NoError(t, wrong.Err())
	return j
}

// all writes the report with all its sections.
func all(t testing.TB, j *fab.Job, style Style) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Report(&b, j, style, Sections[:]...))
	return b.String()
}

func TestReport(t *testing.T) {
	for _, units := range []string{"inch", "mm"} {
		j := built(t, units, lamp)
		golden.Text(t, "testdata/lamp-"+units+".txt", all(t, j, Style{}))
		var b bytes.Buffer
		require.NoError(t, Brief(&b, j, Style{}))
		golden.Text(t, "testdata/lamp-"+units+"-brief.txt", b.String())
	}
}

// mostLines is how long a report of an example may be on the screen.
const mostLines = 45

// TestOneScreen: the report of each example fits a screen, and begins with the last
// word.
func TestOneScreen(t *testing.T) {
	for _, name := range []string{"lamp-thorn", "reed-bed", "slow-tide", "winter-orchard"} {
		j := example(t, name)
		var b bytes.Buffer
		require.NoError(t, Brief(&b, j, Style{}))
		if n := strings.Count(b.String(), "\n"); n > mostLines {
			t.Errorf("%s: %d lines, want at most %d:\n%s", name, n, mostLines, b.String())
		}
	}
}

// TestStyle: the marks of a terminal are bold and dim and nothing else, each is
// ended on its own line, and without them the text is the plain one.
func TestStyle(t *testing.T) {
	j := built(t, "inch", lamp)
	plain, marked := all(t, j, Style{}), all(t, j, Style{ANSI: true})
	if strings.Contains(plain, "\x1b") {
		t.Error("the plain report holds an escape code")
	}
	if !strings.Contains(marked, bold+"Parts"+normal) {
		t.Error("the marked report has no bold heading")
	}
	if got := sgr.ReplaceAllString(marked, ""); got != plain {
		t.Errorf("the marked report without its marks = %q, want %q", got, plain)
	}
	for line := range strings.Lines(marked) {
		if strings.Count(line, bold)+strings.Count(line, dim) != strings.Count(line, normal) {
			t.Errorf("marks not ended on the line %q", line)
		}
	}
}

// TestWidth: no name, title or reason, however wild, makes a line wider than the
// page or gets a code through to the terminal.
func TestWidth(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	letters := []rune("abcxyz_[]0123456789 \t\n\x1b\u202eäßçéΩ月球́")
	text := func(most int) string {
		s := make([]rune, r.IntN(most+1))
		for i := range s {
			s[i] = letters[r.IntN(len(letters))]
		}
		return string(s)
	}
	for _, units := range []string{"inch", "mm"} {
		for range 60 {
			j := built(t, units, lamp)
			j.Design.Title, j.Design.Fingerprint = text(300), text(12)
			for i := range j.Parts {
				j.Parts[i].Name = text(120)
				for k := range j.Parts[i].Blanks {
					j.Parts[i].Blanks[k].Name = text(150)
				}
			}
			for i := range j.Requirements {
				j.Requirements[i].Text, j.Requirements[i].Why = text(300), text(300)
			}
			for i := range j.Checks {
				j.Checks[i].Part, j.Checks[i].Of = text(90), text(300)
			}
			j.Findings = append(j.Findings, finding.Finding{Level: finding.Note, Parts: []string{text(90), text(90)}, Fact: fab.DesignNote{Text: text(900)}})
			for line := range strings.Lines(all(t, j, Style{})) {
				line = strings.TrimSuffix(line, "\n")
				if n := width(line); n > columns {
					t.Fatalf("line of %d columns: %q", n, line)
				}
				if strings.ContainsAny(line, "\x1b\t\r\u202e") {
					t.Fatalf("a control character is let through: %q", line)
				}
				if strings.TrimRight(line, " ") != line {
					t.Fatalf("line ends in spaces: %q", line)
				}
			}
		}
	}
}

// TestWorstOfManyEdges: of the many sides of a round plate the worst few are shown.
func TestWorstOfManyEdges(t *testing.T) {
	j := built(t, "mm", lamp)
	got := section(all(t, j, Style{}), "Standing")
	require.Contains(t, all(t, j, Style{}), fmt.Sprintf("The worst 3 of %d edges.", len(j.Tipping.Edges)))
	require.NotContains(t, got, "Edges 4")
}

// TestPiecesOfCopies: pieces of copies that are cut alike are listed together.
func TestPiecesOfCopies(t *testing.T) {
	require.Contains(t, section(all(t, built(t, "mm", lamp), Style{}), "To cut"), "bud[1] to bud[3]")
}
