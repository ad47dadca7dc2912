package extract

import (
	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/internal/marking"
)

// guessMarks sets commas where somebody who wrote marks would have set one, or a full stop,
// in talk that was written down without. Where its sentences end markSentences has found.
func (t *talk) guessMarks() {
	if t.guesses == nil {
		return
	}
	t.guessed = newMarks(len(t.toks))
	for i, m := range t.guesses {
		if m != marking.None && t.toks[i].After == 0 && !t.measuresNext(i) && !(m == marking.Comma && t.inName(i)) {
			t.toks[i].After = language.Comma
			t.guessed.set(i)
		}
	}
	t.guesses = nil
}

// measuresNext reports whether an amount ends at token i that is of the food named right
// behind it: no comma parts them. Where a food stands before the amount it can be of that:
// "salt one teaspoon | pepper half".
func (t *talk) measuresNext(i int) bool {
	k := t.quantityAt[i]
	if k < 0 || t.quantities[k].Last != i+1 || i+1 >= len(t.toks) || t.toks[i+1].Pause || t.sentOf[i] != t.sentOf[i+1] {
		return false
	}
	q := &t.quantities[k]
	if q.kind != measure && q.kind != count || q.First > 0 && t.isFoodWord(q.First-1) {
		return false
	}
	j := i + 1
	for j < i+3 && t.modifier(j) == lexicon.NameWord {
		j++
	}
	_, n := t.lex.FoodAt(t.ids, j, nil)
	return n > 0
}

// inName reports whether a figure or a food's name goes on over token i: "five | percent",
// "chicken | thighs", "the dried | guajillos".
func (t *talk) inName(i int) bool {
	if i+1 >= len(t.toks) || t.sentOf[i] != t.sentOf[i+1] {
		return false
	}
	if k := t.quantityAt[i]; k >= 0 && t.quantityAt[i+1] == k {
		return true
	}
	if t.modifier(i) == lexicon.NameWord && (determiners[t.norm(i-1)] || i > 0 && t.quantityAt[i-1] >= 0) {
		_, n := t.lex.FoodAt(t.ids, i+1, nil)
		return n > 0
	}
	return t.insideName(i + 1)
}

// written gives the marks that were written after token i. A rule that a wrong comma would
// mislead more than a right one helps asks this.
func (t *talk) written(i int) language.Punct {
	if t.guessed != nil && t.guessed.has(i) {
		return 0
	}
	return t.toks[i].After
}
