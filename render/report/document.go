package report

// A Document is a job as one document that scripts can rely on: keys in
// lower_snake_case that do not change, SI units named by the end of the key,
// finite numbers, points as [x, y] or [x, y, z] in mm, lists in the order of
// the source. What was not worked out is left out, never zero.
type Document struct {
	Report    int    `json:"report"`             // the version of this form: 2
	Design    string `json:"design"`             // the title
	Source    string `json:"source"`             // the name of the text
	Revision  string `json:"revision,omitempty"` // the fingerprint of what is drawn
	Variation string `json:"variation"`          // the variation in force, or ""

	Revisions  []Revision `json:"revisions,omitempty"` // issues of the drawings, in order
	Variations []string   `json:"variations"`          // those that the design names

	Adjust []Adjust `json:"adjust"`
	Size   Size     `json:"size"`
	Mass   Mass     `json:"mass"`
	CG     Point3   `json:"centre_of_gravity_mm"` // of parts and weld metal, without ballast

	Verdict     string `json:"verdict"`      // "holds", "fails" or "undecided"
	VerdictText string `json:"verdict_text"` // the last word in a sentence

	Parts        []Part        `json:"parts"`
	Rings        []Ring        `json:"rings,omitempty"`    // whose tubes are parts, posts each
	Tipping      *Tipping      `json:"tipping,omitempty"`  // left out without a footprint
	Wind         *Wind         `json:"wind,omitempty"`     // left out where the site gives none
	Strength     *Strength     `json:"strength,omitempty"` // left out where it was not worked out
	Shop         *Shop         `json:"shop,omitempty"`     // left out where the design describes none, unless it was asked for
	Checks       []Check       `json:"checks"`
	Requirements []Requirement `json:"requirements"`
	Findings     []Finding     `json:"findings"`
}

// A Point2 is [x, y], a Point3 is [x, y, z].
type (
	Point2 [2]float64
	Point3 [3]float64
)

// An Adjust is an adjustable value, in Unit.
type Adjust struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit"` // "mm", "mm2", "mm3", "kg", "s", "deg", "m/s", "N", "MPa", "kg/m3", "N m", "Hz", powers of m, kg, s and rad such as "kg m-1", or "" for a plain number
	From  float64 `json:"from"`
	To    float64 `json:"to"`
	Step  float64 `json:"step,omitempty"` // left out where the value moves freely
}

// A Revision is one issue of the drawings.
type Revision struct {
	Letter string `json:"letter"`
	Date   string `json:"date,omitempty"` // such as "2026-11-30"
	Note   string `json:"note,omitempty"`
}

// Size is the overall size, parts and base.
type Size struct {
	Width  float64 `json:"width_mm"`  // along x
	Depth  float64 `json:"depth_mm"`  // along y
	Height float64 `json:"height_mm"` // along z
}

// Mass is what the whole weighs.
type Mass struct {
	Total   float64 `json:"total_kg"` // parts and weld metal, without ballast
	Low     float64 `json:"low_kg"`   // at the least thickness in tolerance
	High    float64 `json:"high_kg"`  // at the greatest
	Weld    float64 `json:"weld_kg"`  // weld metal, estimated
	Ballast float64 `json:"ballast_kg"`
	Block   float64 `json:"block_kg,omitempty"` // that the plate is bolted to
}

// A Part is one part: a base, a post or a ball.
type Part struct {
	Name      string  `json:"name"`
	Kind      string  `json:"kind"` // "base", "post", "ball" or "bowl"
	Metal     string  `json:"metal,omitempty"`
	Alloy     string  `json:"alloy,omitempty"`
	Thickness float64 `json:"thickness_mm,omitempty"`

	Mass float64 `json:"mass_kg"` // without weld metal
	Low  float64 `json:"low_kg"`
	High float64 `json:"high_kg"`
	CG   Point3  `json:"centre_of_gravity_mm"`

	// Of a base.
	Shape string  `json:"shape,omitempty"`   // "plate", "disc" or "feet"
	Size  *Point2 `json:"size_mm,omitempty"` // along x and y

	Wall float64 `json:"wall_mm,omitempty"` // height over the floor of the middle of a plate on a wall, whose size is across and up

	Block   *Block `json:"block,omitempty"`   // on the ground, that the plate is bolted to
	Footing *Block `json:"footing,omitempty"` // in the ground, that the plate is bolted to

	// Of a post.
	Foot     *Point3     `json:"foot_mm,omitempty"` // on the axis
	Head     *Point3     `json:"head_mm,omitempty"` // on the axis
	Diameter *[2]float64 `json:"diameter_mm,omitempty"`
	Sunk     float64     `json:"sunk_mm,omitempty"`        // how deep its tube goes on into concrete in the ground
	Pier     float64     `json:"pier_mm,omitempty"`        // the diameter of that concrete
	Rounds   []float64   `json:"round_seams_mm,omitempty"` // of a post in courses, along its axis from the foot

	// Of a ball.
	Center *Point3  `json:"center_mm,omitempty"`
	Radius *float64 `json:"radius_mm,omitempty"` // outside, of the sphere that its flats touch; of a bowl, of its ball
	Tall   float64  `json:"tall_mm,omitempty"`   // of an egg, outside, along its pole, of which radius_mm is half of its width
	Pole   *Point3  `json:"pole,omitempty"`      // of an egg, the unit vector along its pole
	Rim    *float64 `json:"rim_mm,omitempty"`    // of a bowl, the diameter of its rim, outside
	Depth  *float64 `json:"depth_mm,omitempty"`  // of a bowl, outside
	Mouth  *Point3  `json:"mouth_mm,omitempty"`  // of a bowl, the middle of its rim

	Roundness *Roundness `json:"roundness_mm,omitempty"` // of its outside, from the true sphere of its radius, or the true egg

	Seam   float64 `json:"seam_mm"` // welded within the part
	Joints []Joint `json:"joints"`  // each reported once: at the post that ends there or the ball that rests there
	Blanks []Blank `json:"blanks"`
}

// A Ring is a hoop of tubes that are mitred to each other.
type Ring struct {
	Name   string   `json:"name"`
	Tubes  []string `json:"tubes"` // the parts, in order
	Center Point3   `json:"center_mm"`
	Axis   Point3   `json:"axis"`      // the unit vector of the way that it faces, or up where it lies
	Across float64  `json:"across_mm"` // diameter of the circle that the outsides of its tubes touch
	Corner float64  `json:"corner_mm"` // how far its corners stand out of that circle
}

// A Block is what a plate is bolted to.
type Block struct {
	Of   string  `json:"of"`      // "concrete", or the kind of stone
	Size Point3  `json:"size_mm"` // along x, along y and high
	Mass float64 `json:"mass_kg"`
}

// A Joint is where the part is welded to another.
type Joint struct {
	With string  `json:"with"`
	At   string  `json:"at"` // "foot" or "head"; of a ball "rest" on a base, "seat" on a ball, "thread" on a post through it; of a tube of a ring "lies" on a base
	Weld float64 `json:"weld_mm"`
}

// Roundness is how far a ball lies from the true sphere, or from the true egg, along the radius
// and without regard to sign.
type Roundness struct {
	Greatest float64 `json:"greatest"`
	Mean     float64 `json:"mean"` // over its area
}

// A Sector is how an annular sector is laid out: two arcs about one point.
type Sector struct {
	Apex  Point2  `json:"apex_mm"`
	Small float64 `json:"small_radius_mm"`
	Large float64 `json:"large_radius_mm"`
	Angle float64 `json:"angle_deg"`        // included
	Chord float64 `json:"chord_mm"`         // from corner to corner of the large arc; its diameter beyond half a turn
	Gap   float64 `json:"gap_mm,omitempty"` // then taken off along the straight edge at the right, parallel to it

	Chords *Chords `json:"chords,omitempty"` // by which arcs are laid out that are too long to be struck
}

// Chords are those of the arcs of a sector, square across its middle line, with the heights
// of the arcs over them: at the middle, and at every step from there toward either corner.
type Chords struct {
	Large   float64   `json:"large_mm"`
	Small   float64   `json:"small_mm"`
	Apart   float64   `json:"apart_mm"`
	Step    float64   `json:"step_mm"`
	OfLarge []float64 `json:"large_heights_mm"`
	OfSmall []float64 `json:"small_heights_mm"`
}

// A Blank is a flat piece to cut.
type Blank struct {
	Name      string  `json:"name"`
	Shape     string  `json:"shape"` // "tube", "gore", "disc", "plate" or "sector"
	Quantity  int     `json:"quantity"`
	Width     float64 `json:"width_mm"`  // of the bounding rectangle, along x
	Length    float64 `json:"length_mm"` // along y
	Area      float64 `json:"area_mm2"`  // of one finished piece
	Thickness float64 `json:"thickness_mm"`
	Mass      float64 `json:"mass_kg"`            // of one finished piece
	Face      string  `json:"face"`               // the face that is drawn: "outside"; "top" of a plate
	Template  bool    `json:"template,omitempty"` // not a flat: it is wrapped round the outside of a pipe or tube that is bought

	Outline []Point2   `json:"outline_mm,omitzero"` // closed, counter-clockwise, within Chord of the true curve
	Holes   [][]Point2 `json:"holes_mm,omitzero"`
	Chord   float64    `json:"chord_mm"`

	Diameter  float64 `json:"diameter_mm,omitempty"`  // of a round blank
	Allowance float64 `json:"allowance_mm,omitempty"` // left on all round, to be trimmed after forming

	Sector    *Sector     `json:"sector,omitempty"`
	Forming   Forming     `json:"forming"`
	Marks     []Mark      `json:"marks,omitempty"`
	Ordinates []Ordinates `json:"ordinates,omitempty"`
	Notes     []string    `json:"notes,omitempty"`
}

// A Forming is what is done to a blank after it is cut.
type Forming struct {
	How        string  `json:"how"`                      // "roll", "cone", "dome", "dish", "bend" by hand one way, "flat" or, of what is bought, "saw"
	MeanRadius float64 `json:"mean_radius_mm,omitempty"` // to the middle of the thickness; of a cone half way between its ends
	Egg        *Point2 `json:"egg_mm,omitempty"`         // of an egg's: how wide and how tall that is outside
	Bends      *Point2 `json:"bends_mm,omitempty"`       // of an egg's, along the meridian to the middle of the thickness: at the equator, and where it ends toward a pole
	Bow        float64 `json:"bow_mm,omitempty"`         // of an egg's gore, how far its middle stands out from the chord from tip to tip
	Radii      *Point2 `json:"radii_mm,omitempty"`       // of a cone: at its foot or lower edge, and at the other end
	Axis       string  `json:"axis,omitempty"`           // of the flat, about whose direction it is bent
	Crown      float64 `json:"crown_mm,omitempty"`       // to raise across the widest place of a domed gore
	Stretch    float64 `json:"stretch,omitempty"`        // mean, as a share of length
}

// A Mark is a line to draw on a blank, not to cut.
type Mark struct {
	Kind    string   `json:"kind"` // "witness", "centre", "bend" or "standing": where another part stands
	From    Point2   `json:"from_mm"`
	To      Point2   `json:"to_mm"`
	Label   string   `json:"label,omitempty"`
	Bearing *float64 `json:"bearing_deg,omitempty"` // of a witness mark
	Path    []Point2 `json:"path_mm,omitempty"`     // of a mark that is not straight
	Piece   int      `json:"piece,omitempty"`       // of a ball: the piece that carries it, where the pieces differ
}

// A Ordinates is a table from which a curved edge is laid out by hand.
type Ordinates struct {
	Edge     string   `json:"edge"`     // "foot", "head" or "half width"
	Along    string   `json:"along"`    // what the first number of a station is measured along, and from where
	Measured string   `json:"measured"` // what the second is measured from
	Pitch    float64  `json:"pitch_mm"`
	Stations []Point2 `json:"stations_mm"` // [along, ordinate]
}

// A Tipping is how the whole stands. Without loads there are no factors.
type Tipping struct {
	Factor    *float64 `json:"factor,omitempty"` // the least over all edges and cases
	Target    float64  `json:"target"`
	TipAngle  float64  `json:"tip_angle_deg"` // the least over all edges, without ballast
	TipEdge   int      `json:"tip_edge"`      // its edge, counted from 0
	Ballasted float64  `json:"tip_angle_with_ballast_deg"`
	Bare      *float64 `json:"factor_without_ballast,omitempty"`
	WindToTip *float64 `json:"wind_to_tip_mps,omitempty"` // left out where no wind does
	Minimum   *float64 `json:"method_minimum,omitempty"`  // the least target that the method has
	MinimumOf string   `json:"method_minimum_source,omitempty"`
	WorstEdge *int     `json:"worst_edge,omitempty"`
	WorstCase string   `json:"worst_case,omitempty"`

	Edges []Edge `json:"edges"`

	// Ballast is what must be laid at the middle of the footprint to reach the
	// target; left out without loads and where no ballast would do.
	Ballast      *float64 `json:"ballast_for_target_kg,omitempty"`
	BallastFails bool     `json:"ballast_fails,omitempty"`

	// AnchorTension is the greatest pull on one anchor, prying not included; left
	// out without anchors or where strength was not worked out.
	AnchorTension *float64 `json:"anchor_tension_n,omitempty"`
	Sliding       *Sliding `json:"sliding,omitempty"` // left out without loads
}

// A Sliding is what friction holds against being shoved along, in the
// worst case, anchors left out.
type Sliding struct {
	Factor   float64 `json:"factor"`
	Friction float64 `json:"friction"` // the coefficient, assumed
	Holding  float64 `json:"holding_n"`
	Driving  float64 `json:"driving_n"`
	Case     string  `json:"case"`
}

// A Edge is a side of the footprint, counter-clockwise.
type Edge struct {
	From        Point2   `json:"from_mm"`
	To          Point2   `json:"to_mm"`
	Lever       float64  `json:"lever_mm"` // in to the centre of gravity, ballast included
	TipAngle    float64  `json:"tip_angle_deg"`
	Restoring   float64  `json:"restoring_nm"` // of the worst case; on level ground without loads
	Overturning *float64 `json:"overturning_nm,omitempty"`
	Factor      *float64 `json:"factor,omitempty"`
	Case        string   `json:"case,omitempty"`
}

// A Check is one thing that was looked at and what came of it.
type Check struct {
	ID      string   `json:"id"`
	Part    string   `json:"part"` // "" for the whole
	With    string   `json:"with,omitempty"`
	Verdict string   `json:"verdict"`         // "holds", "fails" or "undecided"
	Found   *float64 `json:"found,omitempty"` // left out where it is undecided
	Limit   *float64 `json:"limit,omitempty"`
	AtLeast bool     `json:"at_least,omitempty"` // found must be no less than limit; else no more
	Held    bool     `json:"held,omitempty"`     // found falls short of limit, and the anchors hold it
	Unit    string   `json:"unit"`               // "mm", "kg", "N", "deg", "Hz", "m/s", "money", or "" for a plain ratio
	Case    *Case    `json:"case,omitempty"`     // the governing load
	Source  string   `json:"source,omitempty"`   // the clause or the rule
	Why     string   `json:"why,omitempty"`      // of one that is undecided
	Concern string   `json:"concern"`            // "life", "work", "money" or "wish"
}

// A Case is the load that governs a check.
type Case struct {
	Kind    string   `json:"kind"`                  // "own-weight", "slope", "push", "wind", "people", "ice" or "earthquake"
	Bearing *float64 `json:"bearing_deg,omitempty"` // left out where it is the same from all round
	Speed   float64  `json:"speed_mps,omitempty"`
	Sloping bool     `json:"on_slope,omitempty"`
	Least   bool     `json:"least_design_force,omitempty"`
	Part    string   `json:"part,omitempty"` // that is pushed
	Text    string   `json:"text"`
}

// A Requirement is a condition and what came of it.
type Requirement struct {
	Text        string   `json:"text"`
	Why         string   `json:"why,omitempty"`
	Verdict     string   `json:"verdict"`                // "holds", "fails" or "undecided"
	Value       string   `json:"value"`                  // what it came to, or why it could not be worked out
	UndecidedBy []string `json:"undecided_by,omitempty"` // the checks on which it rests and that are not decided
}

// A Finding is one remark.
type Finding struct {
	Level   string   `json:"level"`   // "danger", "fault", "caution" or "note"
	Concern string   `json:"concern"` // "life", "work", "money" or "wish"
	Parts   []string `json:"parts"`   // empty for the whole
	Check   string   `json:"check,omitempty"`
	Text    string   `json:"text"`
}
