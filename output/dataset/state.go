package dataset

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
)

// A state file is this frame and then the bytes, so that a torn or stale copy
// on a shared folder is noticed: mark, length of the bytes, their SHA-256.
const (
	stateMark   = "evenswing state 1\n"
	stateLength = len(stateMark)
	stateSum    = stateLength + 8
	stateBytes  = stateSum + sha256.Size
)

// stateError says that a state cannot be used.
type stateError struct {
	path string
	err  error
}

func (e *stateError) Error() string {
	return fmt.Sprintf("%s: %v; `evenswing verify RUN --repair` removes it and the candidates file of its task, and the same search command makes them again", e.path, e.err)
}

func (e *stateError) Unwrap() error { return e.err }

// frameState puts the frame round a state.
func frameState(state []byte) []byte {
	sum := sha256.Sum256(state)
	framed := make([]byte, 0, stateBytes+len(state))
	framed = append(framed, stateMark...)
	framed = binary.LittleEndian.AppendUint64(framed, uint64(len(state)))
	framed = append(framed, sum[:]...)
	return append(framed, state...)
}

// unframeState checks the frame and takes it off.
func unframeState(framed []byte) ([]byte, error) {
	if len(framed) < stateBytes || string(framed[:stateLength]) != stateMark {
		return nil, errors.New("it is not a state of this program, or was cut short")
	}
	state := framed[stateBytes:]
	if want := binary.LittleEndian.Uint64(framed[stateLength:]); want != uint64(len(state)) {
		return nil, fmt.Errorf("it has %d of %d bytes", len(state), want)
	}
	sum := sha256.Sum256(state)
	if !bytes.Equal(sum[:], framed[stateSum:stateBytes]) {
		return nil, errors.New("its check sum is wrong")
	}
	return state, nil
}
