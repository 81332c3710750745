package search

// CheckState tells whether an island can go on from the state that a task of
// the plan left, in a space of the given number of searched unknowns.
func CheckState(data []byte, plan Plan, task Task, genes int) error {
	_, err := decodeState(data, plan, task, genes)
	return err
}
