package inspect

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// garbled is what no sheet may say: numbers that are none, units twice, and what a format
// leaves where it does not fit its values.
var garbled = regexp.MustCompile(`\bNaN\b|[+-]?\bInf\b|%!|<nil>|\b(in|mm|lb|kg|ft) (in|mm|lb|kg|ft)\b|–0\b|\bto to\b`)

// lookAtWords finds writing that is garbled, and words that are broken from one line to the next; those in the model alone, where lines have their baselines.
func (p *page) lookAtWords(say func(Kind, string, ...any), written bool) {
	known := map[string]bool{}
	for i := range p.texts {
		for w := range strings.FieldsSeq(p.texts[i].label) {
			known[w] = true
		}
	}
	for i := range p.texts {
		t := &p.texts[i]
		if m := garbled.FindStringIndex(t.label); m != nil && !sentence(t.label, m) {
			say(Garbled, "%q has %q", t.label, t.label[m[0]:m[1]])
		}
		if written {
			continue
		}
		if under := p.under(i); under != nil && broken(t.label, under.label, known) {
			say(BrokenWord, "%q goes on in %q", t.label, under.label)
		}
	}
}

// sentence reports whether what is found is two words of a sentence, not a unit twice: "12
// ft in all", "1/4 in in the site".
func sentence(label string, m []int) bool {
	a, b, ok := strings.Cut(label[m[0]:m[1]], " ")
	if !ok || a == "to" {
		return false
	}
	rest := label[m[1]:]
	return a != b || strings.HasPrefix(rest, " the") || strings.HasPrefix(rest, " this")
}

// cutShort returns the writing that ends in an ellipsis within a word.
func (p *page) cutShort() (list []string) {
	for i := range p.texts {
		if l := p.texts[i].label; strings.HasSuffix(l, "…") && !strings.HasSuffix(l, " …") {
			list = append(list, l)
		}
	}
	return list
}

// lineOver and lineUnder are how far apart the baselines of two lines of one text stand, as
// shares of the height of a capital.
const lineOver, lineUnder = 1.4, 1.8

// under returns the line of writing that goes on under a text: of its height, begun or
// ended at the same place; nil for none.
func (p *page) under(i int) *text {
	t := &p.texts[i]
	for k := range p.texts {
		o := &p.texts[k]
		if k == i || math.Abs(o.height-t.height) > heightError {
			continue
		}
		down := (t.box.Min.Y - o.box.Min.Y) / t.height
		if down < lineOver || down > lineUnder {
			continue
		}
		if math.Abs(o.box.Min.X-t.box.Min.X) < heightError || math.Abs(o.box.Max.X-t.box.Max.X) < heightError {
			return o
		}
	}
	return nil
}

// broken reports whether a word goes on from a line to the next: a fraction whose stroke or
// whose hyphen ends the line, or two halves of a word that stands whole elsewhere on the
// sheet.
func broken(line, next string, known map[string]bool) bool {
	above, below := strings.Fields(line), strings.Fields(next)
	if len(above) == 0 || len(below) == 0 {
		return false
	}
	head, tail := above[len(above)-1], below[0]
	if len(above) == 1 && utf8.RuneCountInString(head) > longest {
		return false
	}
	first := []rune(tail)[0]
	if unicode.IsDigit(first) && len(head) > 1 && (strings.HasSuffix(head, "/") || strings.HasSuffix(head, "-")) {
		return true
	}
	if !unicode.IsLower(first) || !unicode.IsLetter([]rune(head)[len([]rune(head))-1]) {
		return false
	}
	return known[head+tail] && !(slices.Contains(common, tail) && known[tail]) && !(slices.Contains(common, head) && known[tail])
}

// longest is the number of letters beyond which a word that fills a line by itself may go on
// in the next: no column is made for such a word.
const longest = 30

// common are short words that stand behind another as often as they end one, or before
// another as often as they begin one.
var common = []string{"a", "an", "in", "on", "to", "of", "at", "as", "or", "is", "it", "by", "up", "all", "out", "over", "s"}
