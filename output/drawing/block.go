package drawing

import (
	"math"

	"evenswing/space"
)

// blockOutline is a solid rectangle.
func blockOutline(rig *space.Rig, block *space.Block, at place) outline {
	turn := at.turn + block.Turned
	return outline{
		points: rectangle(at.point(block.At), block.Width, block.Height, turn),
		hatch:  hatchOf(rig, block.Of), grain: turn, z: block.Z.Value,
	}
}

// lumpRadius is the radius of the ball of lead that weighs as much: a lump has
// a mass and no shape. r = (3 m/(4 π ρ))^(1/3).
func lumpRadius(lump *space.Lump) float64 {
	return math.Cbrt(3 * math.Max(lump.Mass, 0) / (4 * math.Pi * leadDensity))
}

// leadDensity is that of lead at room temperature, kg/m³; it only sizes a mark.
const leadDensity = 11340
