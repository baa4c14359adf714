package words

import (
	"strconv"
	"strings"
)

// Names lists the names of parts, in their order. Copies that follow each other,
// such as a[1], a[2] and a[3], are written by the first and the last: "a[1] to
// a[3]".
func Names(names []string) string {
	var list []string
	for i := 0; i < len(names); {
		base, n, ok := numbered(names[i])
		j := i + 1
		for ok && j < len(names) {
			if b, m, again := numbered(names[j]); !again || b != base || m != n+j-i {
				break
			}
			j++
		}
		if j-i > 2 {
			list = append(list, names[i]+" to "+names[j-1])
		} else {
			list = append(list, names[i:j]...)
		}
		i = j
	}
	return strings.Join(list, ", ")
}

// numbered takes apart the name of a copy, such as "reed[3]".
func numbered(name string) (base string, number int, ok bool) {
	base, rest, ok := strings.Cut(name, "[")
	if !ok || !strings.HasSuffix(rest, "]") {
		return name, 0, false
	}
	number, err := strconv.Atoi(strings.TrimSuffix(rest, "]"))
	return base, number, err == nil
}

// count writes a number of things: "1 post", "3 posts".
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}
