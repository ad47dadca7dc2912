package schema

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"sort"
	"strings"
	"sync"

	"github.com/xeipuuv/gojsonschema"
)

//go:embed recipe.schema.json
var jsonSchema []byte

// JSONSchema gives the form as JSON Schema, draft-07. It accepts both spellings
// of a quantity.
func JSONSchema() []byte { return append([]byte(nil), jsonSchema...) }

// compiled is the schema ready for use.
var compiled = sync.OnceValues(func() (*gojsonschema.Schema, error) {
	return gojsonschema.NewSchema(gojsonschema.NewBytesLoader(jsonSchema))
})

// violation is one place where a value breaks the schema, free of the library
// that found it.
type violation struct {
	path     string // of the mapping or value, as checker.lines
	kind     string
	property string   // the missing or unknown key, "" otherwise
	found    string   // the value as JSON
	allowed  []string // the values allowed, where they are a short list
}

// The kinds of violation that are told apart.
const (
	missingKey = "missing key"
	unknownKey = "unknown key"
	notAllowed = "not allowed"
	wrongType  = "wrong type"
	otherBreak = "other"
)

// violations checks a plain value against the schema. Only this function knows
// the library, which is no longer developed; any draft-07 validator that gives
// the path and the kind of each error can stand in for it.
func violations(value any) ([]violation, error) {
	schema, err := compiled()
	if err != nil {
		return nil, err
	}
	result, err := schema.Validate(gojsonschema.NewRawLoader(value))
	if err != nil {
		return nil, err
	}
	var out []violation
	choices := map[string]bool{} // paths where none of several forms fits
	for _, e := range result.Errors() {
		path := strings.TrimPrefix(e.Context().String(pathSeparator), "(root)")
		v := violation{path: strings.TrimPrefix(path, pathSeparator), kind: otherBreak}
		if found, err := json.Marshal(e.Value()); err == nil {
			v.found = string(found)
		}
		switch e.Type() {
		case "required":
			v.kind = missingKey
			v.property, _ = e.Details()["property"].(string)
		case "additional_property_not_allowed":
			v.kind = unknownKey
			v.property, _ = e.Details()["property"].(string)
		case "enum", "const":
			v.kind = notAllowed
			allowed, _ := e.Details()["allowed"].(string)
			for _, a := range strings.Split(allowed, ", ") {
				if a = strings.Trim(a, `"`); a != "" {
					v.allowed = append(v.allowed, a)
				}
			}
		case "invalid_type":
			v.kind = wrongType
		case "number_any_of", "number_one_of", "number_all_of":
			choices[v.path] = true
		}
		out = append(out, v)
	}
	// A value that fits none of several forms breaks each of them; one of these
	// is enough to tell.
	kept := out[:0]
	told := map[string]bool{}
	for _, v := range out {
		if choices[v.path] {
			if told[v.path] {
				continue
			}
			told[v.path] = true
			v.kind, v.property = otherBreak, ""
		}
		kept = append(kept, v)
	}
	sort.SliceStable(kept, func(i, j int) bool {
		if kept[i].path != kept[j].path {
			return kept[i].path < kept[j].path
		}
		return kept[i].property < kept[j].property
	})
	return kept, nil
}

// againstSchema adds a problem for every place where value breaks the schema.
func (c *checker) againstSchema(value any) {
	found, err := violations(value)
	if err != nil {
		c.add(Problem{Found: fmt.Sprintf("a value that cannot be checked (%v)", err), Accepted: "the form of a recipe document"})
		return
	}
	for _, v := range found {
		c.add(c.describe(v))
	}
}
