package wind

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// A Slender is what gusts depend on in a piece that swings.
type Slender struct {
	Height    float64 // mm
	Width     float64 // mm, across the wind
	Depth     float64 // mm, along it; only ASCE 7 uses it
	Frequency float64 // Hz, the lowest along the wind
}

func (s Slender) check() error {
	return domain.Check(domain.Length("height", s.Height), domain.Length("width", s.Width), domain.Distance("depth", s.Depth),
		domain.Frequency("frequency", s.Frequency))
}

// SteelDamping is the logarithmic decrement delta_s of a welded steel stack without
// lining, EN 1991-1-4 Table F.2 (from memory), the least that a welded sculpture can
// be expected to have.
const SteelDamping = 0.012

// A GustEN is c_s c_d of EN 1991-1-4 Annex B with its terms, in its symbols and in m
// where the standard has m.
type GustEN struct {
	Zs     float64 // m, reference height
	Vm     float64 // m/s, mean wind there
	Iv     float64 // turbulence intensity there
	L      float64 // m, turbulence length
	FL     float64 // f_L, frequency times L over v_m
	SL     float64 // S_L, spectral density
	B2     float64 // background
	DeltaA float64 // decrement by the air
	Delta  float64 // in all
	Rh, Rb float64 // admittance by height and width
	R2     float64 // resonance
	Nu     float64 // Hz, up-crossings
	Kp     float64 // peak factor
	Cs, Cd float64
	CsCd   float64
	Rigid  bool // c_s c_d = 1 may be taken: see there
}

// GustByAnnexB returns c_s c_d of EN 1991-1-4 (6.1) by Annex B, for a terrain category,
// a basic wind velocity in m/s, the equivalent mass per length m_e in kg/m, the force
// coefficient c_f and the logarithmic decrement of the structure and of dampers on it,
// delta_s + delta_d:
//
//	L    = 300 (z / 200)^(0.67 + 0.05 ln z0), z = 0.6 h, at least z_min   (B.1)
//	S_L  = 6.8 f_L / (1 + 10.2 f_L)^(5/3)                                 (B.2)
//	B2   = 1 / (1 + 0.9 ((b + h) / L)^0.63)                               (B.3)
//	R2   = pi2 S_L R_h R_b / (2 delta)                                    (B.6)
//	nu   = n sqrt(R2 / (B2 + R2)), at least 0.08 Hz                       (B.5)
//	k_p  = sqrt(2 ln 600 nu) + 0.6 / sqrt(2 ln 600 nu), at least 3        (B.4)
//	c_s  = (1 + 7 I_v B) / (1 + 7 I_v)                                    (6.2)
//	c_d  = (1 + 2 k_p I_v sqrt(B2 + R2)) / (1 + 7 I_v B)                  (6.3)
//
// and delta_a = c_f rho b v_m / (2 n m_e), (F.18).
//
// c_s c_d = 1 of 6.2 (1) is for buildings and stacks. Rigid is set where common practice
// (no source) takes it for a sculpture too: lower than 6.5 times its width and above
// 5 Hz.
func GustByAnnexB(s Slender, terrain string, speed, mass, coefficient, damping float64) (GustEN, error) {
	fail := func(err error) (GustEN, error) { return GustEN{}, fmt.Errorf("gusts: %w", err) }
	e, err := newEurocode(terrain, speed)
	if err != nil {
		return fail(err)
	}
	if err := s.check(); err != nil {
		return fail(err)
	}
	if err := domain.Check(domain.Speed("wind", speed), domain.Value{Name: "mass per length", X: mass, Least: 1e-3, Most: 1e9},
		domain.Value{Name: "force coefficient", X: coefficient, Most: 100}, domain.Value{Name: "damping", X: damping, Least: 1e-4, Most: 10}); err != nil {
		return fail(err)
	}
	h, b, n := s.Height/1e3, s.Width/1e3, s.Frequency
	var g GustEN
	g.Zs = max(0.6*h, e.terrain.low)
	p := e.pressure(1e3 * g.Zs)
	g.Vm, g.Iv = p.Mean, p.Turbulence
	g.L = 300 * math.Pow(g.Zs/200, 0.67+0.05*math.Log(e.terrain.length))
	g.FL = n * g.L / g.Vm
	g.SL = SpectralDensity(g.FL)
	g.B2 = 1 / (1 + 0.9*math.Pow((b+h)/g.L, 0.63))
	g.DeltaA = coefficient * euDensity * b * g.Vm / (2 * n * mass)
	g.Delta = damping + g.DeltaA
	g.Rh, g.Rb = Admittance(4.6*h*g.FL/g.L), Admittance(4.6*b*g.FL/g.L)
	g.R2 = math.Pi * math.Pi * g.SL * g.Rh * g.Rb / (2 * g.Delta)
	g.Nu = max(0.08, n*math.Sqrt(g.R2/(g.B2+g.R2)))
	root := math.Sqrt(2 * math.Log(600*g.Nu))
	g.Kp = max(3, root+0.6/root)
	steady := 1 + 7*g.Iv*math.Sqrt(g.B2)
	g.Cs = steady / (1 + 7*g.Iv)
	g.Cd = (1 + 2*g.Kp*g.Iv*math.Sqrt(g.B2+g.R2)) / steady
	g.CsCd = g.Cs * g.Cd
	g.Rigid = h < 6.5*b && n > 5
	return g, nil
}

// SpectralDensity returns S_L of EN 1991-1-4 (B.2) for f_L.
func SpectralDensity(f float64) float64 {
	f = max(0, f)
	return 6.8 * f / math.Pow(1+10.2*f, 5./3)
}

// Admittance returns 1/eta - (1 - e^(-2 eta)) / (2 eta2), which is 1 at eta 0: R_h and
// R_b of EN 1991-1-4 (B.7) and (B.8), R_h, R_B and R_L of ASCE 7 (26.11-15).
func Admittance(eta float64) float64 {
	// Near 0 the difference loses its digits, and its series stands in.
	const small = 1e-3
	if !(eta > small) {
		eta = max(0, eta)
		return 1 - eta*(2./3-eta*(1./3-eta*2/15))
	}
	return 1/eta - (1-math.Exp(-2*eta))/(2*eta*eta)
}

// A GustASCE is the gust effect factor of ASCE 7 26.11 with its terms, in its symbols;
// lengths in ft and speeds in ft/s, as the standard has them.
type GustASCE struct {
	Z        float64 // ft, equivalent height
	Iz       float64 // intensity of turbulence
	Lz       float64 // ft, integral length scale
	Q        float64 // background response
	Vz       float64 // ft/s, mean hourly wind
	N1       float64 // reduced frequency
	Rn       float64
	Rh       float64
	RB       float64
	RL       float64
	R        float64 // resonant response
	GR       float64 // g_R, peak factor of the resonance
	Rigid    float64 // G of a rigid structure, 26.11.4
	Flexible float64 // G_f, 26.11.5
	G        float64 // Flexible below 1 Hz; else the greater of Rigid and 0.85, see there
}

// gusty are the constants of ASCE 7 Table 26.11-1, of gusts and of the mean of an hour; low
// is in ft.
var gusty = map[string]struct{ c, l, e, alpha, b, low float64 }{
	"B": {0.30, 320, 1. / 3, 1. / 4, 0.45, 30},
	"C": {0.20, 500, 1. / 5, 1 / 6.5, 0.65, 15},
	"D": {0.15, 650, 1. / 8, 1. / 9, 0.80, 7},
}

// Gust returns the gust effect factor of ASCE 7 26.11 for an exposure, a basic wind
// speed in m/s and a damping ratio beta (see WeldedDamping):
//
//	I_z = c (33 / z)^(1/6),  L_z = l (z / 33)^e,  z = 0.6 h, at least z_min
//	Q2  = 1 / (1 + 0.63 ((B + h) / L_z)^0.63)
//	G   = 0.925 (1 + 1.7 x 3.4 I_z Q) / (1 + 1.7 x 3.4 I_z)
//	R2  = R_n R_h R_B (0.53 + 0.47 R_L) / beta,  R_n = 7.47 N / (1 + 10.3 N)^(5/3)
//	G_f = 0.925 (1 + 1.7 I_z sqrt(3.4^2 Q2 + g_R2 R2)) / (1 + 1.7 x 3.4 I_z)
//
// A structure of 1 Hz or more is rigid, and 0.85 may be taken for it, 26.11.1. The
// formula for it gives more for a small piece: G takes the greater.
func Gust(s Slender, exposure string, speed, damping float64) (GustASCE, error) {
	fail := func(err error) (GustASCE, error) { return GustASCE{}, fmt.Errorf("gusts: %w", err) }
	x, ok := gusty[exposure]
	if !ok {
		return fail(fmt.Errorf("exposure %q is not known; there are B, C and D", exposure))
	}
	if err := s.check(); err != nil {
		return fail(err)
	}
	if err := domain.Check(domain.Speed("wind", speed), domain.Value{Name: "damping", X: damping, Least: 1e-4, Most: 1}); err != nil {
		return fail(err)
	}
	const peak = 3.4 // g_Q and g_v
	h, across, along, n := s.Height/foot, s.Width/foot, s.Depth/foot, s.Frequency
	var g GustASCE
	g.Z = max(0.6*h, x.low)
	g.Iz = x.c * math.Pow(33/g.Z, 1./6)
	g.Lz = x.l * math.Pow(g.Z/33, x.e)
	g.Q = math.Sqrt(1 / (1 + 0.63*math.Pow((across+h)/g.Lz, 0.63)))
	g.Vz = x.b * math.Pow(g.Z/33, x.alpha) * speed / (foot / 1e3)
	g.N1 = n * g.Lz / g.Vz
	g.Rn = 7.47 * g.N1 / math.Pow(1+10.3*g.N1, 5./3)
	g.Rh, g.RB, g.RL = Admittance(4.6*n*h/g.Vz), Admittance(4.6*n*across/g.Vz), Admittance(15.4*n*along/g.Vz)
	g.R = math.Sqrt(g.Rn * g.Rh * g.RB * (0.53 + 0.47*g.RL) / damping)
	root := math.Sqrt(2 * math.Log(3600*n))
	g.GR = root + 0.577/root
	under := 1 + 1.7*peak*g.Iz
	g.Rigid = 0.925 * (1 + 1.7*peak*g.Iz*g.Q) / under
	g.Flexible = 0.925 * (1 + 1.7*g.Iz*math.Sqrt(peak*peak*g.Q*g.Q+g.GR*g.GR*g.R*g.R)) / under
	g.G = max(asceGust, g.Rigid)
	if n < 1 {
		g.G = g.Flexible
	}
	return g, nil
}

// The damping ratios of ASCE 7 C26.11 (from memory).
const (
	FramedDamping = 0.01  // steel in general
	WeldedDamping = 0.005 // bare welded steel
)
