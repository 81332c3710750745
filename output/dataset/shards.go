package dataset

import (
	"sync"

	"evenswing/search"
)

// OpenTask opens the rows of a finished task.
func (r *Run) OpenTask(t search.Task) (*Shard, error) {
	return OpenShard(r.fs, CandidatesPath(r.Dir, t))
}

// Summary is how far a run has come.
type Summary struct {
	Counts
	Finished int   // tasks
	Tasks    int   // of the plan
	Bytes    int64 // of the candidates files
}

// Summary adds up what the finished tasks say of themselves; it reads no rows.
func (r *Run) Summary() (Summary, error) {
	tasks := r.Tasks()
	s := Summary{Tasks: len(tasks), Counts: newCounts()}
	for _, t := range tasks {
		err := r.visit(t, func(shard *Shard) error {
			s.Finished++
			s.Bytes += shard.Size()
			s.Add(shard.Counts)
			return nil
		})
		if err != nil {
			return s, err
		}
	}
	return s, nil
}

// visit opens a task's rows, if it is finished.
func (r *Run) visit(t search.Task, do func(*Shard) error) error {
	finished, err := r.Finished(t)
	if err != nil || !finished {
		return err
	}
	shard, err := r.OpenTask(t)
	if err != nil {
		return err
	}
	defer shard.Close()
	return do(shard)
}

// EachShard hands the rows of every finished task to do, on the given number
// of goroutines; worker, from 0 to workers-1, tells which. Their order is not
// fixed: what do makes must not depend on it. After an error no further shard
// is begun; the error of the first task that has one is returned.
func (r *Run) EachShard(workers int, do func(worker int, shard *Shard) error) error {
	tasks := r.Tasks()
	next := make(chan int, len(tasks))
	for i := range tasks {
		next <- i
	}
	close(next)
	errs := make([]error, len(tasks))
	stop := make(chan struct{})
	var once sync.Once
	var group sync.WaitGroup
	for worker := range max(workers, 1) {
		group.Go(func() {
			for i := range next {
				select {
				case <-stop:
					return
				default:
				}
				errs[i] = r.visit(tasks[i], func(s *Shard) error { return do(worker, s) })
				if errs[i] != nil {
					once.Do(func() { close(stop) })
				}
			}
		})
	}
	group.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// Scan hands the wanted columns of all finished tasks to visit, in the order
// of the tasks and their rows.
func (r *Run) Scan(want Want, visit func(*Batch) error) error {
	return r.EachShard(1, func(_ int, s *Shard) error { return s.Scan(want, visit) })
}
