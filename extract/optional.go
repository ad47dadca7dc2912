package extract

import (
	"strings"

	"quern/internal/lexicon"
)

// A food may be left out when the cook says so. The cue must speak of that
// food and no other:
//
//   - "optional" and "leave it out", "you don't have to", "up to you" speak of
//     the foods last put in, or of the food they name;
//   - "if you like", "if you've got some" speak of the food they follow, or of
//     the first one after them;
//   - "if it's too thick, add …" makes what is added depend on how it turned out;
//   - "the rest only if you want" speaks of the foods listed after it.

// Distances in tokens.
const (
	leaveOutReach = 16 // between a food and its cue in one sentence
	leaveOutAfter = 3  // sentences after the food that may hold the cue
	restReach     = 40 // a list goes on after "the rest only if you want"
)

// leaveOutCues tell that a step may be left out.
var leaveOutCues = []string{"optional", "if you like", "if you want", "if you'd like", "if you prefer", "if you fancy", "you don't have to", "you don't need to", "up to you", "leave it out", "leave them out", "leave that out", "skip it", "skip them", "skip that",
	"if you've got any", "if you have any", "if you have it", "if you've got it", "if you've got them", "if you have them", "if you got it", "if you got them", "not essential", "not necessary", "no law says", "nice to have", "if you wish", "if you feel like it", "could leave", "can leave", "not compulsory", "only if you want", "entirely up to you", "nobody will miss", "if you happen"}

var (
	// leaving say that a thing can be left out; what they speak of is a
	// pronoun, a food named with them, or what was named before.
	leaving = cues("leave it out", "leave them out", "leave that out", "leave those out", "leave this out", "leave 'em out", "leave it off", "leave them off", "leave it away", "leave them away", "leaves them away", "leaves it away", "leave that off", "leave 'em off", "leaves them out", "leaves it out", "skip it", "skip them", "skip that", "skip those", "skip 'em", "skip this",
		"do without", "go without", "omit it", "omit them", "miss it out", "miss them out", "don't bother", "didn't bother", "no need", "you don't have to", "you don't need to", "don't need to", "y'all don't have to", "nobody has to", "not everybody does", "don't need it", "don't need them", "doesn't need it", "doesn't need them", "you needn't", "needn't bother",
		"not essential", "isn't essential", "aren't essential", "not necessary", "isn't necessary", "not compulsory", "not obligatory", "isn't obligatory", "aren't obligatory", "isn't compulsory", "not a must", "isn't a must", "aren't a must", "no must", "or don't", "sometimes not", "don't always", "just for colour", "just for color", "only for colour", "only for color", "no law", "there's no rule", "that's extra", "that's an extra", "they're extra", "it's extra", "they're an extra", "it's a bonus", "that's a bonus", "nice to have", "take it or leave it", "take them or leave them",
		"won't be missed", "wouldn't be missed", "never be missed", "that's not set in stone", "it's not set in stone", "they're not set in stone", "it isn't set in stone", "that isn't set in stone", "not that it needs it", "not that it needs them", "not that you need it", "love them or leave them", "love it or leave it", "it's an extra", "they're extras", "it's only an extra", "won't miss it", "won't miss them", "will miss it", "will miss them", "leave it", "leave them", "leave those", "leave that", "pick them off", "pick it off", "optional extra", "that's a choice", "not required", "isn't required", "wouldn't miss it", "wouldn't miss them",
		"wouldn't go amiss", "won't hurt", "wouldn't hurt", "never hurts", "doesn't hurt", "don't hurt", "just for show", "only for show", "purely for show", "just for looks", "only for looks", "just decoration", "only decoration", "purely decoration", "fine without", "good without", "grand without", "lovely without", "happy without", "okay without", "as well without", "works without", "work without", "just for decoration", "only for decoration", "is a bonus", "are a bonus", "or not as", "or leave it", "worry if you don't have", "worry if you haven't", "wouldn't be out of place", "forgiven for not", "forgiven for leaving", "forgiven for skipping")
	// toThem say that it's the eater's choice.
	toThem = cues("up to you", "your call", "your choice", "your business", "your decision", "at your discretion", "you decide", "you choose", "suit yourself", "please yourself", "up to yourself", "down to you")
	// usingIt, after "if", speak of a food named before.
	usingIt = cues("using", "you're using", "you're having", "you're adding", "you use", "you've used", "liked", "wanted", "desired", "available", "possible")
	// consolation follows "if you haven't" where it doesn't matter.
	consolation = cues("don't worry", "no matter", "never mind", "no bother", "it's fine", "that's fine", "no harm", "doesn't matter", "nobody", "nobody's", "no one", "no one's", "don't fret", "no problem", "not to worry", "it's grand", "that's okay", "it's okay", "carry on", "it's not the end", "no loss", "fine too", "it's no", "don't go", "you'll live", "so be it", "no drama", "no worries", "no great loss")
	// having, after "if", speak of the food itself: "if you've got any".
	having = cues("you've got", "you have", "you got", "you've", "you're getting", "you can get", "you can find", "you can spare", "you happen", "you grow", "you keep", "you find", "you can", "you're lucky", "there's any", "there is any", "there's some", "there are any", "it's lying", "they're lying", "it's around", "they're around", "it's to hand", "they're to hand", "it's going", "i have", "i've got", "i got", "you have any", "you ain't run", "it's about", "they're about", "they're in season", "it's in season", "your shop has", "you saved", "y'all got", "y'all have", "youse have", "one has", "one can get", "ye have", "ye've got")
	// liking, after "if", speak of taste.
	liking = cues("you like", "you'd like", "you want", "you fancy", "you prefer", "you wish", "you feel like", "you're feeling", "you love", "you enjoy", "you care", "you care for", "you're me", "you're so inclined", "you're into", "you're brave", "you can take", "you can stand", "you can handle", "it's your thing", "that's your thing", "they're your thing", "it's your style", "that's your style", "that's your bag", "that's your jam", "that's your speed", "one likes", "one wants", "ye like", "you must", "you dare", "you eat it", "you eat them", "y'all like", "y'all want", "it suits you", "that suits you", "you're that way", "you feel it", "you drink", "you need a kick", "you're partial", "anyone wants", "anybody wants", "your family likes", "your kids like", "people like", "they like")
	// tastes may follow "if you like" and still close the condition.
	tastes = words("it them that those a kick heat spice spicy hot hotter sweet sweeter sharp sharper salty fiery fierce some any more one things bit of little bite crunch colour color extra your sort thing the to be show off posh fancy feel flash richer saltier sour sourer smoky herby generous of tang warmth decadent bold lot stuff in there on and 'em off push")
)

// mayLeaveOut reports whether the cook says that the food may be left out.
func (t *talk) mayLeaveOut(m *mention) bool {
	k := int(t.sentOf[m.First])
	s := &t.sents[k]
	near := t.reach(k)
	for i := max(near.First, m.First-2*leaveOutReach); i < min(near.Last, m.Last+2*leaveOutReach); i++ {
		if t.conditionFor(m, near, i) {
			return true
		}
	}
	if t.cueAt(onlyFor, m.Last, near.Last) > 0 && t.firstUse(m) {
		return true // "a tablespoon of rum, only for adults"
	}
	if t.restOptional(m, k) || t.amongExtras(m) && t.firstUse(m) {
		return true
	}
	last := k + leaveOutAfter
	if !t.punctuated {
		last += leaveOutAfter
	}
	for j := k; j <= last && j < len(t.sents); j++ {
		n := t.reach(j)
		if t.sents[j].para > s.para+1 {
			break
		}
		if _, heads := t.headsExtras(j); heads && j > k && t.punctuated {
			break // it speaks of what comes
		}
		for i := n.First; i < n.Last && i < m.Last+4*leaveOutReach; i++ {
			if t.leftOutAt(m, i, n) {
				return true
			}
		}
	}
	return false
}

// consoles reports whether "if you haven't any, never mind" stands at token i.
func (t *talk) consoles(i int, n *sentence) bool {
	if t.norm(i) != "if" {
		return false
	}
	for j := i + 1; j < i+4 && j < n.Last; j++ {
		c := t.cueAt(lacking, j, n.Last)
		if c == 0 && (t.norm(j) == "not" || t.norm(j) == "haven't" || t.norm(j) == "don't") {
			c = 1
		}
		if c == 0 {
			continue
		}
		e := j + c
		for e < n.Last && pronouns[t.norm(e)] || t.norm(e) == "any" {
			e++
		}
		return t.cueAt(consolation, e, n.Last) > 0
	}
	return false
}

// reach gives sentence k, and without marks a few words more on either side: a
// cue may have fallen into the sentence next door.
func (t *talk) reach(k int) *sentence {
	n := t.sents[k]
	if !t.punctuated {
		n.First, n.Last = max(0, n.First-neighbour), min(len(t.toks), n.Last+neighbour)
	}
	return &n
}

// aLeavingOut are the words at which leftOutAt has anything to read.
var aLeavingOut = eitherOf(aDispensing, openers("optional optionally leave skip omit leaving skipping leaves need if or no", toThem, leaving))

// leftOutAt reports whether a cue that needs no "if" stands at token i of
// sentence n and speaks of m.
func (t *talk) leftOutAt(m *mention, i int, n *sentence) bool {
	if !t.in(aLeavingOut, i) {
		return false
	}
	if w := t.norm(i); w == "optional" || w == "optionally" {
		if t.forbids(i, n) || t.norm(i+1) == "extra" || strings.HasSuffix(t.norm(i-2), "ing") && t.baseVerb(i-2) != nil || t.gerundBefore(i, n) {
			return false // "peeling is optional"
		}
		if t.foodLast(i, n) < 0 && (w == "optionally" || t.has(i, min(n.Last, i+3), "but", "though") >= 0) {
			// "this is optional, but I add a handful of raisins"
			if k := t.nextFood(i+1, n.Last); k >= 0 {
				return t.speaksOf(k, m)
			}
		}
		if k := t.nextFood(i+1, min(n.Last, i+5)); k >= 0 && t.opensPhrase(i, n) {
			return t.speaksOf(k, m)
		}
		if t.allListed(m, i, n) {
			return true
		}
		return t.backTo(m, i, n)
	}
	if c := t.cueAt(toThem, i, n.Last); c > 0 {
		switch t.norm(i + c) {
		case "how", "when", "what", "which", "where", "who":
			return false
		case "to":
			return puttingIn[t.norm(i+c+1)] && t.backTo(m, i, n) // not "it's up to you to trust me"
		case "whether", "if":
			if !t.putsIn(i+c+1, min(n.Last, i+c+6)) {
				return false // "up to you whether you melt it"
			}
		}
		if t.has(max(n.First, i-leaveOutReach/2), i, "how", "much", "many") >= 0 {
			return false
		}
		if t.has(n.First, i, "or") >= 0 && t.toolBeside(n.First, i) && t.foodlessAfter(n.First, i) {
			return false // "a spoon or a spatula, it's up to you"
		}
		return !m.food.Taste && !t.gerundBefore(i, n) && t.backTo(m, i, n)
	}
	// "leave the anchovies out", "skip the nuts", "leave out the chilli"
	if w := t.norm(i); w == "leave" || w == "skip" || w == "omit" || w == "leaving" || w == "skipping" || w == "leaves" || w == "need" && t.norm(i-1) == "don't" && t.has(i+1, n.Last, "need", "just", "only") < 0 {
		if (w == "skip" || w == "omit") && t.norm(i-1) == "can" && (i+1 >= n.Last || t.toks[i].After != 0) {
			return t.backTo(m, i, n) // "which you can skip"
		}
		if k := t.nextFood(i+1, min(n.Last, i+6)); k >= 0 && t.objectOf(i, k) {
			e := t.mentions[k].Last
			if w[0] == 'l' && t.setDown(e+b2n(t.norm(e) == "out" || t.norm(e) == "off", 1), n) {
				return false
			}
			out := w == "need" || w == "skip" || w == "omit" || w == "skipping" || t.norm(e) == "out" || t.norm(e) == "off" || t.norm(i+1) == "out" || t.norm(i+1) == "off"
			if out {
				return t.speaksOf(k, m) && (w == "need" || !t.forbids(i, n)) && !t.warns(i, e, n)
			}
			return false
		}
	}
	if t.consoles(i, n) || t.is(i, "or", "not") && i == n.First && (n.Len() == 2 || t.toks[i+1].After != 0) {
		return t.backTo(m, i, n)
	}
	if k, ok := t.lackShrugged(i, n); ok {
		return t.speaksOf(k, m)
	}
	c := t.cueAt(leaving, i, n.Last)
	if c == 0 {
		if c = t.dispensable(i, n); c > 0 && t.inOneWay(i, n) {
			return false
		}
		if c > 0 {
			if k := t.nextFood(i+c, min(n.Last, i+c+4)); k >= 0 && (t.norm(i+c) == "with" || t.norm(i+c) == "about") {
				return t.speaksOf(k, m) // "do as you like with the cinnamon"
			}
			return t.backTo(m, i, n)
		}
	}
	if c == 0 || t.forbids(i, n) {
		return false
	}
	end := i + c
	if end < n.Last && t.toks[end-1].After == 0 && t.norm(end) == "to" && !puttingIn[t.norm(end+1)] {
		return false // "it isn't necessary to peel them"
	}
	switch t.norm(end - 1) {
	case "it", "them", "those", "that":
		if t.norm(end-2) == "need" && t.takesBackTo(end, n) == 0 && t.modifier(end) != lexicon.NoClass {
			return false // "you don't need it smooth"
		}
		if w := t.norm(i); w == "leave" && c == 2 {
			// "if not, leave it", "leave it if you don't", not "leave it ten minutes"
			if !(end >= n.Last || t.toks[end-1].After != 0 || t.norm(end) == "if") || t.has(max(n.First, i-6), i, "if", "can", "could") < 0 && t.norm(end) != "if" {
				return false
			}
		}
	case "to":
		// "you don't have to", but not "you don't have to peel them"
		if takingIn[t.norm(end)] && t.toks[end-1].After == 0 {
			if k := t.nextFood(end+1, min(n.Last, end+5)); k >= 0 && t.objectOf(end, k) {
				return t.speaksOf(k, m) // "you don't have to have the pancetta"
			}
		}
		if t.toks[end-1].After == 0 && end < n.Last && !puttingIn[t.norm(end)] {
			for _, f := range t.verbs(end) {
				if f.Action != nil {
					return false
				}
			}
			if w := t.norm(end); w == "be" || w == "do" || w == "get" || w == "make" {
				return false
			}
		}
	case "need":
		if w := t.norm(end); w != "for" && t.toks[end-1].After == 0 || t.norm(end+1) == "a" {
			return false
		}
	case "bother", "without":
		if t.toks[end-1].After == 0 && end < n.Last {
			if k := t.nextFood(end, min(n.Last, end+4)); k >= 0 {
				return t.speaksOf(k, m)
			}
			if strings.HasSuffix(t.norm(end), "ing") {
				return false
			}
		}
	case "always":
		if w := t.norm(end); t.toks[end-1].After == 0 && end < n.Last && w != "bother" && !puttingIn[w] || t.toolBeside(end, min(n.Last, end+4)) {
			return false
		}
	case "don't":
		if !t.clauseEnd(end, n) && t.baseVerb(end) != nil && !puttingIn[t.norm(end)] {
			return false // "peel it or don't peel it"
		}
	case "this":
		if !t.clauseEnd(end, n) && t.norm(end) != "if" && t.norm(end) != "and" && t.norm(end) != "or" {
			return false // "skip this step"
		}
	case "law":
		if t.has(end, min(n.Last, end+3), "says", "say", "against") < 0 {
			return false
		}
	}
	if t.warns(i, end, n) || t.inOneWay(i, n) {
		return false
	}
	// a food named in the condition: "if you can't abide a mushroom, leave them out"
	if k := t.foodLast(i, n); k >= 0 && t.has(n.First, t.mentions[k].First, "if") >= 0 {
		return t.speaksOf(k, m) || t.ofTheClass(k, m)
	}
	return t.backTo(m, i, n)
}

// allListed reports whether the cue at token i speaks of all that its sentence lists, and
// of m among it: "sour cream, cilantro, avocado, all of that's optional".
func (t *talk) allListed(m *mention, i int, n *sentence) bool {
	s := t.sentence(i)
	all := t.has(max(s.First, i-5), i, "all of", "all that", "all those", "all this", "any of", "all")
	if all < 0 || m.First < s.First || m.Last > all {
		return false
	}
	for _, a := range t.actionsBetween(s.First, all) {
		if t.mentionAt[t.actions[a].tok] < 0 && (!t.adding(a) || t.actions[a].tok > m.First) {
			return false
		}
	}
	return true
}

// ofTheClass reports whether mention k names a whole class of food that m is one of:
// "if nuts aren't your thing, leave them out".
func (t *talk) ofTheClass(k int, m *mention) bool {
	o := &t.mentions[k]
	return o.head.Len() == 1 && className[lexicon.Singular(t.norm(o.head.First))] && o.food.Kind == m.food.Kind && m.First < o.First
}

// objectOf reports whether mention k is the object of the verb at i: only
// articles and "out" stand between.
func (t *talk) objectOf(i, k int) bool {
	for j := i + 1; j < t.mentions[k].First; j++ {
		w := t.norm(j)
		if t.toks[j-1].After != 0 || !articleLike[w] && w != "out" && w != "off" {
			return false
		}
	}
	return true
}

// puttingIn are verbs that still speak of putting a food in.
var puttingIn = words("add put use have include serve sprinkle believe")

// putsIn reports whether tokens [a, b) hold a verb of putting a food in.
func (t *talk) putsIn(a, b int) bool {
	for i := a; i < b; i++ {
		if puttingIn[t.norm(i)] {
			return true
		}
	}
	return false
}

// inOneWay reports whether the cue at token i holds for one way of making the dish: "in
// the slow cooker you don't need it".
func (t *talk) inOneWay(i int, n *sentence) bool {
	b := i
	for b > n.First && t.toks[b-1].After == 0 {
		b--
	}
	switch t.norm(b) {
	case "in", "for", "with", "on":
	default:
		return false
	}
	for j := b + 1; j < i; j++ {
		if t.toolAt[j] >= 0 {
			return true
		}
	}
	return false
}

// forbids reports whether the cue at i is itself denied: "don't leave it out".
func (t *talk) forbids(i int, n *sentence) bool {
	for j := i - 1; j >= n.First && j >= i-4; j-- {
		if t.toks[j].After != 0 || t.mentionAt[j] >= 0 {
			return false
		}
		switch t.norm(j) {
		case "isn't", "aren't":
			return j >= i-2 // "if nuts aren't your thing just leave them out" denies nothing
		case "don't", "not", "never", "won't", "doesn't", "can't", "cannot", "shouldn't", "wouldn't", "mustn't", "didn't", "no":
			return true
		}
	}
	return false
}

// warns reports whether leaving it out is only named to warn of what follows:
// "leave the lemon out and it goes brown".
func (t *talk) warns(i, end int, n *sentence) bool {
	if f := t.has(max(n.First, i-3), i, "if you", "if i"); f >= 0 && !t.marked(f, i) {
		// "if you skip it, it's dishwater", but "if you skip it, nobody will know"
		switch t.norm(end) {
		case "it", "it's", "it'll", "you'll", "you've", "you're", "they", "they'll", "the", "they're":
			return t.has(end, n.Last, "fine", "grand", "okay", "still", "all right", "alright", "just as", "good", "not the end", "won't matter", "doesn't matter", "live", "survive") < 0
		}
	}
	if t.has(max(n.First, i-8), i, "can", "could", "if", "may", "might", "i'd", "i") >= 0 {
		return false
	}
	for j := end; j < n.Last && j < end+4; j++ {
		if t.norm(j) == "and" {
			switch t.norm(j + 1) {
			case "it", "you", "you'll", "it'll", "they", "they'll", "the", "it's", "you've", "your":
				return true
			}
		}
	}
	return false
}

// opensPhrase reports whether the word at i begins a phrase: nothing but an
// article before it, or a mark.
func (t *talk) opensPhrase(i int, n *sentence) bool {
	if i == n.First || t.toks[i-1].After != 0 {
		return true
	}
	switch t.norm(i - 1) {
	case "an", "and", "the", "some", "then", "also":
		return true
	}
	return false
}

// nextFood gives the first usable mention in tokens [a, b), -1 for none.
func (t *talk) nextFood(a, b int) int {
	for i := a; i < b; i++ {
		if k := t.mentionAt[i]; k >= 0 && !t.mentions[k].mixed && !t.mentions[k].compared {
			return int(k)
		}
	}
	return -1
}

// foodLast gives the last mention before token i in its sentence, -1 for none.
func (t *talk) foodLast(i int, n *sentence) int {
	for j := i - 1; j >= n.First && j >= i-leaveOutReach; j-- {
		if k := t.mentionAt[j]; k >= 0 && !t.mentions[k].mixed && !t.mentions[k].compared {
			return int(k)
		}
	}
	return -1
}

// speaksOf reports whether mention k names the food of m.
func (t *talk) speaksOf(k int, m *mention) bool {
	o := &t.mentions[k]
	return o == m || o.First == m.First || related(o.food, m.food) > 0
}

// backTo reports whether a cue at token i of sentence n, which names no food,
// speaks of m: m is the last food put in before it, or of the last ones where
// they were only listed together.
func (t *talk) backTo(m *mention, i int, n *sentence) bool {
	if w := t.norm(m.First - 2); m.Last > i || m.definite && (w == "if" || w == "unless") {
		return false
	}
	plural := false
	object := t.norm(i) == "leave" || t.norm(i) == "skip" || t.norm(i) == "omit" // what is left out is a thing
	last := -1
	for j := i - 1; j >= 0 && j >= i-4*leaveOutReach; j-- {
		w := t.norm(j)
		if (w == "them" || w == "they're" || w == "they") && t.sentOf[j] != t.sentOf[m.First] {
			plural = true
		}
		k := int(t.mentionAt[j])
		if k < 0 || t.mentions[k].head.Last != j+1 {
			if a := t.actionAt[j]; a >= 0 && last < 0 && t.sentOf[j] != t.sentOf[m.First] && !t.adding(int(a)) && t.foodlessAfter(j, i) {
				return false // "then chill it, you can skip that"
			}
			continue
		}
		o := &t.mentions[k]
		if o.mixed || o.compared || o.negated || o.subst >= 0 || o.alias >= 0 || o.food.Dish && o.ingr == nil || o.First != m.First && t.placed(o) {
			continue
		}
		if plural && last < 0 && !strings.HasSuffix(t.norm(o.head.Last-1), "s") && o.food.Kind != "shellfish" && o.food.Kind != "fish" {
			continue
		}
		if t.speaksOf(k, m) {
			return object || t.putIn(m)
		}
		if last >= 0 || t.sentOf[j] != t.sentOf[m.First] {
			return false
		}
		// "orange slices, and some mint leaves, … You don't have to": all that
		// a sentence without a verb lists, for a cue in the next sentence
		if t.sentOf[j] == t.sentOf[i] || len(t.actionsIn(t.sentence(j))) > 0 || t.has(m.Last, o.First, "and") < 0 || len(m.amounts) > 0 && t.byMeasure(m) {
			return false
		}
		last = k
	}
	return false
}

// placed reports whether a food is only named for where or when something is
// done: "add it with the spices", "while the meat's resting".
func (t *talk) placed(o *mention) bool {
	if !o.definite {
		return false
	}
	if generic[o.food.Name] {
		return true
	}
	switch t.norm(o.First - 2) {
	case "with", "to", "into", "in", "over", "on", "onto", "before", "after", "while", "when", "for", "around", "round", "under", "if", "unless", "once", "until":
		return true
	}
	return false
}

// foodlessAfter reports whether no food is named in tokens [a, b).
func (t *talk) foodlessAfter(a, b int) bool {
	for i := a; i < b; i++ {
		if t.mentionAt[i] >= 0 {
			return false
		}
	}
	return true
}

// adding reports whether the action puts something in or on.
func (t *talk) adding(a int) bool {
	act := &t.actions[a]
	switch act.verb.Kind {
	case "add", "season", "mix", "serve", "finish", "prepare", "move":
		return true
	}
	switch act.verb.Verb {
	case "grate", "crumble", "squeeze", "shave", "snip", "tear", "zest", "crack", "thin", "loosen", "crush", "grind":
		return true
	}
	return act.particle == "in" || act.particle == "on" || act.particle == "over"
}

// setsAside reports whether the sentence says of the food it opens with that it may be
// left out, or that it stands in for another: no dish is named so.
func (t *talk) setsAside(s *sentence) bool {
	x := &standIns{t: t, s: s, a: s.First, b: s.Last, topic: -1, lack: -1, lacked: -1, about: -1}
	for i := s.First; i < s.Last; i++ {
		if w := t.norm(i); w == "optional" || t.cueAt(leaving, i, s.Last) > 0 || t.dispensable(i, s) > 0 {
			return true
		}
		if x.beginsPredicate(i) && x.predicate(i) >= ofItsSort {
			return true
		}
	}
	return false
}

// putIn reports whether the food is being put in where it is named: no verb
// that works on what is there already ("peel the carrots") governs it.
func (t *talk) putIn(m *mention) bool {
	s := t.sentence(m.First)
	verb := -1
	from := s.First
	if !t.punctuated {
		from = max(from, m.First-leaveOutReach/2)
	}
	for i := from; i < m.First; i++ {
		if a := t.actionAt[i]; a >= 0 && t.actions[a].mood != negative {
			verb = int(a)
		}
	}
	if verb < 0 || t.adding(verb) {
		return true
	}
	for i := m.Last; i < s.Last; i++ {
		if a := t.actionAt[i]; a >= 0 && t.actions[a].mood != negative && t.adding(int(a)) && t.foodlessAfter(m.Last, i) {
			return true // "roll the scallions round, and lay them on the platter"
		}
	}
	return false
}

// firstUse reports whether m is where its ingredient was first named.
func (t *talk) firstUse(m *mention) bool {
	for i := len(t.ingredients) - 1; i >= max(0, len(t.ingredients)-inMind); i-- {
		g := t.ingredients[i]
		n := len(g.mentions)
		if t.mentions[g.mentions[n-1]].First != m.First {
			continue
		}
		if n == 1 {
			return true
		}
		// "Dill! If you've some fresh dill, …": called out just before
		o := &t.mentions[g.mentions[0]]
		return n == 2 && len(o.amounts) == 0 && m.First-o.Last <= leaveOutReach && len(t.actionsIn(t.sentence(o.First))) == 0
	}
	return true
}

// aCondition are the words at which conditionFor has anything to read.
var aCondition = openers("when whenever should too", conditionCues, whenCues)

// conditionFor reports whether the condition that begins at token i of the
// food's own sentence makes it a matter of choice.
func (t *talk) conditionFor(m *mention, s *sentence, i int) bool {
	if !t.in(aCondition, i) {
		return false
	}
	w := t.norm(i)
	if w == "when" && (t.norm(i+1) == "i" || t.norm(i+1) == "i've") && m.head.Last <= i {
		// "I add chilli when I remember"
		if e := t.personal(s, i); e == s.Last {
			return t.chosen(m, s, i, e, false)
		}
	}
	if w == "should" && i == s.First && t.norm(i+1) == "you" {
		// "should you have some": an "if" the other way round
		if e := t.personal(s, i); e > 0 {
			return t.chosen(m, s, i, e, false)
		}
	}
	if w == "too" {
		return t.tooMuch(m, s, i)
	}
	opener := t.conditionOpens(i, s)
	if opener == 0 {
		return false
	}
	if m.head.Last <= i && t.ofItsSort(m, i) || i > m.head.Last && t.toks[i-1].After == 0 && t.modifier(i-1) == lexicon.PrepWord {
		return false // "walnuts, chopped if you like"
	}
	b := i + opener // where its own words begin
	for j := b; j < min(s.Last, b+6); j++ {
		if ofMeasuring[t.norm(j)] {
			return false // "a hundred and thirteen grams if you work in grams"
		}
	}
	switch t.norm(i - 1) {
	case "see", "check", "ask", "wonder", "as", "even", "what", "know", "tell", "say", "like", "sure":
		if i > s.First && t.toks[i-1].After == 0 {
			return false
		}
	}
	if w == "unless" {
		// "unless you can't stand it" leaves out the food before
		c := max(t.cueAt(lacking, i+1, s.Last), t.cueAt(lacking, i+2, s.Last))
		e := i + 2 + c
		k := t.nextFood(e, min(s.Last, e+3))
		if c == 0 && t.punctuated && m.head.Last <= i {
			// "unless there's an allergy in the house"
			f := t.circumstance(s, i+1)
			return f > 0 && t.norm(i+1) != "you" && t.chosen(m, s, i, f, false)
		}
		return c > 0 && m.head.Last <= i && (k < 0 || t.speaksOf(k, m)) && t.chosen(m, s, i, e, false)
	}
	if c := t.cueAt(usingIt, b, s.Last); c > 0 {
		e := b + c
		if pronouns[t.norm(e)] {
			e++
		}
		if e >= s.Last || t.toks[e-1].After != 0 {
			return t.chosen(m, s, i, e, false)
		}
		// it may go on as another condition: "if you're having company"
	}
	if c := t.cueAt(having, b, s.Last); c > 0 {
		e := b + c
		if t.participle(e) || t.choosesBetween(m, i) {
			return false // "when you've grated it"; "or brown sugar if you have it"
		}
		if k := t.nextFood(e, min(s.Last, e+5)); k >= 0 && !pronouns[t.norm(e)] && !t.marked(e, t.mentions[k].First) && !t.owned(&t.mentions[k], i, e) {
			return t.speaksOf(k, m) && t.chosen(m, s, i, e, true)
		}
		for e < s.Last && e < b+7 && t.toks[e-1].After == 0 && haveTail[t.norm(e)] {
			e++
		}
		if t.toks[e-1].After == 0 && e < s.Last && !t.opensMain(e) {
			if f := t.circumstance(s, b); f > 0 && t.punctuated {
				return t.chosen(m, s, i, f, false)
			}
			if e == b+c {
				return false // "if you've a coeliac in the house"
			}
		}
		return t.chosen(m, s, i, e, false)
	}
	if c := t.cueAt(liking, b, s.Last); c > 0 {
		e := b + c
		for e < s.Last && e < b+7 && t.toks[e-1].After == 0 && (tastes[t.norm(e)] || t.comparative(e)) && t.norm(e) != "and" {
			e++
		}
		if t.toks[e-1].After == 0 && e < s.Last {
			if t.mentionAt[e] >= 0 && t.norm(e-1) != "," {
				// "if you like garlic, add two cloves": the food is named in it
				return t.chosen(m, s, i, e, true)
			}
			switch t.norm(e) {
			case "and", "or", "but", "then", "so", "you", "i", "add", "put", "because", "though", "just", "only", "not", "otherwise", "leave", "for", "too", "also", "as", "with":
				if t.norm(e-1) == "to" {
					return false
				}
			default:
				if !t.opensMain(e) {
					// "if you want to freeze them", but "if you're feeling rich"
					f := t.personal(s, i)
					if f == 0 && t.punctuated {
						f = t.circumstance(s, b)
					}
					return f > 0 && t.chosen(m, s, i, f, false)
				}
			}
		} else if t.norm(e-1) == "to" && t.norm(e-2) != "like" && t.norm(e-2) != "want" {
			return false
		}
		return t.chosen(m, s, i, e, false)
	}
	if e := t.personal(s, i); e > 0 {
		for j := e; j < m.First; j++ {
			if w := t.norm(j); t.actionAt[j] < 0 && (finites[w] || subjects[w] && !youWe[w]) && w != "goes" {
				return false // "if you rush, it tastes raw"
			}
		}
		return t.chosen(m, s, i, e, false)
	}
	if t.punctuated {
		if e := t.circumstance(s, b); e > 0 && (m.head.Last <= i || t.aboutSomebody(b, e)) && !t.choosesBetween(m, i) {
			return t.chosen(m, s, i, e, t.nextFood(b, e) >= 0)
		}
	}
	return t.depends(m, s, i)
}

// choosers are whom a condition may speak of besides the cook's "you": those who eat
// it, and where things are bought.
var choosers = words("you you're you've you'd y'all i i'm i've we we're we've anyone anybody someone somebody people folks kids children family guests crowd household everyone everybody lads market shop store garden grocer budget they they're there's mood weather")

// personally are the words that may stand before such a one.
var personally = words("your my the our any anyone's those")

// plannings are verbs of conditions about the method, not about a taste.
var plannings = words("tell say told make making made cook cooking bake baking freeze freezing keep keeping store storing double doubling use using start starting prefer feed feeding serve serving do doing leave leaving left leftover leftovers thought forgot miss missed")

// personal reads a condition about a person's taste, store or mood in words that no
// list foresees: "if you're in the mood", "if the market has nice ones", "if your
// people can take it". It gives where it ends, 0 where it is no such condition.
func (t *talk) personal(s *sentence, i int) int {
	k := i + 1
	for k < s.Last && personally[t.norm(k)] {
		k++
	}
	if k >= s.Last || !choosers[t.norm(k)] && !(k > i+1 && choosers[t.norm(k+1)]) {
		return 0
	}
	e := k + 1
	for e < s.Last && e < k+10 && t.toks[e-1].After == 0 {
		if t.actionAt[e] >= 0 && !coming[t.norm(e)] || t.toolAt[e] >= 0 || t.quantityAt[e] >= 0 {
			break
		}
		if subjects[t.norm(e)] && e+1 < s.Last && t.toks[e].After == 0 && !(youWe[t.norm(e)] && e > k+1 && (strings.HasSuffix(t.norm(e-1), "s") || coming[t.norm(e-1)]) && t.actionAt[e+1] >= 0) {
			return 0 // "if you rush it tastes raw": what comes of it
		}
		if plannings[t.norm(e)] || t.cueAt(lacking, e, s.Last) > 0 || t.mentionAt[e] >= 0 || t.norm(e) == "to" && t.toks[e].After == 0 {
			return 0
		}
		e++
	}
	if e < s.Last && t.toks[e-1].After == 0 && (t.toolAt[e] >= 0 || t.quantityAt[e] >= 0 || t.punctuated) {
		return 0
	}
	if t.norm(i-1) == "and" && e < s.Last && t.toks[e-1].After != 0 && i > s.First+1 {
		return 0 // "and if you like, make it the good sort": of what comes
	}
	return e
}

// pronouns stand for a food named before.
var pronouns = words("it them 'em those one that")

// marked reports whether a mark stands in tokens [a, b).
func (t *talk) marked(a, b int) bool {
	for i := a; i < b; i++ {
		if t.toks[i].After != 0 {
			return true
		}
	}
	return false
}

// haveTail may follow "if you've got" and still speak of the food before.
var haveTail = words("any it them 'em that those some one either handy around about in left over there lying spare knocking kicking hanging wanting to hand the garden cupboard house fridge fresh going yours these")

// opensMain reports whether the main clause begins at token e.
func (t *talk) opensMain(e int) bool {
	return t.actionAt[e] >= 0 || t.quantityAt[e] >= 0
}

// chosen reports whether a condition over tokens [i, e) speaks of m: m is in
// it, ends right before it, or is the first food after it.
func (t *talk) chosen(m *mention, s *sentence, i, e int, named bool) bool {
	if t.owned(m, i, e) || !t.putIn(m) || !named && m.food.Taste || !t.firstUse(m) {
		return false
	}
	opens := i == s.First || t.toks[i-1].After.Ends() || t.leadIn(s, i)
	if !t.punctuated {
		// no mark tells whether the condition ends a clause or begins one: it
		// ends it where a food stands right before
		k := t.foodLast(i, s)
		opens = k < 0 || i-t.mentions[k].Last > 3 || headWords[t.norm(i-1)] || t.norm(i-1) == "but" || t.norm(i-1) == "or" || e < len(t.toks) && t.actionAt[e] >= 0 && t.adding(int(t.actionAt[e]))
	}
	if t.norm(i-1) == "or" || t.cueAt(failing, e, s.Last) > 0 {
		return false // it chooses between two foods
	}
	if named && m.First >= i && m.First <= e+4 {
		return !t.toolOwned(e, m.First)
	}
	if m.head.Last <= i {
		if t.norm(i-1) == "and" && e < s.Last && t.punctuated {
			return false // "add raisins, and if you like, make it the good sort"
		}
		if i-m.Last > leaveOutReach || opens || t.otherMeasured(m, i) {
			return false
		}
		if i > m.head.Last && t.toks[i-1].After == 0 && t.modifier(i-1) == lexicon.PrepWord {
			return false // "a handful of walnuts, chopped if you like"
		}
		return t.lastOne(m, i)
	}
	if m.First >= e || named {
		// "… for the top if you like, and salt": what follows the mark isn't meant, but
		// "one clove in every jar, and if you like, a strip of peel"
		if !opens && !(t.norm(i-1) == "and" && t.toks[i-1].After == 0 && t.toks[e-1].After != 0 && t.opensList(m, e)) {
			return false
		}
		if m.First-e > leaveOutReach || t.toolOwned(e, m.First) || t.workedApart(e, m.First) {
			return false
		}
		return t.firstOne(m, e)
	}
	return false
}

// opensList reports whether nothing but its amount, articles and modifiers stand between
// token e and the food.
func (t *talk) opensList(m *mention, e int) bool {
	for j := e; j < m.First; j++ {
		w := t.norm(j)
		if t.quantityAt[j] < 0 && !articleLike[w] && w != "of" && w != "maybe" && t.lex.Modifiers[w] == lexicon.NoClass {
			return false
		}
	}
	return true
}

// thinning are verbs that are followed by what does it: "thin it, a spoon of water".
var thinning = words("thin loosen slacken")

// workedApart reports whether the condition over tokens before e asks for work on another
// thing, and the food at token b comes only behind the next mark: "if your knife is dull,
// sharpen it, pumpkin is no joke".
func (t *talk) workedApart(e, b int) bool {
	for i := e + 1; i < b; i++ {
		if w := t.norm(i); w != "it" && w != "them" || t.toks[i].After == 0 {
			continue
		}
		if a := t.actionAt[i-1]; a < 0 || !thinning[t.actions[a].verb.Verb] {
			return true
		}
	}
	return false
}

// otherMeasured reports whether an amount that isn't the food's own stands between it and
// token i: "plain flour, half wholemeal if you want".
func (t *talk) otherMeasured(m *mention, i int) bool {
	for j := m.Last; j < i; j++ {
		k := t.quantityAt[j]
		if k >= 0 && t.toks[max(j-1, 0)].After != 0 && (t.quantities[k].kind == share || t.quantities[k].min < 1 && t.quantities[k].kind == count) {
			return true
		}
	}
	return false
}

// comparative reports whether the word at i compares: "fancier", "hotter".
func (t *talk) comparative(i int) bool {
	w := t.norm(i)
	return len(w) > 5 && strings.HasSuffix(w, "er") && t.mentionAt[i] < 0 && t.toolAt[i] < 0 && t.actionAt[i] < 0
}

// leadIn reports whether only small words stand between the sentence's start
// and token i: "and if you like, …".
func (t *talk) leadIn(s *sentence, i int) bool {
	for j := s.First; j < i; j++ {
		if !headWords[t.norm(j)] && t.norm(j) != "but" && t.norm(j) != "only" && t.norm(j) != "here" {
			return false
		}
	}
	return true
}

// owned reports whether the condition is about having a tool or a helper, not
// a food: "if you've got a mixer".
func (t *talk) owned(m *mention, i, e int) bool {
	end := e
	for end < len(t.toks) && end < e+5 && !t.toks[end-1].After.Ends() {
		end++
	}
	return t.toolBeside(i, end) && (m.First < i || !t.foodNear(e, 4))
}

// holdsThem reports whether the tool at token i is only what holds the food: "if
// there's a pot of them".
func (t *talk) holdsThem(i int) bool { return t.norm(i+1) == "of" && pronouns[t.norm(i+2)] }

// toolBeside reports whether tokens [a, b) name a tool that is no measure: "a spoon
// of capers" is one.
func (t *talk) toolBeside(a, b int) bool {
	for i := a; i < b; i++ {
		if t.toolAt[i] >= 0 && t.quantityAt[i] < 0 && !t.holdsThem(i) && !t.placeWord(i) {
			return true
		}
	}
	return false
}

func (t *talk) toolOwned(a, b int) bool {
	for i := a; i < b && i < a+4; i++ {
		if t.toks[i].After != 0 {
			return false
		}
		if t.toolAt[i] >= 0 && t.quantityAt[i] < 0 {
			return true
		}
	}
	return false
}

func (t *talk) foodNear(i, n int) bool {
	for j := i; j < i+n && j < len(t.toks); j++ {
		if t.mentionAt[j] >= 0 {
			return true
		}
		if t.toks[j].After != 0 {
			return false
		}
	}
	return false
}

// lastOne reports whether no other food stands between m and token i, but for
// those joined to it by "or".
func (t *talk) lastOne(m *mention, i int) bool {
	for _, k := range t.mentionsIn(m.Last, i) {
		o := &t.mentions[k]
		if o.alias >= 0 || o.subst >= 0 && t.orJoined(k-1, k) && t.has(m.Last, i, "instead") < 0 && (o.Last < i || t.toks[i-1].After != 0 || !t.punctuated) {
			continue // but "honey, or maple syrup if you're vegan" chooses
		}
		return false
	}
	for j := m.Last; j < i; j++ {
		if a := t.actionAt[j]; a >= 0 && t.actions[a].mood != negative && t.norm(j-1) == "and" {
			return false
		}
	}
	return true
}

// firstOne reports whether m is the first food after token e that is put in,
// with no second verb between.
func (t *talk) firstOne(m *mention, e int) bool {
	for _, k := range t.mentionsIn(e, m.First) {
		o := &t.mentions[k]
		if t.together(o, m) {
			break
		}
		if o.subst >= 0 || o.alias >= 0 || o.definite && o.ingr != nil || t.known(k) >= 0 && t.known(k) < k {
			continue
		}
		if related(o.food, m.food) > 0 {
			return true
		}
		return false
	}
	verbs := 0
	for j := e; j < m.First; j++ {
		if a := t.actionAt[j]; a >= 0 && t.actions[a].mood != negative {
			if verbs++; verbs > 1 && t.norm(j-1) != "and" {
				return false
			}
		}
	}
	return true
}

// together reports whether m is put in with o by one verb: only amounts, words for
// how they are cut and "and" stand between them.
func (t *talk) together(o, m *mention) bool {
	and := false
	for j := o.Last; j < m.First; j++ {
		w := t.norm(j)
		switch {
		case t.toks[j-1].After.Ends():
			return false
		case w == "and" || w == "with":
			and = true
		case t.mentionAt[j] >= 0 || t.quantityAt[j] >= 0 || articleLike[w] || w == "of" || t.lex.Modifiers[w] != lexicon.NoClass:
		default:
			return false
		}
	}
	return and
}

// depends reports whether m is only added where the dish turned out so: "if
// it's too thick, add a splash of water".
func (t *talk) depends(m *mention, s *sentence, i int) bool {
	if m.definite || t.byMeasure(m) && !t.spoonful(m) || m.food.Taste || !t.firstUse(m) {
		return false
	}
	if t.cueAt(lacking, i+1, s.Last) > 0 || t.cueAt(lacking, i+2, s.Last) > 0 {
		return false // "water, if there's no stock" chooses
	}
	switch w := t.norm(i + 1); w {
	case "it", "it's", "it'll", "they", "they're", "that", "that's", "this", "things", "everything", "yours", "there's", "needed", "need", "necessary":
	case "the", "your":
		if m.Last <= i || i+2 >= len(t.toks) || t.mentionAt[i+2] < 0 && t.madeAt[i+2] == 0 && t.toolAt[i+2] < 0 {
			return false
		}
		if k := t.mentionAt[i+2]; k >= 0 && t.speaksOf(int(k), m) {
			return false
		}
	default:
		return false
	}
	verb := -1
	if m.First > i {
		for j := i; j < m.First; j++ {
			if a := t.actionAt[j]; a >= 0 {
				if t.actions[a].mood == negative {
					continue
				}
				if verb >= 0 {
					return false
				}
				verb = int(a)
			}
		}
		if verb >= 0 && !t.adding(verb) || m.First-i > 2*leaveOutReach || t.workedApart(i, m.First) {
			return false
		}
		if verb < 0 && t.has(m.Last, min(s.Last, m.Last+5), "will", "'ll", "helps", "brings", "fixes", "sorts") < 0 {
			return false
		}
		from := i
		if verb >= 0 {
			from = t.actions[verb].tok
		}
		// "add some water and stir in the cream": "and" ends it
		return t.firstOne(m, from) && t.has(from, m.First, "and") < 0
	}
	if !t.punctuated && t.byMeasure(m) || t.norm(i-1) == "and" || t.norm(i-1) == "but" {
		return false // the condition may begin what follows
	}
	return i-m.Last <= leaveOutReach/2 && t.lastOne(m, i) && t.putIn(m) && len(t.actionsIn(s)) > 0
}

// tooMuch reports whether the sentence opens with how the dish may turn out, and m is all
// that is put in then: "too thick, a spoon of water".
func (t *talk) tooMuch(m *mention, s *sentence, i int) bool {
	if i != s.First || !t.punctuated || i+2 >= s.Last || t.toks[i].After != 0 || t.toks[i+1].After == 0 || t.toks[i+1].After.Ends() || t.mentionAt[i+1] >= 0 {
		return false
	}
	return !m.definite && !m.food.Taste && m.First >= i+2 && m.First-i <= leaveOutReach && t.spoonful(m) && t.firstUse(m) && t.firstOne(m, i+2)
}

// spoonful reports whether the food's measure is a spoon or less, said as one.
func (t *talk) spoonful(m *mention) bool {
	for _, q := range m.amounts {
		if x := &t.quantities[q]; x.kind == measure && !x.article && x.min > 2 {
			return false
		}
	}
	return true
}

var (
	restOf   = cues("the rest", "everything else", "the extras", "the toppings", "the others", "what's left", "all the rest", "the trimmings", "the garnishes", "these")
	restCues = cues("only if you", "if you want", "if you like", "optional", "up to you", "your choice", "extras", "you don't have to", "if you've got", "if you have")
)

// restOptional reports whether it was said before that what is listed now may
// be left out: "the rest you put only if you want".
func (t *talk) restOptional(m *mention, k int) bool {
	for j := m.First - 1; j >= 0 && j >= m.First-restReach; j-- {
		if t.cueAt(restCues, j, len(t.toks)) > 0 {
			from := max(0, j-8)
			if i, n := t.cueIn(restOf, from, j); i >= 0 && !t.foodNear(i+n, j-i-n) && t.has(i, j, "not", "aren't", "isn't", "don't") < 0 && (!t.punctuated || t.sentOf[i] == t.sentOf[j]) {
				return true
			}
		}
		if a := t.actionAt[j]; a >= 0 && t.actions[a].mood != negative {
			return false
		}
	}
	return false
}
