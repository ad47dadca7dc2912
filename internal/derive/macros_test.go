package derive

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"quern/internal/nutrition"
	"quern/schema"
)

// soup is an invented recipe with an amount that was never said, a vague one,
// something to taste, something optional, and spoken figures.
const soup = `recipe: 1
title: Leek and cauliflower soup
yield: 6 bowls
ingredients:
  - {id: butter, name: butter, amount: 50 g}
  - {id: leeks, name: leeks, amount: "2", preparation: sliced}
  - {id: cauliflower, name: cauliflower, amount: 1 head, second_amount: 900 g}
  - {id: cream, name: heavy cream, amount: null, said: [{at: "00:01:00.000", quote: "then the cream"}]}
  - {id: lemon, name: lemon, amount: null, vague: a bit, preparation: squeezed, said: [{at: "00:02:00.000", quote: "a bit of lemon"}]}
  - {id: bacon, name: bacon, amount: 4 slices, optional: true}
  - {id: salt, name: salt, amount: null, to_taste: true}
steps:
  - {text: Melt the butter., actions: [melt], uses: [butter], time: [2 minutes]}
macros:
  spoken: {per: bowl, kcal: 200, fat_g: 16, protein_g: 3.5, carbs_g: 12, fibre_g: 3, net_carbs_g: 3, said: [{at: "00:04:00.000", quote: "net carbs three"}]}
`

func read(t testing.TB, text string) *schema.Document {
	t.Helper()
	doc, err := schema.Read("soup.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func flagOf(doc *schema.Document, kind, subject string) *schema.Flag {
	for i := range doc.Flags {
		if doc.Flags[i].Kind == kind && doc.Flags[i].Subject == subject {
			return &doc.Flags[i]
		}
	}
	return nil
}

func TestMacrosOfDocument(t *testing.T) {
	doc := read(t, soup)
	Apply(doc, Options{})
	butter := doc.Ingredients[0]
	if butter.Food != "butter" || butter.Grams == nil || butter.Grams.Min != 50 {
		t.Errorf("butter is %q, %+v", butter.Food, butter.Grams)
	}
	c := doc.Macros.Computed
	if c == nil || c.Complete || !slices.Equal(c.Missing, []string{"heavy cream", "lemon"}) || !slices.Equal(c.LeavesOut, []string{"bacon"}) {
		t.Fatalf("computed is %+v", c)
	}
	if !strings.Contains(strings.Join(c.Statements, "\n"), "lower bounds: heavy cream, lemon not counted") {
		t.Errorf("notes %q do not say the figures are lower bounds", c.Statements)
	}
	f := flagOf(doc, schema.ConflictMacros, "net carbohydrate")
	if f == nil || f.Ask != "Is the net carbohydrate 3 g as said, or 9 g (12 g in all less 3 g of fibre)?" || len(f.Said) != 1 || f.Said[0].At != "00:04:00.000" {
		t.Errorf("the conflict of net carbohydrate is %+v", f)
	}
	cream := flagOf(doc, schema.AmountUnstated, "heavy cream")
	if cream == nil {
		t.Fatal("no question for the cream")
	}
	if len(cream.Evidence) != 1 || cream.Evidence[0] != "no amounts fit all the spoken figures" {
		t.Errorf("beside figures that conflict the evidence is %q", cream.Evidence)
	}
}

func TestEvidenceBesideAMissingAmount(t *testing.T) {
	doc := read(t, strings.Replace(soup, "net_carbs_g: 3", "net_carbs_g: 9", 1))
	Apply(doc, Options{})
	if f := flagOf(doc, schema.ConflictMacros, "net carbohydrate"); f != nil {
		t.Errorf("figures that agree are asked about: %+v", f)
	}
	cream := flagOf(doc, schema.AmountUnstated, "heavy cream")
	if cream == nil || len(cream.Evidence) != 1 || !strings.HasPrefix(cream.Evidence[0], "the spoken figures allow ") {
		t.Fatalf("evidence for the cream is %+v", cream)
	}
	if doc.Ingredients[3].Amount != nil || doc.Ingredients[3].Grams != nil {
		t.Error("evidence was filled in as an amount")
	}
	// Filling in the amount works everything out again: 2 dl of cream and two
	// tablespoons of juice, and nothing is missing.
	for i, text := range map[int]string{3: "150 g", 4: "2 tbsp"} {
		q, err := schema.ParseQuantity(text)
		if err != nil {
			t.Fatal(err)
		}
		doc.Ingredients[i].Amount, doc.Ingredients[i].Vague = &q, ""
	}
	before := *doc.Macros.Computed.Kcal
	Apply(doc, Options{})
	c := doc.Macros.Computed
	if !c.Complete || len(c.Missing) != 0 || *c.Kcal <= before || c.Ratio == nil {
		t.Errorf("after filling in, computed is %+v", c)
	}
	if flagOf(doc, schema.AmountUnstated, "heavy cream") != nil {
		t.Error("the question for the cream is still there")
	}
}

func TestFiguresTheAmountsDoNotGive(t *testing.T) {
	doc := read(t, `recipe: 1
title: Shortbread
yield: 4 pieces
ingredients:
  - {id: butter, name: butter, amount: 100 g}
  - {id: sugar, name: sugar, amount: 100 g}
steps: []
macros:
  spoken: {per: piece, kcal: 290, fat_g: 20, carbs_g: 22, said: [{at: "00:04:00.000", quote: "two ninety"}]}
`)
	Apply(doc, Options{})
	// 717 and 387 kcal, 0.06 and 99.98 g of carbohydrate for four (NDB 01001, 19335).
	want := []schema.Flag{{Kind: schema.MacrosDiffer, Subject: "figures", Said: []schema.Said{{At: "00:04:00.000", Quote: "two ninety"}},
		Ask: "Does one piece have 290 kcal and 22 g of carbohydrate as said, or 276 kcal and 25 g of carbohydrate as the amounts give?"}}
	if d := cmp.Diff(want, doc.Flags); d != "" {
		t.Fatalf("flags (-want +got):\n%s", d)
	}
	// It goes with the amounts, and comes again with them.
	sugar := doc.Ingredients[1].Amount
	doc.Ingredients[1].Amount = &schema.Quantity{Min: 88, Max: 88, Unit: "g"}
	Apply(doc, Options{})
	f := flagOf(doc, schema.MacrosDiffer, "figures")
	if f == nil || f.Ask != "Does one piece have 290 kcal as said, or 264 kcal as the amounts give?" {
		t.Fatalf("with 88 g of sugar the flag is %+v", f)
	}
	doc.Ingredients[1].Amount = sugar
	Apply(doc, Options{})
	doc.Flags[0].Settled = "276 kcal"
	Apply(doc, Options{})
	want[0].Settled = "276 kcal"
	if d := cmp.Diff(want, doc.Flags); d != "" {
		t.Errorf("a settled difference is asked again (-want +got):\n%s", d)
	}
}

// Beside an amount that is missing the sums are lower bounds: only what was said
// to be less than them is asked about, and the question says what is missing.
func TestLowerBoundAboveWhatWasSaid(t *testing.T) {
	doc := read(t, strings.Replace(soup, "fat_g: 16, protein_g: 3.5, carbs_g: 12, fibre_g: 3, net_carbs_g: 3", "fat_g: 3, protein_g: 30", 1))
	Apply(doc, Options{})
	f := flagOf(doc, schema.MacrosDiffer, "figures")
	// 50 g of butter hold 40.6 g of fat (NDB 01001), 6.8 g a bowl, before the cream.
	if f == nil || !strings.HasPrefix(f.Ask, "Does one bowl have 3 g of fat as said, or at least ") {
		t.Fatalf("the flag is %+v", f)
	}
	if d := cmp.Diff([]string{"what the amounts give is a lower bound: heavy cream and lemon not counted"}, f.Evidence); d != "" {
		t.Errorf("evidence (-want +got):\n%s", d)
	}
}

// A figure that the spoken ones already contradict among themselves is asked
// about once.
func TestOneQuestionAFigure(t *testing.T) {
	doc := read(t, `recipe: 1
title: Shortbread
yield: 4 pieces
ingredients:
  - {id: butter, name: butter, amount: 100 g}
  - {id: flour, name: flour, amount: 100 g}
steps: []
macros:
  spoken: {per: piece, carbs_g: 19, fibre_g: 1, net_carbs_g: 12}
`)
	Apply(doc, Options{})
	if len(doc.Flags) != 1 || doc.Flags[0].Kind != schema.ConflictMacros || doc.Flags[0].Subject != "net carbohydrate" {
		t.Errorf("flags are %+v, want the one about net carbohydrate", doc.Flags)
	}
}

func TestEachWayIsApart(t *testing.T) {
	doc := read(t, `recipe: 1
title: Flatbread
yield: 2 breads
ways: [{name: oven}, {name: skillet}]
ingredients:
  - {id: flour, name: flour, amount: 200 g}
  - {id: oil, name: olive oil, amount: 20 g, ways: [skillet]}
steps: []
`)
	Apply(doc, Options{})
	c := doc.Macros.Computed
	// 364 kcal in 100 g of flour (NDB 20081), 884 in 100 g of oil (NDB 04053).
	if *c.Kcal != 364 || !slices.Contains(c.Statements, "the oven way") || !slices.Contains(c.Statements, "the skillet way: 452 kcal") {
		t.Errorf("computed is %v kcal, notes %q", *c.Kcal, c.Statements)
	}
}

func TestAnsweredFood(t *testing.T) {
	doc := read(t, `recipe: 1
title: Toast
yield: 1 slice
ingredients:
  - {id: moon-butter, name: moon butter, amount: 10 g}
steps: []
`)
	Apply(doc, Options{})
	f := flagOf(doc, schema.FoodUnknown, "moon butter")
	if f == nil || doc.Ingredients[0].Food != "" || doc.Macros != nil {
		t.Fatalf("an unknown food gives the flag %+v, food %q, macros %+v", f, doc.Ingredients[0].Food, doc.Macros)
	}
	f.Settled = "butter"
	Apply(doc, Options{})
	if doc.Ingredients[0].Food != "butter" || doc.Macros == nil || *doc.Macros.Computed.Kcal != 72 {
		t.Errorf("the food named in answer is not counted: %+v", doc.Ingredients[0])
	}
}

func TestOwnFoodsInADocument(t *testing.T) {
	own, err := nutrition.ReadOwn("foods.yaml", []byte("- {name: nutritional yeast, per: 10 g, kcal: 35, protein_g: 5, fat_g: 0.5, carbs_g: 3, fibre_g: 2, weighs: {tbsp: 5 g}}"))
	if err != nil {
		t.Fatal(err)
	}
	doc := &schema.Document{Recipe: 1, Ingredients: []schema.Ingredient{{ID: "nutritional-yeast", Name: "nutritional yeast", Amount: &schema.Quantity{Min: 2, Max: 2, Unit: "tbsp"}}}}
	Apply(doc, Options{})
	if doc.Macros != nil {
		t.Errorf("a food without figures is counted: %+v", doc.Macros.Computed)
	}
	Apply(doc, Options{Own: own})
	if doc.Macros == nil || *doc.Macros.Computed.Kcal != 35 || !doc.Macros.Computed.Complete {
		t.Errorf("her own figures are not counted: %+v", doc.Macros)
	}
}

// Working out the macros twice changes nothing, whatever the recipe.
func TestMacrosTwiceChangesNothing(t *testing.T) {
	foods := nutrition.Foods()
	rapid.Check(t, func(t *rapid.T) {
		doc := &schema.Document{Recipe: 1, Title: "dish"}
		if n := rapid.IntRange(0, 8).Draw(t, "yield"); n > 0 {
			doc.Yield = &schema.Quantity{Min: float64(n), Max: float64(n + rapid.IntRange(0, 2).Draw(t, "more")), Unit: "bowls"}
		}
		if rapid.Bool().Draw(t, "ways") {
			doc.Ways = []schema.Way{{Name: "oven"}, {Name: "pan"}}
		}
		for i := range rapid.IntRange(0, 7).Draw(t, "ingredients") {
			name := foods[rapid.IntRange(0, len(foods)-1).Draw(t, "food")].Key
			if rapid.IntRange(0, 9).Draw(t, "unknown") == 0 {
				name = "moon dust"
			}
			ing := schema.Ingredient{ID: fmt.Sprint("i", i), Name: name, Optional: rapid.IntRange(0, 5).Draw(t, "optional") == 0,
				ToTaste: rapid.IntRange(0, 7).Draw(t, "taste") == 0, Said: []schema.Said{{At: fmt.Sprintf("00:0%d:00.000", i), Quote: name}}}
			if rapid.IntRange(0, 3).Draw(t, "amount") > 0 {
				v := float64(rapid.IntRange(1, 400).Draw(t, "least"))
				ing.Amount = &schema.Quantity{Min: v, Max: v + float64(rapid.IntRange(0, 20).Draw(t, "wide")), Unit: rapid.SampledFrom([]string{"g", "cup", "", "can", "pinch"}).Draw(t, "unit")}
			}
			if len(doc.Ways) > 0 && rapid.Bool().Draw(t, "way") {
				ing.Ways = []string{"pan"}
			}
			doc.Ingredients = append(doc.Ingredients, ing)
		}
		if rapid.Bool().Draw(t, "spoken") {
			number := func(name string, most int) *float64 {
				if rapid.IntRange(0, 3).Draw(t, name+" said") == 0 {
					return nil
				}
				v := float64(rapid.IntRange(0, most).Draw(t, name))
				return &v
			}
			doc.Macros = &schema.Macros{Spoken: &schema.SpokenMacros{Per: "bowl", Said: []schema.Said{{At: "00:09:00.000", Quote: "macros"}},
				Figures: schema.Figures{Kcal: number("kcal", 900), FatG: number("fat", 60), ProteinG: number("protein", 60), CarbsG: number("carbs", 90),
					FibreG: number("fibre", 20), NetCarbsG: number("net", 70)}}}
		}
		Apply(doc, Options{})
		var once, twice strings.Builder
		if err := schema.WriteJSON(&once, doc); err != nil {
			t.Fatal(err)
		}
		Apply(doc, Options{})
		if err := schema.WriteJSON(&twice, doc); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(once.String(), twice.String()); diff != "" {
			t.Fatalf("the second time changes the document (-once +twice):\n%s", diff)
		}
	})
}

func BenchmarkMacros(b *testing.B) {
	doc := read(b, soup)
	for b.Loop() {
		Apply(doc, Options{})
	}
}
