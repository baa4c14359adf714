package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/param/written"
)

// inYard builds a design that uses the example shop.
func inYard(t testing.TB, text string) *fab.Job {
	t.Helper()
	j, wrong := fab.Build(written.Yard(t, text), fab.Everything)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	return j
}

// TestPlanReport holds the section of the report to its keys, and to the rule that
// what was not asked for is left out.
func TestPlanReport(t *testing.T) {
	var r struct {
		Shop *struct {
			Sheets []struct {
				Metal   string
				Size    []float64 `json:"size_mm"`
				Count   int
				Used    float64 `json:"used_ratio"`
				Layouts []struct {
					Copies int
					Pieces []struct {
						Blank  string
						X      *float64 `json:"x_mm"`
						Y      *float64 `json:"y_mm"`
						W      float64  `json:"w_mm"`
						H      float64  `json:"h_mm"`
						Turned *bool
					}
					Cuts []struct {
						Order int
						Along string
						At    *float64 `json:"at_mm"`
						From  *float64 `json:"from_mm"`
						To    float64  `json:"to_mm"`
					}
				}
			}
			Rolling []json.RawMessage
			Weld    float64 `json:"weld_length_mm"`
			Edge    float64 `json:"edge_to_clean_mm"`
			Filler  float64 `json:"filler_kg"`
			Hours   float64
			Cost    *struct {
				Total    float64
				Currency string
			}
		}
	}
	report := func(j *fab.Job) string {
		var b bytes.Buffer
		if err := Of(j).WriteJSON(&b); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	text := report(inYard(t, written.YardPiece))
	if err := json.Unmarshal([]byte(text), &r); err != nil {
		t.Fatal(err)
	}
	s := r.Shop
	if s == nil || len(s.Sheets) == 0 || len(s.Rolling) == 0 || s.Weld <= 0 || s.Edge <= 0 || s.Filler <= 0 || s.Hours <= 0 || s.Cost == nil || s.Cost.Total <= 0 || s.Cost.Currency != "USD" {
		t.Fatalf("shop = %+v", s)
	}
	for _, h := range s.Sheets {
		if h.Metal == "" || len(h.Size) != 2 || h.Count == 0 || !(h.Used > 0 && h.Used < 1) || len(h.Layouts) == 0 {
			t.Errorf("sheet %+v", h)
		}
		for _, l := range h.Layouts {
			for _, p := range l.Pieces {
				if p.Blank == "" || p.X == nil || p.Y == nil || p.Turned == nil || *p.X+p.W > h.Size[0] || *p.Y+p.H > h.Size[1] {
					t.Errorf("piece %+v", p)
				}
			}
			for i, c := range l.Cuts {
				if c.Order != i+1 || c.Along != "x" && c.Along != "y" || c.At == nil || c.From == nil || c.To <= *c.From {
					t.Errorf("cut %+v", c)
				}
			}
		}
	}
	if report(inYard(t, written.YardPiece)) != text {
		t.Error("two reports of one design differ")
	}
	bare := strings.NewReplacer(`bring "lower-yard.stabile"`, "metal skin { alloy low-carbon-steel, gauge 18 }\nmetal slab { alloy low-carbon-steel, thickness 3/8 in }")
	j := inYard(t, bare.Replace(written.YardPiece))
	without := report(j)
	if !strings.Contains(without, `"shop"`) || strings.Contains(without, `"cost": {`) {
		t.Error("the plan is not in the report, or has a cost that nothing gives")
	}
}
