package extract

import (
	"sort"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// Cooks who talk in a hurry leave the verb out: "onions in", "in with the
// stock", "lid on", "into the oven, forty minutes", "then the garlic". What is
// done is told by the place word, or by an order word after the cooking has
// begun. Only sentences without any verb of their own are read so.

// Limits in tokens.
const (
	fragmentWords = 22 // the longest sentence without a verb that is an instruction
	cookingNear   = 45 // how far back the cooking it goes on with may stand
	paragraphNear = 20 // sentences of its paragraph that are looked at, either way
)

var (
	inward   = words("in into to")
	onward   = words("on onto over")
	outward  = words("out off")
	orderly  = words("then next now after")
	finites  = language.Finites
	subjects = words("i you we he she they it who somebody someone everybody everyone people nobody")
	// doneWords open the part of a sentence that tells when or why.
	doneWords = words("until till 'til til because 'cause so when while if for")
	lids      = words("lid foil cover clingfilm cling film parchment plate cloth towel")
	firing    = words("fire heat gas flame burner hob oven grill kettle stove broiler fryer")
	dials     = words("low medium medium-low medium-high high simmer boil half")
	// atTheEnd close a sentence that puts in what it names: "garlic next".
	atTheEnd = words("next now too")
)

// markFragments gives sentences that have no verb the actions they stand for.
func (t *talk) markFragments() {
	found := len(t.actions)
	last := -cookingNear // token of the last action
	n := 0               // actions passed
	for k := range t.sents {
		s := &t.sents[k]
		from := n
		for n < found && t.actions[n].tok < s.Last {
			if t.actions[n].mood != negative {
				last = t.actions[n].tok
			}
			n++
		}
		if n > from {
			if as := t.fragmentsBeside(s, t.actions[from:n]); len(as) > 0 {
				t.actions = append(t.actions, as...)
			}
			continue
		}
		if a, ok := t.heating(k); ok {
			t.actions = append(t.actions, a)
			continue
		}
		if !t.verbless(s) {
			goesOn := n < found && t.actions[n].tok < s.Last+fragmentWords && !afterwards[t.actions[n].verb.Kind]
			if !goesOn {
				if a, ok := t.forgottenFood(s); ok {
					t.actions = append(t.actions, a)
				}
			}
			continue
		}
		if t.runsThrough(k) {
			continue
		}
		for _, a := range t.fragment(s, s.First-last <= cookingNear) {
			t.actions = append(t.actions, a)
			last = a.tok
		}
	}
	if len(t.actions) == found {
		return
	}
	sort.SliceStable(t.actions, func(i, j int) bool { return t.actions[i].tok < t.actions[j].tok })
	for k := range t.actions {
		t.actionAt[t.actions[k].tok] = int32(k)
	}
	t.bound()
}

// fragmentsBeside reads what is said without a verb in a sentence that has verbs: the lid
// and the fire before them ("lid on, heat down, and leave it be"), and the oven or the
// fridge after them ("massage it in, and into the fridge overnight").
func (t *talk) fragmentsBeside(s *sentence, acts []action) []action {
	var out []action
	head := *s
	for head.Last = acts[0].tok; head.Last > s.First && t.toks[head.Last-1].After == 0; {
		head.Last--
	}
	if t.loose && head.Last == s.First && acts[0].tok-s.First >= 2 {
		head.Last = acts[0].tok
	}
	if head.Len() > 1 && t.verbless(&head) {
		for _, a := range t.fragment(&head, false) {
			if a.base == "cover" || a.base == "turn" || a.base == "take" || !t.loose && (t.norm(a.tok) == "in" || t.norm(a.tok) == "off") && t.toks[a.tok].After != 0 {
				out = append(out, a)
			}
		}
	}
	if orderly[t.norm(s.First)] && len(out) == 0 && t.punctuated {
		for head.Last = s.First + 1; head.Last < acts[0].clause.First && t.toks[head.Last-1].After == 0; head.Last++ {
		}
		if head.Last < acts[0].clause.First && t.verbless(&head) {
			t.orderedFood(&head, t.fragmentEnd(&head), func(tok int, verb string, m mood) { out = append(out, t.bareAction(tok, verb, m)) })
		}
	}
	last := &acts[len(acts)-1]
	if last.mood == negative || last.mood == permitted || s.past {
		return out
	}
	for i := last.tok + 2; i+2 < s.Last; i++ {
		if w := t.norm(i); w != "and" && w != "then" || !t.motionless(last) {
			continue
		}
		j := i + 1
		for j < s.Last && (t.norm(j) == "then" || t.norm(j) == "straight" || t.norm(j) == "back") {
			j++
		}
		if t.norm(j) != "into" && t.norm(j) != "in" {
			continue
		}
		for k := j + 1; k < s.Last && k < j+4; k++ {
			if coldOrHot[t.norm(k)] {
				return append(out, t.bareAction(j, "put", last.mood))
			}
		}
		return out
	}
	return out
}

// coldOrHot are the places in which a dish is left.
var coldOrHot = words("fridge oven freezer refrigerator icebox")

// motionless reports whether the verb tells no movement that a place after it could be
// the end of: "slide it out and into the oven" is one movement.
func (t *talk) motionless(a *action) bool {
	return a.verb.Kind != "move" && a.base != "put" && a.base != "get" && a.base != "take" && a.base != "go"
}

// runsThrough reports whether sentence k stands in a paragraph late in the talk whose
// sentences without a verb name nothing but what went in long before: the recipe
// run through once more, "veg in for twenty minutes, chicken on top".
func (t *talk) runsThrough(k int) bool {
	s := &t.sents[k]
	if s.First < len(t.toks)*6/10 {
		return false
	}
	from, to := k, k+1
	for from > 0 && k-from < paragraphNear && t.sents[from-1].para == s.para {
		from--
	}
	for to < len(t.sents) && to-k < paragraphNear && t.sents[to].para == s.para {
		to++
	}
	known := 0
	for j := from; j < to; j++ {
		o := &t.sents[j]
		named := t.mentionsIn(o.First, o.Last)
		if len(named) == 0 || !t.verbless(o) {
			continue
		}
		for _, m := range named {
			if !t.namedBefore(m, t.sents[from].First) {
				return false
			}
			known++
		}
	}
	return known > 2
}

// forgottenFood gives the action of a late remark that names a food and nothing
// to do, where nothing is told of it after that: "I never mentioned the salt, a
// good pinch". What was named before is not put in once more.
func (t *talk) forgottenFood(s *sentence) (action, bool) {
	named := t.mentionsIn(s.First, s.Last)
	if len(named) == 0 {
		return action{}, false
	}
	cue := t.forgottenCue(s)
	if cue < 0 || t.actionAt[cue] >= 0 {
		return action{}, false
	}
	for _, k := range named {
		m := &t.mentions[k]
		if m.compared || m.mixed || m.food.Dish || m.verb {
			continue
		}
		if m.negated || t.namedBefore(k, s.Last) {
			return action{}, false
		}
		a := t.bareAction(cue, "add", recalled)
		a.named = k + 1
		return a, true
	}
	return action{}, false
}

// bareAction makes the action of a verb that wasn't said, at a token that stands
// for it.
func (t *talk) bareAction(tok int, verb string, m mood) action {
	return action{tok: tok, verb: t.lex.Verbs(verb)[0].Action, base: verb, mood: m, subject: -1, bare: true}
}

// fragmentEnd gives where the work of a sentence ends, and the sign of doneness or
// the reason begins.
func (t *talk) fragmentEnd(s *sentence) int {
	for i := s.First + 1; i < s.Last; i++ {
		if t.in(aDoneWord, i) {
			return i
		}
	}
	return s.Last
}

// verbless reports whether a sentence is short, asks nothing, and has no verb
// with a subject or of its own.
func (t *talk) verbless(s *sentence) bool {
	if s.Len() > fragmentWords || t.toks[s.Last-1].After&language.Question != 0 {
		return false
	}
	for i, end := s.First, t.fragmentEnd(s); i < end; i++ {
		w := t.norm(i)
		if i == s.First && (shapes[w] && (i+1 == s.Last || t.toks[i].After != 0) || inedible[w] && outward[t.norm(i+1)]) {
			continue // "Strips. One centimetre", "bones out"
		}
		if i > s.First && w == "it" && t.joined(i-1) && onward[t.norm(i-1)] {
			continue // "a cloth over it"
		}
		if t.in(aFinite, i) || t.in(aSubject, i) || t.in(anOther, i) || t.in(ofKin, i) || w == "his" || w == "her" || w == "their" {
			return false
		}
		if t.mentionAt[i] >= 0 || t.quantityAt[i] >= 0 || t.toolAt[i] >= 0 || t.madeAt[i] > 0 {
			continue
		}
		for _, f := range t.verbs(i) {
			if f.Form == lexicon.Third || f.Form == lexicon.Base && !f.Action.Noun && !f.Action.Weak {
				return false
			}
		}
	}
	return true
}

// fragment reads the clauses of a sentence without a verb. cooking tells that
// something was done shortly before.
func (t *talk) fragment(s *sentence, cooking bool) []action {
	end := t.fragmentEnd(s)
	var out []action
	add := func(tok int, verb string, m mood) { out = append(out, t.bareAction(tok, verb, m)) }
	for a := s.First; a < end; {
		b := a + 1
		for b < end && t.toks[b-1].After == 0 {
			b++
		}
		t.fragmentClause(a, b, add)
		a = b
	}
	if len(out) == 0 && cooking {
		t.orderedFood(s, end, add)
	}
	return out
}

// fragmentClause reads one clause, tokens [a, b), of a sentence without a verb.
func (t *talk) fragmentClause(a, b int, add func(int, string, mood)) {
	for a < b && (leadAdverbs[t.norm(a)] || t.norm(a) == "straight" || t.norm(a) == "back" || t.norm(a) == "then" && outward[t.norm(a+1)]) {
		a++
	}
	if a >= b {
		return
	}
	w := t.norm(a)
	last := t.norm(b - 1)
	food := t.foodIn(a, b)
	switch {
	case t.toolFirst(a, b, lids) && (last == "on" || last == "over") && b-a <= 4:
		add(b-1, "cover", passive)
	case t.norm(a) == "lid" && b == a+1 && t.sentence(a).Len() == 1:
		add(a, "cover", passive)
	case t.opensFragment(a) && t.cutShape(a, b):
		add(a, "cut", imperative)
	case t.toolFirst(a, b, lids) && t.overIt(a, b) > 0:
		add(t.overIt(a, b), "cover", passive)
	case t.toolFirst(a, b, lids) && last == "off" && b-a <= 4:
		add(b-1, "uncover", passive)
	case t.toolFirst(a, b, firing) && (last == "on" || last == "off" || last == "down" || last == "up") && b-a <= 4:
		add(b-1, "turn", passive)
	case (w == "down" || w == "up") && t.norm(a+1) == "to" && t.dialIn(a+2, min(b, a+5)):
		add(a, "turn", imperative)
	case outward[w] && (t.norm(a+1) == "the" || t.norm(a+1) == "of") && t.hobIn(a, b):
		add(a, "take", imperative)
	case w == "in" && (t.norm(a+1) == "with" || t.norm(a+1) == "the" && food >= 0 && t.mentions[food].First <= a+2), w == "in" && t.norm(a+1) == "go":
		if food >= 0 {
			add(a+1, "add", imperative)
		}
	case t.opensFragment(a) && t.inedibleOut(a, b) > 0:
		add(t.inedibleOut(a, b), "remove", passive)
	case t.portionPlaced(a, b) > 0:
		add(t.portionPlaced(a, b), "put", passive)
	case t.placedFood(a, b) > 0:
		add(a, "put", imperative)
	case (w == "into" || w == "onto" || w == "in" && t.norm(a-1) == "back") && t.toolIn(a, b):
		add(a, "put", imperative)
	case food >= 0 && t.mentions[food].First <= a+4 && !t.mentions[food].negated && !t.mentions[food].compared:
		if i := t.placeAfter(a, b, food); i >= 0 {
			verb := "add"
			if onward[t.norm(i)] || bases[t.norm(i+2)] || t.intoVessel(t.sentence(i), i) {
				verb = "put"
			}
			add(i, verb, passive)
		}
	}
}

// overIt gives the place word of tokens [a, b), a cover and the thing it goes over: "a cloth over
// it", "a plate on top", 0 for anything else.
func (t *talk) overIt(a, b int) int {
	for i := a + 1; i+1 < b && i < a+4; i++ {
		if w := t.norm(i); w != "over" && w != "on" {
			continue
		}
		switch t.norm(b - 1) {
		case "it", "them", "that", "top", "this", "those":
			if b-i <= 3 {
				return i
			}
		}
		return 0
	}
	return 0
}

// inedible are parts that a cook takes out of what is eaten, or off it.
var inedible = words("bone bones stone stones pit pits seed seeds pip pips skin skins core cores stem stems gill gills gut guts string strings shell shells husk husks")

// shapes are what something is cut into.
var shapes = words("cubes slices rings strips wedges matchsticks chunks ribbons halves quarters batons dice rounds discs")

// cutShape reports whether tokens [a, b) only name the shape that what was named last is cut
// into, and how big that is: "Cubes. Two centimetres", "rings, half an inch".
func (t *talk) cutShape(a, b int) bool {
	i := a
	for i+1 < b && (t.modifier(i) != lexicon.NoClass || t.norm(i) == "thin") {
		i++
	}
	if i+1 != b || !shapes[t.norm(i)] {
		return false
	}
	s := t.sentence(a)
	end := s.Last
	if n := int(t.sentOf[a]) + 1; n < len(t.sents) && t.sents[n].Len() <= waitWords {
		end = t.sents[n].Last
	}
	for k := b; k < end; k++ {
		if q := t.quantityAt[k]; q >= 0 {
			return t.quantities[q].kind == length
		}
	}
	return false
}

// opensFragment reports whether a clause at a opens its sentence.
func (t *talk) opensFragment(a int) bool { return t.onlyHeadWords(t.sentence(a).First, a) }

// inedibleOut gives the place word of tokens [a, b) where they tell that what isn't eaten comes
// away: "stones out", "skin off", "the bones out of the trout"; 0 for anything else.
func (t *talk) inedibleOut(a, b int) int {
	i := a
	if t.norm(i) == "the" || t.norm(i) == "all" {
		i++
	}
	if i+1 >= b || !inedible[t.norm(i)] || !outward[t.norm(i+1)] || i+2 < b && t.norm(i+2) != "of" && t.norm(i+2) != "the" && t.norm(i+2) != "with" && t.norm(i+2) != "first" {
		return 0
	}
	if w := t.norm(i); !strings.HasSuffix(w, "s") && t.norm(i+1) == "out" && i+2 < b && t.norm(i+2) != "of" || t.cutAs(i) && t.norm(i+1) != "off" {
		return 0 // "bone out the chicken"
	}
	return i + 1
}

// portions stand for a share of what was just named.
var portions = words("half rest one remainder")

// portionPlaced gives the place word of tokens [a, b) where they tell what a share of something
// is put on: "other half on top", "one half on that, skin down"; 0 for anything else.
func (t *talk) portionPlaced(a, b int) int {
	i := a
	for i < b && i < a+3 && (t.norm(i) == "the" || t.norm(i) == "other" || t.norm(i) == "one" || t.norm(i) == "second" || t.norm(i) == "first") {
		i++
	}
	if i >= b || !portions[t.norm(i)] || t.norm(i) == "one" {
		return 0
	}
	i++
	if i+1 < b && onward[t.norm(i)] && b-i <= 4 && t.placeNamed(i+1, b) {
		return i
	}
	return 0
}

// bases are the parts of a vessel where something can lie.
var bases = words("top bottom base")

// placedFood gives the first food of tokens [a, b) where the place it is put stands before it:
// "at the bottom half of the dill", "on top a few chives"; 0 for anything else.
func (t *talk) placedFood(a, b int) int {
	if w := t.norm(a); w != "at" && w != "on" && w != "in" {
		return 0
	}
	i := a + 1
	if t.norm(i) == "the" || t.norm(i) == "your" {
		i++
	}
	if i+1 >= b || !bases[t.norm(i)] || t.norm(i+1) == "of" {
		return 0
	}
	if m := t.foodIn(i+1, b); m >= 0 && !t.mentions[m].negated && !t.mentions[m].compared && t.mentions[m].First <= i+6 {
		return i + 1
	}
	return 0
}

// placeAfter gives the place word that follows the foods of tokens [a, b), the first
// being mention food: "one onion, chopped, in", "butter and sugar into the pan".
func (t *talk) placeAfter(a, b, food int) int {
	for i := t.mentions[food].Last; i < b; i++ {
		w := t.norm(i)
		if t.mentionAt[i] >= 0 {
			continue
		}
		if inward[w] && (w != "to" || t.norm(i+1) == "the") || onward[w] || w == "at" && bases[t.norm(i+2)] {
			if t.placeNamed(i+1, b) {
				return i
			}
			return -1
		}
		if w != "and" && w != "back" && w != "all" && w != "straight" && w != "the" && w != "your" && w != "some" && w != "a" && t.quantityAt[i] < 0 {
			return -1
		}
	}
	return -1
}

// placeAfterWord may follow a place word as the place.
var placeAfterWord = words("bottom base middle centre center top there here it them that this everything all with and first last now")

// placeNamed reports whether tokens [a, b), after a place word, name a place in
// the kitchen, or nothing.
func (t *talk) placeNamed(a, b int) bool {
	if a >= b || placeAfterWord[t.norm(a)] {
		return true
	}
	for i := a; i < b && i < a+4; i++ {
		if t.toolAt[i] >= 0 || t.mentionAt[i] >= 0 || t.madeAt[i] > 0 || placeAfterWord[t.norm(i)] {
			return true
		}
	}
	return false
}

// toolFirst reports whether tokens [a, b) begin, after an article, with one of
// the words.
func (t *talk) toolFirst(a, b int, names map[string]bool) bool {
	if w := t.norm(a); w == "the" || w == "your" || w == "a" {
		a++
	}
	if w := t.norm(a); a+1 < b && (w == "wet" || w == "damp" || w == "clean") && t.joined(a) {
		a++
	}
	return a < b && names[t.norm(a)]
}

// dialIn reports whether a level of heat is named in tokens [a, b).
func (t *talk) dialIn(a, b int) bool {
	for i := a; i < b; i++ {
		if dials[t.norm(i)] {
			return true
		}
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind == heat {
			return true
		}
	}
	return false
}

// hobIn reports whether a source of heat is named in tokens [a, b).
func (t *talk) hobIn(a, b int) bool {
	for i := a; i < b; i++ {
		if firing[t.norm(i)] || t.toolAt[i] >= 0 && t.tools[t.toolAt[i]].eq.Kind == "heat" {
			return true
		}
	}
	return false
}

// orderedFood reads "then the stock, a litre" and "garlic next, three cloves",
// where the cooking has begun.
func (t *talk) orderedFood(s *sentence, end int, add func(int, string, mood)) {
	a := s.First
	for a < end && (t.norm(a) == "and" || t.norm(a) == "right" || t.norm(a) == "okay" || t.norm(a) == "so") {
		a++
	}
	food := t.foodIn(a, end)
	if food < 0 {
		return
	}
	m := &t.mentions[food]
	if m.food.Dish || m.negated || m.compared || m.mixed || m.First > a+6 {
		return
	}
	switch {
	case orderly[t.norm(a)] && t.norm(a) != "after":
		// "then the chicken" alone may head what is told of it next
		if t.figured(a, s.Last) {
			add(a, "add", imperative)
		}
	case m.Last < end && atTheEnd[t.norm(m.Last)] && (m.Last+1 == end || t.toks[m.Last].After != 0):
		add(m.Last, "add", passive)
	}
}

// figured reports whether any amount or time is said in tokens [a, b).
func (t *talk) figured(a, b int) bool {
	for i := a; i < b; i++ {
		if t.quantityAt[i] >= 0 {
			return true
		}
	}
	return false
}

// nextBare reports whether the words from token end on are those of the next action, also
// said without a verb: "lemon in, zest in".
func (t *talk) nextBare(a *action, end int) bool {
	n := int(t.actionAt[a.tok]) + 1
	return end == a.tok+1 && t.toks[a.tok].After != 0 && n < len(t.actions) && t.actions[n].bare && t.sentOf[t.actions[n].tok] == t.sentOf[a.tok]
}

// bareObject writes what is put somewhere where the place was said before it, and what is
// taken out.
func (t *talk) bareObject(a *action) string {
	s := t.sentence(a.tok)
	end := a.tok + 1
	for end < s.Last && t.toks[end-1].After == 0 {
		end++
	}
	if a.base == "cut" {
		return "cut in " + t.edit(a.tok, end).tidy().text()
	}
	if a.base == "remove" {
		from := a.tok - 1
		w := "remove the " + t.norm(from)
		if t.norm(a.tok+1) == "of" || t.norm(a.tok+1) == "the" {
			w += " " + t.edit(a.tok, end).tidy().text()
		}
		return strings.Replace(w, " out of ", " from ", 1)
	}
	if a.base != "put" {
		return ""
	}
	first := t.placedFood(a.tok, end)
	if first == 0 {
		return ""
	}
	return "put " + t.edit(first, end).tidy().text() + " " + t.edit(a.tok, first).tidy().text()
}

// bareText writes an action that was said without a verb: the verb it stands for,
// then the words said, from the first of its clause.
func (t *talk) bareText(a *action, sp language.Span) string {
	if a.base == "uncover" || a.base == "cover" && t.norm(a.tok-1) == "lid" {
		return a.base
	}
	if a.base == "heat" {
		return t.heatingText(a)
	}
	if w := t.bareObject(a); w != "" {
		return w
	}
	if a.base == "cover" {
		first := a.tok
		for first > sp.First && t.toks[first-1].After == 0 {
			first--
		}
		for first < a.tok && (leadAdverbs[t.norm(first)] || orderly[t.norm(first)]) {
			first++
		}
		if w := t.edit(first, a.tok).tidy().text(); w != "" {
			return "cover with " + w // "foil on", "a damp cloth over"
		}
		return a.base
	}
	if a.named > 0 {
		m := &t.mentions[a.named-1]
		first := m.First
		for _, q := range m.amounts {
			if x := &t.quantities[q]; x.First < first && x.First >= sp.First {
				first = x.First
			}
		}
		return a.base + " " + t.edit(first, m.Last).tidy().text()
	}
	from, end := a.tok, a.tok+1
	for from > sp.First && t.toks[from-1].After&^language.Comma == 0 && t.actionAt[from-1] < 0 {
		from--
	}
	for end < sp.Last && t.toks[end-1].After&^language.Comma == 0 && !t.nextBare(a, end) {
		end++
	}
	if end-2 > a.tok && t.norm(end-2) == "and" && (t.norm(end-1) == "done" || t.norm(end-1) == "ready") {
		end -= 2
	}
	for from < end && (leadAdverbs[t.norm(from)] && t.norm(from) != "half" || orderly[t.norm(from)] || fillers[t.norm(from)]) {
		from++
	}
	if a.base == "add" && t.norm(from) == "in" && t.norm(from+1) == "with" {
		from += 2
	}
	if a.base == "add" && end == a.tok+1 {
		end-- // "onions in", "garlic next"
	}
	out := []string{a.base}
	if t.toolAt[from] >= 0 || firing[t.norm(from)] {
		out = append(out, "the")
	}
	e := t.edit(from, end)
	if i := a.tok; i >= from && i < end && (atTheEnd[t.norm(i)] || t.norm(i) == "in" && t.toks[i].After != 0 && t.norm(i-1) != "back") {
		e.drop(i, i+1) // the mark behind it goes to the word before
		if i > from && i+1 < end && t.toks[i].After != 0 && t.toks[i-1].After == 0 {
			e.put[i-1] = t.wordText(i-1, false) + ","
		}
	}
	if w := e.tidy().text(); w != "" {
		out = append(out, w)
	}
	return strings.Trim(strings.Join(out, " "), " ,;:.–—-")
}

// vessels are the kinds of equipment in which something begins.
var vessels = words("pan bowl oven-dish tin appliance heat")

// newVessel are words before a vessel that comes in only now.
var newVessel = words("a an another big large small wide deep heavy clean separate second")

// setsScene reports whether a sentence without an action names a vessel in which
// the next step is done: "then a small pan on a low heat", "in a big bowl".
func (t *talk) setsScene(s *sentence) bool {
	if s.kind == aside || s.past {
		return false
	}
	for i := s.First; i < s.Last && i < s.First+8; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind == duration {
			return false
		}
		k := t.toolAt[i]
		if k < 0 || !vessels[t.tools[k].eq.Kind] {
			continue
		}
		first := t.tools[k].First
		return newVessel[t.norm(first)] || newVessel[t.norm(first-1)] || first > s.First && t.norm(first-1) == "your" && orderly[t.norm(s.First)]
	}
	return false
}
