package eval

import (
	"stabile/param/design"
	"stabile/param/quantity"
)

var jobDeclaration = Declaration{
	Keyword: "job", Top: true, Form: "job { … }",
	Meaning: "whom the piece is for and on what terms, for the papers",
	Properties: []Property{
		{Word: "number", Arguments: []Argument{{Kind: Text}},
			Meaning: "the shop's number of the job", Default: "none", Example: `number "LT-014"`},
		{Word: "client", Arguments: []Argument{{Kind: Text}},
			Meaning: "whom it is for", Default: "none", Example: `client "The Orchard Trust"`},
		{Word: "place", Arguments: []Argument{{Kind: Text}},
			Meaning: "where it will stand", Default: "none", Example: `place "The walled garden"`},
		{Word: "drawn", Arguments: []Argument{{Kind: Text}},
			Meaning: "who drew it", Default: "none", Example: `drawn "R. T."`},
		{Word: "approved", Arguments: []Argument{{Kind: Text}},
			Meaning: "who approved the drawing", Default: "none", Example: `approved "M. O."`},
		{Word: "valid", Arguments: []Argument{measure(quantity.Time, validity)},
			Meaning: "how long an offer stands", Default: "not said", Example: "valid 30 days"},
		{Word: "deposit", Arguments: []Argument{{Kind: Measure, Range: portion}},
			Meaning: "share of the price to be paid with the order", Default: "none", Example: "deposit 0.4"},
		{Word: "price", Arguments: []Argument{money()},
			Meaning: "the price in the offer, in the shop's currency", Default: "the estimate, where the offer is to give one", Example: "price 4200"},
	},
}

// job takes whom the piece is for.
func (b *body) job() {
	const day = 24 * 3600 // s
	b.design.Job = &design.Job{
		Number: b.wordOf("number"), Client: b.wordOf("client"), Place: b.wordOf("place"),
		Drawn: b.wordOf("drawn"), Approved: b.wordOf("approved"),
		Valid: b.number("valid") / day, Deposit: b.number("deposit"), Price: b.number("price"),
	}
}
