package publish

import (
	"math"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"quern/schema"
)

func quantity(t testing.TB, text string) *schema.Quantity {
	t.Helper()
	q, err := schema.ParseQuantity(text)
	if err != nil {
		t.Fatal(err)
	}
	return &q
}

func TestKitchenAmounts(t *testing.T) {
	for _, c := range []struct {
		amount string
		factor float64
		name   string
		want   string
	}{
		{"1 cup", 1.0 / 3, "flour", "⅓ cup"},
		{"1/3 cup", 2, "flour", "⅔ cup"},
		{"3/4 cup", 1.5, "flour", "1 cup + 2 tbsp"},
		{"1 cup", 0.0625, "oil", "1 tbsp"},
		{"1 tbsp", 4, "oil", "¼ cup"},
		{"1 tbsp", 1.5, "oil", "1½ tbsp"},
		{"1 tbsp", 1.0 / 3, "oil", "1 tsp"},
		{"2 tsp", 2, "salt", "1 tbsp + 1 tsp"},
		{"1 tsp", 3, "salt", "1 tbsp"},
		{"1/2 tsp", 0.5, "salt", "¼ tsp"},
		{"1/4 tsp", 0.25, "salt", "less than ⅛ tsp"},
		{"1-2 cups", 2, "stock", "2–4 cups"},
		{"2-3 tbsp", 0.5, "oil", "1–1½ tbsp"},
		{"2", 1.35, "eggs", "2 to 3"},
		{"2", 1.5, "eggs", "3"},
		{"1", 1.5, "eggs", "1 to 2"},
		{"1", 0.5, "egg", "½"},
		{"1", 1.5, "lemon", "1½"},
		{"3", 0.9, "egg yolks", "2 to 3"},
		{"3 cloves", 0.5, "garlic", "1 to 2 cloves"},
		{"1 pinch", 0.5, "salt", "a small pinch"},
		{"1 pinch", 3, "salt", "3 pinches"},
		{"2 cans (14 oz)", 0.5, "tomatoes", "1 can (14 oz)"},
		{"1 can (14 oz)", 1.5, "tomatoes", "1½ cans (14 oz)"},
		{"225 g", 2, "butter", "450 g"},
		{"225 g", 0.5, "butter", "115 g"},
		{"700 g", 2, "beef", "1.4 kg"},
		{"1 kg", 0.25, "beef", "250 g"},
		{"1.2 l", 0.5, "water", "600 ml"},
		{"1 lb", 1.5, "beef", "1½ lb"},
		{"1 lb", 0.5, "beef", "8 oz"},
		{"1 lb", 1.4, "beef", "1 lb 6 oz"},
		{"12 oz", 2, "beef", "1½ lb"},
		{"1 stick", 1.5, "butter", "1½ sticks"},
		{"about 2 cups", 2, "stock", "about 4 cups"},
		{"6-8", 0.5, "plums", "3 to 4"},
	} {
		q := quantity(t, c.amount)
		if got := (kitchen{hand: rich}).amount(scaled(q, c.factor), c.name); got != c.want {
			t.Errorf("%s of %s × %g is %q, want %q", c.amount, c.name, c.factor, got, c.want)
		}
	}
}

// units are those whose amounts a kitchen measures in fractions.
var units = []string{"cup", "tbsp", "tsp", "fl oz", "pint", "quart", "oz", "lb", "stick"}

// sum reads back an amount as this package writes it, in the smallest unit it
// names of its kind: millilitres, grams or sticks.
func sum(t *rapid.T, text string) (lo, hi float64) {
	text = strings.TrimPrefix(text, "about ")
	if a, b, ok := strings.Cut(text, " to "); ok && !regexp.MustCompile(`^\S+( \d/\d)?$`).MatchString(a) {
		lo, _ = sum(t, a)
		_, hi = sum(t, b)
		return lo, hi
	}
	for _, part := range strings.Split(strings.ReplaceAll(text, " lb ", " lb + "), " + ") {
		q, err := schema.ParseQuantity(part)
		if err != nil {
			t.Fatalf("%q can't be read back: %v", text, err)
		}
		per := 1.0
		if ml, ok := schema.Volume(q.Unit); ok {
			per = ml
		} else if g, ok := schema.Mass(q.Unit); ok {
			per = g
		}
		lo += q.Min * per
		hi += q.Max * per
	}
	return lo, hi
}

// TestKitchenAmountsProperty scales random amounts: what is written has only
// fractions that are marked on measures, and is within a twentieth of the exact
// amount or says "about"; things that aren't halved are whole.
func TestKitchenAmountsProperty(t *testing.T) {
	unmarked := regexp.MustCompile(`\.|[⅕⅖⅗⅘⅙⅚]`)
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom(units).Draw(t, "unit")
		v := float64(rapid.IntRange(1, 64).Draw(t, "eighths")) / 8
		factor := rapid.Float64Range(0.1, 12).Draw(t, "factor")
		q := &schema.Quantity{Min: v * factor, Max: v * factor, Unit: unit}
		if rapid.Bool().Draw(t, "range") {
			q.Max = q.Min * rapid.Float64Range(1, 2).Draw(t, "wide")
		}
		text := (kitchen{hand: plain}).amount(q, "oats")
		if unmarked.MatchString((kitchen{hand: rich}).amount(q, "oats")) {
			t.Fatalf("%v %s is written %q", *q, unit, text)
		}
		if strings.Contains(text, "about ") || strings.Contains(text, "less than") {
			return
		}
		lo, hi := sum(t, text)
		per := 1.0
		if ml, ok := schema.Volume(unit); ok {
			per = ml
		} else if g, ok := schema.Mass(unit); ok {
			per = g
		}
		if !near(lo, q.Min*per, 0.0501) || !near(hi, q.Max*per, 0.0501) {
			t.Fatalf("%g-%g %s is written %q, off by more than a twentieth", q.Min, q.Max, unit, text)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(1, 40).Draw(t, "eggs")
		text := (kitchen{hand: plain}).amount(&schema.Quantity{Min: v, Max: v}, "eggs")
		if !regexp.MustCompile(`^\d+( to \d+)?$`).MatchString(text) {
			t.Fatalf("%g eggs are written %q", v, text)
		}
		lo, hi, two := strings.Cut(text, " to ")
		a, _ := strconv.ParseFloat(lo, 64)
		b := a
		if two {
			b, _ = strconv.ParseFloat(hi, 64)
		}
		if v < a*0.95 || v > b*1.0527 {
			t.Fatalf("%g eggs are written %q", v, text)
		}
	})
}

// TestScaleRoundTrip scales a document there and back: every figure is what it
// was, and only amounts, weights and the yield have changed in between.
func TestScaleRoundTrip(t *testing.T) {
	docs := documents(t)
	rapid.Check(t, func(t *rapid.T) {
		doc := docs[rapid.SampledFrom(names(docs)).Draw(t, "document")]
		factor := rapid.Float64Range(0.05, 20).Draw(t, "factor")
		back := Scale(Scale(doc, factor), 1/factor)
		equal := cmp.Options{cmpopts.EquateApprox(1e-9, 0), cmpopts.EquateEmpty(), cmpopts.IgnoreFields(schema.Quantity{}, "Text")}
		if diff := cmp.Diff(doc, back, equal); diff != "" {
			t.Fatalf("× %g and back (-before +after):\n%s", factor, diff)
		}
		there := Scale(doc, factor)
		if diff := cmp.Diff(doc.Steps, there.Steps, equal); diff != "" {
			t.Fatalf("steps changed:\n%s", diff)
		}
		if diff := cmp.Diff(doc.Flags, there.Flags, equal); diff != "" {
			t.Fatalf("flags changed:\n%s", diff)
		}
	})
}

// TestMeasuresAgreeWithUnits compares what is written in the other measures
// with GNU units (Debian package units): within the rounding of kitchen
// amounts, a twentieth.
func TestMeasuresAgreeWithUnits(t *testing.T) {
	path, err := exec.LookPath("units")
	if err != nil {
		missing(t, "GNU units (Debian package units)")
	}
	convert := func(from, to string) float64 {
		out, err := exec.Command(path, "--terse", "--digits", "12", from, to).Output()
		if err != nil {
			t.Fatalf("units %q %q: %v\n%s", from, to, err, out)
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	outside := map[string]string{"fl oz": "usfloz", "oz": "oz", "lb": "lb", "tbsp": "tablespoon", "tsp": "teaspoon", "ml": "mL", "l": "L", "inch": "inch"}
	called := func(unit string) string {
		if name := outside[unit]; name != "" {
			return name
		}
		return unit
	}
	for _, amount := range []string{"1 cup", "2 1/2 cups", "1/3 cup", "3 tbsp", "1/2 tsp", "1 pint", "2 quarts", "1 gallon", "6 fl oz", "1 oz", "4 oz", "12 oz",
		"1 lb", "2 1/2 lb", "50 g", "225 g", "500 g", "1.5 kg", "100 ml", "250 ml", "1 l", "1 inch", "9 inch", "20 cm", "23 cm"} {
		q := quantity(t, amount)
		text := (kitchen{hand: plain}).other(q, nil, "")
		rest := strings.TrimPrefix(strings.ReplaceAll(text, " lb ", " lb + "), "about ")
		total, unit := 0.0, ""
		for _, part := range strings.Split(rest, " + ") {
			p := quantity(t, part)
			if unit == "" {
				unit = p.Unit
			}
			total += p.Min * convert(called(p.Unit), called(unit))
		}
		want := convert(strconv.FormatFloat(q.Min, 'f', -1, 64)+" "+called(q.Unit), called(unit))
		if !near(total, want, coarse) {
			t.Errorf("%s is written %q, which is %g %s; GNU units says %g", amount, text, total, unit, want)
		}
	}
	for _, temperature := range []string{"350 F", "180 C", "165 F", "63 C", "425 F", "220 C", "0 F", "100 C"} {
		q := quantity(t, temperature)
		got, ok := otherScale(*q)
		if !ok {
			t.Fatalf("%s has no other scale", temperature)
		}
		want := convert("temp"+q.Unit+"("+strconv.FormatFloat(q.Min, 'f', -1, 64)+")", "temp"+got.Unit)
		if math.Abs(got.Min-want) > 2.5 {
			t.Errorf("%s is %g %s; GNU units says %g", temperature, got.Min, got.Unit, want)
		}
	}
}

func TestGasMarks(t *testing.T) {
	got, ok := otherScale(*quantity(t, "gas 4"))
	if !ok || got.Unit != "C" || got.Min != 175 { // 350 F, 177 C: common practice
		t.Errorf("gas 4 is %v, %v", got, ok)
	}
	if _, ok := otherScale(schema.Quantity{Min: 3, Max: 3, Unit: "cup"}); ok {
		t.Error("a cup has a temperature")
	}
}
