package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"stabile/fab/study"
	"stabile/param/design"
	"stabile/render/list"
	"stabile/render/words"
)

// checkResume returns what is wrong with --resume beside the other flags: the rows of its
// list are all variations in the order of trial, so that the next ones follow on them.
func (w *wish) checkResume(out string) error {
	switch {
	case !w.resume:
		return nil
	case strings.ToLower(filepath.Ext(out)) != ".csv":
		return misuse("as in -o study.csv", "--resume needs a list to go on with")
	case len(w.keep) > 0 || w.by() != "" || w.first > 0 || w.plot != "":
		return misuse("leave them out, and sort the list in a spreadsheet", "--resume goes with no --keep, --least, --most, --first or --plot")
	}
	return nil
}

// resume works out the variations that a list does not have yet, and writes the whole list.
// Stopped, it writes those that are done, so that the same command goes on from there.
func (c *call) resume(ctx context.Context, s *study.Study, d *design.Design, trials []study.Trial, out string) (int, error) {
	rows, err := c.begun(s, d, trials, out)
	if err != nil {
		return statusWrong, err
	}
	from := max(0, len(rows)-1)
	done := c.showProgress(s, len(trials)-from)
	results, err := s.RunFrom(ctx, trials, from)
	done()
	if err != nil && len(results) == 0 {
		return statusWrong, stopped(err)
	}
	if more := list.Variations(results, d.Units); from == 0 {
		rows = more
	} else {
		rows = append(rows, more[min(1, len(more)):]...)
	}
	var data bytes.Buffer
	if err := list.CSV(&data, rows); err != nil {
		return statusWrong, err
	}
	if e := c.save(context.WithoutCancel(ctx), named(out, data.Bytes())); e != nil {
		return statusWrong, e
	}
	if err != nil {
		return statusWrong, fmt.Errorf("stopped; %s has %d of %d variations, and the same command goes on", printable(out), len(rows)-1, len(trials))
	}
	_, err = fmt.Fprintf(c.stdout, "wrote %s\n\n%s, %d of them now.\n", printable(out), words.Count(len(trials), "variation"), len(results))
	return statusWell, err
}

// begun returns the rows of a list that an earlier run wrote, none where there is no such
// file. It fails where they are not what these trials come to: it compares the values of
// every row, and works the first and the last one out again.
func (c *call) begun(s *study.Study, d *design.Design, trials []study.Trial, out string) ([][]list.Cell, error) {
	none := misuse("name another file", "%s is no list of variations", printable(out))
	switch info, err := os.Stat(out); {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular(): // reading a pipe would wait for ever
		return nil, none
	}
	data, err := os.ReadFile(out)
	if err != nil {
		return nil, err
	}
	rows, err := list.Read(data)
	if err != nil || len(rows) == 0 {
		return nil, none
	}
	other := func(row int) error {
		return misuse("leave --resume out to begin again, or name another file", "%s is of another design or of other values: line %d differs", printable(out), row+1)
	}
	n := len(rows) - 1
	if n > len(trials) {
		return nil, misuse(fmt.Sprintf("ask for more than %d, or leave --resume out", n), "%s has more variations than are asked for", printable(out))
	}
	again := make([]study.Result, n)
	for i := range again {
		again[i] = study.Result{Trial: trials[i], Number: i + 1, Err: errNotAgain}
	}
	if n == 0 {
		return rows, nil
	}
	for _, i := range slices.Compact([]int{0, n - 1}) {
		r, err := s.RunFrom(context.Background(), trials[:i+1], i)
		if err != nil {
			return nil, err
		}
		again[i] = r[0]
	}
	want := list.Variations(again, d.Units)
	for i := range rows {
		values := 2 + len(trials[0].Set) // the number, the variation, and what is set
		if i == 0 || again[i-1].Err != errNotAgain {
			values = len(want[i])
		}
		if len(rows[i]) != len(want[0]) || !slices.EqualFunc(rows[i][:values], want[i][:values], list.Cell.Equal) {
			return nil, other(i)
		}
	}
	return rows, nil
}

// errNotAgain stands for a result that is not worked out again.
var errNotAgain = errors.New("not worked out again")
