package space

import (
	"encoding/json"
	"slices"

	"evenswing/space/quantity"
)

// SchemaFile is what the first line of the starter calls the schema, in the way
// that the YAML language server and the editors that use it read.
const SchemaFile = "rig.schema.json"

// schema is a piece of a JSON Schema. Its keys come out sorted.
type schema map[string]any

// Schema is the JSON Schema, draft 2020-12, of rig files, for editors that
// complete and explain. It tells the keys and the shape of what stands under
// them; what a quantity or a formula means, the reader alone knows. It is made
// from the reader's own tables of keys.
func Schema() []byte {
	text, err := json.MarshalIndent(rigSchema(), "", "  ")
	if err != nil {
		panic("space: schema: " + err.Error())
	}
	return append(text, '\n')
}

func rigSchema() schema {
	s := object("rig", rigKeys, []string{"pendulums"})
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["$id"] = "urn:evenswing:rig"
	s["title"] = "Rig file of evenswing"
	s["$defs"] = shared()
	return s
}

// object is a mapping that may have the given keys only; kind is its name in
// the table of hints.
func object(kind string, keys, needed []string) schema {
	properties := schema{}
	for _, key := range keys {
		h, ok := hints[kind][key]
		if !ok {
			panic("space: no hint for the key " + key + " of " + kind)
		}
		properties[key] = h.schema()
	}
	return fixedObject(properties, needed)
}

func fixedObject(properties schema, needed []string) schema {
	s := schema{"type": "object", "properties": properties, "additionalProperties": false}
	if len(needed) > 0 {
		s["required"] = needed
		return s
	}
	s["type"] = []string{"object", "null"} // left empty, it says nothing
	return s
}

// hint is what an editor tells of a key, and the shape of what stands there.
type hint struct {
	text string
	form func() schema
	also schema // default and the like
}

func (h hint) schema() schema {
	s := schema{}
	for key, value := range h.form() {
		s[key] = value
	}
	for key, value := range h.also {
		s[key] = value
	}
	if h.text != "" {
		s["description"] = h.text
	}
	return s
}

// or notes the default.
func (h hint) or(usual string) hint {
	h.also = schema{"default": usual}
	return h
}

// shared are the shapes that the schema names once and refers to.
func shared() schema {
	text := schema{"type": "string", "minLength": 1}
	return schema{
		"name":   schema{"type": []string{"string", "number", "boolean"}}, // YAML may take a name for one of these
		"amount": anyOf(text, schema{"const": 0}),
		"number": schema{"type": []string{"string", "number"}, "minLength": 1},
		"place":  anyOf(row(2), word()),
		"of":     ofSchema(),
		"charge": chargeSchema(),
	}
}

func refer(name string) func() schema {
	return func() schema { return schema{"$ref": "#/$defs/" + name} }
}

var (
	word        = refer("name")   // what a maker calls something
	amount      = refer("amount") // a quantity with a unit, or a formula; without a unit only 0
	plainNumber = refer("number") // a number, a percentage or a formula
	place       = refer("place")  // [x, y] or the name of a point
	madeOf      = refer("of")     // a material, or a choice among materials
	oneCharge   = refer("charge")
)

func anyOf(forms ...schema) schema { return schema{"anyOf": forms} }

// row is a list of n amounts.
func row(n int) schema {
	return schema{"type": "array", "items": amount(), "minItems": n, "maxItems": n}
}

func pair() schema   { return row(2) }
func triple() schema { return row(3) }

// named is a mapping from names that the maker gives.
func named(form func() schema) func() schema {
	return func() schema {
		return schema{"type": []string{"object", "null"}, "additionalProperties": form()}
	}
}

// several is one or a list of them.
func several(form func() schema) func() schema {
	return func() schema {
		return anyOf(form(), schema{"type": "array", "items": form()}, schema{"type": "null"})
	}
}

// among is a text for which an editor offers the usual ones.
func among(usual []string) schema {
	return anyOf(schema{"enum": usual}, word())
}

// limitsSchema follows the table of limits.
func limitsSchema() schema {
	properties := schema{}
	for _, l := range limitTable {
		form := amount
		if l.dim == quantity.Number {
			form = plainNumber
		}
		properties[l.key] = hint{text: limitHints[l.key], form: form}.schema()
	}
	return fixedObject(properties, nil)
}

func mattersSchema() schema {
	properties := schema{}
	for c := range CriterionCount {
		h := hint{text: "How much the criterion " + c.String() + " counts (it is written as " + c.Written() + "): 0 to 1e6.", form: plainNumber}
		properties[c.String()] = h.or("1").schema()
	}
	return fixedObject(properties, nil)
}

// without is a list less one of it.
func without(list []string, key string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(k string) bool { return k == key })
}
