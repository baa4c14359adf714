package fab

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// A maker writes random sculptures for the tests that put them together, with every
// kind of base, post, ball, joint, cap, seat and opening.
type maker struct {
	*rand.Rand
	strings.Builder
}

func (m *maker) between(a, b float64) float64 { return a + (b-a)*m.Float64() }

func (m *maker) pick(list ...string) string { return list[m.IntN(len(list))] }

func (m *maker) writef(format string, a ...any) { fmt.Fprintf(&m.Builder, format, a...) }

// shell writes how a ball of a diameter is made.
func (m *maker) shell(diameter float64) string {
	pole := m.pick("", fmt.Sprintf("pole %.2f deg toward %.2f deg, ", m.between(0, 90), m.between(0, 360)))
	pole += m.pick("", "", fmt.Sprintf("seam toward %.2f deg, ", m.between(0, 360)))
	edge := m.pick("", "", "", "edge mid, ") + m.pick("", "", "gap 0.8, ")
	cap := fmt.Sprintf("%.2f", diameter*m.between(0.15, 0.4))
	if m.IntN(3) == 0 {
		cap += fmt.Sprintf(", %.2f", diameter*m.between(0.05, 0.5))
	}
	switch m.IntN(8) {
	case 0:
		return strings.Split(pole, "seam")[0] + "halves, "
	case 1:
		return pole + edge + fmt.Sprintf("zones %d, ", 3+m.IntN(5))
	case 2:
		return pole + fmt.Sprintf("gores %d, bend domed, ", 5+m.IntN(9))
	case 3:
		return pole + fmt.Sprintf("gores %d, bend domed, caps %s, ", 5+m.IntN(9), cap)
	case 4:
		return pole + edge + fmt.Sprintf("gores %d, caps %s, ", 5+m.IntN(9), cap)
	case 5:
		return pole + edge + fmt.Sprintf("gores %d, caps %s round, ", 5+m.IntN(9), cap)
	}
	return pole + edge + fmt.Sprintf("gores %d, ", 4+m.IntN(12))
}

// bores writes the small holes of a ball or a post.
func (m *maker) bores() string {
	return m.pick("", "", "", "vent 6, ", "drain 5, ", "vent 6, drain 5, ", fmt.Sprintf("vent 7 toward %.1f deg, ", m.between(0, 360)))
}

// cut writes how a post of a length is rolled.
func (m *maker) cut(length float64) string {
	return m.pick("", "", "courses 3, ", "courses 5, stagger 120 deg, ", fmt.Sprintf("courses %.1f, gap 1, ", length/3.5), "gap 0.8, ")
}

// wide writes the diameter of a post, straight or tapered.
func (m *maker) wide(d float64) string {
	if m.IntN(3) == 0 {
		return fmt.Sprintf("diameter %.3f to %.3f", d, d*m.between(0.7, 1.25))
	}
	return fmt.Sprintf("diameter %.3f", d)
}

// lean writes that a post leans, or nothing.
func (m *maker) lean(most float64) string {
	return m.pick("", fmt.Sprintf("lean %.3f deg toward %.3f deg, ", m.between(1, most), m.between(0, 360)))
}

// ball writes a ball.
func (m *maker) ball(name, where string, d float64, more string) {
	m.writef("ball %s %s { diameter %.3f, %s%s%smetal skin }\n", name, where, d, more, m.shell(d), m.bores())
}

// anyWhole writes a whole sculpture; more draws what stands beside it and its holes.
func anyWhole(rnd, more *rand.Rand) string {
	m := &maker{Rand: rnd}
	m.writef("units mm\nmetal skin { alloy low-carbon-steel, thickness %s, density 7850 kg/m3 }\n", m.pick("1", "1.5", "2", "3"))
	m.writef("metal slab { alloy low-carbon-steel, thickness 10, density 7850 kg/m3 }\nbase pad { %s }\n",
		m.pick("plate 700 by 500, metal slab", "disc 700, metal slab", "feet", "plate 900 by 600, metal slab, anchors 4, anchor_diameter 12, anchor_edge 40"))
	switch m.IntN(6) {
	case 0:
		m.tower()
	case 1:
		m.tree()
	case 2:
		m.frame()
	case 3:
		m.bridge()
	case 4:
		m.pile()
	default:
		m.spike()
	}
	m.Rand = more
	m.beside()
	m.pierce()
	return m.String()
}

// beside writes, sometimes, what stands by itself beside the rest: a bought tube with a bowl
// or a ball on it, or a cone with a point. A bought tube is cut off square here: one that is
// trimmed has its template at its outside alone, and is filed to fit within.
func (m *maker) beside() {
	at := fmt.Sprintf("at (%.1f, 180)", m.between(-240, 240))
	d := m.between(30, 60)
	tube := fmt.Sprintf("bought tube, wall %.2f, diameter %.3f", m.between(1.5, 4), d)
	switch m.IntN(8) {
	case 0:
		wide := m.between(100, 220)
		m.writef("post stem on pad { %s, %s, length %.2f, metal skin }\n", at, tube, m.between(150, 500))
		m.writef("bowl cup on stem { diameter %.3f, depth %.3f, offset %.3f toward %.1f deg, %s, metal skin }\n", wide, wide*m.between(0.3, 0.5), m.between(0, 5), m.between(0, 360),
			m.pick("gores 7", "gores 12", "gores 9, bend domed", "dished", "gores 8, caps 40", "gores 6, rim flat"))
	case 1:
		m.writef("post stem on pad { %s, %s, length %.2f, metal skin }\n", at, tube, m.between(150, 500))
		m.ball("bud", "on stem", d*m.between(1.8, 3.5), fmt.Sprintf("offset %.2f toward %.1f deg, ", m.between(0, d/8), m.between(0, 360)))
		m.writef("post tip on bud { bought tube, wall 2, diameter %.3f, length 90, metal skin }\n", d*m.between(0.4, 0.7))
	case 3, 4:
		thick := d * m.between(1, 1.6)
		m.writef("post stem on pad { %s, diameter %.3f, length %.2f, metal skin }\n", at, d, m.between(150, 500))
		m.writef("ring hoop on stem { across %.2f, diameter %.3f, segments %d, facing %.1f deg, %s%smetal skin }\n",
			thick*m.between(4, 7), thick, 4+m.IntN(9), m.between(0, 360), m.pick("", "flat, "), m.pick("", "gap 0.8, "))
	case 2:
		m.writef("post stem on pad { %s, diameter %.3f to 0, length %.2f, %smetal skin }\n", at, d, m.between(150, 500), m.lean(10))
	}
}

// pierce writes, sometimes, holes in the parts that all sculptures of a kind have.
func (m *maker) pierce() {
	size := func(most float64) string {
		return m.pick(fmt.Sprintf("diameter %.2f", m.between(4, most)), fmt.Sprintf("slot %.2f by %.2f", m.between(4, most), m.between(4, most)))
	}
	text := m.String()
	if strings.Contains(text, "ball b on") && m.IntN(2) == 0 {
		m.writef("hole eye in b { toward %.2f deg, up %.2f deg, %s }\n", m.between(0, 360), m.between(-50, 50), size(40))
	}
	if strings.Contains(text, "post p on") && m.IntN(2) == 0 {
		m.writef("hole gap in p { at %.2f toward %.2f deg, %s%s }\n", m.between(60, 250), m.between(0, 360), size(16), m.pick("", ", through"))
	}
	if !strings.Contains(text, "{ feet }") && m.IntN(3) == 0 {
		m.writef("hole drop in pad { at (%.1f, -150), %s }\n", m.between(-200, 200), size(30))
	}
}

// tower writes a post with a ball, with another in its top, and one about the post.
func (m *maker) tower() {
	low, high := m.between(120, 400), m.between(80, 320)
	m.writef("post p on pad { at (0, 0), %s, length 900, %s%s%smetal skin }\n", m.wide(m.between(25, 60)), m.lean(6), m.cut(900), m.bores())
	m.ball("b", "on p", low, "")
	m.ball("c", "on b", high, fmt.Sprintf("offset %.3f toward %.2f deg, seat %.3f, %s",
		m.between(0, 0.4)*(low+high)/2, m.between(0, 360), m.between(0.15, 0.8)*min(low, high), m.pick("", "", "through, ")))
	if m.IntN(2) == 0 {
		m.ball("r", "around p", m.between(120, 260), fmt.Sprintf("height %.2f, ", m.between(300, 500)))
	}
}

// tree writes a trunk with branches that carry balls.
func (m *maker) tree() {
	wide := m.between(80, 140)
	m.writef("post t on pad { at (0, 0), %s, length 1200, %s%s%smetal skin }\n", m.wide(wide), m.lean(5), m.cut(1200), m.pick("head open, ", "head disc, "))
	for i := range 1 + m.IntN(3) {
		bearing := 120*float64(i) + m.between(0, 60)
		d := wide * m.between(0.25, 0.6)
		m.writef("post t%d on t { at %.2f toward %.2f deg, %s, length %.2f, lean %.2f deg toward %.2f deg, %smetal skin }\n",
			i, m.between(300, 950), bearing, m.wide(d), m.between(250, 400), m.between(30, 80), bearing+m.between(-15, 15), m.bores())
		if m.IntN(3) > 0 {
			m.ball(fmt.Sprintf("f%d", i), fmt.Sprintf("on t%d", i), d*m.between(1.8, 3.5), "")
		}
	}
	m.ball("top", "on t", wide*m.between(1.6, 2.6), fmt.Sprintf("offset %.2f toward %.2f deg, ", m.between(0, wide/8), m.between(0, 360)))
}

// frame writes two posts with a lintel and a stay.
func (m *maker) frame() {
	d := m.between(30, 80)
	for _, side := range []string{"-150", "150"} {
		m.writef("post %s on pad { at (%s, 0), diameter %.3f, length %.2f, lean %.2f deg toward 90 deg, metal skin }\n",
			map[string]string{"-150": "l", "150": "r"}[side], side, d, m.between(400, 900), m.between(0, 10))
	}
	narrow := d
	if m.IntN(3) == 0 {
		narrow *= m.between(0.4, 0.9)
	}
	m.writef("post lintel from l.head to r.head { diameter %.3f, %smetal skin }\n", narrow, m.pick("", "gap 1, "))
	m.writef("post stay from l to pad { at (-20, %.2f), diameter %.3f, metal skin }\n", m.between(-150, 150), d*m.between(0.3, 0.8))
}

// bridge writes balls with posts between them.
func (m *maker) bridge() {
	for i, x := range []float64{-200, 60, 230} {
		m.writef("post p%d on pad { at (%.1f, %.2f), diameter %.3f, length %.2f, %s%smetal skin }\n", i, x, m.between(-60, 60), m.between(25, 50), m.between(200, 700), m.lean(4), m.cut(400))
		m.ball(fmt.Sprintf("b%d", i), fmt.Sprintf("on p%d", i), m.between(90, 170), fmt.Sprintf("offset %.2f toward %.1f deg, ", m.between(0, 8), m.between(0, 360)))
	}
	m.writef("post tie from b0 to b1 { %s, %smetal skin }\n", m.wide(m.between(15, 40)), m.bores())
	m.writef("post tie2 from b1 to p2 { diameter %.3f, metal skin }\n", m.between(10, 22))
	if m.IntN(2) == 0 {
		m.writef("post leg from b0 to pad { at (-120, -180), diameter %.3f, metal skin }\n", m.between(12, 30))
	}
}

// pile writes balls on the base and on each other.
func (m *maker) pile() {
	d := m.between(150, 400)
	m.ball("b0", "on pad", d, "")
	for i := range 1 + m.IntN(3) {
		next := d * m.between(0.5, 1.1)
		m.ball(fmt.Sprintf("b%d", i+1), fmt.Sprintf("on b%d", i), next, fmt.Sprintf("offset %.3f toward %.2f deg, seat %.3f, %s",
			m.between(0, 0.3)*(d+next)/2, m.between(0, 360), m.between(0.15, 0.7)*min(d, next), m.pick("", "", "through, ")))
		d = next
	}
}

// spike writes posts that stand on balls, at any place and lean, and balls that a post goes
// through.
func (m *maker) spike() {
	d := m.between(150, 350)
	m.writef("post p on pad { at (0, 0), %s, length 700, %s%smetal skin }\n", m.wide(m.between(40, 70)), m.lean(8), m.cut(700))
	m.ball("r", "around p", m.between(130, 300), fmt.Sprintf("height %.2f, ", m.between(200, 400)))
	m.ball("b", "on p", d, fmt.Sprintf("offset %.2f toward %.1f deg, ", m.between(0, 15), m.between(0, 360)))
	m.writef("post q on b { %s, length %.2f, offset %.2f toward %.1f deg, %s%smetal skin }\n",
		m.wide(d*m.between(0.1, 0.4)), m.between(150, 500), d*m.between(0, 0.25), m.between(0, 360), m.lean(25), m.bores())
	if m.IntN(2) == 0 {
		m.ball("e", "on q", d*m.between(0.5, 0.9), "")
	}
}

// anySculpture writes a design with balls of every kind that sit in each other, on
// posts, round posts and under posts.
func anySculpture(rnd, more *rand.Rand) string {
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	made := func(diameter float64) string {
		pole := fmt.Sprintf("pole %.2f deg toward %.2f deg, ", between(0, 90)*float64(rnd.IntN(2)), between(0, 360))
		switch rnd.IntN(7) {
		case 0:
			return pole + "halves"
		case 1:
			return pole + fmt.Sprintf("zones %d", 3+rnd.IntN(5))
		case 2:
			return pole + fmt.Sprintf("gores %d, bend domed", 5+rnd.IntN(9))
		case 3:
			return pole + fmt.Sprintf("gores %d, bend domed, caps %.2f", 5+rnd.IntN(9), diameter*between(0.15, 0.4))
		case 4:
			return pole + fmt.Sprintf("gores %d, caps %.2f", 5+rnd.IntN(9), diameter*between(0.15, 0.4))
		}
		return pole + fmt.Sprintf("gores %d", 4+rnd.IntN(12))
	}
	var b strings.Builder
	b.WriteString(shop)
	low, high := between(120, 400), between(80, 320)
	courses := []string{"", "courses 3, ", "courses 5, stagger 120 deg, ", "courses 260 mm, gap 1, "}[more.IntN(4)]
	fmt.Fprintf(&b, "post p on pad { at (0, 0), diameter %.3f, length 900, %smetal skin }\n", between(25, 60), courses)
	fmt.Fprintf(&b, "ball b on p { diameter %.3f, %s, metal skin }\n", low, made(low))
	through := ""
	if rnd.IntN(3) == 0 {
		through = "through, "
	}
	fmt.Fprintf(&b, "ball c on b { diameter %.3f, offset %.3f toward %.2f deg, seat %.3f, %s%s, metal skin }\n",
		high, between(0, 0.4)*(low+high)/2, between(0, 360), between(0.15, 0.8)*min(low, high), through, made(high))
	if more.IntN(3) == 0 {
		wide := 100 + 200*more.Float64()
		built := []string{"gores 7", "gores 12", "gores 9, bend domed", "dished", "gores 8, caps 50", "gores 10, bend domed, caps 40", "gores 6, rim flat"}[more.IntN(7)]
		fmt.Fprintf(&b, "post q on pad { at (220, 120), diameter 40, length 300, metal skin }\nbowl d on q { diameter %.3f, depth %.3f, offset %.3f toward %.2f deg, tilt %.2f deg toward %.2f deg, %s, metal skin }\n",
			wide, wide*(0.3+0.2*more.Float64()), 5*more.Float64(), 360*more.Float64(), 15*more.Float64(), 360*more.Float64(), built)
	}
	if more.IntN(3) == 0 {
		fmt.Fprintf(&b, "post thorn on b { diameter %.3f to 0, length %.3f, offset %.3f toward %.2f deg, lean %.2f deg toward %.2f deg, metal skin }\n",
			low*(0.1+0.1*more.Float64()), 40+100*more.Float64(), low*0.36, 360*more.Float64(), 60*more.Float64(), 360*more.Float64())
	}
	if rnd.IntN(2) == 0 {
		fmt.Fprintf(&b, "ball r around p { height %.2f, diameter %.3f, %s, metal skin }\n", between(300, 500), between(120, 260), made(180))
	}
	return b.String()
}
