package nutrition

import (
	"strings"
	"testing"

	"quern/schema"
)

func at(v float64) *float64 { return &v }

func TestInternalConflicts(t *testing.T) {
	tests := []struct {
		about            string
		said             schema.Figures
		polyols, alcohol bool
		want             string // subjects, joined
	}{
		{"net carbohydrate that is not total less fibre", schema.Figures{Kcal: at(150), FatG: at(9), ProteinG: at(5), CarbsG: at(12), FibreG: at(4), NetCarbsG: at(6)},
			false, false, "net carbohydrate"},
		{"the same with allulose in the dish", schema.Figures{CarbsG: at(12), FibreG: at(4), NetCarbsG: at(6)}, true, false, ""},
		{"net above total less fibre, whatever is in it", schema.Figures{CarbsG: at(12), FibreG: at(4), NetCarbsG: at(11)}, true, false, "net carbohydrate"},
		{"a gram that rounding explains", schema.Figures{CarbsG: at(12), FibreG: at(4), NetCarbsG: at(7)}, false, false, ""},
		{"energy that fits", schema.Figures{Kcal: at(110), FatG: at(6), ProteinG: at(1.5), CarbsG: at(12), SugarG: at(5)}, false, false, ""},
		{"half of the energy", schema.Figures{Kcal: at(200), FatG: at(30), ProteinG: at(20), CarbsG: at(10)}, false, false, "kcal"},
		{"too much energy", schema.Figures{Kcal: at(600), FatG: at(10), ProteinG: at(20), CarbsG: at(30)}, false, false, "kcal"},
		{"too much energy, with alcohol", schema.Figures{Kcal: at(600), FatG: at(10), ProteinG: at(20), CarbsG: at(30)}, false, true, ""},
		{"fat alone above the energy", schema.Figures{Kcal: at(100), FatG: at(20)}, false, false, "kcal"},
		{"fat alone below the energy", schema.Figures{Kcal: at(500), FatG: at(20)}, false, false, ""},
		{"sweetener without energy", schema.Figures{Kcal: at(60), FatG: at(5), ProteinG: at(3), CarbsG: at(20)}, true, false, ""},
		{"fibre without energy", schema.Figures{Kcal: at(100), FatG: at(5), ProteinG: at(5), CarbsG: at(20), FibreG: at(15)}, false, false, ""},
		{"a ratio that fits", schema.Figures{FatG: at(30), ProteinG: at(7), CarbsG: at(5), FibreG: at(2), Ratio: at(3)}, false, false, ""},
		{"a ratio that doesn't", schema.Figures{FatG: at(30), ProteinG: at(20), NetCarbsG: at(5), Ratio: at(4)}, false, false, "ratio"},
		{"more sugar than carbohydrate", schema.Figures{CarbsG: at(10), SugarG: at(14)}, false, false, "sugar"},
		{"more saturated fat than fat", schema.Figures{FatG: at(10), SaturatedG: at(14)}, false, false, "saturated fat"},
		{"nothing said", schema.Figures{}, false, false, ""},
		{"nought", schema.Figures{Kcal: at(0), FatG: at(0), ProteinG: at(0), CarbsG: at(0), FibreG: at(0), NetCarbsG: at(0), Ratio: at(0)}, false, false, ""},
	}
	for _, test := range tests {
		var got []string
		for _, c := range InternalConflicts(&schema.SpokenMacros{Figures: test.said}, test.polyols, test.alcohol) {
			got = append(got, c.Subject)
			if !strings.HasSuffix(c.Ask, "?") {
				t.Errorf("%s: %q is no question", test.about, c.Ask)
			}
		}
		if strings.Join(got, ",") != test.want {
			t.Errorf("%s: conflicts %v, want %q", test.about, got, test.want)
		}
	}
	if got := InternalConflicts(nil, false, false); got != nil {
		t.Errorf("no spoken figures give %v", got)
	}
	c := InternalConflicts(&schema.SpokenMacros{Figures: schema.Figures{CarbsG: at(12), FibreG: at(4), NetCarbsG: at(6)}}, false, false)
	if len(c) != 1 || c[0].Ask != "Is the net carbohydrate 6 g as said, or 8 g (12 g in all less 4 g of fibre)?" {
		t.Errorf("the question is %+v", c)
	}
}

func TestComputedConflicts(t *testing.T) {
	// 100 g of butter and 100 g of sugar for four: 276 kcal, 20.3 g of fat and 25
	// g of carbohydrate each (NDB 01001 and 19335).
	doc := &schema.Document{Yield: amount(t, "4"), Ingredients: []schema.Ingredient{
		{ID: "butter", Name: "butter", Amount: amount(t, "100 g")}, {ID: "sugar", Name: "sugar", Amount: amount(t, "100 g")}}}
	subjects := func(said schema.Figures, per string) string {
		var got []string
		for _, c := range ComputedConflicts(&schema.SpokenMacros{Per: per, Figures: said}, []*Tally{Count(doc, nil, "")}) {
			got = append(got, c.Subject)
		}
		return strings.Join(got, ",")
	}
	tests := []struct {
		said schema.Figures
		per  string
		want string
	}{
		{schema.Figures{Kcal: at(280), FatG: at(20), CarbsG: at(25)}, "serving", ""},
		{schema.Figures{Kcal: at(300)}, "", ""},
		{schema.Figures{Kcal: at(350), FatG: at(20), CarbsG: at(25)}, "portion", "kcal"},
		{schema.Figures{Kcal: at(280), FatG: at(12)}, "serving", "fat"},
		{schema.Figures{Kcal: at(1100), FatG: at(81)}, "recipe", ""},
		{schema.Figures{Kcal: at(900)}, "slice", ""},
	}
	for _, test := range tests {
		if got := subjects(test.said, test.per); got != test.want {
			t.Errorf("%+v per %q: conflicts %q, want %q", test.said, test.per, got, test.want)
		}
	}
	doc.Ingredients = append(doc.Ingredients, schema.Ingredient{ID: "flour", Name: "flour"})
	if got := subjects(schema.Figures{Kcal: at(900)}, "serving"); got != "" {
		t.Errorf("an incomplete recipe is held against what was said: %q", got)
	}
}
