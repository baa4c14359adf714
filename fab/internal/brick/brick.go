// Package brick makes meshes of solid bricks for tests, and has CalculiX (ccx), a general
// finite-element solver, work them out.
package brick

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/external"
)

// A Mesh is bricks of 20 nodes (C3D20R). Nodes are numbered from 1; blocks that meet share
// those at the same place.
type Mesh struct {
	Nodes    []r3.Vec
	at       map[[3]int64]int
	elements [][20]int
}

// Find returns the node at a place, which it adds where there is none.
func (m *Mesh) Find(p r3.Vec) int {
	const grain = 1e5
	key := [3]int64{int64(math.Round(p.X * grain)), int64(math.Round(p.Y * grain)), int64(math.Round(p.Z * grain))}
	n, ok := m.at[key]
	if !ok {
		if m.at == nil {
			m.at = map[[3]int64]int{}
		}
		m.Nodes = append(m.Nodes, p)
		n = len(m.Nodes)
		m.at[key] = n
	}
	return n
}

// Where returns the nodes for which something holds.
func (m *Mesh) Where(holds func(p r3.Vec) bool) (list []int) {
	for i, p := range m.Nodes {
		if holds(p) {
			list = append(list, i+1)
		}
	}
	return list
}

// Block adds bricks: a, b and c are their corners and middles along each way.
func (m *Mesh) Block(a, b, c []float64, place func(a, b, c float64) r3.Vec) {
	for i := 0; i+2 < len(a); i += 2 {
		for j := 0; j+2 < len(b); j += 2 {
			for k := 0; k+2 < len(c); k += 2 {
				at := func(u, v, w int) r3.Vec { return place(a[i+u], b[j+v], c[k+w]) }
				origin := at(0, 0, 0)
				right := r3.Dot(r3.Cross(r3.Sub(at(2, 0, 0), origin), r3.Sub(at(0, 2, 0), origin)), r3.Sub(at(0, 0, 2), origin)) > 0
				var e [20]int
				for n, l := range [20][3]int{
					{0, 0, 0}, {2, 0, 0}, {2, 2, 0}, {0, 2, 0}, {0, 0, 2}, {2, 0, 2}, {2, 2, 2}, {0, 2, 2},
					{1, 0, 0}, {2, 1, 0}, {1, 2, 0}, {0, 1, 0}, {1, 0, 2}, {2, 1, 2}, {1, 2, 2}, {0, 1, 2},
					{0, 0, 1}, {2, 0, 1}, {2, 2, 1}, {0, 2, 1},
				} {
					if !right {
						l[2] = 2 - l[2]
					}
					e[n] = m.Find(at(l[0], l[1], l[2]))
				}
				m.elements = append(m.elements, e)
			}
		}
	}
}

// Steps returns corners and middles from one number to another, the first step so wide and each
// wider than the one before, up to a width.
func Steps(from, to, first, growth, most float64) []float64 {
	way, left := math.Copysign(1, to-from), math.Abs(to-from)
	var widths []float64
	sum := 0.0
	for w := first; sum < left; w = min(most, w*growth) {
		widths = append(widths, w)
		sum += w
	}
	list := []float64{from}
	for _, w := range widths {
		last := list[len(list)-1]
		next := last + way*w*left/sum
		list = append(list, (last+next)/2, next)
	}
	list[len(list)-1] = to
	return list
}

// Even returns n steps with their middles.
func Even(from, to float64, n int) (list []float64) {
	for i := range 2*n + 1 {
		list = append(list, from+(to-from)*float64(i)/float64(2*n))
	}
	return list
}

// A Hold is a movement that a node is given: of X, Y and Z 1 to 3, in mm.
type Hold struct {
	Node, Way int
	By        float64
}

// Steel is a metal of 200000 MPa that yields at a stress in MPa without hardening; at 0 it does
// not yield.
type Steel struct{ Yield float64 }

// Modulus is that of Steel in MPa.
const Modulus = 200e3

// An Answer is what the solver says at one increment.
type Answer struct {
	Share float64        // of the movements that is on
	Force map[int]r3.Vec // N, on the watched nodes
}

// Solve has the solver move the nodes and returns the forces on those that are watched. A metal
// that yields is moved in increments of a sixth at most. Where the solver is missing the test
// skips, or fails with STABILE_REFERENCE=required.
func (m *Mesh) Solve(t testing.TB, metal Steel, held []Hold, watch []int) []Answer {
	t.Helper()
	program := external.Tool(t, "ccx")
	dir := t.TempDir()
	path := filepath.Join(dir, "brick")
	if err := os.WriteFile(path+".inp", []byte(m.deck(metal, held, watch)), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program, "-i", "brick")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
	out, err := cmd.CombinedOutput()
	if err != nil {
		// What was printed before it stopped short still counts.
		t.Logf("ccx stopped short: %v", err)
	}
	text, err := os.ReadFile(path + ".dat")
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	answers := read(t, string(text))
	if len(answers) == 0 {
		t.Fatalf("ccx gave no answer: %s", out)
	}
	return answers
}

func (m *Mesh) deck(metal Steel, held []Hold, watch []int) string {
	var b strings.Builder
	b.WriteString("*NODE, NSET=ALL\n")
	for i, p := range m.Nodes {
		fmt.Fprintf(&b, "%d, %.10g, %.10g, %.10g\n", i+1, p.X, p.Y, p.Z)
	}
	b.WriteString("*ELEMENT, TYPE=C3D20R, ELSET=ALL\n")
	for i, e := range m.elements {
		fmt.Fprintf(&b, "%d", i+1)
		for k, n := range e {
			if k == 10 {
				b.WriteString(",\n")
				fmt.Fprintf(&b, "%d", n)
				continue
			}
			fmt.Fprintf(&b, ", %d", n)
		}
		b.WriteString("\n")
	}
	fmt.Fprintf(&b, "*MATERIAL, NAME=STEEL\n*ELASTIC\n%g, 0.3\n", float64(Modulus))
	if metal.Yield > 0 {
		fmt.Fprintf(&b, "*PLASTIC\n%g, 0.\n", metal.Yield)
	}
	b.WriteString("*SOLID SECTION, ELSET=ALL, MATERIAL=STEEL\n*NSET, NSET=WATCH\n")
	for _, n := range watch {
		fmt.Fprintf(&b, "%d,\n", n)
	}
	b.WriteString("*STEP, INC=200\n*STATIC\n")
	if metal.Yield > 0 {
		const most = 1. / 6
		fmt.Fprintf(&b, "%g, 1., 1e-4, %g\n", most/2, most)
	}
	b.WriteString("*BOUNDARY\n")
	for _, h := range held {
		fmt.Fprintf(&b, "%d, %d, %d, %.10g\n", h.Node, h.Way, h.Way, h.By)
	}
	b.WriteString("*NODE PRINT, NSET=WATCH\nRF\n*END STEP\n")
	return b.String()
}

// read reads the tables of forces.
func read(t testing.TB, text string) (answers []Answer) {
	t.Helper()
	number := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	for scan := bufio.NewScanner(strings.NewReader(text)); scan.Scan(); {
		line := strings.TrimSpace(scan.Text())
		fields := strings.Fields(line)
		switch {
		case strings.HasPrefix(line, "forces"):
			answers = append(answers, Answer{number(fields[len(fields)-1]), map[int]r3.Vec{}})
		case len(fields) == 4 && len(answers) > 0:
			n := int(number(fields[0]))
			answers[len(answers)-1].Force[n] = r3.Vec{X: number(fields[1]), Y: number(fields[2]), Z: number(fields[3])}
		}
	}
	return answers
}
