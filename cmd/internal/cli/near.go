package cli

import "fmt"

// slips is how many letters a word may differ in from the one meant; a short
// word in fewer, less than half of its own.
const slips = 2

// didYouMean returns a hint that names the candidate nearest to a word, or the
// other hint where none is near.
func didYouMean(word string, candidates []string, otherwise string) string {
	best, least := "", min(slips, (len([]rune(word))-1)/2)+1
	for _, c := range candidates {
		if n := distance(word, c); n < least {
			best, least = c, n
		}
	}
	if best == "" {
		return otherwise
	}
	return fmt.Sprintf("did you mean '%s'?", best)
}

// distance returns the least number of letters to put in, leave out, change or
// swap with the next that makes one word of the other (Damerau's distance with
// adjacent transpositions).
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	before, above, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(s); i++ {
		before, above, row = above, row, before
		row[0] = i
		for j := 1; j <= len(t); j++ {
			change := above[j-1]
			if s[i-1] != t[j-1] {
				change++
			}
			row[j] = min(change, above[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
	}
	return row[len(t)]
}
