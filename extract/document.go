package extract

import (
	"fmt"
	"slices"
	"strings"

	"quern/internal/language"
	"quern/schema"
)

// writeDocuments turns what the passes found into one document a dish.
func (t *talk) writeDocuments() {
	for d := range t.dishes {
		doc := &schema.Document{Recipe: schema.Version}
		doc.Source = &schema.Source{File: t.n.Name, Format: t.n.Format, SHA256: t.n.SHA256}
		if t.n.Timed && t.n.Length > 0 {
			doc.Source.Length = isoDuration(int(t.n.Length.Seconds()))
		}
		doc.Title = t.dishName(d)
		t.writeIngredients(doc, d)
		t.writeDocSteps(doc, d)
		t.writeEquipment(doc, d)
		if len(t.dishes) == 1 {
			doc.Storage = t.storage
			doc.Yield, doc.YieldSaid = t.yield, t.yieldSaid
			doc.Claims = t.claims
			if t.spoken != nil {
				doc.Macros = &schema.Macros{Spoken: t.spoken}
			}
			doc.Flags = append(doc.Flags, t.flags...)
		} else {
			t.share(doc, d)
		}
		doc.Cautions = t.warned(d)
		t.unsure(doc, d)
		t.docs = append(t.docs, doc)
	}
}

// share gives each of two dishes what was said in its stretch of the talk.
func (t *talk) share(doc *schema.Document, d int) {
	inside := func(said []schema.Said) bool {
		if len(said) == 0 {
			return d == 0
		}
		from, to := t.at(t.dishes[d].tok), "99:99:99.999"
		if d+1 < len(t.dishes) {
			to = t.at(t.dishes[d+1].tok)
		}
		if said[0].At == "" {
			return d == 0
		}
		return said[0].At >= from && said[0].At < to
	}
	for _, s := range t.storage {
		if inside(s.Said) {
			doc.Storage = append(doc.Storage, s)
		}
	}
	for _, c := range t.claims {
		if inside(c.Said) {
			doc.Claims = append(doc.Claims, c)
		}
	}
	for _, f := range t.flags {
		if inside(f.Said) {
			doc.Flags = append(doc.Flags, f)
		}
	}
	if t.yield != nil && inside(t.yieldSaid) {
		doc.Yield, doc.YieldSaid = t.yield, t.yieldSaid
	}
	if t.spoken != nil && inside(t.spoken.Said) {
		doc.Macros = &schema.Macros{Spoken: t.spoken}
	}
}

func isoDuration(sec int) string {
	s := "PT"
	if h := sec / 3600; h > 0 {
		s += fmt.Sprintf("%dH", h)
	}
	if m := sec / 60 % 60; m > 0 {
		s += fmt.Sprintf("%dM", m)
	}
	if x := sec % 60; x > 0 || s == "PT" {
		s += fmt.Sprintf("%dS", x)
	}
	return s
}

// saidAtMost is how many of an ingredient's mentions are quoted.
const saidAtMost = 6

// grounds quotes the spans, and after them the figures that none of them holds,
// so that every number of a fact stands among its words.
func (t *talk) grounds(spans, figures []language.Span) []schema.Said {
	spans = spans[:len(spans):len(spans)]
	for _, f := range figures {
		held := false
		for _, sp := range spans {
			held = held || sp.First <= f.First && f.Last <= sp.Last
		}
		if !held {
			spans = append(spans, f)
		}
	}
	var out []schema.Said
	for _, sp := range spans {
		out = append(out, t.said(sp.First, sp.Last))
	}
	return out
}

func (t *talk) writeIngredients(doc *schema.Document, d int) {
	ids := map[string]int{}
	parts := map[int]bool{}
	n := 0
	for _, g := range t.ingredients {
		if g.dish == d {
			n++
		}
	}
	doc.Ingredients = slices.Grow(doc.Ingredients, n)
	for _, g := range t.ingredients {
		if g.dish != d {
			continue
		}
		base := slug(g.name)
		ids[base]++
		g.id = base
		if n := ids[base]; n > 1 {
			g.id = fmt.Sprintf("%s-%d", base, n)
		}
		x := schema.Ingredient{ID: g.id, Name: g.name, Amount: g.amount, SecondAmount: g.second, Size: g.size, Optional: g.optional, Substitutes: g.subs, AlsoCalled: g.also}
		if g.amount == nil && !g.taste {
			x.Vague = g.vague
		}
		x.ToTaste = g.taste && g.amount == nil
		for i, p := range g.prep {
			if i > 0 {
				x.Preparation += ", "
			}
			x.Preparation += p
		}
		if g.part >= 0 && g.part < len(t.partNames) {
			x.Part = t.partNames[g.part]
			if !parts[g.part] {
				parts[g.part] = true
				doc.Parts = append(doc.Parts, schema.Part{Name: x.Part, Said: t.partSaid(g.part)})
			}
		}
		if len(g.ways) == 1 && !g.ways[-1] {
			for w := range g.ways {
				x.Ways = []string{t.wayNames[w]}
			}
		}
		x.Said = t.grounds(g.said[:min(len(g.said), saidAtMost)], g.told)
		doc.Ingredients = append(doc.Ingredients, x)
		t.because("ingredient "+g.name, g.said[0].First, g.said[0].Last, "food "+g.food.Name)
		if g.amount != nil {
			t.because("amount of "+g.name+": "+g.amount.String(), g.amountAt.First, g.amountAt.Last, "quantity")
		}
	}
	if len(t.dishes) > 1 && doc.Title != "" {
		// two recipes in one recording: each is a component of what was filmed
		name := shortName(doc.Title)
		doc.Parts = []schema.Part{{Name: name}}
		if sp := t.dishes[d].span; sp.Len() > 0 {
			doc.Parts[0].Said = []schema.Said{t.said(sp.First, sp.Last)}
		}
		for i := range doc.Ingredients {
			doc.Ingredients[i].Part = name
		}
	}
	if len(doc.Parts) == 1 && len(t.dishes) == 1 {
		// one component is the dish itself
		for i := range doc.Ingredients {
			doc.Ingredients[i].Part = ""
		}
		doc.Parts = nil
	}
	for w, name := range t.wayNames {
		doc.Ways = append(doc.Ways, schema.Way{Name: name, Said: t.waySaid(w)})
	}
}

// shortName gives the last words of a title: the noun and the word it leans on.
func shortName(title string) string {
	ws := strings.Fields(strings.ToLower(title))
	if n := len(ws); n > 2 {
		ws = ws[n-2:]
	}
	return strings.Join(ws, " ")
}

func (t *talk) partSaid(p int) []schema.Said {
	for _, m := range t.parts {
		if m.name == p && m.span.Last > m.span.First {
			return []schema.Said{t.said(m.span.First, m.span.Last)}
		}
	}
	return nil
}

func (t *talk) waySaid(w int) []schema.Said {
	for _, m := range t.ways {
		if m.name == w {
			s := t.sentence(m.tok)
			return []schema.Said{t.said(s.First, min(s.Last, s.First+12))}
		}
	}
	return nil
}

func (t *talk) writeDocSteps(doc *schema.Document, d int) {
	n := 0
	for _, st := range t.steps {
		if st.dish == d && len(st.verbs) > 0 {
			n++
		}
	}
	doc.Steps = slices.Grow(doc.Steps, n)
	for _, st := range t.steps {
		if st.dish != d || len(st.verbs) == 0 {
			continue
		}
		x := schema.Step{Text: st.text, Actions: st.verbs, Equipment: st.equip, Temperature: st.temps, Heat: st.heat, Time: st.times, Sizes: st.sizes, Until: st.until, Optional: st.optional}
		for _, g := range st.uses {
			x.Uses = append(x.Uses, g.id)
		}
		if st.part >= 0 && st.part < len(t.partNames) && len(doc.Parts) > 0 {
			x.Part = t.partNames[st.part]
			if !hasPart(doc, x.Part) {
				x.Part = ""
			}
		}
		if st.way >= 0 {
			x.Ways = []string{t.wayNames[st.way]}
		}
		for n, sp := range st.spans {
			a := t.actions[st.acts[n]].tok
			last := sp.Last
			if last <= a {
				last = a + 1
			}
			x.Said = append(x.Said, schema.Said{At: t.at(a), Quote: t.quote(min(sp.First, a), last)})
		}
		for i := range x.Said {
			if a, sp := t.actions[st.acts[i]].tok, st.spans[i]; sp.First < a {
				// the quote begins where its time is
				x.Said[i] = t.said(sp.First, max(sp.Last, a+1))
				x.Said[i].At = t.at(sp.First)
			}
		}
		quoted := append(append([]language.Span{}, st.spans...), st.again...)
		x.Said = append(x.Said, t.grounds(quoted, st.figures)[len(st.spans):]...)
		doc.Steps = append(doc.Steps, x)
	}
}

func hasPart(doc *schema.Document, name string) bool {
	for _, p := range doc.Parts {
		if p.Name == name {
			return true
		}
	}
	return false
}

func (t *talk) writeEquipment(doc *schema.Document, d int) {
	seen := map[string]bool{}
	for _, st := range t.steps {
		if st.dish != d {
			continue
		}
		for _, sp := range st.spans {
			for i := sp.First; i < sp.Last; i++ {
				x := t.toolAt[i]
				if x < 0 {
					continue
				}
				e := &t.tools[x]
				if seen[e.eq.Name] {
					continue
				}
				seen[e.eq.Name] = true
				doc.Equipment = append(doc.Equipment, schema.Equipment{Name: e.name, Said: []schema.Said{t.said(e.First, e.Last)}})
			}
		}
	}
}

// unsure flags mis-hearings with the reading taken.
func (t *talk) unsure(doc *schema.Document, d int) {
	for _, g := range t.ingredients {
		if g.dish != d {
			continue
		}
		for _, k := range g.mentions {
			m := &t.mentions[k]
			if m.unknown {
				doc.Flags = append(doc.Flags, schema.Flag{Kind: schema.HeardUnsure, Subject: g.name,
					Ask:  fmt.Sprintf("Was “%s” heard right, and what is it?", t.quote(m.head.First, m.head.Last)),
					Said: []schema.Said{t.said(m.First, m.Last)}})
				break
			}
			if m.heard == nil {
				continue
			}
			doc.Flags = append(doc.Flags, schema.Flag{Kind: schema.HeardUnsure, Subject: g.name,
				Ask:  fmt.Sprintf("Was “%s” meant as %s?", t.quote(m.head.First, m.head.Last), m.heard.Meant),
				Said: []schema.Said{t.said(m.First, m.Last)}})
			break
		}
	}
}

var _ = language.Span{}
