package param

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"stabile/param/source"
)

// A plant puts one mistake into one line of a design. It reports false for a line
// that it does not suit. The number is another for each mistake, so that no name
// that stands for nothing is planted twice. Above reports that the line is gone, and
// that the mistake is reported at the head of its declaration.
type plant struct {
	name  string
	into  func(line string, n int) (wrong string, ok bool)
	above bool
}

// gone plants the lack of a property that must be there.
func gone(word string) plant {
	return plant{"a property left out", func(line string, _ int) (string, bool) {
		return "", strings.HasPrefix(strings.TrimSpace(line), word+" ") && !strings.ContainsAny(line, "{}#")
	}, true}
}

// swap plants one piece of text in place of the first of another, where the line
// starts with a word. A ? in it is a letter that is another each time.
func swap(name, start, old, replacement string) plant {
	return plant{name: name, into: func(line string, n int) (string, bool) {
		if !strings.HasPrefix(strings.TrimSpace(line), start) || strings.Count(line, old) == 0 || strings.Contains(line, "#") {
			return "", false
		}
		return strings.Replace(line, old, strings.ReplaceAll(replacement, "?", string(rune('a'+n))), 1), true
	}}
}

// property is swap for the property of a part, not a declaration, whose value
// hangs on no other.
func property(name, start, old, replacement string) plant {
	p := swap(name, start, old, replacement)
	return plant{name: name, into: func(line string, n int) (string, bool) {
		if strings.ContainsAny(line, "{(*+") {
			return "", false
		}
		return p.into(line, n)
	}}
}

// plants are mistakes of which each leaves all other lines right: none takes
// away a name that others use, or a brace.
var plants = []plant{
	swap("a property misspelt", "diameter", "diameter", "diamter"),
	swap("a property misspelt", "length", "length", "lenght"),
	swap("a property misspelt", "gores", "gores", "goers"),
	property("a metal misspelt", "metal ", "skin", "sk?i"),
	property("a metal misspelt", "metal ", "rind", "ri?n"),
	property("a metal misspelt", "metal ", "bark", "br?k"),
	property("a unit of another sort", "length", " in", " lb"),
	property("a unit of another sort", "offset", " in toward", " deg toward"),
	swap("a unit unknown", "diameter", " in", " inches"),
	property("an angle without unit", "lean", " deg toward", " toward"),
	swap("a bearing left out", "lean", " toward ", " "),
	swap("a word to lead misspelt", "offset", "toward", "towrad"),
	swap("an equals sign", "length", "length ", "length = "),
	swap("a fraction slip", "length", "length   ", "length 1 -1/2 in + "),
	swap("a name unknown", "length", "length   ", "length nowhere? + "),
	swap("an alloy unknown", "metal ", "alloy ", "alloy un"),
	swap("a gauge that is not there", "metal ", "gauge 1", "gauge 51"),
	swap("more gores than a ball has", "gores", "gores ", "gores 99 + "),
	swap("a curly quote", "sculpture", `"`, "“"),
	swap("a comparison of two sorts", "require weight", "weight ", "weight * 1 m "),
	swap("a result misspelt", "require tipping", "tipping", "tiping"),
	swap("an angle in a range", "adjust", " from ", " + 3 kg from "),
	swap("a no-break space", "require", " ", "\u00a0"),
	swap("a power", "require weight", "<= ", "<= 2 ^ "),
	swap("a push of two sorts", "site", "push ", "push 3 lb + "),
	swap("people unknown", "people", "leaning", "loaning"),
	swap("a risk that is not there", "risk", " 2", " 7"),
	swap("a revision without quotes", "revision", `"A"`, "A"),
	swap("a revision twice", "revision", `"B"`, `"A"`),
	swap("a pad of two sorts", "pad 8", " 8 by", " 8 lb by"),
	swap("a pad misspelt", "pad 8", "pad", "paad"),
	swap("a depth of two sorts", "sunk", " 30", " 30 deg + 1"),
	swap("a depth misspelt", "sunk", "sunk", "sunc"),
	swap("a footing misspelt", "footing  16", "footing", "foting"),
	swap("a doubler of two sorts", "doubler", " 6", " 6 kg"),
	swap("a doubler misspelt", "doubler", "doubler", "dubler"),
	swap("a stone unknown", "block_material", "granite", "grannite"),
	swap("a block of two sorts", "block", " 28 by", " 28 kg by"),
	swap("a plate on a wall misspelt", "wall", " by 18 in", " by 18 deg + 1 in"),
	swap("a plate on a wall misspelt", "wall", " in at ", " in att "),
	swap("a plate on a wall misspelt", "wall", "wall            14", "wal 14"),
	swap("a kind of anchor unknown", "anchor_kind", "headed", "heeded"),
	swap("a date that is none", "revision", "2026-10-02", "2 October"),
	swap("a note misspelt", "revision", " note", " ntoe"),
	swap("a word for a bearing misspelt", "seam", " left", " lefft?"),
	swap("ounces out of range", "metal ", "ounces 1", "ounces 91"),
	swap("a reach of two sorts", "reach", " 24", " 24 deg + 1"),
	swap("a second alloy unknown", "second_alloy", " st", " un"),
	swap("a degree sign", "lean", " deg toward", "° toward"),
	swap("a shrinkage too great", "welding", "shrink 0.5", "shrink 90.5"),
	swap("half a course", "courses", " 2", " 5/2"),
	swap("courses of a weight", "courses", " 300 mm", " 300 kg"),
	swap("a stagger without unit", "stagger", " 120 deg", " 120"),
	swap("a stagger misspelt", "stagger", "stagger", "staggr"),
	swap("a bend unknown", "bend", "domed", "doomed"),
	swap("a point of two sorts", "diameter", "1-1/2 in to 0", "1-1/2 in to 0 deg"),
	swap("a point without its word", "diameter", "3 in to 0", "3 in too 0"),
	swap("a rim unknown", "rim", " flat", " rolled"),
	swap("a depth of two sorts", "depth", " 5 in", " 5 deg + 5 in"),
	swap("a tilt without unit", "tilt", " 15 deg", " 15"),
	swap("a bowl in halves", "dished", "dished", "halves"),
	swap("a depth misspelt", "depth", "depth", "detph"),
	swap("a size across of two sorts", "across", "across   30 in", "across   30 deg"),
	swap("a size across misspelt", "across", "across ", "acros "),
	swap("half a segment", "segments", " 12", " 25/2"),
	swap("too few segments", "segments", " 8", " 2"),
	swap("segments misspelt", "segments", "segments", "segmants"),
	swap("a ring facing nothing", "facing", " 90 deg", " nothing?"),
	swap("a ring facing without unit", "facing", " 90 deg", " 90"),
	swap("a ring that lies, misspelt", "flat", "flat", "flatt"),
	gone("across"),
	swap("an egg's height as an angle", "tall", " 9 in", " 9 deg"),
	swap("an egg's height of two sorts", "tall", " 9 in", " 9 deg + 9 in"),
	swap("tall misspelt", "tall", "tall", "toll"),
	gone("depth"), gone("diameter"), gone("length"), gone("metal"), gone("gores"),
	{name: "a semicolon", into: func(line string, _ int) (string, bool) {
		return line + ";", strings.HasPrefix(strings.TrimSpace(line), "gores") && !strings.Contains(line, "#")
	}},
	swap("a letter put before", "caps", "caps", "xcaps"),
	swap("a word for pipe misspelt", "bought", " pipe", " piep"),
	swap("a schedule misspelt", "bought", "schedule", "shedule"),
	swap("a schedule that is not there", "bought", "schedule STD", "schedule 120"),
	swap("a schedule unknown", "bought", "schedule 10S", "schedule 11S"),
	swap("a size of pipe that is not there", "bought", " 1-1/4 ", " 1-3/4 "),
	swap("a wall of two sorts", "wall", " 1/8 in", " 1/8 in + 2 deg"),
	swap("a stock misspelt", "stock", "stock", "stcok"),
	swap("a hole's side misspelt", "at ", "toward left", "toward lefft?"),
	swap("a slot of two sorts", "slot", " by 3 in", " by 3 deg"),
	swap("a slot half given", "slot", " by 2 in", ""),
	swap("a turn without unit", "turn", " 30 deg", " 30"),
	swap("a turn too far", "turn", " 30 deg", " 130 deg"),
	swap("a joint with nothing", "joint", "spur", "nobody?"),
	swap("a joint misspelt", "joint", "joint", "jiont"),
	swap("a rise of two sorts", "up", " 20 deg", " 20 in"),
	swap("a rise misspelt", "up", "up ", "upp "),
	swap("a way through misspelt", "through", "through", "thruogh"),
	swap("a price by another sort", "price", "9 / 1 ft", "9 / 1 lb"),
}

// statementsOf returns for each line of a text the statement that it is in, by
// the number of its first line: braces tell.
func statementsOf(lines []string) []int {
	of := make([]int, len(lines))
	depth, start := 0, 0
	for i, line := range lines {
		if depth == 0 {
			start = i
		}
		of[i] = start
		code, _, _ := strings.Cut(line, "#")
		depth += strings.Count(code, "{") - strings.Count(code, "}")
	}
	return of
}

// headOf returns the line of the declaration that a line belongs to.
func headOf(lines []string, i int) int {
	for closed := 0; ; i-- {
		if strings.HasSuffix(lines[i], "{") {
			if closed == 0 {
				return i
			}
			closed--
		}
		if strings.TrimSpace(lines[i]) == "}" {
			closed++
		}
	}
}

// TestPlanting plants up to eight mistakes into sound designs, each in a
// statement of its own, and wants as many diagnostics, each in its line.
func TestPlanting(t *testing.T) {
	const most, rounds = 8, 60
	var trials, planted int
	kinds := map[string]int{}
	for name, text := range designs(t) {
		if _, list := Evaluate(source.NewFile(name, text), Options{Files: shelf}); len(list) > 0 {
			continue
		}
		// Each property on a line of its own, so that a line is one place.
		text = openedOut(t, text)
		r := rand.New(rand.NewPCG(11, uint64(len(text))))
		for k := 1; k <= most; k++ {
			for range rounds {
				wrong, at, said := sown(text, k, r)
				if len(at) < k {
					continue
				}
				trials++
				planted += k
				for _, s := range said {
					kinds[s]++
				}
				_, list := Evaluate(source.NewFile(name, wrong), Options{Files: shelf})
				var got []int
				for _, d := range list {
					got = append(got, d.Span.Start().Line)
				}
				if !slices.Equal(got, at) {
					var b strings.Builder
					_ = list.Print(&b)
					t.Fatalf("%s with %q in lines %v is told of lines %v:\n%s\n%s", name, said, at, got, wrong, b.String())
				}
			}
		}
	}
	names := map[string]bool{}
	for _, p := range plants {
		names[p.name] = true
	}
	for n := range names {
		if kinds[n] == 0 {
			t.Errorf("%s was never planted", n)
		}
	}
	if trials < 500 {
		t.Errorf("only %d designs were planted with mistakes", trials)
	}
	t.Logf("%d mistakes of %d kinds in %d designs", planted, len(kinds), trials)
}

// sown returns a text with mistakes in statements of their own, the lines that
// they are in, and what they are.
func sown(text string, k int, r *rand.Rand) (wrong string, at []int, said []string) {
	lines := strings.Split(text, "\n")
	of := statementsOf(lines)
	taken := map[int]bool{}
	for range 400 {
		if len(at) == k {
			break
		}
		i, p := r.IntN(len(lines)), plants[r.IntN(len(plants))]
		if taken[of[i]] {
			continue
		}
		if line, ok := p.into(lines[i], len(at)); ok {
			lines[i] = line
			taken[of[i]] = true
			at = append(at, i+1)
			if p.above {
				at[len(at)-1] = headOf(lines, i) + 1
			}
			said = append(said, p.name)
		}
	}
	slices.Sort(at)
	return strings.Join(lines, "\n"), at, said
}

// openedOut returns a text with each property on a line of its own.
func openedOut(t *testing.T, text string) string {
	t.Helper()
	var b strings.Builder
	for line := range strings.Lines(text) {
		code, comment, _ := strings.Cut(strings.TrimRight(line, "\n"), "#")
		open := strings.Index(code, "{")
		if word, _, _ := strings.Cut(strings.TrimSpace(code), " "); open >= 0 && (word == "post" || word == "ball" || word == "bowl" || word == "ring" || word == "hole") {
			code = code[:open+1] + "\n" + code[open+1:]
			code = strings.ReplaceAll(code, " }", "\n}")
			code = parted(code)
		}
		fmt.Fprint(&b, code)
		if comment != "" {
			b.WriteString("#" + comment)
		}
		b.WriteByte('\n')
	}
	tidy, list := Tidy(source.NewFile("opened", b.String()))
	if len(list) > 0 {
		t.Fatal(list.Err())
	}
	return string(tidy)
}

// parted ends a line at each comma outside of parentheses.
func parted(code string) string {
	var b strings.Builder
	depth := 0
	for _, c := range code {
		switch c {
		case '(', '[':
			depth++
		case ')', ']':
			depth--
		case ',':
			if depth == 0 {
				b.WriteByte('\n')
				continue
			}
		}
		b.WriteRune(c)
	}
	return b.String()
}
