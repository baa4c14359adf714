package report

// A Wind is the wind on the whole from the bearing that tips it most. The
// forces are those of the method as they stand; LeastFactor brings them up to the
// least design force of the standard.
type Wind struct {
	Method  string  `json:"method"`  // "asce7" or "en1991"
	Edition string  `json:"edition"` // such as "ASCE 7-16"
	Ground  string  `json:"ground"`  // exposure or terrain category
	Speed   float64 `json:"speed_mps"`
	Gust    float64 `json:"gust_factor"`

	Force        float64 `json:"force_n"`          // level, of all items
	Lift         float64 `json:"lift_n,omitempty"` // upward
	Moment       float64 `json:"moment_nm"`        // about the middle of the base at the ground
	CenterHeight float64 `json:"center_height_mm"` // of the resultant
	WorstBearing float64 `json:"worst_bearing_deg"`
	LeastFactor  float64 `json:"least_factor"` // 1 where the least design force is reached or there is none
	Greatest     float64 `json:"greatest_n"`   // level, from any bearing, the least design force included

	Items       []WindItem `json:"items"`
	Pressures   []Pressure `json:"pressures"` // at each height in use, lowest first
	Lines       []Line     `json:"lines"`
	Assumptions []string   `json:"assumptions"`
}

// A WindItem is a part that the wind meets, from the worst bearing.
type WindItem struct {
	Part           string  `json:"part"`
	Area           float64 `json:"area_mm2"` // projected
	Height         float64 `json:"height_mm"`
	Pressure       float64 `json:"pressure_pa"`
	Coefficient    float64 `json:"coefficient"`
	CapCoefficient float64 `json:"cap_coefficient,omitempty"` // of a post's closed free head
	Rule           string  `json:"rule"`                      // where the coefficient comes from
	Force          float64 `json:"force_n"`
	Uplift         float64 `json:"uplift_n,omitempty"`
}

// A Pressure is the velocity pressure at a height.
type Pressure struct {
	Height   float64 `json:"height_mm"`
	Pressure float64 `json:"pressure_pa"`
}

// A Line is one term of a calculation, to be checked by hand. Where the
// value is left out each part has its own.
type Line struct {
	Symbol  string   `json:"symbol"`
	Name    string   `json:"name"`
	Formula string   `json:"formula,omitempty"`
	Value   *float64 `json:"value,omitempty"`
	Unit    string   `json:"unit,omitempty"`
	Source  string   `json:"source,omitempty"` // standard and clause, "given" or "assumed"
}

// A Strength is what the parts bear of what they may bear.
type Strength struct {
	WorstRatio float64 `json:"worst_ratio"` // of all members, welds, the base plate and the anchors; 1 is the limit
	WorstAt    string  `json:"worst_at,omitempty"`
	Sway       float64 `json:"sway_mm"` // of the highest part, besides that of its own weight
	SwayPart   string  `json:"sway_part,omitempty"`
	SwayCase   string  `json:"sway_case,omitempty"`

	Frequency   *float64  `json:"frequency_hz,omitempty"` // the lowest; left out where nothing can swing
	Frequencies []float64 `json:"frequencies_hz"`         // up to three, lowest first
	Shapes      []string  `json:"shapes"`                 // of the same, in words
	Complete    bool      `json:"frequencies_complete"`   // none between them was missed

	Buckling *float64 `json:"buckling_factor,omitempty"` // growth of all pushes at which the frame buckles; left out where it never does
	Cases    int      `json:"cases"`                     // how many were tried

	Members  []Member   `json:"members"`
	Welds    []Weld     `json:"welds"`
	Plate    *Plate     `json:"plate,omitempty"`
	Anchors  *Anchors   `json:"anchors,omitempty"`
	Shells   []Shell    `json:"shells"`
	Shedding []Shedding `json:"shedding"`

	NotPushed   []string `json:"not_pushed"`  // posts that no push reaches: checked for their weight and the wind alone
	NotCovered  []string `json:"not_covered"` // what no rule covers, and so was not checked
	Lines       []Line   `json:"lines"`
	Assumptions []string `json:"assumptions"`
}

// A Member is a post at one station, in its worst case.
type Member struct {
	Part        string  `json:"part"`
	Where       string  `json:"where"` // "foot", "head", "at NAME" or "inside"
	Along       float64 `json:"along_mm"`
	Case        string  `json:"case"`
	Axial       float64 `json:"axial_n"` // positive for a pull
	Shear       float64 `json:"shear_n"`
	Bending     float64 `json:"bending_nm"` // without amplification
	Twist       float64 `json:"twist_nm"`
	Stress      float64 `json:"stress_mpa"` // at the outside, with amplification
	Limit       float64 `json:"limit_mpa"`
	Ratio       float64 `json:"ratio"`
	Slenderness float64 `json:"slenderness_d_over_t"`
	Class       string  `json:"class"` // of the wall
}

// A Weld is the ring by which an end of a post is welded on.
type Weld struct {
	Part    string  `json:"part"`
	With    string  `json:"with"`
	Where   string  `json:"where"` // "foot" or "head"
	Case    string  `json:"case"`
	Line    float64 `json:"line_n_per_mm"`
	Throat  float64 `json:"throat_mm"`
	Stress  float64 `json:"stress_mpa"`
	Allowed float64 `json:"limit_mpa"`
	Ratio   float64 `json:"ratio"`
}

// A Plate is the bending of the base plate beside a post, as a strip toward
// an anchor or an edge: of all posts, anchors and edges the worst.
type Plate struct {
	Post   string  `json:"post"`
	Case   string  `json:"case"`
	How    string  `json:"how"` // what bends it
	Force  float64 `json:"force_n"`
	Lever  float64 `json:"lever_mm"`
	Width  float64 `json:"width_mm"` // of the strip, as far as it is on the plate
	Moment float64 `json:"moment_nm"`
	Stress float64 `json:"stress_mpa"`
	Ratio  float64 `json:"ratio"`
}

// A Anchors is the pull and the shear on the anchors in the worst case.
type Anchors struct {
	Tension  float64 `json:"tension_n"` // the greatest on one
	Shear    float64 `json:"shear_n"`   // on one, shared evenly
	Case     string  `json:"case,omitempty"`
	Ignoring string  `json:"ignoring"` // what is left out

	// ForTarget is the pull on one with which the target against tipping is
	// reached, and BoltRatio how much of what the steel of a bolt carries that is. They
	// are left out where weight alone reaches the target. Bolt is the bolt for the
	// hole.
	ForTarget *float64 `json:"for_target_n,omitempty"`
	ForCase   string   `json:"for_target_case,omitempty"`
	Bolt      *float64 `json:"bolt_mm,omitempty"`
	BoltRatio *float64 `json:"bolt_ratio,omitempty"`

	// ShearForTarget is the shear on one of the Sharing anchors that carry it, under
	// the loads times the target, from which no friction is taken off. ShearRatio is
	// how much of what the steel of a bolt carries that is, and TogetherRatio the same of
	// pull and shear of one case, 1 the limit. They are left out where nothing shoves
	// the piece.
	ShearForTarget *float64 `json:"shear_for_target_n,omitempty"`
	ShearCase      string   `json:"shear_for_target_case,omitempty"`
	Sharing        int      `json:"shear_shared_by,omitempty"`
	ShearRatio     *float64 `json:"shear_ratio,omitempty"`
	TogetherRatio  *float64 `json:"together_ratio,omitempty"`
	TogetherCase   string   `json:"together_case,omitempty"`
}

// A Shell is a joint on the wall of a ball, in its worst case. Without a ratio no rule
// covers it: see the check "ball-wall".
type Shell struct {
	Ball        string   `json:"ball"`
	With        string   `json:"with"`    // the post, ball or base
	Where       string   `json:"where"`   // the post's "foot" or "head"; "seat" where there is no post
	Force       float64  `json:"force_n"` // along the ball's radius, outward positive
	Moment      float64  `json:"moment_nm"`
	ForceLimit  *float64 `json:"force_limit_n,omitempty"`
	MomentLimit *float64 `json:"moment_limit_nm,omitempty"`
	Ratio       *float64 `json:"ratio,omitempty"`
	Near        []string `json:"near,omitempty"` // joints so near that their ratios are added
	Case        string   `json:"case"`
}

// A Shedding is the wind at which eddies leave a part as often as it
// swings.
type Shedding struct {
	Part      string   `json:"part"`
	Frequency float64  `json:"frequency_hz"`        // at which it swings
	Estimated bool     `json:"estimated,omitempty"` // of its own swing on its foot, since it keeps still in the lowest modes
	Critical  float64  `json:"critical_speed_mps"`
	Of        *float64 `json:"of_design_speed,omitempty"` // left out without a wind
}
