package space

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"
)

// mapping is one mapping of a file and the way to it.
type mapping struct {
	path []string // keys; items of lists are "0", "1", ...
	node *yaml.Node
}

// mappings walks a file.
func mappings(n *yaml.Node, path []string) (list []mapping) {
	switch n.Kind {
	case yaml.DocumentNode:
		return mappings(n.Content[0], path)
	case yaml.MappingNode:
		list = append(list, mapping{slices.Clone(path), n})
		for i := 0; i+1 < len(n.Content); i += 2 {
			list = append(list, mappings(n.Content[i+1], append(slices.Clone(path), n.Content[i].Value))...)
		}
	case yaml.SequenceNode:
		for i, c := range n.Content {
			list = append(list, mappings(c, append(slices.Clone(path), fmt.Sprint(i)))...)
		}
	}
	return list
}

func nodeOf(t *testing.T, text string) *yaml.Node {
	t.Helper()
	var n yaml.Node
	if err := yaml.Unmarshal([]byte(text), &n); err != nil {
		t.Fatal(err)
	}
	return &n
}

func textOfNode(t *testing.T, n *yaml.Node) []byte {
	t.Helper()
	text, err := yaml.Marshal(n)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func mistakesOf(text []byte) []Mistake {
	_, err := Read("test.yaml", text)
	var m *Mistakes
	if errors.As(err, &m) {
		return m.List
	}
	return nil
}

// follow finds the parts of the schema that describe what stands at a path.
func follow(root map[string]any, path []string) []map[string]any {
	at := []map[string]any{root}
	for _, step := range path {
		var next []map[string]any
		for _, s := range spread(root, at) {
			properties, _ := s["properties"].(map[string]any)
			if p, ok := properties[step].(map[string]any); ok {
				next = append(next, p)
			} else if p, ok := s["additionalProperties"].(map[string]any); ok {
				next = append(next, p)
			}
			if p, ok := s["items"].(map[string]any); ok {
				next = append(next, p)
			}
		}
		at = next
	}
	return spread(root, at)
}

// spread follows references and alternatives.
func spread(root map[string]any, at []map[string]any) (all []map[string]any) {
	for _, s := range at {
		all = append(all, s)
		if ref, ok := s["$ref"].(string); ok {
			name := strings.TrimPrefix(ref, "#/$defs/")
			all = append(all, spread(root, []map[string]any{root["$defs"].(map[string]any)[name].(map[string]any)})...)
		}
		alternatives, _ := s["anyOf"].([]any)
		for _, a := range alternatives {
			all = append(all, spread(root, []map[string]any{a.(map[string]any)})...)
		}
	}
	return all
}

// schemaKeys are the keys that the schema knows at a path; false where any key
// may stand.
func schemaKeys(root map[string]any, path []string) (keys []string, fixed bool) {
	for _, s := range follow(root, path) {
		properties, ok := s["properties"].(map[string]any)
		if more, closed := s["additionalProperties"].(bool); ok && closed && !more {
			return sortedKeys(properties), true
		}
	}
	return nil, false
}

// readerKeys are the keys that the reader says it allows in a mapping: what it
// answers to a key that it cannot know.
func readerKeys(t *testing.T, path []string) (keys []string, fixed bool) {
	t.Helper()
	root := nodeOf(t, everything)
	for _, m := range mappings(root, nil) {
		if slices.Equal(m.path, path) {
			m.node.Content = append(m.node.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: "zzzz"}, &yaml.Node{Kind: yaml.ScalarNode, Value: "1"})
		}
	}
	for _, m := range mistakesOf(textOfNode(t, root)) {
		if strings.Contains(m.Text, `zzzz`) && strings.HasSuffix(m.Text, "is not a key here") {
			keys = strings.Split(m.Allowed, ", ")
			slices.Sort(keys)
			return keys, true
		}
	}
	return nil, false
}

func schemaTree(t *testing.T) map[string]any {
	t.Helper()
	var root map[string]any
	if err := json.Unmarshal(Schema(), &root); err != nil {
		t.Fatal(err)
	}
	return root
}

// TestSchemaKeys asks the reader, mapping by mapping of a rig that has every
// key, which keys it allows there: the schema knows the same ones, no more and
// no fewer.
func TestSchemaKeys(t *testing.T) {
	root := schemaTree(t)
	seen := map[string]bool{}
	for _, m := range mappings(nodeOf(t, everything), nil) {
		want, sections := readerKeys(t, m.path)
		got, fixed := schemaKeys(root, m.path)
		if sections != fixed || !slices.Equal(want, got) {
			t.Errorf("%s: the reader knows %v, the schema %v", strings.Join(m.path, "."), want, got)
		}
		if fixed {
			seen[strings.Join(got, " ")] = true
		}
	}
	for _, keys := range closedObjects(root) {
		if !seen[keys] {
			t.Errorf("no mapping of the rig with all keys is that of the schema with %s", keys)
		}
	}
	if len(seen) < 20 {
		t.Errorf("only %d kinds of mapping", len(seen))
	}
}

// closedObjects lists the keys of all mappings of a schema whose keys are fixed.
func closedObjects(v any) (list []string) {
	switch v := v.(type) {
	case map[string]any:
		properties, ok := v["properties"].(map[string]any)
		if more, closed := v["additionalProperties"].(bool); ok && closed && !more {
			list = append(list, strings.Join(sortedKeys(properties), " "))
		}
		for _, key := range sortedKeys(v) {
			list = append(list, closedObjects(v[key])...)
		}
	case []any:
		for _, x := range v {
			list = append(list, closedObjects(x)...)
		}
	}
	return list
}

// TestSchemaNeeds removes every key of the rig that has them all, one at a
// time: the schema refuses it where the reader misses it, and only there.
func TestSchemaNeeds(t *testing.T) {
	s, removed, missed := compiled(t), 0, 0
	for k, m := range mappings(nodeOf(t, everything), nil) {
		for i := 0; i < len(m.node.Content); i += 2 {
			root := nodeOf(t, everything)
			n := mappings(root, nil)[k].node
			key := n.Content[i].Value
			n.Content = slices.Delete(n.Content, i, i+2)
			text := textOfNode(t, root)
			missing := false
			for _, x := range mistakesOf(text) {
				missing = missing || strings.HasSuffix(x.Text, "is missing") || strings.Contains(x.Text, "does not say how much")
			}
			if refused := validates(t, s, text) != nil; refused != missing {
				t.Errorf("%s without %s: the reader misses it %v, the schema refuses it %v", strings.Join(m.path, "."), key, missing, refused)
			}
			removed++
			if missing {
				missed++
			}
		}
	}
	if removed < 150 || missed < 40 {
		t.Errorf("%d keys removed, %d missed", removed, missed)
	}
}

// TestSchemaHints: every hint is of a key, and says something.
func TestSchemaHints(t *testing.T) {
	tables := map[string][]string{
		"rig": rigKeys, "gravity": gravityKeys, "unknown": unknownKeys, "pendulum": pendulumKeys, "edge": edgeKeys,
		"bar": barKeys, "recess": recessKeys, "mortise": mortiseKeys, "hole": holeKeys, "drum": drumKeys,
		"charge": chargeKeys, "block": blockKeys, "lump": lumpKeys, "paper": paperKeys, "pen": penKeys,
		"wall": wallKeys, "fixings": fixingKeys, "room": roomKeys, "support": supportKeys, "pivot kind": pivotKindKeys, "screws": screwKeys, "plate": plateKeys,
		"stock": stockKeys, "stock plate": stockPlateKeys, "stock board": stockBoardKeys, "stock shot": stockShotKeys, "targets": targetKeys, "ratio": ratioKeys, "tolerances": toleranceKeys,
	}
	if len(tables) != len(hints) {
		t.Errorf("%d tables of keys, %d of hints", len(tables), len(hints))
	}
	for kind, keys := range tables {
		if len(hints[kind]) != len(keys) {
			t.Errorf("%s: %d keys, %d hints", kind, len(keys), len(hints[kind]))
		}
		for key, h := range hints[kind] {
			if !slices.Contains(keys, key) || len(h.text) < 8 {
				t.Errorf("%s.%s: %q", kind, key, h.text)
			}
		}
	}
	for _, l := range limitTable {
		if len(limitHints[l.key]) < 8 {
			t.Errorf("limits.%s has no hint", l.key)
		}
	}
	if len(limitHints) != len(limitTable) {
		t.Errorf("%d limits, %d hints", len(limitTable), len(limitHints))
	}
}
