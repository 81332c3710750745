//go:build linux

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
	"evenswing/space"
)

// A mishap comes over a search of small tasks, so that some are finished before.
var mishapPlan = search.Plan{Seed: 1, Islands: 1, Epochs: 12, Evaluations: 6000, Motions: 80}

// TestMishaps: whatever comes over a search, it says what and where, ends with 1,
// keeps what was finished, and once the cause is gone the same command makes the
// undisturbed run.
func TestMishaps(t *testing.T) {
	t.Parallel()
	m := newMishap(t)
	t.Run("permission", m.permission)
	t.Run("full", m.full)
}

// mishap is a folder that everybody may enter, with this program and begun runs in
// it, and the same run undisturbed.
type mishap struct{ dir, program, rig, undisturbed string }

func newMishap(t *testing.T) *mishap {
	t.Helper()
	dir := t.TempDir()
	for _, open := range []string{dir, filepath.Dir(dir)} {
		if err := os.Chmod(open, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	m := &mishap{dir, filepath.Join(dir, "evenswing"), filepath.Join(dir, "four.yaml"), filepath.Join(dir, "undisturbed")}
	own, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	copyFile(t, own, m.program, 0o755)
	copyFile(t, benchRig, m.rig, 0o644)
	read, err := space.Load(m.rig)
	if err != nil {
		t.Fatal(err)
	}
	for _, run := range []string{"permission", "full", "undisturbed"} {
		if err := sketchRun(filepath.Join(dir, run), read, mishapPlan); err != nil {
			t.Fatal(err)
		}
	}
	mustSucceed(t, m.program, "search", m.rig, "--out", m.undisturbed, "--top", "1")
	return m
}

func copyFile(t *testing.T, from, to string, mode fs.FileMode) {
	t.Helper()
	data, err := os.ReadFile(from)
	if err == nil {
		err = os.WriteFile(to, data, mode)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// nobody is who has no rights of root's.
const nobody = 65534

// permission to write candidates is taken away while a search is at work. Root may
// always; the search then is nobody's.
func (m *mishap) permission(t *testing.T) {
	run := filepath.Join(m.dir, "permission")
	asNobody := &syscall.SysProcAttr{}
	if os.Geteuid() == 0 {
		asNobody.Credential = &syscall.Credential{Uid: nobody, Gid: nobody}
		give := func(path string, _ fs.DirEntry, err error) error {
			return errors.Join(err, os.Chown(path, nobody, nobody))
		}
		if err := filepath.WalkDir(run, give); err != nil {
			t.Fatal(err)
		}
	}
	command := func() (*exec.Cmd, *bytes.Buffer) {
		said := &bytes.Buffer{}
		cmd := exec.Command(m.program, "search", m.rig, "--out", run, "--top", "1")
		cmd.Stderr, cmd.SysProcAttr = said, asNobody
		return cmd, said
	}
	cmd, said := command()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	first := dataset.CandidatesPath(run, search.Task{Epoch: 1})
	for {
		if _, err := os.Stat(first); err == nil {
			break
		}
		time.Sleep(time.Millisecond)
	}
	candidates := filepath.Dir(first)
	if err := os.Chmod(candidates, 0o555); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait()
	text := said.String()
	if code := cmd.ProcessState.ExitCode(); code != exitFailed || !strings.Contains(text, "candidates/e0") || !strings.Contains(text, "no permission; choose a folder of your own or have its owner allow you to write there") {
		t.Errorf("exit code %d\n%s", code, text)
	}
	if err := os.Chmod(candidates, 0o755); err != nil {
		t.Fatal(err)
	}
	cmd, said = command()
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	sameFolders(t, run, m.undisturbed)
}

// fullDisk searches on a disk of its own that is soon full, and again once there is
// room: $1 is the program, $2 the rig, $3 the folder, with the run to begin with.
const fullDisk = `
mkdir "$3/disk" && mount -t tmpfs -o size=700k tmpfs "$3/disk" && cp -r "$3/full" "$3/disk/RUN" || exit 77
"$1" search "$2" --out "$3/disk/RUN" --top 1 2>"$3/said"
echo $? >"$3/code"
"$1" status "$3/disk/RUN" >"$3/status"
mount -o remount,size=100m "$3/disk" || exit 77
"$1" search "$2" --out "$3/disk/RUN" --top 1 && cp -r "$3/disk/RUN" "$3/after"
`

// full: a real file system is full under a search.
func (m *mishap) full(t *testing.T) {
	dir := m.dir
	out, err := exec.Command("unshare", "--map-root-user", "--mount", "sh", "-c", fullDisk, "sh", m.program, m.rig, dir).CombinedOutput()
	var exit *exec.ExitError
	if errors.Is(err, exec.ErrNotFound) || errors.As(err, &exit) && !exists(filepath.Join(dir, "code")) {
		t.Skipf("no file system can be mounted here: %s", out)
	}
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	said, code, status := contentOf(t, dir, "said"), contentOf(t, dir, "code"), contentOf(t, dir, "status")
	if code != fmt.Sprintln(exitFailed) || !strings.Contains(said, "the disk is full; make room on it or choose a folder on another disk, then run the same command again: what was finished is kept") {
		t.Errorf("exit code %s\n%s", code, said)
	}
	if !strings.Contains(status, "unfinished") || strings.Contains(status, " in 0 of 12") || strings.Contains(status, "12 of 12") {
		t.Errorf("the disk was to be full on the way\n%s", status)
	}
	sameFolders(t, filepath.Join(dir, "after"), m.undisturbed)
}

func exists(path string) bool {
	there, err := durable.Exists(durable.Disk{}, path)
	return there && err == nil
}

func contentOf(t *testing.T, dir, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
