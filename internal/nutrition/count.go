package nutrition

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"quern/schema"
)

// Row is one ingredient as it was counted, or why it was not.
type Row struct {
	Index   int           // place in the document's Ingredients
	Name    string        // as in the document
	Food    Food          // zero when none was found
	Found   bool          // a food was found
	Grams   *schema.Grams // of what is eaten; nil when it can't be worked out
	Figures Figures       // what it brings to the recipe: Grams' middle times Per100
	Counted bool          // it is in the totals
	Why     string        // why it is not counted, or what was left out of it; "" when nothing
	Apart   string        // "optional", "left out" or "another way" for what is not in the totals on purpose
}

// Tally is what the amounts of a recipe give, for one way of making it.
type Tally struct {
	Way        string
	Rows       []Row    // every ingredient, in the document's order
	Total      Figures  // of the whole recipe, from the middle of every weight; never NaN
	Least      Figures  // the same from the least of every weight
	Most       Figures  // and from the most
	Grams      float64  // weight of what was counted, raw
	Missing    []string // names of ingredients without grams or figures
	LeavesOut  []string // names left out on purpose
	Notes      []string // what a reader has to know of the figures
	Unknown    map[Nutrient][]string
	Salted     bool    // salt or the like of no amount is not counted, so that sodium is a lower bound
	Complete   bool    // every ingredient that counts has grams and figures
	Servings   float64 // middle of the yield; 0 where it is unknown
	FewServed  float64 // least of the yield
	MostServed float64 // most of the yield
	Per        string  // what one is: "serving", "biscuit"; "recipe" where the yield is unknown

	// What the words of the amounts allow, with optional things in the most: see
	// leeway. open marks the figures that something uncounted may raise beyond it.
	lowest, highest Figures
	open            [nutrients]bool
	aboutServed     bool // the yield was said with "about"
	own             *Own
}

// Count weighs every ingredient of a document and sums the figures. way is one
// of the document's ways, "" for the first; ingredients of other ways, optional
// ones, and those named in the spoken macros' leaves_out are apart. What has no
// amount or no figures is listed in Missing and the totals are then lower
// bounds. The rules for what is not eaten whole:
//
//   - oil for deep frying is not counted and is asked about, for only a share of
//     it is taken up;
//   - a brine, and a marinade or cooking water that a step pours off, are not
//     counted and are asked about, because some of the salt stays;
//   - a marinade nobody pours off is counted whole, and a note says so;
//   - an amount whose preparation says "taken up" is what was eaten of such a
//     thing, and is counted.
func Count(doc *schema.Document, own *Own, way string) *Tally {
	return ReadScale(doc, own).count(way)
}

// Scale is what the counts of all ways go by: the food of each ingredient and its
// grams, and how the steps treat it.
type Scale struct {
	doc   *schema.Document
	own   *Own
	foods []onScale
	steps method
}

type onScale struct {
	food  Food
	found bool
	grams schema.Grams
	err   error // there are no grams
}

// ReadScale weighs the ingredients of a document.
func ReadScale(doc *schema.Document, own *Own) *Scale {
	s := &Scale{doc, own, make([]onScale, len(doc.Ingredients)), methodOf(doc)}
	for i := range doc.Ingredients {
		s.Weigh(i)
	}
	return s
}

// Weigh weighs an ingredient, by its index, as it is now.
func (s *Scale) Weigh(i int) {
	f, ing := &s.foods[i], &s.doc.Ingredients[i]
	*f = onScale{}
	if f.food, f.found = FoodOf(ing, s.own); f.found {
		f.grams, f.err = Grams(f.food, ing, s.doc.Measures)
	}
}

// Food gives the food that FoodOf does for an ingredient, by its index.
func (s *Scale) Food(i int) (Food, bool) { return s.foods[i].food, s.foods[i].found }

// Grams gives the grams of an ingredient whose food was found, by its index.
func (s *Scale) Grams(i int) (schema.Grams, error) { return s.foods[i].grams, s.foods[i].err }

// Ways counts each way of the dish, or the dish itself where there is one.
func (s *Scale) Ways() []*Tally {
	if len(s.doc.Ways) == 0 {
		return []*Tally{s.count("")}
	}
	out := make([]*Tally, len(s.doc.Ways))
	for i, w := range s.doc.Ways {
		out[i] = s.count(w.Name)
	}
	return out
}

func (s *Scale) count(way string) *Tally {
	doc := s.doc
	t := &Tally{Way: way, Complete: true, Unknown: map[Nutrient][]string{}, own: s.own}
	if way == "" && len(doc.Ways) > 0 {
		t.Way = doc.Ways[0].Name
	}
	t.servings(doc.Yield)
	t.Rows = make([]Row, 0, len(doc.Ingredients))
	out := leftOut(doc)
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		row := Row{Index: i, Name: ing.Name, Food: s.foods[i].food, Found: s.foods[i].found}
		reason := s.foods[i].err
		if row.Found && reason == nil {
			g := s.foods[i].grams
			row.Grams = &g
		}
		switch {
		case !inWay(ing, t.Way):
			row.Apart, row.Why = "another way", "only for "+strings.Join(ing.Ways, ", ")
		case out(ing):
			row.Apart, row.Why = "left out", "left out by the cook"
			t.LeavesOut = append(t.LeavesOut, ing.Name)
		case ing.Optional:
			row.Apart, row.Why = "optional", "optional"
			t.LeavesOut = append(t.LeavesOut, ing.Name)
		case !row.Found:
			row.Why = "no figures for it in the table"
		case !row.Food.Known():
			row.Why = "its label's figures are needed"
		case s.steps.notEaten(ing, row.Food) != "":
			row.Why = s.steps.notEaten(ing, row.Food)
		case row.Grams == nil && trifling(row.Food, ing):
			row.Apart = "to taste"
			if ing.ToTaste {
				row.Why = "to taste: not counted"
			} else {
				row.Why = "no amount: not counted"
			}
			t.note(fmt.Sprintf("%s is not counted, so sodium is a lower bound", ing.Name), row.Food)
		case row.Grams == nil:
			row.Why = plainReason(reason)
		default:
			row.Counted = true
		}
		if row.Grams != nil && row.Food.Known() {
			row.Figures = scaled(row.Food.Per100, Middle(*row.Grams))
		}
		switch {
		case row.Counted:
			t.addRow(&row)
			t.allow(&row, doc)
		case row.Apart == "optional":
			t.allow(&row, doc)
		case row.Apart == "":
			t.Complete = false
			t.Missing = append(t.Missing, ing.Name)
			t.allow(&row, doc)
		}
		t.Rows = append(t.Rows, row)
	}
	t.finish(doc)
	return t
}

// FoodOf gives the food an ingredient is counted as: what its name means, or
// the juice of a fruit that is only juiced. A name the table does not know is
// counted as the food whose key stands in the ingredient's Food.
func FoodOf(ing *schema.Ingredient, own *Own) (Food, bool) {
	names := append([]string{ing.Name}, ing.AlsoCalled...)
	for _, name := range names {
		f, ok := Find(name, own)
		if !ok {
			continue
		}
		prep := strings.ToLower(ing.Preparation)
		if strings.Contains(prep, "juice") || strings.Contains(prep, "squeezed") {
			if juice, ok := Find(f.Key+" juice", own); ok && juice.Key == f.Key+" juice" {
				return juice, true
			}
		}
		return f, true
	}
	return ByKey(ing.Food, own)
}

// servings reads the yield.
func (t *Tally) servings(y *schema.Quantity) {
	t.Per = "recipe"
	if y == nil || y.Vague != "" || !(y.Max > 0) || math.IsInf(y.Max, 0) {
		return
	}
	t.FewServed, t.MostServed = y.Min, y.Max
	if !(t.FewServed > 0) {
		t.FewServed = t.MostServed
	}
	t.Servings = (t.FewServed + t.MostServed) / 2
	t.aboutServed = y.About
	t.Per = PerOf(y.Unit)
}

// PerOf gives the word for one of what a yield counts: "biscuit" for biscuits,
// "serving" for people, persons, portions and servings.
func PerOf(unit string) string {
	words := strings.Fields(strings.ToLower(unit))
	if len(words) == 0 {
		return "serving"
	}
	last := words[len(words)-1]
	switch last {
	case "people", "persons", "person", "portions", "portion", "servings", "serving", "serves", "guests", "helpings", "helping", "plates":
		return "serving"
	}
	words[len(words)-1] = singular(last)
	return strings.Join(words, " ")
}

func inWay(ing *schema.Ingredient, way string) bool {
	if len(ing.Ways) == 0 || way == "" {
		return true
	}
	for _, w := range ing.Ways {
		if w == way {
			return true
		}
	}
	return false
}

// leftOut tells which ingredients the cook left out of her figures: those whose
// name, or whose part, is named in leaves_out.
func leftOut(doc *schema.Document) func(*schema.Ingredient) bool {
	if doc.Macros == nil || doc.Macros.Spoken == nil || len(doc.Macros.Spoken.LeavesOut) == 0 {
		return func(*schema.Ingredient) bool { return false }
	}
	var names [][]string
	for _, n := range doc.Macros.Spoken.LeavesOut {
		if w := normal(n); len(w) > 0 {
			if len(w) > 1 && w[0] == "the" {
				w = w[1:]
			}
			names = append(names, w)
		}
	}
	return func(ing *schema.Ingredient) bool {
		for _, n := range names {
			for _, said := range append([]string{ing.Name, ing.Part}, ing.AlsoCalled...) {
				if holds(normal(said), n) {
					return true
				}
			}
		}
		return false
	}
}

// holds tells whether words end with all of want, in order.
func holds(words, want []string) bool {
	if len(want) > len(words) {
		return false
	}
	for i := range want {
		if words[len(words)-len(want)+i] != want[i] {
			return false
		}
	}
	return true
}

// trifling tells that a thing without grams changes no figure but sodium: water,
// and salt, pepper or a spice put in to taste.
func trifling(f Food, ing *schema.Ingredient) bool {
	kcal, ok := f.Per100.Get(Kcal)
	if ok && kcal == 0 {
		return true
	}
	return ing.ToTaste && strings.HasPrefix(f.Row, "02") && (ok && kcal < 400)
}

// method is what the steps say of things that are not eaten whole, gathered
// once a document.
type method struct {
	deep           bool            // something is fried deep in a step that names nothing
	deepFried      map[string]bool // ids used in a step that fries deep
	marinadePoured bool            // a step pours a marinade off
	brined         map[string]bool // ids of a step that pours a brine off
	boiled         map[string]bool // ids that go into water which is drained later
}

// pouring are the words of a step that does not keep a liquid.
var pouring = []string{"discard", "pour off", "pour away", "throw away", "throw out", "drain off", "tip away", "lift out of"}

func methodOf(doc *schema.Document) method {
	m := method{deepFried: map[string]bool{}, brined: map[string]bool{}, boiled: map[string]bool{}}
	water := map[string]bool{}
	for i := range doc.Ingredients {
		if f, ok := Find(doc.Ingredients[i].Name, nil); ok && f.Key == "water" {
			water[doc.Ingredients[i].ID] = true
		}
	}
	drained := -1 // the last step that drains
	for i := range doc.Steps {
		for _, a := range doc.Steps[i].Actions {
			if a == "drain" || a == "strain" {
				drained = i
			}
		}
	}
	for i := range doc.Steps {
		s := &doc.Steps[i]
		text := strings.ToLower(s.Text)
		deep, poured, wet := strings.Contains(text, "deep-fr") || strings.Contains(text, "deep fr"), false, false
		for _, a := range s.Actions {
			deep = deep || strings.HasPrefix(a, "deep")
		}
		for _, words := range pouring {
			poured = poured || strings.Contains(text, words)
		}
		for _, id := range s.Uses {
			wet = wet || water[id]
		}
		m.deep = m.deep || deep && len(s.Uses) == 0
		m.marinadePoured = m.marinadePoured || poured && strings.Contains(text, "marinade")
		for _, id := range s.Uses {
			if deep {
				m.deepFried[id] = true
			}
			if poured && strings.Contains(text, "brine") {
				m.brined[id] = true
			}
			if wet && i <= drained {
				m.boiled[id] = true
			}
		}
	}
	return m
}

// takenUp are the words of a preparation that say an amount is what was eaten of
// a thing that is not eaten whole.
const takenUp = "taken up"

// howToTell says how a person answers what is not known of such a thing.
const howToTell = `; what stays can be given as its amount with "` + takenUp + `" as its preparation`

// notEaten applies the rules of Count; "" means the ingredient is eaten whole.
func (m method) notEaten(ing *schema.Ingredient, f Food) string {
	if strings.Contains(strings.ToLower(ing.Preparation), takenUp) {
		return ""
	}
	part := " " + strings.Join(normal(ing.Part), " ") + " "
	switch {
	case strings.Contains(part, " brine "), m.brined[ing.ID]:
		return "a brine is poured off, and how much of it stays is not known" + howToTell
	case m.marinadePoured && strings.Contains(part, " marinade "):
		return "the marinade is poured off, and how much of it stays is not known" + howToTell
	case m.boiled[ing.ID] && f.Key == "salt":
		return "the cooking water is drained off, and how much of its salt stays is not known" + howToTell
	}
	if fat, ok := f.Per100.Get(Fat); (m.deep || m.deepFried[ing.ID]) && ok && fat > 95 {
		return "oil for deep frying: how much is taken up is not known, but for weighing what is left" + howToTell
	}
	return ""
}

// plainReason is an error of Grams without what it wraps.
func plainReason(err error) string {
	if err == nil {
		return "no amount"
	}
	return strings.TrimPrefix(err.Error(), ErrNoWeight.Error()+": ")
}

// scaled is what grams of a food bring; NaN stays NaN.
func scaled(per100 Figures, grams float64) Figures {
	out := UnknownFigures()
	for n := range out {
		if v, ok := per100.Get(Nutrient(n)); ok {
			out[n] = v * grams / 100
		}
	}
	return out
}

func (t *Tally) addRow(row *Row) {
	t.Grams += Middle(*row.Grams)
	least, most := scaled(row.Food.Per100, row.Grams.Min), scaled(row.Food.Per100, row.Grams.Max)
	for n := Kcal; n < nutrients; n++ {
		if math.IsNaN(row.Figures[n]) {
			t.Unknown[n] = append(t.Unknown[n], row.Name)
			continue
		}
		t.Total[n] += row.Figures[n]
		t.Least[n] += least[n]
		t.Most[n] += most[n]
	}
	// A share left out is told with the weight; anything else of the figures here.
	if row.Food.Note != "" && !strings.Contains(row.Food.Note, "left out, common practice") {
		t.noteText(fmt.Sprintf("%s: %s", row.Name, row.Food.Note))
	}
}

// allow adds what the words of a row allow. A thing that counts brings its least
// at least; an optional one may be in the figures a cook says or not; and what
// is missing may bring any amount of anything.
func (t *Tally) allow(row *Row, doc *schema.Document) {
	optional := row.Apart == "optional"
	if row.Grams == nil || !row.Food.Known() || !optional && !row.Counted {
		for n := range t.open {
			t.open[n] = true
		}
		return
	}
	least, most := leeway(row.Food, &doc.Ingredients[row.Index], doc.Measures, *row.Grams)
	low, high := scaled(row.Food.Per100, least), scaled(row.Food.Per100, most)
	for n := range t.open {
		if math.IsNaN(high[n]) {
			t.open[n] = true
			continue
		}
		t.highest[n] += high[n]
		if !optional {
			t.lowest[n] += low[n]
		}
	}
}

// note adds a remark on sodium unless the food brings none.
func (t *Tally) note(text string, f Food) {
	if v, ok := f.Per100.Get(Sodium); !ok || v > 100 {
		t.noteText(text)
		t.Salted, t.open[Sodium] = true, true
	}
}

func (t *Tally) noteText(text string) {
	for _, n := range t.Notes {
		if n == text {
			return
		}
	}
	t.Notes = append(t.Notes, text)
}

// finish adds the notes that follow from the whole.
func (t *Tally) finish(doc *schema.Document) {
	if t.MostServed > t.FewServed && t.FewServed > 0 {
		t.noteText(fmt.Sprintf("figures are for %s, the middle of the yield: at %s they are %s kcal, at %s they are %s kcal", number(t.Servings),
			number(t.FewServed), number(math.Round(t.Total[Kcal]/t.FewServed)), number(t.MostServed), number(math.Round(t.Total[Kcal]/t.MostServed))))
	}
	serv := math.Max(t.Servings, 1)
	if lo, hi := math.Round(t.Least[Kcal]/serv), math.Round(t.Most[Kcal]/serv); hi > lo {
		t.noteText(fmt.Sprintf("amounts given as a range put it between %s and %s kcal", number(lo), number(hi)))
	}
	if by, ok := t.Total.ByFactors(); ok && math.Abs(by-t.Total[Kcal]) > 0.10*t.Total[Kcal] && math.Abs(by-t.Total[Kcal])/serv >= 5 {
		t.noteText(fmt.Sprintf("energy by food is %s kcal, by 4-4-9-7 it is %s kcal", number(math.Round(t.Total[Kcal]/serv)), number(math.Round(by/serv))))
	}
	if t.Total[NotAbsorbed] > 0 {
		t.noteText(fmt.Sprintf("net carbohydrate leaves out %s g of sugar alcohols", number(t.Total[NotAbsorbed]/serv)))
	}
	var gaps []Nutrient
	for n := range t.Unknown {
		gaps = append(gaps, n)
	}
	sort.Slice(gaps, func(a, b int) bool { return gaps[a] < gaps[b] })
	for _, n := range gaps {
		t.noteText(fmt.Sprintf("%s is a lower bound: no figure for %s", n, strings.Join(t.Unknown[n], ", ")))
	}
	for i := range t.Rows {
		r := &t.Rows[i]
		if r.Counted && strings.Contains(" "+strings.Join(normal(doc.Ingredients[r.Index].Part), " ")+" ", " marinade ") {
			t.noteText("the marinade is counted whole; some of it may stay behind")
			break
		}
	}
	for i := range t.Rows {
		t.substitutes(&t.Rows[i], doc, serv)
	}
	for i := range t.Rows {
		r := &t.Rows[i]
		if r.Apart == "optional" && r.Grams != nil && r.Food.Known() {
			t.noteText(fmt.Sprintf("optional %s would add %s kcal", r.Name, number(math.Round(r.Figures[Kcal]/serv))))
		}
	}
}

// substitutes adds what each thing that may stand in for a counted one would
// change, where its amount was said too: an amount that wasn't is not guessed.
func (t *Tally) substitutes(r *Row, doc *schema.Document, serv float64) {
	if !r.Counted {
		return
	}
	for _, s := range doc.Ingredients[r.Index].Substitutes {
		ing := &schema.Ingredient{Name: s.Name, Amount: s.Amount}
		f, ok := FoodOf(ing, t.own)
		if !ok || !f.Known() {
			continue
		}
		g, err := Grams(f, ing, doc.Measures)
		if err != nil {
			continue
		}
		by := math.Round((scaled(f.Per100, Middle(g))[Kcal] - r.Figures[Kcal]) / serv)
		way := "more"
		if by < 0 {
			way = "less"
		}
		t.noteText(fmt.Sprintf("with %s (%s) instead of %s it is %s kcal %s", s.Name, s.Amount.String(), r.Name, number(math.Abs(by)), way))
	}
}

// PerServing gives a figure divided by the servings, or of the whole recipe
// where the yield is unknown.
func (t *Tally) PerServing(f Figures) Figures {
	if t.Servings <= 0 {
		return f
	}
	for n := range f {
		f[n] /= t.Servings
	}
	return f
}

// Computed gives the tally as a document keeps it: figures per serving, grams to
// 0.1, kcal and milligrams to 1, the ratio to 0.01. It is nil when no ingredient
// was counted.
func (t *Tally) Computed() *schema.ComputedMacros {
	counted := false
	for _, r := range t.Rows {
		counted = counted || r.Counted
	}
	if !counted {
		return nil
	}
	f := t.PerServing(t.Total)
	value := func(v float64, places int) *float64 {
		r := round(v, places)
		return &r
	}
	c := &schema.ComputedMacros{Per: t.Per, Servings: t.Servings, Complete: t.Complete, Missing: t.Missing, LeavesOut: t.LeavesOut}
	c.Kcal = value(f[Kcal], 0)
	c.FatG, c.SaturatedG = value(f[Fat], 1), value(f[Saturated], 1)
	c.ProteinG, c.CarbsG = value(f[Protein], 1), value(f[Carbs], 1)
	c.FibreG, c.SugarG = value(f[Fibre], 1), value(f[Sugars], 1)
	c.SodiumMg = value(f[Sodium], 0)
	net, _ := f.NetCarbs()
	c.NetCarbsG = value(net, 1)
	if f[Alcohol] >= 0.05 {
		c.AlcoholG = value(f[Alcohol], 1)
	}
	if by, ok := f.ByFactors(); ok && math.Abs(by-f[Kcal]) > 0.10*f[Kcal] {
		c.Kcal4497 = value(by, 0)
	}
	if den := f[Protein] + net; t.Complete && den > 0 {
		c.Ratio = value(f[Fat]/den, 2)
	}
	c.Statements = append([]string(nil), t.Notes...)
	if !t.Complete {
		c.Statements = append([]string{"lower bounds: " + strings.Join(t.Missing, ", ") + " not counted"}, c.Statements...)
	}
	if t.Way != "" {
		c.Statements = append([]string{"the " + t.Way + " way"}, c.Statements...)
	}
	return c
}
