package main

import (
	"fmt"
	"runtime/debug"

	"evenswing/output/dataset"
)

// release is the version that is worked on or was last released. Which rows
// belong together is told by search.Edition, never by it.
const release = "0.1.0"

// revisionDigits are enough of a revision to find it.
const revisionDigits = 12

// version is the name of this build: the release and, where the build knows it,
// the revision of the source, with a word where that was changed since.
func version() string {
	build, ok := debug.ReadBuildInfo()
	if !ok {
		return release
	}
	return versionOf(build.Settings)
}

func versionOf(settings []debug.BuildSetting) string {
	revision, changed := "", ""
	for _, s := range settings {
		switch {
		case s.Key == "vcs.revision" && s.Value != "":
			revision = "+" + s.Value[:min(len(s.Value), revisionDigits)]
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = ".changed"
		}
	}
	if revision == "" {
		return release
	}
	return release + revision + changed
}

type versionCommand struct{}

// Run prints what decides whether a run can be carried on.
func (versionCommand) Run(to *console) error {
	p := dataset.ThisProgram(version())
	_, err := fmt.Fprintf(to.out, "evenswing %s\nedition %d of the arithmetic\n%s\nAn unfinished run is carried on where edition and machine are those that its run.json names.\n", p.Version, p.Edition, p.Machine)
	return err
}
