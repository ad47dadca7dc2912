package extract

import (
	"math"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// temperature reads "degrees", a scale, or a bare dial number beside an oven.
func (t *talk) temperature(start, numAt, j int, num language.Number) (quantity, int) {
	q := quantity{kind: heat, min: num.Min, max: num.Max, numAt: numAt}
	k := j
	if num.Fraction {
		return q, 0
	}
	degrees := false
	if w := t.norm(k); w == "degrees" || w == "degree" || w == "deg" || w == "°" {
		degrees = true
		k++
	}
	switch t.norm(k) {
	case "f", "fahrenheit", "farenheit":
		q.unit, q.scale = "F", true
		k++
	case "c", "celsius", "centigrade", "celcius":
		q.unit, q.scale = "C", true
		k++
	case "fan":
		if t.norm(k+1) == "oven" || degrees {
			k++
		}
	case "degrees":
	}
	if q.scale && !degrees && num.Max < 15 && t.toks[j-1].After != 0 {
		return q, 0 // "a fan-forced one, Celsius"
	}
	if !q.scale && !degrees && strings.ContainsRune(t.quoteWord(numAt), '°') {
		degrees = true
	}
	if !q.scale && !degrees {
		if !t.dialNumber(numAt, j, num) {
			return q, 0
		}
	}
	if degrees && !q.scale && num.Max < 15 && t.has(max(0, start-10), min(len(t.toks), k+4), "fridge", "freezer", "refrigerator", "minus", "below") < 0 {
		return quantity{kind: money, min: num.Min, max: num.Max, numAt: numAt}, k - start // "two degrees and a daughter"
	}
	if degrees && num.Max <= 120 && (t.norm(start-1) == "every" || t.outOfDoors(start, k)) {
		return quantity{kind: money, min: num.Min, max: num.Max, numAt: numAt}, k - start
	}
	if t.norm(k) == "or" && t.norm(k+1) == "so" {
		q.about = true
		k += 2
	}
	return q, k - start
}

// outOfDoors reports whether the degrees in tokens [a, b) are of the weather, a room or a
// turn.
func (t *talk) outOfDoors(a, b int) bool {
	lo, hi := max(t.sentence(a).First, a-8), min(t.sentence(a).Last, b+4)
	return t.has(lo, hi, "angle", "turn", "kitchen", "outside", "today", "weather", "morning", "summer", "winter", "sunshine", "shade", "in the sun", "humid", "heatwave", "minus",
		"house", "flat", "apartment", "garage", "porch", "shed", "street", "out there", "in here", "january", "february", "june", "july", "august", "december") >= 0 &&
		t.has(lo, hi, "oven", "thermometer", "probe", "dough", "freezer", "water", "milk", "oil") < 0
}

func (t *talk) quoteWord(i int) string { return t.n.Words[t.toks[i].Word].Text }

// ovenNear reports whether the words about token i speak of an oven, a
// thermometer or something else that shows degrees.
func (t *talk) ovenNear(i int) bool {
	// the thermometer may have been named a sentence ago
	lo, hi := max(0, i-22), min(t.sentence(i).Last, i+20)
	return t.has(lo, hi, "oven", "preheat", "preheated", "thermometer", "probe", "temperature", "temp", "degrees", "stove", "fan", "convection", "broiler", "grill", "smoker", "fryer", "internal", "instant read", "pull it at", "lid", "reads", "middle") >= 0
}

var (
	// beforeDial are the words a dial's number follows beside an oven.
	beforeDial = groupOf(words("at to about around oven is on want for hits reads says say between mine and or under over above below reach reaches until till it's that's a the it you not down up number be read them"))
	// afterDial are the words that can follow a number of degrees: those of a noun can't.
	afterDial = groupOf(words("for and or then until till in on if with so when the now conventional convection gas fan inside no not as because but mind maybe is it its it's i i'm i've you you're you'll we we're they that that's this those which while once after before from whatever where whereas at about just and a an my your all okay right well however otherwise unless by to internal internally total again max maximum minimum there here he she they're we'll they'll he's she's"))
	// heatedThings show or take degrees: a number right behind their name is those.
	heatedThings = groupOf(words("oven ovens oven's fan conventional convection smoker fryer grill barbecue oil oil's fat fat's thermometer probe temp temperature thermostat"))
	// bakesVerb are the verbs of what is done in the heat of an oven or a pan.
	bakesVerb = map[string]bool{"bake": true, "roast": true, "cook": true, "broil": true, "grill": true, "smoke": true, "fry": true, "deep-fry": true, "toast": true, "braise": true, "finish": true, "heat": true, "preheat": true, "crisp": true, "reheat": true, "blast": true, "air-fry": true, "pull": true, "sear": true}
	// warmsVerb bring something to a number of degrees.
	warmsVerb = map[string]bool{"heat": true, "warm": true, "bring": true, "get": true, "cook": true, "boil": true, "take": true, "cool": true, "let": true, "go": true, "come": true, "climb": true}
	// dialsVerb turn a dial.
	dialsVerb = map[string]bool{"turn": true, "set": true, "drop": true, "lower": true, "raise": true, "crank": true, "knock": true, "reduce": true, "preheat": true, "put": true, "bump": true, "switch": true, "whack": true, "bring": true, "get": true, "heat": true, "take": true, "pop": true, "dial": true, "move": true, "go": true}
)

// noDegrees speak of other numbers than degrees.
var noDegrees = listed("calories", "calorie", "carbs", "protein", "paid", "cost", "costs", "dollars", "o'clock", "page", "episode", "people", "minutes past")

// dialNumber tells degrees from other numbers by what stands around them. It
// reports whether the bare number in tokens [a, j) is a temperature: a figure that
// an oven, hot oil or a thermometer can show, in words that speak of one.
func (t *talk) dialNumber(a, j int, num language.Number) bool {
	if num.Min != math.Trunc(num.Min) || num.Max > 600 || num.Min < 30 {
		return false
	}
	if t.toks[j-1].After == 0 {
		if u, m := t.lex.UnitAt(t.ids, j); m > 0 && u.Kind != "length" {
			return false
		}
		if _, m := t.lex.FoodAt(t.ids, j, t.stops); m > 0 {
			return false
		}
	}
	if t.scaleSoon(j) != "" || t.has(j, min(t.sentence(j-1).Last, j+5), "soft ball", "firm ball", "hard ball", "soft crack", "hard crack") >= 0 {
		return true
	}
	s := t.sentence(a)
	if t.hasAny(s.First, s.Last, noDegrees) >= 0 {
		return false
	}
	dial := num.Min >= 100 && (num.Colloquial || math.Mod(num.Min, 5) == 0)
	if num.Min >= 60 && (num.Colloquial || num.Min >= 100) && dial && (t.in(beforeDial, a-1) || t.clauseStart(a)) && t.ovenNear(a) {
		return true
	}
	if !t.endsDegrees(j) {
		return false
	}
	switch {
	case num.Min >= 45 && t.insideShown(s, a, j):
		return true
	case t.warmedTo(s, a):
		return num.Min >= 60 || num.Min >= 30 && t.has(s.First, s.Last, "thermometer", "probe") >= 0
	case !dial:
		return num.Colloquial && num.Min >= 100 && t.norm(a-1) == "at" && t.ovenNear(a)
	case t.in(heatedThings, a-1), t.fanBehind(j), t.heatedAt(s, a):
		return true
	case t.norm(a-1) == "of" && (t.norm(a-2) == "temp" || t.norm(a-2) == "temperature"):
		return true
	case t.norm(a-1) == "at" && (t.norm(a-2) == "off" || t.norm(a-2) == "out"):
		return true
	case t.norm(a-1) == "at", t.norm(a-1) == "on" && t.toks[a-1].After == 0:
		return t.bakedIn(s) && (num.Min > 130 || t.norm(a-1) == "at")
	case t.dialedTo(s, a):
		return true
	case t.degreesBefore(s, a):
		return true
	case t.clauseStart(a) && !t.measuredBefore(s, a):
		// "stick it in, a hundred and eighty, half an hour"; "oven on. One-eighty."
		return t.bakedIn(s) && t.ends(j) || t.sentOf[a] > 0 && a-s.First < 3 && t.ends(j) && t.ovenIn(&t.sents[t.sentOf[a]-1])
	}
	return false
}

// heatedAt reports whether the number at token a tells how hot something named just
// before is: "the fat's at three seventy-five", "your oil about one seventy-five".
func (t *talk) heatedAt(s *sentence, a int) bool {
	switch t.norm(a - 1) {
	case "at", "about", "around", "to", "is", "on":
	default:
		return false
	}
	for k := a - 2; k >= max(s.First, a-5); k-- {
		if t.in(heatedThings, k) {
			return true
		}
	}
	return false
}

// measuredBefore reports whether an amount in a measure was said in the sentence before
// token a: a bare number after it may go on with that measure.
func (t *talk) measuredBefore(s *sentence, a int) bool {
	for k := s.First; k < a; k++ {
		if x := t.quantityAt[k]; x >= 0 && t.quantities[x].kind == measure {
			return true
		}
	}
	return t.has(s.First, a, "weight", "weigh", "weighs", "grams", "amount") >= 0
}

// ends reports whether a mark, the end of the sentence or "for" with a time stands
// at token j.
func (t *talk) ends(j int) bool {
	return j >= len(t.toks) || t.toks[j-1].After != 0 || t.sentOf[j] != t.sentOf[j-1] || t.norm(j) == "for"
}

// endsDegrees reports whether a number that ends before token j counts nothing:
// no noun follows it.
func (t *talk) endsDegrees(j int) bool {
	if j >= len(t.toks) || t.toks[j-1].After != 0 || t.sentOf[j] != t.sentOf[j-1] || t.in(afterDial, j) || !t.toks[j].Numberless() {
		return true
	}
	for _, v := range t.verbs(j) {
		if v.Form == lexicon.Base && !v.Action.Noun {
			return true
		}
	}
	return false
}

// scaleReach is how many words after a number its scale may be named: "a hundred and
// sixty-five on the thermometer, in Fahrenheit".
const scaleReach = 7

// scaleSoon gives the scale named after the number that ends before token j, ""
// where another number comes first.
func (t *talk) scaleSoon(j int) string {
	end := min(t.sentence(j-1).Last, j+scaleReach)
	for k := j; k < end; k++ {
		switch t.norm(k) {
		case "fahrenheit", "farenheit":
			return "F"
		case "celsius", "centigrade", "celcius":
			return "C"
		}
		if _, n := language.ReadNumber(t.toks, k); n > 0 && !(n == 1 && t.norm(k) == "a") {
			return ""
		}
	}
	return ""
}

// insideShown reports whether the number in tokens [a, j) is what a thermometer shows
// or what the middle of something has to reach.
func (t *talk) insideShown(s *sentence, a, j int) bool {
	if t.has(j, min(s.Last, j+5), "in the middle", "in the centre", "in the center", "in the thickest", "at the thickest", "in the thick", "at the bone", "near the bone", "inside", "internal", "internally", "on the thermometer", "on a thermometer", "on the probe", "on a probe", "in the thigh", "in the breast", "in the meat", "all the way through") >= 0 {
		return t.showsBefore(s, a)
	}
	if t.has(s.First, s.Last, "thermometer", "probe", "instant read", "internal", "inside temperature") >= 0 {
		return t.showsBefore(s, a)
	}
	return (t.norm(a-1) == "read" || t.norm(a-1) == "reads") && t.has(s.First, s.Last, "meter", "gauge", "dial") >= 0
}

// showsBefore reports whether the word before token a leads to what is shown or wanted.
func (t *talk) showsBefore(s *sentence, a int) bool {
	if a == s.First || t.clauseStart(a) {
		return true
	}
	switch t.norm(a - 1) {
	case "is", "be", "it's", "that's", "says", "say", "said", "read", "reads", "reading", "hits", "hit", "for", "to", "at", "want", "wants", "reach", "reaches", "reached", "shows", "show", "about", "around", "over", "under", "above", "least", "need", "needs", "like", "likes", "it", "get", "gets", "until", "till":
		return true
	}
	return false
}

// warmedTo reports whether the number at token a is what something is heated to: "heat
// the oil to a hundred and seventy", "bring the custard to eighty-two".
func (t *talk) warmedTo(s *sentence, a int) bool {
	i := a - 1
	for t.norm(i) == "about" || t.norm(i) == "around" {
		i--
	}
	switch t.norm(i) {
	case "hits", "reaches", "reads":
		return true
	case "to":
		if w := t.norm(i - 1); w == "climb" || w == "rise" || w == "climbs" || w == "rises" {
			return true
		}
	default:
		return false
	}
	for k := i - 1; k >= max(s.First, i-9); k-- {
		for _, v := range t.verbs(k) {
			if warmsVerb[v.Action.Verb] {
				switch v.Action.Verb {
				case "heat", "warm", "boil", "cool":
					return true
				}
				return t.has(k, i, "oil", "oven", "milk", "water", "syrup", "sugar", "custard", "caramel", "fat", "pan", "it", "temperature", "heat", "cream", "lard", "smoker", "grill") >= 0
			}
		}
		if t.toks[k].After&language.Stop != 0 {
			break
		}
	}
	return false
}

// dialedTo reports whether the number at token a is what a dial is turned to: "turn it
// down to one sixty", "crank it up to five hundred".
func (t *talk) dialedTo(s *sentence, a int) bool {
	i := a - 1
	if t.norm(i) == "to" {
		i--
	}
	if w := t.norm(i); w == "up" || w == "down" || w == "back" || w == "over" {
		i--
	} else if i == a-1 {
		return false
	}
	for k := i; k >= max(s.First, i-4); k-- {
		for _, v := range t.verbs(k) {
			if dialsVerb[v.Action.Verb] {
				return t.has(k, a, "it", "oven", "heat", "that", "temperature", "temp", "grill", "fryer", "smoker", "down", "up", "this") >= 0
			}
		}
	}
	return false
}

// fanBehind reports whether the number that ends before token j is of a fan oven or of
// one without: "one-eighty fan", "one-sixty if it's a fan oven".
func (t *talk) fanBehind(j int) bool {
	if t.norm(j) == "fan" || t.norm(j) == "conventional" || t.is(j, "in", "a", "fan") || t.is(j, "with", "the", "fan") || t.is(j, "for", "fan") || t.is(j, "for", "a", "fan") || t.is(j, "on", "fan") {
		return true
	}
	return t.norm(j) == "if" && t.has(j, min(t.sentence(j-1).Last, j+6), "fan", "convection") >= 0
}

// degreesBefore reports whether a temperature stands just before token a in its sentence,
// joined to it: "two hundred, or one-eighty", "between one-sixty and one-seventy".
func (t *talk) degreesBefore(s *sentence, a int) bool {
	for k := a - 1; k >= max(s.First, a-4); k-- {
		if x := t.quantityAt[k]; x >= 0 {
			q := &t.quantities[x]
			return q.kind == heat && q.unit != "gas" && k < a-1 || q.kind == heat && t.toks[k].After != 0
		}
	}
	return false
}

// bakedIn reports whether the sentence tells of something done in the heat.
func (t *talk) bakedIn(s *sentence) bool {
	for k := s.First; k < s.Last; k++ {
		for _, v := range t.verbs(k) {
			if bakesVerb[v.Action.Verb] {
				return true
			}
		}
		if t.in(heatedThings, k) {
			return true
		}
		// "put it in at one sixty", "in it goes", "twenty minutes at two hundred"
		if t.norm(k) == "in" && (k == s.First || (t.norm(k-1) == "it" || t.norm(k-1) == "them" || t.norm(k-1) == "goes" || t.norm(k-1) == "go" || t.norm(k-1) == "that")) {
			return true
		}
		if x := t.quantityAt[k]; x >= 0 && t.quantities[x].kind == duration {
			return true
		}
	}
	return false
}

// ovenIn reports whether the sentence names an oven or the like.
func (t *talk) ovenIn(s *sentence) bool {
	for k := s.First; k < s.Last; k++ {
		if t.in(heatedThings, k) {
			return true
		}
	}
	return false
}

// placeDegrees gives the step before them the temperatures told in a remark that is no
// work: what a thermometer has to show, "I bought a thermometer, so, by the thermometer,
// a hundred and sixty".
func (t *talk) placeDegrees() {
	placed := map[int]bool{}
	for _, st := range t.steps {
		for _, f := range st.figures {
			placed[f.First] = true
		}
	}
	n := 0 // steps begun before the temperature
	for i := range t.quantities {
		q := &t.quantities[i]
		if q.kind != heat || q.void || placed[q.First] {
			continue
		}
		for n < len(t.steps) && t.steps[n].from <= q.First {
			n++
		}
		s := t.sentence(q.First)
		if n == 0 || s.kind == storing || s.kind == figures || !q.scale && t.roleOf(q) != insideHeat || t.outOfDoors(q.First, q.Last) || t.roleOf(q) != insideHeat && t.conditionalAt(q.First) {
			continue
		}
		if t.sentPast(s) && t.has(s.First, s.Last, "should", "must", "want", "wants", "need", "needs", "says", "touch", "reads", "like", "by the thermometer") < 0 {
			continue
		}
		if st := t.steps[n-1]; st.dish == t.dishOf(q.First) {
			t.addFigure(st, q, s)
		}
	}
}

// heatable are the things that are brought to a temperature before anything goes in.
var heatable = groupOf(words("oven ovens oven's smoker fryer grill barbecue oil fan conventional convection"))

// notHeated deny a heat.
var notHeated = listed("not", "don't", "never", "my old", "used to")

// heating gives the action of a sentence that says how hot the oven or the oil has to
// be, with no verb for it: "oven's on at two hundred", "oil at one eighty, no hotter",
// "Oven first. Two hundred, or one-eighty for a fan."
func (t *talk) heating(k int) (action, bool) {
	s := &t.sents[k]
	if s.Len() > fragmentWords || t.norm(s.First) == "if" || t.sentPast(s) || t.toks[s.Last-1].After&language.Question != 0 {
		return action{}, false
	}
	for _, q := range t.temperaturesIn(s) {
		if q.void {
			continue
		}
		if t.roleOf(q) == insideHeat || t.hasAny(s.First, q.First, notHeated) >= 0 || t.heatableBefore(k, q.Last) < 0 {
			return action{}, false
		}
		return t.bareAction(q.First, "heat", imperative), true
	}
	return action{}, false
}

// heatableBefore gives the token that names what is heated, in sentence k up to token
// end or in the one before, which names it and nothing to do; -1 for none.
func (t *talk) heatableBefore(k, end int) int {
	s := &t.sents[k]
	for i := min(s.Last, end+6) - 1; i >= s.First; i-- {
		if t.in(heatable, i) {
			return i
		}
	}
	if k == 0 || t.sents[k-1].para != s.para || len(t.actionsIn(&t.sents[k-1])) > 0 || t.sents[k-1].Len() > 8 {
		return -1
	}
	for i := s.First - 1; i >= t.sents[k-1].First; i-- {
		if t.in(heatable, i) {
			return i
		}
	}
	return -1
}

// heatingText writes it: "heat the oven to 200 C, 180 C fan".
func (t *talk) heatingText(a *action) string {
	s := t.sentence(a.tok)
	thing := "oven"
	if i := t.heatableBefore(int(t.sentOf[a.tok]), a.tok); i >= 0 {
		switch w := strings.TrimSuffix(t.norm(i), "'s"); w {
		case "fan", "conventional", "convection", "ovens":
		case "fryer":
			thing = w
			if t.norm(i-1) == "air" || t.norm(i-1) == "deep" {
				thing = t.norm(i-1) + " " + w
			}
		default:
			thing = w
		}
	}
	var figures []string
	for _, q := range t.temperaturesIn(s) {
		if q.void {
			continue
		}
		v := q.value().String()
		if t.norm(q.First-1) == "fan" && t.toks[q.First-1].After == 0 || t.fanBehind(q.Last) && t.norm(q.Last) != "conventional" {
			v += " with a fan"
		}
		figures = append(figures, v)
	}
	return "heat the " + thing + " to " + strings.Join(figures, ", ")
}

// settleScales gives temperatures said without a scale the one their figure allows for
// what is heated, else the scale of the talk: the one said elsewhere, else the one the
// measures go with.
func (t *talk) settleScales() {
	c, f, own := 0, 0, ""
	for i := range t.quantities {
		q := &t.quantities[i]
		if q.kind != heat {
			continue
		}
		// the scale after a comma or some words: "a hundred and seventy, Celsius that is"
		if !q.scale && q.unit == "" {
			if u := t.scaleSoon(q.Last); u != "" {
				q.unit, q.scale = u, true
			}
		}
		if own == "" && q.scale {
			own = q.unit // of two scales the cook's own comes first
		}
		switch {
		case q.scale && q.unit == "C", q.unit == "gas":
			c++
		case q.scale && q.unit == "F", !q.scale && q.min > 260:
			f++
		}
	}
	british := t.has(0, len(t.toks), "litre", "litres", "mil", "mils", "millilitres", "grams", "kilo", "kilos", "tin", "caster", "icing sugar", "bicarb", "fan oven", "gas mark") >= 0
	cups := t.has(0, len(t.toks), "cup", "cups", "ounce", "ounces", "pound", "pounds", "stick", "sticks", "cilantro", "skillet", "quart", "pint") >= 0
	for i := range t.quantities {
		q := &t.quantities[i]
		if q.kind != heat || q.unit != "" {
			continue
		}
		sure := ""
		if f == 0 || c > 0 || q.min <= 100 {
			sure = t.scaleOfFigure(q)
		}
		other := t.otherScale(i)
		switch {
		case q.min > 260:
			q.unit = "F"
		case other != "":
			q.unit = other
		case sure != "":
			q.unit = sure
		case f > 0 && c == 0:
			q.unit = "F"
		case c > 0 && f == 0:
			q.unit = "C"
		case own == "C" || own == "F":
			q.unit = own
		case c > 0 && f > 0 && q.min <= 230:
			q.unit = "C"
		case cups && (!british || q.min >= 200), q.min > 250, !british:
			q.unit = "F"
		default:
			q.unit = "C"
		}
	}
	t.prefersC = c > 0 && f == 0 || british && f == 0
}

// otherScale gives the scale of a temperature that is said at once in the other scale
// too, which is named: "two hundred and ten, four ten in Fahrenheit"; "" where it isn't.
func (t *talk) otherScale(i int) string {
	q := &t.quantities[i]
	for _, k := range []int{t.scaledBeside(i, 1), t.scaledBeside(i, -1)} {
		if k < 0 || k >= len(t.quantities) {
			continue
		}
		o := &t.quantities[k]
		if o.kind != heat || !o.scale || otherScaleOf[o.unit] == "" || t.sentOf[o.First] != t.sentOf[q.First] {
			continue
		}
		unit := otherScaleOf[o.unit]
		if j := t.has(o.Last, q.First, "for"); j >= 0 && q.First-j <= 2*pairGap && t.toldFor(j) && (unit == "F") == (q.min > o.min) {
			return unit // "seventy-four Celsius, which is, for the Americans, one sixty-five"
		}
		if o.First-q.Last > 5 || q.First-o.Last > 5 {
			continue
		}
		mine, ok := schema.Fahrenheit(q.min, unit)
		theirs, _ := schema.Fahrenheit(o.min, o.unit)
		if ok && math.Abs(mine-theirs) <= scaleSlack {
			return unit
		}
	}
	return ""
}

// scaledBeside gives the quantity next to quantity i on one side, past the temperatures
// without a scale: a slip may stand between.
func (t *talk) scaledBeside(i, step int) int {
	k := i + step
	for k >= 0 && k < len(t.quantities) && (t.quantities[k].void || t.quantities[k].kind == heat && !t.quantities[k].scale) {
		k += step
	}
	return k
}

// scaleOfFigure gives the scale in which a figure makes sense for what is heated, ""
// where both can. Common practice: nothing is done at 105 C inside or in milk; no oven
// bakes at 200 F but a slow one, no fat fries below 250 F or above 230 C.
func (t *talk) scaleOfFigure(q *quantity) string {
	s := t.sentence(q.First)
	lo, hi := max(s.First, q.First-14), min(s.Last, q.Last+9)
	switch {
	case t.has(lo, hi, "sugar", "syrup", "caramel", "candy", "toffee", "jam") >= 0 && t.has(lo, hi, "oven", "bake") < 0:
		if q.min < 200 {
			return "C"
		}
		return ""
	case t.has(lo, hi, insideWords...) >= 0 || t.has(max(0, lo-8), lo, "thermometer", "probe") >= 0:
		if q.min <= 100 && q.min > 45 {
			return "C"
		}
		if q.min > 110 && q.min < 220 && t.has(lo, hi, "oven") < 0 {
			return "F"
		}
	case t.has(lo, hi, fryWords...) >= 0 && t.has(lo, hi, ovenWords...) < 0:
		if q.min >= 130 && q.min <= 230 {
			return "C"
		}
	case t.has(lo, hi, "milk", "water", "yeast", "custard", "cream") >= 0 && t.has(lo, hi, "oven") < 0:
		switch {
		case q.min > 100 && q.min < 213:
			return "F"
		case q.min <= 60:
			return "C"
		}
	case (t.has(lo, hi, ovenWords...) >= 0 || t.has(lo, hi, "fan") >= 0) && q.min >= 80 && (q.min < 165 || q.min < 250 && t.has(lo, hi, "low", "slow", "slowly", "warm", "smoker", "smoke", "dry", "dried", "dehydrate", "jerky", "brisket") < 0):
		return "C"
	}
	return ""
}
