package extract_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"quern/extract"
	"quern/internal/derive"
	"quern/internal/lexicon"
	"quern/internal/transcript"
	"quern/schema"
)

// The wording cases are short invented talks, one way of saying things each,
// with what a careful recipe editor would write down. They are a floor that
// rises: raise the number when more of them pass, never lower it.
const wordingPasses = 1368

// wordingRows are the ways of talking the cases must cover, and the least
// number of cases for each.
var wordingRows = []string{
	"amount late", "amount twice", "amount corrected", "amount two measures", "amount shared out", "amount by reference",
	"amount container", "amount range", "amount spoken number",
	"food two names", "food nickname", "food it or this", "food listed then used", "food two amounts in two parts", "food substitute",
	"food optional", "food garnish", "food misheard", "not food",
	"step imperative", "step going to", "step you want to", "step what we'll do", "step goes in", "step passive", "step several",
	"step negated", "step conditional", "step reason", "late remark",
	"way", "two dishes", "title", "time", "temperature", "heat", "storage", "anecdote", "yield", "claim",
}

const (
	wordingCases    = 220 // least number of cases in all
	wordingUnmarked = 40  // least number of them in lower case without marks
	wordingPerRow   = 5   // least number of cases of a row
)

// wordingCase is one talk and what must be read from it.
type wordingCase struct {
	Name   string    `yaml:"name"`
	Row    string    `yaml:"row"`
	Talk   string    `yaml:"talk"`   // plain text, or rows with times in brackets
	Want   expected  `yaml:"want"`   // of the first document
	Second *expected `yaml:"second"` // of the second document, where there are two dishes
}

// expected holds the facts of a document that a case speaks of; a key left out
// is not looked at, an empty list is a fact. In every text " | " stands between
// readings that are equally right.
type expected struct {
	Documents    int              `yaml:"documents"`
	Ingredients  []wantIngredient `yaml:"ingredients"`  // all of them, in any order
	Not          []string         `yaml:"not"`          // names no ingredient may have
	Actions      []string         `yaml:"actions"`      // found in this order among the steps' actions
	NotActions   []string         `yaml:"not_actions"`  // verbs no step may have
	Temperatures []string         `yaml:"temperatures"` // all of them: "180 C", or "180 C for bake" where the step must have the verb
	Times        []string         `yaml:"times"`        // all of them, as temperatures
	Heat         []string         `yaml:"heat"`         // all of them
	Storage      []string         `yaml:"storage"`      // all of them: place and time
	Title        string           `yaml:"title"`        // most of the words of one reading must be in it
	Yield        string           `yaml:"yield"`        // "none" where none was said; a bare number counts anything
	Claims       []string         `yaml:"claims"`       // all of them
	Parts        []string         `yaml:"parts"`        // all of them
	Ways         []string         `yaml:"ways"`         // all of them
	Flags        []string         `yaml:"flags"`        // kinds, or "kind subject"
	NotFlags     []string         `yaml:"not_flags"`    // as flags
	Until        []string         `yaml:"until"`        // words in the sign of doneness of some step
	TextNot      []string         `yaml:"text_not"`     // words no step's text may have
}

type wantIngredient struct {
	Name         string   `yaml:"name"`
	Amount       string   `yaml:"amount"` // "none" where none was said
	SecondAmount string   `yaml:"second_amount"`
	Size         string   `yaml:"size"`
	Vague        string   `yaml:"vague"` // among the vague words
	ToTaste      *bool    `yaml:"to_taste"`
	Optional     *bool    `yaml:"optional"`
	Substitutes  []string `yaml:"substitutes"`
	Part         string   `yaml:"part"`
	Ways         []string `yaml:"ways"`
}

func TestWording(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("testdata", "wording", "*.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	var cases []wordingCase
	for _, file := range files {
		cases = append(cases, readCases[wordingCase](t, file)...)
	}
	var score tally
	unmarked, seen := 0, map[string]bool{}
	for _, c := range cases {
		if seen[c.Name] {
			t.Errorf("two cases are called %q", c.Name)
		}
		seen[c.Name] = true
		if !slices.Contains(wordingRows, c.Row) {
			t.Errorf("%s: no row is called %q", c.Name, c.Row)
		}
		for _, e := range []*expected{&c.Want, c.Second} {
			if e == nil {
				continue
			}
			if err := e.unreadable(); err != nil {
				t.Fatalf("%s: %v", c.Name, err)
			}
		}
		docs := readTalk(t, c.Name, c.Talk)
		misses := c.Want.misses(docs, 0)
		if c.Second != nil {
			misses = append(misses, c.Second.misses(docs, 1)...)
		}
		score.add(c.Row, len(misses) == 0)
		if isUnmarked(c.Talk) {
			unmarked++
			score.add("(without marks)", len(misses) == 0)
		}
		if len(misses) > 0 {
			t.Logf("%s: %s\n    talk: %s\n    %s", c.Row, c.Name, strings.ReplaceAll(c.Talk, "\n", " / "), strings.Join(misses, "\n    "))
		}
	}
	for _, row := range wordingRows {
		t.Logf("%-32s %s", row, score.row(row))
		if n := score.of[row]; n < wordingPerRow {
			t.Errorf("row %q has %d cases; it needs %d", row, n, wordingPerRow)
		}
	}
	t.Logf("%-32s %s", "(without marks)", score.row("(without marks)"))
	passed := 0
	for _, row := range wordingRows {
		passed += score.passed[row]
	}
	t.Logf("%-32s %d of %d", "all", passed, len(cases))
	if len(cases) < wordingCases || unmarked < wordingUnmarked {
		t.Errorf("there are %d cases, %d of them without marks; %d and %d are needed", len(cases), unmarked, wordingCases, wordingUnmarked)
	}
	if passed < wordingPasses {
		t.Errorf("%d cases pass; it was %d before", passed, wordingPasses)
	}
}

// readCases reads a file of cases, which holds one list.
func readCases[C any](t *testing.T, file string) []C {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var cases []C
	dec := yaml.NewDecoder(bytes.NewReader(data))
	dec.KnownFields(true)
	if err := dec.Decode(&cases); err != nil && !errors.Is(err, io.EOF) {
		t.Fatalf("%s: %v", file, err)
	}
	return cases
}

// readTalk gives the documents of a talk with everything that follows from them.
func readTalk(t *testing.T, name, talk string) []*schema.Document {
	t.Helper()
	n, err := transcript.Parse(name, []byte(talk))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	docs := extract.Extract(n)
	if len(docs) == 0 {
		t.Fatalf("%s: no document", name)
	}
	for _, d := range docs {
		derive.Apply(d, derive.Options{})
	}
	return docs
}

// isUnmarked tells whether a talk has neither capitals nor sentence marks.
func isUnmarked(talk string) bool {
	var spoken []string
	for _, row := range strings.Split(talk, "\n") {
		if strings.HasPrefix(row, "[") {
			_, row, _ = strings.Cut(row, "]")
		}
		spoken = append(spoken, row)
	}
	all := strings.Join(spoken, " ")
	return !strings.ContainsAny(all, ".,;:!?") && strings.ToLower(all) == all
}

// tally counts passes by row.
type tally struct{ passed, of map[string]int }

func (s *tally) add(row string, pass bool) {
	if s.of == nil {
		s.passed, s.of = map[string]int{}, map[string]int{}
	}
	s.of[row]++
	if pass {
		s.passed[row]++
	}
}

func (s *tally) row(row string) string { return fmt.Sprintf("%d of %d", s.passed[row], s.of[row]) }

// unreadable gives the first quantity of a case that isn't written in the
// form, so that no case fails for its own slip.
func (e *expected) unreadable() error {
	var texts []string
	for _, w := range e.Ingredients {
		texts = append(texts, w.Amount, w.SecondAmount, w.Size)
	}
	texts = append(texts, e.Temperatures...)
	texts = append(texts, e.Times...)
	for _, text := range texts {
		text, _, _ = strings.Cut(text, " for ")
		for _, reading := range strings.Split(text, " | ") {
			if reading == "" || reading == "none" {
				continue
			}
			if _, err := schema.ParseQuantity(reading); err != nil {
				return err
			}
		}
	}
	return nil
}

// misses says in what way document number i differs from what is expected.
func (e *expected) misses(docs []*schema.Document, i int) []string {
	var out []string
	miss := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if e.Documents > 0 && len(docs) != e.Documents {
		miss("documents: want %d, got %d", e.Documents, len(docs))
	}
	if i >= len(docs) {
		return append(out, fmt.Sprintf("there is no document %d", i+1))
	}
	d := docs[i]
	if e.Ingredients != nil {
		out = append(out, ingredientMisses(e.Ingredients, d.Ingredients)...)
	}
	for _, name := range e.Not {
		for _, ing := range d.Ingredients {
			if sameName(name, ing.Name) {
				miss("ingredients: %q is none", ing.Name)
			}
		}
	}
	var actions []string
	for _, s := range d.Steps {
		for _, a := range s.Actions {
			actions = append(actions, firstWord(a))
		}
	}
	if rest := inOrder(e.Actions, actions); rest != "" {
		miss("actions: want %s in this order, got %s; missing from %q on", strings.Join(e.Actions, ", "), strings.Join(actions, ", "), rest)
	}
	for _, a := range e.NotActions {
		if slices.Contains(actions, a) {
			miss("actions: %q is none, got %s", a, strings.Join(actions, ", "))
		}
	}
	var temps, times []found
	var heat []string
	for k := range d.Steps {
		s := &d.Steps[k]
		for _, q := range s.Temperature {
			temps = append(temps, found{q, s})
		}
		for _, q := range s.Time {
			times = append(times, found{q, s})
		}
		heat = append(heat, s.Heat...)
	}
	out = append(out, quantityMisses("temperatures", e.Temperatures, temps)...)
	out = append(out, quantityMisses("times", e.Times, times)...)
	var storage, claims, parts, ways []string
	for _, s := range d.Storage {
		keeps := ""
		if s.Keeps != nil {
			keeps = " " + s.Keeps.String()
		}
		storage = append(storage, s.Place+strings.Replace(keeps, "about ", "", 1))
	}
	for _, c := range d.Claims {
		claims = append(claims, c.Claim)
	}
	for _, p := range d.Parts {
		parts = append(parts, p.Name)
	}
	for _, w := range d.Ways {
		ways = append(ways, w.Name)
	}
	out = append(out, setMisses("heat", e.Heat, heat)...)
	out = append(out, setMisses("storage", e.Storage, storage)...)
	out = append(out, setMisses("claims", e.Claims, claims)...)
	out = append(out, setMisses("parts", e.Parts, parts)...)
	out = append(out, setMisses("ways", e.Ways, ways)...)
	if e.Title != "" && !oneOf(e.Title, func(w string) bool { return mostlyCalled(w, d.Title) }) {
		miss("title: want %s, got %s", e.Title, d.Title)
	}
	switch {
	case e.Yield == "none" && d.Yield != nil:
		miss("yield: want none, got %s", d.Yield)
	case e.Yield != "" && e.Yield != "none" && (d.Yield == nil || !oneOf(e.Yield, func(w string) bool { return sameYield(w, *d.Yield) || sameNumber(w, *d.Yield) })):
		miss("yield: want %s, got %v", e.Yield, d.Yield)
	}
	var flags []string
	for _, f := range d.Flags {
		flags = append(flags, f.Kind+" "+f.Subject)
	}
	has := func(want string) bool {
		return slices.ContainsFunc(flags, func(f string) bool { return f == want || strings.HasPrefix(f, want+" ") })
	}
	for _, f := range e.Flags {
		if !has(f) {
			miss("flags: want %s, got %s", f, strings.Join(flags, ", "))
		}
	}
	for _, f := range e.NotFlags {
		if has(f) {
			miss("flags: %s asks about nothing", f)
		}
	}
	for _, u := range e.Until {
		if !slices.ContainsFunc(d.Steps, func(s schema.Step) bool { return strings.Contains(s.Until, u) }) {
			miss("until: no step has %q", u)
		}
	}
	for _, w := range e.TextNot {
		for _, s := range d.Steps {
			if strings.Contains(strings.ToLower(s.Text), w) {
				miss("step text: chat %q in %q", w, s.Text)
			}
		}
	}
	return out
}

// ingredientMisses pairs each wanted ingredient with the one of its name that
// fits best and says what differs, what is missing and what is too much.
func ingredientMisses(want []wantIngredient, got []schema.Ingredient) []string {
	var out []string
	taken := make([]bool, len(got))
	for _, w := range want {
		best, fewest := -1, []string(nil)
		for i := range got {
			if taken[i] || !oneOf(w.Name, func(n string) bool { return sameName(n, got[i].Name) }) {
				continue
			}
			if m := w.misses(&got[i]); best < 0 || len(m) < len(fewest) {
				best, fewest = i, m
			}
		}
		if best < 0 {
			var names []string
			for i := range got {
				names = append(names, got[i].Name)
			}
			out = append(out, fmt.Sprintf("ingredients: no %q among %s", w.Name, strings.Join(names, ", ")))
			continue
		}
		taken[best] = true
		out = append(out, fewest...)
	}
	for i := range got {
		if !taken[i] {
			out = append(out, fmt.Sprintf("ingredients: %q is too much", got[i].Name))
		}
	}
	return out
}

func (w *wantIngredient) misses(got *schema.Ingredient) []string {
	var out []string
	miss := func(what string, want, have any) {
		out = append(out, fmt.Sprintf("%s: %s: want %v, got %v", got.Name, what, want, have))
	}
	quantity := func(what, want string, q *schema.Quantity) {
		if q != nil && q.Vague != "" {
			q = nil
		}
		switch {
		case want == "":
		case want == "none" && q == nil:
		case want == "none" || q == nil || !oneOf(want, func(s string) bool { return sameQuantity(s, *q) }):
			miss(what, want, q)
		}
	}
	quantity("amount", w.Amount, got.Amount)
	quantity("second amount", w.SecondAmount, got.SecondAmount)
	size := got.Size
	if size == nil && got.Amount != nil {
		size = got.Amount.Size
	}
	quantity("size", w.Size, size)
	vague := got.Vague
	if vague == "" && got.Amount != nil {
		vague = got.Amount.Vague
	}
	if !strings.Contains(vague, w.Vague) {
		miss("vague words", w.Vague, fmt.Sprintf("%q", vague))
	}
	if w.ToTaste != nil && *w.ToTaste != got.ToTaste {
		miss("to taste", *w.ToTaste, got.ToTaste)
	}
	if w.Optional != nil && *w.Optional != got.Optional {
		miss("optional", *w.Optional, got.Optional)
	}
	if w.Substitutes != nil {
		var names []string
		for _, s := range got.Substitutes {
			names = append(names, s.Name)
		}
		for _, m := range setMisses("substitutes", w.Substitutes, names) {
			out = append(out, got.Name+": "+m)
		}
	}
	if w.Part != "" && !sameName(w.Part, got.Part) {
		miss("part", w.Part, got.Part)
	}
	if w.Ways != nil {
		for _, m := range setMisses("ways", w.Ways, got.Ways) {
			out = append(out, got.Name+": "+m)
		}
	}
	return out
}

// found is a quantity and the step it stands in.
type found struct {
	q    schema.Quantity
	step *schema.Step
}

// quantityMisses compares all temperatures or times of a document with those
// wanted, and the verb of the step each belongs to.
func quantityMisses(what string, want []string, got []found) []string {
	if want == nil {
		return nil
	}
	var out []string
	taken := make([]bool, len(got))
	for _, w := range want {
		text, verb, _ := strings.Cut(w, " for ")
		match := func(anyVerb bool) int {
			for i, g := range got {
				if !taken[i] && sameQuantity(text, g.q) && (anyVerb || verb == "" || hasVerb(g.step, verb)) {
					return i
				}
			}
			return -1
		}
		i := match(false)
		if i < 0 {
			if i = match(true); i < 0 {
				out = append(out, fmt.Sprintf("%s: no %s", what, text))
				continue
			}
			out = append(out, fmt.Sprintf("%s: %s stands with %s, not with %s", what, text, strings.Join(got[i].step.Actions, ", "), verb))
		}
		taken[i] = true
	}
	for i, g := range got {
		if !taken[i] {
			out = append(out, fmt.Sprintf("%s: %s in %q is too much", what, g.q, g.step.Text))
		}
	}
	return out
}

func hasVerb(s *schema.Step, verb string) bool {
	return slices.ContainsFunc(s.Actions, func(a string) bool { return firstWord(a) == verb })
}

// setMisses compares two lists in any order; nil asks for nothing.
func setMisses(what string, want, got []string) []string {
	if want == nil {
		return nil
	}
	left := slices.Clone(got)
	var missing []string
	for _, w := range want {
		i := slices.IndexFunc(left, func(g string) bool { return oneOf(w, func(s string) bool { return sameName(s, g) }) })
		if i < 0 {
			missing = append(missing, w)
			continue
		}
		left = slices.Delete(left, i, i+1)
	}
	if len(missing)+len(left) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("%s: want [%s], got [%s]", what, strings.Join(want, ", "), strings.Join(got, ", "))}
}

// inOrder gives the first of want that isn't found in got behind those before
// it, "" when all are.
func inOrder(want, got []string) string {
	i := 0
	for _, w := range want {
		for i < len(got) && got[i] != w {
			i++
		}
		if i == len(got) {
			return w
		}
		i++
	}
	return ""
}

func oneOf(readings string, fits func(string) bool) bool {
	return slices.ContainsFunc(strings.Split(readings, " | "), fits)
}

// sameName compares names without case, hyphens and plural endings.
func sameName(a, b string) bool { return foldName(a) == foldName(b) }

func foldName(s string) string {
	words := strings.Fields(strings.ReplaceAll(strings.ToLower(s), "-", " "))
	for i, w := range words {
		switch {
		case strings.HasSuffix(w, "ies") && len(w) > 4:
			w = strings.TrimSuffix(w, "ies") + "y"
		case strings.HasSuffix(w, "oes"):
			w = strings.TrimSuffix(w, "es")
		case strings.HasSuffix(w, "ves"):
			w = strings.TrimSuffix(w, "ves") + "f"
		case strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss"):
			w = strings.TrimSuffix(w, "s")
		}
		words[i] = w
	}
	return strings.Join(words, " ")
}

// sameNumber reports whether the text is a bare number, or two with a dash, and the yield has it.
func sameNumber(text string, got schema.Quantity) bool {
	want, err := schema.ParseQuantity(text)
	return err == nil && want.Unit == "" && want.Min == got.Min && want.Max == got.Max
}

// mostlyCalled reports whether six in ten of the words of a title are in another.
func mostlyCalled(want, got string) bool {
	has := map[string]bool{}
	for _, w := range titleWords(got) {
		has[w] = true
	}
	n, of := 0, 0
	for _, w := range titleWords(want) {
		of++
		if has[w] {
			n++
		}
	}
	return of > 0 && 10*n >= 6*of
}

// titleWords gives the words of a title that say something, each in the singular.
func titleWords(s string) []string {
	var out []string
	for _, w := range strings.Fields(strings.ToLower(strings.ReplaceAll(s, "-", " "))) {
		switch w = strings.Trim(w, ",.'"); w {
		case "a", "the", "of", "":
		default:
			out = append(out, lexicon.Singular(w))
		}
	}
	return out
}

// sameQuantity compares a quantity with a text: a time by its length, "about"
// left aside, a piece like a plain count.
func sameQuantity(text string, got schema.Quantity) bool {
	want, err := schema.ParseQuantity(text)
	if err != nil {
		return false
	}
	return plainQuantity(want).Equal(plainQuantity(got))
}

func plainQuantity(q schema.Quantity) schema.Quantity {
	q.About, q.Text = false, ""
	if q.Unit == "piece" {
		q.Unit = ""
	}
	if s, ok := schema.Seconds(q.Unit); ok && !q.Overnight {
		q.Min, q.Max, q.Unit = q.Min*s, q.Max*s, "second"
	}
	return q
}

func sameYield(text string, got schema.Quantity) bool {
	want, err := schema.ParseYield(text)
	if err != nil {
		return false
	}
	return want.Min == got.Min && want.Max == got.Max && sameName(want.Unit, got.Unit)
}

func firstWord(s string) string {
	first, _, _ := strings.Cut(s, " ")
	return first
}
