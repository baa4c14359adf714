// Package corrosion has what protects metal out of doors: which metals may touch, and the
// holes that a hollow needs before it is dipped in hot zinc.
//
// Lengths are in mm, areas in mm2, volumes in mm3.
package corrosion

// A Metal is a family of metals as galvanic contact knows them.
type Metal int

// The families.
const (
	Zinc Metal = iota // zinc, and steel that is galvanized
	Aluminium
	Carbon // carbon steel, bare or painted
	Weathering
	Stainless
	Copper // copper, brass, bronze
	metals
)

// A Contact is how two metals get on where rain wets both.
type Contact int

// The contacts.
const (
	Sound   Contact = iota // they may touch
	Small                  // only where the second, nobler metal is small beside the first: a stainless screw in a wide plate
	Isolate                // a washer and sleeve that do not conduct, and a coat on both sides
	Never                  // keep them apart, isolated or not, and away from each other's run-off
)

// A Pairing is how two metals behave together.
type Pairing struct {
	Contact Contact

	// RunOff means that rain from the nobler metal eats the other where it runs over
	// it, without contact.
	RunOff bool

	// Eaten is the metal that corrodes, where one does.
	Eaten Metal
}

// Source is where the table of pairs comes from.
const Source = "galvanic table for the open air; common practice, from memory"

// Pair returns how two metals behave together, in either order. An unknown metal is never sound.
func Pair(a, b Metal) Pairing {
	if a < 0 || b < 0 || a >= metals || b >= metals {
		return Pairing{Contact: Never}
	}
	if a > b {
		a, b = b, a
	}
	if a == b {
		return Pairing{Eaten: a}
	}
	return pairs[[2]Metal{a, b}]
}

// pairs has the baser metal first; it is the one that is eaten.
var pairs = map[[2]Metal]Pairing{
	{Zinc, Aluminium}:       {Contact: Sound, Eaten: Zinc},
	{Zinc, Carbon}:          {Contact: Sound, Eaten: Zinc},
	{Zinc, Weathering}:      {Contact: Isolate, Eaten: Zinc}, // the zinc is eaten
	{Zinc, Stainless}:       {Contact: Small, Eaten: Zinc},
	{Zinc, Copper}:          {Contact: Isolate, RunOff: true, Eaten: Zinc},
	{Aluminium, Carbon}:     {Contact: Isolate, Eaten: Aluminium},
	{Aluminium, Weathering}: {Contact: Isolate, Eaten: Aluminium},
	{Aluminium, Stainless}:  {Contact: Small, Eaten: Aluminium},
	{Aluminium, Copper}:     {Contact: Never, RunOff: true, Eaten: Aluminium},
	{Carbon, Weathering}:    {Contact: Sound, Eaten: Carbon}, // where it stays dry
	{Carbon, Stainless}:     {Contact: Small, Eaten: Carbon},
	{Carbon, Copper}:        {Contact: Isolate, Eaten: Carbon},
	{Weathering, Stainless}: {Contact: Small, Eaten: Weathering},
	{Weathering, Copper}:    {Contact: Isolate, RunOff: true, Eaten: Weathering},
	{Stainless, Copper}:     {Contact: Sound, Eaten: Stainless},
}
