package extract

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"quern/internal/language"
	"quern/internal/transcript"
	"quern/schema"
)

// encoded writes documents as JSON, a line each.
func encoded(t testing.TB, docs []*schema.Document) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := schema.WriteJSON(&b, docs...); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// narrations gives every talk under testdata in every style, read.
func narrations(t testing.TB) (names []string, read []*transcript.Narration) {
	t.Helper()
	list, texts := talks(t)
	for _, name := range list {
		for _, style := range styles {
			n, err := transcript.Parse(name, []byte(restyle(texts[name], style)))
			if err != nil {
				t.Fatal(err)
			}
			names, read = append(names, name+" in "+style), append(read, n)
		}
	}
	return names, read
}

// The same talk gives the same bytes each time, and while other talks are read
// beside it.
func TestSameBytesInParallel(t *testing.T) {
	names, read := narrations(t)
	if testing.Short() {
		names, read = names[:15], read[:15]
	}
	want := make([][]byte, len(read))
	for i, n := range read {
		want[i] = encoded(t, Extract(n))
	}
	const readers = 4
	var group sync.WaitGroup
	for r := range readers {
		group.Add(1)
		go func() {
			defer group.Done()
			for k := range read {
				i := (k + r*len(read)/readers) % len(read) // each begins elsewhere, so that unlike talks meet
				var got bytes.Buffer
				if err := schema.WriteJSON(&got, Extract(read[i])...); err != nil {
					t.Errorf("%s: %v", names[i], err)
				} else if !bytes.Equal(got.Bytes(), want[i]) {
					t.Errorf("%s gives other bytes when it is read again", names[i])
				}
			}
		}()
	}
	group.Wait()
}

// spokenWords answers whether a quote was said at a moment.
type spokenWords struct {
	n      *transcript.Narration
	joined string
	starts map[int]int // word by its place in joined
}

func newSpokenWords(n *transcript.Narration) *spokenWords {
	w := &spokenWords{n: n, starts: make(map[int]int, len(n.Words))}
	var b strings.Builder
	for i := range n.Words {
		if i > 0 {
			b.WriteByte(' ')
		}
		w.starts[b.Len()] = i
		b.WriteString(n.Words[i].Text)
	}
	w.joined = b.String()
	return w
}

// said reports whether the quote is a run of words that begins at the moment.
func (w *spokenWords) said(s schema.Said) bool {
	if s.Quote == "" {
		return false
	}
	for from := 0; ; {
		i := strings.Index(w.joined[from:], s.Quote)
		if i < 0 {
			return false
		}
		i += from
		end := i + len(s.Quote)
		word, starts := w.starts[i]
		if starts && (end == len(w.joined) || w.joined[end] == ' ') && schema.Timestamp(w.n.Words[word].At) == s.At {
			return true
		}
		from = i + 1
	}
}

// everySaid calls see for each Said in a document, wherever it stands, with
// the path to it.
func everySaid(doc *schema.Document, see func(path string, s schema.Said)) {
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer:
			if !v.IsNil() {
				walk(path, v.Elem())
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(fmt.Sprintf("%s.%d", path, i), v.Index(i))
			}
		case reflect.Struct:
			if s, ok := v.Interface().(schema.Said); ok {
				see(path, s)
				return
			}
			for i := range v.NumField() {
				if f := v.Type().Field(i); f.IsExported() {
					walk(path+"."+f.Name, v.Field(i))
				}
			}
		}
	}
	walk("document", reflect.ValueOf(doc))
}

// numbersIn gives every number that a quote holds in digits or words, read
// from every word on.
func numbersIn(quote string) []float64 {
	toks := language.Words(quote)
	var out []float64
	for i := range toks {
		n, k := language.ReadNumber(toks, i)
		if k == 0 {
			continue
		}
		out = append(out, n.Min, n.Max)
		if one, m := language.ReadSingle(toks, i); m > 0 {
			out = append(out, one.Min)
			n = one
		}
		// "a cup and a half", "two cups, maybe two and a quarter"
		for j := i + 1; j < len(toks) && j <= i+6; j++ {
			if f, m := language.AndFraction(toks, j); m > 0 {
				out = append(out, n.Min+f)
			}
		}
	}
	return out
}

// spokenNumber are words that tell a number which isn't theirs alone.
var spokenNumber = map[string][]float64{
	"overnight": {8, 12}, "tomorrow": {1}, "couple": {2}, "pair": {2}, "another": {1},
	"kilo": {1}, "hundred": {100},
}

// bareUnit are measures that are said without "a".
var bareUnit = map[string]bool{"cup": true, "teaspoon": true, "tablespoon": true, "pinch": true, "knob": true, "handful": true, "splash": true, "dash": true, "stick": true, "sprig": true, "tin": true, "can": true, "pound": true, "pint": true, "bunch": true, "packet": true, "pack": true, "tub": true, "jar": true, "box": true, "bag": true, "head": true}

// factorsIn gives what the numbers of a quote may have been multiplied by: the form
// tells a fortnight in weeks and a year in months.
func factorsIn(words []string) []float64 {
	out := []float64{1}
	for _, w := range words {
		switch w {
		case "fortnight", "fortnights":
			out = append(out, 2)
		case "week", "weeks": // "a week, ten days"
			out = append(out, 7)
		case "year", "years":
			out = append(out, 12)
		case "decilitre", "decilitres", "deciliter", "deciliters", "dl", "etto", "etti":
			out = append(out, 100)
		case "centilitre", "centilitres", "cl", "deka", "dekas":
			out = append(out, 10)
		}
	}
	return out
}

// holdsNumber reports whether the quotes tell the number.
func holdsNumber(quotes []schema.Said, want float64) bool {
	for _, s := range quotes {
		ws := language.Norms(s.Quote)
		for _, v := range numbersIn(s.Quote) {
			for _, factor := range factorsIn(ws) {
				if math.Abs(factor*v-want) < 1e-9*math.Max(1, math.Abs(want)) {
					return true
				}
			}
		}
		for i, w := range ws {
			for _, v := range spokenNumber[w] {
				if v == want || w == "another" && v+0.5 == want && slices.Contains(ws[i:min(len(ws), i+5)], "half") {
					return true // "another hour and a half"
				}
			}
			// "knob of butter", "cup and half of rice": one, without its article
			if bareUnit[w] && (i == 0 || ws[i-1] == "and") {
				half := false // "cup and half of rice", "cup of cider vinegar and half"
				for j := i + 1; j+1 < len(ws) && j <= i+6; j++ {
					half = half || ws[j] == "and" && (ws[j+1] == "half" || j+2 < len(ws) && ws[j+1] == "a" && ws[j+2] == "half")
				}
				if want == 1 || half && want == 1.5 {
					return true
				}
			}
		}
	}
	return false
}

// rowsTold reports whether a quote tells a yield as rows and what is in a row: "four rows
// of twelve". It is the one number of a document that may be worked out of two.
func rowsTold(q *schema.Quantity, quotes []schema.Said) bool {
	if q == nil || q.Min != q.Max {
		return false
	}
	for _, s := range quotes {
		numbers := numbersIn(s.Quote)
		for i, a := range numbers {
			for _, b := range numbers[i+1:] {
				if a > 1 && b > 1 && a*b == q.Min {
					return true
				}
			}
		}
	}
	return false
}

// ungrounded lists what a document says that its talk doesn't: a quote that is
// no run of words at its moment, an amount whose number its quotes don't tell.
func ungrounded(n *transcript.Narration, docs []*schema.Document) []string {
	words := newSpokenWords(n)
	var bad []string
	for _, doc := range docs {
		everySaid(doc, func(path string, s schema.Said) {
			if !words.said(s) {
				bad = append(bad, fmt.Sprintf("%s: nobody says %q at %q", path, s.Quote, s.At))
			}
		})
		number := func(what string, q *schema.Quantity, said []schema.Said) {
			if q == nil || q.Vague != "" {
				return
			}
			for _, v := range []float64{q.Min, q.Max} {
				if !holdsNumber(said, v) {
					bad = append(bad, fmt.Sprintf("%s: %s, but the quotes tell no %g: %q", what, q, v, said))
					return
				}
			}
		}
		if !rowsTold(doc.Yield, doc.YieldSaid) {
			number("yield", doc.Yield, doc.YieldSaid)
		}
		for i := range doc.Ingredients {
			g := &doc.Ingredients[i]
			number(g.Name, g.Amount, g.Said)
			number(g.Name+", second amount", g.SecondAmount, g.Said)
			number(g.Name+", size", g.Size, g.Said)
			for k := range g.Substitutes {
				number(g.Name+", substitute "+g.Substitutes[k].Name, g.Substitutes[k].Amount, g.Substitutes[k].Said)
			}
		}
		for i := range doc.Steps {
			s := &doc.Steps[i]
			for _, list := range [][]schema.Quantity{s.Temperature, s.Time, s.Sizes} {
				for k := range list {
					number(s.Text, &list[k], s.Said)
				}
			}
		}
		for i := range doc.Storage {
			number("storage", doc.Storage[i].Keeps, doc.Storage[i].Said)
		}
		if m := doc.Macros; m != nil && m.Spoken != nil {
			for _, v := range []*float64{m.Spoken.Kcal, m.Spoken.FatG, m.Spoken.SaturatedG, m.Spoken.ProteinG, m.Spoken.CarbsG, m.Spoken.FibreG, m.Spoken.NetCarbsG, m.Spoken.SugarG, m.Spoken.SodiumMg} {
				if v != nil && !holdsNumber(m.Spoken.Said, *v) {
					bad = append(bad, fmt.Sprintf("macros: %g isn't in %q", *v, m.Spoken.Said))
				}
			}
		}
	}
	return bad
}

// Whatever style a talk is written in, every quote is a run of its words at
// its moment, and every amount's numbers are told by its quotes.
func TestGrounded(t *testing.T) {
	names, read := narrations(t)
	for i, n := range read {
		for _, b := range ungrounded(n, Extract(n)) {
			t.Errorf("%s: %s", names[i], b)
		}
	}
}
