package build

import (
	"strings"
	"testing"

	"evenswing/objective/motion"
)

// sound is a beam with a rod that hangs from its end: nothing is wrong with it.
// Invented.
const sound = `
rig: Sound
pendulums:
  lintel:
    hangs_from: wall
    pivot: [0 mm, 1900 mm]
    edge: {length: 60 mm, z: 200 mm}
    swing: 4 deg
    bars: {beam: {from: [-400 mm, 0 mm], to: [400 mm, 0 mm], section: 70 x 40 mm, of: ash, z: 200 mm, recess: {at: [0 mm, -35 mm], width: 50 mm, depth: 12 mm}}}
    lumps: {right: {at: [400 mm, -60 mm], mass: 15 kg, z: 185 mm}, left: {at: [-200 mm, -60 mm], mass: 21.1 kg, z: 206 mm}}
  ladder:
    hangs_from: lintel
    pivot: [-400 mm, 0 mm]
    edge: {length: 50 mm, z: 220 mm}
    swing: 4 deg
    bars: {rod: {from: [0 mm, 100 mm], to: [0 mm, -600 mm], section: 45 x 35 mm, of: ash, z: 255 mm}}
    drums: {bob: {at: [0 mm, -500 mm], across: 240 mm, deep: 70 mm, rim: 18 mm, faces: 6 mm, of: birch plywood, z: 215 mm, charge: {discs: 6, across: 160 mm, thick: 3 mm, of: steel}}}
`

// complaints lists what is over its limit, with names; the wanted gap is 8 mm.
func complaints(s *standing) string {
	var list []string
	x := strength(s, nil)
	var b [motion.Max]Balance
	s.w.BalanceTo(&b)
	for i := range s.design.Pendulums {
		if u := &x.Pendulums[i]; !u.Known || u.Missing || u.Value > 1 {
			list = append(list, s.model.UseWords(u))
		}
		if !b[i].Known || b[i].Use > 1 {
			list = append(list, "balance of "+s.rig.Pendulums[i].Name)
		}
	}
	if c := clearance(s); c.Pairs == 0 || c.Gap < 0.008 {
		list = append(list, s.model.PartWords(c.A)+" near "+s.model.PartWords(c.B))
	}
	return strings.Join(list, "; ")
}

// TestPlantedFaults: each fault is found, by the right check and with its part
// named, and nothing else complains.
func TestPlantedFaults(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"", "", ""},
		{"depth: 12 mm", "depth: 52 mm", "lintel, beam, where it is held: shear"},
		{"mass: 21.1 kg, z: 206 mm", "mass: 21.1 kg, z: 350 mm", "balance of lintel"},
		{"at: [0 mm, -500 mm]", "at: [0 mm, -160 mm]", "lintel, beam near ladder, bob"},
		{"faces: 6 mm", "faces: 1 mm", "ladder, bob: bending of a face when it is laid flat"},
		{"section: 45 x 35 mm, of: ash", "section: 45 x 35 mm, of: MDF", "ladder, rod: material that gives way under lasting load"},
	} {
		text := strings.Replace(sound, c.from, c.to, 1)
		if got := complaints(hang(t, text)); got != c.want {
			t.Errorf("%s: %q, want %q", c.to, got, c.want)
		}
	}
}
