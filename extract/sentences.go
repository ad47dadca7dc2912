package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/internal/marking"
)

// predicates end a clause that says how a thing is.
var predicates = words("simple easy quick done ready straightforward sorted")

// markSentences cuts the talk into sentences. Where the transcript has no
// sentence marks, a verb in the place of an imperative or the name of a
// component begins one.
func (t *talk) markSentences() {
	t.punctuated = language.Punctuated(t.toks)
	hint := t.begins
	if !t.punctuated {
		t.guesses = marking.Guess(t.lex, t.toks, t.ids)
		hint = func(i, from int) language.Hint {
			h := t.begins(i, from)
			if h == language.Unknown && t.guesses[i-1] == marking.Certain {
				return language.Begins
			}
			return h
		}
	}
	spans := shorter(language.Sentences(t.toks, hint))
	if !t.punctuated {
		t.takeOpenings(spans)
		spans = t.joinFronted(spans)
	}
	t.sents = make([]sentence, len(spans))
	t.sentOf = make([]int32, len(t.toks))
	t.loose = !t.punctuated || t.mostlyLower(spans)
	t.lineByLine = t.punctuated && len(t.n.Cues) > 1 && len(spans)*2 < len(t.n.Cues)*3
	para := t.paragraphs()
	for k, s := range spans {
		t.sents[k] = sentence{Span: s, para: para(s.First)}
		for i := s.First; i < s.Last; i++ {
			t.sentOf[i] = int32(k)
		}
	}
}

// mostlyLower reports whether most sentences begin with a small letter.
func (t *talk) mostlyLower(spans []language.Span) bool {
	low := 0
	for _, s := range spans {
		if !t.toks[s.First].Cap {
			low++
		}
	}
	return low*4 > len(spans)*3
}

// sentenceWords is how long a sentence can be. What goes on for longer is no
// sentence but a list of words, and is read in pieces, so that the cost of a
// word never grows with what stands around it.
const sentenceWords = 200

// shorter cuts sentences that are too long.
func shorter(spans []language.Span) []language.Span {
	out := make([]language.Span, 0, len(spans))
	for _, s := range spans {
		for s.Len() > sentenceWords {
			out = append(out, language.Span{First: s.First, Last: s.First + sentenceWords})
			s.First += sentenceWords
		}
		out = append(out, s)
	}
	return out
}

// captionWords is how many words a cue holds at most on average in captions;
// longer cues are paragraphs.
const captionWords = 20

// paragraphWords is how long a paragraph can be. A longer one is a talk that
// nobody cut into paragraphs, and is taken for several.
const paragraphWords = 500

// wholeCues reports whether short cues are paragraphs of a terse talk: nearly all end where a
// sentence does, and they hold two or more on average. A line of captions seldom does.
func (t *talk) wholeCues() bool {
	if !t.punctuated || len(t.n.Cues) < 3 {
		return false
	}
	ends, closed, cue := 0, 0, 0
	for i := range t.toks {
		for cue+1 < len(t.n.Cues) && int(t.toks[i].Word) >= t.n.Cues[cue].Last {
			cue++
		}
		if !t.toks[i].After.Ends() {
			continue
		}
		ends++
		if i+1 == len(t.toks) || int(t.toks[i+1].Word) >= t.n.Cues[cue].Last {
			closed++
		}
	}
	return ends >= 2*len(t.n.Cues) && closed*20 >= len(t.n.Cues)*19
}

// paragraphs gives the paragraph of a token: its cue where cues are
// paragraphs, else a stretch of about the same length.
func (t *talk) paragraphs() func(tok int) int {
	if len(t.n.Cues) > 0 && (len(t.n.Words) > captionWords*len(t.n.Cues) || t.wholeCues()) {
		para := make([]int32, len(t.toks))
		more, from, cue := 0, 0, 0
		for i := range t.toks {
			before := cue
			for cue+1 < len(t.n.Cues) && int(t.toks[i].Word) >= t.n.Cues[cue].Last {
				cue++
			}
			switch {
			case i > 0 && cue != before:
				from = i
			case i-from >= paragraphWords:
				more, from = more+1, i
			}
			para[i] = int32(cue + more)
		}
		return func(tok int) int { return int(para[tok]) }
	}
	// captions: a paragraph ends where a line stops short, not before a few
	// sentences' worth of words nor long after
	para := make([]int32, len(t.toks))
	n, from := int32(0), 0
	for i := range t.toks {
		if i-from >= 25 && t.toks[i].Pause || i-from >= 110 {
			n++
			from = i
		}
		para[i] = n
	}
	return func(tok int) int { return int(para[tok]) }
}

// holds are words before a verb that make it part of what they began.
var holds = words("and or to the a an your my our his her their its of with in on at for from by into this these those some any no not don't never you we i they he she it's that's is are was were be been can could will would should might may must do does did didn't let let's gonna i'm you're we're i'll you'll we'll i'd you'd they'd he'd she'd who'd he'll she'll they'll who'll would've should've just then please always also even still it'll that'll but or if when while until till before after once because as than like which who what how where so very really too more most less good nice bit little big small and-then go come help make keep get start begin without per every each another one two three four five six seven eight nine ten first second gently carefully quickly slowly lightly only now")

// begins tells whether the words at i open a sentence, for talk without marks.
func (t *talk) begins(i, from int) language.Hint {
	w, prev := t.norm(i), t.norm(i-1)
	next := t.norm(i + 1)
	if i-from >= 2 && t.topicBegins(i) {
		return language.Begins
	}
	if i-from >= 2 && (t.newTopic(i) || t.listBegins(i)) {
		return language.Begins
	}
	if i-from >= 3 && t.conditionBegins(i, from) {
		return language.Begins
	}
	// the object of a verb is no subject: "drizzle it over"
	switch w {
	case "it", "them", "that", "this", "those", "these", "everything":
		if t.canBeVerb(prev) {
			return language.Goes
		}
	case "it's", "that's", "you", "i", "we":
		if w == "you" && t.strongVerb(prev) {
			return language.Goes
		}
	}
	// a turn to a component: "... all day long | time for the dressing a cup of"
	if n := t.cueAt(turnCues, i, len(t.toks)); n > 0 && i-from >= 2 && !holds[prev] && w != "for" && w != "and" && w != "make" {
		if m, k := t.lex.MadeAt(t.ids, i+n); k > 0 && m.Part && !notPart[t.norm(i+n)] && (t.headFollows(i+n+k) || t.canBeVerb(t.norm(i+n+k)) || t.norm(i+n+k) == "is") {
			return language.Begins
		}
	}
	// "... is simple | whisk three tablespoons"
	if predicates[prev] && t.canBeVerb(w) && !t.isFoodWord(i) && i-from >= 3 {
		if _, k := language.ReadNumber(t.toks, i+1); k > 0 || opensObject[next] {
			return language.Begins
		}
	}
	// the name of a component: "for the icing", "now the sauce"
	if w == "for" && (next == "the" || next == "your") {
		if n := t.dishAt(i + 2); n > 0 && i-from >= 3 && (!t.canBeVerb(prev) || t.isNoun(prev)) && (!holds[prev] || prev == "and" || prev == "then" || prev == "now") {
			switch after := t.norm(i + 2 + n); {
			case after == "it's" || after == "you" || after == "i" || after == "we" || after == "that's" || after == "i'm" || after == "you'll" || after == "it" || after == "i've" || after == "we're":
				return language.Begins
			case t.canBeVerb(after):
				return language.Begins
			}
			if _, k := language.ReadNumber(t.toks, i+2+n); k > 0 {
				return language.Begins
			}
		}
	}
	if m, n := t.lex.MadeAt(t.ids, i); n > 0 && m.Part && !holds[prev] && !t.afterAdjective(i) && t.lex.Modifiers[prev] == lexicon.NoClass && !notPart[w] && !t.isFoodWord(i-1) && i-from >= 2 {
		// "... for an outdoor party | filling cream cheese full fat"
		if t.headFollows(i + n) {
			return language.Begins
		}
	}
	if w == "the" && !holds[prev] && !t.baseOrObject(prev) && i-from >= 2 {
		// "while it's sitting | the tadka onion one big one"
		if m, n := t.lex.MadeAt(t.ids, i+1); n > 0 && m.Part && !notPart[next] && t.headFollows(i+1+n) {
			return language.Begins
		}
	}
	if w == "don't" && (prev == "you" || prev == "we" || prev == "they") && untils[t.norm(i-2)] {
		return language.Goes // "until you don't see any flour"
	}
	if w == "then" && next == "let" && prev != "and" && opensObject[t.norm(i+2)] && i-from >= 2 {
		return language.Begins // "somebody always did | then let it cool"
	}
	if t.norm(i-2) == "a" && manner[prev] {
		return language.Goes // "give it a quick stir"
	}
	if t.norm(i-2) == "let" && objectLike[prev] {
		return language.Goes // "let it sizzle"
	}
	for k := i - 1; k > from && k >= i-letWords && t.canBeVerb(w); k-- {
		if t.norm(k) == "let" {
			return language.Goes // "let that cook"
		}
		if t.canBeVerb(t.norm(k)) && !t.isFoodWord(k) {
			break
		}
	}
	if strings.HasSuffix(prev, "n't") && t.canBeVerb(w) || t.norm(i) == "stir" && next == "fry" && !opensObject[t.norm(i+2)] {
		return language.Goes
	}
	if t.signOf(i, from) {
		return language.Goes // "until the edges lift"
	}
	if t.underCondition(i, from) {
		return language.Goes // "if it's dry | add a splash of water"
	}
	if t.orderBehind(i, from) {
		return language.Begins
	}
	if holds[prev] && !(objectLike[prev] && opensObject[next]) && !((next == "it" || next == "them") && numberWord(prev)) {
		return language.Unknown
	}
	// "in goes the butter"
	if (w == "in" || w == "on") && (next == "goes" || next == "go" && determiners[t.norm(i+2)]) {
		return language.Begins
	}
	if t.lex.Phrases[prev+" "+w] != nil {
		return language.Goes // "pressure | cook"
	}
	if t.insideName(i) {
		return language.Goes // "lime juice two fluid ounces"
	}
	for _, f := range t.lex.Verbs(w) {
		if f.Form != lexicon.Base {
			continue
		}
		v := f.Action
		switch {
		case light[v.Verb]:
			if v.Verb == "let" && (determiners[next]) || v.Verb == "give" && (next == "it" || next == "them" || next == "that" || next == "everything") || v.Verb == "get" && (next == "a" || next == "your" || next == "the") || v.Verb == "keep" && strings.HasSuffix(next, "ing") || v.Verb == "run" && determiners[next] && runners[t.norm(i+2)] {
				return t.unlessHeld(i, from)
			}
		case !v.Noun && !v.Weak:
			if i-from >= 2 {
				return t.unlessHeld(i, from)
			}
		case v.Weak:
			if opensObject[next] {
				return t.unlessHeld(i, from)
			}
		default:
			if opensObject[next] && (!t.afterAdjective(i) || pointers[next]) {
				return t.unlessHeld(i, from)
			}
			if afterVerb[next] && next != "on" && next != "to" && next != "from" && next != "as" && next != "again" && next != "well" && (t.isNoun(prev) || nounEnd[prev]) && !t.afterAdjective(i) && opensObject[t.norm(i+2)] {
				return t.unlessHeld(i, from)
			}
			if next == "for" || next == "until" || next == "till" || next == "at" {
				if _, k := language.ReadNumber(t.toks, i+2); (k > 0 || next == "until" || next == "till") && nounEnd[prev] {
					return t.unlessHeld(i, from)
				}
			}
		}
	}
	return language.Unknown
}

// orderBehind reports whether an order begins at i behind a clause that is complete: a verb
// with its object behind a time ("... goes in simmer ten minutes", "for five minutes slice
// against the grain"), behind "dry" or "shut", behind "first" that closes what was said of a
// food, or behind an order of one word ("stir chill it for an hour").
func (t *talk) orderBehind(i, from int) bool {
	if i-from < 2 {
		return false
	}
	v := t.baseVerb(i)
	if v == nil || light[v.Verb] || t.insideName(i) || holds[t.norm(i-1)] && t.norm(i-1) != "first" {
		return false
	}
	prev, next := t.norm(i-1), t.norm(i+1)
	if v.Weak && !contains(v.Particles, next) {
		return false
	}
	object := opensObject[next] && next != "a" && next != "some" && next != "any" && next != "half"
	_, n := language.ReadNumber(t.toks, i+1)
	timed := false
	if n > 0 {
		u, x := t.lex.UnitAt(t.ids, i+1+n)
		timed = x > 0 && u.Kind == "time"
	}
	switch {
	case contains(v.Particles, next) && opensObject[t.norm(i+2)] && t.norm(i+2) != "a" && !t.afterAdjective(i) && !t.isFoodWord(i) && !t.canBeVerb(prev) && !others[prev] && !kin[prev]:
		return true // "... at her own wedding fish out the cinnamon"
	case n > 0 && !timed && !t.isFoodWord(i) && !t.afterAdjective(i) && !t.canBeVerb(prev) && (v.Kind == "heat" || v.Kind == "mix" || v.Kind == "cut" || v.Kind == "add"):
		_, x := t.lex.UnitAt(t.ids, i+1+n)
		return x > 0 && t.norm(i+1+n+x) == "of" // "heat two tablespoons of oil"
	case timeWord[prev]:
		if _, f := t.lex.FoodAt(t.ids, i+1, t.stops); f > 0 && !t.isFoodWord(i) {
			return true // "... thirty seconds spread mayonnaise on it"
		}
		return object || timed || next == "against" || next == "with" || next == "in" || next == "on"
	case timed:
		return (v.Kind == "heat" || v.Kind == "rest") && (nounEnd[prev] || t.isFoodWord(i-1)) && !t.canBeVerb(prev) && prev != "to"
	case prev == "first":
		return (next == "them" || next == "it") && t.isFoodWord(i-2)
	case strongAlone[prev] && prev != "stir" && prev != "cook", prev == "stir" && t.norm(i) != "fry":
		return (next == "it" || next == "them") && !holds[t.norm(i-2)] && i-from >= 3
	}
	return false
}

// signOf reports whether the word at i is what a thing does in a sign of doneness whose
// subject stands just before it.
func (t *talk) signOf(i, from int) bool {
	if t.baseVerb(i) == nil {
		return false
	}
	for k := i - 3; k >= from && k >= i-5; k-- {
		if !untils[t.norm(k)] {
			continue
		}
		w := t.norm(k + 1)
		if !determiners[w] || pointers[w] || opensObject[t.norm(i+1)] {
			return false
		}
		for j := k + 2; j < i; j++ {
			if finites[t.norm(j)] || strings.HasSuffix(t.norm(j), "'s") || t.norm(j) == "then" || t.lex.Doneness[t.norm(j)] {
				return false
			}
		}
		return true
	}
	return false
}

// leadingWords is how many words may stand between a word like "if" and the order
// that it leads to.
const leadingWords = 9

// provisos open a clause that says when the order behind it is followed.
var provisos = words("if when once")

// conditionAt reports whether a clause with a subject of its own begins at i with a word
// like "if". "If you like" goes with what was told before.
func (t *talk) conditionAt(i int) bool {
	if !provisos[t.norm(i)] {
		return false
	}
	switch w := t.norm(i + 1); w {
	case "it", "it's", "they", "they're", "the", "that", "that's", "your", "there's", "yours", "everything":
		return true
	case "you", "you're", "you've":
		if n := t.norm(i + 2); w == "you're" && (n == "a" || n == "an") {
			return false // "take the seeds out if you're a beginner"
		}
		return w != "you" || t.norm(i+2) == "see" || t.norm(i+2) == "smell" || t.norm(i+2) == "hear" || t.norm(i+2) == "find"
	}
	return false
}

// orderAt reports whether the word at i can be an order with its object behind it.
func (t *talk) orderAt(i int) bool {
	v := t.baseVerb(i)
	if v == nil || t.afterAdjective(i) && (v.Noun || !opensObject[t.norm(i+1)]) || t.insideName(i) || holds[t.norm(i-1)] && t.norm(i-1) != "then" && t.norm(i-1) != "it" && t.norm(i-1) != "them" && t.norm(i-1) != "just" {
		return false
	}
	next := t.norm(i + 1)
	return (opensObject[next] || contains(v.Particles, next) || afterVerb[next] && opensObject[t.norm(i+2)] || next == "in") && !(light[v.Verb] && !determiners[next])
}

// conditionBegins reports whether a clause that leads to an order begins at i behind a
// clause that is complete: "... for twenty minutes | if the top gets dark lay foil over it".
// An order of which no time was told ends with when it is followed: "slice it once it's
// cold".
func (t *talk) conditionBegins(i, from int) bool {
	prev := t.norm(i - 1)
	if !t.conditionAt(i) || !timeWord[prev] && !t.isNoun(prev) && !nounEnd[prev] {
		return false
	}
	ordered, timed := false, false
	for k := from; k < i; k++ {
		ordered = ordered || t.orderAt(k)
		timed = timed || timeWord[t.norm(k)] || untils[t.norm(k)]
	}
	if ordered && !timed && t.norm(i) != "if" {
		return false
	}
	for k := i + 3; k < i+leadingWords && k < len(t.toks); k++ {
		if joining[t.norm(k)] || openedBy[t.norm(k)] || t.toks[k-1].After != 0 {
			return false
		}
		if t.orderAt(k) {
			return true
		}
	}
	return false
}

// underCondition reports whether the order at i is led to by a clause that opened the
// sentence, or that "and" leads to.
func (t *talk) underCondition(i, from int) bool {
	for k := i - 3; k >= from && k > i-leadingWords; k-- {
		if !t.conditionAt(k) {
			continue
		}
		if p := t.norm(k - 1); k > from && !joining[p] && p != "then" && p != "so" && p != "now" {
			return false
		}
		if !t.orderAt(i) {
			return false
		}
		for j := k + 3; j < i; j++ {
			if t.orderAt(j) || openedBy[t.norm(j)] {
				return false
			}
		}
		return true
	}
	return false
}

// pointers are words with which an object begins, so that the word before is a verb
// whatever stands before it: "a leek is mostly a field cook those gently".
var pointers = words("it them those these that this each every everything both")

// runners are what is run along or round something.
var runners = words("knife spatula finger fingers thumb palette spoon blade skewer")

// timeWord are units of time that a clause ends with.
var timeWord = words("minutes minute hour hours seconds overnight")

// newTopic reports whether a food is named at i behind an order that has all it needs: its
// object, or how long it takes: "slice and fry them | aubergines you want heavy", "... in
// the pot for ten minutes | peppers red ones".
func (t *talk) newTopic(i int) bool {
	prev, before := t.norm(i-1), t.norm(i-2)
	switch prev {
	case "it", "them":
		if v := t.baseVerb(i - 2); v == nil || v.Weak || light[v.Verb] || twoObjects[v.Verb] {
			return false
		}
	case "minutes", "hours", "hour", "seconds", "overnight":
		if _, n := language.ReadNumber(t.toks[:i-1], i-2); n == 0 && prev != "overnight" {
			return false
		}
	case "side":
		if before != "a" && before != "each" && before != "per" && before != "every" {
			return false
		}
	case "out", "off", "together", "aside", "away":
		if before != "it" && before != "them" {
			return false
		}
	default:
		if !t.putInTool(i) {
			return false
		}
	}
	k := i
	for k < i+2 && (t.lex.Modifiers[t.norm(k)] == lexicon.NameWord || t.lex.Modifiers[t.norm(k)] == lexicon.SizeWord) {
		if _, n := t.lex.FoodAt(t.ids, k, nil); n > 0 {
			break
		}
		k++
	}
	f, n := t.lex.FoodAt(t.ids, k, nil)
	return n > 0 && !f.Dish && (n > 1 || !t.canBeVerb(t.norm(k)))
}

// listBegins reports whether a measured food stands at i behind the name of a dish: "today
// we make a lamb stew | four chops".
func (t *talk) listBegins(i int) bool {
	if prev := t.norm(i - 1); !dishNoun[lexicon.Singular(prev)] || t.canBeVerb(prev) && prev != "stew" {
		return false
	}
	for k := max(0, i-3); k < i; k++ {
		if f, n := t.lex.FoodAt(t.ids, k, nil); n > 0 && k+n >= i && !f.Dish {
			return false // "fish sauce three tablespoons"
		}
	}
	num, n := language.ReadNumber(t.toks, i)
	if n == 0 || num.Article {
		return false
	}
	k := i + n
	for k < i+n+2 && sizeAdjectives[t.norm(k)] {
		k++
	}
	if u, x := t.lex.UnitAt(t.ids, k); x > 0 {
		return u.Kind != "time" && u.Kind != "length" && u.Kind != "temperature"
	}
	for k < i+n+3 && t.lex.Modifiers[t.norm(k)] != lexicon.NoClass {
		k++
	}
	f, x := t.lex.FoodAt(t.ids, k, nil)
	return x > 0 && !f.Dish
}

// putInTool reports whether an order to put something in or on a tool ends at i: "brown
// them in the pot".
func (t *talk) putInTool(i int) bool {
	for k := i - 1; k > 0 && k >= i-3; k-- {
		if _, n := t.lex.ToolAt(t.ids[:i], k, t.stops); n == 0 || k+n != i {
			continue
		}
		if determiners[t.norm(k-1)] {
			k--
		}
		switch t.norm(k - 1) {
		case "in", "into", "on", "onto":
			if w := t.norm(k - 2); w == "it" || w == "them" || w == "that" {
				v := t.baseVerb(k - 3)
				return v != nil && !light[v.Verb]
			}
		}
		return false
	}
	return false
}

// twoObjects are verbs with two objects: "call it pie", "make it butter".
var twoObjects = words("call make give name feed buy show bring cook turn")

// topicBegins reports whether a food is named at i as the next of a list, with its amount
// behind it: "... hitting the pots | green beans two hundred grams".
func (t *talk) topicBegins(i int) bool {
	prev := t.norm(i - 1)
	if holds[prev] || objectLike[prev] || t.baseOrObject(prev) || t.lex.Modifiers[prev] != lexicon.NoClass || t.isFoodWord(i-1) || t.toolJoins(prev) {
		return false
	}
	if _, n := t.lex.UnitAt(t.ids, i-1); n > 0 {
		return false
	}
	if _, n := language.ReadNumber(t.toks[:i], i-1); n > 0 {
		return false
	}
	k := i
	for k < i+2 && t.modifier(k) == lexicon.NameWord {
		if _, n := t.lex.FoodAt(t.ids, k, nil); n > 0 {
			break
		}
		k++
	}
	f, n := t.lex.FoodAt(t.ids, k, nil)
	if n == 0 || f.Dish || n == 1 && t.canBeVerb(t.norm(k)) {
		return false
	}
	j := k + n
	num, m := language.ReadNumber(t.toks, j)
	if m == 0 {
		return false
	}
	for j += m; sizeAdjectives[t.norm(j)]; j++ {
	}
	u, x := t.lex.UnitAt(t.ids, j)
	if x == 0 {
		return !num.Article && !num.Fraction && num.Max <= 12 && t.modifier(j) == lexicon.PrepWord && t.isCounted(j)
	}
	return u.Kind != "time" && u.Kind != "length" && t.norm(j+x) != "of"
}

// isCounted reports whether no food follows the words at j that tell how something is
// prepared: "potatoes two peeled | in quarters", not "two peeled potatoes".
func (t *talk) isCounted(j int) bool {
	for k := j; k < j+4; k++ {
		if _, n := t.lex.FoodAt(t.ids, k, nil); n > 0 {
			return false
		}
		if t.modifier(k) == lexicon.NoClass {
			break
		}
	}
	return true
}

// toolJoins reports whether a word leads from a verb to its object.
func (t *talk) toolJoins(w string) bool {
	switch w {
	case "called", "plus", "goes", "go", "add", "using", "use", "got", "have", "need", "want", "take":
		return true
	}
	return false
}

// numberWord reports whether a number that can stand for things ends a clause: "I've
// used four | whisk them".
func numberWord(w string) bool {
	switch w {
	case "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten":
		return true
	}
	return false
}

// manner are words for how a stir or a shake is given.
var manner = words("quick rough gentle final proper thorough light decent wee little brisk")

// letWords is how many words may stand from "let" to what it lets be done.
const letWords = 4

// isFoodWord reports whether a food's name ends at i.
func (t *talk) isFoodWord(i int) bool {
	for k := max(0, i-2); k <= i; k++ {
		if _, n := t.lex.FoodAt(t.ids, k, nil); n > 0 && k+n > i {
			return true
		}
	}
	return false
}

// insideName reports whether a food's or tool's name of several words began
// before i and goes on over it.
func (t *talk) insideName(i int) bool {
	for k := max(0, i-3); k < i; k++ {
		if _, n := t.lex.FoodAt(t.ids, k, t.stops); n > 1 && k+n > i {
			return true
		}
		if _, n := t.lex.ToolAt(t.ids, k, t.stops); n > 1 && k+n > i {
			return true
		}
	}
	return false
}

// headFollows reports whether what stands at i takes up a component just
// named: a food, an amount, a vessel, "this is", a subject.
func (t *talk) headFollows(i int) bool {
	if i >= len(t.toks) {
		return false
	}
	w := t.norm(i)
	switch w {
	case "this", "i", "you", "we", "it's", "first", "next", "again", "now", "i'm", "so", "three", "for":
		return w != "for" || t.norm(i+1) == "this" || t.norm(i+1) == "that"
	}
	if _, n := language.ReadNumber(t.toks, i); n > 0 {
		return true
	}
	if _, n := t.lex.FoodAt(t.ids, i, nil); n > 0 {
		return true
	}
	if t.lex.Modifiers[w] == lexicon.SizeWord {
		return true
	}
	if _, n := t.lex.ToolAt(t.ids, i, nil); n > 0 {
		return true
	}
	return false
}

// objectLike are words that hold a verb only where they are no object.
var objectLike = words("this that these those it them")

// dishAt gives the length of a word for a mixture or a dish at i.
func (t *talk) dishAt(i int) int {
	if m, n := t.lex.MadeAt(t.ids, i); n > 0 && m.Part {
		return n
	}
	if f, n := t.lex.FoodAt(t.ids, i, t.stops); n > 0 && f.Dish {
		return n
	}
	if t.isDishNoun(i) {
		return 1
	}
	return 0
}

// nounEnd are small words a finished clause can end with.
var nounEnd = words("it them that this in up down out off over together aside well again there now around through back done hands")

// opensObject are words with which a verb's object begins.
var opensObject = words("the it them your that this those these all each every everything half both a an some any my another plenty")

// afterAdjective reports whether the word before i makes i a noun.
func (t *talk) afterAdjective(i int) bool {
	return t.modifier(i-1) == lexicon.NameWord || t.modifier(i-1) == lexicon.SizeWord
}

func (t *talk) unlessHeld(i, from int) language.Hint {
	if i-from < 1 {
		return language.Unknown
	}
	return language.Begins
}

// isNoun reports whether w names a food, a tool, a mixture or a unit.
func (t *talk) isNoun(w string) bool {
	ids := []int32{t.lex.ID(w)}
	if _, n := t.lex.FoodAt(ids, 0, nil); n > 0 {
		return true
	}
	if _, n := t.lex.ToolAt(ids, 0, nil); n > 0 {
		return true
	}
	if _, n := t.lex.MadeAt(ids, 0); n > 0 {
		return true
	}
	_, n := t.lex.UnitAt(ids, 0)
	return n > 0
}

func (t *talk) canBeVerb(w string) bool {
	for _, f := range t.lex.Verbs(w) {
		if f.Form == lexicon.Base || f.Form == lexicon.Ing {
			return true
		}
	}
	return false
}

// baseOrObject reports whether w can take an object: a verb's base form or a
// preposition.
func (t *talk) baseOrObject(w string) bool {
	switch w {
	case "over", "off", "up", "down", "out", "through", "around", "all", "half", "under", "between", "onto", "along", "across", "inside", "like", "near", "against", "behind", "during", "rest", "back", "put", "it", "them":
		return true
	}
	for _, f := range t.lex.Verbs(w) {
		if f.Form == lexicon.Base {
			return true
		}
	}
	return false
}

func (t *talk) strongVerb(w string) bool {
	for _, f := range t.lex.Verbs(w) {
		if !f.Action.Noun {
			return true
		}
	}
	return false
}
