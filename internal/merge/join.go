package merge

import (
	"strings"

	"quern/schema"
)

// branch is a node of the merged document and where it stems from in hers.
type branch struct {
	src     *schema.Node // her node, nil for something new
	fresh   *schema.Node // the program's node, where it is taken as it is
	same    bool         // src as it stands, nothing in it changed
	gone    bool         // src was dropped by the program; only its comments stay
	entries []entry      // of a mapping that is worked into
	list    []*branch    // of a list that is worked into
}

type entry struct {
	key    *schema.Node
	keySrc *schema.Node // her key node, nil for a new field
	value  *branch
}

// place is where in the form a value stands.
type place struct {
	path  string // "ingredients[butter].amount"
	key   string // the nearest field name: "amount"
	list  string // the list of the form it is in: "ingredients"
	about string // the item in words: "butter"
	said  *schema.Node
}

func (p place) in(key string, theirs *schema.Node) place {
	q := p
	q.key = key
	if p.path == "" {
		q.path, q.about = key, key
		q.said = field(theirs, key+"_said")
	} else {
		q.path = p.path + "." + key
	}
	return q
}

// derived reports whether a value follows from the document or from the
// recording alone, so that the next reading of the document writes it anew
// and a difference in it is nobody's edit to settle.
func (p place) derived() bool {
	switch p.list {
	case "allergens", "cautions", "chapters", "flags":
		return true
	}
	return strings.HasPrefix(p.path, "macros.computed") || p.key == "grams" || p.key == "said" ||
		p.key == "yield_said" || strings.Contains(p.path, "said[")
}

// joiner works one recipe's three versions together.
type joiner struct {
	title   string
	ids     map[string]string // ingredient ids of the program's text, as the merged document calls them
	clashes []Clash
}

func asIs(src *schema.Node) *branch { return &branch{src: src, same: true} }

// mapping merges two mappings field by field. All of hers is in the result.
func (j *joiner) mapping(base, mine, theirs *schema.Node, p place) *branch {
	out := &branch{src: mine}
	have := map[string]bool{}
	for i := 0; i+1 < len(mine.Content); i += 2 {
		k, v := mine.Content[i], mine.Content[i+1]
		have[k.Value] = true
		b, t := field(base, k.Value), field(theirs, k.Value)
		q := p.in(k.Value, theirs)
		out.entries = append(out.entries, entry{k, k, j.entryValue(b, v, t, hasKey(theirs, k.Value), q)})
	}
	if theirs == nil {
		return settle(out)
	}
	// New fields go after the field they follow in the program's text.
	prev := ""
	for i := 0; i+1 < len(theirs.Content); i += 2 {
		k, v := theirs.Content[i], theirs.Content[i+1]
		if have[k.Value] {
			prev = k.Value
			continue
		}
		b := field(base, k.Value)
		switch {
		case blank(v) && base != nil:
			continue
		case !blank(b):
			if !equal(b, v, k.Value) {
				j.clash(nil, v, p.in(k.Value, theirs))
			}
			continue // she took it out
		}
		if blank(v) && hasKey(base, k.Value) {
			continue
		}
		out.insert(prev, entry{k, nil, &branch{fresh: j.rename(v, k.Value)}})
		prev = k.Value
	}
	return settle(out)
}

// insert puts a new field after the named one, or first.
func (b *branch) insert(after string, e entry) {
	at := 0
	for i, x := range b.entries {
		if x.key.Value == after {
			at = i + 1
		}
	}
	if after == "" && len(b.entries) > 0 && b.entries[0].keySrc != nil {
		// Before the first field would be above the remarks at the head of the file.
		at = 1
	}
	b.entries = append(b.entries, entry{})
	copy(b.entries[at+1:], b.entries[at:])
	b.entries[at] = e
}

// settle marks a branch in which nothing changed.
func settle(b *branch) *branch {
	for _, e := range b.entries {
		if e.keySrc == nil || !e.value.same {
			return b
		}
	}
	for _, x := range b.list {
		if !x.same {
			return b
		}
	}
	b.same = true
	return b
}

func hasKey(n *schema.Node, key string) bool { return field(n, key) != nil }

// entryValue merges the value of a field she has.
func (j *joiner) entryValue(b, m, t *schema.Node, keyed bool, p place) *branch {
	mine := resolve(m)
	switch {
	case equal(mine, t, p.key):
		// Worth walking all the same only where nothing could change: it stays.
		return asIs(m)
	case blank(mine):
		if !blank(b) {
			if !equal(b, t, p.key) && !blank(t) {
				j.clash(mine, t, p)
			}
			return asIs(m) // she emptied it
		}
		return j.taken(m, t, p)
	case blank(t) && mine.Kind == schema.SequenceNode && m.Kind != schema.AliasNode && !quantityField(p.key):
		out := j.sequence(b, mine, &schema.Node{Kind: schema.SequenceNode, Tag: "!!seq"}, p)
		if !out.same && !anyLeft(out) && !required(p.key) {
			return &branch{src: m, gone: true}
		}
		return out
	case blank(t):
		if blank(b) || !equal(b, mine, p.key) {
			return asIs(m)
		}
		if t == nil && !keyed {
			return &branch{src: m, gone: true}
		}
		if t.Kind == schema.SequenceNode || t.Kind == schema.MappingNode {
			return &branch{src: m, gone: true}
		}
		return j.taken(m, t, p)
	case equal(b, t, p.key):
		return asIs(m)
	}
	list := mine.Kind == schema.SequenceNode && t.Kind == schema.SequenceNode
	fields := mine.Kind == schema.MappingNode && t.Kind == schema.MappingNode
	if m.Kind != schema.AliasNode && !quantityField(p.key) {
		if fields {
			return j.mapping(b, mine, t, p)
		}
		if list {
			return j.sequence(b, mine, t, p)
		}
	}
	if equal(b, mine, p.key) {
		return j.taken(m, t, p)
	}
	j.clash(mine, t, p)
	return asIs(m)
}

// required reports whether the form asks for a list even when it is empty.
func required(list string) bool { return list == "ingredients" || list == "steps" }

// taken is the program's value in the place of hers.
func (j *joiner) taken(m, t *schema.Node, p place) *branch {
	if p.list == "ingredients" && p.key == "id" && strings.Count(p.path, ".") == 1 {
		return asIs(m) // an ingredient she has keeps its id
	}
	return &branch{src: m, fresh: j.rename(t, p.key)}
}

// rename gives a copy of a program's node in which ingredient ids are those of
// the merged document.
func (j *joiner) rename(n *schema.Node, key string) *schema.Node {
	n = resolve(n)
	c := *n
	c.Anchor = ""
	if c.Kind == schema.ScalarNode && (key == "id" || key == "uses") {
		if to, ok := j.ids[c.Value]; ok && to != c.Value {
			c.Value = to
		}
	}
	c.Content = make([]*schema.Node, len(n.Content))
	for i, x := range n.Content {
		k := key
		if n.Kind == schema.MappingNode {
			if i%2 == 0 {
				c.Content[i] = x
				continue
			}
			k = n.Content[i-1].Value
		}
		c.Content[i] = j.rename(x, k)
	}
	return &c
}

// sequence merges two lists item by item.
func (j *joiner) sequence(base, mine, theirs *schema.Node, p place) *branch {
	out := &branch{src: mine}
	var b []*schema.Node
	if base != nil && base.Kind == schema.SequenceNode {
		b = followed(base.Content)
	}
	m, t := followed(mine.Content), followed(theirs.Content)
	if p.key == "uses" {
		for i := range t {
			t[i] = j.rename(t[i], "uses")
		}
		for i := range b {
			b[i] = j.rename(b[i], "uses")
		}
	}
	list := p.key
	ways := passesFor(list)
	merged := arrange(trios(b, m, t, ways, ways), len(b), len(m), len(t))
	byNode := 0
	ordered := true
	for _, x := range merged {
		if x.m >= 0 {
			ordered = ordered && x.m == byNode
			byNode++
		}
		if br := j.item(b, m, t, mine.Content, x, list, p); br != nil {
			out.list = append(out.list, br)
		}
	}
	if !ordered {
		return out
	}
	return settle(out)
}

func followed(list []*schema.Node) []*schema.Node {
	out := make([]*schema.Node, len(list))
	for i, c := range list {
		out[i] = resolve(c)
	}
	return out
}

// item merges one item of a list; nil where the result has none.
func (j *joiner) item(b, m, t, own []*schema.Node, x trio, list string, p place) *branch {
	var bn, mn, tn *schema.Node
	if x.b >= 0 {
		bn = b[x.b]
	}
	if x.t >= 0 {
		tn = t[x.t]
	}
	if x.m < 0 {
		if x.b >= 0 || tn == nil {
			return nil // she took it out
		}
		return &branch{fresh: j.rename(tn, list)}
	}
	mn = m[x.m]
	src := own[x.m]
	q := place{list: list, key: list, said: field(tn, "said")}
	q.about = oneLine(first(valueOf(mn, "name"), first(valueOf(mn, "text"), first(valueOf(mn, "claim"), first(valueOf(mn, "place"), p.about)))))
	q.path = p.path + "[" + first(valueOf(mn, "id"), brief(first(valueOf(mn, "name"), valueOf(mn, "text")))) + "]"
	switch {
	case tn == nil && bn == nil:
		return asIs(src) // she added it
	case tn == nil:
		keep := !equal(bn, mn, list)
		if !keep && commented(src) && !q.derived() && mn.Kind == schema.MappingNode {
			keep = true
		}
		if keep {
			if !equal(bn, mn, list) && !q.derived() && mn.Kind == schema.MappingNode {
				q.said = field(mn, "said")
				j.clash(mn, nil, q)
			}
			return asIs(src)
		}
		return &branch{src: src, gone: true}
	case src.Kind != schema.AliasNode && mn.Kind == schema.MappingNode && tn.Kind == schema.MappingNode:
		return j.mapping(bn, mn, tn, q)
	case equal(mn, tn, list) || equal(bn, tn, list):
		return asIs(src)
	case equal(bn, mn, list):
		return j.taken(src, tn, q)
	}
	j.clash(mn, tn, q)
	return asIs(src)
}

func first(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// clash notes a fact that both changed, unless it is one that is worked out.
func (j *joiner) clash(mine, theirs *schema.Node, p place) {
	if p.derived() {
		return
	}
	c := Clash{Title: j.title, Field: p.path, About: p.about, Mine: show(mine, p.key), Kind: kindOf(p)}
	if c.Kind == schema.HeardUnsure && p.list != "" && !naming(p) {
		// The flag is about one side of the thing, not about what it is called.
		c.About += ", " + strings.ReplaceAll(p.key, "_", " ")
	}
	if theirs != nil {
		c.Theirs = show(theirs, p.key)
	}
	if p.said != nil && p.said.Kind == schema.SequenceNode {
		for _, s := range p.said.Content {
			c.Said = append(c.Said, schema.Said{At: valueOf(resolve(s), "at"), Quote: valueOf(resolve(s), "quote")})
		}
	}
	j.clashes = append(j.clashes, c)
}

// naming reports whether a place holds what an item is called, or the item
// itself.
func naming(p place) bool {
	return p.key == p.list || p.key == "name" || p.key == "text" || p.key == "claim"
}

// kindOf is the flag kind that fits a field both changed. What is neither an
// amount nor another figure is a matter of which words were heard.
func kindOf(p place) string {
	switch p.key {
	case "amount", "second_amount", "size":
		return schema.ConflictAmount
	case "yield":
		return schema.ConflictYield
	case "temperature", "heat":
		return schema.ConflictTemperature
	case "time", "keeps":
		return schema.ConflictTime
	case "ways":
		return schema.ConflictWay
	case "claims", "claim":
		return schema.ConflictClaim
	}
	if strings.HasPrefix(p.path, "macros.spoken") {
		return schema.ConflictMacros
	}
	return schema.HeardUnsure
}

// rescue keeps an ingredient the program dropped where a step she keeps still
// uses it.
func (j *joiner) rescue(root *branch) {
	used := map[string]bool{}
	for _, step := range root.items("steps") {
		if step.gone || step.src == nil {
			continue
		}
		for _, u := range items(step.node(), "uses") {
			used[u.Value] = true
		}
	}
	for _, x := range root.items("ingredients") {
		if x.gone && used[valueOf(x.src, "id")] {
			x.gone, x.same = false, true
		}
	}
}

// tidyUses drops, from what the program brings in, uses of ingredients the
// merged document does not have because she took them out.
func (j *joiner) tidyUses(root *branch) {
	have := map[string]bool{}
	for _, x := range root.items("ingredients") {
		if !x.gone {
			have[valueOf(x.node(), "id")] = true
		}
	}
	for _, step := range root.items("steps") {
		if step.fresh != nil {
			dropUses(field(step.fresh, "uses"), have)
			continue
		}
		for i := range step.entries {
			e := &step.entries[i]
			if e.key.Value != "uses" || e.value.same || e.value.gone {
				continue
			}
			dropUses(e.value.fresh, have)
			kept := e.value.list[:0]
			for _, x := range e.value.list {
				if x.fresh == nil || have[x.fresh.Value] {
					kept = append(kept, x)
				}
			}
			e.value.list = kept
		}
	}
}

func dropUses(uses *schema.Node, have map[string]bool) {
	if uses == nil || uses.Kind != schema.SequenceNode {
		return
	}
	kept := uses.Content[:0]
	for _, x := range uses.Content {
		if have[x.Value] {
			kept = append(kept, x)
		}
	}
	uses.Content = kept
}

// items are the branches of a list field of a mapping, also where the whole
// list is hers or the program's.
func (b *branch) items(key string) []*branch {
	for _, e := range b.entries {
		if e.key.Value != key || e.value.gone {
			continue
		}
		if len(e.value.list) > 0 {
			return e.value.list
		}
		n := e.value.node()
		if n == nil || n.Kind != schema.SequenceNode {
			return nil
		}
		var out []*branch
		for _, c := range n.Content {
			if e.value.fresh != nil {
				out = append(out, &branch{fresh: c})
			} else {
				out = append(out, asIs(c))
			}
		}
		return out
	}
	return nil
}

// node is the merged value.
func (b *branch) node() *schema.Node {
	switch {
	case b.fresh != nil:
		return b.fresh
	case b.same || b.gone:
		return resolve(b.src)
	}
	n := *resolve(b.src)
	n.Content = nil
	n.HeadComment, n.LineComment, n.FootComment = b.src.HeadComment, b.src.LineComment, b.src.FootComment
	for _, e := range b.entries {
		if !e.value.gone {
			n.Content = append(n.Content, e.key, e.value.node())
		}
	}
	for _, x := range b.list {
		if !x.gone {
			n.Content = append(n.Content, x.node())
		}
	}
	return &n
}

// raise adds the clashes to the document's flags. A clash asked about before
// is brought up to date; one settled with the same two readings is left.
func (j *joiner) raise(root *branch) {
	if len(j.clashes) == 0 {
		return
	}
	var flags []*branch
	for _, c := range j.clashes {
		f := c.Flag()
		n := flagNode(f)
		done := false
		for _, old := range append(append([]*branch{}, root.items("flags")...), flags...) {
			o := old.node()
			if old.gone || valueOf(o, "kind") != f.Kind || valueOf(o, "subject") != f.Subject {
				continue
			}
			if equal(field(o, "evidence"), field(n, "evidence"), "evidence") {
				done = true
			}
		}
		if !done {
			flags = append(flags, &branch{fresh: n})
		}
	}
	if len(flags) > 0 {
		root.append("flags", flags)
		root.same = false
	}
}

// append adds new items to a list field, making the field where it is missing.
func (b *branch) append(key string, add []*branch) {
	whole := &schema.Node{Kind: schema.SequenceNode, Tag: "!!seq"}
	for i := range b.entries {
		e := &b.entries[i]
		if e.key.Value != key {
			continue
		}
		v := e.value
		switch {
		case len(v.list) > 0:
			v.list, v.same = append(v.list, add...), false
			return
		case v.gone:
			v.gone = false
			for _, x := range add {
				whole.Content = append(whole.Content, x.fresh)
			}
			v.fresh = whole
			return
		case v.fresh != nil && v.fresh.Kind == schema.SequenceNode:
			c := *v.fresh
			c.Style = 0
			for _, x := range add {
				c.Content = append(c.Content, x.fresh)
			}
			v.fresh = &c
			return
		}
		src := resolve(v.src)
		if src.Kind == schema.SequenceNode && len(src.Content) > 0 {
			nv := &branch{src: src}
			for _, c := range src.Content {
				nv.list = append(nv.list, asIs(c))
			}
			nv.list = append(nv.list, add...)
			e.value = nv
			return
		}
		for _, x := range add {
			whole.Content = append(whole.Content, x.fresh)
		}
		e.value = &branch{src: v.src, fresh: whole}
		return
	}
	for _, x := range add {
		whole.Content = append(whole.Content, x.fresh)
	}
	k := &schema.Node{Kind: schema.ScalarNode, Tag: "!!str", Value: key}
	b.entries = append(b.entries, entry{k, nil, &branch{fresh: whole}})
}

func flagNode(f schema.Flag) *schema.Node {
	text := func(s string) *schema.Node {
		n := &schema.Node{}
		n.SetString(s)
		return n
	}
	n := &schema.Node{Kind: schema.MappingNode, Tag: "!!map"}
	put := func(k string, v *schema.Node) { n.Content = append(n.Content, text(k), v) }
	put("kind", text(f.Kind))
	put("subject", text(f.Subject))
	put("ask", text(f.Ask))
	ev := &schema.Node{Kind: schema.SequenceNode, Tag: "!!seq"}
	for _, e := range f.Evidence {
		ev.Content = append(ev.Content, text(e))
	}
	put("evidence", ev)
	if len(f.Said) > 0 {
		said := &schema.Node{Kind: schema.SequenceNode, Tag: "!!seq"}
		for _, s := range f.Said {
			at := &schema.Node{Kind: schema.ScalarNode, Tag: "!!null", Value: "null"}
			if s.At != "" {
				at = text(s.At)
				at.Style = schema.DoubleQuotedStyle
			}
			quote := text(s.Quote)
			quote.Style = schema.DoubleQuotedStyle
			said.Content = append(said.Content, &schema.Node{Kind: schema.MappingNode, Tag: "!!map", Style: schema.FlowStyle,
				Content: []*schema.Node{text("at"), at, text("quote"), quote}})
		}
		put("said", said)
	}
	return n
}
