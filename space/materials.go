package space

import (
	"slices"
	"strings"

	"evenswing/space/material"
	"evenswing/space/quantity"
)

// ownSource is the source of a figure that the rig file gives.
const ownSource = "the rig file"

// readMaterials reads the file's own materials; one that is built in keeps the
// figures that the file leaves out.
func (r *reader) readMaterials(top section) {
	e, ok := top.at["materials"]
	if !ok {
		return
	}
	for _, m := range r.entries(e.spot) {
		if !r.fitName(m.atKey(), m.name) {
			continue
		}
		i, built := r.ownStock(m.name)
		r.own = append(r.own, ownMaterial{r.stock[i].Name, m.where, built})
		r.readFigures(m.spot, &r.stock[i])
	}
}

// ownStock is the place in the stock of a material that the file gives figures
// for, and whether it is built in. A second name of a material that is built
// in, such as oak, becomes a material of its own with the same figures.
func (r *reader) ownStock(name string) (index int, built bool) {
	i, built := material.Find(r.stock, name)
	if built && strings.EqualFold(r.stock[i].Name, name) {
		return i, true
	}
	own := material.Material{Kind: "own", Basis: "as the rig file says"}
	if built {
		own = r.stock[i]
	}
	own.Name, own.Aliases = name, nil
	r.stock = append(r.stock, own)
	return len(r.stock) - 1, built
}

// readFigures reads the figures of one material.
func (r *reader) readFigures(at spot, m *material.Material) {
	s := r.section(at, materialKeys())
	r.spoilt[m.Name] = s.meant["density"]
	for _, f := range material.Fields() {
		e, ok := s.at[f.Key]
		if !ok {
			continue
		}
		if v, ok := r.fixed(e.spot, dimensionOf(f), positive); ok {
			*m.Property(f.Key) = material.Property{Value: v, Unit: f.Unit, Source: ownSource, Given: true}
		} else if f.Key == "density" {
			r.spoilt[m.Name] = true
		}
	}
}

// dimensionOf is the dimension of a material's figure.
func dimensionOf(f material.Field) quantity.Dimension {
	if f.Unit == "" {
		return quantity.Number
	}
	_, dim, err := quantity.UnitFactor(f.Unit)
	if err != nil {
		panic("space: unit of " + f.Key + ": " + err.Error())
	}
	return dim
}

func materialKeys() (keys []string) {
	for _, f := range material.Fields() {
		keys = append(keys, f.Key)
	}
	return keys
}

// readOf reads the material of a part: its name, or a choice among materials.
func (r *reader) readOf(s section, to *int) {
	at, ok := s.need("of", "ash")
	if !ok {
		return
	}
	name, ok := r.text(at, "a material")
	if !ok {
		return
	}
	for i := range r.rig.Unknowns {
		if u := &r.rig.Unknowns[i]; u.Name == name {
			r.readChosen(at, i, u, to)
			return
		}
	}
	if i, ok := r.stockNamed(at, name, ""); ok {
		*to = i
	}
}

// readChosen makes the material of a part follow a choice of words.
func (r *reader) readChosen(at spot, unknown int, u *Unknown, to *int) {
	r.words.add(u.Name)
	if u.Kind != Choice || u.Amounts != nil {
		if r.rig.marks[unknown].sound {
			r.wrong(at, 0, quoted(u.Name)+" is an unknown number, but a material is wanted here",
				"a material or an unknown such as `steel or lead`", "name a material")
		}
		return
	}
	if table := r.tableOf(at, u); table != nil {
		r.picks = append(r.picks, pointedPick{unknown, table, to})
	}
}

// tableOf is the material of each option of a choice, nil where one is none;
// that is reported for the first part that needs it.
func (r *reader) tableOf(at spot, u *Unknown) []int {
	if table, ok := r.tables[u]; ok {
		return table
	}
	table := make([]int, len(u.Options))
	for i, o := range u.Options {
		index, ok := r.stockNamed(at, o, " (an option of "+quoted(u.Name)+")")
		if !ok {
			table = nil
			break
		}
		table[i] = index
	}
	r.tables[u] = table
	return table
}

// stockNamed is the index in Rig.Materials of a material that a part names.
func (r *reader) stockNamed(at spot, name, from string) (int, bool) {
	i, ok := material.Find(r.stock, name)
	if !ok {
		mend := "`evenswing materials` lists those built in; add your own under `materials`"
		if near := material.Nearest(r.stock, name); near != "" {
			mend = "did you mean " + quoted(near) + "? " + mend
		}
		r.wrong(at, 0, "there is no material "+quoted(name)+from, "", mend)
		return 0, false
	}
	m := &r.stock[i]
	if !m.Density.Given && r.spoilt[m.Name] {
		return 0, false
	}
	if !m.Density.Given {
		r.wrong(at, 0, "no one gave "+quoted(m.Name)+from+" a density", "", "add `"+m.Name+": {density: 700 kg/m3}` under `materials`")
		return 0, false
	}
	return r.useStock(i), true
}

// useStock is the index in Rig.Materials of a material of the stock.
func (r *reader) useStock(i int) int {
	m := &r.stock[i]
	index, ok := r.used[m.Name]
	if !ok {
		index = len(r.rig.Materials)
		r.used[m.Name] = index
		r.rig.Materials = append(r.rig.Materials, *m)
	}
	return index
}

// Choices are the materials that a part of a design of this rig may be made of:
// of points at its material in d. It allocates.
func (r *Rig) Choices(d *Design, of *int) []int {
	place, at := -1, 0
	eachMaterial(d, func(m *int) {
		if m == of {
			place = at
		}
		at++
	})
	for _, p := range r.program.picks {
		if p.place == place {
			return slices.Clone(p.table)
		}
	}
	return []int{*of}
}

// ownMaterial is a material that the file gives figures for.
type ownMaterial struct {
	name, where string
	built       bool // it is built in too
}

// uses tells whether a part of the rig is made of a material.
func (r *reader) uses(name string) bool {
	_, ok := r.used[name]
	return ok
}
