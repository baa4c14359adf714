package eval

import (
	"math"

	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// A Function is a function of the language.
type Function struct {
	Name    string
	Form    string // how it is written
	Meaning string

	least, most int // number of arguments
	work        func(c *call) value
}

// mostArguments is no bound on min and max but that of sense.
const mostArguments = 1000

// Functions returns the functions of the language.
func Functions() []Function {
	return []Function{
		{"sin", "sin(angle)", "the sine of an angle", 1, 1, func(c *call) value { return c.ofAngle(math.Sin) }},
		{"cos", "cos(angle)", "the cosine of an angle", 1, 1, func(c *call) value { return c.ofAngle(math.Cos) }},
		{"tan", "tan(angle)", "the tangent of an angle", 1, 1, func(c *call) value { return c.ofAngle(math.Tan) }},
		{"asin", "asin(number)", "the angle of a sine", 1, 1, func(c *call) value { return c.toAngle(math.Asin) }},
		{"acos", "acos(number)", "the angle of a cosine", 1, 1, func(c *call) value { return c.toAngle(math.Acos) }},
		{"atan2", "atan2(y, x)", "the bearing from (0, 0) to (x, y)", 2, 2, (*call).atan2},
		{"sqrt", "sqrt(value)", "the square root", 1, 1, (*call).sqrt},
		{"abs", "abs(value)", "the value without its sign", 1, 1, (*call).abs},
		{"min", "min(value, …)", "the least of the values", 1, mostArguments, func(c *call) value { return c.pickOut(-1) }},
		{"max", "max(value, …)", "the greatest of the values", 1, mostArguments, func(c *call) value { return c.pickOut(1) }},
		{"round", "round(value, step)", "the value to the nearest step; without a step, to a whole number", 1, 2, func(c *call) value { return c.toStep(math.Round) }},
		{"floor", "floor(value, step)", "the value down to a step; without a step, to a whole number", 1, 2, func(c *call) value { return c.toStep(math.Floor) }},
		{"ceil", "ceil(value, step)", "the value up to a step; without a step, to a whole number", 1, 2, func(c *call) value { return c.toStep(math.Ceil) }},
		{"polar", "polar(radius, bearing)", "the point in plan at a radius and a bearing", 2, 2, (*call).polar},
		{"distance", "distance(point, point)", "the distance between two points", 2, 2, (*call).distance},
		{"pick", "pick(condition, a, b)", "a where the condition holds, else b", 3, 3, nil}, // lazy: see evaluator.pick
	}
}

var functions = Functions()

func lookupFunction(name string) *Function {
	for i := range functions {
		if functions[i].Name == name {
			return &functions[i]
		}
	}
	return nil
}

func isFunction(name string) bool { return lookupFunction(name) != nil }

// A call is a function at work on its arguments.
type call struct {
	*evaluator
	at      source.Span
	name    string
	args    []value
	spans   []source.Span
	unknown bool // an argument is not known yet
}

func (e *evaluator) call(x *syntax.Call, s *scope) value {
	f := lookupFunction(x.Function.Text)
	if f == nil {
		names := make([]string, len(functions))
		for i, f := range functions {
			names[i] = f.Name
		}
		e.report(x.Function.At, e.suggest(x.Function.Text, names, "there are "+list(names, "and")), "there is no function '%s'", x.Function.Text)
		return value{}
	}
	if n := len(x.Arguments); n < f.least || n > f.most {
		e.report(x.Span(), "write it as "+f.Form, "'%s' is given %d values", f.Name, n)
		return value{}
	}
	if f.work == nil {
		return e.pick(x, s)
	}
	c := &call{evaluator: e, at: x.Span(), name: f.Name}
	for _, a := range x.Arguments {
		v := e.eval(a, s)
		c.args = append(c.args, v)
		c.spans = append(c.spans, a.Span())
		c.unknown = c.unknown || v.unknown
	}
	for _, v := range c.args {
		if v.kind == failed {
			return value{}
		}
	}
	v := f.work(c)
	v = v.leanOn(c.args...)
	return e.sound(v, c.at)
}

// pick works out only the side that holds. Where the condition is not known
// yet both sides are worked out, and must be of one kind.
func (e *evaluator) pick(x *syntax.Call, s *scope) value {
	c := e.eval(x.Arguments[0], s)
	switch {
	case c.kind == failed:
		return value{}
	case c.kind != boolean:
		e.report(x.Arguments[0].Span(), "write it as pick(condition, a, b)", "'pick' needs a condition first, and this is %s", c)
		return value{}
	case !c.unknown && c.yes:
		return e.eval(x.Arguments[1], s)
	case !c.unknown:
		return e.eval(x.Arguments[2], s)
	}
	a, b := e.eval(x.Arguments[1], s), e.eval(x.Arguments[2], s)
	a, b, ok := e.align(a, b, x.Arguments[1].Span(), x.Arguments[2].Span())
	if !ok {
		return value{}
	}
	if a.kind != b.kind || a.q.Dim != b.q.Dim {
		return e.mismatch(x.Span(), "'pick' chooses between %s and %s, which do not match", a, b)
	}
	a.unknown = true
	return a.leanOn(b)
}

// want reports that an argument is of the wrong sort.
func (c *call) want(i int, what string) value {
	hint := ""
	if c.args[i].is(quantity.Number) && what == "an angle" {
		hint = "give it a unit: deg or rad"
	}
	c.report(c.spans[i], hint, "'%s' needs %s, and this is %s", c.name, what, c.args[i])
	return value{}
}

func (c *call) ofAngle(f func(float64) float64) value {
	if !c.args[0].is(quantity.Angle) {
		return c.want(0, "an angle")
	}
	return plain(f(c.args[0].q.Number))
}

func (c *call) toAngle(f func(float64) float64) value {
	a := c.args[0]
	if !a.is(quantity.Number) {
		return c.want(0, "a plain number")
	}
	if math.Abs(a.q.Number) > 1 && order(math.Abs(a.q.Number), 1) != 0 && !a.unknown {
		c.report(c.spans[0], "", "'%s' needs a number from -1 to 1, and this is %s", c.name, c.say(a))
		return value{}
	}
	x := max(-1, min(1, a.q.Number))
	return value{kind: number, q: quantity.Quantity{Number: f(x), Dim: quantity.Angle}}
}

func (c *call) atan2() value {
	a, b, ok := c.pair()
	if !ok {
		return value{}
	}
	if a.q.Number == 0 && b.q.Number == 0 && !c.unknown {
		c.report(c.at, "", "'atan2' of 0 and 0 has no direction")
		return value{}
	}
	return value{kind: number, q: quantity.Quantity{Number: math.Atan2(a.q.Number, b.q.Number), Dim: quantity.Angle}}
}

// pair gives the first two arguments one dimension.
func (c *call) pair() (a, b value, ok bool) {
	for i := range 2 {
		if c.args[i].kind != number {
			return a, b, c.want(i, "a number").kind != failed
		}
	}
	a, b, ok = c.align(c.args[0], c.args[1], c.spans[0], c.spans[1])
	if ok && a.q.Dim != b.q.Dim {
		c.mismatch(c.at, "'"+c.name+"' is given %s and %s, which do not match", a, b)
		ok = false
	}
	return a, b, ok
}

func (c *call) sqrt() value {
	a := c.args[0]
	if a.kind != number {
		return c.want(0, "a number")
	}
	d, ok := a.q.Dim.Root()
	switch {
	case !ok:
		c.report(c.spans[0], "", "%s has no square root", a)
		return value{}
	case a.q.Number < 0:
		c.report(c.spans[0], "", "this comes to %s, and less than 0 has no square root", c.say(a))
		return value{}
	}
	return value{kind: number, q: quantity.Quantity{Number: math.Sqrt(a.q.Number), Dim: d}}
}

func (c *call) abs() value {
	a := c.args[0]
	if a.kind != number {
		return c.want(0, "a number")
	}
	a.q.Number = math.Abs(a.q.Number)
	return a
}

// pickOut returns the least (sign -1) or the greatest (sign 1) of the arguments.
func (c *call) pickOut(sign float64) value {
	for i, v := range c.args {
		if v.kind != number {
			return c.want(i, "numbers")
		}
	}
	// If one is a length, all plain numbers are.
	for _, v := range c.args {
		if !v.is(quantity.Length) {
			continue
		}
		for i := range c.args {
			if c.args[i] = c.length(c.args[i], c.spans[i]); c.args[i].kind == failed {
				return value{}
			}
		}
		break
	}
	best := c.args[0]
	for _, v := range c.args[1:] {
		if v.q.Dim != best.q.Dim {
			return c.mismatch(c.at, "'"+c.name+"' is given %s and %s, which do not match", best, v)
		}
		if sign*v.q.Number > sign*best.q.Number {
			best = v
		}
	}
	return best
}

func (c *call) toStep(f func(float64) float64) value {
	if len(c.args) == 1 {
		a := c.args[0]
		if !a.is(quantity.Number) {
			if a.kind == number {
				c.report(c.at, "write it as "+c.name+"(value, step)", "'%s' of %s needs a step to go to", c.name, a)
				return value{}
			}
			return c.want(0, "a number")
		}
		return plain(f(a.q.Number))
	}
	a, step, ok := c.pair()
	if !ok {
		return value{}
	}
	if c.unknown {
		return a
	}
	if step.q.Number <= 0 {
		c.report(c.spans[1], "", "the step of '%s' must be more than 0, and this is %s", c.name, c.say(step))
		return value{}
	}
	// A quotient within rounding of a whole number is that number: 0.3 to a
	// step of 0.1 is three steps, up or down.
	n := a.q.Number / step.q.Number
	if k := math.Round(n); order(n, k) == 0 {
		n = k
	}
	a.q.Number = f(n) * step.q.Number
	return a
}

func (c *call) polar() value {
	r := c.length(c.args[0], c.spans[0])
	switch {
	case r.kind == failed:
		return r
	case !r.is(quantity.Length):
		return c.want(0, "a length")
	case !c.args[1].is(quantity.Angle):
		return c.want(1, "an angle")
	}
	sin, cos := math.Sincos(c.args[1].q.Number)
	p := &coordinates{n: 2}
	p.q[0] = quantity.Quantity{Number: r.q.Number * cos, Dim: quantity.Length}
	p.q[1] = quantity.Quantity{Number: r.q.Number * sin, Dim: quantity.Length}
	return value{kind: point, point: p}
}

// distance is measured in plan where one of the points is given in plan.
func (c *call) distance() value {
	n := 3
	for i, v := range c.args {
		if v.kind != point {
			return c.want(i, "a point")
		}
		n = min(n, v.point.n)
	}
	sum := 0.0
	for i := range n {
		a := c.length(value{kind: number, q: c.args[0].point.q[i]}, c.spans[0])
		b := c.length(value{kind: number, q: c.args[1].point.q[i]}, c.spans[1])
		if a.kind == failed || b.kind == failed {
			return value{}
		}
		sum = math.Hypot(sum, a.q.Number-b.q.Number)
	}
	return millimetres(sum)
}
