package words

import "strings"

// And strings words together: "a, b and c".
func And(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

// quoted names parts, in quotes.
func quoted(names []string) []string {
	list := make([]string, len(names))
	for i, n := range names {
		list[i] = "'" + n + "'"
	}
	return list
}
