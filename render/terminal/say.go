package terminal

import "stabile/render/words"

// say returns the writer of the report's words.
func (r *report) say() words.Writer { return words.In(r.Design.Units) }
