package marking

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// Talk is punctuated talk to learn from or to be measured on.
type Talk struct {
	Name  string
	toks  []language.Token // without marks
	ids   []int32
	marks []Mark // as written
}

// NewTalk takes the marks off punctuated talk.
func NewTalk(lex *lexicon.Lexicon, name string, toks []language.Token) *Talk {
	t := &Talk{name, slices.Clone(toks), lex.IDs(toks), make([]Mark, len(toks))}
	for i := range t.toks {
		t.marks[i] = Written(t.toks[i].After)
		t.toks[i].After, t.toks[i].Cap = 0, false
	}
	return t
}

// Learning is done in a few rounds, with steps that grow smaller for a key the more it was
// moved (AdaGrad; Duchi, Hazan and Singer 2011), of a multinomial logistic regression.
const (
	rounds   = 6
	firstly  = 0.02 // step
	shrink   = 1e-3 // of a weight with each step
	rowsBits = 23   // keys are put together in so many rows while they are learned
	seldom   = 3    // what stands at fewer gaps is not kept
	slight   = 2    // a weight of fewer steps is not kept
)

type row [marks]float32

// Learn gives the weights learned from talks, of at most size slots, a power of two. The
// same talks give the same weights.
func Learn(lex *lexicon.Lexicon, talks []*Talk, size int) []byte {
	w, moved := make([]row, 1<<rowsBits), make([]row, 1<<rowsBits)
	keys := make([]uint64, 0, mostKeys)
	for range rounds {
		for _, t := range spread(talks) {
			keys = t.learn(lex, keys, w, moved)
		}
	}
	return pack(w, counted(lex, talks), size)
}

// spread puts talks that stand side by side, which are of one writer, apart.
func spread(talks []*Talk) []*Talk {
	out := slices.Clone(talks)
	slices.SortFunc(out, func(a, b *Talk) int {
		return cmp.Or(cmp.Compare(hashOf(a.Name), hashOf(b.Name)), cmp.Compare(a.Name, b.Name))
	})
	return out
}

func slot(key uint64) uint64 { return (key ^ key>>31) & (1<<rowsBits - 1) }

func (t *Talk) learn(lex *lexicon.Lexicon, keys []uint64, w, moved []row) []uint64 {
	t.each(lex, keys, func(keys []uint64, m Mark) {
		p := chances(w, keys)
		for k := range p {
			wrong := float32(p[k])
			if int(m) == k {
				wrong--
			}
			if wrong < 1e-3 && wrong > -1e-3 {
				continue
			}
			for _, key := range keys {
				s := slot(key)
				step := wrong + shrink*w[s][k]
				moved[s][k] += step * step
				w[s][k] -= firstly * step / (float32(math.Sqrt(float64(moved[s][k]))) + 1e-2)
			}
		}
	})
	return keys
}

// each calls do for every gap with what tells of it and the mark that stands there.
func (t *Talk) each(lex *lexicon.Lexicon, keys []uint64, do func(keys []uint64, m Mark)) {
	r := read(lex, t.toks, t.ids)
	h := begun
	for i := 0; i+1 < len(t.toks); i++ {
		keys = r.keys(keys[:0], i, &h)
		do(keys, t.marks[i])
		h.pass(r, i, t.marks[i])
	}
}

// chances gives the probability of each mark.
func chances(w []row, keys []uint64) [marks]float64 {
	var p [marks]float64
	for _, key := range keys {
		for k, x := range w[slot(key)] {
			p[k] += float64(x)
		}
	}
	most, all := slices.Max(p[:]), 0.0
	for k := range p {
		p[k] = math.Exp(p[k] - most)
		all += p[k]
	}
	for k := range p {
		p[k] /= all
	}
	return p
}

// counted tells at how many gaps each key stands.
func counted(lex *lexicon.Lexicon, talks []*Talk) map[uint64]int {
	n := map[uint64]int{}
	keys := make([]uint64, 0, mostKeys)
	for _, t := range talks {
		t.each(lex, keys, func(keys []uint64, _ Mark) {
			for _, key := range keys {
				n[key]++
			}
		})
	}
	return n
}

// pack writes the weights that tell most into a table of size slots.
func pack(w []row, count map[uint64]int, size int) []byte {
	type kept struct {
		key         uint64
		comma, stop int8
		worth       float64
	}
	step := func(x float32) int8 {
		return int8(max(-127, min(127, math.Round(scale*float64(x)))))
	}
	size4 := size * 4
	var all []kept
	for key, n := range count {
		x := w[slot(key)]
		k := kept{key: key, comma: step(x[Comma] - x[None]), stop: step(x[Stop] - x[None])}
		k.worth = math.Hypot(float64(k.comma), float64(k.stop)) * math.Sqrt(float64(n))
		if n >= seldom && (max(k.comma, -k.comma) >= slight || max(k.stop, -k.stop) >= slight) {
			all = append(all, k)
		}
	}
	slices.SortFunc(all, func(a, b kept) int {
		return cmp.Or(cmp.Compare(b.worth, a.worth), cmp.Compare(a.key, b.key))
	})
	all = all[:min(len(all), size*7/10)]
	out := make([]byte, size4)
	for _, k := range all {
		for s := k.key & uint64(size-1); ; s = (s + 1) & uint64(size-1) {
			if binary.LittleEndian.Uint32(out[s*4:]) != 0 {
				continue
			}
			binary.LittleEndian.PutUint32(out[s*4:], uint32(tagOf(k.key))|uint32(uint8(k.comma))<<16|uint32(uint8(k.stop))<<24)
			break
		}
	}
	return out
}

// Score tells how well marks are guessed.
type Score struct{ Found, Wrong, Missed int }

// F1 is the harmonic mean of precision and recall.
func (s Score) F1() float64 {
	return 2 * float64(s.Found) / float64(2*s.Found+s.Wrong+s.Missed)
}

func (s *Score) add(guessed, written bool) {
	switch {
	case guessed && written:
		s.Found++
	case guessed:
		s.Wrong++
	case written:
		s.Missed++
	}
}

// Measure guesses the marks of talks by weights and compares them with those written: how
// well gaps with any mark are found, and how well full stops are.
func Measure(lex *lexicon.Lexicon, talks []*Talk, weights []byte) (any, stops Score) {
	for _, t := range talks {
		for i, m := range guess(lex, t.toks, t.ids, weights) {
			if i+1 == len(t.toks) {
				break
			}
			any.add(m != None, t.marks[i] != None)
			stops.add(m >= Stop, t.marks[i] == Stop)
		}
	}
	return any, stops
}
