package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/vibration"
	"stabile/fab/wind"
	"stabile/param/design"
)

// service is for how many years a piece is to stand: the design working life of
// structures, EN 1990 Table 2.1.
const service = 50

// partialOf returns gamma_Mf for a site: that of a low consequence of failure where nobody is
// near (risk 1), else that of a high one.
func partialOf(d *design.Design) float64 {
	if siteOf(d).Risk == 1 {
		return vibration.MildPartial
	}
	return vibration.GravePartial
}

// A Tiring is what the worst of the modes in which a post sheds eddies does to the
// welds of the whole.
type Tiring struct {
	Frequency float64 // Hz
	Critical  float64 // m/s
	Amplitude float64 // mm, of the movement where that is greatest
	At        *design.Part
	Fatigue   vibration.Fatigue
}

// Use is how much of what the welds take it uses; 1 is the limit: of the cut-off where
// it is under that, else Miner's sum.
func (t *Tiring) Use() float64 {
	if t.Fatigue.Forever {
		return t.Fatigue.Factored / t.Fatigue.Cutoff
	}
	return t.Fatigue.Damage
}

// A swinging mode is one with what its inertia does to the posts.
type swinging struct {
	frame.Mode
	mass   float64 // kg, modal
	stress float64 // MPa, the greatest of bending and axial force in a post, for each mm of movement
	at     *design.Part
}

// inertia works out what the inertia of the modes does to the posts: the mass of each
// part times its movement, laid on the frame as a load.
func inertia(f *frame.Frame, list []frame.Mode) []swinging {
	out := make([]swinging, len(list))
	if len(list) == 0 {
		return nil
	}
	l := f.NewPointLoads(len(list))
	for k, m := range list {
		out[k].Mode = m
		omega := 2 * math.Pi * m.Frequency
		lay := func(p *design.Part, at r3.Vec, mass float64) {
			moved := f.Swing(p, at, m.Shape)
			out[k].mass += mass * r3.Norm2(moved)
			l.At(k, p, at, r3.Scale(mass*omega*omega/1e3, moved))
		}
		for i := range f.Posts {
			post := &f.Posts[i]
			for j := range post.Beams() {
				half := f.Beams[post.First+j].Mass / 2
				lay(post.Part, post.Stations[j].At, half)
				lay(post.Part, post.Stations[j+1].At, half)
			}
		}
		for _, it := range f.Items {
			if it.Part.Ball != nil {
				lay(it.Part, it.Part.Ball.Center, it.Mass)
			}
		}
	}
	solved := f.Solve(l)
	var forces []frame.SectionForces
	for i := range f.Posts {
		post := &f.Posts[i]
		for j := range post.Beams() {
			b := &f.Beams[post.First+j]
			if b.A == b.B {
				continue
			}
			for end := range 2 {
				forces = solved.SectionForces(post.First+j, end, forces)
				for k := range out {
					axial, _, bending, _ := forces[k].Resultants()
					if s := math.Abs(axial)/b.Area + bending/b.Elastic; s > out[k].stress {
						out[k].stress, out[k].at = s, post.Part
					}
				}
			}
		}
	}
	return out
}

// tires returns what eddies that leave a post do, in the worst of the modes in which it
// takes part; nil where none does. The speed is the mean wind at it, 0 for unknown.
func tires(f *frame.Frame, p *design.Part, modes []swinging, speed, partial float64) *Tiring {
	var worst *Tiring
	for _, m := range modes {
		if f.Reach(p, m.Mode) < takesPart || !(m.mass > 0) {
			continue
		}
		for _, s := range stretches(p, f.Shape(p, m.Mode)) {
			s.Frequency, s.Mass, s.Damping, s.Wind = m.Frequency, m.mass, wind.SteelDamping, speed
			r, err := s.Respond()
			if err != nil || !r.Excited {
				continue
			}
			worst = worse(worst, m.Frequency, r, m.stress, m.at, s.Cycles(service), partial)
		}
	}
	return worst
}

// nearWidth is how far the width of a cone may be from that whose eddies keep time, as a
// share of it, where eddies still do: 1.25, as E.1.2 takes it of the wind (derived).
const nearWidth = 0.25

// stretches returns the stretches of a post along which eddies keep time together, with the
// mode's shape on each: all of it, or of a cone with a point each of its stations with what
// lies about it that is about as wide.
func stretches(p *design.Part, shape []float64) []vibration.Swing {
	post := p.Post
	if !post.IsPointed() || len(shape) < 2 {
		return []vibration.Swing{{Diameter: post.Narrowest(), Exposed: post.Length, Shape: shape}}
	}
	n := len(shape) - 1
	step := post.Length / float64(n)
	var list []vibration.Swing
	for i := range n {
		// From the point the width grows evenly.
		off := float64(n - i)
		low, high := max(0, int(off*(1-nearWidth))), min(n, int(math.Ceil(off*(1+nearWidth))))
		list = append(list, vibration.Swing{
			Diameter: post.DiameterAt(float64(i) * step), Exposed: float64(high-low) * step, Shape: shape[n-high : n-low+1],
		})
	}
	return list
}

// alone is tires of a post that keeps still in the modes: as a cantilever of its own
// frequency, with what rests on its head.
func alone(f *frame.Frame, p *design.Part, frequency, speed, partial float64) *Tiring {
	own, tip := 0.0, 0.0
	for _, it := range f.Items {
		switch {
		case it.Part == p:
			own = it.Mass
		case it.Part.Ball != nil && it.Part.Ball.On == p:
			tip += it.Mass
		}
	}
	even := own / (p.Post.Length / 1e3)
	t := vibration.Tube{
		Diameter: shedsAt(p, frequency, speed), Length: p.Post.Length, Frequency: frequency, Mass: vibration.EquivalentMass(even, tip, p.Post.Length),
		Damping: wind.SteelDamping, Wind: speed,
	}
	r, err := t.Respond()
	if err != nil || !r.Excited || r.Amplitude == 0 {
		return nil
	}
	section := frame.Tube(p.Post.Ends[design.Foot].Diameter, p.Metal.Thickness)
	return worse(nil, frequency, r, t.FootMoment(r, even, tip)/section.Elastic/r.Amplitude, p, t.Cycles(service), partial)
}

// worse returns the worse of what is known and a response that stresses a part so much
// for each mm.
func worse(known *Tiring, frequency float64, r vibration.Response, stress float64, at *design.Part, cycles, partial float64) *Tiring {
	fatigue, err := vibration.WeldRoot.Fatigue(2*stress*r.Amplitude, cycles, partial)
	if err != nil {
		return known
	}
	t := &Tiring{Frequency: frequency, Critical: r.Critical, Amplitude: r.Amplitude, At: at, Fatigue: fatigue}
	if known != nil && known.rank() >= t.rank() {
		return known
	}
	return t
}

// rank orders tirings: what is above the cut-off is worse than what is not.
func (t *Tiring) rank() float64 {
	if t.Fatigue.Forever {
		return t.Use()
	}
	return 1 + t.Use()
}

// shedsAt returns the width in mm at which a post sheds vortices: of a taper its least. A
// cone with a point has every width from its foot's down, and no rule: taken all along it is
// the widest that the mean wind, in m/s and 0 for unknown, still excites with full lift at a
// frequency, on the high side since a width keeps time with the wind over a short length.
func shedsAt(p *design.Part, frequency, speed float64) float64 {
	width := p.Post.Narrowest()
	if p.Post.IsPointed() && speed > 0 && frequency > 0 {
		width = min(width, vibration.FullLift*speed/vibration.Critical(1, frequency))
	}
	return width
}
