// Package solid has the bodies that the end of a tube is trimmed to: what lies
// below a plane, a sphere, a sphere with flat poles, and the lobed ball that
// rolled gores make. It answers one question about them, which is where a tube
// that comes down on the body along its axis touches first. Lengths are in mm.
package solid
