package bench

import (
	"context"
	"errors"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/edit"
	"stabile/render/draft"
)

// A partQuestion asks for what can be changed of a part.
type partQuestion struct {
	state
	Part string `json:"part"`
}

// A card is what can be changed of a part: its numbers, and its handles.
type card struct {
	Part    string   `json:"part"`
	Kind    string   `json:"kind"`
	Numbers []number `json:"numbers"`
	Hands   []*hand  `json:"hands"`
	Sizes   []size   `json:"sizes"`
	Step    float64  `json:"step"` // of a key, in mm
	Above   []string `json:"above"`
}

// A number is one of the text, to be typed over.
type number struct {
	Property   string `json:"property"`
	Argument   int    `json:"argument"`
	Coordinate int    `json:"coordinate"`
	Label      string `json:"label"`
	Text       string `json:"text"`
	Grey       string `json:"grey,omitempty"` // why it cannot be changed
}

func (s *Server) part(ctx context.Context, q partQuestion) (*card, error) {
	j, err := s.standing(ctx, &q.state)
	if err != nil {
		return nil, err
	}
	p := j.Design.Part(q.Part)
	if p == nil {
		return nil, refuse(404, "there is no such part")
	}
	if p.Base != nil && p.Base.Pad { // it is said of the post on it
		if i := slices.IndexFunc(j.Design.Parts, func(o *design.Part) bool { return o.Host() == p }); i >= 0 {
			p = j.Design.Parts[i]
		}
	}
	t := s.reader(&q.state)
	c := &card{Part: p.Name, Kind: p.Kind(), Numbers: []number{}, Hands: []*hand{}, Step: step(j.Design.Units, false), Above: []string{}}
	given, err := t.NumbersOf(p.Name)
	if err != nil {
		return nil, errors.New(said(err))
	}
	for _, g := range given {
		c.Numbers = append(c.Numbers, number{Property: g.Property, Argument: g.Argument, Coordinate: g.Coordinate, Label: g.Label, Text: g.Text})
	}
	c.Sizes = measures(j, p, c.Numbers)
	for _, h := range hands(j, p.Name) {
		if s.options.Sealed {
			h.Grey = "the bench was started to read only"
		} else if _, err := setAll(t, h.wishes(r3.Vec{}, draft.Front), false, j.Design.Units); err != nil {
			h.Grey = said(err)
		}
		c.Hands = append(c.Hands, h)
	}
	if gone, err := t.Remove(p.Name); err == nil {
		for _, f := range gone.Fallen {
			if f.Name != "" && f.Name != p.Name {
				c.Above = append(c.Above, f.Name)
			}
		}
	}
	return c, nil
}

// An edition asks for one change of the text.
type edition struct {
	state
	Number *struct {
		Part       string `json:"part"`
		Property   string `json:"property"`
		Argument   int    `json:"argument"`
		Coordinate int    `json:"coordinate"`
		Value      string `json:"value"`
	} `json:"number"` // type over a number
	Slide *struct {
		Name string  `json:"name"`
		At   float64 `json:"at"` // as a share of the range
	} `json:"slide"`
	Settings []string  `json:"settings"` // such as "rise=30 in", into the text
	Add      *addition `json:"add"`
	Remove   string    `json:"remove"` // a part, with what stands on it
}

// An edited is the text after a change.
type edited struct {
	dragged
	Part   string   `json:"part,omitempty"` // that was added
	Fallen []string `json:"fallen,omitempty"`
}

func (s *Server) edit(ctx context.Context, q edition) (*edited, error) {
	t := s.reader(&q.state)
	switch {
	case q.Number != nil:
		n := q.Number
		set, err := s.typed(t, edit.Place{Part: n.Part, Property: n.Property, Argument: n.Argument, Coordinate: n.Coordinate}, n.Value)
		if err != nil {
			return nil, errors.New(said(err))
		}
		return &edited{dragged: *changedBy(set)}, nil
	case q.Slide != nil:
		return s.slide(ctx, t, &q)
	case len(q.Settings) > 0:
		return s.take(t, q.Settings)
	case q.Add != nil:
		return s.add(ctx, t, &q)
	case q.Remove != "":
		gone, err := t.Remove(q.Remove)
		if err != nil {
			return nil, errors.New(said(err))
		}
		e := &edited{dragged: dragged{Text: gone.Text}}
		for _, f := range gone.Fallen {
			if f.Name != "" {
				e.Fallen = append(e.Fallen, f.Name)
			}
		}
		at := &ruler{text: gone.Text}
		if len(gone.Undo) > 0 {
			e.From = at.units(gone.Undo[0].From)
			e.To = e.From
		}
		return e, nil
	}
	return nil, refuse(400, "this is not understood")
}
