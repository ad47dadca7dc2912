package publish

import (
	"fmt"
	"slices"
	"strings"

	"quern/internal/derive"
	"quern/schema"
)

// oneWay is the document as if it had only the way named: its ingredients and
// steps and what is shared, with the weights, figures, allergens, cautions and
// flags that follow from those. It returns ErrUnknownWay for a way the document
// doesn't have.
func oneWay(doc *schema.Document, opt Options) (*schema.Document, error) {
	if opt.Way == "" {
		return doc, nil
	}
	at := slices.IndexFunc(doc.Ways, func(w schema.Way) bool { return strings.EqualFold(w.Name, opt.Way) })
	if at < 0 {
		var have []string
		for _, w := range doc.Ways {
			have = append(have, w.Name)
		}
		if len(have) == 0 {
			return nil, fmt.Errorf("%w as %q: %q has only one way; leave the way out", ErrUnknownWay, opt.Way, doc.Title)
		}
		return nil, fmt.Errorf("%w as %q in %q: choose %s", ErrUnknownWay, opt.Way, doc.Title, strings.Join(have, ", "))
	}
	out := *doc
	out.Ways = doc.Ways[at : at+1]
	others := map[string]bool{} // moments of what belongs to other ways only
	out.Ingredients, out.Steps, out.Equipment = nil, nil, nil
	tools := map[string]bool{} // by name: whether this way uses it
	ours := map[string]bool{}
	note := func(said []schema.Said, mine bool) {
		for _, s := range said {
			if mine {
				ours[place(s)] = true
			} else {
				others[place(s)] = true
			}
		}
	}
	for _, ing := range doc.Ingredients {
		mine := inWay(ing.Ways, opt.Way)
		note(ing.Said, mine)
		if mine {
			ing.Ways = nil
			out.Ingredients = append(out.Ingredients, ing)
		}
	}
	for _, s := range doc.Steps {
		mine := inWay(s.Ways, opt.Way)
		note(s.Said, mine)
		for _, name := range s.Equipment {
			tools[name] = tools[name] || mine
		}
		if mine {
			s.Ways = nil
			out.Steps = append(out.Steps, s)
		}
	}
	for _, e := range doc.Equipment {
		if used, named := tools[e.Name]; used || !named {
			out.Equipment = append(out.Equipment, e)
		}
	}
	out.Flags = nil
	for _, f := range doc.Flags {
		// A question whose every moment belongs to another way is not about
		// this one.
		elsewhere := len(f.Said) > 0
		for _, s := range f.Said {
			elsewhere = elsewhere && others[place(s)] && !ours[place(s)]
		}
		if !elsewhere {
			out.Flags = append(out.Flags, f)
		}
	}
	if doc.Macros != nil {
		macros := *doc.Macros
		out.Macros = &macros
	}
	derive.Apply(&out, derive.Options{Own: opt.Own})
	return &out, nil
}
