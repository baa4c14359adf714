package frame_test

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/param/design"
	"stabile/param/external"
)

// TestCalculix holds the frame against CalculiX (ccx), a general
// finite-element solver. What it is given is written from the frame's own bodies,
// beams and arms: posts as B32R beams with the PIPE section, several to each of
// ours; a stiff arm as a beam of the same kind that is much stiffer and weighs
// nothing; a ball as six masses at the ends of stiff arms, which together have
// the mass and the inertia of a thin shell; the clamped foot of a post as four
// stiff arms whose far ends are held in place, so that the forces there tell the
// moment too.
//
// Steel is given to it without Poisson's effect, but with its own shear modulus
// along each beam: the solver holds the shape of a section where beams meet, which
// would stiffen short beams by more than a per cent. What is left is mostly shear,
// of which its PIPE section carries more than the half of a thin tube's area that
// Cowper gives.

// slices is how many elements each beam of ours becomes.
const slices = 2

// stiffer is by how much the material of arms is stiffer than steel.
const stiffer = 1e4

// A deck is the input of the solver.
type deck struct {
	nodes   []r3.Vec
	body    strings.Builder
	element int
	sets    int
	loads   map[int]r3.Vec
	tubes   []string // names of element sets that weigh something
}

func (d *deck) node(at r3.Vec) int {
	d.nodes = append(d.nodes, at)
	return len(d.nodes)
}

// beam writes elements between two nodes, with a section of its own.
func (d *deck) beam(a, b, n int, section, material string) (nodes []int) {
	from, to := d.nodes[a-1], d.nodes[b-1]
	d.sets++
	set := "S" + strconv.Itoa(d.sets)
	fmt.Fprintf(&d.body, "*ELEMENT, TYPE=B32R, ELSET=%s\n", set)
	nodes = []int{a}
	for i := range n {
		middle := d.node(r3.Add(from, r3.Scale((float64(i)+0.5)/float64(n), r3.Sub(to, from))))
		end := b
		if i < n-1 {
			end = d.node(r3.Add(from, r3.Scale(float64(i+1)/float64(n), r3.Sub(to, from))))
		}
		d.element++
		fmt.Fprintf(&d.body, "%d, %d, %d, %d\n", d.element, nodes[len(nodes)-1], middle, end)
		nodes = append(nodes, middle, end)
	}
	u := r3.Unit(r3.Sub(to, from))
	across, _ := design.Tilt(u)
	fmt.Fprintf(&d.body, "*ORIENTATION, NAME=O%s\n%.12g, %.12g, %.12g, %.12g, %.12g, %.12g\n", set, u.X, u.Y, u.Z, across.X, across.Y, across.Z)
	fmt.Fprintf(&d.body, "*BEAM SECTION, ELSET=%s, MATERIAL=%s, ORIENTATION=O%s, %s\n%.12g, %.12g, %.12g\n", set, material, set, section, across.X, across.Y, across.Z)
	if material != "ARM" {
		d.tubes = append(d.tubes, set)
	}
	return nodes
}

func (d *deck) arm(a, b int) {
	d.beam(a, b, 1, "SECTION=RECT\n30., 30.", "ARM")
}

// load adds a force to a node.
func (d *deck) load(node int, force r3.Vec) { d.loads[node] = r3.Add(d.loads[node], force) }

// A reference is what the solver answers, and what it was asked.
type reference struct {
	moved       map[*design.Part]r3.Vec
	feet        map[*design.Part]frame.Wrench
	frequencies []float64
	took        time.Duration
}

// calculix writes a frame with the given even force on each part and its weight,
// runs the solver twice, and reads its answers.
func calculix(t testing.TB, f *frame.Frame, force map[*design.Part]r3.Vec) reference {
	t.Helper()
	program := external.Tool(t, "ccx")
	d := &deck{loads: map[int]r3.Vec{}}
	bodies := make([]int, len(f.Bodies))
	for i, b := range f.Bodies {
		if b.First >= 0 {
			bodies[i] = d.node(b.At)
		}
	}
	// The held ends of the arms below the foot of a post.
	held := map[*design.Part][]int{}
	var watched []*design.Part
	watch := map[*design.Part]int{}
	for i := range f.Posts {
		post := &f.Posts[i]
		own := make([]int, len(post.Stations))
		for k, s := range post.Stations {
			b := f.Bodies[s.Body]
			switch {
			case b.First < 0:
				own[k] = d.node(s.At)
				for _, out := range []r3.Vec{{X: 100}, {X: -100}, {Y: 100}, {Y: -100}} {
					end := d.node(r3.Add(s.At, out))
					d.arm(own[k], end)
					held[post.Part] = append(held[post.Part], end)
				}
			case r3.Norm(r3.Sub(s.At, b.At)) < 1e-9:
				own[k] = bodies[s.Body]
			default:
				own[k] = d.node(s.At)
				d.arm(own[k], bodies[s.Body])
			}
		}
		p := post.Part.Post
		whole := p.Length * (p.Ends[design.Foot].Diameter + p.Ends[design.Head].Diameter) / 2
		for k := range post.Beams() {
			from, to := post.Stations[k], post.Stations[k+1]
			pieces := 1
			if p.IsTaper() {
				pieces = 4
			}
			last := own[k]
			for j := range pieces {
				at := func(share float64) float64 { return from.Along + (to.Along-from.Along)*share/float64(pieces) }
				end := own[k+1]
				if j < pieces-1 {
					end = d.node(r3.Add(p.Ends[design.Foot].At, r3.Scale(at(float64(j+1)), p.Direction)))
				}
				diameter := p.DiameterAt(at(float64(j) + 0.5))
				section := fmt.Sprintf("SECTION=PIPE\n%.12g, %.12g", diameter/2, post.Part.Metal.Thickness)
				nodes := d.beam(last, end, slices, section, "STEEL")
				share := diameter * (at(1) - at(0)) / whole / slices
				for m := 0; m+2 < len(nodes); m += 2 {
					for q, w := range [3]float64{1. / 6, 4. / 6, 1. / 6} {
						d.load(nodes[m+q], r3.Scale(share*w, force[post.Part]))
					}
				}
				last = end
			}
		}
		watched = append(watched, post.Part)
		watch[post.Part] = own[len(own)-1]
	}
	for _, it := range f.Items {
		b := it.Part.Ball
		if b == nil || f.Body(it.Part).First < 0 {
			continue
		}
		center := bodies[f.BodiesOf(it.Part)[0]]
		if d := r3.Norm(r3.Sub(f.Body(it.Part).At, b.Center)); d > 1e-9 {
			t.Fatalf("%s is not at its body's point of reference", it.Part.Name)
		}
		watched = append(watched, it.Part)
		watch[it.Part] = center
		r := b.Radius - it.Part.Metal.Thickness/2
		d.sets++
		mass := "M" + strconv.Itoa(d.sets)
		for _, out := range []r3.Vec{{X: r}, {X: -r}, {Y: r}, {Y: -r}, {Z: r}, {Z: -r}} {
			end := d.node(r3.Add(b.Center, out))
			d.arm(center, end)
			d.element++
			fmt.Fprintf(&d.body, "*ELEMENT, TYPE=MASS, ELSET=%s\n%d, %d\n", mass, d.element, end)
		}
		fmt.Fprintf(&d.body, "*MASS, ELSET=%s\n%.12g\n", mass, it.Mass/6e3)
		d.load(center, r3.Add(force[it.Part], r3.Vec{Z: -9.80665 * it.Mass}))
	}

	dir := t.TempDir()
	var in strings.Builder
	fmt.Fprintf(&in, "*NODE, NSET=ALL\n")
	for i, n := range d.nodes {
		fmt.Fprintf(&in, "%d, %.12g, %.12g, %.12g\n", i+1, n.X, n.Y, n.Z)
	}
	fmt.Fprintf(&in, "*MATERIAL, NAME=STEEL\n*ELASTIC, TYPE=ENGINEERING CONSTANTS\n2.E5, 2.E5, 2.E5, 0., 0., 0., 76923.076923, 76923.076923\n76923.076923\n*DENSITY\n7.85E-9\n")
	fmt.Fprintf(&in, "*MATERIAL, NAME=ARM\n*ELASTIC\n%g, 0.3\n*DENSITY\n1.E-18\n", 200e3*stiffer)
	in.WriteString(d.body.String())
	in.WriteString("*NSET, NSET=WATCH\n")
	for _, p := range watched {
		fmt.Fprintf(&in, "%d,\n", watch[p])
	}
	in.WriteString("*NSET, NSET=HELD\n")
	for _, p := range watched {
		for _, n := range held[p] {
			fmt.Fprintf(&in, "%d,\n", n)
		}
	}
	in.WriteString("*BOUNDARY\nHELD, 1, 3\n")
	model := in.String()

	in.WriteString("*STEP\n*STATIC\n*CLOAD\n")
	for n := 1; n <= len(d.nodes); n++ {
		if l, ok := d.loads[n]; ok {
			fmt.Fprintf(&in, "%d, 1, %.12g\n%d, 2, %.12g\n%d, 3, %.12g\n", n, l.X, n, l.Y, n, l.Z)
		}
	}
	in.WriteString("*DLOAD\n")
	for _, set := range d.tubes {
		fmt.Fprintf(&in, "%s, GRAV, 9806.65, 0., 0., -1.\n", set)
	}
	in.WriteString("*NODE PRINT, NSET=WATCH\nU\n*NODE PRINT, NSET=HELD\nRF\n*END STEP\n")
	start := time.Now()
	static := run(t, program, dir, "static", in.String())
	modes := run(t, program, dir, "modes", model+"*STEP\n*FREQUENCY\n6\n*END STEP\n")

	ref := reference{moved: map[*design.Part]r3.Vec{}, feet: map[*design.Part]frame.Wrench{}, took: time.Since(start)}
	u, rf := table(static, "displacements"), table(static, "forces")
	for _, p := range watched {
		ref.moved[p] = u[watch[p]]
		var w frame.Wrench
		for _, n := range held[p] {
			w.Force = r3.Add(w.Force, rf[n])
			w.Moment = r3.Add(w.Moment, r3.Cross(d.nodes[n-1], rf[n]))
		}
		ref.feet[p] = w
	}
	ref.frequencies = eigenvalues(modes)
	return ref
}

// run runs the solver on an input and returns what it printed to its table file.
func run(t testing.TB, program, dir, name, input string) string {
	t.Helper()
	path := filepath.Join(dir, name)
	require.NoError(t, os.WriteFile(path+".inp", []byte(input), 0o600))
	cmd := exec.Command(program, "-i", name)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
	data, err := os.ReadFile(path + ".dat")
	require.NoError(t, err, string(out))
	return string(data)
}

// table reads the rows of three numbers under a heading that begins with a word.
func table(dat, heading string) map[int]r3.Vec {
	rows := map[int]r3.Vec{}
	on := false
	for scan := bufio.NewScanner(strings.NewReader(dat)); scan.Scan(); {
		line := strings.TrimSpace(scan.Text())
		fields := strings.Fields(line)
		switch {
		case strings.HasPrefix(line, heading):
			on = true
		case len(fields) == 4 && on:
			n, err := strconv.Atoi(fields[0])
			if err != nil {
				on = false
				continue
			}
			var v [3]float64
			for i := range v {
				v[i], _ = strconv.ParseFloat(fields[i+1], 64)
			}
			rows[n] = r3.Vec{X: v[0], Y: v[1], Z: v[2]}
		case line != "":
			on = false
		}
	}
	return rows
}

// eigenvalues reads the frequencies in Hz.
func eigenvalues(dat string) (list []float64) {
	for scan := bufio.NewScanner(strings.NewReader(dat)); scan.Scan(); {
		fields := strings.Fields(scan.Text())
		if len(fields) == 5 {
			if n, err := strconv.Atoi(fields[0]); err == nil && n == len(list)+1 {
				if hz, err := strconv.ParseFloat(fields[3], 64); err == nil {
					list = append(list, hz)
				}
			}
		}
	}
	return list
}
