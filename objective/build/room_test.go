package build

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

// TestRoom: against every pose of a fan, and the closed form of a bob that
// swings against a side.
func TestRoom(t *testing.T) {
	given := func(x float64) space.Optional { return space.Optional{Value: x, Given: true} }
	room := Room{Floor: given(-1.2), Ceiling: given(0.9), Left: given(-0.7), Right: given(0.8)}
	k := uint64(0)
	randomRigs(t, 20, func(s *standing) {
		k++
		var g RoomGap
		s.w.RoomTo(&g, &room)
		r := rand.New(rand.NewPCG(k, 5))
		least := math.Inf(1)
		for pose := range 400 {
			var angle [motion.Max]float64
			for i := range s.design.Pendulums {
				a := s.design.Pendulums[i].Swing
				angle[i] = a * (2*r.Float64() - 1)
				if pose < 32 {
					angle[i] = a * float64(2*(pose>>i&1)-1)
				}
			}
			least = min(least, s.roomGap(&angle, &room))
		}
		if !g.Known || g.Gap > least+1e-12 || g.Gap < least-2e-3 {
			t.Errorf("rig %d: %+v, a fan has %.6f", k, g, least)
		}
	})
	s := hang(t, `
rig: Side
pendulums: {p: {hangs_from: wall, pivot: [100 mm, 0 mm], swing: 6 deg, drums: {bob: {at: [0 mm, -500 mm], across: 200 mm, deep: 60 mm, rim: 18 mm, faces: 6 mm, of: birch plywood}}}}
`)
	var g RoomGap
	s.w.RoomTo(&g, &Room{Right: given(0.3)})
	agree(t, "right", g.Gap, 0.3-0.1-0.1-0.5*math.Sin(rad(6)), 1e-12)
	if g.SideWords() != "right side" {
		t.Error(g.SideWords())
	}
	if s.w.RoomTo(&g, &Room{}); g.Known {
		t.Error("a room without sides")
	}
}

func (s *standing) roomGap(angle *[motion.Max]float64, room *Room) float64 {
	least := math.Inf(1)
	for k := range s.w.parts {
		for _, ring := range s.rings(angle, s.w.parts[k].Part, space.Vec{}, 0) {
			for _, c := range ring.corners {
				least = min(least, c.Y-ring.radius-room.Floor.Value, room.Ceiling.Value-c.Y-ring.radius,
					c.X-ring.radius-room.Left.Value, room.Right.Value-c.X-ring.radius)
			}
		}
	}
	return least
}
