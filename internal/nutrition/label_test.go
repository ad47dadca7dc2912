package nutrition

import (
	"strings"
	"testing"

	"quern/schema"
)

// The rounding of 21 CFR 101.9(c) on both sides of every boundary (FDA, Guide to
// NLEA requirements, Attachment 7).
func TestRoundLabel(t *testing.T) {
	tests := []struct {
		by   Rounding
		v    float64
		want string
	}{
		{RoundEnergy, 0, "0"}, {RoundEnergy, 4.99, "0"}, {RoundEnergy, 5, "5"}, {RoundEnergy, 7.49, "5"}, {RoundEnergy, 7.5, "10"},
		{RoundEnergy, 47.4, "45"}, {RoundEnergy, 50, "50"}, {RoundEnergy, 50.1, "50"}, {RoundEnergy, 54.9, "50"}, {RoundEnergy, 55, "60"}, {RoundEnergy, 196, "200"},
		{RoundFat, 0.49, "0"}, {RoundFat, 0.5, "0.5"}, {RoundFat, 0.74, "0.5"}, {RoundFat, 0.75, "1"}, {RoundFat, 4.74, "4.5"}, {RoundFat, 4.99, "5"},
		{RoundFat, 5, "5"}, {RoundFat, 5.49, "5"}, {RoundFat, 5.5, "6"},
		{RoundCholesterol, 1.9, "0"}, {RoundCholesterol, 2, "less than 5"}, {RoundCholesterol, 5, "less than 5"}, {RoundCholesterol, 5.1, "5"},
		{RoundCholesterol, 7.4, "5"}, {RoundCholesterol, 7.5, "10"},
		{RoundSodium, 4.9, "0"}, {RoundSodium, 5, "5"}, {RoundSodium, 137.4, "135"}, {RoundSodium, 140, "140"}, {RoundSodium, 140.1, "140"},
		{RoundSodium, 144.9, "140"}, {RoundSodium, 145, "150"},
		{RoundCarbs, 0.49, "0"}, {RoundCarbs, 0.5, "less than 1"}, {RoundCarbs, 0.99, "less than 1"}, {RoundCarbs, 1, "1"}, {RoundCarbs, 1.49, "1"},
		{RoundCarbs, 1.5, "2"}, {RoundCarbs, 36.5, "37"}, {RoundCarbs, -1, "?"},
	}
	for _, test := range tests {
		if got := RoundLabel(test.v, test.by); got != test.want {
			t.Errorf("rounding %d of %v is %q, want %q", test.by, test.v, got, test.want)
		}
	}
}

func TestLabel(t *testing.T) {
	doc := &schema.Document{Yield: amount(t, "4"), Ingredients: []schema.Ingredient{
		{ID: "butter", Name: "butter", Amount: amount(t, "100 g")},
		{ID: "sugar", Name: "sugar", Amount: amount(t, "100 g")},
	}}
	lines := Count(doc, nil, "").Label()
	got := ""
	for _, l := range lines {
		got += l.Name + "=" + l.Amount + "|" + l.DailyValue + "\n"
	}
	// By hand from NDB 01001 and 19335: a quarter of 717 + 387 kcal is 276; of
	// 81.11 + 0.00 g of fat 20.3, 26% of 78 g; of 51.368 g saturated 12.8, 64% of
	// 20 g; of 643 + 1 mg of sodium 161, 7% of 2300; of 0.06 + 99.98 g of carbohydrate 25, 9% of 275.
	want := "Energy=280 kcal|\nFat=20 g|26%\nof which saturated=13 g|64%\nSodium=160 mg|7%\nCarbohydrate=25 g|9%\nof which fibre=0 g|0%\n" +
		"of which sugars=25 g|\nProtein=0 g|\n"
	if got != want {
		t.Errorf("label is\n%swant\n%s", got, want)
	}
	doc.Ingredients = append(doc.Ingredients, schema.Ingredient{ID: "flour", Name: "flour"})
	for _, l := range Count(doc, nil, "").Label() {
		if !strings.HasPrefix(l.Amount, "at least ") {
			t.Errorf("a recipe without an amount has the line %+v, which does not say it is a lower bound", l)
		}
	}
	// Salt to taste may bring any sodium, and nothing else.
	doc.Ingredients[2] = schema.Ingredient{ID: "salt", Name: "salt", ToTaste: true}
	for _, l := range Count(doc, nil, "").Label() {
		if strings.HasPrefix(l.Amount, "at least ") != (l.Name == "Sodium") {
			t.Errorf("beside salt to taste the line is %+v", l)
		}
	}
}
