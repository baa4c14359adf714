package cli

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/param"
	"stabile/param/source"
	"stabile/param/stock"
	"stabile/render/pack"
	"stabile/render/picture"
	"stabile/render/terminal"
)

// zincSheet is an alloy that the house does not have: rolled zinc with copper and
// titanium. Its numbers are of the kind that EN 988 has, made up for the test.
var zincSheet = stock.Alloy{
	Name: "zinc-sheet", Family: stock.Copper, Density: 7200, Yield: 110, Modulus: 90e3, Poisson: 0.25,
	Soft: 60, Tensile: 160, Outdoors: stock.Zinced, Roughness: 0.2,
	Look:  stock.Look{Mirror: [3]float64{0.2, 0.4, 0.9}, New: stock.Bright},
	Group: "zinc", Joint: stock.Apart, Fumes: stock.ZincFumes, Dip: stock.Dissolves,
}

const zincDesign = `sculpture "Zinc"
units mm
metal skin { alloy zinc-sheet, gauge 16 }
metal slab { alloy low-carbon-steel, thickness 12 }
base pad { disc 700, metal slab, ballast 60 kg }
post mast on pad { diameter 90, length 700, metal skin }
ball moon on mast { diameter 240, gores 12, metal skin }
site { wind 25 m/s, terrain II }
finish bath { galvanize }
`

// An alloy goes in at one place: one entry of a table takes it through the
// report, the drawings and the picture, with what is its own in each.
func TestAlloyGoesInAtOnePlace(t *testing.T) {
	build := func(text string, table stock.Table) *fab.Job {
		t.Helper()
		d, wrong := param.Evaluate(source.NewFile("zinc.stabile", text), param.Options{Alloys: table})
		require.NoError(t, wrong.Err())
		j, wrong := fab.Build(d, fab.Everything)
		require.NoError(t, wrong.Err())
		return j
	}
	table := append(stock.Alloys(), zincSheet)
	j := build(zincDesign, table)

	if _, wrong := param.Evaluate(source.NewFile("zinc.stabile", zincDesign), param.Options{}); wrong.Err() == nil {
		t.Error("the house has zinc sheet already: the test shows nothing")
	}

	var report bytes.Buffer
	require.NoError(t, terminal.Report(&report, j, terminal.Style{}, terminal.Sections[:]...))
	text := strings.Join(strings.Fields(report.String()), " ")
	for _, want := range []string{
		"zinc-sheet 16 gauge (1.29 mm)", // Brown & Sharpe 16 is 1.291 mm
		"zinc does not fuse with it",
		"a zinc coat gives fumes",
		"may not be hot dipped: molten zinc eats it away",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the report lacks %q:\n%s", want, report.String())
		}
	}
	// Of its density: a tube of mean diameter 90 - 1.291 mm and 700 mm.
	for i := range j.Parts {
		p := &j.Parts[i]
		if p.Name != "mast" {
			continue
		}
		if want := 7200e-9 * 3.14159265 * (90 - 1.2908) * 1.2908 * 700; p.Mass < 0.99*want || p.Mass > 1.01*want {
			t.Errorf("the mast weighs %v kg, want about %v", p.Mass, want)
		}
	}

	var drawn strings.Builder
	for _, s := range pack.Sheets(j, pack.Options{}) {
		drawn.WriteString(s.String())
	}
	if !strings.Contains(drawn.String(), "zinc-sheet") {
		t.Error("no sheet names the alloy")
	}

	// The piece without a finish is as blue as its table says.
	bare := strings.Replace(zincDesign, "finish bath { galvanize }\n", "", 1)
	steel := strings.Replace(bare, "alloy zinc-sheet", "alloy low-carbon-steel", 1)
	if zinc, iron := blueness(t, build(bare, table)), blueness(t, build(steel, table)); zinc < iron+2 {
		t.Errorf("blue is over red by %.1f in zinc and %.1f in steel, want it bluer", zinc, iron)
	}
}

// blueness returns by how much blue is above red in a picture, on average, of 255.
func blueness(t *testing.T, j *fab.Job) float64 {
	t.Helper()
	s, err := picture.New(j, picture.Options{Sketch: true})
	require.NoError(t, err)
	m := s.Render(96, 128)
	var sum float64
	b := m.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			red, _, blue, _ := m.At(x, y).RGBA()
			sum += float64(blue>>8) - float64(red>>8)
		}
	}
	return sum / float64(b.Dx()*b.Dy())
}

// Nothing after the table of alloys asks which alloy or family it has before it.
func TestNobodyAsksForAnAlloy(t *testing.T) {
	families := []string{"Steel", "Galvanized", "Stainless", "Aluminium", "Copper"}
	var names []string
	for _, a := range stock.Alloys() {
		names = append(names, append(a.Aliases, a.Name)...)
	}
	// The machines of the built-in shop are rated in mild steel, and what tests
	// draw is made of it.
	free := []string{"fab/shop/hand.go", "fab/frame/trial/trial.go", "render/internal/sample/sample.go"}
	seen := 0
	for _, room := range []string{"fab", "render", "cmd"} {
		err := filepath.WalkDir("../../../"+room, func(path string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") ||
				slices.Contains(free, strings.TrimPrefix(filepath.ToSlash(path), "../../../")) {
				return err
			}
			seen++
			set := token.NewFileSet()
			f, err := parser.ParseFile(set, path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(f, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.BasicLit:
					if s, err := strconv.Unquote(n.Value); err == nil && slices.Contains(names, s) && n.Kind == token.STRING {
						t.Errorf("%s names the alloy %s: make what hangs on it a field of stock.Alloy", set.Position(n.Pos()), s)
					}
				case *ast.SelectorExpr:
					if x, ok := n.X.(*ast.Ident); ok && x.Name == "stock" && slices.Contains(families, n.Sel.Name) {
						t.Errorf("%s asks for a family: make what hangs on it a field of stock.Alloy", set.Position(n.Pos()))
					}
				}
				return true
			})
			return nil
		})
		require.NoError(t, err)
	}
	if seen < 100 {
		t.Fatalf("read %d files, want the house", seen)
	}
}
