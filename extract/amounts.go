package extract

import (
	"math"
	"slices"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// joinAmounts ties each amount to the food it measures: the one right after
// it ("two cups of flour"), else the one before it ("butter, fifty grams"),
// else the topic of the sentence before ("Cardamom. Six pods").
func (t *talk) joinAmounts() {
	t.sortsAfter()
	for k := range t.quantities {
		t.halfAfterFood(k)
	}
	for k := range t.quantities {
		q := &t.quantities[k]
		if q.void && q.righted == 0 || q.kind == duration || q.kind == heat || q.kind == money {
			continue
		}
		if q.kind == length {
			if m := t.lengthOfPiece(q); m >= 0 {
				t.tie(k, m)
			}
			continue
		}
		if q.kind == vague && q.vkind == "time" {
			continue
		}
		if kind := t.sentence(q.First).kind; kind == figures || kind == storing {
			continue
		}
		if q.rights > 0 && t.takePlace(k, q.rights-1) {
			continue
		}
		t.joinAmount(k)
	}
	for k := range t.quantities {
		if q := &t.quantities[k]; q.void && q.food >= 0 {
			t.untie(k)
		}
	}
	if !t.punctuated {
		t.orphans()
	}
	t.amend()
	t.articles()
}

// orphans ties measures that nothing else took, in talk without marks, to the food right before
// them over a remark on it: "olives black ones the ones with the pits out half a cup".
func (t *talk) orphans() {
	for k := range t.quantities {
		q := &t.quantities[k]
		if q.food >= 0 || q.void || q.of || q.definite || q.kind != measure || q.ukind == "length" || q.unit == "piece" || t.foodAfter(q) >= 0 || t.norm(q.Last) == "of" {
			continue
		}
		if kind := t.sentence(q.First).kind; kind == figures || kind == storing || kind == aside {
			continue
		}
		if m := t.remarkedOn(q); m >= 0 {
			t.tie(k, m)
		}
	}
}

// remarkedOn gives the food without an amount that the words before a measure speak of, -1 where
// something else stands between.
func (t *talk) remarkedOn(q *quantity) int {
	s := t.sentence(q.First)
	for i := q.First - 1; i >= s.First && i >= q.First-loneGap; i-- {
		if m := t.mentionAt[i]; m >= 0 {
			x := &t.mentions[m]
			if w := t.norm(x.First - 1); len(x.amounts) > 0 || w == "a" || w == "an" || x.negated || x.compared || x.mixed || x.food.Dish || x.verb || x.definite && x.First-s.First > 3 {
				return -1
			}
			return int(m)
		}
		if w := t.norm(i); i >= q.First-2 && (w == "with" || w == "that's" || w == "is") {
			return -1 // "remove the seeds with a teaspoon", "that is about one kilo"
		}
		if t.quantityAt[i] >= 0 || t.toolAt[i] >= 0 || t.madeAt[i] > 0 || t.actionAt[i] >= 0 {
			return -1
		}
	}
	return -1
}

// joinAmount ties amount k to the food it measures, where there is one.
func (t *talk) joinAmount(k int) {
	q := &t.quantities[k]
	t.carryUnit(k)
	t.sameAs(k)
	if m := t.onlySome(k); m >= 0 {
		for _, x := range t.mentions[m].amounts {
			t.quantities[x].void = true
		}
		t.tie(k, m)
		return
	}
	m := t.foodAfter(q)
	if f := t.cameAs(q, m); f >= 0 {
		t.tie(k, f)
		t.mentions[m].alias = f
		return
	}
	if m >= 0 {
		if f := t.trails(k, m); f >= 0 {
			t.tie(k, f)
			return
		}
	}
	if m >= 0 {
		t.tie(k, m)
		if q.each || q.kind == vague && q.vkind == "taste" {
			t.spread(k, m)
		}
		return
	}
	if t.standsFor(q) {
		return // "the proper one"
	}
	t.sameUnit(k, q)
	t.massNumber(k, q)
	if m := t.ofEach(q); m >= 0 {
		t.tie(k, m)
		t.spreadBack(k, m)
		return
	}
	if m := t.ofThat(q); m >= 0 {
		t.tie(k, m)
		return
	}
	if m := t.cutCounted(q); m >= 0 {
		t.tie(k, m)
		return
	}
	if m := t.sizeOfContainer(q); m >= 0 {
		t.tie(k, m)
		t.sizeOfThose(k, m)
		return
	}
	if m := t.foodBefore(k, q); m >= 0 {
		t.halfOfOne(q, m)
		if t.wholeBunch(q, &t.mentions[m]) {
			q.kind, q.min, q.max, q.unit, q.ukind = measure, 1, 1, "bunch", "count"
		}
		t.tie(k, m)
		if q.kind == vague && q.vkind == "taste" {
			t.spreadBack(k, m)
		}
	} else if m := t.told(q); m >= 0 {
		t.tie(k, m)
	}
}

// sortsAfter names foods by the sort that the next sentence opens with: "Oil. Rapeseed, half
// a litre.", "Onions. Red ones, two."
func (t *talk) sortsAfter() {
	if !t.punctuated {
		return
	}
	for k := range t.mentions {
		m := &t.mentions[k]
		s := t.sentence(m.First)
		if m.Last != s.Last || s.Len() > 3 || s.Last >= len(t.toks) || m.head.Len() > 1 || m.head != m.Span || m.negated || m.compared || m.verb || t.toks[s.Last-1].After&language.Question != 0 {
			continue
		}
		if i := t.sortWord(m.Last); i > 0 {
			t.sorted(k, m.Last, i)
		}
	}
}

// sortWord gives where the one word at token i ends that opens a sentence and stands before
// a comma and an amount, alone or with "one"; 0 where there is none.
func (t *talk) sortWord(i int) int {
	e := i + 1
	if w := t.norm(e); (w == "one" || w == "ones" || w == "kind") && t.toks[i].After == 0 {
		e++
	}
	if e >= len(t.toks) || t.toks[e-1].After&language.Comma == 0 || t.quantityAt[e] < 0 {
		return 0
	}
	return e
}

// sorted names mention k by the sort said at token i, where the two together are a food.
// A weight of what is a food itself is that food's: "Stock. Chicken, one kilo."
func (t *talk) sorted(k, i, e int) {
	m := &t.mentions[k]
	class := t.norm(m.head.First)
	f, ok := t.lex.FoodNamed(t.norm(i) + " " + class)
	if !ok {
		f, ok = t.lex.FoodNamed(t.norm(i) + " " + lexicon.Singular(class))
	}
	if !ok || f.Dish {
		return
	}
	if x := t.mentionAt[i]; x >= 0 {
		o := &t.mentions[x]
		if o.head.Len() > 1 || t.quantities[t.quantityAt[e]].ukind == "mass" && fluids[class] {
			return
		}
		o.alias, o.sort = k, true
	}
	m.food, m.name = f, t.norm(i)+" "+m.name
}

// fluids are classes of food that nobody weighs.
var fluids = words("stock broth juice milk sauce oil wine vinegar water cream")

// cameAs gives the food right before a number whose pieces are counted, where m is only what
// they are called: "allspice, eight berries", "chicken, six thighs". Together they must be the
// name of a food, which it then is.
func (t *talk) cameAs(q *quantity, m int) int {
	if m < 1 || q.kind != count || q.article || t.mentions[m].head.Len() > 1 {
		return -1
	}
	o, piece := &t.mentions[m-1], t.norm(t.mentions[m].head.First)
	if o.Last != q.First || t.joined(o.Last-1) || o.definite || o.negated || o.compared || o.verb || len(o.amounts) > 0 || t.sentOf[o.First] != t.sentOf[q.First] {
		return -1
	}
	f, ok := t.lex.FoodNamed(t.phrase(o.head.First, o.head.Last) + " " + lexicon.Singular(piece))
	if !ok {
		return -1
	}
	o.food, o.name = f, o.name+" "+piece
	return m - 1
}

// told gives the food that an amount said at the end of its sentence measures, over a
// remark: "the cream cheese, the whole tub, that's two hundred grams". It must be the
// only food there without one.
func (t *talk) told(q *quantity) int {
	s := t.sentence(q.First)
	if !t.punctuated || q.First == s.First || q.kind != measure && (q.kind != count || q.article) || q.of && !t.is(q.Last, "those") && !t.is(q.Last, "them") {
		return -1
	}
	end := q.Last
	if t.norm(end) == "of" {
		end += 2
	}
	if t.toks[min(end, s.Last)-1].After == 0 {
		return -1
	}
	i := q.First - 1
	for i > s.First && (approx[t.norm(i)] > 0 || hedges[t.norm(i)] || t.norm(i) == "like" || t.norm(i) == "say") {
		i--
	}
	switch t.norm(i) {
	case "that's", "it's", "was", "makes", "use", "used", "it", "is":
	default:
		if t.toks[i].After == 0 {
			return -1
		}
	}
	found := -1
	for ; i >= s.First; i-- {
		if n := t.quantityAt[i]; n >= 0 && (t.quantities[n].food >= 0 || t.quantities[n].kind == count) {
			return -1
		}
		m := int(t.mentionAt[i])
		if m < 0 || m == found {
			continue
		}
		x := &t.mentions[m]
		if found >= 0 || x.negated || x.compared || x.mixed || x.food.Dish || len(x.amounts) > 0 || q.kind == count && (!t.countable(x) || !plural(t.norm(x.head.Last-1))) {
			return -1
		}
		found = m
	}
	if found >= 0 && t.namedWithAmount(found) {
		return -1
	}
	return found
}

// takePlace lets amount n, which puts amount k right, measure the food that k measured:
// "curry powder, two tablespoons. No no. Two teaspoons." It reports false where n stands
// before a food of its own or k measured none.
func (t *talk) takePlace(n, k int) bool {
	m := t.quantities[k].food
	if m < 0 || t.foodAfter(&t.quantities[n]) >= 0 {
		return false
	}
	t.untie(k)
	t.tie(n, m)
	return true
}

// untie takes amount k from the food it measures.
func (t *talk) untie(k int) {
	q := &t.quantities[k]
	m := &t.mentions[q.food]
	m.amounts = slices.DeleteFunc(slices.Clone(m.amounts), func(x int) bool { return x == k })
	q.food = -1
}

// halfAfterFood adds a half that is said after the food to the whole measure
// before it: "a teaspoon of salt and a half".
func (t *talk) halfAfterFood(k int) {
	half := &t.quantities[k]
	if half.void || half.kind != count || half.min != 0.5 || half.max != 0.5 || t.norm(half.First-1) != "and" || !t.joined(half.First-2) {
		return
	}
	m := t.mentionAt[half.First-2]
	if m < 0 || t.mentionStart(half.Last) >= 0 {
		return
	}
	first := t.mentions[m].First
	x := int32(-1)
	if first > 0 {
		x = t.quantityAt[first-1]
	}
	if x < 0 {
		return
	}
	whole := &t.quantities[x]
	if whole.void || whole.kind != measure || !whole.of || whole.min != whole.max || whole.min != math.Trunc(whole.min) || whole.min < 1 {
		return
	}
	whole.min, whole.max = whole.min+half.min, whole.max+half.max
	whole.halfEnds, half.void = half.Last, true
}

// runReach is how many amounts of a list are looked at for where the first belongs.
const runReach = 40

// trails gives the food right before amount k where a list names each food before its
// amount, -1 where it does not: "soy sauce two tablespoons rice wine one tablespoon".
// Without marks only the end of the list tells: it closes with an amount. m is the food
// right after amount k.
func (t *talk) trails(k, m int) int {
	q := &t.quantities[k]
	if !t.trailing(q) || t.toks[q.First].Cap && t.punctuated {
		return -1
	}
	f := t.foodRightBefore(q)
	if f < 0 {
		return -1
	}
	for n := 0; n < runReach; n++ {
		i := t.mentions[m].Last
		if i >= len(t.toks) || t.sentOf[i] != t.sentOf[q.First] || t.toks[i-1].After != 0 {
			return -1
		}
		if approx[t.norm(i)] > 0 {
			i++
		}
		if i >= len(t.toks) || t.quantityAt[i] < 0 {
			return -1
		}
		p := &t.quantities[t.quantityAt[i]]
		if !t.trailing(p) {
			return -1
		}
		if m = t.foodAfter(p); m < 0 {
			return f
		}
	}
	return -1
}

// trailing reports whether an amount can stand behind its food.
func (t *talk) trailing(q *quantity) bool {
	return !q.void && !q.of && !q.definite && (q.kind == measure || q.kind == count)
}

// foodRightBefore gives the food without an amount that stands right before an amount,
// or that another measure between them has just measured, -1 for none.
func (t *talk) foodRightBefore(q *quantity) int {
	i := q.First - 1
	if approx[t.norm(i)] > 0 {
		i--
	}
	if i < 0 || !t.joined(i) {
		return -1
	}
	if p := t.quantityAt[i]; p >= 0 {
		x := &t.quantities[p]
		if x.food >= 0 && t.mentions[x.food].Last <= x.First && t.secondMeasure(x, q) {
			return x.food
		}
		return -1
	}
	for i >= 0 && t.mentionAt[i] < 0 && t.modifier(i) == lexicon.PrepWord && t.joined(i) {
		i--
	}
	if i < 0 || !t.joined(i) {
		return -1
	}
	m := t.mentionAt[i]
	if m < 0 {
		return -1
	}
	if f := &t.mentions[m]; len(f.amounts) > 0 || f.negated || f.compared || f.mixed || q.kind == count && !t.countable(f) {
		return -1
	}
	return int(m)
}

// carryUnit gives a bare number before a food the unit of the amount before it: "three
// tablespoons of soy sauce and two of mirin", "fifty grams of nuts and fifty of cheese".
func (t *talk) carryUnit(k int) {
	q := &t.quantities[k]
	if q.kind != count || q.article || q.of || k == 0 || q.size != nil || t.norm(q.Last) != "of" || !t.joined(q.Last) || t.mentionStart(q.Last+1) < 0 {
		return
	}
	t.takeUnit(k)
}

// massKinds are kinds of foods that a number alone doesn't count.
var massKinds = words("oil flour sweetener dairy condiment water alcohol grain fat")

// massNumber gives a number its unit where it stands behind a food that isn't counted:
// "groundnut oil, three tablespoons, and honey, two".
func (t *talk) massNumber(k int, q *quantity) {
	if q.kind != count || q.article || q.of || k == 0 || q.First == 0 || t.sentOf[q.First-1] != t.sentOf[q.First] || !t.countTail(q) {
		return
	}
	i := q.First - 1
	switch t.norm(i) {
	case "is", "was", "gets":
		i-- // "sugar is a hundred"
	}
	m := t.mentionAt[max(i, 0)]
	if m < 0 {
		return
	}
	x := &t.mentions[m]
	if !massKinds[x.food.Kind] || plural(t.norm(x.head.Last-1)) || len(x.amounts) > 0 || x.negated || x.compared || x.mixed {
		return
	}
	if p := &t.quantities[k-1]; p.food >= 0 && (t.sentOf[p.First] == t.sentOf[q.First] || q.min >= 10) {
		t.takeUnit(k) // "cream cheese, two hundred grams. Icing sugar, seventy five."
	}
}

// carriedTimes is how many times as much as the measure before a number can be that
// carries its unit.
const carriedTimes = 50

// takeUnit gives number k the unit of the measure before it, where that stands in the
// same sentence or the one before.
func (t *talk) takeUnit(k int) {
	q := &t.quantities[k]
	for n := k - 1; n >= max(0, k-4); n-- {
		p := &t.quantities[n]
		if p.void || p.kind != measure {
			continue
		}
		if p.ukind != "mass" && p.ukind != "volume" || t.sentOf[q.First]-t.sentOf[p.First] > 1 || q.min > carriedTimes*p.min || p.min > carriedTimes*q.min {
			return // "a quarter litre of oil and three hundred of sugar"
		}
		q.kind, q.unit, q.ukind = measure, p.unit, p.ukind
		return
	}
}

// sameAs gives a food the amount it is said to share with the one told right before:
// "butter, two hundred grams. The same weight of sugar."
func (t *talk) sameAs(k int) {
	q := &t.quantities[k]
	if q.kind != vague || q.vkind != "ratio" || !q.of || t.has(q.First, q.Last, "same") < 0 {
		return
	}
	byWeight := t.has(q.First, q.Last, "weight") >= 0
	for n := k - 1; n >= max(0, k-3); n-- {
		p := &t.quantities[n]
		if p.void || p.kind == duration || p.kind == heat || p.kind == length {
			continue
		}
		if p.kind != measure || p.ukind != "mass" && (byWeight || p.ukind != "volume") || t.sentOf[q.First]-t.sentOf[p.First] > 1 {
			return
		}
		q.kind, q.min, q.max, q.by, q.unit, q.ukind, q.about = measure, p.min, p.max, p.by, p.unit, p.ukind, p.about
		q.before = p.First
		return
	}
}

// onlySome gives the food of which amount k is what goes in, where the amount before
// it was that of the packet: "a packet of biscuits, that's four hundred grams, but you
// only want three hundred", "a big jar of kimchi, you'll use only a cup of it". It is
// -1 for anything else.
func (t *talk) onlySome(k int) int {
	q := &t.quantities[k]
	if k == 0 || q.void || q.definite || q.kind != measure && q.kind != count {
		return -1
	}
	p := &t.quantities[k-1]
	if p.food < 0 || p.void || p.kind != measure && p.kind != count || t.sentOf[q.First]-t.sentOf[p.First] > 1 || q.First-p.Last > loneGap {
		return -1
	}
	m := p.food
	x := &t.mentions[m]
	if t.foodBetween(p.Last, q.First, x) || x.Last > q.First {
		return -1
	}
	switch w := t.norm(q.Last); {
	case q.Last >= len(t.toks) || t.toks[q.Last-1].After != 0:
	case t.norm(q.Last-1) == "of" && (w == "it" || w == "them" || w == "that" || w == "those"):
	case w == "of" && (t.norm(q.Last+1) == "it" || t.norm(q.Last+1) == "them" || t.norm(q.Last+1) == "that" || t.norm(q.Last+1) == "those"):
	default:
		return -1
	}
	from := max(p.Last, q.First-4)
	only := t.has(from, q.First, "only", "just") >= 0 && t.has(from, q.First, "want", "need", "use", "using", "needs", "wants", "takes") >= 0
	if !only && t.has(p.Last, q.First, "don't want it all", "don't need it all", "don't want all", "don't need all", "won't need it all", "won't use it all", "not all of it", "don't use it all", "don't want the whole", "don't need the whole", "not the whole") < 0 {
		return -1
	}
	if q.kind == count {
		for _, n := range x.amounts {
			if o := &t.quantities[n]; !o.void && o.kind == measure && (o.ukind == "mass" || o.ukind == "volume") {
				q.kind, q.unit, q.ukind = measure, o.unit, o.ukind
				break
			}
		}
	}
	return m
}

// ofEach gives the last of the foods that a number "of each" counts: "dasheen and green
// banana, four of each".
func (t *talk) ofEach(q *quantity) int {
	if q.kind != count && q.kind != measure || t.norm(q.Last-b2n(q.of, 1)) != "of" || t.norm(q.Last+1-b2n(q.of, 1)) != "each" {
		return -1
	}
	i := q.First - 1
	if i < 0 || t.sentOf[i] != t.sentOf[q.First] || t.mentionAt[i] < 0 {
		return -1
	}
	if m := &t.mentions[t.mentionAt[i]]; len(m.amounts) > 0 || m.negated || m.mixed || m.compared {
		return -1
	}
	return int(t.mentionAt[i])
}

// thatReach is how many words before a measure of it what it measures can be named.
const thatReach = 26

// ofThat gives the food without an amount that a measure of "it" or "those" measures:
// "the barley wants rinsing, half a cup of it".
func (t *talk) ofThat(q *quantity) int {
	if q.kind != measure || !q.of || q.definite || q.Last >= len(t.toks) {
		return -1
	}
	switch t.norm(q.Last) {
	case "that", "it", "those", "which":
		// "one cup of that is coconut milk"
		if w := t.norm(q.Last + 1); w == "is" || w == "are" || w == "was" || w == "being" {
			if m := t.mentionStart(q.Last + 2); m >= 0 && len(t.mentions[m].amounts) == 0 {
				return m
			}
		}
	}
	switch t.norm(q.Last) {
	case "it", "them", "those", "these":
	default:
		return -1
	}
	for i := q.First - 1; i >= 0 && i > q.First-thatReach && t.sentOf[q.First]-t.sentOf[i] <= 2; i-- {
		if t.quantityAt[i] >= 0 || t.toolAt[i] >= 0 && i <= q.First-10 {
			return -1
		}
		m := t.mentionAt[i]
		if m < 0 {
			continue
		}
		f := &t.mentions[m]
		if generic[f.food.Name] || generic[t.norm(f.head.Last-1)] {
			continue // "take out the seeds, and you want two kilos of it"
		}
		if len(f.amounts) > 0 || f.negated || f.compared || f.mixed {
			return -1
		}
		return int(m)
	}
	return -1
}

// meatCuts are pieces of an animal that are counted without its name.
var meatCuts = words("legs thighs breasts wings drumsticks fillets chops steaks cutlets shanks breast leg thigh fillet shank")

// cutCounted gives the meat or fish of which pieces are counted: "chicken. Two breasts",
// "six legs, that's what I got, chicken legs".
func (t *talk) cutCounted(q *quantity) int {
	if q.kind != count || q.article || q.Last >= len(t.toks) || t.toks[q.Last-1].After != 0 {
		return -1
	}
	i := q.Last
	for i < q.Last+3 && t.modifier(i) != lexicon.NoClass && t.joined(i) && !meatCuts[t.norm(i)] {
		i++
	}
	if !meatCuts[t.norm(i)] || t.mentionAt[i] >= 0 {
		return -1
	}
	for j := i + 1; j < t.sentence(q.First).Last && j < i+14; j++ {
		if m := t.mentionAt[j]; m >= 0 {
			x := &t.mentions[m]
			if len(x.amounts) == 0 && !x.negated && lexicon.Singular(t.norm(x.head.Last-1)) == lexicon.Singular(t.norm(i)) {
				return int(m)
			}
			break
		}
	}
	for j := q.First - 1; j >= 0 && j > q.First-12; j-- {
		m := t.mentionAt[j]
		if m < 0 {
			continue
		}
		x := &t.mentions[m]
		if k := x.food.Kind; (k == "poultry" || k == "meat" || k == "fish") && len(x.amounts) == 0 && !x.negated && !x.compared && !x.mixed && t.sentOf[q.First]-t.sentOf[j] <= 1 {
			return int(m)
		}
		return -1
	}
	return -1
}

// halfOfOne makes a count of the share in "a small cabbage, half of it", "green
// mango, half of one": half of the thing is taken.
func (t *talk) halfOfOne(q *quantity, m int) {
	mm := &t.mentions[m]
	part := fractionWords[t.norm(q.First)]
	if q.kind != share && q.kind != count || len(mm.amounts) > 0 || part == 0 || !t.countable(mm) || plural(t.norm(mm.head.Last-1)) || mm.definite && t.spokenOf(m) {
		return
	}
	i := q.First + 1
	if t.norm(i) != "of" {
		return
	}
	switch t.norm(i + 1) {
	case "it", "one", "that":
	default:
		return
	}
	q.kind, q.min, q.max = count, part, part
	q.Last = max(q.Last, i+2)
}

// spokenOf reports whether the food of mention m was named a little before.
func (t *talk) spokenOf(m int) bool {
	for k := m - 1; k >= 0 && k > m-60; k-- {
		if related(t.mentions[k].food, t.mentions[m].food) > 0 {
			return true
		}
	}
	return false
}

// fractionWords are the parts of one thing that cooks take.
var fractionWords = map[string]float64{"half": 0.5, "quarter": 0.25}

// amendReach is how many tokens after an amount it can be put right.
const amendReach = 50

// amend puts right what the cook finds wrong after a while: "two hundred was
// for the small tin, so it's two hundred and fifty", "two cups, and it's wrong,
// it's two and a half", "I gave you the sugar wrong. It's ninety grams."
func (t *talk) amend() {
	for k := range t.quantities {
		p := &t.quantities[k]
		if p.void || p.food < 0 || p.kind != measure && p.kind != count || p.article {
			continue
		}
		if n := t.amendment(k); n >= 0 {
			t.putRight(k, n)
		}
	}
	for k := range t.sents {
		s := &t.sents[k]
		i := t.has(s.First, s.Last, "wrong")
		if i < 0 || t.has(s.First, s.Last, "goes wrong", "go wrong", "went wrong", "wrong with", "nothing wrong") >= 0 {
			continue
		}
		m := -1
		for _, x := range t.mentionsIn(s.First, i) {
			m = x
		}
		if m < 0 {
			continue
		}
		n := t.nextAmount(i, min(len(t.toks), i+16), -1)
		if n < 0 || t.quantities[n].kind != measure {
			continue
		}
		for x := m - 1; x >= max(0, m-inMind); x-- {
			o := &t.mentions[x]
			if related(o.food, t.mentions[m].food) == 0 || len(o.amounts) == 0 {
				continue
			}
			for _, q := range o.amounts {
				if p := &t.quantities[q]; p.kind == measure && p.unit == t.quantities[n].unit && p.min != t.quantities[n].min {
					t.putRight(q, n)
					break
				}
			}
			break
		}
	}
}

// nextAmount gives the first amount or bare number in tokens [a, b) but for
// quantity not, -1 for none.
func (t *talk) nextAmount(a, b, not int) int {
	for i := a; i < b; i++ {
		if q := t.quantityAt[i]; q >= 0 && int(q) != not && t.quantities[q].First == i {
			switch x := &t.quantities[q]; x.kind {
			case measure, count:
				if !x.void && !x.article {
					return int(q)
				}
			}
		}
	}
	return -1
}

// amendment gives the quantity that puts amount k right later on, -1 for none.
func (t *talk) amendment(k int) int {
	p := &t.quantities[k]
	end := min(len(t.toks), p.Last+amendReach)
	stands := func(n int) bool { // "it's two hundred and fifty"
		q := &t.quantities[n]
		switch t.norm(q.First - 1) {
		case "it's", "its", "is", "be", "that's", "make", "so", "need", "needs":
		default:
			return false
		}
		return q.min != p.min && q.min < 4*p.min && p.min < 4*q.min && (q.kind == p.kind && q.unit == p.unit || q.kind == count && q.unit == "" && t.countStands(q))
	}
	if i := t.has(p.Last, min(end, p.Last+8), "wrong", "mistake"); i >= 0 {
		if n := t.nextAmount(i, min(end, i+10), k); n >= 0 && stands(n) {
			return n
		}
	}
	r := -1
	for from := p.Last; ; {
		n := t.nextAmount(from, end, k)
		if n < 0 {
			return -1
		}
		q := &t.quantities[n]
		switch w := t.norm(q.Last); {
		case r < 0 && q.min == p.min && (q.unit == "" || q.unit == p.unit) && (w == "was" || w == "is" || w == "were") && q.food < 0:
			r = n
		case r >= 0 && stands(n):
			return n
		}
		from = q.Last
	}
}

// putRight lets amount n take the place of amount k with its food.
func (t *talk) putRight(k, n int) {
	p, q := &t.quantities[k], &t.quantities[n]
	if q.food >= 0 {
		t.untie(n)
	}
	if q.kind == count && p.kind == measure {
		q.kind, q.unit, q.ukind = measure, p.unit, p.ukind
	}
	p.void = true
	t.tie(n, p.food)
}

// standsFor reports whether a "one" stands for a thing named elsewhere and
// counts nothing: "the proper one", "which one".
func (t *talk) standsFor(q *quantity) bool {
	if q.kind != count || q.min != 1 || q.max != 1 || t.norm(q.numAt) != "one" || !t.joined(q.numAt-1) {
		return false
	}
	w := t.norm(q.numAt - 1)
	if a := t.norm(q.numAt - 2); (a == "a" || a == "an") && t.joined(q.numAt-2) {
		return true // "curry powder, a Trinidad one"
	}
	switch w {
	case "the", "this", "that", "which", "other", "proper", "same", "only", "right", "good", "first", "second", "last", "next", "wrong", "real", "old", "new", "every", "each", "any", "no":
		return true
	}
	return t.lex.Modifiers[w] != lexicon.NoClass && articleLike[t.norm(q.numAt-2)]
}

func (t *talk) tie(k, m int) {
	if x := &t.mentions[m]; x.sort && x.alias >= 0 {
		m = x.alias // "Milk. Coconut, one can."
	}
	q := &t.quantities[k]
	q.food = m
	if w := t.norm(t.mentions[m].head.Last); q.kind == count && (w == "cloves" || w == "clove") && t.mentions[m].food.Name == "garlic" {
		q.kind, q.unit, q.ukind = measure, "clove", "count" // "garlic cloves, five"
	}
	t.mentions[m].amounts = append(t.mentions[m].amounts, k)
	if t.quantities[k].kind == share {
		t.mentions[m].share = true
	}
}

// foodAfter gives the mention that begins where the amount ends, over words
// that belong to neither.
func (t *talk) foodAfter(q *quantity) int {
	if q.Last >= len(t.toks) {
		return -1
	}
	if t.toks[q.Last-1].After != 0 && !(t.toks[q.Last-1].After == language.Comma && q.of) {
		return -1
	}
	i := q.Last
	limit := i + 5
	for i < len(t.toks) && i < limit && t.sentOf[i] == t.sentOf[q.First] {
		if m := t.mentionStart(i); m >= 0 {
			mm := &t.mentions[m]
			if mm.mixed && !q.of && q.kind != count {
				return -1
			}
			if mm.compared || mm.negated {
				return -1
			}
			if q.unit == "clove" && !strings.Contains(mm.food.Name, "garlic") {
				return -1 // "garlic two cloves olive oil one spoon"
			}
			if q.kind == count && (!t.countable(mm) || t.norm(mm.Last) == "each") {
				return -1
			}
			return m
		}
		if t.toks[i].After != 0 && !(t.toks[i].After == language.Comma && t.modifier(i) != lexicon.NoClass) {
			// "two tins, big ones"
			return -1
		}
		w := t.norm(i)
		if q.kind == measure && !q.of && (w == "a" || w == "an" || w == "the") {
			return -1 // "three quarters of a cup, a very old cheddar"
		}
		if n := t.norm(i + 1); w == "of" && (n == "them" || n == "it") {
			return -1 // "twelve of them, corn"
		}
		switch w {
		case "the", "your", "that", "a", "my", "this", "those", "really", "very", "of", "good", "quality", "more", "some", "these", "dried", "additional", "extra", "little":
			i++
			continue
		}
		if t.lex.Modifiers[w] != lexicon.NoClass {
			i++
			continue
		}
		return -1
	}
	return -1
}

// mentionStart gives the mention whose span or head begins at i, -1 for none.
func (t *talk) mentionStart(i int) int {
	if i >= len(t.toks) {
		return -1
	}
	if m := t.mentionAt[i]; m >= 0 && (t.mentions[m].head.First == i || t.mentions[m].First == i) {
		return int(m)
	}
	// modifiers before the head
	for k := i; k < i+5 && k < len(t.toks); k++ {
		if m := t.mentionAt[k]; m >= 0 {
			if t.mentions[m].First <= i {
				return int(m)
			}
			return -1
		}
	}
	return -1
}

// countable reports whether a bare number can count the food.
func (t *talk) countable(m *mention) bool {
	last := t.norm(m.head.Last - 1)
	switch m.food.Kind {
	case "vegetable", "fruit", "egg", "herb", "spice", "meat", "poultry", "fish", "shellfish", "bread", "pasta", "stock", "drink", "sweetener", "chocolate", "leavening", "baking", "nut", "legume", "condiment", "dairy", "other":
		return true
	case "water":
		return strings.Contains(m.name, "ice")
	}
	return plural(last)
}

// ofSort reports whether a mention only tells which sort of the food before is meant:
// "the fat one", "the full-fat kind".
func (t *talk) ofSort(m *mention) bool {
	if !t.joined(m.Last-1) || t.quantityAt[m.Last] >= 0 && t.quantities[t.quantityAt[m.Last]].kind == measure {
		return false // "black peppercorns one teaspoon"
	}
	if t.sizedNumber(m.Last) {
		return false
	}
	switch t.norm(m.Last) {
	case "one", "ones", "kind", "sort", "type", "stuff", "variety":
		return len(m.amounts) == 0 && !m.verb && m.head.Last == m.Last
	}
	return false
}

// sortRemark gives where a remark on the sort of a food begins in which mention m stands:
// "dill, the old kind with the seeds, five stalks". It runs from a comma behind the food
// to the comma before amount q. -1 where m stands in none.
func (t *talk) sortRemark(s *sentence, q *quantity, m *mention) int {
	if t.toks[q.First-1].After&language.Comma == 0 || m.Last > q.First || t.byMeasure(m) {
		return -1
	}
	b := m.First
	for b > s.First && t.toks[b-1].After == 0 {
		b--
	}
	if b <= s.First || t.norm(b) != "the" && t.norm(b) != "that" || t.mentionAt[b-1] < 0 || t.mentions[t.mentionAt[b-1]].Last < b || len(t.mentions[t.mentionAt[b-1]].amounts) > 0 {
		return -1
	}
	for i := b + 1; i < m.First; i++ {
		switch t.norm(i) {
		case "one", "ones", "kind", "sort", "type", "variety":
			return b
		}
	}
	return -1
}

// sizedNumber reports whether a number with a size stands at token i: "onion, one big
// one", not "the fat one".
func (t *talk) sizedNumber(i int) bool {
	return t.quantityBegins(i) && t.quantities[t.quantityAt[i]].kind == count && t.modifier(i+1) == lexicon.SizeWord && !articleLike[t.norm(i+1)] && t.mentionStart(i+1) < 0
}

// toldInUnit gives the food of the measure before q where q is that measure told over in
// a unit that is announced: "one kilo. My brother asks in pounds, so, two and a bit
// pounds"; -1 where none is.
func (t *talk) toldInUnit(k int, q *quantity) int {
	if q.kind != measure || k == 0 || t.quantities[k-1].food < 0 || !t.secondMeasure(&t.quantities[k-1], q) {
		return -1
	}
	for i := t.quantities[k-1].Last; i+1 < q.First; i++ {
		if t.norm(i) != "in" {
			continue
		}
		if u, n := t.lex.UnitAt(t.ids, i+1); n > 0 && u.Unit == q.unit {
			return t.quantities[k-1].food
		}
	}
	return -1
}

// foodBefore gives the mention an amount without a food after it measures.
func (t *talk) foodBefore(k int, q *quantity) int {
	s := t.sentence(q.First)
	if w := t.norm(q.Last); q.kind == vague && q.of && (w == "one" || w == "the") && t.joined(q.Last-1) {
		return -1 // "a layer of one and then of the other"
	}
	if q.kind == count && t.norm(q.First-1) == "into" {
		return -1 // "cut the chicken up into eight"
	}
	if m := t.toldInUnit(k, q); m >= 0 {
		return m
	}
	// pictures of amounts: "this much" of the food named before
	i := q.First - 1
	steps := 0
	for i >= s.First && steps < 14 {
		if m := t.mentionAt[i]; m >= 0 {
			mm := &t.mentions[m]
			if mm.food.Name == "clove" && m > 0 && t.mentions[m-1].head.Last == mm.head.First && t.mentions[m-1].food.Name == "garlic" {
				i = mm.First - 1 // "garlic cloves, five"
				continue
			}
			if t.ofSort(mm) {
				i = mm.First - 1 // "bucatini, the fat one, 500 grams"
				steps++
				continue
			}
			if b := t.sortRemark(s, q, mm); b >= 0 {
				mm.compared = true
				i = b - 1 // "dill, the old kind with the seeds, five stalks"
				steps++
				continue
			}
			if mm.negated || mm.compared || mm.mixed {
				return -1
			}
			if o := t.objectBefore(s, q, mm); o >= 0 {
				return o
			}
			if !t.mayFollow(k, q, int(m), i) {
				return -1
			}
			return int(m)
		}
		if p := t.quantityAt[i]; p >= 0 && int(p) != k {
			pq := &t.quantities[p]
			if pq.void {
				i = pq.First - 1
				if m := t.mentionAt[max(i, 0)]; m >= 0 && pq.kind == q.kind && q.kind == count && t.countable(&t.mentions[m]) && len(t.mentions[m].amounts) == 0 {
					return int(m) // "spring onions, five, no, there's four on my board"
				}
				continue
			}
			if pq.food >= 0 && (pq.kind == measure || pq.kind == count || pq.kind == vague) && q.kind != vague {
				// a second measure of the same: "three hundred grams, that's two and a half cups"
				if t.secondMeasure(pq, q) {
					return pq.food
				}
			}
			if pq.kind != length && pq.kind != duration && pq.kind != money && !t.standsFor(pq) {
				return -1
			}
			i = pq.First - 1
			steps++
			continue
		}
		if t.toolAt[i] >= 0 && t.inAll(q) {
			break // "and it's two tubs, four hundred grams altogether"
		}
		if t.toolAt[i] >= 0 {
			return t.laidIn(s, q, i)
		}
		if t.actionAt[i] >= 0 && q.kind == count {
			return -1
		}
		i--
		steps++
	}
	if i >= s.First && !t.inAll(q) {
		return -1
	}
	if (q.kind == measure || q.kind == vague) && t.inAll(q) {
		if m := t.lastUnmeasured(q.First); m >= 0 {
			return m
		}
	}
	if q.kind == measure && t.acquired(s, q) {
		if m := t.subjectBefore(s); m >= 0 {
			return m
		}
		if m := t.lastUnmeasured(q.First); m >= 0 && q.First-t.mentions[m].Last < 14 {
			return m
		}
	}
	// the sentence before: its last food is the topic
	if q.kind == count && !t.countTail(q) && !(q.First-s.First <= 2) {
		return -1
	}
	if q.First-s.First > 6 {
		return -1
	}
	if m := t.sentenceBefore(q); m >= 0 {
		return m
	}
	return t.topicFurther(q)
}

// sentenceBefore gives the food of the sentence before an amount that it measures, -1
// for none.
func (t *talk) sentenceBefore(q *quantity) int {
	j := int(t.sentOf[q.First]) - 1
	if j < 0 || t.sents[j].kind == aside || t.sents[j].kind == storing {
		return -1
	}
	prev := t.sents[j]
	if m := t.topicOf(&prev, q); m >= 0 {
		return m
	}
	if prev.Len() > 14 && q.kind != vague && !t.punctuated {
		return -1
	}
	for i := prev.Last - 1; i >= prev.First; i-- {
		if m := t.mentionAt[i]; m >= 0 {
			mm := &t.mentions[m]
			if mm.negated || mm.compared || mm.mixed {
				return -1
			}
			if o := t.objectOver(&prev, mm); o >= 0 && q.kind == measure {
				return o // "drizzle the honey over the figs. About two spoons."
			}
			if prev.Len() > 9 && prev.Last-i > 4 && i-prev.First > 2 {
				return -1
			}
			if len(mm.amounts) > 0 {
				if q.kind == vague || q.kind == share {
					return -1
				}
				last := &t.quantities[mm.amounts[len(mm.amounts)-1]]
				if last.kind == vague || last.kind == share || !t.secondMeasure(last, q) {
					return -1
				}
			}
			if q.kind == count && !t.countable(mm) {
				return -1
			}
			if q.kind == count && len(mm.amounts) == 0 && massKinds[mm.food.Kind] && !plural(t.norm(mm.head.Last-1)) {
				continue // "soften the onions in butter. I have two here"
			}
			if q.kind == share && (fractionWords[t.norm(q.First)] == 0 || q.First != prev.Last || t.norm(q.First+1) != "of" || t.norm(q.First+2) != "one" || !t.countable(mm)) {
				return -1 // but "Scotch bonnet. Quarter of one."
			}
			return int(m)
		}
	}
	return -1
}

// topicOf gives the food that the sentence before an amount is about, where that names
// it first and goes on with a remark, and the amount stands alone: "then psyllium husk,
// that's the stuff that makes it behave like bread. Three tablespoons."
func (t *talk) topicOf(prev *sentence, q *quantity) int {
	if s := t.sentence(q.First); q.kind != measure || q.First != s.First || q.Last != s.Last || !t.punctuated {
		return -1
	}
	for i := prev.First; i < min(prev.Last, prev.First+6); i++ {
		m := t.mentionAt[i]
		if m < 0 {
			continue
		}
		x := &t.mentions[m]
		if x.negated || x.compared || x.mixed || len(x.amounts) > 0 || !t.opensSentence(x) || t.toks[x.Last-1].After == 0 || !remarks[t.norm(x.Last)] && t.norm(x.Last) != "which" && t.norm(x.Last) != "and" {
			return -1
		}
		for j := x.Last; j < prev.Last; j++ {
			if t.quantityAt[j] >= 0 || t.mentionAt[j] >= 0 && !t.mentions[t.mentionAt[j]].compared && !t.mentions[t.mentionAt[j]].negated {
				return -1
			}
		}
		return int(m)
	}
	return -1
}

// How far back the topic of an amount that stands alone is looked for.
const (
	topicSentences = 4
	topicTokens    = 45
)

// topicFurther gives the food that an amount alone in its sentence measures where the
// sentences between only remark on it: "Prawns. Big ones, shell on if you can get them.
// Twelve." No other food and no other amount may come between.
func (t *talk) topicFurther(q *quantity) int {
	s := t.sentence(q.First)
	if !t.punctuated || q.kind != measure && q.kind != count || q.article && q.kind == count || !t.onlyAmount(s, q) {
		return -1
	}
	k := int(t.sentOf[s.First])
	for j := k - 1; j >= max(0, k-topicSentences) && s.First-t.sents[j].First <= topicTokens; j-- {
		p := &t.sents[j]
		if p.kind == storing || p.kind == figures || p.kind == yielding || p.recap || s.para > p.para+1 || t.measuresOrCounts(p) {
			return -1
		}
		if m, some := t.topicIn(p); some {
			if m >= 0 && q.kind == count && !t.countable(&t.mentions[m]) {
				return -1
			}
			return m
		}
	}
	return -1
}

// topicIn gives the food without an amount that a sentence opens with and is about, -1
// where others stand beside it or something is done with it; some tells that the
// sentence names any.
func (t *talk) topicIn(p *sentence) (topic int, some bool) {
	topic = -1
	for _, m := range t.mentionsIn(p.First, p.Last) {
		x := &t.mentions[m]
		if topic >= 0 && x.head.Len() > 1 && t.mentions[topic].head.Len() == 1 && t.norm(x.head.Last-1) == t.norm(t.mentions[topic].head.First) && !x.negated && !x.compared && len(x.amounts) == 0 {
			topic = m // "you need rice that sticks, so jasmine rice"
			continue
		}
		switch {
		case x.negated || x.compared || topic >= 0 && (x.food.Kind == "water" || related(x.food, t.mentions[topic].food) > 0):
		case topic >= 0 || x.mixed || x.food.Dish || len(x.amounts) > 0 || !t.opensSentence(x):
			return -1, true
		default:
			topic = m
		}
	}
	return topic, topic >= 0
}

// measuresOrCounts reports whether a sentence gives an amount of something.
func (t *talk) measuresOrCounts(p *sentence) bool {
	for i := p.First; i < p.Last; i++ {
		if n := t.quantityAt[i]; n >= 0 {
			if x := &t.quantities[n]; x.kind == measure || x.kind == count && !t.standsFor(x) {
				return true
			}
		}
	}
	return false
}

// besideAmount are words that an amount alone in its sentence can have beside it.
var besideAmount = words("about around roughly say maybe so that's it's i'd say i've got i have here we've you want you'll need and just only exactly or of them it those these please then thereabouts for me mine like all the a big small little large good nice fat ones altogether in total there block blocks lump lumps chunk chunks piece pieces slab slabs fillet fillets legs")

// onlyAmount reports whether a sentence gives an amount and next to nothing else: "about
// a kilo, I'd say", "two tins, drained".
func (t *talk) onlyAmount(s *sentence, q *quantity) bool {
	for i := s.First; i < s.Last; i++ {
		if i >= q.First && i < q.Last {
			continue
		}
		if t.mentionAt[i] >= 0 || t.toolAt[i] >= 0 {
			return false
		}
		if n := t.quantityAt[i]; n >= 0 && !t.secondMeasure(q, &t.quantities[n]) && (i < q.First || !t.quantities[n].definite) {
			return false // but "two blocks, the fourteen-ounce ones"
		}
		if w := t.norm(i); !besideAmount[w] && t.modifier(i) == lexicon.NoClass && t.quantityAt[i] < 0 {
			return false
		}
	}
	return true
}

// laidIn gives the food that was put into the tool at token i, where its amount stands
// alone behind that: "put the couscous in a bowl, two hundred grams". It is -1 for
// anything else.
func (t *talk) laidIn(s *sentence, q *quantity, i int) int {
	x := &t.tools[t.toolAt[i]]
	if q.kind != measure || q.of || q.ukind != "mass" && q.ukind != "volume" && q.ukind != "container" || q.First-x.Last > 1 || q.Last < s.Last && t.toks[q.Last-1].After == 0 && t.norm(q.Last) != "and" && t.norm(q.Last) != "then" {
		return -1
	}
	i = x.First - 1
	for i > s.First && (articleLike[t.norm(i)] || t.modifier(i) != lexicon.NoClass) {
		i--
	}
	switch t.norm(i) {
	case "in", "into", "on", "onto", "over", "to":
	default:
		return -1
	}
	m := t.mentionAt[max(i-1, 0)]
	if m < 0 {
		return -1
	}
	if f := &t.mentions[m]; len(f.amounts) > 0 || f.negated || f.compared || f.mixed {
		return -1
	}
	return int(m)
}

// objectBefore gives the direct object of the clause when an amount trails
// behind a place: "sprinkle the paprika over the potatoes, about a teaspoon".
func (t *talk) objectBefore(s *sentence, q *quantity, near *mention) int {
	if t.toks[near.Last-1].After&(language.Comma|language.Dash) == 0 || q.First-near.Last > 2 {
		return -1
	}
	o := t.objectOver(s, near)
	if o >= 0 && (plantUnits[q.unit] && !plantKind[t.mentions[o].food.Kind] || q.kind == count && t.is(q.Last, "of", "them") && plural(t.norm(near.head.Last-1)) && !plural(t.norm(t.mentions[o].head.Last-1))) {
		return -1 // "the fish on the fennel, two bulbs"
	}
	return o
}

// plantUnits are pieces that only plants come in.
var plantUnits = words("head bulb clove stalk bunch sprig pod ear stick")

// objectOver gives the food without an amount that the verb works on where the food near
// it is only the place: "the paprika over the potatoes".
func (t *talk) objectOver(s *sentence, near *mention) int {
	if k := near.food.Kind; k == "oil" || k == "fat" || near.food.Name == "butter" {
		return -1 // "fry the onions in butter, a good knob"
	}
	i := near.First - 1
	for i >= s.First && (determiners[t.norm(i)] || articleLike[t.norm(i)]) {
		i--
	}
	switch t.norm(i) {
	case "over", "into", "onto", "on", "in", "through", "around":
	default:
		return -1
	}
	for k := i - 1; k >= s.First; k-- {
		if m := t.mentionAt[k]; m >= 0 {
			o := &t.mentions[m]
			if len(o.amounts) > 0 || o.negated || o.mixed || t.namedWithAmount(int(m)) {
				return -1
			}
			for b := o.Last; b < i; b++ {
				if a := t.actionAt[b]; a >= 0 && t.actions[a].mood == passive {
					return int(m) // "the rosemary goes in the dough, one tablespoon"
				}
			}
			if b := o.First - 1; b >= s.First {
				// the verb stands right before it
				for b >= s.First && (determiners[t.norm(b)] || articleLike[t.norm(b)]) {
					b--
				}
				if b >= s.First && (t.actionAt[b] >= 0 || othersPut[t.norm(b)]) {
					return int(m)
				}
			}
			return -1
		}
	}
	return -1
}

// namedWithAmount reports whether the food was named before with its amount: "the
// chicken" once there were four breasts.
func (t *talk) namedWithAmount(m int) bool {
	x := &t.mentions[m]
	for k := m - 1; k >= max(0, m-inMind); k-- {
		o := &t.mentions[k]
		if related(o.food, x.food) == 0 || o.negated || o.compared {
			continue
		}
		for _, q := range o.amounts {
			if y := &t.quantities[q]; !y.void && (y.kind == measure || y.kind == count) {
				return true
			}
		}
	}
	return false
}

// topicFirst reports whether the food opens its sentence before a mark and
// the verb at j only tells how its amount goes in.
func (t *talk) topicFirst(q *quantity, m *mention, j int) bool {
	s := t.sentence(m.First)
	if m.First-s.First > 3 || t.toks[m.Last-1].After&language.Comma == 0 {
		return false
	}
	a := &t.actions[t.actionAt[j]]
	return (a.verb.Kind == "add" || a.verb.Kind == "mix" || a.verb.Kind == "season") && q.First-j <= 3 && (q.Last >= s.Last || t.toks[q.Last-1].After != 0)
}

// inAll reports whether the amount is a total: "four to six tablespoons
// altogether".
func (t *talk) inAll(q *quantity) bool {
	switch t.norm(q.Last) {
	case "altogether", "total":
		return true
	case "in":
		return t.norm(q.Last+1) == "total" || t.norm(q.Last+1) == "all"
	}
	return false
}

// lastUnmeasured gives the last food before i that has no amount.
func (t *talk) lastUnmeasured(i int) int {
	for k := i - 1; k >= 0 && k > i-45; k-- {
		if m := t.mentionAt[k]; m >= 0 {
			mm := &t.mentions[m]
			if (len(mm.amounts) == 0 || t.tasteOnly(mm)) && !mm.negated && !mm.mixed && !mm.compared {
				return int(m)
			}
		}
	}
	return -1
}

// tasteOnly reports whether the food's only amount is "to taste".
func (t *talk) tasteOnly(m *mention) bool {
	for _, q := range m.amounts {
		if t.quantities[q].vkind != "taste" {
			return false
		}
	}
	return true
}

// havingGot tell how the cook came by what there is.
var havingGot = listed("i took", "i take", "i use", "i used", "i'm using", "i've got", "you need", "you'll need", "you want", "i have", "we need", "we want", "we use", "i got", "it takes", "take", "that's", "it's")

// acquired reports whether the sentence only says how much was taken: "I took
// one and a half cups", "you'll need two pounds".
func (t *talk) acquired(s *sentence, q *quantity) bool {
	if q.Last < s.Last && t.toks[q.Last-1].After == 0 && t.norm(q.Last) != "for" && t.norm(q.Last) != "of" && t.norm(q.Last) != "here" {
		return false
	}
	return t.hasAny(s.First, q.First, havingGot) >= 0 && q.First-s.First <= 5
}

// subjectBefore gives the food that opens one of the last sentences.
func (t *talk) subjectBefore(s *sentence) int {
	k := int(t.sentOf[s.First])
	for j := k - 1; j >= 0 && j >= k-3; j-- {
		p := &t.sents[j]
		if p.para != s.para && j < k-1 {
			break
		}
		for _, m := range t.mentionsIn(p.First, p.Last) {
			mm := &t.mentions[m]
			if mm.First-p.First <= 3 && !mm.negated && !mm.mixed && len(mm.amounts) == 0 {
				return m
			}
			break
		}
	}
	return -1
}

// secondMeasure reports whether q says p again in another measure.
func (t *talk) secondMeasure(p, q *quantity) bool {
	if q.kind != measure && !(q.kind == count && p.kind == measure) {
		return false
	}
	if p.unit == q.unit && !(q.size != nil && p.size == nil) {
		return false
	}
	lo, hi := p.Last, q.First
	if lo > hi {
		return false
	}
	gap := hi - lo
	if gap > 12 {
		return false
	}
	// no other food between but its own
	for i := lo; i < hi; i++ {
		if m := t.mentionAt[i]; m >= 0 && int(m) != p.food {
			return false
		}
	}
	return true
}

// mayFollow decides whether the amount q, standing after mention m that ends
// near token i, measures it.
func (t *talk) mayFollow(k int, q *quantity, m, i int) bool {
	mm := &t.mentions[m]
	gap := q.First - mm.Last
	if gap < 0 {
		gap = 0
	}
	tight := gap <= 1
	mark := t.toks[mm.Last-1].After != 0 || t.toks[q.First-1].After != 0
	if t.taken(q) && (q.kind == measure || t.wholeBunch(q, mm)) && gap <= loneGap && t.opensSentence(mm) && t.onlyVague(mm) && !t.foodBetween(mm.Last, q.First, mm) {
		return true // "dill, so much dill, I use a whole bunch"
	}
	if len(mm.amounts) > 0 {
		last := &t.quantities[mm.amounts[len(mm.amounts)-1]]
		switch {
		case q.kind == vague:
			return q.vkind == "taste" && last.kind == vague
		case q.kind == share:
			return false
		case last.kind == share:
			return false
		case last.kind == vague:
			// "a few, say six": the number settles the vague word
			return q.kind == measure && gap <= 4 && last.vkind != "taste"
		}
		return t.secondMeasure(last, q)
	}
	switch q.kind {
	case count:
		if !t.countable(mm) {
			return false
		}
		return t.countTail(q) && (gap <= 5 || gap <= loneGap && t.lone(q) && t.is(q.Last, "of", "them") && plural(t.norm(mm.head.Last-1)))
	case share:
		return mark && gap <= 2 && fractionWords[t.norm(q.First)] > 0 && t.norm(q.First+1) == "of" && !plural(t.norm(mm.head.Last-1))
	case vague:
		if q.vkind == "reference" || q.vkind == "taste" {
			return gap <= 6
		}
		return (tight || mark) && gap <= 3
	}
	if t.lone(q) && gap <= loneGap && t.opensSentence(mm) {
		for j := mm.Last; ; j++ {
			if j == q.First {
				return true // "the proper one is bucatini, the fat one, 500 grams"
			}
			if t.toolAt[j] >= 0 || t.madeAt[j] > 0 || t.quantityAt[j] >= 0 && !t.standsFor(&t.quantities[t.quantityAt[j]]) {
				break
			}
		}
	}
	// between them only words that lead from a food to its amount
	for j := mm.Last; j < q.First; j++ {
		if t.actionAt[j] >= 0 && t.topicFirst(q, mm, j) {
			continue // "and cinnamon, whisk in a teaspoon"
		}
		if w := t.norm(j); (w == "goes" || w == "go") && (t.norm(j+1) == "in" || t.norm(j+1) == "on") {
			continue // "coriander seeds go in, three tablespoons"
		}
		if k := t.actionAt[j]; k >= 0 && t.actions[k].bare {
			continue // "onions in, two of them"
		}
		if t.actionAt[j] >= 0 && t.norm(j) != "start" && t.norm(j) != "begin" || t.toolAt[j] >= 0 {
			return false
		}
		if t.norm(j) == "in" || t.norm(j) == "on" {
			if t.actionAt[j-1] >= 0 || t.norm(j-1) == "go" || t.norm(j-1) == "goes" {
				continue
			}
			if w := t.norm(j + 1); w == "this" || w == "it" || w == "there" || w == "here" || w == "that" {
				continue // "there's gelatine in this, one sachet"
			}
		}
		if w := t.norm(j); w == "with" && (t.norm(j-1) == "start" || t.norm(j-1) == "starting" || t.norm(j-1) == "begin") || w == "to" && t.norm(j-1) == "up" {
			continue
		}
		if t.madeAt[j] > 0 {
			// "honey again, for the filling, a hundred and seventy grams"
			if !(t.norm(j-1) == "the" && t.norm(j-2) == "for" || t.norm(j-1) == "the") {
				return false
			}
			continue
		}
		switch t.norm(j) {
		case "and", "then", "with", "plus", "into", "in", "to", "for", "add", "until", "if":
			if t.norm(j) == "and" && (t.norm(j+1) == "this" || t.norm(j+1) == "that's" || t.norm(j+1) == "it's" || t.norm(j+1) == "i" || t.norm(j+1) == "you" || t.norm(j+1) == "we" || t.norm(j+1) == "last" || t.norm(j+1) == "final" || t.norm(j+1) == "here" || t.norm(j+1) == "there" || t.norm(j+1) == "there's") {
				continue
			}
			if t.norm(j) == "to" && (t.norm(j-1) == "want" || t.norm(j-1) == "need" || t.norm(j-1) == "going") || t.norm(j) == "for" && t.norm(j+1) == "this" || t.norm(j) == "for" && t.norm(j+1) == "the" {
				continue
			}
			return false
		}
	}
	return gap <= 9
}

// taken reports whether a cook says of an amount that it is what goes in: "I use a whole
// bunch", "you want two cups".
func (t *talk) taken(q *quantity) bool {
	if q.First < 2 || !t.joined(q.First-1) {
		return false
	}
	switch t.norm(q.First - 1) {
	case "use", "put", "take", "want", "need", "add":
		switch t.norm(q.First - 2) {
		case "i", "we", "you", "i'd", "you'd", "always", "just", "you'll":
			return true
		}
	}
	return false
}

// onlyVague reports whether no number has measured the food.
func (t *talk) onlyVague(m *mention) bool {
	for _, q := range m.amounts {
		if t.quantities[q].kind != vague {
			return false
		}
	}
	return true
}

// wholeBunch reports whether "a whole bunch" is one of the herb it measures, and not a
// word for much.
func (t *talk) wholeBunch(q *quantity, m *mention) bool {
	return q.kind == vague && m.food.Kind == "herb" && !q.of && t.is(q.Last-2, "whole", "bunch")
}

// sameUnit gives a number its unit where it is said to be measured as the one before:
// "eighty grams of butter, plain flour, eighty also".
func (t *talk) sameUnit(k int, q *quantity) {
	if q.kind != count || k == 0 {
		return
	}
	switch t.norm(q.Last) {
	case "also", "too":
	case "as":
		if t.norm(q.Last+1) != "well" {
			return
		}
	default:
		return
	}
	p := &t.quantities[k-1]
	if p.void || p.kind != measure || p.unit == "" || t.sentOf[p.First] != t.sentOf[q.First] || q.min < p.min/5 || q.max > p.max*5 {
		return
	}
	q.kind, q.unit, q.ukind = measure, p.unit, p.ukind
}

// foodBetween reports whether tokens [a, b) name a food other than that of m.
func (t *talk) foodBetween(a, b int, m *mention) bool {
	for i := a; i < b; i++ {
		if k := t.mentionAt[i]; k >= 0 && related(t.mentions[k].food, m.food) == 0 {
			return true
		}
	}
	return false
}

// loneGap is how many words may stand between a food that its sentence is about and
// an amount that stands alone at its end.
const loneGap = 14

// lone reports whether an amount stands alone between marks: nothing but "of them"
// goes with it.
func (t *talk) lone(q *quantity) bool {
	if !t.punctuated || q.First == 0 || t.toks[q.First-1].After == 0 {
		return false
	}
	e := q.Last
	if t.norm(e) == "of" && (t.norm(e+1) == "them" || t.norm(e+1) == "it" || t.norm(e+1) == "those") {
		e += 2
	}
	return t.toks[e-1].After != 0
}

// opensSentence reports whether the food is what its sentence is about: named in its
// first words, with no action before it.
func (t *talk) opensSentence(m *mention) bool {
	s := t.sentence(m.First)
	if m.First-s.First > 5 {
		return false
	}
	for i := s.First; i < m.First; i++ {
		if t.actionAt[i] >= 0 {
			return false
		}
	}
	return true
}

// countTail reports whether a bare number closes its phrase: "onion, one big
// one", "eggs, four", "six pods".
func (t *talk) countTail(q *quantity) bool {
	i := q.Last
	if t.toks[q.Last-1].After != 0 || i >= len(t.toks) || t.sentOf[i] != t.sentOf[q.First] {
		return true
	}
	for k := i; k < i+4 && k < len(t.toks); k++ {
		if t.quantityBegins(k) && k > i {
			return true // "radishes, four, sliced, a spoon of capers"
		}
		if t.norm(k) == "in" && cutShape[t.norm(k+1)] {
			return true // "red onions, two, in quarters"
		}
		if k == i && plantPieces[t.norm(k)] {
			return true
		}
		switch t.norm(k) {
		case "also", "too", "as":
			return k == i && (t.norm(k) != "as" || t.norm(k+1) == "well")
		case "or", "and", "plus":
			return k == i && (t.mentionStart(k+1) >= 0 || t.quantityBegins(k+1)) // "honey, two, or brown sugar"
		case "here":
			return k == i
		case "one", "ones", "of", "whole", "altogether", "total", "them":
			return t.norm(k) != "of" || t.norm(k+1) == "them" || t.norm(k+1) == "those" || t.norm(k+1) == "these" || t.norm(k+1) == "the" && t.has(k+2, k+5, "ones", "kind") >= 0
		}
		if !t.punctuated && k > i && t.modifier(k-1) == lexicon.PrepWord && t.mentionStart(k) < 0 {
			return true // "potatoes two peeled in quarters"
		}
		if !t.punctuated && k == i && t.baseForm(k) && determiners[t.norm(k+1)] {
			return true // "chillies four pull the stalks off"
		}
		if t.modifier(k) == lexicon.NoClass {
			return false
		}
	}
	return false
}

// plantPieces are what spices, herbs and roots come in, besides the units.
var plantPieces = words("pod pods root roots star stars berry berries quill quills strand strands thread threads corn corns nut nuts blade blades bark barks bean beans rhizome rhizomes umbel umbels twig twigs")

// cutShape are what things are cut in, after a number of them.
var cutShape = words("quarters quarter rings halves half slices wedges strips chunks cubes pieces eighths thirds matchsticks batons rounds")

// spread gives an amount "each of" to the foods that go on after m.
func (t *talk) spread(k, m int) {
	for n := m + 1; n < len(t.mentions); n++ {
		a, b := &t.mentions[n-1], &t.mentions[n]
		if t.sentOf[a.First] != t.sentOf[b.First] || b.First-a.Last > 2 || len(b.amounts) > 0 {
			return
		}
		if b.First > a.Last && t.norm(a.Last) != "and" && t.norm(a.Last) != "or" {
			return
		}
		b.amounts = append(b.amounts, k)
	}
}

// spreadBack gives "to taste" to the foods joined before m ("salt and pepper
// to taste").
func (t *talk) spreadBack(k, m int) {
	for n := m - 1; n >= 0; n-- {
		a, b := &t.mentions[n], &t.mentions[n+1]
		if t.sentOf[a.First] != t.sentOf[b.First] || b.First-a.Last > 2 || len(a.amounts) > 0 {
			return
		}
		if b.First > a.Last && t.norm(a.Last) != "and" && t.norm(a.Last) != "or" {
			return
		}
		a.amounts = append(a.amounts, k)
	}
}

// articles counts one of a thing named with "a" or "an": "an onion".
func (t *talk) articles() {
	for k := range t.mentions {
		m := &t.mentions[k]
		if len(m.amounts) > 0 || m.negated || m.compared || m.mixed {
			continue
		}
		i := m.First - 1
		// sizes between the article and the name are in the mention already
		if i < 0 || t.sentOf[i] != t.sentOf[m.First] || t.toks[i].After != 0 {
			continue
		}
		w := t.norm(i)
		if w != "a" && w != "an" {
			w, i = t.norm(m.Last), m.Last // "the cabbage, a small one"
			if k := i + 1; w != "a" && w != "an" || t.sentOf[min(i, len(t.toks)-1)] != t.sentOf[m.First] || t.modifier(k) != lexicon.SizeWord || t.norm(k+1) != "one" {
				continue
			}
		}
		if plural(t.norm(m.head.Last-1)) || m.heard != nil {
			continue
		}
		switch m.food.Kind {
		case "vegetable", "fruit", "egg", "poultry", "herb", "spice", "stock", "bread", "meat", "fish", "leavening":
		default:
			continue
		}
		if t.quantityAt[i] >= 0 {
			continue
		}
		q := quantity{Span: language.Span{First: i, Last: i + 1}, kind: count, min: 1, max: 1, article: true, food: k, numAt: i}
		t.quantities = append(t.quantities, q)
		m.amounts = append(m.amounts, len(t.quantities)-1)
	}
}
