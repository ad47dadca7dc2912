package safety

import (
	"slices"
	"strings"

	"quern/schema"
)

// Depends is an allergen that an ingredient may bring: the maker's label tells.
type Depends struct {
	Allergen   string // one of Names
	Ingredient string // name of the ingredient in the document
	Reason     string // a sentence's worth, without a capital or a stop
	Source     string
}

// brought is one allergen a food brings, for certain or by its label.
type brought struct {
	allergen       string
	certainty      certainty
	reason, source string
}

// Carries returns the allergens that a food of this name brings for certain,
// in the order of Names, and those that depend on its label, with the reason.
func Carries(name string) (certain []string, depends []Depends) {
	for _, b := range table().carried(name) {
		if b.certainty == sure {
			certain = append(certain, b.allergen)
		} else {
			depends = append(depends, Depends{Allergen: b.allergen, Ingredient: name, Reason: b.reason, Source: b.source})
		}
	}
	return certain, depends
}

// Known tells whether a name holds a food of the table of carriers, be it one
// that brings an allergen or one that is listed because it only sounds so.
func Known(name string) bool { return len(table().carrierOf.find(fold(name))) > 0 }

// carried returns what a food of this name brings, in the order of Names, an
// allergen once.
func (t *tables) carried(name string) []brought {
	folded := fold(name)
	best := map[string]brought{}
	for _, row := range t.carrierOf.find(folded) {
		r := t.carriers[row]
		if r.certainty == none {
			continue
		}
		for _, a := range r.brings {
			if had, ok := best[a]; ok && (had.certainty == sure || r.certainty == label) {
				continue
			}
			best[a] = brought{allergen: a, certainty: r.certainty, reason: r.reason, source: r.source}
		}
	}
	if len(best) == 0 {
		return nil
	}
	left := t.leftOut(folded)
	var out []brought
	for _, a := range Names {
		b, ok := best[a]
		if !ok {
			continue
		}
		if reason, ok := left[a]; ok && b.certainty == sure {
			b.certainty, b.reason, b.source = label, reason, "common practice"
		}
		out = append(out, b)
	}
	return out
}

// leftOut returns the allergens and classes that a product's own name says it
// leaves out, with the reason to print.
func (t *tables) leftOut(folded []string) map[string]string {
	var out map[string]string
	text := " " + strings.Join(folded, " ") + " "
	for _, r := range t.names {
		if !r.words.in(text) {
			continue
		}
		if out == nil {
			out = map[string]string{}
		}
		for _, what := range r.leavesOut {
			if _, ok := out[what]; !ok {
				out[what] = r.reasonText
			}
		}
	}
	return out
}

// of returns what an ingredient brings: by its name, or, where its name is no
// food of the table, by the other names said for it.
func (t *tables) of(ing *schema.Ingredient) []brought {
	if len(t.carrierOf.find(fold(ing.Name))) > 0 {
		return t.carried(ing.Name)
	}
	for _, name := range ing.AlsoCalled {
		if b := t.carried(name); len(b) > 0 {
			return b
		}
	}
	return nil
}

// Allergens returns the allergens that the named ingredients bring for certain,
// optional ones with them and substitutes not, each with the ingredients that
// bring it, in the order of Names. See Optional, Substitutes and FromLabel for
// the rest.
func Allergens(doc *schema.Document) []schema.Allergen {
	return collect(doc, func(*schema.Ingredient) bool { return true })
}

// Optional returns the allergens that only optional ingredients bring: they are
// among Allergens, and go when those ingredients are left out.
func Optional(doc *schema.Document) []schema.Allergen {
	always := collect(doc, func(ing *schema.Ingredient) bool { return !ing.Optional })
	maybe := collect(doc, func(ing *schema.Ingredient) bool { return ing.Optional })
	return slices.DeleteFunc(maybe, func(a schema.Allergen) bool { return listed(always, a.Name) })
}

// Substitutes returns the allergens that only what may stand in for an
// ingredient brings; From holds the substitutes' names.
func Substitutes(doc *schema.Document) []schema.Allergen {
	t := table()
	from := map[string][]string{}
	for i := range doc.Ingredients {
		for _, s := range doc.Ingredients[i].Substitutes {
			for _, b := range t.carried(s.Name) {
				if b.certainty == sure && !slices.Contains(from[b.allergen], s.Name) {
					from[b.allergen] = append(from[b.allergen], s.Name)
				}
			}
		}
	}
	always := Allergens(doc)
	return slices.DeleteFunc(inOrder(from), func(a schema.Allergen) bool { return listed(always, a.Name) })
}

// FromLabel returns what ingredients may bring, in the order of Names and then
// of the ingredients. An allergen an ingredient brings for certain is not in it
// for that ingredient.
func FromLabel(doc *schema.Document) []Depends {
	t := table()
	var out []Depends
	for _, name := range Names {
		for i := range doc.Ingredients {
			ing := &doc.Ingredients[i]
			for _, b := range t.of(ing) {
				if b.allergen != name || b.certainty != label {
					continue
				}
				d := Depends{Allergen: name, Ingredient: ing.Name, Reason: b.reason, Source: b.source}
				if !slices.Contains(out, d) {
					out = append(out, d)
				}
			}
		}
	}
	return out
}

func collect(doc *schema.Document, counts func(*schema.Ingredient) bool) []schema.Allergen {
	t := table()
	from := map[string][]string{}
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		if !counts(ing) {
			continue
		}
		for _, b := range t.of(ing) {
			if b.certainty == sure && !slices.Contains(from[b.allergen], ing.Name) {
				from[b.allergen] = append(from[b.allergen], ing.Name)
			}
		}
	}
	return inOrder(from)
}

func inOrder(from map[string][]string) []schema.Allergen {
	var out []schema.Allergen
	for _, name := range Names {
		if len(from[name]) > 0 {
			out = append(out, schema.Allergen{Name: name, From: from[name]})
		}
	}
	return out
}

func listed(list []schema.Allergen, name string) bool {
	return slices.ContainsFunc(list, func(a schema.Allergen) bool { return a.Name == name })
}
