package extract

import (
	"quern/internal/language"
	"quern/schema"
)

// In talk without marks what stands without a verb is no sentence by itself: "arepas, eight of
// them, with cheese". It is told by guessed commas around it and by the dish's name before it.

// nearTitle is how many words behind the dish's name a bare count of it is looked for.
const nearTitle = 14

// diners are who a number counts, whatever is eaten.
var diners = words("people person persons portions portion servings serving helpings adults")

// pausesAt reports whether a mark, written or guessed, or a sentence's end stands before token i.
func (t *talk) pausesAt(i int) bool {
	return i >= len(t.toks) || i > 0 && t.beginsClause(i)
}

// countedUnmarked reads a count that stands without a verb in the opening of a talk without
// marks.
func (t *talk) countedUnmarked() *yieldSaid {
	if t.punctuated || len(t.dishes) == 0 {
		return nil
	}
	limit := max(len(t.toks)/4, min(len(t.toks), 60))
	for i := 0; i < limit; i++ {
		num, n := language.ReadNumber(t.toks, i)
		if n == 0 || num.Article && n == 1 {
			continue
		}
		if s := t.sentence(i); countable(num) && !s.other && s.kind != storing && s.kind != figures && !t.measuredAt(i) {
			if y := t.countedAt(s, i, n, num); y != nil {
				return y
			}
		}
		i += n - 1
	}
	return nil
}

// countedAt reads the number of n words at token i as a count of what is made or of who eats it.
func (t *talk) countedAt(s *sentence, i, n int, num language.Number) *yieldSaid {
	title := t.dishes[0].span
	named := title.Len() > 0 && title.Last <= i && i-title.Last <= nearTitle
	if s.past && !named {
		return nil
	}
	if t.askedHowMany(i) && t.mentionAt[min(i+n, len(t.toks)-1)] < 0 {
		return t.brief(i, i+n, i, num, "servings", 5)
	}
	if num.Max > company && !named {
		return nil
	}
	begins := t.beginsClause(i) || aroundNumber[t.norm(i-1)] && t.pausesAt(i-1) || named && i == title.Last
	e := i + n
	for e < i+n+2 && e < len(t.toks) && !t.pausesAt(e) && yieldPraise[t.norm(e)] && t.norm(e) != "of" {
		e++
	}
	if e >= len(t.toks) {
		return nil
	}
	switch noun := t.norm(e); {
	case t.pausesAt(i + n):
		if t.norm(i-1) == "for" && (named && i-1 == title.Last || t.isDishNoun(i-2) || i > 1 && t.madeAt[i-2] > 0) {
			return t.brief(i-1, i+n, i, num, "servings", 3)
		}
		if begins && named && t.has(i, i+n, "dozen") >= 0 {
			return t.brief(i, i+n, i, num, "pieces", 3)
		}
	case !t.pausesAt(e+1) && !tailAt(t, e+1) && noun != "of":
	case begins && diners[noun], t.norm(i-1) == "for" && diners[noun]:
		if noun == "person" {
			noun = "persons"
		}
		return t.brief(i, e+1, i, num, noun, 3)
	case begins && named && noun == "of" && (t.norm(e+1) == "them" || t.norm(e+1) == "'em") && t.pausesAt(e+2):
		return t.brief(i, e+2, i, num, "pieces", 3)
	case begins && named && peopleWord[noun] && !notYield[noun] && t.mentionAt[e] < 0:
		return t.brief(i, e+1, i, num, noun, 3)
	}
	return nil
}

// company is how many people sit down to a dish, where nothing else tells the number for a yield.
const company = 40

// askedHowMany reports whether "how many" stands before token i, or before the name of whom the
// cook asks: "how many babcia sixty about".
func (t *talk) askedHowMany(i int) bool {
	if t.is(i-2, "how", "many") {
		return true
	}
	return t.is(i-3, "how", "many") && (kin[t.norm(i-1)] || t.foreign(i-1, false))
}

// mendedUnmarked reads a number of the things just counted that takes the place of the first:
// "you'll get eight skewers no what did we count ten ten skewers yes".
func (t *talk) mendedUnmarked(s *sentence, i int, before *yieldSaid) *yieldSaid {
	if t.punctuated || before == nil || before.bare || before.Unit == "" || i <= before.number || i-before.number > 20 {
		return nil
	}
	num, n := language.ReadNumber(t.toks, i)
	if n == 0 || num.Article || !countable(num) || t.norm(i+n) != lastWord(before.Unit) || num.Min == before.Min || !t.slipBetween(before.number, i) {
		return nil
	}
	return &yieldSaid{Span: language.Span{First: i, Last: i + n + 1}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: before.Unit}, score: 6, number: i}
}
