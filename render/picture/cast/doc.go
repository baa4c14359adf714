// Package cast has the solids that a picture is cast from, and what light needs
// of them: where a ray first meets one, how much of a cone of directions they
// cover, how much of the light from all round they keep from a point, and how
// far a point is from them.
//
// Every solid is exact: balls as they are built, with lobes, rings, flats and
// caps, tubes and tapers with the thickness of their wall. The whole is their
// union, so that a tube which ends within the outside of a ball is trimmed to it.
// Lengths are in mm; directions are unit vectors.
package cast
