package bench

import (
	"bytes"
	"context"
	"fmt"
	"mime"
	"net/http"
	"path"
	"strconv"
	"strings"
	"sync"

	"stabile/fab"
	"stabile/render/ink"
	"stabile/render/list"
	"stabile/render/offer"
	"stabile/render/pack"
	"stabile/render/picture"
	"stabile/render/sheet"
	"stabile/render/vector"
	"stabile/render/words"
)

// A paperQuestion asks for papers: the name of a book, "full-size", "offer" or
// "cut-list".
type paperQuestion struct {
	state
	Kind  string `json:"kind"`
	Price bool   `json:"price"`
	Paper string `json:"paper"` // of the elevations or the offer; "" for the custom of the design
}

// papers are the last that were made.
type papers struct {
	mu   sync.Mutex
	list []*document
}

// keptPapers is how many are kept.
const keptPapers = 6

// A document is a paper that was made whole.
type document struct {
	id, name, kind string
	sheets         []*ink.Sheet // for the preview; nil of a table
	data           []byte
}

func (p *papers) keep(d *document) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if len(p.list) >= keptPapers {
		p.list = append(p.list[:0], p.list[1:]...)
	}
	p.list = append(p.list, d)
}

func (p *papers) find(id string) *document {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, d := range p.list {
		if d.id == id {
			return d
		}
	}
	return nil
}

// A made is a paper that can be fetched.
type made struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Pages int    `json:"pages"`
	Bytes int    `json:"bytes"`
}

// draw makes a paper, telling how far it is.
func (s *Server) draw(w http.ResponseWriter, r *http.Request) {
	var q paperQuestion
	if !question(w, r, &q) {
		return
	}
	ctx := r.Context()
	out := streamTo(w)
	out.tell(progress{Done: 0, Of: paperSteps, Says: "working it out"})
	worked, err := s.do(ctx, &q.state, fab.Everything)
	switch {
	case err != nil:
	case worked.job == nil:
		err = refuse(http.StatusUnprocessableEntity, "the text has mistakes that must be mended first")
	}
	if err != nil {
		if !gone(ctx) {
			out.tell(wrong{err.Error()})
		}
		return
	}
	var d *document
	_, err = s.guarded(func() (*result, error) {
		var err error
		d, err = s.document(ctx, worked.job, &q, func(done int, says string) { out.tell(progress{done, paperSteps, says}) })
		return nil, err
	})
	switch {
	case gone(ctx): // stopped: nothing is kept
	case err != nil:
		out.tell(wrong{err.Error()})
	default:
		s.papers.keep(d)
		out.tell(made{d.id, d.name, len(d.sheets), len(d.data)})
	}
}

// paperSteps is in how many steps a paper is made.
const paperSteps = 4

// document makes a paper.
func (s *Server) document(ctx context.Context, j *fab.Job, q *paperQuestion, tell func(int, string)) (*document, error) {
	d := &document{id: token()[:24], kind: "application/pdf"}
	base := strings.TrimSuffix(path.Base(q.File), Extension)
	paper, _ := sheet.LookupPaper(q.Paper)
	if q.Paper == "" && j.Design.Shop != nil {
		paper, _ = sheet.LookupPaper(j.Design.Shop.Paper)
	}
	subject := ""
	switch q.Kind {
	case string(pack.Bench), string(pack.Engineer), string(pack.Office):
		tell(1, "drawing the sheets")
		d.name, subject = base+"-"+q.Kind+".pdf", "shop drawings"
		for _, b := range pack.Books(j, pack.Options{Arrangement: paper, Date: s.options.Date}) {
			if string(b.Name) == q.Kind {
				d.sheets = b.Sheets
			}
		}
	case "full-size":
		tell(1, "drawing at full size")
		d.name, subject = base+"-full-size.pdf", "full-size patterns"
		var err error
		if d.sheets, err = pack.Patterns(j, pack.PatternOptions{Date: s.options.Date}); err != nil {
			return nil, err
		}
	case "offer":
		tell(1, "taking the picture")
		d.name, subject = base+"-offer.pdf", "offer"
		o := offer.Options{Paper: paper, Date: s.options.Date, Price: q.Price}
		scene, err := picture.New(j, picture.Options{Beside: picture.Fitting})
		if err != nil {
			return nil, err
		}
		o.Picture = scene.Render(offer.PictureSize(o, j.Design.Units, scene.Upright()))
		if gone(ctx) {
			return nil, ctx.Err()
		}
		tell(2, "laying out the page")
		if d.sheets, err = offer.Pages(j, o); err != nil {
			return nil, err
		}
	case "cut-list":
		d.name, d.kind = base+"-cut-list.csv", "text/csv"
		var b bytes.Buffer
		if err := list.CSV(&b, list.Cuts(j.Plan.Sheets, j.Plan.Saw, j.Design.Units)); err != nil {
			return nil, err
		}
		d.data = b.Bytes()
		return d, nil
	default:
		return nil, fmt.Errorf("there is no such paper")
	}
	if gone(ctx) {
		return nil, ctx.Err()
	}
	tell(3, "writing "+words.Count(len(d.sheets), "sheet"))
	var err error
	d.data, err = vector.PDF(d.sheets, vector.Info{Title: j.Design.Title, Subject: subject})
	return d, err
}

// paper answers with a paper that was made, or with one of its sheets to look at.
func (s *Server) paper(w http.ResponseWriter, r *http.Request) {
	d, name := s.papers.find(r.PathValue("id")), r.PathValue("name")
	if d == nil {
		http.Error(w, "this paper is not kept any more: make it again", http.StatusNotFound)
		return
	}
	if number, ok := strings.CutSuffix(name, ".svg"); ok {
		n, err := strconv.Atoi(number)
		if err != nil || n < 1 || n > len(d.sheets) {
			http.Error(w, "there is no such sheet", http.StatusNotFound)
			return
		}
		data, err := vector.SVG(d.sheets[n-1])
		if err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		// Looked at as an image; by itself it may load and run nothing.
		w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox")
		w.Header().Set("Content-Type", "image/svg+xml")
		_, _ = w.Write(data)
		return
	}
	if name != d.name {
		http.Error(w, "there is no such paper", http.StatusNotFound)
		return
	}
	w.Header().Set("Content-Type", d.kind)
	w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": d.name}))
	_, _ = w.Write(d.data)
}
