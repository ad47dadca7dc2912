package written

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"quern/extract"
	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/internal/nutrition"
	"quern/internal/transcript"
	"quern/schema"
)

// Kinds of difference.
const (
	YieldDiffers        = "yield"
	AmountDiffers       = "amount"
	AmountOnlySpoken    = "amount-only-spoken"
	AmountOnlyWritten   = "amount-only-written"
	FoodOnlySpoken      = "food-only-spoken"
	FoodOnlyWritten     = "food-only-written"
	TemperatureDiffers  = "temperature"
	TemperatureOnlyOnce = "temperature-only-once"
	TimeDiffers         = "time"
	TimeOnlyOnce        = "time-only-once"
	StepOnlySpoken      = "step-only-spoken"
	StepOnlyWritten     = "step-only-written"
)

// Kinds lists the kinds of difference in the order they are told in, with
// their words.
func Kinds() []struct{ Kind, Words string } {
	return []struct{ Kind, Words string }{
		{YieldDiffers, "how much it makes"},
		{AmountDiffers, "another amount"},
		{AmountOnlySpoken, "amount only spoken"},
		{AmountOnlyWritten, "amount only written"},
		{FoodOnlySpoken, "ingredient only spoken"},
		{FoodOnlyWritten, "ingredient only written"},
		{TemperatureDiffers, "another temperature"},
		{TemperatureOnlyOnce, "temperature on one side only"},
		{TimeDiffers, "another time"},
		{TimeOnlyOnce, "time on one side only"},
		{StepOnlySpoken, "step only spoken"},
		{StepOnlyWritten, "step only written"},
	}
}

// Difference is one thing in which a recording and its written recipe differ.
type Difference struct {
	Kind    string `json:"kind"`
	About   string `json:"about"`   // the ingredient, or the step's words
	Spoken  string `json:"spoken"`  // what was said; "" where nothing was
	Written string `json:"written"` // what is written; "" where nothing is
	At      string `json:"at"`      // moment of the words (WebVTT timestamp), "" where there is none
	Quote   string `json:"quote"`   // the words as spoken
	Line    int    `json:"line"`    // of the written recipe, from 1; 0 where it has none
	Text    string `json:"text"`    // of that line
	Note    string `json:"note,omitempty"`
}

// Counting is how often a kind of difference was found.
type Counting struct {
	Kind  string `json:"kind"`
	Count int    `json:"count"`
}

// Count counts differences by kind, in the order of Kinds.
func Count(list []Difference) []Counting {
	var out []Counting
	for _, k := range Kinds() {
		n := 0
		for _, d := range list {
			if d.Kind == k.Kind {
				n++
			}
		}
		if n > 0 {
			out = append(out, Counting{k.Kind, n})
		}
	}
	return out
}

// Amounts in two units of one dimension agree within six hundredths (a cup of
// 236.6 mL is written as 240 or 250 mL: common practice), in one unit within
// two; two weights worked out by the weight of a cup within fifteen, which is
// about what a cup of flour varies by. Temperatures agree within 10 F, as
// spoken pairs are rounded to 5 or 10 degrees (common practice).
const (
	sameUnitSlack    = 0.02
	sameMeasureSlack = 0.06
	weighedSlack     = 0.15
	temperatureSlack = 10
)

// Nearest gives the recipe that a written one has most foods in common with,
// the first of equals. docs must not be empty.
func Nearest(docs []*schema.Document, r *Recipe) *schema.Document {
	best, most := docs[0], -1
	foods := map[string]bool{}
	for i := range r.Ingredients {
		foods[foodKey(r.Ingredients[i].Name)] = true
	}
	for _, doc := range docs {
		n := 0
		for i := range doc.Ingredients {
			if foods[foodKey(doc.Ingredients[i].Name)] {
				n++
			}
		}
		if n > most {
			best, most = doc, n
		}
	}
	return best
}

// Compare tells in what a recipe document and a written recipe differ. Two
// ranges that overlap agree. The differences are in the order of Kinds and,
// within a kind, of the recording.
func Compare(doc *schema.Document, r *Recipe) []Difference {
	var out []Difference
	out = append(out, compareYield(doc, r)...)
	out = append(out, compareIngredients(doc, r)...)
	out = append(out, compareSteps(doc, r)...)
	order := map[string]int{}
	for i, k := range Kinds() {
		order[k.Kind] = i
	}
	slices.SortStableFunc(out, func(a, b Difference) int { return cmp.Compare(order[a.Kind], order[b.Kind]) })
	return out
}

func spokenAt(d Difference, said []schema.Said) Difference {
	if len(said) > 0 {
		d.At, d.Quote = said[0].At, said[0].Quote
	}
	return d
}

func compareYield(doc *schema.Document, r *Recipe) []Difference {
	d := Difference{Kind: YieldDiffers, About: "yield", Line: r.YieldLine, Text: r.YieldText}
	if doc.Yield != nil {
		d.Spoken = doc.Yield.String()
	}
	if r.Yield != nil {
		d.Written = r.Yield.String()
	}
	if d.Spoken == "" && d.Written == "" || doc.Yield != nil && r.Yield != nil && overlap(*doc.Yield, *r.Yield, 1, 1, 0) {
		return nil
	}
	return []Difference{spokenAt(d, doc.YieldSaid)}
}

// overlap tells whether two ranges meet, each number multiplied and slack
// given as a share of the larger.
func overlap(a, b schema.Quantity, timesA, timesB, slack float64) bool {
	lowA, highA, lowB, highB := a.Min*timesA, a.Max*timesA, b.Min*timesB, b.Max*timesB
	s := slack * math.Max(math.Abs(highA), math.Abs(highB))
	return lowA <= highB+s && lowB <= highA+s
}

// foodKey is the food a name means, or else its words.
func foodKey(name string) string {
	if f, ok := nutrition.Find(name, nil); ok {
		return f.Key
	}
	return strings.Join(nameWords(name), " ")
}

// nameWords are the words of a name in small letters and the singular.
func nameWords(name string) []string {
	list := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for i := range list {
		list[i] = lexicon.Singular(list[i])
	}
	return list
}

// pair is a spoken and a written ingredient that may be the same.
type pair struct{ spoken, written, score int }

func compareIngredients(doc *schema.Document, r *Recipe) []Difference {
	lines := apartFrom(r.Ingredients)
	var pairs []pair
	byFood, byWord := map[string][]int{}, map[string][]int{}
	for j := range lines {
		byFood[lines[j].food] = append(byFood[lines[j].food], j)
		for _, w := range lines[j].words {
			byWord[w] = append(byWord[w], j)
		}
	}
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		food, words := foodKey(ing.Name), nameWords(ing.Name)
		met := map[int]bool{}
		var candidates []int
		for _, j := range byFood[food] {
			met[j] = true
			candidates = append(candidates, j)
		}
		for _, w := range words {
			for _, j := range byWord[w] {
				if !met[j] {
					met[j] = true
					candidates = append(candidates, j)
				}
			}
		}
		for _, j := range candidates {
			score := likeness(ing, food, words, &lines[j], doc.Measures)
			if score > 0 {
				pairs = append(pairs, pair{i, j, score})
			}
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int {
		return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(a.spoken, b.spoken), cmp.Compare(a.written, b.written))
	})
	spoken, writtenTo := map[int]int{}, map[int]int{}
	for _, p := range pairs {
		_, a := spoken[p.spoken]
		_, b := writtenTo[p.written]
		if !a && !b {
			spoken[p.spoken], writtenTo[p.written] = p.written, p.spoken
		}
	}
	var out []Difference
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		j, ok := spoken[i]
		if !ok {
			if again(doc, i, spoken) {
				continue
			}
			d := Difference{Kind: FoodOnlySpoken, About: ing.Name, Spoken: withAmount(ing.Amount, ing.Name)}
			out = append(out, spokenAt(d, ing.Said))
			continue
		}
		out = append(out, compareAmounts(doc, ing, &lines[j])...)
	}
	for j := range lines {
		if _, ok := writtenTo[j]; !ok {
			l := &lines[j]
			out = append(out, Difference{Kind: FoodOnlyWritten, About: l.Name, Written: withAmount(l.Amount, l.Name), Line: l.Line, Text: l.Text})
		}
	}
	return out
}

// again tells whether a spoken ingredient without an amount is another mention
// of a food that is matched: "the rest of the sugar".
func again(doc *schema.Document, i int, matched map[int]int) bool {
	if doc.Ingredients[i].Amount != nil {
		return false
	}
	food := foodKey(doc.Ingredients[i].Name)
	for k := range doc.Ingredients {
		if _, ok := matched[k]; ok && k != i && foodKey(doc.Ingredients[k].Name) == food {
			return true
		}
	}
	return false
}

// foodLine is a written ingredient with what it is matched by.
type foodLine struct {
	Ingredient
	food  string
	words []string
}

// apartFrom cuts lines of two foods ("salt and pepper") in two.
func apartFrom(list []Ingredient) []foodLine {
	var out []foodLine
	for _, ing := range list {
		names := []string{ing.Name}
		if left, right, ok := strings.Cut(ing.Name, " and "); ok && (ing.Amount == nil || ing.ToTaste) {
			_, a := nutrition.Find(left, nil)
			_, b := nutrition.Find(right, nil)
			if a && b {
				names = []string{left, right}
			}
		}
		for _, name := range names {
			x := ing
			x.Name = name
			out = append(out, foodLine{x, foodKey(name), nameWords(name)})
		}
	}
	return out
}

// likeness scores a spoken ingredient against a written one: 0 for different
// foods.
func likeness(ing *schema.Ingredient, food string, words []string, l *foodLine, measures string) int {
	score := 0
	switch {
	case slices.Equal(words, l.words):
		score = 40
	case food == l.food:
		score = 30
	default:
		both := 0
		for _, w := range words {
			if slices.Contains(l.words, w) {
				both++
			}
		}
		// The last word names the food: "sour cream" is no "sour cherries".
		if 2*both < max(len(words), len(l.words)) || len(words) == 0 || len(l.words) == 0 || words[len(words)-1] != l.words[len(l.words)-1] {
			return 0
		}
		score = 20
	}
	if agree, _ := amountsAgree(ing, l, measures); agree {
		score += 5
	}
	if ing.Part != "" && l.Part != "" && slices.ContainsFunc(nameWords(ing.Part), func(w string) bool { return slices.Contains(nameWords(l.Part), w) }) {
		score += 3
	}
	return score
}

func withAmount(q *schema.Quantity, name string) string {
	if q == nil {
		return name
	}
	return q.String() + " " + name
}

// amountOf is an ingredient's amount in words, "" where there is none.
func amountOf(amount, second *schema.Quantity, vague string, toTaste bool) string {
	switch {
	case amount != nil && second != nil:
		return amount.String() + " (" + second.String() + ")"
	case amount != nil:
		return amount.String()
	case second != nil:
		return second.String()
	case toTaste:
		return "to taste"
	}
	return vague
}

func compareAmounts(doc *schema.Document, ing *schema.Ingredient, l *foodLine) []Difference {
	d := Difference{
		About: ing.Name, Line: l.Line, Text: l.Text, Spoken: amountOf(ing.Amount, ing.SecondAmount, ing.Vague, ing.ToTaste),
		Written: amountOf(l.Amount, l.Second, "", l.ToTaste),
	}
	d = spokenAt(d, ing.Said)
	said := ing.Amount != nil && ing.Amount.Vague == "" || ing.SecondAmount != nil
	wrote := l.Amount != nil || l.Second != nil
	switch {
	case !said && !wrote:
		return nil
	case !said:
		d.Kind = AmountOnlyWritten
	case !wrote:
		d.Kind = AmountOnlySpoken
	default:
		agree, how := amountsAgree(ing, l, doc.Measures)
		if agree {
			return nil
		}
		d.Kind, d.Note = AmountDiffers, how
	}
	return []Difference{d}
}

// amountsAgree compares what was said with what is written, in every measure
// both have; where they have none in common, by weight. how tells what the
// answer rests on where it isn't plain.
func amountsAgree(ing *schema.Ingredient, l *foodLine, measures string) (agree bool, how string) {
	compared := false
	for _, a := range amounts(ing.Amount, ing.SecondAmount, ing.Size) {
		for _, b := range amounts(l.Amount, l.Second, l.Size) {
			same, ok := sameAmount(a, b)
			if ok && same {
				return true, ""
			}
			compared = compared || ok
		}
	}
	if compared {
		return false, ""
	}
	a, okA := weigh(ing.Name, ing.Preparation, ing.Amount, ing.Size, measures)
	b, okB := weigh(ing.Name, l.Preparation, l.Amount, l.Size, measures)
	if !okA || !okB {
		return false, "in measures that can't be compared"
	}
	agree = a.Min <= b.Max*(1+weighedSlack) && b.Min <= a.Max*(1+weighedSlack)
	return agree, fmt.Sprintf("about %.0f g against %.0f g", nutrition.Middle(a), nutrition.Middle(b))
}

// amounts are the spellings of one amount that can be compared: itself, the
// same in another measure, and what several cans of a size come to.
func amounts(amount, second, size *schema.Quantity) []schema.Quantity {
	var out []schema.Quantity
	for _, q := range []*schema.Quantity{amount, second} {
		if q == nil || q.Vague != "" {
			continue
		}
		out = append(out, *q)
		if s := q.Size; s != nil {
			out = append(out, schema.Between(q.Min*s.Min, q.Max*s.Max, s.Unit))
		} else if q == amount && size != nil {
			out = append(out, schema.Between(q.Min*size.Min, q.Max*size.Max, size.Unit))
		}
	}
	return out
}

// sameAmount compares two amounts; ok is false where their measures are of
// different dimensions.
func sameAmount(a, b schema.Quantity) (same, ok bool) {
	if a.Unit == b.Unit || a.Unit+b.Unit == "piece" {
		return overlap(a, b, 1, 1, sameUnitSlack), true
	}
	for _, table := range []func(string) (float64, bool){schema.Volume, schema.Mass, schema.Centimetres} {
		x, okA := table(a.Unit)
		y, okB := table(b.Unit)
		if okA && okB {
			return overlap(a, b, x, y, sameMeasureSlack), true
		}
	}
	return false, false
}

func weigh(name, preparation string, amount, size *schema.Quantity, measures string) (schema.Grams, bool) {
	if amount == nil || amount.Vague != "" {
		return schema.Grams{}, false
	}
	ing := &schema.Ingredient{Name: name, Preparation: preparation, Amount: amount, Size: size}
	food, ok := nutrition.FoodOf(ing, nil)
	if !ok {
		return schema.Grams{}, false
	}
	g, err := nutrition.Grams(food, ing, measures)
	return g, err == nil
}

// doing is what a step does, on either side.
type doing struct {
	actions, foods, tools []string
	times, temperatures   []schema.Quantity
	text                  string
	said                  []schema.Said
	line                  int
	lineText              string
}

// told lists what the steps of a document do.
func told(doc *schema.Document) []doing {
	names := map[string]string{}
	for i := range doc.Ingredients {
		names[doc.Ingredients[i].ID] = doc.Ingredients[i].Name
	}
	var out []doing
	for i := range doc.Steps {
		s := &doc.Steps[i]
		d := doing{actions: s.Actions, times: s.Time, temperatures: s.Temperature, text: s.Text, said: s.Said}
		for _, id := range s.Uses {
			d.foods = append(d.foods, foodKey(names[id]))
		}
		d.foods = append(d.foods, foodsIn(s.Text)...)
		d.tools = lowered(s.Equipment)
		out = append(out, d)
	}
	return out
}

// toldIn lists what a written step does: its words go through the same passes
// as talk.
func toldIn(s Step) []doing {
	n, err := transcript.Parse("a step", []byte(s.Text))
	if err != nil {
		return nil
	}
	var out []doing
	for _, doc := range extract.Extract(n) {
		for _, d := range told(doc) {
			d.line, d.lineText, d.said = s.Line, s.Text, nil
			out = append(out, d)
		}
	}
	return out
}

func lowered(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = strings.ToLower(s)
	}
	return out
}

// foodsIn finds the foods named in a text.
func foodsIn(text string) []string {
	lex := lexicon.Load()
	n, err := transcript.Parse("a step", []byte(text))
	if err != nil {
		return nil
	}
	var out []string
	toks := language.Tokens(n)
	ids := lex.IDs(toks)
	for i := 0; i < len(ids); {
		f, length := lex.FoodAt(ids, i, nil)
		if length == 0 {
			i++
			continue
		}
		if !f.Made && !f.Dish {
			out = append(out, foodKey(f.Name))
		}
		i += length
	}
	return out
}

// everyday actions tell little about which step is meant.
var everyday = map[string]bool{
	"add": true, "combine": true, "cook": true, "get": true, "give": true, "go": true, "let": true, "make": true, "mix": true, "place": true, "pour": true,
	"put": true, "set": true, "stir": true, "take": true, "use": true,
}

// alike says from what score a step is taken to be on the other side too: one
// telling action, or an everyday one with a food.
const alike = 20

// score tells how much two steps have in common.
func score(a, b *doing) int {
	actions := 0
	for _, x := range a.actions {
		if !slices.Contains(b.actions, x) {
			continue
		}
		if everyday[x] {
			actions += 10
		} else {
			actions += 20
		}
	}
	foods := 0
	for i, x := range a.foods {
		if !slices.Contains(a.foods[:i], x) && slices.Contains(b.foods, x) {
			foods += 10
		}
	}
	total := min(actions, 40) + min(foods, 40)
	for _, x := range a.tools {
		if slices.Contains(b.tools, x) {
			total += 5
			break
		}
	}
	if slices.ContainsFunc(a.times, func(x schema.Quantity) bool { return hasTime(b.times, x) }) {
		total += 10
	}
	if slices.ContainsFunc(a.temperatures, func(x schema.Quantity) bool { return hasTemperature(b.temperatures, x) }) {
		total += 20
	}
	return total
}

// hasTime tells whether a time overlaps with one of a list. A list of words
// only, or a time that is one, agrees with nothing.
func hasTime(list []schema.Quantity, q schema.Quantity) bool {
	x, ok := schema.Seconds(q.Unit)
	return ok && slices.ContainsFunc(list, func(o schema.Quantity) bool {
		y, ok := schema.Seconds(o.Unit)
		return ok && overlap(q, o, x, y, sameUnitSlack)
	})
}

func hasTemperature(list []schema.Quantity, q schema.Quantity) bool {
	low, okLow := schema.Fahrenheit(q.Min, q.Unit)
	high, okHigh := schema.Fahrenheit(q.Max, q.Unit)
	return okLow && okHigh && slices.ContainsFunc(list, func(o schema.Quantity) bool {
		oLow, a := schema.Fahrenheit(o.Min, o.Unit)
		oHigh, b := schema.Fahrenheit(o.Max, o.Unit)
		return a && b && low <= oHigh+temperatureSlack && oLow <= high+temperatureSlack
	})
}

// telling tells whether a step is worth missing: it does more than an everyday
// action with nothing.
func telling(d *doing) bool {
	return len(d.foods) > 0 || len(d.times) > 0 || len(d.temperatures) > 0 ||
		slices.ContainsFunc(d.actions, func(a string) bool { return !everyday[a] })
}

func compareSteps(doc *schema.Document, r *Recipe) []Difference {
	spoken := told(doc)
	var wrote []doing
	for _, s := range r.Steps {
		found := toldIn(s)
		if len(wrote)+len(found) > mostSteps {
			break
		}
		wrote = append(wrote, found...)
	}
	near := func(of, in []doing) []int {
		best := make([]int, len(of))
		for i := range of {
			best[i] = -1
			top, closest := alike-1, 0.0
			for j := range in {
				s := score(&of[i], &in[j])
				gap := math.Abs(float64(i)/float64(len(of)) - float64(j)/float64(len(in)))
				if s > top || s == top && best[i] >= 0 && gap < closest {
					best[i], top, closest = j, s, gap
				}
			}
		}
		return best
	}
	toWritten, toSpoken := near(spoken, wrote), near(wrote, spoken)
	var out []Difference
	for i := range spoken {
		s := &spoken[i]
		if toWritten[i] < 0 {
			if telling(s) {
				out = append(out, spokenAt(Difference{Kind: StepOnlySpoken, About: s.text, Spoken: s.text}, s.said))
			}
			continue
		}
		// Of the steps that point to each other, figures are compared once.
		if j := toWritten[i]; toSpoken[j] == i {
			out = append(out, figures(s, &wrote[j])...)
		}
	}
	for j := range wrote {
		if w := &wrote[j]; toSpoken[j] < 0 && telling(w) {
			out = append(out, Difference{Kind: StepOnlyWritten, About: w.text, Written: w.text, Line: w.line, Text: w.lineText})
		}
	}
	return out
}

// figures compares the times and temperatures of one step.
func figures(s, w *doing) []Difference {
	var out []Difference
	for _, f := range []struct {
		differs, once string
		spoken, wrote []schema.Quantity
		has           func([]schema.Quantity, schema.Quantity) bool
	}{
		{TemperatureDiffers, TemperatureOnlyOnce, s.temperatures, w.temperatures, hasTemperature},
		{TimeDiffers, TimeOnlyOnce, s.times, w.times, hasTime},
	} {
		onlySpoken, onlyWritten := without(f.spoken, f.wrote, f.has), without(f.wrote, f.spoken, f.has)
		if len(onlySpoken) == 0 && len(onlyWritten) == 0 {
			continue
		}
		d := Difference{Kind: f.differs, About: s.text, Spoken: list(onlySpoken), Written: list(onlyWritten), Line: w.line, Text: w.lineText}
		if d.Spoken == "" || d.Written == "" {
			d.Kind = f.once
		}
		out = append(out, spokenAt(d, s.said))
	}
	return out
}

// without gives what of a list has no counterpart in another.
func without(of, in []schema.Quantity, has func([]schema.Quantity, schema.Quantity) bool) []schema.Quantity {
	var out []schema.Quantity
	for _, q := range of {
		if q.Vague == "" && !has(in, q) {
			out = append(out, q)
		}
	}
	return out
}

func list(of []schema.Quantity) string {
	var out []string
	for _, q := range of {
		out = append(out, q.String())
	}
	return strings.Join(out, ", ")
}
