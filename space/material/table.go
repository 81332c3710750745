package material

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"slices"
	"sync"
)

//go:embed table.json
var tableJSON []byte

// table is table.json.
type table struct {
	Note      string
	Materials []row
	Packing   map[string]Property
	Variation map[string]Property
}

type row struct {
	Name, Kind, Basis string
	Aliases           []string
	CrossCheck        string `json:"cross_check"`
	Caution           string
	Properties        map[string]Property
}

var readTable = sync.OnceValue(func() table {
	var t table
	decoder := json.NewDecoder(bytes.NewReader(tableJSON))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&t); err != nil {
		panic("material: table.json: " + err.Error())
	}
	return t
})

var builtIn = sync.OnceValue(func() []Material {
	var list []Material
	for _, r := range readTable().Materials {
		list = append(list, r.material())
	}
	return list
})

func (r row) material() Material {
	m := Material{Name: r.Name, Kind: r.Kind, Basis: r.Basis, Aliases: r.Aliases, CrossCheck: r.CrossCheck, Caution: r.Caution}
	for key, p := range r.Properties {
		p.Given = true
		*m.Property(key) = p
	}
	return m
}

// BuiltIn is the built-in table: metals, woods, sheet goods, in that order.
// The list belongs to the caller.
func BuiltIn() []Material {
	list := slices.Clone(builtIn())
	for i := range list {
		list[i].Aliases = slices.Clone(list[i].Aliases)
	}
	return list
}

// Shot is how loose filling may lie in a drum.
type Shot uint8

// How loose filling lies.
const (
	Loose  Shot = iota // tipped in
	Poured             // poured and levelled
	Shaken             // shaken down to random close packing of equal balls
)

var shot = [...]string{Loose: "loose", Poured: "poured", Shaken: "shaken"}

// Packing is the share of the volume that equal balls fill.
func Packing(s Shot) Property { return given(readTable().Packing[shot[s]]) }

// Variation is the coefficient of variation of a property of wood, by its key
// in Fields; Given tells whether one is known.
func Variation(key string) Property { return given(readTable().Variation[key]) }

func given(p Property) Property {
	p.Given = p.Source != ""
	return p
}
