// Stabile works out free-standing sculptures of hollow balls and rolled tubes
// from a text: flat blanks, weight, standing and shop drawings.
package main

import (
	"os"

	"stabile/cmd/internal/cli"
)

func main() {
	os.Exit(cli.Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv))
}
