package merge

import (
	"bytes"
	"fmt"
	"math/rand"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"quern/internal/derive"
	"quern/schema"
)

// The words a random recipe is made of.
var (
	foods   = strings.Fields("butter honey oats flour salt milk sugar lemon thyme plums cream yeast walnuts rice leeks")
	amounts = strings.Fields("225_g 1_1/2_cups 2_tbsp 3 1_pinch 2-3_cloves 400_ml about_2_cups 1_stick 1/4_tsp 2_cans_(14_oz)")
	verbs   = strings.Fields("melt stir fold bake chop rest whisk pour")
)

func some(r *rand.Rand, list []string) string {
	return strings.ReplaceAll(list[r.Intn(len(list))], "_", " ")
}

func quantity(t *testing.T, text string) *schema.Quantity {
	t.Helper()
	q, err := schema.ParseQuantity(text)
	if err != nil {
		t.Fatal(err)
	}
	return &q
}

// randomDocument is what a program might have written.
func randomDocument(t *testing.T, r *rand.Rand) *schema.Document {
	d := &schema.Document{Recipe: schema.Version, Title: "Plum bake no. " + fmt.Sprint(r.Intn(9)),
		Source: &schema.Source{File: "talk.vtt", Format: "webvtt", SHA256: strings.Repeat("0", 64)}}
	if r.Intn(2) == 0 {
		y, err := schema.ParseYield("12 slices")
		if err != nil {
			t.Fatal(err)
		}
		d.Yield = &y
	}
	moment := 10
	said := func(words string) []schema.Said {
		moment += 1 + r.Intn(20)
		return []schema.Said{{At: fmt.Sprintf("00:%02d:%02d.000", moment/60, moment%60), Quote: words}}
	}
	for i, n := range r.Perm(len(foods))[:2+r.Intn(6)] {
		d.Ingredients = append(d.Ingredients, randomIngredient(t, r, foods[n], said(fmt.Sprintf("then %s, that's %d", foods[n], i))))
	}
	for i := range 1 + r.Intn(6) {
		d.Steps = append(d.Steps, randomStep(t, r, d, i, said))
	}
	if r.Intn(3) == 0 {
		d.Storage = []schema.Storage{{Place: schema.Refrigerator, Keeps: quantity(t, "3 days"), Said: said("three days in the fridge")}}
	}
	if r.Intn(3) == 0 {
		d.Claims = []schema.Claim{{Claim: "vegetarian", Said: said("it's vegetarian")}}
	}
	for range r.Intn(3) {
		d.Flags = append(d.Flags, schema.Flag{Kind: schema.ConflictTime, Subject: fmt.Sprintf("time %d", len(d.Flags)), Ask: "Which of the two times holds?",
			Said: said("ten minutes, or twenty")})
	}
	return d
}

func randomIngredient(t *testing.T, r *rand.Rand, name string, said []schema.Said) schema.Ingredient {
	ing := schema.Ingredient{ID: name, Name: name, Said: said}
	if r.Intn(3) > 0 {
		ing.Amount = quantity(t, some(r, amounts))
	}
	if r.Intn(4) == 0 {
		ing.Preparation = "chopped"
	}
	if r.Intn(5) == 0 {
		ing.AlsoCalled = []string{"good " + name}
	}
	return ing
}

func randomStep(t *testing.T, r *rand.Rand, d *schema.Document, i int, said func(string) []schema.Said) schema.Step {
	v := some(r, verbs)
	s := schema.Step{Text: fmt.Sprintf("%s it, number %d: mind the \"edges\" # of the tin.", v, i), Actions: []string{v}, Said: said(fmt.Sprintf("%s it %d", v, i))}
	for _, ing := range d.Ingredients {
		if r.Intn(3) == 0 {
			s.Uses = append(s.Uses, ing.ID)
		}
	}
	if r.Intn(3) == 0 {
		s.Temperature = []schema.Quantity{*quantity(t, "180 C")}
	}
	if r.Intn(3) == 0 {
		s.Time = []schema.Quantity{*quantity(t, "10-15 minutes")}
	}
	return s
}

// reread is what a changed program, or an edited transcript, makes of the
// same talk; it reports the facts that are new.
func reread(t *testing.T, r *rand.Rand, d *schema.Document) (*schema.Document, []string) {
	docs, err := schema.ReadAll("base", mustYAML(t, d))
	if err != nil {
		t.Fatal(err)
	}
	n := docs[0]
	var added []string
	for range r.Intn(6) {
		switch r.Intn(9) {
		case 0, 1:
			if i := r.Intn(len(n.Ingredients)); r.Intn(2) == 0 {
				n.Ingredients[i].Amount = quantity(t, some(r, amounts))
			} else {
				n.Ingredients[i].Amount = nil
			}
		case 2:
			name := "new-" + some(r, foods)
			if !slices.Contains(added, name) {
				at := r.Intn(len(n.Ingredients) + 1)
				ing := randomIngredient(t, r, name, []schema.Said{{At: fmt.Sprintf("00:50:%02d.000", len(added)), Quote: "and " + name}})
				n.Ingredients = slices.Insert(n.Ingredients, at, ing)
				added = append(added, name)
			}
		case 3:
			if len(n.Ingredients) > 1 {
				i := r.Intn(len(n.Ingredients))
				id := n.Ingredients[i].ID
				n.Ingredients = slices.Delete(n.Ingredients, i, i+1)
				added = slices.DeleteFunc(added, func(a string) bool { return a == id })
				for s := range n.Steps {
					n.Steps[s].Uses = slices.DeleteFunc(n.Steps[s].Uses, func(u string) bool { return u == id })
				}
			}
		case 4:
			n.Steps[r.Intn(len(n.Steps))].Text = "Better said: " + some(r, verbs) + " it."
		case 5:
			i := r.Intn(len(n.Steps) + 1)
			n.Steps = slices.Insert(n.Steps, i, schema.Step{Text: "A step found late.", Actions: []string{"find"}, Said: []schema.Said{{At: "00:55:00.000", Quote: "oh, and"}}})
		case 6:
			r.Shuffle(len(n.Steps), func(i, j int) { n.Steps[i], n.Steps[j] = n.Steps[j], n.Steps[i] })
		case 7:
			n.Flags = nil
		case 8:
			n.Flags = append(n.Flags, schema.Flag{Kind: schema.HeardUnsure, Subject: "flower", Ask: "Flour?"})
			n.Ingredients[0].Optional = true
		}
	}
	return n, added
}

func mustYAML(t *testing.T, docs ...*schema.Document) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := schema.WriteYAML(&b, docs...); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// hand is a person at work on the text of a document, and what must then be
// true of it whatever the program does.
type hand struct {
	*rand.Rand
	lines    []string
	comments []string
	amounts  map[string]string // by id
	names    map[string]string // by id
	removed  []string          // ids
	order    []string          // ids, where she moved any
	texts    []string          // of steps
	settled  int
	title    string
	n        int
}

func (h *hand) fresh(words string) string { h.n++; return fmt.Sprintf("%s %d", words, h.n) }

// blocks finds the items of a list of the form, each from its "- " line.
func (h *hand) blocks(list string) (spans [][2]int) {
	i := slices.Index(h.lines, list+":")
	if i < 0 {
		return nil
	}
	for i++; i < len(h.lines); i++ {
		l := h.lines[i]
		switch {
		case strings.HasPrefix(l, "  - "):
			spans = append(spans, [2]int{i, i + 1})
		case l != "" && l[0] != ' ' && l[0] != '#':
			return spans
		case len(spans) > 0:
			spans[len(spans)-1][1] = i + 1
		}
	}
	return spans
}

func (h *hand) idAt(span [2]int) string {
	id := strings.TrimPrefix(h.lines[span[0]], "  - id: ")
	id, _, _ = strings.Cut(id, " #")
	return id
}

// set gives a field of an item a new text; false where the item has no such line.
func (h *hand) set(span [2]int, field, value string) bool {
	for i := span[0]; i < span[1]; i++ {
		head := "    " + field + ":"
		if i == span[0] {
			head = "  - " + field + ":"
		}
		if strings.HasPrefix(h.lines[i], head) {
			rest := remark(h.lines[i])
			h.lines[i] = strings.TrimRight(head+" "+value+" "+rest, " ")
			return true
		}
	}
	return false
}

func (h *hand) act(t *testing.T) {
	ings, steps, flags := h.blocks("ingredients"), h.blocks("steps"), h.blocks("flags")
	switch h.Intn(12) {
	case 0, 1: // fill or change an amount
		if len(ings) > 0 {
			s := ings[h.Intn(len(ings))]
			v := fmt.Sprintf("%d g", 1000+h.Intn(5000))
			if h.set(s, "amount", v) {
				h.amounts[h.idAt(s)] = v
			}
		}
	case 2: // rename
		if len(ings) > 0 {
			s := ings[h.Intn(len(ings))]
			v := h.fresh("her own")
			if h.set(s, "name", v) {
				h.names[h.idAt(s)] = v
			}
		}
	case 3: // delete an ingredient
		if len(ings) > 1 {
			s := ings[h.Intn(len(ings))]
			id := h.idAt(s)
			for _, l := range h.lines[s[0]:s[1]] {
				if remark(l) != "" {
					return // she would not throw her own remarks away
				}
			}
			h.lines = slices.Delete(h.lines, s[0], s[1])
			h.removed = append(h.removed, id)
			delete(h.amounts, id)
			delete(h.names, id)
			for i, l := range h.lines {
				if head, rest, ok := strings.Cut(l, "    uses: ["); ok && head == "" {
					list, tail, _ := strings.Cut(rest, "]")
					uses := slices.DeleteFunc(strings.Split(list, ", "), func(u string) bool { return u == id })
					h.lines[i] = "    uses: [" + strings.Join(uses, ", ") + "]" + tail
				}
			}
			h.noteOrder(false)
		}
	case 4: // move an ingredient
		if len(ings) > 1 {
			a, b := h.Intn(len(ings)), h.Intn(len(ings))
			if a > b {
				a, b = b, a
			}
			if a != b {
				x, y := slices.Clone(h.lines[ings[a][0]:ings[a][1]]), slices.Clone(h.lines[ings[b][0]:ings[b][1]])
				h.lines = slices.Replace(h.lines, ings[b][0], ings[b][1], x...)
				h.lines = slices.Replace(h.lines, ings[a][0], ings[a][1], y...)
				h.noteOrder(true)
			}
		}
	case 5, 6: // a remark on a line of its own
		c := h.fresh("# her remark:")
		i := h.Intn(len(h.lines) + 1)
		h.lines = slices.Insert(h.lines, i, strings.Repeat("  ", h.Intn(4))+c)
		h.comments = append(h.comments, c)
	case 7: // a remark at the end of a line
		i := h.Intn(len(h.lines))
		if l := h.lines[i]; l != "" && remark(l) == "" {
			c := h.fresh("# at the end:")
			h.lines[i] += " " + c
			h.comments = append(h.comments, c)
		}
	case 8: // add an ingredient
		id := h.fresh("hers")
		id = strings.ReplaceAll(id, " ", "-")
		block := []string{"  - id: " + id, "    name: " + id, "    amount: 7 tbsp"}
		if i := slices.Index(h.lines, "steps:"); i >= 0 && len(ings) > 0 {
			at := ings[h.Intn(len(ings))][0]
			h.lines = slices.Insert(h.lines, at, block...)
			h.amounts[id] = "7 tbsp"
			h.noteOrder(false)
		}
	case 9: // rewrite a step
		if len(steps) > 0 {
			v := h.fresh("Her way of putting it,")
			s := steps[h.Intn(len(steps))]
			for i, old := range h.texts {
				for _, l := range h.lines[s[0]:s[1]] {
					if strings.Contains(l, old) {
						h.texts = slices.Delete(h.texts, i, i+1)
						h.set(s, "text", v)
						h.texts = append(h.texts, v)
						return
					}
				}
			}
			if h.set(s, "text", v) {
				h.texts = append(h.texts, v)
			}
		}
	case 10: // settle a flag
		if len(flags) > 0 {
			s := flags[h.Intn(len(flags))]
			if !h.set(s, "settled", "it was ten") {
				h.lines = slices.Insert(h.lines, s[0]+1, "    settled: it was ten")
				h.settled++
			}
		}
	case 11:
		h.title = h.fresh("Her title,")
		for i, l := range h.lines {
			if strings.HasPrefix(l, "title:") {
				h.lines[i] = strings.TrimRight("title: "+h.title+" "+remark(l), " ")
			}
		}
	}
}

// noteOrder keeps the order of ingredients she sees, once she moved any.
func (h *hand) noteOrder(moved bool) {
	if !moved && h.order == nil {
		return
	}
	h.order = nil
	for _, s := range h.blocks("ingredients") {
		h.order = append(h.order, h.idAt(s))
	}
}

// TestNothingOfHersIsLost edits a document at random, lets a changed program
// write it again, and looks for everything the person did.
func TestNothingOfHersIsLost(t *testing.T) {
	runs := 10_000
	if testing.Short() {
		runs = 500
	}
	var clashes, inPlace atomic.Int64
	t.Run("runs", func(t *testing.T) {
		const shares = 4
		for share := range shares {
			t.Run(strconv.Itoa(share), func(t *testing.T) {
				t.Parallel()
				for seed := share; seed < runs; seed += shares {
					c, kept := tryEdits(t, seed)
					clashes.Add(int64(c))
					inPlace.Add(int64(kept))
				}
			})
		}
	})
	t.Logf("%d runs, %d clashes; in %d the lines she has stand as they stood or gave way to new ones in place", runs, clashes.Load(), inPlace.Load())
}

// tryEdits is one run: it reports the clashes found, and 1 where most of her
// lines stand as they stood.
func tryEdits(t *testing.T, seed int) (clashes, inPlace int) {
	t.Helper()
	r := rand.New(rand.NewSource(int64(seed)))
	base := randomDocument(t, r)
	theirs, added := reread(t, r, base)
	baseText, theirText := mustYAML(t, base), mustYAML(t, theirs)
	h := &hand{Rand: r, lines: strings.Split(strings.TrimSuffix(string(baseText), "\n"), "\n"),
		amounts: map[string]string{}, names: map[string]string{}}
	for range r.Intn(12) {
		h.act(t)
	}
	mine := []byte(strings.Join(h.lines, "\n") + "\n")
	if _, err := schema.ReadAll("mine", mine); err != nil {
		t.Fatalf("seed %d: the edit itself is wrong: %v\n%s", seed, err, mine)
	}
	got, found, err := Merge(baseText, mine, theirText)
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	fail := func(format string, args ...any) {
		t.Helper()
		t.Fatalf("seed %d: %s\n--- base\n%s--- mine\n%s--- theirs\n%s--- merged\n%s", seed, fmt.Sprintf(format, args...), baseText, mine, theirText, got)
	}
	clashes += len(found)
	for _, c := range h.comments {
		if n := countLines(got, c); n != 1 {
			fail("the remark %q is there %d times", c, n)
		}
	}
	docs, err := schema.ReadAll("merged", got)
	if err != nil || len(docs) != 1 {
		fail("does not read: %v", err)
	}
	d := docs[0]
	byID := map[string]*schema.Ingredient{}
	var order []string
	for i := range d.Ingredients {
		ing := &d.Ingredients[i]
		byID[ing.ID] = ing
		order = append(order, ing.ID)
	}
	for id, v := range h.amounts {
		if byID[id] == nil || byID[id].Amount == nil || !byID[id].Amount.Equal(*quantity(t, v)) {
			fail("the amount %s of %s is gone", v, id)
		}
	}
	for id, v := range h.names {
		if byID[id] == nil || byID[id].Name != v {
			fail("the name %q of %s is gone", v, id)
		}
	}
	for _, id := range h.removed {
		if byID[id] != nil {
			fail("%s is back", id)
		}
	}
	if h.order != nil {
		kept := slices.DeleteFunc(slices.Clone(order), func(id string) bool { return !slices.Contains(h.order, id) })
		want := slices.DeleteFunc(slices.Clone(h.order), func(id string) bool { return !slices.Contains(kept, id) })
		if !slices.Equal(kept, want) {
			fail("the order is %v, not %v", kept, want)
		}
	}
	var texts []string
	for _, s := range d.Steps {
		texts = append(texts, s.Text)
		for _, u := range s.Uses {
			if byID[u] == nil {
				fail("a step uses %q, which is not there", u)
			}
		}
	}
	for _, v := range h.texts {
		if !slices.Contains(texts, v) {
			fail("the step %q is gone", v)
		}
	}
	settled := 0
	for _, f := range d.Flags {
		if f.Settled == "it was ten" {
			settled++
		}
	}
	if settled != h.settled {
		fail("%d flags are settled, not %d", settled, h.settled)
	}
	if h.title != "" && d.Title != h.title {
		fail("the title is %q", d.Title)
	}
	for _, id := range added {
		if byID[id] == nil {
			fail("the new ingredient %s did not come in", id)
		}
	}
	untouched := map[string]bool{}
	for _, ing := range base.Ingredients {
		untouched[ing.ID] = h.amounts[ing.ID] == "" && !slices.Contains(h.removed, ing.ID)
	}
	for _, ing := range theirs.Ingredients {
		if untouched[ing.ID] && !equalAmount(byID[ing.ID].Amount, ing.Amount) {
			fail("the new amount of %s did not come in", ing.ID)
		}
	}
	for _, c := range found {
		if !slices.ContainsFunc(d.Flags, func(f schema.Flag) bool { return f.Kind == c.Kind && slices.Contains(f.Evidence, "yours: "+c.Mine) }) {
			fail("no flag asks about %s", c)
		}
	}
	again, more, err := Merge(theirText, got, theirText)
	if err != nil || !bytes.Equal(again, got) || len(more) > 0 {
		fail("a second merge changes it: %v %v", err, more)
	}
	if same, _, err := Merge(baseText, mine, baseText); err != nil || !bytes.Equal(same, mine) {
		fail("an unchanged program changes it: %v", err)
	}
	if keptLines(mine, got) {
		inPlace++
	}
	if seed%10 > 0 {
		return clashes, inPlace
	}
	// What follows is worked out anew in the merged text: once is enough, and her remarks stay.
	refreshed, err := Edit("merged", got, derive.Options{}, nil)
	if err != nil {
		fail("refreshing: %v", err)
	}
	if twice, err := Edit("merged", refreshed, derive.Options{}, nil); err != nil || !bytes.Equal(twice, refreshed) {
		fail("refreshing twice changes it (%v):\n%s\n%s", err, refreshed, twice)
	}
	for _, c := range h.comments {
		if n := countLines(refreshed, c); n != 1 {
			fail("after refreshing the remark %q is there %d times:\n%s", c, n, refreshed)
		}
	}
	return clashes, inPlace
}

func equalAmount(a, b *schema.Quantity) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Equal(*b)
}

func countLines(text []byte, part string) int {
	n := 0
	for _, l := range strings.Split(string(text), "\n") {
		if strings.HasSuffix(l, part) {
			n++
		}
	}
	return n
}

// keptLines reports whether most lines of a text are in another as they were,
// which is not so once a text is written afresh with other quotes or breaks.
func keptLines(a, b []byte) bool {
	have := map[string]bool{}
	for _, l := range strings.Split(string(b), "\n") {
		have[l] = true
	}
	kept, all := 0, 0
	for _, l := range strings.Split(string(a), "\n") {
		all++
		if have[l] {
			kept++
		}
	}
	return kept*2 > all
}
