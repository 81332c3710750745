package report

import (
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"evenswing/output/drawing"
	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// anglesOf reads the angles of a page as swing.js does.
func anglesOf(t *testing.T, s *Swing) [][]float64 {
	t.Helper()
	raw, err := base64.RawURLEncoding.DecodeString(s.Angles())
	if err != nil {
		t.Fatal(err)
	}
	var chains chainData
	text, err := s.Data()
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal([]byte(text), &chains); err != nil {
		t.Fatal(err)
	}
	rows := len(chains.Bodies)
	angles := make([][]float64, rows)
	for i := range len(raw) / 2 {
		row := i * rows / (len(raw) / 2)
		angles[row] = append(angles[row], float64(int16(binary.LittleEndian.Uint16(raw[2*i:])))*chains.Turn/math.MaxInt16)
	}
	return angles
}

func TestAnglesOfAPage(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	poses := Poses{Step: 0.1, Angles: [][]float64{{0.07, -0.0699, 0}, {0.01, 0.02, 0.03}, {-0.07, 1e-6, 0}}}
	s := SwingOf(1, rig, design, poses, drawing.Metric)
	got := anglesOf(t, s)
	for i := range poses.Angles {
		for k, want := range poses.Angles[i] {
			if math.Abs(got[i][k]-want) > 0.07/math.MaxInt16 {
				t.Errorf("pendulum %d, sample %d: %v, want %v", i, k, got[i][k], want)
			}
		}
	}
	if !s.Whole || math.Abs(s.Lasts-0.2) > 1e-12 || !s.Draws {
		t.Errorf("%+v", s)
	}
	text, _ := s.Data()
	want := `{"step":0.1,"turn":0.07,"bodies":[[-1,0,1900],[0,-500,0],[1,0,-1150]],"paper":[2,-120,190],"pen":[-1,-650,1390]}`
	if text != want {
		t.Errorf("chains %s, want %s", text, want)
	}
}

func TestPosesBeyondTheRoomAreLeftOut(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	poses := Poses{Step: 0.01, Angles: make([][]float64, 3)}
	for i := range poses.Angles {
		poses.Angles[i] = make([]float64, mostAngles)
	}
	s := SwingOf(1, rig, design, poses, drawing.Metric)
	if s.Whole || len(s.Poses.Angles[2]) != mostAngles/3 || len(s.Angles()) > mostAngles*8/3+2 {
		t.Errorf("whole %v, %d samples, %d bytes", s.Whole, len(s.Poses.Angles[2]), len(s.Angles()))
	}
	if SwingOf(1, rig, design, Poses{Step: 1}, drawing.Metric) != nil || SwingOf(1, rig, design, Poses{1, [][]float64{{0}, {0}, {0}}}, drawing.Metric) != nil {
		t.Error("a motion of one pose or none is played")
	}
}

func TestSwingWithoutPaper(t *testing.T) {
	rig, design := sample.Chain()
	poses := Poses{Step: 0.1, Angles: make([][]float64, space.MaxPendulums)}
	for i := range poses.Angles {
		poses.Angles[i] = []float64{0.01, 0.02}
	}
	s := SwingOf(1, rig, design, poses, drawing.Inch)
	if s.Draws || s.Sheet != nil || strings.Contains(string(s.Stage), "s01-line") {
		t.Error("a sheet for a rig without paper")
	}
	page := &Page{Rig: rig.Name, Sheets: []Sheet{{Rank: 1, Swing: s}}}
	said := plain(t, page)
	says(t, said, "How it swings")
	if strings.Contains(said, "and draws") {
		t.Error("a rig without paper draws")
	}
}
