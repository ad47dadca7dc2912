package extract

import (
	"sort"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// making is a stretch of the talk in which one thing is made.
type making struct {
	from, to int // tokens [from, to)
	begun    begun
	head     int   // index in partNames of the part announced, -1 for none
	topic    int   // mention of the food that is named as the next thing, -1 for none
	foods    []int // mentions of what first goes in here
	name     string
	said     language.Span // the words that name it
	firm     bool          // announced as a thing of its own
	beside   bool          // put over or beside the rest by its name
	joins    bool          // goes on with the making before
}

// begun is how a making begins.
type begun uint8

const (
	byFood    begun = iota // with another food only
	byTopic                // its food is named alone: "Now the chicken."
	byRest                 // after something was left alone or put away
	byTime                 // in the time that something else takes
	byVessel               // in a vessel of its own
	byAnnounc              // a word for a component announces it
)

// turn is a place where another thing may begin.
type turn struct {
	tok   int
	begun begun
	head  int
	topic int
	span  language.Span // the words that announce it
	name  string        // where these aren't its name
	firm  bool          // they leave no doubt that it's a thing of its own
}

// markMakings cuts the talk into the things that are made, names them by
// what they are called when they begin, when they are done or when they are
// used, and opens a part for each where there are two.
func (t *talk) markMakings() {
	if len(t.dishes) > 1 || t.partsFound() > 1 {
		return
	}
	t.bareNames = true
	list := t.makings()
	if len(list) > mostMakings {
		return
	}
	names := t.namings()
	list = t.joinMakings(list, names)
	t.nameHeads(list)
	t.purposeMakings(list)
	t.nameDone(list, names)
	t.keptMakings(list, names)
	t.madeMakings(list, names)
	t.foodMakings(list, names)
	t.openMakings(list, names)
}

// partsFound counts the parts that foods have by the passes before.
func (t *talk) partsFound() int {
	var names []string
	found := make([]bool, len(t.partNames))
	main, end := 0, len(t.toks)
	for m := range t.mentions {
		x := &t.mentions[m]
		if x.negated || x.mixed || !t.measuredHere(x) {
			continue
		}
		switch p := t.partOf(x.First); {
		case p >= 0 && !found[p]:
			found[p] = true
			names = append(names, t.partNames[p])
		case p == -1:
			main = 1
		}
	}
	for _, p := range t.parts {
		if p.name >= 0 && found[p.name] {
			end = min(end, p.tok)
		}
	}
	if main > 0 && t.restName == "" && t.restMade == "" && t.mainPart(names, end) == "" {
		main = 0
	}
	return len(names) + b2n(len(names) > 0, main)
}

// mostMakings is more things than any dish is made of: a talk cut into more
// holds no single dish.
const mostMakings = 60

// turns gives the places where another thing may begin, in order.
func (t *talk) turns(fresh [][]int) []turn {
	heads := t.makingHeads(fresh)
	var out []turn
	add := func(x turn) { out = append(out, x) }
	left := false // what was being made stands, cooks or is put away
	h := 0
	for k := range t.sents {
		s := &t.sents[k]
		for ; h < len(heads) && heads[h].tok < s.First; h++ {
			add(t.headTurn(heads[h]))
		}
		if t.worked(s) || t.opensPara(k) && !t.lineByLine && t.toldLate(s) {
			if b, ok := t.turnAt(k, fresh, left); ok && t.soonFresh(fresh, k) {
				add(turn{tok: s.First, begun: b, head: -1, topic: -1})
				left = false
			}
			t.turnsTo(s, add)
		}
		if len(fresh[k]) > 0 {
			left = false
		}
		left = left || t.worked(s) && t.leaves(s)
	}
	for ; h < len(heads); h++ {
		add(t.headTurn(heads[h]))
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].tok < out[j].tok })
	return out
}

// headTurn makes an announced part a turn; one that is a food only names its
// topic.
func (t *talk) headTurn(p partMark) turn {
	x := turn{tok: p.tok, begun: byAnnounc, head: p.name, topic: -1, span: p.span}
	if m := t.mentionAt[p.span.Last-1]; m >= 0 && t.madeAt[p.span.Last-1] == 0 && !t.homeMade(&t.mentions[m]) && !t.strangeTo(int(m)) && t.declaredWord(p.span) == 0 {
		x.begun, x.head, x.topic = byTopic, -1, int(m)
	}
	return x
}

// declaredWord gives the length of a part announced in a list at the span.
func (t *talk) declaredWord(s language.Span) int { return t.declaredAt(s.First) }

// makingHeads gives the announced parts that foods go into, but for one that
// names the whole dish.
func (t *talk) makingHeads(fresh [][]int) []partMark {
	var out []partMark
	t.live = make([]bool, len(t.partNames))
	for n, p := range t.parts {
		if p.name < 0 {
			continue
		}
		end := len(t.toks)
		if n+1 < len(t.parts) {
			end = t.parts[n+1].tok
		}
		k := int(t.sentOf[p.tok])
		if len(t.partNames) == 1 && k < len(t.sents)/8 && t.titleWord(p.span.Last-1) {
			continue
		}
		for j := k; j < len(t.sents) && t.sents[j].First < end && !t.live[p.name]; j++ {
			for _, m := range fresh[j] {
				t.live[p.name] = t.live[p.name] || t.mentions[m].First >= p.tok && t.mentions[m].First < end
			}
		}
		if t.live[p.name] {
			out = append(out, p)
		}
	}
	return out
}

// turnAt tells whether sentence k turns to something else, and by what.
func (t *talk) turnAt(k int, fresh [][]int, left bool) (begun, bool) {
	s := &t.sents[k]
	para := t.opensPara(k) && !t.lineByLine
	switch {
	case s.forgotten && !t.toldLate(s):
		return 0, false
	case t.meantime(s, para):
		return byTime, t.has(s.First, min(s.Last, s.First+5), "same") < 0
	case t.ownVessel(s):
		return byVessel, true
	case left && !t.sameThing(k, fresh) && (para || t.captions() && t.turnsToFoods(s, len(fresh[k]))):
		return byRest, true
	case t.colourTopic(s, para):
		return byTime, true
	case para && t.toldLate(s):
		return byTime, true
	case para && len(fresh[k]) > 0 && t.topic(s, fresh[k][0]):
		return byFood, true
	}
	return 0, false
}

// sameThing reports whether sentence k works on what is there before a food that
// is new goes in: "Reduce it nearly to nothing", "back on the stove".
func (t *talk) sameThing(k int, fresh [][]int) bool {
	s := &t.sents[k]
	end := s.Last
	if len(fresh[k]) > 0 {
		end = t.mentions[fresh[k][0]].First
	}
	for i := s.First; i < end; i++ {
		switch t.norm(i) {
		case "it", "them", "those", "back", "everything", "add", "return":
			return true
		case "that":
			if i > s.First && t.verbAt(i-1) {
				return true
			}
		}
	}
	return false
}

// nextCues come before the thing that is made next.
var nextCues = cues("now the", "now for the", "now your", "now my", "now", "okay the", "ok the", "right the", "so the", "next the", "next up the", "next", "then the", "and the", "meanwhile the", "onto the", "on to the", "over to the", "anything the", "everything the", "back to the", "start with the", "the", "your", "my")

// makeVerbs are verbs of making a thing that has a name.
var makeVerbs = words("make mix do prepare blend whisk shake start making doing")

// turnsTo finds the things that the sentence turns to by name: "For the
// vegetables, blanch a bag of spinach", "Now the chicken.", "Onions take the
// time.", "I always make raita".
func (t *talk) turnsTo(s *sentence, found func(x turn)) {
	if w := t.norm(s.First); s.naming && w != "now" && w != "next" && w != "then" {
		return
	}
	for i := s.First; i < s.Last; i++ {
		first := i == s.First
		if !first && t.punctuated && t.toks[i-1].After == 0 && !makeVerbs[t.norm(i)] && t.norm(i) != "for" {
			continue
		}
		if first {
			for i < s.Last-1 && i < s.First+5 && headWords[t.norm(i)] {
				i++
			}
		}
		if x, ok := t.turnsAt(s, i, first); ok {
			if first {
				x.tok = s.First
			}
			found(x)
			i = max(i, x.span.Last-1)
		}
	}
}

// turnsAt reads the announcement that begins at token i.
func (t *talk) turnsAt(s *sentence, i int, first bool) (turn, bool) {
	open := first || !t.punctuated || i > 0 && t.toks[i-1].After != 0 // a clause can begin here
	switch w := t.norm(i); {
	case w == "for" && t.norm(i+1) != "dipping" && t.norm(i+1) != "dunking":
		if !open || t.purposeOf(s, i) {
			return turn{}, false
		}
		a := t.afterDet(i + 1)
		x, ok := t.thing(s, i, a)
		e := x.span.Last
		if !ok || a == i+1 && x.topic >= 0 {
			return turn{}, false
		}
		x.firm = true
		return x, e >= s.Last || t.toks[e-1].After != 0 || t.clauseBegins(e) || t.verbAt(e)
	case makeVerbs[w] && t.norm(i+1) != "with" && (open || makerBefore[t.norm(i-1)] || t.verbAt(i)):
		a := t.afterDet(i + 1)
		x, ok := t.thing(s, i, a)
		e := x.span.Last
		if !ok || x.topic >= 0 && (w != "make" && w != "do" && w != "start" || a == i+1) {
			return turn{}, false
		}
		x.firm = true
		return x, e >= s.Last || t.toks[e-1].After != 0 || t.quantityBegins(e) || turnAfter[t.norm(e)]
	case open:
		if p, n := t.servesFor(i, s.Last); n > 0 {
			return turn{tok: i, begun: byAnnounc, head: -1, topic: -1, span: language.Span{First: i, Last: i + n}, name: p, firm: true}, true
		}
		if n := t.cueAt(nextCues, i, s.Last); n > 0 && (first || t.norm(i) != "the" && t.norm(i) != "and" || t.norm(i-1) == "and") {
			i += n
		} else if !first {
			return turn{}, false
		}
		if m := t.measuredMain(i, s.Last); m >= 0 {
			return turn{tok: i, begun: byTopic, head: -1, topic: m, span: t.mentions[m].head}, true
		}
		a := t.afterDet(i)
		x, ok := t.thing(s, i, a)
		return x, ok && t.standsAlone(s, &x)
	}
	return turn{}, false
}

// measuredMain gives the meat or fish whose amount begins at token i, or the
// rice or pasta that the verb there cooks; -1 for none.
func (t *talk) measuredMain(i, end int) int {
	cooks := t.verbAt(i) && boilings[t.actions[t.actionAt[i]].base]
	if !cooks && !t.quantityBegins(i) {
		return -1
	}
	for j := i + 1; j < end && j < i+9; j++ {
		m := t.mentionAt[j]
		if m < 0 {
			continue
		}
		switch t.mentions[m].food.Kind {
		case "meat", "poultry", "fish", "shellfish":
			if !cooks {
				return int(m)
			}
		case "grain", "pasta":
			if cooks && len(t.mentions[m].amounts) > 0 {
				return int(m)
			}
		}
		return -1
	}
	return -1
}

// boilings are the verbs with which rice and pasta begin.
var boilings = words("boil cook wash rinse soak steam")

var makerBefore = words("we i you to always also we'll i'll you'll let's can now just quickly i'm we're")

// purposeOf reports whether "for" at token i tells what something is for rather
// than what comes next: "enough for the filling".
func (t *talk) purposeOf(s *sentence, i int) bool {
	return i > s.First && t.toks[i-1].After == 0 && t.mentionAt[i-1] >= 0 && t.punctuated
}

// strangeTo reports whether mention m is a dish by its name.
func (t *talk) strangeTo(m int) bool { return t.mentions[m].food.Dish || t.mentions[m].food.Made }

// afterDet skips the article at token i.
func (t *talk) afterDet(i int) int {
	for k := 0; k < 2 && (madeBefore[t.norm(i)] || t.norm(i) == "a" || t.norm(i) == "some"); k++ {
		i++
	}
	return i
}

// verbAt reports whether a thing to do is told at token i.
func (t *talk) verbAt(i int) bool {
	return i < len(t.toks) && t.actionAt[i] >= 0 && t.actions[t.actionAt[i]].tok == i
}

// thing reads the name of a thing that can be made by itself at token a: a word
// for a component, or a food that can be on the plate.
func (t *talk) thing(s *sentence, tok, a int) (turn, bool) {
	x := turn{tok: tok, begun: byTopic, head: -1, topic: -1}
	if a >= s.Last {
		return x, false
	}
	if e := t.component(a); e > 0 && e <= s.Last && !(t.verbAt(a) && e == a+1 && a == tok && t.joined(a) && !turnAfter[t.norm(e)]) {
		x.begun, x.span = byAnnounc, language.Span{First: a, Last: e}
		return x, true
	}
	m := t.mentionStart(a)
	if m < 0 {
		return x, false
	}
	mm := &t.mentions[m]
	if w := t.norm(mm.head.Last - 1); t.lex.Component[w] != nil && len(mm.amounts) == 0 && mm.head.Len() > 1 && (makeVerbs[t.norm(tok)] || t.norm(tok) == "for") {
		x.begun, x.span = byAnnounc, mm.head // "make the chocolate sauce"
		return x, mm.head.Last <= s.Last
	}
	if !plateKind[mm.food.Kind] && !mm.food.Dish && !mm.food.Made && !t.twoFoods(mm) || mm.negated || mm.mixed || mm.compared {
		return x, false
	}
	x.topic, x.span = m, mm.head
	if t.twoFoods(mm) {
		x.topic = int(t.mentionAt[mm.head.Last])
		x.span.Last = t.mentions[x.topic].head.Last
	}
	return x, x.span.Last <= s.Last
}

// twoFoods reports whether another food follows the mention, so that the two name a thing: "the
// sage butter".
func (t *talk) twoFoods(m *mention) bool {
	e := m.head.Last
	if !t.joined(e-1) || t.mentionAt[e] < 0 || len(m.amounts) > 0 {
		return false
	}
	o := &t.mentions[t.mentionAt[e]]
	return o.head.First == e && (o.food.Kind == "fat" || o.food.Kind == "oil" || o.food.Kind == "dairy" || o.food.Kind == "bread") && o.food != m.food
}

// standsAlone reports whether nothing but its amount or a word of time follows
// the thing.
func (t *talk) standsAlone(s *sentence, x *turn) bool {
	e := x.span.Last
	if e >= s.Last {
		return true
	}
	if x.topic >= 0 && t.measuredHere(&t.mentions[x.topic]) && !t.quantityBegins(e) {
		return false
	}
	if t.toks[e-1].After != 0 {
		return t.toks[e-1].After&language.Comma == 0 || e-s.First <= 4 && (t.quantityBegins(e) || t.verbAt(e) || turnAfter[t.norm(e)])
	}
	switch t.norm(e) {
	case "first", "next", "now", "then", "because", "take", "takes", "need", "needs", "want", "wants", "get", "gets", "time", "the", "overnight", "last":
		return true
	case "we", "you", "i":
		return x.topic < 0 && t.verbs(e+1) != nil
	case "is", "that":
		if x.topic >= 0 && t.quantityBegins(e+1) {
			return true // "The beef is a two kilo topside"
		}
		return x.topic < 0 && t.norm(e-1) != "dough" && (t.introduced(e) || t.has(e, min(s.Last, e+6), "goes with") >= 0)
	}
	return !t.punctuated && t.quantityBegins(e) && t.quantities[t.quantityAt[e]].kind != duration
}

// plateKind are kinds of food that can be a thing on the plate by themselves.
var plateKind = words("meat poultry fish shellfish grain pasta legume vegetable fruit bread egg")

// takeFoods gives the making that is being told the foods named before token end, of
// foods in the order of the talk, and returns those that are left.
func (t *talk) takeFoods(l *making, foods []int, end int) []int {
	n := 0
	for n < len(foods) && t.mentions[foods[n]].First < end {
		n++
	}
	l.foods, l.to = append(l.foods, foods[:n]...), end
	return foods[n:]
}

// makings cuts the talk at its turns and gathers what goes into each thing.
func (t *talk) makings() []making {
	fresh := t.freshFoods()
	turns := t.turns(fresh)
	var foods []int
	for k := range fresh {
		foods = append(foods, fresh[k]...)
	}
	if len(foods) == 0 {
		return nil
	}
	sort.Ints(foods)
	list := []making{{from: 0, begun: byTime, head: -1, topic: -1}}
	take := func(end int) { foods = t.takeFoods(&list[len(list)-1], foods, end) }
	for _, x := range turns {
		take(x.tok)
		m := making{from: x.tok, begun: x.begun, head: x.head, topic: x.topic, firm: x.firm}
		if x.begun == byAnnounc && x.head < 0 {
			if m.name = x.name; m.name == "" {
				m.name = t.partName(x.span.First, x.span.Last)
			}
		}
		if x.begun >= byTopic {
			m.said = x.span
		}
		if l := &list[len(list)-1]; !t.fills(l) {
			// nothing was made yet: the turn goes on with the one before
			l.goOn(&m)
			continue
		}
		list = append(list, m)
	}
	take(len(t.toks))
	if l := &list[len(list)-1]; !t.fills(l) && len(list) > 1 {
		list[len(list)-2].foods = append(list[len(list)-2].foods, l.foods...)
		list[len(list)-2].to = l.to
		list = list[:len(list)-1]
	}
	return list
}

// goOn lets the making, in which nothing was made yet, be what turn m says.
func (l *making) goOn(m *making) {
	l.begun = max(l.begun, m.begun)
	l.firm = l.firm || m.firm
	if m.head >= 0 || m.name != "" {
		l.head, l.name, l.said = m.head, m.name, m.said
	}
	if m.topic >= 0 {
		l.topic = m.topic
	}
}

// fills reports whether anything but the food that is its topic goes into the
// making.
func (t *talk) fills(l *making) bool {
	for _, m := range l.foods {
		if m != l.topic {
			return true
		}
	}
	return false
}

// done gives the token after the last food that goes into the making.
func (t *talk) done(l *making) int {
	if len(l.foods) == 0 {
		return l.from
	}
	return t.mentions[l.foods[len(l.foods)-1]].Last
}

// makingFood gives the plate food of the making.
func (t *talk) makingFood(l *making) int { return t.plateFood(l.foods, l.from, l.to) }

// own reports whether the making begins with more than another food.
func (l *making) own() bool { return l.begun >= byRest }

// nameHeads gives the makings that were announced as such the name announced.
func (t *talk) nameHeads(list []making) {
	for j := range list {
		l := &list[j]
		if h := l.head; h >= 0 {
			l.name = t.partNames[h]
		}
		if l.firm && l.name == "" && l.topic >= 0 {
			l.name = t.partName(l.said.First, l.said.Last)
		}
	}
}

// joinMakings joins to the making before what begins with no more than another
// food, unless that food is a thing on the plate later.
func (t *talk) joinMakings(list []making, names []naming) []making {
	out := list[:0]
	for j := range list {
		l := list[j]
		beside := l.topic >= 0 && (l.firm || t.besideRest(&l, names) >= 0)
		if !beside && !l.firm {
			l.topic = -1
		}
		weak := l.begun == byFood || l.begun == byTopic && !beside || j > 0 && l.begun == byRest && !beside && t.unfinished(&out[len(out)-1], &l, names)
		if weak && len(out) > 0 {
			p := &out[len(out)-1]
			p.foods, p.to = append(p.foods, l.foods...), l.to
			continue
		}
		out = append(out, l)
	}
	return out
}

// unfinished reports whether making p was announced and isn't named again
// before l begins, so that l may go on with it.
func (t *talk) unfinished(p, l *making, names []naming) bool {
	name := p.name
	if p.head >= 0 {
		name = t.partNames[p.head]
	}
	if name == "" {
		return false
	}
	w := lastWord(name)
	if c := t.lex.Component[w]; t.mainKind(t.makingFood(l)) && !(c != nil && c.Any) {
		return false
	}
	done := t.done(p)
	for n := sort.Search(len(names), func(n int) bool { return names[n].First >= done }); n < len(names) && names[n].First < l.from; n++ {
		if names[n].word == w && names[n].use != named {
			return false
		}
	}
	return true
}

// besideRest gives the place where the food that the making cooks is spoken of
// as a thing beside the rest, -1 for none or where it goes into something.
func (t *talk) besideRest(l *making, names []naming) int {
	f := t.makingFood(l)
	if l.topic >= 0 {
		f = l.topic
		if k := t.mentions[f].food.Kind; !plateKind[k] && !l.firm {
			return -1
		}
	}
	if f < 0 {
		return -1
	}
	best := -1
	for n := range names {
		x := &names[n]
		if x.food < 0 || x.First < t.done(l) || !sameDish(t.mentions[x.food].food, t.mentions[f].food) {
			continue
		}
		switch x.use {
		case stirred:
			return -1
		case served, kept:
			if best < 0 && (l.own() || l.topic >= 0 || t.laidOut(&t.sents[x.sent], x.First) || t.norm(x.First-2) == "on") {
				best = n
			}
		}
	}
	return best
}

// nameDone names makings by what they are called when they are done: "and that's
// the ragu", "that's your salsa".
func (t *talk) nameDone(list []making, names []naming) {
	for n := range names {
		x := &names[n]
		if x.use != named || t.nameTaken(list, x.word) >= 0 {
			continue
		}
		j := sort.Search(len(list), func(j int) bool { return list[j].from > x.First }) - 1
		if j >= 0 && list[j].name == "" && len(list[j].foods) > 0 && t.mentions[list[j].foods[0]].First < x.First {
			list[j].name, list[j].said = t.partName(x.First, x.Last), x.Span
		}
	}
}

// nameTaken gives the making that has the word for its name, -1 for none.
func (t *talk) nameTaken(list []making, w string) int {
	for j := range list {
		if list[j].name != "" && lexicon.Singular(lastWord(list[j].name)) == lexicon.Singular(w) {
			return j
		}
	}
	return -1
}

// keptMakings names makings that begin with the name of a thing that is told to
// keep by itself, whatever the word: "The zobo you should have started", "Zobo is
// okay for five days".
func (t *talk) keptMakings(list []making, names []naming) {
	for n := range names {
		x := &names[n]
		if x.use != kept || x.food != strangeWord || t.nameTaken(list, x.word) >= 0 {
			continue
		}
		for j := range list {
			l := &list[j]
			if l.name != "" || !l.own() || l.from >= x.First || len(l.foods) < 2 {
				continue
			}
			if i := t.has(l.from, l.from+7, t.phrase(x.First, x.Last)); i >= 0 {
				l.name, l.said = t.partName(x.First, x.Last), language.Span{First: i, Last: i + x.Len()}
				break
			}
		}
	}
}

// servesFor gives the part that the words at token i tell the purpose of, and
// how many words they are.
func (t *talk) servesFor(i, end int) (string, int) {
	for _, p := range purposes {
		if n := t.cueAt(p.words, i, end); n > 0 && t.norm(i+n-1) != "it" {
			return p.part, n
		}
	}
	return "", 0
}

// purposeMakings names makings that begin by telling what they are for: "get a
// little dish together to dunk them in".
func (t *talk) purposeMakings(list []making) {
	for j := 1; j < len(list); j++ {
		l := &list[j]
		if l.name != "" || !l.own() || len(l.foods) < 2 {
			continue
		}
		s := t.sentence(l.from)
		for _, p := range purposes {
			if i, n := t.cueIn(p.words, s.First, s.Last); i >= 0 && t.nameTaken(list, lastWord(p.part)) < 0 {
				l.name, l.said = p.part, language.Span{First: i, Last: i + n}
			}
		}
	}
}

// madeMakings names makings by words for what was made, said later: each word the
// last making before it that holds what such a thing is made of.
func (t *talk) madeMakings(list []making, names []naming) {
	told, order := madeWords(names)
	sort.SliceStable(order, func(i, j int) bool { return !t.inTitle(order[i]) && t.inTitle(order[j]) })
	for _, w := range order {
		c := t.lex.Component[w]
		if t.nameTaken(list, w) >= 0 || t.wholeTitle(w) && !(c != nil && c.Served) {
			continue
		}
		if w == "dip" && t.nameTaken(list, "sauce") >= 0 && contains(makingNames(list), "dipping sauce") {
			continue
		}
		if c == nil {
			c = &anything
		}
		if !t.canBePart(c, names, told[w]) {
			continue
		}
		for _, n := range told[w] {
			if j := t.makingFor(list, &names[n], c); j >= 0 {
				list[j].name, list[j].said = t.partName(names[n].First, names[n].Last), names[n].Span
				for _, n := range told[w] {
					list[j].beside = list[j].beside || names[n].use == served
				}
				if b := t.bakedAs(list, w); b != w {
					list[j].name = b
				}
				break
			}
		}
	}
}

// inTitle reports whether the dish's title has the word.
func (t *talk) inTitle(w string) bool {
	for _, x := range language.Norms(t.dishes[0].title) {
		if lexicon.Singular(x) == lexicon.Singular(w) {
			return true
		}
	}
	return false
}

// stageWords are what a thing is called while it is made.
var stageWords = words("dough batter mixture paste")

// bakedAs gives the name of what the dough or batter w becomes, where the talk
// calls it that far more often and nothing is put into it: "crackers"; else w.
func (t *talk) bakedAs(list []making, w string) string {
	title, _, _ := strings.Cut(strings.ToLower(t.dishes[0].title), " with ")
	ws := strings.Fields(title)
	if !stageWords[w] || len(ws) == 0 || t.has(0, len(t.toks), "filling", "stuffing") >= 0 {
		return w
	}
	dish := ws[len(ws)-1]
	if !dishNoun[dish] && !dishNoun[lexicon.Singular(dish)] || t.nameTaken(list, dish) >= 0 {
		return w
	}
	n := 0
	for i := t.has(0, len(t.toks), w); i >= 0; i = t.has(i+1, len(t.toks), w) {
		n++
	}
	if t.saidTimes(dish, 2*n) {
		return dish
	}
	return w
}

func makingNames(list []making) []string {
	var out []string
	for j := range list {
		if list[j].name != "" {
			out = append(out, list[j].name)
		}
	}
	return out
}

// makingFor gives the making without a name that was told before the naming and
// holds what such a thing is made of, the last of those that hold what the
// table names first; -1 for none.
func (t *talk) makingFor(list []making, n *naming, c *lexicon.Component) int {
	best, rank := -1, len(c.From)
	for j := len(list) - 1; j >= 0; j-- {
		l := &list[j]
		if l.from >= n.First || l.name != "" || l.topic >= 0 && l.begun == byTopic && len(l.foods) < 3 {
			continue
		}
		if r := t.rankBefore(c, l.foods, n.First); r < rank {
			best, rank = j, r
		}
	}
	return best
}

// foodMakings names makings by the food they cook, where it is spoken of later as
// a thing beside the rest and never goes into it.
func (t *talk) foodMakings(list []making, names []naming) {
	for j := range list {
		l := &list[j]
		if l.name != "" || len(l.foods) == 0 {
			continue
		}
		best := t.besideRest(l, names)
		if best < 0 {
			continue
		}
		l.name, l.said = t.partName(names[best].First, names[best].Last), names[best].Span
		if l.topic >= 0 {
			h := t.mentions[l.topic].head
			l.name, l.said = t.partName(h.First, h.Last), h
		}
	}
}

// openMakings opens a part for each thing made, if there are two.
func (t *talk) openMakings(list []making, names []naming) {
	main := -1 // the making that is the dish itself
	for j := range list {
		l := &list[j]
		if l.name != "" {
			continue
		}
		switch f := t.makingFood(l); {
		case j > 0 && !l.own() && !t.mainKind(t.makingFood(l)):
			l.joins = true
		case main < 0 && (j == 0 || f >= 0 && len(l.foods) > 1):
			main = j
		case j > 0:
			l.joins = main < 0 || list[j-1].joins || list[j-1].name == "" || t.unfinished(&list[j-1], l, names)
		}
	}
	distinct := map[string]bool{}
	for j := range list {
		if list[j].name != "" {
			distinct[list[j].name] = true
		}
	}
	if len(distinct) == 0 {
		return
	}
	if main >= 0 {
		t.restName = t.nameOfMain(list, names, main)
	}
	if len(distinct) == 1 && !t.apartFromMain(list) {
		return
	}
	if len(distinct) == 1 && (main < 0 || t.restName == "" && t.mainPart(makingNames(list), list[main].to) == "") {
		return
	}
	var marks []partMark
	cur := -1
	for j := range list {
		l := &list[j]
		if l.joins && j > 0 {
			continue
		}
		cur = -1
		if l.name != "" {
			cur = t.partIndex(l.name)
		}
		marks = append(marks, partMark{tok: l.from, name: cur, span: l.said})
	}
	t.parts = marks
	t.finishing(list, names)
	t.returns(list, names)
	t.sortParts()
}

// apartFromMain reports whether the one making with a name is a thing beside
// the rest, rather than the dish itself at an earlier stage.
func (t *talk) apartFromMain(list []making) bool {
	for j := range list {
		if l := &list[j]; l.name != "" && (l.head >= 0 || l.firm || l.begun == byAnnounc || l.beside) {
			return true
		}
	}
	return false
}

// finishing leaves what goes on the plate beside the things made to none of
// them: from where the last of them is served.
func (t *talk) finishing(list []making, names []naming) {
	l := &list[len(list)-1]
	if len(l.foods) < 2 {
		return
	}
	from := t.mentions[l.foods[1]].Last
	for n := range names {
		x := &names[n]
		s := &t.sents[x.sent]
		if s.First < from || x.use != served {
			continue
		}
		j := t.nameTaken(list, x.word)
		if j < 0 {
			continue
		}
		if t.laidOut(s, x.First) || t.has(s.First, s.Last, "serve") >= 0 || j < len(list)-1 {
			t.parts = append(t.parts, partMark{tok: s.First, name: noPart})
			return
		}
	}
}

// returns lets what is done to a thing after it was left belong to its part:
// "Drain the barley. Stir through a lump of butter".
func (t *talk) returns(list []making, names []naming) {
	t.sortParts()
	var again []partMark
	until := 0
	for n := range names {
		x := &names[n]
		if x.use != handled || x.sent < until || x.First-2 < 0 || !t.verbAt(x.First-2) {
			continue
		}
		j := t.nameTaken(list, x.word)
		if j < 0 || x.First < list[j].to {
			continue
		}
		s := &t.sents[x.sent]
		end := x.sent + 1
		for end < len(t.sents) && end < x.sent+6 && t.sents[end].para == s.para && t.worked(&t.sents[end]) {
			end++
		}
		for m := range list {
			if k := int(t.sentOf[list[m].from]); k > x.sent {
				end = min(end, k)
				break
			}
		}
		for m := n + 1; m < len(names) && names[m].sent < end; m++ {
			if o := t.nameTaken(list, names[m].word); o >= 0 && o != j && list[o].from < s.First {
				end = names[m].sent
			}
		}
		if end <= x.sent {
			continue // two things at once: they come together
		}
		back := t.partOf(s.First)
		again = append(again, partMark{tok: s.First, name: t.partIndex(list[j].name), span: list[j].said})
		if end < len(t.sents) && t.partOf(t.sents[end].First) == back {
			again = append(again, partMark{tok: t.sents[end].First, name: back})
		}
		until = end
	}
	t.parts = append(t.parts, again...)
}

// nameOfMain gives the food by which the making main, which has no other name,
// is spoken of; "" for none.
func (t *talk) nameOfMain(list []making, names []naming, main int) string {
	if m := list[main].topic; m >= 0 {
		return t.partName(t.mentions[m].head.First, t.mentions[m].head.Last)
	}
	for n := range names {
		x := &names[n]
		if x.food < 0 || x.use != kept && x.use != served || !t.titleWord(x.Last-1) && !t.dishOver(names, n) {
			continue
		}
		if t.nameTaken(list, x.word) < 0 {
			return t.partName(x.First, x.Last)
		}
	}
	if f := t.makingFood(&list[main]); f >= 0 && (t.titleWord(t.mentions[f].head.Last-1) || main > 0 && t.mainKind(t.makingFood(&list[main]))) {
		return t.partName(t.mentions[f].head.First, t.mentions[f].head.Last)
	}
	if t.mainPart(makingNames(list), list[main].to) != "" {
		return ""
	}
	return t.saidMost(list, main)
}

// saidMost gives the meat, fish or dish that is spoken of most while main is
// made; "" for none.
func (t *talk) saidMost(list []making, main int) string {
	count := map[string]int{}
	best, n := "", 0
	for m := range t.mentions {
		x := &t.mentions[m]
		if x.First >= list[main].to {
			break
		}
		if x.First < list[main].from || x.negated || x.compared || t.sents[t.sentOf[x.First]].kind == aside {
			continue
		}
		switch x.food.Kind {
		case "meat", "poultry", "fish", "shellfish":
		default:
			if !x.food.Dish && !x.food.Made {
				continue
			}
		}
		w := t.norm(x.head.Last - 1)
		if x.head.Len() > 1 && w != x.food.Name && t.lex.Modifiers[w] != lexicon.NoClass {
			w = t.norm(x.head.First)
		}
		if count[w]++; count[w] > n && t.nameTaken(list, w) < 0 {
			best, n = w, count[w]
		}
	}
	return best
}
