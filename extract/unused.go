package extract

import (
	"fmt"
	"slices"
	"strings"

	"quern/internal/lexicon"
	"quern/schema"
)

// A list that is read out and the telling after it must agree: what was listed goes
// in somewhere. And what is poured over or spread must have been made somewhere, or
// bought. Both are asked about only where nothing else can be meant, since most cooks
// name things loosely: "everything else goes in", "season it", "now the glaze".

// readList is a list of measured foods read out before anything is done.
type readList struct {
	items []int // mentions
	end   int   // the token after it
}

// A list is read out where so many foods stand so near one another; and the cook is
// one who names what goes in where so large a share of them is named afterwards.
const (
	leastListed  = 5
	listGap      = 20
	namedAfter   = 0.7
	mostLeftOver = 2
)

// listRead finds the list with which the talk begins, with no items where none does.
func (t *talk) listRead() readList {
	var l readList
	for k := range t.mentions {
		m := &t.mentions[k]
		if m.ingr == nil || m.negated || m.compared || m.verb || m.subst >= 0 || len(m.amounts) == 0 {
			continue
		}
		if len(l.items) > 0 && m.First-l.end > listGap || m.First > len(t.toks)/2 {
			break
		}
		s := t.sentence(m.First)
		if s.past || s.other || !t.listedHere(s, m) {
			if len(l.items) > 0 {
				break
			}
			continue
		}
		l.items = append(l.items, k)
		l.end = max(m.Last, t.quantities[m.amounts[len(m.amounts)-1]].Last)
	}
	if len(l.items) < leastListed {
		l.items = nil
	}
	return l
}

// allOfThem are words after a list by which things of it go in unnamed, whatever they are.
var allOfThem = words("everything rest remaining others lot ingredients ingredient stuff things bits all dry wet liquid liquids solids toppings topping filling")

// goesInUnnamed are words after a list that may put in foods of a kind unnamed.
var goesInUnnamed = map[string][]string{
	"veg": {"vegetable"}, "vegetables": {"vegetable"}, "greens": {"vegetable", "herb"}, "aromatics": {"vegetable", "spice", "herb"}, "salad": {"vegetable", "herb"},
	"spices": {"spice", "herb"}, "spice": {"spice", "herb"}, "herbs": {"herb"}, "herb": {"herb"}, "season": {"spice", "herb", "condiment", "sauce"}, "seasoning": {"spice", "herb", "condiment", "sauce"}, "seasonings": {"spice", "herb", "condiment", "sauce"}, "seasoned": {"spice", "herb"},
	"garnish": {"herb", "fruit", "vegetable", "seed", "nut"}, "scatter": {"herb", "seed", "nut", "dairy"}, "sprinkle": {"herb", "seed", "nut", "dairy", "sweetener"}, "top": {"herb", "seed", "nut", "dairy", "fruit"}, "squeeze": {"fruit"}, "juice": {"fruit"}, "zest": {"fruit"}, "citrus": {"fruit"}, "fruit": {"fruit"}, "berries": {"fruit"},
	"meat": {"meat", "poultry"}, "bird": {"poultry"}, "brown": {"meat", "poultry"}, "fish": {"fish"}, "seafood": {"fish", "shellfish"}, "beans": {"legume"}, "pulses": {"legume"}, "nuts": {"nut"}, "seeds": {"seed"}, "toast": {"nut", "seed", "bread"},
	"grease": {"fat", "dairy", "oil"}, "fat": {"fat", "dairy", "oil"}, "melt": {"fat", "dairy", "chocolate"}, "cheese": {"dairy"}, "yolks": {"egg"}, "yolk": {"egg"}, "whites": {"egg"}, "crack": {"egg"}, "whisk": {"egg", "dairy"}, "dairy": {"dairy"},
	"sweeten": {"sweetener"}, "dust": {"sweetener", "flour"}, "syrup": {"sweetener"}, "roux": {"flour", "fat", "dairy"}, "thicken": {"thickener", "flour"}, "slurry": {"thickener"}, "paste": {"spice", "herb", "vegetable", "thickener"}, "rub": {"spice", "herb"}, "marinade": {"sauce", "condiment", "spice", "herb", "fruit", "dairy"},
	"dressing": {"condiment", "fruit", "sauce"}, "sauce": {"sauce", "condiment", "dairy", "vegetable", "stock"}, "glaze": {"sweetener", "condiment"}, "stock": {"stock"}, "broth": {"stock"}, "booze": {"alcohol"}, "wine": {"alcohol"}, "pasta": {"pasta"}, "noodles": {"pasta"}, "raise": {"leavening", "baking"}, "powder": {"leavening", "baking", "spice"}, "starter": {"leavening"}, "bloom": {"leavening", "thickener"},
}

// neverAsked are kinds that go in whether they are named or not.
var neverAsked = words("salt water oil other drink")

// unusedListed asks about what the list has and the telling never takes up.
func (t *talk) unusedListed(add func(int, schema.Flag)) {
	l := t.listRead()
	if l.items == nil || len(t.docs) != 1 {
		return
	}
	t.unlistedUsed(&l, add)
	said := map[string]bool{}
	kinds := map[string]bool{}
	last := -1
	for k := range t.sents {
		s := &t.sents[k]
		for i := max(s.First, l.end); i < s.Last; i++ {
			w := strings.TrimSuffix(t.norm(i), "'s")
			if allOfThem[w] {
				return
			}
			said[w], said[lexicon.Singular(w)] = true, true
			for _, kind := range goesInUnnamed[w] {
				kinds[kind] = true
			}
		}
		if s.First >= l.end && s.kind == instruction {
			last = k
		}
	}
	if last < 0 {
		return
	}
	again := map[*ingredient]bool{}
	for k := range t.mentions {
		if m := &t.mentions[k]; m.First >= l.end && m.ingr != nil {
			again[m.ingr] = true
		}
	}
	asked, named := 0, 0
	var left []*mention
	for _, k := range l.items {
		m := &t.mentions[k]
		if neverAsked[m.food.Kind] {
			continue
		}
		asked++
		switch g := m.ingr; {
		case again[g] || t.spokenOfAgain(m, said, l.end):
			named++
		case kinds[m.food.Kind] || g.optional || g.taste || len(g.subs) > 0 || t.hasPurpose(m):
		default:
			left = append(left, m)
		}
	}
	if asked < leastListed-1 || float64(named) < namedAfter*float64(asked) || len(left) > mostLeftOver {
		return
	}
	end := &t.sents[last]
	for _, m := range left {
		from := min(m.First, t.quantities[m.amounts[0]].First)
		add(from, schema.Flag{Kind: schema.ConflictAmount, Subject: m.name,
			Ask:  fmt.Sprintf("The list has %s, and nothing told afterwards uses it: where does it go in?", amountOf(t.quantities[m.amounts[0]].value(), m.name)),
			Said: []schema.Said{t.said(from, max(m.Last, t.quantities[m.amounts[0]].Last)), t.said(end.First, min(end.Last, end.First+24))}})
	}
}

// closesList are words by which a cook says that nothing else goes in.
var closesList = listed("that's it", "that's all", "that's everything", "that's the lot", "nothing else", "that's your list", "that's the list", "that's the whole list", "that's my list", "all you need", "everything you need", "no more than that", "that's your lot")

// closedReach is how many words after a list may close it.
const closedReach = 12

// unlistedUsed asks about what is used though the list, which was said to be all of it,
// has no such thing. An open list leaves that open too: what of it has no amount is
// asked about anyway.
func (t *talk) unlistedUsed(l *readList, add func(int, schema.Flag)) {
	closed := t.earliest(l.end, min(len(t.toks), l.end+closedReach), closesList)
	if closed < 0 {
		return
	}
	var extra []*mention
	seen := map[*ingredient]bool{}
	for k := range t.mentions {
		m := &t.mentions[k]
		if m.First < l.end || m.ingr == nil || m.negated || m.verb || seen[m.ingr] {
			continue
		}
		seen[m.ingr] = true
		s := t.sentence(m.First)
		if g := m.ingr; neverAsked[m.food.Kind] || m.food.Kind == "spice" || g.optional || g.taste || m.food.Dish || m.unknown || s.kind != instruction || s.past || s.other || t.conditionalAt(m.First) || t.onList(l, m) {
			continue
		}
		extra = append(extra, m)
	}
	if len(extra) > mostLeftOver {
		return
	}
	for _, m := range extra {
		add(m.First, schema.Flag{Kind: schema.ConflictAmount, Subject: m.name,
			Ask:  fmt.Sprintf("The list was said to be all, and it has no %s: does it go in, and how much?", m.name),
			Said: []schema.Said{t.clauseSaid(m.First), t.clauseSaid(closed)}})
	}
}

// onList reports whether the list has a food that a later mention may mean.
func (t *talk) onList(l *readList, m *mention) bool {
	for k := range t.mentions {
		o := &t.mentions[k]
		if o.First >= l.end {
			return false
		}
		if o.ingr == m.ingr || related(o.food, m.food) > 0 || o.food.Kind == m.food.Kind && (t.ofClass(lastWord(m.food.Name), o.food) || t.ofClass(lastWord(o.food.Name), m.food)) {
			return true
		}
	}
	return false
}

// spokenOfAgain reports whether a listed food is named after the list, by a word of its
// name or as a food that may be the same.
func (t *talk) spokenOfAgain(m *mention, said map[string]bool, end int) bool {
	for _, name := range append(m.ingr.also, m.name, m.food.Name) {
		for _, w := range strings.Fields(strings.ToLower(strings.ReplaceAll(name, "-", " "))) {
			if len(w) > 2 && (said[w] || said[lexicon.Singular(w)]) {
				return true
			}
		}
	}
	for k := range t.mentions {
		if o := &t.mentions[k]; o.First >= end && related(o.food, m.food) > 0 {
			return true
		}
	}
	for w, kind := range classWord {
		if kind == m.food.Kind && said[w] {
			return true
		}
	}
	return false
}

// hasPurpose reports whether the list says what a food is for: "a lemon for serving",
// "two eggs to brush it with", "mint, if you like it".
func (t *talk) hasPurpose(m *mention) bool {
	i := m.Last
	for _, x := range m.amounts {
		i = max(i, t.quantities[x].Last)
	}
	s := t.sentence(m.First)
	return t.has(i, min(s.Last, i+6), "for", "to", "if", "or", "optional", "unless", "on top", "later", "on the side", "at the end") >= 0
}

// partNeeds are things that are made apart and put on or beside a dish, with the kinds
// of food of which they hold one at least. Common practice.
var partNeeds = map[string][]string{
	"glaze":       {"sweetener", "fruit", "condiment", "sauce", "egg", "chocolate", "alcohol"},
	"icing":       {"sweetener", "dairy", "chocolate"},
	"frosting":    {"sweetener", "dairy", "chocolate"},
	"ganache":     {"chocolate"},
	"custard":     {"egg", "dairy", "thickener"},
	"pesto":       {"herb", "nut", "sauce"},
	"dressing":    {"oil", "dairy", "condiment", "sauce", "fruit", "egg"},
	"vinaigrette": {"oil", "condiment"},
	"compote":     {"fruit"},
	"coulis":      {"fruit"},
	"salsa":       {"vegetable", "fruit", "sauce"},
	"caramel":     {"sweetener"},
	"meringue":    {"egg"},
	"gravy":       {"stock", "meat", "poultry", "flour", "thickener", "vegetable", "sauce"},
	"buttercream": {"dairy", "fat", "sweetener"},
}

// broughtFrom are words that tell where something comes from that isn't made here.
var broughtFrom = []string{"bought", "shop", "store", "jarred", "from a jar", "out of a jar", "jar of", "jars of", "a packet", "from a tub", "tub of", "from a tin", "out of a tin", "tin of", "from a bottle", "bottle of", "ready made", "last week", "other video", "last video", "other recipe", "left over", "leftover", "yesterday", "your favourite", "your favorite", "whatever", "any", "if you", "recipe for"}

// putOn are verbs that put what was made on or into a dish.
var putOn = words("pour spread brush spoon drizzle dollop add toss fold top serve ladle pipe slather drape baste dress stir swirl glaze ice frost put")

// unmadeParts asks where something comes from that is put on the dish, though no talk
// was of making it and nothing that goes in could make it.
func (t *talk) unmadeParts(add func(int, schema.Flag)) {
	if len(t.docs) != 1 {
		return
	}
	uses := map[string][]int{}
	var order []string
	for i := range t.toks {
		if !t.in(aPartApart, i) {
			continue
		}
		w := t.norm(i)
		if uses[w] == nil {
			order = append(order, w)
		}
		if t.putsOn(i) {
			uses[w] = append(uses[w], i)
		} else {
			uses[w] = append(uses[w], -1) // made, bought or only spoken of
		}
	}
	for _, w := range order {
		at := uses[w]
		if slices.Contains(at, -1) || t.couldBe(w) || t.has(max(0, at[0]-12), min(len(t.toks), at[0]+12), broughtFrom...) >= 0 {
			continue
		}
		f := schema.Flag{Kind: schema.ConflictWay, Subject: w, Ask: fmt.Sprintf("The %s is used, and nothing tells how it is made: where does it come from?", w)}
		f.Said = append(f.Said, t.clauseSaid(at[0]))
		if len(at) > 1 {
			f.Said = append(f.Said, t.clauseSaid(at[len(at)-1]))
		}
		add(at[0], f)
	}
}

// putsOn reports whether the part named at token i is put on the dish there as a thing
// that is known: "pour the dressing over".
func (t *talk) putsOn(i int) bool {
	if d := t.norm(i - 1); d != "the" && d != "your" && d != "that" {
		return false
	}
	s := t.sentence(i)
	if s.kind != instruction || s.past || s.other {
		return false
	}
	for k := i - 2; k >= s.First && k >= i-5; k-- {
		if a := t.actionAt[k]; a >= 0 {
			return putOn[t.actions[a].base] && t.actions[a].mood == imperative
		}
	}
	return false
}

// couldBe reports whether something that goes in is such a part, or could make it.
func (t *talk) couldBe(w string) bool {
	for _, g := range t.ingredients {
		if contains(partNeeds[w], g.food.Kind) || contains(strings.Fields(g.name), w) {
			return true
		}
	}
	for _, p := range t.partNames {
		if contains(strings.Fields(p), w) {
			return true
		}
	}
	return false
}
