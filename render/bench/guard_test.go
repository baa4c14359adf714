package bench

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

const standing = `sculpture "Standing"
units inch
adjust rise = 30 in from 20 in to 40 in
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
base pad { plate 30 in by 30 in, metal slab }
post mast on pad { diameter 3 in, length rise, metal skin }
ball moon on mast { diameter 10 in, gores 8, metal skin }
site { push 20 lbf at 30 in, people none, seismic 0, ice 0 in }
require tipping >= 1.5
`

// A visitor is a browser with a bench to visit.
type visitor struct {
	t       testing.TB
	server  *Server
	base    string // the address of the bench
	address string // with its secret
	client  *http.Client
	dir     string
}

// visit serves a folder with the standing design, and opens it.
func visit(t testing.TB, o Options) *visitor {
	t.Helper()
	if o.Dir == "" {
		o.Dir = t.TempDir()
	}
	require.NoError(t, os.WriteFile(filepath.Join(o.Dir, "standing.stabile"), []byte(standing), 0o644))
	if o.Drafts == "" {
		o.Drafts = t.TempDir()
	}
	s, err := New(o)
	require.NoError(t, err)
	l, address, err := s.Listen(0)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx, l) }()
	t.Cleanup(func() {
		stop()
		require.NoError(t, <-ended)
		require.NoError(t, s.Close())
	})
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	v := &visitor{t: t, server: s, base: "http://" + l.Addr().String(), address: address, client: &http.Client{Jar: jar, Timeout: 30 * time.Second}, dir: o.Dir}
	return v
}

// enter opens the address as the maker's browser does.
func (v *visitor) enter() *visitor {
	v.t.Helper()
	r, err := v.client.Get(v.address)
	require.NoError(v.t, err)
	require.NoError(v.t, r.Body.Close())
	require.Equal(v.t, http.StatusOK, r.StatusCode)
	return v
}

// post asks as the page does.
func (v *visitor) post(path string, body any, change ...func(*http.Request)) (*http.Response, []byte) {
	v.t.Helper()
	data, ok := body.([]byte)
	if !ok {
		var err error
		data, err = json.Marshal(body)
		require.NoError(v.t, err)
	}
	r, err := http.NewRequest(http.MethodPost, v.base+path, bytes.NewReader(data))
	require.NoError(v.t, err)
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Origin", v.base)
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	for _, c := range change {
		c(r)
	}
	return v.do(r)
}

func (v *visitor) do(r *http.Request) (*http.Response, []byte) {
	v.t.Helper()
	a, err := v.client.Do(r)
	require.NoError(v.t, err)
	defer a.Body.Close()
	text, err := io.ReadAll(a.Body)
	require.NoError(v.t, err)
	return a, text
}

func (v *visitor) get(path string, change ...func(*http.Request)) (*http.Response, []byte) {
	v.t.Helper()
	r, err := http.NewRequest(http.MethodGet, v.base+path, nil)
	require.NoError(v.t, err)
	for _, c := range change {
		c(r)
	}
	return v.do(r)
}

func asPage(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "same-origin") }

type object = map[string]any

// It listens on the loopback address alone, at a port of the system's choice.
func TestLoopback(t *testing.T) {
	v, w := visit(t, Options{}), visit(t, Options{})
	require.NotEqual(t, v.base, w.base)
	for _, x := range []*visitor{v, w} {
		u, err := url.Parse(x.base)
		require.NoError(t, err)
		require.True(t, net.ParseIP(u.Hostname()).IsLoopback())
		addresses, err := net.InterfaceAddrs()
		require.NoError(t, err)
		for _, a := range addresses {
			if ip, ok := a.(*net.IPNet); ok && !ip.IP.IsLoopback() {
				_, err := net.DialTimeout("tcp", net.JoinHostPort(ip.IP.String(), u.Port()), time.Second)
				require.Error(t, err, "%v answers", ip.IP)
			}
		}
	}
}

// The secret is long, new each time, and leaves the address with the first answer.
func TestSecret(t *testing.T) {
	v, w := visit(t, Options{}), visit(t, Options{})
	u, err := url.Parse(v.address)
	require.NoError(t, err)
	key := u.Query().Get("key")
	require.Len(t, key, 64) // 256 bits
	require.NotEqual(t, v.server.secret, w.server.secret)
	require.NotEqual(t, v.server.secret, v.server.cookie)

	v.client.CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
	r, _ := v.get("/open?key=" + key)
	require.Equal(t, http.StatusSeeOther, r.StatusCode)
	require.NotContains(t, r.Header.Get("Location"), key)
	require.Equal(t, "no-referrer", r.Header.Get("Referrer-Policy"))
	c := r.Cookies()[0]
	require.True(t, c.HttpOnly)
	require.Equal(t, http.SameSiteStrictMode, c.SameSite)
	require.Equal(t, v.server.cookie, c.Value)
	require.NotContains(t, c.String(), key)
}

// Without the secret, or with a guess, there is nothing to be had.
func TestNoSecret(t *testing.T) {
	v := visit(t, Options{})
	for _, path := range []string{"/", "/page/main.js", "/api/start", "/api/news", "/picture/x", "/paper/x/y", "/open", "/open?key=", "/open?key=" + strings.Repeat("0", 64)} {
		r, text := v.get(path, asPage)
		require.Equal(t, http.StatusForbidden, r.StatusCode, path)
		require.NotContains(t, string(text), "standing", path)
		require.Empty(t, r.Cookies(), path)
	}
	near := []byte(v.server.secret)
	near[len(near)-1] ^= 1
	r, _ := v.get("/open?key=" + string(near))
	require.Equal(t, http.StatusForbidden, r.StatusCode)
	for _, guess := range []string{"", "x", v.server.secret, strings.Repeat("f", 64)} {
		r, _ := v.post("/api/read", object{"file": "standing.stabile"}, func(r *http.Request) {
			r.AddCookie(&http.Cookie{Name: v.server.name, Value: guess})
		})
		require.Equal(t, http.StatusForbidden, r.StatusCode, guess)
	}
}

// A name of another site that leads to the loopback address does not get in, with
// or without the cookie.
func TestWrongHost(t *testing.T) {
	v := visit(t, Options{}).enter()
	_, port, _ := net.SplitHostPort(strings.TrimPrefix(v.base, "http://"))
	for _, host := range []string{"example.org", "example.org:" + port, "127.0.0.1", "127.0.0.1:1", "localhost.example.org:" + port, "[::1]:" + port, "0.0.0.0:" + port, "127.0.0.2:" + port} {
		for _, path := range []string{"/", "/api/start", "/open?key=" + v.server.secret} {
			r, text := v.get(path, asPage, func(r *http.Request) {
				r.Host = host
				r.AddCookie(&http.Cookie{Name: v.server.name, Value: v.server.cookie})
			})
			require.Equal(t, http.StatusMisdirectedRequest, r.StatusCode, host+path)
			require.NotContains(t, string(text), "standing")
		}
	}
}

// What another page asks is refused even with the cookie, which browsers would
// not send; what comes from nobody knows where is refused too.
func TestOtherOrigin(t *testing.T) {
	v := visit(t, Options{}).enter()
	save := object{"file": "standing.stabile", "text": "gone", "mark": mark(standing)}
	for name, change := range map[string]func(*http.Request){
		"another site": func(r *http.Request) {
			r.Header.Set("Origin", "https://example.org")
			r.Header.Set("Sec-Fetch-Site", "cross-site")
		},
		"another port": func(r *http.Request) {
			r.Header.Set("Origin", "http://127.0.0.1:1")
			r.Header.Set("Sec-Fetch-Site", "same-site")
		},
		"nowhere":        func(r *http.Request) { r.Header.Set("Origin", "null"); r.Header.Set("Sec-Fetch-Site", "cross-site") },
		"with transport": func(r *http.Request) { r.Header.Set("Origin", strings.Replace(v.base, "http:", "https:", 1)) },
		"site alone":     func(r *http.Request) { r.Header.Del("Origin"); r.Header.Set("Sec-Fetch-Site", "cross-site") },
		"origin alone":   func(r *http.Request) { r.Header.Set("Origin", "http://example.org"); r.Header.Del("Sec-Fetch-Site") },
		"neither":        func(r *http.Request) { r.Header.Del("Origin"); r.Header.Del("Sec-Fetch-Site") },
	} {
		for path, body := range map[string]any{"/api/save": save, "/api/work": object{"file": "standing.stabile", "text": standing}, "/api/read": object{"file": "standing.stabile"}, "/api/papers": object{}, "/api/vary": object{}} {
			r, text := v.post(path, body, change)
			require.Equal(t, http.StatusForbidden, r.StatusCode, name+path)
			require.NotContains(t, string(text), "sculpture")
		}
	}
	for _, path := range []string{"/", "/api/start", "/api/news", "/page/main.js", "/picture/x"} {
		r, _ := v.get(path, func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") })
		require.Equal(t, http.StatusForbidden, r.StatusCode, path)
	}
	text, err := os.ReadFile(filepath.Join(v.dir, "standing.stabile"))
	require.NoError(t, err)
	require.Equal(t, standing, string(text))
	r, _ := v.post("/api/read", object{"file": "standing.stabile"})
	require.Equal(t, http.StatusOK, r.StatusCode) // the page itself gets in
}

// A plain form can send no JSON, and other ways than GET and POST are none.
func TestSimpleForms(t *testing.T) {
	v := visit(t, Options{}).enter()
	for _, kind := range []string{"", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "text/plain; application/json"} {
		r, _ := v.post("/api/save", object{"file": "standing.stabile", "text": "gone", "mark": mark(standing)}, func(r *http.Request) { r.Header.Set("Content-Type", kind) })
		require.Equal(t, http.StatusForbidden, r.StatusCode, kind)
	}
	for _, method := range []string{http.MethodPut, http.MethodDelete, http.MethodOptions, http.MethodPatch, "TRACE"} {
		r, _ := v.post("/api/save", object{}, func(r *http.Request) { r.Method = method })
		require.Equal(t, http.StatusForbidden, r.StatusCode, method)
		require.Empty(t, r.Header.Get("Access-Control-Allow-Origin"))
	}
}

// Every answer, of errors too, forbids frames, foreign and inline scripts, and
// guessing at its kind.
func TestHeaders(t *testing.T) {
	v := visit(t, Options{}).enter()
	for _, path := range []string{"/", "/page/main.js", "/page/bench.css", "/page/none.js", "/api/start", "/open", "/nothing"} {
		r, _ := v.get(path, asPage)
		csp := r.Header.Get("Content-Security-Policy")
		require.Contains(t, csp, "default-src 'self'", path)
		require.Contains(t, csp, "frame-ancestors 'none'", path)
		require.Contains(t, csp, "require-trusted-types-for 'script'", path)
		require.NotContains(t, csp, "unsafe", path)
		require.Equal(t, "DENY", r.Header.Get("X-Frame-Options"), path)
		require.Equal(t, "nosniff", r.Header.Get("X-Content-Type-Options"), path)
		require.Equal(t, "same-origin", r.Header.Get("Cross-Origin-Resource-Policy"), path)
		require.NotEmpty(t, r.Header.Get("Content-Type"), path)
	}
}

// The page has no script or style within it, and loads nothing from elsewhere.
func TestPageIsPlain(t *testing.T) {
	names, err := fs.Glob(page, "page/*")
	require.NoError(t, err)
	total := 0
	for _, name := range names {
		text, err := fs.ReadFile(page, name)
		require.NoError(t, err)
		total += len(text)
		code := string(text)
		for _, bad := range []string{"innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "new Function", "srcdoc", "createContextualFragment", "DOMParser"} {
			require.NotContains(t, code, bad, name)
		}
		code = strings.ReplaceAll(code, "http://www.w3.org/2000/svg", "")
		require.NotContains(t, code, "http://", name)
		require.NotContains(t, code, "https://", name)
		require.NotContains(t, code, "//unpkg", name)
	}
	html, err := fs.ReadFile(page, "page/index.html")
	require.NoError(t, err)
	require.NotContains(t, string(html), "<style")
	require.NotContains(t, string(html), " style=")
	require.NotRegexp(t, `<script[^>]*>[^<]`, string(html))
	require.NotRegexp(t, ` on[a-z]+=`, string(html))
	t.Logf("the page is %d bytes", total)
}

// No name leads out of the folder: not up, not absolute, not encoded, not by a
// link, and not to what is no file.
func TestPaths(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "designs")
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "inner"), 0o755))
	secret := "sculpture \"Secret\"\n"
	outside := filepath.Join(top, "secret.stabile")
	require.NoError(t, os.WriteFile(outside, []byte(secret), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, ".hidden.stabile"), []byte(secret), 0o644))
	names := []string{
		"../secret.stabile", "..\\secret.stabile", "inner/../../secret.stabile", outside, "//" + outside, "./../secret.stabile",
		"..%2fsecret.stabile", "%2e%2e/secret.stabile", "\x00secret.stabile", "secret.stabile\x00.stabile", ".hidden.stabile", "", ".", "..", "/",
		"NUL", "CON.stabile:x.stabile", "C:\\secret.stabile", "/dev/zero", "/etc/passwd", "standing.stabile/", "inner", "standing.stabile/../standing.stabile",
		strings.Repeat("a/", 200) + "a.stabile", strings.Repeat("a", 300) + ".stabile",
	}
	if runtime.GOOS != "windows" {
		require.NoError(t, os.Symlink(outside, filepath.Join(dir, "link.stabile")))
		require.NoError(t, os.Symlink(top, filepath.Join(dir, "up")))
		require.NoError(t, os.Symlink("/dev/zero", filepath.Join(dir, "zero.stabile")))
		require.NoError(t, syscall.Mkfifo(filepath.Join(dir, "pipe.stabile"), 0o644))
		names = append(names, "link.stabile", "up/secret.stabile", "zero.stabile", "pipe.stabile")
	}
	v := visit(t, Options{Dir: dir}).enter()
	for _, name := range names {
		r, text := v.post("/api/read", object{"file": name})
		require.NotEqual(t, http.StatusOK, r.StatusCode, name)
		require.NotContains(t, string(text), "Secret", name)
		r, _ = v.post("/api/save", object{"file": name, "text": "gone", "mark": mark(secret)})
		require.NotEqual(t, http.StatusOK, r.StatusCode, name)
		r, _ = v.post("/api/begin", object{"file": strings.TrimSuffix(name, ".stabile")})
		require.Equal(t, name == "inner", r.StatusCode == http.StatusOK, name) // of which there may be a design too
	}
	text, err := os.ReadFile(outside)
	require.NoError(t, err)
	require.Equal(t, secret, string(text))
	for _, path := range []string{"/page/../guard.go", "/page/%2e%2e/guard.go", "/page/..%2fguard.go", "/../server.go", "/page/", "/page/index.html/../../x"} {
		r, text := v.get(path, asPage)
		require.NotContains(t, string(text), "package bench", path)
		if r.StatusCode == http.StatusOK {
			require.Contains(t, string(text), "<!doctype html>", path)
		}
	}
	// What a design brings stays within the folder too.
	for _, bring := range []string{"../secret.stabile", outside, "link.stabile", "up/secret.stabile"} {
		if strings.Contains(bring, "link") && runtime.GOOS == "windows" {
			continue
		}
		_, text := v.post("/api/work", object{"file": "standing.stabile", "text": "bring \"" + bring + "\"\n" + standing})
		require.Contains(t, string(text), "outside the design's own folder", bring)
	}
}

// With leave a design brings what lies outside; the page still opens nothing there.
func TestAllowOutside(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "designs")
	require.NoError(t, os.MkdirAll(dir, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(top, "yard.stabile"), []byte("units inch\nmetal other { alloy low-carbon-steel, gauge 16 }\n"), 0o644))
	v := visit(t, Options{Dir: dir, Outside: true}).enter()
	r, text := v.post("/api/work", object{"file": "standing.stabile", "text": "bring \"../yard.stabile\"\n" + standing})
	require.Equal(t, http.StatusOK, r.StatusCode)
	require.Contains(t, string(text), `"wrong":[]`)
	r, _ = v.post("/api/read", object{"file": "../yard.stabile"})
	require.Equal(t, http.StatusNotFound, r.StatusCode)
}

// Read only means that nothing is written by any way in.
func TestReadOnly(t *testing.T) {
	v := visit(t, Options{Sealed: true}).enter()
	for path, body := range map[string]any{
		"/api/save":  object{"file": "standing.stabile", "text": "gone", "mark": mark(standing)},
		"/api/begin": object{"file": "new"},
		"/api/draft": object{"file": "standing.stabile", "text": "draft"},
		"/api/edit":  object{"file": "standing.stabile", "text": standing, "add": object{"kind": "post", "view": -1}},
	} {
		_, _ = v.post(path, body)
	}
	entries, err := os.ReadDir(v.dir)
	require.NoError(t, err)
	require.Len(t, entries, 1)
	text, err := os.ReadFile(filepath.Join(v.dir, "standing.stabile"))
	require.NoError(t, err)
	require.Equal(t, standing, string(text))
	drafts, err := os.ReadDir(v.server.options.Drafts)
	require.NoError(t, err)
	require.Empty(t, drafts)
}

// A huge body is cut off, a slow one is given up, and a head without end too.
func TestBodies(t *testing.T) {
	v := visit(t, Options{}).enter()
	huge := append([]byte(`{"file":"standing.stabile","text":"`), bytes.Repeat([]byte("a"), mostBody)...)
	r, _ := v.post("/api/work", append(huge, `"}`...))
	require.Equal(t, http.StatusRequestEntityTooLarge, r.StatusCode)
	large := bytes.Repeat([]byte("# many\n"), 5<<20/7)
	_, text := v.post("/api/save", object{"file": "standing.stabile", "text": string(large), "mark": mark(standing)})
	require.Contains(t, string(text), "larger than a design may be")
	for _, body := range []string{"", "{", "[]", "null x", `{"file":3}`, strings.Repeat("[", 20000), "\xff\xfe"} {
		r, _ := v.post("/api/work", []byte(body))
		require.GreaterOrEqual(t, r.StatusCode, 400, body)
		require.Less(t, r.StatusCode, 500, body)
	}
	c, err := net.Dial("tcp", strings.TrimPrefix(v.base, "http://"))
	require.NoError(t, err)
	defer c.Close()
	_, err = fmt.Fprintf(c, "GET / HTTP/1.1\r\nHost: %s\r\nX: %s", strings.TrimPrefix(v.base, "http://"), strings.Repeat("a", 64<<10))
	require.NoError(t, err)
	require.NoError(t, c.SetReadDeadline(time.Now().Add(10*time.Second)))
	answer, _ := io.ReadAll(c)
	require.Contains(t, string(answer), "431")
}

// A body that comes in drops is given up: the reading of a request ends.
func TestSlowBody(t *testing.T) {
	g := newGuard()
	g.serves("127.0.0.1:80")
	read := make(chan error, 1)
	server := httptest.NewUnstartedServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(50 * time.Millisecond))
		_, err := io.ReadAll(r.Body)
		read <- err
	}))
	server.Start()
	defer server.Close()
	c, err := net.Dial("tcp", server.Listener.Addr().String())
	require.NoError(t, err)
	defer c.Close()
	_, err = fmt.Fprintf(c, "POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 1000\r\n\r\n{")
	require.NoError(t, err)
	require.ErrorIs(t, <-read, os.ErrDeadlineExceeded)
}

// A thousand requests at once are answered or turned away, and the bench lives.
func TestManyAtOnce(t *testing.T) {
	v := visit(t, Options{}).enter()
	var wait sync.WaitGroup
	var mu sync.Mutex
	got := map[int]int{}
	for range 1000 {
		wait.Go(func() {
			r, err := http.NewRequest(http.MethodPost, v.base+"/api/work", strings.NewReader(`{"file":"standing.stabile","text":"units"}`))
			if err != nil {
				return
			}
			r.Header.Set("Content-Type", "application/json")
			r.Header.Set("Origin", v.base)
			a, err := v.client.Do(r)
			if err != nil {
				return
			}
			_, _ = io.Copy(io.Discard, a.Body)
			_ = a.Body.Close()
			mu.Lock()
			got[a.StatusCode]++
			mu.Unlock()
		})
	}
	wait.Wait()
	for status := range got {
		require.Contains(t, []int{http.StatusOK, http.StatusServiceUnavailable}, status)
	}
	require.Positive(t, got[http.StatusOK])
	r, _ := v.post("/api/work", object{"file": "standing.stabile", "text": standing, "whole": true})
	require.Equal(t, http.StatusOK, r.StatusCode)
}

// More work than there is room for waits, and is dropped when nobody waits.
func TestWorkIsLimited(t *testing.T) {
	v := visit(t, Options{}).enter()
	for range atOnce {
		v.server.busy <- struct{}{}
	}
	ctx, stop := context.WithTimeout(context.Background(), 30*time.Millisecond)
	defer stop()
	_, err := v.server.do(ctx, &state{File: "standing.stabile", Text: standing}, quick)
	require.ErrorIs(t, err, context.DeadlineExceeded)
	for range atOnce {
		<-v.server.busy
	}
	_, err = v.server.do(context.Background(), &state{File: "standing.stabile", Text: standing}, quick)
	require.NoError(t, err)
}

// 10,000 requests of all sorts, as a fuzzer makes them, bring nothing down and
// change nothing outside of what they may. A tenth unless a flag asks for all.
func TestFuzzedRequests(t *testing.T) {
	n := 10_000
	if testing.Short() {
		n = 1000
	}
	v := visit(t, Options{}).enter()
	outside := filepath.Join(filepath.Dir(v.dir), "outside.stabile")
	r := rand.New(rand.NewPCG(1, 2))
	paths := []string{"/api/read", "/api/begin", "/api/save", "/api/draft", "/api/part", "/api/edit", "/api/complete", "/api/tidy", "/api/work", "/api/vary", "/api/papers", "/picture/", "/paper/", "/open", "/page/", "/"}
	words := []string{"file", "text", "mark", "part", "hand", "drag", "add", "kind", "view", "at", "by", "number", "slide", "name", "names", "count", "set", "settings", "variation", "whole", "remove", "example"}
	values := []string{`"standing.stabile"`, `"../outside.stabile"`, `"mast"`, `"moon"`, `"head"`, `-1`, `1e999`, `0.5`, `9e99`, `null`, `[]`, `{}`, `[1,2]`, `[1e300,-1e300]`, `"rise=30 in"`, `["rise"]`, `"post"`, `"\u0000"`, `true`, `"random"`, `"` + strings.Repeat("x", 500) + `"`, `"<script>"`, `"units inch"`}
	value := func() string {
		if r.IntN(12) == 0 {
			var parts []string
			for range r.IntN(4) {
				parts = append(parts, fmt.Sprintf("%q:%s", words[r.IntN(len(words))], values[r.IntN(len(values))]))
			}
			return "{" + strings.Join(parts, ",") + "}"
		}
		return values[r.IntN(len(values))]
	}
	for i := range n {
		var parts []string
		for range r.IntN(6) {
			parts = append(parts, fmt.Sprintf("%q:%s", words[r.IntN(len(words))], value()))
		}
		body := "{" + strings.Join(parts, ",") + "}"
		if r.IntN(10) == 0 {
			b := []byte(body)
			b[r.IntN(len(b))] = byte(r.IntN(256))
			body = string(b)
		}
		path := paths[r.IntN(len(paths))]
		q := httptest.NewRequest([]string{"POST", "POST", "POST", "GET"}[r.IntN(4)], path, strings.NewReader(body))
		q.Host = strings.TrimPrefix(v.base, "http://")
		q.Header.Set("Content-Type", "application/json")
		q.Header.Set("Origin", v.base)
		q.AddCookie(&http.Cookie{Name: v.server.name, Value: v.server.cookie})
		w := httptest.NewRecorder()
		v.server.handler.ServeHTTP(w, q)
		require.NotEqual(t, http.StatusInternalServerError, w.Code, "%d: %s %s %s", i, path, body, w.Body)
		require.NotContains(t, w.Body.String(), "NaN")
		require.NotContains(t, w.Body.String(), errFault.Error(), "%d: %s %s", i, path, body)
	}
	_, err := os.Stat(outside)
	require.ErrorIs(t, err, fs.ErrNotExist)
}
