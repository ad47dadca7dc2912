package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// heardFood gives the food that a mis-hearing was meant as, nil when it was
// meant as none: a vessel, a verb. The table may name it in the plural
// ("leeks") or with its piece ("garlic cloves").
func (t *talk) heardFood(h *lexicon.Heard) *lexicon.Food {
	ws := language.Norms(h.Meant)
	if len(ws) == 0 {
		return nil
	}
	named := func(ws []string) *lexicon.Food {
		if len(ws) == 0 {
			return nil
		}
		if f, ok := t.lex.FoodNamed(strings.Join(ws, " ")); ok {
			return f
		}
		last := len(ws) - 1
		one := append(append([]string{}, ws[:last]...), lexicon.Singular(ws[last]))
		f, _ := t.lex.FoodNamed(strings.Join(one, " "))
		return f
	}
	if f := named(ws); f != nil {
		return f
	}
	if f := named(ws[:len(ws)-1]); f != nil && sameThing[lexicon.Singular(ws[len(ws)-1])] {
		return f
	}
	return nil
}

// heardVerb reports whether a mis-hearing was meant as something done: "beet
// them" for "beat them". The words then name no food.
func (t *talk) heardVerb(h *lexicon.Heard) bool {
	w, _, _ := strings.Cut(h.Meant, " ")
	for _, f := range t.lex.Verbs(w) {
		if f.Form == lexicon.Base {
			return t.heardFood(h) == nil
		}
	}
	return false
}
