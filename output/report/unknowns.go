package report

import (
	"strconv"

	"evenswing/space"
)

// UnknownsOf writes a design's unknowns as the rig file would. values are in
// SI, in the rig's order; a choice holds the index of its option.
func UnknownsOf(rig *space.Rig, values []float64) []Unknown {
	list := make([]Unknown, 0, len(rig.Unknowns))
	for i := range rig.Unknowns {
		if i < len(values) {
			text, unit := valueText(&rig.Unknowns[i], values[i])
			list = append(list, Unknown{rig.Unknowns[i].Name, text, unit, rig.Unknowns[i].Number(values[i])})
		}
	}
	return list
}

// unknownDigits are the figures of an unknown's value on the page: 0.01 mm in
// 999 mm. The filled-in rig file has every digit.
const unknownDigits = 5

// valueText is a value in the unit of the rig file, and that unit.
func valueText(u *space.Unknown, value float64) (text, unit string) {
	if u.Kind == space.Choice {
		return optionText(u, value), ""
	}
	return significant(value/factorOf(u), unknownDigits), u.Unit
}

// factorOf is the SI value of an unknown's unit; 1 for a plain number.
func factorOf(u *space.Unknown) float64 {
	if u.Factor == 0 {
		return 1
	}
	return u.Factor
}

func optionText(u *space.Unknown, value float64) string {
	i := int(value + 0.5)
	if i < 0 || i >= len(u.Options) {
		return strconv.Itoa(i)
	}
	return u.Options[i]
}

// withUnit joins a value and its unit with a space that does not break.
func withUnit(text, unit string) string {
	if unit == "" {
		return text
	}
	return text + nbsp + unit
}

// HoldsLead tells whether some part of a design is of lead or holds it.
func HoldsLead(rig *space.Rig, design *space.Design) bool {
	for i := range design.Pendulums {
		p := &design.Pendulums[i]
		for j := range p.Bars {
			if isLead(rig, p.Bars[j].Of) {
				return true
			}
		}
		for j := range p.Blocks {
			if isLead(rig, p.Blocks[j].Of) {
				return true
			}
		}
		for j := range p.Drums {
			if drumHoldsLead(rig, &p.Drums[j]) {
				return true
			}
		}
	}
	return false
}

func drumHoldsLead(rig *space.Rig, drum *space.Drum) bool {
	for i := range drum.Charges {
		if isLead(rig, drum.Charges[i].Of) {
			return true
		}
	}
	return isLead(rig, drum.Of)
}

// Lead is told by its name in the table's own figure where there is one, else
// by its weight: no other metal of a workshop weighs as much.
const (
	lightestLead = 9700  // kg/m³
	heaviestLead = 11500 // kg/m³
	littleLead   = 0.001 // of the mass: less needs no care of its own
)

func isLead(rig *space.Rig, index int) bool {
	if index < 0 || index >= len(rig.Materials) {
		return false
	}
	m := &rig.Materials[index]
	if m.LeadContent.Given {
		return m.LeadContent.Value > littleLead
	}
	return m.Density.Value > lightestLead && m.Density.Value < heaviestLead
}
