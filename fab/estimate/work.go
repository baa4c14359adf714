package estimate

import "stabile/param/design"

// An Operation is a kind of work.
type Operation string

// The operations, in the order of the work.
const (
	Template     Operation = "making templates"
	LayOut       Operation = "laying out"
	ShearSetting Operation = "setting the shear"
	ShearCut     Operation = "shear cuts"
	HandCut      Operation = "cutting curves by hand"
	CutterCut    Operation = "cutting by the cutter"
	SawCut       Operation = "sawing pipe and tube"
	Cope         Operation = "coping pipe and tube"
	Drill        Operation = "drilling"
	Clean        Operation = "cleaning edges"
	RollSetting  Operation = "setting the rolls"
	Pass         Operation = "passes through the rolls"
	Raise        Operation = "doming and dishing"
	Form         Operation = "forming by mallet or brake"
	Fit          Operation = "fitting and tacking"
	Weld         Operation = "welding"
	Dress        Operation = "dressing welds"
	Lift         Operation = "lifting and setting up"
	Finish       Operation = "finish"
	Load         Operation = "wrapping and loading"
)

// A Line is one operation: so much of it, at a rate, comes to a number of hours.
type Line struct {
	Operation Operation
	Quantity  float64 // a count; mm; mm2; or kg, by Unit
	Unit      Unit
	Each      float64 // s for each, of a count; s for each m2 or kg, of an area or a weight; else 0
	Speed     float64 // m/s, of a length; else 0
	Own       bool    // the rate is the shop's own, not a built-in one
	Hours     Range
}

// A Unit is what a quantity is counted in.
type Unit int

// The units.
const (
	Count  Unit = iota // single things
	Length             // mm
	Area               // mm2
	Weight             // kg
)

// Built-in rates where a shop has none to give. Common practice, no source.
const (
	templateTime = 15 * 60.0     // s for each: printed or drawn, glued to card, cut
	layOutTime   = 4 * 60.0      // s for each piece: scribed, marked, numbered
	sawTime      = 5 * 60.0      // s for each cut: measured, clamped, sawn, its burr taken off
	drillTime    = 3 * 60.0      // s for each hole: punched, drilled, its burr taken off
	formTime     = 20 * 60.0     // s for each piece, over a pipe or on the brake, tried on its template
	loadTime     = 40.0          // s for each kg: wrapped, lifted, lashed down
	handSpeed    = 0.15 / 60     // m/s, along a curve with snips or a nibbler, and filing it
	cutterSpeed  = 0.5 / 60      // m/s, along an edge, laying out and deburring counted in
	copeSpeed    = 0.05 / 60     // m/s, along the edge of a template with a grinder or a torch, and filing it to fit
	raiseTime    = 4 * 3600.0    // s for each m2 that is raised over a stake or in a sandbag
	liftTime     = 15 * 60.0     // s for each lift: rigging, setting, checking
	paintTime    = 1.5 * 3600.0  // s for each m2: degreasing, priming, two coats
	brushTime    = 1 * 3600.0    // s for each m2
	weatherTime  = 0.25 * 3600.0 // s for each m2: degreasing and wetting
)

// A spread is how far a line may come out under and over what is likely, by how
// well it is known beforehand.
type spread int

const (
	steady spread = iota // work of which a machine sets the pace
	usual                // work by hand
	loose                // work of which the metal sets the pace
	bought               // what comes at a given price, and may be spoilt
	fed                  // filler, which leaves stubs and spatters
	sent                 // work of others by their own measure
)

// shares returns the spread as shares of what is likely. Work overruns further
// than it saves. Common practice, no source.
func (s spread) shares() (down, up float64) {
	switch s {
	case steady:
		return 0.15, 0.25
	case usual:
		return 0.25, 0.4
	case loose:
		return 0.4, 0.7
	case bought:
		return 0, 0.1
	case fed:
		return 0.2, 0.5
	}
	return 0.1, 0.2
}

func (s spread) about(x float64) Range {
	down, up := s.shares()
	return Range{x * (1 - down), x, x * (1 + up)}
}

// spread returns the shares.
func (s spread) spread() Spread {
	down, up := s.shares()
	return Spread{down, up}
}

// ownShare is how much of its spread a line keeps where the rate is from the shop's
// own notes and not built in. Common practice, no source.
const ownShare = 0.5

// times returns the hours of each line of work, each times what is given for it.
func (e *Estimate) times(x func(*Line) float64) []Range {
	list := make([]Range, len(e.Work))
	for i := range e.Work {
		list[i] = e.Work[i].Hours.times(x(&e.Work[i]))
	}
	return list
}

// work works out the hours.
func (e *Estimate) work(in *Input) {
	q, r, own := &in.Quantities, &in.Rates, &in.Own
	e.count(Template, q.Templates, templateTime, false, usual)
	e.count(LayOut, q.LaidOut, layOutTime, false, usual)
	e.count(ShearSetting, q.ShearSettings, r.ShearSetting(), own.ShearSetting() > 0, steady)
	e.count(ShearCut, q.ShearCuts, r.Cut, own.Cut > 0, steady)
	e.length(HandCut, q.HandCut, handSpeed, false, usual)
	e.length(CutterCut, q.CutterCut, cutterSpeed, false, usual)
	e.count(SawCut, q.SawCuts, sawTime, false, usual)
	e.length(Cope, q.Coped, copeSpeed, false, loose)
	e.count(Drill, q.Holes, drillTime, false, usual)
	e.length(Clean, q.Clean, r.Clean, own.Clean > 0, usual)
	e.count(RollSetting, q.RollSettings, r.RollSetting(), own.RollSetting() > 0, steady)
	e.count(Pass, q.Passes, r.Pass, own.Pass > 0, usual)
	e.area(Raise, q.Raised, raiseTime, loose)
	e.count(Form, q.Formed, formTime, false, loose)
	e.count(Fit, q.Fits, r.Fit, own.Fit > 0, loose)
	e.length(Weld, q.Weld, r.Weld, own.Weld > 0, usual)
	e.length(Dress, q.Dress, r.Dress, own.Dress > 0, loose)
	e.count(Lift, q.Lifts, liftTime, false, loose)
	if f := in.Finish; f != nil && good(q.Surface) && !good(f.Price) {
		switch f.Kind {
		case design.Paint:
			e.area(Finish, q.Surface, paintTime, usual)
		case design.Brushed:
			e.area(Finish, q.Surface, brushTime, usual)
		case design.Weather:
			e.area(Finish, q.Surface, weatherTime, usual)
		default:
			e.Left = append(e.Left, Lacking{Finish: f.Kind})
		}
	}
	e.line(Line{Operation: Load, Quantity: q.Load, Unit: Weight, Each: loadTime}, q.Load*loadTime, loose)
	e.Hours = sum(e.times(func(*Line) float64 { return 1 }))
}

// most is the largest quantity, rate or price that is taken as meant, so that no
// sum of products runs out of range.
const most = 1e15

// good reports whether x is a positive number that is taken as meant.
func good(x float64) bool { return x > 0 && x <= most }

func (e *Estimate) count(op Operation, n int, each float64, own bool, s spread) {
	e.line(Line{Operation: op, Quantity: float64(n), Unit: Count, Each: each, Own: own}, float64(n)*each, s)
}

func (e *Estimate) length(op Operation, mm, speed float64, own bool, s spread) {
	e.line(Line{Operation: op, Quantity: mm, Unit: Length, Speed: speed, Own: own}, mm/1e3/speed, s)
}

func (e *Estimate) area(op Operation, mm2, each float64, s spread) {
	e.line(Line{Operation: op, Quantity: mm2, Unit: Area, Each: each}, mm2/1e6*each, s)
}

// line adds a line that takes a number of seconds.
func (e *Estimate) line(l Line, seconds float64, s spread) {
	switch {
	case !good(l.Quantity):
	case !good(l.Each) && !good(l.Speed) || !good(seconds):
		e.Left = append(e.Left, Lacking{Operation: l.Operation})
	default:
		l.Hours = s.about(seconds / 3600)
		if l.Own {
			l.Hours.Low += (1 - ownShare) * (l.Hours.Likely - l.Hours.Low)
			l.Hours.High -= (1 - ownShare) * (l.Hours.High - l.Hours.Likely)
		}
		e.Work = append(e.Work, l)
	}
}
