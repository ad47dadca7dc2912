package extract

import (
	"quern/internal/language"
	"quern/internal/lexicon"
)

// A figure can be said a second time without a word that announces it: in an
// answer to somebody's question, in a few words at the end, in telling whom
// she told. Such an echo is known by what stands around it. It speaks of what
// was told some while before, brings nothing new into the dish, and nothing
// makes it another's: no other person, time, size of batch, choice or dish.

// echoDistance is the fewest words between a figure and its echo. Nearer ones
// are told together: "two cups now, and the other cup later".
const echoDistance = 40

// markEchoes marks the figures that are said a second time, as reminders.
func (t *talk) markEchoes(marks []again) {
	over := t.toldBy()
	for k := range t.quantities {
		q := &t.quantities[k]
		if q.void || q.First < echoDistance || marks[q.First] != first {
			continue
		}
		from, to := q.First, q.Last
		switch {
		case q.kind == measure || q.kind == count:
			if q.food < 0 || t.mentions[q.food].negated {
				continue
			}
			from, to = min(from, t.mentions[q.food].First), max(to, t.mentions[q.food].Last)
		case q.kind != duration && q.kind != heat:
			continue
		case q.kind == heat && k > 0 && q.First-t.quantities[k-1].Last <= 3 && t.otherScaleTold(&t.quantities[k-1]):
			continue // "seventy-five, and that's thirty Celsius"
		}
		if !t.echoes(k, over) || t.elsewhere(q) {
			continue
		}
		for i := from; i < to; i++ {
			if marks[i] == first {
				marks[i] = echoed
			}
		}
	}
}

// echoes reports whether quantity k stands where one is said again: in an answer,
// as a thing that is spoken of, or when all is told, beside another figure that is
// said again. What is ordered then is a further step.
func (t *talk) echoes(k, over int) bool {
	q := &t.quantities[k]
	amount := q.kind == measure || q.kind == count
	switch {
	case amount:
		return (t.answers(q.First) || q.First >= over && !t.ordered(q)) && t.nothingNew(q) && (t.anchored(k) || t.answers(q.First) && stated[t.norm(q.First-1)])
	case t.answers(q.First), t.spokenTime(q):
		return true
	case q.First < over || t.ordered(q):
		return false
	}
	return t.anchored(k) || q.kind == heat && stated[t.norm(q.First-1)]
}

// stated are words that lead to a figure as a fact.
var stated = words("it's that's is oven's at")

// ordered reports whether the clause of a figure is an order: "leave them five
// minutes" is told then and there.
func (t *talk) ordered(q *quantity) bool {
	s := t.sentence(q.First)
	for i := q.First - 1; i >= s.First && i >= q.First-12; i-- {
		if a := t.actionAt[i]; a >= 0 && t.actions[a].mood == imperative {
			return true
		}
		if i < q.First-1 && t.toks[i].After&^language.Comma != 0 {
			break
		}
	}
	return false
}

// anchorReach is the most words between a figure and one beside it that is said
// again just as it was told.
const anchorReach = 24

// anchored reports whether another figure near quantity k was told before, with
// the same value, of the same: what stands around it is said again.
func (t *talk) anchored(k int) bool {
	q := &t.quantities[k]
	for n := k - 4; n <= k+4; n++ {
		if n < 0 || n == k || n >= len(t.quantities) {
			continue
		}
		o := &t.quantities[n]
		if o.void || o.First-q.Last > anchorReach || q.First-o.Last > anchorReach || !t.toldAlike(n) {
			continue
		}
		return true
	}
	return false
}

// toldAlike reports whether a figure equal to quantity n was told of the same some
// while before: the amount of a food, a time, a temperature.
func (t *talk) toldAlike(n int) bool {
	q := &t.quantities[n]
	amount := q.kind == measure || q.kind == count
	if amount && (q.food < 0 || q.article) || !amount && q.kind != duration && q.kind != heat {
		return false
	}
	for k := n - 1; k >= 0 && k >= n-earlierFigures; k-- {
		o := &t.quantities[k]
		sameUnit := o.kind == q.kind && o.unit == q.unit || q.kind == count && q.min >= bareGrams && (o.unit == "g" || o.unit == "ml")
		if o.void || !sameUnit || o.min != q.min || o.max != q.max || q.First-o.Last < echoDistance {
			continue
		}
		if !amount || o.food >= 0 && related(t.mentions[o.food].food, t.mentions[q.food].food) > 0 {
			return true
		}
	}
	return false
}

// ended are words by which a cook says that the dish is made.
var ended = []string{"serve", "serves", "serve it", "enjoy", "dish up", "plate up", "eat it", "eat them", "slice it", "tuck in", "cool on", "cool them", "cool it", "cool completely", "let it cool", "let them cool", "and that's it", "that's your", "there you go", "there you have", "there it is", "there they are", "ready to eat", "all done", "we're done", "you're done", "is done", "take it out", "bring it to the table", "call everybody", "call them in"}

// toldBy gives the token from which the recipe has been told: the first words
// in the later half of the talk that keep the dish, count it, or say that it
// is made, and at the latest the talk's last eighth.
func (t *talk) toldBy() int {
	for k := range t.sents {
		s := &t.sents[k]
		if s.First < len(t.toks)/2 {
			continue
		}
		if s.First > len(t.toks)*7/8 || s.kind == storing || s.kind == figures || s.kind == yielding || t.hasAny(s.First, s.Last, ending) >= 0 {
			return s.First
		}
	}
	return len(t.toks)
}

// askedHer are verb forms by which somebody asks the cook how it is made, whoever
// that is. asks are forms that may be nouns, and need a person before them.
// tellers are what she says she answered.
var (
	askedHer = words("asked asks asking wrote writes messaged emailed emails texted texts phoned rang commented complained wondered")
	asks     = words("ask write writing message messages email text phone phones ring rings comment comments complain want wanted letter letters question questions called calls")
	askWord  = words("people somebody someone anybody anyone everybody everyone many lots folks she he they who viewers subscribers viewer reader had get got")
	tellers  = []string{"i said", "i say", "i tell", "i told", "i always say", "i answered", "i wrote back", "i text back", "i keep saying", "i keep telling", "i'm telling you", "i repeat", "listen"}
)

// answers reports whether token i stands in an answer to somebody, or in what
// the cook tells that she told: her own words said over, within three
// sentences.
func (t *talk) answers(i int) bool {
	here := int(t.sentOf[i])
	for k := here; k >= 0 && k >= here-3; k-- {
		s := &t.sents[k]
		if k < here-1 && s.para != t.sents[here].para {
			return false
		}
		end := s.Last
		if k == here {
			end = i
		}
		if told := t.answerFrom(k); told > 0 && told <= end {
			return true
		}
	}
	return false
}

// answerFrom gives the end of the first words of sentence k after which what is said
// answers somebody, -1 where there are none.
func (t *talk) answerFrom(k int) int {
	if t.answerAt == nil {
		t.answerAt = make([]int32, len(t.sents))
	}
	if t.answerAt[k] != 0 {
		return int(t.answerAt[k])
	}
	s := &t.sents[k]
	end := -1
	for _, p := range t.placesIn(s.First, s.Last, teller) {
		if e := int(p.tok + p.words); e <= s.Last && (end < 0 || e < end) {
			end = e
		}
	}
	for j := s.First + 1; j < s.Last && (end < 0 || j+1 < end); j++ {
		w, p := t.norm(j), t.norm(j-1)
		if !t.in(anAsking, j) {
			continue
		}
		if askedHer[w] && p != "i" && p != "i've" || asks[w] && (askWord[p] || askWord[t.norm(j-2)] || relations[p]) {
			end = j + 1
		}
	}
	t.answerAt[k] = int32(end)
	return end
}

// spokenTime reports whether a time is spoken of as a thing, not ordered: "that's
// five hours on low", "one hour of simmering and you're in bed".
func (t *talk) spokenTime(q *quantity) bool {
	if q.kind != duration {
		return false
	}
	if t.norm(q.Last) == "of" || q.Last > q.First && t.norm(q.Last-1) == "of" {
		i := q.Last
		if t.norm(i) == "of" {
			i++
		}
		for _, f := range t.verbs(i) {
			if (f.Form == lexicon.Ing || f.Form == lexicon.Base && f.Action.Noun) && verbGroup[f.Action.Verb] != "" {
				return true // "of simmering", "of chill"
			}
		}
	}
	return t.norm(q.First-1) == "that's" && t.norm(q.First-2) == "so"
}

// nothingNew reports whether every food that the sentence gives an amount was
// named before, in the same part, so that the sentence says nothing but what
// was told.
func (t *talk) nothingNew(q *quantity) bool {
	s := t.sentence(q.First)
	for _, n := range t.mentionsIn(s.First, s.Last) {
		m := &t.mentions[n]
		if len(m.amounts) == 0 || m.negated || m.food.Dish {
			continue
		}
		if !t.namedBefore(n, s.First) {
			return false
		}
	}
	for _, p := range t.parts {
		if p.tok >= s.First && p.tok < s.Last {
			return false
		}
	}
	return true
}

// namedBefore reports whether the food of mention n is named before token at.
func (t *talk) namedBefore(n, at int) bool {
	for k := n - 1; k >= 0 && k >= n-earlierFigures; k-- {
		if o := &t.mentions[k]; o.First < at && related(o.food, t.mentions[n].food) > 0 {
			return true
		}
	}
	return false
}

// elsewhere reports whether the words around a figure make it another's than
// this dish's as it was told.
func (t *talk) elsewhere(q *quantity) bool { return t.elsewhereFrom(q, 0) }

// elsewhereFrom does what elsewhere does, with the words from token from on alone.
func (t *talk) elsewhereFrom(q *quantity, from int) bool {
	s := t.sentence(q.First)
	lo, hi := max(s.First, q.First-18, from), min(s.Last, q.Last+10)
	// a clause that stands for itself before the figure is of something else
	for i := q.First - 1; i >= lo; i-- {
		if t.toks[i].After&^language.Comma != 0 {
			lo = i + 1
			break
		}
	}
	if s.other || t.fanIn(lo, hi) || t.conditionalAt(q.First) || t.asked(s, q.First, q.Last) {
		return true
	}
	if t.earliest(lo, hi, anotherCase) >= 0 || !stated[t.norm(q.First-1)] && t.earliest(max(lo, q.First-4), q.First, notThisOne) >= 0 {
		return true
	}
	if i := t.earliest(q.Last, min(hi, q.Last+4), notThisOneAfter); i >= 0 && t.norm(i-1) != "no" {
		return true // "ten minutes more", but "ten minutes, no more"
	}
	return t.anothersDoing(lo, q.First)
}

// otherCase are words that speak of another time, batch, place or dish than
// the one that was told.
var otherCase = []string{
	"last year", "last time", "last week", "next time", "next week", "next day", "another day", "another time", "some day", "tomorrow", "yesterday", "this morning", "used to", "in the old days", "when i was", "years ago", "one time", "grandmother's day", "mother's day",
	"double", "doubled", "doubling", "triple", "twice", "half the", "halve", "bigger", "smaller", "larger", "a crowd", "crowd", "batch", "batches",
	"instead", "version", "otherwise", "some recipes", "other recipes", "recipes say", "people say", "they say", "they'll tell you", "you'll read", "packet", "packets", "box says", "the box", "label", "carton", "the book", "old book", "magazine", "misprint",
	"convection", "air fryer", "pressure cooker", "pressure pot", "microwave", "altitude", "my old", "hotter", "cooler",
	"reheat", "warm up", "warm it", "warm them", "heat it up", "heat it again", "leftover", "leftovers", "defrost", "thaw", "keep", "keeps", "freeze", "freezer", "fridge",
	"bought", "buy", "market", "the shop", "i waited", "bus", "drive", "walk",
	"i meant", "i mean", "correction", "ruined", "burns", "burnt", "burned", "too much", "too long", "too little", "wholemeal", "gluten free",
}

// notThis are words that, just before a figure, make it one that isn't meant.
var notThis = []string{"not", "don't", "never", "isn't", "wasn't", "without", "up to", "as high as", "as low as", "as much as", "more than", "less than", "over", "under", "another", "extra", "could", "might", "or", "either", "between", "every", "per", "each", "after", "within", "first", "last", "other", "with a"}

// notThisAfter are words that do so after it.
var notThisAfter = []string{"is too", "was too", "more", "extra", "longer", "later", "ago", "each", "isn't", "wouldn't", "left", "old", "away", "early", "before"}

// anothersDoing reports whether somebody else does what is told in tokens
// [a, b): "my sister uses", "she put in", "a lady wrote that she used".
func (t *talk) anothersDoing(a, b int) bool {
	for i := a; i < b; i++ {
		w := t.norm(i)
		if !others[w] && !(i > a && relations[w] && (t.norm(i-1) == "my" || t.norm(i-1) == "a" || t.norm(i-1) == "our" || t.norm(i-1) == "the" || t.norm(i-1) == "some")) {
			continue
		}
		for j := i + 1; j < min(b, i+4); j++ {
			for _, f := range t.verbs(j) {
				if f.Form != lexicon.Ing {
					return true
				}
			}
			switch t.norm(j) {
			case "uses", "used", "use", "puts", "put", "does", "did", "makes", "made", "likes", "liked", "has", "had", "goes", "takes", "took", "swears", "wants", "prefers", "insists":
				return true
			}
			if youWe[t.norm(j)] {
				break
			}
		}
	}
	return false
}

// relations are people whom a cook speaks of.
var relations = words(family + " lady woman man guy chef people books book recipes recipe")
