package dataset

import (
	"fmt"
	"math"

	"github.com/parquet-go/parquet-go"

	"evenswing/objective"
)

func (r *Recorder) writeFloats() error {
	for c := range r.layout.Columns {
		values := r.values[:r.block.rows]
		if bad := r.gatherTo(values, c); bad >= 0 {
			return fmt.Errorf("design %d: column %s has no finite value: a fault of this program", r.block.id[bad], r.layout.Columns[c].Name)
		}
		if err := r.write(r.layout.floats[c], values); err != nil {
			return err
		}
	}
	return nil
}

// gatherTo turns one column of the block round. It answers the first row that
// must not be written, -1 if all may: a value that is no finite number, or none
// at all for an unknown.
func (r *Recorder) gatherTo(values []parquet.Value, column int) (bad int) {
	step := len(r.layout.Columns)
	missing := r.block.missing[column:]
	none := 0
	for i := range values {
		if missing[i*step] {
			none++
		}
	}
	unknown := r.layout.Columns[column].Kind == objective.UnknownColumn
	switch {
	case none == 0 && unknown:
		return gatherRequiredTo(values, r.block.floats[column:], step)
	case unknown:
		return firstMissing(missing, step)
	case none == 0:
		return gatherPresentTo(values, r.block.floats[column:], step)
	case none == len(values):
		clear(values)
		return -1
	}
	return gatherOptionalTo(values, r.block.floats[column:], missing, step)
}

func firstMissing(missing []bool, step int) int {
	for i := 0; ; i++ {
		if missing[i*step] {
			return i
		}
	}
}

func gatherRequiredTo(values []parquet.Value, floats []float32, step int) int {
	bad := -1
	for i := range values {
		v := floats[i*step]
		values[i] = parquet.FloatValue(v)
		if !finite(v) && bad < 0 {
			bad = i
		}
	}
	return bad
}

func gatherPresentTo(values []parquet.Value, floats []float32, step int) int {
	bad := -1
	for i := range values {
		v := floats[i*step]
		values[i] = parquet.FloatValue(v)
		values[i].SetDefinitionLevel(present)
		if !finite(v) && bad < 0 {
			bad = i
		}
	}
	return bad
}

func gatherOptionalTo(values []parquet.Value, floats []float32, missing []bool, step int) int {
	bad := -1
	for i := range values {
		if missing[i*step] {
			values[i] = parquet.Value{}
			continue
		}
		v := floats[i*step]
		values[i] = parquet.FloatValue(v)
		values[i].SetDefinitionLevel(present)
		if !finite(v) && bad < 0 {
			bad = i
		}
	}
	return bad
}

// exponent is all ones in an infinity and in what is not a number.
const exponent = 0x7f800000

func finite(v float32) bool { return math.Float32bits(v)&exponent != exponent }
