package space

import (
	"evenswing/space/material"
	"evenswing/space/quantity"
)

// What must be there, as the reader's own needs are; a test removes each key
// in turn and compares.
var (
	neededOfPendulum = []string{"hangs_from", "pivot"}
	neededOfBar      = []string{"from", "to", "section", "of"}
	neededOfDrum     = []string{"at", "across", "deep", "rim", "faces", "of"}
	neededOfBlock    = []string{"at", "size"}
	neededOfLump     = []string{"at", "mass"}
)

func gravitySchema() schema {
	return anyOf(amount(), object("gravity", gravityKeys, []string{"latitude"}))
}

// unknownSchema is a range or a choice, alone or in a mapping.
func unknownSchema() schema {
	s := object("unknown", unknownKeys, nil)
	s["type"] = "object"
	s["oneOf"] = []schema{{"required": []string{"range"}}, {"required": []string{"choose"}}}
	return anyOf(schema{"type": "string", "minLength": 1}, s)
}

func unknownsSchema() schema {
	s := named(unknownSchema)()
	s["maxProperties"] = maxUnknowns
	return s
}

func valuesSchema() schema {
	s := named(plainNumber)()
	s["maxProperties"] = maxValues
	return s
}

func pendulumsSchema() schema {
	return schema{
		"type": "object", "minProperties": 1, "maxProperties": MaxPendulums,
		"propertyNames":        schema{"not": schema{"const": wall}},
		"additionalProperties": object("pendulum", pendulumKeys, neededOfPendulum),
	}
}

func materialSchema() schema {
	properties := schema{}
	for _, f := range material.Fields() {
		form, unit := amount, f.Unit
		if dimensionOf(f) == quantity.Number {
			form, unit = plainNumber, "a plain number"
		}
		properties[f.Key] = hint{text: f.Words + " (" + unit + ")", form: form}.schema()
	}
	return fixedObject(properties, nil)
}

// ofSchema is a material, or a choice among materials.
func ofSchema() schema {
	var names []string
	for _, m := range material.BuiltIn() {
		names = append(names, m.Name)
	}
	return among(names)
}

func sectionSchema() schema {
	return anyOf(schema{"type": "string", "minLength": 1}, pair())
}

func barSchema() schema { return object("bar", barKeys, neededOfBar) }

func recessSchema() schema {
	return object("recess", recessKeys, []string{"at", "width", "depth"})
}

func mortiseSchema() schema {
	return object("mortise", mortiseKeys, []string{"at", "width", "height"})
}

func holeSchema() schema { return object("hole", holeKeys, []string{"at", "across"}) }

func drumSchema() schema {
	s := object("drum", drumKeys, neededOfDrum)
	s["not"] = schema{"required": []string{"charge", "charges"}}
	return s
}

// chargeSchema follows the table of kinds of charge.
func chargeSchema() schema {
	s := object("charge", chargeKeys, []string{"of"})
	var kinds []schema
	for _, k := range chargeKinds {
		needed, strays := []string{k.key}, schema{}
		for _, key := range k.goes {
			if key == "across" || key == "thick" || key == "size" {
				needed = append(needed, key)
			}
		}
		for _, key := range without(chargeKeys, k.key) {
			if !contains(k.goes, key) {
				strays[key] = false
			}
		}
		kinds = append(kinds, schema{"required": needed, "properties": strays})
	}
	s["oneOf"] = kinds
	return s
}

func blockSchema() schema {
	s := object("block", blockKeys, neededOfBlock)
	s["oneOf"] = []schema{{"required": []string{"of"}}, {"required": []string{"mass"}}}
	return s
}

func lumpSchema() schema { return object("lump", lumpKeys, neededOfLump) }

func edgeSchema() schema { return object("edge", edgeKeys, nil) }

func paperSchema() schema { return object("paper", paperKeys, []string{"on", "at", "size"}) }

func penSchema() schema { return object("pen", penKeys, []string{"on", "at", "line"}) }

func wallSchema() schema { return object("wall", wallKeys, nil) }

func targetsSchema() schema { return object("targets", targetKeys, nil) }

func ratioSchema() schema { return object("ratio", ratioKeys, []string{"slow", "fast", "is"}) }

func tolerancesSchema() schema { return object("tolerances", toleranceKeys, nil) }

func fixingSchema() schema {
	s := object("fixings", fixingKeys, []string{"count", "deep"})
	s["oneOf"] = []schema{{"required": []string{"pull", "side"}}, {"required": []string{"across", "thread", "of"}}}
	s["type"] = []string{"object", "null"}
	return s
}

func supportSchema() schema {
	return object("support", supportKeys, []string{"to", "wide", "deep", "z"})
}

func roomSchema() schema { return object("room", roomKeys, nil) }

func stockSchema() schema { return object("stock", stockKeys, nil) }

func stockPlateSchema() schema {
	return object("stock plate", stockPlateKeys, []string{"of", "thick", "size"})
}

func stockBoardSchema() schema {
	return object("stock board", stockBoardKeys, []string{"of", "thick", "wide", "long"})
}

func stockShotSchema() schema { return object("stock shot", stockShotKeys, []string{"of", "bag"}) }

// pivotKindSchema is a kind alone or with its sizes.
func pivotKindSchema() schema {
	return anyOf(among(pivotKinds[KnifeEdge:]), object("pivot kind", pivotKindKeys, []string{"is"}))
}

func screwSchema() schema {
	return object("screws", screwKeys, []string{"holds", "count", "across", "thread"})
}

func plateSchema() schema {
	return object("plate", plateKeys, []string{"holds", "wide", "long", "thick", "of"})
}
