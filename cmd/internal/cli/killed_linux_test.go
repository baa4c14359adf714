package cli

import (
	"flag"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stabile/param/external"
)

var kills = flag.Int("kills", 2, "how often each command is killed on a slow disk")

// TestKilledOnSlowDisk kills each command that writes at random moments, with every call
// to the disk slowed down by strace so that most of them fall between two of these: what
// is there is what was or all of the new, and the next run clears up. Where programs may
// not be traced there is no slow disk to try.
func TestKilledOnSlowDisk(t *testing.T) {
	strace := external.Tool(t, "strace")
	if exec.Command(strace, "-o", os.DevNull, "true").Run() != nil {
		t.Skip("no program may be traced here")
	}
	self, err := os.Executable()
	require.NoError(t, err)
	const slow = 8 * time.Millisecond
	r := rand.New(rand.NewPCG(3, 7))
	for _, tt := range []struct {
		name, text string
		args       []string
		stale      map[string]string
	}{
		{"draw", plain, []string{"draw", "piece.stabile", "-o", "shop", "--book", "office"}, map[string]string{"shop/office-01-office.svg": "stale"}},
		{"draw a PDF", plain, []string{"draw", "piece.stabile", "-o", "shop.pdf", "--book", "office"}, map[string]string{"shop.pdf": "stale"}},
		{"picture", plain, []string{"picture", "piece.stabile", "-o", "p.png", "--size", "40x30", "--sketch"}, map[string]string{"p.png": "stale"}},
		{"vary", adjustable, []string{"vary", "piece.stabile", "--random", "3", "-o", "v.csv"}, map[string]string{"v.csv": "stale"}},
		{"tidy", untidy, []string{"tidy", "piece.stabile"}, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Setenv(asProgram, "1")
			start := func() (dir string, before map[string]string) {
				dir = t.TempDir()
				before = map[string]string{"piece.stabile": tt.text}
				maps.Copy(before, tt.stale)
				for name, text := range before {
					require.NoError(t, os.MkdirAll(filepath.Join(dir, filepath.Dir(name)), 0o777))
					require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666))
				}
				return dir, before
			}
			// run starts the command on the slow disk, kills it after a while if one is
			// given, and reports whether it came to its end.
			run := func(dir string, after time.Duration) bool {
				calls := "openat,mkdirat,renameat,renameat2,linkat,unlinkat,fsync,write"
				c := exec.Command(strace, append([]string{
					"-f", "-qq", "-o", os.DevNull, "-e", "trace=" + calls, "-e", "inject=" + calls + ":delay_exit=" + strconv.FormatInt(slow.Microseconds(), 10), self,
				}, tt.args...)...)
				c.Dir = dir
				c.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
				require.NoError(t, c.Start())
				if after > 0 {
					stop := time.AfterFunc(after, func() { _ = syscall.Kill(-c.Process.Pid, syscall.SIGKILL) })
					defer stop.Stop()
				}
				return c.Wait() == nil
			}
			dir, _ := start()
			begun := time.Now()
			require.True(t, run(dir, 0))
			long := time.Since(begun)
			want, _ := lying(t, dir)
			half := 0
			for range *kills {
				dir, before := start()
				whole := run(dir, 1+time.Duration(r.Int64N(int64(long))))
				got, unfinished := lying(t, dir)
				if !maps.Equal(got, before) && !maps.Equal(got, want) {
					t.Errorf("half is there: %v", names(got))
				}
				if !whole && unfinished {
					half++
				}
				require.True(t, run(dir, 0))
				if got, unfinished := lying(t, dir); !maps.Equal(got, want) || unfinished {
					t.Errorf("the next run leaves %v, unfinished: %v", names(got), unfinished)
				}
			}
			t.Logf("%d kills within %v, %d of them in the midst of writing", *kills, long.Round(time.Millisecond), half)
		})
	}
}
