package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// phraseEnd are words that end the name of a food.
var phraseEnd = words("and or in into with then until till to for on over which that who i you we it they is are was were at from by as so but if when while because before after around about there here off out up down per each goes go now just also plus this these those them the a an your my of not no don't")

// notFood are words a measure can stand before without any food.
var notFood = words("guys fellas lads lasses beauties babies boys girls bits pieces this that it them those these carbs carbohydrate carbohydrates protein fibre fiber calories fat people kids time luck work love patience fun stuff things thing something everything anything mine yours each one ones ingredients paper foil heat mess trouble money space room color colour flavor flavour goodness dough mixture batter mix sauce lid way sort kind size pressure elbow depth length width minutes seconds hours steam smoke fire flame air rest remainder")

// markUnknown takes what a measure with "of" measures for a food even where
// the lexicon has no such name ("two spoons of zhoug"): it becomes an
// ingredient with a flag that asks whether it was heard right. Where the name
// ends is asked of the tagger, only for these sentences.
func (t *talk) markUnknown() {
	for k := range t.quantities {
		q := &t.quantities[k]
		if q.void || !q.of || q.kind != measure || q.ukind == "length" || q.Last >= len(t.toks) || t.toks[q.Last-1].After != 0 {
			continue
		}
		s := t.sentence(q.First)
		i := q.Last
		for i < s.Last && (articleLike[t.norm(i)] || determiners[t.norm(i)] || t.modifier(i) == lexicon.DropWord) {
			i++
		}
		end := i
		for end < s.Last && end < i+4 {
			w := t.norm(end)
			if phraseEnd[w] || notFood[w] || kin[w] || t.mentionAt[end] >= 0 || t.toolAt[end] >= 0 || t.madeAt[end] > 0 || t.quantityAt[end] >= 0 || t.actionWord(end, i) {
				break
			}
			end++
			if t.toks[end-1].After != 0 {
				break
			}
		}
		if end == i || end < len(t.toks) && t.sentOf[min(end, len(t.toks)-1)] == t.sentOf[i] && t.toks[end-1].After == 0 && (t.mentionAt[end] >= 0 || t.madeAt[end] > 0 || t.toolAt[end] >= 0) {
			continue
		}
		if t.tagger {
			end = t.nounEnd(s, i, end)
		} else if end > i+1 {
			end = i + 1
		}
		if end <= i || notFood[t.norm(end-1)] || len(t.norm(end-1)) < 3 || t.pastStory(s) {
			continue
		}
		name := t.phraseHyphen(i, end)
		m := mention{head: language.Span{First: i, Last: end}, Span: language.Span{First: i, Last: end}, name: name, alias: -1, subst: -1}
		if f, kind := t.sortOf(i, end); f != nil {
			m.food, m.name = f, name+" "+kind
		} else {
			t.unknown = append(t.unknown, lexicon.NewFood(name, "other"))
			m.food, m.unknown = &t.unknown[len(t.unknown)-1], true
		}
		t.mentions = append(t.mentions, m)
		for x := i; x < end; x++ {
			t.mentionAt[x] = int32(len(t.mentions) - 1)
		}
	}
	t.nameSorts()
}

// sortReach is how many words before its sort a food may have been named.
const sortReach = 40

// sortOf gives the food of which tokens [i, end) name only the sort, and the word it was
// named by before: "flour, I forgot the flour! Half a cup of plain."
func (t *talk) sortOf(i, end int) (*lexicon.Food, string) {
	for k := i; k < end; k++ {
		if t.modifier(k) != lexicon.NameWord {
			return nil, ""
		}
	}
	for k := i - 1; k >= max(0, i-sortReach); k-- {
		m := t.mentionAt[k]
		if m < 0 || t.mentions[m].negated || t.mentions[m].compared || t.mentions[m].mixed || t.mentions[m].head.Last != k+1 {
			continue
		}
		if f, ok := t.lex.FoodNamed(t.phrase(i, end) + " " + lexicon.Singular(t.norm(k))); ok {
			return f, t.norm(k)
		}
		if t.mentions[m].head.Len() == 1 {
			return t.mentions[m].food, t.norm(k) // "onions next, two of the red"
		}
		return nil, ""
	}
	return nil, ""
}

// nameSorts gives foods named by their sort alone the name of the food they are a sort
// of, where it was just said: "flour in a heap. Four hundred grams, plain old
// all-purpose."
func (t *talk) nameSorts() {
	for k := range t.mentions {
		m := &t.mentions[k]
		if m.unknown || m.negated || m.compared ||
			t.lex.Modifiers[t.phraseHyphen(m.head.First, m.head.Last)] != lexicon.NameWord && t.lex.Modifiers[t.phrase(m.head.First, m.head.Last)] != lexicon.NameWord {
			continue
		}
		ws := m.food.Words()
		if len(ws) < 2 || strings.Contains(m.name, ws[len(ws)-1]) {
			continue
		}
		for i := m.First - 1; i >= max(0, m.First-sortReach); i-- {
			x := t.mentionAt[i]
			if x < 0 || int(x) == k {
				continue
			}
			if o := &t.mentions[x]; o.head.Last == i+1 && lexicon.Singular(t.norm(i)) == ws[len(ws)-1] && !o.negated && !o.compared && !o.mixed && o.head.Len() == 1 {
				m.name += " " + t.norm(i)
				m.sort = true
				if t.norm(m.First-1) == "of" || t.norm(m.First-1) == "the" {
					m.definite = false
				}
			}
			break
		}
	}
}

// actionWord reports whether a cooking verb that can't be a noun stands at i,
// after the first word of the name.
func (t *talk) actionWord(i, first int) bool {
	for _, f := range t.verbs(i) {
		if !f.Action.Noun && f.Form == lexicon.Base && (i > first || !f.Action.Weak) {
			return true
		}
	}
	return false
}

// pastStory reports whether a first or third person past stands before.
func (t *talk) pastStory(s *sentence) bool { return t.sentPast(s) }

// nounEnd asks the tagger where the noun phrase that begins at i ends, at
// most at end; it ends at once where the tagger may not be asked any more.
func (t *talk) nounEnd(s *sentence, i, end int) int {
	from, to := max(s.First, i-8), min(s.Last, end+4)
	words := make([]string, 0, to-from)
	for k := from; k < to; k++ {
		words = append(words, t.norm(k))
	}
	tags, asked := t.tagsOf(words)
	if !asked {
		return i
	}
	if tags == nil {
		return i + 1
	}
	last := i
	for k := i; k < end; k++ {
		tag := tags[k-from]
		if strings.HasPrefix(tag, "NN") {
			last = k + 1
		} else if !strings.HasPrefix(tag, "JJ") && tag != "VBN" && tag != "VBG" && tag != "FW" {
			break
		}
	}
	return last
}

// asksMost and wordsAnAsk bound how often the tagger is asked in a talk: so
// often, and once more for so many words. It takes a third of a millisecond to
// answer, and only what is hardly a talk has so many foods nobody knows.
const (
	asksMost   = 100
	wordsAnAsk = 500
)

// tagsOf asks the tagger about words in a row, the same ones only once; nil
// where it can't be asked. False is for a tagger that was asked too often.
func (t *talk) tagsOf(words []string) ([]string, bool) {
	key := strings.Join(words, " ")
	if tags, ok := t.tagged[key]; ok {
		return tags, true
	}
	if len(t.tagged) >= asksMost+len(t.toks)/wordsAnAsk {
		return nil, false
	}
	if t.tagged == nil {
		t.tagged = make(map[string][]string)
	}
	tags := language.Tags(words)
	t.tagged[key] = tags
	return tags, true
}
