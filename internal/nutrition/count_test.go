package nutrition

import (
	"strings"
	"testing"

	"quern/schema"
)

func TestCountRules(t *testing.T) {
	ing := func(name, q string, more ...func(*schema.Ingredient)) schema.Ingredient {
		i := schema.Ingredient{ID: strings.ReplaceAll(name, " ", "-"), Name: name, Amount: amount(t, q)}
		for _, m := range more {
			m(&i)
		}
		return i
	}
	optional := func(i *schema.Ingredient) { i.Optional = true }
	taste := func(i *schema.Ingredient) { i.ToTaste = true }
	part := func(p string) func(*schema.Ingredient) { return func(i *schema.Ingredient) { i.Part = p } }
	way := func(w string) func(*schema.Ingredient) { return func(i *schema.Ingredient) { i.Ways = []string{w} } }
	tests := []struct {
		about     string
		doc       schema.Document
		complete  bool
		missing   string
		leavesOut string
		kcal      float64 // of the whole recipe; NDB 01001 717, 19335 387, 04044 884 kcal in 100 g
		note      string
	}{
		{"optional things are apart", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("sugar", "100 g", optional)}},
			true, "", "sugar", 717, "optional sugar would add 387 kcal"},
		{"what she left out is apart", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("sugar", "100 g", part("icing"))},
			Macros: &schema.Macros{Spoken: &schema.SpokenMacros{LeavesOut: []string{"the icing"}}}}, true, "", "sugar", 717, ""},
		{"salt to taste changes nothing but sodium", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("salt", "", taste)}},
			true, "", "", 717, "salt is not counted, so sodium is a lower bound"},
		{"cream to taste does", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("sour cream", "", taste)}}, false, "sour cream", "", 717, ""},
		{"water needs no amount", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("water", "")}}, true, "", "", 717, ""},
		{"an amount never said", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("sugar", "")}}, false, "sugar", "", 717, ""},
		{"a food without figures", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("moon dust", "1 cup")}}, false, "moon dust", "", 717, ""},
		{"a food whose label is needed", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("nutritional yeast", "2 tbsp")}},
			false, "nutritional yeast", "", 717, ""},
		{"another way's things", schema.Document{Ways: []schema.Way{{Name: "oven"}, {Name: "skillet"}},
			Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("sugar", "100 g", way("skillet")), ing("oil", "10 g", way("oven"))}},
			true, "", "", 717 + 88.4, ""},
		{"oil for deep frying", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("vegetable oil", "1 l")},
			Steps: []schema.Step{{Text: "Deep-fry in the oil.", Uses: []string{"vegetable-oil"}}}}, false, "vegetable oil", "", 717, ""},
		{"what is taken up of oil for deep frying", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"),
			ing("vegetable oil", "60 g", func(i *schema.Ingredient) { i.Preparation = "taken up" })},
			Steps: []schema.Step{{Text: "Deep-fry in the oil.", Uses: []string{"vegetable-oil"}}}}, true, "", "", 717 + 530.4, ""},
		{"what is taken up of a brine", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"),
			ing("sugar", "10 g", part("brine"), func(i *schema.Ingredient) { i.Preparation = "taken up" })}}, true, "", "", 717 + 38.7, ""},
		{"oil for shallow frying", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("vegetable oil", "10 g")},
			Steps: []schema.Step{{Text: "Fry in the oil.", Uses: []string{"vegetable-oil"}}}}, true, "", "", 717 + 88.4, ""},
		{"a marinade that is kept", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("sugar", "100 g", part("marinade"))}},
			true, "", "", 1104, "the marinade is counted whole"},
		{"a marinade poured off", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("sugar", "100 g", part("marinade"))},
			Steps: []schema.Step{{Text: "Discard the marinade."}}}, false, "sugar", "", 717, ""},
		{"a brine", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("salt", "100 g", part("brine"))}}, false, "salt", "", 717, ""},
		{"salt of water that is drained", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g"), ing("salt", "1 tbsp"), ing("water", "2 l")},
			Steps: []schema.Step{{Text: "Boil the water with the salt.", Actions: []string{"boil"}, Uses: []string{"salt", "water"}},
				{Text: "Drain.", Actions: []string{"drain"}}}}, false, "salt", "", 717, ""},
		{"what may stand in for another is apart", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "100 g", func(i *schema.Ingredient) {
			i.Substitutes = []schema.Substitute{{Name: "olive oil", Amount: amount(t, "80 g")}, {Name: "sugar"}}
		})}}, true, "", "", 717, "with olive oil (80 g) instead of butter it is 10 kcal less"},
		{"a range", schema.Document{Ingredients: []schema.Ingredient{ing("butter", "90-110 g")}}, true, "", "", 717, "between 645 and 789 kcal"},
	}
	for _, test := range tests {
		c := Count(&test.doc, nil, "")
		if c.Complete != test.complete || strings.Join(c.Missing, ",") != test.missing || strings.Join(c.LeavesOut, ",") != test.leavesOut {
			t.Errorf("%s: complete %v, missing %v, leaves out %v", test.about, c.Complete, c.Missing, c.LeavesOut)
		}
		if d := c.Total[Kcal] - test.kcal; d > 0.5 || d < -0.5 {
			t.Errorf("%s: %v kcal, want %v", test.about, c.Total[Kcal], test.kcal)
		}
		if !strings.Contains(strings.Join(c.Notes, "\n"), test.note) {
			t.Errorf("%s: notes %q lack %q", test.about, c.Notes, test.note)
		}
		for _, r := range c.Rows {
			if !r.Counted && r.Why == "" {
				t.Errorf("%s: %s is not counted and nobody says why", test.about, r.Name)
			}
		}
		if m := c.Computed(); m == nil || m.Complete != test.complete || !test.complete && (m.Ratio != nil || !strings.HasPrefix(strings.Join(m.Statements, "|"), "lower bounds: ") &&
			!strings.Contains(strings.Join(m.Statements, "|"), "|lower bounds: ")) {
			t.Errorf("%s: computed %+v", test.about, m)
		}
	}
}

func TestCountServings(t *testing.T) {
	doc := schema.Document{Ingredients: []schema.Ingredient{{ID: "butter", Name: "butter", Amount: amount(t, "100 g")}}}
	tests := []struct {
		yield, per string
		servings   float64
		kcal       float64
	}{{"", "recipe", 0, 717}, {"4 people", "serving", 4, 179}, {"24 biscuits", "biscuit", 24, 30}, {"4-6 bowls", "bowl", 5, 143}, {"1 loaf", "loaf", 1, 717}}
	for _, test := range tests {
		doc.Yield = nil
		if test.yield != "" {
			y, err := schema.ParseYield(test.yield)
			if err != nil {
				t.Fatal(err)
			}
			doc.Yield = &y
		}
		c := Count(&doc, nil, "").Computed()
		if c.Per != test.per || c.Servings != test.servings || *c.Kcal != test.kcal {
			t.Errorf("yield %q: %v kcal per %s of %v", test.yield, *c.Kcal, c.Per, c.Servings)
		}
	}
}

func TestNetCarbsLeavesOutSugarAlcohols(t *testing.T) {
	doc := schema.Document{Ingredients: []schema.Ingredient{{ID: "erythritol", Name: "erythritol", Amount: amount(t, "100 g")},
		{ID: "sugar", Name: "sugar", Amount: amount(t, "10 g")}}}
	c := Count(&doc, nil, "").Computed()
	if *c.CarbsG != 110 || *c.NetCarbsG != 10 || *c.Kcal != 39 {
		t.Errorf("carbohydrate %v, net %v, %v kcal", *c.CarbsG, *c.NetCarbsG, *c.Kcal)
	}
	if c.Kcal4497 == nil || *c.Kcal4497 != 440 {
		t.Errorf("energy by factors %v is not shown beside %v", c.Kcal4497, *c.Kcal)
	}
}

func TestCountNothing(t *testing.T) {
	if c := Count(&schema.Document{}, nil, "").Computed(); c != nil {
		t.Errorf("a document without ingredients has figures %+v", c)
	}
}
