package derive

import (
	"bytes"
	"encoding/gob"
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"quern/schema"
)

func said(at, quote string) []schema.Said { return []schema.Said{{At: at, Quote: quote}} }

func grams(n float64) *schema.Quantity { return &schema.Quantity{Min: n, Max: n, Unit: "g"} }

// biscuits is a document with one of each open question.
func biscuits() *schema.Document {
	return &schema.Document{
		Recipe: schema.Version,
		Title:  "Honey biscuits",
		Claims: []schema.Claim{{Claim: "dairy-free", Said: said("00:00:05.000", "it's dairy-free")}},
		Parts:  []schema.Part{{Name: "dough"}, {Name: "glaze"}},
		Ingredients: []schema.Ingredient{
			{ID: "flour", Name: "plain flour", Amount: grams(200), Part: "dough", Said: said("00:00:10.000", "two hundred grams of plain flour")},
			{ID: "butter", Name: "butter", Amount: grams(100), Part: "dough", Said: said("00:00:15.000", "a hundred grams of butter")},
			{ID: "honey", Name: "honey", Part: "dough", Said: said("00:00:20.000", "the honey")},
			{ID: "honey-2", Name: "honey", Part: "glaze", Vague: "a splash", Said: said("00:00:50.000", "a splash of honey")},
			{ID: "salt", Name: "salt", ToTaste: true, Part: "dough", Said: said("00:00:25.000", "salt to taste")},
			{ID: "oats", Name: "oats", Part: "dough", Said: said("00:00:22.000", "oats")},
			{ID: "eggs", Name: "eggs", Part: "dough", Optional: true, Said: said("00:00:23.000", "eggs")},
		},
		Steps: []schema.Step{
			{Text: "Mix everything.", Actions: []string{"mix"}, Uses: []string{"flour", "butter", "honey", "oats", "eggs"}, Part: "dough", Said: said("00:00:30.000", "mix it")},
			{Text: "Bake the biscuits.", Actions: []string{"bake"}, Said: said("00:00:40.000", "bake them")},
			{Text: "Brush with the honey.", Actions: []string{"brush"}, Uses: []string{"honey-2"}, Part: "glaze", Said: said("00:00:55.000", "brush them")},
		},
		Flags: []schema.Flag{
			{Kind: schema.ConflictAmount, Subject: "butter", Ask: "100 g or 120 g of butter?", Said: said("00:00:15.000", "a hundred grams")},
			{Kind: schema.HeardUnsure, Subject: "flour", Ask: "Was it flour?", Said: said("00:00:10.000", "flower"), Settled: "flour"},
		},
	}
}

func asks(doc *schema.Document) []string {
	var out []string
	for _, f := range doc.Flags {
		if f.Kind != schema.FoodUnknown {
			out = append(out, f.Kind+": "+f.Ask)
		}
	}
	return out
}

func TestFlagsOfADocument(t *testing.T) {
	doc := biscuits()
	Apply(doc, Options{})
	want := []string{
		"conflict-claim: Is it dairy-free with butter in it (butter is made from milk)?",
		"heard-unsure: Was it flour?",
		"conflict-amount: 100 g or 120 g of butter?",
		"amount-unstated: How much honey for the dough?",
		"amount-unstated: What amount of oats?",
		"amount-unstated: How many eggs?",
		"temperature-unstated: What temperature should the oven be?",
		"time-unstated: How long should this take, or what shows that it's done: “Bake the biscuits”?",
		"amount-vague: How much honey for the glaze (“a splash” was said)?",
		"yield-unstated: How many servings or pieces does this make?",
	}
	if d := cmp.Diff(want, asks(doc)); d != "" {
		t.Errorf("flags (-want +got):\n%s", d)
	}
	claim := doc.Flags[slices.IndexFunc(doc.Flags, func(f schema.Flag) bool { return f.Kind == schema.ConflictClaim })]
	if d := cmp.Diff([]schema.Said{{At: "00:00:05.000", Quote: "it's dairy-free"}, {At: "00:00:15.000", Quote: "a hundred grams of butter"}}, claim.Said); d != "" {
		t.Errorf("a broken claim shows the claim's moment and then the ingredient's (-want +got):\n%s", d)
	}
}

func TestFlagsComeAndGo(t *testing.T) {
	doc := biscuits()
	Apply(doc, Options{})
	doc.Ingredients[2].Amount = grams(40)
	doc.Ingredients[1].Name, doc.Ingredients[1].AlsoCalled = "sunflower oil", nil
	doc.Yield = &schema.Quantity{Min: 12, Max: 12, Unit: "biscuits"}
	doc.Steps[1].Temperature = []schema.Quantity{{Min: 180, Max: 180, Unit: "C"}}
	doc.Steps[1].Until = "golden"
	Apply(doc, Options{})
	want := []string{
		"heard-unsure: Was it flour?",
		"conflict-amount: 100 g or 120 g of butter?",
		"amount-unstated: What amount of oats?",
		"amount-unstated: How many eggs?",
		"amount-vague: How much honey for the glaze (“a splash” was said)?",
	}
	if d := cmp.Diff(want, asks(doc)); d != "" {
		t.Errorf("flags after the edits (-want +got):\n%s", d)
	}
	doc.Ingredients[2].Amount = nil
	Apply(doc, Options{})
	if !slices.Contains(asks(doc), "amount-unstated: How much honey for the dough?") {
		t.Errorf("the question should be back when its amount is taken out: %q", asks(doc))
	}
}

func TestSettledFlagsStay(t *testing.T) {
	doc := biscuits()
	Apply(doc, Options{})
	for i := range doc.Flags {
		switch doc.Flags[i].Ask {
		case "How much honey for the dough?":
			doc.Flags[i].Settled = "as you like it"
		case "How many servings or pieces does this make?":
			doc.Flags[i].Settled = "a batch"
		}
	}
	before := len(doc.Flags)
	Apply(doc, Options{})
	if len(doc.Flags) != before {
		t.Errorf("%d flags, want %d: a settled flag must not be asked again: %q", len(doc.Flags), before, asks(doc))
	}
	settled := 0
	for _, f := range doc.Flags {
		if f.Settled != "" {
			settled++
		}
	}
	if settled != 3 {
		t.Errorf("%d settled flags kept, want 3", settled)
	}
	if open := doc.Open(); slices.ContainsFunc(open, func(f schema.Flag) bool { return f.Kind == schema.YieldUnstated }) {
		t.Error("the yield is settled and must not be open")
	}
}

func TestSettlingOneOfTwoKeepsTheOtherOpen(t *testing.T) {
	doc := &schema.Document{
		Yield: &schema.Quantity{Min: 4, Max: 4, Unit: "servings"},
		Ingredients: []schema.Ingredient{
			{ID: "oil", Name: "olive oil", Vague: "a glug", Said: said("00:00:10.000", "a glug of olive oil")},
			{ID: "oil-2", Name: "olive oil", Vague: "a glug", Said: said("00:01:10.000", "another glug")},
		},
	}
	Apply(doc, Options{})
	want := []string{
		"amount-vague: How much olive oil (“a glug” was said) at 0:10?",
		"amount-vague: How much olive oil (“a glug” was said) at 1:10?",
	}
	if d := cmp.Diff(want, asks(doc)); d != "" {
		t.Fatalf("(-want +got):\n%s", d)
	}
	i := slices.IndexFunc(doc.Flags, func(f schema.Flag) bool { return strings.HasSuffix(f.Ask, "at 1:10?") })
	doc.Flags[i].Settled = "2 tbsp"
	doc.Ingredients[1].Amount, doc.Ingredients[1].Vague = &schema.Quantity{Min: 2, Max: 2, Unit: "tbsp"}, ""
	Apply(doc, Options{})
	var open []string
	for _, f := range doc.Open() {
		if f.Kind == schema.AmountVague {
			open = append(open, f.Said[0].At)
		}
	}
	if d := cmp.Diff([]string{"00:00:10.000"}, open); d != "" {
		t.Errorf("the other splash should stay open (-want +got):\n%s", d)
	}
}

func TestStepQuestions(t *testing.T) {
	minutes := []schema.Quantity{{Min: 5, Max: 5, Unit: "minute"}}
	for _, c := range []struct {
		name  string
		steps []schema.Step
		want  []string
	}{
		{"baked, nothing said", []schema.Step{{Text: "Bake the loaf.", Actions: []string{"bake"}}}, []string{"temperature-unstated", "time-unstated"}},
		{"the oven said elsewhere", []schema.Step{
			{Text: "Heat the oven.", Actions: []string{"heat"}, Temperature: []schema.Quantity{{Min: 180, Max: 180, Unit: "C"}}},
			{Text: "Bake the loaf.", Actions: []string{"bake"}, Time: minutes}}, nil},
		{"the oven at gas 4", []schema.Step{{Text: "Bake the loaf.", Actions: []string{"bake"}, Time: minutes, Temperature: []schema.Quantity{{Min: 4, Max: 4, Unit: "gas"}}}}, nil},
		{"the inside of a loaf is no oven", []schema.Step{{Text: "Bake the loaf to 205 F inside.", Actions: []string{"bake"}, Temperature: []schema.Quantity{{Min: 205, Max: 205, Unit: "F"}}}}, []string{"temperature-unstated"}},
		{"roasted on a comal", []schema.Step{{Text: "Roast the onion on the comal.", Actions: []string{"roast"}, Time: minutes}}, nil},
		{"roasted in a dry frying pan", []schema.Step{{Text: "Roast the spice.", Actions: []string{"roast"}, Equipment: []string{"frying pan"}, Time: minutes}}, nil},
		{"fried until golden", []schema.Step{{Text: "Fry the onion until golden.", Actions: []string{"fry"}}}, nil},
		{"fried with a sign beside it", []schema.Step{{Text: "Fry the onion.", Actions: []string{"fry"}, Until: "golden"}}, nil},
		{"fried, nothing said", []schema.Step{{Text: "Fry the onion.", Actions: []string{"fry"}}}, []string{"time-unstated"}},
		{"fried off, nothing said", []schema.Step{{Text: "Fry off the spice.", Actions: []string{"fry off"}}}, []string{"time-unstated"}},
		{"told in another step", []schema.Step{
			{Text: "Simmer the sauce.", Actions: []string{"simmer"}},
			{Text: "Simmer it.", Actions: []string{"simmer"}, Time: minutes}}, nil},
		{"water has its own sign", []schema.Step{{Text: "Boil the water.", Actions: []string{"boil"}}}, nil},
		{"brought to a boil", []schema.Step{{Text: "Bring the sauce to a boil.", Actions: []string{"boil"}}}, nil},
		{"no heat", []schema.Step{{Text: "Chop the onion.", Actions: []string{"chop"}}}, nil},
		{"an oven by its medium heat", []schema.Step{{Text: "Bake the loaf.", Actions: []string{"bake"}, Heat: []string{"medium"}, Time: minutes}}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc := &schema.Document{Yield: &schema.Quantity{Min: 1, Max: 1, Unit: "loaf"}, Steps: c.steps}
			Apply(doc, Options{})
			var got []string
			for _, f := range doc.Flags {
				got = append(got, f.Kind)
			}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
		})
	}
}

func TestOvenIsAskedForOncePerWay(t *testing.T) {
	doc := &schema.Document{
		Yield: &schema.Quantity{Min: 1, Max: 1, Unit: "tray"},
		Ways:  []schema.Way{{Name: "slab"}, {Name: "hand-shaped"}},
		Steps: []schema.Step{
			{Text: "Bake the slab for 20 minutes.", Actions: []string{"bake"}, Ways: []string{"slab"}, Time: []schema.Quantity{{Min: 20, Max: 20, Unit: "minute"}}},
			{Text: "Bake the biscuits for 10 minutes.", Actions: []string{"bake"}, Ways: []string{"hand-shaped"}, Time: []schema.Quantity{{Min: 10, Max: 10, Unit: "minute"}}, Temperature: []schema.Quantity{{Min: 170, Max: 170, Unit: "C"}}},
		},
	}
	Apply(doc, Options{})
	if d := cmp.Diff([]string{"temperature-unstated: What temperature should the oven be for slab?"}, asks(doc)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestClock(t *testing.T) {
	for at, want := range map[string]string{"00:01:31.500": "1:31", "00:00:05.000": "0:05", "01:02:03.000": "1:02:03", "00:10:00.000": "10:00", "00:00:00.000": "0:00"} {
		if got := clock(at); got != want {
			t.Errorf("clock(%q) = %q, want %q", at, got, want)
		}
	}
}

// TestUnstatedAmountsOfWorkedDishes compares the questions about amounts with
// those a person listed for the same dishes.
func TestUnstatedAmountsOfWorkedDishes(t *testing.T) {
	data, err := os.ReadFile("../safety/testdata/dishes.json")
	if err != nil {
		t.Fatal(err)
	}
	var dishes []struct {
		Title       string
		Ingredients []struct {
			Name    string
			Amount  *struct{ Min, Max float64 }
			Vague   string
			ToTaste bool `json:"to_taste"`
			Part    string
		}
		Unstated []string
	}
	if err := json.Unmarshal(data, &dishes); err != nil {
		t.Fatal(err)
	}
	for _, d := range dishes {
		doc := &schema.Document{Title: d.Title}
		for _, x := range d.Ingredients {
			ing := schema.Ingredient{Name: x.Name, Vague: x.Vague, ToTaste: x.ToTaste, Part: x.Part}
			if x.Amount != nil {
				ing.Amount = &schema.Quantity{Min: x.Amount.Min, Max: x.Amount.Max}
			}
			doc.Ingredients = append(doc.Ingredients, ing)
		}
		var got []string
		for _, f := range amountFlags(doc) {
			got = append(got, f.Subject)
		}
		if diff := cmp.Diff(d.Unstated, got, cmp.Transformer("sorted", func(s []string) string {
			s = slices.Clone(s)
			slices.Sort(s)
			return strings.Join(slices.Compact(s), ", ")
		})); diff != "" {
			t.Errorf("%s (-want +got):\n%s", d.Title, diff)
		}
	}
}

// document draws a document with the parts the derived facts hang on.
func document(t *rapid.T) *schema.Document {
	at := rapid.SampledFrom([]string{"", "00:00:01.000", "00:00:20.000", "00:01:05.250"})
	saying := func(t *rapid.T) []schema.Said {
		if rapid.Bool().Draw(t, "silent") {
			return nil
		}
		return said(at.Draw(t, "at"), "words")
	}
	name := rapid.SampledFrom([]string{"butter", "plain flour", "eggs", "honey", "chicken thighs", "rump steak", "tuna", "rice", "garlic", "olive oil", "dark rum", "oats", "kidney beans", "sugar", "", "Ωmega ⁂"})
	part := rapid.SampledFrom([]string{"", "dough", "glaze"})
	verb := rapid.SampledFrom([]string{"bake", "fry", "mix", "boil", "chill", "deep-fry", "thaw", "pour in", ""})
	quantity := func(t *rapid.T) *schema.Quantity {
		if rapid.Bool().Draw(t, "unsaid") {
			return nil
		}
		n := rapid.Float64Range(0, 500).Draw(t, "n")
		return &schema.Quantity{Min: n, Max: n, Unit: rapid.SampledFrom([]string{"", "g", "cup", "F", "C", "day", "minute", "can"}).Draw(t, "unit")}
	}
	doc := &schema.Document{Title: rapid.SampledFrom([]string{"", "Mayonnaise", "Stew"}).Draw(t, "title"), Yield: quantity(t)}
	for range rapid.IntRange(0, 2).Draw(t, "claims") {
		doc.Claims = append(doc.Claims, schema.Claim{Claim: rapid.SampledFrom([]string{"vegan", "dairy-free", "keto", "halal", "odd"}).Draw(t, "claim"), Said: saying(t)})
	}
	for range rapid.IntRange(0, 2).Draw(t, "ways") {
		doc.Ways = append(doc.Ways, schema.Way{Name: rapid.SampledFrom([]string{"oven", "pan"}).Draw(t, "way")})
	}
	for range rapid.IntRange(0, 5).Draw(t, "ingredients") {
		n := name.Draw(t, "name")
		doc.Ingredients = append(doc.Ingredients, schema.Ingredient{ID: n, Name: n, Amount: quantity(t), Part: part.Draw(t, "part"),
			Vague: rapid.SampledFrom([]string{"", "a splash"}).Draw(t, "vague"), Optional: rapid.Bool().Draw(t, "optional"), Said: saying(t)})
	}
	for range rapid.IntRange(0, 5).Draw(t, "steps") {
		v := verb.Draw(t, "verb")
		s := schema.Step{Text: v + " " + name.Draw(t, "object"), Actions: []string{v}, Uses: []string{name.Draw(t, "use")}, Part: part.Draw(t, "part"), Said: saying(t)}
		if q := quantity(t); q != nil {
			s.Temperature, s.Time = []schema.Quantity{*q}, []schema.Quantity{*q}
		}
		doc.Steps = append(doc.Steps, s)
	}
	for range rapid.IntRange(0, 2).Draw(t, "storage") {
		doc.Storage = append(doc.Storage, schema.Storage{Place: rapid.SampledFrom([]string{schema.Refrigerator, schema.Freezer, schema.RoomTemperature}).Draw(t, "place"), Keeps: quantity(t), What: name.Draw(t, "what"), Said: saying(t)})
	}
	for range rapid.IntRange(0, 3).Draw(t, "flags") {
		doc.Flags = append(doc.Flags, schema.Flag{Kind: rapid.SampledFrom(schema.FlagKinds()).Draw(t, "kind"), Subject: name.Draw(t, "subject"), Ask: "?",
			Settled: rapid.SampledFrom([]string{"", "done"}).Draw(t, "settled"), Said: saying(t)})
	}
	for range rapid.IntRange(0, 2).Draw(t, "cautions") {
		doc.Cautions = append(doc.Cautions, schema.Caution{Kind: rapid.SampledFrom([]string{"raw egg", "raw flour", "hot oil", "my own"}).Draw(t, "caution"), Said: saying(t)})
	}
	return doc
}

// clone copies a document by its fields; drawn quantities need not be writable.
func clone(t *rapid.T, doc *schema.Document) *schema.Document {
	var b bytes.Buffer
	if err := gob.NewEncoder(&b).Encode(doc); err != nil {
		t.Fatal(err)
	}
	var out schema.Document
	if err := gob.NewDecoder(&b).Decode(&out); err != nil {
		t.Fatal(err)
	}
	return &out
}

func TestApplyTwiceChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := document(t)
		settled := 0
		for _, f := range doc.Flags {
			if f.Settled != "" {
				settled++
			}
		}
		Apply(doc, Options{})
		once := clone(t, doc)
		for _, f := range doc.Flags {
			if f.Settled != "" {
				settled--
			}
		}
		if settled != 0 {
			t.Fatalf("settled flags lost or made: %d", settled)
		}
		Apply(doc, Options{})
		if d := cmp.Diff(once, clone(t, doc)); d != "" {
			t.Fatalf("applying twice changed the document (-once +twice):\n%s", d)
		}
	})
}

// The question how long is left out exactly where some step of the action, for a
// part and a way that meet this one's, says when it is over.
func TestEndingsMeetAsStepsDo(t *testing.T) {
	names := func(from ...string) *rapid.Generator[[]string] {
		return rapid.SliceOfNDistinct(rapid.SampledFrom(from), 0, 2, rapid.ID)
	}
	step := rapid.Custom(func(t *rapid.T) schema.Step {
		s := schema.Step{Part: rapid.SampledFrom([]string{"", "dough", "glaze"}).Draw(t, "part"), Ways: names("slab", "pan", "air").Draw(t, "ways"), Actions: names("bake", "fry", "fry off", "stir").Draw(t, "actions")}
		if rapid.Bool().Draw(t, "told") {
			s.Until = "golden"
		}
		return s
	})
	meets := func(a, b []string) bool {
		return len(a) == 0 || len(b) == 0 || slices.ContainsFunc(a, func(w string) bool { return slices.Contains(b, w) })
	}
	rapid.Check(t, func(t *rapid.T) {
		doc := &schema.Document{Steps: rapid.SliceOfN(step, 0, 6).Draw(t, "steps")}
		ended := endings(doc)
		s := step.Draw(t, "step")
		for _, verb := range []string{"bake", "fry"} {
			want := slices.ContainsFunc(doc.Steps, func(o schema.Step) bool {
				return acts(&o, []string{verb}) != "" && told(&o) && (o.Part == s.Part || o.Part == "" || s.Part == "") && meets(o.Ways, s.Ways)
			})
			if got := ended.of(verb, &s); got != want {
				t.Fatalf("%s: %v, want %v", verb, got, want)
			}
		}
	})
}
