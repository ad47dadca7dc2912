package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// ingredient gathers every mention of one thing to buy in one part.
type ingredient struct {
	no       int // its place among the talk's
	food     *lexicon.Food
	name     string
	called   called // its name, taken apart
	amount   *schema.Quantity
	second   *schema.Quantity
	size     *schema.Quantity
	vague    string
	taste    bool
	prep     []string
	part     int
	way      int
	ways     map[int]bool
	optional bool
	subs     []schema.Substitute
	also     []string
	mentions []int
	said     []language.Span
	told     []language.Span // where its amounts and sizes were said
	dish     int
	first    int // token of first use
	heard    *lexicon.Heard
	id       string
	amountAt language.Span
	surface  bool // it only keeps things from sticking to what it is put on
}

// related tells how two foods' names stand: 2 the same row, 1 one names the
// other more fully ("flour", "bread flour"), 0 others.
func related(a, b *lexicon.Food) int {
	if a.Apart(b) {
		return 0
	}
	if a == b || a.Name == b.Name {
		return 2
	}
	x, y := a.Words(), b.Words()
	if len(x) > len(y) {
		x, y = y, x
	}
	if len(x) == 0 {
		return 0
	}
	lastX, lastY := x[len(x)-1], y[len(y)-1]
	if lastX == lastY {
		// the shorter's words all stand in the longer
		for _, w := range x {
			if !contains(y, w) {
				return 0
			}
		}
		return 1
	}
	if len(x) > 1 {
		return 0
	}
	if a.Kind == b.Kind && !productWord[lastY] {
		// "beef" for rump steak, "chicken" for chicken thighs
		if x[0] == y[0] || lastY == "steak" && x[0] == "beef" {
			return 1
		}
	}
	if len(y) >= 2 && y[0] == x[0] && sameThing[lastY] && (lastY != "powder" || a.Kind == b.Kind) {
		return 1
	}
	return 0
}

// productWord are last words that make another food of the first word's.
var productWord = words("paste sauce puree passata ketchup oil flour stock broth soup milk cream butter vinegar jam syrup chips crisps bread cake jelly relish chutney extract essence")

// sameThing are last words that leave the first word's food what it is:
// "guajillo" and "guajillo chile", "garlic" and "garlic clove".
var sameThing = words("clove cloves chile chiles chilli chillies pepper peppers bulb fillet fillets thigh thighs breast breasts leg legs leaves leaf powder seeds seed pods pod stick sticks juice zest bag bags bean beans")

// gatherIngredients turns mentions into ingredients.
func (t *talk) gatherIngredients() {
	topic := -1
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing || s.kind == figures {
			continue
		}
		t.markSubstitutes(s, topic)
		for _, m := range t.mentionsIn(s.First, s.Last) {
			mm := &t.mentions[m]
			ok, why := t.accept(s, mm)
			if !ok && why == "named alone" && t.joinedToTaken(m) {
				ok, why = true, "named with one that goes in"
			}
			mm.why = why
			if !ok {
				continue
			}
			if mm.subst >= 0 {
				t.addSubstitute(mm)
				continue
			}
			g := t.resolve(m, mm)
			mm.ingr = g
			topic = m
		}
	}
	t.leaveOutByName()
	t.finishIngredients()
}

// accept decides whether a mention names something that goes into the dish,
// and says why.
func (t *talk) accept(s *sentence, m *mention) (bool, string) {
	if m.subst >= 0 && !m.mixed && !m.compared {
		return true, "substitute"
	}
	if m.food.Name == "clove" && t.norm(m.head.First-1) == "garlic" && t.joined(m.head.First-1) {
		return false, "pieces of garlic"
	}
	if m.negated || m.compared || m.alias >= 0 || t.measureCompared(m) || t.deniedAfter(m) || t.deniedAny(s, m) {
		return false, "denied, compared or renamed"
	}
	if s.recap || t.toldMeasured(m) {
		return false, "said again"
	}
	measured, byMeasure, vaguely := false, false, false
	for _, q := range m.amounts {
		qq := &t.quantities[q]
		switch qq.kind {
		case measure, count:
			if !qq.void {
				measured = true
				byMeasure = byMeasure || qq.kind == measure
			}
		case vague, share:
			vaguely = true
		}
	}
	if m.mixed && (!measured || m.food.Dish) {
		return false, "names a thing made of it"
	}
	if t.afterNegative(s, m) {
		return false, "object of a don't"
	}
	if m.verb {
		a := t.actionAt[m.head.First]
		return a >= 0 && t.actions[a].mood != negative, "seasoning verb"
	}
	if t.commended(s, m) {
		return true, commendedFood
	}
	if t.disowned(s, m) {
		return false, "a choice others take"
	}
	if why := t.bystander(s, m, measured && !t.articleOnly(m)); why != "" {
		return false, why
	}
	acting := t.actionFor(s, m)
	if measured && !byMeasure && t.articleOnly(m) && !acting && s.kind != listing && !t.behindMeasured(m) {
		measured = false
	}
	if !s.other && !s.past && !s.recap && !m.food.Dish && t.someOfThem(m) {
		return true, "counted next"
	}
	if measured && !s.other && t.lateAmount(m) {
		return true, "its amount, said late"
	}
	if !s.other && !s.naming && t.atHand(s, m) && !m.food.Dish && !m.food.Made && !(m.food.Weak && !byMeasure) {
		return true, "at hand"
	}
	if !m.food.Dish && !s.other && (measured && (s.forgotten || t.afterForgotten(s)) || t.inCooking(s) && t.reminded(s, m)) {
		return true, "remembered"
	}
	if !m.food.Dish && !s.other && t.has(s.First, m.First, "in they go", "in it goes", "in that goes", "in we go", "on they go", "on it goes", "in she goes", "in he goes", "back it goes", "back they go") >= 0 {
		return true, "goes in with it"
	}
	if t.standInAgain(s, m) {
		return false, "the stand-in again"
	}
	if measured && !m.food.Dish && !s.other && t.ownAmount(m) {
		return true, "what the cook takes"
	}
	if m.food.Kind != "" && t.halves(m) {
		return false, "what another is made of"
	}
	if !m.food.Dish && (t.inCooking(s) || t.afterCooking(s)) && (t.offered(m) || t.leftToChoice(s, m)) {
		return true, "offered"
	}
	if !measured && t.nearOthers(s, m) {
		return t.othersOption(s, m), "a choice others take"
	}
	if byMeasure && s.kind == aside && t.trailsAside(s, m) {
		return true, "measured after a remark"
	}
	if s.kind == aside || s.other || s.naming && !byMeasure && !t.countedLater(m) || t.ofOthers(t.upToMark(s, m)) && !acting || t.closing(s) && !acting && !byMeasure {
		return t.othersOption(s, m), "a choice others take"
	}
	if !acting && t.isolated(s) {
		return false, "in a story"
	}
	surface := lexicon.Singular(t.norm(m.head.Last - 1))
	if (generic[m.food.Name] || m.head.Len() == 1 && generic[surface]) && !measured && !t.ofOneFood(m) {
		return t.genericStands(s, m), "class of food"
	}
	if m.food.Dish && !byMeasure && !(acting && t.vesselOf(m)) {
		return false, "a dish"
	}
	if t.madeHere(m) > 0 && !(byMeasure && t.measuredAfter(m)) && (m.definite && t.ownWord(m) || !measured && (m.definite || !vaguely && t.ownWord(m))) {
		return false, "made here" // "the jam", once it is what is being made
	}
	if m.definite && !measured && t.ofEggs(m) {
		return false, "of eggs that are there"
	}
	if m.definite && !measured && t.needsList(m) {
		return false, "made here" // "the batter needs three cups of rice"
	}
	if m.definite && !measured && t.cookedHere(m) {
		return false, "made here of what is there" // "the prawn stock"
	}
	if m.food.Weak && !byMeasure && m.form == "" && t.articleOnly(m) && len(m.amounts) > 0 {
		return false, "an everyday word"
	}
	if (!byMeasure || t.piecesOnly(m)) && t.servedOn(s, m) {
		return false, "eaten with it"
	}
	if measured && !s.past && t.inCooking(s) && t.inHand(s, m) {
		return true, "at hand"
	}
	switch {
	case byMeasure:
		if acting || s.kind == listing || s.kind == instruction {
			return true, "measured"
		}
		return !s.past, "measured"
	case measured:
		if t.made(s, m) {
			return false, "what it makes"
		}
		if acting {
			return true, "counted, worked on"
		}
		return !s.past && t.inCooking(s) && ((s.kind == listing || s.kind == instruction) && (t.listed(s, m) || t.countCloses(s, m)) || t.fragmentNames(s, m)), "counted"
	case acting:
		return true, "worked on"
	case vaguely && !s.past && !m.food.Weak && (s.kind == listing || s.kind == instruction || s.Len() <= 14) && t.inCooking(s) && !t.yields(s):
		return true, "vague amount"
	}
	if m.food.Made || m.food.Weak && !t.unitNext(m) && !t.amongFoods(m) {
		return false, "an everyday word"
	}
	if t.topicTaken(s, m) {
		return true, "named first, then put in"
	}
	return t.fragmentNames(s, m), "named alone"
}

// afterForgotten reports whether the sentence is what the one before said was forgotten:
// "I've left out what makes it. Ground dried shrimp. Two teaspoons."
func (t *talk) afterForgotten(s *sentence) bool {
	k := int(t.sentOf[s.First])
	return k > 0 && !s.past && t.sents[k-1].forgotten && t.sents[k-1].para == s.para && s.Len() <= briefKeep && len(t.mentionsIn(t.sents[k-1].First, t.sents[k-1].Last)) == 0
}

// measureCompared reports whether the amount of the food is part of a picture: "if it feels like a
// stick of butter".
func (t *talk) measureCompared(m *mention) bool {
	for _, k := range m.amounts {
		q := &t.quantities[k]
		if q.Last != m.First || !q.of || !picturing[t.norm(q.First-1)] || !t.comparedBefore(q.First) {
			continue
		}
		switch w := t.norm(q.First - 2); {
		case t.norm(q.First-1) != "like", !youWe[w] && w != "some" && w != "people" && w != "would" && w != "they":
			return true // and not "some like a pinch of chilli powder"
		}
	}
	return false
}

// picturing are words right before an amount that is part of a picture.
var picturing = words("like than as of")

// deniedAny reports whether what is denied is any of the food, or the least of it: "you cannot taste
// any fish", "there isn't a speck of flour in it", "not cloves of garlic".
func (t *talk) deniedAny(s *sentence, m *mention) bool {
	from := m.First
	switch w := t.norm(m.First - 1); {
	case w == "any":
		from--
		for i := from - 1; i >= s.First && i >= from-5 && t.joined(i); i-- {
			if w := t.norm(i); negatives[w] || strings.HasSuffix(w, "n't") {
				return t.actionAt[i] < 0 && !untils[t.norm(i-2)] && !untils[t.norm(i-3)]
			}
		}
		return false
	case w == "of" && leastOf[t.norm(m.First-2)]:
		from -= 2
	default:
		for _, k := range m.amounts {
			if q := &t.quantities[k]; q.Last == m.First && q.of && q.kind == vague {
				from = q.First
			}
		}
		if from == m.First {
			return false
		}
	}
	return t.negatedBefore(from)
}

// leastOf are words for the least there can be of a thing, and for pieces that tell what is meant.
var leastOf = words("speck trace scrap hint whiff cloves")

// negatives are words that deny what follows.
var negatives = words("not no never cannot without")

// deniedAfter reports whether the food is named only to be refused: "butter, no. It's too
// heavy", "cheese, never".
func (t *talk) deniedAfter(m *mention) bool {
	i := m.Last
	if w := t.norm(i); w != "no" && w != "never" && w != "nope" || t.sentOf[i] != t.sentOf[i-1] || len(m.amounts) > 0 {
		return false
	}
	return t.toks[i].After != 0 || i+1 >= len(t.toks) || t.sentOf[i+1] != t.sentOf[i] || !t.punctuated && remarks[t.norm(i+1)]
}

// nearOthers reports whether, in unmarked talk, the words right before the food tell that
// somebody else takes it: "... some people put mushrooms".
func (t *talk) nearOthers(s *sentence, m *mention) bool {
	if t.punctuated {
		return false
	}
	verb := false
	for i := m.First - 1; i >= s.First && i >= m.First-8; i-- {
		w := t.norm(i)
		switch {
		case w == "i" || w == "you" || w == "we" || w == "and" || w == "then" || w == "i'm" || w == "you're" || w == "would" || t.quantityAt[i] >= 0 && t.quantities[t.quantityAt[i]].kind != vague:
			return false
		case w == "my" && kin[strings.TrimSuffix(t.norm(i+1), "'s")], (w == "people" || w == "folks" || w == "folk") && t.norm(i-1) == "some", w == "somebody", w == "someone", w == "everybody":
			return verb
		case len(t.verbs(i)) > 0:
			verb = true
		}
	}
	return false
}

// measuredAfter reports whether all amounts of the food are told behind its name, as of something
// to buy: "the kimchi should be old, two cups". Of what is made here some is taken: "two
// tablespoons of the dough".
func (t *talk) measuredAfter(m *mention) bool {
	for _, k := range m.amounts {
		if q := &t.quantities[k]; q.First < m.Last || t.yields(t.sentence(q.First)) {
			return false
		}
	}
	return true
}

// behindMeasured reports whether the food stands right behind one that was measured, as in a list:
// "a teaspoon of cumin seeds, an onion, chopped".
func (t *talk) behindMeasured(m *mention) bool {
	i := m.First - 1
	for _, k := range m.amounts {
		i = min(i, t.quantities[k].First-1)
	}
	if t.norm(i) == "and" {
		i--
	}
	return i >= 0 && t.sentOf[i] == t.sentOf[m.First] && t.mentionAt[i] >= 0 && t.byMeasure(&t.mentions[t.mentionAt[i]])
}

// amongFoods reports whether the name stands between two foods of a list: "thyme, bay, a little
// sugar".
func (t *talk) amongFoods(m *mention) bool {
	i := m.First - 1
	if i < 0 || m.Last >= len(t.toks) || t.sentOf[i] != t.sentOf[m.First] || t.sentOf[m.Last] != t.sentOf[m.First] {
		return false
	}
	return t.toks[i].After&language.Comma != 0 && t.mentionAt[i] >= 0 && t.toks[m.Last-1].After&language.Comma != 0 && (t.mentionStart(m.Last) >= 0 || t.quantityBegins(m.Last))
}

// someOfThem reports whether a later sentence tells how many of the food there are: "everyone has
// those black bananas. I've got three of them here."
func (t *talk) someOfThem(m *mention) bool {
	for _, k := range m.amounts {
		q := &t.quantities[k]
		if q.void || q.article || q.kind != count && q.kind != measure || t.sentOf[q.First] <= t.sentOf[m.First] {
			continue
		}
		for i := q.Last - 1; i <= q.Last+1; i++ {
			if t.norm(i) == "of" && t.norm(i+1) == "them" {
				return t.hasAny(max(0, q.First-4), q.First, atHandWords) >= 0 || t.sentOf[q.First-1] != t.sentOf[q.First]
			}
		}
	}
	return false
}

// atHandWords say that the cook has something before him or that it is called for.
var atHandWords = listed("i've got", "i have", "i've", "we've got", "we have", "you'll need", "you need", "you want", "i need", "i use", "we need", "i'm using", "get", "take")

// vesselOf reports whether a vessel of the food is taken: "a bottle of beer", which goes in
// though its name alone is that of a drink.
func (t *talk) vesselOf(m *mention) bool {
	for _, q := range m.amounts {
		if x := &t.quantities[q]; x.kind == vague && x.of && dippers[t.norm(x.Last-2)] && m.food.Kind == "alcohol" {
			return true
		}
	}
	return false
}

// countedLater reports whether a later sentence counts the food: "Duck. Two breasts."
func (t *talk) countedLater(m *mention) bool {
	for _, q := range m.amounts {
		if x := &t.quantities[q]; x.kind == count && !x.article && t.sentOf[x.First] > t.sentOf[m.First] {
			return true
		}
	}
	return false
}

// ofEggs reports whether the yolks or whites are those of eggs that were counted before.
func (t *talk) ofEggs(m *mention) bool {
	if m.food.Kind != "egg" || m.food.Name == "egg" {
		return false
	}
	whole := false
	for _, g := range t.recent() {
		if g.food.Kind != "egg" || g.dish != t.dishOf(m.First) {
			continue
		}
		if g.food.Name != "egg" {
			return false // "three yolks" went before
		}
		whole = whole || g.amount != nil
	}
	return whole && (strings.Contains(m.food.Name, "yolk") || strings.Contains(m.food.Name, "white"))
}

// needsList reports whether the words after the name list what goes into it.
func (t *talk) needsList(m *mention) bool {
	switch t.norm(m.Last) {
	case "needs", "takes", "wants", "is":
	default:
		return false
	}
	if !t.joined(m.Last-1) || !t.quantityBegins(m.Last+1) {
		return false
	}
	q := &t.quantities[t.quantityAt[m.Last+1]]
	f := t.foodAfter(q)
	return q.kind == measure && q.of && f >= 0 && related(t.mentions[f].food, m.food) == 0
}

// trailsAside reports whether an amount with its food closes an unmarked remark that it
// does not belong to: "we were all tasting it till Easter and a pinch of salt".
func (t *talk) trailsAside(s *sentence, m *mention) bool {
	if t.punctuated || s.other || m.Last < s.Last {
		return false
	}
	for _, q := range m.amounts {
		if x := &t.quantities[q]; x.kind == measure && x.of && x.First > s.First+3 {
			return t.norm(x.First-1) == "and" && t.inCooking(s)
		}
	}
	return false
}

// bareList is how many words a sentence has at most that names foods and nothing else.
const bareList = 10

// joinedToTaken reports whether mention k follows one that was taken, with only
// "and" between: "salt and black pepper, both sides".
func (t *talk) joinedToTaken(k int) bool {
	if k == 0 {
		return false
	}
	a, b := &t.mentions[k-1], &t.mentions[k]
	if a.ingr == nil || a.why == "denied, compared or renamed" || b.food.Weak || b.food.Dish || t.sentOf[a.First] != t.sentOf[b.First] || a.head.Last > b.First {
		return false
	}
	s := t.sentence(a.First)
	// "salt, pepper" says the same without the "and"
	bare := a.head.Last == b.First && (t.toks[b.First-1].After == language.Comma || !t.punctuated) && s.Len() <= bareList && len(t.actionsIn(s)) == 0 && t.inCooking(s)
	and := bare
	for i := a.head.Last; i < b.head.First; i++ {
		switch {
		case t.norm(i) == "and":
			and = true
		case t.modifier(i) != lexicon.NoClass:
		default:
			return false
		}
	}
	return and
}

// topicTaken reports whether the sentence opens with the food and goes on with
// how the cook takes it: "ginger I take a thumb of", "the coriander, you use
// the stalks too".
func (t *talk) topicTaken(s *sentence, m *mention) bool {
	if s.past || !t.inCooking(s) || m.food.Dish || m.food.Weak || m.First-s.First > 2 {
		return false
	}
	i := m.Last
	if w := t.norm(i); w != "i" && w != "we" && w != "you" {
		return false
	}
	switch t.norm(i + 1) {
	case "take", "use", "put", "add", "need":
		return true
	}
	return false
}

// unitNext reports whether a piece word follows: "orange slices".
func (t *talk) unitNext(m *mention) bool {
	_, n := t.lex.UnitAt(t.ids, m.head.Last)
	return n > 0 && t.joined(m.head.Last-1)
}

// isolated reports whether the sentence stands alone in a paragraph of talk:
// no other sentence of it instructs or lists, and one at least tells a story.
func (t *talk) isolated(s *sentence) bool {
	k := int(t.sentOf[s.First])
	if s.forgotten {
		return false
	}
	work, story, n := 0, 0, 0
	look := func(j int) bool {
		if j < 0 || j >= len(t.sents) || t.sents[j].para != s.para {
			return false
		}
		n++
		switch t.sents[j].kind {
		case instruction, listing:
			work++
		case aside:
			story++
		}
		return true
	}
	for j := k - 1; look(j); j-- {
	}
	for j := k + 1; look(j); j++ {
	}
	return n >= 3 && work == 0 && story > 0
}

// atHand reports whether the cook shows the food as ready: "I've got my rice",
// "you'll need an egg", "here I have some peas".
func (t *talk) atHand(s *sentence, m *mention) bool {
	i := m.First - 1
	for _, q := range m.amounts {
		if x := &t.quantities[q]; x.First <= i && t.sentOf[x.First] == t.sentOf[m.First] {
			i = x.First - 1
		}
	}
	for i >= s.First && t.toks[i].After == 0 && (articleLike[t.norm(i)] || determiners[t.norm(i)] || t.norm(i) == "here" || t.norm(i) == "also" || t.norm(i) == "about" || t.norm(i) == "just") {
		i--
	}
	if i < s.First || t.toks[i].After != 0 {
		return false
	}
	subj := t.norm(t.back(s, i))
	switch t.norm(i) {
	case "got":
		return (subj == "i've" || subj == "we've" || subj == "i" || subj == "we") && t.inCooking(s)
	case "have", "need":
		return (subj == "i" || subj == "we" || subj == "you'll" || subj == "you" || subj == "we'll") && t.has(s.First, i, "don't", "if", "when", "didn't", "won't", "not") < 0 && t.inCooking(s) && t.cookTalk(s)
	}
	return false
}

// inHand reports whether a sentence opens with the food and goes on with how many the
// cook has or wants of it: "aubergines, I have two big ones".
func (t *talk) inHand(s *sentence, m *mention) bool {
	i := m.Last
	if m.First-s.First > 2 || t.toks[i-1].After == 0 || i >= s.Last {
		return false
	}
	switch t.norm(i) {
	case "i", "we", "you":
		switch t.norm(i + 1) {
		case "have", "need", "want", "got", "used", "use", "took", "take":
			i += 2
		default:
			return false
		}
	case "i've", "we've", "you'll":
		i++
		if w := t.norm(i); w == "got" || w == "need" || w == "want" {
			i++
		}
	default:
		return false
	}
	q := t.quantityAt[i]
	return q >= 0 && t.measures(m, i)
}

// cookTalk reports whether the sentences right around tell what to do.
func (t *talk) cookTalk(s *sentence) bool {
	k := int(t.sentOf[s.First])
	n := 0
	for j := max(0, k-2); j <= min(len(t.sents)-1, k+2); j++ {
		if t.sents[j].kind == instruction || t.sents[j].kind == listing {
			n++
		}
	}
	return n >= 1
}

// lateAmount reports whether the food was taken up a little before without an
// amount: "that was three tablespoons of honey".
func (t *talk) lateAmount(m *mention) bool {
	e := t.lookup(m, t.partOf(m.First), t.dishOf(m.First))
	if e == nil || e.amount != nil || e.vague != "" && len(m.amounts) == 0 || t.articleOnly(m) {
		return false
	}
	return m.First-e.last(t) < 90 && e.dish == t.dishOf(m.First)
}

// yields reports whether the sentence tells how many the dish feeds.
func (t *talk) yields(s *sentence) bool {
	return t.has(s.First, s.Last, "feed", "feeds", "serve", "serves", "makes") >= 0
}

// listed reports whether a mention stands in a list: at the start of its
// sentence, or joined to another food by marks and small words only.
func (t *talk) listed(s *sentence, m *mention) bool {
	from := m.First
	for _, q := range m.amounts {
		if x := &t.quantities[q]; t.sentOf[x.First] == t.sentOf[m.First] {
			from = min(from, x.First)
		}
	}
	for i := from - 1; i >= s.First; i-- {
		if t.mentionAt[i] >= 0 || t.quantityAt[i] >= 0 {
			return true
		}
		if w := t.norm(i); !headWords[w] && !determiners[w] && !articleLike[w] && !listWord[w] && !youWe[w] && !modals[w] && t.lex.Modifiers[w] == lexicon.NoClass {
			return t.toks[i].After != 0 && from-i <= 4
		}
	}
	return true
}

// countCloses reports whether an unmarked sentence ends with a number of the food, or goes
// on from it with another amount: "... that one can't be rushed two brown onions".
func (t *talk) countCloses(s *sentence, m *mention) bool {
	if t.punctuated || m.food.Weak || t.yields(s) {
		return false
	}
	counted := false
	for _, q := range m.amounts {
		x := &t.quantities[q]
		counted = counted || x.kind == count && !x.article && x.Last <= m.First
	}
	i := m.Last
	for i < s.Last && t.modifier(i) == lexicon.PrepWord {
		i++
	}
	if !counted || i < s.Last && !t.quantityBegins(i) {
		return false
	}
	k := int(t.sentOf[s.First])
	for j := max(0, k-1); j <= min(len(t.sents)-1, k+1); j++ {
		if j != k && (t.sents[j].kind == instruction || t.sents[j].kind == listing) {
			return true
		}
	}
	return false
}

// made reports whether the number only tells how many the dish makes: "it makes forty
// crackers", "you end up with thirty".
func (t *talk) made(s *sentence, m *mention) bool {
	for _, q := range m.amounts {
		x := &t.quantities[q]
		if x.Last > m.First || x.article || x.First <= s.First {
			continue
		}
		switch t.norm(x.First - 1) {
		case "makes", "yields":
			return true
		case "with":
			return t.is(x.First-3, "end", "up") || t.is(x.First-3, "ends", "up")
		}
	}
	return false
}

var listWord = words("start begin starting with plus in goes add on of for i i'm i've you you'll you've we we'll got have has need want using use that's it's there's here's take get is are about say around a or put then maybe like hold")

// afterNegative reports whether the food is the object of a "don't".
func (t *talk) afterNegative(s *sentence, m *mention) bool {
	if t.reminded(s, m) {
		return false
	}
	for i := m.First - 1; i >= s.First && i >= m.First-8; i-- {
		if a := t.actionAt[i]; a >= 0 {
			return t.actions[a].mood == negative
		}
		if t.toks[i].After != 0 {
			return false
		}
	}
	return false
}

// ownAmount reports whether the cook says of an amount that it is hers: "stock cubes, I
// use two, the recipe my aunt sent said four".
func (t *talk) ownAmount(m *mention) bool {
	for _, k := range m.amounts {
		q := &t.quantities[k]
		if q.void || q.kind != measure && q.kind != count || q.First < 2 || !t.joined(q.First-1) || !t.joined(q.First-2) || t.actionAt[q.First-1] >= 0 && t.actions[t.actionAt[q.First-1]].mood == negative {
			continue
		}
		switch t.norm(q.First - 2) {
		case "i", "we", "you":
		default:
			continue
		}
		switch t.norm(q.First - 1) {
		case "use", "take", "put", "want", "need", "like":
			return true
		}
	}
	return false
}

// standInAgain reports whether the sentence named the food before as a stand-in: "if
// you've only got lemons, use lemons".
func (t *talk) standInAgain(s *sentence, m *mention) bool {
	for _, k := range t.mentionsIn(s.First, m.First) {
		if x := &t.mentions[k]; x.subst >= 0 && x.First < m.First && x.food == m.food {
			return true
		}
	}
	return false
}

// halves reports whether the food is only half of what was measured before: "five hundred
// grams of mince, half pork and half beef".
func (t *talk) halves(m *mention) bool {
	i := m.First
	for _, q := range m.amounts {
		i = min(i, t.quantities[q].First)
	}
	if t.norm(i) != "half" && t.norm(i-1) != "half" {
		return false
	}
	s := t.sentence(m.First)
	half := 0
	for j := s.First; j < s.Last; j++ {
		if t.norm(j) == "half" && t.mentionStart(j+1) >= 0 {
			half++
		}
	}
	if half < 2 {
		return false
	}
	for _, k := range t.mentionsIn(s.First, m.First) {
		for _, q := range t.mentions[k].amounts {
			if t.quantities[q].kind == measure {
				return true
			}
		}
	}
	return false
}

// reminded reports whether the food is one not to be left out: "don't forget the bay
// leaf".
func (t *talk) reminded(s *sentence, m *mention) bool {
	return t.has(max(s.First, m.First-5), m.First, "don't forget", "not forget", "never forget", "don't skip", "never skip", "don't leave out", "not leave out", "without forgetting") >= 0
}

// madeHere gives the length of a made-word that covers the mention's head.
func (t *talk) madeHere(m *mention) int {
	if _, n := t.lex.MadeAt(t.ids, m.head.First); n >= m.head.Len() {
		return n
	}
	return 0
}

// cookedHere reports whether the name is that of an ingredient with a word
// for what became of it: "the prawn stock", "the fried shallots", "the oat flour".
func (t *talk) cookedHere(m *mention) bool {
	name := nameOf(m.name)
	if name.words < 2 {
		return false
	}
	prepared := t.lex.Modifiers[name.first] == lexicon.PrepWord
	if !prepared && m.food.Kind != "stock" && m.food.Kind != "flour" {
		return false
	}
	first := lexicon.Singular(name.first)
	for _, g := range t.recent() {
		switch end := g.called.last; {
		case prepared && end == name.last && g.name != m.name:
			return true
		case end == first && (m.food.Kind == "stock" || m.food.Kind == "flour" && g.food.Kind == "grain"):
			return true
		}
	}
	return false
}

// ownWord reports whether the made-word names this dish or one of its parts.
func (t *talk) ownWord(m *mention) bool {
	w := t.phrase(m.head.First, m.head.Last)
	if contains(t.partNames, w) {
		return true
	}
	limit := min(len(t.toks), max(160, len(t.toks)/5))
	return t.has(0, min(limit, m.First), w) >= 0
}

// servedOn reports whether the food is only eaten with the dish: "have it
// cold with yoghurt", "I'll have it on a crumpet".
func (t *talk) servedOn(s *sentence, m *mention) bool {
	i := t.has(s.First, m.First, "have it", "have them", "eat it", "eat them", "goes well", "goes nicely", "goes great", "lovely with", "good with", "gorgeous with", "great with", "nice with", "have that", "have this", "eat that", "eat this", "i'd eat", "we eat", "has it", "puts it", "eats it", "serve it with rice")
	if i < 0 && (t.praisedWith(s, m) || t.askedWith(s)) {
		return true
	}
	if i < 0 {
		// "with a cup of tea it's very nice"
		return len(t.actionsIn(s)) == 0 && t.norm(s.First) == "with" && t.has(m.Last, s.Last, "it's", "nice", "lovely", "delicious", "perfect") >= 0
	}
	return t.has(i, m.First, "with", "on", "over", "in", "alongside") >= 0
}

// besideIt are words for what stands beside the dish on the table.
var besideIt = listed("with it we", "with it you", "with it i", "with them we", "with them you", "with this we", "with this you", "to go with it", "to go with them", "have with it", "eat with it", "alongside it", "next to it", "all it wants is")

// wanted says of what was named that it is enough beside the dish.
var wanted = listed("that's all it wants", "that's all you want with it", "that's all it needs with it", "is all it wants", "are all it wants", "on the side", "goes with it", "go with it", "goes with them", "for scooping", "for mopping", "for dipping", "to mop it up", "to scoop it up")

// praising are words for how good a thing is.
var praising = words("lovely gorgeous good great nice delicious beautiful brilliant perfect best wonderful fantastic amazing magic heaven yummy super")

// praisedWith reports whether a little before the food the sentence praises what is eaten with it:
// "it's gorgeous toasted with peanut butter".
func (t *talk) praisedWith(s *sentence, m *mention) bool {
	with := -1
	for i := m.First - 1; i >= s.First && i >= m.First-8; i-- {
		switch w := t.norm(i); {
		case w == "with" || w == "on":
			with = i
		case praising[w]:
			return with > i && with-i <= 4 && (with-i == 1 || w != "good" && w != "nice") && !t.canBeVerb(t.norm(i+1))
		}
	}
	return false
}

// askedWith reports whether the sentence answers what the dish is eaten with.
func (t *talk) askedWith(s *sentence) bool {
	k := int(t.sentOf[s.First])
	if k == 0 || t.sents[k-1].para != s.para {
		return false
	}
	return t.has(t.sents[k-1].First, s.First, "have it with", "have them with", "eat it with", "eat them with", "serve it with", "serve them with") >= 0 && t.has(t.sents[k-1].First, s.First, "what") >= 0
}

// piecesOnly reports whether all that measures a food is a piece of it, as at a table:
// "a piece of cheese", "a slice of bread".
func (t *talk) piecesOnly(m *mention) bool {
	for _, q := range m.amounts {
		if x := &t.quantities[q]; x.kind == measure && x.unit != "piece" && x.unit != "slice" {
			return false
		}
	}
	return true
}

// byMeasure reports whether the food was measured, not only counted.
func (t *talk) byMeasure(m *mention) bool {
	for _, q := range m.amounts {
		if t.quantities[q].kind == measure {
			return true
		}
	}
	return false
}

// generic are names of whole classes of food: without an amount they speak of
// foods already named ("the meat", "the juice", "the seeds").
var generic = words("seasoning seasonings sweetener sweeteners toppings juice juices seeds seed peel rind zest skin spice spices vegetable vegetables fruit meat fish greens herb herbs nut nuts leaf leaves chile chiles topping toppings sprinkles-like poultry seafood grain grains fat sprig stem stems stalk stalks shell shells bone bones crumb crumbs green pith core pip pips")

// ofOneFood reports whether a class name says of which food it is: "pineapple peel".
func (t *talk) ofOneFood(m *mention) bool {
	i := m.head.Last - 2
	if i < m.First {
		return false
	}
	f, n := t.lex.FoodAt(t.ids, i, t.stops)
	return n > 0 && (f.Kind == "fruit" || f.Kind == "vegetable" || f.Kind == "nut" || f.Kind == "poultry" || f.Kind == "meat") && !generic[f.Name]
}

// genericStands decides about a class name without an amount: it refers to
// what was named, or, when nothing of the class was, names it.
func (t *talk) genericStands(s *sentence, m *mention) bool {
	for _, g := range t.recent() {
		if g.food.Kind == m.food.Kind || sameClass(m.food.Kind, g.food.Kind) {
			return false
		}
	}
	switch m.food.Name {
	case "juice", "juices", "seeds", "seed", "peel", "rind", "zest", "skin", "leaf", "leaves", "topping", "toppings":
		return false
	}
	for kind, last := range t.lastOfKinds() {
		// it will be named: "the meat" before "flank steak"
		if last > m.First && sameClass(m.food.Kind, kind) {
			return false
		}
	}
	return t.actionFor(s, m)
}

// lastOfKinds gives, for each kind of food, where one of it is named for the
// last time by more than the name of its class.
func (t *talk) lastOfKinds() map[string]int {
	if t.lastKinds == nil {
		t.lastKinds = make(map[string]int)
		for k := range t.mentions {
			if x := &t.mentions[k]; !generic[x.food.Name] {
				t.lastKinds[x.food.Kind] = max(t.lastKinds[x.food.Kind], x.First)
			}
		}
	}
	return t.lastKinds
}

func sameClass(a, b string) bool {
	meats := func(k string) bool { return k == "meat" || k == "poultry" }
	return a == b || meats(a) && meats(b) || (a == "vegetable" && (b == "herb" || b == "legume")) || a == "fish" && b == "shellfish"
}

// othersOption reports whether somebody else's habit is offered as a choice:
// "my wife sprinkles breadcrumbs on hers, that's up to you".
func (t *talk) othersOption(s *sentence, m *mention) bool {
	if s.past || s.other || s.naming {
		return false
	}
	verb := false
	for i := max(s.First, m.First-4); i < m.First; i++ {
		for _, f := range t.verbs(i) {
			if f.Form == lexicon.Third && (f.Action.Kind == "add" || f.Action.Kind == "season" || f.Action.Kind == "finish") {
				verb = true
			}
		}
		switch t.norm(i) {
		case "sprinkles", "adds", "puts", "scatters", "crumbles", "grates", "drizzles", "throws", "uses":
			verb = true
		}
	}
	return verb && t.mayLeaveOut(m)
}

// actionFor reports whether an action of the sentence works on the food.
func (t *talk) actionFor(s *sentence, m *mention) bool {
	for i := s.First; i < s.Last; i++ {
		a := t.actionAt[i]
		if a < 0 {
			continue
		}
		act := &t.actions[a]
		if act.mood == negative || act.clause.First > m.head.First || act.clause.Last < m.head.Last {
			continue
		}
		if act.tok < m.First {
			// object of the verb: not inside "so that the butter ...", "until the sugar"
			if j := t.has(act.tok+1, m.First, "until", "till", "so that", "because", "like", "as if", "before", "which", "who", "that", "than", "if", "when", "'cause", "cause", "what"); j >= 0 {
				w := t.norm(j)
				if w == "if" || w == "when" || w == "before" || w == "that" || w == "which" {
					continue
				}
				// the sign of doneness may name a food that is there already
				continue
			}
			return true
		}
		// food before its verb: "the butter, you cream it", "in goes", "tomatoes go in"
		if m.Last <= act.tok && (act.mood == passive || act.tok-m.Last <= 8) {
			if t.has(act.clause.First, m.First, "if", "when", "once", "because", "like", "while", "till", "until", "before", "after") >= 0 {
				continue
			}
			if t.has(m.Last, act.tok, "and i", "and you", "and we", "but i", "but you", "so i", "so you", "so we", "and it", "and she", "and he", "and they") >= 0 && t.has(act.tok, min(s.Last, act.tok+4), "it", "them", "that", "those") < 0 {
				continue // another clause with a subject of its own
			}
			return true
		}
	}
	return false
}

// inCooking reports whether the sentence stands among instructions.
func (t *talk) inCooking(s *sentence) bool {
	k := int(t.sentOf[s.First])
	for j := max(0, k-3); j <= min(len(t.sents)-1, k+3); j++ {
		if t.sents[j].para == s.para && (t.sents[j].kind == instruction || t.sents[j].kind == listing) {
			return true
		}
	}
	return false
}

// roundUp is how many sentences after the cooking what may go in is still told.
const roundUp = 6

// afterCooking reports whether the sentences before, in its turn or the one before it, tell
// what is done: a round-up of what may be left out follows the cooking.
func (t *talk) afterCooking(s *sentence) bool {
	k := int(t.sentOf[s.First])
	for j := k - 1; j >= 0 && j >= k-roundUp && t.sents[j].para >= s.para-1; j-- {
		if t.sents[j].kind == instruction {
			return true
		}
	}
	return false
}

// fragmentNames reports whether a verbless phrase names the food as the next
// thing to take up.
func (t *talk) fragmentNames(s *sentence, m *mention) bool {
	if s.kind == aside || !t.inCooking(s) {
		return false
	}
	i := s.First
	for i < m.First && (t.quantityAt[i] >= 0 && t.measures(m, i) || t.norm(i) == "of" || headWords[t.norm(i)] || determiners[t.norm(i)] || t.norm(i) == "in" || t.norm(i) == "goes" || articleLike[t.norm(i)]) {
		i++
	}
	if i < m.First && t.sents[t.sentOf[s.First]].kind != listing {
		return false
	}
	// nothing but names, marks and small words
	for j := s.First; j < s.Last; j++ {
		w := t.norm(j)
		if w == "if" && j > m.head.First {
			break // "thyme, if it's lying about"
		}
		if j >= m.Last && t.toks[j-1].After != 0 && (remarks[w] || w == "and" && (t.norm(j+1) == "don't" || t.is(j+1, "it's", "finished") || t.is(j+1, "it's", "done") || t.is(j+1, "that's", "it"))) {
			break // "a roasted red pepper, the jar ones are fine", "red onion, sliced, but not too thin"
		}
		switch w {
		case "will", "be", "would", "should", "stands", "floats", "rises",
			"is", "was", "are", "were", "it's", "that's", "they're", "has", "had", "have", "know", "think", "like", "says", "said", "tastes", "smells", "looks", "makes", "he", "she", "they", "burns", "gets", "don't", "never", "not", "without", "isn't", "ain't", "won't", "wouldn't", "can't", "doesn't", "didn't", "couldn't":
			return s.kind == listing
		}
	}
	return s.Len() <= 16 && s.kind != listing || s.kind == listing && t.listed(s, m)
}

// upToMark gives the sentence as far as the first mark after the mention.
func (t *talk) upToMark(s *sentence, m *mention) *sentence {
	o := *s
	if !t.punctuated && t.byMeasure(m) {
		o.Last = m.Last
		return &o
	}
	for i := m.Last - 1; i < s.Last; i++ {
		if t.toks[i].After != 0 {
			o.Last = i + 1
			break
		}
	}
	return &o
}

// remarks are words that begin a remark on a food just named.
var remarks = words("but though the this that it's that's i i'm my you don't not he she they these those mine")

// measures reports whether the quantity at token i is one of the mention's.
func (t *talk) measures(m *mention, i int) bool {
	for _, q := range m.amounts {
		if q == int(t.quantityAt[i]) {
			return true
		}
	}
	return false
}

// resolve finds the ingredient a mention belongs to, or opens a new one.
func (t *talk) resolve(k int, m *mention) *ingredient {
	part := t.partOf(m.First)
	if lp := t.localPart(m); lp >= 0 {
		part = lp
	}
	way := t.wayOf(m.First)
	dish := t.dishOf(m.First)
	var q *quantity // the measured amount
	var vq *quantity
	shared := false
	for _, i := range m.amounts {
		x := &t.quantities[i]
		if x.void {
			continue
		}
		switch x.kind {
		case measure, count:
			if q == nil {
				q = x
			}
		case vague:
			vq = x
		case share:
			shared = true
		}
	}
	if g := t.apposed(m, q); g != nil && g.dish == dish {
		t.join(g, k, m)
		if q != nil {
			t.setAmount(g, k, m, q)
		}
		t.nameCloser(g, m)
		return g
	}
	e := t.lookup(m, part, dish)
	surface := q == nil && t.onSurface(m)
	if surface {
		if e = t.surfaceLot(m.food, dish); e != nil {
			t.join(e, k, m)
			return e
		}
	}
	if e != nil && e.amount != nil && vq != nil && q == nil && meatKind[m.food.Kind] && vq.of {
		t.join(e, k, m) // "a spoon of chicken down the middle", where it is cooked
		return e
	}
	if e != nil && e.amount != nil && vq != nil && q == nil && vq.of && t.sharedOut(m) {
		t.join(e, k, m) // "in each glass one spoon of cherries"
		return e
	}
	if q == nil && e != nil && t.has(max(0, m.First-4), m.First, "same") >= 0 {
		shared = true
	}
	if q != nil && t.norm(m.Last) == "again" && t.toks[m.Last].After&language.Comma != 0 && e != nil && e.amount != nil {
		e = nil // "butter again, a hundred grams, but this one soft"
	}
	if q != nil && (t.norm(q.First-1) == "same" || t.has(m.Last, min(len(t.toks), m.Last+4), "the same") >= 0 && q.First > m.Last) {
		if e != nil && e.amount != nil {
			t.join(e, k, m)
			return e
		}
	}
	if q != nil && q.of && m.definite && q.kind == measure {
		// "one teaspoon of the sesame oil", "a slice of the pear"
		if e != nil && e.amount != nil && t.partOfIt(e, q) {
			t.join(e, k, m)
			return e
		}
	}
	if q != nil && q.of && m.definite {
		switch t.norm(m.First - 1) {
		case "your", "that", "those", "these", "this":
			// "a spoonful of your flour", "the juice of one of those lemons"
			if e != nil && e.amount != nil {
				t.join(e, k, m)
				return e
			}
		}
	}
	if q != nil && q.kind == measure && pieceUnit[q.unit] {
		if e != nil && e.amount != nil && (e.amount.Unit == "" || meatKind[m.food.Kind]) {
			t.join(e, k, m)
			return e
		}
	}
	if q != nil && q.article && q.kind == count {
		if e != nil && e.amount != nil && t.mentions[e.mentions[0]].First < m.First-30 && related(e.food, m.food) > 0 {
			t.join(e, k, m)
			return e
		}
	}
	if q != nil && t.referring(m, q) {
		// "those two tablespoons", "one of your spoons"
		shared = shared || e != nil && q.kind == count && q.min == 1
	}
	switch {
	case e == nil:
	case shared && q == nil:
		t.join(e, k, m)
		return e
	case q != nil:
		if t.sameAmount(e, q) {
			t.join(e, k, m)
			return e
		}
		if e.amount == nil && (e.part == part || e.part < 0 || q.definite) && !t.servedItsTurn(e, m, q) {
			t.join(e, k, m)
			t.setAmount(e, k, m, q)
			return e
		}
		if e.amount != nil && (e.part == part) && e.second == nil && (t.norm(q.First-1) != "and" || m.definite || related(e.food, m.food) == 2) && t.converts(e.amount, q) && m.First-e.last(t) < 40 {
			t.join(e, k, m)
			e.second = q.value()
			e.told = append(e.told, q.told())
			return e
		}
		if e.amount != nil && e.part == part && t.contradicts(e, m, q) {
			t.join(e, k, m)
			t.conflictAmount(e, m, q)
			return e
		}
		if e.amount != nil && e.part == part && q.definite && q.kind == measure && q.min <= e.amount.Max {
			t.join(e, k, m)
			return e
		}
	case vq != nil && vq.vkind == "taste":
		if e.part == part && (e.taste || e.amount == nil && e.vague == "") {
			e.taste = true
			t.join(e, k, m)
			return e
		}
		if m.definite || !m.food.Taste {
			t.join(e, k, m)
			if e.amount == nil && e.vague == "" {
				e.taste = true
			}
			return e
		}
	case vq != nil:
		if m.definite || vq.definite || vq.more && m.food.Kind != "oil" && e.amount != nil {
			t.join(e, k, m)
			return e
		}
		if e.part == part && e.amount == nil && e.vague == "" && !e.taste {
			t.join(e, k, m)
			e.vague = vq.words
			return e
		}
		if e.part == part && e.amount == nil {
			t.join(e, k, m)
			return e
		}
		if e.optional && e.amount == nil || m.First-e.first < 12 {
			t.join(e, k, m)
			return e
		}
	case t.seasonsAnew(e, m, part):
	default:
		t.join(e, k, m)
		return e
	}
	if g := t.headOf(m); g != nil && (q != nil || vq != nil) {
		t.rename(g, m.name, m.food)
		t.join(g, k, m)
		if q != nil {
			t.setAmount(g, k, m, q)
		} else if vq.vkind == "taste" {
			g.taste = true
		} else {
			g.vague = vq.words
		}
		return g
	}
	if q == nil && !surface && (vq == nil || m.definite) {
		if j := t.broughtUp(k, m); j >= 0 {
			g := t.open(j, part, way, dish)
			t.join(g, k, m)
			return g
		}
	}
	g := &ingredient{food: m.food, name: m.name, part: part, way: way, dish: dish, first: m.First, heard: m.heard, ways: map[int]bool{}, surface: surface}
	t.newIngredient(g)
	t.join(g, k, m)
	if q != nil {
		t.setAmount(g, k, m, q)
	}
	if vq != nil {
		if vq.vkind == "taste" {
			g.taste = true
		} else {
			g.vague = vq.words
		}
	}
	return g
}

// seasonsAnew reports whether salt or pepper is put into another part than that for which it was
// measured: what goes in there was not said.
func (t *talk) seasonsAnew(e *ingredient, m *mention, part int) bool {
	return m.food.Taste && !m.definite && e.amount != nil && e.part >= 0 && part >= 0 && e.part != part
}

// vagueReach is how many tokens after a vague amount a measure can still tell how much that was.
const vagueReach = 25

// servedItsTurn reports whether the ingredient was used up by the vague word that told of it,
// so that a measure told long after is of more: "grease the tin with a dab of butter. ... Melt a
// hundred grams of butter".
func (t *talk) servedItsTurn(e *ingredient, m *mention, q *quantity) bool {
	if q.kind != measure || strings.HasSuffix(e.vague, " part") || strings.HasSuffix(e.vague, " parts") {
		return false // a ratio is told before its amounts
	}
	return e.vague != "" && !m.definite && !q.definite && m.First-e.last(t) > vagueReach && t.hasAny(max(0, q.First-6), q.First, saidBefore) < 0
}

// pieceUnit are pieces of a thing that was counted whole.
var pieceUnit = words("slice piece leaf wedge")

// meatKind are kinds of foods that are cooked first and shared out afterwards.
var meatKind = words("meat poultry")

// partOfIt reports whether the amount can be some of what the ingredient has.
func (t *talk) partOfIt(e *ingredient, q *quantity) bool {
	if e.amount.Unit == q.unit {
		return q.max < e.amount.Max
	}
	a, ok1 := schema.Volume(e.amount.Unit)
	b, ok2 := schema.Volume(q.unit)
	if ok1 && ok2 {
		return b*q.max < a*e.amount.Max
	}
	a, ok1 = schema.Mass(e.amount.Unit)
	b, ok2 = schema.Mass(q.unit)
	return ok1 && ok2 && b*q.max < a*e.amount.Max
}

// referring reports whether the amount speaks of some of what is there.
func (t *talk) referring(m *mention, q *quantity) bool {
	return q.definite && m.definite
}

func (g *ingredient) last(t *talk) int {
	return t.mentions[g.mentions[len(g.mentions)-1]].First
}

// unmarkedGap is how many words can stand there in talk without marks: "oil in it vegetable oil".
const unmarkedGap = 2

// appositionReach is how many tokens can stand between a food and its closer name.
const appositionReach = 10

// apposed gives the ingredient named right before the mention, where that only says
// which sort it is: "half a kilo of flour, bread flour", "a pound of cheese, Monterey
// jack". It is nil where the mention may be another food.
func (t *talk) apposed(m *mention, q *quantity) *ingredient {
	i := m.First - 1
	for i >= 0 && i > m.First-appositionReach && t.mentionAt[i] < 0 {
		i--
	}
	if i < 0 || t.mentionAt[i] < 0 || m.verb {
		return nil
	}
	p := &t.mentions[t.mentionAt[i]]
	g := p.ingr
	explained := q == nil && t.has(i+1, m.First, "that's", "that is", "which is", "this is", "what we call", "what they call", "what you call", "what some call", "we call it", "we call them", "they call it", "they call them", "you call it", "some people say", "some say", "also known as", "also called", "otherwise known as", "aka", "known as") >= 0
	if m.definite && !explained || g == nil || !explained && (q != nil) == (g.amount != nil) || p.definite && g.amount == nil || !explained && !closerName(m, p, g) {
		return nil
	}
	marked := false
	for j := i; j < m.First; j++ {
		marked = marked || t.toks[j].After != 0
		if w := t.norm(j); j > i && t.quantityAt[j] < 0 && !determiners[w] && !besideSort[w] && t.modifier(j) == lexicon.NoClass && !(w == "and" && ownSort[t.norm(j+1)]) {
			return nil
		}
	}
	if !marked && (t.punctuated || m.First > p.Last+unmarkedGap) {
		return nil
	}
	return g
}

// sharedOut reports whether the sentence puts some of what is there in each of several
// things.
func (t *talk) sharedOut(m *mention) bool {
	s := t.sentence(m.First)
	return t.has(s.First, s.Last, "each", "every", "layer", "layers", "then one", "another layer", "in the middle") >= 0
}

// nameCloser gives an ingredient the closer name of a mention: "bread flour" for flour,
// "chicken thighs" for chicken where "thighs" was said.
func (t *talk) nameCloser(g *ingredient, m *mention) {
	if m.definite || g.name == m.name || related(g.food, m.food) == 0 && nameOf(m.name).last != g.called.last && classWord[g.called.last] != m.food.Kind {
		return // "masarepa, that's the precooked corn meal", "peppers, what we call tatashe"
	}
	name := m.name
	if last := g.called.last; g.called.words == 1 && contains(m.food.Words(), last) && !strings.Contains(name, last) {
		name = g.name + " " + name
	}
	if !contains(g.also, g.name) {
		g.also = append(g.also, g.name)
	}
	t.rename(g, name, m.food)
}

// ownSort are words after "and" that begin what sort of the food the cook has: "half a cup of
// milk, and I'm using oat milk".
var ownSort = words("i'm i i've mine mine's today")

// besideSort are words that can stand before the closer name of a food.
var besideSort = words("any i'm using mine today mine's i've got in it there here on just i use like prefer good proper nice preferably ideally mostly usually always this is that's that which it's what we they you some call people say also known otherwise called as carton tin packet bag bone skin off")

// closerName reports whether mention m names a sort of the food of p: by the same word
// with more before it, or by one food of the class that p names.
func closerName(m, p *mention, g *ingredient) bool {
	a, b := nameOf(p.name), nameOf(m.name)
	switch {
	case (b.words > a.words || fromTins[a.first]) && a.last == b.last && g.name == p.name:
		return true
	case a.words == 1 && classWord[a.last] != "" && classWord[a.last] == m.food.Kind && g.name == p.name:
		return a.last == "cheese" || a.last == "fish" || a.last == "meat" || a.last == "bean" || a.last == "nut" || a.last == "pasta"
	}
	return related(p.food, m.food) == 1 && len(m.food.Words()) > len(p.food.Words()) && g.food.Name == p.food.Name
}

// inMind is how many ingredients, and how many steps, words can refer back to:
// more than any recording of a recipe has, so that in a very long talk the
// cost of each word stays what it was.
const inMind = 400

// recent gives the ingredients that words can refer back to.
func (t *talk) recent() []*ingredient {
	return t.ingredients[t.firstRecent():]
}

func (t *talk) firstRecent() int { return max(0, len(t.ingredients)-inMind) }

// lookup finds the ingredient a mention can mean: the nearest before it, of
// its own part first.
func (t *talk) lookup(m *mention, part, dish int) *ingredient {
	var best *ingredient
	score := 0
	name := nameOf(m.name)
	var kin kinSign
	kin.addFood(m.food)
	kin.add(name.last)
	if w := classSign[m.food.Kind]; w != "" && m.definite {
		kin.add(w) // "your fusilli" of the pasta
	}
	if kind := classWord[name.last]; kind != "" {
		kin.add(classSign[kind])
	}
	for i := len(t.ingredients) - 1; i >= t.firstRecent(); i-- {
		if !kin.meets(&t.kin[i]) {
			continue
		}
		g := t.ingredients[i]
		if g.dish != dish {
			continue
		}
		r, short := related(m.food, g.food), false
		if r < 2 && t.spokenShort(m, name, g) {
			r, short = 1, true
		}
		if r == 0 || t.cutForm(m, g) {
			continue
		}
		if r == 1 && !short && g.food.Kind != m.food.Kind && !(plantKind[g.food.Kind] && plantKind[m.food.Kind]) {
			continue
		}
		if r == 1 && !t.genericOf(m, g) && !(short && m.definite && name.words == 1) {
			continue
		}
		sc := r * 4
		if g.part == part {
			sc += 3
		}
		// names that agree word for word are the same thing
		if g.name == m.name {
			sc += 2
		}
		if g.surface {
			if len(m.amounts) > 0 {
				continue
			}
			sc = 1
		}
		if sc > score {
			score, best = sc, g
		}
	}
	return best
}

var plantKind = words("vegetable spice herb fruit legume")

// spokenShort reports whether the mention is the ingredient's own name cut
// short ("the capsicum" of "green capsicum", "bread, good crusty bread") or the
// word for its class ("the cheese" of mozzarella).
func (t *talk) spokenShort(m *mention, name called, g *ingredient) bool {
	if m.definite && len(m.amounts) == 0 && name.words == 1 && name.last == g.called.last {
		return true // "the almonds" of ground almonds, "the beans" of green beans
	}
	if g.food.Kind != m.food.Kind || len(m.amounts) > 0 && !m.definite {
		return false
	}
	if name.words == 0 || g.called.words == 0 {
		return false
	}
	if len(m.amounts) == 0 && contains(g.also, m.name) {
		return true
	}
	if name.last == g.called.last {
		return name.words == 1 || t.sentOf[m.First] == t.sentOf[g.last(t)] && len(m.amounts) == 0
	}
	if name.words == 1 && (m.definite || len(m.amounts) == 0) && t.ofClass(name.last, g.food) {
		return true
	}
	if animal[m.food.Name] && m.food.Kind == g.food.Kind && len(m.amounts) == 0 && !t.ofOtherAnimal(g.food, m.food.Name) {
		return true // "the beef" where ribeye went in
	}
	if len(m.amounts) > 0 || !m.definite || name.words != 1 {
		return false
	}
	// "drain your fusilli" where pasta went in, "out of the milk" of buttermilk
	return g.called.words == 1 && (t.ofClass(g.called.last, m.food) || len(name.last) > 3 && strings.HasSuffix(g.called.last, name.last))
}

// animal are meats named by the animal alone.
var animal = words("beef pork lamb veal mutton")

// ofOtherAnimal reports whether the name of a meat tells that it is of another animal than the one
// named, or of no cut.
func (t *talk) ofOtherAnimal(f *lexicon.Food, name string) bool {
	for _, w := range f.Words() {
		if w != name && animal[w] || otherMeat[w] {
			return true
		}
	}
	return false
}

// otherMeat are words in the names of meats that are called by no animal's name alone.
var otherMeat = words("bacon ham sausage sausages chorizo salami pancetta guanciale lardon lardons prosciutto mince pepperoni goat rabbit venison bone bones stock kidney liver")

// classWord are the words for a class of foods, each with the foods' kind.
var classWord = map[string]string{"pasta": "pasta", "noodle": "pasta", "rice": "grain", "cheese": "dairy", "bean": "legume", "fish": "fish", "meat": "meat", "mince": "meat", "beef": "meat", "pork": "meat", "lamb": "meat", "vinegar": "condiment", "nut": "nut", "sugar": "sweetener", "bread": "bread", "chocolate": "chocolate", "berry": "fruit"}

// notCheese are the words that end the names of milk foods that are no cheese.
var notCheese = words("milk cream butter yogurt yoghurt buttermilk ghee curd curds kefir custard skyr creme")

// ofClass reports whether the food belongs to the class that a word names.
func (t *talk) ofClass(w string, f *lexicon.Food) bool {
	if classWord[w] == "" || classWord[w] != f.Kind {
		return false
	}
	ws := f.Words()
	last := ws[len(ws)-1]
	switch w {
	case "cheese":
		return !notCheese[last]
	case "berry":
		return strings.HasSuffix(last, "berry")
	case "mince":
		return contains(ws, "ground") || contains(ws, "minced") || contains(ws, "mince")
	case "vinegar", "sugar", "rice", "beef", "pork", "lamb":
		return contains(ws, w)
	}
	return true
}

// cutForm reports whether the mention is the fruit in pieces where the
// ingredient is only its juice or zest: "lemon wedges" beside lemon juice.
func (t *talk) cutForm(m *mention, g *ingredient) bool {
	switch t.norm(m.head.Last) {
	case "wedge", "wedges", "slice", "slices":
	default:
		return false
	}
	_, w, _ := language.Ends(g.name)
	return w == "juice" || w == "zest"
}

// headOf gives the ingredient that was named as a class just before, without
// an amount, and that the mention now tells by its kind: "Pasta. The proper one
// is bucatini, five hundred grams."
func (t *talk) headOf(m *mention) *ingredient {
	n := len(t.ingredients)
	if n == 0 {
		return nil
	}
	g := t.ingredients[n-1]
	if g.amount != nil || g.vague != "" || g.taste || len(g.mentions) != 1 || g.dish != t.dishOf(m.First) || m.First-g.last(t) > 12 {
		return nil
	}
	ws := language.Norms(g.name)
	s := t.sentence(g.last(t))
	if t.sentOf[g.last(t)] == t.sentOf[m.First] {
		// "now the cheese a hundred and twenty grams of mature cheddar"
		if o := &t.mentions[g.mentions[0]]; t.punctuated || len(m.amounts) == 0 || t.quantities[m.amounts[0]].First != o.Last || !t.quantities[m.amounts[0]].of {
			return nil
		}
	} else if s.Len() > 3 {
		return nil
	}
	if len(ws) != 1 || !t.ofClass(lexicon.Singular(ws[0]), m.food) {
		return nil
	}
	return g
}

// genericOf reports whether one of the two names is the other's short form:
// the mention must be the shorter, or the ingredient have no amount yet.
func (t *talk) genericOf(m *mention, g *ingredient) bool {
	a, b := len(strings.Fields(m.food.Name)), len(strings.Fields(g.food.Name))
	return a <= b || (g.amount == nil || m.sort && len(m.amounts) == 0) && m.First-g.last(t) < 40
}

func (t *talk) join(g *ingredient, k int, m *mention) {
	g.mentions = append(g.mentions, k)
	from, to := m.First, m.Last
	for _, q := range m.amounts {
		x := &t.quantities[q]
		if t.sentOf[x.First] == t.sentOf[m.First] {
			from, to = min(from, x.First), max(to, x.told().Last)
		}
	}
	g.said = append(g.said, language.Span{First: from, Last: to})
	for _, p := range m.prep {
		if !contains(g.prep, p) {
			g.prep = append(g.prep, p)
		}
	}
	if w := t.wayOf(m.First); w >= 0 {
		g.ways[w] = true
	} else {
		g.ways[-1] = true
	}
	if len(g.mentions) > 1 && m.name != g.name {
		if fuller(m.name, g.name) {
			if !contains(g.also, g.name) {
				g.also = append(g.also, g.name)
			}
			t.rename(g, m.name, m.food)
		} else if !contains(g.also, m.name) && !fuller(g.name, m.name) {
			g.also = append(g.also, m.name)
		}
	}
	if m.why == commendedFood || t.mayLeaveOut(m) || t.offered(m) || t.opensFor(t.sentence(m.First), m) && t.firstUse(m) {
		g.optional = true
	}
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// fuller reports whether name a says all of b and more.
func fuller(a, b string) bool {
	if len(a) <= len(b) {
		return false
	}
	in := map[string]bool{}
	for _, w := range strings.Fields(strings.ReplaceAll(a, "-", " ")) {
		in[lexicon.Singular(w)] = true
	}
	for _, w := range strings.Fields(strings.ReplaceAll(b, "-", " ")) {
		if !in[lexicon.Singular(w)] {
			return false
		}
	}
	return true
}

// byPiece are kinds of food that are counted as well as weighed.
var byPiece = words("vegetable fruit egg meat poultry fish shellfish bread")

// vesselBehind are words before what an amount comes out of or goes into.
var vesselBehind = words("in into from of")

// setAmount takes over a measured amount, and a second measure of it.
func (t *talk) setAmount(g *ingredient, k int, m *mention, q *quantity) {
	g.amount = q.value()
	g.amountAt = q.Span
	g.told = append(g.told, q.told())
	if q.size != nil {
		g.size = q.size
	}
	for _, i := range m.amounts {
		x := &t.quantities[i]
		if x == q || x.void || (x.kind != measure && x.kind != count && x.kind != length) {
			continue
		}
		if x.ukind == "container" && vesselBehind[t.norm(x.First-1)] && q.ukind != "container" {
			continue // "four tablespoons of water in a jar", "three tablespoons of harissa, out of a jar"
		}
		if x.unit == g.amount.Unit && x.size != nil {
			// "one can of ginger beer, the twelve ounce can"
			g.size = x.size
			g.told = append(g.told, x.told())
			continue
		}
		if x.unit != g.amount.Unit && g.size == nil && (q.ukind == "container" || q.kind == count || x.kind == length) && t.sizeOf(q, x) {
			// "a can of coconut milk, the four hundred mil one", "1 tin (400g)", "about six ounces each"
			g.size = x.value()
			g.told = append(g.told, x.told())
			continue
		}
		if x.kind == length || x.kind == count && x.unit == "" && (x.min < 1 || !byPiece[m.food.Kind] && !plural(t.norm(m.head.Last-1))) {
			continue // nobody counts sugar, and half of a pint is no number of tomatoes
		}
		if x.unit != g.amount.Unit && g.second == nil {
			if x.size != nil && x.unit == "can" {
				g.size = x.size
			}
			g.second = x.value()
			g.told = append(g.told, x.told())
		}
	}
}

// sizeOf reports whether x is the size of each container or piece of q, not
// the same amount in another measure.
func (t *talk) sizeOf(q, x *quantity) bool {
	switch {
	case x.kind == length:
		return q.unit == "piece"
	case !weighs(x):
		return false
	case t.eachHolds(x):
		return true
	case q.ukind != "container":
		return false
	}
	return t.norm(x.First-1) == "the" || x.definite || strings.HasPrefix(t.quoteWord(x.First), "(") || t.toks[x.Last-1].Joined || x.First > q.First && t.heldBy(q, x)
}

// sameAmount reports whether the quantity repeats what the ingredient has.
func (t *talk) sameAmount(e *ingredient, q *quantity) bool {
	for _, a := range []*schema.Quantity{e.amount, e.second} {
		if a != nil && a.Unit == q.unit && a.Min == q.min && a.Max == q.max {
			return true
		}
	}
	if e.amount != nil && e.amount.Unit == q.unit && q.size != nil && e.size == nil {
		e.size = q.size
		e.told = append(e.told, q.told())
		return true
	}
	return false
}

// converts reports whether two measures can be the same amount.
func (t *talk) converts(a *schema.Quantity, q *quantity) bool {
	if a.Unit == q.unit {
		return false
	}
	va, oka := schema.Volume(a.Unit)
	vb, okb := schema.Volume(q.unit)
	if oka && okb {
		x, y := va*a.Max, vb*q.max
		return x/y < 1.2 && y/x < 1.2
	}
	ma, oka := schema.Mass(a.Unit)
	mb, okb := schema.Mass(q.unit)
	if oka && okb {
		x, y := ma*a.Max, mb*q.max
		return x/y < 1.2 && y/x < 1.2
	}
	return true
}

// saidBefore tell that the same is said again.
var saidBefore = listed("i told you", "i said", "like i said", "that's the", "as i said", "we said", "remember", "i mentioned", "in total", "altogether", "all told", "earlier")

// contradicts reports whether a second amount for the same food is said of
// the first, not of more of it.
func (t *talk) contradicts(e *ingredient, m *mention, q *quantity) bool {
	if q.kind != measure || e.amount.Unit != q.unit {
		return false
	}
	s := t.sentence(m.First)
	if t.hasAny(s.First, s.Last, saidBefore) >= 0 {
		return true
	}
	return q.definite && q.min > e.amount.Max
}

// summedUp reports whether an amount is the sum of several foods told after the
// one it was joined to: "two of liquid to one of rice, so, four cups altogether".
func (t *talk) summedUp(m *mention, q *quantity) bool {
	return m.Last <= q.First && t.has(m.Last, q.First, "so", "makes", "that's", "comes to") >= 0 && t.has(q.Last, q.Last+2, "altogether", "in all", "in total") >= 0
}

func (t *talk) conflictAmount(e *ingredient, m *mention, q *quantity) {
	if t.summedUp(m, q) {
		return
	}
	a, b := e.amount.String(), q.value().String()
	t.flags = append(t.flags, schema.Flag{
		Kind: schema.ConflictAmount, Subject: e.name,
		Ask:  "Is it " + a + " of " + e.name + ", or " + b + "?",
		Said: []schema.Said{t.said(q.First, max(q.Last, m.Last)), t.said(e.amountAt.First, e.amountAt.Last)},
	})
}

// addSubstitute adds the mention to the ingredient it can stand in for.
func (t *talk) addSubstitute(m *mention) {
	o := &t.mentions[m.subst]
	g := o.ingr
	if g == nil {
		if o.alias >= 0 {
			g = t.mentions[o.alias].ingr
		}
		if g == nil {
			g = t.lookup(o, t.partOf(o.First), t.dishOf(o.First))
		}
	}
	if g == nil || strings.EqualFold(g.name, m.name) {
		return
	}
	for _, s := range g.subs {
		if s.Name == m.name {
			return
		}
	}
	sub := schema.Substitute{Name: m.name}
	var told []language.Span
	for _, q := range m.amounts {
		if x := &t.quantities[q]; x.kind == measure || x.kind == count && !x.article {
			sub.Amount = x.value()
			told = []language.Span{x.Span}
		}
	}
	sub.Said = t.grounds([]language.Span{m.Span}, told)
	g.subs = append(g.subs, sub)
	m.ingr = nil
}

// finishIngredients drops parts that hold nothing, names the first part, and
// gives every ingredient its id.
func (t *talk) finishIngredients() {
	ids := map[string]int{}
	for _, g := range t.ingredients {
		base := slug(g.name)
		ids[base]++
		g.id = base
		if n := ids[base]; n > 1 {
			g.id = base + "-" + itoa(n)
		}
	}
	t.listedParts()
	t.settleParts()
}

func itoa(n int) string {
	if n == 0 {
		return "0"
	}
	var b []byte
	for ; n > 0; n /= 10 {
		b = append([]byte{byte('0' + n%10)}, b...)
	}
	return string(b)
}

func slug(s string) string {
	var sb strings.Builder
	dash := false
	for _, r := range strings.ToLower(s) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 127 {
			if dash && sb.Len() > 0 {
				sb.WriteByte('-')
			}
			sb.WriteRune(r)
			dash = false
		} else if r != '\'' {
			dash = true
		}
	}
	if sb.Len() == 0 {
		return "ingredient"
	}
	return sb.String()
}

// listedParts gives an ingredient that was listed before any part was opened
// the part it is used in.
func (t *talk) listedParts() {
	for _, g := range t.ingredients {
		if g.part >= 0 || len(t.parts) == 0 {
			continue
		}
		for _, k := range g.mentions[1:] {
			if p := t.partOf(t.mentions[k].First); p >= 0 {
				if t.sents[t.sentOf[t.mentions[g.mentions[0]].First]].kind == listing {
					g.part = p
				}
				break
			}
		}
	}
}

// settleParts keeps parts that own an ingredient; the talk before the first
// head is a part of its own when others were named.
func (t *talk) settleParts() {
	owned := make([]int, len(t.partNames))
	before := 0
	for _, g := range t.ingredients {
		switch {
		case g.part >= 0:
			owned[g.part]++
		case g.part != noPart:
			before++
		}
	}
	keep := make([]int, len(t.partNames))
	var names []string
	for p := range t.partNames {
		keep[p] = -1
		if owned[p] > 0 {
			keep[p] = len(names)
			names = append(names, t.partNames[p])
		}
	}
	main := -1
	if before > 0 && len(names) > 0 {
		end := len(t.toks)
		for _, p := range t.parts {
			if p.name >= 0 && keep[p.name] >= 0 {
				end = min(end, p.tok)
			}
		}
		name := t.mainPart(names, end)
		if t.restMade != "" && !strings.HasSuffix(name, t.restMade) && !contains(names, t.restMade) {
			name = t.restMade
		}
		if name == "" && !contains(names, t.restName) {
			name = t.restName
		}
		if name != "" {
			for i, n := range names {
				if n == name {
					main = i
				}
			}
			if main < 0 {
				names = append(names, name)
				main = len(names) - 1
			}
		}
	}
	for _, g := range t.ingredients {
		switch {
		case g.part >= 0:
			g.part = keep[g.part]
		case g.part == noPart:
			g.part = -1
		default:
			g.part = main
		}
	}
	for i := range t.parts {
		switch n := t.parts[i].name; {
		case n >= 0:
			t.parts[i].name = keep[n]
		case n != noPart:
			t.parts[i].name = main
		}
	}
	if main >= 0 {
		t.parts = append([]partMark{{tok: 0, name: main}}, t.parts...)
	}
	kept := t.parts[:0]
	for _, p := range t.parts {
		if p.name >= 0 {
			kept = append(kept, p)
		}
	}
	t.parts, t.partReach = kept, nil
	t.partNames = names
}

// nounOfDish reports whether the word names a dish, a thing made or a food.
func (t *talk) nounOfDish(w string) bool {
	if dishNoun[w] || dishNoun[lexicon.Singular(w)] || t.lex.Component[w] != nil {
		return true
	}
	if _, ok := t.lex.FoodNamed(w); ok {
		return true
	}
	return t.saidTimes(w, 3) && !leaningWord[w] && !headWords[w] && !determiners[w] && t.lex.Modifiers[w] == lexicon.NoClass && !t.canBeVerb(w)
}

// mainPart names the part told before the first head, at token end: the dough
// or base where the talk calls it so, else the dish itself as the title names
// it.
func (t *talk) mainPart(names []string, end int) string {
	counts := map[string]int{}
	best, n := "", 1
	for i := 0; i < end; i++ {
		k := int(t.madeAt[i])
		if k == 0 {
			continue
		}
		m, _ := t.lex.MadeAt(t.ids, i)
		w := t.phrase(i, i+k)
		if m == nil || !m.Part || notPart[w] || w == "batter" || strings.HasSuffix(w, "'s") || strings.HasSuffix(w, "batter") {
			continue
		}
		counts[w]++
		taken := false
		for _, x := range names {
			taken = taken || x == w || strings.HasSuffix(x, " "+w)
		}
		if counts[w] > n && !taken {
			best, n = w, counts[w]
		}
	}
	title, _, _ := strings.Cut(strings.ToLower(t.dishes[0].title), " with ")
	ws := strings.Fields(title)
	if len(ws) <= 2 && len(ws) > 0 && best == "" && !t.nounOfDish(ws[len(ws)-1]) && !contains(names, ws[len(ws)-1]) && t.saidTimes(ws[len(ws)-1], 2) {
		return ws[len(ws)-1] // "farls", whatever they are
	}
	for n := len(ws); n > 0 && !t.nounOfDish(ws[n-1]) && !(n > 1 && dishNoun[ws[n-2]+"-"+ws[n-1]]); n = len(ws) {
		ws = ws[:len(ws)-1] // "eclairs look hard"
	}
	if best == "dough" && len(ws) > 0 && dishNoun[lexicon.Singular(ws[len(ws)-1])] {
		return lexicon.Singular(ws[len(ws)-1]) + " dough"
	}
	if best != "" {
		return best
	}
	// the last words that no other part has: "chana dal tadka" without its tadka
	whole := len(ws)
	for len(ws) > 1 && contains(names, ws[len(ws)-1]) {
		ws = ws[:len(ws)-1]
		if contains(names, ws[len(ws)-1]) {
			return ws[len(ws)-1]
		}
		if ws[len(ws)-1] == "and" && len(ws) > 1 {
			ws = ws[:len(ws)-1] // "chicken and potatoes" without its potatoes
			whole = len(ws)
		}
	}
	if len(ws) == 0 || contains(names, ws[len(ws)-1]) {
		return ""
	}
	name := ws[len(ws)-1]
	if len(ws) < whole && !dishNoun[name] && !dishNoun[lexicon.Singular(name)] {
		return "" // "cinnamon pecan coffee" without its cake
	}
	for _, n := range names {
		if strings.HasSuffix(n, " "+name) {
			return n // the stew is the beef stew
		}
	}
	if f, ok := t.lex.FoodNamed(name); ok && !f.Dish && f.Kind != "other" {
		// "hake" where the talk turns to "the fish"
		for _, n := range names {
			if g, ok := t.lex.FoodNamed(n); ok && g.Kind == f.Kind {
				return n
			}
		}
	}
	if len(ws) > 1 {
		if f, ok := t.lex.FoodNamed(ws[len(ws)-2] + " " + name); ok && !f.Dish {
			return ws[len(ws)-2] + " " + name
		}
	}
	return name
}
