package dataset

import (
	"fmt"

	"github.com/parquet-go/parquet-go"

	"evenswing/objective"
	"evenswing/search"
)

// open prepares the wanted columns.
func (sc *scan) open(want Want) error {
	for _, name := range want.Floats {
		if err := sc.floats(name); err != nil {
			return err
		}
	}
	if want.IDs {
		if err := sc.numbers(ColumnID, &sc.batch.IDs); err != nil {
			return err
		}
	}
	if want.Tasks {
		if err := sc.small(ColumnEpoch, &sc.batch.Epochs); err != nil {
			return err
		}
		if err := sc.small(ColumnIsland, &sc.batch.Islands); err != nil {
			return err
		}
	}
	if want.Parents {
		for i, name := range []string{ColumnParentA, ColumnParentB} {
			if err := sc.numbers(name, &sc.batch.Parents[i]); err != nil {
				return err
			}
		}
	}
	if err := sc.openAnswers(want); err != nil {
		return err
	}
	return sc.openWords(want)
}

func (sc *scan) openAnswers(want Want) error {
	for _, c := range []struct {
		wanted bool
		name   string
		dst    *[]objective.Meets
	}{
		{want.Meets, ColumnMeets, &sc.batch.Meets},
		{want.Exists, ColumnExists, &sc.batch.Exists},
	} {
		if !c.wanted {
			continue
		}
		cur, err := sc.add(c.name, parquet.Boolean)
		if err != nil {
			return err
		}
		column := make([]objective.Meets, BatchRows)
		sc.fill = append(sc.fill, func(rows int) (int, error) {
			*c.dst = column[:rows]
			return cur.meetsTo(*c.dst)
		})
	}
	return nil
}

func (sc *scan) openWords(want Want) error {
	for _, c := range []struct {
		wanted bool
		name   string
		dst    *[]string
	}{
		{want.Stages, ColumnStage, &sc.batch.Stages},
		{want.Reasons, ColumnReason, &sc.batch.Reasons},
		{want.Limits, ColumnLimit, &sc.batch.Limits},
	} {
		if !c.wanted {
			continue
		}
		cur, err := sc.add(c.name, parquet.ByteArray)
		if err != nil {
			return err
		}
		column := make([]string, BatchRows)
		sc.fill = append(sc.fill, func(rows int) (int, error) {
			*c.dst = column[:rows]
			return cur.wordsTo(*c.dst)
		})
	}
	return nil
}

func (sc *scan) floats(name string) error {
	cur, err := sc.add(name, parquet.Float)
	if err != nil {
		return err
	}
	i := len(sc.batch.Floats)
	values, missing := make([]float32, BatchRows), make([]bool, BatchRows)
	sc.batch.Floats = append(sc.batch.Floats, values)
	sc.batch.Missing = append(sc.batch.Missing, missing)
	sc.fill = append(sc.fill, func(rows int) (int, error) {
		sc.batch.Floats[i], sc.batch.Missing[i] = values[:rows], missing[:rows]
		return cur.floatsTo(values[:rows], missing[:rows])
	})
	return nil
}

func (sc *scan) numbers(name string, dst *[]int64) error {
	cur, err := sc.add(name, parquet.Int64)
	if err != nil {
		return err
	}
	column := make([]int64, BatchRows)
	sc.fill = append(sc.fill, func(rows int) (int, error) {
		*dst = column[:rows]
		return cur.int64sTo(*dst, search.NoParent)
	})
	return nil
}

// small adds a column of numbers that every row has.
func (sc *scan) small(name string, dst *[]int32) error {
	cur, err := sc.add(name, parquet.Int32)
	if err != nil {
		return err
	}
	column := make([]int32, BatchRows)
	sc.fill = append(sc.fill, func(rows int) (int, error) {
		*dst = column[:rows]
		return cur.int32sTo(*dst)
	})
	return nil
}

// add starts a cursor over a column of the kind wanted.
func (sc *scan) add(name string, kind parquet.Kind) (*cursor, error) {
	cur, err := sc.shard.column(name)
	if err != nil {
		return nil, err
	}
	if is := sc.shard.file.Schema().Fields()[cur.column].Type().Kind(); is != kind {
		return nil, fmt.Errorf("%s: column %q holds %s, not %s", sc.shard.Path, name, is, kind)
	}
	sc.cursors = append(sc.cursors, cur)
	return cur, nil
}
