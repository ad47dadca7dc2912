package extract

import (
	"sort"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// heading is a place where the talk names a thing that is made by itself: before
// it is made ("for the dressing", "crema.") or when it is done ("that's your
// filling").
type heading struct {
	tok    int           // where what is told of it begins, or where it ends
	span   language.Span // its name
	sort   nameSort
	closes bool
	part   string // its name, where the words only tell its purpose
}

// nameSort is what a name of something made stands for.
type nameSort uint8

const (
	noName      nameSort = iota
	foodName             // a food: made by itself where others go in
	strangeName          // a word of no table that the talk comes back to
	thingName            // a dish, or a word for what is made in kitchens
)

// lead is how plainly the words before a name turn to it.
type lead uint8

const (
	bareLead   lead = iota // an article at most
	turnedLead             // a word of turning: "now the sauce"
	firmLead               // words that lead to nothing else: "for the sauce", "on to the sauce"
)

// markHeadings cuts the talk where things are named that are made by themselves,
// whatever they are called, and keeps that where it finds more of them than the
// passes before did.
func (t *talk) markHeadings() {
	if len(t.dishes) > 1 {
		return
	}
	hs := t.withHeads(t.headings())
	from := t.preface()
	if from > 0 && t.headedBefore(hs, t.sents[from].First) {
		from = 0 // what is read out under its headings is put into them
	}
	fresh := t.freshFoodsFrom(from)
	list, firm := t.headed(fresh, hs)
	if len(list) < 2 || len(list) > mostMakings || firm == 0 {
		return
	}
	before := t.partsScore()
	parts, partNames, restName, restMade, bare := t.parts, t.partNames, t.restName, t.restMade, t.bareNames
	t.parts, t.partNames, t.partReach, t.partHeads, t.restName, t.restMade, t.bareNames = nil, nil, nil, nil, "", "", true
	oneNameEach(list)
	names := t.namings()
	t.keptMakings(list, names)
	t.madeMakings(list, names)
	for j := range list {
		if l := &list[j]; l.name == "" && l.topic >= 0 {
			l.name = t.partName(l.said.First, l.said.Last)
		}
	}
	t.foodMakings(list, names)
	t.openMakings(list, names)
	t.partReach = nil
	if t.partsScore() <= before {
		t.parts, t.partNames, t.partReach, t.partHeads, t.restName, t.restMade, t.bareNames = parts, partNames, nil, nil, restName, restMade, bare
	}
}

// oneNameEach gives makings that are called more and less fully the fuller name:
// "the oil", "the hot oil".
func oneNameEach(list []making) {
	for i := range list {
		for j := range list {
			if a, b := list[i].name, list[j].name; a != "" && strings.HasSuffix(b, " "+a) {
				list[i].name = b
			}
		}
	}
}

// partsScore tells how well the parts of the talk tell its foods apart: a part that
// has a name of its own counts more than one that is called by a food, and that more
// than what has no name.
func (t *talk) partsScore() int {
	found := make([]bool, len(t.partNames))
	for m := range t.mentions {
		x := &t.mentions[m]
		if p := t.partOf(x.First); p >= 0 && !x.negated && !x.mixed && t.measuredHere(x) {
			found[p] = true
		}
	}
	score := t.partsFound()
	for p, name := range t.partNames {
		if found[p] {
			f, ok := t.lex.FoodNamed(name)
			score += 1 + b2n(!ok || f.Dish || f.Made || t.lex.Component[name] != nil, 2)
		}
	}
	return score
}

// headed gives the makings under the headings of the talk, and how many of them
// are named by more than a food.
func (t *talk) headed(fresh [][]int, hs []heading) ([]making, int) {
	var foods []int
	for k := range fresh {
		foods = append(foods, fresh[k]...)
	}
	sort.Ints(foods)
	if len(foods) < 2 {
		return nil, 0
	}
	hs = t.withTurns(fresh, hs)
	list := []making{{begun: byTime, head: -1, topic: -1}}
	firm := 0
	closed := false // what was made last is done
	take := func(end int) { foods = t.takeFoods(&list[len(list)-1], foods, end) }
	for n := range hs {
		h := &hs[n]
		take(h.tok)
		l := &list[len(list)-1]
		m := making{from: h.tok, begun: byRest, head: -1, topic: -1, firm: h.sort == thingName}
		switch {
		case h.sort == noName: // a turn that nothing names
			main := t.mainKind(firstFood(foods))
			if !t.fills(l) {
				continue
			}
			if !closed && !main {
				m.begun = byFood // it goes on with the one before, unless it gets a name
			}
		case h.closes:
			if l.begun != byAnnounc && t.canHold(l, h) {
				l.name, l.said, l.firm, l.begun = t.headingName(h), h.span, true, byAnnounc
				firm++
			}
			closed = true
			continue
		case !t.headsFoods(hs, n, foods):
			continue
		default:
			m.begun, m.said = byAnnounc, h.span
			if m.topic = int(t.mentionAt[h.span.Last-1]); h.sort != foodName || m.topic < 0 {
				m.topic, m.name = -1, t.headingName(h)
			}
			firm += b2n(h.sort == thingName, 1)
		}
		closed = false
		if !t.fills(l) && l.begun != byAnnounc {
			*l = m
			continue
		}
		list = append(list, m)
	}
	take(len(t.toks))
	return list, firm
}

// headedBefore reports whether two things, by more than a food, are headed before token end.
func (t *talk) headedBefore(hs []heading, end int) bool {
	n := 0
	for k := range hs {
		n += b2n(!hs[k].closes && hs[k].sort == thingName && hs[k].tok < end, 1)
	}
	return n > 1
}

// firstFood gives the mention of the next food to go in, -1 for none.
func firstFood(foods []int) int {
	if len(foods) > 0 {
		return foods[0]
	}
	return -1
}

// headingName gives the name of the part that the heading names.
func (t *talk) headingName(h *heading) string {
	if h.part != "" {
		return h.part
	}
	return t.partName(h.span.First, h.span.Last)
}

// canHold reports whether what was told before a thing is named as done can be
// that thing.
func (t *talk) canHold(l *making, h *heading) bool {
	if len(l.foods) == 0 || len(t.mentionsIn(l.from, h.span.First)) < 2 {
		return false
	}
	c := t.lex.Component[lexicon.Singular(t.norm(h.span.Last-1))]
	if h.part != "" || c == nil {
		return true
	}
	return t.rankBefore(c, t.mentionsIn(l.from, h.span.First), h.span.First) < len(c.From)
}

// headsFoods reports whether enough foods go in under heading n before the next one.
func (t *talk) headsFoods(hs []heading, n int, foods []int) bool {
	h := &hs[n]
	end := len(t.toks)
	for _, o := range hs[n+1:] {
		if o.sort != noName && !o.closes {
			end = o.tok
			break
		}
	}
	count, own := 0, t.mentionAt[h.span.Last-1]
	for _, m := range foods {
		x := &t.mentions[m]
		if x.First >= end {
			break
		}
		if x.First < h.span.Last || h.sort == foodName && own >= 0 && related(x.food, t.mentions[own].food) > 0 {
			continue
		}
		count++
	}
	if h.sort == thingName {
		return count > 0
	}
	return count > 1
}

// withHeads adds the parts that were announced in other words to the headings.
func (t *talk) withHeads(hs []heading) []heading {
	at := map[int]bool{}
	for n := range hs {
		at[hs[n].span.Last] = true
	}
	for _, p := range t.heads {
		if p.name >= 0 && !at[p.span.Last] && !t.namesWhole(p.tok, p.span) {
			sort := thingName
			if m := t.mentionAt[p.span.Last-1]; m >= 0 && !t.strangeTo(int(m)) && t.lex.Component[t.norm(p.span.Last-1)] == nil {
				sort = foodName
			}
			hs = append(hs, heading{tok: p.tok, span: p.span, sort: sort})
		}
	}
	sort.SliceStable(hs, func(i, j int) bool { return hs[i].tok < hs[j].tok })
	return hs
}

// namesWhole reports whether the name at the talk's beginning is that of the whole dish: "beef
// stew, one pot."
func (t *talk) namesWhole(tok int, name language.Span) bool {
	return int(t.sentOf[tok]) <= len(t.sents)/8 && t.wholeTitle(t.norm(name.Last-1))
}

// withTurns adds to the headings the places where the talk turns to something
// else without a name.
func (t *talk) withTurns(fresh [][]int, hs []heading) []heading {
	left := false
	for k := range t.sents {
		s := &t.sents[k]
		if t.worked(s) {
			b, ok := t.turnAt(k, fresh, left)
			if (ok && b >= byRest || t.turnedFood(s)) && t.soonFresh(fresh, k) {
				hs = append(hs, heading{tok: s.First})
				left = false
			}
		}
		if len(fresh[k]) > 0 {
			left = false
		}
		left = left || t.worked(s) && t.leaves(s)
	}
	for n := range hs {
		if h := hs[n]; h.closes {
			hs = append(hs, heading{tok: h.tok})
		}
	}
	sort.SliceStable(hs, func(i, j int) bool {
		if hs[i].tok != hs[j].tok {
			return hs[i].tok < hs[j].tok
		}
		return hs[i].closes && !hs[j].closes || hs[i].sort > hs[j].sort && !hs[j].closes
	})
	return hs
}

// turnedFood reports whether the sentence does no more than turn to a food: "Then the
// milk."
func (t *talk) turnedFood(s *sentence) bool {
	i := s.First
	turned := false
	for i < s.Last && (headWords[t.norm(i)] || i > s.First && t.norm(i) == "the") {
		turned = turned || turnings[t.norm(i)]
		i++
	}
	return turned && t.punctuated && s.Last-i <= 3 && i < s.Last && t.mentionStart(i) >= 0 && t.norm(i-1) == "the" && len(t.actionsIn(s)) == 0
}

// headings finds where things made by themselves are named.
func (t *talk) headings() []heading {
	var out []heading
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing || s.kind == figures || s.kind == aside && s.Len() > 6 || s.recap || s.other || s.naming && t.measuredFoods(s) == 0 {
			continue
		}
		for i := s.First; i < s.Last; i++ {
			if h, ok := t.headingAt(s, i); ok {
				if !h.closes && (t.namesWhole(h.tok, h.span) || t.orderedOnly(s, k, h.span.First, h.span.Last)) {
					continue
				}
				if n := len(out) - 1; n < 0 || h.sort != foodName || h.tok > out[n].span.Last+1 || out[n].closes {
					out = append(out, h) // but not the raspberries of "the top then, raspberries"
				}
				i = max(i, h.span.Last-1)
			}
		}
	}
	return out
}

// headingAt reads the heading that begins at token i.
func (t *talk) headingAt(s *sentence, i int) (heading, bool) {
	if h, ok := t.closingAt(s, i); ok {
		return h, true
	}
	if h, ok := t.makingAt(s, i); ok {
		return h, true
	}
	if h, ok := t.workAt(s, i); ok {
		return h, true
	}
	opens := i == s.First || t.toks[i-1].After != 0
	if t.punctuated && !opens {
		return heading{}, false
	}
	return t.openingAt(s, i)
}

// calledAt reads the name of something made at token a: where it ends and what
// it stands for.
func (t *talk) calledAt(a, end int) (int, nameSort) {
	if a >= end || t.quantityAt[a] >= 0 {
		return 0, noName
	}
	if e := t.component(a); e > a && e <= end {
		return e, thingName
	}
	sort, last := noName, a
	for e := a; e < end && e < a+4 && t.quantityAt[e] < 0; {
		next := e + 1
		switch m := t.mentionAt[e]; {
		case m >= 0:
			x := &t.mentions[m]
			if x.negated || x.compared || x.head.First > e {
				return 0, noName
			}
			next = x.head.Last
			switch {
			case x.food.Dish || x.food.Made, sort == foodName && besidesFood[x.food.Kind] && t.punctuated, t.lex.Component[t.norm(e)] != nil && x.head.Len() == 1:
				sort = thingName
			case sort < foodName:
				sort = foodName
			}
			last = next
		case t.owning(e):
			sort, last = thingName, next
		case t.madeAt[e] > 0 && !notPart[t.norm(e)]:
			next = e + int(t.madeAt[e])
			sort, last = thingName, next
		case t.isDishNoun(e):
			sort, last = thingName, next
		case t.modifier(e) != lexicon.NoClass:
		case t.strange(e) && (t.titleWord(e) || t.calledThe(e)):
			sort, last = max(sort, strangeName), next
		default:
			next = end
		}
		if next < end && !t.joined(next-1) {
			break
		}
		e = next
	}
	if sort == thingName && !t.punctuated && !t.knownThing(last-1) {
		return 0, noName // where a clause ends is a guess, so that dishes in passing look alike
	}
	return last, sort
}

// owning reports whether the word at token i is that of a thing made with "is" in
// the same breath: "garlic mayo's just …".
func (t *talk) owning(i int) bool {
	w, ok := strings.CutSuffix(t.norm(i), "'s")
	return ok && (t.lex.Component[w] != nil || dishNoun[w])
}

// knownThing reports whether the word at token i is one for what is made as a
// part, or the title has it, or the talk comes back to it as to a thing that is there.
func (t *talk) knownThing(i int) bool {
	w := t.norm(i)
	return t.lex.Component[w] != nil || t.lex.Component[lexicon.Singular(w)] != nil || t.madeName(i) || t.titleWord(i) || t.calledThe(i)
}

// calledThe reports whether the talk comes back to the word at token i as to a thing
// that is there: "the zobo".
func (t *talk) calledThe(i int) bool {
	x := t.index
	if t.theCalled == nil {
		t.theCalled = make([]uint8, len(x.texts))
	}
	n := &t.theCalled[x.word[i]]
	if *n == 0 {
		*n = 1
		for _, j := range x.at[x.word[i]] {
			if t.theThing(int(j)) {
				if *n++; *n > 3 {
					break // enough without the one at i
				}
			}
		}
	}
	others := *n - 1
	if t.theThing(i) {
		others--
	}
	return others > 1
}

// theThing reports whether the word at j is spoken of as a thing: "the crema".
func (t *talk) theThing(j int) bool {
	return madeBefore[t.norm(j-1)] && t.joined(j-1) && (!t.joined(j) || !t.nameWord(j+1) && !t.strange(j+1))
}

// besidesFood are kinds of food that another food before them makes a thing made
// here: "garlic mayo", "sage butter".
var besidesFood = words("fat oil dairy condiment sauce bread")

// leadCues lead to the name of what is made next, behind words of turning.
var leadCues = cues("for", "on to", "onto", "over to", "moving on to", "moving onto", "move on to", "back to", "time for", "as for", "up is", "up's", "up", "comes", "job's", "job is", "job", "thing's", "thing is")

// turnings turn to something else.
var turnings = words("now next first then meanwhile meantime last lastly finally second third")

// openingAt reads a name that opens a clause: "the crema: half a cup of …", "now
// for the swirl", "sauce is dead easy".
func (t *talk) openingAt(s *sentence, i int) (heading, bool) {
	a, how := i, bareLead
	for a < s.Last && a < i+5 && headWords[t.norm(a)] {
		if turnings[t.norm(a)] {
			how = turnedLead
		}
		a++
	}
	if n := t.cueAt(leadCues, a, s.Last); n > 0 {
		if t.norm(a) == "for" && t.purposeOf(s, a) || n == 1 && t.norm(a) != "for" && how == bareLead {
			return heading{}, false
		}
		a, how = a+n, firmLead
	}
	det := a
	for a < s.Last && a < det+2 && (madeBefore[t.norm(a)] || t.norm(a) == "a" || t.norm(a) == "some") {
		a++
	}
	e, sort := t.calledAt(a, s.Last)
	if how == firmLead && a > det && madeBefore[t.norm(det)] && spots[t.norm(a)] != "" && t.foodMeasureAt(a+1) {
		return heading{tok: i, span: language.Span{First: a, Last: a + 1}, sort: thingName, part: spots[t.norm(a)]}, true // "for the shine two tablespoons of …"
	}
	if sort == noName && how == firmLead && a > det && a < s.Last && madeBefore[t.norm(det)] && t.strange(a) && t.clauseMayOpen(i) && (a+1 == s.Last || t.toks[a].After != 0 || t.foodMeasureAt(a+1)) && t.opensWithFoods(a+1) {
		e, sort = a+1, strangeName // "for the toasties, eight slices of bread"
	}
	for k := a + 1; k < e; k++ {
		if articleLike[t.norm(k)] {
			return heading{}, false // "the potato drinks the egg"
		}
	}
	if a < s.Last && t.verbAt(a) && articleLike[t.norm(a+1)] || articleLike[t.norm(a)] || turnings[t.norm(i)] && i > s.First && t.punctuated && t.sentence(i).Last == e {
		return heading{}, false
	}
	if m := t.mentionAt[max(a, e-1)]; sort == foodName && m >= 0 && e < s.Last && t.toks[e-1].After&language.Colon != 0 && cookedPart(&t.mentions[m]) {
		sort = thingName // "pickled onions: …"
	}
	if sort == noName && a < s.Last && i == s.First && t.strange(a) && t.firstSaid(s, a+1) && t.opensWithFoods(a+1) {
		e, sort = a+1, strangeName // "choux first."
	}
	if sort == foodName && (!t.makesPlate(e-1) || t.onePot()) || sort == strangeName && det == a && how < firmLead && !t.titleWord(e-1) && !t.firstSaid(s, e) {
		return heading{}, false
	}
	if sort == noName || how == firmLead && det == a && sort == foodName || t.verbAt(a) && a == i && sort != thingName {
		return heading{}, false
	}
	if !t.punctuated && i > s.First && how < firmLead && !t.clauseMayOpen(i) {
		return heading{}, false
	}
	if !t.headingEnds(s, i, det, e, how, sort) {
		return heading{}, false
	}
	h := heading{tok: i, span: language.Span{First: a, Last: e}, sort: sort}
	if i > s.First && len(t.mentionsIn(s.First, i)) == 0 {
		h.tok = s.First
	}
	return h, true
}

// onePot reports whether the title is that of a dish in which all foods end up
// together, so that none of them is made by itself.
func (t *talk) onePot() bool {
	ws := strings.Fields(strings.ToLower(t.dishes[0].title))
	return len(ws) > 0 && potDishes[lexicon.Singular(ws[len(ws)-1])]
}

// potDishes are dishes cooked together in one pot.
var potDishes = words("soup stew curry chowder broth casserole risotto chilli chili gumbo jambalaya paella tagine hotpot goulash ramen pho laksa pelau pilaf pilau biryani porridge congee")

// makesPlate reports whether the food named at token i can be a thing on the plate:
// meat, fish, grain, or what the title names.
func (t *talk) makesPlate(i int) bool {
	m := t.mentionAt[i]
	return m >= 0 && (t.mainKind(int(m)) || t.mentions[m].food.Kind == "shellfish" || plateKind[t.mentions[m].food.Kind] && (t.titleWord(i) || t.norm(i) == "vegetables" || t.norm(i) == "veg"))
}

// clauseMayOpen reports whether, in talk without marks, the word before token i lets a
// name at i stand by itself: it is no article, preposition or verb.
func (t *talk) clauseMayOpen(i int) bool {
	if i == 0 {
		return true
	}
	w := t.norm(i - 1)
	return !leaningWord[w] && !articleLike[w] && !determiners[w] && !t.verbAt(i-1) && t.modifier(i-1) == lexicon.NoClass && t.mentionAt[i-1] < 0 && !besides[w] && !youWe[w] &&
		(t.quantityAt[i-1] < 0 || t.norm(i) == "the")
}

// headingEnds reports whether what follows the name that ends at e lets it be a
// heading.
func (t *talk) headingEnds(s *sentence, i, det, e int, how lead, sort nameSort) bool {
	alone := e >= s.Last || t.toks[e-1].After&^language.Comma != 0
	switch {
	case alone && how > bareLead:
		return true
	case alone && i == s.First:
		return t.punctuated || sort == thingName && t.opensWithFoods(e)
	case alone:
		return t.punctuated && e >= s.Last && len(t.mentionsIn(s.First, i)) == 0 && t.opensWithFoods(e) && !t.hasQuantity(s.First, i)
	}
	w := t.norm(e)
	if t.norm(e) == "which" && (t.norm(e+1) == "is" || t.norm(e+1) == "are") && sort == thingName && t.consists(e+2) {
		return true // "and a garlic sauce, which is just a cup of yogurt"
	}
	if t.toks[e-1].After != 0 { // a comma
		if how == firmLead || t.firstSaid(s, e) {
			return true
		}
		if how == bareLead && sort != strangeName && madeBefore[t.norm(det)] && i == s.First && !t.hasQuantity(e, s.Last) && len(t.actionsIn(s)) == 0 && len(t.mentionsIn(e, s.Last)) == 0 {
			return true // "The vegetables, each by itself."
		}
		return sort == thingName && (t.foodMeasureAt(e) || how == turnedLead && w != "and" && t.mentionStart(e) < 0) && (i == s.First || how == turnedLead)
	}
	switch {
	case t.firstSaid(s, e):
		return true
	case w == "is" || w == "are":
		return t.consists(e+1) || t.introduced(e)
	case strings.HasSuffix(t.norm(e-1), "'s"):
		return t.consists(e)
	case w == "how" && t.norm(e+1) == "to" && (t.norm(e+2) == "make" || t.norm(e+2) == "do"):
		return sort == thingName
	case w == "while" && i == s.First:
		return sort == thingName
	case how == firmLead && !t.punctuated && i > s.First:
		return t.norm(det) != "a" && t.clauseBegins(e)
	case how == firmLead:
		return t.clauseBegins(e) || t.verbAt(e) || turnAfter[w]
	case how == turnedLead:
		return t.foodMeasureAt(e) || youWe[w] && t.verbs(e+1) != nil && sort == thingName
	}
	return !t.punctuated && sort == thingName && t.foodMeasureAt(e) && !t.addsMore(i)
}

// workHeads are verbs that make a part of the dish, each with the part.
var workHeads = map[string]string{"dress": "dressing", "marinate": "marinade", "marinade": "marinade", "glaze": "glaze", "ice": "icing", "frost": "frosting", "stuff": "stuffing", "brine": "brine"}

// workAt reads a verb at token i that turns to a part, which it makes of foods told
// next: "now dress it. Four tablespoons of yoghurt, …".
func (t *talk) workAt(s *sentence, i int) (heading, bool) {
	part, ok := workHeads[t.norm(i)]
	if !ok || !t.verbAt(i) {
		return heading{}, false
	}
	turned := false
	for k := i - 1; k >= s.First && k >= i-4 && (headWords[t.norm(k)] || youWe[t.norm(k)] || t.norm(k) == "to" || t.norm(k) == "let's"); k-- {
		turned = turned || turnings[t.norm(k)]
	}
	e := i + 1
	for e < s.Last && e < i+5 && t.toks[e-1].After == 0 && (opensObject[t.norm(e)] || t.mentionAt[e] >= 0 && !t.quantityBegins(e)) {
		e++
	}
	if !turned || !(e >= s.Last || t.toks[e-1].After != 0 || t.verbAt(e) || t.foodMeasureAt(e)) || !t.opensWithFoods(e) {
		return heading{}, false
	}
	return heading{tok: s.First, span: language.Span{First: i, Last: i + 1}, sort: thingName, part: part}, true
}

// addsMore reports whether the words before token i only go on with a list.
func (t *talk) addsMore(i int) bool { return t.norm(i) == "and" || t.norm(i-1) == "and" }

// foodMeasureAt reports whether an amount of a food begins at token i.
func (t *talk) foodMeasureAt(i int) bool {
	if !t.quantityBegins(i) {
		return false
	}
	switch q := &t.quantities[t.quantityAt[i]]; q.kind {
	case measure, vague:
		return true
	case count:
		return t.foodAfter(q) >= 0 // "fish tacos, eight of them"
	}
	return false
}

// consists reports whether the words at token i, behind "is", tell what a thing
// is made of: "just half a cup of mayonnaise", "four tablespoons of …".
func (t *talk) consists(i int) bool {
	if w := t.norm(i); w == "just" || w == "only" || w == "simply" || w == "basically" {
		i++
	}
	return t.foodMeasureAt(i)
}

// firstSaid reports whether the words at token e tell only when the thing named
// before them comes: "first because …", "now.", "goes first".
func (t *talk) firstSaid(s *sentence, e int) bool {
	if t.is(e, "to", "start") || t.is(e, "to", "begin") {
		return true
	}
	if w := t.norm(e); w == "goes" || w == "comes" || w == "has" || w == "is" {
		if t.is(e+1, "to", "be", "first") {
			return true
		}
		e++
		return t.norm(e) == "first" || t.norm(e) == "next"
	}
	switch t.norm(e) {
	case "first", "next", "now", "then", "time":
	default:
		return false
	}
	if e++; e >= s.Last || t.toks[e-1].After != 0 {
		return true
	}
	switch t.norm(e) {
	case "because", "'cause", "cause", "'cos", "cos", "since", "as", "and", "so", "then":
		return true
	}
	return t.foodMeasureAt(e) || !t.punctuated && t.clauseBegins(e)
}

// opensWithFoods reports whether amounts of two foods follow token e at once.
func (t *talk) opensWithFoods(e int) bool {
	n := 0
	for i := e; i < len(t.toks) && i < e+24; i++ {
		if t.foodMeasureAt(i) {
			n++
		}
	}
	return n > 1
}

// makingAt reads a making verb and its object at token i: "do your dumplings",
// "we make a curd", "there's a relish that goes with it".
func (t *talk) makingAt(s *sentence, i int) (heading, bool) {
	w := t.norm(i)
	a := i + 1
	switch {
	case makeVerbs[w] && !strings.HasSuffix(t.norm(i-1), "n't") && t.norm(i-1) != "not" && t.norm(i-1) != "never":
		for a < s.Last && (t.norm(a) == "with" || t.norm(a) == "on" || t.norm(a) == "up" || t.norm(a) == "with") {
			a++
		}
	case (w == "want" || w == "need") && t.norm(i-1) != "don't":
		if e, sort := t.calledAt(t.afterDet(a), s.Last); sort == thingName && e < s.Last && t.toks[e-1].After&language.Colon != 0 {
			return heading{tok: s.First, span: language.Span{First: t.afterDet(a), Last: e}, sort: sort}, true // "you'll also want thin pancakes: …"
		}
		return heading{}, false
	case w == "there's" || w == "is" && t.norm(i-1) == "there":
	default:
		return heading{}, false
	}
	det := a
	for a < s.Last && a < det+5 && (articleLike[t.norm(a)] || t.norm(a) == "bit" || t.norm(a) == "of" || t.norm(a) == "quick" || t.norm(a) == "little" || t.norm(a) == "simple") {
		a++
	}
	e, sort := t.calledAt(a, s.Last)
	if sort != thingName || det == a || t.norm(det) == "it" {
		return heading{}, false
	}
	if w == "there's" || w == "is" {
		if i := t.has(e, min(s.Last, e+6), "goes with", "to go with", "on top", "for"); i < 0 {
			return heading{}, false
		}
	} else if !(e >= s.Last || t.toks[e-1].After != 0 || t.foodMeasureAt(e) || turnAfter[t.norm(e)] || t.norm(e) == "to" || t.norm(e) == "with" || t.norm(e) == "up" || t.norm(e) == "early" || !t.punctuated && t.clauseBegins(e)) {
		return heading{}, false
	}
	h := heading{tok: i, span: language.Span{First: a, Last: e}, sort: sort}
	if len(t.mentionsIn(s.First, i)) == 0 {
		h.tok = s.First
	}
	return h, true
}

// closeCues come before the name of what is done.
var closeCues = cues("that's", "there's", "here's", "that is", "this is", "these are", "those are", "you've got", "you have", "you got", "there it is", "that one", "that one's", "there is", "that right there is", "right there is", "and there it is", "that'll be", "that will be", "there we have")

// closeBetween may stand between them and the name.
var closeBetween = words("now basically pretty much gonna going to be just already all it actually the your our my a an for everything")

// closePurposes tell what a thing is for when it is done, each with the part
// that it is.
var closePurposes = []struct {
	words cueList
	part  string
}{
	{cues("what goes inside", "that goes inside", "goes in the middle", "what we're filling them with", "what we're filling it with", "what we fill them with", "what you fill them with", "what they're filled with"), "filling"},
	{cues("what goes on top", "that goes on top"), "topping"},
}

// closingAt reads words at token i that name a thing as done: "that's your soup
// sorted", "crema's done".
func (t *talk) closingAt(s *sentence, i int) (heading, bool) {
	n := t.cueAt(closeCues, i, s.Last)
	if n == 0 {
		return t.doneAt(s, i)
	}
	late := t.punctuated && !t.opensWith(i) && t.norm(i-1) != "and" // "kuli-kuli, that is the groundnut cake"
	a := i + n
	det := false
	for a < s.Last && a < i+n+5 && closeBetween[t.norm(a)] && t.cueAt(closePurposes[0].words, a, s.Last) == 0 {
		det = det || madeBefore[t.norm(a)]
		a++
	}
	for _, p := range closePurposes {
		if m := t.cueAt(p.words, a, s.Last); m > 0 && !late {
			return heading{tok: min(s.Last, a+m), span: language.Span{First: a, Last: a + m}, sort: thingName, closes: true, part: p.part}, true
		}
	}
	e, sort := t.calledAt(a, s.Last)
	if late && (sort != thingName || e < s.Last || t.lex.Component[t.norm(e-1)] == nil) {
		return heading{}, false
	}
	if m := t.mentionAt[max(a, e-1)]; sort == foodName && m >= 0 && besidesFood[t.mentions[m].food.Kind] && e-a > 1 {
		sort = thingName // "there it is, chili oil"
	}
	if sort < strangeName || !det && t.norm(i) != "there" && !readyWords[t.norm(e)] || strings.HasSuffix(t.norm(i+n-1), "have") && !readyWords[t.norm(e)] || t.norm(i+n-1) == "got" && !readyWords[t.norm(e)] || t.norm(i+n-1) == "you've" || leaningWord[t.norm(i-1)] && t.norm(i-1) != "and" {
		return heading{}, false
	}
	if e < s.Last && t.toks[e-1].After&language.Colon != 0 {
		return heading{}, false // "this is your marinade: …"
	}
	if !(e >= s.Last || t.toks[e-1].After != 0 || readyWords[t.norm(e)] || t.norm(e) == "and" || t.norm(e) == "so" || t.norm(e) == "for" || !t.punctuated) {
		return heading{}, false
	}
	return t.closedAt(s, heading{span: language.Span{First: a, Last: e}, sort: sort, closes: true}), true
}

// closedAt sets where the thing of a closing heading ends: behind the words that
// tell it is done.
func (t *talk) closedAt(s *sentence, h heading) heading {
	h.tok = h.span.Last
	for h.tok < s.Last && readyWords[t.norm(h.tok)] {
		h.tok++
	}
	if t.punctuated {
		for h.tok < s.Last && t.toks[h.tok-1].After == 0 {
			h.tok++
		}
	}
	return h
}

// readyWords tell that a thing is done.
var readyWords = words("done sorted ready made finished complete now then")

// doneAt reads "the crema's done", "dough done." at token i.
func (t *talk) doneAt(s *sentence, i int) (heading, bool) {
	if i > s.First && t.punctuated && t.toks[i-1].After == 0 || t.verbAt(i) {
		return heading{}, false
	}
	a := i
	for a < s.Last && a < i+4 && (headWords[t.norm(a)] || madeBefore[t.norm(a)]) {
		a++
	}
	e, sort := t.calledAt(a, s.Last)
	if sort != thingName {
		return heading{}, false
	}
	x := e
	if t.norm(x) == "is" || t.norm(x) == "are" {
		x++
	}
	if x >= s.Last {
		return heading{}, false
	}
	if w := t.norm(x); w != "done" && w != "sorted" && w != "finished" && w != "ready" || x+1 < s.Last && t.toks[x].After == 0 && t.norm(x+1) != "and" && t.norm(x+1) != "so" && t.punctuated {
		return heading{}, false
	}
	return t.closedAt(s, heading{span: language.Span{First: a, Last: e}, sort: sort, closes: true}), true
}
