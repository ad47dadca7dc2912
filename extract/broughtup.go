package extract

import "quern/internal/lexicon"

// What the cook brings up before it is used stands in all kinds of sentences: "chicken
// thighs, bone in. Eight of them.", "your lemons. Three, unwaxed.", "they go with a bay
// leaf". By itself such a sentence may as well be talk; that the food goes in later, by no
// more than its name, tells that it was none.

// broughtUp gives the earlier mention that told how much there is of the food that m, the
// k-th mention, puts in without an amount, -1 for none.
func (t *talk) broughtUp(k int, m *mention) int {
	dish := t.dishOf(m.First)
	for j := k - 1; j >= max(0, k-inMind); j-- {
		x := &t.mentions[j]
		if x.ingr != nil || len(x.amounts) == 0 || !introductions[x.why] && (t.punctuated || x.why != "object of a don't") || x.negated || x.compared || x.alias >= 0 || x.subst >= 0 || x.mixed {
			continue
		}
		if t.dishOf(x.First) == dish && t.bringsBack(m, x) && t.shown(m, x) {
			return j
		}
	}
	return -1
}

// introductions are the reasons for which a mention was left out that are no more than that
// nothing was done with the food there.
var introductions = map[string]bool{"counted": true, "measured": true, "in a story": true, "named alone": true, "class of food": true, "a choice others take": true}

// bringsBack reports whether m names the food of the earlier mention x, maybe by less: "the
// thighs" of chicken thighs, "the lemon juice" of lemons.
func (t *talk) bringsBack(m, x *mention) bool {
	r := related(m.food, x.food)
	if r == 2 {
		return true
	}
	a, b := nameOf(m.name), nameOf(x.name)
	if m.food.Kind != x.food.Kind && !(plantKind[m.food.Kind] && plantKind[x.food.Kind]) {
		return false
	}
	if a.words == 1 && a.last == b.last || r == 1 && a.words <= b.words {
		return true
	}
	// the juice or zest of a fruit that was counted
	return a.words == 2 && b.words == 1 && isForm(a.last) && lexicon.Singular(a.first) == b.last
}

// guessReach is how many tokens after a story in talk without marks a food that it was cut
// together with is put in.
const guessReach = 250

// shown reports whether the earlier mention x has an amount in a sentence that may well be
// told of this dish.
func (t *talk) shown(m, x *mention) bool {
	s := t.sentence(x.First)
	if s.other || s.recap || s.kind == storing || s.kind == figures {
		return false
	}
	// where sentences are guessed, a story may have been cut together with what came after it
	guessed := !t.punctuated && m.definite && m.First-x.First < guessReach
	if (s.past || s.kind == aside) && !guessed {
		return false
	}
	for _, k := range x.amounts {
		q := &t.quantities[k]
		if !q.void && (q.kind == measure || q.kind == count && (!q.article || m.definite)) && !t.yields(t.sentence(q.First)) {
			return true
		}
	}
	return false
}

// open makes an ingredient of the j-th mention, which told its amount.
func (t *talk) open(j, part, way, dish int) *ingredient {
	x := &t.mentions[j]
	g := &ingredient{food: x.food, name: x.name, part: part, way: way, dish: dish, first: x.First, heard: x.heard, ways: map[int]bool{}}
	t.newIngredient(g)
	t.join(g, j, x)
	x.ingr, x.why = g, "put in later"
	for _, k := range x.amounts {
		if q := &t.quantities[k]; !q.void && (q.kind == measure || q.kind == count) {
			t.setAmount(g, j, x, q)
			break
		}
	}
	return g
}
