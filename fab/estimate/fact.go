package estimate

import (
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/stock"
)

// What is paid for.
type (
	// SheetsOf are sheets of a metal of one size.
	SheetsOf struct {
		Metal         string
		Width, Length float64 // mm
	}

	// CutToSize are blanks bought cut to size.
	CutToSize struct{ Blank, Metal string }

	// LengthsOf are lengths of pipe or tube of one size.
	LengthsOf struct {
		Pipe                  stock.Pipe // zero for a tube
		Outside, Wall, Length float64    // mm
		Metal                 string
	}

	// BoughtBall is a ball that is bought.
	BoughtBall struct {
		Part string
		Mass float64 // kg
	}
)

// An Item is what else is paid for.
type Item int

// The items.
const (
	Filler    Item = iota
	Gas            // by the hour of welding
	Labour         // by the hour
	FinishFor      // by area
	Markup
)

// A Lacking is work of which the hours are not known.
type Lacking struct {
	Operation Operation // that has no rate; "" for a finish that is sent out
	Finish    design.FinishKind
}

// An Outside is what no plan of this program knows of.
type Outside int

// What no plan knows of.
const (
	Drawing Outside = iota
	AnchorsAndBallast
	Stores
	Transport
	Engineer
	Tax
)

// The rules by which the lines were worked out.
type (
	// HoursRule says how hours come about.
	HoursRule struct{}

	// RangeRule says how far each kind of line may come out.
	RangeRule struct {
		Steady, Loose, Usual, Bought, Filler, Sent Spread
		Own                                        float64 // share of the spread that is left where a rate is the shop's own
	}

	// DressRule says what the built-in rate of dressing rests on.
	DressRule struct{}
)

// A Spread is how far a line may come out under and over what is likely, as shares
// of it.
type Spread struct{ Down, Up float64 }

// Why a price is not known.
type (
	// NoPrices says that the shop gives none.
	NoPrices struct{}

	// NoPlace says that some blanks do not fit on the shop's sheets.
	NoPlace struct{}
)

// Fact marks the type.
func (SheetsOf) Fact() {}

// Fact marks the type.
func (CutToSize) Fact() {}

// Fact marks the type.
func (LengthsOf) Fact() {}

// Fact marks the type.
func (BoughtBall) Fact() {}

// Fact marks the type.
func (Item) Fact() {}

// Fact marks the type.
func (Lacking) Fact() {}

// Fact marks the type.
func (Outside) Fact() {}

// Fact marks the type.
func (HoursRule) Fact() {}

// Fact marks the type.
func (RangeRule) Fact() {}

// Fact marks the type.
func (DressRule) Fact() {}

// Fact marks the type.
func (NoPrices) Fact() {}

// Fact marks the type.
func (NoPlace) Fact() {}

// Unpriced says that a price is not known since things have none.
type Unpriced struct{ Items []finding.Fact }

// Fact marks the type.
func (Unpriced) Fact() {}
