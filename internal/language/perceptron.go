package language

import (
	"bytes"
	"encoding/binary"
	"encoding/gob"
	"errors"
	"fmt"
	"math"
	"math/bits"
	"strconv"
	"strings"
)

// perceptron scores the tags of a word by the features of it and its neighbours:
// each feature has weights for some of the tags, and the tag with the greatest sum
// is it; of two alike the one that the model names first, where prose takes either by
// chance. prose keeps the weights in maps of maps, which take 38 MB and most of the
// time it takes to start; here they stand in three lists, found by the feature's
// hash. Of 75,000 features no two have the same hash of 64 bits.
type perceptron struct {
	sure    map[string]string // words that always have one tag
	tags    []string
	slots   []weighed // by the feature's hash; a power of two
	tag     []uint8   // of each weight
	weights []int32   // in thousandths, to which they are rounded, so that equal sums are equal
}

// weighed is a feature with its weights [from, from+n), none where its slot is free.
type weighed struct {
	hash uint64
	from uint32
	n    uint32
}

// A feature's hash begins with that of its name and goes on with those of its
// words, each after a space (FNV-1a).
const (
	hashBasis uint64 = 14695981039346656037
	hashPrime uint64 = 1099511628211
)

func hashOn(h uint64, s string) uint64 {
	for i := 0; i < len(s); i++ {
		h = (h ^ uint64(s[i])) * hashPrime
	}
	return h
}

// features are the names by which the model keeps weights.
var features = func() (out [13]uint64) {
	for k, name := range [...]string{"i suffix", "i pref1", "i-1 tag", "i-2 tag", "i tag+i-2 tag", "i word", "i-1 tag+i word", "i-1 word", "i-1 suffix", "i-2 word", "i+1 word", "i+1 suffix", "i+2 word"} {
		out[k] = hashOn(hashBasis, name+" ")
	}
	return out
}()

// slot gives where the feature stands or would stand.
func (p *perceptron) slot(h uint64) *weighed {
	mask := uint64(len(p.slots) - 1)
	for k := h & mask; ; k = (k + 1) & mask {
		if s := &p.slots[k]; s.n == 0 || s.hash == h {
			return s
		}
	}
}

// newPerceptron reads the model's files: the tags of sure words, and the weights.
func newPerceptron(sure, weights []byte) (*perceptron, error) {
	p := &perceptron{}
	if err := gob.NewDecoder(bytes.NewReader(sure)).Decode(&p.sure); err != nil {
		return nil, err
	}
	r := gobReader{data: weights}
	if !r.value() {
		return nil, errors.New("no weights")
	}
	count := r.uint()
	if r.bad || count > uint64(len(weights)) {
		return nil, errors.New("the weights are cut short")
	}
	p.slots = make([]weighed, 1<<bits.Len64(count+count/2))
	p.weights = make([]int32, 0, len(weights)/14) // a tag, its length and a number
	p.tag = make([]uint8, 0, len(weights)/14)
	numbers := map[string]uint8{}
	for range count {
		h := hashOn(hashBasis, string(r.text()))
		s, n := p.slot(h), r.uint()
		if r.bad || s.n != 0 {
			return nil, fmt.Errorf("the weights can't be read at %d", len(weights)-len(r.data))
		}
		*s = weighed{h, uint32(len(p.weights)), uint32(n)} // free as before where it has no weights
		for range n {
			tag := r.text()
			k, ok := numbers[string(tag)]
			if !ok {
				k = uint8(len(p.tags))
				numbers[string(tag)] = k
				p.tags = append(p.tags, string(tag))
			}
			p.tag = append(p.tag, k)
			p.weights = append(p.weights, int32(math.Round(1000*r.float())))
		}
	}
	if r.bad || len(p.tags) > mostTags {
		return nil, errors.New("the weights can't be read")
	}
	return p, nil
}

// mostTags is how many tags there may be; the Penn Treebank's are 45.
const mostTags = 64

// gobReader reads a map of maps of numbers from Go's own format, as its
// documentation describes it, without making the maps.
type gobReader struct {
	data []byte
	bad  bool
}

// value goes to the first value, past the types that are told before it.
func (r *gobReader) value() bool {
	for len(r.data) > 0 && !r.bad {
		n := r.uint()
		if n > uint64(len(r.data)) {
			return false
		}
		message := gobReader{data: r.data[:n]}
		if id := message.uint(); id&1 == 0 { // a value's type; those of types are negative
			r.data = message.data
			return r.uint() == 0 && !r.bad // no struct
		}
		r.data = r.data[n:]
	}
	return false
}

func (r *gobReader) uint() uint64 {
	if len(r.data) == 0 {
		r.bad = true
		return 0
	}
	first := r.data[0]
	r.data = r.data[1:]
	if first < 0x80 {
		return uint64(first)
	}
	n := -int(int8(first)) // bytes that follow
	if n > 8 || n > len(r.data) {
		r.bad = true
		return 0
	}
	var all [8]byte
	copy(all[8-n:], r.data[:n])
	r.data = r.data[n:]
	return binary.BigEndian.Uint64(all[:])
}

func (r *gobReader) float() float64 { return math.Float64frombits(bits.ReverseBytes64(r.uint())) }

func (r *gobReader) text() []byte {
	n := r.uint()
	if n > uint64(len(r.data)) {
		r.bad = true
		return nil
	}
	text := r.data[:n]
	r.data = r.data[n:]
	return text
}

// tagAll gives the tag of each word in a row.
func (p *perceptron) tagAll(words []string) []string {
	row := make([]string, 0, len(words)+4)
	row = append(row, "-START-", "-START2-")
	for _, w := range words {
		row = append(row, plainer(w))
	}
	row = append(row, "-END-", "-END2-")
	out := make([]string, len(words))
	before, before2 := row[0], row[1]
	for i, w := range words {
		tag, ok := fixedTag(w)
		if !ok {
			if tag, ok = p.sure[w]; !ok {
				tag = p.score(w, row[i:i+5], before, before2)
			}
		}
		out[i] = tag
		before2, before = before, tag
	}
	return out
}

// score gives the likeliest tag of a word: around are the two words before it,
// itself and the two after it; before and before2 are the tags of those before.
func (p *perceptron) score(w string, around []string, before, before2 string) string {
	var sums [mostTags]int32
	var told [mostTags]bool
	add := func(h uint64) {
		s := p.slot(h)
		for k := s.from; k < s.from+s.n; k++ {
			sums[p.tag[k]] += p.weights[k]
			told[p.tag[k]] = true
		}
	}
	add(hashOn(hashBasis, "bias"))
	for k, words := range [...]string{ending(w), string(rune(w[0])), before, before2, before + " " + before2, around[2], before + " " + around[2],
		around[1], ending(around[1]), around[0], around[3], ending(around[3]), around[4]} {
		add(hashOn(features[k], words))
	}
	best := -1
	for k := range p.tags {
		if told[k] && (best < 0 || sums[k] > sums[best]) {
			best = k
		}
	}
	if best < 0 {
		return ""
	}
	return p.tags[best]
}

// ending gives the last three bytes of a word.
func ending(w string) string { return w[max(0, len(w)-3):] }

// plainer gives the form in which the model knows a word's neighbours.
func plainer(w string) string {
	_, err := strconv.Atoi(w)
	switch {
	case strings.Contains(w, "-") && w[0] != '-':
		return "!HYPHEN"
	case err == nil && len(w) == 4:
		return "!YEAR"
	case w[0] >= '0' && w[0] <= '9':
		return "!DIGITS"
	}
	return strings.ToLower(w)
}

// fixedTag gives the tag of a number that the model isn't asked about: a nought
// is nothing, and one with decimals a name.
func fixedTag(w string) (string, bool) {
	if w == "0" {
		return "-NONE-", true
	}
	if point := strings.IndexByte(w, '.'); point > 0 && len(w)-point > 2 {
		return "NN", true
	}
	return "", false
}

// known reports whether the word is of those that tagAll reads: no mark stands in
// it that makes it an address, a face or a sign, but for the point of a number.
func known(w string) bool {
	for i := 0; i < len(w); i++ {
		c := w[i]
		switch {
		case c|0x20 >= 'a' && c|0x20 <= 'z', c >= '0' && c <= '9', c == '\'', c == '%', c == '$', c == '&', c == ',', c == '/', c >= 0x80:
		case c == '.' && isDecimal(w):
		default:
			return false
		}
	}
	return w == strings.ToLower(w) // "xD" is a face
}

// isDecimal reports whether the word is digits, a point and digits.
func isDecimal(w string) bool {
	whole, rest, _ := strings.Cut(w, ".")
	return allDigits(whole) && allDigits(rest)
}

func allDigits(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}
