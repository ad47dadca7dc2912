package nutrition

import (
	"math"
	"testing"

	"quern/schema"
)

// workedLine is one ingredient: how it is written, and the grams and the row
// worked out for it by hand from the household weights SR28 gives.
type workedLine struct {
	name, amount, prep string
	grams              float64
	ndb                string
}

// worked are ten recipes worked out by hand from rows of USDA SR28: each
// ingredient's grams times the row's figures per 100 g, summed. total is the
// whole recipe's kcal, grams of protein, fat, saturated fat, carbohydrate, fibre
// and sugars, milligrams of sodium and grams of alcohol.
var worked = []struct {
	title, yield string
	servings     float64
	lines        []workedLine
	total        [9]float64
}{
	// (113 x 717 + 50 x 387 + 125 x 364 + 1.5 x 0) / 100 = 1458.7 kcal.
	{"Shortbread fingers", "16 fingers", 16, []workedLine{
		{"unsalted butter", "1 stick", "", 113, "01145"},
		{"granulated sugar", "1/4 cup", "", 50, "19335"},
		{"all-purpose flour", "1 cup", "", 125, "20081"},
		{"salt", "1/4 tsp", "", 1.5, "02047"},
	}, [9]float64{1458.71, 13.87, 92.88, 57.25, 145.45, 3.38, 50.31, 596.80, 0.00}},
	// (200 x 143 + 14.2 x 717 + 0.575 x 251) / 100 = 389.3 kcal.
	{"Boiled eggs on toast", "2 servings", 2, []workedLine{
		{"large eggs", "4", "", 200, "01123"},
		{"butter", "1 tbsp", "", 14.2, "01001"},
		{"black pepper", "1/4 tsp", "ground", 0.575, "02030"},
	}, [9]float64{389.26, 25.30, 30.56, 13.55, 1.82, 0.15, 0.75, 375.42, 0.00}},
	// (369 x 18 + 27 x 884 + 57.5 x 40 + 3 x 0) / 100 = 328.1 kcal.
	{"Tomato salad", "3 servings", 3, []workedLine{
		{"tomatoes", "3", "", 369, "11529"},
		{"olive oil", "2 tbsp", "", 27, "04053"},
		{"red onion", "1/2 cup", "sliced", 57.5, "11282"},
		{"salt", "1/2 tsp", "", 3, "02047"},
	}, [9]float64{328.10, 3.88, 27.80, 3.86, 19.72, 5.41, 12.14, 1184.03, 0.00}},
	// (40.5 x 379 + 183 x 61 + 21 x 304 + 37 x 57) / 100 = 350.1 kcal.
	{"Overnight oats", "1 serving", 1, []workedLine{
		{"rolled oats", "1/2 cup", "", 40.5, "08120"},
		{"whole milk", "3/4 cup", "", 183, "01077"},
		{"honey", "1 tbsp", "", 21, "19296"},
		{"blueberries", "1/4 cup", "", 37, "09050"},
	}, [9]float64{350.06, 11.43, 8.71, 3.87, 58.87, 5.02, 30.57, 82.33, 0.00}},
	// (185 x 365 + 253 x 139 + 13.5 x 884 + 6 x 149) / 100 = 1155.2 kcal.
	{"Rice and beans", "4 servings", 4, []workedLine{
		{"long-grain rice", "1 cup", "", 185, "20044"},
		{"canned chickpeas", "1 can", "", 253, "16358"},
		{"olive oil", "1 tbsp", "", 13.5, "04053"},
		{"garlic", "2 cloves", "", 6, "11215"},
	}, [9]float64{1155.20, 31.41, 21.76, 2.74, 206.89, 18.72, 10.43, 632.92, 0.00}},
	// (236 x 89 + 488 x 61 + 1.3 x 247) / 100 = 510.9 kcal.
	{"Banana shake", "2 glasses", 2, []workedLine{
		{"bananas", "2", "", 236, "09040"},
		{"whole milk", "2 cups", "", 488, "01077"},
		{"ground cinnamon", "1/2 tsp", "", 1.3, "02010"},
	}, [9]float64{510.93, 18.00, 16.65, 9.37, 78.37, 6.83, 53.54, 212.33, 0.00}},
	// (402 x 160 + 61.6 x 25 + 40 x 40 + 6 x 0) / 100 = 674.6 kcal.
	{"Guacamole", "6 servings", 6, []workedLine{
		{"avocados", "2", "", 402, "09037"},
		{"lime juice", "2 fl oz", "", 61.6, "09160"},
		{"onion", "1/4 cup", "chopped", 40, "11282"},
		{"salt", "1 tsp", "", 6, "02047"},
	}, [9]float64{674.60, 8.74, 59.02, 8.57, 43.21, 27.86, 5.39, 2356.45, 0.00}},
	// (500 x 120 + 122 x 41 + 400 x 77 + 498 x 6) / 100 = 987.9 kcal.
	{"Chicken stew", "4 people", 4, []workedLine{
		{"boneless, skinless chicken breast", "500 g", "", 500, "05062"},
		{"carrots", "2", "", 122, "11124"},
		{"potatoes", "400 g", "peeled", 400, "11352"},
		{"chicken stock", "2 cups", "", 498, "06194"},
	}, [9]float64{987.90, 125.02, 14.80, 3.02, 83.84, 11.82, 11.20, 2180.76, 0.00}},
	// (58.5 x 654 + 220 x 380 + 43 x 228 + 100 x 143 + 113.398 x 717) / 100 = 2272.7 kcal.
	{"Walnut brownies", "9 squares", 9, []workedLine{
		{"walnuts", "1/2 cup", "chopped", 58.5, "12155"},
		{"brown sugar", "1 cup", "packed", 220, "19334"},
		{"unsweetened cocoa powder", "1/2 cup", "", 43, "19165"},
		{"eggs", "2", "", 100, "01123"},
		{"butter", "4 oz", "melted", 113.398, "01001"},
	}, [9]float64{2272.69, 31.13, 145.53, 68.43, 249.50, 19.83, 216.16, 942.95, 0.00}},
	// (705.6 x 85 + 42 x 304 + 124 x 45) / 100 = 783.2 kcal.
	{"Mulled wine", "5 glasses", 5, []workedLine{
		{"red wine", "3 cups", "", 705.6, "14096"},
		{"honey", "2 tbsp", "", 42, "19296"},
		{"orange juice", "1/2 cup", "", 124, "09206"},
	}, [9]float64{783.24, 1.49, 0.25, 0.03, 65.92, 0.33, 49.28, 31.14, 74.79}},
}

func TestWorkedExamples(t *testing.T) {
	for _, w := range worked {
		yield, err := schema.ParseYield(w.yield)
		if err != nil {
			t.Fatal(err)
		}
		doc := &schema.Document{Title: w.title, Yield: &yield}
		for _, l := range w.lines {
			doc.Ingredients = append(doc.Ingredients, schema.Ingredient{ID: l.name, Name: l.name, Amount: amount(t, l.amount), Preparation: l.prep})
		}
		tally := Count(doc, nil, "")
		if !tally.Complete || tally.Servings != w.servings {
			t.Errorf("%s: complete %v, %v servings, missing %v", w.title, tally.Complete, tally.Servings, tally.Missing)
		}
		for i, l := range w.lines {
			r := tally.Rows[i]
			if r.Food.Row != l.ndb || r.Grams == nil || math.Abs(Middle(*r.Grams)-l.grams) > 0.05 {
				t.Errorf("%s: %s %s is %v of row %s, by hand %v g of row %s", w.title, l.amount, l.name, r.Grams, r.Food.Row, l.grams, l.ndb)
			}
		}
		for i, n := range []Nutrient{Kcal, Protein, Fat, Saturated, Carbs, Fibre, Sugars, Sodium, Alcohol} {
			slack := 0.1
			if n == Kcal || n == Sodium {
				slack = 1
			}
			if math.Abs(tally.Total[n]-w.total[i]) > slack {
				t.Errorf("%s: %s %.2f, by hand %.2f", w.title, n, tally.Total[n], w.total[i])
			}
		}
		c := tally.Computed()
		if want := math.Round(w.total[0] / w.servings); math.Abs(*c.Kcal-want) > 1 {
			t.Errorf("%s: %v kcal a serving, by hand %v", w.title, *c.Kcal, want)
		}
		if want := math.Round(10*(w.total[4]-w.total[5])/w.servings) / 10; math.Abs(*c.NetCarbsG-want) > 0.1+tiny {
			t.Errorf("%s: %v g of net carbohydrate a serving, by hand %v", w.title, *c.NetCarbsG, want)
		}
	}
}
