package bench

import (
	"context"
	"fmt"
	"io/fs"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/examples"
	"stabile/fab"
	"stabile/param"
	"stabile/param/edit"
	"stabile/param/source"
)

// settledOn serves the examples in a folder of their own.
func settledOn(t *testing.T) *Server {
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, examples.Files))
	s, err := New(Options{Dir: dir})
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.Close()) })
	return s
}

// Every handle of every part of two examples, pulled in each of its views, is refused
// with a reason, or moves the way that it is pulled and nothing else of the text than
// numbers; and the change can be taken back.
func TestHands(t *testing.T) {
	s := settledOn(t)
	moved, refused := 0, 0
	for _, name := range []string{"slow-tide.stabile", "winter-orchard.stabile"} {
		text, err := fs.ReadFile(examples.Files, name)
		require.NoError(t, err)
		q := &state{File: name, Text: string(text)}
		r, err := s.build(q, fab.AllowClashes)
		require.NoError(t, err)
		s.jobs.keep(r)
		for _, p := range r.job.Design.Parts {
			for _, h := range hands(r.job, p.Name) {
				for view, at := range h.At {
					if at == nil {
						continue
					}
					for _, by := range [][2]float64{{9, 0}, {-8, 7}} {
						d := &drag{Part: p.Name, Hand: h.Name, View: view, By: by, Fine: true}
						got, err := s.drag(context.Background(), q, d)
						if err != nil {
							refused++
							require.NotEmpty(t, said(err))
							continue
						}
						after, err := s.build(&state{File: name, Text: got.Text}, fab.AllowClashes)
						require.NoError(t, err)
						if after.job == nil {
							continue // it would be a mistake there, which the page says
						}
						now := handOf(hands(after.job, p.Name), h.Name)
						require.NotNil(t, now, "%s of %s", h.Name, p.Name)
						dx, dy := now.At[view][0]-at[0], -(now.At[view][1] - at[1])
						along := dx*by[0] + dy*by[1]
						if h.Name == "size" {
							along = dx * by[0] // a ball that shrinks on what it rests on sinks with it
						}
						if moved++; got.named {
							continue // other parts go with it, and carry it elsewhere
						}
						// Where only one way can be moved, or a range ends, less is done, but never the opposite.
						require.GreaterOrEqual(t, along, -0.25*(math.Hypot(by[0], by[1])), "%s: %s of %s by %v in view %d moved by %.2f, %.2f", name, h.Name, p.Name, by, view, dx, dy)
					}
				}
			}
		}
	}
	t.Logf("%d moved, %d refused", moved, refused)
	require.Greater(t, moved, 50)
}

// A free handle goes where it is pulled, within the finest step.
func TestHandGoesThere(t *testing.T) {
	s := settledOn(t)
	text := `sculpture "Free"
units mm
metal skin { alloy low-carbon-steel, thickness 1.2 mm }
metal slab { alloy low-carbon-steel, thickness 10 mm }
base pad { plate 900 mm by 800 mm, metal slab }
post mast on pad { at (10 mm, 20 mm), diameter 80 mm, length 700 mm, lean 6 deg toward 40 deg, metal skin }
ball moon on mast { diameter 250 mm, gores 12, offset 10 mm toward 200 deg, metal skin }
post spar on moon { diameter 50 mm, length 400 mm, offset 20 mm toward 90 deg, lean 8 deg toward 190 deg, metal skin }
ball eye on spar { diameter 120 mm, gores 8, metal skin }
post twig on mast { at 300 mm toward 0 deg, lean 60 deg toward 0 deg, diameter 30 mm, length 200 mm, metal skin }
`
	q := &state{File: "free.stabile", Text: text}
	r, err := s.build(q, fab.AllowClashes)
	require.NoError(t, err)
	require.Empty(t, r.wrong)
	s.jobs.keep(r)
	for _, tt := range []struct {
		part, hand string
		view       int
		by         [2]float64
		most       float64 // mm: a fine step in each number, over the length of the part
	}{
		{"mast", "head", 0, [2]float64{30, 25}, 2}, {"mast", "head", 1, [2]float64{-30, 10}, 2}, {"spar", "head", 0, [2]float64{-20, 15}, 1.5},
		{"mast", "foot", 2, [2]float64{12.3, -7.7}, 0.3}, {"mast", "foot", 0, [2]float64{12.3, 0}, 0.3},
		{"moon", "centre", 2, [2]float64{15, 5}, 1.5}, {"moon", "size", 0, [2]float64{11, 0}, 1.5}, {"eye", "centre", 2, [2]float64{0, 12}, 1.5},
		{"mast", "side", 0, [2]float64{5, 0}, 0.5}, {"spar", "foot", 2, [2]float64{8, 8}, 0.5}, {"pad", "width", 2, [2]float64{40, 0}, 0.3}, {"pad", "depth", 1, [2]float64{-33, 0}, 0.3},
	} {
		h := handOf(hands(r.job, tt.part), tt.hand)
		got, err := s.drag(context.Background(), q, &drag{Part: tt.part, Hand: tt.hand, View: tt.view, By: tt.by, Fine: true})
		require.NoError(t, err, "%s of %s", tt.hand, tt.part)
		after, err := s.build(&state{File: q.File, Text: got.Text}, fab.AllowClashes)
		require.NoError(t, err)
		require.NotNil(t, after.job, "%s of %s: %v", tt.hand, tt.part, after.wrong)
		now := handOf(hands(after.job, tt.part), tt.hand)
		dx, dy := now.At[tt.view][0]-h.At[tt.view][0], -(now.At[tt.view][1] - h.At[tt.view][1])
		if tt.hand == "size" {
			dy = tt.by[1] // a ball that grows on what it rests on rises with it
		}
		require.Less(t, math.Hypot(dx-tt.by[0], dy-tt.by[1]), tt.most, "%s of %s in view %d, pulled by %v, went %.2f, %.2f", tt.hand, tt.part, tt.view, tt.by, dx, dy)
	}
}

// TestMeasures: the drawing shows each number of a part where it is measured, with the size
// that the part has: of a bowl its rim and its depth, not the ball that it is part of.
func TestMeasures(t *testing.T) {
	const text = `units mm
metal skin { alloy low-carbon-steel, thickness 2 mm }
base lawn { feet }
post stem on lawn { diameter 80 mm to 60 mm, length 700 mm, metal skin }
bowl dish on stem { diameter 400 mm, depth 150 mm, gores 12, metal skin }
ball moon at (900 mm, 0 mm, 500 mm) { diameter 300 mm, halves, metal skin }
post leg from lawn to moon { at (900 mm, 0 mm), diameter 50 mm, metal skin }
`
	d, wrong := param.Evaluate(source.NewFile("piece.stabile", text), param.Options{})
	require.Empty(t, wrong)
	j, wrong := fab.Build(d, 0)
	require.Empty(t, wrong)
	for _, tt := range []struct {
		part string
		want map[string]string // of a property with its argument
	}{
		{"stem", map[string]string{"diameter 0": "80 mm", "diameter 1": "60 mm", "length 0": "700 mm"}},
		{"dish", map[string]string{"diameter 0": "400 mm", "depth 0": "150 mm"}},
		{"moon", map[string]string{"diameter 0": "300 mm"}},
		{"leg", map[string]string{"diameter 0": "50 mm"}},
	} {
		given, err := edit.Read("piece.stabile", text, edit.Options{}).NumbersOf(tt.part)
		require.NoError(t, err)
		var numbers []number
		for _, g := range given {
			numbers = append(numbers, number{Property: g.Property, Argument: g.Argument, Coordinate: g.Coordinate})
		}
		got := map[string]string{}
		for _, s := range measures(j, d.Part(tt.part), numbers) {
			n := numbers[s.Number]
			got[fmt.Sprint(n.Property, " ", n.Argument)] = s.Text
			long := math.Hypot(s.To[0]-s.From[0], s.To[1]-s.From[1])
			require.Equal(t, s.Text, fmt.Sprintf("%.0f mm", long), "%s: as long as it says", tt.part)
		}
		require.Equal(t, tt.want, got, tt.part)
	}
}
