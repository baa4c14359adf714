// Package picture makes a shaded picture of the finished piece that a client
// would believe: its exact solids in true perspective, under a sky and a sun with
// soft shadows, in the metal and finish of the design, on pavement, with a
// standing figure of stated height beside it.
//
// A picture is the same for the same job and options on any number of cores:
// what looks random is a function of the place and the seed.
package picture
