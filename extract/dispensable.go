package extract

import "strings"

// Cooks say in many words that a dish goes without a food, and no list holds them
// all. What they have in common is their build:
//
//	licence      "you may ignore it", "feel free to forget it", "I often skip it"
//	habit        "I usually don't", "there isn't always"
//	consolation  "no harm done if you haven't any", "nobody will notice if it's not there"
//	             "it's still a salad without them"; or the lack first: "if not, so be it"
//	denial       "none of these is compulsory", "it isn't strictly needed"
//	discretion   "do as you like about that", "between you and your guests"
//	or nothing   "a handful, or none", "or skip"
//	no errand    "don't go buying it specially"
//	show         "purely for colour"
//	no harm      "a drop of brandy does no harm"
//	no need      "it doesn't really need it"
//
// The words stand for the food last put in, or for the one they name.

// Distances in tokens inside of one clause.
const (
	licenceReach = 4  // between a licence and its verb
	denialReach  = 6  // between a "not" and what isn't needed
	consoleReach = 10 // between a consolation and the lack it is for
)

var (
	// omitting are verbs of going without a thing; they need a licence.
	omitting = cues("leave out", "skip", "omit", "ignore", "forget", "forget about", "forgo", "drop", "ditch", "lose", "scrap", "do without", "go without", "live without", "manage without", "cope without", "get by without", "get away without", "dispense with", "pass on", "miss out", "hold back", "not put", "not add", "not use", "not bother", "give a miss", "give it a miss", "give them a miss", "give that a miss")
	// licences allow what follows them.
	licences = words("can could may might free welcome allowed often sometimes usually mostly occasionally generally tend always which time days weeks times")
	// habitual are adverbs of what the cook does mostly.
	habitual = words("usually often mostly generally normally sometimes personally rarely seldom hardly")
	// consoling say that a lack does no harm.
	consoling = cues("no harm", "no harm done", "not the end of the world", "no great loss", "no loss", "no matter", "doesn't matter", "won't matter", "never mind", "don't worry", "no worries", "don't fret", "no bother", "no problem", "no trouble", "no tears", "no crime", "no shame", "no tragedy", "no disaster", "no drama", "no stress", "no sweat", "no hassle", "no odds", "no worry", "so be it", "nobody", "no one", "nobody's", "nobody'll", "nobody'd", "who'll", "who'd", "it's fine", "that's fine", "it's grand", "that's grand", "it's okay", "that's okay", "it's all right", "that's all right", "it's alright", "that's alright", "you'll live", "you'll survive", "you won't", "i won't", "she won't", "it won't", "still", "just as", "not worth", "no point", "it's no", "that's no", "carry on", "don't go", "don't be", "don't lose sleep", "the sky won't", "the world won't", "the roof won't", "the sky hasn't", "get by", "manage", "cope", "survive", "do fine", "does fine", "do well", "does well")
	// lacks tell that the food is not there or was left out; a pronoun or nothing
	// may follow.
	lacks = cues("if you don't", "if you haven't", "if you've none", "if you've no", "if you have none", "if it isn't", "if it's not", "if it's missing", "if they're missing", "if it ain't", "if there isn't", "if there aren't", "if there's none", "if they aren't", "if they're not", "if it's left out", "if they're left out", "if you do not", "if you can't", "if you leave", "if you skip", "if you forget", "without it", "without them", "without any", "if you hate", "if you've run out", "if you're out", "if not")
	// lackTail may follow a lack that tells of the food before.
	lackTail = words("it them any that those one some have got like fancy want there in around handy here bother put add use out")
	// needs are what a food is not; "to" and another verb may not follow.
	needs = cues("essential", "necessary", "compulsory", "obligatory", "mandatory", "required", "vital", "crucial", "a must", "by force", "a requirement", "needed", "a rule", "the law", "critical", "non negotiable", "sacred", "indispensable")
	// discretions leave the food to the eater.
	discretions = cues("do as you like", "do as you please", "do what you like", "do what you want", "do whatever you like", "do whatever you want", "do as you want", "do as you wish", "doing as you like", "as you please there", "your own affair", "your own business", "your own call", "your own choice", "your own decision", "your own lookout", "your affair", "between you and", "free to ignore", "on your own head", "your conscience", "your prerogative", "i leave it to you", "i'll leave it to you", "i leave that to you", "i'll leave that to you", "i leave that with you", "leave that up to you", "that's as you like", "that's as you want", "that's as you please", "that's as you prefer", "it's as you like", "it's as you want", "it's as you please", "depends how", "depends on how", "depends on who", "depends who", "depends on you", "depends on your", "depends what you like", "i won't insist", "i don't insist", "i'm not insisting", "whoever wants", "a matter of taste", "matter of taste", "a matter of preference", "a personal thing", "personal preference", "personal taste", "your preference", "i leave to you", "i leave this to you")
	// nothings follow "or" at the end of a clause.
	nothings = words("not none nothing zero skip omit")
	// errands are trips for a food that aren't asked for.
	errands = cues("don't go", "don't be going", "no need to go", "not worth going", "don't run", "don't make", "not worth a trip", "not worth the trip", "don't buy", "don't be buying", "wouldn't buy", "wouldn't go", "don't rush", "not worth buying")
	// errandEnds tell that the errand is for this food.
	errandEnds = cues("for it", "for them", "for that", "specially", "especially", "just for", "on purpose", "to the shop", "to the shops", "to the market", "to the store", "a trip", "hunting", "looking")
)

// dispensing are the readers of words that say that a food can be left out, each
// with the words at which it has anything to read.
var dispensing = []struct {
	opens *group
	read  func(t *talk, i int, n *sentence) int
}{
	{openers("", omitting), (*talk).licensed},
	{groupOf(union(habitual, words("there some not"))), (*talk).seldom},
	{openers("", consoling, lacks), (*talk).consoled},
	{openers("", needs), (*talk).unneeded},
	{openers("", discretions), (*talk).discretion},
	{openers("or"), (*talk).orNothing},
	{openers("", errands), (*talk).noErrand},
	{openers("for"), (*talk).forShow},
	{openers("do does did"), (*talk).harmless},
	{openers("maybe perhaps possibly"), (*talk).perhaps},
	{openers("without"), (*talk).goesWithout},
	{openers("need want require"), (*talk).needless},
	{openers("can could may might needn't don't doesn't"), (*talk).staysOut},
	{openers("not some others"), (*talk).notEverybody},
	{openers("left"), (*talk).leftOutOnce},
	{openers("don't doesn't never won't"), (*talk).splitHabit},
}

// aDispensing are the words at which one of them has.
var aDispensing = func() *group {
	var all []*group
	for _, d := range dispensing {
		all = append(all, d.opens)
	}
	return eitherOf(all...)
}()

// dispensable gives the length of words at token i of sentence n that say that
// a food can be left out, 0 for none. They name no food themselves.
func (t *talk) dispensable(i int, n *sentence) int {
	if !t.in(aDispensing, i) {
		return 0
	}
	for _, d := range dispensing {
		if !t.in(d.opens, i) {
			continue
		}
		if c := d.read(t, i, n); c > 0 {
			return c
		}
	}
	return 0
}

// clauseEnd reports whether token i stands behind a mark or at the end of n.
func (t *talk) clauseEnd(i int, n *sentence) bool {
	return i >= n.Last || t.toks[i-1].After != 0
}

// takesBackTo gives where the object of a verb that ends at token i ends, when it
// is a pronoun or nothing; 0 where it is anything else.
func (t *talk) takesBackTo(i int, n *sentence) int {
	from := i
	if !t.clauseEnd(i, n) && pronouns[t.norm(i)] {
		i++
		if w := t.norm(i); !t.clauseEnd(i, n) && (w == "out" || w == "off" || w == "entirely" || w == "altogether" || w == "in" || w == "completely") {
			i++
		}
		switch t.norm(i) {
		case "if", "and", "but", "so", "when", "because", "or", "half", "most", "without", "on":
			return i
		}
	}
	if t.clauseEnd(i, n) || !t.punctuated && i > from && t.newClause(i) {
		return i
	}
	switch t.norm(i) {
	case "if", "and", "but", "entirely", "altogether":
		return i
	}
	return 0
}

// newClause reports whether, in talk without marks, the next clause begins at token i:
// with who does it, or with an order.
func (t *talk) newClause(i int) bool {
	w, _, _ := strings.Cut(t.norm(i), "'")
	return subjects[w] || t.actionAt[i] >= 0 && t.baseVerb(i) != nil
}

// licensed reads "you may ignore it", "I often forget it", "you can not put it".
func (t *talk) licensed(i int, n *sentence) int {
	c := t.cueAt(omitting, i, n.Last)
	if c == 0 || t.mentionAt[i] >= 0 {
		return 0
	}
	e := t.takesBackTo(i+c, n)
	if t.norm(i+c-1) == "miss" {
		e = i + c // "give that a miss" holds its object
	}
	if e == 0 {
		return 0
	}
	for j := i - 1; j >= n.First && j >= i-licenceReach && t.toks[j].After == 0; j-- {
		switch w := t.norm(j); {
		case denying[w]:
			return 0
		case licences[w]:
			return e - i
		}
	}
	if t.opensPhrase(i, n) && t.norm(e) == "if" && c > 1 {
		return e - i // "leave out if you hate them"
	}
	return 0
}

// seldom reads "I usually don't", "there isn't always".
func (t *talk) seldom(i int, n *sentence) int {
	switch w := t.norm(i); {
	case habitual[w] && t.norm(i-1) == "i" && t.is(i+1, "don't") && t.clauseEnd(i+2, n):
		return 2
	case w == "there" && (t.is(i+1, "isn't", "always") || t.is(i+1, "aren't", "always")):
		return 3
	case w == "some" && t.is(i+2, "i", "don't") && (t.norm(i+1) == "days" || t.norm(i+1) == "times" || t.norm(i+1) == "weeks"):
		return 4
	case w == "not" && (t.is(i+1, "every", "time") || t.is(i+1, "always")) && t.opensPhrase(i, n) && t.clauseEnd(i+2, n):
		return 2
	}
	return 0
}

// consoled reads a consolation with the lack it is for, in either order.
func (t *talk) consoled(i int, n *sentence) int {
	if c := t.cueAt(consoling, i, n.Last); c > 0 {
		for j := i + c; j < n.Last && j < i+c+consoleReach; j++ {
			if e := t.lackAt(j, n); e > 0 && !t.deniesSelf(i, j) {
				return e - i
			}
			if k := t.mentionAt[j]; k >= 0 && !t.mentions[k].food.Dish || t.toks[j-1].After.Ends() {
				break
			}
		}
	}
	e := t.lackAt(i, n)
	if e == 0 || e >= n.Last || t.norm(i) != "if" {
		return 0
	}
	if w := t.norm(e); nothings[w] || w == "no" && t.clauseEnd(e+1, n) || w == "then" && nothings[t.norm(e+1)] || w == "zero" {
		return e + 1 - i
	}
	if c := t.cueAt(consoling, e, n.Last); c > 0 {
		return e + c - i
	}
	if c := e - i - 1; e+c <= n.Last && t.phrase(i+1, e) == t.phrase(e, e+c) {
		return e + c - i // "if there isn't, there isn't"
	}
	return 0
}

// lackAt gives where a lack of the food before ends that begins at token i, 0 for
// none: "if you haven't any", but not "if you don't stir".
func (t *talk) lackAt(i int, n *sentence) int {
	c := t.cueAt(lacks, i, n.Last)
	if c == 0 {
		return 0
	}
	e := i + c
	for e < n.Last && e < i+c+4 && t.toks[e-1].After == 0 && lackTail[t.norm(e)] {
		e++
	}
	if t.clauseEnd(e, n) || t.norm(i) == "without" || t.norm(e) == "either" {
		return e
	}
	if !t.punctuated && e > i+c && pronouns[t.norm(e-1)] && t.actionAt[e] >= 0 {
		return e // without marks the next order ends it
	}
	if e > i+c && t.norm(e-1) == "in" {
		// "if you haven't any in the house"
		for e < n.Last && e < i+c+5 && t.toks[e-1].After == 0 {
			e++
		}
		return e
	}
	if t.cueAt(consoling, e, n.Last) > 0 && e > i+c {
		return e // "if you forget them the sky won't fall"
	}
	return 0
}

// deniesSelf reports whether a consolation over tokens [a, b) is one that must
// speak of missing or telling ("nobody", "you won't") and doesn't, or that is said
// of something that is denied.
func (t *talk) deniesSelf(a, b int) bool {
	switch t.norm(a) {
	case "nobody", "no", "nobody's", "nobody'll", "nobody'd", "who'll", "who'd", "you", "i", "she", "it":
		if t.is(a, "no", "harm") || t.is(a, "no", "matter") || t.norm(a) == "no" && t.norm(a+1) != "one" || t.norm(a) == "it" && t.norm(a+1) != "won't" {
			return false
		}
		return t.has(a, b, "miss", "missed", "misses", "notice", "notices", "noticed", "know", "knows", "knew", "mind", "minds", "die", "dies", "died", "starve", "arrest", "complain", "care", "cares", "tell", "tells", "mark", "judge", "blame", "cry", "cries", "shout", "sue", "object", "hurt", "matter", "suffer", "hold", "be the worse", "say") < 0
	case "still", "just":
		return t.has(max(0, a-3), b, "not", "isn't", "won't", "never", "can't", "don't", "doesn't") >= 0
	}
	return false
}

// unneeded reads "isn't strictly needed", "none of these is compulsory" from the
// need at token i.
func (t *talk) unneeded(i int, n *sentence) int {
	c := t.cueAt(needs, i, n.Last)
	if c == 0 || t.mentionAt[i] >= 0 {
		return 0
	}
	if e := i + c; !t.clauseEnd(e, n) && (t.norm(e) == "to" && !puttingIn[t.norm(e+1)] || t.norm(e) == "here" && !t.clauseEnd(e+1, n)) {
		return 0
	}
	for j := i - 1; j >= n.First && j >= i-denialReach; j-- {
		switch w := t.norm(j); {
		case w == "means" || w == "way":
		case t.toks[j].After != 0 || t.baseVerb(j) != nil && t.mentionAt[j] < 0:
			return 0
		case w == "none" || w == "nothing" || w == "neither" || w == "not" || w == "isn't" || w == "aren't" || w == "hardly" || w == "ain't" || w == "never" || w == "no" && (t.norm(i) == "a" || t.norm(j+1) == "means" || t.norm(j+1) == "way"):
			if t.gerundBefore(j, n) {
				return 0
			}
			return c
		}
	}
	return 0
}

// discretion reads "do as you like about that", "between you and your guests".
func (t *talk) discretion(i int, n *sentence) int {
	c := t.cueAt(discretions, i, n.Last)
	if c == 0 || t.gerundBefore(i, n) {
		return 0
	}
	e := i + c
	if t.norm(i-1) == "what" || t.norm(i-1) == "as" {
		return 0 // "pour what your conscience allows"
	}
	if w := t.norm(e); !t.clauseEnd(e, n) && (w == "how" || w == "when" || w == "whether") {
		return 0 // "a matter of taste how long you leave it"
	}
	if w := t.norm(e); !t.clauseEnd(e, n) && (w == "with" || w == "about" || w == "on") {
		if k := t.nextFood(e, min(n.Last, e+4)); k < 0 && !pronouns[t.norm(e+1)] && t.norm(e+1) != "this" {
			return 0 // "do what you like with the leftovers"
		}
	}
	return c
}

// orNothing reads "or none", "or skip" that ends a clause.
func (t *talk) orNothing(i int, n *sentence) int {
	if t.norm(i) != "or" || i+1 >= n.Last || !nothings[t.norm(i+1)] || !t.clauseEnd(i+2, n) || t.has(n.First, i, "whether", "ready", "like it") >= 0 {
		return 0
	}
	if k := t.foodLast(i, n); k < 0 && i > n.First || k >= 0 && len(t.actionsBetween(t.mentions[k].Last, i)) > 0 {
		return 0
	}
	return 2
}

// noErrand reads "don't go buying it specially", "don't run to the shop for it".
func (t *talk) noErrand(i int, n *sentence) int {
	c := t.cueAt(errands, i, n.Last)
	if c == 0 {
		return 0
	}
	if t.norm(i+c-1) == "trip" || t.norm(i+c-1) == "buying" && t.takesBackTo(i+c, n) > 0 {
		return c
	}
	if j, e := t.cueIn(errandEnds, i+c, min(n.Last, i+c+consoleReach)); j >= 0 {
		return j + e - i
	}
	return 0
}

// gerundBefore reports whether what stands before token i is said of some work and
// not of a food: "peeling them is up to you", "whether you sift it is".
func (t *talk) gerundBefore(i int, n *sentence) bool {
	for j := i - 1; j >= n.First && j >= i-leaveOutReach/2; j-- {
		if t.toks[j].After.Ends() {
			return false
		}
		w := t.norm(j)
		if w == "whether" {
			acts := t.actionsBetween(j, i)
			return len(acts) == 0 || !t.adding(acts[0])
		}
		if len(w) > 5 && w[len(w)-3:] == "ing" && t.mentionAt[j] < 0 && t.verbs(j) != nil && !puttingGerunds[w] {
			return true
		}
	}
	return false
}

// puttingGerunds are gerunds that speak of putting a food in.
var puttingGerunds = words("adding putting using including having")

// shows are what a food is put in for that the dish doesn't need.
var shows = cues("colour", "color", "show", "looks", "the look of it", "decoration", "the colour", "the color", "the camera", "the photo", "the photograph", "the picture", "prettiness", "swank", "style", "fun", "luck", "the sake of it", "the eye")

// forShow reads "purely for colour" from its "for" at token i.
func (t *talk) forShow(i int, n *sentence) int {
	if t.norm(i) != "for" {
		return 0
	}
	switch t.norm(i - 1) {
	case "just", "only", "purely", "merely", "simply", "solely":
	default:
		return 0
	}
	if c := t.cueAt(shows, i+1, n.Last); c > 0 && t.clauseEnd(i+1+c, n) {
		return 1 + c
	}
	return 0
}

// harmings follow what denies or questions that the food does harm.
var harmings = cues("harm", "any harm", "no harm", "it any harm", "it no harm", "them any harm", "you no harm", "you any harm")

// harmless reads "does no harm", "wouldn't do it any harm", said of the food itself.
func (t *talk) harmless(i int, n *sentence) int {
	w := t.norm(i)
	if w != "does" && w != "do" && w != "did" {
		return 0
	}
	c := t.cueAt(harmings, i+1, n.Last)
	if c == 0 || !t.clauseEnd(i+1+c, n) {
		return 0
	}
	if t.has(i, i+1+c, "no") >= 0 || t.has(max(n.First, i-2), i, "wouldn't", "won't", "can't", "couldn't", "doesn't", "never") >= 0 {
		return 1 + c
	}
	return 0
}

// perhaps reads a "maybe" that follows its food and ends the clause.
func (t *talk) perhaps(i int, n *sentence) int {
	if w := t.norm(i); w != "maybe" && w != "perhaps" && w != "possibly" {
		return 0
	}
	if k := t.foodLast(i, n); k >= 0 && t.mentions[k].Last == i && t.clauseEnd(i+1, n) {
		return 1
	}
	return 0
}

// notEverybody reads "not everyone puts them in", "some do, some don't".
func (t *talk) notEverybody(i int, n *sentence) int {
	e := i + 1
	switch t.norm(i) {
	case "not":
		w := t.norm(e)
		if w != "everybody" && w != "everyone" || !doneIn[t.norm(e+1)] && t.norm(e+1) != "bothers" {
			return 0
		}
		if e = t.takesBackTo(e+2, n); e > 0 {
			return e - i
		}
		return 0
	case "some":
		if w := t.norm(e); w == "people" || w == "folk" || w == "folks" {
			e++
		}
	}
	others := t.has(max(n.First, i-namedReach), i, "some")
	if w := t.norm(e); w != "don't" && w != "doesn't" && w != "won't" && w != "not" || !t.clauseEnd(e+1, n) && t.punctuated || others < 0 {
		return 0
	}
	if t.gerundBefore(i, n) || len(t.actionsBetween(others, i)) > 0 {
		return 0
	}
	return e + 1 - i
}

// unmissed tell that nobody noticed that a food wasn't there.
var unmissed = cues("nobody", "no one", "none of them", "hardly tell", "couldn't tell", "can't tell", "barely tell", "no difference", "didn't notice", "never noticed", "didn't miss", "never missed", "just as good", "as good", "still good", "was fine", "were fine", "was grand", "nothing was missing", "not a word")

// leftOutOnce reads "my wife left that out and nobody noticed" from its "left".
func (t *talk) leftOutOnce(i int, n *sentence) int {
	if !pronouns[t.norm(i+1)] || t.norm(i+2) != "out" && t.norm(i+2) != "off" {
		return 0
	}
	if j, c := t.cueIn(unmissed, i+3, n.Last); j >= 0 {
		return j + c - i
	}
	return 0
}

// splitHabit reads "she doesn't", a sentence of its own behind one in which somebody puts
// a food in, and another doesn't.
func (t *talk) splitHabit(i int, n *sentence) int {
	if !t.punctuated || i+1 != n.Last || n.Len() > 4 || n.First == 0 || !whoElse[t.norm(i-1)] && !kin[t.norm(i-1)] {
		return 0
	}
	k := int(t.sentOf[n.First]) - 1
	if t.sents[k].Len() <= 2 && k > 0 {
		k-- // "She puts. I don't."
	}
	s := &t.sents[k]
	if s.para != n.para || t.has(s.First, s.Last, "i", "we", "she", "he", "they", "my", "people") < 0 {
		return 0
	}
	for j := s.First; j < s.Last; j++ {
		if t.mentionAt[j] < 0 && othersPut[t.norm(j)] && t.foodNear(j+1, leaveOutReach/2) {
			return 1
		}
	}
	return 0
}

// whoElse are those who do otherwise.
var whoElse = words("i we she he they you others")

// praises say that the dish is as good as ever.
var praises = words("good fine grand lovely nice great perfect okay tasty delicious happy right well same works")

// goesWithout reads "it's a good cookie without", "it works fine without it".
func (t *talk) goesWithout(i int, n *sentence) int {
	if t.norm(i) != "without" {
		return 0
	}
	e := i + 1
	if pronouns[t.norm(e)] && !t.clauseEnd(e, n) {
		e++
	}
	if !t.clauseEnd(e, n) {
		return 0
	}
	praised := false
	for j := i - 1; j >= n.First && j >= i-licenceReach-1 && t.toks[j].After == 0; j-- {
		w := t.norm(j)
		if denying[w] {
			return 0
		}
		praised = praised || praises[w]
	}
	if !praised {
		return 0
	}
	return e - i
}

// needless reads "it doesn't really need it", "you don't strictly need them" from the
// verb at token i.
func (t *talk) needless(i int, n *sentence) int {
	if w := t.norm(i); w != "need" && w != "want" && w != "require" || i+1 >= n.Last || t.toks[i].After != 0 || !pronouns[t.norm(i+1)] {
		return 0
	}
	e := t.takesBackTo(i+1, n)
	if e == 0 {
		return 0
	}
	for j := i - 1; j >= n.First && j >= i-licenceReach && t.toks[j].After == 0; j-- {
		switch w := t.norm(j); {
		case w == "don't" || w == "doesn't" || w == "didn't":
			return e - i
		case !hedges[w] && w != "strictly" && w != "necessarily":
			return 0
		}
	}
	return 0
}

// lackShrugged reads "no mushrooms, no problem" from its "no" at token i and gives
// the food it names.
func (t *talk) lackShrugged(i int, n *sentence) (int, bool) {
	if t.norm(i) != "no" || !t.opensPhrase(i, n) || i+1 >= n.Last || t.mentionAt[i+1] < 0 {
		return -1, false
	}
	k := int(t.mentionAt[i+1])
	e := t.mentions[k].Last
	return k, e < n.Last && t.clauseEnd(e, n) && t.cueAt(consoling, e, n.Last) > 0
}
