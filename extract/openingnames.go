package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// Most dishes of the world are in no table. Their names are known by where they stand when a
// talk opens: behind words that announce what is made ("today we make lumpia"), before them
// ("escovitch fish I do today"), as the answer to what it will be ("What are we on with?
// Parkin."), by themselves ("Semlor. Buns with cream.") or told what they are ("red red is beans
// and plantain").

// saidAtOpening is the reason given for such a name.
const saidAtOpening = "the name the talk opens with"

// openingName is how many words a name may have.
const openingName = 5

// nameJoints may stand between the words of a dish's name in the tongue it comes from.
var nameJoints = words("de del di da do e al alla alle all' à a la le au aux en con y i el ya wa na ka ki con und auf auf mit på med")

// afterName are words that go on behind a name without a mark.
var afterName = words("today tonight now for from with over and or is like in on because so then we're i'm we it's this that's which first again")

// todaysLeads lead to the name of what is made, where a talk opens.
var todaysLeads = listed("today is", "today it's", "today it is", "tonight is", "tonight it's", "so it's", "so it is", "so this is", "it's called", "this is called", "this will be", "it will be", "it'll be", "it's gonna be", "it's going to be", "we're having", "you're getting", "we call it", "they call it", "is called", "i'm doing", "we're doing", "we do", "so we've got", "recipe is", "dish is", "i've promised you", "i promised you", "to show you", "i show you", "i'll show you", "i will show you", "i show", "i'll do", "i will do", "i'm going to do", "let's do")

// behindName tell that the words before them are what is made.
var behindName = [][]string{{"today"}, {"tonight"}, {"we're", "making"}, {"we're", "doing"}, {"we're", "having"}, {"we're", "cooking"}, {"i'm", "making"}, {"i'm", "doing"}, {"i'm", "cooking"}, {"we", "make"}, {"i", "make"}, {"we", "are", "making"}, {"i", "am", "making"}, {"you're", "getting"}, {"this", "is"}, {"it", "is"}, {"is", "what"}, {"that's", "what"}, {"is", "today"}, {"it'll", "be"}, {"we", "cook"}, {"i", "cook"}}

// openingNames considers the names of sentences [start, limit) before the work begins. In
// talk without marks a name has no end that could be told.
func (t *talk) openingNames(start, limit, work int, weigh func(a, b, score int, why string)) {
	for k := range t.sents {
		s := &t.sents[k]
		if s.First < start {
			continue
		}
		if s.First >= limit || s.First > work || s.First >= start+welcomeWords {
			return
		}
		if s.kind == storing || s.kind == figures || t.toks[s.Last-1].After&language.Question != 0 {
			continue
		}
		late := (s.First - start) / 40
		if a, b := t.announcedName(s); b > a {
			weigh(a, b, 15-late, saidAtOpening)
		}
		a, lead := t.afterLeads(s)
		b := t.openingRun(a, s.Last, a == s.First || t.toks[a-1].After != 0 || lead == noLead)
		if b <= a {
			continue
		}
		switch strange := t.foreignIn(a, b); {
		case lead == greeting, lead == correcting && b < s.Last && t.toks[b-1].After == 0: // "no surf today"
		case b < s.Last && (t.toks[b-1].After == 0 && t.behindAt(b) || (t.is(b, "this", "is") || t.is(b, "that", "is")) && t.toks[b+1].After != 0) && (strange || t.titleScore(a, b) > 1):
			weigh(a, b, 14-late, saidAtOpening)
		case t.asksWhat(k) && t.toks[b-1].After != 0:
			weigh(a, b, 14-late, saidAtOpening)
		case lead == telling && b >= s.Last && t.dishLike(a, b):
			weigh(a, b, 12-late, saidAtOpening)
		case !strange || lead == pointing:
		case t.defined(s, a, b):
			weigh(a, b, 14-late, saidAtOpening)
		case lead == telling, lead == correcting && t.recurs(t.norm(b-1)):
			weigh(a, b, 12-late, saidAtOpening)
		case lead == correcting:
		case b >= s.Last && (t.toldNext(s, k, a) || t.saidSmall(b-1, s)), b < s.Last && t.toks[b-1].After == 0 && t.servedSo(s, b):
			weigh(a, b, 12-late+b2n(b-a > 1, 1), saidAtOpening)
		case a > start && b < s.Last && t.toks[b-1].After&language.Comma != 0 && !t.startsNumber(b) && t.glossedAt(s, b) && (t.saidSmall(b-1, s) || b-a > 1 || t.verblessTo(b, s.Last)):
			weigh(a, b, 10-late, saidAtOpening)
		}
	}
}

// A nameLead is what the words do that lead to a name.
type nameLead int

const (
	noLead     nameLead = iota
	greeting            // "hello": who is greeted follows, and no dish
	pointing            // "the": one thing of several
	telling             // "today", "it's"
	correcting          // "no, only": one of those named before
)

// afterLeads gives where a sentence begins behind the words that only open it, "so that's a",
// "Mom's", and what they do.
func (t *talk) afterLeads(s *sentence) (int, nameLead) {
	i, lead := s.First, noLead
	for ; i < s.Last; i++ {
		w := t.norm(i)
		switch {
		case w == "today" || w == "tonight" || tellsIt[w] || w == "that's":
			lead = telling
		case greetings[w]:
			lead = greeting
		case w == "no" && i < s.First+2:
			lead = correcting
		case (w == "just" || w == "only") && i > s.First && t.norm(s.First) == "no":
			lead = correcting
		case articleLike[w]:
			lead = pointing
		case i > s.First && t.norm(i-1) != w && t.toks[i].After&language.Comma != 0 && len(w) <= 3 && headWords[t.norm(s.First)] && !t.nameWord(i): // "okay lah,"
		case headWords[w] || strings.HasSuffix(w, "'s") && kin[strings.TrimSuffix(w, "'s")]:
		default:
			return i, lead
		}
	}
	return i, lead
}

// glossedAt reports whether what follows the comma before token b tells what the name is: foods
// and no work.
func (t *talk) glossedAt(s *sentence, b int) bool {
	i := b
	for i < s.Last && (articleLike[t.norm(i)] || t.norm(i) == "and" || t.modifier(i) != lexicon.NoClass) {
		i++
	}
	if t.norm(b) == "from" || t.norm(b) == "the" && i == b+1 {
		return t.verblessTo(b, s.Last)
	}
	return i < s.Last && (t.nameWord(i) && !t.ordersAt(i) || t.foreign(i, false) && t.verblessTo(b, s.Last)) && t.measuredFoods(s) == 0
}

// servedSo reports whether a name is followed by what it's served with and no work: "shrimp
// étouffée over rice".
func (t *talk) servedSo(s *sentence, b int) bool {
	switch t.norm(b) {
	case "with", "over", "on", "and", "in":
	default:
		return false
	}
	e := b + 1
	for e < s.Last && t.toks[e-1].After == 0 {
		e++
	}
	i := b + 1
	for i < e && articleLike[t.norm(i)] {
		i++
	}
	return i < e && t.nameWord(i) && t.verblessTo(b, e)
}

// verblessTo reports whether nothing is done in tokens [a, b).
func (t *talk) verblessTo(a, b int) bool {
	for i := a; i < b; i++ {
		if t.actionAt[i] >= 0 || t.in(aFinite, i) || t.in(aSubject, i) {
			return false
		}
	}
	return true
}

// announcedName finds the name behind words that announce it. It must be no word of the
// kitchen: those are weighed by the rules for names of foods.
func (t *talk) announcedName(s *sentence) (int, int) {
	for i := s.First; i < s.Last; i++ {
		if a, sure := t.dishAnnounced(s, i); sure {
			if x, y := t.nameFrom(a, s); y > x {
				return x, y
			}
		}
		if w := t.norm(i); w == "it's" || w == "that's" || w == "is" { // "it's apple butter we're making"
			a := i + 1
			for a < s.Last && articleLike[t.norm(a)] {
				a++
			}
			if b := t.openingRun(a, s.Last, false); b > a && b < s.Last && t.toks[b-1].After == 0 && t.makerAt(b) && t.titleScore(a, b) > 1 {
				return a, b
			}
		}
	}
	for _, p := range t.placesIn(s.First, s.Last, todaysLeads) {
		if x, y := t.nameFrom(int(p.tok+p.words), s); y > x {
			return x, y
		}
	}
	return 0, 0
}

// nameFrom gives the name nobody listed that begins at token a, behind articles.
func (t *talk) nameFrom(a int, s *sentence) (int, int) {
	for a < s.Last && (articleLike[t.norm(a)] || kin[strings.TrimSuffix(t.norm(a), "'s")]) {
		a++
	}
	b := t.openingRun(a, s.Last, false)
	if b <= a || !t.foreignIn(a, b) {
		return 0, 0
	}
	return a, b
}

// openingRun gives the end of the words from a on that can be a dish's name, up to a mark
// or a word that goes on behind it; a itself where there is none.
func (t *talk) openingRun(a, end int, opens bool) int {
	b := a
	for b < end && b < a+openingName && (b == a || t.toks[b-1].After == 0) {
		w := t.norm(b)
		if b > a && nameJoints[t.norm(b-1)] && t.toks[b].Cap {
			b++ // "bacalhau à Brás"
			continue
		}
		if !(t.nameWord(b) && !t.ordersAt(b)) && !t.foreign(b, opens && b == a) && !(b > a && nameJoints[w] && t.toks[b].After == 0) {
			break
		}
		b++
	}
	for b > a && nameJoints[t.norm(b-1)] {
		b--
	}
	if b <= a || b < end && t.toks[b-1].After == 0 && !afterName[t.norm(b)] && !t.behindAt(b) {
		return a
	}
	return b
}

// makerAt reports whether "we're making" or its like stands at token b.
func (t *talk) makerAt(b int) bool {
	return youWe[t.norm(b)] && (t.in(aMakingVerb, b+1) || t.norm(b+1) == "doing" || t.norm(b+1) == "having" || t.norm(b+1) == "getting")
}

// behindAt reports whether the words from token b on say that what stands before them is
// made: "I'm making", "mi a do today".
func (t *talk) behindAt(b int) bool {
	for _, ws := range behindName {
		if t.is(b, ws...) {
			return true
		}
	}
	e := b
	for e < len(t.toks) && e < b+5 && t.toks[e].After == 0 {
		e++
	}
	return e > b && e < len(t.toks) && t.toks[e].After.Ends() && (t.norm(e) == "today" || t.norm(e) == "tonight") && len(t.mentionsIn(b, e)) == 0
}

// foreign reports whether the word at i is of no table and none of the everyday words that
// stand where names do. A word said twice in a row and one with a letter English lacks are.
func (t *talk) foreign(i int, opens bool) bool {
	w := t.norm(i)
	if len(w) > 2 && !leadAdverbs[w] && (i+1 < len(t.toks) && t.written(i) == 0 && t.norm(i+1) == w || i > 0 && t.written(i-1) == 0 && t.norm(i-1) == w) {
		return true
	}
	if t.nameWord(i) || t.quantityAt[i] >= 0 || t.actionAt[i] >= 0 || t.toolAt[i] >= 0 || greetings[w] || ofDay[w] || plainOpening[w] || kin[w] || t.in(aWayNoun, i) || strings.ContainsRune(w, '\'') {
		return false
	}
	if t.toks[i].Joined || t.in(aFinite, i) || t.in(aPastVerb, i) || !opens && t.toks[i].Cap && !t.saidSmall(i, nil) {
		return false // a person or a place
	}
	for _, r := range w {
		if r >= 0x80 {
			return true
		}
	}
	if len(w) < 3 || wayStop[w] || unnamed[w] || determiners[w] || headWords[w] || leadAdverbs[w] || youWe[w] || others[w] || leaningWord[w] || subordinators[w] || len(t.lex.Verbs(w)) > 0 || t.lex.Modifiers[w] != 0 {
		return false
	}
	for _, end := range []string{"ing", "ed", "ly", "ful", "ous", "less", "able", "tion", "ness"} {
		if strings.HasSuffix(w, end) {
			return false
		}
	}
	return true
}

// foreignIn reports whether one of the words [a, b) is of no table.
func (t *talk) foreignIn(a, b int) bool {
	for i := a; i < b; i++ {
		if dishNames[t.norm(i)] || t.foreign(i, true) && !nameJoints[t.norm(i)] {
			return true
		}
	}
	return false
}

// plainOpening are everyday words that open a talk or stand behind "it's", and name no dish.
var plainOpening = words("down ramadan eid diwali hanukkah lent carnival thanksgiving halloween passover special year years day days week weeks month time times place today tonight tomorrow hers mine thanks thank please sorry yes yeah yep no nope nah listen look ready sunday monday tuesday wednesday thursday friday saturday channel camera phone kitchen film video house garden summer winter spring autumn christmas easter home work weather rain story news guests party family husband wife daughter son people world country name names hands face beginning subject question question's simple nothing everything something anything anyone easy hard true tradition occasion weekend weeknight secret money cheap afternoon morning evening night voice mistake problem reason reasons book books letter letters")

// saidSmall reports whether the word at i is somewhere written small within a sentence, as no
// person's and no place's name is; s is left out.
func (t *talk) saidSmall(i int, s *sentence) bool {
	w := t.norm(i)
	for k, n := t.has(0, len(t.toks), w), 0; k >= 0 && n < 4; n++ {
		if !t.toks[k].Cap && (s == nil || k < s.First || k >= s.Last) {
			return true
		}
		k = t.has(k+1, len(t.toks), w)
	}
	return false
}

// asksWhat reports whether the sentence before k asks what is made.
func (t *talk) asksWhat(k int) bool {
	if k == 0 {
		return false
	}
	q := &t.sents[k-1]
	if q.Len() > 12 || q.Last <= q.First || t.toks[q.Last-1].After&language.Question == 0 || t.has(q.First, q.Last, "what", "what's") < 0 {
		return false
	}
	return t.has(q.First, q.Last, "making", "make", "cooking", "cook", "baking", "doing", "dish", "eating", "dinner", "what's on", "on with", "having", "what's that", "what's this", "called") >= 0
}

// defined reports whether the words at the head of the sentence are told what they are: "red
// red is beans and plantain", "doro wat is for the holiday".
func (t *talk) defined(s *sentence, a, b int) bool {
	if b >= s.Last || t.toks[b-1].After != 0 || t.norm(b) != "is" {
		return false
	}
	switch w := t.norm(b + 1); {
	case w == "for":
		return true
	case !t.recurs(t.norm(b - 1)):
		return false
	case w == "a" || w == "the" || w == "like":
		return true
	}
	return t.mentionAt[min(b+1, len(t.toks)-1)] >= 0
}

// toldNext reports whether the sentence behind a name that stands by itself says what it is:
// foods and no work, or "that's what you're getting".
func (t *talk) toldNext(s *sentence, k, a int) bool {
	if k+1 >= len(t.sents) {
		return false
	}
	n := &t.sents[k+1]
	if a == 0 && !t.recurs(t.norm(s.Last-1)) && t.has(n.First, min(n.Last, n.First+2), "that's what", "it means", "that means") < 0 {
		return false // a greeting in another tongue
	}
	if t.has(n.First, min(n.Last, n.First+6), "that's what", "is what", "the one", "that is what", "it's the", "it's a", "it means", "that means") >= 0 {
		return true
	}
	if t.toldInBrief(n) != nil || t.norm(n.First) == "for" && t.verblessTo(n.First, n.Last) {
		return true // "Æbleskiver. For Christmas.", "Focaccia. Two trays."
	}
	if t.measuredFoods(n) > 0 || len(t.actionsIn(n)) > 0 {
		return false
	}
	i, _ := t.afterLeads(n)
	return i < n.Last && t.nameWord(i) && !t.startsNumber(i)
}
