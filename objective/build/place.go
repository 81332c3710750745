package build

import "evenswing/space"

// PlaceKind is what is at a place on a bar.
type PlaceKind uint8

// The kinds of place.
const (
	AtSupport  PlaceKind = iota // where the bar is held: the pivot, or another bar
	AtBar                       // where it holds another bar
	AtDrum                      // a drum's joint
	AtBlock                     // a block's joint
	AtLump                      // a weight's joint
	AtPendulum                  // the pivot of a pendulum that hangs on it
	AtRecess
	AtMortise
	AtHole
	AtScrews // of the bar
	AtPlate
)

var placeOf = [...]PlaceKind{BarPart: AtBar, DrumPart: AtDrum, BlockPart: AtBlock, LumpPart: AtLump}

// Place is a place on a part. Index says which one of its Kind: a bar, drum,
// block or lump of the pendulum, a pendulum of the rig, a void of the bar.
type Place struct {
	Part
	Kind  PlaceKind
	Index int
}

// Words tells a place, such as "lintel, beam, at its recess". It allocates.
func (m *Model) Words(p Place) string {
	if p.Kind == AtSupport {
		return m.PartWords(p.Part) + ", where it is held"
	}
	return m.PartWords(p.Part) + ", at " + m.placeWords(p)
}

// JointWords names the place of a joint by what it holds, whether screws, a plate or
// nothing is named for it, and of the bar's section there; "" of another place.
func (m *Model) JointWords(s *Station) string {
	if held, ok := m.heldAt(s.Place); ok {
		return m.PartWords(s.Place.Part) + ", " + m.heldWords(s.Place.Part, held)
	}
	return ""
}

func (m *Model) heldAt(p Place) (space.Held, bool) {
	switch {
	case p.Kind >= AtBar && p.Kind <= AtPendulum:
		return p.held(), true
	case p.Kind == AtScrews:
		return m.design.Pendulums[p.Pendulum].Bars[p.Part.Index].Screws[p.Index].Holds, true
	case p.Kind == AtPlate:
		return m.design.Pendulums[p.Pendulum].Bars[p.Part.Index].Plates[p.Index].Holds, true
	}
	return space.Held{}, false
}

// StationWords tells a station. It allocates.
func (m *Model) StationWords(s *Station) string {
	switch s.Kind {
	case PivotStation:
		return m.rig.Pendulums[s.Place.Pendulum].Name + ", pivot"
	case FaceStation:
		return m.PartWords(s.Place.Part) + ", a face"
	case FixingStation:
		return "wall, an uppermost fixing"
	case SectionStation:
		if s.Place.Kind >= AtBar && s.Place.Kind <= AtPendulum {
			return m.Words(s.Place) + ", the bar itself"
		}
	}
	return m.Words(s.Place)
}

func (m *Model) placeWords(p Place) string {
	names := &m.rig.Pendulums[p.Pendulum]
	switch p.Kind {
	case AtBar:
		return "the joint of " + names.Bars[p.Index]
	case AtDrum:
		return "the joint of " + names.Drums[p.Index]
	case AtBlock:
		return "the joint of " + names.Blocks[p.Index]
	case AtLump:
		return "the joint of " + names.Lumps[p.Index]
	case AtPendulum:
		return "the pivot of " + m.rig.Pendulums[p.Index].Name
	case AtRecess:
		return "its recess"
	case AtMortise:
		return "its mortise"
	case AtHole:
		return "its hole"
	case AtScrews:
		return "the screws of " + m.heldWords(p.Part, m.design.Pendulums[p.Pendulum].Bars[p.Part.Index].Screws[p.Index].Holds)
	case AtPlate:
		return "the plate of " + m.heldWords(p.Part, m.design.Pendulums[p.Pendulum].Bars[p.Part.Index].Plates[p.Index].Holds)
	}
	return "a place without a name"
}

// heldWords names what a joint of a part holds.
func (m *Model) heldWords(p Part, held space.Held) string {
	names := &m.rig.Pendulums[p.Pendulum]
	switch held.Kind {
	case space.HeldPivot:
		return "the pivot"
	case space.HeldPendulum:
		return m.rig.Pendulums[held.Index].Name
	}
	return [...][]string{space.HeldBar: names.Bars, space.HeldDrum: names.Drums, space.HeldBlock: names.Blocks, space.HeldLump: names.Lumps}[held.Kind][held.Index]
}

// PartWords tells a part, such as "lintel, beam". It allocates.
func (m *Model) PartWords(p Part) string {
	if p.Kind == SupportPart {
		return "the pen's support"
	}
	names := &m.rig.Pendulums[p.Pendulum]
	list := [...][]string{BarPart: names.Bars, DrumPart: names.Drums, BlockPart: names.Blocks, LumpPart: names.Lumps}[p.Kind]
	return names.Name + ", " + list[p.Index]
}
