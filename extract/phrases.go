package extract

import "strings"

// phraseIndex finds phrases in the talk without reading it through: it knows
// where each word was said, so that the cost of a search hangs on how often
// the phrase's rarest word was said and not on how long the stretch is.
type phraseIndex struct {
	numbers map[string]int32   // of each word said
	word    []int32            // number of each token's word
	begins  []uint8            // sign of each token's word, see sign
	said    signs              // of every word
	at      [][]int32          // tokens at which a word was said, by number
	known   map[string][]int32 // phrases asked for before; nil for one with a word nobody said
}

// newPhraseIndex numbers the words of the talk's tokens.
func newPhraseIndex(norms func(i int) string, n int) *phraseIndex {
	x := &phraseIndex{numbers: make(map[string]int32), word: make([]int32, n), begins: make([]uint8, n), known: make(map[string][]int32)}
	var counts []int
	for i := range x.word {
		w := norms(i)
		k, ok := x.numbers[w]
		if !ok {
			k = int32(len(counts))
			x.numbers[w] = k
			counts = append(counts, 0)
		}
		x.word[i] = k
		x.begins[i] = sign(w)
		x.said.add(x.begins[i])
		counts[k]++
	}
	all := make([]int32, n)
	x.at = make([][]int32, len(counts))
	from := 0
	for k, c := range counts {
		x.at[k] = all[from : from : from+c]
		from += c
	}
	for i, k := range x.word {
		x.at[k] = append(x.at[k], int32(i))
	}
	return x
}

// sign tells words apart by how they begin, before anything is looked up: the
// first word of a phrase and a token that is that word have the same.
func sign(s string) uint8 {
	h := uint8(0)
	for i := 0; i < len(s) && i < 3 && s[i] != ' '; i++ {
		h = h*37 + s[i]
	}
	return h
}

// signs is a set of signs.
type signs [4]uint64

func (s *signs) add(sign uint8)      { s[sign>>6] |= 1 << (sign & 63) }
func (s *signs) has(sign uint8) bool { return s[sign>>6]&(1<<(sign&63)) != 0 }

// phrase gives the numbers of a phrase's words; false when one of them was
// never said.
func (x *phraseIndex) phrase(p string) ([]int32, bool) {
	ws, ok := x.known[p]
	if ok {
		return ws, ws != nil
	}
	for w := range strings.FieldsSeq(p) {
		k, said := x.numbers[w]
		if !said {
			ws = nil
			break
		}
		if ws == nil {
			ws = make([]int32, 0, strings.Count(p, " ")+1)
		}
		ws = append(ws, k)
	}
	x.known[p] = ws
	return ws, ws != nil
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
			if x.stands(i, ws) {
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

// has reports whether any of the phrases (words separated by spaces) stands
// in tokens [a, b), and where: the first phrase of the list that does.
func (t *talk) has(a, b int, phrases ...string) int {
	a, b = max(a, 0), min(b, len(t.toks))
	if a >= b {
		return -1
	}
	if t.index == nil {
		t.index = newPhraseIndex(t.norm, len(t.toks))
	}
	here := &t.index.said
	if b-a <= nearby {
		here = new(signs)
		for _, s := range t.index.begins[a:b] {
			here.add(s)
		}
	}
	for _, p := range phrases {
		if p != "" && p[0] != ' ' && !here.has(sign(p)) {
			continue
		}
		if ws, ok := t.index.phrase(p); ok {
			if i := t.index.find(a, b, ws); i >= 0 {
				return i
			}
		}
	}
	return -1
}
