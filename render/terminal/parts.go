package terminal

import (
	"fmt"
	"strconv"
	"strings"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/words"
)

// parts is the parts list, each part with the number that it has everywhere.
func (r *report) parts() {
	u := r.Design.Units
	host := hosts(r.Job)
	r.heading("Parts")
	t := table{columns: []column{
		{"No", true}, {"Name", false}, {"What", false}, {"Size", false}, {"Metal", false}, {"Weight", true},
	}}
	for i, p := range r.Parts {
		if p.Post != nil && p.Post.Ring != nil {
			if p.Part == p.Post.Ring.Tubes[0] {
				r.ring(&t, i, host[p.Part])
			}
			continue
		}
		weight := ""
		if p.Mass > 0 {
			weight = u.Weight(p.Mass)
		}
		t.add(false, strconv.Itoa(i+1), p.Name, what(u, p.Part, host[p.Part]), size(u, p.Part), sheet(u, p.Metal), weight)
	}
	if r.Mass.Weld > 0 {
		t.add(false, "", "", "weld metal", "", "", u.Weight(r.Mass.Weld))
	}
	t.add(true, "", "", "total", "", "", u.Weight(r.Mass.Total))
	r.table(t)
	for _, text := range roundnesses(u, r.Parts) {
		r.faint(margin, text)
	}
}

// ring adds the row of a ring, of whose tubes part i is the first.
func (r *report) ring(t *table, i int, host string) {
	u, of := r.Design.Units, r.Parts[i].Post.Ring
	var numbers []int
	var names []string
	mass := 0.0
	for k, p := range r.Parts {
		if p.Post != nil && p.Post.Ring == of {
			numbers, names, mass = append(numbers, k+1), append(names, p.Name), mass+p.Mass
		}
	}
	does := fmt.Sprintf("ring of %d tubes", len(of.Tubes))
	if host != "" {
		does += " on " + host
	}
	does += ", " + u.Length(of.Across, quantity.Fine) + " across"
	if of.Flat {
		does += ", level"
	} else {
		does += ", facing " + quantity.Bearing(design.BearingOf(of.Axis))
	}
	does += ", its corners " + u.Length(of.Corner(), quantity.Fine) + " out of round"
	t.add(false, words.Runs(numbers), words.Names(names), does, size(u, r.Parts[i].Part), sheet(u, r.Parts[i].Metal), u.Weight(mass))
}

// roundnesses says how round the balls come out: those of a true sphere together,
// and of the others by how much they are off.
func roundnesses(u quantity.System, parts []fab.Part) []string {
	var round, off []string
	shape := "sphere"
	var greatest, mean float64
	for _, p := range parts {
		if p.Ball != nil && p.Ball.IsEgg() {
			shape = "sphere or egg"
		}
		switch r := p.Round; {
		case r == nil || p.Ball == nil || p.Ball.Build == design.Bought:
		case r.Greatest == 0:
			round = append(round, p.Name)
		default:
			off = append(off, p.Name)
			greatest, mean = max(greatest, r.Greatest), max(mean, r.Mean)
		}
	}
	var lines []string
	if len(off) > 0 {
		lines = append(lines, fmt.Sprintf("Off the true "+shape+" by at most %s, on average up to %s: %s.", u.Exact(greatest), u.Exact(mean), words.Names(off)))
	}
	if len(round) > 0 {
		lines = append(lines, "A true "+shape+", where it is domed to that: "+words.Names(round)+".")
	}
	return lines
}

// hosts returns the name of what each part stands on.
func hosts(j *fab.Job) map[*design.Part]string {
	host := make(map[*design.Part]string, len(j.Parts))
	for i, p := range j.Design.Parts {
		if with := p.Host(); with != nil {
			host[p] = with.Name
		} else if j.Ties.OnGround(i) {
			host[p] = "the ground"
		}
	}
	return host
}

// weight is the whole: what it weighs, how large it is, where it balances.
func (r *report) weight() {
	u := r.Design.Units
	long := func(mm float64) string { return u.Length(mm, quantity.Coarse) }
	r.heading("The whole")
	t := table{columns: []column{{}, {}}}
	t.add(false, "weight", fmt.Sprintf("%s, between %s and %s by the tolerance of the sheet",
		u.Weight(r.Mass.Total), u.Weight(r.Mass.Low), u.Weight(r.Mass.High)))
	if r.Mass.Ballast > 0 {
		t.add(false, "ballast", u.Weight(r.Mass.Ballast)+" on the base, not counted in the weight")
	}
	if r.Mass.Block > 0 {
		t.add(false, "block", u.Weight(r.Mass.Block)+" under the plate, not counted in the weight")
	}
	t.add(false, "size", fmt.Sprintf("%s wide, %s deep, %s high",
		long(r.Size.Width), long(r.Size.Depth), long(r.Size.Height)))
	t.add(false, "balance", fmt.Sprintf("centre of gravity %s up, %s%s", long(r.CG.Z), r.aside(), r.ballastLeftOut()))
	r.table(t)
}

func (r *report) ballastLeftOut() string {
	if r.Mass.Block > 0 {
		return " (without the block)"
	}
	if r.Mass.Ballast > 0 {
		return " (without the ballast)"
	}
	return ""
}

// aside says how far from over the middle of the base the centre of gravity lies, and to
// which sides; of a piece on a wall, how far out of it.
func (r *report) aside() string {
	u, p := r.Design.Units, r.CG
	nothing := u.Length(0, quantity.Coarse)
	out := ""
	if r.Design.Wall() != nil {
		out, p.Y = u.Length(-p.Y, quantity.Coarse)+" out from the wall, ", 0
	}
	var sides []string
	for _, way := range []struct {
		mm         float64
		more, less string
	}{{p.X, "right", "left"}, {p.Y, "back", "front"}} {
		if way.mm < 0 {
			way.mm, way.more = -way.mm, way.less
		}
		if s := u.Length(way.mm, quantity.Coarse); s != nothing {
			sides = append(sides, s+" to the "+way.more)
		}
	}
	if len(sides) == 0 {
		if out != "" {
			return out + "in the middle"
		}
		return "over the middle"
	}
	return out + strings.Join(sides, " and ") + " of the middle"
}

// blanks lists the flat pieces to cut. Pieces of copies that are cut alike are
// listed together.
func (r *report) blanks() {
	u := r.Design.Units
	t := table{columns: []column{
		{"Piece", false}, {"How many", true}, {"Width", true}, {"Length", true}, {"Metal", false}, {"Forming", false}, {"Each", true},
	}}
	for _, c := range r.Cuts {
		b := &c.Blank
		for _, g := range r.groups(&c) {
			t.add(false, strings.Join(g.names, ", "), strconv.Itoa(g.pieces),
				u.Length(b.Width, quantity.Fine), u.Length(b.Length, quantity.Fine),
				sheet(u, b.Metal), forming(u, b), u.Weight(b.Mass))
		}
	}
	if len(t.rows) == 0 {
		return
	}
	r.heading("To cut")
	r.table(t)
	r.faint(margin, "Radii are to the middle of the sheet's thickness.")
}

// A group is pieces that are cut alike and whose names differ in the part alone.
type group struct {
	names  []string
	pieces int
}

// groups returns the pieces of a cut by what comes after their part's name, such
// as "gore".
func (r *report) groups(c *fab.Cut) []group {
	var list []group
	at := map[string]int{}
	for _, name := range c.Names {
		after := name
		for _, p := range c.Parts {
			if rest, ok := strings.CutPrefix(name, p); ok && (rest == "" || rest[0] == ' ') {
				after = rest
				break
			}
		}
		i, ok := at[after]
		if !ok {
			i = len(list)
			at[after] = i
			list = append(list, group{})
		}
		list[i].names = append(list[i].names, name)
		list[i].pieces += r.pieces(name, c)
	}
	for i := range list {
		list[i].names = words.Copies(list[i].names)
	}
	return list
}

// pieces returns how many pieces of a cut bear a name.
func (r *report) pieces(name string, c *fab.Cut) int {
	if len(c.Names) == 1 {
		return c.Quantity
	}
	n := 0
	for i := range r.Parts {
		for k := range r.Parts[i].Blanks {
			if b := &r.Parts[i].Blanks[k]; b.Name == name {
				n += b.Quantity
			}
		}
	}
	return n
}

// forming says what is done to a blank after it is cut.
func forming(u quantity.System, b *flat.Blank) string {
	s := b.Forming.How
	if s == "" || s == "flat" {
		return "stays flat"
	}
	if b.Bought != nil {
		return "sawn, not rolled"
	}
	if e := b.Forming.Egg; e[0] > 0 {
		s += " to the ellipse of " + u.Length(e[0], quantity.Fine) + " by " + u.Length(e[1], quantity.Fine)
	} else if b.Forming.MeanRadius > 0 {
		s += " to " + u.Length(b.Forming.MeanRadius, quantity.Fine)
	}
	if b.Forming.Crown > 0 {
		s += ", raise " + u.Length(b.Forming.Crown, quantity.Fine)
	}
	return s
}

// metals lists what the parts are made of, in the order of their first use.
func (r *report) metals() {
	u := r.Design.Units
	t := table{columns: []column{{}, {}, {}}}
	seen := make(map[string]bool)
	for _, p := range r.Parts {
		m := p.Metal
		if m == nil || seen[m.Name] {
			continue
		}
		seen[m.Name] = true
		thick := words.In(u).Gauge(m)
		if m.Tolerance > 0 {
			thick += ", give or take " + u.Exact(m.Tolerance)
		}
		t.add(false, m.Name, m.Alloy, thick)
	}
	if len(t.rows) == 0 {
		return
	}
	r.heading("Metal")
	r.table(t)
}
