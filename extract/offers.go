package extract

import "strings"

// What a cook offers without putting it in ("feel free to add raisins",
// "coriander would be lovely in this") is an ingredient that may be left out.

// offerReach is how many tokens may stand between the words of an offer and the
// food offered.
const offerReach = 8

var (
	// offeredAfter follow the food they offer.
	offeredAfter = cues("is optional", "are optional", "is totally optional", "are totally optional", "is completely optional", "is entirely optional", "is purely optional", "is very much optional", "optional", "is up to you", "are up to you", "is an option", "are an option", "is your choice", "is your call",
		"isn't needed", "isn't strictly needed", "isn't strictly necessary", "isn't essential", "aren't essential", "isn't necessary", "aren't necessary", "is not essential", "are not essential", "is not necessary", "is not needed", "isn't compulsory", "aren't needed", "isn't required", "is not required",
		"for those who", "for those that", "for anyone who", "for anybody who", "for people who", "for whoever",
		"would be nice", "would be lovely", "would be great", "would be good", "would be delicious", "would be gorgeous", "would work well", "would work nicely", "would go well", "would go nicely", "would go great", "would not go amiss", "wouldn't go amiss", "never hurts", "wouldn't hurt", "won't hurt",
		"is nice in", "is lovely in", "is good in", "are nice in", "are lovely in", "are good in", "is a nice addition", "is a good addition", "is a lovely addition", "is a nice extra", "are a nice addition", "are a nice extra", "is a nice touch", "are a nice touch", "is a lovely touch", "are a lovely touch", "is nice too", "are nice too", "is lovely too", "are lovely too", "is good too", "are good too", "is nice on top", "are nice on top", "is lovely on top", "is good on top", "is nice with it in", "is an extra", "are an extra", "is extra", "are extra", "is a bonus", "are a bonus", "is also welcome", "are also welcome", "is welcome", "are welcome", "is always welcome", "are always welcome", "is not compulsory", "is for the adults", "is for the grown ups")
	// onlyFor follow a food that only some are given.
	onlyFor = cues("only for adults", "only for the adults", "only for grown ups", "only for the grown ups", "just for adults", "just for the adults", "just for grown ups", "just for the grown ups", "only for the brave", "for adults only", "for grown ups only", "for the adults only", "for the grown ups only", "for the brave", "for the grown ups", "for the adults")
	// offeredShort follow a food to which "is" is joined.
	offeredShort = cues("a nice touch", "a lovely touch", "a nice extra", "a nice addition", "a good addition", "a lovely addition", "an extra", "extra", "a bonus", "optional", "up to you", "an option", "your call", "your choice", "nice too", "lovely too", "good too", "nice in", "lovely in", "good in", "nice on top", "lovely on top", "good on top", "for the grown ups", "for the adults")
	// wanting offer the food that follows, and need no verb that puts it in.
	wanting = cues("you might want", "you might like", "you may want", "you may like", "you might fancy", "you might have", "you could have", "some like", "some people like", "some folk like", "some want")
	// wantedIn follow such a food where it is to go into the dish.
	wantedIn = cues("in there", "in it", "in this", "in that", "in too", "on top", "over the top", "over it", "on it", "through it", "too", "as well")
	// offeredBefore come before the food, with a verb that puts it in.
	offeredBefore = cues("feel free to", "you could", "you could also", "you could even", "you might", "you might want to", "you might like to", "you may", "you may want to", "you may like to", "you may wish to", "i sometimes", "i'll sometimes", "sometimes i", "sometimes i'll", "sometimes we", "we sometimes", "you can also", "you can even", "you can always", "nothing stops you", "nothing wrong with", "there's nothing to stop you", "i've been known to", "i have been known to", "by all means", "if you're feeling", "could even", "might even")
	// offeredLast may follow "you can add the food" and make an offer of it.
	offeredLast = cues("too", "as well", "if you", "or don't", "or not")
	// notOffered tell that the food takes another's place or is eaten beside.
	notOffered = cues("believe it or not", "like it or not", "instead", "in place", "in its place", "rather than", "swap", "substitute", "replace", "with it", "with this", "with them", "with that", "alongside", "on the side", "next time", "another time")
)

// takers are those whom a food is for.
var takers = cues("for anyone", "for anybody", "for whoever", "for those")

// listeners open, after "for anyone", words for those who listen and not for those who eat.
var listeners = words("of in at new here from on else interested curious outside unfamiliar unsure not")

// forTakers reports whether token i says that the food before it is for some of those
// who eat: "for anyone daft enough", "for those fond of it". Those who can't eat another
// food take it in its place, and those who count or measure only hear it.
func (t *talk) forTakers(i int, s *sentence) bool {
	c := t.cueAt(takers, i, s.Last)
	if c == 0 || i+c >= s.Last {
		return false
	}
	e := i + c
	for j := e; j < s.Last && j < e+4 && t.toks[j-1].After == 0; j++ {
		if t.cueAt(lacking, j, s.Last) > 0 || t.cueAt(diets, j, s.Last) > 0 {
			return false
		}
	}
	w := t.norm(e)
	return t.toks[e-1].After == 0 && !listeners[w] && (!strings.HasSuffix(w, "ing") || w == "wanting" || w == "craving" || w == "feeling")
}

// offered reports whether the sentence offers the food of m.
func (t *talk) offered(m *mention) bool {
	s := t.sentence(m.First)
	if s.past || s.other || s.naming || m.subst >= 0 || m.negated || m.compared || m.mixed || m.definite && t.takenUp(m) {
		return false
	}
	if i, _ := t.cueIn(notOffered, s.First, s.Last); i >= 0 {
		return false
	}
	if c := max(t.cueAt(offeredAfter, m.Last, s.Last), t.cueAt(onlyFor, m.Last, s.Last)); (c > 0 || t.forTakers(m.Last, s)) && t.has(s.First, m.First, "if") < 0 {
		return true
	}
	if strings.HasSuffix(t.norm(m.Last-1), "'s") && t.cueAt(offeredShort, m.Last, s.Last) > 0 && t.has(s.First, m.First, "if") < 0 {
		return true // "coriander's a nice touch"
	}
	if t.onOccasion(s, m) {
		return true
	}
	// back over what belongs to the food: its amount, articles, modifiers
	first := m.First
	for _, q := range m.amounts {
		if x := &t.quantities[q]; x.First >= s.First {
			first = min(first, x.First)
		}
	}
	for i := first - 1; i >= s.First && i >= first-offerReach; i-- {
		if t.toks[i].After != 0 || t.mentionAt[i] >= 0 && i < first-1 {
			return false
		}
		switch t.norm(i) {
		case "more", "extra", "another", "use", "buy", "get", "find", "see", "not", "don't", "until", "when":
			return false
		case "maybe", "perhaps":
			return i >= first-4 && !t.byMeasure(m) && t.firstUse(m)
		}
		if c := t.cueAt(wanting, i, first); c > 0 && first-(i+c) <= 2 && !t.byMeasure(m) && t.cueAt(wantedIn, m.Last, s.Last) > 0 {
			return t.firstUse(m)
		}
		if c := t.cueAt(offeredBefore, i, first); c > 0 {
			return t.putting(i+c, first) && t.firstUse(m)
		}
		if t.is(i, "you", "can") && t.putting(i+2, first) && t.firstUse(m) {
			_, n := t.cueIn(offeredLast, m.Last, min(s.Last, m.Last+5))
			return n > 0
		}
	}
	return false
}

// occasionCues open a sentence about what is put in only now and then.
var occasionCues = cues("at christmas", "at easter", "in summer", "in the summer", "in winter", "in the winter", "in spring", "in the spring", "in autumn", "in the autumn", "on sundays", "on a sunday", "some days", "some weeks", "now and then", "now and again", "once in a while", "every so often", "from time to time", "for birthdays", "for a birthday", "for parties", "for a party", "for visitors", "for guests", "on special occasions", "on a cold night", "on a cold day", "some nights", "some mornings", "most weeks", "on occasion", "now and then", "for company", "at the weekend", "for a treat")

// onOccasion reports whether the sentence puts the food in only on occasions: "At
// Christmas I put in a handful of cranberries".
func (t *talk) onOccasion(s *sentence, m *mention) bool {
	i := s.First
	for i < m.First && (headWords[t.norm(i)] || t.norm(i) == "and") {
		i++
	}
	c := t.cueAt(occasionCues, i, m.First)
	if c == 0 && t.occasionCloses(s, m) {
		return true
	}
	if c == 0 || m.definite || !t.firstUse(m) {
		return false
	}
	for j := i + c; j < m.First; j++ {
		if t.norm(j) == "use" || t.mentionAt[j] >= 0 {
			return false
		}
	}
	return t.putting(i+c, m.First)
}

// occasionCloses reports whether the sentence only names the food and where it goes, and
// closes with an occasion: "peas through it, a cup, some nights".
func (t *talk) occasionCloses(s *sentence, m *mention) bool {
	if !t.punctuated || s.Len() > leaveOutReach || m.definite || !t.firstUse(m) || len(t.actionsIn(s)) > 0 || !t.opensSentence(m) {
		return false
	}
	i, c := t.cueIn(occasionCues, m.Last, s.Last)
	return i >= 0 && t.clauseEnd(i+c, s) && t.foodlessAfter(m.Last, i)
}

// forSome open an offer to some of those who eat: "for the grown-ups, capers on
// top", "who wants can put capers".
var forSome = cues("for those who", "for those that", "for anyone who", "for anybody who", "for people who", "for the grown ups", "for the grownups", "for grown ups", "for adults", "for the adults", "for the brave", "for the children", "for the kids", "who wants", "who likes", "whoever wants", "whoever likes", "anyone who wants", "anyone who likes", "those who like", "those who want", "if somebody wants", "if somebody likes")

var (
	// someEaters are some of those who eat.
	someEaters = cues("grown ups", "the grown ups", "grown-ups", "the grown-ups", "grownups", "the grownups", "adults", "the adults", "the big ones", "the kids", "kids", "the children", "children", "the little ones", "little ones", "the brave", "the brave ones", "chilli lovers", "heat lovers", "the young ones", "the older ones", "guests", "the guests", "visitors")
	// givenTo are verbs of what they are given.
	givenTo = words("get gets have has take takes")
)

// eatersGet reports whether only some of those who eat are given the food: "grown-ups
// get capers".
func (t *talk) eatersGet(s *sentence, m *mention) bool {
	for i := s.First; i < m.First && i < s.First+3; i++ {
		c := t.cueAt(someEaters, i, m.First)
		if c == 0 {
			continue
		}
		i += c
		if w := t.norm(i); w == "can" || w == "may" || w == "might" || w == "could" {
			i++
		}
		return givenTo[t.norm(i)] && t.foodlessAfter(i, m.First) && m.First-i <= 5
	}
	return false
}

// leftToChoice reports whether the food is named only for those who want it: with
// a condition of taste, or words that it can be left out, and no other food beside
// it in an instruction.
func (t *talk) leftToChoice(s *sentence, m *mention) bool {
	if !s.past && !s.other && m.subst < 0 && !t.takenUp(m) && t.eatersGet(s, m) {
		return true
	}
	if s.past && (t.pastAround(s, m) || t.ofOthers(t.upToMark(s, m))) || s.other || s.naming || s.kind == aside && t.ofOthers(t.upToMark(s, m)) || m.subst >= 0 || generic[m.food.Name] && generic[t.phrase(m.head.First, m.head.Last)] || t.takenUp(m) || s.Len() > choiceWords {
		return false
	}
	if m.definite {
		// "my husband has no cinnamon in it, you do as you like with the cinnamon"
		return s.kind != aside && t.namedBefore(int(t.mentionAt[m.head.First]), m.First) && t.discretionOver(s, m)
	}
	if s.kind != aside && !t.ofOthers(t.upToMark(s, m)) && t.amongExtras(m) {
		return true
	}
	if i, _ := t.cueIn(notOffered, s.First, s.Last); i >= 0 {
		return false
	}
	if t.opensFor(s, m) {
		return true
	}
	near := t.reach(int(t.sentOf[m.First]))
	for i := near.First; i < near.Last; i++ {
		if t.leftOutAt(m, i, near) {
			return true
		}
		if t.conditionFor(m, near, i) {
			if c, _ := t.cueIn(leaving, near.First, i); c < 0 { // not "I leave them out when there is rice"
				return true
			}
		}
	}
	return false
}

// pastAround reports whether what is said of the food itself, as far as the first
// mark behind it, is told in the past and not said to the listener.
func (t *talk) pastAround(s *sentence, m *mention) bool {
	near := t.upToMark(s, m)
	if !t.sentPast(near) {
		return false
	}
	i := t.has(m.Last, near.Last, "if you've", "if you have", "if you like", "if you want", "if you fancy")
	return i < 0
}

// discretionOver reports whether the sentence leaves the food that it names to the
// listener.
func (t *talk) discretionOver(s *sentence, m *mention) bool {
	i, c := t.cueIn(discretions, s.First, m.First)
	return i >= 0 && m.First-(i+c) <= 3
}

// opensFor reports whether the sentence names, before the food, those whom it is for.
func (t *talk) opensFor(s *sentence, m *mention) bool {
	i, _ := t.cueIn(forSome, s.First, m.First)
	return i >= 0
}

// choiceWords is the longest sentence that offers a choice in passing.
const choiceWords = 26

// putting reports whether tokens [a, b) hold a verb that puts something in and
// no other.
func (t *talk) putting(a, b int) bool {
	found := false
	for i := a; i < b; i++ {
		v := t.baseVerb(i)
		if v == nil || t.mentionAt[i] >= 0 || t.quantityAt[i] >= 0 {
			continue
		}
		switch {
		case v.Kind == "add", v.Kind == "season", v.Kind == "finish", v.Verb == "put", v.Verb == "throw", v.Verb == "chuck", v.Verb == "stir", v.Verb == "toss", v.Verb == "grate", v.Verb == "crumble", v.Verb == "squeeze", v.Verb == "include", v.Verb == "stick", v.Verb == "fold":
			found = true
		default:
			return false
		}
	}
	return found
}

// takenUp reports whether the food of m went in before it is named here.
func (t *talk) takenUp(m *mention) bool { return t.firstNamed(m.food) >= 0 }
