package extract

import (
	"slices"
	"sort"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// partMark opens a part of the dish at a token.
type partMark struct {
	tok  int
	name int // index in partNames
	span language.Span
}

// dish is one recipe of the talk: from this token on, until the next.
type dish struct {
	tok   int
	span  language.Span
	title string
	told  bool // it was named and told which one it is
}

var headWords = words("so now then okay ok right next and well first oh alright anyway anyhow also but um uh yeah meantime meanwhile second last finally go on ah hey there")

// measuresFoods reports whether a sentence gives amounts of several foods, or the number
// of one that it opens with: then it lists them and names no dish.
func (t *talk) measuresFoods(s *sentence) bool {
	n := 0
	for i := s.First; i < s.Last; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].First == i {
			switch x := &t.quantities[q]; x.kind {
			case measure:
				if x.of && t.mentionStart(x.Last) >= 0 {
					return true
				}
				n++
			case vague:
				n++
			case count:
				if t.mentionStart(x.Last) >= 0 || t.mentionAt[max(s.First, i-1)] >= 0 {
					n++
				}
			}
		}
	}
	here := t.mentionsIn(s.First, s.Last)
	if n != 1 || len(here) != 1 || s.Len() >= 9 {
		return n > 1
	}
	m := &t.mentions[here[0]]
	return t.quantityAt[s.First] < 0 || !m.food.Dish && !m.mixed && t.numbered(m.First)
}

// openingShare is the share of a talk, one in so many, in which a dish is named by its bare name.
const openingShare = 5

// atOpening reports whether the sentence stands where a dish is named before it is made; later a
// name alone is rather a food that goes in.
func (t *talk) atOpening(s *sentence) bool { return s.First <= len(t.toks)/openingShare }

// numbered reports whether a number of what is named at token i stands right before it.
func (t *talk) numbered(i int) bool {
	if i == 0 || t.quantityAt[i-1] < 0 {
		return false
	}
	q := &t.quantities[t.quantityAt[i-1]]
	return q.kind == count && !q.article && q.Last == i
}

// markParts finds where the cook turns to a component of the dish ("For the
// icing", "Filling.", "now the sauce") and what it is called.
func (t *talk) markParts() {
	t.findDishes()
	t.findTitle()
	for d := range t.dishes {
		// the words of the title are no ingredients yet
		if sp := t.dishes[d].span; sp.Last > sp.First {
			s := t.sentence(sp.First)
			if len(t.actionsIn(s)) == 0 && sp.First-s.First <= 8 && !t.measuresFoods(s) && (t.atOpening(s) || t.hasAny(s.First, s.Last, namingCue) >= 0 || t.dishNamed(s.First, s.Last)) {
				s.naming = true
			}
		}
	}
	t.declareParts()
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing || s.kind == figures || s.kind == aside && s.Len() > 6 {
			continue
		}
		a, b, ok := t.partHead(s)
		if s.naming && (!ok || a-s.First < 2 || s.First > len(t.toks)/3) && t.has(s.First, s.Last, "start", "begin", "for the", "make the") < 0 {
			continue
		}
		if !ok && !t.resumes(k) {
			a, b, ok = t.foodHead(k)
		}
		if !ok {
			a, b, ok = t.namedHead(k)
		}
		if !ok {
			if !t.punctuated && !s.naming {
				t.innerHeads(k, 0)
			}
			continue
		}
		t.addPart(a, a, b)
		t.closePart(k)
		if !t.punctuated {
			t.innerHeads(k, b)
		}
	}
	sort.SliceStable(t.parts, func(i, j int) bool { return t.parts[i].tok < t.parts[j].tok })
	t.heads = slices.Clone(t.parts)
}

// orderedOnly reports whether the word [a, b) that could head a part is only what to do now: "now
// wrap", "dip, roll in coconut". Of a glaze or a rub it is told what goes in.
func (t *talk) orderedOnly(s *sentence, k, a, b int) bool {
	if !t.punctuated || b-a != 1 || a > s.First && (t.in(aDeterminer, a-1) || t.norm(a-1) == "for") {
		return false
	}
	base := false
	for _, f := range t.verbs(a) {
		base = base || f.Form == lexicon.Base
	}
	if !base {
		return false
	}
	for n := k; n < len(t.sents) && n <= k+3 && t.sents[n].para == s.para; n++ {
		if acts := t.actionsIn(&t.sents[n]); n == k && len(acts) > 1 {
			return true
		}
		if t.measuredFoods(&t.sents[n]) > 0 {
			return false
		}
	}
	return true
}

// turnCues lead to a component in talk without marks, wherever the sentence was
// cut.
var turnCues = cues("time for the", "onto the", "on to the", "now the", "now for the", "next the", "next up the", "next up is the", "next is the", "let's make the", "let's do the", "make the", "start with the", "starting with the", "begin with the", "for the", "for my", "so the", "and then the", "and now the", "meanwhile the", "moving on to the", "back to the", "then the", "last the", "and the",
	"now a", "now your", "now my", "now for my", "now for your", "now for a", "next a", "next my", "next your", "for your", "at the end a", "at the end the", "at the end my", "let's make a", "let's make our", "make our", "make your", "meanwhile a", "meanwhile your", "meanwhile my", "in the meantime the", "in the meantime a")

// innerHeads finds components that an unmarked sentence turns to after token
// from.
func (t *talk) innerHeads(k, from int) {
	s := &t.sents[k]
	for i := max(s.First+1, from); i < s.Last; i++ {
		n := t.cueAt(turnCues, i, s.Last)
		if n == 0 {
			continue
		}
		e := t.component(i + n)
		if e == 0 || e >= len(t.toks) {
			continue
		}
		plainAnd := t.norm(i) == "and" && t.norm(i+1) == "the" || t.norm(i) == "so" && t.norm(i+1) == "the" || t.norm(i) == "then"
		if t.introduced(e) || !plainAnd && t.clauseBegins(e) {
			t.addPart(i+n, i+n, e)
			i = e
		}
	}
}

// putThere reports whether a thing is put somewhere in the words before token j:
// "spoon that onto the".
func (t *talk) putThere(s *sentence, j int) bool {
	for i := j - 1; i >= s.First; i-- {
		if t.norm(i) == "that" || t.norm(i) == "it" || t.norm(i) == "them" || t.verbAt(i) && ends[t.actions[t.actionAt[i]].base] {
			return true
		}
	}
	return false
}

// introduced reports whether the words at token e, after a component's name, say
// that it comes now or is no trouble to make: "is next", "is dead easy", but not
// "is really thick".
func (t *talk) introduced(e int) bool {
	if t.norm(e) != "is" {
		return false
	}
	switch t.norm(e + 1) {
	case "dead", "really", "super", "very", "so", "pretty":
		e++
	}
	switch t.norm(e + 1) {
	case "next", "this", "easy", "simple", "just", "quick", "straightforward", "basic":
		return true
	}
	return false
}

// clauseBegins reports whether a new clause begins at token i of talk without
// marks: an amount, an instruction, a subject.
func (t *talk) clauseBegins(i int) bool {
	if i >= len(t.toks) {
		return true
	}
	if t.quantityBegins(i) && t.quantities[t.quantityAt[i]].kind != duration {
		return true
	}
	if a := t.actionAt[i]; a >= 0 && t.actions[a].mood == imperative {
		return true
	}
	switch t.norm(i) {
	case "you", "i", "we", "we're", "i'm", "you're", "you'll", "i've", "let's":
		return true
	}
	return false
}

// resumings go on with what was left.
var resumings = listed("where was i", "where were we", "was telling", "was saying", "were saying", "as i said", "got distracted", "lost my thread", "back to it")

// resumes reports whether the cook only finds back to what was being done: "Sorry,
// I was telling something. The meat."
func (t *talk) resumes(k int) bool {
	if k == 0 {
		return false
	}
	p := &t.sents[k-1]
	return t.hasAny(p.First, p.Last, resumings) >= 0
}

// namedHead finds a thing that the table doesn't know, named alone at the start
// of a paragraph and spoken of elsewhere as "the" thing: "Spinners."
func (t *talk) namedHead(k int) (int, int, bool) {
	s := &t.sents[k]
	if !t.punctuated || !t.opensPara(k) || k+1 >= len(t.sents) {
		return 0, 0, false
	}
	i := s.First
	for i < s.Last && (headWords[t.norm(i)] || t.norm(i) == "the" || t.norm(i) == "my") {
		i++
	}
	articled := i > s.First && (t.norm(i-1) == "the" || t.norm(i-1) == "my")
	if s.Last-i != 1 || t.mentionAt[i] >= 0 || t.toolAt[i] >= 0 || t.quantityAt[i] >= 0 || t.verbs(i) != nil || headWords[t.norm(i)] {
		return 0, 0, false
	}
	w := t.norm(i)
	if len(w) < 4 || t.lex.Modifiers[w] != lexicon.NoClass || strings.HasSuffix(w, "ly") {
		return 0, 0, false
	}
	the, other := false, 0
	for j := t.has(0, len(t.toks), w); j >= 0; j = t.has(j+1, len(t.toks), w) {
		if j == i {
			continue
		}
		other++
		if t.toks[j].Cap && j > 0 && t.joined(j-1) {
			return 0, 0, false // somebody's name
		}
		the = the || t.norm(j-1) == "the" && j > i
	}
	foods, measured := false, 0
	for n := k + 1; n < len(t.sents) && n <= k+3 && t.sents[n].para == s.para; n++ {
		foods = foods || len(t.mentionsIn(t.sents[n].First, t.sents[n].Last)) > 0
		measured += t.measuredFoods(&t.sents[n])
	}
	return i, i + 1, the && foods && (other >= 2 || articled && measured > 1)
}

// ends are verbs that bring a part to the rest of the dish.
var ends = words("brush pour drizzle spoon spread toss smear rub dollop baste scatter slather coat")

// closePart finds where the part opened in sentence k is brought to foods
// named before it ("brush that all over the chicken"): from the next sentence
// on the main part goes on.
func (t *talk) closePart(k int) {
	open := t.sents[k].First
	for j := k + 1; j < len(t.sents) && j <= k+16; j++ {
		s := &t.sents[j]
		if _, _, ok := t.partHead(s); ok {
			return
		}
		if t.backToMain(j, open) {
			t.parts = append(t.parts, partMark{tok: s.First, name: -1})
			return
		}
		for _, a := range t.actionsIn(s) {
			act := &t.actions[a]
			if !ends[act.base] || act.mood == negative {
				continue
			}
			if t.has(act.tok, s.Last, "over", "on", "onto", "all", "with", "in", "through") < 0 {
				continue
			}
			for _, m := range t.mentionsIn(act.tok, s.Last) {
				f := t.mentions[m].food
				inside, before := false, false
				for x := max(0, m-10*inMind); x < m; x++ {
					o := &t.mentions[x]
					if o.negated || o.mixed || related(f, o.food) == 0 {
						continue
					}
					if o.First < open {
						before = before || len(o.amounts) > 0 || t.sents[t.sentOf[o.First]].kind == instruction
					} else {
						inside = true
					}
				}
				if before && !inside && j+1 < len(t.sents) {
					t.parts = append(t.parts, partMark{tok: t.sents[j+1].First, name: -1})
					return
				}
			}
		}
	}
}

// backToMain reports whether sentence j begins a paragraph with work on a food told before token open, by an article as
// one that is known: "Grill the steak four minutes a side."
func (t *talk) backToMain(j, open int) bool {
	s := &t.sents[j]
	if !t.opensPara(j) || s.kind != instruction || t.measuredFoods(s) > 0 {
		return false
	}
	acts, foods := t.actionsIn(s), t.mentionsIn(s.First, s.Last)
	if len(acts) == 0 || len(foods) == 0 || !cooksFood[t.actions[acts[0]].base] || t.actions[acts[0]].mood != imperative {
		return false
	}
	f := &t.mentions[foods[0]]
	if !f.definite || f.First < t.actions[acts[0]].tok {
		return false
	}
	before := false
	for x := range t.mentions {
		o := &t.mentions[x]
		if o.First >= s.First {
			break
		}
		if o.negated || o.mixed || related(f.food, o.food) == 0 {
			continue
		}
		if o.First >= open {
			return false
		}
		before = before || len(o.amounts) > 0 || t.measuredHere(o) || t.sents[t.sentOf[o.First]].kind == instruction
	}
	return before
}

// cooksFood are verbs of heat, done to what a dish is mostly made of.
var cooksFood = words("grill fry roast bake sear brown boil poach steam barbecue char")

// foodHead finds a food named alone as the next thing to make: "The meat.",
// "Rice first", when no amount follows at once. The food must be one that
// carries a dish, or be named in the title.
func (t *talk) foodHead(k int) (int, int, bool) {
	s := &t.sents[k]
	i := s.First
	for i < s.Last && i < s.First+5 && (t.in(aHeadWord, i) || t.in(aDeterminer, i) && t.norm(i) != "half") {
		i++
	}
	if s.Last-i <= 2 && i < s.Last && t.mentionStart(i) < 0 && t.madeAt[i] == 0 && t.titleWord(i) {
		return i, s.Last, true // "Zobo."
	}
	m := t.mentionStart(i)
	if m < 0 && i < s.Last && t.madeAt[i] == 0 {
		// ", the beef." at the end
		for b := s.Last - 1; b > s.First && b >= s.Last-3; b-- {
			if t.closingThe(s, b) {
				m = t.mentionStart(b + 1)
				i = b + 1
			}
		}
	}
	if m < 0 {
		return 0, 0, false
	}
	mm := &t.mentions[m]
	e := mm.head.Last
	first := e < s.Last && (t.norm(e) == "first" || t.norm(e) == "next" || t.norm(e) == "now" || t.norm(e) == "then") && (e+1 >= s.Last || t.toks[e].After != 0 || t.norm(e+1) == "because" || t.norm(e+1) == "and" || t.norm(e+1) == "so")
	turn := e < s.Last && t.toks[e-1].After != 0 && (t.norm(e) == "because" || t.norm(e) == "since") && t.norm(i-1) == "the" && t.titleWord(e-1)
	if !(e >= s.Last || first || turn) || len(mm.amounts) > 0 || mm.negated || mm.mixed {
		return 0, 0, false
	}
	inTitle := strings.Contains(" "+strings.ToLower(t.dishes[t.dishOf(i)].title)+" ", t.phrase(mm.head.First, mm.head.Last)) && len(t.dishes[t.dishOf(i)].title) > 0
	switch mm.food.Kind {
	case "meat", "poultry", "fish", "shellfish", "grain":
	case "bread", "pasta", "legume", "baking", "other":
		if !first && !inTitle {
			return 0, 0, false
		}
	default:
		if mm.definite && e >= s.Last && s.Len() <= 4 && cookedPart(mm) {
			return mm.First, e, true // "The pickled onions."
		}
		// "The butter!" where the title says "with garlic butter"
		if !t.withPart(mm) && !(turn || (first || mm.definite && s.Len() <= 3) && t.titleWord(e-1)) {
			return 0, 0, false
		}
	}
	// an ingredient's topic has its amount next: "Now the chicken. Eight thighs",
	// but where the title names several things, each is one of them
	if !(inTitle && t.compound(t.dishOf(i)) && t.opensPara(k)) && k+1 < len(t.sents) {
		n := &t.sents[k+1]
		for j := n.First; j < n.Last && j < n.First+4; j++ {
			if q := t.quantityAt[j]; q >= 0 {
				switch t.quantities[q].kind {
				case measure, count, vague:
					o := t.foodAfter(&t.quantities[q])
					if o < 0 && t.quantities[q].kind == count {
						continue
					}
					if o < 0 || related(t.mentions[o].food, mm.food) > 0 || !inTitle || sameClass(t.mentions[o].food.Kind, mm.food.Kind) {
						return 0, 0, false
					}
				}
			}
		}
	}
	return mm.head.First, e, true
}

// compound reports whether the title of dish d names several things on a plate:
// "prawns with peri-peri sauce and yellow rice".
func (t *talk) compound(d int) bool {
	title := strings.ToLower(t.dishes[d].title)
	if strings.Contains(title, " with ") || strings.Count(title, " and ") > 0 && len(strings.Fields(title)) > 3 {
		return true
	}
	// "Prawns, peri-peri sauce, yellow rice."
	sp := t.dishes[d].span
	if sp.Len() == 0 {
		return false
	}
	s := t.sentence(sp.First)
	return t.marked(s.First, s.Last-1) && t.onlyNames(s.First, s.Last)
}

// opensPara reports whether sentence k begins a paragraph.
func (t *talk) opensPara(k int) bool { return k == 0 || t.sents[k-1].para != t.sents[k].para }

var leaningWord = words("with and or of in on for to from at by")

// titleWord reports whether the word at i stands in a dish's title.
func (t *talk) titleWord(i int) bool {
	w := lexicon.Singular(t.norm(i))
	if leaningWord[w] || determiners[w] {
		return false
	}
	for d := range t.dishes {
		for _, x := range strings.Fields(strings.ToLower(t.dishes[d].title)) {
			if lexicon.Singular(x) == w && len(w) > 2 {
				return true
			}
		}
	}
	return false
}

// cookedPart reports whether the food is named with what is done to it.
func cookedPart(m *mention) bool {
	ws := strings.Fields(m.name)
	for _, w := range append(append([]string{}, m.prep...), ws[0]) {
		switch w {
		case "pickled", "roasted", "roast", "fried", "crispy", "candied", "caramelised", "caramelized", "toasted", "poached", "stewed", "mashed", "glazed", "marinated", "spiced", "whipped":
			return true
		}
	}
	return false
}

// closingThe reports whether a "the" at token b opens the last words of a
// sentence that names no food before: "In a mug, the sauce."
func (t *talk) closingThe(s *sentence, b int) bool {
	return t.norm(b) == "the" && t.toks[b-1].After != 0 && len(t.mentionsIn(s.First, b)) == 0
}

// withPart reports whether the title names something made of the food after
// "with": the food then stands for that part.
func (t *talk) withPart(m *mention) bool {
	_, with, ok := strings.Cut(strings.ToLower(t.dishes[t.dishOf(m.First)].title), " with ")
	if !ok {
		return false
	}
	ws := strings.Fields(with)
	return len(ws) >= 2 && ws[len(ws)-1] == t.norm(m.head.Last-1)
}

// partCounts announce parts.
var partCounts = listed("two parts", "three parts", "four parts", "two components", "three components", "four components", "three things", "two things to", "two bits", "three bits", "two jobs", "three jobs", "two stages", "three stages", "three elements", "two elements", "four things")

// declareParts reads an announced list: "three components, sponge, filling,
// glaze", "three things to do, the paste, the fried shallots and the soup".
func (t *talk) declareParts() {
	for k := range t.sents {
		s := &t.sents[k]
		if s.First > len(t.toks)/4 {
			return
		}
		i := t.hasAny(s.First, s.Last, partCounts)
		if i < 0 {
			continue
		}
		end := s.Last
		if k+1 < len(t.sents) && end-i < 6 {
			end = t.sents[k+1].Last
		}
		var names [][2]int
		from := -1
		flush := func(b int) {
			if from >= 0 && b > from && b-from <= 3 {
				names = append(names, [2]int{from, b})
			}
			from = -1
		}
		for j := i + 2; j < end; j++ {
			w := t.norm(j)
			switch {
			case w == "and" || w == "then":
				flush(j)
				continue
			case determiners[w] || articleLike[w]:
				flush(j)
				continue
			}
			if t.mentionAt[j] < 0 && t.madeAt[j] == 0 && t.dishAt(j) == 0 && t.lex.Modifiers[w] == 0 {
				from = -1
				continue
			}
			if from < 0 {
				from = j
			}
			if t.toks[j].After != 0 {
				flush(j + 1)
			}
		}
		flush(end)
		if len(names) < 2 {
			continue
		}
		for _, n := range names {
			t.declared = append(t.declared, strings.Fields(t.partName(n[0], n[1])))
		}
		t.declaredEnd = end
		return
	}
}

// declaredAt gives the length of an announced part's name at i.
func (t *talk) declaredAt(i int) int {
	if i < t.declaredEnd {
		return 0
	}
	for _, ws := range t.declared {
		if len(ws) > 0 && t.is(i, ws...) {
			return len(ws)
		}
		if len(ws) > 1 && t.norm(i) == ws[len(ws)-1] {
			return 1
		}
	}
	return 0
}

func (t *talk) addPart(tok, a, b int) {
	name := t.partName(a, b)
	if _, with, ok := strings.Cut(strings.ToLower(t.dishes[t.dishOf(a)].title), " with "); ok && len(strings.Fields(name)) == 1 && strings.HasSuffix(with, " "+name) && len(strings.Fields(with)) <= 3 {
		if first, rest, _ := strings.Cut(with, " "); articleLike[first] {
			with = rest // "with a raita"
		}
		name = with // "the butter" of "flatbreads with garlic butter"
	}
	if name == "" {
		return
	}
	idx := -1
	for i, n := range t.partNames {
		if n == name || strings.HasSuffix(n, " "+name) || strings.HasSuffix(name, " "+n) {
			idx = i
			if len(name) > len(n) {
				t.partNames[i] = name
			}
		}
	}
	if idx < 0 {
		idx = t.partIndex(name)
	}
	t.parts = append(t.parts, partMark{tok: tok, name: idx, span: language.Span{First: a, Last: b}})
}

// partIndex gives the place of the part's name, which is added if it's new.
func (t *talk) partIndex(name string) int {
	for i, n := range t.partNames {
		if n == name {
			return i
		}
	}
	t.partNames = append(t.partNames, name)
	return len(t.partNames) - 1
}

// partName gives the words of a part without articles and praise.
func (t *talk) partName(a, b int) string {
	if n := t.spotAt(a); n > 0 && a+n == b {
		return spots[t.norm(a)]
	}
	if b == a+1 && t.norm(a) == "top" {
		return spots["top"]
	}
	if t.norm(a) == "what" && (t.norm(a+1) == "goes" || t.norm(a+1) == "is" || t.norm(a+1) == "will") || t.norm(a) == "what's" {
		return spots[t.norm(b-1)]
	}
	if b == a+1 && colours[t.norm(a)] && t.mentionAt[a] < 0 {
		return t.colourName(t.norm(a))
	}
	var out []string
	for i := a; i < b; i++ {
		w := strings.TrimSuffix(t.norm(i), "'s")
		if determiners[w] || articleLike[w] || w == "other" || w == "that" || w == "this" {
			continue
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

// colourName gives the thing made that the talk calls by the colour, or the sauce of that colour.
func (t *talk) colourName(w string) string {
	for i := t.has(0, len(t.toks), w); i >= 0; i = t.has(i+1, len(t.toks), w) {
		if i+1 < len(t.toks) && t.joined(i) && t.madeAt[i+1] > 0 && t.madeName(i+1) {
			return w + " " + t.norm(i+1)
		}
	}
	return w + " sauce"
}

// spots are the words that name a part by where it goes, each with the part
// that it is.
var spots = map[string]string{"bottom": "base", "middle": "filling", "inside": "filling", "insides": "filling", "top": "topping", "shine": "glaze"}

// spotPhrases name a part by its place in more words; the last word is the spot.
var spotPhrases = cues("what goes inside", "what goes in the middle", "what goes on top", "what's going inside", "what's going on top", "what's going in the middle", "what is going inside", "what will go inside", "what goes in the inside")

// spotAt gives the length of a part's name by its place at i ("the bottom of
// it"), 0 when there is none. The article stands before it.
func (t *talk) spotAt(i int) int {
	if i > 1 && t.joined(i-2) {
		switch t.norm(i - 2) {
		case "on", "along", "over", "at", "to", "in", "into", "across", "round", "from", "of":
			return 0
		case "for":
			if t.norm(i) != "shine" || !t.opensWith(i-2) {
				return 0 // "peanuts for the top"
			}
		}
	}
	if i < 1 || !t.in(aSpot, i) || t.norm(i-1) != "the" || t.mentionAt[i] >= 0 || t.toolAt[i] >= 0 {
		return 0
	}
	if t.toks[i].After == 0 && t.norm(i+1) == "of" {
		if w := t.norm(i + 2); w == "it" || w == "this" || w == "that" || w == "them" {
			return 3
		}
		return 0
	}
	if t.toks[i].After == 0 && i+1 < len(t.toks) && t.sentOf[i+1] == t.sentOf[i] {
		switch t.norm(i + 1) {
		case "then", "now", "next", "first", "bit", "part", "while":
		default:
			return 0 // "the top shelf", "the middle rack"
		}
	}
	return 1
}

// opensWith reports whether the word at token i begins its sentence, but for words of speech.
func (t *talk) opensWith(i int) bool {
	for k := t.sentence(i).First; k < i; k++ {
		if !headWords[t.norm(k)] {
			return false
		}
	}
	return true
}

// component reads the name of a component at i: qualifiers and a made-word.
// It gives the name's end, 0 when there is none.
func (t *talk) component(i int) int {
	if n := t.spotAt(i); n > 0 {
		return i + n
	}
	if n := t.cueAt(spotPhrases, i, len(t.toks)); n > 0 {
		return i + n
	}
	k := i
	for k < i+4 && k < len(t.toks) {
		if m := t.mentionAt[k]; m >= 0 && t.mentions[m].head.Len() > 1 {
			h := t.mentions[m].head
			if h.First == k && k > i-1 && h.Last < len(t.toks) && t.toks[h.Last-1].After == 0 && t.madeAt[h.Last] > 0 && t.mentionAt[h.Last] < 0 {
				k = h.Last // "cream cheese filling"
				continue
			}
			if h.First < k {
				return 0 // "shrimp paste" is bought
			}
			if f := t.mentions[m].food; f.Made && len(t.mentions[m].amounts) == 0 && t.madeName(h.Last-1) {
				return h.Last // "the peanut sauce", "the dry rub": sold too, but made here
			}
		}
		if n := t.declaredAt(k); n > 0 {
			return k + n
		}
		if n := int32(t.dishAt(k)); n > 0 && t.madeAt[k] == 0 && t.wholeDish(k, int(n)) {
			return k + int(n)
		}
		made := int(t.madeAt[k])
		if h := t.mentionAt[k]; made == 0 && h >= 0 && !(t.quantityBegins(t.mentions[h].head.Last) && t.sentOf[t.mentions[h].head.Last] == t.sentOf[k]) {
			// "the broth" is a food to buy by the table, made here by its place
			if _, n := t.lex.MadeAt(t.ids, k); n >= t.mentions[t.mentionAt[k]].head.Len() {
				made = n
			}
		}
		if n := made; n > 0 {
			if k == i && t.doneTo(k, n) {
				return 0
			}
			if m, _ := t.lex.MadeAt(t.ids, k); m != nil && m.Part && !notPart[t.phrase(k, k+int(n))] && !notPart[t.norm(k)] && !strings.HasSuffix(t.norm(k+int(n)-1), "'s") {
				if e := k + n; t.joined(e-1) && t.mentionAt[e] < 0 && dishNoun[t.norm(e)] && !t.verbAt(e) {
					return 0 // "lemon drizzle cake"
				}
				return k + int(n)
			}
			return 0
		}
		if t.toks[k].After != 0 || t.quantityAt[k] >= 0 {
			return 0
		}
		if t.mentionAt[k] < 0 && !t.in(anArticle, k) && t.modifier(k) == lexicon.NoClass {
			return 0
		}
		k++
	}
	return 0
}

// doneTo reports whether the made-word at k is a verb with its object: "rub the
// butter in", "drizzle some ghee".
func (t *talk) doneTo(k, n int) bool {
	return n == 1 && t.joined(k) && (k == 0 || !madeBefore[t.norm(k-1)] && !articleLike[t.norm(k-1)]) && t.verbAt(k) && t.actions[t.actionAt[k]].mood == imperative && (t.quantityBegins(k+1) || t.mentionStart(k+1) >= 0 || determiners[t.norm(k+1)] || articleLike[t.norm(k+1)])
}

// madeName reports whether the word at i names a kind of thing made in a
// kitchen that can be a part.
func (t *talk) madeName(i int) bool {
	m, n := t.lex.MadeAt(t.ids, i)
	return m != nil && n == 1 && m.Part && !notPart[t.norm(i)]
}

// wholeDish reports whether the dish word at k names something baked or
// cooked here, so that it can be a part beside others: it is in the title or
// the talk calls it "the" something more than once.
func (t *talk) wholeDish(k, n int) bool {
	if f, fn := t.lex.FoodAt(t.ids, k, t.stops); fn > n || fn > 0 && !f.Dish && !f.Made {
		return false
	}
	w := t.norm(k + n - 1)
	if !dishNoun[w] && !dishNoun[lexicon.Singular(w)] {
		return false
	}
	return t.titleWord(k+n-1) || t.saidTimes(w, 3)
}

// saidTimes reports whether the word is said n times or more.
func (t *talk) saidTimes(w string, n int) bool {
	for i := 0; n > 0; i++ {
		if i = t.has(i, len(t.toks), w); i < 0 {
			return false
		}
		n--
	}
	return true
}

// notPart are made-words too general to be the name of a part.
var notPart = words("seasonings mixture mix dish food meal recipe thing stuff stock puree reduction piece slab one dry wet dries wets top bottom middle bit lot whole")

// partOpeners come before the name of a part that is begun.
var partOpeners = listed("make the", "making the", "start with the", "starting with the", "begin with the", "start on the", "do the", "make our", "make your", "make a", "onto the", "on to the", "begin the", "start the", "prepare the", "get started on the", "working on the", "for the")

// partHead finds the component a sentence turns to.
func (t *talk) partHead(s *sentence) (int, int, bool) {
	i := s.First
	for i < s.Last && i < s.First+5 && (t.in(aHeadWord, i) || t.norm(i) == "up") {
		i++
	}
	end := func(k int) bool { // a mark, the sentence's end or a new clause behind the name
		return k >= s.Last || t.toks[k-1].After != 0 || !t.punctuated && t.clauseBegins(k)
	}
	skipDet := func(k int) int {
		for k < s.Last && (t.norm(k) == "the" || t.norm(k) == "your" || t.norm(k) == "our" || t.norm(k) == "my" || t.norm(k) == "a" || t.norm(k) == "this" || t.norm(k) == "that") {
			k++
		}
		return k
	}
	try := func(k int) (int, int, bool) {
		k = skipDet(k)
		if e := t.component(k); e > 0 && e <= s.Last {
			return k, e, true
		}
		return 0, 0, false
	}
	for j := i + 1; s.Len() <= 12 && j < s.Last; j++ {
		switch t.norm(j - 1) {
		case "do", "make", "on", "for":
			if n := t.cueAt(spotPhrases, j, s.Last); n > 0 {
				return j, j + n, true // "while it rests you do what goes inside"
			}
		}
	}
	if s.Len() <= 8 && len(t.mentionsIn(s.First, s.Last)) == 0 {
		if j := t.has(i, s.Last, "for on top", "to go on top", "goes on top", "to put on top"); j >= 0 && j-i <= 3 {
			for t.norm(j) != "top" {
				j++
			}
			return j, j + 1, true // "Now for on top of it."
		}
	}
	switch t.norm(i) {
	case "as":
		if t.norm(i+1) == "for" {
			if a, e, ok := try(i + 2); ok {
				return a, e, true
			}
		}
	case "over":
		if t.norm(i+1) == "to" {
			if a, e, ok := try(i + 2); ok {
				return a, e, true
			}
		}
	case "for", "onto", "on":
		k := i + 1
		if t.norm(k) == "to" {
			k++
		}
		if t.norm(i) == "on" && t.norm(i+1) != "to" {
			break
		}
		if a, e, ok := try(k); ok {
			return a, e, true
		}
	case "to":
		if n := t.norm(i + 1); (n == "dip" || n == "drizzle" || n == "glaze" || n == "fill") && end(i+2) {
			return i + 1, i + 2, true // "To dip, small bowl."
		}
		if t.norm(i+1) == "make" || t.norm(i+1) == "start" {
			if a, e, ok := try(i + 2); ok {
				return a, e, true
			}
		}
	case "moving", "time", "back":
		if t.norm(i+1) == "on" || t.norm(i+1) == "for" || t.norm(i+1) == "to" {
			k := i + 2
			if t.norm(k) == "to" {
				k++
			}
			if a, e, ok := try(k); ok {
				return a, e, true
			}
		}
	}
	// "let's make the sauce", "we begin with the salsa", "I'm going to start with the dough", "new job now, the compote"
	if j := t.hasAny(i, min(s.Last, i+9), partOpeners); j >= 0 && t.startsClause(i, j, s) {
		k := j
		for k < j+4 && t.norm(k) != "the" && t.norm(k) != "our" && t.norm(k) != "your" && t.norm(k) != "a" {
			k++
		}
		if a, e, ok := try(k); ok && (end(e) || t.norm(e) == "first" || t.norm(e) == "now" || t.norm(e) == "because" || t.norm(e) == "and" || t.norm(e) == "so" || t.norm(e) == "next" || t.norm(e) == "in" || t.norm(e) == "you") && !(t.norm(j) == "for" && j > i) {
			return a, e, true
		}
	}
	// a turn of speech before the name: "next up is the slaw", "over to the
	// filling", "now I do my chutney", "you also want a sauce"
	for j := i; j < s.Last-1 && j < i+7; j++ {
		if t.mentionAt[j] >= 0 || t.quantityAt[j] >= 0 || t.toolAt[j] >= 0 {
			break
		}
		w := t.norm(j)
		if w != "the" && w != "my" && w != "your" && w != "our" && w != "a" && w != "this" {
			continue
		}
		lead := t.phrase(max(s.First, j-4), j)
		for _, l := range turnLeads {
			if strings.HasSuffix(lead, l) && !(strings.HasSuffix(l, "onto") && t.putThere(s, j)) && (len(lead) == len(l) || lead[len(lead)-len(l)-1] == ' ') {
				if e := t.component(j + 1); e > 0 && e <= s.Last && (e >= s.Last || t.toks[e-1].After != 0 || t.norm(e) == "made" || t.norm(e) == "going" || t.norm(e) == "now" || t.norm(e) == "and" || t.norm(e) == "which" || t.norm(e) == "so" || t.norm(e) == "for") {
					return j + 1, e, true
				}
			}
		}
	}
	// "that's the dough done, now the filling"
	for j := i + 2; j < s.Last-1; j++ {
		if (t.norm(j) == "the" || t.norm(j) == "your") && (t.norm(j-1) == "now" || t.norm(j-1) == "next") && j > s.First+1 && (t.toks[j-2].After != 0 || t.norm(j-2) == "and") {
			if e := t.component(j + 1); e > 0 && e <= s.Last && (e >= s.Last || t.toks[e-1].After != 0) {
				return j + 1, e, true
			}
		}
	}
	// "I tell you the whole paste first"
	for j := i; j < s.Last-1 && j < i+8; j++ {
		if t.norm(j) != "the" && t.norm(j) != "your" {
			continue
		}
		x := j + 1
		for x < s.Last && (t.norm(x) == "whole" || t.norm(x) == "main") {
			x++
		}
		if e := t.component(x); e > 0 && e < s.Last && t.norm(e) == "first" && t.actionAt[max(s.First, j-1)] < 0 {
			return x, e, true
		}
	}
	// a fragment: "Filling." "The meat." "Now the glaze," "Sauce first"
	k := skipDet(i)
	if e := t.component(k); e > 0 && e <= s.Last {
		if e < s.Last && (t.norm(e) == "itself" || t.norm(e) == "then" || t.norm(e) == "now") && end(e+1) {
			return k, e, true // "So, the cake itself." "The top then."
		}
		if e < s.Last && t.norm(e) == "for" && t.norm(k-1) == "the" && s.Last-e <= 4 && !t.figured(e, s.Last) && !t.verbInside(e, s.Last) {
			return k, e, true // "The dressing for the potatoes."
		}
		if e < s.Last && t.norm(e) == "while" && i == s.First {
			return k, e, true // "Filling while they're in."
		}
		if t.opensPara(int(t.sentOf[s.First])) && s.Last-e <= 3 && end(e) && !t.hasFood(e, s.Last) && !t.verbInside(e, s.Last) {
			return k, e, true // "Salad, quick quick."
		}
		if t.norm(e) == "gets" || t.norm(e) == "is" || t.norm(e) == "comes" {
			// "the crumb gets made ahead", "the base comes first"
			switch t.norm(e + 1) {
			case "made", "first", "mixed", "started", "next":
				return k, e, true
			}
		}
		if t.declaredAt(k) > 0 && end(e) && e-s.First <= 4 {
			return k, e, true
		}
		if !t.punctuated && e-s.First <= 5 && e < s.Last && t.headFollows(e) && t.madeAt[e] == 0 {
			return k, e, true
		}
		if end(e) && (e >= s.Last || e-s.First <= 4) {
			if e >= s.Last || t.toks[e-1].After&language.Comma == 0 || t.fragmentHead(s, k, e) {
				return k, e, true
			}
		}
		if t.norm(e) == "is" && e+2 < s.Last && t.quantityBegins(e+1) && k > s.First && t.norm(k-1) == "the" {
			if q := &t.quantities[t.quantityAt[e+1]]; q.kind == measure && t.foodAfter(q) >= 0 {
				return k, e, true // "The marinade is a cup of yoghurt"
			}
		}
		switch t.norm(e) {
		case "first", "next", "now", "time":
			return k, e, true
		case "you":
			// "the sauce you can do that same night"
			if t.norm(e+1) == "can" || t.norm(e+1) == "make" || t.norm(e+1) == "do" {
				return k, e, true
			}
		case "goes", "is":
			if t.introduced(e) || t.norm(e) == "goes" && t.norm(e+1) == "right" {
				return k, e, true
			}
		}
	}
	if a, e, ok := t.turnHead(s); ok {
		return a, e, true
	}
	// the last words: "In a mug, the sauce." "While it's sitting, the tadka."
	for b := s.Last - 1; b > s.First && b >= s.Last-4; b-- {
		if (t.closingThe(s, b) || t.lastComes(s, b)) && t.component(b+1) == s.Last {
			return b + 1, s.Last, true
		}
	}
	return 0, 0, false
}

// lastComes reports whether the words before the article at token b only tell when its thing is made: "at the end a
// tadka", "while that rests a quick raita".
func (t *talk) lastComes(s *sentence, b int) bool {
	if w := t.norm(b); w != "a" && w != "an" && w != "the" && w != "my" && w != "your" || b-s.First < 2 || len(t.mentionsIn(s.First, b)) > 0 || t.figured(s.First, b) {
		return false
	}
	i := s.First
	for i < b && headWords[t.norm(i)] {
		i++
	}
	switch w := t.norm(i); {
	case w == "at" || w == "in":
		return t.norm(i+1) == "the" && (t.norm(i+2) == "end" || t.norm(i+2) == "meantime" || t.norm(i+2) == "meanwhile" || t.norm(i+2) == "beginning") && b == i+3
	case w == "while" || w == "whilst":
		return b-i <= 5 && t.toks[b-1].After != 0
	}
	return false
}

// turnWords are the words that can stand between the beginning of a clause and
// the component it turns to.
var turnWords = words("so now then okay ok right next and well first oh alright anyway but um uh yeah meantime meanwhile second last finally go on hey there " +
	"let's let me we i you y'all we'll i'll you'll i'm we're you're i've we've you've gonna going to want need have got can will like also always just quickly really gotta wanna " +
	"make making do doing start starting started begin beginning prepare preparing prep get getting going crack cracking move moving turn turning jump tackle work working show tell talk " +
	"about at on onto over with into for up back is it's are what what's how here's here that's there's goes in off job thing things bit part stage step time while we'd i'd you'd all of the my your our this a an that only left which leaves comes as third fourth bring us say most important to second heading chapter section number")

// turnSigns are the words of which one at least makes a clause a turn.
var turnSigns = words("now next make making do doing start starting begin prepare preparing prep crack move moving turn turning tackle for onto first last finally meanwhile meantime second third time up leaves left there's as what what's how back second get show work working tackle")

// turnAfter are the words that may follow the component's name.
var turnAfter = words("cause since 'cause first next now then because and so which you we i i'm i've we're we've for in going itself you're you'll we'll i'll what it's let's this here made while before there or using")

// turnHead finds a component that a clause turns to with nothing but words of
// speech before it: "let's get going on the dressing", "with that in the oven,
// let's turn to the sauce", "what goes in the rub?".
func (t *talk) turnHead(s *sentence) (int, int, bool) {
	speech := true // nothing but words of speech so far
	for from := s.First; from < s.Last; {
		to := from
		for to < s.Last-1 && t.toks[to].After == 0 {
			to++
		}
		to++
		if a, e, ok := t.turnClause(s, from, to); ok {
			return a, e, true
		}
		if speech && from > s.First {
			// "next heading, sauce", "now the last, the tadka"
			x := from
			for x < to && (articleLike[t.norm(x)] || determiners[t.norm(x)]) {
				x++
			}
			if e := t.component(x); e > 0 && e == to {
				return x, e, true
			}
		}
		for i := from; i < to; i++ {
			speech = speech && t.in(aTurnWord, i) && t.mentionAt[i] < 0
		}
		from = to
	}
	return 0, 0, false
}

// turnClause looks for the turn in the clause [from, to).
func (t *talk) turnClause(s *sentence, from, to int) (int, int, bool) {
	sign := false
	// "in a small cup is the sauce", "last comes the icing"
	for j := to - 2; j > from+1 && j >= to-5 && to-from <= 9; j-- {
		if w := t.norm(j - 1); (t.norm(j) == "the" || t.norm(j) == "my") && (w == "is" || w == "comes" || w == "goes") && len(t.mentionsIn(from, j)) == 0 {
			if f := t.norm(from); f == "in" || f == "then" || f == "next" || f == "last" || f == "first" || f == "here" {
				if e := t.component(j + 1); e == to {
					return j + 1, e, true
				}
			}
		}
	}
	for j := from; j < to && j < from+14; j++ {
		w := t.norm(j)
		if j > from+1 && t.norm(j-1) == "with" && (t.norm(j-2) == "start" || t.norm(j-2) == "starting" || t.norm(j-2) == "begin" || t.norm(j-2) == "beginning") {
			if e := t.component(j); e > 0 && e <= s.Last {
				return j, e, t.turnEnds(s, from, j, e) // "we start with dough"
			}
		}
		if j > from && ((determiners[t.norm(j-1)] || t.norm(j-1) == "that") && t.norm(j-1) != "all" && t.norm(j-1) != "half" || articleLike[t.norm(j-1)]) && sign {
			x := j
			for x < to && (w == "whole" || w == "main" || w == "actual") {
				x++
				w = t.norm(x)
			}
			if e := t.component(x); e > 0 && e <= s.Last {
				return x, e, t.turnEnds(s, from, x, e)
			}
			if m := t.mentionStart(x); m >= 0 && t.makesFood(s, j-1, m) {
				return t.mentions[m].head.First, t.mentions[m].head.Last, true
			}
		}
		if !turnWords[w] || t.mentionAt[j] >= 0 || t.quantityAt[j] >= 0 && !articleLike[w] || t.toolAt[j] >= 0 {
			return 0, 0, false
		}
		sign = sign || turnSigns[w]
	}
	return 0, 0, false
}

// makers are the words before "the" that tell that a food is to be cooked as a
// thing of its own: "make the rice", "on to the potatoes".
var makers = words("make making do doing start starting for onto to on tackle prep prepare cook cooking")

// makesFood reports whether the clause turns to the food of mention m as to a
// thing with a recipe of its own: the words before it say so, nothing follows
// it, and the next foods are others.
func (t *talk) makesFood(s *sentence, det, m int) bool {
	mm := &t.mentions[m]
	if det <= s.First || !makers[t.norm(det-1)] || len(mm.amounts) > 0 || mm.negated || mm.mixed {
		return false
	}
	e := mm.head.Last
	if e < s.Last && t.toks[e-1].After == 0 && !turnAfter[t.norm(e)] {
		return false
	}
	others := 0
	for k := m + 1; k < len(t.mentions) && t.mentions[k].First < e+30; k++ {
		o := &t.mentions[k]
		if related(o.food, mm.food) > 0 {
			return false
		}
		if len(o.amounts) > 0 {
			others++
		}
	}
	for i := e; i < min(len(t.toks), e+6); i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind != duration && t.foodAfter(&t.quantities[q]) < 0 {
			return false // "for the rice, two cups"
		}
	}
	return others >= 2
}

// turnEnds reports whether what follows the component's name at [a, e) lets the
// clause from from on be a turn to it.
func (t *talk) turnEnds(s *sentence, from, a, e int) bool {
	if t.norm(a-2) == "in" || t.norm(a-2) == "into" || t.norm(a-2) == "of" || t.norm(a-2) == "over" && t.norm(a-3) != "move" && t.norm(a-3) != "moving" || t.norm(a-2) == "with" && t.norm(a-3) != "on" && !turnSigns[t.norm(a-3)] {
		// "into the sauce", but "what goes in the sauce?"
		if i := t.has(from, a, "what goes", "what's", "what i put", "what we put", "what is", "what you put"); i < 0 {
			return false
		}
	}
	if e >= s.Last || t.toks[e-1].After != 0 {
		return true
	}
	switch w := t.norm(e); w {
	case "to":
		next := t.norm(e + 1)
		return next == "make" || next == "do" || next == "go" || next == "sort" || next == "tackle" || next == "serve"
	case "is":
		return t.has(e, min(s.Last, e+5), "easy", "simple", "just", "quick", "this", "next", "basically", "only") >= 0
	default:
		return turnAfter[w] || !t.punctuated && t.headFollows(e)
	}
}

// turnLeads are the words with which a speaker turns to a component.
var turnLeads = []string{"up is", "next is", "thing is", "talk about", "get", "over to", "on to", "onto", "then there's", "then comes", "here comes", "i do", "i make", "you make", "we make", "we do", "also want", "also need", "we need", "you need", "you want", "i want", "start with", "begin with", "starting with", "start on", "i'll make", "we'll make", "we'll do", "i'll do", "make", "do", "last is", "that leaves", "which leaves", "leaves", "moving to", "back to", "here's", "and here's", "first is", "time for", "work on", "tackle", "prep", "prepare"}

func (t *talk) startsClause(i, j int, s *sentence) bool {
	for k := i; k < j; k++ {
		if t.mentionAt[k] >= 0 || t.quantityAt[k] >= 0 || t.toolAt[k] >= 0 || t.norm(k) == "that" || t.norm(k) == "it" && t.norm(k-1) != "while" && t.norm(k-1) != "as" {
			return false
		}
	}
	return j-i <= 7
}

// fragmentHead reports whether a name followed by a comma opens a listing:
// "Glaze, a small pan" rather than "filling, and then".
func (t *talk) fragmentHead(s *sentence, a, e int) bool {
	if e >= s.Last {
		return true
	}
	w := t.norm(e)
	if w == "and" {
		switch t.norm(e + 1) {
		case "this", "that", "it", "it's", "you", "i", "we", "now", "that's":
			return true // "So, glaze, and this is why"
		}
	}
	return w != "and" && w != "or" && w != "which" && w != "it" && t.madeAt[e] == 0 && (t.sents[t.sentOf[a]].kind != plain || s.Last-s.First > 4)
}

// partOf gives the part that is open at token i: the last head before it.
// -1 means none was opened yet.
func (t *talk) partOf(i int) int {
	if len(t.partReach) != len(t.parts) {
		t.partReach = t.partReach[:0]
		reach := -1
		for _, m := range t.parts {
			reach = max(reach, m.tok)
			t.partReach = append(t.partReach, reach)
		}
	}
	if n := sort.SearchInts(t.partReach, i+1); n > 0 {
		return t.parts[n-1].name
	}
	return -1
}

// localPart finds a part named for one food: "butter for the sponge", "honey
// again, for the filling".
func (t *talk) localPart(m *mention) int {
	for i := m.head.Last; i < m.head.Last+6 && i+1 < len(t.toks) && t.sentOf[i] == t.sentOf[m.First]; i++ {
		if t.norm(i) == "for" && (t.norm(i+1) == "the" || t.norm(i+1) == "your") {
			if p := t.partCalledAt(i + 2); p >= 0 {
				return p
			}
		}
		if i > m.head.Last+1 && t.mentionAt[i] >= 0 {
			break
		}
	}
	return -1
}

// partCalledAt gives the first part whose name, or the last word of whose name,
// stands at token i, -1 for none.
func (t *talk) partCalledAt(i int) int {
	if t.partHeads == nil {
		t.partHeads = &heads[partHead]{}
		for p, name := range t.partNames {
			ws := strings.Fields(name)
			last := len(ws) - 1
			t.partHeads.add(ws[last], partHead{p, ws[last:]})
			if last > 0 {
				t.partHeads.add(ws[0], partHead{p, ws})
			}
		}
	}
	for _, h := range t.partHeads.at(t, i) {
		if t.is(i, h.words...) {
			return h.part
		}
	}
	return -1
}

// partHead is a way to call a part.
type partHead struct {
	part  int
	words []string
}

// dishCues tell that the recording holds recipes of their own.
var dishCues = []string{"two separate things", "two separate recipes", "two different recipes", "its own recipe", "two recipes", "separate recipe", "second recipe", "two different things", "two dishes", "two different dishes", "another recipe", "other recipe today", "two for the price", "second dish", "next recipe", "two things today", "first recipe", "first dish", "couple of recipes", "two things for you", "making two things", "doing two things", "number one is"}

// secondCues open the second recipe.
var secondCues = []string{"new job", "second recipe", "second one", "next recipe", "second dish", "other recipe", "recipe number two", "number two", "the second thing", "on to the second", "second thing", "recipe two", "next dish", "other dish", "onto the second", "dish number two", "next job", "next thing"}

// findDishes cuts a recording of two recipes where the second begins.
func (t *talk) findDishes() {
	t.dishes = []dish{{tok: 0}}
	cue := t.earliest(0, len(t.toks), dishCue)
	if cue < 0 {
		return
	}
	// "number two is zobo": it begins where its name stands alone
	if i := t.has(cue, min(len(t.toks), cue+90), "number two is", "second one is", "second recipe is", "second is", "other one is"); i >= 0 {
		a := i
		for t.norm(a) != "is" && a < i+4 {
			a++
		}
		a++
		for a < len(t.toks) && articleLike[t.norm(a)] {
			a++
		}
		for k := range t.sents {
			s := &t.sents[k]
			if s.First < len(t.toks)/5 || s.First > len(t.toks)*9/10 {
				continue
			}
			x := s.First
			for x < s.Last && (headWords[t.norm(x)] || determiners[t.norm(x)]) {
				x++
			}
			if x < s.Last && t.norm(x) == t.norm(a) && (s.Last-x <= 3 || t.toks[x].After != 0) {
				t.dishes = append(t.dishes, dish{tok: s.First})
				return
			}
		}
	}
	// the second begins where the talk turns: "new job now", "that's the X done",
	// "now the second", "on to the"
	for k := range t.sents {
		s := &t.sents[k]
		if s.First <= cue && t.has(s.First, s.Last, "second recipe", "second dish") < 0 || s.First < len(t.toks)/5 || s.First > len(t.toks)*9/10 {
			continue
		}
		if i := t.hasAny(s.First, s.Last, secondCue); i >= 0 && (i-s.First <= 8 || !t.punctuated) {
			if !t.punctuated {
				t.dishes = append(t.dishes, dish{tok: i})
				return
			}
			t.dishes = append(t.dishes, dish{tok: s.First})
			return
		}
	}
}

// dishOf gives the index of the dish told at token i.
func (t *talk) dishOf(i int) int {
	d := 0
	for k := range t.dishes {
		if t.dishes[k].tok <= i {
			d = k
		}
	}
	return d
}
