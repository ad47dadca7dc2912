package extract

import (
	"sort"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// cluster is a run of sentences in which one thing is made.
type cluster struct {
	from, to int   // sentences [from, to)
	strong   bool  // begins where something was finished or left alone, not only with another food
	joins    bool  // goes on with the cluster before
	head     bool  // a part that was announced begins in it
	foods    []int // mentions of what first goes in here
	done     int   // the sentence after the last that puts something in
	name     string
	said     language.Span // the words that name it
}

// markComponents finds parts that no words announce: what is told of foods and
// work between one thing's end and another's beginning, and is named only
// afterwards ("cut the dough", "a spoonful of filling", "pour the custard
// over"). Nothing is marked where fewer than two things get a name.
func (t *talk) markComponents() {
	if len(t.dishes) > 1 {
		return
	}
	list := t.cutClusters()
	if len(list) < 2 || len(list) > mostClusters {
		return
	}
	names := t.namings()
	announced := t.anyHead(list)
	if announced {
		t.leaveMain(list)
	}
	t.nameByPurpose(list)
	t.nameKept(list, names)
	t.nameMade(list, names)
	if !announced {
		t.nameFoods(list, names)
	}
	t.openClusters(list, names)
}

// anyHead reports whether a cluster begins with an announced part.
func (t *talk) anyHead(list []cluster) bool {
	for j := range list {
		if list[j].head {
			return true
		}
	}
	return false
}

// leaveMain keeps what is told before the first announced part as the main
// part, and what goes on with the part before.
func (t *talk) leaveMain(list []cluster) {
	list[0].head = true
	for j := 1; j < len(list); j++ {
		list[j].joins = !list[j].head && !list[j].strong
	}
}

// nameKept names clusters that begin with the name of a thing that is told to
// keep by itself, whatever the word: "The zobo you should have started", "Zobo is
// okay for five days".
func (t *talk) nameKept(list []cluster, names []naming) {
	for n := range names {
		x := &names[n]
		if x.use != kept || x.food != strangeWord || t.partNamed(x.word) {
			continue
		}
		for j := range list {
			l := &list[j]
			if l.head || l.name != "" || !l.strong || l.from >= x.sent || len(l.foods) < 2 {
				continue
			}
			s := &t.sents[l.from]
			if i := t.has(s.First, min(s.Last, s.First+7), t.phrase(x.First, x.Last)); i >= 0 {
				l.name, l.said = t.partName(x.First, x.Last), language.Span{First: i, Last: i + x.Len()}
				break
			}
		}
	}
}

// purposes tell in a cluster what it's for, each with the part it is.
var purposes = []struct {
	words cueList
	part  string
}{
	{cues("to dunk", "for dunking", "to dip", "for dipping", "dip them in", "dunk them in", "dip it in"), "dipping sauce"},
}

// namedFor gives the cluster that is known by its purpose and can be called by
// the word, -1 for none.
func namedFor(list []cluster, w string) int {
	for j := range list {
		if list[j].name == "dipping sauce" && (w == "dip" || w == "sauce") {
			return j
		}
	}
	return -1
}

// nameByPurpose names clusters that begin by telling what they are for: "get a
// little dish together to dunk them in".
func (t *talk) nameByPurpose(list []cluster) {
	for j := 1; j < len(list); j++ {
		l := &list[j]
		if l.head || !l.strong || len(l.foods) < 2 {
			continue
		}
		s := &t.sents[l.from]
		for _, p := range purposes {
			if i, n := t.cueIn(p.words, s.First, s.Last); i >= 0 && !t.partNamed(p.part) {
				l.name, l.said = p.part, language.Span{First: i, Last: i + n}
			}
		}
	}
}

// mostClusters is more things than any dish is made of: a talk cut into more
// holds no single dish.
const mostClusters = 60

// worked reports whether the sentence tells of the dish's making.
func (t *talk) worked(s *sentence) bool {
	switch s.kind {
	case storing, figures, yielding:
		return false
	case aside:
		return s.Len() <= 6
	}
	return !s.recap && !s.other && (!s.naming || t.measuredFoods(s) > 1)
}

// measuredFoods counts the foods of the sentence that an amount stands next to.
func (t *talk) measuredFoods(s *sentence) int {
	n := 0
	for _, m := range t.mentionsIn(s.First, s.Last) {
		n += b2n(t.measuredHere(&t.mentions[m]), 1)
	}
	return n
}

// freshFoods gives for each sentence the foods that go in first there: those
// named before, or that may be meant by a fuller name, only where they are
// measured again.
func (t *talk) freshFoods() [][]int { return t.freshFoodsFrom(t.preface()) }

// freshFoodsFrom does so from sentence preface on.
func (t *talk) freshFoodsFrom(preface int) [][]int {
	out := make([][]int, len(t.sents))
	seen := map[string]bool{}
	for k := range t.sents {
		s := &t.sents[k]
		if !t.worked(s) || k < preface {
			continue
		}
		for _, m := range t.mentionsIn(s.First, s.Last) {
			mm := &t.mentions[m]
			if mm.negated || mm.compared || mm.mixed || mm.food.Dish || mm.food.Made {
				continue
			}
			ws := mm.food.Words()
			if len(ws) == 0 {
				continue
			}
			key := ws[len(ws)-1]
			measured := t.measuredHere(mm)
			if s.kind == plain && !measured && !t.topic(s, m) {
				continue
			}
			if seen[key] && !(measured && t.measuredFirmly(mm)) || mm.definite && !measured && s.kind != listing && t.servesAt(mm.First) {
				continue
			}
			seen[key] = true
			switch mm.food.Kind {
			case "meat", "poultry", "fish", "shellfish":
				for _, w := range ws {
					seen[w] = true // "the chicken" of the chicken thighs
				}
			}
			out[k] = append(out[k], m)
		}
	}
	return out
}

// preface gives the sentence before which all foods of the dish are read out,
// before anything is done; 0 where they aren't.
func (t *talk) preface() int {
	measured := 0
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == instruction && measured > 0 && len(t.actionsIn(s)) > 0 {
			if measured >= 8 {
				return k
			}
			return 0
		}
		if s.kind == listing {
			measured += t.measuredFoods(s)
		}
	}
	return 0
}

// measuredHere reports whether an amount stands right before the food or right
// behind it.
func (t *talk) measuredHere(m *mention) bool {
	for i := m.First - 1; i >= m.First-2 && i >= 0; i-- {
		if q := t.quantityAt[i]; q >= 0 && t.sentOf[i] == t.sentOf[m.First] {
			return t.quantities[q].kind == measure || t.quantities[q].kind == count || t.quantities[q].kind == vague
		}
	}
	if q := t.mentionQuantity(m); q >= 0 {
		return t.quantities[q].kind == measure || t.quantities[q].kind == count && !t.quantities[q].article
	}
	return false
}

// measuredFirmly reports whether the amount next to the food is more than "some".
func (t *talk) measuredFirmly(m *mention) bool {
	for i := max(0, m.First-2); i <= m.Last && i < len(t.toks); i++ {
		if q := t.quantityAt[i]; q >= 0 && t.sentOf[i] == t.sentOf[m.First] && (t.quantities[q].kind == measure || t.quantities[q].kind == count) {
			return true
		}
	}
	return false
}

// mentionQuantity gives the quantity that stands inside the mention or next to
// its end, -1 for none.
func (t *talk) mentionQuantity(m *mention) int {
	for i := m.First; i <= m.Last && i < len(t.toks); i++ {
		if t.sentOf[i] == t.sentOf[m.First] && t.quantityAt[i] >= 0 {
			return int(t.quantityAt[i])
		}
	}
	return -1
}

// cutClusters cuts the talk where one thing is left and another begun.
func (t *talk) cutClusters() []cluster {
	fresh := t.freshFoods()
	heads := t.liveHeads(fresh)
	var list []cluster
	left := false // what was being made stands, cooks or is put away
	for k := range t.sents {
		s := &t.sents[k]
		if !t.worked(s) && !heads[k] && !(t.opensPara(k) && !t.lineByLine && t.toldLate(s)) {
			continue
		}
		soon := t.soonFresh(fresh, k)
		opens, strong := t.opensCluster(k, fresh, left)
		switch {
		case heads[k]:
			list = append(list, cluster{from: k, to: k, strong: true, head: true})
			left = false
		case soon && opens && (!s.forgotten || t.toldLate(s)):
			list = append(list, cluster{from: k, to: k, strong: strong})
			left = false
		case len(fresh[k]) > 0 && len(list) == 0:
			list = append(list, cluster{from: k, to: k, strong: true})
		}
		if len(list) == 0 {
			continue
		}
		l := &list[len(list)-1]
		l.to = k + 1
		if len(fresh[k]) > 0 {
			l.foods = append(l.foods, fresh[k]...)
			l.done = k + 1
			left = false
		}
		left = left || t.leaves(s)
	}
	return list
}

// liveHeads gives the sentences in which a part is announced that foods go
// into, but for one that names the whole dish.
func (t *talk) liveHeads(fresh [][]int) map[int]bool {
	heads := map[int]bool{}
	t.live = make([]bool, len(t.partNames))
	for n, p := range t.parts {
		if p.name < 0 {
			continue
		}
		end := len(t.sents)
		if n+1 < len(t.parts) {
			end = int(t.sentOf[t.parts[n+1].tok])
		}
		k := int(t.sentOf[p.tok])
		if len(t.partNames) == 1 && k < len(t.sents)/8 && t.titleWord(p.span.Last-1) {
			continue
		}
		for j := k; j < end && !heads[k]; j++ {
			heads[k] = len(fresh[j]) > 0
		}
		t.live[p.name] = t.live[p.name] || heads[k]
	}
	return heads
}

// soonFresh reports whether a food goes in first in sentence k, the one after
// it, or further on in the paragraph that k begins.
func (t *talk) soonFresh(fresh [][]int, k int) bool {
	if len(fresh[k]) > 0 || k+1 < len(t.sents) && t.sents[k].Len() <= 16 && len(fresh[k+1]) > 0 {
		return true
	}
	if t.lineByLine || !t.opensPara(k) {
		return false
	}
	for j := k + 1; j < len(t.sents) && t.sents[j].para == t.sents[k].para; j++ {
		if len(fresh[j]) > 0 {
			return true
		}
	}
	return false
}

// opensCluster reports whether sentence k turns to something else, and whether
// the turn is more than another food.
func (t *talk) opensCluster(k int, fresh [][]int, left bool) (opens, strong bool) {
	s := &t.sents[k]
	para := t.opensPara(k) && !t.lineByLine
	switch {
	case t.meantime(s, para):
		return true, true
	case t.ownVessel(s):
		return true, true
	case left && (para || t.captions() && t.turnsToFoods(s, len(fresh[k]))):
		return true, true
	case t.colourTopic(s, para):
		return true, true
	case para && t.toldLate(s):
		return true, true
	case para && len(fresh[k]) > 0 && t.topic(s, fresh[k][0]):
		return true, false
	}
	return false, false
}

// captions reports whether the transcript's cues are lines rather than
// paragraphs, so that none tells where a thing ends.
func (t *talk) captions() bool { return t.lineByLine || len(t.n.Words) <= captionWords*len(t.n.Cues) }

// turnsToFoods reports whether the sentence, after something was left, begins
// as that of another thing does: with a word of turning and a food that is new,
// or with two of them that go into nothing.
func (t *talk) turnsToFoods(s *sentence, fresh int) bool {
	switch t.norm(s.First) {
	case "next", "now", "right", "okay", "ok", "so", "then":
		return fresh > 0
	case "add", "stir", "fold", "throw", "tip", "put", "pour", "return", "and", "when", "once", "after":
		return false
	}
	return fresh > 1 && t.has(s.First, s.Last, "into it", "in it", "to it", "to that", "into that", "put it", "in there") < 0
}

// toldLate reports whether the sentence begins with a thing that should have
// been begun before: "The zobo you should have started this morning".
func (t *talk) toldLate(s *sentence) bool {
	return t.has(s.First, min(s.Last, s.First+8), "you should have", "you should've", "i should have", "i should've", "should be made", "wants making", "you make ahead", "you want to have made", "you'll have made") >= 0
}

// meantimes begin what is done while something else stands or cooks.
var meantimes = cues("meanwhile", "meantime", "in the meantime", "in the meanwhile", "in the mean time", "at the same time", "while it", "while it's", "while that", "while that's", "while they", "while they're", "while this", "while those", "while these", "while the", "while your", "while my", "while all", "while everything", "whilst it", "whilst it's", "whilst that", "whilst that's", "whilst they", "whilst they're", "whilst the",
	"as it's", "as that's", "as they're", "with that in", "with that resting", "with that chilling", "with that cooling", "with that going", "with it in", "with them in", "once that's in", "now that's in", "while you've the", "while you've got the", "while you've that", "while you've got that", "while you're waiting", "while you wait", "while we're waiting", "while we wait", "while i'm waiting", "while i wait")

// meantime reports whether the sentence begins with, or at a paragraph's start
// ends in, words for the time that something else stands.
func (t *talk) meantime(s *sentence, para bool) bool {
	i := s.First
	for i < s.Last && i < s.First+5 {
		if t.cueAt(meantimes, i, s.Last) > 0 {
			return true
		}
		if !headWords[t.norm(i)] {
			break
		}
		i++
	}
	if !para {
		return false
	}
	for ; i < s.Last; i++ {
		if t.norm(i) == "while" && t.cueAt(meantimes, i, s.Last) > 0 {
			return true
		}
	}
	return false
}

// ownWords are words that make a vessel another than the one in use.
var ownWords = words("another second separate different small little tiny clean new other")

// emptied are words that move what is in hand to a vessel, and open nothing.
var emptied = words("out off lift drain strain scrape transfer scoop tip remove decant sieve pass turn move return pour it them that those everything this spoon push")

// plainVessel are vessels of the table that stand in a kitchen anyway.
var plainVessel = words("jar bowl cup mug pan pot dish jug saucepan basin skillet wok")

// ownVessel reports whether the sentence takes a vessel of its own: "in a small
// bowl", "get a little dish".
func (t *talk) ownVessel(s *sentence) bool {
	for i := s.First; i < s.Last && i < s.First+12; i++ {
		x := t.toolAt[i]
		if t.in(aPlainVessel, i) && ownWords[t.norm(i-1)] {
			return true
		}
		if x < 0 {
			if t.in(anEmptied, i) {
				return false
			}
			continue
		}
		tool := &t.tools[x]
		switch tool.eq.Kind {
		case "pan", "bowl", "jar", "oven-dish":
		default:
			continue
		}
		for j := max(s.First, tool.First-3); j < tool.Last; j++ {
			if ownWords[t.norm(j)] {
				return true
			}
		}
	}
	return false
}

// topic reports whether the sentence begins with the food: "Potatoes I like
// floury", "Two cups of basmati".
func (t *talk) topic(s *sentence, m int) bool {
	switch t.mentions[m].food.Kind {
	case "meat", "poultry", "fish", "shellfish", "grain", "pasta", "legume", "vegetable", "bread", "fruit", "egg", "flour", "dairy":
	default:
		return false
	}
	for i := s.First; i < t.mentions[m].First; i++ {
		if !headWords[t.norm(i)] && !articleLike[t.norm(i)] && t.quantityAt[i] < 0 && t.norm(i) != "of" {
			return false
		}
	}
	return true
}

// rests are verbs that leave a thing to itself.
var rests = words("rest chill cool sit stand soak marinate marinade prove proof rise refrigerate freeze set leave bake roast simmer steep infuse cover fluff strain drain reserve park steam")

// putAways tell that a thing is put away or is done, without a verb for it.
var putAways = cues("to one side", "on one side", "put it by", "put that by", "set aside", "put aside", "leave by", "put by", "in the fridge", "into the fridge", "in the freezer", "into the freezer", "in the oven", "into the oven", "lid on", "that's that", "that's done", "that's it", "that's ready", "all done", "off the heat", "keep warm", "keep it warm", "lift out", "lift them out", "off to the side", "out of the way")

// leaves reports whether the thing being made is left to itself or done with in
// the sentence.
func (t *talk) leaves(s *sentence) bool {
	if i, _ := t.cueIn(putAways, s.First, s.Last); i >= 0 {
		return true
	}
	for _, a := range t.actionsIn(s) {
		if x := &t.actions[a]; rests[x.base] && x.mood != negative {
			return true
		}
	}
	return false
}

// use is how a thing made before is spoken of.
type use uint8

const (
	handled use = iota // something is done to it
	served             // it is put over, on or beside something
	stirred            // it goes into something
	poured             // it is poured into something
	kept               // it's told how it keeps
	named              // it's told what was made: "that's your salsa"
)

// naming is one place where a thing is named as made before.
type naming struct {
	language.Span
	sent int
	word string // its last word
	food int    // mention, or madeWord, or strangeWord
	use  use
}

// strangeWord stands for the mention of a thing named by a word of no table.
const strangeWord = -2

// madeWord stands for the mention of a thing named by a made-word.
const madeWord = -1

// namings finds what is named with an article, or by a measure of it, as things
// made before are.
func (t *talk) namings() []naming {
	var out []naming
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == aside && s.Len() > 6 || s.kind == figures || s.other || s.naming {
			continue
		}
		plated := false // things are laid on the plate one after another
		for i := s.First; i < s.Last; i++ {
			n, ok := t.namingAt(s, k, i)
			if m := t.mentionStart(i); !ok && plated && t.bareNames && m >= 0 && i > s.First && t.toks[i-1].After != 0 && len(t.mentions[m].amounts) == 0 {
				h := t.mentions[m].head
				n, ok = naming{h, k, t.norm(h.Last - 1), m, served}, true
			}
			if ok {
				out = append(out, n)
				i = n.Last - 1
				plated = plated || n.use == served && (t.laidOut(s, n.First) || t.laidOut(s, max(s.First, n.First-1)))
			}
		}
	}
	return out
}

// made are the words before a thing made before.
var madeBefore = words("the your my our this these")

func (t *talk) namingAt(s *sentence, k, i int) (naming, bool) {
	a := i
	said := t.presents(i)
	switch {
	case t.in(aMadeBefore, i) && t.joined(i):
		a++
	case said:
	case t.norm(i) == "of" && i > s.First && t.joined(i) && t.quantityAt[i] >= 0:
		a++
	case s.kind == storing && i == s.First:
	case t.laidOut(s, i):
	default:
		return naming{}, false
	}
	if a >= s.Last || t.spotAt(a) > 0 {
		return naming{}, false
	}
	if m := t.mentionStart(a); m >= 0 && t.norm(i) == "of" && !mixtures[t.norm(t.mentions[m].head.Last-1)] {
		return naming{}, false // "four tablespoons of mayonnaise"
	} else if m >= 0 && t.homeMade(&t.mentions[m]) {
		h := t.mentions[m].head
		u := t.useAt(s, i, h.Last)
		if said {
			u = named
		}
		return naming{language.Span{First: a, Last: h.Last}, k, t.norm(h.Last - 1), madeWord, u}, true
	} else if said && m >= 0 {
		return naming{}, false
	} else if m >= 0 && a > i == t.mentions[m].definite || m >= 0 && s.kind == storing {
		mm := &t.mentions[m]
		if mm.negated || mm.compared || mm.mixed || t.madeAfter(mm) {
			return naming{}, false
		}
		if e := mm.head.Last; s.kind == storing && t.joined(e-1) && t.mentionStart(e) >= 0 {
			// "the barley water": a thing of its own name
			return naming{language.Span{First: mm.head.First, Last: t.mentions[t.mentionStart(e)].head.Last}, k, t.norm(e), strangeWord, kept}, true
		}
		return naming{mm.head, k, t.norm(mm.head.Last - 1), m, t.useAt(s, i, mm.head.Last)}, true
	}
	if w := strings.TrimSuffix(t.norm(a), "'s"); w != t.norm(a) && t.lex.Component[w] != nil && t.mentionAt[a] < 0 && a > i {
		return naming{language.Span{First: a, Last: a + 1}, k, w, madeWord, t.useAt(s, i, a+1)}, true // "the slaw's good for two days"
	}
	if t.colourAt(s, a) && (a > i || t.punctuated) {
		if u := t.useAt(s, i, a+1); u == served {
			return naming{language.Span{First: a, Last: a + 1}, k, t.norm(a), -1, u}, true
		}
	}
	e := t.component(a)
	if e <= a || e > s.Last {
		if u := t.useAt(s, i, a+1); u == kept && t.unknownThing(s, a) {
			return naming{language.Span{First: a, Last: a + 1}, k, t.norm(a), strangeWord, u}, true
		}
		return naming{}, false
	}
	w := t.norm(e - 1)
	if t.lex.Component[w] == nil && !said {
		return naming{}, false
	}
	u := t.useAt(s, i, e)
	if said {
		u = named
	}
	return naming{language.Span{First: a, Last: e}, k, w, madeWord, u}, true
}

// presents reports whether the words before token i tell what a thing is that
// stands there: "that's the salsa", "and that's your filling done".
func (t *talk) presents(i int) bool {
	switch t.norm(i - 1) {
	case "that's", "there's", "here's":
		return true
	case "is":
		return t.norm(i-2) == "that" || t.norm(i-2) == "this"
	}
	return false
}

// unknownThing reports whether the word at i is one of no table that is said
// more than once and is the subject of its clause: "Zobo is okay".
func (t *talk) unknownThing(s *sentence, i int) bool {
	w := t.norm(i)
	if len(w) < 4 || t.mentionAt[i] >= 0 || t.toolAt[i] >= 0 || t.quantityAt[i] >= 0 || t.verbs(i) != nil || headWords[w] || determiners[w] || t.lex.Modifiers[w] != lexicon.NoClass || speechWord[w] {
		return false
	}
	switch t.norm(i + 1) {
	case "is", "keeps", "lasts", "will", "can", "stays", "freezes", "goes", "you", "it", "does", "in", "for", "should", "won't", "doesn't", "has":
	default:
		if i+1 < s.Last && t.toks[i].After == 0 && t.quantityAt[i+1] < 0 {
			return false
		}
	}
	return t.saidTimes(w, 3)
}

// speechWord are everyday words that begin sentences.
var speechWord = words("this that these those what which there here they then some mine yours ours everything anything nothing somebody leftovers leftover rest whole thing things stuff fridge freezer refrigerator covered airtight with after before once when where while keep keeps store stored storage ever never always don't maybe please people just only will each half mind otherwise again later today tomorrow")

// layings follow what is laid on the plate: "slaw on the side".
var layings = cues("goes on", "go on", "in the bowl", "in bowls", "in a bowl", "in the bottom", "on the bottom", "in the middle", "underneath", "goes in the bowl", "onto the plate", "on a plate", "on the", "onto the", "over the", "on the side", "on the plate", "on the plates", "on top", "on each plate", "to the side", "round the side", "around the side", "over the top", "alongside")

// laidOut reports whether the clause that begins at i only tells where the
// thing named lies: "Ribs on the plate, slaw on the side".
func (t *talk) laidOut(s *sentence, i int) bool {
	if t.punctuated && i > s.First && t.toks[i-1].After == 0 && !(t.bareNames && madeBefore[t.norm(i-1)]) || !t.punctuated && i > s.First && (!t.bareNames || t.actionAt[i-1] >= 0) {
		return false
	}
	for e := i + 1; e < s.Last && e <= i+2; e++ {
		if t.cueAt(layings, e, s.Last) > 0 || t.norm(e) == "over" && (e+1 >= s.Last || t.toks[e].After != 0) {
			return true
		}
		if t.toks[e-1].After != 0 {
			return false
		}
		if t.in(aBeside, e) && t.norm(e+1) == "the" && t.mentionStart(e+2) >= 0 && len(t.actionsIn(s)) == 0 {
			return true // "salmon on the potatoes"
		}
	}
	return false
}

// colourTopic reports whether the sentence turns to a thing called by its
// colour: "And the white, for the top".
func (t *talk) colourTopic(s *sentence, para bool) bool {
	i := s.First
	for i < s.Last && t.in(aHeadWord, i) || i < s.Last && (t.norm(i) == "in" || t.norm(i) == "the" && !colours[t.norm(i+1)]) {
		i++
	}
	return para && t.norm(i) == "the" && i+1 < s.Last && t.colourAt(s, i+1)
}

var colours = words("red white green yellow brown orange pink black")

// colourAt reports whether the colour at i stands for a thing: "pour the white
// over".
func (t *talk) colourAt(s *sentence, i int) bool {
	return colours[t.norm(i)] && t.mentionAt[i] < 0 && (i+1 >= s.Last || t.toks[i].After != 0 || besides[t.norm(i+1)] || t.norm(i+1) == "goes")
}

// homeMade reports whether the food's name is that of a thing that is made in
// kitchens too, and nothing tells it is bought.
func (t *talk) homeMade(m *mention) bool {
	w := t.norm(m.head.Last - 1)
	return t.lex.Component[w] != nil && w != "cream" && (m.food.Made || m.head.Len() == 1) && !t.measuredHere(m)
}

// madeAfter reports whether a word for a thing made follows the food: "the
// cheese sauce".
func (t *talk) madeAfter(m *mention) bool {
	return m.head.Last < len(t.toks) && t.joined(m.head.Last-1) && t.madeAt[m.head.Last] > 0 && t.mentionAt[m.head.Last] < 0
}

var servingVerbs = words("serve brush pour drizzle spoon spread toss smear rub dollop baste scatter slather coat top fill ladle pile layer sandwich lay arrange dip dunk pipe sprinkle cover stuff plate ice frost dress assemble")
var stirringVerbs = words("add stir tip fold throw return mix whisk combine beat chuck put slide bring")
var besides = words("over with alongside beside on onto under between underneath atop around")

// dollops are what is put on a plate of a thing made: "a drizzle of the crema".
var dollops = words("drizzle spoon spoonful spoonfuls dollop dollops ladle plenty pile lots bit puddle blob heap handful swirl")

// servesAt reports whether the thing at token i is put over or beside another.
func (t *talk) servesAt(i int) bool {
	s := t.sentence(i)
	return t.useAt(s, i, i+1) == served
}

// useAt tells how the thing named at [i, e) is spoken of.
func (t *talk) useAt(s *sentence, i, e int) use {
	if s.kind == storing || t.keepingPara(s) {
		return kept
	}
	if t.laidOut(s, i) {
		return served
	}
	for j := i - 1; j >= s.First && j >= i-2; j-- {
		if t.in(aBeside, j) || t.norm(j) == "of" && dollops[t.norm(j-1)] {
			return served
		}
	}
	for j := i - 1; j >= s.First && j >= i-8; j-- {
		a := t.actionAt[j]
		if a < 0 || t.actions[a].tok != j {
			continue
		}
		base := t.actions[a].base
		into := false
		for x := j + 1; x < s.Last && x < e+3; x++ {
			switch t.norm(x) {
			case "in", "into", "back", "through":
				if t.plateAt(x+1, s.Last) {
					return served
				}
				into = true
			case "over", "on", "onto", "around":
				return served
			}
		}
		switch {
		case base == "pour" && into:
			return poured
		case stirringVerbs[base]:
			return stirred
		case servingVerbs[base]:
			return served
		}
		return handled
	}
	return handled
}

// plates are what food is eaten from or wrapped in.
var plates = words("bowl bowls plate plates platter bun buns tortilla tortillas wrap wraps glass glasses roll rolls pitta pittas")

// plateAt reports whether a plate is named at token i, before end.
func (t *talk) plateAt(i, end int) bool {
	for j := i; j < end && j < i+4; j++ {
		if plates[t.norm(j)] {
			return true
		}
	}
	return false
}

// keepingPara reports whether the sentence goes on with how the dish keeps:
// "The barley, just the two days."
func (t *talk) keepingPara(s *sentence) bool {
	k := int(t.sentOf[s.First])
	if s.kind == instruction && !s.past || s.kind == listing || t.lineByLine {
		return t.has(s.First, s.Last, "freezing", "don't freeze", "never freeze") >= 0
	}
	for j := k - 1; j >= 0 && j >= k-6 && t.sents[j].para == s.para; j-- {
		if t.sents[j].kind == storing {
			return true
		}
	}
	return k+1 < len(t.sents) && t.sents[k+1].para == s.para && t.sents[k+1].kind == storing
}

// nameMade names clusters by words for what was made: each word the last
// cluster before it that holds what such a thing is made of.
func (t *talk) nameMade(list []cluster, names []naming) {
	told, order := madeWords(names)
	for _, w := range order {
		if c := t.lex.Component[w]; t.partNamed(w) || t.wholeTitle(w) && !(c != nil && c.Served) {
			continue
		}
		if j := namedFor(list, w); j >= 0 {
			n := told[w][0]
			list[j].name, list[j].said = t.partName(names[n].First, names[n].Last), names[n].Span
			continue
		}
		c := t.lex.Component[w]
		if c == nil {
			c = &anything
		}
		if !t.canBePart(c, names, told[w]) {
			continue
		}
		for _, n := range told[w] {
			if j := t.clusterFor(list, &names[n], c); j >= 0 {
				if list[j].head {
					t.restMade = t.partName(names[n].First, names[n].Last)
					break
				}
				list[j].name, list[j].said = t.partName(names[n].First, names[n].Last), names[n].Span
				break
			}
		}
	}
}

// madeWords gives the namings by each word for what was made, and the words in the
// order they were said first.
func madeWords(names []naming) (told map[string][]int, order []string) {
	told = map[string][]int{}
	for n := range names {
		if names[n].food != madeWord {
			continue
		}
		if told[names[n].word] == nil {
			order = append(order, names[n].word)
		}
		told[names[n].word] = append(told[names[n].word], n)
	}
	return told, order
}

// canBePart reports whether any of the namings uses the thing as a part is used:
// served or kept, or, where it isn't only served, poured, handled or measured.
func (t *talk) canBePart(c *lexicon.Component, names []naming, told []int) bool {
	for _, n := range told {
		switch names[n].use {
		case served, kept:
			return true
		case poured, handled:
			if !c.Served {
				return true
			}
		}
		if c.Any || !c.Served && t.measureOf(names[n].First) {
			return true
		}
	}
	return false
}

// rankBefore tells how near the foods named before token i are to what a component
// is made of: the best rank of at least two of them, len(c.From) for none.
func (t *talk) rankBefore(c *lexicon.Component, foods []int, i int) int {
	before, r := 0, len(c.From)
	for _, m := range foods {
		if t.mentions[m].First < i {
			before++
			r = min(r, c.Rank(t.mentions[m].food))
		}
	}
	if before < 2 {
		return len(c.From)
	}
	return r
}

// anything can be what a colour stands for.
var anything = lexicon.Component{From: []string{"*"}, Served: true}

// measureOf reports whether a measure is taken of the thing at token i.
func (t *talk) measureOf(i int) bool { return i > 0 && t.norm(i-1) == "of" }

// partNamed reports whether a part has the word for its name.
func (t *talk) partNamed(w string) bool {
	for i, n := range t.partNames {
		if t.live[i] && n == w || t.live[i] && strings.HasSuffix(n, " "+w) {
			return true
		}
	}
	return false
}

// wholeTitle reports whether the word is what the title calls the whole dish.
func (t *talk) wholeTitle(w string) bool {
	title, _, _ := strings.Cut(strings.ToLower(t.dishes[0].title), " with ")
	if strings.Contains(title, " and ") {
		return false // "bangers and mash"
	}
	ws := strings.Fields(title)
	return len(ws) > 0 && lexicon.Singular(ws[len(ws)-1]) == lexicon.Singular(w)
}

// clusterFor gives the cluster without a name that was told before the naming
// and holds what such a thing is made of, the last of those that hold what the
// table names first; -1 for none.
func (t *talk) clusterFor(list []cluster, n *naming, c *lexicon.Component) int {
	best, rank := -1, len(c.From)
	for j := len(list) - 1; j >= 0; j-- {
		l := &list[j]
		if l.from >= n.sent || l.name != "" || l.head && j > 0 || l.joins {
			continue
		}
		if r := t.rankBefore(c, l.foods, n.First); r < rank {
			best, rank = j, r
		}
	}
	return best
}

// nameFoods names clusters by the food they cook, where it is spoken of later
// as a thing beside the rest and never goes into it.
func (t *talk) nameFoods(list []cluster, names []naming) {
	for j := range list {
		l := &list[j]
		if l.head || l.name != "" || len(l.foods) == 0 {
			continue
		}
		f := t.clusterFood(l)
		if f < 0 {
			continue
		}
		best, in := -1, false
		for n := range names {
			x := &names[n]
			if x.food < 0 || x.sent < l.done || !sameDish(t.mentions[x.food].food, t.mentions[f].food) {
				continue
			}
			switch x.use {
			case stirred:
				in = true
			case served, kept:
				if best < 0 && (l.strong || t.laidOut(&t.sents[x.sent], x.First) || t.norm(x.First-2) == "on") {
					best = n
				}
			}
		}
		if best < 0 || in {
			continue
		}
		l.name, l.said = t.partName(names[best].First, names[best].Last), names[best].Span
	}
}

// mainKind reports whether the food is meat, fish or grain: that is
// no more of the thing told before it.
func (t *talk) mainKind(f int) bool {
	if f < 0 {
		return false
	}
	switch t.mentions[f].food.Kind {
	case "meat", "poultry", "fish", "grain", "pasta":
		return true
	}
	return false
}

// cookings are verbs that make a food alone a thing on the plate.
var cookings = words("fry boil roast bake grill steam poach toast sear braise pan-fry deep-fry")

// cookedIn reports whether a time or a way of cooking is told in tokens [from, to).
func (t *talk) cookedIn(from, to int) bool {
	for i := from; i < to; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind == duration {
			return true
		}
		if a := t.actionAt[i]; a >= 0 && t.actions[a].tok == i && cookings[t.actions[a].base] {
			return true
		}
	}
	return false
}

// sameDish reports whether the later food can be the earlier one, also by the
// word for its kind: "the fish" for cod.
func sameDish(later, f *lexicon.Food) bool {
	if later.Name != f.Name && strings.HasSuffix(later.Name, " "+f.Name) {
		return false // the peanut butter isn't the butter
	}
	return related(later, f) > 0 || later.Name == f.Kind || later.Name == "meat" && (f.Kind == "poultry" || f.Kind == "meat")
}

// plateFood gives the first food of those told between tokens from and to that can be a thing on the
// plate, -1 for none, or where it stands alone.
func (t *talk) plateFood(foods []int, from, to int) int {
	for n, m := range foods {
		switch t.mentions[m].food.Kind {
		case "grain", "pasta":
			if n < 2 {
				return m
			}
			return -1
		case "meat", "poultry", "fish", "shellfish", "legume", "vegetable", "fruit", "bread", "dairy", "egg":
			if n < 2 && (len(foods) > 1 || t.cookedIn(from, to)) {
				return m
			}
			return -1
		}
	}
	return -1
}

// clusterFood gives the plate food of the cluster.
func (t *talk) clusterFood(l *cluster) int {
	return t.plateFood(l.foods, t.sents[l.from].First, t.sents[l.to-1].Last)
}

// seasonings are kinds of food that make no thing of their own.
var seasoningKinds = words("salt spice oil fat water herb")

// noPart is the part of what belongs to none: the fat for frying, what is
// scattered over at the end.
const noPart = -2

// openClusters marks the clusters that got a name as parts, if there are two
// things.
func (t *talk) openClusters(list []cluster, names []naming) {
	named, rest, tail, heads, all := 0, 0, 0, 0, 0
	for j := range list {
		l := &list[j]
		if l.head {
			heads++
			rest += tail
			tail = 0
			continue
		}
		if l.name != "" {
			named++
			rest += tail
			tail = 0
			continue
		}
		if j > 0 && list[j-1].name != "" && !l.strong && !t.mainKind(t.clusterFood(l)) {
			l.name, l.said = list[j-1].name, list[j-1].said
			continue
		}
		if named == 0 && t.clusterFood(l) >= 0 || j+1 < len(list) && list[j+1].name != "" && len(l.foods) > 1 {
			all += len(l.foods) + 1
		}
		if f := t.clusterFood(l); f >= 0 && l.strong && len(l.foods) > 1 && t.titleWord(t.mentions[f].head.Last-1) {
			rest += 3 // what the title names is a thing of its own
		}
		for _, m := range l.foods {
			if !seasoningKinds[t.mentions[m].food.Kind] && (named == 0 || t.measuredHere(&t.mentions[m])) {
				tail++
			}
		}
	}
	if tail > 3 {
		rest += tail
	}
	if all > 3 && rest > 0 {
		rest = max(rest, 3) // a thing on the plate with what it is cooked with
	}
	if named == 0 || named < 2 && rest < 3 && heads == 0 {
		return
	}
	t.restName = t.nameOfRest(list, names)
	if named == 1 && heads == 0 && t.restName == "" && t.mainPart(onlyName(list), t.sents[list[0].from].First) == "" {
		return
	}
	outside := -1
	if rest < 3 && heads == 0 {
		outside = noPart
		t.parts = append(t.parts, partMark{tok: 0, name: noPart})
	}
	for j := range list {
		l := &list[j]
		if l.name == "" || l.head {
			continue
		}
		from := t.sents[l.from].First
		t.namePart(from, l.name, l.said)
		next := j + 1
		if next < len(list) && (list[next].name != "" || list[next].head) && list[next].from <= t.endOf(list, j, names) {
			continue
		}
		if e := t.endOf(list, j, names); e < len(t.sents) {
			t.parts = append(t.parts, partMark{tok: t.sents[e].First, name: outside})
		}
	}
	t.sortParts()
	t.goBack(list, names)
	t.sortParts()
}

// onlyName gives the name of the one cluster that has one.
func onlyName(list []cluster) []string {
	for j := range list {
		if list[j].name != "" {
			return []string{list[j].name}
		}
	}
	return nil
}

// sortParts brings the marks into the order of the talk.
func (t *talk) sortParts() {
	sort.SliceStable(t.parts, func(i, j int) bool { return t.parts[i].tok < t.parts[j].tok })
	t.partReach = nil
}

// goBack lets what is done to a thing after it was left belong to its part:
// "Drain the barley. Stir through a lump of butter".
func (t *talk) goBack(list []cluster, names []naming) {
	owner := map[string]int{} // cluster of each food's word
	for j := len(list) - 1; j >= 0; j-- {
		for _, m := range list[j].foods {
			owner[t.norm(t.mentions[m].head.Last-1)] = j
		}
	}
	for j := range list {
		if list[j].name != "" {
			owner[lastWord(list[j].name)] = j
		}
	}
	var again []partMark
	until := 0
	for n := range names {
		x := &names[n]
		j, ok := owner[x.word]
		if !ok || x.use != handled || list[j].name == "" || list[j].head || lastWord(list[j].name) != x.word || x.sent < list[j].done || !t.objectFirst(x) {
			continue
		}
		s := &t.sents[x.sent]
		if x.sent < until || t.partOf(s.First) >= 0 {
			continue
		}
		end := x.sent + 1
		for end < len(t.sents) && end < x.sent+6 && t.sents[end].para == s.para && t.worked(&t.sents[end]) {
			end++
		}
		for m := n + 1; m < len(names) && names[m].sent < end; m++ {
			if o, ok := owner[names[m].word]; ok && o != j && list[o].to <= x.sent {
				end = names[m].sent
			}
		}
		if end <= x.sent {
			continue // two things at once: they come together
		}
		back := t.partOf(s.First)
		again = append(again, partMark{tok: s.First, name: t.partIndex(list[j].name), span: list[j].said})
		if end < len(t.sents) && t.partOf(t.sents[end].First) == back {
			again = append(again, partMark{tok: t.sents[end].First, name: back})
		}
		until = end
	}
	t.parts = append(t.parts, again...)
}

// objectFirst reports whether the named thing is what the sentence's first verb
// works on, or what the sentence is about.
func (t *talk) objectFirst(x *naming) bool {
	s := &t.sents[x.sent]
	for i := s.First; i < x.First-1; i++ {
		if t.mentionAt[i] >= 0 || t.madeAt[i] > 0 {
			return false
		}
	}
	i := x.First - 1
	return i > s.First && t.actionAt[i-1] >= 0 && t.actions[t.actionAt[i-1]].tok == i-1
}

// nameOfRest gives the food by which what has no other name is spoken of: a
// word that was taken for a turn and that nothing follows, or what is told to
// keep; "" for none.
func (t *talk) nameOfRest(list []cluster, names []naming) string {
	for i, n := range t.partNames {
		if i < len(t.live) && !t.live[i] {
			return n
		}
	}
	for n := range names {
		x := &names[n]
		if x.food < 0 || x.use != kept && x.use != served || !t.titleWord(x.Last-1) && !t.dishOver(names, n) {
			continue
		}
		taken := false
		for j := range list {
			taken = taken || list[j].name != "" && strings.HasSuffix(list[j].name, x.word)
		}
		if !taken {
			return t.partName(x.First, x.Last)
		}
	}
	for j := range list {
		if l := &list[j]; l.name == "" && !l.head {
			if f := t.clusterFood(l); f >= 0 && t.titleWord(t.mentions[f].head.Last-1) {
				return t.partName(t.mentions[f].head.First, t.mentions[f].head.Last)
			}
		}
	}
	return ""
}

// dishOver reports whether the dish of naming n is put on another thing made:
// "serve the stew on the rice".
func (t *talk) dishOver(names []naming, n int) bool {
	return t.mentions[names[n].food].food.Dish && n+1 < len(names) && names[n+1].sent == names[n].sent && names[n].use == served && names[n+1].use == served
}

// endOf gives the sentence with which cluster j is left: the next cluster, or
// where it or another thing made before is brought to the rest.
func (t *talk) endOf(list []cluster, j int, names []naming) int {
	l := &list[j]
	end := len(t.sents)
	if j+1 < len(list) {
		end = list[j+1].from
	}
	own := lastWord(l.name)
	first := map[string]int{} // sentence from which a name's thing is there
	for o := len(list) - 1; o >= 0; o-- {
		if list[o].name != "" {
			first[lastWord(list[o].name)] = list[o].from
		}
	}
	n := sort.Search(len(names), func(n int) bool { return names[n].sent >= l.done })
	for ; n < len(names) && names[n].sent < end; n++ {
		x := &names[n]
		if from, ok := first[x.word]; x.word == own && x.use == served || x.word != own && ok && from < x.sent {
			return x.sent
		}
	}
	return end
}

// namePart opens the part of this name at token tok.
func (t *talk) namePart(tok int, name string, said language.Span) {
	t.parts = append(t.parts, partMark{tok: tok, name: t.partIndex(name), span: said})
}
