package language

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Number is a number or range read from the talk.
type Number struct {
	Min, Max float64
	// Colloquial is a number said like a clock or an oven dial: "three fifty",
	// "two oh five". It is a plain 350 or 205 only where a temperature, a price
	// or a year can stand.
	Colloquial bool
	// Article is set when the number is only "a" or "an".
	Article bool
	// Fraction is set for a bare fraction: "half", "three quarters".
	Fraction bool
	// Decimal spelled digits ("2", "350").
	Digits bool
	// Vague is set for "a couple": a number, loosely.
	Vague bool
}

// part is the kind of a word of a spelled number.
type part uint8

const (
	noPart part = iota
	onesPart
	teensPart
	tensPart
)

// spell gives the value of a word of a spelled number and its kind.
func spell(w string) (float64, part) {
	switch w {
	case "zero", "nought", "naught":
		return 0, onesPart
	case "one":
		return 1, onesPart
	case "two":
		return 2, onesPart
	case "three":
		return 3, onesPart
	case "four":
		return 4, onesPart
	case "five":
		return 5, onesPart
	case "six":
		return 6, onesPart
	case "seven":
		return 7, onesPart
	case "eight":
		return 8, onesPart
	case "nine":
		return 9, onesPart
	case "ten":
		return 10, teensPart
	case "eleven":
		return 11, teensPart
	case "twelve":
		return 12, teensPart
	case "thirteen":
		return 13, teensPart
	case "fourteen":
		return 14, teensPart
	case "fifteen":
		return 15, teensPart
	case "sixteen":
		return 16, teensPart
	case "seventeen":
		return 17, teensPart
	case "eighteen":
		return 18, teensPart
	case "nineteen":
		return 19, teensPart
	case "twenty":
		return 20, tensPart
	case "thirty":
		return 30, tensPart
	case "forty", "fourty":
		return 40, tensPart
	case "fifty":
		return 50, tensPart
	case "sixty":
		return 60, tensPart
	case "seventy":
		return 70, tensPart
	case "eighty":
		return 80, tensPart
	case "ninety":
		return 90, tensPart
	}
	return 0, noPart
}

// ones gives the value of a word for a single digit.
func ones(w string) (float64, bool) {
	v, p := spell(w)
	return v, p == onesPart
}

// pointing reports whether w points at what was spoken of, in the place of an article.
func pointing(w string) bool {
	switch w {
	case "the", "that", "those", "these", "this", "my", "your":
		return true
	}
	return false
}

// startsNone reports whether no number can begin with the word, so that
// nothing more is asked about it.
func startsNone(w string) bool {
	if w == "" || w[0] < 'a' || w[0] > 'z' {
		return false
	}
	switch w {
	case "a", "an", "between", "from", "couple", "dozen", "half", "quarter", "hundred":
		return false
	}
	_, p := spell(w)
	return p == noPart
}

var denominators = map[string]float64{
	"half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4,
	"fifth": 5, "fifths": 5, "sixth": 6, "sixths": 6, "eighth": 8, "eighths": 8, "tenth": 10, "tenths": 10, "sixteenth": 16, "sixteenths": 16,
}
var glyphs = map[rune]float64{
	'½': 1. / 2, '¼': 1. / 4, '¾': 3. / 4, '⅓': 1. / 3, '⅔': 2. / 3, '⅛': 1. / 8, '⅜': 3. / 8, '⅝': 5. / 8, '⅞': 7. / 8,
}

// numberWord reports whether w can begin or go on a spelled number.
func numberWord(w string) bool {
	_, p := spell(w)
	return p != noPart || w == "hundred" || w == "thousand"
}

// ReadNumber reads the number that begins at toks[i], with ranges ("two or
// three", "ten to fifteen", "between two and three"), and tells how many
// tokens it took; 0 when there is none.
func ReadNumber(toks []Token, i int) (Number, int) {
	if i >= len(toks) || toks[i].numberless {
		return Number{}, 0
	}
	if toks[i].Norm == "between" || toks[i].Norm == "from" {
		a, n := single(toks, i+1)
		if n > 0 && i+1+n < len(toks) {
			if j := i + 1 + n; toks[j].Norm == "and" || toks[j].Norm == "to" {
				if b, m := single(toks, j+1); m > 0 && b.Min > a.Max {
					return Number{Min: a.Min, Max: b.Max, Colloquial: a.Colloquial || b.Colloquial}, 1 + n + 1 + m
				}
			}
		}
		if toks[i].Norm == "between" || n == 0 {
			return Number{}, 0
		}
		return Number{}, 0
	}
	a, n := single(toks, i)
	if n == 0 {
		return a, 0
	}
	return rangeFrom(toks, i, a, n)
}

// rangeFrom tries to go on from the number a of n tokens at i to a range.
func rangeFrom(toks []Token, i int, a Number, n int) (Number, int) {
	j := i + n
	if j >= len(toks) || a.Article {
		return a, n
	}
	take := func(at int, b Number, m int) (Number, int) {
		lo, hi := a.Min, b.Max
		// "one to one and a half", "a half to three quarters"; "fifteen or so" isn't one
		return Number{Min: lo, Max: hi, Colloquial: a.Colloquial || b.Colloquial, Digits: a.Digits && b.Digits}, at + m - i
	}
	switch w := toks[j].Norm; {
	case toks[j-1].After&(Stop|Question|Exclaim) != 0:
		return a, n
	case (w == "to" || w == "or" || w == "till") && toks[j].After == 0:
		if b, m := single(toks, j+1); m > 0 && !b.Article && b.Min > a.Max && plausibleRange(a, b) {
			// "turn it down to two", "one to two": only after a real number
			return take(j+1, b, m)
		}
		if w == "or" && j+2 < len(toks) && toks[j+1].Norm == "maybe" {
			if b, m := single(toks, j+2); m > 0 && b.Min > a.Max && plausibleRange(a, b) {
				return take(j+2, b, m)
			}
		}
	case w == "maybe" || w == "possibly":
		if b, m := single(toks, j+1); m > 0 && !b.Article && b.Min > a.Max && plausibleRange(a, b) && b.Max <= 3*a.Min {
			return take(j+1, b, m)
		}
	case toks[j].Joined && toks[j-1].Word == toks[j].Word && a.Digits:
		// 10-15
		if b, m := single(toks, j); m > 0 && b.Min > a.Max {
			return take(j, b, m)
		}
	default:
		// "ten, fifteen minutes", "three four days": ascending neighbours that do not compose
		if !a.Fraction && !a.Colloquial && a.Min == a.Max && a.Min == math.Trunc(a.Min) && a.Min < 100 {
			if b, m := single(toks, j); m > 0 && !b.Article && !b.Fraction && !b.Colloquial && b.Min > a.Max && b.Max <= 3*a.Min+1 &&
				(toks[j-1].After == 0 || toks[j-1].After == Comma) && a.Digits == b.Digits {
				if !(a.Digits && toks[j-1].After == 0) && j+m < len(toks) && toks[j+m-1].After&(Comma|Stop) == 0 && !numberWord(toks[j+m].Norm) {
					return take(j, b, m)
				}
			}
		}
	}
	return a, n
}

func plausibleRange(a, b Number) bool {
	if a.Min <= 0 {
		return false
	}
	return b.Max <= 12*a.Min
}

// ReadSingle reads one number at i and never a range.
func ReadSingle(toks []Token, i int) (Number, int) { return single(toks, i) }

// single reads one number without ranges.
func single(toks []Token, i int) (Number, int) {
	if i >= len(toks) || toks[i].numberless {
		return Number{}, 0
	}
	w := toks[i].Norm
	if v, ok := digits(w); ok {
		n := 1
		num := Number{Min: v, Max: v, Digits: true}
		if toks[i].After == 0 && i+1 < len(toks) && v == math.Trunc(v) {
			// 1 1/2, 1 ½, 2 and a half
			if f, ok := slashed(toks[i+1].Norm); ok && f < 1 {
				num.Min, num.Max = v+f, v+f
				return num, 2
			}
			if f, m := andFraction(toks, i+1); m > 0 {
				num.Min, num.Max = v+f, v+f
				return num, 1 + m
			}
			if toks[i+1].Norm == "dozen" {
				return Number{Min: 12 * v, Max: 12 * v}, 2
			}
			if d, ok := denominators[toks[i+1].Norm]; ok && v < d && (d != 2 || v == 1) && i+2 < len(toks) && (toks[i+2].Norm == "of" || toks[i+2].Norm == "a" || toks[i+2].Norm == "cup") {
				return Number{Min: v / d, Max: v / d, Fraction: true}, 2
			}
		}
		if strings.ContainsRune(w, '/') || v < 1 {
			num.Fraction = true
		}
		return num, n
	}
	if f, ok := slashed(w); ok {
		return Number{Min: f, Max: f, Fraction: f < 1, Digits: true}, 1
	}
	if f, m := fraction(toks, i); m > 0 {
		return Number{Min: f, Max: f, Fraction: f < 1}, m // "half a dozen" is none
	}
	switch w {
	case "a", "an":
		if i+1 < len(toks) && toks[i].After == 0 {
			switch next := toks[i+1].Norm; next {
			case "dozen":
				return Number{Min: 12, Max: 12}, 2
			case "couple":
				if i+3 < len(toks) && toks[i+2].Norm == "of" && toks[i+3].Norm == "dozen" {
					return Number{Min: 24, Max: 24, Vague: true}, 4
				}
				if i+2 < len(toks) && toks[i+2].Norm == "of" {
					return Number{Min: 2, Max: 2, Vague: true}, 3
				}
				return Number{Min: 2, Max: 2, Vague: true}, 2
			case "pair":
				if i+2 < len(toks) && toks[i+2].Norm == "of" {
					return Number{Min: 2, Max: 2}, 3
				}
			case "hundred", "thousand":
				return spelled(toks, i)
			case "half":
				// "a half dozen", "a half"
				if i+2 < len(toks) && toks[i+2].Norm == "dozen" {
					return Number{Min: 6, Max: 6}, 3
				}
			}
		}
		return Number{Min: 1, Max: 1, Article: true}, 1
	case "couple":
		if i+2 < len(toks) && toks[i+1].Norm == "of" && toks[i+2].Norm == "dozen" {
			return Number{Min: 24, Max: 24, Vague: true}, 3
		}
		if i+1 < len(toks) && toks[i+1].Norm == "of" {
			return Number{Min: 2, Max: 2, Vague: true}, 2
		}
		return Number{Min: 2, Max: 2, Vague: true}, 1
	case "dozen":
		if i+1 < len(toks) {
			return Number{Min: 12, Max: 12}, 1
		}
	}
	return spelled(toks, i)
}

func digits(w string) (float64, bool) {
	if w == "" {
		return 0, false
	}
	if !isDigit(rune(w[0])) {
		return glyph(w)
	}
	// 1½
	if r, size := utf8.DecodeLastRuneInString(w); size > 1 {
		if f, ok := glyphs[r]; ok {
			v, err := strconv.ParseFloat(w[:len(w)-size], 64)
			return v + f, err == nil
		}
	}
	if strings.ContainsRune(w, ',') {
		parts := strings.Split(w, ",")
		for _, p := range parts[1:] {
			if len(p) != 3 {
				return 0, false
			}
		}
		w = strings.Join(parts, "")
	}
	if len(w) > 12 {
		return 0, false
	}
	for _, r := range w {
		if !isDigit(r) && r != '.' {
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(w, 64)
	return v, err == nil
}

func slashed(w string) (float64, bool) {
	if f, ok := glyph(w); ok {
		return f, true
	}
	a, b, ok := strings.Cut(w, "/")
	if !ok {
		return 0, false
	}
	x, e1 := strconv.ParseFloat(a, 64)
	y, e2 := strconv.ParseFloat(b, 64)
	if e1 != nil || e2 != nil || y == 0 || x < 0 || y > 64 {
		return 0, false
	}
	return x / y, true
}

// glyph gives the value of a word that is one sign for a fraction.
func glyph(w string) (float64, bool) {
	r, size := utf8.DecodeRuneInString(w)
	if size < 2 || size < len(w) {
		return 0, false
	}
	f, ok := glyphs[r]
	return f, ok
}

// fraction reads "half", "a half", "a quarter of a", "three quarters", "two
// thirds of a", "half a", "half of a". The words "of a" that lead to the unit
// are left to the caller.
func fraction(toks []Token, i int) (float64, int) {
	at := func(k int) string {
		if k < len(toks) {
			return toks[k].Norm
		}
		return ""
	}
	w := at(i)
	if w == "half" {
		if at(i+1) == "a" && at(i+2) == "dozen" {
			return 6, 3
		}
		if at(i+1) == "dozen" {
			return 6, 2
		}
		return 0.5, 1
	}
	if w == "quarter" {
		return 0.25, 1
	}
	if w == "a" || w == "an" || w == "one" {
		switch d := at(i + 1); d {
		case "half", "quarter", "third", "eighth", "sixth", "fifth", "sixteenth", "fourth":
			if d == "half" && at(i+2) == "dozen" {
				return 6, 3
			}
			if toks[i].After != 0 {
				return 0, 0
			}
			// "a third egg", "a fifth one": an ordinal, unless a measure follows
			if d != "half" && d != "quarter" {
				if !measureAhead(toks, i+2) {
					return 0, 0
				}
			}
			return 1 / denominators[d], 2
		}
		return 0, 0
	}
	if v, ok := ones(w); ok && v >= 2 && toks[i].After == 0 {
		if d, ok := denominators[at(i+1)]; ok && (strings.HasSuffix(at(i+1), "s") || at(i+1) == "quarter") && v < d {
			return v / d, 2
		}
	}
	return 0, 0
}

// measureAhead reports whether "of a", "of the" or a short unit stands at i.
func measureAhead(toks []Token, i int) bool {
	if i >= len(toks) {
		return false
	}
	switch toks[i].Norm {
	case "of", "cup", "teaspoon", "tablespoon", "pound", "ounce", "inch", "tsp", "tbsp", "pint", "quart", "litre", "liter", "kilo":
		return true
	}
	return false
}

// andFraction reads "and a half", "and three quarters", "and a quarter".
func andFraction(toks []Token, i int) (float64, int) {
	if i >= len(toks) || toks[i].Norm != "and" {
		return 0, 0
	}
	f, n := fraction(toks, i+1)
	if n == 0 || f >= 1 {
		if n == 0 && i+2 < len(toks) && (toks[i+1].Norm == "a" || toks[i+1].Norm == "one") {
			if d, ok := denominators[toks[i+2].Norm]; ok {
				return 1 / d, 3
			}
		}
		return 0, 0
	}
	return f, n + 1
}

// AndFraction reads "and a half" at i, as in "a cup and a half"; 0 tokens
// when it isn't there.
func AndFraction(toks []Token, i int) (float64, int) { return andFraction(toks, i) }

// spelled reads cardinal numbers in words, also "twenty-five hundred" and the
// colloquial "three fifty".
func spelled(toks []Token, i int) (Number, int) {
	at := func(k int) string {
		if k < len(toks) {
			return toks[k].Norm
		}
		return ""
	}
	cont := func(k int) bool { // may the number go on into token k?
		if k >= len(toks) {
			return false
		}
		after := toks[k-1].After &^ Dash
		if toks[k-1].Norm == "thousand" {
			after &^= Comma // "one thousand, two hundred"
		}
		return after == 0
	}
	total, group := 0.0, 0.0
	n := 0
	colloquial := false
	last := "" // kind of the last part: ones, teens, tens, hundred, thousand
	k := i
	if at(k) == "a" && (at(k+1) == "hundred" || at(k+1) == "thousand") {
		group, last = 1, "ones"
		k++
	} else if at(k) == "hundred" && k+1 < len(toks) && toks[k].After == 0 && (i == 0 || toks[i-1].After != 0 || pointing(toks[i-1].Norm)) {
		group, last = 1, "ones" // "Hundred mils.", with its article left out; "the hundred-gram jar"
	}
	for k < len(toks) && (k == i || cont(k)) {
		w := toks[k].Norm
		v, kind := spell(w)
		if kind == onesPart {
			if last == "ones" || last == "teens" {
				break
			}
			group += v
			last = "ones"
		} else if kind == teensPart {
			if last == "tens" || last == "teens" {
				break
			}
			if last == "ones" {
				if group >= 1 && group <= 9 && total == 0 {
					group = group*100 + v
					colloquial = true
					last = "teens"
					k++
					n = k - i
					break
				}
				break
			}
			group += v
			last = "teens"
		} else if kind == tensPart {
			if last == "tens" || last == "teens" {
				break
			}
			if last == "ones" {
				if group < 1 || group > 9 || total != 0 {
					break
				}
				group = group*100 + v
				colloquial = true
				last = "tens"
				k++
				n = k - i
				if u, ok := ones(at(k)); ok && u > 0 && cont(k) {
					group += u
					k++
					n = k - i
				}
				break
			}
			group += v
			last = "tens"
		} else if w == "hundred" && (k > i || last == "ones") {
			if group == 0 || group > 99 {
				break
			}
			group *= 100
			last = "hundred"
		} else if w == "thousand" && k > i {
			if group == 0 {
				break
			}
			total += group * 1000
			group = 0
			last = "thousand"
		} else if (w == "oh" || w == "o") && last == "ones" && total == 0 && group >= 1 && group <= 9 {
			if u, ok := ones(at(k + 1)); ok && u > 0 {
				group = group*100 + u
				colloquial = true
				k += 2
				n = k - i
			}
			break
		} else if w == "and" && (last == "hundred" || last == "thousand") && k+1 < len(toks) && numberWord(at(k+1)) && at(k+1) != "hundred" {
			k++
			continue
		} else {
			break
		}
		k++
		n = k - i
	}
	if n == 0 {
		return Number{}, 0
	}
	v := total + group
	num := Number{Min: v, Max: v, Colloquial: colloquial}
	k = i + n
	if cont(k) {
		if f, m := andFraction(toks, k); m > 0 {
			num.Min, num.Max = v+f, v+f
			return num, n + m
		}
		if at(k) == "dozen" {
			return Number{Min: 12 * v, Max: 12 * v}, n + 1
		}
		if at(k) == "point" {
			if d, ok := ones(at(k + 1)); ok {
				num.Min, num.Max = v+d/10, v+d/10
				return num, n + 2
			}
		}
		// "one half", "two thirds" are read by fraction; "one and a half" above
	}
	return num, n
}
