// Package param reads designs: from the text of the design language to parts
// placed in space.
//
// The work is done by its sub-packages, each of which imports only those
// before it: source (texts and diagnostics), quantity (numbers with
// dimensions), syntax (text to tree), stock (alloys, gauges, pipe), design
// (what a text comes to) and eval (tree to design).
//
// # What the language means
//
// These are the finer points of the language as it is built here.
//
// Units. A plain number where a length is due is in the file's units; so is one
// beside a length in + and -, in a comparison, and in min, max, round, floor,
// ceil, atan2 and pick. A mixed number without a unit, 1-1/2, is always a
// length. Everything else carries its unit, 0 too. Where the file gives no
// units, one diagnostic says so, at the first number that needs them; results
// then read in millimetres.
//
// Title. A design without 'sculpture' goes by the name of its file.
//
// Names. A name is defined once in the whole of its block and the blocks about
// it; nothing hides anything. A let or an adjust may be used before the line
// that defines it, and is worked out when it is first needed, at the latest at
// its own line. Names that are defined by each other in a circle are one
// mistake. Lets and parts share their names; metals have names of their own. A
// let inside of a block ends with the block. An adjust, a variation, a site and
// the settings stand only at the top of the file.
//
// Parts are read only after they are declared. A let that reads a part is
// worked out where it stands, or earlier if something asks for it; the part
// must be declared by then. A requirement is read last and may name any part.
//
// Adjustable values. The value of the command line goes over that of the
// variation, and that over the text's. Each of them, and every value of every
// variation, must be in the range. The dimension is that of the first of value,
// from, to and step that has one.
//
// Repeat counts up by one; where the end is less than the start it does
// nothing. The parts of a repeat carry an index, which is any whole number,
// such as reed[i] or reed[2 * i + 1].
//
// Numbers that differ by less than one part in ten thousand million count as
// the same in a comparison and where a step or a whole number is looked for.
//
// Points. A point is (x, y) in plan or (x, y, z) in space, and has .x, .y and
// .z. Points add, subtract, and go times a number. A distance is measured in
// plan if one of its points is given in plan.
//
// Functions. asin, acos and atan2 give angles. floor and ceil take a step as
// round does; without a step all three want a plain number. pick works out only
// the side that holds, and 'and' and 'or' only as far as needed.
//
// Bearings. A bearing is an angle; 'toward' may also lead to a part or a point,
// and then means the direction in plan to the part's middle: the centre of a
// ball, the middle of a post's axis, the middle of a base's upper face. It is
// taken from the post's foot for lean and seam, from the ball's centre for the
// offset of a post on it, from the post's head for the offset of a ball on it,
// and from the ball's own centre for its pole. A lean or an offset of 0 needs no
// bearing and has none.
//
// Base. Without 'at' a thing stands in the middle of the base. The whole ring
// of a post's foot must lie on the plate, which for a leaning post is an
// ellipse; of a ball, the point on which it rests. On a base of feet, things
// stand on the ground anywhere. Anchor holes must lie within the plate and not
// past its middle.
//
// Post on a ball. Its axis must leave the ball, and the whole of the tube must
// meet the ball: the axis passes the centre by less than the ball's radius less
// the tube's outside radius.
//
// Ball on a post. One ball to a head; a head that carries a ball has no disc.
// A bought ball needs no metal.
//
// Pole. 'pole A toward B' leans a ball's pole by A from upright; 'pole toward
// B' lays it level. The middle of gore 1 faces bearing 0 of the upright ball,
// carried over by the shortest tilt.
//
// What can be read of a part: of a base center, top, width, depth, and of a
// disc diameter and radius; of a post center, diameter, radius, length, foot,
// head and top; of a ball center, diameter, radius and top. The top of a post
// is the highest point of its head cut square.
//
// Requirements. A definition of the file must not have the name of a result
// that a requirement reads, such as height.
//
// Limits. Sizes lie between 0.01 mm and 1 km. A text has at most 4 MiB; a
// design at most 10,000 parts, 1,000,000 steps to work out, 100 characters to a
// name, and 2,000 expressions within one another. At most 200 mistakes are told.
//
// Where a text cannot be read in full, the rest is still worked out, but
// nothing is said of names and properties that are missing, since they may have
// been lost with the part that could not be read.
package param
