package nutrition

import (
	_ "embed"
	"fmt"
	"iter"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"
	"sync"

	"quern/internal/language"
)

var (
	//go:embed names.tsv
	namesTSV string
	//go:embed foods.tsv
	foodsTSV string
	//go:embed weights.tsv
	weightsTSV string
	//go:embed added.tsv
	addedTSV string
	//go:embed measures.tsv
	measuresTSV string
	//go:embed modifiers.tsv
	modifiersTSV string
)

// table is everything the embedded files say.
type table struct {
	foods     []Food            // in the order of names.tsv, then added.tsv
	byKey     map[string]int    // index in foods by key
	byName    map[string]int    // index in foods by normal form of every name
	near      map[string]bool   // normal forms of names that are only counted as their food
	modifiers map[string]string // kind by word
	err       error
}

// load reads the embedded tables once. The tests read them row by row, so that
// an error here can only come from an edit that no test has seen; Find then
// finds nothing and Check says why.
var load = sync.OnceValue(func() *table {
	foods := strings.Count(namesTSV, "\n") + strings.Count(addedTSV, "\n")
	t := &table{foods: make([]Food, 0, foods), byKey: make(map[string]int, foods), byName: make(map[string]int, 4*foods), near: map[string]bool{}, modifiers: map[string]string{}}
	t.err = t.read()
	return t
})

// Check gives the error in the embedded tables, nil when there is none.
func Check() error { return load().err }

// Foods gives every food of the table in its order.
func Foods() []Food { return append([]Food(nil), load().foods...) }

// ByKey gives the food with a document's key; her own foods come first.
func ByKey(key string, own *Own) (Food, bool) {
	if own != nil {
		for _, f := range own.foods {
			if f.Key == key {
				return f, true
			}
		}
	}
	t := load()
	if i, ok := t.byKey[key]; ok {
		return t.foods[i], true
	}
	return Food{}, false
}

// rows calls do for each row of an embedded table with its line number; the
// head, comments and empty lines are passed over. The fields stand in a slice
// that is used again for the next row.
func rows(name, data string, fields int, do func(line int, c []string) error) error {
	head := true
	c := make([]string, fields)
	for n := 1; data != ""; n++ {
		var line string
		line, data, _ = strings.Cut(data, "\n")
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if head {
			head = false
			continue
		}
		if got := strings.Count(line, "\t") + 1; got != fields {
			return fmt.Errorf("%s:%d: %d fields, want %d", name, n, got, fields)
		}
		for i := range c {
			c[i], line, _ = strings.Cut(line, "\t")
		}
		if err := do(n, c); err != nil {
			return fmt.Errorf("%s:%d: %w", name, n, err)
		}
	}
	return nil
}

// figure reads one number of a table, NaN where it is empty.
func figure(s string) (float64, error) {
	if s == "" {
		return math.NaN(), nil
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || v < 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, fmt.Errorf("%q is no figure", s)
	}
	return v, nil
}

func (t *table) read() error {
	err := rows("modifiers.tsv", modifiersTSV, 2, func(_ int, c []string) error {
		t.modifiers[singular(c[0])] = c[1]
		return nil
	})
	if err != nil {
		return err
	}
	weights := map[string][]Measure{}
	err = rows("weights.tsv", weightsTSV, 6, func(_ int, c []string) error {
		amount, err := figure(c[2])
		if err != nil {
			return err
		}
		grams, err := figure(c[5])
		if err != nil {
			return err
		}
		if !(amount > 0) || !(grams > 0) {
			return fmt.Errorf("weight %s of %s measures is not above nought", c[5], c[2])
		}
		weights[c[0]] = append(weights[c[0]], Measure{Unit: c[3], Form: c[4], Grams: grams / amount, Source: "NDB " + c[0]})
		return nil
	})
	if err != nil {
		return err
	}
	type drawn struct {
		figures Figures
		refuse  float64
	}
	figures := make(map[string]drawn, strings.Count(foodsTSV, "\n"))
	err = rows("foods.tsv", foodsTSV, 3+int(Water)+1, func(_ int, c []string) error {
		d := drawn{figures: UnknownFigures()}
		for n := Kcal; n <= Water; n++ {
			v, err := figure(c[3+int(n)])
			if err != nil {
				return err
			}
			d.figures[n] = v
		}
		if c[2] != "" {
			v, err := figure(c[2])
			if err != nil {
				return err
			}
			d.refuse = v / 100
		}
		figures[c[0]] = d
		return nil
	})
	if err != nil {
		return err
	}
	err = rows("names.tsv", namesTSV, 6, func(_ int, c []string) error {
		f := Food{Key: c[0], Row: c[2], Eaten: 1, Form: c[4], Note: c[5], Per100: UnknownFigures()}
		if c[2] == "label" {
			f.Row, f.Label, f.Source = "", true, "no row in SR28: give the label's figures"
		} else {
			d, ok := figures[c[0]]
			if !ok {
				return fmt.Errorf("%q has no row in foods.tsv: run draw", c[0])
			}
			f.Per100, f.Source = d.figures, source(c[2])
			f.Measures = append(f.Measures, weights[c[2]]...)
			switch {
			case c[3] == "refuse":
				f.Eaten = 1 - d.refuse
			case c[3] != "":
				share, err := figure(c[3])
				if err != nil || share <= 0 || share > 1 {
					return fmt.Errorf("share eaten %q is not above 0 and at most 1", c[3])
				}
				f.Eaten = share
			}
		}
		return t.add(f, c[1])
	})
	if err != nil {
		return err
	}
	err = rows("added.tsv", addedTSV, 3+int(nutrients), func(_ int, c []string) error {
		f := Food{Key: c[0], Source: c[2], Eaten: 1, Per100: UnknownFigures()}
		for n := Kcal; n < nutrients; n++ {
			v, err := figure(c[3+int(n)])
			if err != nil {
				return err
			}
			f.Per100[n] = v
		}
		return t.add(f, c[1])
	})
	if err != nil {
		return err
	}
	return rows("measures.tsv", measuresTSV, 5, func(_ int, c []string) error {
		grams, err := figure(c[3])
		if err != nil {
			return err
		}
		for _, key := range strings.Split(c[0], "|") {
			i, ok := t.byKey[key]
			if !ok {
				return fmt.Errorf("%q is no food of names.tsv or added.tsv", key)
			}
			f := &t.foods[i]
			if c[1] == "drained" {
				f.Drained, f.DrainedBy = grams, c[4]
				continue
			}
			// A weight of ours stands before the row's own.
			unit := c[1]
			if unit == "each" {
				unit = ""
			}
			f.Measures = append([]Measure{{Unit: unit, Form: c[2], Grams: grams, Source: c[4]}}, f.Measures...)
		}
		return nil
	})
}

// source writes where the figures of a row or a mixture of rows come from.
func source(row string) string {
	if !strings.ContainsAny(row, "*+") {
		return "NDB " + row
	}
	var parts []string
	for _, term := range strings.Split(row, "+") {
		ndb, share, _ := strings.Cut(term, "*")
		v, _ := strconv.ParseFloat(share, 64)
		parts = append(parts, fmt.Sprintf("%g%% NDB %s", 100*v, ndb))
	}
	return strings.Join(parts, " and ")
}

func (t *table) add(f Food, also string) error {
	if _, ok := t.byKey[f.Key]; ok {
		return fmt.Errorf("%q stands twice", f.Key)
	}
	i := len(t.foods)
	t.byKey[f.Key] = i
	t.foods = append(t.foods, f)
	for _, name := range append([]string{f.Key}, strings.Split(also, "|")...) {
		if name == "" {
			continue
		}
		name, near := strings.CutPrefix(name, "~")
		key := strings.Join(normal(name), " ")
		if near {
			t.near[key] = true
		}
		if j, ok := t.byName[key]; ok && j != i {
			return fmt.Errorf("%q names both %q and %q", name, t.foods[j].Key, f.Key)
		}
		t.byName[key] = i
	}
	return nil
}

// Find gives the food a cook's name means. Her own foods are looked through
// first. A name is tried as it is, then without words that do not change which
// food it is ("chopped", "large", "fresh"), fewest words left out first; what
// follows a comma, a bracket or "for" is taken as said about it. A name that
// can't be told from another food is not found.
func Find(name string, own *Own) (Food, bool) {
	for words := range readings(name) {
		if f, ok := find(words, own); ok {
			return f, true
		}
	}
	return Food{}, false
}

// readings gives the ways a name may be meant as normal words, likeliest first.
func readings(name string) iter.Seq[[]string] {
	return func(yield func([]string) bool) {
		var seen []string
		each := func(s string) bool {
			w := normal(s)
			key := strings.Join(w, " ")
			if len(w) == 0 || len(w) > 12 || slices.Contains(seen, key) {
				return true
			}
			seen = append(seen, key)
			return yield(w)
		}
		_ = each(name) && otherReadings(strings.ToLower(name), each)
	}
}

// otherReadings tries what is left of a name without what was said about it.
func otherReadings(bare string, try func(string) bool) bool {
	if i := strings.IndexAny(bare, "(["); i >= 0 {
		bare = bare[:i] // what is in brackets is a remark
	}
	if !try(bare) {
		return false
	}
	if head, tail, ok := strings.Cut(bare, ","); ok && !(try(head) && try(tail+" "+head)) {
		return false
	}
	for _, mark := range [...]string{" for ", " to ", " with ", " in ", " from ", " on ", " cut ", " such as "} {
		if head, _, ok := strings.Cut(bare, mark); ok && !try(head) {
			return false
		}
	}
	// "juice of two limes", "zest of an orange", "tin of tomatoes".
	if head, tail, ok := strings.Cut(bare, " of "); ok && !(try(tail+" "+head) && try(tail)) {
		return false
	}
	for _, mark := range [...]string{" or ", "/", " and/or "} {
		if head, tail, ok := strings.Cut(bare, mark); ok && !(try(head) && try(tail)) {
			return false
		}
	}
	return true
}

// find looks up normal words, with fewer and fewer of the words that may be
// passed over.
func find(words []string, own *Own) (Food, bool) {
	t := load()
	var loose, last []int // places of words that may be left out
	for i, w := range words {
		kind := t.modifiers[w]
		if numeric(w) {
			kind = "plain"
		}
		switch kind {
		case "":
		case "last":
			last = append(last, i)
		default:
			loose = append(loose, i)
		}
	}
	if f, ok := t.without(words, loose, own); ok {
		return f, true
	}
	if len(last) == 0 {
		return Food{}, false
	}
	return t.without(words, append(append([]int(nil), loose...), last...), own)
}

// numeric reports whether a normal word is a number. Few are, and an error costs
// more than the look at the first letter.
func numeric(w string) bool {
	if c := w[0]; c >= 'a' && c <= 'z' && c != 'i' && c != 'n' { // infinity and nan are numbers too
		return false
	}
	_, err := strconv.ParseFloat(w, 64)
	return err == nil
}

// without tries every choice of the loose words left out, fewest first and the
// earliest words first. More than seven loose words are left out all at once.
func (t *table) without(words []string, loose []int, own *Own) (Food, bool) {
	if f, ok := t.lookUp(words, nil, own); ok || len(loose) == 0 {
		return f, ok
	}
	sort.Ints(loose)
	const most = 7
	if len(loose) > most {
		return t.lookUp(words, loose, own)
	}
	masks := make([]int, 1<<len(loose))
	for m := range masks {
		masks[m] = m
	}
	sort.SliceStable(masks, func(a, b int) bool {
		x, y := ones(masks[a]), ones(masks[b])
		if x != y {
			return x < y
		}
		return masks[a] < masks[b]
	})
	out := make([]int, 0, len(loose))
	for _, m := range masks[1:] { // with none left out it was tried
		out = out[:0]
		for i, place := range loose {
			if m&(1<<i) != 0 {
				out = append(out, place)
			}
		}
		if f, ok := t.lookUp(words, out, own); ok {
			return f, true
		}
	}
	return Food{}, false
}

func ones(m int) (n int) {
	for ; m != 0; m &= m - 1 {
		n++
	}
	return n
}

// lookUp finds the words without those at the places left out.
func (t *table) lookUp(words []string, leftOut []int, own *Own) (Food, bool) {
	kept := make([]string, 0, len(words))
	for i, w := range words {
		if k := sort.SearchInts(leftOut, i); k < len(leftOut) && leftOut[k] == i {
			continue
		}
		kept = append(kept, w)
	}
	if len(kept) == 0 {
		return Food{}, false
	}
	key := strings.Join(kept, " ")
	if own != nil {
		if i, ok := own.byName[key]; ok {
			return own.foods[i], true
		}
	}
	if i, ok := t.byName[key]; ok {
		f := t.foods[i]
		if t.near[key] {
			f.Note = strings.TrimPrefix(f.Note+"; counted as "+f.Key, "; ")
		}
		return f, true
	}
	return Food{}, false
}

// normal gives the words of a name as they are looked up: lower case, without
// accents, hyphens as spaces, each word in the singular.
func normal(name string) []string {
	words := strings.Fields(language.Unaccented(name, "%", "."))
	for i, w := range words {
		words[i] = singular(w)
	}
	return words
}

// irregular are plurals and look-alikes the endings below get wrong.
var irregular = map[string]string{
	"leaves": "leaf", "loaves": "loaf", "halves": "half", "knives": "knife", "calves": "calf", "potatoes": "potato", "tomatoes": "tomato",
	"mangoes": "mango", "cookies": "cookie", "brownies": "brownie", "smoothies": "smoothie", "pies": "pie", "chillies": "chilli",
	"chilies": "chili", "veggies": "veggie", "anchovies": "anchovy", "hummus": "hummus", "couscous": "couscous", "asparagus": "asparagus",
	"molasses": "molasses", "swiss": "swiss", "watercress": "watercress", "cress": "cress", "citrus": "citrus", "octopus": "octopus",
	"feet": "foot", "geese": "goose", "chives": "chive", "olives": "olive", "endives": "endive", "cloves": "clove",
	"hing": "hing", "lemongrass": "lemongrass", "schnapps": "schnapps", "swede": "swede", "brussels": "brussels", "haricots": "haricot",
	"calvados": "calvados", "wheatberries": "wheatberry", "eyes": "eye", "radishes": "radish", "peaches": "peach", "squashes": "squash",
	"confectioners": "confectioner", "confectioner": "confectioner",
}

// singular gives the singular of a word in lower case, by its ending.
func singular(w string) string {
	if s, ok := irregular[w]; ok {
		return s
	}
	switch {
	case len(w) <= 3 || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "us") || strings.HasSuffix(w, "is"):
		return w
	case strings.HasSuffix(w, "ies"):
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "sses"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "ches"), strings.HasSuffix(w, "xes"),
		strings.HasSuffix(w, "oes"):
		return w[:len(w)-2]
	case strings.HasSuffix(w, "s"):
		return w[:len(w)-1]
	}
	return w
}
