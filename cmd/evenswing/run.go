package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/alecthomas/kong"

	"evenswing/output/durable"
	"evenswing/space"
)

// The exit codes, as the help prints them.
const (
	exitDone        = 0
	exitFailed      = 1
	exitInput       = 2
	exitRunning     = 3 // status: still running
	exitUnfinished  = 4 // status: unfinished and not running
	exitInterrupted = 130
)

const about = `Searches the layouts of pendulum drawing machines (harmonographs) before any wood is cut.

Exit codes: 0 done, 1 failed while working or (status, verify) a damaged run, 2 the input is at fault, 3 (status) still running, 4 (status) unfinished and not running, 130 interrupted with everything kept.`

// commands is the whole command line.
type commands struct {
	New       newCommand       `cmd:"" help:"Write a commented starter rig."`
	Check     checkCommand     `cmd:"" help:"Read a rig and say what is unknown, assumed, not limited and doubtful; draw it."`
	Evaluate  evaluateCommand  `cmd:"" help:"Work out one design: every criterion."`
	Release   releaseCommand   `cmd:"" help:"Let one design swing: the ratio that it keeps and the line that it draws."`
	Sheets    sheetsCommand    `cmd:"" help:"Write one design's drawings and tables for the bench; print loads, hanging order, safety."`
	Search    searchCommand    `cmd:"" help:"Search the whole space of a rig and write every candidate."`
	Status    statusCommand    `cmd:"" help:"Say how far a run is."`
	Shortlist shortlistCommand `cmd:"" help:"Choose the designs of a run that are good and different."`
	Verify    verifyCommand    `cmd:"" help:"Read a whole run back and check it."`
	Materials materialsCommand `cmd:"" help:"Print the built-in materials with their sources."`
	Schema    schemaCommand    `cmd:"" help:"Print the JSON Schema of rig files, for editors that complete and explain."`
	Columns   columnsCommand   `cmd:"" help:"Print what the files of a run hold."`
	Version   versionCommand   `cmd:"" help:"Print the version, the edition of the arithmetic and what this machine's depends on."`
}

// console is where a command writes: results to out, progress and remarks to err.
type console struct {
	context.Context
	out, err io.Writer
	now      clock
}

// statusError ends a command with an exit code and nothing to say.
type statusError int

func (e statusError) Error() string { return fmt.Sprintf("exit code %d", int(e)) }

// parserExit is how kong asks to end, after --help.
type parserExit int

// run is the program without the process: it returns the exit code.
func run(ctx context.Context, args []string, out, err io.Writer) (code int) {
	defer func() {
		switch e := recover().(type) {
		case nil:
		case parserExit:
			code = int(e)
		default:
			panic(e)
		}
	}()
	var c commands
	parser := kong.Must(&c, kong.Name("evenswing"), kong.Description(about), kong.Writers(out, err),
		kong.Exit(func(code int) { panic(parserExit(code)) }), kong.UsageOnError(),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 100}))
	parsed, problem := parser.Parse(args)
	if problem != nil {
		fmt.Fprintf(err, "evenswing: %v\nevenswing --help lists the commands and their options.\n", problem)
		return exitInput
	}
	return finish(parsed.Run(&console{ctx, out, err, time.Now}), err)
}

// finish turns an error into words and an exit code: the one place that does.
func finish(problem error, err io.Writer) int {
	var status statusError
	switch {
	case problem == nil:
		return exitDone
	case errors.As(problem, &status):
		return int(status)
	case errors.Is(problem, context.Canceled):
		fmt.Fprintln(err, "evenswing: interrupted; what is finished is kept, the same command carries on")
		return exitInterrupted
	}
	text := strings.TrimRight(problem.Error(), "\n")
	fmt.Fprintln(err, "evenswing: "+text)
	if atFault(problem) {
		return exitInput
	}
	return exitFailed
}

// inputError marks what the user has to mend.
type inputError struct{ error }

func (e inputError) Unwrap() error { return e.error }

// InputFault marks the class of the error.
func (inputError) InputFault() {}

func fault(format string, args ...any) error { return inputError{fmt.Errorf(format, args...)} }

// atFault tells whether the input, not the work, is at fault.
func atFault(problem error) bool {
	var mistakes *space.Mistakes
	var input interface{ InputFault() }
	return errors.As(problem, &mistakes) || errors.As(problem, &input)
}

// readRig reads a rig file.
func readRig(path string) (*space.Rig, error) {
	rig, err := space.Load(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, fault("%s: there is no such file; name a rig file, or write one to start from: evenswing new %s", path, path)
	case errors.Is(err, os.ErrPermission):
		return nil, fault("%s: you may not read it; change its permissions or name another file", path)
	}
	return rig, err
}

// loadRig reads a rig file and puts in what --set gives.
func loadRig(path string, set []string) (*space.Rig, error) {
	rig, err := readRig(path)
	if err != nil || len(set) == 0 {
		return rig, err
	}
	return rig.Set(set)
}

// writeNew writes a file that must not exist yet.
func writeNew(path string, data []byte) error {
	if _, err := os.Stat(path); err == nil {
		return fault("%s exists already; give another name or remove it first", path)
	}
	return durable.WriteFile(durable.Disk{}, path, data)
}

// writeOver writes a file, in the place of an older one if need be.
func writeOver(path string, data []byte) error {
	return durable.WriteFile(durable.Disk{}, path, data)
}
