package vector

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/external"
	"stabile/render/ink"
)

const point = 25.4 / 72 // mm

func pair() []*ink.Sheet {
	second := &ink.Sheet{Name: "02", Title: "Zweites Blatt – čišć", Width: 11 * 25.4, Height: 8.5 * 25.4}
	second.Add(&ink.Text{At: r2.Vec{X: 50, Y: 60}, Height: 3.5, Face: ink.Bold, Text: "second page"})
	return []*ink.Sheet{trial(), second}
}

func pairPDF(t *testing.T, info Info) []byte {
	t.Helper()
	data, err := PDF(pair(), info)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestPDFSound(t *testing.T) {
	data := pairPDF(t, Info{})
	out := run(t, data, ".pdf", "qpdf", "--check")
	if !strings.Contains(out, "No syntax or stream encoding errors") {
		t.Errorf("qpdf --check: %s", out)
	}
	fonts := strings.Split(strings.TrimSpace(run(t, data, ".pdf", "pdffonts")), "\n")[2:]
	if len(fonts) != 2 {
		t.Errorf("%d typefaces, want 2: %q", len(fonts), fonts)
	}
	for _, f := range fonts {
		if !regexp.MustCompile(`Identity-H +yes +yes +yes`).MatchString(f) {
			t.Errorf("not embedded, subset and searchable: %s", f)
		}
	}
}

func TestPDFInfo(t *testing.T) {
	// The byte 0D of U+010D is one that a reader would change in a plain string.
	info := Info{Title: `Č č (two) \ <three>`, Subject: "Harbour", Date: time.Date(2026, 3, 5, 6, 7, 8, 0, time.UTC)}
	data := pairPDF(t, info)
	out := run(t, data, ".pdf", "pdfinfo", "-isodates")
	for _, want := range []string{
		"Title:           " + info.Title, "Subject:         Harbour", "CreationDate:    2026-03-05T06:07:08Z",
		"Pages:           2",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("pdfinfo lacks %q:\n%s", want, out)
		}
	}
	if strings.Contains(out, "Author") {
		t.Errorf("pdfinfo has an author:\n%s", out)
	}
	if out := run(t, pairPDF(t, Info{}), ".pdf", "pdfinfo"); strings.Contains(out, "CreationDate") {
		t.Errorf("pdfinfo has a date that was not given:\n%s", out)
	}
}

func TestPDFPageSizes(t *testing.T) {
	out := run(t, pairPDF(t, Info{}), ".pdf", "pdfinfo", "-l", "2")
	sizes := regexp.MustCompile(`size: +([0-9.]+) x ([0-9.]+) pts`).FindAllStringSubmatch(out, -1)
	if len(sizes) != 2 {
		t.Fatalf("pdfinfo has %d page sizes:\n%s", len(sizes), out)
	}
	for i, s := range pair() {
		w, _ := strconv.ParseFloat(sizes[i][1], 64)
		h, _ := strconv.ParseFloat(sizes[i][2], 64)
		const digit = 0.005 // half of pdfinfo's last, in pt
		if math.Abs(w-s.Width/point) > digit || math.Abs(h-s.Height/point) > digit {
			t.Errorf("page %d is %v x %v pt, want %v x %v mm", i+1, w, h, s.Width, s.Height)
		}
	}
}

func TestPDFBookmarks(t *testing.T) {
	out := run(t, pairPDF(t, Info{}), ".pdf", "qpdf", "--json", "--json-key=outlines")
	for i, s := range pair() {
		title, _ := strconv.Unquote(regexp.MustCompile(`"title": ("(?:[^"\\]|\\.)*")`).FindAllStringSubmatch(out, -1)[i][1])
		if title != s.Title {
			t.Errorf("bookmark %d is %q, want %q", i+1, title, s.Title)
		}
		if want := fmt.Sprintf(`"destpageposfrom1": %d`, i+1); !strings.Contains(out, want) {
			t.Errorf("no bookmark leads to page %d:\n%s", i+1, out)
		}
	}
}

// Each word is found where ink says that it is.
func TestPDFText(t *testing.T) {
	out := run(t, pairPDF(t, Info{}), ".pdf", "pdftotext", "-bbox")
	var doc struct {
		Pages []struct {
			Height float64 `xml:"height,attr"`
			Words  []struct {
				X0   float64 `xml:"xMin,attr"`
				Y0   float64 `xml:"yMin,attr"`
				X1   float64 `xml:"xMax,attr"`
				Y1   float64 `xml:"yMax,attr"`
				Text string  `xml:",chardata"`
			} `xml:"word"`
		} `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal([]byte(out), &doc); err != nil {
		t.Fatal(err)
	}
	// A PDF's widths are whole thousandths of the em: over some ten letters
	// of 5 mm they sum up to less than this.
	const slack = 0.05
	found := 0
	for _, want := range []*ink.Text{
		{At: r2.Vec{X: 15, Y: 40}, Height: 3.5, Angle: math.Pi / 2, Text: "upward"},
		{At: r2.Vec{X: 70 - ink.Width("Ø5-1/4 (±1/32)", 5, ink.Regular)/2, Y: 50}, Height: 5, Text: "Ø5-1/4"},
		{At: r2.Vec{X: 200, Y: 140}, Height: 7, Face: ink.Bold, Anchor: ink.End, Text: "(two)"},
	} {
		low, high := bounds(want.Box())
		for _, w := range doc.Pages[0].Words {
			if w.Text != want.Text {
				continue
			}
			found++
			x0, x1 := w.X0*point, w.X1*point
			y0, y1 := (doc.Pages[0].Height-w.Y1)*point, (doc.Pages[0].Height-w.Y0)*point
			along := [2]float64{x0 - low.X, x1 - high.X}
			if want.Angle != 0 {
				along = [2]float64{y0 - low.Y, y1 - high.Y}
			}
			if math.Abs(along[0]) > slack || math.Abs(along[1]) > slack {
				t.Errorf("%q is at %.3f..%.3f, %.3f..%.3f mm, want %v to %v", w.Text, x0, x1, y0, y1, low, high)
			}
		}
	}
	if found != 3 {
		t.Errorf("found %d of the words, want 3:\n%s", found, out)
	}
	if text := run(t, pairPDF(t, Info{}), ".pdf", "pdftotext"); !strings.Contains(text, `Bold "title" \ (two)`) || !strings.Contains(text, "second page") {
		t.Errorf("pdftotext lacks the titles:\n%s", text)
	}
}

// content returns the operators of the first page, by qpdf.
func content(t *testing.T, data []byte) string {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.pdf"), filepath.Join(dir, "out.pdf")
	if err := os.WriteFile(in, data, 0o644); err != nil {
		t.Fatal(err)
	}
	if msg, err := exec.Command(external.Tool(t, "qpdf"), "--qdf", "--object-streams=disable", in, out).CombinedOutput(); err != nil {
		t.Fatalf("qpdf: %v\n%s", err, msg)
	}
	plain, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	_, after, _ := bytes.Cut(plain, []byte("stream\n"))
	before, _, _ := bytes.Cut(after, []byte("endstream"))
	return string(before)
}

func TestPDFTrueMillimetres(t *testing.T) {
	ops := content(t, pairPDF(t, Info{}))
	scale := regexp.MustCompile(`^\s*([0-9.]+) 0 0 ([0-9.]+) 0 0 cm`).FindStringSubmatch(ops)
	if scale == nil {
		t.Fatalf("no scale at the head of %.80q", ops)
	}
	// The library writes eight digits: over the longest sheet, 1.2 m, less
	// than a micrometre.
	if got, _ := strconv.ParseFloat(scale[1], 64); math.Abs(got*point-1)*1200 > 0.001 {
		t.Errorf("scale is %v, want %v", got, 72/25.4)
	}
	for what, want := range map[string]string{
		"rectangle":      " 20 30 m 120.5 30 l 120.5 70.25 l 20 70.25 l s",
		"hidden line":    "[3 .75] 0 d",
		"centre line":    "[6 .75 .25 .75] 0 d",
		"phantom line":   "[6 .75 .25 .75 .25 .75] 0 d",
		"phantom's path": " 10 10 m 200 10 l S",
		"wide line":      " .5 w",
		"narrow line":    " .25 w",
	} {
		if !strings.Contains(ops, want) {
			t.Errorf("the %s is not there: %q\n%s", what, want, ops)
		}
	}
}

// Circles are round: points along their cubic curves, by the definition of the
// curve, are a radius from the centre.
func TestPDFArcs(t *testing.T) {
	for _, a := range []*ink.Arc{
		ink.Circle(ink.Outline, r2.Vec{X: 160, Y: 80}, 500),
		{Radius: 500, Center: r2.Vec{X: 160, Y: 80}, From: 0.3, To: 0.31},
		{Radius: 500, Center: r2.Vec{X: 160, Y: 80}, From: -7, To: -3},
	} {
		var at r2.Vec
		length := 0.0
		for scan := arc(a).Scanner(); scan.Scan(); {
			end := r2.Vec(scan.End())
			if len(scan.Values()) == 6 {
				c1, c2 := r2.Vec(scan.CP1()), r2.Vec(scan.CP2())
				last := at
				for i := 1; i <= 64; i++ {
					u := float64(i) / 64
					v := 1 - u
					p := r2.Add(r2.Add(r2.Scale(v*v*v, at), r2.Scale(3*v*v*u, c1)), r2.Add(r2.Scale(3*v*u*u, c2), r2.Scale(u*u*u, end)))
					if off := math.Abs(r2.Norm(r2.Sub(p, a.Center)) - a.Radius); off > 0.004 { // 4e-6 of the radius and rounding to a micrometre
						t.Fatalf("%v leaves its circle by %v mm", a, off)
					}
					length += r2.Norm(r2.Sub(p, last))
					last = p
				}
			}
			at = end
		}
		if want := a.Radius * (a.To - a.From); math.Abs(length-want) > 1e-4*want+0.002 {
			t.Errorf("%v is %v mm long, want %v", a, length, want)
		}
	}
}

// Equal input gives equal bytes: again and again, and in every time zone.
func TestPDFDeterministic(t *testing.T) {
	info := Info{Title: "Trial", Date: time.Unix(1772690828, 0)}
	sum := func() string { return fmt.Sprintf("%x", sha256.Sum256(pairPDF(t, info))) }
	first := sum()
	if os.Getenv("VECTOR_PRINT_SUM") != "" {
		fmt.Println("sum", first)
		return
	}
	// The library stamps with whole seconds: wait for the next.
	time.Sleep(time.Until(time.Now().Truncate(time.Second).Add(time.Second)))
	for range 20 {
		if again := sum(); again != first {
			t.Fatalf("a second run gave %s, the first %s", again, first)
		}
	}
	for _, zone := range []string{"UTC", "Asia/Kolkata", "America/St_Johns", "Pacific/Apia"} {
		cmd := exec.Command(os.Args[0], "-test.run=^TestPDFDeterministic$")
		cmd.Env = append(os.Environ(), "TZ="+zone, "VECTOR_PRINT_SUM=1")
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(out), "sum "+first) {
			t.Errorf("in %s: %swant %s", zone, out, first)
		}
	}
}

// The embedded typefaces bear the time of their own making, and their sums hold.
func TestPDFTypefaces(t *testing.T) {
	data := pairPDF(t, Info{})
	matches := fontFile.FindAllSubmatch(data, -1)
	if len(matches) != 2 {
		t.Fatalf("%d font programs, want 2", len(matches))
	}
	for _, m := range matches {
		_, object, _ := bytes.Cut(data, fmt.Appendf(nil, "\n%s 0 obj\n", m[1]))
		_, stream, _ := bytes.Cut(object, []byte("stream\n"))
		r, err := zlib.NewReader(bytes.NewReader(stream))
		if err != nil {
			t.Fatal(err)
		}
		program, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		if got := sumOf(program); got != wholeSum {
			t.Errorf("the words of a typeface add up to %#x, want %#x", got, uint32(wholeSum))
		}
		_, times, ok := bytes.Cut(program, []byte("\x5f\x0f\x3c\xf5")) // the mark in the table head
		if !ok {
			t.Fatal("a typeface has no head")
		}
		if made, changed := times[4:12], times[12:20]; !bytes.Equal(made, changed) {
			t.Errorf("a typeface was changed at %x, want when it was made, %x", changed, made)
		}
	}
}

// finish takes nothing that is not as the library writes it, and never panics.
func FuzzFinish(f *testing.F) {
	data, err := PDF([]*ink.Sheet{trial()}, Info{Title: "a"})
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add([]byte("xref\n0 4\nstartxref\n0\n"))
	f.Add([]byte("startxref\n"))
	f.Add([]byte("xref\n0 99999999999\nstartxref\n0\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		out, err := finish(data, []*ink.Sheet{trial()}, Info{})
		if err == nil && !bytes.HasSuffix(out, []byte("%%EOF\n")) {
			t.Errorf("finish gave %q without an error", out)
		}
	})
}
