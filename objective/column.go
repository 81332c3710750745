package objective

// Column describes one float column of the rows.
type Column struct {
	Name string // snake_case, with the unit as suffix
	Unit string // SI; "" for a plain number
	Text string // what it is, for the maker
	Kind ColumnKind
	// Index is which unknown, pendulum, mode or limit it belongs to, by Kind.
	Index int
}

// ColumnKind groups the columns.
type ColumnKind uint8

// Kinds of column.
const (
	UnknownColumn     ColumnKind = iota // Index into Rig.Unknowns
	FigureColumn                        // a computed figure
	UtilisationColumn                   // Index into Evaluator.Subjects
	VerdictColumn                       // score and worst
)
