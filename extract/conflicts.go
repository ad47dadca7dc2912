package extract

import (
	"fmt"
	"math"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// findConflicts compares what was said twice and asks where both can't hold:
// conversions, figures said again, yields and cutting, ratios and weights, and
// what one way takes from another.
func (t *talk) findConflicts() {
	if len(t.docs) == 0 {
		return
	}
	add := func(at int, f schema.Flag) {
		for _, doc := range t.docs {
			for i := range doc.Flags {
				if o := &doc.Flags[i]; o.Kind == f.Kind && (o.Ask == f.Ask || sameSubject(o, &f)) {
					return
				}
			}
		}
		doc := t.docs[min(t.dishOf(at), len(t.docs)-1)]
		doc.Flags = append(doc.Flags, f)
	}
	t.badConversions(add)
	t.compareRetold(add)
	t.ovenTwice(add)
	t.sumConflicts(add)
	t.ratioConflicts(add)
	t.yieldConflicts(add)
	t.wayConflicts(add)
	t.unusedListed(add)
	t.unmadeParts(add)
}

// sameSubject reports whether two conflicts of one kind ask about the same
// thing. Each pair of measures is a thing of its own.
func sameSubject(a, b *schema.Flag) bool {
	if a.Kind == schema.ConflictConversion {
		return false
	}
	return lastWord(strings.ToLower(a.Subject)) == lastWord(strings.ToLower(b.Subject))
}

func num(v float64) string { return fmt.Sprintf("%g", math.Round(v*100)/100) }

// badConversions finds a pair of measures said of one thing that are further
// apart than spoken rounding takes them.
func (t *talk) badConversions(add func(int, schema.Flag)) {
	t.badTemperatures(add)
	t.badLengths(add)
	t.badAmounts(add)
}

// pairGap is how many words may stand between two measures of one value.
const pairGap = 8

// scaleSlack is how far a Fahrenheit and a Celsius figure may be apart and
// still be spoken rounding of one another, degrees Fahrenheit: ovens are set to
// the next ten or twenty-five. Common practice.
const scaleSlack = 12

// noOven is the least heat, degrees Fahrenheit, that an oven is set to for baking:
// lower figures are a thermometer's, and rounded less. Common practice.
const noOven = 220

// scaled is a temperature with its scale, also where the scale is said apart:
// "a hundred and forty-five in Fahrenheit".
type scaled struct {
	language.Span
	lo, hi float64
	unit   string
	sure   bool
}

// otherScaleOf gives the scale that a temperature is told over in.
var otherScaleOf = map[string]string{"F": "C", "C": "F"}

// temperatures lists the temperatures of the talk in order.
func (t *talk) temperatures() []scaled {
	var out []scaled
	for i := 0; i < len(t.toks); i++ {
		x := t.quantityAt[i]
		if x < 0 || t.quantities[x].First != i {
			continue
		}
		q := &t.quantities[x]
		if q.void {
			continue
		}
		s := scaled{Span: q.Span, lo: q.min, hi: q.max, unit: q.unit, sure: q.scale}
		k := q.Last
		if t.norm(k) == "degrees" {
			k++
		}
		// "in Fahrenheit", "on a Fahrenheit dial"
		if w := t.norm(k); w == "in" || w == "on" {
			k++
			if w := t.norm(k); w == "a" || w == "the" || w == "your" {
				k++
			}
		}
		switch t.norm(k) {
		case "fahrenheit", "celsius", "centigrade":
			if k > q.Last && (q.kind == count || q.kind == heat || q.kind == money) {
				s.unit, s.sure, s.Last = "C", true, k+1
				if t.norm(k) == "fahrenheit" {
					s.unit = "F"
				}
				out = append(out, s)
				continue
			}
		}
		if q.kind == heat || t.otherScaleTold(q) {
			out = append(out, s)
		}
	}
	for k := 0; k+1 < len(out); k++ {
		// "over seventy-five, and that's thirty Celsius": the other scale's
		if a, b := &out[k], &out[k+1]; t.quantities[t.quantityAt[a.First]].kind == count && b.sure && b.unit != "gas" {
			a.sure, a.unit = true, otherScaleOf[b.unit]
		}
	}
	return out
}

// otherScaleTold reports whether a bare number is told again as a temperature
// right after it: "seventy-five, and that's thirty Celsius".
func (t *talk) otherScaleTold(q *quantity) bool {
	if q.kind != count || q.article || q.min != q.max || q.min < 15 || t.mentionStart(q.Last) >= 0 {
		return false
	}
	i := q.Last
	if t.norm(i) == "and" || t.norm(i) == "so" {
		i++
	}
	if t.norm(i) != "that's" && !t.is(i, "which", "is") {
		return false
	}
	for k := i + 1; k < min(len(t.toks), i+4); k++ {
		if x := t.quantityAt[k]; x >= 0 {
			return t.quantities[x].kind == heat && t.quantities[x].scale
		}
	}
	return false
}

func (t *talk) badTemperatures(add func(int, schema.Flag)) {
	all := t.temperatures()
	for k := 0; k+1 < len(all); k++ {
		a, b := &all[k], &all[k+1]
		if !a.sure && b.sure && b.unit != "gas" && a.lo != b.lo && t.toldAgain(a.Last, b.First) {
			a.sure, a.unit = true, otherScaleOf[b.unit]
		}
		if !a.sure || !b.sure || a.unit == b.unit || b.First-a.Last > 14 || t.otherHeat(a.Last, b.First) || t.fanAfter(a.Last) != t.fanAfter(b.Last) {
			continue
		}
		if t.sentOf[a.First] != t.sentOf[b.First] {
			// "eighty Celsius when it goes in. That's a hundred and forty-five"
			s := t.sentence(b.First)
			last := t.sentOf[a.First] + 1
			if !t.punctuated {
				last++ // "when it goes in" may stand by itself
			}
			dial := b.First == s.First && b.Last > t.quantities[t.quantityAt[b.First]].Last // "375 on a Fahrenheit dial"
			if t.sentOf[b.First] > last || b.First-s.First > 4 || !dial && t.has(s.First, b.First, "that's", "which is", "so", "or", "in") < 0 {
				continue
			}
		} else if b.First-a.Last > pairGap {
			continue
		}
		lo1, ok1 := schema.Fahrenheit(a.lo, a.unit)
		hi1, _ := schema.Fahrenheit(a.hi, a.unit)
		lo2, ok2 := schema.Fahrenheit(b.lo, b.unit)
		hi2, _ := schema.Fahrenheit(b.hi, b.unit)
		slack := float64(scaleSlack)
		if hi1 < noOven && hi2 < noOven {
			slack = 6 // the next five
		}
		if a.unit == "gas" || b.unit == "gas" {
			slack = 25 // one mark, common practice
		}
		if !ok1 || !ok2 || lo1 <= hi2+slack && lo2 <= hi1+slack {
			continue
		}
		x := schema.Quantity{Min: a.lo, Max: a.hi, Unit: a.unit}
		y := schema.Quantity{Min: b.lo, Max: b.hi, Unit: b.unit}
		ask := fmt.Sprintf("Is it %s or %s? They are not the same temperature", x.String(), y.String())
		if a.unit == "C" && b.unit == "F" {
			ask += fmt.Sprintf(": %s is %.0f F", x.String(), lo1)
		} else if a.unit == "F" && b.unit == "C" {
			ask += fmt.Sprintf(": %s is %.0f F", y.String(), lo2)
		}
		add(a.First, schema.Flag{Kind: schema.ConflictConversion, Subject: "temperature", Ask: ask + ".", Said: []schema.Said{t.said(a.First, b.Last)}})
	}
}

// fanIn reports whether tokens [a, b) speak of an oven's fan that is on.
func (t *talk) fanIn(a, b int) bool {
	i := t.has(a, b, "fan")
	if i < 0 || t.norm(i+1) == "off" {
		return false
	}
	switch t.norm(i - 1) {
	case "no", "not", "without":
		return false
	}
	return true
}

// otherHeat reports whether the words between two temperatures make the second
// another one: a change, a fan oven, an inside temperature.
func (t *talk) otherHeat(a, b int) bool {
	if t.fanIn(a, b) || t.has(a, b, "then", "until", "till", "down", "up", "to", "inside", "internal", "middle", "after", "turn", "lower", "drop", "convection", "and then") >= 0 {
		return true
	}
	i := t.has(a, b, "for")
	return i >= 0 && !t.toldFor(i)
}

// toldPeople are people to whom a figure is told again in the measures they go by.
var toldPeople = union(kin, words("americans american yanks yank canadians canadian british brits brit english europeans european australians aussies germans french everyone everybody anyone anybody folks people friends those them you"))

// toldFor reports whether the "for" at token i names somebody to whom a figure is told
// again: "for the Americans", "for his brother in Detroit", not "for the potatoes".
func (t *talk) toldFor(i int) bool {
	if t.norm(i) != "for" {
		return false
	}
	for j := i + 1; j < min(len(t.toks), i+listenerReach) && t.toks[j-1].After == 0; j++ {
		// where the scales are settled, no food is marked yet
		if j < len(t.mentionAt) && t.mentionAt[j] >= 0 || t.quantityAt[j] >= 0 {
			return false
		}
		if toldPeople[strings.TrimSuffix(t.norm(j), "'s")] {
			return true
		}
	}
	return false
}

// listenerReach is how many words after "for" may name who is told.
const listenerReach = 6

// toldAgain reports whether what stands between two temperatures, over tokens [a, b),
// makes the second the first one told over in the other scale.
func (t *talk) toldAgain(a, b int) bool {
	if i := t.has(a, b, "for"); i >= 0 && t.toldFor(i) {
		return true
	}
	return t.has(max(a, b-2), b, "that's", "which is", "so") >= 0
}

// fanAfter reports whether the temperature that ends before token i is said to
// be a fan oven's.
func (t *talk) fanAfter(i int) bool {
	for k := i; k < min(len(t.toks), i+5); k++ {
		if w := t.norm(k); w == "fan" && t.fanIn(k, k+1) || w == "convection" {
			return true
		}
		if t.quantityAt[k] >= 0 {
			return false
		}
	}
	return false
}

// badLengths compares inches with centimetres. A small length is rounded to the
// next half centimetre and a tin is named by round figures: common practice.
func (t *talk) badLengths(add func(int, schema.Flag)) {
	var all []sized
	for k := range t.quantities {
		q := &t.quantities[k]
		switch {
		case q.void:
		case q.kind == length:
			all = append(all, sized{q.Span, q.value()})
		case q.size != nil:
			if _, ok := schema.Centimetres(q.size.Unit); ok {
				all = append(all, sized{q.Span, q.size})
			}
		}
	}
	for k := 0; k+1 < len(all); k++ {
		a, b := &all[k], &all[k+1]
		if a.Unit == b.Unit || b.First < a.Last || b.First-a.Last > pairGap || !t.oneBreath(a.First, a.Last, b.First) {
			continue
		}
		if t.has(a.Last, b.First, "and", "by", "then", "to") >= 0 || len(a.By) != len(b.By) || t.otherSide(a.Last, b) {
			continue
		}
		x, okx := schema.Centimetres(a.Unit)
		y, oky := schema.Centimetres(b.Unit)
		if !okx || !oky {
			continue
		}
		off := 1.15
		if x*a.Min < 6 {
			off = 1.45
		}
		apart := func(p, q float64) bool { return p > 0 && q > 0 && (p/q > off || q/p > off) }
		bad := apart(x*a.Min, y*b.Min) && apart(x*a.Max, y*b.Max)
		for i := range a.By {
			bad = bad || apart(x*a.By[i], y*b.By[i])
		}
		if bad {
			in, f := a, x
			if b.Unit == "inch" {
				in, f = b, y
			}
			add(a.First, schema.Flag{Kind: schema.ConflictConversion, Subject: "size",
				Ask:  fmt.Sprintf("Is it %s or %s? %s is about %s cm.", a.String(), b.String(), in.String(), num(math.Round(10*f*in.Min)/10)),
				Said: []schema.Said{t.said(a.First, b.Last)}})
		}
	}
}

// oneBreath reports whether two figures, the first over tokens [a, end), are told in one
// sentence, or in two guessed ones where the second says what the first is: "a pound
// of carrots, that's four hundred and fifty grams".
func (t *talk) oneBreath(a, end, b int) bool {
	return t.sentOf[a] == t.sentOf[b] || !t.punctuated && t.has(end, b, "that's", "which is") >= 0
}

// dimensions are the words that tell which side of a thing a length is of.
var dimensions = listed("long", "wide", "thick", "deep", "across", "high", "tall")

// otherSide reports whether the second of two lengths, after token i, is of
// another side of the thing: "nine inches long, five centimetres wide", but not
// "half an inch thick, that's one centimetre".
func (t *talk) otherSide(i int, b *sized) bool {
	side := t.earliest(i, b.First, dimensions)
	if side < 0 {
		return false
	}
	again := t.has(side, b.First, "that's", "which is", "or", "so", "about", "it's") >= 0
	after := t.earliest(b.Last, b.Last+2, dimensions)
	return !again || after >= 0 && t.norm(after) != t.norm(side)
}

// sized is a length, of itself or of a tin or a piece.
type sized struct {
	language.Span
	*schema.Quantity
}

// density is the lightest and heaviest a food of a kind is in the cup, grams a
// millilitre, sifted and packed down. Common practice, drawn wide.
var density = map[string][2]float64{
	"flour": {0.35, 0.75}, "thickener": {0.4, 0.8}, "sweetener": {0.4, 1.5}, "water": {0.95, 1.05}, "oil": {0.85, 1}, "fat": {0.75, 1.05}, "stock": {0.95, 1.1}, "alcohol": {0.85, 1.2},
	"drink": {0.9, 1.1}, "nut": {0.3, 0.85}, "seed": {0.4, 0.9}, "grain": {0.3, 1}, "legume": {0.5, 1}, "chocolate": {0.4, 1.3}, "dairy": {0.25, 1.15}, "salt": {0.5, 1.5}, "fruit": {0.3, 1.2},
	"vegetable": {0.08, 1.1}, "herb": {0.04, 0.6}, "spice": {0.2, 0.9}, "pasta": {0.25, 0.8}, "bread": {0.1, 0.7}, "baking": {0.3, 1.2},
}

// anyDensity holds for every food.
var anyDensity = [2]float64{0.04, 1.7}

// amountSlack is how far two measures of one amount may be apart: a cup, pint
// and tablespoon differ by up to a fifth between countries, and figures are
// rounded when spoken. Common practice.
const amountSlack = 0.25

// badAmounts compares two measures said of one amount: ounces and grams, a cup
// and millilitres, a cup of a food and its weight.
func (t *talk) badAmounts(add func(int, schema.Flag)) {
	check := func(a, b *quantity, m *mention) {
		if a.First > b.First {
			a, b = b, a
		}
		if a.void || b.void || a.kind != measure || b.kind != measure || a.unit == b.unit || a.more || b.more || b.First < a.Last || b.First-a.Last > 14 || t.apartMeasures(a, b) {
			return
		}
		if oneSystem(a.unit, b.unit) && t.has(a.Last, b.First, "that's", "which is", "it's", "this is") < 0 || b.of && (m == nil || m.First < b.Last) {
			return // the next food's
		}
		if near := t.sentence(b.First); near.First > a.Last && t.has(near.First, b.First, "that's", "which is", "or", "so") < 0 && b.First != near.First {
			return
		}
		if !t.punctuated && t.has(a.Last, b.First, "that's", "which is", "or", "so", "is", "about", "it's") < 0 {
			return // without marks the second may be the next food's
		}
		lo1, hi1, x := comparable(a)
		lo2, hi2, y := comparable(b)
		if m != nil && butterLike[lastWord(m.food.Name)] {
			lo1, hi1, x = inSticks(lo1, hi1, x)
			lo2, hi2, y = inSticks(lo2, hi2, y)
		}
		off := amountSlack
		if a.unit == "tbsp" || b.unit == "tbsp" {
			off = 0.4 // 15 and 20 mL, common practice
		}
		apart := t.sentOf[a.First] != t.sentOf[b.First]
		var hint string
		switch {
		case x == y && (x == "g" || x == "ml"):
			if closeTo(lo1, hi1, lo2, hi2, off) || apart && !closeTo(lo1, hi1, lo2, hi2, 3) {
				return // far apart in another sentence: another thing
			}
			p, v := a, lo1
			if a.unit == x {
				p, v = b, lo2
			}
			hint = fmt.Sprintf(" %s is about %s %s.", p.value().String(), num(roundFigure(v)), x)
		case x == "ml" && y == "g" || x == "g" && y == "ml":
			vlo, vhi, mlo, mhi := lo1, hi1, lo2, hi2
			if x == "g" {
				vlo, vhi, mlo, mhi = lo2, hi2, lo1, hi1
			}
			d := anyDensity
			if m != nil {
				if k, ok := density[m.food.Kind]; ok {
					d = k
				}
				if lastWord(m.food.Name) == "sugar" {
					d = [2]float64{0.4, 1.05} // icing sugar to packed brown
				}
			}
			if closeTo(vlo*d[0], vhi*d[1], mlo, mhi, 0.15) {
				return
			}
		default:
			return
		}
		subject := "amount"
		if m != nil {
			subject = m.name
		}
		ask := fmt.Sprintf("Is it %s or %s?", a.value().String(), b.value().String())
		if m != nil {
			ask = fmt.Sprintf("Is it %s of %s or %s?", a.value().String(), m.name, b.value().String())
		}
		add(a.First, schema.Flag{Kind: schema.ConflictConversion, Subject: subject, Ask: ask + hint, Said: []schema.Said{t.said(a.First, max(b.Last, a.Last))}})
	}
	seen := map[[2]int]bool{}
	for k := range t.mentions {
		m := &t.mentions[k]
		if m.negated || m.compared {
			continue
		}
		for n := 1; n < len(m.amounts); n++ {
			i, j := m.amounts[n-1], m.amounts[n]
			seen[[2]int{min(i, j), max(i, j)}] = true
			check(&t.quantities[i], &t.quantities[j], m)
		}
	}
	for k := 0; k+1 < len(t.quantities); k++ {
		a, b := &t.quantities[k], &t.quantities[k+1]
		// "a pound of carrots that's eight hundred grams peel": the next word is no food's
		again := !t.punctuated && a.food >= 0 && !b.of && t.norm(b.First-1) == "that's" && t.mentions[a.food].First < b.First
		if seen[[2]int{k, k + 1}] || a.kind != measure || b.kind != measure || a.food >= 0 && b.food >= 0 && a.food != b.food && !again {
			continue
		}
		if b.First >= a.Last && b.First-a.Last <= 6 && t.oneBreath(a.First, a.Last, b.First) && t.has(a.Last, b.First, "that's", "which is", "or", "so", "about", "is") >= 0 {
			var m *mention
			f := max(a.food, b.food)
			if again {
				f = a.food
			}
			if f >= 0 {
				m = &t.mentions[f]
			}
			check(a, b, m)
		}
	}
}

// butterLike are fats sold in sticks.
var butterLike = words("butter margarine")

// stickOfButter is a stick of butter or margarine in grams: USDA SR28, NDB 01001.
const stickOfButter = 113

// inSticks gives an amount told in sticks of butter in grams, any other as it is.
func inSticks(lo, hi float64, unit string) (float64, float64, string) {
	if unit == "stick" {
		return lo * stickOfButter, hi * stickOfButter, "g"
	}
	return lo, hi, unit
}

// metric are the units of the metric system; an amount is said again in the
// other system, seldom in another unit of its own.
var metric = words("g kg ml l")

func oneSystem(a, b string) bool { return metric[a] == metric[b] }

// apartMeasures reports whether the words around two measures make them two
// amounts: "a cup plus two tablespoons", "a litre, two cups of it now".
func (t *talk) apartMeasures(a, b *quantity) bool {
	for i := a.Last; i < b.First; i++ {
		switch t.norm(i) {
		case "plus", "then", "another", "more", "less", "minus", "with", "each", "into", "per", "from", "not", "add", "keep", "save", "reserve", "for", "of":
			if t.toldFor(i) || t.norm(i) == "of" && (i == a.Last || i == a.Last-1) {
				continue
			}
			return t.norm(i) != "of" || t.mentionAt[min(i+1, len(t.toks)-1)] < 0
		case "and":
			if n := t.norm(i + 1); n != "that's" && n != "it's" && n != "this" && n != "i" && !t.toldFor(i+1) {
				return true
			}
		}
	}
	if t.norm(b.Last) == "for" && t.namesPurpose(b.Last+1) || b.of && (t.norm(b.Last) == "it" || t.norm(b.Last) == "that" || t.norm(b.Last) == "them" || t.norm(b.Last) == "which") || t.norm(b.Last) == "each" {
		return true
	}
	return a.size != nil || b.size != nil
}

// namesPurpose reports whether the words at token i name what an amount is for, a
// food or a mixture: "two cups for the sauce", but not "two pounds for the old scales".
func (t *talk) namesPurpose(i int) bool {
	for k := i; k < min(len(t.toks), i+4); k++ {
		if t.mentionAt[k] >= 0 || t.madeAt[k] > 0 || dishNoun[t.norm(k)] {
			return true
		}
		if t.toks[k].After != 0 {
			break
		}
	}
	return t.norm(i) == "later" || t.norm(i) == "now"
}

// roundFigure rounds a figure to two digits that matter.
func roundFigure(v float64) float64 {
	if v <= 0 {
		return v
	}
	p := math.Pow(10, math.Floor(math.Log10(v))-1)
	return math.Round(v/p) * p
}

// yieldConflicts asks where two yields of the same things differ, and where the
// cutting gives another number than what the dish makes.
func (t *talk) yieldConflicts(add func(int, schema.Flag)) {
	all := t.yieldsSaid()
	var sure []*yieldSaid
	for i := range all {
		if y := &all[i]; y.score >= 2 || y.cutting && y.score >= 1 {
			sure = append(sure, y)
		}
	}
	if t.yield != nil && len(t.yieldSaid) > 0 {
		if y := t.yieldFragment(); y != nil && !hasNumber(all, y.number) {
			sure = append([]*yieldSaid{y}, sure...)
		}
	}
	sure = sure[:min(len(sure), inMind)]
	for i, b := range sure {
		if b.loose && anyEqual(sure[:i], b) {
			continue
		}
		for _, a := range sure[:i] {
			if t.ifSaid(a) || t.ifSaid(b) || t.norm(b.number-1) == "or" || a.cutting && b.cutting || t.dishOf(a.First) != t.dishOf(b.First) || !t.sameCounted(a, b) || t.otherWay(a.number, b.number, first) || b.number-a.number < 12 && t.sentOf[a.number] == t.sentOf[b.number] {
				continue
			}
			if closeTo(a.Min, a.Max, b.Min, b.Max, 0) || (a.About || b.About) && closeTo(a.Min, a.Max, b.Min, b.Max, 0.15) || t.slipBetween(a.number, b.number) && b.number-a.number < 30 {
				continue
			}
			if a.number > b.number {
				a, b = b, a
			}
			add(b.First, schema.Flag{Kind: schema.ConflictYield, Subject: "yield", Ask: fmt.Sprintf("Does it make %s or %s?", a.Quantity.String(), b.Quantity.String()),
				Said: []schema.Said{t.saidYield(b), t.saidYield(a)}})
			return
		}
	}
	t.cutting(sure, add)
}

// ifSaid reports whether a yield is only that of a case or a choice: "if your
// brothers are coming it feeds three", "or you can do it as one loaf", "cut them
// small and you'd get thirty".
func (t *talk) ifSaid(y *yieldSaid) bool {
	s := t.sentence(y.number)
	if t.norm(s.First) == "or" || t.has(s.First, y.number, "or you can", "and you'd", "and you could", "you could also", "or as") >= 0 {
		return true
	}
	i := t.has(s.First, y.number, "if", "unless", "when")
	return i >= 0 && i-s.First <= 2
}

// anyEqual reports whether one of the yields has the number of b.
func anyEqual(list []*yieldSaid, b *yieldSaid) bool {
	for _, a := range list {
		if closeTo(a.Min, a.Max, b.Min, b.Max, 0) {
			return true
		}
	}
	return false
}

func hasNumber(all []yieldSaid, at int) bool {
	for i := range all {
		if all[i].number == at {
			return true
		}
	}
	return false
}

func (t *talk) saidYield(y *yieldSaid) schema.Said {
	s := t.sentence(y.number)
	return t.said(max(s.First, min(y.First, y.number-6)), min(s.Last, y.number+5))
}

// eaters are the words that count people or what each gets.
var eaters = words("people servings serving portions portion persons adults adult folks helpings eaters guests mouths diners appetites lunches dinners suppers meals kids plates")

// sameCounted reports whether two yields count the same things, so that two
// numbers can't both hold.
func (t *talk) sameCounted(a, b *yieldSaid) bool {
	x, y := lexicon.Singular(lastWord(a.Unit)), lexicon.Singular(lastWord(b.Unit))
	if x == y || a.loose && b.score >= 5 || b.loose && a.score >= 5 {
		return true
	}
	if a.loose || b.loose {
		return false
	}
	if eaters[lastWord(a.Unit)] || eaters[lastWord(b.Unit)] {
		return eaters[lastWord(a.Unit)] && eaters[lastWord(b.Unit)]
	}
	// "it makes forty", and what they are is said elsewhere
	return x == "piece" && t.counts(b) || y == "piece" && t.counts(a)
}

// counts reports whether what a yield counts can be what the dish makes.
func (t *talk) counts(y *yieldSaid) bool {
	last := lastWord(y.Unit)
	return peopleWord[last] || oneThing[last] || t.dishCounted(last)
}

// dividing are verbs that make pieces.
var dividing = words("divide divides cut cuts split splits portion separate shape roll form make slice chop")

// cutShapes are what a finished thing is cut into.
var cutShapes = words("pieces squares slices wedges fingers rounds")

// cutting compares the number of pieces the dough is divided into with the
// number the dish makes.
func (t *talk) cutting(sure []*yieldSaid, add func(int, schema.Flag)) {
	var y *yieldSaid
	for _, x := range sure {
		if !x.cutting && !eaters[lastWord(x.Unit)] && (x.score >= 5 && cutShapes[lastWord(x.Unit)] || !vesselWord[lastWord(x.Unit)]) && (y == nil || x.score > y.score) {
			y = x
		}
	}
	if y == nil || y.Min < 3 {
		return
	}
	for k := range t.sents {
		s := &t.sents[k]
		if !t.telling(s) || s.past || t.sentOf[y.number] == int32(k) {
			continue
		}
		n, at, each := t.pieces(s.First, s.Last)
		if n == 0 || each {
			continue
		}
		end := at
		// "cut it in four. Roll each out, and cut every rope in eight"
		for j, steps := at+1, 0; j < min(len(t.toks), at+40) && steps < 2; j++ {
			w := t.norm(j)
			if w != "each" && w != "every" && w != "both" {
				continue
			}
			if m, e, ok := t.eachInto(j); ok {
				n *= m
				end = e
				steps++
				j = e
			}
		}
		if n == int(y.Min) || n == int(y.Max) || float64(n) > y.Min && float64(n) < y.Max {
			return
		}
		same := end > at || t.piecesBecome(at, y) || t.onlyCut(at, n, y)
		if !same || n < 2 || end == at && (int(y.Min)%n == 0 || n%int(y.Min) == 0) && !t.namesPiece(at, y) {
			continue
		}
		add(at, schema.Flag{Kind: schema.ConflictYield, Subject: "yield", Ask: fmt.Sprintf("Does it make %s, or is it cut into %d?", y.Quantity.String(), n),
			Said: []schema.Said{t.said(max(s.First, at-6), min(len(t.toks), max(at+3, end+1))), t.saidYield(y)}})
		return
	}
}

// onlyCut reports whether the number at token at tells into how many pieces the
// finished thing is cut: it counts nothing else, nothing is shaped of them, and
// they can't be halves or doubles of what the dish makes.
func (t *talk) onlyCut(at, n int, y *yieldSaid) bool {
	if int(y.Min)%n == 0 || n%int(y.Min) == 0 || at < y.number || y.bare || y.loose {
		return false
	}
	s := t.sentence(at)
	unit := lastWord(t.yieldNoun(at + 1))
	if unit != "" && unit != "pieces" && unit != "squares" && unit != "bars" && unit != "slices" {
		return false
	}
	for i := max(s.First, at-8); i < at; i++ {
		if t.actionAt[i] >= 0 && (t.norm(i) == "cut" || t.norm(i) == "slice" || t.norm(i) == "divide") {
			return t.has(at, min(len(t.toks), at+24), "each", "every", "again", "roll", "shape") < 0 && t.has(i, at, "it", "the slab", "the tray", "the whole", "the lot", "the cake", "the loaf") >= 0
		}
	}
	return false
}

// pieces reads "divide the dough into ten pieces", "cut it in four": how many,
// and where the number stands. each is set when something is cut that was cut
// before.
func (t *talk) pieces(a, b int) (n, at int, each bool) {
	for i := a; i < b; i++ {
		if !t.in(aDividing, i) || t.norm(i-1) == "don't" {
			continue
		}
		// "Divide in eight pieces": of what, was told just before
		object := (t.norm(i) == "divide" || t.norm(i) == "split" || t.norm(i) == "portion") && (t.norm(i+1) == "in" || t.norm(i+1) == "into")
		for j := i + 1; j < min(b, i+9); j++ {
			w := t.norm(j)
			if w == "each" || w == "every" || w == "both" {
				each = true
			}
			if w == "dough" || w == "batter" || w == "mixture" || w == "mix" || w == "it" || w == "this" || w == "that" || t.madeAt[j] > 0 || each {
				object = true
			}
			if m := t.mentionAt[j]; m >= 0 && !t.mentions[m].food.Dish && !t.mentions[m].food.Made && t.madeAt[j] == 0 {
				break // "cut the carrots into"
			}
			if (w == "into" || w == "in") && object {
				num, m := language.ReadSingle(t.toks, j+1)
				if m > 0 && !num.Article && num.Min == math.Trunc(num.Min) && num.Min >= 2 && num.Min <= 200 {
					if q := t.quantityAt[j+1]; q >= 0 && (t.quantities[q].kind == length || t.quantities[q].kind == duration) {
						break
					}
					return int(num.Min), j + 1, each
				}
				break
			}
			if t.toks[j].After != 0 && !object {
				break
			}
		}
	}
	return 0, 0, false
}

// eachInto reads "each half into eight", "cut every rope in eight" at the
// "each" of token j.
func (t *talk) eachInto(j int) (int, int, bool) {
	for k := j + 1; k < min(len(t.toks), j+9); k++ {
		if w := t.norm(k); w == "into" || w == "in" {
			num, m := language.ReadSingle(t.toks, k+1)
			if m > 0 && !num.Article && num.Min >= 2 && num.Min <= 60 && num.Min == math.Trunc(num.Min) {
				if q := t.quantityAt[k+1]; q >= 0 && (t.quantities[q].kind == length || t.quantities[q].kind == duration || t.quantities[q].kind == heat) {
					return 0, 0, false
				}
				return int(num.Min), k + m, true
			}
			return 0, 0, false
		}
		if t.toks[k].After != 0 {
			return 0, 0, false
		}
	}
	return 0, 0, false
}

// piecesBecome reports whether the pieces divided at token at are the things
// the dish makes: they are named, or shaped into them.
func (t *talk) piecesBecome(at int, y *yieldSaid) bool {
	if t.namesPiece(at, y) {
		return true
	}
	end := min(len(t.toks), at+24)
	one := lexicon.Singular(lastWord(y.Unit))
	for i := at + 1; i < end; i++ {
		if lexicon.Singular(t.norm(i)) == one {
			return true
		}
	}
	return t.has(at, end, "shape each", "roll each", "roll them", "shape them", "each one into", "each into", "flatten each", "one for each") >= 0
}

// namesPiece reports whether the number at token at counts what the dish makes.
func (t *talk) namesPiece(at int, y *yieldSaid) bool {
	unit := t.yieldNoun(at + 1)
	return unit != "" && lexicon.Singular(lastWord(unit)) == lexicon.Singular(lastWord(y.Unit))
}
