package archive

import (
	"math"
	"slices"
	"strings"
	"time"
	"unicode"

	"quern/internal/nutrition"
	"quern/internal/written"
	"quern/schema"
)

// Row is one recipe of one recording in the reports.
type Row struct {
	Path      string             `json:"transcript"` // below the folder, with slashes
	Document  string             `json:"document"`   // below the output folder, with slashes
	Recipe    int                `json:"recipe"`     // which of the document, from 1
	Recipes   int                `json:"recipes"`    // how many the document holds
	Title     string             `json:"title"`
	Length    float64            `json:"length_s"` // of the recording in seconds, 0 where it has no times
	Yield     string             `json:"yield"`    // "" where it isn't known
	Open      []KindCount        `json:"open"`     // open flags by kind, in the order of the form
	Settled   int                `json:"settled"`
	Holds     []Component        `json:"holds"`
	Complete  int                `json:"complete_percent"`
	Macros    MacrosState        `json:"macros"`
	Items     []Item             `json:"ingredients"`
	Ovens     []float64          `json:"oven_f"` // temperatures of an oven or fryer, in degrees F, each once
	Allergens []schema.Allergen  `json:"allergens"`
	Written   string             `json:"written,omitempty"` // the written recipe beside the recording, below the folder
	Differs   []written.Counting `json:"differs,omitempty"` // differences from it, by kind
	Sketch    sketch             `json:"sketch,omitempty"`
}

// KindCount is how often a kind of flag is open.
type KindCount struct {
	Kind  string `json:"kind"`
	Count int    `json:"count"`
}

// MacrosState tells how far the figures are.
type MacrosState struct {
	Spoken    bool   `json:"spoken"`    // figures were said
	Worked    string `json:"worked"`    // "complete", "lower bounds" or "none"
	Missing   int    `json:"missing"`   // ingredients that are not counted
	Conflicts int    `json:"conflicts"` // open conflicts between figures
}

// String gives the state in words.
func (m MacrosState) String() string {
	s := m.Worked
	if m.Worked == "none" {
		s = "not worked out"
	}
	if m.Spoken {
		s += ", figures said"
	}
	return s
}

// Item is an ingredient as the comparison across the archive sees it.
type Item struct {
	Name   string `json:"name"`
	Food   string `json:"food,omitempty"`   // key of the nutrient table
	Amount string `json:"amount,omitempty"` // as said or filled in; "" where it isn't known
	Open   bool   `json:"open,omitempty"`   // its amount is asked for
	At     string `json:"at,omitempty"`     // WebVTT timestamp
	Ask    string `json:"ask,omitempty"`    // the open question for its amount
}

// rowsOf draws the rows of a recording.
func rowsOf(it item, m *made) []Row {
	nearest := -1
	if m.recipe != nil {
		nearest = slices.Index(m.docs, written.Nearest(m.docs, m.recipe))
	}
	rows := make([]Row, 0, len(m.docs))
	for i, doc := range m.docs {
		row := rowOf(doc)
		row.Path, row.Document, row.Recipe, row.Recipes = it.path, it.document, i+1, len(m.docs)
		if i == 0 {
			row.Sketch = m.sketch
		}
		if i == nearest {
			row.Written = it.written
			row.Differs = written.Count(m.compare)
		}
		rows = append(rows, row)
	}
	return rows
}

func rowOf(doc *schema.Document) Row {
	row := Row{Title: doc.Title}
	if doc.Source != nil {
		row.Length = seconds(doc.Source.Length)
	}
	if doc.Yield != nil {
		row.Yield = doc.Yield.String()
	}
	counts := map[string]int{}
	asks := map[string]string{}
	for _, f := range doc.Flags {
		switch {
		case f.Settled != "":
			row.Settled++
		default:
			counts[f.Kind]++
			if f.Kind == schema.AmountUnstated || f.Kind == schema.AmountVague {
				if at := at(f.Said); asks[f.Subject+"\x00"+at] == "" {
					asks[f.Subject+"\x00"+at] = f.Ask
				}
			}
		}
	}
	for _, kind := range flagKinds(counts) {
		row.Open = append(row.Open, KindCount{kind, counts[kind]})
	}
	row.Holds = components(doc)
	row.Complete = percent(row.Holds)
	row.Macros = MacrosState{Worked: "none", Conflicts: counts[schema.ConflictMacros]}
	if m := doc.Macros; m != nil {
		row.Macros.Spoken = m.Spoken != nil
		if c := m.Computed; c != nil {
			row.Macros.Worked = "complete"
			if !c.Complete {
				row.Macros.Worked = "lower bounds"
			}
			row.Macros.Missing = len(c.Missing)
		}
	}
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		x := Item{Name: ing.Name, Food: ing.Food, At: at(ing.Said)}
		x.Ask = asks[ing.Name+"\x00"+x.At]
		x.Open = x.Ask != ""
		if ing.Amount != nil && ing.Amount.Vague == "" {
			x.Amount = ing.Amount.String()
		}
		row.Items = append(row.Items, x)
	}
	for i := range doc.Steps {
		for _, q := range doc.Steps[i].Temperature {
			f, ok := schema.Fahrenheit(q.Max, q.Unit)
			// Hotter than boiling, so not the temperature inside a food.
			if f = math.Round(f); ok && q.Vague == "" && f >= 220 && !slices.Contains(row.Ovens, f) {
				row.Ovens = append(row.Ovens, f)
			}
		}
	}
	slices.Sort(row.Ovens)
	row.Allergens = doc.Allergens
	return row
}

// open counts the open flags of a row.
func (r *Row) open() int {
	n := 0
	for _, k := range r.Open {
		n += k.Count
	}
	return n
}

// flagKinds lists the kinds that are counted: those of the form in its order,
// then others by name.
func flagKinds(counts map[string]int) []string {
	var kinds, others []string
	for _, k := range schema.FlagKinds() {
		if counts[k] > 0 {
			kinds = append(kinds, k)
		}
	}
	for k := range counts {
		if !schema.KnownFlagKind(k) {
			others = append(others, k)
		}
	}
	slices.Sort(others)
	return append(kinds, others...)
}

// at is the first moment of what was said, "" where there is none.
func at(said []schema.Said) string {
	for _, s := range said {
		if s.At != "" {
			return s.At
		}
	}
	return ""
}

// seconds reads an ISO 8601 duration of hours, minutes and seconds, as a
// document's source has it; 0 for anything else.
func seconds(length string) float64 {
	text, ok := strings.CutPrefix(length, "PT")
	if !ok {
		return 0
	}
	d, err := time.ParseDuration(strings.ToLower(text))
	if err != nil || d < 0 {
		return 0
	}
	return d.Seconds()
}

// Component is one thing that a complete written recipe holds.
type Component struct {
	Name  string  `json:"name"`
	Share float64 `json:"share"` // 0 to 1; 1 where it is all there
	Needs bool    `json:"needed"`
	Note  string  `json:"note,omitempty"`
}

// The components of a standardized recipe that a recipe document can hold
// (USDA, standardized recipe components). Two of the published list are not
// judged: the document has no field for the category, and critical control
// points are for kitchens that serve the public.
var componentNames = []string{
	"title", "ingredients", "amount of each", "preparation instructions", "cooking temperature and time", "serving size", "yield", "equipment",
}

// notJudged names the components that are left out, for the reports.
const notJudged = "Not judged: the category, for which a recipe document has no field, and critical control points, which are for kitchens that serve the public."

const componentsSource = "USDA, standardized recipe components"

func components(doc *schema.Document) []Component {
	held := func(ok bool) float64 {
		if ok {
			return 1
		}
		return 0
	}
	list := make([]Component, len(componentNames))
	for i, name := range componentNames {
		list[i] = Component{Name: name, Needs: true}
	}
	list[0].Share = held(strings.TrimSpace(doc.Title) != "")
	list[1].Share = held(len(doc.Ingredients) > 0)
	list[2].Share, list[2].Note = amountsHeld(doc)
	list[3].Share = held(len(doc.Steps) > 0)
	list[4].Share, list[4].Needs = cookingHeld(doc)
	list[5].Share = held(servingHeld(doc))
	list[6].Share = held(doc.Yield != nil && doc.Yield.Vague == "" && doc.Yield.Max > 0)
	list[7].Share = held(len(doc.Equipment) > 0)
	return list
}

// percent is the share of what is needed that is there, in whole percent: 100
// only where nothing is missing.
func percent(list []Component) int {
	sum, n := 0.0, 0
	for _, c := range list {
		if c.Needs {
			sum += c.Share
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return int(math.Floor(100*sum/float64(n) + 1e-9))
}

// amountsHeld is the share of the ingredients whose amount is known: a number
// with its measure, or "to taste".
func amountsHeld(doc *schema.Document) (float64, string) {
	known := 0
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		if ing.ToTaste || ing.Amount != nil && ing.Amount.Vague == "" || ing.SecondAmount != nil && ing.SecondAmount.Vague == "" {
			known++
		}
	}
	n := len(doc.Ingredients)
	if n == 0 {
		return 0, "no ingredients"
	}
	return float64(known) / float64(n), plural(known, "known", "known") + " of " + number(n)
}

// cookingHeld tells whether the heat and the time are given. A recipe in which
// nothing is heated needs neither.
func cookingHeld(doc *schema.Document) (share float64, needed bool) {
	heat, wait := false, false
	for i := range doc.Steps {
		s := &doc.Steps[i]
		if len(s.Temperature) > 0 || len(s.Heat) > 0 {
			heat = true
			wait = wait || len(s.Time) > 0 || s.Until != ""
		}
		wait = wait || len(s.Time) > 0 && (slices.ContainsFunc(s.Actions, func(a string) bool { return cooking[a] }))
		needed = needed || len(s.Temperature) > 0 || len(s.Heat) > 0 || slices.ContainsFunc(s.Actions, func(a string) bool { return cooking[a] })
	}
	for _, f := range doc.Flags {
		if f.Settled != "" {
			continue
		}
		switch f.Kind {
		case schema.TemperatureUnstated:
			heat, needed = false, true
		case schema.TimeUnstated:
			wait, needed = false, true
		}
	}
	if heat {
		share += 0.5
	}
	if wait {
		share += 0.5
	}
	return share, needed
}

// cooking are the actions that need a heat and a time.
var cooking = map[string]bool{
	"bake": true, "boil": true, "braise": true, "broil": true, "brown": true, "caramelise": true, "caramelize": true, "cook": true, "fry": true,
	"deep-fry": true, "grill": true, "poach": true, "reduce": true, "roast": true, "sauté": true, "saute": true, "sear": true, "simmer": true,
	"steam": true, "stew": true, "stir-fry": true, "toast": true,
}

// servingHeld tells whether it is known what one serving is: the yield counts
// servings or pieces, or the figures were said per something.
func servingHeld(doc *schema.Document) bool {
	if m := doc.Macros; m != nil && m.Spoken != nil && strings.TrimSpace(m.Spoken.Per) != "" {
		return true
	}
	y := doc.Yield
	return y != nil && y.Vague == "" && (y.Max > 1 || nutrition.PerOf(y.Unit) == "serving")
}

// words are the words of a text in small letters, without marks.
func words(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' })
}
