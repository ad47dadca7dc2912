package extract

import (
	"sort"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// Terse cooks head what they tell by its name alone: "Achar. Six tomatoes, …", "Cure. Simple.
// Three tablespoons salt", "Garlic water: four cloves, pressed". One such paragraph may be about
// a food; where two are headed so, or one beside parts told in other words, they are parts.

// paraHead is a name by itself at the beginning of a paragraph.
type paraHead struct {
	tok   int
	span  language.Span // its name; empty where the paragraph is about one food that goes in
	fresh int           // foods told below it
}

// headWordsMost is how many words the name of a part may have.
const headWordsMost = 3

// markParagraphHeads adds the parts that paragraphs are headed by, where that tells more apart
// than the passes before did.
func (t *talk) markParagraphHeads() {
	if !t.punctuated || len(t.dishes) > 1 {
		return
	}
	var list []paraHead
	named := 0
	for k := range t.sents {
		if !t.opensPara(k) {
			continue
		}
		if h, ok := t.paraHeadAt(k); ok {
			list = append(list, h)
			named += b2n(h.span.Len() > 0, 1)
		}
	}
	if named == 0 || named+len(t.partNames) < 2 {
		return
	}
	before := t.partsScore()
	parts, partNames, bare := t.parts, t.partNames, t.bareNames
	t.parts, t.partNames = append([]partMark(nil), parts...), append([]string(nil), partNames...)
	for _, h := range list {
		switch {
		case t.partHeadNear(h.tok, h.span):
		case h.span.Len() > 0:
			t.addPart(h.tok, h.span.First, h.span.Last)
		case len(t.parts) > 0:
			t.parts = append(t.parts, partMark{tok: h.tok, name: -1})
		}
	}
	sort.SliceStable(t.parts, func(i, j int) bool { return t.parts[i].tok < t.parts[j].tok })
	t.partReach, t.partHeads = nil, nil
	if t.partsScore() <= before {
		t.parts, t.partNames, t.bareNames, t.partReach, t.partHeads = parts, partNames, bare, nil, nil
	}
}

// partHeadNear reports whether a part begins in the sentence of token i already by a name said
// there. One that was only reckoned to begin there gives way to the name.
func (t *talk) partHeadNear(i int, name language.Span) bool {
	for n := range t.parts {
		p := &t.parts[n]
		if p.name < 0 || t.sentOf[p.tok] != t.sentOf[i] {
			continue
		}
		if p.span.Len() > 0 && t.sentOf[p.span.First] == t.sentOf[i] || name.Len() == 0 || t.partNames[p.name] == t.partName(name.First, name.Last) {
			return true
		}
		t.parts = append(t.parts[:n:n], t.parts[n+1:]...)
		return false
	}
	return false
}

// paraHeadAt reads the name that heads the paragraph which sentence k begins.
func (t *talk) paraHeadAt(k int) (paraHead, bool) {
	s := &t.sents[k]
	if s.kind == storing || s.kind == figures || s.recap || s.other || s.past {
		return paraHead{}, false
	}
	i := s.First
	for i < s.Last && (t.in(aHeadWord, i) || t.in(aDeterminer, i) && t.norm(i) != "half" && !t.startsNumber(i)) {
		i++
	}
	e := t.headNameEnd(i, s.Last)
	if e <= i || !t.headEnds(e, s) || t.namesWhole(s.First, language.Span{First: i, Last: e}) {
		return paraHead{}, false
	}
	from := e
	for from < s.Last && t.toks[from-1].After == 0 {
		from++
	}
	h := paraHead{tok: s.First, span: language.Span{First: i, Last: e}}
	own := t.mentionAt[e-1]
	measured, holds := false, false
	for n := k; n < len(t.sents) && t.sents[n].para == s.para; n++ {
		for _, m := range t.mentionsIn(max(from, t.sents[n].First), t.sents[n].Last) {
			x := &t.mentions[m]
			if x.negated || x.mixed {
				continue
			}
			if own >= 0 && related(x.food, t.mentions[own].food) > 0 && !t.mentions[own].food.Dish && e-i < 2 {
				continue
			}
			holds = holds || e-i > 1 && t.has(i, e, t.norm(x.head.Last-1), lexicon.Singular(t.norm(x.head.Last-1))) >= 0
			h.fresh++
			measured = measured || t.measuredHere(x)
		}
	}
	if h.fresh < 2 || !measured {
		return paraHead{}, false
	}
	switch last := t.norm(e - 1); {
	case notPart[last] || plainHead[last]:
		return paraHead{}, false
	case holds: // "Garlic water: four cloves, a decilitre of water"
	case own >= 0 && !t.mentions[own].food.Dish && t.madeAt[i] == 0 && t.component(i) != e && !mixtureNouns[last]:
		if t.madeKind(int(own)) {
			return h, true
		}
		if !t.headMeasured(from, s, k, int(own)) {
			return paraHead{}, false
		}
		h.span = language.Span{} // "Dill. Two bunches, for everything."
	case t.component(i) == e || mixtureNouns[last] || t.madeAt[e-1] > 0 || t.isDishNoun(e-1):
	case !t.saidSmall(e-1, s):
		return paraHead{}, false // a word by itself that is no thing of the talk
	}
	return h, true
}

// headNameEnd gives the end of the name at token i: foods, words for what is made and one of no
// table, up to three.
func (t *talk) headNameEnd(i, end int) int {
	e := i
	for e < end && e < i+headWordsMost && (e == i || t.toks[e-1].After == 0) {
		if t.startsNumber(e) || t.toolAt[e] >= 0 || !t.nameWord(e) && !t.foreign(e, true) && t.madeAt[e] == 0 && t.component(e) == 0 && !t.curesAt(e) {
			break
		}
		e++
	}
	return e
}

// madeKind reports whether the food of a head is of a kind that cooks make themselves, and is
// nowhere told with an amount: "Achar. Six tomatoes, …".
func (t *talk) madeKind(own int) bool {
	f := t.mentions[own].food
	switch {
	case f.Made, f.Kind == "bread", f.Kind == "condiment", f.Kind == "sauce", f.Kind == "other":
	default:
		return false
	}
	for m := range t.mentions {
		if x := &t.mentions[m]; x.food == f && t.measuredHere(x) {
			return false
		}
	}
	return t.recurs(t.norm(t.mentions[own].head.Last - 1))
}

// plainHead are words by themselves that turn to no part.
var plainHead = words("spices vegetables veg things seasonings seasoning extras build wet dry dries red green white together assembly ready done cooking rest order time timing heat notes note tip tips onward serve serving plate table finish red black hot cold")

// curesAt reports whether the verb at token i is also what a mixture is called that does it:
// "cure", "rub", "brine", "batter".
func (t *talk) curesAt(i int) bool { return mixtureNouns[t.norm(i)] }

// mixtureNouns are mixtures called by what they do.
var mixtureNouns = words("cure rub brine batter marinade glaze stuffing filling dressing topping coating seasoning pickle crumb shell liquid soak dip wash slaw queso")

// headEnds reports whether the name that ends at token e of sentence s stands by itself: at a
// stop or a colon, or before words that only say that it comes now.
func (t *talk) headEnds(e int, s *sentence) bool {
	if e >= s.Last || t.toks[e-1].After.Ends() || t.toks[e-1].After&language.Colon != 0 {
		return true
	}
	if t.toks[e-1].After&language.Comma != 0 {
		return t.is(e, "this", "is") || t.is(e, "that's")
	}
	switch t.norm(e) {
	case "now", "first", "next", "then":
		return e+1 >= s.Last || t.toks[e].After != 0
	case "i", "we", "you":
		return t.norm(e+1) == "do" || t.norm(e+1) == "make" || t.norm(e+1) == "made"
	case "for":
		end := t.markFrom(e, s.Last)
		return end-e <= 4 && !t.figured(e, end) && !t.verbInside(e, end)
	}
	return false
}

// headMeasured reports whether the first amount behind a head, from token from on, is that of the food it
// names.
func (t *talk) headMeasured(from int, s *sentence, k, own int) bool {
	for n := k; n < len(t.sents) && n <= k+2 && t.sents[n].para == s.para; n++ {
		for i := max(from, t.sents[n].First); i < t.sents[n].Last; i++ {
			q := t.quantityAt[i]
			if q < 0 || t.quantities[q].First != i {
				continue
			}
			switch t.quantities[q].kind {
			case measure, count, vague:
				o := t.foodAfter(&t.quantities[q])
				return o < 0 || related(t.mentions[o].food, t.mentions[own].food) > 0
			}
		}
	}
	return true
}
