package rolling

import (
	"math"
	"slices"
	"testing"
)

// A simulation rolls a strip numerically. The strip is a row of sections, each of
// layers that are elastic and perfectly plastic and keep their plastic strain. It
// is fed through the pinch a section at a time; at each step the back roll's force
// is sought that just holds the sheet off it, whatever part of the sheet, its end
// included, is nearest to the roll. Nothing of the closed forms is used: neither
// where the roll touches, nor how the moment falls, nor how the sheet springs
// back, nor that the flow is steady.
type simulation struct {
	strip    Strip
	machine  Machine
	step     float64 // mm from section to section
	sections []section
	at       []float64 // distance of the layers from the middle
	weight   []float64
	last     float64 // curvature in the pinch, to start the next search from
	lead     float64 // mm from the pinch to where the sheet last touched the back roll
}

type section struct {
	plastic   []float64 // strain of each layer
	curvature float64   // as it is held now
}

func simulate(s Strip, m Machine, length, step float64, layers int) *simulation {
	sim := &simulation{strip: s, machine: m, step: step}
	for i := range layers {
		sim.at = append(sim.at, s.Thickness*((float64(i)+0.5)/float64(layers)-0.5))
		sim.weight = append(sim.weight, s.Thickness/float64(layers))
	}
	for range int(length/step) + 1 {
		sim.sections = append(sim.sections, section{plastic: make([]float64, layers)})
	}
	return sim
}

// moment returns the moment and the stiffness of a section at a curvature.
func (sim *simulation) moment(c *section, curvature float64) (moment, stiff float64) {
	for i, y := range sim.at {
		stress := sim.strip.Modulus * (curvature*y - c.plastic[i])
		if math.Abs(stress) > sim.strip.Yield {
			stress = math.Copysign(sim.strip.Yield, stress)
		} else {
			stiff += sim.strip.Modulus * y * y * sim.weight[i]
		}
		moment += stress * y * sim.weight[i]
	}
	return moment, stiff
}

// bend returns the curvature at which a section carries a moment, by Newton's method
// with halving; NaN if it carries it at none that is tighter than its thickness.
func (sim *simulation) bend(c *section, moment float64) float64 {
	limit := 1 / sim.strip.Thickness
	low, high, k := -limit, limit, c.curvature
	for range 200 {
		got, stiff := sim.moment(c, k)
		if math.Abs(got-moment) < 1e-9*sim.strip.PlasticMoment() {
			return k
		}
		if got < moment {
			low = k
		} else {
			high = k
		}
		if k += (moment - got) / stiff; !(k > low && k < high) {
			k = (low + high) / 2
		}
	}
	return math.NaN()
}

// settle writes the plastic strains down.
func (sim *simulation) settle(c *section) {
	for i, y := range sim.at {
		elastic := c.curvature*y - c.plastic[i]
		limit := sim.strip.Yield / sim.strip.Modulus
		if math.Abs(elastic) > limit {
			c.plastic[i] = c.curvature*y - math.Copysign(limit, elastic)
		}
	}
}

// run takes the strip through the rolls, the last section first. It is laid in so
// far that it lies over the back roll, which is brought up from the given lift over
// the first stretch that is fed: brought up at once it would fold sheet that does
// not harden in the pinch.
func (sim *simulation) run(from float64, set Setting) {
	const raise = 150 // mm fed
	in := int(math.Ceil(set.Lead/sim.step)) + 1
	for out := in; out < len(sim.sections); out++ {
		sim.hold(out, from+(set.Lift-from)*min(float64(out-in)*sim.step/raise, 1))
	}
	for i := range sim.sections {
		sim.sections[i].curvature = sim.bend(&sim.sections[i], 0)
	}
}

// hold brings the strip to rest with the given number of sections out of the pinch.
func (sim *simulation) hold(out int, lift float64) {
	free := sim.sections[len(sim.sections)-1-out:] // free[0] is in the pinch
	h := held{
		simulation: sim, free: free,
		levers: make([]float64, len(free)), curvatures: make([]float64, len(free)),
		x: make([]float64, len(free)), y: make([]float64, len(free)),
		cx: sim.machine.Distance - lift*math.Tan(sim.machine.Slant),
		cy: lift - sim.machine.Back - sim.strip.Thickness/2,
	}
	rest := sim.bend(&free[0], 0)
	if low, high := rest, rest+sim.strip.elastic()/4; h.gap(rest) < 0 {
		for h.gap(high) < 0 {
			low, high = high, high+sim.strip.elastic()
		}
		h.gap(root(h.gap, low, high, min(max(sim.last, low), high)))
		sim.last = h.curvatures[0]
		_, at, px, py := h.nearest()
		sim.lead = float64(at)*sim.step + math.Hypot(px-h.x[at], py-h.y[at])
	}
	for i := range free {
		free[i].curvature = h.curvatures[i]
		sim.settle(&free[i])
	}
}

// held is the part of a strip that is out of the pinch.
type held struct {
	*simulation
	free       []section
	levers     []float64 // of the force about each section, as a share of that about the pinch
	curvatures []float64
	x, y       []float64
	cx, cy     float64 // of the back roll
}

// gap returns how far the sheet stays off the roll if it has a curvature in the
// pinch.
func (h *held) gap(curvature float64) float64 {
	most, _ := h.moment(&h.free[0], curvature)
	gap := 0.0
	for range 50 {
		angle := 0.0
		h.curvatures[0] = curvature
		for i := range h.free[1:] {
			h.curvatures[i+1] = h.bend(&h.free[i+1], most*h.levers[i+1])
			turn := (h.curvatures[i] + h.curvatures[i+1]) / 2 * h.step
			sin, cos := math.Sincos(angle + turn/2)
			h.x[i+1], h.y[i+1] = h.x[i]+h.step*cos, h.y[i]+h.step*sin
			angle += turn
		}
		near, at, px, py := h.nearest()
		gap = near - h.machine.Back - h.strip.Thickness/2
		ux, uy := (px-h.cx)/near, (py-h.cy)/near
		whole := px*uy - py*ux
		change := 0.0
		for i := range h.free {
			lever := 0.0
			if i <= at && whole > 0 {
				lever = max(((px-h.x[i])*uy-(py-h.y[i])*ux)/whole, 0)
			}
			change = max(change, math.Abs(lever-h.levers[i]))
			h.levers[i] = lever
		}
		if change < 1e-7 {
			break
		}
	}
	return gap
}

// nearest returns the distance of the sheet's middle line from the roll's centre,
// and where on which of its stretches that is.
func (h *held) nearest() (distance float64, at int, px, py float64) {
	distance = math.Inf(1)
	for i := range h.free[1:] {
		dx, dy := h.x[i+1]-h.x[i], h.y[i+1]-h.y[i]
		u := min(max(((h.cx-h.x[i])*dx+(h.cy-h.y[i])*dy)/(dx*dx+dy*dy), 0), 1)
		if d := math.Hypot(h.x[i]+u*dx-h.cx, h.y[i]+u*dy-h.cy); d < distance {
			distance, at, px, py = d, i, h.x[i]+u*dx, h.y[i]+u*dy
		}
	}
	return distance, at, px, py
}

// turn turns the strip end for end.
func (sim *simulation) turn() { slices.Reverse(sim.sections) }

// A strip that goes through the rolls pass by pass, from both ends at each
// setting, comes out at the curvature that the setting is for: after the first
// pass on average within 1 %, at last within 0.2 %. A sheet without hardening
// ripples about that, by up to a quarter where the back roll was brought up in the
// first pass and by 6 % at last, since each section remembers how the one before
// it was bent. All of it is bent, its ends too: the flat that a run leaves at the
// end that goes in is bent when the sheet comes back.
func TestRolledNumerically(t *testing.T) {
	const (
		passing  = 0.01
		within   = 0.002
		ripples  = 0.06
		step     = 2.0
		unsteady = 10 // mm at the ends left out
	)
	for _, tt := range []struct {
		name    string
		strip   Strip
		machine Machine
		radius  float64
		length  float64
		passes  int
	}{
		{"tube", mild(), handRolls(0), 50, 260, 5},
		{"wide curve", mild(), handRolls(0), 300, 320, 3},
		{"slanted way, soft and thin", PlaneStrain(1, 160, 70e3, 0.33), handRolls(0.5), 90, 300, 3},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			sim := simulate(tt.strip, tt.machine, tt.length, step, 24)
			before := 0.0
			for i := 1; i <= tt.passes; i++ {
				set, err := tt.machine.Set(tt.strip, float64(i)/float64(tt.passes)/tt.radius)
				if err != nil {
					t.Fatal(err)
				}
				sim.run(before, set)
				sim.turn()
				sim.run(set.Lift, set)
				before = set.Lift
				if !near(sim.lead, set.Lead, 2*step/set.Lead) {
					t.Errorf("pass %d: the sheet touches the back roll %v mm after the pinch, want %v", i, sim.lead, set.Lead)
				}
				sum := 0.0
				inner := sim.sections[unsteady/step : len(sim.sections)-unsteady/step]
				for _, c := range inner {
					sum += c.curvature
					if i == tt.passes && !near(c.curvature, set.Released, ripples) {
						t.Errorf("a section is left at radius %.1f, want %.1f", 1/c.curvature, 1/set.Released)
					}
				}
				allowed := passing
				if i == tt.passes {
					allowed = within
				}
				if got := float64(len(inner)) / sum; !near(got, 1/set.Released, allowed) {
					t.Errorf("pass %d: left at radius %v in the mean, want %v", i, got, 1/set.Released)
				}
			}
		})
	}
}
