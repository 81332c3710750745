package dataset

import (
	"evenswing/output/durable"
)

// finalists reads the rows of the finalists, if they are there. What the file
// says about itself is compared with its rows: there is no other sum of it, but
// all its rows are scored again.
func (v *verifier) finalists() {
	path := v.check.Finalists.Path
	if v.ctx.Err() != nil || path == "" {
		return
	}
	there, err := durable.Exists(v.run.fs, path)
	if err == nil && !there {
		v.noFinalists(path)
		return
	}
	rd := &reading{path: path, run: v.run, columns: v.check.Finalists.Columns}
	if v.check.Finalists.Rescore != nil {
		rd.rescore = v.check.Finalists.Rescore()
	}
	if err == nil {
		rd.picks = v.all(path)
		err = rd.read(v)
	}
	v.count(rd)
	if err == nil || v.ctx.Err() != nil {
		return
	}
	v.found(Finding{
		Path: path, What: plain(err), remove: []string{path},
		Mend: "`evenswing verify RUN --repair` removes it, and `evenswing shortlist RUN` makes it again",
	})
}

// noFinalists tells that a run whose tasks are finished has no finalists yet.
func (v *verifier) noFinalists(path string) {
	if v.out.Finished == v.out.Tasks && !v.check.Running {
		v.found(Finding{Path: path, What: "it is not there yet", Mend: "`evenswing shortlist RUN` makes it", Harmless: true})
	}
}

// all numbers all rows of a file; none where it cannot be opened, which reading
// it tells.
func (v *verifier) all(path string) []int64 {
	shard, err := OpenShard(v.run.fs, path)
	if err != nil {
		return nil
	}
	defer shard.Close()
	return distinct(shard.Rows(), int(shard.Rows()))
}
