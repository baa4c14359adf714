package terminal

import (
	"bytes"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/stand"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
)

var update = flag.Bool("update", false, "write the golden files anew")

var sgr = regexp.MustCompile("\x1b\\[[0-9]*m")

// lamp is a small job with something of everything that a report can say. Its
// numbers are made up: the report is only to show them.
func lamp(u quantity.System) *fab.Job {
	skin := &design.Metal{Name: "skin", Alloy: "low-carbon-steel", Gauge: 18, Thickness: 1.2141, Tolerance: 0.1}
	slab := &design.Metal{Name: "slab", Alloy: "low-carbon-steel", Thickness: 9.525, Tolerance: 0.25}
	pad := &design.Part{Name: "pad", Metal: slab, Base: &design.Base{Width: 609.6, Depth: 508, Anchors: 4, Ballast: 18, Top: 9.525}}
	mast := &design.Part{Name: "mast", Metal: skin, Post: &design.Post{
		Length: 914.4, Lean: 0.10472, LeanBearing: math.Pi,
		Ends: [2]design.End{{Diameter: 127, Contact: design.Contact{Meets: design.OnPlate, With: pad}}, {Diameter: 127}},
	}}
	moon := &design.Part{Name: "moon", Metal: skin, Ball: &design.Ball{Radius: 152.4, Gores: 10}}
	mast.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnBall, With: moon}
	edge := func(x0, y0, x1, y1, factor float64) stand.Edge {
		return stand.Edge{
			From: r2.Vec{X: x0, Y: y0}, To: r2.Vec{X: x1, Y: y1}, Lever: 254, TipAngle: 0.4,
			Restoring: 180, Overturning: 180 / factor, Factor: factor, Case: check.Case{Kind: check.Push, Bearing: math.Pi / 2},
		}
	}
	length := func(mm float64) quantity.Quantity { return quantity.Quantity{Number: mm, Dim: quantity.Length} }
	return &fab.Job{
		Design: &design.Design{
			Title: "Lamp", Revision: "0a1b2c3d", Units: u, Source: source.NewFile("lamp.stabile", ""),
			Adjust: []design.Adjustable{
				{Name: "rise", Value: length(914.4), From: length(609.6), To: length(1524), Step: length(25.4)},
				{
					Name: "lean", Value: quantity.Quantity{Number: 0.1, Dim: quantity.Angle},
					From: quantity.Quantity{Dim: quantity.Angle}, To: quantity.Quantity{Number: 0.25, Dim: quantity.Angle},
				},
			},
			Parts:  []*design.Part{pad, mast, moon},
			Joints: []design.Joint{{Post: mast, End: design.Foot, A: pad, B: mast}, {Post: mast, End: design.Head, A: mast, B: moon}},
		},
		Parts: []fab.Part{
			{Part: pad, Mass: 23.1, Blanks: []flat.Blank{{Name: "pad", Quantity: 1, Metal: slab, Width: 609.6, Length: 508, Mass: 23.1, Forming: flat.Forming{How: "flat"}}}},
			{Part: mast, Mass: 3.44, Blanks: []flat.Blank{{Name: "mast", Quantity: 1, Metal: skin, Width: 395.2, Length: 914.4, Mass: 3.44, Forming: flat.Forming{How: "roll", MeanRadius: 62.9}}}},
			{Part: moon, Mass: 2.71, Round: &flat.Roundness{Greatest: 7.848, Mean: 2.541}, Blanks: []flat.Blank{{Name: "moon gore", Quantity: 10, Metal: skin, Width: 98.5, Length: 476.9, Mass: 0.271, Forming: flat.Forming{How: "roll", MeanRadius: 151.8}}}},
		},
		Size: fab.Size{Width: 609.6, Depth: 508, Height: 1225},
		Mass: fab.Mass{Total: 29.3, Low: 28.1, High: 30.5, Weld: 0.05, Ballast: 18},
		CG:   r3.Vec{X: -14.2, Y: 0.1, Z: 241},
		Tipping: &stand.Tipping{
			Target: 1.5, TipAngle: 0.4, Loaded: true, Factor: 1.4999, WorstEdge: 1, WorstCase: check.Case{Kind: check.Push, Bearing: math.Pi / 2}, Ballast: 0.4,
			Edges: []stand.Edge{
				edge(-304, -254, 304, -254, 2.4), edge(304, -254, 304, 254, 1.4999),
				edge(304, 254, -304, 254, 2.4), edge(-304, 254, -304, -254, 3.1),
			},
		},
		Requirements: []fab.Requirement{
			{Text: "weight <= 140 lb", Outcome: design.Outcome{Holds: true, Value: "64.6 lb"}},
			{Text: "tipping >= 1.5", Why: "children lean on it", Outcome: design.Outcome{Value: "1.49"}},
			{Text: "sheets <= 2", Outcome: design.Outcome{Unchecked: true, Value: "the layout on sheets is not worked out"}},
		},
		Findings: []finding.Finding{
			{Level: finding.Note, Part: "moon", Text: "the points of the gores are cut blunt at 3 mm"},
			{Level: finding.Caution, Part: "pad", Text: "weighs more than one person should lift alone, which is taken as 23 kg or 51 lb; use a hoist or a second pair of hands, and mind the fingers under its edge"},
			{Level: finding.Fault, Text: "the factor against tipping is under the one wanted"},
		},
	}
}

func TestReport(t *testing.T) {
	for name, u := range map[string]quantity.System{"inch": quantity.Inch, "mm": quantity.Millimetre} {
		var got bytes.Buffer
		require.NoError(t, Report(&got, lamp(u), Style{}))
		golden := filepath.Join("testdata", "lamp-"+name+".txt")
		if *update {
			require.NoError(t, os.WriteFile(golden, got.Bytes(), 0o644))
		}
		want, err := os.ReadFile(golden)
		require.NoError(t, err)
		require.Equal(t, string(want), got.String(), golden)
	}
}

// The marks of a terminal are bold and dim and nothing else, each is ended on
// its own line, and without them the text is the plain one.
func TestStyle(t *testing.T) {
	var plain, marked bytes.Buffer
	require.NoError(t, Report(&plain, lamp(quantity.Inch), Style{}))
	require.NoError(t, Report(&marked, lamp(quantity.Inch), Style{ANSI: true}))
	if strings.Contains(plain.String(), "\x1b") {
		t.Error("the plain report holds an escape code")
	}
	if !strings.Contains(marked.String(), bold+"Parts"+normal) {
		t.Error("the marked report has no bold heading")
	}
	if got := sgr.ReplaceAllString(marked.String(), ""); got != plain.String() {
		t.Errorf("the marked report without its marks = %q, want %q", got, plain.String())
	}
	for line := range strings.Lines(marked.String()) {
		if strings.Count(line, bold)+strings.Count(line, dim) != strings.Count(line, normal) {
			t.Errorf("marks not ended on the line %q", line)
		}
	}
}

// No name, title or number, however wild, makes a line wider than the page or
// gets a code through to the terminal.
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
	number := func() float64 { return (r.Float64() - 0.2) * math.Pow(10, r.Float64()*9) }
	for range 400 {
		j := lamp(quantity.System(1 + r.IntN(2)))
		j.Design.Title, j.Design.Revision = text(300), text(12)
		j.Size = fab.Size{Width: number(), Depth: number(), Height: number()}
		j.Mass = fab.Mass{Total: number(), Low: number(), High: number(), Weld: number(), Ballast: number()}
		for i := range j.Parts {
			p := &j.Parts[i]
			p.Name, p.Mass = text(120), number()
			for k := range p.Blanks {
				b := &p.Blanks[k]
				b.Name, b.Width, b.Length, b.Quantity = text(150), number(), number(), r.IntN(1e6)
			}
		}
		for i := range j.Tipping.Edges {
			e := &j.Tipping.Edges[i]
			e.Lever, e.Restoring, e.Overturning, e.Factor = number(), number(), number(), number()
			e.Case = check.Case{Kind: check.Push, Part: text(200)}
		}
		for i := range j.Requirements {
			j.Requirements[i].Text, j.Requirements[i].Why, j.Requirements[i].Outcome.Value = text(300), text(300), text(300)
		}
		for i := range j.Findings {
			j.Findings[i].Text, j.Findings[i].Part = text(900), text(90)
		}
		var got bytes.Buffer
		require.NoError(t, Report(&got, j, Style{}))
		for line := range strings.Lines(got.String()) {
			line = strings.TrimSuffix(line, "\n")
			if n := width(line); n > columns {
				t.Fatalf("line of %d columns: %q", n, line)
			}
			if strings.ContainsAny(line, "\x1b\t\r\u202e") {
				t.Fatalf("a control character is let through: %q", line)
			}
			if strings.TrimRight(line, " ") != line {
				t.Fatalf("line ends in blanks: %q", line)
			}
		}
	}
}

// A design with nothing worked out still says what it is, and what it does not
// tell.
func TestReportOfLittle(t *testing.T) {
	j := &fab.Job{Design: &design.Design{Title: "Bare", Units: quantity.Millimetre}, Tipping: &stand.Tipping{}}
	var got bytes.Buffer
	require.NoError(t, Report(&got, j, Style{}))
	for _, want := range []string{"Bare\n", "there is no footprint to stand on", "tipping not checked under load"} {
		if !strings.Contains(got.String(), want) {
			t.Errorf("report = %q, want it to hold %q", got.String(), want)
		}
	}
}

func TestRoundFootprintShowsTheWorst(t *testing.T) {
	j := lamp(quantity.Inch)
	j.Tipping.Edges = nil
	const sides = 72
	for i := range sides {
		a, b := 2*math.Pi*float64(i)/sides, 2*math.Pi*float64(i+1)/sides
		j.Tipping.Edges = append(j.Tipping.Edges, stand.Edge{
			From: r2.Vec{X: math.Cos(a), Y: math.Sin(a)}, To: r2.Vec{X: math.Cos(b), Y: math.Sin(b)},
			Overturning: 1, Factor: 2 + math.Abs(float64(i)-40)/10, Case: check.Case{Kind: check.Slope, Around: true},
		})
	}
	j.Tipping.WorstEdge = 40
	var got bytes.Buffer
	require.NoError(t, Report(&got, j, Style{}))
	shown := regexp.MustCompile(`(?m)^ +(\d+) .* sloping ground$`).FindAllStringSubmatch(got.String(), -1)
	var edges []string
	for _, s := range shown {
		edges = append(edges, s[1])
	}
	require.Equal(t, []string{"41", "40", "42"}, edges)
	require.Contains(t, got.String(), "The worst 3 of 72 edges.")
}

func TestVerdict(t *testing.T) {
	holds := fab.Requirement{Outcome: design.Outcome{Holds: true}}
	fails := fab.Requirement{}
	unchecked := fab.Requirement{Outcome: design.Outcome{Unchecked: true}}
	fault := finding.Finding{Level: finding.Fault}
	loaded := &stand.Tipping{Loaded: true, Factor: 2.25, Target: 1.5, Edges: make([]stand.Edge, 4)}
	for _, tt := range []struct {
		job  fab.Job
		want string
	}{
		{
			fab.Job{Requirements: []fab.Requirement{holds, holds}, Tipping: loaded},
			"Holds as far as it is checked: all 2 requirements met; factor 2.25 against tipping; wind and strength not checked; the shop's plan not looked into.",
		},
		{
			fab.Job{Requirements: []fab.Requirement{holds}, Tipping: loaded},
			"Holds as far as it is checked: the requirement is met; factor 2.25 against tipping; wind and strength not checked; the shop's plan not looked into.",
		},
		{
			fab.Job{Tipping: &stand.Tipping{}},
			"Holds as far as it is checked: nothing is required; tipping not checked under load; wind and strength not checked; the shop's plan not looked into.",
		},
		{
			fab.Job{Requirements: []fab.Requirement{holds}, Tipping: loaded, Design: &design.Design{Site: &design.Site{Slope: 0.01}}},
			"Holds as far as it is checked: the requirement is met; factor 2.25 against tipping on the slope alone, without a push; wind and strength not checked; the shop's plan not looked into.",
		},
		{
			fab.Job{Requirements: []fab.Requirement{holds}, Tipping: loaded, Design: &design.Design{Site: &design.Site{Slope: 0.01, Push: 50, PushHeight: 1000}}},
			"Holds as far as it is checked: the requirement is met; factor 2.25 against tipping; wind and strength not checked; the shop's plan not looked into.",
		},
		{
			fab.Job{Requirements: []fab.Requirement{holds, fails, unchecked}, Tipping: loaded, Findings: []finding.Finding{fault}},
			"Not well: 1 of 3 requirements not met; 1 of 3 requirements not checked; factor 2.25 against tipping; wind and strength not checked; 1 fault, those of the shop's plan not looked for.",
		},
	} {
		if got := verdict(&tt.job); got != tt.want {
			t.Errorf("verdict(%+v) = %q, want %q", tt.job, got, tt.want)
		}
	}
}

// What is said of several parts in the same words is said once.
func TestFindingsSaidOnce(t *testing.T) {
	j := lamp(quantity.Inch)
	j.Findings = []finding.Finding{
		{Level: finding.Note, Part: "mast", Text: "keep the seam to the back"},
		{Level: finding.Caution, Text: "sharp edges"},
		{Level: finding.Note, Part: "moon", Text: "keep the seam to the back"},
	}
	var got bytes.Buffer
	require.NoError(t, Report(&got, j, Style{}))
	require.Contains(t, got.String(), "  caution  sharp edges\n  note     mast, moon: keep the seam to the back\n")
}

// What is said of copies of a part is said once where the figures alone differ, each
// from the least to the greatest; of other parts, and at other levels, it is not.
func TestFindingsOfCopies(t *testing.T) {
	j := lamp(quantity.Inch)
	j.Findings = nil
	add := func(level finding.Level, part, text string) {
		j.Findings = append(j.Findings, finding.Finding{Level: level, Part: part, Text: text})
	}
	add(finding.Caution, "twig[1]", "is 13-7/16 in long and 1/2 in wide")
	add(finding.Caution, "twig[2]", "is 9-1/2 in long and 1/2 in wide")
	add(finding.Caution, "twig[3]", "is 14 in long and 1/2 in wide")
	add(finding.Caution, "twig[4]", "is heavy")
	add(finding.Caution, "limb", "is 8 in long and 1/2 in wide")
	add(finding.Note, "twig[1]", "is 7 in long and 1/2 in wide")
	var got bytes.Buffer
	require.NoError(t, Report(&got, j, Style{}))
	require.Contains(t, got.String(), `
  caution  twig[1] to twig[3]: are each 9-1/2 to 14 in long and 1/2 in wide
  caution  twig[4]: is heavy
  caution  limb: is 8 in long and 1/2 in wide
  note     twig[1]: is 7 in long and 1/2 in wide
`)
}

// Pieces of copies that are cut alike are listed together, by what they are of the
// part; those that are not are not.
func TestPiecesOfCopies(t *testing.T) {
	j := lamp(quantity.Millimetre)
	skin := j.Parts[1].Metal
	for i, wide := range []float64{50, 50, 50, 51} {
		name := []string{"bud[1]", "bud[2]", "bud[3]", "bud[4]"}[i]
		p := fab.Part{Part: &design.Part{Name: name, Metal: skin, Ball: &design.Ball{Radius: 60}}}
		for _, piece := range []string{" gore", " cap"} {
			p.Blanks = append(p.Blanks, flat.Blank{Name: name + piece, Part: name, Quantity: 4, Metal: skin, Width: wide, Length: 90, Mass: 0.05})
		}
		j.Parts = append(j.Parts, p)
	}
	var got bytes.Buffer
	require.NoError(t, Report(&got, j, Style{}))
	var rows []string
	for line := range strings.Lines(section(got.String(), "To cut")) {
		if strings.Contains(line, "bud") {
			rows = append(rows, strings.Join(strings.Fields(line)[:6], " "))
		}
	}
	require.Equal(t, []string{
		"bud[1] to bud[3] gore 12 50", "bud[1] to bud[3] cap 12 50",
		"bud[4] gore 4 51 mm 90", "bud[4] cap 4 51 mm 90",
	}, rows)
}
