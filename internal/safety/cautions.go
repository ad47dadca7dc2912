package safety

import (
	"fmt"
	"slices"
	"strings"

	"quern/schema"
)

// finding is what a rule saw: the moments it was said, and a figure or a fact of
// this recipe to add to the caution's own words.
type finding struct {
	said []schema.Said
	adds []string
}

// rule tells whether a caution applies.
type rule func(*dish) (finding, bool)

// rules has the rule of each kind of caution in cautions.tsv. The table says in a
// few words when one applies; the rules read it so that a caution tells a cook
// what the recipe leaves open or gets wrong, and none is printed for its own
// sake. Poultry, ground meat, whole cuts, fish that is cooked and honey have theirs,
// whatever the cook tells of them: the list names no exception. Only a flag that asks
// about the inside of a whole cut or of fish stands in its place. Keeping food is
// cautioned where it is kept too long or left out of the cold; frying, where there is oil enough to burn; eggs and flour, where
// nothing cooks them. What the cook herself warns of is added by Merge.
var rules = map[string]rule{
	"poultry temperature":     poultry,
	"ground meat temperature": groundMeat,
	"whole meat temperature":  wholeMeat,
	"fish temperature":        fishCooked,
	"raw egg":                 rawEgg,
	"raw flour":               rawFlour,
	"rice cooling":            riceKept,
	"dried kidney beans":      kidneyBeans,
	"honey for infants":       honey,
	"home canning":            canning,
	"garlic in oil":           keptInOil,
	"hot oil":                 hotOil,
	"hot sugar":               hotSugar,
	"dry glucomannan":         glucomannan,
	"alcohol near flame":      spiritsNearFlame,
	"raw fish":                rawFish,
	"pressure cooker":         pressureCooker,
	"cold storage":            keptTooLong,
	"thawing":                 thawing,
}

// Cautions returns the cautions that the document's ingredients, steps and
// keeping times call for, in the order of the table, each with its source.
//
// Cautions about raw egg and raw flour carry no Said, so that they can be told
// from those the talk gave (somebody tastes the dough): see Merge.
func Cautions(doc *schema.Document) []schema.Caution { return read(doc).cautions() }

func (d *dish) cautions() []schema.Caution {
	var out []schema.Caution
	for _, row := range d.table.cautions {
		f, applies := rules[row.kind](d)
		if !applies {
			continue
		}
		c := schema.Caution{Kind: row.kind, Text: strings.Join(append([]string{row.say}, f.adds...), " "), Source: row.source, Said: f.said}
		if fromTalk(row.kind) {
			c.Said = nil
		}
		out = append(out, c)
	}
	return out
}

// fromTalk tells whether the talk can give a caution of this kind on its own.
func fromTalk(kind string) bool { return kind == "raw egg" || kind == "raw flour" }

// holds tells, for each kind of caution that the talk can raise by a warning,
// whether the dish has what is warned of. A warning about hot oil in a talk whose
// recipe fries nothing is about something else.
var holds = map[string]func(*dish) bool{
	"poultry temperature":     func(d *dish) bool { return d.toldIn("poultry temperature", "poultry") && d.heated() },
	"ground meat temperature": func(d *dish) bool { return d.toldIn("ground meat temperature", "ground meat") && d.heated() },
	"whole meat temperature": func(d *dish) bool {
		return d.toldIn("whole meat temperature", "whole meat") && d.heated() && !d.stewedFrom(0, "")
	},
	"home canning": func(d *dish) bool {
		return slices.ContainsFunc(d.stages, func(s stage) bool { return s.does(wetActions) || hotFilled.in(s.own) }) && !d.keptCold()
	},
	"raw egg":      func(d *dish) bool { return d.has("egg") },
	"raw flour":    func(d *dish) bool { return len(d.of("flour", "grain")) > 0 },
	"rice cooling": func(d *dish) bool { return d.tells("rice") },
	"dried kidney beans": func(d *dish) bool {
		return d.tells("kidney bean") || d.toldIn("dried kidney beans", "kidney bean") || d.tells("legume") && d.warnedOf("dried kidney beans", beanPoison)
	},
	"honey for infants": func(d *dish) bool {
		return d.toldIn("honey for infants", "honey") || d.warnedOf("honey for infants", infants)
	},
	"garlic in oil": func(d *dish) bool { return d.tells("garlic", "herb") && d.tells("oil") },
	"hot oil": func(d *dish) bool {
		oils := d.of("oil")
		deep := slices.ContainsFunc(oils, func(f food) bool { return !d.little(f) })
		return deep && (d.anyDoes(fryVerb) || d.warnedOf("hot oil", deepVessel)) || d.warnedOf("hot oil", oilSaid) || d.heated() && (deep || len(oils) == 0) && d.warnedOf("hot oil", deepFry)
	},
	"hot sugar": func(d *dish) bool {
		return len(d.of("sugar")) > 0 && (d.warnedOf("hot sugar", sugarColour) || slices.ContainsFunc(d.stages, func(s stage) bool { return s.speaks(sweetBoil) }))
	},
	"alcohol near flame": func(d *dish) bool { return len(d.of("spirit")) > 0 },
	"raw fish":           func(d *dish) bool { return d.tells("fish", "shellfish") },
	"pressure cooker": func(d *dish) bool {
		return slices.ContainsFunc(d.doc.Equipment, func(e schema.Equipment) bool { return pressureWords.in(spaced(e.Name)) }) ||
			d.warnedOf("pressure cooker", whistleWords)
	},
	"cold storage": func(d *dish) bool {
		return d.tells("egg") || d.tells(perishable...) || d.has("milk") || slices.ContainsFunc(d.foods, func(f food) bool { return eggWords.in(f.text) })
	},
	"thawing": func(d *dish) bool { return len(d.of(thawMeat...)) > 0 || d.toldIn("thawing", thawMeat...) },
	"fish temperature": func(d *dish) bool {
		return len(d.cookedFish()) > 0 || len(d.of("fish", "preserved fish")) == 0 && d.toldIn("fish temperature", "fish") && d.heated() && !rawFishWords.in(d.title)
	},
	"dry glucomannan": func(d *dish) bool { return len(d.of("glucomannan")) > 0 },
}

// nameWords is the most words in which an ingredient is named. What is quoted of one
// that was taken out of the document raises nothing.
const nameWords = 6

// toldIn tells whether the talk raised a caution of a kind in sentences that name a
// food of one of the classes.
func (d *dish) toldIn(kind string, classes ...string) bool {
	return slices.ContainsFunc(d.doc.Cautions, func(c schema.Caution) bool {
		return c.Kind == kind && slices.ContainsFunc(raised(d.doc, c), func(s schema.Said) bool {
			named := fold(s.Quote)
			in := d.table.classesIn(named)
			return len(named) > nameWords && slices.ContainsFunc(classes, func(c string) bool { return in[c] })
		})
	})
}

// has tells whether an ingredient brings an allergen for certain.
func (d *dish) has(allergen string) bool {
	return slices.ContainsFunc(d.foods, func(f food) bool {
		return slices.ContainsFunc(d.table.of(f.Ingredient), func(b brought) bool { return b.allergen == allergen && b.certainty == sure })
	})
}

func (d *dish) anyDoes(verbs wordSet) bool {
	return slices.ContainsFunc(d.stages, func(s stage) bool { return s.does(verbs) })
}

// raised returns the moments of a caution that only the talk can have given:
// those that are no ingredient's, step's, keeping time's or tool's.
func raised(doc *schema.Document, c schema.Caution) []schema.Said {
	worked := func(s schema.Said) bool {
		return slices.ContainsFunc(doc.Ingredients, func(o schema.Ingredient) bool { return slices.Contains(o.Said, s) }) ||
			slices.ContainsFunc(doc.Steps, func(o schema.Step) bool { return slices.Contains(o.Said, s) }) ||
			slices.ContainsFunc(doc.Storage, func(o schema.Storage) bool { return slices.Contains(o.Said, s) }) ||
			slices.ContainsFunc(doc.Equipment, func(o schema.Equipment) bool { return slices.Contains(o.Said, s) })
	}
	var out []schema.Said
	for _, s := range c.Said {
		if !slices.Contains(out, s) && !worked(s) {
			out = append(out, s)
		}
	}
	return out
}

// Merge returns the cautions a document should carry: those worked out from it,
// those the talk raised (raw dough tasted, a warning about hot oil) as long as
// the dish holds what they are about, completed with text and source and with
// their own moments first, and those of kinds not in the table, which a person
// added. Merging twice changes nothing.
func Merge(doc *schema.Document) []schema.Caution { return read(doc).Merge() }

// Merge does what the function of that name does for the document that was read.
func (d *dish) Merge() []schema.Caution {
	doc := d.doc
	out := d.cautions()
	at := map[string]int{}
	for i, c := range out {
		at[c.Kind] = i
	}
	t := d.table
	for _, c := range doc.Cautions {
		i, have := at[c.Kind]
		row := slices.IndexFunc(t.cautions, func(r cautionRow) bool { return r.kind == c.Kind })
		if row < 0 {
			if !have {
				at[c.Kind] = len(out)
				out = append(out, c)
			}
			continue
		}
		said := c.Said
		if !fromTalk(c.Kind) {
			said = raised(doc, c)
		}
		if len(said) == 0 || holds[c.Kind] == nil || !holds[c.Kind](d) {
			continue
		}
		if have {
			first := make(map[schema.Said]bool, len(said))
			for _, s := range said {
				first[s] = true
			}
			out[i].Said = append(slices.Clone(said), slices.DeleteFunc(slices.Clone(out[i].Said), func(s schema.Said) bool { return first[s] })...)
			continue
		}
		at[c.Kind] = len(out)
		out = append(out, schema.Caution{Kind: c.Kind, Text: t.cautions[row].say, Source: t.cautions[row].source, Said: said})
	}
	rank := func(c schema.Caution) int {
		if i := slices.IndexFunc(t.cautions, func(r cautionRow) bool { return r.kind == c.Kind }); i >= 0 {
			return i
		}
		return len(t.cautions)
	}
	slices.SortStableFunc(out, func(a, b schema.Caution) int { return rank(a) - rank(b) })
	if len(out) == 0 {
		return nil
	}
	return out
}

// seen makes a finding of the first moments of foods.
func seen(foods ...food) (finding, bool) {
	var f finding
	for _, x := range foods {
		if len(x.Said) > 0 {
			f.said = append(f.said, x.Said[0])
		}
	}
	return f, len(foods) > 0
}

// of returns the foods of one of the classes, the first of them where there are
// more than are weighed.
func (d *dish) of(classes ...string) []food {
	var out []food
	for _, f := range d.foods {
		if len(out) == d.most {
			break
		}
		if f.is(classes...) {
			out = append(out, f)
		}
	}
	return out
}

func poultry(d *dish) (finding, bool) {
	foods := d.of("poultry")
	// "Roast duck": the bird is in the title and the steps, in no ingredient.
	// What is only served beside the dish is in no step that cooks.
	told := d.titled["poultry"] && d.heated() || slices.ContainsFunc(d.stages, func(s stage) bool { return s.names("poultry") && s.cooks() })
	if len(foods) > 0 || !told {
		return cooked(d, "poultry", foods)
	}
	return d.toldAt("poultry"), true
}

// tells tells whether the dish has a food of one of the classes: among its
// ingredients, or named by its title or a step.
func (d *dish) tells(classes ...string) bool {
	return len(d.of(classes...)) > 0 || slices.ContainsFunc(classes, func(c string) bool { return d.toldOf[c] || d.titled[c] })
}

// toldAt makes the finding of the first step that names a food of a class.
func (d *dish) toldAt(class string) finding {
	for _, s := range d.stages {
		if s.names(class) {
			return finding{said: firstSaid(s.Said)}
		}
	}
	return finding{}
}

var (
	mincedWords = words("ground|minced")
	minced      = words("through the mincer|through the grinder|through a mincer|through a grinder|in the mincer|in the grinder|mincer|meat grinder")
	mincedSaid  = words("ground beef|ground pork|ground lamb|ground veal|ground meat|minced beef|minced pork|minced lamb|minced meat|beef minced|pork minced|lamb minced|veal minced|meat minced|beef ground|pork ground|lamb ground|veal ground")
)

// ground reports whether a whole cut is ground by the cook or the butcher.
func (f food) ground() bool {
	return f.is("ground meat") || f.is("whole meat") && (mincedWords.in(f.text) || mincedSaid.in(f.quotes()))
}

func groundMeat(d *dish) (finding, bool) {
	if animal.in(d.title) && d.titledOnly("ground meat") { // not the burgers of mushrooms
		return d.toldAt("ground meat"), true
	}
	return cooked(d, "ground meat", d.groundMeats())
}

func (d *dish) groundMeats() []food {
	var foods []food
	for _, f := range d.of("ground meat", "whole meat") {
		if (f.ground() || f.is("whole meat") && d.grinds(f)) && !f.is("poultry") {
			foods = append(foods, f)
		}
	}
	return foods
}

var (
	thinCut    = words("strip|thin slice|thinly sliced|sliced thin|sliced thinly|slice thin|slice thinly|sliced very thin|sliced paper thin|sliver|matchstick|shaved|shredded|julienne|julienned|thin strip")
	fallsApart = words("fall apart|falling apart|falls apart|fork tender|fork-tender|shred|shreds|pulls apart|pull apart|falls off the bone|falling off the bone|fall off the bone|meltingly tender|shred easily")
	tender     = words("tender|soft enough to cut with a spoon")
	wetCooking = words("simmer|braise|stew|slow cook|slow-cook|pressure cook|pressure-cook|poach|boil")
	slowCooker = words("slow cooker|crock pot|crockpot|pressure cooker|slow cook|pressure cook|multicooker")
)

// wholeMeat is about steaks, roasts and chops, as the list has it. Meat cut in
// strips, which no thermometer can read, and pieces stewed until they are
// through, are none of these; a joint in the pot is still a roast. While a flag asks
// about an inside temperature below the published one, the flag gives both figures and
// the caution waits for the answer.
func wholeMeat(d *dish) (finding, bool) {
	foods := d.wholeMeats()
	if d.asked("whole meat", foods) {
		return finding{}, false
	}
	if d.titledOnly("whole meat") && !thinCut.in(d.told) && !d.stewedFrom(0, "") {
		return d.toldAt("whole meat"), true
	}
	return cooked(d, "whole meat", foods)
}

// grinds tells whether a step before the first heat puts the meat through a mincer.
func (d *dish) grinds(f food) bool {
	if minced.in(f.quotes()) {
		return true
	}
	for _, s := range d.stages {
		about := s.uses(f.ID) || s.names("whole meat")
		if about && (minced.in(s.own) || minced.in(s.quotes())) {
			return true
		}
		if about && s.cooks() {
			return false
		}
	}
	return false
}

// titledOnly tells whether the title names a food of the class, nothing else of meat
// or fish is in the dish and something is heated: "Four pork chops. Salt them".
func (d *dish) titledOnly(class string) bool {
	return d.titled[class] && !preservedWords.in(d.title) && d.heated() && len(d.of(meatsAndFish...)) == 0
}

// preservedWords before a fish or meat tell that it was made ready to eat elsewhere.
var preservedWords = words("smoked|cured|tinned|canned|dried|pickled|salted|potted|cooked|leftover")

// meatsAndFish are the classes of flesh.
var meatsAndFish = []string{"poultry", "ground meat", "whole meat", "meat", "fish", "preserved fish", "shellfish"}

func (d *dish) wholeMeats() []food {
	var foods []food
	for _, f := range d.of("whole meat") {
		if !f.ground() && !d.grinds(f) && !d.onlyAnimal(f) && !thinCut.in(f.text) && !d.cutThin(f) && (d.inOnePiece(f) || !d.stewed(f)) {
			foods = append(foods, f)
		}
	}
	return foods
}

var animal = words("beef|pork|lamb|veal|meat")

// onlyAnimal tells whether a food is named by the animal alone, without an amount,
// in a dish of ground meat: "the beef" is the mince.
func (d *dish) onlyAnimal(f food) bool {
	return f.Amount == nil && len(fold(f.Name)) == 1 && animal.in(spaced(f.Name)) && slices.ContainsFunc(d.foods, food.ground)
}

// cutThin tells whether a step before the first heat cuts the meat in strips.
func (d *dish) cutThin(f food) bool {
	for _, s := range d.stages {
		about := s.uses(f.ID) || s.names("whole meat")
		if about && thinCut.in(s.own) {
			return true
		}
		if about && s.cooks() {
			return false
		}
	}
	return false
}

var (
	wholeCut = words("steak|roast|chop|joint|cutlet")
	cutUp    = words("dice|diced|cube|cubed|cubes|chunk|chunks|chopped|cut|pieces|stewing|braising")
)

// inOnePiece tells whether the meat is named as the cuts of the list are, and
// isn't cut up before it is cooked: a pot roast, chops in gravy.
func (d *dish) inOnePiece(f food) bool {
	if !wholeCut.in(spaced(f.Name)) || cutUp.in(f.text) {
		return false
	}
	from, _ := d.first(f, "", "whole meat")
	for _, s := range d.stages[from:] {
		switch {
		case cutUp.in(s.own) && (s.uses(f.ID) || s.names("whole meat")):
			return false
		case s.cooks():
			return true
		}
	}
	return true
}

// throughHours is how long pieces of meat in simmering liquid take at most to pass
// 145 F (63 C) inside: 20 minutes, in hours. Common practice.
const throughHours = 1.0 / 3

// stewed tells whether the meat is cooked through in liquid, for a time or until it
// is tender or falls apart, or in a slow or pressure cooker.
func (d *dish) stewed(f food) bool {
	from, ok := d.first(f, "", "whole meat")
	return ok && d.stewedFrom(from, f.Part)
}

func (d *dish) stewedFrom(from int, part string) bool {
	for _, s := range d.stages[from:] {
		if !together(part, s.Part) {
			continue
		}
		wet := s.does(wetCooking) || wetCooking.in(s.own)
		if fallsApart.in(s.own) && (s.cooks() || wet) || slowCooker.in(s.text) || wet && (s.hours() >= throughHours || tender.in(s.own)) {
			return true
		}
	}
	return false
}

// fishCooked applies to every fin fish that is cooked here. A time or a sign of
// doneness of the cook's own takes nothing from it: the list has no such exception. As
// with whole meat it waits for the answer to a flag that gives both figures.
func fishCooked(d *dish) (finding, bool) {
	foods := d.cookedFish()
	if d.asked("fish", foods) {
		return finding{}, false
	}
	if d.titledOnly("fish") && !rawFishWords.in(d.title) {
		return d.toldAt("fish"), true
	}
	return cooked(d, "fish", foods)
}

func (d *dish) cookedFish() []food {
	var foods []food
	for _, f := range d.of("fish") {
		if !f.is("preserved fish") && !canned(f) && !d.eatenRaw(f) {
			foods = append(foods, f)
		}
	}
	return foods
}

var (
	tinned     = words("can|canned|tin|tinned|jarred|drained")
	tinnedSaid = words("can of|cans of|tin of|tins of|jar of|jars of|canned|tinned|out of a can|from a can|out of a tin|from a tin")
)

// canned tells whether a food comes cooked in a can, packet or jar.
func canned(f food) bool {
	if f.Amount != nil && slices.Contains([]string{"can", "jar", "packet"}, f.Amount.Unit) {
		return true
	}
	return tinned.in(f.text) || tinnedSaid.in(f.quotes())
}

var (
	rawEggDish = words("mayonnaise|mayo|aioli|mousse|tiramisu|caesar|royal icing|eggnog|semifreddo|tartare|egg nog|parfait|marshmallow fluff|zabaglione|sabayon|carbonara|hollandaise|bearnaise|buttercream|ice cream|no-bake|pisco sour")
	// A dish whose name says that its eggs are cooked.
	cookedEggDish = words("scrambled|scramble|omelette|omelet|frittata|quiche|hard-boiled|hard boiled|egg fried rice|devilled|deviled")
	lightlyDone   = words("carbonara|hollandaise|bearnaise|zabaglione|sabayon")
	lightlyEgg    = words("soft-boil|soft boil|soft-boiled|soft boiled|jammy|poach|poached|sunny side|sunny-side|over easy|over-easy|coddle|coddled|six minute egg")
	intoHeat      = words("in the oven|into the oven|in the oil|into the oil|into hot oil|in hot oil|in the skillet|into the skillet|on the griddle|in the fryer|into the fryer|boiling water")
	serving       = words("serve|top|garnish")
	peeled        = words("peel|boil|boiled|hard-boiled|scramble|scrambled")
	barelySet     = words("barely set|just set")
	runnyYolk     = words("runny yolk|yolk runny|yolk is runny|yolk are runny|yolk still runny|yolk is still runny|yolk are still runny|runny in the middle")
	eggWords      = words("egg|yolk|white")
	thickened     = words("thick|thicken|coat the spoon|coats the back|set")
	partOfEgg     = words("yolk|egg yolk|white|egg white")
	custardWords  = words("egg|yolk|white|custard|mixture|sauce|syrup|base")
)

// rawEgg applies where an egg is eaten without a step that cooks it after it
// goes in, or is only lightly cooked. A step that says 160 F (71 C) or more
// cooks it: USDA FSIS, Safe Minimum Internal Temperature Chart.
func rawEgg(d *dish) (finding, bool) {
	var foods []food
	for _, f := range d.of("egg") {
		if slices.ContainsFunc(d.coldWays(), func(way string) bool { return inWay(f.Ways, way) && d.eggRaw(f, way) }) {
			foods = append(foods, f)
		}
	}
	return seen(foods...)
}

func (d *dish) eggRaw(f food, way string) bool {
	where := d.title
	if f.Part != "" {
		where = spaced(f.Part)
	}
	from, found := d.first(f, way, "egg")
	meets := func(s stage) bool { return together(f.Part, s.Part) || s.uses(f.ID) }
	for _, s := range d.stages[from:] {
		if !inWay(s.Ways, way) || !meets(s) {
			continue
		}
		if runnyYolk.in(s.own) || (lightlyEgg.in(s.own) || barelySet.in(s.own) && !s.does(inOven)) && (eggWords.in(s.own) || s.uses(f.ID)) {
			return true
		}
	}
	if cookedEggDish.in(d.title) {
		return false
	}
	for _, s := range d.stages[from:] {
		if inWay(s.Ways, way) && meets(s) && !s.does(inOven) &&
			slices.ContainsFunc(s.degrees(), func(v float64) bool { return v >= 160 }) {
			return false
		}
	}
	switch {
	case lightlyDone.in(where):
		return true
	case rawEggDish.in(where):
		return !d.cookedFrom(from, f, way, func(s stage) bool { return s.uses(f.ID) || together(f.Part, s.Part) && custardWords.in(s.own) })
	case len(d.stages) == 0:
		return false
	case !found:
		from = 0
	}
	// Elsewhere any heat that comes after the egg cooks it, whatever part it is
	// put down to, and an egg that is peeled has been boiled. What is not said to
	// be heated is raw only where it is said to be chilled.
	if f.Amount == nil && partOfEgg.in(spaced(f.Name)) && slices.ContainsFunc(d.stages[:from], func(s stage) bool { return s.names("egg") && s.cooks() }) {
		return false // the yolks of eggs that were boiled
	}
	if way != "" {
		return !d.cookedFrom(from, f, way, nil) && !d.heatedThick(from, f.Part, way)
	}
	for _, s := range d.stages[from:] {
		if s.cooks() || intoHeat.in(s.own) || len(s.Heat) > 0 || hotWords.in(s.own) || (s.uses(f.ID) || s.names("egg")) && peeled.in(s.own) {
			return false
		}
	}
	// An egg that a hot dish is served with was cooked, unless it is called raw.
	if d.heated() && found && d.stages[from].does(serving) {
		return false
	}
	return !peeled.in(f.quotes()) && !d.heatedThick(from, f.Part, way)
}

// heatedThick tells whether a step heats until the egg has thickened: a custard.
func (d *dish) heatedThick(from int, part, way string) bool {
	for _, s := range d.stages[from:] {
		if inWay(s.Ways, way) && together(part, s.Part) && s.does(heating) && thickened.in(s.own) {
			return true
		}
	}
	return false
}

var flourHeated = words("toast|heat|bake|microwave")

// rawFlour applies, apart from what the talk tells, where flour is in a dish that
// is chilled and nothing is heated from the moment it goes in.
func rawFlour(d *dish) (finding, bool) {
	var foods []food
	for _, f := range d.of("flour") {
		if slices.ContainsFunc(d.coldWays(), func(way string) bool { return inWay(f.Ways, way) && d.flourRaw(f, way) }) {
			foods = append(foods, f)
		}
	}
	return seen(foods...)
}

func (d *dish) flourRaw(f food, way string) bool {
	from, _ := d.first(f, way, "flour")
	for i, s := range d.stages {
		if inWay(s.Ways, way) && (i >= from && s.heats() || s.names("flour") && s.does(flourHeated)) {
			return false
		}
	}
	return d.chilled()
}

var leftovers = words("leftover|left over|the rest|everything|it|them|dish|any|extra|whole thing")

var (
	servedRice = words("with rice|and rice|with white rice|with steamed rice|with jasmine rice|with basmati rice|with brown rice|over rice|on rice")
	keepVerbs  = words("keep|last|hold|stay|do|go|good")
	helpers    = words("will|ll|would|should|can|could|may|might|do|does|only|just|all|also|happily|easily|well|still")
	noName     = words("it|thi|that|they|these|those|them|and|or|but|so|you|we|i|to|which|what|everything|all|one|leftover|rest|whatever|eat|eaten|finish|use|need|want|itll|thatll|theyll|thisll|not|dont|doesnt|wont")
)

// kept returns what is stored: as the document names it or, where it doesn't, by
// the word before "keeps" in what was said, so that a drink made beside the dish
// is not taken for the dish. It is "" where nothing nearer is said.
func kept(s schema.Storage) string {
	if strings.TrimSpace(s.What) != "" && !leftovers.in(spaced(s.What)) || len(s.Said) == 0 {
		return s.What
	}
	quoted := strings.Fields(s.Said[0].Quote)
	for i, w := range quoted {
		if !keepVerbs.in(spaced(w)) {
			continue
		}
		for i--; i >= 0 && helpers.in(spaced(quoted[i])); i-- {
		}
		if i < 0 || noName.in(spaced(quoted[i])) {
			return s.What
		}
		return strings.TrimSuffix(strings.Trim(quoted[i], ".,;:!?"), "'ll")
	}
	return s.What
}

// unclear tells whether a keeping time names nothing while another one for the
// same place does: it may then be of anything that was made.
func (d *dish) unclear(s schema.Storage) bool {
	if d.clear == nil {
		d.clear = map[string]bool{}
		for _, o := range d.kept {
			if strings.TrimSpace(kept(o)) != "" {
				d.clear[o.Place] = true
			}
		}
	}
	return d.clear[s.Place] && strings.TrimSpace(kept(s)) == ""
}

// keeps tells whether what is stored is, or holds, this food: it is named, or
// the food's part or the title is, or nothing nearer is said.
func (d *dish) keeps(s schema.Storage, f food, class string) bool {
	s.What = kept(s)
	what := spaced(s.What)
	if d.table.classesIn(d.fold(s.What))[class] {
		return true
	}
	if class == "rice" && servedRice.in(d.title) && !leftovers.in(what) && what != spaced("") {
		return false // the rice stands beside what is kept
	}
	for _, w := range d.fold(f.Name) {
		if strings.Contains(what, " "+w+" ") {
			return true
		}
	}
	for _, p := range d.parts {
		if d.shares(p.Name, s.What) {
			return strings.EqualFold(p.Name, f.Part)
		}
	}
	if class == "rice" && !d.shares(d.doc.Title, s.What) && strings.TrimSpace(s.What) != "" && !leftovers.in(what) {
		return false // another thing is named, and the rice is cooked to go with it
	}
	if f.Part != "" && !d.shares(f.Part, s.What) && slices.ContainsFunc(d.kept, func(o schema.Storage) bool { return d.shares(f.Part, o.What) }) {
		return false // the part it belongs to is kept in its own way
	}
	if strings.TrimSpace(s.What) == "" || leftovers.in(what) || d.shares(d.doc.Title, s.What) {
		return true
	}
	// Another part or food of the recipe is named, so it is that which is kept.
	for _, g := range d.foods[:min(len(d.foods), mostKept)] {
		if g.Ingredient != f.Ingredient && d.shares(g.Name, s.What) {
			return false
		}
	}
	return len(d.doc.Parts) == 0 || f.Part == ""
}

// shares tells whether two names have a word of more than three letters in common.
func (d *dish) shares(a, b string) bool {
	in := d.fold(b)
	for _, w := range d.fold(a) {
		if len(w) > 3 && slices.Contains(in, w) {
			return true
		}
	}
	return false
}

// fold folds a name that is asked for again and again. The words must not be changed.
func (d *dish) fold(name string) []string {
	words, known := d.folded[name]
	if !known {
		if d.folded == nil {
			d.folded = map[string][]string{}
		}
		words = fold(name)
		d.folded[name] = words
	}
	return words
}

var (
	coolsDown  = words("cool|chill|refrigerate")
	riceCooked = words("cooked rice|leftover rice|day-old rice|cold rice")
)

// riceKept applies where cooked rice is kept, cooled, or used from the day
// before. One day is the published time: UK Food Standards Agency, Home food
// fact checker; from memory.
func riceKept(d *dish) (finding, bool) {
	for _, f := range d.of("rice") {
		if riceCooked.in(f.text) {
			return seen(f)
		}
		for _, s := range d.kept {
			if !d.keeps(s, f, "rice") {
				continue
			}
			found := finding{said: firstSaid(s.Said)}
			if days, ok := days(s.Keeps); ok && days > 1 && s.Place == schema.Refrigerator {
				found.adds = []string{fmt.Sprintf("Said here: %s.", s.Keeps.String())}
			}
			return found, true
		}
		for _, s := range d.stages {
			if s.names("rice") && s.does(coolsDown) {
				return finding{said: firstSaid(s.Said)}, true
			}
		}
	}
	return finding{}, false
}

func firstSaid(said []schema.Said) []schema.Said {
	if len(said) == 0 {
		return nil
	}
	return said[:1:1]
}

// days returns a keeping time's longest value in days.
func days(q *schema.Quantity) (float64, bool) {
	if q == nil || q.Vague != "" {
		return 0, false
	}
	sec, ok := schema.Seconds(q.Unit)
	return q.Max * sec / 86400, ok && q.Max > 0
}

var waterWord = words("water")

var (
	readyCooked = words("cooked|precooked|pre-cooked")
	driedBean   = words("dried|dry|rajma|rajmah|soaked|uncooked|raw")
	soaks       = words("soak|presoak|pre-soak|steep")
	// Beans that are left to stand in water through a night are dried ones.
	nightLong = words("overnight|night|morning|next day|day before|hours")
	standing  = words("leave|stand|sit|cover|put|let")
	longTimes = words("week|month|year")
)

// kidneyBeans applies to beans said to be dried, soaked or cooked as only dried
// ones are: most come out of a can.
func kidneyBeans(d *dish) (finding, bool) {
	var foods []food
	for _, f := range d.of("kidney bean") {
		if !canned(f) && !readyCooked.in(f.text) && (driedBean.in(f.text) || driedBean.in(f.quotes()) || d.soaked(f)) {
			foods = append(foods, f)
		}
	}
	return seen(foods...)
}

// soaked tells whether a step soaks the beans, or cooks them so long or so
// slowly as only dried ones need.
func (d *dish) soaked(f food) bool {
	for _, s := range d.stages {
		if (s.uses(f.ID) || s.names("kidney bean", "legume")) && (s.does(soaks) || s.does(standing) && nightLong.in(s.own) && waterWord.in(s.own)) || s.cooks() && (slowCooker.in(s.text) || s.does(wetCooking) && s.hours() >= 0.75) {
			return true
		}
	}
	return false
}

// honey applies to honey among the ingredients, and to honey that may stand in
// for one of them.
func honey(d *dish) (finding, bool) {
	if f, ok := seen(d.of("honey")...); ok {
		return f, true
	}
	for _, f := range d.foods {
		for _, s := range f.Substitutes {
			if d.table.classesIn(fold(s.Name))["honey"] {
				return finding{said: firstSaid(s.Said)}, true
			}
		}
	}
	return finding{}, false
}

var (
	infants    = words("baby|babies|infant|infants|toddler|little one|months old|months|year old|not till|under one|newborn")
	beanPoison = words("kidney bean|red bean|rajma|poison|toxin|toxic")
)

// warnedOf tells whether the talk raised a caution of a kind in one of these
// words: what it is about may be no ingredient, as honey that is only a choice.
func (d *dish) warnedOf(kind string, about wordSet) bool {
	return slices.ContainsFunc(d.doc.Cautions, func(c schema.Caution) bool {
		return c.Kind == kind && slices.ContainsFunc(raised(d.doc, c), func(s schema.Said) bool { return about.in(spaced(s.Quote)) })
	})
}

var (
	cannerWords = words("canner|water bath|boiling-water bath|pressure canner|pressure canning|boil the jars|boil the filled jars|boil the sealed jars|simmer the jars|boil the bottles|simmer the bottles|boil the full jars")
	bathWords   = words("boiling water|water bath|bath|pressure")
	jarWords    = words("jar|jars|lid and band|preserving jar|bottle")
	processes   = words("process")
	sealedWords = words("sealed|unopened|canned|bottled|preserved|processed")
	wetActions  = words("boil|simmer|poach|bubble|cook|process|pickle|brine|stew|preserve|ferment|reduce")
	fillsJar    = words("ladle|fill|pour|spoon|pot|pack|funnel|decant|bottle|tip|cover")
	closesJar   = words("clip|clipped|cap|capped|seal|seals|sealed|screw|lid|lids|sterilise|sterilised|sterilize|sterilized|hot jar|warm jar|pop")
	hotFilled   = words("hot|boiling|boil|simmer")
)

// shelfDays is the time from which what is kept out of the cold can only be meant
// to be dry, or something wet that is sealed, in days. Common practice.
const shelfDays = 28

// canning applies where jars are processed in a canner, filled hot and closed, or
// sealed for the shelf: jars of dry things, and jars that go in the refrigerator,
// are not meant.
func canning(d *dish) (finding, bool) {
	wet, filled, hot, closed, jarred, readied := false, false, false, false, false, false
	ripens := false // left for weeks before it is opened; the refrigerator is for what was opened
	var at []schema.Said
	for i, s := range d.stages {
		wet = wet || s.does(wetActions) || hotFilled.in(s.own)
		jarred = jarred || jarWords.in(s.text)
		if jarWords.in(s.text) && s.does(processes) || jarred && (cannerWords.in(s.text) || s.does(processes) && bathWords.in(s.own)) {
			return finding{said: firstSaid(s.Said)}, true
		}
		if s.does(fillsJar) && slices.ContainsFunc(d.stages[max(0, i-2):i+1], func(b stage) bool { return jarWords.in(b.text + b.quotes()) }) {
			if !filled {
				at = firstSaid(s.Said)
			}
			filled = true
		}
		hot = hot || filled && hotFilled.in(s.own)
		readied = readied || jarWords.in(s.text+s.quotes()) && closesJar.in(s.text+s.quotes()) && hotFilled.in(s.text+s.quotes())
		closed = closed || closesJar.in(s.own) && (filled || jarWords.in(s.text))
		ripens = ripens || filled && (s.hours() >= shelfDays*24 || s.does(standing) && longTimes.in(s.own))
	}
	jars := len(d.kept) > 0 && wet && jarWords.in(d.jars())
	for _, s := range d.kept {
		kept := spaced(s.What, s.How) + (&quoted{said: s.Said}).spaced()
		long, ok := days(s.Keeps)
		if s.Place == schema.RoomTemperature && wet && (jars || jarWords.in(kept)) &&
			(sealedWords.in(kept) || (jarWords.in(kept) || filled || readied) && ok && long >= shelfDays) {
			return finding{said: firstSaid(s.Said)}, true
		}
	}
	return finding{said: at}, filled && hot && closed && (ripens || !d.keptCold())
}

// keptCold tells whether a keeping time or a step puts what was made in the cold.
func (d *dish) keptCold() bool {
	return slices.ContainsFunc(d.doc.Storage, func(s schema.Storage) bool {
		return s.Place == schema.Refrigerator || s.Place == schema.Freezer
	}) || slices.ContainsFunc(d.stages, stage.chills)
}

// jars returns the equipment and the steps' words, in which jars may be named.
func (d *dish) jars() string {
	var b strings.Builder
	for _, e := range d.doc.Equipment {
		b.WriteString(spaced(e.Name))
	}
	for _, s := range d.stages {
		b.WriteString(s.text)
	}
	return b.String()
}

var (
	oilKept   = words("oil|confit|pesto|infused|chimichurri|salsa verde|chermoula|zhoug")
	oilDish   = words("garlic confit|confit garlic|confited garlic|garlic oil|chilli oil|chili oil|herb oil|infused oil|basil oil|rosemary oil|garlic in oil|pesto")
	inOilVerb = words("confit|infuse|steep|submerge")
	// Verbs that put something under a liquid, and words that lead to it.
	underVerb = words("cover|fill|submerge|drown|immerse|keep|store|pack")
	underWith = words("with|in|under|beneath|below")
	rawInOil  = words("raw garlic")
	// Oil is poured on until it covers what is kept.
	poured  = words("pour|top|fill|add|ladle")
	covers  = words("to cover|until it covers|till it covers|until they are covered|till they are covered|until it is covered|till it is covered|until they're covered|till they're covered|until it's covered|till it's covered|until covered|till covered|so it covers|so they're covered")
	holders = words("jar|jars|bottle|bottles|tub|crock|container|box|keep|store|fridge")
)

// keptInOil applies where raw garlic, fresh herbs or chillies are kept under or
// blended in oil. Garlic that is only fried in oil is not meant.
func keptInOil(d *dish) (finding, bool) {
	if !d.tells("garlic", "herb") || !d.tells("oil") {
		return finding{}, false
	}
	for _, s := range d.kept {
		if oilKept.in(spaced(s.What, s.How)) && !d.onlyOil(s.What) {
			return finding{said: firstSaid(s.Said)}, true
		}
	}
	green := used(d.of("garlic", "herb"))
	seenGreen := false
	for _, s := range d.stages {
		named := s.names("garlic", "herb") || s.usesAny(green)
		if named && (s.does(inOilVerb) && s.names("oil") || !s.does(fryVerb) && underOil(s.Text)) {
			return finding{said: firstSaid(s.Said)}, true
		}
		// The garlic went in before; what holds it is filled up with oil to keep.
		seenGreen = seenGreen || named
		if seenGreen && !s.cooks() && underOil(s.Text) && (holders.in(s.text) || holders.in(d.jars())) {
			return finding{said: firstSaid(s.Said)}, true
		}
	}
	for _, f := range d.of("garlic", "herb") {
		if d.heldByOil(f) && slices.ContainsFunc(d.kept, func(s schema.Storage) bool { return s.Place != schema.Freezer && s.Keeps != nil }) {
			return seen(f)
		}
	}
	if oilDish.in(d.title) || strings.HasSuffix(strings.TrimSuffix(d.title, "| "), " oil ") && slices.ContainsFunc(d.of("garlic", "herb"), func(f food) bool { return rawInOil.in(f.text + f.quotes()) }) {
		for _, f := range d.of("garlic", "herb") {
			return seen(f)
		}
		return d.toldAt("garlic"), true
	}
	return finding{}, false
}

// sauceOil is the oil, in millilitres, from which a sauce of raw garlic or herbs is one
// that oil holds together: no dressing for a salad takes as much. Common practice.
const sauceOil = 200

// heldByOil tells whether a food goes raw into a sauce of so much oil, and the part it is
// of is never cooked.
func (d *dish) heldByOil(f food) bool {
	from, ok := d.first(f, "", "garlic")
	if !ok || slices.ContainsFunc(d.stages[from:], func(s stage) bool {
		return (f.Part == "" || strings.EqualFold(f.Part, s.Part)) && s.heats()
	}) {
		return false
	}
	return slices.ContainsFunc(d.of("oil"), func(o food) bool {
		at, ok := d.first(o, "", "oil")
		return ok && at >= from-1 && strings.EqualFold(o.Part, f.Part) && d.millilitres(o) >= sauceOil
	})
}

// underOil tells whether a text puts something under oil: "cover them with olive
// oil", "fill it up with oil", "pour in oil until it covers".
func underOil(text string) bool {
	ws := fold(text)
	if i := slices.Index(ws, "oil"); i >= 0 && poured.in(spaced(ws[:i]...)) && covers.in(spaced(strings.Join(ws[i:], " "))) {
		return true
	}
	for i, w := range ws {
		if !underVerb.in(spaced(w)) {
			continue
		}
		for j := i + 1; j < min(len(ws), i+7); j++ {
			if underWith.in(spaced(ws[j])) && slices.Contains(ws[j+1:min(len(ws), j+4)], "oil") {
				return true
			}
		}
	}
	return false
}

// onlyOil tells whether what is kept is named as an oil that goes into the dish.
func (d *dish) onlyOil(what string) bool {
	return slices.ContainsFunc(d.of("oil"), func(f food) bool { return strings.EqualFold(f.Name, strings.TrimSpace(what)) })
}

var (
	deepFry  = words("deep-fry|deep fry|shallow-fry|shallow fry|deep-fried|deep fried|shallow-fried|double-fry|deep fryer|deep-fat fryer|deep fat fryer")
	fryVerb  = words("fry|deep-fry|deep fry|shallow-fry|shallow fry")
	deepOil  = words("oil for frying|for frying|for deep frying|deep enough|enough to deep fry|to come halfway|halfway up|inch|inch deep|cm|centimetre|centimeter|deep|finger")
	oilDepth = words("inch of|cm of|centimetre of|centimeter of|inch oil|cm oil|deep|depth|halfway up")
	oilHot   = words("hot oil|oil thermometer|oil hits|oil reaches")
	oilSaid  = words("inch deep|inches deep|centimetre deep|centimeter deep|centimetres deep|cm deep|finger deep|two fingers deep|inch of oil|inches of oil|centimetre of oil|centimetres of oil|cm of oil|halfway up|inch up|inches up|centimetre up|centimeter up|centimetres up|cm up|finger up|fingers up|deep enough to fry|oil deep")
	// What is named for being fried in depth; with the oil unmeasured, it is.
	friedDish  = words("fritter|doughnut|donut|tempura|pakora|bhaji|samosa|fried chicken|falafel|tostones|churros|beignet|croquette|spring roll|egg roll|chips|french fries|onion rings|hush puppies|arancini|empanada|karaage|katsu|schnitzel|corn dog|funnel cake|vada|puri|jalebi|hash brown|latke")
	ovenOnly   = words("oven|preheat|air fryer|airfryer")
	deepVessel = words("deep pan|deep pot|deep saucepan|little batter|bit of batter|bit of bread|cube of bread|swim|swimming|float|drop spoonful")
	slides     = words("slide|slip|drop|lower|ease|lay|fry|put")
	batches    = words("at a time|batch|in batches|few|in the oil|into the oil|into the hot oil")
	intoOil    = words("in hot oil|into hot oil|in the hot oil|into the hot oil|into the oil|in the oil")
	drainedOn  = words("paper|kitchen towel|kitchen roll|slotted spoon|spider|rack")
	liftsOut   = words("lift|scoop|fish|drain|remove|take|lift out|scoop out|take out|fish out")
	fillsPan   = words("a third with|third full|a third full|half full|full of oil|full with oil|filled with oil|full of hot oil|halfway with|half with|third of the way|half way up|quarter full")
)

// deepVolume is the oil, in millilitres, from which frying is more than a film
// in a pan: it stands 2 mm deep in one of 24 cm. Common practice.
const deepVolume = 100

// vatVolume is the oil, in millilitres, that goes into a hot pan for frying only:
// no batter, marinade or dressing takes as much. Common practice.
const vatVolume = 400

// hotOil applies to frying in oil deep enough to burn: said to be deep or shallow
// frying, that much oil or more, oil measured in depth, or oil brought to 325 F or
// more. A film of oil in a pan is not meant.
func hotOil(d *dish) (finding, bool) {
	fried := false
	oils := used(d.of("oil"))
	for i, s := range d.stages {
		fries := s.does(fryVerb)
		fried = fried || fries
		if deepFry.in(s.text) {
			return finding{said: firstSaid(s.Said)}, true
		}
		oil := s.names("oil") || s.usesAny(oils)
		if s.does(inOven) || ovenOnly.in(s.own) || !fries && !oil {
			continue
		}
		// A figure is the oil's, though no oil is named, where the step does nothing but fry.
		onlyFries := fries && !s.does(wetCooking) && !s.does(otherwise)
		hot := slices.ContainsFunc(s.degrees(), func(v float64) bool {
			return v >= 325 && v <= 400 && (oil || onlyFries) || fries && v >= 250 && v <= 400 && (oil || onlyFries)
		})
		inOil := oil && intoOil.in(s.own)
		deep := oil && (oilSaid.in(s.own) || fillsPan.in(s.own) || slices.ContainsFunc(s.Sizes, func(q schema.Quantity) bool { _, ok := schema.Centimetres(q.Unit); return ok }) && oilDepth.in(s.own))
		if hot && (fries || s.does(heating) || inOil) || deep || inOil && d.drainedFrom(i) || oil && s.does(heating) && !slices.ContainsFunc(d.of("oil"), d.little) && d.slidesIn(i) {
			return finding{said: firstSaid(s.Said)}, true
		}
	}
	onHob := slices.ContainsFunc(d.stages, func(s stage) bool {
		return !s.does(inOven) && !ovenOnly.in(s.own) && (s.does(onStove) || s.does(heating)) && !d.onlyOthers(s)
	})
	vat := onHob || d.heated() && !d.anyDoes(inOven)
	for _, f := range d.of("oil") {
		if vat && d.millilitres(f) >= vatVolume {
			return seen(f)
		}
	}
	if !fried {
		return finding{}, false
	}
	for _, f := range d.of("oil") {
		if (deepOil.in(f.text) || oilSaid.in(f.quotes())) && !d.little(f) || friedDish.in(d.title) && f.Amount == nil && d.friesWith(f) {
			return seen(f)
		}
		if d.millilitres(f) >= deepVolume && d.friesWith(f) {
			return seen(f)
		}
	}
	return finding{}, false
}

// drainedFrom tells whether what step i puts in the oil is lifted out onto paper or a
// rack, which what softens in a film of oil is not.
func (d *dish) drainedFrom(i int) bool {
	return slices.ContainsFunc(d.stages[i:min(i+4, len(d.stages))], func(s stage) bool { return s.speaks(liftsOut) && drainedOn.in(s.text+s.quotes()) })
}

// slidesIn tells whether what goes into the oil that step i heats is slid in, a few
// at a time, and lifted out again: it swims in it.
func (d *dish) slidesIn(i int) bool {
	in := false
	for _, s := range d.stages[i:min(i+5, len(d.stages))] {
		in = in || s.does(slides) && batches.in(s.own)
		if in && s.does(liftsOut) {
			return true
		}
	}
	return false
}

// millilitres gives the volume of a food where it is said as one, 0 elsewhere.
func (d *dish) millilitres(f food) float64 {
	if f.Amount == nil || f.Amount.Vague != "" {
		return 0
	}
	ml, ok := schema.VolumeIn(f.Amount.Unit, d.doc.Measures)
	if !ok {
		return 0
	}
	return f.Amount.Max * ml
}

// onlyOthers tells whether a step uses foods, and none of them is oil or goes
// into it: the water boils while the oil is for the salad.
func (d *dish) onlyOthers(s stage) bool {
	if len(s.Uses) == 0 || s.names("oil") {
		return false
	}
	return !slices.ContainsFunc(s.degrees(), func(v float64) bool { return v >= 300 }) && !s.does(fryVerb)
}

// aFilm are vague amounts of oil that no more than wet a pan. ("Fries" would be
// "fry" to the tables, and so stands in no list of fried dishes.)
var aFilm = words("spoon|spoonful|drizzle|splash|drop|film|slick|touch|smear|teaspoon|tablespoon")

// little tells whether an amount of oil is measured, or told in such words, and
// too small to fry in depth.
func (d *dish) little(f food) bool {
	if aFilm.in(spaced(f.Vague)) {
		return true
	}
	ml := d.millilitres(f)
	return ml > 0 && ml < deepVolume
}

// friesWith tells whether a frying step uses this oil, or oil is all it names.
func (d *dish) friesWith(f food) bool {
	return slices.ContainsFunc(d.stages, func(s stage) bool {
		return s.does(fryVerb) && together(f.Part, s.Part) && (s.uses(f.ID) || s.names("oil") || oilHot.in(s.own)) ||
			s.does(heating) && s.uses(f.ID)
	})
}

var (
	sweetBoil     = words("boil|cook|simmer|heat|melt|bring|bubble|caramelise|caramelize|reduce|test")
	caramelWords  = words("caramel|candy|toffee|brittle|praline|fudge|nougat|butterscotch|honeycomb toffee|hard crack|soft crack|hard ball|soft ball|firm ball|crack stage|ball stage|thread stage|setting point|candy thermometer|sugar thermometer|jam thermometer|pulled sugar|spun sugar|marshmallow")
	jamWords      = words("jam|marmalade|preserve|conserve|jelly")
	jamBoil       = words("boil|test")
	bubbles       = words("boil|bubble|simmer")
	sugarBoil     = words("caramelise|caramelize|melt|cook|boil|bubble|swirl")
	sugarWords    = words("sugar|syrup|caramel|honey|glaze|toffee")
	caramelColour = words("amber|golden|copper|mahogany|deep brown|dark brown|bronze|chestnut|penny|colour of tea|color of tea|colour of honey|color of honey|caramel colour|caramel color")
	// Colours that only sugar is cooked to.
	sugarColour = words("amber|penny|mahogany|copper|colour of tea|color of tea")
	swirls      = words("swirl|melt|boil|cook|bubble|caramelise|caramelize")
	dryPan      = words("dry pan|dry saucepan|dry skillet|dry pot|no water")
	jamSet      = words("wrinkle|wrinkles|cold plate|cold saucer|chilled plate|chilled saucer|frozen plate|saucer from the freezer|plate from the freezer")
	notSyrup    = words("oven|fry|deep-fry|oil|air fryer|airfryer|grill|broil")
)

// syrupParts is the most ingredients that go into a boiled sugar in one step.
// Common practice.
const syrupParts = 5

// hotSugar applies to sugar boiled past 215 F (102 C), where only a syrup goes,
// or said to be boiled to caramel, candy or a jam's set. Compote and syrups that
// simmer at the boil of water are not meant.
func hotSugar(d *dish) (finding, bool) {
	// Caramel out of a tin was boiled by somebody else.
	sugars := slices.DeleteFunc(d.of("sugar"), func(f food) bool { return caramelWords.in(spaced(f.Name)) && canned(f) })
	if len(sugars) == 0 {
		return finding{}, false
	}
	for _, s := range d.stages {
		if s.does(inOven) || notSyrup.in(s.text) || !s.speaks(sweetBoil) && !s.speaks(swirls) {
			continue
		}
		// What is made: by the step's part, or by the title where it has none.
		made := spaced(s.Part)
		if s.Part == "" {
			made = d.title
		}
		// A step that a list of ingredients was read into is about none of them.
		sweet := len(s.Uses) <= syrupParts && (s.names("sugar") || caramelWords.in(s.own) || jamWords.in(s.own) || sugarWords.in(s.own) ||
			slices.ContainsFunc(sugars, func(f food) bool { return s.uses(f.ID) || f.Part != "" && f.Part == s.Part }))
		hot := slices.ContainsFunc(s.degrees(), func(v float64) bool { return v >= 215 && v <= 400 })
		// Water boils at 212 F: what boils hotter is a syrup, whatever it is called.
		switch {
		case hot && (sweet || s.does(bubbles)),
			caramelWords.in(s.text+s.quotes()) && (sugarWords.in(s.own) || s.usesAny(used(sugars))),
			caramelWords.in(made) && (sugarWords.in(s.own) || s.usesAny(used(sugars)) && len(s.Uses) <= syrupParts) && s.does(sugarBoil),
			jamWords.in(s.own+made) && s.does(jamBoil),
			jamSet.in(s.own) && s.does(sweetBoil),
			s.names("sugar") && s.speaks(sugarBoil) && dryPan.in(s.text),
			s.speaks(swirls) && sugarColour.in(s.own) && !s.names("garlic", "herb", "oil", "whole meat", "poultry", "ground meat"),
			s.names("sugar") && s.speaks(sugarBoil) && caramelColour.in(s.own):
			return finding{said: firstSaid(s.Said)}, true
		}
	}
	return finding{}, false
}

func glucomannan(d *dish) (finding, bool) { return seen(d.of("glucomannan")...) }

var (
	panWords  = words("pan|saucepan|skillet|pot|wok|stove|hob|burner|flame|heat|flambe|deglaze|light it|ignite|match")
	hotPan    = words("hot pan|hot skillet|hot frying pan")
	bakingPan = words("batter|dough|cake|loaf|tin|baking|mould|mold|springform")
	addsVerb  = words("add|pour|deglaze|stir|splash|flambe|flame|tip|put|light|ignite|swirl|spoon")
	// Chocolate or butter that was only melted or warmed is no hot pan.
	stillHot   = words("fry|saute|sear|simmer|boil|cook|brown|heat|reduce|flambe|flame|deglaze|sizzle|caramelise|caramelize")
	stoveVerbs = words("fry|saute|sear|simmer|boil|cook|brown|heat|warm|melt|reduce|flambe|flame|deglaze|take off|sizzle|bring")
)

// spiritsNearFlame applies where a spirit goes into something on the stove: the
// step that adds it, or one of the two before it, is on the heat in the same way
// of making the dish.
func spiritsNearFlame(d *dish) (finding, bool) {
	spirits := d.of("spirit")
	if len(spirits) == 0 {
		return finding{}, false
	}
	ids := used(spirits)
	for _, way := range d.ways() {
		var before []stage
		for _, s := range d.stages {
			if !inWay(s.Ways, way) {
				continue
			}
			if (s.names("spirit") || s.usesAny(ids)) && (s.does(addsVerb) || hotPan.in(s.quotes())) {
				hot := hotPan.in(s.quotes()) || s.does(stoveVerbs) || panWords.in(s.own) && !bakingPan.in(s.own)
				for _, b := range before[max(0, len(before)-2):] {
					hot = hot || together(b.Part, s.Part) && b.does(stillHot) && !b.does(inOven) && !ovenOnly.in(b.own)
				}
				if hot {
					return finding{said: firstSaid(s.Said)}, true
				}
			}
			before = append(before, s)
		}
	}
	return finding{}, false
}

var rawFishWords = words("sashimi|ceviche|gravlax|gravadlax|gravad lax|poke|tartare|crudo|tiradito|carpaccio|sushi|cure|cured|kinilaw|lomi lomi")

var rawGrade = words("sashimi-grade|sushi-grade")

// eatenRaw tells whether a fish is eaten raw or only cured: where the dish or a
// step is one of raw fish, unless heat goes on the fish itself; elsewhere only
// where nothing is heated at all.
func (d *dish) eatenRaw(f food) bool {
	raw := d.raisedKind("raw fish") || rawFishWords.in(d.title) || rawGrade.in(f.text) || rawGrade.in(f.quotes()) || slices.ContainsFunc(d.stages, func(s stage) bool {
		return s.does(rawFishWords) && (s.names("fish") || s.uses(f.ID) || len(s.Uses) == 0)
	})
	if !raw {
		return len(d.stages) > 0 && !d.heated()
	}
	from, _ := d.first(f, "", "fish")
	for _, s := range d.stages[from:] {
		if s.cooks() && !s.names("rice") && together(f.Part, s.Part) && (s.names("fish") || s.uses(f.ID)) {
			return false
		}
	}
	return true
}

// raisedKind tells whether the talk itself gave a caution of a kind.
func (d *dish) raisedKind(kind string) bool {
	found, ok := d.raised[kind]
	if !ok {
		found = d.findRaised(kind)
		if d.raised == nil {
			d.raised = map[string]bool{}
		}
		d.raised[kind] = found
	}
	return found
}

func (d *dish) findRaised(kind string) bool {
	return slices.ContainsFunc(d.doc.Cautions, func(c schema.Caution) bool { return c.Kind == kind && len(raised(d.doc, c)) > 0 })
}

func rawFish(d *dish) (finding, bool) {
	var foods []food
	for _, f := range d.of("fish") {
		if !f.is("preserved fish") && !canned(f) && d.eatenRaw(f) {
			foods = append(foods, f)
		}
	}
	if len(foods) == 0 && rawFishWords.in(d.title) {
		// "Gravlax. A side of salmon": the fish is named by what it becomes.
		for _, f := range d.of("preserved fish") {
			if said := d.table.classesIn(fold(f.quotes())); said["fish"] && rawFishWords.in(spaced(f.Name)) {
				foods = append(foods, f)
			}
		}
	}
	if len(foods) == 0 && len(d.of("fish", "preserved fish")) == 0 && d.toldOf["fish"] && !d.toldOf["preserved fish"] && len(d.stages) > 0 && !d.heated() {
		return d.toldAt("fish"), true
	}
	return seen(foods...)
}

var pressureWords = words("pressure cooker|pressure cook|pressure-cook|high pressure|low pressure|full pressure|up to pressure|come to pressure|under pressure|pressure release|release the pressure|pressure drop|pressure come down|natural release|quick release|multicooker|instant pot|instantpot|pressure pot|" +
	"one whistle|two whistles|three whistles|four whistles|five whistles|six whistles|seven whistles|eight whistles|ten whistles|few whistles|couple of whistles")

var whistleWords = words("whistle|pressure fall|pressure drop|pressure has gone")

var noPressure = words("need a pressure cooker|need of a pressure cooker|need no pressure cooker|need the pressure cooker|own a pressure cooker|bother with a pressure cooker|never mind a pressure cooker|instead of a pressure cooker|instead of the pressure cooker|no pressure cooker|without a pressure cooker|without the pressure cooker|not a pressure cooker|don't have a pressure cooker|haven't got a pressure cooker")

// pressureCooker applies where a step is done in one: talk may name one that
// stays in the cupboard.
func pressureCooker(d *dish) (finding, bool) {
	for _, s := range d.stages {
		if pressureWords.in(s.text) && !noPressure.in(s.own) && !noPressure.in(s.quotes()) {
			return finding{said: firstSaid(s.Said)}, true
		}
	}
	return finding{}, false
}

var (
	rawKept    = words("raw|uncooked|marinated|marinating|unbaked")
	perishable = []string{"poultry", "ground meat", "whole meat", "meat", "fish", "shellfish", "rice", "soft dairy"}
	keepsDry   = words("dry|dried|cured|uncooked rice")
	riceWord   = words("rice")
	bakedDry   = words("cracker|biscuit|cookie|crispbread|shortbread|rusk|scone|bread")
	outOfCold  = words("counter|worktop|room temperature|out of the fridge|out of the refrigerator|kitchen side|benchtop|on the side")
)

// keptTooLong applies where the recipe keeps something longer in the
// refrigerator than the published chart, or something that spoils for more than
// two hours out of it (USDA FSIS, Danger Zone).
func keptTooLong(d *dish) (finding, bool) {
	var f finding
	found := false
	told := map[string]bool{}
	add := func(said []schema.Said, text string) {
		found = true
		f.said = append(f.said, firstSaid(said)...)
		if !told[text] {
			told[text] = true
			f.adds = append(f.adds, text)
		}
	}
	for _, s := range d.kept {
		long, ok := days(s.Keeps)
		if !ok || d.unclear(s) {
			continue
		}
		s.What = kept(s)
		what := s.What
		if what == "" {
			what = "this"
		}
		switch s.Place {
		case schema.Refrigerator:
			if row, ok := d.charted(s); ok && long > row.days {
				add(s.Said, fmt.Sprintf("Said here: %s, %s in the refrigerator; the published chart gives %s.", what, s.Keeps.String(), row.figure))
			}
		case schema.RoomTemperature:
			if long*24 > 2 && long < shelfDays && d.spoils(s) {
				add(s.Said, fmt.Sprintf("Said here: %s, %s at room temperature; the published limit is 2 hours.", what, s.Keeps.String()))
			}
		}
	}
	for _, s := range d.stages {
		if outOfCold.in(s.own) && s.hours() > 2 && s.names("poultry", "ground meat", "whole meat", "fish", "shellfish") && !s.cooks() {
			add(s.Said, "Said here: more than 2 hours at room temperature; the published limit is 2 hours.")
		}
	}
	return f, found
}

// charts is a row of the chart, if there is one.
type charts struct {
	row chartRow
	ok  bool
}

// charted returns the row of the chart for what is kept in the refrigerator.
func (d *dish) charted(s schema.Storage) (chartRow, bool) {
	found, known := d.rows[s.What]
	if !known {
		found.row, found.ok = d.findRow(s.What)
		if d.rows == nil {
			d.rows = map[string]charts{}
		}
		d.rows[s.What] = found
	}
	return found.row, found.ok
}

func (d *dish) findRow(name string) (chartRow, bool) {
	what := spaced(name)
	classes := d.table.classesIn(fold(name))
	raw := rawKept.in(what)
	whole := strings.TrimSpace(name) == "" || leftovers.in(what)
	said := func(words wordSet) bool { return words.in(what) }
	if whole && len(d.foods) == 0 {
		said = func(words wordSet) bool { return words.in(what) || words.in(d.told) }
		for c := range d.toldOf {
			classes[c] = true
		}
	}
	if whole {
		for _, f := range d.foods {
			if !canned(f) {
				for c := range f.classes {
					classes[c] = true
				}
			}
		}
	}
	for _, row := range d.table.chart {
		for _, w := range row.what {
			w, rawRow := strings.CutPrefix(w, "raw:")
			if rawRow != raw && rawRow {
				continue
			}
			if class, ok := strings.CutPrefix(w, "class:"); ok {
				if classes[class] {
					return row, true
				}
				continue
			}
			if said(words(w)) {
				return row, true
			}
		}
	}
	return chartRow{}, false
}

// namesFood tells whether a name ends in the word an ingredient is named by.
func (d *dish) namesFood(name string) bool {
	ws := d.fold(name)
	return len(ws) > 0 && slices.ContainsFunc(d.foods, func(f food) bool {
		own := d.fold(f.Name)
		return len(own) > 0 && own[len(own)-1] == ws[len(ws)-1]
	})
}

// spoils tells whether what is kept at room temperature holds something that
// does not keep there. Jars sealed for the shelf are another caution's.
func (d *dish) spoils(s schema.Storage) bool {
	kept := spaced(s.What, s.How)
	if sealedWords.in(kept) || keepsDry.in(kept) {
		return false
	}
	classes := d.table.classesIn(d.fold(s.What))
	if d.namesFood(s.What) && !slices.ContainsFunc(perishable, func(c string) bool { return classes[c] }) {
		return false // "the fried shallots", of a part that goes on meat
	}
	if slices.ContainsFunc(perishable, func(c string) bool { return classes[c] }) {
		return true
	}
	what := spaced(s.What)
	if strings.TrimSpace(s.What) != "" && !leftovers.in(what) && !d.shares(d.doc.Title, s.What) &&
		!slices.ContainsFunc(d.parts, func(p schema.Part) bool { return d.shares(p.Name, s.What) }) {
		return false // something else that the dish is served with
	}
	for _, f := range d.of(perishable...) {
		for _, c := range perishable {
			if f.is(c) && d.keeps(s, f, c) && (c != "rice" || riceWord.in(d.title+kept)) && (c != "soft dairy" || !bakedDry.in(kept)) {
				return true
			}
		}
	}
	return false
}

var (
	thawVerb = words("thaw|defrost|thawed|defrosted|thaw out")
	thawMeat = []string{"poultry", "ground meat", "whole meat", "meat", "fish", "shellfish", "preserved fish"}
)

// thawing applies where frozen meat, poultry, fish or shellfish is thawed. Pastry,
// bread, peas and fruit are not meant.
func thawing(d *dish) (finding, bool) {
	meats := d.of(thawMeat...)
	for _, f := range meats {
		if thawVerb.in(f.text) {
			return seen(f)
		}
	}
	thawed := used(meats)
	for _, s := range d.stages {
		if thawVerb.in(s.own) && (s.names(thawMeat...) || s.usesAny(thawed)) {
			return finding{said: firstSaid(s.Said)}, true
		}
	}
	return finding{}, false
}
