package extract

// A figure can also point back by the words that lead to it, however near the
// one it repeats: as belonging to what was told ("when it has had its thirty
// minutes", "after the six hours"), or as the answer to a question that asks for
// this very figure ("how much salt was in the water? A tablespoon").

// asking are the words that ask for a figure, and the kinds of the answer.
var asking = []struct {
	words string
	kinds []qkind
}{
	{"how much", []qkind{measure, count}},
	{"how many", []qkind{count, measure}},
	{"how long", []qkind{duration}},
	{"how hot", []qkind{heat}},
	{"what temperature", []qkind{heat}},
	{"what heat", []qkind{heat}},
	{"what gas", []qkind{heat}},
}

// answerReach is the most words from a question to the figure that answers it.
const answerReach = 30

// pointed are the figures that say of themselves that they were told before.
type pointed struct {
	question map[int]stretch // what the question spoke of that a figure answers
	own      map[int]bool    // times that something is said to have or to have had
	answers  map[int]int     // by mention asked about: the figure that answers, where it names no food
}

// markPointed marks the figures that point back as reminders.
func (t *talk) markPointed(marks []again) pointed {
	out := pointed{question: map[int]stretch{}, own: map[int]bool{}, answers: map[int]int{}}
	for k := range t.quantities {
		if q := &t.quantities[k]; !q.void && q.kind == duration && marks[q.First] == first && t.itsOwn(q) {
			remind(marks, q.First, q.Last)
			out.own[k] = true
		}
	}
	for _, ask := range asking {
		for i := t.has(0, len(t.toks), ask.words); i >= 0; i = t.has(i+1, len(t.toks), ask.words) {
			t.markAnswer(marks, i, ask.kinds, &out)
		}
	}
	return out
}

// remind marks tokens [a, b) as a reminder where they aren't one yet.
func remind(marks []again, a, b int) {
	for i := a; i < b; i++ {
		if marks[i] == first {
			marks[i] = reminded
		}
	}
}

// itsOwn reports whether a time is spoken of as what something has or had: "its
// thirty minutes", "after the forty minutes", "those two hours".
func (t *talk) itsOwn(q *quantity) bool {
	i := q.First - 1
	switch t.norm(i) {
	case "full", "whole", "good", "long":
		i--
	}
	switch t.norm(i) {
	case "its", "their", "his", "her":
		return true
	case "the", "that", "those", "these":
		return t.has(max(t.sentence(q.First).First, i-5), i, "after", "once", "when", "had") >= 0
	}
	return false
}

// markAnswer marks the figure that answers the question which begins at token i.
func (t *talk) markAnswer(marks []again, i int, kinds []qkind, out *pointed) {
	s := t.sentence(i)
	end := min(len(t.toks), i+answerReach)
	asked := t.askedFood(i+2, s.Last)
	if asked < 0 && kinds[0] != duration && kinds[0] != heat || t.asksOther(i, min(s.Last, i+12)) {
		return
	}
	for k := i + 2; k < end; k++ {
		if int(t.sentOf[k]) > int(t.sentOf[i])+2 || t.sentence(k).other {
			return
		}
		x := t.quantityAt[k]
		if x < 0 || t.quantities[x].First != k {
			continue
		}
		q := &t.quantities[x]
		fits := false
		for _, kind := range kinds {
			fits = fits || q.kind == kind && !q.void && !(kind == count && q.article)
		}
		if !fits || t.punctuated && t.sentOf[k] == t.sentOf[i] {
			continue
		}
		if t.elsewhereFrom(q, i+2) || asked >= 0 && q.food >= 0 && related(t.mentions[q.food].food, t.mentions[asked].food) == 0 {
			return
		}
		remind(marks, q.First, q.Last)
		out.question[int(x)] = t.spokenIn(i, min(s.Last, k))
		switch {
		case asked < 0:
		case q.food >= 0 && q.food != asked:
			remind(marks, t.mentions[q.food].First, t.mentions[q.food].Last)
		default:
			remind(marks, t.mentions[asked].First, t.mentions[asked].Last)
			out.answers[asked] = int(x)
		}
		return
	}
}

// asksOther reports whether the question in tokens [a, b) is about another batch or
// another's: "how much rice for ten people", "how much her mother put".
func (t *talk) asksOther(a, b int) bool {
	if t.hasAny(a, b, anotherCase) >= 0 || t.anothersDoing(a, b) {
		return true
	}
	for i := t.has(a, b, "for"); i >= 0 && i+1 < b; i = t.has(i+1, b, "for") {
		if x := t.quantityAt[i+1]; x >= 0 && t.quantities[x].kind == count {
			return true
		}
	}
	return false
}

// askedFood gives the mention of the food that a question names right after its
// "how much", -1 where it names none.
func (t *talk) askedFood(a, b int) int {
	for i := a; i < min(b, a+4); i++ {
		if m := t.mentionAt[i]; m >= 0 {
			return int(m)
		}
	}
	return -1
}

// with adds what a question spoke of to the words around its answer.
func (s stretch) with(q stretch) stretch {
	merge := func(a, b map[string]bool) map[string]bool {
		out := make(map[string]bool, len(a)+len(b))
		for w := range a {
			out[w] = true
		}
		for w := range b {
			out[w] = true
		}
		return out
	}
	s.verbs, s.nouns, s.words = merge(s.verbs, q.verbs), merge(s.nouns, q.nouns), merge(s.words, q.words)
	if s.noun == "" {
		s.noun = q.noun
	}
	if s.verb == "" {
		s.verb = q.verb
	}
	return s
}
