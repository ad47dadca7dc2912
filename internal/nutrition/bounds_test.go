package nutrition

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"quern/schema"
)

// asSpoken rounds a figure as cooks say it: kcal to the nearest ten, or below
// fifty to the nearest five; grams to the nearest one, or below five to the
// nearest half.
func asSpoken(v float64, kcal bool) *float64 {
	step := 1.0
	switch {
	case kcal && v >= 50:
		step = 10
	case kcal:
		step = 5
	case v < 5:
		step = 0.5
	}
	r := math.Round(v/step) * step
	return &r
}

// speak gives the spoken figures of a complete tally.
func speak(t *Tally) *schema.SpokenMacros {
	f := t.PerServing(t.Total)
	net, _ := f.NetCarbs()
	return &schema.SpokenMacros{Per: "serving", Figures: schema.Figures{Kcal: asSpoken(f[Kcal], true), FatG: asSpoken(f[Fat], false),
		SaturatedG: asSpoken(f[Saturated], false), ProteinG: asSpoken(f[Protein], false), CarbsG: asSpoken(f[Carbs], false),
		FibreG: asSpoken(f[Fibre], false), NetCarbsG: asSpoken(net, false), SugarG: asSpoken(f[Sugars], false)}}
}

// randomRecipe makes a recipe of real foods with every amount given, in grams.
func randomRecipe(r *rand.Rand) *schema.Document {
	var known []Food
	for _, f := range Foods() {
		if f.Known() && !math.IsNaN(f.Per100[Sugars]) && !math.IsNaN(f.Per100[Fibre]) && !math.IsNaN(f.Per100[Saturated]) {
			known = append(known, f)
		}
	}
	servings := float64(1 + r.IntN(12))
	doc := &schema.Document{Yield: &schema.Quantity{Min: servings, Max: servings, Unit: "servings"}}
	seen := map[string]bool{}
	for n := 3 + r.IntN(8); len(doc.Ingredients) < n; {
		f := known[r.IntN(len(known))]
		if seen[f.Key] {
			continue
		}
		seen[f.Key] = true
		g := math.Round(5 + r.Float64()*495)
		ing := schema.Ingredient{ID: f.Key, Name: f.Key, Amount: &schema.Quantity{Min: g, Max: g, Unit: "g"}}
		if r.IntN(5) == 0 {
			ing.Amount.Max = g + math.Round(r.Float64()*40)
		}
		doc.Ingredients = append(doc.Ingredients, ing)
	}
	return doc
}

// trueGrams is what a recipe was made with: halfway through every range.
func trueGrams(t *testing.T, doc *schema.Document) []float64 {
	t.Helper()
	tally := Count(doc, nil, "")
	if !tally.Complete {
		t.Fatalf("a recipe with every amount is not complete: %v", tally.Missing)
	}
	var out []float64
	for _, r := range tally.Rows {
		out = append(out, Middle(*r.Grams))
	}
	return out
}

// Whatever amounts are hidden, and the figures rounded as they are spoken, the
// true amount is inside the range; and the ends of the range fit every figure.
func TestBoundsHoldTheTruth(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 26))
	told, untold, unbounded := 0, 0, 0
	for recipe := range 200 {
		doc := randomRecipe(r)
		truth := trueGrams(t, doc)
		doc.Macros = &schema.Macros{Spoken: speak(Count(doc, nil, ""))}
		hide := 1 + r.IntN(3)
		for _, i := range r.Perm(len(doc.Ingredients))[:min(hide, len(doc.Ingredients)-1)] {
			doc.Ingredients[i].Amount = nil
		}
		p, err := newProgram(doc, Count(doc, nil, ""))
		if err != nil {
			t.Fatal(err)
		}
		ranges, err := p.ranges()
		if err != nil {
			t.Fatalf("recipe %d: %v", recipe, err)
		}
		for k, rg := range ranges {
			v := truth[rg.Index]
			if v < rg.Least-1e-6 || v > rg.Most+1e-6 {
				t.Errorf("recipe %d: %s is %v g, outside %v to %v", recipe, rg.Name, v, rg.Least, rg.Most)
			}
			switch {
			case math.IsInf(rg.Most, 1):
				unbounded++
			case rg.Told:
				told++
			default:
				untold++
			}
			j := p.place[k]
			for _, sign := range []float64{1, -1} {
				_, at, err := p.end(j, sign)
				if err != nil {
					if sign == -1 && !math.IsInf(rg.Most, 1) {
						t.Errorf("recipe %d: %s: %v but a most of %v", recipe, rg.Name, err, rg.Most)
					}
					continue
				}
				if why := p.violated(at); why != "" {
					t.Errorf("recipe %d: the end of %s breaks %s", recipe, rg.Name, why)
				}
			}
			if !math.IsInf(rg.Most, 1) && p.fits(j, rg.Most/100+0.01+rg.Most*1e-4) {
				t.Errorf("recipe %d: %s could be more than %v g", recipe, rg.Name, rg.Most)
			}
			if rg.Least > 0.1 && p.fits(j, rg.Least/100-0.001-rg.Least*1e-4) {
				t.Errorf("recipe %d: %s could be less than %v g", recipe, rg.Name, rg.Least)
			}
		}
	}
	t.Logf("%d ranges with both ends, %d without a most, %d not told", told, unbounded, untold)
	if told < 200 {
		t.Errorf("only %d ranges have both ends", told)
	}
}

// violated names a row the amounts break by more than the solver's tolerance.
func (p *program) violated(at []float64) string {
	for i, r := range p.rows {
		sum, size := 0.0, math.Abs(r.limit)
		for k, c := range r.c {
			sum += c * at[k]
			size = math.Max(size, math.Abs(c*at[k]))
		}
		if sum > r.limit+1e-6*(1+size) {
			return "row " + number(float64(i)) + " of the program"
		}
	}
	return ""
}

// fits tells whether some amounts fit with column j held at v, in hundreds of
// grams: the test's own check that a range is not too narrow.
func (p *program) fits(j int, v float64) bool {
	held := *p
	v -= p.columns[j].shift
	for _, sign := range []float64{1, -1} {
		b := bound{c: make([]float64, len(p.columns)), limit: sign * v}
		b.c[j] = sign
		held.rows = append(append([]bound(nil), held.rows...), b)
	}
	_, _, err := held.end(j, 1)
	return err == nil
}

func TestBoundsRefuses(t *testing.T) {
	kcal := 100.0
	butter := []schema.Ingredient{{ID: "butter", Name: "butter"}}
	doc := &schema.Document{Yield: amount(t, "4"), Ingredients: butter}
	if _, err := Bounds(doc, nil); !errors.Is(err, ErrNothingSpoken) {
		t.Errorf("nothing spoken gives %v", err)
	}
	doc.Macros = &schema.Macros{Spoken: &schema.SpokenMacros{Per: "slice", Figures: schema.Figures{Kcal: &kcal}}}
	if _, err := Bounds(doc, nil); !errors.Is(err, ErrOtherServing) {
		t.Errorf("figures per slice of a yield in servings give %v", err)
	}
	doc.Macros.Spoken.Per = ""
	ranges, err := Bounds(doc, nil)
	// 95 to 105 kcal, four times, at 717 kcal in 100 g (NDB 01001).
	if err != nil || len(ranges) != 1 || math.Abs(ranges[0].Least-95*4/7.17) > 0.01 || math.Abs(ranges[0].Most-105*4/7.17) > 0.01 {
		t.Errorf("butter for 100 kcal each of four is %+v, %v", ranges, err)
	}
	if got := ranges[0].Evidence(mustFind(t, "butter")); got != "the spoken figures allow 52 to 59 g, 3.7 to 4.2 tbsp" {
		t.Errorf("evidence is %q", got)
	}
	doc.Ingredients = append(doc.Ingredients, schema.Ingredient{ID: "sugar", Name: "sugar", Amount: amount(t, "1 kg")})
	if _, err := Bounds(doc, nil); !errors.Is(err, ErrNoFit) {
		t.Errorf("a kilogram of sugar in 400 kcal gives %v", err)
	}
	doc.Ingredients = []schema.Ingredient{{ID: "salt", Name: "salt"}, {ID: "butter", Name: "butter", Amount: amount(t, "55 g")}}
	ranges, err = Bounds(doc, nil)
	if err != nil || len(ranges) != 0 && ranges[0].Told {
		t.Errorf("kcal tell the salt: %+v, %v", ranges, err)
	}
	doc.Ingredients = []schema.Ingredient{{ID: "moon dust", Name: "moon dust", Amount: amount(t, "5 g")}, {ID: "butter", Name: "butter"}}
	ranges, err = Bounds(doc, nil)
	if err != nil || len(ranges) != 1 || ranges[0].Least != 0 || math.Abs(ranges[0].Most-105*4/7.17) > 0.01 {
		t.Errorf("beside a food without figures butter is %+v, %v; want only an upper end", ranges, err)
	}
	if got := ranges[0].Evidence(mustFind(t, "butter")); !strings.HasPrefix(got, "the spoken figures allow at most 59 g") {
		t.Errorf("evidence is %q", got)
	}
}

func TestBoundsOfTooMuch(t *testing.T) {
	kcal := 100.0
	doc := &schema.Document{Yield: amount(t, "4"), Macros: &schema.Macros{Spoken: &schema.SpokenMacros{Figures: schema.Figures{Kcal: &kcal}}}}
	for range maxFree + 1 {
		doc.Ingredients = append(doc.Ingredients, schema.Ingredient{ID: "butter", Name: "butter"})
	}
	if _, err := Bounds(doc, nil); !errors.Is(err, ErrTooMany) {
		t.Errorf("%d missing amounts give %v", len(doc.Ingredients), err)
	}
	doc.Ingredients = doc.Ingredients[1:]
	if ranges, err := Bounds(doc, nil); err != nil || len(ranges) != maxFree {
		t.Errorf("%d missing amounts give %d ranges, %v", len(doc.Ingredients), len(ranges), err)
	}
}

func mustFind(t testing.TB, name string) Food {
	t.Helper()
	f, ok := Find(name, nil)
	if !ok {
		t.Fatalf("no food %q", name)
	}
	return f
}

func BenchmarkBounds(b *testing.B) {
	doc := randomRecipe(rand.New(rand.NewPCG(1, 2)))
	doc.Macros = &schema.Macros{Spoken: speak(Count(doc, nil, ""))}
	doc.Ingredients[0].Amount, doc.Ingredients[1].Amount = nil, nil
	for b.Loop() {
		if _, err := Bounds(doc, nil); err != nil {
			b.Fatal(err)
		}
	}
}
