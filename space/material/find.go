package material

import (
	"strings"

	"evenswing/space/spelling"
)

// Find is the index of the material that goes by a name, upper and lower case
// being alike. A material's own name goes before aliases, so that a rig file
// may define its own "oak".
func Find(list []Material, name string) (int, bool) {
	name = strings.Join(strings.Fields(name), " ")
	for i := range list {
		if strings.EqualFold(list[i].Name, name) {
			return i, true
		}
	}
	for i := range list {
		for _, alias := range list[i].Aliases {
			if strings.EqualFold(alias, name) {
				return i, true
			}
		}
	}
	return 0, false
}

// Nearest is the name or alias in the list that name was probably meant to be;
// "" if none is near.
func Nearest(list []Material, name string) string {
	var known []string
	for i := range list {
		known = append(known, list[i].Name)
		known = append(known, list[i].Aliases...)
	}
	near, _ := spelling.Nearest(name, known)
	return near
}
