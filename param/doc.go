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
// Units. A plain number where a length is needed is in the file's units; so is one
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
// let inside of a block ends with the block. An adjust, a variation, a site, a
// shop, a finish and the settings stand only at the top of the file.
//
// Use. A used file gives its metals, shop, site, finish, lets and adjusts, and
// those of the files that it uses. Its title, parts, repeats, variations and
// requirements are its own and are left behind, so that a design can be used for
// its metals. All files of a design share one set of names: a name that two of
// them define is a mistake, and so is a second site, shop or job. A file that
// is used by several is read once; a text that uses one file twice is reported. A
// path is written with '/', relative to the file that it stands in. The design's
// own folder is the one of the file that is asked for; what leads out of it, or
// is absolute, or is a link to a file outside, needs the caller's leave. A text
// from standard input stands in the working folder.
//
// A plain number is a length in the units of the file in which it stands. A plain
// number that comes from a definition in a file of other units is good as a
// count, and a mistake where a length is needed. A value of the command line is in
// the units of the design's own file.
//
// Finish. A design has one finish. One that stands in the design's own file goes
// over one that is brought.
//
// Revisions stand in the design's own file, one for each issue, each with a letter of
// its own and none dated before one above it. Those of a file that is brought are left
// behind. The fingerprint is of what the statements of all files say, without the
// revisions: comments, layout and another issue of the same design leave it.
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
// Bearings. A bearing is an angle; right, back, left and front are 0, 90, 180 and 270
// deg, unless a value or a part has that name; 'toward' may also lead to a part or a point,
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
// past its middle. The corners of a plate polygon go round it either way and are
// measured from the point from which 'at' is; that may lie outside of the plate.
//
// Block. A plate with a 'block' is bolted to it, so that it must have anchors; the block
// stands free on the ground, its middle under the point from which 'at' is, and all heights
// are over that ground. Its weight and its outline count for standing, and it is no part of
// the weight of the piece. The anchors hold the plate to the block and nothing to the ground.
// A block and a footing, which lies in the ground with its upper face level with it, are not
// given together.
//
// Wall. A plate on a 'wall' is upright, its back on the face of the wall, which is y = 0; the
// floor is z = 0. The two sizes are its width and its height, and 'at' is how high its middle is
// over the floor. 'at (x, y)' of what is on it is from that middle, x to the right and y up. A
// post comes out of it toward the viewer: without 'lean' square to the wall, and with it leaned
// from upright toward a bearing, as everywhere, so that 'lean 60 deg toward front' rises by 30 deg;
// the lean may be up to 180 deg, but the post must come out. All else is as on the ground:
// bearings are in plan, 270 deg or front being out of the wall, a post on a post's head without
// 'lean' goes on the same way and with 'lean 0 deg' stands upright, and balls rest along the axis
// of the post that they are on. Nothing reaches into the wall or below the floor, and no ball lies
// on the plate. It must have anchors, which carry it: it neither tips nor slides. In a wall they
// are drilled unless 'anchor_kind' says otherwise, and 'concrete' says that the wall is of concrete,
// without an edge near and deep enough; of another wall it is not decided what they hold. Ballast,
// a block, a footing and a slope of the site do not go with it. Its 'depth' reads its height, and
// its 'top' how high its upper edge is.
//
// Pad. A post on a base of feet may have a pad, a plate on the ground of which its foot stands
// in the middle; it is a part of its own, NAME.pad, and its anchors are checked under what that
// post alone brings down.
//
// Sunk. The tube of a post that is 'sunk' goes on along its axis below the ground, to a level
// cut at that depth; its length, its foot and all that is measured from there stay as they
// are without. The concrete is round and plumb, as deep as the tube, its middle under the
// middle of the length that is in it, with 50 mm of concrete about the tube at least. A piece
// of which all feet are sunk has no footprint: it stands as far as the ground holds.
//
// Post between two parts. The centre of a post is the middle of its axis, so
// that the end meets its side; the whole of the end must lie between the foot and
// the head of that post, and the end be no thicker than it. From or to a base
// the axis meets the plate's top where 'at' says, or straight under the centre of
// the other part; that must be higher. The seam's bearing is of the tube
// standing upright, and a post that runs down is tilted past level.
// 'from left at L to right at L' takes, in place of the centre of a post, the point of
// its axis at L from its foot, for one end or for both: so rungs and braces are set.
//
// Post to a post's head. 'from left.head to right.head' joins heads that are free, so
// that arches and frames close: the axis runs from the middle of the one to the middle
// of the other, as it stands on a head. Both ends follow the rule of a post on a head.
//
// Post on a post's head. Without 'lean' it goes on the same way; 'lean 0 deg' is
// upright, whatever the post below does; the lean may be up to 180 deg. Tubes of
// one diameter butt if they run the same way, and else make a mitre, in the plane
// that halves the angle of their axes, which must not cut through the whole
// length of either; a taper makes no mitre. A smaller tube stands on the disc of
// the larger head, straight or leaning, trimmed to that plane, and its whole
// ring must lie on it; that head keeps its disc and its square cut, and may not
// be open. A larger tube stands on no smaller head. One part to a head.
//
// Post on a post's side. 'at L toward B' puts its foot F on the outer surface of
// the host, at L along the host's axis from the host's foot, on the side that
// faces the bearing B of the host standing upright. 'toward NAME' is taken from
// the host's axis at L. Without 'lean' the axis goes straight out, square to the
// host's axis. 'lean A toward C' leans it from upright as everywhere, and the two
// axes may then pass each other. 'lean A' alone keeps to the plane of the host's
// axis and F, so that the axes meet; where two directions do, it is the one
// nearer to straight out. The lean may be up to 180 deg, for a branch that hangs.
// The axis must leave the host at F, the branch be no thicker than the host
// there, its whole outside meet the host, and the saddle so made lie between the
// host's foot and head.
//
// Bought pipe and tube. 'bought pipe N schedule S' takes the outside and the wall of NPS N
// from ASME B36.10M, or from B36.19M for a schedule that ends in S; N is a number of inches
// and may be written without them, also as 1-1/2. Its diameter follows. 'bought tube' has
// its 'diameter' and 'wall'. The metal then gives the alloy, and is the sheet of the disc in
// a head that is closed. Neither has a seam, a gap or a taper, and other seams need keep off
// nothing. An end that meets a plane, a plate or a mitre, is sawn flat through the whole
// wall; others are coped square through it, and touch first where the wall of a rolled post
// would. It is cut from lengths of 'stock', 20 ft or 6 m, each piece from tip to tip, with a
// kerf of 3 mm unless the shop has a saw. Its weight may be off by a tenth, as its standards allow.
//
// Taper. The first diameter is that of the foot. Where an end meets something its
// own diameter counts. The end of a taper is square through its sheet, so that the
// edge inside is lower than the edge outside, or higher where it widens; a ball
// rests on the edge that holds it higher.
//
// Point. 'diameter D to 0' is a cone whose head is a point, at 'length' from the foot. Its
// sheet ends where its inside closes, or where it is as narrow as the shop can weld; the
// rest is built up with weld and dressed. A point is closed, has no 'head', and carries and
// joins nothing. A foot has a diameter.
//
// Post on a ball. Its axis must leave the ball, and the whole of the tube must
// meet the ball: the axis passes the centre by less than the ball's radius less
// the tube's outside radius.
//
// Ball on a post. One part to a head; a head that carries a ball has no disc.
// A bought ball needs no metal.
//
// Doubler. A disc of the ball's own sheet, dished to its outside and welded on it round its
// edge, where a post meets the ball, which must be of domed gores or halves. Its diameter is
// that of its edge when it is dished, between that of the post and 0.6 of the ball's. Nothing
// else moves: the post is cut back by the thickness of the disc. It is a blank of the post's.
//
// Ball on a ball. Its centre is straight above that of the ball below, or 'offset'
// away from there, level, with the same distance between the centres. The seat
// is smaller than both balls. The smaller ball, or of two alike the upper, is cut
// where the other sits in it, and that stays whole; with 'through' both are cut on
// the seat's circle and are open to each other.
//
// Egg. 'tall' makes an egg of a ball: an ellipsoid of revolution about its pole, outside, as wide
// as 'diameter' says and as tall as 'tall', from half to twice as much. Where it is as tall as it
// is wide it is a ball. Its sheet lies under that, square to it everywhere, and bends to more
// than twice its own thickness. Gores and rings touch it as they touch a ball: a gore all along
// its middle, each ring all round where the ellipse is drawn by an even part of the angle from
// pole to pole, and the discs of rings at the poles. Round caps are for its domed gores alone.
// A foot on an egg lies straight above or below where 'offset' leads, on its upper side; a post
// from or to an egg leads to its centre. On a post's head it rests as a ball does, so high that
// the tube's longest side is as long as its 'length', however its pole leans. It is seated on
// a ball, or a ball or an egg on it, where the poles of eggs are upright and there is no
// 'offset', so that the seat is a circle. It is threaded on no post, and has no holes but its
// vent and its drain, and no doubler.
//
// Bowl. A bowl is what lies of a ball below a plane across its pole. Its 'diameter' is that
// of the rim and its 'depth' from there to the bottom, both outside, so that its ball has the
// radius (a2 + h2) / 2 h with half of the diameter a and the depth h; it is at most half of
// the ball. It rests as that ball would, by what there is of it, and its mouth leans by
// 'tilt'; 'at (x, y, z)' is the middle of its rim. The rim is square through its sheet;
// 'rim flat' grinds it level with its outer edge. Nothing stands in a bowl; a post runs
// 'from' it or 'to' it, toward the middle of its ball.
//
// Ring. Its 'across' is the diameter of the circle that the outsides of its tubes touch within,
// so that each is across x tan(pi / n) long outside; the corners stand out of that circle by
// R (1 / cos(pi / n) - 1). There are 12 tubes unless 'segments' says. A standing ring has its axis
// level and is upright whatever the post below does; its lowest tube is tube 1, whose axis
// meets that of the post. The tubes run head to foot, counter-clockwise to whom the ring faces, or
// looks down on it. A bearing on one of them is of the ring: 0 out from its centre, 270 deg the
// way of its axis; 'toward NAME' is the direction to that in space. Seams lie 45 deg to one side
// and the other of the middle of their insides by turns, so that neighbours are the same blank
// turned end for end; the last of an odd number has its own outside. Nothing stands on the head
// of a tube. On the base a ring lies on the lines of its tubes that touch it, all of which must be
// on the plate. No part may have the name of a ring.
//
// Ball around a post. Its centre lies between the post's foot and head. The post
// goes through it, and may end within it.
//
// Ball placed outright. z is its height over the ground; it may not reach below.
// All parts must hang together with the base; a ball placed outright that does
// not is a mistake, reported once for all that hangs together with it.
//
// Vent and drain. One hole each, smaller than the ball, and at most half as wide as
// a post. The vent is as high as it can be clear of seams and joints and the drain
// as low; one that is alone is low and does for both. They face away from the viewer
// unless they say which way.
//
// Hole. A hole is no part: nothing is read of it, stands on it or points at it, though it
// shares its names with parts. It is declared after its part, and after what is welded to that
// where it lies in a joint. It is cut straight through along its axis, which in a post is
// square to the post's, in a ball runs through the ball's centre and in a plate is upright; at
// the middle of the sheet, of bought pipe at its outside, it is as wide as it says, looked at
// along its axis. 'toward' and 'up' of a hole in a ball say which way it faces; straight up or
// down it needs no 'toward'. 'slot A by B' is A across and B along the post's axis, up the
// ball's side or along y of the plate, whichever is longer, with round ends. In a joint the
// axis is that of what is welded there, but in the wall of a post square to it; a head that is
// closed by a disc under a smaller tube has the hole in that disc. A hole lies in one
// joint or in none. It is at most four fifths as wide as its post or ball.
//
// Seams. That of a post faces away from the viewer; where it would come within 10 mm
// of a seam of the ball or the tube at one of its ends, or of a branch on its side, it
// is turned to the nearest bearing at the back that keeps off, or else to the best. A
// ball's 'seam' turns its gores or rings about the pole.
//
// Courses. A post in courses is parted square to its axis, so that all are as long, from
// the lowest point of its foot to the highest of its head, along the side; those at the ends
// are longer where a round seam would run into what is trimmed. 'courses L' takes the fewest
// of which none is longer than L. Seams lie by turns where 'seam' says and 'stagger' further
// round. A branch, a ball that is threaded on it, or a hole may lie across a round seam. A
// post that is too long for the rolls or the sheet is never slit: it is a fault that says
// how many courses it needs.
//
// Pole. 'pole A toward B' leans a ball's pole by A from upright; 'pole toward
// B' lays it level. The middle of gore 1 faces bearing 0 of the upright ball,
// carried over by the shortest tilt.
//
// What can be read of a part: of a base centre, top, width, depth, and of a
// disc diameter and radius; of a post centre, diameter, radius, length, foot,
// head and top; of a ball centre, diameter, radius, top and tall, of a round one its
// diameter; of a bowl the centre of its ball, depth,
// diameter and radius of its rim, and top; of a ring across, centre, diameter of its tubes,
// segments and top. The top of a post
// is the highest point of its ends cut square, and the diameter of a taper that
// of its foot.
//
// Money is a plain number in the shop's currency. A price by weight, by area or by
// the hour says by how much: 2.20 / 1 kg, 40 / (1 m * 1 m), 60 / 1 hr.
//
// Site. Wind goes with a method: asce7 with 'exposure', en1991 with 'terrain'.
// Either of them says the method where 'method' is left out.
//
// Shrinkage. 'shrink' of welding is added for each seam: half of it to either edge of a
// gore or a ring, all of it to the width of a post and round a ring, half way up of a taper,
// shared among its pieces where it is cut in several, and half to each end of a course that
// is welded to another. Dished halves are trimmed half of it beyond the equator. Discs,
// caps and trimmed ends have nothing added.
//
// Root gap. 'gap' of a ball is left at each of its seams: half of it comes off either edge
// of gores and rings, all of it off round a ring, off the radius of a cap, and half off
// the disc at a pole of rings. Dished halves are trimmed half of it short of the equator.
//
// Caps. Two sizes are that of the cap at the lower pole and that at the upper, the one to
// which 'pole' leans. A number after a comma is the second size; one that is worked out
// stands in parentheses.
//
// Shop. A machine is rated by the heaviest sheet of an alloy that it takes over
// its whole width. A metal may be bought in several sizes of sheet, each given
// once. Offcuts are whole, with no trim to take off; without 'number' there is one
// of the size, and they may lie across the rolling direction as the sheets of
// their metal may. A cutter takes any size and thickness that it does not say.
//
// Results. In a requirement 'wind' is the greatest level force on the whole,
// 'strength' the greatest share used of what any section carries, 'frequency' the
// lowest at which the whole sways, 'sheets' a count and 'cost' an amount of money.
// A requirement that reads a result which is not worked out is neither held nor
// failed. The target against tipping is the greatest factor that requirements ask
// for by themselves or joined by 'and', such as tipping >= 1.5. A factor against
// tipping is written rounded down to hundredths.
//
// Requirements. A definition of the file must not have the name of a result
// that a requirement reads, such as height.
//
// Limits. Sizes lie between 0.01 mm and 1 km. A design has at most 32 files, and
// they 4 MiB together; 10,000 parts, 1,000,000 steps to work out and 100
// characters to a name. An expression goes 64 parentheses, calls and signs deep
// and has 1,000 operators; blocks and bodies stand 64 deep in each other;
// definitions that read each other come to 2,000 expressions within one another. At
// most 200 mistakes are reported.
//
// Where a text cannot be read in full, the rest is still worked out. What a
// declaration lacks is reported if all of it could be read; nothing is said of names
// whose definition may have been lost with what could not. A definition whose
// name is misspelt, so that all uses of it fail, is one mistake.
package param
