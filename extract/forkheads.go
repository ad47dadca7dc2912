package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// How the heads are worded under which the ways of a fork are told.

// forkHeads reads the heads of all sentences, and of clauses that stand beside them.
func (t *talk) forkHeads(choices []choice) []forkHead {
	announced := t.announcedHeads(choices)
	var heads []forkHead
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing || s.kind == figures || s.recap || s.past && !t.pastTold || s.other {
			continue
		}
		for i := s.First; i < s.Last; i++ {
			h, ok := forkHead{}, false
			if i == s.First || t.clauseHead(s, i) {
				h, ok = t.forkHead(s, i)
				ok = ok && (h.form != plainForm || t.toldBelow(k))
			}
			if !ok {
				h, ok = announced[i]
			}
			if ok {
				if heads = append(heads, h); len(heads) > forkMost {
					return heads // too many to be told apart
				}
				i = h.end - 1
			}
		}
	}
	return heads
}

// announcedHeads gives the heads, in talk without marks, that are names of ways announced before: "slow cooker
// first pour in …", "in the oven two hundred". Nothing but what follows tells them from a place a thing is put in.
func (t *talk) announcedHeads(choices []choice) map[int]forkHead {
	if t.punctuated || len(choices) == 0 {
		return nil
	}
	out := map[int]forkHead{}
	for i := choices[0].last; i < len(t.toks); i++ {
		class, l, n := t.labelAt(i)
		if n == 0 || class == foodClass || class == mixedClass || !t.tellsWay(i+n) || !announcedLabel(choices, i, class, &l) {
			continue
		}
		if first, ok := t.headFrom(i, class); ok {
			h := forkHead{tok: first, end: i + n, form: hintForm}
			h.labels[class] = l
			out[first] = h
		}
	}
	return out
}

// announcedLabel reports whether a choice that ends before token i has the label for one of its sides.
func announcedLabel(choices []choice, i int, class wayClass, l *wayLabel) bool {
	for n := range choices {
		c := &choices[n]
		a, b := &c.options[0].labels[class], &c.options[1].labels[class]
		if c.last <= i && a.name != "" && (sameLabel(a, l) || sameLabel(b, l)) {
			return true
		}
	}
	return false
}

// tellsWay reports whether the words at token i begin what is done one way.
func (t *talk) tellsWay(i int) bool {
	if i >= len(t.toks) {
		return false
	}
	switch w := t.norm(i); w {
	case "first", "now", "it's", "they're", "everything", "same", "low", "medium", "high", "full", "it", "you", "just", "a":
		return true
	}
	return t.quantityAt[i] >= 0 || youWe[t.norm(i)] || t.isImperative(i)
}

// headFrom gives where the head begins whose name stands at token i, and whether it is one: no verb has the place for
// its own, and a bare name stands behind nothing that holds it.
func (t *talk) headFrom(i int, class wayClass) (int, bool) {
	k := i
	for articleLike[t.norm(k-1)] {
		k--
	}
	prev := t.norm(k - 1)
	switch {
	case k > 0 && (placePreps[prev] || prev == "with" || prev == "by"):
		k--
		if prev = t.norm(k - 1); class == workClass {
			return k, false
		}
		return k, !wayObjects[prev] && !wayHolds[prev] && !t.canBeVerb(prev) && prev != "there" && prev != "back" && t.mentionAt[k-1] < 0
	case prev == "for" && k > 0:
		return k - 1, true
	case class == productClass:
		return k, false // "slices you can use"
	}
	return k, k == 0 || !wayHolds[prev] && !wayObjects[prev] && !determiners[prev] && !t.canBeVerb(prev)
}

// clauseHead reports whether a clause that may be headed for itself begins at token i:
// "mine has forty minutes, hers has an hour".
func (t *talk) clauseHead(s *sentence, i int) bool {
	m := t.toks[i-1].After
	return t.punctuated && m != 0 || !t.punctuated && (forkOpens[t.norm(i)] || t.spokenHead(i))
}

// spokenHead reports whether the words at token i head a way wherever they stand, so that no mark is
// wanted to tell: "in the oven it's", "air fryer people", "the griddle ones", "pan way".
func (t *talk) spokenHead(i int) bool {
	k, prev := i, t.norm(i-1)
	switch w := t.norm(i); {
	case w == "in" || w == "on" || w == "with":
		for k++; articleLike[t.norm(k)]; k++ {
		}
		class, _, n := t.labelAt(k)
		return n > 0 && class == placeClass && headTells[t.norm(k+n)]
	case w == "by":
		return t.norm(i+1) == "hand" && t.quantityAt[i+2] >= 0 && !wayObjects[prev] && !t.canBeVerb(prev)
	case w == "the":
		k++
		if wayHolds[prev] {
			return false
		}
		if t.norm(k+1) == "one" && t.announcedOne(k) {
			return true
		}
	case articleLike[prev] || determiners[prev] && prev != "each" || wayHolds[prev]:
		return false
	}
	class, _, n := t.labelAt(k)
	if n == 0 {
		return false
	}
	switch next := t.norm(k + n); {
	case wayPeople[next], (next == "way" || next == "version" || next == "method") && class != foodClass && class != productClass:
		return true
	case next == "ones" || next == "version" || next == "method" || next == "way":
		return k > i
	case youWe[next]:
		return class == stateClass && k == i && !wayObjects[prev] && !t.canBeVerb(prev)
	}
	return class == placeClass && prev == "ways" // "two ways air fryer that's what"
}

// wayObjects before a name are what it was said of: "serve it hot".
var wayObjects = words("it them this that these those is are get gets was")

// headTells are words that tell on behind a place: "in the oven they're". wayHolds before a way's name make
// it part of what they began.
var (
	headTells = words("it's they're that's you you'll they it everything")
	wayHolds  = words("for in on with of to and or do doing like is was than as by from")
	wayPeople = words("people folk folks lovers fans eaters crowd")
)

// forkOpens are words that open a head in talk without marks.
var forkOpens = words("if for those anyone whichever mine hers his way method option")

// forkHead reads the head at token i.
func (t *talk) forkHead(s *sentence, i int) (forkHead, bool) {
	first := i
	for i < s.Last && i < first+6 && (headWords[t.norm(i)] || t.norm(i) == "or" || t.norm(i) == "as") {
		if t.norm(i) == "on" && t.norm(i-1) != "go" {
			break // "on the hob", not "go on"
		}
		i++
	}
	if i >= s.Last {
		return forkHead{}, false
	}
	h := forkHead{tok: first}
	w0 := t.norm(i)
	switch w := w0; {
	case w == "if" || w == "when" || w == "whenever":
		return t.ifHead(s, h, i)
	case (w == "everybody" || w == "everyone") && t.norm(i+1) == "else":
		return t.elseHead(s, h, i+2)
	case w == "those" || w == "anyone" || w == "anybody" || w == "people" || w == "for" && (t.norm(i+1) == "those" || t.norm(i+1) == "anyone" || t.norm(i+1) == "anybody"):
		if w == "for" {
			i++
		}
		return t.thoseHead(s, h, i)
	}
	if first > s.First && !t.ownerAt(i) && !t.besideHead(s, first) && (t.punctuated || !t.spokenHead(i) && !forkOpens[w0]) {
		return forkHead{}, false
	}
	if h, ok := t.sameHead(s, h, i); ok {
		return h, true
	}
	if h, ok := t.ownerHead(s, h, i); ok {
		return h, true
	}
	return t.nameHead(s, h, i)
}

// sameHead reads a sentence that tells one way by the other: "same mix, and it goes in little moulds",
// "it's all the same, only in the slow cooker".
func (t *talk) sameHead(s *sentence, h forkHead, i int) (forkHead, bool) {
	if h.tok != s.First || t.norm(i) != "same" && t.norm(i+1) != "same" && t.has(s.First, s.Last, "it's all the same", "it's the same", "all the same") < 0 {
		return h, false
	}
	found := 0
	for k := i; k < min(s.Last, i+24); k++ {
		class, l, n := t.labelAt(k)
		if n > 0 && class == placeClass {
			if !placePreps[t.norm(k-1)] && !articleLike[t.norm(k-1)] && t.norm(k-1) != "little" && t.norm(k-1) != "small" {
				continue
			}
			h.labels[placeClass], h.end, h.form = l, k+n, hintForm
			found++
		}
	}
	return h, found == 1
}

// placePreps stand before the place a thing is cooked in.
var placePreps = words("in on into under over onto")

// besideHead reports whether the sentence began with words that set one of two apart, so that the
// clause at token i may be the other: "in the oven it's twenty minutes, in the air fryer twelve".
func (t *talk) besideHead(s *sentence, i int) bool {
	return t.figured(s.First, i) && i-s.First <= 20
}

// forkHave are words by which a cook chose or has a thing, in a condition.
var forkHave = words("it's its they're you're you've having doing making using taking going gone go chose chosen choose picked pick prefer on with have got yours i'm we're making baking cooking that's is")

// forkIfs may stand between "if" and the name.
var forkIfs = words("it is they are you your i we all only got just the a an some in for to of this that them it'd be do use did want wanted made make your of us who live living still instead say going rather like as cook by kind people who've lucky enough")

// ifHead reads "if it's fresh, …", "if you're on the hob, …". What a thing turns out like ("if it's
// too thick", "if it looks dry") and what somebody likes is no way.
func (t *talk) ifHead(s *sentence, h forkHead, i int) (forkHead, bool) {
	chosen := false
	for k := i + 1; k < s.Last && k < i+10; k++ {
		w := t.norm(k)
		if m := t.mentionStart(k); m >= 0 && !chosen {
			if e := t.mentions[m].Last; t.norm(e) == "is" || t.norm(e) == "are" {
				k, chosen = e, true // "if your peas are frozen"
				continue
			}
		}
		if t.fillAt(&h, k) {
			if t.has(k, min(len(t.toks), k+20), "same job", "does the same", "does it too") >= 0 {
				return h, false // a tool in another's place
			}
			if h.labels[stateClass].name != "" && !keptStates[t.norm(k)] && !wayNoun[t.norm(h.end)] || !chosen || t.strangeOven(k) {
				return h, false
			}
			if w := t.norm(k - 1); (w == "it" || w == "them") && tasteVerb[t.norm(k-2)] {
				return h, false // "if you like it mild"
			}
			h.form = plainForm
			if kitOnly(t, i, k) && (h.labels[placeClass].name != "" || h.labels[foodClass].name != "" && !keptStates[t.norm(k)]) {
				h.form, h.kit = weakForm, true // "if you've got a wok"
			}
			return h, t.closedIf(s, h.end)
		}
		chosen = chosen || forkHave[w]
		if !forkHave[w] && !forkIfs[w] || t.toks[k].After != 0 {
			if p := t.norm(k - 1); chosen && (determiners[p] || choosing[p]) {
				h.form = plainForm
				return h, t.phraseAt(s, &h, k) && t.toks[h.end-1].After != 0
			}
			return h, false
		}
	}
	return h, false
}

// choosing are verbs whose object is what was chosen.
var choosing = words("doing making using with for having")

// phraseAt takes up to three words from token i on as the name of a way, to a mark or to who acts
// next.
func (t *talk) phraseAt(s *sentence, h *forkHead, i int) bool {
	e := i
	for e < s.Last && e < i+4 {
		w := t.norm(e)
		if youWe[w] || w == "it" || w == "they" || w == "it's" || w == "they're" || wayEnds[w] {
			break
		}
		if t.quantityAt[e] >= 0 {
			return false
		}
		e++
		if t.toks[e-1].After != 0 {
			break
		}
	}
	if e == i || e == i+4 || e >= s.Last {
		return false
	}
	h.labels[phraseClass], h.end = t.phraseLabel(i, e), e
	return h.labels[phraseClass].name != ""
}

// tasteVerb are verbs of what somebody likes.
var tasteVerb = words("like likes want wants prefer prefers enjoy enjoys love fancy")

// kitOnly reports whether the words (a, b) only tell what somebody owns.
func kitOnly(t *talk, a, b int) bool {
	for i := a; i < b; i++ {
		if w := t.norm(i); w == "got" || w == "have" {
			next := t.norm(i + 1)
			return w == "have" && next != "to" && next != "the" || w == "got" && next != "the" || next == "a" || next == "an"
		}
	}
	return false
}

// keptStates are states that food is bought or kept in, of which a cook has one.
var keptStates = words("fresh dried tinned canned frozen raw cooked smoked vegan vegetarian veggie gluten-free dairy-free")

// strangeOven reports whether the oven at token i is of a sort, or behaves somehow: such words
// change a temperature and not the way.
func (t *talk) strangeOven(i int) bool {
	for k := i; k >= i-2; k-- {
		switch t.norm(k) {
		case "fan", "gas", "electric", "conventional", "convection", "steam", "small", "big", "second":
			return true
		}
	}
	switch t.norm(i + 1) {
	case "runs", "has", "gets", "is":
		return t.toolAt[i] >= 0
	}
	return false
}

// closedIf reports whether the condition ends at token e, or goes on with words that name no
// other thing.
func (t *talk) closedIf(s *sentence, e int) bool {
	if e < s.Last && t.toks[e-1].After == 0 && (t.norm(e) == "them" || t.norm(e) == "it") {
		e++ // "if you're baking them, …"
	}
	if e >= s.Last || t.toks[e-1].After != 0 {
		return e < s.Last || s.Len() > 5 || !t.punctuated
	}
	w := t.norm(e)
	return t.quantityAt[e] >= 0 || youWe[w] || w == "and" || w == "then" || w == "instead" || w == "it" || w == "they" || w == "the" || w == "it's" || w == "that's" || w == "do" || w == "like" || w == "out" || w == "today" || w == "no" || w == "same" || w == "everything" || w == "for" || w == "at" || t.isImperative(e)
}

// thoseHead reads "those of you on the ninth floor, use the oven": the name stands in the
// condition, or is what they are told to use.
func (t *talk) thoseHead(s *sentence, h forkHead, i int) (forkHead, bool) {
	if w := t.norm(i + 1); w != "of" && w != "who" && w != "with" && w != "on" && w != "doing" && w != "using" && w != "making" && w != "in" && w != "going" && w != "that" && w != "who're" && w != "who've" && w != "without" && w != "baking" && w != "frying" {
		return h, false
	}
	for k := i + 1; k < s.Last && k < i+7; k++ {
		if t.norm(k) == "without" || t.toks[k-1].After != 0 {
			break
		}
		if w := lexicon.Singular(t.norm(k)); (w == "tin" || w == "can") && t.norm(k-1) != "loaf" && (t.norm(k+1) != "of" || t.mentionStart(k+2) < 0) {
			// "those with a tin", beside those with dried
			h.labels[stateClass], h.end, h.form = wayLabel{w + "ned", []string{stem(w + "ned")}}, k+1, plainForm
			return h, true
		}
		if t.fillAt(&h, k) {
			h.form = plainForm
			return h, true
		}
	}
	for k := i + 2; k < s.Last && k < i+18; k++ {
		if t.toks[k-1].After == 0 {
			continue
		}
		return t.usedAfter(s, h, k)
	}
	return h, false
}

// elseHead reads "everybody else, the oven": what is left to those who took no other way.
func (t *talk) elseHead(s *sentence, h forkHead, i int) (forkHead, bool) {
	for i < s.Last && i < h.tok+9 && (articleLike[t.norm(i)] || t.norm(i) == "use" || placePreps[t.norm(i)] || youWe[t.norm(i)]) {
		i++
	}
	if i >= s.Last || !t.fillAt(&h, i) {
		return h, false
	}
	h.form = plainForm
	return h, true
}

// usedAfter reads the name of a way out of the order it begins with: "use the oven".
func (t *talk) usedAfter(s *sentence, h forkHead, k int) (forkHead, bool) {
	switch t.norm(k) {
	case "use", "take", "do", "make", "go", "light", "heat", "you", "get":
	default:
		return h, false
	}
	for e := k + 1; e < s.Last && e < k+7 && t.toks[e-1].After == 0; e++ {
		if t.fillAt(&h, e) {
			h.form = plainForm
			return h, h.labels[placeClass].name != ""
		}
	}
	return h, false
}

// fillAt reads the labels at token k into the head; false where there is none.
func (t *talk) fillAt(h *forkHead, k int) bool {
	w := t.norm(k)
	switch {
	case w == "hand" && (t.norm(k-1) == "by" || t.norm(k-2) == "by"):
		h.labels[placeClass] = wayLabel{"by hand", []string{"hand"}}
		h.end = k + 1
		return true
	case (w == "outside" || w == "outdoors" || w == "indoors" || w == "inside") && !t.joined(k), (w == "outside" || w == "outdoors" || w == "indoors") && (youWe[t.norm(k+1)] || t.isImperative(k+1)):
		h.labels[placeClass], h.end = t.fireIn(k, t.sentence(k).Last), k+1
		return true
	case w == "no" && k+1 < len(t.toks) && t.toks[k+1].Joined, strings.HasPrefix(w, "no-"):
		n := 1
		if w == "no" {
			n = 2
		}
		h.labels[workClass] = wayLabel{strings.TrimSuffix(t.phrase(k, k+n), " "), []string{strings.ReplaceAll(t.phrase(k, k+n), " ", "-")}}
		h.labels[workClass].name = h.labels[workClass].keys[0]
		h.end = k + n
		return true
	case guests[w]:
		h.labels[eaterClass] = wayLabel{w, []string{stem(w)}}
		if t.toks[k].Joined || k+1 < len(t.toks) && t.toks[k+1].Joined {
			h.labels[eaterClass] = wayLabel{}
			break
		}
		h.end = k + 1
		return true
	case (w == "grown" || w == "grownups" || w == "grown-ups") && k+1 < len(t.toks):
		n := 1
		if w == "grown" {
			n = 2
		}
		h.labels[eaterClass], h.end = wayLabel{"grown-ups", []string{"grown"}}, k+n
		return true
	}
	if m := t.mentionStart(k); m >= 0 && t.mentions[m].head.First == k && t.mentions[m].head.Len() > 1 && !t.mentions[m].food.Dish && t.rivalFood(k, 2) {
		return t.fillFood(h, k, t.mentions[m].head.Len()) // "puff pastry" is not puffed
	}
	class, label, n := t.labelAt(k)
	if n == 0 {
		return false
	}
	switch class {
	case foodClass:
		return t.fillFood(h, k, n)
	case productClass:
		if t.madeAt[k] > 0 && !dishNoun[w] && !dishNoun[lexicon.Singular(w)] && !wayShapes[w] {
			return false // the filling is a component
		}
	}
	if class == workClass && n == 1 && strings.HasSuffix(w, "ing") {
		label.name = w // "if you're frying them"
	}
	h.labels[class], h.end = label, k+n
	return true
}

// fillFood reads the labels of a food at token k: its state, itself, and what is made that is
// called by it, "rolls".
func (t *talk) fillFood(h *forkHead, k, n int) bool {
	w := t.norm(k)
	if x := max(t.mentionAt[k], t.mentionAt[k+n-1]); x >= 0 && t.mentions[x].head.First >= k {
		n = min(n, t.mentions[x].head.Last-k) // "lamb, brown …"
	}
	named := false
	if t.isDishNoun(k) {
		h.labels[productClass], h.end = t.phraseLabel(k, k+1), k+1
		named = true
	}
	if !t.rivalFood(k, n) {
		return named
	}
	if wayStates[w] {
		h.labels[stateClass] = t.phraseLabel(k, k+1)
	}
	h.labels[foodClass], h.end = t.phraseLabel(k, k+n), k+n
	return true
}

// guests are those a dish is made for, some of them another way.
var guests = words("children kids adults vegetarians vegans toddlers meat-eaters carnivores")

// fireIn names what somebody cooks over who cooks outside or inside: the first heat named in
// tokens [a, b), or else the place itself.
func (t *talk) fireIn(a, b int) wayLabel {
	for i := a + 1; i < b; i++ {
		if class, l, n := t.labelAt(i); n > 0 && class == placeClass {
			return l
		}
	}
	return t.phraseLabel(a, a+1)
}

// rivalFood reports whether the food at token k is one a dish is made of, so that another in
// its place makes another way.
func (t *talk) rivalFood(k, n int) bool {
	for i := k; i < k+n; i++ {
		m := t.mentionAt[i]
		if m < 0 {
			continue
		}
		kind := t.mentions[m].food.Kind
		return mains[kind] || kind == "bread" || wayStates[t.norm(k)] && (kind == "fruit" || kind == "vegetable") || kind == "vegetable" && n == 1 && t.norm(k) == "vegetable"
	}
	return false
}

// ownerAt reports whether an owner's word stands at token i: "hers".
func (t *talk) ownerAt(i int) bool {
	switch t.norm(i) {
	case "mine", "hers", "his", "theirs", "ours", "yours":
		return t.norm(i) != "his" || !wayNoun[t.norm(i+1)]
	}
	return false
}

// ownerHead reads "Gulnara's road.", "my way:", "hers goes like this".
func (t *talk) ownerHead(s *sentence, h forkHead, i int) (forkHead, bool) {
	if t.ownerAt(i) && t.norm(i) != "yours" {
		next := t.norm(i + 1)
		if t.toks[i].After == 0 && next != "goes" && next != "is" && next != "gets" && next != "wants" && next != "takes" && next != "needs" && next != "has" && next != "go" && next != "are" {
			return h, false
		}
		h.labels[ownerClass], h.end, h.form = wayLabel{t.norm(i), []string{ownerKey(t.norm(i))}}, i+1, plainForm
		return h, true
	}
	k := i
	for k < s.Last && k < i+5 {
		w := t.norm(k)
		if wayNoun[w] && w != "side" && w != "one" && k > i {
			break
		}
		if w == "my" || w == "our" || w == "her" || w == "his" || w == "their" || kin[strings.TrimSuffix(w, "'s")] || strings.HasSuffix(w, "'s") || w == "own" || w == "zia" || w == "aunt" || w == "uncle" || w == "old" || wayNoun[t.norm(k+1)] && strings.HasSuffix(w, "s") {
			k++
			continue
		}
		if strings.HasSuffix(t.norm(k+1), "'s") && k < i+2 { // "old Pat's way"
			k++
			continue
		}
		return h, false
	}
	if k >= s.Last || k == i || k >= i+5 || !wayNoun[t.norm(k)] || strings.HasPrefix(t.norm(k-1), "it'") || strings.HasPrefix(t.norm(k-1), "that'") {
		return h, false
	}
	name := t.phrase(i, k)
	own := t.norm(i)
	if strings.HasSuffix(t.norm(k-1), "'s") {
		own = strings.TrimSuffix(t.norm(k-1), "'s")
	}
	switch name {
	case "my", "our", "my own", "our own":
		name = "mine"
	case "her":
		name = "hers"
	case "his", "their":
		name = strings.TrimSuffix(name, "s") + "s"
	default:
		name = strings.TrimPrefix(t.quote(i, k), "My ")
	}
	h.labels[ownerClass], h.end, h.form = wayLabel{name, []string{ownerKey(own)}}, k+1, plainForm
	return h, true
}

// ownerKey gives one key for all words of one owner.
func ownerKey(w string) string {
	switch w {
	case "mine", "my", "our", "ours", "own":
		return "i"
	case "hers", "her":
		return "she"
	case "his":
		return "he"
	case "theirs", "their":
		return "they"
	}
	return strings.TrimSuffix(w, "'s")
}

// nameLeads may stand before the name of a way at the start of its sentence.
var nameLeads = words("the a an my our your second first other third method way version option number one two three next here's here is it's for let's do with start i begin we that's to team")

// nameHead reads a head that is a name: "the quick way is …", "oven people:", "on the hob, …",
// "steamed first.", "the loaf takes an hour".
func (t *talk) nameHead(s *sentence, h forkHead, i int) (forkHead, bool) {
	if w := t.norm(i); w == "with" || w == "without" {
		return t.withHead(s, h, i)
	}
	if t.norm(i-1) == "as" {
		for articleLike[t.norm(i)] {
			i++
		}
		if h.form = weakForm; t.phraseAt(s, &h, i) {
			return h, true
		}
	}
	prep, forLead, numbered := "", false, false
	from := i
	for i < s.Last && i < from+7 {
		w := t.norm(i)
		if w == "on" || w == "in" || w == "under" || w == "by" || w == "over" {
			if prep != "" {
				return h, false
			}
			prep = w
		} else if w == "for" {
			forLead = true
		} else if !nameLeads[w] {
			break
		}
		numbered = numbered || w == "number" || w == "way" || w == "method" || w == "version" || w == "option"
		i++
	}
	if i >= s.Last {
		return h, false
	}
	if !t.fillAt(&h, i) && !t.wordBeforeWay(&h, from, i) {
		return t.ownFoodHead(s, h, i)
	}
	if prep == "in" && h.labels[foodClass].name == "" {
		t.inFood(&h, i)
	}
	e := h.end
	next := t.norm(e)
	people := wayPeople[next]
	switch {
	case wayNoun[next] && next != "side" && !(next == "one" && t.quantityAt[e] >= 0 && from == i && t.toks[e-1].After != 0):
		h.end, h.form = e+1, plainForm
		if people {
			return h, true
		}
		t.appositive(s, &h)
		if next == "way" || next == "method" || next == "version" || next == "route" || next == "ones" && from == i && h.tok == s.First && t.toks[e].After&language.Colon != 0 {
			h.labels[saidClass] = t.phraseLabel(i, e)
		}
		return h, i > from || next != "one" && next != "ones"
	case next == "version" || next == "pot" && t.punctuated:
		h.end, h.form = e+1, joinForm
		return h, true
	case forLead && h.labels[eaterClass].name != "" && (t.toks[e-1].After != 0 || youWe[next] || !t.punctuated && (t.quantityAt[e] >= 0 || t.isImperative(e))):
		h.form = plainForm
		return h, true
	case numbered && !t.punctuated:
		h.form = plainForm // "way number one the frying pan"
		return h, true
	case t.punctuated && t.toks[e-1].After != 0 && (prep != "" || forLead && h.labels[placeClass].name != "" || e-h.tok <= 4 && (t.toks[e-1].After.Ends() || t.toks[e-1].After&language.Colon != 0) || numbered), prep != "" && (next == "it's" || next == "they're" || next == "that's" || next == "it" || next == "you" && prep == "by"):
		h.form = weakForm
		switch {
		case numbered:
			h.form = plainForm // "number one, the microwave"
		case t.holdsDish(i):
			h.form = hintForm // "on the tray, for an hour"
		}
		if t.toks[e-1].After != 0 && inTurn[next] {
			return h, false // "in the pan, first, …", "in the oven, then, …"
		}
		if h.labels[foodClass].name != "" && prep != "in" && !t.toks[e-1].After.Ends() {
			return h, false
		}
		h.alone = prep == "" && t.toks[e-1].After != 0
		return h, e < s.Last || t.toks[e-1].After.Ends()
	case from == i && h.tok == s.First && t.toks[e-1].After != 0 && !t.toks[e-1].After.Ends() && h.labels[stateClass].name != "" && h.labels[foodClass].name == "" && (youWe[next] || t.isImperative(e) || next == "it's"),
		!t.punctuated && from == i && h.labels[stateClass].name != "" && youWe[next]:
		h.form = weakForm // "hot, you take two spoons"
		return h, true
	case from == i && h.labels[placeClass].name != "" && (next == "that's" || next == "this" && t.norm(e+1) == "is" || t.toks[e-1].After != 0) && i > 0 && t.norm(i-1) == "ways":
		h.form = weakForm // "two ways. Air fryer, that's what I do"
		return h, true
	case !t.punctuated && prep == "by" && t.quantityAt[e] >= 0, !t.punctuated && prep != "" && next == "everything":
		h.form = weakForm
		return h, true
	case e == s.Last-1 && e-h.tok <= 4 && (next == "first" || next == "then" || next == "now" || next == "next"):
		h.form = weakForm
		return h, true
	}
	if t.hintAt(s, &h, forLead) {
		h.form = hintForm
		return h, true
	}
	h.form = joinForm
	return h, t.tellsOn(s, &h, i)
}

// hintAt reports whether the name of a way that ends the head is followed by work: "for the rolls, cut
// it in ten", and, in talk without marks, "slow cooker everything goes in".
func (t *talk) hintAt(s *sentence, h *forkHead, forLead bool) bool {
	if h.labels[placeClass].name == "" && (!forLead || h.labels[productClass].name == "") {
		return false
	}
	e := h.end
	works := e >= s.Last || t.toks[e-1].After != 0 || youWe[t.norm(e)] || t.baseVerb(e) != nil || t.quantityAt[e] >= 0 || t.norm(e) == "just" || t.norm(e) == "everything"
	return works && (forLead || !t.punctuated && h.tok == s.First)
}

// holdsDish reports whether the place named at token i only holds what is cooked: a tin, a tray, a jar. A
// dish is made in any of them, so that they are ways only where they were announced.
func (t *talk) holdsDish(i int) bool {
	x := t.toolAt[i]
	if x < 0 {
		return false
	}
	switch t.tools[x].eq.Kind {
	case "tin", "oven-dish", "jar":
		return true
	}
	return false
}

// inTurn are words that put one place after another.
var inTurn = words("first then next afterwards after finally lastly later")

// withHead reads "with yeast, …", "without, …", "without yeast it's quicker".
func (t *talk) withHead(s *sentence, h forkHead, i int) (forkHead, bool) {
	w := t.norm(i)
	k := i + 1
	for k < s.Last && articleLike[t.norm(k)] {
		k++
	}
	if k >= s.Last {
		return h, false
	}
	if t.fillAt(&h, k) && w == "with" && h.labels[placeClass].name != "" && t.toks[k-1].After == 0 {
		h.form = weakForm // "with a pressure cooker it's two hours"
		next := t.norm(h.end)
		return h, t.toks[h.end-1].After != 0 || next == "it's" || next == "you" || next == "it" || next == "everything"
	}
	h.labels = [forkClasses]wayLabel{}
	if w == "without" && t.toks[i].After != 0 { // "without, it's quicker"
		h.labels[withClass], h.end = wayLabel{w, []string{w}}, i+1
	} else if m := t.mentionStart(k); m >= 0 {
		h.end = t.mentions[m].Last
		h.labels[withClass] = wayLabel{w + " " + t.phrase(k, h.end), []string{w}}
	} else {
		return h, false
	}
	next := t.norm(h.end)
	h.form = weakForm
	return h, h.end < s.Last && (t.toks[h.end-1].After != 0 || next == "it's" || next == "you" || next == "it")
}

// ownFoodHead reads a head that is a food of one way only: "the cauliflower, fry that for four
// minutes".
func (t *talk) ownFoodHead(s *sentence, h forkHead, i int) (forkHead, bool) {
	m := t.mentionStart(i)
	if m < 0 || h.tok != s.First {
		return h, false
	}
	x := &t.mentions[m]
	h.labels[foodClass], h.end, h.form, h.food = t.phraseLabel(x.head.First, x.head.Last), x.Last, joinForm, true
	if t.norm(h.end) == "and" && t.mentionStart(h.end+1) >= 0 {
		h.end = t.mentions[t.mentionStart(h.end+1)].Last
	}
	return h, t.tellsOn(s, &h, i)
}

// inFood reads "in oil", "in brine" as what a thing is kept in.
func (t *talk) inFood(h *forkHead, i int) {
	if m := t.mentionStart(i); m >= 0 {
		x := &t.mentions[m]
		h.labels[foodClass], h.end = wayLabel{"in " + t.phrase(x.head.First, x.head.Last), t.phraseLabel(x.head.First, x.head.Last).keys}, x.Last
	}
}

// wordBeforeWay reads any one word before a word for a way: "the long way".
func (t *talk) wordBeforeWay(h *forkHead, from, i int) bool {
	if t.norm(i-1) == "in" {
		if m := t.mentionStart(i); m >= 0 && i-from <= 4 {
			t.inFood(h, i)
			return h.end > i
		}
	}
	n := t.norm(i + 1)
	if i > from && n == "one" && articleLike[t.norm(i-1)] && t.announcedOne(i) {
		h.labels[stateClass], h.end = t.phraseLabel(i, i+1), i+1
		return true
	}
	if from == i && h.tok == t.sentence(i).First && (n == "version" || n == "method" || n == "way") && t.toks[i+1].After != 0 && t.actionAt[i] < 0 && (t.quantityAt[i] < 0 || t.norm(i) == "overnight") && !orderWords[t.norm(i)] && !samenessWords[t.norm(i)] {
		h.labels[stateClass], h.end = t.phraseLabel(i, i+1), i+1
		return true // "overnight version."
	}
	if i == from || !wayNoun[n] || t.mentionStart(i+2) >= 0 && t.joined(i+1) || n == "one" || n == "ones" || n == "side" || n == "person" || !articleLike[t.norm(i-1)] && t.norm(i-1) != "way" || t.actionAt[i] >= 0 || t.quantityAt[i] >= 0 || wayStop[t.norm(i)] || headWords[t.norm(i)] || nameLeads[t.norm(i)] || samenessWords[t.norm(i)] {
		return false
	}
	h.labels[stateClass], h.end = t.phraseLabel(i, i+1), i+1
	return true
}

// announcedOne reports whether "the X one" at token i was announced as one of two: "a quick one and a long
// one".
func (t *talk) announcedOne(i int) bool {
	if t.onesSaid == nil {
		t.onesSaid = map[string]int{}
		for k := range t.sents {
			s := &t.sents[k]
			n := t.ones(s)
			for w := range n {
				if _, ok := t.onesSaid[w]; !ok && len(n) > 1 {
					t.onesSaid[w] = s.First
				}
			}
		}
	}
	first, ok := t.onesSaid[t.norm(i)]
	return ok && first < i-8
}

// ones gives the words before "one" in a sentence that tells two or more of them apart with articles.
func (t *talk) ones(s *sentence) map[string]bool {
	out := map[string]bool{}
	for i := s.First + 1; i+1 < s.Last; i++ {
		if n := t.norm(i + 1); (n == "one" || n == "ones" || n == "way") && articleLike[t.norm(i-1)] && t.quantityAt[i] < 0 && !orderWords[t.norm(i)] {
			out[t.norm(i)] = true
		}
	}
	return out
}

// orderWords before "one" tell which it is of a row, and nothing of what it is like.
var orderWords = words("the a an other first second third last next only same good best big small new old right wrong")

// samenessWords before "way" tell of no other way.
var samenessWords = words("either this that both which what some no same best only right wrong whole long-winded usual normal last latest next whichever any every old new hard easy easiest safest whole young right-hand cheap expensive nice")

// appositive adds what a named way is: "the quick way is the pressure cooker".
func (t *talk) appositive(s *sentence, h *forkHead) {
	k := h.end
	if w := t.norm(k); (w == "is" || w == "uses" || w == "means") && articleLike[t.norm(k+1)] {
		k += 2
	} else if t.toks[k-1].After != 0 && articleLike[t.norm(k)] {
		k++
	} else {
		return
	}
	if k < s.Last {
		if class, l, n := t.labelAt(k); n > 0 && class == placeClass {
			h.labels[class] = l
		}
	}
}

// tellsOn reports whether a sentence whose first words may name a way tells it by a time, or
// works on what it names: "rolls are up in thirty", "the cauliflower, fry that only four".
func (t *talk) tellsOn(s *sentence, h *forkHead, i int) bool {
	if !t.punctuated || h.labels[placeClass].name != "" || h.labels[workClass].name != "" || h.tok != s.First {
		return false
	}
	next := t.norm(h.end)
	if h.labels[stateClass].name != "" && h.labels[foodClass].name == "" {
		return takesTime[next] || strings.HasPrefix(next, "doesn") || strings.HasPrefix(next, "don") || next == "needn't" || next == "can" || next == "goes"
	}
	if takesTime[next] || next == "go" || next == "goes" || next == "come" || next == "comes" || next == "cook" || next == "cooks" || next == "bake" || next == "bakes" {
		return t.figured(s.First, s.Last) || t.timedIn(s.First, t.sentenceBeside(s))
	}
	return t.toks[h.end-1].After != 0 && (youWe[next] || t.baseVerb(h.end) != nil) && (h.labels[productClass].name != "" || t.timedIn(s.First, s.Last))
}

// sentenceBeside gives the end of the sentence after s in its paragraph, or of s itself where it is
// the last.
func (t *talk) sentenceBeside(s *sentence) int {
	if k := int(t.sentOf[s.First]) + 1; k < len(t.sents) && t.sents[k].para == s.para {
		return t.sents[k].Last
	}
	return s.Last
}

// timedIn reports whether a time or temperature stands in tokens [a, b).
func (t *talk) timedIn(a, b int) bool {
	for i := a; i < b; i++ {
		if q := t.quantityAt[i]; q >= 0 && (t.quantities[q].kind == duration || t.quantities[q].kind == heat) {
			return true
		}
	}
	return false
}
