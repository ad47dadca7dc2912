package publish

import (
	"math"
	"strconv"
	"strings"

	"quern/schema"
)

// hand is how figures are set: rich for pages (1½, 2–3), plain for text files
// that may be read anywhere (1 1/2, 2-3).
type hand bool

const (
	rich  hand = true
	plain hand = false
)

// dash stands between the ends of a range.
func (h hand) dash() string {
	if h == rich {
		return "–"
	}
	return "-"
}

// times stands between the sides of a size.
func (h hand) times() string {
	if h == rich {
		return "×"
	}
	return "x"
}

// fractions are the ones written as such, in both hands. Sixteenths and the
// like are written as decimals.
var fractions = []struct {
	value       float64
	rich, plain string
}{
	{1.0 / 8, "⅛", "1/8"}, {1.0 / 6, "⅙", "1/6"}, {1.0 / 5, "⅕", "1/5"}, {1.0 / 4, "¼", "1/4"}, {1.0 / 3, "⅓", "1/3"}, {3.0 / 8, "⅜", "3/8"},
	{2.0 / 5, "⅖", "2/5"}, {1.0 / 2, "½", "1/2"}, {3.0 / 5, "⅗", "3/5"}, {5.0 / 8, "⅝", "5/8"}, {2.0 / 3, "⅔", "2/3"}, {3.0 / 4, "¾", "3/4"},
	{4.0 / 5, "⅘", "4/5"}, {5.0 / 6, "⅚", "5/6"}, {7.0 / 8, "⅞", "7/8"},
}

// number writes a figure with a proper fraction where it is one to within
// 0.004, and otherwise with at most two decimals.
func number(v float64, h hand) string {
	whole := math.Floor(v)
	part := v - whole
	for _, f := range fractions {
		if math.Abs(part-f.value) > 0.004 {
			continue
		}
		switch {
		case whole == 0 && h == rich:
			return f.rich
		case whole == 0:
			return f.plain
		case h == rich:
			return strconv.FormatFloat(whole, 'f', 0, 64) + f.rich
		}
		return strconv.FormatFloat(whole, 'f', 0, 64) + " " + f.plain
	}
	return decimal(v)
}

// decimal writes a figure with at most two decimals, and with as many as it
// takes not to print a small figure as nothing.
func decimal(v float64) string {
	places := 2
	if a := math.Abs(v); a > 0 && a < 0.005 {
		places = 5
	}
	s := strconv.FormatFloat(v, 'f', places, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" || s == "" {
		return "0"
	}
	return s
}

// metric units are written with decimals; nobody weighs 1/3 g.
func metric(unit string) bool {
	switch unit {
	case "g", "kg", "ml", "l", "cm", "mm":
		return true
	}
	return false
}

// unitName is how a unit is written beside a number.
func unitName(unit string, several bool) string {
	switch unit {
	case "":
		return ""
	case "g", "kg", "ml", "l", "cm", "mm", "tbsp", "tsp", "oz", "lb", "fl oz":
		return unit
	case "F", "C":
		return "°" + unit
	case "inch":
		if several {
			return "inches"
		}
		return unit
	case "leaf":
		if several {
			return "leaves"
		}
		return unit
	case "pinch", "dash", "bunch":
		if several {
			return unit + "es"
		}
		return unit
	case "cup", "pint", "quart", "gallon", "stick", "can", "jar", "packet", "clove", "slice", "sprig", "head", "stalk", "drop", "handful", "knob",
		"sheet", "piece", "second", "minute", "hour", "day", "week", "month":
		if several {
			return unit + "s"
		}
		return unit
	}
	return clean(unit) // a yield's noun is written as it was said
}

// write sets a quantity in words and figures; "" for nil.
func write(q *schema.Quantity, h hand) string {
	if q == nil {
		return ""
	}
	if q.Vague != "" {
		return clean(q.Vague)
	}
	if q.Overnight {
		return "overnight"
	}
	set := number
	if metric(q.Unit) || q.Unit == "F" || q.Unit == "C" || q.Unit == "gas" {
		set = func(v float64, _ hand) string { return decimal(v) }
	}
	out := set(q.Min, h)
	if q.Max > q.Min {
		// A dash between mixed fractions ("1 1/2-2 1/4") is hard to read.
		if second := set(q.Max, h); strings.Contains(out+second, "/") {
			out += " to " + second
		} else {
			out += h.dash() + second
		}
	}
	for _, side := range q.By {
		out += " " + h.times() + " " + set(side, h)
	}
	if q.Unit == "gas" {
		out = "gas " + out
	} else if name := unitName(q.Unit, q.Max > 1); name != "" {
		if len(q.By) > 0 && q.Unit == "inch" {
			name = "inch" // a 9 × 13 inch tin
		}
		out += " " + name
	}
	if q.Size != nil {
		out += " (" + write(q.Size, h) + ")"
	}
	if q.About {
		out = "about " + out
	}
	return out
}

// plural gives a yield's noun the number it counts. Only a noun whose number
// changed by scaling is touched, since the cook's own word is best.
func plural(noun string, several bool) string {
	noun = clean(noun)
	first, last := "", noun
	if i := strings.LastIndex(noun, " "); i >= 0 {
		first, last = noun[:i+1], noun[i+1:]
	}
	low := strings.ToLower(last)
	pairs := [][2]string{{"loaf", "loaves"}, {"half", "halves"}, {"person", "people"}, {"leaf", "leaves"}, {"potato", "potatoes"}, {"tomato", "tomatoes"},
		{"pie", "pies"}, {"cookie", "cookies"}, {"brownie", "brownies"}, {"smoothie", "smoothies"}, {"slice", "slices"}, {"glass", "glasses"}}
	for _, p := range pairs {
		if several && low == p[0] {
			return first + p[1]
		}
		if !several && low == p[1] {
			return first + p[0]
		}
	}
	if several {
		switch {
		case low == "" || strings.HasSuffix(low, "s") || low == "people" || low == "fish":
			return noun
		case strings.HasSuffix(low, "ch"), strings.HasSuffix(low, "sh"), strings.HasSuffix(low, "x"):
			return noun + "es"
		case strings.HasSuffix(low, "y") && len(low) > 1 && !strings.ContainsAny(low[len(low)-2:len(low)-1], "aeiou"):
			return noun[:len(noun)-1] + "ies"
		}
		return noun + "s"
	}
	switch {
	case strings.HasSuffix(low, "ies") && len(low) > 4:
		return noun[:len(noun)-3] + "y"
	case strings.HasSuffix(low, "ches"), strings.HasSuffix(low, "shes"), strings.HasSuffix(low, "xes"), strings.HasSuffix(low, "sses"):
		return noun[:len(noun)-2]
	case strings.HasSuffix(low, "s") && !strings.HasSuffix(low, "ss"):
		return noun[:len(noun)-1]
	}
	return noun
}
