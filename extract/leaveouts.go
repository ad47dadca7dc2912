package extract

import "quern/internal/lexicon"

// A cook may come back to a food long after it went in, name it, and say that the dish
// goes without it: "the chillies can stay out", "you don't have to have the pancetta",
// "no egg in the house, no problem", "in Galicia they make it without", "do you need the
// capers? No". Where the food is named it doesn't matter how far away it went in, so
// these words are looked for when all ingredients are known.
//
//	what becomes of it   "X can be left out", "X needn't go in", "X is a luxury"
//	what need not be done  "you could drop X", "you don't have to add X"
//	the dish without it  "it's as nice without X", "with or without X"
//	a lack that is no harm "no X, no bother", "nobody will notice if there's no X"
//	a question           "do you need X? Not at all"
//	a condition          "X if you have it", "only if you like X"

// namedReach is how many words around a food's name are looked at.
const namedReach = 8

var (
	// removed are participles of what is not put in; "left" and "missed" want a particle.
	removed = words("left skipped omitted dropped missed ignored forgotten")
	// particlesOut end a verb of leaving out.
	particlesOut = words("out off away")
	// keptIn is where a food stays that isn't used.
	keptIn = cues("in the cupboard", "in the packet", "in the fridge", "in the bag", "in the jar", "in the tin", "in the shop", "in the garden", "at home")
	// beingIn is what a food need not do.
	beingIn = cues("go in", "go on", "be in", "be there", "be on")
	// luxuries are what a food is that the dish doesn't depend on.
	luxuries = cues("a luxury", "an extra", "a bonus", "a nice extra", "a nice touch", "an option", "optional", "my own touch", "a treat", "just me", "me being", "me showing off", "up to you", "your call", "your choice", "extra", "an add on", "a frill", "take it or leave it")
	// takingIn are verbs of having a food in the dish.
	takingIn = words("have use put add include eat take do bring want like")
	// doneIn are the forms of such verbs that follow who does them.
	doneIn = words("has uses puts adds includes takes does likes wants eats bothers")
	// making are verbs of making the dish itself.
	makingIt = words("make makes made do does done have has had get gets cook cooked bake baked eat eats like likes prefer prefers")
	// surviving are verbs of going on in spite of a lack.
	surviving = words("live survive manage cope die starve notice suffer mind")
	// harms are what a lack is not.
	harms = words("tragedy crime shame harm problem bother drama disaster loss sin matter")
	// atHome may follow a food that is lacking.
	atHome = cues("in the house", "in the cupboard", "in the fridge", "in the freezer", "in the shop", "in the pantry", "in the press", "in the larder", "at home", "to hand", "left", "about", "around", "in", "there", "handy")
	// gone tells of a food that it is lacking.
	gone = cues("have run out", "has run out", "ran out", "have gone", "are gone", "is gone", "is missing", "are missing", "aren't there", "isn't there")
	// noneIn answer that none of it goes in.
	noneIn = cues("don't put any", "don't put them", "don't put it", "don't add any", "don't add them", "don't add it", "don't use any", "don't use it", "don't use them", "no need", "just don't")
	// answeredNo open the answer to a question whether a food is needed.
	answeredNo = cues("no", "also no", "again no", "no again", "nope", "nah", "naw", "not at all", "not really", "not strictly", "there mustn't", "you don't", "it isn't", "they aren't", "not a bit")
	// wondering begin such a question, with those who are asked; needing is what it asks.
	wondering = cues("do you", "do i", "do we", "does it", "does this", "must there", "must i", "must you", "must it", "should there", "should i", "have you to", "is it", "are they", "is the", "are the", "is there", "are there")
	needing   = words("need needed needs necessary essential must compulsory required have")
	// notYet follow a food that is only not wanted at that moment.
	notYet = words("yet now until till here again before first straight chopped peeled too much very hot cold warm whole all to")
)

// leaveOutByName marks the ingredients that are named anywhere with words that the dish
// goes without them.
func (t *talk) leaveOutByName() {
	for k := range t.mentions {
		m := &t.mentions[k]
		if m.mixed || m.compared || m.subst >= 0 || m.verb {
			continue
		}
		s := t.sentence(m.First)
		if s.kind == storing || s.kind == figures || s.naming {
			continue
		}
		if !t.namedAway(m, s) {
			continue
		}
		for _, g := range t.spokenOfBy(m) {
			if !t.replacedIn(s, g) {
				g.optional = true
			}
		}
	}
}

// spokenOfBy gives the ingredients that a mention names: its own, the nearest by name, or
// those of the class that it is a word for.
func (t *talk) spokenOfBy(m *mention) []*ingredient {
	if m.ingr != nil {
		return []*ingredient{m.ingr}
	}
	var named *ingredient
	var class []*ingredient
	close := 0
	dish := t.dishOf(m.First)
	word := lexicon.Singular(t.norm(m.head.Last - 1))
	for _, g := range t.ingredients {
		if g.dish != dish {
			continue
		}
		if r := related(m.food, g.food); r > close {
			named, close = g, r
		}
		if className[word] && m.head.Len() == 1 && g.food.Kind == m.food.Kind {
			class = append(class, g)
		}
	}
	if named != nil {
		return []*ingredient{named}
	}
	return class
}

// replacedIn reports whether the sentence names what stands in for the ingredient: then
// it isn't left out but replaced.
func (t *talk) replacedIn(s *sentence, g *ingredient) bool {
	for _, k := range t.mentionsIn(s.First, s.Last) {
		if o := t.mentions[k].subst; o >= 0 && t.mentions[o].ingr == g {
			return true
		}
	}
	return false
}

// namedAway reports whether the words around the name of m say that the dish goes
// without it.
func (t *talk) namedAway(m *mention, s *sentence) bool {
	n := t.reach(int(t.sentOf[m.First]))
	first := m.First
	for first > n.First && (articleLike[t.norm(first-1)] || t.norm(first-1) == "of") && t.toks[first-1].After == 0 && t.norm(first-1) != "only" && t.norm(first-1) != "just" {
		first--
	}
	switch {
	case t.outTail(m.Last, n) > 0 && t.norm(first-1) != "without":
		return true
	case t.leftBehind(m, n), t.needNot(first, m, n), t.without(first, m, n), t.lackNoHarm(first, m, n), t.neededAsked(m, n), t.onCondition(first, m, s), t.tasteAsked(m, s), t.namedBehind(first, m, s):
		return true
	}
	for i := max(n.First, m.First-leaveOutReach); i < min(n.Last, m.Last+leaveOutReach/2); i++ {
		if t.in(aLeaveNamed, i) && t.leaveNamed(i, m, n) {
			return true
		}
	}
	return false
}

// aLeaveNamed are the verbs of leaving out that take a food's name.
var aLeaveNamed = groupOf(words("leave leaving leaves skip skipping omit omitting"))

// leaveNamed reads "leave the whiskey out", "skip the onion" from the verb at token i,
// where its object is m.
func (t *talk) leaveNamed(i int, m *mention, n *sentence) bool {
	k := t.nextFood(i+1, min(n.Last, i+6))
	if k < 0 || &t.mentions[k] != m || !t.objectOf(i, k) || t.forbids(i, n) {
		return false
	}
	switch t.norm(i - 1) {
	case "that", "this", "which", "it": // of figures, or of an order for keeping
		return false
	}
	end := m.Last
	if w := t.norm(i); w[0] == 'l' {
		switch {
		case particlesOut[t.norm(i+1)]:
		case particlesOut[t.norm(end)]:
			end++
		default:
			return false
		}
	} else if isGerund(t.norm(end)) || t.norm(end) == "step" {
		return false
	}
	return !t.warns(i, end, n) && !t.setDown(end, n)
}

// setDown reports whether what follows "leave the butter out" at token i tells where or how
// long it lies.
func (t *talk) setDown(i int, n *sentence) bool {
	if t.clauseEnd(i, n) {
		return false
	}
	switch t.norm(i) {
	case "on", "overnight", "in", "at", "to", "while", "until", "till", "all":
		return true
	case "for":
		return t.quantityAt[min(i+1, len(t.toks)-1)] >= 0 && t.quantities[t.quantityAt[i+1]].kind == duration
	case "of":
		return t.toolBeside(i, min(n.Last, i+4)) || t.has(i, min(n.Last, i+4), "the fridge", "the freezer", "the bag", "the sun") >= 0
	}
	return t.quantityAt[i] >= 0 && t.quantities[t.quantityAt[i]].kind == duration
}

// outTail gives the length of words at token i that say of what stands before them that it
// can be left out, 0 for none: "can stay out", "needn't go in", "are a luxury".
func (t *talk) outTail(i int, n *sentence) int {
	j := i
	for j < n.Last && j < i+3 && (hedges[t.norm(j)] || equal[t.norm(j)]) {
		j++
	}
	if j >= n.Last || j > n.First && t.toks[j-1].After.Ends() {
		return 0
	}
	switch w := t.norm(j); w {
	case "can", "could", "may", "might":
		for j++; hedges[t.norm(j)] || equal[t.norm(j)]; j++ {
		}
		switch w := t.norm(j); {
		case w == "stay" && (particlesOut[t.norm(j+1)] || t.cueAt(keptIn, j+1, n.Last) > 0):
			return j + 2 - i
		case w == "go" && t.is(j+1, "or", "stay"):
			return j + 3 - i
		case w != "be":
			return 0
		}
		for j++; hedges[t.norm(j)]; j++ {
		}
		if !removed[t.norm(j)] {
			return 0
		}
		e := j + 1
		if particlesOut[t.norm(e)] {
			e++
		} else if w := t.norm(j); w == "left" || w == "missed" {
			return 0
		}
		if t.setDown(e, n) {
			return 0
		}
		return e - i
	case "needn't", "don't", "doesn't":
		j++
		if w != "needn't" {
			if v := t.norm(j); v != "have" && v != "need" || t.norm(j+1) != "to" {
				return 0
			}
			j += 2
		}
		if c := t.cueAt(beingIn, j, n.Last); c > 0 && !notYet[t.norm(j+c)] {
			return j + c - i
		}
	case "is", "are":
		for j++; hedges[t.norm(j)]; j++ {
		}
		if c := t.cueAt(luxuries, j, n.Last); c > 0 && t.norm(j+c) != "how" && t.norm(j+c) != "which" && t.norm(j+c) != "what" {
			return j + c - i
		}
	}
	return 0
}

// staysOut reads "they can stay out", said of the food before, from its verb at token i.
func (t *talk) staysOut(i int, n *sentence) int {
	switch t.norm(i - 1) {
	case "they", "it", "those", "that", "these", "which":
		if w := t.norm(i); w != "is" && w != "are" {
			return t.outTail(i, n)
		}
	}
	return 0
}

// needNot reads "you could drop X", "you don't have to add X", "not everybody puts X in",
// "no need for X" in the words before the food's name, which begins at token first.
func (t *talk) needNot(first int, m *mention, n *sentence) bool {
	if first <= n.First || !t.clauseEnd(m.Last, n) && notYet[t.norm(m.Last)] {
		return false
	}
	for j := max(n.First, first-4); j < first; j++ {
		if c := t.cueAt(omitting, j, n.Last); c > 0 && j+c == first {
			if t.norm(j) == "forget" && !t.is(j-1, "can") && !t.is(j-1, "could") && !t.is(j-1, "may") {
				return false // "I always forget the sweetcorn"
			}
			return t.mayDo(j, n) && !isGerund(t.norm(m.Last)) && !t.warns(j, m.Last, n)
		}
	}
	i := first - 1
	if t.norm(i) == "for" && t.norm(i-1) == "need" && t.norm(i-2) == "no" {
		return true
	}
	verb := t.norm(i)
	k := i - 1
	for k > n.First && hedges[t.norm(k)] && t.norm(k) != "only" && t.norm(k) != "usually" && t.norm(k) != "always" {
		k--
	}
	if k < n.First {
		return false
	}
	switch w := t.norm(k); {
	case doneIn[verb]:
		return (w == "everybody" || w == "everyone") && t.norm(k-1) == "not"
	case !takingIn[verb]:
		return false
	case w == "needn't":
		return true
	case w == "to":
		if v := t.norm(k - 1); v == "have" || v == "need" {
			d := t.norm(k - 2)
			return d == "don't" || d == "doesn't" || d == "didn't" || d == "not" || d == "no"
		}
	case w == "always" || w == "usually" || w == "often":
		d := t.norm(k - 1)
		return verb != "like" && verb != "want" && (d == "don't" || d == "doesn't" || d == "not")
	case w == "only" && (t.norm(k-1) == "i" || t.norm(k-1) == "we" || t.norm(k-1) == "i'd"):
		e := m.Last
		if t.norm(e) == "in" || t.norm(e) == "on" {
			e++
		}
		return t.cueAt(occasionCues, e, n.Last) > 0 || t.is(e, "when", "there's") || t.is(e, "when", "i") || t.is(e, "when", "we") || t.is(e, "if", "there's") || t.is(e, "if", "i")
	}
	return false
}

// leftBehind reads "the wine I sometimes leave out" behind the food's name.
func (t *talk) leftBehind(m *mention, n *sentence) bool {
	i := m.Last
	switch t.norm(i) {
	case "i", "you", "we", "i'd", "you'd":
	default:
		return false
	}
	if !m.definite && m.First > n.First && t.punctuated && t.toks[m.First-1].After == 0 {
		return false
	}
	for j := i + 1; j < n.Last && j <= i+licenceReach+1 && t.toks[j-1].After == 0; j++ {
		if c := t.cueAt(omitting, j, n.Last); c > 0 {
			e := j + c
			return t.norm(j) != "forget" && t.mayDo(j, n) && (t.clauseEnd(e, n) || t.norm(e) == "when" || t.norm(e) == "if" || t.norm(e) == "for" && !t.setDown(e, n))
		}
	}
	return false
}

// mayDo reports whether what is said at token j is allowed and not denied.
func (t *talk) mayDo(j int, n *sentence) bool {
	for i := j - 1; i >= n.First && i >= j-licenceReach && t.toks[i].After == 0; i-- {
		switch w := t.norm(i); {
		case denying[w]:
			return false
		case licences[w]:
			return true
		}
	}
	return false
}

// without reads what is said of the dish without the food whose name begins at token first.
func (t *talk) without(first int, m *mention, n *sentence) bool {
	if t.norm(m.Last) == "or" && t.norm(m.Last+1) == "without" && t.norm(first-1) == "with" {
		return true
	}
	i := first - 1
	if i < n.First || t.norm(i) != "without" {
		return false
	}
	if t.norm(i-1) == "or" && t.norm(i-2) == "with" {
		return true
	}
	if t.condemning(m.Last, n) {
		return false
	}
	if t.praisedFrom(m.Last, n) && !t.sentPast(t.sentence(i)) && (i == n.First || t.toks[i-1].After != 0 || t.norm(i-1) == "but" || t.norm(i-1) == "and" || t.norm(i-1) == "even" || !t.punctuated && t.baseVerb(i-1) == nil) {
		return true
	}
	good := false
	for j := i - 1; j >= n.First && j >= i-namedReach && !t.toks[j].After.Ends(); j-- {
		w := t.norm(j)
		switch {
		case w == "nobody" || w == "no" || w == "nobody'll" || w == "nobody's":
			return t.survived(j+1, i)
		case denying[w], w == "nothing", w == "if", w == "only":
			return w == "won't" && t.survived(j+1, i)
		case praises[w], surviving[w], w == "possible":
			good = true
		case makingIt[w] && (t.norm(j+1) == "it" || t.norm(j+1) == "them" || t.norm(j+1) == "this" || t.norm(j+1) == "mine" || t.norm(j+1) == "theirs") && j+2 >= i-1:
			good = !t.sentPast(t.sentence(i)) || t.praisedFrom(m.Last, n)
		case t.actionAt[j] >= 0 && !good:
			return false
		}
	}
	return good
}

// survived reports whether tokens [a, b) hold what a lack doesn't bring about.
func (t *talk) survived(a, b int) bool {
	for j := a; j < b; j++ {
		if w := t.norm(j); surviving[w] || harms[w] {
			return true
		}
	}
	return false
}

// praisedFrom reports whether the words from token i on praise the dish.
func (t *talk) praisedFrom(i int, n *sentence) bool {
	if w := t.norm(i); !t.punctuated && w != "it's" && w != "it" && w != "that's" && w != "they're" {
		return false // the praise may be of what comes
	}
	for j := i; j < n.Last && j < i+namedReach; j++ {
		w := t.norm(j)
		if denying[w] || w == "more" || w == "better" || t.mentionAt[j] >= 0 {
			return false
		}
		if praises[w] || w == "still" {
			return true
		}
		if j > i && t.toks[j].After.Ends() {
			return false
		}
	}
	return false
}

// condemning reports whether the words from token i on say that it went badly.
func (t *talk) condemning(i int, n *sentence) bool {
	for j := i; j < n.Last && j < i+2*namedReach; j++ {
		if t.in(aCondemning, j) {
			return true
		}
	}
	return false
}

// lackNoHarm reads a lack of the food with the consolation for it, in either order: "no
// egg in the house, no problem", "nobody will notice if there's no parsley"; and who gets
// none: "no smoked fish for the vegetarians".
func (t *talk) lackNoHarm(first int, m *mention, n *sentence) bool {
	e := m.Last
	none := t.norm(first-1) == "no"
	lacked := none
	if c := t.cueAt(gone, e, n.Last); c > 0 {
		lacked = true
		e += c
	} else if c := t.cueAt(atHome, e, n.Last); c > 0 {
		e += c
	}
	for j := max(n.First, first-4); j < first && !lacked; j++ {
		if c := t.cueAt(lacking, j, n.Last); c > 0 && j+c >= first-1 && j+c <= m.First {
			lacked = true
		}
	}
	if !lacked {
		return false
	}
	begin := first - 1
	for begin > n.First && begin > first-5 && t.norm(begin) != "if" && t.toks[begin-1].After == 0 {
		begin--
	}
	if none && t.norm(e) == "for" && (t.cueAt(someEaters, e+1, n.Last) > 0 || t.cueAt(diets, e+1, n.Last) > 0 || t.norm(e+1) == "the" && t.cueAt(diets, e+2, n.Last) > 0) {
		return true
	}
	if e < n.Last && t.phrase(begin+1, e) == t.phrase(e, min(n.Last, e+e-begin-1)) && t.norm(begin) == "if" {
		return true // "if there's no saffron, there's no saffron"
	}
	end := min(len(t.toks), e+namedReach)
	for j := e; j < min(end, e+2); j++ {
		if c := t.cueAt(consoling, j, len(t.toks)); c > 0 && !t.deniesSelf(j, min(end, j+c+5)) && t.nextFood(e, j+c) < 0 {
			return none || t.norm(begin) == "if" || t.toks[e-1].After != 0
		}
	}
	// "nobody will notice if there's no parsley"
	if t.norm(begin) == "if" || none && t.norm(begin) == "there's" {
		for j := max(n.First, begin-namedReach); j < begin; j++ {
			if c := t.cueAt(consoling, j, begin); c > 0 && !t.deniesSelf(j, begin) && t.foodlessAfter(j, begin) {
				return true
			}
		}
	}
	return none && t.refusedFor(first-1, n)
}

// refusedFor reports whether the "no" at token i tells what becomes of a taste: "if somebody
// doesn't like raisins, no raisins", "Don't do spice? No sriracha".
func (t *talk) refusedFor(i int, n *sentence) bool {
	from := n.First
	if k := int(t.sentOf[i]); t.punctuated && k > 0 && i == t.sents[k].First && t.asksForLack(&t.sents[k-1]) {
		from = t.sents[k-1].First
	}
	iff := from < n.First
	for j := max(from, i-2*namedReach); j < i; j++ {
		iff = iff || t.norm(j) == "if"
		if iff && (t.cueAt(lacking, j, i) > 0 && t.norm(j) != "no" || t.cueAt(diets, j, i) > 0) {
			for _, k := range t.mentionsIn(n.First, n.Last) {
				if t.mentions[k].subst >= 0 {
					return false // what stands in for it is told
				}
			}
			return true
		}
	}
	return false
}

// neededAsked reads a question whether the food is needed, answered with no.
func (t *talk) neededAsked(m *mention, n *sentence) bool {
	need := false
	begun := -1
	for j := m.First - 1; j >= n.First && j >= m.First-6 && !t.toks[j].After.Ends(); j-- {
		need = need || needing[t.norm(j)]
		if t.cueAt(wondering, j, m.First) > 0 {
			begun = j
		}
	}
	for j := begun + 2; begun >= 0 && j < m.First; j++ {
		if t.baseVerb(j) != nil && !needing[t.norm(j)] && !puttingIn[t.norm(j)] {
			return false // "do you need to peel the tomatoes?"
		}
	}
	if begun < 0 {
		return false
	}
	if t.toks[max(begun-1, 0)].After == 0 && begun > n.First && t.punctuated {
		return false
	}
	e := m.Last
	for e < len(t.toks) && e < m.Last+3 && !t.toks[e-1].After.Ends() && t.cueAt(answeredNo, e, len(t.toks)) == 0 {
		need = need || needing[t.norm(e)]
		e++
	}
	c := t.cueAt(answeredNo, e, len(t.toks))
	return need && c > 0 && (t.toks[e-1].After.Ends() || !t.punctuated && (c > 1 || subjects[t.norm(e+1)] || t.actionAt[min(e+1, len(t.toks)-1)] >= 0))
}

// tasteAsked reads a question about a taste whose answer is to leave the food out: "Not a
// fan of raisins? Skip them."
func (t *talk) tasteAsked(m *mention, s *sentence) bool {
	k := int(t.sentOf[s.First]) + 1
	if !t.punctuated || !t.asksForLack(s) || k >= len(t.sents) {
		return false
	}
	asked := t.norm(s.First) == "no" || t.norm(s.First) == "not"
	for j := s.First; j < m.First && !asked; j++ {
		asked = t.cueAt(lacking, j, m.First) > 0
	}
	n := &t.sents[k]
	for j := n.First; asked && j < min(n.First+3, n.Last); j++ {
		if c := t.cueAt(leaving, j, n.Last); c > 0 || t.cueAt(noneIn, j, n.Last) > 0 {
			return true
		}
	}
	return false
}

// namedBehind reads "that's optional, the raisins": the food is named behind what is said of it.
func (t *talk) namedBehind(first int, m *mention, s *sentence) bool {
	if !t.punctuated || !m.definite || first-s.First < 2 || first-s.First > namedReach || t.toks[first-1].After == 0 || !t.clauseEnd(m.Last, s) {
		return false
	}
	switch t.norm(s.First) {
	case "that's", "they're", "it's", "those", "these":
	default:
		return false
	}
	for j := s.First + 1; j < first; j++ {
		c := t.cueAt(luxuries, j, first)
		if c == 0 {
			c = t.unneeded(j, s)
		}
		if c > 0 && j+c == first {
			return t.has(s.First, j, "don't") < 0
		}
	}
	return false
}

// onCondition reads a condition that is said of the food and of nothing else: "raisins if
// you have them", "only if you like raisins, obviously".
func (t *talk) onCondition(first int, m *mention, s *sentence) bool {
	if s.Len() > 2*namedReach {
		return false
	}
	for _, a := range t.actionsIn(s) {
		if !t.adding(a) && !t.actions[a].bare {
			return false
		}
	}
	if e := m.Last; e < s.Last && (t.norm(e) == "if" || t.norm(e) == "when") && (first == s.First || first == s.First+1) {
		for j := e + 1; j < s.Last; j++ {
			if t.mentionAt[j] >= 0 || t.quantityAt[j] >= 0 || t.toolAt[j] >= 0 {
				return false
			}
		}
		b := e + 1
		if t.norm(b) == "i" && t.norm(b+1) == "have" {
			return true
		}
		return t.cueAt(having, b, s.Last) > 0 || t.cueAt(liking, b, s.Last) > 0
	}
	if i := first - 1; t.punctuated && s.First+1 < i && t.norm(s.First) == "only" && t.norm(s.First+1) == "if" {
		return t.cueAt(liking, s.First+2, first) > 0 && t.clauseEnd(m.Last, s)
	}
	return false
}

// isGerund reports whether a word ends as a gerund does.
func isGerund(w string) bool { return len(w) > 5 && w[len(w)-3:] == "ing" }
