package schema

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Quantity is one value with two spellings: text in YAML ("1 1/2 cups"), an
// object in JSON. Either is read in either format.
//
// Numbers are in Unit. A number within 0.004 of a half, third, quarter, sixth
// or eighth is printed as that fraction, except in metric units and degrees.
type Quantity struct {
	Min       float64   // smallest value, in Unit; equal to Max for a single value
	Max       float64   // largest value, in Unit
	By        []float64 // further sides of a size: 9 x 13 inch has Min = Max = 9 and By = [13]
	Unit      string    // canonical singular unit; "" for a plain count; for a yield the thing made ("cookies")
	About     bool      // "about 2 cups"
	Overnight bool      // 8-12 hours, said as "overnight" (common practice)
	Vague     string    // words where no number was said ("several days"); Min and Max are then 0
	Size      *Quantity // of each container: 2 cans (14 oz)
	Text      string    // the written form as a person typed it; empty means: write it from the other fields
}

// ErrQuantity is wrapped by every error about a quantity that cannot be read
// or written.
var ErrQuantity = errors.New("not a quantity")

// QuantityError says why a quantity cannot be read or written. It wraps
// ErrQuantity.
type QuantityError struct {
	Text     string // as typed; "" where the quantity was an object or a Go value
	Reason   string // what is wrong with it
	Accepted string // what can stand there instead
}

// Error shows the text, the reason and what is accepted.
func (e *QuantityError) Error() string {
	s := ErrQuantity.Error() + ": "
	if e.Text != "" {
		s += strconv.Quote(shorten(e.Text)) + ": "
	}
	s += e.Reason
	if e.Accepted != "" {
		s += "; accepted: " + e.Accepted
	}
	return s
}

// Unwrap gives ErrQuantity.
func (e *QuantityError) Unwrap() error { return ErrQuantity }

// AcceptedQuantity says in words what ParseQuantity reads, for messages.
const AcceptedQuantity = `a number with a unit ("1 1/2 cups", "2-3 cloves", "about 225 g", "2 cans (14 oz)", "3"), ` +
	`a time ("10-15 minutes", "overnight"), a temperature ("350 F", "180 C", "gas 4") or a size ("1/4 inch", "9 x 13 inch"); ` +
	`the units are cup, tbsp, tsp, fl oz, pint, quart, gallon, oz, lb, g, kg, ml, l, inch, cm, mm, ` +
	`stick, can, jar, packet, clove, slice, bunch, sprig, head, stalk, leaf, pinch, dash, drop, handful, knob, sheet, piece`

// AcceptedYield says in words what ParseYield reads, for messages.
const AcceptedYield = `a number and what is made ("24 cookies", "4-6 servings", "1 loaf")`

// Overnight is 8 to 12 hours: common practice.
const (
	overnightMin = 8
	overnightMax = 12
)

// The largest number a quantity may have, and how far a number may be from a
// fraction to be printed as it.
const (
	largestNumber = 1e9
	fractionSlack = 0.004
)

// fractions are those a quantity is printed with, smallest first.
var fractions = []struct {
	value float64
	text  string
}{
	{1.0 / 8, "1/8"}, {1.0 / 6, "1/6"}, {1.0 / 4, "1/4"}, {1.0 / 3, "1/3"}, {3.0 / 8, "3/8"}, {1.0 / 2, "1/2"},
	{5.0 / 8, "5/8"}, {2.0 / 3, "2/3"}, {3.0 / 4, "3/4"}, {5.0 / 6, "5/6"}, {7.0 / 8, "7/8"},
}

// Single gives the quantity of one value in a canonical unit.
func Single(value float64, unit string) Quantity {
	return Quantity{Min: value, Max: value, Unit: unit}
}

// Between gives the quantity of a range in a canonical unit.
func Between(least, most float64, unit string) Quantity {
	return Quantity{Min: least, Max: most, Unit: unit}
}

// OvernightTime gives the time said as "overnight": 8 to 12 hours (common
// practice).
func OvernightTime() Quantity {
	return Quantity{Min: overnightMin, Max: overnightMax, Unit: "hour", Overnight: true}
}

// VagueQuantity gives the quantity of which only words were said.
func VagueQuantity(words string) Quantity { return Quantity{Vague: words} }

// Equal reports whether two quantities say the same, whatever their text.
// Numbers are equal when they are printed alike.
func (q Quantity) Equal(other Quantity) bool {
	return q.canonical().sameFields(other.canonical(), 0)
}

// String gives the written form: the text a person typed where it still says
// what the fields say, else the canonical text ("1 1/2 cups"). A vague quantity
// gives its words.
func (q Quantity) String() string {
	settled := q.settle()
	if settled.Text != "" {
		return settled.Text
	}
	return settled.write()
}

// Check returns an error wrapping ErrQuantity when the fields cannot be written
// as an amount, time, temperature or size: a unit that isn't one of the form,
// a number below zero, a range that runs backwards.
func (q Quantity) Check() error { return q.check(asAmount) }

// CheckYield is Check for a yield, whose unit is a free noun.
func (q Quantity) CheckYield() error { return q.check(asYield) }

// role is what a quantity is read or written as: an amount (or time,
// temperature, length) has a unit of the form, a yield a free noun. A quantity
// by itself, outside a document, may be either.
type role int

const (
	asAmount role = iota
	asYield
	asEither
)

func (r role) accepted() string {
	if r == asYield {
		return AcceptedYield
	}
	return AcceptedQuantity
}

func (q Quantity) check(as role) error {
	fail := func(format string, args ...any) error {
		return &QuantityError{Reason: fmt.Sprintf(format, args...), Accepted: as.accepted()}
	}
	if q.Vague != "" {
		if q.Min != 0 || q.Max != 0 || q.Unit != "" || q.Size != nil || len(q.By) > 0 || q.Overnight || q.About {
			return fail("the vague words %q stand beside a number; give one or the other", q.Vague)
		}
		return nil
	}
	if q.Overnight && (q.About || q.Size != nil || len(q.By) > 0) {
		return fail("overnight stands alone: 8 to 12 hours")
	}
	q = q.canonical()
	dim := DimensionOf(q.Unit)
	if dim == UnknownDimension && as == asAmount {
		return fail("%q is not a unit", q.Unit)
	}
	if as == asYield && (dim == TimeDimension || dim == TemperatureDimension) {
		return fail("%q is nothing a recipe makes", q.Unit)
	}
	if dim == UnknownDimension {
		back, reason := read("2 "+q.Unit, true)
		if reason != "" || back.Unit != q.Unit || back.Min != 2 || back.Max != 2 || back.About {
			return fail("%q does not read as a thing made", q.Unit)
		}
	}
	degrees := q.Unit == "F" || q.Unit == "C"
	for _, v := range append([]float64{q.Min, q.Max}, q.By...) {
		if math.IsNaN(v) || math.Abs(v) > largestNumber {
			return fail("%v is no number a quantity can have; accepted: up to %.0f", v, float64(largestNumber))
		}
		if v < 0 && !degrees {
			return fail("%v is below zero; only F and C go below", v)
		}
	}
	if q.Min > q.Max {
		return fail("the range %s to %s runs backwards; put the smaller number first", writeNumber(q.Min, q.Unit), writeNumber(q.Max, q.Unit))
	}
	if len(q.By) > 0 {
		switch {
		case q.Min != q.Max:
			return fail("a size of several sides cannot be a range")
		case len(q.By) > maxFurtherSides:
			return fail("a size has at most %d sides", maxFurtherSides+1)
		case q.Unit != "" && dim != LengthDimension:
			return fail("a size of several sides is in inch, cm or mm, not %q", q.Unit)
		}
	}
	if q.Size != nil {
		s := *q.Size
		switch {
		case dim != Count || len(q.By) > 0:
			return fail("only counted things (cans, packets, pieces) have a size in brackets; put a second measure of the same amount in second_amount")
		case s.Size != nil || s.Vague != "" || s.Overnight || s.Unit == "":
			return fail("the size of each thing is a single measure, as in 2 cans (14 oz)")
		}
		switch DimensionOf(s.canonical().Unit) {
		case VolumeDimension, MassDimension, LengthDimension:
		default:
			return fail("the size of each thing is a weight, a volume or a length, not %q", s.Unit)
		}
		return s.check(asAmount)
	}
	return nil
}

// maxFurtherSides is the number of sides after the first: a box has three.
const maxFurtherSides = 2

// canonical gives q with its unit in the form's spelling, its overnight hours
// filled in and every number as it is printed. Text is dropped.
func (q Quantity) canonical() Quantity {
	q.Text = ""
	if q.Vague != "" {
		q.Vague = strings.Join(strings.Fields(q.Vague), " ")
		return q
	}
	if q.Overnight {
		q.Min, q.Max, q.Unit = overnightMin, overnightMax, "hour"
	}
	if row := sameWord(q.Unit); row != nil {
		q.Unit = row.name
	} else {
		q.Unit = strings.Join(strings.Fields(q.Unit), " ")
	}
	q.Min, q.Max = printed(q.Min, q.Unit), printed(q.Max, q.Unit)
	if len(q.By) > 0 {
		by := make([]float64, len(q.By))
		for i, v := range q.By {
			by[i] = printed(v, q.Unit)
		}
		q.By = by
	} else {
		q.By = nil
	}
	if q.Size != nil {
		size := q.Size.canonical()
		q.Size = &size
	}
	return q
}

// settle gives q as it is saved: with the text a person typed when it says what
// the fields say, else with none and with the numbers its canonical text has.
// So what is written reads back the same.
func (q Quantity) settle() Quantity {
	text := strings.TrimSpace(q.Text)
	if text != "" && q.Vague == "" {
		for _, read := range []func(string) (Quantity, error){ParseQuantity, ParseYield} {
			typed, err := read(text)
			if err == nil && typed.sameFields(q, fractionSlack) {
				return typed
			}
		}
	}
	return q.canonical()
}

// sameFields compares everything but text; numbers may differ by slack, and
// with any slack by no more than about one part in a hundred.
func (q Quantity) sameFields(o Quantity, slack float64) bool {
	near := func(a, b float64) bool {
		return a == b || math.Abs(a-b) <= math.Min(slack, 0.0101*math.Max(math.Abs(a), math.Abs(b)))
	}
	if !near(q.Min, o.Min) || !near(q.Max, o.Max) || len(q.By) != len(o.By) || q.Unit != o.Unit ||
		q.About != o.About || q.Overnight != o.Overnight || q.Vague != o.Vague || (q.Size == nil) != (o.Size == nil) {
		return false
	}
	for i := range q.By {
		if !near(q.By[i], o.By[i]) {
			return false
		}
	}
	return q.Size == nil || q.Size.sameFields(*o.Size, slack)
}

// write gives the canonical text of a canonical quantity.
func (q Quantity) write() string {
	if q.Vague != "" {
		return q.Vague
	}
	if q.Overnight {
		return "overnight"
	}
	var b strings.Builder
	if q.About {
		b.WriteString("about ")
	}
	if q.Unit == "gas" {
		b.WriteString("gas ")
	}
	switch {
	case len(q.By) > 0:
		b.WriteString(writeNumber(q.Min, q.Unit))
		for _, side := range q.By {
			b.WriteString(" x ")
			b.WriteString(writeNumber(side, q.Unit))
		}
	case q.Min == q.Max:
		b.WriteString(writeNumber(q.Min, q.Unit))
	case q.Min == 0 && q.Unit != "F" && q.Unit != "C" && q.Unit != "gas":
		b.WriteString("up to ")
		b.WriteString(writeNumber(q.Max, q.Unit))
	default:
		b.WriteString(writeNumber(q.Min, q.Unit))
		if q.Min < 0 {
			b.WriteString(" to ")
		} else {
			b.WriteString("-")
		}
		b.WriteString(writeNumber(q.Max, q.Unit))
	}
	if q.Unit != "" && q.Unit != "gas" {
		b.WriteString(" ")
		b.WriteString(pluralUnit(q.Unit, q.Max, len(q.By) > 0))
	}
	if q.Size != nil {
		b.WriteString(" (")
		b.WriteString(q.Size.write())
		b.WriteString(")")
	}
	return b.String()
}

// pluralUnit gives the unit as it stands after a number: "cups" after more than
// one and after none, the singular after the sides of a size, a free noun as it is.
func pluralUnit(unit string, value float64, sides bool) string {
	if row := unitByName[unit]; row != nil && (value > 1 || value == 0) && !sides {
		return row.plural
	}
	return unit
}

// numberDecimals is how many decimals a number that is no fraction keeps.
const numberDecimals = 6

// asFraction splits a number into its whole part and a printed fraction; ok is
// false when it is written with decimals or is whole.
func asFraction(v float64, unit string) (whole float64, f int, ok bool) {
	if row := unitByName[unit]; row != nil && row.decimal {
		return 0, 0, false
	}
	if v <= 0 || v >= largestNumber {
		return 0, 0, false
	}
	whole = math.Floor(v)
	rest := v - whole
	best, bestGap := -1, fractionSlack
	for i := range fractions {
		if gap := math.Abs(rest - fractions[i].value); gap <= bestGap {
			best, bestGap = i, gap
		}
	}
	return whole, best, best >= 0
}

// writeNumber gives a number as text: "1 1/2", "0.2", "225".
func writeNumber(v float64, unit string) string {
	if whole, f, ok := asFraction(v, unit); ok {
		if whole == 0 {
			return fractions[f].text
		}
		return strconv.FormatFloat(whole, 'f', 0, 64) + " " + fractions[f].text
	}
	s := strconv.FormatFloat(v, 'f', numberDecimals, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" || s == "" {
		return "0"
	}
	return s
}

// printed gives the number that the printed text of v reads back as.
func printed(v float64, unit string) float64 {
	if math.IsNaN(v) || math.Abs(v) > largestNumber {
		return v
	}
	if whole, f, ok := asFraction(v, unit); ok {
		return whole + fractions[f].value
	}
	if v == math.Trunc(v) {
		return v + 0 // as written; and no nought below nought
	}
	back, err := strconv.ParseFloat(writeNumber(v, unit), 64)
	if err != nil {
		return v
	}
	return back
}
