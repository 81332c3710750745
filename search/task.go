package search

import (
	"context"
	"errors"
	"fmt"
)

// RunTask does one task of the plan: a pure function of the problem, the plan
// and the state that the same island left in the epoch before. It hands every
// evaluation to the store's recorder, writes the island's state, and finishes.
// On an error, the context's among them, the rows are discarded and nothing of
// the task is left but perhaps its state, which the next attempt overwrites
// with the same bytes. The summary speaks of all the island's epochs so far.
//
// A task that is finished already is not done again: the summary is then empty
// (Evaluations is 0).
func RunTask(ctx context.Context, problem Problem, plan Plan, task Task, store Store) (Summary, error) {
	return runTask(ctx, problem, plan, task, store, nil)
}

func runTask(ctx context.Context, problem Problem, plan Plan, task Task, store Store, watch func(int, Summary)) (Summary, error) {
	if err := check(problem, plan, task); err != nil {
		return Summary{}, err
	}
	done, err := store.Finished(task)
	if err != nil || done {
		return Summary{}, wrap(task, "asking whether it is finished", err)
	}
	before, err := loadState(problem, plan, task, store)
	if err != nil {
		return Summary{}, wrap(task, "reading the state of the epoch before", err)
	}
	rows, err := store.Begin(task)
	if err != nil {
		return Summary{}, wrap(task, "opening its rows", err)
	}
	l := newLedger(ctx, problem, plan, task, rows)
	l.summary, l.watch = before.Summary, watch
	if err := work(newIsland(problem, plan, task, l, before), store); err != nil {
		rows.Discard()
		return Summary{}, err
	}
	return l.summary, forget(task, store)
}

func check(problem Problem, plan Plan, task Task) error {
	if err := plan.Check(); err != nil {
		return err
	}
	if !plan.Has(task) {
		return fmt.Errorf("no task of epoch %d and island %d: the plan has %d epochs and %d islands from %d on",
			task.Epoch, task.Island, plan.Epochs, plan.Islands, plan.First)
	}
	if len(problem.Genes()) == 0 {
		return ErrNothingUnknown
	}
	return nil
}

// ErrNothingUnknown: a search needs something to search for.
var ErrNothingUnknown = errors.New("the rig has no unknown to search for: write at least one under `unknowns`")

func wrap(task Task, doing string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("epoch %d, island %d: %s: %w", task.Epoch, task.Island, doing, err)
}

// loadState reads what a task begins with.
func loadState(problem Problem, plan Plan, task Task, store Store) (*state, error) {
	if task.Epoch == 0 {
		return newState(), nil
	}
	before := Task{task.Epoch - 1, task.Island}
	done, err := store.Finished(before)
	if err != nil {
		return nil, err
	}
	if !done {
		return nil, fmt.Errorf("epoch %d of this island is not finished", before.Epoch)
	}
	data, err := store.ReadState(before)
	if err != nil {
		return nil, err
	}
	return decodeState(data, plan, before, len(problem.Genes()))
}

// work spends the task's evaluations and makes what it found durable.
func work(is *island, store Store) error {
	if err := is.run(); err != nil {
		return is.cut(err)
	}
	is.state.Plan, is.state.Task = is.plan, is.task
	data, err := encodeState(is.state)
	if err != nil {
		return err
	}
	if err := is.ledger.lookUp(); err != nil {
		return is.cut(err)
	}
	if err := store.WriteState(is.task, data); err != nil {
		return wrap(is.task, "writing its state", err)
	}
	return wrap(is.task, "finishing its rows", is.ledger.rows.Finish())
}

// cut leaves the context's error as it is, so that callers know it.
func (is *island) cut(err error) error {
	if ctxErr := is.ledger.ctx.Err(); ctxErr != nil {
		return ctxErr
	}
	return wrap(is.task, "searching", err)
}

// forget removes the states that no task needs any more; an earlier kill may
// have left the older one.
func forget(task Task, store Store) error {
	for _, e := range [...]int{task.Epoch - 2, task.Epoch - 3} {
		if e < 0 {
			break
		}
		if err := store.RemoveState(Task{e, task.Island}); err != nil {
			return wrap(task, "removing a state of two epochs ago", err)
		}
	}
	return nil
}
