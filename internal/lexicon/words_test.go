package lexicon

import (
	"slices"
	"strings"
	"testing"

	"quern/internal/language"
)

// wordTable is one table of cooks' words and what its rows must keep to.
type wordTable struct {
	name, text string
	header     []string
	least      int // rows
}

var wordTables = []wordTable{
	{"actions.tsv", actionsTSV, []string{"verb", "forms", "particles", "kind", "flags"}, 320},
	{"equipment.tsv", equipmentTSV, []string{"name", "also", "kind", "flags"}, 360},
	{"units.tsv", unitsTSV, []string{"word", "unit", "kind"}, 150},
	{"multiples.tsv", multiplesTSV, []string{"word", "unit", "kind", "times"}, 20},
	{"vague.tsv", vagueTSV, []string{"words", "kind"}, 130},
	{"modifiers.tsv", modifiersTSV, []string{"word", "class"}, 260},
	{"doneness.tsv", donenessTSV, []string{"cue", "kind"}, 120},
	{"made.tsv", madeTSV, []string{"word", "kind"}, 100},
	{"components.tsv", componentsTSV, []string{"word", "from", "names", "why"}, 40},
}

// wordRow is one row with the line it stands on, from 1.
type wordRow struct {
	line int
	cols []string
}

// readWordTable checks the table's outer shape and gives its rows.
func readWordTable(t *testing.T, w wordTable) []wordRow {
	t.Helper()
	if !strings.HasPrefix(w.text, "# ") {
		t.Errorf("%s: no comment at its head that says what it holds", w.name)
	}
	if !strings.HasSuffix(w.text, "\n") || strings.HasSuffix(w.text, "\n\n") {
		t.Errorf("%s: must end with exactly one newline", w.name)
	}
	var out []wordRow
	header := false
	for n, line := range strings.Split(strings.TrimSuffix(w.text, "\n"), "\n") {
		switch cols := strings.Split(line, "\t"); {
		case strings.HasPrefix(line, "#"):
			if header {
				t.Errorf("%s:%d: a comment among the rows", w.name, n+1)
			}
		case !header:
			header = true
			if !slices.Equal(cols, w.header) {
				t.Errorf("%s:%d: header %q, want %q", w.name, n+1, cols, w.header)
			}
		case len(cols) != len(w.header):
			t.Errorf("%s:%d: %d columns, want %d: %q", w.name, n+1, len(cols), len(w.header), line)
		default:
			for i, c := range cols {
				if c != strings.Join(strings.Fields(c), " ") {
					t.Errorf("%s:%d: %s %q has stray spaces", w.name, n+1, w.header[i], c)
				}
				if w.header[i] != "unit" && c != strings.ToLower(c) {
					t.Errorf("%s:%d: %s %q is not lower case", w.name, n+1, w.header[i], c)
				}
			}
			if cols[0] == "" {
				t.Errorf("%s:%d: the %s is empty", w.name, n+1, w.header[0])
			}
			out = append(out, wordRow{n + 1, cols})
		}
	}
	if len(out) < w.least {
		t.Errorf("%s: %d rows, want at least %d", w.name, len(out), w.least)
	}
	return out
}

// wordRows finds a table by its name and reads it.
func wordRows(t *testing.T, name string) []wordRow {
	t.Helper()
	i := slices.IndexFunc(wordTables, func(w wordTable) bool { return w.name == name })
	if i < 0 {
		t.Fatalf("no word table is called %s", name)
	}
	return readWordTable(t, wordTables[i])
}

// wordKey is how the matcher sees a phrase: two rows with one key would shadow
// each other.
func wordKey(phrase string) string { return strings.Join(language.Norms(phrase), " ") }

// seenOnce reports phrases that the matcher cannot see or cannot tell from an
// earlier one.
func seenOnce(t *testing.T, name string, seen map[string]int, line int, phrase string) {
	t.Helper()
	k := wordKey(phrase)
	if k == "" {
		t.Errorf("%s:%d: %q has no word in it", name, line, phrase)
		return
	}
	if first, ok := seen[k]; ok {
		t.Errorf("%s:%d: %q stands on line %d already", name, line, phrase, first)
		return
	}
	seen[k] = line
}

// inClass reports a class that is not in the list.
func inClass(t *testing.T, name string, line int, column, got string, want ...string) {
	t.Helper()
	if !slices.Contains(want, got) {
		t.Errorf("%s:%d: %s %q, want one of %s", name, line, column, got, strings.Join(want, ", "))
	}
}

// wordList cuts a column at sep and reports empty or repeated entries.
func wordList(t *testing.T, name string, line int, column, sep string) []string {
	t.Helper()
	if column == "" {
		return nil
	}
	out := strings.Split(column, sep)
	for i, p := range out {
		if p == "" || p != strings.TrimSpace(p) {
			t.Errorf("%s:%d: an empty or padded entry in %q", name, line, column)
		}
		if slices.Contains(out[:i], p) {
			t.Errorf("%s:%d: %q twice in %q", name, line, p, column)
		}
	}
	return out
}

func TestActionRows(t *testing.T) {
	const name = "actions.tsv"
	kinds := []string{"cut", "mix", "heat", "rest", "shape", "add", "move", "clean", "season", "measure", "serve", "wrap", "check", "prepare", "finish", "set-up", "cool", "remove"}
	particles := []string{"in", "down", "out", "off", "up", "over", "through", "together", "aside", "on", "into", "onto", "back", "around", "round", "away", "apart", "open", "under", "across", "along"}
	seen := make(map[string]int)
	used := make(map[string]int)
	for _, r := range wordRows(t, name) {
		verb := r.cols[0]
		seenOnce(t, name, seen, r.line, verb)
		forms := wordList(t, name, r.line, r.cols[1], "|")
		if len(forms) == 0 || forms[0] != verb {
			t.Errorf("%s:%d: the forms of %q must begin with it: %q", name, r.line, verb, forms)
		}
		for _, f := range forms {
			// a form keeps the verb's first letter: "went" is the one that doesn't
			if f[0] != verb[0] && f != "went" {
				t.Errorf("%s:%d: %q is no form of %q", name, r.line, f, verb)
			}
		}
		if !strings.Contains(strings.Join(forms, "|"), "ing") && verb != "whiz" {
			t.Errorf("%s:%d: %q lacks its form in -ing", name, r.line, verb)
		}
		for _, p := range wordList(t, name, r.line, r.cols[2], "|") {
			inClass(t, name, r.line, "particle", p, particles...)
		}
		inClass(t, name, r.line, "kind", r.cols[3], kinds...)
		used[r.cols[3]]++
		for _, f := range wordList(t, name, r.line, r.cols[4], ",") {
			inClass(t, name, r.line, "flag", f, "weak", "noun", "state")
		}
	}
	for _, k := range kinds {
		if used[k] == 0 {
			t.Errorf("%s: no verb is of the kind %q", name, k)
		}
	}
}

// TestActionForms pins inflections that no simple rule gives.
func TestActionForms(t *testing.T) {
	forms := make(map[string]string)
	for _, r := range wordRows(t, "actions.tsv") {
		forms[r.cols[0]] = r.cols[1]
	}
	for _, c := range []struct{ verb, want string }{
		{"beat", "beat|beats|beating|beaten"},
		{"chop", "chop|chops|chopping|chopped"},
		{"cut", "cut|cuts|cutting"},
		{"dry", "dry|dries|drying|dried"},
		{"freeze", "freeze|freezes|freezing|froze|frozen"},
		{"grind", "grind|grinds|grinding|ground"},
		{"puree", "puree|purees|pureeing|pureed"},
		{"put", "put|puts|putting"},
		{"rise", "rise|rises|rising|rose|risen"},
		{"set", "set|sets|setting"},
		{"shake", "shake|shakes|shaking|shook|shaken"},
		{"tie", "tie|ties|tying|tied"},
		{"top and tail", "top and tail|tops and tails|topping and tailing|topped and tailed"},
		{"whisk", "whisk|whisks|whisking|whisked"},
	} {
		if got := forms[c.verb]; got != c.want && !strings.HasPrefix(got, c.want+"|") {
			t.Errorf("forms of %q are %q, want %q", c.verb, got, c.want)
		}
	}
}

func TestEquipmentRows(t *testing.T) {
	const name = "equipment.tsv"
	kinds := []string{"pan", "oven-dish", "tin", "bowl", "jar", "knife", "tool", "appliance", "heat", "wrap", "cloth", "measure", "surface", "serving", "machine-part"}
	seen := make(map[string]int)
	used := make(map[string]int)
	for _, r := range wordRows(t, name) {
		seenOnce(t, name, seen, r.line, r.cols[0])
		for _, a := range wordList(t, name, r.line, r.cols[1], "|") {
			seenOnce(t, name, seen, r.line, a)
		}
		inClass(t, name, r.line, "kind", r.cols[2], kinds...)
		used[r.cols[2]]++
		for _, f := range wordList(t, name, r.line, r.cols[3], ",") {
			inClass(t, name, r.line, "flag", f, "food", "weak")
		}
	}
	for _, k := range kinds {
		if used[k] == 0 {
			t.Errorf("%s: nothing is of the kind %q", name, k)
		}
	}
}

func TestUnitRows(t *testing.T) {
	const name = "units.tsv"
	kindOf := map[string]string{
		"cup": "volume", "tbsp": "volume", "tsp": "volume", "fl oz": "volume", "pint": "volume", "quart": "volume", "gallon": "volume", "ml": "volume", "l": "volume",
		"g": "mass", "kg": "mass", "oz": "mass", "lb": "mass",
		"stick": "count", "clove": "count", "slice": "count", "bunch": "count", "sprig": "count", "head": "count", "stalk": "count", "leaf": "count", "sheet": "count", "piece": "count",
		"can": "container", "jar": "container", "packet": "container",
		"pinch": "small", "dash": "small", "drop": "small", "handful": "small", "knob": "small",
		"inch": "length", "cm": "length", "mm": "length",
		"second": "time", "minute": "time", "hour": "time", "day": "time", "week": "time", "month": "time",
	}
	seen := make(map[string]int)
	itself := make(map[string]bool)
	for _, r := range wordRows(t, name) {
		seenOnce(t, name, seen, r.line, r.cols[0])
		want, ok := kindOf[r.cols[1]]
		if !ok {
			t.Errorf("%s:%d: the recipe form has no unit %q", name, r.line, r.cols[1])
		} else if r.cols[2] != want {
			t.Errorf("%s:%d: kind %q of %q, want %q", name, r.line, r.cols[2], r.cols[1], want)
		}
		if r.cols[0] == r.cols[1] {
			itself[r.cols[1]] = true
		}
	}
	for u := range kindOf {
		if !itself[u] {
			t.Errorf("%s: the unit %q has no row for its own name", name, u)
		}
	}
}

func TestMultipleRows(t *testing.T) {
	const name = "multiples.tsv"
	lex := Load()
	seen := make(map[string]int)
	for _, r := range wordRows(t, name) {
		seenOnce(t, name, seen, r.line, r.cols[0])
		inClass(t, name, r.line, "unit", r.cols[1], "ml", "g")
		inClass(t, name, r.line, "kind", r.cols[2], "volume", "mass")
		inClass(t, name, r.line, "times", r.cols[3], "10", "100")
		if u, n := lex.UnitAt(lex.IDs(language.Words(r.cols[0])), 0); n == 0 || u.Unit != r.cols[1] || u.Times < 10 {
			t.Errorf("%s:%d: %q is read as %+v", name, r.line, r.cols[0], u)
		}
	}
}

func TestVagueRows(t *testing.T) {
	const name = "vague.tsv"
	seen := make(map[string]int)
	kinds := make(map[string]string)
	units := make(map[string]bool)
	for _, r := range wordRows(t, "units.tsv") {
		units[wordKey(r.cols[0])] = true
	}
	for _, r := range wordRows(t, name) {
		seenOnce(t, name, seen, r.line, r.cols[0])
		inClass(t, name, r.line, "kind", r.cols[1], "vague", "taste", "ratio", "reference")
		kinds[wordKey(r.cols[0])] = r.cols[1]
		if words := language.Norms(r.cols[0]); r.cols[1] == "vague" && (len(words) == 1 || len(words) == 2 && words[0] == "a") && units[words[len(words)-1]] {
			t.Errorf("%s:%d: %q is a unit, not a vague amount", name, r.line, r.cols[0])
		}
	}
	for words, kind := range map[string]string{
		"a splash": "vague", "a good glug": "vague", "some": "vague", "a little bit": "vague", "to taste": "taste", "to your liking": "taste",
		"twice as much": "ratio", "equal parts": "ratio", "this much": "reference", "enough to cover": "reference",
		"a couple of": "", // two
	} {
		if got := kinds[wordKey(words)]; got != kind {
			t.Errorf("%s: kind of %q is %q, want %q", name, words, got, kind)
		}
	}
}

func TestModifierRows(t *testing.T) {
	const name = "modifiers.tsv"
	seen := make(map[string]int)
	class := make(map[string]string)
	for _, r := range wordRows(t, name) {
		seenOnce(t, name, seen, r.line, r.cols[0])
		inClass(t, name, r.line, "class", r.cols[1], "name", "prep", "size", "drop")
		class[r.cols[0]] = r.cols[1]
	}
	for word, want := range map[string]string{
		"unsalted": "name", "extra virgin": "name", "free-range": "name", "chopped": "prep", "finely": "prep", "softened": "prep",
		"room temperature": "prep", "large": "size", "heaped": "size", "nice": "drop", "your": "drop", "fresh": "drop",
	} {
		if class[word] != want {
			t.Errorf("%s: class of %q is %q, want %q", name, word, class[word], want)
		}
	}
}

func TestDonenessRows(t *testing.T) {
	const name = "doneness.tsv"
	seen := make(map[string]int)
	counts := make(map[string]int)
	for _, r := range wordRows(t, name) {
		seenOnce(t, name, seen, r.line, r.cols[0])
		inClass(t, name, r.line, "kind", r.cols[1], "start", "sign")
		counts[r.cols[1]]++
	}
	if counts["start"] < 30 || counts["sign"] < 100 {
		t.Errorf("%s: %d starts and %d signs, want at least 30 and 100", name, counts["start"], counts["sign"])
	}
}

func TestMadeRows(t *testing.T) {
	const name = "made.tsv"
	seen := make(map[string]int)
	kinds := make(map[string]string)
	for _, r := range wordRows(t, name) {
		seenOnce(t, name, seen, r.line, r.cols[0])
		inClass(t, name, r.line, "kind", r.cols[1], "part", "whole")
		kinds[r.cols[0]] = r.cols[1]
	}
	for word, want := range map[string]string{"dough": "part", "tadka": "part", "frosting": "part", "dry ingredients": "part", "cake": "whole", "slab": "whole", "soup": "whole"} {
		if kinds[word] != want {
			t.Errorf("%s: kind of %q is %q, want %q", name, word, kinds[word], want)
		}
	}
}
