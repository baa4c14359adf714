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

	People       Activity // "" where it is not known
	Crowd        int      // how many people; 0 where none come
	Risk         int      // 1 to 4, as of ASCE 7; 0 where none is given
	Hill         float64  // topographic factor on pressure; 0 where none is given
	Soil         string   // one of bedrock, rock, gravel, sand and clay; "" where it is not known
	Seismic      float64  // share of gravity: S_DS of ASCE 7, a_g S of EN 1998-1
	SeismicGiven bool
	Ice          float64 // mm, of the map, from freezing rain
	IceGiven     bool
}

// An Activity is what people can do to a piece.
type Activity string

// The activities.
const (
	UnknownPeople  Activity = ""
	NoPeople       Activity = "none"     // nobody comes near
	PeopleLeaning  Activity = "leaning"  // they lean on it
	PeopleClimbing Activity = "climbing" // they climb it, and lean on it
)

// A WindMethod is the published standard by which wind is worked out.
type WindMethod string

// The wind methods.
const (
	NoMethod WindMethod = ""
	ASCE7    WindMethod = "asce7"
	EN1991   WindMethod = "en1991"
)
