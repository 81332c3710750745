package workshop

import "evenswing/output/drawing"

// Drawings are those of one design in the pose as drawn: measured views as SVG,
// whose unit is a millimetre of the rig, and outlines as DXF. Those from the side
// are nil where nothing of the rig has a z.
type Drawings struct {
	Front, Side       []byte
	FrontDXF, SideDXF []byte
	PartsDXF          []byte // every bar, board and drum laid flat
}

func (b *bench) drawings() Drawings {
	front := drawing.Style{ID: b.id + "front-", Units: b.units, Title: b.rig.Name + ", measured, from the front", Named: true, Masses: b.masses()}
	side := drawing.Style{ID: b.id + "side-", Units: b.units, Title: b.rig.Name + ", measured, from the left"}
	return Drawings{
		Front: drawing.Measured(b.rig, b.design, nil, front), Side: drawing.Side(b.rig, b.design, nil, side),
		FrontDXF: drawing.FrontDXF(b.rig, b.design, nil), SideDXF: drawing.SideDXF(b.rig, b.design, nil),
		PartsDXF: drawing.PartsDXF(b.rig, b.design),
	}
}

// masses are those of the pendulums, kg.
func (b *bench) masses() []float64 {
	list := make([]float64, len(b.account.Pendulums))
	for i := range list {
		list[i] = b.account.Pendulums[i].Mass
	}
	return list
}

// File is one file for the bench.
type File struct {
	Name string
	Data []byte
}

// FileNames are the names of all files that a sheet may have.
var FileNames = []string{"front.svg", "side.svg", "front.dxf", "side.dxf", "parts.dxf", "cutlist.csv", "metal.csv", "pivots.csv", "loads.csv"}

// Files are the drawings, at true size, and the tables. What a rig has not is
// left out.
func (s *Sheet) Files() []File {
	data := [][]byte{drawing.TrueSize(s.Drawings.Front), drawing.TrueSize(s.Drawings.Side), s.Drawings.FrontDXF, s.Drawings.SideDXF, s.Drawings.PartsDXF,
		s.CutsCSV(), s.MetalCSV(), s.PivotsCSV(), s.LoadsCSV()}
	var list []File
	for i, name := range FileNames {
		if len(data[i]) > 0 {
			list = append(list, File{name, data[i]})
		}
	}
	return list
}
