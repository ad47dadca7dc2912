package extract

import "strings"

// cueList is a set of phrases as words, found by the first.
type cueList = *heads[[]string]

// cues makes a list; the words of a phrase are separated by spaces.
func cues(list ...string) cueList {
	p := &heads[[]string]{}
	for _, s := range list {
		ws := strings.Fields(s)
		p.add(ws[0], ws)
	}
	return p
}

// cueAt gives the length of the longest phrase of the list that begins at
// token i and ends before end, 0 for none.
func (t *talk) cueAt(p cueList, i, end int) int {
	best := 0
	for _, ws := range p.at(t, i) {
		if len(ws) > best && i+len(ws) <= end && t.is(i, ws...) {
			best = len(ws)
		}
	}
	return best
}

// openers gives the group of the words that begin a phrase of the lists, and more.
func openers(more string, lists ...cueList) *group {
	first := words(more)
	for _, l := range lists {
		for w := range l.by {
			first[w] = true
		}
	}
	return groupOf(first)
}

// cueIn finds the first phrase of the list in tokens [a, b): where it
// begins and its length, -1 and 0 for none.
func (t *talk) cueIn(p cueList, a, b int) (int, int) {
	for i := a; i < b; i++ {
		if n := t.cueAt(p, i, b); n > 0 {
			return i, n
		}
	}
	return -1, 0
}
