package design_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/param/design"
)

// TestSets joins numbers in a chain and from both ends.
func TestSets(t *testing.T) {
	s := design.NewSets(7)
	s.Join(5, 3)
	s.Join(6, 5)
	s.Join(1, 2)
	roots := func() (list []int) {
		for i := range s {
			list = append(list, s.Root(i))
		}
		return list
	}
	require.Equal(t, []int{0, 1, 1, 3, 4, 3, 3}, roots())
	s.Join(2, 6)
	s.Join(6, 2)
	require.Equal(t, []int{0, 1, 1, 1, 4, 1, 1}, roots())
}
