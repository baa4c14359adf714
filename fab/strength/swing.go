package strength

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/fab/wind"
	"stabile/param/design"
)

// Sway is how far the highest part moves to the side under the wind, or a push
// where there is none, in addition to its sway under its own weight.
type Sway struct {
	Part  *design.Part // nil where nothing stands or blows
	At    r3.Vec       // its highest point on the axis, or its centre
	Case  check.Case
	Moved float64 // mm, level
}

// A Mode is a way in which the whole swings by itself.
type Mode struct {
	Frequency float64
	Part      *design.Part // that moves most
	Direction r3.Vec       // unit vector, of that part's movement
	Shape     [][2]r3.Vec  // as of frame.Mode
}

// A Shedding is the wind at which eddies leave a part as often as it swings.
type Shedding struct {
	Part      *design.Part
	Frequency float64 // Hz, of the lowest mode in which the part takes part
	Estimated bool    // it keeps still in those that were worked out: Frequency is about that of its own swing on its foot
	Width     float64 // mm across the wind
	Strouhal  float64
	Critical  float64 // m/s
	Design    float64 // m/s, the wind that it is compared with
	Of        float64 // Critical over Design; 0 without a wind
	Slender   float64 // of a post: its length over its width
	Tiring    *Tiring // of a post; nil where it does not vibrate within reach of the design wind, or is stocky
}

const (
	// Strouhal's numbers: of a round cylinder, EN 1991-1-4 Table E.1, and of a
	// ball, about (from memory).
	strouhalPost = 0.18
	strouhalBall = 0.20

	// SheddingLimit is the critical speed over the design wind's above which
	// eddies need no thought, EN 1991-1-4 E.1.2.
	SheddingLimit = 1.25

	// StockyLimit is the length over the width up to which eddies need no thought, EN
	// 1991-1-4 E.1.2 (1) (from memory).
	StockyLimit = 6.0

	// takesPart is the share of a mode's greatest movement from which a part
	// counts as taking part in it.
	takesPart = 0.1
)

// CriticalSpeed returns the wind in m/s at which eddies leave a body of the given
// width in mm at the frequency in Hz: f b / S.
func CriticalSpeed(frequency, width, strouhal float64) float64 {
	return frequency * width / 1e3 / strouhal
}

// highest returns the highest part, and its highest point on the axis, or its centre.
func highest(f *frame.Frame) (part *design.Part, top r3.Vec) {
	take := func(p *design.Part, at r3.Vec) {
		if part == nil || at.Z > top.Z {
			part, top = p, at
		}
	}
	for _, it := range f.Items {
		switch p := it.Part; {
		case p.Post != nil:
			take(p, p.Post.Ends[design.Head].At)
			take(p, p.Post.Ends[design.Foot].At)
		case p.Ball != nil:
			take(p, p.Ball.Center)
		}
	}
	return part, top
}

func (s *Strength) sway(f *frame.Frame, c *cases) {
	if s.Sway.Part, s.Sway.At = highest(f); s.Sway.Part == nil {
		return
	}
	moved := make([]r3.Vec, c.width())
	for k := range moved {
		moved[k] = c.solved.top(s.Sway.Part, s.Sway.At, k)
	}
	by := pushed
	for n := range c.list {
		if c.list[n].kind == inWind {
			by = inWind
		}
	}
	for n := range c.list {
		if c.list[n].kind != by {
			continue
		}
		var u r3.Vec
		for _, t := range c.list[n].terms[:c.list[n].count] {
			if t.column >= common {
				u = r3.Add(u, r3.Scale(t.share, moved[t.column]))
			}
		}
		if d := math.Hypot(u.X, u.Y); d > s.Sway.Moved {
			s.Sway.Moved, s.Sway.Case = d, c.load(n)
		}
	}
}

// swing works out the modes, if that has not been done.
func (s *Strength) swing() (err error) {
	if s.swung {
		return nil
	}
	f := s.Frame
	if s.modes, s.Complete, err = f.Modes(modes); err != nil {
		return fmt.Errorf("strength: %w", err)
	}
	for _, m := range s.modes {
		mode := Mode{Frequency: m.Frequency, Shape: m.Shape}
		for i, u := range m.Shape {
			if d := r3.Norm(u[0]); d > 1-1e-9 && mode.Part == nil {
				mode.Part, mode.Direction = f.Bodies[i].Part, r3.Unit(u[0])
			}
		}
		s.Modes = append(s.Modes, mode)
	}
	s.swung = true
	return nil
}

// shed works out the winds that excite the modes.
func (s *Strength) shed(f *frame.Frame, c *cases, in Input) {
	list := s.modes
	s.Shedding = make([]Shedding, 0, len(f.Items))
	own := map[*design.Part]float64{}
	swings := inertia(f, list)
	for _, it := range f.Items {
		p := it.Part
		sh := Shedding{Part: p}
		switch {
		case p.Post != nil:
			sh.Strouhal = strouhalPost
		case p.Ball != nil:
			// Of an egg the lesser width, which the lesser wind sets swinging.
			sh.Width, sh.Strouhal = 2*min(p.Ball.Radius, p.Ball.Polar()), strouhalBall
		default:
			continue
		}
		for _, m := range list {
			if f.Reach(p, m) >= takesPart {
				sh.Frequency = m.Frequency
				break
			}
		}
		if sh.Frequency == 0 {
			post := bearer(p)
			frequency, known := own[post]
			if !known && post != nil {
				carried := in.Ties.Carried(slices.Index(in.Design.Parts, post))
				frequency = c.solved.Own(post, carried, [2]int{weightX, weightY})
				own[post] = frequency
			}
			sh.Frequency, sh.Estimated = frequency, true
		}
		if sh.Frequency == 0 {
			continue // it lies on the ground, or nothing swings
		}
		if in.Wind != nil {
			sh.Design = designWind(in.Wind, p)
		}
		if p.Post != nil {
			sh.Width = shedsAt(p, sh.Frequency, sh.Design)
		}
		sh.Critical = CriticalSpeed(sh.Frequency, sh.Width, sh.Strouhal)
		if in.Wind != nil {
			sh.Of = sh.Critical / sh.Design
		}
		if p.Post != nil && p.Metal != nil {
			sh.Slender = p.Post.Length / sh.Width
			partial := partialOf(in.Design)
			switch {
			case sh.Stocky():
			case sh.Estimated:
				sh.Tiring = alone(f, p, sh.Frequency, sh.Design, partial)
			default:
				sh.Tiring = tires(f, p, swings, sh.Design, partial)
			}
		}
		s.Shedding = append(s.Shedding, sh)
	}
}

// Stocky reports whether a post is too short for its width for eddies to keep time along it.
func (s *Shedding) Stocky() bool { return s.Slender > 0 && s.Slender <= StockyLimit }

// bearer returns the post on which a part swings: itself, or that under or through
// a ball; nil for none.
func bearer(p *design.Part) *design.Part {
	for p != nil && p.Ball != nil {
		p = p.Host()
	}
	return p
}

// designWind returns the speed that the critical speed of a part is compared with: the mean
// wind of 10 min at its height, once in 50 years (EN 1991-1-4 4.3.1 and E.1.2).
func designWind(w *wind.Wind, p *design.Part) float64 {
	for i := range w.Items {
		if it := &w.Items[i]; it.Part == p && it.Mean > 0 {
			return it.Mean
		}
	}
	return w.Speed
}
