package nutrition

import (
	"math"
	"strings"
	"testing"
)

func TestTables(t *testing.T) {
	if err := Check(); err != nil {
		t.Fatal(err)
	}
	drawn, label, added := 0, 0, 0
	for _, f := range Foods() {
		switch {
		case f.Label:
			label++
			if f.Known() {
				t.Errorf("%s asks for its label and has figures", f.Key)
			}
		case f.Row == "":
			added++
		default:
			drawn++
		}
		if f.Source == "" {
			t.Errorf("%s: figures without a source", f.Key)
		}
		if !f.Label {
			for _, n := range []Nutrient{Kcal, Protein, Fat, Carbs} {
				if math.IsNaN(f.Per100[n]) {
					t.Errorf("%s: %s is unknown", f.Key, n)
				}
			}
			if f.Per100[Kcal] > 905 {
				t.Errorf("%s: %v kcal in 100 g", f.Key, f.Per100[Kcal])
			}
		}
		if f.Eaten <= 0 || f.Eaten > 1 {
			t.Errorf("%s: share eaten %v", f.Key, f.Eaten)
		}
		for _, m := range f.Measures {
			if m.Source == "" || !(m.Grams > 0) || m.Grams > 20000 {
				t.Errorf("%s: measure %+v", f.Key, m)
			}
		}
		if g, ok := Find(f.Key, nil); !ok || g.Key != f.Key {
			t.Errorf("%q is found as %q", f.Key, g.Key)
		}
		if strings.ToLower(f.Key) != f.Key {
			t.Errorf("%q is not in lower case", f.Key)
		}
	}
	t.Logf("%d foods: %d with a row of SR28, %d from another named source, %d by their label", len(Foods()), drawn, added, label)
	if drawn < 900 {
		t.Errorf("%d foods have a row of SR28, want 900", drawn)
	}
}

// The foods of another source add up: protein, fat, carbohydrate, alcohol and
// water are not more than all of it, and where water is given not less than 92
// of 100 g, the rest being ash.
func TestAddedFoodsAddUp(t *testing.T) {
	err := rows("added.tsv", addedTSV, 3+int(nutrients), func(line int, c []string) error {
		f, _ := ByKey(c[0], nil)
		sum := 0.0
		for _, n := range []Nutrient{Protein, Fat, Carbs, Alcohol, Water} {
			v, _ := f.Per100.Get(n)
			sum += v
		}
		if sum > 100.5 || !math.IsNaN(f.Per100[Water]) && sum < 92 {
			t.Errorf("added.tsv:%d: %s comes to %.1f of 100 g", line, c[0], sum)
		}
		if !strings.Contains(c[2], "from memory") && !strings.Contains(c[2], "NDB") {
			t.Errorf("added.tsv:%d: %q does not say how it was had", line, c[2])
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestFind(t *testing.T) {
	tests := []struct{ name, want string }{
		{"Unsalted Butter", "unsalted butter"}, {"chopped fresh parsley", "parsley"}, {"large eggs", "egg"}, {"all-purpose flour", "all purpose flour"},
		{"plain flour", "all purpose flour"}, {"jalapeños", "jalapeno"}, {"crème fraîche", "creme fraiche"}, {"tin of tomatoes", "canned tomato"},
		{"juice of 2 limes", "lime juice"}, {"zest of an orange", "orange zest"}, {"tomatoes, finely chopped", "tomato"}, {"butter for the pan", "butter"},
		{"bone-in, skin-on chicken thighs", "chicken thigh"}, {"boneless skinless chicken thighs", "boneless skinless chicken thigh"},
		{"confectioners' sugar", "powdered sugar"}, {"peanut butter", "peanut butter"}, {"brown rice", "brown rice"}, {"black beans (canned)", "black bean"},
		{"bicarb", "baking soda"}, {"aubergines", "eggplant"}, {"coriander leaves", "cilantro"}, {"ground coriander", "coriander seed"},
		{"butter or oil", "butter"}, {"leaves of thyme", "thyme"}, {"smoked salmon", "smoked salmon"}, {"half a dozen eggs", "egg"}, {"vegan butter", "vegan butter"},
		{"cashew cheese", ""}, {"moon dust", ""}, {"", ""}, {"   ", ""}, {"(((", ""}, {"🥚", ""},
	}
	for _, test := range tests {
		f, ok := Find(test.name, nil)
		if ok != (test.want != "") || f.Key != test.want {
			t.Errorf("Find(%q) = %q, want %q", test.name, f.Key, test.want)
		}
	}
}

// A name that is another food, counted as its nearest, says so; one that is the
// same food under another name doesn't.
func TestNearestFoodSaysSo(t *testing.T) {
	if f := mustFind(t, "manchego"); f.Key != "romano" || f.Note != "counted as romano" {
		t.Errorf("manchego is counted as %q with the note %q", f.Key, f.Note)
	}
	if f := mustFind(t, "pecorino"); f.Key != "romano" || f.Note != "" {
		t.Errorf("pecorino is %q with the note %q", f.Key, f.Note)
	}
}

func FuzzFind(f *testing.F) {
	for _, s := range []string{"unsalted butter", "juice of 2 limes", "tomatoes, chopped (ripe)", "a of the large small fresh", "\xff\xfe", "/// or , of"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		food, ok := Find(name, nil)
		if ok && food.Key == "" {
			t.Errorf("%q is found as a food without a name", name)
		}
	})
}

func BenchmarkFind(b *testing.B) {
	Check() // the tables are read once, before
	for b.Loop() {
		Find("finely chopped fresh flat-leaf parsley leaves", nil)
	}
}
