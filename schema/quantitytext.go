package schema

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxQuantityText is the longest text read as a quantity, in bytes. Nothing a
// person types for an amount comes near it.
const maxQuantityText = 200

// ParseQuantity reads an amount, a time, a temperature or a length as a person
// types it: AcceptedQuantity says what. Fractions may be "1/2", "½", "1 1/2" or
// decimals; units may be plural or spelled out. Text is kept only where it
// differs from the canonical text of the same quantity. The error wraps
// ErrQuantity, shows the text and says what is accepted.
func ParseQuantity(text string) (Quantity, error) {
	return parse(text, asAmount)
}

// ParseYield reads what a recipe makes: a number or a range and a free noun,
// which becomes the unit ("24 cookies", "4-6 servings"); measures ("500 ml")
// are read as units. The error wraps ErrQuantity, shows the text and says what
// is accepted.
func ParseYield(text string) (Quantity, error) {
	return parse(text, asYield)
}

func parse(text string, as role) (Quantity, error) {
	clean := strings.Join(strings.Fields(text), " ")
	q, reason := read(clean, as == asYield)
	if reason == "" {
		reason = reasonOf(q.check(as))
	}
	if reason != "" {
		return Quantity{}, &QuantityError{Text: clean, Reason: reason, Accepted: as.accepted()}
	}
	if canonical := q.canonical(); canonical.sameFields(q, 0) && canonical.write() == clean {
		return canonical, nil
	}
	q.Text = clean
	return q, nil
}

// reasonOf gives the reason of a QuantityError, "" for nil.
func reasonOf(err error) string {
	var q *QuantityError
	switch {
	case err == nil:
		return ""
	case errors.As(err, &q):
		return q.Reason
	}
	return err.Error()
}

// shorten keeps an error message readable when a whole file was given as a
// quantity.
func shorten(text string) string {
	const most = 60
	if len(text) <= most {
		return text
	}
	cut := most
	for cut > 0 && !utf8.RuneStart(text[cut]) {
		cut--
	}
	return text[:cut] + "…"
}

// vulgar gives the fraction a single character stands for.
var vulgar = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5",
	'⅙': "1/6", '⅚': "5/6", '⅐': "1/7", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅑': "1/9", '⅒': "1/10",
}

// numberWords are the words read as a number before a unit.
var numberWords = map[string]float64{
	"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "half": 0.5,
}

// token is one piece of a quantity's text: a number as digits, a word, or a
// sign.
type token struct {
	kind  byte   // 'n' number, 'f' fraction, 'w' word, or the sign itself
	text  string // as typed, lower case for words
	typed string // as typed
	value float64
	begin int // where it begins, in bytes of the text
}

// tokens splits text; the second result is a reason when a character has no
// place in a quantity. A yield's noun may hold anything, so there such a
// character is a token of the kind '?'.
func tokens(text string, yield bool) ([]token, string) {
	var out []token
	rs := []rune(text)
	begin, counted := 0, 0
	for i := 0; i < len(rs); {
		for ; counted < i; counted++ {
			begin += utf8.RuneLen(rs[counted])
		}
		add := func(t token) {
			t.begin = begin
			out = append(out, t)
		}
		r := rs[i]
		switch {
		case unicode.IsSpace(r):
			i++
		case vulgar[r] != "":
			add(token{kind: 'f', text: vulgar[r], typed: vulgar[r], value: fractionValue(vulgar[r])})
			i++
		case isDigit(r) || r == '.' && i+1 < len(rs) && isDigit(rs[i+1]):
			j := i
			for j < len(rs) && (isDigit(rs[j]) || j+1 < len(rs) && isDigit(rs[j+1]) && strings.ContainsRune(".,/⁄", rs[j])) {
				j++
			}
			t, reason := number(string(rs[i:j]))
			if reason != "" {
				if !yield {
					return nil, reason
				}
				t.kind = '?'
			}
			add(t)
			i = j
		case unicode.IsLetter(r) && signs[r] == 0:
			j := i
			for j < len(rs) && (unicode.IsLetter(rs[j]) || unicode.IsMark(rs[j]) || rs[j] == '\'' || rs[j] == '’' ||
				rs[j] == '-' && j > i && j+1 < len(rs) && unicode.IsLetter(rs[j+1])) {
				j++
			}
			word := string(rs[i:j])
			if j < len(rs) && rs[j] == '.' {
				j++ // an abbreviation: "oz."
			}
			add(token{kind: 'w', text: strings.ToLower(word), typed: word})
			i = j
		default:
			kind, ok := signs[r]
			if !ok {
				if !yield {
					return nil, fmt.Sprintf("the character %q has no place in it", r)
				}
				kind = '?'
			}
			add(token{kind: kind, text: string(kind), typed: string(r)})
			i++
		}
	}
	return out, ""
}

// signs are the characters with a meaning, and the one each is read as.
var signs = map[rune]byte{
	'-': '-', '–': '-', '—': '-', '−': '-', '‐': '-', '‑': '-',
	'×': 'x', '(': '(', ')': ')', '~': '~', '≈': '~', '°': 'o', 'º': 'o', '"': '"', '″': '"', '”': '"',
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

func fractionValue(text string) float64 {
	top, bottom, _ := strings.Cut(text, "/")
	t, _ := strconv.ParseFloat(top, 64)
	b, _ := strconv.ParseFloat(bottom, 64)
	return t / b
}

// number reads a run of digits: "225", "1,000", "2.5", "1/2".
func number(s string) (token, string) {
	s = strings.ReplaceAll(s, "⁄", "/")
	t := token{kind: 'n', text: s, typed: s}
	if top, bottom, ok := strings.Cut(s, "/"); ok {
		t.kind = 'f'
		a, errA := strconv.ParseUint(top, 10, 32)
		b, errB := strconv.ParseUint(bottom, 10, 32)
		if errA != nil || errB != nil || b == 0 {
			return t, fmt.Sprintf("%q is no fraction", s)
		}
		t.value = float64(a) / float64(b)
		return t, ""
	}
	whole, _, _ := strings.Cut(s, ".")
	groups := strings.Split(whole, ",")
	for i, g := range groups {
		if len(groups) > 1 && (len(g) != 3 && i > 0 || len(g) == 0 || len(g) > 3) {
			return t, fmt.Sprintf("%q is no number: a comma stands only before three digits, a point before decimals", s)
		}
	}
	if strings.Count(s, ".") > 1 || strings.Contains(s[len(whole):], ",") {
		return t, fmt.Sprintf("%q is no number", s)
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(s, ",", ""), 64)
	if err != nil || v > largestNumber {
		return t, fmt.Sprintf("%q is no number a quantity can have", s)
	}
	t.value = v
	return t, ""
}

// reader walks the tokens of one quantity.
type reader struct {
	text  string
	toks  []token
	at    int
	yield bool
}

func (r *reader) peek(ahead int) token {
	if r.at+ahead < len(r.toks) {
		return r.toks[r.at+ahead]
	}
	return token{}
}

func (r *reader) done() bool { return r.at >= len(r.toks) }

// word steps over any of the words and reports whether it did.
func (r *reader) word(words ...string) bool {
	t := r.peek(0)
	if t.kind != 'w' {
		return false
	}
	for _, w := range words {
		if t.text == w {
			r.at++
			return true
		}
	}
	return false
}

func (r *reader) sign(kind byte) bool {
	if r.peek(0).kind == kind {
		r.at++
		return true
	}
	return false
}

// rest shows the tokens not read yet, for messages.
func (r *reader) rest() string {
	var words []string
	for _, t := range r.toks[r.at:] {
		words = append(words, t.typed)
	}
	return strings.Join(words, " ")
}

// read turns clean text into a quantity; the second result is the reason when
// it cannot.
func read(text string, yield bool) (Quantity, string) {
	if text == "" {
		return Quantity{}, "it is empty"
	}
	if len(text) > maxQuantityText {
		return Quantity{}, "it is too long"
	}
	if !utf8.ValidString(text) {
		return Quantity{}, "it is not UTF-8"
	}
	toks, reason := tokens(text, yield)
	if reason != "" {
		return Quantity{}, reason
	}
	r := &reader{text: text, toks: toks, yield: yield}
	if !yield && r.word("overnight") {
		if !r.done() {
			return Quantity{}, fmt.Sprintf("%q follows overnight, which stands alone", r.rest())
		}
		return OvernightTime(), ""
	}
	serves := yield && r.word("serves")
	if yield && !serves {
		r.word("makes")
	}
	q, reason := r.quantity(true)
	if reason != "" {
		return Quantity{}, reason
	}
	if serves && q.Unit == "" {
		q.Unit = "servings"
	}
	if !r.done() {
		return Quantity{}, fmt.Sprintf("%q is left over", r.rest())
	}
	return q, ""
}

// quantity reads everything but a whole-text word like overnight. Only the
// outermost one may have a size in brackets.
func (r *reader) quantity(outer bool) (Quantity, string) {
	about := r.word("about", "around", "roughly", "approximately", "approx", "circa") || r.sign('~')
	q, reason := r.body()
	if reason != "" {
		return q, reason
	}
	q.About = about
	if r.peek(0).text == "or" && r.peek(1).text == "so" {
		r.at += 2
		q.About = true
	}
	if !outer || r.yield {
		return q, ""
	}
	if container, size, ok := r.sizedContainer(q); ok {
		q.Unit, q.Size, q.By = container, size, nil
		return q, ""
	}
	if r.sign('(') {
		size, reason := r.quantity(false)
		if reason != "" {
			return q, reason
		}
		if !r.sign(')') {
			return q, "the bracket is not closed after the size"
		}
		q.Size = &size
		if q.Unit == "" {
			unit, reason := r.unit()
			if reason != "" {
				return q, reason
			}
			q.Unit = unit
		}
	}
	return q, ""
}

// sizedContainer reads the rest of "2 14-oz cans" and "2 x 14 oz cans", where
// what was read so far is q: two numbers with the unit of the second, or the
// first number alone.
func (r *reader) sizedContainer(q Quantity) (container string, size *Quantity, ok bool) {
	start := r.at
	var inner Quantity
	switch {
	case len(q.By) == 1 && q.Min == q.Max && q.Unit != "":
		inner = Single(q.By[0], q.Unit)
	case q.Unit == "" && len(q.By) == 0 && (r.peek(0).kind == 'n' || r.peek(0).kind == 'f'):
		value, reason := r.number()
		if reason != "" {
			r.at = start
			return "", nil, false
		}
		r.hyphen()
		unit, reason := r.unit()
		if reason != "" || unit == "" {
			r.at = start
			return "", nil, false
		}
		inner = Single(value, unit)
	default:
		return "", nil, false
	}
	r.hyphen()
	unit, reason := r.unit()
	if reason != "" || unit == "" || DimensionOf(unit) != Count {
		r.at = start
		return "", nil, false
	}
	return unit, &inner, true
}

// hyphen steps over the hyphen of "14-oz".
func (r *reader) hyphen() {
	if r.peek(0).kind == '-' && r.peek(1).kind == 'w' {
		r.at++
	}
}

// body reads a gas mark, a size of several sides, or a value or range with its
// unit.
func (r *reader) body() (Quantity, string) {
	if !r.yield && r.word("gas") {
		r.word("mark")
		least, most, reason := r.bareRange()
		if reason != "" {
			return Quantity{}, reason
		}
		return Between(least, most, "gas"), ""
	}
	if r.peek(0).text == "up" && r.peek(1).text == "to" {
		r.at += 2
		v, unit, reason := r.value()
		if reason != "" {
			return Quantity{}, reason
		}
		if dim := DimensionOf(unit); dim == TemperatureDimension {
			return Quantity{}, "a temperature has a lowest figure too"
		}
		return Between(0, v, unit), ""
	}
	between := r.word("between")
	first, firstUnit, reason := r.value()
	if reason != "" {
		return Quantity{}, reason
	}
	if firstUnit == "" {
		if q, ok, reason := r.sides(first); ok || reason != "" {
			return q, reason
		}
	}
	if !r.rangeSign(between) {
		if between {
			return Quantity{}, `"between" needs two numbers`
		}
		return Single(first, firstUnit), ""
	}
	second, secondUnit, reason := r.value()
	if reason != "" {
		return Quantity{}, reason
	}
	if firstUnit == "" {
		return Between(first, second, secondUnit), ""
	}
	if secondUnit == "" {
		return Quantity{}, fmt.Sprintf("the second number of the range has no unit beside %q", firstUnit)
	}
	if firstUnit != secondUnit {
		a, b, unit, ok := commonUnit(first, firstUnit, second, secondUnit)
		if !ok {
			return Quantity{}, fmt.Sprintf("the range has two units, %q and %q", firstUnit, secondUnit)
		}
		return Between(a, b, unit), ""
	}
	return Between(first, second, firstUnit), ""
}

// rangeSign steps over what joins the two ends of a range.
func (r *reader) rangeSign(between bool) bool {
	if between {
		return r.word("and")
	}
	if r.peek(0).text == "or" && r.peek(1).text == "so" {
		return false
	}
	if r.peek(0).kind == '-' && r.peek(1).kind == 'w' && !r.numberAhead(1) {
		return false
	}
	return r.sign('-') || r.word("to", "or")
}

func (r *reader) numberAhead(ahead int) bool {
	t := r.peek(ahead)
	if t.kind == 'n' || t.kind == 'f' {
		return true
	}
	_, ok := numberWords[t.text]
	return t.kind == 'w' && ok
}

// bareRange reads the one or two numbers of a gas mark.
func (r *reader) bareRange() (least, most float64, reason string) {
	least, reason = r.number()
	if reason != "" {
		return 0, 0, reason
	}
	if !r.rangeSign(false) {
		return least, least, ""
	}
	most, reason = r.number()
	return least, most, reason
}

// sides reads the rest of "9 x 13 inch" after its first number.
func (r *reader) sides(first float64) (Quantity, bool, string) {
	q := Single(first, "")
	for r.sign('x') || r.word("x", "by") {
		side, reason := r.number()
		if reason != "" {
			return q, false, reason
		}
		q.By = append(q.By, side)
	}
	if len(q.By) == 0 {
		return q, false, ""
	}
	r.hyphen()
	unit, reason := r.unit()
	if reason != "" {
		return q, false, reason
	}
	q.Unit = unit
	return q, true, ""
}

// value reads a number with its unit, "" where none stands there, and the
// further smaller units of a time or weight ("1 hour 30 minutes", "2 lb 3 oz").
func (r *reader) value() (float64, string, string) {
	negative := r.peek(0).kind == '-'
	if negative {
		r.at++
	}
	v, reason := r.number()
	if reason != "" {
		return 0, "", reason
	}
	if negative {
		v = -v
	}
	if r.peek(0).kind == 'o' && r.peek(1).kind != 'w' {
		return 0, "", "degrees of what: F or C?"
	}
	if !r.sideAhead() {
		r.hyphen()
	}
	unit, reason := r.unit()
	if reason != "" || unit == "" {
		return v, unit, reason
	}
	for {
		start := r.at
		r.word("and")
		if !r.numberAhead(0) {
			r.at = start
			return v, unit, ""
		}
		more, reason := r.number()
		if reason != "" {
			r.at = start
			return v, unit, ""
		}
		smaller, reason := r.unit()
		if reason != "" || !isPartOf(unit, smaller) {
			r.at = start
			return v, unit, ""
		}
		inA, inB, common, ok := commonUnit(v, unit, more, smaller)
		if !ok {
			r.at = start
			return v, unit, ""
		}
		v, unit = inA+inB, common
	}
}

// sideAhead reports whether a size's "x" or "by" comes next.
func (r *reader) sideAhead() bool {
	t := r.peek(0)
	return t.kind == 'x' || t.text == "x" || t.text == "by"
}

// number reads one number: "2", "1/2", "1 1/2", "1-1/2", "1 and 1/2", "2 1/2
// dozen", "a", "half a".
func (r *reader) number() (float64, string) {
	t := r.peek(0)
	var v float64
	switch {
	case t.kind == 'f':
		r.at++
		v = t.value
	case t.kind == 'n':
		r.at++
		v = t.value
		skip := 0
		switch next := r.peek(0); {
		case next.kind == '-' && v >= 1:
			skip = 1 // 1-1/2 as a range would run backwards
		case next.kind == 'w' && next.text == "and":
			skip = 1
		}
		if f := r.peek(skip); f.kind == 'f' && f.value < 1 && v == float64(int64(v)) {
			r.at += skip + 1
			v += f.value
		}
	case t.kind == 'w':
		n, ok := numberWords[t.text]
		if !ok {
			return 0, fmt.Sprintf("a number is needed where %q stands", t.typed)
		}
		r.at++
		v = n
		if t.text == "half" {
			r.word("a", "an")
		}
	case t.kind == 0:
		return 0, "a number is missing at the end"
	default:
		return 0, fmt.Sprintf("a number is needed where %q stands", t.typed)
	}
	if r.word("dozen") {
		v *= 12
	}
	return v, ""
}

// longestUnit is the most tokens a unit has: "degrees fahrenheit" is two.
const longestUnit = 2

// unit reads the unit that stands next, "" when none does. In a yield a noun
// that is no unit is taken whole, up to a bracket or the end.
func (r *reader) unit() (string, string) {
	for n := longestUnit; n >= 1; n-- {
		var words []string
		for i := 0; i < n; i++ {
			t := r.peek(i)
			switch t.kind {
			case 'w':
				words = append(words, t.typed)
			case 'o':
				words = append(words, "°")
			case '"':
				words = append(words, `"`)
			}
		}
		if len(words) != n {
			continue
		}
		if r.yield && n == 1 && r.peek(1).kind == 'w' {
			continue // "2 cup cakes": the noun is longer than the unit
		}
		row := spelledUnit(strings.Join(words, " "))
		if row == nil || r.yield && sameWord(strings.Join(words, " ")) == nil {
			continue
		}
		r.at += n
		return row.name, ""
	}
	t := r.peek(0)
	switch {
	case t.kind == 'o':
		return "", "degrees of what: F or C?"
	case r.yield && r.measuredNoun():
		return r.noun()
	case t.kind != 'w' || t.text == "to" || t.text == "or" || t.text == "and" || t.text == "x" || t.text == "by":
		return "", ""
	case r.yield:
		return r.noun()
	case t.text == "degrees" || t.text == "degree" || t.text == "deg":
		return "", "degrees of what: F or C?"
	}
	return "", fmt.Sprintf("%q is not a unit", t.typed)
}

// measuredNoun reports whether a yield's noun comes next that begins with a
// measure, as in "2 8-inch cakes".
func (r *reader) measuredNoun() bool {
	if k := r.peek(0).kind; k != 'n' && k != 'f' {
		return false
	}
	next := 1
	if r.peek(next).kind == '-' {
		next++
	}
	row := spelledUnit(r.peek(next).typed)
	return row != nil && row.size > 0 && r.peek(next+1).kind == 'w'
}

// noun takes the rest of a yield's text as the thing made: "generous slices".
func (r *reader) noun() (string, string) {
	begin, end := r.toks[r.at].begin, len(r.text)
	r.at = len(r.toks)
	if n := len(r.toks); n > 2 && r.toks[n-2].text == "or" && r.toks[n-1].text == "so" {
		r.at = n - 2
		end = r.toks[r.at].begin
	}
	noun := strings.TrimSpace(r.text[begin:end])
	if row := sameWord(noun); row != nil {
		return row.name, ""
	}
	return noun, ""
}

// isPartOf reports whether smaller is a smaller unit whose number can follow
// unit's in one amount without depending on anybody's measures.
func isPartOf(unit, smaller string) bool {
	a, b := DimensionOf(unit), DimensionOf(smaller)
	if a != b || a != TimeDimension && (unit != "lb" || smaller != "oz") {
		return false
	}
	big, _ := sized(unit, a)
	small, _ := sized(smaller, a)
	return small < big
}

// commonUnit gives two values in the smaller of their units, where the factor
// between them is a whole number: times, weights and metric volumes.
func commonUnit(a float64, unitA string, b float64, unitB string) (inA, inB float64, unit string, ok bool) {
	dim := DimensionOf(unitA)
	if dim != DimensionOf(unitB) {
		return 0, 0, "", false
	}
	sizeA, okA := sized(unitA, dim)
	sizeB, okB := sized(unitB, dim)
	if !okA || !okB || sizeA == 0 || sizeB == 0 {
		return 0, 0, "", false
	}
	if sizeA < sizeB {
		inB, inA, unit, ok = commonUnit(b, unitB, a, unitA)
		return inA, inB, unit, ok
	}
	factor := sizeA / sizeB
	whole := float64(int64(factor + 0.5))
	if dim == VolumeDimension && !(unitA == "l" && unitB == "ml") || factor-whole > 1e-9 || whole-factor > 1e-9 {
		return 0, 0, "", false
	}
	return a * whole, b, unitB, true
}
