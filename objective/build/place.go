package build

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
	return m.PartWords(p.Part) + ", at " + m.placeWords(p)
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
	}
	return "where it is held"
}

// PartWords tells a part, such as "lintel, beam". It allocates.
func (m *Model) PartWords(p Part) string {
	names := &m.rig.Pendulums[p.Pendulum]
	list := [...][]string{BarPart: names.Bars, DrumPart: names.Drums, BlockPart: names.Blocks, LumpPart: names.Lumps}[p.Kind]
	return names.Name + ", " + list[p.Index]
}
