// Stabile works out free-standing sculptures of hollow balls and rolled tubes
// from a text: flat blanks, weight, standing and shop drawings.
package main

import (
	"os"
	"runtime/debug"

	"stabile/cmd/internal/cli"
)

func main() {
	// Large designs take less memory so, and no more time; who sets GOGC knows better.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(50)
	}
	os.Exit(cli.Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv))
}
