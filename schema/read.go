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
	"unicode/utf8"
)

// Limits of what is read, so that hostile input costs a clear error and bounded
// memory. A long recipe has some 3,000 nodes and a depth of 8.
const (
	maxBytes      = 64 << 20  // of a file
	maxDepth      = 64        // of nesting
	maxNodes      = 1_000_000 // of one document
	maxAliasNodes = 10_000    // reached through anchors, each time counted again
)

// ErrSyntax is wrapped by the errors of text that is no YAML or JSON, or is
// beyond the limits of what is read.
var ErrSyntax = errors.New("not a recipe document")

// ErrInvalid is wrapped by the errors of well-formed text that doesn't fit the
// form. The error is an *InvalidError.
var ErrInvalid = errors.New("does not fit the form of a recipe document")

// InvalidError holds what keeps a document from being read.
type InvalidError struct {
	Problems []Problem // at least one, in order of line
}

// Error shows the first problem and how many more there are.
func (e *InvalidError) Error() string {
	text := e.Problems[0].String()
	if more := len(e.Problems) - 1; more > 0 {
		text += fmt.Sprintf(" (and %d more)", more)
	}
	return text
}

// Unwrap gives ErrInvalid.
func (e *InvalidError) Unwrap() error { return ErrInvalid }

// Read reads one recipe document, YAML or JSON; name is the file's name for
// messages. The error wraps ErrSyntax (with the line) or ErrInvalid: unknown
// keys, wrong types, missing keys and unreadable quantities are errors.
// Validate finds more, such as an ingredient nobody listed.
func Read(name string, data []byte) (*Document, error) {
	docs, err := ReadAll(name, data)
	if err != nil {
		return nil, err
	}
	if len(docs) != 1 {
		return nil, fmt.Errorf("%s: %w: it holds %d recipes where one is wanted; split it into a file for each", name, ErrSyntax, len(docs))
	}
	return docs[0], nil
}

// ReadAll reads every recipe document in data: a YAML stream, JSON values one
// after another, or a JSON array. The error is as Read's; nothing in data is an
// error.
func ReadAll(name string, data []byte) ([]*Document, error) {
	nodes, err := parseNodes(name, data)
	if err != nil {
		return nil, err
	}
	docs := make([]*Document, 0, len(nodes))
	for i, node := range nodes {
		c := newChecker(name, i, len(nodes))
		doc := c.document(node)
		if problems := c.sorted(); len(problems) > 0 {
			return nil, &InvalidError{Problems: problems}
		}
		docs = append(docs, doc)
	}
	return docs, nil
}

// ReadNode parses one document, YAML or JSON, into its nodes, with the comments
// and the order of keys of YAML kept, for editing it in place. It is not
// checked against the form. The error wraps ErrSyntax.
func ReadNode(data []byte) (*Node, error) {
	nodes, err := parseNodes("document", data)
	if err != nil {
		return nil, err
	}
	if len(nodes) != 1 {
		return nil, fmt.Errorf("document: %w: it holds %d recipes where one is wanted", ErrSyntax, len(nodes))
	}
	return nodes[0], nil
}

// UnmarshalYAML reads a document from its node.
func (d *Document) UnmarshalYAML(node *Node) error {
	type plain Document
	var p plain
	copied := *node
	copied.Content = append([]*Node(nil), node.Content...)
	var yield *Quantity
	for i := 0; i+1 < len(copied.Content); i += 2 {
		if copied.Content[i].Value != "yield" || isNull(copied.Content[i+1]) {
			continue
		}
		q, err := quantityFromNode(copied.Content[i+1], asYield)
		if err != nil {
			return fmt.Errorf("line %d: %w", copied.Content[i+1].Line, err)
		}
		yield = &q
		// A yield's unit is a free noun, which a Quantity by itself refuses.
		copied.Content[i+1] = nullNode()
	}
	if err := copied.Decode(&p); err != nil {
		return err
	}
	p.Yield = yield
	*d = Document(p)
	return nil
}

// UnmarshalJSON reads a document from JSON.
func (d *Document) UnmarshalJSON(data []byte) error {
	node, err := jsonNode(data)
	if err != nil {
		return err
	}
	return node.Decode(d)
}

// looksJSON tells JSON from YAML's own brackets: JSON's keys stand in quotes.
var looksJSON = regexp.MustCompile(`^\s*(\[\s*)?(\{\s*["}]|\[|\])`)

// parseNodes parses data into a document node for each recipe.
func parseNodes(name string, data []byte) ([]*Node, error) {
	fail := func(format string, args ...any) error {
		return fmt.Errorf("%s: %w: %s", name, ErrSyntax, fmt.Sprintf(format, args...))
	}
	if len(data) > maxBytes {
		return nil, fail("%d bytes, where at most %d are read", len(data), maxBytes)
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if len(bytes.TrimSpace(data)) == 0 {
		return nil, fail("an empty file; a document begins with the line recipe: 1")
	}
	var nodes []*Node
	var failed *syntaxError
	wide := bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) // UTF-16
	if !wide {
		failed = unreadable(data)
	}
	switch {
	case failed != nil:
	case looksJSON.Match(data):
		nodes, failed = jsonNodes(data)
	default:
		nodes, failed = yamlNodes(data)
	}
	if failed == nil && len(nodes) == 0 {
		failed = &syntaxError{reason: "a file without a recipe; a document begins with the line recipe: 1"}
	}
	switch {
	case failed != nil && failed.line > 0:
		return nil, fmt.Errorf("%s:%d: %w: %s", name, failed.line, ErrSyntax, failed.reason)
	case failed != nil:
		return nil, fail("%s", failed.reason)
	}
	return nodes, nil
}

// syntaxError is why text could not be parsed.
type syntaxError struct {
	line   int // from 1, 0 where it's unknown
	reason string
}

func (e *syntaxError) Error() string {
	if e.line > 0 {
		return fmt.Sprintf("line %d: %s", e.line, e.reason)
	}
	return e.reason
}

var yamlLine = regexp.MustCompile(`^(?:yaml: )?(?:unmarshal errors:\s*)?(?:line (\d+): )?((?s).*)$`)

// yamlNodes parses a YAML stream into a node for each document that holds
// something.
func yamlNodes(data []byte) ([]*Node, *syntaxError) {
	if err := tooManyNodes(data); err != nil {
		return nil, err
	}
	all, err := parseYAML(data)
	if err != nil {
		return nil, yamlFailure(err, data)
	}
	var nodes []*Node
	for _, node := range all {
		if len(node.Content) == 0 || isNull(node.Content[0]) {
			continue // a stream may end in a separator, or begin with a comment alone
		}
		if err := withinLimits(node); err != nil {
			return nil, err
		}
		nodes = append(nodes, node)
	}
	return nodes, nil
}

// parserMessage matches the messages of the YAML library whose line is counted
// from 0; its others count from 1.
var parserMessage = regexp.MustCompile(`^did not find expected (<|node content|'-'|key|',')`)

// yamlHints say what the usual slip behind a message of the YAML library is.
var yamlHints = []struct{ message, hint string }{
	{"mapping values are not allowed", `text with ": " in it stands in quotes, and the keys of one mapping stand under each other`},
	{"did not find expected key", "the keys of one mapping stand under each other"},
	{"did not find expected '-'", "the dashes of one list stand under each other"},
	{"did not find expected ','", "a bracket is not closed, or a comma is missing"},
	{"could not find expected ':'", "every key has a colon and a space after it"},
	{"found character that cannot start", "a line is indented with spaces, not tabs, and text beginning with @, % or ` stands in quotes"},
	{"found unexpected end of stream", "a quotation mark is not closed"},
	{"found unknown escape character", `in double quotes a backslash is written \\`},
	{"found a tab", "a line is indented with spaces, not tabs"},
	{"unknown anchor", "text beginning with * stands in quotes"},
	{"did not find expected alphabetic", "text beginning with * or & stands in quotes"},
}

// yamlFailure gives the line and the reason of an error of the YAML library.
func yamlFailure(err error, data []byte) *syntaxError {
	parts := yamlLine.FindStringSubmatch(err.Error())
	message := strings.TrimSpace(parts[2])
	line, _ := strconv.Atoi(parts[1])
	if line == 0 || parserMessage.MatchString(message) {
		line++
	}
	if strings.HasPrefix(message, "found a tab") {
		// The message gives the line of the text that the tab follows.
		for i, text := range bytes.Split(data, []byte("\n")) {
			indent := text[:len(text)-len(bytes.TrimLeft(text, " \t"))]
			if i+1 >= line && bytes.Contains(indent, []byte("\t")) {
				line = i + 1
				break
			}
		}
	}
	reason := fmt.Sprintf("YAML that cannot be read (%s)", message)
	for _, h := range yamlHints {
		if strings.HasPrefix(message, h.message) {
			reason += ": " + h.hint
		}
	}
	return &syntaxError{line, reason}
}

// unreadable finds the first byte that no text has: neither UTF-8 nor a tab or
// line break.
func unreadable(data []byte) *syntaxError {
	line := 1
	for i := 0; i < len(data); {
		c := data[i]
		size := 1
		switch {
		case c == '\n':
			line++
		case c >= utf8.RuneSelf:
			var r rune
			r, size = utf8.DecodeRune(data[i:])
			if r == utf8.RuneError && size == 1 {
				return &syntaxError{line, fmt.Sprintf("the byte %#02x, which is not UTF-8; save the file as UTF-8", c)}
			}
		case c < ' ' && c != '\t' && c != '\r':
			return &syntaxError{line, fmt.Sprintf("the control character %#02x, which no text has", c)}
		}
		i += size
	}
	return nil
}

// tooManyNodes refuses text that could hold more nodes in one document than are
// read, before the parser spends memory on them: every node but the first
// follows one of these characters.
func tooManyNodes(data []byte) *syntaxError {
	count, line := 0, 1
	for i, c := range data {
		switch c {
		case ',', ':', '-', '[', '{', '?':
			count++
		case '\n':
			count++
			line++
			if bytes.HasPrefix(data[i+1:], []byte("---")) {
				count = 0
			}
		}
		if count > maxNodes {
			return &syntaxError{line: line, reason: fmt.Sprintf("more than %d parts in one document", maxNodes)}
		}
	}
	return nil
}

// withinLimits refuses nesting beyond maxDepth and anchors that expand beyond
// maxAliasNodes.
func withinLimits(node *Node) *syntaxError {
	expanded := 0
	var walk func(n *Node, depth int, alias bool) *syntaxError
	walk = func(n *Node, depth int, alias bool) *syntaxError {
		if depth > maxDepth {
			return &syntaxError{n.Line, fmt.Sprintf("nesting more than %d deep", maxDepth)}
		}
		if alias {
			if expanded++; expanded > maxAliasNodes {
				return &syntaxError{n.Line, fmt.Sprintf("anchors that expand to more than %d parts; write them out or use fewer", maxAliasNodes)}
			}
		}
		if n.Kind == AliasNode {
			return walk(n.Alias, depth+1, true)
		}
		for _, child := range n.Content {
			if err := walk(child, depth+1, alias); err != nil {
				return err
			}
		}
		return nil
	}
	return walk(node, 0, false)
}

// jsonNode parses one JSON value.
func jsonNode(data []byte) (*Node, error) {
	nodes, err := jsonNodes(append(append([]byte("["), data...), ']'))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrSyntax, err)
	}
	if len(nodes) != 1 {
		return nil, fmt.Errorf("%w: %d JSON values where one is wanted", ErrSyntax, len(nodes))
	}
	return nodes[0].Content[0], nil
}

// jsonNodes parses JSON values one after another, or one array of them, into a
// document node for each, with lines and columns.
func jsonNodes(data []byte) ([]*Node, *syntaxError) {
	p := &jsonParser{data: data, line: 1}
	p.dec = json.NewDecoder(bytes.NewReader(data))
	p.dec.UseNumber()
	var docs []*Node
	for {
		p.nodes = 0
		node, err := p.value(0)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			p.position(p.dec.InputOffset())
			reason := err.Error()
			var syntax *json.SyntaxError
			switch {
			case errors.Is(err, io.ErrUnexpectedEOF):
				reason = "JSON that ends in the middle"
			case errors.As(err, &syntax):
				p.position(syntax.Offset)
				reason = fmt.Sprintf("JSON that cannot be read (%v)", syntax)
			}
			return nil, &syntaxError{p.line, reason}
		}
		docs = append(docs, &Node{Kind: DocumentNode, Line: node.Line, Column: 1, Content: []*Node{node}})
	}
	if len(docs) == 1 && docs[0].Content[0].Kind == SequenceNode {
		list := docs[0].Content[0].Content
		docs = docs[:0]
		for _, node := range list {
			docs = append(docs, &Node{Kind: DocumentNode, Line: node.Line, Column: 1, Content: []*Node{node}})
		}
	}
	return docs, nil
}

// jsonParser turns JSON tokens into nodes.
type jsonParser struct {
	dec    *json.Decoder
	data   []byte
	offset int64 // up to which lines are counted
	line   int   // at offset
	nodes  int
}

// position counts lines up to an offset that never goes back.
func (p *jsonParser) position(offset int64) {
	if offset > int64(len(p.data)) {
		offset = int64(len(p.data))
	}
	if offset > p.offset {
		p.line += bytes.Count(p.data[p.offset:offset], []byte("\n"))
		p.offset = offset
	}
}

func (p *jsonParser) value(depth int) (*Node, error) {
	token, err := p.dec.Token()
	if err != nil {
		if depth > 0 && errors.Is(err, io.EOF) {
			err = io.ErrUnexpectedEOF
		}
		return nil, err
	}
	return p.node(token, depth)
}

func (p *jsonParser) node(token json.Token, depth int) (*Node, error) {
	if p.nodes++; p.nodes > maxNodes {
		return nil, fmt.Errorf("more than %d parts in one document", maxNodes)
	}
	if depth > maxDepth {
		return nil, fmt.Errorf("nesting more than %d deep", maxDepth)
	}
	p.position(p.dec.InputOffset())
	n := &Node{Line: p.line, Column: 1}
	switch t := token.(type) {
	case nil:
		null := nullNode()
		n.Kind, n.Tag, n.Value = null.Kind, null.Tag, null.Value
	case bool:
		n.Kind, n.Tag, n.Value = ScalarNode, "!!bool", strconv.FormatBool(t)
	case json.Number:
		n.Kind, n.Tag, n.Value = ScalarNode, "!!float", t.String()
		if !strings.ContainsAny(n.Value, ".eE") {
			n.Tag = "!!int"
		}
	case string:
		n.Kind, n.Tag, n.Value, n.Style = ScalarNode, "!!str", t, DoubleQuotedStyle
	case json.Delim:
		n.Kind, n.Tag, n.Style = SequenceNode, "!!seq", FlowStyle
		if t == '{' {
			n.Kind, n.Tag = MappingNode, "!!map"
		}
		for p.dec.More() {
			child, err := p.value(depth + 1)
			if err != nil {
				return nil, err
			}
			n.Content = append(n.Content, child)
			if t == '{' {
				// The decoder has checked that the key is a string.
				value, err := p.value(depth + 1)
				if err != nil {
					return nil, err
				}
				n.Content = append(n.Content, value)
			}
		}
		if _, err := p.dec.Token(); err != nil {
			if errors.Is(err, io.EOF) {
				err = io.ErrUnexpectedEOF
			}
			return nil, err
		}
	}
	return n, nil
}

func nullNode() *Node { return &Node{Kind: ScalarNode, Tag: "!!null", Value: "null"} }

func isNull(n *Node) bool {
	for depth := 0; n.Kind == AliasNode && depth < maxDepth; depth++ {
		n = n.Alias
	}
	return n.Kind == ScalarNode && n.ShortTag() == "!!null"
}

// document checks one document node against the form and decodes it. What is
// wrong is left in c.problems; the document is nil when anything is.
func (c *checker) document(node *Node) *Document {
	value := c.plain(node.Content[0], documentType, "", "")
	c.againstSchema(value)
	if len(c.problems) > 0 {
		return nil
	}
	var doc Document
	if err := node.Decode(&doc); err != nil {
		parts := yamlLine.FindStringSubmatch(err.Error())
		line, _ := strconv.Atoi(parts[1])
		if line == 0 {
			line = node.Line
		}
		c.add(Problem{Line: line, Found: strings.TrimSpace(parts[2]), Accepted: "the form of a recipe document"})
		return nil
	}
	return &doc
}

// plain turns a node into the plain value a schema is checked against, guided
// by the Go type: a number where text is wanted is text, and a null where a key
// can be left out leaves it out. It notes the line of every path and reads
// every quantity.
func (c *checker) plain(n *Node, t reflect.Type, key, path string) any {
	for n.Kind == AliasNode {
		n = n.Alias
	}
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	c.lines[path], c.types[path] = n.Line, t
	if isNull(n) {
		return nil
	}
	if t == quantityType {
		return c.quantity(n, key, path)
	}
	switch n.Kind {
	case SequenceNode:
		list := make([]any, 0, len(n.Content))
		elem := untyped
		if t.Kind() == reflect.Slice {
			elem = t.Elem()
		}
		for i, child := range n.Content {
			list = append(list, c.plain(child, elem, key, join(path, strconv.Itoa(i))))
		}
		return list
	case MappingNode:
		return c.mapping(n, t, path)
	}
	return scalar(n, t)
}

// untyped stands for a place the form has no type for.
var untyped = reflect.TypeFor[any]()

func (c *checker) mapping(n *Node, t reflect.Type, path string) any {
	m := make(map[string]any, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		keyNode, value := n.Content[i], n.Content[i+1]
		key := keyNode.Value
		child := join(path, key)
		if _, twice := m[key]; twice || c.seen(child) {
			c.add(Problem{Line: keyNode.Line, Field: plainPath(child), Found: "the key a second time", Accepted: "each key once"})
			continue
		}
		f, known := field{typ: untyped}, false
		if t.Kind() == reflect.Struct {
			f, known = fieldOf(t, key)
			if !known {
				f.typ = untyped
			}
		}
		plain := c.plain(value, f.typ, key, child)
		if !known {
			c.lines[child] = keyNode.Line
		}
		if known && plain == nil && (f.omitEmpty || f.typ.Kind() == reflect.Slice) {
			continue
		}
		m[key] = plain
	}
	return m
}

func (c *checker) seen(path string) bool {
	_, ok := c.lines[path]
	return ok
}

// quantity reads either spelling, notes what is wrong as one problem, and gives
// the value for the schema.
func (c *checker) quantity(n *Node, key, path string) any {
	as := asAmount
	if key == "yield" {
		as = asYield
	}
	if _, err := quantityFromNode(n, as); err != nil {
		found := "an object: " + reasonOf(err)
		switch n.Kind {
		case ScalarNode:
			found = strconv.Quote(shorten(n.Value)) + ": " + reasonOf(err)
		case SequenceNode:
			found = "a list"
		}
		c.add(Problem{Line: n.Line, Field: plainPath(path), Found: found, Accepted: as.accepted()})
		return "1"
	}
	if n.Kind == ScalarNode {
		return n.Value
	}
	return c.plainObject(n)
}

// plainObject gives the object spelling of a quantity that was read well.
func (c *checker) plainObject(n *Node) any {
	m := make(map[string]any)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i].Value, n.Content[i+1]
		for value.Kind == AliasNode {
			value = value.Alias
		}
		f, _ := fieldOf(quantityObjectType, key)
		switch {
		case isNull(value):
		case key == "size" && value.Kind == MappingNode:
			m[key] = c.plainObject(value)
		case key == "size":
			m[key] = value.Value
		case value.Kind == SequenceNode:
			list := []any{}
			for _, side := range value.Content {
				list = append(list, scalar(side, reflect.TypeFor[float64]()))
			}
			m[key] = list
		default:
			t := f.typ
			if t.Kind() == reflect.Pointer {
				t = t.Elem()
			}
			m[key] = scalar(value, t)
		}
	}
	return m
}

// scalar gives the plain value of a scalar where type t is wanted; where it
// doesn't fit, the schema says so.
func scalar(n *Node, t reflect.Type) any {
	for n.Kind == AliasNode {
		n = n.Alias
	}
	tag := n.ShortTag()
	switch {
	case t.Kind() == reflect.String && tag != "!!binary":
		return n.Value
	case t.Kind() == reflect.Bool || t == untyped && tag == "!!bool":
		var b bool
		if n.Decode(&b) == nil {
			return b
		}
	case t.Kind() == reflect.Float64 || t.Kind() == reflect.Int || t == untyped && (tag == "!!int" || tag == "!!float"):
		var f float64
		if tag != "!!str" && n.Decode(&f) == nil && !math.IsNaN(f) && math.Abs(f) < 1e15 {
			return json.Number(strconv.FormatFloat(f, 'f', -1, 64))
		}
	}
	if tag == "!!binary" || !utf8.ValidString(n.Value) {
		return nil
	}
	return n.Value
}
