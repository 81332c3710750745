package formula

import (
	"flag"
	"os"
	"testing"
)

// TestMain draws the same cases every time; -rapid.seed=0 draws others.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.seed", "20261125"); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
