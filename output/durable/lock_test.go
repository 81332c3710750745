package durable_test

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"evenswing/output/durable"
)

// holdEnv tells the test's own program, run again, which lock to hold.
const holdEnv = "EVENSWING_TEST_HOLD"

func TestMain(m *testing.M) {
	if path := os.Getenv(holdEnv); path != "" {
		holdUntilTold(path)
		return
	}
	os.Exit(m.Run())
}

// holdUntilTold holds a lock until its input ends.
func holdUntilTold(path string) {
	if _, err := durable.Lock(path); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("held")
	_, _ = bufio.NewReader(os.Stdin).ReadString('\n')
}

// other starts a second process that holds the lock.
func other(t *testing.T, path string) *exec.Cmd {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), holdEnv+"="+path)
	if _, err := cmd.StdinPipe(); err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if line, _ := bufio.NewReader(out).ReadString('\n'); line != "held\n" {
		t.Fatalf("the other process says %q", line)
	}
	return cmd
}

// TestLockDiesWithItsHolder kills the holder the hard way.
func TestLockDiesWithItsHolder(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lock")
	cmd := other(t, path)
	who := fmt.Sprintf("process %d", cmd.Process.Pid)

	_, err := durable.Lock(path)
	var held *durable.HeldError
	if !errors.As(err, &held) || !strings.Contains(err.Error(), who) || !strings.Contains(err.Error(), path) {
		t.Errorf("a second holder gets %v, want %s", err, who)
	}
	if name, ok := durable.Holder(path); !ok || !strings.HasPrefix(name, who) {
		t.Errorf("holder %q %v, want %s", name, ok, who)
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait()

	if _, ok := durable.Holder(path); ok {
		t.Error("a dead holder holds on")
	}
	lock, err := durable.Lock(path)
	if err != nil {
		t.Fatal(err)
	}
	if name, _ := durable.Holder(path); !strings.HasPrefix(name, fmt.Sprintf("process %d", os.Getpid())) {
		t.Errorf("holder %q", name)
	}
	notes(t, lock, path)
	if err := lock.Unlock(); err != nil {
		t.Fatal(err)
	}
	if note := durable.Noted(path); note != "short" {
		t.Errorf("the last note is %q", note)
	}
	if _, ok := durable.Holder(path); ok {
		t.Error("held after Unlock")
	}
}

// notes leaves notes, a long one and a short one over it, and none too long.
func notes(t *testing.T, lock *durable.Held, path string) {
	t.Helper()
	if note := durable.Noted(path); note != "" {
		t.Errorf("before any note: %q", note)
	}
	for _, note := range []string{strings.Repeat("long", 400), "short"} {
		if err := lock.Note(note); err != nil || durable.Noted(path) != note {
			t.Errorf("%q, %v", durable.Noted(path), err)
		}
	}
	if err := lock.Note(strings.Repeat("x", 3000)); err == nil || durable.Noted(path) != "short" {
		t.Errorf("a note that is too long: %q, %v", durable.Noted(path), err)
	}
	if name, ok := durable.Holder(path); !ok || !strings.HasPrefix(name, fmt.Sprintf("process %d", os.Getpid())) {
		t.Errorf("after its notes the holder is %q %v", name, ok)
	}
}

func TestHolderOfNothing(t *testing.T) {
	if name, ok := durable.Holder(filepath.Join(t.TempDir(), "lock")); ok {
		t.Errorf("no lock, held by %q", name)
	}
	if note := durable.Noted(filepath.Join(t.TempDir(), "lock")); note != "" {
		t.Errorf("no lock, noted %q", note)
	}
	if _, err := durable.Lock(filepath.Join(t.TempDir(), "no", "folder")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no folder: %v", err)
	}
}
