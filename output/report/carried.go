package report

import "evenswing/output/workshop"

// lightShare of the worst utilisation: what uses less is shown apart, in print in
// two columns, since nothing is decided by it.
const lightShare = 0.1

// carriedShare is what every joint carries, parted by how much of it is used.
type carriedShare struct{ Heavy, Light []workshop.Carried }

// carriedShares parts the rows, each part in their order; what is not judged is heavy.
func carriedShares(rows []workshop.Carried) (parted carriedShare) {
	worst := 0.0
	for _, c := range rows {
		if c.Utilisation != nil {
			worst = max(worst, *c.Utilisation)
		}
	}
	for _, c := range rows {
		if c.Utilisation != nil && *c.Utilisation < lightShare*worst {
			parted.Light = append(parted.Light, c)
		} else {
			parted.Heavy = append(parted.Heavy, c)
		}
	}
	return parted
}
