package settle

import (
	"fmt"
	"strings"

	"quern/schema"
)

// Figures is the macros line: what the amounts give so far. Incomplete
// figures are lower bounds and the line says so.
func Figures(doc *schema.Document) string {
	if doc.Macros == nil || doc.Macros.Computed == nil {
		return "no figures yet"
	}
	c := doc.Macros.Computed
	var b strings.Builder
	switch {
	case c.Servings > 0 && c.Per != "":
		fmt.Fprintf(&b, "per %s (of %s): ", c.Per, number(c.Servings))
	case c.Servings > 0:
		fmt.Fprintf(&b, "per serving (of %s): ", number(c.Servings))
	default:
		b.WriteString("whole recipe: ")
	}
	if !c.Complete {
		b.WriteString("at least ")
	}
	var parts []string
	add := func(name, unit string, v *float64) {
		if v != nil {
			parts = append(parts, strings.TrimSpace(fmt.Sprintf("%s %.0f%s", name, *v, unit)))
		}
	}
	if c.Kcal != nil {
		parts = append(parts, fmt.Sprintf("%.0f kcal", *c.Kcal))
	}
	add("fat", " g", c.FatG)
	add("protein", " g", c.ProteinG)
	add("carbohydrate", " g", c.CarbsG)
	add("fibre", " g", c.FibreG)
	if len(parts) == 0 {
		b.Reset()
		b.WriteString("no figures yet")
	}
	b.WriteString(strings.Join(parts, ", "))
	if len(c.Missing) > 0 {
		b.WriteString("; still without: " + strings.Join(c.Missing, ", "))
	}
	return b.String()
}

func number(v float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", v), "0"), ".")
}
