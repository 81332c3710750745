package space_test

import (
	"os"
	"strings"
	"testing"

	"evenswing/space"
)

// TestDoubtsOfRatios: 1:1, 2:1 and 3:1 raise none, either way round; beside them
// and elsewhere the two kinds are told apart.
func TestDoubtsOfRatios(t *testing.T) {
	data, err := os.ReadFile("../testdata/rigs/four.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for is, want := range map[string]string{
		"1": "", "2": "", "3": "", "0.5": "", "2.03": "a little beside 2:1", "1.99": "a little beside 2:1",
		"1.5": "no coupling of low order", "4": "no coupling of low order", "2.2": "no coupling of low order",
	} {
		text := strings.ReplaceAll(string(data), "is: 2,", "is: "+is+",")
		rig, err := space.Read("four.yaml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, n := range rig.Doubts() {
			if n.Where == "targets.ratios" {
				got = n.Text
			}
		}
		if (got == "") != (want == "") || !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", is, got, want)
		}
	}
}
