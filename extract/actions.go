package extract

import (
	"sort"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// mood is how an action was said.
type mood uint8

const (
	imperative  mood = iota // "whisk it"
	planned                 // "you want to whisk", "I'm going to", "we'll"
	passive                 // "goes in", "is whisked"
	permitted               // "you can", "you could", "I'd": optional
	negative                // "don't whisk": part of another step
	recalled                // "you should have toasted": told late, but to be done
	conditional             // "if it's too thick, add"
)

// action is one thing told to be done.
type action struct {
	tok      int // token of the verb
	verb     *lexicon.Action
	base     string // the base verb as spoken
	particle string
	mood     mood
	clause   language.Span // the words that belong to it
	subject  int           // token of a food that acts ("the butter goes in"), -1
	lead     int           // token of the light verb that leads to it, 0 for none
	named    int           // one more than the mention that is all it names, 0 for none
	step     *step
	optional bool
	bare     bool // said without a verb: "onions in"
	splits   bool // a remark told late stands before it
}

var youWe = words("you we i y'all you'll we'll i'll you're we're i'm you've we've i've let's ya yous us you'd we'd i'd folks")
var others = words("he she they he's she's they're he'd she'd they'd he'll she'll they'll who people everybody everyone somebody nobody nobody's someone")
var modals = words("will can could should must may might would gonna wanna gotta shall 'll")
var leadAdverbs = words("meantime meanwhile just then gently carefully really also now quickly slowly even always probably actually simply first next basically finally again only kind sort please lightly " +
	"literally immediately maybe either generously never usually roughly finely thoroughly quick still sorta kinda go ahead half properly definitely only you-know well so okay right and or but too firmly loosely quietly briefly once")

// intents come before "to" in an instruction: "you want to", "going to".
var intents = words("best better important helps want wants need needs going like have has got ought ready start begin starting fixing fixin try trying remember sure like'd wanted supposed love prefer continue able time next about going' tend")

// subordinators open clauses that describe, not instruct.
var subordinators = words("until till 'til when whenever once if while as because cause 'cause since so before after that which who where how what why though although unless than whether like where's till's")

func (t *talk) markActions() {
	t.actionAt = none(len(t.toks))
	t.pastTold = t.toldInPast()
	for s := range t.sents {
		t.sentenceActions(&t.sents[s])
	}
	t.aims()
	t.bound()
}

var doneKind = words("add mix heat cut shape season wrap")

// toldInPast reports whether the cook tells what was done, off camera, as the
// recipe: "then I added the celery". It takes several such sentences.
func (t *talk) toldInPast() bool {
	n := 0
	for i := 1; i < len(t.toks); i++ {
		if w := t.norm(i - 1); w != "i" && w != "we" {
			continue
		}
		for _, f := range t.verbs(i) {
			if f.Form == lexicon.Past && !f.Action.Weak && doneKind[f.Action.Kind] && !light[f.Action.Verb] && t.hasFood(i, min(i+8, len(t.toks))) {
				n++
				break
			}
		}
	}
	return n >= 4 && n*250 >= len(t.toks)
}

// goingToDo are words by which a question is about what is going to be done.
var goingToDo = listed("i'm going to", "we're going to", "i'm gonna", "we're gonna", "i'll", "we'll", "i want to do", "you want to do", "we want to do", "what you're doing is", "what i'm doing is", "what we're doing is", "let's", "go ahead and", "how long do you", "how long do we", "how long should you")

// cutAs reports whether the word at token i tells with the next how meat is cut, as the verbs of
// bones and skins seem to do: "thighs, bone in, skin off".
func (t *talk) cutAs(i int) bool {
	if w := t.norm(i); w != "bone" && w != "skin" && w != "shell" || !t.joined(i) {
		return false
	}
	switch t.norm(i + 1) {
	case "in", "on", "off", "out":
		return !determiners[t.norm(i+2)]
	}
	return false
}

// sentenceActions finds the actions of one sentence.
func (t *talk) sentenceActions(s *sentence) {
	if t.toks[s.Last-1].After&language.Question != 0 && !(t.loose && t.punctuated && t.orders(s)) && t.hasAny(s.First, s.Last, goingToDo) < 0 {
		return // a question asks, it doesn't tell
	}
	for i := s.First; i < s.Last; i++ {
		if t.actionAt[i] >= 0 {
			continue
		}
		if m := t.mentionAt[i]; m >= 0 && !t.mentions[m].verb && (!t.verbUse(i) || i > t.mentions[m].head.First) || t.quantityAt[i] >= 0 && !t.quarters(i) {
			continue
		}
		forms := t.verbs(i)
		if i+1 < s.Last && t.toks[i].After == 0 {
			if two := t.verbPhrase(i); two != nil {
				forms = two
			}
		}
		if len(forms) == 0 {
			continue
		}
		if t.toolAt[i] >= 0 && t.tools[t.toolAt[i]].Len() > 1 || t.levelOfHeat(i) || t.cutAs(i) || i+1 < s.Last && outward[t.norm(i+1)] && t.opensFragment(i) && t.inedibleOut(i, s.Last) > 0 {
			continue
		}
		t.tryVerb(s, i, forms)
	}
}

// levelOfHeat reports whether "heat" at i is how strong it is, not what is done: "in a
// skillet medium heat".
func (t *talk) levelOfHeat(i int) bool {
	if w := t.norm(i); w != "heat" || !t.joined(i-1) || determiners[t.norm(i+1)] || t.mentionStarts(i+1) {
		return false
	}
	switch t.norm(i - 1) {
	case "low", "medium", "high", "gentle", "moderate", "fierce":
		return true
	}
	return false
}

// orders reports whether a sentence begins with a verb and its object: no
// question, whatever mark a recogniser set behind it.
func (t *talk) orders(s *sentence) bool {
	i := s.First
	for i < s.Last && t.onlyOpeners(i, i+1) {
		i++
	}
	return i+1 < s.Last && t.baseVerb(i) != nil && t.norm(i) != "do" && t.norm(i) != "have" && opensObject[t.norm(i+1)]
}

// quarters reports whether "quarter" is what is done, not how much: "quarter the
// mushrooms".
func (t *talk) quarters(i int) bool {
	if t.norm(i) != "quarter" || t.toks[i].After != 0 || t.norm(i-1) == "a" || t.norm(i-1) == "one" || t.norm(i-1) == "three" {
		return false
	}
	switch t.norm(i + 1) {
	case "the", "your", "them", "each", "those", "these", "it":
		return true
	}
	return false
}

// tryVerb decides whether the verb at i is an action and how it was said.
func (t *talk) tryVerb(s *sentence, i int, forms []lexicon.VerbForm) {
	a := action{tok: i, subject: -1}
	ok := false
	for _, f := range forms {
		if noWork[f.Action.Verb] && !t.hitsWith(s, i) {
			return
		}
		if light[f.Action.Verb] {
			t.lightVerb(s, i, f)
			continue
		}
		a.verb, a.base = f.Action, f.Action.Verb
		switch f.Form {
		case lexicon.Base:
			a.mood, ok = t.baseMood(s, i, f.Action)
		case lexicon.Ing:
			a.mood, ok = t.ingMood(s, i, f.Action)
			if ok && i > s.First && t.norm(i-1) == "keep" && t.joined(i-1) {
				a.lead = i - 1 // "keep stirring"
			}
		case lexicon.Third:
			a.mood, ok = t.thirdMood(s, i, f.Action, &a)
		case lexicon.Past:
			a.mood, ok = t.pastMood(s, i, f.Action)
		}
		if ok {
			break
		}
	}
	if !ok {
		return
	}
	t.particle(&a)
	if a.verb.Weak && a.mood != negative && !t.weakFits(s, &a) {
		return
	}
	if a.verb.Kind == "measure" || a.mood != negative && t.idle(s, &a) {
		return
	}
	t.actions = append(room(t.actions, i, len(t.toks)), a)
	t.actionAt[i] = int32(len(t.actions) - 1)
}

// hitsWith reports whether "hit" at i puts something on the food: "hit it with some salt".
func (t *talk) hitsWith(s *sentence, i int) bool {
	if t.norm(i) != "hit" {
		return false
	}
	for k := i + 2; k < s.Last && k < i+5 && t.toks[k-1].After == 0; k++ {
		if t.norm(k) == "with" {
			return len(t.mentionsIn(k, min(s.Last, k+8))) > 0
		}
	}
	return false
}

// noWork are verbs of the talk, not of the kitchen.
var noWork = words("sharpen show see watch enjoy tell call eat buy find visit try love hope think wish listen remember talk speak read write thank subscribe click hit look tend")

// light verbs are no action of their own; what they lead to may be: "give it a
// stir", "get the oven heating", "let it rest".
var light = words("do have get give let need want use make go run say look start begin stop try continue allow know like keep")

// several are words for foods that were just named.
var several = words("those these they both all")

// lightVerb finds the action that a light verb at i leads to.
func (t *talk) lightVerb(s *sentence, i int, f lexicon.VerbForm) {
	m, ok := mood(0), false
	switch f.Form {
	case lexicon.Base:
		m, ok = t.baseMood(s, i, f.Action)
	case lexicon.Ing:
		m, ok = t.ingMood(s, i, f.Action)
	case lexicon.Third:
		a := action{tok: i, subject: -1}
		m, ok = t.thirdMood(s, i, f.Action, &a)
		if !ok && (f.Action.Verb == "want" || f.Action.Verb == "need" || f.Action.Verb == "get") {
			m, ok = passive, t.foodSubject(s, i)
		}
	}
	verb := f.Action.Verb
	if w := t.norm(i - 1); !ok && t.norm(i) == "got" && i > s.First && t.joined(i-1) && (w == "i've" || w == "we've" || w == "and" || w == "i" || w == "we") {
		for k := i + 2; k < min(s.Last, i+8) && t.joined(k-1); k++ {
			if w := t.norm(k); (w == "heating" || w == "preheating" || w == "warming") && t.heatBefore(i, k) {
				v := t.verbs(k)[0].Action
				t.actions = append(t.actions, action{tok: k, verb: v, base: v.Verb, mood: planned, subject: -1, lead: i})
				t.actionAt[k] = int32(len(t.actions) - 1)
				break
			}
		}
		return
	}
	if !ok && verb == "go" && f.Form == lexicon.Base && i > s.First && t.joined(i-1) {
		switch {
		case (inward[t.norm(i+1)] && t.norm(i+1) != "to" || onward[t.norm(i+1)]) && t.norm(i+2) != "at":
			// "those go in with the sugar", "the eggs go in one at a time"
			m, ok = passive, (several[t.norm(i-1)] || t.pluralEndsAt(i)) && !t.inSubordinate(s, i)
		case t.norm(i-1) == "in" && determiners[t.norm(i+1)]:
			m, ok = passive, t.hasFood(i+1, min(s.Last, i+6)) // "in go the mustard seeds"
		}
	}
	if verb == "go" && ((!ok || m == planned) && t.goesSomewhere(s, i) || (f.Form == lexicon.Base || f.Form == lexicon.Third) && t.placeLeads(s, i)) {
		m, ok = passive, true
	}
	if !ok {
		return
	}
	put := func(k int, base *lexicon.Action, name string) {
		t.actions = append(t.actions, action{tok: k, verb: base, base: name, mood: m, subject: -1, lead: i})
		t.actionAt[k] = int32(len(t.actions) - 1)
	}
	if verb == "go" && (f.Form == lexicon.Third && t.norm(i) == "goes" || m == passive) {
		if t.has(i, min(s.Last, i+5), "trash", "bin", "garbage", "rubbish", "compost", "waste", "dog", "chickens") >= 0 {
			return // that is thrown away
		}
		if t.intoVessel(s, i) {
			put(i, f.Action, "put")
		} else {
			put(i, f.Action, "add")
		}
		return
	}
	end := min(s.Last, i+9)
	if f.Form == lexicon.Third && (verb == "want" || verb == "need" || verb == "get") {
		// "it wants a good stir", "everything gets a toss"
		for k := i + 1; k < end && k < i+5; k++ {
			if v := t.baseVerb(k); v != nil && !light[v.Verb] && !v.Weak && t.mentionAt[k] < 0 && t.has(i, k, "a", "another") >= 0 {
				put(k, v, v.Verb)
				return
			}
		}
		return
	}
	switch verb {
	case "give":
		// "give it a stir", "give everything a good toss"
		for k := i + 1; k < end; k++ {
			if t.toks[k-1].After != 0 && k > i+1 {
				return
			}
			if t.norm(k) == "to" && t.hasQuantity(i, k) {
				// "give it twenty minutes to set"
				if v := t.baseVerb(k + 1); v != nil && aimVerb[v.Verb] {
					put(k+1, v, v.Verb)
				}
				return
			}
			if w := t.norm(k); w == "a" || w == "another" || w == "one" && manner[t.norm(k+1)] {
				for j := k + 1; j < min(end, k+5); j++ {
					if v := t.baseVerb(j); v != nil && !light[v.Verb] && t.mentionAt[j] < 0 && v.Kind != "" {
						put(j, v, v.Verb)
						return
					}
				}
				return
			}
		}
	case "let", "allow", "get", "keep", "start", "begin", "continue", "go":
		for k := i + 1; k < end; k++ {
			if t.toks[k-1].After != 0 && k > i+1 {
				break
			}
			if verb == "let" || verb == "allow" {
				v := t.baseVerb(k)
				if v == nil || t.mentionAt[k] >= 0 && !t.letVerb(k) || k == i+1 || t.norm(k-1) == "the" || t.norm(k-1) == "a" || t.norm(k-1) == "your" {
					continue
				}
				switch v.Verb {
				case "get":
					if w := t.norm(t.pastAdverbs(k + 1)); w == "cold" || w == "cool" {
						cool := t.lex.Verbs("cool")[0].Action
						put(k, cool, cool.Verb) // "let it get completely cold"
					}
					return
				case "know", "do", "say", "see", "look":
					return
				case "go", "come":
					// "let the pressure go down": the cook lets
					put(i, f.Action, verb)
					return
				}
				put(k, v, v.Verb)
				return
			}
			if verb == "go" {
				if t.is(i+1, "in", "with") && t.hasFood(i+3, end) {
					put(i, f.Action, "add") // "go in with your garlic"
				}
				break
			}
			if verb == "get" && (t.norm(k) == "going" || t.norm(k) == "hot" || t.norm(k) == "on" || t.norm(k) == "lit" || t.norm(k) == "preheated") && t.heatBefore(i, k) {
				put(i, f.Action, "heat") // "get your oven going"
				return
			}
			if t.toolAt[k] >= 0 {
				continue // "get a frying pan hot"
			}
			for _, g := range t.verbs(k) {
				if verb == "get" && g.Form == lexicon.Past && t.getsDone(k, g.Action) {
					put(k, g.Action, g.Action.Verb) // "get that all stirred together"
					return
				}
				if g.Form == lexicon.Ing && !light[g.Action.Verb] && !(g.Action.Weak && verb == "keep") {
					put(k, g.Action, g.Action.Verb)
					return
				}
			}
		}
		if verb == "keep" && t.has(i, end, "warm", "hot", "cold", "cool", "covered", "under a", "under the") >= 0 && t.weakFits(s, &action{tok: i, verb: f.Action, base: verb}) {
			put(i, f.Action, verb)
		}
		if verb == "let" && (t.norm(i+1) == "it" || t.norm(i+1) == "them" || t.norm(i+1) == "that") && t.toks[min(i+1, len(t.toks)-1)].After == 0 && t.hasQuantity(i, end) {
			put(i, f.Action, verb)
		}
		if verb == "get" {
			// "get it in the oven", "get the onions into the pan"
			a := action{tok: i, verb: f.Action, base: verb}
			for k := i + 1; k < end; k++ {
				switch t.norm(k) {
				case "started", "ready", "going":
					return
				case "in", "into", "on", "onto", "off":
					if k > i+1 && t.weakFits(s, &a) && t.hasFood(i, end) {
						put(i, f.Action, verb)
					}
					return
				}
			}
		}
	case "run":
		if t.weakFits(s, &action{tok: i, verb: f.Action, base: verb}) && (t.norm(i+1) == "a" || t.norm(i+1) == "the" || t.norm(i+1) == "your") && t.has(i, end, "round", "around", "under", "along", "through") >= 0 {
			put(i, f.Action, verb)
		}
	case "make":
		// "make a well", "make a gap"
		for k := i + 1; k < end; k++ {
			switch t.norm(k) {
			case "well", "hole", "holes", "wells", "gap", "gaps", "paste", "slits", "cuts", "space", "room", "hollow", "incision", "slit", "cut", "ball", "balls", "indent", "patties", "slurry", "roux":
				put(i, f.Action, verb)
				return
			}
			if t.toks[k].After != 0 {
				return
			}
		}
	}
}

// pastAdverbs gives the first token from k on that isn't an adverb of degree.
func (t *talk) pastAdverbs(k int) int {
	for k < len(t.toks)-1 && t.joined(k) && (leadAdverbs[t.norm(k)] || t.norm(k) == "right" || t.norm(k) == "stone" || strings.HasSuffix(t.norm(k), "ly")) {
		k++
	}
	return k
}

// goAdverbs may stand between "go" and where it goes: "go right back in".
var goAdverbs = words("right straight back all just then now also in to be going gonna is are too")

// goesSomewhere reports whether the form of "go" at i tells where a food or the dish goes:
// "they're going in", "the chops are gonna go right back in", "into the oven it goes".
func (t *talk) goesSomewhere(s *sentence, i int) bool {
	j := i - 1
	for j >= s.First && t.toks[j].After == 0 && goAdverbs[t.norm(j)] && t.norm(j) != "in" {
		j--
	}
	if j < s.First || t.toks[j].After&^language.Comma != 0 {
		return false
	}
	w := t.norm(j)
	lone := w == "it" || w == "that" || several[w]
	switch {
	case w == "it's" || w == "that's" || w == "they're" || w == "it'll" || w == "they'll":
		if t.toks[j].After != 0 {
			return false
		}
	case lone && t.toks[j].After == 0 && i-j <= 2 && t.placeFirst(s, j):
		return true // "in they go"
	case lone && t.toks[j].After == 0, t.mentionEndsAt(j + 1), t.mentionAt[j] >= 0, t.madeAt[j] > 0, t.toolAt[j] >= 0, t.namesGoer(s, j):
		if i == j+1 && t.norm(i) != "goes" {
			return false // "the beans going in"
		}
	default:
		return false
	}
	if t.inSubordinate(s, j) {
		return false
	}
	k := i + 1
	for k < s.Last && t.toks[k-1].After == 0 && (t.norm(k) == "right" || t.norm(k) == "straight" || t.norm(k) == "back" || t.norm(k) == "all") {
		k++
	}
	if k >= s.Last || t.toks[k-1].After != 0 {
		return false
	}
	switch w := t.norm(k); {
	case w == "in", w == "on":
		// "what's going on"
		return k+1 >= s.Last || t.toks[k].After != 0 || t.hasFood(k+1, min(s.Last, k+5)) || t.norm(k+1) == "there" || t.norm(k+1) == "here" || t.norm(k+1) == "with" || w == "in" && t.norm(k+1) != "a" && t.norm(k+1) != "circles"
	case w == "into", w == "onto", w == "inside", w == "over":
		return t.hasFood(k+1, min(s.Last, k+6)) || w == "inside"
	}
	return false
}

// namesGoer reports whether the plural at j, in no table, is the subject of what goes
// somewhere: "the chops are going back in".
func (t *talk) namesGoer(s *sentence, j int) bool {
	return j > s.First && (t.norm(j-1) == "the" || t.norm(j-1) == "those") && strings.HasSuffix(t.norm(j), "s") && t.norm(j+1) == "are"
}

// placeFirst reports whether the clause of the subject at j begins with a place:
// "into the oven it goes".
func (t *talk) placeFirst(s *sentence, j int) bool {
	for k := j - 1; k >= s.First && k >= j-6; k-- {
		w := t.norm(k)
		if t.actionAt[k] >= 0 {
			return false
		}
		if (inward[w] && w != "to" || onward[w]) && (k == s.First || t.toks[k-1].After != 0 || joining[t.norm(k-1)] || t.norm(k-1) == "then" || t.norm(k-1) == "back" || t.norm(k-1) == "straight") {
			return true
		}
		if t.toks[k].After != 0 && k < j-1 {
			return false
		}
	}
	return false
}

// placeLeads reports whether the clause of "go" at i names the place first and what goes there
// behind: "into the blender go tomatoes, garlic and salt".
func (t *talk) placeLeads(s *sentence, i int) bool {
	return i > s.First+1 && t.toolAt[i-1] >= 0 && t.toks[i-1].After == 0 && t.placeFirst(s, i) && len(t.mentionsIn(i+1, min(s.Last, i+6))) > 0
}

// intoVessel reports whether what goes somewhere at i goes into the oven, the cold or a
// vessel: it is put there, and added to nothing.
func (t *talk) intoVessel(s *sentence, i int) bool {
	from, to := i+1, min(s.Last, i+7)
	if i > s.First && t.placeFirst(s, i-1) {
		from, to = max(s.First, i-6), i
	}
	for k := from; k < to; k++ {
		switch {
		case k < i && t.toks[k].After != 0: // "lid on, and into the oven it goes"
		case k > i+1 && t.toks[k-1].After != 0, t.mentionAt[k] >= 0, t.madeAt[k] > 0:
			return false
		case coldOrHot[t.norm(k)], t.toolAt[k] >= 0, t.norm(k) == "place" || t.norm(k) == "spot":
			return true
		}
	}
	return false
}

// getsDone reports whether the participle at k, after "get" and its object, tells what
// is done to that: "get the garlic minced", and not "get the chopped garlic in".
func (t *talk) getsDone(k int, v *lexicon.Action) bool {
	if v.Weak || v.State || t.mentionAt[k] >= 0 || t.mentionStarts(k+1) || t.norm(k) == v.Verb {
		return false
	}
	switch w := t.norm(k - 1); {
	case t.mentionAt[k-1] >= 0, t.toolAt[k-1] >= 0, t.madeAt[k-1] > 0:
		return true
	case w == "it", w == "them", w == "that", w == "this", w == "those", w == "these", w == "all", w == "everything", w == "both":
		return true
	default:
		return strings.HasSuffix(w, "ly")
	}
}

// heatBefore reports whether an oven, a grill or a pan is named in [a, b).
func (t *talk) heatBefore(a, b int) bool {
	for i := a; i < b; i++ {
		if x := t.toolAt[i]; x >= 0 {
			switch t.tools[x].eq.Kind {
			case "heat", "pan", "appliance", "oven-dish":
				return true
			}
		}
	}
	return t.has(a, b, "oven", "grill", "broiler", "barbecue") >= 0
}

// letVerb reports whether a word that is also a food is the verb after "let".
func (t *talk) letVerb(k int) bool {
	return t.norm(k-1) == "it" || t.norm(k-1) == "them" || t.norm(k-1) == "that"
}

// baseVerb gives the action whose base form stands at k.
func (t *talk) baseVerb(k int) *lexicon.Action {
	for _, f := range t.verbs(k) {
		if f.Form == lexicon.Base {
			return f.Action
		}
	}
	return nil
}

// aims are infinitives of rest and heat that follow another action and are
// done as well: "put it in the fridge to chill", "leave it to cool".
func (t *talk) aims() {
	n := len(t.actions)
	for k := 0; k < n; k++ {
		a := t.actions[k]
		if a.mood == negative {
			continue
		}
		s := t.sentence(a.tok)
		limit := min(s.Last, a.tok+12)
		for i := a.tok + 1; i < limit; i++ {
			if t.actionAt[i] >= 0 {
				break
			}
			if t.norm(i) != "to" {
				continue
			}
			v := t.baseVerb(i + 1)
			if v == nil || i+1 >= s.Last || !aimVerb[v.Verb] || t.actionAt[i+1] >= 0 {
				continue
			}
			switch a.base {
			case "put", "leave", "set", "place", "let", "return", "pop", "chuck", "transfer", "move", "stick", "turn", "refrigerate", "cover", "wrap", "bring", "stand", "tip", "remove", "take", "lay", "spread", "pour", "hang":
				t.actions = append(t.actions, action{tok: i + 1, verb: v, base: v.Verb, mood: a.mood, subject: -1, lead: a.tok})
				t.actionAt[i+1] = int32(len(t.actions) - 1)
			}
			break
		}
	}
	if len(t.actions) > n {
		sort.SliceStable(t.actions, func(i, j int) bool { return t.actions[i].tok < t.actions[j].tok })
		for i := range t.actions {
			t.actionAt[t.actions[i].tok] = int32(i)
		}
	}
}

var aimVerb = words("chill cool rest rise set marinate soak drain prove proof simmer cook bake ferment dry steep infuse thicken firm reduce macerate harden cure brine pickle")

// idle reports whether the words only leave a thing out or alone, throw away
// what failed, cut what was prepared, or set a timer: no work of the recipe.
func (t *talk) idle(s *sentence, a *action) bool {
	next, then := t.norm(a.tok+1), t.norm(a.tok+2)
	end := a.tok+2 >= s.Last || t.toks[min(a.tok+1, len(t.toks)-1)].After != 0
	it := next == "it" || next == "them" || next == "that" || next == "those"
	if next == "me" || next == "us" {
		return a.lead == 0 // "bring me a slice"
	}
	if t.strangeObject(s, a) || t.onSomebody(s, a) || t.announcesDish(s, a) {
		return true
	}
	switch a.base {
	case "rattle":
		return next == "off"
	case "wait":
		return t.toks[a.tok].After&language.Comma != 0 && !t.timeSoon(s, a.tok) // "and wait, not all of it"
	case "add":
		q := t.quantityAt[min(a.tok+1, len(t.toks)-1)]
		return q >= 0 && t.quantities[q].kind == duration && !t.hasFood(t.quantities[q].Last, min(s.Last, t.quantities[q].Last+4)) // "you add ten minutes"
	case "smell":
		return a.mood == planned || a.mood == permitted // "you smell it in the street"
	case "fill":
		return t.has(s.First, a.tok, "from this", "from that") >= 0 // how much it makes
	case "drop":
		return next == "everything" && (then == "" || a.tok+2 >= s.Last || t.toks[a.tok+1].After != 0)
	case "put", "lift", "rest", "turn", "pull", "move":
		if next == "your" && ownBody[then] || it && then == "away" && a.base == "put" {
			return true // "put your feet up", "put it away"
		}
	case "stand", "stay", "step":
		// the cook's own feet: "stand back", "stay with your grill"
		switch next {
		case "back", "clear", "well", "away", "there", "close", "near":
			return true
		case "with":
			return a.base == "stay" || a.base == "stand"
		}
	case "wash", "clean", "scrub":
		if t.has(a.tok, min(s.Last, a.tok+9), "same day", "same night", "straight after", "right after", "afterwards", "same evening") >= 0 {
			return true // washing up
		}
	case "leave", "skip", "omit":
		if it && (then == "out" || then == "off" || then == "if" || then == "altogether" || end) {
			return !t.waitSoon(s, a.tok)
		}
		if then == "out" || t.norm(a.tok+3) == "out" || a.base != "leave" {
			return true
		}
		if t.has(a.tok, min(s.Last, a.tok+7), "at the store", "at the shop", "on the shelf", "in the shop", "at home", "the room", "in the store") >= 0 {
			return true
		}
		return t.norm(a.tok+1) == "the" && t.has(a.tok, min(s.Last, a.tok+6), "shut", "closed") >= 0
	case "throw", "bin", "discard", "toss", "chuck", "start":
		if t.has(a.tok, min(s.Last, a.tok+4), "out", "away") >= 0 || a.base == "bin" {
			return t.has(s.First, s.Last, "if") >= 0
		}
	case "set", "get", "use":
		return t.has(a.tok, min(s.Last, a.tok+5), "timer", "alarm") >= 0
	case "check":
		return it && then == "out"
	case "take":
		return next == "you" && t.norm(a.tok-1) == "me"
	case "save":
		// "save some of the water"
		return !determiners[next] || it || !t.hasFood(a.tok+1, min(s.Last, a.tok+6))
	case "cut", "slit", "split", "spread":
		// "cherry tomatoes, cut in half": how it is prepared
		if (next == "in" || next == "into" || next == "down") && a.tok > s.First && t.toks[a.tok-1].After&language.Comma != 0 && t.mentionEnds(s, a.tok) {
			return true
		}
	}
	return false
}

// wholeDish are verbs of making a dish from beginning to end.
var wholeDish = words("cook bake prepare")

// nowadays tell that what follows is what the whole talk makes.
var nowadays = words("today tonight recipe")

// announcesDish reports whether the words only say which dish is made, before anything is
// done: "today we are cooking the adobo", "let's cook a proper shepherd's pie".
func (t *talk) announcesDish(s *sentence, a *action) bool {
	if a.mood == passive || a.verb.Kind != "heat" && !wholeDish[a.base] {
		return false
	}
	for k := range t.actions {
		if t.actions[k].mood != negative {
			return false
		}
	}
	dish := a.mood == permitted && (t.norm(a.tok+1) == "it" || t.norm(a.tok+1) == "them") // "you can fry them, or you can bake them"
	mine := wholeDish[a.base] && a.tok > s.First && (t.norm(a.tok-1) == "i" || t.norm(a.tok-1) == "we")
	if dish {
		return !t.hasQuantity(a.tok, s.Last)
	}
	if mine && !t.hasQuantity(s.First, s.Last) && len(t.mentionsIn(s.First, s.Last)) == 0 {
		return true // "so I cook in the slow cooker"
	}
	for i := a.tok + 1; i < s.Last; i++ {
		if t.quantityAt[i] >= 0 || t.toolAt[i] >= 0 || untils[t.norm(i)] {
			return false
		}
		if m := t.mentionAt[i]; m >= 0 {
			dish = dish || t.mentions[m].food.Dish
		}
		dish = dish || dishNoun[lexicon.Singular(t.norm(i))]
	}
	if dish && wholeDish[a.base] {
		return true
	}
	for i := s.First; i < s.Last; i++ {
		if nowadays[t.norm(i)] {
			return true
		}
	}
	return false
}

// ownBody is what a cook moves that is no work.
var ownBody = words("feet foot legs face head hair glasses phone")

// strangers are things and people that no dish is made of nor in: who is told to put
// the radio on is told nothing of the recipe.
var strangers = words("football match game rugby cricket wireless news radio telly tv television phone camera tripod microphone mike laptop computer tablet car van truck bike bus tire tires tyre tyres key keys bell notification notifications channel link comment comments email video photo picture " +
	"dog dogs cat cats hen hens chickens goat goats cow cows horse pigeon pigeons child children kid kids baby boy girl husband wife neighbour neighbours neighbor neighbors driver doctor guests visitors " +
	"chair chairs sofa couch curtain curtains window windows door doors gate roof gutter garden lawn shoe shoes boots coat coats hat jacket sleeve sleeves socks laundry washing ironing newspaper wallet purse money change job homework school bill bills " +
	"leg legs feet foot knee back shoulder shoulders head chin eye eyes elbow elbows teeth breath tongue patience temper dreams heart time voice name address line dishwasher plug music song story joke")

// parts of animals that are eaten or worked on as well
var eatenParts = words("leg legs feet foot knee back shoulder shoulders head chin eye eyes teeth tongue heart chickens goat")

// strangeObject reports whether what the verb works on is a stranger to the kitchen:
// "check your tyre pressure", "put the kids in the other room", "let me move the camera".
func (t *talk) strangeObject(s *sentence, a *action) bool {
	i := a.tok + 1
	if i < s.Last && t.toks[a.tok].After == 0 && displaced[t.norm(i)] && contains(a.verb.Particles, t.norm(i)) {
		i++
	}
	if i >= s.Last || !determiners[t.norm(i)] || t.norm(i) == "it" || t.norm(i) == "them" || t.toks[a.tok].After != 0 {
		return false
	}
	yours := t.norm(i) == "your" || t.norm(i) == "my" || t.norm(i) == "our" || t.norm(i) == "his" || t.norm(i) == "her"
	for k := i + 1; k < s.Last && k < i+4; k++ {
		if t.mentionAt[k] >= 0 || t.toolAt[k] >= 0 || t.madeAt[k] > 0 || t.quantityAt[k] >= 0 {
			return false
		}
		w := t.norm(k)
		if strangers[w] && (yours || !eatenParts[w]) {
			// "the oven door", "the door of the oven", "a child's handful"
			return !(w == "door" || w == "window" || w == "time" || w == "line" || w == "change" || w == "back" || w == "head") || yours
		}
		if displaced[w] || subordinators[w] || t.toks[k].After != 0 || w == "and" || w == "of" || w == "with" {
			return false
		}
	}
	return false
}

// onSomebody reports whether the food does it to the cook: "split on you", "spit at you".
func (t *talk) onSomebody(s *sentence, a *action) bool {
	if a.tok+2 >= s.Last {
		return false
	}
	w := t.norm(a.tok + 2)
	return (t.norm(a.tok+1) == "on" || t.norm(a.tok+1) == "at") && (w == "you" || w == "me" || w == "us" || w == "him") && t.toks[a.tok].After == 0
}

// mentionEnds reports whether the words before i are a food with its amount
// and no verb: a noun phrase that the participle at i describes.
func (t *talk) mentionEnds(s *sentence, i int) bool {
	for k := i - 1; k >= s.First; k-- {
		if t.actionAt[k] >= 0 {
			return false
		}
		if t.mentionAt[k] >= 0 || t.quantityAt[k] >= 0 {
			return true
		}
		if i-k > 9 {
			return false
		}
	}
	return false
}

// waitSoon reports whether a time follows the verb at i, in its clause or in
// the fragment after the sentence.
func (t *talk) waitSoon(s *sentence, i int) bool {
	for j := i + 1; j < len(t.toks) && j < i+9; j++ {
		if q := t.quantityAt[j]; q >= 0 && t.quantities[q].kind == duration {
			return true
		}
		if j > i+3 && t.actionAt[j] >= 0 {
			return false
		}
	}
	return false
}

// back skips adverbs and "go ahead and" to the left of i and gives the token
// before them, or s.First-1.
func (t *talk) back(s *sentence, i int) int {
	k := i - 1
	for k >= s.First {
		w := t.norm(k)
		if t.toks[k].After&^language.Dash != 0 {
			return k
		}
		if w == "of" && k > s.First && (t.norm(k-1) == "sort" || t.norm(k-1) == "kind") {
			k -= 2
			continue
		}
		if (w == "meantime" || w == "meanwhile") && k-2 >= s.First && t.norm(k-1) == "the" && t.norm(k-2) == "in" {
			k -= 3
			continue
		}
		if leadAdverbs[w] && w != "and" && w != "or" && w != "but" && w != "so" && w != "right" && w != "well" || strings.HasSuffix(w, "ly") && len(w) > 4 {
			k--
			continue
		}
		return k
	}
	return k
}

// baseMood reads a base form: an imperative, a plan, or no verb at all.
func (t *talk) baseMood(s *sentence, i int, v *lexicon.Action) (mood, bool) {
	if t.norm(i-1) == "of" && i > s.First && t.norm(i-2) != "sort" && t.norm(i-2) != "kind" {
		return 0, false
	}
	k := t.back(s, i)
	if k < s.First || t.toks[k].After != 0 {
		// opens the sentence or a clause
		if k >= s.First && t.inSubordinate(s, k+1) && false {
			return 0, false
		}
		if t.negationBefore(s, i) {
			return negative, true
		}
		if k >= s.First && t.ofPerson(s, k) {
			return 0, false
		}
		if !t.nounSafe(i, v, k < s.First || results[t.norm(i+1)] || t.closes(s, i, v)) {
			return 0, false
		}
		if k >= s.First && !t.commaImperative(s, k, i, v) {
			return 0, false
		}
		return t.clauseMood(s, i), true
	}
	if t.loose && t.underCondition(i, s.First) && t.nounSafe(i, v, true) {
		return t.clauseMood(s, i), true // "when it boils throw in the gnocchi"
	}
	if t.has(k+1, i, "never") >= 0 && v.Verb != "put" { // "I never put the coconut in" tells what was forgotten
		return negative, true // "I never salt it"
	}
	p := t.norm(k)
	switch {
	case p == "don't" || p == "dont" || p == "not" || p == "never" || p == "without" || p == "won't" || p == "needn't" || p == "mustn't" || p == "shouldn't" || p == "can't" || p == "cannot" || p == "doesn't" || p == "didn't" || p == "wouldn't":
		if p == "not" && t.norm(k-1) == "to" && false {
			return negative, true
		}
		if p == "doesn't" || p == "didn't" || p == "won't" || p == "can't" || p == "wouldn't" {
			return 0, false
		}
		return negative, true
	case p == "to":
		return t.toMood(s, k, i, v)
	case (p == "is" || p == "was" || strings.HasSuffix(p, "'s") && p != "it's" && p != "let's") && t.has(s.First, k, "do", "thing", "step", "trick", "does", "job", "secret", "first") >= 0 && p != "was":
		// "what we'll do is score the skin", "all you do is blitz it"
		return planned, t.nounSafe(i, v, true)
	case p == "and" || p == "or" || p == "then" || p == "so" || p == "but" || p == "&":
		if p == "so" && k > s.First && t.toks[k-1].After == 0 && !t.onlyHeadWords(s.First, k) {
			return imperative, t.norm(k+1) == "just" && !t.inSubordinate(s, k) && (opensObject[t.norm(i+1)] || t.mentionStarts(i+1)) // "so just let it sit"
		}
		return t.conjMood(s, k, i, v)
	case p == "let's" || p == "please" || p == "okay" || p == "right" || p == "well" || p == "alright" || p == "ok" || p == "oh" || p == "uh" || p == "um" || p == "yeah" || p == "so" || p == "anyway":
		if !t.nounSafe(i, v, true) && p != "let's" {
			return 0, false
		}
		return t.clauseMood(s, i), true
	case p == "i'd" || p == "you'd" || p == "we'd":
		return permitted, t.subjectFree(s, k) && !t.mostlyPast(s)
	case modals[p]:
		return t.modalMood(s, k, p, v)
	case p == "you'll" || p == "we'll" || p == "i'll" || p == "y'all'll":
		if t.inSubordinate(s, k) || p == "you'll" && sensing[v.Verb] {
			return 0, false
		}
		return planned, true
	case p == "they" || p == "these" || p == "those" || p == "ones":
		return passive, doesAlone(v) && (p == "ones" && !t.inSubordinate(s, k) || t.foodSubject(s, i)) && t.timeSoon(s, i)
	case p == "it'll" || p == "that'll" || p == "they'll" || p == "he'll" || p == "she'll":
		return 0, false
	case p == "you" || p == "we" || p == "i" || p == "y'all" || p == "ya":
		switch t.norm(k - 1) {
		case "ones", "thing", "kind", "sort", "stuff", "brand":
			if t.toks[k-1].After == 0 && k > s.First {
				return 0, false // "the ones I take along"
			}
		}
		if p != "i" && t.timeAnswers(s, k, i) && !v.Weak {
			return planned, true
		}
		if t.norm(k-1) == "do" || t.norm(k-1) == "did" || t.norm(k-1) == "would" || t.norm(k-1) == "that" && t.norm(k-2) != "so" && t.norm(k-2) != "after" {
			return 0, false
		}
		if modals[t.norm(k-1)] {
			return permitted, true
		}
		if t.inSubordinate(s, k) {
			return 0, false
		}
		if v.Noun && !t.nounSafe(i, v, false) && !(p != "i" && k == i-1 && (t.norm(i+1) == "only" || strings.HasSuffix(t.norm(i+1), "ly"))) && !(k == i-1 && t.toks[i].After != 0 && t.norm(i+1) != t.norm(i) && t.mentionAt[i] < 0 && len(t.actionsBetween(s.First, k)) > 0) && !t.youWork(s, k, i) {
			return 0, false
		}
		if p == "i" && (t.mostlyPast(s) || pastLikeBase[v.Verb] && !t.presentTalk(s)) {
			return 0, false
		}
		return planned, true
	case p == "do" || p == "go" || p == "come" || p == "help" || p == "now" || p == "here":
		if p == "go" || p == "come" || p == "now" || p == "here" {
			return imperative, t.nounSafe(i, v, false)
		}
		if p == "do" && (k == s.First || t.toks[k-1].After != 0 || t.norm(k-1) == "and" || t.norm(k-1) == "but" || t.norm(k-1) == "so") {
			return imperative, t.nounSafe(i, v, true) // "do taste it"
		}
		return 0, false
	}
	if t.lex.Verbs(p) != nil && (p == "start" || p == "begin" || p == "keep") {
		return 0, false
	}
	// in talk without marks a strong verb after a finished phrase begins a clause
	if t.loose && t.finished(k) && !t.inNounPhrase(k) {
		if v.Weak || v.Noun {
			if !t.nounSafe(i, v, false) || v.Noun && !determiners[t.norm(i+1)] && !afterVerb[t.norm(i+1)] {
				return 0, false
			}
		}
		if t.negationBefore(s, i) {
			return negative, true
		}
		return t.clauseMood(s, i), true
	}
	if !t.loose && t.pluralEndsAt(i) && doesAlone(v) && len(t.actionsBetween(s.First, i)) == 0 && !t.inSubordinate(s, k) && t.waitIn(i+1, min(s.Last, i+8)) {
		return passive, true // "the flatbreads cook two minutes"
	}
	if !t.loose && t.afterWhen(s, k, i, v) || t.afterSetting(s, k, i, v) {
		return imperative, true
	}
	return 0, false
}

// youWork reports whether the word at i, right after a "you" or "we" at k, is work although it
// could be a thing as well: what is worked on was named before ("the carrot you grate"), or
// more is told in the same way ("you top, you tail, you cut them").
func (t *talk) youWork(s *sentence, k, i int) bool {
	if t.norm(i+1) == "to" && t.norm(k) != "i" && t.joined(k) && t.dialIn(i+2, min(i+4, s.Last)) {
		return true // "you turn to low"
	}
	if v := t.verbs(i)[0].Action; v.Weak || v.Kind == "finish" || v.Kind == "serve" {
		return false // "the tofu you finish": eat
	}
	if w := t.norm(k); w != "you" && w != "we" || k != i-1 || t.mentionAt[i] >= 0 || !t.joined(k) {
		return false
	}
	if next := t.norm(i + 1); i+1 < s.Last && t.toks[i].After&language.Comma == 0 && next != "and" {
		return results[next] || thickness[next] // "one you slice thin"
	}
	n := i + 1
	if n < s.Last && (t.norm(n) == "and" || t.norm(n) == "then") {
		n++
	}
	if n+1 < s.Last && t.norm(n) == t.norm(k) && t.baseVerb(n+1) != nil {
		return true
	}
	if k > s.First && t.toks[k-1].After == 0 && t.hasFood(max(s.First, k-3), k) {
		return true
	}
	for h := k - 1; h > s.First; h-- {
		if a := t.actionAt[h]; a >= 0 {
			return t.norm(h-1) == t.norm(k) // "you halve and you stone"
		}
	}
	return false
}

// thickness are adjectives that tell how something is cut.
var thickness = words("thin thick small fine big coarse lengthways lengthwise crossways crosswise")

// ofPerson reports whether the clause that ends at k tells more of a person whom the sentence
// began with, so that the verb behind it is that person's: "my wife, when she was living, put".
func (t *talk) ofPerson(s *sentence, k int) bool {
	i := s.First
	for i < k && (joining[t.norm(i)] || t.norm(i) == "now") {
		i++
	}
	if w := t.norm(i); w != "my" && w != "our" && w != "his" && w != "her" {
		return false
	}
	for i++; i < k && i < s.First+6; i++ {
		if t.in(ofKin, i) && t.toks[i].After&language.Comma != 0 {
			return whens[t.norm(i+1)] || t.norm(i+1) == "who" || t.norm(i+1) == "god" || t.norm(i+1) == "rest"
		}
		if t.toks[i].After != 0 {
			return false
		}
	}
	return false
}

// placing are words that open a phrase that tells where, when or with what the order after it is done.
var placing = words("in into on onto for with at over using after during from towards")

// afterSetting reports whether the verb at i, after token k, is an order behind a phrase
// without a verb, with no mark between: "for the last half hour take the lid off".
func (t *talk) afterSetting(s *sentence, k, i int, v *lexicon.Action) bool {
	object := i + 1
	if contains(v.Particles, t.norm(object)) && t.joined(i) {
		object++ // "in the morning throw away the water"
	}
	_, number := language.ReadNumber(t.toks, object)
	if v.Verb == "come" || !t.finished(k) && !nounLike[t.norm(k)] || v.Noun && !t.nounSafe(i, v, false) || v.Weak && !determiners[t.norm(object)] && number == 0 {
		return false
	}
	if number == 0 && !opensObject[t.norm(object)] && !t.mentionStarts(object) {
		return false
	}
	for j := k; j >= s.First && j >= i-9; j-- {
		w := t.norm(j)
		if j < k && t.toks[j].After != 0 || t.actionAt[j] >= 0 || t.in(aFinite, j) || t.in(aSubject, j) && w != "it" || letting[w] || w == "to" || w == "and" || w == "or" || openedBy[w] && w != "after" {
			return false
		}
		if placing[w] && (j == s.First || t.toks[j-1].After != 0 || joining[t.norm(j-1)] || t.norm(j-1) == "then" || t.onlyHeadWords(s.First, j)) {
			return k-j >= 1 && (!t.loose || j == s.First)
		}
	}
	return false
}

// nounLike end a phrase of time or place.
var nounLike = words("morning evening meantime point end finish start last time middle hand hands finger fingers minute minutes hour hours heat flame fire temperature speed")

// whens open a clause that tells when the order after it is due.
var whens = words("when once if after as")

// letting are verbs before the object of which another verb is no order.
var letting = words("let see watch hear make help have feel want need")

// afterWhen reports whether the verb at i, after token k, is an order behind a clause that
// tells when, with no mark between: "once it's boiling turn it down".
func (t *talk) afterWhen(s *sentence, k, i int, v *lexicon.Action) bool {
	if !t.finished(k) && !t.in(aFinite, k) && t.verbs(k) == nil || v.Noun && !t.nounSafe(i, v, false) || v.Weak && !determiners[t.norm(i+1)] {
		return false
	}
	object := i + 1
	if contains(v.Particles, t.norm(object)) {
		object++ // "sprinkle over the flour"
	}
	if _, n := language.ReadNumber(t.toks, object); n == 0 && !opensObject[t.norm(object)] && !t.mentionStarts(object) {
		return false
	}
	verb := false
	for j := k; j >= s.First && j >= i-9; j-- {
		w := t.norm(j)
		if j < k && t.toks[j].After != 0 || letting[w] || w == "to" || w == "and" || w == "or" {
			return false
		}
		if whens[w] {
			return verb && (j == s.First || t.toks[j-1].After != 0 || w == "once" || w == "when" || t.norm(j-1) == "and" || t.norm(j-1) == "then" || t.norm(j-1) == "so") && (w != "as" || t.norm(j+1) == "soon")
		}
		if t.actionAt[j] >= 0 {
			return false
		}
		verb = verb || j < k && (t.in(aFinite, j) || strings.HasSuffix(w, "'s") || strings.HasSuffix(w, "'re") || strings.HasSuffix(w, "'ve")) || t.verbs(j) != nil && j > s.First+1
	}
	return false
}

// timeAnswers reports whether the verb at i, its subject at k, is asked after and a time
// answers: "How long do you knead it? Ten minutes."
func (t *talk) timeAnswers(s *sentence, k, i int) bool {
	if k < s.First+3 || t.norm(k-2) != "long" || t.norm(k-3) != "how" || t.norm(k-1) != "do" && t.norm(k-1) != "should" {
		return false
	}
	for j := i + 1; j < len(t.toks) && j < i+9; j++ {
		if q := t.quantityAt[j]; q >= 0 {
			return t.quantities[q].kind == duration && (t.sentOf[j] == t.sentOf[i] || j <= s.Last+2 && t.sentOf[j] == t.sentOf[i]+1)
		}
	}
	return false
}

// sensing verbs after "you'll" foretell, not instruct.
var sensing = words("taste smell see hear feel notice find know get end spend need want look love like watch finish eat")

// sensed verbs after "you can" tell what there is to notice.
var sensed = words("smell see hear feel notice")

func (t *talk) onlyHeadWords(a, b int) bool {
	for i := a; i < b; i++ {
		if !headWords[t.norm(i)] {
			return false
		}
	}
	return true
}

// pastLikeBase are verbs whose past is spelled like the base.
var pastLikeBase = words("put cut let set beat split spread shut hit read cast")

// presentTalk reports whether the sentence stands in the present: "I put
// some", "I just put".
func (t *talk) presentTalk(s *sentence) bool {
	return t.has(s.First, s.Last, "now", "here", "then", "always", "like to", "just", "i'm", "usually", "so i", "to", "in", "on", "it") >= 0
}

// finished reports whether a clause can end with the token at k.
func (t *talk) finished(k int) bool {
	w := t.norm(k)
	if t.mentionAt[k] >= 0 || t.toolAt[k] >= 0 || t.quantityAt[k] >= 0 {
		q := t.quantityAt[k]
		return q < 0 || !t.quantities[q].of && t.quantities[q].kind != count
	}
	switch w {
	case "it", "them", "in", "up", "down", "out", "off", "over", "together", "aside", "well", "again", "everything", "there", "that", "this", "now", "first", "around", "through", "back", "on", "done", "once", "way", "side", "top", "bit", "minute", "time", "one", "all":
		return true
	}
	if t.madeAt[k] > 0 || t.actionAt[k] >= 0 {
		return t.madeAt[k] > 0
	}
	return t.lex.Modifiers[w] == lexicon.PrepWord || t.lex.Doneness[w] || strings.HasSuffix(w, "ly")
}

// inNounPhrase reports whether a determiner stands just before k without a
// noun between, so that the next word is the noun.
func (t *talk) inNounPhrase(k int) bool {
	switch t.norm(k) {
	case "the", "a", "an", "your", "of", "this", "these", "those", "my", "with", "for":
		return true
	}
	return false
}

// negationBefore reports whether "don't", "no", "never" governs the verb at i.
func (t *talk) negationBefore(s *sentence, i int) bool {
	for k := i - 1; k >= s.First && k >= i-4; k-- {
		if t.toks[k].After != 0 {
			return false
		}
		switch t.norm(k) {
		case "don't", "never", "not", "without":
			return true
		}
		if !leadAdverbs[t.norm(k)] {
			return false
		}
	}
	return false
}

// commaImperative decides whether a verb after a comma or dash is a new
// instruction: not when it lists nouns ("a whisk, bowl").
func (t *talk) commaImperative(s *sentence, k, i int, v *lexicon.Action) bool {
	if v.Noun || v.Weak {
		next := t.norm(i + 1)
		if t.toks[i].After != 0 {
			return !v.Noun && !v.Weak || t.norm(i) == "stir" || t.closes(s, i, v)
		}
		return determiners[next] || afterVerb[next] || results[next] || t.mentionStarts(i+1) || t.toolAt[min(i+1, len(t.toks)-1)] >= 0
	}
	return true
}

// mentionStarts reports whether a food with its modifiers begins at i.
func (t *talk) mentionStarts(i int) bool {
	for k := i; k < i+4 && k < len(t.toks); k++ {
		if t.mentionAt[k] >= 0 {
			return true
		}
		if q := t.quantityAt[k]; q >= 0 {
			return t.quantities[q].kind != money
		}
		if t.modifier(k) == lexicon.NoClass && t.norm(k) != "of" {
			return false
		}
	}
	return false
}

// closes reports whether the verb at i, said alone, is the last of what its sentence
// tells to do: "lemon in, zest in, whisk".
func (t *talk) closes(s *sentence, i int, v *lexicon.Action) bool {
	more := i+2 < s.Last && t.toks[i].After&language.Comma != 0 && (t.norm(i+1) == "and" || t.norm(i+1) == "then") && t.baseVerb(i+2) != nil
	if i+1 < s.Last && !more || !strongAlone[v.Verb] || i < s.First+2 || t.toks[i-1].After&language.Comma == 0 {
		return false
	}
	w := t.norm(i - 1)
	if w == "it" && onward[t.norm(i-2)] {
		return true // "vinegar over it, mix"
	}
	return w == "in" || w == "on" || w == "off" || w == "over" || len(t.actionsBetween(s.First, i)) > 0
}

// nounSafe reports whether a word that can be a noun stands here as a verb.
func (t *talk) nounSafe(i int, v *lexicon.Action, opens bool) bool {
	next := t.norm(i + 1)
	same := i+1 < len(t.toks) && t.sentOf[i+1] == t.sentOf[i]
	if !v.Noun {
		return true
	}
	if v.Verb == "round" && next == "the" {
		return false // "round the edges"
	}
	if same && (next == "one" || next == "ones") && t.toks[i].After == 0 && thickness[t.norm(i)] {
		return false // "long knife, thin one"
	}
	if same && next == t.norm(i) && t.toks[i].After&language.Comma != 0 {
		return true // "stir, stir, stir"
	}
	if !t.punctuated && (t.thingWord.has(i) || t.madeAt[i] > 0) {
		// without marks a food's or tool's name is a verb only before its object
		switch next {
		case "the", "your", "it", "them", "both", "each", "this", "these", "those", "that", "everything":
		default:
			switch t.norm(i - 1) {
			case "and", "then", "to", "you", "now", "just", "we", "i", "can":
			default:
				if !same || !t.works(v) || t.quantityAt[i+1] < 0 {
					return false
				}
			}
		}
		if i > 0 && t.joined(i-1) && (t.afterAdjective(i) || t.modifier(i-1) == lexicon.PrepWord || t.norm(i-1) == "a" || t.norm(i-1) == "the") {
			return false
		}
	}
	if t.madeAt[i] > 0 && same && t.works(v) && (next == "until" || next == "till" || next == "well" || next == "together" || next == "everything" || next == "gently") && (t.norm(i-1) == "and" || t.norm(i-1) == "then") {
		return true // "pour it over and mix until smooth"
	}
	if opens && t.punctuated && t.works(v) && strongAlone[v.Verb] && (!same || t.toks[i].After&language.Comma != 0 && next == "and" && t.baseVerb(i+2) != nil) {
		return true // "Flour, sugar. Mix.", "mix, and leave it"
	}
	if t.madeAt[i] > 0 && opens && !determiners[next] && !(same && contains(v.Particles, next) && (determiners[t.norm(i+2)] || t.mentionStarts(i+2))) && !(same && t.works(v) && t.quantityAt[i+1] >= 0) {
		return false // "sponge three hundred grams of", "glaze": a component's name
	}
	if !same {
		// a word alone: "Stir." "Drain." but "Glaze." "Filling."
		return opens && v.Kind != "" && !t.partWord(i) && strongAlone[v.Verb]
	}
	if t.loose && t.toks[i].After&^language.Comma == 0 && strongAlone[v.Verb] && opensObject[next] {
		return true // "mix, the yeast and sugar": a mark where none was meant
	}
	if t.toks[i].After != 0 {
		return strongAlone[v.Verb] && opens
	}
	switch next {
	case "is", "was", "for", "goes", "and", "of", "are", "will", "has", "can", "i", "you", "we", "which", "comes", "wants", "isn't", "needs", "should", "or":
		if next == "for" {
			// "bake for ten minutes", not "butter for the sponge"
			return i+2 < len(t.toks) && t.quantityAt[i+2] >= 0 || t.norm(i+2) == "about" || t.norm(i+2) == "another"
		}
		if next == "and" || next == "or" {
			// "season and stir", "rinse and drain"
			return opens && (t.verbs(i+2) != nil && t.mentionAt[min(i+2, len(t.toks)-1)] < 0)
		}
		return false
	}
	if results[next] && (i+2 >= len(t.toks) || t.toks[i+1].After != 0 || t.norm(i+2) == "and" || t.norm(i+2) == "with") && v.Kind != "season" {
		return opens // "pinch shut", "pat dry"
	}
	if next == "against" || next == "while" {
		return opens && (v.Kind == "cut" || v.Kind == "mix" || v.Kind == "heat") // "slice against the grain", "blend while hot"
	}
	if determiners[next] || next == "straight" && v.Kind == "cut" && afterVerb[t.norm(i+2)] {
		return true
	}
	if afterVerb[next] {
		switch next {
		case "to", "as", "from", "by", "between", "about", "at", "along":
			return opens && v.Kind == "heat" && (next == "at" || next == "between")
		}
		// "bone in, skin on", "skin down", "heat off": a thing and where it is
		if i+1 < len(t.toks) && t.toks[i+1].After != 0 && (next == "in" || next == "on" || next == "off" || next == "down" || next == "up" || next == "out") {
			return strongAlone[v.Verb] || v.Kind == "mix"
		}
		return true
	}
	if i+1 < len(t.toks) {
		if t.quantityAt[i+1] >= 0 {
			// "bake eight minutes", "cut two onions"; but "butter, 200 g"
			return true
		}
		if (t.mentionStarts(i+1) || t.toolAt[i+1] >= 0 || t.madeAt[i+1] > 0) && t.modifier(i) == lexicon.NameWord || t.norm(i) == "separate" {
			return false // "dry pan", "separate bowl"
		}
		if t.mentionStarts(i+1) || t.toolAt[i+1] >= 0 || t.madeAt[i+1] > 0 {
			return v.Kind != "season" || t.mentionAt[i] < 0
		}
		if t.lex.Modifiers[next] != lexicon.NoClass || strings.HasSuffix(next, "ly") {
			return opens
		}
		if _, n := t.lex.VagueAt(t.ids, i+1, nil); n > 0 {
			return true
		}
	}
	return false
}

// works reports whether the verb names hand work, so that an amount after it is
// what is worked on ("mix two bananas") and not of a thing of that name.
func (t *talk) works(v *lexicon.Action) bool {
	return !v.Weak && (v.Kind == "mix" || v.Kind == "cut" || v.Kind == "shape")
}

// results are what a thing is after the work, told right behind the verb.
var results = words("shut closed dry flat tight clean smooth")

// strongAlone are verbs that are instructions even when said alone.
var strongAlone = words("stir drain rinse chill mix season bake cook flip boil simmer fry peel whisk blend fold reduce rest cover knead roast drop cool freeze grill toss slice chop serve strain taste close turn")

func (t *talk) partWord(i int) bool { return t.madeAt[i] > 0 }

// subjectFree reports whether the clause with a subject at k is a main one.
func (t *talk) subjectFree(s *sentence, k int) bool { return !t.inSubordinate(s, k) }

// inSubordinate reports whether the clause that holds token k opens with a
// word that makes it describe: "when you", "if you", "until we", "what you".
func (t *talk) inSubordinate(s *sentence, k int) bool {
	for j := k - 1; j >= s.First && j >= k-5; j-- {
		w := t.norm(j)
		if t.toks[j].After&^language.Dash != 0 {
			return false
		}
		if w == "time" && j > s.First && (t.norm(j-1) == "each" || t.norm(j-1) == "every") {
			return true // "each time you open it"
		}
		switch w {
		case "until", "till", "when", "whenever", "once", "if", "while", "because", "cause", "before", "after", "which", "who", "where", "how", "why", "unless", "whether", "as", "that", "what", "than", "think", "know", "see", "hope", "say", "said", "mean", "told", "everything", "anything", "whatever", "however", "wherever", "like", "remember", "guess", "bet", "sure", "way", "telling", "tells", "tell", "says":
			switch {
			case w == "like" && youWe[t.norm(j-1)]:
				continue // "if you like"
			case w == "where" && t.norm(j-1) == "is" && t.norm(j-2) == "this":
				return false // "this is where we add the cheese"
			case w == "that" && t.toks[max(0, j-1)].After == 0 && intoThat[t.norm(j-1)]:
				return false // "into that we're going to stir"
			case w == "that" && (t.norm(j-1) == "after" || t.norm(j-1) == "so" || t.norm(j-1) == "with"):
				return t.norm(j-1) == "so"
			case (w == "what" || w == "way") && t.has(j, k, "is") < 0:
				// "what you want to do is", "the way I do it"
				return true
			case t.has(j, k, "is") >= 0:
				// "what I do is I take a knife"
				return false
			case w == "sure" && t.norm(j-1) == "make":
				// "make sure you scrape the sides"
				return false
			case (w == "before" || w == "after" || w == "while" || w == "when") && j+1 < k && strings.HasSuffix(t.norm(j+1), "ing") && t.verbs(j+1) != nil:
				return false // "before cutting it we let it cool"
			case (w == "when" || w == "once" || w == "if" || w == "after") && t.toldBetween(j+1, k):
				return false // "when the onion goes in you put"
			case t.subjectBetween(j+1, k):
				// "once it's boiling you salt it": the clause before is complete
				return false
			}
			return true
		case "so":
			// "so you can lift it": the aim; "so you lift it" at the start: the step
			if j > s.First && t.norm(j-1) != "and" && t.norm(j-1) != "okay" && t.norm(j-1) != "alright" && (t.toks[j-1].After == 0 || modals[t.norm(k+1)] || t.norm(k+1) == "don't") {
				return j > s.First+1
			}
			return false
		case "and", "then", "but", "now":
			return false
		}
		if j < k-2 && t.lex.Verbs(w) != nil {
			return false
		}
	}
	return false
}

// intoThat are words before "that" where it stands for a thing.
var intoThat = words("into onto on over under from in of at")

// toldBetween reports whether tokens [a, b) hold a noun and the verb it is the subject
// of, so that the clause they open is complete.
func (t *talk) toldBetween(a, b int) bool {
	for i := a + 1; i < b; i++ {
		if youWe[t.norm(i-1)] {
			return false
		}
		switch t.norm(i) {
		case "goes", "is", "are", "has", "looks", "comes", "starts", "gets", "turns", "smells", "boils":
			return true
		}
	}
	return false
}

// subjectBetween reports whether tokens [a, b) hold a subject of their own.
func (t *talk) subjectBetween(a, b int) bool {
	for i := a; i < b; i++ {
		w := t.norm(i)
		if (youWe[w] || others[w] || strings.HasPrefix(w, "it") && len(w) <= 5 || w == "that's" || w == "there's") && i+1 < b {
			return true
		}
	}
	return false
}

// toMood reads "to" + verb at i, the "to" at k.
func (t *talk) toMood(s *sentence, k, i int, v *lexicon.Action) (mood, bool) {
	j := t.back(s, k)
	if j < s.First && k > s.First && (t.norm(s.First) == "now" || t.norm(s.First) == "next") {
		return planned, t.onlyOpeners(s.First, k) // "now to fry the onions"
	}
	if j < s.First || t.toks[j].After != 0 {
		// "To make the glaze, whisk": the aim, not the step
		return 0, false
	}
	p := t.norm(j)
	if p == "not" && j > s.First {
		return negative, true
	}
	if p == "forget" && (t.norm(j-1) == "don't" || t.norm(j-1) == "not") {
		return planned, true // "don't forget to skim it"
	}
	if (p == "best" || p == "better" || p == "time") && (j == s.First || t.toks[j-1].After != 0 || t.norm(j-1) == "then" || t.norm(j-1) == "and") {
		return planned, true // "time to add the stock", "best to rest it"
	}
	if p == "you" && j > s.First && (t.norm(j-1) == "want" || t.norm(j-1) == "need" || t.norm(j-1) == "like") && t.toks[j-1].After == 0 && (t.norm(j-2) == "i" || t.norm(j-2) == "we" || t.norm(j-2) == "i'd" || t.norm(j-2) == "would") {
		return planned, true // "I want you to slice them"
	}
	if !intents[p] && p != "gonna" {
		// "what we're going to do is to whisk", "all you have to do is"
		if p == "is" && t.has(s.First, j, "do", "thing", "step", "trick") >= 0 {
			return planned, true
		}
		return 0, false
	}
	// who wants to?
	for h := j - 1; h >= s.First && h >= j-5; h-- {
		w := t.norm(h)
		if t.toks[h].After&^language.Dash != 0 {
			break
		}
		if w == "don't" || w == "not" || w == "never" || w == "didn't" || w == "no" || w == "won't" || w == "doesn't" {
			return negative, p == "want" || p == "need" || p == "have" || p == "like" || p == "got" || p == "going"
		}
		if youWe[w] {
			if t.inSubordinate(s, h) {
				// "what you want to do is whisk" is found at its verb
				return 0, false
			}
			if w == "i" && (p == "like" || p == "love" || p == "prefer" || p == "wanted" || p == "want" || p == "got" || p == "had") && t.mostlyPast(s) {
				return 0, false
			}
			if p == "like" && t.norm(j-1) == "would" {
				return 0, false
			}
			return planned, true
		}
		if others[w] {
			return 0, false
		}
		if p == "going" && t.back(s, j) == h && (t.actsItself(h) || w == "is" && h > s.First && t.actsItself(h-1)) {
			// "this is going to form the base": what will come of it
			return passive, (v.Kind == "heat" || v.Kind == "rest") && t.timeSoon(s, i)
		}
		if w == "were" && p == "going" {
			// "were going to" is "we're going to", mis-heard
			return planned, t.goingTo(h) && !subordinators[t.norm(h-1)] || !t.inSubordinate(s, h)
		}
		if w == "needs" || w == "has" || w == "wants" {
			return passive, true
		}
	}
	switch p {
	case "needs", "has", "wants":
		return passive, (v.Kind == "heat" || v.Kind == "rest") && !v.Weak && t.foodSubject(s, j) && t.timeSoon(s, i)
	case "best", "better", "important":
		return planned, t.norm(j-1) == "it's" || t.norm(j-1) == "is"
	case "remember", "sure", "going", "gonna", "time", "ready", "want", "need", "start", "begin", "have", "next", "supposed", "try", "continue":
		if p == "time" || p == "ready" {
			return planned, t.loose && p == "time" && t.mentionAt[max(0, j-1)] >= 0 || t.norm(j-1) == "it's" || t.norm(j-1) == "now" || t.norm(j-1) == "you're" || t.norm(j-1) == "we're"
		}
		return planned, p != "have" && p != "supposed" && p != "need" || j == s.First
	}
	return 0, false
}

// actsItself reports whether token k stands for the dish or what is done to it,
// as a subject: "this is", "it's", "which".
func (t *talk) actsItself(k int) bool {
	switch t.norm(k) {
	case "this", "that", "it", "which", "it's", "that's", "these", "those", "everything", "there", "there's":
		return true
	}
	return false
}

// modalMood reads a modal p at k before the verb.
func (t *talk) modalMood(s *sentence, k int, p string, v *lexicon.Action) (mood, bool) {
	j := t.back(s, k)
	subj := ""
	if j >= s.First && t.toks[j].After == 0 {
		subj = t.norm(j)
	}
	if p == "gonna" || p == "wanna" || p == "gotta" {
		for j > s.First && (t.norm(j) == "gonna" || t.norm(j) == "want" || t.norm(j) == "going" || t.norm(j) == "to" || t.norm(j) == "wanna") {
			j--
			subj = t.norm(j)
		}
		if youWe[subj] || subj == "" {
			return planned, !t.inSubordinate(s, j)
		}
		return 0, false
	}
	if subj == "so" || subj == "then" || subj == "and" || subj == "now" {
		subj = ""
	}
	if (p == "must" || p == "should") && doesAlone(v) && (v.State || t.timeSoon(s, k+1)) && subj != "" && t.foodSubject(s, k) {
		return passive, true // "the dough must rest"
	}
	if !(subj == "you" || subj == "we" || subj == "i" || subj == "y'all" || subj == "") {
		return 0, false
	}
	if subj == "" {
		// "so will add", "and then will pour": the subject was swallowed
		return planned, p == "will" && !t.inSubordinate(s, k)
	}
	if t.inSubordinate(s, j) {
		return 0, false
	}
	switch p {
	case "will", "shall", "must", "should", "'ll":
		return planned, true
	case "can", "could", "may", "might":
		return permitted, !sensed[v.Verb]
	case "would":
		return permitted, subj == "i" || subj == "you" || subj == "we"
	}
	return 0, false
}

// conjMood reads a verb after "and", "then", "so": it goes with the clause
// before it.
func (t *talk) conjMood(s *sentence, k, i int, v *lexicon.Action) (mood, bool) {
	// "go ahead and", "go and", "try and"
	prev := t.norm(k - 1)
	if prev == "ahead" || prev == "go" || prev == "try" || prev == "come" || prev == "sure" {
		return planned, true
	}
	opens := k == s.First || t.norm(k) == "then" || k > s.First && t.toks[k-1].After != 0
	after := false // an action of the same sentence goes before
	for h := k - 1; h >= s.First && !after; h-- {
		after = t.actionAt[h] >= 0 && t.actions[t.actionAt[h]].mood != negative
	}
	if v.Noun && !t.nounSafe(i, v, opens || after) {
		return 0, false
	}
	if v.Noun && k > 0 && (t.mentionAt[k-1] >= 0 || t.toolAt[k-1] >= 0) && !determiners[t.norm(i+1)] && !(afterVerb[t.norm(i+1)] && (contains(v.Particles, t.norm(i+1)) || t.norm(i+1) == "until" || t.norm(i+1) == "till" || t.norm(i+1) == "for" || t.norm(i+1) == "with" || t.norm(i+1) == "well")) && t.quantityAt[min(i+1, len(t.toks)-1)] < 0 && !t.mentionStarts(i+1) && t.norm(k) != "then" {
		return 0, false
	}
	// the last action of the sentence carries over its mood
	for h := k - 1; h >= s.First; h-- {
		if a := t.actionAt[h]; a >= 0 {
			m := t.actions[a].mood
			if m == negative {
				if t.toks[k-1].After != 0 || t.norm(k) == "then" || t.norm(k) == "but" || contains(v.Particles, t.norm(i+1)) && t.mentionStarts(i+2) {
					return imperative, true // "don't boil it and whisk in the custard"
				}
				return negative, true
			}
			if m == passive {
				return imperative, true
			}
			return m, true
		}
		w := t.norm(h)
		if h < k-1 && t.toks[h].After != 0 && opens {
			break // a mark closed the clause before
		}
		if !t.punctuated && k-h > andReach && (determiners[t.norm(i+1)] || contains(v.Particles, t.norm(i+1)) && determiners[t.norm(i+2)]) {
			break // so far back another clause stands
		}
		if others[w] && t.toks[h].After == 0 && h+1 < k && t.toks[k-1].After == 0 {
			return 0, false
		}
		if (w == "it'll" || w == "they'll" || w == "that'll" || w == "it") && !opens && t.toks[h].After == 0 && (w != "it" || h == s.First) {
			return 0, false
		}
		if w == "like" && (shown[t.norm(h+1)] || t.norm(h+1) == "a" || t.norm(h+1) == "an") {
			continue // "smash it like this and put it in", "fold it like a letter and press it"
		}
		if (w == "to" || subordinators[w] && w != "so" && w != "that") && !opens && t.toks[k-1].After == 0 {
			// "until you can pick it up and shape it"
			if w == "while" && t.norm(h-1) == "the" {
				continue // "whisking all the while"
			}
			if w == "to" && (!t.aimTo(s, h) || t.baseVerb(h+1) == nil) {
				continue
			}
			if after && w != "to" && t.ofAThing(h+1, k, v) && (determiners[t.norm(i+1)] || t.mentionStarts(i+1)) {
				continue // "until the water is clear and let it drain": the base form is nothing the water does
			}
			if (w == "which" || w == "that" || w == "who") && after && determiners[t.norm(i+1)] {
				continue // "ground beef, which is 450 grams, and brown it"
			}
			return 0, false
		}
	}
	if opens {
		return t.clauseMood(s, i), true
	}
	if t.mostlyPast(s) {
		return 0, false
	}
	return imperative, !v.Weak || determiners[t.norm(i+1)]
}

// handWork are kinds of work that no food does by itself.
var handWork = words("add cut mix clean season wrap move serve remove")

// ofAThing reports whether the clause in tokens [a, b) has things for its subject that
// can't do the work v: one thing, as its verb would stand in the third person, or
// several where the work is done by hand.
func (t *talk) ofAThing(a, b int, v *lexicon.Action) bool {
	third := false
	for i := a; i < b; i++ {
		w := t.norm(i)
		if w == "are" || w == "they're" {
			if third = handWork[v.Kind] || v.Verb == "let"; third {
				continue
			}
			return false
		}
		if youWe[w] || others[w] && w != "they" || modals[w] || w == "these" || w == "those" {
			return false
		}
		if w == "is" || w == "it's" || w == "has" || w == "that's" || w == "gets" || w == "goes" || w == "comes" || w == "starts" || w == "looks" || w == "turns" {
			third = true
		}
	}
	return third
}

// andReach is how far before "and" a clause is looked for that the verb after it goes on
// with, where there are no marks.
const andReach = 7

func (t *talk) aimTo(s *sentence, h int) bool {
	j := t.back(s, h)
	return j < s.First || !intents[t.norm(j)]
}

// clauseMood is the mood of an imperative: conditional after "if it's thick,".
func (t *talk) clauseMood(s *sentence, i int) mood {
	if t.norm(s.First) == "if" || t.norm(s.First+1) == "if" {
		switch {
		case t.has(s.First, i, "if you like", "if you want", "if you prefer") >= 0:
			return permitted
		case t.has(s.First, i, "if it's", "if it", "if they", "if the", "if yours", "if you've", "if you") >= 0:
			return conditional
		}
	}
	return imperative
}

// ingMood reads a gerund: "I'm adding", "we're going to be adding", "keep stirring".
func (t *talk) ingMood(s *sentence, i int, v *lexicon.Action) (mood, bool) {
	k := t.back(s, i)
	if k < s.First || t.onlyOpeners(s.First, k+1) {
		return planned, t.tellsDoing(s, i, v)
	}
	if t.toks[k].After != 0 {
		return 0, false
	}
	if x := t.toolAt[k]; (v.Verb == "heat" || v.Verb == "preheat") && (x >= 0 && strings.HasSuffix(t.norm(k), "'s") || t.norm(k) == "is" && t.heatBefore(k-1, k)) {
		return passive, t.timeSoon(s, i) && !t.inSubordinate(s, k)
	}
	switch p := t.norm(k); p {
	case "i'm", "we're", "you're":
		if t.inSubordinate(s, k) {
			return 0, false
		}
		return planned, !(v.Weak && p == "you're") && !v.State
	case "am", "are":
		if w := t.norm(k - 1); w == "i" || w == "we" {
			return planned, !t.inSubordinate(s, k-1)
		}
	case "be":
		if w := t.norm(k - 1); (w == "must" || w == "should") && v.State && v.Kind == "heat" && t.foodSubject(s, k-1) {
			return passive, true // "the water must be boiling"
		}
		if t.norm(k-1) == "to" || t.norm(k-1) == "gonna" || t.norm(k-1) == "i'll" || t.norm(k-1) == "we'll" || t.norm(k-1) == "you'll" || t.norm(k-1) == "will" {
			for h := k - 1; h >= s.First && h >= k-6; h-- {
				if youWe[t.norm(h)] {
					return planned, !t.inSubordinate(s, h)
				}
			}
		}
	case "is":
		// "what you're doing is sprinkling some water on it"
		return planned, !v.State && (t.has(s.First, k, "what i'm going to do", "what we're going to do") >= 0 || t.isDoing(s, k))
	case "want", "wants", "need", "needs":
		// "the capers want rinsing", "that needs draining"
		return passive, t.foodSubject(s, k)
	case "keep", "start", "begin", "continue":
		if h := t.back(s, k); h < s.First || t.toks[h].After != 0 || youWe[t.norm(h)] || t.norm(h) == "and" || t.norm(h) == "to" || t.norm(h) == "then" || t.norm(h) == "just" || !t.punctuated && t.finished(h) {
			if t.inSubordinate(s, k) {
				return 0, false
			}
			return imperative, true
		}
	case "and":
		// "I'm taking the dough and rolling it"
		for h := k - 1; h >= s.First; h-- {
			if a := t.actionAt[h]; a >= 0 {
				return planned, strings.HasSuffix(t.norm(t.actions[a].tok), "ing") && t.actions[a].mood == planned
			}
		}
	}
	return 0, false
}

// isDoing reports whether "what I'm doing" or "all we're doing" opens the sentence before
// its "is" at k.
func (t *talk) isDoing(s *sentence, k int) bool {
	if k-3 < s.First || t.norm(k-1) != "doing" && t.norm(k-2) != "doing" {
		return false
	}
	at := t.has(s.First, k, "i'm doing", "we're doing", "you're doing")
	return at > s.First && (t.norm(at-1) == "what" || t.norm(at-1) == "all") && (t.onlyHeadWords(s.First, at-1) || t.toks[max(0, at-2)].After == 0 && joining[t.norm(at-2)])
}

// onlyOpeners reports whether tokens [a, b) only take up the talk again.
func (t *talk) onlyOpeners(a, b int) bool {
	for i := a; i < b; i++ {
		switch t.norm(i) {
		case "so", "now", "and", "then", "okay", "ok", "just", "alright", "right", "well", "next":
		default:
			return false
		}
	}
	return true
}

// tellsDoing reports whether the gerund at i, which opens its sentence, tells
// what the cook does just then, "adding the stock now", and is no subject:
// "stirring it is important".
func (t *talk) tellsDoing(s *sentence, i int, v *lexicon.Action) bool {
	if v.Weak || v.State || i+1 >= s.Last || t.toks[i].After != 0 || !determiners[t.norm(i+1)] && t.quantityAt[i+1] < 0 && !t.mentionStarts(i+1) && !contains(v.Particles, t.norm(i+1)) {
		return false
	}
	if !t.hasFood(i, min(i+8, s.Last)) {
		return false
	}
	for k := i + 1; k < s.Last; k++ {
		if t.toks[k-1].After != 0 && k > i+1 {
			break
		}
		switch w := t.norm(k); w {
		case "is", "was", "are", "makes", "gives", "helps", "keeps", "will", "can", "would", "means", "takes", "isn't", "won't", "gets", "lets", "brings", "allows":
			return false
		}
	}
	return true
}

// thirdMood reads "the butter goes in", "that goes in the bowl".
func (t *talk) thirdMood(s *sentence, i int, v *lexicon.Action, a *action) (mood, bool) {
	w := t.norm(i)
	if v.Noun && w != "goes" && (t.norm(i-1) == "the" || t.norm(i-1) == "of") {
		return 0, false
	}
	if w != "goes" && w != "gets" {
		if t.has(max(s.First, i-5), i, "or", "otherwise", "else") >= 0 {
			return 0, false // "cool it, or the mash sinks"
		}
		return passive, doesAlone(v) && t.foodSubject(s, i) && t.norm(t.back(s, i)-1) != "so" && t.timeSoon(s, i) && (!v.Weak || t.waitIn(i+1, s.Last))
	}
	next := t.norm(i + 1)
	if t.has(i, min(i+6, s.Last), "by itself", "by themselves") >= 0 {
		return 0, false // nobody does it
	}
	k := t.back(s, i)
	if w == "goes" {
		if next != "in" && next != "into" && next != "on" && next != "back" && next != "over" && next != "straight" && next != "right" && next != "the" && next != "your" && next != "through" {
			// "in goes the butter"
			if !(k >= s.First && (t.norm(k) == "in" || t.norm(k) == "on")) {
				return 0, false
			}
		}
		if k >= s.First {
			switch p := t.norm(k); {
			case p == "in" || p == "on" || p == "that" || p == "this" || p == "it" || p == "all" || p == "everything":
				return passive, t.has(s.First, i, "if", "until", "till", "when", "once", "because", "before", "after", "while", "as it") < 0
			case t.mentionAt[k] >= 0 || t.mentionEndsAt(i):
				return passive, !t.inSubordinate(s, k)
			case t.madeAt[k] > 0 || t.toolAt[k] >= 0:
				return passive, !t.inSubordinate(s, k)
			case t.norm(k) == "half" || t.norm(k) == "rest" || t.norm(k) == "juice" || t.norm(k) == "zest" || t.norm(k) == "one" || t.norm(k) == "peel":
				return passive, true
			}
		}
		return 0, false
	}
	return 0, false
}

// pluralEndsAt reports whether a food named in the plural ends right before i, so that
// a base form after it is what the food does, and not something to do.
func (t *talk) pluralEndsAt(i int) bool {
	return t.mentionEndsAt(i) && t.toks[i-1].After == 0 && strings.HasSuffix(t.norm(i-1), "s")
}

// mentionEndsAt reports whether a food with the words behind it ("one egg,
// beaten,") ends right before i.
func (t *talk) mentionEndsAt(i int) bool {
	for k := i - 1; k >= 0 && k >= i-6; k-- {
		if m := t.mentionAt[k]; m >= 0 {
			return t.mentions[m].Last == i
		}
	}
	return false
}

// pastMood reads participles that still instruct: "should have toasted",
// "needs to be washed", "gets whisked", "I've added".
func (t *talk) pastMood(s *sentence, i int, v *lexicon.Action) (mood, bool) {
	k := t.back(s, i)
	if k < s.First || t.toks[k].After != 0 {
		return 0, false
	}
	p := t.norm(k)
	if k == i-1 && t.namedThenDone(s, i, v) {
		return passive, true
	}
	switch p {
	case "and":
		for h := k - 1; h >= s.First && t.toks[h].After == 0; h-- {
			if a := t.actionAt[h]; a >= 0 {
				return passive, t.actions[a].mood == passive && !v.Weak
			}
		}
		return 0, false
	case "should've", "shoulda":
		return recalled, true
	case "have":
		switch t.norm(t.back(s, k)) {
		case "should", "should've":
			return recalled, true
		}
	case "been":
		return recalled, t.norm(k-1) == "have" && t.norm(k-2) == "should" || t.norm(k-1) == "should've"
	case "is", "are", "it's", "get", "they're":
		// "the cream is folded in", "the onions get sliced"
		if p == "it's" || p == "they're" {
			return passive, !t.inSubordinate(s, k+1) && k == s.First && (v.Kind == "add" || v.Kind == "mix" || v.Kind == "shape") && afterVerb[t.norm(i+1)] && !v.Weak
		}
		j := t.back(s, k)
		if j < s.First || t.inSubordinate(s, k) || t.norm(s.First) == "if" && !t.marked(s.First, k) {
			return 0, false
		}
		if p == "get" && t.norm(j) == "they" {
			return passive, !v.Weak && v.Kind != "serve" && t.cookingNear(s) // "they get drained"
		}
		if t.mentionAt[j] < 0 && t.madeAt[j] == 0 && !(j > s.First && t.madeAt[j-1] > 1) {
			return 0, false
		}
		if p == "get" {
			return passive, true
		}
		switch v.Kind {
		case "add", "mix", "shape":
			return passive, afterVerb[t.norm(i+1)] && !v.Weak
		case "cut":
			// "the peppers are cut in strips", not "the peppers are cut"
			return passive, t.norm(i+1) == "in" || t.norm(i+1) == "into" || t.norm(i+1) == "thin" || t.norm(i+1) == "across"
		case "heat", "rest":
			return passive, !v.Weak && t.timeSoon(s, i)
		}
	case "be":
		j := t.back(s, k)
		if j >= s.First && (t.norm(j) == "to" && (t.norm(j-1) == "need" || t.norm(j-1) == "needs" || t.norm(j-1) == "want" || t.norm(j-1) == "has" || t.norm(j-1) == "ought") || t.norm(j) == "should" || t.norm(j) == "must") {
			return passive, !t.inSubordinate(s, j)
		}
	case "gets":
		if t.norm(k-1) == "and" && t.passiveBefore(s, k-1) {
			return passive, !v.Weak // "goes into the tin and gets baked"
		}
		switch t.norm(k - 1) {
		case "that", "it", "this", "everything", "all", "lot", "half", "rest", "other":
			return passive, !t.inSubordinate(s, k)
		}
		return passive, k > s.First && (t.mentionAt[k-1] >= 0 || t.madeAt[k-1] > 0) && !t.inSubordinate(s, k)
	case "i", "we":
		return planned, (t.pastTold || t.loose && t.punctuated && t.begun(s)) && !v.Weak && (doneKind[v.Kind] || v.Kind == "move") && !t.inSubordinate(s, k) && t.hasFood(i, min(i+8, s.Last))
	case "i've", "we've":
		return planned, (!v.Weak || t.has(i, min(i+8, s.Last), "into", "onto") >= 0) && !t.inSubordinate(s, k) && t.hasFood(i, min(i+8, s.Last))
	}
	return 0, false
}

// passiveBefore reports whether the action before token k of its sentence tells what
// becomes of a thing: "goes in".
func (t *talk) passiveBefore(s *sentence, k int) bool {
	for h := k - 1; h >= s.First && t.toks[h].After == 0; h-- {
		if a := t.actionAt[h]; a >= 0 {
			return t.actions[a].mood == passive
		}
	}
	return false
}

// begun reports whether something was done a few sentences before.
func (t *talk) begun(s *sentence) bool {
	k := int(t.sentOf[s.First])
	for j := max(0, k-4); j < k; j++ {
		for i := t.sents[j].First; i < t.sents[j].Last; i++ {
			if t.actionAt[i] >= 0 {
				return true
			}
		}
	}
	return false
}

// namedThenDone reports whether the participle at i tells what is done with the
// food right before it, in a clause that has no other verb: "then coarse salt
// rubbed in", "a few sprigs of thyme thrown over".
func (t *talk) namedThenDone(s *sentence, i int, v *lexicon.Action) bool {
	if v.Weak && !displaced[t.norm(i+1)] || s.First == i {
		return false
	}
	switch v.Kind {
	case "add", "mix", "season", "finish", "move", "serve", "cut":
	default:
		return false
	}
	m := t.mentionAt[i-1]
	if m < 0 || t.mentions[m].head.Last != i || t.mentions[m].negated || t.mentions[m].compared {
		return false
	}
	switch t.norm(i + 1) {
	case "in", "into", "over", "through", "on", "onto", "round", "around":
	default:
		return false
	}
	for h := t.mentions[m].First - 1; h >= s.First && t.toks[h].After&^language.Dash == 0; h-- {
		switch w := t.norm(h); {
		case t.actionAt[h] >= 0, others[w], w == "was", w == "were", w == "had", w == "has", w == "is", w == "are", w == "with", w == "like":
			return false
		}
	}
	return true
}

// foodSubject reports whether what stands before the verb at i is the dish:
// "they bake", "that roasts", "the rice simmers".
func (t *talk) foodSubject(s *sentence, i int) bool {
	k := t.back(s, i)
	if k < s.First || t.toks[k].After != 0 {
		return false
	}
	switch t.norm(k) {
	case "it", "they", "that", "this", "those", "these", "everything":
		return !t.inSubordinate(s, k)
	}
	if t.mentionAt[k] >= 0 || t.madeAt[k] > 0 {
		return !t.inSubordinate(s, k)
	}
	return false
}

// doesAlone reports whether the verb tells what the dish does over a time that the cook
// waits for: "it simmers", "it marinates", "they stay in the fridge".
func doesAlone(v *lexicon.Action) bool {
	if v.Weak {
		return v.Kind == "rest" && v.State || v.Verb == "wait"
	}
	return v.Kind == "heat" || v.Kind == "rest" || aimVerb[v.Verb]
}

// waitIn reports whether a time is told in tokens [a, b).
func (t *talk) waitIn(a, b int) bool {
	for i := a; i < b; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind == duration {
			return true
		}
	}
	return false
}

// timeSoon reports whether a time or temperature follows the verb at i in
// its clause or the fragment after it.
func (t *talk) timeSoon(s *sentence, i int) bool {
	end := min(len(t.toks), i+18)
	for j := i + 1; j < end; j++ {
		if t.actionAt[j] >= 0 {
			return false
		}
		if q := t.quantityAt[j]; q >= 0 && (t.quantities[q].kind == duration || t.quantities[q].kind == heat) {
			return t.sentOf[j] <= t.sentOf[i]+1
		}
	}
	return false
}

// hasFood reports whether a food, a tool or a mixture is named in [a, b).
func (t *talk) hasFood(a, b int) bool {
	for i := a; i < b && i < len(t.toks); i++ {
		if t.mentionAt[i] >= 0 || t.toolAt[i] >= 0 || t.madeAt[i] > 0 {
			return true
		}
	}
	return false
}

// sentPast reports whether the sentence is told in the past.
func (t *talk) sentPast(s *sentence) bool {
	n := t.pastWords(s)
	if !t.punctuated {
		return n*14 >= s.Len() && n > 0
	}
	return n > 0
}

// mostlyPast is sentPast for talk whose marks a recogniser set: its sentences run
// on, and one past word in a long one makes no story.
func (t *talk) mostlyPast(s *sentence) bool {
	if !t.loose {
		return t.sentPast(s)
	}
	n := t.pastWords(s)
	return n*14 >= s.Len() && n > 0
}

// longAgo tell of another time.
var longAgo = listed("last year", "last week", "last time", "one time", "one year", "years ago", "the other day", "when i was", "used to", "back in", "one christmas", "years back", "last month", "last summer", "last winter")

// pastWords counts the words of a sentence that tell of the past.
func (t *talk) pastWords(s *sentence) int {
	n := 0
	for i := s.First; i < s.Last; i++ {
		w := t.norm(i)
		switch w {
		case "were":
			if t.goingTo(i) {
				continue // "were going to add" is "we're going to add"
			}
			n++
		case "was", "had", "did", "didn't", "used", "went", "came", "said", "told", "got", "gave", "made", "thought", "bought", "wasn't", "couldn't", "ate", "took", "brought", "knew", "saw", "ran", "left", "once", "ago", "yesterday", "years", "always":
			if w == "got" || w == "once" || w == "left" || w == "always" || w == "years" || w == "went" && t.norm(i+1) == "ahead" {
				continue
			}
			if w == "made" {
				switch t.norm(i - 1) {
				case "is", "are", "gets", "get", "be":
					continue // "the crumb gets made first"
				}
			}
			n++
		default:
			prev := t.norm(i - 1)
			if !t.in(aPastVerb, i) && !t.in(aParticiple, i) && !strings.HasSuffix(w, "ed") && w != "fixed" && w != "got" {
				continue
			}
			subject := others[prev] || prev == "i" || prev == "we" || prev == "it" || prev == "you" || kin[prev] || i > s.First && t.toks[i-1].Cap && i-1 > s.First
			if i > s.First && (pastVerb[w] && !beVerb[prev] || participle[w] && subject) {
				n++
			} else if i > s.First && strings.HasSuffix(w, "ed") && len(w) > 4 && (prev == "he" || prev == "she" || prev == "they" || prev == "i" || prev == "we" || kin[prev]) {
				n++
			} else if i == s.First && (w == "fixed" || w == "got" || pastVerb[w] || participle[w]) {
				n++
			}
		}
	}
	if t.hasAny(s.First, s.Last, longAgo) >= 0 {
		n++
	}
	return n
}

// goingTo reports whether "going to" or a gerund of the kitchen follows token i: there
// "were" is "we're", as a recogniser hears it.
func (t *talk) goingTo(i int) bool {
	k := i + 1
	for k < len(t.toks) && k < i+3 && leadAdverbs[t.norm(k)] {
		k++
	}
	if t.norm(k) == "going" && t.norm(k+1) == "to" || t.norm(k) == "gonna" {
		return !others[t.norm(i-1)] && t.norm(i-1) != "you" && t.norm(i-1) != "we"
	}
	return false
}

var beVerb = words("is are be been being get gets getting was were have has had i've you've we've it's they're that's half well over")

// pastVerb are everyday past forms that tell a story.
var pastVerb = words("drove ran wrote rode stood fell grew woke wore threw began broke chose drank flew rang sang spoke stole swore swam tore forgave overheard slid blew crept dug fled flung fought knelt leapt struck swung wept sank sprang shrank shone froze stank crawled")

// participle are past forms that are participles as well: they tell a story
// only after a subject.
var participle = words("sold spent sat lost met paid sent slept won felt held heard taught found caught cost hid led cracked moved called asked wanted tried turned worked lived walked looked showed started finished learned learnt kept sailed served weighed trained burnt burned scared married died retired fixed carried dropped passed opened handed counted")

// surfaces are what is evened.
var surfaces = words("top tops surface edges edge sides layer layers")

// weakFits reports whether an everyday verb works on something of the
// kitchen: a food, a vessel, a mixture, a time, "it" with a cooking particle.
func (t *talk) weakFits(s *sentence, a *action) bool {
	if a.base == "even" && a.particle == "" && !(determiners[t.norm(a.tok+1)] && (surfaces[t.norm(a.tok+2)] || t.thingSoon(a.tok+1, min(s.Last, a.tok+4)))) {
		return false // "even the pigeons had turned in"
	}
	if a.base == "wait" && a.tok+1 == s.Last && t.timeSoon(s, a.tok) {
		return true // "you wait. Three weeks at least"
	}
	if a.tok+1 == s.Last && s.Len() == 1 && strongAlone[a.base] {
		return t.cookingNear(s) // "Close."
	}
	end := min(s.Last, a.tok+9)
	for i := a.tok + 1; i < end; i++ {
		if t.mentionAt[i] >= 0 && !t.mentions[t.mentionAt[i]].compared || t.toolAt[i] >= 0 || t.madeAt[i] > 0 {
			return true
		}
		if q := t.quantityAt[i]; q >= 0 && (t.quantities[q].kind == duration || t.quantities[q].kind == heat || t.quantities[q].kind == measure || t.quantities[q].kind == length) {
			return true
		}
		switch t.norm(i) {
		case "heat", "oven", "fridge", "freezer", "refrigerator", "lid", "flame", "burner", "gas", "simmer", "boil", "stove", "low", "paper", "foil", "counter", "rack", "shelf", "pressure",
			"piece", "pieces", "slices", "edges", "halves", "strips", "chunks", "skins", "shells", "bones", "stalks", "stems", "seeds", "lumps", "scraps", "pips":
			return true
		}
		if i > a.tok+1 && t.actionAt[i] >= 0 {
			break
		}
		if t.toks[i].After != 0 {
			break
		}
	}
	if t.norm(a.tok+1) == "to" && t.baseVerb(a.tok+2) != nil && aimVerb[t.norm(a.tok+2)] {
		return true // "leave to cool"
	}
	if displaced[t.norm(a.tok+1)] && opensObject[t.norm(a.tok+2)] && t.cookingNear(s) {
		return true // "pull off the beards"
	}
	switch next := t.norm(a.tok + 1); next {
	case "it", "them", "that", "this", "everything", "those", "these", "one", "half", "the", "all":
		k := a.tok + 2
		if w := t.norm(k); (w == "not" || w == "whole") && a.base == "put" {
			return t.cookingNear(s) // "put it whole, on top", "put them not touching"
		}
		if next == "the" || next == "half" || next == "all" {
			k++
		}
		if displaced[t.norm(k)] || displaced[t.norm(k+1)] && t.toks[min(k, len(t.toks)-1)].After == 0 {
			return t.cookingNear(s)
		}
		if a.base == "check" || a.base == "open" || a.base == "hold" || a.base == "leave" || a.base == "turn" {
			return t.cookingNear(s)
		}
	}
	return false
}

// displaced are words that tell where a thing goes: "lift it out".
var displaced = words("in into up down out off over onto on open apart aside back across through around together to under between away for until till alone")

// particle reads the second half of a phrasal verb: "beat in", "set it aside".
func (t *talk) particle(a *action) {
	if len(a.verb.Particles) == 0 {
		return
	}
	is := func(w string) bool {
		for _, p := range a.verb.Particles {
			if p == w {
				return true
			}
		}
		return false
	}
	s := t.sentence(a.tok)
	for i := a.tok + 1; i < s.Last && i <= a.tok+4; i++ {
		w := t.norm(i)
		if is(w) {
			a.particle = w
			return
		}
		if i == a.tok+1 && (w == "it" || w == "them" || w == "that" || w == "this" || w == "those" || w == "everything") {
			continue
		}
		return
	}
}

// bound gives every action its clause: from its own first word to the next
// action of the sentence, split where the next one's clause begins.
func (t *talk) bound() {
	for k := range t.actions {
		a := &t.actions[k]
		s := t.sentence(a.tok)
		first, last := s.First, s.Last
		if k > 0 && t.sentOf[t.actions[k-1].tok] == t.sentOf[a.tok] {
			from := a.tok
			if a.lead > t.actions[k-1].tok {
				from = a.lead
			}
			first = t.clauseFrom(t.actions[k-1].tok, from)
			t.actions[k-1].clause.Last = first
		}
		a.clause = language.Span{First: first, Last: last}
	}
}

// clauseFrom finds where the clause of the verb at b begins, after the verb
// at a: at the last mark or joining word between them.
func (t *talk) clauseFrom(a, b int) int {
	for i := b - 1; i > a; i-- {
		if t.toks[i].After != 0 {
			return i + 1
		}
		switch t.norm(i) {
		case "and", "then", "but", "so":
			if i > a+1 && t.norm(i-1) == "and" {
				return i - 1
			}
			if i > a+2 && t.norm(i-1) == "ahead" && t.norm(i-2) == "go" {
				return i - 2
			}
			return i
		}
		if i < b-6 {
			break
		}
	}
	if t.toks[a].After != 0 && b-a <= 6 {
		return a + 1
	}
	// skip adverbs and subjects before the verb
	i := b
	for i-1 > a && (leadAdverbs[t.norm(i-1)] || youWe[t.norm(i-1)] || modals[t.norm(i-1)] || t.norm(i-1) == "to" || intents[t.norm(i-1)] || t.norm(i) == "sure" && (t.norm(i-1) == "make" || t.norm(i-1) == "be")) {
		i--
	}
	return i
}
