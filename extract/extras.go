package extract

import "quern/internal/language"

// Some cooks say once that what comes next may all be left out, and then list it:
// "Extras. Whichever of these you like. Radishes. A spoon of capers." Such a head
// speaks of a heap without naming its foods and leaves it to the eater; the list
// goes on as long as its sentences only name foods or put them on.

// extrasReach is how many sentences such a list has at most.
const extrasReach = 10

var (
	// heaps name what is listed next without its foods.
	heaps = cues("these", "the following", "extras", "the extras", "optional extras", "toppings", "the toppings", "the trimmings", "the garnishes", "garnishes", "optional bits", "optional toppings", "optional things", "optional garnishes", "optional add ons", "add ons", "bits for the top", "bits and pieces", "the rest", "everything else", "the others", "all the rest", "what follows", "what comes next", "everything from here", "anything from here", "all from here", "from here on", "what's coming", "the fixings", "any of", "the bells and whistles", "the frills", "frills")
	// alone are heaps that leave it to the eater by their own meaning.
	alone = cues("extras", "the extras", "optional extras", "optional bits", "optional toppings", "optional things", "optional garnishes", "optional add ons", "add ons", "the frills", "frills")
	// liberties leave a heap to the eater.
	liberties = cues("optional", "extras", "you like", "you fancy", "you want", "you please", "you choose", "you feel like", "you've got", "you have", "up to you", "your choice", "your call", "take it or leave it", "or none", "all or none", "pick", "choose", "pick and choose", "not compulsory", "compulsory", "not essential", "essential", "obligatory", "necessary", "required", "a must", "isn't needed", "suit yourself", "help yourself", "frills")
	// asLiked, with a verb of finishing, opens a list of what may go on.
	asLiked = cues("how you like", "however you like", "as you like", "any way you like", "how you want", "however you want", "with whatever you like", "with whatever you fancy", "with whatever you have", "with whatever you've got", "as you please")
	// finishing are the verbs of such a head.
	finishing = words("dress top garnish finish decorate trim serve")
)

// headsExtras reports whether sentence k tells that what is listed next may be left
// out, and where the head ends.
func (t *talk) headsExtras(k int) (int, bool) {
	s := &t.sents[k]
	if s.past || s.other || s.Len() > choiceWords {
		return 0, false
	}
	if i, c := t.cueIn(asLiked, s.First, s.Last); i > s.First {
		for j := s.First; j < i; j++ {
			if finishing[t.norm(j)] && t.foodlessAfter(s.First, i) {
				return i + c, true
			}
		}
	}
	h, n := t.cueIn(heaps, s.First, s.Last)
	if h < 0 || !t.foodlessAfter(s.First, h) {
		return 0, false
	}
	end := h + n
	if t.cueAt(alone, h, s.Last) > 0 && (t.clauseEnd(end, s) && h-s.First < 2 || t.norm(h-1) == "all" || t.norm(h-1) == "are") {
		return end, t.has(s.First, h, "no", "not", "aren't", "without") < 0
	}
	i, c := t.cueIn(liberties, s.First, s.Last)
	if i < 0 || !t.foodlessAfter(min(i, h), max(i+c, end)) {
		return 0, false
	}
	if needs := t.cueAt(needs, i, s.Last); needs > 0 && t.unneeded(i, s) == 0 {
		return 0, false // "these are essential"
	}
	if t.has(s.First, i, "don't", "not", "aren't", "never") >= 0 && t.cueAt(needs, i, s.Last) == 0 {
		return 0, false
	}
	return max(i+c, end), true
}

// amongExtras reports whether m stands in a list that was said to be left to the
// eater.
func (t *talk) amongExtras(m *mention) bool {
	if !t.punctuated || m.definite || m.negated || m.compared || m.mixed {
		return false
	}
	k := int(t.sentOf[m.First])
	for j := k; j >= 0 && j >= k-extrasReach && t.sents[j].para == t.sents[k].para; j-- {
		if end, ok := t.headsExtras(j); ok && (j < k || m.First >= end) {
			return true
		}
		if !t.onlyLists(&t.sents[j]) {
			return false
		}
	}
	return false
}

// onlyLists reports whether the sentence goes on with a list: it names foods, and
// nothing is done in it but putting them in or on, or cutting them.
func (t *talk) onlyLists(s *sentence) bool {
	if s.kind == storing || t.toks[s.Last-1].After&language.Question != 0 {
		return false
	}
	switch t.norm(s.First) {
	case "then", "now", "right", "so", "next", "okay", "finally":
		return false
	}
	for _, a := range t.actionsIn(s) {
		if act := &t.actions[a]; act.mood != negative && !act.bare && !t.adding(a) {
			return false
		}
	}
	return true
}
