package nutrition

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"quern/schema"
)

// ErrNoWeight is wrapped by every reason an amount has no grams.
var ErrNoWeight = errors.New("no weight")

// The rules for small measures no table gives: common practice.
const (
	pinchOfTsp = 1.0 / 16 // a pinch, in teaspoons
	dashOfTsp  = 1.0 / 8  // a dash, in teaspoons
	dropMl     = 0.05     // a drop, in millilitres
)

// A handful is a quarter to half a cup, and a knob one to two tablespoons
// where a food has no weight of its own for it: common practice.
const (
	handfulLeast, handfulMost = 0.25, 0.5 // cups
	knobLeast, knobMost       = 1.0, 2.0  // tablespoons
)

// sizeWords are what stands before a plain count of things that come in sizes.
var sizeWords = map[string]string{
	"small": "small", "little": "small", "baby": "small", "mini": "small", "tiny": "small", "medium": "medium", "regular": "medium",
	"large": "large", "big": "large", "huge": "large", "jumbo": "jumbo", "extra large": "extra large",
}

// formWords bring the words for how a thing is cut to one, so that "diced" meets
// "cup, cubes" and "sliced" meets "cup slices".
var formWords = map[string]string{
	"chopped": "chopped", "chop": "chopped", "minced": "chopped", "diced": "diced", "dice": "diced", "cubed": "diced", "cube": "diced",
	"sliced": "sliced", "slice": "sliced", "grated": "grated", "grate": "grated", "shredded": "shredded", "shred": "shredded",
	"ground": "ground", "meal": "ground", "whole": "whole", "halved": "halved", "half": "halved", "mashed": "mashed", "pureed": "pureed",
	"puree": "pureed", "melted": "melted", "crumbled": "crumbled", "crumb": "crumbs", "crushed": "crumbs", "packed": "packed",
	"unpacked": "unpacked", "sifted": "sifted", "sieved": "sifted", "flaked": "flaked", "slivered": "slivered", "strip": "strips",
	"matchstick": "strips", "julienned": "strips", "floret": "florets", "floweret": "florets", "spear": "spear", "leaf": "leaves",
	"wedge": "wedge", "ring": "rings", "ball": "ball", "juice": "juice", "juiced": "juice", "squeezed": "juice", "cooked": "cooked", "piece": "pieces",
	"chunk": "chunks", "section": "sections", "segment": "sections", "cherry": "cherry", "plum": "plum", "italian": "plum", "stick": "stick",
	"pod": "pod", "star": "star", "sachet": "sachet", "bulb": "bulb", "fillet": "fillet", "steak": "steak", "rasher": "rasher", "link": "link",
	"patty": "patty", "loaf": "loaf", "baguette": "baguette", "square": "square", "bar": "bar", "tail": "tail", "nest": "nest", "wrapper": "wrapper",
	"scoop": "scoop", "bottle": "bottle", "shot": "shot", "block": "block", "puffed": "puffed", "whipped": "whipped", "flour": "flour", "chip": "chips",
	"spaghetti": "spaghetti", "elbow": "elbows", "macaroni": "elbows", "penne": "penne", "farfalle": "farfalle", "rotini": "rotini", "fusilli": "rotini",
	"shell": "shells", "lasagna": "lasagna", "lasagne": "lasagna", "snipped": "chopped", "torn": "torn",
}

// states are forms a thing is only in when the cook says so, never by itself.
var states = map[string]bool{"melted": true, "mashed": true, "pureed": true, "cooked": true, "unpacked": true, "whipped": true, "crumbs": true, "juice": true}

// Grams weighs an ingredient's amount as the food: a mass as it is, a volume by
// the weight of a cup of it in the form the cook named, a count by the weight
// of one, a container by its stated size or its usual one. measures is the
// document's ("", "us", "metric" or "imperial"). Min and Max differ where the
// amount is a range or the form isn't told; Rule says how it was done, with the
// source of the weight. What cannot be worked out is an error that wraps
// ErrNoWeight and says why; nothing is guessed.
func Grams(f Food, ing *schema.Ingredient, measures string) (schema.Grams, error) {
	return weighed(f, ing, measures, false)
}

// aboutShare is how far an amount said with "about" may be from the number, as
// a share of it: common practice.
const aboutShare = 0.10

// leeway gives the least and most grams the words of an amount allow, where
// Grams gives g: beside a range, an amount said with "about" is that within a
// tenth, and things that come in sizes are small to large where no size was
// said.
func leeway(f Food, ing *schema.Ingredient, measures string, g schema.Grams) (least, most float64) {
	wide, err := weighed(f, ing, measures, true)
	if err != nil {
		return g.Min, g.Max
	}
	return math.Min(wide.Min, g.Min), math.Max(wide.Max, g.Max)
}

// weighed is Grams; loose widens the answer as leeway says.
func weighed(f Food, ing *schema.Ingredient, measures string, loose bool) (schema.Grams, error) {
	if ing.Amount == nil {
		return schema.Grams{}, fmt.Errorf("%w: the amount was never said", ErrNoWeight)
	}
	w := weigher{food: f, ing: ing, measures: measures, loose: loose}
	w.words = normal(ing.Name + " " + ing.Preparation)
	amounts := []*schema.Quantity{ing.Amount}
	if s := ing.SecondAmount; s != nil {
		// A weight said beside another measure is the better of the two.
		if schema.DimensionOf(s.Unit) == schema.MassDimension && schema.DimensionOf(ing.Amount.Unit) != schema.MassDimension {
			amounts = []*schema.Quantity{s, ing.Amount}
		} else {
			amounts = append(amounts, s)
		}
	}
	var first error
	for _, q := range amounts {
		g, err := w.weigh(q)
		if err == nil {
			g.Min, g.Max = round(g.Min, 2), round(g.Max, 2)
			return g, nil
		}
		if first == nil {
			first = err
		}
	}
	return schema.Grams{}, first
}

// weigher holds what one weighing needs.
type weigher struct {
	food     Food
	ing      *schema.Ingredient
	measures string
	words    []string // normal words of the name and the preparation
	loose    bool     // give all that the words allow, as leeway says
}

func (w *weigher) weigh(q *schema.Quantity) (schema.Grams, error) {
	if q.Vague != "" || q.Max <= 0 || q.Overnight || math.IsInf(q.Max, 0) || math.IsNaN(q.Max) || math.IsNaN(q.Min) {
		return schema.Grams{}, fmt.Errorf("%w: %q gives no number", ErrNoWeight, q.String())
	}
	if w.loose && q.About {
		wide := *q
		wide.Min, wide.Max = q.Min*(1-aboutShare), q.Max*(1+aboutShare)
		q = &wide
	}
	if g, ok := schema.Mass(q.Unit); ok {
		return w.mass(q, g, q.String()), nil
	}
	if ml, ok := schema.VolumeIn(q.Unit, w.measures); ok {
		return w.volume(q.Min, q.Max, ml, q.Unit, q.String())
	}
	switch q.Unit {
	case "can", "jar", "packet":
		return w.container(q)
	case "pinch", "dash", "drop", "handful", "knob":
		return w.small(q)
	case "inch", "cm", "mm":
		return w.length(q.Min, q.Max, q.Unit, q.String())
	}
	unit := q.Unit
	if unit == "piece" {
		unit = ""
	}
	if unit == "" {
		if s := w.size(q); s != nil {
			if g, ok := schema.Mass(s.Unit); ok {
				lo, hi := q.Min*s.Min*g, q.Max*s.Max*g
				return w.eaten(lo, hi, fmt.Sprintf("%s of %s", q.String(), s.String())), nil
			}
			if schema.DimensionOf(s.Unit) == schema.LengthDimension && len(s.By) == 0 {
				if g, err := w.length(q.Min*s.Min, q.Max*s.Max, s.Unit, fmt.Sprintf("%s of %s", q.String(), s.String())); err == nil {
					return g, nil
				}
			}
		}
	}
	return w.count(q, unit)
}

// size is the size said of each piece or container.
func (w *weigher) size(q *schema.Quantity) *schema.Quantity {
	switch {
	case q.Size != nil:
		return q.Size
	case w.ing.Size != nil:
		return w.ing.Size
	}
	return nil
}

// mass is an amount in units of g grams. Where a weight is as bought, the part
// thrown away is left out.
func (w *weigher) mass(q *schema.Quantity, g float64, text string) schema.Grams {
	return w.eaten(q.Min*g, q.Max*g, text)
}

// ready are words that say a weight is already of what is eaten.
var ready = map[string]bool{"boneless": true, "boned": true, "shelled": true, "pitted": true, "stoned": true, "filleted": true,
	"meat": true, "flesh": true, "juice": true, "drained": true, "cubed": true, "diced": true, "grated": true, "florets": true, "floret": true}

func (w *weigher) eaten(lo, hi float64, text string) schema.Grams {
	share := w.food.Eaten
	for _, word := range w.words {
		if ready[word] {
			share = 1
		}
	}
	if w.food.Drained > 0 && share < 1 {
		share = 1
	}
	if strings.Contains(strings.ToLower(w.ing.Preparation), "weighed without") {
		share = 1
	}
	if share <= 0 || share >= 1 {
		return schema.Grams{Min: lo, Max: hi, Rule: text + ", by weight"}
	}
	by := "common practice"
	if w.food.Row != "" && !strings.Contains(w.food.Note, "common practice") {
		by = w.food.Source
	}
	return schema.Grams{Min: lo * share, Max: hi * share,
		Rule: fmt.Sprintf("%s as bought, %s%% of it eaten: %s", text, number(100*share), by)}
}

// volume is an amount of measures of ml millilitres each.
func (w *weigher) volume(least, most, ml float64, unit, text string) (schema.Grams, error) {
	m, spread, ok := w.bestVolume(unit)
	if !ok {
		return schema.Grams{}, fmt.Errorf("%w: what one %s of %s weighs is not in the table", ErrNoWeight, unit, w.food.Key)
	}
	usMl, _ := schema.Volume(m.Unit)
	lo, hi := m.Grams, m.Grams
	if spread != nil {
		lo, hi = math.Min(m.Grams, spread.Grams), math.Max(m.Grams, spread.Grams)
	}
	form := m.Form
	if spread != nil {
		form += " to " + spread.Form
	}
	each := number(lo)
	if hi != lo {
		each += " to " + number(hi)
	}
	rule := text
	if form != "" {
		rule += ", " + form
	}
	rule = fmt.Sprintf("%s, %s g a %s: %s", rule, each, m.Unit, m.Source)
	return schema.Grams{Min: least * lo * ml / usMl, Max: most * hi * ml / usMl, Rule: rule}, nil
}

// bestVolume gives the weight of a volume of the food: the measure whose form
// is the cook's, else the form a cup of it usually is, else one without a form.
// Where only forms the cook did not name are left, spread is the other end.
func (w *weigher) bestVolume(unit string) (best Measure, spread *Measure, ok bool) {
	var all []Measure
	for _, m := range w.food.Measures {
		if ml, isVolume := schema.Volume(m.Unit); isVolume && ml > 0 {
			all = append(all, m)
		}
	}
	return w.best(all, unit)
}

// best chooses among measures of one dimension, with those in unit before the
// others.
func (w *weigher) best(all []Measure, unit string) (best Measure, spread *Measure, ok bool) {
	if len(all) == 0 {
		return Measure{}, nil, false
	}
	forms := map[string]bool{}
	for _, word := range w.words {
		if f, known := formWords[word]; known {
			forms[f] = true
		}
	}
	score := func(m Measure) int {
		s, named, strange := 0, 0, 0
		for _, word := range normal(m.Form) {
			f, known := formWords[word]
			switch {
			case known && forms[f]:
				named++
			case known && states[f]:
				strange++
			}
		}
		switch {
		case named > 0 && strange == 0:
			s = 60 + named
		case strange > 0:
			s = 10
		case m.Form == "" || w.food.Form != "" && hasForm(m.Form, w.food.Form):
			s = 40
			if w.food.Form != "" && hasForm(m.Form, w.food.Form) {
				s = 45
			}
		default:
			s = 30
		}
		return s
	}
	top := -1
	for _, m := range all {
		s := 2 * score(m)
		if m.Unit == unit {
			s++
		}
		if s > top {
			top, best = s, m
		}
	}
	if top/2 >= 40 {
		return best, nil, true
	}
	// Only forms that were not named: the lightest to the heaviest of them.
	perMl := func(m Measure) float64 {
		if ml, ok := schema.Volume(m.Unit); ok {
			return m.Grams / ml
		}
		return m.Grams
	}
	least, most := best, best
	for _, m := range all {
		if score(m) != score(best) || m.Unit != best.Unit {
			continue
		}
		if perMl(m) < perMl(least) {
			least = m
		}
		if perMl(m) > perMl(most) {
			most = m
		}
	}
	if least.Grams == most.Grams {
		return best, nil, true
	}
	return least, &most, true
}

func hasForm(form, want string) bool {
	for _, word := range normal(form) {
		if word == want || formWords[word] == want {
			return true
		}
	}
	return false
}

// small weighs pinches, dashes, drops, handfuls and knobs by a named rule,
// unless the food has a weight of its own for them.
func (w *weigher) small(q *schema.Quantity) (schema.Grams, error) {
	if m, ok := w.named(q.Unit); ok {
		return w.times(q, m), nil
	}
	tsp, _ := schema.Volume("tsp")
	cup, _ := schema.Volume("cup")
	tbsp, _ := schema.Volume("tbsp")
	least, most, rule := 1.0, 1.0, ""
	var ml float64
	switch q.Unit {
	case "pinch":
		ml, rule = tsp*pinchOfTsp, "a pinch is 1/16 tsp, common practice"
	case "dash":
		ml, rule = tsp*dashOfTsp, "a dash is 1/8 tsp, common practice"
	case "drop":
		ml, rule = dropMl, "a drop is 0.05 ml, common practice"
	case "handful":
		ml, least, most, rule = cup, handfulLeast, handfulMost, "a handful is 1/4 to 1/2 cup, common practice"
	case "knob":
		if m, ok := w.named("inch"); ok {
			g := w.times(q, m)
			g.Rule = q.String() + ", a piece an inch long: " + m.Source
			return g, nil
		}
		ml, least, most, rule = tbsp, knobLeast, knobMost, "a knob is 1 to 2 tbsp, common practice"
	}
	unit := map[string]string{"handful": "cup", "knob": "tbsp"}[q.Unit]
	if unit == "" {
		unit = "tsp"
	}
	g, err := w.volume(q.Min*least, q.Max*most, ml, unit, q.String())
	if err != nil {
		return g, err
	}
	g.Rule = strings.Replace(g.Rule, q.String(), q.String()+" ("+rule+")", 1)
	return g, nil
}

// length weighs a piece by its length, for a food with a weight an inch.
func (w *weigher) length(least, most float64, unit, text string) (schema.Grams, error) {
	m, ok := w.named("inch")
	cm, isLength := schema.Centimetres(unit)
	if !ok || !isLength {
		return schema.Grams{}, fmt.Errorf("%w: what one %s of %s weighs is not in the table", ErrNoWeight, unit, w.food.Key)
	}
	inch, _ := schema.Centimetres("inch")
	each := m.Grams * cm / inch
	return schema.Grams{Min: least * each, Max: most * each, Rule: fmt.Sprintf("%s, %s g an inch: %s", text, number(m.Grams), m.Source)}, nil
}

// named is the food's own weight for a unit, whatever its form.
func (w *weigher) named(unit string) (Measure, bool) {
	for _, m := range w.food.Measures {
		if m.Unit == unit {
			return m, true
		}
	}
	return Measure{}, false
}

func (w *weigher) times(q *schema.Quantity, m Measure) schema.Grams {
	return schema.Grams{Min: q.Min * m.Grams, Max: q.Max * m.Grams,
		Rule: fmt.Sprintf("%s, %s g %s: %s", q.String(), number(m.Grams), one(m), m.Source)}
}

// one writes one of a measure with its article: "a stick", "a large one",
// `a medium one (2-1/2" dia)`, "an ear".
func one(m Measure) string {
	what := strings.TrimSpace(m.Form + " " + m.Unit)
	if m.Unit == "" {
		for _, size := range []string{"extra large", "jumbo", "large", "medium", "small", "extra small"} {
			rest, ok := strings.CutPrefix(m.Form, size)
			if !ok || rest != "" && rest[0] != ' ' {
				continue
			}
			if rest = strings.TrimSpace(rest); rest == "" || strings.ContainsAny(rest, "0123456789") {
				what = size + " one"
				if rest != "" {
					what += " (" + rest + ")"
				}
			}
			break
		}
	}
	if what == "" {
		what = "piece"
	}
	if strings.ContainsAny(what[:1], "aeio") {
		return "an " + what
	}
	return "a " + what
}

// container weighs cans, jars and packets: by the size said, else by what the
// food's usual one holds. Where the figures are those of the drained food, or the
// cook drains it, the liquid is left out.
func (w *weigher) container(q *schema.Quantity) (schema.Grams, error) {
	drained := false
	for _, word := range w.words {
		if word == "drained" || word == "rinsed" {
			drained = true
		}
	}
	s := w.size(q)
	if s == nil {
		if m, ok := w.named(q.Unit); ok {
			g := w.times(q, m)
			// A usual can of 15 ounces with its liquid is poured off too.
			if drained && w.food.Drained > 0 && !strings.Contains(m.Form+m.Source, "drained") && !w.drainedRow() {
				g.Min, g.Max = g.Min*w.food.Drained, g.Max*w.food.Drained
				g.Rule += fmt.Sprintf("; drained, %s%%: %s", number(100*w.food.Drained), w.food.DrainedBy)
			}
			return g, nil
		}
		return schema.Grams{}, fmt.Errorf("%w: the size of the %s was never said", ErrNoWeight, q.Unit)
	}
	text := fmt.Sprintf("%s of %s", plain(q), s.String())
	var g schema.Grams
	if mass, ok := schema.Mass(s.Unit); ok {
		g = schema.Grams{Min: q.Min * s.Min * mass, Max: q.Max * s.Max * mass, Rule: text + ", by weight"}
	} else if ml, ok := schema.VolumeIn(s.Unit, w.measures); ok {
		var err error
		if g, err = w.volume(q.Min*s.Min, q.Max*s.Max, ml, s.Unit, text); err != nil {
			return g, err
		}
	} else {
		return schema.Grams{}, fmt.Errorf("%w: %q tells no weight of the %s", ErrNoWeight, s.String(), q.Unit)
	}
	if w.food.Drained > 0 && (drained || w.drainedRow()) {
		g.Min, g.Max = g.Min*w.food.Drained, g.Max*w.food.Drained
		g.Rule += fmt.Sprintf("; drained, %s%%: %s", number(100*w.food.Drained), w.food.DrainedBy)
	}
	return g, nil
}

// drainedRow tells that the row's figures are of the food without its liquid.
func (w *weigher) drainedRow() bool {
	for _, m := range w.food.Measures {
		if m.Unit == "can" && strings.Contains(m.Form, "drained") {
			return true
		}
	}
	return false
}

// plain writes a quantity without its size.
func plain(q *schema.Quantity) string {
	c := *q
	c.Size, c.Text = nil, ""
	return c.String()
}

// count weighs a number of whole things, slices, cloves, heads and so on.
func (w *weigher) count(q *schema.Quantity, unit string) (schema.Grams, error) {
	var all []Measure
	for _, m := range w.food.Measures {
		if m.Unit == unit {
			all = append(all, m)
		}
	}
	if len(all) == 0 {
		// A clove, stalk or head may stand as a plain count, and the other way about.
		for _, m := range w.food.Measures {
			if unit != "" && m.Unit == "" && (m.Form == "" || hasForm(m.Form, unit)) {
				all = append(all, m)
			}
			if unit == "" && (m.Unit == "head" || m.Unit == "stalk" || m.Unit == "leaf" || m.Unit == "sheet") {
				all = append(all, m)
			}
		}
	}
	if len(all) == 0 {
		what := unit
		if what == "" {
			what = "piece"
		}
		return schema.Grams{}, fmt.Errorf("%w: what one %s of %s weighs is not in the table", ErrNoWeight, what, w.food.Key)
	}
	m := w.bestCount(all)
	g := w.times(q, m)
	if w.loose && w.sizeSaid() == "" && w.size(q) == nil {
		for _, other := range all {
			if comesInSizes(other.Form) && sameForms(other.Form, m.Form) {
				g.Min, g.Max = math.Min(g.Min, q.Min*other.Grams), math.Max(g.Max, q.Max*other.Grams)
			}
		}
	}
	return g, nil
}

// comesInSizes tells that a measure is of a small, medium or large one. Those
// beyond, the extra large and the like, are only meant when they are said.
func comesInSizes(form string) bool {
	words := normal(form)
	return len(words) > 0 && (words[0] == "small" || words[0] == "medium" || words[0] == "large")
}

// sameForms tells that two measures are of a thing cut in the same way.
func sameForms(a, b string) bool {
	forms := func(form string) string {
		var out []string
		for _, word := range normal(form) {
			if f, ok := formWords[word]; ok {
				out = append(out, f)
			}
		}
		return strings.Join(out, " ")
	}
	return forms(a) == forms(b)
}

// sizeSaid is the size the name or the preparation says, "" for none.
func (w *weigher) sizeSaid() string {
	text := " " + strings.Join(w.words, " ") + " "
	for _, s := range []string{"extra large", "jumbo", "huge", "large", "big", "medium", "small", "little", "baby", "mini", "tiny"} {
		if strings.Contains(text, " "+s+" ") {
			return sizeWords[s]
		}
	}
	return ""
}

// bestCount chooses the weight of one: of the size and form said, else of the
// medium or plain one, else the table's first.
func (w *weigher) bestCount(all []Measure) Measure {
	size := w.sizeSaid()
	// How it is cut later does not change what was counted: only the name tells.
	forms := map[string]bool{}
	for _, word := range normal(w.ing.Name) {
		if f, known := formWords[word]; known {
			forms[f] = true
		}
	}
	best, top := all[0], -1
	for _, m := range all {
		form := " " + strings.Join(normal(m.Form), " ") + " "
		s := 0
		named, other := false, false
		for _, word := range strings.Fields(form) {
			if f, known := formWords[word]; known {
				if forms[f] {
					named = true
				} else if f != "whole" {
					other = true
				}
			}
		}
		if named {
			s += 20
		} else if other {
			s -= 4
		}
		mSize := ""
		for _, z := range []string{"extra large", "jumbo", "large", "medium", "small"} {
			if strings.Contains(form, " "+z+" ") {
				mSize = z
				break
			}
		}
		switch {
		case size != "" && mSize == size:
			s += 10
		case size == "" && (mSize == "medium" || mSize == ""):
			s += 6
			if mSize == "medium" {
				s++
			}
		case size == "" && mSize == "large":
			s += 5
		case size != "" && mSize == "":
			s += 2
		}
		if m.Form == "" {
			s += 3
		}
		if strings.Contains(form, " yield ") || strings.Contains(form, " refuse ") && !strings.Contains(form, "without") {
			s -= 5
		}
		if s > top {
			top, best = s, m
		}
	}
	return best
}

// round keeps places decimals.
func round(v float64, places int) float64 {
	p := math.Pow(10, float64(places))
	return math.Round(v*p) / p
}

// number writes a number to three figures, without trailing noughts.
func number(v float64) string {
	switch {
	case v >= 100:
		return strconv.FormatFloat(math.Round(v), 'f', -1, 64)
	case v >= 10:
		return strconv.FormatFloat(round(v, 1), 'f', -1, 64)
	case v >= 0.1:
		return strconv.FormatFloat(round(v, 2), 'f', -1, 64)
	}
	return strconv.FormatFloat(round(v, 4), 'g', -1, 64)
}
