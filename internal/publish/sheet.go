package publish

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"quern/internal/safety"
	"quern/schema"
)

// sheet is a recipe worked into the order it is read in. Every form sets this;
// none looks at the document again for what it says.
type sheet struct {
	Title       string
	Way         string // "hand-shaped" where only that way is written
	Yield       string // "Makes 24 biscuits"; "" where it isn't known
	YieldMark   *mark
	Warnings    []string // about scaling
	Ways        []string // the ways the steps fork into; none where one is written
	Times       []timeLine
	Groups      []group // of ingredients
	Worked      bool    // some figures stand in brackets
	Equipment   []string
	Sections    []section
	Storage     []string
	Ahead       []string
	Notes       []string
	Claims      []claimLine
	Macros      *macroTable
	Allergens   []allergenLine
	AllergensAt []string // what the allergens leave out: labels, optional things
	Cautions    []cautionLine
	Questions   []question
	Notice      string
}

// timeLine is one row of the times at the head.
type timeLine struct {
	Way                            string
	HandsOn, Cooking, Resting, All string // "" where none was said
}

// group is the ingredients of one part.
type group struct {
	Title string
	Lines []ingredientLine
}

// ingredientLine is one thing to have ready.
type ingredientLine struct {
	Amount string // "1½ cups [180 g]"; the vague words; "" where nothing was said
	Name   string
	After  string // from the comma on: ", sieved (optional)"
	Marks  []mark
	Moment []moment
	from   *schema.Ingredient
}

// mark is an open question, short enough to stand where the answer would.
type mark struct {
	Text   string // "amount not said, 3:07"
	Number int    // of the question at the end; 0 where it isn't listed there
	Moment []moment
}

// claimLine is a diet claim as it was made.
type claimLine struct {
	Claim  string
	Breaks []string // what in the ingredients speaks against it
	Marks  []mark
	Moment []moment
}

type allergenLine struct{ Name, From string }

type cautionLine struct {
	Text, Source string
	Moment       []moment
}

// question is one open flag in full.
type question struct {
	Number  int
	Kind    string
	Subject string
	Ask     string
	Moment  []moment
	Know    []string // figures that help to answer
}

// builder draws a sheet from a document.
type builder struct {
	kitchen
	doc       *schema.Document // scaled
	original  *schema.Document
	opt       Options
	factor    float64
	questions []question
	flags     []schema.Flag // open, in the order of questions
	unscaled  []string      // amounts in step texts that stayed as said
	worked    bool

	byIngredient map[int][]int // questions about an ingredient, by index in doc.Ingredients
	byStep       map[int][]int // questions about a step, by index in doc.Steps
	settled      map[int]string
	byAmount     map[amountKey][]int // ingredients of the original document by an amount of theirs
}

// amountKey is an amount as a step's text may repeat it.
type amountKey struct {
	unit   string
	lo, hi float64
}

// build works a document into a sheet. It returns the errors of Options that
// don't fit the document.
func build(doc *schema.Document, opt Options, h hand) (*sheet, error) {
	doc, factor, err := opt.check(doc)
	if err != nil {
		return nil, err
	}
	return draw(doc, opt, h, factor), nil
}

// draw makes the whole sheet of a document, its amounts multiplied by factor.
func draw(doc *schema.Document, opt Options, h hand, factor float64) *sheet {
	s, b := measured(doc, opt, h, factor)
	s.Questions = b.questions
	s.Notice = safety.Notice
	if opt.Way != "" {
		s.Way = clean(doc.Ways[0].Name) // it has only this one now
	} else if len(doc.Ways) > 1 {
		for _, w := range doc.Ways {
			s.Ways = append(s.Ways, clean(w.Name))
		}
	}
	for _, t := range timings(doc, opt.Way) {
		line := timeLine{Way: t.Way, All: t.All.write(h)}
		for _, row := range []struct {
			span span
			text *string
		}{{t.HandsOn, &line.HandsOn}, {t.Cooking, &line.Cooking}, {t.Resting, &line.Resting}} {
			if row.span.known() {
				*row.text = row.span.write(h)
			}
		}
		s.Times = append(s.Times, line)
	}
	for _, e := range doc.Equipment {
		s.Equipment = append(s.Equipment, b.tidy(b.sizes(clean(e.Name), nil)))
	}
	if len(s.Equipment) > 0 {
		s.Equipment[0] = capital(s.Equipment[0])
	}
	s.Storage, s.Ahead = b.keeping()
	s.Notes = b.notes()
	s.Claims = b.claims()
	for _, a := range doc.Allergens {
		s.Allergens = append(s.Allergens, allergenLine{capital(clean(a.Name)), join(cleaned(a.From), "and")})
	}
	s.AllergensAt = besides(doc)
	for _, c := range doc.Cautions {
		if text := clean(c.Text); text != "" {
			s.Cautions = append(s.Cautions, cautionLine{sentence(text), clean(c.Source), momentsOf(c.Said, opt.Recording)})
		}
	}
	s.Worked = b.worked
	return s
}

// measured makes the part of a sheet that reads otherwise for another number
// of servings.
func measured(doc *schema.Document, opt Options, h hand, factor float64) (*sheet, *builder) {
	b := &builder{kitchen: kitchen{h, doc.Measures}, doc: Scale(doc, factor), original: doc, opt: opt, factor: factor}
	b.ask()
	b.index()
	s := &sheet{Title: clean(doc.Title)}
	if s.Title == "" {
		s.Title = "Untitled recipe"
	}
	s.Yield, s.YieldMark = b.yield()
	s.Groups = b.groups()
	s.Sections = b.sections()
	s.Macros = b.macros()
	s.Warnings = b.warnings()
	return s, b
}

func cleaned(list []string) []string {
	out := make([]string, 0, len(list))
	for _, s := range list {
		if s = clean(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// ask numbers the open flags in the order of the recording.
func (b *builder) ask() {
	var open []schema.Flag
	for _, f := range b.doc.Flags {
		if f.Settled == "" {
			open = append(open, f)
		}
	}
	first := func(f schema.Flag) float64 {
		for _, s := range f.Said {
			if t, ok := seconds(s.At); ok {
				return t
			}
		}
		return math.Inf(1) // what was never said comes last
	}
	sort.SliceStable(open, func(i, j int) bool { return first(open[i]) < first(open[j]) })
	b.flags = open
	for i, f := range open {
		b.questions = append(b.questions, question{
			Number: i + 1, Kind: clean(f.Kind), Subject: clean(f.Subject), Ask: clean(f.Ask),
			Moment: momentsOf(f.Said, b.opt.Recording), Know: cleaned(f.Evidence),
		})
	}
}

// markOf writes the open flag with a number short.
func (b *builder) markOf(i int) mark {
	f, q := b.flags[i], b.questions[i]
	text := map[string]string{
		schema.AmountUnstated: "amount not said", schema.AmountVague: "measure not said", schema.YieldUnstated: "yield not said",
		schema.TemperatureUnstated: "temperature not said", schema.TimeUnstated: "time not said", schema.ConflictConversion: "the two figures don't match",
		schema.ConflictMacros: "the figures don't add up", schema.ConflictClaim: "an ingredient speaks against it", schema.HeardUnsure: "heard unsure",
		schema.FoodUnknown: "no figures known", schema.MacrosDiffer: "the amounts give other figures",
	}[f.Kind]
	if text == "" {
		text = "said two ways"
	}
	if safety.AsksLow(f.Ask, f.Subject) {
		text = "below the published minimum"
	}
	moments := q.Moment
	if len(moments) > 1 && !strings.HasPrefix(f.Kind, "conflict-") {
		moments = moments[:1] // where it should have been said first
	}
	if at := clocks(moments); at != "" {
		text += ", " + at
	}
	return mark{Text: text, Number: q.Number, Moment: q.Moment}
}

// marks gives the open flags of the given kinds that pass a test.
func (b *builder) marks(kinds []string, is func(schema.Flag) bool) []mark {
	var out []mark
	for i, f := range b.flags {
		if slices.Contains(kinds, f.Kind) && is(f) {
			out = append(out, b.markOf(i))
		}
	}
	return out
}

// heldIn are the units of the form that a yield is counted in.
var heldIn = map[string]bool{"jar": true, "can": true, "packet": true, "cup": true, "pint": true, "quart": true, "slice": true, "piece": true, "stick": true, "bunch": true, "head": true}

func (b *builder) yield() (string, *mark) {
	marks := b.marks([]string{schema.YieldUnstated, schema.ConflictYield}, func(schema.Flag) bool { return true })
	var m *mark
	if len(marks) > 0 {
		m = &marks[0]
	}
	q := b.doc.Yield
	if q == nil {
		if m == nil {
			m = &mark{Text: "yield not said"}
		}
		return "", m
	}
	figure := *q
	noun := clean(q.Unit)
	figure.Unit = ""
	var text string
	if b.factor == 1 {
		text = write(&figure, b.hand)
		if figure.Max > 1 && heldIn[noun] {
			noun = plural(noun, true) // the form has them as units, one for all numbers
		}
	} else {
		figure.Size = nil
		text = kitchen{b.hand, ""}.amount(&figure, "serving")
		if b.opt.Servings != 0 {
			text = number(b.opt.Servings, b.hand)
		}
		if several := !slices.Contains([]string{"1", "½", "1/2", "¼", "1/4"}, text); noun != "" {
			noun = plural(noun, several)
		}
	}
	verb := "Makes"
	switch strings.ToLower(noun) {
	case "people", "person":
		return "Serves " + text, m
	case "serving", "servings", "portion", "portions":
		verb = "Serves"
		noun = ""
	}
	return strings.TrimSpace(verb + " " + text + " " + noun), m
}

// groups sets the ingredients by part, in the order of first use.
func (b *builder) groups() []group {
	var out []group
	groupOf := map[string]int{}
	for i := range b.doc.Ingredients {
		ing := &b.doc.Ingredients[i]
		if !inWay(ing.Ways, b.opt.Way) {
			continue
		}
		title := capital(clean(ing.Part))
		at, ok := groupOf[title]
		if !ok {
			at = len(out)
			groupOf[title] = at
			out = append(out, group{Title: title})
		}
		out[at].Lines = append(out[at].Lines, b.ingredient(i))
	}
	if len(out) > 1 {
		for i := range out {
			if out[i].Title == "" {
				out[i].Title = "Besides"
				if i == 0 {
					out[i].Title = "First"
				}
			}
		}
	}
	return out
}

// index finds what each flag is about, in one pass over the document: an
// ingredient by its id, its name or its name with its part, and by the moment
// where several share a name; and the steps said at a flag's moments.
func (b *builder) index() {
	b.byIngredient, b.byStep = map[int][]int{}, map[int][]int{}
	b.settled, b.byAmount = map[int]string{}, map[amountKey][]int{}
	named := map[string][]int{}
	for i := range b.doc.Ingredients {
		ing := &b.doc.Ingredients[i]
		keys := []string{strings.ToLower(ing.Name)}
		if ing.ID != ing.Name {
			keys = append(keys, strings.ToLower(ing.ID))
		}
		keys = append(keys, strings.ToLower(ing.Name+" ("+ing.Part+")"))
		for _, k := range keys {
			if list := named[k]; len(list) == 0 || list[len(list)-1] != i {
				named[k] = append(list, i)
			}
		}
	}
	about := func(f schema.Flag) []int {
		list := named[strings.ToLower(f.Subject)]
		if len(list) < 2 || len(f.Said) == 0 {
			return list
		}
		said := map[string]bool{}
		for _, s := range f.Said {
			said[place(s)] = true
		}
		var out []int
		for _, i := range list {
			if slices.ContainsFunc(b.doc.Ingredients[i].Said, func(s schema.Said) bool { return said[place(s)] }) {
				out = append(out, i)
			}
		}
		return out
	}
	stepAt := map[string][]int{}
	type when struct {
		at   float64
		step int
	}
	var order []when
	for i := range b.doc.Steps {
		for _, s := range b.doc.Steps[i].Said {
			if list := stepAt[place(s)]; place(s) != "" && (len(list) == 0 || list[len(list)-1] != i) {
				stepAt[place(s)] = append(list, i)
			}
			if at, ok := seconds(s.At); ok {
				order = append(order, when{at, i})
			}
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return order[i].at < order[j].at })
	steps := func(f schema.Flag) []int {
		var out []int
		for _, s := range f.Said {
			for _, i := range stepAt[place(s)] {
				if !slices.Contains(out, i) {
					out = append(out, i)
				}
			}
		}
		if len(out) > 0 || len(f.Said) == 0 {
			return out
		}
		to, ok := seconds(f.Said[0].At)
		n := sort.Search(len(order), func(i int) bool { return order[i].at > to })
		if !ok || n == 0 {
			return nil
		}
		return []int{order[n-1].step} // the step said last before it
	}
	for n, f := range b.flags {
		ings := about(f)
		switch f.Kind {
		case schema.AmountUnstated, schema.AmountVague, schema.ConflictAmount, schema.ConflictConversion, schema.HeardUnsure:
			for _, i := range ings {
				b.byIngredient[i] = append(b.byIngredient[i], n)
			}
		}
		switch f.Kind {
		case schema.ConflictConversion, schema.HeardUnsure:
			if len(ings) > 0 {
				continue // stands by the ingredient
			}
			fallthrough
		case schema.TemperatureUnstated, schema.TimeUnstated, schema.ConflictTemperature, schema.ConflictTime, schema.ConflictWay:
			for _, i := range steps(f) {
				b.byStep[i] = append(b.byStep[i], n)
			}
		}
	}
	for _, f := range b.doc.Flags {
		if f.Settled != "" && (f.Kind == schema.AmountUnstated || f.Kind == schema.AmountVague) {
			for _, i := range about(f) {
				b.settled[i] = clean(f.Settled)
			}
		}
	}
	for i := range b.original.Ingredients {
		ing := &b.original.Ingredients[i]
		for _, q := range []*schema.Quantity{ing.Amount, ing.SecondAmount} {
			if q != nil && q.Size == nil {
				k := amountKey{q.Unit, q.Min, q.Max}
				b.byAmount[k] = append(b.byAmount[k], i)
			}
		}
	}
}

// place tells moments apart: by their time, or where a transcript has none by
// the words said.
func place(s schema.Said) string {
	if s.At != "" {
		return s.At
	}
	return s.Quote
}

// marksFor writes the questions with the given numbers short.
func (b *builder) marksFor(list []int) []mark {
	var out []mark
	for _, i := range list {
		out = append(out, b.markOf(i))
	}
	return out
}

func (b *builder) ingredient(i int) ingredientLine {
	ing := &b.doc.Ingredients[i]
	line := ingredientLine{Name: clean(ing.Name), Moment: momentsOf(ing.Said, b.opt.Recording), from: ing}
	line.Marks = b.marksFor(b.byIngredient[i])
	if ing.Amount != nil {
		line.Amount, line.After = b.amountOf(ing)
	} else {
		line.Amount = clean(ing.Vague)
		decided := b.settled[i]
		switch {
		case decided != "":
			line.Amount = b.tidy(decided)
		case ing.ToTaste || slices.ContainsFunc(line.Marks, func(m mark) bool { return strings.Contains(m.Text, "not said") }):
		default:
			// A document nobody ran through derive still shows what it lacks.
			m := mark{Text: "amount not said", Moment: line.Moment}
			if ing.Vague != "" {
				m.Text = "measure not said"
			}
			if at := clocks(line.Moment); at != "" {
				m.Text += ", " + at
			}
			line.Marks = append(line.Marks, m)
		}
	}
	if prep := clean(ing.Preparation); prep != "" {
		line.After += ", " + b.tidy(prep)
	}
	if ing.ToTaste {
		if ing.Amount != nil {
			line.After += ", or to taste"
		} else {
			line.After += ", to taste"
		}
	}
	var aside []string
	if ing.Optional {
		aside = append(aside, "optional")
	}
	if len(ing.Ways) > 0 && b.opt.Way == "" && len(ing.Ways) < len(b.doc.Ways) {
		aside = append(aside, join(cleaned(ing.Ways), "and")+" way only")
	}
	for _, s := range ing.Substitutes {
		instead := clean(s.Name)
		if s.Amount != nil {
			instead = b.amount(s.Amount, s.Name) + " " + instead
			if b.factor == 1 {
				instead = write(s.Amount, b.hand) + " " + clean(s.Name)
			}
		}
		aside = append(aside, "or "+instead+" instead")
	}
	if len(aside) > 0 {
		line.After += " (" + strings.Join(aside, "; ") + ")"
	}
	return line
}

// set writes a quantity as it was said, or scaled as a kitchen measures it.
func (b *builder) set(q *schema.Quantity, name string) string {
	if b.factor == 1 {
		return write(q, b.hand)
	}
	return b.amount(q, name)
}

// amountOf writes an ingredient's amount in the measures asked for: what stands
// before its name, and what after it. What was worked out stands in square
// brackets; a second measure that was said, in round ones. Of things that are
// counted the size and weight come after the name ("2 eggs [100 g]").
func (b *builder) amountOf(ing *schema.Ingredient) (before, after string) {
	amount, second := ing.Amount, ing.SecondAmount
	brackets := func(text string) string {
		if text == "" {
			return ""
		}
		b.worked = true
		return " [" + text + "]"
	}
	size, each := "", ing.Size
	if amount.Size != nil {
		bare := *amount
		each, bare.Size = bare.Size, nil
		amount = &bare
	}
	if each != nil {
		size = write(each, b.hand)
		if b.opt.Measures == "both" || (b.opt.Measures != "" && household(each.Unit) != (b.opt.Measures == "us")) {
			size += brackets(b.other(each, nil, ""))
		}
		if amount.Unit == "" {
			size += " each"
		}
		size = " (" + size + ")"
	}
	before = b.set(amount, ing.Name)
	put := func(text string) {
		if amount.Unit == "" {
			after += text
		} else {
			before += text
		}
	}
	put(size)
	measured := metric(amount.Unit) || household(amount.Unit)
	switch b.opt.Measures {
	case "us", "metric":
		if !measured || b.fits(amount, before) {
			return before, after
		}
		if second != nil && b.fits(second, "") {
			return b.set(second, ing.Name) + size, ""
		}
		if o := b.other(amount, ing.Grams, ing.Name); o != "" {
			return strings.TrimSpace(brackets(o)) + size, ""
		}
		return before, after
	}
	if second != nil {
		put(" (" + b.set(second, ing.Name) + ")")
	}
	// The size of a single can is its weight already.
	one := each != nil && amount.Min == 1 && amount.Max == 1
	if b.opt.Measures == "both" && !one && (second == nil || metric(amount.Unit) == metric(second.Unit)) {
		put(brackets(b.other(amount, ing.Grams, ing.Name)))
	}
	return before, after
}

// fits tells whether a unit belongs to the measures asked for. Both kinds of
// kitchen have spoons, but a metric one has no cups to write many spoons in.
func (b *builder) fits(q *schema.Quantity, written string) bool {
	if b.opt.Measures == "us" {
		return household(q.Unit)
	}
	return metric(q.Unit) || (q.Unit == "tbsp" || q.Unit == "tsp") && !strings.Contains(written, "cup")
}

// keeping writes the storage, and apart from it what can be kept before the
// dish is finished.
func (b *builder) keeping() (storage, ahead []string) {
	for _, s := range b.doc.Storage {
		where := map[string]string{schema.Refrigerator: "In the refrigerator", schema.Freezer: "In the freezer", schema.RoomTemperature: "At room temperature"}[s.Place]
		if where == "" {
			where = capital(clean(s.Place))
		}
		line := where
		if s.Keeps != nil {
			line += ": " + write(s.Keeps, b.hand)
		} else {
			line += ": how long was not said"
		}
		what := clean(s.What)
		if what != "" {
			line = capital(what) + ". " + line
		}
		if how := clean(s.How); how != "" {
			line += ", " + b.tidy(how)
		}
		line = sentence(line)
		if b.unfinished(what) {
			ahead = append(ahead, line)
		} else {
			storage = append(storage, line)
		}
	}
	return storage, ahead
}

// unfinished tells whether what is kept is a part, or the dish before its last
// work.
func (b *builder) unfinished(what string) bool {
	words := strings.FieldsFunc(strings.ToLower(what), func(r rune) bool { return r == ' ' || r == ',' || r == '-' })
	for _, w := range words {
		switch w {
		case "raw", "unbaked", "uncooked", "unfrosted", "uniced", "undressed", "unfilled", "unassembled", "before", "bare":
			return true
		}
	}
	return slices.ContainsFunc(b.doc.Parts, func(p schema.Part) bool { return what != "" && strings.EqualFold(p.Name, what) })
}

// within tells whether all words of a name stand in another: "butter" tells nothing
// beside "unsalted butter".
func within(name, other string) bool {
	words := strings.Fields(strings.ToLower(clean(other)))
	return !slices.ContainsFunc(strings.Fields(strings.ToLower(clean(name))), func(w string) bool {
		return !slices.ContainsFunc(words, func(x string) bool { return strings.TrimSuffix(x, "s") == strings.TrimSuffix(w, "s") })
	})
}

// notes are what else a cook should know: other names, and what was decided
// about things said two ways.
func (b *builder) notes() []string {
	var out []string
	for i := range b.doc.Ingredients {
		ing := &b.doc.Ingredients[i]
		also := slices.DeleteFunc(cleaned(ing.AlsoCalled), func(other string) bool { return within(other, ing.Name) })
		if len(also) > 0 && inWay(ing.Ways, b.opt.Way) {
			out = append(out, sentence(clean(ing.Name)+" is also called "+join(also, "or")))
		}
	}
	for _, f := range b.doc.Flags {
		if f.Settled == "" || !strings.HasPrefix(f.Kind, "conflict-") {
			continue
		}
		what := " was said two ways"
		if safety.AsksLow(f.Ask, f.Subject) {
			what = " was told to be cooked below the published minimum"
		}
		line := sentence(capital(clean(f.Subject)) + what + "; settled as: " + b.tidy(clean(f.Settled)))
		if f.Kind != schema.ConflictClaim && f.Kind != schema.ConflictMacros {
			out = append(out, line)
		}
	}
	return out
}

func (b *builder) claims() []claimLine {
	var out []claimLine
	broken := breaks(b.doc)
	for _, c := range b.doc.Claims {
		line := claimLine{Claim: clean(c.Claim), Moment: momentsOf(c.Said, b.opt.Recording), Breaks: broken[c.Claim]}
		line.Marks = b.marks([]string{schema.ConflictClaim}, func(f schema.Flag) bool {
			return strings.EqualFold(f.Subject, c.Claim) || slices.ContainsFunc(f.Said, func(s schema.Said) bool {
				return slices.ContainsFunc(c.Said, func(t schema.Said) bool { return s.At == t.At && s.At != "" && len(b.doc.Claims) == 1 })
			})
		})
		out = append(out, line)
	}
	return out
}

// warnings tell what scaling leaves as it was.
func (b *builder) warnings() []string {
	if b.factor == 1 {
		return nil
	}
	from := ""
	if b.original.Yield != nil {
		from = " (the recording makes " + write(b.original.Yield, b.hand) + ")"
	}
	out := []string{fmt.Sprintf("Amounts are multiplied by %s%s. Times, temperatures and pan sizes are as said for the first amount: "+
		"a fuller or emptier pan cooks differently, so watch for the signs.", number(b.factor, b.hand), from)}
	var pans []string
	for i := range b.doc.Steps {
		for j := range b.doc.Steps[i].Sizes {
			if size := write(&b.doc.Steps[i].Sizes[j], b.hand); len(b.doc.Steps[i].Sizes[j].By) > 0 && !slices.Contains(pans, size) {
				pans = append(pans, size)
			}
		}
	}
	if len(pans) > 0 {
		out = append(out, "Pan sizes said: "+join(pans, "and")+".")
	}
	vague := slices.ContainsFunc(b.doc.Ingredients, func(i schema.Ingredient) bool { return i.Amount == nil && i.Vague != "" })
	if vague {
		out = append(out, "Amounts given only in words are not multiplied.")
	}
	if len(b.unscaled) > 0 {
		out = append(out, "Amounts named inside the steps that stay as said: "+join(b.unscaled, "and")+".")
	}
	return out
}
