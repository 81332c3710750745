package search

// Recorder takes the rows of one task, in order.
type Recorder interface {
	// Record copies what it needs of the row.
	Record(row *Row) error
	// Finish makes the rows durable under their final name: the mark of a
	// finished task.
	Finish() error
	// Discard drops everything; it is called instead of Finish.
	Discard()
}

// Store keeps what tasks leave behind.
type Store interface {
	// Finished tells whether the task's rows are durable.
	Finished(t Task) (bool, error)
	// ReadState returns the bytes that WriteState kept for the task.
	ReadState(t Task) ([]byte, error)
	// WriteState makes the state durable. It is called before Finish.
	WriteState(t Task, state []byte) error
	// RemoveState drops a state that no task needs any more; one that is not
	// there is no error.
	RemoveState(t Task) error
	// Begin opens the rows of a task; an unfinished earlier attempt is dropped.
	Begin(t Task) (Recorder, error)
}
