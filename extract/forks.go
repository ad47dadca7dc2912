package extract

import (
	"slices"
	"sort"
	"strings"

	"quern/internal/lexicon"
)

// A fork is where a dish goes one of several ways. Its sides are told under heads:
// "if it's fresh, …", "oven people:", "for the meat version, …", "Gulnara's road.",
// "in the microwave, …", "the loaf takes an hour". What makes two heads the sides of
// one fork is that they are of one class and can't both hold: nobody has the rolls and
// the loaf of one dough. Heads that leave the cook no doubt do so by themselves; the
// others need words that speak of both ways, or an announcement.

// forkForm is how a head is worded.
type forkForm uint8

const (
	joinForm  forkForm = iota // "rolls are up in thirty": tells on, never opens a fork
	hintForm                  // "for the loaf, …", "same mix, in moulds": only where the two were announced
	weakForm                  // "on the hob, …", "steamed first."
	plainForm                 // "if it's the oven, …", "the quick way is …": leaves no doubt
)

// The classes that only heads have, after those of labels.
const (
	ownerClass  = wayClass(wayClasses) + iota // Gulnara's, mine
	eaterClass                                // the children's
	withClass                                 // with yeast, without
	phraseClass                               // whatever was announced: "as a slab", "if you're doing pieces"
	saidClass                                 // any word before a word for a way: "proper way", "the long one"
	forkClasses = int(wayClasses) + 5
)

// forkHead is a head that may open a side of a fork.
type forkHead struct {
	tok    int // where the side begins
	end    int // past the name
	form   forkForm
	labels [forkClasses]wayLabel
	food   bool // its name is a food that joins only the way it was named for
	kit    bool // it only tells what somebody owns: "if you've got a wok"
	alone  bool // a name with nothing before it, and a mark after it: "Air fryer."
}

const (
	forkMost  = 60 // heads a talk may have
	forkReach = 14 // heads tried as the first of a fork
)

// forks gives the turns of the ways told under heads, nil for none.
func (t *talk) forks(choices []choice) []wayTurn {
	heads := t.withFirstTold(t.forkHeads(choices), choices)
	if len(heads) < 2 || len(heads) > forkMost {
		return nil
	}
	both := t.bothTold()
	var best []wayTurn
	most := 0
	for n := range heads[:min(len(heads), forkReach)] {
		for c := forkClasses - 1; c >= 0; c-- {
			if heads[n].labels[c].name == "" || heads[n].form == joinForm {
				continue
			}
			if turns, score := t.forked(heads, n, wayClass(c), &both, choices); score > most {
				best, most = turns, score
			}
		}
	}
	return best
}

// withFirstTold adds a head where the first side of a choice is told without one, before the heads of the
// other: "into the tin, and bake it forty minutes", where moulds were announced as well.
func (t *talk) withFirstTold(heads []forkHead, choices []choice) []forkHead {
	for n := range choices {
		c := &choices[n]
		a, b := &c.options[0].labels[placeClass], &c.options[1].labels[placeClass]
		other := -1
		for k := range heads {
			if l := &heads[k].labels[placeClass]; l.name != "" && sameLabel(l, a) {
				other = -1
				break
			} else if l.name != "" && other < 0 && sameLabel(l, b) && heads[k].tok >= c.last {
				other = k
			}
		}
		if other < 0 {
			continue
		}
		if first, ok := t.toldFirst(c, heads[other].tok); ok {
			h := forkHead{tok: first.tok, end: first.tok + 1, form: hintForm}
			h.labels[placeClass] = *a
			at := sort.Search(len(heads), func(k int) bool { return heads[k].tok > h.tok })
			return slices.Insert(heads, at, h)
		}
	}
	return heads
}

// bothSaid is where the cook counts the ways, and where he speaks of all of them at once: sentences.
type bothSaid struct{ counted, both []int }

// bothTold finds the sentences that count the ways, and those that speak of all of them at once.
func (t *talk) bothTold() bothSaid {
	var out bothSaid
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing || s.kind == figures || s.other {
			continue
		}
		if t.hasAny(s.First, s.Last, choiceCue) >= 0 || t.countedWays(s) {
			out.counted = append(out.counted, k)
		}
		if t.namesBoth(s) || t.bothSubject(s) || t.saysBoth(s) || t.hasAny(s.First, s.Last, inBothWay) >= 0 {
			out.both = append(out.both, k)
		}
	}
	return out
}

// of reports whether heads that leave a doubt, from sentence first to sentence last, are told of as ways: they were
// counted before, or spoken of together after the first of them.
func (x *bothSaid) of(first, last int) bool {
	for _, k := range x.counted {
		if k <= last+bothReach {
			return true
		}
	}
	for _, k := range x.both {
		if k >= first && k <= last+bothReach {
			return true
		}
	}
	return false
}

// namesBoth reports whether the sentence begins with two ways and speaks of both: "hot or cold, you
// …", "with or without, …".
func (t *talk) namesBoth(s *sentence) bool {
	i := s.First
	for i < s.Last && headWords[t.norm(i)] {
		i++
	}
	if i+3 >= s.Last {
		return false
	}
	if t.norm(i) == "with" && t.norm(i+1) == "or" && t.norm(i+2) == "without" {
		return t.toks[i+2].After != 0 || youWe[t.norm(i+3)]
	}
	a, _, n := t.labelAt(i)
	if n == 0 || a == foodClass || a == productClass || t.norm(i+n) != "or" || t.toks[i+n-1].After != 0 {
		return false
	}
	k := i + n + 1
	b, _, m := t.labelAt(k)
	return m > 0 && a == b && k+m < s.Last && (t.toks[k+m-1].After != 0 || youWe[t.norm(k+m)])
}

// countedWays reports whether the sentence counts ways in so many words: "there are two
// manners". Kinds of a food are none.
func (t *talk) countedWays(s *sentence) bool {
	for i := s.First; i < s.Last; i++ {
		if !wayCounts[t.norm(i)] {
			continue
		}
		for k := i + 1; k < min(s.Last, i+4) && t.toks[k-1].After == 0; k++ {
			if w := t.norm(k); wayPlurals[w] && plural(w) && w != "kinds" && w != "sorts" && w != "types" && w != "styles" && t.norm(k+1) != "of" {
				return true
			}
		}
	}
	return false
}

// afterBoth are words after a "both" that is everything made, not two of a food.
var afterBoth = words("want wants get gets need needs are go goes keep keeps take have will should of kinds versions lots ways sorts roads parties camps sides batches times methods at then like end freeze")

// bothSubject reports whether "both" is what the sentence speaks of: "both want an hour",
// "for both". The two sides of a steak are turned, not told.
func (t *talk) bothSubject(s *sentence) bool {
	i := s.First
	for i < s.Last && i < s.First+5 && (headWords[t.norm(i)] || t.norm(i) == "for" || t.norm(i) == "with") {
		i++
	}
	if i >= s.Last || t.norm(i) != "both" {
		return false
	}
	if t.norm(i-1) == "for" && t.toks[i].After != 0 {
		return true
	}
	return afterBoth[t.norm(i+1)] && t.norm(i+1) != "sides" || t.norm(i+1) == "sides" && t.norm(i-1) == "for"
}

// forkSide is a side of a fork: all it is called by, how plainly its heads part it from the
// others, and how many they are.
type forkSide struct {
	name   string
	labels []wayLabel
	form   forkForm
	heads  int
	works  work // what is done under its heads
	kit    bool // its heads only tell what somebody owns
}

// called reports whether the side is called by the label.
func (x *forkSide) called(l *wayLabel) bool {
	for i := range x.labels {
		if sameLabel(&x.labels[i], l) {
			return true
		}
	}
	return false
}

// call adds a label to those the side is called by.
func (x *forkSide) call(l wayLabel) {
	if l.name != "" && !x.called(&l) {
		x.labels = append(x.labels, l)
	}
}

// forked gives the turns of the fork of a class that begins with head n, and what speaks for
// it; 0 where it is none.
func (t *talk) forked(heads []forkHead, n int, class wayClass, both *bothSaid, choices []choice) ([]wayTurn, int) {
	sides := t.forkSides(heads, n, class)
	announced := announcedFork(choices, class, sides)
	sides = announcedSides(choices, class, sides, announced)
	if len(sides) < 2 || len(sides) > 3 {
		return nil, 0
	}
	score, mine, weak, hint, in := 0, false, false, false, 0
	kits, owned := true, false // nothing but what somebody owns parts them
	most, least := untold, worked
	for i := range sides {
		x := &sides[i]
		weak = weak || x.form == weakForm && !x.kit
		kits = kits && x.form == weakForm && x.kit
		owned = owned || x.form == weakForm && x.kit
		hint = hint || x.form == hintForm
		most, least = max(most, x.works), min(least, x.works)
		score += 2*int(x.form) + min(x.heads, 3)
		mine = mine || x.labels[0].keys[0] == "i"
		if strings.HasPrefix(x.name, "in ") {
			in++
		}
	}
	weak = weak || kits || class != placeClass && owned
	if announced {
		score += 2
	}
	counted := both.of(int(t.sentOf[heads[n].tok]), int(t.sentOf[heads[len(heads)-1].tok]))
	switch {
	case class == foodClass && !counted && !announced && least < worked:
		return nil, 0 // rump takes a minute more
	case most == untold && (class == foodClass || class == stateClass || class == phraseClass):
		return nil, 0
	case class == withClass && (len(sides) > 2 || !counted && !t.withOrWithout()):
		return nil, 0
	case class == phraseClass && !t.namedTogether(heads[n].tok, sides):
		return nil, 0
	case in > 0 && (in < len(sides) || !counted && !announced):
		return nil, 0
	case hint && !announced:
		return nil, 0
	case weak && class != phraseClass && class != withClass && !announced && !t.standApart(heads[n:], class, sides) && (!counted || (class == foodClass || class == productClass) && in == 0):
		return nil, 0
	case class == ownerClass && !mine && len(both.counted)+len(both.both) == 0:
		return nil, 0 // two other people's habits
	}
	t.nameSides(heads[n:], sides, class, choices)
	heads = heads[n:]
	if class == foodClass && in == 0 {
		heads = t.withOwnFoods(heads, sides)
	}
	return t.forkTurns(heads, sides), score
}

// namedTogether reports whether the sides were put beside one another with "or" before token i.
func (t *talk) namedTogether(i int, sides []forkSide) bool {
	for k := range t.sents {
		s := &t.sents[k]
		if s.First >= i {
			break
		}
		or := t.has(s.First, s.Last, "or")
		if or < 0 {
			continue
		}
		seen := 0
		for n := range sides {
			keys := sides[n].labels[0].keys
			for x := s.First; x < s.Last && x < i; x++ {
				if stem(t.norm(x)) == keys[len(keys)-1] {
					seen++
					break
				}
			}
		}
		if seen == len(sides) {
			return true
		}
	}
	return false
}

// standApart reports whether the sides are places that no dish goes through one after the other, each
// headed by its bare name and told by a time of its own: "Air fryer. One ninety, twelve minutes." beside
// "Oven. Two ten, twenty minutes."
func (t *talk) standApart(heads []forkHead, class wayClass, sides []forkSide) bool {
	if class != placeClass {
		return false
	}
	told, apart := map[int]bool{}, false
	for k := range heads {
		h := &heads[k]
		i := sideOf(sides, &h.labels[class])
		if i < 0 || !h.alone || !t.timedIn(h.end, t.sentenceBeside(t.sentence(h.tok))) {
			continue
		}
		told[i] = true
		apart = apart || soloPlaces[h.labels[class].name]
		if n := h.labels[class].name; !soloPlaces[n] && !ovenLike[n] {
			return false // browned on the stove, and on to the slow cooker
		}
	}
	return apart && len(told) == len(sides)
}

// withOrWithout reports whether the cook offers the dish with a thing or without it: "with yeast or without
// yeast", "with or without yeast".
func (t *talk) withOrWithout() bool {
	for k := range t.sents {
		s := &t.sents[k]
		if o := t.has(s.First, s.Last, "or without"); o >= 0 && t.mayTellWays(s) {
			if w := t.has(max(s.First, o-5), o, "with"); w >= 0 {
				return true
			}
		}
	}
	return false
}

// soloPlaces cook a dish from beginning to end, ovenLike are places that do the same work.
var (
	soloPlaces = map[string]bool{"air fryer": true, "airfryer": true, "slow cooker": true, "pressure cooker": true, "instant pot": true}
	ovenLike   = words("oven grill barbecue broiler microwave")
)

// bothReach is how many sentences after the last head words for both ways still speak of
// what was told under heads that leave a doubt.
const bothReach = 8

// forkSides gathers the sides that heads of one class open, from head n on.
func (t *talk) forkSides(heads []forkHead, n int, class wayClass) []forkSide {
	first := &heads[n].labels[class]
	var sides []forkSide
	for k := n; k < len(heads); k++ {
		h := &heads[k]
		l := &h.labels[class]
		if l.name == "" || h.food {
			continue
		}
		known := false
		for i := range sides {
			if x := &sides[i]; x.called(l) {
				x.heads++
				x.kit = x.kit && h.kit
				x.form = max(x.form, h.form)
				x.works = max(x.works, t.worksBelow(h))
				known = true
			}
		}
		if known || h.form == joinForm || class == stateClass && len(sides) > 0 && !opposed(first, l) && h.form != plainForm {
			continue
		}
		sides = append(sides, forkSide{name: l.name, labels: []wayLabel{*l}, form: h.form, heads: 1, works: t.worksBelow(h), kit: h.kit})
	}
	return sides
}

// work is how much is told under a head.
type work uint8

const (
	untold work = iota
	timed       // a time
	worked      // something to do
)

// worksBelow tells what is done in the sentence of the head or the one after it: one food in
// another's place, with nothing done otherwise, is a substitute.
func (t *talk) worksBelow(h *forkHead) work {
	s := t.sentence(h.tok)
	for i := h.end; i < t.sentenceBeside(s); i++ {
		if t.actionAt[i] >= 0 && (i < s.Last || i-s.Last < 4 && t.counted(h.end, s.Last)) {
			return worked
		}
	}
	if t.timedIn(h.end, s.Last) {
		return timed
	}
	return untold
}

// counted reports whether a figure stands in tokens [a, b): "it's enough" is none.
func (t *talk) counted(a, b int) bool {
	for i := a; i < b; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind != vague {
			return true
		}
	}
	return false
}

// nameSides gives the sides the other names they go by: those of their heads in another
// class, those that were announced, and for an owner's way what he was said to do.
func (t *talk) nameSides(heads []forkHead, sides []forkSide, class wayClass, choices []choice) {
	food := ""
	for k := range heads {
		h := &heads[k]
		if i := sideOf(sides, &h.labels[class]); i >= 0 && !h.food {
			if f, ok := strings.CutPrefix(h.labels[foodClass].name, sides[i].name+" "); ok && class == stateClass {
				food = f
			}
			for c := range h.labels {
				if wayClass(c) != stateClass || class == stateClass {
					sides[i].call(h.labels[c])
				}
			}
			t.callFoods(h, &sides[i])
		}
	}
	for i := range sides { // "fresh" beside "tinned rhubarb"
		if food != "" && keptStates[sides[i].name] {
			sides[i].name += " " + food
		}
	}
	if len(sides) != 2 {
		return
	}
	if class == ownerClass && t.ownedWork(heads[0].tok, sides) {
		return
	}
	for n := range choices {
		c := &choices[n]
		if class == ownerClass {
			if t.ownedChoice(c, sides) {
				return
			}
			continue
		}
		if int(class) >= wayClasses || c.options[0].labels[class].name == "" {
			continue // announcements have no label of that class
		}
		i, j := sideOf(sides, &c.options[0].labels[class]), sideOf(sides, &c.options[1].labels[class])
		if i >= 0 && j >= 0 && i != j {
			for k := range c.options[0].labels {
				sides[i].call(c.options[0].labels[k])
				sides[j].call(c.options[1].labels[k])
			}
			return
		}
	}
}

// sideOf gives the one side that the label calls, -1 for none or several.
func sideOf(sides []forkSide, l *wayLabel) int {
	n := -1
	for i := range sides {
		if l.name != "" && sides[i].called(l) {
			if n >= 0 {
				return -1
			}
			n = i
		}
	}
	return n
}

// callFoods calls a side by the foods measured under its head, where they were never named
// before: "for the vegetable people, one cauliflower".
func (t *talk) callFoods(h *forkHead, x *forkSide) {
	s := t.sentence(h.tok)
	for _, m := range t.mentionsIn(h.end, s.Last) {
		y := &t.mentions[m]
		if kind := y.food.Kind; kind != "vegetable" && kind != "fruit" && !mains[kind] {
			continue
		}
		l := t.phraseLabel(y.head.First, y.head.Last)
		if len(l.keys) > 0 && !t.workedBefore(y.food, h.tok) {
			x.call(l)
		}
	}
}

// workedBefore reports whether the food was measured or worked on before token i.
func (t *talk) workedBefore(f *lexicon.Food, i int) bool {
	for k := range t.mentions {
		m := &t.mentions[k]
		if m.First >= i {
			break
		}
		if m.food == f && (len(m.amounts) > 0 || t.sentence(m.First).kind == instruction) {
			return true
		}
	}
	return false
}

// ownedChoice names the ways of owners by what each was said to do where the choice was
// announced: "she boils hers, I fry mine".
func (t *talk) ownedChoice(c *choice, sides []forkSide) bool {
	mine := 0
	if sides[1].labels[0].keys[0] == "i" {
		mine = 1
	}
	for class := range c.options[0].labels {
		if c.options[0].labels[class].name == "" {
			continue
		}
		for i := c.first; i < c.last; i++ {
			cl, l, n := t.labelAt(i)
			if n == 0 || int(cl) != class {
				continue
			}
			o := -1
			for k := range c.options {
				if sameLabel(&c.options[k].labels[class], &l) {
					o = k
				}
			}
			who := t.doer(max(c.first, i-4), i)
			if o < 0 || who == 0 {
				continue
			}
			if who == 1 {
				o = 1 - o
			}
			for k := range c.options { // o is now the other's option
				x := &sides[1-mine]
				if k != o {
					x = &sides[mine]
				}
				x.name = c.options[k].labels[class].name
				for j := range c.options[k].labels {
					x.call(c.options[k].labels[j])
				}
			}
			return true
		}
	}
	return false
}

// ownedWork names the ways of owners by the work that each was said to do before token i: "my
// flatmate boils hers and I roast mine".
func (t *talk) ownedWork(i int, sides []forkSide) bool {
	var by [3]wayLabel
	for k := 0; k < i; k++ {
		for _, f := range t.verbs(k) {
			if f.Action.Kind != "heat" && f.Action.Verb != "do" && f.Action.Verb != "make" || f.Form == lexicon.Past && !youWe[t.norm(k-1)] {
				continue
			}
			switch t.norm(k + 1) {
			case "mine", "hers", "his", "theirs":
				who := t.doer(max(0, k-3), k)
				if by[who].name == "" {
					by[who] = t.doneHow(f.Action, k+2)
				}
			}
		}
	}
	if by[1].name == "" || by[2].name == "" || by[1].name == by[2].name {
		return false
	}
	for n := range sides {
		l := by[2]
		if sides[n].labels[0].keys[0] == "i" {
			l = by[1]
		}
		sides[n].name = l.name
		sides[n].call(l)
	}
	return true
}

// doneHow names the work somebody does, by the place it is done in where the verb says nothing: "I do mine in
// the pan".
func (t *talk) doneHow(a *lexicon.Action, k int) wayLabel {
	if !generalWork[a.Verb] {
		return workLabel(a)
	}
	for e := k; e < k+5 && e < len(t.toks); e++ {
		if class, l, n := t.labelAt(e); n > 0 && class == placeClass {
			return l
		}
		if t.toks[e].After != 0 {
			break
		}
	}
	return wayLabel{}
}

// doer tells who does what is said after tokens [a, b): 1 the cook, 2 another one, 0 nobody
// named.
func (t *talk) doer(a, b int) int {
	for i := b - 1; i >= a; i-- {
		switch w := t.norm(i); {
		case w == "i" || w == "we" || w == "mine" || w == "my" && !kin[t.norm(i+1)]:
			return 1
		case w == "she" || w == "he" || w == "they" || w == "hers" || w == "his" || kin[w]:
			return 2
		case t.toks[i].After.Ends():
			return 0
		}
	}
	return 0
}

// withOwnFoods adds heads for the sentences that work on what one side alone is made of, before
// its first head: "eight hundred grams of chicken thighs", where the other one is of vegetables.
func (t *talk) withOwnFoods(heads []forkHead, sides []forkSide) []forkHead {
	var out []forkHead
	for k := range t.sents {
		s := &t.sents[k]
		if s.First >= heads[0].tok {
			break
		}
		if s.kind != instruction && s.kind != listing || s.past {
			continue
		}
		side := -1
		var at wayLabel
		for _, m := range t.mentionsIn(s.First, s.Last) {
			x := &t.mentions[m]
			if !mains[x.food.Kind] || len(x.amounts) == 0 {
				continue
			}
			for i := range sides {
				if contains(t.stems(x.First, x.Last), sides[i].labels[0].keys[0]) {
					side, at = i, sides[i].labels[0]
				}
			}
		}
		if side >= 0 {
			h := forkHead{tok: s.First, end: s.First + 1}
			h.labels[foodClass] = at
			out = append(out, h)
		}
	}
	return append(out, heads...)
}

// forkTurns gives a turn for every head of a side.
func (t *talk) forkTurns(heads []forkHead, sides []forkSide) []wayTurn {
	var out []wayTurn
	for k := range heads {
		h := &heads[k]
		i := -1
		for c := forkClasses - 1; c >= 0 && i < 0; c-- {
			i = sideOf(sides, &h.labels[c])
		}
		if i < 0 || h.form == weakForm && sides[i].form == plainForm && h.tok != t.sentence(h.tok).First {
			continue
		}
		out = append(out, wayTurn{tok: h.tok, key: string(rune('0' + i)), name: sides[i].name, loose: h.form != weakForm, brief: h.form == joinForm})
	}
	return out
}

// announcedFork reports whether the sides of a fork were announced as a choice.
func announcedFork(choices []choice, class wayClass, sides []forkSide) bool {
	if int(class) >= int(wayClasses) {
		return false
	}
	for n := range choices {
		x, y := &choices[n].options[0].labels[class], &choices[n].options[1].labels[class]
		if i, j := sideOf(sides, x), sideOf(sides, y); i >= 0 && j >= 0 && i != j {
			return true
		}
	}
	return false
}

// announcedSides leaves out the sides that a doubt remains about and that no choice announced: "in a saucepan,
// …", where a tin and moulds were.
func announcedSides(choices []choice, class wayClass, sides []forkSide, announced bool) []forkSide {
	return slices.DeleteFunc(slices.Clone(sides), func(x forkSide) bool {
		if x.form == plainForm || x.form == weakForm && !announced {
			return false
		}
		for n := range choices {
			if int(class) >= wayClasses {
				break
			}
			for k := range choices[n].options {
				if l := &choices[n].options[k].labels[class]; l.name != "" && x.called(l) {
					return false
				}
			}
		}
		return true
	})
}

// sameLabel reports whether two labels name one thing: they share the word they end in.
func sameLabel(a, b *wayLabel) bool {
	if len(a.keys) == 0 || len(b.keys) == 0 {
		return false
	}
	x, y := a.keys[len(a.keys)-1], b.keys[len(b.keys)-1]
	return x == y || contains(wayKin[x], y) || contains(a.keys, y) && len(b.keys) == 1 || contains(b.keys, x) && len(a.keys) == 1
}
