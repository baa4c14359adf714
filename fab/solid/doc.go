// Package solid has the bodies of parts: what a ball is on its outside as it is
// made, where its caps begin and how far it reaches; the side of a post, the plane
// of its mitre and how far its trimmed ends reach. Of each body it tells where a
// tube that comes down on it along its axis touches first. Lengths are in mm.
package solid
