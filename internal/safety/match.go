package safety

import (
	"strings"

	"quern/internal/language"
)

// fold reduces words to what the tables compare: lower-case stems of letters
// and digits, without accents, apostrophes or plural endings.
func fold(text string) []string {
	words := strings.Fields(language.Unaccented(text, "", ""))
	for i, w := range words {
		words[i] = stem(w)
	}
	return words
}

// stem makes the singular and the plural of a word the same. The stem need not
// be a word: only the tables ever see it.
func stem(w string) string {
	switch {
	case strings.HasSuffix(w, "ies"):
		w = w[:len(w)-2]
	case strings.HasSuffix(w, "es") && len(w) > 3:
		w = w[:len(w)-2]
	case strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && len(w) > 2:
		w = w[:len(w)-1]
	}
	switch {
	case strings.HasSuffix(w, "ie"):
		w = w[:len(w)-1]
	case strings.HasSuffix(w, "e") && len(w) > 2:
		w = w[:len(w)-1]
	}
	if strings.HasSuffix(w, "y") && len(w) > 2 {
		w = w[:len(w)-1] + "i"
	}
	return w
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
	var found []int
	seen := map[int]bool{}
	for i := 0; i < len(words); {
		step := 1
		for n := min(p.longest[words[i]], len(words)-i); n > 0; n-- {
			rows, ok := p.rows[strings.Join(words[i:i+n], " ")]
			if !ok {
				continue
			}
			for _, r := range rows {
				if !seen[r] {
					seen[r] = true
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
type wordSet []string

// words makes a wordSet of phrases separated by |.
func words(list string) wordSet {
	var set wordSet
	for name := range strings.SplitSeq(list, "|") {
		set = append(set, " "+strings.Join(fold(name), " ")+" ")
	}
	return set
}

// in tells whether one of the phrases stands in text, which spaced has made.
func (s wordSet) in(text string) bool {
	for _, phrase := range s {
		if strings.Contains(text, phrase) {
			return true
		}
	}
	return false
}

// spaced joins the folded words of texts so that a wordSet can search them. A
// bar keeps phrases from running across two texts.
func spaced(texts ...string) string {
	var b strings.Builder
	b.WriteByte(' ')
	size := 1
	for _, t := range texts {
		size += len(t) + 3
	}
	b.Grow(size)
	for _, t := range texts {
		for _, w := range fold(t) {
			b.WriteString(w)
			b.WriteByte(' ')
		}
		b.WriteString("| ")
	}
	return b.String()
}
