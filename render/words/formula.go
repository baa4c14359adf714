package words

import (
	"strings"
	"unicode"
)

// signs are how the formulas of fab, which keep to the letters of a typewriter, are
// set on a sheet.
var signs = strings.NewReplacer(
	"alpha", "α", "lambda", "λ", "Omega", "Ω", "rho", "ρ", "sqrt(", "√(", "sum of ", "∑ ",
	"^2", "²", "^3", "³", "^4", "⁴", " x ", " × ", ">=", "≥", "<=", "≤",
	"lbf/ft2", "lbf/ft²", "kg/m3", "kg/m³", "pi/", "π/", "pi ", "π ", "mu (", "μ (", " deg", "°",
)

// Formula returns a symbol, a formula or a unit of a calculation with the letters
// and signs of a sheet.
func Formula(s string) string {
	if s == "mu" {
		return "μ"
	}
	return signs.Replace(joinSubscripts(s))
}

// joinSubscripts takes the underscore out between a symbol and its subscript.
func joinSubscripts(s string) string {
	r := []rune(s)
	var b strings.Builder
	for i, c := range r {
		if c == '_' && i > 0 && i+1 < len(r) && unicode.IsLetter(r[i-1]) && (unicode.IsLetter(r[i+1]) || unicode.IsDigit(r[i+1])) {
			continue
		}
		b.WriteRune(c)
	}
	return b.String()
}
