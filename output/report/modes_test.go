package report

import (
	"strings"
	"testing"
)

// TestModeWords: who moves with whom, in words.
func TestModeWords(t *testing.T) {
	row := func(name string, way Way) ModeRow { return ModeRow{Name: name, Way: way} }
	for want, rows := range map[string][]ModeRow{
		"tray with lintel, beam against":       {row("beam", Against), row("lintel", With), row("tray", Owns)},
		"tray alone":                           {row("beam", Hardly), row("tray", Owns)},
		"tray, beam against; rod hardly moves": {row("beam", Against), row("rod", Hardly), row("tray", Owns)},
		"tray with a and b; c and d hardly move": {row("a", With), row("b", With), row("c", Hardly),
			row("d", Hardly), row("tray", Owns)},
		"tray": {row("tray", Owns)},
	} {
		m := Mode{Owner: "tray", Rows: rows}
		if got := m.Words(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestWayBar: with it to the right and plain, against it to the left and striped;
// it says so to who cannot see it.
func TestWayBar(t *testing.T) {
	with := string(wayBar(ModeRow{Share: 0.5, Way: With}))
	if !strings.Contains(with, `x="75" y="3" width="37.5"`) || !strings.Contains(with, "50\u00a0%, with it") || strings.Contains(with, "M72") {
		t.Error(with)
	}
	against := string(wayBar(ModeRow{Share: 0.2, Way: Against}))
	if !strings.Contains(against, `x="60" y="3" width="15"`) || !strings.Contains(against, "20\u00a0%, against it") || !strings.Contains(against, "M72 3V11") {
		t.Error(against)
	}
}
