package cli

import (
	"fmt"

	"stabile/param/source"
)

// didYouMean returns a hint that names the candidate nearest to a word, or the
// other hint where none is near.
func didYouMean(word string, candidates []string, otherwise string) string {
	if near, ok := source.Suggest(word, candidates); ok {
		return fmt.Sprintf("did you mean '%s'?", near)
	}
	return otherwise
}
