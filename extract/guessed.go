package extract

import (
	"quern/internal/language"
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
		if m != marking.None && t.toks[i].After == 0 {
			t.toks[i].After = language.Comma
			t.guessed.set(i)
		}
	}
	t.guesses = nil
}

// written gives the marks that were written after token i. A rule that a wrong comma would
// mislead more than a right one helps asks this.
func (t *talk) written(i int) language.Punct {
	if t.guessed != nil && t.guessed.has(i) {
		return 0
	}
	return t.toks[i].After
}
