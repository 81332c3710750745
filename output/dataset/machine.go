package dataset

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"math"
	"runtime"
	"runtime/debug"

	"golang.org/x/sys/cpu"
)

// Machine is what the last digits of a result depend on. Tasks of one run are
// done only on machines that are equal in it.
type Machine struct {
	Arch  string `json:"arch"`            // GOARCH
	Level string `json:"level,omitempty"` // GOAMD64 or the like that the program was built for
	FMA   bool   `json:"fma"`             // the processor multiplies and adds in one step
	// Arithmetic is a sum over the last digits of many results: equal sums mean
	// equal arithmetic, whatever it is that differs.
	Arithmetic string `json:"arithmetic"`
}

func (m Machine) String() string {
	fma := "without"
	if m.FMA {
		fma = "with"
	}
	return fmt.Sprintf("%s%s %s fused multiply-add, sum %s", m.Arch, m.Level, fma, m.Arithmetic)
}

// ThisMachine describes the machine that runs the program, as it was built.
func ThisMachine() Machine {
	return Machine{
		Arch: runtime.GOARCH, Level: buildLevel(),
		FMA:        cpu.X86.HasFMA || runtime.GOARCH == "arm64",
		Arithmetic: arithmetic(),
	}
}

// buildLevel is the architecture level the program was built for.
func buildLevel() string {
	build, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	for _, s := range build.Settings {
		switch s.Key {
		case "GOAMD64", "GOARM64", "GOPPC64", "GORISCV64":
			return s.Value
		}
	}
	return ""
}

// trials is how many arguments each function is tried with: the functions that
// differ between machines do so in several of a hundred results.
const trials = 1000

// arithmetic sums up what the functions that differ between machines give.
func arithmetic() string {
	sum := sha256.New()
	var word [8]byte
	for i := range trials {
		x := 0.01 + 0.0137*float64(i)
		for _, y := range [...]float64{
			math.Exp(-x), math.Pow(x, 1.3), math.Tanh(0.1 * x), math.Log(x),
			math.Sin(x), math.Cos(x), math.Atan2(x, 2.5), math.Sqrt(x), math.Hypot(x, 1.7),
			x*x + 0.3*x, // fused into one step where the build may
		} {
			binary.LittleEndian.PutUint64(word[:], math.Float64bits(y))
			sum.Write(word[:])
		}
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}
