package layout

// A Plan is how pieces are cut from sheets. Lengths are in mm, areas in mm2.
// The origin of each sheet is its lower left corner, untrimmed.
type Plan struct {
	Layouts []Layout
	Left    []Left // pieces without a place, in the order of Problem.Pieces

	Sheets  int     // whole sheets, offcuts on hand not counted
	Offcuts int     // offcuts on hand that are used
	Money   float64 // the prices of the sheets, offcuts free
	Used    float64 // the area of the pieces as a share of that of all sheets and offcuts used

	// SheetBound and MoneyBound are proven: no layout of the pieces that have a
	// place, edge to edge or not, takes fewer sheets or costs less. The Bound of
	// the aim that is reached proves the plan the best there is.
	SheetBound int
	MoneyBound float64

	Steps int64 // of the search that were used
}

// A Layout is one sheet, or several that are cut alike.
type Layout struct {
	Sheet   int // its index in Problem.Sheets
	Copies  int
	Pieces  []Placed
	Offcuts []Rect // what is left whole, the largest first
	Cuts    []Cut  // in order
}

// A Rect is a rectangle on a sheet.
type Rect struct {
	X, Y, Width, Height float64 // its lower left corner and its sizes along x and y
}

// Area returns the rectangle's area.
func (r Rect) Area() float64 { return r.Width * r.Height }

// A Placed is a piece on a sheet.
type Placed struct {
	Piece int // its index in Problem.Pieces
	Rect
	Turned bool // laid a quarter turn round
}

// A Cut is one cut, from edge to edge of the part in hand.
type Cut struct {
	Hand    Rect    // the part in hand
	Upright bool    // the cut runs along y, at an x; else along x, at a y
	At      float64 // where: the edge of what is dropped; the kerf lies beyond it
	From    float64 // where it starts and ends, along the cut
	To      float64
	// Stop is the setting of the back stop: how much lies between the stop and
	// the cut, which is what drops. It drops at the low end of the part in hand
	// (left or below), or at the high end where High is true.
	Stop float64
	High bool
	Trim bool // what drops is a trimmed edge
	Drop Rect // what drops
	Keep Rect // what stays in hand; without width or height where the kerf takes all
}

// Length returns how long the cut is.
func (c Cut) Length() float64 { return c.To - c.From }

// Held returns how wide what the hold-downs grip is, from the cut on.
func (c Cut) Held() float64 {
	if c.Upright {
		return c.Keep.Width
	}
	return c.Keep.Height
}

// A Left says how many of a piece have no place, and why.
type Left struct {
	Piece int // its index in Problem.Pieces
	Count int
	Why   Reason
}

// A Reason is why a piece has no place.
type Reason int

// The reasons.
const (
	TooLarge Reason = iota // for the usable part of every sheet
	TooLong                // a sheet is large enough, but the shear does not take the cuts
	NoSheets               // the sheets on hand do not suffice
)
