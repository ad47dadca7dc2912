package nutrition

import (
	"errors"
	"math"
	"strings"
	"testing"

	"quern/schema"
)

const ownExample = `# what I buy
foods:
  - name: coconut flour
    also: [fine coconut flour]
    per: 30 g
    kcal: 120
    protein_g: 6
    fat_g: 4
    saturated_fat_g: 3.5
    carbs_g: 18
    fibre_g: 11
    sugar_g: 3
    sodium_mg: 30
    weighs: {cup: 112 g, tbsp: 7 g}
  - name: butter
    kcal: 740
    protein_g: 0.5
    fat_g: 82
    carbs_g: 0.6
    salt_g: 1.5
  - name: oat crackers
    kcal: 430
    protein_g: 10
    fat_g: 17
    carbs_g: 53
    fibre_g: 10
    carbs_without_fibre: true
    weighs: {piece: 12 g}
`

func TestOwnFoodsWin(t *testing.T) {
	own, err := ReadOwn("foods.yaml", []byte(ownExample))
	if err != nil {
		t.Fatal(err)
	}
	f, ok := Find("coconut flour", own)
	if !ok || f.Source != "your foods" || math.Abs(f.Per100[Kcal]-400) > 1e-9 || math.Abs(f.Per100[Fibre]-11.0/30*100) > 1e-9 {
		t.Errorf("coconut flour is %+v", f)
	}
	if g, err := Grams(f, &schema.Ingredient{Name: "coconut flour", Amount: amount(t, "1/2 cup")}, ""); err != nil || g.Min != 56 || g.Rule != "1/2 cup, 112 g a cup: your foods" {
		t.Errorf("half a cup of coconut flour is %+v, %v", g, err)
	}
	f, _ = Find("softened butter", own)
	if f.Source != "your foods" || f.Per100[Kcal] != 740 || f.Per100[Sodium] != 600 {
		t.Errorf("her own butter does not win: %+v", f)
	}
	if _, ok := f.Per100.Get(Fibre); ok {
		t.Errorf("fibre that a label does not give is known")
	}
	f, _ = Find("oat crackers", own)
	if f.Per100[Carbs] != 63 {
		t.Errorf("carbohydrate printed without 10 g of fibre is %v of 53", f.Per100[Carbs])
	}
	if f, _ := Find("sugar", own); f.Row != "19335" {
		t.Errorf("a food she does not list is %q", f.Key)
	}
	if own, err := ReadOwn("empty.yaml", nil); err != nil || len(own.Foods()) != 0 {
		t.Errorf("an empty file gives %v, %v", own.Foods(), err)
	}
}

func TestOwnFoodsErrors(t *testing.T) {
	const good = "- name: x\n  kcal: 100\n  protein_g: 1\n  fat_g: 1\n  carbs_g: 20\n"
	tests := []struct{ text, want string }{
		{"name: x", "f.yaml:1: not a list of foods: want a list of foods, or the one key foods"},
		{"foods: 3", "f.yaml:1: not a list of foods: want a list of foods, each beginning"},
		{"- 3", "f.yaml:1: not a list of foods: want a food as keys and values"},
		{"- name: x\n  kcal: 3\n", "f.yaml:1: not a list of foods: x has no protein_g; copy it from the label"},
		{"- kcal: 3\n", "a food has no name"},
		{"- name: x\n  kcl: 3\n", "f.yaml:2: not a list of foods: \"kcl\" is no key of a food"},
		{"- name: x\n  kcal: lots\n", "f.yaml:2: not a list of foods: kcal: \"lots\" is no number"},
		{"- name: x\n  kcal: -4\n", "\"-4\" is no number of nought or more"},
		{"- name: x\n  per: 2 cups\n", "f.yaml:2: not a list of foods: per: \"2 cups\" is no weight"},
		{"- name: x\n  per: some\n", "f.yaml:2: not a list of foods: per: not a quantity"},
		{"- name: x\n  weighs: {cup: 3 inches}\n", "weighs: \"3 inches\" is no weight"},
		{"- name: x\n  weighs: {g: 3 g}\n", "\"g\" is no household measure"},
		{"- name: x\n  weighs: heavy\n", "want measures and weights"},
		{"- name: x\n  name: y\n", "\"name\" stands twice"},
		{"- name: x\n  also: y\n", "also: want a list of names"},
		{good + good, "f.yaml:6: not a list of foods: \"x\" is already the name of \"x\""},
		{"- name: x\n  per: 10 g\n  kcal: 100\n  protein_g: 9\n  fat_g: 9\n  carbs_g: 9\n", "f.yaml:2: not a list of foods: x: protein, fat and carbohydrate come to 27 g in 10 g"},
		{"- name: x\n  per: 10 g\n  kcal: 100\n  protein_g: 1\n  fat_g: 1\n  carbs_g: 1\n", "more than pure fat"},
		{"- name: x\n  kcal: 1\n  protein_g: 1\n  fat_g: 1\n  carbs_g: 1\n  carbs_without_fibre: true\n", "needs fibre_g"},
		{"- name: x\n  carbs_without_fibre: perhaps\n", "neither true nor false"},
		{"- name: [\n", "f.yaml:2: not a list of foods: YAML that cannot be read"},
	}
	for _, test := range tests {
		_, err := ReadOwn("f.yaml", []byte(test.text))
		if !errors.Is(err, ErrOwn) || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q gives %v, want %q", test.text, err, test.want)
		}
	}
}

func FuzzReadOwn(f *testing.F) {
	f.Add([]byte(ownExample))
	f.Add([]byte("- name: &a x\n  also: [*a, *a]\n"))
	f.Add([]byte("foods: [[[["))
	f.Fuzz(func(t *testing.T, data []byte) {
		own, err := ReadOwn("f.yaml", data)
		if (err == nil) == (own == nil) {
			t.Errorf("foods %v and error %v", own, err)
		}
	})
}
