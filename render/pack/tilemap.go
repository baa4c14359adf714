package pack

import (
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/sheet"
)

// drawMap draws the tiles and the piece on them, small; one tile may be shaded.
// In a named map the tiles have their names.
func (g *tiling) drawMap(s *ink.Sheet, area r2.Box, named bool, row, column int) {
	first, last := g.box(g.rows-1, 0), g.box(0, g.columns-1)
	whole := r2.Box{Min: first.Min, Max: last.Max}
	f := min((area.Max.X-area.Min.X)/(whole.Max.X-whole.Min.X), (area.Max.Y-area.Min.Y)/(whole.Max.Y-whole.Min.Y))
	corner := r2.Vec{X: area.Max.X - (whole.Max.X-whole.Min.X)*f, Y: area.Max.Y - (whole.Max.Y-whole.Min.Y)*f}
	at := func(q r2.Vec) r2.Vec { return r2.Add(corner, r2.Scale(f, r2.Sub(q, whole.Min))) }
	cell := func(r, c int) []r2.Vec {
		b := g.core(r, c)
		lo, hi := at(b.Min), at(b.Max)
		return []r2.Vec{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}
	}
	if g.has(row, column) {
		s.Add(&ink.Fill{Path: cell(row, column), Shade: 0.8})
	}
	var around room
	for r := range g.rows {
		for c := range g.columns {
			if g.has(r, c) {
				s.Add(&ink.Stroke{Line: ink.Rule, Path: cell(r, c), Closed: true})
			}
		}
	}
	for _, item := range g.lines {
		var line ink.Item
		switch it := item.(type) {
		case *ink.Stroke:
			if it.Group != cutGroup {
				continue
			}
			line = &ink.Stroke{Line: ink.Thin, Path: thinned(it.Path, at), Closed: it.Closed}
		case *ink.Arc:
			a := *it
			a.Line, a.Group, a.Center, a.Radius = ink.Thin, "", at(it.Center), it.Radius*f
			line = &a
		}
		s.Add(line)
		around.add(line)
	}
	if named {
		g.nameTiles(s, &around, cell)
	}
}

// nameTiles writes the names of the tiles of a map in their cells.
func (g *tiling) nameTiles(s *ink.Sheet, around *room, cell func(r, c int) []r2.Vec) {
	for r := range g.rows {
		for c := range g.columns {
			if !g.has(r, c) {
				continue
			}
			lo, hi := bounds(cell(r, c))
			inner := sheet.Box(lo.X+0.4, lo.Y+0.4, hi.X-0.4, hi.Y-0.4)
			around.write(s, inner, func(yield func(*ink.Text) bool) {
				for _, v := range [...]float64{0.5, 0.25, 0.75, 0.1, 0.9} {
					for _, u := range [...]float64{0.5, 0.25, 0.75, 0.1, 0.9} {
						t := &ink.Text{Height: sheet.Small, Anchor: ink.Middle, Text: tileName(r, c)}
						t.At = r2.Vec{X: lo.X + u*(hi.X-lo.X), Y: lo.Y + v*(hi.Y-lo.Y) - sheet.Small/2}
						if !yield(t) {
							return
						}
					}
				}
			})
		}
	}
}

// thinned returns a path on a map, without points too near to be distinguished.
func thinned(path []r2.Vec, at func(r2.Vec) r2.Vec) []r2.Vec {
	const apart = 0.1 // mm
	var out []r2.Vec
	for i, q := range path {
		p := at(q)
		if n := len(out); n > 0 && i < len(path)-1 && r2.Norm(r2.Sub(p, out[n-1])) < apart {
			continue
		}
		out = append(out, p)
	}
	return out
}

// Measures of the maps on the first sheet, in mm.
const (
	leastCell = 9.0 // the side of a tile, for its name
	leastMap  = 35.0
	mapGap    = 8.0 // between maps, and under their names
)

// maps draws the map of each piece that has several tiles, in rows.
func (k *pack) maps(f *sheet.Flow, all []*tiling) {
	var list []tileMap
	for _, g := range all {
		if g.count() > 1 {
			list = append(list, g.newMap())
		}
	}
	if len(list) == 0 {
		return
	}
	f.Need(4*sheet.Medium + list[0].caption() + list[0].height) // the heading stays with the first row
	f.Heading("Which tile goes where")
	for len(list) > 0 {
		_, box := f.Rest()
		n, width, height, caption := 0, 0.0, 0.0, 0.0
		for n < len(list) && (n == 0 || width+list[n].width <= box.Max.X-box.Min.X) {
			width += list[n].width + mapGap
			height, caption = max(height, list[n].height), max(caption, list[n].caption())
			n++
		}
		height += caption
		f.Need(height)
		s, box := f.Rest()
		x := box.Min.X
		for _, m := range list[:n] {
			for i, line := range m.names {
				s.Add(&ink.Text{At: r2.Vec{X: x, Y: box.Max.Y - sheet.Small - float64(i)*sheet.LineHeight(sheet.Small)}, Height: sheet.Small, Face: ink.Bold, Text: line})
			}
			top := box.Max.Y - caption
			m.drawMap(s, sheet.Box(x, top-m.height, x+m.mapped, top), true, -1, -1)
			x += m.width + mapGap
		}
		f.Take(height)
		f.Gap(mapGap)
		list = list[n:]
	}
}

// A tileMap is a map on the first sheet with its name over it.
type tileMap struct {
	*tiling
	names          []string // of the pieces, in lines
	mapped, height float64  // of the map, mm
	width          float64  // of map and names
}

// caption is how high the names over the map stand.
func (m *tileMap) caption() float64 {
	return sheet.Small + float64(len(m.names)-1)*sheet.LineHeight(sheet.Small) + 3
}

// newMap returns the map in the size at which the tiles can be named, as far as
// it goes on a sheet.
func (g *tiling) newMap() tileMap {
	cell := r2.Sub(g.window.Max, g.window.Min)
	w, h := g.pitch.X*float64(g.columns-1)+cell.X, g.pitch.Y*float64(g.rows-1)+cell.Y
	f := max(leastCell/min(g.pitch.X, g.pitch.Y), leastMap/max(w, h))
	f = min(f, 150/w, 170/h)
	m := tileMap{tiling: g, mapped: w * f, height: h * f}
	m.names = sheet.Wrap(pieces(g.cut), max(m.mapped, nameRoom), sheet.Small, ink.Bold)
	m.width = m.mapped
	for _, line := range m.names {
		m.width = max(m.width, ink.Width(line, sheet.Small, ink.Bold))
	}
	return m
}
