package bench

import (
	"context"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"mime"
	"net"
	"net/http"
	"path"
	"sync"
	"time"
)

// page is what the browser loads: one page, its styles, its modules.
//
//go:embed page
var page embed.FS

// Options are what a bench is started with.
type Options struct {
	Dir     string // the folder of the designs
	File    string // the design that is opened first, in it; "" to choose
	Outside bool   // designs may bring files from outside of the folder
	Sealed  bool   // nothing is written
	Drafts  string // the folder where drafts are kept; "" to keep none
	Date    string // that papers carry; "" for none
}

// A Server is a bench for one folder and one person.
type Server struct {
	options Options
	*guard
	folder  *folder
	drafts  *drafts
	jobs    *jobs
	papers  *papers
	news    *news
	busy    chan struct{} // one is put in for each design that is being worked out
	handler http.Handler
	close   sync.Once
}

// New returns a bench for the designs of a folder.
func New(o Options) (*Server, error) {
	f, err := openFolder(o.Dir, o.Outside, o.Sealed)
	if err != nil {
		return nil, err
	}
	if o.File != "" {
		if _, err := f.read(o.File); err != nil {
			return nil, errors.Join(fmt.Errorf("%s: %w", o.File, err), f.root.Close())
		}
	}
	s := &Server{options: o, guard: newGuard(), folder: f, jobs: newJobs(), papers: &papers{}, busy: make(chan struct{}, atOnce)}
	if !o.Sealed {
		s.drafts = openDrafts(o.Drafts, f.dir)
	}
	s.news = follow(f)
	s.handler = s.wrap(s.routes())
	return s, nil
}

// Close ends what goes on beside requests.
func (s *Server) Close() error {
	var err error
	s.close.Do(func() {
		s.news.close()
		s.drafts.close()
		err = s.folder.root.Close()
	})
	return err
}

// Serve answers on a listener of the loopback address until the context ends.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{
		Handler:           s.handler,
		ReadHeaderTimeout: 5 * time.Second,
		WriteTimeout:      answerTime,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    mostHeader,
		BaseContext:       func(net.Listener) context.Context { return ctx },
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(l) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
		s.news.close() // pages that listen would hold the end up
		last, stop := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
		defer stop()
		_ = server.Shutdown(last)
		_ = server.Close()
		return nil
	}
}

// Listen has the bench listen on the loopback address. A port of 0 is any that is
// free. It returns the listener to serve on, and what a browser opens.
func (s *Server) Listen(port int) (l net.Listener, address string, err error) {
	if l, err = net.Listen("tcp4", fmt.Sprintf("127.0.0.1:%d", port)); err != nil {
		return nil, "", err
	}
	s.serves(l.Addr().String())
	return l, s.address(l), nil
}

// address returns what a browser opens.
func (s *Server) address(l net.Listener) string {
	a := "http://" + l.Addr().String() + "/open?key=" + s.secret
	if s.options.File != "" {
		a += "&file=" + (&escaped{s.options.File}).String()
	}
	return a
}

// routes are all that is answered.
func (s *Server) routes() http.Handler {
	m := http.NewServeMux()
	m.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) { s.static(w, "index.html") })
	m.HandleFunc("GET /page/{name}", func(w http.ResponseWriter, r *http.Request) { s.static(w, r.PathValue("name")) })
	m.HandleFunc("GET /picture/{id}", s.picture)
	m.HandleFunc("GET /paper/{id}/{name}", s.paper)
	m.HandleFunc("GET /api/news", s.listen)
	m.HandleFunc("GET /api/start", s.start)
	post(m, "/api/read", s.read)
	post(m, "/api/begin", s.begin)
	post(m, "/api/save", s.save)
	post(m, "/api/draft", s.draft)
	post(m, "/api/work", s.work)
	post(m, "/api/part", s.part)
	post(m, "/api/edit", s.edit)
	post(m, "/api/complete", s.complete)
	post(m, "/api/tidy", s.tidy)
	m.HandleFunc("POST /api/vary", s.vary)
	m.HandleFunc("POST /api/papers", s.draw)
	return m
}

// static answers with a file of the page. The kinds of files are fixed.
func (s *Server) static(w http.ResponseWriter, name string) {
	data, err := fs.ReadFile(page, "page/"+path.Base(name))
	kind, ok := kinds[path.Ext(name)]
	if err != nil || !ok {
		http.Error(w, "there is no such thing", http.StatusNotFound)
		return
	}
	w.Header().Set("Content-Type", kind)
	_, _ = w.Write(data) // the reader may have gone
}

var kinds = map[string]string{
	".html": "text/html; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
	".svg":  "image/svg+xml",
}

// A refusal is an answer that says why something is not done.
type refusal struct {
	status int
	text   string
	body   any // nil for the text alone
}

func (r *refusal) Error() string { return r.text }

func refuse(status int, format string, args ...any) *refusal {
	return &refusal{status: status, text: fmt.Sprintf(format, args...)}
}

// post adds a route that takes a question as JSON and gives its answer as JSON.
func post[Q, A any](m *http.ServeMux, at string, answer func(context.Context, Q) (A, error)) {
	m.HandleFunc("POST "+at, func(w http.ResponseWriter, r *http.Request) {
		var q Q
		if !question(w, r, &q) {
			return
		}
		a, err := answer(r.Context(), q)
		if err != nil {
			tell(w, err)
			return
		}
		reply(w, http.StatusOK, a)
	})
}

// question reads what is asked. It answers itself, and reports false, where that
// is no question.
func question(w http.ResponseWriter, r *http.Request, q any) bool {
	d := json.NewDecoder(r.Body)
	err := d.Decode(q)
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		reply(w, http.StatusRequestEntityTooLarge, wrong{"that is more than a design may be"})
	case err != nil:
		reply(w, http.StatusBadRequest, wrong{"this is not understood"})
	default:
		return true
	}
	return false
}

// wrong is the answer to what cannot be done.
type wrong struct {
	Wrong string `json:"wrong"`
}

// tell answers with an error.
func tell(w http.ResponseWriter, err error) {
	var r *refusal
	switch {
	case errors.As(err, &r) && r.body != nil:
		reply(w, r.status, r.body)
	case errors.As(err, &r):
		reply(w, r.status, wrong{r.text})
	case errors.Is(err, context.Canceled):
		reply(w, http.StatusRequestTimeout, wrong{"no longer asked for"})
	case errors.Is(err, errName), errors.Is(err, fs.ErrNotExist):
		reply(w, http.StatusNotFound, wrong{err.Error()})
	default:
		reply(w, http.StatusUnprocessableEntity, wrong{err.Error()})
	}
}

func reply(w http.ResponseWriter, status int, body any) {
	data, err := json.Marshal(body)
	if err != nil {
		status, data = http.StatusInternalServerError, []byte(`{"wrong":"a fault in the program itself"}`)
	}
	w.Header().Set("Content-Type", mime.FormatMediaType("application/json", nil))
	w.WriteHeader(status)
	_, _ = w.Write(data) // the reader may have gone
}
