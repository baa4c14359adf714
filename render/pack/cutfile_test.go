package pack_test

import (
	"encoding/xml"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/pack"
	"stabile/render/vector"
)

// A cutDocument is what a reader of an SVG sees of a file for a cutting table.
type cutDocument struct {
	Width   string `xml:"width,attr"`
	Height  string `xml:"height,attr"`
	ViewBox string `xml:"viewBox,attr"`
	Groups  []struct {
		ID    string `xml:"id,attr"`
		Fill  string `xml:"fill,attr"`
		Paths []struct {
			D     string `xml:"d,attr"`
			Label string `xml:"aria-label,attr"`
		} `xml:"path"`
		Circles []struct {
			X float64 `xml:"cx,attr"`
			Y float64 `xml:"cy,attr"`
			R float64 `xml:"r,attr"`
		} `xml:"circle"`
	} `xml:"g"`
}

var straight = regexp.MustCompile(`^M[-0-9. L]+Z?$`)

// TestCutFilesMeasured reads the files for the cutting table back: their size
// in mm, their groups, and every point of the edges, seen with y up.
func TestCutFilesMeasured(t *testing.T) {
	worst, points := 0.0, 0
	for _, e := range patternJobs(t) {
		files := pack.CutFiles(e.job, pack.PatternOptions{})
		n := 0
		for _, c := range e.job.Cuts {
			if len(c.Blank.Outline) == 0 {
				continue
			}
			marked := pack.MarkedPieces(&c.Blank)
			more := len(marked) - 1 // files of the blank but its first
			if c.Quantity > len(marked) {
				more++
			}
			s := files[n]
			n += 1 + more
			// Each piece has its own marks alone.
			seen := map[string]bool{}
			for _, f := range files[n-1-more : n] {
				if text := f.String(); seen[text] {
					t.Errorf("%s, %s is there twice", e.name, f.Name)
				} else {
					seen[text] = true
				}
			}
			data, err := vector.Plain(s)
			if err != nil {
				t.Fatal(err)
			}
			if regexp.MustCompile(`transform|dasharray|<rect|<text`).Match(data) {
				t.Errorf("%s, %s is not of plain lines", e.name, s.Name)
			}
			var doc cutDocument
			if err := xml.Unmarshal(data, &doc); err != nil {
				t.Fatal(err)
			}
			if doc.ViewBox != "0 0 "+strings.TrimSuffix(doc.Width, "mm")+" "+strings.TrimSuffix(doc.Height, "mm") {
				t.Errorf("%s: %s by %s shows %q", s.Name, doc.Width, doc.Height, doc.ViewBox)
			}
			height, err := strconv.ParseFloat(strings.TrimSuffix(doc.Height, "mm"), 64)
			if err != nil {
				t.Fatal(err)
			}
			var edges [][]r2.Vec
			var words []string
			for _, g := range doc.Groups {
				if g.Fill != "none" || g.ID != "cut" && g.ID != "mark" && g.ID != "text" {
					t.Errorf("%s has a group %q filled with %q", s.Name, g.ID, g.Fill)
				}
				for _, p := range g.Paths {
					words = append(words, p.Label)
					if g.ID != "cut" {
						continue
					}
					if !straight.MatchString(p.D) || !strings.HasSuffix(p.D, "Z") {
						t.Fatalf("%s: an edge is %.60q", s.Name, p.D)
					}
					var path []r2.Vec
					xy := strings.Fields(strings.NewReplacer("M", " ", "L", " ", "Z", " ").Replace(p.D))
					for i := 0; i+1 < len(xy); i += 2 {
						x, _ := strconv.ParseFloat(xy[i], 64)
						y, _ := strconv.ParseFloat(xy[i+1], 64)
						path = append(path, r2.Vec{X: x, Y: height - y})
					}
					edges = append(edges, append(path, path[0]))
				}
				for _, a := range g.Circles {
					if g.ID == "cut" {
						var path []r2.Vec
						for i := range 1441 {
							sin, cos := math.Sincos(float64(i) * math.Pi / 720)
							path = append(path, r2.Vec{X: a.X + a.R*cos, Y: height - a.Y + a.R*sin})
						}
						edges = append(edges, path)
					}
				}
			}
			if text := strings.Join(words, "\n"); !strings.Contains(text, "FACE UP") && !strings.Contains(text, "TEMPLATE, HEAD UP") {
				t.Errorf("%s, %s does not say which face is up: %q", e.name, s.Name, words)
			}
			wanted := trueEdges(&c.Blank, false, 0)
			if len(edges) != len(wanted) {
				t.Errorf("%s, %s has %d edges, want %d", e.name, s.Name, len(edges), len(wanted))
				continue
			}
			// The outline, which is the largest, comes first.
			for _, paths := range [2][][]r2.Vec{edges, wanted} {
				size := func(p []r2.Vec) float64 { lo, hi := extent(p); return hi.X - lo.X }
				for i := range paths {
					if size(paths[i]) > size(paths[0])+1 {
						paths[0], paths[i] = paths[i], paths[0]
					}
				}
			}
			lo, _ := extent(edges[0])
			was, _ := extent(wanted[0])
			shift := r2.Sub(lo, was)
			for i, path := range wanted {
				closed := append(path[:len(path):len(path)], path[0])
				for j, q := range closed {
					closed[j] = r2.Add(q, shift)
				}
				cut, blank := newLines(edges[i:i+1]), newLines([][]r2.Vec{closed})
				for _, q := range closed {
					points++
					worst = max(worst, cut.distance(q))
				}
				for _, q := range edges[i] {
					points++
					worst = max(worst, blank.distance(q))
				}
			}
			if worst > true1to1 {
				t.Fatalf("%s, %s is %v mm off", e.name, s.Name, worst)
			}
		}
		if n != len(files) {
			t.Errorf("%s: %d files, want %d", e.name, len(files), n)
		}
	}
	t.Logf("%d points, the worst %.4f mm off", points, worst)
}
