package bench

import (
	"encoding/json"
	"fmt"
	"net/http"
	"path/filepath"
	"sync"
	"time"
)

// glance is how often an open file is looked at. One that two glances find alike
// was left alone: editors save in several steps.
const glance = 300 * time.Millisecond

// news tells pages what happens beside them: a design that was saved by another
// program, the same design open on another page.
type news struct {
	folder *folder
	mu     sync.Mutex
	open   map[*listener]bool
	closed chan struct{}
	once   sync.Once
}

// A listener is a page that listens.
type listener struct {
	file string
	says chan message
	told stamp // of the file, as the page knows it
	seen stamp // at the last glance
}

// A message is one thing told. Pages is how many have the design open.
type message struct {
	Changed string `json:"changed,omitempty"` // a file that was saved
	Pages   int    `json:"pages,omitempty"`
}

func follow(f *folder) *news {
	n := &news{folder: f, open: map[*listener]bool{}, closed: make(chan struct{})}
	go n.watch()
	return n
}

// watch tells of files that were saved and then left alone, while a page listens.
func (n *news) watch() {
	look := time.NewTicker(glance)
	defer look.Stop()
	for {
		select {
		case <-n.closed:
			return
		case <-look.C:
			n.look()
		}
	}
}

// look looks at the designs that pages have open.
func (n *news) look() {
	n.mu.Lock()
	defer n.mu.Unlock()
	now := map[string]stamp{}
	for l := range n.open {
		if l.file == "" || named(l.file) != nil {
			continue
		}
		at, ok := now[l.file]
		if !ok {
			at = n.folder.stamp(l.file)
			now[l.file] = at
		}
		switch {
		case at == l.told:
			l.seen = at
		case at == l.seen: // twice alike: left alone
			l.told = at
			l.tell(message{Changed: l.file})
		default:
			l.seen = at
		}
	}
}

// A stamp is what tells one state of a file from another.
type stamp struct {
	size int64
	when time.Time
}

func (f *folder) stamp(name string) stamp {
	info, err := f.root.Stat(filepath.FromSlash(name))
	if err != nil {
		return stamp{}
	}
	return stamp{info.Size(), info.ModTime()}
}

// tell tells a page something, unless it does not listen any more.
func (l *listener) tell(m message) {
	select {
	case l.says <- m:
	default:
	}
}

// count tells all pages of a design how many they are.
func (n *news) count(file string) {
	pages := 0
	for l := range n.open {
		if l.file == file {
			pages++
		}
	}
	for l := range n.open {
		if l.file == file {
			l.tell(message{Pages: pages})
		}
	}
}

func (n *news) close() {
	n.once.Do(func() {
		close(n.closed)
	})
}

// listen keeps an answer open and tells on it what happens, as server-sent events.
func (s *Server) listen(w http.ResponseWriter, r *http.Request) {
	n, l := s.news, &listener{file: r.URL.Query().Get("file"), says: make(chan message, 16)}
	if named(l.file) == nil {
		l.told = s.folder.stamp(l.file)
		l.seen = l.told
	}
	n.mu.Lock()
	if len(n.open) >= mostListens {
		n.mu.Unlock()
		http.Error(w, "too many pages", http.StatusServiceUnavailable)
		return
	}
	n.open[l] = true
	n.count(l.file)
	n.mu.Unlock()
	defer func() {
		n.mu.Lock()
		delete(n.open, l)
		n.count(l.file)
		n.mu.Unlock()
	}()
	<-s.hands // who listens does not count as being in hand
	defer func() { s.hands <- struct{}{} }()
	c := http.NewResponseController(w)
	_ = c.SetWriteDeadline(time.Time{})
	_ = c.SetReadDeadline(time.Time{})
	w.Header().Set("Content-Type", "text/event-stream")
	w.WriteHeader(http.StatusOK)
	for {
		if err := c.Flush(); err != nil {
			return
		}
		select {
		case m := <-l.says:
			data, _ := json.Marshal(m) // plain fields
			if _, err := fmt.Fprintf(w, "data: %s\n\n", data); err != nil {
				return
			}
		case <-r.Context().Done():
			return
		case <-n.closed:
			return
		}
	}
}
