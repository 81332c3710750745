package space

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v3"
)

// compiled is the published schema, as an independent validator of drafts
// 2020-12 reads it.
func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource("rig.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("rig.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// plainValue is a YAML node as an editor's validator sees it: JSON values.
func plainValue(t *testing.T, text []byte) (any, error) {
	t.Helper()
	var v any
	if err := yaml.Unmarshal(text, &v); err != nil {
		return nil, err
	}
	data, err := json.Marshal(textKeys(v))
	if err != nil {
		t.Fatal(err)
	}
	return jsonschema.UnmarshalJSON(bytes.NewReader(data))
}

// textKeys makes every key a text, as JSON has it.
func textKeys(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			v[k] = textKeys(x)
		}
	case map[any]any:
		out := map[string]any{}
		for k, x := range v {
			out[fmt.Sprint(k)] = textKeys(x)
		}
		return out
	case []any:
		for i := range v {
			v[i] = textKeys(v[i])
		}
	}
	return v
}

func validates(t *testing.T, s *jsonschema.Schema, text []byte) error {
	t.Helper()
	v, err := plainValue(t, text)
	if err != nil {
		return err
	}
	return s.Validate(v)
}

// TestSchemaTakesRigs: every rig that the reader takes validates.
func TestSchemaTakesRigs(t *testing.T) {
	s := compiled(t)
	texts := map[string][]byte{"everything": []byte(everything), "smallest": []byte(smallest), "starter": Starter()}
	files, err := filepath.Glob("../testdata/rigs/*.yaml")
	if err != nil || len(files) < 3 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		if texts[file], err = os.ReadFile(file); err != nil {
			t.Fatal(err)
		}
	}
	for k, filling := range fillings {
		texts[fmt.Sprint("filling ", k)] = []byte(withRig(filling.before))
	}
	for name, text := range texts {
		if _, err := Read(name, text); err != nil {
			continue
		}
		if err := validates(t, s, text); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// shapeless are the bad rigs whose fault is no matter of keys and shapes: the
// reader alone finds it.
var shapeless = []string{
	"choice-as-number", "cycle-of-formulas", "cycle-of-parents", "decimal-comma", "duplicate-name", "empty-range",
	"faces-fill-drum", "is-between-options", "leading-zero", "material-without-density", "min-over-max", "mortise-too-deep",
	"name-of-function", "name-of-value-taken", "negative-diameter", "no-range", "overlapping-recesses", "ratio-of-one-pendulum",
	"recess-outside-bar", "recess-too-deep", "release-of-missing-pendulum", "rim-thicker-than-radius", "screws-longer-than-wood", "self-parent",
	"sets-period-without-target", "step-larger-than-range", "target-of-missing-pendulum", "two-documents",
	"unknown-material", "unknown-name", "unknown-parent", "unknown-point", "within-not-positive",
	"wrong-dimension-of-formula", "wrong-dimension", "zero-thickness",
}

// TestSchemaRefuses: bad rigs of the structural kind do not validate, and the
// schema refuses nothing else.
func TestSchemaRefuses(t *testing.T) {
	s := compiled(t)
	files, err := filepath.Glob("../testdata/bad/*.yaml")
	if err != nil || len(files) < 30 {
		t.Fatal(len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		refused := validates(t, s, text) != nil
		if refused == slices.Contains(shapeless, name) {
			t.Errorf("%s: refused %v", name, refused)
		}
	}
}
