package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// Foods that are named while cooking and yet are nobody's ingredient: the water
// a pan is boiled over, what is eaten beside the dish, what a slip would turn
// it into, a variant of the dish named by its food.

// bystander gives why the food of m, named in sentence s, doesn't go into the
// dish, "" when nothing speaks against it. measured tells that it has an amount.
func (t *talk) bystander(s *sentence, m *mention, measured bool) string {
	switch {
	case m.food.Dish && s.naming:
		return "the dish's name"
	case t.variant(m) && !measured:
		return "names a way"
	case !measured && t.toldApart(s, m):
		return "names a way"
	case t.hadDone(m):
		return "in a story"
	case t.becomes(m):
		return "what it would turn into"
	case !measured && t.aids(s, m):
		return "helps a tool"
	case !measured && t.kitchenWater(m):
		return "water to cook in"
	case !measured && t.cleansWith(s, m):
		return "cleans"
	case t.place(m):
		return "a place"
	case !measured && t.soaksIn(s, m):
		return "water to cook in"
	case !measured && t.othersHave(s, m):
		return "what others have"
	case !measured && t.hasAny(s.First, m.First, besideIt) >= 0 || !measured && t.hasAny(m.Last, min(s.Last, m.Last+wantedReach), wanted) >= 0:
		return "eaten beside it"
	case !measured && t.shapedHere(m):
		return "made here"
	case !measured && (t.runsOut(s, m) || t.pouredOff(s, m)):
		return "comes out of another"
	case t.ofWonders(s, m):
		return "in a story"
	case !measured && t.besides(s, m):
		return "eaten beside it"
	case !measured && t.afterAll(s, m):
		return "said after the end"
	case m.definite && contains(t.partNames, t.phrase(m.head.First, m.head.Last)) && t.opened(m):
		return "made here"
	case !measured && t.goesOnTop(s, m):
		return "eaten beside it"
	case !measured && t.ownDish(m):
		return "the dish's name"
	case !measured && (t.tellsOfOnce(s, m) || t.othersTake(s, m)):
		return "in a story"
	case !measured && t.leftOver(s, m):
		return "of eggs that are there"
	case t.savedWater(s, m):
		return "water kept from cooking"
	case !measured && t.testsHeat(s, m):
		return "tests it"
	case t.weighsDown(s, m):
		return "a weight"
	case !measured && t.warmsUp(s):
		return "loosens what is warmed up"
	case t.spoonOfMade(m), t.madeOfIt(s, m):
		return "made here"
	}
	return ""
}

// madeOfIt reports whether the measured food is what the recipe makes: "you end up with
// six cups of sauce", "makes about a cup of pesto".
func (t *talk) madeOfIt(s *sentence, m *mention) bool {
	if len(m.amounts) == 0 || !m.food.Made && !m.food.Dish && t.madeAt[m.head.Last-1] == 0 && m.food.Kind != "sauce" {
		return false
	}
	first := t.quantities[m.amounts[0]].First
	for i := max(s.First, first-yieldReach); i < first; i++ {
		if !t.in(aYieldCue, i) {
			continue
		}
		for _, c := range yieldCuesBy.at(t, i) {
			if k := i + len(c.words); c.score >= 4 && c.unit != "servings" && k <= first && t.is(i, c.words...) && t.roughly(k, first) {
				return true
			}
		}
	}
	return false
}

// yieldReach is how many words before its number the cue of a yield can begin.
const yieldReach = 7

// roughly reports whether tokens [a, b) only say that a number is not exact.
func (t *talk) roughly(a, b int) bool {
	for i := a; i < b; i++ {
		switch t.norm(i) {
		case "about", "around", "roughly", "maybe", "say", "nearly", "almost", "probably", "like", "just", "over", "under", "a", "good":
		default:
			return false
		}
	}
	return true
}

// variant reports whether the food only tells versions of the dish apart: "the
// meat one", "the lentil version".
func (t *talk) variant(m *mention) bool {
	if m.head.Last >= len(t.toks) || !t.joined(m.head.Last-1) {
		return false
	}
	switch t.norm(m.head.Last) {
	case "one":
		return !t.sizedNumber(m.head.Last)
	case "ones", "version", "versions", "way", "method", "lot", "people", "crowd", "folks":
		return true
	}
	return false
}

// toldApart reports whether the food tells one of two kinds of the dish from the other,
// before any is cooked: "one kind has the chicken, the other has cheese".
func (t *talk) toldApart(s *sentence, m *mention) bool {
	if t.has(s.First, m.First, "one kind", "one lot", "one sort", "one batch", "half of them", "some of them") < 0 || len(t.actionsIn(s)) > 0 {
		return false
	}
	return t.has(s.First, s.Last, "the other", "the others", "the rest", "half of them") >= 0 && t.has(s.First, m.First, "has", "have", "is", "are", "with", "gets", "get") >= 0
}

// hadDone reports whether the food itself had done something, which only animals in
// stories do: "even the pigeons had turned in".
func (t *talk) hadDone(m *mention) bool {
	if !meatKind[m.food.Kind] || t.norm(m.Last) != "had" || !t.joined(m.Last-1) {
		return false
	}
	w := t.norm(m.Last + 1)
	return w != "a" && w != "the" && w != "been" && w != "to" && w != "some"
}

// becomes reports whether the words before the food tell what something turns
// into: "or it will be peanut butter".
func (t *talk) becomes(m *mention) bool {
	i := m.First - 1
	for i > 0 && articleLike[t.norm(i)] && t.joined(i) {
		i--
	}
	if i < 1 || !t.joined(i) {
		return false
	}
	switch t.norm(i) {
	case "be", "become", "becomes":
		switch t.norm(i - 1) {
		case "will", "it'll", "they'll", "would", "that'll", "it'd", "you'll":
			return true
		}
		return t.norm(i) != "be"
	case "into", "to":
		return t.norm(i-1) == "turn" || t.norm(i-1) == "turns" || t.norm(i-1) == "turned"
	}
	return false
}

// aids reports whether the food is only said to help with a tool: "a splash of
// vinegar in the canner keeps the glass clear", "a slice of lemon in the kettle
// stops the scale".
func (t *talk) aids(s *sentence, m *mention) bool {
	i := m.Last
	if w := t.norm(i); w != "in" && w != "on" && w != "under" && w != "inside" {
		return false
	}
	i++
	for i < s.Last && articleLike[t.norm(i)] {
		i++
	}
	if i >= s.Last || t.toolAt[i] < 0 {
		return false
	}
	i = t.tools[t.toolAt[i]].Last
	switch t.norm(i) {
	case "keeps", "keep", "stops", "stop", "prevents", "prevent", "saves", "cleans", "gets":
		return len(t.actionsIn(s)) == 0
	}
	return false
}

var waterHeat = words("boiling boiled hot simmering iced ice icy soapy running")

// kitchenWater reports whether water without an amount is only a means: "a pan
// of boiling water", "into simmering water", "squeeze out the water".
func (t *talk) kitchenWater(m *mention) bool {
	if m.food.Kind != "water" {
		return false
	}
	i := m.head.First - 1
	heat := waterHeat[t.norm(m.First)]
	for i >= 0 && (waterHeat[t.norm(i)] || articleLike[t.norm(i)] || t.norm(i) == "salted" || t.norm(i) == "some" || t.norm(i) == "plain" || t.norm(i) == "clean" || t.norm(i) == "lightly" || t.norm(i) == "barely") {
		heat = heat || waterHeat[t.norm(i)]
		i--
	}
	if i < 1 {
		return false
	}
	if t.dips(i) {
		return true
	}
	switch t.norm(i) {
	case "of":
		return heat && t.toolAt[i-1] >= 0
	case "under":
		return true
	case "in", "into":
		return heat && t.norm(m.First) != "hot" && t.norm(i+1) != "hot"
	case "out", "off", "away":
		return true
	case "with":
		return t.norm(m.First) == "soapy"
	case "over":
		// "melt it over hot water", but "pour over hot water"
		return t.norm(m.First) == "soapy" || heat && m.food.Name != "ice" && len(t.verbs(i-1)) == 0
	}
	return false
}

// dips reports whether a tool goes into the water behind token i, or a sample is tried in a glass
// of it: "dip the spoon in hot water", "drop it in a glass of cold water".
func (t *talk) dips(i int) bool {
	switch t.norm(i) {
	case "in", "into":
		return t.toolAt[i-1] >= 0 && t.joined(i-1) && handTool[t.norm(i-1)]
	case "of":
		return t.norm(i-1) == "glass" && (t.norm(i-2) == "a" && (t.norm(i-3) == "in" || t.norm(i-3) == "into"))
	}
	return false
}

// handTool are tools that are held, and hold nothing themselves.
var handTool = words("spoon knife spatula fork scoop blade cutter whisk brush")

// savedWater reports whether the food is cooking water that is kept back: "save a cup of
// the water", "reserve a mug of that cooking water".
func (t *talk) savedWater(s *sentence, m *mention) bool {
	if m.food.Kind != "water" || !m.definite {
		return false
	}
	for i := m.First - 1; i >= s.First && i >= m.First-8; i-- {
		switch t.norm(i) {
		case "save", "reserve", "keep", "scoop", "hold", "saving", "reserving", "keeping":
			return true
		}
		if t.mentionAt[i] >= 0 {
			return false
		}
	}
	return false
}

// goesOnTop reports whether a sentence without a verb tells only what the dish is put on: "then on
// the steak".
func (t *talk) goesOnTop(s *sentence, m *mention) bool {
	if !m.definite || len(m.amounts) > 0 || t.takenUp(m) {
		return false
	}
	i := s.First
	for i < s.Last && (headWords[t.norm(i)] || t.norm(i) == "and") {
		i++
	}
	return t.norm(i) == "on" && t.norm(i+1) == "the" && i+2 == m.First && m.Last == s.Last
}

// place reports whether the name is a country's, or tells from what something is grated that was
// named already: "how they make it in Turkey", "nutmeg, from the nut".
func (t *talk) place(m *mention) bool {
	i := m.head.First
	switch t.norm(i) {
	case "turkey", "chile":
		return m.head.Len() == 1 && len(m.amounts) == 0 && t.joined(i-1) && (t.norm(i-1) == "in" || t.norm(i-1) == "from")
	case "nut":
		return m.head.Len() == 1 && t.norm(i-1) == "the" && (t.norm(i-2) == "from" || t.norm(i-2) == "off")
	}
	return false
}

// wantedReach is how many tokens behind a food the words that set it beside the dish can end.
const wantedReach = 5

// madeKind are kinds of food that a dish of that name is, rather than is made of: jam, pickles.
var madeKind = words("condiment sauce bread drink")

// ownDish reports whether the food is what the talk makes, by the last word of its title: "long
// sleeves, because jam spits".
func (t *talk) ownDish(m *mention) bool {
	if !madeKind[m.food.Kind] || m.head.Len() != 1 {
		return false
	}
	_, last, _ := language.Ends(strings.ToLower(t.dishes[t.dishOf(m.First)].title))
	return lexicon.Singular(last) == lexicon.Singular(strings.TrimSuffix(t.norm(m.head.First), "'s"))
}

// onceUpon are times with which a story begins, where the one it tells of follows.
var onceUpon = listed("last year", "last christmas", "last week", "last summer", "last winter", "last time", "one year", "one time", "one night", "one christmas", "the other day", "the other week", "the first time", "years ago")

// tellsOfOnce reports whether the words right before the food tell what somebody put in at another
// time: "last year I put orange peel in".
func (t *talk) tellsOfOnce(s *sentence, m *mention) bool {
	from := s.First
	if !t.punctuated {
		from = 0 // the time and what was done then are cut apart
	}
	for _, p := range t.placesIn(max(from, m.First-9), m.First, onceUpon) {
		switch t.norm(int(p.tok + p.words)) {
		case "i", "we", "he", "she", "they", "my", "somebody", "someone":
			return true
		}
	}
	return false
}

// anybody are people who do something that the cook doesn't.
var anybody = words("people everybody everyone somebody someone nobody folks folk")

// othersTake reports whether the verb before the food tells what people do with it: "because
// people grab baking powder off the shelf".
func (t *talk) othersTake(s *sentence, m *mention) bool {
	for i := m.First - 1; i > s.First && i >= m.First-3; i-- {
		if len(t.verbs(i)) > 0 || t.norm(i) == "grab" || t.norm(i) == "buy" || t.norm(i) == "use" {
			return anybody[t.norm(i-1)] && t.norm(i-2) != "of" && t.has(s.First, i-1, "if", "for") < 0
		}
	}
	return false
}

// leftOver reports whether the yolk or white of an egg is only put by for something else: "save the
// yolk for your hair".
func (t *talk) leftOver(s *sentence, m *mention) bool {
	if m.food.Kind != "egg" || m.food.Name == "egg" || !m.definite && t.norm(m.First-1) != "your" {
		return false
	}
	i := t.has(max(s.First, m.First-4), m.First, "save", "keep", "freeze", "saving", "keeping", "don't lose", "put by")
	return i >= 0 && t.has(m.Last, s.Last, "for", "freezer", "freeze", "another day", "later", "meringue", "meringues", "in a cup", "in the fridge") >= 0
}

// cleansWith reports whether the food is what a tool or hands are cleaned with, or
// water that a food is washed in: "wash the jars with hot water and soap", "wipe the
// board down with vinegar", "rinse the rice in cold water".
func (t *talk) cleansWith(s *sentence, m *mention) bool {
	if m.food.Kind == "water" && t.has(max(s.First, m.First-2), m.head.Last, "soapy") >= 0 {
		return true
	}
	if m.food.Kind == "water" && t.has(m.First, min(s.Last, m.Last+3), "soap", "washing-up liquid", "detergent") >= 0 {
		return true
	}
	for i := m.First - 1; i >= s.First && i >= m.First-8; i-- {
		switch t.norm(i) {
		case "wash", "wipe", "scrub", "clean", "rinse", "sterilise", "sterilize", "washing", "rinsing":
			if t.has(i, m.First, "with", "in") < 0 {
				return false
			}
			if m.food.Kind == "water" { // also what foods are washed in
				return true
			}
			for k := i + 1; k < m.First; k++ {
				if t.toolAt[k] >= 0 || t.norm(k) == "hands" {
					return true
				}
			}
			return false
		}
		if t.mentionAt[i] >= 0 && m.food.Kind != "water" {
			return false
		}
	}
	return false
}

// soakVerb are what is done to things in water that is poured off again.
var soakVerb = words("soak soaks soaking soaked rinse rinsed thaw thawed steep plunge refresh refreshed drop dip dunk")

// soakReach is how many sentences before the water what is soaked can be told in.
const soakReach = 2

// soaksIn reports whether the water without an amount is only what things lie in for a while:
// "soak it in cold water", "soak your husks. Cover them with hot water."
func (t *talk) soaksIn(s *sentence, m *mention) bool {
	if m.food.Kind != "water" {
		return false
	}
	i := m.First - 1
	for _, q := range m.amounts {
		i = min(i, t.quantities[q].First-1)
	}
	switch t.norm(i) {
	case "in", "into", "under":
		for j := s.First; j < i; j++ {
			if soakVerb[t.norm(j)] {
				return true
			}
		}
	case "with":
		if t.has(max(s.First, i-4), i, "cover") < 0 {
			return false
		}
		from := s.First
		for k := int(t.sentOf[s.First]); k > 0 && k > int(t.sentOf[s.First])-soakReach && t.sents[k-1].para == s.para; k-- {
			from = t.sents[k-1].First
		}
		return t.has(from, i, "soak", "soaking") >= 0
	}
	return false
}

// othersHave are words for what a shop has or somebody doesn't eat, which tell of a food but put
// none in: "if your shop has calamansi, use that", "somebody who doesn't eat pork".
var othersHave = listed("shop has", "shop's got", "shop's only got", "shop sells", "shop only has", "store has", "store's got", "store only has", "store sells", "market has", "market's got", "supermarket has", "deli has", "butcher has", "butcher's got", "butcher's only got", "fishmonger has", "fishmonger's got",
	"doesn't eat", "don't eat", "won't eat", "can't eat", "can't have", "can't do", "can't stand", "doesn't like", "don't like", "that's only", "that's nothing but", "got a picture of")

// othersHave reports whether the food is only what a shop has, or what somebody leaves.
func (t *talk) othersHave(s *sentence, m *mention) bool {
	for _, p := range t.placesIn(max(s.First, m.First-4), m.First, othersHave) {
		end := int(p.tok + p.words)
		for end < m.First && (articleLike[t.norm(end)] || t.norm(end) == "only") {
			end++
		}
		if end == m.First {
			return true
		}
	}
	return false
}

// shaped are what a dough becomes when it is shaped.
var shaped = words("roll rolls bun buns bread breads loaf loaves cracker crackers flatbread flatbreads naan naans tortilla tortillas pita pitas bagel bagels muffin muffins roti rotis chapati chapatis biscuit biscuits cookie cookies bap baps farl farls")

// shapedHere reports whether the food is what the dough of this talk becomes: "put the rolls on
// the tray".
func (t *talk) shapedHere(m *mention) bool {
	if !shaped[t.norm(m.head.Last-1)] || len(m.amounts) > 0 {
		return false
	}
	i := t.has(0, m.First, "dough")
	return i >= 0 && t.madeAt[i] > 0 && t.dishOf(i) == t.dishOf(m.First)
}

// weightReach is how many sentences before a container what it weighs down can be told in.
const weightReach = 2

// weighsDown reports whether a container of the food is only a weight: "weigh it down
// with a couple of tins of beans", "put something heavy on it. Use a can of tomatoes."
func (t *talk) weighsDown(s *sentence, m *mention) bool {
	contained := false
	for _, q := range m.amounts {
		contained = contained || t.quantities[q].ukind == "container"
	}
	if !contained {
		return false
	}
	from := s.First
	for k := int(t.sentOf[s.First]); k > 0 && k > int(t.sentOf[s.First])-weightReach && t.sents[k-1].para == s.para && len(t.actionsIn(&t.sents[k])) == 0; k-- {
		from = t.sents[k-1].First
	}
	return t.has(from, s.Last, "weigh it down", "weigh them down", "weigh down", "weighed down", "weighted down", "weight it", "weight them", "weight on top", "as a weight", "as weights", "for a weight", "something heavy", "heavy on it", "heavy on top", "heavy on them", "hold it down", "hold them down", "press it under", "press them under", "pressed under") >= 0
}

// testsHeat reports whether the food only shows that a pan or oil is hot: "to test, flick
// water on it", "drop a bit of flour in, if it sizzles it's ready".
func (t *talk) testsHeat(s *sentence, m *mention) bool {
	return t.has(s.First, m.First, "to test", "test it", "test the", "to check it", "to see if it's ready", "to see if it's hot") >= 0 ||
		t.has(m.Last, s.Last, "if it sizzles", "it should sizzle", "it should dance", "if it dances", "if it bubbles straight away", "when it sizzles") >= 0 && t.has(s.First, m.First, "drop", "flick", "sprinkle", "stick", "dip") >= 0
}

// warmsUp reports whether the sentence tells how what is left is warmed up again.
func (t *talk) warmsUp(s *sentence) bool {
	return t.has(s.First, s.Last, "reheat", "reheats", "reheating", "when you warm it up", "when you warm them up", "when you heat it up", "when you heat them up", "warm it up again", "warm it back up", "warm them back up", "warming it up", "when you warm it through") >= 0
}

// runsOut reports whether the food is only what comes out of another: "all the black
// water comes out", "the fat will run out of the bacon".
func (t *talk) runsOut(s *sentence, m *mention) bool {
	if m.food.Kind != "water" && m.food.Kind != "fat" && m.food.Kind != "oil" && !generic[m.food.Name] {
		return false
	}
	if t.norm(m.First-1) == "own" && t.joined(m.First-1) {
		return true // "the chicken has its own water"
	}
	if w := t.norm(m.First - 1); w == "percent" || w == "cent" && t.norm(m.First-2) == "per" {
		return true // "about twelve percent fat"
	}
	for i := m.Last; i < s.Last && i < m.Last+4; i++ {
		switch t.norm(i) {
		case "come", "comes", "run", "runs", "drains", "drain", "ooze", "oozes", "leak", "leaks", "render", "renders", "seep", "seeps":
			return t.has(i+1, min(s.Last, i+3), "out", "off", "away", "down") >= 0
		case "will", "should", "just", "all", "then", "that'll", "that":
		default:
			return false
		}
	}
	return false
}

// pouredOff reports whether the food is only what is got rid of: "drain the fat", "pour
// off most of the oil", "skim the grease".
func (t *talk) pouredOff(s *sentence, m *mention) bool {
	if m.food.Kind != "water" && m.food.Kind != "fat" && m.food.Kind != "oil" && !generic[m.food.Name] {
		return false
	}
	for i := m.First - 1; i >= s.First && i >= m.First-7; i-- {
		switch t.norm(i) {
		case "drain", "discard", "skim", "ditch", "trim":
			return true
		case "cut", "scrape", "slice", "pull", "peel", "pour", "tip", "spoon", "ladle", "drip", "let", "shake", "blot":
			return t.has(i+1, min(s.Last, i+4), "off", "out", "away") == i+1 || t.has(m.Last, min(s.Last, m.Last+2), "off", "away") == m.Last
		case "off", "out", "away", "the", "any", "all", "most", "of", "that", "excess", "extra", "some", "your", "its", "rid", "melted", "cooking", "soaking", "starchy", "salty", "leftover", "big", "thick", "white", "visible", "loose":
		default:
			return false
		}
	}
	return false
}

// ofWonders reports whether a measure of the food is only what somebody can do much
// with: "what that woman can do with a bag of flour".
func (t *talk) ofWonders(s *sentence, m *mention) bool {
	from := m.First
	for _, q := range m.amounts {
		from = min(from, t.quantities[q].First)
	}
	i := t.has(max(s.First, from-5), from, "do with")
	return i > s.First && (t.has(max(s.First, i-3), i, "can", "could") >= 0) && t.has(s.First, i, "what", "amazed", "things") >= 0
}

// sides are what a dish is eaten with.
var sides = words("rice bread noodles pasta potatoes mash chips fries salad naan roti chapati chapatis appam toast crackers tortillas tea coffee wine beer milk gravy couscous polenta dumplings")

// besides reports whether the food is only eaten with the dish: "serve it with
// plain rice", "eat with bread".
func (t *talk) besides(s *sentence, m *mention) bool {
	if !sides[t.norm(m.head.Last-1)] && !m.food.Dish {
		return false
	}
	for i := m.First - 1; i > s.First && i >= m.First-9; i-- {
		switch t.norm(i) {
		case "with", "alongside", "over", "on":
			for j := i - 1; j >= s.First && j >= i-5; j-- {
				switch t.norm(j) {
				case "eat", "eaten", "eats", "serve", "serves", "served", "have", "lovely", "nice", "good", "great", "goes", "perfect", "delicious", "enjoy":
					return !t.madeSide(m)
				}
			}
		}
	}
	return false
}

// madeSide reports whether the side is cooked in this talk: it has a part of
// its own or was put in before.
func (t *talk) madeSide(m *mention) bool {
	w := t.norm(m.head.Last - 1)
	for _, p := range t.partNames {
		if p == w || strings.HasSuffix(p, " "+w) {
			return true
		}
	}
	return t.takenUp(m)
}

// afterAll reports whether the sentence stands after what was said of keeping,
// in the last part of the talk: new foods there are talk, unless something was
// forgotten.
func (t *talk) afterAll(s *sentence, m *mention) bool {
	return t.keptBefore(s) && !s.forgotten && (m.definite || !t.takenUp(m)) && !t.partReachedAfterKeeping(s)
}

// partReachedAfterKeeping reports whether a part of the dish was opened after
// the last sentence on keeping and before s.
func (t *talk) partReachedAfterKeeping(s *sentence) bool {
	for i := len(t.parts) - 1; i >= 0; i-- {
		p := t.parts[i].tok
		if p > s.First {
			continue
		}
		for j := int(t.sentOf[s.First]); j >= 0 && t.sents[j].First >= p; j-- {
			if t.sents[j].kind == storing {
				return false
			}
		}
		return p > len(t.toks)/2
	}
	return false
}

// opened reports whether the part that the food names was opened before.
func (t *talk) opened(m *mention) bool {
	name := t.phrase(m.head.First, m.head.Last)
	for _, p := range t.parts {
		if p.tok < m.First && p.name >= 0 && t.partNames[p.name] == name {
			return true
		}
	}
	return false
}

// mixtures are words for what is made here whatever measure of it is taken.
var mixtures = words("filling dough batter mixture stuffing topping marinade")

// spoonOfMade reports whether a measure is taken of a mixture made before: "one
// teaspoon of filling in the middle".
func (t *talk) spoonOfMade(m *mention) bool {
	return m.head.Len() == 1 && mixtures[t.norm(m.head.First)] && len(t.recent()) >= 3
}
