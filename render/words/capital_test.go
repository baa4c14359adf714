package words

import "testing"

func TestCapital(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "a sheet": "A sheet", "écrou": "Écrou", "ß": "ß", "18 ga": "18 ga", "Zinc": "Zinc", "\xff": "\xff",
	} {
		if got := Capital(in); got != want {
			t.Errorf("Capital(%q) = %q, want %q", in, got, want)
		}
	}
}
