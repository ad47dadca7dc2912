package derive

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"quern/internal/safety"
	"quern/schema"
)

// reading is a document with what follows from its words alone, which nothing
// here changes, so that it is worked out once.
type reading struct {
	doc   *schema.Document
	dish  *safety.Dish
	lows  []safety.Low    // inside temperatures below the published minimum
	words [][]schema.Flag // what each of finders found
}

func readingOf(doc *schema.Document) *reading {
	r := &reading{doc: doc, dish: safety.Read(doc)}
	r.lows = r.dish.LowTemperatures()
	for _, find := range finders {
		r.words = append(r.words, find(doc))
	}
	return r
}

// finders look for the flags that follow from a document's words alone, one kind
// or pair of kinds each.
var finders = []func(*schema.Document) []schema.Flag{
	amountFlags,
	yieldFlags,
	temperatureFlags,
	timeFlags,
}

// flags returns the document's flags in the order of their moments: those that
// follow from the document found afresh, all others and every settled one kept.
// A fresh flag keeps the evidence of the one it replaces.
func (r *reading) flags() []schema.Flag {
	doc := r.doc
	var kept, old []schema.Flag
	for _, f := range doc.Flags {
		if f.Settled != "" || !follows(f) {
			kept = append(kept, f)
		} else {
			old = append(old, f)
		}
	}
	fresh := slices.Concat(slices.Concat(r.words...), foodFlags(doc), claimFlags(doc), r.insideFlags())
	out := slices.Concat(kept, unanswered(fresh, kept))
	type question struct{ kind, subject, ask string }
	evidence := make(map[question][]string, len(old))
	for _, f := range slices.Backward(old) { // the first of several alike counts
		evidence[question{f.Kind, f.Subject, f.Ask}] = f.Evidence
	}
	for i := range out[len(kept):] {
		f := &out[len(kept)+i]
		if e, ok := evidence[question{f.Kind, f.Subject, f.Ask}]; ok {
			f.Evidence = e
		}
	}
	// Flags without a moment come last, and each group keeps its order.
	slices.SortStableFunc(out, func(a, b schema.Flag) int {
		x, y := moment(a.Said), moment(b.Said)
		if (x == "") != (y == "") {
			if x == "" {
				return 1
			}
			return -1
		}
		return strings.Compare(x, y)
	})
	return out
}

// follows tells whether a flag is found afresh each time. A claim that the talk
// itself contradicts isn't; one that an ingredient breaks is, and is known by
// the question this package asks. So is an inside temperature that is below the
// published one.
func follows(f schema.Flag) bool {
	switch f.Kind {
	case schema.AmountUnstated, schema.AmountVague, schema.YieldUnstated, schema.TemperatureUnstated, schema.TimeUnstated, schema.FoodUnknown:
		return true
	case schema.ConflictClaim:
		return strings.HasPrefix(f.Ask, claimQuestion(f.Subject))
	case schema.ConflictTemperature:
		return safety.AsksLow(f.Ask, f.Subject)
	}
	return false
}

// unanswered drops the fresh flags that a kept one answers or already asks. One
// kept flag answers one fresh flag of its subject, at its moment or in its words.
// A contradicted claim is asked about once, whatever contradicts it.
func unanswered(fresh, kept []schema.Flag) []schema.Flag {
	type topic struct{ subject, family string }
	about := make(map[topic][]int) // the fresh flags of each subject and family, in their order
	for i := range fresh {
		at := topic{fresh[i].Subject, family(fresh[i].Kind)}
		about[at] = append(about[at], i)
	}
	answered := make([]bool, len(fresh))
	for _, k := range kept {
		best, bestRank := -1, 0
		for _, i := range about[topic{k.Subject, family(k.Kind)}] {
			if answered[i] {
				continue
			}
			f := &fresh[i]
			rank := 0
			if f.Kind == schema.ConflictClaim {
				rank++
			}
			if f.Ask == k.Ask {
				rank += 2
			}
			if moment(f.Said) == moment(k.Said) {
				rank += 3
			}
			if rank > bestRank {
				best, bestRank = i, rank
			}
		}
		if best >= 0 {
			answered[best] = true
		}
	}
	var out []schema.Flag
	for i, f := range fresh {
		if !answered[i] {
			out = append(out, f)
		}
	}
	return out
}

// family puts the two kinds of missing amount in one: settling "a splash" also
// settles it when the words are taken out.
func family(kind string) string {
	if kind == schema.AmountVague {
		return schema.AmountUnstated
	}
	return kind
}

// moment returns the first timestamp of said, "" where there is none.
func moment(said []schema.Said) string {
	for _, s := range said {
		if s.At != "" {
			return s.At
		}
	}
	return ""
}

// clock writes a timestamp as people say it: 1:31 for 00:01:31.500.
func clock(at string) string {
	whole, _, _ := strings.Cut(at, ".")
	whole = strings.TrimLeft(whole, "0:")
	for strings.Count(whole, ":") < 1 {
		whole = "0:" + strings.Repeat("0", max(0, 2-len(whole))) + whole
	}
	return whole
}

// amountFlags asks for each ingredient whose amount was never said, or only in
// vague words. What goes in to taste is answered.
func amountFlags(doc *schema.Document) []schema.Flag {
	var out []schema.Flag
	var from []*schema.Ingredient
	others := namesakes(doc)
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		vague := ing.Vague
		switch {
		case ing.ToTaste:
			continue
		case ing.Amount != nil && ing.Amount.Vague == "", ing.SecondAmount != nil && ing.SecondAmount.Vague == "":
			continue
		case ing.Amount != nil && vague == "":
			vague = ing.Amount.Vague
		}
		kind := schema.AmountUnstated
		if vague != "" {
			kind = schema.AmountVague
		}
		out = append(out, schema.Flag{Kind: kind, Subject: ing.Name, Ask: askAmount(others, ing, vague), Said: ing.Said})
		from = append(from, ing)
	}
	// Two questions in the same words are told apart by their moments.
	words := map[string]int{}
	for _, f := range out {
		words[f.Ask]++
	}
	for i := range out {
		if at := moment(from[i].Said); words[out[i].Ask] > 1 && at != "" {
			out[i].Ask = strings.TrimSuffix(out[i].Ask, "?") + " at " + clock(at) + "?"
		}
	}
	return out
}

// counted are the things people count; other plurals are asked for by amount.
var counted = map[string]bool{
	"apples": true, "apricots": true, "avocados": true, "bananas": true, "carrots": true, "chiles": true, "chillies": true, "cloves": true,
	"courgettes": true, "cubes": true, "cucumbers": true, "cutlets": true, "eggs": true, "fillets": true, "leeks": true, "lemons": true,
	"limes": true, "onions": true, "oranges": true, "parsnips": true, "peaches": true, "pears": true, "peppers": true, "potatoes": true,
	"radishes": true, "scallions": true, "shallots": true, "sausages": true, "slices": true, "steaks": true, "sticks": true, "thighs": true,
	"tomatoes": true, "tortillas": true, "whites": true, "yolks": true, "zucchinis": true, "breasts": true, "drumsticks": true, "bags": true,
}

func askAmount(others map[string]uses, ing *schema.Ingredient, vague string) string {
	words := strings.Fields(ing.Name)
	ask := "How much "
	if len(words) > 0 {
		switch last := strings.ToLower(words[len(words)-1]); {
		case counted[last]:
			ask = "How many "
		case strings.HasSuffix(last, "s") && !strings.HasSuffix(last, "ss") && !strings.HasSuffix(last, "us"):
			ask = "What amount of "
		}
	}
	ask += ing.Name
	if part, way := elsewhere(others[folded(ing.Name)], ing); part {
		ask += " for the " + ing.Part
	} else if way {
		ask += " for " + strings.Join(ing.Ways, " and ")
	}
	if vague != "" {
		ask += " (“" + vague + "” was said)"
	}
	return ask + "?"
}

// uses tells where the ingredients of one name go: how many parts, and how many
// lists of ways.
type uses struct{ parts, ways map[string]bool }

// namesakes gathers the uses of the ingredients of each name, whatever its case.
func namesakes(doc *schema.Document) map[string]uses {
	out := make(map[string]uses, len(doc.Ingredients))
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		name := folded(ing.Name)
		u, ok := out[name]
		if !ok {
			u = uses{map[string]bool{}, map[string]bool{}}
			out[name] = u
		}
		u.parts[ing.Part] = true
		u.ways[strings.Join(ing.Ways, "\x00")] = true
	}
	return out
}

// folded gives one spelling of what strings.EqualFold takes for equal.
func folded(name string) string {
	return strings.Map(func(r rune) rune {
		least := r
		for next := unicode.SimpleFold(r); next != r; next = unicode.SimpleFold(next) {
			least = min(least, next)
		}
		return least
	}, name)
}

// elsewhere tells whether another part, or another way, uses an ingredient of
// the same name, so that the question must say which is meant.
func elsewhere(u uses, ing *schema.Ingredient) (part, way bool) {
	return ing.Part != "" && len(u.parts) > 1, len(ing.Ways) > 0 && len(u.ways) > 1
}

func yieldFlags(doc *schema.Document) []schema.Flag {
	if doc.Yield != nil {
		return nil
	}
	return []schema.Flag{{Kind: schema.YieldUnstated, Subject: "yield", Ask: "How many servings or pieces does this make?"}}
}

// ovenBoils is the temperature from which a figure is an oven's and not the
// inside of the food, degrees Fahrenheit: the inside of a wet food stays below
// the boil of water. Common practice.
const ovenBoils = 212

// temperatureFlags asks for the oven's temperature where something is baked or
// roasted and none is said for that way of making the dish.
func temperatureFlags(doc *schema.Document) []schema.Flag {
	ways := []string{""}
	if len(doc.Ways) > 0 {
		ways = nil
		for _, w := range doc.Ways {
			ways = append(ways, w.Name)
		}
	}
	// A step without ways belongs to all of them, which "" stands for.
	type oven struct {
		first int // step, -1 for none
		known bool
	}
	ovens := map[string]oven{}
	note := func(way string, i int) {
		o, ok := ovens[way]
		if !ok {
			o.first = -1
		}
		if o.first < 0 && inOven(&doc.Steps[i]) {
			o.first = i
		}
		o.known = o.known || ovenSaid(&doc.Steps[i])
		ovens[way] = o
	}
	for i := range doc.Steps {
		if len(doc.Ways) == 0 || len(doc.Steps[i].Ways) == 0 {
			note("", i)
			continue
		}
		for _, way := range doc.Steps[i].Ways {
			note(way, i)
		}
	}
	var out []schema.Flag
	asked := map[int]bool{}
	for _, way := range ways {
		first, known := -1, false
		for _, name := range []string{"", way} {
			if o, ok := ovens[name]; ok {
				if o.first >= 0 && (first < 0 || o.first < first) {
					first = o.first
				}
				known = known || o.known
			}
		}
		if first < 0 || known || asked[first] {
			continue
		}
		asked[first] = true
		s := &doc.Steps[first]
		subject, ask := "oven", "What temperature should the oven be?"
		if len(s.Ways) > 0 {
			subject, ask = "oven, "+way, "What temperature should the oven be for "+way+"?"
		}
		out = append(out, schema.Flag{Kind: schema.TemperatureUnstated, Subject: subject, Ask: ask, Said: s.Said})
	}
	return out
}

var (
	ovenVerbs  = []string{"bake", "roast"}
	notAnOven  = []string{"comal", "skillet", "pan", "griddle", "wok", "grill", "flame", "coals", "tawa", "stove", "stovetop", "hob", "burner", "campfire", "microwave"}
	heatVerbs  = []string{"bake", "roast", "boil", "simmer", "fry", "saute", "sauté", "steam", "poach", "braise", "stew", "grill", "broil", "deep-fry", "stir-fry", "pan-fry", "cook", "pressure cook", "slow cook", "microwave", "sear", "barbecue", "air-fry"}
	signs      = []string{"until", "till", "once", "when", "as soon as", "whistle", "whistles"}
	ownSigns   = []string{"bring", "to a boil", "to the boil", "kettle", "water"}
	ownSignFor = "boil"
)

func inOven(s *schema.Step) bool {
	words := plain(s.Text)
	if has(words, "oven") && acts(s, heatVerbs) != "" {
		return true
	}
	return acts(s, ovenVerbs) != "" && !slices.ContainsFunc(notAnOven, func(w string) bool {
		return has(words, w) && !has(words, "in the "+w) || slices.ContainsFunc(s.Equipment, func(e string) bool { return has(plain(e), w) }) && !has(words, "oven")
	})
}

// ovenSaid tells whether a step gives the oven's heat.
func ovenSaid(s *schema.Step) bool {
	if len(s.Heat) > 0 && inOven(s) {
		return true
	}
	return slices.ContainsFunc(s.Temperature, func(q schema.Quantity) bool {
		f, ok := schema.Fahrenheit(q.Max, q.Unit)
		return q.Unit == "gas" || q.Vague == "" && ok && (f >= ovenBoils || f >= 150 && has(plain(s.Text), "oven"))
	})
}

// timeFlags asks how long where a step is on the heat and says neither a time
// nor a temperature nor a sign of doneness, and no other step of the same
// action says it for the same part.
func timeFlags(doc *schema.Document) []schema.Flag {
	var out []schema.Flag
	ended := endings(doc)
	for i := range doc.Steps {
		s := &doc.Steps[i]
		verb := acts(s, heatVerbs)
		if verb == "" || told(s) || verb == ownSignFor && slices.ContainsFunc(ownSigns, func(w string) bool { return has(plain(s.Text), w) }) {
			continue
		}
		if ended.of(verb, s) {
			continue
		}
		text := strings.TrimRight(strings.TrimSpace(s.Text), ".")
		out = append(out, schema.Flag{Kind: schema.TimeUnstated, Subject: text, Ask: "How long should this take, or what shows that it's done: “" + text + "”?", Said: s.Said})
	}
	return out
}

// told tells whether a step says when it is over.
func told(s *schema.Step) bool {
	words := plain(s.Text)
	return len(s.Time) > 0 || s.Until != "" ||
		slices.ContainsFunc(s.Temperature, func(q schema.Quantity) bool { f, ok := schema.Fahrenheit(q.Max, q.Unit); return ok && f < ovenBoils }) ||
		slices.ContainsFunc(signs, func(w string) bool { return has(words, w) })
}

// ending is that some step of an action says when it is over, in a part and in a
// way. Those that name no part or no way have the name "", and anyPart and anyWay
// stand for whatever there is.
type ending struct{ verb, part, way string }

const (
	anyPart = "\x00"
	anyWay  = "\x00"
)

type endingSet map[ending]bool

// endings gathers the steps on the heat that say when they are over.
func endings(doc *schema.Document) endingSet {
	out := endingSet{}
	for i := range doc.Steps {
		s := &doc.Steps[i]
		if acts(s, heatVerbs) == "" || !told(s) {
			continue
		}
		for _, verb := range heatVerbs {
			if acts(s, []string{verb}) == "" {
				continue
			}
			for _, way := range append(waysOf(s), anyWay) {
				out[ending{verb, s.Part, way}] = true
				out[ending{verb, anyPart, way}] = true
			}
		}
	}
	return out
}

// of tells whether a step of the same action, for the same part or way as far as
// they are named, says when it is over.
func (e endingSet) of(verb string, s *schema.Step) bool {
	parts, ways := []string{s.Part, ""}, append(waysOf(s), "")
	if s.Part == "" {
		parts = []string{anyPart}
	}
	if len(s.Ways) == 0 {
		ways = []string{anyWay}
	}
	return slices.ContainsFunc(parts, func(part string) bool {
		return slices.ContainsFunc(ways, func(way string) bool { return e[ending{verb, part, way}] })
	})
}

// waysOf copies a step's ways, "" where it has none.
func waysOf(s *schema.Step) []string {
	if len(s.Ways) == 0 {
		return []string{""}
	}
	return slices.Clone(s.Ways)
}

// acts returns the first of verbs that is among the step's actions, alone or
// with what follows it ("fry off"); "" where none is.
func acts(s *schema.Step, verbs []string) string {
	for _, a := range s.Actions {
		for _, v := range verbs {
			if strings.EqualFold(a, v) || len(a) > len(v) && a[len(v)] == ' ' && strings.EqualFold(a[:len(v)], v) {
				return v
			}
		}
	}
	return ""
}

// plain returns the words of text in lower case between single spaces, with one
// at either end.
func plain(text string) string {
	return " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' }), " ") + " "
}

func has(words, phrase string) bool { return strings.Contains(words, " "+phrase+" ") }

// foodFlags asks for a food with figures where the nutrient table has none.
func foodFlags(doc *schema.Document) []schema.Flag {
	var out []schema.Flag
	asked := make(map[string]bool)
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		if ing.Food != "" || asked[ing.Name] {
			continue
		}
		asked[ing.Name] = true
		out = append(out, schema.Flag{Kind: schema.FoodUnknown, Subject: ing.Name, Ask: "Which food comes nearest to " + ing.Name + " for the figures?", Said: ing.Said})
	}
	return out
}

func claimQuestion(claim string) string { return "Is it " + claim + " with " }

// claimFlags asks about each diet claim that a named ingredient breaks for
// certain, one flag a claim; said holds the claim's moment first.
func claimFlags(doc *schema.Document) []schema.Flag {
	certain := map[string][]safety.Break{}
	for _, b := range safety.ClaimBreaks(doc) {
		if b.Sure {
			certain[b.Claim] = append(certain[b.Claim], b)
		}
	}
	if len(certain) == 0 {
		return nil
	}
	saidOf := map[string][]schema.Said{} // of the first ingredient of each name
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		if _, ok := saidOf[ing.Name]; !ok {
			saidOf[ing.Name] = firstOf(ing.Said)
		}
	}
	var out []schema.Flag
	asked := map[string]bool{}
	for _, c := range doc.Claims {
		if len(certain[c.Claim]) == 0 || asked[c.Claim] {
			continue
		}
		asked[c.Claim] = true
		var names, reasons []string
		named := map[string]bool{}
		said := firstOf(c.Said)
		for _, b := range certain[c.Claim] {
			if named[b.Ingredient] {
				continue
			}
			named[b.Ingredient] = true
			names = append(names, b.Ingredient)
			if !slices.Contains(reasons, b.Reason) {
				reasons = append(reasons, b.Reason)
			}
			said = append(said, saidOf[b.Ingredient]...)
		}
		out = append(out, schema.Flag{
			Kind: schema.ConflictClaim, Subject: c.Claim, Said: said,
			Ask: fmt.Sprintf("%s%s in it (%s)?", claimQuestion(c.Claim), list(names), strings.Join(reasons, "; ")),
		})
	}
	return out
}

// insideFlags asks about each inside temperature said that is below the
// published minimum, with both figures. Where an open flag already asks which of
// two temperatures of the food holds and names one that is too low, the minimum
// stands beside that question, and none is asked besides: see minimumEvidence.
func (r *reading) insideFlags() []schema.Flag {
	var out []schema.Flag
	for _, l := range r.lows {
		if slices.ContainsFunc(r.lows, func(o safety.Low) bool { return o.Food == l.Food && contradicted(r.doc, o) }) {
			continue
		}
		out = append(out, schema.Flag{Kind: schema.ConflictTemperature, Subject: l.Food, Ask: l.Ask(), Evidence: []string{minimum(l)}, Said: l.Said})
	}
	return out
}

// contradicted tells whether an open flag of the talk asks about the temperature.
func contradicted(doc *schema.Document, l safety.Low) bool {
	return slices.ContainsFunc(doc.Flags, func(f schema.Flag) bool { return contradicts(f, l) })
}

func contradicts(f schema.Flag, l safety.Low) bool {
	return f.Kind == schema.ConflictTemperature && f.Settled == "" && !follows(f) && safety.About(f, l.Told)
}

const minimumIs = "the published minimum inside the "

func minimum(l safety.Low) string {
	return minimumIs + l.Food + " is " + l.Least + " (" + l.Source + ")"
}

// minimumEvidence puts the published minimum beside each open question of the
// talk about an inside temperature below it.
func (r *reading) minimumEvidence() {
	for i := range r.doc.Flags {
		f := &r.doc.Flags[i]
		if f.Kind != schema.ConflictTemperature || f.Settled != "" || follows(*f) {
			continue
		}
		kept := slices.DeleteFunc(slices.Clone(f.Evidence), func(e string) bool { return strings.HasPrefix(e, minimumIs) })
		for _, l := range r.lows {
			if contradicts(*f, l) && !slices.Contains(kept, minimum(l)) {
				kept = append(kept, minimum(l))
			}
		}
		if len(kept) == 0 {
			kept = nil
		}
		f.Evidence = kept
	}
}

func firstOf(said []schema.Said) []schema.Said {
	return slices.Clone(said[:min(1, len(said))])
}

// list writes names as a sentence does: butter, cream and eggs.
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}
