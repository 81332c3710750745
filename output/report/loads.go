package report

import "evenswing/output/workshop"

// loadGroup is what is said of one place, row under row.
type loadGroup struct {
	Where string
	Loads []workshop.Load
}

// loadGroups puts loads of one place together, places and loads in their order.
func loadGroups(loads []workshop.Load) []loadGroup {
	var list []loadGroup
	at := map[string]int{}
	for _, l := range loads {
		k, known := at[l.Where]
		if !known {
			k = len(list)
			at[l.Where] = k
			list = append(list, loadGroup{Where: l.Where})
		}
		list[k].Loads = append(list[k].Loads, l)
	}
	return list
}
