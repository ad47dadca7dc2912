package merge

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"quern/schema"
)

// errUnlike says that edited lines do not read as the merged document.
var errUnlike = errors.New("the edited text does not read as the merged document")

// write gives the text of a merged document: her lines where nothing
// happened, new ones where something did. Should the lines not read back as
// the merged document (a layout this file does not foresee), the whole is
// written afresh with its comments instead.
func (s *sheet) write(root *branch) (string, error) {
	if root.same {
		return strings.Join(s.lines, "\n"), nil
	}
	want := root.node()
	text, err := s.edited(root, want)
	if err == nil {
		return text, nil
	}
	if !errors.Is(err, errUnlike) {
		return "", err
	}
	if text, err = encode(want); err != nil {
		return "", err
	}
	have := remarks(strings.Split(text, "\n"), nil)
	var lost []string
	for _, c := range remarks(s.lines, s.inner) {
		if i := slices.Index(have, c); i >= 0 {
			have = slices.Delete(have, i, i+1)
		} else {
			lost = append(lost, c)
		}
	}
	if len(lost) > 0 {
		text = strings.Join(lost, "\n") + "\n" + text
	}
	if err := readsAs(text, want); err != nil {
		return "", err
	}
	return text, nil
}

func (s *sheet) edited(root *branch, want *schema.Node) (string, error) {
	end := min(s.lastLine(root.src), len(s.lines)) // a key without its text is said to stand below the last line
	// Closing brackets of a flow list may stand below its last word.
	for end < len(s.lines) && !idle(s.lines[end]) {
		end++
	}
	r := &renderer{sheet: s}
	lines, ok := r.children(root, 1, end+1, 0)
	if !ok {
		return "", errUnlike
	}
	lines = append(lines, s.lines[end:]...)
	text := strings.Join(lines, "\n")
	return text, readsAs(text, want)
}

func readsAs(text string, want *schema.Node) error {
	doc, err := schema.ParseYAML([]byte(text + "\n"))
	if err != nil {
		return fmt.Errorf("%w: %w", errUnlike, err)
	}
	if doc == nil || sound(doc.Content[0], 0) != nil || canonical(doc.Content[0], "") != canonical(want, "") {
		return errUnlike
	}
	return nil
}

func encode(n *schema.Node) (string, error) {
	text, err := schema.FormatYAML(n)
	return strings.TrimSuffix(string(text), "\n"), err
}

// renderer turns branches into lines.
type renderer struct{ *sheet }

// block reports whether a node is written one child a line.
func block(n *schema.Node) bool {
	return n != nil && (n.Kind == schema.MappingNode || n.Kind == schema.SequenceNode) &&
		n.Style&schema.FlowStyle == 0 && len(n.Content) > 0
}

// chunk is the lines of one child: remarks above it, then the child itself.
type chunk struct{ start, line, end int } // from 1; end is the line after the last

// chunks cuts the lines [from, to) of a container into those of its children,
// which begin on the given lines.
func (s *sheet) chunks(begin []int, ends []int, from, to int) ([]chunk, bool) {
	out := make([]chunk, len(begin))
	floor := from - 1 // the last line that surely belongs to what came before
	for i, line := range begin {
		if line <= floor || line >= to {
			return nil, false
		}
		start := line
		for start-1 > floor && idle(s.lines[start-2]) && !s.inner[start-2] {
			start--
		}
		if i == 0 {
			start = max(start, from)
		}
		out[i] = chunk{start: start, line: line}
		if i > 0 {
			out[i-1].end = start
		}
		floor = max(ends[i], line)
	}
	if len(out) > 0 {
		out[len(out)-1].end = to
	}
	return out, true
}

// children renders what is in a block mapping or list whose text is the lines
// [from, to). dash is the column, from 1, of the "-" that opens the mapping
// when it is an item of a list, else 0. ok is false where the layout is not
// one child a line.
func (r *renderer) children(b *branch, from, to, dash int) (lines []string, ok bool) {
	src := b.src
	if !block(src) {
		return nil, false
	}
	if src.Kind == schema.SequenceNode {
		return r.listItems(b, from, to)
	}
	col := src.Content[0].Column
	var begin, ends []int
	index := map[*schema.Node]int{}
	for i := 0; i+1 < len(src.Content); i += 2 {
		if src.Content[i].Column != col {
			return nil, false
		}
		index[src.Content[i]] = len(begin)
		begin = append(begin, src.Content[i].Line)
		ends = append(ends, max(r.lastLine(src.Content[i]), r.lastLine(src.Content[i+1])))
	}
	cuts, ok := r.chunks(begin, ends, from, to)
	if !ok {
		return nil, false
	}
	dashed := false
	for _, e := range b.entries {
		var part []string
		if e.keySrc == nil {
			text, err := encode(&schema.Node{Kind: schema.MappingNode, Tag: "!!map", Content: []*schema.Node{e.key, e.value.fresh}})
			if err != nil {
				return nil, false
			}
			part = indent(strings.Split(text, "\n"), col-1)
		} else {
			c := cuts[index[e.keySrc]]
			part, ok = r.entry(e, c, col)
			if !ok {
				return nil, false
			}
			if dash > 0 && index[e.keySrc] == 0 && dashed {
				part = undash(part, c.line-c.start, dash)
			}
		}
		if dash > 0 && !dashed && len(part) > 0 {
			part, dashed = redash(part, dash), true
		}
		lines = append(lines, part...)
	}
	return lines, true
}

// entry renders one field she has.
func (r *renderer) entry(e entry, c chunk, col int) ([]string, bool) {
	own := r.lines[c.start-1 : c.end-1]
	v := e.value
	switch {
	case v.gone:
		return indent(remarks(own, r.inner[c.start-1:c.end-1]), col-1), true
	case v.same:
		return slices.Clone(own), true
	case v.fresh == nil && block(v.src) && v.src.Content[0].Line > e.keySrc.Line && v.src.Kind != schema.AliasNode && anyLeft(v):
		top := r.topOf(v.src, e.keySrc.Line)
		inside, ok := r.children(v, top, c.end, 0)
		if !ok {
			return nil, false
		}
		return append(slices.Clone(r.lines[c.start-1:top-1]), inside...), true
	}
	value := v.node()
	if v.fresh != nil && v.src.Kind == schema.ScalarNode {
		fresh := *value
		if fresh.Kind == schema.ScalarNode {
			fresh.HeadComment, fresh.LineComment, fresh.FootComment = "", "", ""
		}
		value = &fresh
	}
	text, err := encode(&schema.Node{Kind: schema.MappingNode, Tag: "!!map", Content: []*schema.Node{bare(e.key), bare(value)}})
	if err != nil {
		return nil, false
	}
	fresh := indent(strings.Split(text, "\n"), col-1)
	lead := slices.Clone(r.lines[c.start-1 : c.line-1])
	notes := remarks(r.lines[c.line-1:c.end-1], r.inner[c.line-1:c.end-1])
	if len(notes) == 1 && len(fresh) == 1 {
		return append(lead, fresh[0]+" "+notes[0]), true
	}
	return append(append(lead, indent(notes, col-1)...), fresh...), true
}

// anyLeft reports whether a worked-into collection has anything in it, so
// that its field still has lines below it.
func anyLeft(b *branch) bool {
	for _, e := range b.entries {
		if !e.value.gone {
			return true
		}
	}
	for _, x := range b.list {
		if !x.gone {
			return true
		}
	}
	return false
}

// topOf is the first line of a collection's text below its key: remarks above
// its first child are part of it.
func (r *renderer) topOf(n *schema.Node, key int) int {
	top := n.Content[0].Line
	if n.Kind == schema.SequenceNode {
		top = n.Line
	}
	for top-1 > key && idle(r.lines[top-2]) {
		top--
	}
	return top
}

// bare is a copy of a node without comments, which are written apart.
func bare(n *schema.Node) *schema.Node {
	c := *n
	c.HeadComment, c.LineComment, c.FootComment = "", "", ""
	c.Content = make([]*schema.Node, len(n.Content))
	for i, x := range n.Content {
		c.Content[i] = bare(x)
	}
	return &c
}

// listItems renders the items of a block list.
func (r *renderer) listItems(b *branch, from, to int) ([]string, bool) {
	src := b.src
	dash := src.Column
	var begin, ends []int
	index := map[*schema.Node]int{}
	for i, c := range src.Content {
		line := r.dashLine(c, dash)
		if line == 0 {
			return nil, false
		}
		index[c] = i
		begin = append(begin, line)
		ends = append(ends, r.lastLine(c))
	}
	cuts, ok := r.chunks(begin, ends, from, to)
	if !ok {
		return nil, false
	}
	var lines []string
	for _, x := range b.list {
		if x.src == nil {
			text, err := encode(&schema.Node{Kind: schema.SequenceNode, Tag: "!!seq", Content: []*schema.Node{bare(x.fresh)}})
			if err != nil {
				return nil, false
			}
			lines = append(lines, indent(strings.Split(text, "\n"), dash-1)...)
			continue
		}
		i, known := index[x.src]
		if !known {
			return nil, false
		}
		c := cuts[i]
		part, ok := r.item(x, c, dash)
		if !ok {
			return nil, false
		}
		lines = append(lines, part...)
	}
	return lines, true
}

func (r *renderer) item(x *branch, c chunk, dash int) ([]string, bool) {
	own := r.lines[c.start-1 : c.end-1]
	switch {
	case x.gone:
		return indent(remarks(own, r.inner[c.start-1:c.end-1]), dash-1), true
	case x.same:
		return slices.Clone(own), true
	case x.fresh == nil && block(x.src) && x.src.Kind == schema.MappingNode && anyLeft(x):
		top, mark := x.src.Content[0].Line, dash
		if top > c.line {
			mark = 0 // the "-" stands on a line of its own
		}
		inside, ok := r.children(x, top, c.end, mark)
		if !ok {
			return nil, false
		}
		return append(slices.Clone(r.lines[c.start-1:top-1]), inside...), true
	}
	text, err := encode(&schema.Node{Kind: schema.SequenceNode, Tag: "!!seq", Content: []*schema.Node{bare(x.node())}})
	if err != nil {
		return nil, false
	}
	fresh := indent(strings.Split(text, "\n"), dash-1)
	notes := remarks(r.lines[c.line-1:c.end-1], r.inner[c.line-1:c.end-1])
	if len(notes) == 1 && len(fresh) == 1 {
		return append(slices.Clone(r.lines[c.start-1:c.line-1]), fresh[0]+" "+notes[0]), true
	}
	notes = indent(notes, dash-1)
	return slices.Concat(slices.Clone(r.lines[c.start-1:c.line-1]), notes, fresh), true
}

// dashLine is the line of the "-" of a list's item: that of its first word,
// or one above it with nothing but remarks between; 0 where there is none.
func (r *renderer) dashLine(item *schema.Node, dash int) int {
	line := item.Line
	if item.Kind == schema.MappingNode && len(item.Content) > 0 {
		line = item.Content[0].Line
	}
	for ; line >= 1 && line <= len(r.lines); line-- {
		l := r.lines[line-1]
		if len(l) >= dash && l[dash-1] == '-' && strings.TrimSpace(l[:dash-1]) == "" {
			return line
		}
		if line < item.Line && !idle(l) {
			return 0
		}
	}
	return 0
}

// undash blanks the "-" on a line of a field that is no longer the first of
// its item.
func undash(lines []string, at, dash int) []string {
	if at < len(lines) && len(lines[at]) >= dash && lines[at][dash-1] == '-' {
		lines[at] = lines[at][:dash-1] + " " + lines[at][dash:]
	}
	return lines
}

// redash puts the "-" of an item on its first line.
func redash(lines []string, dash int) []string {
	l := lines[0]
	if len(l) < dash+1 {
		l += strings.Repeat(" ", dash+1-len(l))
	}
	lines[0] = l[:dash-1] + "-" + l[dash:]
	return lines
}

func indent(lines []string, n int) []string {
	out := make([]string, len(lines))
	pad := strings.Repeat(" ", n)
	for i, l := range lines {
		if l != "" {
			l = pad + l
		}
		out[i] = l
	}
	return out
}

// remarks are the comments in some lines, each as a line of its own. inner
// tells which lines continue a scalar, where "#" is text.
func remarks(lines []string, inner []bool) []string {
	var out []string
	for i, l := range lines {
		if inner != nil && inner[i] {
			continue
		}
		if c := remark(l); c != "" {
			out = append(out, c)
		}
	}
	return out
}

// remark is the comment on a line, "" when it has none. A "#" in quotes, or
// with no blank before it, is text.
func remark(l string) string {
	quote := byte(0)
	fresh := true // a quote here would open a quoted scalar
	for i := 0; i < len(l); i++ {
		ch := l[i]
		switch {
		case quote == '"' && ch == '\\':
			i++
		case quote != 0:
			if ch == quote {
				if quote == '\'' && i+1 < len(l) && l[i+1] == '\'' {
					i++
				} else {
					quote = 0
				}
			}
		case ch == '#' && (i == 0 || l[i-1] == ' ' || l[i-1] == '\t'):
			return strings.TrimRight(l[i:], " \t")
		case (ch == '"' || ch == '\'') && fresh:
			quote = ch
		}
		if quote == 0 {
			switch ch {
			case ' ', '\t':
			case '[', '{', ',', ':', '-', '?':
				fresh = true
			default:
				fresh = false
			}
		}
	}
	return ""
}
