package schema

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"unicode"
)

// WriteYAML writes the documents as a YAML stream, keys in the form's order,
// each moment on one line. The same documents give the same bytes. It returns
// an error wrapping ErrQuantity for a quantity that could not be read back, and
// w's errors.
func WriteYAML(w io.Writer, docs ...*Document) error {
	var out bytes.Buffer
	for i, doc := range docs {
		tidied, err := tidy(doc)
		if err != nil {
			return fmt.Errorf("write %q as yaml: %w", doc.Title, err)
		}
		if i > 0 {
			out.WriteString("---\n")
		}
		y := yamlWriter{out: &out, keys: &Node{Kind: MappingNode, Tag: "!!map"}}
		if err := y.keysOf(reflect.ValueOf(tidied).Elem()); err != nil {
			return fmt.Errorf("write %q as yaml: %w", doc.Title, err)
		}
		if err := y.flush(); err != nil {
			return fmt.Errorf("write yaml: %w", err)
		}
	}
	if _, err := w.Write(out.Bytes()); err != nil {
		return fmt.Errorf("write yaml: %w", err)
	}
	return nil
}

// yamlWriter writes a document a few parts at a time: the library keeps all it
// was given until it is done, many times the size of the text.
type yamlWriter struct {
	out  *bytes.Buffer
	keys *Node // what is still to be written
	held int   // parts of lists in it, about
}

// mostHeld is how many parts of lists are given to the library at once.
const mostHeld = 32

// long reports whether a list is written piece by piece: one of more than
// mostHeld parts that surely isn't in one line.
func long(list reflect.Value) bool {
	of := list.Type().Elem()
	return list.Len() > mostHeld && of.Kind() == reflect.Struct && of != quantityType || list.Len() > shortList
}

// flush writes the keys that are held.
func (y *yamlWriter) flush() error {
	if len(y.keys.Content) == 0 {
		return nil
	}
	text, err := FormatYAML(y.keys)
	y.out.Write(text)
	y.keys.Content, y.held = y.keys.Content[:0], 0
	return err
}

// keysOf writes the fields of a document, or of a struct embedded in it, as
// addKeys adds them to a mapping.
func (y *yamlWriter) keysOf(v reflect.Value) error {
	for i := 0; i < v.NumField(); i++ {
		key, value, inline, empty := spelledField(v, i)
		switch {
		case inline:
			if err := y.keysOf(value); err != nil {
				return err
			}
			continue
		case empty:
			continue
		case value.Kind() == reflect.Slice && long(value):
			if err := y.longList(key, value); err != nil {
				return err
			}
			continue
		case value.Kind() == reflect.Slice:
			if y.held += value.Len(); y.held > mostHeld {
				if err := y.flush(); err != nil {
					return err
				}
				y.held = value.Len()
			}
		}
		child, err := valueNode(value)
		if err != nil {
			return err
		}
		y.keys.Content = append(y.keys.Content, key, child)
	}
	return nil
}

// longList writes a list piece by piece, each as a list of the key whose line is
// then left out.
func (y *yamlWriter) longList(key *Node, v reflect.Value) error {
	if err := y.flush(); err != nil {
		return err
	}
	for from := 0; from < v.Len(); from += mostHeld {
		piece, err := listNode(v.Slice(from, min(from+mostHeld, v.Len())))
		if err != nil {
			return err
		}
		piece.Style = 0 // though what is left at the end is short
		text, err := FormatYAML(&Node{Kind: MappingNode, Tag: "!!map", Content: []*Node{key, piece}})
		if err != nil {
			return err
		}
		if from > 0 {
			_, text, _ = bytes.Cut(text, []byte("\n"))
		}
		y.out.Write(text)
	}
	return nil
}

// WriteJSON writes each document as JSON on a line of its own, with every list
// present. The same documents give the same bytes. It returns an error wrapping
// ErrQuantity for a quantity that could not be read back, and w's errors.
func WriteJSON(w io.Writer, docs ...*Document) error {
	var out bytes.Buffer
	for _, doc := range docs {
		line, err := doc.MarshalJSON()
		if err != nil {
			return fmt.Errorf("write %q as json: %w", doc.Title, err)
		}
		out.Write(line)
		out.WriteByte('\n')
	}
	if _, err := w.Write(out.Bytes()); err != nil {
		return fmt.Errorf("write json: %w", err)
	}
	return nil
}

// MarshalJSON writes the document with every list present, [] where it's empty.
func (d Document) MarshalJSON() ([]byte, error) {
	type plain Document
	tidied, err := tidy(&d)
	if err != nil {
		return nil, err
	}
	return compactJSON((*plain)(tidied))
}

// MarshalJSON writes the moment, with at null where the transcript has no
// times.
func (s Said) MarshalJSON() ([]byte, error) {
	if bareText(s.At) && bareText(s.Quote) { // nearly always
		b := make([]byte, 0, len(`{"at":"","quote":""}`)+len(s.At)+len(s.Quote))
		if s.At == "" {
			b = append(b, `{"at":null,"quote":"`...)
		} else {
			b = append(append(append(b, `{"at":"`...), s.At...), `","quote":"`...)
		}
		return append(append(b, s.Quote...), `"}`...), nil
	}
	moment := struct {
		At    *string `json:"at"`
		Quote string  `json:"quote"`
	}{Quote: s.Quote}
	if s.At != "" {
		moment.At = &s.At
	}
	return compactJSON(moment)
}

// bareText reports whether a text stands in JSON as it is, in quotes.
func bareText(s string) bool {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c < ' ' || c > '~' || c == '"' || c == '\\' {
			return false
		}
	}
	return true
}

// The keys of a moment. Keys are never changed, so one node serves all.
var atKey, quoteKey = textNode("at"), textNode("quote")

// MarshalYAML writes the moment in one line, with at null where the transcript
// has no times.
func (s Said) MarshalYAML() (any, error) {
	at := nullNode()
	if s.At != "" {
		at = quotedNode(s.At)
	}
	return &Node{Kind: MappingNode, Style: FlowStyle, Content: []*Node{atKey, at, quoteKey, quotedNode(s.Quote)}}, nil
}

// MarshalYAML writes the document as WriteYAML does.
func (d Document) MarshalYAML() (any, error) { return documentNode(&d) }

// documentNode gives a whole document as YAML.
func documentNode(d *Document) (*Node, error) {
	tidied, err := tidy(d)
	if err != nil {
		return nil, err
	}
	n := &Node{Kind: MappingNode, Tag: "!!map"}
	return n, addKeys(n, reflect.ValueOf(tidied).Elem())
}

// compactJSON encodes without escaping <, > and &: the output is no web page.
func compactJSON(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}

// textNode gives text as YAML: in double quotes where it has line breaks or
// unseen characters, so that every character survives and a line stays a line,
// or where it looks like a time; plain otherwise, or in the quotes it needs.
func textNode(s string) *Node {
	n := &Node{Kind: ScalarNode, Tag: "!!str", Value: strings.ToValidUTF8(s, "\uFFFD")}
	odd := s != "" && strings.IndexByte("+-0123456789", s[0]) >= 0 && sexagesimal.MatchString(n.Value)
	for _, r := range n.Value {
		odd = odd || r < ' ' || r > '~' && !unicode.IsPrint(r)
	}
	if odd {
		n.Style = DoubleQuotedStyle
	}
	return n
}

// sexagesimal matches what older YAML readers take for a number in base 60.
var sexagesimal = regexp.MustCompile(`^[-+]?[0-9][0-9_]*(:[0-5]?[0-9])+(\.[0-9_]*)?$`)

// quotedNode gives text in double quotes always.
func quotedNode(s string) *Node {
	n := textNode(s)
	n.Style = DoubleQuotedStyle
	return n
}

// numberNode gives a number without an exponent.
func numberNode(f float64) *Node {
	n := &Node{Kind: ScalarNode, Tag: "!!int", Value: strconv.FormatFloat(f, 'f', -1, 64)}
	if strings.Contains(n.Value, ".") {
		n.Tag = "!!float"
	}
	return n
}

// valueNode gives any part of a tidy document as YAML. The library's own
// encoder isn't used for it, because text that begins with a line break and a
// space makes it write what it cannot read.
func valueNode(v reflect.Value) (*Node, error) {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return nullNode(), nil
		}
		return valueNode(v.Elem())
	}
	if m, ok := v.Interface().(interface{ MarshalYAML() (any, error) }); ok {
		out, err := m.MarshalYAML()
		if err != nil {
			return nil, err
		}
		if text, ok := out.(string); ok {
			return textNode(text), nil
		}
		if node, ok := out.(*Node); ok {
			return node, nil
		}
		return nil, fmt.Errorf("%T has no spelling in yaml", out)
	}
	switch v.Kind() {
	case reflect.String:
		return textNode(v.String()), nil
	case reflect.Bool:
		return &Node{Kind: ScalarNode, Tag: "!!bool", Value: strconv.FormatBool(v.Bool())}, nil
	case reflect.Int:
		return numberNode(float64(v.Int())), nil
	case reflect.Float64:
		return numberNode(v.Float()), nil
	case reflect.Slice:
		return listNode(v)
	case reflect.Struct:
		n := &Node{Kind: MappingNode, Tag: "!!map"}
		return n, addKeys(n, v)
	}
	return nil, fmt.Errorf("%s has no spelling in yaml", v.Type())
}

// shortList is the width in bytes up to which a list of plain values stays in
// one line.
const shortList = 80

func listNode(v reflect.Value) (*Node, error) {
	n := &Node{Kind: SequenceNode, Tag: "!!seq"}
	width := 0
	for i := 0; i < v.Len(); i++ {
		child, err := valueNode(v.Index(i))
		if err != nil {
			return nil, err
		}
		n.Content = append(n.Content, child)
		width += len(child.Value) + 2
		if child.Kind != ScalarNode {
			width += shortList
		}
	}
	if width <= shortList {
		n.Style = FlowStyle
	}
	return n, nil
}

// addKeys adds the fields of a struct to a mapping, in order, those of embedded
// structs in place, those that can be left out only where they hold something.
func addKeys(n *Node, v reflect.Value) error {
	for i := 0; i < v.NumField(); i++ {
		key, value, inline, empty := spelledField(v, i)
		if inline {
			if err := addKeys(n, value); err != nil {
				return err
			}
			continue
		}
		if empty {
			continue
		}
		child, err := valueNode(value)
		if err != nil {
			return err
		}
		n.Content = append(n.Content, key, child)
	}
	return nil
}

// spelledField gives a field of a struct with its key, whether its own fields stand in
// its place, and whether it is left out because it holds nothing.
func spelledField(v reflect.Value, i int) (key *Node, value reflect.Value, inline, empty bool) {
	f := yamlKeys(v.Type())[i]
	value = v.Field(i)
	return f.node, value, f.inline, f.omitEmpty && (value.IsZero() || value.Kind() == reflect.Slice && value.Len() == 0)
}

// yamlKey is what the tag of a field says.
type yamlKey struct {
	node              *Node // the key
	inline, omitEmpty bool
}

// yamlKeysOf keeps what yamlKeys gives, by reflect.Type.
var yamlKeysOf sync.Map

// yamlKeys reads the tags of a struct's fields.
func yamlKeys(t reflect.Type) []yamlKey {
	if known, ok := yamlKeysOf.Load(t); ok {
		return known.([]yamlKey)
	}
	keys := make([]yamlKey, t.NumField())
	for i := range keys {
		key, options, _ := strings.Cut(t.Field(i).Tag.Get("yaml"), ",")
		keys[i] = yamlKey{textNode(key), strings.Contains(options, "inline"), strings.Contains(options, "omitempty")}
	}
	yamlKeysOf.Store(t, keys)
	return keys
}

// tidy copies a document as it is written: text in valid UTF-8, no list null,
// every quantity and number checked. The error names the field.
func tidy(doc *Document) (*Document, error) {
	out := reflect.New(documentType)
	if err := tidyInto(out.Elem(), reflect.ValueOf(doc).Elem(), ""); err != nil {
		return nil, err
	}
	return out.Interface().(*Document), nil
}

func tidyInto(to, from reflect.Value, key string) error {
	switch from.Type() {
	case quantityType:
		q := from.Interface().(Quantity)
		check := q.Check
		if key == "yield" {
			check = q.CheckYield
		}
		if err := check(); err != nil {
			return &misplaced{err: err}
		}
		to.Set(from)
		return nil
	case saidType: // most of a document
		s := from.Interface().(Said)
		to.Field(0).SetString(strings.ToValidUTF8(s.At, "\uFFFD"))
		to.Field(1).SetString(strings.ToValidUTF8(s.Quote, "\uFFFD"))
		return nil
	}
	switch from.Kind() {
	case reflect.Pointer:
		if from.IsNil() {
			return nil
		}
		to.Set(reflect.New(from.Type().Elem()))
		return tidyInto(to.Elem(), from.Elem(), key)
	case reflect.Struct:
		for i, f := range yamlKeys(from.Type()) {
			child := f.node.Value
			if f.inline {
				child = key
			}
			err := tidyInto(to.Field(i), from.Field(i), child)
			if err != nil && !f.inline {
				err = placed(child, err)
			}
			if err != nil {
				return err
			}
		}
	case reflect.Slice:
		to.Set(reflect.MakeSlice(from.Type(), from.Len(), from.Len()))
		for i := 0; i < from.Len(); i++ {
			if err := tidyInto(to.Index(i), from.Index(i), key); err != nil {
				return placed(strconv.Itoa(i), err)
			}
		}
	case reflect.String:
		to.SetString(strings.ToValidUTF8(from.String(), "\uFFFD"))
	case reflect.Float64:
		if f := from.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return &misplaced{err: fmt.Errorf("%v is no number that can be written", f)}
		}
		to.Set(from)
	default:
		to.Set(from)
	}
	return nil
}

// misplaced is what is wrong at a path in a document.
type misplaced struct {
	path string
	err  error
}

func (m *misplaced) Error() string { return plainPath(m.path) + ": " + m.err.Error() }
func (m *misplaced) Unwrap() error { return m.err }

// placed puts a key before the path of an error.
func placed(key string, err error) error {
	var m *misplaced
	if !errors.As(err, &m) {
		return err
	}
	if m.path != "" {
		key = join(key, m.path)
	}
	return &misplaced{key, m.err}
}
