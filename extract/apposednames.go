package extract

import "quern/internal/language"

// Names of dishes that no table knows are known by what is said of them: which
// one it is. "It's Birchermüesli. The true one, not that of the hotel."
// "Jollof rice, the Nigerian one." "It's caldo verde, the green soup."

// whichWithin is how many words of an apposition may come before the word that
// tells which dish it is.
const whichWithin = 6

// welcomeWords is how many words of a talk introduce the dish, whatever stories of other
// cooks' work are told there.
const welcomeWords = 120

// toldWhichOne is the reason given for such a name.
const toldWhichOne = "named and told which one"

// whichOne are words that tell one of several dishes of a name apart.
var whichOne = groupOf(words("one kind sort version way classic"))

// tellsIt open the sentence that names what is made.
var tellsIt = words("it's today's tonight's")

// apposedTitles considers the names at the head of sentences [start, limit) that an
// apposition explains, in the same sentence or as the next one. Only what is named
// before the work begins names the dish.
func (t *talk) apposedTitles(start, limit, work int, consider func(a, b, bonus int, why string)) {
	for k := range t.sents {
		s := &t.sents[k]
		if s.First < start {
			continue
		}
		if s.First >= limit || s.First >= max(work, start+welcomeWords) {
			return
		}
		a, told := t.openedName(s)
		b := a
		for b < s.Last && (b == a || t.toks[b-1].After == 0) && t.norm(b) != "from" {
			b++
		}
		if b > a && b-a <= 4 && told && t.butWith(b) && t.onlyNames(a, b) {
			consider(a, b, 12-(s.First-start)/60-t.titleScore(a, b), toldWhichOne)
			continue
		}
		if b <= a || b-a > 5 || !t.mayBeName(a, b) || !told && !t.recurs(t.norm(b-1)) && !t.dishLike(a, b) || !t.toldWhich(s, k, b) {
			continue
		}
		bonus := 14 - (s.First-start)/60 - t.titleScore(a, b)
		consider(a, b, bonus, toldWhichOne)
	}
}

// butWith reports whether what is otherwise in it follows a dish's name: "it's lasagne,
// but with courgettes where the pasta would be".
func (t *talk) butWith(b int) bool {
	return t.toks[b-1].After&language.Comma != 0 && (t.norm(b) == "but" || t.norm(b) == "only") && t.norm(b+1) == "with"
}

// openedName gives where a name could begin in a sentence, behind the words that only
// open it, and whether those say that it tells what is made.
func (t *talk) openedName(s *sentence) (int, bool) {
	i := s.First
	for i < s.Last && (headWords[t.norm(i)] || greetings[t.norm(i)]) {
		i++
	}
	told := false
	switch {
	case tellsIt[t.norm(i)]:
		i, told = i+1, true
	case t.is(i, "this", "is"), t.is(i, "it", "is"):
		i, told = i+2, true
	}
	for i < s.Last && articleLike[t.norm(i)] {
		i++
	}
	return i, told
}

// mayBeName reports whether tokens [a, b) can be the name of a dish: words for food or
// none of the language's everyday words, the last of them no food by itself.
func (t *talk) mayBeName(a, b int) bool {
	for i := a; i < b; i++ {
		w := t.norm(i)
		if t.nameWord(i) || t.strange(i) {
			continue
		}
		if !t.toks[i].Cap || len(w) < 4 || ofDay[w] || determiners[w] || youWe[w] || others[w] || subordinators[w] || len(t.lex.Verbs(w)) > 0 || t.toolAt[i] >= 0 || t.quantityAt[i] >= 0 || t.lex.Modifiers[w] != 0 {
			return false
		}
	}
	m := t.mentionAt[b-1]
	return b-a > 1 || m < 0 || t.mentions[m].food.Dish
}

// toldWhich reports whether what follows token b of sentence k tells which dish of that
// name it is.
func (t *talk) toldWhich(s *sentence, k, b int) bool {
	from, to := b, s.Last
	if b >= s.Last {
		if k+1 >= len(t.sents) {
			return false
		}
		from, to = t.sents[k+1].First, t.sents[k+1].Last
	} else if t.toks[b-1].After&language.Comma == 0 {
		return false
	}
	if t.norm(from) != "the" {
		return false
	}
	for i := from + 1; i < min(to, from+whichWithin); i++ {
		if t.in(whichOne, i) || t.isDishNoun(i) && t.mentionAt[i] < 0 {
			return true
		}
		if t.actionAt[i] >= 0 || i > from+1 && t.toks[i-1].After != 0 {
			return false
		}
	}
	return false
}
