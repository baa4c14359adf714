package frame

// A table has a row for each unknown and a column for each case, in blocks of the
// six rows of a body. Blocks that are all zero need not be there.
type table struct {
	columns int
	at      []int32 // of each block, its place in value, in blocks; -1 where it is not there
	value   []float64
	full    bool // every block is there
}

// fullTable returns a table of zeros.
func fullTable(rows, columns int) table {
	t := table{columns: columns, at: make([]int32, rows/six), value: make([]float64, rows*columns), full: true}
	for i := range t.at {
		t.at[i] = int32(i)
	}
	return t
}

// emptyTable returns a table of zeros of which no block is there.
func emptyTable(rows, columns int) table {
	t := table{columns: columns, at: make([]int32, rows/six)}
	for i := range t.at {
		t.at[i] = -1
	}
	return t
}

// block returns the rows of a block, one after the other; nil where it is not there.
func (t *table) block(i int) []float64 {
	at, size := int(t.at[i]), six*t.columns
	if at < 0 {
		return nil
	}
	return t.value[at*size : (at+1)*size]
}

// take returns the rows of a block, which is there from then on. Rows that were
// returned before are then no longer those of the table.
func (t *table) take(i int) []float64 {
	if t.at[i] < 0 {
		size := six * t.columns
		t.at[i] = int32(len(t.value) / size)
		t.value = append(t.value, make([]float64, size)...)
	}
	return t.block(i)
}
