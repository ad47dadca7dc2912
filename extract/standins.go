package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// What a sentence says of the food that can stand in: that it does as well ("X will
// do", "X is a good swap"), that it may be taken ("you can use X"), or that it comes
// second ("if you only have X").

// says reads "X works too" from its cue at i.
func (x *standIns) says(i int, explicit bool) {
	t := x.t
	sub := x.contracted(i)
	if sub < 0 {
		sub = x.before(i, 3)
	}
	if sub < 0 && (t.norm(i-1) == "it'll" || t.norm(i-1) == "they'll") {
		if k := x.before(i, standInReach); k >= 0 && t.mentions[k].First == x.s.First {
			sub = k // "butter isn't as good, but it'll pass"
		}
	}
	if sub < 0 && x.lack >= 0 {
		sub = x.before(i, 2*standInReach) // "milk with a squeeze of lemon stirred through it does the same job"
		for sub > 0 && t.mentions[sub-1].First > x.after && t.sentOf[t.mentions[sub-1].First] == t.sentOf[i] {
			sub--
		}
	}
	if sub < 0 && explicit && x.lack < 0 {
		sub = x.mixedFor(i)
	}
	if sub >= 0 && explicitAll[t.norm(i-1)] {
		sub = x.firstListed(sub)
	}
	for sub > 0 && t.orJoined(sub-1, sub) && t.mentions[sub-1].ingr == nil && t.mentions[sub-1].subst < 0 && len(t.mentions[sub-1].amounts) == 0 && sub-1 != x.lacked {
		sub-- // "honey or golden syrup would be fine"
	}
	if sub >= 0 && (t.norm(i) == "at" || t.norm(i+2) == "enough") {
		t.mentions[sub].amounts = nil // "at a pinch", "is near enough" measure nothing
	}
	if sub < 0 || sub == x.lacked || len(t.mentions[sub].amounts) > 0 && !t.articleOnly(&t.mentions[sub]) {
		return
	}
	if !explicit && (t.mentions[sub].definite || x.already(sub)) || explicit && x.lack < 0 && t.mentions[sub].definite && t.known(sub) >= 0 {
		return
	}
	orig := x.original(sub, t.mentions[sub].First, explicit)
	if orig < 0 && t.punctuated && t.mentions[sub].First == x.s.First {
		orig = x.onlyOfKind(sub, i, true) // told when all is cooked
	}
	if x.set(sub, orig) {
		x.restOfList(sub, orig)
	}
}

// explicitAll take up all the foods of a list: "sausage, bacon, they all work".
var explicitAll = words("they all those both either")

// firstListed gives the first of the unmeasured foods that are listed with sub, the last.
func (x *standIns) firstListed(sub int) int {
	t := x.t
	for sub > 0 {
		a, b := &t.mentions[sub-1], &t.mentions[sub]
		if a.ingr != nil || !x.usable(sub-1) || a.definite || len(a.amounts) > 0 || t.sentOf[a.First] != t.sentOf[b.First] || a.First < x.a || b.First-a.Last > 2 {
			break
		}
		sub--
	}
	return sub
}

// fromTins are words for how a food was kept that name what is bought.
var fromTins = words("frozen tinned canned dried jarred fresh bottled")

// bareSort reads a predicate on another sort of the food before, which it names by its
// first word only: "granulated is fine", "frozen works too".
func (x *standIns) bareSort(i int) bool {
	t := x.t
	if t.mentionAt[i] >= 0 || !x.allowsSort(i) && (i+1 >= x.b || i > x.s.First && t.toks[i-1].After == 0 || t.toks[i].After != 0) {
		return false
	}
	w := strings.TrimSuffix(strings.TrimSuffix(t.norm(i), "'s"), "'ll")
	if t.lex.Modifiers[w] == lexicon.NoClass || !x.allowsSort(i) && x.predicate(i+1) < ofItsSort {
		return false
	}
	for j := i - 1; j >= 0 && j >= i-originReach; j-- {
		k := int(t.mentionAt[j])
		if k < 0 || t.mentions[k].head.Last != j+1 {
			continue
		}
		o := &t.mentions[k]
		if o.ingr == nil && (t.punctuated || j < x.a || !x.usable(k) || o.negated || o.definite || o.alias >= 0 || o.subst >= 0) {
			continue
		}
		name := w + " " + t.norm(j)
		f, ok := t.lex.FoodNamed(name)
		if !ok && fromTins[w] {
			f, ok = o.food, true
		}
		if !ok || strings.EqualFold(name, o.name) || strings.EqualFold(f.Name, o.food.Name) && !fromTins[w] {
			continue
		}
		t.mentions = append(t.mentions, mention{Span: language.Span{First: i, Last: i + 1}, head: language.Span{First: i, Last: i + 1}, food: f, name: name, alias: -1, subst: k})
		t.mentionAt[i] = int32(len(t.mentions) - 1)
		return true
	}
	return false
}

// allowing end right before the first word of another sort of the food.
var allowing = cues("nothing wrong with", "no shame in", "can use", "could use", "can buy", "could buy", "only have", "only got", "happily use", "get away with")

// allowsSort reports whether the word at i, which ends its clause, tells how a food was
// kept and is allowed by the words before it: "there's nothing wrong with frozen".
func (x *standIns) allowsSort(i int) bool {
	t := x.t
	if !fromTins[t.norm(i)] || i-3 < x.a {
		return false
	}
	if t.punctuated && i+1 < x.b && t.toks[i].After == 0 || !t.punctuated && t.mentionStart(i+1) >= 0 {
		return false
	}
	return t.cueAt(allowing, i-3, i) == 3 || t.cueAt(allowing, i-2, i) == 2
}

// mixedFor gives the food with which the clause of token i opens, where something is
// mixed with it: "milk with a squeeze of lemon in it does the same job".
func (x *standIns) mixedFor(i int) int {
	t := x.t
	for j := max(x.a, i-2*standInReach); j < i; j++ {
		k := int(t.mentionAt[j])
		if k < 0 || t.mentions[k].First != j && t.mentions[k].head.First != j {
			continue
		}
		e := t.mentions[k].Last
		if w := t.norm(e); (w == "with" || w == "and" || w == "plus") && x.usable(k) && !t.marked(j, i) && t.nextFood(e, i) >= 0 {
			return k
		}
	}
	return -1
}

// How far a predicate goes to make its food a substitute.
const (
	afterALack = 1 // only where another food is said to be lacking
	ofItsSort  = 2 // where it is of the sort of the food before
	byItself   = 3
)

var (
	// auxiliaries and hedges may stand before the verb of a predicate or an offer.
	auxiliaries = words("will 'll would 'd could can should might may does")
	hedges      = words("both either probably perfectly absolutely always nearly almost still really very so quite easily happily definitely certainly totally completely actually well honestly all usually generally just even only quite pretty simply")
	// equal words tell that two foods do alike.
	equal = words("also equally same instead too alike likewise as")
	// denying words end a predicate that says no.
	denying = words("not never don't doesn't won't wouldn't can't couldn't isn't aren't wasn't shouldn't no hardly")
	// acceptable are adjectives with which a food passes; welcome are those of
	// praise, which say so of a stand-in only beside another cue.
	acceptable = words("fine ok okay grand alright right acceptable passable adequate decent possible doable allowed perfect")
	welcome    = words("good great lovely nice delicious brilliant beautiful excellent gorgeous tasty ideal cheaper easier")
	// substituteNouns name what stands in; choiceNouns may.
	substituteNouns = words("substitute substitutes replacement replacements alternative alternatives swap swaps stand-in stand-ins standin stand backup fallback")
	choiceNouns     = words("option choice bet friend answer thing way one")
	// condemning words say that the other food was no good.
	condemning = words("awful terrible disaster horrible mistake wrong glue ruined ruins regretted disgusting worse sad rubbish crime nasty horrid vile heresy sin splits split curdled curdles")
)

// condemned reports whether the clause from token i on says that it went badly.
func (x *standIns) condemned(i int) bool {
	t := x.t
	for j := i; j < x.b && j < i+2*standInReach; j++ {
		if t.in(aCondemning, j) {
			return true
		}
		if t.toks[j].After.Ends() {
			return false
		}
	}
	return false
}

// beginsPredicate reports whether token i is where a predicate on a food
// begins: right after it, or after "that", "which" or "it" that takes it up.
func (x *standIns) beginsPredicate(i int) bool {
	t := x.t
	if i <= x.a || t.toks[i-1].After.Ends() {
		return false
	}
	if t.mentionAt[i-1] >= 0 || strings.HasSuffix(t.norm(i-1), "'ll") {
		return true
	}
	if w := t.norm(i); t.in(anAuxiliary, i) || w == "is" || w == "are" || w == "works" || w == "work" {
		// "cottage cheese blitzed smooth is a good swap"
		for j := i - 1; j > x.a && j >= i-3 && t.toks[j-1].After == 0 && t.treatedWord(j); j-- {
			if t.mentionAt[j-1] >= 0 {
				return true
			}
		}
	}
	switch t.norm(i - 1) {
	case "that", "which", "it", "they", "those", "ones", "one":
		return x.before(i-1, 3) >= 0 || x.lack >= 0
	}
	return false
}

// treatedWord reports whether the word at i tells what was done to a food: "blitzed",
// "smooth", "chopped".
func (t *talk) treatedWord(i int) bool {
	if c := t.modifier(i); c != lexicon.NoClass {
		return true
	}
	for _, f := range t.verbs(i) {
		if f.Form == lexicon.Past {
			return true
		}
	}
	return false
}

// predicate reads "will do", "also works", "is fine too", "would make a decent
// stand-in" at token i and tells how far it goes, 0 for another predicate.
func (x *standIns) predicate(i int) int {
	t := x.t
	strong, modal := false, false
	ends := func(j int) bool { return j >= x.b || t.toks[j-1].After != 0 }
	first := i
	if w := t.norm(i); w == "i've" || w == "we've" || w == "you've" {
		return x.fronted(i)
	}
	if strings.HasSuffix(t.norm(i-1), "'s") {
		return x.complement(i, false) // "Greek yogurt's fine too"
	}
	for ; ; i++ {
		if i > first && ends(i) {
			// "rice noodles also can"
			if strong && modal {
				return byItself
			}
			return 0
		}
		w := t.norm(i)
		switch {
		case denying[w]:
			return 0
		case auxiliaries[w]:
			modal = modal || w != "does"
			if w == "does" && t.baseVerb(i+1) == nil {
				return x.does(i+1, strong)
			}
			continue
		case equal[w] && w != "same":
			strong = true
			continue
		case w == "every" && t.norm(i+1) == "bit":
			strong = true
			i++
			continue
		case hedges[w]:
			continue
		}
		break
	}
	switch w := t.norm(i); w {
	case "do":
		if acceptable[t.norm(i+1)] && (t.norm(i+1) != "right") {
			return x.tail(i+2, ofItsSort, strong)
		}
		if !modal && !strong && !strings.HasSuffix(t.norm(first-1), "'ll") && t.norm(i+1) != "just" && t.norm(i+1) != "the" && t.norm(i+1) != "nicely" {
			return 0
		}
		return x.does(i+1, strong)
	case "work", "works", "worked":
		return x.tail(i+1, ofItsSort, strong)
	case "pass", "passes", "suffice", "suffices":
		return x.tail(i+1, ofItsSort, strong)
	case "see", "tide":
		if t.is(i+1, "you", "through") || t.is(i+1, "you", "right") || t.is(i+1, "you", "over") {
			return ofItsSort
		}
	case "serve", "serves", "substitutes", "deputise", "deputises":
		if t.norm(i+1) == "with" || t.norm(i+1) == "it" || t.norm(i+1) == "them" {
			return 0
		}
		return byItself
	case "substitute", "sub":
		if modal || i+1 < x.b && t.toks[i].After == 0 && (hedges[t.norm(i+1)] || t.norm(i+1) == "nicely") {
			return byItself
		}
	case "stand", "stands", "fill", "fills", "step", "steps":
		if t.norm(i+1) == "in" {
			return byItself
		}
	case "take", "takes":
		if t.has(i, min(x.b, i+4), "place") >= 0 {
			return byItself
		}
	case "behave", "behaves", "act", "acts", "cook", "cooks", "bake", "bakes", "melt", "melts", "taste", "tastes", "give", "gives", "has", "have":
		if t.has(i, min(x.b, i+6), "same", "alike", "similar", "just as", "itself", "themselves") >= 0 {
			return byItself
		}
	case "get", "gets":
		if t.has(i, min(x.b, i+6), "you there", "close", "most of the way") >= 0 {
			return byItself
		}
	case "keep", "keeps", "make", "makes":
		if pronouns[t.norm(i+1)] && t.cueAt(diets, i+2, x.b) > 0 {
			return ofItsSort // "vegetable broth keeps it vegan"
		}
		if w[0] == 'k' {
			return 0
		}
		return x.noun(i+1, strong)
	case "be", "is", "are", "'s", "was", "were":
		return x.complement(i+1, strong)
	case "you", "i", "we":
		return x.fronted(i)
	}
	return 0
}

// disasters are nouns for what a stand-in is not: "cider vinegar is no catastrophe".
var disasters = words("catastrophe disaster tragedy crime sin problem scandal shame bother trouble harm mistake")

// noDisaster reports whether such a noun stands at token i, maybe behind an article.
func (t *talk) noDisaster(i int) bool {
	if w := t.norm(i); w == "a" || w == "any" || w == "great" {
		i++
	}
	return disasters[t.norm(i)]
}

// frontedVerbs are verbs of using whose object was brought forward.
var frontedVerbs = words("take taken took use used try tried do done put have had buy bought")

// fronted reads a food brought forward that may be used too: "spelt you can also take",
// "haddock I've done too", from who uses it at token i, right behind the food.
func (x *standIns) fronted(i int) int {
	t := x.t
	modal, strong := strings.HasSuffix(t.norm(i), "'ve"), false
	for j := i + 1; j < x.b && j < i+5 && t.toks[j-1].After == 0; j++ {
		switch w := t.norm(j); {
		case denying[w]:
			return 0
		case auxiliaries[w] || w == "have":
			modal = true
		case equal[w]:
			strong = true
		case hedges[w] || w == "sometimes" || w == "often":
		case frontedVerbs[w]:
			if !modal {
				return 0
			}
			if strong {
				if j+1 >= x.b || t.toks[j].After != 0 {
					return byItself
				}
				return 0
			}
			return x.tail(j+1, afterALack, false)
		default:
			return 0
		}
	}
	return 0
}

// does reads what follows "will do": "the same job", "nicely", nothing.
func (x *standIns) does(i int, strong bool) int {
	t := x.t
	if t.norm(i) == "you" || t.norm(i) == "me" || t.norm(i) == "us" {
		i++
	}
	if t.has(i, min(x.b, i+4), "same", "job", "trick", "just as", "as well") >= 0 {
		return x.tail(i, ofItsSort, strong)
	}
	w := t.norm(i)
	if i < x.b && t.toks[i-1].After == 0 && w != "if" && w != "when" && w != "for" && w != "in" && w != "at" && w != "but" && w != "and" && !acceptable[w] && !equal[w] && w != "nicely" && w != "well" && w != "here" && w != "just" && w != "perfectly" && w != "it" {
		if t.punctuated {
			return 0
		}
	}
	return x.tail(i, ofItsSort, strong)
}

// complement reads what follows "is": "fine too", "a good alternative", "used
// in its place", "what I'd use".
func (x *standIns) complement(i int, strong bool) int {
	t := x.t
	praised := false
	for ; i < x.b && t.toks[i-1].After == 0; i++ {
		w := t.norm(i)
		switch {
		case denying[w] && (w == "no" || w == "not") && t.noDisaster(i+1):
			return x.tail(i+2, ofItsSort, true)
		case denying[w]:
			return 0
		case acceptable[w], (w == "near" || w == "close") && t.norm(i+1) == "enough":
			return x.tail(i+1, ofItsSort, strong)
		case welcome[w]:
			if praised || t.norm(i-1) == "perfectly" || t.norm(i-1) == "just" {
				return x.tail(i+1, ofItsSort, strong)
			}
			return x.tail(i+1, afterALack, strong)
		case w == "used" || w == "swapped" || w == "substituted" || w == "put":
			return x.tail(i+1, ofItsSort, strong)
		case w == "a" || w == "an" || w == "the" || w == "your" || w == "my" || w == "our":
			return x.noun(i, strong)
		case w == "what" && t.has(i, min(x.b, i+4), "wanted", "meant", "asked", "should", "need", "needed", "want", "said") < 0:
			return x.tail(i+1, ofItsSort, strong)
		case equal[w]:
			strong = strong || w != "too"
		case w == "every" || w == "bit" || hedges[w] || w == "no":
		default:
			return 0
		}
	}
	return 0
}

// noun reads "a decent stand-in", "the next best thing".
func (x *standIns) noun(i int, strong bool) int {
	t := x.t
	for j := i; j < x.b && j < i+6; j++ {
		w := t.norm(j)
		switch {
		case denying[w]:
			return 0
		case w == "same" && (j+1 >= x.b || t.toks[j].After != 0 || t.norm(j+1) == "thing" || t.norm(j+1) == "job" || !t.punctuated):
			return x.tail(j+1, ofItsSort, false)
		case substituteNouns[w], w == "best" && t.norm(j-1) == "next", w == "closest", w == "nearest":
			return byItself
		case choiceNouns[w]:
			return x.tail(j+1, afterALack, strong)
		}
		if t.toks[j].After != 0 {
			break
		}
	}
	return 0
}

// tail looks at what ends a predicate: "too", "just as well", "in its place"
// make it strong, "with it" makes it a pairing.
func (x *standIns) tail(i, level int, strong bool) int {
	t := x.t
	if strong {
		level = byItself
	}
	if k := i; t.toks[i-1].After == 0 && k+2 < x.b {
		if w := t.norm(k); acceptable[w] || welcome[w] || w == "well" || w == "nicely" || w == "beautifully" {
			k++
		}
		if (t.norm(k) == "with" || t.norm(k) == "alongside") && (pronouns[t.norm(k+1)] || t.norm(k+1) == "this") {
			return 0 // "cream works well with it"
		}
	}
	if t.toks[i-1].After == 0 && i < x.b {
		switch t.norm(i) {
		case "with", "on", "in", "over", "alongside", "together":
			if level == byItself || t.norm(i) == "in" && t.norm(i+1) == "its" {
				break
			}
			if level == afterALack || t.norm(i) == "with" || t.norm(i) == "alongside" {
				return 0
			}
		}
	}
	for j := i; j < x.b && j < i+7 && t.toks[j-1].After == 0; j++ {
		switch w := t.norm(j); {
		case equal[w] && w != "as":
			return byItself
		case w == "as" && (t.norm(j+1) == "well" || t.norm(j+1) == "good" || t.norm(j-1) == "just"):
			return byItself
		case w == "place" && t.norm(j-2) == "in", w == "pinch", w == "push":
			return byItself
		case t.mentionAt[j] >= 0 && w != "it":
			return level
		}
	}
	return level
}

// fallbackWords tell in a condition that a food is a second choice.
var fallbackWords = cues("only", "all", "that's what", "it's what", "must", "prefer", "prefers", "rather", "easier", "handier", "cheaper", "need to", "have to", "nothing else", "can't", "cannot", "haven't", "haven't got", "don't have", "can't get", "can't find", "more your", "what's in", "what you have", "what you've got", "the shop")

// onlyIf reads a condition at token i that makes a second choice of the food in
// it ("if you only have X", "if you'd rather use X") or before it ("X if you
// prefer", "X if that's all there is").
func (x *standIns) onlyIf(i int) {
	t := x.t
	end := i + 1
	for end < x.b && end < i+10 && (t.toks[end-1].After == 0) {
		end++
	}
	f, _ := t.cueIn(fallbackWords, i+1, end)
	if f < 0 {
		return
	}
	inside := x.next(i+1, end-i-1)
	if inside >= 0 {
		switch w := t.norm(f); w {
		case "only", "all", "prefer", "prefers", "rather":
		default:
			return
		}
		if t.has(i, t.mentions[inside].First, "not", "don't", "avoid") >= 0 || t.norm(f) == "all" && t.has(i, end, "is", "'s", "that's", "you've got", "you have") < 0 {
			return
		}
		x.second(inside, i, t.norm(f) != "prefer" && t.norm(f) != "prefers")
		return
	}
	sub := x.before(i, 3)
	if sub < 0 {
		return
	}
	if k := x.next(i+1, end-i-1); k >= 0 {
		return
	}
	x.second(sub, i, t.norm(f) == "all" || strings.HasPrefix(t.norm(f), "that's"))
}

// second makes mention sub, a second choice, stand in for the food before it
// where it isn't known and not measured.
func (x *standIns) second(sub, at int, strong bool) bool {
	t := x.t
	m := &t.mentions[sub]
	if sub == x.lacked || m.definite && x.lack < 0 || x.already(sub) || len(m.amounts) > 0 && !t.articleOnly(m) {
		return false
	}
	return x.set(sub, x.original(sub, m.First, strong))
}

// nextBest reads "the closest thing is X", "a good alternative would be X".
func (x *standIns) nextBest(i int) bool {
	t := x.t
	w := t.norm(i)
	if !t.in(aSubstituteNoun, i) && w != "closest" && w != "nearest" && !(w == "best" && (t.norm(i-1) == "next" || t.norm(i-1) == "second")) || w == "swap" || w == "stand" {
		return false
	}
	for j := i - 1; j >= x.a && j >= i-4; j-- {
		if denying[t.norm(j)] {
			return false
		}
	}
	for j := i + 1; j < x.b && j <= i+6; j++ {
		if t.toks[j-1].After.Ends() {
			return false
		}
		switch t.norm(j) {
		case "is", "'s", "be", "are":
			sub := x.next(j+1, 4)
			return sub >= 0 && x.second(sub, i, true)
		}
	}
	return false
}

var (
	// offering are verbs that take up another food after a modal.
	offering = words("use using used uses try take choose pick")
	// offeringWith are verbs that do so with a small word.
	offeringWith = cues("go with", "go for", "get away with", "get by with", "make do with", "settle for", "opt for", "reach for", "swap in", "sub in", "do", "have", "put", "put in", "add", "throw in")
	// offerers open an offer.
	offerers = words("you one we they people some i i'd i've you'd you'll you've youse y'all")
)

// offer reads "you can also use X", "you'd get away with X", "I've used X" from
// its subject or modal at token i.
func (x *standIns) offer(i int) bool {
	t := x.t
	first := i
	strong, modal, you := false, false, false
	switch w := t.norm(i); {
	case w == "feel" && t.norm(i+1) == "free":
		modal, you = true, true
		i += 3
	case t.in(anOfferer, i):
		you = w[0] == 'y'
		modal = strings.HasSuffix(w, "'d") || strings.HasSuffix(w, "'ve")
		i++
	case w == "or":
		modal, strong = true, true
		i++
		if t.norm(i) == "there's" {
			return x.offers(first, 2, strong) // "or there's buttermilk"
		}
	case w == "can" || w == "could" || w == "might":
	default:
		return false
	}
	for ; i < x.b && i < first+8; i++ {
		if i == 0 || t.toks[i-1].After.Ends() {
			return false
		}
		w := t.norm(i)
		switch {
		case denying[w]:
			return false
		case auxiliaries[w] || w == "'ve":
			modal = true
			continue
		case w == "be" && t.norm(i+1) == "forgiven" && t.norm(i+2) == "for":
			i += 2
			strong = true
			continue
		case equal[w]:
			strong = true
			continue
		case hedges[w] || w == "sometimes" || w == "often":
			modal = modal || w == "sometimes" || w == "often"
			continue
		case offerers[w] && first+1 == i:
			you = w[0] == 'y'
			continue
		}
		break
	}
	if !modal {
		return false
	}
	if offering[t.norm(i)] {
		return x.offers(first, i+1-first, strong)
	}
	if n := t.cueAt(offeringWith, i, x.b); n > 0 {
		using := n > 1 && t.norm(i) != "put" && t.norm(i) != "throw"
		if x.lack >= 0 || using && you || strong && you && t.norm(i) != "add" && t.norm(i) != "put" && t.norm(i) != "throw" {
			return x.offers(first, i+n-first, strong || t.norm(i) == "get" || t.norm(i) == "make")
		}
	}
	return false
}

// contracted finds a food whose last word runs into the cue: "skirt steak'll
// do". It gives the mention made for it, -1 for none.
func (x *standIns) contracted(i int) int {
	t := x.t
	e := i
	last := strings.TrimSuffix(t.norm(e-1), "'ll")
	if last == t.norm(e-1) || t.mentionAt[e-1] >= 0 {
		return -1
	}
	for first := max(x.a, e-3); first < e; first++ {
		name := strings.TrimSpace(t.phrase(first, e-1) + " " + last)
		f, ok := t.lex.FoodNamed(name)
		if !ok {
			f, ok = t.lex.FoodNamed(strings.TrimSpace(t.phrase(first, e-1) + " " + lexicon.Singular(last)))
		}
		if ok {
			t.mentions = append(t.mentions, mention{Span: language.Span{First: first, Last: e}, head: language.Span{First: first, Last: e}, food: f, name: name, alias: -1, subst: -1})
			for j := first; j < e; j++ {
				t.mentionAt[j] = int32(len(t.mentions) - 1)
			}
			return len(t.mentions) - 1
		}
	}
	return -1
}

// offers reads "you can also use X" from its cue of n tokens at i; strong tells
// that it names X as another choice.
func (x *standIns) offers(i, n int, strong bool) bool {
	t := x.t
	sub := x.next(i+n, 5)
	if sub < 0 || sub == x.lacked || x.markedBefore(i+n, t.mentions[sub].First) || x.condemned(i+n) || t.is(i-2, "used", "to") {
		return false
	}
	if t.norm(i) == "same" && (i != x.s.First || t.mentions[sub].Last != x.s.Last && t.toks[t.mentions[sub].Last-1].After == 0) {
		return false // "do the same with the carrots"
	}
	m := &t.mentions[sub]
	if m.definite && x.lack < 0 || len(m.amounts) > 0 && !t.articleOnly(m) && x.lack < 0 {
		return false
	}
	if x.lack < 0 && x.already(sub) {
		return false
	}
	if t.cueAt(pairing, i, x.b) > 0 && x.lack < 0 && t.has(m.Last, min(x.b, m.Last+4), "too", "instead", "as well", "also") < 0 {
		return false
	}
	strong = strong || x.lack >= 0 || t.has(m.Last, min(x.b, m.Last+4), "too", "instead", "as well") >= 0
	return x.set(sub, x.original(sub, i, strong))
}

// soTakes reads "it's like gold here, so I use green apple" from the "so" at token i.
func (x *standIns) soTakes(i int) bool {
	t := x.t
	bad, _ := t.cueIn(obstacles, x.s.First, i)
	if bad < 0 || i-bad > 2*standInReach || x.s.past {
		return false
	}
	sub := x.next(i+1, standInReach)
	if sub < 0 {
		return false
	}
	m := &t.mentions[sub]
	for j := i + 1; j < m.First; j++ {
		switch w := t.norm(j); {
		case w == "here" || w == "now" || w == "mostly" || w == "then" || hedges[w] || w == "i" || w == "we" || w == "you" || w == "it's" || w == "just" || articleLike[w] || offering[w]:
		default:
			return false
		}
	}
	if m.definite || x.already(sub) || len(m.amounts) > 0 && !t.articleOnly(m) || sub == x.lacked {
		return false
	}
	orig := x.original(sub, x.s.First+1, false)
	if k := x.next(x.s.First, i-x.s.First); k >= 0 && k != sub && (x.there(k) >= 0 || x.origin(k) != k) {
		orig = x.origin(k) // "holy basil is impossible here, so Italian basil it is"
	}
	return x.set(sub, orig)
}

// couldBe reads "it could be walnuts, hazelnuts, almonds" from its pronoun at token i.
func (x *standIns) couldBe(i int) bool {
	t := x.t
	named := -1
	switch t.norm(i) {
	case "it", "that", "they":
	default:
		// "the vinegar can be lemon juice"
		named = int(t.mentionAt[i])
		if named < 0 || t.mentions[named].Last != i+1 || !t.mentions[named].definite || x.there(named) < 0 && x.origin(named) == named {
			return false
		}
	}
	j := i + 1
	if w := t.norm(j); w != "could" && w != "can" && w != "might" {
		return false
	}
	for j++; equal[t.norm(j)] || hedges[t.norm(j)]; j++ {
	}
	sub := x.next(j+1, 3)
	if t.norm(j) != "be" || sub < 0 || t.toks[j].After != 0 {
		return false
	}
	m := &t.mentions[sub]
	if m.definite || m.food.Dish || t.known(sub) >= 0 || len(m.amounts) > 0 && !t.articleOnly(m) {
		return false
	}
	orig := x.origin(max(named, 0))
	if named < 0 {
		orig = x.original(sub, i, false)
	}
	if !x.set(sub, orig) {
		return false
	}
	x.restOfList(sub, orig)
	return true
}

// restOfList makes the foods listed right behind a substitute stand in as well.
func (x *standIns) restOfList(sub, orig int) {
	t := x.t
	for k := sub + 1; k < len(t.mentions); k++ {
		m, o := &t.mentions[k], &t.mentions[k-1]
		if m.First >= x.b || m.First-o.Last > 2 || t.sentOf[m.First] != t.sentOf[o.First] || len(m.amounts) > 0 && !t.articleOnly(m) || m.definite || !alike(m.food, t.mentions[orig].food) {
			return
		}
		for j := o.Last; j < m.First; j++ {
			if w := t.norm(j); w != "or" && w != "even" && !articleLike[w] && t.lex.Modifiers[w] == lexicon.NoClass {
				return
			}
		}
		if m.subst < 0 && !x.set(k, orig) {
			return
		}
	}
}
