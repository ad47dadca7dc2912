package merge

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"quern/internal/derive"
	"quern/schema"
)

// Edit reads the recipes in a text, lets change work on them, works out again
// what follows from them, and gives the text with exactly what changed
// changed: comments, order and untouched lines stay. A change that returns an
// error leaves the text as it was. name stands for the text in errors.
func Edit(name string, text []byte, opt derive.Options, change func(docs []*schema.Document) error) ([]byte, error) {
	docs, err := schema.ReadAll(name, text)
	if err != nil {
		return nil, err
	}
	before, err := yamlOf(docs)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if change != nil {
		if err := change(docs); err != nil {
			return nil, err
		}
	}
	for _, d := range docs {
		derive.Apply(d, opt)
	}
	after, err := yamlOf(docs)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if bytes.Equal(before, after) {
		return text, nil
	}
	if isJSON(text) {
		return jsonOf(docs)
	}
	merged, _, err := Merge(before, text, after)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return merged, nil
}

func yamlOf(docs []*schema.Document) ([]byte, error) {
	var b bytes.Buffer
	if err := schema.WriteYAML(&b, docs...); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

func jsonOf(docs []*schema.Document) ([]byte, error) {
	var b bytes.Buffer
	if err := schema.WriteJSON(&b, docs...); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// isJSON tells a file of JSON documents from YAML. Flow YAML with a comment
// or a bare word in it begins alike and is no JSON.
func isJSON(text []byte) bool {
	t := bytes.TrimLeft(bytes.TrimPrefix(text, []byte("\xef\xbb\xbf")), " \t\r\n")
	if len(t) == 0 || t[0] != '{' && t[0] != '[' {
		return false
	}
	d := json.NewDecoder(bytes.NewReader(t))
	for {
		var v json.RawMessage
		if err := d.Decode(&v); err != nil {
			return errors.Is(err, io.EOF)
		}
	}
}

// toYAML gives a text of recipe documents as YAML, whichever it was.
func toYAML(name string, text []byte) ([]byte, error) {
	if !isJSON(text) {
		return text, nil
	}
	docs, err := schema.ReadAll(name, text)
	if err != nil {
		return nil, err
	}
	return yamlOf(docs)
}
