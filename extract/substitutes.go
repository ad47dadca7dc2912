package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// A sentence that offers a substitute names what can be used and, itself or
// the sentence before, what it can stand in for. The cue tells which is which:
//
//	between them      "X instead of Y", "swap Y for X", "Y, or X"
//	after what stands "X will do", "X works too", "X instead"
//	before it         "you can also use X"
//	what is lacking   "if you can't find Y, X …", "X, if you've no Y"
//
// In talk without marks a cue may have fallen into the sentence next door, so
// a few words of it are looked at too.

// Distances in tokens within which a cue and its foods are looked for.
const (
	standInReach = 8  // between a cue and what stands in
	lackReach    = 4  // between "you can't find" and the food
	originReach  = 45 // back to the food that can be replaced
	neighbour    = 10 // into the next sentence, where there are no marks
)

var (
	insteadOf = cues("instead of", "in place of", "rather than", "in lieu of", "a substitute for", "as a replacement for", "stands in for", "stand in for", "replaces", "to replace")
	instead   = cues("instead", "in its place", "in their place", "in its stead")
	// lacking tell that a food isn't there or isn't wanted.
	lacking = cues("don't have to have", "don't have to use", "needn't use", "needn't have", "doesn't have to be", "don't have to be", "needn't be", "doesn't need to be", "don't need to be", "can't find", "can't get", "cannot find", "cannot get", "couldn't find", "couldn't get", "can't buy", "can't source", "don't have", "doesn't have", "do not have", "don't stock", "doesn't stock", "don't sell", "doesn't sell",
		"haven't got", "hasn't got", "haven't any", "haven't", "have not got", "ain't got", "ain't have", "not got", "got no", "got none", "have no", "have none", "you've no", "you've none", "there's no", "there's none", "there is no", "there is none", "there isn't", "there aren't", "isn't any", "is no",
		"out of", "run out of", "ran out of", "no access to", "don't like", "doesn't like", "don't eat", "doesn't eat", "don't do", "doesn't do", "don't take", "doesn't take", "don't fancy", "don't drink", "doesn't drink", "not keen on", "not eating", "not taking", "not having", "avoiding", "allergic to",
		"can't have", "cannot have", "can't eat", "cannot eat", "can't do", "can't take", "cannot take", "can't stand", "can't abide", "can't handle", "hate", "hates", "intolerant to", "short of", "without", "she'd no", "he'd no", "they'd no", "i'd no", "we'd no", "you'd no", "she has no", "he has no", "had no", "had none", "hadn't any", "hadn't", "hadn't got", "won't find", "won't get", "won't see", "failing", "off", "can't be doing with", "can't be having with", "can't be bothered with", "can't stretch to", "can't afford", "can't face", "won't eat", "won't touch", "don't cook with", "doesn't cook with", "don't care for", "doesn't care for", "don't get on with", "doesn't get on with",
		"cannae get", "cannae find", "cannae have", "cannae eat", "cannae stand", "canna get", "canna find", "couldnae get", "couldnae find", "havenae got", "havenae any", "havenae", "dinnae have", "dinnae like", "dinnae eat", "run short of", "used up", "finished", "ran short of")
	// diets are conditions that stand for a food without naming it.
	diets = cues("vegan", "vegetarian", "veggie", "vegetarians", "vegans", "dairy free", "gluten free", "nut free", "egg free", "coeliac", "celiac", "lactose intolerant", "plant based", "kosher", "halal", "one of those", "one of them", "one of the unlucky", "fussy", "funny about it", "not a fan", "squeamish", "teetotal", "off the drink", "off dairy", "off meat", "off gluten", "dairy intolerant", "on a diet")
	// sayIdioms tell, after a food, that it does as well as another, in words
	// that predicate doesn't build.
	sayIdioms = cues("the same job", "would be no harm", "at a pinch", "in a pinch", "at a push", "if push comes to shove", "if that's all", "if that's what you", "just as good", "just as well")
	// makingWith come before a food with which the dish is as good.
	makingWith = cues("same with", "same goes for", "same goes with", "same thing with", "same thing goes for", "same thing goes with", "same story with", "just as happy with", "works a treat with", "grand with", "be okay with", "be all right with", "just as good with", "as good with", "works with", "work with", "make it with", "make this with", "made it with", "made this with", "do it with", "do this with", "done it with", "done this with", "make them with", "do them with", "good with", "nice with", "fine with", "or try", "nothing wrong with", "no shame in")
	// pairing are those that tell what goes well with the dish, unless "too" says that it is
	// another way to make it.
	pairing = cues("good with", "nice with", "fine with", "works with", "work with")
	// failing come between the food and what is next best.
	failing = cues("failing that", "failing which", "if not", "otherwise", "or else", "as a last resort", "second best", "next best thing is", "or failing that")
	// usage are verbs with which the other food is taken up after a lack.
	usage = cues("use", "uses", "puts in", "puts", "takes", "buy", "pick up", "settle for", "choose", "do", "put", "try", "take", "add", "have", "get", "squeeze", "swap", "go for", "go with", "reach for", "make it with", "any", "then", "just", "grab", "sub", "substitute")
	// exchanging are verbs between whose objects "for" or "with" stands.
	exchanging = words("swap swaps swapped swapping switch switched trade replace replaced replacing exchange exchanged substitute substituted sub subbed change changed")
)

// standIns reads one sentence for substitutes.
type standIns struct {
	t      *talk
	s      *sentence
	a, b   int // the tokens looked at
	topic  int // last food taken up before, -1 for none
	lack   int // token of a lack, -1 for none
	after  int // token after the lack's clause
	lacked int // the mention that is lacking, -1 for a pronoun or none
	about  int // the mention of a food that went in, which is taken up again, -1 for none
}

// markSubstitutes sets subst on mentions that only stand in for another food.
// topic is the last food taken up before the sentence, -1 for none.
func (t *talk) markSubstitutes(s *sentence, topic int) {
	x := &standIns{t: t, s: s, a: s.First, b: s.Last, topic: topic, lack: -1, lacked: -1, about: -1}
	if !t.punctuated {
		x.a, x.b = max(0, x.a-neighbour), min(len(t.toks), x.b+neighbour)
	} else if k := int(t.sentOf[s.First]); k > 0 && t.asksForLack(&t.sents[k-1]) {
		x.a = t.sents[k-1].First
	}
	x.findLack()
	if x.lacked < 0 {
		x.about = x.takenUpAgain()
	}
	cut := x.bareCut()
	if cut >= 0 {
		defer func() {
			if m := &t.mentions[cut]; m.subst < 0 {
				m.compared = true // it was no stand-in
			}
		}()
	}
	for i := x.a; i < x.b; i++ {
		if x.told(i) && !x.presently(i) {
			continue
		}
		if n := t.cueAt(questions, i, x.b); n > 0 && (x.inQuestion(i) || n > 2) {
			i += n - 1
			continue
		}
		switch {
		case t.in(anExchange, i) && x.exchange(i):
			continue
		case t.cueAt(insteadOf, i, x.b) > 0:
			x.insteadOf(i, t.cueAt(insteadOf, i, x.b))
		case t.cueAt(instead, i, x.b) > 0:
			x.instead(i)
		case t.cueAt(failing, i, x.b) > 0:
			x.failing(i, t.cueAt(failing, i, x.b))
		case t.cueAt(makingWith, i, x.b) > 0:
			x.offers(i, t.cueAt(makingWith, i, x.b), false)
		case t.norm(i) == "so" && x.soTakes(i):
		case x.offer(i):
		case x.couldBe(i):
		case x.nextBest(i):
		case t.cueAt(sayIdioms, i, x.b) > 0:
			x.says(i, true)
		case t.norm(i) == "if":
			x.onlyIf(i)
		case x.elsewhere(i):
		case x.kinTake(i):
		case x.withIt(i):
		case x.forEaters(i):
		case t.norm(i) == "for" && x.forThe(i):
		case t.norm(i) == "whatever" && x.whatever(i):
		case x.bareSort(i):
		case x.beginsPredicate(i):
			if n := x.predicate(i); n >= byItself || n > 0 && x.lack >= 0 || n == ofItsSort {
				x.says(i, n >= byItself || x.lack >= 0)
			}
		}
	}
	if x.lack >= 0 {
		x.afterLack()
	}
	x.alternatives()
	x.saidTwice()
	if x.lacked >= 0 {
		// naming what is missing is no new use of it
		if m := &t.mentions[x.lacked]; m.ingr == nil && m.alias < 0 {
			if k := x.there(x.lacked); k >= 0 {
				m.alias = k
			} else if k := x.origin(x.lacked); k >= 0 && k != x.lacked {
				m.alias = k
			}
		}
	}
}

// animalCuts are parts of an animal that stand for its meat once the animal was named.
var animalCuts = words("breast breasts leg legs thigh thighs wing wings drumstick drumsticks shoulder neck belly loin shin cheek cheeks shank shanks")

// bareCut makes a mention of a cut named without its animal, in a sentence after one in
// which that goes in: "chicken thighs. You can take breast instead". It gives -1 for none.
func (x *standIns) bareCut() int {
	t := x.t
	if !t.punctuated || x.topic < 0 || !fleshKind(t.mentions[x.topic].food.Kind) {
		return -1
	}
	for i := x.s.First; i < x.s.Last; i++ {
		if !t.in(aCut, i) || t.mentionAt[i] >= 0 {
			continue
		}
		animal, _, _ := strings.Cut(t.mentions[x.topic].food.Name, " ")
		name := animal + " " + t.norm(i)
		f, ok := t.lex.FoodNamed(name)
		if !ok {
			f, ok = t.lex.FoodNamed(animal + " " + lexicon.Singular(t.norm(i)))
		}
		if !ok || f == t.mentions[x.topic].food {
			return -1
		}
		t.mentions = append(t.mentions, mention{Span: language.Span{First: i, Last: i + 1}, head: language.Span{First: i, Last: i + 1}, food: f, name: name, alias: -1, subst: -1})
		t.mentionAt[i] = int32(len(t.mentions) - 1)
		return len(t.mentions) - 1
	}
	return -1
}

// saidTwice makes a stand-in that its sentence names again no new food: "if the shop's only
// got thighs, get thighs".
func (x *standIns) saidTwice() {
	t := x.t
	ms := t.mentionsIn(x.s.First, x.s.Last)
	for n := 1; n < len(ms); n++ {
		a, b := &t.mentions[ms[n-1]], &t.mentions[ms[n]]
		if a.subst >= 0 && b.subst < 0 && b.ingr == nil && b.alias < 0 && len(b.amounts) == 0 && related(a.food, b.food) == 2 {
			b.alias = ms[n-1]
		}
	}
}

// questionWords is how many words "No shallots?" has at most.
const questionWords = 8

// asksForLack reports whether the sentence is a short question, which the next
// one may answer: "No shallots? An onion."
func (t *talk) asksForLack(s *sentence) bool {
	return s.Len() <= questionWords && t.toks[s.Last-1].After&language.Question != 0
}

// usable reports whether a mention names a food by itself.
func (x *standIns) usable(k int) bool {
	m := &x.t.mentions[k]
	return !m.mixed && !m.compared && !m.verb
}

// before gives the last food that ends in the reach tokens before i.
func (x *standIns) before(i, reach int) int {
	t := x.t
	for j := i - 1; j >= x.a && j >= i-reach; j-- {
		if t.toks[j].After.Ends() {
			return -1
		}
		if k := t.mentionAt[j]; k >= 0 {
			if x.usable(int(k)) {
				return int(k)
			}
			return -1
		}
	}
	return -1
}

// next gives the first food that begins in the reach tokens from i on.
func (x *standIns) next(i, reach int) int {
	t := x.t
	for j := i; j < x.b && j < i+reach; j++ {
		if k := t.mentionAt[j]; k >= 0 {
			if x.usable(int(k)) {
				return int(k)
			}
			return -1
		}
		if t.toks[j].After.Ends() {
			return -1
		}
	}
	return -1
}

// set makes sub, and the foods joined to it by "or", stand in for orig.
func (x *standIns) set(sub, orig int) bool {
	t := x.t
	if sub < 0 || orig < 0 || sub == orig {
		return false
	}
	done := false
	for k := sub; k < len(t.mentions); k++ {
		if k > sub && !t.orJoined(k-1, k) {
			break
		}
		m := &t.mentions[k]
		if m.subst >= 0 || m.ingr != nil || m.mixed || m.negated || x.refused(m.First) || k == orig || m.definite && generic[m.food.Name] {
			break
		}
		if related(m.food, t.mentions[orig].food) == 2 && m.name == t.mentions[orig].name {
			break
		}
		t.sameSort(m, &t.mentions[orig])
		m.subst = orig
		if o := t.mentions[orig].subst; o >= 0 {
			m.subst = o
		}
		done = true
	}
	if done {
		x.compound(sub)
		x.company(sub)
	}
	return done
}

// sameSort gives what stands in the last word of the food it stands in for, where its own
// word names another thing by itself: "white wine vinegar, but cider will do".
func (t *talk) sameSort(m, orig *mention) {
	if m.head.Len() != 1 || m.food.Kind == orig.food.Kind || lastWord(orig.name) == orig.name {
		return
	}
	name := m.food.Name + " " + lexicon.Singular(lastWord(orig.name))
	if f, ok := t.lex.FoodNamed(name); ok && f.Kind == orig.food.Kind {
		m.food, m.name = f, name
	}
}

// refused reports whether a word that forbids stands close before token i:
// "don't use", "I wouldn't put".
func (x *standIns) refused(i int) bool {
	t := x.t
	for j := i - 1; j >= x.a && j >= i-4; j-- {
		if t.toks[j].After != 0 || t.mentionAt[j] >= 0 && t.norm(j+1) != "or" && t.norm(j+1) != "and" {
			return false // "if you won't eat coriander it's parsley"
		}
		switch t.norm(j) {
		case "don't", "wouldn't", "never", "shouldn't", "mustn't", "avoid", "won't", "can't", "cannot":
			return true
		}
	}
	return false
}

// told reports whether what is said at token i is a story of what somebody
// else did: "my sister used tinned pears instead". What others do all the time
// is an offer.
func (x *standIns) told(i int) bool {
	t := x.t
	if !x.s.past {
		return false
	}
	if x.condemned(i) {
		return true
	}
	if x.lacked >= 0 && x.t.has(x.s.First, x.lack, "if", "when", "whenever") >= 0 {
		return false // "she'd put in lentils if she'd no barley"
	}
	present := false
	for j := i - 1; j >= x.s.First && j >= i-12; j-- {
		w := t.norm(j)
		switch {
		case w == "makes" || w == "uses" || w == "puts" || w == "does" || w == "swaps" || w == "prefers" || w == "likes":
			present = true
		case t.in(youOrWe, j):
			return false
		case t.in(anOther, j) || t.in(ofKin, j):
			return !present
		}
	}
	return false
}

// presently reports whether what is said at token i of a food is a clause of its own in
// the present: "somebody asked about the tamari, soy sauce is fine".
func (x *standIns) presently(i int) bool {
	t := x.t
	if !x.beginsPredicate(i) {
		return false
	}
	switch t.norm(i) {
	case "is", "are", "works", "does", "will", "can", "would":
	case "was", "were", "worked", "did":
		return false
	default:
		if !strings.HasSuffix(t.norm(i-1), "'s") && !strings.HasSuffix(t.norm(i-1), "'ll") {
			return false
		}
	}
	k := t.mentionAt[i-1]
	if k < 0 {
		return false
	}
	f := t.mentions[k].First
	return x.about >= 0 || f > x.a && t.toks[f-1].After != 0
}

// compound lengthens the name of a substitute made of two foods: "milk with a
// squeeze of lemon juice".
func (x *standIns) compound(sub int) {
	t := x.t
	m := &t.mentions[sub]
	w := m.Last
	if t.norm(w) != "with" && t.norm(w) != "plus" || t.toks[w-1].After != 0 {
		return
	}
	k := x.next(w+1, 6)
	if k < 0 {
		return
	}
	o := &t.mentions[k]
	if o.ingr != nil || o.definite {
		return
	}
	m.name = m.name + " " + t.phrase(w, o.head.Last)
	o.alias = sub
}

// companyReach is how many tokens after a stand-in what goes in with it is looked for.
const companyReach = 18

// company marks the measured food that only goes in with the stand-in, where that is
// for cooks who lack another: "if you've only plain flour use that, and put in two
// teaspoons of baking powder with it". It is no ingredient of the dish as told.
func (x *standIns) company(sub int) {
	t := x.t
	m := &t.mentions[sub]
	k := x.next(m.Last, companyReach)
	if k < 0 || k == sub || t.sentOf[t.mentions[k].First] != t.sentOf[m.First] {
		return
	}
	o := &t.mentions[k]
	if o.ingr != nil || o.subst >= 0 || o.alias >= 0 || o.definite || len(o.amounts) == 0 || t.articleOnly(o) || x.there(k) >= 0 {
		return
	}
	from := o.First
	for _, q := range o.amounts {
		from = min(from, t.quantities[q].First)
	}
	for from > m.Last && (t.baseVerb(from-1) != nil || goesAlong[t.norm(from-1)]) {
		from--
	}
	switch t.norm(from - 1) {
	case "plus", "with":
	case "and":
		if !t.punctuated && t.has(o.Last, min(len(t.toks), o.Last+4), "with it", "in it", "to it", "to that", "will do", "does it") < 0 {
			return
		}
	default:
		return
	}
	if x.lack >= 0 || x.conditional(m.First) || t.has(o.Last, min(len(t.toks), o.Last+3), "with it", "to that") >= 0 {
		o.alias = sub
	}
}

// goesAlong are words that may stand between "and" and the amount that goes along.
var goesAlong = words("in also then you need to have just about a")

// findLack finds "if you can't get Y" or "if you're vegan".
func (x *standIns) findLack() {
	t := x.t
	for i := x.a; i < x.b; i++ {
		n := t.cueAt(lacking, i, x.b)
		diet := 0
		if w := t.norm(i); w == "off" && !x.eaterIsOff(i) || (w == "finished" || w == "used") && t.norm(i+n) != "the" {
			n = 0
		}
		if n == 0 && t.norm(i) == "no" && i == x.a && i < x.s.First {
			n = 1
		}
		if n == 0 {
			if diet = t.cueAt(diets, i, x.b); diet == 0 {
				continue
			}
		}
		called := diet > 0 && (i == x.s.First || i == x.a) && t.toks[i+diet-1].After != 0 // "vegans, use oil", "Vegan? Oil."
		if !x.conditional(i) && !(n > 0 && x.opens(i)) && !called {
			continue
		}
		if diet > 0 {
			x.lack, x.after = i, i+diet
			return
		}
		if x.pronoun(i + n) {
			if !t.toolIn(i+n, min(x.b, i+n+3)) {
				x.lack, x.after = i, i+n+1
				return
			}
			continue
		}
		if n > 0 && i+n < x.b && t.mentionAt[i+n] < 0 && className[t.norm(i+n)] {
			x.lack, x.after = i, i+n+1 // "if you don't cook with alcohol"
			return
		}
		if k := x.next(i+n, lackReach+1); k >= 0 && t.toks[i+n-1].After == 0 && !x.markedBefore(i+n, t.mentions[k].First) && !t.toolIn(i+n, t.mentions[k].First) {
			x.lack, x.lacked = i, k
			x.after = t.mentions[k].Last
			for y := k; y+1 < len(t.mentions) && t.orJoined(y, y+1) && !x.takenUp(t.mentions[y].Last, t.mentions[y+1].First); y++ {
				x.after = t.mentions[y+1].Last
			}
			return
		}
		if k := x.unlisted(i + n); k >= 0 {
			x.lack, x.lacked, x.after = i, k, i+n+1
			return
		}
		if w := t.norm(i + n - 1); n > 0 && (w == "drink" || w == "drinks") && t.toks[i+n-1].After != 0 {
			x.lack, x.after = i, i+n // "for those who don't drink, apple juice"
			return
		}
		if w := t.norm(i + n - 1); (w == "none" || w == "haven't") && (t.toks[i+n-1].After != 0 || !t.punctuated) {
			x.lack, x.after = i, i+n
			return
		}
	}
	for i := x.a; i < x.b; i++ {
		if x.condition(i) {
			return
		}
	}
}

var (
	// obstacles tell, of a food, that it may not be had or wanted.
	obstacles = cues("hard to", "tricky", "difficult", "impossible", "struggle", "can't", "cannot", "couldn't", "not", "no", "isn't", "aren't", "without", "too dear", "dear", "expensive", "pricey", "costly", "too strong", "too rich", "too hot", "too spicy", "too sharp", "too much", "too heavy", "too sweet", "too salty", "out of", "rather not", "lack", "lacking", "missing", "avoid", "avoiding", "allergic", "hate", "dislike", "scares", "bothers", "upsets", "unavailable", "awkward", "a problem", "an issue", "trouble", "disagrees", "disagree", "never", "don't", "doesn't", "haven't", "won't", "wouldn't", "sad", "poor", "finished", "used up", "gone", "gone up", "ate", "eaten", "costing", "costs", "breaks the bank", "break the bank", "the price of", "scarce", "gold", "run out", "ran out", "sold out", "unheard of", "not a thing")
	// taking are verbs with which a cook takes one food for another; their
	// object is a choice where the sentence sets a condition.
	taking = cues("use", "take", "try", "go for", "go with", "get", "buy", "pick up", "choose", "grab", "reach for", "settle for", "swap in", "have", "then", "i use", "i'd use")
)

// condition reads a condition on a food that went in before ("if Y is hard to
// find", "when Y's too dear") or on none ("You're not near a shop?") with a
// food of its sort taken up after it. It sets the lack.
func (x *standIns) condition(i int) bool {
	t := x.t
	end := i + 1
	switch w := t.norm(i); {
	case w == "if" || w == "when" || w == "whenever" || w == "in" && t.norm(i+1) == "case" || w == "should" && t.norm(i+1) == "you" || w == "for" && (t.norm(i+1) == "anyone" || t.norm(i+1) == "those" || t.norm(i+1) == "people"):
	case t.punctuated && (i == x.a && i < x.s.First || x.opens(i) || i == x.s.First && t.norm(i) == "not"):
	default:
		return false
	}
	for end < x.b && end <= i+14 && t.toks[end-1].After == 0 {
		end++
	}
	o := -1
	for j := i; j < end; j++ {
		if k := int(t.mentionAt[j]); k >= 0 && !t.mentions[k].compared && !t.mentions[k].verb && (x.there(k) >= 0 || x.origin(k) != k) {
			o = k
			break
		}
	}
	if !t.punctuated {
		if o < 0 || t.mentions[o].First-i > standInReach {
			return false
		}
		end = min(end, t.mentions[o].Last+5)
	}
	from := end
	if o >= 0 && !t.punctuated {
		from = t.mentions[o].Last
	}
	sub := x.next(from, standInReach)
	if k := x.before(i, 2); t.punctuated && sub < 0 && o >= 0 && k >= 0 && k != o && t.mentions[k].First <= x.s.First+2 && t.known(k) < 0 {
		// "walnuts, if pecans are too dear"
		if bad, _ := t.cueIn(obstacles, i, end); bad >= 0 && alike(t.mentions[k].food, t.mentions[x.origin(o)].food) && (len(t.mentions[k].amounts) == 0 || t.articleOnly(&t.mentions[k])) {
			orig := x.origin(o)
			if y := x.there(o); y >= 0 && t.mentions[o].ingr == nil {
				orig, t.mentions[o].alias = y, y
			}
			return x.set(k, orig)
		}
	}
	if sub < 0 || sub == o || t.known(sub) >= 0 || t.mentions[sub].definite || len(t.mentions[sub].amounts) > 0 && !t.articleOnly(&t.mentions[sub]) || t.toolIn(i, t.mentions[sub].First) {
		return false
	}
	m := &t.mentions[sub]
	take, _ := t.cueIn(taking, from, m.First)
	bad, _ := t.cueIn(obstacles, i, from)
	if x.acted(from, m.First) && take < 0 {
		return false
	}
	if o < 0 {
		if bad < 0 || take < 0 && !(m.First <= from+1 && x.classIn(i, from)) {
			return false
		}
		if x.original(sub, i, take >= 0 && t.punctuated && i < x.s.First) < 0 {
			return false
		}
		x.lack, x.after = i, from
		return true
	}
	like := alike(m.food, t.mentions[x.origin(o)].food)
	if bad >= 0 && (take >= 0 || like) || take >= 0 && like && t.norm(i) == "if" {
		x.lack, x.lacked, x.after = i, o, from
		return true
	}
	return false
}

// namedByWord gives the first mention of the ingredient in whose name the word stands, -1
// where none has it.
func (x *standIns) namedByWord(w string) int {
	if len(w) < 4 {
		return -1
	}
	w = lexicon.Singular(w)
	for n := len(x.t.ingredients) - 1; n >= 0; n-- {
		g := x.t.ingredients[n]
		for _, v := range strings.FieldsFunc(g.name, func(r rune) bool { return r == ' ' || r == '-' }) {
			if lexicon.Singular(v) == w {
				return g.mentions[0]
			}
		}
	}
	return -1
}

// unlisted gives the mention of a food that the lexicon lacks, and which went in
// before, where its name stands at token i: it is only known by its measure there.
func (x *standIns) unlisted(i int) int {
	t := x.t
	if i >= x.b || t.mentionAt[i] >= 0 || len(t.norm(i)) < 4 || t.actionAt[i] >= 0 || t.toks[i-1].After != 0 {
		return -1
	}
	for j := i - 1; j >= 0 && j >= i-4*originReach; j-- {
		if k := int(t.mentionAt[j]); k >= 0 && t.norm(j) == t.norm(i) && t.mentions[k].ingr != nil && t.mentions[k].Last == j+1 {
			return k
		}
	}
	return -1
}

// classIn reports whether tokens [a, b) name a class of food that people do without.
func (x *standIns) classIn(a, b int) bool {
	for i := a; i < b; i++ {
		if className[lexicon.Singular(strings.TrimSuffix(x.t.norm(i), "'s"))] {
			return true
		}
	}
	return false
}

// pronoun reports whether the word at i stands for the food, with no food's
// name right behind it: "it", "any", but not "any cream".
func (x *standIns) pronoun(i int) bool {
	t := x.t
	switch t.norm(i) {
	case "it", "them", "one":
		return true
	case "any", "that", "those", "some", "either", "this", "these":
		k := x.next(i+1, lackReach)
		return k < 0 || t.mentions[k].First > i+1 || t.toks[i].After != 0
	}
	return false
}

// eaterIsOff reports whether "off" at token i is said of what somebody doesn't eat:
// "if you're off dairy".
func (x *standIns) eaterIsOff(i int) bool {
	switch x.t.norm(i - 1) {
	case "you're", "she's", "he's", "they're", "i'm", "somebody's", "anybody's", "someone's", "anyone's":
		k := x.next(i+1, 3)
		return k >= 0 && x.t.mentions[k].First <= i+2
	}
	return false
}

// markedBefore reports whether a mark stands in tokens [a, b).
func (x *standIns) markedBefore(a, b int) bool {
	for j := a; j < b; j++ {
		if x.t.toks[j].After != 0 {
			return true
		}
	}
	return false
}

// takenUp reports whether a verb of using stands in tokens [a, b).
func (x *standIns) takenUp(a, b int) bool {
	i, _ := x.t.cueIn(usage, a, b)
	return i >= 0
}

// conditional reports whether an "if" or the like opens the clause of token i.
func (x *standIns) conditional(i int) bool {
	t := x.t
	for j := i - 1; j >= x.a && j >= i-7; j-- {
		if t.toks[j].After.Ends() {
			return false
		}
		switch t.norm(j) {
		case "if", "unless", "where", "anyone", "someone", "somebody", "anybody", "case", "whoever":
			return true
		case "for", "it", "when":
			// "for a vegan version", "to make it vegan"
			if t.norm(j) == "for" || t.norm(j-1) == "make" || t.norm(j-1) == "keep" || t.norm(j) == "when" {
				return true
			}
		}
	}
	return false
}

// opens reports whether a lack stands without its "if": "Can't find Y, use X",
// "No Y? Use X".
func (x *standIns) opens(i int) bool {
	t := x.t
	w := t.norm(i)
	if i-1 >= x.a && (i-1 == x.a || i-1 == x.s.First || t.toks[i-2].After != 0) && t.toks[i-1].After == 0 && (t.norm(i-1) == "you" || t.norm(i-1) == "ye" || t.norm(i-1) == "youse") {
		// "You don't have Y, X works"
		return (w == "don't" || w == "haven't" || w == "can't" || w == "cannot") && (t.norm(i+2) != "to" || t.cueAt(lacking, i, x.b) > 3)
	}
	if i-2 >= x.a && t.in(anAnybody, i-1) && (i-2 == x.a || i-2 == x.s.First || t.toks[i-3].After != 0) && (t.norm(i-2) == "some" || t.norm(i-2) == "many" || t.norm(i-2) == "plenty") {
		return true // "some folk can't be doing with Y"
	}
	if t.norm(i-1) == "some" && (w == "won't" || w == "can't" || w == "don't") {
		return true // "there's some won't have beer in the house"
	}
	if i > x.a && t.toks[i-1].After == 0 && (i-1 > x.s.First || t.norm(i-1) != "and" && t.norm(i-1) != "or" && t.norm(i-1) != "but") {
		return false
	}
	switch w {
	case "doesn't", "needn't", "no", "can't", "cannot", "haven't", "out", "don't", "short", "allergic", "not", "failing":
		return true
	}
	return false
}

// anybodies are words for people in general.
var anybodies = words("people folk folks")

// origin finds the food a lacked or replaced one speaks of: itself where it is
// an ingredient, the ingredient whose name holds its word ("the cider" for
// cider vinegar), or the last food of its class.
func (x *standIns) origin(k int) int {
	t := x.t
	m := &t.mentions[k]
	if x.there(k) >= 0 {
		return k
	}
	w := lexicon.Singular(t.norm(m.head.Last - 1))
	begin := w[:max(0, len(w)-2)] // as its plural begins too: "leaves"
	class := -1
	for j := m.First - 1; j >= 0 && j >= m.First-4*originReach; j-- {
		o := t.mentionAt[j]
		if o < 0 || t.mentions[o].ingr == nil {
			continue
		}
		c := &t.mentions[o]
		if strings.Contains(c.name, begin) {
			for _, v := range strings.Fields(strings.ReplaceAll(c.name, "-", " ")) {
				if lexicon.Singular(v) == w {
					return int(o)
				}
			}
		}
		if class < 0 && m.First-j <= originReach && alike(m.food, c.food) {
			class = int(o)
		}
	}
	if class >= 0 && m.head.Len() == 1 && (generic[m.food.Name] || className[w]) {
		return class
	}
	return k
}

// there gives an earlier mention of the food that k names: an ingredient's, or
// one in the words looked at; -1 when k is the first.
func (x *standIns) there(k int) int {
	t := x.t
	if o := t.known(k); o >= 0 {
		return o
	}
	for j := t.mentions[k].First - 1; j >= x.a; j-- {
		if o := int(t.mentionAt[j]); o >= 0 && x.usable(o) && !t.mentions[o].negated && t.mentions[o].subst < 0 && related(t.mentions[k].food, t.mentions[o].food) > 0 {
			return o
		}
	}
	return -1
}

// className are words for a whole class of food that people do without.
var className = words("nut dairy milk meat fish egg gluten pork alcohol seafood shellfish spice sugar wheat")

// original gives the food that sub can stand in for: what was said to be
// lacking, else the nearest food of its sort before it. Only with an explicit
// cue may it be of another sort.
func (x *standIns) original(sub, at int, explicit bool) int {
	t := x.t
	if x.lacked >= 0 && x.lacked != sub {
		return x.origin(x.lacked)
	}
	if x.about >= 0 && x.about != sub && (sub < 0 || t.mentions[sub].First > t.mentions[x.about].First) && t.mentions[x.about].name != t.mentionName(sub) {
		return x.origin(x.about)
	}
	nearest, sort := -1, -1
	for j := at - 1; j >= 0 && j >= at-originReach; j-- {
		k := int(t.mentionAt[j])
		if k < 0 || k == sub || t.mentions[k].head.First != j {
			continue
		}
		c := &t.mentions[k]
		switch {
		case c.ingr != nil:
		case c.subst >= 0:
			if sub >= 0 && alike(c.food, t.mentions[sub].food) {
				return c.subst
			}
			continue
		case j >= x.a && !c.negated && !c.compared && !c.mixed && c.alias < 0 && !c.food.Dish && !generic[c.food.Name]:
		default:
			continue
		}
		if sub >= 0 && related(c.food, t.mentions[sub].food) == 2 && c.name == t.mentions[sub].name {
			continue
		}
		if t.placed(c) && t.sentOf[c.First] != t.sentOf[at] {
			continue // "they go in over the potatoes"
		}
		if sub < 0 || c.food.Kind == t.mentions[sub].food.Kind {
			if sort >= 0 && (t.sentOf[c.First] != t.sentOf[t.mentions[sort].First] || !t.punctuated && t.mentions[sort].First-c.First > standInReach) {
				return sort
			}
			return k
		}
		if sort < 0 && alike(c.food, t.mentions[sub].food) {
			sort = k // one of its own kind beside it is nearer: "pecans, pumpkin seeds … almonds"
		}
		if nearest < 0 {
			nearest = k
		}
	}
	if sort >= 0 {
		return sort
	}
	if x.lack >= 0 && x.lacked < 0 && t.in(aDiet, x.lack) {
		return x.dieted(sub)
	}
	if explicit {
		return nearest
	}
	return -1
}

// dietKinds are the kinds of food that a diet does without, by its first word.
var (
	dietKinds = map[string]string{"egg": "egg", "dairy": "dairy", "lactose": "dairy", "nut": "nut", "gluten": "flour", "coeliac": "flour", "celiac": "flour"}
	aDiet     = openers("", diets)
)

// dieted gives the food that the diet spoken of does without, -1 where it names none.
func (x *standIns) dieted(sub int) int {
	kind := dietKinds[x.t.norm(x.lack)]
	if kind == "" {
		return -1
	}
	found := -1
	for _, g := range x.t.ingredients {
		if g.food.Kind == kind && (sub < 0 || g.name != x.t.mentions[sub].name) {
			found = g.mentions[0]
		}
	}
	return found
}

// originalFar is original for what is told at the end or in a letter, when all is cooked:
// it may stand in for the one food of its kind, however far back that went in.
func (x *standIns) originalFar(sub, at int) int {
	if k := x.original(sub, at, false); k >= 0 {
		return k
	}
	return x.onlyOfKind(sub, at, false)
}

// onlyOfKind gives the first mention of the one ingredient of the dish that is of sub's
// sort, or of the same kind, however far back it went in; -1 where there is none or more
// than one.
func (x *standIns) onlyOfKind(sub, at int, same bool) int {
	if sub < 0 {
		return -1
	}
	t := x.t
	m, found := &t.mentions[sub], -1
	dish := t.dishOf(at)
	for _, g := range t.ingredients {
		if g.dish != dish || g.food.Kind == "" || !alike(g.food, m.food) || same && g.food.Kind != m.food.Kind {
			continue
		}
		if found >= 0 || related(g.food, m.food) == 2 {
			return -1
		}
		found = g.mentions[0]
	}
	return found
}

func (t *talk) mentionName(k int) string {
	if k < 0 {
		return ""
	}
	return t.mentions[k].name
}

// takingUp come before a food that went in and of which more is said now: "somebody
// asked about the tamari".
var takingUp = cues("asked about", "asks about", "asking about", "ask about", "asked me about", "asks me about", "asking me about", "wondering about", "wondered about", "what about", "oh and about", "about", "as for", "back to", "a word on", "regarding", "concerning", "said about", "question on", "questions on")

// takenUpAgain gives the known food which the sentence, or a short one right before
// it, opens with to say more of it; -1 for none.
func (x *standIns) takenUpAgain() int {
	t := x.t
	first := x.s.First
	if k := int(t.sentOf[first]); k > 0 && t.punctuated && t.sents[k-1].Len() <= questionWords && t.sents[k-1].para == x.s.para {
		if o := x.topicIn(t.sents[k-1].First, t.sents[k-1].Last); o >= 0 {
			return o
		}
	}
	return x.topicIn(first, x.s.Last)
}

// topicIn gives the known food that tokens [a, b) take up again.
func (x *standIns) topicIn(a, b int) int {
	t := x.t
	for i := a; i < b && i < a+2*standInReach; i++ {
		k := int(t.mentionAt[i])
		if k < 0 || t.mentions[k].First != i && t.mentions[k].head.First != i {
			continue
		}
		m := &t.mentions[k]
		if x.there(k) < 0 && x.origin(k) == k || t.firstNamed(m.food) == k || len(m.amounts) > 0 {
			return -1
		}
		j := m.First - 1
		for j > a && (t.norm(j) == "the" || t.norm(j) == "that" || t.norm(j) == "those" || t.norm(j) == "your") {
			j--
		}
		for n := 1; n <= 3; n++ {
			if j-n+1 >= a && t.cueAt(takingUp, j-n+1, b) == n {
				return k
			}
		}
		return -1
	}
	return -1
}

// sorts are classes of food whose members stand in for each other.
var sorts = []map[string]bool{
	words("oil fat"), words("dairy drink"), words("stock water drink alcohol"), words("sauce condiment"), words("condiment fruit"), words("vegetable legume"), words("vegetable herb"), words("vegetable spice"), words("herb spice"),
	words("meat poultry"), words("meat fish shellfish"), words("poultry fish"), words("meat legume"), words("poultry legume"), words("shellfish legume"), words("poultry shellfish"), words("fish legume"), words("nut seed"), words("nut legume"), words("seed legume"), words("flour thickener grain"), words("flour baking"), words("bread pasta grain"), words("chocolate baking"), words("fruit sweetener"), words("sweetener baking"),
}

// sortsOf are the sorts that a kind of food is of, a bit each: there may be 64.
var sortsOf = func() map[string]uint64 {
	of := map[string]uint64{}
	for k, sort := range sorts {
		for kind := range sort {
			of[kind] |= 1 << k
		}
	}
	return of
}()

// alike reports whether two foods are of one sort.
func alike(a, b *lexicon.Food) bool {
	if a.Kind == b.Kind {
		return true
	}
	if sortsOf[a.Kind]&sortsOf[b.Kind] != 0 {
		return true
	}
	if drunk(a) && drunk(b) || creamy(a) && creamy(b) || lastWord(a.Name) == lastWord(b.Name) {
		return true
	}
	return solidFat(a) && (b.Kind == "oil" || b.Kind == "fat") || solidFat(b) && (a.Kind == "oil" || a.Kind == "fat")
}

// drunk reports whether a food is a drink or a juice.
func drunk(f *lexicon.Food) bool {
	return f.Kind == "alcohol" || f.Kind == "drink" || lastWord(f.Name) == "juice"
}

// creamy reports whether a food is milk or cream, of whatever it is made.
func creamy(f *lexicon.Food) bool {
	switch lastWord(f.Name) {
	case "milk", "cream", "yogurt":
		return true
	}
	return f.Kind == "dairy" && !solidFat(f)
}

// solidFat reports whether a dairy food is a fat to cook with.
func solidFat(f *lexicon.Food) bool {
	return f.Kind == "dairy" && strings.HasSuffix(f.Name, "butter")
}

// exchange reads "swap Y for X", "replace Y with X", "substitute X for Y" from
// its verb at i and reports whether it was one.
func (x *standIns) exchange(i int) bool {
	t := x.t
	if x.refused(i) || t.has(max(x.a, i-3), i, "can't", "cannot", "couldn't", "not", "no") >= 0 {
		return false
	}
	verb := t.norm(i)
	if t.norm(i+1) == "in" {
		sub := x.next(i+2, 4)
		return x.set(sub, x.original(sub, i, true))
	}
	link := -1
	for j := i + 1; j < x.b && j <= i+9; j++ {
		if w := t.norm(j); w == "for" || w == "with" || w == "by" {
			link = j
			break
		}
		if t.toks[j].After.Ends() {
			return false
		}
	}
	if link < 0 {
		return false
	}
	first, second := x.next(i+1, link-i-1), x.next(link+1, 5)
	if first < 0 && x.passive(i) {
		first = x.before(i, standInReach)
	}
	pronoun := first < 0
	if pronoun {
		switch t.norm(i + 1) {
		case "it", "them", "that", "those", "out":
		default:
			return false
		}
	}
	sub, orig := second, first
	if (verb == "substitute" || verb == "sub") && t.norm(link) == "for" && !pronoun {
		sub, orig = first, second
	}
	if orig >= 0 {
		k := x.origin(orig)
		if o := x.there(orig); o >= 0 {
			t.mentions[orig].alias = o
		}
		orig = k
	} else {
		orig = x.original(sub, i, true)
	}
	return x.set(sub, orig)
}

// passive reports whether the verb at i is said of what stands before it:
// "the butter can be swapped".
func (x *standIns) passive(i int) bool {
	switch x.t.norm(i - 1) {
	case "be", "is", "are", "get":
		return true
	}
	return false
}

// insteadOf reads "X instead of Y" from its cue of n tokens at i.
func (x *standIns) insteadOf(i, n int) {
	t := x.t
	orig := x.next(i+n, lackReach+1)
	if w := t.norm(i + n); orig < 0 {
		sub := x.before(i, standInReach)
		if w == "the" || w == "your" {
			w = t.norm(i + n + 1)
		}
		if k := x.namedByWord(w); k >= 0 && sub >= 0 && x.set(sub, k) {
			return // "short ribs instead of the chuck"
		}
		// "X you can use in place of that"
		switch t.norm(i + n) {
		case "it", "that", "them", "those", "this", "these":
		default:
			return // "a fork will do instead of a whisk"
		}
		x.set(sub, x.original(sub, i, true))
		return
	}
	if strings.HasSuffix(t.norm(i+n), "ing") && t.mentionAt[i+n] < 0 && t.modifier(i+n) == lexicon.NoClass {
		return // "instead of frying the onions"
	}
	reach := standInReach
	if pronouns[t.norm(i-1)] {
		reach = 2 * standInReach // "butter burns faster, but you can use it in place of ghee"
	}
	sub := x.before(i, reach)
	if sub < 0 {
		sub = x.next(t.mentions[orig].Last, standInReach)
	}
	if sub < 0 || sub == x.lacked {
		return
	}
	if x.there(orig) < 0 && x.origin(orig) == orig {
		// nothing of the kind was used: what is named first is what goes in
		t.mentions[orig].negated = true
		return
	}
	o := x.origin(orig)
	if x.set(sub, o) {
		if t.mentions[sub].First > t.mentions[orig].First {
			x.restOfList(sub, o) // "in place of the spinach, chard, nettles"
		}
		if k := x.there(orig); k >= 0 {
			t.mentions[orig].alias = k
		} else {
			t.mentions[orig].alias = o
		}
	}
}

// instead reads "X instead" from its cue at i.
func (x *standIns) instead(i int) {
	t := x.t
	if w := t.norm(i - 1); w == "that" || w == "it" || w == "those" || w == "them" {
		// "if you've a hard cheese at the back of the fridge, use that instead"
		sub := x.before(i-1, 3*standInReach)
		if sub >= 0 && sub != x.lacked && t.mentions[sub].ingr == nil && !t.mentions[sub].definite {
			x.set(sub, x.original(sub, t.mentions[sub].First, true))
		}
		return
	}
	if m := x.modified(i); m >= 0 {
		return
	}
	sub := x.before(i, standInReach)
	if sub >= 0 && (sub == x.lacked || x.toolsBetween(sub, i)) {
		sub = -1
	}
	if sub < 0 && (x.opensClause(i) || x.lack >= 0 && i >= x.after) {
		sub = x.next(i+1, standInReach)
	}
	if sub < 0 || t.mentions[sub].definite && t.known(sub) >= 0 {
		return
	}
	// the first of a choice: "chickpeas or beans instead"
	first := sub
	for first > 0 && t.orJoined(first-1, first) && t.mentions[first-1].ingr == nil && len(t.mentions[first-1].amounts) == 0 {
		first--
	}
	x.set(first, x.original(first, t.mentions[first].First, true))
}

func (x *standIns) toolsBetween(sub, i int) bool {
	return x.t.toolIn(x.t.mentions[sub].Last, i)
}

// opensClause reports whether token i begins a clause.
func (x *standIns) opensClause(i int) bool {
	t := x.t
	return i == 0 || i == x.s.First || t.toks[i-1].After != 0 || t.norm(i-1) == "or" || t.norm(i-1) == "and" || t.norm(i-1) == "then"
}

// modified reads a substitute that is only another kind of the food: "fresh
// ones instead". It gives the mention made for it, -1 for none.
func (x *standIns) modified(i int) int {
	t := x.t
	j := i - 1
	if t.norm(j) != "ones" && t.norm(j) != "one" {
		return -1
	}
	first := j
	for first > x.a && t.toks[first-1].After == 0 {
		w := t.norm(first - 1)
		if c := t.lex.Modifiers[w]; c != lexicon.NameWord && c != lexicon.PrepWord && w != "fresh" {
			break
		}
		first--
	}
	if first == j {
		return -1
	}
	orig := x.original(-1, first, true)
	if orig < 0 {
		return -1
	}
	o := &t.mentions[orig]
	head := t.phraseHyphen(o.head.Last-1, o.head.Last)
	name := t.phrase(first, j) + " " + head
	if strings.EqualFold(name, o.name) {
		return -1
	}
	t.mentions = append(t.mentions, mention{Span: language.Span{First: first, Last: j + 1}, head: language.Span{First: j, Last: j + 1}, food: o.food, name: name, alias: -1, subst: orig})
	k := len(t.mentions) - 1
	t.mentionAt[j] = int32(k)
	return k
}

// failing reads "Y if you can get it, otherwise X" from its cue of n tokens
// at i: the food must follow at once.
func (x *standIns) failing(i, n int) {
	t := x.t
	k := x.next(i+n, 4)
	if k < 0 {
		return
	}
	m := &t.mentions[k]
	for j := i + n; j < m.First; j++ {
		if w := t.norm(j); !articleLike[w] && t.cueAt(usage, j, x.b) == 0 && t.quantityAt[j] < 0 {
			return
		}
	}
	if m.definite || t.known(k) >= 0 {
		return
	}
	x.set(k, x.original(k, i, t.norm(i) == "failing" || t.norm(i) == "as"))
}

// afterLack reads what is to be taken for a lacked food where no other cue
// told it: the first food after the clause, or the one before it.
func (x *standIns) afterLack() {
	t := x.t
	from := x.after
	if x.lack < x.s.First && t.punctuated {
		from = max(from, x.s.First) // "No thyme? Oregano, then."
	}
	reach := standInReach + 2
	if x.lacked >= 0 && t.punctuated && x.takenAtLast(from) {
		reach *= 3 // "if somebody hates caraway, and there are such people, take poppy seeds"
	}
	if k := x.next(from, reach); k >= 0 && t.mentions[k].subst < 0 && (x.takenUp(from, t.mentions[k].First) || (t.mentions[k].First <= from+1 || x.onlyAmount(from, t.mentions[k].First)) && t.toks[from-1].After != 0 || x.itIs(from, t.mentions[k].First) || x.saidAfter(k) || x.lacked >= 0 && x.lacked != k && t.known(k) < 0 && !t.mentions[k].definite && len(t.mentions[k].amounts) == 0 && alike(t.mentions[k].food, t.mentions[x.origin(x.lacked)].food)) {
		if t.has(from, t.mentions[k].First, "leave", "skip", "no", "forget") < 0 && !x.acted(from, t.mentions[k].First) {
			x.set(k, x.original(k, x.lack, true))
			return
		}
	}
	// "water, if there's no stock"
	open := x.lack
	for open > x.a && t.norm(open) != "if" {
		open--
	}
	k := x.before(open, 2)
	if k < 0 || t.mentions[k].subst >= 0 || len(t.mentions[k].amounts) > 0 {
		return
	}
	switch m := &t.mentions[k]; {
	case x.lacked < 0:
		// "a hundred grams of butter, ghee if you can't get it"
		if t.norm(x.after-1) != "any" || t.marked(m.Last, x.s.Last) {
			x.second(k, m.First, false)
		}
	case (m.First <= x.s.First+2 && alike(m.food, t.mentions[x.lacked].food) || x.takenUp(x.s.First, m.First)) && t.known(k) < 0:
		x.set(k, x.origin(x.lacked))
	}
}

// takenAtLast reports whether, over a remark that names no food, a verb of using stands
// right before the next food from token i on.
func (x *standIns) takenAtLast(i int) bool {
	t := x.t
	k := x.next(i, 3*(standInReach+2))
	return k >= 0 && t.cueAt(usage, t.mentions[k].First-1, t.mentions[k].First) == 1 && t.toks[t.mentions[k].First-2].After != 0
}

// itIs reports whether tokens [a, b) only say that it is what follows: "if you don't
// cook with wine, it's apple juice for you".
func (x *standIns) itIs(a, b int) bool {
	t := x.t
	switch t.norm(a) {
	case "it's", "it'll", "there's", "then":
	default:
		return false
	}
	for i := a + 1; i < b; i++ {
		switch w := t.norm(i); {
		case articleLike[w] || hedges[w] || w == "be" || w == "it's" || w == "then" || w == "there's":
		default:
			return false
		}
	}
	return true
}

// onlyAmount reports whether tokens [a, b) hold an amount and nothing else: "if
// you've no paste, a squirt of ketchup".
func (x *standIns) onlyAmount(a, b int) bool {
	t := x.t
	for i := a; i < b; i++ {
		if t.quantityAt[i] < 0 && !articleLike[t.norm(i)] && t.norm(i) != "of" && t.modifier(i) == lexicon.NoClass {
			return false
		}
	}
	return b-a <= 5
}

// acted reports whether a verb that isn't one of using stands in [a, b).
func (x *standIns) acted(a, b int) bool {
	t := x.t
	for i := a; i < b; i++ {
		if k := t.actionAt[i]; k >= 0 && !offering[t.norm(i)] {
			switch t.actions[k].verb.Kind {
			case "add", "prepare", "season", "remove", "serve":
			default:
				return true
			}
		}
	}
	return false
}

func (x *standIns) saidAfter(k int) bool {
	t := x.t
	end := min(x.b, t.mentions[k].Last+standInReach)
	if i, _ := t.cueIn(sayIdioms, t.mentions[k].Last, end); i >= 0 {
		return true
	}
	for i := t.mentions[k].Last; i < end && !x.t.toks[i-1].After.Ends(); i++ {
		if x.beginsPredicate(i) && x.predicate(i) > 0 {
			return true
		}
	}
	return false
}

// alternatives reads "sunflower oil, or vegetable oil" and "chicken or
// vegetable stock".
func (x *standIns) alternatives() {
	t := x.t
	ms := t.mentionsIn(x.s.First, x.s.Last)
	if k := int(t.sentOf[x.s.First]); k > 0 && len(ms) > 0 && t.norm(x.s.First) == "or" {
		// "a hundred grams of butter. Or ghee, I'm not fussy."
		if before := t.mentionsIn(t.sents[k-1].First, t.sents[k-1].Last); len(before) > 0 && t.sents[k-1].para == x.s.para {
			ms = append(before[len(before)-1:], ms...)
		}
	}
	for n := 1; n < len(ms); n++ {
		a, b := &t.mentions[ms[n-1]], &t.mentions[ms[n]]
		if a.negated || a.compared || b.compared || a.mixed || b.mixed || !t.orJoined(ms[n-1], ms[n]) && !x.orElse(a.Last, b.First) || b.subst >= 0 || b.ingr != nil {
			continue
		}
		if ms[n-1] == x.lacked {
			continue
		}
		t.sharedNoun(a, b)
		measured := len(b.amounts) > 0 && !t.articleOnly(b)
		switch {
		case a.subst >= 0 && (!measured || t.norm(x.s.First) == "or" && t.sentOf[a.First] != t.sentOf[b.First]):
			b.subst = a.subst
		case a.food != b.food && a.subst < 0 && (!measured || len(a.amounts) > 0):
			b.subst = x.ofSort(ms[n-1], b)
		}
	}
}

// ofSort gives the food that b, named after mention k with "or", is another choice for: k,
// or where that is of another sort the nearest one in its sentence that is of b's: "rub
// the lard into the flour. Or dripping".
func (x *standIns) ofSort(k int, b *mention) int {
	t := x.t
	if alike(t.mentions[k].food, b.food) {
		return k
	}
	before := t.mentionsIn(t.sentence(t.mentions[k].First).First, t.mentions[k].First)
	for n := len(before) - 1; n >= 0; n-- {
		if o := &t.mentions[before[n]]; (o.ingr != nil || x.usable(before[n]) && !o.negated && o.alias < 0) && o.subst < 0 && alike(o.food, b.food) {
			return before[n]
		}
	}
	return k
}

// elseWords may stand between "or" and a food that is another choice.
var elseWords = words("indeed you know i say also alternatively equally well in at a an the some your any pinch push do go use try take have get put with for can could might even just same of amount possibly perhaps maybe plain ordinary simply is it's it if not need available be that's")

// orElse reports whether tokens [a, b) between two foods hold an "or" that
// makes the second another choice: "or, in a pinch,", "or if that's not
// available,".
func (x *standIns) orElse(a, b int) bool {
	t := x.t
	or := -1
	for i := a; i < b; i++ {
		w := t.norm(i)
		switch {
		case w == "or" && or < 0:
			if t.is(i-1, "it", "or", "not") {
				return false // "believe it or not"
			}
			or = i
		case or >= 0 && i > or+8:
			return false
		case or < 0 && (i > a+3 || t.actionAt[i] >= 0 || t.toks[i].After.Ends() && t.norm(i+1) != "or"):
			return false
		case or < 0 || elseWords[w] || articleLike[w]:
		case t.quantityAt[i] < 0 && t.lex.Modifiers[w] == lexicon.NoClass:
			return false
		}
	}
	return or >= 0
}

// sharedNoun gives "chicken" in "chicken or vegetable stock" the noun it
// shares, where there is such a food.
func (t *talk) sharedNoun(a, b *mention) {
	if a.Last+1 != b.First || t.norm(a.Last) != "or" || t.toks[a.Last-1].After != 0 || b.Last-b.First < 2 {
		return
	}
	noun := t.norm(b.head.Last - 1)
	if t.norm(a.head.Last-1) == noun {
		return
	}
	f, ok := t.lex.FoodNamed(t.phrase(a.head.First, a.head.Last) + " " + noun)
	if !ok {
		return
	}
	a.food = f
	a.name += " " + noun
}

func (t *talk) articleOnly(m *mention) bool {
	for _, q := range m.amounts {
		if x := &t.quantities[q]; !x.article || x.kind != count {
			return false
		}
	}
	return true
}

// orJoined reports whether only "or" and small words stand between two foods.
func (t *talk) orJoined(a, b int) bool {
	x, y := &t.mentions[a], &t.mentions[b]
	if t.sentOf[x.First] != t.sentOf[y.First] || y.First < x.Last || y.First-x.Last > 5 {
		return false
	}
	found := false
	for i := x.Last; i < y.First; i++ {
		switch t.norm(i) {
		case "or":
			found = true
		case "even", "the", "a", "some", "if", "just", "else", "an", "maybe", "your", "of", "use", "you", "can", "could", "any", "instead", "prefer", "like", "want", "you'd", "rather", "perhaps", "possibly", "else's", "whatever", "good", "one", "failing", "that":
		default:
			if t.quantityAt[i] < 0 {
				return false
			}
		}
	}
	return found
}

// mentionsIn gives the mentions whose head begins in tokens [a, b).
func (t *talk) mentionsIn(a, b int) []int {
	var out []int
	for i := a; i < b && i < len(t.toks); i++ {
		if m := t.mentionAt[i]; m >= 0 && t.mentions[m].head.First == i {
			out = append(out, int(m))
		}
	}
	return out
}

// known gives the mention's food's earlier mention, -1 when it is the first.
func (t *talk) known(k int) int { return t.firstNamed(t.mentions[k].food) }

// firstNamed gives the first mention of the ingredient nearest to a food, -1
// when none was taken up.
func (t *talk) firstNamed(f *lexicon.Food) int {
	best, close := -1, 0
	var kin kinSign
	kin.addFood(f)
	for i := t.firstRecent(); i < len(t.ingredients); i++ {
		if !kin.meets(&t.kin[i]) {
			continue
		}
		g := t.ingredients[i]
		if r := related(f, g.food); r > close {
			best, close = g.mentions[0], r
		}
	}
	return best
}
