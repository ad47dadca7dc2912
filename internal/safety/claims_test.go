package safety

import (
	"strings"
	"testing"

	"quern/schema"
)

// TestClaimsAgainstFoods tells, claim by claim, what breaks it for certain, what
// hangs on the label and what speaks in no way against it.
func TestClaimsAgainstFoods(t *testing.T) {
	for _, c := range []struct{ claim, certain, depends, silent string }{
		{"gluten-free", "plain flour|soy sauce|pearl barley|couscous|seitan|malt vinegar|beer|panko", "rolled oats|stock cube|sausages|asafoetida|gluten-free flour", "rice flour|corn tortillas|buckwheat|potatoes"},
		{"no gluten", "spaghetti", "", "rice"},
		{"wheat-free", "bread flour", "", "rye flour|rice"},
		{"grain-free", "rice|oats|plain flour", "", "almond flour|potatoes"},
		{"dairy-free", "butter|ghee|cream|parmesan|milk chocolate", "margarine|dark chocolate|vegan parmesan", "coconut milk|almond milk|cocoa butter"},
		{"dairy free", "yogurt", "", "peanut butter"},
		{"lactose-free", "", "milk|butter", "oat milk"},
		{"egg-free", "eggs|mayonnaise|egg noodles", "marzipan", "eggplant"},
		{"nut-free", "walnuts|almond flour|peanut butter|pesto", "granola", "nutmeg|coconut"},
		{"peanut-free", "satay sauce", "", "almonds"},
		{"soy-free", "tofu|soy sauce|miso", "dark chocolate", "coconut aminos"},
		{"fish-free", "Worcestershire sauce|dashi", "gelatine", "seaweed"},
		{"shellfish-free", "prawns|oyster sauce", "kimchi", "oyster mushrooms"},
		{"sesame-free", "tahini|hummus", "bagels", "poppy seeds"},
		{"mustard-free", "dijon mustard", "ketchup", "pepper"},
		{"celery-free", "celeriac", "chicken stock", "fennel"},
		{"sugar-free", "caster sugar|honey|maple syrup|condensed milk", "ketchup|dark chocolate", "erythritol|sugar-free syrup|sugar snap peas"},
		{"no added sugar", "brown sugar", "ketchup", "bananas"},
		{"refined-sugar-free", "white sugar|golden syrup", "barbecue sauce", "honey|maple syrup"},
		{"vegan", "chicken thighs|butter|eggs|honey|gelatine|lard|fish sauce|chicken stock|prawns", "stock cube", "coconut milk|tofu|vegetable stock|vegetable suet"},
		{"plant-based", "ghee", "", "oat milk"},
		{"vegetarian", "bacon|lard|gelatine|Worcestershire sauce|beef stock|anchovies", "parmesan|stock", "eggs|butter|honey"},
		{"pescatarian", "chicken|bacon", "stock cube", "salmon|prawns"},
		{"paleo", "oats|lentils|butter|white sugar|peanuts|soy sauce", "ketchup", "almonds|beef|honey"},
		{"alcohol-free", "dark rum|white wine|beer|bitters", "vanilla extract", "white wine vinegar|ginger beer|alcohol-free wine"},
	} {
		for kind, foods := range map[string]string{"certain": c.certain, "depends": c.depends, "silent": c.silent} {
			for food := range strings.SplitSeq(foods, "|") {
				if food == "" {
					continue
				}
				doc := &schema.Document{Claims: []schema.Claim{{Claim: c.claim}}, Ingredients: []schema.Ingredient{{Name: food}}}
				breaks := ClaimBreaks(doc)
				got := "silent"
				if len(breaks) > 0 {
					got = "depends"
					if breaks[0].Sure {
						got = "certain"
					}
					if breaks[0].Reason == "" || breaks[0].Source == "" || breaks[0].Ingredient != food || breaks[0].Claim != c.claim {
						t.Errorf("%s with %s: incomplete %+v", c.claim, food, breaks[0])
					}
				}
				if got != kind {
					t.Errorf("%s with %s: %s, want %s: %+v", c.claim, food, got, kind, breaks)
				}
			}
		}
	}
}

func TestClaimHangsOnAChoice(t *testing.T) {
	for _, c := range []struct {
		name string
		ing  schema.Ingredient
		ways []schema.Way
		sure bool
	}{
		{"plain", schema.Ingredient{Name: "butter"}, nil, true},
		{"optional", schema.Ingredient{Name: "butter", Optional: true}, nil, false},
		{"oil can stand in", schema.Ingredient{Name: "butter", Substitutes: []schema.Substitute{{Name: "olive oil"}}}, nil, false},
		{"cream can stand in", schema.Ingredient{Name: "butter", Substitutes: []schema.Substitute{{Name: "cream"}}}, nil, true},
		{"one of two ways", schema.Ingredient{Name: "butter", Ways: []string{"pan"}}, []schema.Way{{Name: "pan"}, {Name: "oven"}}, false},
		{"both ways", schema.Ingredient{Name: "butter", Ways: []string{"pan", "oven"}}, []schema.Way{{Name: "pan"}, {Name: "oven"}}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc := &schema.Document{Claims: []schema.Claim{{Claim: "dairy-free"}}, Ways: c.ways, Ingredients: []schema.Ingredient{c.ing}}
			breaks := ClaimBreaks(doc)
			if len(breaks) != 1 || breaks[0].Sure != c.sure {
				t.Errorf("breaks %+v, want one with sure %v", breaks, c.sure)
			}
		})
	}
}

func TestClaimOfOneKind(t *testing.T) {
	for quote, sure := range map[string]bool{
		"And the bean ones are vegetarian.":       false,
		"The mushroom one is vegetarian, mind.":   false,
		"It's vegetarian, this, every bit of it.": true,
	} {
		doc := &schema.Document{
			Claims:      []schema.Claim{{Claim: "vegetarian", Said: []schema.Said{{Quote: quote}}}},
			Ingredients: []schema.Ingredient{{Name: "ground beef"}},
		}
		if b := ClaimBreaks(doc); len(b) != 1 || b[0].Sure != sure {
			t.Errorf("%q: %+v, want one break with sure %v", quote, b, sure)
		}
	}
}

// TestKetoByAmount: 50 g of a sugar or starch count against a ketogenic claim,
// less may be the spoon that feeds a yeast.
func TestKetoByAmount(t *testing.T) {
	for _, c := range []struct {
		grams float64
		sure  bool
	}{{0, false}, {4, false}, {49.9, false}, {50, true}, {300, true}} {
		doc := &schema.Document{Claims: []schema.Claim{{Claim: "keto"}}, Ingredients: []schema.Ingredient{{Name: "caster sugar"}}}
		if c.grams > 0 {
			doc.Ingredients[0].Grams = &schema.Grams{Min: c.grams, Max: c.grams}
		}
		if b := ClaimBreaks(doc); len(b) != 1 || b[0].Sure != c.sure {
			t.Errorf("%v g: %+v, want sure %v", c.grams, b, c.sure)
		}
	}
}

func TestCarbohydrateClaimsByFigure(t *testing.T) {
	f := func(v float64) *float64 { return &v }
	for _, c := range []struct {
		name, claim string
		macros      *schema.Macros
		want        string // part of the reason, "" for none
	}{
		{"no figures", "low-carb", nil, ""},
		// 4 x 8 / 150 is 21 per cent.
		{"below a quarter", "low-carb", &schema.Macros{Spoken: &schema.SpokenMacros{Figures: schema.Figures{Kcal: f(150), NetCarbsG: f(8)}}}, ""},
		// 4 x 12 / 150 is 32 per cent.
		{"a third", "low-carb", &schema.Macros{Spoken: &schema.SpokenMacros{Figures: schema.Figures{Kcal: f(150), CarbsG: f(12)}}}, "as spoken, 12 g of net carbohydrate a serving are 32 per cent"},
		{"keto is stricter", "keto", &schema.Macros{Spoken: &schema.SpokenMacros{Figures: schema.Figures{Kcal: f(150), NetCarbsG: f(8)}}}, "21 per cent"},
		{"worked out goes first", "keto", &schema.Macros{
			Spoken:   &schema.SpokenMacros{Figures: schema.Figures{Kcal: f(150), NetCarbsG: f(8)}},
			Computed: &schema.ComputedMacros{Complete: true, Figures: schema.Figures{Kcal: f(200), NetCarbsG: f(10)}}}, "worked out, 10 g of net carbohydrate a serving are 20 per cent"},
		{"lower bounds prove nothing", "keto", &schema.Macros{Computed: &schema.ComputedMacros{Figures: schema.Figures{Kcal: f(200), NetCarbsG: f(10)}}}, ""},
		{"no energy", "keto", &schema.Macros{Spoken: &schema.SpokenMacros{Figures: schema.Figures{Kcal: f(0), NetCarbsG: f(8)}}}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := ClaimBreaks(&schema.Document{Claims: []schema.Claim{{Claim: c.claim}}, Macros: c.macros})
			switch {
			case c.want == "" && len(b) > 0:
				t.Errorf("unexpected %+v", b)
			case c.want != "" && (len(b) != 1 || !strings.Contains(b[0].Reason, c.want) || b[0].Sure):
				t.Errorf("%+v, want an unsure reason with %q", b, c.want)
			}
		})
	}
}

func TestNotJudged(t *testing.T) {
	for _, claim := range []string{"halal", "kosher", "low-fat", "diabetic-friendly"} {
		b := ClaimBreaks(&schema.Document{Claims: []schema.Claim{{Claim: claim}}, Ingredients: []schema.Ingredient{{Name: "pork belly"}}})
		if len(b) != 1 || b[0].Sure || b[0].Ingredient != "" || b[0].Reason == "" {
			t.Errorf("%s: %+v, want one note that it isn't judged", claim, b)
		}
	}
	if b := ClaimBreaks(&schema.Document{Claims: []schema.Claim{{Claim: "grandmother's"}}, Ingredients: []schema.Ingredient{{Name: "butter"}}}); len(b) > 0 {
		t.Errorf("an unknown claim is judged: %+v", b)
	}
}
