package transcript

import (
	"strings"
	"unicode"
)

// Rolling captions show the line said before above the new one, so a file of
// them holds every word two or three times. Whether a file rolls is decided
// once for the file: where most cues repeat, repeats are the format's; where
// few do, they are the speaker's, and stay.

// minSame is the fewest words two cues share, in a file whose cues share parts
// of lines, before they count as a repeat: one word is said twice by chance.
const minSame = 2

// minAcross is the fewest words shared without a whole line, in a file that
// rolls by whole lines: a line that was broken anew.
const minAcross = 4

// fold removes from each caption the words that repeat the one before it.
func fold(captions []caption) {
	keys := make([][]string, len(captions))
	for i, c := range captions {
		keys[i] = make([]string, len(c.tokens))
		for j, t := range c.tokens {
			keys[i][j] = foldKey(t.text)
		}
	}
	byLine := make([]int, len(captions)) // words repeated, in whole lines
	byWord := make([]int, len(captions)) // words repeated, wherever lines break
	var lineCues, wordCues, lineWords, wordWords int
	for i := 1; i < len(captions); i++ {
		before, now := &captions[i-1], &captions[i]
		if len(now.tokens) == 0 || len(before.tokens) == 0 {
			continue
		}
		byLine[i] = lineOverlap(before, now, keys[i-1], keys[i])
		byWord[i] = overlap(keys[i-1], keys[i])
		if byLine[i] > 0 {
			lineCues++
			lineWords += byLine[i]
		}
		if byWord[i] >= minSame || byWord[i] == len(keys[i-1]) {
			wordCues++
			wordWords += byWord[i]
		}
	}
	var repeated []int
	switch pairs := spokenPairs(captions); {
	case rolls(lineCues, lineWords, pairs):
		repeated = byLine
		for i, k := range byWord {
			if repeated[i] == 0 && k >= minAcross {
				repeated[i] = k
			}
		}
	case rolls(wordCues, wordWords, pairs):
		repeated = byWord
		for i, k := range repeated {
			if k < minSame && i > 0 && k != len(keys[i-1]) {
				repeated[i] = 0
			}
		}
	default:
		return
	}
	for i, k := range repeated {
		captions[i].tokens = captions[i].tokens[k:]
	}
}

// rolls decides whether a file rolls: of its pairs of neighbouring cues more
// than half repeat, and there is enough of it to be no accident.
func rolls(cues, words, pairs int) bool {
	return cues*2 > pairs && (cues >= 3 || words >= 3)
}

// spokenPairs counts the neighbouring captions that both hold words.
func spokenPairs(captions []caption) int {
	pairs := 0
	for i := 1; i < len(captions); i++ {
		if len(captions[i].tokens) > 0 && len(captions[i-1].tokens) > 0 {
			pairs++
		}
	}
	return pairs
}

// foldKey is a word without its punctuation and capitals: recognisers change
// both when they settle a line.
func foldKey(s string) string {
	key := strings.TrimFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) })
	if key == "" {
		return s
	}
	return strings.ToLower(key)
}

// lineOverlap gives the number of words in the most whole lines that end the
// caption before and begin this one.
func lineOverlap(before, now *caption, beforeKeys, nowKeys []string) int {
	a, _ := rowKeys(before.tokens, beforeKeys)
	b, sizes := rowKeys(now.tokens, nowKeys)
	words := 0
	for _, size := range sizes[:overlap(a, b)] {
		words += size
	}
	return words
}

// rowKeys joins the keys of each row that has words.
func rowKeys(tokens []token, keys []string) (rows []string, sizes []int) {
	for i := 0; i < len(tokens); {
		end := i
		for end < len(tokens) && tokens[end].row == tokens[i].row {
			end++
		}
		rows = append(rows, strings.Join(keys[i:end], " "))
		sizes = append(sizes, end-i)
		i = end
	}
	return rows, sizes
}

// overlap gives the largest k such that the last k of a are the first k of b,
// in time linear in their lengths (Knuth, Morris and Pratt's failure links).
func overlap(a, b []string) int {
	if len(a) > len(b) {
		a = a[len(a)-len(b):]
	}
	if len(a) == 0 {
		return 0
	}
	links := make([]int, len(b))
	for i, k := 1, 0; i < len(b); i++ {
		for k > 0 && b[i] != b[k] {
			k = links[k-1]
		}
		if b[i] == b[k] {
			k++
		}
		links[i] = k
	}
	k := 0
	for _, s := range a {
		for k > 0 && (k == len(b) || s != b[k]) {
			k = links[k-1]
		}
		if s == b[k] {
			k++
		}
	}
	return k
}
