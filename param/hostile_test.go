package param

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"stabile/param/source"
)

// hostile returns texts of the greatest size, each of them made to be slow to
// read, to work out or to tidy. Each is made when it is called for.
func hostile() map[string]func() string {
	fill := func(head, piece, tail string) func() string {
		return func() string {
			return head + strings.Repeat(piece, (MaxSource-len(head)-len(tail))/len(piece)) + tail
		}
	}
	count := func(head, format, tail string) func() string {
		return func() string {
			var b strings.Builder
			b.WriteString(head)
			for i := 0; b.Len() < MaxSource-len(tail)-80; i++ {
				fmt.Fprintf(&b, format, i, i+1)
			}
			return b.String() + tail
		}
	}
	const stage = "units mm\nmetal m1 { alloy copper, gauge 14 }\nbase pad { feet }\n"
	return map[string]func() string{
		"blanks":               fill("", " ", ""),
		"line ends":            fill("", "\n", ""),
		"comments":             fill("", "#\n", ""),
		"one comment":          fill("# ", "x", ""),
		"one name":             fill("let ", "x", " = 1"),
		"one number":           fill("let x = ", "9", ""),
		"one string":           fill(`sculpture "`, `\"`, `"`),
		"one letter":           fill("", "é ", ""),
		"bytes of no text":     fill("", "\xff", ""),
		"no-break spaces":      fill("", "\u00a0", ""),
		"prime marks":          fill("let x = ", "5′ ", ""),
		"open parentheses":     fill("let x = ", "(", ""),
		"open brackets":        fill("let x = a", "[", ""),
		"open braces":          fill("", "when 1<2 {", ""),
		"closed braces":        fill("", "}", ""),
		"commas":               fill("site {", ",", "}"),
		"properties on a line": fill("base pad { ", "x 1 in, ", "}"),
		"properties on lines":  fill("base pad {\n", "x 1 in\n", "}"),
		"sheets on a line":     fill(stage+"shop { ", "sheet m1 { size 3 by 4 }, ", "}"),
		"sheets of all sizes":  count(stage+"shop {\n", "sheet m1 { size %[2]d by 4 }\n", "}"),
		"offcuts":              count(stage+"shop { sheet m1 { size 3 by 4 }, ", "offcut m1 { size %[2]d by 4, number 2 }, ", "}"),
		"machines twice":       fill(stage+"shop { ", "cutter { kerf 1 }, ", "}"),
		"pushes on a line":     fill(stage+"site { ", "push 3 N at 4, ", "}"),
		"settings on a line":   count("units mm\nadjust x = 1 from 0 to 2\nvariation \"v\" { ", "x%[1]d = %[2]d, ", "}"),
		"a long sum":           fill(stage+"let x = 0", " + 1", ""),
		"long sums":            fill(stage, "let x = 0"+strings.Repeat(" + 1", 900)+"\n", ""),
		"a long call":          fill(stage+"let x = max(0", ", 1", ")"),
		"lets":                 count(stage, "let a%d = %d\n", ""),
		"a chain of lets":      count(stage, "let a%d = a%d\n", ""),
		"lets of nothing":      count(stage, "let a%d = b%d\n", ""),
		"posts":                count(stage, "post p%d on pad { at (%[1]d, 0), diameter 9, length 20, metal m1 }\n", ""),
		"a stack":              count(stage+"ball b0 on pad { diameter 30, halves, metal m1 }\n", "ball b%[2]d on b%[1]d { diameter 30, halves, metal m1 }\n", ""),
		"a stack of posts":     count(stage+"post b0 on pad { diameter 9, length 30, metal m1 }\n", "post b%[2]d on b%[1]d { diameter 9, length 30, metal m1 }\n", ""),
		"branches":             count(stage+"post mast on pad { diameter 90, length 900 m, metal m1 }\n", "post b%[2]d on mast { at %[2]d toward 0 deg, diameter 9, length 30, metal m1 }\n", ""),
		"loose balls":          count(stage, "ball b%d at (%[1]d, 0, 90) { diameter 9, halves, metal m1 }\n", ""),
		"near names":           count(stage, "let name%d = nane%d\n", ""),
		"metals":               count(stage, "metal k%d { alloy copper, gauge 14 }\n", ""),
		"variations":           count(stage+"adjust x = 1 from 0 to 2\n", "variation \"v%d\" { x = 1 }\n", ""),
		"requirements":         fill(stage, "require weight < 1 kg\n", ""),
		"a long requirement":   fill(stage+"require ", "tipping > 1 and ", "tipping > 2"),
		"repeats":              fill(stage, "repeat i from 1 to 1000000 { }\n", ""),
		"repeats in repeats":   fill(stage, strings.Repeat("repeat i from 1 to 1000 { ", 60)+strings.Repeat("}", 60)+"\n", ""),
		"a long row": func() string {
			return stage + "repeat i from 1 to 9000 { ball bead[i] on pad { at (i * 10, 0), diameter 9, halves, metal m1 }\nlet x = bead[i].top + bead[1].top }\n"
		},
		"uses":                 fill("", "bring \"a.stabile\"\n", ""),
		"uses of many":         count("", "bring \"a%d.stabile\"\n", ""),
		"wrong properties":     count(stage+"base q {\n", "wrong%d 3\n", "}"),
		"slash slash":          fill("", "/", ""),
		"minus":                fill(stage+"let x = ", "-", "1"),
		"nots":                 fill(stage+"when ", "not ", "1 < 2 { }"),
		"mixed numbers":        fill(stage+"let x = ", "1-1/2 ft ", ""),
		"dots":                 fill(stage+"let x = pad", ".top", ""),
		"links":                fill(stage+"site { push ", "at 3 ", "}"),
		"statements on a line": fill(stage, "let x = 1 ", ""),
		"quotes":               fill("", "\"\n", ""),
		"curly quotes":         fill("sculpture ", "“x” ", ""),
		"comment in comment":   fill("", "/*", ""),
	}
}

// BenchmarkHostile times the reading and the tidying of each hostile text; none
// is to take more than a second. With -short some do.
func BenchmarkHostile(b *testing.B) {
	texts := hostile()
	names := slices.Sorted(maps.Keys(texts))
	if testing.Short() {
		names = names[:3]
	}
	for _, name := range names {
		text := texts[name]
		b.Run(name, func(b *testing.B) {
			text := text()
			for b.Loop() {
				Evaluate(source.NewFile("hostile.stabile", text), Options{Files: shelf})
			}
		})
		b.Run(name+", tidied", func(b *testing.B) {
			text := text()
			for b.Loop() {
				_, _ = Tidy(source.NewFile("hostile.stabile", text))
			}
		})
	}
}
