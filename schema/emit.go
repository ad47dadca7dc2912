package schema

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// The library writes a few megabytes a second. What the documents of this
// package are made of, mappings and lists of plain and double-quoted text, is
// written here, byte for byte as the library writes it; a text of which this file
// isn't sure is spelled by the library, and so is any tree with comments, anchors
// or block text.

// An emitter writes trees of nodes as YAML text.
type emitter struct {
	out   []byte
	odd   []*Node           // texts to be spelled by the library, each twice: in a block and in a line
	spelt map[*Node]oddText // of odd, nil before they are known
}

// oddText is how the library spells a text in a block, and within brackets.
type oddText struct{ block, flow string }

// emitYAML writes documents; ok is false where only the library can.
func emitYAML(docs []*Node) (text []byte, ok bool) {
	e := &emitter{}
	for _, doc := range docs {
		if !e.simple(doc, false) {
			return nil, false
		}
	}
	if !e.spellOdd() {
		return nil, false
	}
	for i, doc := range docs {
		if i > 0 {
			e.out = append(e.out, "---\n"...)
		}
		if doc.Kind == DocumentNode {
			doc = doc.Content[0]
		}
		e.block(doc, 0, false)
	}
	return e.out, true
}

// simple tells whether a tree is of the kinds this file writes, and gathers its
// odd texts. within tells that brackets are open around it.
func (e *emitter) simple(n *Node, within bool) bool {
	if hasMore(n) || n.Style&^(FlowStyle|DoubleQuotedStyle|SingleQuotedStyle) != 0 {
		return false
	}
	switch n.Kind {
	case DocumentNode:
		return n.Tag == "" && n.Style == 0 && len(n.Content) == 1 && e.simple(n.Content[0], false)
	case MappingNode:
		if n.Tag != "" && n.Tag != "!!map" || len(n.Content)%2 != 0 || n.Style&^FlowStyle != 0 {
			return false
		}
		for i, child := range n.Content {
			if i%2 == 0 && !sureKey(child) || i%2 != 0 && !e.simple(child, within || n.Style == FlowStyle) {
				return false
			}
		}
		return true
	case SequenceNode:
		if n.Tag != "" && n.Tag != "!!seq" || n.Style&^FlowStyle != 0 {
			return false
		}
		return !slices.ContainsFunc(n.Content, func(child *Node) bool { return !e.simple(child, within || n.Style == FlowStyle) })
	case ScalarNode:
		if len(n.Content) > 0 || n.Style&FlowStyle != 0 || !utf8.ValidString(n.Value) {
			return false
		}
		switch n.Tag {
		case "!!str", "!!int", "!!float", "!!bool", "!!null":
		default:
			return false
		}
		switch {
		case n.Style == DoubleQuotedStyle && n.Tag == "!!str":
			if strings.HasPrefix(n.Value, "\uFEFF") {
				e.odd = append(e.odd, n)
			}
		case strings.ContainsAny(n.Value, "\n\r\u0085\u2028\u2029"):
			return false
		case n.Style != 0 || !surelyPlain(n, within):
			e.odd = append(e.odd, n)
		}
		return true
	}
	return false
}

// hasMore tells whether a node has an anchor or a comment.
func hasMore(n *Node) bool {
	return n.Anchor != "" || n.HeadComment != "" || n.LineComment != "" || n.FootComment != ""
}

// sureKey tells whether a key is a plain word: the keys of the form are.
func sureKey(n *Node) bool {
	return n.Kind == ScalarNode && n.Style == 0 && n.Tag == "!!str" && len(n.Value) <= 64 && !hasMore(n) && surelyPlain(n, true) && !strings.ContainsFunc(n.Value, func(r rune) bool {
		return r != '_' && (r < 'a' || r > 'z') && (r < '0' || r > '9')
	})
}

// surelyPlain tells whether a scalar needs no quotes, in a block or within
// brackets, by rules narrower than those of YAML.
func surelyPlain(n *Node, within bool) bool {
	v := n.Value
	if v == "" {
		return false
	}
	switch n.Tag {
	case "!!null":
		return v == "null"
	case "!!bool":
		return v == "true" || v == "false"
	case "!!int", "!!float":
		whole, part, isFloat := strings.Cut(strings.TrimPrefix(v, "-"), ".")
		return digitsOnly(whole) && len(whole) <= 18 && (whole == "0" || whole[0] != '0') &&
			(n.Tag == "!!int" && !isFloat || n.Tag == "!!float" && digitsOnly(part) && len(part) <= 30)
	}
	switch c := v[0]; {
	case c >= '0' && c <= '9':
		// A number, a date or a time of day has no space before letters, and no
		// number without a mark has two letters, but for 0xab.
		space := strings.IndexByte(v, ' ')
		if space < 0 && letters(v) < 2 || space+1 == len(v) || space > 0 && (!letter(v[space+1]) || strings.IndexByte(v[:space], '-') >= 0) {
			return false
		}
	case letter(c):
		switch strings.ToLower(v) {
		case "true", "false", "null", "yes", "no", "on", "off", "y", "n":
			return false
		}
	default:
		return false
	}
	if v[len(v)-1] == ' ' {
		return false
	}
	for i := 0; i < len(v); {
		c := v[i]
		switch {
		case c >= utf8.RuneSelf:
			r, size := utf8.DecodeRuneInString(v[i:])
			if escaped(r) {
				return false
			}
			i += size
			continue
		case c < ' ', c == 0x7F,
			within && strings.IndexByte(",?[]{}:#", c) >= 0,
			c == ':' && (i+1 == len(v) || v[i+1] == ' '),
			c == '#' && v[i-1] == ' ': // no text begins with one
			return false
		}
		i++
	}
	return true
}

// letters counts the letters of a text that has nothing but letters and digits,
// and doesn't begin as a number of another base does; 0 for any other text.
func letters(s string) int {
	n := 0
	for i := range len(s) {
		switch c := s[i]; {
		case letter(c):
			if i == 1 && s[0] == '0' && strings.IndexByte("xXoObB", c) >= 0 {
				return 0
			}
			n++
		case c < '0' || c > '9':
			return 0
		}
	}
	return n
}

func letter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

func digitsOnly(s string) bool {
	return s != "" && !strings.ContainsFunc(s, func(r rune) bool { return r < '0' || r > '9' })
}

// escaped tells whether the library escapes a character within double quotes:
// what YAML 1.2 (5.1, 5.4) doesn't count as printable, line ends, and those
// beyond the Basic Multilingual Plane.
func escaped(r rune) bool {
	switch {
	case r < ' ', r >= 0x7F && r < 0xA0, r == '"', r == '\\', r == 0x2028, r == 0x2029, r == 0xFEFF, r > 0xFFFD:
		return true
	}
	return false
}

// spellOdd has the library spell the odd texts: all of them at once, for each
// call of it is dear. It is false where one takes more than a line.
func (e *emitter) spellOdd() bool {
	if len(e.odd) == 0 {
		return true
	}
	list := &Node{Kind: SequenceNode, Tag: "!!seq"}
	for _, n := range e.odd {
		list.Content = append(list.Content, n, &Node{Kind: SequenceNode, Tag: "!!seq", Style: FlowStyle, Content: []*Node{n}})
	}
	text, err := libraryYAML(list)
	if err != nil {
		return false
	}
	lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	if len(lines) != 2*len(e.odd) {
		return false
	}
	e.spelt = make(map[*Node]oddText, len(e.odd))
	for i, n := range e.odd {
		block, ok := strings.CutPrefix(lines[2*i], "- ")
		flow, open := strings.CutPrefix(lines[2*i+1], "- [")
		flow, closed := strings.CutSuffix(flow, "]")
		if !ok || !open || !closed {
			return false
		}
		e.spelt[n] = oddText{block, flow}
	}
	return true
}

// block writes a node and ends the line. Where it opens a line of its own,
// indented by the depth, inline is false; behind a dash it is true. A mapping or
// list that is a value in a mapping gets its line before.
func (e *emitter) block(n *Node, depth int, inline bool) {
	if n.Kind == ScalarNode || n.Style&FlowStyle != 0 || len(n.Content) == 0 {
		e.flow(n, false)
		e.out = append(e.out, '\n')
		return
	}
	open := func() {
		if !inline {
			for range depth {
				e.out = append(e.out, ' ')
			}
		}
		inline = false
	}
	if n.Kind == SequenceNode {
		for _, child := range n.Content {
			open()
			e.out = append(e.out, "- "...)
			e.block(child, depth+2, true)
		}
		return
	}
	for i := 0; i < len(n.Content); i += 2 {
		open()
		e.out = append(e.out, n.Content[i].Value...)
		e.out = append(e.out, ':')
		child := n.Content[i+1]
		if child.Kind == ScalarNode || child.Style&FlowStyle != 0 || len(child.Content) == 0 {
			e.out = append(e.out, ' ')
			e.block(child, depth, true)
			continue
		}
		e.out = append(e.out, '\n')
		e.block(child, depth+2, false)
	}
}

// flow writes a node without a line end. within tells that brackets are open.
func (e *emitter) flow(n *Node, within bool) {
	switch n.Kind {
	case ScalarNode:
		e.scalar(n, within)
	case SequenceNode:
		e.out = append(e.out, '[')
		for i, child := range n.Content {
			if i > 0 {
				e.out = append(e.out, ", "...)
			}
			e.flow(child, true)
		}
		e.out = append(e.out, ']')
	case MappingNode:
		e.out = append(e.out, '{')
		for i := 0; i < len(n.Content); i += 2 {
			if i > 0 {
				e.out = append(e.out, ", "...)
			}
			e.out = append(e.out, n.Content[i].Value...)
			e.out = append(e.out, ": "...)
			e.flow(n.Content[i+1], true)
		}
		e.out = append(e.out, '}')
	}
}

func (e *emitter) scalar(n *Node, within bool) {
	if s, ok := e.spelt[n]; ok {
		if within {
			e.out = append(e.out, s.flow...)
		} else {
			e.out = append(e.out, s.block...)
		}
		return
	}
	if n.Style != DoubleQuotedStyle {
		e.out = append(e.out, n.Value...)
		return
	}
	e.out = append(e.out, '"')
	from := 0
	for i, r := range n.Value {
		if !escaped(r) {
			continue
		}
		e.out = append(e.out, n.Value[from:i]...)
		e.escape(r)
		from = i + utf8.RuneLen(r)
	}
	e.out = append(e.out, n.Value[from:]...)
	e.out = append(e.out, '"')
}

// namedEscapes are the escapes of YAML 1.2 (5.7) that have a letter.
var namedEscapes = map[rune]byte{
	0x00: '0', 0x07: 'a', 0x08: 'b', '\t': 't', '\n': 'n', 0x0B: 'v', 0x0C: 'f', '\r': 'r', 0x1B: 'e', '"': '"', '\\': '\\',
	0x85: 'N', 0x2028: 'L', 0x2029: 'P',
}

func (e *emitter) escape(r rune) {
	e.out = append(e.out, '\\')
	if c, ok := namedEscapes[r]; ok {
		e.out = append(e.out, c)
		return
	}
	lead, width := byte('x'), 2
	switch {
	case r > 0xFFFF:
		lead, width = 'U', 8
	case r > 0xFF:
		lead, width = 'u', 4
	}
	e.out = append(e.out, lead)
	hex := strings.ToUpper(strconv.FormatInt(int64(r), 16))
	for range width - len(hex) {
		e.out = append(e.out, '0')
	}
	e.out = append(e.out, hex...)
}
