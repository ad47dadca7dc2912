package merge

import (
	"fmt"
	"strings"

	"quern/schema"
)

// changes tells in words what is different between two readings of the same
// recipes, one line a fact, for a person to read before the lines of the files.
func changes(before, after []*schema.Document) []string {
	key := func(d *schema.Document) string { return fold(d.Title) }
	to := match(after, before, []pass[*schema.Document]{{key: key}, {key: func(*schema.Document) string { return "." }}})
	var out []string
	for i, d := range after {
		if to[i] < 0 {
			out = append(out, "new recipe: "+d.Title)
			continue
		}
		facts := changed(before[to[i]], d)
		if len(after) > 1 {
			for n := range facts {
				facts[n] = d.Title + ": " + facts[n]
			}
		}
		out = append(out, facts...)
	}
	met := make([]bool, len(before))
	for _, j := range to {
		if j >= 0 {
			met[j] = true
		}
	}
	for j, ok := range met {
		if !ok {
			out = append(out, "recipe gone: "+before[j].Title)
		}
	}
	return out
}

// amount is a quantity as it reads, "not said" for none.
func amount(q *schema.Quantity) string {
	if q == nil {
		return "not said"
	}
	return q.String()
}

func changed(a, b *schema.Document) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, oneLine(fmt.Sprintf(format, args...))) }
	becomes := func(what, x, y string) {
		if x != y {
			say("%s: %s becomes %s", what, x, y)
		}
	}
	becomes("title", a.Title, b.Title)
	becomes("yield", amount(a.Yield), amount(b.Yield))
	had := map[string]schema.Ingredient{}
	for _, ing := range a.Ingredients {
		had[ing.ID] = ing
	}
	have := map[string]bool{}
	for _, ing := range b.Ingredients {
		have[ing.ID] = true
		old, known := had[ing.ID]
		if !known {
			say("new ingredient: %s, %s", ing.Name, amount(ing.Amount))
			continue
		}
		becomes("name", old.Name, ing.Name)
		becomes(ing.Name, amount(old.Amount), amount(ing.Amount))
		becomes(ing.Name+", preparation", first(old.Preparation, "none"), first(ing.Preparation, "none"))
	}
	for _, ing := range a.Ingredients {
		if !have[ing.ID] {
			say("ingredient gone: %s", ing.Name)
		}
	}
	came, went := differ(a.Steps, b.Steps, func(s schema.Step) string {
		return strings.TrimSpace(s.Text + " " + heat(s))
	})
	for _, s := range came {
		say("new step: %s", s)
	}
	for _, s := range went {
		say("step gone: %s", s)
	}
	came, went = differ(a.Open(), b.Open(), func(f schema.Flag) string { return f.Ask })
	for _, s := range came {
		say("new question: %s", s)
	}
	for _, s := range went {
		say("question gone: %s", s)
	}
	return out
}

func heat(s schema.Step) string {
	var all []string
	for _, q := range s.Temperature {
		all = append(all, q.String())
	}
	for _, q := range s.Time {
		all = append(all, q.String())
	}
	if len(all) == 0 {
		return ""
	}
	return "(" + strings.Join(all, ", ") + ")"
}

// differ lists what only the second list has, and what only the first has, in
// their orders.
func differ[T any](a, b []T, name func(T) string) (came, went []string) {
	count := map[string]int{}
	for _, x := range a {
		count[name(x)]++
	}
	for _, x := range b {
		if n := name(x); count[n] > 0 {
			count[n]--
		} else {
			came = append(came, n)
		}
	}
	for _, x := range a {
		if n := name(x); count[n] > 0 {
			count[n]--
			went = append(went, n)
		}
	}
	return came, went
}
