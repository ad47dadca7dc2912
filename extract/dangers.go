package extract

import "quern/schema"

// A danger is what a cook warns of in passing: a caution's kind, what she
// speaks of, and the words that make it a warning. Speaking of hot oil is no
// warning; saying not to walk away from it is. The words are looked for in the
// sentence that speaks of it and the two after it.
type danger struct {
	kind   string
	topics []string
	cues   []string
	once   []string // words that warn by themselves
	unless []string // words beside the topic by which it is of something else
}

var spokenDangers = []danger{
	{
		kind:   "raw egg",
		topics: []string{"egg", "eggs", "yolk", "yolks", "whites", "egg whites", "mayonnaise", "mousse"},
		cues:   []string{"pregnant", "expecting", "salmonella", "pasteurised", "pasteurized", "aren't cooked", "isn't cooked", "not cooked", "uncooked", "never cooked"},
		unless: []string{"raw fish", "raw meat", "raw milk"},
		once:   []string{"pasteurised eggs", "pasteurized eggs"},
	},
	{
		kind:   "honey for infants",
		topics: []string{"honey"},
		cues:   []string{"baby", "babies", "infant", "infants", "toddler", "toddlers", "newborn", "months old", "five months", "six months", "a year old", "one year old", "under one", "twelve months", "little one", "little ones", "till he's one", "till she's one", "till they're one", "first birthday", "botulism"},
	},
	{
		kind: "raw flour",
		once: []string{"raw flour", "flour is raw", "flour's raw", "uncooked flour"},
	},
	{
		kind:   "rice cooling",
		topics: []string{"rice"},
		cues: []string{"cools quick", "cool it quick", "cool it fast", "cool it down", "cools fast", "cool quickly", "within one day", "within a day", "next day", "24 hours", "twenty-four hours", "reheat", "reheated",
			"food poisoning", "sick", "one day", "a day", "spread it on a tray", "spread it out on", "sit at room temperature", "leave it at room temperature", "leave it out", "left out", "sitting out", "sit out", "leave it in the pan"},
	},
	{
		kind:   "dried kidney beans",
		topics: []string{"beans", "bean", "rajma"},
		cues:   []string{"poison", "poisonous", "poisoning", "toxin", "toxic", "sick", "boil them hard", "boil hard", "hard boil", "rolling boil", "rapid boil", "fast boil", "not the slow cooker", "not straight in the slow cooker"},
	},
	{
		kind:   "garlic in oil",
		topics: []string{"garlic", "oil", "herbs", "basil"},
		cues:   []string{"botulism", "not at room temperature", "never at room temperature", "not on the counter", "never on the counter", "not on the shelf", "never on the shelf", "can't leave it out"},
	},
	{
		kind:   "hot oil",
		topics: []string{"oil", "fat", "fryer"},
		cues:   []string{"walk away", "never leave", "don't leave", "do not leave", "unattended", "fire", "flames", "no water", "water in", "put water", "throw water", "away from you", "lid over", "smother", "kids away", "children away", "little ones away", "kids out", "dangerous", "burn you"},
		once:   []string{"hot oil", "hot fat", "boiling oil"},
	},
	{
		kind:   "hot sugar",
		topics: []string{"sugar", "caramel", "syrup", "toffee", "jam", "glaze", "honeycomb", "brittle", "praline"},
		cues:   []string{"burn you", "burns you", "burns worse", "burn worse", "your skin", "your finger", "your fingers", "your hand", "kids away", "children away", "little ones away", "kids out", "lava", "dangerous", "hotter than", "don't lick", "don't touch", "bowl of cold water", "bowl of iced water", "bad burn", "nasty burn", "scald you", "scalds"},
		once:   []string{"boiling sugar", "molten sugar", "hot sugar", "hot caramel", "molten caramel", "sugar burn", "sugar burns"},
	},
	{
		kind:   "alcohol near flame",
		topics: []string{"rum", "brandy", "whisky", "whiskey", "bourbon", "cognac", "vodka", "tequila", "calvados", "kirsch", "spirit", "liqueur", "alcohol", "booze"},
		cues:   []string{"flame", "open flame", "naked flame", "lit burner", "eyebrow", "eyebrows", "fire", "goes up", "catch light", "flare", "flares", "flames", "off the flame", "off the heat first", "turn the gas off", "turn the burner off", "turn off the gas", "from the bottle", "let it catch", "catch fire", "alight", "ignite", "flambé", "flambe", "stand back", "lean back", "long match", "burn off", "burns off"},
	},
	{
		kind:   "raw fish",
		topics: []string{"fish", "salmon", "tuna", "sea bass", "mackerel", "trout", "scallops"},
		cues:   []string{"parasite", "parasites", "worms", "sushi grade", "sashimi grade", "sushi quality", "sashimi quality", "frozen first", "been frozen", "freeze it first", "eating it raw", "eat it raw", "eaten raw", "served raw"},
		once:   []string{"raw fish", "raw salmon", "raw tuna", "raw mackerel", "raw sea bass", "fish is raw", "fish raw"},
		unless: []string{"wash", "washed", "hands", "board", "knife", "smell", "smells", "touch", "touched", "longer raw"},
	},
	{
		kind: "cold storage",
		topics: []string{"leave it out", "leave them out", "leave this out", "leave that out", "left it out", "left out", "sit out", "sits out", "sat out", "sitting out", "leave it sitting", "leave it standing", "hang around", "hanging around", "in the sun", "in a hot car",
			"leave it on the counter", "leave them on the counter", "leave it on the side", "more than two hours", "longer than two hours", "over two hours", "within two hours", "inside two hours", "couple of hours", "more than an hour"},
		cues:   []string{"two hours", "couple of hours", "more than an hour", "longer than an hour", "sick", "food poisoning", "poorly", "bugs", "germs", "bacteria", "danger zone", "hot day", "straight in the fridge", "into the fridge", "into the refrigerator", "refrigerate it", "throw it out", "throw it away", "bin it"},
		unless: []string{"dough", "starter", "soften", "softens", "rise", "prove", "proof"},
	},
	{
		kind:   "thawing",
		topics: []string{"thaw", "thawed", "thawing", "defrost", "defrosted", "defrosting"},
		cues:   []string{"in the fridge", "in the refrigerator", "overnight", "the night before", "on the counter", "cold water", "under the tap", "microwave", "all the way", "completely", "properly"},
		unless: []string{"pastry", "dough", "filo", "phyllo", "peas", "berries", "spinach", "bread", "buns", "fruit", "corn", "cake", "loaf"},
	},
	{
		kind:   "pressure cooker",
		topics: []string{"pressure"},
		cues:   []string{"don't open", "don't you try", "never open", "before you open", "don't force", "don't lift", "steam", "valve", "whistle", "whistles", "let it drop", "come down on its own", "go down on its own", "release"},
	},
	{
		kind:   "fish temperature",
		topics: []string{"fish", "salmon", "cod", "tuna", "haddock", "hake", "fillet", "fillets"},
		cues:   []string{"thermometer", "probe", "sixty-three", "145", "one forty-five", "undercooked"},
	},
	{
		kind:   "dry glucomannan",
		topics: []string{"glucomannan", "konjac"},
		cues:   []string{"choke", "choking", "dry", "throat", "water", "swell", "swells"},
	},
}

// dangerDenies are words before a topic that say there is none of it.
var dangerDenies = words("no not without isn't aren't never nothing")

// warned gives the cautions the talk itself raises for dish d, in the order of
// spokenDangers: a warning in so many words, and raw dough or batter tasted on
// camera. The first moment of each kind is kept. Whether the dish holds what is
// warned of is judged where the cautions are worked out.
func (t *talk) warned(d int) []schema.Caution {
	found := map[string][]schema.Said{}
	note := func(kind string, from, to int) {
		if found[kind] == nil {
			found[kind] = []schema.Said{t.said(from, min(to, from+24))}
			t.because("caution "+kind, from, to, "words of warning")
		}
	}
	var spoken []int // rows of spokenDangers that the talk speaks of at all
	for k, w := range spokenDangers {
		if t.has(0, len(t.toks), w.once...) >= 0 || t.has(0, len(t.toks), w.topics...) >= 0 {
			spoken = append(spoken, k)
		}
	}
	for k := range t.sents {
		s := &t.sents[k]
		if s.other || t.dishOf(s.First) != d {
			continue
		}
		end := t.warningEnd(k)
		for _, row := range spoken {
			w := &spokenDangers[row]
			if i := t.has(s.First, s.Last, w.once...); i >= 0 && !dangerDenies[t.norm(i-1)] && t.has(max(s.First, i-8), min(s.Last, i+8), w.unless...) < 0 {
				note(w.kind, s.First, s.Last)
				continue
			}
			i := t.has(s.First, s.Last, w.topics...)
			if i >= 0 && !dangerDenies[t.norm(i-1)] && t.norm(i+1) != "free" && t.has(max(s.First, i-8), min(s.Last, i+8), w.unless...) < 0 && t.has(max(s.First, i-20), min(end, i+warningReach), w.cues...) >= 0 {
				note(w.kind, s.First, end)
			}
		}
		if i := t.rawEgg(s); i >= 0 {
			note("raw egg", s.First, s.Last)
		}
		if i := t.tasting(k); i >= 0 && t.heatAhead(k, d) {
			if t.holds("egg", d) {
				note("raw egg", s.First, s.Last)
			}
			if t.holds("flour", d) {
				note("raw flour", s.First, s.Last)
			}
		}
	}
	var out []schema.Caution
	for _, w := range spokenDangers {
		if said := found[w.kind]; said != nil {
			out = append(out, schema.Caution{Kind: w.kind, Said: said})
			delete(found, w.kind) // a kind may stand in two rows
		}
	}
	return out
}

// warningReach is the most words from what is warned of to the warning.
const warningReach = 36

// warningEnd gives the end of the breath that sentence k begins: two more
// sentences at most, or a few more where the talk has no marks and sentences
// are short guesses.
func (t *talk) warningEnd(k int) int {
	more := 2
	if !t.punctuated {
		more = 6
	}
	end := t.sents[k].Last
	for j := k + 1; j < len(t.sents) && j <= k+more && !t.sents[j].other; j++ {
		end = t.sents[j].Last
	}
	return min(end, t.sents[k].Last+warningReach)
}

// soft are words for a yolk that is not cooked through.
var soft = words("runny jammy ooze oozes oozing oozy gooey")

// softYolk are phrases that call a yolk so whatever else is spoken of.
var softYolk = []string{"soft yolk", "soft yolks", "yolk soft", "yolk stays soft", "yolk to stay soft", "yolk like jam", "yolk's like jam", "yolk should be like jam", "yolk is like jam", "yolks like jam", "yolk still soft", "yolk is still soft", "yolk runs"}

// rawEgg gives the word of a sentence that calls an egg raw or its yolk soft, in
// whatever order, or by which eggs are boiled too short for the yolk to set; -1
// where none does.
func (t *talk) rawEgg(s *sentence) int {
	for i := s.First; i < s.Last; i++ {
		var about []string
		switch w := t.norm(i); {
		case w == "raw":
			about = []string{"egg", "eggs", "yolk", "yolks", "whites"}
		case t.in(aSoft, i):
			about = []string{"yolk", "yolks", "yolk's"}
		}
		if about == nil || dangerDenies[t.norm(i-1)] {
			continue
		}
		if e := t.has(max(s.First, i-10), min(s.Last, i+8), about...); e >= 0 && t.norm(e+1) != "free" && !dangerDenies[t.norm(e-1)] {
			return i
		}
	}
	if i := t.earliest(s.First, s.Last, softYolk); i >= 0 {
		return i
	}
	return t.shortBoil(s)
}

// setYolk is how long an egg boils at least before its yolk is set, in seconds:
// seven and a half minutes. Common practice.
const setYolk = 450

// shortBoil gives the time for which a sentence boils eggs where it is too short
// to set the yolk, and they don't stand in the hot water after it; -1 for none.
func (t *talk) shortBoil(s *sentence) int {
	boils := t.has(s.First, s.Last, "boil", "boiling", "boiled")
	if boils < 0 || s.past || t.has(s.First, min(len(t.toks), s.Last+12), "sit", "stand", "leave them", "lid on", "cover", "off the heat", "peel and", "hard") >= 0 {
		return -1
	}
	for i := boils; i < s.Last; i++ {
		x := t.quantityAt[i]
		if x < 0 || t.quantities[x].kind != duration || t.quantities[x].void {
			continue
		}
		lo, hi, ok := inSeconds(&t.quantities[x])
		if !ok || lo < 120 || hi >= setYolk || !t.eggBefore(s, i) {
			return -1
		}
		return i
	}
	return -1
}

// eggBefore reports whether the last food named before token i, in its sentence
// or the one before, is eggs in their shells: nothing breaks or beats them.
func (t *talk) eggBefore(s *sentence, i int) bool {
	for k := i - 1; k >= 0 && k >= s.First-16; k-- {
		m := t.mentionAt[k]
		if m < 0 || t.mentions[m].verb || t.mentions[m].food.Name == "water" || lastWord(t.mentions[m].name) == "water" {
			continue
		}
		name := lastWord(t.mentions[m].name)
		return (name == "egg" || name == "eggs") && !t.mentions[m].negated && t.has(max(0, k-8), i, "beat", "beaten", "whisk", "crack", "break", "stir", "mix", "poach", "fry") < 0
	}
	return false
}

// holds reports whether dish d has an ingredient of a kind of food.
func (t *talk) holds(kind string, d int) bool {
	for _, g := range t.ingredients {
		if g.dish == d && g.food.Kind == kind {
			return true
		}
	}
	return false
}

// tasting gives the word of sentence k by which raw dough or batter is tasted
// or warned off tasting, -1 where none is: the dough is named here, or was in
// the sentence before; what is licked is the spoon or the bowl.
func (t *talk) tasting(k int) int {
	s := &t.sents[k]
	before := s.First
	if k > 0 {
		before = t.sents[k-1].First
	}
	if i := t.has(s.First, s.Last, "nibble", "sneak a", "sneak some", "pinch a bit of the", "try a bit", "eat the dough", "eat it raw", "eating it raw", "have a taste", "a little taste"); i >= 0 {
		if t.has(before, s.Last, "dough", "batter", "mixture", "mix") >= 0 {
			return i
		}
	}
	if i := t.has(s.First, s.Last, "lick", "licking", "licks", "licked"); i >= 0 {
		if t.has(before, s.Last, "dough", "batter", "mixture") >= 0 || t.has(i, s.Last, "spoon", "bowl", "beaters", "beater", "spatula", "whisk", "paddle") >= 0 {
			return i
		}
	}
	if i := t.has(s.First, s.Last, "taste", "tasting", "eat", "eating"); i >= 0 && t.has(s.First, s.Last, "dough", "batter") >= 0 && t.has(s.First, s.Last, "as", "like", "bread", "baked") < 0 {
		return i
	}
	return -1
}

// heatAhead reports whether the dish is baked or fried after sentence k: what
// is tasted then is raw. A talk in which no heat follows tastes what is done.
func (t *talk) heatAhead(k, d int) bool {
	for _, st := range t.steps {
		if st.dish != d || st.from < t.sents[k].First {
			continue
		}
		for _, v := range []string{"bake", "fry", "cook", "griddle", "roast", "toast", "steam", "boil"} {
			if contains(st.verbs, v) {
				return true
			}
		}
	}
	return false
}
