package written

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"quern/schema"
)

// longestQuantity is how many words a quantity at the head of a line may have:
// "about 2 1/2 to 3 fl oz".
const longestQuantity = 8

// optional are the words by which a line says that a thing may be left out.
var optional = regexp.MustCompile(`(?i)[,(\s]*\(?\b(?:optional|if you like|if using)\b\)?`)

// toTaste are the words for an amount that is up to the cook.
var toTaste = regexp.MustCompile(`(?i)[,(\s]*\(?\b(?:to taste|as needed|to season)\b\)?`)

// ReadIngredient reads a written ingredient line: an amount, a second amount in
// brackets or after a stroke, the name, and after a comma the preparation.
func ReadIngredient(text string) Ingredient {
	text = strings.Join(strings.Fields(text), " ")
	ing := Ingredient{Text: text}
	rest := text
	if loc := optional.FindStringIndex(rest); loc != nil {
		ing.Optional = true
		rest = rest[:loc[0]] + rest[loc[1]:]
	}
	if loc := toTaste.FindStringIndex(rest); loc != nil {
		ing.ToTaste = true
		rest = rest[:loc[0]] + rest[loc[1]:]
	}
	rest = strings.TrimSpace(rest)
	if q, after, ok := leading(rest); ok {
		ing.Amount, rest = &q, after
		ing.more(&rest)
	} else if q, before, ok := trailing(rest); ok {
		ing.Amount, rest = &q, before
	}
	rest = strings.TrimSpace(strings.TrimLeft(strings.TrimSpace(rest), ",;:–—- "))
	for _, of := range []string{"of the ", "of "} {
		if cut, ok := cutFold(rest, of); ok {
			rest = cut
			break
		}
	}
	name, aside := bracketless(rest)
	name, preparation, _ := strings.Cut(name, ",")
	for _, dash := range []string{" – ", " — ", " - "} {
		if before, after, ok := strings.Cut(name, dash); ok {
			name, preparation = before, strings.TrimSpace(after+" "+preparation)
		}
	}
	ing.Name = strings.TrimSpace(strings.Trim(strings.TrimSpace(name), ".;:"))
	ing.Preparation = strings.Join(strings.Fields(strings.TrimSpace(preparation)), " ")
	if aside != "" && ing.Second == nil {
		if q, ok := second(aside); ok {
			ing.Second = &q
		}
	}
	return ing
}

// more reads what may follow an amount: the size of a can, a second measure, or
// a further amount to be added to it.
func (ing *Ingredient) more(rest *string) {
	text := strings.TrimSpace(*rest)
	if inside, after, ok := bracket(text); ok {
		if q, good := second(inside); good {
			// "2 (14 oz) cans": the size stands before what it is the size of.
			if unit, behind, found := strings.Cut(after, " "); ing.Amount.Unit == "" && found {
				if counted, err := schema.ParseQuantity("1 " + strings.Trim(unit, ",.")); err == nil && counted.Unit != "" && schema.DimensionOf(counted.Unit) == schema.Count {
					ing.Amount.Unit, ing.Amount.Text, ing.Size = counted.Unit, "", &q
					*rest = behind
					return
				}
			}
			if schema.DimensionOf(ing.Amount.Unit) == schema.Count {
				ing.Size = &q
			} else {
				ing.Second = &q
			}
			*rest = after
			return
		}
	}
	for _, mark := range []string{"/", "or", "|"} {
		if after, ok := cutFold(text, mark+" "); ok {
			if q, behind, good := leading(after); good && measured(q) {
				ing.Second, *rest = &q, behind
				return
			}
		}
	}
	for _, mark := range []string{"plus", "+", "and"} {
		after, ok := cutFold(text, mark+" ")
		if !ok {
			continue
		}
		if q, behind, good := leading(after); good {
			if total, same := sum(*ing.Amount, q); same {
				ing.Amount, *rest = &total, behind
				return
			}
		}
	}
}

// second reads a measure in brackets: "180 g", "about 2 oz", "14 oz each". Of
// several ("6 oz/170 g") the first counts.
func second(inside string) (schema.Quantity, bool) {
	inside, _, _ = strings.Cut(inside, "/")
	inside, _, _ = strings.Cut(inside, ";")
	q, after, ok := leading(strings.TrimSpace(inside))
	after = strings.TrimSpace(after)
	if !ok || !measured(q) || after != "" && after != "each" && after != "total" {
		return schema.Quantity{}, false
	}
	return q, true
}

func measured(q schema.Quantity) bool {
	d := schema.DimensionOf(q.Unit)
	return d == schema.VolumeDimension || d == schema.MassDimension
}

// sum adds two amounts of one dimension, in the unit of the first.
func sum(a, b schema.Quantity) (schema.Quantity, bool) {
	factor := 0.0
	for _, table := range []func(string) (float64, bool){schema.Volume, schema.Mass} {
		x, okX := table(a.Unit)
		y, okY := table(b.Unit)
		if okX && okY {
			factor = y / x
		}
	}
	if a.Unit == b.Unit {
		factor = 1
	}
	if factor == 0 {
		return a, false
	}
	return schema.Quantity{Min: a.Min + b.Min*factor, Max: a.Max + b.Max*factor, Unit: a.Unit, About: a.About || b.About}, true
}

// leading reads the longest quantity that a text begins with and gives what
// follows it.
func leading(text string) (schema.Quantity, string, bool) {
	if !mayBegin(text) {
		return schema.Quantity{}, text, false
	}
	starts := wordStarts(text, longestQuantity)
	for n := len(starts) - 1; n > 0; n-- {
		if q, ok := amount(text[:starts[n]]); ok {
			return q, strings.TrimSpace(text[starts[n]:]), true
		}
	}
	return schema.Quantity{}, text, false
}

// numberWords are the words besides figures that a quantity may begin with.
var numberWords = map[string]bool{
	"a": true, "an": true, "half": true, "one": true, "two": true, "three": true, "four": true, "five": true, "six": true, "about": true,
	"approximately": true, "around": true, "up": true, "roughly": true,
}

// mayBegin tells at a glance whether a text can begin with a quantity, since
// most lines of a long text can't.
func mayBegin(text string) bool {
	first, _, _ := strings.Cut(text, " ")
	r, _ := utf8.DecodeRuneInString(first)
	return unicode.IsNumber(r) || r == '.' || r == '~' || numberWords[strings.ToLower(first)]
}

// trailing reads a quantity at the end of a line: "plain flour: 200 g".
func trailing(text string) (schema.Quantity, string, bool) {
	if !strings.ContainsAny(text, "0123456789½¼¾⅓⅔⅛") {
		return schema.Quantity{}, text, false
	}
	fields := strings.Fields(text)
	for n := min(longestQuantity, len(fields)-1); n > 0; n-- {
		before := strings.Join(fields[:len(fields)-n], " ")
		marked := strings.TrimRight(before, ":–—- ")
		q, ok := amount(strings.Join(fields[len(fields)-n:], " "))
		// Without a mark between them, only a measure is an amount: "type 00".
		if ok && marked != "" && (len(marked) < len(before) || measured(q)) {
			return q, marked, true
		}
	}
	return schema.Quantity{}, text, false
}

// articles stand for numbers at the head of a line.
var articles = []struct{ words, number string }{
	{"half a ", "1/2 "}, {"half an ", "1/2 "}, {"a quarter of a ", "1/4 "}, {"a couple of ", "2 "}, {"a few ", ""}, {"a dozen ", "12 "}, {"a ", "1 "}, {"an ", "1 "}, {"one ", "1 "},
	{"two ", "2 "}, {"three ", "3 "}, {"four ", "4 "}, {"five ", "5 "}, {"six ", "6 "},
}

// marks are the spellings of signs in numbers that the quantity reader doesn't
// need to know.
var marks = strings.NewReplacer("–", "-", "—", "-", "⁄", "/", "\u00a0", " ", "½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⅙", " 1/6", "⅚", " 5/6")

// amount reads a text as an amount, with the words people write numbers with.
func amount(text string) (schema.Quantity, bool) {
	text = strings.TrimSpace(text)
	if end := len(text) - 1; end > 0 && text[end] == '.' && (text[end-1] < '0' || text[end-1] > '9') {
		text = text[:end] // of "tbsp."
	}
	text = strings.TrimSpace(marks.Replace(text))
	for _, a := range articles {
		if cut, ok := cutFold(text+" ", a.words); ok && a.number != "" {
			text = strings.TrimSpace(a.number + cut)
			break
		}
	}
	if text == "" || strings.ContainsAny(text, "(),") {
		return schema.Quantity{}, false
	}
	q, err := schema.ParseQuantity(text)
	if err != nil || q.Vague != "" {
		return schema.Quantity{}, false
	}
	switch schema.DimensionOf(q.Unit) {
	case schema.TimeDimension, schema.TemperatureDimension:
		return schema.Quantity{}, false
	}
	q.Text = ""
	return q, true
}

// wordStarts gives where words of a text begin, and after the last one its
// length; at most n words are looked at. A bracket begins a word.
func wordStarts(text string, n int) []int {
	starts := []int{}
	space := true
	for i, r := range text {
		if r == ' ' {
			space = true
			continue
		}
		if space || r == '(' {
			starts = append(starts, i)
			if len(starts) > n+1 {
				return starts
			}
		}
		space = false
	}
	return append(starts, len(text))
}

// bracket cuts a text that begins with a bracket into what is inside and what
// comes after.
func bracket(text string) (inside, after string, ok bool) {
	if !strings.HasPrefix(text, "(") {
		return "", text, false
	}
	inside, after, ok = strings.Cut(text[1:], ")")
	return strings.TrimSpace(inside), strings.TrimSpace(after), ok
}

// bracketless takes the brackets out of a text and gives what was in the first.
func bracketless(text string) (without, first string) {
	for {
		i := strings.IndexByte(text, '(')
		if i < 0 {
			return text, first
		}
		inside, after, ok := strings.Cut(text[i+1:], ")")
		if !ok {
			return strings.TrimSpace(text[:i]), first
		}
		if first == "" {
			first = strings.TrimSpace(inside)
		}
		text = strings.TrimSpace(text[:i]) + " " + strings.TrimSpace(after)
		text = strings.ReplaceAll(strings.TrimSpace(text), " ,", ",")
	}
}

// cutFold is strings.CutPrefix whatever the letters' case.
func cutFold(text, prefix string) (string, bool) {
	if len(text) >= len(prefix) && strings.EqualFold(text[:len(prefix)], prefix) {
		return text[len(prefix):], true
	}
	return text, false
}
