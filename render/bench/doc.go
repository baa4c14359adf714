// Package bench serves the workbench: a page on the loopback address on which a
// design is written, dragged and looked at, while all that the program knows of
// it stands beside.
//
// The text of the design is the one truth. The page sends it with each change and
// shows what comes back; it works nothing out. Edits by hand go through package
// edit, which changes a number at its place.
//
// Nobody but the browser that opened the address gets in: see guard.go.
package bench
