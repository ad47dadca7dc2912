package nutrition

import (
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quern/schema"
)

// amount reads a quantity written as in a document.
func amount(t testing.TB, text string) *schema.Quantity {
	t.Helper()
	if text == "" {
		return nil
	}
	q, err := schema.ParseQuantity(text)
	if err != nil {
		t.Fatal(err)
	}
	return &q
}

func TestGrams(t *testing.T) {
	tests := []struct {
		name, amount, second, size, prep string
		least, most                      float64
		rule                             string
	}{
		// Weights of SR28: NDB 01145 a stick 113 g; 20081 a cup 125 g; 01123 a large egg 50 g.
		{"unsalted butter", "1 stick", "", "", "", 113, 113, "1 stick, 113 g a stick: NDB 01145"},
		{"all-purpose flour", "1 cup", "", "", "", 125, 125, "1 cup, 125 g a cup: NDB 20081"},
		{"large egg", "1", "", "", "", 50, 50, "1, 50 g a large one: NDB 01123"},
		{"medium eggs", "2", "", "", "", 88, 88, "2, 44 g a medium one: NDB 01123"},
		{"almond flour", "1 1/2 cups", "", "", "", 142.5, 142.5, "1 1/2 cups, ground, 95 g a cup: NDB 12061"},
		{"brown sugar", "1 cup", "", "", "packed", 220, 220, "1 cup, packed, 220 g a cup: NDB 19334"},
		{"onion", "1 cup", "", "", "chopped", 160, 160, "1 cup, chopped, 160 g a cup: NDB 11282"},
		{"onion", "1 cup", "", "", "", 115, 160, "1 cup, sliced to diced, 115 to 160 g a cup: NDB 11282"},
		{"carrots", "2", "", "", "cut in strips", 122, 122, "2, 61 g a medium one: NDB 11124"},
		{"large carrots", "2", "", "", "", 144, 144, ""},
		{"butter", "100-120 g", "", "", "", 100, 120, "100-120 g, by weight"},
		{"garlic", "4-5 cloves", "", "", "", 12, 15, "4-5 cloves, 3 g a clove: NDB 11215"},
		{"cauliflower", "1 head", "900 g", "", "", 765, 765, ""},
		{"cake flour", "300 g", "2 1/2 cups", "", "", 300, 300, "300 g, by weight"},
		{"yeast", "1 packet", "2 1/4 tsp", "", "", 7.2, 7.2, ""},
		{"salt", "1 pinch", "", "", "", 0.38, 0.38, "1 pinch (a pinch is 1/16 tsp, common practice), 6 g a tsp: NDB 02047"},
		{"parsley", "1 handful", "", "", "chopped", 15, 30, ""},
		{"butter", "1 knob", "", "", "", 20, 20, ""},
		{"ginger", "1 piece", "", "2 inches", "", 24, 24, ""},
		{"ginger", "5 cm", "", "", "", 23.62, 23.62, ""},
		{"chickpeas", "2 cans", "", "400 g", "", 476, 476, ""},
		{"tomatoes, canned", "1 can", "", "14.5 oz", "", 411.07, 411.07, ""},
		{"canned chickpeas", "1 can", "", "", "", 253, 253, ""},
		{"coconut milk", "1 can", "", "400 ml", "", 382.1, 382.1, ""},
		{"bananas", "500 g", "", "", "", 320, 320, "500 g as bought, 64% of it eaten: NDB 09040"},
		{"bananas", "500 g", "", "", "weighed without skins", 500, 500, ""},
		{"apricots", "1 kg", "", "", "stoned", 1000, 1000, ""},
		{"chicken thighs", "1 kg", "", "", "", 830, 830, ""},
		{"boneless chicken thighs", "1 kg", "", "", "", 1000, 1000, ""},
		{"flour tortillas", "8", "", "", "", 368, 368, ""},
		{"lemon", "2 tbsp", "", "", "juiced", 30.5, 30.5, ""},
		{"limes", "2", "", "", "juiced", 88, 88, ""},
		{"basil", "6 leaves", "", "", "", 3, 3, ""},
		{"celery", "2 stalks", "", "", "", 80, 80, ""},
		{"water", "1 l", "", "", "", 1000, 1000, ""},
		{"erythritol", "1/2 cup", "", "", "", 100, 100, ""},
	}
	for _, test := range tests {
		ing := &schema.Ingredient{Name: test.name, Amount: amount(t, test.amount), SecondAmount: amount(t, test.second), Size: amount(t, test.size),
			Preparation: test.prep}
		f, ok := FoodOf(ing, nil)
		if !ok {
			t.Errorf("no food for %q", test.name)
			continue
		}
		g, err := Grams(f, ing, "")
		if err != nil {
			t.Errorf("%s %s: %v", test.amount, test.name, err)
			continue
		}
		if math.Abs(g.Min-test.least) > 0.051 || math.Abs(g.Max-test.most) > 0.051 || test.rule != "" && g.Rule != test.rule {
			t.Errorf("%s %s: %v to %v g by %q; want %v to %v by %q", test.amount, test.name, g.Min, g.Max, g.Rule, test.least, test.most, test.rule)
		}
		if g.Rule == "" {
			t.Errorf("%s %s: no rule", test.amount, test.name)
		}
	}
}

// A metric cup holds 250 mL, and a document in metric measures is weighed by it.
func TestGramsInTheDocumentsMeasures(t *testing.T) {
	f, _ := Find("whole milk", nil)
	ing := &schema.Ingredient{Name: "whole milk", Amount: amount(t, "1 cup")}
	us, err := Grams(f, ing, "us")
	if err != nil {
		t.Fatal(err)
	}
	metric, err := Grams(f, ing, "metric")
	if err != nil {
		t.Fatal(err)
	}
	if us.Min != 244 || math.Abs(metric.Min-244*250/236.5882365) > 0.01 {
		t.Errorf("a cup of milk is %v g, a metric one %v g", us.Min, metric.Min)
	}
}

func TestGramsRefuses(t *testing.T) {
	tests := []struct {
		name   string
		amount *schema.Quantity
		want   string
	}{
		{"butter", nil, "the amount was never said"},
		{"butter", amount(t, "1 can"), "the size of the can was never said"},
		{"beef", amount(t, "2"), "what one piece of beef weighs is not in the table"},
		{"steak", amount(t, "2 cups"), "what one cup of steak weighs is not in the table"},
		{"butter", amount(t, "3 inch"), "what one inch of butter weighs is not in the table"},
		{"butter", &schema.Quantity{Vague: "some"}, "gives no number"},
		{"butter", &schema.Quantity{Min: math.NaN(), Max: math.NaN(), Unit: "g"}, "gives no number"},
	}
	for _, test := range tests {
		f, ok := Find(test.name, nil)
		if !ok {
			t.Fatalf("no food for %q", test.name)
		}
		_, err := Grams(f, &schema.Ingredient{Name: test.name, Amount: test.amount}, "")
		if !errors.Is(err, ErrNoWeight) || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: error %v, want %q", test.name, err, test.want)
		}
	}
}

// Grams keeps its promises for any amount: it never panics, and its least is
// not above its most.
func TestGramsOfAnything(t *testing.T) {
	foods := Foods()
	units := append(schema.Units(), "", "cookies")
	rapid.Check(t, func(t *rapid.T) {
		f := foods[rapid.IntRange(0, len(foods)-1).Draw(t, "food")]
		lo := rapid.Float64Range(0, 50).Draw(t, "least")
		q := &schema.Quantity{Min: lo, Max: lo + rapid.Float64Range(0, 5).Draw(t, "more"), Unit: rapid.SampledFrom(units).Draw(t, "unit")}
		ing := &schema.Ingredient{Name: f.Key, Amount: q, Preparation: rapid.SampledFrom([]string{"", "chopped", "drained", "large, sliced", "melted"}).Draw(t, "prep")}
		g, err := Grams(f, ing, rapid.SampledFrom([]string{"", "us", "metric", "imperial"}).Draw(t, "measures"))
		if err != nil {
			if !errors.Is(err, ErrNoWeight) {
				t.Fatalf("%v", err)
			}
			return
		}
		if g.Min < 0 || g.Min > g.Max || g.Rule == "" || math.IsNaN(g.Max) || math.IsInf(g.Max, 0) {
			t.Fatalf("%s: %+v", q.String(), g)
		}
	})
}

// Conversions agree with GNU units, a program of its own (Debian package
// units): volumes of milk by the weight of a cup, and weights.
func TestConversionsAgainstGNUUnits(t *testing.T) {
	program, err := exec.LookPath("units")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("CI is true and the program units (Debian package units) is missing")
		}
		t.Skip("wanted the program units (Debian package units)")
	}
	convert := func(from, to string) float64 {
		out, err := exec.Command(program, "--terse", from, to).Output()
		if err != nil {
			t.Fatalf("units %s %s: %v", from, to, err)
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	milk, _ := Find("whole milk", nil)
	names := map[string]string{"cup": "cup", "tbsp": "tablespoon", "tsp": "teaspoon", "fl oz": "fluidounce", "pint": "pint", "quart": "quart",
		"gallon": "gallon", "ml": "milliliter", "l": "liter"}
	// The row's own weights of a cup, a tablespoon, a fluid ounce and a quart.
	density := map[string]float64{"tbsp": 15 / convert("tablespoon", "milliliter"), "fl oz": 30.5 / convert("fluidounce", "milliliter"),
		"quart": 976 / convert("quart", "milliliter")}
	for unit, name := range names {
		g, err := Grams(milk, &schema.Ingredient{Name: "whole milk", Amount: &schema.Quantity{Min: 3, Max: 3, Unit: unit}}, "us")
		if err != nil {
			t.Fatal(err)
		}
		d, ok := density[unit]
		if !ok {
			d = 244 / convert("cup", "milliliter")
		}
		if want := 3 * convert(name, "milliliter") * d; math.Abs(g.Min-want) > 0.006 {
			t.Errorf("3 %s of milk is %v g, by units %v", unit, g.Min, want)
		}
	}
	for unit, name := range map[string]string{"oz": "ounce", "lb": "pound", "kg": "kilogram", "g": "gram"} {
		g, err := Grams(milk, &schema.Ingredient{Name: "whole milk", Amount: &schema.Quantity{Min: 3, Max: 3, Unit: unit}}, "us")
		if err != nil {
			t.Fatal(err)
		}
		if want := 3 * convert(name, "gram"); math.Abs(g.Min-want) > 0.006 {
			t.Errorf("3 %s is %v g, by units %v", unit, g.Min, want)
		}
	}
}

func BenchmarkGrams(b *testing.B) {
	f, _ := Find("onion", nil)
	ing := &schema.Ingredient{Name: "onion", Amount: &schema.Quantity{Min: 1, Max: 1, Unit: "cup"}, Preparation: "finely chopped"}
	for b.Loop() {
		if _, err := Grams(f, ing, ""); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleGrams() {
	ing := &schema.Ingredient{Name: "almond flour", Amount: &schema.Quantity{Min: 1.5, Max: 1.5, Unit: "cup"}}
	food, _ := Find(ing.Name, nil)
	grams, _ := Grams(food, ing, "us")
	fmt.Println(grams.Min, "g:", grams.Rule)
	// Output: 142.5 g: 1 1/2 cups, ground, 95 g a cup: NDB 12061
}
