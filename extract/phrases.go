package extract

import (
	"cmp"
	"math/bits"
	"slices"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// phraseIndex finds phrases in the talk without reading it through: it knows
// where each word was said, so that the cost of a search hangs on how often
// the phrase's rarest word was said and not on how long the stretch is.
type phraseIndex struct {
	word   []int32              // number of each token's word
	begins []uint16             // sign of each word, by number, see sign
	start  []uint16             // of each word, by number, see start
	said   signs                // of every word
	opened starts               // of every word
	texts  []string             // each word, by number
	places []int32              // numbers of words by their hash, -1 for none; a power of two
	at     [][]int32            // tokens at which a word was said, by number
	verbs  [][]lexicon.VerbForm // of each word, by number
	leads  []bool               // a verb of two words begins with it, by number
	dish   []uint8              // the word is the noun of a dish: 0 not looked up, 1 no, 2 yes
	class  []lexicon.Class      // of the word before a food, and one: 0 not looked up
}

// newPhraseIndex numbers the words of the talk's tokens.
func newPhraseIndex(norms func(i int) string, n int) *phraseIndex {
	x := &phraseIndex{word: make([]int32, n), texts: make([]string, 0, min(n, vocabulary)/3+8)}
	x.places = slices.Repeat([]int32{-1}, 1<<bits.Len(uint(min(n, vocabulary)+8)))
	counts := make([]int32, 0, min(n, vocabulary)/3+8)
	for i := range x.word {
		w := norms(i)
		h, _ := hash(w)
		p := x.place(h, w)
		k := x.places[p]
		if k < 0 {
			k = int32(len(counts))
			x.places[p] = k
			x.texts = append(x.texts, w)
			counts = append(counts, 0)
			x.begins, x.start = append(x.begins, sign(h)), append(x.start, start(w))
			x.said.add(x.begins[k])
			x.opened.add(x.start[k])
			if 2*len(counts) > len(x.places) {
				x.spread()
			}
		}
		x.word[i] = k
		counts[k]++
	}
	all := make([]int32, n)
	x.at = make([][]int32, len(counts))
	from := int32(0)
	for k, c := range counts {
		x.at[k] = all[from : from : from+c]
		from += c
	}
	for i, k := range x.word {
		x.at[k] = append(x.at[k], int32(i))
	}
	return x
}

// vocabulary is about as many words as there is room for at first: those of an
// hour's talk. Who talks for longer says the same words again.
const vocabulary = 10_000

// spread gives the words twice the room.
func (x *phraseIndex) spread() {
	x.places = slices.Repeat([]int32{-1}, 2*len(x.places))
	for k, w := range x.texts {
		h, _ := hash(w)
		x.places[x.place(h, w)] = int32(k)
	}
}

// place gives where the number of the word with this hash stands or would.
func (x *phraseIndex) place(h uint32, w string) int {
	mask := len(x.places) - 1
	for p := int(h>>7) & mask; ; p = (p + 1) & mask {
		if k := x.places[p]; k < 0 || x.texts[k] == w {
			return p
		}
	}
}

// hash mixes the letters of a phrase's first word and gives its length.
func hash(s string) (uint32, int) {
	h, i := uint32(0), 0
	for ; i < len(s) && s[i] != ' '; i++ {
		h = (h ^ uint32(s[i])) * 0x9E3779B1 // 2^32 over the golden ratio spreads neighbours
		h ^= h >> 15
	}
	return h, i
}

// sign tells words apart by their hash before anything is looked up: the first
// word of a phrase and a token that is that word have the same. It is less than
// 4096.
func sign(hash uint32) uint16 { return uint16(hash >> 4 & 4095) }

// signs is a set of signs.
type signs [64]uint64

func (s *signs) add(g uint16)      { s[g>>6] |= 1 << (g & 63) }
func (s *signs) has(g uint16) bool { return s[g>>6]&(1<<(g&63)) != 0 }

// start tells words apart by their first two letters, as sign does by all: it is
// less than 1024.
func start(s string) uint16 {
	switch len(s) {
	case 0:
		return 0
	case 1:
		return uint16(s[0]&31) << 5
	}
	return uint16(s[0]&31)<<5 | uint16(s[1]&31) // a space is none
}

// starts is a set of starts.
type starts [16]uint64

func (s *starts) add(g uint16)      { s[g>>6] |= 1 << (g & 63) }
func (s *starts) has(g uint16) bool { return s[g>>6]&(1<<(g&63)) != 0 }

// phrase adds the numbers of a phrase's words to ws; nil when one of them was
// never said. The hash and the length of the first word are known.
func (x *phraseIndex) phrase(p string, h uint32, n int, ws []int32) []int32 {
	for n > 0 {
		k := x.places[x.place(h, p[:n])]
		if k < 0 {
			return nil
		}
		ws = append(ws, k)
		if n == len(p) {
			return ws
		}
		p = p[n+1:]
		h, n = hash(p)
	}
	return nil
}

// nearby is the length of a stretch that is read through faster than the
// places of a word are looked up.
const nearby = 24

// find gives the first token of [a, b) at which the words stand, -1 for none.
func (x *phraseIndex) find(a, b int, ws []int32) int {
	last := b - len(ws) // the last token at which they can begin
	if len(ws) == 0 || a > last {
		return -1
	}
	if last-a <= nearby {
		for i := a; i <= last; i++ {
			if x.word[i] == ws[0] && x.stands(i, ws) {
				return i
			}
		}
		return -1
	}
	rare := 0
	for k := range ws {
		if len(x.at[ws[k]]) < len(x.at[ws[rare]]) {
			rare = k
		}
	}
	places := x.at[ws[rare]]
	lo, hi := 0, len(places)
	for lo < hi {
		if mid := (lo + hi) / 2; int(places[mid]) < a+rare {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	for _, p := range places[lo:] {
		i := int(p) - rare
		if i > last {
			return -1
		}
		if x.stands(i, ws) {
			return i
		}
	}
	return -1
}

func (x *phraseIndex) stands(i int, ws []int32) bool {
	for k, w := range ws {
		if x.word[i+k] != w {
			return false
		}
	}
	return true
}

// verbs gives the verbs that the word at token i is a form of.
func (t *talk) verbs(i int) []lexicon.VerbForm {
	if i < 0 || i >= len(t.toks) {
		return nil
	}
	x := t.index
	return x.verbs[x.word[i]]
}

// verbPhrase gives the verbs of two words that stand at token i.
func (t *talk) verbPhrase(i int) []lexicon.VerbForm {
	if i < 0 || i+1 >= len(t.toks) {
		return nil
	}
	if x := t.index; !x.leads[x.word[i]] {
		return nil
	}
	return t.lex.Phrases[t.toks[i].Norm+" "+t.toks[i+1].Norm]
}

// readWords cuts the talk into tokens and numbers its words, its own and the
// lexicon's.
func (t *talk) readWords() {
	t.toks = language.Tokens(t.n)
	x := newPhraseIndex(t.norm, len(t.toks))
	x.verbs, x.leads = make([][]lexicon.VerbForm, len(x.texts)), make([]bool, len(x.texts))
	x.dish, x.class = make([]uint8, len(x.texts)), make([]lexicon.Class, len(x.texts))
	of := make([]int32, len(x.texts))
	for k, w := range x.texts {
		r := t.lex.Read(w)
		of[k], x.verbs[k], x.leads[k] = r.ID, r.Verbs, r.Leads
	}
	t.index = x
	t.groupMarks, t.cueMarks = make([]marks, groupCount), make([]marks, cueListCount)
	t.placesOf = make([]*[]place, phraseListCount)
	t.ids = make([]int32, len(t.toks))
	for i, k := range x.word {
		t.ids[i] = of[k]
	}
}

// has reports whether any of the phrases (words separated by a space) stands
// in tokens [a, b), and where: the first phrase of the list that does.
func (t *talk) has(a, b int, phrases ...string) int {
	a, b = max(a, 0), min(b, len(t.toks))
	if a >= b {
		return -1
	}
	x := t.index
	here := &x.opened
	if b-a <= nearby+8*len(phrases) {
		here = new(starts)
		for _, k := range x.word[a:b] {
			here.add(x.start[k])
		}
	}
	var words [12]int32
	for _, p := range phrases {
		if !here.has(start(p)) {
			continue
		}
		h, n := hash(p)
		if !x.said.has(sign(h)) {
			continue
		}
		if ws := x.phrase(p, h, n, words[:0]); ws != nil {
			if i := x.find(a, b, ws); i >= 0 {
				return i
			}
		}
	}
	return -1
}

// spot is where an entry of a list of phrases was said.
type spot struct {
	sent, entry, tok, words int
}

// spots gives where the phrases of a list were said in tokens [a, b) and the
// rest of the last sentence: sentence by sentence, in each in the order of the
// list.
func (t *talk) spots(a, b int, list []string) []spot {
	x := t.index
	if b > a {
		b = t.sentence(min(b, len(t.toks)) - 1).Last
	}
	var out []spot
	var words [12]int32
	for e, p := range list {
		h, n := hash(p)
		if !x.said.has(sign(h)) {
			continue
		}
		ws := x.phrase(p, h, n, words[:0])
		for i := x.find(a, b, ws); i >= 0; i = x.find(i+1, b, ws) {
			out = append(out, spot{int(t.sentOf[i]), e, i, len(ws)})
		}
	}
	slices.SortFunc(out, func(p, q spot) int {
		return cmp.Or(cmp.Compare(p.sent, q.sent), cmp.Compare(p.entry, q.entry), cmp.Compare(p.tok, q.tok))
	})
	return out
}

// heads finds what begins with a word, by that word.
type heads[T any] struct {
	first signs
	by    map[string][]T
}

func (h *heads[T]) add(word string, v T) {
	if h.by == nil {
		h.by = make(map[string][]T)
	}
	x, _ := hash(word)
	h.first.add(sign(x))
	h.by[word] = append(h.by[word], v)
}

// at gives what begins with the word at token i, in the order it was added.
func (h *heads[T]) at(t *talk, i int) []T {
	if i < 0 || i >= len(t.toks) || !h.first.has(t.index.begins[t.index.word[i]]) {
		return nil
	}
	return h.by[t.toks[i].Norm]
}
