package publish

import (
	"fmt"
	"math"
	"strings"

	"quern/schema"
)

// span is a length of time, in seconds.
type span struct{ min, max float64 }

func (s span) known() bool { return s.max > 0 }

func (s span) plus(t span) span { return span{s.min + t.min, s.max + t.max} }

// String writes a span as a recipe's head does: 25 min, 1 h 20 min, 22–25 min.
func (s span) write(h hand) string {
	lo, hi := length(s.min), length(s.max)
	if lo == hi {
		return hi
	}
	// "22 min–25 min" is "22–25 min".
	a, b := strings.Fields(lo), strings.Fields(hi)
	if len(a) == 2 && len(b) == 2 && a[1] == b[1] {
		return a[0] + h.dash() + hi
	}
	return lo + " to " + hi
}

func length(s float64) string {
	if s < 60 {
		return decimal(math.Round(s)) + " s"
	}
	minutes := math.Round(s / 60)
	days := math.Floor(minutes / (24 * 60))
	if days >= 2 {
		if hours := math.Round((minutes - days*24*60) / 60); hours > 0 {
			return fmt.Sprintf("%.0f days %.0f h", days, hours)
		}
		return fmt.Sprintf("%.0f days", days)
	}
	hours := math.Floor(minutes / 60)
	minutes -= hours * 60
	switch {
	case hours == 0:
		return fmt.Sprintf("%.0f min", minutes)
	case minutes == 0:
		return fmt.Sprintf("%.0f h", hours)
	}
	return fmt.Sprintf("%.0f h %.0f min", hours, minutes)
}

// iso writes the longer end of a span as an ISO 8601 duration, since a cook
// plans by it.
func (s span) iso() string {
	t := int(math.Round(s.max))
	days, hours, minutes, secs := t/86400, t/3600%24, t/60%60, t%60
	out := "P"
	if days > 0 {
		out += fmt.Sprintf("%dD", days)
	}
	if hours+minutes+secs == 0 && days > 0 {
		return out
	}
	out += "T"
	if hours > 0 {
		out += fmt.Sprintf("%dH", hours)
	}
	if minutes > 0 {
		out += fmt.Sprintf("%dM", minutes)
	}
	if secs > 0 || t == 0 {
		out += fmt.Sprintf("%dS", secs)
	}
	return out
}

// work is what kind of work a time is spent on.
type work int

const (
	handsOn work = iota
	cooking
	resting
)

// kindOf tells what a step's verb makes of the time spent on it.
func kindOf(action string) (work, bool) {
	first, _, _ := strings.Cut(strings.ToLower(action), " ")
	switch first {
	case "bake", "roast", "boil", "simmer", "fry", "deep-fry", "sear", "toast", "grill", "broil", "braise", "steam", "cook", "sauté", "saute", "soften", "sweat",
		"caramelise", "caramelize", "reduce", "brown", "poach", "stew", "microwave", "blanch", "char", "barbecue", "smoke", "stir-fry", "crisp", "melt", "warm",
		"reheat", "heat", "bring", "render", "scald", "parboil", "pressure-cook", "bubble":
		return cooking, true
	case "chill", "rest", "cool", "rise", "prove", "proof", "soak", "marinate", "marinade", "set", "freeze", "refrigerate", "stand", "sit", "infuse", "steep",
		"ferment", "cure", "dry", "thaw", "defrost", "drain", "brine", "leave", "let", "bloom", "hydrate", "autolyse", "macerate", "settle", "firm", "strain":
		return resting, true
	}
	return handsOn, false
}

// timing is how long a recipe takes, as far as it was said.
type timing struct {
	Way                            string // "" for all
	HandsOn, Cooking, Resting, All span
}

// timings adds up the times said, once for each way that differs.
func timings(doc *schema.Document, way string) []timing {
	if way != "" || len(doc.Ways) == 0 {
		if t := timingOf(doc, way); t.All.known() {
			return []timing{t}
		}
		return nil
	}
	var out []timing
	same := true
	for _, w := range doc.Ways {
		t := timingOf(doc, w.Name)
		if !t.All.known() {
			continue
		}
		t.Way = clean(w.Name)
		out = append(out, t)
		first := out[0]
		first.Way = t.Way
		same = same && first == t
	}
	if same && len(out) > 0 {
		out[0].Way = ""
		return out[:1]
	}
	return out
}

func timingOf(doc *schema.Document, way string) timing {
	var t timing
	for i := range doc.Steps {
		s := &doc.Steps[i]
		if s.Optional || !inWay(s.Ways, way) {
			continue
		}
		for _, spent := range spentOn(s) {
			switch spent.work {
			case cooking:
				t.Cooking = t.Cooking.plus(spent.span)
			case resting:
				t.Resting = t.Resting.plus(spent.span)
			default:
				t.HandsOn = t.HandsOn.plus(spent.span)
			}
		}
	}
	t.All = t.HandsOn.plus(t.Cooking).plus(t.Resting)
	return t
}

type spent struct {
	span span
	work work
}

// spentOn reads a step's times: which work each belongs to, by the verb before
// it; whether two are one after the other or a choice ("an hour, or
// overnight"); and not how often something is done ("every 5 minutes").
func spentOn(s *schema.Step) []spent {
	var out []spent
	low := strings.ToLower(clean(s.Text))
	for i := range s.Time {
		q := &s.Time[i]
		per, ok := schema.Seconds(q.Unit)
		if q.Overnight {
			per, ok = 3600, true
		}
		if !ok || q.Vague != "" || q.Max <= 0 {
			continue
		}
		now := spent{span: span{q.Min * per, q.Max * per}}
		place := placeOf(low, q)
		before, after := "", ""
		if place >= 0 {
			before, after = strings.TrimSpace(low[:place]), low[place:]
		}
		if strings.HasSuffix(before, "every") || strings.HasSuffix(before, "each") {
			continue
		}
		if cut := strings.IndexAny(after, ",.;"); cut >= 0 {
			after = after[:cut]
		}
		for _, words := range []string{"per side", "each side", "a side", "on both sides", "either side"} {
			if strings.Contains(after, words) { // two sides: common practice
				now.span = now.span.plus(now.span)
				break
			}
		}
		now.work = workAt(s, before)
		if now.work == cooking && warmsUp(s, before) {
			continue
		}
		choice := strings.HasSuffix(strings.TrimSuffix(before, " for"), " or") || strings.HasSuffix(strings.TrimSuffix(before, " for"), " up to") ||
			(q.Overnight && place < 0)
		if n := len(out) - 1; choice && n >= 0 {
			out[n].span = span{math.Min(out[n].span.min, now.span.min), math.Max(out[n].span.max, now.span.max)}
			continue
		}
		out = append(out, now)
	}
	return out
}

// warmsUp reports whether a time is that of an oven, a stone or a grill coming to its
// heat with no food in it: that goes on beside other work and cooks nothing (common
// practice).
func warmsUp(s *schema.Step, before string) bool {
	if len(s.Uses) > 0 {
		return false
	}
	if i := strings.LastIndexAny(before, ",.;"); i >= 0 {
		before = before[i+1:]
	}
	warms := false
	for _, w := range strings.Fields(before) {
		switch w {
		case "heat", "preheat", "warm":
			warms = true
		case "oven", "stone", "steel", "sheet", "tray", "grill", "griddle", "barbecue", "smoker", "fryer", "waffle", "kiln":
			if warms {
				return true
			}
		}
	}
	return false
}

// workAt is the kind of work named last before a time, or else by the step's
// first verb that names one.
func workAt(s *schema.Step, before string) work {
	found, at := handsOn, -1
	for _, a := range s.Actions {
		kind, _ := kindOf(a)
		stem, _, _ := strings.Cut(strings.ToLower(a), " ")
		if i := strings.LastIndex(before, stem); stem != "" && i > at {
			found, at = kind, i
		}
	}
	if at >= 0 {
		return found
	}
	for _, a := range s.Actions {
		if kind, ok := kindOf(a); ok {
			return kind
		}
	}
	return handsOn
}
