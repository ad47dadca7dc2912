package nutrition

import (
	"fmt"
	"math"
	"strconv"
)

// Rounding is how a label rounds a figure.
type Rounding int

// The roundings of 21 CFR 101.9(c) (FDA, Guide to NLEA requirements, Attachment
// 7). Sodium and cholesterol are milligrams, the others grams or kcal.
const (
	RoundEnergy      Rounding = iota // below 5 kcal 0, to 50 nearest 5, above nearest 10
	RoundFat                         // fat and saturated fat: below 0.5 g 0, below 5 g nearest 0.5, else nearest 1
	RoundCholesterol                 // below 2 mg 0, 2 to 5 mg "less than 5", else nearest 5
	RoundSodium                      // below 5 mg 0, 5 to 140 mg nearest 5, above nearest 10
	RoundCarbs                       // carbohydrate, fibre, sugars and protein: below 0.5 g 0, below 1 g "less than 1", else nearest 1
)

// RoundLabel writes a figure as a label prints it, without its unit.
func RoundLabel(v float64, by Rounding) string {
	if math.IsNaN(v) || v < 0 || math.IsInf(v, 0) {
		return "?"
	}
	nearest := func(step float64) string {
		return strconv.FormatFloat(math.Floor(v/step+0.5)*step, 'f', -1, 64)
	}
	switch by {
	case RoundEnergy:
		switch {
		case v < 5:
			return "0"
		case v <= 50:
			return nearest(5)
		}
		return nearest(10)
	case RoundFat:
		switch {
		case v < 0.5:
			return "0"
		case v < 5:
			return nearest(0.5)
		}
		return nearest(1)
	case RoundCholesterol:
		switch {
		case v < 2:
			return "0"
		case v <= 5:
			return "less than 5"
		}
		return nearest(5)
	case RoundSodium:
		switch {
		case v < 5:
			return "0"
		case v <= 140:
			return nearest(5)
		}
		return nearest(10)
	}
	switch {
	case v < 0.5:
		return "0"
	case v < 1:
		return "less than 1"
	}
	return nearest(1)
}

// LabelLine is one line of the label view.
type LabelLine struct {
	Name       string
	Amount     string // rounded, with its unit
	DailyValue string // "12%", or "" where there is no daily value to compare with
	Inset      int    // 1 for a line that is part of the one above
}

// labelLines are the lines in their order, with the daily values of 21 CFR
// 101.9(c)(8)(iv) and (c)(9): fat 78 g, saturated fat 20 g, sodium 2300 mg,
// carbohydrate 275 g, fibre 28 g. Sugars and protein carry none.
var labelLines = []struct {
	n     Nutrient
	name  string
	unit  string
	by    Rounding
	daily float64
	inset int
}{
	{Kcal, "Energy", "kcal", RoundEnergy, 0, 0},
	{Fat, "Fat", "g", RoundFat, 78, 0},
	{Saturated, "of which saturated", "g", RoundFat, 20, 1},
	{Sodium, "Sodium", "mg", RoundSodium, 2300, 0},
	{Carbs, "Carbohydrate", "g", RoundCarbs, 275, 0},
	{Fibre, "of which fibre", "g", RoundCarbs, 28, 1},
	{Sugars, "of which sugars", "g", RoundCarbs, 0, 1},
	{NotAbsorbed, "of which sugar alcohols", "g", RoundCarbs, 0, 1},
	{Protein, "Protein", "g", RoundCarbs, 0, 0},
	{Alcohol, "Alcohol", "g", RoundCarbs, 0, 0},
}

// LabelNotice says what the label view is, wherever it is shown.
const LabelNotice = "An estimate worked out from a recipe, rounded as 21 CFR 101.9(c) rounds; not a laboratory analysis."

// Label gives the figures of one serving rounded by 21 CFR 101.9(c), with the
// share of the daily value. A line with nothing in it that few foods have
// (alcohol, sugar alcohols) is left out. Where the tally is not complete every
// amount is a lower bound and begins "at least"; so does one for which some
// ingredient has no figure, and sodium beside salt of no amount.
func (t *Tally) Label() []LabelLine {
	f := t.PerServing(t.Total)
	var out []LabelLine
	for _, l := range labelLines {
		v := f[l.n]
		if (l.n == Alcohol || l.n == NotAbsorbed) && v < 0.5 {
			continue
		}
		line := LabelLine{Name: l.name, Amount: RoundLabel(v, l.by) + " " + l.unit, Inset: l.inset}
		if l.daily > 0 {
			line.DailyValue = fmt.Sprintf("%d%%", int(math.Floor(100*v/l.daily+0.5)))
		}
		if !t.Complete || len(t.Unknown[l.n]) > 0 || l.n == Sodium && t.Salted {
			line.Amount = "at least " + line.Amount
		}
		out = append(out, line)
	}
	return out
}
