// Package design is what a text comes to: parts with their sizes, each placed
// in space, and what is asked of the whole. It is plain data, made by package
// eval and read by package fab.
//
// Lengths are in mm, masses in kg, angles in rad, forces in N, stresses in MPa,
// speeds in m/s and densities in kg/m3. X is to the right, Y away from the
// viewer and Z up; the ground is z = 0. A bearing is an angle in plan from +X
// towards +Y.
package design
