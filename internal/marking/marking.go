// Package marking guesses where commas and full stops go in talk that was written down
// without any, as recognisers do. It learned from punctuated talk of cooks, see Learn: for
// every gap between two words it adds up the weights of what stands around the gap, the
// words and their kinds, and how far the sentence has come. Sums are whole numbers, so that
// a guess is the same on every machine.
package marking

import (
	_ "embed"
	"encoding/binary"
	"hash/fnv"
	"slices"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// Mark is what is written after a word.
type Mark uint8

// The marks that are guessed. A question mark counts as a full stop.
const (
	None Mark = iota
	Comma
	Stop
	Certain // a full stop of which there is hardly a doubt; nobody writes it
)

// marks is how many are written.
const marks = 3

//go:embed weights.bin
var learned []byte

// Guess gives the mark after each token, None after the last. ids are the lexicon's numbers
// of the tokens. A mark that was written stays what it is.
func Guess(lex *lexicon.Lexicon, toks []language.Token, ids []int32) []Mark {
	return guess(lex, toks, ids, learned)
}

func guess(lex *lexicon.Lexicon, toks []language.Token, ids []int32, weights []byte) []Mark {
	t := read(lex, toks, ids)
	w := table(weights)
	out := make([]Mark, len(toks))
	keys := make([]uint64, 0, mostKeys)
	h := begun
	for i := 0; i+1 < len(toks); i++ {
		if m := Written(toks[i].After); m != None {
			out[i] = m
		} else {
			keys = t.keys(keys[:0], i, &h)
			out[i] = choose(w.sums(keys))
		}
		if toks[i+1].Silent || toks[i+1].Pause {
			h.pass(t, i, Stop)
			continue
		}
		h.pass(t, i, out[i])
	}
	return out
}

// Written tells which of the marks somebody wrote.
func Written(p language.Punct) Mark {
	switch {
	case p.Ends() || p&language.Colon != 0:
		return Stop
	case p&(language.Comma|language.Dash) != 0:
		return Comma
	}
	return None
}

// scale is how many steps of a weight make one unit of log odds.
const scale = 32

// sure is the log odds, in steps, at which some mark is taken to stand in a gap. Measured
// on talk that was held back, more marks are then right than at even odds.
const sure = -4

// certain is the log odds, in steps, of a full stop against all else at which it is
// Certain: a probability of 0.8.
const certain = 44

// choose gives the mark of a gap from the log odds of a comma and of a full stop against
// none, in steps.
func choose(comma, stop int) Mark {
	switch {
	case either(comma, stop) < sure:
		return None
	case stop-either(comma, 0) > certain:
		return Certain
	case stop >= comma:
		return Stop
	}
	return Comma
}

// either gives the log odds of one or the other.
func either(a, b int) int {
	if a < b {
		a, b = b, a
	}
	if d := (a - b) / 8; d < len(moreByBoth) {
		return a + moreByBoth[d]
	}
	return a
}

// moreByBoth is scale·ln(1+exp(-d/4)), rounded, for d of 0, 1, 2 …
var moreByBoth = [...]int{22, 18, 15, 12, 10, 8, 6, 5, 4, 3, 3, 2, 2, 1, 1, 1, 1}

// weights are a hash table of four bytes a slot, as it stands in the file: sixteen bits of
// the key, the weight of a comma and that of a full stop; a slot without key is free.
type weights struct {
	slots []byte
	mask  uint64
}

func table(data []byte) weights {
	return weights{data, uint64(len(data)/4 - 1)}
}

// tagOf is what of a key stands in its slot.
func tagOf(key uint64) uint16 { return uint16(key>>48) | 1 }

// sums adds up the weights of the keys.
func (w weights) sums(keys []uint64) (comma, stop int) {
	for _, key := range keys {
		tag := tagOf(key)
		for k := key & w.mask; ; k = (k + 1) & w.mask {
			s := binary.LittleEndian.Uint32(w.slots[k*4:])
			if s == 0 {
				break
			}
			if uint16(s) == tag {
				comma += int(int8(s >> 16))
				stop += int(int8(s >> 24))
				break
			}
		}
	}
	return comma, stop
}

// history is what came before a gap.
type history struct {
	first      int  // token with which the sentence began
	mark       int  // token behind the last mark
	comma      bool // that mark was a comma
	verb, pron bool // the sentence has had a verb, a pronoun
}

var begun = history{}

// pass goes on past token i, behind which the mark stands.
func (h *history) pass(t *reader, i int, m Mark) {
	switch m {
	case Stop, Certain:
		*h = history{first: i + 1, mark: i + 1}
		return
	case Comma:
		h.mark, h.comma = i+1, true
	}
}

// pad is how many places stand before the first token and behind the last.
const pad = 5

// reader holds the words of a talk as the keys are made of them, pad places shifted.
type reader struct {
	word []uint64 // hash
	kind []kind
}

func read(lex *lexicon.Lexicon, toks []language.Token, ids []int32) *reader {
	n := len(toks) + 2*pad
	t := &reader{make([]uint64, n), make([]kind, n)}
	hashes := map[string]uint64{}
	for i := range toks {
		w := toks[i].Norm
		h, ok := hashes[w]
		if !ok {
			h = hashOf(w)
			hashes[w] = h
		}
		t.word[i+pad] = h
	}
	kinds(lex, toks, ids, t.kind[pad:pad+len(toks)])
	return t
}

// hashOf gives the same number for a word on every machine.
func hashOf(s string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(s)) // a hash never fails to be written to
	return h.Sum64()
}

// join puts x to a key.
func join(key, x uint64) uint64 {
	key = (key ^ x) * 0x9E3779B97F4A7C15
	return key ^ key>>29
}

// mostKeys is how many keys a gap has at most.
const mostKeys = 64

// keys adds what tells of the gap behind token i.
func (t *reader) keys(out []uint64, i int, h *history) []uint64 {
	n := uint64(0)
	key := func(xs ...uint64) {
		n++
		k := n * 0xD6E8FEB86659FD93
		for _, x := range xs {
			k = join(k, x)
		}
		out = append(out, k)
	}
	w := t.word[i : i+2*pad+1] // w[pad] is token i
	var c [2*pad + 1]uint64
	for k := range c {
		c[k] = uint64(t.kind[i+k])
	}
	const a, b = pad, pad + 1 // the words before and behind the gap
	key(w[a])
	key(c[a])
	key(w[b])
	key(c[b])
	key(w[a], w[b])
	key(w[a-1], w[a])
	key(w[b], w[b+1])
	key(w[a-1], w[b])
	key(w[a], w[b+1])
	key(c[a], c[b])
	key(c[a-1], c[a])
	key(c[b], c[b+1])
	key(w[a], c[b])
	key(c[a], w[b])
	key(w[b], c[b+1])
	key(c[a-1], w[a])
	key(w[a-1], c[a])
	key(c[b], w[b+1])
	key(w[b], w[b+1], w[b+2])
	key(w[a], w[b], w[b+1])
	key(c[a], w[b], w[b+1])
	key(c[a-1], c[a], w[b])
	key(c[a-1], c[a], c[b])
	key(c[a], c[b], c[b+1])
	key(c[b], c[b+1], c[b+2])
	key(c[a-1], c[a], c[b], c[b+1])
	key(c[a], c[b], c[b+1], c[b+2])
	key(c[a-2], c[a-1], c[a], c[b])
	long, since := lengths(i-h.first), lengths(i-h.mark)
	key(long)
	key(since)
	key(long, w[b])
	key(long, c[b])
	key(long, c[a], c[b])
	key(since, c[a], c[b])
	key(since, w[b])
	f := h.first + pad
	key(t.word[f])
	key(t.word[f], w[b])
	key(t.word[f], c[b])
	key(uint64(t.kind[f]), c[b], long)
	key(t.word[f], t.word[f+1], c[b])
	k := t.kind[i+pad]
	h.verb = h.verb || k.predicate()
	h.pron = h.pron || k == pronoun
	had := bit(h.verb)
	key(had, c[b])
	key(had, bit(h.pron), c[b])
	key(had, w[b])
	key(had, since, c[b])
	next := uint64(0)
	for k := b; k < b+6 && i+k < len(t.kind); k++ {
		if t.kind[i+k].predicate() {
			next = uint64(k - a)
			break
		}
	}
	key(next, c[b])
	key(next, had, c[b])
	if h.comma {
		key(since)
	}
	return out
}

func bit(b bool) uint64 {
	if b {
		return 1
	}
	return 0
}

// lengths puts lengths that tell the same together.
func lengths(n int) uint64 {
	at, ok := slices.BinarySearch(lengthSteps, n)
	if !ok {
		at--
	}
	return uint64(at)
}

var lengthSteps = []int{0, 1, 2, 3, 4, 5, 6, 9, 13, 20, 30}
