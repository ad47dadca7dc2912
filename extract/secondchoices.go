package extract

import (
	"strings"

	"quern/internal/lexicon"
)

// Second choices that are told from outside the dish: by a question and its answer ("can
// you use cranberries? You can"), by what is done elsewhere ("in Poland we'd take quark"),
// by who does it ("my mother uses lard"), by who eats ("for the kids I use orange juice"),
// and by the food they are for ("tofu for the chicken").

var (
	// questions ask whether another food will do; the food follows.
	questions = cues("can you use", "can i use", "can we use", "can they use", "can you take", "can i take", "can it be", "could it be", "could you use", "could i use", "could they use", "could we use", "may i use", "can you do it with", "can i do it with", "can you make it with", "can i make it with", "could i make it with", "can you do this with", "can i do this with", "can this be made with", "can it be made with", "will it work with", "does it work with", "would it work with", "what about", "how about", "and", "is it okay with", "is it good with", "can i swap in", "can you swap in", "can i have", "would")
	// answeredYes open the answer that it will.
	answeredYes = cues("yes", "yeah", "yep", "aye", "ja", "sure", "of course", "course", "certainly", "absolutely", "definitely", "you can", "you could", "you may", "it can", "it could", "they work", "it works", "that works", "they do", "also fine", "also good", "also okay", "fine too", "that's fine", "no problem", "why not", "by all means", "go ahead", "go for it", "works fine", "works too")
	// elsewheres open what is done in other places.
	elsewheres = cues("at home", "back home", "where i come from", "where i'm from", "where i grew up", "in my country", "in my village", "in the old country", "up north", "down south", "over there", "other places", "some places", "in some places", "in some regions", "on the coast", "in the mountains")
	// choosingIt are verbs of choosing a food for the dish.
	choosingIt = cues("use", "uses", "take", "takes", "go for", "goes for", "swear by", "swears by", "make it with", "makes it with", "do it with", "does it with", "make this with", "makes hers with", "makes his with", "have it with", "prefer", "prefers", "give you", "would use", "would take", "buy", "buys")
	// whatevers leave it to what there is.
	whatevers = cues("you have", "you've got", "you got", "is there", "there is", "you like", "you fancy", "you find", "you can find", "you can get", "is in the fridge", "is in the house", "the shop has", "you've in")
)

// already reports whether a mention names a food that went in before, and no other sort
// of it: "oat cream" is another than the cream.
func (x *standIns) already(sub int) bool {
	t := x.t
	k := t.known(sub)
	if k < 0 {
		return false
	}
	a, b := &t.mentions[sub], &t.mentions[k]
	if a.food == b.food {
		return lexicon.Singular(lastWord(a.name)) == lexicon.Singular(lastWord(b.name)) // but arborio is none of the carnaroli
	}
	if strings.Contains(a.name, " ") && strings.Contains(b.name, " ") && a.name != b.name && !fuller(a.name, b.name) && !fuller(b.name, a.name) {
		return false // "eating apples" are none of the cooking apples
	}
	return !fuller(a.name, b.name) || t.lex.Modifiers[lexicon.Singular(t.norm(a.First))] != lexicon.NoClass
}

// fresh reports whether a mention may be named here as a second choice: unmeasured, and
// no food that went in.
func (x *standIns) fresh(k int) bool {
	m := &x.t.mentions[k]
	return k != x.lacked && !m.definite && !m.food.Dish && m.subst < 0 && m.ingr == nil && (len(m.amounts) == 0 || x.t.articleOnly(m)) && !x.already(k)
}

// inQuestion reads "can you use cranberries? You can" from the question's first word at
// token i.
func (x *standIns) inQuestion(i int) bool {
	t := x.t
	n := t.cueAt(questions, i, x.b)
	if n == 0 || n == 1 && (!t.punctuated || i != x.s.First) || x.s.recap {
		return false
	}
	sub := x.next(i+n, 4)
	if sub < 0 || !x.fresh(sub) || x.markedBefore(i+n, t.mentions[sub].First) {
		return false
	}
	m := &t.mentions[sub]
	if n == 1 && t.toks[m.Last-1].After == 0 {
		return false
	}
	e := m.Last
	for ; e < len(t.toks) && e <= m.Last+5; e++ {
		if t.mentionAt[e] >= 0 || t.quantityAt[e] >= 0 {
			return false
		}
		if c := t.cueAt(answeredYes, e, len(t.toks)); c > 0 && (t.toks[e-1].After != 0 || !t.punctuated && n > 1) {
			return x.set(sub, x.originalFar(sub, i))
		}
		if t.toks[e-1].After.Ends() && e > m.Last && t.sentOf[e] > t.sentOf[m.First]+1 {
			return false
		}
	}
	return false
}

// elsewhere reads "in Poland we'd take quark", "where I come from it's lard" from the
// first word of the place at token i.
func (x *standIns) elsewhere(i int) bool {
	t := x.t
	if t.punctuated && i != x.s.First && (i == 0 || t.toks[i-1].After == 0) {
		return false
	}
	e := i + t.cueAt(elsewheres, i, x.b)
	if e == i {
		if t.norm(i) != "in" || !x.placeName(i+1) {
			return false
		}
		if e = i + 2; x.placeName(e) && !subjects[t.norm(e)] && t.baseVerb(e) == nil {
			e++ // "in New England"
		}
	}
	for ; e < x.b && (hedges[t.norm(e)] || equal[t.norm(e)] || t.norm(e) == "course" || t.norm(e) == "now"); e++ {
	}
	switch t.norm(e) {
	case "it's", "it'd", "that's":
		return x.choice(e+1, i)
	case "it":
		switch {
		case t.is(e, "it", "would", "be"), t.is(e, "it", "could", "be"):
			return x.choice(e+3, i)
		case t.is(e, "it", "is"):
			return x.choice(e+2, i)
		}
	case "they", "we", "you", "i", "people", "they'd", "we'd", "you'd", "i'd":
		for e++; e < x.b && (hedges[t.norm(e)] || equal[t.norm(e)] || auxiliaries[t.norm(e)] || t.norm(e) == "always" || t.norm(e) == "often"); e++ {
		}
		if c := t.cueAt(choosingIt, e, x.b); c > 0 {
			return x.choice(e+c, i)
		}
	}
	return false
}

// placeName reports whether the word at i can be a place's name: in no table of the kitchen.
func (x *standIns) placeName(i int) bool {
	t := x.t
	if i >= x.b || t.mentionAt[i] >= 0 || t.toolAt[i] >= 0 || t.quantityAt[i] >= 0 || t.actionAt[i] >= 0 || articleLike[t.norm(i)] || pronouns[t.norm(i)] || t.modifier(i) != lexicon.NoClass || len(t.norm(i)) < 4 {
		return false
	}
	if !t.punctuated {
		return subjects[t.norm(i+1)] || t.norm(i+1) == "they'd" || t.norm(i+1) == "we'd" || t.norm(i+1) == "you'd" || t.norm(i+1) == "it's"
	}
	w := t.quoteWord(i)
	return w != "" && w[0] >= 'A' && w[0] <= 'Z'
}

// choice makes the food that begins right at token e, and those listed behind it, second
// choices for the nearest of their sort before token at.
func (x *standIns) choice(e, at int) bool {
	t := x.t
	sub := x.next(e, 4)
	if sub < 0 || !x.fresh(sub) || x.refused(t.mentions[sub].First) {
		return false
	}
	for j := e; j < t.mentions[sub].First; j++ {
		if !articleLike[t.norm(j)] && t.modifier(j) == lexicon.NoClass {
			return false
		}
	}
	switch t.norm(t.mentions[sub].Last) {
	case "on", "over", "alongside", "with", "to", "in":
		return false // "in Canada they use maple syrup on it": beside it
	}
	orig := x.original(sub, at, false)
	if !x.set(sub, orig) {
		return false
	}
	x.restOfList(sub, orig)
	return true
}

// kinTake reads "my mother uses lard" from the "my" at token i: what others always do is
// a second choice.
func (x *standIns) kinTake(i int) bool {
	t := x.t
	if w := t.norm(i); w != "my" && w != "our" || !kin[t.norm(i+1)] {
		return false
	}
	e := i + 2
	for ; e < x.b && (t.norm(e) == "always" || hedges[t.norm(e)]); e++ {
	}
	switch t.norm(e) {
	case "uses", "takes", "swears", "prefers", "makes", "does", "buys":
	default:
		return false
	}
	c := t.cueAt(choosingIt, e, x.b)
	return c > 0 && t.has(e+c, x.b, "works", "too", "as well", "just as", "fine", "grand", "lovely", "good", "also") >= 0 && x.choice(e+c, i)
}

// withIt reads "with vegetable broth it goes also", "it works with lamb too" from the
// "with" at token i: said of the dish, with a word that makes it a second choice.
func (x *standIns) withIt(i int) bool {
	t := x.t
	if t.norm(i) != "with" || i > 0 && i != x.s.First && t.punctuated && t.toks[i-1].After == 0 {
		return false
	}
	sub := x.next(i+1, 4)
	if sub < 0 || x.already(sub) || t.mentions[sub].definite || t.mentions[sub].ingr != nil {
		return false
	}
	e := t.mentions[sub].Last
	if w := t.norm(e); w != "it" && w != "that" && w != "this" && w != "it's" && w != "it'll" {
		return false
	}
	if t.has(e, min(x.b, e+6), "also", "too", "as well", "just as", "the same", "fine", "equally") < 0 || t.has(e, min(x.b, e+6), "not", "doesn't", "won't", "isn't") >= 0 {
		return false
	}
	return x.set(sub, x.original(sub, i, false))
}

// forEaters reads "for the kids I use orange juice" from the "for" at token i.
func (x *standIns) forEaters(i int) bool {
	t := x.t
	if t.norm(i) != "for" || i > 0 && i != x.s.First && t.punctuated && t.toks[i-1].After == 0 {
		return false
	}
	e := i + 1
	switch c := max(t.cueAt(someEaters, e, x.b), t.cueAt(diets, e, x.b)); {
	case c > 0:
		e += c
	case t.norm(e) == "the" && t.cueAt(diets, e+1, x.b) > 0:
		e += 1 + t.cueAt(diets, e+1, x.b)
	case (t.norm(e) == "my" || t.norm(e) == "our") && kin[t.norm(e+1)]:
		e += 2
	default:
		return false
	}
	switch t.norm(e) {
	case "i", "we", "you", "i'd", "you'd", "we'd":
		e++
	default:
		return false
	}
	for ; e < x.b && (hedges[t.norm(e)] || auxiliaries[t.norm(e)]); e++ {
	}
	c := t.cueAt(choosingIt, e, x.b)
	return c > 0 && x.choice(e+c, i)
}

// forThe reads "tofu for the chicken", "Celeriac we use for the celery", "take oats for it"
// from the "for" at token i.
func (x *standIns) forThe(i int) bool {
	t := x.t
	sub := x.before(i, standInReach)
	if sub < 0 || !x.fresh(sub) || t.marked(t.mentions[sub].Last-1, i) {
		return false
	}
	orig := t.mentionStart(i + 1)
	if orig < 0 && (t.norm(i+1) == "the" || t.norm(i+1) == "your") {
		orig = t.mentionStart(i + 2)
	}
	if orig < 0 {
		return false
	}
	o := &t.mentions[orig]
	told := t.norm(i-1) == "in" || t.norm(i-1) == "do" || t.norm(i-1) == "does" // "yogurt in for the mayo", "tartar'll do for the vinegar"
	if !o.definite || len(o.amounts) > 0 || o.mixed || !told && !alike(o.food, t.mentions[sub].food) || generic[o.food.Name] {
		return false
	}
	k := x.there(orig)
	if k < 0 {
		k = x.origin(orig)
	}
	if k == orig || k < 0 || t.mentions[k].subst >= 0 {
		return false
	}
	if len(t.actionsBetween(max(x.s.First, t.mentions[sub].First-3), t.mentions[sub].First)) > 0 && !x.takenUp(max(x.s.First, t.mentions[sub].First-3), t.mentions[sub].First) {
		return false // "toast the bread for the crumbs"
	}
	if !x.set(sub, x.origin(k)) {
		return false
	}
	o.alias = k
	return true
}

// whatever reads "whatever dried fruit you've got, cranberries, anything" from its first
// word at token i: what is listed behind it are second choices.
func (x *standIns) whatever(i int) bool {
	t := x.t
	j, c := t.cueIn(whatevers, i+1, min(x.b, i+6))
	if j < 0 {
		return false
	}
	e := j + c
	sub := x.next(e, 3)
	return sub >= 0 && (!t.punctuated || e < x.b && t.toks[e-1].After != 0 && !t.toks[e-1].After.Ends()) && x.choice(e, i)
}
