// Package examples carries the example designs within the program, for somebody
// who begins from one without having the folder.
package examples

import "embed"

// Files are the designs, and the shops that they bring.
//
//go:embed *.stabile shop/*.stabile
var Files embed.FS
