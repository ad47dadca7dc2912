package extract

import "strings"

// cueList is a set of phrases as words, found by the first.
type cueList = *cueSet

type cueSet struct {
	heads[[]string]
	number  int
	texts   []string
	phrases hashed
}

// cues makes a list; one space stands between the words of a phrase.
func cues(list ...string) cueList {
	p := &cueSet{number: next(&cueListCount), texts: list}
	for _, s := range list {
		ws := strings.Fields(s)
		p.add(ws[0], ws)
	}
	return p
}

// cued gives the tokens at which a phrase of the list begins.
func (t *talk) cued(p cueList) marks {
	m := t.cueMarks[p.number]
	if m != nil {
		return m
	}
	m = newMarks(len(t.toks))
	var words [12]int32
	phrases := p.phrases.of(p.texts)
	for k := range phrases {
		if ws := t.index.numbers(&phrases[k], words[:0]); ws != nil {
			t.index.each(ws, m.set)
		}
	}
	t.cueMarks[p.number] = m
	return m
}

// at gives the phrases of the list that begin with the word at token i, where
// one of them is said there.
func (p *cueSet) at(t *talk, i int) [][]string {
	if i < 0 || i >= len(t.toks) || !t.cued(p).has(i) {
		return nil
	}
	return p.heads.at(t, i)
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
	m := t.cued(p)
	for i := m.next(max(a, 0), b); i >= 0; i = m.next(i+1, b) {
		if n := t.cueAt(p, i, b); n > 0 {
			return i, n
		}
	}
	return -1, 0
}
