package words

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Runs writes numbers in order, three or more that follow each other as "1 to 5".
func Runs(numbers []int) string {
	numbers = slices.Sorted(slices.Values(numbers))
	var list []string
	for i := 0; i < len(numbers); {
		j := i + 1
		for j < len(numbers) && numbers[j] == numbers[i]+j-i {
			j++
		}
		if j-i > 2 {
			list = append(list, fmt.Sprintf("%d to %d", numbers[i], numbers[j-1]))
		} else {
			for _, n := range numbers[i:j] {
				list = append(list, strconv.Itoa(n))
			}
		}
		i = j
	}
	return strings.Join(list, ", ")
}
