package extract

import (
	"quern/internal/lexicon"
	"quern/schema"
)

// A danger is what a cook warns of in passing: a caution's kind, what she
// speaks of, and the words that make it a warning. Speaking of hot oil is no
// warning; saying not to walk away from it is. The words are looked for in the
// sentence that speaks of it and the two after it.
type danger struct {
	kind   string
	topics []string
	cues   []string
	also   []string // words of which one must stand there besides a cue
	once   []string // words that warn by themselves
	unless []string // words beside the topic by which it is of something else
	never  []string // words anywhere in its sentence by which it is of something else
	here   bool     // all of it in one sentence
	before bool     // the warning is given first as often: "off the flame, mind your eyebrows, then the brandy"
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
		// what a roux is cooked to get rid of
		unless: []string{"taste", "tastes", "tasting", "flavour", "flavor", "cook out", "cooks out", "cooked out", "smell", "smells"},
	},
	{
		kind:   "rice cooling",
		topics: []string{"rice"},
		cues: []string{"cools quick", "cool it quick", "cool it fast", "cool it down", "cools fast", "cool quickly", "within one day", "within a day", "next day", "24 hours", "twenty-four hours", "reheat", "reheated",
			"food poisoning", "sick", "one day", "a day", "spread it on a tray", "spread it out on", "sit at room temperature", "leave it at room temperature", "leave it out", "left out", "sitting out", "sit out", "leave it in the pan"},
	},
	{
		kind: "rice cooling",
		once: []string{"leftover rice", "left over rice", "rice left over", "rice leftover", "yesterday's rice", "last night's rice", "rice from last night", "rice from yesterday", "rice from the night before", "rice the day before", "rice the night before", "day old rice", "day-old rice", "cold rice", "cold cooked rice", "cooled rice",
			"rice is cold", "rice is stone cold", "rice has cooled", "rice is cool", "rice go cold", "rice to go cold", "rice to cool", "rice cool", "cool the rice", "fan the rice", "chill the rice", "chilled rice", "freeze the rice", "freeze rice", "freeze some rice", "rice freezes", "rice in the freezer", "keep the rice", "rice keeps", "rice will keep", "rice in the fridge", "extra rice", "spare rice"},
		unless: []string{"rice noodles", "rice vinegar", "rice paper", "rice wine", "rice flour", "rice pudding", "rice cakes", "cauliflower rice"},
	},
	{
		kind:   "rice cooling",
		topics: []string{"sushi rice", "rice"},
		cues:   []string{"fan it", "fanning", "fan the", "until it's cool", "till it's cool", "until it's cold", "till it's cold", "leave it to cool", "let it cool", "let it go cold", "cool right down"},
		unless: []string{"rice noodles", "rice vinegar", "rice paper", "rice wine", "rice flour", "puffed rice", "rice cereal", "rice pudding", "cauliflower rice"},
	},
	{
		kind:   "rice cooling",
		topics: []string{"rice"},
		cues:   []string{"freeze", "freezer", "fridge", "refrigerator"},
		also:   []string{"left", "leftover", "leftovers", "extra", "spare", "don't eat", "don't finish", "batch", "double"},
		unless: []string{"fresh", "without", "except", "new pot", "rice noodles", "rice vinegar", "rice paper", "rice wine", "rice flour", "cauliflower rice"},
		here:   true,
	},
	{
		kind:   "dried kidney beans",
		topics: []string{"beans", "bean", "rajma"},
		cues:   []string{"poison", "poisonous", "poisoning", "toxin", "toxic", "sick", "boil them hard", "boil hard", "hard boil", "rolling boil", "rapid boil", "fast boil", "not the slow cooker", "not straight in the slow cooker"},
	},
	{
		kind:   "garlic in oil",
		topics: []string{"raw garlic", "garlic", "herbs", "basil"},
		cues:   []string{"poison", "poisons", "poisonous", "poisoned", "poisoning", "makes you sick", "make you sick", "hospital", "can kill", "could kill"},
		also:   []string{"oil"},
	},
	{
		kind:   "garlic in oil",
		topics: []string{"oil"},
		cues:   []string{"poisoned", "poisoning", "hospital", "can kill", "could kill"},
		also:   []string{"jar", "jars", "bottle", "bottles", "fridge", "windowsill", "shelf"},
	},
	{
		kind:   "garlic in oil",
		topics: []string{"oil"},
		cues:   []string{"thrown out", "throw it out", "throw it away", "in the bin", "bin it", "bin whatever", "out it goes"},
		also:   []string{"jar", "bottle"},
	},
	{
		kind:   "garlic in oil",
		topics: []string{"raw garlic", "fresh garlic"},
		cues:   []string{"fridge", "refrigerator", "days", "a week"},
		also:   []string{"oil"},
	},
	{
		kind:   "garlic in oil",
		topics: []string{"garlic", "oil", "herbs", "basil"},
		cues:   []string{"botulism", "botulinum", "not at room temperature", "never at room temperature", "not on the counter", "never on the counter", "not on the shelf", "never on the shelf", "can't leave it out"},
	},
	{
		kind:   "home canning",
		topics: []string{"jar", "jars", "bottle", "bottles"},
		cues: []string{"in the cupboard", "in the larder", "in the pantry", "in the cellar", "on the shelf", "on a shelf", "on the shelves", "in the store cupboard", "in the shed", "in the garage", "in a dark place", "in the dark", "in a cool place", "somewhere cool", "somewhere dark", "under the stairs", "at room temperature",
			"without the fridge", "no need of a fridge", "keeps for months", "keep for months"},
		also:   []string{"christmas", "winter", "spring", "summer", "next year", "a year", "year", "years", "months", "six months", "twelve months", "seal", "seals", "sealed", "lids on tight", "lid on tight", "airtight", "vacuum", "pop", "popped", "sterilised", "sterilized", "sterilise", "sterilize"},
		unless: []string{"spice", "dry", "flour", "once opened"},
	},
	{
		kind:   "home canning",
		topics: []string{"jar", "jars", "bottle", "bottles", "lids"},
		cues: []string{"water bath", "boil the jars", "boil the bottles", "boil the filled jars", "boil the sealed jars", "listen for the pop", "hear the pop", "hear them pop", "hear it pop", "lids pop", "lids will pop", "lid pops", "pop down", "popped down", "sucked down", "canner", "canning", "process them", "process the jars", "process for",
			"headspace", "for the winter", "all winter", "through the winter", "sealed hot", "seal them hot", "seal while hot", "seal hot", "turn them upside down", "upside down to seal"},
		unless: []string{"spice", "once opened"},
	},
	{
		kind:   "garlic in oil",
		topics: []string{"oil"},
		cues:   []string{"covered in its oil", "covered in oil", "covered with oil", "under oil", "under the oil", "under its oil", "under their oil", "till they're covered", "until they're covered", "till it's covered", "until it's covered", "till they're under", "to cover", "top it up", "top up", "film of oil", "layer of oil", "fill it up", "fill up with"},
		also:   []string{"jar", "jars", "bottle", "bottles", "fridge", "shelf", "cupboard", "windowsill", "keeps", "keep it", "keep them"},
		unless: []string{"tinned", "from a tin"},
	},
	{
		kind:   "hot oil",
		topics: []string{"oil", "fat", "fryer"},
		cues:   []string{"walk away", "never leave", "don't leave", "do not leave", "unattended", "fire", "flames", "no water", "water in", "put water", "throw water", "away from you", "lid over", "smother", "kids away", "children away", "little ones away", "kids out", "dangerous", "burn you"},
		once:   []string{"hot oil", "hot fat", "boiling oil"},
	},
	{
		kind: "hot oil",
		once: []string{"deep fry", "deep-fry", "deep frying", "deep-frying", "deep fried", "deep-fried", "deep fryer", "deep fat fryer", "shallow fry", "shallow-fry", "shallow frying", "shallow-frying", "inch of oil", "inches of oil", "half an inch of oil", "centimetre of oil", "centimetres of oil", "centimeter of oil", "centimeters of oil", "finger of oil", "fingers of oil", "oil an inch deep", "oil two inches deep",
			"oil for frying", "oil for deep frying", "frying oil", "oil to fry in", "oil half an inch deep", "oil a finger deep", "oil up to your"},
	},
	{
		kind:   "hot oil",
		topics: []string{"oil", "lard", "dripping", "ghee", "fat"},
		cues:   []string{"deep enough", "to swim", "swimming in", "they float", "it floats", "float up", "floats up", "float to the top", "bob up", "bobs up", "deep pan", "deep pot", "deep saucepan", "little batter", "drop spoonfuls", "drop in spoonfuls", "cube of bread", "bit of bread", "crumb of bread", "scrap of bread", "bread dropped", "drop of batter", "bit of batter", "blob of batter", "bit of dough", "piece of dough", "wooden spoon", "chopstick", "third full", "half full", "halfway up", "half way up", "for frying", "a good depth", "plenty to fry"},
		unless: []string{"olives in", "tinned", "drain the oil"},
	},
	{
		kind:   "hot oil",
		topics: []string{"oil"},
		cues:   []string{"to about a centimetre", "a centimetre or so", "about a centimetre", "a centimetre deep", "to a depth", "an inch or so", "about an inch", "to an inch", "half an inch up", "an inch up", "a finger deep", "two fingers deep"},
		unless: []string{"slices", "slice", "cubes", "pieces", "thick"},
		here:   true,
	},
	{
		kind:   "hot sugar",
		topics: []string{"sugar"},
		cues:   []string{"amber", "dark caramel", "golden caramel", "pale caramel", "light caramel", "deep caramel", "caramel colour", "caramel color", "copper", "colour of a penny", "color of a penny", "colour of copper", "colour of a conker", "mahogany", "hard crack", "soft crack", "soft ball", "hard ball", "firm ball", "sugar thermometer", "candy thermometer", "jam thermometer"},
		unless: []string{"onion", "onions", "crust", "beer", "rum"},
	},
	{
		kind:   "hot sugar",
		topics: []string{"sugar", "caramel", "syrup", "toffee", "jam", "honeycomb", "brittle", "praline"},
		cues:   []string{"not to leave it", "don't leave it", "never leave it", "don't walk away", "burn you", "burns you", "burns worse", "burn worse", "kids away", "children away", "little ones away", "kids out", "lava", "dangerous", "hotter than", "don't lick", "don't touch", "bowl of cold water", "bowl of iced water", "bad burn", "nasty burn", "scald you", "scalds"},
		once:   []string{"boiling sugar", "molten sugar", "hot sugar", "hot caramel", "molten caramel", "sugar burn", "sugar burns"},
	},
	{
		kind:   "hot sugar",
		topics: []string{"sugar", "caramel", "syrup", "toffee", "jam", "honeycomb", "brittle", "praline"},
		cues:   []string{"your skin", "your finger", "your fingers", "your hand", "your hands"},
		also:   []string{"hot", "burn", "burns", "burnt", "boiling", "blister", "blisters", "sticks to", "stick to", "keep", "mind", "careful", "out of", "away"},
	},
	{
		kind:   "alcohol near flame",
		before: true,
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
			"leave it on the counter", "leave them on the counter", "leave it on the side", "more than two hours", "longer than two hours", "over two hours", "within two hours", "inside two hours", "two hours out", "couple of hours", "more than an hour",
			"stand in the sun", "sit about", "sit around", "sitting about", "sitting around", "stand about", "stand around", "standing about", "standing around", "out all day", "out all evening", "out all night", "out all afternoon", "out overnight", "on the stove overnight", "on the side overnight", "on the counter overnight", "on the hob overnight", "at room temperature", "out of the fridge", "on the buffet", "on the table all", "picnic", "cool box", "ice pack", "ice packs"},
		cues:   []string{"two hours", "couple of hours", "more than an hour", "longer than an hour", "sick", "food poisoning", "poorly", "bugs", "germs", "bacteria", "danger zone", "hot day", "straight in the fridge", "into the fridge", "into the refrigerator", "back in the fridge", "in the bin", "bin it", "refrigerate it", "throw it out", "throw it away", "chuck it", "people get ill", "make you ill", "an upset stomach", "dodgy stomach", "an hour or two", "keep it cold", "kept cold", "stay cold", "stays cold", "never more than", "no more than"},
		unless: []string{"dough", "starter", "soften", "softens", "soft", "rise", "prove", "proof", "butter", "yeast", "come up to room", "comes up to room", "to room temperature", "can leave", "could leave", "or leave", "may leave", "allergy", "allergic", "don't like", "if you'd rather"},
		never:  []string{"rice"}, // has a caution of its own
	},
	{
		kind:   "thawing",
		topics: []string{"thaw", "thawed", "thawing", "defrost", "defrosted", "defrosting"},
		cues:   []string{"in the fridge", "in the refrigerator", "overnight", "the night before", "on the counter", "on the worktop", "on the side", "on the bench", "in the sink", "cold water", "under the tap", "microwave", "all the way", "completely", "properly", "frozen", "from the freezer", "out of the freezer"},
		unless: []string{"pastry", "dough", "filo", "phyllo", "peas", "berries", "spinach", "bread", "buns", "fruit", "corn", "cake", "loaf", "leftovers", "reheat"},
	},
	{
		kind:   "pressure cooker",
		topics: []string{"pressure"},
		cues:   []string{"falls", "fall", "drops", "then open", "has gone", "lid won't", "don't open", "don't you try", "never open", "before you open", "don't force", "don't lift", "steam", "valve", "whistle", "whistles", "let it drop", "come down on its own", "go down on its own", "release"},
	},
	{
		kind:   "pressure cooker",
		topics: []string{"whistle", "whistles"},
		cues:   []string{"cooker", "steam", "pressure"},
		unless: []string{"kettle"},
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

// dangersListed are the lists of spokenDangers, by row.
var dangersListed = func() []dangerLists {
	out := make([]dangerLists, len(spokenDangers))
	for k := range spokenDangers {
		w := &spokenDangers[k]
		out[k] = dangerLists{w, listed(w.topics...), listed(w.cues...), listed(w.also...), listed(w.once...), listed(w.unless...), listed(w.never...)}
	}
	return out
}()

type dangerLists struct {
	*danger
	topics, cues, also, once, unless, never *phraseList
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
	often := map[string][]int{} // sentences that name meat, poultry or fish, by kind
	var spoken []int            // rows of spokenDangers that the talk speaks of at all
	for k := range dangersListed {
		if w := &dangersListed[k]; len(t.places(w.once)) > 0 || len(t.places(w.topics)) > 0 {
			spoken = append(spoken, k)
		}
	}
	for k := range t.sents {
		s := &t.sents[k]
		if s.other || t.dishOf(s.First) != d {
			continue
		}
		end, begin := t.warningEnd(k), t.warningBegin(k)
		for _, row := range spoken {
			w := &dangersListed[row]
			if i := t.hasAny(s.First, s.Last, w.once); i >= 0 && !dangerDenies[t.norm(i-1)] && t.hasAny(max(s.First, i-8), min(s.Last, i+8), w.unless) < 0 {
				note(w.kind, t.ownFrom(s, i), s.Last)
				continue
			}
			from, to := s.First, end
			if w.before {
				from = begin
			}
			if w.here {
				to = s.Last
			}
			i := t.hasAny(s.First, s.Last, w.topics)
			if w.kind == "thawing" && i >= 0 && t.neverThawed(i, s) {
				continue
			}
			if i >= 0 && t.hasAny(s.First, t.guessedEnd(s.Last, to), w.never) < 0 && (!dangerDenies[t.norm(i-1)] || w.kind == "cold storage" || w.kind == "thawing") && t.norm(i+1) != "free" && t.hasAny(max(s.First, i-8), min(s.Last, i+8), w.unless) < 0 && t.hasAny(max(from, i-20), min(to, i+warningReach), w.cues) >= 0 &&
				(len(w.also.texts) == 0 || t.hasAny(max(from, i-20), min(to, i+warningReach), w.also) >= 0) {
				if from = s.First; to == s.Last {
					from = t.ownFrom(s, i)
				}
				note(w.kind, from, to)
			}
		}
		for _, m := range t.mentionsIn(s.First, s.Last) {
			x := &t.mentions[m]
			kinds := toldKinds[x.food.Kind]
			if kinds == nil || fleshKind(x.food.Kind) && t.holds(x.food.Kind, d) {
				continue
			}
			if fleshKind(x.food.Kind) && t.plainlyNamed(k, m) && !besideWords[t.norm(x.First-1)] {
				often[x.food.Kind] = append(often[x.food.Kind], k)
			}
			if !t.toldOf(k, m) {
				continue
			}
			for _, kind := range kinds {
				if len(found[kind]) < mostTold {
					found[kind] = append(found[kind], t.said(s.First, min(t.sents[min(k+1, len(t.sents)-1)].Last, s.First+24)))
					t.because("caution "+kind, x.First, x.Last, "told, though no ingredient")
				}
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
	for kind, named := range often {
		if at := t.dishOfNamed(named, d); at >= 0 {
			s := &t.sents[at]
			for _, c := range toldKinds[kind] {
				found[c] = append(found[c], t.said(s.First, min(t.sents[min(at+1, len(t.sents)-1)].Last, s.First+24)))
			}
		}
	}
	var out []schema.Caution
	give := func(kind string) {
		if said := found[kind]; said != nil {
			out = append(out, schema.Caution{Kind: kind, Said: said})
			delete(found, kind) // a kind may stand in two rows
		}
	}
	for _, w := range spokenDangers {
		give(w.kind)
	}
	for _, kind := range fleshKinds {
		give(kind)
	}
	return out
}

// neverThawed reports whether the thawing at token i is told not to be done at all:
// "don't thaw them", but not "don't thaw it on the counter".
func (t *talk) neverThawed(i int, s *sentence) bool {
	if w := t.norm(i - 1); w != "don't" && w != "never" && w != "not" && w != "without" && w != "no" {
		return false
	}
	e := i + 1
	if !t.clauseEnd(e, s) && pronouns[t.norm(e)] {
		e++
	}
	return t.clauseEnd(e, s) || t.norm(e) == "first" || !t.punctuated && (t.norm(e) == "just" || t.norm(e) == "straight")
}

// ownFrom gives where a warning's quote begins: at the words that warn, where the
// sentence is an instruction. Its whole words are a step's, and a caution that
// has only a step's words counts as worked out from the step.
func (t *talk) ownFrom(s *sentence, i int) int {
	if (s.kind == instruction || s.kind == storing) && i > s.First {
		return i
	}
	return s.First
}

// fleshKinds are the cautions that hang on a meat or fish being cooked.
var fleshKinds = []string{"poultry temperature", "ground meat temperature", "whole meat temperature", "fish temperature"}

// mostTold is how many namings of foods are kept for one kind of caution.
const mostTold = 8

// toldKinds are the cautions that a food of a kind may call for, though it is only
// spoken of: "leg of lamb. Stab it all over". Which of them hold is judged by its
// name where the cautions are worked out.
var toldKinds = map[string][]string{
	"poultry":   {"poultry temperature"},
	"meat":      {"ground meat temperature", "whole meat temperature"},
	"fish":      {"fish temperature"},
	"sweetener": {"honey for infants"},
	"legume":    {"dried kidney beans"},
}

// fleshKind tells whether foods of a kind are meat or fish: where the dish has an
// ingredient of it, that one tells what is cooked.
func fleshKind(kind string) bool { return kind == "poultry" || kind == "meat" || kind == "fish" }

// besideWords before a food tell that it is eaten with the dish or likened to it.
var besideWords = words("with like for than beside alongside against of to as from about on")

// toldOf reports whether mention m of sentence k is of a food that goes in,
// though no ingredient was made of it: it stands in a sentence that instructs,
// lists or names the dish, or one right after it works on "it" or "them".
func (t *talk) toldOf(k, m int) bool {
	if !t.plainlyNamed(k, m) {
		return false
	}
	s, x := &t.sents[k], &t.mentions[m]
	if !fleshKind(x.food.Kind) && (s.kind == instruction || s.kind == listing) {
		return true
	}
	if besideWords[t.norm(x.First-1)] {
		return false
	}
	// "One goose" may be alive; what names the dish, or was frozen, is meat.
	frozen := t.hasAny(s.First, s.Last, frozenWord) >= 0
	if x.head.Len() == 1 && animals[lexicon.Singular(t.norm(x.head.First))] && !s.naming && !frozen {
		return false
	}
	return t.workedOn(k)
}

// oftenNamed is in how many sentences a meat or fish is named that the dish is of,
// though no amount or list made an ingredient of it. Common practice of talking.
const oftenNamed = 3

// dishOfNamed gives the first of the sentences that name a kind of meat or fish where
// they are so many that dish d is of it and no other meat or fish goes in; else -1.
func (t *talk) dishOfNamed(named []int, d int) int {
	if len(named) == 0 || t.holds("poultry", d) || t.holds("meat", d) || t.holds("fish", d) {
		return -1
	}
	n := 1
	for i := 1; i < len(named); i++ {
		if named[i] != named[i-1] {
			n++
		}
	}
	if n < oftenNamed {
		return -1
	}
	return named[0]
}

// plainlyNamed reports whether mention m of sentence k names a food neither denied nor
// only likened to, told of the past or of another dish.
func (t *talk) plainlyNamed(k, m int) bool {
	s, x := &t.sents[k], &t.mentions[m]
	frozen := t.hasAny(s.First, s.Last, frozenWord) >= 0
	if x.ingr != nil || x.negated || x.compared || x.mixed && !meatPieces[t.norm(x.Last)] && !meatPieces[t.norm(x.Last-1)] || x.verb || x.alias >= 0 || x.subst >= 0 || x.food.Dish || s.past && !frozen || s.other || s.recap || s.kind == aside && !frozen || s.kind == figures || dangerDenies[t.norm(x.First-1)] {
		return false
	}
	switch {
	case x.food.Kind == "legume" && t.has(x.First, x.Last, "dried", "dry") < 0: // most come out of a tin
		return false
	case x.food.Kind == "sweetener" && t.has(x.First, x.Last, "honey") < 0:
		return false
	}
	switch x.why {
	case "object of a don't", "eaten with it", "in a story":
		return false
	}
	return true
}

// frozenWords tell of meat from the freezer, and meatPieces follow its name.
var (
	frozenWords = []string{"frozen", "freezer", "thaw", "thawed", "thawing", "defrost", "defrosted", "defrosting"}
	meatPieces  = words("joint joints crown roast skin bones")
)

// animals are foods named as they run about.
var animals = words("goat goose duck hen chicken turkey pig lamb sheep cow rabbit hare pigeon pheasant deer calf bird fish")

// workedOn reports whether one of the two sentences after sentence k is an instruction that
// names no food before its verb's "it" or "them".
func (t *talk) workedOn(k int) bool {
	for j := k + 1; j < len(t.sents) && j <= k+2; j++ {
		n := &t.sents[j]
		if n.kind != instruction || n.other || n.past {
			continue
		}
		it := t.has(n.First, n.Last, "it", "them", "each", "one", "both sides")
		named := t.mentionsIn(n.First, n.Last)
		if it >= 0 && (len(named) == 0 || t.mentions[named[0]].First > it) {
			return true
		}
	}
	return false
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

// warningBegin gives where the breath of sentence k begins: at the sentence, or at
// the one before it where the talk has no marks and sentences are guesses.
func (t *talk) warningBegin(k int) int {
	if !t.punctuated && k > 0 && !t.sents[k-1].other {
		return t.sents[k-1].First
	}
	return t.sents[k].First
}

// guessedEnd gives where a sentence ends as far as can be told: at its end, or at
// that of its breath where the talk has no marks.
func (t *talk) guessedEnd(last, breath int) int {
	if t.punctuated {
		return last
	}
	return max(last, breath)
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
	if i := t.earliest(s.First, s.Last, softYolks); i >= 0 {
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

// rawDough are the words for what is tasted raw, and lickedOff what it is licked from.
var (
	rawDough  = []string{"dough", "batter", "mixture", "mix"}
	lickedOff = []string{"spoon", "bowl", "beaters", "beater", "spatula", "whisk", "paddle", "scraper"}
	// steals are words for tasting that is done on the sly, before anything is baked.
	steals = []string{"nibble", "nibbling", "nibbles", "sneak a", "sneak some", "sneak a bit", "pinch a bit", "pinch of that", "pinch of this", "pinch of it", "a pinch of the dough", "pinches a bit", "steal a", "steal some", "stealing", "swipe", "swipes", "picking at", "pick at it", "finger in", "fingers in", "finger through", "fingers out", "try a bit", "eat the dough", "eat it raw", "eating it raw",
		"eats it raw", "ate it raw", "have a taste", "a little taste", "wee taste", "cheeky", "scrape the bowl clean", "fight over the bowl", "fight over the spoon", "fights over the bowl"}
	licks = []string{"lick", "licking", "licks", "licked", "licker"}
	// relish are words that go with raw dough where somebody eats it.
	relish = []string{"eat", "eats", "eating", "taste", "tasting", "love", "loves", "weakness", "favourite", "favorite", "best bit", "best part", "can't help", "can't resist", "tempting", "tempted", "delicious", "hands off", "fingers", "finger", "tummy", "sick", "ill", "sore", "upset", "straight from", "off the spoon", "spoonful", "a bite"}
)

// lickedToo are other things that are licked.
var lickedToo = listed("meat", "mince", "pork", "beef", "filling", "honey", "icing", "frosting", "cream")

// filching are words for taking some on the sly, of what is named after them.
var filching = listed("nick", "nicks", "nicked", "nicking", "nab", "nabs", "nabbing", "steal", "steals", "sneak", "sneaks", "sneaking", "swiping", "pinching some", "pinching a", "snaffle", "snaffles", "filch", "pilfer", "help themselves to", "helps himself to", "helps herself to", "help myself to", "at the raw")

// rawMixtures are mixtures called raw.
var rawMixtures = listed("raw dough", "raw cookie dough", "raw batter", "raw cake batter", "raw mixture", "raw mix", "uncooked dough", "uncooked batter", "unbaked dough", "dough raw", "batter raw")

// tastingWords tell that something is tasted.
var tastingWords = listed("taste", "tasting", "eat", "eating", "eaten")

// tasting gives the word of sentence k by which raw dough or batter is tasted
// or warned off tasting, -1 where none is: the dough is named here, or was in
// the sentence before; what is licked is the spoon or the bowl.
func (t *talk) tasting(k int) int {
	s := &t.sents[k]
	if t.hasAny(s.First, s.Last, lickedToo) >= 0 {
		return -1 // another thing is licked
	}
	before := s.First
	if k > 0 {
		before = t.sents[k-1].First
	}
	if i := t.hasAny(s.First, s.Last, steal); i >= 0 && (t.has(before, s.Last, rawDough...) >= 0 || t.has(s.First, s.Last, "raw") >= 0 || t.has(i, s.Last, lickedOff...) >= 0 && t.has(t.sents[max(0, k-3)].First, s.Last, rawDough[:2]...) >= 0) {
		return i
	}
	if i := t.hasAny(s.First, s.Last, filching); i >= 0 && t.has(i, s.Last, rawDough[:2]...) >= 0 {
		return i
	}
	if i := t.hasAny(s.First, s.Last, lick); i >= 0 && (t.has(before, s.Last, rawDough[:3]...) >= 0 || t.has(i, s.Last, lickedOff...) >= 0) {
		return i
	}
	if i := t.hasAny(s.First, s.Last, rawMixtures); i >= 0 && !dangerDenies[t.norm(i-1)] && t.hasAny(s.First, s.Last, relishing) >= 0 {
		return i
	}
	if i := t.eatenRaw(k); i >= 0 {
		return i
	}
	if i := t.hasAny(s.First, s.Last, tastingWords); i >= 0 && !t.seasons(i) && t.doughTasted(s, i) && t.has(s.First, s.Last, "as", "like", "bread", "baked") < 0 {
		return i
	}
	// "I pinch off a scrap and eat it", while it is kneaded
	if i := t.has(s.First, s.Last, tornOff...); i >= 0 && t.has(i, s.Last, mouthed...) >= 0 && t.has(t.sents[max(0, k-3)].First, s.Last, "dough", "batter", "knead", "kneading") >= 0 {
		return i
	}
	return -1
}

// doughTasted reports whether dough or batter is what the word at token i tastes: it is
// named before, or at once after it.
func (t *talk) doughTasted(s *sentence, i int) bool {
	if t.has(s.First, i, "dough", "batter") >= 0 {
		return true
	}
	d := t.has(i, s.Last, "dough", "batter")
	if d < 0 {
		return false
	}
	for j := i; j < d; j++ {
		if t.toks[j].After != 0 {
			return false // "taste it, because the dough has nothing"
		}
	}
	return true
}

// mouthing are the forms of eating and tasting that somebody is told of or told off for.
var mouthing = listed("taste", "tasting", "tastes", "eat", "eats", "eating", "ate", "chew", "chews", "chewing", "munch", "munches", "munching")

// Distances in tokens.
const (
	rawAfter   = 9   // from the eating to the "raw"
	doughReach = 220 // back to the dough that "it" is
)

// eatenRaw gives the word of sentence k by which what is being mixed or rolled out is
// eaten as it is, and called raw: "she eats the edges raw", "stop tasting that, it's
// raw"; -1 for none. Nothing else is named between, and the last food named before is
// what a dough is made of.
func (t *talk) eatenRaw(k int) int {
	s := &t.sents[k]
	i := t.hasAny(s.First, s.Last, mouthing)
	if i < 0 || t.seasons(i) {
		return -1
	}
	end := s.Last
	if k+1 < len(t.sents) && t.sents[k+1].para == s.para {
		end = t.sents[k+1].Last // "don't eat that. It's raw."
	}
	r := t.has(i, min(end, i+rawAfter), "raw")
	if r < 0 || dangerDenies[t.norm(r-1)] {
		return -1
	}
	for j := i; j < r+2 && j < end; j++ {
		if t.mentionAt[j] >= 0 {
			return -1 // "eat the onion raw"
		}
	}
	for j := i - 1; j >= 0 && j >= i-doughReach; j-- {
		switch t.norm(j) {
		case "dough", "batter", "flour":
			return i
		}
		if m := t.mentionAt[j]; m >= 0 && (fleshKind(t.mentions[m].food.Kind) || j >= s.First) && !t.mentions[m].negated {
			return -1 // "the turnip you can eat raw"
		}
	}
	return -1
}

// seasons reports whether the "taste" of token i is what something is salted to:
// "salt it to taste", but not "they love to taste the dough".
func (t *talk) seasons(i int) bool {
	return t.norm(i) == "taste" && t.norm(i-1) == "to" && t.has(i+1, min(len(t.toks), i+2), "the", "a", "some", "raw", "it") < 0
}

var (
	// tornOff are words for taking a little of a dough, and mouthed for eating it.
	tornOff = []string{"pinch off", "pull off", "tear off", "break off", "nip off", "pick off", "a scrap", "a crumb", "a corner", "a tiny bit", "a little bit", "a wee bit", "a bit of it", "a bit of this", "a bit of that"}
	mouthed = []string{"eat it", "eats it", "eat that", "eat some", "taste it", "tastes it", "taste that", "try it", "chew it", "pop it in my mouth", "in my mouth", "on my tongue", "on the tongue"}
)

// heats are the verbs that cook a dough or batter.
var heats = []string{"bake", "fry", "cook", "griddle", "roast", "toast", "steam", "boil"}

// heatAhead reports whether the dish is baked or fried after sentence k, or not
// at all: what is tasted then is raw. Where heat came before and none follows,
// what is tasted is done.
func (t *talk) heatAhead(k, d int) bool {
	heated := false
	for _, st := range t.steps {
		if st.dish != d {
			continue
		}
		for _, v := range heats {
			if contains(st.verbs, v) {
				if st.from >= t.sents[k].First {
					return true
				}
				heated = true
			}
		}
	}
	return !heated
}
