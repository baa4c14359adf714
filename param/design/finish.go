package design

// A Finish is what is done to the surface of the finished piece.
type Finish struct {
	Name  string // as named in the text
	Kind  FinishKind
	Price float64 // money for each m2 of surface; 0 where none is given
}

// A FinishKind is a way to finish a surface.
type FinishKind string

// The kinds of finish.
const (
	Paint     FinishKind = "paint"
	Galvanize FinishKind = "galvanize" // hot dip: every closed space needs a vent and a drain
	Weather   FinishKind = "weather"   // left to rust to a skin
	Brushed   FinishKind = "brushed"
)
