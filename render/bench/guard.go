package bench

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/hex"
	"mime"
	"net/http"
	"strings"
	"time"
)

// What a request may take.
const (
	mostBody    = 9 << 20 // bytes: a design of 4 MiB, its characters escaped
	mostHeader  = 16 << 10
	mostAtOnce  = 48 // requests in hand, those that only listen not counted
	mostListens = 16 // pages that listen
	bodyTime    = 20 * time.Second
	answerTime  = 10 * time.Minute // of papers and variations
)

// policy lets a page have what this server serves, and nothing else: no script or
// style that stands in a page, nothing from elsewhere, no frame about it, and no
// text taken for markup.
const policy = "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; " +
	"object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; " +
	"require-trusted-types-for 'script'; trusted-types 'none'"

// A guard lets in the browser that opened the address, and nobody else.
type guard struct {
	secret string // in the address
	cookie string // what the browser then carries; not the secret, which stays in its history
	name   string // of the cookie: browsers share cookies between ports
	hosts  []string
	hands  chan struct{} // one for each request in hand
}

func newGuard() *guard {
	return &guard{secret: token(), cookie: token(), hands: make(chan struct{}, mostAtOnce)}
}

// token returns 256 random bits.
func token() string {
	var b [32]byte
	_, _ = rand.Read(b[:]) // never fails: see crypto/rand
	return hex.EncodeToString(b[:])
}

// serves tells the guard at which address it stands, as host:port.
func (g *guard) serves(address string) {
	_, port, _ := strings.Cut(address, ":")
	g.hosts = []string{"127.0.0.1:" + port, "localhost:" + port}
	g.name = "bench-" + port
}

// same compares two secrets in constant time.
func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// wrap returns a handler that lets through only what may come in.
func (g *guard) wrap(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Frame-Options", "DENY")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		if !g.known(r.Host) {
			http.Error(w, "this is the bench of another address", http.StatusMisdirectedRequest)
			return
		}
		select {
		case g.hands <- struct{}{}:
			defer func() { <-g.hands }()
		default:
			http.Error(w, "too much at once", http.StatusServiceUnavailable)
			return
		}
		if r.URL.Path == "/open" {
			g.open(w, r)
			return
		}
		if why := g.refuses(r); why != "" {
			http.Error(w, why, http.StatusForbidden)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(bodyTime)) // a recorder of a test has none
		next.ServeHTTP(w, r)
	})
}

// known reports whether a request is for this server by its own name: a page of
// another name that leads to the loopback address is not.
func (g *guard) known(host string) bool {
	for _, h := range g.hosts {
		if host == h {
			return true
		}
	}
	return false
}

// open takes the secret of the address and gives the cookie for it.
func (g *guard) open(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet || !same(r.URL.Query().Get("key"), g.secret) {
		http.Error(w, "open the address that the program gave", http.StatusForbidden)
		return
	}
	http.SetCookie(w, &http.Cookie{
		Name: g.name, Value: g.cookie, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode,
	})
	to := "/"
	if file := r.URL.Query().Get("file"); file != "" {
		to += "#" + (&escaped{file}).String()
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// refuses returns why a request may not come in, or "".
func (g *guard) refuses(r *http.Request) string {
	c, err := r.Cookie(g.name)
	if err != nil || !same(c.Value, g.cookie) {
		return "open the address that the program gave"
	}
	site := r.Header.Get("Sec-Fetch-Site")
	origin := r.Header.Get("Origin")
	ours := origin == "" || g.known(strings.TrimPrefix(origin, "http://")) && strings.HasPrefix(origin, "http://")
	switch {
	case !ours, site != "" && site != "same-origin" && site != "none":
		return "another page may not ask"
	case r.Method == http.MethodGet && !strings.HasPrefix(r.URL.Path, "/api/"):
		return ""
	case r.Method != http.MethodPost && r.Method != http.MethodGet:
		return "only GET and POST"
	case site != "same-origin" && origin == "":
		return "who asks is not said"
	case r.Method == http.MethodGet:
		return ""
	}
	// What a plain form of another page can send is no JSON.
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/json" {
		return "the body must be JSON"
	}
	return ""
}
