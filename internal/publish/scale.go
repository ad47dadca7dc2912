package publish

import (
	"math"
	"strings"
	"unicode"

	"quern/schema"
)

// Scale multiplies every amount of a document by factor, and its yield, in a
// copy. The results are exact; it's only when they are written that they
// become amounts a kitchen can measure. Sizes of tins, temperatures and times
// stay as they are: twice the dough doesn't bake twice as long.
func Scale(doc *schema.Document, factor float64) *schema.Document {
	out := *doc
	out.Yield = scaled(doc.Yield, factor)
	out.Ingredients = append([]schema.Ingredient(nil), doc.Ingredients...)
	for i := range out.Ingredients {
		ing := &out.Ingredients[i]
		ing.Amount = scaled(ing.Amount, factor)
		ing.SecondAmount = scaled(ing.SecondAmount, factor)
		if ing.Grams != nil {
			g := *ing.Grams
			g.Min *= factor
			g.Max *= factor
			ing.Grams = &g
		}
		ing.Substitutes = append([]schema.Substitute(nil), ing.Substitutes...)
		for j := range ing.Substitutes {
			ing.Substitutes[j].Amount = scaled(ing.Substitutes[j].Amount, factor)
		}
	}
	if doc.Macros != nil && doc.Macros.Computed != nil && doc.Macros.Computed.Servings > 0 {
		macros, computed := *doc.Macros, *doc.Macros.Computed
		computed.Servings *= factor // a serving stays what it was
		macros.Computed = &computed
		out.Macros = &macros
	}
	return &out
}

func scaled(q *schema.Quantity, factor float64) *schema.Quantity {
	if q == nil || factor == 1 {
		return q
	}
	out := *q
	out.Min *= factor
	out.Max *= factor
	out.Text = ""
	return &out
}

// near tells whether a figure is within a share of another.
func near(a, b, share float64) bool { return math.Abs(a-b) <= share*math.Abs(b) }

// The shares by which a written amount may differ from the exact one: a
// twentieth is less than a level spoon differs from the next (common
// practice); past it the amount is written "about".
const (
	fine   = 0.03
	coarse = 0.05
)

// kitchen writes amounts that came out of a multiplication as ones a kitchen
// can measure: no 0.333 cup and no 2.7 eggs.
type kitchen struct {
	hand
	measures string // of the document: "", "us", "metric" or "imperial"
}

// amount writes q. name is the ingredient's, since an egg can't be halved and
// a lemon can.
func (k kitchen) amount(q *schema.Quantity, name string) string {
	h := k.hand
	if q == nil || q.Vague != "" || q.Overnight || len(q.By) > 0 || q.Max <= 0 {
		return write(q, h)
	}
	var out string
	switch {
	case q.Unit == "cup" || q.Unit == "tbsp" || q.Unit == "tsp":
		out = k.spoons(q)
	case q.Unit == "g" || q.Unit == "ml":
		out = decimals(q, map[string]string{"g": "kg", "ml": "l"}[q.Unit], h)
	case q.Unit == "kg" || q.Unit == "l":
		small := map[string]string{"kg": "g", "l": "ml"}[q.Unit]
		out = decimals(&schema.Quantity{Min: q.Min * 1000, Max: q.Max * 1000, Unit: small}, q.Unit, h)
	case q.Unit == "lb" || q.Unit == "oz":
		out = ounces(q, h)
	case q.Unit == "pint" || q.Unit == "quart" || q.Unit == "gallon" || q.Unit == "fl oz" || q.Unit == "stick":
		out = eighths(q, h)
	default:
		out = counted(q, name, h)
	}
	if q.Size != nil {
		out += " (" + write(q.Size, h) + ")"
	}
	if q.About && !strings.HasPrefix(out, "about ") {
		out = "about " + out
	}
	return out
}

// step rounds v to the nearest multiple of one of the steps: the first that is
// near enough, else the last.
func step(v float64, steps ...float64) float64 {
	r := v
	for _, s := range steps {
		if r = math.Round(v/s) * s; r > 0 && near(r, v, fine) {
			return r
		}
	}
	if r <= 0 {
		return v
	}
	return r
}

// decimals writes grams or millilitres in steps of 5 where that is near enough,
// and from 1000 in the larger unit.
func decimals(q *schema.Quantity, large string, h hand) string {
	round := func(v float64) float64 {
		switch {
		case v < 2:
			return step(v, 0.25, 0.1)
		case v < 10:
			return step(v, 1, 0.5)
		case v < 100:
			return step(v, 5, 1)
		case v < 1000:
			return step(v, 5)
		}
		return step(v, 50, 10)
	}
	out := &schema.Quantity{Min: round(q.Min), Max: round(q.Max), Unit: q.Unit}
	if out.Max >= 1000 {
		out.Min, out.Max, out.Unit = out.Min/1000, out.Max/1000, large
	}
	return write(out, h)
}

// ounces writes pounds and ounces: whole and quarter pounds, pounds and ounces
// together, or ounces in quarters.
func ounces(q *schema.Quantity, h hand) string {
	per := 1.0
	if q.Unit == "lb" {
		per = 16
	}
	lo, hi := q.Min*per, q.Max*per
	one := func(oz float64) string {
		if lb := step(oz/16, 0.25); oz >= 12 && near(lb, oz/16, fine) {
			return write(&schema.Quantity{Min: lb, Max: lb, Unit: "lb"}, h)
		}
		if oz < 16 {
			v, slack := step(oz, 0.5, 0.25), false
			if !near(v, oz, fine) || v == oz {
				v, slack = marked(oz, ounceMarks)
			}
			out := write(&schema.Quantity{Min: v, Max: v, Unit: "oz"}, h)
			switch {
			case oz < 1.0/16:
				return "less than " + out
			case slack:
				return "about " + out
			}
			return out
		}
		lb, rest := math.Floor(oz/16), 0.0
		if rest = math.Round(math.Mod(oz, 16)); rest == 16 {
			lb, rest = lb+1, 0
		}
		out := write(&schema.Quantity{Min: lb, Max: lb, Unit: "lb"}, h)
		if rest > 0 {
			out += " " + write(&schema.Quantity{Min: rest, Max: rest, Unit: "oz"}, h)
		}
		return out
	}
	return ends(one(lo), one(hi))
}

// ends writes a range of two written amounts, naming a shared unit once.
func ends(lo, hi string) string {
	if lo == hi {
		return lo
	}
	a, unitA := cutUnit(lo)
	b, unitB := cutUnit(hi)
	plainFigures := !strings.ContainsFunc(a+b, unicode.IsLetter)
	if unitA != "" && strings.TrimSuffix(unitA, "s") == strings.TrimSuffix(unitB, "s") && plainFigures {
		return a + " to " + b + " " + unitB
	}
	return lo + " to " + hi
}

func cutUnit(s string) (figure, unit string) {
	i := strings.LastIndex(s, " ")
	if i < 0 || strings.ContainsAny(s[i+1:], "0123456789") {
		return s, ""
	}
	return s[:i], s[i+1:]
}

// eighths writes a unit in whole ones and the fractions measures are marked in.
func eighths(q *schema.Quantity, h hand) string {
	lo, slackLo := marked(q.Min, cupMarks)
	hi, slackHi := marked(q.Max, cupMarks)
	out := write(&schema.Quantity{Min: lo, Max: hi, Unit: q.Unit}, h)
	if slackLo || slackHi {
		return "about " + out
	}
	return out
}

// What is marked on measuring cups and spoons: common practice.
var (
	cupMarks   = []float64{0, 1.0 / 8, 1.0 / 4, 1.0 / 3, 1.0 / 2, 2.0 / 3, 3.0 / 4, 1}
	largeMarks = []float64{0, 1.0 / 4, 1.0 / 3, 1.0 / 2, 2.0 / 3, 3.0 / 4, 1}
	ounceMarks = []float64{0, 1.0 / 8, 1.0 / 4, 3.0 / 8, 1.0 / 2, 5.0 / 8, 3.0 / 4, 7.0 / 8, 1}
	tbspMarks  = []float64{0, 1.0 / 2, 1}
	tspMarks   = []float64{0, 1.0 / 8, 1.0 / 4, 1.0 / 2, 3.0 / 4, 1}
)

// marked gives the nearest figure made of a whole number and a mark, never
// zero, and whether it's further off than a kitchen overlooks.
func marked(v float64, marks []float64) (float64, bool) {
	whole, best := math.Floor(v), math.Inf(1)
	for _, m := range marks {
		if c := whole + m; c > 0 && math.Abs(c-v) < math.Abs(best-v) {
			best = c
		}
	}
	return best, !near(best, v, coarse)
}

// cup is the teaspoons of a cup: 48 of a US one, 50 of a metric one.
func (k kitchen) cup() float64 {
	cup, _ := schema.VolumeIn("cup", k.measures)
	tsp, _ := schema.VolumeIn("tsp", k.measures)
	return cup / tsp
}

// spoons writes cups, tablespoons and teaspoons: in one measure where one is
// near enough, else in two. A tablespoon is three teaspoons in every system.
func (k kitchen) spoons(q *schema.Quantity) string {
	cup := k.cup()
	perTsp := map[string]float64{"cup": cup, "tbsp": 3, "tsp": 1}[q.Unit]
	lo, hi := q.Min*perTsp, q.Max*perTsp
	if lo == hi {
		return k.teaspoons(lo)
	}
	// Both ends of a range in the unit that suits the larger.
	unit, per, marks := "tsp", 1.0, tspMarks
	switch {
	case hi >= 12:
		unit, per, marks = "cup", cup, largeMarks
	case hi >= 3:
		unit, per, marks = "tbsp", 3, tbspMarks
	}
	a, slackA := marked(lo/per, marks)
	b, slackB := marked(hi/per, marks)
	if slackA || slackB {
		return ends(k.teaspoons(lo), k.teaspoons(hi))
	}
	return write(&schema.Quantity{Min: a, Max: b, Unit: unit}, k.hand)
}

func (k kitchen) teaspoons(t float64) string {
	cup := k.cup()
	one := func(v float64, unit string) string {
		return write(&schema.Quantity{Min: v, Max: v, Unit: unit}, k.hand)
	}
	if t >= 12 {
		cups, slack := marked(t/cup, largeMarks)
		if !slack && near(cups, t/cup, fine) {
			return one(cups, "cup")
		}
		// A mark below, and the rest by the spoon: the mark that comes nearest.
		best, spoons := 0.0, 0.0
		for _, m := range largeMarks {
			below := math.Floor(t/cup) + m
			rest := math.Round((t - below*cup) / 3)
			if below > 0 && rest >= 1 && math.Abs(below*cup+rest*3-t) <= math.Abs(best*cup+spoons*3-t) {
				best, spoons = below, rest
			}
		}
		switch total := best*cup + spoons*3; {
		case near(total, t, coarse):
			return one(best, "cup") + " + " + one(spoons, "tbsp")
		case !slack:
			return one(cups, "cup")
		}
		return "about " + one(cups, "cup")
	}
	if t >= 3 {
		tbsp, _ := marked(t/3, tbspMarks)
		if near(tbsp, t/3, fine) {
			return one(tbsp, "tbsp")
		}
		whole := math.Floor(t / 3)
		rest := math.Round((t-whole*3)*2) / 2
		if !near(whole*3+rest, t, coarse) {
			rest = math.Round((t-whole*3)*4) / 4
		}
		switch rest {
		case 0:
			return one(whole, "tbsp")
		case 3:
			return one(whole+1, "tbsp")
		}
		return one(whole, "tbsp") + " + " + one(rest, "tsp")
	}
	if t < 1.0/12 {
		return "less than " + one(1.0/8, "tsp")
	}
	tsp, slack := marked(t, tspMarks)
	if slack {
		return "about " + one(tsp, "tsp")
	}
	return one(tsp, "tsp")
}

// wholeOnly are things counted that nobody halves.
func wholeOnly(unit, name string) bool {
	switch unit {
	case "pinch", "dash", "drop", "handful", "sprig", "leaf", "clove", "packet", "piece", "sheet", "slice":
		return true
	case "":
		for _, w := range strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == '-' || r == ',' }) {
			switch strings.TrimSuffix(w, "s") {
			case "egg", "yolk", "white", "cookie", "biscuit", "servings", "serving", "people", "person", "portion":
				return true
			}
		}
	}
	return false
}

// counted writes things that are counted: whole ones, halves of what can be
// halved, and otherwise the two whole numbers the exact figure lies between.
func counted(q *schema.Quantity, name string, h hand) string {
	noun := unitName(q.Unit, q.Max > 1)
	with := func(figure string) string {
		if noun == "" {
			return figure
		}
		return figure + " " + noun
	}
	if q.Max < 0.95 {
		switch q.Unit {
		case "pinch", "dash", "drop", "handful", "sprig", "leaf":
			return "a small " + unitName(q.Unit, false)
		}
		v, slack := marked(q.Max, []float64{0, 1.0 / 4, 1.0 / 3, 1.0 / 2, 2.0 / 3, 3.0 / 4, 1})
		if slack {
			return "about " + with(number(v, h))
		}
		return with(number(v, h))
	}
	settle := func(v float64) (lo, hi float64) {
		if r := math.Round(v); r >= 1 && near(r, v, coarse) {
			return r, r
		}
		if half := math.Floor(v) + 0.5; !wholeOnly(q.Unit, name) && near(half, v, coarse) {
			return half, half
		}
		return math.Max(1, math.Floor(v)), math.Ceil(v)
	}
	lo, up := settle(q.Min)
	down, hi := settle(q.Max)
	if q.Min < 0.95 {
		lo, _ = marked(q.Min, largeMarks)
	}
	if q.Min != q.Max && (lo != up || down != hi) {
		// The range of the talk, widened to whole ones.
		return with(number(lo, h) + " to " + number(hi, h))
	}
	if lo == hi {
		return with(number(lo, h))
	}
	return with(number(lo, h) + " to " + number(hi, h))
}

// household tells whether a unit belongs to cups, ounces and inches rather
// than to the metric system.
func household(unit string) bool {
	switch unit {
	case "cup", "tbsp", "tsp", "fl oz", "pint", "quart", "gallon", "oz", "lb", "stick", "inch":
		return true
	}
	return false
}

// other gives the same amount in the other system of measures, "" where there
// is none to give. grams are those worked out for the ingredient, nil if none.
func (k kitchen) other(q *schema.Quantity, grams *schema.Grams, name string) string {
	if q == nil || q.Vague != "" || q.Max <= 0 {
		return ""
	}
	to := func(per float64, unit string) string {
		return k.amount(&schema.Quantity{Min: q.Min * per, Max: q.Max * per, Unit: unit, About: q.About}, name)
	}
	ounce, _ := schema.Mass("oz")
	if g, ok := schema.Mass(q.Unit); ok {
		if metric(q.Unit) {
			return to(g/ounce, "oz")
		}
		return to(g, "g")
	}
	if cm, ok := schema.Centimetres(q.Unit); ok {
		inch, _ := schema.Centimetres("inch")
		if metric(q.Unit) {
			return lengths(q, cm/inch, "inch", k.hand)
		}
		return lengths(q, cm, "cm", k.hand)
	}
	if ml, _ := schema.Volume(q.Unit); metric(q.Unit) && ml > 0 {
		cup, _ := schema.Volume("cup")
		return kitchen{k.hand, ""}.amount(&schema.Quantity{Min: q.Min * ml / cup, Max: q.Max * ml / cup, Unit: "cup", About: q.About}, name)
	}
	if grams != nil && grams.Max > 0 && !(liquid(name) && schema.DimensionOf(q.Unit) == schema.VolumeDimension) {
		return k.amount(&schema.Quantity{Min: grams.Min, Max: grams.Max, Unit: "g", About: q.About}, name)
	}
	if ml, ok := schema.VolumeIn(q.Unit, k.measures); ok {
		return to(ml, "ml")
	}
	return ""
}

// liquid tells whether a thing is poured, so that its volume says more than its
// weight.
func liquid(name string) bool {
	words := strings.Fields(strings.ToLower(name))
	if len(words) == 0 {
		return false
	}
	switch words[len(words)-1] {
	case "water", "milk", "buttermilk", "cream", "stock", "broth", "wine", "beer", "cider", "juice", "oil", "vinegar", "rum", "brandy", "sherry", "coffee", "tea",
		"kefir", "passata", "sauce":
		return true
	}
	return false
}

// lengths converts a length or the sides of a tin.
func lengths(q *schema.Quantity, per float64, unit string, h hand) string {
	round := func(v float64) float64 {
		if unit == "cm" {
			if v < 3 {
				return step(v, 0.5, 0.1)
			}
			return step(v, 1, 0.5)
		}
		marks := []float64{0, 1.0 / 8, 1.0 / 4, 1.0 / 2, 3.0 / 4, 1}
		if v > 3 {
			marks = []float64{0, 1.0 / 4, 1.0 / 2, 3.0 / 4, 1}
		}
		v, _ = marked(v, marks)
		return v
	}
	out := &schema.Quantity{Min: round(q.Min * per), Max: round(q.Max * per), Unit: unit, About: q.About}
	for _, side := range q.By {
		out.By = append(out.By, round(side*per))
	}
	return write(out, h)
}

// otherScale gives a temperature in the other scale. Oven heat is rounded to 5
// degrees, as dials are marked; below 120 C, where a degree matters to meat and
// sugar, to 1 (common practice).
func otherScale(q schema.Quantity) (schema.Quantity, bool) {
	out := schema.Quantity{Unit: "C", About: q.About}
	if q.Unit == "C" {
		out.Unit = "F"
	}
	convert := func(v float64) (float64, bool) {
		f, ok := schema.Fahrenheit(v, q.Unit)
		c := schema.FahrenheitToCelsius(f)
		to := c
		if out.Unit == "F" {
			to = f
		}
		if c < 120 {
			return math.Round(to), ok
		}
		return math.Round(to/5) * 5, ok
	}
	var okMin, okMax bool
	out.Min, okMin = convert(q.Min)
	out.Max, okMax = convert(q.Max)
	return out, okMin && okMax
}
