// Package language cuts a talk into tokens and sentences and reads numbers in
// words. It knows English, not cooking.
package language

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"quern/internal/transcript"
)

// Punct is a set of punctuation marks written after a token.
type Punct uint8

// The marks that matter for cutting talk.
const (
	Comma Punct = 1 << iota
	Stop        // . or …
	Question
	Exclaim
	Colon // : or ;
	Dash
	Quote
)

// Ends reports whether the marks end a sentence.
func (p Punct) Ends() bool { return p&(Stop|Question|Exclaim) != 0 }

// Token is one word in the form the passes compare: a hyphenated word is
// several tokens, so that a recogniser that drops hyphens gives the same ones.
type Token struct {
	Norm   string // lower case, straight apostrophes, no punctuation
	Word   int32  // index in Narration.Words
	After  Punct  // marks written after it
	Cap    bool   // written with a capital
	Joined bool   // hyphenated to the token before
	Break  bool   // first token of a cue or paragraph
	Silent bool   // silence stood before it, so long that a new sentence is taken to begin
	Pause  bool   // the cue before was shorter than the captions' usual length: the speaker stopped there

	numberless bool // no number begins with it, see startsNone
}

// Numberless reports whether no number can begin with the token.
func (t *Token) Numberless() bool { return t.numberless }

// Tokens cuts the narration's words. Clitics that a recogniser wrote apart
// ("do n't", "i 'm") are joined to the word before.
func Tokens(n *transcript.Narration) []Token {
	toks := make([]Token, 0, len(n.Words)+len(n.Words)/64+8)
	usual := usualLength(n)
	last := -1 // the cue before that holds words
	for c := range n.Cues {
		cue := &n.Cues[c]
		for w := cue.First; w < cue.Last; w++ {
			before := len(toks)
			toks = cut(toks, n.Words[w].Text, int32(w))
			if w > cue.First || len(toks) == before {
				continue
			}
			first := &toks[before]
			first.Break = true
			if last >= 0 {
				a, b := n.Cues[last].End, cue.Start
				first.Silent = a >= 0 && b-a >= pause
			}
			first.Pause = usual > 0 && c > 0 && n.Cues[c-1].Last-n.Cues[c-1].First < usual
		}
		if cue.Last > cue.First {
			last = c
		}
	}
	return toks
}

// usualLength gives the number of words that most captions hold, 0 where the
// cues are of no one length. Caption writers fill each line and stop short
// where the speaker stops.
func usualLength(n *transcript.Narration) int {
	counts := make(map[int]int)
	cues := 0
	for i := range n.Cues {
		if k := n.Cues[i].Last - n.Cues[i].First; k > 0 {
			counts[k]++
			cues++
		}
	}
	best := 0
	for k, c := range counts {
		if c > counts[best] || c == counts[best] && k > best {
			best = k
		}
	}
	if best < 3 || best > 14 || counts[best]*2 < cues || cues < 20 {
		return 0
	}
	return best
}

// Words cuts a plain string, for tables and tests.
func Words(s string) []Token {
	var toks []Token
	for i, f := range strings.Fields(s) {
		toks = cut(toks, f, int32(i))
	}
	return toks
}

// Norms gives the comparison forms of a phrase ("Self-raising flour" ->
// self, raising, flour).
func Norms(s string) []string {
	if plain(s, " -") {
		return strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '-' })
	}
	toks := Words(s)
	out := make([]string, len(toks))
	for i := range toks {
		out[i] = toks[i].Norm
	}
	return out
}

// Ends gives the first and the last of the Norms of a phrase, and how many there are.
func Ends(s string) (first, last string, n int) {
	if !plain(s, " -") {
		ws := Norms(s)
		if len(ws) == 0 {
			return "", "", 0
		}
		return ws[0], ws[len(ws)-1], len(ws)
	}
	for i := 0; i < len(s); {
		if s[i] == ' ' || s[i] == '-' {
			i++
			continue
		}
		from := i
		for i < len(s) && s[i] != ' ' && s[i] != '-' {
			i++
		}
		if last = s[from:i]; n == 0 {
			first = last
		}
		n++
	}
	return first, last, n
}

// plain reports whether a phrase is small English letters alone, but for what
// stands between its words (" ", or " -" with hyphens), as nearly every one of
// the tables is: its words need no more than cutting apart.
func plain(s, between string) bool {
	for i := 0; i < len(s); i++ {
		if c := s[i]; (c < 'a' || c > 'z') && strings.IndexByte(between, c) < 0 {
			return false
		}
	}
	return true
}

// Unaccented gives the letters and digits of a text, small and without accents,
// and the marks in keep; apostrophes and the marks in drop are left out, and a
// space stands for each other mark: what tables of names compare.
func Unaccented(text, keep, drop string) string {
	if plain(text, " ") {
		return text
	}
	var b strings.Builder
	b.Grow(len(text))
	for _, r := range norm.NFD.String(strings.ToLower(text)) {
		switch {
		case r >= 'a' && r <= 'z': // nearly every one
			b.WriteByte(byte(r))
		case unicode.Is(unicode.Mn, r), r == '\'', r == '’', strings.ContainsRune(drop, r):
		case unicode.IsLetter(r), unicode.IsDigit(r), strings.ContainsRune(keep, r):
			b.WriteRune(r)
		default:
			b.WriteByte(' ')
		}
	}
	return b.String()
}

func punctOf(r rune) Punct {
	switch r {
	case ',', '،':
		return Comma
	case '.', '…':
		return Stop
	case '?':
		return Question
	case '!':
		return Exclaim
	case ':', ';':
		return Colon
	case '-', '–', '—':
		return Dash
	case '"', '“', '”', ')', ']':
		return Quote
	}
	return 0
}

// clitics are word ends that some recognisers write as words of their own.
var clitics = map[string]bool{"n't": true, "'m": true, "'s": true, "'re": true, "'ve": true, "'ll": true, "'d": true}

// letters gives how many bytes of the text are one English word that needs no
// cutting, with an apostrophe inside at most, and the marks after it; 0 where
// anything else stands in it.
func letters(text string) (int, Punct) {
	end, apostrophe := 0, -1
	for end < len(text) {
		c := text[end]
		if c == '\'' && apostrophe < 0 && end > 0 {
			apostrophe = end
		} else if c|0x20 < 'a' || c|0x20 > 'z' {
			break
		}
		end++
	}
	if end == 0 || apostrophe == end-1 {
		return 0, 0
	}
	var after Punct
	for i := end; i < len(text); i++ {
		switch text[i] {
		case ',', '.', '?', '!', ':', ';', '"':
			after |= punctOf(rune(text[i]))
		default:
			return 0, 0
		}
	}
	return end, after
}

func cut(toks []Token, text string, w int32) []Token {
	if n, after := letters(text); n > 0 {
		if low := strings.ToLower(text[:n]); low != "n't" {
			return append(toks, Token{Norm: low, Word: w, After: after, Cap: text[0] < 'a', numberless: startsNone(low)})
		}
	}
	// a word of punctuation alone marks the token before
	trimmed := strings.TrimFunc(text, isOuter)
	var after Punct
	for _, r := range text[strings.LastIndex(text, trimmed)+len(trimmed):] {
		after |= punctOf(r)
	}
	if trimmed == "" {
		for _, r := range text {
			after |= punctOf(r)
		}
		if len(toks) > 0 {
			toks[len(toks)-1].After |= after
		}
		return toks
	}
	low := lower(trimmed)
	if strings.ContainsAny(trimmed, "'’") {
		low = inFull(low, trimmed)
	}
	if len(toks) > 0 && clitics[low] && toks[len(toks)-1].After == 0 {
		last := &toks[len(toks)-1]
		last.Norm += low
		last.After |= after
		return toks
	}
	if low == "'em" || low == "em" && strings.HasPrefix(text, "’") {
		low = "them"
	}
	cap := false
	if r, _ := utf8.DecodeRuneInString(trimmed); unicode.IsUpper(r) {
		cap = true
	}
	start := len(toks)
	toks = pieces(toks, low, w)
	if len(toks) == start {
		if len(toks) > 0 {
			toks[len(toks)-1].After |= after
		}
		return toks
	}
	toks[start].Cap = cap
	toks[len(toks)-1].After |= after
	return toks
}

// isOuter tells the punctuation that may surround a word. Apostrophes are
// kept inside and trimmed at the end only by lower.
func isOuter(r rune) bool {
	switch r {
	case '\'', '’', '%', '°', '½', '¼', '¾', '⅓', '⅔', '⅛', '⅜', '⅝', '⅞', '$', '£', '€', '&', '+':
		return false
	}
	return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsNumber(r) && !unicode.IsMark(r)
}

func lower(s string) string {
	s = strings.ToLower(s)
	if strings.ContainsAny(s, "’‘`") {
		s = strings.NewReplacer("’", "'", "‘", "'", "`", "'").Replace(s)
	}
	if strings.HasSuffix(s, "'") && len(s) > 1 {
		s = strings.TrimRight(s, "'")
	}
	if strings.HasPrefix(s, "'") && len(s) > 1 && !clitics[s] {
		switch s {
		case "'cause", "'til", "'em", "'bout":
		default:
			if c := strings.TrimLeft(s, "'"); c != "" {
				s = c
			}
		}
	}
	return s
}

// clipped are words that speakers cut short and writers mark with an apostrophe.
var clipped = map[string]string{"wi'": "with", "o'": "of", "an'": "and", "'n'": "and", "'n": "and", "n'": "and", "th'": "the", "t'": "the", "fo'": "for", "li'l": "little", "jus'": "just", "mo'": "more"}

// inFull gives a word that was cut short as it is spelled: "wi'" and "simmerin'". low is
// the word as lower gives it.
func inFull(low, text string) string {
	raw := strings.ReplaceAll(strings.ToLower(text), "’", "'")
	if full, ok := clipped[raw]; ok {
		return full
	}
	if len(raw) > 5 && strings.HasSuffix(raw, "in'") {
		return low + "g"
	}
	return low
}

// pieces cuts inside one word: at hyphens and slashes between letters, and
// between a number and the unit glued to it ("500g", "350°F", "9x13").
func pieces(toks []Token, s string, w int32) []Token {
	add := func(p string, joined bool) {
		if p = strings.Trim(p, ".,°'"); p == "" {
			return
		}
		toks = append(toks, Token{Norm: p, Word: w, Joined: joined, numberless: startsNone(p)})
	}
	first := true
	from := 0
	flush := func(to int) {
		if to > from {
			add(s[from:to], !first)
			first = false
		}
		from = to
	}
	prev := rune(0)
	for i, r := range s {
		size := utf8.RuneLen(r)
		switch {
		case r == '-' || r == '–' || r == '—' || r == '_':
			flush(i)
			from = i + size
		case r == '/' && !(isDigit(prev) && i+1 < len(s) && isDigit(rune(s[i+1]))):
			flush(i)
			from = i + size
		case r == '°':
			flush(i)
			from = i + size
		case isNumeric(prev) && unicode.IsLetter(r):
			if !ordinalEnd(s[i:]) {
				flush(i)
			}
		case unicode.IsLetter(prev) && isNumeric(r) && prev == 'x':
			flush(i)
		case (r == '&' || r == '+' || r == '=') && i > 0:
			flush(i)
			from = i + size
		}
		prev = r
	}
	flush(len(s))
	return toks
}

func ordinalEnd(s string) bool {
	switch s {
	case "st", "nd", "rd", "th", "s":
		return true
	}
	return false
}

func isDigit(r rune) bool   { return r >= '0' && r <= '9' }
func isNumeric(r rune) bool { return isDigit(r) || strings.ContainsRune("½¼¾⅓⅔⅛⅜⅝⅞", r) }
