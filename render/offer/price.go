package offer

import "stabile/render/words"

// toCome stands in the place of a price that cannot be worked out yet.
const toCome = "To be worked out."

// price returns what is said of the price; nothing where none is to be given.
func (w *offer) price() []string {
	if j := w.Design.Job; !w.options.Price && (j == nil || j.Price == 0) {
		return nil
	}
	p, why := w.Job.Price()
	if why != nil {
		return []string{toCome}
	}
	return words.OnPaper(w.Design.Units).Price(p)
}
