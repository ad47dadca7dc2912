package extract

import (
	"strings"

	"quern/internal/language"
	"quern/schema"
)

// batchWords speak of more or less than the recipe.
var batchWords = listed("double", "doubled", "doubling", "triple", "halve it", "half the recipe", "half a batch")

// How much a dish makes is often told by no verb of making: with the knife ("cut it in
// squares, five by four"), with the hands ("shape it into six cakes"), by who sits at the
// table ("we're six tonight"), or as a bare count of what lies there ("two dozen, and a broken
// one"). Such words are asked only where nothing surer was said.

// portions gives the surest such statement; of two alike the last, for the cutting
// comes at the end.
func (t *talk) portions() *yieldSaid {
	var best *yieldSaid
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing || s.kind == figures || s.other || s.past && t.mostlyPast(s) && !t.thisBatch(s, s.First) ||
			t.hasAny(s.First, s.Last, batchWords) >= 0 {
			continue
		}
		for _, y := range []*yieldSaid{t.atTheTable(s), t.lyingThere(s), t.reckoned(s), t.shapedInto(s), t.toldInBrief(s)} {
			if y != nil && y.CheckYield() == nil && (best == nil || y.score >= best.score) {
				best = y
			}
		}
	}
	return best
}

// atTheTable reads for how many people the cook says the meal is: "we're six tonight",
// "a family of four's worth", "one each, so six people".
func (t *talk) atTheTable(s *sentence) *yieldSaid {
	for i := s.First; i+1 < s.Last; i++ {
		k := -1
		switch w := t.norm(i); {
		case (w == "we're" || w == "we" && t.norm(i+1) == "are") && !t.toks[i].After.Ends():
			k = i + 1
			if w == "we" {
				k++
			}
		case w == "family" && t.norm(i+1) == "of":
			k = i + 2
		case w == "so" && t.has(s.First, i, "each", "apiece") >= 0:
			k = i + 1
		case w == "the" && i > s.First && t.has(s.First, i, "you'd", "you would", "i'd", "if it's") < 0 && (t.norm(i-1) == "for" || t.norm(i-1) == "be" || t.norm(i-1) == "always"):
			k = i + 1
		}
		if k < 0 || k >= s.Last {
			continue
		}
		num, n := language.ReadNumber(t.toks, k)
		if n == 0 {
			w := strings.TrimSuffix(t.norm(k), "'s")
			if num.Min = ofFamily[w]; num.Min == 0 || t.norm(i) != "family" {
				continue
			}
			num.Max, n = num.Min, 1
		}
		if num.Article || num.Fraction || num.Min < 2 || num.Max > 40 || t.measuredAt(k) {
			continue
		}
		ends := k+n >= s.Last || t.toks[k+n-1].After != 0
		of := t.is(k+n, "of", "us")
		switch t.norm(i) {
		case "we're", "we":
			switch t.norm(k + n) {
			case "tonight", "today", "at", "for", "in", "people", "this":
			default:
				if !ends && !of {
					continue
				}
			}
		case "so":
			if !ends && !of && !peopleWord[t.norm(k+n)] {
				continue
			}
		case "the":
			if !of {
				continue
			}
		}
		return t.portion(k, n, num, "people", 3)
	}
	return nil
}

// reckoned reads the end of a sum: "one fillet a person, so that's four", "I counted as I went
// along and it's forty-five".
func (t *talk) reckoned(s *sentence) *yieldSaid {
	if t.has(s.First, s.Last, "each", "apiece", "a person", "per person", "a head", "count", "counted", "should be", "used them all", "all of them") < 0 {
		return nil
	}
	for i := s.First + 2; i < s.Last; i++ {
		if w := t.norm(i - 1); w != "that's" && w != "it's" && w != "so" && w != "makes" {
			continue
		}
		num, n := language.ReadNumber(t.toks, i)
		if end := i + n; n > 0 && !num.Article && !num.Fraction && num.Min >= 2 && num.Max <= 200 && !t.measuredAt(i) && (end >= s.Last || t.norm(end) == "fed" || t.toks[end-1].After.Ends()) {
			return t.portion(i, n, num, "servings", 2)
		}
	}
	return nil
}

// ofFamily are numbers with a genitive, as in "a family of four's worth".
var ofFamily = map[string]float64{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8}

// measuredAt reports whether the number at i belongs to a time, a weight or a length.
func (t *talk) measuredAt(i int) bool {
	q := t.quantityAt[i]
	if q < 0 {
		return false
	}
	switch t.quantities[q].kind {
	case duration, heat, length, money:
		return true
	case measure:
		return t.quantities[q].ukind == "volume" || t.quantities[q].ukind == "mass" || t.quantities[q].ukind == "small"
	}
	return false
}

// portion makes the statement of the number at i.
func (t *talk) portion(i, n int, num language.Number, unit string, score int) *yieldSaid {
	return &yieldSaid{Span: language.Span{First: i, Last: min(len(t.toks), i+n+max(1, len(strings.Fields(unit))))}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: unit}, score: score, number: i}
}

// thisBatch reports whether the words at i, told in the past, tell of what was just made: the
// cook's own, late in the talk, and of no other time.
func (t *talk) thisBatch(s *sentence, i int) bool {
	return i > len(t.toks)*3/5 && t.has(s.First, s.Last, "i", "we", "it came", "that made", "it made", "came to") >= 0 &&
		t.has(s.First, s.Last, "once", "years", "ago", "last", "when", "used to", "time", "always", "never", "every") < 0
}

// lyingThere reads a count of what was made where a sentence begins; in talk without marks
// wherever words go on that follow nothing but a count.
func (t *talk) lyingThere(s *sentence) *yieldSaid {
	if s.First < len(t.toks)/3 && t.punctuated && !t.startsNumber(s.First) {
		return nil
	}
	if y := t.bareCount(s, s.First); y != nil || t.punctuated {
		return y
	}
	for i := max(s.First+1, len(t.toks)/3); i < s.Last; i++ {
		_, n := language.ReadNumber(t.toks, i)
		if n == 0 || beforeThing[t.norm(i-1)] || articleLike[t.norm(i-1)] {
			continue
		}
		past := i + n
		if unit := t.yieldNoun(past); unit != "" && !t.countsFood(past, unit) {
			past += len(strings.Fields(unit))
		}
		if countTail[t.norm(past)] || t.is(past, "in", "that") || t.is(past, "with", "the", "scraps") {
			if y := t.bareCount(s, i); y != nil {
				return y
			}
		}
		i += n - 1
	}
	return nil
}

// beforeThing are words before a number that counts what is used, not what is made; countTail
// go on after a count of what was made.
var (
	beforeThing = words("add with in into of for the and or to by on at about another put take use cook bake fry simmer boil")
	countTail   = words("easily easy or if that's and comfortably altogether depending no")
)

// countLeads open a count of what lies there: "there. That's about fourteen".
var countLeads = words("that's there's there it's about count total so and easily roughly i make it maybe say around nearly all well right now you have got we just oh okay as a main starter starters side lunch dinner supper it'll be")

// bareCount reads a sentence that only counts what was made: "Fourteen, with the scraps.",
// "three dozen, and they'll be gone in ten minutes", "eight decent slices".
func (t *talk) bareCount(s *sentence, first int) *yieldSaid {
	i := first
	for i < s.Last && i < first+7 && countLeads[t.norm(i)] {
		if _, n := language.ReadNumber(t.toks, i); n > 1 { // "a dozen"
			break
		}
		i++
	}
	num, n := language.ReadNumber(t.toks, i)
	if n == 1 && num.Min == 1 && i > first && !num.Article && s.Len() <= 8 {
		if unit := t.yieldNoun(i + n); oneThing[lastWord(unit)] {
			return t.portion(i, n, num, unit, 2) // "so that's one cake"
		}
	}
	if n == 0 || i >= s.Last || num.Article && n == 1 || num.Fraction || num.Min < 2 || num.Max > 200 || t.measuredAt(i) {
		return nil
	}
	end := i + n
	unit := t.yieldNoun(end)
	last := lastWord(unit)
	past := end + len(strings.Fields(unit))
	switch {
	case unit != "":
		if notYield[last] || t.countsFood(end, unit) || last == "kids" || t.norm(past) == "to" || t.norm(past) == "of" && t.norm(past+1) != "it" && t.norm(past+1) != "them" || !peopleWord[last] && !t.dishCounted(last) {
			return nil
		}
		if vesselWord[last] && last != "slices" && last != "squares" && last != "pieces" && last != "skewers" && !t.verbless(s) {
			return nil
		}
		if t.instructed(first, i) || past < s.Last && t.toks[past-1].After == 0 && (t.norm(past) == "in" || t.norm(past) == "at" || t.norm(past) == "into" || t.norm(past) == "on") && !t.is(past, "in", "that") && !t.is(past, "in", "all") && !t.is(past, "in", "total") {
			return nil
		}
		return t.portion(i, n, num, unit, 2)
	case t.has(i, end, "dozen") >= 0 && (end >= s.Last || t.toks[end-1].After != 0 || t.norm(end) == "and" || t.norm(end) == "or" || t.is(end, "of", "them")):
		return t.portion(i, n, num, "pieces", 3)
	case num.Min >= 4 && t.toldByTail(i, n):
		return t.portion(i, n, num, "pieces", 3)
	case t.punctuated && num.Min >= 6 && t.is(end, "or", "so") && t.titledPlural() && !t.timeBefore(s):
		return t.portion(i, n, num, "pieces", 2)
	case t.is(end, "of", "us"):
		return t.portion(i, n, num, "people", 2)
	case num.Min < 4 && !t.mainOrStarter(s, i):
		return nil
	case end < s.Last && t.toks[end-1].After == 0 && t.norm(end) != "and":
		return nil
	case t.mainOrStarter(s, i):
		return t.portion(i, n, num, "servings", 3)
	case t.has(s.First, i, "count", "total", "make it", "altogether") >= 0 || t.has(end, min(s.Last, end+6), "scraps", "broken one", "trimmings", "gone", "left over", "altogether", "in all") >= 0 || t.countedBefore(s):
		return t.portion(i, n, num, "pieces", 2)
	}
	return nil
}

// titledPlural reports whether the dish is called by many: "Churros", "Oat cookies".
func (t *talk) titledPlural() bool {
	return len(t.dishes) == 1 && plural(strings.ToLower(lastWord(t.dishes[0].title)))
}

// timeBefore reports whether the sentence before speaks of time or heat.
func (t *talk) timeBefore(s *sentence) bool {
	k := int(t.sentOf[s.First])
	return k > 0 && (t.timedIn(t.sents[k-1].First, t.sents[k-1].Last) || t.has(t.sents[k-1].First, t.sents[k-1].Last, "long", "hot", "degrees", "oven") >= 0)
}

// countedBefore reports whether the sentence before speaks of counting.
func (t *talk) countedBefore(s *sentence) bool {
	k := int(t.sentOf[s.First])
	return k > 0 && t.has(t.sents[k-1].First, t.sents[k-1].Last, "count", "counted", "how many") >= 0
}

// mainOrStarter reports whether the words before the number at i tell as which course it is eaten.
func (t *talk) mainOrStarter(s *sentence, i int) bool {
	return t.has(s.First, i, "as a main", "as a starter", "as a side", "for lunch", "for dinner", "for supper") >= 0
}

// instructed reports whether tokens [a, b) hold an order.
func (t *talk) instructed(a, b int) bool {
	for i := a; i < b; i++ {
		if t.actionAt[i] >= 0 {
			return true
		}
	}
	return false
}

// shapeWords shape a mixture into what is made, cutWords part what is done, fillWords share it
// out over vessels.
var (
	shapeWords = words("divide portion split weigh scale shape form roll mould mold ball make pat press dollop drop scoop pipe thread wind")
	cutWords   = words("cut slice square")
	fillWords  = words("pour ladle spoon divide share fill dish put thread wind press mould mold pack")
)

// fillVessel are what one helping, or what is kept, is filled into.
var fillVessel = words("glasses bowls ramekins cups moulds molds cases plates jars bottles skewers sticks buns cones mugs pots dishes tubs")

// shapedInto reads into how many the dish is shaped, shared out or cut.
func (t *talk) shapedInto(s *sentence) *yieldSaid {
	for i := s.First; i < s.Last; i++ {
		w := t.norm(i)
		shape, cut, fill := shapeWords[w], cutWords[w], fillWords[w]
		if w == "it" || w == "them" { // "I did it in glasses, six of them"
			if y := t.vesselsOfThem(s, i); y != nil {
				return y
			}
		}
		if !shape && !cut && !fill || i > s.First && (t.norm(i-1) == "a" || t.norm(i-1) == "the" || t.norm(i-1) == "don't" || t.norm(i-1) == "not") {
			continue
		}
		for k := i + 1; k < min(s.Last, i+9); k++ {
			if t.toks[k-1].After.Ends() || k > i+1 && len(t.verbs(k)) > 0 && t.isImperative(k) {
				break
			}
			num, n := language.ReadNumber(t.toks, k)
			if n == 0 {
				continue
			}
			if num.Article && n == 1 {
				continue
			}
			if num.Fraction || num.Min < 2 || num.Max > 200 || t.measuredAt(k) {
				break
			}
			if y := t.shared(s, i, k, n, num, shape, cut, fill); y != nil {
				return y
			}
			break
		}
	}
	return nil
}

// shared judges the number at k that stands after the verb at i.
func (t *talk) shared(s *sentence, i, k, n int, num language.Number, shape, cut, fill bool) *yieldSaid {
	lead := t.norm(k - 1)
	if articleLike[lead] || lead == "about" || lead == "say" {
		lead = t.norm(k - 2)
	}
	into := lead == "in" || lead == "into" || lead == "between" || lead == "among" || lead == "over" || lead == "on" || lead == "onto" || lead == "to"
	unit := t.yieldNoun(k + n)
	last := lastWord(unit)
	end := k + n
	bare := unit == "" && (end >= s.Last || t.toks[end-1].After != 0 || t.norm(end) == "and" || t.norm(end) == "then" || !t.punctuated && t.isImperative(end))
	if t.sizedAt(end) || notYield[last] || last == "wrappers" || unit != "" && t.countsFood(end, unit) {
		return nil
	}
	raw := t.rawObject(s, i, k)
	pieces := last == "pieces" || last == "bits" || last == "chunks" || last == "strips"
	switch {
	case fill && fillVessel[last] && (into || k == i+1 || t.norm(k-1) == "a" && k == i+2) && !raw:
		return t.portion(k, n, num, unit, 2)
	case lead == "on" && last == "skewers", fill && fillVessel[last] && t.norm(i+1) != last && t.has(i, k-1, last) >= 0 || fill && fillVessel[last] && t.norm(k-1) == last:
		return t.portion(k, n, num, unit, 2)
	case shape && (into || k == i+1) && !raw && !pieces && (t.dishCounted(last) || peopleWord[last] && !vesselWord[last] || last == "balls" && num.Min >= 4):
		return t.portion(k, n, num, unit, 2)
	case shape && (lead == "them" || lead == "it") && k <= i+2 && t.toks[k-1].After != 0 && !raw && num.Min >= 4 && (bare || t.norm(end) == "on" || t.norm(end) == "to"):
		return t.portion(k, n, num, "pieces", 2)
	case shape && into && !raw && (bare || pieces) && num.Min >= 4 && (t.norm(i) != "drop" && t.norm(i) != "make" && t.norm(i) != "press"):
		if unit == "" {
			unit = "pieces"
		}
		return t.portion(k, n, num, unit, 2)
	case cut && into && !raw && num.Min >= 4 && (bare || pieces || last == "squares" || last == "bars" || last == "slices" || last == "wedges" || t.dishCounted(last)) && t.wholeCut(s, i):
		if unit == "" {
			unit = "pieces"
		}
		return t.portion(k, n, num, unit, 2)
	}
	return nil
}

// sizedAt reports whether the words at i make the number before them a size: "eight inch rounds".
func (t *talk) sizedAt(i int) bool {
	switch t.norm(i) {
	case "inch", "inches", "centimetre", "centimetres", "centimeter", "cm", "by", "degrees", "minutes", "times", "more", "layers", "batches":
		return true
	}
	return false
}

// rawObject reports whether what the verb at i works on is a food that only goes in: "cut
// the pumpkin in eight". What "it" stands for is looked for in the words right before.
func (t *talk) rawObject(s *sentence, i, k int) bool {
	food := func(a, b int) bool {
		for x := a; x < b; x++ {
			if m := t.mentionAt[x]; m >= 0 && !t.mentions[m].food.Dish && !t.mentions[m].food.Made && t.madeAt[x] == 0 && !t.dishCounted(t.norm(x)) {
				return true
			}
		}
		return false
	}
	if food(i+1, k) {
		return true
	}
	if w := t.norm(i + 1); w != "it" && w != "them" && w != "each" {
		return false
	}
	// "peel the swede and cut it in eight"
	for x := i - 1; x >= max(s.First, i-6); x-- {
		if len(t.verbs(x)) > 0 {
			switch t.verbs(x)[0].Action.Verb {
			case "peel", "wash", "trim", "core", "halve", "stone", "scrub", "rinse", "take", "deseed", "seed", "drain":
				return food(x+1, i)
			}
		}
	}
	return false
}

// wholeCut reports whether what is cut at i is the dish: near the end of the talk, or after it
// was rolled up, turned out, cooled or set.
func (t *talk) wholeCut(s *sentence, i int) bool {
	if i > len(t.toks)*3/5 {
		return true
	}
	for x := max(0, i-14); x < i; x++ {
		switch t.norm(x) {
		case "roll", "cool", "cold", "chill", "chilled", "set", "dough", "rest", "mix", "log", "knead":
			return true
		}
	}
	return false
}

// vesselsOfThem reads "in glasses, six of them".
func (t *talk) vesselsOfThem(s *sentence, i int) *yieldSaid {
	if t.norm(i+1) != "in" && t.norm(i+1) != "into" || i+3 >= s.Last {
		return nil
	}
	k := i + 2
	if articleLike[t.norm(k)] {
		k++
	}
	if !fillVessel[t.norm(k)] {
		return nil
	}
	num, n := language.ReadNumber(t.toks, k+1)
	if n == 0 || num.Article || num.Fraction || num.Min < 2 || !t.is(k+1+n, "of", "them") {
		return nil
	}
	return t.portion(k+1, n, num, t.norm(k), 2)
}
