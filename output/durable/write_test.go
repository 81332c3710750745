package durable_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"evenswing/output/durable"
	"evenswing/output/durable/durabletest"
)

func read(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		return ""
	}
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// leftovers lists the temporary files of a folder.
func leftovers(t *testing.T, dir string) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(dir, "*.tmp"))
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func TestWriteFileReplaces(t *testing.T) {
	path := filepath.Join(t.TempDir(), "note")
	for _, text := range []string{"one", "", "two, and longer"} {
		if err := durable.WriteFile(durable.Disk{}, path, []byte(text)); err != nil {
			t.Fatal(err)
		}
		if got := read(t, path); got != text {
			t.Fatalf("read %q, wrote %q", got, text)
		}
	}
	dead := path + ".99-1.tmp"
	if err := os.WriteFile(dead, []byte("torn"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := durable.WriteFile(durable.Disk{}, path, []byte("last")); err != nil {
		t.Fatal(err)
	}
	if left := leftovers(t, filepath.Dir(path)); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestWriteOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "note")
	long := bytes.Repeat([]byte("0123456789abcdef"), 20_000) // several comparisons long
	for range 2 {
		if err := durable.WriteOnce(durable.Disk{}, path, long); err != nil {
			t.Fatal(err)
		}
	}
	other := bytes.Clone(long)
	other[len(other)-1]++
	for _, data := range [][]byte{other, long[1:], nil} {
		err := durable.WriteOnce(durable.Disk{}, path, data)
		if !errors.Is(err, durable.ErrDiffers) || !strings.Contains(err.Error(), path) {
			t.Errorf("other bytes: %v", err)
		}
	}
	if got := read(t, path); got != string(long) {
		t.Error("the first contents were lost")
	}
	if left := leftovers(t, filepath.Dir(path)); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// TestEveryStepFails lets step k fail for k = 0, 1, 2, ... until nothing does:
// the name never shows anything but the whole old or the whole new contents,
// and trying again works.
func TestEveryStepFails(t *testing.T) {
	for _, dies := range []bool{false, true} {
		for k := 0; ; k++ {
			faulty := &durabletest.Faulty{FS: durable.Disk{}, At: k, Dies: dies}
			path := filepath.Join(t.TempDir(), "note")
			if err := os.WriteFile(path, []byte("old"), 0o666); err != nil {
				t.Fatal(err)
			}
			err := durable.WriteFile(faulty, path, []byte("new and whole"))
			faulty.Bury()
			if !faulty.Failed() {
				if err != nil {
					t.Fatal(err)
				}
				if k < 6 {
					t.Fatalf("only %d steps: %v", k, faulty.Steps)
				}
				break
			}
			checkFailure(t, faulty, path, err)
		}
	}
}

func checkFailure(t *testing.T, faulty *durabletest.Faulty, path string, err error) {
	t.Helper()
	step := faulty.Steps[faulty.At]
	got := read(t, path)
	if strings.HasPrefix(step, "list") { // the file is safe; only looking for old ones failed
		if err != nil || got != "new and whole" {
			t.Fatalf("%s failed, reported %v, the file holds %q", step, err, got)
		}
		return
	}
	if !errors.Is(err, durabletest.ErrFault) {
		t.Fatalf("%s failed, reported %v", step, err)
	}
	if got != "old" && got != "new and whole" || got != "old" && !strings.HasPrefix(step, "flush folder") {
		t.Fatalf("after %q failed the file holds %q", step, got)
	}
	if left := leftovers(t, filepath.Dir(path)); len(left) > 0 && !faulty.Dies {
		t.Fatalf("after %q failed: left %v", step, left)
	}
	if err := durable.RemoveStale(durable.Disk{}, path); err != nil {
		t.Fatal(err)
	}
	if left := leftovers(t, filepath.Dir(path)); len(left) > 0 {
		t.Fatalf("after tidying up: left %v", left)
	}
	if err := durable.WriteFile(durable.Disk{}, path, []byte("new and whole")); err != nil || read(t, path) != "new and whole" {
		t.Fatalf("trying again after %q: %v", step, err)
	}
}

func TestRemoveStaleSparesTheLiving(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "e0001-i02.parquet")
	living, err := durable.Create(durable.Disk{}, path)
	if err != nil {
		t.Fatal(err)
	}
	torn := []string{path + ".7-1.tmp", path + ".8-3.tmp"}
	others := []string{filepath.Join(dir, "e0001-i03.parquet.7-1.tmp"), path + ".notes"}
	for _, name := range append(torn, others...) {
		if err := os.WriteFile(name, []byte("PAR1 torn"), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := durable.RemoveStale(durable.Disk{}, path); err != nil {
		t.Fatal(err)
	}
	for _, name := range torn {
		if read(t, name) != "" {
			t.Errorf("%s is still there", name)
		}
	}
	for _, name := range others {
		if read(t, name) == "" {
			t.Errorf("%s was removed", name)
		}
	}
	if err := living.Commit(); err != nil {
		t.Errorf("the living writer: %v", err)
	}
	living.Discard() // after Commit it does nothing
	if ok, err := durable.Exists(durable.Disk{}, path); !ok || err != nil {
		t.Errorf("committed, then %v %v", ok, err)
	}
}

func TestErrorsInAMakersWords(t *testing.T) {
	for _, c := range []struct {
		fault error
		want  string
	}{
		{syscall.ENOSPC, "the disk is full; make room"},
		{&os.PathError{Op: "open", Path: "x", Err: syscall.EACCES}, "no permission; choose a folder"},
		{syscall.EFBIG, "larger than this disk or your limits allow"},
		{syscall.EROFS, "can only be read"},
		{&os.PathError{Op: "open", Path: "x", Err: errors.New("odd")}, ": odd"},
	} {
		faulty := &durabletest.Faulty{FS: durable.Disk{}, At: 0, Fault: c.fault}
		path := filepath.Join(t.TempDir(), "note")
		err := durable.WriteFile(faulty, path, []byte("text"))
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), path) {
			t.Errorf("%v gives %q, want %q", c.fault, err, c.want)
		}
		if !errors.Is(err, c.fault) {
			t.Errorf("%v is lost", c.fault)
		}
	}
}

func TestMakeFolderAndExists(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "b")
	for range 2 {
		if err := durable.MakeFolder(durable.Disk{}, dir); err != nil {
			t.Fatal(err)
		}
	}
	ok, err := durable.Exists(durable.Disk{}, filepath.Join(dir, "nothing"))
	if ok || err != nil {
		t.Errorf("nothing is there, yet %v %v", ok, err)
	}
	if _, err := durable.Create(durable.Disk{}, filepath.Join(dir, "no", "folder")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no folder: %v", err)
	}
}
