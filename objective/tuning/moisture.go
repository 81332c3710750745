package tuning

import "evenswing/space"

// wooden tells a wood or a sheet, which take up moisture, by the index of the
// material. A material of the rig file's own without a kind counts where it is
// lighter than any metal or stone.
func (l *Layout) wooden(of int) bool {
	if of < 0 {
		return false
	}
	m := &l.rig.Materials[of]
	return m.Kind == "wood" || m.Kind == "sheet" || m.Kind == "" && m.Density.Value < heaviestWood
}

// Wooden marks the densities of a design that are of wood or sheets: of all but
// charges.
func (l *Layout) Wooden(d *space.Design) []bool {
	mask := make([]bool, l.densities)
	for k := range l.parts {
		p := &l.parts[k]
		own := &d.Pendulums[p.pendulum]
		switch p.kind {
		case barPart:
			mask[p.density] = l.wooden(own.Bars[p.index].Of)
		case drumPart:
			mask[p.density] = l.wooden(own.Drums[p.index].Of)
		case blockPart:
			mask[p.density] = l.wooden(own.Blocks[p.index].Of)
		}
	}
	return mask
}

// heaviestWood is a density that only a few woods exceed, kg/m³ (from memory).
const heaviestWood = 1200

// MoistureSwing is the share by which wood indoors grows heavier from the dry end
// of a heating season to the damp end of a summer: from about 7 to 11 % moisture,
// 1.11/1.07 − 1 = 3.7 % of its mass (equilibrium moisture as the Wood Handbook,
// FPL-GTR-190, chapter 4, has it for rooms at 30 to 60 % humidity; from memory).
const MoistureSwing = 1.11/1.07 - 1
