package dataset

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"time"

	"evenswing/output/durable"
	"evenswing/search"
)

// Start is what a run was started with. It is run.json, written once.
type Start struct {
	Format  int         `json:"format"` // of the RUN folder; CreateRun fills it in
	Plan    search.Plan `json:"plan"`   // the seed among it
	Program             // that began it
	Rig     string      `json:"rig_sha256"` // CreateRun fills it in
	Started time.Time   `json:"started"`    // for people; nothing follows from it
}

// runFormat is the only format of a RUN folder so far.
const runFormat = 1

func rigSum(rig []byte) string {
	sum := sha256.Sum256(rig)
	return hex.EncodeToString(sum[:])
}

// encode writes run.json, indented for people.
func (s Start) encode() ([]byte, error) {
	text, err := json.MarshalIndent(s, "", "  ")
	return append(text, '\n'), err
}

// readStart reads run.json and rig.yaml and checks that they belong together.
func readStart(fs durable.FS, dir string) (start Start, rig []byte, err error) {
	text, err := fs.ReadFile(RunPath(dir))
	if errors.Is(err, os.ErrNotExist) {
		return start, nil, &InputError{Path: dir, Text: "it is not a run: there is no " + runFile + " in it; name a folder that `search` made"}
	}
	if err != nil {
		return start, nil, &durable.Error{Doing: "reading", Path: RunPath(dir), Err: err}
	}
	decoder := json.NewDecoder(bytes.NewReader(text))
	if err := decoder.Decode(&start); err != nil {
		return start, nil, &InputError{Path: RunPath(dir), Text: fmt.Sprintf("it cannot be read (%v); restore it from a copy, or begin a new run in another folder", err), Damaged: true}
	}
	if start.Format != runFormat {
		return start, nil, &InputError{Path: dir, Text: fmt.Sprintf("it has format %d, this program reads format %d; use the version that made it, %s", start.Format, runFormat, start.Version)}
	}
	if err := checkPlan(start.Plan); err != nil {
		return start, nil, &InputError{Path: RunPath(dir), Text: fmt.Sprintf("no search can follow it (%v); restore it from a copy, or begin a new run in another folder", err), Damaged: true}
	}
	rig, err = fs.ReadFile(RigPath(dir))
	if err != nil {
		return start, nil, &durable.Error{Doing: "reading", Path: RigPath(dir), Err: err}
	}
	if rigSum(rig) != start.Rig {
		return start, nil, &InputError{Path: RigPath(dir), Text: "it is not the rig that the run was started with; restore it (every candidates file holds it, too), and put changes in a file of your own for a new run", Damaged: true}
	}
	return start, rig, nil
}

// mostTasks is what the largest plan has; more would not fit in memory.
const mostTasks = 64 << 15

func checkPlan(plan search.Plan) error {
	if err := plan.Check(); err != nil {
		return err
	}
	if plan.Islands*plan.Epochs > mostTasks {
		return fmt.Errorf("plan: %d islands and %d epochs: at most %d tasks are possible", plan.Islands, plan.Epochs, mostTasks)
	}
	return nil
}
