package dataset

import (
	"fmt"
	"reflect"
	"slices"

	"github.com/parquet-go/parquet-go"

	"evenswing/objective"
)

// The columns of a candidates file that every rig has.
const (
	ColumnID      = "id"
	ColumnEpoch   = "epoch"
	ColumnIsland  = "island"
	ColumnStage   = "stage"
	ColumnParentA = "parent_a"
	ColumnParentB = "parent_b"
	ColumnMeets   = "meets"
	ColumnExists  = "exists"
	ColumnReason  = "reason"
	ColumnLimit   = "worst_limit"
)

// Layout is the order and the kind of a file's columns: who a row is, then the
// float columns (unknowns, figures, utilisations, score), then the verdict in
// words. It is immutable.
type Layout struct {
	Columns []objective.Column
	schema  *parquet.Schema
	leaf    map[string]int  // file column by name; not for the hot path
	words   *parquet.Schema // of the columns that the library writes
	word    map[string]int  // and their places there

	averaged int // number of objective.AveragedColumn, −1 where there is none
}

// NewLayout describes files with the given float columns. A column of an
// unknown always has a value; the others may be null.
func NewLayout(columns []objective.Column) (*Layout, error) {
	fields := rowFields()
	for _, c := range columns {
		fields = append(fields, floatField(c))
	}
	fields = append(fields, verdictFields()...)
	l := &Layout{Columns: columns, leaf: make(map[string]int, len(fields)), word: make(map[string]int)}
	for i, f := range fields {
		if _, twice := l.leaf[f.Name()]; twice || f.Name() == "" {
			return nil, fmt.Errorf("column %q: every column needs a name of its own", f.Name())
		}
		l.leaf[f.Name()] = i
	}
	words := append(rowFields(), verdictFields()...)
	for i, f := range words {
		l.word[f.Name()] = i
	}
	l.words = parquet.NewSchema("candidate", ordered{fields: words})
	l.averaged = slices.IndexFunc(columns, func(c objective.Column) bool { return c.Name == objective.AveragedColumn })
	l.schema = parquet.NewSchema("candidate", ordered{fields: fields})
	return l, nil
}

func rowFields() []parquet.Field {
	number := func(bits int) parquet.Node {
		return parquet.Encoded(parquet.Int(bits), &parquet.DeltaBinaryPacked)
	}
	return []parquet.Field{
		field{number(64), ColumnID},
		field{number(32), ColumnEpoch},
		field{number(32), ColumnIsland},
		field{word(), ColumnStage},
		field{parquet.Optional(number(64)), ColumnParentA},
		field{parquet.Optional(number(64)), ColumnParentB},
	}
}

func verdictFields() []parquet.Field {
	answer := parquet.Leaf(parquet.BooleanType)
	return []parquet.Field{
		field{parquet.Optional(answer), ColumnMeets},
		field{answer, ColumnExists},
		field{parquet.Optional(word()), ColumnReason},
		field{parquet.Optional(word()), ColumnLimit},
	}
}

func word() parquet.Node { return parquet.Encoded(parquet.String(), &parquet.RLEDictionary) }

func floatField(c objective.Column) parquet.Field {
	node := parquet.Encoded(parquet.Leaf(parquet.FloatType), &parquet.ByteStreamSplit)
	if c.Kind != objective.UnknownColumn {
		node = parquet.Optional(node)
	}
	return field{node, c.Name}
}

// ordered is a group of columns that stay in the order given, where
// parquet.Group sorts them by name.
type ordered struct {
	parquet.Group
	fields []parquet.Field
}

func (o ordered) Fields() []parquet.Field { return o.fields }

// GoType is a type that nobody reads: rows never become Go structs here.
func (ordered) GoType() reflect.Type { return reflect.TypeFor[struct{}]() }

type field struct {
	parquet.Node
	name string
}

func (f field) Name() string                      { return f.name }
func (f field) Value(reflect.Value) reflect.Value { return reflect.Value{} }
