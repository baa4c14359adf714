package cli

import (
	"errors"
	"fmt"
	"regexp"
	"runtime/debug"

	"stabile/fab/workers"
)

// A brokenError is a fault of the program itself, which a panic showed.
type brokenError struct {
	what  string
	where string // file and line; "" where that is not known
}

func (e *brokenError) Error() string { return e.what }

// guarded does a piece of work, and returns a panic in it as a brokenError.
func guarded(work func() (int, error)) (status int, err error) {
	defer func() {
		if v := recover(); v != nil {
			status, err = statusBroken, broken(v, debug.Stack())
		}
	}()
	return work()
}

// broken returns the error for a panic with a value and a stack.
func broken(v any, stack []byte) error {
	var worker *workers.Panic
	if err, ok := v.(error); ok && errors.As(err, &worker) {
		v, stack = worker.Value, worker.Stack
	}
	return &brokenError{what: fmt.Sprint(v), where: panicked(string(stack))}
}

// frame is the line of a stack that says where in this program a function was:
// the path of the file, of which what follows the top folder is kept.
var frame = regexp.MustCompile(`(?m)^\t.*?((?:param|fab|render|cmd)/[a-z/]*[a-z_]+\.go:\d+)`)

// panicTop is the frame of a panic itself, below which its cause stands.
var panicTop = regexp.MustCompile(`(?m)^panic\(.*\n.*\n`)

// panicked returns the place in this program where a panic began.
func panicked(stack string) string {
	if at := panicTop.FindStringIndex(stack); at != nil {
		stack = stack[at[1]:]
	}
	if found := frame.FindStringSubmatch(stack); found != nil {
		return found[1]
	}
	return ""
}
