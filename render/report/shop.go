package report

// Shop is the shop's plan: how the job is made, and what that takes.
type Shop struct {
	Name   string   `json:"name,omitempty"`
	Filled []string `json:"filled"` // what the shop does not tell and is taken from a modest one

	SheetCount int    `json:"sheet_count"` // to buy, offcuts at hand not counted
	SheetBound int    `json:"sheet_bound"` // proven: no layout takes fewer
	Complete   bool   `json:"complete"`    // every blank has a place or is ordered
	SheetAim   string `json:"sheet_aim"`   // "sheets": as few as can be; "money": as cheap as can be; "" without sheets; of several metals "mixed"

	Sheets   []Sheet    `json:"sheets"`    // by metal and size, in the order in which they are cut
	ReadyCut []ReadyCut `json:"ready_cut"` // to be bought cut to size: too thick for the shop
	Unplaced []Unplaced `json:"unplaced"`  // what no sheet has a place for

	Lengths []SawStack `json:"lengths"` // of pipe and tube that is bought, and what is sawn from them

	Rolling []Batch    `json:"rolling"`
	Hand    []Handwork `json:"handwork"` // domed and dished by hand

	Welds  []Seam  `json:"welds"`
	Steps  []Step  `json:"assembly"` // in the order of the work
	Spaces []Space `json:"spaces"`   // closed when all is welded

	Weld        float64 `json:"weld_length_mm"`
	EdgeToClean float64 `json:"edge_to_clean_mm"`
	Dress       float64 `json:"dress_mm"`
	Filler      float64 `json:"filler_kg"`
	CurvedCut   float64 `json:"curved_cut_mm"` // by hand, within sheared rectangles

	// An estimate, all of it. The low and the high are as if all went well or ill
	// together.
	Hours     float64    `json:"hours"`
	HoursLow  float64    `json:"hours_low"`
	HoursHigh float64    `json:"hours_high"`
	Work      []Work     `json:"work"`           // by operation
	Unrated   []string   `json:"unrated"`        // operations without a rate, left out of the hours
	Cost      *Cost      `json:"cost,omitempty"` // left out where nothing has a price
	Pipes     []TubePipe `json:"pipes"`          // rolled posts beside standard pipe
	Instead   []TubePipe `json:"rolled_instead"` // bought posts beside as long a tube, rolled from their metal
}

// A SawStack is all that is sawn from one size of pipe or tube.
type SawStack struct {
	Size    string   `json:"size"` // such as "NPS 2 schedule 40"
	Alloy   string   `json:"alloy"`
	Outside float64  `json:"outside_mm"`
	Wall    float64  `json:"wall_mm"`
	Length  float64  `json:"length_mm"` // in which it is bought
	Count   int      `json:"count"`     // lengths to buy
	Bound   int      `json:"bound"`     // proven: no plan takes fewer
	Kerf    float64  `json:"kerf_mm"`
	Mass    float64  `json:"mass_kg"` // of one length
	Bars    []Bar    `json:"bars"`    // the lengths, cut up
	TooLong []string `json:"too_long"`
}

// A Bar is one length of pipe or tube, cut up.
type Bar struct {
	Pieces []SawPiece `json:"pieces"` // in the order of the cuts
	Rest   float64    `json:"rest_mm"`
}

// A SawPiece is what is sawn for one post.
type SawPiece struct {
	Part   string  `json:"part"`
	Length float64 `json:"length_mm"` // from tip to tip
	Foot   SawEnd  `json:"foot"`
	Head   SawEnd  `json:"head"`
}

// A SawEnd is how an end of a piece is cut.
type SawEnd struct {
	Angle float64 `json:"angle_deg"`          // from square
	Coped bool    `json:"coped"`              // along its template
	Filed float64 `json:"filed_mm,omitempty"` // by which a square end is off what it is filed to fit
}

// A Sheet is the sheets of one metal and size that are cut in one way.
type Sheet struct {
	Metal   string   `json:"metal"`
	Way     string   `json:"way"`     // "shear" or "cutter"
	Size    Point2   `json:"size_mm"` // along x, which is the rolling direction, and y
	Trim    float64  `json:"trim_mm"`
	Offcut  bool     `json:"offcut"` // at hand
	Count   int      `json:"count"`
	Used    float64  `json:"used_ratio"`      // the area of the blanks over that of the sheets
	Price   *float64 `json:"price,omitempty"` // of one; left out where none is known
	Layouts []Layout `json:"layouts"`
}

// A Layout is a sheet, or several cut alike. Its origin is the sheet's
// lower left corner.
type Layout struct {
	Name    string  `json:"name"` // such as "skin 1"
	Copies  int     `json:"copies"`
	Used    float64 `json:"used_ratio"`
	Pieces  []Place `json:"pieces"`
	Cuts    []Cut   `json:"cuts"`
	Offcuts []Rect  `json:"offcuts"` // left whole, the largest first
}

// A Rect is a rectangle on a sheet.
type Rect struct {
	X      float64 `json:"x_mm"`
	Y      float64 `json:"y_mm"`
	Width  float64 `json:"w_mm"`
	Height float64 `json:"h_mm"`
}

// A Place is a piece on a sheet: its rectangle, and how its flat is moved
// there: turned by the angle about the flat's origin, then that origin put at the
// point.
type Place struct {
	Blank string `json:"blank"`
	Part  string `json:"part"`
	Rect
	Turned bool    `json:"turned"` // its flat's y lies across the sheet's length
	Angle  float64 `json:"angle_deg"`
	At     Point2  `json:"at_mm"`
	Block  int     `json:"block"` // counted from 0: pieces of one block are sheared out in one rectangle and parted by hand
}

// A Cut is a cut from edge to edge of the part in hand.
type Cut struct {
	Order int     `json:"order"` // counted from 1
	Along string  `json:"along"` // the axis that it runs along
	At    float64 `json:"at_mm"` // on the other axis
	From  float64 `json:"from_mm"`
	To    float64 `json:"to_mm"`
	Stop  float64 `json:"stop_mm"`           // from the stop to the cut: how much drops
	End   string  `json:"drops"`             // the end that drops: "low" or "high"
	Line  bool    `json:"scribed,omitempty"` // the stop does not go so far: cut to a scribed line
	Trim  bool    `json:"trim"`              // what drops is a trimmed edge
	Frees []int   `json:"frees"`             // blocks that come to size
}

// A ReadyCut is a blank to be bought cut to size.
type ReadyCut struct {
	Blank    string  `json:"blank"`
	Part     string  `json:"part"`
	Metal    string  `json:"metal"`
	Quantity int     `json:"quantity"`
	Width    float64 `json:"width_mm"`
	Length   float64 `json:"length_mm"`
	Why      string  `json:"why"`
}

// A Unplaced is pieces that no sheet has a place for.
type Unplaced struct {
	Blank    string `json:"blank"`
	Part     string `json:"part"`
	Quantity int    `json:"quantity"`
	Why      string `json:"why"`
}

// A Batch is pieces that go through every pass of the rolls together.
type Batch struct {
	Metal  string     `json:"metal"`
	Pieces []Quantity `json:"pieces"`
	Radius float64    `json:"mean_radius_mm"`
	Edges  *Point2    `json:"edge_radii_mm,omitempty"` // of a cone, at its narrow and its wide edge
	Load   float64    `json:"load_ratio"`              // of the machine's rating; 0 where that is not known
	Passes []Pass     `json:"passes"`
	Flat   float64    `json:"flat_lead_mm"` // left at an end that is run in alone; 0 where settings are not known
	Notes  []string   `json:"notes"`
}

// A Quantity is so many of a blank.
type Quantity struct {
	Blank    string `json:"blank"`
	Part     string `json:"part"`
	Quantity int    `json:"quantity"`
}

// A Pass is one setting of the back roll. Of a cone the two numbers are for
// the narrow and the wide edge; of a cylinder they are alike.
type Pass struct {
	Loaded   [2]float64 `json:"loaded_radius_mm"`
	Released [2]float64 `json:"released_radius_mm"`
	Lift     [2]float64 `json:"lift_mm"` // upright, from where the roll touches the flat sheet; 0 where not known
	Turns    [2]float64 `json:"turns"`   // of the screws from there; 0 where not known
	// Chord is a straight-edge laid in the hollow of the narrow edge, and Rise the
	// height from its middle to the sheet; 0 where there is no room for one.
	Chord float64 `json:"chord_mm"`
	Rise  float64 `json:"rise_mm"`
}

// A Handwork is a blank that is domed or dished by hand, or of an egg bent one way.
type Handwork struct {
	Quantity
	How    string  `json:"how"`       // "dome", "dish" or, of an egg's gore, "bend"
	Radius float64 `json:"radius_mm"` // to the middle of the sheet; of an egg's at its equator, across
	Crown  float64 `json:"crown_mm"`
}
