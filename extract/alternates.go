package extract

import (
	"sort"
	"strings"

	"quern/internal/lexicon"
)

// Some ways are told without a word that there are several: "in the oven that's
// twenty-five minutes. Or, air fryer: fifteen." Each is headed by where or how the dish is
// cooked, each has a time of its own, and words tell that the second stands in the
// first one's place: "or", "if you'd rather", "if you have a slow cooker", "no smoker?".
// Without such words two heads alike are ways where no dish goes through both places.

// alternate is a head by where or how the dish is cooked.
type alternate struct {
	tok, end int
	label    wayLabel
	class    wayClass
	instead  bool // words tell that it stands in another one's place
}

// alternatesMost is how many such heads a talk may have.
const alternatesMost = 60

// alternates gives the turns of ways that stand in one another's place, nil for none.
func (t *talk) alternates() []wayTurn {
	heads := t.alternateHeads()
	if len(heads) == 0 || len(heads) > alternatesMost {
		return nil
	}
	for n := range heads {
		b := &heads[n]
		if !b.instead || !t.timedBelow(b) {
			continue
		}
		if a, ok := t.insteadOf(heads[:n], b); ok {
			return t.alternating(heads, a, b)
		}
	}
	for n := 1; n < len(heads); n++ {
		for m := n - 1; m >= 0; m-- {
			a, b := &heads[m], &heads[n]
			if !samePlace(&a.label, &b.label) && t.besideOne(a, b) {
				return t.alternating(heads, *a, b)
			}
		}
	}
	return nil
}

// besideOne reports whether two heads alike, without a word that parts them, are of
// places that do the same work, so that no dish goes from one to the other.
func (t *talk) besideOne(a, b *alternate) bool {
	if a.class != placeClass || b.class != placeClass || t.sentOf[b.tok]-t.sentOf[a.tok] > 6 || !t.timedBelow(a) || !t.timedBelow(b) {
		return false
	}
	if t.putBeside(a, b) {
		return true
	}
	if finishes[lastWord(a.label.name)] || finishes[lastWord(b.label.name)] || t.has(b.end, min(len(t.toks), b.end+5), "at the end", "to finish", "to crisp", "to brown") >= 0 {
		return false // out of the slow cooker and under the grill
	}
	return wholePlace(&a.label) && (wholePlace(&b.label) || !holdsOnly[lastWord(b.label.name)]) || wholePlace(&b.label) && !holdsOnly[lastWord(a.label.name)]
}

// samePlace reports whether two heads name one place. A pizza oven isn't the oven at home.
func samePlace(a, b *wayLabel) bool {
	return sameLabel(a, b) && (a.name == "pizza oven") == (b.name == "pizza oven")
}

// putBeside reports whether the two were put beside one another with "or" before.
func (t *talk) putBeside(a, b *alternate) bool {
	for k := 0; k < int(t.sentOf[a.tok]); k++ {
		s := &t.sents[k]
		if t.has(s.First, s.Last, "or") < 0 || s.past || s.other {
			continue
		}
		var seen [2]bool
		for i := s.First; i < s.Last; i++ {
			if class, l, n := t.labelAt(i); n > 0 && (class == placeClass || class == workClass) {
				seen[0] = seen[0] || samePlace(&l, &a.label)
				seen[1] = seen[1] || samePlace(&l, &b.label)
			}
		}
		if seen[0] && seen[1] {
			return true
		}
	}
	return false
}

// holdsOnly are places in which a part of the work is done before or after another.
var holdsOnly = words("pan skillet saucepan wok bowl tin tray dish jar")

// finishes are places in which a dish that was cooked elsewhere is browned.
var finishes = words("grill broiler")

// wholePlace reports whether a dish is cooked in the place from beginning to end.
func wholePlace(l *wayLabel) bool {
	return soloPlaces[l.name] || strings.HasSuffix(l.name, "cooker") || strings.HasSuffix(l.name, "fryer") || strings.HasSuffix(l.name, "smoker") || l.name == "crockpot" || l.name == "pizza oven"
}

// timedBelow reports whether a time or a temperature is told under the head.
func (t *talk) timedBelow(h *alternate) bool {
	end := t.sentenceBeside(t.sentence(h.tok))
	if k := int(t.sentOf[h.tok]); h.instead {
		for k+1 < len(t.sents) && t.sents[k+1].para == t.sents[k].para && t.sents[k+1].First < h.end+timedReach {
			k++
		}
		end = max(end, t.sents[k].Last)
	}
	if !t.punctuated { // where sentences end is a guess
		end = max(end, h.end+timedReach)
	}
	return t.timedIn(h.end, min(len(t.toks), end))
}

// timedReach is how many words after its head the time of a way may stand, where the head
// leaves no doubt or nothing tells where sentences end.
const timedReach = 24

// insteadOf finds what head b stands in the place of: a head before it, or where the work
// was told without one.
func (t *talk) insteadOf(before []alternate, b *alternate) (alternate, bool) {
	for n := len(before) - 1; n >= 0; n-- {
		if a := before[n]; !samePlace(&a.label, &b.label) && t.timedBelow(&a) && t.sentOf[b.tok]-t.sentOf[a.tok] <= insteadReach {
			return a, true
		}
	}
	var work alternate
	for k := int(t.sentOf[b.tok]); k >= 0 && k >= int(t.sentOf[b.tok])-insteadReach; k-- {
		s := &t.sents[k]
		if s.past || s.other || s.kind == storing || !t.timedIn(s.First, min(b.tok, t.sentenceBeside(s))) {
			continue
		}
		for i := s.First; i < min(s.Last, b.tok); i++ {
			class, l, n := t.labelAt(i)
			if n == 0 || samePlace(&l, &b.label) {
				continue
			}
			switch {
			case class == placeClass && t.cooksIn(i) && (placePreps[t.norm(i-1)] || placePreps[t.norm(i-2)] && t.joined(i-2)):
				return alternate{tok: s.First, end: i + n, label: l, class: class}, true
			case class == workClass && work.label.name == "" && b.class == workClass && t.verbAt(i):
				work = alternate{tok: s.First, end: i + n, label: l, class: class}
			}
		}
	}
	return work, work.label.name != ""
}

// insteadReach is how many sentences may stand between a way and the one told in its place.
const insteadReach = 8

// alternating gives a turn for every head of the two ways, from the first on.
func (t *talk) alternating(heads []alternate, a alternate, b *alternate) []wayTurn {
	out := []wayTurn{{tok: a.tok, key: "0", name: a.label.name, class: int(a.class), loose: true}}
	for n := range heads {
		h := &heads[n]
		if h.tok <= a.tok {
			continue
		}
		switch {
		case samePlace(&h.label, &b.label):
			out = append(out, wayTurn{tok: h.tok, key: "1", name: b.label.name, class: int(b.class), loose: true})
		case samePlace(&h.label, &a.label):
			out = append(out, wayTurn{tok: h.tok, key: "0", name: a.label.name, class: int(a.class), loose: true})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].tok < out[j].tok })
	return out
}

// alternateHeads reads the heads of the talk.
func (t *talk) alternateHeads() []alternate {
	var out []alternate
	for k := range t.sents {
		s := &t.sents[k]
		if !t.mayTellWays(s) {
			continue
		}
		for i := s.First; i < s.Last; i++ {
			if i > s.First && (t.punctuated && t.toks[i-1].After == 0 || !t.punctuated && !t.in(anAlternate, i) && !t.barePlace(i)) {
				continue
			}
			if h, ok := t.alternateAt(s, i); ok {
				out = append(out, h)
				i = h.end - 1
			}
		}
	}
	return out
}

// barePlace reports whether a place stands at token i by itself: nothing before it holds it.
func (t *talk) barePlace(i int) bool {
	if !t.toolBegins(i) || !t.cooksIn(i) {
		return false
	}
	if i == 0 {
		return true
	}
	prev := t.norm(i - 1)
	return !wayHolds[prev] && !articleLike[prev] && (!determiners[prev] || t.quantityAt[i-1] >= 0) && !wayObjects[prev] && !placePreps[prev] && !t.verbAt(i-1) && (t.modifier(i-1) == lexicon.NoClass || t.mentionAt[i-1] >= 0) && t.toolAt[i-1] < 0
}

// anAlternate are the words that open such a head in talk without marks, where a clause's
// beginning is a guess.
var anAlternate = groupOf(words("or if alternatively in on no"))

// alternateAt reads the head at token i.
func (t *talk) alternateAt(s *sentence, i int) (alternate, bool) {
	h := alternate{tok: i}
	k := i
	for k < s.Last && k < i+5 && headWords[t.norm(k)] && t.norm(k) != "on" {
		k++
	}
	if inTurn[t.norm(max(i, k-1))] {
		return h, false // "then in the oven"
	}
	switch w := t.norm(k); w {
	case "or", "alternatively":
		h.instead = true
		k++
	case "if", "when":
		k++
		if !youWe[t.norm(k)] && t.norm(k) != "you'd" && t.norm(k) != "your" {
			return h, false
		}
		h.instead = true
	case "ain't", "don't", "haven't", "no", "without":
		return t.lacking(s, h, k+1)
	}
	if h.instead && (t.norm(k) == "you" || t.norm(k) == "you'd") && t.lacks(k+1) {
		return t.lacking(s, h, k+2)
	}
	if e, ok := t.insteadAt(s, i); ok {
		return e, true
	}
	prep := false
	for n := 0; k < s.Last && n < 12; n++ {
		class, l, m := t.labelAt(k)
		if m > 0 && (class == placeClass && t.cooksIn(k) || class == workClass && h.instead && t.wantedBefore(i, k)) && (!t.strangeOven(k-1) || t.norm(k-1) == "conventional") {
			h.label, h.class, h.end = l, class, k+m
			if class == placeClass && t.norm(k-1) == "home" {
				h.label.name = "home " + l.name
			}
			if w := t.norm(h.end); w == "way" || w == "method" || w == "version" || wayPeople[w] {
				h.instead = true // "pan way"
				return h, true
			}
			if h.instead && (prep || class == workClass || t.norm(k-1) == "or" || t.boughtBefore(i, k) || t.toks[max(i, k-1)].After != 0) {
				return h, true
			}
			return h, !h.instead && n <= 3 && t.headGoesOn(s, h.end, prep) && (i == s.First || t.punctuated || headTells[t.norm(h.end)] || wholePlace(&l) || i == k)
		}
		w := t.norm(k)
		switch {
		case placePreps[w] || w == "with" || w == "by":
			prep = true
		case articleLike[w] || determiners[w] || w == "home" || w == "conventional" || w == "normal" || w == "regular" || w == "ordinary":
		case h.instead && (alternateWords[w] || t.verbs(k) != nil && generalWork[t.verbs(k)[0].Action.Verb]):
		default:
			return h, false
		}
		if n > 0 && t.toks[k].After.Ends() {
			return h, false
		}
		k++
	}
	return h, false
}

// insteadAt reads a clause that names another place or another work with "instead" or "too": "put
// the pot in the oven instead", "you can bake them too".
func (t *talk) insteadAt(s *sentence, i int) (alternate, bool) {
	for k := i; k < s.Last && k < i+9; k++ {
		class, l, n := t.labelAt(k)
		if n == 0 || class != placeClass && class != workClass || class == placeClass && !t.cooksIn(k) {
			if t.toks[k].After != 0 {
				break
			}
			continue
		}
		e := k + n
		for e < s.Last && e < k+n+2 && (wayObjects[t.norm(e)] || t.norm(e) == "'em") && t.toks[e-1].After == 0 {
			e++
		}
		if w := t.norm(e); e < s.Last && (w == "instead" || (w == "too" || w == "as" && t.norm(e+1) == "well") && class == workClass && t.has(i, k, "can", "could") >= 0) {
			return alternate{tok: i, end: e, label: l, class: class, instead: true}, true
		}
	}
	return alternate{}, false
}

// alternateWords may stand between "or", "if" and the place.
var alternateWords = words("you you'd you're you've we i can could just also even equally rather prefer prefers want wants like fancy have got own using doing making cooking going go it this that these them 'em to do use for of only instead well there's as")

// wantedBefore reports whether a verb at token k is what somebody would rather do, or does
// by "or": "if you'd rather fry them".
func (t *talk) wantedBefore(i, k int) bool {
	for j := i; j < k; j++ {
		switch t.norm(j) {
		case "rather", "prefer", "want", "can", "could", "to":
			return t.norm(i) != "if" || t.has(i, k, "rather", "prefer") >= 0
		}
	}
	return false
}

// boughtBefore reports whether the words before the place at token k tell that somebody
// has it or uses it.
func (t *talk) boughtBefore(i, k int) bool {
	return t.has(i, k, "have", "got", "own", "using", "use", "you've") >= 0
}

// headGoesOn reports whether what follows the place named lets it head a way told there:
// a mark, a figure, "it's", who acts.
func (t *talk) headGoesOn(s *sentence, e int, prep bool) bool {
	if e >= s.Last {
		return true
	}
	if t.toks[e-1].After != 0 {
		return !inTurn[t.norm(e)]
	}
	w := t.norm(e)
	if x := t.toolAt[e-1]; x >= 0 && t.quantityAt[e] >= 0 && wholePlace(&wayLabel{name: t.phrase(t.tools[x].First, e)}) {
		return true
	}
	return youWe[w] || wayPeople[w] || !t.punctuated && !prep && t.isImperative(e) || headTells[w] || w == "same" || w == "at" || !prep && t.quantityAt[e] >= 0 || prep && t.quantityAt[e] >= 0 && t.quantities[t.quantityAt[e]].kind == heat
}

// lacks reports whether the word at token i says that something isn't there.
func (t *talk) lacks(i int) bool {
	switch t.norm(i) {
	case "don't", "haven't", "ain't":
		return true
	}
	return false
}

// lacking reads what is told for who lacks a place: "no smoker? Oven, two hours."
func (t *talk) lacking(s *sentence, h alternate, k int) (alternate, bool) {
	first, far := wayLabel{}, 0
	for n := 0; n < 14 && far < 4 && k < len(t.toks) && k < t.sentenceBeside(s); n++ {
		class, l, m := t.labelAt(k)
		switch {
		case m > 0 && class == placeClass && t.cooksIn(k) && first.name == "":
			first, k = l, k+m
		case m > 0 && class == placeClass && t.cooksIn(k) && !samePlace(&first, &l):
			h.label, h.class, h.end, h.instead = l, class, k+m, true
			return h, true
		case first.name == "" && !alternateWords[t.norm(k)] && !articleLike[t.norm(k)]:
			return h, false
		default:
			far += b2n(first.name != "", 1)
			k++
		}
	}
	return h, false
}

// cooksIn reports whether the tool at token i is one a dish is cooked in, by itself: no tin,
// dish or jar, which go into another.
func (t *talk) cooksIn(i int) bool {
	x := t.toolAt[i]
	if x < 0 || lastWord(t.tools[x].eq.Name) == "lid" {
		return false
	}
	switch t.tools[x].eq.Kind {
	case "appliance":
		n := t.tools[x].eq.Name
		return cookingPlaces[lastWord(n)] || soloPlaces[n]
	case "heat", "pan":
		return true
	}
	return false
}

// cookingPlaces are the last words of the names of appliances that cook.
var cookingPlaces = words("oven cooker fryer smoker microwave grill barbecue bbq pot crockpot hob stove cooktop broiler griddle steamer maker machine airfryer")
