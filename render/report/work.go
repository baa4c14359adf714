package report

// A Seam is a seam within a part or a joint of two, or several alike.
type Seam struct {
	Number  int     `json:"number"` // as the papers call it
	Kind    string  `json:"kind"`
	Part    string  `json:"part"`
	With    string  `json:"with,omitempty"`
	At      string  `json:"at,omitempty"`
	Count   int     `json:"count"`
	Length  float64 `json:"length_mm"` // of one
	Tacks   int     `json:"tacks"`     // on one
	Spacing float64 `json:"tack_spacing_mm"`
	Filler  float64 `json:"filler_kg"` // in all that are alike
	Rod     float64 `json:"rod_mm"`
}

// A Step is one step of putting together.
type Step struct {
	Number int      `json:"number"`
	Work   string   `json:"work"` // "make", "bench", "place" or "finish"
	Parts  []string `json:"parts"`
	Text   string   `json:"text"`
	Notes  []string `json:"notes"`
	Lift   *float64 `json:"lift_kg,omitempty"` // left out where nothing is lifted
	Heavy  bool     `json:"heavy,omitempty"`   // more than one person should lift
	Prop   bool     `json:"prop,omitempty"`    // to be held or propped until it is welded
}

// A Space is a hollow that is closed when all is welded.
type Space struct {
	Parts  []string `json:"parts"`
	Volume float64  `json:"volume_mm3"`       // about
	Holes  int      `json:"vents"`            // that the design gives it
	Vent   float64  `json:"vent_mm"`          // the largest of them; 0 for none
	Dip    float64  `json:"dip_mm,omitempty"` // least vent and drain where it is hot dipped
	Step   int      `json:"closed_by_step,omitempty"`
}

// A Work is an operation with what there is of it and how long it takes.
type Work struct {
	Operation string   `json:"operation"`
	Count     *float64 `json:"count,omitempty"`
	Length    *float64 `json:"length_mm,omitempty"`
	Area      *float64 `json:"area_mm2,omitempty"`
	Mass      *float64 `json:"mass_kg,omitempty"`
	Each      float64  `json:"each_s,omitempty"`    // for each, or for each m2 or kg
	Speed     float64  `json:"speed_mps,omitempty"` // along a length
	Own       bool     `json:"own_rate"`            // the rate is the shop's, not a built-in one
	Hours     float64  `json:"hours"`
	Low       float64  `json:"low_hours"`
	High      float64  `json:"high_hours"`
}

// Cost is what it costs, an estimate.
type Cost struct {
	Total    *float64 `json:"total,omitempty"` // none unless all is priced, as low and high
	Low      *float64 `json:"low,omitempty"`
	High     *float64 `json:"high,omitempty"`
	Currency string   `json:"currency"`
	Lines    []Charge `json:"lines"`
	Unpriced []string `json:"unpriced"` // what has no price, with the line that gives it one
	Outside  []string `json:"outside"`  // what no plan knows of
}

// A Charge is one line of money.
type Charge struct {
	Name     string  `json:"name"`
	Quantity float64 `json:"quantity"`
	Unit     string  `json:"unit"`
	Rate     float64 `json:"rate"`
	Money    float64 `json:"money"`
	Low      float64 `json:"low"`
	High     float64 `json:"high"`
}

// A TubePipe is a rolled tube beside the standard pipe nearest to it.
type TubePipe struct {
	Part     string   `json:"part"`
	Pipe     string   `json:"pipe"` // "" for a bought tube of no standard size
	Outside  float64  `json:"pipe_outside_mm"`
	Mass     float64  `json:"mass_kg"` // of the tube
	PipeMass float64  `json:"pipe_mass_kg"`
	Saved    float64  `json:"saved_kg"`
	Sheet    *float64 `json:"sheet_money,omitempty"` // by the metal's price by weight
	Money    *float64 `json:"pipe_money,omitempty"`
}
