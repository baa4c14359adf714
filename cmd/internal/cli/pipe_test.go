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

// TestResumePipe: a list that is a pipe is not waited for either.
func TestResumePipe(t *testing.T) {
	dir := t.TempDir()
	design, pipe := filepath.Join(dir, "piece.stabile"), filepath.Join(dir, "study.csv")
	if err := syscall.Mkfifo(pipe, 0o666); err != nil {
		t.Skip(err)
	}
	if err := os.WriteFile(design, []byte(adjustable), 0o666); err != nil {
		t.Fatal(err)
	}
	status, _, errs := run(t, "", "vary", design, "--random", "2", "-o", pipe, "--resume")
	if status != statusWrong || !strings.Contains(errs, "is no list of variations") {
		t.Errorf("status %d, %s", status, errs)
	}
}
