package eval

import (
	"slices"
	"strings"
)

// checkCompany checks that each property stands beside one that it goes with. A word that
// was not understood may be that one.
func (b *body) checkCompany() {
	for _, g := range b.given {
		if len(g.With) == 0 || b.hasAny(g.With) || b.lost {
			continue
		}
		// Where the choice itself is missing, that is the mistake to tell.
		if w := b.table.property(g.With[0], b.host); w.OneOf != "" && !b.hasChoice(w.OneOf) {
			continue
		}
		b.report(g.word, g.Instead, "'%s' goes with %s", g.Word, quoted(g.With, "or"))
	}
}

// hasAny reports whether one of the properties is given, in any of its forms: plate
// polygon is a plate.
func (b *body) hasAny(words []string) bool {
	return slices.ContainsFunc(b.given, func(g given) bool {
		word, _, _ := strings.Cut(g.Word, " ")
		return slices.Contains(words, word) || slices.Contains(words, g.Word)
	})
}

func (b *body) hasChoice(oneOf string) bool {
	return slices.ContainsFunc(b.given, func(g given) bool { return g.OneOf == oneOf })
}

// checkChoices checks that not two properties of one choice are given.
func (b *body) checkChoices() {
	for i, g := range b.given {
		if g.OneOf == "" {
			continue
		}
		for _, first := range b.given[:i] {
			if first.OneOf == g.OneOf {
				note(b.report(g.word, "keep one of the two", "'%s' and '%s' both say %s", first.Word, g.Word, g.OneOf),
					first.word, "first given here")
				b.failed = true
				break
			}
		}
	}
}

// checkMissing checks that all is given that must be. What is missing is reported
// at once, and not at all where a word was not understood that may be it.
func (b *body) checkMissing() {
	var names []string
	var example string
	choices := map[string]bool{}
	for i := range b.table.Properties {
		p := &b.table.Properties[i]
		switch {
		case p.OneOf != "":
			if choices[p.OneOf] || b.hasChoice(p.OneOf) {
				continue
			}
			choices[p.OneOf] = true
			names = append(names, b.alternatives(p.OneOf))
		case !p.Required || b.has(p.Word) || p.Unless != "" && b.has(p.Unless):
			continue
		case len(p.With) > 0 && !b.hasAny(p.With), !p.appliesTo(b.host):
			continue
		default:
			names = append(names, "'"+p.Word+"'")
		}
		if example == "" {
			example = b.example(p.Example)
		}
	}
	if len(names) == 0 {
		return
	}
	b.failed = true
	if !b.lost {
		b.missing(b.at, "add a line such as "+example, "%s lacks %s", b.what, list(names, "and"))
	}
}

// alternatives names the properties of a choice.
func (b *body) alternatives(oneOf string) string {
	var words []string
	for _, p := range b.table.Properties {
		if p.OneOf == oneOf {
			words = append(words, p.Word)
		}
	}
	return quoted(words, "or")
}

// quoted lists words in quotes.
func quoted(words []string, last string) string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = "'" + w + "'"
	}
	return list(q, last)
}

// list joins words with commas, the last by a word.
func list(words []string, last string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " " + last + " " + words[n-1]
	}
}
