package safety

import (
	"slices"
	"strings"

	"quern/schema"
)

// Dish is a document read once for the cautions: each ingredient with its
// classes, each step with its words. It holds as long as nothing is changed
// that was said, written or named in the document.
type Dish = dish

// Read reads a document for the cautions.
func Read(doc *schema.Document) *Dish { return read(doc) }

// dish is a document read once for the cautions: each ingredient with its
// classes, each step with its words.
//
// The rules look at each food of a class beside each step, which is little in a
// recipe and much in a megabyte of one sentence. So they weigh at most mostPairs
// such pairs (though fewestFoods of a class always), and the first mostKept of
// the keeping times and of the parts.
type dish struct {
	doc    *schema.Document
	most   int                 // foods of a class that are weighed
	kept   []schema.Storage    // the keeping times that are weighed
	parts  []schema.Part       // the parts that are weighed
	clear  map[string]bool     // places for which some keeping time names what is kept
	hot    *bool               // heated, nil before it was asked for
	raised map[string]bool     // see raisedKind, by the kinds that were asked for
	words  map[string]bool     // of told, nil before they were asked for
	rows   map[string]charts   // found in the chart, by what is kept
	folded map[string][]string // see fold
	table  *tables
	foods  []food
	stages []stage
	title  string          // spaced
	told   string          // the title, the steps and the names of parts and of what is kept, spaced
	toldOf map[string]bool // classes of the foods the steps name
	titled map[string]bool // classes of the foods the title names
}

// What is weighed of a document at most, see dish.
const (
	mostPairs   = 200_000
	fewestFoods = 5
	mostKept    = 500
)

type food struct {
	*schema.Ingredient
	text    string  // name, other names and preparation, spaced
	heard   *quoted // the words it was said in
	classes map[string]bool
}

func (f food) quotes() string { return f.heard.spaced() }

type stage struct {
	*schema.Step
	heard   *quoted         // the words it was said in
	text    string          // everything written and said of the step, spaced
	own     string          // its text, actions and sign of doneness, spaced
	acts    []string        // each action, spaced
	classes map[string]bool // of the foods its text names
}

func (s stage) quotes() string { return s.heard.spaced() }

// quoted are words said, which few rules ask for.
type quoted struct {
	said []schema.Said
	text string
}

// spaced joins the folded words as the function of that name does.
func (q *quoted) spaced() string {
	if q.text == "" {
		quotes := make([]string, len(q.said))
		for i, s := range q.said {
			quotes[i] = s.Quote
		}
		q.text = spaced(quotes...)
	}
	return q.text
}

func read(doc *schema.Document) *dish {
	t := table()
	d := &dish{doc: doc, table: t, title: spaced(doc.Title), toldOf: map[string]bool{}, titled: t.classesIn(fold(doc.Title))}
	d.foods = make([]food, 0, len(doc.Ingredients))
	d.stages = make([]stage, 0, len(doc.Steps))
	d.most = max(fewestFoods, mostPairs/(len(doc.Steps)+1))
	d.kept, d.parts = doc.Storage[:min(len(doc.Storage), mostKept)], doc.Parts[:min(len(doc.Parts), mostKept)]
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		folded := fold(ing.Name)
		classes := t.classesIn(folded)
		if len(t.classOf.find(folded)) == 0 {
			for _, also := range ing.AlsoCalled {
				for c := range t.classesIn(fold(also)) {
					classes[c] = true
				}
			}
		}
		for c := range t.leftOut(folded) {
			delete(classes, c)
		}
		d.foods = append(d.foods, food{ing, spaced(append([]string{ing.Name, ing.Preparation, ing.Vague}, ing.AlsoCalled...)...), &quoted{said: ing.Said}, classes})
	}
	for i := range doc.Steps {
		s := &doc.Steps[i]
		own := spaced(append([]string{s.Text, s.Until}, s.Actions...)...)
		acts := make([]string, len(s.Actions))
		for k, a := range s.Actions {
			acts[k] = spaced(a)
		}
		d.stages = append(d.stages, stage{s, &quoted{said: s.Said}, own + spaced(s.Equipment...), own, acts, t.classesIn(fold(s.Text))})
	}
	var told strings.Builder
	told.WriteString(d.title)
	for _, s := range d.stages {
		told.WriteString(s.own)
		for c := range s.classes {
			d.toldOf[c] = true
		}
	}
	for _, p := range doc.Parts {
		told.WriteString(spaced(p.Name))
	}
	for _, s := range doc.Storage {
		told.WriteString(spaced(s.What))
	}
	d.told = told.String()
	return d
}

// coldWords name a way of making a dish without heat.
var coldWords = words("chill|chilled|no-bake|raw|cold|fridge|refrigerator|freezer|frozen|unbaked|uncooked")

// coldWays returns "", which stands for the whole dish, and the ways whose name
// says that they do without heat: what one such way leaves raw is raw, though
// the other bakes it.
func (d *dish) coldWays() []string {
	names := []string{""}
	for _, w := range d.doc.Ways {
		if coldWords.in(spaced(w.Name)) {
			names = append(names, w.Name)
		}
	}
	return names
}

// ways returns the names of the document's ways, or one empty name where there
// is a single method.
func (d *dish) ways() []string {
	var names []string
	for _, w := range d.doc.Ways {
		names = append(names, w.Name)
	}
	if len(names) == 0 {
		names = []string{""}
	}
	return names
}

func inWay(ways []string, way string) bool {
	return way == "" || len(ways) == 0 || slices.Contains(ways, way)
}

// together tells whether something of one part meets something of another:
// where a part is unknown it may.
func together(a, b string) bool { return a == "" || b == "" || strings.EqualFold(a, b) }

func (f food) is(classes ...string) bool {
	return slices.ContainsFunc(classes, func(c string) bool { return f.classes[c] })
}

func (s stage) names(classes ...string) bool {
	return slices.ContainsFunc(classes, func(c string) bool { return s.classes[c] })
}

func (s stage) uses(id string) bool { return id != "" && slices.Contains(s.Uses, id) }

// does tells whether one of the verbs is among the step's actions, with or
// without what follows it ("pour in"), or stands in its text where a step has no actions.
func (s stage) does(verbs wordSet) bool {
	if len(s.acts) == 0 {
		return verbs.in(s.own)
	}
	return slices.ContainsFunc(s.acts, verbs.in)
}

// speaks tells whether one of the verbs is among the step's actions or stands in the
// words it was said in: "sugar, water, boil to 118 and pour" may be one step that pours.
func (s stage) speaks(verbs wordSet) bool { return s.does(verbs) || verbs.in(s.quotes()) }

// The verbs of heat. "Heat" and "warm" alone are none of these: what is only
// heated may be a pan or an oven.
var (
	inOven  = words("bake|roast|broil|air fry|air-fry")
	onStove = words("fry|pan-fry|saute|sear|simmer|boil|cook|deep-fry|deep fry|shallow fry|shallow-fry|stir-fry|stir fry|brown|poach|steam|braise|stew|blanch|scald|" +
		"sweat|reduce|scramble|parboil|parcook|sizzle|char|caramelise|caramelize|crisp|crisp up|render|hard-boil|batch cook|blister")
	otherwise = words("grill|barbecue|griddle|toast|microwave|pressure cook|pressure-cook|slow cook|slow-cook|smoke|sous vide|sous-vide|process|nuke|braai|spit-roast")
	heating   = words("heat|warm|bring|melt|flame|flambe|deglaze|keep warm|bubble")
)

// cooks tells whether the step cooks food: a verb of heat among its actions.
func (s stage) cooks() bool {
	return s.does(inOven) || s.does(onStove) || s.does(otherwise)
}

var (
	// What tells that something is heated, though no verb of a step says so.
	hotWords = words("oven|skillet|griddle|frying pan|frying|fry|tawa|comal|wok|waffle iron|steamer|steam|fryer|grill|stove|burner|hob|boil|boiling|simmer|bake|baked|toaster|microwave|" +
		"heat|deep-fry|cooked|cook|broiler|charcoal|minutes a side|minute a side|minutes each side|minutes per side|minutes on each side|hot pan|hot oil|real hot|good and hot|foaming|smoking hot")
	coldVerbs = words("chill|freeze|refrigerate")
	coldPlace = words("in the fridge|into the fridge|in the refrigerator|into the refrigerator|in the freezer|into the freezer")
)

// heats tells whether a step cooks or heats, or speaks of what does: in its text or,
// where the talk was terse, in the words it was said in.
func (s stage) heats() bool {
	return s.cooks() || s.does(heating) || len(s.Heat) > 0 || hotWords.in(s.text) || hotWords.in(s.quotes()) ||
		slices.ContainsFunc(s.degrees(), func(v float64) bool { return v >= 140 })
}

// heated tells whether anything in the dish is heated, as far as the document tells.
func (d *dish) heated() bool {
	if d.hot == nil {
		hot := slices.ContainsFunc(d.stages, stage.heats) ||
			slices.ContainsFunc(d.doc.Equipment, func(e schema.Equipment) bool { return hotWords.in(spaced(e.Name)) })
		d.hot = &hot
	}
	return *d.hot
}

// saysWord tells whether a folded word stands in the title, a step, the name of a
// part or of what is kept.
func (d *dish) saysWord(w string) bool {
	if d.words == nil {
		d.words = map[string]bool{}
		for said := range strings.FieldsSeq(d.told) {
			d.words[said] = true
		}
	}
	return d.words[w]
}

// used tells for each id of foods that it is one.
func used(foods []food) map[string]bool {
	out := make(map[string]bool, len(foods))
	for _, f := range foods {
		if f.ID != "" {
			out[f.ID] = true
		}
	}
	return out
}

// usesAny tells whether the step uses one of the ids.
func (s stage) usesAny(ids map[string]bool) bool {
	return slices.ContainsFunc(s.Uses, func(id string) bool { return ids[id] })
}

// chilled tells whether a step chills or freezes, or the title says that the dish
// is not baked.
func (d *dish) chilled() bool {
	return coldWords.in(d.title) || slices.ContainsFunc(d.stages, stage.chills)
}

// chills tells whether a step chills or freezes.
func (s stage) chills() bool { return s.does(coldVerbs) || coldPlace.in(s.own) }

// first returns the index of the first step that adds the ingredient, or that
// names its class in the same part; ok is false where no step does.
func (d *dish) first(f food, way string, class string) (int, bool) {
	for i, s := range d.stages {
		if inWay(s.Ways, way) && s.uses(f.ID) {
			return i, true
		}
	}
	for i, s := range d.stages {
		if inWay(s.Ways, way) && together(f.Part, s.Part) && s.names(class) {
			return i, true
		}
	}
	return 0, false
}

// cookedFrom tells whether a step from the one given on cooks the food: in its
// part, in an oven, or by using it.
func (d *dish) cookedFrom(from int, f food, way string, counts func(stage) bool) bool {
	for _, s := range d.stages[min(from, len(d.stages)):] {
		if inWay(s.Ways, way) && s.cooks() && (together(f.Part, s.Part) || s.does(inOven) || s.uses(f.ID)) && (counts == nil || counts(s)) {
			return true
		}
	}
	return false
}

// hours returns the longest time of a step in hours.
func (s stage) hours() float64 {
	var most float64
	for _, q := range s.Time {
		if sec, ok := schema.Seconds(q.Unit); ok {
			most = max(most, q.Max*sec/3600)
		}
	}
	return most
}

// degrees returns the temperatures of a step in degrees Fahrenheit.
func (s stage) degrees() []float64 {
	var out []float64
	for _, q := range s.Temperature {
		if f, ok := schema.Fahrenheit(q.Max, q.Unit); ok && q.Vague == "" {
			out = append(out, f)
		}
	}
	return out
}
