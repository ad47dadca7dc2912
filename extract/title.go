package extract

import (
	"slices"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// titleCues introduce the dish.
var titleCues = []string{"these are the", "these are my", "number one is", "what i'm making is", "i make these", "i'm making you", "number two is", "first recipe is", "second recipe is", "the dish is", "is called", "what we're making today is", "we're making", "we are making", "i'm making", "today we're doing", "we're doing", "i'm doing", "this is my", "so it's a", "it's a", "so this is", "this is", "today it's", "we're having", "what we doing is", "what we got today is",
	"making you", "going to make", "gonna make", "going to be making", "gonna be making", "we're cooking", "recipe for", "here's my", "i'm gonna show you", "i show you", "i'll show you", "i will show you", "show you how to make", "show you how to do", "how to make", "called", "today is", "today's recipe is", "doing my", "making my", "making some", "make some", "today i'm making", "let's make", "want to make", "about the", "we make", "you're getting", "today i've got", "i've got for you",
	"how i make", "how i do my", "asking about the", "asking about my", "asked about my", "asked about the", "wanted the", "talk about", "today we make", "recipe is", "it's my", "it's the", "today, it's", "i'll be making", "we'll be making", "we'll make", "we'll do", "you how to", "have is", "is for", "doing a", "doing the", "be doing", "be making", "it is our", "it's our", "today it is", "it is a", "it is my", "i do my", "i'm fixing", "we're fixing", "to share", "we say", "you say", "we call it", "they call it", "calls it", "people call it", "it is named", "it's named", "i promised you", "keeps asking about my", "keep asking about my", "cooking", "fixing"}

// findTitle names the dish: the words after an introduction, or a fragment
// at the start, or the food and method the talk works on.
func (t *talk) findTitle() {
	for d := range t.dishes {
		a, b, why := t.titleSpan(d)
		a, b = t.fullerName(d, a, b)
		t.dishes[d].span.First, t.dishes[d].span.Last = a, b
		t.dishes[d].title = t.fullTitle(a, b)
		t.dishes[d].told = why == toldWhichOne || why == saidAtOpening
		if b > a {
			t.because("title "+t.dishes[d].title, a, b, why)
		}
	}
}

// fullTitle goes on from the words [a, b) over what the speaker adds in the
// same breath: "a punch, a tea punch, cranberry and orange", "Hake. Butter
// sauce.", "tacos, with a salsa of guajillo".
func (t *talk) fullTitle(a, b int) string {
	if b <= a {
		return ""
	}
	text := t.titleText(a, b)
	noun := t.norm(b - 1)
	s := t.sentence(a)
	for n := 0; n < 3; n++ {
		if b < s.Last && !(t.written(b-1)&language.Comma != 0) {
			// "tacos for a normal day, tacos of beef": skip a short aside up to the next mark
			k := b
			for k < s.Last && k < b+5 && t.written(k-1) == 0 {
				k++
			}
			if t.written(k-1)&language.Comma == 0 || n > 0 || k == b {
				break
			}
			b = k
		}
		if b >= s.Last {
			break
		}
		x := b
		for x < s.Last && articleLike[t.norm(x)] {
			x++
		}
		if x > 0 && t.butWith(x) {
			x++
		}
		e := x
		for e < s.Last && (e == x || t.written(e-1) == 0) {
			e++
		}
		if e-x > 9 || e == x || t.verbInside(x, e) || t.subjectInside(x, e) {
			break
		}
		switch {
		case t.norm(x) == "with":
			y := trimTitle(t, x, t.titleEnd(x+1, e))
			if y <= x+1 {
				return text
			}
			text += " " + strings.ToLower(t.titleText(x, y))
		case t.has(x, e, noun) >= 0:
			text = t.titleText(x, e)
			noun = t.norm(e - 1)
			if !dishNoun[noun] && !dishNoun[lexicon.Singular(noun)] {
				noun = t.norm(x)
			}
		case t.onlyNames(x, e):
			text = title(t.phraseHyphen(x, e)) + " " + strings.ToLower(text)
		default:
			return text
		}
		b = e
	}
	// fragments one after another: "Hake. Butter sauce."
	if k := int(t.sentOf[a]); s.Len() <= 4 && b >= s.Last {
		if k > 0 && t.sents[k-1].Len() <= 3 && t.onlyNames(t.sents[k-1].First, t.sents[k-1].Last) {
			p := t.sents[k-1]
			return t.titleText(p.First, p.Last) + " with " + strings.ToLower(text)
		}
		if k+1 < len(t.sents) && t.sents[k+1].Len() <= 4 && t.component(t.sents[k+1].First) == t.sents[k+1].Last {
			p := t.sents[k+1]
			return text + " with " + strings.ToLower(t.titleText(p.First, p.Last))
		}
	}
	return text
}

func (t *talk) subjectInside(a, b int) bool {
	for i := a; i < b; i++ {
		w := t.norm(i)
		if youWe[w] || others[w] || w == "it" || w == "is" || w == "it's" || w == "that's" || subordinators[w] && w != "like" {
			return true
		}
	}
	return false
}

// onlyNames reports whether tokens [a, b) are foods, their modifiers and
// joining words.
func (t *talk) onlyNames(a, b int) bool {
	n := 0
	for i := a; i < b; i++ {
		w := t.norm(i)
		switch {
		case t.mentionAt[i] >= 0 || t.madeAt[i] > 0 || dishNoun[w]:
			n++
		case w == "and" || w == "with" || t.lex.Modifiers[w] != 0:
		default:
			return false
		}
	}
	return n > 0
}

func (t *talk) dishEnd(d int) int {
	if d+1 < len(t.dishes) {
		return t.dishes[d+1].tok
	}
	return len(t.toks)
}

// refusedIn reports whether a name over tokens [a, b) is of what isn't wanted: "please no
// cake", but not "no-knead bread".
func (t *talk) refusedIn(a, b int) bool {
	for i := a; i < b; i++ {
		switch t.norm(i) {
		case "please", "not":
			return true
		case "no":
			return i+1 >= len(t.toks) || !t.toks[i+1].Joined && t.norm(i+1) != "knead" && t.norm(i+1) != "bake" && t.norm(i+1) != "cook" && t.norm(i+1) != "churn"
		}
	}
	return false
}

// todays gives the tokens of what a sentence says it is today: "so it's rajma today".
func (t *talk) todays(s *sentence) (int, int) {
	for i := s.First; i < s.Last && i < s.First+5; i++ {
		if t.norm(i) != "it's" {
			continue
		}
		for j := i + 2; j < min(s.Last, i+6); j++ {
			w := t.norm(j)
			if w == "today" || w == "tonight" {
				if a := i + 1; !t.subjectInside(a, j) && t.written(j-1) == 0 && !t.weather(a, j) {
					return a, j
				}
			}
			if t.written(j-1) != 0 || t.baseVerb(j-1) != nil && !dishNoun[t.norm(j-1)] {
				break
			}
		}
	}
	return 0, 0
}

// weather reports whether the words tell how a day is, and no dish: "it's hot today". What
// may stand before a dish's name tells it only where none follows: "my curry".
func (t *talk) weather(a, b int) bool {
	for i := a; i < b; i++ {
		if w := t.norm(i); ofDay[w] || beforeDish[w] && !(i+1 < b && t.nameWord(b-1)) {
			return true
		}
	}
	return false
}

var (
	ofDay      = words("raining sunny windy wet only just me us monday tuesday wednesday thursday friday saturday sunday quiet busy lovely early late fine snowing freezing boiling degrees birthday")
	beforeDish = words("a my our hot cold warm quick easy")
)

// titleSpan finds the tokens that name dish d.
func (t *talk) titleSpan(d int) (int, int, string) {
	start := t.dishes[d].tok
	end := t.dishEnd(d)
	limit := min(end, start+max(160, (end-start)/4))
	work := t.firstWork(start, end)
	bestA, bestB, best := 0, 0, 0
	why := ""
	said := t.spots(start, limit, titleCues)
	weigh := func(a, b, score int, w string) {
		if t.deniedName(a, b) || t.othersName(a, b) || t.refusedIn(a, b) || t.countsOut(a, b) || t.notDone(a) || partOnly[t.norm(b-1)] && a > start+30 && a > start+(end-start)/8 {
			return
		}
		if score > best {
			bestA, bestB, best, why = a, b, score, w
		}
	}
	consider := func(a, b, bonus int, w string) {
		for b > a+1 && t.endsInQuality(b-1) && t.nameWord(b-2) {
			b-- // "carrot cake fine"
		}
		weigh(a, b, t.titleScore(a, b)+bonus, w)
	}
	for k := range t.sents {
		s := &t.sents[k]
		if s.First < start || s.First >= limit {
			continue
		}
		if i, j := t.todays(s); j > i && s.First <= work {
			consider(i, j, 6, "what it is today")
		}
		story := s.past && s.kind == aside && t.has(s.First, s.Last, "asking", "wanted", "asked") < 0 && !t.namesFirst(s)
		late := (s.First - start) / 60 // earlier is better
		for len(said) > 0 && said[0].sent < k {
			said = said[1:]
		}
		for ; len(said) > 0 && said[0].sent == k; said = said[1:] {
			cue, i := titleCues[said[0].entry], said[0].tok
			n := said[0].words
			if i+n < s.Last {
				a := i + n
				if story && i > s.First+2 || i > 0 && t.in(anUntil, i-1) {
					continue // "till it's the colour of honey"
				}
				if b := t.titleEnd(a, s.Last); b > a {
					bonus := 6 - late
					if n == 2 && (cue == "it's a" || cue == "this is" || cue == "it's the" || cue == "is for" || cue == "called") || n == 1 {
						bonus = 3 - late
					}
					if s.First > work {
						bonus -= 3 // the work has begun
					}
					if s.other {
						bonus -= 6
					}
					consider(a, b, bonus, "introduction: "+cue)
				}
				// "it's a treat, a proper one, lemon and raspberry cheesecake"
				for x, n := a, 0; n < 3 && !story; n++ {
					for x < s.Last && t.written(x)&language.Comma == 0 {
						x++
					}
					x++
					if x >= s.Last {
						break
					}
					if b := t.titleEnd(x, s.Last); b > x && t.titleHas(x, b) && t.onlyNames(x, b) {
						consider(x, b, 3-late, "introduction: "+cue)
					}
				}
			}
		}
		for i := s.First; t.punctuated && i+1 < s.Last; i++ {
			a, sure := t.dishAnnounced(s, i)
			if a < 0 || story && !(sure && (strings.HasSuffix(t.norm(i), "ing") || futureWords[t.norm(i-1)])) {
				continue
			}
			if b := t.titleEnd(a, s.Last); b > a && (sure && t.titleScore(a, b) > 1 || t.strangeName(a, b) && (sure || t.explained(s, b)) || t.dishLike(a, b)) {
				bonus := 3 - late
				if sure {
					bonus += 2
				}
				if t.strangeName(a, b) && (sure || t.explained(s, b)) {
					bonus += 5
					if t.has(b, min(s.Last, b+3), "this is", "that is", "that's", "which is") >= 0 {
						bonus += 2 // "adobo, this is chicken in vinegar"
					}
				}
				if s.First > work {
					bonus -= 3
				}
				if s.other {
					bonus -= 6
				}
				consider(a, b, bonus, "announced")
			}
		}
		// a fragment: "Buttermilk honey layer cake.", "Right. Hake. Butter sauce.", "Ginger beef stir-fry with rice, serves four"
		a := s.First
		for a < s.Last && (headWords[t.norm(a)] || greetings[t.norm(a)] && (t.nameWord(a+1) || greetings[t.norm(a+1)])) {
			a++
		}
		if story || s.First > work && t.norm(a) == "the" && t.component(a+1) == s.Last {
			continue // "Now the sauce.": the next thing to make
		}
		if b := t.titleEnd(a, s.Last); b > a && (b >= s.Last || t.written(b-1) != 0 || t.norm(b) == "and" || t.norm(b) == "first" || t.norm(b) == "today" || t.norm(b) == "tonight" || t.norm(b) == "for" && t.startsNumber(b+1) || !t.punctuated && others[t.norm(b)]) && !t.verbInside(a, b) && t.norm(a) != "with" && !t.setsAside(s) && !t.listsOut(s, a, b) && !t.intoTool(a, b) && (s.First <= work || s.First-start < 40) {
			consider(a, b, 4-late, "fragment")
		}
		// ", the compote." at the end of a turn
		if d > 0 && s.First-start < 40 {
			for x := s.Last - 1; x > s.First && x >= s.Last-4; x-- {
				if (t.norm(x) == "the" || t.norm(x) == "a") && t.written(x-1) != 0 {
					consider(x+1, s.Last, 4, "turn")
				}
			}
		}
	}
	if t.punctuated {
		t.apposedTitles(start, limit, work, consider)
		t.openingNames(start, limit, work, weigh)
	} else {
		t.unmarkedTitles(start, limit, work, consider)
		t.unmarkedNames(start, limit, work, weigh)
	}
	if len(t.dishes) == 1 {
		t.namedAnywhere(start, limit, work, consider)
		t.closingNames(end, consider)
	}
	return bestA, bestB, why
}

// partOnly are words for what is made to go with a dish or into it: it's named late in a talk as
// a part, seldom as the dish.
var partOnly = words("dressing icing frosting glaze custard sauce filling ganache buttercream drizzle syrup crust pastry dough marinade gravy ragu toffee base batter mayo")

// countsOut reports whether the words [a, b) begin with an amount of a food, as of what goes
// in: "half a white cabbage", but not "eight bagels".
func (t *talk) countsOut(a, b int) bool {
	if !t.quantityBegins(a) && !t.startsNumber(a) {
		return !t.punctuated && t.readsOut(a, b)
	}
	if q := t.quantityAt[a]; q >= 0 && t.quantities[q].kind == measure && !t.quantities[q].article {
		return true
	}
	return !t.isDishNoun(b-1) && t.madeAt[b-1] == 0 && !dishNames[t.norm(b-1)] || cuts[lexicon.Singular(t.norm(b-1))]
}

// readsOut reports whether tokens [a, b) are foods read out one after another, with nothing that
// joins them to a name: "buns lettuce burger relish".
func (t *talk) readsOut(a, b int) bool {
	n, last := 0, int32(-1)
	for i := a; i < b; i++ {
		if w := t.norm(i); w == "and" || w == "with" || w == "in" || w == "on" || w == "of" {
			return false
		}
		if m := t.mentionAt[i]; m >= 0 && m != last {
			n, last = n+1, m
		}
	}
	return n > 2+b2n(t.isDishNoun(b-1), 1)
}

// notDone reports whether the name at token a is of what the cook doesn't do or buy: "I don't
// do canned enchilada sauce anymore".
func (t *talk) notDone(a int) bool {
	s := t.sentence(a)
	for i := a - 1; i >= s.First && i >= a-3; i-- {
		if w := t.norm(i); w == "don't" || w == "doesn't" || w == "didn't" || w == "won't" || w == "never" {
			return true
		}
		if t.written(i) != 0 {
			return false
		}
	}
	return false
}

// intoTool reports whether the words [a, b) end with where something goes: "sugar and golden
// syrup in the pan".
func (t *talk) intoTool(a, b int) bool {
	for i := b - 1; i > a+1; i-- {
		if t.toolAt[i] >= 0 && (determiners[t.norm(i-1)] || t.norm(i-1) == "a") {
			return t.norm(i-2) == "in" || t.norm(i-2) == "into" || t.norm(i-2) == "on"
		}
	}
	return false
}

// listsOut reports whether a fragment that opens sentence s with the foods [a, b) reads out
// what goes in: amounts follow in the same breath, and the words name no dish.
func (t *talk) listsOut(s *sentence, a, b int) bool {
	if t.dishLike(a, b) && !(b < s.Last && t.written(b-1)&language.Colon != 0) {
		return false
	}
	if m := t.mentionAt[a]; m >= 0 && t.mentions[m].head.Last >= b && !plateKind[t.mentions[m].food.Kind] && b < s.Last {
		return true // "butter, the same"
	}
	for i := b; i < s.Last && i < b+8; i++ {
		if t.foodMeasureAt(i) {
			return true
		}
	}
	return false
}

// closers lead to the name of the dish where the talk ends.
var closers = words("and so there you go have it is that's that this here's there's they they're are those these your my our a an the now well right okay folks done")

// closingNames considers the name with which the talk ends: "and that's your lemon drizzle
// cake", "tomato soup and cheese toasties, doesn't get better".
func (t *talk) closingNames(end int, consider func(a, b, bonus int, why string)) {
	from := end - max(30, end/20)
	for i := max(1, from); i < end; i++ {
		s := t.sentence(i)
		if s.other || s.kind == storing || s.kind == figures || s.First < from && t.punctuated {
			continue
		}
		opens := i == s.First || t.written(i-1).Ends()
		cued := t.norm(i) == "that's" || t.norm(i) == "there's" || t.norm(i) == "here's" || t.is(i, "this", "is") || t.is(i, "those", "are") || t.is(i, "there", "you", "go") || t.is(i, "there", "you", "have")
		if !opens && !cued {
			continue
		}
		a := i
		for a < s.Last && a < i+8 && closers[t.norm(a)] {
			a++
		}
		if a >= s.Last || !t.nameWord(a) && !(t.strange(a) && t.recurs(t.norm(a))) || t.ordersAt(a) {
			continue
		}
		b := t.nameRun(a, s.Last)
		for b < s.Last && b < a+7 && t.written(b-1) == 0 && t.strange(b) { // "cheese toasties"
			b++
		}
		if !t.dishLike(a, b) && !t.isDishNoun(a+1) || beside[lexicon.Singular(t.norm(b-1))] || b-a == 1 && !dishNames[t.norm(a)] && !t.recurs(t.norm(a)) || b-a == 1 && !t.saidFor(a, s) || b-a > 1 && !t.usedBefore(a, b) {
			continue
		}
		switch {
		case cued:
			consider(a, b, 4, "the name it ends with")
		case b >= s.Last || t.written(b-1) != 0 || t.norm(b) == "for":
			consider(a, b, 2, "the name it ends with")
		}
	}
}

// saidFor reports whether a name of one word at token a is the cook's or the listener's, or is
// told with how many it feeds: "that's your moussaka", "egg rolls for six".
func (t *talk) saidFor(a int, s *sentence) bool {
	switch t.norm(a - 1) {
	case "your", "the", "my", "our":
		return true
	}
	return a > s.First && t.norm(a-1) != "a" && t.norm(a-1) != "an" || a+1 < s.Last && t.norm(a+1) == "for" || dishNames[t.norm(a)]
}

// usedBefore reports whether a word of the name [a, b) was said before, as a food or a dish of
// the talk is.
func (t *talk) usedBefore(a, b int) bool {
	for i := a; i < b; i++ {
		if w := t.norm(i); t.nameWord(i) && !cookedWord[w] && t.has(0, a, w) >= 0 {
			return true
		}
	}
	return false
}

// greetings stand before the name of the dish in talk without marks.
var greetings = words("hello hi hey hiya guys all evening morning afternoon everyone everybody folks friends welcome back howdy")

// futureWords before a verb tell what will be done.
var futureWords = words("will gonna to i'll we'll let's")

// makingVerbs say that a dish is made.
var makingVerbs = words("make making cook cooking bake baking prepare preparing teaching showing")

// dishAnnounced reports whether the words at token i announce what is made, in
// whatever words: "so we will make", "I make", "it's". It gives where the name
// begins, -1 for no announcement; sure tells that a verb of making says so.
func (t *talk) dishAnnounced(s *sentence, i int) (int, bool) {
	switch w := t.norm(i); {
	case t.in(aMakingVerb, i):
		for k := i - 1; k >= s.First && k >= i-4; k-- {
			switch t.norm(k) {
			case "i", "we", "i'm", "we're", "i'll", "we'll", "let's", "today", "tonight":
				if t.is(i+1, "for", "you") || t.is(i+1, "for", "us") {
					return i + 3, true // "I cook for you adobo"
				}
				return i + 1, true
			case "will", "am", "are", "to", "going", "gonna", "just", "do", "want":
			default:
				return -1, false
			}
		}
	case w == "is" && (t.norm(i-1) == "you" || t.norm(i-1) == "here" || t.norm(i-1) == "today") && i-s.First <= 8 && t.norm(s.First) == "what":
		return i + 1, true // "what I can give you is a chicken supper"
	case w == "it's" || w == "today's" || w == "tonight's" || w == "is" && (t.norm(i-1) == "it" || t.norm(i-1) == "today" || t.norm(i-1) == "tonight"):
		return i + 1, false
	}
	return -1, false
}

// strangeName reports whether tokens [a, b) are a name nobody's lexicon holds:
// up to three words and a mark, the last of them a noun of no other use.
func (t *talk) strangeName(a, b int) bool {
	if b-a > 3 || b <= a || !t.punctuated || t.written(b-1) == 0 || !t.strange(b-1) {
		return false
	}
	for i := a; i < b-1; i++ {
		if !t.nameWord(i) && !t.strange(i) {
			return false
		}
	}
	return true
}

// strange reports whether the word at i is in none of the tables and looks like
// the noun for a thing: written small, and no adjective or participle.
func (t *talk) strange(i int) bool {
	w := t.norm(i)
	if len(w) < 4 || t.toks[i].Joined || t.nameWord(i) || t.actionAt[i] >= 0 || t.toolAt[i] >= 0 || t.quantityAt[i] >= 0 || wayStop[w] || unnamed[w] || strings.ContainsRune(w, '\'') {
		return false
	}
	for _, end := range []string{"ing", "ed", "ly", "ful", "ous", "less", "able"} {
		if strings.HasSuffix(w, end) {
			return false
		}
	}
	if len(t.lex.Verbs(w)) > 0 {
		return false
	}
	if c := t.n.Words[t.toks[i].Word].Text[0]; c >= 'A' && c <= 'Z' && (t.sentence(i).Len() > 1 || t.sentOf[i] == 0) {
		return false // a person or a place, unless it stands all by itself: "Caponata."
	}
	return t.lex.Modifiers[w] == 0 && !subordinators[w] && !headWords[w] && !leadAdverbs[w] && !youWe[w] && !others[w]
}

// explained reports whether the name that ends at b is more than a passing
// word: it comes again, or the next sentence tells what it is ("It's pastitsio.
// That's the Greek one with the long pasta").
func (t *talk) explained(s *sentence, b int) bool {
	if t.recurs(t.norm(b - 1)) {
		return true
	}
	k := int(t.sentOf[s.First]) + 1
	return k < len(t.sents) && t.has(b, t.sents[k].Last, "that's the", "that's a", "that is the", "which is", "it's not", "it's like", "it's a", "is like") >= 0
}

// recurs reports whether the talk says the word more than once.
func (t *talk) recurs(w string) bool { return t.saidTimes(w, 2) }

// deniedName reports whether the name [a, b) is said to be another dish's:
// "it's not moussaka", "like the ceviche", "sashimi quality".
func (t *talk) deniedName(a, b int) bool {
	if b <= a {
		return true
	}
	first := t.sentence(a).First
	for first < a && headWords[t.norm(first)] {
		first++
	}
	if first < a && t.norm(first) == "not" {
		return true // "Not the Mexican one, that is a flat bread."
	}
	if !t.punctuated { // where a clause ends is a guess
		return a > 1 && (t.norm(a-1) == "not" || articleLike[t.norm(a-1)] && t.norm(a-2) == "not")
	}
	if t.has(a, min(len(t.toks), b+4), "by the side", "on the side") >= 0 {
		return true
	}
	switch t.norm(b) {
	case "quality", "grade", "style", "night":
		return t.written(b-1) == 0
	}
	for i := max(0, a-1); i < b; i++ {
		if w := t.norm(i); w == "not" || w == "like" {
			return true
		}
	}
	return b-a == 1 && t.negatedAt(a)
}

// othersName reports whether the name [a, b) is of what somebody else does, or what is done only
// in some case: "somebody brings the beer", "if you want cake"; or no name but a
// place or a measured food.
func (t *talk) othersName(a, b int) bool {
	switch t.norm(a) {
	case "in", "on", "at", "into", "from", "of", "so's":
		return true
	}
	if q := t.quantityAt[a]; q >= 0 && t.quantities[q].kind == measure && (t.quantities[q].of || t.quantities[q].ukind == "mass" || t.quantities[q].ukind == "volume") {
		return true // "a tin of tomatoes"
	}
	for i := a; i < b; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind == measure && t.quantities[q].ukind == "mass" {
			return true
		}
	}
	first := t.sentence(a).First
	for i := a - 1; i >= max(first, a-8) && t.written(i) == 0; i-- {
		switch t.norm(i) {
		case "if":
			return true
		case "calls", "called": // "my dad calls it a pudding"
			if t.norm(i+1) == "it" && i >= a-3 && (kin[t.norm(i-1)] || others[t.norm(i-1)]) {
				return true
			}
		case "somebody", "someone":
			return i >= a-4
		case "had":
			return t.punctuated && i >= a-2
		case "not":
			return t.punctuated && i >= a-3 && (t.norm(i+1) == "doing" || t.norm(i+1) == "making")
		}
	}
	return t.ordersAt(a)
}

// introWords tell that a sentence speaks of what is made today.
var introWords = words("make making made do doing show cook cooking bake baking fixing fix share today tonight promised promise teach dinner lunch breakfast supper menu it's is recipe here's today's tonight's asked asking wanted wanting request requested")

// namedAnywhere considers every name of a dish before the work begins, for an
// introduction in words nobody foresaw: "I promised you my fish pie".
func (t *talk) namedAnywhere(start, limit, work int, consider func(a, b, bonus int, why string)) {
	for k := range t.sents {
		s := &t.sents[k]
		if s.First < start || s.First >= limit || s.First >= work || s.kind == listing {
			continue
		}
		if s.other || s.past && s.kind == aside && t.has(s.First, s.Last, "ask", "asked", "asking", "wanted", "promised") < 0 {
			continue
		}
		bonus := -2 - (s.First-start)/60
		for i := s.First; i < s.Last; i++ {
			if t.in(anIntro, i) {
				bonus += 4
				break
			}
		}
		for i := s.First; i < s.Last; {
			if !t.nameWord(i) || t.negatedAt(i) {
				i++
				continue
			}
			e := t.nameRun(i, s.Last)
			if e > i && t.dishLike(i, e) && !t.likened(s, i) {
				consider(i, e, bonus, "the name of a dish")
			}
			i = max(e, i+1)
		}
	}
}

// dishLike reports whether the words [a, b) can name a dish: they end in the
// word for one or tell how a food is cooked.
func (t *talk) dishLike(a, b int) bool {
	if t.cookedAfter(a, b) {
		return true
	}
	if dishNames[t.norm(b-1)] {
		return true
	}
	if t.isDishNoun(b - 1) {
		if m := t.mentionAt[b-1]; b-a == 1 && m >= 0 && !t.mentions[m].food.Dish {
			return false // "chicken" alone is a food
		}
		return true
	}
	if m := t.mentionAt[b-1]; m >= 0 {
		if t.mentions[m].food.Dish {
			return true
		}
		if seasoningKinds[t.mentions[m].food.Kind] {
			return false // "a pan of water"
		}
		return b-a > 1 && cookedWord[t.norm(a)] && t.mentions[m].head.First > a || t.has(a, b, "with") >= 0 && b-a > 2
	}
	return t.madeAt[b-1] > 0 && b-a > 1 && !unnamed[t.norm(b-1)]
}

// cookedAfter reports whether a food at [a, b) is followed by how it is cooked: "duck
// legs, done slow in the oven", "pork belly, roasted twice".
func (t *talk) cookedAfter(a, b int) bool {
	if b >= len(t.toks) || t.written(b-1)&language.Comma == 0 || t.mentionAt[b-1] < 0 || t.mentionAt[a] < 0 {
		return false
	}
	switch t.norm(b) {
	case "done", "cooked", "braised", "roasted", "baked", "grilled", "fried", "stewed", "poached", "steamed", "smoked":
		return true
	}
	return false
}

// negatedAt reports whether the food at i is denied or compared.
func (t *talk) negatedAt(i int) bool {
	m := t.mentionAt[i]
	return m >= 0 && (t.mentions[m].negated || t.mentions[m].compared)
}

// nameRun gives the end of the words from token i on, at most to end, that can
// make the name of a dish.
func (t *talk) nameRun(i, end int) int {
	e := i + 1
	for e < end && e < i+9 && t.written(e-1)&^language.Dash == 0 && !t.ordersAt(e) && (t.nameWord(e) || t.norm(e) == "and" || t.norm(e) == "with" || t.norm(e) == "of") {
		e++
	}
	return trimTitle(t, i, e)
}

// likened reports whether the name at i is that of another dish, denied or held
// up beside this one.
func (t *talk) likened(s *sentence, i int) bool {
	for j := i - 1; j >= s.First && j >= i-3; j-- {
		switch t.norm(j) {
		case "like", "than", "instead", "not", "no", "without", "living":
			return true
		}
	}
	return false
}

// titleCueWords are the words of the cues that have more than one, by the
// first.
var titleCueWords = cues(slices.DeleteFunc(slices.Clone(titleCues), func(cue string) bool { return !strings.Contains(cue, " ") })...)

// unmarkedTitles looks through talk without marks: an introduction may run
// over a sentence end found wrongly, and the name ends where the words that
// best make a name end.
func (t *talk) unmarkedTitles(start, limit, work int, consider func(a, b, bonus int, why string)) {
	best := func(a, bonus int, why string) {
		for a < limit && articleLike[t.norm(a)] {
			a++
		}
		b := t.titleEnd(a, min(limit, a+11))
		for e := b; e > a; e-- {
			if t.madeAt[e-1] > 0 || t.isDishNoun(e-1) || t.mentionAt[e-1] >= 0 && (t.mentions[t.mentionAt[e-1]].food.Dish || e-a > 2) {
				consider(a, e, bonus, why)
				if t.mentionAt[e-1] < 0 {
					break
				}
			}
		}
	}
	for i := start; i < limit; i++ {
		late := (i - start) / 60
		if i <= work+20 {
			for _, ws := range titleCueWords.at(t, i) {
				if t.is(i, ws...) {
					best(i+len(ws), 4-late, "introduction: "+strings.Join(ws, " "))
				}
			}
		}
		// "it's lasagne and it does eight", "flapjacks for the school fair"
		if a := i + 1; i <= work && (t.norm(i) == "it's" || i == start) {
			if i == start {
				for a = i; a < limit && greetings[t.norm(a)]; a++ {
				}
			}
			if t.isDishNoun(a) && !t.verbAt(a) && (t.mentionAt[a] < 0 || t.mentions[t.mentionAt[a]].food.Dish) && !t.nameWord(a+1) {
				consider(a, a+1, 2-late, "announced")
			}
		}
		// "i'm making gazpacho i'm not lighting anything"
		if i <= work+20 && makingVerbs[t.norm(i)] {
			if a, sure := t.dishAnnounced(t.sentence(i), i); sure && a < limit && t.strange(a) {
				if w := t.norm(a + 1); youWe[w] || others[w] || w == "this" || w == "that's" || w == "it's" || w == "so" || a+1 >= len(t.toks) {
					consider(a, a+1, 8-late, "announced")
				}
			}
		}
		// a run of names that ends in a dish: "buttermilk pancakes"
		if (t.mentionAt[i] >= 0 || t.modifier(i) == lexicon.NameWord) && i <= work+6 && (i == start || !t.nameWord(i-1) && t.quantityAt[i-1] < 0) {
			if e := t.nameRun(i, limit); e-i >= 2 && (dishNoun[lexicon.Singular(t.norm(e-1))] || t.madeAt[e-1] > 0 || t.titleHas(i, e)) {
				consider(i, e, 1-(i-start)/20, "names in a row")
			}
		}
	}
}

// titleHas reports whether a dish's noun stands in tokens [a, b).
func (t *talk) titleHas(a, b int) bool {
	for i := a; i < b; i++ {
		if t.isDishNoun(i) {
			return true
		}
	}
	return false
}

// nameWord reports whether the word at i can stand inside a dish's name.
func (t *talk) nameWord(i int) bool {
	w := t.norm(i)
	return t.mentionAt[i] >= 0 || t.madeAt[i] > 0 || t.isDishNoun(i) || t.in(aDishName, i) || t.in(aCookedWord, i) || t.modifier(i) == lexicon.NameWord || w == "layer" || w == "tea" ||
		(w == "tray" || w == "pot" || w == "pan" || w == "sheet") && t.isDishNoun(i+1)
}

// namesFirst reports whether the sentence opens with names up to a mark.
func (t *talk) namesFirst(s *sentence) bool {
	a := s.First
	for a < s.Last && headWords[t.norm(a)] {
		a++
	}
	b := a
	for b < s.Last && (b == a || t.written(b-1) == 0) {
		b++
	}
	return b < s.Last && b > a && t.onlyNames(a, b)
}

// firstWork gives the token where measuring or an imperative begins.
func (t *talk) firstWork(start, end int) int {
	for i := start; i < end; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind == measure && t.foodAfter(&t.quantities[q]) >= 0 && t.sents[t.sentOf[i]].kind == listing {
			return i
		}
		if a := t.actionAt[i]; a >= 0 && t.actions[a].mood == imperative && t.sents[t.sentOf[i]].kind == instruction {
			return i
		}
	}
	return end
}

// fullerName looks for the dish's noun with more words around it: "compote"
// was announced as "a rhubarb and strawberry compote".
func (t *talk) fullerName(d, a, b int) (int, int) {
	if b-a != 1 {
		return a, b
	}
	noun := t.norm(a)
	limit := max(len(t.toks)/4, min(len(t.toks), t.dishes[d].tok+80))
	for i := 1; i < limit; i++ {
		if t.norm(i) != noun || i == a {
			continue
		}
		x := i
		for x > 0 && t.joined(x-1) && (t.mentionAt[x-1] >= 0 || t.madeAt[x-1] > 0 || cookedWord[t.norm(x-1)] || t.modifier(x-1) == lexicon.NameWord || t.norm(x-1) == "and" && x > 1 && t.mentionAt[x-2] >= 0) {
			x--
		}
		if i+1-x > b-a {
			a, b = x, i+1
		}
	}
	return a, b
}

func (t *talk) verbInside(a, b int) bool {
	for i := a; i < b; i++ {
		if t.actionAt[i] >= 0 {
			return true
		}
	}
	return false
}

// titleEnd goes on from a over the words a dish's name can hold.
func (t *talk) titleEnd(a, end int) int {
	for a < end && (articleLike[t.norm(a)] || t.norm(a) == "what") {
		a++
	}
	b := a
	for b < end && b < a+11 {
		if b > a && t.written(b-1) != 0 {
			break
		}
		w := t.norm(b)
		if t.ordersAt(b) || strings.HasSuffix(w, "n't") || others[w] || strings.ContainsRune(w, '\'') && (youWe[w] || w == "that's" || w == "there's") {
			return trimTitle(t, a, b)
		}
		switch w {
		case "i", "you", "we", "it", "they", "is", "are", "was", "that", "which", "who", "because", "so", "today", "for", "but", "now", "then", "if", "when", "where", "goes", "done", "as", "off", "made", "based", "okay", "right", "just", "recipe", "your", "this", "there's", "there", "at", "from", "to", "since", "tonight", "i'm", "it's", "you're", "we're", "going", "ready", "while", "she", "he", "do", "does", "can", "want", "serves", "makes", "feeds", "one", "two", "video", "first", "next", "again", "here", "how", "like", "way", "time", "my":
			if w == "made" || w == "off" {
				return trimTitle(t, a, b)
			}
			return trimTitle(t, a, b)
		}
		b++
	}
	return trimTitle(t, a, b)
}

func trimTitle(t *talk, a, b int) int {
	for b > a {
		switch t.norm(b - 1) {
		case "and", "with", "in", "of", "the", "a", "or", "on", "my", "some", "all", "these", "those", "really", "very", "instead":
			b--
			continue
		}
		break
	}
	return b
}

// titleScore counts what makes words the name of a dish.
func (t *talk) titleScore(a, b int) int {
	if b <= a {
		return -10
	}
	sc, content := 0, 0
	for i := a; i < b; i++ {
		w := t.norm(i)
		switch {
		case t.mentionAt[i] >= 0:
			sc += 2
			if t.mentions[t.mentionAt[i]].food.Dish {
				sc += 3
			}
			content++
		case t.madeAt[i] > 0:
			sc += 4
			content++
		case t.isDishNoun(i) || dishNames[w]:
			sc += 5
			content++
		case cookedWord[w] || t.lex.Modifiers[w] == lexicon.NameWord:
			sc++
			content++
		case w == "and" || w == "with" || w == "in" || w == "on" || w == "of" || articleLike[w]:
		case i > a && t.mentionAt[i-1] >= 0 && t.strange(i) && t.recurs(w):
			sc += 4 // "chicken suya"
			content++
		default:
			sc--
		}
	}
	if t.quantityAt[a] >= 0 && t.quantities[t.quantityAt[a]].kind != count {
		sc -= 4
	}
	if t.explainedName(a, b) {
		return 9
	}
	if t.strangeName(a, b) || !t.punctuated && b-a == 1 && t.strange(a) {
		content++
	}
	if content == 0 || unnamed[t.norm(b-1)] || t.endsInQuality(b-1) {
		return -10
	}
	return min(sc, 12)
}

// endsInQuality reports whether the word at i only tells how something is, and no name
// ends with it: "pink and wet", "courgettes dry".
func (t *talk) endsInQuality(i int) bool {
	w := t.norm(i)
	if adjectival[w] {
		return true
	}
	return t.lex.Modifiers[w] != 0 && t.mentionAt[i] < 0 && t.madeAt[i] == 0 && !t.isDishNoun(i) && !dishNames[w]
}

// explainedName reports whether tokens [a, b) are words of no table that the cook explains in the
// same breath: "banh mi, the sandwich of Saigon".
func (t *talk) explainedName(a, b int) bool {
	if !t.punctuated || b-a > 3 || b >= len(t.toks) || t.written(b-1)&language.Comma == 0 {
		return false
	}
	if t.has(b, min(len(t.toks), b+3), "this means", "that means", "which means", "which is", "it means") != b {
		intro := false
		for i := t.sentence(a).First; i < a; i++ {
			intro = intro || t.in(aMakingVerb, i) || t.norm(i) == "show"
		}
		if w := t.norm(b); !intro || w != "the" && w != "a" && w != "it's" {
			return false
		}
	}
	for i := a; i < b; i++ {
		w := t.norm(i)
		if greetings[w] || ofDay[w] {
			return false
		}
		if t.nameWord(i) || t.actionAt[i] >= 0 || t.toolAt[i] >= 0 || t.quantityAt[i] >= 0 || t.lex.Modifiers[w] != 0 || len(t.lex.Verbs(w)) > 0 || headWords[w] || determiners[w] || youWe[w] || others[w] || leaningWord[w] || subordinators[w] || wayStop[w] || len(w) > 3 && !t.strange(i) && !t.toks[i].Cap {
			return false
		}
	}
	return b > a && t.recursNear(a, b)
}

// recursNear reports whether the words are told of again, as a name of the dish is, or stand where
// the talk begins.
func (t *talk) recursNear(a, b int) bool { return a < 30 || t.recurs(t.norm(b-1)) }

// unnamed are made-words no dish is called by.
var unnamed = words("dough batter mixture mix filling base glaze topping recipe one ones thing stuff bit lot treat treats dessert desert dinner lunch breakfast supper snack snacks starter starters dish dishes meal meals classic favourite favorite feast")

var cookedWord = words("roast roasted grilled fried baked marinated creamy spicy seared pan crispy sticky slow braised stuffed smoked pickled glazed layered iced soft crunchy chewy quick easy poached steamed lemony garlicky cheesy nutty sour plain classic homemade split layer upside one-pot no-bake overnight pulled loaded stir mashed scrambled candied cured fermented whipped barbecued charred stewed jerk toasted")

// dishNoun are words that end the name of a dish.
var dishNoun = words("soup stew curry salad biscuit cookie cake bread loaf pie tart pasta spaghetti lasagne lasagna risotto pilaf pilau biryani dal daal taco burrito quesadilla enchilada pizza flatbread roll bun muffin cupcake brownie bar slice pancake waffle crepe omelette " +
	"frittata quiche casserole bake gratin roast chops chop thigh thighs wings steak stir-fry fry stirfry noodle noodles ramen pho dumpling dumplings jam chutney relish pickle compote sauce salsa dip hummus smoothie punch lemonade tea coffee cocktail drink ice sorbet pudding custard trifle mousse cheesecake crumble cobbler scone scones " +
	"granola porridge congee chili chilli burger burgers meatball meatballs meatloaf kebab kebabs skewers sandwich wrap fritter fritters pakora samosa spring fishcakes fishcake chowder broth stock marinade pesto dressing slaw coleslaw sourdough focaccia naan roti chapati tortilla tamale paella jambalaya gumbo hotpot goulash tagine kofta shakshuka fajitas ceviche sushi " +
	"parfait flapjack shortbread fudge caramel toffee truffle meringue pavlova macaroon doughnut donut pretzel bagel cracker crackers flan tiramisu hake salmon chicken ribs brisket tadka parathas paratha laksa satay moussaka ratatouille bruschetta polenta gnocchi ravioli pierogi strudel")

// dishNames are dishes that no other word in their name tells for one, and that are seldom part of another.
var dishNames = words("hash adobo marmalade falafel falafels tabbouleh stroganoff brittle caponata mash sauerkraut ragu bolognese carbonara teriyaki gazpacho borscht pastitsio spanakopita gravlax tempura katsu schnitzel rendang bhaji bhajis kedgeree colcannon rosti blini terrine pate posset syllabub lassi sangria escabeche pozole ziti stovies cawl lobscouse sancocho feijoada moqueca khichdi poha upma dosa idli bulgogi bibimbap japchae tteokbokki okonomiyaki gyoza wontons baklava halva kibbeh dolma manti pilmeni pelmeni blintz blintzes knish latkes kugel brisket cioppino succotash hoppin etouffee pastilla caprese panzanella")

// titleText writes the words of a title with capitals where a title has them:
// the first word only.
func (t *talk) titleText(a, b int) string {
	for a < b && (articleLike[t.norm(a)] || t.norm(a) == "our") {
		a++
	}
	if a >= b {
		return ""
	}
	s := t.phraseHyphen(a, b)
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// titleFallback names the dish by its leading ingredients.
func (t *talk) titleFallback(d int) string {
	if h := t.n.Heading; d == 0 && strings.Contains(strings.TrimSpace(h), " ") {
		return h // the writer's own heading, where it is more than a file's name
	}
	var names []string
	for _, g := range t.ingredients {
		if g.dish != d || g.taste {
			continue
		}
		switch g.food.Kind {
		case "meat", "poultry", "fish", "shellfish", "vegetable", "pasta", "legume", "fruit", "grain":
			names = append(names, g.food.Name)
		}
		if len(names) == 2 {
			break
		}
	}
	if len(names) == 0 {
		if t.n.Heading != "" {
			return t.n.Heading
		}
		return "Untitled recipe"
	}
	for _, g := range t.ingredients {
		if g.dish == d && g.food.Name == names[0] {
			if s := t.treatedFood(d, g.food); s != "" {
				return s
			}
			break
		}
	}
	s := strings.Join(names, " and ")
	return strings.ToUpper(s[:1]) + s[1:]
}
