// Package solid has the bodies of parts, each made once: how far a point is from it,
// where a line goes through it, how far it reaches, what it shows to the wind. It has
// the outside of a ball as it is made, the side of a post, and what the ends of a
// post meet, and tells where a tube that comes down on such a surface along its axis
// touches it first. Lengths are in mm.
package solid
