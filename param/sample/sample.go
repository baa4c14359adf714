// Package sample writes random designs, for tests.
package sample

import (
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"strings"
)

// Text writes a design that has a fair chance to be sound.
func Text(rnd *rand.Rand) string {
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	pick := func(list ...string) string { return list[rnd.IntN(len(list))] }
	var b strings.Builder
	fmt.Fprintf(&b, "units %s\n", pick("mm", "inch"))
	b.WriteString("metal skin { alloy low-carbon-steel, gauge 18 }\nmetal slab { alloy low-carbon-steel, thickness 8 mm }\n")
	base := pick("plate 700 mm by 500 mm, metal slab", "disc 600 mm, metal slab", "feet",
		"plate 700 mm by 500 mm, metal slab, ballast 30 kg, anchors 4, anchor_diameter 10 mm, anchor_edge 30 mm",
		"disc 600 mm, metal slab, anchors 5, anchor_diameter 10 mm, anchor_edge 30 mm, anchor_depth 100 mm, block 700 mm by 620 mm by 240 mm, block_material limestone")
	onFeet := base == "feet"
	head := b.Len()
	fmt.Fprintf(&b, "base pad { %s }\n", base)
	build := func() string {
		return pick("halves", "gores 6", "gores 11", "gores 8, bend domed", "gores 12, caps 30 mm", "bought 2 kg", "gores 9, bend domed, caps 40 mm", "gores 8, caps 60 mm, 30 mm")
	}
	for i := range 1 + rnd.IntN(3) {
		x, y := float64(i)*220-220, between(-80, 80)
		if rnd.IntN(5) == 0 {
			fmt.Fprintf(&b, "ball s%d on pad { at (%.3f mm, %.3f mm), diameter %.2f mm, %s, metal skin }\n", i, x, y, between(60, 180), build())
			continue
		}
		made, cut := fmt.Sprintf("diameter %.2f mm", between(30, 90)), courses(y)
		if pointed(y) {
			cut, _, _ = strings.Cut(cut, "gap")
			fmt.Fprintf(&b, "post p%d on pad { at (%.3f mm, %.3f mm), %s to 0, length %.2f mm, lean %.2f deg toward %.2f deg, %smetal skin }\n",
				i, x, y, made, between(100, 600), max(0, between(-10, 15)), between(0, 360), cut)
			continue
		}
		switch rnd.IntN(6) {
		case 0:
			made, cut = "bought pipe "+pick("1-1/4", "2", "3")+" schedule "+pick("40", "80", "10S"), ""
		case 1:
			made, cut = made+fmt.Sprintf(", bought tube, wall %.2f mm, stock 3 m, price 9 / 1 m", between(1.5, 6)), ""
		}
		fmt.Fprintf(&b, "post p%d on pad { at (%.3f mm, %.3f mm), %s, length %.2f mm, lean %.2f deg toward %.2f deg, head %s, %smetal skin }\n",
			i, x, y, made, between(100, 600), max(0, between(-10, 15)), between(0, 360), pick("open", "disc"), held(y, onFeet)+cut)
		b.WriteString(holes(i, "p", "at %.2f mm toward %.2f deg", y, 40, 80))
		if rnd.IntN(4) == 0 {
			continue
		}
		if bowl := bowled(y, i); bowl != "" {
			b.WriteString(bowl)
			continue
		}
		egg := egged(y)
		fmt.Fprintf(&b, "ball b%d on p%d { diameter %.2f mm, %soffset %.2f mm toward %.2f deg, %s, metal skin }\n", i, i, between(120, 200), egg, max(0, between(-5, 10)), between(0, 360), build())
		if egg == "" {
			b.WriteString(holes(i, "b", "up %.2f deg, toward %.2f deg", y, -20, 20))
		}
		if rnd.IntN(2) == 0 {
			fmt.Fprintf(&b, "post q%d on b%d { diameter %.2f mm, length %.2f mm, offset %.2f mm toward %.2f deg, lean %.2f deg toward %.2f deg, metal skin }\n",
				i, i, between(20, 40), between(80, 200), between(0, 25), between(0, 360), between(0, 20), between(0, 360))
		}
	}
	if rnd.IntN(4) == 0 { // a frame that closes, behind the rest
		wide := between(20, 60)
		for i, name := range []string{"left", "right"} {
			fmt.Fprintf(&b, "post %s on pad { at (%d mm, 190 mm), diameter %.2f mm, length %.2f mm, lean %.2f deg toward 90 deg, metal skin }\n",
				name, 260*i-130, wide, between(200, 700), between(0, 12))
		}
		fmt.Fprintf(&b, "post lintel from left.head to right.head { diameter %.2f mm, metal skin }\n", wide)
		// A rung or a brace in it, drawn from its width so that the rest stays as it is.
		if r := rand.New(rand.NewPCG(math.Float64bits(wide), 2)); r.IntN(2) == 0 {
			fmt.Fprintf(&b, "post rung from left at %.2f mm to right at %.2f mm { diameter %.2f mm, metal skin }\n",
				60+90*r.Float64(), 60+90*r.Float64(), wide*(0.3+0.5*r.Float64()))
		}
	}
	b.WriteString(ringed(b.Len()))
	fmt.Fprint(&b, pick("", "site { push 50 N at 700 mm }\n", "site { slope 5 deg }\n", "site { push 200 N at 3 m, slope 3 deg }\n"))
	fmt.Fprint(&b, pick("", "require tipping >= 1.5\n", "require weight <= 20 kg\nrequire height <= 1 m\n"))
	// Some hang on a wall instead, by what was drawn, so that the others stay as they are.
	sum := fnv.New64a()
	sum.Write([]byte(b.String()))
	if r := rand.New(rand.NewPCG(sum.Sum64(), 5)); r.IntN(8) == 0 {
		return b.String()[:head] + onWall(r)
	}
	return b.String()
}

// onWall returns the rest of a design of arms that come out of a wall, with what they carry.
func onWall(rnd *rand.Rand) string {
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	pick := func(list ...string) string { return list[rnd.IntN(len(list))] }
	var b strings.Builder
	fmt.Fprintf(&b, "base pad { wall 620 mm by %.2f mm at %.2f mm, metal slab, anchors %s, anchor_diameter 12 mm, anchor_edge 30 mm%s }\n",
		between(300, 500), between(900, 2500), pick("4", "6"), pick("", ", anchor_depth 90 mm", ", anchor_depth 90 mm, concrete 25 MPa", ", anchor_depth 90 mm, anchor_kind headed, concrete 25 MPa"))
	for i := range 1 + rnd.IntN(3) {
		wide := between(25, 70)
		lean := pick("", fmt.Sprintf("lean %.2f deg toward %.2f deg, ", between(50, 120), between(250, 290)))
		fmt.Fprintf(&b, "post p%d on pad { at (%.3f mm, %.3f mm), diameter %.2f mm, length %.2f mm, %smetal skin }\n", i, float64(i)*180-180, between(-60, 60), wide, between(180, 500), lean)
		switch rnd.IntN(4) {
		case 0:
		case 1:
			fmt.Fprintf(&b, "ball b%d on p%d { diameter %.2f mm, offset %.2f mm toward %.2f deg, %s, metal skin }\n",
				i, i, between(100, 150), max(0, between(-5, 10)), between(0, 360), pick("halves", "gores 6", "gores 8, bend domed", "bought 1 kg"))
		default:
			fmt.Fprintf(&b, "post q%d on p%d { diameter %.2f mm, length %.2f mm, lean %.2f deg toward %.2f deg, metal skin }\n", i, i, wide, between(150, 400), max(0, between(-10, 30)), between(200, 340))
			fmt.Fprintf(&b, "ball b%d on q%d { diameter %.2f mm, %s, metal skin }\n", i, i, between(100, 150), pick("halves", "gores 6", "gores 8, bend domed"))
		}
	}
	fmt.Fprint(&b, pick("", "site { push 50 N at 1500 mm }\n", "site { push 200 N at 3 m, people leaning }\n", "site { wind 25 m/s, terrain II }\n"))
	fmt.Fprint(&b, pick("", "require weight <= 30 kg\n", "require tipping >= 1.5\n"))
	return b.String()
}

// ringed returns a ring in front of the rest, for most none, by how long the text is till then.
func ringed(at int) string {
	rnd := rand.New(rand.NewPCG(uint64(at), 4))
	if rnd.IntN(4) > 0 {
		return ""
	}
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	thick := between(16, 30)
	across := thick * between(4, 9)
	body := fmt.Sprintf("across %.2f mm, segments %d, facing %.2f deg, metal skin, ", across, 4+rnd.IntN(12), between(0, 360))
	body += []string{"", "flat, "}[rnd.IntN(2)]
	body += []string{"bought pipe 1/2 schedule 40", fmt.Sprintf("diameter %.2f mm, bought tube, wall 2 mm", thick), fmt.Sprintf("diameter %.2f mm", thick), fmt.Sprintf("diameter %.2f mm, gap 0.5 mm", thick)}[rnd.IntN(4)]
	x, y := between(-150, 150), -200.0
	switch rnd.IntN(3) {
	case 0:
		return fmt.Sprintf("ring hoop on pad { at (%.2f mm, %.2f mm), %s }\n", x, y+60, body)
	case 1:
		return fmt.Sprintf("post stem on pad { at (%.2f mm, %.2f mm), diameter %.2f mm, length %.2f mm, metal skin }\nring hoop on stem { %s }\npost spur on hoop[3] { at 8 mm toward 0 deg, diameter 8 mm, length 40 mm, metal skin }\n", x, y, 12.0, between(60, 300), body)
	}
	return fmt.Sprintf("ring hoop at (%.2f mm, %.2f mm, %.2f mm) { %s }\npost stem from pad to hoop[1] { diameter 12 mm, metal skin }\nhole weep in hoop[2] { at 10 mm toward 90 deg, diameter 4 mm }\n", x, y, between(250, 500), body)
}

// pointed reports whether a post is a cone with a point, by where it stands.
func pointed(at float64) bool { return rand.New(rand.NewPCG(math.Float64bits(at), 1)).IntN(8) == 0 }

// held returns what holds the foot of a post on the ground, for most nothing, as courses does.
func held(at float64, onFeet bool) string {
	if !onFeet {
		return ""
	}
	rnd := rand.New(rand.NewPCG(math.Float64bits(at), 2))
	return []string{"", "sunk 400 mm, footing 500 mm, ",
		"pad 190 mm by 200 mm { metal slab, anchors 4, anchor_diameter 10 mm, anchor_edge 18 mm, anchor_depth 90 mm, concrete 25 MPa }, ",
		"pad 160 mm by 160 mm { metal slab }, "}[rnd.IntN(4)]
}

// egged returns what makes an egg of a ball, for most nothing, as courses does.
func egged(at float64) string {
	rnd := rand.New(rand.NewPCG(math.Float64bits(at), 4))
	tall := 110 + 150*rnd.Float64()
	if rnd.IntN(5) > 0 {
		return ""
	}
	return fmt.Sprintf("tall %.2f mm, ", tall)
}

// bowled returns a bowl on post i, for most none, by where that stands.
func bowled(at float64, i int) string {
	rnd := rand.New(rand.NewPCG(math.Float64bits(at), 3))
	if rnd.IntN(6) > 0 {
		return ""
	}
	wide := 140 + 120*rnd.Float64()
	built := []string{"gores 8", "gores 11, bend domed", "dished", "gores 10, caps 40 mm", "gores 7, caps 30 mm round, rim flat", "bought 1 kg", "gores 9, drain 8 mm"}[rnd.IntN(7)]
	return fmt.Sprintf("bowl b%d on p%d { diameter %.2f mm, depth %.2f mm, offset %.2f mm toward %.2f deg, tilt %.2f deg toward %.2f deg, %s, metal skin }\n",
		i, i, wide, wide*(0.35+0.15*rnd.Float64()), max(0, 16*rnd.Float64()-8), 360*rnd.Float64(), max(0, 25*rnd.Float64()-10), 360*rnd.Float64(), built)
}

// holes returns a hole in a part, for most none: where is a pattern of its place along the
// part, between two bounds, and its bearing. It draws as courses does.
func holes(i int, in, where string, at, low, high float64) string {
	rnd := rand.New(rand.NewPCG(math.Float64bits(at), uint64(in[0])))
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	size := []string{fmt.Sprintf("diameter %.2f mm", between(3, 12)), fmt.Sprintf("slot %.2f mm by %.2f mm, turn %.1f deg", between(3, 8), between(8, 20), between(-90, 90))}[rnd.IntN(2)]
	place := fmt.Sprintf(where, between(low, high), between(0, 360))
	if rnd.IntN(3) > 0 {
		return ""
	}
	return fmt.Sprintf("hole %s%dh in %s%d { %s, %s%s }\n", in, i, in, i, place, size, []string{"", ", through"}[rnd.IntN(2)])
}

// courses returns the courses of a post, for most none. It draws from where the post
// stands, so that all else is as it would be without.
func courses(at float64) string {
	rnd := rand.New(rand.NewPCG(math.Float64bits(at), 0))
	return []string{"", "", "courses 2, ", "courses 180 mm, stagger 120 deg, ", "courses 3, gap 1 mm, "}[rnd.IntN(5)]
}
