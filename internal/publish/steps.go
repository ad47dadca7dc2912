package publish

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"quern/schema"
)

// section is a run of steps that belong to one part, or to one way.
type section struct {
	Title string // "" where the recipe has only this one and it needs no name
	Only  string // "only for the slab way"; "" where the steps are for all
	Steps []stepLine
}

// stepLine is one step as it is written.
type stepLine struct {
	Text    string
	Marks   []mark   // open questions about this step
	Moments []moment // where it was said
	ID      string   // unique on the page
	step    *schema.Step
}

// inWay tells whether something marked with ways is part of a way; way "" is
// every way.
func inWay(ways []string, way string) bool {
	return way == "" || len(ways) == 0 || slices.ContainsFunc(ways, func(w string) bool { return strings.EqualFold(w, way) })
}

// sections groups the steps in their order. A step for some of the ways goes
// under those ways' name; any other goes under its part, so that what is
// shared is written once.
func (b *builder) sections() []section {
	var out []section
	var keys []string     // what each section is for
	var waysOf [][]string // the ways each section is for
	for i := range b.doc.Steps {
		s := &b.doc.Steps[i]
		if !inWay(s.Ways, b.opt.Way) {
			continue
		}
		key, title, only := "part "+s.Part, capital(clean(s.Part)), ""
		if len(s.Ways) > 0 && b.opt.Way == "" && len(s.Ways) < len(b.doc.Ways) {
			names := make([]string, len(s.Ways))
			for j, w := range s.Ways {
				names[j] = clean(w)
			}
			title = capital(join(names, "or"))
			key, only = "way "+title, "Only for this way."
			if len(names) > 1 {
				only = "Only for these ways."
			}
		}
		at := len(out) - 1
		for at >= 0 && keys[at] != key && apart(waysOf[at], s.Ways) {
			at-- // another way's steps may lie between
		}
		if at < 0 || keys[at] != key {
			at = len(out)
			out = append(out, section{Title: title, Only: only})
			keys, waysOf = append(keys, key), append(waysOf, s.Ways)
		}
		here := &out[at]
		here.Steps = append(here.Steps, stepLine{
			Text:    b.stepText(s),
			Marks:   b.marksFor(b.byStep[i]),
			Moments: spaced(momentsOf(s.Said, b.opt.Recording)),
			ID:      fmt.Sprintf("step-%d-%d", at+1, len(here.Steps)+1),
			step:    s,
		})
	}
	// Steps of no part, between steps that have one, get a heading that says
	// where in the work they stand.
	for i := range out {
		if out[i].Title != "" || len(out) == 1 {
			continue
		}
		switch {
		case i == 0:
			out[i].Title = "To begin"
		case i == len(out)-1:
			out[i].Title = "To finish"
		default:
			out[i].Title = "Then"
		}
	}
	return out
}

// apart tells whether two sets of ways have none in common; the empty set
// stands for all.
func apart(a, b []string) bool {
	return len(a) > 0 && len(b) > 0 && !slices.ContainsFunc(a, func(w string) bool { return slices.Contains(b, w) })
}

// stepText writes a step: temperatures in both scales, lengths in both measures
// where asked, amounts scaled with the ingredients; and what the step holds but
// its text leaves out, after it.
func (b *builder) stepText(s *schema.Step) string {
	said := strings.ToLower(clean(s.Text))
	text := b.figures(clean(s.Text), s)
	text, unseen := b.temperatures(text, s.Temperature)
	text = b.sizes(text, s.Sizes)
	text = b.amounts(text)
	var extra []string
	for _, h := range s.Heat {
		if h = clean(h); !strings.Contains(strings.ToLower(text), strings.ToLower(h)) && !strings.Contains(strings.ToLower(text), strings.ReplaceAll(strings.ToLower(h), "-", " ")) {
			extra = append(extra, h+" heat")
		}
	}
	extra = append(extra, unseen...)
	for i := range s.Time {
		if !mentions(text, &s.Time[i]) {
			extra = append(extra, write(&s.Time[i], b.hand))
		}
	}
	if until := clean(s.Until); until != "" && !strings.Contains(said, strings.ToLower(until)) {
		extra = append(extra, "until "+strings.TrimPrefix(until, "until "))
	}
	if len(extra) > 0 {
		text = strings.TrimRight(text, ".") + " (" + strings.Join(extra, "; ") + ")."
	}
	text = sentence(b.tidy(text))
	if s.Optional && !strings.Contains(strings.ToLower(text), "optional") {
		text = "Optional: " + text
	}
	return text
}

// figure matches a number as a person writes it: 2, 2.5, 1/2, 1 1/2, 1½, ½.
const figure = `(?:\d+\s+\d+/\d+|\d+/\d+|\d*[½⅓⅔¼¾⅛⅜⅝⅞⅕⅙]|\d+(?:\.\d+)?)`

var (
	degrees    = regexp.MustCompile(`(?i)\b(\d{1,3})(?:\s*(?:-|–|to)\s*(\d{1,3}))?\s*(?:°|degrees?)?\s*(F|C|fahrenheit|celsius|centigrade)\b(?:,?\s+(?:fahrenheit|celsius|centigrade)\b)?`)
	gasMark    = regexp.MustCompile(`(?i)\bgas\s+(?:mark\s+)?(\d{1,2})\b`)
	scaledUnit = regexp.MustCompile(`(?i)(` + figure + `)(?:\s*(?:-|–|to)\s*(` + figure + `))?\s+` +
		`(cups?|tbsp|tablespoons?|tsp|teaspoons?|g|grams?|kg|ml|l|litres?|fl oz|oz|ounces?|lbs?|pounds?|sticks?|cans?|tins?|cloves?|pints?|quarts?)\b`)
	sides = regexp.MustCompile(`(?i)(` + figure + `)(?:\s*(?:x|×|by)\s*(` + figure + `))?[\s-]*(inches|inch|in\b|"|cm\b|centimetres?|centimeters?|mm\b)`)
)

var (
	mixed   = regexp.MustCompile(`\b(\d+ )?(\d)/(\d)\b`)
	ranged  = regexp.MustCompile(`(\d|[½⅓⅔¼¾⅛⅜⅝⅞⅕⅙])\s*-\s*(\d|[½⅓⅔¼¾⅛⅜⅝⅞⅕⅙])`)
	crossed = regexp.MustCompile(`(\d|[½⅓⅔¼¾⅛⅜⅝⅞⅕⅙]) x (\d)`)
)

// tidy sets the figures within a text as the hand sets all others.
func (b *builder) tidy(text string) string {
	if b.hand == plain {
		return text
	}
	text = mixed.ReplaceAllStringFunc(text, func(found string) string {
		if v := parse(found); v > 0 {
			return number(v, rich)
		}
		return found
	})
	return crossed.ReplaceAllString(ranged.ReplaceAllString(text, "$1–$2"), "$1 × $2")
}

// both writes a temperature in both scales, the one asked for first.
func (b *builder) both(q schema.Quantity, counterpart *schema.Quantity) string {
	first, second := q, schema.Quantity{}
	if counterpart != nil {
		second = *counterpart
	} else {
		var ok bool
		if second, ok = otherScale(q); !ok {
			return write(&q, b.hand)
		}
	}
	if (b.opt.Measures == "us" && second.Unit == "F") || (b.opt.Measures == "metric" && second.Unit == "C") {
		first, second = second, first
	}
	second.About = false
	return write(&first, b.hand) + " (" + write(&second, b.hand) + ")"
}

// temperatures puts each temperature of a text in both scales. The ones the
// step holds but the text doesn't name come back written.
func (b *builder) temperatures(text string, list []schema.Quantity) (string, []string) {
	paired := make([]*schema.Quantity, len(list)) // said in the other scale too
	for i := range list {
		for j := range list {
			if i != j && list[i].Unit != list[j].Unit && sameHeat(list[i], list[j]) {
				paired[i] = &list[j]
			}
		}
	}
	seen := make([]bool, len(list))
	replace := func(found string, lo, hi float64, unit string) string {
		for i := range list {
			if list[i].Unit != unit || list[i].Min != lo || list[i].Max != hi {
				continue
			}
			seen[i] = true
			if paired[i] != nil {
				return write(&list[i], b.hand) // its pair stands in the text, or is added below
			}
			bare := list[i]
			bare.About = false // the text has its own "about"
			return b.both(bare, nil)
		}
		return found
	}
	text = degrees.ReplaceAllStringFunc(text, func(found string) string {
		m := degrees.FindStringSubmatch(found)
		lo := parse(m[1])
		hi := lo
		if m[2] != "" {
			hi = parse(m[2])
		}
		return replace(found, lo, hi, strings.ToUpper(m[3][:1]))
	})
	text = gasMark.ReplaceAllStringFunc(text, func(found string) string {
		v := parse(gasMark.FindStringSubmatch(found)[1])
		return replace(found, v, v, "gas")
	})
	var unseen []string
	for i := range list {
		if seen[i] {
			continue
		}
		seen[i] = true
		if paired[i] == nil {
			unseen = append(unseen, inRow(b.both(list[i], nil)))
			continue
		}
		done := false
		for j := range list {
			if &list[j] == paired[i] {
				done = seen[j]
				seen[j] = true
			}
		}
		if done {
			unseen = append(unseen, write(&list[i], b.hand))
		} else {
			unseen = append(unseen, inRow(b.both(list[i], paired[i])))
		}
	}
	return text, unseen
}

// inRow sets "350 °F (175 °C)" without its brackets, for use inside others.
func inRow(s string) string { return strings.Replace(strings.TrimSuffix(s, ")"), " (", ", ", 1) }

// sameHeat tells whether two temperatures are one said in two scales: spoken
// pairs are rounded, so within 10 F they agree (common practice).
func sameHeat(a, b schema.Quantity) bool {
	fa, okA := schema.Fahrenheit(a.Min, a.Unit)
	fb, okB := schema.Fahrenheit(b.Min, b.Unit)
	return okA && okB && math.Abs(fa-fb) <= 10
}

// parse reads a figure that the patterns above matched.
func parse(s string) float64 {
	q, err := schema.ParseQuantity(s)
	if err != nil {
		return 0
	}
	return q.Min
}

// sizes adds the other measure to lengths and tins, where both are asked for
// or the other one alone is: to those of a list, or with none to every one.
func (b *builder) sizes(text string, list []schema.Quantity) string {
	if b.opt.Measures == "" {
		return text
	}
	add := func(found string, q *schema.Quantity) string {
		if b.opt.Measures != "both" && household(q.Unit) == (b.opt.Measures == "us") {
			return found
		}
		b.worked = true
		return found + " [" + b.other(q, nil, "") + "]"
	}
	return sides.ReplaceAllStringFunc(text, func(found string) string {
		m := sides.FindStringSubmatch(found)
		unit, _ := schema.CanonicalUnit(strings.ToLower(m[3]))
		for i := range list {
			q := &list[i]
			if q.Unit == unit && q.Min == parse(m[1]) && (m[2] == "") == (len(q.By) == 0) {
				bare := *q
				bare.About = false
				return add(found, &bare)
			}
		}
		if list != nil || parse(m[1]) <= 0 {
			return found
		}
		q := schema.Quantity{Min: parse(m[1]), Max: parse(m[1]), Unit: unit}
		if m[2] != "" {
			q.By = []float64{parse(m[2])}
		}
		return add(found, &q)
	})
}

// amounts scales the amounts a step's text names: the whole amount of an
// ingredient the text names too. Any other ("1 tbsp a pancake") stays as it was
// said, and the sheet warns of it.
func (b *builder) amounts(text string) string {
	if b.factor == 1 {
		return text
	}
	for i := range b.original.Ingredients {
		ing := &b.original.Ingredients[i]
		if ing.Amount == nil || ing.Amount.Unit != "" || ing.Amount.Text != "" {
			continue
		}
		// "3 onions": things counted
		bare := *ing.Amount
		bare.About = false
		words := lower(bare.String() + " " + clean(ing.Name))
		if from := strings.Index(lower(text), words); from >= 0 && wordAt(lower(text), from, from+len(words)) {
			text = text[:from] + b.amount(scaled(&bare, b.factor), ing.Name) + text[from+len(bare.String()):]
		}
	}
	low := strings.ToLower(text)
	return scaledUnit.ReplaceAllStringFunc(text, func(found string) string {
		m := scaledUnit.FindStringSubmatch(found)
		unit, ok := schema.CanonicalUnit(strings.ToLower(m[3]))
		if !ok {
			return found
		}
		lo := parse(m[1])
		hi := lo
		if m[2] != "" {
			hi = parse(m[2])
		}
		for _, i := range b.byAmount[amountKey{unit, lo, hi}] {
			ing := &b.original.Ingredients[i]
			if words := strings.Fields(strings.ToLower(ing.Name)); len(words) > 0 && strings.Contains(low, words[len(words)-1]) {
				return b.amount(scaled(&schema.Quantity{Min: lo, Max: hi, Unit: unit}, b.factor), ing.Name)
			}
		}
		b.unscaled = append(b.unscaled, found)
		return found
	})
}

// mentions tells whether a text already gives a time.
func mentions(text string, q *schema.Quantity) bool {
	if q.Overnight || q.Vague != "" {
		word := "overnight"
		if q.Vague != "" {
			word = q.Vague
		}
		return strings.Contains(strings.ToLower(text), strings.ToLower(word))
	}
	return placeOf(text, q) >= 0
}

var clockWords = regexp.MustCompile(`(?i)(` + figure + `)(?:\s*(?:-|–|to|or)\s*(` + figure + `))?(?:\s+(?:whole|full|more|good|solid|extra|further|long))?[\s-]*(seconds?|secs?|minutes?|mins?|hours?|hrs?|days?|weeks?|months?)\b`)

// placeOf is where in a text a time stands, -1 where it doesn't.
func placeOf(text string, q *schema.Quantity) int {
	if q.Overnight {
		return strings.Index(strings.ToLower(text), "overnight")
	}
	for _, at := range clockWords.FindAllStringSubmatchIndex(text, -1) {
		lo := parse(text[at[2]:at[3]])
		hi := lo
		if at[4] >= 0 {
			hi = parse(text[at[4]:at[5]])
		}
		unit, ok := schema.CanonicalUnit(strings.ToLower(text[at[6]:at[7]]))
		if ok && unit == q.Unit && near(lo, q.Min, 0.005) && near(hi, q.Max, 0.005) {
			return at[0]
		}
	}
	low := lower(text)
	for _, words := range idioms(q) {
		if i := strings.Index(low, words); i >= 0 {
			return i
		}
	}
	return -1
}

// idioms are the ways a time is written without figures, and stays so.
func idioms(q *schema.Quantity) []string {
	end := func(v float64) string {
		return map[float64]string{0.25: "quarter of an hour", 0.5: "half an hour", 0.75: "three quarters of an hour", 1: "an hour", 1.5: "an hour and a half"}[v]
	}
	switch {
	case q.Unit == "hour" && q.Min == 0.5 && q.Max == 0.5:
		return []string{end(q.Min), "half hour"}
	case q.Unit == "hour" && q.Min == q.Max && end(q.Min) != "":
		return []string{end(q.Min)}
	case q.Unit == "hour" && end(q.Min) != "" && end(q.Max) != "":
		return []string{end(q.Min) + " to " + end(q.Max), end(q.Min) + " or " + end(q.Max)}
	case q.Unit == "minute" && q.Min == 30 && q.Max == 30:
		return []string{"half an hour"}
	case q.Min == 1 && q.Max == 1:
		return []string{"a " + q.Unit, "one more " + q.Unit, "another " + q.Unit}
	case q.Min == q.Max:
		var out []string
		for _, words := range inWords(q.Min) {
			out = append(out, words+" more "+q.Unit)
		}
		return out
	}
	return nil
}

// figures puts the step's times and temperatures in figures where its text
// still has them in words ("twenty-two to twenty-five minutes"), as a written
// recipe does.
func (b *builder) figures(text string, s *schema.Step) string {
	low := lower(text)
	replace := func(words, tail string, q *schema.Quantity) bool {
		from := strings.Index(low, words)
		if from < 0 || !wordAt(low, from, from+len(words)) {
			return false
		}
		to := from + len(words)
		// The unit and what belongs to it go with the number.
		for _, rest := range strings.Split(tail, "|") {
			if after := strings.TrimLeft(low[to:], " "); rest != "" && strings.HasPrefix(after, rest) {
				end := len(low) - len(after) + len(rest)
				if wordAt(low, from, end) {
					to = end
				}
			}
		}
		bare := *q
		bare.About = false
		text = text[:from] + write(&bare, b.hand) + text[to:]
		low = lower(text)
		return true
	}
	for i := range s.Time {
		q := &s.Time[i]
		if q.Overnight || q.Vague != "" || placeOf(text, q) >= 0 {
			continue
		}
		for _, words := range spellings(q) {
			if replace(words+" "+q.Unit, "s", q) || replace(words+" "+q.Unit+"s", "", q) {
				break
			}
		}
	}
	for i := range s.Temperature {
		q := &s.Temperature[i]
		for _, words := range spellings(q) {
			if q.Unit != "gas" && q.Min >= 30 && replace(words, "degrees|fahrenheit|celsius|centigrade|f|c", q) {
				break
			}
		}
		text = withScale(text, q, b.hand)
	}
	return text
}

// bareHeat matches a figure that may be a temperature, and the word after it.
var bareHeat = regexp.MustCompile(`(?i)(\d{2,3})(?:(?:-|–| to )(\d{2,3}))?( degrees\b)?( [a-z°½"]+)?`)

// withScale gives a temperature that a text has without its scale the one that the
// step knows: "to 180", "75 degrees".
func withScale(text string, q *schema.Quantity, h hand) string {
	if q.Unit == "gas" || q.Min < 30 {
		return text
	}
	for _, at := range bareHeat.FindAllStringSubmatchIndex(text, -1) {
		lo := parse(text[at[2]:at[3]])
		hi, to := lo, at[3]
		if at[4] >= 0 {
			hi, to = parse(text[at[4]:at[5]]), at[5]
		}
		if lo != q.Min || hi != q.Max || !wordAt(text, at[0], to) || strings.HasPrefix(text[to:], "°") || strings.HasPrefix(text[to:], ".") && len(text) > to+1 && text[to+1] >= '0' && text[to+1] <= '9' {
			continue
		}
		next := ""
		if at[8] >= 0 {
			next = strings.ToLower(strings.TrimSpace(text[at[8]:at[9]]))
		}
		if at[6] >= 0 {
			to = at[7]
		} else if !leadsToHeat(text[:at[0]]) {
			continue
		}
		if _, unit := schema.CanonicalUnit(next); next != "" && unit || next == "c" || next == "f" || strings.HasPrefix(next, "°") || next == "x" || next == "by" {
			continue // a scale stands there, or it is something else
		}
		bare := *q
		bare.About = false
		return text[:at[0]] + write(&bare, h) + text[to:]
	}
	return text
}

// leadsToHeat tells whether the words before a figure announce a temperature.
func leadsToHeat(before string) bool {
	words := strings.Fields(strings.ToLower(before))
	if len(words) == 0 {
		return false
	}
	switch words[len(words)-1] {
	case "to", "at", "on", "reads", "hits", "reaches", "around", "about":
		return true
	}
	return false
}

// lower lowers the letters A to Z, so that places in the result are places in
// the text.
func lower(s string) string {
	out := []byte(s)
	for i, c := range out {
		if c >= 'A' && c <= 'Z' {
			out[i] = c + 'a' - 'A'
		}
	}
	return string(out)
}

// wordAt tells whether a stretch of a text begins and ends with whole words.
func wordAt(s string, from, to int) bool {
	letter := func(i int) bool {
		return i >= 0 && i < len(s) && (s[i] >= 'a' && s[i] <= 'z' || s[i] >= '0' && s[i] <= '9' || s[i] == '-')
	}
	return !letter(from-1) && !letter(to)
}

// spellings are the ways a quantity's figures are said in words.
func spellings(q *schema.Quantity) []string {
	lo := inWords(q.Min)
	if q.Min == q.Max {
		return lo
	}
	var out []string
	for _, a := range lo {
		for _, b := range inWords(q.Max) {
			for _, between := range []string{" to ", " or ", "-to-"} {
				out = append(out, a+between+b)
			}
		}
	}
	return out
}

var (
	small = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
	tens  = strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")
)

// inWords are the ways a number up to 999 is said, halves among them; oven heat
// is said in pairs ("three fifty").
func inWords(v float64) []string {
	whole := math.Floor(v)
	if v < 0 || v >= 1000 {
		return nil
	}
	if v != whole {
		if v-whole != 0.5 || whole == 0 || whole > 99 {
			return nil
		}
		var out []string
		for _, w := range inWords(whole) {
			out = append(out, w+" and a half")
		}
		return out
	}
	n := int(v)
	switch {
	case n < 20:
		return small[n : n+1]
	case n < 100 && n%10 == 0:
		return tens[n/10 : n/10+1]
	case n < 100:
		return []string{tens[n/10] + "-" + small[n%10], tens[n/10] + " " + small[n%10]}
	}
	hundreds := []string{small[n/100] + " hundred"}
	if n/100 == 1 {
		hundreds = append(hundreds, "a hundred")
	}
	if n%100 == 0 {
		return hundreds
	}
	var out []string
	for _, rest := range inWords(float64(n % 100)) {
		for _, h := range hundreds {
			out = append(out, h+" and "+rest, h+" "+rest)
		}
		out = append(out, small[n/100]+" "+rest)
	}
	return out
}
