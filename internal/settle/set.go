package settle

import (
	"fmt"
	"strings"

	"quern/internal/nutrition"
	"quern/schema"
)

// ManyError says that a name fits several things; Choices are names that fit
// one each.
type ManyError struct {
	Name    string
	Choices []string
}

// Error names the choices.
func (e *ManyError) Error() string {
	return fmt.Sprintf("%q could be any of: %s; name one in full", e.Name, strings.Join(e.Choices, ", "))
}

// UnknownError says that a name fits nothing in the recipes.
type UnknownError struct {
	Name  string
	Known []string // what can be set
}

// Error lists what can be set.
func (e *UnknownError) Error() string {
	return fmt.Sprintf("nothing here is called %q; there is %s", e.Name, strings.Join(e.Known, ", "))
}

// target is one thing a name can mean.
type target struct {
	names []string // the first is its name in full
	set   func(text string) error
}

// Set gives the thing called name a value: the yield, an ingredient's amount,
// or the answer to the flag whose subject it is. A name is an ingredient's
// name, id or other name, "NAME (PART)", part of a name where that fits one
// ingredient only, "yield", or a flag's subject; with several recipes
// "NAME, TITLE" tells them apart. It returns a *ManyError or *UnknownError when
// the name does not name one thing, or why the value can't be taken.
func Set(docs []*schema.Document, name, value string, own *nutrition.Own) error {
	t, err := find(docs, name, own)
	if err != nil {
		return err
	}
	value = strings.Join(strings.Fields(value), " ")
	if value == "" {
		return fmt.Errorf("%s: %w", t.names[0], ErrEmpty)
	}
	if err := printable(value); err != nil {
		return fmt.Errorf("%s: %w", t.names[0], err)
	}
	if err := t.set(value); err != nil {
		return fmt.Errorf("%s: %w", t.names[0], err)
	}
	return nil
}

// Resolve gives the full name of the one thing a name means, or the error Set
// would give.
func Resolve(docs []*schema.Document, name string) (string, error) {
	t, err := find(docs, name, nil)
	if err != nil {
		return "", err
	}
	return t.names[0], nil
}

func find(docs []*schema.Document, name string, own *nutrition.Own) (target, error) {
	all := targets(docs, own)
	want := fold(name)
	if want != "" {
		for _, fits := range []func(target) bool{
			func(t target) bool { return fold(t.names[0]) == want },
			func(t target) bool { return anyOf(t.names[1:], func(n string) bool { return fold(n) == want }) },
			func(t target) bool {
				return anyOf(t.names, func(n string) bool { return strings.Contains(" "+fold(n)+" ", " "+want+" ") })
			},
		} {
			var hits []target
			for _, t := range all {
				if fits(t) {
					hits = append(hits, t)
				}
			}
			if len(hits) == 1 {
				return hits[0], nil
			}
			if len(hits) > 1 {
				return target{}, &ManyError{Name: name, Choices: fullNames(hits)}
			}
		}
	}
	return target{}, &UnknownError{Name: name, Known: fullNames(all)}
}

func anyOf(names []string, ok func(string) bool) bool {
	for _, n := range names {
		if ok(n) {
			return true
		}
	}
	return false
}

func fullNames(ts []target) []string {
	out := make([]string, len(ts))
	for i, t := range ts {
		out[i] = t.names[0]
	}
	return out
}

// targets lists everything that can be set. Full names differ from one
// another: by part, then by title, then by id.
func targets(docs []*schema.Document, own *nutrition.Own) []target {
	var all []target
	taken := map[string]bool{}
	add := func(doc *schema.Document, full string, more []string, set func(string) error) {
		if len(docs) > 1 {
			more = append(more, full)
			full += ", " + doc.Title
		}
		for n, plain := 2, full; taken[fold(full)]; n++ {
			full = fmt.Sprintf("%s, no. %d", plain, n)
		}
		taken[fold(full)] = true
		all = append(all, target{append([]string{full}, more...), set})
	}
	for _, doc := range docs {
		claimed := map[string]bool{"yield": true}
		add(doc, "yield", nil, func(v string) error {
			q, err := readYield(v)
			if err != nil {
				return err
			}
			doc.Yield = &q
			settleAll(doc, v, "yield", schema.YieldUnstated, schema.ConflictYield)
			return nil
		})
		alike := map[string]int{}
		for _, ing := range doc.Ingredients {
			alike[fold(ing.Name)]++
		}
		for i := range doc.Ingredients {
			ing := &doc.Ingredients[i]
			claimed[fold(ing.Name)] = true
			full := ing.Name
			if alike[fold(ing.Name)] > 1 {
				full = label(ing)
			}
			more := append([]string{ing.Name, label(ing), ing.ID}, ing.AlsoCalled...)
			add(doc, full, more, func(v string) error { return setIngredient(doc, ing, v, own) })
		}
		for i, f := range doc.Flags {
			if f.Settled != "" || claimed[fold(f.Subject)] || f.Subject == "" || wantsOf(f.Kind) == yield {
				continue
			}
			claimed[fold(f.Subject)] = true
			add(doc, f.Subject, nil, func(v string) error { return Answer(doc, i, v, own) })
		}
	}
	return all
}

// setIngredient gives an ingredient its amount, or settles what else is open
// about it where the value is no amount.
func setIngredient(doc *schema.Document, ing *schema.Ingredient, v string, own *nutrition.Own) error {
	err := setAmount(ing, v)
	if err == nil {
		settleAll(doc, v, ing.Name, schema.ConflictAmount)
		return nil
	}
	for i := range doc.Flags {
		f := &doc.Flags[i]
		if f.Settled == "" && ingredientOf(doc, f) == ing && (wantsOf(f.Kind) != amount || strings.EqualFold(v, AsSaid)) {
			return Answer(doc, i, v, own)
		}
	}
	return err
}

func settleAll(doc *schema.Document, v, subject string, kinds ...string) {
	for i := range doc.Flags {
		f := &doc.Flags[i]
		for _, k := range kinds {
			if f.Kind == k && f.Settled == "" && (wantsOf(k) == yield || same(f.Subject, subject)) {
				f.Settled = v
			}
		}
	}
}
