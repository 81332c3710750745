package objective

import (
	"fmt"

	"evenswing/space"
)

// measureStock is the worst of what the design takes of the stock over what that
// gives; 0 where the stock gives all of it: using half of it is no better than using it up.
func (w *Workspace) measureStock(d *space.Design) float64 {
	if worst := space.Worst(w.stockist.List(d)); worst != nil {
		return worst.Use
	}
	return 0
}

// stockWords tells what of the stock decides, where the design cannot be made of it;
// else "". It allocates.
func (w *Workspace) stockWords() string {
	p := space.Worst(w.stockist.List(w.Design()))
	if p == nil || !(p.Use > 1) {
		return ""
	}
	what := p.Of + ", " + p.What
	if p.Thick > 0 {
		what += fmt.Sprintf(" of %.4g mm", 1000*p.Thick)
	}
	switch {
	case p.Misfits > 0:
		return fmt.Sprintf("%s: %d larger than any of the stock", what, p.Misfits)
	case p.Need == 0:
		return what + ": the stock has none"
	}
	return fmt.Sprintf("%s: it takes %d of the stock, %d there", what, p.Need, p.Have)
}
