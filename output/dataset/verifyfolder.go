package dataset

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"evenswing/output/durable"
)

const shortlistFolder = "shortlist"

// folders looks for files that are not of the run.
func (v *verifier) folders() {
	dir := v.run.Dir
	own := map[string]bool{
		runFile: true, rigFile: true, lockFile: true, candidatesFolder: true, stateFolder: true,
		shortlistFolder: true, filepath.Base(v.check.Finalists.Path): true,
	}
	for n := range v.run.Extensions {
		own[filepath.Base(extensionPath(dir, n+1))] = true
		own[filepath.Base(leftOutPath(dir, n+1))] = v.run.Extensions[n].LeftOut != nil
	}
	candidates, states := map[string]bool{}, map[string]bool{}
	for _, t := range v.run.Tasks() {
		candidates[taskName(t)+candidatesEnd] = true
		states[taskName(t)+stateEnd], states[taskName(t)+sumEnd] = true, true
	}
	v.folder(dir, own, "leave it, or keep it elsewhere", true)
	const elsewhere = "move it elsewhere: what reads the folder would take it for the run's"
	v.folder(filepath.Join(dir, candidatesFolder), candidates, elsewhere, false)
	v.folder(filepath.Join(dir, stateFolder), states, elsewhere, false)
	v.folder(filepath.Join(dir, shortlistFolder), nil, "", true)
}

// folder names what is in one folder and not of the run; own is nil where any
// name may be.
func (v *verifier) folder(dir string, own map[string]bool, mend string, harmless bool) {
	names, err := v.run.fs.Names(dir)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return // nothing was written to it yet
	case err != nil:
		v.found(Finding{Path: dir, What: plain(&durable.Error{Doing: "listing", Path: dir, Err: err}), Mend: "make the folder readable"})
	}
	for _, name := range names {
		path := filepath.Join(dir, name)
		switch {
		case durable.Unfinished(name):
			if v.run.fs.Abandoned(path) {
				v.found(Finding{
					Path: path, What: "a writer that died left it unfinished", Harmless: true,
					Mend: "the search removes it when it comes to its task; `evenswing verify RUN --repair` does at once", remove: []string{path},
				})
			}
		case own != nil && !own[name]:
			// A search at work may have extended the run since it was opened.
			v.found(Finding{Path: path, What: strangeWords(name), Mend: mend, Harmless: harmless || v.check.Running})
		}
	}
}

func strangeWords(name string) string {
	if strings.HasSuffix(name, candidatesEnd) || strings.HasSuffix(name, stateEnd) || strings.HasSuffix(name, sumEnd) {
		return "the run's plan has no such task"
	}
	return "it is not of this run"
}
