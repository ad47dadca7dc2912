package extract

import (
	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// Whoever speaks tersely tells how much a dish makes without a verb: "For five.", "Twelve vada
// from this.", "Four boats.", "Tacos, eight."

// briefly said yields are looked for in sentences of at most so many words.
const briefYield = 12

// toldInBrief reads how much is made from a sentence without a verb.
func (t *talk) toldInBrief(s *sentence) *yieldSaid {
	if !t.punctuated || s.Len() > briefYield || s.kind == aside && s.past {
		return nil
	}
	i := s.First
	for i < s.Last && (headWords[t.norm(i)] || aroundNumber[t.norm(i)]) {
		i++
	}
	if t.norm(i) == "for" {
		return t.forSoMany(s, i)
	}
	if num, n := language.ReadNumber(t.toks, i); n > 0 && !num.Article {
		return t.countedOut(s, i, n, num)
	}
	return t.namedAndCounted(s, i)
}

// aroundNumber are words before a number that is only about right.
var aroundNumber = words("about around roughly somewhere maybe some nearly almost")

// countable reports whether a number can tell how many pieces or people a dish makes.
func countable(num language.Number) bool {
	return !num.Fraction && !num.Colloquial && num.Min >= 2 && num.Max <= 200
}

// forSoMany reads "for five", "for six as a side", where nothing is done in the sentence. The
// meal of another day is no yield of this one.
func (t *talk) forSoMany(s *sentence, i int) *yieldSaid {
	num, n := language.ReadNumber(t.toks, i+1)
	if n == 0 || num.Article || !countable(num) || !t.verblessTo(i+1+n, t.markFrom(i+n, s.Last)) {
		return nil
	}
	unit := "servings"
	if k := i + 1 + n; k < s.Last && t.toks[k-1].After == 0 {
		switch w := t.norm(k); {
		case peopleWord[w] && !vesselWord[w]:
			unit = w
		case w == "of" && (t.norm(k+1) == "us" || t.norm(k+1) == "you"), w == "as" || w == "or" || w == "if" || w == "with" || w == "at":
		default:
			return nil
		}
	}
	if q := t.quantityAt[i+1]; q >= 0 && t.quantities[q].kind != count {
		return nil
	}
	return t.brief(i, i+1+n, i+1, num, unit, 3)
}

// markFrom gives the token behind the next mark from token i on, at most end.
func (t *talk) markFrom(i, end int) int {
	for i < end && t.toks[i].After == 0 {
		i++
	}
	return min(i+1, end)
}

// countedOut reads a number of things with which a sentence begins: all that is in it, or told to
// be what comes of the batch.
func (t *talk) countedOut(s *sentence, i, n int, num language.Number) *yieldSaid {
	if !countable(num) {
		return nil
	}
	k := i + n
	for k < s.Last && k < i+n+2 && t.toks[k-1].After == 0 && yieldPraise[t.norm(k)] && t.norm(k) != "of" && !tailAt(t, k) {
		k++
	}
	unit := ""
	if k < s.Last && t.toks[k-1].After == 0 && !tailAt(t, k) {
		if m := t.mentionAt[k]; m >= 0 && !t.mentions[m].food.Dish && !(peopleWord[t.norm(k)] && k+1 == s.Last) || t.toolAt[k] >= 0 || notYield[t.norm(k)] {
			return nil
		}
		if t.norm(k) == "of" && (t.norm(k+1) == "you" || t.norm(k+1) == "us") && t.toks[k+1].After != 0 {
			return t.brief(i, k+2, i, num, "servings", 3)
		}
		if q := t.quantityAt[k]; q >= 0 && t.quantities[q].kind != count && !peopleWord[t.norm(k)] {
			return nil
		}
		if t.norm(k) == "of" {
			return nil
		}
		unit = t.norm(k)
		k++
	}
	switch {
	case k < s.Last && t.toks[k-1].After == 0 && tailAt(t, k):
		if unit == "" {
			unit = "pieces"
		}
		return t.brief(i, s.Last, i, num, unit, 4)
	case k < s.Last || unit == "":
		return nil
	case unit == "pieces" && t.sentOf[i] < 8, unit == "ones" || t.saidOtherwise(unit):
		return t.brief(i, s.Last, i, num, unit, 2)
	}
	return nil
}

// tailAt reports whether words stand at token k that tell a number to be what is made: "from
// this", "comes out".
func tailAt(t *talk, k int) bool {
	for _, ws := range tails {
		if t.is(k, ws...) {
			return true
		}
	}
	return t.is(k, "comes", "out") || t.is(k, "come", "out") || t.is(k, "comes", "from")
}

// saidOtherwise reports whether what is counted is one thing elsewhere in the talk, as what is
// made is: "four boats", where the boat is shaped.
func (t *talk) saidOtherwise(things string) bool {
	one := lexicon.Singular(things)
	return one != things && (t.saidTimes(one, 1) || t.saidTimes(things, 2))
}

// namedAndCounted reads the dish's name and a number behind it: "Tacos, eight."
func (t *talk) namedAndCounted(s *sentence, i int) *yieldSaid {
	if i+1 >= s.Last || t.toks[i].After&language.Comma == 0 || !plural(t.norm(i)) || !t.dishCounted(t.norm(i)) {
		return nil
	}
	num, n := language.ReadNumber(t.toks, i+1)
	if n == 0 || num.Article || !countable(num) || i+1+n < s.Last {
		return nil
	}
	return t.brief(i, s.Last, i+1, num, t.norm(i), 3)
}

// brief makes the statement of tokens [a, b) whose number stands at k.
func (t *talk) brief(a, b, k int, num language.Number, unit string, score int) *yieldSaid {
	return &yieldSaid{Span: language.Span{First: a, Last: b}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: unit}, score: score, number: k}
}
