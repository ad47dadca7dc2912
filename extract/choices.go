package extract

import (
	"strings"
	"sync"

	"quern/internal/lexicon"
)

// A choice is announced before the ways are told: "you can do it in the oven,
// or in the air fryer", "there's a meat one and there's a lentil one". What
// tells its sides apart is of one class: two appliances, two kinds of work, two
// states, two foods, two things made.

// wayClass is what tells the sides of a choice apart.
type wayClass uint8

const (
	stateClass   wayClass = iota // hot, cold
	workClass                    // boiled, fried
	placeClass                   // oven, air fryer
	foodClass                    // beef, lentil
	productClass                 // loaf, muffins
	heldClass                    // in husks, in foil cups
	mixedClass                   // butter or vegan: of two classes
	wayClasses   = iota
)

// wayLabel is what one side of a choice is called by.
type wayLabel struct {
	name string
	keys []string // stems of its words
}

// wayOption is one side of a choice.
type wayOption struct {
	labels [wayClasses]wayLabel
	before [wayClasses]wayLabel // named before the label of the class
	after  [wayClasses]wayLabel // named after it
	words  map[string]bool      // stems of the other words said of it alone
}

// choice is what an announcement offers.
type choice struct {
	first, last int // tokens of the announcement
	counted     bool
	options     []wayOption
}

// wayCounts are words that count ways.
var wayCounts = words("two three both couple different several second number")

// wayPlurals are what a way is called when it is counted.
var wayPlurals = words("ways way roads road methods method versions version options option routes route paths path camps camp schools variations variation approaches choices choice styles sorts kinds types forks manners endings takes fashions")

// roadWords and partsWords tell that the telling divides: "here the road
// splits".
var roadWords, partsWords = words("road roads way ways path paths we recipe"), words("split splits fork forks part parts divide divides")

// wayStates are the states a whole dish is made in.
var wayStates = words("hot cold warm raw cooked chilled frozen quick slow fast thick thin soft crispy crunchy traditional modern sweet savoury savory plain spicy mild vegan vegetarian veggie meaty light rich classic fancy lazy proper fresh dried tinned canned smoked dairy-free gluten-free boozy fizzy")

// wayKin gives the work that a heat or an appliance stands for, by stems, so
// that "the oven one" is the baked one.
var wayKin = map[string][]string{
	"oven": {"bak", "roast"}, "pan": {"fri"}, "skillet": {"fri"}, "wok": {"fri"}, "barbecu": {"grill"},
	"fri": {"pan", "skillet", "wok"}, "bak": {"oven"}, "roast": {"oven"}, "boil": {"pot"}, "poach": {"pot"}, "grill": {"barbecu"},
}

// mostChoices is how many announcements are read at most: the heads of ways are
// looked for in the whole talk after each.
const mostChoices = 30

// choices reads the announcements in the first half of the talk.
func (t *talk) choices() []choice {
	var out []choice
	for k := range t.sents {
		s := &t.sents[k]
		if s.First > len(t.toks)*6/10 || len(out) == mostChoices {
			break
		}
		if s.kind == storing || s.kind == figures || s.recap || t.servingChoice(s) || t.opensForAll(s) {
			continue
		}
		counted := t.countsWays(s)
		if !counted && !t.offersWays(s) && !t.showsWays(s) {
			continue
		}
		if c, ok := t.readChoice(k, counted); ok {
			out = append(out, c)
		}
	}
	return out
}

// opensForAll reports whether the sentence begins with words that speak of every way: "either
// way, toss it with sugar" announces nothing.
func (t *talk) opensForAll(s *sentence) bool {
	i := s.First
	for i < s.Last && headWords[t.norm(i)] {
		i++
	}
	return i < s.Last && (t.norm(i) == "either" || t.norm(i) == "whichever") && s.Len() > 6 || t.bothSubject(s)
}

// wayTellers count or announce ways.
var wayTellers = listed("first way", "first road", "second road", "second way", "one way is", "is one way", "that's one way", "get both", "gets both", "give you both", "giving you both", "teach you both", "you choose", "you decide", "take your pick", "you could just as well", "show you both", "tell you both", "show you the two", "tell you the two", "the pair of them", "one of each", "do both", "doing both", "see both", "making both", "both today", "the two of them", "have a choice", "got a choice", "a choice", "get to choose", "up to you", "depending on", "whether you", "half the family", "other people", "others like")

// countsWays reports whether the sentence says that there is more than one way.
func (t *talk) countsWays(s *sentence) bool {
	if t.hasAny(s.First, s.Last, choiceCue) >= 0 {
		return true
	}
	heads := 0 // "a meat one and a lentil one"
	for i := s.First; i < s.Last; i++ {
		if t.in(aWayNoun, i) && t.norm(i) != "side" && i > s.First && t.labelled(i-1) {
			heads++
		}
		if t.in(aRoad, i) && i+1 < s.Last && partsWords[t.norm(i+1)] {
			return true
		}
		if !t.in(aWayCount, i) {
			continue
		}
		for k := i + 1; k < min(s.Last, i+4) && t.toks[k-1].After == 0; k++ {
			if wayPlurals[t.norm(k)] && plural(t.norm(k)) && !(t.norm(k+1) == "of" && t.mentionStart(k+2) >= 0) {
				return true
			}
		}
	}
	if t.has(s.First, s.Last, "one lot", "one batch", "some of them") >= 0 && t.has(s.First, s.Last, "the other", "the others", "the rest") >= 0 {
		return true
	}
	return heads > 1 || t.twice(s) || t.hasAny(s.First, s.Last, wayTellers) >= 0
}

// twice reports whether the sentence tells two parties or two kinds apart in words alike: "there's the crock,
// and there's jars", "some of you have a tin and some of you don't".
func (t *talk) twice(s *sentence) bool {
	for _, w := range []string{"there's", "some of you", "one kind", "the people who"} {
		if a := t.has(s.First, s.Last, w); a >= 0 {
			if b := t.has(a+1, s.Last, "and "+w); b >= 0 {
				return true
			}
		}
	}
	return false
}

// offersWays reports whether the sentence puts two things side by side that
// may be two ways: only its own words tell whether they are.
func (t *talk) offersWays(s *sentence) bool {
	if k := int(t.sentOf[s.First]); k+1 < len(t.sents) {
		// "Some like it hot. Others like it cold."
		switch o := &t.sents[k+1]; t.norm(o.First) {
		case "or", "other", "others":
			return true
		}
	}
	return t.has(s.First, s.Last, "or", "other", "others", "and there's", "mine", "but you can", "but you could", "but it can", "but they can") >= 0
}

// servingWords speak of serving and keeping.
var servingWords = listed("serve", "eat it", "eat them", "freezing", "freeze", "reheat", "warm it", "storing", "kinds of people", "types of people", "sorts of people")

// showsWays reports whether the cook will show the dish one way and then another: "I'll show it to you in
// the iron pot, and then in the pressure cooker".
func (t *talk) showsWays(s *sentence) bool {
	last := t.offerEnd(s)
	return t.has(s.First, s.Last, "show you", "show it", "show them", "show y'all", "give you it", "give it you") >= 0 && t.has(s.First, last, "and then") >= 0
}

// offerEnd gives where an offer that sentence s begins may end: in talk without marks, where a sentence is a
// guess, some words on.
func (t *talk) offerEnd(s *sentence) int {
	if t.punctuated {
		return s.Last
	}
	return min(len(t.toks), s.Last+25)
}

// servingChoice reports whether the sentence speaks of how the dish is eaten or
// kept, which makes no other dish of it.
func (t *talk) servingChoice(s *sentence) bool {
	return t.hasAny(s.First, s.Last, servingWords) >= 0
}

// readChoice reads the sides of the choice announced in sentence k.
func (t *talk) readChoice(k int, counted bool) (choice, bool) {
	s := &t.sents[k]
	last := k
	for j := k + 1; j < len(t.sents) && j <= k+3; j++ {
		o := &t.sents[j]
		if o.kind == storing || o.kind == figures || t.hasQuantity(o.First, o.Last) && t.measured(o) {
			break
		}
		if t.punctuated && o.para > s.para || !t.punctuated && o.First > s.Last+30 {
			break
		}
		last = j
	}
	c := choice{first: s.First, last: t.sents[last].Last, counted: counted}
	if t.readSides(&c) {
		return c, true
	}
	if k > 0 && (counted || !t.punctuated) {
		// "My mum did hers fried, I do mine baked. You'll see both today."
		c.first = max(t.sents[k-1].First, s.First-30)
		if t.readSides(&c) && (counted || c.parts(placeClass) || c.parts(workClass) || c.parts(stateClass)) {
			return c, true
		}
		// a remark may stand between: "… She isn't wrong. I'll show you both."
		if p := k - 2; counted && t.punctuated && p >= 0 && t.sents[p].para == s.para && t.sents[k-1].Len() <= 6 {
			c.first = max(t.sents[p].First, s.First-40)
			if t.readSides(&c) && (c.parts(placeClass) || c.parts(workClass) || c.parts(stateClass)) {
				return c, true
			}
		}
	}
	return choice{}, false
}

// parts reports whether the sides differ in a label of the class.
func (c *choice) parts(class wayClass) bool { return c.options[0].labels[class].name != "" }

// readSides finds where one side of the choice ends and the other begins: at
// an "or" best of all, then at an "and" or "but", at a sentence's end, at a
// mark.
func (t *talk) readSides(c *choice) bool {
	for rank := 0; rank < 4; rank++ {
		if t.sidesAt(c, rank, false) {
			return true
		}
	}
	for rank := 1; rank < 4; rank++ {
		if t.sidesAt(c, rank, true) {
			return true
		}
	}
	return false
}

// sidesAt does it for the marks of one rank. Foods part the sides at an "or"; elsewhere only
// where nothing better does.
func (t *talk) sidesAt(c *choice, rank int, foods bool) bool {
	for i := c.first + 1; i < c.last; i++ {
		w := t.norm(i)
		ok := false
		switch rank {
		case 0:
			ok = w == "or" && !t.otherwiseOr(i) && (c.counted || t.mayBefore(c.first, i) || t.placeAgain(c.first, i) || t.sameFrame(c.first, i) || allows[t.norm(i+1)] && mayWords[t.norm(i+2)])
		case 1:
			ok = (w == "and" || w == "but") && c.counted || w == "but" && allows[t.norm(i+1)] && mayWords[t.norm(i+2)] || w == "and" && t.norm(i+1) == "then" && t.showsWays(t.sentence(c.first))
		case 2:
			ok = t.sentOf[i] != t.sentOf[i-1] && (c.counted && t.punctuated || otherOpens[w] && t.mayBefore(c.first, i))
		case 3:
			ok = c.counted && t.toks[i-1].After != 0
		}
		if !ok {
			continue
		}
		left, right := max(c.first, i-22), min(c.last, i+18)
		a, b := t.sideBefore(left, i), t.sideAfter(i, right)
		if rank > 0 {
			a.labels[heldClass], b.labels[heldClass] = wayLabel{}, wayLabel{}
		}
		if !parted(&a, &b, rank == 0 || c.counted) || rank > 0 && !foods && a.foodsOnly() || foods && a.foodsOnly() && t.listedFoods(c, i) {
			continue
		}
		c.options = []wayOption{a, b}
		t.ownWords(c, left, i, right)
		return true
	}
	return false
}

// foodsOnly reports whether nothing but foods tells a side apart.
func (o *wayOption) foodsOnly() bool {
	for k := range o.labels {
		if o.labels[k].name != "" && wayClass(k) != foodClass {
			return false
		}
	}
	return true
}

// listedFoods reports whether the "and" at i only joins two foods of one list in a sentence
// that counts no ways: "spinach and white cheese".
func (t *talk) listedFoods(c *choice, i int) bool {
	if t.norm(i) != "and" || t.toks[i-1].After != 0 || t.mentionAt[i-1] < 0 || t.mentionStart(i+1) < 0 && t.mentionStart(i+2) < 0 {
		return false
	}
	return !t.countsWays(t.sentence(i))
}

// placeAgain reports whether the place word after the "or" at i stood before it too:
// "in one loaf tin, or in twelve muffin cups".
func (t *talk) placeAgain(from, i int) bool {
	w := t.norm(i + 1)
	if w != "in" && w != "on" && w != "under" && w != "over" {
		return false
	}
	from = max(from, t.sentence(i).First)
	for k := i - 1; k >= from; k-- {
		if t.norm(k) == w && t.toks[i-1].After != 0 {
			return true
		}
	}
	return false
}

// sameFrame reports whether the same words open both sides of the "or" at i: "you fry them or
// you bake them", "make them soft, or make them nutty".
func (t *talk) sameFrame(from, i int) bool {
	w := t.norm(i + 1)
	if !youWe[w] && w != "make" && w != "do" && w != "have" {
		return false
	}
	from = max(from, t.sentence(i).First)
	for k := i - 1; k >= from && k >= i-9; k-- {
		if t.norm(k) == w {
			return youWe[w] && t.heatWorkAt(k+1) && t.heatWorkAt(i+2) || !youWe[w] && t.norm(k+1) == t.norm(i+2)
		}
	}
	return false
}

// heatWorkAt reports whether a verb of heat stands at token i.
func (t *talk) heatWorkAt(i int) bool {
	class, _, n := t.labelAt(i)
	return n > 0 && class == workClass
}

// madeSo reads how the dish is made at token i, behind "make them" and its like: "make them seedy".
func (t *talk) madeSo(i int) (wayLabel, bool) {
	switch t.norm(i - 1) {
	case "them", "it", "'em", "her", "him":
	default:
		return wayLabel{}, false
	}
	switch t.norm(i - 2) {
	case "make", "do", "have", "like", "want", "eat", "makes", "likes", "wants", "eats":
	default:
		return wayLabel{}, false
	}
	w := t.norm(i)
	if len(w) < 3 || t.toolAt[i] >= 0 || wayStop[w] || leaningWord[w] || subordinators[w] || articleLike[w] || determiners[w] || youWe[w] || leadAdverbs[w] || t.quantityAt[i] >= 0 || t.mentionAt[i] >= 0 && t.joined(i) || strings.HasSuffix(w, "ly") || w == "today" || w == "again" || w == "after" || w == "without" {
		return wayLabel{}, false
	}
	return t.phraseLabel(i, i+1), true
}

// heldIn reads what the dish is held in at token i, behind "in": "in husks", "in the foil cups".
func (t *talk) heldIn(i int) (wayLabel, int) {
	k := i
	for k < len(t.toks) && k < i+2 && (t.norm(k) == "the" || t.norm(k) == "a") {
		k++
	}
	e := k
	for e < len(t.toks) && e < k+2 && t.sentOf[e] == t.sentOf[i] && (e == k || t.toks[e-1].After == 0) && t.thingAt(e) {
		e++
	}
	if e == k {
		return wayLabel{}, 0
	}
	return t.phraseLabel(k, e), e - i
}

// thingAt reports whether the word at i can be the name of what a dish is held in.
func (t *talk) thingAt(i int) bool {
	w := t.norm(i)
	return len(w) > 2 && !wayStop[w] && !leaningWord[w] && !subordinators[w] && !youWe[w] && !others[w] && !determiners[w] && t.quantityAt[i] < 0 && !kin[w] && !t.in(aFinite, i) && !ofDay[w] && w != "case" && w != "front" && w != "winter" && w != "summer" && w != "half"
}

// allows are words after "but" that allow another way: "but you can do them in
// the oven".
var allows = words("you it they these that")

// otherOpens are words that open the other side of a choice.
var otherOpens = words("or other others")

// mayWords leave the cook a choice.
var mayWords = words("can could may might whether either like prefer want wants works choose normally usually")

// mayBefore reports whether the words before token i leave a choice.
func (t *talk) mayBefore(from, i int) bool {
	for k := max(from, i-18); k < i; k++ {
		if mayWords[t.norm(k)] {
			return true
		}
	}
	return false
}

// measured reports whether the sentence gives a food its amount.
func (t *talk) measured(s *sentence) bool {
	for i := s.First; i < s.Last; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind == measure && t.foodAfter(&t.quantities[q]) >= 0 {
			return true
		}
	}
	return false
}

// otherwiseOr reports whether the "or" at i warns or corrects instead of
// offering: "or it burns", "or rather".
func (t *talk) otherwiseOr(i int) bool {
	switch t.norm(i + 1) {
	case "rather", "so", "else", "something", "whatever", "they'll", "it'll", "it", "you'll", "they", "two", "three", "more", "less":
		return true
	}
	return false
}

// labelAt reads the label of some class at token i and its length.
func (t *talk) labelAt(i int) (wayClass, wayLabel, int) {
	w := t.norm(i)
	for _, f := range t.verbPhrase(i) {
		if f.Action.Kind == "heat" {
			return workClass, workLabel(f.Action), 2
		}
	}
	if t.in(aWayState, i) && !t.toolBegins(i) {
		if m := t.mentionAt[i]; m < 0 || t.mentions[m].food.Dish || t.mentions[m].head.First > i {
			if f := t.mentionStart(i + 1); f >= 0 && t.joined(i) && !t.mentions[f].food.Dish {
				n := t.mentions[f].head.Last - i // "tinned beans"
				return foodClass, t.phraseLabel(i, i+n), n
			}
			return stateClass, t.phraseLabel(i, i+1), 1
		}
	}
	if (w == "tin" || w == "tins") && t.toolAt[i] < 0 && t.quantityAt[i] >= 0 && t.norm(i+1) != "of" && t.mentionStart(i+1) < 0 && t.has(max(0, i-4), i, "in", "into") >= 0 {
		return placeClass, t.phraseLabel(i, i+1), 1 // "in the one big tin"
	}
	if x := t.toolAt[i]; x >= 0 && t.tools[x].First <= i {
		e := &t.tools[x]
		switch e.eq.Kind {
		case "appliance", "heat", "pan", "oven-dish", "tin", "jar":
			if name, ok := strings.CutSuffix(e.eq.Name, " tin"); ok && e.eq.Kind == "tin" && (dishNoun[name] || dishNoun[lexicon.Singular(name)]) {
				return productClass, wayLabel{name, []string{stem(name)}}, e.Last - i // "in a loaf tin"
			}
			if e.eq.Name != "fridge" && e.eq.Name != "freezer" {
				return placeClass, t.phraseLabel(i, e.Last), e.Last - i
			}
		}
		return 0, wayLabel{}, 0
	}
	for _, f := range t.verbs(i) {
		if f.Action.Kind == "heat" && !generalWork[f.Action.Verb] && f.Form != lexicon.Third {
			return workClass, workLabel(f.Action), 1
		}
	}
	if l, ok := t.doneBy(i); ok {
		return workClass, l, 1
	}
	if m := t.mentionAt[i]; m >= 0 {
		x := &t.mentions[m]
		if x.food.Dish {
			return productClass, t.phraseLabel(i, max(i+1, x.head.Last)), max(1, x.head.Last-i)
		}
		return foodClass, t.phraseLabel(i, max(i+1, x.Last)), max(1, x.Last-i)
	}
	if n := int(t.madeAt[i]); n > 0 && !unnamed[w] {
		return productClass, t.phraseLabel(i, i+n), n
	}
	if t.isDishNoun(i) || t.in(wayShape, i) {
		return productClass, t.phraseLabel(i, i+1), 1
	}
	return 0, wayLabel{}, 0
}

// doneBy reads the work at token i of somebody named before it: "my mother fries, my wife bakes".
func (t *talk) doneBy(i int) (wayLabel, bool) {
	if i == 0 || t.toks[i-1].After != 0 || !kin[t.norm(i-1)] && !others[t.norm(i-1)] {
		return wayLabel{}, false
	}
	for _, f := range t.lex.Verbs(t.norm(i)) {
		if f.Form == lexicon.Third && f.Action.Kind == "heat" && !generalWork[f.Action.Verb] {
			return workLabel(f.Action), true
		}
	}
	return wayLabel{}, false
}

// toolBegins reports whether the name of a tool begins at token i: "slow
// cooker".
func (t *talk) toolBegins(i int) bool {
	x := t.toolAt[i]
	return x >= 0 && t.tools[x].First == i
}

// generalWork are verbs that every way has.
var generalWork = words("cook heat do make warm melt brown finish")

// wayShapes are what a mixture can be made up into.
var wayShapes = words("slab rounds round balls logs bars tray loaf patties fingers squares farls wedges twists knots")

func (t *talk) phraseLabel(a, b int) wayLabel {
	l := wayLabel{}
	for i := a; i < b; i++ {
		if articleLike[t.norm(i)] || determiners[t.norm(i)] {
			continue
		}
		if l.name != "" {
			if t.toks[i].Joined {
				l.name += "-"
			} else {
				l.name += " "
			}
		}
		l.name += t.norm(i)
		l.keys = append(l.keys, stem(t.norm(i)))
	}
	return l
}

// pastForms gives the participle of every action: of several the shortest, and
// of two words only where there is no other.
var pastForms = sync.OnceValue(func() map[*lexicon.Action]string {
	lex, out := lexicon.Load(), map[*lexicon.Action]string{}
	lex.EachVerb(func(w string, fs []lexicon.VerbForm) {
		for _, f := range fs {
			if old := out[f.Action]; f.Form == lexicon.Past && (old == "" || len(w) < len(old) || len(w) == len(old) && w < old) {
				out[f.Action] = w
			}
		}
	})
	single := make(map[*lexicon.Action]bool, len(out))
	for a := range out {
		single[a] = true
	}
	for w, fs := range lex.Phrases {
		for _, f := range fs {
			w = strings.ReplaceAll(w, " ", "-")
			if old := out[f.Action]; f.Form == lexicon.Past && !single[f.Action] && (old == "" || w < old) {
				out[f.Action] = w
			}
		}
	}
	return out
})

// workLabel names a way by its work: "boiled", "pan-fried".
func workLabel(a *lexicon.Action) wayLabel {
	best := pastForms()[a]
	if best == "" {
		best = a.Verb
	}
	l := wayLabel{name: best}
	for _, w := range strings.FieldsFunc(a.Verb, func(r rune) bool { return r == '-' || r == ' ' }) {
		l.keys = append(l.keys, stem(w))
	}
	return l
}

// sideBefore reads the labels of the side that ends at token i: of each class
// the nearest.
func (t *talk) sideBefore(from, i int) wayOption {
	var o wayOption
	for k := from; k < i; {
		class, l, n := t.labelAt(k)
		if h, m := t.sideOwn(k, &o); m && n == 0 {
			o.before[stateClass], o.labels[stateClass] = o.labels[stateClass], h
		}
		if n > 0 && k+n <= i {
			o.before[class], o.labels[class] = o.labels[class], l
			if class == foodClass && t.isDishNoun(k+n-1) { // rolls are a food, and made
				o.labels[productClass] = t.phraseLabel(k+n-1, k+n)
			}
		}
		k += max(1, n)
	}
	return o
}

// sideOwn reads at token k what no table has, what a dish is made like and what it's held in: the
// first is given, the second put among the labels.
func (t *talk) sideOwn(k int, o *wayOption) (wayLabel, bool) {
	if w := t.norm(k); w == "in" {
		if l, n := t.heldIn(k + 1); n > 0 && o.labels[heldClass].name == "" {
			o.labels[heldClass] = l
		}
	}
	return t.madeSo(k)
}

// sideAfter reads the labels of the side that begins at token i.
func (t *talk) sideAfter(i, to int) wayOption {
	var o wayOption
	for k := i; k < to; {
		class, l, n := t.labelAt(k)
		if h, m := t.sideOwn(k, &o); m && n == 0 && o.labels[stateClass].name == "" {
			o.labels[stateClass] = h
		}
		if n > 0 && o.labels[class].name == "" {
			o.labels[class] = l
		} else if n > 0 && o.after[class].name == "" {
			o.after[class] = l
		}
		if n > 0 && class == foodClass && t.isDishNoun(k+n-1) && o.labels[productClass].name == "" {
			o.labels[productClass] = t.phraseLabel(k+n-1, k+n)
		}
		k += max(1, n)
	}
	return o
}

// parted reports whether two sides differ in a label of the same class; labels
// that both have are dropped. Foods part the sides only where a choice is
// plainly made.
func parted(a, b *wayOption, plainly bool) bool {
	ok := false
	for c := range a.labels {
		x, y := &a.labels[c], &b.labels[c]
		if x.name == "" || y.name == "" {
			continue
		}
		if p := a.before[c]; p.name != "" && strings.Join(x.keys, " ") == strings.Join(y.keys, " ") {
			*x = p // "cold in a pitcher, when the place is hot, or hot"
		}
		if strings.Join(x.keys, " ") == strings.Join(y.keys, " ") || lexicon.Singular(x.name) == lexicon.Singular(y.name) {
			*x, *y = wayLabel{}, wayLabel{} // both have it
			continue
		}
		if wayClass(c) == foodClass && !plainly {
			continue
		}
		x.keys, y.keys = without(x.keys, y.keys), without(y.keys, x.keys)
		ok = true
	}
	if ok {
		for c := range a.labels {
			if a.labels[c].name == "" || b.labels[c].name == "" {
				a.labels[c], b.labels[c] = wayLabel{}, wayLabel{} // of one side alone
			}
		}
	}
	if ok || !plainly {
		return ok
	}
	// "with butter or vegan": one label on either side, of two classes
	x, y := a.only(), b.only()
	if x < 0 || y < 0 {
		return false
	}
	a.labels[mixedClass], b.labels[mixedClass] = a.labels[x], b.labels[y]
	return true
}

// without gives the words of a that b lacks, all of a where none is left.
func without(a, b []string) []string {
	var out []string
	for _, w := range a {
		if !contains(b, w) {
			out = append(out, w)
		}
	}
	if len(out) == 0 {
		return a
	}
	return out
}

// only gives the class of the side's single label, -1 where it has none or more.
func (o *wayOption) only() int {
	class := -1
	for c := range o.labels {
		if o.labels[c].name != "" {
			if class >= 0 {
				return -1
			}
			class = c
		}
	}
	return class
}

// ownWords gathers the words said of one side alone, under which the way may be
// told as well: "black bean for Kaylee" is told as "Kaylee's way".
func (t *talk) ownWords(c *choice, left, mid, right int) {
	gather := func(a, b int) map[string]bool {
		m := map[string]bool{}
		for i := a; i < b; i++ {
			if w := t.norm(i); (!wayStop[w] || w == "little") && t.quantityAt[i] < 0 && len(w) > 2 {
				m[stem(w)] = true
			}
		}
		return m
	}
	a, b := gather(left, mid), gather(mid, right)
	c.options[0].words, c.options[1].words = map[string]bool{}, map[string]bool{}
	for w := range a {
		if !b[w] {
			c.options[0].words[w] = true
		}
	}
	for w := range b {
		if !a[w] {
			c.options[1].words[w] = true
		}
	}
}

// takes gives the side of the choice that the words (stems) of a head take up,
// and the class of the label they were found in; -1 when no side or both. A
// food's name is taken up whole unless the head says that it names a way:
// "black pepper" is not the black bean one.
func (c *choice) takes(stems []string, says bool) (int, int) {
	best, class, strength := -1, -1, 0
	for n := range c.options {
		o := &c.options[n]
		st, cl := 0, -1
		for _, w := range stems {
			for k := range o.labels {
				if !says && (wayClass(k) == foodClass || wayClass(k) == mixedClass) && !allOf(stems, o.labels[k].keys) {
					continue
				}
				for _, key := range o.labels[k].keys {
					hit := key == w
					for _, x := range wayKin[key] {
						hit = hit || x == w && st < 2
					}
					if !hit {
						continue
					}
					if st < 3 {
						st, cl = 3, k
					}
				}
			}
			if o.words[w] && st < 2 {
				st = 2
			}
		}
		switch {
		case st > strength:
			best, class, strength = n, cl, st
		case st == strength && st > 0:
			best = -1
		}
	}
	return best, class
}

// allOf reports whether all of the words of b are in a.
func allOf(a, b []string) bool {
	for _, w := range b {
		if !contains(a, w) {
			return false
		}
	}
	return true
}
