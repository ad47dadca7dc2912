package extract

import (
	"strings"

	"quern/internal/lexicon"
)

// Some ways are announced by nothing: they are told one after the other under
// heads alike, "the slow way, you put …", "the quick way, you pour …", or "on the
// stove it's twelve minutes" and "in the microwave, fifteen". Two such heads of
// one class are ways when they say that they are, or when the cook speaks of both
// at once afterwards; a dish that goes from the pan to the oven has no such word.

// contrast is a head that may open one of several ways.
type contrast struct {
	tok   int
	class wayClass
	label wayLabel
	says  bool // with a word for a way: "the lazy version"
}

// contrastHeads is how many heads are tried as the first of those that contrast,
// contrastMost how many a talk may have.
const (
	contrastHeads = 12
	contrastMost  = 60
)

// inBothWays speak, besides bothWays, of all the ways at once where nothing but
// their heads tells that there are ways.
var inBothWays = []string{"both times", "in both", "both want", "both get", "both need", "same for both", "the same after that", "from here on it's the same", "however you did", "whatever you did"}

// contrasts gives the turns of ways that nothing announced, nil for none.
func (t *talk) contrasts() []wayTurn {
	if !t.punctuated {
		return nil
	}
	var heads []contrast
	for k := range t.sents {
		s := &t.sents[k]
		if !t.mayTellWays(s) {
			continue
		}
		if h, ok := t.contrastAt(s); ok && t.toldBelow(k) {
			heads = append(heads, h)
		}
	}
	if len(heads) < 2 || len(heads) > contrastMost {
		return nil // one has nothing to contrast with, and no cook turns so often
	}
	both := t.bothTold()
	for n := range heads[:min(len(heads), contrastHeads)] {
		if turns := t.contrasted(heads[n:], both.of(int(t.sentOf[heads[n].tok]), int(t.sentOf[heads[len(heads)-1].tok]))); turns != nil {
			return turns
		}
	}
	return nil
}

// mayTellWays reports whether a sentence is of this dish and now, so that it may
// tell of its ways.
func (t *talk) mayTellWays(s *sentence) bool {
	return s.kind != storing && s.kind != figures && !s.recap && !s.past && !s.other && !t.ofOthers(s)
}

// contrasted gives the turns among heads that contrast with the first of them.
func (t *talk) contrasted(heads []contrast, both bool) []wayTurn {
	first := &heads[0]
	var out []wayTurn
	keys := map[string]bool{}
	says, apart := 0, false
	for n := range heads {
		h := &heads[n]
		if h.class != first.class || !both && !h.says && !opposed(&first.label, &h.label) && (n > 0 || first.class != stateClass) {
			continue
		}
		apart = apart || h.class == stateClass && opposed(&first.label, &h.label)
		key := strings.Join(h.label.keys, " ")
		if !keys[key] {
			keys[key] = true
			if h.says {
				says++
			}
		}
		out = append(out, wayTurn{tok: h.tok, key: key, name: h.label.name, class: int(h.class), loose: true})
	}
	if len(keys) != 2 && len(keys) != 3 || says < len(keys) && !both && !apart {
		return nil
	}
	return out
}

// opposites are states of which a dish, or what it is made of, has one.
var opposites = []map[string]bool{words("fresh dried tinned canned frozen"), words("hot cold warm chilled iced"), words("raw cooked"), words("slow quick fast"), words("dry wet"), words("sweet savoury savory"), words("mild spicy hot"), words("soft crispy crunchy"), words("thick thin")}

// opposed reports whether two labels are opposite states.
func opposed(a, b *wayLabel) bool {
	for _, o := range opposites {
		if a.name != b.name && o[a.name] && o[b.name] {
			return true
		}
	}
	return false
}

// toldBelow reports whether sentence k or the one after it gives the way work to
// do: a time, a temperature, an amount or an order.
func (t *talk) toldBelow(k int) bool {
	for j := k; j <= k+1 && j < len(t.sents); j++ {
		s := &t.sents[j]
		if s.para != t.sents[k].para {
			break
		}
		if s.kind == instruction || t.figured(s.First, s.Last) {
			return true
		}
	}
	return false
}

// contrastLeads may stand before the name of a way at the start of its sentence.
var contrastLeads = words("the a an my our and then now so right okay first second other third method way version option one next but or")

// contrastAt reads the head of a sentence that may open a way.
func (t *talk) contrastAt(s *sentence) (contrast, bool) {
	i := s.First
	prep := false
	for i < s.Last && i < s.First+9 {
		w := t.norm(i)
		if w == "on" || w == "in" || w == "with" || w == "to" {
			if prep {
				return contrast{}, false
			}
			prep = true
		} else if !contrastLeads[w] {
			break
		}
		i++
	}
	if i >= s.Last || i >= s.First+9 {
		return contrast{}, false
	}
	said := false // "first method, the dry one"
	for k := s.First; k < i; k++ {
		said = said || wayNoun[t.norm(k)] && t.norm(k) != "one"
	}
	class, label, n := t.contrastLabel(i)
	if n == 0 && (said || i > s.First && wayNoun[t.norm(i+1)] && t.norm(i+1) != "one" && t.norm(i+1) != "ones" && articleLike[t.norm(i-1)]) && t.actionAt[i] < 0 && t.quantityAt[i] < 0 && !wayStop[t.norm(i)] && !headWords[t.norm(i)] {
		class, label, n = stateClass, t.phraseLabel(i, i+1), 1 // "first method, the dry one"
	}
	if n == 0 {
		return contrast{}, false
	}
	e := i + n
	if wayNoun[t.norm(e)] && (t.norm(e+1) == "is" || t.norm(e+1) == "uses") && articleLike[t.norm(e+2)] {
		// "the lazy version is the microwave"
		if c, l, m := t.contrastLabel(e + 3); m > 0 && c == placeClass {
			return contrast{tok: s.First, class: c, label: l, says: true}, true
		}
	}
	if one := t.norm(e) == "one" || t.norm(e) == "ones"; one && t.quantityAt[e] >= 0 && i == s.First {
		return contrast{}, false // "cumin, one teaspoon"
	}
	if class == foodClass && !wayNoun[t.norm(e)] && (t.norm(i-1) != "with" && t.norm(i-2) != "with" || !t.mainFood(i, e)) {
		return contrast{}, false // "with the cumin, …" is a step
	}
	h := contrast{tok: s.First, class: class, label: label, says: said}
	switch w := t.norm(e); {
	case wayNoun[w] && w != "side" && w != "person":
		h.says = true
		return h, true
	case said:
		return h, true
	case !prep || class == productClass, t.toks[e-1].After != 0 && inTurn[w]:
		return contrast{}, false // "in the oven, then, …" comes after the pan
	case class == placeClass && t.holdsDish(i):
		return contrast{}, false // "in the tin, …"
	case t.toks[e-1].After != 0, w == "it's" || w == "they're" || w == "that's" || w == "it", t.norm(i-1) == "to" && (w == "them" || w == "it"):
		return h, true
	}
	return contrast{}, false
}

// mains are kinds of food that a dish can be made of, one or the other.
var mains = words("meat poultry fish seafood legume egg tofu pasta noodle dough mushroom")

// mainFood reports whether tokens [a, b) name a food that a dish is made of.
func (t *talk) mainFood(a, b int) bool {
	for i := a; i < b; i++ {
		if k := t.mentionAt[i]; k >= 0 {
			return mains[t.mentions[k].food.Kind] || wayStates[t.norm(a)]
		}
	}
	return false
}

// contrastLabel reads the label at token i, or any one word before a word for a way.
func (t *talk) contrastLabel(i int) (wayClass, wayLabel, int) {
	if class, label, n := t.labelAt(i); n > 0 {
		if class == foodClass && wayStates[t.norm(i)] {
			return stateClass, t.phraseLabel(i, i+1), n // "fresh pasta", beside "dried"
		}
		return class, label, n
	}
	if f := t.verbs(i); len(f) > 0 && f[0].Form == lexicon.Base && t.norm(i-1) == "to" {
		return workClass, workLabel(f[0].Action), 1
	}
	if wayStates[t.norm(i)] {
		return stateClass, t.phraseLabel(i, i+1), 1
	}
	return 0, wayLabel{}, 0
}
