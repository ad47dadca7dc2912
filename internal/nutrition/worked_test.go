package nutrition

import (
	"math"
	"testing"

	"quern/schema"
)

// workedLine is one ingredient worked out by hand from USDA SR28.
type workedLine struct {
	name, amount, prep string
	grams              float64 // the measures of the amount times the weight SR28 gives for one
	ndb                string  // the row
	per100             [9]float64
}

// workedColumns are what stands in per100, of 100 g as the row prints it: kcal,
// grams of protein, fat, saturated fat, carbohydrate, fibre and sugars,
// milligrams of sodium and grams of alcohol.
var workedColumns = [9]Nutrient{Kcal, Protein, Fat, Saturated, Carbs, Fibre, Sugars, Sodium, Alcohol}

// worked are ten recipes with every number of the sum written out: each line's
// grams times its row's figures per 100 g, added up by the test alone.
var worked = []struct {
	title, yield string
	servings     float64
	lines        []workedLine
}{
	{"Shortbread fingers", "16 fingers", 16, []workedLine{
		{"unsalted butter", "1 stick", "", 1 * 113, "01145", [9]float64{717, 0.85, 81.11, 50.489, 0.06, 0, 0.06, 11, 0}},
		{"granulated sugar", "1/4 cup", "", 0.25 * 200, "19335", [9]float64{387, 0, 0, 0, 99.98, 0, 99.8, 1, 0}},
		{"all-purpose flour", "1 cup", "", 1 * 125, "20081", [9]float64{364, 10.33, 0.98, 0.155, 76.31, 2.7, 0.27, 2, 0}},
		{"salt", "1/4 tsp", "", 0.25 * 6, "02047", [9]float64{0, 0, 0, 0, 0, 0, 0, 38758, 0}},
	}},
	{"Buttered eggs", "2 servings", 2, []workedLine{
		{"large eggs", "4", "", 4 * 50, "01123", [9]float64{143, 12.56, 9.51, 3.126, 0.72, 0, 0.37, 142, 0}},
		{"butter", "1 tbsp", "", 1 * 14.2, "01001", [9]float64{717, 0.85, 81.11, 51.368, 0.06, 0, 0.06, 643, 0}},
		{"black pepper", "1/4 tsp", "ground", 0.25 * 2.3, "02030", [9]float64{251, 10.39, 3.26, 1.392, 63.95, 25.3, 0.64, 20, 0}},
	}},
	{"Tomato salad", "3 servings", 3, []workedLine{
		{"tomatoes", "3", "", 3 * 123, "11529", [9]float64{18, 0.88, 0.2, 0.028, 3.89, 1.2, 2.63, 5, 0}},
		{"olive oil", "2 tbsp", "", 2 * 13.5, "04053", [9]float64{884, 0, 100, 13.808, 0, 0, 0, 2, 0}},
		{"red onion", "1/2 cup", "sliced", 0.5 * 115, "11282", [9]float64{40, 1.1, 0.1, 0.042, 9.34, 1.7, 4.24, 4, 0}},
		{"salt", "1/2 tsp", "", 0.5 * 6, "02047", [9]float64{0, 0, 0, 0, 0, 0, 0, 38758, 0}},
	}},
	{"Overnight oats", "1 serving", 1, []workedLine{
		{"rolled oats", "1/2 cup", "", 0.5 * 81, "08120", [9]float64{379, 13.15, 6.52, 1.11, 67.7, 10.1, 0.99, 6, 0}},
		{"whole milk", "3/4 cup", "", 0.75 * 244, "01077", [9]float64{61, 3.15, 3.25, 1.865, 4.8, 0, 5.05, 43, 0}},
		{"honey", "1 tbsp", "", 1 * 21, "19296", [9]float64{304, 0.3, 0, 0, 82.4, 0.2, 82.12, 4, 0}},
		{"blueberries", "1/4 cup", "", 0.25 * 148, "09050", [9]float64{57, 0.74, 0.33, 0.028, 14.49, 2.4, 9.96, 1, 0}},
	}},
	{"Rice and beans", "4 servings", 4, []workedLine{
		{"long-grain rice", "1 cup", "", 1 * 185, "20044", [9]float64{365, 7.13, 0.66, 0.18, 79.95, 1.3, 0.12, 5, 0}},
		{"canned chickpeas", "1 can", "", 1 * 253, "16358", [9]float64{139, 7.05, 2.77, 0.214, 22.53, 6.4, 4.01, 246, 0}},
		{"olive oil", "1 tbsp", "", 1 * 13.5, "04053", [9]float64{884, 0, 100, 13.808, 0, 0, 0, 2, 0}},
		{"garlic", "2 cloves", "", 2 * 3, "11215", [9]float64{149, 6.36, 0.5, 0.089, 33.06, 2.1, 1, 17, 0}},
	}},
	{"Banana shake", "2 glasses", 2, []workedLine{
		{"bananas", "2", "", 2 * 118, "09040", [9]float64{89, 1.09, 0.33, 0.112, 22.84, 2.6, 12.23, 1, 0}},
		{"whole milk", "2 cups", "", 2 * 244, "01077", [9]float64{61, 3.15, 3.25, 1.865, 4.8, 0, 5.05, 43, 0}},
		{"ground cinnamon", "1/2 tsp", "", 0.5 * 2.6, "02010", [9]float64{247, 3.99, 1.24, 0.345, 80.59, 53.1, 2.17, 10, 0}},
	}},
	{"Guacamole", "6 servings", 6, []workedLine{
		{"avocados", "2", "", 2 * 201, "09037", [9]float64{160, 2, 14.66, 2.126, 8.53, 6.7, 0.66, 7, 0}},
		{"lime juice", "2 fl oz", "", 2 * 30.8, "09160", [9]float64{25, 0.42, 0.07, 0.008, 8.42, 0.4, 1.69, 2, 0}},
		{"onion", "1/4 cup", "chopped", 0.25 * 160, "11282", [9]float64{40, 1.1, 0.1, 0.042, 9.34, 1.7, 4.24, 4, 0}},
		{"salt", "1 tsp", "", 1 * 6, "02047", [9]float64{0, 0, 0, 0, 0, 0, 0, 38758, 0}},
	}},
	{"Chicken stew", "4 people", 4, []workedLine{
		{"boneless, skinless chicken breast", "500 g", "", 500, "05062", [9]float64{120, 22.5, 2.62, 0.563, 0, 0, 0, 45, 0}},
		{"carrots", "2", "", 2 * 61, "11124", [9]float64{41, 0.93, 0.24, 0.037, 9.58, 2.8, 4.74, 69, 0}},
		{"potatoes", "400 g", "peeled", 400, "11352", [9]float64{77, 2.05, 0.09, 0.025, 17.49, 2.1, 0.82, 6, 0}},
		{"chicken stock", "2 cups", "", 2 * 249, "06194", [9]float64{6, 0.64, 0.21, 0.013, 0.44, 0, 0.43, 371, 0}},
	}},
	{"Walnut brownies", "9 squares", 9, []workedLine{
		{"walnuts", "1/2 cup", "chopped", 0.5 * 117, "12155", [9]float64{654, 15.23, 65.21, 6.126, 13.71, 6.7, 2.61, 2, 0}},
		{"brown sugar", "1 cup", "packed", 1 * 220, "19334", [9]float64{380, 0.12, 0, 0, 98.09, 0, 97.02, 28, 0}},
		{"unsweetened cocoa powder", "1/2 cup", "", 0.5 * 86, "19165", [9]float64{228, 19.6, 13.7, 8.07, 57.9, 37, 1.75, 21, 0}},
		{"eggs", "2", "", 2 * 50, "01123", [9]float64{143, 12.56, 9.51, 3.126, 0.72, 0, 0.37, 142, 0}},
		{"butter", "4 oz", "melted", 4 * 28.3495, "01001", [9]float64{717, 0.85, 81.11, 51.368, 0.06, 0, 0.06, 643, 0}},
	}},
	{"Mulled wine", "5 glasses", 5, []workedLine{
		{"red wine", "3 cups", "", 24 * 29.4, "14096", [9]float64{85, 0.07, 0, 0, 2.61, 0, 0.62, 4, 10.6}},
		{"honey", "2 tbsp", "", 2 * 21, "19296", [9]float64{304, 0.3, 0, 0, 82.4, 0.2, 82.12, 4, 0}},
		{"orange juice", "1/2 cup", "", 0.5 * 248, "09206", [9]float64{45, 0.7, 0.2, 0.024, 10.4, 0.2, 8.4, 1, 0}},
	}},
}

func TestWorkedExamples(t *testing.T) {
	for _, w := range worked {
		yield, err := schema.ParseYield(w.yield)
		if err != nil {
			t.Fatal(err)
		}
		doc := &schema.Document{Title: w.title, Yield: &yield}
		var byHand [9]float64
		for _, l := range w.lines {
			doc.Ingredients = append(doc.Ingredients, schema.Ingredient{ID: l.name, Name: l.name, Amount: amount(t, l.amount), Preparation: l.prep})
			for i, per100 := range l.per100 {
				byHand[i] += l.grams * per100 / 100
			}
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
		for i, n := range workedColumns {
			slack := 0.1
			if n == Kcal || n == Sodium {
				slack = 1
			}
			if math.Abs(tally.Total[n]-byHand[i]) > slack {
				t.Errorf("%s: %s %.2f, by hand %.2f", w.title, n, tally.Total[n], byHand[i])
			}
		}
		// What the document keeps is of one serving, rounded to 1 kcal and 0.1 g.
		c := tally.Computed()
		kcal, net := byHand[0]/w.servings, (byHand[4]-byHand[5])/w.servings
		if math.Abs(*c.Kcal-kcal) > 1 || math.Abs(*c.NetCarbsG-net) > 0.1 || math.Abs(*c.FatG-byHand[2]/w.servings) > 0.1 {
			t.Errorf("%s: a serving has %v kcal, %v g of net carbohydrate, %v g of fat; by hand %.1f, %.2f, %.2f",
				w.title, *c.Kcal, *c.NetCarbsG, *c.FatG, kcal, net, byHand[2]/w.servings)
		}
	}
}

// The figures written out above are those SR28 prints.
func TestWorkedExamplesAreOfSR28(t *testing.T) {
	file := sr28(t)
	for _, w := range worked {
		for _, l := range w.lines {
			for i, n := range workedColumns {
				if want := published(t, file[l.ndb][sr28Columns[n]]); want != l.per100[i] {
					t.Errorf("%s, %s: %s of row %s is written as %v, SR28 has %v", w.title, l.name, n, l.ndb, l.per100[i], want)
				}
			}
		}
	}
}
