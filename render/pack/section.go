package pack

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// A removed section is drawn away from the posts that it is of.
type removed struct {
	diameter, wall float64 // mm
	size           string  // in words
	posts          []int   // numbers of the balloons
}

// Sizes of removed sections, in mm on paper.
const (
	largestRing = 24.0 // diameter of the largest
	ringReach   = 2.5  // of the centre lines beyond a ring
	ringColumn  = 44.0 // width of what is written under a ring, at most
	ringGap     = 6.0  // between two rings with their writing
)

// sections draws the true section of each leaning post on it, in the elevation
// where the post is seen nearest its true length and has room. Posts without room
// for it are kept to be shown beside the views.
func (g *general) sections() {
	for i := range g.job.Parts {
		p := &g.job.Parts[i]
		if p.Post == nil || p.Post.Lean == 0 || p.Metal == nil {
			continue
		}
		if r, _ := ringOf(p); r != nil {
			continue // its notes and the list of parts have its tubes' diameter
		}
		g.leaning++
		elevations := [2]draft.Projection{draft.Front, draft.Side}
		if math.Abs(p.Post.Direction.Y) > math.Abs(p.Post.Direction.X) {
			elevations = [2]draft.Projection{draft.Side, draft.Front}
		}
		on := slices.ContainsFunc(elevations[:], func(e draft.Projection) bool {
			return g.draw.Section(g.scene, g.lay.views[e], i, p.Metal.Thickness)
		})
		if on {
			g.revolved++
			continue
		}
		g.remove(i)
	}
}

// remove keeps a post's section, at the middle of its length, to be drawn with
// those of the posts that have the same.
func (g *general) remove(part int) {
	p := &g.job.Parts[part]
	r := removed{diameter: (p.Post.Ends[design.Foot].Diameter + p.Post.Ends[design.Head].Diameter) / 2, wall: p.Metal.Thickness}
	r.size = "Ø" + g.fine(r.diameter) + ", wall " + g.thickness(p.Metal)
	k := slices.IndexFunc(g.removed, func(o removed) bool { return o.size == r.size })
	if k < 0 {
		k = len(g.removed)
		g.removed = append(g.removed, r)
	}
	g.removed[k].posts = append(g.removed[k].posts, part+1)
}

// removedSections draws the sections that had no room on their posts, all to one
// scale, in rows where there is room among the views.
func (g *general) removedSections() {
	if len(g.removed) == 0 {
		return
	}
	largest := 0.0
	for _, r := range g.removed {
		largest = max(largest, r.diameter)
	}
	scale := sheet.ChooseScale(largest, largest, largestRing, largestRing, g.units)
	for _, columns := range [...]int{len(g.removed), 4, 3, 2, 1} {
		if columns > len(g.removed) {
			continue
		}
		s := g.sectionRows(scale, columns)
		if box, ok := g.spare.Room(s.width, s.height, spareRoom); ok {
			s.draw(g, box)
			return
		}
	}
	g.lost = true
}

// sectionRows are removed sections in rows of columns of one width.
type sectionRows struct {
	scale         sheet.Scale
	title         string
	cells         []sectionCell
	columns       int
	column        float64
	rows          []float64 // height of each
	width, height float64
}

type sectionCell struct {
	removed
	radius float64 // on paper
	lines  []string
}

func (g *general) sectionRows(scale sheet.Scale, columns int) *sectionRows {
	s := &sectionRows{scale: scale, columns: columns}
	for i, r := range g.removed {
		c := sectionCell{removed: r, radius: r.diameter / 2 * scale.Factor}
		c.lines = append(sheet.Wrap("No. "+words.Runs(r.posts), ringColumn, sheet.Small, ink.Bold), r.size)
		for k, line := range c.lines {
			face := ink.Bold
			if k == len(c.lines)-1 {
				face = ink.Regular
			}
			s.column = max(s.column, ink.Width(line, sheet.Small, face), 2*(c.radius+ringReach))
		}
		s.cells = append(s.cells, c)
		if i%columns == 0 {
			s.rows = append(s.rows, 0)
		}
		row := &s.rows[len(s.rows)-1]
		*row = max(*row, 2*(c.radius+ringReach)+2+float64(len(c.lines))*sheet.LineHeight(sheet.Small))
	}
	s.width = float64(columns)*(s.column+ringGap) - ringGap
	s.title = "Sections at mid length, " + scale.Name
	s.width = max(s.width, ink.Width(s.title, sheet.Medium, ink.Bold))
	s.height = sheet.Medium + 3
	for _, h := range s.rows {
		s.height += h + 2
	}
	return s
}

func (s *sectionRows) draw(g *general, box r2.Box) {
	d := draft.New(g.style, box)
	d.Put(&ink.Text{At: r2.Vec{X: box.Min.X, Y: box.Max.Y - sheet.Medium}, Height: sheet.Medium, Face: ink.Bold, Text: s.title})
	top := box.Max.Y - sheet.Medium - 3
	for i, c := range s.cells {
		if i > 0 && i%s.columns == 0 {
			top -= s.rows[i/s.columns-1] + 2
		}
		x := box.Min.X + s.column/2 + float64(i%s.columns)*(s.column+ringGap)
		y := top - c.radius - ringReach
		d.RemovedSection(r2.Vec{X: x, Y: y}, c.radius, c.wall*s.scale.Factor)
		y -= c.radius + ringReach + 2 + sheet.Small
		for k, line := range c.lines {
			face := ink.Bold
			if k == len(c.lines)-1 {
				face = ink.Regular
			}
			d.Put(&ink.Text{At: r2.Vec{X: x, Y: y}, Height: sheet.Small, Anchor: ink.Middle, Face: face, Text: line})
			y -= sheet.LineHeight(sheet.Small)
		}
	}
	g.draw.Items = append(g.draw.Items, d.Items...)
}

// sectionWords says how leaning posts are shown in section.
func (g *general) sectionWords() string {
	switch {
	case g.leaning == 0:
		return ""
	case g.lost && g.revolved == 0:
		return "Leaning posts are round, square to their axis."
	case g.lost:
		return "Sections of leaning posts, where shown, are true."
	case len(g.removed) == 0:
		return "Sections of leaning posts are true, revolved."
	}
	return "Sections of leaning posts are true."
}
