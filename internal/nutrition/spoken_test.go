package nutrition

import (
	"math"
	"math/rand/v2"
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

// What was said agrees with what the amounts give when the two meet: no further
// off than what was said is rounded, and what the words of the amounts allow.
func TestDifferences(t *testing.T) {
	// 100 g of butter and 100 g of sugar for four: (717 + 387)/4 = 276 kcal,
	// 81.11/4 = 20.28 g of fat and (0.06 + 99.98)/4 = 25.01 g of carbohydrate each,
	// and (643 + 1)/4 = 161 mg of sodium (NDB 01001 and 19335).
	ing := func(name, q string) schema.Ingredient {
		return schema.Ingredient{ID: strings.ReplaceAll(name, " ", "-"), Name: name, Amount: amount(t, q)}
	}
	optional := func(i schema.Ingredient) schema.Ingredient { i.Optional = true; return i }
	taste := func(i schema.Ingredient) schema.Ingredient { i.ToTaste = true; return i }
	way := func(w string, i schema.Ingredient) schema.Ingredient { i.Ways = []string{w}; return i }
	butter, sugar := ing("butter", "100 g"), ing("sugar", "100 g")
	tests := []struct {
		about string
		yield string
		list  []schema.Ingredient
		said  schema.Figures
		per   string
		want  string // what the amounts give instead, joined
	}{
		{"each within its rounding", "4", []schema.Ingredient{butter, sugar}, schema.Figures{Kcal: at(280), FatG: at(20), CarbsG: at(25), SodiumMg: at(160)}, "serving", ""},
		{"to the nearest ten", "4", []schema.Ingredient{butter, sugar}, schema.Figures{Kcal: at(290)}, "", "276 kcal"},
		{"to the nearest five", "4", []schema.Ingredient{butter, sugar}, schema.Figures{Kcal: at(275)}, "", ""},
		{"to the nearest one", "4", []schema.Ingredient{butter, sugar}, schema.Figures{Kcal: at(277)}, "", "276 kcal"},
		{"a gram off", "4", []schema.Ingredient{butter, sugar}, schema.Figures{FatG: at(21), CarbsG: at(24)}, "", "20.3 g of fat; 25 g of carbohydrate"},
		{"a tenth", "4", []schema.Ingredient{butter, sugar}, schema.Figures{FatG: at(20.3)}, "", ""},
		{"two tenths", "4", []schema.Ingredient{butter, sugar}, schema.Figures{FatG: at(20.1)}, "", "20.3 g of fat"},
		{"of the whole recipe", "4", []schema.Ingredient{butter, sugar}, schema.Figures{Kcal: at(1100), FatG: at(81)}, "recipe", ""},
		{"of a serving nobody can match", "4", []schema.Ingredient{butter, sugar}, schema.Figures{Kcal: at(900)}, "slice", ""},
		{"of a yield nobody said", "", []schema.Ingredient{butter, sugar}, schema.Figures{Kcal: at(900)}, "serving", ""},
		// 81.11 g of fat to 0.85 + 0.06 + 99.98 g of protein and net carbohydrate: 0.8 to 1.
		{"a ratio that fits", "4", []schema.Ingredient{butter, sugar}, schema.Figures{Ratio: at(0.8)}, "", ""},
		{"a ratio that doesn't", "4", []schema.Ingredient{butter, sugar}, schema.Figures{Ratio: at(1.5)}, "", "a fat ratio of 0.8 to 1"},
		// 90 to 110 g of sugar: (717 + 348.3)/4 = 266.3 to (717 + 425.7)/4 = 285.7 kcal.
		{"inside a range", "4", []schema.Ingredient{butter, ing("sugar", "90-110 g")}, schema.Figures{Kcal: at(267)}, "", ""},
		{"outside a range", "4", []schema.Ingredient{butter, ing("sugar", "90-110 g")}, schema.Figures{Kcal: at(300)}, "", "266 to 286 kcal"},
		{"an amount said with about", "4", []schema.Ingredient{butter, ing("sugar", "about 100 g")}, schema.Figures{Kcal: at(267)}, "", ""},
		{"too far for about", "4", []schema.Ingredient{butter, ing("sugar", "about 100 g")}, schema.Figures{Kcal: at(300)}, "", "266 to 286 kcal"},
		{"a yield that is a range", "4-5", []schema.Ingredient{butter, sugar}, schema.Figures{Kcal: at(230)}, "", ""},
		{"outside a yield that is a range", "4-5", []schema.Ingredient{butter, sugar}, schema.Figures{Kcal: at(200)}, "", "220 to 276 kcal"},
		{"a yield said with about", "about 4", []schema.Ingredient{butter, sugar}, schema.Figures{Kcal: at(300)}, "", ""},
		// A small onion weighs 70 g, a large one 150 g, at 40 kcal in 100 g (NDB 11282).
		{"things that come in sizes", "4", []schema.Ingredient{ing("onions", "4")}, schema.Figures{Kcal: at(60)}, "", ""},
		{"beyond the sizes", "4", []schema.Ingredient{ing("onions", "4")}, schema.Figures{Kcal: at(70)}, "", "28 to 60 kcal"},
		{"a size that was said", "4", []schema.Ingredient{ing("medium onions", "4")}, schema.Figures{Kcal: at(60)}, "", "44 kcal"},
		{"with what is optional, or without", "4", []schema.Ingredient{butter, optional(sugar)}, schema.Figures{Kcal: at(276)}, "", ""},
		{"more than with what is optional", "4", []schema.Ingredient{butter, optional(sugar)}, schema.Figures{Kcal: at(330)}, "", "179 to 276 kcal"},
		{"an amount that is missing may bring the rest", "4", []schema.Ingredient{butter, ing("sugar", "")}, schema.Figures{Kcal: at(900), CarbsG: at(25)}, "", ""},
		{"a lower bound above what was said", "4", []schema.Ingredient{butter, ing("sugar", "")}, schema.Figures{Kcal: at(150), FatG: at(20), Ratio: at(9)}, "", "at least 179 kcal"},
		{"a lower bound that rounding explains", "4", []schema.Ingredient{butter, ing("sugar", "")}, schema.Figures{Kcal: at(175)}, "", "at least 179 kcal"},
		{"a lower bound within its rounding", "4", []schema.Ingredient{butter, ing("sugar", "")}, schema.Figures{Kcal: at(180)}, "", ""},
		{"salt to taste may bring any sodium", "4", []schema.Ingredient{butter, taste(ing("salt", ""))}, schema.Figures{SodiumMg: at(600), Kcal: at(180)}, "", ""},
		{"sodium below that of the butter", "4", []schema.Ingredient{butter, taste(ing("salt", ""))}, schema.Figures{SodiumMg: at(100)}, "", "at least 160 mg of sodium"},
		{"borne out by the second way", "4", []schema.Ingredient{butter, way("pan", sugar)}, schema.Figures{Kcal: at(280)}, "", ""},
		{"borne out by neither: the nearer", "4", []schema.Ingredient{butter, way("pan", sugar)}, schema.Figures{Kcal: at(310)}, "", "276 kcal"},
	}
	for _, test := range tests {
		doc := &schema.Document{Ingredients: test.list}
		if test.yield != "" {
			doc.Yield = amount(t, test.yield)
		}
		ways := []*Tally{Count(doc, nil, "")}
		if strings.Contains(test.about, "borne out") {
			doc.Ways = []schema.Way{{Name: "oven"}, {Name: "pan"}}
			ways = []*Tally{Count(doc, nil, "oven"), Count(doc, nil, "pan")}
		}
		var got []string
		for _, c := range Differences(&schema.SpokenMacros{Per: test.per, Figures: test.said}, ways) {
			got = append(got, c.Given())
		}
		if strings.Join(got, "; ") != test.want {
			t.Errorf("%s: what differs is %q, want %q", test.about, strings.Join(got, "; "), test.want)
		}
	}
}

func TestDifferenceAsk(t *testing.T) {
	all := []Comparison{{Name: "kcal", Unit: "kcal", Said: 290, Least: 266.3, Most: 285.7}, {Name: "fat", Unit: "g", Said: 21.5, Least: 20.28, Most: 20.28},
		{Name: "sodium", Unit: "mg", Said: 100, Least: 160.75, Most: math.Inf(1)}}
	for per, want := range map[string]string{"": "one serving", "bowl": "one bowl", "whole recipe": "the whole recipe", "batch": "the whole batch", "small Glass": "one small glass"} {
		want = "Does " + want + " have 290 kcal, 21.5 g of fat and 100 mg of sodium as said, or 266 to 286 kcal, 20.3 g of fat and at least 160 mg of sodium as the amounts give?"
		if got := DifferenceAsk(per, all); got != want {
			t.Errorf("the question is %q, want %q", got, want)
		}
	}
}

// What a recipe's own amounts give, rounded as it is spoken, is never held
// against it; and a figure well outside is never let pass.
func TestDifferencesOfAnyRecipe(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 9))
	for range 200 {
		doc := randomRecipe(r)
		tally := Count(doc, nil, "")
		said := speak(tally)
		if got := Differences(said, []*Tally{tally}); len(got) != 0 {
			t.Errorf("figures rounded as spoken differ from their own recipe: %+v", got)
		}
		*said.Kcal = 2*tally.highest[Kcal]/tally.Servings + 20
		if got := Differences(said, []*Tally{tally}); len(got) != 1 || got[0].Name != "kcal" || got[0].Agrees {
			t.Errorf("twice the kcal of a recipe passes: %+v", got)
		}
	}
}
