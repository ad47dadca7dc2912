package safety

import (
	"fmt"
	"slices"
	"strings"

	"quern/schema"
)

// Break is a diet claim that an ingredient breaks, or may break.
type Break struct {
	Claim      string // as the document words it
	Ingredient string // name of the ingredient; "" where a figure or nothing speaks
	Reason     string // a sentence's worth, without a capital or a stop
	Source     string
	Sure       bool // a named ingredient of every way breaks it; false where it depends on the label, the amount, a choice or an authority
}

// starchy is the least weight of a sugar or starch, in grams, that is counted
// against a ketogenic claim without asking: 50 g of flour hold more carbohydrate
// than a day of such a diet allows (Feinman et al. 2015; from memory). Less can
// be the spoon of sugar that feeds a yeast.
const starchy = 50

// ClaimBreaks returns what speaks against the document's diet claims, in the
// order of the claims and then of the ingredients. A claim nothing speaks
// against is not thereby shown to hold.
func ClaimBreaks(doc *schema.Document) []Break {
	t := table()
	var out []Break
	for _, c := range doc.Claims {
		name, ok := t.claimOf[strings.Join(fold(c.Claim), " ")]
		if !ok {
			continue
		}
		for i := range doc.Ingredients {
			if b, ok := t.breaks(name, doc, &doc.Ingredients[i]); ok {
				b.Claim = c.Claim
				if b.Sure && exempts(c, &doc.Ingredients[i]) {
					b.Sure, b.Reason = false, b.Reason+", but the claim was said of the dish without it"
				}
				if b.Sure && oneOfThem.in((&quoted{said: c.Said}).spaced()) {
					b.Sure, b.Reason = false, b.Reason+", but it was said of one kind of them only"
				}
				out = append(out, b)
			}
		}
		for _, r := range t.claims {
			switch {
			case r.claim != name:
			case r.by == "nothing":
				out = append(out, Break{Claim: c.Claim, Reason: r.reason, Source: r.source})
			case r.by == "net carbohydrate":
				if b, ok := carbohydrate(doc, r); ok {
					b.Claim = c.Claim
					out = append(out, b)
				}
			}
		}
	}
	return out
}

// without are words by which a claim holds only where something is left out or
// changed.
var without = words("if you leave|if you skip|if you use|if you swap|as long as|so long as|provided|once you leave|when you leave|without the|unless|leave out|leave off|apart from|except|bar the")

// exempts tells whether the claim's own sentence leaves the ingredient out: "it's
// vegan if you leave off the cream".
func exempts(c schema.Claim, ing *schema.Ingredient) bool {
	said := (&quoted{said: c.Said}).spaced()
	return without.in(said) && words(ing.Name).in(said)
}

// oneOfThem are words by which a claim is about one kind of what is made: "the
// bean ones are vegetarian".
var oneOfThem = words("one are|one is|one they|one it|version is|kind is|half is")

// breaks tells whether an ingredient breaks a claim. A row about the food's
// class is nearer to the food than one about its allergens and decides first:
// oats are on the list of cereals holding gluten, but whether they break
// "gluten-free" hangs on their label.
func (t *tables) breaks(claim string, doc *schema.Document, ing *schema.Ingredient) (Break, bool) {
	b, ok := t.breaksByName(claim, ing.Name)
	for _, also := range ing.AlsoCalled {
		if ok || Known(ing.Name) || len(t.classOf.find(fold(ing.Name))) > 0 {
			break
		}
		b, ok = t.breaksByName(claim, also)
	}
	if !ok {
		return Break{}, false
	}
	b.Ingredient = ing.Name
	if !b.Sure {
		return b, true
	}
	unsure := func(why string) { b.Sure, b.Reason = false, b.Reason+", "+why }
	switch {
	case ing.Optional:
		unsure("but it can be left out")
	case len(ing.Ways) > 0 && len(ing.Ways) < len(doc.Ways):
		unsure("but not every way uses it")
	case claim == "keto" && (ing.Grams == nil || ing.Grams.Min < starchy):
		unsure("but the amount decides")
	default:
		for _, s := range ing.Substitutes {
			if sub, breaks := t.breaksByName(claim, s.Name); !breaks || !sub.Sure {
				unsure("but " + s.Name + " can stand in for it")
				break
			}
		}
	}
	return b, true
}

func (t *tables) breaksByName(claim, food string) (Break, bool) {
	folded := fold(food)
	left := t.leftOut(folded)
	classes := t.classesIn(folded)
	var carried []brought
	var best Break
	var found bool
	consider := func(r claimRow, certain bool, why string) {
		certain = certain && r.certainty == sure
		if found && (best.Sure || !certain) {
			return
		}
		found, best = true, Break{Reason: r.reason, Source: r.source, Sure: certain}
		if why != "" {
			best.Reason = why
		}
	}
	for _, r := range t.claims {
		if r.claim != claim || r.by != "class" {
			continue
		}
		for _, c := range r.what {
			if classes[c] {
				consider(r, left[c] == "", left[c])
			}
		}
	}
	if found {
		return best, true
	}
	for _, r := range t.claims {
		if r.claim != claim || r.by != "allergen" {
			continue
		}
		if carried == nil {
			carried = t.carried(food)
		}
		for _, b := range carried {
			switch {
			case !slices.Contains(r.what, b.allergen):
			case b.certainty == sure:
				consider(r, true, b.reason)
			default:
				consider(r, false, b.reason+": the label decides")
			}
		}
	}
	return best, found
}

// carbohydrate compares the figures per serving with the share of energy a
// ketogenic or low-carbohydrate diet gets from carbohydrate: 4 kcal a gram
// (21 CFR 101.9(c)(1)(i)(B)). The share is of one dish and such diets are of a
// day, so it never breaks a claim for certain.
func carbohydrate(doc *schema.Document, r claimRow) (Break, bool) {
	var f *schema.Figures
	var whose string
	switch {
	case doc.Macros == nil:
		return Break{}, false
	case doc.Macros.Computed != nil && doc.Macros.Computed.Complete:
		f, whose = &doc.Macros.Computed.Figures, "worked out"
	case doc.Macros.Spoken != nil:
		f, whose = &doc.Macros.Spoken.Figures, "as spoken"
	default:
		return Break{}, false
	}
	net := f.NetCarbsG
	if net == nil {
		net = f.CarbsG
	}
	var limit float64
	if _, err := fmt.Sscan(strings.Join(r.what, ""), &limit); err != nil || net == nil || f.Kcal == nil || *f.Kcal <= 0 {
		return Break{}, false
	}
	share := 100 * 4 * *net / *f.Kcal
	if share <= limit {
		return Break{}, false
	}
	return Break{
		Reason: fmt.Sprintf("%s, %.0f g of net carbohydrate a serving are %.0f per cent of the energy; %s", whose, *net, share, r.reason),
		Source: r.source,
	}, true
}
