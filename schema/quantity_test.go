package schema

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gopkg.in/yaml.v3"
)

func size(value float64, unit string) *Quantity {
	q := Single(value, unit)
	return &q
}

func about(q Quantity) Quantity {
	q.About = true
	return q
}

func TestParseQuantity(t *testing.T) {
	overnight := OvernightTime()
	tests := []struct {
		text      string
		want      Quantity // without Text
		canonical string
	}{
		// numbers
		{"3", Single(3, ""), "3"},
		{"225 g", Single(225, "g"), "225 g"},
		{"225g", Single(225, "g"), "225 g"},
		{"1,000 g", Single(1000, "g"), "1000 g"},
		{"0.5 kg", Single(0.5, "kg"), "0.5 kg"},
		{".5 kg", Single(0.5, "kg"), "0.5 kg"},
		{"1/2 kg", Single(0.5, "kg"), "0.5 kg"},
		{"1/2 cup", Single(0.5, "cup"), "1/2 cup"},
		{"½ cup", Single(0.5, "cup"), "1/2 cup"},
		{"1½ cups", Single(1.5, "cup"), "1 1/2 cups"},
		{"1 ½ cups", Single(1.5, "cup"), "1 1/2 cups"},
		{"1 1/2 cups", Single(1.5, "cup"), "1 1/2 cups"},
		{"1 and 1/2 cups", Single(1.5, "cup"), "1 1/2 cups"},
		{"1-1/2 cups", Single(1.5, "cup"), "1 1/2 cups"},
		{"1⁄3 cup", Single(1.0/3, "cup"), "1/3 cup"},
		{"0.333 cup", Single(0.333, "cup"), "1/3 cup"},
		{"2.67 cups", Single(2.67, "cup"), "2 2/3 cups"},
		{"1/5 cup", Single(0.2, "cup"), "0.2 cup"},
		{"a pinch", Single(1, "pinch"), "1 pinch"},
		{"half a cup", Single(0.5, "cup"), "1/2 cup"},
		{"two cups", Single(2, "cup"), "2 cups"},
		{"a dozen", Single(12, ""), "12"},
		{"0 minutes", Single(0, "minute"), "0 minutes"},
		// units
		{"2 Tablespoons", Single(2, "tbsp"), "2 tbsp"},
		{"1 teaspoon", Single(1, "tsp"), "1 tsp"},
		{"4 fl. oz.", Single(4, "fl oz"), "4 fl oz"},
		{"4 fluid ounces", Single(4, "fl oz"), "4 fl oz"},
		{"1 litre", Single(1, "l"), "1 l"},
		{"1 L", Single(1, "l"), "1 l"},
		{"500 mL", Single(500, "ml"), "500 ml"},
		{"2 lbs", Single(2, "lb"), "2 lb"},
		{"2 lb 3 oz", Single(35, "oz"), "35 oz"},
		{"1 tin", Single(1, "can"), "1 can"},
		{"2 bunches", Single(2, "bunch"), "2 bunches"},
		{"4 leaves", Single(4, "leaf"), "4 leaves"},
		{"2 pinches", Single(2, "pinch"), "2 pinches"},
		{"3 knobs", Single(3, "knob"), "3 knobs"},
		// ranges
		{"2-3 cloves", Between(2, 3, "clove"), "2-3 cloves"},
		{"2 - 3 cloves", Between(2, 3, "clove"), "2-3 cloves"},
		{"2 to 3 cloves", Between(2, 3, "clove"), "2-3 cloves"},
		{"2 or 3 cloves", Between(2, 3, "clove"), "2-3 cloves"},
		{"2 cloves to 3 cloves", Between(2, 3, "clove"), "2-3 cloves"},
		{"between 2 and 3 cups", Between(2, 3, "cup"), "2-3 cups"},
		{"1/2-3/4 tsp", Between(0.5, 0.75, "tsp"), "1/2-3/4 tsp"},
		{"1-1 1/2 cups", Between(1, 1.5, "cup"), "1-1 1/2 cups"},
		{"1 1/2-2 cups", Between(1.5, 2, "cup"), "1 1/2-2 cups"},
		{"up to 3 days", Between(0, 3, "day"), "up to 3 days"},
		// about
		{"about 2 cups", about(Single(2, "cup")), "about 2 cups"},
		{"~2 cups", about(Single(2, "cup")), "about 2 cups"},
		{"2 cups or so", about(Single(2, "cup")), "about 2 cups"},
		{"roughly 2-3 cups", about(Between(2, 3, "cup")), "about 2-3 cups"},
		// containers
		{"2 cans (14 oz)", Quantity{Min: 2, Max: 2, Unit: "can", Size: size(14, "oz")}, "2 cans (14 oz)"},
		{"2 (14-ounce) tins", Quantity{Min: 2, Max: 2, Unit: "can", Size: size(14, "oz")}, "2 cans (14 oz)"},
		{"2 14-oz cans", Quantity{Min: 2, Max: 2, Unit: "can", Size: size(14, "oz")}, "2 cans (14 oz)"},
		{"2 x 400 g tins", Quantity{Min: 2, Max: 2, Unit: "can", Size: size(400, "g")}, "2 cans (400 g)"},
		{"1-2 packets (7 g)", Quantity{Min: 1, Max: 2, Unit: "packet", Size: size(7, "g")}, "1-2 packets (7 g)"},
		{"2 (150 g)", Quantity{Min: 2, Max: 2, Size: size(150, "g")}, "2 (150 g)"},
		// times
		{"10-15 minutes", Between(10, 15, "minute"), "10-15 minutes"},
		{"10–15 minutes", Between(10, 15, "minute"), "10-15 minutes"},
		{"10 min.", Single(10, "minute"), "10 minutes"},
		{"1 hr", Single(1, "hour"), "1 hour"},
		{"1 1/2 hours", Single(1.5, "hour"), "1 1/2 hours"},
		{"half an hour", Single(0.5, "hour"), "1/2 hour"},
		{"1 hour 30 minutes", Single(90, "minute"), "90 minutes"},
		{"1 hour and 15 mins to 2 hours", Between(75, 120, "minute"), "75-120 minutes"},
		{"30 seconds to 1 minute", Between(30, 60, "second"), "30-60 seconds"},
		{"overnight", overnight, "overnight"},
		{"Overnight", overnight, "overnight"},
		// temperatures
		{"350 F", Single(350, "F"), "350 F"},
		{"350°F", Single(350, "F"), "350 F"},
		{"350 º F", Single(350, "F"), "350 F"},
		{"350 degrees Fahrenheit", Single(350, "F"), "350 F"},
		{"180 C", Single(180, "C"), "180 C"},
		{"180 degrees celsius", Single(180, "C"), "180 C"},
		{"-18 C", Single(-18, "C"), "-18 C"},
		{"−20 to −18 C", Between(-20, -18, "C"), "-20 to -18 C"},
		{"gas 4", Single(4, "gas"), "gas 4"},
		{"gas mark 4", Single(4, "gas"), "gas 4"},
		{"gas 4-5", Between(4, 5, "gas"), "gas 4-5"},
		{"gas 1/2", Single(0.5, "gas"), "gas 1/2"},
		// lengths
		{"1/4 inch", Single(0.25, "inch"), "1/4 inch"},
		{`2"`, Single(2, "inch"), "2 inches"},
		{"9 x 13 inch", Quantity{Min: 9, Max: 9, By: []float64{13}, Unit: "inch"}, "9 x 13 inch"},
		{"9x13-inch", Quantity{Min: 9, Max: 9, By: []float64{13}, Unit: "inch"}, "9 x 13 inch"},
		{"9 × 13 inches", Quantity{Min: 9, Max: 9, By: []float64{13}, Unit: "inch"}, "9 x 13 inch"},
		{"20 by 30 cm", Quantity{Min: 20, Max: 20, By: []float64{30}, Unit: "cm"}, "20 x 30 cm"},
		{"9 x 5 x 3 inch", Quantity{Min: 9, Max: 9, By: []float64{5, 3}, Unit: "inch"}, "9 x 5 x 3 inch"},
		{"9 x 13", Quantity{Min: 9, Max: 9, By: []float64{13}}, "9 x 13"},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got, err := ParseQuantity(tt.text)
			if err != nil {
				t.Fatal(err)
			}
			if got.String() != tt.text {
				t.Errorf("String() = %q; a typed text is kept", got.String())
			}
			if keeps := got.Text != ""; keeps == (tt.text == tt.canonical) {
				t.Errorf("Text = %q; it is kept only where it differs from %q", got.Text, tt.canonical)
			}
			got.Text = ""
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			if got.String() != tt.canonical {
				t.Errorf("canonical text %q, want %q", got.String(), tt.canonical)
			}
		})
	}
}

func TestParseQuantityRefuses(t *testing.T) {
	tests := []struct{ text, reason string }{
		{"", "it is empty"},
		{"  ", "it is empty"},
		{"some", `a number is needed where "some" stands`},
		{"a couple", `"couple" is not a unit`},
		{"2 cuups", `"cuups" is not a unit`},
		{"2 cups flour", `"flour" is left over`},
		{"2 large", `"large" is not a unit`},
		{"2 c", `"c" is not a unit`},
		{"2 T", `"T" is not a unit`},
		{"3-2 cups", "the range 3 to 2 runs backwards; put the smaller number first"},
		{"2 cups to 3 tbsp", `the range has two units, "cup" and "tbsp"`},
		{"2 cups - 3", `the second number of the range has no unit beside "cup"`},
		{"between 2 cups", `"between" needs two numbers`},
		{"1/0 cup", `"1/0" is no fraction`},
		{"1,5 l", `"1,5" is no number: a comma stands only before three digits, a point before decimals`},
		{"1.2.3 l", `"1.2.3" is no number`},
		{"-3 cups", "-3 is below zero; only F and C go below"},
		{"350 degrees", "degrees of what: F or C?"},
		{"350°", "degrees of what: F or C?"},
		{"up to 350 F", "a temperature has a lowest figure too"},
		{"1 cup plus 2 tbsp", `"plus 2 tbsp" is left over`},
		{"1 cup (120 g)", "only counted things (cans, packets, pieces) have a size in brackets; put a second measure of the same amount in second_amount"},
		{"2 cans (14 oz", "the bracket is not closed after the size"},
		{"2 cans (14)", "the size of each thing is a single measure, as in 2 cans (14 oz)"},
		{"2 cans (10 minutes)", `the size of each thing is a weight, a volume or a length, not "minute"`},
		{"2 x 3 cups", `a size of several sides is in inch, cm or mm, not "cup"`},
		{"1 x 2 x 3 x 4 cm", "a size has at most 3 sides"},
		{"overnight or so", `"or so" follows overnight, which stands alone`},
		{"5,000,000,000 g", `"5,000,000,000" is no number a quantity can have`},
		{"2 € g", `the character '€' has no place in it`},
		{"2 cups\xff", "it is not UTF-8"},
		{strings.Repeat("1", 300), "it is too long"},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got, err := ParseQuantity(tt.text)
			var failed *QuantityError
			if !errors.As(err, &failed) || !errors.Is(err, ErrQuantity) {
				t.Fatalf("got %+v, %v; want a QuantityError", got, err)
			}
			if failed.Reason != tt.reason {
				t.Errorf("reason %q, want %q", failed.Reason, tt.reason)
			}
			if !strings.Contains(err.Error(), AcceptedQuantity) {
				t.Errorf("%v does not say what is accepted", err)
			}
		})
	}
}

func TestParseYield(t *testing.T) {
	tests := []struct {
		text string
		want Quantity
	}{
		{"24 cookies", Single(24, "cookies")},
		{"12 generous slices", Single(12, "generous slices")},
		{"12 slices", Single(12, "slice")},
		{"4-6 servings", Between(4, 6, "servings")},
		{"4 to 6 servings", Between(4, 6, "servings")},
		{"1 loaf", Single(1, "loaf")},
		{"about 24 cookies", about(Single(24, "cookies"))},
		{"24 cookies or so", about(Single(24, "cookies"))},
		{"2 dozen cookies", Single(24, "cookies")},
		{"serves 4", Single(4, "servings")},
		{"makes 24 buns", Single(24, "buns")},
		{"24", Single(24, "")},
		{"500 ml", Single(500, "ml")},
		{"2 cups of soup", Single(2, "cups of soup")},
		{"3 tins", Single(3, "tins")},
		{"2 8-inch cakes", Single(2, "8-inch cakes")},
		{"1 1/2 loaves", Single(1.5, "loaves")},
		{"6 salt & pepper crackers", Single(6, "salt & pepper crackers")},
		{"4 crème brûlées", Single(4, "crème brûlées")},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got, err := ParseYield(tt.text)
			if err != nil {
				t.Fatal(err)
			}
			if got.String() != tt.text {
				t.Errorf("String() = %q", got.String())
			}
			got.Text = ""
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
	for _, text := range []string{"", "plenty", "10 minutes", "350 F", "overnight", "4 6 servings", "6-4 buns"} {
		if got, err := ParseYield(text); !errors.Is(err, ErrQuantity) || !strings.Contains(err.Error(), AcceptedYield) {
			t.Errorf("ParseYield(%q) = %+v, %v", text, got, err)
		}
	}
}

func TestQuantityString(t *testing.T) {
	tests := []struct {
		name string
		q    Quantity
		want string
	}{
		{"third", Single(0.333, "cup"), "1/3 cup"},
		{"third from above", Single(0.337, "cup"), "1/3 cup"},
		{"no fraction", Single(0.34, "cup"), "0.34 cup"},
		{"sixth", Single(1.0/6, "tsp"), "1/6 tsp"},
		{"eighths", Single(2.875, "inch"), "2 7/8 inches"},
		{"metric keeps decimals", Single(0.25, "l"), "0.25 l"},
		{"rounding", Single(0.1+0.2, "l"), "0.3 l"},
		{"plural noun as it is", Single(1, "cookies"), "1 cookies"},
		{"vague", VagueQuantity("several days"), "several days"},
		{"stale text gives way", Quantity{Min: 3, Max: 3, Unit: "cup", Text: "2 cups"}, "3 cups"},
		{"text that still holds stays", Quantity{Min: 2, Max: 2, Unit: "cup", Text: "two cups"}, "two cups"},
		{"plural unit in the field", Single(2, "slices"), "2 slices"},
		{"overnight without numbers", Quantity{Overnight: true}, "overnight"},
		{"minus nothing", Single(math.Copysign(0, -1), "C"), "0 C"},
		{"zero value", Quantity{}, "0"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.q.String(); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

func TestQuantityThatCannotBeWritten(t *testing.T) {
	tests := []struct {
		name string
		q    Quantity
	}{
		{"not a number", Single(math.NaN(), "g")},
		{"infinite", Single(math.Inf(1), "g")},
		{"below zero", Single(-1, "g")},
		{"backwards", Between(3, 2, "g")},
		{"range with sides", Quantity{Min: 1, Max: 2, By: []float64{3}, Unit: "cm"}},
		{"vague with a number", Quantity{Min: 1, Max: 1, Vague: "some"}},
		{"vague with a unit", Quantity{Unit: "cup", Vague: "some"}},
		{"overnight of a size", Quantity{Overnight: true, Size: size(1, "g")}},
		{"size of a weight", Quantity{Min: 1, Max: 1, Unit: "kg", Size: size(1, "g")}},
		{"size without a unit", Quantity{Min: 1, Max: 1, Unit: "can", Size: size(1, "")}},
		{"size below zero", Quantity{Min: 1, Max: 1, Unit: "can", Size: size(-1, "g")}},
		{"noun that reads as a number", Single(2, "dozen eggs")},
		{"noun that is no UTF-8", Single(2, "\xff")},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if err := tt.q.CheckYield(); !errors.Is(err, ErrQuantity) {
				t.Errorf("CheckYield() = %v", err)
			}
			if out, err := json.Marshal(tt.q); !errors.Is(err, ErrQuantity) {
				t.Errorf("as json %s, %v", out, err)
			}
			if out, err := yaml.Marshal(tt.q); !errors.Is(err, ErrQuantity) {
				t.Errorf("as yaml %s, %v", out, err)
			}
		})
	}
	if err := Single(2, "cookies").Check(); !errors.Is(err, ErrQuantity) {
		t.Errorf("an amount in cookies: %v", err)
	}
}

func TestQuantitySpellings(t *testing.T) {
	tests := []struct {
		name, yaml, json string
	}{
		{"fraction", "1 1/2 cups", `{"min":1.5,"max":1.5,"unit":"cup","about":false,"text":"1 1/2 cups"}`},
		{"plain count", "3", `{"min":3,"max":3,"unit":"","about":false,"text":"3"}`},
		{"overnight", "overnight", `{"min":8,"max":12,"unit":"hour","about":false,"text":"overnight","overnight":true}`},
		{"vague", `{vague: "several days"}`, `{"vague":"several days"}`},
		{"about", "about 225 g", `{"min":225,"max":225,"unit":"g","about":true,"text":"about 225 g"}`},
		{"sides", "9 x 13 inch", `{"min":9,"max":9,"unit":"inch","about":false,"text":"9 x 13 inch","by":[13]}`},
		{"size", "2 cans (14 oz)", `{"min":2,"max":2,"unit":"can","about":false,"text":"2 cans (14 oz)","size":{"min":14,"max":14,"unit":"oz","about":false,"text":"14 oz"}}`},
		{"typed", "1½ Tablespoons", `{"min":1.5,"max":1.5,"unit":"tbsp","about":false,"text":"1½ Tablespoons"}`},
		{"inches", `2"`, `{"min":2,"max":2,"unit":"inch","about":false,"text":"2\""}`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var fromYAML, fromJSON Quantity
			if err := yaml.Unmarshal([]byte(tt.yaml), &fromYAML); err != nil {
				t.Fatal(err)
			}
			if err := json.Unmarshal([]byte(tt.json), &fromJSON); err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(fromYAML, fromJSON); diff != "" {
				t.Errorf("the spellings differ (-yaml +json)\n%s", diff)
			}
			asJSON, err := fromYAML.MarshalJSON()
			if err != nil {
				t.Fatal(err)
			}
			if string(asJSON) != tt.json {
				t.Errorf("json %s\nwant %s", asJSON, tt.json)
			}
			asYAML, err := yaml.Marshal(fromJSON)
			if err != nil {
				t.Fatal(err)
			}
			if got := strings.TrimSpace(string(asYAML)); got != tt.yaml {
				t.Errorf("yaml %s, want %s", got, tt.yaml)
			}
		})
	}
}

func TestQuantityObjectWithoutText(t *testing.T) {
	tests := []struct{ json, want string }{
		{`{"min":0.333,"max":0.333,"unit":"cups"}`, "1/3 cup"},
		{`{"min":2,"max":2,"unit":"tins","size":"14 oz"}`, "2 cans (14 oz)"},
		{`{"overnight":true}`, "overnight"},
		{`{"text":"2 cups"}`, "2 cups"},
		{`{"min":2,"max":3}`, "2-3"},
		{`"2 cups"`, "2 cups"},
		{`3`, "3"},
	}
	for _, tt := range tests {
		var q Quantity
		if err := json.Unmarshal([]byte(tt.json), &q); err != nil {
			t.Errorf("%s: %v", tt.json, err)
			continue
		}
		if q.String() != tt.want {
			t.Errorf("%s gives %q, want %q", tt.json, q, tt.want)
		}
	}
}

func TestAcceptedQuantityNamesEveryUnit(t *testing.T) {
	for _, unit := range Units() {
		switch DimensionOf(unit) {
		case TimeDimension, TemperatureDimension:
			continue
		}
		if !strings.Contains(AcceptedQuantity, " "+unit+",") && !strings.HasSuffix(AcceptedQuantity, " "+unit) {
			t.Errorf("%q is not named in AcceptedQuantity", unit)
		}
	}
	for _, unit := range Units() {
		text := "2 " + unit
		if unit == "gas" {
			text = "gas 2"
		}
		q, err := ParseQuantity(text)
		if err != nil || q.Unit != unit {
			t.Errorf("ParseQuantity(%q) = %+v, %v", text, q, err)
		}
	}
}
