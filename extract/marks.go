package extract

import (
	"cmp"
	"maps"
	"math/bits"
	"slices"
	"strings"
	"sync"
)

// What most tokens are asked is worked out once for a talk: for a group of words or
// a list of cues the tokens at which one stands, for a list of phrases the places of
// those that were said. Each of them has a number, by which the talk keeps it.
var groupCount, cueListCount, phraseListCount int

// next gives the next number of a count.
func next(count *int) int {
	*count++
	return *count - 1
}

// marks are the tokens at which something stands, a bit each; nil where that isn't
// worked out yet.
type marks []uint64

func newMarks(n int) marks     { return make(marks, n>>6+1) }
func (m marks) set(i int)      { m[i>>6] |= 1 << (i & 63) }
func (m marks) has(i int) bool { return m[i>>6]&(1<<(i&63)) != 0 }

// next gives the first token of [a, b) that is marked, -1 for none.
func (m marks) next(a, b int) int {
	for k := a >> 6; k<<6 < b && k < len(m); k++ {
		here := m[k]
		if k == a>>6 {
			here &= ^uint64(0) << (a & 63)
		}
		if here != 0 {
			if i := k<<6 + bits.TrailingZeros64(here); i < b {
				return i
			}
			return -1
		}
	}
	return -1
}

// phrase is words to look for, with their hashes.
type phrase struct {
	words  []string
	hashes []uint32
}

// hashed are phrases that are cut and hashed when first a talk asks for them: many
// lists are of what few talks speak of.
type hashed struct {
	once sync.Once
	list []phrase
}

func (h *hashed) of(texts []string) []phrase {
	h.once.Do(func() {
		n := len(texts)
		for _, text := range texts {
			n += strings.Count(text, " ")
		}
		words, hashes := make([]string, 0, n), make([]uint32, 0, n)
		h.list = make([]phrase, len(texts))
		for k, text := range texts {
			from := len(words)
			for more := true; more; {
				var w string
				w, text, more = strings.Cut(text, " ")
				x, _ := hash(w)
				words, hashes = append(words, w), append(hashes, x)
			}
			h.list[k] = phrase{words[from:], hashes[from:]}
		}
	})
	return h.list
}

// numbers adds the numbers of a phrase's words to ws; nil when one of them was
// never said.
func (x *phraseIndex) numbers(p *phrase, ws []int32) []int32 {
	for _, h := range p.hashes {
		if !x.said.has(sign(h)) {
			return nil
		}
	}
	for k, w := range p.words {
		n := x.places[x.place(p.hashes[k], w)]
		if n < 0 {
			return nil
		}
		ws = append(ws, n)
	}
	return ws
}

// each calls found for every token at which the words stand.
func (x *phraseIndex) each(ws []int32, found func(i int)) {
	rare := 0
	for k := range ws {
		if len(x.at[ws[k]]) < len(x.at[ws[rare]]) {
			rare = k
		}
	}
	for _, p := range x.at[ws[rare]] {
		if i := int(p) - rare; i >= 0 && i+len(ws) <= len(x.word) && x.stands(i, ws) {
			found(i)
		}
	}
}

// group is a set of words in which most tokens are looked up.
type group struct {
	number int
	words  map[string]bool
	once   sync.Once
	hashes []wordHash
}

type wordHash struct {
	word string
	hash uint32
}

func groupOf(words map[string]bool) *group {
	return &group{number: next(&groupCount), words: words}
}

// eitherOf gives the group of the words that stand in any of the groups.
func eitherOf(groups ...*group) *group {
	all := map[string]bool{}
	for _, g := range groups {
		maps.Copy(all, g.words)
	}
	return groupOf(all)
}

// in reports whether the word at token i is in the group.
func (t *talk) in(g *group, i int) bool {
	if i < 0 || i >= len(t.toks) {
		return false
	}
	m := t.groupMarks[g.number]
	if m == nil {
		m = t.markGroup(g)
	}
	return m.has(i)
}

func (t *talk) markGroup(g *group) marks {
	x := t.index
	m := newMarks(len(t.toks))
	g.once.Do(func() {
		g.hashes = make([]wordHash, 0, len(g.words))
		for w := range g.words {
			h, _ := hash(w)
			g.hashes = append(g.hashes, wordHash{w, h})
		}
	})
	for _, w := range g.hashes {
		if !x.said.has(sign(w.hash)) {
			continue
		}
		if n := x.places[x.place(w.hash, w.word)]; n >= 0 {
			for _, i := range x.at[n] {
				m.set(int(i))
			}
		}
	}
	t.groupMarks[g.number] = m
	return m
}

// phraseList is phrases of which any is looked for, in many stretches of a talk.
type phraseList struct {
	number  int
	texts   []string
	phrases hashed
}

func listed(texts ...string) *phraseList {
	return &phraseList{number: next(&phraseListCount), texts: texts}
}

// place is where an entry of a list of phrases was said, and of how many words it is.
type place struct {
	tok, entry, words int32
}

// places gives the places of all that was said of a list of phrases, in the order of
// the talk.
func (t *talk) places(l *phraseList) []place {
	if p := t.placesOf[l.number]; p != nil {
		return *p
	}
	var out []place
	var words [12]int32
	phrases := l.phrases.of(l.texts)
	for e := range phrases {
		if ws := t.index.numbers(&phrases[e], words[:0]); ws != nil {
			t.index.each(ws, func(i int) { out = append(out, place{int32(i), int32(e), int32(len(ws))}) })
		}
	}
	slices.SortFunc(out, func(p, q place) int {
		return cmp.Or(cmp.Compare(p.tok, q.tok), cmp.Compare(p.entry, q.entry))
	})
	t.placesOf[l.number] = &out
	return out
}

// placesIn gives those of the places of a list that begin in tokens [a, b).
func (t *talk) placesIn(a, b int, l *phraseList) []place {
	all := t.places(l)
	if len(all) == 0 {
		return nil
	}
	byTok := func(p place, i int) int { return cmp.Compare(int(p.tok), i) }
	from, _ := slices.BinarySearchFunc(all, a, byTok)
	to, _ := slices.BinarySearchFunc(all[from:], b, byTok)
	return all[from : from+to]
}

// fewPlaces is how many places are looked through for the first of the list. Where
// there are more, as in talk of nothing else, its entries are looked for one by one.
const fewPlaces = 64

// hasAny does what has does, for a list that is looked for again and again.
func (t *talk) hasAny(a, b int, l *phraseList) int {
	here := t.placesIn(a, b, l)
	if len(here) > fewPlaces {
		return t.has(a, b, l.texts...)
	}
	at, best := -1, int32(len(l.texts))
	for _, p := range here {
		if p.entry < best && int(p.tok+p.words) <= b {
			at, best = int(p.tok), p.entry
		}
	}
	return at
}

// earliest gives where the first of the phrases stands in tokens [a, b).
func (t *talk) earliest(a, b int, l *phraseList) int {
	for _, p := range t.placesIn(a, b, l) {
		if int(p.tok+p.words) <= b {
			return int(p.tok)
		}
	}
	return -1
}
