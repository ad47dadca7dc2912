package safety

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"quern/schema"
)

// TestWhatFoodsBring pins, food by food, what is certain and what hangs on a
// label, above all where the name misleads.
func TestWhatFoodsBring(t *testing.T) {
	for _, c := range []struct{ food, certain, depends string }{
		{"soy sauce", "wheat, soy", ""},
		{"Worcestershire sauce", "fish", "gluten cereals other than wheat"},
		{"oyster sauce", "molluscs", "wheat, soy"},
		{"vegetarian oyster sauce", "", "wheat, soy"},
		{"oyster mushrooms", "", ""},
		{"ghee", "milk", ""},
		{"desi ghee", "milk", ""},
		{"butter beans", "", ""},
		{"butternut squash", "", ""},
		{"peanut butter", "peanuts", ""},
		{"walnut butter", "tree nuts", ""},
		{"cocoa butter", "", ""},
		{"cream of tartar", "", ""},
		{"coconut milk", "", ""},
		{"unsweetened almond milk", "tree nuts", ""},
		{"oat milk", "gluten cereals other than wheat", ""},
		{"soya milk", "soy", ""},
		{"eggplant", "", ""},
		{"egg noodles", "egg, wheat", ""},
		{"large free-range eggs", "egg", ""},
		{"mayonnaise", "egg", "mustard"},
		{"vegan mayonnaise", "", "soy, mustard"},
		{"plain flour", "wheat", ""},
		{"self-raising flour", "wheat", ""},
		{"rice flour", "", ""},
		{"cornflour", "", ""},
		{"corn flour", "", ""},
		{"almond flour", "tree nuts", ""},
		{"buckwheat flour", "", ""},
		{"spelt flour", "wheat", ""},
		{"rye flour", "gluten cereals other than wheat", ""},
		{"gluten-free plain flour", "", "wheat"},
		{"corn tortillas", "", ""},
		{"flour tortillas", "wheat", ""},
		{"tortillas", "", "wheat"},
		{"rice noodles", "", ""},
		{"noodles", "", "wheat"},
		{"udon", "wheat", ""},
		{"couscous", "wheat", ""},
		{"seitan", "wheat", ""},
		{"rolled oats", "gluten cereals other than wheat", ""},
		{"malt vinegar", "gluten cereals other than wheat", ""},
		{"white wine vinegar", "", "sulphites"},
		{"beer", "gluten cereals other than wheat", "wheat"},
		{"ginger beer", "", ""},
		{"marzipan", "tree nuts", "egg"},
		{"water chestnuts", "", ""},
		{"nutmeg", "", ""},
		{"coconut flakes", "", ""},
		{"pine nuts", "tree nuts", ""},
		{"pesto", "milk, tree nuts", ""},
		{"vegan pesto", "", "tree nuts"},
		{"miso paste", "soy", "wheat, gluten cereals other than wheat"},
		{"tamari", "soy", "wheat"},
		{"surimi", "fish", "egg, crustaceans, wheat, soy"},
		{"fish sauce", "fish", ""},
		{"vegan fish sauce", "", "gluten cereals other than wheat, soy"},
		{"gelatine", "", "fish"},
		{"agar agar", "", ""},
		{"dark chocolate", "", "milk, soy"},
		{"milk chocolate", "milk", "soy"},
		{"chicken stock", "", "wheat, celery"},
		{"stock cube", "", "milk, wheat, soy, celery"},
		{"fish stock", "fish", ""},
		{"sausages", "", "wheat"},
		{"asafoetida", "", "wheat"},
		{"toasted sesame oil", "sesame", ""},
		{"tahini", "sesame", ""},
		{"celeriac", "celery", ""},
		{"celery seed", "celery", ""},
		{"mustard greens", "mustard", ""},
		{"black mustard seeds", "mustard", ""},
		{"lupin flour", "lupin", ""},
		{"king prawns", "crustaceans", ""},
		{"crab apple", "", ""},
		{"squid", "molluscs", ""},
		{"anchovies", "fish", ""},
		{"crème fraîche", "milk", ""},
		{"goat's cheese", "milk", ""},
		{"vegan butter", "", "tree nuts, soy"},
		{"vegan parmesan", "", "milk"},
		{"dairy-free yogurt", "", "tree nuts, soy"},
		{"sweet potato", "", ""},
		{"pumpkin seeds", "", ""},
		{"carrots", "", ""},
		{"", "", ""},
	} {
		t.Run(c.food, func(t *testing.T) {
			certain, depends := Carries(c.food)
			var labels []string
			for _, d := range depends {
				labels = append(labels, d.Allergen)
				if d.Reason == "" || d.Source == "" {
					t.Errorf("%s: %s has no reason or source", c.food, d.Allergen)
				}
			}
			if got := strings.Join(certain, ", "); got != c.certain {
				t.Errorf("certain: %q, want %q", got, c.certain)
			}
			if got := strings.Join(labels, ", "); got != c.depends {
				t.Errorf("by label: %q, want %q", got, c.depends)
			}
		})
	}
}

func TestAllergensOfADocument(t *testing.T) {
	doc := &schema.Document{Ingredients: []schema.Ingredient{
		{Name: "plain flour"},
		{Name: "sunflower spread", AlsoCalled: []string{"butter"}},
		{Name: "chocolate"},
		{Name: "walnuts", Optional: true},
		{Name: "yogurt", Substitutes: []schema.Substitute{{Name: "tahini"}, {Name: "cream"}}},
		{Name: "butter"},
		{Name: "butter"},
	}}
	want := []schema.Allergen{
		{Name: "milk", From: []string{"yogurt", "butter"}},
		{Name: "tree nuts", From: []string{"walnuts"}},
		{Name: "wheat", From: []string{"plain flour"}},
	}
	if d := cmp.Diff(want, Allergens(doc)); d != "" {
		t.Errorf("allergens (-want +got):\n%s", d)
	}
	if d := cmp.Diff([]schema.Allergen{{Name: "tree nuts", From: []string{"walnuts"}}}, Optional(doc)); d != "" {
		t.Errorf("only optional (-want +got):\n%s", d)
	}
	if d := cmp.Diff([]schema.Allergen{{Name: "sesame", From: []string{"tahini"}}}, Substitutes(doc)); d != "" {
		t.Errorf("only substitutes (-want +got):\n%s", d)
	}
	var labels []string
	for _, d := range FromLabel(doc) {
		labels = append(labels, d.Allergen+" in "+d.Ingredient)
	}
	if d := cmp.Diff([]string{"milk in sunflower spread", "milk in chocolate", "soy in sunflower spread", "soy in chocolate"}, labels); d != "" {
		t.Errorf("by label (-want +got):\n%s", d)
	}
}

func TestOtherNamesTellWhereTheNameDoesNot(t *testing.T) {
	doc := &schema.Document{Ingredients: []schema.Ingredient{{Name: "makhan", AlsoCalled: []string{"white butter"}}}}
	if got := Allergens(doc); len(got) != 1 || got[0].Name != "milk" || !slices.Equal(got[0].From, []string{"makhan"}) {
		t.Errorf("allergens %+v, want milk from makhan", got)
	}
}
