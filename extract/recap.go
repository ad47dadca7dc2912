package extract

import (
	"fmt"
	"sort"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// said again, how: a figure of a closing run-through or of a reminder speaks of
// one that was told before, and the two must agree.
type again uint8

const (
	first    again = iota // told, as far as one can see, for the first time
	through               // in a run-through of the whole
	reminded              // with "as I said", "remember", "in total"
	echoed                // with nothing that announces it: see markEchoes
)

// tells reports whether a figure so marked may be the first telling of it: an echo
// is known only by what was told before.
func (a again) tells() bool { return a == first || a == echoed }

// runThroughs open a run-through of what was told. They count at the start of
// a clause only: "give it a stir one more time" is an instruction.
var runThroughs = phrases("going over it|going over both|going over that|going over the whole|going over everything|going over all|go over it|go over that|go over the whole|going back over|go back over|one more time|one last time|one final time|one more round|once more|once again|again from the top|from the top|" +
	"recap|quick recap|to recap|in short|to sum up|sum up|summing up|summary|in summary|short version|the short version|quick version|the quick version|fast version|running it back|run it back|running back through|run back through|say it all back|say it back|saying it back|say all that back|the whole story again|all of it again|running through it|run through it|run through that|run through the whole|running through the|run through|quick run through|" +
	"the long and the short|long story short|in a nutshell|in brief|to summarise|to summarize|all together now|all together then|the whole thing again|whole thing again|say it again|say it all again|say that again|so again|there you have it|for the ones at the back|for them at the back|for those at the back|for those that missed|for those who missed|for those that were|for those who were|for the people who missed|in case you missed|for anyone who missed|for anybody who missed|if you missed|" +
	"to repeat|let me repeat|i'll repeat|putting it together|putting it all together|put it all together|in one breath|in one go|the order again|that order again|the figures again|numbers again|that's the lot then|reading it back|read it back|reading that back|reading back|read it out again|i repeat|i repeat you|i repeat it|i repeat the|for the record|the gist|run-through|quick run-through|the whole lot again|so to go over|write it down|write this down|for your notebook|for your notes")

// reminders say that one figure was told before.
var reminders = phrases("as i said|like i said|as i say|i told you|i said|as we said|we said|as i mentioned|i mentioned|as mentioned|remember|don't forget|do not forget|as before|earlier|in total|in all|all told|altogether|in there now|that i gave you|i gave you|as ever|as always|like always|same as always|same as before|like before|same as it's been|the same as it's been|what i always|mind you remember|don't you forget|same as i said|the recipe says|the whole time|the entire time|all along|throughout|mind|mind now|again")

// phrases reads a list of phrases between bars.
func phrases(list string) cueList { return cues(strings.Split(list, "|")...) }

// leadIn are the small words that may stand before a cue in its clause.
var leadIn = words("that reight again listen hear look so and now okay ok right well anyway then but just to let's let me i'll i i'm we we'll going go gonna one quick last a the here's that's this is if it's it you want can alright all oh yes before you're here final time very quickly really because since for my sake's once more do does")

// throughWords is how many words a run-through goes on for at most; a talk
// that has gone on to something new after that is told, not repeated.
const throughWords = 90

// sayAgainWords is how many words are said over after "I'll say that again".
const sayAgainWords = 16

// markAgain tells for every token whether it stands in a run-through or a
// reminder.
func (t *talk) markAgain() []again {
	out := make([]again, len(t.toks))
	paragraphs := len(t.n.Cues) > 0 && len(t.n.Words) > captionWords*len(t.n.Cues)
	for k := 0; k < len(t.sents); k++ {
		s := &t.sents[k]
		if i := t.runThrough(s); i >= 0 {
			end := min(len(t.toks), i+throughWords)
			if t.is(i, "say", "that", "again") || t.is(i, "say", "it", "again") {
				end = min(end, i+sayAgainWords) // one thing, for weight
			}
			for j := i; j < end; j++ {
				o := t.sentence(j)
				if j > i && j == o.First && (paragraphs && o.para != s.para || t.leavesOff(o)) {
					break
				}
				out[j] = through
			}
		}
	}
	for k := range t.sents {
		s := &t.sents[k]
		if t.takesBack(s) {
			continue
		}
		for i := s.First; i < s.Last; i++ {
			if out[i] == through || !t.reminder(s, i) {
				continue
			}
			// the clauses around it, within a sentence that has no end in sight
			last := s.Last
			if !t.punctuated && s.Last-i <= 2 && k+1 < len(t.sents) {
				last = t.sents[k+1].Last // "don't forget" ends a guessed sentence
			}
			from, to := max(s.First, i-16), min(last, i+24)
			if !t.punctuated && trailing[t.norm(i)] {
				from, to = max(s.First, i-8), i+2 // what follows is the next sentence
			}
			for j := from; j < to; j++ {
				if out[j] == first {
					out[j] = reminded
				}
			}
		}
	}
	return out
}

// trailing are first words of reminders that stand after the figure.
var trailing = words("altogether in all throughout the")

// closingPart is the part of a talk, from its end, in which a run-through closes it: one
// that stands earlier may be the first telling.
const closingPart = 3

// closingOrders is how many orders a closing run-through has at most: more are a talk
// that goes on, and to hold each against all that was told would take too long.
const closingOrders = 200

// retold gives the actions of a closing run-through by their index: orders that were
// given before, where any of its work was. What works on a food, or tells a figure, that
// is named there for the first time is told, not repeated. Where no marks tell how far
// the run-through goes, only work that was told before is in it.
func (t *talk) retold() map[int]bool {
	var opens *sentence
	for k := range t.sents {
		if s := &t.sents[k]; s.First > len(t.toks)-len(t.toks)/closingPart && t.runThrough(s) >= 0 && t.has(s.First, s.Last, "say that again", "say it again") < 0 {
			opens = s
			break
		}
	}
	if opens == nil {
		return nil
	}
	marks := t.markAgain()
	t.retelling = marks
	done := map[string]bool{}
	var here []int
	before := false
	for k := range t.actions {
		a := &t.actions[k]
		switch {
		case a.tok < opens.First:
			done[a.base] = true
		case marks[a.tok] == through:
			here = append(here, k)
			before = before || done[a.base]
		}
	}
	if !before || len(here) > closingOrders {
		t.retelling = nil
		return nil
	}
	out := map[int]bool{}
	for _, k := range here {
		a := &t.actions[k]
		if (done[a.base] || !t.loose) && !t.worksOnNew(a, opens.First) && !t.figureNew(a, opens.First) {
			out[k] = true
		}
	}
	return out
}

// toldMeasured reports whether a closing run-through measures a food that was measured
// when it was told: no further one of it.
func (t *talk) toldMeasured(m *mention) bool {
	if t.retelling == nil || t.retelling[m.First] != through {
		return false
	}
	for k := range t.mentions[:min(len(t.mentions), inMind)] {
		x := &t.mentions[k]
		if x.First >= m.First {
			return false
		}
		if x.negated || x.compared || t.retelling[x.First] == through || related(x.food, m.food) == 0 || !strings.HasSuffix(x.name, m.name) && !strings.HasSuffix(m.name, x.name) {
			continue
		}
		for _, q := range x.amounts {
			if kind := t.quantities[q].kind; !t.quantities[q].void && (kind == measure || kind == count) {
				return true
			}
		}
	}
	return false
}

// figureNew reports whether an action tells a time or a temperature that was not told
// before a token.
func (t *talk) figureNew(a *action, before int) bool {
	for k := range t.quantities {
		q := &t.quantities[k]
		if q.First < a.clause.First || q.Last > a.clause.Last || q.kind != duration && q.kind != heat {
			continue
		}
		known := false
		for n := 0; n < k && t.quantities[n].First < before; n++ {
			o := &t.quantities[n]
			known = known || o.kind == q.kind && o.unit == q.unit && o.min <= q.min && o.max >= q.max
		}
		if !known {
			return true
		}
	}
	return false
}

// worksOnNew reports whether an action works on a food that was not named before a token.
func (t *talk) worksOnNew(a *action, before int) bool {
	for _, m := range t.mentionsIn(a.tok, a.clause.Last) {
		known := t.mentions[m].food.Dish || t.mentions[m].food.Made
		for k := 0; k < m && t.mentions[k].First < before; k++ {
			known = known || related(t.mentions[k].food, t.mentions[m].food) > 0
		}
		if !known {
			return true
		}
	}
	return false
}

// leavesOff reports whether a sentence ends a run-through: keeping the dish,
// its figures, or a remark that comes to mind.
func (t *talk) leavesOff(s *sentence) bool {
	if s.kind == figures || s.forgotten {
		return true
	}
	return s.kind == storing && t.has(s.First, s.Last, "keep", "keeps", "lasts", "last", "freeze", "freezes", "freezer", "leftovers", "store", "box", "tub", "days", "tupperware") >= 0
}

// runThrough gives the token of a cue that opens a run-through, -1 for none.
func (t *talk) runThrough(s *sentence) int {
	if t.takesBack(s) {
		return -1
	}
	for i := s.First; i < s.Last; i++ {
		if !t.punctuated && t.norm(i) == "for" && whoMissed[t.norm(i+1)] && t.has(i+2, min(s.Last, i+10), "missed") >= 0 {
			return i // "for those that were pressing phone and missed it"
		}
		if !t.punctuated && t.norm(i) == "once" && !afterOnceMore[t.norm(i+2)] && !(i > 0 && beforeOnceMore[t.norm(i-1)]) {
			continue // "grind it once more": a doing, wherever the sentence is cut
		}
		if i > s.First && t.toks[i-1].After == 0 && !t.in(aLeadIn, i-1) {
			// without marks a cue may stand anywhere after a finished clause
			if t.punctuated || !wholeThrough[t.norm(i)] {
				continue
			}
		}
		if s.First > len(t.toks)/2 && (t.is(i, "shopping", "list") || t.is(i, "grocery", "list")) && (t.opensClause(s, i) || !t.punctuated && beforeOnceMore[t.norm(i-1)]) {
			return i // before, it's the first telling
		}
		for _, p := range runThroughs.at(t, i) {
			if t.is(i, p...) && i+len(p) <= s.Last && t.opensClause(s, i) && !t.onlyAction(s, i+len(p)) {
				return i
			}
		}
	}
	return -1
}

// wholeThrough are first words of cues that open a run-through wherever they
// stand.
var wholeThrough = words("recap running going summing once")

// beforeOnceMore lead to "once more" where all is told over: "roll over it once more" isn't.
var beforeOnceMore = words("so now okay ok right well anyway then and but listen here's")

// whoMissed are those for whom all is told over, after "for".
var whoMissed = words("those them anyone anybody everyone everybody people the whoever")

// afterOnceMore follow "once more" where all is told over, and nothing only done
// over: "once more for Kasia".
var afterOnceMore = words("for so then from quickly fast everybody everyone")

// opensClause reports whether only small words stand between the clause's start
// and token i.
func (t *talk) opensClause(s *sentence, i int) bool {
	for k := i - 1; k >= s.First && k >= i-7; k-- {
		if t.toks[k].After != 0 {
			return true
		}
		if !leadIn[t.norm(k)] {
			return !t.punctuated && (i-k > 2 || wholeThrough[t.norm(i)])
		}
	}
	return true
}

// onlyAction reports whether the words end the clause as the manner of an
// action: "knead it one more time and", not "one more time: knead it".
func (t *talk) onlyAction(s *sentence, end int) bool {
	return end < s.Last && t.toks[end-1].After == 0 && (t.norm(end) == "with" || t.norm(end) == "until" || t.norm(end) == "till" || t.norm(end) == "before" || t.norm(end) == "for" && t.quantityBegins(end+1))
}

// reminder reports whether a word of reminding stands at i, said of what the
// sentence tells and not of something else.
func (t *talk) reminder(s *sentence, i int) bool {
	for _, p := range reminders.at(t, i) {
		if !t.is(i, p...) || i+len(p) > s.Last {
			continue
		}
		switch p[0] {
		case "again":
			// "Again, the oil has to be", "I'll say the oven again": not "whisk again"
			if said := t.has(max(s.First, i-5), i, "say", "tell you", "repeat", "give you", "read out", "read you"); said >= 0 && t.has(max(s.First, said-2), said, "i'll", "let me", "i", "i'm going to") >= 0 {
				return true
			}
			return t.opensClause(s, i) && (i+1 < s.Last && t.toks[i].After != 0 || !t.punctuated && i > s.First && leadIn[t.norm(i-1)])
		case "remember", "don't", "do", "mind":
			// "don't forget it's three cups" says of itself that it was told
			return t.opensClause(s, i) || !t.punctuated && t.has(i+len(p), i+len(p)+2, "it's", "its", "that's", "that") >= 0
		case "earlier":
			return t.has(max(s.First, i-8), i, "said", "told", "mentioned", "gave", "the") >= 0
		case "in":
			return p[1] != "all" || t.norm(i+2) != "the" && t.norm(i+2) != "my"
		case "i":
			return t.has(max(s.First, i-3), i, "did", "if", "what", "when", "should've", "should") < 0
		}
		return true
	}
	return false
}

// takesBack reports whether the sentence mends an earlier one: what it says
// replaces, and contradicts nothing.
func (t *talk) takesBack(s *sentence) bool {
	if t.mends == nil {
		t.mends = make([]bool, len(t.sents)+1)
		for _, m := range t.spots(0, len(t.toks), mendings) {
			if m.tok+m.words <= t.sents[m.sent].Last {
				t.mends[m.sent] = true
			}
		}
	}
	return s.Len() > 0 && t.mends[t.sentOf[s.First]]
}

var mendings = []string{"correction", "i meant", "i mean", "should be", "should have been", "should've been", "got that wrong", "said that wrong", "told you wrong", "my mistake", "scratch that", "ignore what", "forget what", "not what i said", "i was wrong", "misspoke", "did i say", "sorry", "tell a lie"}

// telling reports whether the sentence tells this dish, so that its figures
// can be repeated later.
func (t *talk) telling(s *sentence) bool {
	return s.kind != storing && s.kind != figures && !s.other && !(s.past && s.kind == aside) && !t.othersDo(s)
}

// retells reports whether a sentence of a run-through or with a reminder can
// speak of what was told: "I told you" is of the past as well.
func (t *talk) retells(s *sentence) bool {
	return s.kind != storing && s.kind != figures && !t.takesBack(s) && (!s.other || t.runThrough(s) >= 0) && !t.othersDo(s)
}

// otherCooks are people and times whose cooking is not this.
var otherCooks = listed("some people", "other people", "most people", "my mother", "my grandmother", "my sister", "my wife", "my husband", "my brother", "my aunt", "my niece", "my neighbour", "my neighbor", "my friend", "my son", "my daughter", "my mum", "my mom", "my nan", "last time i", "the last time", "used to", "one time i", "at altitude", "in the mountains")

// othersDo reports whether the sentence tells what somebody else does.
func (t *talk) othersDo(s *sentence) bool {
	if t.hasAny(s.First, s.Last, otherCooks) >= 0 {
		return t.has(s.First, s.Last, "you") < 0 && t.earliest(s.First, s.Last, teller) < 0
	}
	return false
}

// earlierFigures is how many figures before a repeated one it is compared with
// at most, so that a long recording costs no more for each.
const earlierFigures = 300

// retelling compares the figures of run-throughs and reminders with those told
// before: amounts, times, temperatures.
type retelling struct {
	*talk
	marks  []again
	back   pointed
	byKind map[qkind][]int // quantities that stand, in the order of the talk
	near   map[int]stretch
	asked  map[int]bool // figures told that were asked about
	tell   []int8       // of each sentence: 0 not yet known, 1 it tells, -1 it doesn't
	retell []int8
	add    func(int, schema.Flag)
}

func (t *talk) compareRetold(add func(int, schema.Flag)) {
	marks := t.markAgain()
	t.markEchoes(marks)
	back := t.markPointed(marks)
	r := &retelling{talk: t, marks: marks, back: back, byKind: map[qkind][]int{}, near: map[int]stretch{}, asked: map[int]bool{}, tell: make([]int8, len(t.sents)), retell: make([]int8, len(t.sents)), add: add}
	for k := range t.quantities {
		if q := &t.quantities[k]; !q.void && q.First < len(r.marks) {
			if r.marks[q.First] != first {
				t.readDial(k)
			}
			r.byKind[q.kind] = append(r.byKind[q.kind], k)
		}
	}
	for _, kind := range []qkind{duration, heat} {
		list := r.byKind[kind]
		sort.SliceStable(list, func(a, b int) bool { return t.quantities[list[a]].First < t.quantities[list[b]].First })
		for n, k := range list {
			q := &t.quantities[k]
			if r.marks[q.First] == first || t.furtherOf(q) || q.each || kind == duration && t.conditionalAt(q.First) || !r.canRetell(q.First) {
				continue
			}
			before := list[max(0, n-earlierFigures):n]
			if kind == duration {
				r.timeAgain(k, q, before)
			} else {
				r.heatAgain(k, q, before)
			}
		}
	}
	r.amountsAgain()
}

// dialWords lead to a number that an oven's dial shows.
var dialWords = []string{"have it on", "got it on", "it on", "oven on", "oven at", "oven's at", "oven's on", "set at", "set to", "dial at", "dial on"}

// readDial reads a bare number as the oven's heat where it is spoken of as what the
// dial stands at: "what I always have it on, a hundred and ninety".
func (t *talk) readDial(k int) {
	q := &t.quantities[k]
	s := t.sentence(q.First)
	if q.kind != count && q.kind != money || q.article || q.min != q.max || q.min < 120 || q.min > 500 || t.mentionStart(q.Last) >= 0 || q.food >= 0 {
		return
	}
	role := ovenHeat
	switch {
	case t.has(max(s.First, q.First-4), q.First, dialWords...) >= 0:
	case t.norm(q.First-1) == "at" && t.has(max(s.First, q.First-4), q.First, "bake", "roast", "baked", "roasted") >= 0:
	case t.has(max(s.First, q.First-4), q.First, "oil", "fryer") >= 0 && t.quantityAt[q.Last] < 0:
		role = fryHeat // "what was the oil again, three seventy-five"
	default:
		return
	}
	for n := k - 1; n >= 0 && n >= k-earlierFigures; n-- {
		if o := &t.quantities[n]; !o.void && o.kind == heat && t.roleOf(o) == role {
			q.kind, q.unit = heat, o.unit
			return
		}
	}
}

// canTell reports whether the sentence of token i tells this dish.
func (r *retelling) canTell(i int) bool {
	return once(r.tell, int(r.sentOf[i]), func() bool { return r.telling(r.sentence(i)) })
}

// canRetell reports whether the sentence of token i can speak of what was told.
func (r *retelling) canRetell(i int) bool {
	return once(r.retell, int(r.sentOf[i]), func() bool { return r.retells(r.sentence(i)) })
}

// once answers a question about sentence k and keeps the answer.
func once(known []int8, k int, ask func() bool) bool {
	if known[k] == 0 {
		known[k] = -1
		if ask() {
			known[k] = 1
		}
	}
	return known[k] > 0
}

// stretch is the words that a figure of a run-through speaks of.
type stretch struct {
	verbs map[string]bool
	nouns map[string]bool
	words map[string]bool
	topic map[string]bool // named just before, where the stretch says "it"
	tools map[string]bool
	noun  string // named last, as spoken
	verb  string
}

// verbGroup brings verbs of one work together, so that "bake", "roast" and "in
// the oven" agree.
var verbGroup = map[string]string{
	"roast": "bake", "bake": "bake", "bake blind": "bake", "broil": "grill", "grill": "grill", "barbecue": "grill",
	"rest": "rest", "sit": "rest", "stand": "rest", "leave": "rest", "relax": "rest", "rise": "rise", "prove": "rise", "proof": "rise", "ferment": "ferment",
	"chill": "chill", "refrigerate": "chill", "cool": "cool", "fry": "fry", "saute": "fry", "sauté": "fry", "sweat": "fry", "deep-fry": "fry", "pan-fry": "fry", "stir-fry": "fry", "sear": "sear", "brown": "sear",
	"simmer": "simmer", "bubble": "simmer", "boil": "boil", "poach": "poach", "steam": "steam", "braise": "braise", "stew": "braise", "marinate": "marinate", "marinade": "marinate", "soak": "soak", "steep": "soak", "brine": "brine",
	"knead": "knead", "whisk": "whisk", "beat": "whisk", "whip": "whisk", "toast": "toast", "set": "set", "pull": "pull", "dry": "dry", "blend": "blend", "microwave": "microwave", "smoke": "smoke", "cook": "cook", "cure": "cure", "caramelise": "caramelise", "caramelize": "caramelise", "reduce": "reduce", "drain": "drain", "strain": "drain", "hang": "drain", "freeze": "freeze", "blanch": "blanch", "infuse": "soak", "churn": "churn", "bloom": "bloom", "hydrate": "bloom", "warm": "warm", "heat": "warm",
}

// toolVerb are places that tell the work as a verb does.
var toolVerb = map[string]string{"oven": "bake", "fridge": "chill", "refrigerator": "chill", "freezer": "freeze", "fryer": "fry", "grill": "grill", "steamer": "steam"}

// stretchOf gives what is spoken of around quantity k, found once.
func (r *retelling) stretchOf(k int) stretch {
	s, ok := r.near[k]
	if !ok {
		s = r.around(k)
		if q, asked := r.back.question[k]; asked {
			s = s.with(q)
		}
		r.near[k] = s
	}
	return s
}

// around gives what is spoken of around quantity k: within its sentence, from
// the figure of its kind before it to the next.
func (t *talk) around(k int) stretch {
	q := &t.quantities[k]
	s := t.sentence(q.First)
	lo, hi := max(s.First, q.First-14), min(s.Last, q.Last+9)
	for i := q.First - 1; i >= lo; i-- {
		if x := t.quantityAt[i]; x >= 0 && int(x) != k && t.quantities[x].kind == q.kind {
			lo = i + 1
			break
		}
	}
	for i := q.Last; i < hi; i++ {
		if x := t.quantityAt[i]; x >= 0 && int(x) != k && t.quantities[x].kind == q.kind {
			// the next figure has its own words before it
			hi = max(q.Last, i-(i-q.Last)/2)
			break
		}
	}
	if before := t.spokenIn(lo, q.First); len(before.verbs) > 0 {
		// the work is told: what follows a mark is the next one
		for i := q.Last; i < hi; i++ {
			if w := t.norm(i); t.toks[i-1].After != 0 || before.found() && (w == "and" || w == "then") {
				hi = i
			}
		}
	}
	out := t.spokenIn(lo, hi)
	if t.has(lo, hi, "it", "them", "that", "these", "those") >= 0 {
		out.topic = t.topicBefore(s)
	}
	return out
}

// found reports whether a stretch names a work and what it is done to.
func (s stretch) found() bool { return len(s.verbs) > 0 && len(s.nouns) > 0 }

// topicBefore gives the names of the last two foods before a sentence, or of the
// last mixture: what "it" and "them" can be.
func (t *talk) topicBefore(s *sentence) map[string]bool {
	out := map[string]bool{}
	named := 0
	for i := s.First - 1; i >= 0 && i >= s.First-16; i-- {
		if m := t.mentionAt[i]; m >= 0 && !t.mentions[m].negated && !t.mentions[m].verb {
			for _, p := range strings.Fields(t.mentions[m].food.Name) {
				out[lexicon.Singular(p)] = true
			}
			if named++; named == 2 {
				return out
			}
			i = t.mentions[m].First
			continue
		}
		if t.madeAt[i] > 0 && named == 0 {
			out[lexicon.Singular(t.norm(i+int(t.madeAt[i])-1))] = true
			return out
		}
	}
	return out
}

// spokenIn gathers the verbs, foods, mixtures and words in tokens [lo, hi).
func (t *talk) spokenIn(lo, hi int) stretch {
	out := stretch{verbs: map[string]bool{}, nouns: map[string]bool{}, words: map[string]bool{}, tools: map[string]bool{}}
	dial := "" // of a slow cooker
	for i := lo; i < hi; i++ {
		w := t.norm(i)
		if k := t.toolAt[i]; k >= 0 {
			out.tools[lastWord(t.tools[k].eq.Name)] = true
		}
		if m := t.mentionAt[i]; m >= 0 && !t.mentions[m].verb {
			if t.mentions[m].negated {
				continue
			}
			f := t.mentions[m].food
			for _, p := range strings.Fields(f.Name) {
				out.nouns[lexicon.Singular(p)] = true
			}
			if f.Kind == "pasta" {
				out.nouns["pasta"] = true // "the linguine", and later "the pasta"
			}
			out.noun = t.mentions[m].name
			continue
		}
		if n := int(t.madeAt[i]); n > 0 && (!t.canBeVerb(w) || i > lo && determiners[t.norm(i-1)]) {
			out.nouns[lexicon.Singular(t.norm(i+n-1))] = true
			out.noun = t.phrase(i, i+n)
			i += n - 1
			continue
		}
		if n := strings.TrimSuffix(w, "'s"); n != w && (dishNoun[n] || everyday[n]) || dishNoun[n] && !t.canBeVerb(n) {
			out.nouns[lexicon.Singular(n)] = true
			out.noun = n
		}
		if v := toolVerb[w]; v != "" && !notDone[t.norm(i-1)] {
			out.verbs[v] = true
			out.verb = v
		}
		if (w == "low" || w == "high") && t.norm(i-1) == "on" {
			dial = "on " + w
		}
		if notDone[t.norm(i-1)] {
			continue
		}
		for _, f := range t.lex.Verbs(w) {
			if g := verbGroup[f.Action.Verb]; g != "" {
				out.verbs[g] = true
				out.verb = f.Action.Verb
			}
		}
		if len(w) > 2 && t.quantityAt[i] < 0 && !plainWord[w] {
			out.words[stem(w)] = true
		}
	}
	if dial != "" && (len(out.verbs) == 0 || out.verbs["cook"]) {
		out.verbs[dial] = true // "five hours on low"
	}
	if out.verbs["bake"] {
		delete(out.verbs, "warm")
	}
	return out
}

// notDone are words before a verb or a place that say it isn't done there.
var notDone = words("no not don't never without")

var plainWord = words("the and for with that this then you your it's its about from just now into onto minutes minute hours hour seconds degrees celsius fahrenheit until till when more them they there here have has got get")

// agree weighs how far two stretches can speak of the same: 0 when they can't.
// The work and the thing worked on must not differ where both name them.
func agree(a, b stretch) int {
	verbs, nouns := overlap(a.verbs, b.verbs), overlap(a.nouns, b.nouns)
	if verbs == 0 && len(a.verbs) > 0 && len(b.verbs) > 0 && !a.verbs["cook"] && !b.verbs["cook"] {
		return 0
	}
	topic := overlap(a.nouns, b.topic) > 0 || overlap(a.topic, b.nouns) > 0
	if nouns == 0 && len(a.nouns) > 0 && len(b.nouns) > 0 && !(topic && verbs > 0) {
		return 0
	}
	if verbs == 0 && nouns == 0 {
		return 0
	}
	n := 8*min(verbs, 1) + 8*min(nouns, 2) + min(4, overlap(a.words, b.words))
	if topic {
		n += 6
	}
	return n
}

func overlap(a, b map[string]bool) int {
	n := 0
	for w := range a {
		if b[w] {
			n++
		}
	}
	return n
}

// furtherOf reports whether a quantity is of more than was told: "two more
// minutes", "another cup".
func (t *talk) furtherOf(q *quantity) bool {
	return q.more || t.has(max(0, q.First-2), q.Last, "more", "another", "extra", "further") >= 0 && t.norm(q.First+1) != "than" && t.norm(q.First-1) != "than" && t.norm(q.First-2) != "than"
}

// inSeconds gives a time in seconds.
func inSeconds(q *quantity) (lo, hi float64, ok bool) {
	f, ok := schema.Seconds(q.unit)
	return q.min * f, q.max * f, ok
}

// closeTo reports whether two ranges meet, give or take a share of the larger.
func closeTo(lo1, hi1, lo2, hi2, slack float64) bool {
	return lo1 <= hi2*(1+slack) && lo2 <= hi1*(1+slack)
}

// otherWay reports whether two tokens are told of different ways. A run-through
// stands after the ways; only a way it names is its own.
func (t *talk) otherWay(a, b int, how again) bool {
	x, y := t.wayOf(a), t.wayOf(b)
	if how != first {
		y = t.wayNamed(b)
	}
	return x >= 0 && y >= 0 && x != y
}

// wayNamed gives the way named last before token i in its sentence, -1 for
// none.
func (t *talk) wayNamed(i int) int {
	s := t.sentence(i)
	from := s.First
	if !t.punctuated {
		from = max(0, min(from, i-8)) // a sentence's end is a guess
	}
	best, at := -1, -1
	for w, name := range t.wayNames {
		ws := strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '-' })
		for j := from; j < i && j+len(ws) <= s.Last; j++ {
			if (t.is(j, ws...) || len(ws) == 1 && stem(t.norm(j)) == stem(ws[0]) && !t.canBeVerb(t.norm(j))) && j > at {
				best, at = w, j
			}
		}
	}
	return best
}

// timeAgain compares a time said again with the times told for the same work.
func (r *retelling) timeAgain(k int, q *quantity, before []int) {
	t := r.talk
	lo, hi, ok := inSeconds(q)
	if !ok || !t.cookingTime(q, t.sentence(q.First)) {
		return
	}
	key := r.stretchOf(k)
	best, score, alike := -1, 0, 0
	for _, i := range before {
		o := &t.quantities[i]
		if t.furtherOf(o) || r.marks[o.First] != first || t.dishOf(o.First) != t.dishOf(q.First) || !r.canTell(o.First) || !t.cookingTime(o, t.sentence(o.First)) {
			continue
		}
		a, b, ok := inSeconds(o)
		if !ok {
			continue
		}
		n := agree(key, r.stretchOf(i))
		if r.marks[q.First] == reminded && overlap(key.verbs, r.stretchOf(i).verbs) == 0 && !(len(key.verbs) == 0 && r.back.own[k]) {
			continue // of the same thing, but another work
		}
		if n == 0 || t.otherWay(o.First, q.First, r.marks[q.First]) {
			continue
		}
		if closeTo(a, b, lo, hi, 0.02) || o.about && closeTo(a, b, lo, hi, 0.15) {
			return // said alike before
		}
		if t.conditionalAt(o.First) {
			continue
		}
		switch {
		case n > score:
			best, score, alike = i, n, 1
		case n == score:
			alike++
		}
	}
	if best < 0 || alike > 1 && score < 12 || r.asked[best] {
		return
	}
	r.asked[best] = true
	o := &t.quantities[best]
	r.add(q.First, schema.Flag{Kind: schema.ConflictTime, Subject: subjectOf(key, "time"),
		Ask:  fmt.Sprintf("Is it %s or %s%s?", o.value().String(), q.value().String(), forWork(key)),
		Said: []schema.Said{t.saidAround(q), t.saidAround(o)}})
}

// subjectOf names what a conflict is about.
func subjectOf(s stretch, otherwise string) string {
	switch {
	case s.noun != "":
		return s.noun
	case s.verb != "":
		return s.verb
	}
	return otherwise
}

// forWork says which work a question is about.
func forWork(s stretch) string {
	switch {
	case s.verb != "" && s.noun != "":
		return " to " + s.verb + " the " + s.noun
	case s.verb != "":
		return " to " + s.verb
	case s.noun != "":
		return " for the " + s.noun
	}
	return ""
}

// saidAround quotes a quantity with the words that lead to it.
func (t *talk) saidAround(q *quantity) schema.Said {
	s := t.sentence(q.First)
	if s.Len() <= 14 {
		return t.said(s.First, s.Last)
	}
	return t.said(max(s.First, q.First-8), min(s.Last, q.Last+4))
}

// conditionalAt reports whether the token stands in a clause with a condition:
// "if yours runs hot, ten minutes".
func (t *talk) conditionalAt(i int) bool {
	s := t.sentence(i)
	for k := i; k >= s.First && k >= i-14; k-- {
		switch t.norm(k) {
		case "if", "unless", "otherwise":
			return true
		}
		if k < i && t.toks[k].After&^language.Comma != 0 {
			break
		}
	}
	end := min(s.Last, i+10)
	for k := i + 1; k < end; k++ {
		if x := t.quantityAt[k]; x >= 0 && x != t.quantityAt[i] {
			end = k // what follows is said of another figure
		}
	}
	return t.has(i, end, "if yours", "if your", "if you like", "if you want", "if it's", "if it isn't", "give or take") >= 0
}

// heatRole tells what a temperature is of.
type heatRole uint8

const (
	someHeat heatRole = iota
	ovenHeat
	insideHeat
	fryHeat
	sugarHeat
)

var insideWords = []string{"inside", "middle", "internal", "thermometer", "probe", "reads", "reading", "centre", "center", "thick", "thickest", "pull", "pulled", "take it off", "take the", "temp it", "instant read"}
var ovenWords = []string{"oven", "ovens", "smoker", "barbecue", "air fryer", "preheat", "preheated", "bake", "baked", "baking", "roast", "roasted", "roasting"}
var fryWords = []string{"oil", "fry", "frying", "fryer", "deep fry"}
var syrupWords = []string{"sugar", "syrup", "caramel", "toffee", "candy"}

// A syrup boils hotter than water, and is caramel at the latest by the higher of
// these, degrees Fahrenheit. Common practice.
const (
	syrupBoils = 220
	syrupBurns = 345
)

// roleOf tells what the temperature is of, from its figure and the words near.
func (t *talk) roleOf(q *quantity) heatRole {
	f, _ := schema.Fahrenheit(q.max, q.unit)
	s := t.sentence(q.First)
	lo, hi := max(s.First, q.First-14), min(s.Last, q.Last+9)
	if x := t.sentOf[q.First]; x > 0 && t.sents[x-1].para == s.para && t.has(lo, hi, fryWords...) < 0 && t.has(lo, hi, ovenWords...) < 0 && q.First-s.First < 4 {
		lo = max(t.sents[x-1].First, q.First-14) // "What was the oil? Three fifty."
	}
	switch {
	case q.unit == "gas":
		return ovenHeat
	case f >= syrupBoils && f <= syrupBurns && t.has(lo, hi, syrupWords...) >= 0 && t.has(lo, hi, ovenWords...) < 0 && t.has(lo, hi, fryWords...) < 0:
		return sugarHeat
	case f >= 275:
		if t.has(lo, hi, fryWords...) >= 0 && t.has(lo, hi, ovenWords...) < 0 {
			return fryHeat
		}
		return ovenHeat
	case t.has(lo, hi, insideWords...) >= 0 && f >= 110:
		return insideHeat
	case t.has(lo, hi, ovenWords...) >= 0 && f >= 150:
		return ovenHeat
	}
	if t.has(max(0, lo-8), lo, "thermometer", "probe") >= 0 && f >= 110 {
		return insideHeat
	}
	return someHeat
}

// climbsTo reports whether a temperature is the one that is reached by itself after the
// fire: "it'll climb to about one thirty-five while it rests".
func (t *talk) climbsTo(q *quantity) bool {
	return t.has(max(t.sentence(q.First).First, q.First-6), q.First, "climb", "climbs", "rise", "rises", "creep", "creeps", "coast", "coasts", "carry", "carries") >= 0
}

// heatAgain compares a temperature said again with those told of the same.
func (r *retelling) heatAgain(k int, q *quantity, before []int) {
	t := r.talk
	f1, ok := schema.Fahrenheit(q.min, q.unit)
	f2, _ := schema.Fahrenheit(q.max, q.unit)
	if !ok || t.climbsTo(q) {
		return
	}
	conditional := t.conditionalAt(q.First)
	if conditional && r.marks[q.First] != through && r.marks[q.First] != reminded {
		return
	}
	role := t.roleOf(q)
	key := r.stretchOf(k)
	best, score := -1, -1
	for _, i := range before {
		o := &t.quantities[i]
		if t.dishOf(o.First) != t.dishOf(q.First) || !r.canTell(o.First) || t.otherWay(o.First, q.First, r.marks[q.First]) || t.roleOf(o) != role || t.climbsTo(o) {
			continue
		}
		a, ok := schema.Fahrenheit(o.min, o.unit)
		b, _ := schema.Fahrenheit(o.max, o.unit)
		if !ok {
			continue
		}
		if o.unit != q.unit && q.scale && q.First >= o.Last && q.First-o.Last <= pairGap && t.toldAgain(o.Last, q.First) {
			return // told over in the other scale, which is compared as a pair
		}
		slack := 2.0
		if o.unit != q.unit {
			slack = 12 // spoken rounding between the scales, common practice
		}
		if a <= f2+slack && f1 <= b+slack {
			return
		}
		if !r.marks[o.First].tells() || t.conditionalAt(o.First) && !conditional {
			continue
		}
		other := r.stretchOf(i)
		n := overlap(key.words, other.words) + 4*overlap(key.nouns, other.nouns)
		sameTool := overlap(key.tools, other.tools) > 0
		if role == someHeat && overlap(key.nouns, other.nouns) == 0 && !sameTool {
			continue
		}
		if len(key.nouns) > 0 && len(other.nouns) > 0 && overlap(key.nouns, other.nouns) == 0 && role != ovenHeat && role != sugarHeat && !sameTool {
			continue
		}
		if n > score {
			best, score = i, n
		}
	}
	if best < 0 {
		return
	}
	o := &t.quantities[best]
	subject := map[heatRole]string{ovenHeat: "oven", insideHeat: "inside temperature", fryHeat: "oil", sugarHeat: "syrup", someHeat: subjectOf(key, "temperature")}[role]
	r.add(q.First, schema.Flag{Kind: schema.ConflictTemperature, Subject: subject,
		Ask:  fmt.Sprintf("Is the temperature %s or %s (%s)?", o.value().String(), q.value().String(), subject),
		Said: []schema.Said{t.saidAround(q), t.saidAround(o)}})
}

// said amount of one food, in a measure that others can be compared with.
type tellingOf struct {
	q       *quantity
	m       *mention
	mention int
	lo, hi  float64
	measure string // "ml", "g", or the unit counted
	listed  bool   // in a list, before anything was done with it
}

// bareGrams is the least number without a unit that can only be of grams or
// millilitres when it is said of a food. Common practice.
const bareGrams = 50

// bare reports whether an amount is a number that leaves its unit to the telling.
func (o *tellingOf) bare() bool { return o.measure == "" && o.lo >= bareGrams }

// comparable gives an amount in millilitres, grams or pieces.
func comparable(q *quantity) (lo, hi float64, measure string) {
	if f, ok := schema.Volume(q.unit); ok {
		return q.min * f, q.max * f, "ml"
	}
	if f, ok := schema.Mass(q.unit); ok {
		return q.min * f, q.max * f, "g"
	}
	unit := q.unit
	if unit == "piece" {
		unit = ""
	}
	return q.min, q.max, unit
}

// amountsAgain compares an amount with what was told before for the same food,
// where it is said of that same amount: in a run-through or a reminder, with
// "all", "both" or "those", or in the bowl after a list was read.
func (r *retelling) amountsAgain() {
	t := r.talk
	told := map[string][]tellingOf{}
	var order []tellingOf
	for k := range t.mentions {
		m := &t.mentions[k]
		s := t.sentence(m.First)
		again := r.marks[m.First] != first
		_, answered := r.back.answers[k]
		if m.negated || m.subst >= 0 || m.verb || m.food.Dish || !again && (!r.canTell(m.First) || t.takesBack(s)) || again && !answered && !r.canRetell(m.First) {
			continue
		}
		ws := m.food.Words()
		if len(ws) == 0 {
			continue
		}
		key := ws[len(ws)-1]
		if q := t.bothOf(m); q != nil {
			now := tellingOf{q: q, m: m}
			now.lo, now.hi, now.measure = comparable(q)
			if o := r.contradicted(&now, told[key], s); o != nil {
				r.amountConflict(&now, o)
			}
			continue
		}
		amounts := m.amounts
		if i := t.besideIt(m); i >= 0 && len(amounts) == 0 {
			amounts = []int{i}
		}
		if i, asked := r.back.answers[k]; asked && len(amounts) == 0 {
			amounts = []int{i}
		}
		for _, i := range amounts {
			q := &t.quantities[i]
			if q.void || q.article && q.kind == count || q.kind != measure && q.kind != count || q.min <= 0 || t.firstAmount(m, i) {
				continue
			}
			now := tellingOf{q: q, m: m, mention: k, listed: t.listedHere(s, m)}
			now.lo, now.hi, now.measure = comparable(q)
			before := told[key]
			if len(before) > 40 {
				before = before[len(before)-40:]
			}
			if o := r.contradicted(&now, before, s); o != nil {
				if r.sameAmountMeant(&now, s) != noClaim || readOut(order, o.m.First) || t.announcesList(o.m.First) {
					r.amountConflict(&now, o)
				}
				continue
			}
			if q.kind == count && t.yield != nil && lexicon.Singular(lastWord(t.yield.Unit)) == lexicon.Singular(lastWord(m.food.Name)) {
				continue // how many it makes
			}
			if q.kind == count && q.First > m.First && t.sentOf[q.First] != t.sentOf[m.First] && s.kind != listing {
				continue
			}
			if how := r.marks[min(q.First, m.First)]; (how == first || how == reminded && len(before) == 0) && m.ingr != nil && !m.compared && !m.mixed && !t.conditionalAt(q.First) {
				told[key] = append(told[key], now)
				order = append(order, now)
			}
		}
	}
}

// besideIt gives the amount that stands right beside a food and was given to no
// other: "garlic, four cloves" in a list without marks, "two hundred eighty of water"
// without its unit; -1 for none.
func (t *talk) besideIt(m *mention) int {
	if m.First >= 2 && t.norm(m.First-1) == "of" {
		if i := t.quantityAt[m.First-2]; i >= 0 {
			if q := &t.quantities[i]; q.food < 0 && q.kind == count && q.min >= bareGrams && q.Last == m.First-1 {
				return int(i)
			}
		}
	}
	if m.Last < len(t.toks) && !t.punctuated && t.sentOf[m.First] == t.sentOf[m.Last] {
		if i := t.quantityAt[m.Last]; i >= 0 {
			if q := &t.quantities[i]; q.food < 0 && q.kind == measure && !q.article && q.First == m.Last && t.mentionStart(q.Last) < 0 && t.norm(q.Last) != "of" {
				return int(i)
			}
		}
	}
	return -1
}

// listedHere reports whether the food is only named with its amount, with
// nothing done to it.
func (t *talk) listedHere(s *sentence, m *mention) bool {
	for i := s.First; i < m.First; i++ {
		if t.actionAt[i] >= 0 {
			return false
		}
		for _, f := range t.verbs(i) {
			if f.Form == lexicon.Base && !f.Action.Noun && !f.Action.Weak && t.mentionAt[i] < 0 && !determiners[t.norm(i-1)] {
				return false
			}
		}
	}
	return true
}

// readOut reports whether a telling stands in a list that was read: with two
// others at least.
func readOut(list []tellingOf, at int) bool {
	n := 0
	for i := range list {
		if o := &list[i]; o.listed && o.m.First-at < 50 && at-o.m.First < 50 {
			n++
		}
	}
	return n >= 3
}

// announcesList reports whether the sentence of token i says that a list is read:
// "for the marinade you will need".
func (t *talk) announcesList(i int) bool {
	s := t.sentence(i)
	return t.has(s.First, i, "need", "you'll want", "take for", "ingredients", "shopping list") >= 0
}

// bothOf reads "both cans of tomatoes", "both onions": all there is, two of
// them. It gives nil where "both" joins two things.
func (t *talk) bothOf(m *mention) *quantity {
	if len(m.amounts) > 0 || t.norm(m.Last) == "and" || t.norm(m.Last) == "or" {
		return nil
	}
	for i := m.First - 1; i >= max(0, m.First-4) && t.sentOf[i] == t.sentOf[m.First]; i-- {
		if t.norm(i) != "both" {
			continue
		}
		q := &quantity{Span: language.Span{First: i, Last: m.First}, kind: count, min: 2, max: 2}
		for k := i + 1; k < m.First; k++ {
			if u, n := t.lex.UnitAt(t.ids, k); n > 0 {
				q.unit, q.kind = u.Unit, measure
				return q
			}
		}
		if plural(t.norm(m.head.Last - 1)) {
			return q
		}
		return nil
	}
	return nil
}

// firstAmount reports whether the quantity is a second measure of an amount
// that the mention has already.
func (t *talk) firstAmount(m *mention, i int) bool {
	for _, j := range m.amounts {
		if j == i {
			return false
		}
		if o := &t.quantities[j]; !o.void && (o.kind == measure || o.kind == count && !o.article) {
			return true
		}
	}
	return false
}

// contradicted gives the amount told before that can't hold beside the new one,
// nil for none.
func (r *retelling) contradicted(now *tellingOf, before []tellingOf, s *sentence) *tellingOf {
	t := r.talk
	q := now.q
	how := r.sameAmountMeant(now, s)
	if how == noClaim && (!now.listed || now.m.definite) && (s.kind == instruction || s.kind == listing) && t.sentOf[q.First] == t.sentOf[now.m.First] {
		how = listedThenUsed
	}
	if how == noClaim || t.furtherOf(q) || t.summedUp(now.m, q) || t.has(max(0, q.First-3), q.First, "other", "second", "last", "half") >= 0 || how != repeated && t.conditionalAt(q.First) {
		return nil
	}
	var last *tellingOf
	lo, hi := 0.0, 0.0 // of all told
	exact := false     // the very name was told, so that a shorter one is another food
	for i := range before {
		exact = exact || related(before[i].m.food, now.m.food) == 2
	}
	parts := 0
	for i := range before {
		o := &before[i]
		rel := related(o.m.food, now.m.food)
		if rel == 0 || exact && rel != 2 || t.dishOf(o.m.First) != t.dishOf(now.m.First) {
			continue
		}
		if now.bare() && (o.q.unit == "g" || o.q.unit == "ml") {
			now.measure = o.measure // "five hundred of flour"
		}
		if how == listedThenUsed && rel != 2 && now.m.food.Kind == "water" {
			continue // water goes in again and again, hot and cold
		}
		if o.measure != now.measure || t.otherWay(o.m.First, now.m.First, r.marks[now.m.First]) {
			if how != listedThenUsed || o.measure != now.measure {
				continue
			}
			continue
		}
		if closeTo(o.lo, o.hi, now.lo, now.hi, 0.04) {
			return nil
		}
		if how == listedThenUsed && (!o.listed || t.partOf(o.m.First) != t.partOf(now.m.First) && t.partOf(o.m.First) >= 0 && (t.punctuated || !now.m.definite)) {
			return nil
		}
		if t.slipBetween(o.q.Last, q.First) && q.First-o.q.Last < 24 {
			return nil
		}
		lo, hi = lo+o.lo, hi+o.hi
		parts++
		last = o
	}
	if last == nil || parts > 1 && closeTo(lo, hi, now.lo, now.hi, 0.04) {
		return nil
	}
	switch how {
	case listedThenUsed, noMoreThan:
		// some of it may be used now and the rest later
		if now.lo <= hi*1.04 {
			return nil
		}
	case wholeOf:
		if parts > 1 && now.hi < lo {
			return nil // all of one of them
		}
	case repeated:
		if now.m.definite && q.of && now.hi < lo {
			return nil // "a spoonful of the oil"
		}
	}
	return last
}

// amountClaim tells how an amount points back at one told before.
type amountClaim uint8

const (
	noClaim        amountClaim = iota
	listedThenUsed             // a list was read, now it is used
	noMoreThan                 // "the", "those": some or all of what there is
	wholeOf                    // "all", "both": all there is
	repeated                   // run-through or reminder
)

func (r *retelling) sameAmountMeant(now *tellingOf, s *sentence) amountClaim {
	t := r.talk
	at := min(now.q.First, now.m.First)
	if r.marks[at] != first || r.marks[now.q.First] != first {
		return repeated
	}
	if t.norm(now.q.First) == "both" {
		return wholeOf
	}
	for i := now.q.First - 1; i >= max(s.First, now.q.First-3); i-- {
		switch t.norm(i) {
		case "all", "both":
			if t.norm(i-1) != "in" {
				return wholeOf
			}
		case "those", "these", "that":
			if t.norm(i) != "that" || now.q.definite {
				return noMoreThan
			}
		case "the", "your":
			if i == now.q.First-1 {
				return noMoreThan
			}
		}
	}
	return noClaim
}

func (r *retelling) amountConflict(now, before *tellingOf) {
	name := before.m.name
	r.add(now.q.First, schema.Flag{Kind: schema.ConflictAmount, Subject: name,
		Ask:  fmt.Sprintf("Is it %s, or %s?", amountOf(before.q.value(), name), now.q.value().String()),
		Said: []schema.Said{r.saidAround(now.q), r.saidAround(before.q)}})
}

// amountOf writes an amount with its food: "2 cups of flour", "4 eggs".
func amountOf(q *schema.Quantity, name string) string {
	if q.Unit == "" || strings.HasSuffix(name, q.Unit) {
		return q.String() + " " + name
	}
	return q.String() + " of " + name
}
