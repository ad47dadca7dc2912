package merge

import (
	"bytes"
	"fmt"
	"strings"

	"quern/schema"
)

// sheet is one document of a YAML stream with its lines.
type sheet struct {
	mark  string // the "---" line before it, "" for a first document without one
	lines []string
	root  *schema.Node // its mapping; nil for an empty document
	inner []bool       // inner[i]: line i+1 continues a scalar begun on an earlier line
}

type stream struct {
	sheets []*sheet
	eol    string
	bom    bool
}

// split cuts a YAML stream into its documents, each with its own line count.
func split(what string, data []byte) (*stream, error) {
	s := &stream{eol: "\n"}
	if rest, ok := bytes.CutPrefix(data, []byte("\xef\xbb\xbf")); ok {
		data, s.bom = rest, true
	}
	text := string(data)
	if strings.Contains(text, "\r\n") {
		s.eol = "\r\n"
		text = strings.ReplaceAll(text, "\r\n", "\n")
	}
	if strings.TrimSpace(text) == "" {
		return s, nil
	}
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	cur := &sheet{}
	begin := 0 // index of the current sheet's first line in the stream
	finish := func() error {
		if err := cur.parse(); err != nil {
			return fmt.Errorf("%s: document beginning on line %d: %w", what, begin+1, err)
		}
		if cur.mark != "" || cur.root != nil || len(cur.lines) > 0 {
			s.sheets = append(s.sheets, cur)
		}
		return nil
	}
	for i, l := range lines {
		if l != "---" && !strings.HasPrefix(l, "--- ") {
			cur.lines = append(cur.lines, l)
			continue
		}
		if i > 0 && !(len(s.sheets) == 0 && cur.mark == "" && onlyRemarks(cur.lines)) {
			if err := finish(); err != nil {
				return nil, err
			}
			cur, begin = &sheet{}, i+1
		} else if len(cur.lines) > 0 {
			// Remarks above the first mark belong to the mark.
			l = strings.Join(cur.lines, "\n") + "\n" + l
			cur.lines = nil
		}
		cur.mark = l
		if rest := strings.TrimSpace(strings.TrimPrefix(lines[i], "---")); rest != "" && !strings.HasPrefix(rest, "#") {
			return nil, fmt.Errorf("%s: line %d: text after %q on the same line; put it on the next line", what, i+1, "---")
		}
	}
	if err := finish(); err != nil {
		return nil, err
	}
	return s, nil
}

func onlyRemarks(lines []string) bool {
	for _, l := range lines {
		if !idle(l) {
			return false
		}
	}
	return true
}

// idle reports whether a line holds nothing but a comment or blanks.
func idle(l string) bool {
	l = strings.TrimSpace(l)
	return l == "" || l[0] == '#'
}

func (s *sheet) parse() error {
	doc, err := schema.ParseYAML([]byte(strings.Join(s.lines, "\n") + "\n"))
	if err != nil {
		return err
	}
	s.inner = make([]bool, len(s.lines))
	if doc == nil {
		return nil
	}
	root := doc.Content[0]
	if root.Kind != schema.MappingNode {
		return fmt.Errorf("a recipe document is a list of fields such as %q; found something else on line %d", "title: …", root.Line)
	}
	if err := sound(root, 0); err != nil {
		return err
	}
	s.root = root
	s.spans(root)
	return nil
}

// sound refuses shapes that no recipe document has and that would make later
// walks long: deep nesting and keys given twice.
func sound(n *schema.Node, depth int) error {
	if depth > 50 {
		return fmt.Errorf("line %d: nested more than 50 levels deep", n.Line)
	}
	if n.Kind == schema.MappingNode {
		seen := map[string]bool{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			k := n.Content[i]
			if k.Kind != schema.ScalarNode {
				return fmt.Errorf("line %d: a field name must be plain text", k.Line)
			}
			if seen[k.Value] {
				return fmt.Errorf("line %d: field %q is given twice; keep one", k.Line, k.Value)
			}
			seen[k.Value] = true
		}
	}
	for _, c := range n.Content {
		if err := sound(c, depth+1); err != nil {
			return err
		}
	}
	return nil
}

// spans marks the lines that continue a scalar, where a "#" is no comment.
func (s *sheet) spans(n *schema.Node) {
	if n.Kind == schema.ScalarNode {
		for l, end := n.Line+1, s.scalarEnd(n); l <= end && l <= len(s.lines); l++ {
			s.inner[l-1] = true
		}
		return
	}
	for _, c := range n.Content {
		s.spans(c)
	}
}

// scalarEnd is the last line, from 1, that a scalar reaches.
func (s *sheet) scalarEnd(n *schema.Node) int {
	if n.Line < 1 || n.Line > len(s.lines) {
		return n.Line
	}
	switch {
	case n.Style&(schema.LiteralStyle|schema.FoldedStyle) != 0:
		return s.blockEnd(n)
	case n.Style&schema.DoubleQuotedStyle != 0:
		return s.quoteEnd(n, '"')
	case n.Style&schema.SingleQuotedStyle != 0:
		return s.quoteEnd(n, '\'')
	}
	// A plain scalar goes on while its words are not all seen; no line of it can be a comment.
	left := len(strings.Fields(n.Value))
	for l := n.Line; l <= len(s.lines); l++ {
		text := s.lines[l-1]
		if l == n.Line {
			text = cutBytes(text, n.Column-1)
		}
		left -= len(strings.Fields(text))
		if left <= 0 {
			return l
		}
	}
	return n.Line
}

// blockEnd finds where a | or > scalar stops: its lines are blank or indented
// at least as far as its first line of text.
func (s *sheet) blockEnd(n *schema.Node) int {
	depth, end := -1, n.Line
	for l := n.Line + 1; l <= len(s.lines); l++ {
		text := s.lines[l-1]
		if strings.TrimSpace(text) == "" {
			continue
		}
		d := len(text) - len(strings.TrimLeft(text, " "))
		if depth < 0 {
			if strings.TrimSpace(n.Value) == "" {
				return n.Line
			}
			depth = d
		}
		if d < depth {
			break
		}
		end = l
	}
	return end
}

func (s *sheet) quoteEnd(n *schema.Node, mark byte) int {
	for l := n.Line; l <= len(s.lines); l++ {
		text := s.lines[l-1]
		i := 0
		if l == n.Line {
			text = cutBytes(text, n.Column-1)
			if at := strings.IndexByte(text, mark); at >= 0 {
				i = at + 1
			}
		}
		for ; i < len(text); i++ {
			switch {
			case mark == '"' && text[i] == '\\':
				i++
			case text[i] == mark && mark == '\'' && i+1 < len(text) && text[i+1] == '\'':
				i++
			case text[i] == mark:
				return l
			}
		}
	}
	return n.Line
}

// cutBytes drops the first n characters of s; the parser counts columns in
// characters.
func cutBytes(s string, n int) string {
	for i := range s {
		if n == 0 {
			return s[i:]
		}
		n--
	}
	return ""
}

// lastLine is the last line of text, from 1, that a node reaches.
func (s *sheet) lastLine(n *schema.Node) int {
	if n.Kind == schema.ScalarNode {
		return s.scalarEnd(n)
	}
	last := n.Line
	for _, c := range n.Content {
		last = max(last, s.lastLine(c))
	}
	return last
}

// sheetPair is the same recipe in the three streams; any may be nil.
type sheetPair struct{ base, mine, theirs *sheet }

// pairSheets matches the recipes of three streams by title, then by order.
func pairSheets(b, m, t []*sheet) []sheetPair {
	key := func(s *sheet) string { return fold(valueOf(s.root, "title")) }
	passes := []pass[*sheet]{{key: key}, {key: func(*sheet) string { return "." }}}
	// Titles are only worth following where there is more than one recipe.
	if len(b) <= 1 && len(m) <= 1 && len(t) <= 1 {
		passes = passes[1:]
	}
	trios := trios(b, m, t, passes, passes)
	var pairs []sheetPair
	for _, x := range arrange(trios, len(b), len(m), len(t)) {
		pairs = append(pairs, sheetPair{at(b, x.b), at(m, x.m), at(t, x.t)})
	}
	return pairs
}

func at[T any](list []*T, i int) *T {
	if i < 0 {
		return nil
	}
	return list[i]
}

// writer puts a stream together again.
type writer struct {
	b   strings.Builder
	n   int
	eol string
	bom bool
}

func (w *writer) raw(s *sheet) { w.text(s, strings.Join(s.lines, "\n")) }

func (w *writer) text(s *sheet, text string) {
	mark := s.mark
	if mark == "" && w.n > 0 {
		mark = "---"
	}
	if mark != "" {
		w.b.WriteString(mark + "\n")
	}
	if text != "" {
		w.b.WriteString(strings.TrimSuffix(text, "\n") + "\n")
	}
	w.n++
}

func (w *writer) bytes() []byte {
	out := w.b.String()
	if w.eol != "\n" {
		out = strings.ReplaceAll(out, "\n", w.eol)
	}
	if w.bom {
		out = "\ufeff" + out
	}
	return []byte(out)
}
