package report

import "evenswing/space"

// sharedNote is one text and every place that it is said of.
type sharedNote struct {
	Wheres []string
	Text   string
}

// sharedNotes says every text once, places and texts in their order.
func sharedNotes(notes []space.Note) []sharedNote {
	var list []sharedNote
	at := map[string]int{}
	for _, n := range notes {
		k, known := at[n.Text]
		if !known {
			k = len(list)
			at[n.Text] = k
			list = append(list, sharedNote{Text: n.Text})
		}
		list[k].Wheres = append(list[k].Wheres, n.Where)
	}
	return list
}
