package drawing

import (
	"strconv"
	"strings"

	"evenswing/space"
)

// file is the whole drawing: header, tables, entities.
func (d *dxf) file() []byte {
	var out strings.Builder
	pair(&out, 999, "millimetres")
	d.header(&out)
	d.tables(&out)
	section(&out, "ENTITIES")
	out.WriteString(d.entities.String())
	pair(&out, 0, "ENDSEC")
	pair(&out, 0, "EOF")
	return []byte(out.String())
}

func section(out *strings.Builder, name string) {
	pair(out, 0, "SECTION")
	pair(out, 2, name)
}

// Values of the header: millimetres, and metric patterns.
const (
	insertUnitsMillimetres = "4"
	measurementMetric      = "1"
)

func (d *dxf) header(out *strings.Builder) {
	section(out, "HEADER")
	pair(out, 9, "$ACADVER")
	pair(out, 1, "AC1009")
	pair(out, 9, "$INSUNITS")
	pair(out, 70, insertUnitsMillimetres)
	pair(out, 9, "$MEASUREMENT")
	pair(out, 70, measurementMetric)
	d.corner(out, "$EXTMIN", d.extent.Min)
	d.corner(out, "$EXTMAX", d.extent.Max)
	pair(out, 0, "ENDSEC")
}

func (d *dxf) corner(out *strings.Builder, name string, p space.Vec) {
	pair(out, 9, name)
	pair(out, 10, dxfReal(p.X))
	pair(out, 20, dxfReal(p.Y))
	pair(out, 30, "0.0")
}

// tables define the one kind of line and every layer.
func (d *dxf) tables(out *strings.Builder) {
	section(out, "TABLES")
	table(out, "LTYPE", 1)
	pair(out, 0, "LTYPE")
	pair(out, 2, "CONTINUOUS")
	pair(out, 70, "0")
	pair(out, 3, "Solid line")
	pair(out, 72, "65")
	pair(out, 73, "0")
	pair(out, 40, "0.0")
	pair(out, 0, "ENDTAB")
	table(out, "LAYER", len(d.layers)+1)
	for _, name := range append([]string{"0"}, d.layers...) {
		pair(out, 0, "LAYER")
		pair(out, 2, name)
		pair(out, 70, "0")
		pair(out, 62, "7")
		pair(out, 6, "CONTINUOUS")
	}
	pair(out, 0, "ENDTAB")
	pair(out, 0, "ENDSEC")
}

func table(out *strings.Builder, name string, rows int) {
	pair(out, 0, "TABLE")
	pair(out, 2, name)
	pair(out, 70, strconv.Itoa(rows))
}
