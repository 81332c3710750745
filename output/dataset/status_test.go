package dataset_test

import (
	"os"
	"path/filepath"
	"testing"

	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

func TestStatus(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r := create(t, durable.Disk{}, dir)
	tasks := r.Tasks()
	for _, task := range tasks[:2] {
		work(t, r, task)
	}
	living, err := r.Begin(tasks[2])
	if err != nil {
		t.Fatal(err)
	}
	defer living.Discard()
	dead := dataset.CandidatesPath(dir, tasks[3]) + ".9-9.tmp"
	if err := os.WriteFile(dead, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	s, err := r.Status()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{dataset.TaskFinished, dataset.TaskFinished, dataset.TaskAtWork, dataset.TaskWaiting} {
		if s.List[i].State != want {
			t.Errorf("task %d is %s, want %s", i, s.List[i].State, want)
		}
	}
	sum, err := r.Summary()
	if err != nil || s.Rows != sum.Rows || s.Bytes != sum.Bytes || *s.Best != *sum.Best || s.Finished != 2 || s.Tasks != 4 || s.Planned != 500 {
		t.Errorf("%+v, the summary %+v %v", s.Summary, sum, err)
	}
	if s.List[0].Rows != 300 || s.List[0].Best == nil || s.List[1].Bytes == 0 {
		t.Errorf("%+v", s.List[:2])
	}
}

func TestMissingState(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r := searched(t, dir, bowlPlan)
	missing := func() error {
		s, err := r.Status()
		if err != nil {
			t.Fatal(err)
		}
		return r.MissingState(s)
	}
	if err := missing(); err != nil {
		t.Error(err)
	}
	for _, path := range []string{dataset.CandidatesPath(dir, search.Task{Epoch: 3}), dataset.StatePath(dir, search.Task{Epoch: 2})} {
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	}
	if missing() == nil {
		t.Error("a missing state goes unnoticed")
	}
}

func TestLimitOf(t *testing.T) {
	r := searched(t, filepath.Join(t.TempDir(), "RUN"), bowlPlan)
	s, err := r.Summary()
	if err != nil {
		t.Fatal(err)
	}
	if got, err := r.LimitOf(s.Best.ID); err != nil || got != "the distance" {
		t.Errorf("%q %v", got, err)
	}
	if got, err := r.LimitOf(s.Best.ID + 1<<23); err != nil || got != "" {
		t.Errorf("no such candidate: %q %v", got, err)
	}
}
