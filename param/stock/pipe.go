package stock

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// A Pipe is a size of standard pipe, plain end.
type Pipe struct {
	NPS      string  // nominal pipe size, such as "1-1/2"
	DN       int     // the same size in the metric way
	Schedule string  // such as "40", "STD" or, of stainless pipe, "10S"
	Outside  float64 // mm
	Wall     float64 // mm
}

// String names the size: "NPS 2 schedule 40".
func (p Pipe) String() string {
	if p.Schedule == "STD" {
		return "NPS " + p.NPS + " STD"
	}
	return "NPS " + p.NPS + " schedule " + p.Schedule
}

// Standard returns the standard that gives the size.
func (p Pipe) Standard() string {
	if strings.HasSuffix(p.Schedule, "S") && p.Schedule != "XS" && p.Schedule != "XXS" {
		return "ASME B36.19M"
	}
	return "ASME B36.10M"
}

// Schedules are the names of walls, in the order of the columns of the two
// standards: first those of B36.10M, then those of B36.19M.
var (
	wroughtSchedules   = []string{"5", "10", "20", "30", "STD", "40", "60", "XS", "80", "100", "120", "140", "160", "XXS"}
	stainlessSchedules = []string{"5S", "10S", "40S", "80S"}
)

// Schedules returns the names of all walls: those of B36.10M, then those of B36.19M.
func Schedules() []string { return slices.Concat(wroughtSchedules, stainlessSchedules) }

// sizes are the pipes of ASME B36.10M and B36.19M from NPS 1/8 to 24, in inches: the
// outside, and the walls in the order of the schedules; 0 where a standard has none. The
// weights that B36.10M prints, in testdata, tell each row and column from the others.
var sizes = []struct {
	nps       string
	dn        int
	outside   float64
	wrought   [14]float64
	stainless [4]float64
}{
	{"1/8", 6, 0.405, [14]float64{0, .049, 0, .057, .068, .068, 0, .095, .095, 0, 0, 0, 0, 0}, [4]float64{0, .049, .068, .095}},
	{"1/4", 8, 0.540, [14]float64{0, .065, 0, .073, .088, .088, 0, .119, .119, 0, 0, 0, 0, 0}, [4]float64{0, .065, .088, .119}},
	{"3/8", 10, 0.675, [14]float64{0, .065, 0, .073, .091, .091, 0, .126, .126, 0, 0, 0, 0, 0}, [4]float64{0, .065, .091, .126}},
	{"1/2", 15, 0.840, [14]float64{.065, .083, 0, .095, .109, .109, 0, .147, .147, 0, 0, 0, .188, .294}, [4]float64{.065, .083, .109, .147}},
	{"3/4", 20, 1.050, [14]float64{.065, .083, 0, .095, .113, .113, 0, .154, .154, 0, 0, 0, .219, .308}, [4]float64{.065, .083, .113, .154}},
	{"1", 25, 1.315, [14]float64{.065, .109, 0, .114, .133, .133, 0, .179, .179, 0, 0, 0, .250, .358}, [4]float64{.065, .109, .133, .179}},
	{"1-1/4", 32, 1.660, [14]float64{.065, .109, 0, .117, .140, .140, 0, .191, .191, 0, 0, 0, .250, .382}, [4]float64{.065, .109, .140, .191}},
	{"1-1/2", 40, 1.900, [14]float64{.065, .109, 0, .125, .145, .145, 0, .200, .200, 0, 0, 0, .281, .400}, [4]float64{.065, .109, .145, .200}},
	{"2", 50, 2.375, [14]float64{.065, .109, 0, .125, .154, .154, 0, .218, .218, 0, 0, 0, .344, .436}, [4]float64{.065, .109, .154, .218}},
	{"2-1/2", 65, 2.875, [14]float64{.083, .120, 0, .188, .203, .203, 0, .276, .276, 0, 0, 0, .375, .552}, [4]float64{.083, .120, .203, .276}},
	{"3", 80, 3.500, [14]float64{.083, .120, 0, .188, .216, .216, 0, .300, .300, 0, 0, 0, .438, .600}, [4]float64{.083, .120, .216, .300}},
	{"3-1/2", 90, 4.000, [14]float64{.083, .120, 0, .188, .226, .226, 0, .318, .318, 0, 0, 0, 0, 0}, [4]float64{.083, .120, .226, .318}},
	{"4", 100, 4.500, [14]float64{.083, .120, 0, .188, .237, .237, 0, .337, .337, 0, .438, 0, .531, .674}, [4]float64{.083, .120, .237, .337}},
	{"5", 125, 5.563, [14]float64{.109, .134, 0, 0, .258, .258, 0, .375, .375, 0, .500, 0, .625, .750}, [4]float64{.109, .134, .258, .375}},
	{"6", 150, 6.625, [14]float64{.109, .134, 0, 0, .280, .280, 0, .432, .432, 0, .562, 0, .719, .864}, [4]float64{.109, .134, .280, .432}},
	{"8", 200, 8.625, [14]float64{.109, .148, .250, .277, .322, .322, .406, .500, .500, .594, .719, .812, .906, .875}, [4]float64{.109, .148, .322, .500}},
	{"10", 250, 10.750, [14]float64{.134, .165, .250, .307, .365, .365, .500, .500, .594, .719, .844, 1.000, 1.125, 1.000}, [4]float64{.134, .165, .365, .500}},
	{"12", 300, 12.750, [14]float64{.156, .180, .250, .330, .375, .406, .562, .500, .688, .844, 1.000, 1.125, 1.312, 1.000}, [4]float64{.156, .180, .375, .500}},
	{"14", 350, 14.000, [14]float64{0, .250, .312, .375, .375, .438, .594, .500, .750, .938, 1.094, 1.250, 1.406, 0}, [4]float64{.156, .188, 0, 0}},
	{"16", 400, 16.000, [14]float64{0, .250, .312, .375, .375, .500, .656, .500, .844, 1.031, 1.219, 1.438, 1.594, 0}, [4]float64{.165, .188, 0, 0}},
	{"18", 450, 18.000, [14]float64{0, .250, .312, .438, .375, .562, .750, .500, .938, 1.156, 1.375, 1.562, 1.781, 0}, [4]float64{.165, .188, 0, 0}},
	{"20", 500, 20.000, [14]float64{0, .250, .375, .500, .375, .594, .812, .500, 1.031, 1.281, 1.500, 1.750, 1.969, 0}, [4]float64{.188, .218, 0, 0}},
	{"24", 600, 24.000, [14]float64{0, .250, .375, .562, .375, .688, .969, .500, 1.219, 1.531, 1.812, 2.062, 2.344, 0}, [4]float64{.218, .250, 0, 0}},
}

var pipes = allPipes()

func allPipes() []Pipe {
	var list []Pipe
	for i := range sizes {
		s := &sizes[i]
		add := func(schedules []string, walls []float64) {
			for k, wall := range walls {
				if wall > 0 {
					list = append(list, Pipe{s.nps, s.dn, schedules[k], millimetres(s.outside), millimetres(wall)})
				}
			}
		}
		add(wroughtSchedules, s.wrought[:])
		add(stainlessSchedules, s.stainless[:])
	}
	return list
}

// millimetres converts inches to a millionth of a mm, as if by hand.
func millimetres(inches float64) float64 { return math.Round(inches*inch*1e6) / 1e6 }

// pipeSteel is the density in kg/m3 that the SI weight formula of B36.10M
// implies: 0.0246615 kg/m for each mm2 of (outside less wall) times wall.
const pipeSteel = 7850

// PipeTolerance is how far the weight of a pipe or tube may be off that of its nominal
// wall, as a share: what ASTM A53 allows by weight and A500 by wall. From memory.
const PipeTolerance = 0.1

// Pipes returns the standard sizes from the smallest up, each with its walls in the
// order of Schedules.
func Pipes() []Pipe { return slices.Clone(pipes) }

// PipeOf returns the pipe of a nominal size in inches and a schedule. It reports false
// where there is none.
func PipeOf(nps float64, schedule string) (Pipe, bool) {
	for _, p := range pipes {
		if p.Schedule == schedule && p.Nominal() == nps {
			return p, true
		}
	}
	return Pipe{}, false
}

// Nominal returns the nominal size as a number of inches.
func (p Pipe) Nominal() float64 { return nominal(p.NPS) }

// nominal reads a size such as "1-1/2".
func nominal(nps string) float64 {
	sum := 0.0
	for _, part := range strings.Split(nps, "-") {
		over, under, isFraction := strings.Cut(part, "/")
		x := digits(over)
		if isFraction {
			x /= digits(under)
		}
		sum += x
	}
	return sum
}

func digits(s string) float64 {
	n := 0.0
	for _, c := range s {
		n = 10*n + float64(c-'0')
	}
	return n
}

// PipeSizes returns the nominal sizes that a schedule has, from the smallest up.
func PipeSizes(schedule string) []string {
	var list []string
	for _, p := range pipes {
		if p.Schedule == schedule {
			list = append(list, p.NPS)
		}
	}
	return list
}

// PipeWalls returns the schedules that a nominal size in inches has; none where there is
// no such size.
func PipeWalls(nps float64) []Pipe {
	var list []Pipe
	for _, p := range pipes {
		if p.Nominal() == nps {
			list = append(list, p)
		}
	}
	return list
}

// Weight returns the weight in kg of a metre of the pipe, plain end: the area
// of its ring times the density of steel.
func (p Pipe) Weight() float64 {
	return math.Pi * (p.Outside - p.Wall) * p.Wall * pipeSteel * 1e-6
}

// everyday are the pipes that any yard has: of NPS 1 to 12 and of standard weight, which
// to NPS 10 is schedule 40, and of NPS 12 schedule 40 too. Common practice, no source.
var everyday = slices.DeleteFunc(slices.Clone(pipes), func(p Pipe) bool {
	n := p.Nominal()
	return n < 1 || n > 12 || p.Schedule != "40" && (n != 12 || p.Schedule != "STD")
})

// EverydayPipes returns the pipes that any yard has, from the smallest up.
func EverydayPipes() []Pipe { return slices.Clone(everyday) }

// NearestPipe returns, of those that any yard has, the pipe whose outside diameter is
// nearest to the given one in mm, the lighter where two walls share it.
func NearestPipe(outside float64) Pipe {
	return slices.MinFunc(everyday, func(a, b Pipe) int {
		return cmp.Compare(math.Abs(a.Outside-outside), math.Abs(b.Outside-outside))
	})
}
