package eval

// A Statement is one that declares no thing of its own table.
type Statement struct {
	Word    string
	Form    string // how it is written
	Meaning string
	Example string
}

// Statements returns the statements besides the declarations, in the order in
// which one writes them.
func Statements() []Statement {
	return []Statement{
		{"sculpture", `sculpture "TITLE"`, "the title of the design, for reports and title blocks", `sculpture "Harbour"`},
		{"units", "units inch | units mm", "what a plain length means, and how results read", "units inch"},
		{"bring", `bring "FILE"`, "takes over the metals, values, shop, site and finish of another file, not its parts", `bring "shop/lower-yard.stabile"`},
		{"let", "let NAME = VALUE", "names a value", "let crown = rise / 3"},
		{"adjust", "adjust NAME = VALUE from LEAST to MOST [step SIZE]", "names a value that --set, a variation, 'vary' and 'solve' may change within its range", "adjust rise = 36 in from 24 in to 60 in step 1 in"},
		{"variation", `variation "NAME" { NAME = VALUE, … }`, "a named set of values for adjustable names, chosen with --variation", `variation "tall" { rise = 54 in }`},
		{"repeat", "repeat NAME from A to B { … }", "does what is between its braces once for each whole number", "repeat i from 1 to 3 { post reed[i] on pad { at polar(9 in, 60 deg * i), diameter 1-1/2 in, length 10 in, metal skin } }"},
		{"when", "when CONDITION { … }", "does what is between its braces only where the condition holds", "when rise > 40 in { ball star on spur { diameter 6 in, gores 8, metal skin } }"},
		{"require", `require CONDITION ["REASON"]`, "what must hold when everything is worked out", `require tipping >= 1.5`},
	}
}
