package archive

import (
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"math"
	"math/bits"

	"quern/internal/transcript"
)

// sketchSize is how many numbers a sketch holds.
const sketchSize = 64

// shingle is how many words in a row are looked at together.
const shingle = 4

// sketch stands for the words of a talk: of all runs of four words the least
// hash in each of sketchSize classes. The share of equal numbers in two
// sketches estimates how much of the talk is the same (min-wise hashing by one
// permutation; common practice). An empty sketch is like nothing.
type sketch []uint32

func (s sketch) MarshalText() ([]byte, error) {
	raw := make([]byte, 4*len(s))
	for i, v := range s {
		binary.LittleEndian.PutUint32(raw[4*i:], v)
	}
	return base64.RawStdEncoding.AppendEncode(nil, raw), nil
}

func (s *sketch) UnmarshalText(text []byte) error {
	raw, err := base64.RawStdEncoding.AppendDecode(nil, text)
	if err != nil || len(raw) != 0 && len(raw) != 4*sketchSize {
		return fmt.Errorf("%q is not a sketch of a talk", text)
	}
	*s = nil
	for i := 0; i < len(raw); i += 4 {
		*s = append(*s, binary.LittleEndian.Uint32(raw[i:]))
	}
	return nil
}

// sketchOf draws the sketch of a narration. A talk shorter than a run of words
// has none.
func sketchOf(n *transcript.Narration) sketch {
	var hashes [shingle]uint64
	s := newSketch()
	for i := range n.Words {
		copy(hashes[:], hashes[1:])
		hashes[shingle-1] = hashWord(n.Words[i].Text)
		if i < shingle-1 {
			continue
		}
		h := uint64(0)
		for _, w := range hashes {
			h = mix(h ^ w)
		}
		s.add(h)
	}
	return s.filled()
}

// sketchOfSet draws the sketch of a set of names.
func sketchOfSet(names []string) sketch {
	s := newSketch()
	for _, name := range names {
		s.add(mix(hashWord(name)))
	}
	return s.filled()
}

func newSketch() sketch {
	s := make(sketch, sketchSize)
	for i := range s {
		s[i] = math.MaxUint32
	}
	return s
}

func (s sketch) add(h uint64) {
	class := h % sketchSize
	s[class] = min(s[class], uint32(h>>32))
}

// filled gives every empty class the number of the next full one, so that
// small sets can be compared too; nil where all are empty.
func (s sketch) filled() sketch {
	last := -1
	for i := range s {
		if s[i] != math.MaxUint32 {
			last = i
		}
	}
	if last < 0 {
		return nil
	}
	v, distance := s[last], uint32(last)
	for i := len(s) - 1; i >= 0; i-- {
		if s[i] != math.MaxUint32 {
			v, distance = s[i], 0
			continue
		}
		distance++
		s[i] = v ^ bits.ReverseBytes32(distance)
	}
	return s
}

// alike estimates the share of two talks that is the same, 0 to 1.
func (s sketch) alike(o sketch) float64 {
	if len(s) == 0 || len(s) != len(o) {
		return 0
	}
	same := 0
	for i := range s {
		if s[i] == o[i] {
			same++
		}
	}
	return float64(same) / float64(len(s))
}

// hashWord hashes the letters and figures of a word in small letters (FNV-1a).
func hashWord(w string) uint64 {
	h := uint64(14695981039346656037)
	for i := 0; i < len(w); i++ {
		c := w[i]
		if 'A' <= c && c <= 'Z' {
			c += 'a' - 'A'
		}
		if c < 0x80 && (c < '0' || c > '9') && (c < 'a' || c > 'z') {
			continue
		}
		h = (h ^ uint64(c)) * 1099511628211
	}
	return h
}

// mix spreads the bits of a number (the finaliser of SplitMix64).
func mix(h uint64) uint64 {
	h += 0x9e3779b97f4a7c15
	h = (h ^ h>>30) * 0xbf58476d1ce4e5b9
	h = (h ^ h>>27) * 0x94d049bb133111eb
	return h ^ h>>31
}
