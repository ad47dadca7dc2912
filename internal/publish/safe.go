package publish

import (
	"slices"

	"quern/internal/safety"
	"quern/schema"
)

// besides tells what the list of allergens leaves out: what only a label tells,
// what goes when optional things are left out, and what comes with a substitute.
func besides(doc *schema.Document) []string {
	var out []string
	for _, d := range safety.FromLabel(doc) {
		out = append(out, sentence(capital(clean(d.Allergen))+" may come with "+clean(d.Ingredient)+": "+clean(d.Reason)))
	}
	for _, a := range safety.Optional(doc) {
		out = append(out, sentence(capital(clean(a.Name))+" comes only with what is optional: "+join(cleaned(a.From), "and")))
	}
	for _, a := range safety.Substitutes(doc) {
		out = append(out, sentence(capital(clean(a.Name))+" comes with what may be used instead: "+join(cleaned(a.From), "and")))
	}
	return out
}

// breaks tells what speaks against each claim, by the claim's words.
func breaks(doc *schema.Document) map[string][]string {
	out := map[string][]string{}
	for _, b := range safety.ClaimBreaks(doc) {
		line := clean(b.Reason)
		if name := clean(b.Ingredient); name != "" {
			against := "speaks against it"
			if !b.Sure {
				against = "may speak against it"
			}
			line = name + " " + against + ": " + line
		}
		if line = sentence(line); !slices.Contains(out[b.Claim], line) { // two parts may use one food
			out[b.Claim] = append(out[b.Claim], line)
		}
	}
	return out
}
