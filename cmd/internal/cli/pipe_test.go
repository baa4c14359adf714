//go:build unix

package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// TestBringPipe: a pipe is not waited for, wherever it lies.
func TestBringPipe(t *testing.T) {
	folder, elsewhere := t.TempDir(), t.TempDir()
	for _, tt := range []struct {
		pipe, written string
		flags         []string
	}{
		{filepath.Join(folder, "garage.stabile"), "garage.stabile", nil},
		{filepath.Join(elsewhere, "garage.stabile"), filepath.ToSlash(filepath.Join(elsewhere, "garage.stabile")), []string{"--allow-outside"}},
	} {
		if err := syscall.Mkfifo(tt.pipe, 0o666); err != nil {
			t.Skip(err)
		}
		design := filepath.Join(folder, "piece.stabile")
		if err := os.WriteFile(design, []byte("bring \""+tt.written+"\"\nunits mm\n"), 0o666); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		status := Run(append([]string{"report", design}, tt.flags...), strings.NewReader(""), &out, &errs, func(string) string { return "" })
		if status != statusWrong || !strings.Contains(errs.String(), "it is not a file but a pipe or a device") || !strings.Contains(errs.String(), "piece.stabile:1:7:") {
			t.Errorf("%s: status %d, %s", tt.written, status, errs.String())
		}
	}
}
