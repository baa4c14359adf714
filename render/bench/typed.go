package bench

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"

	"stabile/param"
	"stabile/param/edit"
	"stabile/param/quantity"
	"stabile/param/source"
)

// asTyped is the step of a number that was typed: none that would be seen.
const asTyped = 1e-6

// read reads a number that was typed, as the text would have it.
func readNumber(text, name string, dim quantity.Dimension, u quantity.System) (quantity.Quantity, error) {
	bound := quantity.Quantity{Number: 1e12, Dim: dim}
	least := bound
	least.Number = -bound.Number
	q, err := param.Measure(strings.TrimSpace(text), name, u, least, bound)
	var wrong *source.Error
	if errors.As(err, &wrong) {
		d := wrong.List[0]
		if d.Hint != "" {
			return q, fmt.Errorf("%s: %s", d.Text, d.Hint)
		}
		return q, errors.New(d.Text)
	}
	return q, err
}

// typed sets a number of a part to what was typed.
func (s *Server) typed(t *edit.Text, at edit.Place, text string) (*edit.Set, error) {
	if s.options.Sealed {
		return nil, errors.New("the bench was started to read only")
	}
	list, err := t.NumbersOf(at.Part)
	if err != nil {
		return nil, err
	}
	for _, g := range list {
		if g.Place != at {
			continue
		}
		q, err := readNumber(text, g.Label, g.Dim, t.Units())
		if err != nil {
			return nil, err
		}
		return t.Set(edit.Wish{Place: at, Value: q, Step: asTyped})
	}
	return nil, errors.New("there is no number there")
}

// slide sets an adjustable value to a share of its range.
func (s *Server) slide(ctx context.Context, t *edit.Text, q *edition) (*edited, error) {
	j, err := s.standing(ctx, &q.state)
	if err != nil {
		return nil, err
	}
	if !quantity.Finite(q.Slide.At) {
		return nil, refuse(400, "this is not understood")
	}
	for _, a := range j.Design.Adjust {
		if a.Name != q.Slide.Name {
			continue
		}
		v := a.From
		wide := a.To.Number - a.From.Number
		v.Number += wide * max(0, min(1, q.Slide.At))
		if n := a.Step.Number; n > 0 {
			v.Number = a.From.Number + math.Round((v.Number-a.From.Number)/n)*n
		}
		set, err := t.SetNamed(a.Name, v, 0)
		if err != nil {
			return nil, errors.New(said(err))
		}
		return &edited{dragged: *changedBy(set)}, nil
	}
	return nil, refuse(404, "there is no such name to adjust")
}

// take sets adjustable values in the text, one after the other.
func (s *Server) take(t *edit.Text, settings []string) (*edited, error) {
	e := &edited{}
	for _, setting := range settings {
		name, value, _ := strings.Cut(setting, "=")
		name = strings.TrimSpace(name)
		dim, ok := t.Dimension(name)
		if !ok {
			return nil, refuse(404, "there is no such name to adjust")
		}
		v, err := readNumber(value, name, dim, t.Units())
		if err != nil {
			return nil, err
		}
		set, err := t.SetNamed(name, v, asTyped)
		if err != nil {
			return nil, errors.New(said(err))
		}
		e.dragged = *changedBy(set)
		t = t.Again(set.Text)
	}
	return e, nil
}
