package extract

import (
	"sort"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// wayMark opens one of several methods at a token; name -1 closes it.
type wayMark struct {
	tok  int
	name int
}

// choiceCues announce that there is more than one method.
var choiceCues = []string{"two ways", "both ways", "either way", "three ways", "two methods", "couple of ways", "couple ways", "different ways", "two roads", "two versions", "getting both",
	"whichever way", "two options", "couple of options", "can't agree on how", "road forks", "your choice", "both versions", "two paths", "both methods", "one of two", "whichever you", "pick your", "or as", "two sorts", "two kinds", "splits in two", "parts company", "part company", "way number"}

// wayNoun are heads of "the cold one", "the oven method".
var wayNoun = words("one ones way method version option route style people person crowd lot sort road man woman folk folks fans path team camp variety batch side")

// wayTurn is a sentence that turns to one way.
type wayTurn struct {
	tok   int
	key   string // what the way is known by
	name  string
	class int  // of the label taken up, -1 for none
	loose bool // told for those who took this way: "if you're on the dried road, …"
	brief bool // told in passing, by its sentence alone: "rolls are up in thirty"
}

// markWays finds alternative methods and where each is told. A method is
// announced near a choice ("you can do it cold in a pitcher, or hot in a
// pot") and told later under a head that takes up the announced word ("Now
// the cold one.", "if you're doing the slab", "way number two, the steamer").
func (t *talk) markWays() {
	choices := t.choices()
	for n := range choices {
		if c, turns := t.bestTurns(&choices[n]); len(turns) > 1 {
			t.nameTurns(c, turns)
			t.spreadTurns(turns)
			return
		}
	}
	if turns := t.forks(choices); turns != nil {
		t.spreadTurns(turns)
		return
	}
	if t.toldAsAnnounced() {
		return
	}
	if turns := t.contrasts(); turns != nil {
		t.spreadTurns(turns)
		return
	}
	if turns := t.alternates(); turns != nil {
		t.spreadTurns(turns)
	}
}

// toldAsAnnounced marks ways told under heads that take up any word said around a
// choice; false where there are none.
func (t *talk) toldAsAnnounced() bool {
	announced, from := t.announcedWays()
	if len(announced) == 0 {
		return false
	}
	var turns []wayTurn
	keys := map[string]bool{}
	for k := range t.sents {
		s := &t.sents[k]
		if s.First < from || s.kind == storing || s.kind == figures || s.recap {
			continue
		}
		if name, key := t.wayHead(s, announced); name != "" {
			turns = append(turns, wayTurn{tok: s.First, key: key, name: name, class: -1})
			keys[key] = true
		}
	}
	if len(keys) < 2 {
		return false
	}
	t.spreadTurns(turns)
	return true
}

// turnsOf finds the heads under which the sides of a choice are told; nil when
// not every side is told.
func (t *talk) turnsOf(c *choice) []wayTurn {
	var out []wayTurn
	var told [2]bool
	for k := range t.sents {
		s := &t.sents[k]
		if s.First < c.first || s.kind == storing || s.kind == figures || s.recap {
			continue
		}
		for i := s.First; i < s.Last; i++ {
			if i > s.First && (t.punctuated || !wayOpens[t.norm(i)] || i < c.last) {
				if t.punctuated {
					break
				}
				continue
			}
			a, b, loose := t.turnWords(s, i)
			if b <= a || s.First < c.last && !t.tellsAlready(s, c) {
				continue
			}
			if !loose && t.listsFood(a, b) {
				continue
			}
			says := loose || t.namesWay(a, b)
			n, class := c.takes(t.stems(a, b), says)
			if !says && !t.punctuated && (class == int(foodClass) || class == int(mixedClass)) && !t.countedWays(t.sentence(c.first)) && t.hasAny(c.first, c.last, choiceCue) < 0 {
				continue // "and now the salt"
			}
			if n < 0 || class < 0 && !(loose || t.punctuated && t.namesWay(a, b)) {
				continue
			}
			told[n] = true
			out = append(out, wayTurn{tok: i, key: string(rune('0' + n)), name: t.headName(a, b), class: class, loose: loose})
			i = b
		}
	}
	if told[1] && !told[0] {
		// "it can go in the slow cooker, eight hours on low. Or, on the stove, …"
		if s := t.sentence(c.first); t.punctuated && s.kind != aside && t.sentOf[out[0].tok] > t.sentOf[c.first] {
			for i := s.First; i < s.Last; i++ {
				class, l, n := t.labelAt(i)
				if k, _ := c.takes(l.keys, true); n > 0 && k == 0 && t.timedIn(i+n, s.Last) {
					return append([]wayTurn{{tok: s.First, key: "0", name: l.name, class: int(class), loose: true}}, out...)
				}
			}
		}
	}
	if told[1] && !told[0] {
		if h, ok := t.toldFirst(c, out[0].tok); ok {
			return append([]wayTurn{h}, out...)
		}
	}
	if !told[0] || !told[1] {
		return nil
	}
	return out
}

// toldFirst finds where the first side of a choice is told without a head, before the other one at token end:
// "tip it into the tin and bake it forty minutes. For the little ones …".
func (t *talk) toldFirst(c *choice, end int) (wayTurn, bool) {
	l := &c.options[0].labels[placeClass]
	if l.name == "" {
		return wayTurn{}, false
	}
	for k := int(t.sentOf[c.first]) + 1; k < len(t.sents) && t.sents[k].First < end; k++ {
		s := &t.sents[k]
		if s.First < c.last && s.kind != instruction || s.kind == storing || s.past || !t.timedIn(s.First, min(end, t.sentenceBeside(s))) {
			continue
		}
		for i := s.First; i < s.Last; i++ {
			if class, o, n := t.labelAt(i); n > 0 && class == placeClass && sameLabel(l, &o) {
				return wayTurn{tok: s.First, key: "0", name: l.name, class: int(placeClass), loose: true}, true
			}
		}
	}
	return wayTurn{}, false
}

// listsFood reports whether tokens [a, b) are a food whose amount follows: "rye flour, one cup".
func (t *talk) listsFood(a, b int) bool {
	m := t.mentionAt[b-1]
	return m >= 0 && !t.mentions[m].food.Dish && b < len(t.toks) && t.quantityBegins(b) && t.quantities[t.quantityAt[b]].kind == measure
}

// tellsAlready reports whether a sentence within the words of the announcement already
// tells a way: it gives work to do after its head.
func (t *talk) tellsAlready(s *sentence, c *choice) bool {
	return s.First > c.first && s.kind != aside && t.hasQuantity(s.First, s.Last)
}

// stems gives the stems of the words in tokens [a, b) that say something.
func (t *talk) stems(a, b int) []string {
	var out []string
	for i := a; i < b; i++ {
		if w := strings.TrimSuffix(t.norm(i), "'s"); !wayStop[w] && !wayNoun[w] || w == "little" && wayNoun[t.norm(i+1)] {
			out = append(out, stem(w))
		}
	}
	return out
}

// wayLeads are words before the name of the way that is told next.
var wayLeads = words("all right okay my turn go on let's let us do start starting begin with moving onto to we'll we i'll i take doing first we're back over then as for here's here your now's that leaves let say number one two three method option way choice road version is the a")

// wayIfs are words between "if" or "when" and the way chosen.
var wayIfs = words("you you're your are is it's it a the using doing making want wants to do make go gone going for prefer rather you've you'd have having chose chosen taking took baking cooking on with went like picked pick by use one that's those they're we're i'm")

// wayOpens are words that open the turn to a way in talk without marks, where
// a sentence's beginning is a guess.
var wayOpens = words("for if those anyone the let's way option method now so right okay first second starting moving when on")

// turnWords gives the words of the opening at token i of sentence s in which it
// may turn to a way. loose tells that it speaks to those who chose it.
func (t *talk) turnWords(s *sentence, i int) (int, int, bool) {
	first := i
	for i < s.Last && i < first+7 && (t.in(aHeadWord, i) || i == first && t.norm(i) == "or" || t.is(i, "all", "right")) {
		i++
	}
	stop := func(a, n int) int { // the phrase from a, to a mark or a word that opens a clause
		b := a
		for b < s.Last && b < a+n {
			if b > a && (t.in(youOrWe, b) || t.in(aWayEnd, b) || t.isImperative(b) && !t.toks[b].Joined && t.mentionAt[b] < 0 && t.toolAt[b] < 0) {
				break
			}
			b++
			if t.toks[b-1].After != 0 {
				break
			}
		}
		return b
	}
	switch w := t.norm(i); {
	case w == "if" || w == "when" || w == "whenever" || w == "those" || w == "anyone" || w == "let's" && t.norm(i+1) == "say":
		k := i + 1
		seen := w == "those" || w == "anyone" || w == "let's"
		for k < s.Last && k < i+8 && (wayIfs[t.norm(k)] || wayStop[t.norm(k)] || t.norm(k) == "say") {
			switch t.norm(k) {
			case "you're", "it's", "doing", "making", "using", "want", "prefer", "rather", "go", "going", "gone", "having", "chose", "chosen", "taking", "baking", "cooking", "for", "on", "went", "picked", "use":
				seen = true
			}
			k++
		}
		if !seen || k > first+9 {
			return 0, 0, false
		}
		return k, stop(k, 5), true
	case w == "for" || w == "to" || w == "in" || w == "on" || w == "under" || w == "with":
		k := i + 1
		for k < s.Last && k < i+6 && (articleLike[t.norm(k)] || determiners[t.norm(k)] || wayIfs[t.norm(k)]) {
			k++
		}
		e := stop(k, 5)
		if t.punctuated && (w == "in" || w == "on" || w == "under" || w == "with") && t.toks[e-1].After == 0 {
			return 0, 0, false // "in the oven it goes" is no turn
		}
		return k, e, true
	}
	k := i
	for k < s.Last && k < i+9 && (t.in(aWayLead, k) || t.numberAt(k)) {
		k++
		if t.toks[k-1].After != 0 && k > i+3 {
			break
		}
	}
	if k >= s.Last {
		return 0, 0, false
	}
	if t.isImperative(k) && !t.labelled(k) {
		return 0, 0, false // "Press each one down"
	}
	e := stop(k, 4)
	fragment := e >= s.Last || t.toks[e-1].After != 0
	// what else stands in the phrase must be the way's name
	for x := k; x < e; x++ {
		switch w := t.norm(x); {
		case t.in(aWayNoun, x) || w == "first" || w == "then" || w == "next":
			return k, e, false
		case strings.HasSuffix(w, "'s") && wayNoun[t.norm(x+1)]:
			return k, e, false
		}
	}
	if fragment && s.Len() <= 8 && e-k <= 3 || fragment && e-first <= 4 && !t.toks[e-1].After.Ends() && t.onlyLabels(k, e) {
		return k, e, false
	}
	if !t.punctuated && k > first && t.labelled(k) {
		return k, e, false
	}
	// "The loaf takes an hour"
	if t.punctuated && e < s.Last && e-k <= 2 && takesTime[t.norm(e)] && t.timeAfter(e+1, s.Last) {
		return k, e, false
	}
	// "Beef cooks four minutes a side"
	if t.punctuated && k == i && e-k <= 2 && e < s.Last {
		for _, f := range t.verbs(e) {
			if f.Form == lexicon.Third && f.Action.Kind == "heat" {
				return k, e, false
			}
		}
	}
	return 0, 0, false
}

// takesTime are verbs with which a way is told by its time alone.
var takesTime = words("takes take needs need wants want gets get is are")

// timeAfter reports whether a time stands at token a, behind small words.
func (t *talk) timeAfter(a, end int) bool {
	for i := a; i < min(end, a+4); i++ {
		if q := t.quantityAt[i]; q >= 0 {
			return t.quantities[q].kind == duration
		}
	}
	return false
}

// wayEnds are words that end the name of a way.
var wayEnds = words("it is it's they get then and because wants want goes go take like this here so or but that's be needs need has have takes don't doesn't just to")

// onlyLabels reports whether nothing but names stands in tokens [a, b).
func (t *talk) onlyLabels(a, b int) bool {
	for i := a; i < b; i++ {
		if _, _, n := t.labelAt(i); n == 0 && !articleLike[t.norm(i)] {
			return false
		}
	}
	return b > a
}

// namesWay reports whether tokens [a, b) hold a word for a way: "Kaylee's way".
func (t *talk) namesWay(a, b int) bool {
	for i := a; i < b; i++ {
		if wayNoun[t.norm(i)] {
			return true
		}
	}
	return false
}

// labelled reports whether a label stands at token i.
func (t *talk) labelled(i int) bool {
	_, _, n := t.labelAt(i)
	return n > 0
}

// nameTurns gives every turn the name of its way: the announced label of the
// class that the turns take up most.
func (t *talk) nameTurns(c *choice, turns []wayTurn) {
	var uses [wayClasses]int
	for _, h := range turns {
		if h.class >= 0 {
			uses[h.class]++
		}
	}
	best := -1
	for k := range uses {
		if c.options[0].labels[k].name == "" || c.options[1].labels[k].name == "" {
			continue
		}
		if best < 0 || uses[k] > uses[best] {
			best = k
		}
	}
	var own [2]bool // the label is taken up
	for _, h := range turns {
		own[h.key[0]-'0'] = own[h.key[0]-'0'] || h.class >= 0
	}
	if best == int(foodClass) {
		t.titleOfFoods(c)
	}
	var names [2]string
	for n := range turns {
		k := turns[n].key[0] - '0'
		if names[k] == "" {
			names[k] = c.options[k].labels[best].name
			if !own[k] && best != int(placeClass) && turns[n].name != "" {
				names[k] = turns[n].name
			}
		}
		turns[n].name = names[k]
	}
	if best == int(foodClass) && t.headedIn(turns) {
		for n := range turns {
			turns[n].name = "in " + turns[n].name
		}
	}
}

// headedIn reports whether both ways are headed by what the dish is kept in: "in oil", "now in
// vinegar".
func (t *talk) headedIn(turns []wayTurn) bool {
	var seen [2]bool
	for _, h := range turns {
		k := h.key[0] - '0'
		seen[k] = seen[k] || t.has(h.tok, min(len(t.toks), h.tok+7), "in "+h.name) >= 0
	}
	return seen[0] && seen[1]
}

// titleOfFoods puts the foods that the dish is made with before its name, where
// both were announced in one sentence: "burgers two ways, beef and black bean".
func (t *talk) titleOfFoods(c *choice) {
	if len(t.dishes) != 1 {
		return
	}
	d := &t.dishes[0]
	a, b := c.options[0].labels[foodClass].name, c.options[1].labels[foodClass].name
	if d.title == "" || d.span.First < c.first || d.span.Last > t.sentence(c.first).Last || strings.Contains(d.title, " ") {
		return
	}
	d.title = title(a + " or " + b + " " + strings.ToLower(d.title))
}

// headName gives the words of a head that name a way: "hand-shaper" of "a
// hand-shaper like Joan".
func (t *talk) headName(a, b int) string {
	var ws []string
	for i := a; i < b; i++ {
		w := strings.TrimSuffix(t.norm(i), "'s")
		if !wayStop[w] && !wayNoun[w] && !articleLike[w] && !determiners[w] {
			ws = append(ws, w)
		}
	}
	return t.wayName(a, b, ws)
}

// spreadTurns marks how far each way is told from its turn on: to the next
// turn, to words for every way, to another component; and the last of them in a
// row no further than the one before it went.
func (t *talk) spreadTurns(turns []wayTurn) {
	for n := range turns {
		if turns[n].name == "" {
			return // a way that nothing names can't be told from the others
		}
	}
	index := map[string]int{}
	open := func(tok int, h *wayTurn) {
		n, ok := index[h.key]
		if !ok {
			n = len(t.wayNames)
			index[h.key] = n
			t.wayNames = append(t.wayNames, h.name)
		}
		t.ways = append(t.ways, wayMark{tok: tok, name: n})
	}
	reach := 0 // paragraphs the way before this one went on for
	limit, last := 0, ""
	for n := range turns {
		h := &turns[n]
		if h.key == last && h.tok < limit {
			continue // "Okay, hot. For the hot one you take the same base"
		}
		open(h.tok, h)
		limit = len(t.toks)
		next := limit
		for m := n + 1; m < len(turns); m++ {
			if turns[m].key != h.key {
				next = turns[m].tok
				break
			}
		}
		switch {
		case h.brief:
			limit, reach = t.briefly(h.tok), 0
		case last != "" && last != h.key && reach > 0:
			// the other one of two told in a row is told as long as the first
			limit = t.afterParagraphs(h.tok, reach)
			reach = 0
		case next < limit && t.wayLength(h.tok, next) <= wayParagraphs:
			limit = next
			reach = t.wayLength(h.tok, limit)
		case h.loose:
			limit = t.sentence(h.tok).Last
		default:
			limit = t.afterParagraphs(h.tok, 1)
		}
		limit, last = min(limit, next), h.key
		for k := int(t.sentOf[h.tok]) + 1; k < len(t.sents) && t.sents[k].First < limit; k++ {
			if t.leavesWay(&t.sents[k]) {
				limit = t.sents[k].First
			}
		}
		if limit < next {
			t.ways = append(t.ways, wayMark{tok: limit, name: -1})
		}
	}
}

// briefly gives the end of what is told in passing from token i on: its sentence, and the one
// after it in the paragraph where it says no more itself: "rolls go first."
func (t *talk) briefly(i int) int {
	s := t.sentence(i)
	if t.figured(s.First, s.Last) {
		return s.Last
	}
	for a := s.First; a < s.Last; a++ {
		if t.actionAt[a] >= 0 {
			return s.Last
		}
	}
	return t.sentenceBeside(s)
}

// wayParagraphs is how many paragraphs a way is told for at most before the
// other one.
const wayParagraphs = 4

// wayLength gives how many paragraphs begin from token a up to token b, at
// least one. Talk without marks is counted by its words.
func (t *talk) wayLength(a, b int) int {
	if !t.punctuated {
		return max(1, (b-a+captionParagraph/2)/captionParagraph)
	}
	n := 0
	for k := int(t.sentOf[a]) + 1; k < len(t.sents) && t.sents[k].First <= b; k++ {
		if t.sents[k].para != t.sents[k-1].para {
			n++
		}
	}
	return max(1, n)
}

// captionParagraph is how many words of unmarked talk count as a paragraph.
const captionParagraph = 60

// afterParagraphs gives the first token beyond n paragraphs from token a.
func (t *talk) afterParagraphs(a, n int) int {
	for k := int(t.sentOf[a]) + 1; k < len(t.sents); k++ {
		if !t.punctuated {
			if t.sents[k].First-a >= n*captionParagraph {
				return t.sents[k].First
			}
		} else if t.sents[k].para != t.sents[k-1].para {
			if n--; n == 0 {
				return t.sents[k].First
			}
		}
	}
	return len(t.toks)
}

// leavesWay reports whether the sentence is told of every way, or of nothing
// that a way is made by.
func (t *talk) leavesWay(s *sentence) bool {
	if s.kind == storing || s.kind == figures || t.bothAgain(s) {
		return true
	}
	if _, _, ok := t.partHead(s); ok && s.kind != aside {
		return true
	}
	// "The butter! We skipped the butter"
	k := int(t.sentOf[s.First])
	return t.punctuated && k+1 < len(t.sents) && t.sents[k+1].forgotten && s.Len() <= 4
}

// bothWays speak of every way at once.
var bothWays = []string{"either way", "whatever you've cooked", "whatever you cooked", "however you've", "whatever you're using", "after that everybody's the same", "both of them", "whichever", "both ways", "either one", "for both", "same from here", "after that it's the same"}

// saysBoth reports whether the sentence has words for every way: "either way, …", "whichever you did". "Either way
// up" and "whichever chicken" speak of other things.
func (t *talk) saysBoth(s *sentence) bool {
	i := t.hasAny(s.First, s.Last, bothWay)
	if i < 0 {
		return false
	}
	switch w := t.norm(i); {
	case w == "either" && t.norm(i+1) == "way":
		return t.norm(i+2) != "up" && t.norm(i+2) != "round"
	case w == "whichever":
		next := t.norm(i + 1)
		return t.toks[i].After != 0 || youWe[next] || wayNoun[next] || next == "it" || next == "it's"
	}
	return true
}

// whicheverWay speak of every way.
var whicheverWay = listed("no matter which", "doesn't matter which", "both kinds", "however you", "all of them", "both lots", "oven ones", "either kind", "either road", "either version", "for everybody", "for everyone", "same for", "same again for", "from here on", "from here it's")

// bothAgain reports whether the sentence speaks of every way at once.
func (t *talk) bothAgain(s *sentence) bool {
	return t.bothSubject(s) || t.saysBoth(s) || t.hasAny(s.First, s.Last, whicheverWay) >= 0
}

// wayStop are words too common to carry the name of a method.
var wayStop = words("the a an it them you your my i we or and in on to for of as with if can do does doing make making one ones way ways two both either same so now then is it's that this just like want be are there there's here up whole lot cut out get got going whichever number my his hers her their they both not no but what how when time me us all into over at by he she some little bit good quick other")

// stem cuts the usual endings, so that "shape", "shaped" and "shaper" agree.
func stem(w string) string {
	w = strings.TrimSuffix(w, "'s")
	for _, end := range []string{"ers", "er", "ing", "ed", "es", "s", "e"} {
		if strings.HasSuffix(w, end) && len(w)-len(end) >= 3 {
			w = w[:len(w)-len(end)]
			break
		}
	}
	if n := len(w); n > 3 && w[n-1] == w[n-2] {
		w = w[:n-1]
	}
	if n := len(w); n > 2 && w[n-1] == 'y' {
		w = w[:n-1] + "i"
	}
	return w
}

// announcedWays collects the words said around each choice, and where the
// telling can begin.
func (t *talk) announcedWays() (map[string]bool, int) {
	out := map[string]bool{}
	from := -1
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing || s.kind == figures {
			continue
		}
		if t.hasAny(s.First, s.Last, choiceCue) < 0 {
			continue
		}
		if from < 0 {
			from = s.Last
		}
		for j := k; j <= min(len(t.sents)-1, k+4); j++ {
			o := &t.sents[j]
			if o.para > s.para+1 {
				break
			}
			for i := o.First; i < o.Last; i++ {
				if w := t.norm(i); !wayStop[w] && t.quantityAt[i] < 0 {
					out[stem(w)] = true
				}
			}
		}
	}
	return out, from
}

// wayHead reads the head of a way in a sentence: its name, and the announced
// word it takes up.
func (t *talk) wayHead(s *sentence, announced map[string]bool) (string, string) {
	i := s.First
	for i < s.Last && i < s.First+6 && (headWords[t.norm(i)] || t.norm(i) == "my" || t.norm(i) == "turn" || t.norm(i) == "go" || t.norm(i) == "on") {
		i++
	}
	if i >= s.Last {
		return "", ""
	}
	name := func(a, b int) (string, string) {
		var ws []string
		key := ""
		for k := a; k < b && k < s.Last; k++ {
			w := strings.TrimSuffix(t.norm(k), "'s")
			if determiners[w] || articleLike[w] || wayNoun[w] || wayStop[w] {
				continue
			}
			if t.quantityAt[k] >= 0 || t.actionAt[k] >= 0 || youWe[w] || others[w] || leadAdverbs[w] && t.toolAt[k] < 0 || strings.Contains(w, "'") {
				return "", ""
			}
			ws = append(ws, w)
			if announced[stem(w)] && key == "" {
				key = stem(w)
			}
		}
		if key == "" || len(ws) == 0 || len(ws) > 3 || !t.punctuated && (len(ws) > 2 || stem(ws[len(ws)-1]) != key && stem(ws[0]) != key) {
			return "", ""
		}
		return t.wayName(a, b, ws), key
	}
	end := func(a int) int { // the end of a short phrase from a
		b := a
		for b < s.Last && b < a+5 {
			b++
			if t.toks[b-1].After != 0 {
				break
			}
			w := t.norm(b)
			if b < s.Last && (youWe[w] || w == "it" || w == "is" || w == "they" || w == "get" || w == "you'll" || w == "then" || w == "and" || w == "because" || w == "wants" || w == "goes" || w == "take" || t.isImperative(b) || w == "for" || w == "like" || w == "in" && b > a+1) {
				break
			}
		}
		return b
	}
	switch w := t.norm(i); {
	case w == "way" || (w == "first" || w == "second" || w == "other" || w == "third") && wayNoun[t.norm(i+1)] || w == "the" && wayNoun[t.norm(i+2)] && (t.norm(i+1) == "first" || t.norm(i+1) == "second" || t.norm(i+1) == "other"):
		// "way number two, the steamer", "the second way is the oven"
		k := i + 1
		for k < s.Last && k < i+6 && (wayNoun[t.norm(k)] || wayStop[t.norm(k)] || t.numberAt(k) || t.norm(k) == "first" || t.norm(k) == "second") {
			k++
		}
		return name(k, end(k))
	case w == "if":
		k := i + 1
		for k < s.Last && k < i+7 && (wayStop[t.norm(k)] || youWe[t.norm(k)] || t.norm(k) == "using" || t.norm(k) == "having" || t.norm(k) == "doing" || t.norm(k) == "want" || t.norm(k) == "prefer" || t.norm(k) == "rather" || t.norm(k) == "go" || t.norm(k) == "chose" || t.norm(k) == "taking" || t.norm(k) == "making" || t.norm(k) == "baking" || t.norm(k) == "cooking") {
			k++
		}
		if !t.chooses(i+1, k) {
			return "", ""
		}
		if k >= s.Last || t.mentionAt[k] >= 0 && !t.mentions[t.mentionAt[k]].food.Dish && t.madeAt[k] == 0 {
			return "", ""
		}
		return name(k, end(k))
	case w == "for":
		k := i + 1
		e := end(k)
		// "for the hot one you take"; a bare "for the glaze" opens a part
		for b := k; b < e; b++ {
			if wayNoun[t.norm(b)] {
				return name(k, b+1)
			}
		}
		if e < s.Last && t.toks[e-1].After != 0 && t.component(k+1) == 0 && t.mentionAt[min(k+1, len(t.toks)-1)] < 0 {
			return name(k, e)
		}
		return "", ""
	case w == "do" && t.norm(i+1) == "the":
		return name(i+2, end(i+2))
	case w == "and" || w == "or":
		return "", ""
	}
	// a fragment: "Now the cold one.", "Skillet.", "So, boiled.", "Okay, hot."
	k := i
	for k < s.Last && (determiners[t.norm(k)] || articleLike[t.norm(k)]) {
		k++
	}
	e := end(k)
	if e-k > 4 || e <= k {
		return "", ""
	}
	close := e >= s.Last || t.toks[e-1].After != 0 && (e-s.First <= 5)
	hasNoun := false
	for b := k; b < e; b++ {
		hasNoun = hasNoun || wayNoun[t.norm(b)]
	}
	if t.mentionAt[k] >= 0 && !hasNoun && !t.mentions[t.mentionAt[k]].food.Dish {
		return "", ""
	}
	if hasNoun && t.quantityAt[k] < 0 && e-s.First <= 7 || close && t.actionAt[k] < 0 && s.Len() <= 9 && t.methodWord(k, e) {
		return name(k, e)
	}
	return "", ""
}

// chooses reports whether the words after "if" tell of a choice of method:
// "you're doing", "it's", "you want to", "you've gone for".
func (t *talk) chooses(a, b int) bool {
	for i := a; i < b; i++ {
		switch t.norm(i) {
		case "you're", "it's", "doing", "making", "using", "want", "prefer", "rather", "go", "going", "having", "chose", "taking", "baking", "cooking", "for":
			return true
		}
	}
	return false
}

// methodWord reports whether tokens [a, b) name a heat, an appliance or a
// state a dish is made in: "skillet", "boiled", "cold".
func (t *talk) methodWord(a, b int) bool {
	for i := a; i < b; i++ {
		w := t.norm(i)
		if determiners[w] || articleLike[w] || t.toks[i].Joined {
			continue
		}
		if x := t.toolAt[i]; x >= 0 {
			switch t.tools[x].eq.Kind {
			case "appliance", "heat", "pan", "oven-dish", "tin":
				continue
			}
			return false
		}
		switch w {
		case "hot", "cold", "warm", "raw", "oven", "stovetop", "microwave", "grill", "chilled", "frozen", "quick", "slow", "fast":
			continue
		}
		done := false
		for _, f := range t.lex.Verbs(w) {
			if f.Form == lexicon.Past && (f.Action.Kind == "heat" || f.Action.Kind == "shape" || f.Action.Kind == "rest") {
				done = true
			}
		}
		if !done && t.norm(i) != "pan" {
			return false
		}
	}
	return true
}

func (t *talk) numberAt(i int) bool {
	_, n := language.ReadNumber(t.toks, i)
	return n > 0
}

// isImperative reports whether a strong verb in its base form stands at i.
func (t *talk) isImperative(i int) bool {
	for _, f := range t.verbs(i) {
		if f.Form == lexicon.Base && !f.Action.Noun && !f.Action.Weak {
			return true
		}
	}
	return false
}

// wayName writes the name of a way from its words.
func (t *talk) wayName(a, b int, ws []string) string {
	if len(ws) == 2 {
		for k := a; k+1 < b; k++ {
			if t.toks[k+1].Joined && t.norm(k) == ws[0] {
				return strings.Join(ws, "-")
			}
		}
	}
	return strings.Join(ws, " ")
}

// wayOf gives the way open at token i, -1 for all.
func (t *talk) wayOf(i int) int {
	if n := sort.Search(len(t.ways), func(k int) bool { return t.ways[k].tok > i }); n > 0 {
		return t.ways[n-1].name
	}
	return -1
}
