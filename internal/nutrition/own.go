package nutrition

import (
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"strconv"
	"strings"

	"quern/schema"
)

// OwnFile is the name of the file of her own foods that is found by itself in
// the folder of a recipe.
const OwnFile = "foods.yaml"

// ErrOwn is wrapped by every error in a file of her own foods.
var ErrOwn = errors.New("not a list of foods")

// Own is the foods a person gave label figures for. A nil *Own has none.
type Own struct {
	foods  []Food
	byName map[string]int
}

// Foods gives them in the order of the file.
func (o *Own) Foods() []Food {
	if o == nil {
		return nil
	}
	return append([]Food(nil), o.foods...)
}

// maxOwnBytes bounds a file of her own foods.
const maxOwnBytes = 4 << 20

// OwnText gives the bytes of a file of her own foods for ReadOwn: of one that is
// too large, or never ends, only so many that ReadOwn tells of it. The error is
// that of opening or reading the file.
func OwnText(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, maxOwnBytes+1))
}

// ownFigures are the keys of a label's figures and what each counts as.
var ownFigures = map[string]Nutrient{"kcal": Kcal, "protein_g": Protein, "fat_g": Fat, "saturated_fat_g": Saturated, "carbs_g": Carbs,
	"fibre_g": Fibre, "sugar_g": Sugars, "sodium_mg": Sodium, "alcohol_g": Alcohol, "sugar_alcohols_g": NotAbsorbed}

const acceptedOwn = "name, also, per, kcal, protein_g, fat_g, saturated_fat_g, carbs_g, fibre_g, sugar_g, sodium_mg, salt_g, " +
	"sugar_alcohols_g, alcohol_g, carbs_without_fibre, weighs"

// ReadOwn reads her own foods from YAML: a list, or a mapping with the key
// foods, of entries like
//
//   - name: coconut flour
//     also: [fine coconut flour]
//     per: 30 g              # what the label's figures are for; 100 g if left out
//     kcal: 120
//     protein_g: 6
//     fat_g: 4
//     carbs_g: 18
//     fibre_g: 11
//     weighs: {cup: 112 g, tbsp: 7 g}
//
// carbs_without_fibre: true says that the carbohydrate is printed without the
// fibre, as on a label by Regulation (EU) 1169/2011; salt_g may stand for sodium
// (a gram of salt holds 400 mg, the factor 2.5 of the same regulation). weighs
// gives grams of a cup, tbsp, tsp, piece, can and so on. name gives where errors
// are; each error wraps ErrOwn and tells the line.
func ReadOwn(name string, data []byte) (*Own, error) {
	bad := func(n *schema.Node, format string, args ...any) error {
		return fmt.Errorf("%s:%d: %w: %s", name, n.Line, ErrOwn, fmt.Sprintf(format, args...))
	}
	if len(data) > maxOwnBytes {
		return nil, fmt.Errorf("%s: %w: is over 4 MB", name, ErrOwn)
	}
	doc, err := schema.ParseYAML(data)
	if err != nil {
		var at *schema.YAMLError
		if errors.As(err, &at) && at.Line > 0 {
			return nil, fmt.Errorf("%s:%d: %w: %s", name, at.Line, ErrOwn, at.Reason)
		}
		return nil, fmt.Errorf("%s: %w: %w", name, ErrOwn, err)
	}
	own := &Own{byName: map[string]int{}}
	if doc == nil {
		return own, nil
	}
	list := followed(doc.Content[0])
	if list.Kind == schema.MappingNode {
		if len(list.Content) != 2 || list.Content[0].Value != "foods" {
			return nil, bad(list, "want a list of foods, or the one key foods with the list under it")
		}
		list = list.Content[1]
	}
	if list.Kind != schema.SequenceNode {
		return nil, bad(list, "want a list of foods, each beginning \"- name:\"")
	}
	for _, entry := range list.Content {
		f, names, err := ownFood(entry, bad)
		if err != nil {
			return nil, err
		}
		i := len(own.foods)
		own.foods = append(own.foods, f)
		for _, n := range names {
			key := strings.Join(normal(n), " ")
			if key == "" {
				return nil, bad(entry, "name %q has no letters", n)
			}
			if j, ok := own.byName[key]; ok {
				return nil, bad(entry, "%q is already the name of %q", n, own.foods[j].Key)
			}
			own.byName[key] = i
		}
	}
	return own, nil
}

// followed gives a tree in which every alias is what it stands for. The parser
// has bounded what they expand to.
func followed(n *schema.Node) *schema.Node {
	for n.Kind == schema.AliasNode {
		n = n.Alias
	}
	c := *n
	c.Content = make([]*schema.Node, len(n.Content))
	for i, child := range n.Content {
		c.Content[i] = followed(child)
	}
	return &c
}

type badFunc func(n *schema.Node, format string, args ...any) error

// ownFood reads one entry.
func ownFood(entry *schema.Node, bad badFunc) (Food, []string, error) {
	f := Food{Eaten: 1, Per100: UnknownFigures()}
	if entry.Kind != schema.MappingNode {
		return f, nil, bad(entry, "want a food as keys and values, beginning with name")
	}
	per, perNode := 100.0, entry
	var names []string
	withoutFibre := false
	salt := math.NaN()
	values := UnknownFigures()
	seen := map[string]bool{}
	for i := 0; i+1 < len(entry.Content); i += 2 {
		key, value := entry.Content[i], entry.Content[i+1]
		if seen[key.Value] {
			return f, nil, bad(key, "%q stands twice in one food", key.Value)
		}
		seen[key.Value] = true
		if n, ok := ownFigures[key.Value]; ok {
			v, err := ownNumber(value)
			if err != nil {
				return f, nil, bad(value, "%s: %v", key.Value, err)
			}
			values[n] = v
			continue
		}
		switch key.Value {
		case "name":
			if value.Kind != schema.ScalarNode || strings.TrimSpace(value.Value) == "" {
				return f, nil, bad(value, "name: want a word or two")
			}
			f.Key = strings.TrimSpace(value.Value)
			names = append([]string{f.Key}, names...)
		case "also":
			if value.Kind != schema.SequenceNode {
				return f, nil, bad(value, "also: want a list of names in square brackets")
			}
			for _, n := range value.Content {
				names = append(names, n.Value)
			}
		case "per":
			q, err := schema.ParseQuantity(value.Value)
			if err != nil {
				return f, nil, bad(value, "per: %v", err)
			}
			g, ok := schema.Mass(q.Unit)
			if !ok || q.Min != q.Max || q.Min <= 0 {
				return f, nil, bad(value, "per: %q is no weight; say what the label's figures are for, like 30 g", value.Value)
			}
			per, perNode = q.Min*g, value
		case "salt_g":
			v, err := ownNumber(value)
			if err != nil {
				return f, nil, bad(value, "salt_g: %v", err)
			}
			salt = v
		case "carbs_without_fibre":
			b, err := strconv.ParseBool(value.Value)
			if err != nil {
				return f, nil, bad(value, "carbs_without_fibre: %q is neither true nor false", value.Value)
			}
			withoutFibre = b
		case "weighs":
			m, err := ownWeights(value, bad)
			if err != nil {
				return f, nil, err
			}
			f.Measures = m
		default:
			return f, nil, bad(key, "%q is no key of a food; there are %s", key.Value, acceptedOwn)
		}
	}
	if f.Key == "" {
		return f, nil, bad(entry, "a food has no name")
	}
	for _, n := range []Nutrient{Kcal, Protein, Fat, Carbs} {
		if math.IsNaN(values[n]) {
			key := map[Nutrient]string{Kcal: "kcal", Protein: "protein_g", Fat: "fat_g", Carbs: "carbs_g"}[n]
			return f, nil, bad(entry, "%s has no %s; copy it from the label", f.Key, key)
		}
	}
	if math.IsNaN(values[Sodium]) && !math.IsNaN(salt) {
		values[Sodium] = salt * 400
	}
	if withoutFibre {
		if math.IsNaN(values[Fibre]) {
			return f, nil, bad(entry, "%s: carbs_without_fibre needs fibre_g", f.Key)
		}
		values[Carbs] += values[Fibre]
	}
	sum := 0.0
	for _, n := range []Nutrient{Protein, Fat, Carbs, Alcohol} {
		if v := values[n]; !math.IsNaN(v) {
			sum += v
		}
	}
	// A label rounds each figure to a half or whole gram.
	if sum > per+2 {
		return f, nil, bad(perNode, "%s: protein, fat and carbohydrate come to %s g in %s g", f.Key, number(sum), number(per))
	}
	if values[Kcal]*100/per > 905 {
		return f, nil, bad(perNode, "%s: %s kcal in %s g is more than pure fat has", f.Key, number(values[Kcal]), number(per))
	}
	for n := range values {
		if !math.IsNaN(values[n]) {
			f.Per100[n] = values[n] * 100 / per
		}
	}
	f.Source = "your foods"
	return f, names, nil
}

// ownNumber reads a figure of a label, "<0.5" as half of it.
func ownNumber(n *schema.Node) (float64, error) {
	text := strings.TrimSpace(n.Value)
	less := strings.HasPrefix(text, "<")
	v, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimPrefix(text, "<")), 64)
	if n.Kind != schema.ScalarNode || err != nil || v < 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, fmt.Errorf("%q is no number of nought or more", n.Value)
	}
	if less {
		v /= 2
	}
	return v, nil
}

// ownWeights reads weighs.
func ownWeights(value *schema.Node, bad badFunc) ([]Measure, error) {
	if value.Kind != schema.MappingNode {
		return nil, bad(value, "weighs: want measures and weights, like {cup: 112 g}")
	}
	var out []Measure
	for i := 0; i+1 < len(value.Content); i += 2 {
		key, weight := value.Content[i], value.Content[i+1]
		unit, ok := schema.CanonicalUnit(key.Value)
		if key.Value == "each" || key.Value == "piece" {
			unit, ok = "", true
		}
		d := schema.DimensionOf(unit)
		if !ok || d == schema.MassDimension || d == schema.TimeDimension {
			return nil, bad(key, "weighs: %q is no household measure; there are cup, tbsp, tsp, piece, slice, can and so on", key.Value)
		}
		q, err := schema.ParseQuantity(weight.Value)
		if err != nil {
			return nil, bad(weight, "weighs: %v", err)
		}
		g, ok := schema.Mass(q.Unit)
		if !ok || q.Min != q.Max || q.Min <= 0 {
			return nil, bad(weight, "weighs: %q is no weight; write it like 112 g", weight.Value)
		}
		out = append(out, Measure{Unit: unit, Grams: q.Min * g, Source: "your foods"})
	}
	return out, nil
}
