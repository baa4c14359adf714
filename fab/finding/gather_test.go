package finding

import (
	"reflect"
	"testing"
)

// said is a fact that joins by the greater figure.
type said struct {
	kind   string
	figure float64
}

func (said) Fact() {}

func (s said) Join(other Fact) (Fact, bool) {
	o, ok := other.(said)
	if !ok || o.kind != s.kind {
		return nil, false
	}
	return said{s.kind, max(s.figure, o.figure)}, true
}

// listed is a fact that cannot be compared by ==.
type listed struct{ names []string }

func (listed) Fact() {}

// TestGather holds the order, and what becomes one.
func TestGather(t *testing.T) {
	in := []Finding{
		{Level: Note, Concern: Work, Parts: []string{"a"}, Fact: said{"lobes", 1}},
		{Level: Note, Concern: Work, Parts: []string{"b"}, Fact: said{"lobes", 3}},
		{Level: Note, Concern: Work, Parts: []string{"b"}, Fact: said{"tips", 3}},
		{Level: Fault, Concern: Money, Fact: listed{[]string{"x"}}},
		{Level: Caution, Concern: Life, Parts: []string{"a"}, Fact: listed{[]string{"x"}}},
		{Level: Caution, Concern: Life, Parts: []string{"c"}, Fact: listed{[]string{"x"}}},
		{Level: Danger, Concern: Life, Fact: listed{nil}},
		{Level: Fault, Concern: Work, Parts: []string{"a"}, Fact: said{"lobes", 2}},
	}
	want := []Finding{
		{Level: Danger, Concern: Life, Fact: listed{nil}},
		{Level: Caution, Concern: Life, Parts: []string{"a", "c"}, Fact: listed{[]string{"x"}}},
		{Level: Fault, Concern: Work, Parts: []string{"a"}, Fact: said{"lobes", 2}},
		{Level: Note, Concern: Work, Parts: []string{"a", "b"}, Fact: said{"lobes", 3}},
		{Level: Note, Concern: Work, Parts: []string{"b"}, Fact: said{"tips", 3}},
		{Level: Fault, Concern: Money, Fact: listed{[]string{"x"}}},
	}
	if got := Gather(in); !reflect.DeepEqual(got, want) {
		t.Errorf("Gather = %+v, want %+v", got, want)
	}
	if !reflect.DeepEqual(in[0].Parts, []string{"a"}) {
		t.Error("what was gathered is changed")
	}
}
