package schema

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// missing skips a test that needs something this machine doesn't have; where
// everything must be there, it fails.
func missing(t *testing.T, wanted string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("missing: %s", wanted)
	}
	t.Skipf("wanted: %s", wanted)
}

// gnuUnits converts with GNU units, the outside source of these tests.
func gnuUnits(t *testing.T, have, want string) float64 {
	t.Helper()
	out, err := exec.Command("units", "--terse", "--output-format", "%.15g", have, want).CombinedOutput()
	if err != nil {
		t.Fatalf("units %q %q: %v: %s", have, want, err, out)
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	if err != nil {
		t.Fatalf("units %q %q: %q", have, want, out)
	}
	return v
}

func within(a, b, relative float64) bool {
	return math.Abs(a-b) <= relative*math.Max(math.Abs(a), math.Abs(b))
}

// TestUnitsAgainstGNUUnits compares every factor with GNU units (Debian package
// units).
func TestUnitsAgainstGNUUnits(t *testing.T) {
	if _, err := exec.LookPath("units"); err != nil {
		missing(t, "GNU units (Debian package units)")
	}
	factors := []struct {
		kind string
		give func(string) (float64, bool)
		into string
		have map[string]string // our unit -> GNU units' name of it
	}{
		{"volume", Volume, "ml", map[string]string{
			"cup": "uscup", "tbsp": "ustablespoon", "tsp": "usteaspoon", "fl oz": "usfloz", "pint": "uspint", "quart": "usquart",
			"gallon": "usgallon", "ml": "ml", "l": "liter",
		}},
		{"imperial volume", func(u string) (float64, bool) { return VolumeIn(u, MeasuresImperial) }, "ml", map[string]string{
			"cup": "brcup", "tbsp": "brtablespoon", "tsp": "brteaspoon", "fl oz": "brfloz", "pint": "brpint", "quart": "brquart",
			"gallon": "brgallon", "ml": "ml", "l": "liter",
		}},
		{"metric volume", func(u string) (float64, bool) { return VolumeIn(u, MeasuresMetric) }, "ml", map[string]string{
			"cup": "metriccup", "fl oz": "usfloz", "pint": "uspint", "l": "liter",
		}},
		{"mass", Mass, "gram", map[string]string{"oz": "ounce", "lb": "pound", "g": "gram", "kg": "kilogram"}},
		{"time", Seconds, "second", map[string]string{"second": "second", "minute": "minute", "hour": "hour", "day": "day", "week": "week", "month": "30 day"}},
		{"length", Centimetres, "cm", map[string]string{"inch": "inch", "cm": "cm", "mm": "mm"}},
	}
	compared := map[string]bool{}
	for _, f := range factors {
		for unit, have := range f.have {
			got, ok := f.give(unit)
			want := gnuUnits(t, have, f.into)
			if !ok || !within(got, want, 1e-12) {
				t.Errorf("%s of 1 %s: %v, GNU units has %v %s", f.kind, unit, got, want, f.into)
			}
			compared[unit] = true
		}
	}
	for _, row := range unitTable {
		if row.size > 0 && !compared[row.name] {
			t.Errorf("%s is not compared", row.name)
		}
	}
	for _, f := range []float64{-40, 0, 32, 145, 165, 212, 350, 425, 500} {
		if got, want := FahrenheitToCelsius(f), gnuUnits(t, fmt.Sprintf("tempF(%v)", f), "tempC"); math.Abs(got-want) > 1e-9 {
			t.Errorf("%v F is %v C, GNU units has %v", f, got, want)
		}
		if got, want := CelsiusToFahrenheit(f), gnuUnits(t, fmt.Sprintf("tempC(%v)", f), "tempF"); math.Abs(got-want) > 1e-9 {
			t.Errorf("%v C is %v F, GNU units has %v", f, got, want)
		}
	}
	for _, mark := range []float64{0.25, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9} {
		got, ok := GasMark(mark)
		if want := gnuUnits(t, fmt.Sprintf("gasmark(%v)", mark), "tempF"); !ok || math.Abs(got-want) > 1 {
			t.Errorf("gas %v is %v F, GNU units has %v", mark, got, want)
		}
	}
}

// TestUnitsAgainstHandbook compares with the rounded figures of NIST Handbook
// 44, Appendix C.
func TestUnitsAgainstHandbook(t *testing.T) {
	for unit, want := range map[string]float64{
		"tsp": 4.92892, "tbsp": 14.7868, "fl oz": 29.5735, "cup": 236.588, "pint": 473.176, "quart": 946.353, "gallon": 3785.41,
	} {
		if got, ok := Volume(unit); !ok || !within(got, want, 5e-6) {
			t.Errorf("1 %s is %v mL, the handbook has %v", unit, got, want)
		}
	}
	if g, ok := Mass("oz"); !ok || g != 28.349523125 {
		t.Errorf("1 oz is %v g", g)
	}
	if g, ok := Mass("lb"); !ok || g != 453.59237 {
		t.Errorf("1 lb is %v g", g)
	}
}

func TestMeasures(t *testing.T) {
	for _, tt := range []struct {
		unit, measures string
		want           float64
	}{
		{"cup", "metric", 250}, {"tbsp", "metric", 15}, {"tsp", "metric", 5},
		{"tbsp", "imperial", 15}, {"cup", "imperial", 284.130625}, {"pint", "imperial", 568.26125},
		{"ml", "imperial", 1}, {"l", "metric", 1000},
	} {
		if got, ok := VolumeIn(tt.unit, tt.measures); !ok || !within(got, tt.want, 1e-12) {
			t.Errorf("%s %s: %v, want %v", tt.measures, tt.unit, got, tt.want)
		}
	}
	us, _ := Volume("cup")
	for _, measures := range []string{"", "us"} {
		if got, ok := VolumeIn("cup", measures); !ok || got != us {
			t.Errorf("%q cup: %v", measures, got)
		}
	}
	if _, ok := VolumeIn("cup", "martian"); ok {
		t.Error("measures that nobody has")
	}
}

func TestUnitsOfAnotherKind(t *testing.T) {
	gives := map[string]func(string) (float64, bool){"volume": Volume, "mass": Mass, "time": Seconds, "length": Centimetres}
	of := map[string]Dimension{"volume": VolumeDimension, "mass": MassDimension, "time": TimeDimension, "length": LengthDimension}
	for kind, give := range gives {
		for _, unit := range append(Units(), "", "cookies", "cups") {
			if _, ok := give(unit); ok != (DimensionOf(unit) == of[kind]) {
				t.Errorf("%q as %s: %v", unit, kind, ok)
			}
		}
	}
	for _, mark := range []float64{0, 0.75, 10, -1, math.NaN()} {
		if _, ok := GasMark(mark); ok {
			t.Errorf("gas %v", mark)
		}
	}
	for _, tt := range []struct {
		value float64
		unit  string
		want  float64
		ok    bool
	}{{350, "F", 350, true}, {100, "C", 212, true}, {4, "gas", 350, true}, {12, "gas", 0, false}, {4, "cup", 0, false}} {
		if got, ok := Fahrenheit(tt.value, tt.unit); ok != tt.ok || math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("Fahrenheit(%v, %q) = %v, %v", tt.value, tt.unit, got, ok)
		}
	}
}

func TestCanonicalUnit(t *testing.T) {
	for spelling, want := range map[string]string{
		"": "", "Tablespoons": "tbsp", "grammes": "g", "fluid  ounces": "fl oz", "tins": "can", "°F": "", "degrees C": "C", "F": "F", "C": "C", "L": "l", "leaves": "leaf",
	} {
		got, ok := CanonicalUnit(spelling)
		if spelling == "°F" {
			if ok {
				t.Errorf("%q is a number's neighbour, not a unit by itself: %q", spelling, got)
			}
			continue
		}
		if !ok || got != want {
			t.Errorf("CanonicalUnit(%q) = %q, %v", spelling, got, ok)
		}
	}
	for _, spelling := range []string{"c", "T", "t", "cookies", "cuups"} {
		if got, ok := CanonicalUnit(spelling); ok {
			t.Errorf("CanonicalUnit(%q) = %q", spelling, got)
		}
	}
	spelled := map[string]string{}
	for _, row := range unitTable {
		for _, s := range append([]string{row.name, row.plural}, row.also...) {
			if other, ok := spelled[strings.ToLower(s)]; ok && other != row.name {
				t.Errorf("%q is both %s and %s", s, other, row.name)
			}
			spelled[strings.ToLower(s)] = row.name
		}
	}
}
