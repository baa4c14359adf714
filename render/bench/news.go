package bench

import (
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"

	"github.com/fsnotify/fsnotify"
)

// settle is how long a file must have been left alone before it is told of:
// editors save in several steps.
const settle = 80 * time.Millisecond

// news tells pages what happens beside them: a design that was saved by another
// program, the same design open on another page.
type news struct {
	mu      sync.Mutex
	open    map[*listener]bool
	watcher *fsnotify.Watcher // nil where the system has none
	closed  chan struct{}
	once    sync.Once
}

// A listener is a page that listens.
type listener struct {
	file string
	says chan message
}

// A message is one thing told. Pages is how many have the design open.
type message struct {
	Changed string `json:"changed,omitempty"` // a file that was saved
	Pages   int    `json:"pages,omitempty"`
}

func follow(f *folder) *news {
	n := &news{open: map[*listener]bool{}, closed: make(chan struct{})}
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return n
	}
	if w.Add(f.dir) != nil {
		_ = w.Close()
		return n
	}
	n.watcher = w
	go n.watch()
	return n
}

// watch tells of files that were saved and then left alone.
func (n *news) watch() {
	waiting := map[string]bool{}
	var after <-chan time.Time
	for {
		select {
		case e, ok := <-n.watcher.Events:
			if !ok {
				return
			}
			if name := baseOf(e.Name); !e.Has(fsnotify.Chmod) && named(name) == nil {
				waiting[name] = true
				after = time.After(settle)
			}
		case _, ok := <-n.watcher.Errors:
			if !ok {
				return
			}
		case <-after:
			n.mu.Lock()
			for l := range n.open {
				for name := range waiting {
					l.tell(message{Changed: name})
				}
			}
			n.mu.Unlock()
			waiting, after = map[string]bool{}, nil
		}
	}
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
		if n.watcher != nil {
			_ = n.watcher.Close()
		}
	})
}

// listen keeps an answer open and tells on it what happens, as server-sent events.
func (s *Server) listen(w http.ResponseWriter, r *http.Request) {
	n, l := s.news, &listener{file: r.URL.Query().Get("file"), says: make(chan message, 16)}
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
