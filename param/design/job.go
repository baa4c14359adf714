package design

// A Job is whom a piece is made for, and on what terms. What the text does not say
// is empty or 0.
type Job struct {
	Number   string  // of the shop
	Client   string  // whom it is for
	Place    string  // where it will stand
	Drawn    string  // by whom
	Approved string  // by whom
	Valid    float64 // days that an offer stands
	Deposit  float64 // share of the price that is due with the order
	Price    float64 // money, of the whole; 0 to work it out
}
