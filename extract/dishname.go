package extract

import (
	"slices"
	"strings"

	"quern/internal/lexicon"
)

// The name that the first words gave may be none: "little pancakes", "three leeks", or only
// the sort of thing, "soup". When all has been read, the dish is named once more: by a name said
// anywhere, as in "and that's my chicken tray bake", and by what it is chiefly made of.

// dishName gives the title of dish d as a reader would write it.
func (t *talk) dishName(d int) string {
	x := &t.dishes[d]
	name := x.title
	if name == "" || !x.told && !t.namesDish(x.span.First, x.span.Last) {
		sort := lexicon.Singular(strings.ToLower(name))
		if a, b := t.saidAnywhere(d); b > a && !(plainSorts[sort] && t.recurs(sort) && !t.hasSort(a, b, sort)) && !(b-a == 1 && strings.EqualFold(t.norm(a), name)) && (!strings.Contains(name, " ") || t.dishEnd(d)-x.tok <= manyDishes) {
			name = t.titleText(a, b)
			t.because("title "+name, a, b, "the only name of a dish that is said")
		}
	}
	if name == "" {
		return t.titleFallback(d)
	}
	if t.sortOnly(name) {
		of := t.foodsFirst(d)
		if of == "" {
			of = t.chiefFoods(d, name)
		}
		if of != "" {
			head, noun := "", name
			if i := strings.LastIndexByte(name, ' '); i >= 0 {
				head, noun = name[:i+1], name[i+1:]
			}
			return title(head + of + " " + strings.ToLower(noun))
		}
	}
	return name
}

// hasSort reports whether tokens [a, b) name a dish of the sort, which "pudding" was already said to be: "with ice
// cream" names none.
func (t *talk) hasSort(a, b int, sort string) bool {
	for i := a; i < b; i++ {
		if lexicon.Singular(t.norm(i)) == sort {
			return true
		}
	}
	return false
}

// namesDish reports whether tokens [a, b) are the name of a dish and not of a food that goes
// into it.
func (t *talk) namesDish(a, b int) bool {
	if b <= a {
		return true // the writer's heading, or told by the ways
	}
	if b-a == 1 && plainSorts[lexicon.Singular(t.norm(a))] {
		return false
	}
	for i := a; i < b; i++ {
		if dishNames[t.norm(i)] {
			return true
		}
		if t.isDishNoun(i) && !cuts[lexicon.Singular(t.norm(i))] && (t.mentionAt[i] < 0 || t.mentions[t.mentionAt[i]].food.Dish || b-a > 1) {
			return true
		}
		if n := t.madeAt[i]; n > 0 && !unnamed[t.norm(i)] {
			return true
		}
		if m := t.mentionAt[i]; m >= 0 && t.mentions[m].food.Dish {
			return true
		}
		if i > a && (t.norm(i) == "with" || t.norm(i) == "in" && t.punctuated) || cookedWord[t.norm(i)] {
			return true
		}
		if t.strange(i) || i > a && t.punctuated && t.toks[i].Cap && !t.nameWord(i) && t.lex.Modifiers[t.norm(i)] == 0 {
			return true // a name no table has: "caponata", "beef Wellington"
		}
	}
	return false
}

// cuts are words for a dish that are, by themselves, only what it is made of.
var cuts = words("thigh wing rib brisket steak salmon hake chicken chop stock broth")

// plainSorts are sorts of dishes so plain that a fuller name said anywhere is the better one.
var plainSorts = words("cake bread loaf pie soup curry pudding roll bun muffin cookie biscuit crumble tart bake salad stew")

// manyDishes is how many words a talk has that is long enough to name dishes which are not made.
const manyDishes = 350

// nameCues come right before the name of what was made, wherever it is told.
var nameCues = words("that's this is that called my it's they're doing making make cook cooking want wants best have great")

// saidAnywhere finds the best name of a dish said anywhere in the stretch of dish d.
func (t *talk) saidAnywhere(d int) (int, int) {
	start, end := t.dishes[d].tok, t.dishEnd(d)
	t.afterMeasured = make(map[*lexicon.Food]bool)
	bestA, bestB, best := 0, 0, 0
	for i := start; i < end; {
		if !t.nameWord(i) || t.ordersAt(i) {
			i++
			continue
		}
		e := t.nameRun(i, end)
		if e <= i {
			i++
			continue
		}
		a := i // "jollof rice", where it comes again
		for a > start && a > i-2 && t.joined(a-1) && t.strange(a-1) && t.recurs(t.norm(a-1)) {
			a--
		}
		if sc := t.nameWorth(a, e, start, end); sc > best {
			bestA, bestB, best = a, e, sc
		}
		i = e
	}
	return bestA, bestB
}

// nameWorth tells how surely the words [a, b) are the name of the dish of tokens [start, end);
// 0 for no name of it.
func (t *talk) nameWorth(a, b, start, end int) int {
	s := t.sentence(a)
	if !t.dishLike(a, b) && !t.toldAsName(a, b) && !(b-a == 1 && dishSorts[lexicon.Singular(t.norm(a))]) || t.othersName(a, b) || s.kind == storing || s.kind == figures || t.quantityAt[a] >= 0 && t.quantities[t.quantityAt[a]].kind == measure || unnamed[t.norm(b-1)] || t.endsInQuality(b-1) {
		return 0
	}
	if !t.punctuated && t.readsOut(a, b) || beside[lexicon.Singular(t.norm(b-1))] && len(t.partNames) > 1 && contains(t.partNames, t.phrase(a, b)) {
		return 0
	}
	if partOnly[t.norm(b-1)] && len(t.partNames) > 0 {
		return 0
	}
	if b-a == 1 && (t.norm(a) == "ice" || t.norm(a) == "spring") {
		return 0 // parts of a dish's name only
	}
	best := t.has(max(s.First, a-4), a, "nothing like", "never buy", "never have") >= 0
	if m := t.mentionAt[b-1]; m >= 0 && (len(t.mentions[m].amounts) > 0 || (t.mentions[m].negated || t.mentions[m].compared) && !best) {
		return 0
	}
	if t.has(max(s.First, a-12), min(s.Last, b+4), "last week", "next week", "next time", "used to", "instead of", "rather than", "last time", "other day", "another day") >= 0 || s.other {
		return 0
	}
	sc := t.titleScore(a, b)
	ordered, cued := false, false
	for k := a - 1; k >= max(s.First, a-4) && t.written(k) == 0; k-- {
		switch w := t.norm(k); {
		case (w == "not" || w == "no" || w == "never" || w == "than" || w == "without" || w == "like") && !best:
			return 0
		case nameCues[w] && k >= a-2 && t.norm(k-1) != "don't":
			sc += 3
			cued = true
		case (w == "with" || w == "in" || w == "into" || w == "on" || w == "over" || w == "of" || w == "from" || w == "or") && k >= a-2:
			sc -= 4
		}
		if x := t.actionAt[k]; x >= 0 && t.actions[x].mood == imperative {
			ordered = true
		}
	}
	w := t.norm(b - 1)
	if ordered {
		sc -= 3
	}
	if beside[lexicon.Singular(w)] {
		if ordered || t.madeAt[a] > 0 && b-a == 1 {
			return 0
		}
		sc -= 4
	}
	late := a > end-(end-start)/6
	if late {
		sc += 2
	}
	switch { // whoever tells of a fair or an aunt names other dishes
	case t.namedAfterFood(a, b):
		sc += 3
	case s.kind == aside && !late && end-start > manyDishes:
		return 0
	case cued && t.norm(a-1) != "have", b-a > 1 && t.recurs(w), late && (a == s.First || t.written(a-1) != 0), t.dishSortMade(a, b), best:
	case end-start > manyDishes:
		return 0
	}
	if t.recurs(w) {
		sc++
	}
	return sc
}

// toldAsName reports whether two foods in a row are said to be what was made: "that's prawn linguine".
func (t *talk) toldAsName(a, b int) bool {
	if w := t.norm(a - 1); b-a < 2 || w != "that's" && w != "called" && w != "making" && w != "doing" {
		return false
	}
	for i := a; i < b; i++ {
		if !t.nameWord(i) && t.norm(i) != "and" {
			return false
		}
	}
	return true
}

// namedAfterFood reports whether the name holds a food that was measured: "plum jam" where two
// kilos of plums go in.
func (t *talk) namedAfterFood(a, b int) bool {
	for i := a; i < b; i++ {
		m := t.mentionAt[i]
		if m < 0 {
			continue
		}
		f := t.mentions[m].food
		found, ok := t.afterMeasured[f]
		if !ok {
			found = slices.ContainsFunc(t.ingredients, func(g *ingredient) bool {
				return g.amount != nil && (related(g.food, f) > 0 || strings.HasPrefix(f.Name, g.food.Name))
			})
			t.afterMeasured[f] = found
		}
		if found {
			return true
		}
	}
	return false
}

// dishSortMade reports whether the name is one word for a sort of dish, which the foods then tell
// more of, or that of a thing made one by one here.
func (t *talk) dishSortMade(a, b int) bool {
	return b-a == 1 && (dishSorts[lexicon.Singular(t.norm(a))] || t.madeAt[a] > 0)
}

// beside are dishes that are more often something eaten with the dish, or a part of it.
var beside = words("beer wine sauce dressing stock broth dip glaze marinade custard caramel ice toffee salsa tea coffee drink cocktail roll bread slice toast chips salad rice naan meringue")

// dishSorts are words that tell only what sort of dish it is.
var dishSorts = words("soup stew curry salad cake pudding muffin scone pie tart pasta bake casserole crumble cobbler pancake fritter dumpling burger jam chutney pickle relish cordial smoothie stir-fry stirfry skewer kebab risotto omelette dip chowder gratin quiche patty pakora samosa noodles noodle crisps patties fishcake meatball hotpot tagine roast compote sorbet pilaf pilau traybake")

// sayWords go before a sort of dish and tell nothing of what is in it.
var sayWords = words("little quick easy simple classic big basic good homemade small nice lovely lazy proper old family sunday winter summer weeknight midweek my our the a")

// sortOnly reports whether a title tells only what sort of dish it is: "Soup", "Little pancakes".
func (t *talk) sortOnly(name string) bool {
	ws := strings.Fields(strings.ToLower(name))
	for i, w := range ws {
		if i == len(ws)-1 {
			return dishSorts[w] || dishSorts[lexicon.Singular(w)]
		}
		if !sayWords[w] {
			return false
		}
	}
	return false
}

// foodsFirst gives the foods with which the talk opens, where they are named alone before
// anything is done, as what a plain dish is made of: "a pie today. Cheese and onion, …".
func (t *talk) foodsFirst(d int) string {
	start := t.dishes[d].tok
	work := t.firstWork(start, t.dishEnd(d))
	for k := range t.sents {
		s := &t.sents[k]
		if s.First < start || s.First >= work || s.Last > work {
			continue
		}
		if b := t.titleEnd(s.First, s.Last); t.punctuated && t.namesFirst(s) && t.measuredFoods(s) == 0 && b-s.First == 3 && t.norm(s.First+1) == "and" && t.mentionAt[s.First] >= 0 && t.mentionAt[b-1] >= 0 {
			return t.phrase(s.First, b)
		}
	}
	return ""
}

// undertones are foods that go into many dishes and name few.
var undertones = words("onion garlic ginger chilli chili shallot celery lemon lime scallion tomato lemongrass")

// chiefFoods names the one or two foods that a dish of that name is chiefly made of: meat or fish
// before beans, these before vegetables, those before the rest.
func (t *talk) chiefFoods(d int, name string) string {
	var out []string
	rank, measured := 0, false
	for _, g := range t.ingredients {
		if g.dish != d || g.taste || g.optional || measured && g.amount == nil {
			continue
		}
		r := 0
		switch g.food.Kind {
		case "meat", "poultry", "fish", "shellfish", "seafood":
			r = 3
		case "vegetable", "fruit", "legume", "mushroom":
			r = 2
		}
		fields := strings.Fields(g.food.Name)
		if r == 0 || len(fields) > 3 || undertones[fields[len(fields)-1]] || undertones[fields[0]] || strings.Contains(strings.ToLower(name), fields[len(fields)-1]) {
			continue
		}
		if last := fields[len(fields)-1]; last == "juice" || last == "zest" || last == "paste" || last == "stock" {
			continue
		}
		if r > rank || g.amount != nil && !measured {
			out, rank = nil, r
		}
		measured = measured || g.amount != nil
		if r == rank && len(out) < 2 && !(r == 3 && len(out) == 1) {
			out = append(out, g.food.Name)
		}
	}
	return strings.Join(out, " and ")
}

// treated are verbs that make a dish of one food.
var treated = words("stuff pickle cure roast braise smoke grill candy preserve ferment poach fry bake steam glaze barbecue confit")

// treatedFood names a dish by what is done to its chief food: "how we stuff the peppers".
func (t *talk) treatedFood(d int, f *lexicon.Food) string {
	for i := t.dishes[d].tok; i < t.dishEnd(d); i++ {
		for _, v := range t.verbs(i) {
			if !treated[v.Action.Verb] || v.Form != lexicon.Base {
				continue
			}
			for k := i + 1; k < min(i+4, len(t.toks)) && t.sentOf[k] == t.sentOf[i]; k++ {
				if m := t.mentionAt[k]; m >= 0 {
					if t.mentions[m].food == f {
						return title(workLabel(v.Action).name + " " + f.Name)
					}
					break
				}
			}
		}
	}
	return ""
}

// ordersAt reports whether the word at i, which could also be a noun, gives an order: "slice
// the peel", "chop one cup of kimchi".
func (t *talk) ordersAt(i int) bool {
	base := false
	for _, f := range t.verbs(i) {
		base = base || f.Form == lexicon.Base
	}
	if !base || i+1 >= len(t.toks) || t.written(i) != 0 {
		return false
	}
	switch w := t.norm(i + 1); {
	case w == "and":
		for _, f := range t.verbs(i + 2) {
			if f.Form == lexicon.Base && !t.nameWord(i+2) {
				return true // "peel and dice four apples"
			}
		}
		return false
	case w == "it" || w == "them" || w == "that" || w == "an" || w == "everything" || w == "the" || w == "a" || w == "your" || w == "half" || w == "all" || w == "each" || w == "up" || w == "in":
		return w != "in" || t.norm(i+2) == "the" && !t.isDishNoun(i)
	}
	return t.startsNumber(i + 1)
}
