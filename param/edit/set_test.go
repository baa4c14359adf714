package edit

import (
	"errors"
	"math"
	"strings"
	"testing"

	"stabile/param/quantity"
	"stabile/param/source"
)

func in(x float64) quantity.Quantity {
	return quantity.Quantity{Number: x * 25.4, Dim: quantity.Length}
}
func mm(x float64) quantity.Quantity { return quantity.Quantity{Number: x, Dim: quantity.Length} }
func deg(x float64) quantity.Quantity {
	return quantity.Quantity{Number: x * math.Pi / 180, Dim: quantity.Angle}
}

const head = `units inch
metal skin { alloy low-carbon-steel, gauge 16 }
metal slab { alloy low-carbon-steel, thickness 1/2 in }
base pad { plate 32 in by 28 in, metal slab }
`

func wish(part, property string, argument, coordinate int, q quantity.Quantity) Wish {
	return Wish{Place: Place{part, property, argument, coordinate}, Value: q}
}

// The number is written as the one that stood there.
func TestSetNotation(t *testing.T) {
	for _, tt := range []struct {
		old, want string
		q         quantity.Quantity
	}{
		{"12 in", "13 in", in(13)},
		{"12 in", "12-1/2 in", in(12.51)},
		{"12-1/2 in", "9-3/16 in", in(9.2)},
		{"3/8 in", "1-1/8 in", in(1.125)},
		{"3/8 in", "2 in", in(2)},
		{"12", "12-9/16", in(12.56)},
		{"12.0", "12.5625", in(12.56)},
		{"2.50 in", "3.00 in", in(3)},
		{".5 in", ".75 in", in(0.75)},
		{".5 in", "1.25 in", in(1.25)},
		{"36in", "40in", in(40)},
		{"36  in", "40-1/4  in", in(40.25)},
		{"900 mm", "812.5 mm", mm(812.6)},
		{"90.0 cm", "81.25 cm", mm(812.6)},
		{"0.9 m", "0.8125 m", mm(812.6)},
		{"5 ft 3-1/2 in", "6 ft 0 in", in(72)},
		{"5 ft 3-1/2 in", "5 ft 11-15/16 in", in(71.93)},
		{"5 ft 3 in", "4 ft 2-1/4 in", in(50.25)},
		{"5ft3in", "4ft2in", in(50)},
		{"3 ft", "4 ft", in(48)},
		{"3 ft", "3 ft 3-1/2 in", in(39.5)},
		{"2.5 ft", "3.25 ft", in(39)},
		{"1/2 ft", "3/4 ft", in(9)},
	} {
		text := head + "post mast on pad { diameter 5 in, length " + tt.old + " # keep\n  metal skin }\n"
		s, err := Read("a", text, Options{}).Set(wish("mast", "length", 0, 0, tt.q))
		if err != nil {
			t.Errorf("%s to %v: %v", tt.old, tt.q, err)
			continue
		}
		want := strings.Replace(text, "length "+tt.old, "length "+tt.want, 1)
		if s.Text != want {
			t.Errorf("%s to %g mm: got\n%s\nwant %s", tt.old, tt.q.Number, s.Text, tt.want)
		}
		if back, err := s.Undo.Apply(s.Text); err != nil || back != text {
			t.Errorf("%s: undone to %q, %v", tt.old, back, err)
		}
	}
}

// What decides a number is found through names and expressions.
func TestSetThrough(t *testing.T) {
	for _, tt := range []struct {
		name, defs, old string
		q               quantity.Quantity
		want            string // what stands there after it: the definitions and the length
		on              string // or on what it depends
		reason          Reason
	}{
		{name: "adjust", defs: "adjust rise = 36 in  from 24 in to 60 in step 1 in", old: "rise", q: in(40.3), want: "rise = 40 in"},
		{name: "adjust at its end", defs: "adjust rise = 36 in from 24 in to 60 in step 1 in", old: "rise", q: in(99), want: "rise = 60 in"},
		{name: "adjust without a step", defs: "adjust rise = 36 in from 24 in to 60 in", old: "rise", q: in(40.3), want: "rise = 40-5/16 in"},
		{name: "range with an odd end", defs: "adjust rise = 36 in from 24.03 in to 60 in", old: "rise", q: in(20), want: "rise = 24.03 in"},
		{name: "proportion", defs: "adjust rise = 30 in from 20 in to 42 in step 1 in", old: "rise * 0.6", q: in(21.1), want: "rise = 35 in"},
		{name: "rounded", defs: "adjust rise = 30 in from 20 in to 42 in step 1 in", old: "round(rise * 0.6, 1/4 in)", q: in(21), want: "rise = 35 in"},
		{name: "let", defs: "let crown = 30 in", old: "crown / 3", q: in(12.3), want: "crown = 36-7/8 in"},
		{name: "twice", defs: "let crown = 30 in", old: "2 * crown", q: in(61), want: "crown = 30-1/2 in"},
		{name: "chain", defs: "let a = 30 in\nlet b = (a + 0) / 2\nlet c = b * 4", old: "c", q: in(80), want: "a = 30 in\nlet b = (a + 10) / 2"},
		{name: "longer chain", defs: "let a = 30 in\nlet b = a / 2\nlet c = -b", old: "-c * 4", q: in(80), want: "a = 40 in"},
		{name: "a name twice", defs: "let a = 30 in", old: "a / 2 + a / 4", q: in(30), want: "a = 40 in"},
		{name: "nearest", defs: "let tip = 5 in", old: "tip + 30 in", q: in(40), want: "tip + 35 in"},
		{name: "nearest, subtracted", defs: "let tip = 50 in", old: "tip - 10 in", q: in(20), want: "tip - 30 in"},
		{name: "below 0", defs: "let tip = 50 in", old: "tip - 10 in", q: in(52), want: "tip - -2 in"},
		{name: "above 0", defs: "let tip = 50 in", old: "tip + -10 in", q: in(52), want: "tip + 2 in"},
		{name: "plain let", defs: "let rise = 36", old: "rise", q: in(40.5), want: "rise = 40.5"},
		{name: "plain let in proportion", defs: "let rise = 36", old: "rise * 0.5", q: in(20.25), want: "rise = 40.5"},
		{name: "other adjust is a proportion", defs: "adjust share = 0.5 from 0.2 to 0.9 step 0.01\nlet rise = 40 in", old: "rise * share", q: in(30), want: "rise = 60 in"},
		{name: "proportion decides", defs: "adjust share = 0.5 from 0.2 to 0.9 step 0.01", old: "40 * share", q: in(30), want: "share = 0.75"},
		{name: "measure before name", defs: "adjust share = 0.5 from 0.2 to 0.9 step 0.01", old: "40 in * share", q: in(30), want: "60 in * share"},
		{name: "through a cosine", defs: "let rise = 36 in\nlet a = 60 deg", old: "rise * cos(a)", q: in(20), want: "rise = 40 in"},
		{name: "named as a result", defs: "let height = 30 in", old: "height / 2", q: in(20), want: "height = 40 in"},
		{name: "other unit", defs: "let a = 500 mm", old: "a", q: in(20), want: "a = 508 mm"},

		{name: "two names", defs: "let a = 10 in\nlet b = 20 in", old: "a + b", q: in(40), on: "a b", reason: Several},
		{name: "two numbers", old: "10 in + 4 in", q: in(40), on: "10 in 4 in", reason: Several},
		{name: "not linear", defs: "let a = 30 in", old: "max(a, 20 in)", q: in(40), on: "a 20 in", reason: NotLinear},
		{name: "square", defs: "let a = 5 in", old: "a * a / 1 in", q: in(40), on: "a 1 in", reason: NotLinear},
		{name: "also through another", defs: "let a = 5 in\nlet b = a / 1 in", old: "a * b", q: in(40), on: "a b", reason: NotLinear},
		{name: "a part", old: "pad.width", q: in(40), on: "pad", reason: FromPart},
		{name: "a part and a name", defs: "let a = 5 in", old: "pad.width - a", q: in(40), on: "pad a", reason: Several},
		{name: "a part and a number", old: "pad.width - 5 in", q: in(22), want: "pad.width - 10 in"},
	} {
		text := head + tt.defs + "\npost mast on pad { diameter 5 in, length " + tt.old + ", metal skin }\n"
		s, err := Read("a", text, Options{}).Set(wish("mast", "length", 0, 0, tt.q))
		if tt.want == "" {
			var r *Refusal
			if !errors.As(err, &r) || r.Reason != tt.reason || strings.Join(r.On, " ") != tt.on {
				t.Errorf("%s: got %v, want it to depend on %s (%v)", tt.name, err, tt.on, tt.reason)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if !strings.Contains(s.Text, tt.want) || len(s.Edit) > 1 && !strings.Contains(tt.name, "0") {
			t.Errorf("%s: got\n%s\nwant %q", tt.name, s.Text, tt.want)
		}
	}
}

const stack = head + `adjust rise = 30 in from 20 in to 42 in
let spot = (-9 in, -7 in)
post mast on pad {
  at       (2 in, 0 in)   # the foot
  diameter 5 in to 4 in
  length   rise
  metal    skin  # from the rack
}
ball moon on mast { diameter 14 in, gores 12, offset 0, metal skin }
post spur on mast { at 6 in toward 90 deg, diameter 2 in, length 8 in, metal skin }
post top on moon { diameter 2 in, length 9 in, metal skin }
post polar1 on pad { at polar(9 in, 30 deg), diameter 2 in, length 8 in, metal skin }
ball pebble on pad { at spot, diameter 8 in, halves, metal skin }
repeat i from 1 to 2 {
  let high = 4 in
  post reed[i] on pad { at (5 in * i, 12 in), diameter 1-1/2 in, length 10 in + 4 in * i, metal skin }
  ball seed[i] on reed[i] { diameter high, gores 6, metal skin }
}
variation "tall" { rise = 40 in }
`

// Each handle of the drawing has its number.
func TestSetHandles(t *testing.T) {
	for _, tt := range []struct {
		name      string
		variation string
		wishes    []Wish
		old, want string
		reason    Reason // where want is ""
	}{
		{name: "foot", wishes: []Wish{wish("mast", "at", 0, 0, in(-3.5)), wish("mast", "at", 0, 1, in(1))}, old: "(2 in, 0 in) ", want: "(-3-1/2 in, 1 in) "},
		{name: "taper", wishes: []Wish{wish("mast", "diameter", 0, 0, in(6)), wish("mast", "diameter", 1, 0, in(3.25))}, old: "5 in to 4 in", want: "6 in to 3-1/4 in"},
		{name: "made a taper", wishes: []Wish{wish("spur", "diameter", 1, 0, in(1.5))}, old: "90 deg, diameter 2 in", want: "90 deg, diameter 2 in to 1-1/2 in"},
		{name: "leant", wishes: []Wish{wish("mast", "lean", 0, 0, deg(6.1)), wish("mast", "lean", 1, 0, deg(180))},
			old: "# from the rack\n", want: "# from the rack\n  lean     6 deg toward 180 deg\n"},
		{name: "leant on one line", wishes: []Wish{wish("polar1", "lean", 1, 0, deg(45)), wish("polar1", "lean", 0, 0, deg(6))},
			old: "8 in, metal skin }\nball pebble", want: "8 in, metal skin, lean 6 deg toward 45 deg }\nball pebble"},
		{name: "leant and moved", wishes: []Wish{wish("top", "offset", 0, 0, in(1)), wish("top", "lean", 0, 0, deg(6)), wish("top", "offset", 1, 0, deg(10)), wish("top", "lean", 1, 0, deg(45))},
			old: "length 9 in, metal skin }", want: "length 9 in, metal skin, offset 1 in toward 10 deg, lean 6 deg toward 45 deg }"},
		{name: "leant nowhere", wishes: []Wish{wish("mast", "lean", 0, 0, deg(6))}, reason: Missing},
		{name: "ball", wishes: []Wish{wish("moon", "offset", 0, 0, in(0.75)), wish("moon", "offset", 1, 0, deg(200)), wish("moon", "diameter", 0, 0, in(12))},
			old: "diameter 14 in, gores 12, offset 0,", want: "diameter 12 in, gores 12, offset 3/4 toward 200 deg,"},
		{name: "offset nowhere", wishes: []Wish{wish("moon", "offset", 0, 0, in(0.75))}, reason: Missing},
		{name: "branch", wishes: []Wish{wish("spur", "at", 0, 0, in(7.5)), wish("spur", "at", 1, 0, deg(100))}, old: "at 6 in toward 90 deg", want: "at 7-1/2 in toward 100 deg"},
		{name: "polar", wishes: []Wish{wish("polar1", "at", 0, 0, in(-3)), wish("polar1", "at", 0, 1, in(4))}, old: "polar(9 in, 30 deg)", want: "polar(5 in, 127 deg)"},
		{name: "through a name", wishes: []Wish{wish("pebble", "at", 0, 0, in(9))}, old: "(-9 in, -7 in)", want: "(9 in, -7 in)"},
		{name: "count", wishes: []Wish{wish("moon", "gores", 0, 0, quantity.Quantity{Number: 9.6})}, old: "gores 12", want: "gores 10"},
		{name: "a row's own", wishes: []Wish{wish("seed[2]", "diameter", 0, 0, in(5))}, old: "high = 4 in", want: "high = 5 in"},
		{name: "by the index", wishes: []Wish{wish("reed[2]", "length", 0, 0, in(20))}, reason: InRow},
		{name: "no such index", wishes: []Wish{wish("reed", "length", 0, 0, in(20))}, reason: NoPart},
		{name: "no part", wishes: []Wish{wish("mist", "length", 0, 0, in(20))}, reason: NoPart},
		{name: "no property", wishes: []Wish{wish("moon", "length", 0, 0, in(20))}, reason: NoProperty},
		{name: "a word", wishes: []Wish{wish("moon", "metal", 0, 0, in(20))}, reason: NotANumber},
		{name: "base", wishes: []Wish{wish("pad", "plate", 1, 0, in(20))}, old: "by 28 in", want: "by 20 in"},
		{name: "variation", variation: "tall", wishes: []Wish{wish("mast", "length", 0, 0, in(41))}, old: "{ rise = 40 in }", want: "{ rise = 41 in }"},
	} {
		s, err := Read("a", stack, Options{Variation: tt.variation}).Set(tt.wishes...)
		if tt.want == "" {
			var r *Refusal
			if !errors.As(err, &r) || r.Reason != tt.reason {
				t.Errorf("%s: got %v, want %v", tt.name, err, tt.reason)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if want := strings.Replace(stack, tt.old, tt.want, 1); s.Text != want {
			t.Errorf("%s: got\n%s\nwant %s", tt.name, s.Text, tt.want)
		}
		if back, err := s.Undo.Apply(s.Text); err != nil || back != stack {
			t.Errorf("%s: undone to %q, %v", tt.name, back, err)
		}
	}
}

// A bench asks for a thousand numbers a minute: an edit takes well under the time
// of a picture.
func BenchmarkSet(b *testing.B) {
	text := examples(b)["../../examples/slow-tide.stabile"]
	for b.Loop() {
		read := Read("a", text, Options{})
		for _, w := range []Wish{wish("spar", "length", 0, 0, in(20)), wish("shoal", "offset", 0, 0, in(1.5)), wish("spar", "lean", 0, 0, deg(7))} {
			if _, err := read.Set(w); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// A bearing is a turn or less, wherever its number stands.
func TestSetBearing(t *testing.T) {
	for _, tt := range []struct {
		defs, old string
		deg       float64
		want      string
	}{
		{"", "350 deg", -5, "toward 355 deg"},
		{"", "350 deg", 359.9, "toward 0 deg"},
		{"", "-10 deg", 20, "toward 20 deg"},
		{"", "-10 deg", 340, "toward 340 deg"},
		{"let wind = 180 deg", "wind + 180 deg", 20, "wind + 200 deg"},
		{"let wind = 180 deg", "wind - 90 deg", 200, "wind - 340 deg"},
		{"let wind = 180 deg", "wind + -90 deg", 200, "wind + 20 deg"},
		{"adjust wind = 10 deg from -90 deg to 90 deg", "wind", 330, "wind = -30 deg"},
		{"adjust wind = 10 deg from -90 deg to 90 deg step 5 deg", "wind", 250, "wind = -90 deg"},
		{"adjust wind = 10 deg from -90 deg to 90 deg step 5 deg", "wind", 110, "wind = 90 deg"},
	} {
		text := head + tt.defs + "\npost mast on pad { diameter 5 in, length 9 in, lean 3 deg toward " + tt.old + ", metal skin }\n"
		s, err := Read("a", text, Options{}).Set(wish("mast", "lean", 1, 0, deg(tt.deg)))
		if err != nil || !strings.Contains(s.Text, tt.want) {
			t.Errorf("%s, %s to %v deg: got %+v, %v, want %s", tt.defs, tt.old, tt.deg, s, err, tt.want)
		}
	}
}

func TestSetElsewhere(t *testing.T) {
	used := source.NewFile("shop.stabile", "units mm\nlet high = 900\nlet share = 0.5\n")
	text := head + "post a on pad { diameter 5 in, length high * 1 mm, metal skin }\npost b on pad { at (9 in, 0 in), diameter 40 in * share, length 8 in, metal skin }\n"
	read := Read("a", "\ufeff"+text, Options{Used: []*source.File{used}})
	var r *Refusal
	if _, err := read.Set(wish("a", "length", 0, 0, in(8))); !errors.As(err, &r) {
		t.Errorf("got %v", err)
	}
	s, err := read.Set(wish("b", "diameter", 0, 0, in(8)))
	if err != nil || !strings.HasPrefix(s.Text, "\ufeff") || !strings.Contains(s.Text, "16 in * share") {
		t.Errorf("got %v, %v", s, err)
	}
}
