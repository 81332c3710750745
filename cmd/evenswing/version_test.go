package main

import (
	"runtime/debug"
	"testing"
)

// TestVersionOf: a build is called by its revision where it knows it.
func TestVersionOf(t *testing.T) {
	revision := debug.BuildSetting{Key: "vcs.revision", Value: "0123456789abcdef0123"}
	for _, c := range []struct {
		settings []debug.BuildSetting
		want     string
	}{
		{nil, release},
		{[]debug.BuildSetting{revision}, release + "+0123456789ab"},
		{[]debug.BuildSetting{revision, {Key: "vcs.modified", Value: "false"}}, release + "+0123456789ab"},
		{[]debug.BuildSetting{{Key: "vcs.modified", Value: "true"}, revision}, release + "+0123456789ab.changed"},
		{[]debug.BuildSetting{{Key: "vcs.modified", Value: "true"}}, release},
	} {
		if got := versionOf(c.settings); got != c.want {
			t.Errorf("%v: %q, want %q", c.settings, got, c.want)
		}
	}
}
