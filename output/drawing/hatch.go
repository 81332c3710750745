package drawing

import (
	"math"

	"evenswing/space"
	"evenswing/space/material"
)

// hatch tells a kind of material by its pattern, so that a print in black
// shows what is what.
type hatch uint8

const (
	noHatch    hatch = iota // white
	seeThrough              // an edge without a filling
	plainHatch              // a material that is not known
	woodHatch               // grain along the part
	stoneHatch              // light metals, stone, concrete
	metalHatch              // iron, steel, brass, copper
	leadHatch               // lead and heavier
	hatchCount
)

// Densities that part the kinds, kg/m³: no wood is above the first, no stone
// or light metal above the second, no iron, steel or copper alloy above the
// third.
const (
	heaviestWood  = 1500
	heaviestStone = 5500
	heaviestMetal = 9700
)

// materialOf is a material of the rig; an index outside gives an unnamed one.
func materialOf(rig *space.Rig, index int) material.Material {
	if index < 0 || index >= len(rig.Materials) {
		return material.Material{}
	}
	return rig.Materials[index]
}

// hatchOf is the pattern for a material of the rig.
func hatchOf(rig *space.Rig, index int) hatch {
	density := materialOf(rig, index).Density.Value
	switch {
	case density <= 0 || math.IsNaN(density):
		return plainHatch
	case density <= heaviestWood:
		return woodHatch
	case density <= heaviestStone:
		return stoneHatch
	case density <= heaviestMetal:
		return metalHatch
	}
	return leadHatch
}

// swatch is how a pattern looks: a tile of a ground tint and strokes, in
// twentieths of the text height, turned against the part's grain.
type swatch struct {
	ground      string
	size        float64 // side of the tile
	strokes     string  // path data in the tile, in its twentieths
	line        float64
	turned      float64 // degrees, counter-clockwise
	followsPart bool    // turns with the part, as grain does
}

var swatches = [hatchCount]swatch{
	plainHatch: {ground: "#f4f3ef"},
	woodHatch: {ground: "#f5ead6", size: 12, line: 0.5, followsPart: true,
		strokes: "M0 2.5H12M0 6.5H5M7 6.5H12M0 10H9M10.5 10H12"},
	stoneHatch: {ground: "#eef0f0", size: 10, line: 0.9, strokes: "M2 2h.1M7 4h.1M4 8h.1M9 9h.1"},
	metalHatch: {ground: "#dde5ea", size: 7, line: 0.8, turned: 45, strokes: "M0 3.5H7"},
	leadHatch:  {ground: "#c9cdd6", size: 7, line: 0.8, turned: 45, strokes: "M0 3.5H7M3.5 0V7"},
}
