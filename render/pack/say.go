package pack

import (
	"stabile/fab/check"
	"stabile/render/words"
)

// say returns the writer of the words on the sheets.
func (k *pack) say() words.Writer { return words.OnPaper(k.units) }

// load returns a load in words.
func (k *pack) load(c check.Case) string { return k.say().Case(c) }

// brief returns a load in the few words of a table's cell.
func (k *pack) brief(c check.Case) string { return k.say().BriefCase(c) }
