// Package nutrition turns what a recipe says of its ingredients into grams and
// figures: it finds a food by the name a cook uses, weighs an amount by a rule
// it can name, sums the figures of a recipe, rounds them as a food label does,
// and tells what spoken figures allow for an amount that was never said.
//
// The figures are those of the USDA National Nutrient Database for Standard
// Reference, release 28 (SR28), drawn into foods.tsv by the program in draw; a
// few foods it lacks come from another source named in added.tsv, and a food
// with neither has no figures at all until a label gives them. Nothing unknown
// is ever counted as nought without saying so.
package nutrition

import (
	"math"

	"quern/schema"
)

// Nutrient is one column of the table.
type Nutrient int

// The nutrients of the table. Energy is kilocalories, sodium milligrams, all
// others grams; in a Food they are per 100 g of the food as it is counted.
const (
	Kcal Nutrient = iota
	Protein
	Fat
	Saturated
	Carbs // total carbohydrate, by difference, with fibre and sugar alcohols
	Fibre
	Sugars
	Sodium
	Alcohol
	Water
	NotAbsorbed // sugar alcohols and allulose left out of net carbohydrate
	nutrients
)

// nutrientNames are the words for each nutrient in tables and questions.
var nutrientNames = [nutrients]string{"kcal", "protein", "fat", "saturated fat", "carbohydrate", "fibre", "sugars", "sodium", "alcohol",
	"water", "sugar alcohols"}

// String gives the plain word for a nutrient.
func (n Nutrient) String() string {
	if n < 0 || n >= nutrients {
		return "nutrient"
	}
	return nutrientNames[n]
}

// Figures holds one number a nutrient; NaN is unknown.
type Figures [nutrients]float64

// UnknownFigures is a Figures with nothing known.
func UnknownFigures() Figures {
	var f Figures
	for i := range f {
		f[i] = math.NaN()
	}
	return f
}

// Get gives one figure; ok is false when it is unknown. What follows from
// others is known: no sugars or fibre without carbohydrate, no saturated fat
// without fat. Alcohol, water and sugar alcohols a source does not mention are
// nought: a test shows that the energy of every such row is accounted for
// without them.
func (f Figures) Get(n Nutrient) (v float64, ok bool) {
	if n < 0 || n >= nutrients {
		return 0, false
	}
	if !math.IsNaN(f[n]) {
		return f[n], true
	}
	switch n {
	case Sugars, Fibre:
		return 0, f[Carbs] == 0
	case Saturated:
		return 0, f[Fat] == 0
	case Alcohol, Water, NotAbsorbed:
		return 0, !math.IsNaN(f[Kcal])
	}
	return 0, false
}

// NetCarbs is total carbohydrate less fibre and less what is not absorbed; ok
// is false where the carbohydrate or the fibre is unknown.
func (f Figures) NetCarbs() (v float64, ok bool) {
	c, okC := f.Get(Carbs)
	fibre, okF := f.Get(Fibre)
	polyols, _ := f.Get(NotAbsorbed)
	return math.Max(0, c-fibre-polyols), okC && okF
}

// ByFactors is the energy by 4 kcal a gram of protein and carbohydrate, 9 of
// fat and 7 of alcohol (21 CFR 101.9(c)(1)(i)(B); alcohol by the Atwater general
// factor); ok is false where protein, fat or carbohydrate is unknown.
func (f Figures) ByFactors() (kcal float64, ok bool) {
	p, okP := f.Get(Protein)
	fat, okF := f.Get(Fat)
	c, okC := f.Get(Carbs)
	a, _ := f.Get(Alcohol)
	return 4*p + 4*c + 9*fat + 7*a, okP && okF && okC
}

// Measure is the weight of one household measure of a food.
type Measure struct {
	Unit   string  // canonical unit of the recipe form; "" for a plain count; "inch" for a length of it
	Form   string  // what the measure says besides: "chopped", "large"
	Grams  float64 // of one Unit, the part that is eaten
	Source string  // "NDB 01145", "common practice", "your foods"
}

// Food is one food with its figures and weights.
type Food struct {
	Key       string  // our name for it, the key of a document's Ingredient.Food
	Row       string  // NDB number, or the mixture of rows; "" when the figures come from elsewhere
	Source    string  // where the figures come from: "NDB 01145", "your foods", a book
	Per100    Figures // per 100 g
	Label     bool    // true when there are no figures and the label is asked for
	Eaten     float64 // share of the weight as bought that is eaten, 1 for all
	Form      string  // the form of a cup of it where the cook names none
	Note      string  // what to know of the figures: "nearest row: prosciutto"
	Measures  []Measure
	Drained   float64 // share of a can's stated weight left when drained, 0 when unknown
	DrainedBy string  // source of Drained
}

// Known tells whether the food has figures.
func (f Food) Known() bool { return !f.Label && !math.IsNaN(f.Per100[Kcal]) }

// Middle is the weight of grams that figures are computed with: halfway
// between the least and the most.
func Middle(g schema.Grams) float64 { return (g.Min + g.Max) / 2 }
