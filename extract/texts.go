package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// What a step's text is made of: the verb in its base form and the words said
// after it, in their order. The words are edited, never added to: whole clauses of
// talk are left out by their grammar, fillers and words taken back are left out,
// numbers stand in figures, and a pronoun whose noun was the only one named before
// it gives way to that noun.

// edit is a stretch of the talk as it will be printed.
type edit struct {
	t        *talk
	from, to int
	cut      []bool         // tokens left out, from the first on
	put      map[int]string // what stands for a token
	commas   map[int]bool   // tokens behind which a comma is set
}

func (t *talk) edit(from, to int) *edit {
	if to < from {
		to = from
	}
	return &edit{t: t, from: from, to: to, cut: make([]bool, to-from), put: map[int]string{}}
}

// tidy edits the stretch: clauses first, then words.
func (e *edit) tidy() *edit {
	e.takenBack()
	e.padding()
	e.clauses()
	e.fillers()
	e.praised()
	e.plainly()
	e.repeats()
	e.runOn()
	e.joints()
	e.trim()
	e.figures()
	e.scales()
	return e
}

func (e *edit) drop(a, b int) {
	for i := max(a, e.from); i < min(b, e.to); i++ {
		e.cut[i-e.from] = true
	}
}

func (e *edit) left(i int) bool { return i >= e.from && i < e.to && !e.cut[i-e.from] }

// takenBack leaves out an amount that was put right, with the words that lead to
// the right one.
func (e *edit) takenBack() {
	t := e.t
	for i := e.from; i < e.to; i++ {
		k := t.quantityAt[i]
		if k >= 0 && t.quantities[k].First == i && t.quantities[k].Last < e.to {
			e.saidTwice(&t.quantities[k])
		}
		if k < 0 || !t.quantities[k].void {
			continue
		}
		q := &t.quantities[k]
		for j := q.Last; j < e.to && j < q.Last+takenBackWords; j++ {
			if n := t.quantityAt[j]; n >= 0 && !t.quantities[n].void && t.quantities[n].kind == q.kind {
				e.drop(q.First, t.quantities[n].First)
				break
			}
		}
		i = max(i, q.Last-1)
	}
}

// saidTwice leaves out an amount that is said once more right behind it, and a time
// that only tells how late it is: "half a teaspoon, half a teaspoon of salt", "turn it
// on half an hour ago".
func (e *edit) saidTwice(q *quantity) {
	t := e.t
	if q.kind == duration && t.norm(q.Last) == "ago" {
		e.drop(q.First, q.Last+1)
		return
	}
	n := t.quantityAt[q.Last]
	if n < 0 || t.toks[q.Last-1].After&language.Comma == 0 {
		return
	}
	if o := &t.quantities[n]; o.First == q.Last && o.min == q.min && o.max == q.max && (o.unit == q.unit && o.kind == q.kind || q.kind == count && o.kind == measure) {
		e.drop(q.First, o.First)
	}
}

const (
	takenBackWords = 16 // between an amount and the one that puts it right
	reasonWords    = 8  // "so it doesn't catch"
	conditionWords = 12 // "once the milk is warm"
	nounReach      = 40 // from the beginning of a sentence to the pronoun of its work
	warningWords   = 12 // "don't let the garlic go brown"
)

var (
	joining = words("and but or plus")
	// contracted are subjects with their verb.
	contracted = words("i'm i've i'll i'd you're you've you'll you'd we're we've we'll we'd it's it'll it'd that's that'll there's there'll they're they've they'll they'd he's he'll he'd she's she'll she'd here's this'll what's who's let's mine's nobody's everybody's")
	// nominative pronouns are subjects wherever they stand.
	nominative = words("i we he she")
	openedBy   = words("until till 'til til when whenever once if while as before after what how where who whom which than whatever however whichever wherever unless whether the-way because so")
	firstHand  = words("i i'm i've i'll i'd me my mine myself we we're we've we'll we'd us our ours he he's she she's his her him hers")
	// reasons open clauses that say why or what else would happen.
	reasons = words("because 'cause cause since otherwise else though although which who whose hence")
	// asides open or are words to the viewer.
	asides   = words("job trust believe listen mind bless worry guess thank thanks promise honestly obviously seriously yes no nope yep yeah oh ah ooh hey wait hang sorry anyway anyhow god lord goodness look see tell ask please lovely beautiful gorgeous perfect great brilliant wonderful delicious yum nice done easy simple remember ok okay voila voilà finished bingo presto")
	outright = words("don't never not no")
	denials  = words("doesn't isn't aren't won't wouldn't can't couldn't didn't wasn't")
	// dangling words can't end an instruction.
	// stranded end a clause rightly where the cook ended it: "darker than you're happy with".
	stranded = words("with for of from than at before")
	dangling = words("otherwise else ever let since making sure not and then so but or because 'cause to the a an at with of for as if when while which till until i we just very your you'll i'll we'll some than from my whether before")
	// kinds leave nothing told when the clause behind them goes: "the kind you like".
	kindWords = words("kind sort ones one way thing type stuff")
)

// owned stand for what somebody has.
var owned = words("mine ours yours hers theirs")

// leadsNoun are words whose object follows: no clause begins behind them.
var leadsNoun = words("in into on onto over with without of for from to by at as like than under off about between around through and or the a an")

// ofPerson are words before a person who does nothing.
var ofPerson = words("with of for from to by at as like than and or on about without")

// between may stand between a subject and its verb.
var between = words("just really also all still never only always actually probably both already even")

// subjectAt reports whether a clause with a subject of its own begins at i.
func (t *talk) subjectAt(i int) bool {
	w, k := t.norm(i), i+1
	for k < i+3 && t.in(aBetween, k) && t.toks[k].After == 0 {
		k++
	}
	if t.mentionAt[min(i, len(t.toks)-1)] >= 0 {
		return false
	}
	switch {
	case contracted[w]:
		return true
	case nominative[w]:
		return true
	case owned[w] && t.toks[i].After == 0 && (t.finite(k) || predicating[t.norm(k)] || storyPast[t.norm(k)] || strings.HasSuffix(t.norm(k), "ed")):
		return true
	case (w == "my" || w == "our" || w == "his" || w == "her") && i+1 < len(t.toks) && t.in(ofKin, i+1) && t.toks[i+1].After == 0 && !ofPerson[t.norm(i-1)] && !afterVerb[t.norm(i+2)]:
		return true
	case i >= len(t.toks) || t.toks[i].After != 0:
		return false
	case w == "you" || w == "they" || w == "y'all" || w == "people" || w == "nobody" || w == "everybody" || w == "somebody" || w == "everyone":
		return t.finite(k) || t.baseVerb(k) != nil && w != "nobody" && !afterVerb[t.norm(k)]
	case w == "it" || w == "that" || w == "this" || w == "there" || w == "which":
		return t.finite(k) && t.norm(k) != "be" || w == "it" && t.tellsOfIt(k)
	}
	return false
}

// tellsOfIt reports whether the word at i, which no table has, is a verb with "it" for
// its subject: "it falls apart".
func (t *talk) tellsOfIt(i int) bool {
	w := t.norm(i)
	return len(w) > 4 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "'s") && w != "lots" && w != "always" && w != "across" && w != "towards" && w != "upwards" &&
		w != "sideways" && w != "lengthways" && w != "crossways" && i < len(t.toks) && t.mentionAt[i] < 0 && t.toolAt[i] < 0 && t.madeAt[i] == 0 && t.quantityAt[i] < 0 && t.verbs(i) == nil
}

// finite reports whether the word at i is a verb in a form that needs a subject.
func (t *talk) finite(i int) bool {
	if i >= len(t.toks) || t.mentionAt[i] >= 0 || t.toolAt[i] >= 0 || t.quantityAt[i] >= 0 {
		return false
	}
	w := t.norm(i)
	if finites[w] && w != "like" && w != "mean" && w != "do" {
		return true
	}
	for _, f := range t.verbs(i) {
		if f.Form == lexicon.Third {
			return true
		}
	}
	return false
}

// moments open a clause as "when" does.
var moments = words("second minute moment instant")

// within reports whether the clause that begins at i hangs on a word just before
// it: "until it", "as much as you".
func (t *talk) within(i, from int) bool {
	for k := i - 1; k >= from && k >= i-4; k-- {
		if t.toks[k].After != 0 && k < i-1 {
			return false
		}
		if k == i-1 && moments[t.norm(k)] && t.norm(k-1) == "the" {
			return true // "the second they're cooked"
		}
		if openedBy[t.norm(k)] {
			if i-k > 2 && joining[t.norm(i)] && t.subjectAt(k+1) {
				return false // "as you go and that was all"
			}
			return t.norm(k) != "because" && t.norm(k) != "so"
		}
		if t.norm(k) == "sure" && (t.norm(k-1) == "making" || t.norm(k-1) == "make") {
			return true // "making sure you beat well"
		}
		if t.actionAt[k] >= 0 {
			return false
		}
	}
	return false
}

// turn gives whether a new clause begins at i though nothing marks it.
func (e *edit) turn(i int) bool {
	t := e.t
	if !e.left(i) {
		return false
	}
	if t.in(anUntil, i) && t.ofCook(i+1, i+2) {
		return true
	}
	h := i
	if joining[t.norm(h)] || t.norm(h) == "so" || t.norm(h) == "because" || t.norm(h) == "'cause" || t.norm(h) == "cause" {
		h++
		if h < e.to && fillers[t.norm(h)] && t.norm(h) != "like" {
			h++
		}
	}
	if h >= e.to {
		return false
	}
	if h > i && (t.norm(i) == "because" || t.norm(i) == "'cause" || t.norm(i) == "cause") {
		return true
	}
	if h > i && t.norm(i) == "so" && t.purposeAt(i, e.to) {
		return true
	}
	if h == i && (joining[t.norm(i-1)] || t.norm(i-1) == "so" || t.norm(i-1) == "because") {
		return false // it began one word earlier
	}
	if h > i && e.signBefore(i) && !(t.subjectAt(h) && t.toldPast(h, min(h+2, e.to))) {
		return false
	}
	if w := t.norm(h - 1); h == i && strings.HasPrefix(t.norm(h), "what") && (w == "keep" || w == "save" || w == "reserve") {
		return false // "keep what's in the bowl"
	}
	return t.subjectAt(h) && !t.within(i, e.from) || t.loose && e.nounSubject(h)
}

// predicating are verbs of a thing that is told about, and hardly ever nouns.
var predicating = words("is are was were have had should may might isn't aren't wasn't will won't can can't cannot would must has does doesn't goes takes comes gets makes needs wants gives keeps looks tastes smells saves depends means sticks burns wakes lives")

// openedUp are words after a thing's "'s" that make it "is" or "has".
var openedUp = words("already as not too so been got gone a the still just really always never only easier better")

// nounSubject reports whether a thing that is told about begins at i, where no mark
// tells: "... 30 minutes a firm cake takes a glaze".
func (e *edit) nounSubject(i int) bool {
	t := e.t
	prev := t.norm(i - 1)
	if i <= e.from || leadsNoun[prev] || openedBy[prev] || openedBy[t.norm(i-2)] && t.norm(i-2) != "so" || determiners[prev] && prev != "it" && prev != "them" && prev != "everything" && prev != "that" && prev != "all" || t.actionAt[i-1] >= 0 {
		return false
	}
	w := t.norm(i)
	bare := t.mentionAt[i] >= 0 && t.mentions[t.mentionAt[i]].First == i
	switch {
	case bare && (t.quantityAt[i-1] >= 0 || t.lex.Modifiers[prev] != lexicon.NoClass):
		return false // "half a teaspoon | thyme is a bully"
	case !bare && (!determiners[w] || w == "it" || w == "them" || w == "him" || w == "two" || w == "three" || w == "half"):
		return false
	}
	for k := i + 1; k < e.to && k < i+6; k++ {
		if t.written(k-1) != 0 || t.actionAt[k] >= 0 || determiners[t.norm(k)] || bare && t.mentionAt[k] >= 0 && t.mentions[t.mentionAt[k]].First == k {
			return false
		}
		w := t.norm(k)
		if predicating[w] {
			return true
		}
		if strings.HasSuffix(w, "'s") {
			next := t.norm(k + 1)
			return openedUp[next] || strings.HasSuffix(next, "ing") && t.mentionAt[min(k+1, len(t.toks)-1)] < 0
		}
		if leadsNoun[w] || openedBy[w] || t.quantityAt[k] >= 0 && t.mentionAt[k] < 0 {
			return false
		}
	}
	return false
}

// signBefore reports whether the clause that goes on at i is a sign of doneness:
// "until the oil comes out and it turns dark".
func (e *edit) signBefore(i int) bool {
	t := e.t
	for k := i - 1; k >= e.from && k >= i-untilWords && t.toks[k].After == 0 && t.actionAt[k] < 0; k-- {
		switch t.norm(k) {
		case "until", "till", "til", "'til":
			return true
		}
	}
	return false
}

// purposeAt reports whether "so" at i opens a clause: "so it doesn't stick".
func (t *talk) purposeAt(i, to int) bool {
	switch w := t.norm(i + 1); {
	case i+2 >= to:
		return false
	case w == "that" || w == "it" || w == "they" || w == "the" || w == "everything" || w == "nothing" || w == "nobody" || w == "there's" || w == "your":
		return true
	default:
		return t.subjectAt(i + 1)
	}
}

// clauses leaves out the clauses that tell nothing to do.
func (e *edit) clauses() {
	t := e.t
	after := false
	for a := e.from; a < e.to; {
		b := a + 1
		for b < e.to && !t.clauseMarked(b) && !e.turn(b) {
			b++
		}
		if !e.all(a, b) {
			after = e.clause(a, b, after)
		}
		a = b
	}
}

// clauseMarked reports whether a mark ends a clause before token b. Where it was guessed, a
// word that opens a clause must follow: "a cold tart takes a cleaner, slice".
func (t *talk) clauseMarked(b int) bool {
	if t.written(b-1) != 0 {
		return true
	}
	w := t.norm(b)
	return t.toks[b-1].After != 0 && (joining[w] || openedBy[w] || linking[w] || opensObject[w] || w == "not" || w == "no" || w == "otherwise" || t.subjectAt(b) || t.actionAt[b] >= 0 || t.quantityAt[b] >= 0 || t.strongVerb(w))
}

// all reports whether all of tokens [a, b) are left out.
func (e *edit) all(a, b int) bool {
	for i := a; i < b; i++ {
		if e.left(i) {
			return false
		}
	}
	return true
}

// clause leaves out tokens [a, b) where they are talk, all but a figure they tell, and
// reports whether it did. after tells that the clause before was.
func (e *edit) clause(a, b int, after bool) bool {
	t := e.t
	h := a
	for h < b && (!e.left(h) || joining[t.norm(h)] || fillers[t.norm(h)] && t.norm(h) != "so" && t.norm(h) != "like" && t.norm(h) != "well" && t.norm(h) != "right" && t.norm(h) != "now" && t.norm(h) != "just") {
		h++
	}
	if h < b && t.norm(h) == "just" {
		h++
	}
	if h >= b {
		return after
	}
	w := t.norm(h)
	marked := a > 0 && t.toks[a-1].After != 0
	first := a == e.from
	if first {
		if h == a && (reasons[w] || nominative[w] || contracted[w] || marked && (t.subjectAt(h) || t.nounClause(h, b) && e.tellsFigure(h, b) == nil)) {
			e.drop(a, b)
			return true
		}
		if h > a && subjects[w] && t.norm(h+1) == "don't" {
			e.drop(a, b) // "pour, and you don't answer the phone"
			return true
		}
		return false
	}
	if marked && (w == "is" || w == "are") && !subjects[t.norm(h+1)] {
		e.drop(h, h+1)
		return false
	}
	gone := false
	switch {
	case h > a && joining[t.norm(h-1)] && (w == "if" || w == "when" || w == "once") && (b == e.to || e.to-b <= 2 && !t.hasFood(b, e.to) && !t.hasQuantity(b, e.to)):
		gone = true // its work is told elsewhere
	case marked && t.chatted(h, b):
		gone = true
	case t.toks[b-1].After&language.Question != 0 && !t.loose:
		gone = true
	case t.subjectAt(h) || t.nounClause(h, b) || t.loose && e.nounSubject(h) || marked && (w == "it" || w == "they" || w == "you") && b-h > 1 || denials[w] || marked && (w == "are" || w == "is" || w == "do" || w == "does" || w == "did" || w == "can") && subjects[t.norm(h+1)] && !(w == "do" && t.norm(h+1) == "it"):
		if q := e.tellsFigure(h, b); q != nil {
			first := q.First
			if approx[t.norm(first-1)] > 0 && t.norm(first-1) != "some" {
				first--
			}
			e.drop(a, first)
			e.drop(q.Last, b)
			return false
		}
		gone = true
	case after && b-h <= 3 && marked && !t.hasFood(h, b) && !t.hasQuantity(h, b) && !openedBy[w] && !inward[w] && !onward[w] && t.lex.Modifiers[w] == lexicon.NoClass && len(t.lex.Verbs(w)) == 0:
		gone = true // goes on with the talk
	case reasons[w], w == "like" && !t.hasQuantity(h, b), w == "if" && t.norm(h+1) == "not" && marked && t.subjectAt(h+2):
		gone = true // "..., if not it tears"
	case w == "so":
		gone = !e.purpose(h, b)
	case asides[w] && !t.hasFood(h, b) && !t.hasQuantity(h, b) && t.norm(h+1) != "and" && !(w == "no" || w == "done" && b-h > 2):
		gone = true
	case w == "no" && (h+1 == b || t.subjectAt(h+1) || asides[t.norm(h+1)]):
		gone = true
	case outright[w] && (b-h > warningWords || t.ofPeople(h, b)):
		gone = true
	case untils[w]:
		gone = t.ofCook(h, b)
	case t.ofPeople(h, b) && !t.hasQuantity(h, b), t.toldPast(h, b):
		gone = true
	case t.spokenTo(h, b):
		gone = true
	}
	if !gone {
		return false
	}
	e.drop(a, b)
	// "those two I pounded together": nothing is left of it but a pronoun
	for k := a - 1; k > e.from && t.toks[a-1].After == 0 && pronounLike[t.norm(k)]; k-- {
		if t.toks[k-1].After&language.Comma != 0 {
			e.drop(k, a)
			break
		}
	}
	// "the kind you like": nothing is left of it but its opening
	k := a - 1
	if k > e.from && t.toks[k].After == 0 && kindWords[t.norm(k)] && determiners[t.norm(k-1)] && t.subjectAt(h) {
		e.drop(k-1, a)
	}
	return true
}

// pronounLike are words that stand for what was named.
var pronounLike = words("that this those these one ones two three both it")

// unworked are verbs of orders that are no work of the kitchen: "sit down", "don't be shy".
var unworked = words("be go sit enjoy come relax panic worry fret ask answer call tell wait commit pretend guess trust fear rush dance sing pray laugh cry cheat argue look listen")

// lookless are verbs of the dish or the work, said without a subject.
var lookless = words("depends saves takes makes gives needs tastes smells feels works helps means looks wants")

// chatted reports whether tokens [a, b), a clause between marks, tell the viewer
// something that is no work: "be generous", "don't answer the phone", "no need for a
// knife", "depends on your eggs", "and commit".
func (t *talk) chatted(a, b int) bool {
	if t.hasQuantity(a, b) {
		return false
	}
	i := a
	denied := outright[t.norm(i)] && t.norm(i) != "no"
	if denied {
		i++
	}
	w := t.norm(i)
	switch {
	case w == "no" && noneOf[t.norm(i+1)]:
		return true
	case w == "stand" && (t.norm(i+1) == "back" || t.norm(i+1) == "clear"):
		return true
	case unworked[w] && t.actionAt[i] < 0 && !t.hasFood(i, b) && !(denied && w == "go") && !inward[t.norm(i+1)]:
		return true
	case lookless[w] && !denied && t.actionAt[i] < 0 && t.mentionAt[i] < 0:
		return true
	}
	return false
}

// purpose reports whether tokens [a, b) after "so" say shortly what the work is
// for: "so it doesn't stick".
func (e *edit) purpose(a, b int) bool {
	t := e.t
	if b-a > reasonWords || b-a < 3 || t.ofPeople(a, b) || t.toldPast(a, b) || t.has(a, b, "like", "you", "you're", "you've", "you'll", "you'd", "y'all") >= 0 {
		return false
	}
	switch w := t.norm(a + 1); w {
	case "it", "it's", "they", "they're", "the", "everything", "nothing", "your":
		return true
	}
	return false
}

// nounClause reports whether tokens [a, b) are a clause whose subject is a noun:
// "the jacket comes off by itself".
func (t *talk) nounClause(a, b int) bool {
	if w := t.norm(a); openedBy[w] || inward[w] || onward[w] || w == "with" || w == "and" || w == "not" || w == "or" || w == "whatever's" {
		return false
	}
	for i := a + 1; i < b && i < a+10; i++ {
		w := t.norm(i)
		if (w == "will" || w == "won't") && t.norm(a) != "that" {
			return true
		}
		if i >= a+6 {
			continue
		}
		if openedBy[w] || t.actionAt[i] >= 0 {
			return false
		}
		if (w == "itself" || w == "themselves") && i > a+1 && t.norm(i-1) != "by" && t.norm(i-1) != "of" {
			return true // "the plain sort glues itself to the cloth"
		}
		if next := t.norm(i + 1); strings.HasSuffix(w, "'s") && determiners[t.norm(a)] && (next == "got" || next == "gone" || next == "been") {
			return true
		}
		if strings.HasSuffix(w, "'s") && determiners[t.norm(a)] && i+1 < b && i+2 >= b && t.mentionAt[i+1] < 0 && t.toolAt[i+1] < 0 && t.madeAt[i+1] == 0 {
			return true // "a shower cap's fine"
		}
		switch w {
		case "is", "are", "was", "were", "isn't", "aren't", "will", "won't", "has", "have", "can", "can't", "doesn't", "does", "would", "wouldn't", "should", "shouldn't":
			return !(w == "have" && i == a+1) && t.norm(a) != "as"
		}
		if next := t.norm(i + 1); determiners[t.norm(a)] && i >= a+2 && i+1 < b && t.mentionAt[i-1] >= 0 && t.mentionAt[i] < 0 && t.quantityAt[i] < 0 && strings.HasSuffix(w, "s") && len(w) > 3 && (next == "everything" || next == "it" || next == "them" || next == "you") {
			return true // "a wet onion ruins everything"
		}
		if determiners[t.norm(a)] && t.norm(a) != "all" && t.norm(a) != "both" && i >= a+2 && t.finite(i) && (t.mentionAt[i-1] >= 0 || t.norm(i+1) == "" || afterVerb[t.norm(i+1)] || t.norm(i+1) == "in") {
			return true
		}
	}
	return false
}

// ofPeople reports whether tokens [a, b) speak of the cook or of someone.
func (t *talk) ofPeople(a, b int) bool {
	for i := a; i < b; i++ {
		if (t.in(aFirstHand, i) || t.in(ofKin, i)) && t.mentionAt[i] < 0 {
			return true
		}
	}
	return false
}

var (
	untils  = words("until till til 'til")
	cookish = words("i i'm i've i'll i'd me my mine myself")
)

// ofCook reports whether tokens [a, b) speak of the cook alone: "till I'm bored" is no
// sign of doneness, as "until we have a dough" is.
func (t *talk) ofCook(a, b int) bool {
	for i := a; i < b; i++ {
		if cookish[t.norm(i)] {
			return true
		}
	}
	return false
}

// toldPast reports whether tokens [a, b) tell of what was.
func (t *talk) toldPast(a, b int) bool {
	for i := a; i < b; i++ {
		switch t.norm(i) {
		case "was", "were", "did", "didn't", "wasn't", "weren't", "said", "went", "came", "had", "thought", "told":
			return true
		}
	}
	return false
}

// scales are names that are written with a capital and are nobody's.
var scales = words("fahrenheit celsius centigrade dutch english french italian greek chinese japanese mexican")

// spokenTo reports whether tokens [a, b) are only a name the cook speaks to.
func (t *talk) spokenTo(a, b int) bool {
	if !t.punctuated || t.loose || b-a > 2 {
		return false
	}
	for i := a; i < b; i++ {
		if !t.toks[i].Cap || t.mentionAt[i] >= 0 || t.toolAt[i] >= 0 || t.quantityAt[i] >= 0 || t.madeAt[i] > 0 || t.sentence(i).First == i || scales[t.norm(i)] {
			return false
		}
	}
	return true
}

// tellsFigure gives the time, heat or measure that a clause tells of the work: "it'll
// take ten minutes", "that's two cups". A clause that denies one tells none.
func (e *edit) tellsFigure(a, b int) *quantity {
	t := e.t
	for i := a; i < b && i < a+6; i++ {
		switch w := t.norm(i); w {
		case "not", "never", "don't", "doesn't", "won't", "can't", "no", "than", "isn't", "wasn't", "didn't", "if", "when":
			return nil
		}
		if i > a && firstHand[t.norm(i)] || firstHand[t.norm(a)] || t.toldPast(a, i) {
			return nil
		}
		k := t.quantityAt[i]
		if k < 0 {
			continue
		}
		q := &t.quantities[k]
		if q.void || q.First < a || q.Last > b || b-q.Last > 4 {
			return nil
		}
		switch q.kind {
		case heat:
			return q
		case duration:
			if t.cookingTime(q, t.sentence(i)) && !(q.article && q.max <= 1 && q.unit != "hour") {
				return q
			}
		case measure:
			if t.norm(a) == "that's" && q.food < 0 || t.norm(a) == "that's" && b == q.Last {
				return q
			}
		}
		return nil
	}
	return nil
}

// padding are words in a row that a speaker fills with.
var padding = cues("you know", "by now", "of course", "go ahead and", "at this point", "right now", "all right", "by the way", "believe me", "trust me", "if you will", "as i say",
	"as i said", "like i said", "for me", "for you", "my loves", "mind you", "or whatever", "and stuff", "or something", "and everything")

// row reports whether the words stand at i with no mark between.
func (t *talk) row(i int, ws []string) bool {
	for k, w := range ws {
		if t.norm(i+k) != w || k > 0 && t.toks[i+k-1].After != 0 {
			return false
		}
	}
	return true
}

// padding leaves out the phrases that a speaker fills with.
func (e *edit) padding() {
	for i := e.from; i < e.to; i++ {
		for _, ws := range padding.at(e.t, i) {
			if i+len(ws) <= e.to && e.t.row(i, ws) {
				e.drop(i, i+len(ws))
			}
		}
	}
}

// fillers leaves out the words that a speaker fills with.
func (e *edit) fillers() {
	t := e.t
	for i := e.from; i < e.to; i++ {
		if !e.left(i) || t.mentionAt[i] >= 0 {
			continue
		}
		w, next := t.norm(i), t.norm(i+1)
		if (w == "sort" || w == "kind") && next == "of" && i > e.from && i+2 < e.to {
			switch p := t.norm(i - 1); {
			case p == "some" || p == "any" || p == "this" || p == "that" || p == "what" || p == "every" || p == "each" || p == "other" || p == "the":
			case (t.norm(i+2) == "a" || t.norm(i+2) == "an") && determiners[t.norm(i-2)]:
				e.drop(i, i+3) // "a flat sort of a cake"
			default:
				e.drop(i, i+2)
			}
			continue
		}
		if w == "alright" {
			e.drop(i, i+1)
		}
		if (w == "my" || w == "our") && i+1 < e.to && (t.hasFood(i+1, min(i+3, e.to))) {
			e.put[i] = "the"
		}
		if !e.left(i) || !fillers[w] {
			continue
		}
		end := i+1 == e.to || t.toks[i].After != 0
		begins := i > e.from && t.toks[i-1].After != 0
		switch w {
		case "like":
			k := t.quantityAt[min(i+1, len(t.toks)-1)]
			num, _ := language.ReadNumber(t.toks, i+1)
			if t.asYouLike(i) || k < 0 || num.Article && t.quantities[k].food < 0 && t.quantities[k].kind != duration || begins && !end {
				continue // "fold it like a letter"
			}
		case "well":
			if !(begins && end) {
				continue
			}
		case "right":
			if !(begins && end) && next != "back" && next != "there" && (next != "in" || t.norm(i+2) != "there") {
				continue
			}
		case "now":
			if !begins && !(i+1 == e.to) {
				continue
			}
		case "then":
			continue
		case "so":
			if t.norm(i-1) == "or" { // "an hour or so"
				continue
			}
			if t.norm(i-1) == "ever" && e.left(i-1) { // "ever so gently"
				e.drop(i-1, i)
			}
			if next == "much" || next == "many" || next == "far" || next == "long" {
				continue
			}
			if begins && e.left(i+1) || e.left(i+1) && t.purposeAt(i, e.to) {
				continue
			}
		case "just":
			switch t.norm(i - 1) {
			case "it's", "they're", "is", "are", "that's":
				continue // "until it's just set"
			}
			switch next {
			case "until", "till", "before", "enough", "under", "over", "short", "shy", "past":
				continue
			}
		case "love", "honey", "mate", "sorry":
			if !begins && !end {
				continue
			}
			if w == "sorry" && t.norm(i-1) == "i'm" {
				e.drop(i-1, i)
			}
		}
		e.drop(i, i+1)
	}
}

var (
	praise = words("nice lovely beautiful gorgeous amazing wonderful delicious fantastic pretty")
	// shown stand for what the viewer sees, not the reader.
	shown = words("this that so")
	// leadsThing may stand before a word of praise in front of a thing.
	leadsThing = words("a an the some any this that these those your my our all of with in and nice big little good")
)

// praised leaves out words of praise before what they praise, and what only the viewer
// can see: "a nice big pot", "nice and tight", "with your fingers like this".
func (e *edit) praised() {
	t := e.t
	for i := e.from; i < e.to; i++ {
		if !e.left(i) || t.mentionAt[i] >= 0 && !praise[t.norm(i)] {
			continue
		}
		w, next := t.norm(i), t.norm(i+1)
		end := i+1 >= e.to || t.toks[i].After != 0
		switch {
		case (w == "nice" || w == "good" && t.qualifies(i+2)) && next == "and" && !end && i+2 < e.to:
			e.drop(i, i+2)
		case t.in(aPraise, i) && !end && (leadsThing[t.norm(i-1)] || i == e.from) && next != "and" && !leadsNoun[next]:
			e.drop(i, i+1)
			if a := t.norm(i - 1); (a == "an" || a == "a") && i > e.from && e.left(i-1) {
				e.put[i-1] = articleFor(next)
			}
		case w == "like" && !end && shown[next] && (i+2 >= e.to || t.toks[i+1].After != 0) && i > e.from:
			e.drop(i, i+2)
		case (w == "your" || w == "my" || w == "our") && !end && !t.in(ofKin, i+1) && t.thingSoon(i+1, e.to):
			e.put[i] = "the"
		case (w == "yourself" || w == "yourselves") && !end && (next == "a" || next == "an" || next == "some"):
			e.drop(i, i+1) // "grab yourself a bowl"
		}
	}
}

// articleFor gives the article before a word, by its first letter.
func articleFor(w string) string {
	if w != "" && strings.IndexByte("aeiou", w[0]) >= 0 {
		return "an"
	}
	return "a"
}

// qualifies reports whether token i says how a thing is.
func (t *talk) qualifies(i int) bool {
	w := t.norm(i)
	return t.lex.Doneness[w] || t.lex.Modifiers[w] != lexicon.NoClass
}

// thingSoon reports whether a food, a tool or a mixture stands at i or behind its
// adjectives.
func (t *talk) thingSoon(i, to int) bool {
	for k := i; k < to && k < i+3; k++ {
		if t.mentionAt[k] >= 0 || t.toolAt[k] >= 0 || t.madeAt[k] > 0 {
			return true
		}
		if t.toks[k].After != 0 || leadsNoun[t.norm(k)] || t.actionAt[k] >= 0 {
			return false
		}
	}
	return false
}

// repeats leaves out words said twice in a row.
func (e *edit) repeats() {
	t := e.t
	last := -1
	for i := e.from; i < e.to; i++ {
		if !e.left(i) {
			continue
		}
		if last >= 0 && t.norm(last) == t.norm(i) && t.toks[last].After&language.Comma != 0 && t.baseVerb(i) != nil && t.toolAt[i] < 0 && t.quantityAt[i] < 0 {
			e.drop(last, last+1) // "and pleat, pleat, pleat, close"
			last = i
			continue
		}
		if last >= 0 && t.norm(last) == t.norm(i) && t.toks[last].Word != t.toks[i].Word && (t.toks[last].After == 0 || i+1 >= e.to || t.toks[i].After != 0) && t.quantityAt[i] < 0 && !t.toks[i].Joined {
			e.drop(last, last+1)
		}
		last = i
	}
}

// asked are words of a question the speaker asks in between: "no, what am I saying".
var asked = words("what where who how why am is are was were did does do no yes")

// questionWord are what such a question begins with.
var questionWord = words("what where who how why no yes")

// unasked leaves out the opening of a question whose subject is gone with its clause.
func (e *edit) unasked() {
	last := e.to - 1
	for last >= e.from && !e.left(last) {
		last--
	}
	k := last
	for k > e.from && e.left(k) && asked[e.t.norm(k)] && e.t.mentionAt[k] < 0 && (k == last || e.t.toks[k].After == 0) {
		k--
	}
	if w := e.t.norm(k); k < last && questionWord[e.t.norm(k+1)] && !subjects[w] && w != "that" && w != "or" && w != "if" {
		e.drop(k+1, last+1)
	}
}

// nominal are subjects that a clause which was cut off leaves behind.
var nominal = words("you i we it they")

// trim leaves out words that lead to nothing at the end.
func (e *edit) trim() {
	t := e.t
	if t.loose {
		e.unasked()
	}
	for i := e.to - 1; i >= e.from; i-- {
		if !e.left(i) {
			continue
		}
		if w := t.norm(i); i > e.from && (w == "then" || w == "again") && t.norm(i-1) == "and" && t.norm(i-2) == "now" {
			return // "now and then"
		}
		if t.norm(i) == "so" && t.norm(i-1) == "or" {
			return // "an hour or so"
		}
		if t.norm(i) == "or" && t.norm(i+1) == "so" && t.toks[i].After == 0 && t.quantityAt[i-1] >= 0 {
			e.put[i] = "or so"
			return
		}
		if i > e.from+1 && t.toks[i].After == 0 && nominal[t.norm(i)] && (provisos[t.norm(i-1)] || reasons[t.norm(i-1)] || t.norm(i-1) == "while" || t.norm(i-1) == "so") {
			e.drop(i, i+1) // "fold it over if you"
			continue
		}
		if !dangling[t.norm(i)] || stranded[t.norm(i)] && (t.toks[i].After != 0 || i+1 >= t.sentence(i).Last) || t.mentionAt[i] >= 0 || t.quantityAt[i] >= 0 && t.norm(i) != "and" {
			w := t.norm(i)
			if w == "like" && i+1 < e.to && !t.asYouLike(i) {
				e.drop(i, i+1)
				continue
			}
			if w == "don't" && i > e.from && t.norm(i-1) == "and" {
				e.drop(i, i+1) // "and don't you stop moving it"
				continue
			}
			if (w == "you" || w == "now" || w == "it" || w == "once" || w == "there") && i > e.from && (joining[t.norm(i-1)] || t.norm(i-1) == "then" || t.norm(i-1) == "so") {
				e.drop(i, i+1)
				continue
			}
			return
		}
		e.drop(i, i+1)
	}
}

// asYouLike reports whether "like" at i is a verb with its subject.
func (t *talk) asYouLike(i int) bool {
	switch t.norm(i - 1) {
	case "you", "they", "y'all", "we", "people", "everyone":
		return true
	}
	return false
}

// figures writes numbers as figures, as the lists of a recipe have them. What is
// said in another way stays: "half an hour", "a dozen", "in two goes".
func (e *edit) figures() {
	t := e.t
	for i := e.from; i < e.to; i++ {
		k := t.quantityAt[i]
		if k < 0 || !e.left(i) {
			continue
		}
		q := &t.quantities[k]
		if q.Last > e.to && !t.onlyScale(e.to, q.Last) || i > e.from && t.toks[i-1].Word == t.toks[i].Word {
			continue
		}
		num, n := language.ReadNumber(t.toks[:min(q.Last, e.to)], i)
		if n == 0 || num.Article && n == 1 || num.Colloquial && t.norm(i+n-1) == "couple" || t.has(i, i+n, "couple", "few") >= 0 {
			continue
		}
		last := i + n - 1
		if t.norm(i-1) == "and" && num.Min < 1 && i-1 > q.First {
			i = last // "a pound and a half"
			continue
		}
		if last+1 < len(t.toks) && t.toks[last+1].Word == t.toks[last].Word {
			continue
		}
		if t.asSaid(q, i, n, num) {
			i = last
			continue
		}
		has := true
		for j := i; j <= last; j++ {
			has = has && e.left(j)
		}
		if has {
			text := schema.Quantity{Min: num.Min, Max: num.Max}.String()
			if num.Min != num.Max && t.has(i, last+1, "or") >= 0 {
				text = strings.Replace(text, " to ", " or ", 1)
			}
			if q.kind == duration && last+1 == q.Last && q.unit != "" {
				text += " " + q.unit + "s" // the cook left the unit out
			}
			if t.toks[last].After != 0 && last+1 < e.to {
				text += ","
			}
			e.drop(i, last+1)
			e.cut[i-e.from] = false
			e.put[i] = text
			if num.Max < 1 && t.toks[last].After == 0 {
				// "half a cup", "a quarter of an inch"
				k := last + 1
				if t.norm(k) == "of" {
					k++
				}
				if (t.norm(k) == "a" || t.norm(k) == "an") && k+1 < q.Last {
					e.drop(last+1, k+1)
				}
			}
		}
		i = last
	}
}

// scales writes the scale of a temperature that was told without one, and the second
// of two for the same heat in brackets: "225 C (435 F)".
func (e *edit) scales() {
	t := e.t
	var prev *quantity
	for i := e.from; i < e.to; i++ {
		k := t.quantityAt[i]
		if k < 0 || t.quantities[k].First != i {
			continue
		}
		q := &t.quantities[k]
		i = max(i, q.Last-1)
		if q.kind != heat || q.void || q.Last > e.to && !t.onlyScale(e.to, q.Last) || q.unit != "C" && q.unit != "F" {
			continue
		}
		before := prev
		prev = q
		if q.scale && e.scaleLeft(q) {
			continue
		}
		// the number is printed at its first token that is left, with nothing but "degrees" behind
		at := -1
		for j := min(q.Last, e.to) - 1; j >= q.First; j-- {
			switch w := t.norm(j); {
			case !e.left(j):
			case w == "degree" || w == "degrees":
			case at < 0:
				at = j
			}
		}
		if at < 0 || !strings.ContainsAny(e.word(at), "0123456789") {
			continue
		}
		text := strings.TrimRight(e.word(at), ",.") + " " + q.unit
		if before != nil && before.unit != q.unit && e.all(before.Last, q.First) && !e.scaleLeft(before) {
			for j := before.Last - 1; j >= before.First; j-- {
				if e.left(j) {
					e.put[j] = strings.TrimRight(e.word(j), ",")
					break
				}
			}
			text = "(" + text + ")"
		}
		e.drop(at+1, q.Last)
		if t.toks[q.Last-1].After != 0 && q.Last < e.to {
			text += ","
		}
		e.put[at] = text
	}
}

// onlyScale reports whether tokens [a, b) are nothing but the scale of a temperature:
// "two hundred and ten degrees. Celsius".
func (t *talk) onlyScale(a, b int) bool {
	for i := a; i < b; i++ {
		if !scales[t.norm(i)] {
			return false
		}
	}
	return true
}

// scaleLeft reports whether the scale that was said of a temperature is printed.
func (e *edit) scaleLeft(q *quantity) bool {
	for i := q.First; i < q.Last+scaleReach && i < e.to; i++ {
		switch w := e.t.norm(i); {
		case i >= q.Last && e.t.quantityAt[i] >= 0:
			return false
		case !e.left(i):
		case w == "c" || w == "f" || scales[w]:
			return true
		}
	}
	return false
}

// lastLeft gives the last token that is printed, -1 for none.
func (e *edit) lastLeft() int {
	for i := e.to - 1; i >= e.from; i-- {
		if e.left(i) {
			return i
		}
	}
	return -1
}

// word is what is printed for token i.
func (e *edit) word(i int) string {
	if p, ok := e.put[i]; ok {
		return p
	}
	return e.t.wordText(i, false)
}

// runOn parts what runs on without a mark: a comma between the amounts of a list, "add"
// before what goes in behind a finished order ("cook it a minute a glass of wine"), and
// what the next order works on is left to that: "a knob of butter two eggs separate them".
func (e *edit) runOn() {
	t := e.t
	if !t.loose {
		return
	}
	whole := opensObject[t.norm(e.from)] || opensObject[t.norm(e.from+1)] && afterVerb[t.norm(e.from)]
	for i := e.from + 1; i < e.to; i++ {
		k := t.quantityAt[i]
		if k < 0 || t.quantities[k].First != i || !e.left(i) || !e.left(i-1) {
			continue
		}
		q := &t.quantities[k]
		w := t.norm(i - 1)
		if q.food < 0 || q.void || q.kind != measure && q.kind != count || t.toks[i-1].After != 0 || leadsNoun[w] || joining[w] || determiners[w] && !opensObject[w] ||
			openedBy[w] || t.actionAt[i-1] >= 0 || t.mentions[q.food].First < i {
			continue
		}
		p := t.quantityAt[i-1]
		named := t.mentionAt[i-1] >= 0
		last := t.mentions[q.food].Last
		switch {
		case last >= e.to && t.actionAt[min(e.to, len(t.toks)-1)] >= 0 && (t.norm(e.to+1) == "it" || t.norm(e.to+1) == "them"):
			e.drop(i, e.to)
			return
		case named:
			e.put[i-1] = e.word(i-1) + ","
		case whole && (p >= 0 && t.quantities[p].kind == duration || e.inVessel(i)) && !e.names(t.mentions[q.food].name, i):
			e.put[i-1] = e.word(i-1) + thenNext + "add"
			whole = false
		}
	}
}

// inVessel reports whether the words before token i put something in a vessel: "put it in
// the mixer".
func (e *edit) inVessel(i int) bool {
	t := e.t
	k := i - 1
	if k < e.from || t.toolAt[k] < 0 || !vessels[t.tools[t.toolAt[k]].eq.Kind] {
		return false
	}
	k = t.tools[t.toolAt[k]].First - 1
	for k > e.from && (determiners[t.norm(k)] || t.lex.Modifiers[t.norm(k)] == lexicon.SizeWord) {
		k--
	}
	return k >= e.from && (t.norm(k) == "in" || t.norm(k) == "into")
}

// names reports whether a food is named in the stretch before token b.
func (e *edit) names(name string, b int) bool {
	for _, m := range e.t.mentionsIn(e.from, b) {
		if e.t.mentions[m].name == name {
			return true
		}
	}
	return false
}

// asSaid reports whether a number stays as it was said.
func (t *talk) asSaid(q *quantity, i, n int, num language.Number) bool {
	for j := i; j < i+n; j++ {
		if strings.ContainsAny(t.norm(j), "0123456789/") {
			return true
		}
	}
	switch q.kind {
	case duration:
		if w := t.norm(i - 1); (w == "or" || w == "to") && t.norm(i-3) == "a" {
			return true // "a minute or two"
		}
		return num.Min < 2 || num.Min != float64(int(num.Min)) || t.norm(i) == "a" && num.Min < 100
	case heat, length:
		return false
	case measure:
		return false
	case count:
		return q.food < 0 && num.Min < 10 || num.Min < 2 || t.norm(i) == "a"
	}
	return true
}

// text prints what is left.
func (e *edit) text() string {
	t := e.t
	var out []string
	word := int32(-1)
	last := -1
	for i := e.to - 1; i >= e.from; i-- {
		if e.left(i) {
			last = i
			break
		}
	}
	for i := e.from; i < e.to; i++ {
		if i > e.from && e.commas[i-1] && len(out) > 0 {
			out[len(out)-1] = strings.TrimRight(out[len(out)-1], ",") + ","
		}
		if !e.left(i) {
			continue
		}
		if p, ok := e.put[i]; ok {
			out = append(out, p)
			word = t.toks[i].Word
			continue
		}
		if t.toks[i].Word == word {
			continue // the other half of a hyphenated word
		}
		word = t.toks[i].Word
		w := t.wordText(i, i == last)
		if (t.in(aJoining, i) || t.norm(i) == "then") && i+1 < e.to && !e.left(i+1) {
			w = strings.TrimRight(w, ",") // what stood between is gone
		}
		out = append(out, w)
	}
	return strings.Trim(strings.Join(out, " "), " ,;:.–—-")
}

// wordText is the word of token i as it is printed.
func (t *talk) wordText(i int, last bool) string {
	w := cleanWord(t.n.Words[t.toks[i].Word].Text, last)
	norm := t.norm(i)
	if norm == "'em" || norm == "em" {
		return strings.Replace(cleanWord("them"+strings.TrimLeft(w, "'’em"), last), "them'", "them", 1)
	}
	if strings.Contains(norm, "'") && !strings.ContainsAny(w, "'’") && i+1 < len(t.toks) && t.toks[i+1].Word > t.toks[i].Word+1 {
		w = norm // "do n't"
		if !last && t.toks[i].After != 0 {
			w += ","
		}
	}
	if !last && t.guessed != nil && t.guessed.has(i) && !untils[t.norm(i+1)] {
		w = strings.TrimRight(w, ",") + ","
	}
	if t.toks[i].Cap && t.sentence(i).First == i && norm != "i" {
		w = strings.ToLower(w[:1]) + w[1:] // the capital of its sentence
	}
	return w
}

// condition gives the clause before an action that says when it is done: "once it's
// boiling", "if it looks dry", "in a small bowl". It gives "" where none stands
// right before it.
func (t *talk) condition(a *action, sp language.Span) string {
	c := t.conditionSpan(a, sp)
	if c.Len() == 0 {
		return ""
	}
	e := t.edit(c.First, c.Last)
	e.fillers()
	e.trim()
	e.figures()
	if s := e.text(); strings.Contains(s, " ") {
		return s
	}
	return ""
}

// conditionSpan gives the tokens of the clause that condition writes.
func (t *talk) conditionSpan(a *action, sp language.Span) language.Span {
	none := language.Span{}
	s := t.sentence(a.tok)
	first := sp.First // where the clause may begin
	for first > s.First && t.actionAt[first-1] < 0 && a.tok-first < 2*conditionWords {
		first--
	}
	start := a.tok
	if a.lead > 0 && a.lead < start {
		start = a.lead
	}
	end := start
	for end > first {
		w := t.norm(end - 1)
		if !(youWe[w] || modals[w] || leadAdverbs[w] && t.toks[end-1].After == 0 || intents[w] || w == "then" || w == "to" || w == "be" || w == "i'm" || w == "do" || w == "it's" && intents[t.norm(end)]) {
			break
		}
		if t.toks[end-1].After != 0 && !leadAdverbs[w] {
			break
		}
		end--
	}
	if end <= first {
		return none
	}
	for i := end - 1; i >= first && i >= end-conditionWords; i-- {
		if i < end-1 && t.toks[i].After != 0 {
			return none
		}
		head := i == s.First || t.toks[i-1].After != 0 || joining[t.norm(i-1)] || fillers[t.norm(i-1)] || t.norm(i-1) == "then"
		if !head {
			continue
		}
		w := t.norm(i)
		when := w == "once" || w == "when" || w == "if" || w == "while" || w == "before" || w == "after" || w == "as" && t.norm(i+1) == "soon"
		where := w == "in" || w == "into" || w == "on" || w == "with" || w == "using" || w == "over"
		if !when && !where || end-i < 2 {
			continue
		}
		if t.ofPeople(i, end) || t.toldPast(i, end) || t.has(i, end, "you're ready", "you want", "do this", "do that", "you know", "again") >= 0 {
			return none
		}
		if where && (!t.hasFood(i, end) || t.anyVerb(i+1, end) || (w == "with" || w == "using") && !t.toolIn(i, end) || i > s.First && t.toks[i-1].After != 0 || i < sp.First || t.has(end, start, "and") >= 0) {
			return none
		}
		if when && i > s.First && !joining[t.norm(i-1)] && t.toks[i-1].After != 0 && t.has(end, start, "and", "then") >= 0 {
			return none // it is said of what stands before
		}
		if l := t.norm(end - 1); when && (l == "ain't" || l == "is" || l == "isn't" || l == "does" || l == "doesn't" || l == "do" || l == "not") {
			return none
		}
		if when && end-i < 3 && w != "if" || w == "after" && !t.hasFood(i, end) && !t.hasQuantity(i, end) {
			return none
		}
		return language.Span{First: i, Last: end}
	}
	return none
}

// anyVerb reports whether a word of tokens [a, b) that names nothing is a verb.
func (t *talk) anyVerb(a, b int) bool {
	for i := a; i < b; i++ {
		if t.finite(i) || subjects[t.norm(i)] || t.actionAt[i] >= 0 {
			return true
		}
	}
	return false
}

// noun is something a pronoun can stand for.
type noun struct {
	language.Span
	head   int // token of the word that names it
	first  int // the same where it was named first
	name   string
	many   bool
	beside bool // behind a preposition
}

// nouns gives the different things named in tokens [a, b).
func (t *talk) nouns(a, b int) []noun {
	var out []noun
	put := func(x noun) {
		for k := x.First - 1; k >= a && k >= x.First-5; k-- {
			w := t.norm(k)
			if t.toks[k].After != 0 {
				break
			}
			if inward[w] || onward[w] || w == "with" || w == "of" || w == "for" || w == "from" || w == "like" || w == "as" || w == "than" || w == "under" || w == "at" || w == "off" {
				x.beside = w != "of" || !t.hasQuantity(max(a, k-5), k)
				break
			}
			if !determiners[w] && t.quantityAt[k] < 0 && t.lex.Modifiers[w] == lexicon.NoClass {
				break
			}
		}
		if n := len(out); n > 0 && out[n-1].Last == x.First && t.toks[x.First-1].After == 0 {
			return // "boneless thigh meat" is one thing
		}
		for k := range out {
			if out[k].name == x.name {
				out[k].Span, out[k].head = x.Span, x.head
				return
			}
		}
		x.first = x.head
		out = append(out, x)
	}
	for i := a; i < b; i++ {
		switch {
		case t.mentionAt[i] >= 0:
			m := &t.mentions[t.mentionAt[i]]
			if m.head.First == i && !m.verb && !m.negated && !m.compared {
				put(noun{Span: m.Span, head: i, name: m.name, many: manyThings(m.name)})
			}
		case t.toolAt[i] >= 0 && (i == 0 || t.toolAt[i-1] != t.toolAt[i]):
			x := &t.tools[t.toolAt[i]]
			name := t.phrase(x.First, x.Last)
			if t.actionAt[i] < 0 {
				put(noun{Span: x.Span, head: i, name: name, many: manyThings(name)})
			}
		case t.madeAt[i] > 0:
			n := int(t.madeAt[i])
			if t.actionAt[i] < 0 {
				put(noun{Span: language.Span{First: i, Last: i + n}, head: i, name: t.phrase(i, i+n), many: manyThings(t.phrase(i, i+n))})
			}
		}
	}
	return out
}

// manyThings reports whether a name is one of several things.
func manyThings(name string) bool {
	w := name[strings.LastIndexByte(name, ' ')+1:]
	switch w {
	case "hummus", "couscous", "asparagus", "molasses", "swiss", "citrus", "octopus", "haggis", "schnapps":
		return false
	}
	return strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "us")
}

// antecedent gives the one thing named before an action that its pronoun can stand
// for: in its sentence or, where nothing is named there, in the one before.
func (t *talk) antecedent(a *action, pronoun string) (noun, bool) {
	start := a.tok
	if a.lead > 0 && a.lead < start {
		start = a.lead
	}
	s := t.sentence(a.tok)
	if start-s.First > nounReach || a.base == "taste" { // the dish is tasted, not what went in last
		return noun{}, false
	}
	many := pronoun == "them" || pronoun == "those" || pronoun == "these"
	list := t.nouns(s.First, start)
	same := true
	if x, ok := t.fronted(a); ok {
		return x, true
	}
	if len(list) == 0 {
		if x, ok := t.turnedTo(a); ok {
			return x, true
		}
		if x, ok := t.fetched(a); ok && x.many == many {
			return x, true
		}
		k := int(t.sentOf[a.tok]) - 1
		if k < 0 {
			return noun{}, false
		}
		p := &t.sents[k]
		if p.para != s.para || p.kind == aside || p.past || p.Len() > 25 || t.ofPeople(p.First, p.Last) {
			return noun{}, false
		}
		list, same = t.nouns(p.First, p.Last), false
	} else if t.ofPeople(s.First, start) && t.toldPast(s.First, start) {
		return noun{}, false
	}
	var core []noun
	for _, x := range list {
		if !x.beside {
			core = append(core, x)
		}
	}
	if len(core) != 1 || core[0].many != many || core[0].name == "" || !same && len(list) > 1 || !t.settled(&core[0], a, same) {
		return noun{}, false
	}
	return core[0], true
}

var (
	cleaned = words("wash rinse drain dry pat trim soak scrub peel")
	readied = words("set switch rub scrub rinse sterilise sterilize grease line butter oil flour dust wash fill preheat warm heat scald")
)

// settled reports whether nothing else can be meant: a food that heads the sentence
// or is all that was named with an amount, one that was just cut or washed, or the
// vessel fetched.
func (t *talk) settled(x *noun, a *action, same bool) bool {
	s := t.sentence(x.head)
	food := t.mentionAt[x.head] >= 0 && !t.mentions[t.mentionAt[x.head]].mixed
	if !food && t.toolAt[x.head] < 0 {
		return false
	}
	if !food && (!same || !vessels[t.tools[t.toolAt[x.head]].eq.Kind] || !readied[a.base]) {
		return false
	}
	for i := s.First; i < x.head; i++ {
		if w := t.norm(i); w == "plus" || w == "with" || w == "along" {
			return false // it goes in with what was there
		}
		if t.actionAt[i] < 0 {
			if subjects[t.norm(i)] && t.finite(i+1) && t.norm(i+1) != "need" && t.norm(i+1) != "want" {
				return false
			}
			continue
		}
		k := t.actions[t.actionAt[i]]
		if same || k.verb.Kind != "cut" && !cleaned[k.base] || x.head-i > 6 {
			return false
		}
		return true
	}
	if same {
		return true
	}
	return (a.verb.Kind == "cut" || a.verb.Kind == "add" || cleaned[a.base]) && t.verbless(s) && len(t.mentions[t.mentionAt[x.head]].amounts) > 0
}

// topicReach is how many sentences may stand between the one that turns to a food
// and the work on it: remarks on that food.
const topicReach = 4

// turning words lead to the next thing there is to work on, or say that it is there.
var turning = words("meanwhile meantime now next then so okay ok right and the your my that's here's first here well time for last finally onto to on with " +
	"i i've i'm you you'll you're we we've we'll got have need take took use using get want this is are these there there's it's about some of a an")

// turnedTo gives the food that the talk turned to before the action, where nothing
// was done and nothing else was named since: "Now the chicken. Eight thighs, skin on.
// Pat them dry." What goes into the dish turns to nothing, so the work has to be of
// the kind done to one food.
func (t *talk) turnedTo(a *action) (noun, bool) {
	if !t.doneToOne(a) {
		return noun{}, false
	}
	k := int(t.sentOf[a.tok]) - 1
	var x noun
	for back := 0; k >= 0 && back < topicReach && t.sents[k].para == t.sentence(a.tok).para; k, back = k-1, back+1 {
		p := &t.sents[k]
		if len(t.actionsIn(p)) > 0 {
			break
		}
		if p.other || p.past && t.ofOthers(p) {
			continue
		}
		n, ok := t.onlyFood(t.nouns(p.First, p.Last))
		switch {
		case !ok:
			return noun{}, false
		case n.name == "":
			continue
		case x.name != "" && n.name != x.name && !strings.HasSuffix(x.name, n.name):
			return noun{}, false
		}
		if f := t.mentions[t.mentionAt[n.head]].food; f != nil && seasoning[f.Name] {
			return noun{}, false // that goes in
		}
		if x.name == "" {
			x = n
		}
		if t.leadsTurn(p.First, n.first) {
			return x, true
		}
	}
	return noun{}, false
}

// fetched gives the oven or the vessel that the sentence before an action turned to and
// the action makes ready: "Oven first. Preheat it", "The jars come first. Wash them". An
// oven that is heated need only be the one thing named there.
func (t *talk) fetched(a *action) (noun, bool) {
	k := int(t.sentOf[a.tok]) - 1
	if !readied[a.base] || k < 0 || t.sents[k].para != t.sentence(a.tok).para || len(t.actionsIn(&t.sents[k])) > 0 {
		return noun{}, false
	}
	p := &t.sents[k]
	list := t.nouns(p.First, p.Last)
	if len(list) != 1 || t.toolAt[list[0].head] < 0 || t.mentionAt[list[0].head] >= 0 {
		return noun{}, false
	}
	x := list[0]
	kind := t.tools[t.toolAt[x.head]].eq.Kind
	if kind == "heat" && t.temperatureIn(a.tok, a.clause.Last) {
		return x, true
	}
	return x, (vessels[kind] || kind == "jar") && t.leadsTurn(p.First, x.first)
}

// temperatureIn reports whether a temperature is told in tokens [a, b).
func (t *talk) temperatureIn(a, b int) bool {
	for i := a; i < b; i++ {
		if k := t.quantityAt[i]; k >= 0 && t.quantities[k].kind == heat && !t.quantities[k].void {
			return true
		}
	}
	return false
}

// onlyFood gives the one food of a list, leaving out what could stand in for it. It
// reports false where there are more, or things that are no food.
func (t *talk) onlyFood(list []noun) (noun, bool) {
	var x noun
	for _, n := range list {
		m := t.mentionAt[n.head]
		switch {
		case n.beside, m >= 0 && t.mentions[m].subst >= 0:
		case m < 0 && t.quantityAt[n.head] >= 0: // "two tins"
		case m < 0 || t.mentions[m].mixed || x.name != "":
			return noun{}, false
		default:
			x = n
		}
	}
	return x, true
}

// leadsTurn reports whether the words from the beginning of a sentence to the food at
// head only turn to it.
func (t *talk) leadsTurn(from, head int) bool {
	for i := from; i < head; i++ {
		w := t.norm(i)
		if i == from && (w == "plus" || w == "with" || w == "and") {
			return false // it goes in with what was there
		}
		if !turning[w] && t.quantityAt[i] < 0 && t.mentionAt[i] < 0 && t.lex.Modifiers[w] == lexicon.NoClass {
			return false
		}
	}
	return true
}

// fronted gives the food that its sentence names first of all and then works on: "two
// cups of dried hibiscus, the dark petals, rinse them quick".
func (t *talk) fronted(a *action) (noun, bool) {
	s := t.sentence(a.tok)
	start := a.tok
	if a.lead > 0 && a.lead < start {
		start = a.lead
	}
	if !t.doneToOne(a) && !t.goesInto(a) || start-s.First > nounReach || len(t.actionsBetween(s.First, start)) > 0 {
		return noun{}, false
	}
	x, ok := t.onlyFood(t.nouns(s.First, start))
	if !ok || x.name == "" || !t.leadsTurn(s.First, x.first) {
		return noun{}, false
	}
	return x, true
}

// goesInto reports whether the action puts what its pronoun stands for into something
// else: "stir that into the milk", "whisk it in".
func (t *talk) goesInto(a *action) bool {
	if a.verb.Kind != "add" && a.verb.Kind != "mix" {
		return false
	}
	w := t.norm(a.tok + 2)
	return inward[w] || onward[w] || w == "through"
}

// doneToOne reports whether the action is done to a food by itself.
func (t *talk) doneToOne(a *action) bool {
	return a.verb.Kind == "cut" || a.verb.Kind == "clean" || a.verb.Kind == "wrap" || single[a.base] || cleaned[a.base]
}

// single are works on one food that isn't part of anything yet.
var single = words("season rub soak marinate toast melt whip thread squeeze crush zest break tear shred crumble pound grind bash smash mince pit core crack halve quarter brine blanch scald prick pierce score skin unwrap")

// usedReach is how many words before an action the one food its step uses may have
// been named for a pronoun to stand for it.
const usedReach = 25

// ofOneFood are kinds of work that are done to a food by itself, before it is part of
// anything.
var ofOneFood = words("cut clean add wrap")

// worksOn gives the one food a step uses where the action's pronoun stands for it:
// it was the last thing named before, and the work is of the kind done to one food.
func (t *talk) worksOn(st *step, a *action, pronoun string) (noun, bool) {
	if len(st.uses) != 1 || a.base == "pour" || a.base == "tip" || !ofOneFood[a.verb.Kind] && a.base != "melt" && a.base != "whip" && a.base != "toast" && a.base != "drain" {
		return noun{}, false
	}
	start := a.tok
	if a.lead > 0 && a.lead < start {
		start = a.lead
	}
	para := t.sentence(a.tok).para
	from := max(start-usedReach, 0)
	for from < start && t.sentence(from).para != para {
		from++
	}
	list := t.nouns(from, start)
	if len(list) == 0 {
		return noun{}, false
	}
	foods := 0
	for _, x := range t.nouns(t.sentence(a.tok).First, start) {
		if t.toolAt[x.head] < 0 {
			foods++
		}
	}
	if foods > 1 {
		return noun{}, false // "flour and water, mix it"
	}
	x := list[len(list)-1]
	m := t.mentionAt[x.head]
	if m < 0 || x.beside || t.mentions[m].ingr != st.uses[0] || t.mentions[m].mixed {
		return noun{}, false
	}
	if a.verb.Kind != "add" && (t.mentions[m].food != nil && seasoning[t.mentions[m].food.Name] || x.name == "oil") && a.base != "melt" {
		return noun{}, false
	}
	return x, pronoun == "that" || x.many == (pronoun == "them" || pronoun == "those")
}
