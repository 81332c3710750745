package dataset

import (
	"fmt"
)

// writeFloats turns the block round, into the columns of floats.
func (r *Recorder) writeFloats() error {
	step := len(r.layout.Columns)
	r.mixture.rows += r.block.rows
	for c, f := range r.mixture.floats {
		if bad := f.add(r.block.floats[c:], r.block.missing[c:], step, r.block.rows); bad >= 0 {
			return fmt.Errorf("design %d: column %s has no finite value: a fault of this program", r.block.id[bad], f.name)
		}
	}
	return nil
}
