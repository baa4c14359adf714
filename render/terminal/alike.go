package terminal

import (
	"regexp"
	"strconv"
	"strings"

	"stabile/fab/finding"
	"stabile/render/words"
)

// figures are the numbers in a text: 12, 0.35, 3/8, 13-7/16.
var figures = regexp.MustCompile(`\d+-\d+/\d+|\d+/\d+|\d+\.\d+|\d+`)

// alike joins remarks on copies of one part that differ in nothing but their
// figures: each figure is then told from the least to the greatest.
func alike(remarks []words.Remark) []words.Remark {
	type kind struct {
		level finding.Level
		base  string
		words string
	}
	var out []words.Remark
	at := map[kind]int{}
	said := map[kind][]string{}
	for _, r := range remarks {
		base := copiesOf(r.Parts)
		if base == "" {
			out = append(out, r)
			continue
		}
		k := kind{r.Level, base, figures.ReplaceAllString(r.Text, "#")}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, words.Remark{Level: r.Level})
		}
		out[i].Parts = append(out[i].Parts, r.Parts...)
		said[k] = append(said[k], r.Text)
		out[i].Text = spread(said[k])
	}
	return out
}

// copiesOf returns the name that parts are numbered copies of, or "".
func copiesOf(parts []string) string {
	base := ""
	for i, p := range parts {
		c, ok := copyOf(p)
		if !ok || i > 0 && c.base != base {
			return ""
		}
		base = c.base
	}
	return base
}

// spread returns texts that differ in their figures alone as one, with "A to B" for
// a figure that is from A to B in them.
func spread(texts []string) string {
	if len(texts) == 1 {
		return texts[0]
	}
	found := make([][]string, len(texts))
	for i, t := range texts {
		found[i] = figures.FindAllString(t, -1)
	}
	n := 0
	return figures.ReplaceAllStringFunc(texts[0], func(string) string {
		least, most := found[0][n], found[0][n]
		for _, f := range found[1:] {
			if number(f[n]) < number(least) {
				least = f[n]
			}
			if number(f[n]) > number(most) {
				most = f[n]
			}
		}
		n++
		if least == most {
			return least
		}
		return least + " to " + most
	})
}

// number reads a figure.
func number(s string) float64 {
	whole, fraction, mixed := strings.Cut(s, "-")
	if !mixed && strings.Contains(s, "/") {
		whole, fraction = "0", s
	}
	x, _ := strconv.ParseFloat(whole, 64)
	if over, under, ok := strings.Cut(fraction, "/"); ok {
		a, _ := strconv.ParseFloat(over, 64)
		b, _ := strconv.ParseFloat(under, 64)
		if b != 0 {
			x += a / b
		}
	}
	return x
}

// plural turns what is said of one part, after its name, to what is said of n.
func plural(text string, n int) string {
	if n < 2 {
		return text
	}
	for _, verb := range [][2]string{
		{"is ", "are each "}, {"has ", "have each "}, {"weighs ", "weigh each "}, {"may ", "may each "},
		{"asks ", "ask each "}, {"bends: ", "bend each: "},
	} {
		if rest, ok := strings.CutPrefix(text, verb[0]); ok {
			return verb[1] + rest
		}
	}
	return text
}
