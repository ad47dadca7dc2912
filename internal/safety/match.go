package safety

import (
	"slices"
	"strings"
	"unicode/utf8"

	"quern/internal/language"
)

// fold reduces words to what the tables compare: lower-case stems of letters
// and digits, without accents, apostrophes or plural endings.
func fold(text string) []string {
	var room [256]byte
	rest := string(appendFolded(room[:0], text))
	words := make([]string, 0, strings.Count(rest, " "))
	for more := rest != ""; more; more = rest != "" {
		var w string
		w, rest, _ = strings.Cut(rest, " ")
		words = append(words, w)
	}
	return words
}

// appendFolded appends the folded words of a text, each with a space behind it.
func appendFolded(out []byte, text string) []byte {
	for i := 0; i < len(text); i++ {
		if text[i] >= utf8.RuneSelf {
			text = language.Unaccented(text, "", "")
			break
		}
	}
	from := len(out) // where the word begins
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9', c >= utf8.RuneSelf:
			out = append(out, c)
		case c >= 'A' && c <= 'Z':
			out = append(out, c|0x20)
		case c == '\'':
		case len(out) > from:
			out = append(stem(out, from), ' ')
			from = len(out)
		}
	}
	if len(out) > from {
		out = append(stem(out, from), ' ')
	}
	return out
}

// stem cuts the word that stands in out from a byte on, so that its singular
// and its plural are the same. The stem need not be a word: only the tables
// ever see it.
func stem(out []byte, from int) []byte {
	n := len(out) // the end of the stem
	ends := func(end string) bool { return n-from >= len(end) && string(out[n-len(end):n]) == end }
	switch {
	case ends("ies"):
		n -= 2
	case ends("es") && n-from > 3:
		n -= 2
	case ends("s") && !ends("ss") && n-from > 2:
		n--
	}
	switch {
	case ends("ie"):
		n--
	case ends("e") && n-from > 2:
		n--
	}
	if ends("y") && n-from > 2 {
		out[n-1] = 'i'
	}
	return out[:n]
}

// phrases finds the names of a table in folded words. The longest name that
// starts at a word decides, and the search goes on behind it.
type phrases struct {
	rows    map[string][]int // joined stems -> rows of the table
	longest map[string]int   // first stem -> words in the longest name that starts with it
}

func newPhrases() *phrases {
	return &phrases{rows: map[string][]int{}, longest: map[string]int{}}
}

func (p *phrases) add(name string, row int) {
	words := fold(name)
	if len(words) == 0 {
		return
	}
	key := strings.Join(words, " ")
	p.rows[key] = append(p.rows[key], row)
	p.longest[words[0]] = max(p.longest[words[0]], len(words))
}

// find returns the rows named in words, in order of first mention, each once.
func (p *phrases) find(words []string) []int {
	var found []int // few: a table's rows at most
	for i := 0; i < len(words); {
		step := 1
		for n := min(p.longest[words[i]], len(words)-i); n > 0; n-- {
			rows, ok := p.rows[strings.Join(words[i:i+n], " ")]
			if !ok {
				continue
			}
			for _, r := range rows {
				if !slices.Contains(found, r) {
					found = append(found, r)
				}
			}
			step = n
			break
		}
		i += step
	}
	return found
}

// wordSet answers whether any of a list of words or phrases stands in a text.
type wordSet struct {
	phrases []string    // each spaced
	first   *[16]uint64 // a bit for how each phrase begins, see opening
}

// opening tells phrases apart by their first two letters; a text of spaced
// words has the same at the space before a phrase.
func opening(text string, space int) int {
	return int(text[space+1]&31)<<5 | int(text[space+2]&31)
}

// words makes a wordSet of phrases separated by |.
func words(list string) wordSet {
	set := wordSet{first: new([16]uint64)}
	for name := range strings.SplitSeq(list, "|") {
		p := " " + strings.Join(fold(name), " ") + " "
		set.phrases = append(set.phrases, p)
		set.first[opening(p, 0)>>6] |= 1 << (opening(p, 0) & 63)
	}
	return set
}

// in tells whether one of the phrases stands in text, which spaced has made.
func (s wordSet) in(text string) bool {
	for i := 0; i+2 < len(text); i++ {
		if text[i] != ' ' {
			continue
		}
		if o := opening(text, i); s.first[o>>6]&(1<<(o&63)) == 0 {
			continue
		}
		for _, p := range s.phrases {
			if strings.HasPrefix(text[i:], p) {
				return true
			}
		}
	}
	return false
}

// spaced joins the folded words of texts so that a wordSet can search them. A
// bar keeps phrases from running across two texts.
func spaced(texts ...string) string {
	size := 1
	for _, t := range texts {
		size += len(t) + 3
	}
	var room [512]byte
	out := room[:0]
	if size > len(room) {
		out = make([]byte, 0, size)
	}
	out = append(out, ' ')
	for _, t := range texts {
		out = append(appendFolded(out, t), "| "...)
	}
	return string(out)
}
