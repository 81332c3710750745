package workshop

import (
	"math"
	"strconv"
	"strings"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/space"
	"evenswing/space/material"
)

// Amount is a number as the maker reads it and as it is, in SI.
type Amount struct {
	Text string
	SI   float64
}

// Place is a point: x to the right, y up.
type Place struct{ X, Y Amount }

// bench is what the tables of one design are made from.
type bench struct {
	rig     *space.Rig
	design  *space.Design
	account *objective.Account
	pose    []float64 // at rest
	units   drawing.Units
	id      string // prefix of the ids in pictures
}

// length writes a size or a distance; where the maker's rule is too coarse for
// the rig's own tolerance of lengths, the exact one stands beside it.
func (b *bench) length(metres float64) Amount {
	return Amount{b.units.Exact(metres, b.design.Tolerance.Length), metres}
}

// pivot writes a coordinate that has the tolerance of pivots.
func (b *bench) pivot(metres float64) Amount {
	return Amount{b.units.Exact(metres, b.design.Tolerance.Pivot), metres}
}

func (b *bench) mass(kilograms float64) Amount { return Amount{b.units.Mass(kilograms), kilograms} }

// force writes a force, and the mass that weighs as much.
func (b *bench) force(newtons float64) Amount {
	value, unit := newtons, "N"
	if b.units == drawing.Inch {
		value, unit = newtons/drawing.NewtonsPerPound, "lbf"
	}
	text := whole(value)
	if math.Abs(value) < smallForce {
		text = figures(value, 2)
	}
	return Amount{text + nbsp + unit + " (" + b.units.Mass(newtons/b.design.Gravity) + ")", newtons}
}

// bareForce writes a force alone.
func (b *bench) bareForce(newtons float64) Amount {
	text, _, _ := strings.Cut(b.force(newtons).Text, " (")
	return Amount{text, newtons}
}

// smallForce is what is written with two figures instead of as a whole.
const smallForce = 10

func (b *bench) moment(newtonMetres float64) Amount {
	value, unit := newtonMetres, "N"+nbsp+"m"
	if b.units == drawing.Inch {
		value, unit = newtonMetres/drawing.NewtonMetresPerPoundFoot, "lbf"+nbsp+"ft"
	}
	return Amount{figures(value, 3) + nbsp + unit, newtonMetres}
}

// degrees writes an angle in rad.
func degrees(radians float64) Amount {
	return Amount{fixed(radians*180/math.Pi, 2) + "°", radians}
}

func (b *bench) place(at space.Vec) Place { return Place{b.length(at.X), b.length(at.Y)} }

func (b *bench) pivotPlace(at space.Vec) Place { return Place{b.pivot(at.X), b.pivot(at.Y)} }

// nbsp is the space between a number and its unit, where no line breaks.
const nbsp = "\u00a0"

// fixed writes a number with n decimals; a rounded nought has no sign.
func fixed(value float64, n int) string {
	text := strconv.FormatFloat(value, 'f', n, 64)
	if back, err := strconv.ParseFloat(text, 64); err == nil && back == 0 {
		return strconv.FormatFloat(0, 'f', n, 64)
	}
	return text
}

func whole(value float64) string { return fixed(value, 0) }

// figures writes a number with n figures that count, without an exponent.
func figures(value float64, n int) string {
	if value == 0 {
		return "0"
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(value))))
	return fixed(value, min(max(places, 0), mostDecimals))
}

// mostDecimals is the finest figure that a bench needs.
const mostDecimals = 4

// several writes a count and its word.
func several(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// names are the names of one pendulum, empty where the rig has none.
func (b *bench) names(i int) space.PendulumNames {
	if i < 0 || i >= len(b.rig.Pendulums) {
		return space.PendulumNames{}
	}
	return b.rig.Pendulums[i]
}

// named is the i-th name, or a word for what it is.
func named(list []string, i int, what string) string {
	if i < len(list) && list[i] != "" {
		return list[i]
	}
	return what
}

func (b *bench) material(of int) material.Material {
	if of < 0 || of >= len(b.rig.Materials) {
		return material.Material{}
	}
	return b.rig.Materials[of]
}

func (b *bench) density(of int) float64 { return b.material(of).Density.Value }

// at is a point of a pendulum on the wall at rest.
func (b *bench) at(pendulum int, point space.Vec) space.Vec {
	return drawing.At(b.design, b.pose, pendulum, point)
}

// carrier names what pendulum i hangs from.
func (b *bench) carrier(parent int) string {
	if parent == space.Wall {
		return wall
	}
	return b.names(parent).Name
}

const wall = "the wall"
