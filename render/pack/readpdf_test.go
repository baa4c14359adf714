package pack_test

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// A drawn is one path of a page as it stands in a PDF, in mm of the paper.
type drawn struct {
	width  float64 // of the line, mm
	dashed bool
	path   []r2.Vec // curves in short chords; closed ones end where they start
}

// readPDF returns what is stroked on each page, from the operators of ISO 32000
// in the pages' streams alone.
func readPDF(t *testing.T, data []byte) [][]drawn {
	t.Helper()
	var pages [][]drawn
	for _, at := range regexp.MustCompile(`stream\r?\n`).FindAllIndex(data, -1) {
		if bytes.HasSuffix(data[:at[0]], []byte("end")) {
			continue
		}
		z, err := zlib.NewReader(bytes.NewReader(data[at[1]:]))
		if err != nil {
			continue
		}
		ops, err := io.ReadAll(z)
		if err != nil || !regexp.MustCompile(`^\s*[0-9.]+ 0 0 [0-9.]+ 0 0 cm`).Match(ops) {
			continue
		}
		pages = append(pages, readPage(t, string(ops)))
	}
	return pages
}

func readPage(t *testing.T, ops string) []drawn {
	t.Helper()
	type state struct {
		scale, width float64
		dashed       bool
	}
	now := state{scale: 1, width: 1}
	var kept []state
	var all []drawn
	var paths [][]r2.Vec
	var args []float64
	const mm = 25.4 / 72 // a point of PDF
	text := false
	end := func(stroke, close bool) {
		for _, p := range paths {
			if close && p[0] != p[len(p)-1] {
				p = append(p, p[0])
			}
			if stroke {
				all = append(all, drawn{now.width * now.scale * mm, now.dashed, p})
			}
		}
		paths = nil
	}
	last := func() []r2.Vec { return paths[len(paths)-1] }
	at := func(i int) r2.Vec { return r2.Scale(now.scale*mm, r2.Vec{X: args[i], Y: args[i+1]}) }
	for _, word := range strings.Fields(strings.NewReplacer("[", " [ ", "]", " ] ").Replace(ops)) {
		if x, err := strconv.ParseFloat(word, 64); err == nil {
			args = append(args, x)
			continue
		}
		switch word {
		case "[":
			args = nil
			continue
		case "]":
			continue
		case "BT", "ET":
			text = word == "BT"
		case "q":
			kept = append(kept, now)
		case "Q":
			now, kept = kept[len(kept)-1], kept[:len(kept)-1]
		case "cm":
			if !text {
				if args[1] != 0 || args[2] != 0 || args[0] != args[3] || args[4] != 0 || args[5] != 0 {
					t.Fatalf("a matrix that is more than a scale: %v", args)
				}
				now.scale *= args[0]
			}
		case "w":
			now.width = args[0]
		case "d":
			now.dashed = len(args) > 1
		case "m":
			paths = append(paths, []r2.Vec{at(0)})
		case "l":
			paths[len(paths)-1] = append(last(), at(0))
		case "c":
			from := last()[len(last())-1]
			for i := 1; i <= curvePieces; i++ {
				u := float64(i) / curvePieces
				v := 1 - u
				p := r2.Add(r2.Add(r2.Scale(v*v*v, from), r2.Scale(3*v*v*u, at(0))), r2.Add(r2.Scale(3*v*u*u, at(2)), r2.Scale(u*u*u, at(4))))
				paths[len(paths)-1] = append(last(), p)
			}
		case "h":
			paths[len(paths)-1] = append(last(), last()[0])
		case "S":
			end(true, false)
		case "s":
			end(true, true)
		case "f", "f*", "n":
			end(false, false)
		case "B", "b", "B*", "b*", "v", "y", "re":
			t.Fatalf("the operator %q was not expected", word)
		}
		args = nil
	}
	return all
}

// curvePieces is the number of chords of a curve of an eighth of a turn: on a
// circle of 2 m they leave it by 0.005 mm.
const curvePieces = 128
