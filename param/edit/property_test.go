package edit

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stabile/param/design"
	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/sample"
	"stabile/param/source"
	"stabile/param/syntax"
)

var edits = flag.Int("edits", 400, "how many random edits of random designs are tried")

// written are the numbers of a sample that a disguise is put on.
var written = regexp.MustCompile(`\d+\.\d+ (mm|deg)`)

// coarse is the step of the adjustable names of disguised designs, in their unit.
const coarse = 2

// disguised gives some numbers of a text other notations, and others a definition
// that they come from.
func disguised(rnd *rand.Rand, text string) string {
	var defs strings.Builder
	count := 0
	text = written.ReplaceAllStringFunc(text, func(w string) string {
		var x float64
		var unit string
		fmt.Sscanf(w, "%f %s", &x, &unit)
		count++
		name := fmt.Sprintf("n%d", count)
		let := func(value float64) { fmt.Fprintf(&defs, "let %s = %.4f %s  # %s\n", name, value, unit, name) }
		length := unit == "mm"
		switch rnd.IntN(14) {
		case 0:
			let(x)
			return name
		case 1:
			let(x / 0.6)
			return name + " * 0.6"
		case 2:
			let(x * 3)
			return name + " / 3"
		case 3:
			let(x / 2)
			return "2 * " + name
		case 4:
			let(x / 0.6)
			return fmt.Sprintf("round(%s*0.6, 0.01 %s)", name, unit)
		case 5:
			let(1)
			return fmt.Sprintf("%s + %.2f %s", name, x-1, unit)
		case 6:
			fmt.Fprintf(&defs, "adjust %s = %.4f %s  from 0 %s to 4000 %s step %d %s\n", name, math.Round(x/coarse)*coarse, unit, unit, unit, coarse, unit)
			return name
		case 7:
			fmt.Fprintf(&defs, "adjust %s = %.4f %s  from 0 %s to 4000 %s step %d %s\nlet m%d = %s / 2\n", name, math.Round(x/coarse)*coarse, unit, unit, unit, coarse, unit, count, name)
			return fmt.Sprintf("2 * m%d", count)
		case 8:
			let(x - 4)
			fmt.Fprintf(&defs, "let half%d = 0.5\n", count)
			return fmt.Sprintf("(4 %s + %s) * (half%d + half%d)", unit, name, count, count)
		case 9:
			if length {
				return quantity.Fraction(x/25.4, 16) + " in"
			}
		case 10:
			if length && x > 305 {
				return fmt.Sprintf("%d ft %s in", int(x/304.8), quantity.Fraction(math.Mod(x, 304.8)/25.4, 16))
			}
		case 11:
			if length {
				return fmt.Sprintf("%.4fcm", x/10)
			}
			return fmt.Sprintf("%.6f rad", x*math.Pi/180)
		case 12:
			return fmt.Sprintf("-(-%.2f %s)", x, unit)
		}
		return w
	})
	units, rest, _ := strings.Cut(text, "\n")
	return units + "\n" + defs.String() + rest
}

// A handle is a number of a part as it came out.
type handle struct {
	Place
	value  quantity.Quantity
	absent bool // its property is not given
}

// handles returns those of a drawing that a part has.
func handles(p *design.Part) []handle {
	var list []handle
	add := func(property string, argument, coordinate int, x float64, dim quantity.Dimension) {
		_, given := p.Props[property]
		if property == "at" && p.Post != nil && p.Post.Along > 0 || given || property != "at" {
			list = append(list, handle{Place{p.Name, property, argument, coordinate}, quantity.Quantity{Number: x, Dim: dim}, !given})
		}
	}
	switch {
	case p.Post != nil:
		post := p.Post
		foot := post.Ends[design.Foot]
		add("diameter", 0, 0, foot.Diameter, quantity.Length)
		if post.IsTaper() {
			add("diameter", 1, 0, post.Ends[design.Head].Diameter, quantity.Length)
		}
		if post.Between {
			return list
		}
		add("length", 0, 0, post.Length, quantity.Length)
		switch foot.Meets {
		case design.OnPlate:
			at := foot.At
			if foot.With != nil {
				at = foot.With.Base.Own(at)
			}
			add("at", 0, 0, at.X, quantity.Length)
			add("at", 0, 1, at.Y, quantity.Length)
		case design.OnBall:
			add("offset", 0, 0, post.Offset, quantity.Length)
			add("offset", 1, 0, post.OffsetBear, quantity.Angle)
		case design.OnSide:
			add("at", 0, 0, post.Along, quantity.Length)
			add("at", 1, 0, post.AlongBear, quantity.Angle)
		}
		if foot.Meets != design.OnHead {
			add("lean", 0, 0, post.Lean, quantity.Angle)
			add("lean", 1, 0, post.LeanBearing, quantity.Angle)
		}
	case p.Ball != nil:
		if p.Ball.Bowl {
			add("diameter", 0, 0, 2*p.Ball.RimRadius(), quantity.Length)
			add("depth", 0, 0, p.Ball.Depth(), quantity.Length)
		} else {
			add("diameter", 0, 0, 2*p.Ball.Radius, quantity.Length)
			if p.Ball.IsEgg() {
				add("tall", 0, 0, p.Ball.Tall, quantity.Length)
			}
		}
		if p.Ball.On != nil && p.Ball.On.Base == nil {
			add("offset", 0, 0, p.Ball.Offset, quantity.Length)
			add("offset", 1, 0, p.Ball.OffsetBear, quantity.Angle)
		} else if p.Ball.On != nil {
			add("at", 0, 0, p.Ball.Center.X, quantity.Length)
			add("at", 0, 1, p.Ball.Center.Y, quantity.Length)
		}
	}
	return list
}

func designOf(text string, used []*source.File) *design.Design {
	tree, wrong := syntax.Parse(source.NewFile("a", text))
	if len(wrong) > 0 {
		return nil
	}
	var o eval.Options
	for _, u := range used {
		f, _ := syntax.Parse(u)
		o.Used = append(o.Used, f)
	}
	d, _ := eval.Evaluate(tree, o)
	return d
}

// A tally counts what has become of random edits.
type tally struct {
	edits, seen, refused, unsound map[string]int
	limited                       int // of those seen, at the end of the range of an adjustable name
}

// TestRandomEdits makes random edits of random designs. Each gives a text that can
// be read, changes no other byte than it says, and is undone to the same bytes;
// and where the new design is sound the part is as it was wished.
func TestRandomEdits(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 19))
	shown := examples(t)
	var names []string
	for n := range shown {
		names = append(names, n)
	}
	slices.Sort(names)
	n := tally{map[string]int{}, map[string]int{}, map[string]int{}, map[string]int{}, 0}
	for made := 0; made < *edits; {
		var text string
		var used []*source.File
		if rnd.IntN(8) == 0 {
			name := names[rnd.IntN(len(names))]
			text, used = shown[name], usedBy(t, name, shown[name])
		} else {
			text = disguised(rnd, sample.Text(rnd))
		}
		d := designOf(text, used)
		if d == nil {
			continue
		}
		for range 4 {
			var ok bool
			switch rnd.IntN(6) {
			case 0:
				ok = n.add(t, rnd, text, used, d)
			case 1:
				ok = n.remove(t, rnd, text, used, d)
			default:
				ok = n.set(t, rnd, text, used, d)
			}
			if t.Failed() {
				t.Fatalf("in\n%s", text)
			}
			if ok {
				made++
			}
		}
	}
	t.Logf("edits made: %v; measured in sound designs: %v; in unsound ones: %v; at the end of a range: %d; refused: %v",
		n.edits, n.seen, n.unsound, n.limited, n.refused)
	for _, sort := range []string{"set", "add", "remove"} {
		if *edits >= 100 && n.seen[sort] < *edits/20 {
			t.Errorf("%d edits of the sort %q are measured, of %d", n.seen[sort], sort, *edits)
		}
	}
}

// sound checks what all edits have in common.
func (n *tally) sound(t *testing.T, sort, text, after string, edit, undo Edit) bool {
	t.Helper()
	n.edits[sort]++
	var b strings.Builder
	at := 0
	for _, c := range edit {
		b.WriteString(text[at:c.From] + c.New)
		if text[c.From:c.To] != c.Old {
			t.Errorf("%s: %+v is not of the text", sort, c)
		}
		at = c.To
	}
	if b.WriteString(text[at:]); b.String() != after {
		t.Errorf("%s: more has changed than %+v:\n%s", sort, edit, after)
	}
	if back, err := undo.Apply(after); err != nil || back != text {
		t.Errorf("%s: undone to other bytes: %v", sort, err)
	}
	if again, err := undo.Inverse().Apply(text); err != nil || again != after {
		t.Errorf("%s: done again to other bytes: %v", sort, err)
	}
	if _, wrong := syntax.Parse(source.NewFile("a", after)); len(wrong) > 0 {
		t.Errorf("%s: cannot be read: %v", sort, wrong.Err())
	}
	return !t.Failed()
}

func (n *tally) set(t *testing.T, rnd *rand.Rand, text string, used []*source.File, d *design.Design) bool {
	list := handles(d.Parts[rnd.IntN(len(d.Parts))])
	if len(list) == 0 {
		return false
	}
	h := list[rnd.IntN(len(list))]
	want := h.value
	switch {
	case want.Dim == quantity.Angle && h.Argument == 1:
		want.Number = rnd.Float64() * 2 * math.Pi
	case want.Dim == quantity.Angle:
		want.Number = rnd.Float64() * 12 * degree
	default:
		want.Number *= 0.85 + 0.3*rnd.Float64()
		want.Number += 3 * rnd.Float64()
	}
	wishes := []Wish{{Place: h.Place, Value: want}}
	if rnd.IntN(3) == 0 {
		wishes[0].Step = map[quantity.Dimension]float64{quantity.Length: 0.1, quantity.Angle: 0.1 * degree}[want.Dim]
	}
	if h.absent && h.Argument == 0 {
		bearing := wishes[0]
		bearing.Argument, bearing.Value, bearing.Step = 1, quantity.Quantity{Number: rnd.Float64() * 6, Dim: quantity.Angle}, 0
		wishes = append(wishes, bearing)
	}
	s, err := Read("a", text, Options{Used: used}).Set(wishes...)
	if err != nil {
		var r *Refusal
		if !errors.As(err, &r) {
			t.Errorf("%+v: %v", h, err)
		}
		n.refused[r.Reason.String()]++
		return false
	}
	if !n.sound(t, "set", text, s.Text, s.Edit, s.Undo) {
		t.Logf("%+v to %v", h, want)
		return false
	}
	for _, c := range s.Edit {
		if strings.ContainsAny(c.Old, "\n#{}(),*") {
			t.Errorf("%+v: %q is no number", h, c.Old)
		}
	}
	if s.Numbers[0].Place != h.Place {
		t.Errorf("%+v: says that it set %+v", h, s.Numbers)
	}
	after := designOf(s.Text, used)
	if after == nil {
		n.unsound["set"]++
		return true
	}
	for _, got := range handles(after.Part(h.Part)) {
		if got.Place != h.Place {
			continue
		}
		n.seen["set"]++
		off := math.Abs(got.value.Number - want.Number)
		if want.Dim == quantity.Angle && h.Argument == 1 {
			off = math.Abs(math.Remainder(got.value.Number-want.Number, 2*math.Pi))
			if sizeOf(after.Part(h.Part), h.Property) == 0 {
				continue // it points nowhere
			}
		}
		if s.Numbers[0].Limited && atItsEnd(t, after, s.Numbers[0]) {
			n.limited++
			continue
		}
		if off > allowed(wishes[0], s.Numbers[0]) {
			t.Errorf("%+v set to %v, by %v: came to %v\n%s", h, want, s.Edit, got.value, s.Text)
		}
	}
	return true
}

// sizeOf returns the first value of a property whose second is a bearing.
func sizeOf(p *design.Part, property string) float64 {
	switch {
	case p.Ball != nil:
		return p.Ball.Offset
	case property == "offset":
		return p.Post.Offset
	case property == "lean":
		return p.Post.Lean
	}
	return p.Post.Along
}

// allowed returns by how much a number may be off that is wished for: half of its
// step; of an adjustable name, half of that one's own; of what an expression
// rounds, half of that as well. The step of the examples' names is 1 in, or 1/2 in
// where 0.6 of it counts.
func allowed(w Wish, n Number) float64 {
	const rounds = 25.4 / 4 / 2 // round(rise * 0.6, 1/4 in), of an example
	step := w.Step
	angle := w.Value.Dim == quantity.Angle
	switch {
	case n.Adjust && angle:
		step = coarse * degree
	case n.Adjust:
		return 25.4/2 + rounds
	case step == 0 && angle:
		step = 0.575 * math.Pi / 180 // half a degree, or a hundredth of a radian
	case step == 0:
		step = 25.4 / 16 // which is more than 0.5 mm
	}
	if angle {
		return step/2 + 0.0051*degree
	}
	return step/2 + 0.0051
}

// atItsEnd reports whether an adjustable name is at an end of its range.
func atItsEnd(t *testing.T, d *design.Design, n Number) bool {
	for _, a := range d.Adjust {
		if a.Name == n.Name {
			if math.Abs(a.Value.Number-n.Value.Number) > 1e-6 {
				t.Errorf("'%s' is %v, and was said to be %v", a.Name, a.Value, n.Value)
			}
			return a.Value.Number <= a.From.Number+1e-6 || a.Value.Number >= a.To.Number-1e-6-a.Step.Number
		}
	}
	t.Errorf("there is no '%s'", n.Name)
	return false
}

func (n *tally) add(t *testing.T, rnd *rand.Rand, text string, used []*source.File, d *design.Design) bool {
	host := d.Parts[rnd.IntN(len(d.Parts))]
	if host.Base != nil && host.Base.Pad {
		return true // what stands on a pad is the post that it is of
	}
	if host.Ball != nil && host.Ball.Bowl {
		return true // nothing stands on it
	}
	length := 40 + 60*rnd.Float64()
	a := Addition{Keyword: "post", Host: host.Name, Properties: []Given{{"diameter", []Value{{Quantity: mm(12)}}}, {"length", []Value{{Quantity: mm(length)}}}}}
	switch {
	case host.Base != nil:
		a = Addition{Keyword: "ball", Host: host.Name, Properties: []Given{
			{"at", []Value{{Point: []quantity.Quantity{mm(-200 + 400*rnd.Float64()), mm(200)}}}}, {"diameter", []Value{{Quantity: mm(length)}}}, {"gores", []Value{{Quantity: number(8)}}}}}
	case host.Post != nil:
		a.Properties = append(a.Properties, Given{"at", []Value{{Quantity: mm(host.Post.Length / 2)}, {Quantity: deg(rnd.Float64() * 360)}}})
	default:
		a.Properties = append(a.Properties, Given{"lean", []Value{{Quantity: deg(10 * rnd.Float64())}, {Quantity: deg(360 * rnd.Float64())}}})
	}
	s, err := Read("a", text, Options{Used: used}).Add(a)
	if err != nil {
		t.Errorf("%+v: %v", a, err)
		return false
	}
	if !n.sound(t, "add", text, s.Text, s.Edit, s.Undo) {
		return false
	}
	after := designOf(s.Text, used)
	if after == nil {
		n.unsound["add"]++
		return true
	}
	n.seen["add"]++
	p := after.Part(s.Name)
	got := math.NaN()
	switch {
	case p == nil:
	case p.Ball != nil:
		got = 2 * p.Ball.Radius
	default:
		got = p.Post.Length
	}
	if !(math.Abs(got-length) <= 25.4/16/2+0.001) || len(after.Parts) != len(d.Parts)+1 || after.Part(s.Name).Metal == nil {
		t.Errorf("added %+v: %s came to %v in\n%s", a, s.Name, got, s.Text)
	}
	return true
}

func (n *tally) remove(t *testing.T, rnd *rand.Rand, text string, used []*source.File, d *design.Design) bool {
	p := d.Parts[rnd.IntN(len(d.Parts))]
	s, err := Read("a", text, Options{Used: used}).Remove(familyOf(p.Name))
	if err != nil {
		t.Errorf("without %s: %v", p.Name, err)
		return false
	}
	if !n.sound(t, "remove", text, s.Text, s.Edit, s.Undo) {
		return false
	}
	gone := []string{familyOf(p.Name)}
	for _, f := range s.Fallen {
		gone = append(gone, f.Name)
	}
	after := designOf(s.Text, used)
	if after == nil {
		n.unsound["remove"]++
		if wrong := mistakes("a", s.Text, used); len(s.Left) == 0 && !strings.Contains(wrong.Err().Error(), "the design has no part") {
			t.Errorf("without %s: %v", p.Name, wrong.Err())
		}
		return true
	}
	n.seen["remove"]++
	for _, q := range d.Parts {
		if got := after.Part(q.Name); (got == nil) != slices.Contains(gone, familyOf(q.Name)) {
			t.Errorf("without %s: %s is there: %v, though %v go\n%s", p.Name, q.Name, got != nil, gone, s.Text)
		}
	}
	return true
}
