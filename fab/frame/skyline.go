package frame

import "math"

// A skyline is a symmetric matrix of which each row is kept from its first
// entry to the diagonal.
type skyline struct {
	first []int // the column of the first entry of a row
	start []int // of the row's entries in the list
	value []float64
}

// newSkyline returns an empty matrix whose rows begin at the given columns.
func newSkyline(first []int) *skyline {
	s := &skyline{first: first, start: make([]int, len(first)+1)}
	for i, c := range first {
		s.start[i+1] = s.start[i] + i - c + 1
	}
	s.value = make([]float64, s.start[len(first)])
	return s
}

// alike returns an empty matrix of the same shape.
func (s *skyline) alike() *skyline {
	return &skyline{first: s.first, start: s.start, value: make([]float64, len(s.value))}
}

func (s *skyline) row(i int) []float64 { return s.value[s.start[i]:s.start[i+1]] }

// addBlock adds to the entries from row i and column j on, of which only those
// on or under the diagonal are kept.
func (s *skyline) addBlock(i, j int, k *joined) {
	for a := range 6 {
		row := s.row(i + a)
		for b := range 6 {
			if c := j + b; c <= i+a {
				row[c-s.first[i+a]] += k[a/3][b/3][a%3][b%3]
			}
		}
	}
}

// factor turns the matrix into the factors L and D of L D L', in place, and
// returns how many pivots are negative. A pivot that loses all of its figures
// stops it: then bad is its row, else -1.
func (s *skyline) factor() (negative, bad int) {
	// What is left of a diagonal after subtraction is rounding when it falls
	// under this share of it: the stiffest and the softest of a frame are some
	// 1e9 apart.
	const lost = 1e-13
	for i := range s.first {
		row, fi := s.row(i), s.first[i]
		for j := fi; j < i; j++ {
			other, fj := s.row(j), s.first[j]
			from := max(fi, fj)
			a, b := row[from-fi:j-fi], other[from-fj:j-fj]
			sum := row[j-fi]
			for k, x := range a {
				sum -= x * b[k]
			}
			row[j-fi] = sum
		}
		whole := row[i-fi]
		pivot := whole
		for j := fi; j < i; j++ {
			d := s.value[s.start[j+1]-1]
			l := row[j-fi] / d
			pivot -= l * row[j-fi]
			row[j-fi] = l
		}
		if math.Abs(pivot) <= lost*math.Abs(whole) || math.IsNaN(pivot) {
			return negative, i
		}
		if pivot < 0 {
			negative++
		}
		row[i-fi] = pivot
	}
	return negative, -1
}
