package bench

import (
	"context"
	"errors"

	"stabile/param"
	"stabile/param/edit"
	"stabile/param/source"
)

// A placeQuestion asks about a place of the text, in units of UTF-16.
type placeQuestion struct {
	state
	At int `json:"at"`
}

// A completion is what may stand at a place.
type completion struct {
	From  int     `json:"from"`
	To    int     `json:"to"`
	Words []entry `json:"words"`
	Here  *entry  `json:"here,omitempty"` // the word that stands there
}

// An entry is a word of the language with what it says.
type entry struct {
	Text    string    `json:"text"`
	Sort    edit.Sort `json:"sort"`
	Form    string    `json:"form,omitempty"`
	Meaning string    `json:"meaning,omitempty"`
	Default string    `json:"default,omitempty"`
	Example string    `json:"example,omitempty"`
}

func entryOf(w *edit.Word) entry {
	return entry{w.Text, w.Sort, w.Form, w.Meaning, w.Default, w.Example}
}

// mostOffered is how many words are offered at a place.
const mostOffered = 40

func (s *Server) complete(_ context.Context, q placeQuestion) (*completion, error) {
	if err := named(q.File); err != nil {
		return nil, err
	}
	t := s.reader(&q.state)
	r := &ruler{text: q.Text}
	offset := r.offset(q.At)
	from, to, list := t.Complete(offset)
	c := &completion{From: r.units(from), To: r.units(to), Words: []entry{}}
	for i := range list[:min(len(list), mostOffered)] {
		c.Words = append(c.Words, entryOf(&list[i]))
	}
	if w, _, _, ok := t.About(offset); ok {
		e := entryOf(&w)
		c.Here = &e
	}
	return c, nil
}

// A tidied is a text in the neat style.
type tidied struct {
	Text string `json:"text"`
}

func (s *Server) tidy(_ context.Context, q state) (*tidied, error) {
	if err := named(q.File); err != nil {
		return nil, err
	}
	text, list := param.Tidy(source.NewFile(q.File, q.Text))
	if len(list) > 0 {
		return nil, errors.New("mend the mistakes first, then it can be tidied")
	}
	return &tidied{string(text)}, nil
}
