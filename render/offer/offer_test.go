package offer_test

import (
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/param"
	"stabile/render/ink"
	"stabile/render/internal/inspect"
	"stabile/render/offer"
	"stabile/render/sheet"
)

// examples builds every example.
func examples(t *testing.T) map[string]*fab.Job {
	t.Helper()
	const dir = "../../examples"
	paths, err := filepath.Glob(dir + "/*.stabile")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	jobs := map[string]*fab.Job{}
	for _, path := range paths {
		d, err := param.Load(os.DirFS(dir), filepath.Base(path), param.Options{})
		if err != nil {
			t.Fatal(err)
		}
		j, wrong := fab.Build(d, fab.Everything)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		jobs[filepath.Base(path)] = j
	}
	return jobs
}

// TestPage: on every paper that an office prints, the offer of every example has
// room, says what it must, and no writing meets other writing or leaves the
// margins.
func TestPage(t *testing.T) {
	for name, j := range examples(t) {
		for _, size := range []string{"A4", "letter", "A3", "tabloid"} {
			p, _ := sheet.LookupPaper(size)
			o := offer.Options{Paper: p, Date: "2027-05-03", Price: true}
			w, h := offer.PictureSize(o, j.Design.Units, j.Size.Max.Z > j.Size.Width)
			o.Picture = image.NewRGBA(image.Rect(0, 0, w/8, h/8))
			pages, err := offer.Pages(j, o)
			if err != nil {
				t.Errorf("%s on %s: %v", name, size, err)
				continue
			}
			page := pages[0]
			var all []string
			inspect.Check(t, name+" on "+size, page)
			for _, item := range page.Items {
				if text, ok := item.(*ink.Text); ok {
					all = append(all, text.Text)
				}
			}
			whole := strings.Join(all, " ")
			for _, want := range []string{j.Design.Title, "weighs", "engineer", "Revision " + j.Design.Revision(), "2027-05-03", "Price", "Ordered:", "Included", "Not included", "Not to be climbed"} {
				if !strings.Contains(whole, want) {
					t.Errorf("%s on %s does not say %q", name, size, want)
				}
			}
		}
	}
}

// TestNoPrice: a price stands on the page only where it was asked for.
func TestNoPrice(t *testing.T) {
	for name, j := range examples(t) {
		pages, err := offer.Pages(j, offer.Options{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, item := range pages[0].Items {
			if text, ok := item.(*ink.Text); ok && text.Text == "Price" {
				t.Errorf("%s: %q", name, text.Text)
			}
		}
	}
}
