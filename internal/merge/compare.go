package merge

import (
	"sort"
	"strconv"
	"strings"

	"quern/schema"
)

// resolve follows an alias to what it stands for.
func resolve(n *schema.Node) *schema.Node {
	for i := 0; n != nil && n.Kind == schema.AliasNode && i < 20; i++ {
		n = n.Alias
	}
	return n
}

// field is the value of a key in a mapping, nil when it is not there.
func field(n *schema.Node, key string) *schema.Node {
	n = resolve(n)
	if n == nil || n.Kind != schema.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return resolve(n.Content[i+1])
		}
	}
	return nil
}

// valueOf is a field's scalar value, "" for anything else.
func valueOf(n *schema.Node, key string) string {
	v := field(n, key)
	if v == nil || v.Kind != schema.ScalarNode || v.Tag == "!!null" {
		return ""
	}
	return v.Value
}

// items are the entries of a list field, aliases followed.
func items(n *schema.Node, key string) []*schema.Node {
	list := field(n, key)
	if list == nil || list.Kind != schema.SequenceNode {
		return nil
	}
	out := make([]*schema.Node, len(list.Content))
	for i, c := range list.Content {
		out[i] = resolve(c)
	}
	return out
}

func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// blank reports whether a value says nothing: absent, null, "", false, or an
// empty list or mapping. The form leaves such fields out, so they are equal.
func blank(n *schema.Node) bool {
	n = resolve(n)
	if n == nil {
		return true
	}
	switch n.Kind {
	case schema.ScalarNode:
		return n.Tag == "!!null" || n.Value == "" || n.Tag == "!!bool" && strings.EqualFold(n.Value, "false")
	case schema.SequenceNode:
		return len(n.Content) == 0
	case schema.MappingNode:
		for i := 1; i < len(n.Content); i += 2 {
			if !blank(n.Content[i]) {
				return false
			}
		}
		return true
	}
	return n.Kind == 0
}

// quantityField reports whether a key holds a quantity, or a list of them.
func quantityField(key string) bool {
	switch key {
	case "yield", "amount", "second_amount", "size", "keeps", "temperature", "time", "sizes":
		return true
	}
	return false
}

func equal(a, b *schema.Node, key string) bool {
	if a == b {
		return true
	}
	if a != nil && b != nil && a.Kind == schema.ScalarNode && b.Kind == schema.ScalarNode && a.Value == b.Value && a.Tag == b.Tag {
		return true
	}
	return canonical(a, key) == canonical(b, key)
}

// canonical spells a value so that two spellings of the same value are the
// same text. The key says whether it is a quantity, which has two spellings.
func canonical(n *schema.Node, key string) string {
	var b strings.Builder
	spell(&b, n, key, 0)
	return b.String()
}

func spell(b *strings.Builder, n *schema.Node, key string, depth int) {
	n = resolve(n)
	if depth > 100 || blank(n) {
		b.WriteString("~")
		return
	}
	switch n.Kind {
	case schema.ScalarNode:
		b.WriteString(spellScalar(n, key))
	case schema.SequenceNode:
		b.WriteByte('[')
		for _, c := range n.Content {
			spell(b, c, key, depth+1)
			b.WriteByte(',')
		}
		b.WriteByte(']')
	case schema.MappingNode:
		if quantityField(key) {
			var q schema.Quantity
			if n.Decode(&q) == nil {
				b.WriteString("q:" + q.String())
				return
			}
		}
		keys, values := sortedFields(n)
		b.WriteByte('{')
		for i, k := range keys {
			b.WriteString(strconv.Quote(k) + ":")
			spell(b, values[i], k, depth+1)
			b.WriteByte(',')
		}
		b.WriteByte('}')
	}
}

func spellScalar(n *schema.Node, key string) string {
	if quantityField(key) {
		parse := schema.ParseQuantity
		if key == "yield" {
			parse = schema.ParseYield
		}
		if q, err := parse(n.Value); err == nil {
			return "q:" + q.String()
		}
		return "q?:" + strings.TrimSpace(n.Value)
	}
	switch n.Tag {
	case "!!int", "!!float":
		if v, err := strconv.ParseFloat(strings.ReplaceAll(n.Value, "_", ""), 64); err == nil {
			return strconv.FormatFloat(v, 'g', -1, 64)
		}
	case "!!bool":
		return strings.ToLower(n.Value)
	}
	return strconv.Quote(n.Value)
}

// sortedFields are the fields of a mapping that say something, by key.
func sortedFields(n *schema.Node) ([]string, []*schema.Node) {
	var keys []string
	byKey := map[string]*schema.Node{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k := n.Content[i].Value
		if !blank(n.Content[i+1]) {
			keys = append(keys, k)
			byKey[k] = n.Content[i+1]
		}
	}
	sort.Strings(keys)
	values := make([]*schema.Node, len(keys))
	for i, k := range keys {
		values[i] = byKey[k]
	}
	return keys, values
}

// commented reports whether a comment hangs on a node or anything in it.
func commented(n *schema.Node) bool {
	if n == nil {
		return false
	}
	if n.HeadComment != "" || n.LineComment != "" || n.FootComment != "" {
		return true
	}
	for _, c := range n.Content {
		if commented(c) {
			return true
		}
	}
	return false
}

// show writes a value as a person reads it.
func show(n *schema.Node, key string) string {
	n = resolve(n)
	if n == nil || blank(n) {
		return "nothing"
	}
	switch n.Kind {
	case schema.ScalarNode:
		return oneLine(n.Value)
	case schema.SequenceNode:
		var parts []string
		for _, c := range n.Content {
			parts = append(parts, show(c, key))
		}
		return strings.Join(parts, ", ")
	}
	if quantityField(key) {
		var q schema.Quantity
		if n.Decode(&q) == nil {
			return q.String()
		}
	}
	for _, k := range []string{"name", "text", "claim", "subject", "quote"} {
		if v := valueOf(n, k); v != "" {
			return v
		}
	}
	var parts []string
	for i := 0; i+1 < len(n.Content); i += 2 {
		if !blank(n.Content[i+1]) {
			parts = append(parts, n.Content[i].Value+" "+show(n.Content[i+1], n.Content[i].Value))
		}
	}
	return strings.Join(parts, ", ")
}
