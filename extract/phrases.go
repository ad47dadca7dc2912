package extract

import "strings"

// phraseIndex finds phrases in the talk without reading it through: it knows
// where each word was said, so that the cost of a search hangs on how often
// the phrase's rarest word was said and not on how long the stretch is.
type phraseIndex struct {
	numbers map[string]int32   // of each word said
	word    []int32            // number of each token's word
	begins  []uint16           // sign of each token's word, see sign
	said    [signs / 64]uint64 // a bit for the sign of every word
	at      [][]int32          // tokens at which a word was said, by number
	known   map[string][]int32 // phrases asked for before; nil for one with a word nobody said
}

// newPhraseIndex numbers the words of the talk's tokens.
func newPhraseIndex(norms func(i int) string, n int) *phraseIndex {
	x := &phraseIndex{numbers: make(map[string]int32), word: make([]int32, n), begins: make([]uint16, n), known: make(map[string][]int32)}
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
		g := sign(w)
		x.begins[i] = g
		x.said[g>>6] |= 1 << (g & 63)
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

// signs is how many signs there are.
const signs = 4096

// sign tells words apart before anything is looked up: the first word of a
// phrase and a token that is that word have the same.
func sign(s string) uint16 {
	h := uint32(0)
	for i := 0; i < len(s) && s[i] != ' '; i++ {
		h = h*0x9E3779B1 + uint32(s[i]) // 2^32 over the golden ratio spreads neighbours
	}
	return uint16(h>>20) & (signs - 1)
}

// few is a set of the signs of a short stretch; it holds a little more than was
// put in.
type few [4]uint64

func (f *few) add(g uint16)      { f[g>>6&3] |= 1 << (g & 63) }
func (f *few) has(g uint16) bool { return f[g>>6&3]&(1<<(g&63)) != 0 }

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
	x := t.index
	var here few
	short := b-a <= nearby
	if short {
		for _, g := range x.begins[a:b] {
			here.add(g)
		}
	}
	for _, p := range phrases {
		if g := sign(p); short && !here.has(g) || x.said[g>>6]&(1<<(g&63)) == 0 {
			continue
		}
		if ws, ok := x.phrase(p); ok {
			if i := x.find(a, b, ws); i >= 0 {
				return i
			}
		}
	}
	return -1
}
