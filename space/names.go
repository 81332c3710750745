package space

import (
	"sort"
	"strings"

	"evenswing/space/spelling"
)

// nearest is the known word that a maker may have meant, "" if none is near.
func nearest(word string, known []string) string {
	near, _ := spelling.Nearest(word, known)
	return near
}

// didYouMean asks after the nearest known word, or says otherwise.
func didYouMean(word string, known []string, otherwise string) string {
	if near := nearest(word, known); near != "" {
		return "did you mean " + quoted(near) + "?"
	}
	return otherwise
}

// listed is how many names a message lists before it stops.
const listed = 20

// allowedNames lists the names that exist, "" if there are none.
func allowedNames(names []string) string {
	more := ""
	if len(names) > listed {
		names, more = names[:listed], ", ..."
	}
	short := make([]string, len(names))
	for i, n := range names {
		short[i] = quoted(n)
	}
	return strings.Join(short, ", ") + more
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}
