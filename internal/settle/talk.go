package settle

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"

	"quern/internal/merge"
	"quern/internal/transcript"
	"quern/schema"
)

// Talk is the recording's transcript, with a way to find what was quoted.
type Talk struct {
	*transcript.Narration
	Changed bool // the transcript is no longer the one the recipe was read from
	bare    []string
	first   map[string][]int // places of each word
}

// NewTalk prepares a narration for finding quotes.
func NewTalk(n *transcript.Narration) *Talk {
	t := &Talk{Narration: n, bare: make([]string, len(n.Words)), first: map[string][]int{}}
	for i, w := range n.Words {
		t.bare[i] = strip(w.Text)
		t.first[t.bare[i]] = append(t.first[t.bare[i]], i)
	}
	return t
}

// strip is a word without its capitals and the marks around it.
func strip(w string) string {
	return strings.ToLower(strings.TrimFunc(w, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) }))
}

// FindTalk reads the transcript a recipe came from, which is looked for
// beside the document only: by the name the document gives, then by its last
// part. No name leads out of that folder.
func FindTalk(document string, src *schema.Source) (*Talk, error) {
	if src == nil || src.File == "" || src.File == "-" {
		return nil, fmt.Errorf("%s does not name the transcript it came from", filepath.Base(document))
	}
	dir := filepath.Dir(document)
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	name := filepath.ToSlash(src.File)
	tries := []string{filepath.Clean(filepath.FromSlash(name)), filepath.Base(filepath.FromSlash(name))}
	var data []byte
	for _, try := range slices.Compact(tries) {
		if data, err = readIn(root, try); err == nil {
			break
		}
	}
	if err != nil {
		return nil, fmt.Errorf("the transcript %q is not beside %s: put it there to see more of the talk", filepath.Base(src.File), filepath.Base(document))
	}
	n, err := transcript.Parse(filepath.Base(src.File), data)
	if err != nil {
		return nil, err
	}
	t := NewTalk(n)
	sum := sha256.Sum256(data)
	t.Changed = src.SHA256 != "" && !strings.EqualFold(src.SHA256, hex.EncodeToString(sum[:]))
	return t, nil
}

func readIn(root *os.Root, name string) ([]byte, error) {
	info, err := root.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s: not a file", name)
	}
	f, err := root.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, merge.MaxBytes+1))
	if err == nil && len(data) > merge.MaxBytes {
		err = fmt.Errorf("%s: larger than %d MB", name, merge.MaxBytes>>20)
	}
	return data, err
}

// mostCompared bounds the words compared for one quote, for talks that repeat
// one word without end.
const mostCompared = 1_000_000

// Locate finds the words of a quote: Words[from:to]. Of several places with
// the same words the one nearest to the quote's moment is taken. ok is false
// where the words are not in the talk.
func (t *Talk) Locate(s schema.Said) (from, to int, ok bool) {
	var want []string
	for _, w := range strings.Fields(s.Quote) {
		if b := strip(w); b != "" {
			want = append(want, b)
		}
	}
	if len(want) == 0 {
		return 0, 0, false
	}
	at, timed := Moment(s.At)
	best := time.Duration(-1)
	left := mostCompared
	for _, i := range t.first[want[0]] {
		end, fits := t.runs(i, want)
		if left -= end - i + 1; left < 0 {
			break
		}
		if !fits {
			continue
		}
		away := time.Duration(0)
		if timed && t.Words[i].At >= 0 {
			away = (t.Words[i].At - at).Abs()
		}
		if best < 0 || away < best {
			best, from, to, ok = away, i, end, true
			if !timed {
				break
			}
		}
	}
	return from, to, ok
}

// runs reports where a run of words beginning at word i ends, or first
// differs; marks that stand alone as words are left out of account.
func (t *Talk) runs(i int, want []string) (end int, ok bool) {
	n := 0
	for ; i < len(t.bare) && n < len(want); i++ {
		if t.bare[i] == "" && n > 0 {
			continue
		}
		if t.bare[i] != want[n] {
			return i, false
		}
		n++
	}
	return i, n == len(want)
}

// Around is the talk around a quote: the words from the given time before it
// to the given time after it; in a transcript without times, as many words as
// are spoken in that time at 2.6 words a second.
func (t *Talk) Around(s schema.Said, by time.Duration) (string, bool) {
	from, to, ok := t.Locate(s)
	if !ok {
		at, timed := Moment(s.At)
		if !timed || !t.Timed {
			return "", false
		}
		from, _ = slices.BinarySearchFunc(t.Words, at, func(w transcript.Word, at time.Duration) int { return int(w.At - at) })
		to = min(from+1, len(t.Words))
	}
	if !t.Timed {
		n := int(by.Seconds() * 2.6)
		return t.text(max(0, from-n), min(len(t.Words), to+n)), true
	}
	lo, hi := from, to
	for lo > 0 && to > from && t.Words[lo-1].At >= t.Words[from].At-by {
		lo--
	}
	for hi < len(t.Words) && t.Words[hi].At <= t.Words[max(from, to-1)].At+by {
		hi++
	}
	return t.text(lo, hi), true
}

func (t *Talk) text(from, to int) string {
	words := make([]string, 0, to-from)
	for _, w := range t.Words[from:to] {
		words = append(words, w.Text)
	}
	return strings.Join(words, " ")
}
