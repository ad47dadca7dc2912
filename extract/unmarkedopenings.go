package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// In talk without marks and capitals a dish of no table is known by the same places as in
// talk with them, see openingNames. But nothing tells a person or a place from a dish, a
// comma is a guess, and words nobody knows make bad guesses: "shish, taouk, today". So the
// words must say more, and a comma between two words nobody knows is none.

// unmarkedNames considers names nobody listed, and listed ones after a question, before the
// work begins.
func (t *talk) unmarkedNames(start, limit, work int, weigh func(a, b, score int, why string)) {
	limit = min(limit, work+openingReach, start+welcomeWords)
	made := -1 // where the name begins that was announced
	for i := start; i < limit; i++ {
		if a, sure := t.dishAnnounced(t.sentence(i), i); sure || a >= 0 && t.norm(i) == "is" {
			made = t.pastArticles(a, limit)
		} else if t.is(i, "you", "make") {
			made = t.pastArticles(i+2, limit)
		}
		asked := t.askedWhat(i)
		twice := i+1 < limit && t.norm(i) == t.norm(i+1) || articleLike[t.norm(i-1)] && t.pairAgain(i)
		if i != start && i != made && !asked && !twice && !t.beginsClause(i) && !tellsIt[t.norm(i-1)] && t.norm(i-1) != "is" {
			continue
		}
		a, lead := t.leadWords(i, limit)
		b := t.unmarkedRun(a, limit, asked || i == made || lead == telling)
		if b <= a || lead == greeting || b-a == 1 && t.namesSomebody(a) || t.is(i-2, "with", "it") {
			continue
		}
		if score := t.weighUnmarked(a, b, lead, asked, i == made, twice, i > start); score > 0 {
			weigh(a, b, score-(i-start)/40, saidAtOpening)
		}
	}
}

// openingReach is how many words past the first that looks like work a name may be told.
const openingReach = 40

// weighUnmarked tells how surely the words [a, b), behind words that lead to them so, name the
// dish; 0 for not.
func (t *talk) weighUnmarked(a, b int, lead nameLead, asked, made, twice, later bool) int {
	if b+1 >= len(t.toks) {
		return 0 // nothing tells of it any more
	}
	strange := t.foreignIn(a, b)
	led := t.todayAt(b) && t.norm(b) == "it" || t.todayBefore(a) && lead == telling && t.pausesAt(b)
	if !strange && led && !t.dishLike(a, b) && t.titleScore(a, b) > 1 {
		return 13 // "so injera it is", "today is kimchi"
	}
	if !strange && !asked && (!t.dishLike(a, b) || a > 0 && t.nameWord(a-1) && t.sentence(a).First != a) {
		return 0
	}
	within := b < len(t.toks) && t.sentence(b).First != b
	ends := t.toks[b-1].After != 0 || lead == telling || articleLike[t.norm(b)]
	sure := !strange || b-a > 1 && t.foreign(a, false) || t.recursAfter(a, b) || t.odd(a)
	switch {
	case asked && (strange || t.titleScore(a, b) > 1):
		return 14
	case (t.norm(b) != "it" && t.toks[b-1].After == 0 && within && t.behindAt(b) || t.todayAt(b)) && (lead == telling || sure || strange && t.norm(b) == "it"):
		return 14
	case t.norm(b) == "is" && strange && (t.definedAt(a, b) || twice && b-a > 1 && t.mentionAt[b+1] >= 0):
		return 14
	case strange && later && (b-a > 1 || t.odd(a)) && within && t.is(b, "this", "is"):
		return 14 // "tarte tatin, this is with the apples"
	case (lead == telling || (sure || made) && strange) && (later || t.recursAfter(a, b)) && ends && t.glossedUnmarked(b):
		return 16 // more than the name of the kind of dish
	case !strange:
		return 0
	case made && (sure && (t.toks[b-1].After != 0 || afterName[t.norm(b)]) || t.withFood(b)), lead == telling && t.todayBefore(a) && (sure || t.toks[b-1].After != 0 || t.withFood(b)):
		return 13
	case twice && b-a > 1 && t.pairAgain(a):
		return 11
	}
	return 0
}

// withFood reports whether "with" at token b goes on with a food.
func (t *talk) withFood(b int) bool {
	return t.norm(b) == "with" && t.mentionAt[min(t.pastArticles(b+1, b+3), len(t.toks)-1)] >= 0
}

// odd reports whether the word at i is written with a letter English lacks.
func (t *talk) odd(i int) bool {
	return strings.ContainsFunc(t.norm(i), func(r rune) bool { return r >= 0x80 && r != '’' })
}

// pairAgain reports whether the two words from i on, of no table, are said together again.
func (t *talk) pairAgain(i int) bool {
	return i+1 < len(t.toks) && t.foreign(i, false) && t.foreign(i+1, false) && t.norm(i) != t.norm(i+1) && t.has(i+2, len(t.toks), t.norm(i)+" "+t.norm(i+1)) >= 0
}

// pastArticles gives the first token from a on that is no article.
func (t *talk) pastArticles(a, end int) int {
	for a < end && articleLike[t.norm(a)] {
		a++
	}
	return a
}

// unmarkedRun gives the end of the words from a on that can be a dish's name; a where there is
// none. Bold is for words that were led to: a comma may then be guessed before the last of
// them too, "buttermilk, rusks".
func (t *talk) unmarkedRun(a, end int, bold bool) int {
	b := a
	for b < end && b < a+openingName {
		strange := t.foreign(b, false)
		name := t.nameWord(b) && (!t.ordersAt(b) || bold && b > a && t.isDishNoun(b))
		joint := b > a && nameJoints[t.norm(b)] && t.foreign(b-1, false) && (nameJoints[t.norm(b+1)] || b+1 < end && t.foreign(b+1, false))
		if !strange && !name && !joint {
			break
		}
		if b > a && t.toks[b-1].After != 0 {
			before := t.foreign(b-1, false) || nameJoints[t.norm(b-1)]
			if !(before && (strange || joint)) && !(bold && !before && (strange || b == a+1 && (t.dishLike(a, b+1) || afterName[t.norm(b+1)] && t.toks[b].After == 0))) {
				break // a comma between two words nobody knows is none
			}
		}
		if b > a+1 && t.norm(b) == t.norm(a) && t.norm(b-1) != t.norm(a) {
			break // the name again: "parkin sticky parkin"
		}
		b++
	}
	for b > a && (nameJoints[t.norm(b-1)] || b-a > 1 && cookedWord[t.norm(b-1)]) {
		b--
	}
	return b
}

// todayAt reports whether the words at token b say that what stands before them is for this
// day or is what is made: "today", "it is".
func (t *talk) todayAt(b int) bool {
	switch t.norm(b) {
	case "today", "tonight":
		return true
	case "it":
		return t.norm(b+1) == "is" && (t.toks[b+1].After != 0 || subjects[beforeApostrophe(t.norm(b+2))])
	}
	return false
}

// beforeApostrophe gives what of a word stands before an apostrophe: "we" of "we'll".
func beforeApostrophe(w string) string {
	w, _, _ = strings.Cut(w, "'")
	return w
}

// todayBefore reports whether "today is", "tonight's" or the like lead to token a.
func (t *talk) todayBefore(a int) bool {
	for i := a - 1; i >= 0 && i >= a-4; i-- {
		switch t.norm(i) {
		case "today", "tonight", "today's", "tonight's":
			return true
		}
	}
	return false
}

// questionsOfDish ask what is made, in talk that doesn't show where a question ends.
var questionsOfDish = listed("what are we making", "what are we doing", "what are we cooking", "what are we having", "what are we baking", "what we're making", "what we're doing", "what we're cooking", "what we're having", "what we're on with", "what we are making", "what are we on with", "what am i making", "what am i cooking", "what are you making", "what are you cooking", "what i'm making", "what's for dinner", "what's for tea", "what's for supper", "what's for lunch", "what's for breakfast", "what is for breakfast", "what is for dinner", "what is for lunch", "what's it today", "what's cooking", "what's on", "what's on today", "what is it today", "what do we make", "what do we cook", "what do i make", "what do i cook", "what means that", "what that means", "what this means", "what's it called", "what is it called", "what it's called")

// askedWhat reports whether a question for the dish ends just before token i.
func (t *talk) askedWhat(i int) bool {
	if i < 2 {
		return false
	}
	j := i
	switch t.norm(j - 1) {
	case "today", "tonight", "then", "mum", "mom", "gran", "grandma", "dad":
		j--
	}
	for _, p := range t.placesIn(max(0, j-6), j, questionsOfDish) {
		if int(p.tok+p.words) == j {
			return true
		}
	}
	return false
}

// leadWords gives where a clause begins behind the words that only open it, and what they do,
// as afterLeads does.
func (t *talk) leadWords(i, end int) (int, nameLead) {
	s := sentence{}
	s.First, s.Last = i, end
	a, lead := t.afterLeads(&s)
	if n := t.numberLen(a); n > 0 && a+n < end && plural(t.norm(a+n)) && (t.foreign(a+n, false) || t.dishLike(a+n, a+n+1)) {
		a += n // "twenty empanadas"
	}
	if lead != greeting && (tellsIt[t.norm(i-1)] || t.is(i-2, "this", "is") || t.is(i-2, "today", "is") || t.is(i-2, "tonight", "is")) {
		lead = telling
	}
	return a, lead
}

// numberLen gives how many words a number at token i has, 0 for none.
func (t *talk) numberLen(i int) int {
	num, n := language.ReadNumber(t.toks, i)
	if num.Article || num.Fraction {
		return 0
	}
	return n
}

// recursAfter reports whether the last word of the name [a, b) is said again.
func (t *talk) recursAfter(a, b int) bool { return t.has(b, len(t.toks), t.norm(b-1)) >= 0 }

// definedAt reports whether "is" behind a name tells what it is: "red red is beans and
// plantain", "doro wat is for the holiday".
func (t *talk) definedAt(a, b int) bool {
	switch t.norm(b + 1) {
	case "for":
		return true
	case "a", "the", "like":
		return t.recurs(t.norm(b-1)) && t.pastArticles(b+1, b+4) < b+4
	}
	return b+1 < len(t.toks) && t.mentionAt[b+1] >= 0
}

// glossedUnmarked reports whether the words at token b tell what the name before them is.
func (t *talk) glossedUnmarked(b int) bool {
	for _, ws := range glosses {
		if t.is(b, ws...) {
			return true
		}
	}
	a := t.pastArticles(b, b+3)
	if t.norm(b) == "the" && t.has(b+2, b+5, "one", "ones") >= 0 && t.verblessTo(b, b+3) {
		return true // "the party one"
	}
	for a < len(t.toks) && t.modifier(a) != lexicon.NoClass && !t.nameWord(a) {
		a++
	}
	if a >= len(t.toks) || !t.nameWord(a) || t.ordersAt(a) || t.startsNumber(b) {
		return false
	}
	e := t.nameRun(a, min(len(t.toks), a+8))
	if t.norm(e) == "one" || t.norm(e) == "ones" {
		return true // "beef ones"
	}
	if t.isDishNoun(e-1) && !t.verbAt(e-1) {
		return true
	}
	switch t.norm(e) {
	case "in", "on", "with": // "beans in coconut", "chicken on sticks"
		return t.verblessTo(a, min(e+2, len(t.toks)))
	}
	return t.has(a, e, "with", "and") >= 0 && t.verblessTo(a, e)
}

// glosses tell of the name before them that it is a kind of dish, or how many there are.
var glosses = [][]string{{"it's", "a"}, {"it's", "the"}, {"it", "means"}, {"this", "means"}, {"that", "means"}, {"that's", "the"}, {"this", "is", "the"}, {"which", "is"}, {"the", "sweet", "one"}, {"two", "of", "them"}, {"one", "of", "them"}, {"it's", "like", "a"}}

// namesSomebody reports whether the word at i is used as a person's or a place's name is:
// somebody says or has something, or something is in it.
func (t *talk) namesSomebody(i int) bool {
	w := t.norm(i)
	if t.nameWord(i) {
		return false
	}
	for k, n := t.has(0, len(t.toks), w), 0; k >= 0 && n < 6; n++ {
		switch v := t.norm(k + 1); {
		case t.norm(k-1) == "i'm" || t.norm(k-1) == "called" || t.norm(k-1) == "in" || t.norm(k-1) == "from" || t.norm(k-1) == "near" || t.norm(k-1) == "to" || kin[t.norm(k-1)] || t.norm(k-1) == "thanks" || t.norm(k-1) == "thank":
			return true
		case v != "is" && v != "was" && (t.in(aPastVerb, k+1) || speaks[v]):
			return true
		}
		k = t.has(k+1, len(t.toks), w)
	}
	return strings.HasSuffix(w, "'s")
}

// speaks are what somebody does and no dish.
var speaks = words("says thinks wants knows likes loves hates does doesn't has hasn't eats drinks can can't will won't")
