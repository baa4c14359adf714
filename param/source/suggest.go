package source

import (
	"strings"
	"unicode/utf8"
)

// maxSlips is the largest number of slips between what is written and what is
// suggested. Three slips make another word of most words of the trade.
const maxSlips = 2

// shortWord is the longest word, in characters, of which two slips would be as
// many as half its letters.
const shortWord = 4

// maxSuggest is the longest word, in characters, that a suggestion is looked
// for: longer than any name that is typed by hand.
const maxSuggest = 64

// Suggest returns the one of the given words that the given word was most
// likely meant to be: the first of those with the fewest slips, each a letter
// left out, put in, changed, or swapped with its neighbour. It reports false
// when the nearest word has more than two slips, or more than one from a word
// of up to four letters, or any from a single letter; but where just one of the words goes
// on from the given one after a hyphen, or the given one from it, that is meant.
func Suggest(word string, from []string) (string, bool) {
	n := utf8.RuneCountInString(word)
	if n < 2 || n > maxSuggest {
		return "", false
	}
	best, slips := "", maxSlips+1
	if n <= shortWord {
		slips = 2
	}
	for _, w := range from {
		if m := utf8.RuneCountInString(w); m-n >= slips || n-m >= slips || w == word {
			continue
		}
		if d := distance(word, w); d < slips {
			best, slips = w, d
		}
	}
	if best == "" {
		best = continued(word, from)
	}
	return best, best != ""
}

// continued returns the only word that goes on from a word after a hyphen, or that it
// goes on from; "" where there is none, or more.
func continued(word string, from []string) (only string) {
	for _, w := range from {
		if !strings.HasPrefix(w, word+"-") && !strings.HasPrefix(word, w+"-") {
			continue
		}
		if only != "" {
			return ""
		}
		only = w
	}
	return only
}

// distance returns the number of slips between two words: the optimal string
// alignment distance, found row by row.
func distance(a, b string) int {
	from, to := []rune(a), []rune(b)
	var row [3][]int // the row before last, the last, and the one in hand
	for i := range row {
		row[i] = make([]int, len(to)+1)
	}
	for j := range to {
		row[1][j+1] = j + 1
	}
	for i, r := range from {
		row[2][0] = i + 1
		for j, s := range to {
			cost := 1
			if r == s {
				cost = 0
			}
			d := min(row[1][j]+cost, row[1][j+1]+1, row[2][j]+1)
			if i > 0 && j > 0 && r == to[j-1] && from[i-1] == s {
				d = min(d, row[0][j-1]+1)
			}
			row[2][j+1] = d
		}
		row[0], row[1], row[2] = row[1], row[2], row[0]
	}
	return row[1][len(to)]
}
