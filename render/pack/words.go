package pack

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stabile/fab"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// size returns what a part measures, in the words of a note beside it.
func (k *pack) size(p *fab.Part) []string {
	switch {
	case p.Base != nil:
		lines := []string{k.baseSize(p)}
		if f := p.Base.Footing; f.Given() {
			lines = append(lines, "on a footing "+k.rule(f.Width)+" × "+k.rule(f.Depth)+" × "+k.rule(f.Height)+" deep")
		}
		return lines
	case p.Post != nil && p.Post.Ring != nil:
		return k.ringSize(p.Post.Ring)
	case p.Post != nil:
		post := p.Post
		s := "Ø" + k.fine(post.Ends[design.Foot].Diameter)
		switch {
		case post.IsPointed():
			s += " to a point"
		case post.IsTaper():
			s += " to Ø" + k.fine(post.Ends[design.Head].Diameter)
		}
		lines := []string{s + " × " + k.fine(post.Length)}
		if post.Sunk > 0 {
			lines = append(lines, "in concrete Ø"+k.rule(post.Pier)+" × "+k.rule(post.Sunk)+" deep")
		}
		switch {
		case p.StraightOut():
			lines = append(lines, "straight out")
		case post.Lean > 0:
			lines = append(lines, "lean "+degrees(post.Lean)+" toward "+bearing(post.LeanBearing))
		}
		if post.Offset > 0 {
			lines = append(lines, "foot "+k.rule(post.Offset)+" off centre toward "+bearing(post.OffsetBear))
		}
		return lines
	}
	ball := p.Ball
	lines := []string{"Ø" + k.fine(2*ball.Radius)}
	if ball.Bowl {
		lines = []string{"Ø" + k.fine(2*ball.RimRadius()) + ", " + k.fine(ball.Depth()) + " deep"}
		if tilt := math.Acos(max(-1, min(1, ball.Pole.Z))); tilt > 1e-9 {
			lines = append(lines, "tilt "+degrees(tilt)+" toward "+bearing(design.BearingOf(ball.Pole)))
		}
	}
	if ball.IsEgg() {
		lines = []string{"Ø" + k.fine(2*ball.Radius) + " × " + k.fine(ball.Tall) + " tall"}
		if lean := math.Acos(max(-1, min(1, ball.Pole.Z))); lean > 1e-9 {
			lines = append(lines, "pole "+degrees(lean)+" toward "+bearing(design.BearingOf(ball.Pole)))
		}
	}
	if ball.Offset > 0 {
		lines = append(lines, "centre "+k.rule(ball.Offset)+" off axis toward "+bearing(ball.OffsetBear))
	}
	return lines
}

func (k *pack) baseSize(p *fab.Part) string {
	b := p.Base
	switch b.Shape {
	case design.Plate:
		return k.fine(b.Width) + " × " + k.fine(b.Depth) + " × " + k.thickness(p.Metal)
	case design.Polygon:
		return fmt.Sprintf("%d sides in %s × %s × %s", len(b.Corners), k.fine(b.Width), k.fine(b.Depth), k.thickness(p.Metal))
	}
	return "Ø" + k.fine(b.Width) + " × " + k.thickness(p.Metal)
}

// thickness returns a metal's thickness in figures, without its unit.
func (k *pack) thickness(m *design.Metal) string {
	if m == nil {
		return "–"
	}
	return k.say().BareThickness(m.Thickness)
}

// metal returns a metal's alloy with its gauge or thickness and its unit.
func (k *pack) metal(m *design.Metal) string {
	if m == nil {
		return "–"
	}
	return strings.ReplaceAll(m.Alloy, "-", " ") + ", " + k.say().Gauge(m)
}

// what returns what a part is, in the trade's words.
func what(p *fab.Part) string {
	switch {
	case p.Base != nil:
		switch {
		case p.Base.Pad:
			return "pad"
		case p.Base.OnWall():
			return "wall plate"
		}
		if p.Base.Shape == design.Disc {
			return "round base plate"
		}
		return "base plate"
	case p.Post != nil:
		if bought := words.Bought(p.Post); bought != "" {
			return bought
		}
		switch {
		case p.Post.IsPointed():
			return "cone with a point"
		case p.Post.IsTaper():
			return "rolled taper"
		}
		return "rolled tube"
	}
	switch b := p.Ball; b.Build {
	case design.RolledGores:
		if b.IsEgg() {
			return fmt.Sprintf("egg, %d gores bent one way", b.Gores)
		}
		return fmt.Sprintf("%s, %d rolled gores", p.Kind(), b.Gores)
	case design.DomedGores:
		return fmt.Sprintf("%s, %d domed gores", words.Shape(p.Part), b.Gores)
	case design.Halves:
		if b.Bowl {
			return "bowl, dished"
		}
		return words.Shape(p.Part) + ", two halves"
	case design.Zones:
		return fmt.Sprintf("%s, %d zones", words.Shape(p.Part), b.Zones)
	}
	return "bought " + words.Shape(p.Part)
}

// degrees returns an angle with its sign.
func degrees(rad float64) string { return sign(quantity.Degrees(rad)) }

// bearing returns a bearing with its sign.
func bearing(rad float64) string { return sign(quantity.Bearing(rad)) }

func sign(s string) string { return strings.TrimSuffix(s, " deg") + "°" }

// forming returns what is done to a blank after it is cut.
func (k *pack) forming(b *flat.Blank) string {
	f := b.Forming
	switch f.How {
	case "saw":
		return "Wrap round the outside."
	case "roll":
		return fmt.Sprintf("Roll to a mean radius of %s, outside face out.", k.both(f.MeanRadius))
	case "cone":
		wide, narrow := max(f.Radii[0], f.Radii[1]), min(f.Radii[0], f.Radii[1])
		text := fmt.Sprintf("Roll to a cone: mean radius %s at the wide edge, %s at the narrow one, outside face out; the rolls lie along the bend lines, which point to the apex.",
			k.both(wide), k.both(narrow))
		if slices.ContainsFunc(k.job.Parts, func(p fab.Part) bool { return p.Ball != nil && p.Name == b.Part }) {
			text += " The wide edge lies toward the equator."
		}
		return text
	case "bend":
		return fmt.Sprintf("Bend one way, by hand: outside to the ellipse of %s by %s, %s high from tip to tip, mean radius %s at the equator and %s at the tips.",
			k.both(f.Egg[0]), k.both(f.Egg[1]), k.both(f.Bow), k.both(f.Bends[0]), k.both(f.Bends[1]))
	case "dome":
		if f.Egg[0] > 0 {
			return fmt.Sprintf("Dome: along it outside to the ellipse of %s by %s, %s high from tip to tip, mean radius %s at the equator and %s at the tips; raise the crown %s across the widest place; mean stretch %s.",
				k.both(f.Egg[0]), k.both(f.Egg[1]), k.both(f.Bow), k.both(f.Bends[0]), k.both(f.Bends[1]), k.both(f.Crown), k.say().PercentTenths(f.Stretch))
		}
		return fmt.Sprintf("Dome to a mean radius of %s; raise the crown %s across the widest place; mean stretch %s.",
			k.both(f.MeanRadius), k.both(f.Crown), k.say().PercentTenths(f.Stretch))
	case "dish":
		if f.Egg[0] > 0 {
			return fmt.Sprintf("Dish: outside to the ellipse of %s by %s, mean radius %s at the equator and %s at the pole.",
				k.both(f.Egg[0]), k.both(f.Egg[1]), k.both(f.Bends[0]), k.both(f.Bends[1]))
		}
		return fmt.Sprintf("Dish to a mean radius of %s.", k.both(f.MeanRadius))
	}
	return "Stays flat."
}

// sentence returns the words of a fact as a sentence of a sheet.
func (k *pack) sentence(f finding.Fact) string { return sentence(k.say().Fact(f)) }

// both returns a length of a flat as the rule reads it and as a decimal, with
// units; the decimal alone in mm work, where the rule reads the same.
func (k *pack) both(mm float64) string {
	if k.units == quantity.Inch {
		return k.fine(mm) + " in (" + k.units.Exact(mm) + ")"
	}
	return k.units.Length(mm, quantity.Fine)
}

// dim returns a length of a flat for a dimension: as the rule reads it, with
// the decimal in parentheses where that is another.
func (k *pack) dim(mm float64) string {
	text := k.fine(mm)
	if k.units != quantity.Inch {
		return text
	}
	if math.Abs(mm/25.4*32-math.Round(mm/25.4*32)) < 1e-3*32 {
		return text
	}
	return text + " (" + quantity.Decimal(mm/25.4, 3) + ")"
}

// nameRoom is the room, in mm, for a part's name in a table or beside a balloon;
// a longer one is cut short there, and whole on the sheets of its blanks.
const nameRoom = 45

// short returns a part's name, cut short where it is very long.
func short(name string) string { return sheet.Elide(name, nameRoom, sheet.Small, ink.Bold) }

// slugOf returns a name fit for a file.
func slugOf(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case 'a' <= r && r <= 'z' || '0' <= r && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	return strings.TrimSuffix(b.String(), "-")
}
