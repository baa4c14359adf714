package design

// A Site is where the piece stands and what it must bear there.
type Site struct {
	Slope      float64 // rad, of the ground in its worst direction
	Push       float64 // N, horizontal, from every bearing; 0 for none
	PushHeight float64 // mm above the ground
	Wind       float64 // m/s, the basic wind speed of the method; 0 for none
	Method     WindMethod
	Exposure   string // of ASCE 7: "B", "C" or "D"; "" where none is given
	Terrain    string // of EN 1991-1-4: "0", "I", "II", "III" or "IV"; "" where none is given
}

// A WindMethod is the published standard by which wind is worked out.
type WindMethod string

// The wind methods.
const (
	NoMethod WindMethod = ""
	ASCE7    WindMethod = "asce7"
	EN1991   WindMethod = "en1991"
)
