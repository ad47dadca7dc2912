package merge

import (
	"sort"
	"strconv"
	"strings"

	"quern/schema"
)

// pass is one way of telling that two items are the same thing. Passes are
// tried in order, the surest first; an item with an empty key takes no part.
type pass[T any] struct {
	key    func(T) string
	single bool // only where the key names one open item on either side
}

// match pairs items of two lists: for each of a the index in b, or -1. Equal
// keys are paired in order of appearance.
func match[T any](a, b []T, passes []pass[T]) []int {
	to := make([]int, len(a))
	for i := range to {
		to[i] = -1
	}
	taken := make([]bool, len(b))
	for _, p := range passes {
		open := map[string][]int{}
		for j, x := range b {
			if k := p.key(x); !taken[j] && k != "" {
				open[k] = append(open[k], j)
			}
		}
		claim := map[string][]int{}
		var keys []string
		for i, x := range a {
			if k := p.key(x); to[i] < 0 && k != "" && len(open[k]) > 0 {
				if claim[k] == nil {
					keys = append(keys, k)
				}
				claim[k] = append(claim[k], i)
			}
		}
		for _, k := range keys {
			if p.single && (len(open[k]) > 1 || len(claim[k]) > 1) {
				continue
			}
			for n, i := range claim[k] {
				if n < len(open[k]) {
					to[i] = open[k][n]
					taken[open[k][n]] = true
				}
			}
		}
	}
	return to
}

// trio is one thing in the three lists, by index; -1 where a list lacks it.
type trio struct{ b, m, t int }

// trios matches three lists: hers and the program's each with the base, and
// what is left of the two with one another.
func trios[T any](b, m, t []T, toBase, toEach []pass[T]) []trio {
	mb, tb := match(m, b, toBase), match(t, b, toBase)
	ofBase := make([]trio, len(b))
	for i := range ofBase {
		ofBase[i] = trio{i, -1, -1}
	}
	var restM, restT []int
	for i, j := range mb {
		if j >= 0 {
			ofBase[j].m = i
		} else {
			restM = append(restM, i)
		}
	}
	for i, j := range tb {
		if j >= 0 {
			ofBase[j].t = i
		} else {
			restT = append(restT, i)
		}
	}
	pick := func(list []T, idx []int) []T {
		out := make([]T, len(idx))
		for i, j := range idx {
			out[i] = list[j]
		}
		return out
	}
	out := ofBase
	pairs := match(pick(m, restM), pick(t, restT), toEach)
	met := make([]bool, len(restT))
	for i, j := range pairs {
		x := trio{-1, restM[i], -1}
		if j >= 0 {
			x.t = restT[j]
			met[j] = true
		}
		out = append(out, x)
	}
	for j, ok := range met {
		if !ok {
			out = append(out, trio{-1, -1, restT[j]})
		}
	}
	return out
}

// arrange puts trios in their merged order. Her order rules where she moved
// anything; else the program's does, with her additions after the item they
// followed. Items only the other side has go after their predecessor there.
func arrange(list []trio, nb, nm, nt int) []trio {
	byM, byT := make([]int, nm), make([]int, nt)
	for i, x := range list {
		if x.m >= 0 {
			byM[x.m] = i
		}
		if x.t >= 0 {
			byT[x.t] = i
		}
	}
	moved := false
	last := -1
	for _, i := range byM {
		if b := list[i].b; b >= 0 {
			moved = moved || b < last
			last = max(last, b)
		}
	}
	lead, follow := byT, byM
	if moved || nb == 0 {
		lead, follow = byM, byT
	}
	order := weave(lead, follow, len(list))
	out := make([]trio, 0, len(order))
	for _, i := range order {
		out = append(out, list[i])
	}
	return out
}

// weave returns lead with every item that only follow has put in after the
// one it follows there.
func weave(lead, follow []int, n int) []int {
	in := make([]bool, n)
	for _, i := range lead {
		in[i] = true
	}
	after := make([][]int, n+1) // after[n]: before everything
	prev := n
	for _, i := range follow {
		if in[i] {
			prev = i
			continue
		}
		after[prev] = append(after[prev], i)
	}
	out := append([]int{}, after[n]...)
	for _, i := range lead {
		out = append(out, i)
		out = append(out, after[i]...)
	}
	return out
}

// keysOf joins the values of fields into one key, "" when the first is empty.
func keysOf(fields ...string) func(*schema.Node) string {
	return func(n *schema.Node) string {
		if fold(valueOf(n, fields[0])) == "" {
			return ""
		}
		parts := make([]string, len(fields))
		for i, f := range fields {
			parts[i] = fold(valueOf(n, f))
		}
		return strings.Join(parts, "\x00")
	}
}

// moment is the first thing said of an item: its time and its words.
func moment(n *schema.Node) string {
	said := field(n, "said")
	if said == nil || said.Kind != schema.SequenceNode || len(said.Content) == 0 {
		return ""
	}
	first := resolve(said.Content[0])
	return fold(valueOf(first, "quote")) + "\x00" + valueOf(first, "at")
}

// quoted is every word said of an item, without the times: it still holds
// when a transcript was shifted.
func quoted(n *schema.Node) string {
	said := field(n, "said")
	if said == nil || said.Kind != schema.SequenceNode {
		return ""
	}
	var all []string
	for _, c := range said.Content {
		all = append(all, fold(valueOf(resolve(c), "quote")))
	}
	return strings.Join(all, "\x00")
}

func actions(n *schema.Node) string {
	var all []string
	if list := field(n, "actions"); list != nil {
		for _, c := range list.Content {
			all = append(all, fold(resolve(c).Value))
		}
	}
	sort.Strings(all)
	return strings.Join(all, " ")
}

func both(f, g func(*schema.Node) string) func(*schema.Node) string {
	return func(n *schema.Node) string {
		a, b := f(n), g(n)
		if a == "" || b == "" {
			return ""
		}
		return a + "\x00" + b
	}
}

func whole(n *schema.Node) string { return canonical(n, "") }

// passesFor gives the ways of telling items of a list apart, surest first.
func passesFor(list string) []pass[*schema.Node] {
	type p = pass[*schema.Node]
	id, name := keysOf("id"), keysOf("name")
	switch list {
	case "ingredients":
		return []p{
			{key: keysOf("id", "name", "part")},
			{key: keysOf("name", "part"), single: true},
			{key: id},
			{key: name, single: true},
			{key: moment, single: true},
			{key: quoted, single: true},
		}
	case "steps":
		text := keysOf("text")
		return []p{
			{key: both(text, moment)},
			{key: both(moment, actions)},
			{key: text},
			{key: both(quoted, actions)},
			{key: moment, single: true},
			{key: quoted, single: true},
		}
	case "flags":
		return []p{
			{key: both(keysOf("kind", "subject"), quoted)},
			{key: keysOf("kind", "subject")},
			{key: both(keysOf("kind"), moment), single: true},
		}
	case "claims":
		return []p{{key: keysOf("claim")}}
	case "storage":
		return []p{
			{key: both(keysOf("place", "what"), quoted)},
			{key: both(keysOf("place"), quoted)},
			{key: keysOf("place", "what", "keeps")},
			{key: keysOf("place", "what")},
			{key: keysOf("place"), single: true},
		}
	case "cautions":
		return []p{{key: keysOf("kind", "text")}, {key: keysOf("kind")}}
	case "chapters":
		return []p{{key: keysOf("at", "title")}, {key: keysOf("title")}, {key: keysOf("at")}}
	case "said":
		return []p{{key: whole}, {key: keysOf("quote")}, {key: keysOf("at")}}
	case "parts", "ways", "equipment", "allergens", "substitutes":
		return []p{{key: name}, {key: quoted, single: true}}
	}
	return []p{{key: whole}}
}

// idNames tells what each ingredient id of the program's text is called in
// the merged document: an ingredient she has keeps her id, a new one gets an
// id that is still free.
func idNames(base, mine, theirs *schema.Node) map[string]string {
	names := map[string]string{}
	b, m, t := items(base, "ingredients"), items(mine, "ingredients"), items(theirs, "ingredients")
	taken := map[string]bool{}
	for _, n := range m {
		taken[valueOf(n, "id")] = true
	}
	list := trios(b, m, t, passesFor("ingredients"), passesFor("ingredients"))
	var fresh []string
	for _, x := range list {
		if x.t < 0 {
			continue
		}
		id := valueOf(t[x.t], "id")
		if id == "" {
			continue
		}
		if x.m >= 0 {
			if own := valueOf(m[x.m], "id"); own != "" {
				names[id] = own
			}
			continue
		}
		if x.b < 0 {
			fresh = append(fresh, id)
		}
	}
	for _, id := range fresh {
		free := id
		for n := 2; taken[free]; n++ {
			free = id + "-" + strconv.Itoa(n)
		}
		taken[free] = true
		names[id] = free
	}
	return names
}
