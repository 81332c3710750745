package quantity

import (
	"fmt"
	"strings"
)

// Dimension holds the exponents of length, mass, time and angle. Angle is
// tracked so that a length is never taken for an angle. The zero Dimension is
// that of a plain number.
type Dimension struct{ Length, Mass, Time, Angle int8 }

// The dimensions of this trade.
var (
	Number       = Dimension{}
	Length       = Dimension{Length: 1}
	Mass         = Dimension{Mass: 1}
	Time         = Dimension{Time: 1}
	Angle        = Dimension{Angle: 1}
	Area         = Dimension{Length: 2}
	Volume       = Dimension{Length: 3}
	Velocity     = Dimension{Length: 1, Time: -1}
	Acceleration = Dimension{Length: 1, Time: -2}
	Density      = Dimension{Mass: 1, Length: -3}
	Inertia      = Dimension{Mass: 1, Length: 2}
	Force        = Dimension{Mass: 1, Length: 1, Time: -2}
	Torque       = Dimension{Mass: 1, Length: 2, Time: -2}
	Pressure     = Dimension{Mass: 1, Length: -1, Time: -2}
	Stiffness    = Dimension{Mass: 1, Time: -2}
)

// anything stands for a dimension that is not settled.
var anything = Dimension{highest + 1, highest + 1, highest + 1, highest + 1}

var known = []struct {
	dim   Dimension
	words string
	units []string
}{
	{Number, "a plain number", nil},
	{anything, "a number with its unit", nil},
	{Length, "a length", []string{"mm", "cm", "m", "in", "ft", "thou"}},
	{Mass, "a mass", []string{"g", "kg", "lb", "oz", "t"}},
	{Time, "a time", []string{"s", "ms", "min", "h"}},
	{Angle, "an angle", []string{"deg", "rad"}},
	{Area, "an area", []string{"mm2", "cm2", "m2", "in2", "ft2"}},
	{Volume, "a volume", []string{"cm3", "m3", "L", "in3"}},
	{Velocity, "a speed", []string{"mm/s", "m/s", "in/s"}},
	{Acceleration, "an acceleration", []string{"m/s2", "ft/s2"}},
	{Density, "a density", []string{"kg/m3", "g/cm3", "lb/ft3"}},
	{Inertia, "a moment of inertia", []string{"kg m2", "g cm2", "lb ft2"}},
	{Force, "a force", []string{"N", "kN", "lbf"}},
	{Torque, "a torque", []string{"N m", "lbf ft"}},
	{Pressure, "a pressure", []string{"Pa", "kPa", "MPa", "GPa", "psi"}},
	{Stiffness, "a stiffness", []string{"N/m", "N/mm", "lbf/in"}},
}

// String is the dimension in plain words, such as "a length", or else its SI
// unit, such as "kg m2/s".
func (d Dimension) String() string {
	for i := range known {
		if known[i].dim == d {
			return known[i].words
		}
	}
	return d.si()
}

// Units are units that a quantity of this dimension may have, the ones used
// most first; nil for a plain number. The caller must not change them.
func (d Dimension) Units() []string {
	for i := range known {
		if known[i].dim == d {
			return known[i].units
		}
	}
	return []string{d.si()}
}

// si is the SI unit in the spelling that Parse reads: "kg m2/s", and "s^-1"
// where nothing stands above the line.
func (d Dimension) si() string {
	above, below, alone := "", "", ""
	for _, base := range d.bases() {
		if base.power > 0 {
			above += " " + raised(base.unit, base.power)
		} else if base.power < 0 {
			below += "/" + raised(base.unit, -base.power)
			alone += " " + raised(base.unit, base.power)
		}
	}
	if above == "" {
		return strings.TrimPrefix(alone, " ")
	}
	return above[1:] + below
}

type base struct {
	unit  string
	power int
}

func (d Dimension) bases() [4]base {
	return [4]base{{"kg", int(d.Mass)}, {"m", int(d.Length)}, {"s", int(d.Time)}, {"rad", int(d.Angle)}}
}

func raised(unit string, power int) string {
	if power == 1 {
		return unit
	}
	if power > 0 && power <= unitNamed(unit).glued {
		return fmt.Sprintf("%s%d", unit, power)
	}
	return fmt.Sprintf("%s^%d", unit, power)
}

// highest is the largest exponent that is kept; larger ones, which mean
// nothing here, are held at it.
const highest = 100

func held(power int) int8 { return int8(max(-highest, min(highest, power))) }

// Times is the dimension of a product.
func (d Dimension) Times(e Dimension) Dimension { return d.plus(e, 1) }

// Over is the dimension of a quotient.
func (d Dimension) Over(e Dimension) Dimension { return d.plus(e, -1) }

// Power is the dimension of the n-th power.
func (d Dimension) Power(n int) Dimension { return Number.plus(d, n) }

func (d Dimension) plus(e Dimension, n int) Dimension {
	return Dimension{
		Length: held(int(d.Length) + n*int(e.Length)),
		Mass:   held(int(d.Mass) + n*int(e.Mass)),
		Time:   held(int(d.Time) + n*int(e.Time)),
		Angle:  held(int(d.Angle) + n*int(e.Angle)),
	}
}

// Root is the dimension of the square root; ok is false if an exponent is odd.
func (d Dimension) Root() (root Dimension, ok bool) {
	root = Dimension{d.Length / 2, d.Mass / 2, d.Time / 2, d.Angle / 2}
	return root, root.Power(2) == d
}
