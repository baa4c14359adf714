package cli

import (
	"errors"
	"slices"
	"strings"

	"stabile/fab"
	"stabile/render/pack"
)

// books is the value of a flag that names books of a pack, with commas between.
type books []pack.BookName

func (b *books) Set(s string) error {
	for name := range strings.SplitSeq(s, ",") {
		n := pack.BookName(strings.ToLower(strings.TrimSpace(name)))
		if !slices.Contains(pack.BookNames(), n) {
			return errors.New("the books are bench, engineer and office")
		}
		if !slices.Contains(*b, n) {
			*b = append(*b, n)
		}
	}
	return nil
}

func (b *books) String() string { return "" }
func (b *books) Type() string   { return "book" }

// skip is the value of a flag that names what a pack leaves out.
type skip bool

func (s *skip) Set(what string) error {
	if what != "ready-cut" {
		return errors.New("what can be skipped is ready-cut: what is bought cut to size")
	}
	*s = true
	return nil
}

func (s *skip) String() string { return "" }
func (s *skip) Type() string   { return "what" }

// theParts returns names of parts that are all in a design. A name without an index
// stands for all the parts that are repeated under it.
func theParts(j *fab.Job, names []string) ([]string, error) {
	var list []string
	for _, name := range names {
		name = strings.TrimSpace(name)
		found := false
		for i := range j.Parts {
			p := j.Parts[i].Name
			if p == name || strings.HasPrefix(p, name+"[") {
				list = append(list, p)
				found = true
			}
		}
		if !found {
			var all []string
			for i := range j.Parts {
				all = append(all, j.Parts[i].Name)
			}
			return nil, misuse("its parts are "+strings.Join(all, ", "), "the design has no part '%s'", name)
		}
	}
	return list, nil
}
