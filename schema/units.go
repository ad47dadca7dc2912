package schema

import "strings"

// Dimension is what a unit measures.
type Dimension int

// The dimensions of the units a quantity may have.
const (
	UnknownDimension     Dimension = iota // not a unit of the form: a free noun, as in a yield
	Count                                 // things: "", clove, can, bunch, pinch …
	VolumeDimension                       // cup, ml …
	MassDimension                         // g, oz …
	LengthDimension                       // inch, cm, mm
	TimeDimension                         // second … month
	TemperatureDimension                  // F, C, gas
)

// Measures names the household measures a document uses; the empty string
// means US customary.
const (
	MeasuresUS       = "us"
	MeasuresMetric   = "metric"
	MeasuresImperial = "imperial"
)

// Millilitres of the US customary measures. All follow exactly from the inch
// of 2.54 cm and the gallon of 231 cubic inches (NIST Handbook 44, Appendix C).
const (
	usGallon     = 231 * 2.54 * 2.54 * 2.54
	usQuart      = usGallon / 4
	usPint       = usGallon / 8
	usCup        = usGallon / 16
	usFluidOunce = usGallon / 128
	usTablespoon = usGallon / 256
	usTeaspoon   = usGallon / 768
)

// Millilitres of the metric household measures: common practice.
const (
	metricCup        = 250
	metricTablespoon = 15
	metricTeaspoon   = 5
)

// Millilitres of the imperial measures, from the gallon of 4.54609 L (UK
// Weights and Measures Act 1985, Schedule 1; from memory). The cup of half a
// pint and the spoons of 15 and 5 mL are common practice.
const (
	imperialGallon     = 4546.09
	imperialQuart      = imperialGallon / 4
	imperialPint       = imperialGallon / 8
	imperialCup        = imperialGallon / 16
	imperialFluidOunce = imperialGallon / 160
	imperialTablespoon = 15
	imperialTeaspoon   = 5
)

// Grams of the avoirdupois measures, exact (NIST Handbook 44, Appendix C).
const (
	poundGrams = 453.59237
	ounceGrams = poundGrams / 16
)

// unitRow is one unit of the form.
type unitRow struct {
	name      string    // canonical singular
	plural    string    // as printed for more than one
	dimension Dimension // what it measures
	decimal   bool      // parts are written 0.5, not 1/2
	size      float64   // in mL, g, cm or s; 0 for counts and temperatures
	also      []string  // other spellings of the unit, lower case
}

// unitTable holds every unit a quantity may have, in the order in which
// messages list them.
var unitTable = []unitRow{
	{"cup", "cups", VolumeDimension, false, usCup, nil},
	{"tbsp", "tbsp", VolumeDimension, false, usTablespoon, []string{"tablespoon", "tablespoons", "tbsps", "tbs", "tblsp"}},
	{"tsp", "tsp", VolumeDimension, false, usTeaspoon, []string{"teaspoon", "teaspoons", "tsps"}},
	{"fl oz", "fl oz", VolumeDimension, false, usFluidOunce, []string{"floz", "fluid oz", "fluid ounce", "fluid ounces"}},
	{"pint", "pints", VolumeDimension, false, usPint, []string{"pt", "pts"}},
	{"quart", "quarts", VolumeDimension, false, usQuart, []string{"qt", "qts"}},
	{"gallon", "gallons", VolumeDimension, false, usGallon, []string{"gal", "gals"}},
	{"oz", "oz", MassDimension, false, ounceGrams, []string{"ounce", "ounces"}},
	{"lb", "lb", MassDimension, false, poundGrams, []string{"lbs", "pound", "pounds"}},
	{"g", "g", MassDimension, true, 1, []string{"gram", "grams", "gramme", "grammes", "gm", "gms"}},
	{"kg", "kg", MassDimension, true, 1000, []string{"kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"}},
	{"ml", "ml", VolumeDimension, true, 1, []string{"mls", "millilitre", "millilitres", "milliliter", "milliliters"}},
	{"l", "l", VolumeDimension, true, 1000, []string{"litre", "litres", "liter", "liters"}},
	{"stick", "sticks", Count, false, 0, nil},
	{"can", "cans", Count, false, 0, []string{"tin", "tins"}},
	{"jar", "jars", Count, false, 0, nil},
	{"packet", "packets", Count, false, 0, []string{"pack", "packs", "package", "packages", "sachet", "sachets", "pkg", "pkgs", "pkt", "pkts"}},
	{"clove", "cloves", Count, false, 0, nil},
	{"slice", "slices", Count, false, 0, nil},
	{"bunch", "bunches", Count, false, 0, nil},
	{"sprig", "sprigs", Count, false, 0, nil},
	{"head", "heads", Count, false, 0, nil},
	{"stalk", "stalks", Count, false, 0, nil},
	{"leaf", "leaves", Count, false, 0, nil},
	{"pinch", "pinches", Count, false, 0, nil},
	{"dash", "dashes", Count, false, 0, nil},
	{"drop", "drops", Count, false, 0, nil},
	{"handful", "handfuls", Count, false, 0, []string{"handsful"}},
	{"knob", "knobs", Count, false, 0, nil},
	{"sheet", "sheets", Count, false, 0, nil},
	{"piece", "pieces", Count, false, 0, nil},
	{"inch", "inches", LengthDimension, false, 2.54, []string{"in", "ins", `"`}},
	{"cm", "cm", LengthDimension, true, 1, []string{"cms", "centimetre", "centimetres", "centimeter", "centimeters"}},
	{"mm", "mm", LengthDimension, true, 0.1, []string{"mms", "millimetre", "millimetres", "millimeter", "millimeters"}},
	{"second", "seconds", TimeDimension, false, 1, []string{"sec", "secs"}},
	{"minute", "minutes", TimeDimension, false, 60, []string{"min", "mins"}},
	{"hour", "hours", TimeDimension, false, 3600, []string{"hr", "hrs"}},
	{"day", "days", TimeDimension, false, 86400, nil},
	{"week", "weeks", TimeDimension, false, 7 * 86400, []string{"wk", "wks"}},
	{"month", "months", TimeDimension, false, 30 * 86400, nil},
	{"F", "F", TemperatureDimension, true, 0, []string{"° f", "fahrenheit", "degree f", "degrees f", "deg f", "degree fahrenheit", "degrees fahrenheit", "° fahrenheit"}},
	{"C", "C", TemperatureDimension, true, 0, []string{
		"° c", "celsius", "centigrade", "degree c", "degrees c", "deg c", "degree celsius", "degrees celsius", "° celsius", "degree centigrade", "degrees centigrade"}},
	{"gas", "gas", TemperatureDimension, false, 0, nil},
}

// unitByName finds a unit by its canonical name; unitBySpelling by any
// spelling, lower case.
var unitByName, unitBySpelling = indexUnits()

func indexUnits() (names, spellings map[string]*unitRow) {
	names = make(map[string]*unitRow, len(unitTable))
	spellings = make(map[string]*unitRow, 5*len(unitTable))
	for i := range unitTable {
		row := &unitTable[i]
		names[row.name] = row
		spellings[row.name] = row
		spellings[row.plural] = row
		for _, s := range row.also {
			spellings[s] = row
		}
	}
	// A bare "C" is a temperature and a bare "c" may be a cup: only the
	// capital is read. "F" has no rival, so either case is.
	spellings["f"] = names["F"]
	return names, spellings
}

// spelledUnit finds the unit a person wrote, nil when it is none.
func spelledUnit(s string) *unitRow {
	if row := unitBySpelling[s]; row != nil {
		return row
	}
	low := strings.ToLower(s)
	if low == "c" || low == "t" {
		return nil
	}
	return unitBySpelling[low]
}

// sameWord reports the unit that word is only the plural or abbreviation of:
// "slices" for slice, "litres" for l, but not "tins" for can. A yield's noun is
// read with it, because a yield keeps the words that were said.
func sameWord(word string) *unitRow {
	row := spelledUnit(word)
	if row == nil || row.dimension != Count || strings.EqualFold(row.name, word) || strings.EqualFold(row.plural, word) {
		return row
	}
	return nil
}

// Units lists the canonical names of the units a quantity may have, in the
// order of the form. A plain count has the unit "" and is not in the list.
func Units() []string {
	names := make([]string, len(unitTable))
	for i, row := range unitTable {
		names[i] = row.name
	}
	return names
}

// CanonicalUnit gives the form's name of a unit in any spelling it is read in
// ("tablespoons" gives "tbsp"); ok is false when it is none. The empty string
// is the unit of a plain count.
func CanonicalUnit(spelling string) (name string, ok bool) {
	if spelling == "" {
		return "", true
	}
	if row := spelledUnit(strings.Join(strings.Fields(spelling), " ")); row != nil {
		return row.name, true
	}
	return "", false
}

// DimensionOf tells what a canonical unit measures. A plain count ("") is a
// Count; a free noun is UnknownDimension.
func DimensionOf(unit string) Dimension {
	if unit == "" {
		return Count
	}
	if row := unitByName[unit]; row != nil {
		return row.dimension
	}
	return UnknownDimension
}

func sized(unit string, d Dimension) (float64, bool) {
	row := unitByName[unit]
	if row == nil || row.dimension != d {
		return 0, false
	}
	return row.size, true
}

// Volume gives the millilitres of one canonical unit in US customary measures
// (exact from the inch; NIST Handbook 44, Appendix C); ok is false for a unit
// that is no volume.
func Volume(unit string) (ml float64, ok bool) { return sized(unit, VolumeDimension) }

// VolumeIn gives the millilitres of one canonical unit in the measures a
// document names: "us" or "", "metric" (cup 250 mL, tbsp 15 mL, tsp 5 mL, the
// rest as in the US) or "imperial". ok is false for a unit that is no volume
// and for measures that are none of these.
func VolumeIn(unit, measures string) (ml float64, ok bool) {
	us, ok := Volume(unit)
	if !ok {
		return 0, false
	}
	switch measures {
	case "", MeasuresUS:
		return us, true
	case MeasuresMetric:
		switch unit {
		case "cup":
			return metricCup, true
		case "tbsp":
			return metricTablespoon, true
		case "tsp":
			return metricTeaspoon, true
		}
		return us, true
	case MeasuresImperial:
		switch unit {
		case "cup":
			return imperialCup, true
		case "tbsp":
			return imperialTablespoon, true
		case "tsp":
			return imperialTeaspoon, true
		case "fl oz":
			return imperialFluidOunce, true
		case "pint":
			return imperialPint, true
		case "quart":
			return imperialQuart, true
		case "gallon":
			return imperialGallon, true
		}
		return us, true
	}
	return 0, false
}

// Mass gives the grams of one canonical unit (exact; NIST Handbook 44,
// Appendix C); ok is false for a unit that is no mass.
func Mass(unit string) (g float64, ok bool) { return sized(unit, MassDimension) }

// Seconds gives the seconds of one canonical unit of time; a month counts as
// 30 days (common practice). ok is false for a unit that is no time.
func Seconds(unit string) (s float64, ok bool) { return sized(unit, TimeDimension) }

// Centimetres gives the centimetres of one canonical unit of length (1 inch is
// exactly 2.54 cm); ok is false for a unit that is no length.
func Centimetres(unit string) (cm float64, ok bool) { return sized(unit, LengthDimension) }

// FahrenheitToCelsius converts a temperature, C = (F - 32) / 1.8 (NIST SP 811).
func FahrenheitToCelsius(f float64) float64 { return (f - 32) / 1.8 }

// CelsiusToFahrenheit converts a temperature, F = 1.8 C + 32 (NIST SP 811).
func CelsiusToFahrenheit(c float64) float64 { return 1.8*c + 32 }

// GasMark gives the degrees Fahrenheit of a gas mark: 250 + 25 n for marks 1
// to 9, 250 for 1/2 and 225 for 1/4 (common practice). ok is false for any
// other mark.
func GasMark(mark float64) (f float64, ok bool) {
	switch {
	case mark == 0.25:
		return 225, true
	case mark == 0.5:
		return 250, true
	case mark >= 1 && mark <= 9:
		return 250 + 25*mark, true
	}
	return 0, false
}

// Fahrenheit gives a value in a canonical unit of temperature in degrees
// Fahrenheit; ok is false for another unit and for a gas mark there is none of.
func Fahrenheit(value float64, unit string) (f float64, ok bool) {
	switch unit {
	case "F":
		return value, true
	case "C":
		return CelsiusToFahrenheit(value), true
	case "gas":
		return GasMark(value)
	}
	return 0, false
}
